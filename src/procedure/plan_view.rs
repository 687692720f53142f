//! The lengths of a set-up's plan view, from its settings: only where each is known for certain.
//!
//! A router table whose fence guides the work itself. What the fence is measured to, and on which side of the cutter a
//! stop block stands, is read from the words of the setting, which the sheet prints too; a set-up
//! whose fence or stop is told in other words, or whose work rides on a carriage away from the
//! fence, gets no plan view, since a wrong one is worse.

use std::collections::BTreeMap;

use super::filled::{Drawing, PieceSize, Setting};
use crate::units::{Length, Scale, Towards, Value};

/// What a fence's label says, and the name of that length in the figure.
const FENCES: [(&str, &str); 3] = [
    ("to the axis of the cutter", "fence"),
    ("out of the fence face", "fence_edge"),
    ("to the far edge of the cutter", "fence_edge"),
];

/// What a stop's label says, and the name of that length in the figure.
const STOPS: [(&str, &str); 2] = [
    ("beyond the cutter (left)", "stop_left"),
    ("before the cutter (right)", "stop_right"),
];

/// The plan view of a set-up at the router table; nothing where a setting is not understood.
pub(super) fn plan_view(
    settings: &[Setting],
    cutter: Length,
    piece: Option<PieceSize>,
    hands: Length,
    scale: Scale,
) -> Option<Drawing> {
    let mut lengths = BTreeMap::new();
    let fence = settings.iter().find(|setting| setting.name == "fence")?;
    let named = name_of(fence, &FENCES)?;
    let shape = if named == "fence" {
        "router-table"
    } else {
        "router-table-edge"
    };
    lengths.insert(named.to_owned(), length_of(fence)?);
    let stops = settings
        .iter()
        .filter(|setting| setting.name.starts_with("stop"));
    for stop in stops {
        lengths.insert(name_of(stop, &STOPS)?.to_owned(), length_of(stop)?);
    }
    let shown = |length: Length| (length, scale.show(length, Towards::Nearest).text);
    lengths.insert("cutter".to_owned(), shown(cutter));
    lengths.insert("hands".to_owned(), shown(hands));
    // Work that does not reach from the fence to the cutter is carried by something else.
    let across = piece?.width;
    let (fence, _) = length_of(fence)?;
    if named == "fence" && across.to_nm() <= fence.to_nm() {
        return None;
    }
    lengths.insert("across".to_owned(), shown(across));
    let drawable = lengths.values().all(|(length, _)| length.to_nm() > 0);
    drawable.then(|| Drawing {
        shape: shape.to_owned(),
        lengths,
        angle: None,
    })
}

fn name_of(setting: &Setting, known: &[(&str, &'static str)]) -> Option<&'static str> {
    let says = known
        .iter()
        .find(|(words, _)| setting.label.contains(words));
    says.map(|(_, name)| *name)
}

fn length_of(setting: &Setting) -> Option<(Length, String)> {
    match &setting.value {
        Value::Length(length) => Some((*length, setting.shown.clone())),
        _ => None,
    }
}
