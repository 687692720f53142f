//! Blocks to plain text of a given width, for a terminal or a printer without pictures.
//!
//! No colour and no control characters; a caution has its signal word and, for injury, the mark
//! `/!\`, always before its step. Boxes are `[ ]`, rings `( )`, blanks `____`. Drawings are said
//! in words.

use textwrap::{Options, fill};

use super::block::{Block, Line, Panel, Reading, Row, Set, Sheet, Span, Step, flat};
use super::figure::figure;
use super::inert::plain;
use super::sheet::sheets;
use super::speech;
use crate::jobs::Sheets;
use crate::procedure::Drawing;
use crate::search::Speech;

/// Narrowest text; below it, words of a step would stand one under the other.
const LEAST: usize = 24;
/// Widest text; longer lines are hard to follow.
const MOST: usize = 100;

/// All sheets of a job as text in the words of a region, lines at most `width` wide (held between
/// 24 and 100).
pub fn checklist_text(job: &Sheets, width: usize, speech: &Speech) -> String {
    let mut page = Page::new(width);
    for (at, sheet) in sheets(job, speech, None).iter().enumerate() {
        if at > 0 {
            page.line("");
        }
        page.sheet(sheet);
    }
    page.out
}

struct Page {
    width: usize,
    out: String,
}

impl Page {
    fn new(width: usize) -> Self {
        Self {
            width: width.clamp(LEAST, MOST),
            out: String::new(),
        }
    }

    fn line(&mut self, text: &str) {
        self.out.push_str(text.trim_end());
        self.out.push('\n');
    }

    /// Wraps a text behind `first`; later lines are indented as far.
    fn wrap(&mut self, first: &str, text: &str) {
        let later = " ".repeat(textwrap::core::display_width(first));
        let options = Options::new(self.width)
            .initial_indent(first)
            .subsequent_indent(&later);
        let text = plain(text);
        let filled = fill(&text, options);
        self.line(&filled);
    }

    fn sheet(&mut self, sheet: &Sheet) {
        self.line(&"=".repeat(self.width));
        self.wrap("", &sheet.over);
        self.wrap("", &sheet.title.to_uppercase());
        self.line(&"=".repeat(self.width));
        for block in &sheet.blocks {
            self.block(block);
        }
    }

    fn links(&mut self, rows: &[(String, String, String)]) {
        for (title, _, remark) in rows {
            self.wrap("", title);
            self.wrap("    ", remark);
        }
    }

    fn block(&mut self, block: &Block) {
        match block {
            Block::Heading { text, .. } => {
                self.line("");
                self.wrap("", text);
                let long = textwrap::core::display_width(text).min(self.width);
                self.line(&"-".repeat(long));
            }
            Block::Para { text } => self.wrap("", &flat(text)),
            Block::Bullets { items } => self.items("- ", items),
            Block::Boxes { items } => self.items("[ ] ", items),
            Block::Facts { rows } => {
                for (name, value) in rows {
                    self.wrap(&format!("{name}: "), value);
                }
            }
            Block::Table { head, rows, .. } => self.table(head, rows),
            Block::Links { rows } | Block::Contents { rows } => self.links(rows),
            Block::Family { name, rows, .. } => {
                self.wrap("", name);
                self.links(rows);
            }
            Block::Index { rows, .. } => {
                for (_, cells) in rows {
                    self.wrap("", &cells.join(", "));
                }
            }
            Block::Entries { rows } => {
                for entry in rows {
                    self.wrap(&format!("{}: ", entry.word), &entry.means);
                }
            }
            Block::Settings { rows } => rows.iter().for_each(|set| self.set(set)),
            Block::Standing { cautions } => {
                self.line("");
                cautions.iter().for_each(|panel| self.panel(panel));
            }
            Block::Steps { steps } | Block::Breakdown { steps } => {
                steps.iter().for_each(|step| self.step(step))
            }
            Block::Drawing {
                drawing, speech, ..
            } => self.drawing(drawing, speech),
            Block::Troubles { rows } => {
                for (see, cause, cure) in rows {
                    self.wrap("- ", &flat(see));
                    self.wrap("  cause: ", &flat(cause));
                    self.wrap("  cure:  ", &flat(cure));
                }
            }
            Block::Rule { name, text } => {
                self.line("");
                self.wrap("", &format!("{}: {text}", name.to_uppercase()));
            }
            Block::Sketch { text } => text.lines().for_each(|line| self.line(&plain(line))),
            Block::Lines { label, count } => {
                self.line("");
                self.wrap("", &format!("{label}:"));
                for _ in 0..*count {
                    self.line(&"_".repeat(self.width));
                }
            }
            // What is typed into a page is typed after a command here.
            Block::Form { .. } | Block::Neighbours { .. } => {}
            Block::Live { blocks, .. } | Block::Only { blocks, .. } => {
                blocks.iter().for_each(|block| self.block(block));
            }
            Block::Done { what } => {
                self.line("");
                self.wrap("[ ] ", &format!("{what}."));
                self.wrap(
                    "    ",
                    "Initials ______  date ______________  time ________",
                );
            }
        }
    }

    fn items(&mut self, mark: &str, items: &[Vec<Span>]) {
        for item in items {
            self.wrap(mark, &flat(item));
        }
    }

    fn panel(&mut self, panel: &Panel) {
        let mark = if panel.alert { "/!\\ " } else { "    " };
        if panel.brief {
            let lines: Vec<&str> = panel.said.iter().map(|said| said.avoid.as_str()).collect();
            self.wrap(mark, &format!("{}: {}", panel.word, lines.join(" ")));
            return;
        }
        for said in &panel.said {
            let says = format!("{} {} {}", said.hazard, said.harm, said.avoid);
            self.wrap(mark, &format!("{}: {says}", panel.word));
        }
    }

    fn set(&mut self, set: &Set) {
        self.wrap("[ ] ", &format!("{}: {}", set.label, set.shown));
        if !set.remark.is_empty() {
            self.wrap("      ", &set.remark);
        }
    }

    fn step(&mut self, step: &Step) {
        self.line("");
        step.cautions.iter().for_each(|panel| self.panel(panel));
        self.wrap(&format!("({:>2}) ", step.number), &flat(&step.act));
        let line = |line: &Line| format!("{}: {}", line.word, flat(&line.text));
        for other in step.after.iter().filter(|line| !line.sign) {
            self.wrap("     ", &line(other));
        }
        for key in &step.keys {
            self.wrap("     - ", &flat(key));
        }
        if !step.why.is_empty() {
            self.wrap("     why: ", &flat(&step.why));
        }
        step.readings
            .iter()
            .for_each(|reading| self.reading(reading));
        for piece in &step.pieces {
            self.wrap("     [ ] ", piece);
        }
        for hold in step.after.iter().filter(|line| line.sign) {
            self.wrap("     ", &line(hold));
            self.wrap("     ", "Signed ______________  time ________");
        }
    }

    fn reading(&mut self, reading: &Reading) {
        let Reading {
            tool,
            wanted,
            low,
            high,
            unit,
            ..
        } = reading;
        let measure = flat(&reading.measure);
        self.wrap("     measure: ", &format!("{measure}, with {tool}"));
        let limits = format!("{wanted}; low {low}, high {high}; found ________ {unit}");
        self.wrap("     wanted:  ", &limits);
        self.wrap("     lower:   ", &flat(&reading.if_low));
        self.wrap("     higher:  ", &flat(&reading.if_high));
    }

    /// A table: in columns where short cells fit the width, else as lists, which fit any width.
    fn table(&mut self, head: &[String], rows: &[Row]) {
        if let Some(columns) = self.columns(head, rows) {
            self.wrap("", &head.join("  ·  "));
            for row in rows {
                let cells = row.cells.iter().zip(&columns);
                let cells = cells.map(|(cell, width)| format!("{cell:<width$}"));
                self.line(format!("  {}", cells.collect::<Vec<_>>().join("  ")).trim_end());
            }
            return;
        }
        for row in rows {
            let mut cells = head.iter().zip(&row.cells);
            if let Some((name, cell)) = cells.next() {
                self.wrap("- ", &format!("{name}: {cell}"));
            }
            let rest: Vec<String> = cells
                .filter(|(_, cell)| !cell.is_empty())
                .map(|(name, cell)| format!("{name}: {cell}"))
                .collect();
            self.wrap("    ", &rest.join("; "));
        }
    }

    /// Widths of the columns of a table whose cells are short and fit the line.
    fn columns(&self, head: &[String], rows: &[Row]) -> Option<Vec<usize>> {
        let width = |at: usize| {
            let cells = rows.iter().filter_map(|row| row.cells.get(at));
            cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
        };
        let widths: Vec<usize> = (0..head.len()).map(width).collect();
        let total: usize = widths.iter().sum::<usize>() + 2 * widths.len();
        (total <= self.width && widths.iter().all(|width| *width <= 24)).then_some(widths)
    }

    /// A drawing in words; one that cannot be made says so.
    fn drawing(&mut self, drawing: &Drawing, spoken: &Speech) {
        self.line("");
        match figure(drawing).map(|figure| speech::figure(figure, spoken)) {
            Ok(figure) => {
                for view in &figure.views {
                    self.wrap("", &format!("{}: {}", view.title, view.says));
                }
            }
            Err(fault) => self.wrap("", &format!("No drawing: {}.", fault.message)),
        }
    }
}
