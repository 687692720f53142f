//! What the library's procedures say to do beyond the limits of a value agrees with what their
//! `moved_by` says to this program: the same direction, and half where two walls are cut.

use faceside::joints::WoodOn;
use faceside::procedure::{Check, Procedure};
use faceside::store::Workshop;

/// Direction of the setting's figure in the words of a cure: larger or smaller.
fn larger(words: &str) -> Option<bool> {
    let words = words.to_lowercase();
    let up = [
        "raise the",
        "fence away",
        "carriage's face away",
        "stop away",
        "fence back",
        "stop deeper",
        "add packing",
        "add a paper shim",
        "to the exposure",
        "blocks away",
    ];
    let down = [
        "lower the",
        "fence toward",
        "carriage's face toward",
        "stop toward",
        "fence forward",
        "stop shallower",
        "take off packing",
        "take shims out",
        "off the exposure",
        "blocks toward",
        "stop back",
        "raise the depth stop",
    ];
    let first = |list: &[&str]| list.iter().filter_map(|way| words.find(way)).min();
    match (first(&up), first(&down)) {
        (Some(up), Some(down)) if up == down => Some(false),
        (Some(up), Some(down)) => Some(up < down),
        (Some(_), None) => Some(true),
        (None, Some(_)) => Some(false),
        (None, None) => None,
    }
}

fn checks(procedure: &Procedure) -> impl Iterator<Item = &Check> {
    let steps = procedure.set_ups.iter().flat_map(|set_up| &set_up.steps);
    steps.filter_map(|step| step.check.as_ref())
}

#[test]
fn the_words_of_a_cure_and_its_factor_agree() {
    let (workshop, _) = Workshop::open(None, None).unwrap();
    let mut compared = 0;
    let mut wrong = Vec::new();
    for procedure in workshop.procedures.values() {
        for check in checks(procedure) {
            let Some((moved_by, _)) = &check.moved_by else {
                continue;
            };
            let (low, high) = (check.if_low.unfilled(), check.if_high.unfilled());
            let at = format!("{}: {}", procedure.id, check.measure.unfilled());
            for (cure, must_grow) in [(&low, true), (&high, false)] {
                let Some(is_larger) = larger(cure) else {
                    continue;
                };
                compared += 1;
                if is_larger != (must_grow == (moved_by.each > 0.0)) {
                    wrong.push(format!("{at}: {cure}"));
                }
                let halved = ["half of what", "half of the surplus"];
                if halved.iter().any(|words| cure.contains(words)) != (moved_by.each.abs() > 1.5) {
                    wrong.push(format!("{at}: half? {cure}"));
                }
            }
            // Wood is on where the same piece is cut again, not where a fresh one is.
            let fresh = |cure: &str| {
                ["fresh", "second", "next"]
                    .iter()
                    .any(|word| cure.contains(word))
            };
            let again = |cure: &str| cure.contains("again") && !fresh(cure);
            let side = match (again(&low), again(&high)) {
                (true, false) if fresh(&high) => Some(WoodOn::Low),
                (false, true) if fresh(&low) => Some(WoodOn::High),
                _ => moved_by.wood,
            };
            if side != moved_by.wood {
                wrong.push(format!("{at}: wood on {:?}: {low} / {high}", moved_by.wood));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(compared > 200, "only {compared} cures were compared");
}

/// Joints whose pieces enter one another and are cut to fit by a machine.
#[test]
fn every_joint_that_is_cut_to_fit_can_be_asked_for_its_next_move() {
    let (workshop, _) = Workshop::open(None, None).unwrap();
    for id in [
        "breadboard-end",
        "bridle",
        "comb-joint",
        "drawbored-mortise-and-tenon",
        "drawer-box",
        "fit-dado-head",
        "frame-and-panel",
        "haunched-mortise-and-tenon",
        "housing-on-table-saw",
        "mortise-and-tenon",
        "one-sided-sliding-dovetail",
        "sliding-dovetail",
        "stopped-housing",
        "stopped-sliding-dovetail",
        "through-housing",
        "tongue-and-groove",
        "tongue-in-housing",
        "wedged-through-tenon",
    ] {
        let fits = checks(&workshop.procedures[id]).filter(|check| {
            let moved_by = check.moved_by.as_ref();
            moved_by.is_some_and(|(moved_by, _)| moved_by.fit.is_some())
        });
        assert!(fits.count() > 0, "{id}");
    }
}
