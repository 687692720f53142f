//! The worked example of a procedure: its own example and usual values as a part.

use std::collections::BTreeMap;

use super::model::{Procedure, Want};
use super::values::Given;
use super::workplace::Workplace;

/// The part that a procedure's own examples describe. A cutter that is not in this drawer is left
/// out, so that one that fits is picked.
pub fn example(procedure: &Procedure, at: Workplace<'_>) -> Given {
    let place = &procedure.id_place;
    let mut given = Given {
        part: "worked example".to_owned(),
        place: place.clone(),
        measured: BTreeMap::new(),
        chosen: BTreeMap::new(),
        names: BTreeMap::new(),
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
        let here = |id: &String| match choice.want {
            Want::Cutter { .. } => at.cutter(id).is_some(),
            Want::Quantity { .. } | Want::Word(_) => true,
        };
        if let Some(example) = choice.example.as_ref().filter(|example| here(example)) {
            given
                .chosen
                .insert(choice.name.clone(), (example.clone(), choice.place.clone()));
        }
    }
    given
}
