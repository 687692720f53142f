//! A text with slots: `Set the cutter {depth} above the table.`
//!
//! A slot is a name in braces and nothing else; it is found when the file is loaded, with its
//! place, so that a wrong name points into the line that holds it.

use crate::diag::{Code, Fault, Faults, Span};

/// A piece of a text.
#[derive(Debug, Clone, PartialEq)]
pub enum Piece {
    /// Words as written.
    Words(String),
    /// A slot: its name and its place.
    Slot(String, Span),
}

/// A text, parsed into words and slots.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Text {
    /// The pieces in order.
    pub pieces: Vec<Piece>,
}

impl Text {
    /// Parses a text that stands at `place`.
    ///
    /// Faults (`slot-syntax`) are noted; the text is kept as far as it could be read.
    pub fn parse(text: &str, place: &Span, faults: &mut Faults) -> Self {
        let span = |from, to| place.inside(text, from, to);
        let mut pieces = Vec::new();
        let mut rest = 0;
        while let Some(at) = text[rest..].find(['{', '}']).map(|at| rest + at) {
            if at > rest {
                pieces.push(Piece::Words(text[rest..at].to_owned()));
            }
            let close = text[at..].find('}').map(|end| at + end);
            let name = close.map(|close| text.get(at + 1..close).unwrap_or("").trim());
            match (name, close) {
                (Some(name), Some(close)) if is_name(name) => {
                    pieces.push(Piece::Slot(name.to_owned(), span(at, close + 1)));
                    rest = close + 1;
                }
                (_, close) => {
                    let end = close.map_or(at + 1, |close| close + 1);
                    faults.push(
                        Fault::error(Code::SLOT_SYNTAX, "a slot is a name in braces")
                            .at(span(at, end))
                            .label("not a name")
                            .hint("write `{depth}`; put arithmetic under `work_out`"),
                    );
                    rest = end;
                }
            }
        }
        if rest < text.len() {
            pieces.push(Piece::Words(text[rest..].to_owned()));
        }
        Self { pieces }
    }

    /// Names and places of its slots.
    pub fn slots(&self) -> impl Iterator<Item = (&str, &Span)> {
        self.pieces.iter().filter_map(|piece| match piece {
            Piece::Slot(name, span) => Some((name.as_str(), span)),
            Piece::Words(_) => None,
        })
    }

    /// The text without values, each slot by its name in words; for search and headings.
    pub fn unfilled(&self) -> String {
        self.pieces
            .iter()
            .map(|piece| match piece {
                Piece::Words(words) => words.clone(),
                Piece::Slot(name, _) => name.rsplit('.').next().unwrap_or(name).replace('_', " "),
            })
            .collect()
    }
}

fn is_name(name: &str) -> bool {
    let part_ok = |part: &str| {
        part.starts_with(|c: char| c.is_ascii_lowercase())
            && part
                .chars()
                .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_')
    };
    !name.is_empty() && name.split('.').count() <= 2 && name.split('.').all(part_ok)
}

#[cfg(test)]
mod tests {
    use super::{Piece, Text};
    use crate::diag::{Faults, Source, Span};

    fn parse(text: &str) -> (Text, Faults) {
        let mut faults = Faults::new();
        let source = Source::new("a.yaml", text);
        (
            Text::parse(text, &Span::whole(&source), &mut faults),
            faults,
        )
    }

    #[test]
    fn words_and_slots_come_apart_and_together() {
        let (text, faults) = parse("Set {depth}, then {cut.fence_first}.");
        assert!(faults.is_empty());
        let names: Vec<_> = text
            .slots()
            .map(|(name, span)| (name, span.line_column()))
            .collect();
        assert_eq!(names, [("depth", (1, 5)), ("cut.fence_first", (1, 19))]);
        assert_eq!(text.unfilled(), "Set depth, then fence first.");
    }

    #[test]
    fn anything_but_a_name_in_braces_is_a_fault_with_its_place() {
        for (text, column) in [
            ("a {1+2} b", 3),
            ("open {depth", 6),
            ("shut } x", 6),
            ("{}", 1),
        ] {
            let (_, faults) = parse(text);
            let places: Vec<_> = faults
                .iter()
                .filter_map(|f| f.span.as_ref())
                .map(|s| s.line_column().1)
                .collect();
            assert_eq!(places, [column], "{text}");
        }
    }

    #[test]
    fn words_alone_stay_whole() {
        let (text, _) = parse("Unplug the machine.");
        assert_eq!(text.pieces, [Piece::Words("Unplug the machine.".into())]);
    }
}
