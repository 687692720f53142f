//! A procedure of eleven steps in two set-ups, with cautions from a book of its own.

use faceside::caution::{Book, Selected, Stands};
use faceside::diag::Source;
use faceside::formula::Values;
use faceside::procedure::{
    Does, Filled, FilledCheck, FilledSetUp, FilledStep, FilledValue, Provenance, Run, RunCutter,
    Setting,
};
use faceside::shoplog::{Day, Person};
use faceside::training::{Lesson, Sitting};
use faceside::units::{Length, Unit, Value};

pub(super) const LIMITS: &str = "Memory aid for trained persons. The stricter rule holds.";
const CAUTIONS: &str = "
machine: router-table
cautions:
";
const MATRIX: &str = "
pairs:
  - {machine: router-table, operation: stopped-groove, required: [no-trap]}
  - {machine: hand-tool, operation: chisel-plane-saw, required: [hand-distance]}
limits: {long: long form, short: short form}
";

fn rule(id: &str, kind: &str, stands: &str, signal: &str) -> String {
    format!(
        "  - {{caution: {id}, kind: {kind}, operations: every, stands: {stands}, signal: {signal}, \
         hazard: The hazard of {id}., harm: It harms by {id}., avoid: Avoid {id} so., \
         sources: [{{cite: workshop practice, fact: X-1, status: practice}}]}}\n"
    )
}

fn book() -> Book {
    let mut machine = CAUTIONS.to_owned();
    for kind in ["training", "ppe", "dust", "guard", "run-down"] {
        machine.push_str(&rule(&format!("rt-{kind}"), kind, "sheet", "warning"));
    }
    machine.push_str(&rule("rt-isolate", "isolate", "adjust", "danger"));
    machine.push_str(&rule("rt-no-trap", "no-trap", "cut", "danger"));
    let hand = CAUTIONS.replace("router-table", "hand-tool")
        + &rule("ht-hands", "hand-distance", "hand", "warning")
        + &rule("ht-bench", "hold-support", "sheet", "notice");
    let sources = [machine.as_str(), &hand, MATRIX].map(|text| Source::new("cautions.yaml", text));
    let (book, faults) = Book::read(&sources);
    assert!(!faults.any_error(), "{faults:?}");
    book
}

pub(super) fn words(text: &str) -> Vec<Run> {
    vec![Run::Words(text.to_owned())]
}

fn step(does: Does, selected: &Selected, number: u32) -> FilledStep {
    let mut step = FilledStep::new(does, selected, words(&format!("Act number {number} here.")));
    step.keys = vec![words(&format!("Key of {number}."))];
    step.why = words(&format!("Because of {number}."));
    step
}

pub(super) fn depth_check() -> FilledCheck {
    FilledCheck {
        measure: words("depth of the groove"),
        is: Length::mm(9.5),
        wanted: "9.5 mm".to_owned(),
        low: Length::mm(9.4),
        high: Length::mm(9.5),
        low_shown: "9.4 mm".to_owned(),
        high_shown: "9.5 mm".to_owned(),
        tool: "caliper".to_owned(),
        moved_by: None,
        if_low: words("Raise the cutter."),
        if_high: words("Cut a fresh test piece."),
    }
}

fn set_up(title: &str, selected: &Selected, steps: Vec<FilledStep>) -> FilledSetUp {
    FilledSetUp {
        plan: None,
        title: title.to_owned(),
        machine: None,
        operation: "chisel-plane-saw".to_owned(),
        cutter: None,
        piece: None,
        holder: None,
        settings: Vec::new(),
        standing: selected.standing(Stands::Sheet).cloned().collect(),
        steps,
        table: None,
    }
}

/// Nine steps at the machine (1 adjusts, 2 measures, the others cut), two at the bench.
pub(super) fn filled() -> Filled {
    let book = book();
    let at = |machine: &str, operation: &str| {
        book.select(machine, operation, &Values::default()).unwrap()
    };
    let router = at("router-table", "stopped-groove");
    let bench = at("hand-tool", "chisel-plane-saw");
    let mut steps: Vec<_> = (1..=9)
        .map(|number| step(Does::Cut, &router, number))
        .collect();
    steps[0] = step(Does::Adjust, &router, 1);
    steps[1] = step(Does::Measure, &router, 2);
    steps[1].check = Some(depth_check());
    let mut cut = set_up("Cut the housings", &router, steps);
    cut.machine = Some((
        "router-table-1".to_owned(),
        "table by the slipway".to_owned(),
    ));
    cut.cutter = Some(RunCutter {
        id: "straight-12".to_owned(),
        name: "12 mm straight".to_owned(),
        diameter: "11.95 mm".to_owned(),
        known_from: "measured".to_owned(),
        speed_note: String::new(),
        why: None,
    });
    cut.settings = vec![Setting {
        name: "height".to_owned(),
        label: "Cutter above the table".to_owned(),
        value: Value::Length(Length::mm(9.5)),
        shown: "9.50 mm".to_owned(),
        rounding: String::new(),
    }];
    let steps = (10..=11)
        .map(|number| step(Does::Hand, &bench, number))
        .collect();
    let square = set_up("Square the ends", &bench, steps);
    Filled {
        procedure: "stopped-housing".to_owned(),
        title: "Stopped housing".to_owned(),
        purpose: "Holds a shelf.".to_owned(),
        done_when: "The shelf goes in by hand.".to_owned(),
        revision: 3,
        reviewed: "2026-11-01".to_owned(),
        values: vec![FilledValue {
            name: "shelf".to_owned(),
            label: "Thickness of the shelf".to_owned(),
            value: Value::Length(Length::mm(17.6)),
            shown: "17.6 mm".to_owned(),
            rounding: String::new(),
            provenance: Provenance::Measured,
        }],
        ready: vec![
            ("tools".to_owned(), vec![words("caliper")]),
            ("aids".to_owned(), vec![]),
        ],
        set_ups: vec![cut, square],
        troubles: Vec::new(),
        close: Vec::new(),
        warnings: Vec::new(),
        notes: Vec::new(),
        drawing: None,
        sizes: Vec::new(),
    }
}

pub(super) fn lesson() -> Lesson {
    Lesson::new(&filled(), LIMITS).unwrap()
}

pub(super) fn sitting(from: u32) -> Sitting {
    Sitting {
        learner: Person::new("A07").unwrap(),
        instructor: Person::new("BK").unwrap(),
        today: Day::new("2026-11-25").unwrap(),
        unit: Unit::Mm,
        from,
        attempt: 1,
        unsigned: None,
    }
}
