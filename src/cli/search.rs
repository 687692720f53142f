//! `faceside search WORDS`: what does the shop know of this?
//!
//! Exit code 1 when nothing was found.

use serde_json::json;

use super::args::{Common, Search};
use super::open::{events, open};
use super::output::Output;
use super::{End, Stop};
use crate::search::{EntryKind, Hit, Index, Speech};
use crate::shoplog::History;
use crate::store::entries;

/// Answers a search, best first, with the words in context and the next command.
pub(super) fn search(typed: &Search, common: &Common, out: &mut Output) -> Result<End, Stop> {
    let workshop = open(common, out)?;
    let words = typed.words.join(" ");
    let index = Index::build(&entries(&workshop), &workshop.terms)?;
    let hits = index.find(&words, typed.most as usize)?;
    let events = events(&workshop, out);
    let record = History::new(&events);
    let history = |hit: &Hit| match hit.kind {
        EntryKind::Procedure => record.last_cut(&hit.id, None),
        _ => Vec::new(),
    };
    if common.json {
        let hits: Vec<_> = hits.iter().map(|hit| as_json(hit, &history(hit))).collect();
        out.json(&json!({"version": 1, "words": words, "hits": hits}));
    } else {
        let speech = workshop.speech();
        for (number, hit) in hits.iter().enumerate() {
            out.say(&as_text(number + 1, hit, &speech, &history(hit)));
        }
    }
    if !hits.is_empty() {
        return Ok(End::Done);
    }
    if !common.json {
        out.say(&format!("Nothing is known of \"{words}\"."));
        let near = index.near(&words)?;
        if !near.is_empty() {
            out.say(&format!("Near it: {}", near.join(", ")));
        }
    }
    Ok(End::Findings)
}

fn as_text(number: usize, hit: &Hit, speech: &Speech, history: &[String]) -> String {
    let context: String = hit
        .context
        .iter()
        .map(|piece| {
            let text = speech.say(&piece.text);
            if piece.matched {
                format!("[{text}]")
            } else {
                text.into_owned()
            }
        })
        .collect();
    let options = textwrap::Options::new(Output::width())
        .initial_indent("    ")
        .subsequent_indent("    ");
    let context = textwrap::fill(&context, &options);
    let history: String = (history.iter())
        .map(|line| {
            format!(
                "\n{}",
                textwrap::fill(&format!("last cut here: {line}"), &options)
            )
        })
        .collect();
    format!(
        "{number:2}. {}  ({}: {})\n{context}{history}\n    next: {}\n\n",
        speech.say(&hit.title),
        hit.kind.word(),
        hit.id,
        hit.next
    )
}

fn as_json(hit: &Hit, history: &[String]) -> serde_json::Value {
    let context: Vec<_> = hit
        .context
        .iter()
        .map(|piece| json!({"text": piece.text, "matched": piece.matched}))
        .collect();
    json!({
        "kind": hit.kind.word(),
        "id": hit.id,
        "title": hit.title,
        "context": context,
        "next": hit.next,
        "last_cut": history,
    })
}
