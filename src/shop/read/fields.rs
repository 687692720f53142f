//! Reading single fields with their places; faults are gathered, a bad field gives nothing.

use std::sync::Arc;

use crate::diag::{Code, Fault, Faults, Source, Span};
use crate::shop::Entry;
use crate::units::{Angle, Kind, Length, RimSpeed, Spindle, Unit, Value, parse};
use crate::yaml::{Step, place};

/// A file being read, with the unit of its bare numbers and the faults so far.
pub(super) struct Fields<'s> {
    source: &'s Arc<Source>,
    unit: Unit,
    pub(super) faults: Faults,
}

/// A field: where it stands, and its text.
#[derive(Clone, Copy)]
pub(super) struct Field<'p> {
    pub(super) path: &'p [Step],
    pub(super) text: &'p str,
}

impl<'p> Field<'p> {
    pub(super) fn new(path: &'p [Step], text: &'p str) -> Self {
        Self { path, text }
    }
}

impl<'s> Fields<'s> {
    pub(super) fn new(source: &'s Arc<Source>, unit: Unit) -> Self {
        Self {
            source,
            unit,
            faults: Faults::new(),
        }
    }

    /// The place of a node.
    pub(super) fn place(&self, path: &[Step]) -> Span {
        place(self.source, path)
    }

    fn value(&mut self, field: Field<'_>, kind: Kind) -> Option<Value> {
        let read = parse(field.text, kind, self.unit);
        let placed = read.map_err(|fault| {
            let label = format!("{} is wanted here", kind.words());
            fault.at(self.place(field.path)).label(label)
        });
        self.faults.keep(placed)
    }

    /// A length from `least` to `most`.
    pub(super) fn length(
        &mut self,
        field: Field<'_>,
        least: Length,
        most: Length,
    ) -> Option<Length> {
        let Some(Value::Length(length)) = self.value(field, Kind::Length) else {
            return None;
        };
        if (least..=most).contains(&length) {
            return Some(length);
        }
        let range = format!("{} mm to {} mm", least.to_mm(), most.to_mm());
        self.out_of_range(field, &range);
        None
    }

    /// A length over nothing, to 10 m.
    pub(super) fn size(&mut self, field: Field<'_>) -> Option<Length> {
        self.length(field, SMALLEST, Length::mm(10_000.0))
    }

    /// A spindle speed.
    pub(super) fn speed(&mut self, field: Field<'_>) -> Option<Spindle> {
        match self.value(field, Kind::Speed) {
            Some(Value::Speed(speed)) => Some(speed),
            _ => None,
        }
    }

    /// A rim speed.
    pub(super) fn rim_speed(&mut self, field: Field<'_>) -> Option<RimSpeed> {
        match self.value(field, Kind::RimSpeed) {
            Some(Value::RimSpeed(speed)) => Some(speed),
            _ => None,
        }
    }

    /// An angle.
    pub(super) fn angle(&mut self, field: Field<'_>) -> Option<Angle> {
        match self.value(field, Kind::Angle) {
            Some(Value::Angle(angle)) => Some(angle),
            _ => None,
        }
    }

    /// A text that is not blank.
    pub(super) fn words(&mut self, field: Field<'_>) -> Option<String> {
        let words = field.text.trim();
        if words.is_empty() {
            let fault = Fault::error(Code::WRONG_TYPE, "this text is blank");
            self.fault(field.path, fault.hint("write it, or take the entry out"));
            return None;
        }
        Some(words.to_owned())
    }

    /// Texts that are not blank; `path` is the list's.
    pub(super) fn texts(&mut self, path: &[Step], texts: &[String]) -> Vec<String> {
        let list = texts.iter().enumerate().filter_map(|(item, text)| {
            let path = at(path, item);
            self.words(Field::new(&path, text))
        });
        list.collect()
    }

    /// An id: small letters, digits, hyphens.
    pub(super) fn id(&mut self, field: Field<'_>) -> Option<String> {
        let good = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        if field.text.starts_with(|c: char| c.is_ascii_lowercase()) && field.text.chars().all(good)
        {
            return Some(field.text.to_owned());
        }
        let message = format!("`{}` cannot be an id", field.text);
        let fault = Fault::error(Code::WRONG_TYPE, message);
        self.fault(
            field.path,
            fault.hint("begin with a small letter, and use small letters, digits and hyphens"),
        );
        None
    }

    /// A whole number from `least` to `most`.
    pub(super) fn whole(
        &mut self,
        path: &[Step],
        number: u32,
        (least, most): (u32, u32),
    ) -> Option<u32> {
        if (least..=most).contains(&number) {
            return Some(number);
        }
        let text = number.to_string();
        self.out_of_range(Field::new(path, &text), &format!("{least} to {most}"));
        None
    }

    /// Notes that a field's value is not within a range, told in words.
    pub(super) fn out_of_range(&mut self, field: Field<'_>, range: &str) {
        let message = format!("`{}` is outside {range}", field.text);
        let fault = Fault::error(Code::OUT_OF_RANGE, message)
            .label(format!("from {range}"))
            .hint("check the figure and its unit");
        self.fault(field.path, fault);
    }

    /// Notes a fault at a node.
    pub(super) fn fault(&mut self, path: &[Step], fault: Fault) {
        let span = self.place(path);
        self.faults.push(fault.at(span));
    }

    /// Notes every entry whose id another one has before it; `key` is the key of the id.
    pub(super) fn no_doubles(&mut self, ids: &[&str], key: &str) {
        for (item, id) in ids.iter().enumerate() {
            if let Some(first) = ids[..item].iter().position(|before| before == id) {
                let first = self.place(&[first.into(), key.into()]);
                let fault = Fault::error(Code::DUPLICATE_ID, format!("`{id}` is used twice"))
                    .label("used again here")
                    .also(first, "first used here")
                    .hint("give one of them another id");
                self.fault(&[item.into(), key.into()], fault);
            }
        }
    }
}

/// The smallest length over nothing.
pub(super) const SMALLEST: Length = Length::nm(1);

/// A path with one more step.
pub(super) fn at(path: &[Step], step: impl Into<Step>) -> Vec<Step> {
    let mut path = path.to_vec();
    path.push(step.into());
    path
}

/// The entries that are whole, without later ones of the same id, and the faults.
pub(super) fn listed<T: Entry>(fields: Fields<'_>, entries: Vec<Option<T>>) -> (Vec<T>, Faults) {
    let mut list: Vec<T> = Vec::new();
    for entry in entries.into_iter().flatten() {
        if list.iter().all(|before| before.id() != entry.id()) {
            list.push(entry);
        }
    }
    (list, fields.faults)
}
