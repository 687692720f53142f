//! The worked example of a procedure: its own example and usual values as a part.

use std::collections::BTreeMap;

use super::model::Procedure;
use super::values::Given;

/// The part that a procedure's own examples describe.
pub fn example(procedure: &Procedure) -> Given {
    let place = &procedure.id_place;
    let mut given = Given {
        part: "worked example".to_owned(),
        place: place.clone(),
        measured: BTreeMap::new(),
        chosen: BTreeMap::new(),
    };
    for measure in procedure
        .measures
        .iter()
        .filter(|measure| measure.later.is_none())
    {
        if let Some(example) = &measure.example {
            let value = (example.clone(), measure.place.clone());
            given.measured.insert(measure.name.clone(), value);
        }
    }
    for choice in &procedure.choices {
        if let Some(example) = &choice.example {
            given
                .chosen
                .insert(choice.name.clone(), (example.clone(), choice.place.clone()));
        }
    }
    given
}
