//! `cutters.yaml`: what is marked on each cutter and what was measured.

use std::sync::Arc;

use serde::Deserialize;

use super::fields::{Field, Fields, SMALLEST, at, listed};
use crate::diag::{Code, Fault, Faults, Source, Span};
use crate::shop::{Cutter, Measured, Shape};
use crate::units::{Angle, Length, Spindle, Unit};
use crate::yaml::{Step, key_place, read};

/// Shanks that router collets are made for: metric, then 1/4, 3/8 and 1/2 in (common practice, no
/// source).
const SHANKS: [Length; 6] = [
    Length::nm(6_000_000),
    Length::nm(6_350_000),
    Length::nm(8_000_000),
    Length::nm(9_525_000),
    Length::nm(12_000_000),
    Length::nm(12_700_000),
];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawCutter {
    cutter: String,
    name: String,
    shape: RawShape,
    marked: String,
    measured: Option<RawMeasured>,
    angle: Option<String>,
    cutting_length: String,
    shank: String,
    marked_speed: Option<String>,
    flutes: u32,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
enum RawShape {
    Straight,
    Dovetail,
    Rebate,
    Slot,
    Profile,
    DadoHead,
    SawBlade,
    Drill,
    MortiseChisel,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawMeasured {
    size: String,
    on: String,
    with: String,
}

/// Reads `cutters.yaml`: all cutters that are whole, and all faults. A bare length takes `unit`.
pub fn read_cutters(source: &Arc<Source>, unit: Unit) -> (Vec<Cutter>, Faults) {
    let raw: Vec<RawCutter> = match read(source) {
        Ok(raw) => raw,
        Err(faults) => return (Vec::new(), faults),
    };
    let mut fields = Fields::new(source, unit);
    let ids: Vec<_> = raw.iter().map(|raw| raw.cutter.as_str()).collect();
    fields.no_doubles(&ids, "cutter");
    let cutters = raw
        .iter()
        .enumerate()
        .map(|(item, raw)| {
            let path = [item.into()];
            let first_key = key_place(source, &at(&path, "cutter"));
            raw.cutter(&path, first_key, &mut fields)
        })
        .collect();
    listed(fields, cutters)
}

impl RawCutter {
    fn cutter(&self, path: &[Step], head: Span, fields: &mut Fields<'_>) -> Option<Cutter> {
        let keys = [
            "cutter",
            "name",
            "marked",
            "cutting_length",
            "shank",
            "flutes",
        ];
        let [id, name, marked, cutting_length, shank, flutes] = keys.map(|key| at(path, key));
        let shape = self.shape.shape();
        let id = fields.id(Field::new(&id, &self.cutter));
        let name = fields.words(Field::new(&name, &self.name));
        let marked = fields.length(Field::new(&marked, &self.marked), SMALLEST, largest(shape));
        let measured = self.measured(shape, marked, path, fields);
        let angle = self.angle(shape, path, &head, fields);
        let cutting_length = fields.length(
            Field::new(&cutting_length, &self.cutting_length),
            SMALLEST,
            Length::mm(400.0),
        );
        let shank = self.shank(shape, &shank, fields);
        let marked_speed = self.marked_speed(path, head, fields);
        let flutes = fields.whole(&flutes, self.flutes, (1, 200));
        Some(Cutter {
            id: id?,
            name: name?,
            shape,
            marked: marked?,
            measured: measured?,
            angle: angle?,
            cutting_length: cutting_length?,
            shank: shank?,
            marked_speed: marked_speed?,
            flutes: flutes?,
        })
    }

    /// Outer nothing: a fault; inner nothing: never measured.
    fn measured(
        &self,
        shape: Shape,
        marked: Option<Length>,
        path: &[Step],
        fields: &mut Fields<'_>,
    ) -> Option<Option<Measured>> {
        let Some(raw) = &self.measured else {
            return Some(None);
        };
        let path = at(path, "measured");
        let [size_path, on_path, with_path] = ["size", "on", "with"].map(|key| at(&path, key));
        let size = fields.length(Field::new(&size_path, &raw.size), SMALLEST, largest(shape));
        let on = date(Field::new(&on_path, &raw.on), fields);
        let with = fields.words(Field::new(&with_path, &raw.with));
        if let (Some(size), Some(marked)) = (size, marked)
            && (size - marked).abs() > marked.times(0.1)
        {
            let message = format!("`{}` is more than a tenth off the marked size", raw.size);
            let warning = Fault::warning(Code::OUT_OF_RANGE, message)
                .label(format!("marked `{}`", self.marked))
                .hint("measure again, or check that it is this cutter");
            fields.fault(&size_path, warning);
        }
        Some(Some(Measured {
            size: size?,
            on: on?,
            with: with?,
        }))
    }

    /// A dovetail cutter has an angle from 1 to 45 degrees, no other cutter has one.
    fn angle(
        &self,
        shape: Shape,
        path: &[Step],
        head: &Span,
        fields: &mut Fields<'_>,
    ) -> Option<Option<Angle>> {
        let path = at(path, "angle");
        match (&self.angle, shape) {
            (Some(text), Shape::Dovetail) => {
                let text = Field::new(&path, text);
                let angle = fields.angle(text)?;
                if (1.0..=45.0).contains(&angle.to_degrees()) {
                    return Some(Some(angle));
                }
                fields.out_of_range(text, "1 deg to 45 deg");
            }
            (None, Shape::Dovetail) => {
                let message = format!(
                    "the angle of the dovetail cutter `{}` is missing",
                    self.cutter
                );
                let fault = Fault::error(Code::MISSING_KEY, message)
                    .hint("add the angle of a side from the axis: `angle: 14 deg`");
                fields.faults.push(fault.at(head.clone()));
            }
            (Some(_), shape) => {
                let message = format!("a cutter of shape `{}` has no angle", shape.name());
                let fault = Fault::error(Code::OUT_OF_RANGE, message)
                    .hint("take the angle out, or write `shape: dovetail`");
                fields.fault(&path, fault);
            }
            (None, _) => return Some(None),
        }
        None
    }

    fn shank(&self, shape: Shape, path: &[Step], fields: &mut Fields<'_>) -> Option<Length> {
        let shank = fields.length(Field::new(path, &self.shank), SMALLEST, Length::mm(60.0))?;
        if in_router(shape) && !SHANKS.contains(&shank) {
            let message = format!("a shank of `{}` fits no usual collet", self.shank);
            let warning = Fault::warning(Code::OUT_OF_RANGE, message)
                .label("usual: 6, 6.35, 8, 9.525, 12, 12.7 mm")
                .hint("measure it; never force a shank into a collet of another size");
            fields.fault(path, warning);
        }
        Some(shank)
    }

    /// The mark must be stated, even when there is none: a missing one is never taken for none.
    fn marked_speed(
        &self,
        path: &[Step],
        head: Span,
        fields: &mut Fields<'_>,
    ) -> Option<Option<Spindle>> {
        let path = at(path, "marked_speed");
        match self.marked_speed.as_deref() {
            Some("none") => Some(None),
            Some(text) => fields.speed(Field::new(&path, text)).map(Some),
            None => {
                let message = format!("the marked speed of `{}` is not stated", self.cutter);
                let fault = Fault::error(Code::MISSING_KEY, message)
                    .label("`marked_speed` is missing here")
                    .hint("write the speed that is marked on it: `marked_speed: 24000 rpm`")
                    .hint("write `marked_speed: none` when it bears no mark");
                fields.faults.push(fault.at(head));
                None
            }
        }
    }
}

impl RawShape {
    fn shape(&self) -> Shape {
        match self {
            Self::Straight => Shape::Straight,
            Self::Dovetail => Shape::Dovetail,
            Self::Rebate => Shape::Rebate,
            Self::Slot => Shape::Slot,
            Self::Profile => Shape::Profile,
            Self::DadoHead => Shape::DadoHead,
            Self::SawBlade => Shape::SawBlade,
            Self::Drill => Shape::Drill,
            Self::MortiseChisel => Shape::MortiseChisel,
        }
    }
}

fn in_router(shape: Shape) -> bool {
    match shape {
        Shape::Straight | Shape::Dovetail | Shape::Rebate | Shape::Slot | Shape::Profile => true,
        Shape::DadoHead | Shape::SawBlade | Shape::Drill | Shape::MortiseChisel => false,
    }
}

/// Largest cutting diameter: more is a slip of the hand (common practice, no source).
fn largest(shape: Shape) -> Length {
    match shape {
        Shape::SawBlade | Shape::DadoHead => Length::mm(500.0),
        _ => Length::mm(150.0),
    }
}

/// A day of the calendar, written `2026-11-02` and no other way.
fn date(text: Field<'_>, fields: &mut Fields<'_>) -> Option<String> {
    let written = text.text;
    let day = written.parse::<jiff::civil::Date>();
    if day.is_ok_and(|day| day.to_string() == written) {
        return Some(written.to_owned());
    }
    let message = format!("`{written}` is not a day");
    let fault = Fault::error(Code::QUANTITY_SYNTAX, message);
    fields.fault(
        text.path,
        fault.hint("write year, month, day: `2026-11-02`"),
    );
    None
}
