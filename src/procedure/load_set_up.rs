//! The set-ups of a procedure file: settings, table, steps and checks, as part of [`super::load()`].

use super::Does;
use super::filled::MovedBy;
use super::load::Reader;
use super::model::{Check, SetUp, Step, Table};
use super::plan_view::GUIDES;
use super::raw::{RawCheck, RawMovedBy, RawSetUp, RawStep, RawWood};
use crate::diag::{Code, Fault, Span, nearest};
use crate::joints::WoodOn;

/// What a step may say that it does, by the words in files.
pub(super) const DOES: &[(&str, Does)] = &[
    ("cut", Does::Cut),
    ("adjust", Does::Adjust),
    ("measure", Does::Measure),
    ("hand", Does::Hand),
    ("glue", Does::Glue),
    ("other", Does::Other),
];

impl Reader<'_> {
    pub(super) fn set_up(&mut self, raw: &RawSetUp) -> Option<SetUp> {
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
        let guided = raw.guided.as_ref().and_then(|word| {
            let guide = self.word("guided", word, GUIDES)?;
            Some((guide, self.down("guided", |here| here.place())))
        });
        let piece = raw.piece.as_ref().and_then(|piece| {
            self.down("piece", |here| {
                let length = here.formula("length", &piece.length);
                let width = here.formula("width", &piece.width);
                let thickness = here.formula("thickness", &piece.thickness);
                Some([length?, width?, thickness?])
            })
        });
        let settings = self.named("settings", &raw.settings, |here, name, setting| {
            let is = here.formula("is", &setting.is)?;
            Some((name.to_owned(), setting.label.clone(), is))
        });
        let drawn = self.formulas("drawn", &raw.drawn);
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
        let steps = self.steps(&raw.steps);
        let cutter_place = self.down("cutter", |here| here.place());
        let machine_place = self.down("machine", |here| here.place());
        Some(SetUp {
            place,
            title,
            machine: raw.machine.clone().map(|kind| (kind, machine_place)),
            operation: raw.operation.clone(),
            operation_place,
            cutter: raw.cutter.clone().map(|name| (name, cutter_place)),
            when,
            piece,
            leaves_strip,
            holder,
            guided,
            down: raw.down.clone(),
            to_guide: raw.to_guide.clone(),
            drawn,
            settings,
            table,
            steps,
        })
    }

    /// The steps in order, those of a routine in the place of its use.
    pub(super) fn steps(&mut self, raw: &[RawStep]) -> Vec<Step> {
        self.down("steps", |here| {
            let each = raw.iter().enumerate();
            each.flat_map(|(at, step)| {
                here.down(at, |here| match &step.routine {
                    Some(routine) => here.used(routine, step),
                    None => here.step(step).into_iter().collect(),
                })
            })
            .collect()
        })
    }

    /// The steps of a routine, each with the place of its use.
    fn used(&mut self, id: &str, raw: &RawStep) -> Vec<Step> {
        let place = self.down("use", |here| here.place());
        if !raw.is_use_alone() {
            let fault = Fault::error(Code::PROCEDURE_RULE, "`use` stands alone in its step");
            self.note(
                fault
                    .at(place.clone())
                    .hint("write the rest as a step of its own"),
            );
        }
        let Some(routine) = self.routines.get(id) else {
            let known: Vec<_> = self.routines.iter().map(|one| one.id.as_str()).collect();
            let hint = match nearest(id, known.iter().copied()) {
                Some(near) => format!("did you mean `{near}`?"),
                None if known.is_empty() => "write the steps out".to_owned(),
                None => format!("one of: {}", known.join(", ")),
            };
            let message = format!("no routine is called `{id}`");
            let fault = Fault::error(Code::UNKNOWN_NAME, message).at(place);
            self.lose(fault.hint(hint));
            return Vec::new();
        };
        let steps = routine.steps.iter().cloned();
        let used = |step: Step| Step {
            used: Some((id.to_owned(), place.clone())),
            ..step
        };
        steps.map(used).collect()
    }

    fn step(&mut self, raw: &RawStep) -> Option<Step> {
        let Some(act) = &raw.act else {
            let fault = Fault::error(Code::MISSING_KEY, "this step has no `do`");
            let place = self.place();
            self.lose(fault.at(place).hint("write `do: Set the fence ...`"));
            return None;
        };
        let place = self.down("do", |here| here.place());
        let act = self.text("do", act);
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
        let mut said = |key: &str, text: &Option<String>| {
            let text = text.as_ref()?;
            Some(self.text(key, text))
        };
        let only_if = said("if", &raw.only_if);
        let otherwise = said("otherwise", &raw.otherwise);
        let until = said("until", &raw.until);
        let timed = said("timed", &raw.timed);
        let hold = said("hold", &raw.hold);
        let who = said("who", &raw.who);
        let why = said("why", &raw.why);
        let one_of = self.each("one_of", &raw.one_of, |here, text| {
            let place = here.place();
            Some(here.parsed(text, &place))
        });
        let when = raw.when.as_ref();
        let when = when.and_then(|text| self.formula("when", text));
        let check = raw
            .check
            .as_ref()
            .and_then(|check| self.down("check", |here| here.check(check)));
        Some(Step {
            place,
            used: None,
            when,
            only_if,
            does,
            each,
            act,
            otherwise,
            one_of,
            until,
            timed,
            hold,
            who,
            keys,
            why,
            check,
        })
    }

    fn moved_by(&mut self, raw: &RawMovedBy) -> Option<(MovedBy, Span)> {
        let place = self.down("setting", |here| here.place());
        if !(0.01..=100.0).contains(&raw.each.abs()) {
            let message = "the value must change with the setting, at most a hundredfold";
            let fault = Fault::error(Code::OUT_OF_RANGE, message);
            let at = self.down("each", |here| here.place());
            self.note(fault.at(at).hint("write `1`, `-1`, `2` or `-2`"));
            return None;
        }
        let moved_by = MovedBy {
            setting: raw.setting.clone(),
            each: raw.each,
            fit: raw.fit.clone(),
            wood: raw.wood.map(|wood| match wood {
                RawWood::Low => WoodOn::Low,
                RawWood::High => WoodOn::High,
            }),
        };
        Some((moved_by, place))
    }

    fn check(&mut self, raw: &RawCheck) -> Option<Check> {
        let measure = self.text("measure", &raw.measure);
        let is = self.formula("is", &raw.is);
        let low = self.formula("low", &raw.low);
        let high = self.formula("high", &raw.high);
        let tool_place = self.down("tool", |here| here.place());
        let moved_by = (raw.moved_by.as_ref())
            .map(|moved_by| self.down("moved_by", |here| here.moved_by(moved_by)));
        let if_low = self.text("if_low", &raw.if_low);
        let if_high = self.text("if_high", &raw.if_high);
        Some(Check {
            measure,
            is: is?,
            low: low?,
            high: high?,
            tool: (raw.tool.clone(), tool_place),
            moved_by: moved_by.flatten(),
            if_low,
            if_high,
        })
    }
}
