//! The figures of the calculators: over random values that a calculator accepts, what is drawn has
//! room, says what the tables say, and follows the values.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use faceside::joints::{self, Absent, Answer, Calculator};
use faceside::procedure::Drawing;
use faceside::render::figure::{Figure, figure};
use faceside::render::worked::{self, Told};
use faceside::store::Workshop;
use faceside::units::{Kind, Scale, Unit};

use super::figures::{has_room, texts};
use super::random::{Random, Row};
use super::scale::to_scale;

/// So many drawings of each calculator that has a figure, from so many random rows at most.
const DRAWN: usize = 40;
const ROWS: usize = 2000;

/// The built-in shop.
static SHOP: LazyLock<Workshop> = LazyLock::new(|| Workshop::open(None, None).unwrap().0);

/// What is drawn only when this input is given: a length that nothing else tells.
const ONLY_WITH: [(&str, &str); 2] = [("housing", "depth"), ("dowels", "diameter")];

/// Inputs of the examples that no line of the figure follows: settings of machines, least values, and
/// what is only a bound of what is drawn.
const NOT_DRAWN: [(&str, &str); 19] = [
    ("dovetails", "half_least"),
    ("dovetails", "kerf"),
    ("dowels", "pitch"),
    ("drawer", "bottom_play"),
    ("drawer", "groove"),
    ("frame-panel", "fall"),
    ("frame-panel", "overall"),
    ("frame-panel", "profile"),
    ("halving", "height"),
    ("housing", "cutter"),
    ("housing", "from"),
    ("housing", "overlap"),
    ("one-sided-dovetail", "cutter"),
    ("one-sided-dovetail", "from"),
    ("one-sided-dovetail", "margin"),
    ("one-sided-dovetail", "straight"),
    ("splined-mitre", "wall"),
    ("tenon", "edge"),
    ("tenon", "kerf"),
];

fn scale() -> Scale {
    Scale::caliper(Unit::Mm)
}

fn answer(of: &'static Calculator, row: &Row) -> Option<Answer> {
    let shop = &*SHOP;
    match Told::of(of, row, (&shop.shop, &shop.machines, &shop.cutters)) {
        Told::Worked(worked) => Some(worked.0),
        Told::Refused(_) | Told::Amiss(_) => None,
    }
}

/// The drawing of a calculator's example with some of its texts changed.
#[track_caller]
fn drawn(name: &str, changed: &[(&str, &str)]) -> (Drawing, Figure) {
    let calculator = joints::find(name).unwrap();
    let mut row = worked::example(calculator);
    let changed = changed
        .iter()
        .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()));
    row.extend(changed);
    let answer = answer(calculator, &row).expect("these values are accepted");
    let drawing = worked::drawing(calculator, &answer, scale()).expect("a drawing");
    let figure = figure(&drawing).unwrap();
    (drawing, figure)
}

/// Letter and value of all that stands in the tables of the page.
fn tabled(of: &Calculator, answer: &Answer) -> BTreeSet<(String, String, String)> {
    let json = worked::json(of, answer, None, scale());
    let shown = |part: &str, name: &str| json[part][name]["shown"].as_str().map(str::to_owned);
    let inputs = of.inputs.iter().filter_map(|input| {
        let shown = shown("given", input.name)?;
        Some((input.letter.to_owned(), input.name.to_owned(), shown))
    });
    let results = of.results.iter().filter_map(|output| {
        let shown = shown("results", output.name)?;
        Some((output.letter.to_owned(), output.name.to_owned(), shown))
    });
    inputs.chain(results).collect()
}

/// Every label and every line of the key is a letter, a name and a value of the tables.
fn agrees(of: &Calculator, answer: &Answer, figure: &Figure) {
    let tabled = tabled(of, answer);
    let mut keyed = BTreeSet::new();
    for (letter, words, value) in &figure.key {
        assert!(!letter.is_empty(), "{}: {words}", of.name);
        let name = words
            .trim_end_matches(", given")
            .trim_end_matches(", worked out");
        let entry = (letter.clone(), name.replace(' ', "_"), value.clone());
        assert!(
            tabled.contains(&entry),
            "{}: {entry:?}: {tabled:?}",
            of.name
        );
        keyed.insert(format!("{letter} {value}"));
        keyed.insert(letter.clone());
    }
    for view in &figure.views {
        for text in texts(&view.svg) {
            assert!(keyed.contains(&text), "{}: {text}: {keyed:?}", of.name);
            let (letter, value) = text.split_once(' ').unwrap_or((&text, ""));
            let said = view.says.contains(&format!("{letter} ")) && view.says.contains(value);
            assert!(said, "{}: {text}: {}", of.name, view.says);
        }
        assert!(!view.says.contains("  "), "{}: {}", of.name, view.says);
    }
}

#[test]
fn what_a_calculator_accepts_is_drawn_with_room_and_as_its_tables_say() {
    let mut random = Random::new(41_126);
    let mut count: BTreeMap<&str, usize> = BTreeMap::new();
    let mut undrawn = Vec::new();
    for calculator in joints::ALL.iter().filter(|one| has_figure(one)) {
        for at in 0..ROWS {
            let mut row = random.figure(calculator, &SHOP.cutters, (at, "mm"));
            row.remove("units");
            // Every other row keeps what is no length, of which most are refused.
            if at % 2 == 1 {
                let example = worked::example(calculator);
                let inputs = calculator.inputs.iter();
                for input in inputs.filter(|input| input.kind != Kind::Length) {
                    row.remove(input.name);
                    row.extend(
                        example
                            .get_key_value(input.name)
                            .map(|(name, text)| (name.clone(), text.clone())),
                    );
                }
            }
            let Some(answer) = answer(calculator, &row) else {
                continue;
            };
            if count.get(calculator.name) == Some(&DRAWN) {
                break;
            }
            let lacks = ONLY_WITH
                .iter()
                .any(|(name, input)| calculator.name == *name && answer.given.get(input).is_none());
            match worked::drawing(calculator, &answer, scale()) {
                Some(drawing) => {
                    assert!(!lacks, "{}: {row:?}", calculator.name);
                    let figure = figure(&drawing).unwrap();
                    for view in &figure.views {
                        has_room(calculator.name, view).unwrap();
                        to_scale(&view.svg).unwrap_or_else(|off| panic!("{}: {off}", view.title));
                    }
                    agrees(calculator, &answer, &figure);
                    *count.entry(calculator.name).or_default() += 1;
                }
                None if lacks => {}
                None => undrawn.push(format!("{}: {row:?}", calculator.name)),
            }
        }
    }
    println!("{count:?}");
    assert!(undrawn.is_empty(), "{undrawn:#?}");
    assert!(count.values().all(|count| *count >= 20), "{count:?}");
    assert!(count.len() >= 21, "{count:?}");
}

/// Whether the example of a calculator is drawn.
fn has_figure(of: &'static Calculator) -> bool {
    let answer = answer(of, &worked::example(of)).expect("an example");
    worked::drawing(of, &answer, scale()).is_some()
}

/// A number with its unit, a little larger and a little smaller; nothing for a word.
fn others(text: &str) -> Vec<String> {
    let (number, unit) = text.split_once(' ').unwrap_or((text, ""));
    let Ok(number) = number.parse::<f64>() else {
        return Vec::new();
    };
    let others = match (unit, number == 0.0) {
        ("", _) => [number + 1.0, number - 1.0],
        (_, true) => [0.2, 0.1],
        (_, false) => [1.03, 0.97].map(|factor| (number * factor * 1000.0).round() / 1000.0),
    };
    let written = |number: f64| format!("{number} {unit}").trim_end().to_owned();
    others.map(written).to_vec()
}

#[test]
fn another_value_makes_another_drawing() {
    let (mut same, mut compared) = (Vec::new(), Vec::new());
    for calculator in joints::ALL.iter().filter(|one| has_figure(one)) {
        let lines = |row: &Row| {
            let answer = answer(calculator, row)?;
            let drawing = worked::drawing(calculator, &answer, scale())?;
            let views = figure(&drawing).unwrap().views;
            Some(views.into_iter().map(|view| view.svg).collect::<Vec<_>>())
        };
        let row = worked::example(calculator);
        let before = lines(&row).unwrap();
        for input in calculator.inputs {
            let usual = match input.absent {
                Absent::Usual(text) => Some(text),
                _ => None,
            };
            let Some(text) = row.get(input.name).map(String::as_str).or(usual) else {
                continue;
            };
            let after = others(text).into_iter().find_map(|text| {
                let mut other = row.clone();
                other.insert(input.name.to_owned(), text);
                lines(&other)
            });
            let Some(after) = after else { continue };
            compared.push((calculator.name, input.name));
            let pair = (calculator.name, input.name);
            if (before == after) != NOT_DRAWN.contains(&pair) {
                same.push(format!("{pair:?}: same is {}", before == after));
            }
        }
    }
    assert!(NOT_DRAWN.iter().all(|pair| compared.contains(pair)));
    assert!(compared.len() >= 80, "{}", compared.len());
    assert!(same.is_empty(), "{same:#?}");
}

/// The thick outlines of a view, corner by corner.
fn outlines(svg: &str) -> Vec<Vec<(f64, f64)>> {
    let paths = svg.split("<path stroke-width=\"2.4\" d=\"M").skip(1);
    paths
        .map(|path| {
            let path = path.split('"').next().unwrap().trim_end_matches('Z');
            let corners = path.split('L').map(|place| {
                let (x, y) = place.split_once(' ').unwrap();
                (x.parse().unwrap(), y.parse().unwrap())
            });
            corners.collect()
        })
        .collect()
}

/// Lengths of the sides of the outline, the last back to the first corner.
fn sides(corners: &[(f64, f64)]) -> Vec<f64> {
    let next = corners.iter().cycle().skip(1);
    let sides = corners.iter().zip(next);
    sides
        .map(|(from, to)| libm::hypot(to.0 - from.0, to.1 - from.1))
        .collect()
}

#[track_caller]
fn near(is: f64, wanted: f64) {
    assert!((is / wanted - 1.0).abs() < 0.01, "{is} for {wanted}");
}

/// T 19, D 12.7, a 14 degrees, h 9.5, c 0.1: the mouth is 12.7 - 2 h tan 14 = 7.96277 wide, and the
/// tail is narrower than it by the clearance at the neck (`joinery.md` 3.1).
#[test]
fn the_socket_of_a_sliding_dovetail_is_to_scale() {
    let (_, figure) = drawn("sliding-dovetail", &[]);
    let socket = &outlines(&figure.views[0].svg)[0];
    let (mouth, base) = (socket[4].0 - socket[1].0, socket[3].0 - socket[2].0);
    near(mouth / base, 7.96277 / 12.7);
    near((socket[2].1 - socket[1].1) / base, 9.5 / 12.7);
    let tail = &outlines(&figure.views[1].svg)[0];
    let (stock, neck) = (tail[1].0 - tail[0].0, tail[3].0 - tail[6].0);
    near(neck / stock, (7.96277 - 0.1) / 19.0);
}

/// A ring of six has mitres of 30 degrees; 20 thick, its face is 20 / cos 30 = 23.094 long, and the
/// outside of a side runs off at 60 degrees from it.
#[test]
fn a_mitre_of_six_sides_is_to_scale() {
    let (_, figure) = drawn("mitre", &[("sides", "6"), ("stock", "20 mm")]);
    let side = &outlines(&figure.views[0].svg)[0];
    let [corner, inside, inner, outer] = side[..] else {
        panic!("{side:?}");
    };
    let face = inside.1 - corner.1;
    let thick = libm::hypot(inner.0 - outer.0, inner.1 - outer.1);
    near(face / thick, 23.094 / 20.0);
    let (across, down) = (corner.0 - outer.0, outer.1 - corner.1);
    near(libm::atan2(across, down).to_degrees(), 60.0);
}

/// Board 114, slots 9.5, no clearance: 11 fingers fill 104.5 (`joinery.md` 3.8), six of them on the
/// first board, and 9.5 are trimmed off.
#[test]
fn a_comb_has_the_fingers_that_fill_it() {
    let (_, figure) = drawn("comb-joint", &[("clearance", "0 mm")]);
    let heights = |svg: &str| {
        let comb = outlines(svg)[0].clone();
        let end = comb.iter().fold(0.0_f64, |most, (x, _)| most.max(*x));
        let at_end = comb
            .windows(2)
            .filter(|pair| pair.iter().all(|(x, _)| (x - end).abs() < 0.02));
        let fingers = at_end.map(|pair| pair[1].1 - pair[0].1);
        let (top, foot) = (comb[0].1, comb[comb.len() - 1].1);
        (fingers.collect::<Vec<_>>(), foot - top)
    };
    let (first, width) = heights(&figure.views[0].svg);
    let (second, _) = heights(&figure.views[1].svg);
    assert_eq!((first.len(), second.len()), (6, 5));
    for finger in first.iter().chain(&second) {
        near(finger / width, 9.5 / 104.5);
    }
}

/// Pieces 19 thick that cross at 60 degrees, 50 wide: the recess is 50 / sin 60 = 57.735 long and the
/// lap at an end 1.5 longer.
#[test]
fn a_slanting_halving_is_to_scale() {
    let (_, figure) = drawn("halving", &[("angle", "60 deg")]);
    let piece = &outlines(&figure.views[0].svg)[0];
    let sides = sides(piece);
    let thick = sides[sides.len() - 1];
    near(sides[2] / thick, 57.735 / 19.0);
    near(sides[1] / thick, 9.5 / 19.0);
    let end = &outlines(&figure.views[3].svg)[0];
    near((end[3].0 - end[2].0) / thick, 59.235 / 19.0);
}

/// Rail 22, chisel 8, c 0, 32 long, haunched in a rail of 100 with a groove of 10: tenon 8 and 40 wide,
/// shoulders 7, mortise 1.5 deeper (`joinery.md` 3.7).
#[test]
fn a_haunched_tenon_is_to_scale() {
    let (_, figure) = drawn("tenon", &[]);
    let rail = &outlines(&figure.views[0].svg)[0];
    let thick = rail[7].1 - rail[0].1;
    near((rail[2].1 - rail[1].1) / thick, 7.0 / 22.0);
    near((rail[4].1 - rail[3].1) / thick, 8.0 / 22.0);
    near((rail[2].0 - rail[3].0) / thick, 32.0 / 22.0);
    let mortise = &outlines(&figure.views[1].svg)[0];
    near((mortise[2].0 - mortise[3].0) / thick, 33.5 / 22.0);
    let face = &outlines(&figure.views[3].svg)[0];
    let wide = face[face.len() - 1].1 - face[0].1;
    near((face[4].1 - face[3].1) / wide, 40.0 / 100.0);
    near((face[3].1 - face[0].1) / wide, 50.0 / 100.0);
    near((face[0].0 - face[1].0) / wide, (40.0 + 10.0) / 100.0);
}

/// What the calculator cannot know is left out, not guessed: without the thickness of what goes in
/// a housing is drawn alone, without its depth not at all.
#[test]
fn nothing_unknown_is_drawn() {
    let housing = joints::find("housing").unwrap();
    let row = |texts: &[(&str, &str)]| -> Row {
        let texts = texts.iter();
        texts
            .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
            .collect()
    };
    let views = |texts: &[(&str, &str)]| {
        let answer = answer(housing, &row(texts)).unwrap();
        let drawing = worked::drawing(housing, &answer, scale());
        drawing.map(|drawing| figure(&drawing).unwrap().views.len())
    };
    let width = [("width", "17.7 mm"), ("cutter", "12 mm")];
    assert_eq!(views(&width), None);
    let deep = [&width[..], &[("depth", "6 mm")]].concat();
    assert_eq!(views(&deep), Some(1));
    let known = [("thickness", "17.6 mm"), ("clearance", "0.1 mm")];
    let known = [&known[..], &deep[1..]].concat();
    assert_eq!(views(&known), Some(2));
}
