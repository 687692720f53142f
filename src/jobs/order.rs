//! The order of set-ups: fewest and cheapest changes, after what must come first.
//!
//! Each part's own set-ups keep their order (socket before tail, fit before glue). Among orders
//! that do, cheap ones are looked for by taking the cheapest next set-up, then by moving single
//! set-ups as long as that saves minutes. Ties keep the order of the job.

use super::merge::Merged;
use crate::procedure::FilledSetUp;
use crate::shop::{Machine, Minutes};

/// What must be changed between two set-ups, in words, and the minutes that it takes.
pub(super) fn change(
    before: Option<&FilledSetUp>,
    after: &FilledSetUp,
    machines: &[Machine],
) -> (Vec<String>, u32) {
    let Some((id, _)) = &after.machine else {
        return (Vec::new(), 0);
    };
    let minutes = machines
        .iter()
        .find(|machine| machine.id == *id)
        .map_or_else(Minutes::default, |machine| machine.minutes);
    let before = before.filter(|before| before.machine == after.machine);
    let cutter = |set_up: &FilledSetUp| set_up.cutter.as_ref().map(|cutter| cutter.id.clone());
    let mut changes = Vec::new();
    let mut total = 0;
    if before.map(cutter) != Some(cutter(after)) && after.cutter.is_some() {
        changes.push("cutter".to_owned());
        total += minutes.cutter;
    }
    for (name, cost) in [
        ("height", minutes.height),
        ("fence", minutes.fence),
        ("stop", minutes.stop),
        ("speed", minutes.speed),
    ] {
        // The label counts: a stop block that moves to the other side keeps its figure.
        let shown = |set_up: &FilledSetUp| -> Vec<String> {
            let settings = set_up.settings.iter();
            settings
                .filter(|set| set.name.starts_with(name))
                .map(|set| format!("{}: {}", set.label, set.shown))
                .collect()
        };
        let wanted = shown(after);
        if !wanted.is_empty() && before.map(shown).as_ref() != Some(&wanted) {
            changes.push(name.to_owned());
            total += cost;
        }
    }
    (changes, total)
}

/// The order of work, as indexes into `merged`.
pub(super) fn order(merged: &[Merged<'_>], machines: &[Machine]) -> Vec<usize> {
    let cheapest_next = |last: Option<&FilledSetUp>, at: usize| {
        let (_, minutes) = change(last, merged[at].set_up, machines);
        minutes
    };
    let one = improved(one_by_one(merged, cheapest_next), merged, machines);
    let other = improved(one_by_one(merged, |_, _| 0), merged, machines);
    if cost(&other, merged, machines) < cost(&one, merged, machines) {
        other
    } else {
        one
    }
}

/// Moves single set-ups as long as that saves minutes.
fn improved(mut order: Vec<usize>, merged: &[Merged<'_>], machines: &[Machine]) -> Vec<usize> {
    let mut best = cost(&order, merged, machines);
    loop {
        let mut moved = false;
        for from in 0..order.len() {
            for to in 0..order.len() {
                let mut tried = order.clone();
                let one = tried.remove(from);
                tried.insert(to, one);
                let minutes = cost(&tried, merged, machines);
                if minutes < best && keeps_order(&tried, merged) {
                    (order, best, moved) = (tried, minutes, true);
                }
            }
        }
        if !moved {
            return order;
        }
    }
}

/// Minutes of all changes; the state of the machine outlasts bench work in between.
fn cost(order: &[usize], merged: &[Merged<'_>], machines: &[Machine]) -> u32 {
    let mut last: Option<&FilledSetUp> = None;
    let mut total = 0;
    for at in order {
        let set_up = merged[*at].set_up;
        total += change(last, set_up, machines).1;
        if set_up.machine.is_some() {
            last = Some(set_up);
        }
    }
    total
}

fn keeps_order(order: &[usize], merged: &[Merged<'_>]) -> bool {
    let mut done = vec![false; merged.len()];
    for at in order {
        if !merged[*at].after.iter().all(|before| done[*before]) {
            return false;
        }
        done[*at] = true;
    }
    true
}

/// Takes the set-up of the least `price` among those that may come next, the earliest of the job
/// where several are alike; the price is told the set-up that the machine stands in.
fn one_by_one(
    merged: &[Merged<'_>],
    price: impl Fn(Option<&FilledSetUp>, usize) -> u32,
) -> Vec<usize> {
    let mut done = vec![false; merged.len()];
    let mut order = Vec::new();
    let mut last: Option<&FilledSetUp> = None;
    while order.len() < merged.len() {
        let ready = (0..merged.len())
            .filter(|at| !done[*at] && merged[*at].after.iter().all(|before| done[*before]));
        let Some(next) = ready.min_by_key(|at| (price(last, *at), *at)) else {
            return (0..merged.len()).collect();
        };
        done[next] = true;
        order.push(next);
        if merged[next].set_up.machine.is_some() {
            last = Some(merged[next].set_up);
        }
    }
    order
}
