//! Text for the terminal that stands still in 80 columns: headed sections, lists, tables.
//!
//! Words that do not fit go on under where they began; a figure keeps its unit on its line, a name
//! its hyphens. No colour; the words are the callers'.

use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm};

/// No line is wider; a drawing is made to fit.
pub(super) const WIDE: usize = 80;

const NO_BREAK_SPACE: char = '\u{a0}';

/// A headed section; nothing when it is empty.
pub(super) fn section(head: &str, body: &str) -> String {
    if body.is_empty() {
        return String::new();
    }
    format!("\n{head}\n{body}")
}

/// Each with a dash before it.
pub(super) fn items<T: AsRef<str>>(texts: &[T]) -> String {
    let items = texts
        .iter()
        .map(|text| wrapped(text.as_ref(), "  - ", "    "));
    items.collect()
}

/// A drawing as it stands, with its own blanks; line breaks before it are left out.
pub(super) fn drawing(text: &str) -> String {
    let lines = text.trim_start_matches('\n').lines();
    lines
        .map(|line| line.trim_end().to_owned() + "\n")
        .collect()
}

/// A text wrapped and indented by two.
pub(super) fn paragraph(text: &str) -> String {
    wrapped(text, "  ", "  ")
}

/// A text wrapped, with `first` before its first line and `rest` before the others.
pub(super) fn wrapped(text: &str, first: &str, rest: &str) -> String {
    let options = Options::new(WIDE)
        .initial_indent(first)
        .subsequent_indent(rest)
        .wrap_algorithm(WrapAlgorithm::FirstFit)
        .word_separator(WordSeparator::AsciiSpace)
        .word_splitter(WordSplitter::NoHyphenation);
    let lines = textwrap::fill(&bound(text), options);
    lines.replace(NO_BREAK_SPACE, " ") + "\n"
}

/// A figure bound to the word after it, its unit.
fn bound(text: &str) -> String {
    let mut before = ' ';
    let bind = |c| {
        let is_bound = c == ' ' && before.is_ascii_digit();
        before = c;
        if is_bound { NO_BREAK_SPACE } else { c }
    };
    text.chars().map(bind).collect()
}

/// A row of a table: short cells, and beside them paragraphs.
pub(super) type Row<const N: usize> = ([String; N], Vec<String>);

/// Rows with their cells under each other, two blanks apart, indented by two; the paragraphs
/// wrapped in what is left of the line. A column that is empty everywhere is left out, and so is
/// an empty paragraph.
pub(super) fn table<const N: usize>(rows: impl IntoIterator<Item = Row<N>>) -> String {
    let rows: Vec<_> = rows.into_iter().collect();
    let width = |at: usize| {
        rows.iter()
            .map(|(cells, _)| cells[at].chars().count())
            .max()
    };
    let widths: [usize; N] = std::array::from_fn(|at| width(at).unwrap_or(0));
    let mut text = String::new();
    for (cells, paragraphs) in &rows {
        let cells = cells.iter().zip(widths).filter(|(_, width)| *width > 0);
        let mut start: String = cells
            .map(|(cell, width)| format!("  {cell:<width$}"))
            .collect();
        start.push_str("  ");
        let under = " ".repeat(start.chars().count());
        let said: Vec<_> = paragraphs.iter().filter(|text| !text.is_empty()).collect();
        if said.is_empty() {
            text.push_str(start.trim_end());
            text.push('\n');
        }
        for paragraph in said {
            text.push_str(&wrapped(paragraph, &start, &under));
            start.clone_from(&under);
        }
    }
    text
}
