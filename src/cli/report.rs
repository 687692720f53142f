//! Faults to text: file, line and column, the line itself with a caret, what to do next.
//!
//! The only place where faults become text. It prints nothing; the commands hand the text to
//! `anstream`. Signs that would steer a terminal are shown as harmless ones.

use std::ops::Range;
use std::sync::Arc;

use annotate_snippets::{
    Annotation, AnnotationKind, Element, Level, Origin, Renderer, Snippet, Title,
};

use crate::diag::{Fault, Faults, Severity, Source, Span};
use crate::render::terminal_text;

/// The faults as text, each followed by a blank line, and a last line that counts all of them;
/// nothing when there are none.
pub(super) fn text(faults: &Faults, color: bool) -> String {
    if faults.is_empty() {
        return String::new();
    }
    let renderer = if color {
        Renderer::styled()
    } else {
        Renderer::plain()
    };
    let mut text = String::new();
    for fault in faults.told().iter() {
        text.push_str(&one(fault, &renderer));
        text.push_str("\n\n");
    }
    text + &count(faults) + "\n"
}

fn one(fault: &Fault, renderer: &Renderer) -> String {
    let level = match fault.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
    };
    let title: Title<'_> = level
        .primary_title(printable(&fault.message))
        .id(fault.code.name());
    let mut elements = places(fault);
    for hint in &fault.hints {
        elements.push(Level::HELP.message(printable(hint)).into());
    }
    let text = renderer.render(&[title.elements(elements)]);
    // The renderer leaves these signs in the lines that it shows, and some terminals obey them.
    text.replace(|c| ('\u{7f}'..='\u{9f}').contains(&c), "\u{fffd}")
}

/// The excerpts: that of the fault's own place, with the second places of the same text in it;
/// then those of other texts.
fn places(fault: &Fault) -> Vec<Element<'_>> {
    let Some(span) = &fault.span else {
        return Vec::new();
    };
    let source = span.source();
    if source.text.is_empty() {
        return vec![Origin::path(printable(&source.name)).into()];
    }
    let label = (!fault.label.is_empty()).then_some(fault.label.as_str());
    let here = fault.also.iter().filter(|(also, _)| same(also, source));
    let mut own = excerpt(source).annotation(mark(span, AnnotationKind::Primary, label));
    for (also, words) in here {
        own = own.annotation(mark(also, AnnotationKind::Context, Some(words)));
    }
    let mut elements = vec![own.into()];
    let elsewhere = fault.also.iter().filter(|(also, _)| !same(also, source));
    for (also, words) in elsewhere {
        let mark = mark(also, AnnotationKind::Context, Some(words));
        elements.push(excerpt(also.source()).annotation(mark).into());
    }
    elements
}

fn same(span: &Span, source: &Arc<Source>) -> bool {
    Arc::ptr_eq(span.source(), source) || span.source() == source
}

fn excerpt(source: &Source) -> Snippet<'_, Annotation<'_>> {
    Snippet::source(source.text.as_str()).path(printable(&source.name))
}

fn mark<'f>(span: &Span, kind: AnnotationKind, label: Option<&'f str>) -> Annotation<'f> {
    let annotation = kind.span(first_line(span));
    match label {
        Some(label) => annotation.label(printable(label)),
        None => annotation,
    }
}

/// Only the first line of a place is marked: a caret that runs over many lines hides the text.
fn first_line(span: &Span) -> Range<usize> {
    let length = span.text().lines().next().map_or(0, str::len);
    span.start()..span.start() + length
}

/// A text on one line, without signs that act on a terminal.
fn printable(text: &str) -> String {
    terminal_text(text).replace('\n', "\u{fffd}")
}

fn count(faults: &Faults) -> String {
    let of = |severity| {
        let list = faults.iter().filter(|fault| fault.severity == severity);
        list.count()
    };
    let words = |number: usize, word: &str| match number {
        0 => None,
        1 => Some(format!("1 {word}")),
        number => Some(format!("{number} {word}s")),
    };
    let parts = [
        words(of(Severity::Error), "error"),
        words(of(Severity::Warning), "warning"),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::text;
    use crate::diag::{Code, Fault, Faults, Source, Span};

    fn of(list: Vec<Fault>) -> Faults {
        let mut faults = Faults::new();
        faults.extend(list);
        faults
    }

    #[test]
    fn a_fault_shows_its_place_its_second_place_and_its_cure() {
        let source = Source::new("shop/a.yaml", "id: a\nmaß: 1\nid: b\n");
        let fault = Fault::error(Code::DUPLICATE_KEY, "`id` is given twice")
            .at(Span::new(&source, 14, 16))
            .label("given again here")
            .also(Span::new(&source, 0, 2), "first given here")
            .hint("keep one of them");
        // The shape of the compiler's own messages, written out by hand.
        let expected = "\
error[duplicate-key]: `id` is given twice
 --> shop/a.yaml:3:1
  |
1 | id: a
  | -- first given here
2 | maß: 1
3 | id: b
  | ^^ given again here
  |
  = help: keep one of them

1 error
";
        assert_eq!(text(&of(vec![fault]), false), expected);
    }

    #[test]
    fn columns_count_characters() {
        let source = Source::new("a.yaml", "größe: 12 rpm\n");
        let fault = Fault::error(Code::QUANTITY_UNIT, "wrong unit").at(Span::new(&source, 9, 15));
        let text = text(&of(vec![fault]), false);
        assert!(text.contains("--> a.yaml:1:8\n"), "{text}");
        assert!(text.contains("\n  |        ^^^^^^\n"), "{text}");
    }

    #[test]
    fn faults_without_a_place_are_one_line_and_all_are_counted() {
        let list = vec![
            Fault::error(Code::UNKNOWN_NAME, "one"),
            Fault::error(Code::UNKNOWN_NAME, "two"),
            Fault::warning(Code::OVERLAID, "three"),
        ];
        let expected = "\
error[unknown-name]: one

error[unknown-name]: two

warning[overlaid]: three

2 errors, 1 warning
";
        assert_eq!(text(&of(list), false), expected);
        assert_eq!(text(&Faults::new(), false), "");
    }

    #[test]
    fn a_file_without_text_is_named_and_the_end_of_a_file_is_shown() {
        let nothing = Source::new("big.yaml", "");
        let end = Source::new("end.yaml", "id: [a\n");
        let other = Source::new("other.yaml", "id: a\n");
        let list = vec![
            Fault::error(Code::FILE_LIMIT, "too large").at(Span::whole(&nothing)),
            Fault::error(Code::YAML_SYNTAX, "not closed")
                .at(Span::new(&end, 6, 6))
                .also(Span::new(&other, 4, 5), "there"),
        ];
        let text = text(&of(list), false);
        assert!(text.contains("--> big.yaml\n"), "{text}");
        assert!(text.contains("--> end.yaml:1:7\n"), "{text}");
        assert!(text.contains("other.yaml:1:5\n"), "{text}");
        assert!(text.contains("- there"), "{text}");
    }

    #[test]
    fn nothing_in_a_fault_steers_the_terminal() {
        let source = Source::new("\u{1b}[2Ja.yaml", "id: \u{1b}[31mred\u{7}\r\n");
        let fault = Fault::error(Code::FILE_NOT_TEXT, "holds \u{1b}[5m")
            .at(Span::new(&source, 4, 5))
            .label("\u{1b}[1m")
            .hint("\u{1b}[0m");
        let plain = text(&of(vec![fault.clone()]), false);
        let steers = |c: char| c.is_control() && c != '\n';
        assert!(!plain.contains(steers), "{plain:?}");
        assert!(text(&of(vec![fault]), true).contains("\u{1b}["));
    }
}
