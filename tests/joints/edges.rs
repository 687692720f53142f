//! Every limit at its edge: the last value that is allowed, and the first that is refused or warned
//! of, a nanometre or two beyond; and the figures that a refusal gives, in both units. The cases
//! stand in `edges/*.txt`, one a line; what is said of several stands above the first.
//!
//! Expected figures: the formula of the limit (joinery 3, by its number), worked by hand from the
//! values beside it; inches are those by 25.4. Bounds are rounded to their safe side: `at most`
//! down, `at least` up, but within 10 nm of a step to that step; what is, to nearest. tan 14 =
//! 0.2493280, so that a wall leans 2.368616 mm at a depth of 9.5 mm (mouth 7.962768) and 5.983872
//! at 24 (mouth 0.732256).

use std::collections::BTreeMap;

use faceside::joints::{self, DepthPasses, Origin, Rim, SpindleChoice, Wood};
use faceside::shop::Speeds;
use faceside::units::{Length, RimSpeed, Spindle, Unit, Value, parse};

use crate::{Texts, answer, calculator, count, length, near, refusal, values, with};

/// Setup, calculator, values.
const SETUPS: &[(&str, &str, &str)] = &[
    (
        "dovetail",
        "sliding-dovetail",
        "stock 19 mm; cutter 12.7 mm; angle 14 deg; depth 9.5 mm; clearance 0.1 mm",
    ),
    (
        "deep dovetail",
        "sliding-dovetail",
        "stock 12 mm; cutter 12.7 mm; angle 14 deg; depth 24 mm",
    ),
    (
        "one-sided dovetail",
        "one-sided-dovetail",
        "stock 19 mm; cutter 12.7 mm; angle 14 deg; depth 9.5 mm",
    ),
    ("housing", "housing", "width 17 mm; cutter 12 mm"),
    (
        "comb",
        "comb-joint",
        "width 104 mm; pin 8 mm; stock 12 mm; clearance 0.12 mm",
    ),
    (
        "dovetails",
        "dovetails",
        "width 150 mm; thickness 19 mm; tails 4; ratio 3; slope 1 in 6; base_line even",
    ),
    (
        "drawer",
        "drawer",
        "width 400 mm; height 120 mm; depth 450 mm; front 19 mm; side 12 mm; bottom 6 mm; \
         play fitted; joint lapped-dovetail; groove 5 mm; groove_up 10 mm; back_let 6 mm",
    ),
    (
        "dowels",
        "dowels",
        "length 1200 mm; first 50 mm; pitch 400 mm; dowel 40 mm",
    ),
    (
        "stopped housing",
        "stopped-housing",
        "panel 285 mm; stop 12 mm; cutter 18 mm",
    ),
    (
        "tapered housing",
        "tapered-housing",
        "length 300 mm; taper 1.5 mm; clearance 0.1 mm",
    ),
    (
        "tongue and groove",
        "tongue-and-groove",
        "stock 18 mm; depth 6 mm",
    ),
    (
        "tongue in housing",
        "tongue-in-housing",
        "stock 18 mm; side 18 mm",
    ),
    (
        "halving",
        "halving",
        "stock_a 19 mm; stock_b 19 mm; width 50 mm",
    ),
    ("bridle", "bridle", "stock 18 mm; width 45 mm; cross 50 mm"),
    (
        "tenon",
        "tenon",
        "stock 22 mm; width 50 mm; cutter 8 mm; length 32 mm",
    ),
    (
        "drawbore",
        "drawbore",
        "peg 6 mm; offset 0.8 mm; distance 10 mm",
    ),
    (
        "panel",
        "frame-panel",
        "opening 300 mm; groove 9.5 mm; clearance 0.8 mm; coefficient 0.0025; rise 0 %; fall 0 %",
    ),
    // W L^3 / (E I) = 3840 mm, by 5/384: 50 mm at once, 100 in years.
    (
        "shelf",
        "shelf",
        "span 1000 mm; load 384 N; width 120 mm; thickness 10 mm; modulus 10 GPa",
    ),
    (
        "feed",
        "feed-per-tooth",
        "feed 3 m/min; speed 15000 rpm; teeth 2",
    ),
    (
        "movement",
        "movement",
        "width 232 mm; from 8 %; to 11 %; coefficient 0.00245",
    ),
    ("spindle", "spindle", "diameter 76 mm; limit 50 m/s"),
];

const HOUSING: Texts = &[("width", "17 mm"), ("cutter", "12 mm")];
const TAPERED: Texts = &[
    ("length", "300 mm"),
    ("taper", "1.5 mm"),
    ("clearance", "0.1 mm"),
];
const BRIDLE: Texts = &[("stock", "18 mm"), ("width", "45 mm"), ("cross", "50 mm")];

/// The lines of a table without its comments, each in its fields.
fn cases<const N: usize>(table: &'static str) -> impl Iterator<Item = [&'static str; N]> {
    let lines = table.lines().filter(|line| !line.starts_with('#'));
    lines.map(|line| {
        let fields: Vec<_> = line.split('|').map(str::trim).collect();
        fields.try_into().unwrap_or_else(|_| panic!("{line}"))
    })
}

/// `stock 19 mm; depth 6 mm`, by name.
fn texts(text: &'static str) -> Vec<(&'static str, &'static str)> {
    let pairs = text.split("; ").filter(|pair| !pair.is_empty());
    pairs.map(|pair| pair.split_once(' ').unwrap()).collect()
}

/// The calculator of a setup and its values, with `more` in their place; a calculator by its own
/// name has none.
fn set_up(
    setup: &'static str,
    more: &'static str,
) -> (&'static str, Vec<(&'static str, &'static str)>) {
    let found = SETUPS.iter().find(|(name, ..)| *name == setup);
    let (_, calculator, values) = found.copied().unwrap_or(("", setup, ""));
    let by_name: BTreeMap<_, _> = texts(values).into_iter().chain(texts(more)).collect();
    (calculator, by_name.into_iter().collect())
}

#[test]
fn what_is_just_allowed_is_allowed() {
    for [setup, more] in cases(include_str!("edges/allowed.txt")) {
        let (name, texts) = set_up(setup, more);
        answer(name, &texts);
    }
}

#[test]
fn what_is_just_too_much_is_refused_with_its_figures() {
    for [setup, more, what, is, may_be] in cases(include_str!("edges/refused.txt")) {
        let (name, texts) = set_up(setup, more);
        let refusal = refusal(name, &texts);
        assert!(refusal.what.contains(what), "{name} {more}: {refusal:?}");
        assert_eq!(refusal.is, is, "{name} {more}");
        assert_eq!(refusal.may_be, may_be, "{name} {more}");
    }
}

#[test]
fn warnings_speak_from_their_limit_on() {
    for [setup, words, silent, speaks] in cases(include_str!("edges/warned.txt")) {
        let warned = |more| {
            let (name, texts) = set_up(setup, more);
            let warnings = answer(name, &texts).worked.warnings;
            warnings.iter().any(|warning| warning.starts_with(words))
        };
        assert!(!warned(silent), "{setup} {words} {silent}");
        assert!(warned(speaks), "{setup} {words} {speaks}");
    }
}

// Half of 12 mm in soft wood, a third in hard wood; the next nanometre takes one step more.
#[test]
fn steps_at_their_edges() {
    let steps = |wood, depth| {
        let given = DepthPasses {
            depth: Length::nm(depth),
            cutter: Length::mm(12.0),
            wood,
            most: None,
        };
        given.work_out().unwrap().len()
    };
    assert_eq!(
        [6_000_000, 6_000_001, 12_000_000, 12_000_001].map(|nm| steps(Wood::Soft, nm)),
        [1, 2, 2, 3]
    );
    assert_eq!(
        [4_000_000, 4_000_001, 12_000_000, 12_000_001].map(|nm| steps(Wood::Hard, nm)),
        [1, 2, 3, 4]
    );
    let housing = |depth| count(&answer("housing", &with(HOUSING, depth)), "depth_passes");
    assert_eq!(
        (
            housing(&[("depth", "6 mm")]),
            housing(&[("depth", "6.000001 mm")])
        ),
        (1, 2)
    );
}

// A pass more from the next nanometre on: 12 + 10.5 = 22.5 mm with an overlap of 1.5.
#[test]
fn passes_at_their_edges() {
    let passes = |width| count(&answer("housing", &with(HOUSING, width)), "passes");
    assert_eq!(passes(&[("width", "12 mm")]), 1);
    assert_eq!(passes(&[("width", "12.000001 mm")]), 2);
    assert_eq!(passes(&[("width", "22.5 mm")]), 2);
    assert_eq!(passes(&[("width", "22.500001 mm")]), 3);
}

// Joinery 3.4: c L / tau: 0.1 * 300 / 1.5 = 20 mm, 0.7874 in; 300 / 192 = 1.5625 mm, 0.0615 in.
#[test]
fn a_taper_tells_travel_and_usual_taper() {
    let notes = answer("tapered-housing", TAPERED).worked.notes;
    assert!(
        notes[0].contains("thicker by 0.10 mm (0.004 in) stops 20.00 mm (0.787 in) sooner"),
        "{notes:?}"
    );
    assert!(
        notes[1].starts_with("About 1.56 mm (0.062 in) of taper"),
        "{notes:?}"
    );
}

// The limit is allowed itself: a rim at the speed that its limit gives.
#[test]
fn a_rim_at_its_limit_is_allowed() {
    let limit = RimSpeed::metres_per_second(50.0);
    let diameter = Length::mm(76.0);
    let rim = Rim {
        diameter,
        speed: limit.spindle_at(diameter),
        limit: Some(limit),
    };
    near(
        rim.work_out().unwrap().rim_speed.to_metres_per_second(),
        50.0,
    );
}

// 76 mm at 50 m/s: 12564.9 rpm at most (joinery 3.15).
#[test]
fn a_machine_of_steps_names_its_slowest() {
    let refused = |steps: &[f64]| {
        let choice = SpindleChoice {
            diameter: Length::mm(76.0),
            marked: None,
            limit: RimSpeed::metres_per_second(50.0),
            machine: Speeds::Steps(steps.iter().map(|rpm| Spindle::rpm(*rpm)).collect()),
        };
        choice.work_out().unwrap_err().is
    };
    assert_eq!(refused(&[13_000.0, 18_000.0]), "machine_least 13000 rpm");
    assert!(refused(&[]).contains("lists no speeds"));
}

// Notes of a pass plan: the sketch of joinery 3.5, three passes 5.25 mm apart for 12 + 10.5 mm.
#[test]
fn each_pass_between_first_and_last_has_its_note() {
    let texts = [("width", "22.500001 mm"), ("cutter", "12 mm")];
    let notes = answer("housing", &texts).worked.notes;
    let passes: Vec<_> = notes
        .iter()
        .filter(|note| note.starts_with("Pass"))
        .collect();
    assert_eq!(passes.len(), 3, "{notes:?}");
    assert!(passes[0].starts_with("Pass 1 of 3, at the smallest"));
    assert!(
        passes[1].starts_with("Pass 2 of 3, the fence 5.25 mm (0.207 in) farther"),
        "{notes:?}"
    );
    assert!(passes[2].starts_with("Pass 3 of 3, at the largest"));
    let one = answer("housing", &[("width", "12 mm"), ("cutter", "12 mm")]);
    assert_eq!(one.worked.notes.len(), 2);
}

// Joinery 3.0 and 3.1: each later pass farther from the fence; tail no higher than the socket; the
// exposure from the mouth that was cut. Joinery 3.7: one face counts an error once, both faces
// twice; the near cheek's waste can be trapped.
#[test]
fn notes_of_dovetail_and_tenon() {
    let said = |setup, more, words: &[&str]| {
        let (name, texts) = set_up(setup, more);
        let notes = answer(name, &texts).worked.notes;
        let holds = |note: &String| words.iter().all(|part| note.contains(part));
        notes.iter().filter(|note| holds(note)).count()
    };
    let dovetail = "stock 22 mm; base 16 mm";
    for words in [
        &["right to left", "anticlockwise"][..],
        &["Pass 1 of 2", "nearer the fence"],
        &["Pass 2 of 2", "farther from the fence"],
        &["Clear the socket first", "straight cutter"],
        &["0.1 to 0.25 mm", "lower", "Never higher"],
        &["exposure = (stock - mouth + clearance) / 2"],
    ] {
        assert_eq!(said("dovetail", dovetail, words), 1, "{words:?}");
    }
    assert_eq!(said("tenon", "", &["Each cheek", "counts in both"]), 1);
    let one = "method one-face";
    assert_eq!(said("tenon", one, &["One face", "counts once"]), 1);
    let flipped = "method flipped";
    assert_eq!(said("tenon", flipped, &["Both faces", "counts twice"]), 1);
    assert_eq!(said("tenon", "kerf 3.2 mm", &["trapped", "carriage"]), 1);
    assert_eq!(said("tenon", "", &["trapped"]), 0);
}

// A slot of 3.5 mm leaves a bit of 0.5 (Fairham p. 41: 3 mm less).
#[test]
fn the_bit_is_three_millimetres_less() {
    let bridle = |slot| answer("bridle", &with(BRIDLE, slot));
    near(
        length(&bridle(&[("slot", "3.5 mm")]), "bit_most").to_mm(),
        0.5,
    );
    let none = bridle(&[("slot", "3 mm")]);
    assert!(!none.worked.results.contains_key("bit_most"));
}

#[test]
fn given_values_are_listed_and_origins_have_their_word() {
    let given = answer("housing", HOUSING).given;
    let names: Vec<_> = given.iter().map(|(name, _)| name).collect();
    assert_eq!(names, ["cutter", "overlap", "width"]);
    let usual = given.iter().find(|(name, _)| *name == "overlap");
    assert_eq!(
        usual.map(|(_, value)| value),
        Some(&Value::Length(Length::mm(1.5)))
    );
    let origins = [
        Origin::Measuring,
        Origin::Fence,
        Origin::Height,
        Origin::Diameter,
        Origin::CutterAngle,
    ];
    let words = ["measuring", "fence", "height", "diameter", "angle"];
    assert_eq!(origins.map(Origin::word), words);
}

// The ends of a range are in it.
#[test]
fn the_ends_of_a_range_are_allowed() {
    for name in ["saw-ramp", "stopped-housing", "feed-per-tooth", "moisture"] {
        let calculator = calculator(name);
        for input in calculator.inputs {
            if !input.options().is_empty() {
                continue;
            }
            for end in [input.range.0, input.range.1] {
                let texts = with(calculator.example, &[]);
                let mut given = values(calculator, &texts);
                let value = parse(end, input.kind, Unit::Mm);
                given.insert(input.name.to_owned(), value.unwrap());
                let is_fault = matches!(
                    joints::work_out(calculator, &given),
                    Err(joints::Stopped::Fault(_))
                );
                assert!(!is_fault, "{name} {} {end}", input.name);
            }
        }
    }
}

// Reference wood 4: 119 woods that move; a short choice is told by its words.
#[test]
fn a_long_choice_is_told_by_its_number() {
    let range = |name, input| {
        let input = calculator(name).input(input).unwrap();
        (input.has_many_options(), input.range_words())
    };
    let species = "one of 119 words, afrormosia to yellow-poplar".to_owned();
    assert_eq!(range("movement", "species"), (true, species));
    let ends = "round or square".to_owned();
    assert_eq!(range("stopped-housing", "ends"), (false, ends));
    let stop = "1 mm to 1000 mm".to_owned();
    assert_eq!(range("stopped-housing", "stop"), (false, stop));
}

// A note that bears on a lap stands where there is one; that the most of a range is reckoned with,
// where there is a range (joinery 2.12: 100 for low density, 100 to 150 for soft wood by a maker).
#[test]
fn notes_speak_where_they_bear() {
    let noted = |setup, more, words: &str| {
        let (name, texts) = set_up(setup, more);
        let notes = answer(name, &texts).worked.notes;
        notes.iter().any(|note| note.contains(words))
    };
    assert!(!noted("dovetails", "lap 0 mm", "Lapped"));
    assert!(noted("dovetails", "lap 6 mm; tails 2", "Lapped"));
    let ranged = |wood: &'static str| noted("edge-joint", wood, "the most is reckoned with");
    assert!(ranged(
        "length 900 mm; thickness 19 mm; clamp_force 3500 N; wood maker-softwood"
    ));
    assert!(!ranged(
        "length 900 mm; thickness 19 mm; clamp_force 3500 N; wood low-density"
    ));
}
