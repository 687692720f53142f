//! Values as a person reads them: unit of the shop, step of the tool, direction by role.

use crate::units::{Length, Role, Scale, Value};

/// A value as text, and how it was rounded (empty when nothing was).
pub(super) fn show(value: &Value, scale: Scale, role: Role) -> (String, String) {
    match value {
        Value::Length(length) => {
            let shown = scale.show(*length, role.towards());
            let rounded = shown.remainder.abs() > Length::nm(10);
            let words = if rounded { role.words() } else { "" };
            (shown.text, words.to_owned())
        }
        Value::Lengths(lengths) => {
            let texts: Vec<_> = lengths
                .iter()
                .map(|length| scale.show(*length, role.towards()).text)
                .collect();
            (texts.join(", "), role.words().to_owned())
        }
        Value::Speed(speed) => {
            let hundreds = (speed.to_rpm() / 100.0).floor() * 100.0;
            let rounded = speed.to_rpm() - hundreds > 0.5;
            let words = if rounded {
                "rounded down to 100 rpm"
            } else {
                ""
            };
            (format!("{hundreds:.0} rpm"), words.to_owned())
        }
        Value::Angle(angle) => (
            format!("{} deg", trimmed(angle.to_degrees(), 2)),
            String::new(),
        ),
        Value::RimSpeed(speed) => (
            format!("{} m/s", trimmed(speed.to_metres_per_second(), 1)),
            String::new(),
        ),
        Value::Feed(feed) => (
            format!("{} m/min", trimmed(feed.to_metres_per_minute(), 1)),
            String::new(),
        ),
        Value::Amount(amount) => {
            let (number, unit) = amount.usual(scale.unit());
            (format!("{} {unit}", trimmed(number, 1)), String::new())
        }
        Value::Count(count) => (count.to_string(), String::new()),
        Value::Number(number) => (trimmed(*number, 4), String::new()),
        Value::Choice(word) => (word.clone(), String::new()),
        Value::Truth(truth) => (if *truth { "yes" } else { "no" }.to_owned(), String::new()),
    }
}

/// A number with at most so many decimals, none of them a trailing nought.
fn trimmed(number: f64, places: usize) -> String {
    let text = format!("{number:.places$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}
