//! Sizes that are sums and parts of lengths, in exact fractions of a nanometre.
//!
//! The program keeps whole nanometres, so that a result may differ from the fraction by what its
//! roundings make together; the allowance stands beside each check.

use num_rational::BigRational;
use proptest::prelude::*;

use faceside::units::{Amount, Measure, Value};

use crate::{Ask, all_nm, count, nm};

fn whole(nm: i64) -> BigRational {
    BigRational::from_integer(nm.into())
}

fn part(above: i64, below: i64) -> BigRational {
    BigRational::new(above.into(), below.into())
}

/// The result in nanometres is the fraction, give or take so many.
#[track_caller]
fn is(nm: i64, wanted: &BigRational, allowance: (i64, i64)) {
    let off = whole(nm) - wanted;
    let most = part(allowance.0, allowance.1);
    assert!(off <= most && off >= -most, "{nm} is not {wanted}");
}

fn percent(tenths: i64) -> Value {
    Value::Amount(Amount::new(Measure::Percent, tenths as f64 / 10.0))
}

proptest! {
    // Number of passes: the least n with d + (n - 1)(d - o) >= w. The axes are shared out evenly: the
    // k-th lies x + d/2 + k (w - d)/(n - 1) from the fence. Half a nanometre for d/2, one for the
    // share.
    #[test]
    fn housing(
        cutter in 6_000_000..25_000_000_i64, extra in 0..60_000_000_i64,
        overlap in 500_000..3_000_000_i64, depth in 500_000..60_000_000_i64,
        from in 0..3_000_000_000_i64,
    ) {
        let width = cutter + extra;
        let answer = Ask::new("housing", &[
            ("thickness", width + 100_000), ("clearance", -100_000), ("cutter", cutter),
            ("overlap", overlap), ("depth", depth), ("from", from),
        ])
        .answer();
        prop_assert_eq!(nm(&answer, "width"), width);
        let passes = count(&answer, "passes");
        let reaches = |passes: i64| whole(cutter) + whole(passes - 1) * whole(cutter - overlap);
        prop_assert!(reaches(passes) >= whole(width));
        prop_assert!(passes == 1 || reaches(passes - 1) < whole(width));
        let share = part(width - cutter, (passes - 1).max(1));
        for (at, fence) in all_nm(&answer, "fences").into_iter().enumerate() {
            let axis = whole(from) + part(cutter, 2) + whole(at as i64) * &share;
            is(fence, &axis, (3, 2));
        }
        let last = whole(from) + part(cutter, 2) + whole(width - cutter);
        is(nm(&answer, "fence_last"), &last, (1, 2));
        // Steps to the depth: the least number of which none is over d/2.
        let steps = whole(count(&answer, "depth_passes"));
        prop_assert!(whole(depth) / &steps <= part(cutter, 2));
        let fewer = &steps - whole(1);
        prop_assert!(fewer == whole(0) || whole(depth) / fewer > part(cutter, 2));
    }

    // Places along the panel from its back edge: the crown of the housing at L - b; the cutter's axis
    // d/2 before it, which is also where its full width ends; the block is at 0 when the cutter's far
    // edge is at the crown. The shelf's front stands at L - r, and its notch ends c before the end
    // of the full width (before the crown, when that is chopped square).
    #[test]
    fn stopped_housing(
        panel in 100_000_000..900_000_000_i64, stop in 5_000_000..60_000_000_i64,
        cutter in 3_000_000..30_000_000_i64, back in 0.0..1.0_f64,
        clearance in 0..5_000_000_i64, square in any::<bool>(),
    ) {
        let set_back = (stop as f64 * back) as i64;
        let answer = Ask::new("stopped-housing", &[
            ("panel", panel), ("stop", stop), ("cutter", cutter), ("set_back", set_back),
            ("clearance", clearance),
        ])
        .word("ends", if square { "square" } else { "round" })
        .answer();
        let crown = whole(panel - stop);
        let axis = &crown - part(cutter, 2);
        let full = if square { crown.clone() } else { axis.clone() };
        is(nm(&answer, "stop_far"), &crown, (0, 1));
        is(nm(&answer, "stop_axis"), &axis, (1, 2));
        is(nm(&answer, "stop_near"), &(&crown - whole(cutter)), (0, 1));
        is(nm(&answer, "length"), &full, (1, 2));
        let front = whole(panel - set_back);
        is(nm(&answer, "notch_width"), &(front - (full - whole(clearance))), (1, 2));
    }

    // Equal steps that end at the depth; as few as the rule allows: half of the cutter, a third in
    // hard wood, or what is given.
    #[test]
    fn passes_to_a_depth(
        depth in 1_000_000..60_000_000_i64, cutter in 8_000_000..40_000_000_i64, way in 0..3_usize,
    ) {
        let ask = Ask::new("passes", &[("depth", depth), ("cutter", cutter)]);
        let (ask, most) = match way {
            0 => (ask.word("wood", "soft"), part(cutter, 2)),
            1 => (ask.word("wood", "hard"), part(cutter, 3)),
            _ => (ask.lengths(&[("most", 3_700_000)]), whole(3_700_000)),
        };
        let answer = ask.answer();
        let heights = all_nm(&answer, "depths");
        let steps = heights.len() as i64;
        prop_assert_eq!(count(&answer, "count"), steps);
        prop_assert_eq!(heights.last(), Some(&depth));
        prop_assert!(part(depth, steps) <= most);
        prop_assert!(steps == 1 || part(depth, steps - 1) > most);
        for (at, height) in heights.into_iter().enumerate() {
            is(height, &(part(depth, steps) * whole(at as i64 + 1)), (1, 1));
        }
    }

    // Thirds where nothing is given (Fairham p. 82): groove, housing, slot, each less its clearance.
    #[test]
    fn thirds(stock in 9_000_000..60_000_000_i64, clearance in -200_000..500_000_i64) {
        let cleared = |answer: i64, opening: i64| {
            is(opening, &part(stock, 3), (1, 1));
            is(answer, &(whole(opening) - whole(clearance)), (0, 1));
        };
        let sizes = [("stock", stock), ("clearance", clearance)];
        let groove = Ask::new("tongue-and-groove", &sizes).lengths(&[("depth", 6_000_000)]).answer();
        cleared(nm(&groove, "tongue"), nm(&groove, "groove"));
        let housing = Ask::new("tongue-in-housing", &sizes).lengths(&[("side", stock)]).answer();
        cleared(nm(&housing, "tongue"), nm(&housing, "housing"));
        is(nm(&housing, "depth"), &part(stock, 3), (1, 1));
        let bridle = Ask::new("bridle", &sizes)
            .lengths(&[("width", 45_000_000), ("cross", 50_000_000)])
            .answer();
        cleared(nm(&bridle, "thickness"), nm(&bridle, "slot"));
        let sizes_and_length = [("width", 90_000_000), ("length", 40_000_000)];
        let tenon = Ask::new("tenon", &sizes).lengths(&sizes_and_length).answer();
        cleared(nm(&tenon, "thickness"), nm(&tenon, "mortise"));
        // The sum of the parts is the whole, to the nanometre.
        for answer in [&tenon, &groove] {
            let thickness = if answer == &tenon { "thickness" } else { "tongue" };
            let parts = ["shoulder_face", thickness, "shoulder_back"];
            prop_assert_eq!(parts.map(|name| nm(answer, name)).iter().sum::<i64>(), stock);
        }
        // Seven eighths of the stile, less the gap at the bottom (Fairham p. 91; practice).
        let by_stile = Ask::new("tenon", &sizes)
            .lengths(&[("width", 90_000_000), ("stile", stock * 2), ("end_gap", 1_000_000)])
            .answer();
        is(nm(&by_stile, "mortise_depth"), &(part(stock * 2 * 7, 8)), (1, 1));
    }

    // A panel P wide now is P (1 + C rise) wide when wettest, which must be O + 2 g - 2 z, and P (1 -
    // C fall) when driest; half of what it covers more than O is held when it stands in the middle,
    // and that less than g when it touches the bottom of one groove. C in 1/100000, per cent in
    // tenths, all exact.
    #[test]
    fn frame_and_panel(
        opening in 100_000_000..900_000_000_i64, groove in 8_000_000..20_000_000_i64,
        clearance in 0..1_000_000_i64, c in 50..450_i64, rise in 0..50_i64, fall in 0..30_i64,
        stile in 20_000_000..90_000_000_i64, profile in 0..12_000_000_i64,
    ) {
        let wide = opening + 2 * stile;
        let ask = Ask::new("frame-panel", &[
            ("opening", opening), ("groove", groove), ("clearance", clearance),
            ("overall", wide), ("stile", stile), ("profile", profile),
        ])
        .with("coefficient", Value::Number(c as f64 / 1e5))
        .with("rise", percent(rise))
        .with("fall", percent(fall));
        let one = whole(1);
        let per = |tenths: i64| part(c * tenths, 1_000_000);
        let wet = whole(opening + 2 * groove - 2 * clearance);
        let now = &wet / (&one + per(rise));
        let dry = &now * (&one - per(fall));
        let held = (&dry - whole(opening)) / whole(2);
        let Some(answer) = ask.maybe() else {
            // Refused only when the driest panel is no wider than the opening.
            prop_assert!(held <= part(1, 1));
            return Ok(());
        };
        is(nm(&answer, "panel_wet"), &wet, (1, 1));
        is(nm(&answer, "panel"), &now, (1, 1));
        is(nm(&answer, "panel_dry"), &dry, (1, 1));
        is(nm(&answer, "hold_centred"), &held, (2, 1));
        is(nm(&answer, "hold_drifted"), &(&dry - whole(opening) - whole(groove)), (1, 1));
        // Over its stiles the frame is opening and stiles; the scribed rail covers both profiles.
        is(nm(&answer, "rail_shoulder"), &whole(opening + 2 * profile), (1, 1));
    }

    // A point x from the fixed place moves x C for each point of moisture.
    #[test]
    fn breadboard_slot(
        distance in 1_000_000..2_000_000_000_i64, peg in 2_000_000..20_000_000_i64,
        c in 50..450_i64, rise in 0..50_i64, fall in 0..30_i64,
    ) {
        let answer = Ask::new("breadboard", &[("distance", distance), ("peg", peg)])
            .with("coefficient", Value::Number(c as f64 / 1e5))
            .with("rise", percent(rise))
            .with("fall", percent(fall))
            .answer();
        let moves = |tenths: i64| whole(distance) * part(c * tenths, 1_000_000);
        is(nm(&answer, "slot_in"), &moves(rise), (1, 1));
        is(nm(&answer, "slot_out"), &moves(fall), (1, 1));
        let all = whole(peg) + moves(rise) + moves(fall);
        is(nm(&answer, "slot"), &all, (1, 1));
    }

    // Handbook eq. 13-2: change = D C (to - from), inside 6 to 14 %.
    #[test]
    fn movement_by_coefficient(
        width in 20_000_000..2_000_000_000_i64, c in 50..450_i64,
        from in 60..140_i64, to in 60..140_i64,
    ) {
        let answer = Ask::new("movement", &[("width", width)])
            .with("coefficient", Value::Number(c as f64 / 1e5))
            .with("from", percent(from))
            .with("to", percent(to))
            .answer();
        let change = whole(width) * part(c * (to - from), 1_000_000);
        is(nm(&answer, "change"), &change, (1, 1));
        is(nm(&answer, "after"), &(whole(width) + change), (1, 1));
    }
}
