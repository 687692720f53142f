//! How a line is written, and what may stand in it: people, days, times, limits.

use faceside::diag::Code;
use faceside::shoplog::{Day, Line, Person, Verdict, What};
use faceside::units::Length;

use crate::{AT, note, person, plain_crc, read_text, sealed, written};

#[test]
fn the_plain_crc_gives_the_published_check_value() {
    // Catalogue of parametrised CRC algorithms, CRC-32/ISO-HDLC, check over "123456789"
    // (from memory).
    assert_eq!(plain_crc(b"123456789"), 0xCBF4_3926);
}

#[test]
fn a_line_is_written_in_the_stated_form() {
    let body = concat!(
        r#"{"v":1,"n":1,"at":"2026-11-25T09:10:00Z","kind":"note","by":"BK","about":null,"#,
        r#""text":"fence creeps""#
    );
    assert_eq!(written(&[note("fence creeps")]), sealed(body));
}

#[test]
fn a_line_feed_in_a_note_does_not_split_its_line() {
    let event = note("one\ntwo\r\n\u{1b}[31m \u{1f6f6}");
    let text = written(std::slice::from_ref(&event));
    assert_eq!(text.matches('\n').count(), 1);
    let (entries, faults) = read_text(&text);
    assert!(faults.is_empty());
    assert_eq!(entries[0].what, What::Known(event));
}

#[test]
fn limits_are_good_values() {
    let [low, high] = [Length::mm(9.4), Length::mm(9.5)];
    assert_eq!(Verdict::of(low, low, high), Verdict::In);
    assert_eq!(Verdict::of(high, low, high), Verdict::In);
    assert_eq!(Verdict::of(low - Length::nm(1), low, high), Verdict::Low);
    assert_eq!(Verdict::of(high + Length::nm(1), low, high), Verdict::High);
}

#[test]
fn people_are_ids_and_nothing_else() {
    for id in ["A", "BK", "A07", "12345678"] {
        assert_eq!(person(id).id(), id);
    }
    for not_id in ["", "123456789", "B K", "B.", "Ł", "a\n", "\u{1f6f6}"] {
        let fault = Person::new(not_id).unwrap_err();
        assert_eq!(fault.code, Code::WRONG_TYPE);
        assert!(!fault.message.contains(&format!("`{not_id}`")));
    }
}

#[test]
fn a_name_in_a_line_is_not_taken_for_a_person() {
    let text = sealed(concat!(
        r#"{"v":1,"n":1,"at":"2026-11-25T09:10:00Z","kind":"note","by":"A. Sailor","#,
        r#""about":null,"text":"x""#
    ));
    let (entries, faults) = read_text(&text);
    assert!(matches!(entries[0].what, What::Unknown { .. }));
    assert_eq!(faults.len(), 1);
}

#[test]
fn days_are_in_the_calendar() {
    // Gregorian calendar: 2028 is a leap year, 2100 is not.
    assert!(Day::new("2028-02-29").is_ok());
    for not_day in [
        "2100-02-29",
        "2026-13-01",
        "26-11-25",
        "2026-1-5",
        "20261125",
        "soon",
        "",
    ] {
        assert!(Day::new(not_day).is_err(), "{not_day}");
    }
    assert!(Day::new("2026-11-25").unwrap() < Day::new("2026-12-01").unwrap());
}

#[test]
fn times_are_rfc_3339() {
    // RFC 3339 section 5.6 and its examples in 5.8 (from memory).
    for time in ["1985-04-12T23:20:50.52Z", "1996-12-19T16:39:57-08:00", AT] {
        assert_eq!(Line::new(1, time).unwrap().at(), time);
    }
    let not_times = [
        "",
        "2026-11-25",
        "2026-11-25T09:10:00",
        "2026-11-25 09:10:00Z",
        "2026-11-31T09:10:00Z",
        "2026-11-25T09:10Z",
        "20261125T091000Z",
        "2026-11-25T09:10:00+01",
        "2026-11-25T09:10:00Z\"",
        "2026-11-25T09:10:00+01:00[Europe/Paris]",
    ];
    for time in not_times {
        let fault = Line::new(1, time).unwrap_err();
        assert_eq!(fault.code, Code::WRONG_TYPE, "{time}");
    }
}
