//! Bytes to a text that is worth reading: size, encoding, signs that no text holds.

use std::sync::Arc;

use crate::diag::{Code, Fault, Source, Span};

/// Largest file that is read, in bytes: the cost of aliases grows with its square.
pub const MOST_BYTES: usize = 128 * 1024;

/// Most brackets that may be open at once: the parser's time grows with their square, and it
/// stops at 128 levels anyway; brackets in texts are counted too.
const MOST_OPEN: usize = 512;

const BYTE_ORDER_MARK: char = '\u{feff}';

/// Checks size and encoding of a file and strips its byte-order mark.
///
/// # Errors
/// `file-limit` or `file-not-text`, with the place of the first bad byte.
pub fn source(name: &str, bytes: &[u8]) -> Result<Arc<Source>, Fault> {
    if bytes.len() > MOST_BYTES {
        let nothing = Source::new(name, "");
        return Err(too_large().at(Span::whole(&nothing)));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| not_utf8(name, bytes, error))?;
    let source = Source::new(name, text.strip_prefix(BYTE_ORDER_MARK).unwrap_or(text));
    match unfit(&source) {
        Some(fault) => Err(fault),
        None => Ok(source),
    }
}

/// What makes a text unfit to be read as YAML at all, if anything does.
pub(super) fn unfit(source: &Arc<Source>) -> Option<Fault> {
    if source.text.len() > MOST_BYTES {
        return Some(too_large().at(Span::new(source, 0, 0)));
    }
    if let Some(at) = too_deep(&source.text) {
        let message = format!("more than {MOST_OPEN} brackets are open at once");
        return Some(
            Fault::error(Code::FILE_LIMIT, message)
                .at(Span::new(source, at, at + 1))
                .label("one too many")
                .hint("close the brackets, or write it flatter"),
        );
    }
    let (at, sign) = source.text.char_indices().find(|(_, c)| !is_text(*c))?;
    let span = Span::new(source, at, at + sign.len_utf8());
    let (line, column) = span.line_column();
    let what = match sign {
        '\0' => "a NUL".to_owned(),
        BYTE_ORDER_MARK => "a byte-order mark inside the text".to_owned(),
        sign => format!("the control character U+{:04X}", u32::from(sign)),
    };
    let message = format!("line {line}, column {column} holds {what}");
    Some(
        Fault::error(Code::FILE_NOT_TEXT, message)
            .at(span)
            .label("no text holds this")
            .hint("delete it, or save the file again as plain text"),
    )
}

fn too_deep(text: &str) -> Option<usize> {
    let mut open = 0_usize;
    text.bytes().position(|byte| {
        match byte {
            b'[' | b'{' => open += 1,
            b']' | b'}' => open = open.saturating_sub(1),
            _ => {}
        }
        open > MOST_OPEN
    })
}

/// The characters that YAML 1.2 allows in a file (section 5.1, `c-printable`, from memory), less
/// the byte-order mark.
fn is_text(c: char) -> bool {
    matches!(c, '\t' | '\n' | '\r' | ' '..='~' | '\u{85}' | '\u{a0}'..='\u{fefe}'
        | '\u{ff00}'..='\u{fffd}' | '\u{10000}'..)
}

fn too_large() -> Fault {
    let most = MOST_BYTES / 1024;
    let message = format!("the file is larger than {most} KB, the most that is read");
    Fault::error(Code::FILE_LIMIT, message).hint("split it into several files")
}

fn not_utf8(name: &str, bytes: &[u8], error: std::str::Utf8Error) -> Fault {
    let at = error.valid_up_to();
    let shown = Source::new(name, String::from_utf8_lossy(bytes));
    let span = Span::new(&shown, at, at + char::REPLACEMENT_CHARACTER.len_utf8());
    let (line, column) = span.line_column();
    let byte = bytes.get(at).copied().unwrap_or_default();
    let hint = match bytes {
        [0xff, 0xfe, ..] | [0xfe, 0xff, ..] => "the file is UTF-16: save it as UTF-8",
        _ => "save the file with the encoding UTF-8, then look at the letters of that line",
    };
    let message = format!("line {line}, column {column} is not UTF-8 (byte 0x{byte:02X})");
    Fault::error(Code::FILE_NOT_TEXT, message)
        .at(span)
        .label("not a letter in UTF-8")
        .hint(hint)
}
