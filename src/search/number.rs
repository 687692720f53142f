//! Numbers in running text as words that can be found: `3/4`, `0.75 in` and `¾"` are one.
//!
//! A length becomes its nanometres (so notations meet exactly), its whole millimetres from 3 mm
//! up (so 3/4 in and 19 mm meet, at a lower weight), and the bare number. A bare fraction with
//! the parts of a rule is read as inches. Angles, speeds and slopes become number and unit; any
//! other number stays as it is written. Reading a length is left to `units::parse`.

use crate::units::{Kind, Length, Unit, Value, length_unit, parse};

/// A number at the start of a text.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Number {
    /// Bytes that it takes, its unit among them.
    pub(super) bytes: usize,
    /// The number itself: a length in nanometres, or number and unit.
    pub(super) exact: String,
    /// The length to the nearest millimetre.
    pub(super) about: Option<String>,
    /// The number without its unit.
    pub(super) bare: String,
}

/// Fractions of one sign.
pub(super) const SIGNS: &[char] = &['½', '¼', '¾', '⅛', '⅜', '⅝', '⅞'];
/// Units that are no lengths, as written and as kept; longer ones stand before their beginnings.
pub(super) const UNITS: &[(&str, &str)] = &[
    ("degrees", "deg"),
    ("degree", "deg"),
    ("deg", "deg"),
    ("°", "deg"),
    ("rev/min", "rpm"),
    ("r/min", "rpm"),
    ("rpm", "rpm"),
    ("m/s", "m/s"),
    ("m/min", "m/min"),
    ("ft/min", "ft/min"),
];

/// Names of the units of length.
const LENGTHS: &[&str] = &[
    "mm", "cm", "m", "in", "inch", "inches", "\"", "″", "”", "ft", "foot", "feet", "'", "′", "’",
    "thou",
];

/// The units of length with their nanometres.
pub(super) fn lengths() -> Vec<(&'static str, i64)> {
    let known = LENGTHS.iter();
    known
        .filter_map(|name| Some((*name, length_unit(name)?)))
        .collect()
}

/// Whether a number may begin with this character.
pub(super) fn begins(first: char, next: Option<char>) -> bool {
    first.is_ascii_digit()
        || SIGNS.contains(&first)
        || (first == '.' && next.is_some_and(|c| c.is_ascii_digit()))
}

/// The number that `text` begins with; `begins` must hold.
pub(super) fn read(text: &str) -> Number {
    let end = number_end(text);
    let bare = text[..end].to_owned();
    let rest = &text[end..];
    let gap = rest
        .strip_prefix('-')
        .unwrap_or(rest.trim_start_matches(' '));
    let (blanks, after) = (rest.len() - gap.len(), gap);
    if let Some((slope, bytes)) = slope(&bare, rest) {
        return plain(end + bytes, slope, bare);
    }
    for (written, kept) in UNITS {
        if after.starts_with(written) && stands_alone(&after[written.len()..]) {
            let exact = format!("{}{kept}", bare.replace(',', ""));
            return plain(end + blanks + written.len(), exact, bare);
        }
    }
    let unit = unit_bytes(after);
    let (bytes, shop) = match unit {
        0 => (end, Unit::Inch),
        unit => (end + blanks + unit, Unit::Mm),
    };
    let is_length = unit > 0 || bare.contains('/') || bare.ends_with(SIGNS);
    let length = format!("{bare} {}", &after[..unit]);
    match parse(&length, Kind::Length, shop) {
        Ok(Value::Length(length)) if is_length => Number {
            bytes,
            exact: format!("{}nm", length.to_nm()),
            about: about(length),
            bare,
        },
        _ => plain(bytes, bare.clone(), bare),
    }
}

fn plain(bytes: usize, exact: String, bare: String) -> Number {
    Number {
        bytes,
        exact,
        about: None,
        bare,
    }
}

/// Below 3 mm a millimetre more or less is another thing, not the same one roughly.
fn about(length: Length) -> Option<String> {
    (length >= Length::nm(3_000_000)).then(|| format!("about {:.0} mm", length.to_mm()))
}

/// Digits with point or comma, then a fraction of its own or after a blank or hyphen.
fn number_end(text: &str) -> usize {
    let first = decimal_end(text);
    let rest = &text[first..];
    if first > 0 && rest.starts_with('/') {
        let under = digits(&rest[1..]);
        return if under > 0 { first + 1 + under } else { first };
    }
    let gap = usize::from(first > 0 && rest.starts_with([' ', '-']));
    let part = &rest[gap..];
    if let Some(sign) = part.chars().next().filter(|c| SIGNS.contains(c)) {
        return first + gap + sign.len_utf8();
    }
    let over = digits(part);
    if over > 0 && gap > 0 && part[over..].starts_with('/') {
        let under = digits(&part[over + 1..]);
        if under > 0 {
            return first + gap + over + 1 + under;
        }
    }
    first
}

fn decimal_end(text: &str) -> usize {
    let mut end = digits(text);
    while text[end..].starts_with(['.', ',']) {
        let more = digits(&text[end + 1..]);
        if more == 0 {
            break;
        }
        end += 1 + more;
    }
    end
}

fn digits(text: &str) -> usize {
    text.find(|c: char| !c.is_ascii_digit())
        .unwrap_or(text.len())
}

/// Bytes of the length unit that the text begins with, 0 for none.
fn unit_bytes(text: &str) -> usize {
    let sign = text.chars().next().map_or(0, char::len_utf8);
    let letters = text
        .find(|c: char| !c.is_alphabetic())
        .unwrap_or(text.len());
    let end = if letters > 0 { letters } else { sign };
    let known = length_unit(&text[..end].to_lowercase()).is_some();
    if known && stands_alone(&text[end..]) {
        end
    } else {
        0
    }
}

/// `m` of `m/s` is no metre.
fn stands_alone(rest: &str) -> bool {
    !rest.starts_with(|c: char| c.is_alphanumeric() || c == '/')
}

/// `1 in 8` and `1:8` are one slope; gives it with the bytes it takes after its first number.
fn slope(first: &str, rest: &str) -> Option<(String, usize)> {
    let run = rest.strip_prefix(" in ").or(rest.strip_prefix(':'))?;
    let end = decimal_end(run);
    let bytes = rest.len() - run.len() + end;
    (end > 0 && unit_bytes(run[end..].trim_start()) == 0)
        .then(|| (format!("{first}:{}", &run[..end]), bytes))
}
