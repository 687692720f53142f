//! A procedure and a part to [`Filled`]: every slot a value, every step behind its cautions.
//!
//! Stops with all faults that can be told: a value missing or out of range, a calculator's
//! refusal, a piece too short to be held, a cutter without a marked speed, a pair of machine and
//! operation that the cautions do not cover.

use super::calls::Calls;
use super::filled::{Drawing, Filled, Run, Setting, Trouble};
use super::model::{Procedure, SetUp};
use super::show::show;
use super::text::{Piece, Text};
use super::values::{Given, Named, caliper, truth};
use super::workplace::Workplace;
use crate::diag::{Code, Fault, Faults, Span};
use crate::formula::{Formula, Outcome};
use crate::units::{Length, Value};

/// The first set-up of a procedure that the shop has no machine for.
pub fn lacking<'p>(procedure: &'p Procedure, at: Workplace<'_>) -> Option<&'p SetUp> {
    let lacks = |set_up: &&SetUp| {
        let machine = set_up.machine.as_ref();
        machine.is_some_and(|(kind, _)| at.machine(kind).is_none())
    };
    procedure.set_ups.iter().find(lacks)
}

pub(super) fn no_machine(set_up: &SetUp, place: &Span) -> Fault {
    let machine = set_up.machine.as_ref();
    let (kind, needed) = machine.map_or(("", &set_up.place), |(kind, at)| (kind.as_str(), at));
    let message = format!("the shop has no machine of the kind `{kind}`");
    Fault::error(Code::UNKNOWN_NAME, message)
        .at(place.clone())
        .also(needed.clone(), "for this set-up")
        .hint("enter it in machines.yaml, or take another procedure for this joint")
}

/// Fills a procedure for one part.
///
/// # Errors
/// Everything that stands in the way, with places in the job or in the procedure.
pub fn fill(procedure: &Procedure, at: Workplace<'_>, given: &Given) -> Result<Filled, Faults> {
    if let Some(set_up) = lacking(procedure, at) {
        return Err(no_machine(set_up, &given.place).into());
    }
    let calls = Calls::default();
    let named = Named::new(procedure, at, given, &calls)?;
    let filler = Filler {
        procedure,
        at,
        given,
        named: &named,
        calls: &calls,
    };
    filler.refusals()?;
    let mut faults = Faults::new();
    let mut set_ups = Vec::new();
    for set_up in &procedure.set_ups {
        match filler.set_up(set_up) {
            Ok(filled) => set_ups.extend(filled),
            Err(more) => faults.extend(more),
        }
    }
    if faults.any_error() {
        return Err(faults);
    }
    let warnings = filler.warnings()?;
    let drawing = filler.drawing()?;
    let sizes = filler.sizes()?;
    let warnings = [calls.said().warnings, warnings].concat();
    let listed = |lists: &[(String, Vec<Text>)]| {
        let texts = |texts: &[Text]| texts.iter().map(|text| filler.words(text)).collect();
        let lists = lists.iter();
        lists
            .map(|(head, list)| (head.clone(), texts(list)))
            .collect()
    };
    Ok(Filled {
        procedure: procedure.id.clone(),
        title: procedure.title.clone(),
        purpose: procedure.purpose.clone(),
        done_when: procedure.done_when.clone(),
        revision: procedure.revision,
        reviewed: procedure.reviewed.clone(),
        ready: listed(&procedure.ready),
        set_ups,
        troubles: procedure
            .troubles
            .iter()
            .map(|parts| filler.trouble(parts))
            .collect(),
        close: listed(&procedure.close),
        warnings,
        notes: calls.said().notes,
        drawing,
        sizes,
        values: named.listed,
    })
}

/// What the set-up that a text stands in is set to: `{set.height}`, `{set.cutter}`.
#[derive(Debug, Default)]
pub(super) struct Set {
    /// Formula of each setting, as written, with the setting.
    pub(super) settings: Vec<(String, Setting)>,
    /// Name of the cutter.
    pub(super) cutter: Option<String>,
}

impl Set {
    /// A setting by its name, or where a text gives the very formula of one.
    fn shown(&self, slot: &str) -> Option<&str> {
        if slot == "set.cutter" {
            return self.cutter.as_deref();
        }
        let name = slot.strip_prefix("set.");
        let mut settings = self.settings.iter();
        let found = settings.find(|(is, setting)| match name {
            Some(name) => setting.name == name,
            None => is == slot,
        });
        found.map(|(_, setting)| setting.shown.as_str())
    }
}

/// The words and values of a text; a value that is a setting is shown as the machine is set.
pub(super) fn runs(text: &Text, named: &Named<'_>, at: Workplace<'_>, set: &Set) -> Vec<Run> {
    let filled = text.pieces.iter().map(|piece| match piece {
        Piece::Words(words) => Run::Words(words.clone()),
        Piece::Slot(name, _) => Run::Value {
            name: name.clone(),
            shown: shown(name, named, at, set),
        },
    });
    filled.collect()
}

fn shown(name: &str, named: &Named<'_>, at: Workplace<'_>, set: &Set) -> String {
    if let Some(shown) = set.shown(name) {
        return shown.to_owned();
    }
    if let Some(picked) = named.cutters.get(name) {
        return picked.cutter.name.clone();
    }
    let value = named.values.get(name);
    value
        .map(|value| show(value, caliper(at), named.role_of(name)).0)
        .unwrap_or_default()
}

pub(super) struct Filler<'f> {
    pub(super) procedure: &'f Procedure,
    pub(super) at: Workplace<'f>,
    pub(super) given: &'f Given,
    pub(super) named: &'f Named<'f>,
    pub(super) calls: &'f Calls,
}

impl Filler<'_> {
    pub(super) fn run(&self, formula: &Formula) -> Result<Value, Fault> {
        match formula.run(&self.named.values, &|call, args| {
            self.calls.call(call, args)
        })? {
            Outcome::One(value) => Ok(value),
            Outcome::Results(_) => Err(Fault::error(
                Code::FORMULA_DIMENSION,
                "one value is wanted here",
            )),
        }
    }

    pub(super) fn length(&self, formula: &Formula) -> Result<Length, Fault> {
        match self.run(formula)? {
            Value::Length(length) => Ok(length),
            other => Err(Fault::error(
                Code::FORMULA_DIMENSION,
                format!("a length is wanted here, not {}", other.kind().words()),
            )),
        }
    }

    /// A text that stands in no set-up.
    fn words(&self, text: &Text) -> Vec<Run> {
        runs(text, self.named, self.at, &Set::default())
    }

    fn plain(&self, text: &Text) -> String {
        super::filled::plain(&self.words(text))
    }

    fn trouble(&self, parts: &[Text; 3]) -> Trouble {
        let [see, cause, cure] = [0, 1, 2].map(|part| self.words(&parts[part]));
        Trouble { see, cause, cure }
    }

    fn refusals(&self) -> Result<(), Faults> {
        let mut faults = Faults::new();
        for rule in &self.procedure.refusals {
            if truth(&rule.when, &self.named.values, self.calls)? {
                let message = format!("{}: {}", self.given.part, self.plain(&rule.say));
                faults.push(
                    Fault::error(Code::REFUSED, message)
                        .at(self.given.place.clone())
                        .hint(self.plain(&rule.instead)),
                );
            }
        }
        if faults.any_error() {
            Err(faults)
        } else {
            Ok(())
        }
    }

    fn warnings(&self) -> Result<Vec<String>, Faults> {
        let mut warnings = Vec::new();
        for rule in &self.procedure.warnings {
            if truth(&rule.when, &self.named.values, self.calls)? {
                warnings.push(self.plain(&rule.say));
            }
        }
        Ok(warnings)
    }

    fn sizes(&self) -> Result<Vec<(String, String)>, Faults> {
        let mut sizes = Vec::new();
        for (what, formula) in &self.procedure.sizes {
            let value = self.run(formula)?;
            sizes.push((
                what.clone(),
                show(&value, caliper(self.at), self.named.role(formula)).0,
            ));
        }
        Ok(sizes)
    }

    fn drawing(&self) -> Result<Option<Drawing>, Faults> {
        let Some((shape, entries)) = &self.procedure.drawing else {
            return Ok(None);
        };
        let mut drawing = Drawing {
            shape: shape.clone(),
            lengths: Default::default(),
            angle: None,
            plan: None,
            letters: Default::default(),
        };
        for (name, formula) in entries {
            match self.run(formula)? {
                Value::Length(length) => {
                    let value = Value::Length(length);
                    let text = show(&value, caliper(self.at), self.named.role(formula)).0;
                    drawing.lengths.insert(name.clone(), (length, text));
                }
                Value::Angle(angle) => {
                    let degrees = angle.to_degrees();
                    drawing.angle = Some((degrees, format!("{degrees}°")));
                }
                other => {
                    let message = format!(
                        "`{name}` of a drawing is {}, not a length",
                        other.kind().words()
                    );
                    let fault = Fault::error(Code::FORMULA_DIMENSION, message);
                    return Err(fault.at(self.procedure.id_place.clone()).into());
                }
            }
        }
        Ok(Some(drawing))
    }
}
