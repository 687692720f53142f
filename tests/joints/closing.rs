//! Rebates, tongues, halvings, bridles, tenons put together: the parts are drawn again from the
//! settings alone, as saw and cutter leave them, and must close as the sources say.
//!
//! Independent of the program: where a blade or a cutter stands decides which wood is left; sums
//! and circles only. Lengths in whole nanometres, 2 of them for halves that are not whole.

use std::collections::BTreeMap;

use faceside::joints::{self, Answer};
use faceside::units::{Angle, Length, Value};
use proptest::prelude::*;

use crate::{calculator, length};

type Sizes<'s> = &'s [(&'s str, i64)];
type Words<'w> = &'w [(&'w str, &'w str)];

fn worked(name: &str, sizes: Sizes, words: Words) -> Option<Answer> {
    let size = |(name, nm): &(&str, i64)| ((*name).to_owned(), Value::Length(Length::nm(*nm)));
    let word =
        |(name, word): &(&str, &str)| ((*name).to_owned(), Value::Choice((*word).to_owned()));
    let given: BTreeMap<_, _> = sizes
        .iter()
        .map(size)
        .chain(words.iter().map(word))
        .collect();
    joints::work_out(calculator(name), &given).ok()
}

fn nm(answer: &Answer, name: &str) -> i64 {
    length(answer, name).to_nm()
}

fn is_near(is: i64, wanted: i64) -> bool {
    (is - wanted).abs() <= 2
}

proptest! {
    // Joinery 2.1, 3.12: gauged from the faces they are flush whatever the line; at one height b
    // stands out by the step.
    #[test]
    fn a_halving_closes_flush(
        stock_a in 6_000_000..60_000_000_i64, stock_b in 6_000_000..60_000_000_i64,
        gauge in 1_000_000..60_000_000_i64, height in 1_000_000..60_000_000_i64,
        width in 10_000_000..200_000_000_i64, clearance in -300_000..500_000_i64,
    ) {
        let sizes = [("stock_a", stock_a), ("stock_b", stock_b), ("gauge", gauge),
            ("height", height), ("width", width), ("clearance", clearance)];
        let answer = worked("halving", &sizes, &[]);
        prop_assert_eq!(answer.is_some(), gauge.max(height) < stock_a.min(stock_b));
        let Some(answer) = answer else { return Ok(()) };
        let floor_of_a = stock_a - nm(&answer, "depth_a");
        let face_of_b = floor_of_a + stock_b - nm(&answer, "depth_b");
        prop_assert_eq!(face_of_b, stock_a);
        let at_one_height = (stock_a - height) + (stock_b - height);
        prop_assert_eq!(nm(&answer, "step"), at_one_height - stock_a);
        prop_assert!(is_near(nm(&answer, "recess") - width, clearance));
    }

    // A parallelogram of width w laid across at an angle covers w / sin of the length.
    #[test]
    fn a_slanting_recess_is_as_wide_across_as_what_lies_in_it(
        width in 10_000_000..200_000_000_i64, degrees in 15.0..90.0_f64,
    ) {
        let mut given: BTreeMap<_, _> = [("stock_a", 20_000_000), ("stock_b", 20_000_000), ("width", width)]
            .map(|(name, nm)| (name.to_owned(), Value::Length(Length::nm(nm)))).into();
        given.insert("angle".to_owned(), Value::Angle(Angle::degrees(degrees)));
        let answer = joints::work_out(calculator("halving"), &given).unwrap();
        let across = nm(&answer, "recess") as f64 * degrees.to_radians().sin_cos().0;
        prop_assert!((across - width as f64).abs() <= 2.0);
    }

    // Joinery 3.7: the blade stands from the fence distance to that and its kerf; the spacer moves
    // the work by what the fence would move.
    #[test]
    fn a_tenon_and_its_shoulders_are_the_stock(
        stock in 12_000_000..50_000_000_i64, width in 40_000_000..300_000_000_i64,
        cutter in 3_000_000..16_000_000_i64, clearance in -200_000..400_000_i64,
        groove in 0..12_000_000_i64, kerf in 1_000_000..4_000_000_i64,
        length in 20_000_000..80_000_000_i64, form in 0..4_usize,
    ) {
        let sizes = [("stock", stock), ("width", width), ("cutter", cutter), ("kerf", kerf),
            ("clearance", clearance), ("groove", groove), ("length", length)];
        let forms: [Words; 4] = [&[("form", "plain")], &[("form", "twin")], &[("form", "haunched")],
            &[("form", "haunched"), ("width_rule", "half-less-groove")]];
        let answer = worked("tenon", &sizes, forms[form]);
        prop_assume!(answer.is_some());
        let answer = answer.unwrap();
        let get = |name| nm(&answer, name);
        prop_assert_eq!(get("shoulder_face") + get("thickness") + get("shoulder_back"), stock);
        prop_assert_eq!(get("mortise") - get("thickness"), clearance);
        let pair = if form == 1 { get("gap") + get("width") } else { 0 };
        prop_assert_eq!(get("edge_inner") + get("width") + pair + get("edge_outer"), width);
        prop_assert!(get("edge_inner") >= groove && get("edge_outer") >= 0);
        prop_assert!(get("width") <= 5 * get("thickness"));
        if answer.worked.results.contains_key("fence_near") {
            let near_cheek = get("fence_near") + kerf;
            prop_assert_eq!(get("fence_far") - near_cheek, get("thickness"));
            prop_assert_eq!(near_cheek, get("shoulder_face"));
            prop_assert_eq!(get("fence_far") - get("fence_near"), get("spacer"));
        }
        let cut_off = stock - get("fence_flipped");
        prop_assert!(is_near(stock - 2 * cut_off, get("thickness")));
        prop_assert_eq!(get("fence_shoulder") + kerf, length);
        prop_assert!(get("mortise_depth") > length);
    }

    // Faces flush, gaps alike on both sides of the tongue, a gap at its end.
    #[test]
    fn a_tongue_stands_in_the_middle_of_its_groove(
        stock in 9_000_000..50_000_000_i64, groove in 2_000_000..20_000_000_i64,
        face in 2_000_000..30_000_000_i64, depth in 4_000_000..20_000_000_i64,
        clearance in -300_000..500_000_i64, end_gap in 0..3_000_000_i64,
    ) {
        let sizes = [("stock", stock), ("groove", groove), ("face", face), ("depth", depth),
            ("clearance", clearance), ("end_gap", end_gap)];
        let answer = worked("tongue-and-groove", &sizes, &[]);
        prop_assume!(answer.is_some());
        let answer = answer.unwrap();
        let get = |name| nm(&answer, name);
        prop_assert_eq!(get("wall_face") + groove + get("wall_back"), stock);
        prop_assert_eq!(get("shoulder_face") + get("tongue") + get("shoulder_back"), stock);
        prop_assert_eq!(get("tongue_far") - get("shoulder_face"), get("tongue"));
        let (above, below) = (get("shoulder_face") - face, face + groove - get("tongue_far"));
        prop_assert!((above - below).abs() <= 2);
        prop_assert_eq!(above + below, clearance);
        prop_assert_eq!(get("tongue_length") + end_gap, depth);
    }

    // The corner: the outer face flush with the side's end, the tongue in its housing.
    #[test]
    fn a_tongue_in_its_housing_makes_a_flush_corner(
        stock in 9_000_000..40_000_000_i64, side in 9_000_000..40_000_000_i64,
        housing in 2_000_000..20_000_000_i64, clearance in -300_000..500_000_i64,
    ) {
        let sizes = [("stock", stock), ("side", side), ("housing", housing), ("clearance", clearance)];
        let answer = worked("tongue-in-housing", &sizes, &[]);
        prop_assume!(answer.is_some());
        let answer = answer.unwrap();
        let get = |name| nm(&answer, name);
        let tongue = (get("shoulder"), stock);
        let opening = (get("from_end"), get("from_end") + housing);
        prop_assert_eq!(tongue.1 - tongue.0, get("tongue"));
        let (outer, inner) = (tongue.0 - opening.0, opening.1 - tongue.1);
        prop_assert!((outer - inner).abs() <= 2);
        prop_assert_eq!(outer + inner, clearance);
        prop_assert_eq!(get("rest") + get("depth"), side);
        prop_assert!(2 * get("depth") <= side && get("tongue_length") < get("depth"));
    }

    // Each wall of slot and tongue cut in from its own face.
    #[test]
    fn a_bridle_straddles_its_tongue(
        stock in 9_000_000..60_000_000_i64, slot in 2_000_000..20_000_000_i64,
        clearance in -300_000..500_000_i64, cross in 20_000_000..100_000_000_i64,
    ) {
        let sizes = [("stock", stock), ("slot", slot), ("clearance", clearance), ("cross", cross),
            ("width", 40_000_000)];
        let answer = worked("bridle", &sizes, &[]);
        prop_assume!(answer.is_some());
        let answer = answer.unwrap();
        let get = |name| nm(&answer, name);
        let tongue = stock - 2 * get("shoulder");
        prop_assert!(is_near(tongue, get("thickness")));
        prop_assert!(is_near(stock - 2 * get("cheek"), slot));
        prop_assert_eq!(slot - get("thickness"), clearance);
        prop_assert!(get("slot_depth") >= cross && get("recess") == 40_000_000);
    }

    // Widths along both parts, x before home: opening less what slides in is nothing at home.
    #[test]
    fn a_taper_takes_the_clearance_up(
        length in 100_000_000..900_000_000_i64, taper in 300_000..6_000_000_i64,
        clearance in 0..2_000_000_i64,
    ) {
        let sizes = [("length", length), ("taper", taper), ("clearance", clearance)];
        let answer = worked("tapered-housing", &sizes, &[]);
        prop_assert_eq!(answer.is_some(), clearance <= taper);
        let Some(answer) = answer else { return Ok(()) };
        let (long, taper) = (length as f64, taper as f64);
        let before_home = nm(&answer, "tight_travel") as f64;
        let place = long / 2.0;
        let opening = 20e6 - taper * place / long;
        let slides_in = 20e6 - taper * (place + before_home) / long;
        prop_assert!((opening - slides_in - clearance as f64).abs() <= 2.0);
        for (name, walls) in [("angle_one_wall", 1.0), ("angle_two_walls", 2.0)] {
            let Value::Angle(angle) = answer.worked.results[name] else { panic!("{name}") };
            let (sine, cosine) = angle.to_degrees().to_radians().sin_cos();
            prop_assert!((walls * long * sine / cosine - taper).abs() <= 2.0);
        }
    }

    // The end of the ramp lies on the blade's rim.
    #[test]
    fn a_ramp_ends_on_the_rim(diameter in 60_000_000..400_000_000_i64, depth in 1_000_000..60_000_000_i64) {
        let answer = worked("saw-ramp", &[("diameter", diameter), ("depth", depth)], &[]);
        prop_assert_eq!(answer.is_some(), 2 * depth < diameter);
        let Some(answer) = answer else { return Ok(()) };
        let (radius, ramp) = (diameter as f64 / 2.0, nm(&answer, "ramp") as f64);
        let arbor_below = radius - depth as f64;
        let rim = (arbor_below * arbor_below + ramp * ramp).sqrt();
        prop_assert!((rim - radius).abs() <= 2.0);
    }

    // Two circles along one line: the passage is where they overlap, and the tenon's hole stays
    // inside the tenon.
    #[test]
    fn a_peg_passes_where_the_holes_overlap(
        peg in 4_000_000..16_000_000_i64, offset in 100_000..10_000_000_i64,
        distance in 5_000_000..40_000_000_i64,
    ) {
        let answer = worked("drawbore", &[("peg", peg), ("offset", offset), ("distance", distance)], &[]);
        let odd = peg % 2;
        prop_assert_eq!(answer.is_some(), offset < peg && 2 * (distance - offset) > peg + odd);
        let Some(answer) = answer else { return Ok(()) };
        let hole = nm(&answer, "hole_from_shoulder");
        let (cheek_near, tenon_far) = (2 * distance - peg, 2 * hole + peg);
        prop_assert_eq!(tenon_far - cheek_near, 2 * nm(&answer, "passage"));
        prop_assert!(2 * hole > peg);
    }

    // What lies in the rebate is covered by its width; trimming takes off the rest.
    #[test]
    fn a_rebate_holds_its_mate(
        stock in 6_000_000..60_000_000_i64, mate in 3_000_000..60_000_000_i64, trim in 0..3_000_000_i64,
    ) {
        let answer = worked("rebate", &[("stock", stock), ("mate", mate), ("trim", trim)], &[]).unwrap();
        prop_assert_eq!(nm(&answer, "width") - trim, mate);
        prop_assert_eq!(nm(&answer, "depth") + nm(&answer, "lip"), stock);
        prop_assert!(is_near(2 * nm(&answer, "depth"), stock));
    }

    #[test]
    fn a_looser_clearance_never_gives_a_thicker_tongue(
        tight in -300_000..500_000_i64, looser in 0..500_000_i64,
        stock in 12_000_000..40_000_000_i64,
    ) {
        let others: [(&str, &str, Sizes); 4] = [
            ("tongue-and-groove", "tongue", &[("depth", 6_000_000)]),
            ("tongue-in-housing", "tongue", &[("side", 18_000_000)]),
            ("bridle", "thickness", &[("width", 40_000_000), ("cross", 40_000_000)]),
            ("tenon", "thickness", &[("width", 80_000_000), ("length", 30_000_000)]),
        ];
        for (name, result, more) in others {
            let thickness = |clearance| {
                let sizes = [more, &[("stock", stock), ("clearance", clearance)]].concat();
                nm(&worked(name, &sizes, &[]).expect("within its limits"), result)
            };
            prop_assert_eq!(thickness(tight) - thickness(tight + looser), looser);
        }
    }
}
