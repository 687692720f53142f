//! What `faceside site` adds from the shop's record, each only when it is asked for: how each joint
//! was last cut here, and who may do what. Beside a cut, people are named where both were asked for.

use super::args::Site;
use super::clock::today;
use super::jobs::put_history;
use super::open::events;
use super::output::Output;
use super::train_roll::roll;
use crate::diag::Fault;
use crate::render::block::Block;
use crate::render::{SitePages, timetable_blocks};
use crate::shoplog::{Day, History, Standing};
use crate::store::Workshop;

/// What is added.
pub(super) struct Added {
    /// The page of people; empty without one.
    people: Vec<Block>,
    /// What holds in the record; nothing unless it was asked for.
    events: Vec<Standing>,
    with_people: bool,
}

impl Added {
    /// Takes from the record what was asked for.
    pub(super) fn of(typed: &Site, workshop: &Workshop, out: &Output) -> Result<Self, Fault> {
        let asked = typed.with_people || typed.with_record;
        let mut events = if asked {
            events(workshop, out)
        } else {
            Vec::new()
        };
        let people = if typed.with_people {
            timetable_blocks(&roll(workshop, &events).timetable(&Day::new(&today())?))
        } else {
            Vec::new()
        };
        if !typed.with_record {
            events.clear();
        }
        Ok(Self {
            people,
            events,
            with_people: typed.with_people,
        })
    }

    /// Puts it on the pages and on the sheets of the job in hand.
    pub(super) fn put_on(&self, pages: &mut SitePages) {
        pages.people.clone_from(&self.people);
        let mut history = History::new(&self.events);
        if self.with_people {
            history = history.with_people();
        }
        if let Some(job) = &mut pages.job {
            put_history(job, &history);
        }
        let lines = history
            .procedures()
            .map(|id| (id.to_owned(), history.of_procedure(id)));
        pages.history = lines.collect();
    }
}
