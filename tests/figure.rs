//! `faceside figure` as a person uses it: the list, what a calculator takes, an answer that fits
//! a terminal, words of the trade, help that can be typed.
//!
//! Figures: "joinery 5 #n" is row n of the project's check values, derived there apart from this
//! program; others are derived beside the check.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test and its helpers stop by a panic"
)]

mod util;

use faceside::joints::{self, Absent, Calculator};
use serde_json::Value;
use util::{Folder, Run};

/// joinery 5 #1 and #2: mouth 7.96277, exposure 5.51862, end cut 3.15 mm.
const DOVETAIL: [&str; 6] = [
    "figure",
    "sliding-dovetail",
    "stock=19mm",
    "cutter=12.7mm",
    "angle=14deg",
    "depth=9.5mm",
];

#[track_caller]
fn run(arguments: &[&str]) -> Run {
    Folder::empty().run(arguments)
}

fn example(calculator: &Calculator) -> Vec<String> {
    let values = calculator.example.iter();
    values
        .map(|(name, text)| format!("{name}={text}"))
        .collect()
}

/// The example of a calculator with more behind it.
#[track_caller]
fn run_example(calculator: &Calculator, more: &[&str]) -> Run {
    let values = example(calculator);
    let values: Vec<&str> = values.iter().map(String::as_str).collect();
    run(&[&["figure", calculator.name], &values[..], more].concat())
}

#[track_caller]
fn fits(run: &Run) {
    for line in run.out().lines() {
        let wide = line.chars().count();
        assert!(wide <= 80, "{wide} letters: {line}");
    }
}

/// The words without the ends of lines between them.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What a shell makes of a command: blanks part words, quotes hold them together, a backslash at
/// the end of a line joins it to the next.
fn words(command: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut quoted = false;
    for sign in command.replace("\\\n", " ").chars() {
        match sign {
            '"' => quoted = !quoted,
            ' ' if !quoted => words.push(String::new()),
            _ => words.last_mut().unwrap().push(sign),
        }
    }
    words.retain(|word| !word.is_empty());
    words
}

#[test]
fn no_line_is_wider_than_a_terminal() {
    fits(&run(&["figure"]));
    for calculator in joints::ALL {
        fits(run(&["figure", calculator.name]).code(0));
        for units in ["mm", "in"] {
            fits(run_example(calculator, &["--units", units]).code(0));
        }
    }
    let refused = run(&[
        "figure",
        "sliding-dovetail",
        "stock=17.9mm",
        "cutter=19.05mm",
        "angle=14deg",
        "depth=9.5mm",
    ]);
    fits(refused.code(1));
    // Seven passes make a list that is longer than its place: the width of 80 mm with a cutter of
    // 12 mm and an overlap of 1.5 mm needs 1 + (80 - 12) / 10.5 = 7.5, so 8.
    let wide = run(&[
        "figure",
        "housing",
        "width=80mm",
        "cutter=12mm",
        "from=100mm",
    ]);
    fits(wide.code(0));
    assert!(flat(&wide.out()).contains(" passes n 8 "), "{}", wide.out());
}

#[test]
fn the_list_tells_every_calculator_under_its_family_and_what_to_type() {
    let list = run(&["figure"]);
    let list = list.code(0).out();
    let mut at = 0;
    for calculator in joints::ALL {
        let name = format!("\n  {} ", calculator.name);
        at += list[at..].find(&name).unwrap();
        let family = list[..at + 1].lines().rfind(|line| !line.starts_with(' '));
        assert_eq!(family, Some(calculator.family));
        assert!(flat(&list).contains(calculator.summary));
    }
    let next = list.lines().last().unwrap();
    let command = next.strip_prefix("next: faceside ").unwrap();
    let command = command.split(" (").next().unwrap();
    run(&words(command)
        .iter()
        .map(String::as_str)
        .collect::<Vec<_>>())
    .code(0);
}

#[track_caller]
fn same(told: &Value, calculator: &Calculator) {
    assert_eq!(told["name"], calculator.name);
    assert_eq!(told["family"], calculator.family);
    assert_eq!(told["summary"], calculator.summary);
    assert_eq!(told["source"], calculator.source);
    let listed = |key: &str| {
        let list = told[key].as_array().unwrap().iter();
        list.map(|text| text.as_str().unwrap()).collect::<Vec<_>>()
    };
    assert_eq!(listed("refuses"), calculator.refuses);
    assert_eq!(listed("warns"), calculator.warns);
    assert_eq!(
        told["inputs"].as_array().unwrap().len(),
        calculator.inputs.len()
    );
    for (told, input) in told["inputs"]
        .as_array()
        .unwrap()
        .iter()
        .zip(calculator.inputs)
    {
        assert_eq!(told["name"], input.name);
        assert_eq!(told["meaning"], input.meaning);
        assert!(!told["kind"].as_str().unwrap().is_empty());
        if input.options().is_empty() {
            let range = (
                told["range"]["least"].as_str(),
                told["range"]["most"].as_str(),
            );
            assert_eq!(range, (Some(input.range.0), Some(input.range.1)));
        } else {
            let count = told["range"]["words"].as_array().unwrap().len();
            assert_eq!(count, input.options().len());
        }
        match input.absent {
            Absent::Required => assert_eq!(told["required"], true),
            Absent::Usual(text) => assert_eq!(told["usual"], text),
            Absent::Derived(how) => assert_eq!(told["left_out"], how),
        }
    }
    assert_eq!(
        told["results"].as_array().unwrap().len(),
        calculator.results.len()
    );
    for (told, output) in told["results"]
        .as_array()
        .unwrap()
        .iter()
        .zip(calculator.results)
    {
        assert_eq!(told["name"], output.name);
        assert_eq!(told["meaning"], output.meaning);
    }
}

#[test]
fn the_table_is_told_as_json_whole_and_one_by_one() {
    let whole = run(&["figure", "--json"]).code(0).json();
    assert_eq!(whole["version"], 1);
    let told = whole["calculators"].as_array().unwrap();
    assert_eq!(told.len(), joints::ALL.len());
    for (told, calculator) in told.iter().zip(joints::ALL) {
        same(told, calculator);
    }
    let one = run(&["figure", "housing", "--json"]).code(0).json();
    same(&one["calculator"], joints::find("housing").unwrap());
    // A length that must be given, in the words of the interface (design, section 4: `housing`
    // takes the cutter).
    let inputs = one["calculator"]["inputs"].as_array().unwrap();
    let cutter = inputs
        .iter()
        .find(|input| input["name"] == "cutter")
        .unwrap();
    assert_eq!(
        (&cutter["kind"], &cutter["required"]),
        (&"length".into(), &true.into())
    );
}

#[test]
fn the_example_of_each_calculator_can_be_typed_as_it_stands() {
    for calculator in joints::ALL {
        let text = run(&["figure", calculator.name]).out();
        let (_, shown) = text.split_once("\nExample\n").unwrap();
        let typed = words(shown.trim());
        assert_eq!(typed[0], "faceside");
        let typed: Vec<&str> = typed[1..].iter().map(String::as_str).collect();
        let answer = run(&[&typed[..], &["--json"]].concat()).code(0).json();
        assert_eq!(
            answer,
            run_example(calculator, &["--json"]).json(),
            "{shown}"
        );
        let json = run(&["figure", calculator.name, "--json"]).json();
        assert_eq!(
            words(json["calculator"]["command"].as_str().unwrap())[1..],
            typed
        );
    }
}

#[test]
fn what_stands_for_each_other_is_told() {
    // Design, section 4: `housing` takes width, or thickness and clearance.
    let text = run(&["figure", "housing"]).out();
    assert!(
        text.contains("\nGive one of\n  - width\n  - thickness and clearance\n"),
        "{text}"
    );
}

/// Words that mean the same: housing = dado = trench, stopped = blind, rebate = rabbet, halving =
/// half lap, bridle = slip joint (joinery section 1; the sources stand in procedures/terms.yaml).
#[test]
fn a_word_of_the_trade_leads_to_its_calculator() {
    for (typed, name) in [
        ("dado", "housing"),
        ("trench", "housing"),
        ("blind-dado", "stopped-housing"),
        ("rabbet", "rebate"),
        ("rabet", "rebate"),
        ("half-lap", "halving"),
        ("half lap", "halving"),
        ("Half_Lap", "halving"),
        ("slip-joint", "bridle"),
        ("dovetail-dado", "sliding-dovetail"),
        ("box-joint", "comb-joint"),
        ("finger-joint", "comb-joint"),
        ("housng", "housing"),
        ("tenon-", "tenon"),
    ] {
        let hint = format!("did you mean `{name}`");
        run(&["figure", typed]).code(2).complains(&hint);
    }
    run(&["figure", "dado"])
        .code(2)
        .complains("`housing`, which is also called dado?");
    // Clamp = cramp; a word that is no joint's leads to those whose line speaks of it.
    run(&["figure", "clamp"])
        .code(2)
        .complains("these speak of it: `edge-joint`");
    run(&["figure", "xyzzy"])
        .code(2)
        .complains("`faceside figure` lists them");
}

#[test]
fn a_shop_that_cannot_be_opened_still_gets_the_nearest_name() {
    let folder = Folder::empty().file("shop.yaml", "units: [\n");
    folder
        .run(&["figure", "housng"])
        .code(2)
        .complains("did you mean `housing`?");
}

#[test]
fn a_value_out_of_its_range_is_pointed_at() {
    let typed = ["figure", "housing", "cutter=12mm", "width=900mm"];
    let told = run(&typed);
    // `width=` begins at letter 13 of what was typed after the calculator's name.
    told.code(2)
        .complains("`width` must be ")
        .complains("command line:1:19")
        .complains("^^^^^");
}

/// Letters of joinery 3.1 with the demo shop's caliper of 0.05 mm: the mouth of 7.96277 mm and the
/// exposure of 5.51862 mm rounded down, the neck of 7.96277 mm rounded up.
#[test]
fn the_letters_of_the_sketch_have_their_values() {
    let text = run(&DOVETAIL).code(0).out();
    let (_, sketch) = text.split_once("\nSketch\n").unwrap();
    let (sketch, _) = sketch.split_once("\nSource\n").unwrap();
    for letter in [
        "T = 19 mm",
        "D = 12.7 mm",
        "a = 14 deg",
        "h = 9.5 mm",
        "c = 0 mm",
        "B left out",
        "x left out",
        "M = 7.95 mm",
        "e = 5.50 mm",
        "k = 3.15 mm",
        "N = 8.00 mm",
        "n = 1",
    ] {
        assert!(flat(sketch).contains(letter), "{letter}: {sketch}");
    }
    // joinery 5 #1 and #2 in inches: mouth 0.31300, exposure 0.21850, end cut 0.125, to 0.001 in.
    let inch = [
        "stock=3/4 in",
        "cutter=1/2 in",
        "angle=14deg",
        "depth=3/8 in",
        "--units",
        "in",
    ];
    let text = run(&[&DOVETAIL[..2], &inch].concat()).code(0).out();
    for letter in [
        "T = 0.750 in",
        "h = 0.375 in",
        "e = 0.218 in",
        "k = 0.125 in",
    ] {
        assert!(flat(&text).contains(letter), "{letter}: {text}");
    }
}

#[test]
fn what_was_left_out_is_said() {
    let text = run(&DOVETAIL).code(0).out();
    let (given, _) = text.split_once("\nResults\n").unwrap();
    let base = given
        .lines()
        .find(|line| line.starts_with("  base "))
        .unwrap();
    assert!(
        base.contains("left out") && base.contains("the cutter's diameter"),
        "{given}"
    );
    let clearance = given
        .lines()
        .find(|line| line.starts_with("  clearance "))
        .unwrap();
    assert!(clearance.contains("usual"), "{given}");
}

#[test]
fn the_examples_of_the_help_can_be_typed() {
    let help = run(&["figure", "--help"]).code(0).out();
    let typed: Vec<_> = help
        .lines()
        .filter_map(|line| line.strip_prefix("  faceside "))
        .collect();
    assert!(typed.len() >= 5, "{help}");
    let (_, table) = help.split_once("may read\n").unwrap();
    let (table, _) = table.split_once("\n\n").unwrap();
    let table: String = table
        .lines()
        .map(|line| line.trim().to_owned() + "\n")
        .collect();
    let mut with_rows = 0;
    for command in typed {
        let (command, input) = match command.split_once(" < ") {
            Some((command, _)) => (command, table.as_str()),
            None => (command, ""),
        };
        with_rows += usize::from(!input.is_empty());
        let typed = words(command);
        let typed: Vec<&str> = typed.iter().map(String::as_str).collect();
        let run = Folder::empty().run_with(&typed, input);
        assert!(!run.code(0).out().is_empty(), "{command}");
    }
    assert_eq!(with_rows, 1);
}
