//! The day of a line of the record: the day that whoever wrote it had, wherever that is.
//!
//! The zone of the program is set by `TZ` as POSIX has it (Base Definitions 8.3, from memory:
//! `<name>offset`, the offset being what is added to local time to give UTC), so that its midnight is
//! a minute ago or in ten minutes, whatever the hour is in UTC.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files and the clock itself"
)]

mod util;

use std::path::Path;
use std::time::{SystemTime, UNIX_EPOCH};

use faceside::store::record_file;
use util::{Folder, program};

const DAY: i64 = 24 * 60;

/// Minutes since 1970-01-01T00:00Z.
fn now() -> i64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap();
    i64::try_from(since.as_secs() / 60).unwrap()
}

/// The calendar day so many days after 1970-01-01, counted day by day through the Gregorian years.
fn calendar(mut days: i64) -> String {
    let leap = |year: i64| year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let mut year = 1970;
    while days >= 365 + i64::from(leap(year)) {
        days -= 365 + i64::from(leap(year));
        year += 1;
    }
    let february = 28 + i64::from(leap(year));
    let mut month = 1;
    for length in [31, february, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] {
        if days < length {
            break;
        }
        days -= length;
        month += 1;
    }
    format!("{year}-{month:02}-{:02}", days + 1)
}

/// A zone this many minutes ahead of UTC, as `TZ` has it and as RFC 3339 writes it.
fn zone(ahead: i64) -> (String, String) {
    let (hours, minutes) = (ahead.abs() / 60, ahead.abs() % 60);
    let offset = format!("{hours:02}:{minutes:02}");
    let signs = if ahead < 0 { ('+', '-') } else { ('-', '+') };
    (
        format!("<here>{}{offset}", signs.0),
        format!("{}{offset}", signs.1),
    )
}

/// Runs the program there; gives what it says.
fn run(folder: &Folder, tz: &str, arguments: &[&str]) -> String {
    let mut program = program();
    let out = program
        .args(arguments)
        .env("TZ", tz)
        .current_dir(folder.path())
        .output()
        .unwrap();
    assert!(out.status.success(), "{out:?}");
    String::from_utf8(out.stdout).unwrap()
}

/// A line written there, and what is shown of it there and elsewhere.
#[track_caller]
fn written(ahead: i64) {
    let folder = Folder::empty();
    folder.run(&["start"]).code(0);
    let (tz, offset) = zone(ahead);
    let began = now();
    let note = [
        "record",
        "note",
        "by=BK",
        "about=first-procedure",
        "text=the fence creeps",
    ];
    run(&folder, &tz, &note);
    let day = calendar((began + ahead).div_euclid(DAY));
    let file = format!("record/{}.jsonl", &day[..4]);
    let line: serde_json::Value = serde_json::from_str(folder.read(&file).trim()).unwrap();
    let at = line["at"].as_str().unwrap();
    assert!(
        at.starts_with(&day) && at.ends_with(&offset),
        "{at} {day} {offset}"
    );
    // The instant is exact: within a minute or two of the clock, by another reckoning.
    let clock: Vec<i64> = at[11..16]
        .split(':')
        .map(|part| part.parse().unwrap())
        .collect();
    let of_day = clock[0] * 60 + clock[1] - ahead;
    let late = (of_day - began).rem_euclid(DAY);
    assert!(late < 3, "{at} is {late} minutes late");
    // The same day there and elsewhere, and in what is printed there.
    for tz in [&*tz, "UTC0", "<far>-13:45", "<far>+11:00"] {
        let list = run(&folder, tz, &["record", "list"]);
        assert!(list.contains(&format!("  {day}  note;")), "{tz}: {list}");
    }
    let job = run(&folder, &tz, &["print", "--json", "--plain"]);
    let job: serde_json::Value = serde_json::from_str(&job).unwrap();
    assert_eq!(job["date"], day);
}

#[test]
fn the_day_of_a_line_is_the_day_where_it_was_written() {
    assert_eq!(calendar(0), "1970-01-01");
    // 2024 was a leap year: 54 years of 365 days and 13 leap days before it, 31 of January, 28.
    assert_eq!(calendar(54 * 365 + 13 + 31 + 28), "2024-02-29");
    let of_day = now().rem_euclid(DAY);
    // A minute after midnight, west of Greenwich or at it; ten minutes before it, east.
    written(1 - of_day);
    written(DAY - 10 - of_day);
    // The farthest zones that are lived in (from memory): one of them has another day than UTC.
    written(14 * 60);
    written(-11 * 60);
}

#[test]
fn the_file_is_that_of_the_same_days_year() {
    let shop = Path::new("shop");
    for (at, file) in [
        // Still the old year in UTC, and then already the new one.
        ("2027-01-01T00:10:00+13:00", "shop/record/2027.jsonl"),
        ("2026-12-31T23:50:00-11:00", "shop/record/2026.jsonl"),
        ("2026-12-31T23:50:00Z", "shop/record/2026.jsonl"),
    ] {
        assert_eq!(record_file(shop, at), Path::new(file));
    }
}
