//! What a procedure is as a whole: its figures used, its sources known, its readings repeated, its
//! tools and test pieces on the list.

use std::collections::BTreeSet;

use super::super::Does;
use super::super::model::{Procedure, Step, Want};
use super::super::text::Text;
use crate::diag::{Code, Fault, Faults, Span};
use crate::formula::Formula;
use crate::yaml;

/// Words by which a source says how well it is known.
const STATUSES: &[&str] = &[
    "(read",
    "(excerpt",
    "(derived",
    "from memory",
    "no source",
    "to be checked",
    "practice",
];

/// All rules of the whole.
pub(super) fn procedure(procedure: &Procedure, faults: &mut Faults) {
    used(procedure, faults);
    sources(procedure, faults);
    reviewed(procedure, faults);
    second_reading(procedure, faults);
    ready(procedure, faults);
    if procedure.troubles.is_empty() {
        let fault = Fault::warning(Code::FAULTS_MISSING, "no fault of the work is told");
        let fault = fault.at(procedure.id_place.clone());
        faults.push(fault.hint("write under `faults` what goes wrong, why, and what to do"));
    }
}

fn steps(procedure: &Procedure) -> impl Iterator<Item = &Step> {
    procedure.set_ups.iter().flat_map(|set_up| &set_up.steps)
}

/// Every value that is measured, chosen or worked out serves for something.
fn used(procedure: &Procedure, faults: &mut Faults) {
    let mut names = BTreeSet::new();
    formulas(procedure, &mut |formula| {
        names.extend(formula.names().flat_map(heads));
    });
    texts(procedure, &mut |text| {
        names.extend(text.slots().flat_map(|(name, _)| heads(name)));
    });
    let cutters = procedure
        .set_ups
        .iter()
        .filter_map(|one| one.cutter.as_ref());
    names.extend(cutters.map(|(name, _)| name.as_str()));
    let measured = procedure
        .measures
        .iter()
        .map(|one| (&one.name, one.place.clone()));
    let chosen = procedure.choices.iter();
    let chosen = chosen
        .filter(|one| !(one.name == "hand" && matches!(one.want, Want::Word(_))))
        .map(|one| (&one.name, one.place.clone()));
    let worked_out = procedure.work_out.iter().map(|(name, _)| {
        let path = ["work_out".into(), name.as_str().into()];
        (name, yaml::key_place(&procedure.source, &path))
    });
    for (name, place) in measured.chain(chosen).chain(worked_out) {
        if !names.contains(name.as_str()) {
            let message = format!("nothing uses `{name}`");
            let fault = Fault::warning(Code::UNUSED_VALUE, message).at(place);
            faults.push(fault.hint("use it in a setting or a text, or take it out"));
        }
    }
}

/// A dotted name and what stands before its dot.
fn heads(name: &str) -> [&str; 2] {
    [name, name.split('.').next().unwrap_or(name)]
}

fn formulas<'p>(procedure: &'p Procedure, each: &mut impl FnMut(&'p Formula)) {
    procedure.work_out.iter().for_each(|(_, one)| each(one));
    let rules = procedure.refusals.iter().chain(&procedure.warnings);
    rules.for_each(|rule| each(&rule.when));
    procedure.sizes.iter().for_each(|(_, one)| each(one));
    let drawn = procedure.drawing.iter().flat_map(|(_, entries)| entries);
    drawn.for_each(|(_, one)| each(one));
    let later = procedure
        .measures
        .iter()
        .filter_map(|one| one.later.as_ref());
    later.for_each(&mut *each);
    for choice in &procedure.choices {
        if let Want::Cutter {
            fits: Some(fits), ..
        } = &choice.want
        {
            each(fits);
        }
    }
    for set_up in &procedure.set_ups {
        set_up.when.iter().for_each(&mut *each);
        set_up.leaves_strip.iter().for_each(&mut *each);
        set_up.piece.iter().flatten().for_each(&mut *each);
        set_up.settings.iter().for_each(|(_, _, one)| each(one));
        set_up.table.iter().for_each(|table| each(&table.by));
        for step in &set_up.steps {
            step.when.iter().for_each(&mut *each);
            let checks = step.check.iter();
            let read = checks.flat_map(|check| [&check.is, &check.low, &check.high]);
            read.for_each(&mut *each);
        }
    }
}

fn texts<'p>(procedure: &'p Procedure, each: &mut impl FnMut(&'p Text)) {
    let rules = procedure.refusals.iter().chain(&procedure.warnings);
    rules.for_each(|rule| [&rule.say, &rule.instead].into_iter().for_each(&mut *each));
    let lists = procedure.ready.iter().chain(&procedure.close);
    lists.for_each(|(_, list)| list.iter().for_each(&mut *each));
    procedure.troubles.iter().flatten().for_each(&mut *each);
    for set_up in &procedure.set_ups {
        each(&set_up.title);
        set_up.holder.iter().for_each(&mut *each);
        for step in &set_up.steps {
            step.texts().for_each(&mut *each);
            if let Some(check) = &step.check {
                let said = [&check.measure, &check.if_low, &check.if_high];
                said.into_iter().for_each(&mut *each);
            }
        }
    }
}

fn sources(procedure: &Procedure, faults: &mut Faults) {
    for (at, source) in procedure.sources.iter().enumerate() {
        if !STATUSES.iter().any(|status| source.contains(status)) {
            let place = yaml::place(&procedure.source, &["sources".into(), at.into()]);
            let message = "this source does not say how well it is known";
            let fault = Fault::warning(Code::SOURCE_STATUS, message).at(place);
            faults.push(fault.hint(
                "add `(read)`, `(derived)`, `from memory`, or write `common practice, no source`",
            ));
        }
    }
}

fn reviewed(procedure: &Procedure, faults: &mut Faults) {
    let written = &procedure.reviewed;
    let day = written.parse::<jiff::civil::Date>();
    if day.is_ok_and(|day| day.to_string() == *written) {
        return;
    }
    let place = yaml::place(&procedure.source, &["reviewed".into()]);
    let fault = Fault::error(Code::QUANTITY_SYNTAX, format!("`{written}` is not a day"));
    faults.push(fault.at(place).hint("write year, month, day: `2026-11-25`"));
}

/// What the first cut is worked out from is read a second time before it.
fn second_reading(procedure: &Procedure, faults: &mut Faults) {
    let now = |name: &str| {
        let mut measures = procedure.measures.iter();
        measures.any(|one| one.name == name && one.later.is_none())
    };
    let Some(cut) = steps(procedure).position(|step| step.does == Does::Cut && step.each) else {
        return;
    };
    if !procedure.measures.iter().any(|one| one.later.is_none()) {
        return;
    }
    let mut read = steps(procedure)
        .take(cut)
        .filter_map(|step| step.check.as_ref());
    if !read.any(|check| check.is.names().any(now)) {
        let message = "nothing that was measured is read a second time before the first cut";
        let fault = Fault::warning(Code::SECOND_READING, message);
        let place: Span = procedure.id_place.clone();
        faults.push(fault.at(place).hint(
            "add a step with a `check` whose `is` is the measure, before the set-up that cuts",
        ));
    }
}

/// What the steps ask for stands on the lists of what must be ready.
fn ready(procedure: &Procedure, faults: &mut Faults) {
    let list = |head: &str| {
        let lists = procedure.ready.iter().filter(move |(name, _)| name == head);
        lists
            .flat_map(|(_, list)| list)
            .map(Text::unfilled)
            .collect::<Vec<_>>()
    };
    let tools = list("tools");
    let mut told = BTreeSet::new();
    for (step, check) in steps(procedure).filter_map(|step| Some((step, step.check.as_ref()?))) {
        let (tool, place) = &check.tool;
        let place = step.used.as_ref().map_or(place, |(_, used)| used);
        let listed = tools.iter().any(|item| item.contains(tool.as_str()));
        if !listed && told.insert(tool) {
            let message = format!("`{tool}` is read but not on the list of tools");
            let fault = Fault::warning(Code::TOOL_READY, message).at(place.clone());
            faults.push(fault.hint("add it to `tools` under `ready`"));
        }
    }
    let test = steps(procedure).find(|step| step.does == Does::Cut && !step.each);
    if let Some(step) = test.filter(|_| list("pieces").is_empty()) {
        let message = "a test piece is cut, and none is on the list of pieces";
        let fault = Fault::warning(Code::TEST_PIECE_READY, message).at(step.place.clone());
        faults.push(fault.hint("add it to `pieces` under `ready`, with its size"));
    }
    let other = steps(procedure).find(|step| step.who.is_some());
    if let Some(step) = other.filter(|_| list("people").is_empty()) {
        let message = "a second person is needed, and none is on the list of people";
        let fault = Fault::warning(Code::HELPER_READY, message).at(step.place.clone());
        faults.push(fault.hint("add it to `people` under `ready`"));
    }
}
