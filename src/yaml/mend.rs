//! All type faults of a text, not only the first: each is mended in a copy, which is read again.
//!
//! A mended place gets the least value of the wanted shape; what is found below it afterwards is
//! of our own making and is not told.

use std::sync::Arc;

use serde::de::DeserializeOwned;
use serde_yaml::{Mapping, Value};

use super::slip::{Kind, Slip, Wanted};
use super::walk::Step;
use crate::diag::{Faults, Source, nearest};

/// Most faults of types that are told of one text, and most rounds of mending.
const MOST_TOLD: usize = 20;
const MOST_ROUNDS: usize = 60;

/// Most bytes that all rounds read together: each writes the whole copy and reads it again.
const MOST_READ: usize = 512 * 1024;

/// Every type fault that can be told, beginning with the error of the first read.
pub(super) fn type_faults<T: DeserializeOwned>(
    source: &Arc<Source>,
    first: serde_yaml::Error,
) -> Faults {
    let mut faults = Faults::new();
    let mut tree = serde_yaml::from_str(&source.text).unwrap_or(Value::Null);
    let mut mended: Vec<Vec<Step>> = Vec::new();
    let mut error = first;
    let rounds = MOST_READ / source.text.len().max(1);
    for _ in 0..rounds.clamp(1, MOST_ROUNDS) {
        let slip = Slip::of(&error, &tree);
        let ours = mended.iter().any(|path| slip.path.starts_with(path));
        if !ours {
            faults.push(slip.fault(source));
        }
        if faults.len() == MOST_TOLD {
            break;
        }
        let Some(path) = mend(&mut tree, &slip) else {
            break;
        };
        mended.extend(path);
        match serde_yaml::to_string(&tree).and_then(|text| serde_yaml::from_str::<T>(&text)) {
            Ok(_) => break,
            Err(next) => error = next,
        }
    }
    faults
}

/// Changes the tree so that the slip is gone; the path below which its value is now ours, if it
/// is. Nothing when it cannot be mended.
fn mend(tree: &mut Value, slip: &Slip) -> Option<Option<Vec<Step>>> {
    let mut path = slip.path.clone();
    let node = node_at(tree, &path)?;
    match &slip.kind {
        Kind::UnknownKey { key, known } => {
            let entries = node.as_mapping_mut()?;
            let value = entries.remove(key)?;
            let near = nearest(key, known.iter().map(String::as_str));
            if let Some(near) = near.filter(|near| !entries.contains_key(*near)) {
                entries.insert(near.into(), value);
            }
            return Some(None);
        }
        Kind::MissingKey(key) => {
            path.push(Step::Key(key.clone()));
            node.as_mapping_mut()?
                .insert(key.as_str().into(), String::new().into());
        }
        Kind::UnknownWord { known, .. } => replace(node, known.first()?.as_str().into())?,
        Kind::WrongType { wanted, .. } => replace(node, least(Wanted::of(wanted)?))?,
        Kind::Other(_) => return None,
    }
    Some(Some(path))
}

fn replace(node: &mut Value, value: Value) -> Option<()> {
    let changes = *node != value;
    *node = value;
    changes.then_some(())
}

fn least(wanted: Wanted) -> Value {
    match wanted {
        Wanted::Text => String::new().into(),
        Wanted::List => Value::Sequence(Vec::new()),
        Wanted::Group => Value::Mapping(Mapping::new()),
        Wanted::Whole => 1.into(),
        Wanted::Number => 1.0.into(),
        Wanted::Truth => true.into(),
    }
}

fn node_at<'t>(tree: &'t mut Value, path: &[Step]) -> Option<&'t mut Value> {
    path.iter().try_fold(tree, |node, step| match step {
        Step::Key(key) => node.get_mut(key),
        Step::Item(item) => node.get_mut(*item),
    })
}
