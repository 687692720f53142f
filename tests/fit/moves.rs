//! Next moves worked by hand, and against every error that machine and tool may make.

use faceside::joints::{Aim, Feel, Found, HandPress, Means, Next, WoodOn};
use faceside::units::Length;
use proptest::prelude::{ProptestConfig, Strategy, prop, prop_assert, proptest};

fn mm(mm: f64) -> Length {
    Length::mm(mm)
}

/// A tail: 10 mm wanted to 0.05 mm, both faces cut with one fence.
const TAIL: Aim = Aim {
    wanted: Length::nm(10_000_000),
    low: Length::nm(9_950_000),
    high: Length::nm(10_050_000),
    each: -2.0,
    wood: Some(WoodOn::High),
};

/// A housing: 17.7 mm wanted to 0.05 mm, the far wall cut.
const HOUSING: Aim = Aim {
    wanted: Length::nm(17_700_000),
    low: Length::nm(17_650_000),
    high: Length::nm(17_750_000),
    each: 1.0,
    wood: Some(WoodOn::Low),
};

fn means(step: f64, repeatability: f64, tool: f64) -> Means {
    Means {
        step: mm(step),
        repeatability: mm(repeatability),
        tool: mm(tool),
        most: Some(mm(6.0)),
    }
}

const PRESS: HandPress = HandPress {
    least: Length::nm(50_000),
    most: Length::nm(150_000),
};

#[test]
fn a_housing_is_widened_by_what_is_surely_missing() {
    // Read 17.4: wood 0.3. Safe: 0.3 - 0.05 (tool) - 0.05 (fence) + 0.05 (limit) = 0.25, so five
    // steps. After: 0.05, off by 0.05 and by 0.05: -0.05 to 0.15.
    let next = HOUSING.next(&means(0.05, 0.05, 0.05), Found::Value(mm(17.4)));
    let Next::Move(one) = next else {
        panic!("{next:?}")
    };
    assert_eq!((one.by, one.value), (mm(0.25), mm(0.25)));
    assert_eq!(one.left, (mm(-0.05), Some(mm(0.15))));
    assert!(!one.sure && one.passes == 1);
}

#[test]
fn two_walls_move_twice_what_the_fence_does() {
    // Read 10.6: wood 0.6. Safe: 0.6 - 0.05 - 2 x 0.05 + 0.05 = 0.5, so the fence by 0.25; more of
    // the cutter standing out makes the neck thinner.
    let next = TAIL.next(&means(0.05, 0.05, 0.05), Found::Value(mm(10.6)));
    let Next::Move(one) = next else {
        panic!("{next:?}")
    };
    assert_eq!((one.by, one.value), (mm(0.25), mm(-0.5)));
    assert_eq!(one.left, (mm(-0.05), Some(mm(0.25))));
}

#[test]
fn a_fine_machine_goes_to_the_wanted_value_and_no_farther() {
    // Read 10.6 with 0.01 mm all round: safe 0.6 - 0.01 - 0.02 + 0.05 = 0.62; wanted is 0.6. After:
    // off by 0.01 and by 0.02, within the limits of 0.05 on both sides.
    let next = TAIL.next(&means(0.01, 0.01, 0.01), Found::Value(mm(10.6)));
    let Next::Move(one) = next else {
        panic!("{next:?}")
    };
    assert_eq!((one.by, one.value), (mm(0.3), mm(-0.6)));
    assert!(one.sure);
}

#[test]
fn within_the_range_it_stops_and_past_it_nothing_comes_back() {
    let means = means(0.05, 0.05, 0.05);
    for good in [9.95, 10.0, 10.05] {
        assert_eq!(TAIL.next(&means, Found::Value(mm(good))), Next::Stop);
    }
    assert_eq!(
        TAIL.next(&means, Found::Value(mm(9.9))),
        Next::Over(mm(0.05))
    );
    assert_eq!(
        HOUSING.next(&means, Found::Value(mm(17.8))),
        Next::Over(mm(0.05))
    );
}

#[test]
fn where_no_step_is_safe_it_is_a_shim_or_the_plane() {
    // Tail 0.1 over: safe 0.1 - 0.02 - 0.04 + 0.05 = 0.09, a fence move of 0.045; the step of 0.1
    // is too much, a shim to 0.02 mm is not: 0.04.
    let next = TAIL.next(&means(0.1, 0.02, 0.02), Found::Value(mm(10.1)));
    let Next::Shim(one) = next else {
        panic!("{next:?}")
    };
    assert_eq!(one.by, mm(0.04));
    // With 0.05 mm of repeatability and tool, 0.1 - 0.05 - 0.1 + 0.05 = 0: by hand.
    let next = TAIL.next(&means(0.05, 0.05, 0.05), Found::Value(mm(10.1)));
    assert_eq!(next, Next::ByHand(mm(0.1)));
}

#[test]
fn a_word_moves_by_what_it_surely_says() {
    let means = means(0.01, 0.01, 0.05);
    let tail = |feel| TAIL.next(&means, Found::Feel(feel, PRESS));
    // Will not start: clearance 0 at most, wanted 0.1. Safe: 0.1 - 2 x 0.01 + 0.05 = 0.13; 0.1 counts,
    // 0.05 of the fence. After: none, off by 2 x 0.01; the word sets no most.
    let Next::Move(one) = tail(Feel::WillNotStart) else {
        panic!()
    };
    assert_eq!((one.by, one.left), (mm(0.05), (mm(-0.02), None)));
    // Starts and binds: a clearance under 0.05 where 0.1 is wanted, so 0.05 is surely on; 0.025 of the
    // fence, 0.02 in whole steps, and twice that of the tail.
    let Next::Move(one) = tail(Feel::StartsAndBinds) else {
        panic!()
    };
    assert_eq!(one.value, mm(-0.04));
    assert_eq!(tail(Feel::HandPress), Next::Stop);
    assert_eq!(tail(Feel::Slides), Next::Over(Length::ZERO));
    assert_eq!(tail(Feel::DropsIn), Next::Over(Length::ZERO));
}

#[test]
fn a_good_piece_that_does_not_fit_puts_the_fault_on_the_mate() {
    let means = means(0.05, 0.05, 0.05);
    let next = |feel| TAIL.next(&means, Found::Both(mm(10.0), feel, PRESS));
    assert_eq!(next(Feel::StartsAndBinds), Next::MateTight);
    assert_eq!(next(Feel::WillNotStart), Next::MateTight);
    assert_eq!(next(Feel::DropsIn), Next::MateLoose);
    assert_eq!(next(Feel::HandPress), Next::Stop);
}

#[test]
fn a_place_is_moved_by_the_whole_difference() {
    // Read 0.32 over the wanted 17.7: 0.3 to the nearest step of 0.05.
    let place = Aim {
        wood: None,
        ..HOUSING
    };
    let Next::Move(one) = place.next(&means(0.05, 0.05, 0.05), Found::Value(mm(18.02))) else {
        panic!()
    };
    assert_eq!(one.by, mm(-0.3));
}

#[test]
fn what_nothing_explains_asks_for_the_cutter() {
    let means = means(0.05, 0.05, 0.05);
    // Machine (0.05 + 0.05) x 1, reading 0.05, cutter 0.05: 0.2 is explained, 0.5 is not.
    assert_eq!(HOUSING.unexplained(&means, mm(17.5), Length::ZERO), None);
    assert_eq!(
        HOUSING.unexplained(&means, mm(17.2), Length::ZERO),
        Some(mm(0.3))
    );
    // Set 0.3 under the plan, it was meant to come out so.
    assert_eq!(HOUSING.unexplained(&means, mm(17.4), mm(-0.3)), None);
}

#[test]
fn the_first_setting_goes_to_the_wanted_value_or_leaves_wood_on() {
    let means = means(0.05, 0.05, 0.05);
    // It cuts 0.1 more than is set, surely to 0.04: take off 0.1. Surely to 0.15: wood of
    // 0.15 - 0.05 more, the fence nearer by 0.1 + 0.1.
    assert_eq!(HOUSING.first(&means, mm(0.1), mm(0.04)), mm(-0.1));
    assert_eq!(HOUSING.first(&means, mm(0.1), mm(0.15)), mm(-0.2));
    // A tail with a factor of -2: 0.04 of the fence is 0.08 of the neck, 0.03 over its limit.
    // Wood of 0.03 is 0.015 of the fence; with the offset 0.115, and less exposure leaves wood on.
    assert_eq!(TAIL.first(&means, mm(0.1), mm(0.04)), mm(-0.15));
}

#[test]
fn without_a_record_the_first_setting_leaves_on_what_may_be_off() {
    // Step 0.05, repeatability 0.05, tool twice 0.05: 0.2 may be off, 0.05 of it up to the limit, so
    // 0.15 of wood; a wider opening is less wood, so the fence 0.15 nearer.
    let coarse = means(0.05, 0.05, 0.05);
    assert_eq!(HOUSING.explained(&coarse), mm(0.2));
    assert_eq!(HOUSING.unlearned(&coarse), mm(-0.15));
    // Both faces of a tail: 2 x 0.1 + 0.1 = 0.3 of the neck, less 0.05 is 0.25 of wood, 0.125 of the
    // fence and 0.15 in whole steps; less exposure leaves wood on.
    assert_eq!(TAIL.unlearned(&coarse), mm(-0.15));
    // On a fine machine 0.01 + 0.01 + 2 x 0.01 is less than the limit allows: the plain figure.
    assert_eq!(HOUSING.unlearned(&means(0.01, 0.01, 0.01)), Length::ZERO);
    // A place has no side with wood.
    let place = Aim {
        wood: None,
        ..HOUSING
    };
    assert_eq!(place.unlearned(&coarse), Length::ZERO);
}

fn any_aim() -> impl Strategy<Value = (Aim, Means)> {
    let ranges = (0_i64..500, 0_i64..500, 1_i64..2000);
    let factors = prop::sample::select(vec![-2.0, -1.0, -0.5, 1.0, 2.0]);
    let scales = (1_i64..500, 0_i64..500, 1_i64..500);
    (ranges, factors, scales, prop::bool::ANY).prop_map(|((under, over, _), each, scale, high)| {
        let micron = |count: i64| Length::nm(count * 1000);
        let (step, repeatability, tool) = scale;
        let aim = Aim {
            wanted: mm(20.0),
            low: mm(20.0) - micron(under),
            high: mm(20.0) + micron(over),
            each,
            wood: Some(if high { WoodOn::High } else { WoodOn::Low }),
        };
        let means = Means {
            step: micron(step),
            repeatability: micron(repeatability),
            tool: micron(tool),
            most: None,
        };
        (aim, means)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4096))]

    /// The reading wrong by all that the tool may be, the setting by all that the machine may be.
    #[test]
    fn no_move_passes_the_limit(
        (aim, means) in any_aim(), read in -3000_i64..3000, tool in -1.0..=1.0_f64,
        machine in -1.0..=1.0_f64,
    ) {
        let value = aim.wanted + Length::nm(read * 1000);
        let next = aim.next(&means, Found::Value(value));
        if let Next::Move(one) | Next::Shim(one) = next {
            let truly = value + means.tool.times(tool);
            let cut = truly + (one.by + means.repeatability.times(machine)).times(aim.each);
            let nm = Length::nm(5);
            match aim.wood {
                Some(WoodOn::High) => prop_assert!(cut + nm >= aim.low, "{next:?} {cut:?}"),
                _ => prop_assert!(cut <= aim.high + nm, "{next:?} {cut:?}"),
            }
            prop_assert!(one.by != Length::ZERO);
        }
    }

    /// The first cut off by all that is explained.
    #[test]
    fn no_first_cut_passes_the_limit_by_what_is_explained(
        (aim, means) in any_aim(), off in -1.0..=1.0_f64,
    ) {
        let set = aim.unlearned(&means);
        let cut = aim.wanted + set.times(aim.each) + aim.explained(&means).times(off);
        let nm = Length::nm(5);
        match aim.wood {
            Some(WoodOn::High) => prop_assert!(cut + nm >= aim.low, "{set:?} {cut:?}"),
            _ => prop_assert!(cut <= aim.high + nm, "{set:?} {cut:?}"),
        }
    }
}
