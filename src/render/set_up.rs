//! One filled set-up as blocks: settings, standing cautions, numbered steps.
//!
//! Used by the printed checklist and by the procedure pages, so that both say the same. Every
//! caution of the set-up and of each step is passed on; a step's go inside its step.

use std::collections::BTreeSet;

use super::block::{
    Block, Line, Panel, Reading, Row, Set, Span, Step, Text, flat, panels, step_panels, text, words,
};
use crate::caution::{Caution, SignalWord};
use crate::joints;
use crate::procedure::{
    Does, FilledCheck, FilledSetUp, FilledStep, FilledValue, Mark, Provenance, Run, RunCutter,
    RunTable, Trouble, plain,
};

/// The cautions for the whole set-up; nothing when there are none.
pub(super) fn standing(set_up: &FilledSetUp) -> Option<Block> {
    let cautions: Vec<Panel> = panels(&set_up.standing);
    (!cautions.is_empty()).then_some(Block::Standing { cautions })
}

/// Where they stood `before` on the same paper: the dangers again in full, and that the others hold
/// on.
pub(super) fn standing_again(set_up: &FilledSetUp, before: &str) -> Option<Block> {
    let (dangers, others): (Vec<Caution>, Vec<Caution>) = (set_up.standing.iter().cloned())
        .partition(|caution| caution.signal() == SignalWord::Danger);
    let mut cautions = panels(&dangers);
    let gravest = others.iter().map(Caution::signal).min();
    cautions.extend(gravest.map(|signal| Panel {
        brief: true,
        ..Panel::of(
            signal,
            [
                "",
                "",
                &format!("The cautions {before} hold here too: read them again."),
            ],
        )
    }));
    (!cautions.is_empty()).then_some(Block::Standing { cautions })
}

/// Cutter and settings, in the order of setting; nothing at the bench.
pub(super) fn settings(set_up: &FilledSetUp) -> Option<Block> {
    let cutter = set_up.cutter.as_ref().map(cutter_row);
    let rows: Vec<Set> = cutter
        .into_iter()
        .chain(set_up.settings.iter().map(|setting| Set {
            label: setting.label.clone(),
            shown: setting.shown.clone(),
            remark: setting.rounding.clone(),
        }))
        .collect();
    (!rows.is_empty()).then_some(Block::Settings { rows })
}

fn cutter_row(cutter: &RunCutter) -> Set {
    let why = cutter.why.as_deref().unwrap_or_default();
    let remarks = [
        cutter.known_from.as_str(),
        cutter.speed_note.as_str(),
        why,
        cutter.id.as_str(),
    ];
    Set {
        label: format!("Cutter: {}", cutter.name),
        shown: cutter.diameter.clone(),
        remark: joined(&remarks, "; "),
    }
}

/// The steps, numbered from 1; `pieces` get a box each where a step asks for it.
pub(super) fn steps(set_up: &FilledSetUp, pieces: &[String], with_reasons: bool) -> Vec<Step> {
    let mut met = BTreeSet::new();
    let numbered = set_up.steps.iter().enumerate();
    numbered
        .map(|(at, filled)| {
            let mut step = step(at + 1, filled, &mut met);
            if filled.each_piece {
                step.pieces = pieces.to_vec();
            }
            if !with_reasons {
                step.why.clear();
            }
            step
        })
        .collect()
}

fn step(number: usize, filled: &FilledStep, met: &mut BTreeSet<String>) -> Step {
    let act = text(&filled.act);
    Step {
        number,
        cautions: step_panels(filled.cautions(), met),
        numbers: numbers(&act, filled.check.as_ref()),
        act,
        after: filled.after.iter().map(line).collect(),
        keys: filled.keys.iter().map(|key| text(key)).collect(),
        why: text(&filled.why),
        readings: filled
            .check
            .iter()
            .map(|check| reading(check, filled.does == Does::Cut))
            .collect(),
        pieces: Vec::new(),
        turn: false,
    }
}

fn line((mark, said): &(Mark, Vec<Run>)) -> Line {
    Line {
        word: mark.word().to_owned(),
        text: text(said),
        sign: *mark == Mark::Hold,
    }
}

/// What holds a piece that is too short for the hands; nothing for a longer one.
pub(super) fn holder(set_up: &FilledSetUp) -> Option<Block> {
    set_up.holder.as_ref().map(|holder| Block::Rule {
        name: "Short piece".to_owned(),
        text: format!("never in the bare hands; held in: {}", plain(holder)),
    })
}

/// The measures in a text, for the column of numbers; what a reading wants stands there already.
fn numbers(act: &[Span], check: Option<&FilledCheck>) -> Vec<String> {
    let values = act.iter().filter(|span| span.value);
    let shown = values.map(|span| &span.words);
    let measures = shown.filter(|shown| is_measure(shown));
    let wanted = check.map(|check| &check.wanted);
    measures
        .filter(|shown| Some(*shown) != wanted)
        .cloned()
        .collect()
}

/// A number and its unit; not the name of a cutter that holds one.
fn is_measure(shown: &str) -> bool {
    shown.rsplit_once(' ').is_some_and(|(number, unit)| {
        matches!(unit, "mm" | "in" | "°" | "deg" | "rpm" | "m/s" | "m/min")
            && number
                .chars()
                .all(|c| c.is_ascii_digit() || "./ -".contains(c))
    })
}

/// A reading; one that follows a cut is taken when the tool stands.
fn reading(check: &FilledCheck, after_cut: bool) -> Reading {
    let unit = check.wanted.rsplit(' ').next().unwrap_or_default();
    let mut measure = text(&check.measure);
    if after_cut {
        measure.extend(words(", when the tool stands still"));
    }
    Reading {
        measure,
        tool: check.tool.clone(),
        wanted: check.wanted.clone(),
        low: check.low_shown.clone(),
        high: check.high_shown.clone(),
        unit: unit.to_owned(),
        if_low: text(&check.if_low),
        if_high: text(&check.if_high),
    }
}

/// Settings for other readings, the planned one marked.
pub(super) fn other_readings(table: &RunTable) -> Block {
    let mut head = vec![table.measured.clone()];
    head.extend(table.heads.iter().cloned());
    let rows = table.rows.iter().map(|(reading, cells, planned)| {
        let first = if *planned {
            format!("{reading} (planned)")
        } else {
            reading.clone()
        };
        Row {
            cells: std::iter::once(first)
                .chain(cells.iter().cloned())
                .collect(),
            marked: *planned,
        }
    });
    Block::Table {
        rows: rows.collect(),
        numbers: vec![true; head.len()],
        head,
    }
}

/// Faults of the work with cause and cure; nothing when none are known.
pub(super) fn troubles(list: &[Trouble]) -> Option<Block> {
    let rows: Vec<(Text, Text, Text)> = list
        .iter()
        .map(|one| (text(&one.see), text(&one.cause), text(&one.cure)))
        .collect();
    (!rows.is_empty()).then_some(Block::Troubles { rows })
}

/// Named values with their origin; on paper with a blank for a second reading of what is measured.
pub(super) fn values(list: &[FilledValue], with_blanks: bool) -> Block {
    let head = ["what", "value", "where from", "measured again"];
    let columns = if with_blanks { 4 } else { 3 };
    let rows = list.iter().map(|value| {
        let again = match value.provenance {
            Provenance::Measured | Provenance::Planned => "________",
            _ => "",
        };
        let shown = joined(&[value.shown.as_str(), value.rounding.as_str()], ", ");
        let mut cells = vec![
            value.label.clone(),
            shown,
            origin(&value.provenance),
            again.to_owned(),
        ];
        cells.truncate(columns);
        Row {
            cells,
            marked: false,
        }
    });
    Block::Table {
        head: head[..columns]
            .iter()
            .map(|cell| (*cell).to_owned())
            .collect(),
        rows: rows.collect(),
        numbers: vec![false, true, false, true],
    }
}

fn origin(provenance: &Provenance) -> String {
    match provenance {
        Provenance::Measured => "from measured stock".to_owned(),
        Provenance::Chosen => "chosen for this job".to_owned(),
        Provenance::Usual => "usual value; none was chosen".to_owned(),
        Provenance::Planned => "planned; measure it when it is cut".to_owned(),
        Provenance::Shop => "from the shop's files".to_owned(),
        Provenance::WorkedOut(formula) => match formula.split_once('(') {
            Some((call, _)) if joints::find(call).is_some() => {
                format!("worked out: {}", call.replace('_', " "))
            }
            _ => format!("worked out: {}", in_words(formula)),
        },
    }
}

/// A formula with its names as words: `router_table.fence_step` is `router table fence step`. The
/// point of a number stays.
pub(super) fn in_words(formula: &str) -> String {
    let letters: Vec<char> = formula.chars().collect();
    let spaced = letters.iter().enumerate().map(|(at, one)| match one {
        '_' => ' ',
        '.' if letters.get(at + 1).is_some_and(|next| next.is_alphabetic()) => ' ',
        '*' => '×',
        other => *other,
    });
    spaced.collect()
}

/// The name of the first value that has nothing to show; such a sheet is refused.
pub(super) fn unfilled(set_up: &FilledSetUp) -> Option<String> {
    let setting = set_up.settings.iter().find(|one| blank(&one.shown));
    if let Some(setting) = setting {
        return Some(setting.name.clone());
    }
    set_up.steps.iter().find_map(|step| {
        let check = step.check.iter();
        let empty_check = check
            .clone()
            .any(|one| blank(&one.wanted) || blank(&one.low_shown) || blank(&one.high_shown));
        let in_check = check.flat_map(|one| [&one.measure, &one.if_low, &one.if_high]);
        let after = step.after.iter().map(|(_, text)| text);
        let texts = [&step.act, &step.why]
            .into_iter()
            .chain(&step.keys)
            .chain(after);
        let slot = texts.chain(in_check).flatten().find_map(|run| match run {
            Run::Value { name, shown } if blank(shown) => Some(name.clone()),
            _ => None,
        });
        slot.or_else(|| empty_check.then(|| format!("the check of `{}`", flat(&text(&step.act)))))
    })
}

fn blank(shown: &str) -> bool {
    shown.trim().is_empty()
}

/// The parts that say something, joined.
pub(super) fn joined(parts: &[&str], with: &str) -> String {
    let said: Vec<&str> = parts
        .iter()
        .copied()
        .filter(|part| !part.is_empty())
        .collect();
    said.join(with)
}
