//! The lesson sheet and the timetable for paper, by the writers of the checklists.
//!
//! The sheet has the breakdown of the job: step, key points, reasons side by side (T1 of
//! `procedures.md` 1C), each step's cautions across the row above it, and blanks for who taught,
//! the watched runs and the signatures, two people for taught and tested (T9).

use super::block::{Block, Row, Running, Sheet, heading, words};
use super::checklist::lone;
use super::set_up;
use super::sheet::{STOP, boxes, rule};
use super::speech;
use crate::diag::Fault;
use crate::procedure::{Filled, FilledSetUp};
use crate::search::Speech;
use crate::shop::Paper;
use crate::training::{Lesson, RUN_DAYS, RUNS, Timetable, ticks};

/// Blank rows for watched runs: those that are wanted, and two in which something went wrong.
const BLANKS: u32 = RUNS + 2;

/// The lesson sheet of a procedure, with the numbers that it was filled with.
///
/// # Errors
/// A drawing that cannot be made, a template that cannot be filled.
pub fn lesson_html(
    filled: &Filled,
    lesson: &Lesson,
    (shop, date): (&str, &str),
    paper: Paper,
    spoken: &Speech,
) -> Result<String, Fault> {
    let facts = |rows: [(&str, &str); 3]| Block::Facts {
        rows: rows
            .map(|(name, value)| (name.to_owned(), value.to_owned()))
            .to_vec(),
    };
    let mut blocks = vec![
        facts([("learner", ""), ("taught by", ""), ("day", "")]),
        facts([
            ("purpose", &lesson.purpose),
            ("done when", &lesson.done_when),
            ("printed", date),
        ]),
    ];
    blocks.push(rule("Limits", &lesson.limits));
    blocks.push(rule("Stop", STOP));
    let values = lesson.values.iter();
    let values: Vec<String> = values
        .map(|(_, label, shown)| format!("{label}: {shown}"))
        .collect();
    if !values.is_empty() {
        blocks.push(heading("Numbers of this lesson"));
        blocks.push(boxes(&values));
    }
    blocks.push(heading("Prepare"));
    let things = lesson.ready.iter().filter(|(_, things)| !things.is_empty());
    let things: Vec<String> = things
        .map(|(head, things)| format!("{head}: {}", things.join("; ")))
        .collect();
    blocks.push(boxes(&things));
    let ticked: Vec<String> = ticks(lesson).into_iter().map(str::to_owned).collect();
    blocks.push(boxes(&ticked));
    let mut before = 0;
    for (at, one) in filled.set_ups.iter().enumerate() {
        blocks.push(heading(&one.title));
        let mut earlier = filled.set_ups[..at].iter();
        let same = earlier.find(|other| has_all(other, one));
        blocks.extend(match same {
            Some(other) => set_up::standing_again(one, &format!("of \"{}\"", other.title)),
            None => set_up::standing(one),
        });
        blocks.extend(set_up::settings(one));
        let mut steps = set_up::steps(one, &[], true);
        for step in &mut steps {
            step.number += before;
        }
        before += steps.len();
        blocks.push(Block::Breakdown { steps });
    }
    blocks.extend(records());
    let sheet = Sheet {
        slug: format!("lesson-{}", lesson.procedure),
        over: format!("{shop} · lesson"),
        title: lesson.title.clone(),
        running: Running {
            job: "lesson".to_owned(),
            procedure: lesson.procedure.clone(),
            revision: format!("revision {}", lesson.revision),
            date: date.to_owned(),
        },
        blocks,
    };
    lone(
        speech::sheet(sheet, spoken),
        paper,
        &spoken.say(&lesson.limits),
    )
}

/// Whether one has every standing caution of another, in the same words.
fn has_all(one: &FilledSetUp, of: &FilledSetUp) -> bool {
    of.standing
        .iter()
        .all(|caution| one.standing.contains(caution))
}

/// Blanks for the runs and the signatures.
fn records() -> Vec<Block> {
    let runs = (1..=BLANKS).map(|number| blank_row(&number.to_string(), 5));
    let signed = [
        "Taught: every step done rightly",
        "Tested, by another than who taught",
        "May work alone, until the day",
    ];
    vec![
        heading("Watched runs"),
        Block::Para {
            text: words(format!(
                "A clean run is done without help, with each step, its points, reasons and cautions \
                 said, and nothing that can hurt. {RUNS} in a row, on at least {RUN_DAYS} days (house \
                 values), come before the test."
            )),
        },
        written(
            &[
                "run",
                "day",
                "machine",
                "help, slips",
                "explained",
                "watched by",
            ],
            runs.collect(),
        ),
        heading("Signatures"),
        written(
            &["signed", "day", "machines and limits", "initials"],
            signed.map(|what| blank_row(what, 3)).to_vec(),
        ),
    ]
}

fn blank_row(first: &str, blanks: usize) -> Row {
    let cells = std::iter::once(first.to_owned());
    Row {
        cells: cells
            .chain(std::iter::repeat_n(String::new(), blanks))
            .collect(),
        marked: false,
    }
}

fn written(head: &[&str], rows: Vec<Row>) -> Block {
    Block::Table {
        head: head.iter().map(|name| (*name).to_owned()).collect(),
        numbers: vec![false; head.len()],
        rows,
    }
}

/// The timetable for a wall.
///
/// # Errors
/// A template that cannot be filled.
pub fn timetable_html(
    table: &Timetable,
    shop: &str,
    paper: Paper,
    spoken: &Speech,
) -> Result<String, Fault> {
    let day = table.day.to_string();
    let sheet = Sheet {
        slug: "timetable".to_owned(),
        over: shop.to_owned(),
        title: "Who may do what".to_owned(),
        running: Running {
            job: "timetable".to_owned(),
            procedure: "training".to_owned(),
            revision: String::new(),
            date: day,
        },
        blocks: timetable_blocks(table),
    };
    lone(
        speech::sheet(sheet, spoken),
        paper,
        "Who is not authorised works under supervision.",
    )
}

/// People against procedures, as blocks.
pub fn timetable_blocks(table: &Timetable) -> Vec<Block> {
    if table.rows.is_empty() {
        return vec![Block::Para {
            text: words(format!(
                "As of {} nobody is recorded yet. To begin, give a first lesson: in the terminal \
                 faceside train PROCEDURE --person ID --by ID leads through it, and who was taught \
                 stands here from then on.",
                table.day
            )),
        }];
    }
    let rows = table.rows.iter().map(|row| {
        let mut cells = Timetable::cells(row);
        cells[0].clone_from(&row.title);
        Row {
            cells,
            marked: row.allowed() == 1,
        }
    });
    let head = table.head();
    vec![
        Block::Para {
            text: words(format!(
                "As recorded on {}. A day in a cell is the last of the authority to work alone; \
                 anything else is no authority. A row with a mark has one person only who may.",
                table.day
            )),
        },
        heading("People and procedures"),
        Block::Table {
            numbers: vec![false; head.len()],
            head,
            rows: rows.collect(),
        },
        Block::Para {
            text: words(format!(
                "{} procedures more, which nobody has begun. {}",
                table.others,
                Timetable::house_values()
            )),
        },
    ]
}
