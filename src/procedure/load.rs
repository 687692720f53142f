//! Text to [`Procedure`]: every formula and text parsed, every fault with its place.
//!
//! All faults of a file are gathered; a file with an error gives no procedure.

use std::sync::Arc;

use super::Does;
use super::model::{Check, Choice, Measure, Procedure, Rule, SetUp, Table, Want};
use super::raw::{Listed, RawCheck, RawChoose, RawMeasure, RawProcedure, RawSetUp, RawStep};
use super::text::Text;
use crate::diag::{Code, Fault, Faults, Source, Span, nearest};
use crate::formula::Formula;
use crate::shop::Shape;
use crate::units::{Kind, Unit, Value, parse};
use crate::yaml::{self, Ordered, Step};

/// Reads one procedure file.
///
/// # Errors
/// All faults of the file; warnings alone never stop it (they come from `check`).
pub fn load(source: &Arc<Source>) -> Result<Procedure, Faults> {
    let raw: RawProcedure = yaml::read(source)?;
    let mut reader = Reader {
        source,
        path: Vec::new(),
        faults: Faults::new(),
    };
    let procedure = reader.procedure(raw);
    if reader.faults.any_error() {
        return Err(reader.faults);
    }
    procedure.ok_or(reader.faults)
}

/// The kinds that a measure or a choice may have, by their names in files.
const KINDS: &[(&str, Kind)] = &[
    ("length", Kind::Length),
    ("angle", Kind::Angle),
    ("speed", Kind::Speed),
    ("feed", Kind::Feed),
    ("count", Kind::Count),
    ("number", Kind::Number),
];

const DOES: &[(&str, Does)] = &[
    ("cut", Does::Cut),
    ("adjust", Does::Adjust),
    ("measure", Does::Measure),
    ("hand", Does::Hand),
    ("glue", Does::Glue),
    ("other", Does::Other),
];

/// Knows where in the file it is, so that each fault gets its place.
struct Reader<'s> {
    source: &'s Arc<Source>,
    path: Vec<Step>,
    faults: Faults,
}

impl Reader<'_> {
    /// Does `work` one step down.
    fn down<T>(&mut self, step: impl Into<Step>, work: impl FnOnce(&mut Self) -> T) -> T {
        self.path.push(step.into());
        let done = work(self);
        self.path.pop();
        done
    }

    fn place(&self) -> Span {
        yaml::place(self.source, &self.path)
    }

    fn key_place(&self) -> Span {
        yaml::key_place(self.source, &self.path)
    }

    fn formula(&mut self, step: impl Into<Step>, text: &str) -> Option<Formula> {
        self.down(step, |here| {
            let place = here.place();
            here.faults.keep(Formula::parse(text, &place))
        })
    }

    fn text(&mut self, step: impl Into<Step>, text: &str) -> Text {
        self.down(step, |here| {
            let place = here.place();
            if text.trim().is_empty() {
                here.faults
                    .push(Fault::error(Code::MISSING_KEY, "this text is empty").at(place));
                return Text::default();
            }
            Text::parse(text, &place, &mut here.faults)
        })
    }

    fn texts(&mut self, step: impl Into<Step>, listed: &Listed) -> Vec<Text> {
        self.down(step, |here| {
            if !listed.is_list {
                let place = here.place();
                let faults = &mut here.faults;
                return listed
                    .texts
                    .iter()
                    .map(|text| Text::parse(text, &place, faults))
                    .collect();
            }
            if listed.texts.is_empty() {
                let fault = Fault::error(Code::MISSING_KEY, "this list is empty")
                    .at(here.place())
                    .hint("write `none` when nothing is needed");
                here.faults.push(fault);
            }
            listed
                .texts
                .iter()
                .enumerate()
                .map(|(at, text)| here.text(at, text))
                .collect()
        })
    }

    /// One of the names of a closed list.
    fn word<T: Copy>(&mut self, step: &str, word: &str, of: &[(&str, T)]) -> Option<T> {
        let found = of
            .iter()
            .find(|(name, _)| *name == word)
            .map(|(_, value)| *value);
        if found.is_none() {
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
        let id_place = self.down("procedure", |here| here.place());
        if !is_id(&raw.procedure) {
            let fault = Fault::error(Code::PROCEDURE_RULE, "an id is words joined by hyphens")
                .at(id_place.clone())
                .hint("write it like `stopped-housing`");
            self.faults.push(fault);
        }
        let measures = self.measures(&raw.measure);
        let choices = self.choices(&raw.choose);
        let work_out = self.formulas("work_out", &raw.work_out);
        let refusals = self.down("refuse", |here| {
            let rules = raw.refuse.iter().enumerate();
            rules
                .filter_map(|(at, rule)| here.rule(at, &rule.when, &rule.say, Some(&rule.instead)))
                .collect()
        });
        let warnings = self.down("warn", |here| {
            let rules = raw.warn.iter().enumerate();
            rules
                .filter_map(|(at, rule)| here.rule(at, &rule.when, &rule.say, None))
                .collect()
        });
        let sizes = self.down("sizes", |here| {
            let sizes = raw.sizes.iter().enumerate().filter_map(|(at, size)| {
                here.down(at, |here| {
                    Some((size.what.clone(), here.formula("is", &size.is)?))
                })
            });
            sizes.collect()
        });
        let drawing = raw
            .drawing
            .as_ref()
            .and_then(|drawing| self.drawing(drawing));
        let ready = self.down("ready", |here| {
            let lists = raw.ready.iter();
            lists
                .map(|(head, list)| (head.clone(), here.texts(head.as_str(), list)))
                .collect()
        });
        let set_ups = self.down("set_ups", |here| {
            let set_ups = raw.set_ups.iter().enumerate();
            set_ups
                .filter_map(|(at, one)| here.down(at, |here| here.set_up(one)))
                .collect()
        });
        let troubles = self.down("faults", |here| {
            let troubles = raw.faults.iter().enumerate().map(|(at, one)| {
                here.down(at, |here| {
                    let parts = [
                        ("see", &one.see),
                        ("cause", &one.cause),
                        ("cure", &one.cure),
                    ];
                    parts.map(|(key, text)| here.text(key, text))
                })
            });
            troubles.collect()
        });
        let close = self.texts("close", &raw.close);
        let after = self.down("after", |here| {
            let ids = raw.after.iter().enumerate();
            ids.map(|(at, id)| (id.clone(), here.down(at, |here| here.place())))
                .collect()
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
        })
    }

    fn formulas(&mut self, key: &str, entries: &Ordered<String>) -> Vec<(String, Formula)> {
        self.down(key, |here| {
            let entries = entries.iter();
            entries
                .filter_map(|(name, text)| Some((name.clone(), here.formula(name.as_str(), text)?)))
                .collect()
        })
    }

    fn drawing(&mut self, entries: &Ordered<String>) -> Option<(String, Vec<(String, Formula)>)> {
        let Some(shape) = entries.get("shape").cloned() else {
            let place = self.down("drawing", |here| here.key_place());
            self.faults.push(
                Fault::error(Code::MISSING_KEY, "a drawing needs its `shape`")
                    .at(place)
                    .hint("write `shape: sliding-dovetail`"),
            );
            return None;
        };
        let lengths = self.down("drawing", |here| {
            let lengths = entries.iter().filter(|(name, _)| name != "shape");
            lengths
                .filter_map(|(name, text)| Some((name.clone(), here.formula(name.as_str(), text)?)))
                .collect()
        });
        Some((shape, lengths))
    }

    fn rule(&mut self, at: usize, when: &str, say: &str, instead: Option<&str>) -> Option<Rule> {
        self.down(at, |here| {
            let when = here.formula("when", when);
            let say = here.text("say", say);
            let instead = instead
                .map(|text| here.text("instead", text))
                .unwrap_or_default();
            Some(Rule {
                when: when?,
                say,
                instead,
            })
        })
    }

    fn measures(&mut self, entries: &Ordered<RawMeasure>) -> Vec<Measure> {
        self.down("measure", |here| {
            let entries = entries.iter();
            entries
                .filter_map(|(name, raw)| {
                    here.down(name.as_str(), |here| {
                        let place = here.key_place();
                        let kind = here.word("kind", &raw.kind, KINDS)?;
                        let from = here.quantity("from", raw.from.as_ref(), kind);
                        let to = here.quantity("to", raw.to.as_ref(), kind);
                        here.quantity("example", raw.example.as_ref(), kind);
                        let later = raw.later.as_ref().map(|text| here.formula("later", text));
                        Some(Measure {
                            name: name.clone(),
                            place,
                            ask: raw.ask.clone(),
                            kind,
                            range: (from, to),
                            example: raw.example.clone(),
                            later: later.flatten(),
                        })
                    })
                })
                .collect()
        })
    }

    fn choices(&mut self, entries: &Ordered<RawChoose>) -> Vec<Choice> {
        self.down("choose", |here| {
            let entries = entries.iter();
            entries
                .filter_map(|(name, raw)| {
                    here.down(name.as_str(), |here| {
                        Some(Choice {
                            name: name.clone(),
                            place: here.key_place(),
                            ask: raw.ask.clone(),
                            want: here.want(raw)?,
                            usual: raw.usual.clone(),
                            example: raw.example.clone(),
                        })
                    })
                })
                .collect()
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

    fn set_up(&mut self, raw: &RawSetUp) -> Option<SetUp> {
        let place = self.down("set_up", |here| here.place());
        let title = self.text("set_up", &raw.set_up);
        let operation_place = self.down("operation", |here| here.place());
        let when = raw
            .when
            .as_ref()
            .and_then(|text| self.formula("when", text));
        let strip = raw.leaves_strip.as_ref();
        let leaves_strip = strip.and_then(|text| self.formula("leaves_strip", text));
        let holder = raw.holder.as_ref().map(|text| self.text("holder", text));
        let piece = raw.piece.as_ref().and_then(|piece| {
            self.down("piece", |here| {
                let length = here.formula("length", &piece.length);
                let width = here.formula("width", &piece.width);
                let thickness = here.formula("thickness", &piece.thickness);
                Some([length?, width?, thickness?])
            })
        });
        let settings = self.down("settings", |here| {
            let settings = raw.settings.iter().filter_map(|(name, setting)| {
                here.down(name.as_str(), |here| {
                    let is = here.formula("is", &setting.is)?;
                    Some((name.clone(), setting.label.clone(), is))
                })
            });
            settings.collect()
        });
        let table = raw.table.as_ref().and_then(|table| {
            self.down("table", |here| {
                let place = here.down("vary", |here| here.place());
                let by = here.formula("by", &table.by)?;
                Some(Table {
                    vary: table.vary.clone(),
                    place,
                    by,
                    rows: table.rows,
                })
            })
        });
        let steps = self.down("steps", |here| {
            let steps = raw.steps.iter().enumerate();
            steps
                .filter_map(|(at, step)| here.down(at, |here| here.step(step)))
                .collect()
        });
        let cutter_place = self.down("cutter", |here| here.place());
        Some(SetUp {
            place,
            title,
            machine: raw.machine.clone(),
            operation: raw.operation.clone(),
            operation_place,
            cutter: raw.cutter.clone().map(|name| (name, cutter_place)),
            when,
            piece,
            leaves_strip,
            holder,
            settings,
            table,
            steps,
        })
    }

    fn step(&mut self, raw: &RawStep) -> Option<super::model::Step> {
        let place = self.down("do", |here| here.place());
        let act = self.text("do", &raw.act);
        let does = match raw.does.as_deref() {
            Some(word) => self.word("does", word, DOES)?,
            None => Does::Other,
        };
        let each = match raw.each.as_deref() {
            Some(word) => self.word("each", word, &[("yes", true), ("no", false)])?,
            None => does == Does::Cut,
        };
        let keys = if raw.key.texts.is_empty() && !raw.key.is_list {
            Vec::new()
        } else {
            self.texts("key", &raw.key)
        };
        let why = raw.why.as_ref().map(|text| self.text("why", text));
        let check = raw
            .check
            .as_ref()
            .and_then(|check| self.down("check", |here| here.check(check)));
        Some(super::model::Step {
            place,
            does,
            each,
            act,
            keys,
            why,
            check,
        })
    }

    fn check(&mut self, raw: &RawCheck) -> Option<Check> {
        let measure = self.text("measure", &raw.measure);
        let is = self.formula("is", &raw.is);
        let low = self.formula("low", &raw.low);
        let high = self.formula("high", &raw.high);
        let tool_place = self.down("tool", |here| here.place());
        let if_low = self.text("if_low", &raw.if_low);
        let if_high = self.text("if_high", &raw.if_high);
        Some(Check {
            measure,
            is: is?,
            low: low?,
            high: high?,
            tool: (raw.tool.clone(), tool_place),
            if_low,
            if_high,
        })
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
