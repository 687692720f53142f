//! How a joint was last cut here: date, wood, settings, number of test cuts, and what was noted.
//! People are left out of it unless they are asked for.

use std::collections::BTreeMap;

use super::{Event, Standing, Work};

/// Notes that are shown, the newest.
const MOST_NOTES: usize = 2;

/// What the record says of each procedure.
pub struct History<'e> {
    of: BTreeMap<&'e str, Vec<&'e Standing>>,
    people: bool,
}

impl<'e> History<'e> {
    /// The history in these events, without people.
    pub fn new(events: &'e [Standing]) -> Self {
        let mut of: BTreeMap<&str, Vec<&Standing>> = BTreeMap::new();
        for one in events {
            if let Some(procedure) = one.event.procedure() {
                of.entry(procedure).or_default().push(one);
            }
        }
        Self { of, people: false }
    }

    /// The same, people by id or initials.
    #[must_use]
    pub fn with_people(self) -> Self {
        Self {
            people: true,
            ..self
        }
    }

    /// Ids of the procedures that something is said of.
    pub fn procedures(&self) -> impl Iterator<Item = &'e str> {
        self.of.keys().copied()
    }

    /// Lines on when and how a procedure was last cut, then its newest notes; of one set-up where it
    /// is named. None where it was not cut.
    pub fn last_cut(&self, procedure: &str, set_up: Option<&str>) -> Vec<String> {
        let last = self
            .cuts(procedure)
            .find(|(_, work)| set_up.is_none_or(|title| work.set_up.as_deref() == Some(title)));
        let Some((one, work)) = last else {
            return Vec::new();
        };
        let mut lines = vec![self.line(one, work)];
        lines.extend(self.notes(procedure));
        lines
    }

    /// The same of a whole procedure, and of each of its set-ups that was cut; what was noted also
    /// where nothing was cut.
    pub fn of_procedure(&self, procedure: &str) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        let mut met: Vec<Option<&str>> = Vec::new();
        for (one, work) in self.cuts(procedure) {
            let set_up = work.set_up.as_deref();
            if !met.contains(&set_up) {
                met.push(set_up);
                let title = set_up.map(one_line).unwrap_or_default();
                let parts = [title, self.line(one, work)];
                let parts = parts.into_iter().filter(|part| !part.is_empty());
                lines.push(parts.collect::<Vec<_>>().join(": "));
            }
        }
        lines.extend(self.notes(procedure));
        lines
    }

    /// What happened to a procedure, newest first.
    fn newest(&self, procedure: &str) -> impl Iterator<Item = &'e Standing> {
        let all = self.of.get(procedure).map_or(&[][..], Vec::as_slice);
        all.iter().rev().copied()
    }

    fn cuts(&self, procedure: &str) -> impl Iterator<Item = (&'e Standing, &'e Work)> {
        let newest = self.newest(procedure);
        newest.filter_map(|one| Some((one, work(&one.event)?)))
    }

    fn notes(&self, procedure: &str) -> impl Iterator<Item = String> {
        let newest = self.newest(procedure);
        let notes = newest.filter_map(|one| Some((one, note(&one.event)?)));
        notes
            .take(MOST_NOTES)
            .map(|(one, text)| format!("{}{}: {}", one.day(), self.by(one), one_line(text)))
    }

    /// ` by BK`, where people are asked for.
    fn by(&self, one: &Standing) -> String {
        let person = one.event.by().filter(|_| self.people);
        person.map(|by| format!(" by {by}")).unwrap_or_default()
    }

    fn line(&self, one: &Standing, work: &Work) -> String {
        let mut parts: Vec<String> = Vec::new();
        parts.extend(work.wood.clone());
        parts.extend(work.machine.clone());
        parts.extend(work.cutter.clone());
        parts.extend(work.settings.iter().map(super::show::setting));
        parts.push(match self.test_cuts(one, work) {
            1 => "1 test cut".to_owned(),
            more => format!("{more} test cuts"),
        });
        let parts = one_line(&parts.join(", "));
        format!("{} ({}){}: {parts}", one.day(), one.mark, self.by(one))
    }

    /// Test cuts as the run tells them, else those of that day and set-up that were written down.
    fn test_cuts(&self, last: &Standing, work: &Work) -> u32 {
        if let Event::Run(run) = &last.event {
            return run.test_cuts;
        }
        let same = self.newest(&work.procedure).filter(|one| match &one.event {
            Event::TestCut(cut) => one.day() == last.day() && cut.work.set_up == work.set_up,
            _ => false,
        });
        u32::try_from(same.count()).unwrap_or(u32::MAX)
    }
}

fn work(event: &Event) -> Option<&Work> {
    match event {
        Event::Run(run) => Some(&run.work),
        Event::TestCut(cut) => Some(&cut.work),
        _ => None,
    }
}

/// What was noted.
fn note(event: &Event) -> Option<&str> {
    match event {
        Event::Note { text, .. } => Some(text),
        Event::Run(run) => run.note.as_deref(),
        Event::TestCut(cut) => cut.note.as_deref(),
        Event::NearMiss(one) => Some(&one.text),
        Event::SheetFault(one) => Some(&one.text),
        _ => None,
    }
}

/// What was typed may hold line breaks or worse.
fn one_line(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect()
}
