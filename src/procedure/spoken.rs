//! A filled procedure in other words: those of a region. Values in slots, ids and the shop's own
//! names of machines and cutters stay.

use super::{Filled, FilledSetUp, FilledValue, Run, Setting, Trouble};

/// How a text is said.
pub(super) type Say<'s> = &'s dyn Fn(&str) -> String;

/// The text with its words as `say` says them.
pub(super) fn runs(text: &[Run], say: Say<'_>) -> Vec<Run> {
    text.iter()
        .map(|run| match run {
            Run::Words(words) => Run::Words(say(words)),
            Run::Value { .. } => run.clone(),
        })
        .collect()
}

impl Filled {
    /// The same procedure with its texts as `say` says them.
    pub fn spoken(&self, say: &dyn Fn(&str) -> String) -> Self {
        let texts = |list: &[String]| list.iter().map(|text| say(text)).collect();
        let headed = |list: &[(String, Vec<Vec<Run>>)]| {
            let one = |(head, items): &(String, Vec<Vec<Run>>)| {
                let items = items.iter().map(|item| runs(item, say));
                (head.clone(), items.collect())
            };
            list.iter().map(one).collect()
        };
        Self {
            title: say(&self.title),
            purpose: say(&self.purpose),
            done_when: say(&self.done_when),
            values: (self.values.iter())
                .map(|value| FilledValue {
                    label: say(&value.label),
                    ..value.clone()
                })
                .collect(),
            ready: headed(&self.ready),
            close: headed(&self.close),
            set_ups: self.set_ups.iter().map(|one| set_up(one, say)).collect(),
            troubles: (self.troubles.iter())
                .map(|one| Trouble {
                    see: runs(&one.see, say),
                    cause: runs(&one.cause, say),
                    cure: runs(&one.cure, say),
                })
                .collect(),
            warnings: texts(&self.warnings),
            notes: texts(&self.notes),
            ..self.clone()
        }
    }
}

fn set_up(one: &FilledSetUp, say: Say<'_>) -> FilledSetUp {
    FilledSetUp {
        plan: one.plan.clone(),
        title: say(&one.title),
        holder: one.holder.as_ref().map(|holder| runs(holder, say)),
        settings: (one.settings.iter())
            .map(|setting| Setting {
                label: say(&setting.label),
                ..setting.clone()
            })
            .collect(),
        standing: (one.standing.iter())
            .map(|caution| caution.spoken(say))
            .collect(),
        steps: one.steps.iter().map(|step| step.spoken(say)).collect(),
        ..one.clone()
    }
}
