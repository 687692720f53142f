//! How a joint was last cut here: date, wood, settings, number of test cuts, and what was noted.
//! People are left out of it.

use super::{Event, Standing, Work};

/// Notes that are shown, the newest.
const MOST_NOTES: usize = 2;

/// Lines on when and how a procedure was last cut, newest facts first; of one set-up where it is
/// named. None where it was not.
pub fn last_cut(events: &[Standing], procedure: &str, set_up: Option<&str>) -> Vec<String> {
    let newest = || events.iter().rev();
    let cut = newest().find_map(|one| {
        let work = work(&one.event)?;
        let same = work.procedure == procedure
            && set_up.is_none_or(|title| work.set_up.as_deref() == Some(title));
        same.then_some((one, work))
    });
    let Some((one, work)) = cut else {
        return Vec::new();
    };
    let mut lines = vec![line(one, work, test_cuts(events, one, work))];
    let notes = newest().filter_map(|one| Some((one, note(&one.event, procedure)?)));
    lines.extend(
        notes
            .take(MOST_NOTES)
            .map(|(one, text)| format!("{}: {text}", one.day())),
    );
    lines
}

fn work(event: &Event) -> Option<&Work> {
    match event {
        Event::Run(run) => Some(&run.work),
        Event::TestCut(cut) => Some(&cut.work),
        _ => None,
    }
}

/// Test cuts as the run tells them, else those of that day and set-up that were written down.
fn test_cuts(events: &[Standing], last: &Standing, work: &Work) -> u32 {
    if let Event::Run(run) = &last.event {
        return run.test_cuts;
    }
    let same = events.iter().filter(|one| match &one.event {
        Event::TestCut(cut) => {
            one.day() == last.day()
                && cut.work.procedure == work.procedure
                && cut.work.set_up == work.set_up
        }
        _ => false,
    });
    u32::try_from(same.count()).unwrap_or(u32::MAX)
}

fn line(one: &Standing, work: &Work, test_cuts: u32) -> String {
    let mut parts: Vec<String> = Vec::new();
    parts.extend(work.wood.clone());
    parts.extend(work.machine.clone());
    parts.extend(work.cutter.clone());
    parts.extend(work.settings.iter().map(super::show::setting));
    parts.push(match test_cuts {
        1 => "1 test cut".to_owned(),
        more => format!("{more} test cuts"),
    });
    format!("{} ({}): {}", one.day(), one.mark, parts.join(", "))
}

/// What was noted on a procedure, in one line.
fn note(event: &Event, procedure: &str) -> Option<String> {
    let text = match event {
        Event::Note { text, .. } => text,
        Event::Run(run) => run.note.as_ref()?,
        Event::TestCut(cut) => cut.note.as_ref()?,
        Event::NearMiss(one) => &one.text,
        Event::SheetFault(one) => &one.text,
        _ => return None,
    };
    let about = event.procedure() == Some(procedure);
    about.then(|| {
        text.chars()
            .map(|c| if c.is_control() { ' ' } else { c })
            .collect()
    })
}
