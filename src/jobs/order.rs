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

/// Minutes from each set-up to each other, reckoned once: the search asks for them many times.
struct Prices {
    /// From nothing, then from each set-up, by the set-up that follows.
    rows: Vec<Vec<u32>>,
    /// Whether a set-up is at a machine; the state of a machine outlasts bench work in between.
    at_machine: Vec<bool>,
}

impl Prices {
    fn of(merged: &[Merged<'_>], machines: &[Machine]) -> Self {
        let before = merged.iter().map(|one| Some(one.set_up));
        let row = |before: Option<&FilledSetUp>| {
            let after = merged.iter();
            after
                .map(|after| change(before, after.set_up, machines).1)
                .collect()
        };
        Self {
            rows: std::iter::once(None).chain(before).map(row).collect(),
            at_machine: merged
                .iter()
                .map(|one| one.set_up.machine.is_some())
                .collect(),
        }
    }

    fn of_change(&self, last: Option<usize>, next: usize) -> u32 {
        self.rows[last.map_or(0, |last| last + 1)][next]
    }

    /// The set-up that the machines stand in after `next`.
    fn state(&self, last: Option<usize>, next: usize) -> Option<usize> {
        if self.at_machine[next] {
            Some(next)
        } else {
            last
        }
    }

    /// Minutes of all changes.
    fn of_all(&self, order: &[usize]) -> u32 {
        let mut last = None;
        let mut total = 0;
        for next in order {
            total += self.of_change(last, *next);
            last = self.state(last, *next);
        }
        total
    }
}

/// The order of work, as indexes into `merged`.
pub(super) fn order(merged: &[Merged<'_>], machines: &[Machine]) -> Vec<usize> {
    let prices = Prices::of(merged, machines);
    let cheapest_next = |last, next| prices.of_change(last, next);
    let one = improved(one_by_one(merged, &prices, cheapest_next), merged, &prices);
    let other = improved(one_by_one(merged, &prices, |_, _| 0), merged, &prices);
    if prices.of_all(&other) < prices.of_all(&one) {
        other
    } else {
        one
    }
}

/// Moves single set-ups as long as that saves minutes.
fn improved(mut order: Vec<usize>, merged: &[Merged<'_>], prices: &Prices) -> Vec<usize> {
    let mut best = prices.of_all(&order);
    loop {
        let mut moved = false;
        for from in 0..order.len() {
            for to in 0..order.len() {
                let mut tried = order.clone();
                let one = tried.remove(from);
                tried.insert(to, one);
                let minutes = prices.of_all(&tried);
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
    prices: &Prices,
    price: impl Fn(Option<usize>, usize) -> u32,
) -> Vec<usize> {
    let mut done = vec![false; merged.len()];
    let mut order = Vec::new();
    let mut last = None;
    while order.len() < merged.len() {
        let ready = (0..merged.len())
            .filter(|at| !done[*at] && merged[*at].after.iter().all(|before| done[*before]));
        let Some(next) = ready.min_by_key(|at| (price(last, *at), *at)) else {
            return (0..merged.len()).collect();
        };
        done[next] = true;
        order.push(next);
        last = prices.state(last, next);
    }
    order
}
