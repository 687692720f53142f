//! `people.yaml`: who may sign others off in every procedure.
//!
//! ```yaml
//! instructors: [I02, BK]
//! ```
//!
//! A file of its own, since the other files of a shop go into its pages, and people do not.

use std::sync::Arc;

use serde::Deserialize;

use crate::diag::{Faults, Source};
use crate::shoplog::Person;
use crate::yaml::read;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawPeople {
    instructors: Vec<Person>,
}

/// The instructors of `people.yaml`; nobody when it is wrong.
pub fn read_people(source: &Arc<Source>) -> (Vec<Person>, Faults) {
    match read::<RawPeople>(source) {
        Ok(people) => (people.instructors, Faults::new()),
        Err(faults) => (Vec::new(), faults),
    }
}
