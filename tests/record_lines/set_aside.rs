//! Lines that are torn, taken out, of the future or nonsense: set aside or kept, and told.

use faceside::diag::{Code, Severity};
use faceside::shoplog::{Line, What, next_number};

use crate::{AT, note, read_text, sealed, written};

#[test]
fn a_torn_last_line_is_set_aside_and_the_rest_read() {
    let whole = written(&[note("one"), note("two"), note("three")]);
    let (entries, faults) = read_text(&whole[..whole.len() - 9]);
    assert_eq!(entries.len(), 2);
    let fault = faults.iter().next().unwrap();
    assert_eq!(fault.code, Code::RECORD_LINE);
    assert_eq!(fault.severity, Severity::Warning);
    assert!(fault.message.contains("torn"));
    assert_eq!(fault.span.as_ref().unwrap().line_column(), (3, 1));
    assert_eq!(next_number(&entries), 3);
}

#[test]
fn what_is_appended_after_a_torn_line_is_read() {
    let whole = written(&[note("one"), note("two")]);
    let torn = &whole[..whole.len() - 30];
    let (entries, _) = read_text(torn);
    let line = Line::new(next_number(&entries), AT).unwrap();
    let added = line.write(&note("again")).unwrap();
    let (entries, faults) = read_text(&format!("{torn}\n{added}"));
    assert_eq!(entries.len(), 2);
    assert_eq!(entries[1].what, What::Known(note("again")));
    assert_eq!(faults.len(), 1);
}

#[test]
fn a_line_that_was_taken_out_is_missed() {
    let text = written(&[note("one"), note("two"), note("three")]);
    let lines: Vec<_> = text.lines().collect();
    let (entries, faults) = read_text(&format!("{}\n{}\n", lines[0], lines[2]));
    assert_eq!(entries.len(), 2);
    assert_eq!(faults.len(), 1);
    let fault = faults.iter().next().unwrap();
    assert!(fault.message.contains("number 2"));
    assert_eq!(fault.span.as_ref().unwrap().line_column(), (2, 1));
}

#[test]
fn lines_of_the_future_are_kept_and_told() {
    let later = sealed(r#"{"v":2,"n":1,"at":"2031-01-01T00:00:00Z","kind":"note","said":[1]"#);
    let other = sealed(r#"{"v":1,"n":2,"at":"2031-01-01T00:00:00Z","kind":"sharpened","by":"X""#);
    let now = Line::new(3, AT).unwrap().write(&note("now")).unwrap();
    let (entries, faults) = read_text(&format!("{later}{other}{now}"));
    assert_eq!(entries.len(), 3);
    assert_eq!(faults.len(), 2);
    let kept = What::Unknown {
        version: 1,
        kind: "sharpened".to_owned(),
        text: other.trim_end().to_owned(),
    };
    assert!(matches!(entries[0].what, What::Unknown { version: 2, .. }));
    assert_eq!(entries[1].what, kept);
    assert_eq!(entries[2].what, What::Known(note("now")));
}

#[test]
fn a_sound_check_sum_over_nonsense_is_set_aside() {
    for body in [
        "{",
        "[1]",
        r#"{"v":1"#,
        r#"{"v":1,"n":-1,"at":"x","kind":"note""#,
        "",
    ] {
        let (entries, faults) = read_text(&sealed(body));
        assert!(entries.is_empty());
        assert_eq!(faults.len(), 1);
        assert!(!faults.any_error());
    }
}

#[test]
fn line_ends_of_other_systems_do_no_harm() {
    let text = written(&[note("one"), note("two")]).replace('\n', "\r\n");
    let (entries, faults) = read_text(&format!("{text}\r\n"));
    assert_eq!(entries.len(), 2);
    assert!(faults.is_empty());
}
