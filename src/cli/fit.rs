//! `faceside fit`: after a test cut the next move, and before one the first setting.
//!
//! Wanted value, limits, planned settings and machine come from the last print, or from values of a
//! procedure that are typed (`fit_plan`), never from an example: a figure that moves a fence is
//! today's.

use super::args::{Common, Fit};
use super::clock::{now, today};
use super::fit_plan::{Answers, Planned, apart, planned, way};
use super::fit_words::{Said, first_words, json, words};
use super::open::open;
use super::output::Output;
use super::record::{Desk, known};
use super::{End, Stop};
use crate::diag::{Code, Fault, nearest};
use crate::joints::{Aim, Found, HandPress, Means, WoodOn};
use crate::procedure::Procedure;
use crate::shop::Machine;
use crate::shoplog::{
    Asked, EntryKind, Form, Known, Learned, Moves, PrintedCheck, PrintedSheet, Tried, learned,
    standing,
};
use crate::store::{Workshop, write_down};
use crate::units::{Length, Scale};

/// Confidence of a first setting when none is asked for.
const CONFIDENCE: f64 = 0.95;

/// Answers with the next move, or the first setting.
pub(super) fn fit(typed: &Fit, common: &Common, out: &mut Output) -> Result<End, Stop> {
    let workshop = open(common, out)?;
    let mut known = known(&workshop, out);
    let (id, answers, confidence) = split(&typed.values).map_err(Stop::Usage)?;
    let procedure = id.map(|id| procedure(id, &workshop)).transpose();
    let procedure = procedure.map_err(Stop::Usage)?;
    let (own, answers) = match procedure {
        Some(procedure) => apart(procedure, answers).map_err(Stop::Usage)?,
        None => (Vec::new(), answers),
    };
    let plan = match procedure.filter(|_| !own.is_empty()) {
        Some(procedure) => Some(planned(procedure, &own, &workshop)?),
        None => None,
    };
    if let Some(plan) = &plan {
        known.printed = Some(plan.printed.clone());
    }
    let known = known;
    let places = places(&known, procedure).map_err(Stop::Usage)?;
    if answers.is_empty() && procedure.is_none() {
        out.say(&listed(&places).join("\n"));
        return Ok(End::Done);
    }
    let answers = meant(answers, &places, plan.is_some()).map_err(Stop::Usage)?;
    let mut form = Form::new(EntryKind::TestCut, &known);
    let answers = answers.iter().map(|(name, text)| (*name, text.as_str()));
    form.take_all(answers).map_err(Stop::Usage)?;
    let tried = form.tried().map_err(Stop::Usage)?;
    let bench = Bench::of(&workshop, &tried).map_err(Stop::Usage)?;
    let said = bench.said(&tried, confidence, plan.as_ref());
    let said = said.map_err(Stop::Usage)?;
    let unit = workshop.shop.units;
    if !common.json {
        out.say(&match said.next {
            Some(_) => words(&said, unit),
            None => first_words(&said, unit),
        });
    }
    let is_whole = form.lacks().is_none() && said.next.is_some();
    let event = is_whole.then(|| form.event()).transpose();
    let event = event.map_err(Stop::Usage)?;
    if common.json {
        let written = event.map(|event| write_down(&workshop.home(), &now(), &event));
        let recorded = written.as_ref().and_then(|written| written.as_ref().ok());
        out.json(&json(&said, recorded));
        written.transpose()?;
    } else if let Some(event) = event {
        let (workshop, known, json) = (&workshop, &known, false);
        let desk = Desk {
            workshop,
            known,
            json,
        };
        desk.write(&event, out)?;
    }
    Ok(End::Done)
}

type Split<'t> = (Option<&'t str>, Answers<'t>, f64);

/// The procedure, the answers, the confidence.
fn split(typed: &[String]) -> Result<Split<'_>, Fault> {
    let (mut procedure, mut answers, mut confidence) = (None, Vec::new(), CONFIDENCE);
    for argument in typed {
        match argument.split_once('=') {
            Some(("confidence", text)) => {
                let read: Option<f64> = text.trim().parse().ok();
                let within = read.filter(|one| (0.5..=0.999).contains(one));
                confidence = within.ok_or_else(|| {
                    let message = format!("confidence: `{text}` is not from 0.5 to 0.999");
                    Fault::error(Code::OUT_OF_RANGE, message).hint("write `confidence=0.95`")
                })?;
            }
            Some((name, text)) => answers.push((name.trim(), text.to_owned())),
            None if procedure.is_none() => procedure = Some(argument.as_str()),
            None => {
                let message = format!("`{argument}` is not a name and a value");
                return Err(Fault::error(Code::QUANTITY_SYNTAX, message)
                    .hint("write it like `value=\"17.6 mm\"`"));
            }
        }
    }
    Ok((procedure, answers, confidence))
}

fn procedure<'w>(id: &str, workshop: &'w Workshop) -> Result<&'w Procedure, Fault> {
    let found = workshop.procedures.get(id).map(AsRef::as_ref);
    found.ok_or_else(|| {
        let near = nearest(id, workshop.procedures.keys().map(String::as_str));
        let message = format!("no procedure has the id `{id}`");
        let fault = Fault::error(Code::UNKNOWN_NAME, message);
        fault.maybe_hint(near.map(|near| format!("did you mean `{near}`?")))
    })
}

/// Every value of the last print, or of what was planned now, that a setting moves: its checklist,
/// its number there, itself.
type Places<'k> = Vec<(&'k PrintedSheet, usize, &'k PrintedCheck)>;

fn places<'k>(known: &'k Known, procedure: Option<&Procedure>) -> Result<Places<'k>, Fault> {
    let or_else = match procedure {
        Some(procedure) => format!("or {}", way(procedure)),
        None => "or name a procedure, which then tells what it needs".to_owned(),
    };
    let Some(printed) = &known.printed else {
        let message = "nothing was printed here, so wanted values and settings are not known";
        return Err(Fault::error(Code::VALUE_MISSING, message)
            .hint("print the job, cut the test piece by its sheets, then ask again")
            .hint(or_else));
    };
    let sheets = printed.checklists.iter();
    let sheets = sheets.filter(|sheet| procedure.is_none_or(|one| sheet.procedure == one.id));
    let places = sheets.flat_map(|sheet| {
        let checks = sheet.checks.iter().enumerate();
        let moved = checks.filter(|(_, check)| check.moves.is_some());
        moved.map(move |(at, check)| (sheet, at + 1, check))
    });
    let places: Places<'_> = places.collect();
    match procedure.filter(|_| places.is_empty()) {
        None => Ok(places),
        Some(one) => {
            let message = format!(
                "nothing of `{}` that was printed is moved by a setting",
                one.id
            );
            let fault = Fault::error(Code::VALUE_MISSING, message);
            Err(fault.hint("print its job").hint(or_else))
        }
    }
}

/// How each value is named, and what it is.
fn listed(places: &Places<'_>) -> Vec<String> {
    if places.is_empty() {
        return vec!["no value of the last print is moved by a setting".to_owned()];
    }
    let lines = places.iter().map(|(sheet, at, check)| {
        let number = sheet.number;
        format!(
            "  sheet={number} check={at}  {}: {}",
            sheet.set_up, check.what
        )
    });
    lines.collect()
}

/// The answers with the checklist and the value that are meant. Of what was planned now the values
/// are counted through; of a print they are those of a checklist.
fn meant<'t>(
    mut answers: Answers<'t>,
    places: &Places<'_>,
    is_planned: bool,
) -> Result<Answers<'t>, Fault> {
    let given = |name: &str| answers.iter().any(|(one, _)| *one == name);
    let by_feel = given("feel") && !given("value");
    if is_planned && given("sheet") {
        let message = "`sheet` is a checklist of the last print, and values are given beside it";
        let fault = Fault::error(Code::UNKNOWN_NAME, message);
        return Err(fault.hint("leave `sheet` out, or the values"));
    }
    if !is_planned && (given("sheet") || given("check")) {
        return Ok(answers);
    }
    let check = answers.iter().position(|(name, _)| *name == "check");
    let check = check.map(|at| answers.remove(at).1);
    let numbered = check.as_deref().and_then(|text| {
        let at = text.trim().parse::<usize>().ok()?.checked_sub(1)?;
        let (sheet, at, _) = places.get(at)?;
        Some((sheet.number.to_string(), at.to_string()))
    });
    let only = || only(places, by_feel).filter(|_| check.is_none());
    let Some((sheet, at)) = numbered.or_else(only) else {
        let (message, hint) = match (is_planned, check) {
            (true, Some(text)) => (format!("`check` is `{text}`"), counted(places)),
            (true, None) => (
                "it is not said which value is meant".to_owned(),
                counted(places),
            ),
            (false, _) => (
                "more than one value of the last print may be meant, or none".to_owned(),
                "name one, such as `sheet=7 check=1`; `faceside fit` lists them".to_owned(),
            ),
        };
        return Err(Fault::error(Code::VALUE_MISSING, message).hint(hint));
    };
    answers.extend([("sheet", sheet), ("check", at)]);
    Ok(answers)
}

/// The values of what was planned now, by their numbers.
fn counted(places: &Places<'_>) -> String {
    let all = (1..).zip(places).map(|(number, (sheet, _, check))| {
        format!("check={number} ({}: {})", sheet.set_up, check.what)
    });
    format!("name one: {}", all.collect::<Vec<_>>().join(", "))
}

/// The only value that can be meant; after a word alone, the only one that is tried in its mate.
fn only(places: &Places<'_>, by_feel: bool) -> Option<(String, String)> {
    let mut meant = places.iter().filter(|(_, _, check)| {
        let clearance = check.moves.as_ref().and_then(|moves| moves.clearance);
        !by_feel || clearance.is_some()
    });
    match (meant.next(), meant.next()) {
        (Some((sheet, at, _)), None) => Some((sheet.number.to_string(), at.to_string())),
        _ => None,
    }
}

/// The machine, the cutter and the tool of a checklist's value.
struct Bench<'w> {
    workshop: &'w Workshop,
    machine: &'w Machine,
    moves: &'w Moves,
    aim: Aim,
    means: Means,
}

impl<'w> Bench<'w> {
    fn of(workshop: &'w Workshop, tried: &Tried<'w>) -> Result<Self, Fault> {
        let (sheet, check) = (tried.sheet, tried.check);
        let moves = check.moves.as_ref().ok_or_else(|| {
            let message = format!("no setting of this machine moves the {}", check.what);
            let hint = "do what the sheet says beside it; `faceside fit` lists what can be moved";
            Fault::error(Code::REFUSED, message).hint(hint)
        })?;
        let id = sheet.machine.as_deref().unwrap_or_default();
        let machine = workshop.machines.iter().find(|one| one.id == id);
        let machine = machine.ok_or_else(|| {
            let message = format!("the shop has no machine `{id}` any more");
            Fault::error(Code::UNKNOWN_NAME, message).hint("print the job again")
        })?;
        let tool = workshop
            .shop
            .tools
            .iter()
            .find(|tool| tool.name == check.tool);
        let tool = tool.ok_or_else(|| {
            let message = format!("the shop has no measuring tool `{}`", check.tool);
            let hint = "enter it with its finest step under `tools` in shop.yaml";
            Fault::error(Code::UNKNOWN_NAME, message).hint(hint)
        })?;
        let scale = machine.scale_of(&moves.setting, tool.resolution);
        let cutter = workshop
            .cutters
            .iter()
            .find(|one| Some(&one.id) == sheet.cutter.as_ref());
        let routed = machine.kind == "router-table" || machine.kind == "hand-router";
        Ok(Self {
            workshop,
            machine,
            moves,
            aim: Aim {
                wanted: check.wanted,
                low: check.limits.low,
                high: check.limits.high,
                each: moves.by,
                wood: moves.wood.map(WoodOn::from),
            },
            means: Means {
                step: Scale::new(workshop.shop.units, scale.resolution).step(),
                repeatability: scale.repeatability,
                tool: tool.resolution,
                most: cutter
                    .filter(|_| routed)
                    .map(|one| one.diameter().times(0.5)),
            },
        })
    }

    fn said<'k>(
        &self,
        tried: &Tried<'k>,
        confidence: f64,
        plan: Option<&'k Planned>,
    ) -> Result<Said<'k>, Fault> {
        let set = tried
            .settings
            .iter()
            .find(|one| one.name == self.moves.setting);
        let (planned, set) = (set.and_then(|one| one.planned), set.and_then(|one| one.set));
        let found = match (tried.value, tried.feel) {
            (None, None) => None,
            (Some(value), None) => Some(Found::Value(value)),
            (None, Some(feel)) => Some(Found::Feel(feel, self.press(tried)?)),
            (Some(value), Some(feel)) => Some(Found::Both(value, feel, self.press(tried)?)),
        };
        let over_plan = set.zip(planned).map(|(set, planned)| set - planned);
        let learned = self.learned(tried);
        Ok(Said {
            sheet: tried.sheet,
            plan,
            check: tried.check,
            machine: self.machine.id.clone(),
            setting: self.moves.setting.clone(),
            aim: self.aim,
            means: self.means,
            value: tried.value,
            feel: tried.feel,
            planned,
            set,
            next: found.map(|found| self.aim.next(&self.means, found)),
            unexplained: tried
                .value
                .zip(over_plan)
                .and_then(|(value, over)| self.aim.unexplained(&self.means, value, over)),
            first: match learned {
                Some(one) => {
                    let bound = one.bound(confidence);
                    self.aim.first(&self.means, one.offset, bound)
                }
                None => self.aim.unlearned(&self.means),
            },
            learned,
            confidence,
        })
    }

    /// The clearances of a good joint: the shop's fit at the wanted value, and the check's limits
    /// about it.
    fn press(&self, tried: &Tried<'_>) -> Result<HandPress, Fault> {
        let clearance = self.moves.clearance.ok_or_else(|| {
            let message = format!("trying the joint tells nothing of the {}", tried.check.what);
            Fault::error(Code::REFUSED, message).hint("measure it, and give `value`")
        })?;
        let over = self.aim.high - self.aim.wanted;
        let under = self.aim.wanted - self.aim.low;
        let (tighter, looser) = match self.aim.wood {
            Some(WoodOn::Low) => (under, over),
            _ => (over, under),
        };
        Ok(HandPress {
            least: (clearance - tighter).max(Length::ZERO),
            most: clearance + looser,
        })
    }

    fn learned(&self, tried: &Tried<'_>) -> Option<Learned> {
        let asked = Asked {
            machine: &self.machine.id,
            cutter: tried.sheet.cutter.as_deref(),
            moves: self.moves,
            steps: (self.means.step, self.means.tool),
            today: &today(),
        };
        learned(&standing(&self.workshop.record).0, &asked)
    }
}
