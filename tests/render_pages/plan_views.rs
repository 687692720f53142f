//! Every set-up that cuts at a machine is drawn from above; those that are not have their reason here.

use std::collections::BTreeMap;

use faceside::procedure::{Does, Given, Measure, Procedure, Want, example, fill};
use faceside::store::Workshop;
use faceside::units::Value;
use proptest::prelude::*;
use proptest::strategy::ValueTree;

/// Procedure and set-up of what cuts and has no plan view, and why.
const WITHOUT: [(&str, &str, &str); 5] = [
    (
        "comb-joint",
        "Cut the test slot",
        "the jig has no pin yet, and the test piece may stand anywhere on its base",
    ),
    (
        "dovetail-halving",
        "Cut the sockets with the hand-held router",
        "the guide boards lie at a slant, laid to the tail itself and to no figure",
    ),
    (
        "drawbored-mortise-and-tenon",
        "Bore the tenons",
        "no fence: the hole of the post pricks the place, and nothing tells it across the rail",
    ),
    (
        "set-up-band-saw",
        "Lay the fence to the lead and rip a test strip",
        "the fence lies askew by the lead of the blade, which only a cut tells",
    ),
    (
        "true-table-saw",
        "Set and prove the stop for 45 deg",
        "the blade leans; the blade of the drawing stands upright",
    ),
];

/// A measure of the example by a factor, inside its range; nothing for other kinds than lengths.
fn near_example(measure: &Measure, factor: f64) -> Option<String> {
    let (Some(Value::Length(low)), Some(Value::Length(high))) = &measure.range else {
        return None;
    };
    let example = measure.example.as_ref()?.strip_suffix(" mm")?;
    let wanted = example.parse::<f64>().ok()? * factor;
    let tenths = (wanted.clamp(low.to_mm(), high.to_mm()) * 10.0).round();
    Some(format!("{} mm", tenths / 10.0))
}

/// What is chosen instead of the example: another word or number, at times a length near the least.
fn chosen(want: &Want, at: usize) -> Option<String> {
    match want {
        Want::Word(words) => Some(words[at % words.len()].clone()),
        Want::Quantity {
            range: (Some(Value::Count(low)), Some(Value::Count(high))),
            ..
        } => Some((low + at as i64 % (high - low + 1)).to_string()),
        Want::Quantity {
            range: (Some(Value::Length(low)), Some(Value::Length(high))),
            ..
        } if at > 8 => {
            let more = (high.to_mm() - low.to_mm()) * (at - 8) as f64 / 20.0;
            Some(format!("{:.1} mm", low.to_mm() + more))
        }
        _ => None,
    }
}

/// The example with other choices, and some lengths near those of the example.
fn part(procedure: &Procedure, shop: &Workshop, draws: &[(Option<f64>, usize)]) -> Given {
    let mut given = example(procedure, shop.place());
    let asked = procedure
        .measures
        .iter()
        .filter(|measure| measure.later.is_none());
    for (measure, (factor, _)) in asked.zip(draws) {
        if let Some(text) = factor.and_then(|factor| near_example(measure, factor)) {
            let value = (text, measure.place.clone());
            given.measured.insert(measure.name.clone(), value);
        }
    }
    for (choice, (_, at)) in procedure.choices.iter().zip(draws) {
        if let Some(text) = chosen(&choice.want, *at) {
            let value = (text, choice.place.clone());
            given.chosen.insert(choice.name.clone(), value);
        } else if matches!(choice.want, Want::Cutter { .. }) && at % 2 == 1 {
            given.chosen.remove(&choice.name);
        }
    }
    given
}

#[test]
fn what_cuts_is_drawn_from_above() {
    let shop = Workshop::open(None, None).unwrap().0;
    let factor = prop_oneof![
        4 => Just(None),
        1 => (0.8..1.25_f64).prop_map(Some),
        1 => (-1.0..0.4_f64).prop_map(|power| Some(libm::pow(10.0, power))),
    ];
    let draws = prop::collection::vec((factor, 0..12_usize), 24);
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    // How often each was filled, and how often drawn.
    let mut found: BTreeMap<(&str, String), (u32, u32)> = BTreeMap::new();
    for procedure in shop.procedures.values() {
        for set_up in &procedure.set_ups {
            let cuts = set_up.steps.iter().any(|step| step.does == Does::Cut);
            if cuts && set_up.machine.is_some() {
                let name = (procedure.id.as_str(), set_up.title.unfilled());
                assert!(found.insert(name, (0, 0)).is_none(), "two of one title");
            }
        }
        for turn in 0..80 {
            let drawn = draws.new_tree(&mut runner).unwrap().current();
            let given = match turn {
                0 => example(procedure, shop.place()),
                _ => part(procedure, &shop, &drawn),
            };
            let Ok(filled) = fill(procedure, shop.place(), &given) else {
                continue;
            };
            for set_up in &filled.set_ups {
                let name = (procedure.id.as_str(), set_up.title.clone());
                if let Some((filled, drawn)) = found.get_mut(&name) {
                    *filled += 1;
                    *drawn += u32::from(set_up.plan.is_some());
                }
            }
        }
    }
    let all = found.len();
    let mut without: Vec<(&str, &str)> = Vec::new();
    for ((procedure, title), (filled, drawn)) in &found {
        assert!(*filled > 0, "{procedure}: {title}: never filled");
        // Sizes drawn at random may put the joint beyond the end of the work.
        let most = *drawn == 0 || drawn * 4 >= filled * 3;
        assert!(most, "{procedure}: {title}: {drawn} of {filled} drawn");
        if *drawn == 0 {
            without.push((procedure, title));
        }
    }
    println!(
        "{} of {all} set-ups that cut are drawn from above",
        all - without.len()
    );
    let known: Vec<(&str, &str)> = WITHOUT.iter().map(|(id, title, _)| (*id, *title)).collect();
    assert_eq!(
        without, known,
        "without a plan view; each needs one, or its reason above"
    );
}
