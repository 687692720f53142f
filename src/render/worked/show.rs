//! Values as a person reads them: rounded in the direction of their role, or in full.

use crate::joints::Output;
use crate::units::{Kind, Length, Role, Scale, Shown, Towards, Unit, Value};

/// A result rounded in the direction of its role.
pub(super) fn shown(output: &Output, value: &Value, scale: Scale) -> String {
    match value {
        Value::Length(length) => show_length(output, *length, scale).text,
        Value::Lengths(lengths) => {
            let items = lengths.iter().enumerate();
            let texts = items.map(|(at, length)| scale.show(*length, output.towards_at(at)).text);
            texts.collect::<Vec<_>>().join("; ")
        }
        Value::Speed(speed) if output.role == Role::Speed => {
            format!("{:.0} rpm", (speed.to_rpm() + 1e-6).floor())
        }
        Value::Feed(feed) if output.role == Role::Speed => {
            let tenths = (feed.to_metres_per_minute() * 10.0 + 1e-6).floor();
            format!("{:.1} m/min", tenths / 10.0)
        }
        Value::Angle(angle) => format!("{:.2} deg", angle.to_degrees()),
        Value::RimSpeed(speed) => format!("{:.2} m/s", speed.to_metres_per_second()),
        Value::Number(number) => format!("{number:.4}"),
        Value::Amount(amount) => {
            let (number, unit) = amount.usual(scale.unit());
            format!("{number:.1} {unit}")
        }
        _ => full(value, scale),
    }
}

/// A value as it is, without rounding that would matter.
pub(in super::super) fn full(value: &Value, scale: Scale) -> String {
    let unit = |number: f64, unit: &str| format!("{} {unit}", to_millionth(number));
    match value {
        Value::Length(length) => full_length(*length, scale),
        Value::Lengths(lengths) => {
            let texts = lengths.iter().map(|length| full_length(*length, scale));
            texts.collect::<Vec<_>>().join("; ")
        }
        // Finer than any scale, so that a slope such as 1 in 6 is no row of digits.
        Value::Angle(angle) => unit((angle.to_degrees() * 1e4).round() / 1e4, "deg"),
        Value::Speed(speed) => unit(speed.to_rpm(), "rpm"),
        Value::RimSpeed(speed) => unit(speed.to_metres_per_second(), "m/s"),
        Value::Feed(feed) => unit(feed.to_metres_per_minute(), "m/min"),
        Value::Amount(amount) => {
            let (number, name) = amount.usual(scale.unit());
            unit(number, name)
        }
        Value::Count(count) => count.to_string(),
        Value::Number(number) => to_millionth(*number).to_string(),
        Value::Choice(word) => word.clone(),
        Value::Truth(true) => "yes".to_owned(),
        Value::Truth(false) => "no".to_owned(),
    }
}

/// A length as the scale shows it when it is on the scale, else as a decimal of the scale's unit to
/// its last digit.
pub(super) fn full_length(length: Length, scale: Scale) -> String {
    let shown = scale.show(length, Towards::Nearest);
    if shown.remainder == Length::ZERO && !matches!(scale, Scale::Mm { .. }) {
        return shown.text;
    }
    match scale.unit() {
        Unit::Mm => format!("{} mm", length.to_mm()),
        Unit::Inch => format!("{} in", to_millionth(length.to_inches())),
    }
}

/// A result that is a length: on the reader's scale, but one that nothing is set by, such as the
/// travel for a tooth, in finer steps where few steps of the scale would say little of it.
pub(super) fn show_length(output: &Output, length: Length, scale: Scale) -> Shown {
    let towards = output.role.towards();
    let few = Length::nm(scale.step().to_nm().saturating_mul(10));
    match towards {
        Towards::Nearest if length.abs() < few => fine_scale(scale).show(length, towards),
        _ => scale.show(length, towards),
    }
}

/// A small length to 0.001 mm or 0.0001 in.
pub(super) fn fine(length: Length, scale: Scale) -> String {
    fine_scale(scale).show(length, Towards::Nearest).text
}

fn fine_scale(scale: Scale) -> Scale {
    let step = match scale.unit() {
        Unit::Mm => Length::nm(1_000),
        Unit::Inch => Length::nm(2_540),
    };
    Scale::new(scale.unit(), step)
}

/// Without binary noise.
pub(super) fn to_millionth(number: f64) -> f64 {
    (number * 1e6).round() / 1e6
}

/// How a result is rounded, which a word is not; a list of an opening's passes rounds its first
/// item the other way.
pub(super) fn rounding_words(output: &Output) -> &'static str {
    match output.towards_at(0) {
        _ if output.kind == Kind::Choice => "",
        towards if towards == output.role.towards() => output.role.words(),
        _ if output.kind == Kind::Lengths => "first rounded up, others down",
        _ => output.role.words(),
    }
}
