//! Merging and order reckoned the slow and plain way, from what the sheets say.

use std::fmt::Write;

use faceside::jobs::{Checklist, Sheets};
use faceside::procedure::{FilledSetUp, FilledStep, plain};
use faceside::shop::Machine;

use super::racks::{Rack, alone};

/// What changes between two set-ups, by design.md 6: cutter, height, fence, stops, speed, each
/// when the later one asks for it and the machine does not stand so already. Names and minutes.
pub(super) fn plain_change(
    before: Option<&FilledSetUp>,
    after: &FilledSetUp,
    machines: &[Machine],
) -> (Vec<String>, u32) {
    let Some((id, _)) = &after.machine else {
        return (Vec::new(), 0);
    };
    let minutes = machines.iter().find(|one| one.id == *id).unwrap().minutes;
    let before = before.filter(|before| before.machine == after.machine);
    let cutter = |set_up: &FilledSetUp| set_up.cutter.as_ref().map(|cutter| cutter.id.clone());
    let mut names = Vec::new();
    let mut total = 0;
    if cutter(after).is_some() && before.is_none_or(|before| cutter(before) != cutter(after)) {
        names.push("cutter".to_owned());
        total += minutes.cutter;
    }
    for (name, cost) in [
        ("height", minutes.height),
        ("fence", minutes.fence),
        ("stop", minutes.stop),
        ("speed", minutes.speed),
    ] {
        let stands = |set_up: &FilledSetUp| {
            let mut stands = String::new();
            for one in set_up.settings.iter().filter(|one| one.name == name) {
                write!(stands, "{} {};", one.label, one.shown).unwrap();
            }
            stands
        };
        let wanted = stands(after);
        if !wanted.is_empty() && before.is_none_or(|before| stands(before) != wanted) {
            names.push(name.to_owned());
            total += cost;
        }
    }
    (names, total)
}

/// Minutes for checklists in some order; work at the bench leaves the machine as it stands.
pub(super) fn plain_cost<'c>(
    lists: impl Iterator<Item = &'c Checklist>,
    machines: &[Machine],
) -> u32 {
    let mut last = None;
    let mut total = 0;
    for list in lists {
        total += plain_change(last, &list.set_up, machines).1;
        if list.set_up.machine.is_some() {
            last = Some(&list.set_up);
        }
    }
    total
}

/// The checklists as the job file has them: by part, then as the part's own set-ups follow each
/// other; one that must wait for another part's set-up comes as soon as that is done.
pub(super) fn in_the_order_of_the_job<'s>(
    racks: &[Rack],
    sheets: &'s Sheets,
) -> Vec<&'s Checklist> {
    let mut wanted: Vec<(String, String, String)> = Vec::new();
    for (at, rack) in racks.iter().enumerate() {
        for (hand, titles) in alone(rack) {
            let of = titles
                .into_iter()
                .map(|title| (format!("Rack {at}"), hand.clone(), title));
            wanted.extend(of);
        }
    }
    let place = |list: &Checklist| {
        let first = &list.pieces[0];
        wanted
            .iter()
            .position(|(part, hand, title)| {
                (part, hand, title) == (&first.part, &first.hand, &list.set_up.title)
            })
            .unwrap()
    };
    let mut left: Vec<&Checklist> = sheets.checklists.iter().collect();
    left.sort_by_key(|list| place(list));
    let mut done: Vec<&Checklist> = Vec::new();
    while !left.is_empty() {
        let is_done = |number: &usize| done.iter().any(|one| one.number == *number);
        let next = left
            .iter()
            .position(|list| list.after.iter().all(is_done))
            .unwrap();
        done.push(left.remove(next));
    }
    done
}

/// All that two set-ups must have alike to be one, by design.md 6: procedure, machine, cutter,
/// every setting as set, and every word that is read while it is done.
pub(super) fn are_one(one: &Checklist, other: &Checklist) -> bool {
    fn settings(set_up: &FilledSetUp) -> Vec<(&str, &str)> {
        let settings = set_up.settings.iter();
        settings
            .map(|set| (set.label.as_str(), set.shown.as_str()))
            .collect()
    }
    fn words(set_up: &FilledSetUp) -> Vec<String> {
        let step = |step: &FilledStep| {
            let mut words = vec![plain(&step.act), plain(&step.why)];
            words.extend(step.keys.iter().map(|key| plain(key)));
            if let Some(check) = &step.check {
                words.extend([&check.measure, &check.if_low, &check.if_high].map(|w| plain(w)));
                words.extend(
                    [&check.wanted, &check.low_shown, &check.high_shown].map(String::clone),
                );
            }
            words
        };
        set_up.steps.iter().flat_map(step).collect()
    }
    let (a, b) = (&one.set_up, &other.set_up);
    let cutter = |set_up: &FilledSetUp| set_up.cutter.as_ref().map(|cutter| cutter.id.clone());
    one.procedure.0 == other.procedure.0
        && (&a.title, &a.machine, &a.operation) == (&b.title, &b.machine, &b.operation)
        && cutter(a) == cutter(b)
        && settings(a) == settings(b)
        && words(a) == words(b)
        && a.table == b.table
}
