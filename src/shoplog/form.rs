//! An entry while it is written down: which questions are open, and the event once none is.
//!
//! Answers come one by one, from the command line or the prompt, and are judged as they come;
//! what the last print says is never asked. Nothing here prints or reads.

use std::collections::BTreeMap;

use super::answer::{Answer, judge};
use super::field::{Entry, Field, Wants, When};
use super::{
    CutterMeasured, CutterState, Event, Limits, Measured, NearMiss, Person, Printed, PrintedCheck,
    PrintedSheet, Run, SetTo, SheetFault, TestCut, Verdict, Work,
};
use crate::diag::{Code, Fault, nearest};
use crate::joints::Feel;
use crate::units::{Length, Unit};

/// What names may be meant, and what the last print said.
#[derive(Debug, Clone, Default)]
pub struct Known {
    /// Revision of each procedure, by id.
    pub procedures: BTreeMap<String, u32>,
    /// Ids of the machines.
    pub machines: Vec<String>,
    /// Ids of the cutters.
    pub cutters: Vec<String>,
    /// The last print.
    pub printed: Option<Printed>,
    /// Unit of a bare number.
    pub unit: Option<Unit>,
}

/// A test cut of a checklist.
#[derive(Debug, Clone, PartialEq)]
pub struct Tried<'k> {
    /// The checklist.
    pub sheet: &'k PrintedSheet,
    /// What was measured.
    pub check: &'k PrintedCheck,
    /// As read.
    pub value: Option<Length>,
    /// How it went together.
    pub feel: Option<Feel>,
    /// As set.
    pub settings: Vec<SetTo>,
}

/// An entry that is being written down.
#[derive(Debug, Clone)]
pub struct Form<'k> {
    entry: Entry,
    known: &'k Known,
    answers: BTreeMap<&'static str, Answer>,
    passed: Vec<&'static str>,
}

impl<'k> Form<'k> {
    /// Nothing is answered yet.
    pub fn new(entry: Entry, known: &'k Known) -> Self {
        Self {
            entry,
            known,
            answers: BTreeMap::new(),
            passed: Vec::new(),
        }
    }

    /// Takes an answer to the field of that name; an empty one passes over a field that need not
    /// be answered.
    ///
    /// # Errors
    /// `unknown-name` when there is no such field here, `duplicate-key` when it is answered twice,
    /// and what is wrong with the answer, with the nearest name.
    pub fn take(&mut self, name: &str, text: &str) -> Result<(), Fault> {
        let fields = self.entry.fields();
        let Some(field) = fields.iter().find(|field| field.name == name) else {
            let names = || fields.iter().map(|field| field.name);
            let hint = match nearest(name, names()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("it takes: {}", names().collect::<Vec<_>>().join(", ")),
            };
            let message = format!("`{}` takes no `{name}`", self.entry.name());
            return Err(Fault::error(Code::UNKNOWN_NAME, message).hint(hint));
        };
        if self.answers.contains_key(field.name) {
            let message = format!("`{name}` is given twice");
            return Err(Fault::error(Code::DUPLICATE_KEY, message));
        }
        if text.trim().is_empty() {
            if field.needed {
                return Err(missing(self.entry, field));
            }
            self.passed.push(field.name);
            return Ok(());
        }
        if !self.applies(field) && self.is_settled(field) {
            let message = format!("`{name}` stands on the checklist; it is not given again");
            return Err(Fault::error(Code::UNKNOWN_NAME, message)
                .hint(format!("leave `{name}` out, or leave `sheet` out")));
        }
        let answer = judge(field, text, self.known, self.sheet())?;
        self.answers.insert(field.name, answer);
        Ok(())
    }

    /// Takes answers in any order: a checklist is taken before what stands on it.
    ///
    /// # Errors
    /// As [`Form::take`].
    pub fn take_all<'a>(
        &mut self,
        answers: impl IntoIterator<Item = (&'a str, &'a str)>,
    ) -> Result<(), Fault> {
        let mut answers: Vec<_> = answers.into_iter().collect();
        let fields = self.entry.fields();
        answers.sort_by_key(|(name, _)| fields.iter().position(|field| field.name == *name));
        let mut answers = answers.into_iter();
        answers.try_for_each(|(name, text)| self.take(name, text))
    }

    /// The next field that must be answered and is not.
    pub fn lacks(&self) -> Option<&'static Field> {
        let mut open = self.open();
        open.find(|field| field.needed)
    }

    /// The next field that may be asked for.
    pub fn next(&self) -> Option<&'static Field> {
        self.open().next()
    }

    /// The question of a field, with what may be answered where that is a short list.
    pub fn question(&self, field: &Field) -> String {
        let offers = match field.wants {
            Wants::Sheet => self.known.printed.as_ref().map(sheets),
            Wants::Check => self.sheet().map(checks),
            _ => None,
        };
        let offers = offers
            .map(|offers| format!("{offers}\n"))
            .unwrap_or_default();
        let may_pass = if field.needed { "" } else { " [Enter: none]" };
        format!("{offers}{}{may_pass}:", field.ask)
    }

    /// The fault of a field that is not answered.
    pub fn missing(&self, field: &Field) -> Fault {
        missing(self.entry, field)
    }

    fn open(&self) -> impl Iterator<Item = &'static Field> {
        self.entry.fields().iter().filter(|field| {
            !self.answers.contains_key(field.name)
                && !self.passed.contains(&field.name)
                && self.applies(field)
        })
    }

    /// Whether a field was settled by the checklist that is meant.
    fn is_settled(&self, field: &Field) -> bool {
        match field.when {
            When::NoSheet | When::Work => true,
            When::NoCheck => self.check().is_some(),
            _ => false,
        }
    }

    fn applies(&self, field: &Field) -> bool {
        match field.when {
            When::Always => true,
            When::Printed => {
                self.known.printed.is_some() && !self.answers.contains_key("procedure")
            }
            When::NoSheet | When::Work => self.sheet().is_none(),
            When::Checks => self.sheet().is_some_and(|sheet| !sheet.checks.is_empty()),
            When::NoCheck => {
                let silent = self.passed.contains(&"value") && self.entry == Entry::TestCut;
                self.check().is_none() && !silent
            }
            When::NoValue => !self.answers.contains_key("value"),
        }
    }

    fn sheet(&self) -> Option<&'k PrintedSheet> {
        match self.answers.get("sheet")? {
            Answer::Count(number) => self.known.printed.as_ref()?.sheet(*number as usize),
            _ => None,
        }
    }

    fn check(&self) -> Option<&'k PrintedCheck> {
        match self.answers.get("check")? {
            Answer::Count(number) => {
                let at = (*number as usize).checked_sub(1)?;
                self.sheet()?.checks.get(at)
            }
            _ => None,
        }
    }

    fn words(&self, name: &str) -> Option<String> {
        match self.answers.get(name)? {
            Answer::Words(words) => Some(words.clone()),
            _ => None,
        }
    }

    fn need(&self, name: &str) -> Result<String, Fault> {
        self.words(name).ok_or_else(|| self.lack(name))
    }

    fn count(&self, name: &str) -> Option<u32> {
        match self.answers.get(name)? {
            Answer::Count(count) => Some(*count),
            _ => None,
        }
    }

    fn length(&self, name: &str) -> Option<Length> {
        match self.answers.get(name)? {
            Answer::Length(length) => Some(*length),
            _ => None,
        }
    }

    fn by(&self) -> Option<Person> {
        match self.answers.get("by")? {
            Answer::Person(person) => Some(person.clone()),
            _ => None,
        }
    }

    fn lack(&self, name: &str) -> Fault {
        let field = self.entry.fields().iter().find(|field| field.name == name);
        match field {
            Some(field) => missing(self.entry, field),
            None => Fault::error(Code::VALUE_MISSING, format!("`{name}` is not given")),
        }
    }

    /// A test cut as far as a next move needs it; who cut it may stay open.
    ///
    /// # Errors
    /// `value-missing` when no value of a checklist is meant.
    pub fn tried(&self) -> Result<Tried<'k>, Fault> {
        let (sheet, check) = (self.sheet().zip(self.check())).ok_or_else(|| {
            let message = "no value of a checklist is meant";
            Fault::error(Code::VALUE_MISSING, message).hint("give `sheet` and `check`")
        })?;
        Ok(Tried {
            sheet,
            check,
            value: self.length("value"),
            feel: match self.answers.get("feel") {
                Some(Answer::Feel(feel)) => Some(*feel),
                _ => None,
            },
            settings: self.work()?.settings,
        })
    }

    /// The event, once every field that must be answered is.
    ///
    /// # Errors
    /// `value-missing` for the first that is not; `out-of-range` where limits are the wrong way
    /// round.
    pub fn event(&self) -> Result<Event, Fault> {
        if let Some(field) = self.lacks() {
            return Err(missing(self.entry, field));
        }
        let by = || self.by().ok_or_else(|| self.lack("by"));
        Ok(match self.entry {
            Entry::Run => Event::Run(Box::new(Run {
                by: by()?,
                work: self.work()?,
                pieces: self.count("pieces").ok_or_else(|| self.lack("pieces"))?,
                test_cuts: self
                    .count("test_cuts")
                    .ok_or_else(|| self.lack("test_cuts"))?,
                note: self.words("note"),
            })),
            Entry::TestCut => Event::TestCut(Box::new(TestCut {
                by: by()?,
                work: self.work()?,
                measured: self.measured()?,
                feel: match self.answers.get("feel") {
                    Some(Answer::Feel(feel)) => Some(*feel),
                    _ => None,
                },
                note: self.words("note"),
            })),
            Entry::Reading => self.reading(by()?)?,
            Entry::Cutter => Event::CutterMeasured(CutterMeasured {
                by: by()?,
                cutter: self.need("cutter")?,
                size: self.length("size").ok_or_else(|| self.lack("size"))?,
                tool: self.words("tool"),
                state: match self.answers.get("state") {
                    Some(Answer::State(state)) => *state,
                    _ => CutterState::Same,
                },
            }),
            Entry::NearMiss => Event::NearMiss(NearMiss {
                by: self.by(),
                machine: self.words("machine"),
                procedure: self.words("procedure"),
                text: self.need("text")?,
                changed: self.words("changed"),
            }),
            Entry::Note => Event::Note {
                by: by()?,
                about: self.words("about"),
                text: self.need("text")?,
            },
            Entry::SheetFault => {
                let work = self.work()?;
                Event::SheetFault(SheetFault {
                    by: by()?,
                    procedure: work.procedure,
                    revision: work.revision,
                    set_up: work.set_up,
                    step: self.count("step"),
                    text: self.need("text")?,
                })
            }
        })
    }

    /// What was set up: from the checklist, else as answered; settings as they were set.
    fn work(&self) -> Result<Work, Fault> {
        let printed = self.known.printed.as_ref().zip(self.sheet());
        let mut work = match printed {
            Some((printed, sheet)) => printed.work(sheet),
            None => {
                let procedure = self.need("procedure")?;
                Work {
                    revision: self.known.procedures.get(&procedure).copied().unwrap_or(0),
                    procedure,
                    set_up: self.words("set_up"),
                    machine: self.words("machine"),
                    cutter: self.words("cutter"),
                    ..Work::default()
                }
            }
        };
        work.wood = self.words("wood").or(work.wood);
        if let Some(Answer::Settings(set)) = self.answers.get("set") {
            for (name, length, shown) in set {
                match work.settings.iter_mut().find(|one| one.name == *name) {
                    Some(one) => {
                        one.set = Some(*length);
                        one.shown.clone_from(shown);
                    }
                    None => work.settings.push(SetTo {
                        name: name.clone(),
                        shown: shown.clone(),
                        planned: None,
                        set: Some(*length),
                    }),
                }
            }
        }
        Ok(work)
    }

    fn limits(&self) -> Result<Option<Limits>, Fault> {
        let Some((low, high)) = self.length("low").zip(self.length("high")) else {
            return Ok(None);
        };
        if low > high {
            let message = "the lowest good value is over the highest";
            return Err(Fault::error(Code::OUT_OF_RANGE, message).hint("exchange `low` and `high`"));
        }
        Ok(Some(Limits { low, high }))
    }

    fn measured(&self) -> Result<Option<Measured>, Fault> {
        let Some(value) = self.length("value") else {
            return Ok(None);
        };
        if let Some(check) = self.check() {
            return Ok(Some(check.measured(value)));
        }
        Ok(Some(Measured {
            what: self
                .words("what")
                .unwrap_or_else(|| "test piece".to_owned()),
            value,
            wanted: None,
            limits: self.limits()?,
            tool: self.words("tool"),
            moves: None,
        }))
    }

    fn reading(&self, by: Person) -> Result<Event, Fault> {
        let work = self.work()?;
        let value = self.length("value").ok_or_else(|| self.lack("value"))?;
        let (what, limits, tool) = match self.check() {
            Some(check) => (check.what.clone(), check.limits, check.tool.clone()),
            None => (
                self.need("what")?,
                self.limits()?.ok_or_else(|| self.lack("low"))?,
                self.need("tool")?,
            ),
        };
        let Limits { low, high } = limits;
        Ok(Event::Reading {
            by,
            procedure: work.procedure,
            revision: work.revision,
            machine: work.machine,
            cutter: work.cutter,
            what,
            value,
            low,
            high,
            verdict: Verdict::of(value, low, high),
            tool,
            practice: false,
        })
    }
}

fn missing(entry: Entry, field: &Field) -> Fault {
    let message = format!("`{}` is not given: {}", field.name, field.ask);
    Fault::error(Code::VALUE_MISSING, message).hint(format!(
        "add it, such as `faceside record {} {}=...`",
        entry.name(),
        field.name
    ))
}

fn sheets(printed: &Printed) -> String {
    let sheets = printed.checklists.iter().map(|sheet| {
        let on = sheet.machine.as_deref().unwrap_or("bench");
        format!("  {:>3}  {}, {on}", sheet.number, sheet.set_up)
    });
    let head = format!("  {}, printed {}", printed.title, printed.date);
    std::iter::once(head)
        .chain(sheets)
        .collect::<Vec<_>>()
        .join("\n")
}

fn checks(sheet: &PrintedSheet) -> String {
    let checks = sheet.checks.iter().zip(1..);
    let lines = checks.map(|(check, number)| format!("  {number:>3}  {}", check.what));
    lines.collect::<Vec<_>>().join("\n")
}
