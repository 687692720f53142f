//! `faceside train --timetable` and `--person`: who may do what, from the record.

use serde_json::{Value, json};

use super::clock::today;
use super::open::events;
use super::output::Output;
use super::{End, Stop};
use crate::procedure::{example, fill};
use crate::shoplog::{Day, Person, Standing};
use crate::store::Workshop;
use crate::training::{Course, Lesson, Roll, State, Timetable};

/// The roll of the shop after what happened in it.
pub(super) fn roll(workshop: &Workshop, events: &[Standing]) -> Roll {
    let place = workshop.place();
    let courses = workshop.usable().filter_map(|procedure| {
        let filled = fill(procedure, place, &example(procedure, place)).ok()?;
        let lesson = Lesson::new(&filled, &workshop.limits.short).ok()?;
        let after = procedure.after.iter().map(|(id, _)| id.clone());
        Some(Course::of(&lesson, after.collect()))
    });
    taken(Roll::new(courses), events)
}

/// The roll of one procedure alone, which need not fill the others.
pub(super) fn roll_of_one(lesson: &Lesson, events: &[Standing]) -> Roll {
    taken(Roll::new([Course::of(lesson, Vec::new())]), events)
}

fn taken(mut roll: Roll, events: &[Standing]) -> Roll {
    for one in events {
        if let Ok(day) = Day::new(one.day()) {
            // What the training does not allow was not signed by this program; it does not count.
            let _ = roll.take(&one.event, &day);
        }
    }
    roll
}

/// Who may do what.
pub(super) fn timetable(
    workshop: &Workshop,
    as_json: bool,
    out: &mut Output,
) -> Result<Timetable, Stop> {
    let table = roll(workshop, &events(workshop, out)).timetable(&Day::new(&today())?);
    if as_json {
        out.say(&format!("{:#}", timetable_json(&table)));
        return Ok(table);
    }
    if table.rows.is_empty() {
        out.say("No training is recorded. `faceside train PROCEDURE` gives a lesson.");
        return Ok(table);
    }
    let width = Output::width();
    out.say(&format!("Timetable, {}", table.day));
    out.say(&lines(&table, width));
    let others = table.others;
    out.say(&format!(
        "{others} procedures more, which nobody has begun."
    ));
    out.say(&textwrap::fill(&Timetable::house_values(), width));
    Ok(table)
}

/// A table where it fits, else a line for each person under each procedure.
fn lines(table: &Timetable, width: usize) -> String {
    let mut rows = vec![table.head()];
    rows.extend(table.rows.iter().map(Timetable::cells));
    let columns = rows[0].len();
    let wide = |at: usize| rows.iter().map(|row| row[at].len()).max().unwrap_or(0);
    let widths: Vec<usize> = (0..columns).map(wide).collect();
    if widths.iter().sum::<usize>() + 2 * (columns - 1) <= width {
        let line = |row: &Vec<String>| {
            let cells = row.iter().zip(&widths);
            let cells: Vec<_> = cells.map(|(cell, wide)| format!("{cell:<wide$}")).collect();
            cells.join("  ").trim_end().to_owned()
        };
        return rows.iter().map(line).collect::<Vec<_>>().join("\n");
    }
    let mut all = Vec::new();
    for row in &table.rows {
        all.push(row.procedure.clone());
        for (person, state) in table.people.iter().zip(&row.states) {
            all.extend(
                state
                    .as_ref()
                    .map(|state| format!("  {person:<8} {}", state.stage.cell())),
            );
        }
    }
    all.join("\n")
}

fn timetable_json(table: &Timetable) -> Value {
    let rows = table.rows.iter().map(|row| {
        let states = table.people.iter().zip(&row.states);
        let states = states.filter_map(|(person, state)| {
            let mut all = state_json(state.as_ref()?);
            all["person"] = json!(person);
            Some(all)
        });
        json!({
            "procedure": row.procedure, "title": row.title, "may_alone": row.allowed(),
            "people": states.collect::<Vec<_>>(),
        })
    });
    json!({
        "version": 1, "day": table.day, "procedures": rows.collect::<Vec<_>>(),
        "not_begun": table.others,
    })
}

fn state_json(state: &State) -> Value {
    json!({
        "state": state.stage.name(), "shown": state.stage.cell(), "reason": state.reason,
        "next": state.next, "machines": state.machines, "limits": state.limits,
    })
}

/// A person's own record.
pub(super) fn person(
    person: &Person,
    workshop: &Workshop,
    as_json: bool,
    out: &mut Output,
) -> Result<End, Stop> {
    let roll = roll(workshop, &events(workshop, out));
    let states = roll.of(person, &Day::new(&today())?).map_err(Stop::Usage)?;
    if as_json {
        let states = states.iter().map(|(course, state)| {
            let mut all = state_json(state);
            all["procedure"] = json!(course.id);
            all
        });
        let states: Vec<_> = states.collect();
        let all = json!({"version": 1, "person": person, "procedures": states});
        out.say(&format!("{all:#}"));
        return Ok(End::Done);
    }
    let width = Output::width();
    for (course, state) in &states {
        out.say(&format!("{}: {}", course.id, state.stage.cell()));
        let facts = [
            ("why", state.reason.clone()),
            ("machines", state.machines.join(", ")),
            ("limits", state.limits.clone().unwrap_or_default()),
            ("next", state.next.clone()),
        ];
        for (name, said) in facts.into_iter().filter(|(_, said)| !said.is_empty()) {
            let options = textwrap::Options::new(width)
                .initial_indent("  ")
                .subsequent_indent("    ");
            out.say(&textwrap::fill(&format!("{name}: {said}"), options));
        }
    }
    out.say(&textwrap::fill(&Timetable::house_values(), width));
    Ok(End::Done)
}
