//! What a set-up's plan view is drawn from: only where each length is known for certain.
//!
//! The set-up says itself how the work is guided (`guided`); without that there is no plan view,
//! since a wrong one is worse. What the fence is measured to, and on which side of the tool a stop
//! stands, is read from the words of the setting, which the sheet prints too; a fence or a stop that
//! is told in other words gives no plan view either.

use std::collections::BTreeMap;

use super::filled::{Drawing, PieceSize, Plan, Setting};
use crate::units::{Length, Scale, Towards, Value};

/// How work is guided past a tool.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Guide {
    /// The work itself runs along the fence.
    Fence,
    /// A sled runs along the fence behind the work.
    Sled,
    /// A carrier runs along the fence, the work between two bars.
    Carrier,
    /// A mitre gauge or sled in the slots of the table; no fence.
    Gauge,
    /// A carriage on the fence, the work upright on it.
    Carriage,
    /// The work is cramped and does not move.
    Cramped,
    /// Rollers draw it through.
    Rollers,
    /// The work is cramped, and the machine runs along a straightedge that is cramped to it.
    Straightedge,
}

/// The word for each in files.
pub(super) const GUIDES: &[(&str, Guide)] = &[
    ("fence", Guide::Fence),
    ("sled", Guide::Sled),
    ("carrier", Guide::Carrier),
    ("gauge", Guide::Gauge),
    ("carriage", Guide::Carriage),
    ("cramped", Guide::Cramped),
    ("rollers", Guide::Rollers),
    ("straightedge", Guide::Straightedge),
];

/// The machines that have a plan view, and what may guide work there.
pub(super) const GUIDED: &[(&str, &[Guide])] = &[
    ("router-table", &[Guide::Fence, Guide::Sled, Guide::Carrier]),
    ("table-saw", &[Guide::Fence, Guide::Gauge, Guide::Carriage]),
    ("band-saw", &[Guide::Fence]),
    ("mitre-saw", &[Guide::Cramped]),
    ("jointer", &[Guide::Fence]),
    ("thicknesser", &[Guide::Rollers]),
    ("drill-press", &[Guide::Cramped]),
    ("mortiser", &[Guide::Cramped]),
    ("hand-router", &[Guide::Straightedge]),
];

/// What a fence's label says, and the name of that length in the figure.
const FENCES: [(&str, &str); 7] = [
    ("to the axis of", "fence"),
    ("out of the fence face", "fence_edge"),
    ("to the far edge of the cutter", "fence_edge"),
    ("to the near side of the teeth", "fence_near"),
    ("to the near side of the blade", "fence_near"),
    ("to the near face of the chisel", "fence_near"),
    ("Straightedge to the left wall", "edge_near"),
];

/// What a stop's label says, and the name of that length in the figure.
const STOPS: [(&str, &str); 5] = [
    ("beyond the cutter (left)", "stop_left"),
    ("before the cutter (right)", "stop_right"),
    ("beyond the front of the teeth", "stop_after"),
    ("to the near side of the", "stop_near"),
    ("to the far side of the", "stop_far"),
];

/// A set-up at a machine, as far as its plan view is concerned.
pub(super) struct Bench<'a> {
    pub(super) plan: Plan,
    pub(super) settings: &'a [Setting],
    /// Cutting diameter; none where the set-up names no cutter.
    pub(super) cutter: Option<Length>,
    pub(super) piece: PieceSize,
    /// Fence of the pass before this one or after it, by the name of that length in the figure.
    pub(super) other_pass: Option<(&'static str, Length)>,
    /// Width of the machine's table.
    pub(super) table: Length,
    /// The shop's own distance of the hands.
    pub(super) hands: Length,
    pub(super) scale: Scale,
}

/// The plan view of a set-up; nothing where a setting is not understood.
pub(super) fn plan_view(bench: Bench<'_>) -> Option<Drawing> {
    let mut lengths = BTreeMap::new();
    let shown = |length: Length| (length, bench.scale.show(length, Towards::Nearest).text);
    let machine = bench.plan.machine.as_str();
    if let Some(fence) = bench.setting("fence").or_else(|| bench.setting("edge")) {
        let (length, text) = length_of(fence)?;
        let named = name_of(fence, &FENCES)?;
        // Work that does not reach from the fence to the cutter is carried by something else.
        let reaches = named != "fence" || bench.piece.width > length;
        if !reaches {
            return None;
        }
        lengths.insert(named.to_owned(), (length, text));
    }
    for stop in bench
        .settings
        .iter()
        .filter(|one| one.name.starts_with("stop"))
    {
        lengths.insert(name_of(stop, &STOPS)?.to_owned(), length_of(stop)?);
    }
    for (name, of) in [("height", "height"), ("width", "kerf")] {
        let saw = machine == "table-saw";
        if let Some(setting) = bench.setting(name).filter(|_| saw) {
            lengths.insert(of.to_owned(), length_of(setting)?);
        }
    }
    if let Some((name, length)) = bench.other_pass {
        lengths.insert(name.to_owned(), shown(length));
    }
    lengths.extend(
        bench
            .cutter
            .map(|cutter| ("cutter".to_owned(), shown(cutter))),
    );
    let away = hands(machine, bench.hands).map(|hands| ("hands".to_owned(), shown(hands)));
    lengths.extend(away);
    lengths.insert("long".to_owned(), shown(bench.piece.length));
    lengths.insert("across".to_owned(), shown(bench.piece.width));
    if matches!(machine, "jointer" | "thicknesser") {
        lengths.insert("table".to_owned(), shown(bench.table));
    }
    let drawable = lengths.values().all(|(length, _)| length.to_nm() > 0);
    let drawable = drawable && is_determined(&bench.plan, &lengths);
    drawable.then(|| Drawing {
        shape: "plan".to_owned(),
        lengths,
        angle: None,
        plan: Some(bench.plan),
    })
}

impl Bench<'_> {
    fn setting(&self, name: &str) -> Option<&Setting> {
        self.settings.iter().find(|setting| setting.name == name)
    }
}

/// Whether place and size of tool and guide follow from the lengths.
fn is_determined(plan: &Plan, lengths: &BTreeMap<String, (Length, String)>) -> bool {
    let has = |name: &str| lengths.contains_key(name);
    let fence = has("fence") || has("fence_edge") || has("fence_near") || has("edge_near");
    match plan.machine.as_str() {
        "table-saw" => {
            let sized = has("cutter") && has("height");
            sized && (plan.guide == Guide::Gauge || fence)
        }
        "band-saw" => fence,
        "mitre-saw" => has("stop_near"),
        "jointer" | "thicknesser" => true,
        _ => fence && has("cutter"),
    }
}

/// How far hands stay from the tool, as the machine's cautions say it; none where they name another
/// measure. Band saw 100 mm, mitre saw 300 mm, jointer 76 mm: `band-saw.yaml`, `mitre-saw.yaml`,
/// `jointer.yaml`; else the shop's own distance.
fn hands(machine: &str, shop: Length) -> Option<Length> {
    match machine {
        "band-saw" => Some(Length::nm(100_000_000)),
        "mitre-saw" => Some(Length::nm(300_000_000)),
        "jointer" => Some(Length::nm(76_000_000)),
        "router-table" | "table-saw" => Some(shop),
        _ => None,
    }
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
