//! Text for the terminal that stands still: headed sections, lists, columns under each other.
//!
//! No wrapping and no colour; the words are the callers'.

/// A headed section; nothing when it is empty.
pub(super) fn section(head: &str, body: &str) -> String {
    if body.is_empty() {
        return String::new();
    }
    format!("\n{head}\n{body}")
}

/// One line each, with a dash before it.
pub(super) fn items<T: AsRef<str>>(texts: &[T]) -> String {
    let lines = texts.iter().map(|text| format!("  - {}\n", text.as_ref()));
    lines.collect()
}

/// The lines indented by two; line breaks before the first are left out.
pub(super) fn indented(text: &str) -> String {
    text.trim_start_matches('\n')
        .lines()
        .map(|line| format!("  {line}").trim_end().to_owned() + "\n")
        .collect()
}

/// Rows with their columns under each other, two blanks apart, indented by two.
pub(super) fn columns<const N: usize>(rows: impl IntoIterator<Item = [String; N]>) -> String {
    let rows: Vec<_> = rows.into_iter().collect();
    let width = |at: usize| rows.iter().map(|row| row[at].chars().count()).max();
    let widths: [usize; N] = std::array::from_fn(|at| width(at).unwrap_or(0));
    let mut text = String::new();
    for row in &rows {
        let cells = row.iter().zip(widths).filter(|(_, width)| *width > 0);
        let line: String = cells
            .map(|(cell, width)| format!("  {cell:<width$}"))
            .collect();
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}
