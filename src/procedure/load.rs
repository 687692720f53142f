//! Text to [`Procedure`]: every formula and text parsed, every fault with its place.
//!
//! All faults of a file are gathered; a file with an error gives no procedure.

use std::sync::Arc;

use super::model::{Accepted, Choice, Measure, Procedure, Rule, Want};
use super::raw::{Listed, RawChoose, RawClose, RawMeasure, RawProcedure, RawReady};
use super::routine::Routines;
use super::text::Text;
use crate::diag::{Code, Fault, Faults, Source, Span, nearest};
use crate::formula::Formula;
use crate::shop::Shape;
use crate::units::{self, Kind, Unit, Value, parse};
use crate::yaml::{self, Ordered, Step};

/// Reads one procedure file: the procedure, and all faults of reading it.
///
/// With an error among the faults the procedure is good for checking only, so that all faults of
/// a file are told at once. There is none where a part of it could not be read at all.
pub fn load(source: &Arc<Source>, routines: &Routines) -> (Option<Procedure>, Faults) {
    let raw: RawProcedure = match yaml::read(source) {
        Ok(raw) => raw,
        Err(faults) => return (None, faults),
    };
    let mut reader = Reader::new(source, routines);
    let procedure = reader.procedure(raw);
    (procedure.filter(|_| !reader.lost), reader.faults)
}

/// The kinds that a measure or a choice may have, by their names in files.
pub(super) const KINDS: &[(&str, Kind)] = &[
    ("length", Kind::Length),
    ("angle", Kind::Angle),
    ("speed", Kind::Speed),
    ("feed", Kind::Feed),
    ("count", Kind::Count),
    ("number", Kind::Number),
    ("percent", Kind::Amount(units::Measure::Percent)),
    ("temperature", Kind::Amount(units::Measure::Temperature)),
    ("load", Kind::Amount(units::Measure::Load)),
    ("pressure", Kind::Amount(units::Measure::Stress)),
];

/// Knows where in the file it is, so that each fault gets its place.
pub(super) struct Reader<'s> {
    source: &'s Arc<Source>,
    /// What a step may use.
    pub(super) routines: &'s Routines,
    path: Vec<Step>,
    /// Whether a part could not be read, so that what names it would be misjudged.
    lost: bool,
    faults: Faults,
}

impl<'s> Reader<'s> {
    pub(super) fn new(source: &'s Arc<Source>, routines: &'s Routines) -> Self {
        Self {
            source,
            routines,
            path: Vec::new(),
            lost: false,
            faults: Faults::new(),
        }
    }

    pub(super) fn note(&mut self, fault: Fault) {
        self.faults.push(fault);
    }

    /// Notes a fault for which a part is missing, so that what names it is not judged.
    pub(super) fn lose(&mut self, fault: Fault) {
        self.lost = true;
        self.note(fault);
    }

    pub(super) fn into_faults(self) -> Faults {
        self.faults
    }

    /// Does `work` one step down.
    pub(super) fn down<T>(
        &mut self,
        step: impl Into<Step>,
        work: impl FnOnce(&mut Self) -> T,
    ) -> T {
        self.path.push(step.into());
        let done = work(self);
        self.path.pop();
        done
    }

    pub(super) fn place(&self) -> Span {
        yaml::place(self.source, &self.path)
    }

    pub(super) fn key_place(&self) -> Span {
        yaml::key_place(self.source, &self.path)
    }

    pub(super) fn formula(&mut self, step: impl Into<Step>, text: &str) -> Option<Formula> {
        self.down(step, |here| here.formula_here(text))
    }

    fn formula_here(&mut self, text: &str) -> Option<Formula> {
        let place = self.place();
        let formula = self.faults.keep(Formula::parse(text, &place));
        self.lost |= formula.is_none();
        formula
    }

    pub(super) fn text(&mut self, step: impl Into<Step>, text: &str) -> Text {
        self.down(step, |here| {
            let place = here.place();
            here.parsed(text, &place)
        })
    }

    /// A text that stands at `place`; an empty one is a fault.
    pub(super) fn parsed(&mut self, text: &str, place: &Span) -> Text {
        if text.trim().is_empty() {
            let fault = Fault::error(Code::MISSING_KEY, "this text is empty").at(place.clone());
            self.note(fault.hint("write it, or take the entry out"));
            return Text::default();
        }
        Text::parse(text, place, &mut self.faults)
    }

    pub(super) fn texts(&mut self, step: impl Into<Step>, listed: &Listed) -> Vec<Text> {
        self.down(step, |here| here.texts_here(listed))
    }

    fn texts_here(&mut self, listed: &Listed) -> Vec<Text> {
        if !listed.is_list {
            let place = self.place();
            let faults = &mut self.faults;
            return listed
                .texts
                .iter()
                .map(|text| Text::parse(text, &place, faults))
                .collect();
        }
        if listed.texts.is_empty() {
            let fault = Fault::error(Code::MISSING_KEY, "this list is empty").at(self.place());
            self.faults
                .push(fault.hint("write `none` when nothing is needed"));
        }
        listed
            .texts
            .iter()
            .enumerate()
            .map(|(at, text)| self.text(at, text))
            .collect()
    }

    /// One of the names of a closed list.
    pub(super) fn word<T: Copy>(&mut self, step: &str, word: &str, of: &[(&str, T)]) -> Option<T> {
        let found = of
            .iter()
            .find(|(name, _)| *name == word)
            .map(|(_, value)| *value);
        if found.is_none() {
            self.lost = true;
            let names: Vec<_> = of.iter().map(|(name, _)| *name).collect();
            let hint = match nearest(word, names.iter().copied()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("one of: {}", names.join(", ")),
            };
            self.down(step, |here| {
                let message = format!("`{word}` is not known here");
                let fault = Fault::error(Code::UNKNOWN_NAME, message)
                    .at(here.place())
                    .hint(hint);
                here.faults.push(fault);
            });
        }
        found
    }

    /// A quantity written in a file; files are the same in every shop, so a unit is wanted.
    fn quantity(&mut self, step: &str, text: Option<&String>, kind: Kind) -> Option<Value> {
        let text = text?;
        self.down(step, |here| {
            let place = here.place();
            let read = with_unit(text, kind).map_err(|fault| fault.at(place));
            here.faults.keep(read)
        })
    }

    fn procedure(&mut self, raw: RawProcedure) -> Option<Procedure> {
        let id_place = self.id("procedure", &raw.procedure);
        let measures = self.named("measure", &raw.measure.0, Self::measure);
        let choices = self.named("choose", &raw.choose, Self::choice);
        let work_out = self.formulas("work_out", &raw.work_out);
        let refusals = self.each("refuse", &raw.refuse, |here, rule| {
            here.rule(&rule.when, &rule.say, Some(&rule.instead))
        });
        let warnings = self.each("warn", &raw.warn, |here, rule| {
            here.rule(&rule.when, &rule.say, None)
        });
        let sizes = self.each("sizes", &raw.sizes, |here, size| {
            Some((size.what.clone(), here.formula("is", &size.is)?))
        });
        let drawing = raw
            .drawing
            .as_ref()
            .and_then(|drawing| self.drawing(drawing));
        let ready = self.down("ready", |here| here.ready(&raw.ready));
        let set_ups = self.each("set_ups", &raw.set_ups, Self::set_up);
        let troubles = self.each("faults", &raw.faults, |here, one| {
            let parts = [
                ("see", &one.see),
                ("cause", &one.cause),
                ("cure", &one.cure),
            ];
            Some(parts.map(|(key, text)| here.text(key, text)))
        });
        let close = self.down("close", |here| here.close(&raw.close));
        let accepted = self.each("accept", &raw.accept, |here, one| {
            Some(Accepted {
                code: one.code.clone(),
                place: here.down("code", |here| here.place()),
                because: here.text("because", &one.because),
            })
        });
        let after = self.each("after", &raw.after, |here, id| {
            Some((id.clone(), here.place()))
        });
        Some(Procedure {
            source: Arc::clone(self.source),
            id: raw.procedure,
            id_place,
            title: raw.title,
            also_called: raw.also_called,
            family: raw.family,
            purpose: raw.purpose,
            use_when: raw.use_when,
            not_for: raw.not_for,
            after,
            revision: raw.revision,
            reviewed: raw.reviewed,
            done_when: raw.done_when,
            sources: raw.sources,
            measures,
            choices,
            work_out,
            refusals,
            warnings,
            sizes,
            drawing,
            ready,
            set_ups,
            troubles,
            close,
            accepted,
        })
    }

    fn ready(&mut self, raw: &RawReady) -> Vec<(String, Vec<Text>)> {
        self.lists([
            ("people", &raw.people),
            ("tools", &raw.tools),
            ("guards", &raw.guards),
            ("aids", &raw.aids),
            ("supplies", &raw.supplies),
            ("pieces", &raw.pieces),
        ])
    }

    fn close(&mut self, raw: &RawClose) -> Vec<(String, Vec<Text>)> {
        self.lists([
            ("machine", &raw.machine),
            ("cutters", &raw.cutters),
            ("guards", &raw.guards),
            ("place", &raw.place),
        ])
    }

    fn lists<const N: usize>(&mut self, of: [(&str, &Listed); N]) -> Vec<(String, Vec<Text>)> {
        of.map(|(head, list)| (head.to_owned(), self.texts(head, list)))
            .to_vec()
    }

    pub(super) fn id(&mut self, key: &str, id: &str) -> Span {
        let place = self.down(key, |here| here.place());
        if !is_id(id) {
            let fault = Fault::error(Code::PROCEDURE_RULE, "an id is words joined by hyphens");
            let fault = fault.at(place.clone());
            self.faults
                .push(fault.hint("write it like `stopped-housing`"));
        }
        place
    }

    /// Reads the items of a list, each at its own place; what cannot be read is left out.
    pub(super) fn each<R, T>(
        &mut self,
        key: &str,
        raw: &[R],
        read: impl Fn(&mut Self, &R) -> Option<T>,
    ) -> Vec<T> {
        self.down(key, |here| {
            let items = raw.iter().enumerate();
            items
                .filter_map(|(at, one)| here.down(at, |here| read(here, one)))
                .collect()
        })
    }

    /// Reads the entries of a mapping, each at its own place.
    pub(super) fn named<R, T>(
        &mut self,
        key: &str,
        raw: &Ordered<R>,
        read: impl Fn(&mut Self, &str, &R) -> Option<T>,
    ) -> Vec<T> {
        self.down(key, |here| {
            let entries = raw.iter();
            let read =
                |(name, one): &(String, R)| here.down(name.as_str(), |here| read(here, name, one));
            entries.filter_map(read).collect()
        })
    }

    pub(super) fn formulas(
        &mut self,
        key: &str,
        entries: &Ordered<String>,
    ) -> Vec<(String, Formula)> {
        self.named(key, entries, |here, name, text| {
            Some((name.to_owned(), here.formula_here(text)?))
        })
    }

    fn drawing(&mut self, entries: &Ordered<String>) -> Option<(String, Vec<(String, Formula)>)> {
        let Some(shape) = entries.get("shape").cloned() else {
            let place = self.down("drawing", |here| here.key_place());
            let fault = Fault::error(Code::MISSING_KEY, "a drawing needs its `shape`").at(place);
            self.faults
                .push(fault.hint("write `shape: sliding-dovetail`"));
            return None;
        };
        let lengths = self.named("drawing", entries, |here, name, text| {
            let is_length = name != "shape";
            is_length.then(|| Some((name.to_owned(), here.formula_here(text)?)))?
        });
        Some((shape, lengths))
    }

    fn rule(&mut self, when: &str, say: &str, instead: Option<&str>) -> Option<Rule> {
        let when = self.formula("when", when);
        let say = self.text("say", say);
        let instead = instead
            .map(|text| self.text("instead", text))
            .unwrap_or_default();
        Some(Rule {
            when: when?,
            say,
            instead,
        })
    }

    fn measure(&mut self, name: &str, raw: &RawMeasure) -> Option<Measure> {
        let place = self.key_place();
        let kind = self.word("kind", &raw.kind, KINDS)?;
        let from = self.quantity("from", raw.from.as_ref(), kind);
        let to = self.quantity("to", raw.to.as_ref(), kind);
        self.quantity("example", raw.example.as_ref(), kind);
        let later = raw.later.as_ref().map(|text| self.formula("later", text));
        Some(Measure {
            name: name.to_owned(),
            place,
            ask: raw.ask.clone(),
            kind,
            range: (from, to),
            example: raw.example.clone(),
            later: later.flatten(),
        })
    }

    fn choice(&mut self, name: &str, raw: &RawChoose) -> Option<Choice> {
        Some(Choice {
            name: name.to_owned(),
            place: self.key_place(),
            ask: raw.ask.clone(),
            want: self.want(raw)?,
            usual: raw.usual.clone(),
            example: raw.example.clone(),
        })
    }

    fn want(&mut self, raw: &RawChoose) -> Option<Want> {
        match raw.kind.as_str() {
            "cutter" => {
                let Some(shape) = raw.shape.as_ref() else {
                    self.faults.push(
                        Fault::error(Code::MISSING_KEY, "a cutter needs its `shape`")
                            .at(self.key_place())
                            .hint("write `shape: straight`"),
                    );
                    return None;
                };
                let shapes = Shape::ALL.map(|shape| (shape.name(), shape));
                let shape = self.word("shape", shape, &shapes)?;
                let fits = raw
                    .fits
                    .as_ref()
                    .and_then(|text| self.formula("fits", text));
                Some(Want::Cutter { shape, fits })
            }
            "choice" => {
                if raw.options.len() < 2 {
                    self.faults.push(
                        Fault::error(Code::MISSING_KEY, "a choice needs two `options` or more")
                            .at(self.key_place())
                            .hint("write `options: [left, right]`"),
                    );
                }
                for (key, text) in [("usual", &raw.usual), ("example", &raw.example)] {
                    let options: Vec<_> = raw
                        .options
                        .iter()
                        .map(|option| (option.as_str(), ()))
                        .collect();
                    if let Some(text) = text {
                        self.word(key, text, &options);
                    }
                }
                Some(Want::Word(raw.options.clone()))
            }
            kind => {
                let mut kinds = KINDS.to_vec();
                kinds.extend([("cutter", Kind::Choice), ("choice", Kind::Choice)]);
                let kind = self.word("kind", kind, &kinds)?;
                let from = self.quantity("from", raw.from.as_ref(), kind);
                let to = self.quantity("to", raw.to.as_ref(), kind);
                self.quantity("usual", raw.usual.as_ref(), kind);
                self.quantity("example", raw.example.as_ref(), kind);
                Some(Want::Quantity {
                    kind,
                    range: (from, to),
                })
            }
        }
    }
}

/// Reads a quantity that must say its unit, since a file serves shops of both units.
fn with_unit(text: &str, kind: Kind) -> Result<Value, Fault> {
    let (mm, inch) = (parse(text, kind, Unit::Mm)?, parse(text, kind, Unit::Inch)?);
    if mm != inch {
        return Err(
            Fault::error(Code::AMBIGUOUS_QUANTITY, format!("`{text}` has no unit"))
                .hint("a procedure serves shops of both units: write `mm` or `in`"),
        );
    }
    Ok(mm)
}

fn is_id(id: &str) -> bool {
    let word = |word: &str| {
        !word.is_empty()
            && word
                .chars()
                .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit())
    };
    id.split('-').all(word)
}
