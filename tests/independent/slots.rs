//! Tongues, halvings and bridles: both sections drawn from their settings, then laid over each other.

use proptest::prelude::*;

use crate::outline::Outline;
use crate::{Ask, mm, sine_cosine, within};

fn of(nm: i64) -> f64 {
    nm as f64 / 1e6
}

/// Rounding to whole nanometres over a few hundred millimetres (mm2).
const ROUNDING: f64 = 2e-3;

/// Empty room and clash of what enters an opening, against what clearance and gap leave: the length
/// of the tongue times the clearance, and the gap at its end as wide as the opening.
fn fills(opening: &Outline, enters: &Outline, [clearance, length, gap, width]: [f64; 4]) {
    let (room, clash) = (clearance * length, gap * width);
    if clearance >= 0.0 {
        within(enters.less(opening).area(), 0.0, ROUNDING);
        within(opening.less(enters).area(), room + clash, ROUNDING);
    } else {
        within(enters.less(opening).area(), -room, ROUNDING);
        within(opening.less(enters).area(), clash, ROUNDING);
    }
}

proptest! {
    // Both boards from their settings, faces level, edges together: the groove of the one less the
    // tongue of the other.
    #[test]
    fn a_tongue_fills_its_groove_but_for_clearance_and_gap(
        stock in 9_000_000..60_000_000_i64, depth in 3_000_000..20_000_000_i64,
        width in 0.15..0.6_f64, place in 0.02..0.98_f64,
        clearance in -300_000..600_000_i64, end_gap in 0..2_500_000_i64, middle in any::<bool>(),
    ) {
        let groove = (stock as f64 * width) as i64;
        let mut ask = Ask::new("tongue-and-groove", &[
            ("stock", stock), ("depth", depth), ("groove", groove), ("clearance", clearance),
            ("end_gap", end_gap),
        ]);
        if !middle {
            let face = 600_000 + ((stock - groove - 1_200_000) as f64 * place) as i64;
            ask = ask.lengths(&[("face", face)]);
        }
        let answer = ask.answer();
        let get = |name: &str| mm(&answer, name);
        let (thick, long) = (of(stock), get("tongue_length"));
        // The face is at height 0. Across: the joint's edge at 0, the groove to the left.
        let grooved = Outline::rectangle([-40.0, 0.0], [0.0, thick]).less(&Outline::rectangle(
            [-get("depth"), get("wall_face")],
            [1.0, thick - get("wall_back")],
        ));
        let opening = Outline::rectangle([-40.0, 0.0], [0.0, thick]).less(&grooved);
        within(opening.area(), of(groove) * of(depth), ROUNDING);
        let tongue = Outline::rectangle([-long, 0.0], [0.0, thick])
            .less(&Outline::rectangle([-50.0, -1.0], [0.0, get("shoulder_face")]))
            .less(&Outline::rectangle([-50.0, get("tongue_far")], [0.0, thick + 1.0]));
        within(get("tongue_far") + get("shoulder_back"), thick, 1e-9);
        fills(&opening, &tongue, [of(clearance), long, of(end_gap), of(groove)]);
        // It stands in the middle of the groove, so the faces come level.
        let (low, high) = (get("wall_face"), get("shoulder_face"));
        within(2.0 * (high - low), of(clearance), 3e-6);
    }

    // A flush corner: the board's outer face lies in line with the side's end.
    #[test]
    fn a_tongue_in_a_housing_makes_a_flush_corner(
        stock in 9_000_000..40_000_000_i64, side in 9_000_000..40_000_000_i64,
        width in 0.2..0.7_f64, deep in 0.15..0.5_f64,
        clearance in -300_000..600_000_i64, end_gap in 0..1_200_000_i64,
    ) {
        let (housing, depth) = ((stock as f64 * width) as i64, (side as f64 * deep) as i64);
        prop_assume!(depth > end_gap && depth * 2 <= side);
        let answer = Ask::new("tongue-in-housing", &[
            ("stock", stock), ("side", side), ("housing", housing), ("depth", depth),
            ("clearance", clearance), ("end_gap", end_gap),
        ])
        .answer();
        let get = |name: &str| mm(&answer, name);
        // The side's end, and the board's outer face, at height 0; the side's inner face at 0 across.
        let side_whole = Outline::rectangle([-of(side), 0.0], [0.0, 200.0]);
        let from_end = get("from_end");
        let cut = Outline::rectangle([-get("depth"), from_end], [1.0, from_end + get("housing")]);
        let opening = side_whole.common(&cut);
        let tongue = Outline::rectangle([-get("tongue_length"), 0.0], [0.0, of(stock)])
            .less(&Outline::rectangle([-50.0, -1.0], [0.0, get("shoulder")]));
        within(tongue.area(), get("tongue") * get("tongue_length"), ROUNDING);
        fills(&opening, &tongue, [
            of(clearance), get("tongue_length"), of(end_gap), of(housing),
        ]);
        let under = side_whole.less(&cut).common(&Outline::rectangle(
            [-100.0, from_end + 0.1],
            [0.0, from_end + get("housing") - 0.1],
        ));
        within(under.across().1 - under.across().0, get("rest"), 3e-6);
    }

    // Section along a: b, less what is cut from its back, lies in the recess of a; the faces are
    // level, and nothing is empty but the clearance over the depth. In plan at an angle: the strip
    // that b covers, cut by the edges of a, has the area of the recess times the width of a.
    #[test]
    fn a_halving_fills_its_recess(
        stock_a in 8_000_000..60_000_000_i64, stock_b in 8_000_000..60_000_000_i64,
        share in 0.1..0.9_f64, width in 10_000_000..150_000_000_i64,
        clearance in 0..600_000_i64, degrees in 20.0..90.0_f64, trim in 0..5_000_000_i64,
    ) {
        let gauge = (stock_a.min(stock_b) as f64 * share) as i64;
        let ask = Ask::new("halving", &[
            ("stock_a", stock_a), ("stock_b", stock_b), ("width", width), ("gauge", gauge),
            ("clearance", clearance), ("trim", trim), ("height", gauge),
        ]);
        let square = ask.clone().degrees(90.0).answer();
        // The faces at height 0, the wood below.
        let recess = mm(&square, "recess");
        let cut_a = Outline::rectangle([0.0, -mm(&square, "depth_a")], [recess, 1.0]);
        let a = Outline::rectangle([-50.0, -of(stock_a)], [recess + 50.0, 0.0]).less(&cut_a);
        let begins = (recess - of(width)) / 2.0;
        let b = Outline::rectangle([begins, -of(stock_b)], [begins + of(width), 0.0]);
        let cut_b = Outline::rectangle([-1.0, -100.0], [recess + 1.0, mm(&square, "depth_b") - of(stock_b)]);
        let b = b.less(&cut_b);
        prop_assert!(a.common(&b).area() < ROUNDING);
        let whole = Outline::rectangle([-50.0, -of(stock_a)], [recess + 50.0, 0.0]);
        within(whole.less(&a).less(&b).area(), of(clearance) * of(gauge), ROUNDING);
        // Both at one height: b's rest on the floor of a, its face above a's by the step.
        let lifted = of(stock_b) - 2.0 * of(gauge);
        within(mm(&square, "step"), lifted, 1e-9);

        let askew = ask.degrees(degrees).answer();
        let (sine, cosine) = sine_cosine(degrees);
        let strip = |across: f64| {
            let turned = |[along, over]: [f64; 2]| {
                [along * cosine - over * sine, along * sine + over * cosine]
            };
            let corners = [[-2e3, 0.0], [2e3, 0.0], [2e3, across], [-2e3, across]];
            Outline::polygon(&corners.map(turned))
        };
        let wide = 40.0;
        let a = Outline::rectangle([-3e3, -wide / 2.0], [3e3, wide / 2.0]);
        let covered = strip(of(width + clearance)).common(&a).area();
        within(mm(&askew, "recess"), covered / wide, 1e-5);
        let lap = strip(of(width)).common(&a).area() / wide;
        within(mm(&askew, "end_lap"), lap + of(trim), 1e-5);
    }

    // The slot sawn from both faces with the fence at `cheek`, the crossing piece cut from both faces
    // to `shoulder`: laid over each other in the width of the slotted piece.
    #[test]
    fn a_bridle_closes(
        stock in 9_000_000..60_000_000_i64, width in 10_000_000..150_000_000_i64,
        cross in 10_000_000..150_000_000_i64, share in 0.15..0.6_f64,
        clearance in -300_000..600_000_i64, trim in 0..20_000_000_i64,
    ) {
        let slot = (stock as f64 * share) as i64;
        let answer = Ask::new("bridle", &[
            ("stock", stock), ("width", width), ("cross", cross), ("slot", slot),
            ("clearance", clearance), ("trim", trim),
        ])
        .answer();
        let get = |name: &str| mm(&answer, name);
        let (thick, over) = (of(stock), of(width));
        // Along the crossing piece at the joint: the slotted piece is `width` wide there.
        let slotted = Outline::all([
            Outline::rectangle([0.0, 0.0], [over, get("cheek")]),
            Outline::rectangle([0.0, thick - get("cheek")], [over, thick]),
        ]);
        let opening = Outline::rectangle([0.0, 0.0], [over, thick]).less(&slotted);
        let recess = get("recess");
        let crossing = Outline::rectangle([-50.0, 0.0], [over + 50.0, thick])
            .less(&Outline::rectangle([0.0, -1.0], [recess, get("shoulder")]))
            .less(&Outline::rectangle([0.0, thick - get("shoulder")], [recess, thick + 1.0]));
        let tongue = crossing.common(&Outline::rectangle([0.0, 0.0], [over, thick]));
        fills(&opening, &tongue, [of(clearance), over, 0.0, 0.0]);
        // Along the slotted piece: the crossing piece lies in the slot, `trim` of the end beyond it.
        let along = Outline::rectangle([0.0, 0.0], [get("slot_depth"), 1.0]);
        let lies = Outline::rectangle([of(trim), 0.0], [of(trim + cross), 1.0]);
        within(along.less(&lies).area(), of(trim), 1e-6);
        prop_assert!(lies.less(&along).area() < 1e-6);
    }
}
