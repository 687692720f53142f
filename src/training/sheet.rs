//! The lesson on paper, as text: step, key points, reasons in three columns.
//!
//! The two columns of the wartime breakdown and the reasons beside them (T1); an empty cell stays
//! empty. The cautions of a step are key points that stand across the whole sheet above it, so that
//! they are read first; those of a whole set-up stand above its first step.

use textwrap::core::display_width;

use super::card::{Card, cautions, check, opening, ready, ticks};
use super::say::wrap;
use super::{Lesson, LessonStep, LessonUnit, Point, Say, plain};

/// Narrowest sheet that holds three columns.
const NARROWEST: usize = 48;

/// Between two columns.
const GAP: &str = " | ";

/// The sheet in lines of at most `width` columns (at least 48).
pub fn lesson_sheet(lesson: &Lesson, width: usize) -> String {
    let width = width.max(NARROWEST);
    let mut head = opening(lesson);
    head.extend(ready(lesson));
    let boxes = ticks(lesson).into_iter();
    head.extend(boxes.map(|tick| Say::Text(format!("[ ] {tick}"))));
    let mut sheet = plain(&head, width);
    for (number, unit) in lesson.units.iter().enumerate() {
        sheet.push_str(&plain(&Card::SetUp(number).show(lesson), width));
        sheet.push_str(&table(unit, width));
    }
    sheet.push_str(&plain(&foot(), width));
    sheet
}

fn foot() -> Vec<Say> {
    let lines = [
        "Taught, these steps only: instructor ________  date __________",
        "Next check: date __________",
        "Tested: another event and another sheet.",
    ];
    let mut foot = vec![Say::Head("Signatures".to_owned())];
    foot.extend(lines.map(|line| Say::Text(line.to_owned())));
    foot
}

fn table(unit: &LessonUnit, width: usize) -> String {
    let heads = ["Step", "Key points", "Reasons"].map(str::to_owned);
    let rule = format!("{}\n", "-".repeat(width));
    let mut table = format!("\n{}{rule}", row(&heads, width));
    for step in &unit.steps {
        let cautions: Vec<_> = cautions(step.points()).collect();
        table.push_str(&plain(&cautions, width));
        table.push_str(&row(&cells(step), width));
        table.push_str(&rule);
    }
    table
}

/// Step with its check, key points, reasons.
fn cells(step: &LessonStep) -> [String; 3] {
    let mut act = format!("{}. {}", step.number, step.act);
    if let Some(found) = &step.check {
        act = format!("{act}\n{}\nFound: ________", check(found));
    }
    let (mut keys, mut reasons) = (Vec::new(), Vec::new());
    for point in step.points() {
        match point {
            Point::Caution(_) => {}
            Point::Key(words) => keys.push(format!("* {words}")),
            Point::Reason(words) => reasons.push(words.clone()),
        }
    }
    [act, keys.join("\n"), reasons.join("\n")]
}

/// The cells side by side.
fn row(cells: &[String; 3], width: usize) -> String {
    let share = (width - 2 * GAP.len()) / 3;
    let columns = cells.each_ref().map(|cell| wrap(cell, share));
    let height = columns.iter().map(Vec::len).max().unwrap_or(0);
    let mut row = String::new();
    for line in 0..height {
        let parts = columns.each_ref().map(|column| {
            let text = column.get(line).map_or("", String::as_str);
            format!(
                "{text}{}",
                " ".repeat(share.saturating_sub(display_width(text)))
            )
        });
        row.push_str(parts.join(GAP).trim_end());
        row.push('\n');
    }
    row
}
