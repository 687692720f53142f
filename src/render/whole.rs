//! Keeps on one line what is read as one: a number and its unit, a whole number and its fraction,
//! the number of a sheet, a step or a page after its word, and the dot after what it follows.
//!
//! The blank between them becomes one that does not break (U+00A0). `paper.rs` reckons with it.

use std::borrow::Cow;

const STAYS: char = '\u{a0}';

/// What stands after a number.
const UNITS: [&str; 22] = [
    "mm", "cm", "m", "in", "ft", "%", "°", "deg", "rpm", "m/s", "m/min", "ft/min", "GPa", "MPa",
    "N", "kg", "g", "h", "min", "s", "°C", "mm/m",
];

/// What stands before one.
const NUMBERED: [&str; 10] = [
    "sheet", "Sheet", "step", "Step", "part", "Part", "p.", "pp.", "no.", "reg",
];

/// The text with such blanks kept.
pub(super) fn whole(text: &str) -> Cow<'_, str> {
    let mut kept = String::new();
    let mut from = 0;
    for (at, _) in text.match_indices(' ') {
        if is_one(&text[..at], &text[at + 1..]) {
            kept.push_str(&text[from..at]);
            kept.push(STAYS);
            from = at + 1;
        }
    }
    if from == 0 {
        return Cow::Borrowed(text);
    }
    kept.push_str(&text[from..]);
    Cow::Owned(kept)
}

/// Whether what ends here and what begins after the blank are read as one.
fn is_one(before: &str, after: &str) -> bool {
    if after.starts_with("· ") {
        return true;
    }
    if after.starts_with(|one: char| one.is_ascii_digit()) {
        let word = before.rsplit([' ', '(', STAYS]).next().unwrap_or_default();
        return NUMBERED.contains(&word) || (ends_in_digit(before) && is_fraction(after));
    }
    if !ends_in_digit(before) {
        return false;
    }
    let end = after.find(|one: char| !(one.is_alphabetic() || matches!(one, '%' | '°' | '/')));
    UNITS.contains(&&after[..end.unwrap_or(after.len())])
}

fn ends_in_digit(text: &str) -> bool {
    text.ends_with(|one: char| one.is_ascii_digit())
}

/// Whether the text begins as `3/4` does.
fn is_fraction(text: &str) -> bool {
    let rest = text.trim_start_matches(|one: char| one.is_ascii_digit());
    let denominator = rest.strip_prefix('/').unwrap_or_default();
    denominator.starts_with(|one: char| one.is_ascii_digit())
}
