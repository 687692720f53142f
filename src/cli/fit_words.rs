//! The answer of `faceside fit` in words and as JSON.

use serde_json::{Value as Json, json as object};

use super::fit_plan::Planned;
use crate::joints::{Aim, Feel, Means, Move, Next, WoodOn};
use crate::shoplog::{Learned, Mark, PrintedCheck, PrintedSheet};
use crate::units::{Length, Scale, Towards, Unit};

/// All that is said of one value.
pub(super) struct Said<'k> {
    pub(super) sheet: &'k PrintedSheet,
    /// The plan that it is from; none for the last print.
    pub(super) plan: Option<&'k Planned>,
    pub(super) check: &'k PrintedCheck,
    pub(super) machine: String,
    pub(super) setting: String,
    pub(super) aim: Aim,
    pub(super) means: Means,
    pub(super) value: Option<Length>,
    pub(super) feel: Option<Feel>,
    pub(super) planned: Option<Length>,
    pub(super) set: Option<Length>,
    pub(super) next: Option<Next>,
    pub(super) unexplained: Option<Length>,
    pub(super) learned: Option<Learned>,
    /// The first setting, as a change of the planned one.
    pub(super) first: Length,
    pub(super) confidence: f64,
}

fn show(length: Length, unit: Unit) -> String {
    Scale::caliper(unit).show(length, Towards::Nearest).text
}

fn head(said: &Said<'_>, unit: Unit) -> String {
    let sheet = said.sheet;
    let from = match said.plan {
        Some(plan) => planned(sheet, plan),
        None => String::new(),
    };
    let place = match said.plan {
        Some(_) => sheet.procedure.clone(),
        None => format!("Checklist {}", sheet.number),
    };
    format!(
        "{place}, {}: {}\n{from}Wanted {}, good from {} to {}.\n",
        sheet.set_up,
        said.check.what,
        show(said.aim.wanted, unit),
        show(said.aim.low, unit),
        show(said.aim.high, unit)
    )
}

/// What a plan of now is from.
fn planned(sheet: &PrintedSheet, plan: &Planned) -> String {
    let stock = sheet.stock.iter();
    let stock = stock.map(|(name, shown)| format!("{} {shown}", name.replace('_', " ")));
    let on: Vec<&str> = (sheet.machine.iter().chain(&sheet.cutter))
        .map(String::as_str)
        .collect();
    let mut text = format!(
        "Planned now for {}, with {}; no checklist: its steps and cautions are on what `faceside \
         print` gives.\n",
        stock.collect::<Vec<_>>().join(", "),
        on.join(", ")
    );
    for warning in &plan.warnings {
        text += &format!("Mind: {warning}\n");
    }
    text
}

/// The next move.
pub(super) fn words(said: &Said<'_>, unit: Unit) -> String {
    let mut text = head(said, unit);
    if let Some(value) = said.value {
        let tool = &said.check.tool;
        let error = show(said.means.tool, unit);
        text += &format!("Read {} ({tool}, to {error}).\n", show(value, unit));
    }
    if let Some(feel) = said.feel {
        text += &format!("It {}.\n", feel_words(feel));
    }
    if let Some(over) = said.unexplained {
        text += &format!(
            "CHECK FIRST: {} of this is more than machine, tool and cutter explain. Isolate, then \
             measure the cutter and read the setting again before anything is moved; a changed \
             cutter is told by `faceside record cutter`.\n",
            show(over, unit)
        );
    }
    let Some(next) = said.next else { return text };
    text += &match next {
        Next::Stop => "Stop: it is good. Lock the setting and cut the work.".to_owned(),
        Next::Move(one) => moved(said, &one, unit, false),
        Next::Shim(one) => moved(said, &one, unit, true),
        Next::ByHand(wood) => by_hand(said, wood, unit),
        Next::Over(by) => over(said, by, unit),
        Next::MateTight => {
            "This piece is good and the joint is tight: the mate is at fault. Leave \
                            the setting; measure the mate, and plane or pare that."
                .to_owned()
        }
        Next::MateLoose => {
            "This piece is good and the joint is loose: the mate is at fault. Leave \
                            the setting; measure the mate, and take another."
                .to_owned()
        }
    };
    text
}

fn feel_words(feel: Feel) -> &'static str {
    match feel {
        Feel::HandPress => "goes home by a hand press",
        other => other.words(),
    }
}

fn moved(said: &Said<'_>, one: &Move, unit: Unit, by_shim: bool) -> String {
    let way = if one.by > Length::ZERO {
        "larger"
    } else {
        "smaller"
    };
    let size = show(one.by.abs(), unit);
    let from = match said.set {
        Some(set) => format!(", from {} to {}", show(set, unit), show(set + one.by, unit)),
        None => String::new(),
    };
    let with = if by_shim {
        let step = show(said.means.step, unit);
        format!("\nA step of the scale ({step}) is too much: use a shim of {size} at the stop.")
    } else {
        format!(", in steps of {}", show(said.means.step, unit))
    };
    let walls = said.aim.each.abs().round().max(1.0);
    let walls = if walls > 1.0 {
        " on both walls, the piece turned"
    } else {
        ""
    };
    let piece = match said.aim.wood {
        Some(_) => "the same test piece",
        None => "a fresh test piece",
    };
    let passes = match one.passes {
        1 => "one pass".to_owned(),
        more => format!("{more} passes"),
    };
    let left = left(said, one, unit);
    format!(
        "Isolate the machine. Make the {} {way} by {size}{from}{with}\nCut {piece} again: \
         {passes}{walls}. The value changes by {}.\n{left}",
        said.setting,
        show(one.value, unit)
    )
}

fn left(said: &Said<'_>, one: &Move, unit: Unit) -> String {
    let (least, most) = one.left;
    let then = if one.sure {
        "It is then good, whatever the errors; read it to be sure."
    } else {
        "Then read it again."
    };
    let what = match said.aim.wood {
        Some(_) => "Wood left over the wanted value",
        None => "Left from the wanted place",
    };
    match most {
        Some(most) => format!(
            "{what}: {} to {}. {then}",
            show(least, unit),
            show(most, unit)
        ),
        None => format!("{what}: {} or more. {then}", show(least, unit)),
    }
}

fn by_hand(said: &Said<'_>, wood: Length, unit: Unit) -> String {
    let amount = show(wood, unit);
    if said.aim.wood.is_none() {
        return format!("Leave the setting: the scale cannot be set finer than the {amount} left.");
    }
    format!(
        "Leave the setting: {amount} is left, and any move could take off too much (two settings \
         of {} differ by up to {}, the {} reads to {}). Take it off by hand, a shaving at a time.",
        said.machine,
        show(said.means.repeatability, unit),
        said.check.tool,
        show(said.means.tool, unit)
    )
}

fn over(said: &Said<'_>, by: Length, unit: Unit) -> String {
    let how_much = match by {
        Length::ZERO => "Too much is off".to_owned(),
        by => format!("It is {} past the limit", show(by, unit)),
    };
    let mate = match said.aim.wood {
        Some(WoodOn::Low) => "take a thicker mate, or",
        _ => "cut",
    };
    format!(
        "{how_much}, and wood does not come back: {mate} a new piece. Before it, isolate and set \
         back to leave wood on; begin again from a reading."
    )
}

/// The first setting, the plain figure beside what was learned.
pub(super) fn first_words(said: &Said<'_>, unit: Unit) -> String {
    let mut text = head(said, unit);
    let Some(planned) = said.planned else {
        return text + "This setting is no length; set it as the sheet says.";
    };
    text += &format!("Plain figure: {} {}.\n", said.setting, show(planned, unit));
    let change = said.first;
    let at = format!(
        "{} {} ({} than the plain figure by {})",
        said.setting,
        show(planned + change, unit),
        if change < Length::ZERO {
            "smaller"
        } else {
            "larger"
        },
        show(change.abs(), unit)
    );
    let Some(one) = said.learned else {
        return text + &unlearned(said, &at, unit);
    };
    let percent = said.confidence * 100.0;
    text + &format!(
        "From {} test cuts of {} with this cutter (they count as {:.1}): it cuts {} more than is \
         set, give or take {} (one standard deviation).\nWith {percent:.0} % confidence the first \
         cut is not past the limit at {at}.",
        one.count,
        said.machine,
        one.effective,
        show(one.offset, unit),
        show(one.spread, unit),
    )
}

/// What is said of a first setting that nothing is known for.
fn unlearned(said: &Said<'_>, at: &str, unit: Unit) -> String {
    let known = "The record has under three test cuts of this machine and cutter that count.";
    let off = show(said.aim.explained(&said.means), unit);
    let set = match said.aim.wood {
        None => "set the plain figure".to_owned(),
        Some(_) if said.first == Length::ZERO => {
            "that passes no limit from the plain figure: set it".to_owned()
        }
        Some(_) => format!("none of that takes the first cut past the limit at {at}"),
    };
    format!(
        "{known} Machine, tool and cutter explain that it comes out up to {off} off; {set}. Then \
         give the reading of the test cut."
    )
}

/// The same as JSON, version 1, with the mark of the line that it was written down as.
pub(super) fn json(said: &Said<'_>, recorded: Option<&Mark>) -> Json {
    let mm = |length: Option<Length>| length.map(|length| length.to_mm());
    let (next, by, value, left) = match said.next {
        None => ("first", Some(said.first), None, None),
        Some(Next::Stop) => ("stop", None, None, None),
        Some(Next::Move(one)) => ("move", Some(one.by), Some(one.value), Some(one.left)),
        Some(Next::Shim(one)) => ("shim", Some(one.by), Some(one.value), Some(one.left)),
        Some(Next::ByHand(wood)) => ("by-hand", None, None, Some((wood, Some(wood)))),
        Some(Next::Over(_)) => ("over", None, None, None),
        Some(Next::MateTight) => ("mate-tight", None, None, None),
        Some(Next::MateLoose) => ("mate-loose", None, None, None),
    };
    object!({
        "version": 1, "sheet": said.plan.is_none().then_some(said.sheet.number),
        "procedure": said.sheet.procedure, "set_up": said.sheet.set_up, "what": said.check.what,
        "stock": said.sheet.stock, "warnings": said.plan.map(|plan| &plan.warnings),
        "machine": said.machine, "setting": said.setting,
        "wanted_mm": said.aim.wanted.to_mm(), "low_mm": said.aim.low.to_mm(),
        "high_mm": said.aim.high.to_mm(), "value_mm": mm(said.value),
        "planned_mm": mm(said.planned), "set_mm": mm(said.set),
        "next": next, "by_mm": mm(by), "value_change_mm": mm(value),
        "left_least_mm": left.map(|(least, _)| least.to_mm()),
        "left_most_mm": left.and_then(|(_, most)| mm(most)),
        "unexplained_mm": mm(said.unexplained),
        "learned": said.learned.map(|one| object!({
            "offset_mm": one.offset.to_mm(), "spread_mm": one.spread.to_mm(),
            "count": one.count, "effective": one.effective, "confidence": said.confidence,
        })),
        "recorded": recorded,
    })
}
