//! The named values of one part: measured, chosen, planned, worked out, in that order.

use std::collections::BTreeMap;

use super::calls::{Calls, meaning};
use super::filled::{FilledValue, Provenance};
use super::model::{Choice, Measure, Procedure, Want};
use super::pick::{Picked, Wish, named_cutter};
use super::show::show;
use super::typed::{in_range, is_misspelt, one_of, unknown_names};
use super::workplace::{Workplace, put_cutter};
use crate::diag::{Code, Fault, Faults, Span};
use crate::formula::{Formula, Outcome, Values};
use crate::units::{Length, Role, Scale, Towards, Value, parse};

/// What a part gives: texts with their places, as typed in the job.
#[derive(Debug, Clone)]
pub struct Given {
    /// Name of the part, for messages.
    pub part: String,
    /// Where the part stands.
    pub place: Span,
    /// Measured values by name.
    pub measured: BTreeMap<String, (String, Span)>,
    /// Chosen values by name; cutters by id.
    pub chosen: BTreeMap<String, (String, Span)>,
    /// Where the names themselves stand, as far as they stand anywhere.
    pub names: BTreeMap<String, Span>,
}

/// All values of a part.
#[derive(Debug, Clone)]
pub(super) struct Named<'a> {
    pub(super) values: Values,
    pub(super) listed: Vec<FilledValue>,
    pub(super) cutters: BTreeMap<String, Picked<'a>>,
    roles: BTreeMap<String, Role>,
    planned: Vec<String>,
}

impl<'a> Named<'a> {
    /// Takes what the part gives and works out the rest.
    ///
    /// # Errors
    /// Every value that is missing, unknown, out of range or refused.
    pub(super) fn new(
        procedure: &Procedure,
        at: Workplace<'a>,
        given: &Given,
        calls: &Calls,
    ) -> Result<Self, Faults> {
        let mut named = Named {
            values: at.values().into_iter().collect(),
            listed: Vec::new(),
            cutters: BTreeMap::new(),
            roles: BTreeMap::new(),
            planned: Vec::new(),
        };
        let mut faults = Faults::new();
        faults.extend(unknown_names(procedure, given));
        for measure in &procedure.measures {
            if !is_misspelt(procedure, given, &measure.name) {
                faults.extend(named.measure(measure, at, given).err());
            }
        }
        let unmeasured = faults.any_error();
        // A cutter is picked by what the cut comes to, so that all else is chosen before.
        let is_cutter = |choice: &&Choice| matches!(choice.want, Want::Cutter { .. });
        let (cutters, others): (Vec<_>, Vec<_>) = procedure.choices.iter().partition(is_cutter);
        for choice in others.into_iter().chain(cutters) {
            if unmeasured && let Want::Cutter { shape, .. } = choice.want {
                let typed = given.chosen.get(&choice.name);
                faults
                    .extend(typed.and_then(|(id, place)| named_cutter(id, place, shape, at).err()));
                continue;
            }
            faults.extend(named.choose(procedure, choice, at, given).err());
        }
        if faults.any_error() {
            return Err(faults);
        }
        named
            .work_out(procedure, at, calls)
            .map_err(|fault| in_part(fault, given))?;
        Ok(named)
    }

    /// Works everything out anew with one measured value changed.
    ///
    /// # Errors
    /// A formula that fails with that value.
    pub(super) fn varied(
        &self,
        procedure: &Procedure,
        at: Workplace<'a>,
        name: &str,
        value: Length,
    ) -> Result<Self, Fault> {
        let mut varied = self.clone();
        varied.values.insert(name.to_owned(), Value::Length(value));
        varied.planned.retain(|planned| planned != name);
        varied.work_out(procedure, at, &Calls::default())?;
        Ok(varied)
    }

    /// Whether a value is only planned as yet.
    pub(super) fn is_planned(&self, name: &str) -> bool {
        self.planned.iter().any(|planned| planned == name)
    }

    /// What the value of a formula does at the machine: as the name that it is, or as its last
    /// act rounds.
    pub(super) fn role(&self, formula: &Formula) -> Role {
        match (formula.alias(), formula.rounds()) {
            (Some(name), _) => self.role_of(name),
            (None, Some(Towards::Down)) => Role::TakesOff,
            (None, Some(Towards::Up)) => Role::LeavesOn,
            (None, _) => Role::Place,
        }
    }

    /// The role of a name.
    pub(super) fn role_of(&self, name: &str) -> Role {
        self.roles.get(name).copied().unwrap_or(Role::Place)
    }

    fn list(
        &mut self,
        name: &str,
        label: &str,
        value: &Value,
        provenance: Provenance,
        at: Workplace<'_>,
    ) {
        let (shown, rounding) = show(value, caliper(at), self.role_of(name));
        let entry = FilledValue {
            name: name.to_owned(),
            label: label.to_owned(),
            value: value.clone(),
            shown,
            rounding,
            provenance,
        };
        self.listed.retain(|listed| listed.name != name);
        self.listed.push(entry);
    }

    fn measure(
        &mut self,
        measure: &Measure,
        at: Workplace<'_>,
        given: &Given,
    ) -> Result<(), Fault> {
        let Some((text, place)) = given.measured.get(&measure.name) else {
            if measure.later.is_some() {
                self.planned.push(measure.name.clone());
                return Ok(());
            }
            let message = format!("{}: `{}` is not given", given.part, measure.name);
            return Err(Fault::error(Code::VALUE_MISSING, message)
                .at(given.place.clone())
                .hint(format!("measure it: {}", measure.ask)));
        };
        let value = parse(text, measure.kind, at.shop.units).map_err(|f| f.at(place.clone()))?;
        let typed = (measure.name.as_str(), text.as_str());
        in_range(&value, &measure.range, typed, at).map_err(|fault| {
            fault
                .at(place.clone())
                .hint(format!("asked: {}", measure.ask))
        })?;
        self.list(
            &measure.name,
            &measure.ask,
            &value,
            Provenance::Measured,
            at,
        );
        self.values.insert(measure.name.clone(), value);
        Ok(())
    }

    fn choose(
        &mut self,
        procedure: &Procedure,
        choice: &Choice,
        at: Workplace<'a>,
        given: &Given,
    ) -> Result<(), Fault> {
        let typed = given.chosen.get(&choice.name);
        if let Want::Cutter { shape, fits } = &choice.want {
            let wish = Wish {
                procedure,
                choice,
                shape: *shape,
                fits: fits.as_ref(),
                at,
                named: self,
            };
            let picked = match typed {
                Some((id, place)) => {
                    let picked = named_cutter(id, place, *shape, at)?;
                    wish.must_fit(picked.cutter, place)?;
                    picked
                }
                None => wish.pick(given)?,
            };
            put_cutter(&mut self.values, &choice.name, picked.cutter);
            self.cutters.insert(choice.name.clone(), picked);
            return Ok(());
        }
        let usual = choice.usual.as_ref().map(|usual| (usual, &choice.place));
        let typed = typed.map(|(text, place)| (text, place));
        let provenance = if typed.is_some() {
            Provenance::Chosen
        } else {
            Provenance::Usual
        };
        let Some((text, place)) = typed.or(usual) else {
            let message = format!("{}: `{}` is not chosen", given.part, choice.name);
            return Err(Fault::error(Code::VALUE_MISSING, message)
                .at(given.place.clone())
                .hint(format!("choose it: {}", choice.ask)));
        };
        let value = match &choice.want {
            Want::Word(options) => one_of(text, options).map_err(|f| f.at(place.clone()))?,
            Want::Quantity { kind, range } => {
                let value = parse(text, *kind, at.shop.units).map_err(|f| f.at(place.clone()))?;
                let typed = (choice.name.as_str(), text.as_str());
                in_range(&value, range, typed, at).map_err(|fault| {
                    fault
                        .at(place.clone())
                        .hint(format!("asked: {}", choice.ask))
                })?;
                value
            }
            Want::Cutter { .. } => return Ok(()),
        };
        self.list(&choice.name, &choice.ask, &value, provenance, at);
        self.values.insert(choice.name.clone(), value);
        Ok(())
    }

    fn work_out(
        &mut self,
        procedure: &Procedure,
        at: Workplace<'_>,
        calls: &Calls,
    ) -> Result<(), Fault> {
        self.work_out_due(procedure, at, calls, |_, _| true)
    }

    /// Works out what can be without the cutters that are not picked yet.
    pub(super) fn work_out_known(
        &mut self,
        procedure: &Procedure,
        at: Workplace<'_>,
        calls: &Calls,
    ) -> Result<(), Fault> {
        self.work_out_due(procedure, at, calls, Self::knows)
    }

    fn work_out_due(
        &mut self,
        procedure: &Procedure,
        at: Workplace<'_>,
        calls: &Calls,
        is_due: impl Fn(&Self, &Formula) -> bool,
    ) -> Result<(), Fault> {
        self.plan(procedure, at, calls)?;
        for (name, formula) in &procedure.work_out {
            if is_due(self, formula) {
                self.work_out_one(name, formula, at, calls)?;
                self.plan(procedure, at, calls)?;
            }
        }
        Ok(())
    }

    /// Whether every name of a formula has a value.
    pub(super) fn knows(&self, formula: &Formula) -> bool {
        formula.names().all(|name| self.values.get(name).is_some())
    }

    fn work_out_one(
        &mut self,
        name: &str,
        formula: &Formula,
        at: Workplace<'_>,
        calls: &Calls,
    ) -> Result<(), Fault> {
        let outcome = formula.run(&self.values, &|call, args| calls.call(call, args))?;
        let provenance = Provenance::WorkedOut(formula.text().to_owned());
        match outcome {
            Outcome::One(value) => {
                self.roles.insert(name.to_owned(), self.role(formula));
                self.list(name, &name.replace('_', " "), &value, provenance, at);
                self.values.insert(name.to_owned(), value);
            }
            Outcome::Results(results) => {
                let calculator = formula.text().split('(').next().unwrap_or("").trim();
                for (result, value) in results {
                    let full = format!("{name}.{result}");
                    let known = meaning(calculator, &result);
                    self.roles
                        .insert(full.clone(), known.map_or(Role::Place, |known| known.0));
                    let label = known.map_or("", |known| known.1);
                    self.list(&full, label, &value, provenance.clone(), at);
                    self.values.insert(full, value);
                }
            }
        }
        Ok(())
    }

    /// Plans what is measured later, as soon as its formula can be worked out.
    fn plan(
        &mut self,
        procedure: &Procedure,
        at: Workplace<'_>,
        calls: &Calls,
    ) -> Result<(), Fault> {
        for measure in &procedure.measures {
            let Some(later) = measure
                .later
                .as_ref()
                .filter(|_| self.is_planned(&measure.name))
            else {
                continue;
            };
            if !self.knows(later) {
                continue;
            }
            if let Outcome::One(value) = later.run(&self.values, &|c, a| calls.call(c, a))? {
                self.roles.insert(measure.name.clone(), self.role(later));
                self.list(&measure.name, &measure.ask, &value, Provenance::Planned, at);
                self.values.insert(measure.name.clone(), value);
            }
        }
        Ok(())
    }
}

/// The fault of a formula, told of the part whose values it cannot do with.
fn in_part(fault: Fault, given: &Given) -> Faults {
    let message = format!("{}: {}", given.part, fault.message);
    let words = match fault.label.as_str() {
        "" => "worked out here".to_owned(),
        label => label.to_owned(),
    };
    let formula = fault.span.clone();
    let told = Fault {
        message,
        label: String::new(),
        ..fault
    };
    let told = told.at(given.place.clone());
    match formula {
        Some(formula) => told.also(formula, words).into(),
        None => told.into(),
    }
}

/// Whether a condition holds.
pub(super) fn truth(formula: &Formula, values: &Values, calls: &Calls) -> Result<bool, Fault> {
    match formula.run(values, &|call, args| calls.call(call, args))? {
        Outcome::One(Value::Truth(truth)) => Ok(truth),
        _ => Err(Fault::error(
            Code::FORMULA_DIMENSION,
            "a condition is wanted here",
        )),
    }
}

/// The scale of the finest measuring tool, in the shop's unit.
pub(super) fn caliper(at: Workplace<'_>) -> Scale {
    at.shop.scale()
}
