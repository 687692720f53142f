//! `faceside fit`: after a test cut the next move, and before one the first setting.
//!
//! Wanted value, limits, planned settings and machine come from the last print, never from an
//! example: a figure that moves a fence is today's.

use super::args::{Common, Fit};
use super::clock::today;
use super::fit_words::{Said, first_words, json, words};
use super::open::open;
use super::output::Output;
use super::record::{Desk, known};
use super::{End, Stop};
use crate::diag::{Code, Fault, nearest};
use crate::joints::{Aim, Found, HandPress, Means, WoodOn};
use crate::shop::{Machine, ScaleOf};
use crate::shoplog::{
    Asked, EntryKind, Form, Known, Learned, Moves, PrintedCheck, PrintedSheet, Tried, learned,
    standing,
};
use crate::store::Workshop;
use crate::units::{Length, Scale};

/// Confidence of a first setting when none is asked for.
const CONFIDENCE: f64 = 0.95;

/// Answers with the next move, or the first setting.
pub(super) fn fit(typed: &Fit, common: &Common, out: &mut Output) -> Result<End, Stop> {
    let workshop = open(common, out)?;
    let known = known(&workshop, out);
    let (procedure, answers, confidence) = split(&typed.values).map_err(Stop::Usage)?;
    if let Some(id) = procedure {
        is_known(id, &known).map_err(Stop::Usage)?;
    }
    let mut form = Form::new(EntryKind::TestCut, &known);
    let places = places(&known, procedure).map_err(Stop::Usage)?;
    if answers.is_empty() && procedure.is_none() {
        out.say(&listed(&places));
        return Ok(End::Done);
    }
    let mut answers = answers;
    let given = |name: &str| answers.iter().any(|(one, _)| *one == name);
    let only = only(&places, given("feel") && !given("value"));
    if !given("sheet") && !given("check") {
        let Some((sheet, check)) = only else {
            let message = "more than one value of the last print may be meant, or none";
            let fault = Fault::error(Code::VALUE_MISSING, message);
            let hint = "name one, such as `sheet=7 check=1`; `faceside fit` lists them";
            return Err(Stop::Usage(fault.hint(hint)));
        };
        answers.extend([("sheet", sheet), ("check", check)]);
    }
    let answers = answers.iter().map(|(name, text)| (*name, text.as_str()));
    form.take_all(answers).map_err(Stop::Usage)?;
    let tried = form.tried().map_err(Stop::Usage)?;
    let bench = Bench::of(&workshop, &tried).map_err(Stop::Usage)?;
    let said = bench.said(&tried, confidence).map_err(Stop::Usage)?;
    let unit = workshop.shop.units;
    if common.json {
        out.json(&json(&said));
    } else {
        out.say(&match said.next {
            Some(_) => words(&said, unit),
            None => first_words(&said, unit),
        });
    }
    if form.lacks().is_none() && (tried.value.is_some() || tried.feel.is_some()) {
        let event = form.event().map_err(Stop::Usage)?;
        let (workshop, known, json) = (&workshop, &known, false);
        let desk = Desk {
            workshop,
            known,
            json,
        };
        if !common.json {
            desk.write(&event, out)?;
        }
    }
    Ok(End::Done)
}

type Split<'t> = (Option<&'t str>, Vec<(&'t str, String)>, f64);

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

fn is_known(id: &str, known: &Known) -> Result<(), Fault> {
    if known.procedures.contains_key(id) {
        return Ok(());
    }
    let near = nearest(id, known.procedures.keys().map(String::as_str));
    let fault = Fault::error(
        Code::UNKNOWN_NAME,
        format!("no procedure has the id `{id}`"),
    );
    Err(fault.maybe_hint(near.map(|near| format!("did you mean `{near}`?"))))
}

/// Every value of the last print that a setting moves: its checklist, its number there, itself.
type Places<'k> = Vec<(&'k PrintedSheet, usize, &'k PrintedCheck)>;

fn places<'k>(known: &'k Known, procedure: Option<&str>) -> Result<Places<'k>, Fault> {
    let Some(printed) = &known.printed else {
        let message = "nothing was printed here, so wanted values and settings are not known";
        return Err(Fault::error(Code::VALUE_MISSING, message)
            .hint("print the job, cut the test piece by its sheets, then ask again"));
    };
    let sheets = printed.checklists.iter();
    let sheets = sheets.filter(|sheet| procedure.is_none_or(|id| sheet.procedure == id));
    let places = sheets.flat_map(|sheet| {
        let checks = sheet.checks.iter().enumerate();
        let moved = checks.filter(|(_, check)| check.moves.is_some());
        moved.map(move |(at, check)| (sheet, at + 1, check))
    });
    Ok(places.collect())
}

fn listed(places: &Places<'_>) -> String {
    if places.is_empty() {
        return "no value of the last print is moved by a setting".to_owned();
    }
    let lines = places.iter().map(|(sheet, at, check)| {
        let number = sheet.number;
        format!(
            "  sheet={number} check={at}  {}: {}",
            sheet.set_up, check.what
        )
    });
    lines.collect::<Vec<_>>().join("\n")
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
        let scale = scale(machine, &moves.setting, tool.resolution);
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

    fn said<'k>(&self, tried: &Tried<'k>, confidence: f64) -> Result<Said<'k>, Fault> {
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
            sheet: tried.sheet.number,
            set_up: &tried.sheet.set_up,
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

/// The scale of a setting; one that is made with the measuring tool is as fine as that, and repeats
/// no better than the worse scale of the machine.
fn scale(machine: &Machine, setting: &str, tool: Length) -> ScaleOf {
    if setting.starts_with("height") {
        return machine.height;
    }
    if setting.starts_with("fence") || setting.starts_with("stop") {
        return machine.fence;
    }
    ScaleOf {
        resolution: tool,
        repeatability: machine
            .height
            .repeatability
            .max(machine.fence.repeatability),
    }
}
