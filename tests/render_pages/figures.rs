//! Room in the figures: whatever the lengths and however long their labels, no two labels meet, no
//! line runs through one and nothing leaves the frame; and a sheet that can be filled can be drawn.

use std::collections::BTreeMap;

use faceside::procedure::{Drawing, Given, Measure, Procedure, Want, example, fill};
use faceside::render::figure::{View, figure};
use faceside::store::Workshop;
use faceside::units::Value;
use proptest::prelude::*;
use proptest::strategy::ValueTree;

use super::fixture;

/// Width and height of a picture.
fn frame(svg: &str) -> (f64, f64) {
    let view_box = svg.split("viewBox=\"").nth(1).unwrap();
    let mut numbers = view_box.split(['"', ' ']).skip(2);
    let mut next = || numbers.next().unwrap().parse().unwrap();
    (next(), next())
}

/// Corners of every label's ground in a picture: left, top, right, bottom.
fn labels(svg: &str) -> Vec<[f64; 4]> {
    let rects = svg.split("<rect ").skip(1);
    rects
        .map(|rect| {
            let read = |name: &str| -> f64 {
                let value = rect.split(&format!("{name}=\"")).nth(1).unwrap();
                value.split('"').next().unwrap().parse().unwrap()
            };
            let (x, y) = (read("x"), read("y"));
            [x, y, x + read(" width"), y + read(" height")]
        })
        .collect()
}

/// Middle and radius of every circle of a picture.
fn rounds(svg: &str) -> Vec<(f64, f64, f64)> {
    let circles = svg.split("<circle ").skip(1);
    let read = |circle: &str, name: &str| -> f64 {
        let value = circle.split(&format!("{name}=\"")).nth(1).unwrap();
        value.split('"').next().unwrap().parse().unwrap()
    };
    circles
        .map(|circle| (read(circle, "cx"), read(circle, "cy"), read(circle, " r")))
        .collect()
}

/// The outermost places of every circle of a picture.
fn circles(svg: &str) -> Vec<(f64, f64)> {
    let ends = rounds(svg).into_iter();
    let ends = ends.map(|(x, y, radius)| [(x - radius, y - radius), (x + radius, y + radius)]);
    ends.flatten().collect()
}

/// The texts that stand in a picture; one in several lines is one text.
pub(super) fn texts(svg: &str) -> Vec<String> {
    let texts = svg.split("<text ").skip(1).map(|rest| {
        let inner = rest.split("</text>").next().unwrap();
        let (_, inner) = inner.split_once('>').unwrap();
        let parts = inner
            .split('<')
            .map(|part| part.rsplit('>').next().unwrap());
        parts.collect::<String>()
    });
    texts.filter(|text| !text.is_empty()).collect()
}

/// Every place that a line of a picture runs to.
fn corners(svg: &str) -> Vec<(f64, f64)> {
    let paths = svg.split(" d=\"").skip(1);
    let paths = paths.map(|path| path.split('"').next().unwrap());
    paths.flat_map(corners_of).collect()
}

fn corners_of(path: &str) -> Vec<(f64, f64)> {
    let places = path.split(['M', 'L', 'Z']);
    let places = places.filter(|place| !place.is_empty());
    places
        .map(|place| {
            let (x, y) = place.split_once(' ').unwrap();
            (x.parse().unwrap(), y.parse().unwrap())
        })
        .collect()
}

/// Every line of a picture, from corner to corner; what only wipes a line out again is none.
fn lines(svg: &str) -> Vec<[(f64, f64); 2]> {
    let mut all = Vec::new();
    for path in svg.split("<path ").skip(1) {
        let (attributes, rest) = path.split_once("d=\"").unwrap();
        if attributes.contains("stroke=\"#fff\"") {
            continue;
        }
        for part in rest.split('"').next().unwrap().split('M').skip(1) {
            let open = part.trim_end_matches('Z');
            let mut points: Vec<(f64, f64)> = corners_of(open);
            if open.len() < part.len() {
                points.push(points[0]);
            }
            all.extend(points.windows(2).map(|pair| [pair[0], pair[1]]));
        }
    }
    all
}

/// Whether a line has a part inside a box: walked in steps of a quarter of a dot.
fn crosses(of: &[f64; 4], [from, to]: [(f64, f64); 2]) -> bool {
    let aside = from.0.max(to.0) <= of[0] || from.0.min(to.0) >= of[2];
    if aside || from.1.max(to.1) <= of[1] || from.1.min(to.1) >= of[3] {
        return false;
    }
    let long = libm::hypot(to.0 - from.0, to.1 - from.1);
    let steps = (long * 4.0).ceil().max(1.0) as u32;
    (0..=steps).any(|step| {
        let part = f64::from(step) / f64::from(steps);
        let (x, y) = (
            from.0 + (to.0 - from.0) * part,
            from.1 + (to.1 - from.1) * part,
        );
        // Numbers are written to a hundredth.
        let edge = 0.02;
        x > of[0] + edge && x < of[2] - edge && y > of[1] + edge && y < of[3] - edge
    })
}

/// Whether a circle's line has a part inside a box: some of the box is nearer to its middle than the
/// line, and some is farther.
fn circle_crosses(of: &[f64; 4], (x, y, radius): (f64, f64, f64)) -> bool {
    let nearest = libm::hypot(x.clamp(of[0], of[2]) - x, y.clamp(of[1], of[3]) - y);
    let across = (x - of[0]).abs().max((of[2] - x).abs());
    let farthest = libm::hypot(across, (y - of[1]).abs().max((of[3] - y).abs()));
    nearest < radius && radius < farthest
}

/// The lines of a picture that run through its words.
fn through_words(svg: &str) -> Vec<String> {
    let (lines, rounds) = (lines(svg), rounds(svg));
    let labels = labels(svg);
    let crossed = labels.iter().flat_map(|label| {
        let lines = lines.iter().filter(|line| crosses(label, **line));
        let rounds = rounds.iter().filter(|round| circle_crosses(label, **round));
        let lines = lines.map(move |line| format!("{line:?} through {label:?}"));
        lines.chain(rounds.map(move |round| format!("{round:?} through {label:?}")))
    });
    crossed.collect()
}

pub(crate) fn has_room(shape: &str, view: &View) -> Result<(), TestCaseError> {
    let (width, height) = frame(&view.svg);
    let labels = labels(&view.svg);
    for (at, one) in labels.iter().enumerate() {
        let inside = one[0] >= 0.0 && one[1] >= 0.0 && one[2] <= width && one[3] <= height;
        prop_assert!(
            inside,
            "{shape}, {}: {one:?} of {width} {height}",
            view.title
        );
        for other in &labels[at + 1..] {
            let beside = one[2] <= other[0] || other[2] <= one[0];
            let apart = beside || one[3] <= other[1] || other[3] <= one[1];
            prop_assert!(apart, "{shape}, {}: {one:?} {other:?}", view.title);
        }
    }
    let crossed = through_words(&view.svg);
    prop_assert!(crossed.is_empty(), "{shape}, {}: {crossed:?}", view.title);
    for (x, y) in corners(&view.svg).into_iter().chain(circles(&view.svg)) {
        let inside = (0.0..=width).contains(&x) && (0.0..=height).contains(&y);
        prop_assert!(
            inside,
            "{shape}, {}: {x} {y} of {width} {height}",
            view.title
        );
    }
    Ok(())
}

#[test]
fn figures_of_the_examples_have_room() {
    for drawing in fixture::every_drawing() {
        for view in figure(&drawing).unwrap().views {
            has_room(&drawing.shape, &view).unwrap();
        }
    }
}

/// Lengths that follow from others, which are drawn: a tenon or tongue is what the shoulders leave of
/// the stock, the stop what the housing leaves of the panel, the inside of a drawer what its sides leave of
/// the front.
const FOLLOW: [(&str, &str); 7] = [
    ("breadboard", "tongue"),
    ("drawer", "inside_width"),
    ("haunched-tenon", "tenon"),
    ("stopped-housing", "stop"),
    ("tenon", "tenon"),
    ("through-tenon", "tenon"),
    ("tongue-and-groove", "tongue"),
];

/// A length with a letter is drawn from its value: another value, another picture.
#[test]
fn another_number_makes_another_picture() {
    let mut same = Vec::new();
    for drawing in fixture::every_drawing() {
        let before = figure(&drawing).unwrap();
        let pictures =
            |views: &[View]| -> Vec<String> { views.iter().map(|view| view.svg.clone()).collect() };
        let shown = pictures(&before.views);
        let lettered = |shown: &str| {
            let all = before.views.iter().flat_map(|view| texts(&view.svg));
            all.into_iter()
                .any(|text| text.ends_with(&format!(" {shown}")))
        };
        for (name, (length, text)) in &drawing.lengths {
            let follows = FOLLOW.contains(&(drawing.shape.as_str(), name.as_str()));
            if follows || !lettered(text) {
                continue;
            }
            let mut other = drawing.clone();
            // The text stays, so that only the lines can differ.
            let changed = (length.times(1.02), text.clone());
            other.lengths.insert(name.clone(), changed);
            let Ok(after) = figure(&other) else { continue };
            if shown == pictures(&after.views) {
                same.push(format!("{}: {name}", drawing.shape));
            }
        }
    }
    assert!(same.is_empty(), "{same:#?}");
}

/// Who cannot see a picture is told every letter and every value that stands in it.
#[test]
fn the_words_name_every_letter_and_value() {
    for drawing in fixture::every_drawing() {
        let drawn = figure(&drawing).unwrap();
        let letters: Vec<&str> = drawn
            .key
            .iter()
            .map(|(letter, _, _)| letter.as_str())
            .collect();
        for view in &drawn.views {
            assert!(view.svg.contains(&format!("<title>{}</title>", view.title)));
            for text in texts(&view.svg) {
                let Some((letter, value)) = text.split_once(' ') else {
                    continue;
                };
                if !letters.contains(&letter) {
                    continue;
                }
                let named = drawn
                    .key
                    .iter()
                    .find(|(one, _, shown)| one == letter && shown == value);
                let (_, words, _) = named.unwrap_or_else(|| panic!("{}: {text}", drawing.shape));
                let said = format!("{letter} {words}, {value}");
                assert!(
                    view.says.contains(&said),
                    "{}: {said}: {}",
                    view.title,
                    view.says
                );
            }
        }
    }
}

/// A drawing of the fixture, each length by a factor of its own and with a label of any length.
fn stretched() -> impl Strategy<Value = Drawing> {
    let drawing = prop::sample::select(fixture::every_drawing());
    let factors = prop::collection::vec((0.7..1.4_f64, "[0-9 /m.]{1,22}"), 20);
    // The lengths fit each other closely, so most keep their proportion.
    let close = prop::collection::vec(any::<bool>(), 20);
    (drawing, 0.2..8.0_f64, factors, close).prop_map(|(mut drawing, all, factors, close)| {
        let each = drawing.lengths.values_mut().zip(factors).zip(close);
        for (((length, shown), (factor, label)), close) in each {
            *length = length.times(if close { all } else { all * factor });
            *shown = label;
        }
        drawing
    })
}

/// A machine from above, tool, fence, stops and work of any size, the labels of any length.
fn plans() -> impl Strategy<Value = Drawing> {
    let all = fixture::every_drawing();
    let plans: Vec<Drawing> = all.into_iter().filter(|one| one.plan.is_some()).collect();
    let sizes = prop::collection::vec((0.02..6.0_f64, "[0-9 /m.]{1,22}"), 12);
    let faces = prop::option::of("[a-z ]{1,24}");
    (prop::sample::select(plans), sizes, faces).prop_map(|(mut plan, sizes, down)| {
        for ((length, shown), (factor, label)) in plan.lengths.values_mut().zip(sizes) {
            *length = length.times(factor);
            *shown = label;
        }
        if let Some(of) = &mut plan.plan {
            of.down = down;
        }
        plan
    })
}

/// Dovetails of any division: sockets of one width at the base line, half as much at the edges, all
/// narrowed toward the end by the slope (`joinery.md` 3.9).
fn divisions() -> impl Strategy<Value = Drawing> {
    let sizes = (40.0..600.0_f64, 1..12_u32, 1.0..6.0_f64);
    let boards = (6.0..40.0_f64, 6.0..40.0_f64, 0.05..0.25_f64);
    let lap = prop::option::of(0.1..0.6_f64);
    (sizes, boards, lap).prop_map(|((width, tails, ratio), (pin, tail, slope), lap)| {
        let socket = width / (f64::from(tails) * (ratio + 1.0));
        let long = pin - pin * lap.unwrap_or(0.0);
        let narrowed = (long * slope).min(socket * 0.4);
        let lengths = [
            ("board_width", width),
            ("pin_board", pin),
            ("tail_board", tail),
            ("tail_length", long),
            ("pin_line", tail),
            ("tail_narrow", ratio * socket),
            ("tail_wide", ratio * socket + 2.0 * narrowed),
            ("socket_wide", socket),
            ("socket_narrow", socket - 2.0 * narrowed),
            ("half_socket_wide", socket / 2.0),
            ("half_socket_narrow", socket / 2.0 - narrowed),
        ];
        let shape = if lap.is_some() {
            "lapped-dovetail"
        } else {
            "through-dovetail"
        };
        let lap = lap.map(|lap| ("lap", pin * lap));
        let lengths: Vec<_> = lengths.into_iter().chain(lap).collect();
        fixture::drawing(shape, &lengths)
    })
}

/// A plan view with values as a shop shows them: in mm or in decimal inches, from a tenth of a
/// millimetre to five metres, or as a fraction with its remainder.
fn plans_as_shown() -> impl Strategy<Value = Drawing> {
    let all = fixture::every_drawing();
    let plans: Vec<Drawing> = all.into_iter().filter(|one| one.plan.is_some()).collect();
    let shown = prop_oneof![
        (0.1..5000.0_f64).prop_map(|mm| format!("{mm:.2} mm")),
        (0.004..196.0_f64).prop_map(|inch| format!("{inch:.3} in")),
        (0..196_u32, 1..64_u32, 1..15_u32)
            .prop_map(|(whole, parts, rest)| format!("{whole} {parts}/64 + 0.{rest:03} in")),
    ];
    let values = prop::collection::vec(shown, 12);
    (prop::sample::select(plans), values).prop_map(|(mut plan, values)| {
        for ((_, shown), value) in plan.lengths.values_mut().zip(values) {
            *shown = value;
        }
        plan
    })
}

/// Which of the words of a plan view stand in it: all that its examples show have found a place.
#[test]
fn no_word_of_the_examples_is_left_out() {
    for plan in fixture::every_drawing()
        .into_iter()
        .filter(|one| one.plan.is_some())
    {
        let of = plan.plan.as_ref().unwrap();
        let whole = &figure(&plan).unwrap().views[0];
        let texts = texts(&whole.svg);
        let mut wanted = vec!["person".to_owned()];
        wanted.extend(of.down.iter().map(|face| format!("{face} down")));
        let hands = plan.lengths.contains_key("hands");
        wanted.extend(hands.then(|| "no hands".to_owned()));
        let feed = !matches!(of.guide, faceside::procedure::Guide::Cramped);
        wanted.extend(feed.then(|| "feed".to_owned()));
        for word in wanted {
            assert!(
                texts.contains(&word),
                "{}, {:?}: {word}: {texts:?}",
                of.machine,
                of.guide
            );
        }
    }
}

/// A line drawn through a label, and one beside it.
#[test]
fn a_line_through_a_word_is_noticed() {
    let plan = fixture::every_drawing()
        .into_iter()
        .find(|one| one.plan.is_some());
    let svg = figure(&plan.unwrap()).unwrap().views[0].svg.clone();
    assert_eq!(through_words(&svg), Vec::<String>::new());
    let [left, top, right, _] = labels(&svg)[0];
    let with = |x: f64| {
        let line = format!("<path d=\"M{x} {}L{x} {}\"/></svg>", top - 2.0, top + 17.0);
        through_words(&svg.replace("</svg>", &line)).len()
    };
    assert_eq!(with(f64::midpoint(left, right)), 1);
    assert_eq!(with(left), 0);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_machine_from_above_has_room(plan in plans()) {
        // Only a blade that would stand higher than it is wide is refused.
        match figure(&plan) {
            Ok(figure) => {
                for view in figure.views {
                    has_room(&plan.plan.as_ref().unwrap().machine, &view)?;
                }
            }
            Err(fault) => prop_assert_eq!(fault.code, faceside::diag::Code::OUT_OF_RANGE),
        }
    }

    /// On paper a plan view has no values beside it: each dimension says its own.
    #[test]
    fn every_dimension_of_a_plan_view_says_its_value(plan in plans_as_shown()) {
        let drawn = figure(&plan).unwrap();
        for view in &drawn.views {
            let texts = texts(&view.svg);
            prop_assert!(!view.letters.is_empty() || view.title.starts_with("Thicknesser"));
            for letter in &view.letters {
                let of_it = drawn.key.iter().filter(|(one, _, _)| one == letter);
                let said = of_it.clone().any(|(_, _, shown)| texts.contains(&format!("{letter} {shown}")));
                prop_assert!(said, "{}: {letter}: {texts:?}", view.title);
            }
            has_room("plan", view)?;
        }
    }

    #[test]
    fn dovetails_of_any_division_have_room(drawing in divisions()) {
        for view in figure(&drawing).unwrap().views {
            has_room(&drawing.shape, &view)?;
        }
    }

    #[test]
    fn no_two_labels_meet_and_nothing_leaves_the_frame(drawing in stretched()) {
        if let Ok(figure) = figure(&drawing) {
            for view in figure.views {
                has_room(&drawing.shape, &view)?;
            }
        }
    }
}

/// The example by a factor, inside the range; nothing for other kinds than lengths.
fn drawn(measure: &Measure, factor: f64) -> Option<String> {
    let (Some(Value::Length(low)), Some(Value::Length(high))) = &measure.range else {
        return None;
    };
    let example = measure.example.as_ref()?.strip_suffix(" mm")?;
    let wanted = example.parse::<f64>().ok()? * factor;
    let tenths = (wanted.clamp(low.to_mm(), high.to_mm()) * 10.0).round();
    Some(format!("{} mm", tenths / 10.0))
}

fn part(procedure: &Procedure, shop: &Workshop, draws: &[Option<f64>]) -> Given {
    let mut given = example(procedure, shop.place());
    let asked = |measure: &&Measure| measure.later.is_none();
    let measures = procedure.measures.iter().filter(asked);
    for (measure, draw) in measures.zip(draws) {
        if let Some(text) = draw.and_then(|factor| drawn(measure, factor)) {
            let value = (text, measure.place.clone());
            given.measured.insert(measure.name.clone(), value);
        }
    }
    // Any cutter of the drawer that fits.
    for choice in &procedure.choices {
        if matches!(choice.want, Want::Cutter { .. }) {
            given.chosen.remove(&choice.name);
        }
    }
    given
}

/// What the rules let be cut, the figure can draw: a sheet never fails for its drawing.
#[test]
fn whatever_is_filled_can_be_drawn() {
    let shop = Workshop::open(None, None).unwrap().0;
    let draw = prop_oneof![2 => Just(None), 1 => (0.6..1.5_f64).prop_map(Some)];
    let parts = prop::collection::vec(draw, 16);
    let mut filled: BTreeMap<&str, usize> = BTreeMap::new();
    let mut faults = Vec::new();
    let mut runner = proptest::test_runner::TestRunner::deterministic();
    for procedure in shop.procedures.values() {
        for _ in 0..24 {
            let draws = parts.new_tree(&mut runner).unwrap().current();
            let given = part(procedure, &shop, &draws);
            let Ok(made) = fill(procedure, shop.place(), &given) else {
                continue;
            };
            for plan in made.set_ups.iter().filter_map(|one| one.plan.as_ref()) {
                for view in figure(plan).unwrap().views {
                    has_room(&procedure.id, &view).unwrap();
                }
            }
            let Some(drawing) = made.drawing else {
                continue;
            };
            match figure(&drawing) {
                Ok(figure) => {
                    for view in figure.views {
                        has_room(&drawing.shape, &view).unwrap();
                    }
                }
                Err(fault) => {
                    let lengths: Vec<_> = drawing.lengths.iter().collect();
                    faults.push(format!("{}: {} {lengths:?}", procedure.id, fault.message));
                }
            }
            *filled.entry(&procedure.id).or_default() += 1;
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
    let least = filled.values().min().copied().unwrap_or_default();
    assert!(least >= 3, "{filled:?}");
}
