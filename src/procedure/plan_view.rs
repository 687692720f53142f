//! What a set-up's plan view is drawn from: only where each length is known for certain.
//!
//! The set-up says itself how the work is guided (`guided`); without that there is no plan view,
//! since a wrong one is worse. What the fence is measured to, and on which side of the tool a stop
//! stands, is read from the words of the setting, which the sheet prints too; a fence or a stop that
//! is told in other words gives no plan view either, unless `drawn` says what it is.
//!
//! A set-up in which nothing is cut (a machine trued, measured or cleared, a cutter changed, the plug
//! out) needs no plan view: nothing turns and nothing is fed. `tests/render_pages/plan_views.rs` names
//! every set-up that cuts and has none, with the reason.

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
    /// The work is cramped in a jig that runs along the fence between two stops; the cutter is
    /// covered at the start of its way and hidden in a block at the end.
    Jig,
    /// No fence: the work follows the line on it, or push-blocks carry it.
    Freehand,
    /// The work is cramped, and the machine runs on two boards that leave the cut between them.
    Boards,
    /// The work is cramped, and the machine's guide bush runs in the slot of a jig on it.
    Slot,
    /// The work is cramped on end, and the machine's own guide runs along its support, on the side of
    /// the person.
    EdgeGuide,
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
    ("jig", Guide::Jig),
    ("freehand", Guide::Freehand),
    ("boards", Guide::Boards),
    ("slot", Guide::Slot),
    ("edge-guide", Guide::EdgeGuide),
];

/// The machines that have a plan view, and what may guide work there.
pub(super) const GUIDED: &[(&str, &[Guide])] = &[
    (
        "router-table",
        &[Guide::Fence, Guide::Sled, Guide::Carrier, Guide::Jig],
    ),
    ("table-saw", &[Guide::Fence, Guide::Gauge, Guide::Carriage]),
    ("band-saw", &[Guide::Fence, Guide::Freehand]),
    ("mitre-saw", &[Guide::Cramped]),
    ("jointer", &[Guide::Fence, Guide::Freehand]),
    ("thicknesser", &[Guide::Rollers]),
    ("drill-press", &[Guide::Cramped]),
    ("mortiser", &[Guide::Cramped]),
    (
        "hand-router",
        &[
            Guide::Straightedge,
            Guide::Boards,
            Guide::Slot,
            Guide::EdgeGuide,
        ],
    ),
];

/// Lengths that a set-up tells for its plan view alone, by their names in the figure.
pub(super) const DRAWN: [&str; 14] = [
    // From the fence or carriage to the work, where packing, a plate or a gap is between.
    "rest",
    // From the fence to the pin of a jig, its side that the work bears on.
    "behind",
    "stop_left",
    "stop_right",
    "stop_near",
    // From the end of the work to the near side of the teeth.
    "end_near",
    // From the straightedge to the near side of the cutter.
    "edge_near",
    // From the line where a stopped cut ends to the edge of the work beyond it.
    "stop",
    // From the jig's block to the middle of its slot; the slot's length; the bush in it; the plate.
    "block_axis",
    "slot_long",
    "bush",
    "plate_long",
    "plate_wide",
    // The support that an edge guide runs along, across the feed.
    "support",
];

/// What a fence's label says, and the name of that length in the figure.
const FENCES: [(&str, &str); 10] = [
    ("edge guide to the axis of", "guide_axis"),
    ("to the axis of", "fence"),
    ("out of the fence face", "fence_edge"),
    ("to the far edge of the cutter", "fence_edge"),
    ("to the near side of the teeth", "fence_near"),
    ("to the near side of the blade", "fence_near"),
    ("to the near face of the chisel", "fence_near"),
    ("Straightedge to the left wall", "edge_near"),
    ("Straightedge from the end of", "edge_end"),
    ("from the pin to the cutter", "pin_gap"),
];

/// What a stop's label says, and the name of that length in the figure.
const STOPS: [(&str, &str); 6] = [
    ("beyond the cutter (left)", "stop_left"),
    ("before the cutter (right)", "stop_right"),
    ("beyond the front of the teeth", "stop_after"),
    ("to the near side of the", "stop_near"),
    ("to the far side of the", "stop_far"),
    ("to the end of the housing", "stop_beyond"),
];

/// A set-up at a machine, as far as its plan view is concerned.
pub(super) struct Bench<'a> {
    pub(super) plan: Plan,
    pub(super) settings: &'a [Setting],
    /// Lengths that the set-up tells for this view alone.
    pub(super) drawn: &'a [(&'a str, Length)],
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
    let shown = |length: Length| (length, bench.scale.show(length, Towards::Nearest).text);
    let machine = bench.plan.machine.as_str();
    let drawn = bench.drawn.iter().filter(|(_, length)| length.to_nm() > 0);
    let drawn = drawn.map(|(name, length)| ((*name).to_owned(), bench.as_set(*length)));
    let mut lengths: BTreeMap<String, (Length, String)> = drawn.collect();
    if let Some(fence) = bench.setting("fence").or_else(|| bench.setting("edge")) {
        let (length, text) = length_of(fence)?;
        let named = name_of(fence, &FENCES)?;
        // Work that does not reach from the fence to the cutter is carried by something else.
        let rest = lengths.get("rest").map_or(0, |(rest, _)| rest.to_nm());
        let reaches = named != "fence" || bench.piece.width.to_nm() + rest > length.to_nm();
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
        let told = ["stop_left", "stop_right"].map(|side| lengths.contains_key(side));
        match name_of(stop, &STOPS) {
            Some(named) => {
                lengths.insert(named.to_owned(), length_of(stop)?);
            }
            None if told.contains(&true) => {}
            None => return None,
        }
    }
    if let Some(apart) = bench.setting("apart") {
        lengths.insert("apart".to_owned(), length_of(apart)?);
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
        angle: bench.swing(),
        plan: Some(bench.plan),
        letters: BTreeMap::new(),
    })
}

impl Bench<'_> {
    fn setting(&self, name: &str) -> Option<&Setting> {
        self.settings.iter().find(|setting| setting.name == name)
    }

    /// How far the head of the saw is swung from a square cut, in degrees, and as the sheet shows it.
    fn swing(&self) -> Option<(f64, String)> {
        let set = self.setting("angle")?;
        match set.value {
            Value::Angle(angle) if self.plan.machine == "mitre-saw" => {
                Some((angle.to_degrees(), set.shown.clone()))
            }
            _ => None,
        }
    }

    /// A length as the sheet shows it where it is a setting too, else as a caliper reads it.
    fn as_set(&self, length: Length) -> (Length, String) {
        let mut settings = self.settings.iter();
        let set = settings.find(|setting| setting.value == Value::Length(length));
        let shown = set.map(|setting| setting.shown.clone());
        let shown = shown.unwrap_or_else(|| self.scale.show(length, Towards::Nearest).text);
        (length, shown)
    }
}

/// Whether place and size of tool and guide follow from the lengths.
fn is_determined(plan: &Plan, lengths: &BTreeMap<String, (Length, String)>) -> bool {
    let has = |name: &str| lengths.contains_key(name);
    let fence = has("fence") || has("fence_edge") || has("fence_near") || has("edge_near");
    match plan.guide {
        Guide::Jig => return has("cutter") && (has("fence") && has("rest") || has("pin_gap")),
        Guide::Boards => {
            let length = |name: &str| lengths.get(name).map(|(length, _)| *length);
            return has("cutter") && length("apart") >= length("cutter");
        }
        Guide::Slot => {
            let slot = ["block_axis", "slot_long", "bush"];
            return has("cutter") && slot.into_iter().all(has);
        }
        Guide::EdgeGuide => return has("cutter") && has("guide_axis") && has("support"),
        Guide::Freehand => return true,
        _ => {}
    }
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
