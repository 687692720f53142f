//! The set-ups of a procedure file: settings, table, steps and checks, as part of [`super::load()`].

use super::Does;
use super::load::Reader;
use super::model::{Check, SetUp, Step, Table};
use super::raw::{RawCheck, RawSetUp, RawStep};

const DOES: &[(&str, Does)] = &[
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
        let steps = self.each("steps", &raw.steps, Self::step);
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
            settings,
            table,
            steps,
        })
    }

    fn step(&mut self, raw: &RawStep) -> Option<Step> {
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
        Some(Step {
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
