//! Choosing cutters from a drawer: which can make the cut, which of those first, what to buy.
//!
//! The drawer is invented. The order (fewest passes, then fewest warnings, measured before marked,
//! shank, size, spare edge, speed) is common practice, no source; how many passes each cutter takes
//! is derived beside each check from joinery 3.1 to 3.5.

use std::collections::BTreeMap;

use faceside::joints::{Choice, Effort, on_sale};
use faceside::shop::{Cutter, Measured, Shape};
use faceside::units::{Angle, Length, Spindle, Value};

use crate::{answer, calculator, values};

fn straight(id: &str, mm: f64) -> Cutter {
    Cutter {
        id: id.to_owned(),
        name: id.to_owned(),
        shape: Shape::Straight,
        marked: Length::mm(mm),
        measured: None,
        angle: None,
        cutting_length: Length::mm(20.0),
        shank: Length::mm(8.0),
        marked_speed: Some(Spindle::rpm(24_000.0)),
        flutes: 2,
    }
}

fn dovetail(id: &str, mm: f64, degrees: f64) -> Cutter {
    Cutter {
        shape: Shape::Dovetail,
        angle: Some(Angle::degrees(degrees)),
        cutting_length: Length::mm(12.0),
        ..straight(id, mm)
    }
}

fn measured(cutter: Cutter) -> Cutter {
    let measured = Measured {
        size: cutter.marked,
        on: "2026-11-02".to_owned(),
        with: "caliper".to_owned(),
    };
    Cutter {
        measured: Some(measured),
        ..cutter
    }
}

fn housing(width: &str, depth: &str) -> BTreeMap<String, Value> {
    values(calculator("housing"), &[("width", width), ("depth", depth)])
}

#[track_caller]
fn choose<'c>(
    name: &str,
    values: &BTreeMap<String, Value>,
    drawer: &'c [Cutter],
    slowest: Option<Spindle>,
) -> Choice<'c> {
    let choice = calculator(name).choose(values, drawer, slowest);
    choice
        .expect("values that fit")
        .expect("a cutter is wanted")
}

fn ids(choice: &Choice<'_>) -> Vec<String> {
    let id = |cutters: &[&Cutter]| {
        let ids: Vec<_> = cutters.iter().map(|cutter| cutter.id.as_str()).collect();
        ids.join(" ")
    };
    choice.fit.iter().map(|one| id(&one.cutters)).collect()
}

#[track_caller]
fn why(choice: &Choice<'_>, name: &str) -> String {
    let found = choice.unfit.iter().find(|(other, _)| other == name);
    found.expect("among those that cannot").1.clone()
}

// 17.7 mm wide, 6 mm deep: 16 and 12 mm take 1 + ceil((17.7 - d) / (d - 1.5)) = 2 passes, 8 mm
// 1 + ceil(9.7 / 6.5) = 3, each in ceil(6 / (d / 2)) steps: 1, 1, 2. So 2, 2, 6 passes.
#[test]
fn fewest_passes_first_then_measured_then_the_widest() {
    let drawer = [
        measured(straight("eight", 8.0)),
        straight("sixteen", 16.0),
        measured(straight("twelve", 12.0)),
        straight("fourteen", 14.0),
    ];
    let choice = choose("housing", &housing("17.7 mm", "6 mm"), &drawer, None);
    assert_eq!(ids(&choice), ["twelve", "sixteen", "fourteen", "eight"]);
    let passes: Vec<_> = choice.fit.iter().map(|one| one.effort.passes).collect();
    assert_eq!(passes, [2, 2, 2, 6]);
    // One pass beats a measured cutter: 17.7 mm wide takes one.
    let more = [&drawer[..], &[straight("whole", 17.7)]].concat();
    let choice = choose("housing", &housing("17.7 mm", "6 mm"), &more, None);
    assert_eq!(ids(&choice)[0], "whole");
    assert_eq!(choice.fit[0].effort.passes, 1);
}

#[test]
fn of_equal_passes_the_stiffer_and_the_faster_first() {
    let thick = Cutter {
        shank: Length::mm(12.7),
        ..straight("thick shank", 12.0)
    };
    let long = Cutter {
        cutting_length: Length::mm(50.0),
        ..straight("long", 12.0)
    };
    let slow = Cutter {
        marked_speed: Some(Spindle::rpm(18_000.0)),
        ..straight("slow", 12.0)
    };
    let drawer = [long, slow, straight("fast", 12.0), thick];
    let choice = choose("housing", &housing("17.7 mm", "6 mm"), &drawer, None);
    assert_eq!(ids(&choice), ["thick shank", "fast", "slow", "long"]);
}

#[test]
fn what_cannot_make_the_cut_says_why() {
    let drawer = [
        straight("wide", 18.0),
        Cutter {
            cutting_length: Length::mm(5.0),
            ..straight("short", 12.0)
        },
        Cutter {
            marked_speed: None,
            ..straight("unmarked", 12.0)
        },
        Cutter {
            marked_speed: Some(Spindle::rpm(8_000.0)),
            ..straight("slow", 12.0)
        },
        dovetail("other shape", 12.7, 14.0),
        straight("out of range", 101.0),
    ];
    let slowest = Some(Spindle::rpm(10_000.0));
    let choice = choose("housing", &housing("17.7 mm", "6 mm"), &drawer, slowest);
    assert!(choice.fit.is_empty());
    assert_eq!(choice.unfit.len(), 5, "{:?}", choice.unfit);
    assert!(why(&choice, "wide").contains("wider than the housing"));
    assert!(why(&choice, "short").contains("5.00 mm") && why(&choice, "short").contains("6.00 mm"));
    assert!(why(&choice, "unmarked").contains("no maximum speed"));
    assert!(
        why(&choice, "slow").contains("8000 rpm") && why(&choice, "slow").contains("10000 rpm")
    );
    assert!(why(&choice, "out of range").contains("`cutter` must be 1 mm to 100 mm"));
    // At the bounds they can: edges as long as the cut is deep, the machine as slow as the mark.
    let drawer = [Cutter {
        cutting_length: Length::mm(6.0),
        marked_speed: Some(Spindle::rpm(10_000.0)),
        ..straight("just", 12.0)
    }];
    let choice = choose("housing", &housing("17.7 mm", "6 mm"), &drawer, slowest);
    assert_eq!(ids(&choice), ["just"]);
}

// Joinery 3.1: T 18, D 12.7, 14 degrees, h 6 warns of nothing; D 18 at 7 degrees in 19.05 mm
// leaves an end cut of 0.525 mm, a feather edge.
#[test]
fn a_dovetail_cutter_brings_its_angle_and_warnings_count() {
    let given = values(
        calculator("sliding-dovetail"),
        &[("stock", "19.05 mm"), ("depth", "6 mm")],
    );
    let drawer = [
        measured(dovetail("feather", 18.0, 7.0)),
        dovetail("sound", 12.7, 14.0),
    ];
    let choice = choose("sliding-dovetail", &given, &drawer, None);
    assert_eq!(ids(&choice), ["sound", "feather"]);
    assert_eq!(choice.fit[0].effort.warnings, 0);
    // 12.7 - 2 * 6 * 0.249328 = 9.708064 mm.
    let mouth = &choice.fit[0].answer.worked.results["mouth"];
    let Value::Length(mouth) = mouth else {
        panic!("{mouth:?}")
    };
    assert!((mouth.to_mm() - 9.708_064).abs() < 1e-5);
}

// Joinery 3.3: 19 mm stock takes a dovetail cutter of 12.7 mm; base in the middle of 13.5 to 18.2
// is 15.85, its mouth 13.48, so a straight cutter of 5.52 to 13.48 mm: 12 mm can, 16 mm cannot.
#[test]
fn two_cutters_are_chosen_together() {
    let given = values(
        calculator("one-sided-dovetail"),
        &[("stock", "19 mm"), ("depth", "9.5 mm")],
    );
    let drawer = [
        dovetail("tail", 12.7, 14.0),
        straight("sixteen", 16.0),
        straight("twelve", 12.0),
    ];
    let choice = choose("one-sided-dovetail", &given, &drawer, None);
    assert_eq!(ids(&choice), ["tail twelve"]);
    assert!(why(&choice, "tail with sixteen").contains("straight cutter"));
    // The one that is given is not chosen again.
    let mut named = given.clone();
    named.insert("straight".to_owned(), Value::Length(Length::mm(12.0)));
    assert_eq!(
        ids(&choose("one-sided-dovetail", &named, &drawer, None)),
        ["tail"]
    );
    // Only the straight cutter has to be bought.
    let buy = calculator("one-sided-dovetail").to_buy(&given, &drawer[..1]);
    let buy = buy.expect("values that fit").expect("something to buy");
    assert!(
        buy.contains("straight") && !buy.contains("dovetail"),
        "{buy}"
    );
    assert!(buy.contains("at least 9.50 mm"), "{buy}");
}

#[test]
fn what_to_buy_makes_the_cut() {
    let given = housing("17.7 mm", "6 mm");
    let buy = |given: &BTreeMap<String, Value>| calculator("housing").to_buy(given, &[]).unwrap();
    // 16 mm is the widest usual size under 17.7 mm that takes two passes and one step.
    let words = buy(&given).expect("something to buy");
    assert!(words.contains("16.00 mm (0.630 in) straight"), "{words}");
    assert!(words.contains("edges at least 6.00 mm"), "{words}");
    // Nothing under 3.18 mm (1/8 in) is usually sold.
    assert_eq!(buy(&housing("3 mm", "2 mm")), None);
    for shape in Shape::ALL {
        let is_wanted = [Shape::Straight, Shape::Dovetail].contains(&shape);
        assert_eq!(on_sale(shape).is_empty(), !is_wanted);
    }
}

#[test]
fn a_missing_value_is_told_whatever_the_drawer() {
    let none = BTreeMap::new();
    let drawer = [straight("twelve", 12.0)];
    let fault = calculator("passes").choose(&none, &drawer, None);
    assert!(fault.unwrap_err().message.contains("needs `depth`"));
    assert!(
        calculator("rebate")
            .choose(&none, &drawer, None)
            .unwrap()
            .is_none()
    );
    assert_eq!(calculator("rebate").to_buy(&none, &drawer).unwrap(), None);
}

// Passes of several cuts add up, the deepest decides the reach; warnings count for a calculator
// without a cutter as well: a lip of 3 mm is under 6 mm and a depth of 9 of 12 over two thirds.
#[test]
fn efforts_of_several_cuts_add_up() {
    let of = |name, texts| Effort::of(calculator(name), &answer(name, texts));
    let first = of(
        "housing",
        &[("width", "17.7 mm"), ("cutter", "12 mm"), ("depth", "4 mm")],
    );
    let second = of("passes", &[("depth", "9 mm"), ("cutter", "6 mm")]);
    assert_eq!((first.passes, second.passes), (2, 3));
    let both = first.and(second);
    assert_eq!(both.passes, 5);
    assert_eq!(both.reach, Some(Length::mm(9.0)));
    let rebate = of(
        "rebate",
        &[("stock", "12 mm"), ("mate", "9 mm"), ("depth", "9 mm")],
    );
    assert_eq!((rebate.passes, rebate.reach, rebate.warnings), (0, None, 2));
    assert_eq!(both.and(rebate).warnings, both.warnings + 2);
}
