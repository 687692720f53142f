//! The checks of one set-up: its machine and operation are covered, what cuts has a machine and a
//! piece, settings say how they are rounded, checks name a tool of the shop.

use std::collections::BTreeSet;

use super::Does;
use super::check::Checker;
use super::model::{Check, SetUp, Step, Want};
use super::plan_view::{DRAWN, GUIDED, GUIDES};
use super::text::Text;
use super::workplace::machine_kind;
use crate::diag::{Code, Fault, Span, nearest};
use crate::formula::{Formula, Known};
use crate::units::Kind;

impl Checker<'_> {
    pub(super) fn set_up(&mut self, set_up: &SetUp) {
        self.slots(&set_up.title);
        if let Some(holder) = &set_up.holder {
            self.slots(holder);
        }
        if let Some(when) = &set_up.when {
            self.wants(when, &[Kind::Truth]);
        }
        if let Some(strip) = &set_up.leaves_strip {
            self.wants(strip, &[Kind::Truth]);
        }
        for formula in set_up.piece.iter().flatten() {
            self.wants(formula, &[Kind::Length]);
        }
        for (_, _, formula) in &set_up.settings {
            let kinds = [
                Kind::Length,
                Kind::Speed,
                Kind::Angle,
                Kind::Count,
                Kind::Lengths,
            ];
            self.wants(formula, &[&kinds[..], &[Kind::Choice]].concat());
            self.setting(formula);
        }
        self.pair(set_up);
        self.guided(set_up);
        self.drawn(set_up);
        self.cutter(set_up);
        self.table(set_up);
        for step in &set_up.steps {
            self.step(step);
            if let Some(check) = &step.check {
                self.moved_by(check, set_up);
            }
        }
    }

    fn pair(&mut self, set_up: &SetUp) {
        let kind = machine_kind(set_up);
        let faults = self.at.book.check_pair(kind, &set_up.operation);
        let machine_is_known = self.at.book.pairs().any(|(machine, _)| machine == kind);
        let place = match &set_up.machine {
            Some((_, place)) if !machine_is_known => place,
            _ => &set_up.operation_place,
        };
        self.faults
            .extend(faults.into_iter().map(|fault| fault.at_least(place)));
        let cut = set_up.steps.iter().find(|step| step.does == Does::Cut);
        if set_up.machine.is_some() && cut.is_some() && set_up.piece.is_none() {
            self.faults.push(
                Fault::error(
                    Code::PROCEDURE_RULE,
                    "a set-up that cuts at a machine needs its `piece`",
                )
                .at(set_up.place.clone())
                .hint("add `piece: {length: ..., width: ..., thickness: ...}`"),
            );
        }
        if let Some(step) = cut.filter(|_| set_up.machine.is_none()) {
            self.faults.push(
                Fault::error(Code::PROCEDURE_RULE, "a step that cuts needs a machine")
                    .at(step.place.clone())
                    .hint("name the machine of the set-up, or say `does: hand`"),
            );
        }
        if set_up.steps.is_empty() {
            let fault = Fault::error(Code::PROCEDURE_RULE, "a set-up needs a step")
                .at(set_up.place.clone());
            self.faults
                .push(fault.hint("write what is done: `- do: ...`"));
        }
    }

    /// What guides the work is of that machine, and what lies against it is told with it.
    fn guided(&mut self, set_up: &SetUp) {
        let Some((guide, place)) = &set_up.guided else {
            if set_up.down.is_some() || set_up.to_guide.is_some() || !set_up.drawn.is_empty() {
                let message = "`down`, `to_guide` and `drawn` are shown only with `guided`";
                let fault = Fault::error(Code::PROCEDURE_RULE, message).at(set_up.place.clone());
                self.faults
                    .push(fault.hint("say how the work is guided: `guided: fence`"));
            }
            return;
        };
        let kind = machine_kind(set_up);
        let may = GUIDED.iter().find(|(machine, _)| *machine == kind);
        let may = may.map_or(&[][..], |(_, guides)| guides);
        if may.contains(guide) {
            return;
        }
        let words = GUIDES.iter().filter(|(_, guide)| may.contains(guide));
        let words: Vec<_> = words.map(|(word, _)| format!("`{word}`")).collect();
        let hint = match words.as_slice() {
            [] => "take `guided` out: this machine has no plan view".to_owned(),
            words => format!("one of: {}", words.join(", ")),
        };
        let message = format!("work is not guided so at this machine, `{kind}`");
        let fault = Fault::error(Code::PROCEDURE_RULE, message).at(place.clone());
        self.faults.push(fault.hint(hint));
    }

    /// The lengths that only the plan view needs are lengths that it knows.
    fn drawn(&mut self, set_up: &SetUp) {
        for (name, formula) in &set_up.drawn {
            self.wants(formula, &[Kind::Length]);
            if DRAWN.contains(&name.as_str()) {
                continue;
            }
            let message = format!("a plan view knows no length named `{name}`");
            let fault = Fault::error(Code::UNKNOWN_NAME, message).at(formula.place().clone());
            self.faults.push(fault.hint(match nearest(name, DRAWN) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("it knows: {}", DRAWN.join(", ")),
            }));
        }
    }

    fn cutter(&mut self, set_up: &SetUp) {
        let Some((name, place)) = &set_up.cutter else {
            return;
        };
        let cutters = self
            .procedure
            .choices
            .iter()
            .filter(|choice| matches!(choice.want, Want::Cutter { .. }));
        let names: Vec<_> = cutters.map(|choice| choice.name.as_str()).collect();
        if !names.contains(&name.as_str()) {
            let hint = match nearest(name, names.iter().copied()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => "add it under `choose` with `kind: cutter`".to_owned(),
            };
            let message = format!("no cutter is chosen under the name `{name}`");
            let fault = Fault::error(Code::UNKNOWN_NAME, message).at(place.clone());
            self.faults.push(fault.hint(hint));
        }
    }

    fn table(&mut self, set_up: &SetUp) {
        let Some(table) = &set_up.table else { return };
        self.wants(&table.by, &[Kind::Length]);
        let mut later = self
            .procedure
            .measures
            .iter()
            .filter(|measure| measure.later.is_some());
        if !later.any(|measure| measure.name == table.vary) {
            let message = format!("`{}` is not measured during the job", table.vary);
            self.faults.push(
                Fault::error(Code::UNKNOWN_NAME, message)
                    .at(table.place.clone())
                    .hint("name a value under `measure` that has `later`"),
            );
        }
        if table.rows == 0 || table.rows > 5 {
            let fault = Fault::error(Code::OUT_OF_RANGE, "a table has 1 to 5 rows on a side");
            let fault = fault.at(table.place.clone());
            self.faults.push(fault.hint("write `rows: 3`"));
        }
    }

    fn step(&mut self, step: &Step) {
        if let Some((_, place)) = &step.used {
            self.routine_step(step, place);
            return;
        }
        step.texts().for_each(|text| self.slots(text));
        if let Some(when) = &step.when {
            self.wants(when, &[Kind::Truth]);
        }
        if let Some(check) = &step.check {
            self.reading(check);
        }
    }

    /// What a routine's step reads of the set-up is told where the routine is used.
    fn routine_step(&mut self, step: &Step, place: &Span) {
        let slots = step.texts().flat_map(Text::slots);
        let names: BTreeSet<&str> = slots
            .filter_map(|(name, _)| name.strip_prefix("set."))
            .collect();
        for name in names {
            self.set_slot(name, place);
        }
    }

    fn reading(&mut self, check: &Check) {
        for formula in [&check.is, &check.low, &check.high] {
            self.wants(formula, &[Kind::Length]);
        }
        for text in [&check.measure, &check.if_low, &check.if_high] {
            self.slots(text);
        }
        let (tool, place) = &check.tool;
        let tools = &self.at.shop.tools;
        if !tools.iter().any(|known| known.name == *tool) {
            let near = nearest(tool, tools.iter().map(|known| known.name.as_str()));
            let hint = match near {
                Some(near) => format!("did you mean `{near}`?"),
                None => "enter it under `tools` in shop.yaml".to_owned(),
            };
            let message = format!("the shop has no measuring tool `{tool}`");
            let fault = Fault::warning(Code::UNKNOWN_NAME, message).at(place.clone());
            self.faults.push(fault.hint(hint));
        }
    }

    /// A value is moved by a setting of its own set-up, and the fault says which there are.
    fn moved_by(&mut self, check: &Check, set_up: &SetUp) {
        let Some((moved_by, place)) = &check.moved_by else {
            return;
        };
        let names = || set_up.settings.iter().map(|(name, _, _)| name.as_str());
        if let Some(fit) = &moved_by.fit
            && !self.at.shop.fits.contains_key(fit)
        {
            let fits = self.at.shop.fits.keys().map(String::as_str);
            let hint = match nearest(fit, fits) {
                Some(near) => format!("did you mean `{near}`?"),
                None => "enter it under `fits` in shop.yaml".to_owned(),
            };
            let message = format!("the shop has no fit `{fit}`");
            let fault = Fault::error(Code::UNKNOWN_NAME, message).at(place.clone());
            self.faults.push(fault.hint(hint));
        }
        if names().any(|name| name == moved_by.setting) {
            return;
        }
        let hint = match nearest(&moved_by.setting, names()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("its settings: {}", names().collect::<Vec<_>>().join(", ")),
        };
        let message = format!("this set-up has no setting `{}`", moved_by.setting);
        let fault = Fault::error(Code::UNKNOWN_NAME, message).at(place.clone());
        self.faults.push(fault.hint(hint));
    }

    /// A length that a machine is set to says how it is rounded, so that wood is left on.
    fn setting(&mut self, formula: &Formula) {
        let length = formula.check(&self.scope) == Ok(Known::One(Kind::Length));
        if length && !self.is_rounded(formula) {
            self.faults.push(
                Fault::error(Code::PROCEDURE_RULE, "a setting says how it is rounded")
                    .at(formula.place().clone())
                    .label("rounded up or down?")
                    .hint("wrap it: `down_to(..., router_table.fence_step)` leaves wood on where a larger figure takes more off"),
            );
        }
    }
}
