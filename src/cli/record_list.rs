//! What was written down: listed, as CSV, counted.

use serde_json::json;

use super::output::Output;
use super::{End, Stop};
use crate::diag::{Code, Fault, nearest};
use crate::shoplog::{Day, Standing, csv, lines_of, standing, summary as tallies};
use crate::store::Workshop;

/// Names that pick entries.
const PICKS: [&str; 6] = ["procedure", "machine", "cutter", "kind", "since", "last"];

/// The entries that hold and are picked.
fn picked(workshop: &Workshop, picks: &[(&str, &str)]) -> Result<Vec<Standing>, Stop> {
    let mut events = standing(&workshop.record).0;
    let mut last = None;
    for (name, text) in picks {
        match *name {
            "procedure" => events.retain(|one| one.event.procedure() == Some(text)),
            "machine" => events.retain(|one| one.event.machine_and_cutter().0 == Some(text)),
            "cutter" => events.retain(|one| one.event.machine_and_cutter().1 == Some(text)),
            "kind" => events.retain(|one| one.event.kind() == *text),
            "since" => {
                Day::new(text).map_err(Stop::Usage)?;
                events.retain(|one| one.day() >= *text);
            }
            "last" => {
                let count: usize = text.parse().map_err(|_| {
                    let message = format!("last: `{text}` is not a whole number");
                    Stop::Usage(Fault::error(Code::QUANTITY_SYNTAX, message))
                })?;
                last = Some(count);
            }
            other => {
                let hint = match nearest(other, PICKS) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => format!("entries are picked by: {}", PICKS.join(", ")),
                };
                let message = format!("entries are not picked by `{other}`");
                let fault = Fault::error(Code::UNKNOWN_NAME, message);
                return Err(Stop::Usage(fault.hint(hint)));
            }
        }
    }
    if let Some(last) = last {
        events.drain(..events.len().saturating_sub(last));
    }
    Ok(events)
}

/// One line an entry.
pub(super) fn list(
    workshop: &Workshop,
    picks: &[(&str, &str)],
    as_json: bool,
    out: &mut Output,
) -> Result<End, Stop> {
    let events = picked(workshop, picks)?;
    if as_json {
        let events: Vec<_> = events
            .iter()
            .map(|one| {
                json!({
                    "mark": one.mark, "at": one.at, "corrected_by": one.corrected,
                    "event": one.event,
                })
            })
            .collect();
        out.say(&format!("{:#}", json!({"version": 1, "events": events})));
        return Ok(End::Done);
    }
    for one in &events {
        out.say(&lines_of(one, workshop.shop.units));
    }
    if events.is_empty() {
        out.say("Nothing like that is in the record.");
    }
    Ok(End::Done)
}

/// CSV with a head line.
pub(super) fn export(
    workshop: &Workshop,
    picks: &[(&str, &str)],
    out: &mut Output,
) -> Result<End, Stop> {
    out.say(&csv(&picked(workshop, picks)?));
    Ok(End::Done)
}

/// Counts by procedure, machine and cutter.
pub(super) fn summary(
    workshop: &Workshop,
    picks: &[(&str, &str)],
    as_json: bool,
    out: &mut Output,
) -> Result<End, Stop> {
    let all = tallies(&picked(workshop, picks)?);
    if as_json {
        let all: Vec<_> = all
            .iter()
            .map(|one| {
                json!({
                    "procedure": one.procedure, "machine": one.machine, "cutter": one.cutter,
                    "runs": one.runs, "pieces": one.pieces, "test_cuts": one.test_cuts,
                    "told_cuts": one.told_cuts, "good": one.good, "low": one.low,
                    "high": one.high, "last": one.last,
                })
            })
            .collect();
        out.say(&format!("{:#}", json!({"version": 1, "summary": all})));
        return Ok(End::Done);
    }
    for one in &all {
        let on: Vec<_> = [&one.machine, &one.cutter]
            .into_iter()
            .filter(|id| !id.is_empty())
            .cloned()
            .collect();
        let on = if on.is_empty() {
            "bench".to_owned()
        } else {
            on.join(", ")
        };
        out.say(&format!(
            "{}; {on}: {} runs, {} pieces, {} test cuts; written down one by one: {} test cuts; \
             readings {} good, {} low, {} high; last {}",
            one.procedure,
            one.runs,
            one.pieces,
            one.test_cuts,
            one.told_cuts,
            one.good,
            one.low,
            one.high,
            one.last
        ));
    }
    if all.is_empty() {
        out.say("No run, test cut or reading is in the record.");
    }
    Ok(End::Done)
}
