//! Answers judged one by one: names that are known, lengths in the shop's unit, words.

use super::field::{Field, Wants};
use super::{CutterState, Known, Person, PrintedSheet};
use crate::diag::{Code, Fault, nearest};
use crate::joints::Feel;
use crate::units::{Kind, Length, Scale, Towards, Unit, Value, parse};

/// Longest text that a line keeps, in bytes.
const LONGEST: usize = 2000;

/// An answer that was judged.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Answer {
    Person(Person),
    Words(String),
    Length(Length),
    Count(u32),
    Settings(Vec<(String, Length, String)>),
    Feel(Feel),
    State(CutterState),
}

/// Judges the answer to a field.
pub(super) fn judge(
    field: &Field,
    text: &str,
    known: &Known,
    sheet: Option<&PrintedSheet>,
) -> Result<Answer, Fault> {
    let text = text.trim();
    if text.len() > LONGEST {
        let message = format!("`{}` is longer than {LONGEST} bytes", field.name);
        return Err(Fault::error(Code::FILE_LIMIT, message).hint("put it into a note's file"));
    }
    let unit = known.unit.unwrap_or(Unit::Mm);
    let named = |what, ids: Vec<&str>| name(what, text, &ids).map(Answer::Words);
    match field.wants {
        Wants::Person => Person::new(text).map(Answer::Person),
        Wants::Procedure => named(
            "procedure",
            known.procedures.keys().map(String::as_str).collect(),
        ),
        Wants::Machine => named(
            "machine",
            known.machines.iter().map(String::as_str).collect(),
        ),
        Wants::Cutter => named("cutter", known.cutters.iter().map(String::as_str).collect()),
        Wants::Words => Ok(Answer::Words(text.to_owned())),
        Wants::Length => length(field.name, text, unit).map(Answer::Length),
        Wants::Count => count(field.name, text).map(Answer::Count),
        Wants::Sheet => self::sheet(text, known).map(Answer::Count),
        Wants::Check => check(text, sheet).map(Answer::Count),
        Wants::Settings => settings(text, unit, sheet).map(Answer::Settings),
        Wants::Feel => {
            let words = Feel::ALL.map(Feel::words);
            Feel::named(text)
                .map(Answer::Feel)
                .ok_or_else(|| unknown("word for a fit", text, &words))
        }
        Wants::State => {
            let words = CutterState::ALL.map(CutterState::word);
            let state = CutterState::ALL
                .into_iter()
                .find(|state| state.word() == text);
            state
                .map(Answer::State)
                .ok_or_else(|| unknown("state of a cutter", text, &words))
        }
    }
}

fn name(what: &str, text: &str, ids: &[&str]) -> Result<String, Fault> {
    if ids.contains(&text) {
        return Ok(text.to_owned());
    }
    Err(unknown(what, text, ids))
}

/// The fault of a name that is not known, with the nearest or all that are.
fn unknown(what: &str, text: &str, ids: &[&str]) -> Fault {
    let hint = match nearest(text, ids.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("there is: {}", ids.join(", ")),
    };
    Fault::error(Code::UNKNOWN_NAME, format!("no {what} is called `{text}`")).hint(hint)
}

fn length(name: &str, text: &str, unit: Unit) -> Result<Length, Fault> {
    match parse(text, Kind::Length, unit) {
        Ok(Value::Length(length)) => Ok(length),
        Ok(_) => Err(Fault::error(
            Code::QUANTITY_SYNTAX,
            format!("`{name}` is a length"),
        )),
        Err(fault) => {
            let message = format!("{name}: {}", fault.message);
            Err(Fault { message, ..fault })
        }
    }
}

fn count(name: &str, text: &str) -> Result<u32, Fault> {
    let read: Option<u32> = text.parse().ok();
    read.filter(|count| *count <= 10_000).ok_or_else(|| {
        let message = format!("{name}: `{text}` is not a whole number up to 10000");
        Fault::error(Code::QUANTITY_SYNTAX, message).hint("write a number such as `4`")
    })
}

fn sheet(text: &str, known: &Known) -> Result<u32, Fault> {
    let Some(printed) = &known.printed else {
        let message = "there is no print to take a checklist from";
        return Err(
            Fault::error(Code::VALUE_MISSING, message).hint("print the job, or name the procedure")
        );
    };
    let number = count("sheet", text)?;
    if printed.sheet(number as usize).is_some() {
        return Ok(number);
    }
    let message = format!(
        "the last print, `{}` of {}, has no checklist {number}",
        printed.job, printed.date
    );
    Err(Fault::error(Code::UNKNOWN_NAME, message).hint(format!(
        "its checklists are 1 to {}",
        printed.checklists.len()
    )))
}

/// The place of a value among those of the checklist, from 1: by its number, or by its words.
fn check(text: &str, sheet: Option<&PrintedSheet>) -> Result<u32, Fault> {
    let Some(sheet) = sheet else {
        let message = "there is no checklist to take a value from";
        return Err(Fault::error(Code::VALUE_MISSING, message).hint("give `sheet` first"));
    };
    let number: Option<u32> = text.parse().ok();
    let by_words = || {
        let place = sheet.checks.iter().position(|check| check.what == text)?;
        u32::try_from(place + 1).ok()
    };
    let known = 1..=u32::try_from(sheet.checks.len()).unwrap_or(0);
    let found = number
        .filter(|number| known.contains(number))
        .or_else(by_words);
    found.ok_or_else(|| {
        let words: Vec<_> = sheet
            .checks
            .iter()
            .map(|check| check.what.as_str())
            .collect();
        let message = format!("checklist {} has no value `{text}`", sheet.number);
        let fault = Fault::error(Code::UNKNOWN_NAME, message);
        fault.hint(match nearest(text, words.iter().copied()) {
            Some(near) => format!("did you mean `{near}`?"),
            None if words.is_empty() => "nothing is measured on it".to_owned(),
            None => format!("give its number, 1 to {}", words.len()),
        })
    })
}

/// `fence 60.2 mm; height 6 mm`: a name, a blank or `=`, a length.
fn settings(
    text: &str,
    unit: Unit,
    sheet: Option<&PrintedSheet>,
) -> Result<Vec<(String, Length, String)>, Fault> {
    let mut all: Vec<(String, Length, String)> = Vec::new();
    for part in text
        .split(';')
        .map(str::trim)
        .filter(|part| !part.is_empty())
    {
        let Some((name, figure)) = part.split_once([' ', '=']) else {
            let message = format!("`{part}` is not a setting and a figure");
            return Err(Fault::error(Code::QUANTITY_SYNTAX, message)
                .hint("write it like `fence 60.2 mm; height 6 mm`"));
        };
        let known: Vec<&str> = sheet.map_or_else(Vec::new, |sheet| {
            let lengths = sheet.settings.iter().filter(|one| one.set.is_some());
            lengths.map(|one| one.name.as_str()).collect()
        });
        if !known.is_empty() && !known.contains(&name) {
            return Err(unknown("setting of this checklist", name, &known));
        }
        if all.iter().any(|(other, _, _)| other == name) {
            return Err(Fault::error(
                Code::DUPLICATE_KEY,
                format!("`{name}` is set twice"),
            ));
        }
        let length = length(name, figure.trim(), unit)?;
        let shown = Scale::caliper(unit).show(length, Towards::Nearest).text;
        all.push((name.to_owned(), length, shown));
    }
    Ok(all)
}
