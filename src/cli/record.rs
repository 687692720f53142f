//! `faceside record`: something is written down, asked one by one or given in one line; and what
//! was written down is listed, counted, exported, corrected.
//!
//! A line on standard output that begins with `Recorded` is said after the event is on the disk,
//! never before.

use std::collections::BTreeMap;

use serde_json::json;

use super::args::{Common, Record, RecordWord};
use super::clock::now;
use super::input::line;
use super::open::open;
use super::output::Output;
use super::record_list::{export, list, summary};
use super::{End, Stop};
use crate::diag::{Code, Fault};
use crate::shoplog::{Correction, EntryKind, Event, Form, Known, Mark, Person, say, standing};
use crate::store::{Workshop, last_print, write_down};

/// Writes down, or shows.
pub(super) fn record(typed: &Record, common: &Common, out: &mut Output) -> Result<End, Stop> {
    let workshop = open(common, out)?;
    let known = known(&workshop, out);
    let desk = Desk {
        workshop: &workshop,
        known: &known,
        json: common.json,
    };
    if typed.lines {
        return desk.lines(out);
    }
    let values = pairs(&typed.values)?;
    let Some(what) = typed.what else {
        out.say(&kinds());
        return Ok(End::Done);
    };
    match what {
        RecordWord::List => list(&workshop, &values, common.json, out),
        RecordWord::Export => export(&workshop, &values, out),
        RecordWord::Summary => summary(&workshop, &values, common.json, out),
        RecordWord::Strike => desk.strike(&values, out),
        RecordWord::Run => desk.entry(EntryKind::Run, typed, &values, out),
        RecordWord::TestCut => desk.entry(EntryKind::TestCut, typed, &values, out),
        RecordWord::Reading => desk.entry(EntryKind::Reading, typed, &values, out),
        RecordWord::Cutter => desk.entry(EntryKind::Cutter, typed, &values, out),
        RecordWord::NearMiss => desk.entry(EntryKind::NearMiss, typed, &values, out),
        RecordWord::Note => desk.entry(EntryKind::Note, typed, &values, out),
        RecordWord::SheetFault => desk.entry(EntryKind::SheetFault, typed, &values, out),
    }
}

/// Names and the last print; lines that were set aside are told.
pub(super) fn known(workshop: &Workshop, out: &Output) -> Known {
    out.report(standing(&workshop.record).1.iter());
    let printed = last_print(&workshop.home()).unwrap_or_else(|fault| {
        out.report([&fault]);
        None
    });
    let procedures = workshop.procedures.values();
    Known {
        procedures: procedures
            .map(|one| (one.id.clone(), one.revision))
            .collect(),
        machines: workshop.machines.iter().map(|one| one.id.clone()).collect(),
        cutters: workshop.cutters.iter().map(|one| one.id.clone()).collect(),
        printed,
        unit: Some(workshop.shop.units),
    }
}

/// `name=value` in order.
pub(super) fn pairs(typed: &[String]) -> Result<Vec<(&str, &str)>, Stop> {
    let pairs = typed.iter().map(|argument| {
        let pair = argument
            .split_once('=')
            .map(|(name, text)| (name.trim(), text));
        pair.ok_or_else(|| {
            let message = format!("`{argument}` is not a name and a value");
            let fault = Fault::error(Code::QUANTITY_SYNTAX, message);
            Stop::Usage(fault.hint("write it like `by=BK` or `text=\"the fence creeps\"`"))
        })
    });
    pairs.collect()
}

/// What can be written down, and what is asked for it.
fn kinds() -> String {
    let kinds = EntryKind::ALL.map(|kind| {
        let fields = kind.fields().iter().map(|field| {
            let may = if field.needed {
                ""
            } else {
                " (may be left out)"
            };
            format!("    {:<10} {}{may}", field.name, field.ask)
        });
        let fields: Vec<_> = fields.collect();
        format!("{}\n{}", kind.name(), fields.join("\n"))
    });
    format!(
        "What can be written down, and what is asked for it. With a checklist of the last print\n\
         (sheet=N) all that stands on it is known.\n\n{}",
        kinds.join("\n\n")
    )
}

/// Where entries are made.
pub(super) struct Desk<'w> {
    pub(super) workshop: &'w Workshop,
    pub(super) known: &'w Known,
    pub(super) json: bool,
}

impl Desk<'_> {
    fn entry(
        &self,
        kind: EntryKind,
        typed: &Record,
        values: &[(&str, &str)],
        out: &mut Output,
    ) -> Result<End, Stop> {
        let corrected = typed.corrects.as_deref().zip(typed.why.as_deref());
        let corrected = corrected
            .map(|(mark, why)| Ok((self.there(mark)?, why)))
            .transpose()
            .map_err(Stop::Usage)?;
        let mut form = Form::new(kind, self.known);
        form.take_all(values.iter().copied()).map_err(Stop::Usage)?;
        ask(&mut form, out)?;
        let event = form.event().map_err(Stop::Usage)?;
        let event = match corrected {
            None => event,
            Some((of, why)) => {
                let by = event.by().cloned();
                let by = by.ok_or_else(|| Stop::Usage(nobody()))?;
                Event::Correction(Correction {
                    by,
                    of,
                    why: why.to_owned(),
                    instead: Some(Box::new(event)),
                })
            }
        };
        self.write(&event, out)?;
        Ok(End::Done)
    }

    /// A line that was wrong, with nothing in its place.
    fn strike(&self, values: &[(&str, &str)], out: &mut Output) -> Result<End, Stop> {
        let mut given: BTreeMap<&str, &str> = values.iter().copied().collect();
        let mut take = |name: &str| {
            let text = given.remove(name).filter(|text| !text.trim().is_empty());
            text.ok_or_else(|| {
                let message = format!("`{name}` is not given");
                let fault = Fault::error(Code::VALUE_MISSING, message);
                Stop::Usage(fault.hint(
                    "write it like `faceside record strike mark=2026-7 by=BK why=\"typed twice\"`",
                ))
            })
        };
        let (mark, by, why) = (take("mark")?, take("by")?, take("why")?);
        if let Some(name) = given.keys().next() {
            let message = format!("`strike` takes no `{name}`");
            let fault = Fault::error(Code::UNKNOWN_NAME, message);
            return Err(Stop::Usage(fault.hint("it takes: mark, by, why")));
        }
        let event = Event::Correction(Correction {
            by: Person::new(by).map_err(Stop::Usage)?,
            of: self.there(mark).map_err(Stop::Usage)?,
            why: why.to_owned(),
            instead: None,
        });
        self.write(&event, out)?;
        Ok(End::Done)
    }

    /// The mark of a line that is there, once.
    fn there(&self, mark: &str) -> Result<Mark, Fault> {
        let mark = Mark::read(mark)?;
        let marks = self.workshop.record.iter().flat_map(|file| {
            let entries = crate::shoplog::read(file).0.into_iter();
            entries.map(|entry| Mark::new(&file.name, entry.line.number()))
        });
        let count = marks.filter(|one| *one == mark).count();
        let message = match count {
            1 => return Ok(mark),
            0 => format!("the record has no line `{mark}`"),
            _ => format!("{count} lines of the record have the mark `{mark}`"),
        };
        let fault = Fault::error(Code::RECORD_MARK, message);
        Err(fault.hint("`faceside record list` shows the marks"))
    }

    /// Puts the event on the disk, and says so.
    pub(super) fn write(&self, event: &Event, out: &mut Output) -> Result<(), Stop> {
        let mark = write_down(&self.workshop.home(), &now(), event)?;
        if self.json {
            out.say(&json!({"version": 1, "recorded": mark}).to_string());
        } else {
            let said = say(event, self.workshop.shop.units);
            out.say(&format!("Recorded {mark}: {said}"));
        }
        Ok(())
    }

    /// One entry a line of standard input, as a JSON object of texts: `record` and its fields.
    fn lines(&self, out: &mut Output) -> Result<End, Stop> {
        let mut end = End::Done;
        let mut number = 0;
        while let Some(text) = line() {
            number += 1;
            if text.trim().is_empty() {
                continue;
            }
            match self.line(&text) {
                Ok(event) => self.write(&event, out)?,
                Err(fault) => {
                    let message = format!("line {number}: {}", fault.message);
                    out.report([&Fault { message, ..fault }]);
                    end = End::Findings;
                }
            }
        }
        Ok(end)
    }

    fn line(&self, text: &str) -> Result<Event, Fault> {
        let mut fields: BTreeMap<String, String> = serde_json::from_str(text).map_err(|error| {
            let message = format!("this is no JSON object of texts: {error}");
            Fault::error(Code::QUANTITY_SYNTAX, message)
                .hint(r#"write it like `{"record": "note", "by": "BK", "text": "..."}`"#)
        })?;
        let name = fields.remove("record").unwrap_or_default();
        let kind = EntryKind::ALL.into_iter().find(|kind| kind.name() == name);
        let Some(kind) = kind else {
            let names = EntryKind::ALL.map(EntryKind::name);
            let message = format!("nothing called `{name}` is written down");
            let fault = Fault::error(Code::UNKNOWN_NAME, message);
            return Err(fault.hint(format!("`record` is one of: {}", names.join(", "))));
        };
        let mut form = Form::new(kind, self.known);
        form.take_all(
            fields
                .iter()
                .map(|(name, text)| (name.as_str(), text.as_str())),
        )?;
        form.event()
    }
}

/// Asks what is open, unless all that is needed was given.
fn ask(form: &mut Form<'_>, out: &mut Output) -> Result<(), Stop> {
    if form.lacks().is_none() {
        return Ok(());
    }
    while let Some(field) = form.next() {
        out.ask(&form.question(field));
        let Some(text) = line() else {
            // The end of the input: what is needed must be there, nothing else is.
            out.say("");
            return match form.lacks() {
                Some(field) => Err(Stop::Usage(form.missing(field))),
                None => Ok(()),
            };
        };
        if let Err(fault) = form.take(field.name, &text) {
            out.report([&fault]);
        }
    }
    Ok(())
}

fn nobody() -> Fault {
    Fault::error(Code::VALUE_MISSING, "a correction says who corrects").hint("add `by=BK`")
}
