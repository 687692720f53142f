//! The checks of a loaded procedure, all before any value is known.
//!
//! Every formula gives the dimension that its place wants; every slot names a value; every
//! set-up names a machine and operation that the cautions cover, and a piece when it cuts; every
//! check names a tool of the shop. Warnings are for style. All faults of a file are told.

use std::collections::BTreeSet;

use super::calls::signatures;
use super::model::{Procedure, SetUp, Want};
use super::rules;
use super::text::Text;
use super::workplace::{Workplace, cutter_fields};

use crate::diag::{Code, Fault, Faults, Span, nearest};
use crate::formula::{Formula, Known, Scope};
use crate::units::{Kind, Value};
use crate::yaml;

/// Faults of a procedure beyond which a hint that costs another reading of its file is left out.
const MOST_HINTED: usize = 40;

/// Checks one procedure against the workplace that it is to be filled in.
pub fn check(procedure: &Procedure, at: Workplace<'_>) -> Faults {
    let mut checker = Checker::new(procedure, at);
    checker.work_out();
    checker.rules();
    for set_up in &procedure.set_ups {
        checker.set_up = Some(set_up);
        checker.set_up(set_up);
    }
    checker.set_up = None;
    checker.texts();
    checker.whole();
    checker.faults.extend(rules::judge(procedure));
    rules::leave_out(checker.faults, &procedure.accepted)
}

/// A procedure being checked: the names that are known so far, and the faults.
pub(super) struct Checker<'c> {
    pub(super) procedure: &'c Procedure,
    pub(super) at: Workplace<'c>,
    pub(super) scope: Scope,
    /// Worked-out names that do not say how they are rounded.
    unrounded: BTreeSet<&'c str>,
    /// Worked-out names whose formula is at fault: what names them is not judged again.
    failed: BTreeSet<&'c str>,
    /// The set-up that is being checked.
    pub(super) set_up: Option<&'c SetUp>,
    pub(super) faults: Faults,
}

/// What a value is, as a formula's scope knows it.
fn known(value: &Value) -> Known {
    match value {
        Value::Choice(word) => Known::Choice(vec![word.clone()]),
        other => Known::One(other.kind()),
    }
}

impl<'c> Checker<'c> {
    fn new(procedure: &'c Procedure, at: Workplace<'c>) -> Self {
        let mut names: std::collections::BTreeMap<String, Known> = at
            .values()
            .into_iter()
            .map(|(name, value)| (name, known(&value)))
            .collect();
        for measure in procedure
            .measures
            .iter()
            .filter(|measure| measure.later.is_none())
        {
            names.insert(measure.name.clone(), Known::One(measure.kind));
        }
        let scope = Scope {
            names,
            calls: signatures(),
        };
        let mut checker = Self {
            procedure,
            at,
            scope,
            unrounded: BTreeSet::new(),
            failed: BTreeSet::new(),
            set_up: None,
            faults: Faults::new(),
        };
        for choice in &procedure.choices {
            let name = &choice.name;
            match &choice.want {
                Want::Cutter { shape, fits } => {
                    for (field, kind) in cutter_fields(*shape) {
                        checker.name(format!("{name}.{field}"), kind, &choice.place);
                    }
                    if let Some(fits) = fits {
                        checker.wants(fits, &[Kind::Truth]);
                    }
                }
                Want::Quantity { kind, .. } => {
                    checker.name(name.clone(), Known::One(*kind), &choice.place);
                }
                Want::Word(options) => {
                    checker.name(name.clone(), Known::Choice(options.clone()), &choice.place);
                }
            }
        }
        checker
    }

    /// Adds a name; a name that is there already is a fault.
    fn name(&mut self, name: String, known: Known, place: &Span) {
        if self.scope.names.contains_key(&name) {
            let message = format!("the name `{name}` is taken already");
            let fault = Fault::error(Code::DUPLICATE_ID, message).at(place.clone());
            self.faults
                .push(fault.hint("give one of them another name"));
        }
        self.scope.names.insert(name, known);
    }

    /// The outcome of a formula, faults noted.
    fn outcome(&mut self, formula: &Formula) -> Option<Known> {
        if formula.names().any(|name| self.is_failed(name)) {
            return None;
        }
        let checked = formula.check(&self.scope);
        let checked = checked.map_err(|fault| self.with_hint(fault));
        self.faults.keep(checked)
    }

    /// A name that a formula does not find, with what to do when nothing is like it.
    fn with_hint(&self, fault: Fault) -> Fault {
        if fault.code != Code::FORMULA_NAME || !fault.hints.is_empty() {
            return fault;
        }
        if self.faults.len() >= MOST_HINTED {
            return fault;
        }
        let named = fault.span.as_ref().map_or("", Span::text);
        let below = self.procedure.work_out.iter();
        let hint = if below.clone().any(|(name, _)| name == named) {
            format!("`{named}` is worked out further down: put this below it")
        } else {
            "name a value under measure or choose, or one that is worked out above".to_owned()
        };
        fault.hint(hint)
    }

    fn is_failed(&self, name: &str) -> bool {
        let head = name.split('.').next().unwrap_or(name);
        self.failed.contains(name) || self.failed.contains(head)
    }

    /// Notes a fault unless the formula gives one of these kinds.
    pub(super) fn wants(&mut self, formula: &Formula, kinds: &[Kind]) {
        let Some(outcome) = self.outcome(formula) else {
            return;
        };
        if kinds.iter().any(|kind| outcome.does_for(*kind)) {
            return;
        }
        let is = match &outcome {
            Known::One(kind) | Known::Maybe(kind) => kind.words(),
            Known::Choice(_) => Kind::Choice.words(),
            Known::Results(_) => "all results of a calculator",
        };
        let wanted = kinds.first().map_or("a value", |kind| kind.words());
        let hint = match (&outcome, kinds.first()) {
            (Known::Results(_), _) => "name one of them, as in `cut.fence_first`",
            (_, Some(Kind::Truth)) => "compare two values, as in `depth > 10 mm`",
            (Known::One(Kind::Count | Kind::Number), Some(Kind::Length)) => {
                "give the number a unit, such as `mm` or `in`"
            }
            _ => "name a value of that kind, or work one out under `work_out`",
        };
        self.faults.push(
            Fault::error(Code::FORMULA_DIMENSION, format!("{wanted} is wanted here"))
                .at(formula.place().clone())
                .label(format!("this is {is}"))
                .hint(hint),
        );
    }

    fn work_out(&mut self) {
        self.plan();
        let procedure = self.procedure;
        for (name, formula) in &procedure.work_out {
            let Some(outcome) = self.outcome(formula) else {
                self.failed.insert(name);
                continue;
            };
            if matches!(outcome, Known::One(_)) && !self.is_rounded(formula) {
                self.unrounded.insert(name);
            }
            let path = ["work_out".into(), name.as_str().into()];
            let place = yaml::key_place(&procedure.source, &path);
            self.name(name.clone(), outcome, &place);
            self.plan();
        }
        for measure in &procedure.measures {
            if let Some(later) = &measure.later
                && !self.scope.names.contains_key(&measure.name)
            {
                self.outcome(later);
                self.failed.insert(&measure.name);
            }
        }
    }

    /// Adds each value that is measured later as soon as its planned value can be told.
    fn plan(&mut self) {
        let procedure = self.procedure;
        for measure in &procedure.measures {
            let Some(later) = &measure.later else {
                continue;
            };
            if self.scope.names.contains_key(&measure.name) || !self.knows_all(later) {
                continue;
            }
            self.wants(later, &[measure.kind]);
            self.scope
                .names
                .insert(measure.name.clone(), Known::One(measure.kind));
        }
    }

    /// Whether everything that a formula names is known by now. (Checking it to see would read
    /// the file again for the place of each fault.)
    fn knows_all(&self, formula: &Formula) -> bool {
        let known = |name: &str| self.scope.names.contains_key(name);
        formula
            .names()
            .all(|name| known(name) || known(name.split('.').next().unwrap_or(name)))
    }

    /// Whether the outcome is rounded on purpose: a measured or chosen value, a calculator's
    /// result, or what ends in rounding to a step.
    pub(super) fn is_rounded(&self, formula: &Formula) -> bool {
        let known = |name: &str| !self.unrounded.contains(name);
        formula.rounds().is_some() || formula.alias().is_some_and(known)
    }

    fn rules(&mut self) {
        let procedure = self.procedure;
        for rule in procedure.refusals.iter().chain(&procedure.warnings) {
            self.wants(&rule.when, &[Kind::Truth]);
            self.slots(&rule.say);
            self.slots(&rule.instead);
        }
        for (_, formula) in &procedure.sizes {
            self.wants(formula, &[Kind::Length, Kind::Count]);
        }
        if let Some((_, entries)) = &procedure.drawing {
            for (_, formula) in entries {
                self.wants(formula, &[Kind::Length, Kind::Angle]);
            }
        }
    }

    fn texts(&mut self) {
        let procedure = self.procedure;
        for (_, list) in procedure.ready.iter().chain(&procedure.close) {
            list.iter().for_each(|text| self.slots(text));
        }
        procedure
            .troubles
            .iter()
            .flatten()
            .for_each(|text| self.slots(text));
    }

    pub(super) fn slots(&mut self, text: &Text) {
        for (name, place) in text.slots() {
            if let Some(setting) = name.strip_prefix("set.") {
                self.set_slot(setting, place);
                continue;
            }
            let is_cutter =
                self.procedure.choices.iter().any(|choice| {
                    choice.name == name && matches!(choice.want, Want::Cutter { .. })
                });
            if !is_cutter && !self.is_failed(name) {
                self.slot(name, place);
            }
        }
    }

    /// A slot of the set-up that a text stands in: one of its settings, or its cutter.
    pub(super) fn set_slot(&mut self, name: &str, place: &Span) {
        let Some(set_up) = self.set_up else {
            let message = format!("`{{set.{name}}}` stands in no set-up");
            let fault = Fault::error(Code::SLOT_UNKNOWN, message).at(place.clone());
            self.faults
                .push(fault.hint("name the value itself, under measure, choose or work_out"));
            return;
        };
        let settings = set_up.settings.iter().map(|(name, ..)| name.as_str());
        let known: Vec<&str> = settings
            .chain(set_up.cutter.as_ref().map(|_| "cutter"))
            .collect();
        if known.contains(&name) {
            return;
        }
        let message = format!("this set-up has no `{name}`");
        let hint = match (nearest(name, known.iter().copied()), name) {
            (Some(near), _) => format!("did you mean `{{set.{near}}}`?"),
            (None, "cutter") => "name its `cutter`".to_owned(),
            (None, _) => format!("add it to its settings: `{name}: {{label: ..., is: ...}}`"),
        };
        let fault = Fault::error(Code::SLOT_UNKNOWN, message).at(place.clone());
        self.faults
            .push(fault.label("this slot would stay empty").hint(hint));
    }

    /// A slot names one value, not all results of a calculator.
    fn slot(&mut self, name: &str, place: &Span) {
        let (head, result) = name.split_once('.').unwrap_or((name, ""));
        let names = &self.scope.names;
        let (message, hint) = match names.get(name).or_else(|| names.get(head)) {
            Some(Known::Results(results)) if result.is_empty() => {
                let names: Vec<_> = results.iter().map(|(result, _)| result.as_str()).collect();
                let first = names.first().copied().unwrap_or("");
                let all = names.join(", ");
                let hint = format!("name one of them, such as `{{{name}.{first}}}`: {all}");
                (format!("`{name}` has several results"), hint)
            }
            Some(Known::Results(results)) => {
                let known = || results.iter().map(|(known, _)| known.as_str());
                if known().any(|known| known == result) {
                    return;
                }
                let hint = match nearest(result, known()) {
                    Some(near) => format!("did you mean `{{{head}.{near}}}`?"),
                    None => format!("it has: {}", known().collect::<Vec<_>>().join(", ")),
                };
                (format!("`{head}` has no result `{result}`"), hint)
            }
            Some(_) if names.contains_key(name) => return,
            _ => {
                let known = names.keys().map(String::as_str);
                let hint = match nearest(name, known.chain(self.failed.iter().copied())) {
                    Some(near) => format!("did you mean `{{{near}}}`?"),
                    None => "a slot names a value under measure, choose or work_out".to_owned(),
                };
                (format!("no value is called `{name}`"), hint)
            }
        };
        let fault = Fault::error(Code::SLOT_UNKNOWN, message).at(place.clone());
        self.faults
            .push(fault.label("this slot would stay empty").hint(hint));
    }

    fn whole(&mut self) {
        let place = &self.procedure.id_place;
        if self.procedure.set_ups.is_empty() {
            let fault = Fault::error(Code::PROCEDURE_RULE, "a procedure needs a set-up");
            let fault = fault.at(place.clone());
            self.faults
                .push(fault.hint("add one under `set_ups`: `- set_up: ...`"));
        }
        if self.procedure.sources.is_empty() {
            self.faults.push(
                Fault::error(
                    Code::PROCEDURE_RULE,
                    "a procedure names the sources of its rules",
                )
                .at(place.clone())
                .hint("write `common practice, no source` where there is none"),
            );
        }
        for measure in self.procedure.measures.iter().filter(|m| m.later.is_none()) {
            if measure.example.is_none() {
                let message = format!("`{}` has no example", measure.name);
                self.faults.push(
                    Fault::error(Code::MISSING_KEY, message)
                        .at(measure.place.clone())
                        .hint("add `example:`; the page of the procedure is filled from it"),
                );
            }
        }
    }
}
