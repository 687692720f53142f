//! The open shop as entries of the search index.

use super::Workshop;
use crate::caution::Rule;
use crate::cores::each;
use crate::joints;
use crate::procedure::Procedure;
use crate::search::{Entry, EntryKind, Note};

/// Everything that can be searched for, in a fixed order.
pub fn entries(workshop: &Workshop) -> Vec<Entry> {
    let procedures: Vec<&Procedure> = workshop.procedures.values().map(AsRef::as_ref).collect();
    let mut entries = each(&procedures, |one| procedure(one));
    entries.extend(workshop.book.rules_here().map(caution));
    let notes: Vec<&Note> = workshop.notes.values().map(AsRef::as_ref).collect();
    entries.extend(each(&notes, |one| one.entry()));
    entries.extend(workshop.terms.entries());
    entries.extend(
        joints::ALL
            .iter()
            .map(|calculator| self::calculator(calculator)),
    );
    entries
}

fn procedure(procedure: &Procedure) -> Entry {
    let mut body = vec![procedure.use_when.clone(), procedure.done_when.clone()];
    body.extend(procedure.words());
    Entry {
        kind: EntryKind::Procedure,
        id: procedure.id.clone(),
        title: procedure.title.clone(),
        also: procedure.also_called.clone(),
        summary: procedure.purpose.clone(),
        body,
        next: format!("faceside train {}", procedure.id),
    }
}

fn caution(rule: &Rule) -> Entry {
    Entry {
        kind: EntryKind::Caution,
        id: rule.id.clone(),
        title: rule.hazard.clone(),
        also: vec![rule.kind.name().to_owned(), rule.machine.clone()],
        summary: rule.avoid.clone(),
        body: vec![rule.harm.clone()],
        next: format!("faceside search {} {}", rule.machine, rule.kind.name()),
    }
}

fn calculator(calculator: &joints::Calculator) -> Entry {
    let inputs = calculator
        .inputs
        .iter()
        .map(|input| input.meaning.to_owned());
    let results = calculator
        .results
        .iter()
        .map(|output| output.meaning.to_owned());
    Entry {
        kind: EntryKind::Calculator,
        id: calculator.name.to_owned(),
        title: calculator.name.replace('-', " "),
        also: Vec::new(),
        summary: calculator.summary.to_owned(),
        body: inputs.chain(results).collect(),
        next: format!("faceside figure {}", calculator.name),
    }
}
