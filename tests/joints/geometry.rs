//! Both parts of a joint drawn as the cutters leave them, and put together.
//!
//! Independent of the program: a dovetail cutter's half width at a height z below its tip is
//! D/2 - z tan(theta); everything else is where fence and stops put it. Tangents from sine and
//! cosine of the standard library. Lengths in mm, read from random whole nanometres.

use std::collections::BTreeMap;

use faceside::joints;
use faceside::units::{Angle, Length, Value};
use proptest::prelude::*;

use crate::{calculator, length, lengths};

fn given(sizes: &[(&str, i64)], degrees: Option<f64>) -> BTreeMap<String, Value> {
    let size = |(name, nm): &(&str, i64)| ((*name).to_owned(), Value::Length(Length::nm(*nm)));
    let angle = degrees.map(|d| ("angle".to_owned(), Value::Angle(Angle::degrees(d))));
    sizes.iter().map(size).chain(angle).collect()
}

fn tangent(degrees: f64) -> f64 {
    degrees.to_radians().sin_cos().0 / degrees.to_radians().sin_cos().1
}

fn mm(nm: i64) -> f64 {
    nm as f64 / 1e6
}

proptest! {
    #[test]
    fn sliding_dovetail_leaves_the_clearance(
        stock in 14_000_000..40_000_000_i64, cutter in 8_000_000..20_000_000_i64,
        depth in 3_000_000..12_000_000_i64, clearance in -300_000..500_000_i64,
        more in 0..8_000_000_i64, degrees in 5.0..16.0_f64,
    ) {
        let sizes = [("stock", stock), ("cutter", cutter), ("depth", depth),
            ("clearance", clearance), ("base", cutter + more), ("from", 50_000_000)];
        let answer = joints::work_out(calculator("sliding-dovetail"), &given(&sizes, Some(degrees)));
        prop_assume!(answer.is_ok());
        let answer = answer.unwrap();
        let (stock, cutter, depth, clearance) = (mm(stock), mm(cutter), mm(depth), mm(clearance));
        let axes: Vec<_> = lengths(&answer, "fences").iter().map(|axis| axis.to_mm()).collect();
        let (first, last) = (axes[0], axes[axes.len() - 1]);
        let exposure = length(&answer, "exposure").to_mm();
        for tenth in 0..=10 {
            let below_face = depth * f64::from(tenth) / 10.0;
            let half = cutter / 2.0 - (depth - below_face) * tangent(degrees);
            for pair in axes.windows(2) {
                prop_assert!(pair[1] > pair[0], "climbs");
                prop_assert!(pair[1] - half <= pair[0] + half + 1e-5, "ridge at {below_face}");
            }
            let socket = last + half - (first - half);
            let tail = stock - 2.0 * (exposure - below_face * tangent(degrees));
            prop_assert!((socket - tail - clearance).abs() < 1e-5, "{socket} {tail}");
        }
        let near_wall_at_mouth = first - (cutter / 2.0 - depth * tangent(degrees));
        prop_assert!((near_wall_at_mouth - 50.0).abs() < 1e-5);
    }

    #[test]
    fn one_sided_dovetail_leaves_the_clearance(
        stock in 14_000_000..30_000_000_i64, cutter in 8_000_000..20_000_000_i64,
        depth in 3_000_000..12_000_000_i64, clearance in -300_000..500_000_i64,
        straight in 8_000_000..14_000_000_i64, degrees in 5.0..16.0_f64,
    ) {
        let sizes = [("stock", stock), ("cutter", cutter), ("depth", depth),
            ("clearance", clearance), ("straight", straight), ("from", 80_000_000)];
        let answer = joints::work_out(calculator("one-sided-dovetail"), &given(&sizes, Some(degrees)));
        prop_assume!(answer.is_ok());
        let answer = answer.unwrap();
        let (stock, cutter, depth, clearance) = (mm(stock), mm(cutter), mm(depth), mm(clearance));
        let (first, last) = (length(&answer, "fence_straight"), length(&answer, "fence_dovetail"));
        prop_assert!(last > first, "climbs");
        let (first, last, straight) = (first.to_mm(), last.to_mm(), mm(straight));
        let square_wall = first - straight / 2.0;
        prop_assert!((square_wall - 80.0).abs() < 1e-5);
        let exposure = length(&answer, "exposure").to_mm();
        for tenth in 0..=10 {
            let below_face = depth * f64::from(tenth) / 10.0;
            let half = cutter / 2.0 - (depth - below_face) * tangent(degrees);
            prop_assert!(first + straight / 2.0 <= last + half + 1e-5, "bite");
            prop_assert!(last - half <= first + straight / 2.0 + 1e-5, "ridge");
            prop_assert!(last - half > square_wall, "square wall cut");
            let socket = last + half - square_wall;
            let tail = stock - (exposure - below_face * tangent(degrees));
            prop_assert!((socket - tail - clearance).abs() < 1e-5, "{socket} {tail}");
        }
    }

    #[test]
    fn a_looser_clearance_never_gives_a_thicker_tail(
        tight in -300_000..500_000_i64, looser in 0..500_000_i64,
        depth in 3_000_000..12_000_000_i64,
    ) {
        for name in ["sliding-dovetail", "one-sided-dovetail"] {
            let tail = |clearance| {
                let sizes = [("stock", 20_000_000), ("cutter", 12_700_000), ("depth", depth),
                    ("clearance", clearance)];
                let answer = joints::work_out(calculator(name), &given(&sizes, Some(10.0)));
                let answer = answer.expect("within its limits");
                (length(&answer, "neck"), length(&answer, "exposure"))
            };
            let ((neck, exposure), (loose, more)) = (tail(tight), tail(tight + looser));
            prop_assert!(loose <= neck && more >= exposure);
        }
    }

    // Walls where they belong, growing fence distances, neighbours that overlap as asked, and one
    // pass fewer would not do.
    #[test]
    fn housing_is_covered(
        width in 12_000_000..80_000_000_i64, cutter in 5_000_000..20_000_000_i64,
        overlap in 500_000..3_000_000_i64, from in 0..500_000_000_i64,
    ) {
        let sizes = [("width", width), ("cutter", cutter), ("overlap", overlap), ("from", from)];
        let answer = joints::work_out(calculator("housing"), &given(&sizes, None));
        prop_assume!(answer.is_ok());
        let fences = lengths(&answer.unwrap(), "fences");
        let axes: Vec<_> = fences.iter().map(|axis| axis.to_nm()).collect();
        // Twice the axis, to keep an odd diameter whole.
        prop_assert!((2 * axes[0] - cutter - 2 * from).abs() <= 1);
        prop_assert!((2 * axes[axes.len() - 1] + cutter - 2 * (from + width)).abs() <= 1);
        for pair in axes.windows(2) {
            prop_assert!(pair[1] > pair[0], "climbs");
            prop_assert!(pair[0] + cutter - pair[1] >= overlap - 1, "too little overlap");
        }
        if let Some(steps) = (axes.len() as i64).checked_sub(2).filter(|steps| *steps >= 0) {
            prop_assert!(cutter + steps * (cutter - overlap) < width, "a pass too many");
        }
    }

    // Along the fence: x grows to the right, the work is fed to the left, the cutter's axis is at 0.
    // One hand, the open back edge leads and ends at the block left of the cutter: the cut reaches
    // from there to the cutter's right edge. The other, the back edge trails and starts at the
    // block right of the cutter: the cut reaches from the cutter's left edge to there.
    #[test]
    fn a_stopped_cut_ends_at_the_stop_in_both_hands(
        panel in 100_000_000..900_000_000_i64, stop in 5_000_000..60_000_000_i64,
        cutter in 3_000_000..30_000_000_i64,
    ) {
        let sizes = [("panel", panel), ("stop", stop), ("cutter", cutter)];
        let answer = joints::work_out(calculator("stopped-housing"), &given(&sizes, None)).unwrap();
        let (panel, stop, half) = (mm(panel), mm(stop), mm(cutter) / 2.0);
        let distance = |name| length(&answer, name).to_mm();
        let blocks = [distance("stop_near") + half, distance("stop_far") - half, distance("stop_axis")];
        for block in blocks {
            let (back_edge, crown) = (-block, half);
            let front_edge = back_edge + panel;
            prop_assert!((front_edge - crown - stop).abs() < 1e-5, "open end leads");
            let (back_edge, crown) = (block, -half);
            let front_edge = back_edge - panel;
            prop_assert!((crown - front_edge - stop).abs() < 1e-5, "dropped on");
        }
    }

    #[test]
    fn steps_reach_the_depth_and_none_is_too_deep(
        depth in 100_000..60_000_000_i64, cutter in 6_000_000..30_000_000_i64,
    ) {
        let sizes = [("depth", depth), ("cutter", cutter)];
        let answer = joints::work_out(calculator("passes"), &given(&sizes, None)).unwrap();
        let mut before = 0;
        for height in lengths(&answer, "depths").iter().map(|height| height.to_nm()) {
            prop_assert!(height > before && 2 * (height - before) <= cutter + 2);
            before = height;
        }
        prop_assert_eq!(before, depth);
    }
}
