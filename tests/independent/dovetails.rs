//! Sliding dovetails: socket and tail cut by the cutter's own section, then laid over each other.
//!
//! A dovetail cutter is `diameter` wide at its tip and narrows by the tangent of its angle for each
//! unit of height, on both sides.

use proptest::prelude::*;

use crate::outline::Outline;
use crate::{Ask, all_nm, mm, tangent, within};

/// Smaller pieces than this are rounding to whole nanometres (mm2).
const ROUNDING: f64 = 1e-3;

fn of(nm: i64) -> f64 {
    nm as f64 / 1e6
}

/// The cutter's section, its tip at height 0 and its axis at `axis`.
fn section(axis: f64, diameter: f64, tan: f64, height: f64) -> Outline {
    let (tip, waist) = (diameter / 2.0, diameter / 2.0 - height * tan);
    Outline::polygon(&[
        [axis - tip, 0.0],
        [axis + tip, 0.0],
        [axis + waist, height],
        [axis - waist, height],
    ])
}

/// What the cutter takes of the tail's stock, which stands with its end on the table and its face
/// against the fence at `x = 0`: the tip is up at the shoulder and stands out by `exposure`.
fn cheek(exposure: f64, diameter: f64, tan: f64, height: f64) -> Outline {
    let cutter = section(exposure - diameter / 2.0, diameter, tan, height);
    cutter.moved(|[x, y]| [x, height - y])
}

fn mirrored(outline: &Outline, stock: f64) -> Outline {
    outline.moved(|[x, y]| [stock - x, y])
}

proptest! {
    // Socket: the passes joined, seen with the tip at height 0 as the tail stands. Its sections must
    // make one trapezium without a ridge. Tail: the stock less the cutter at both faces. Centred in
    // the socket, the tail lies inside it, and what stays empty is clearance times depth.
    #[test]
    fn a_tail_fills_its_socket_but_for_the_clearance(
        cutter in 8_000_000..30_000_000_i64, degrees in 5.0..15.0_f64,
        depth_share in 0.2..0.9_f64, wider in 0..15_000_000_i64,
        stock_share in 0.0..0.95_f64, clearance in -200_000..600_000_i64,
        from in 0..500_000_000_i64,
    ) {
        let tan = tangent(degrees);
        let diameter = of(cutter);
        // The mouth of one pass keeps a quarter of the cutter.
        let depth = (cutter as f64 * 0.75 / (2.0 * tan) * depth_share).min(40e6) as i64;
        let height = of(depth);
        let base = cutter + wider.min(cutter / 2);
        // Between the least stock, k = 0, and the most, exposure = D - h tan a.
        let (least, most) = (of(base), of(base) + 2.0 * (diameter - 2.0 * height * tan));
        let stock = ((least + 1.0 + (most - least - 1.6).max(0.0) * stock_share) * 1e6) as i64;
        let answer = Ask::new("sliding-dovetail", &[
            ("stock", stock), ("cutter", cutter), ("depth", depth), ("clearance", clearance),
            ("base", base), ("from", from),
        ])
        .degrees(degrees)
        .answer();
        let fences = all_nm(&answer, "fences");
        let socket = Outline::all(fences.iter().map(|at| section(of(*at), diameter, tan, height)));
        // `from` goes to the near wall at the mouth, so that the base begins the flare nearer.
        let flare = height * tan;
        let (left, right) = (of(from) - flare, of(from) - flare + of(base));
        let wanted = Outline::polygon(&[
            [left, 0.0], [right, 0.0], [right - flare, height], [left + flare, height],
        ]);
        prop_assert!(socket.differs(&wanted) < ROUNDING);
        within(mm(&answer, "mouth"), right - left - 2.0 * flare, 3e-6);

        let thick = of(stock);
        let board = Outline::rectangle([0.0, 0.0], [thick, height]);
        let cut = cheek(mm(&answer, "exposure"), diameter, tan, height);
        let tail = board.less(&cut).less(&mirrored(&cut, thick));
        // No sliver stays between cutter and fence.
        prop_assert_eq!(tail.pieces(ROUNDING).len(), 1);
        let middle = (left + right) / 2.0 - thick / 2.0;
        let home = tail.moved(|[x, y]| [x + middle, y]);
        let (empty, tight) = (socket.less(&home).area(), home.less(&socket).area());
        let wanted = of(clearance) * height;
        within(empty, wanted.max(0.0), ROUNDING);
        within(tight, (-wanted).max(0.0), ROUNDING);
        let shoulder = Outline::rectangle([-1.0, height - 1e-3], [thick + 1.0, height]);
        let neck = tail.common(&shoulder).area() / 1e-3;
        within(neck, mm(&answer, "neck"), 2e-3);
        let end = tail.common(&Outline::rectangle([-1.0, 0.0], [thick + 1.0, 1e-3])).area() / 1e-3;
        within(end, mm(&answer, "tail_end"), 2e-3);
    }

    // One side: a straight trench, then the dovetail cutter at the larger fence distance. Joined they
    // are a trapezium with one upright wall: no ridge, no bite into the mouth, and the dovetail
    // cutter stays off the square wall by the margin. The tail is cut on one face.
    #[test]
    fn a_one_sided_tail_fills_its_socket(
        cutter in 8_000_000..25_000_000_i64, degrees in 7.0..15.0_f64,
        depth_share in 0.2..0.9_f64, margin in 100_000..2_000_000_i64,
        place in 0.0..1.0_f64, straight_place in 0.0..1.0_f64,
        clearance in 0..500_000_i64, room in 0.0..0.9_f64, from in 0..500_000_000_i64,
    ) {
        let tan = tangent(degrees);
        let diameter = of(cutter);
        let depth = (cutter as f64 * 0.75 / (2.0 * tan) * depth_share).min(40e6) as i64;
        let (height, flare) = (of(depth), of(depth) * tan);
        // The stock may be thicker than the base by D - 2 h tan a - c, so that no sliver runs.
        let thicker = diameter - 2.0 * flare - of(clearance) - 2.0 * of(margin);
        prop_assume!(thicker > 0.1);
        let stock = cutter + 2 * margin + (thicker * room * 1e6) as i64;
        let base = cutter + margin + ((stock - cutter - 2 * margin) as f64 * place) as i64;
        prop_assume!(of(stock - base) + of(clearance) <= diameter - 2.0 * flare - 1e-5);
        let (mouth, one_pass) = (of(base) - flare, diameter - 2.0 * flare);
        let straight = ((mouth - one_pass * straight_place * 0.999 - 2e-6) * 1e6) as i64;
        prop_assume!((1_000_000..=60_000_000).contains(&straight));
        let answer = Ask::new("one-sided-dovetail", &[
            ("stock", stock), ("cutter", cutter), ("depth", depth), ("straight", straight),
            ("base", base), ("clearance", clearance), ("margin", margin), ("from", from),
        ])
        .degrees(degrees)
        .answer();
        let trench_axis = mm(&answer, "fence_straight");
        let half = of(straight) / 2.0;
        let trench = Outline::rectangle([trench_axis - half, 0.0], [trench_axis + half, height]);
        let dovetail = section(mm(&answer, "fence_dovetail"), diameter, tan, height);
        let socket = trench.and(&dovetail);
        let (square, far) = (of(from), of(from) + of(base));
        let wanted = Outline::polygon(&[
            [square, 0.0], [far, 0.0], [far - flare, height], [square, height],
        ]);
        prop_assert!(socket.differs(&wanted) < ROUNDING);
        within(dovetail.across().0 - square, mm(&answer, "square_wall_gap"), 3e-6);
        prop_assert!(mm(&answer, "square_wall_gap") >= of(margin) - 3e-6);
        within(mm(&answer, "mouth"), mouth, 3e-6);

        let thick = of(stock);
        let cut = mirrored(&cheek(mm(&answer, "exposure"), diameter, tan, height), thick);
        let tail = Outline::rectangle([0.0, 0.0], [thick, height]).less(&cut);
        prop_assert_eq!(tail.pieces(ROUNDING).len(), 1);
        let home = tail.moved(|[x, y]| [x + square, y]);
        within(socket.less(&home).area(), of(clearance) * height, ROUNDING);
        prop_assert!(home.less(&socket).area() < ROUNDING);
    }
}
