//! Tenons: cheeks cut from their settings and counted as pieces, sizes in exact fractions; the two
//! holes of a drawbore laid over each other.

use num_rational::Ratio;
use proptest::prelude::*;

use crate::outline::Outline;
use crate::{Ask, mm, nm, within};

fn of(nm: i64) -> f64 {
    nm as f64 / 1e6
}

/// A fence setting of the table saw: the blade's section, the fence at 0.
fn blade(fence: f64, kerf: f64) -> Outline {
    Outline::rectangle([fence, -10.0], [fence + kerf, 400.0])
}

proptest! {
    // Router table: each cheek is cut in from its own face to the shoulder's height. Table saw, one
    // face at the fence: the blade at both fence settings leaves three pieces, the middle one the
    // tenon. Both faces in turn: the same with the board turned round. Spacer: the board set off by
    // it, the fence where the nearer... the farther cheek was cut.
    #[test]
    fn every_way_of_cutting_the_cheeks_leaves_the_same_tenon(
        stock in 15_000_000..60_000_000_i64, share in 0.2..0.5_f64,
        clearance in -200_000..400_000_i64, kerf in 1_500_000..3_500_000_i64,
        length in 10_000_000..80_000_000_i64,
    ) {
        let cutter = (stock as f64 * share) as i64;
        let ask = Ask::new("tenon", &[
            ("stock", stock), ("width", 100_000_000), ("cutter", cutter), ("clearance", clearance),
            ("length", length), ("kerf", kerf),
        ]);
        let answer = ask.answer();
        let get = |name: &str| mm(&answer, name);
        let (thick, long, k) = (of(stock), of(length), of(kerf));
        let board = Outline::rectangle([0.0, 0.0], [thick, long]);
        let by_router = board
            .less(&Outline::rectangle([-1.0, -1.0], [get("shoulder_face"), 400.0]))
            .less(&Outline::rectangle([thick - get("shoulder_back"), -1.0], [thick + 1.0, 400.0]));
        within(by_router.area(), (of(cutter) - of(clearance)) * long, 1e-4);
        within(get("mortise") - by_router.area() / long, of(clearance), 1e-5);

        let middle = |pieces: Vec<Outline>| {
            let centred = |piece: &&Outline| {
                let (left, right) = piece.across();
                left < thick / 2.0 && right > thick / 2.0
            };
            pieces.iter().find(centred).cloned().expect("a middle piece")
        };
        let one_face = board
            .less(&blade(get("fence_near"), k))
            .less(&blade(get("fence_far"), k));
        prop_assert!(middle(one_face.pieces(1e-3)).differs(&by_router) < 1e-3);
        let flipped = blade(get("fence_flipped"), k);
        let both = board.less(&flipped).less(&flipped.moved(|[x, y]| [thick - x, y]));
        prop_assert!(middle(both.pieces(1e-3)).differs(&by_router) < 1e-3);
        // With the spacer between fence and board the fence of the farther cheek cuts the nearer one.
        let spaced = blade(get("fence_far") - get("spacer"), k);
        let at_one_setting = board.less(&spaced).less(&blade(get("fence_far"), k));
        prop_assert!(middle(at_one_setting.pieces(1e-3)).differs(&by_router) < 1e-3);
        // The shoulder cut: the board lies on its face, its end at the fence; the blade takes what is
        // between fence and shoulder's line up to the cheek, and no more.
        let flat = Outline::rectangle([0.0, 0.0], [long + 50.0, thick]);
        let saw = Outline::rectangle(
            [get("fence_shoulder"), -1.0],
            [get("fence_shoulder") + k, get("blade_height")],
        );
        let (_, far) = flat.common(&saw).across();
        within(far, long, 3e-6);
        within(get("blade_height"), get("shoulder_face"), 1e-9);
    }

    // The rail's end seen on its face, in exact fractions of a nanometre: tenon, gaps and shoulders
    // make up the width; the width by the named rule (Noyes p. 164, Fairham p. 73), no more than five
    // times the thickness (Notes on Building Construction I).
    #[test]
    fn widths_in_exact_fractions(
        width in 40_000_000..300_000_000_i64, groove in 0..15_000_000_i64,
        edge in 0..10_000_000_i64, form in 0..4_usize, chisel in 6_000_000..12_000_000_i64,
    ) {
        let (form, rule) = [
            ("plain", None), ("twin", None),
            ("haunched", Some("half-less-groove")), ("haunched", Some("half-of-rest")),
        ][form];
        let mut ask = Ask::new("tenon", &[
            ("stock", 22_000_000), ("width", width), ("cutter", chisel), ("groove", groove),
            ("edge", edge), ("length", 40_000_000),
        ])
        .word("form", form);
        if let Some(rule) = rule {
            ask = ask.word("width_rule", rule);
        }
        let answer = ask.answer();
        let whole = Ratio::from_integer;
        let (w, g, e) = (whole(width), whole(groove), whole(edge));
        let inner = if groove > edge { g } else { e };
        let by_rule = match (form, rule) {
            ("plain", _) => w - inner - e,
            ("twin", _) => (w - inner - e) / 3,
            (_, Some("half-less-groove")) => w / 2 - g,
            _ => (w - g) / 2,
        };
        let wanted = by_rule.min(whole(nm(&answer, "thickness")) * 5);
        let is = whole(nm(&answer, "width"));
        prop_assert!(is <= wanted && wanted - is <= Ratio::from_integer(1), "{} {}", is, wanted);
        let across = match form {
            "twin" => nm(&answer, "width") * 2 + nm(&answer, "gap"),
            _ => nm(&answer, "width"),
        };
        prop_assert_eq!(nm(&answer, "edge_inner") + across + nm(&answer, "edge_outer"), width);
        // No shoulder is less than what groove and edge ask for.
        prop_assert!(nm(&answer, "edge_inner") >= groove);
        if form != "haunched" {
            prop_assert!(nm(&answer, "edge_inner") >= edge && nm(&answer, "edge_outer") >= edge);
        }
        if form == "twin" && wanted == by_rule {
            prop_assert!((nm(&answer, "gap") - nm(&answer, "width")).abs() <= 2);
        }
    }

    // Two holes, polygons of 720 sides with corners on the line through both centres: what is common
    // to them is `passage` wide. The tenon's hole stays clear of the shoulder.
    #[test]
    fn what_both_holes_of_a_drawbore_share(
        peg in 3_000_000..30_000_000_i64, share in 0.05..0.9_f64, more in 0..60_000_000_i64,
    ) {
        let offset = ((peg as f64 * share) as i64).clamp(100_000, 20_000_000);
        let distance = peg / 2 + offset + more + 1_000;
        let ask = Ask::new("drawbore", &[
            ("peg", peg), ("offset", offset), ("distance", distance),
        ]);
        prop_assume!(distance <= 200_000_000);
        let answer = ask.answer();
        let hole = |at: f64| Outline::circle([at, 0.0], of(peg) / 2.0, 720);
        let in_tenon = hole(mm(&answer, "hole_from_shoulder"));
        let (left, right) = hole(of(distance)).common(&in_tenon).across();
        within(right - left, mm(&answer, "passage"), 1e-6);
        prop_assert!(in_tenon.across().0 > 0.0);
    }
}
