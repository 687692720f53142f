//! Housings: the passes joined, the blade's circle cut by the board's face, the taper pulled out.

use proptest::prelude::*;

use faceside::units::Value;
use uom::si::angle::degree;
use uom::si::f64::Length as UomLength;
use uom::si::length::millimeter;

use crate::outline::Outline;
use crate::{Ask, all_nm, count, mm, nm, within};

fn of(nm: i64) -> f64 {
    nm as f64 / 1e6
}

/// A pass of a straight cutter: its section at a fence distance.
fn pass(axis: f64, cutter: f64, depth: f64) -> Outline {
    let half = cutter / 2.0;
    Outline::rectangle([axis - half, 0.0], [axis + half, depth])
}

proptest! {
    // The passes joined are the housing and nothing else; neighbours share the overlap at least;
    // one pass fewer cannot reach from wall to wall with it.
    #[test]
    fn passes_cover_the_housing_exactly(
        cutter in 6_000_000..25_000_000_i64, extra in 0..60_000_000_i64,
        overlap in 500_000..3_000_000_i64, depth in 500_000..40_000_000_i64,
        from in 0..1_000_000_000_i64,
    ) {
        let width = cutter + extra;
        let answer = Ask::new("housing", &[
            ("width", width), ("cutter", cutter), ("overlap", overlap), ("depth", depth),
            ("from", from),
        ])
        .answer();
        let fences = all_nm(&answer, "fences");
        let draw = |fence: &i64| pass(of(*fence), of(cutter), of(depth));
        let cut = Outline::all(fences.iter().map(draw));
        let wanted = Outline::rectangle([of(from), 0.0], [of(from + width), of(depth)]);
        // A wall may be a nanometre off over the depth, where half of the cutter is not whole.
        prop_assert!(cut.differs(&wanted) <= 4e-6 * of(depth));
        for pair in fences.windows(2) {
            let shared = draw(&pair[0]).common(&draw(&pair[1])).area();
            prop_assert!(shared >= of(overlap) * of(depth) - 4e-6 * of(depth));
        }
        let passes = count(&answer, "passes");
        prop_assert_eq!(passes as usize, fences.len());
        let reach = cutter + (passes - 2) * (cutter - overlap);
        prop_assert!(passes == 1 || reach < width);
        // The offsets are the same passes, seen from the middle of the housing.
        let offsets = all_nm(&answer, "offsets");
        let middle = from * 2 + width;
        for (offset, fence) in offsets.iter().zip(&fences) {
            prop_assert!((fence * 2 - middle - offset * 2).abs() <= 4);
        }
    }

    // The blade is a circle that reaches `depth` into the board: what it has taken from the face
    // reaches `ramp` to each side of the arbor. A polygon of 4096 sides lies within R (1 - cos(pi /
    // 4096)) = 3e-7 R of the circle, and its chord within that over the slope of the circle there.
    #[test]
    fn the_ramp_is_half_of_the_chord_in_the_face(
        diameter in 100_000_000..400_000_000_i64, depth in 2_000_000..45_000_000_i64,
    ) {
        let answer = Ask::new("saw-ramp", &[("diameter", diameter), ("depth", depth)]).answer();
        let radius = of(diameter) / 2.0;
        let blade = Outline::circle([0.0, of(depth) - radius], radius, 4096);
        let board = Outline::rectangle([-500.0, 0.0], [500.0, 500.0]);
        let (least, most) = blade.common(&board).across();
        within(most, mm(&answer, "ramp"), 2e-3);
        within(least, -mm(&answer, "ramp"), 2e-3);
    }

    // What slides in has the housing's taper. Drawn out by `tight_travel` it leaves a gap of the
    // clearance all along: clearance times the length that is still inside.
    #[test]
    fn a_taper_draws_tight_in_the_last_travel(
        length in 100_000_000..2_000_000_000_i64, taper in 500_000..15_000_000_i64,
        share in 0.0..0.9_f64,
    ) {
        let clearance = ((taper as f64 * share) as i64).min(2_000_000);
        let answer = Ask::new("tapered-housing", &[
            ("length", length), ("taper", taper), ("clearance", clearance),
        ])
        .answer();
        let (long, lean, near_end) = (of(length), of(taper), 50.0);
        let housing = |at: f64| Outline::polygon(&[
            [at, 0.0], [at + long, 0.0], [at + long, near_end - lean], [at, near_end],
        ]);
        let travel = mm(&answer, "tight_travel");
        let inside = Outline::rectangle([0.0, -1.0], [long - travel, near_end + 1.0]);
        let gap = housing(0.0).common(&inside).less(&housing(-travel)).area();
        within(gap, of(clearance) * (long - travel), 2e-6 * long);
        // One wall leans by atan(taper / length), two by that of half the taper each.
        let size = UomLength::new::<millimeter>;
        let wanted = |rise: f64| size(rise).atan2(size(long)).get::<degree>();
        for (name, rise) in [("angle_one_wall", lean), ("angle_two_walls", lean / 2.0)] {
            match &answer.worked.results[name] {
                Value::Angle(angle) => within(angle.to_degrees(), wanted(rise), 1e-9),
                other => panic!("{other:?}"),
            }
        }
    }

    // Rebate: the board less what the cutter takes. What lies in it fills it but for `trim`.
    #[test]
    fn a_rebate_takes_its_mate_and_the_trim(
        stock in 10_000_000..80_000_000_i64, share in 0.1..0.95_f64,
        mate in 2_000_000..90_000_000_i64, trim in 0..5_000_000_i64,
    ) {
        let depth = (stock as f64 * share) as i64;
        let answer = Ask::new("rebate", &[
            ("stock", stock), ("depth", depth), ("mate", mate), ("trim", trim),
        ])
        .answer();
        let board = Outline::rectangle([0.0, 0.0], [200.0, of(stock)]);
        let cutter = Outline::rectangle(
            [-1.0, of(stock) - mm(&answer, "depth")],
            [mm(&answer, "width"), of(stock) + 1.0],
        );
        let left = board.less(&cutter);
        // What lies in the rebate stands `trim` out of the board's edge when its face meets the wall.
        let out = mm(&answer, "width") - of(mate);
        let lies = Outline::rectangle(
            [out, of(stock - depth)],
            [out + of(mate), of(stock)],
        );
        prop_assert!(left.common(&lies).area() < 1e-6);
        within(board.less(&left).less(&lies).area(), of(trim) * of(depth), 1e-4);
        let under = left.common(&Outline::rectangle([0.0, 0.0], [of(mate), of(stock)]));
        within(under.area(), mm(&answer, "lip") * of(mate), 1e-4);
        prop_assert_eq!(nm(&answer, "lip") + depth, stock);
    }
}
