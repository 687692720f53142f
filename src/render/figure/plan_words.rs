//! A plan view in words: the same as the picture, for who cannot see it.

use super::plan::Scene;
use super::plan_machine::{Tool, guard};
use crate::procedure::Guide;

/// What the whole view shows.
pub(super) fn says(scene: &Scene<'_>) -> String {
    let (machine, plan, shown) = (scene.machine, scene.plan, |name: &str| {
        scene.measures.shown(name)
    });
    let mut said = vec![stands(scene).to_owned()];
    said.extend(scene.fence.map(|name| fence(scene, name)));
    let size = shown("cutter");
    said.push(match (machine.tool, size) {
        (Tool::Round | Tool::Chisel | Tool::Blade | Tool::Chop, size) if !size.is_empty() => {
            format!("{}; {size} across", machine.tool_says)
        }
        _ => machine.tool_says.to_owned(),
    });
    said.extend(scene.measures.angle().map(|_| {
        let angle = scene.measures.angle_shown();
        format!(
            "The head is swung by {angle} from a square cut: the blade runs from the fence toward the \
             person and to the left, so that the face at the fence stays the longer one"
        )
    }));
    for (name, words) in [
        ("height", "The blade stands above the table by"),
        ("kerf", "The width that it cuts is"),
        ("table", "The width of the table is"),
    ] {
        if scene.measures.has(name) {
            said.push(format!("{words} {}", shown(name)));
        }
    }
    said.push(feed(scene).to_owned());
    said.push(format!(
        "The work measures {} along the feed and {} across{}",
        shown("long"),
        shown("across"),
        guided(scene)
    ));
    match (&plan.down, &plan.to_guide) {
        (Some(down), Some(to)) => {
            said.push(format!(
                "Down on the table: {down}; against the {}: {to}",
                rest(plan.guide)
            ));
        }
        (Some(down), None) => said.push(format!("Down on the table: {down}")),
        (None, Some(to)) => said.push(format!("Against the {}: {to}", rest(plan.guide))),
        (None, None) => {}
    }
    for (name, words) in STOPS {
        if scene.measures.has(name) {
            said.push(format!("{words}: {}", shown(name)));
        }
    }
    said.extend(more(scene));
    said.push(format!(
        "The {} over it is drawn dashed, not to size",
        guard(plan)
    ));
    said.extend(
        machine
            .held
            .map(|held| format!("Keep {held} until the cutter stands still")),
    );
    if scene.measures.has("hands") {
        said.push(format!(
            "Hands stay outside the line around the tool, {} from it",
            shown("hands")
        ));
    }
    said.join(". ") + "."
}

/// The lengths beside fence and stops.
fn more(scene: &Scene<'_>) -> Vec<String> {
    let mut said = Vec::new();
    if scene.measures.has("rest") {
        let words = match scene.plan.guide {
            Guide::Jig => "From the face of the fence to the edge of the work in the jig",
            Guide::Carrier => "The end of the work is drawn back from the fence by",
            _ => "Between the work and what it bears on lies packing of",
        };
        said.push(format!("{words}: {}", scene.measures.shown("rest")));
    }
    for (name, words) in LENGTHS {
        if scene.measures.has(name) {
            said.push(format!("{words}: {}", scene.measures.shown(name)));
        }
    }
    let placed = ["stop_near", "stop_far", "end_near"];
    if scene.plan.guide == Guide::Gauge && !placed.iter().any(|name| scene.measures.has(name)) {
        said.push("The mark on the work places it; it is drawn cut in its middle".to_owned());
    }
    said
}

/// What the enlarged view shows.
pub(super) fn near(scene: &Scene<'_>) -> String {
    let shown = |name: &str| scene.measures.shown(name);
    let mut said = vec![format!(
        "Fence and cutter enlarged. {}. The cutter is {} across and turns against the clock",
        scene
            .fence
            .map_or_else(String::new, |name| fence(scene, name)),
        shown("cutter")
    )];
    if scene.measures.has("pass_before") {
        said.push(format!(
            "The pass before this one is drawn dashed and numbered 1, its fence at {}; this pass \
             is numbered 2",
            shown("pass_before")
        ));
    }
    if scene.measures.has("pass_after") {
        said.push(format!(
            "This pass is numbered 1; the pass after it is drawn dashed and numbered 2, its fence \
             at {}",
            shown("pass_after")
        ));
    }
    said.join(". ") + "."
}

/// Lengths that are told beside fence and stops.
const LENGTHS: [(&str, &str); 11] = [
    (
        "behind",
        "From the face of the fence to that side of the pin, about",
    ),
    ("plate_long", "The plate of the jig is as long as"),
    ("plate_wide", "The plate of the jig is as wide as"),
    (
        "edge_end",
        "The end of the work lies on the side of the person, from the straightedge to it",
    ),
    (
        "apart",
        "The guide boards leave open between their trimmed edges",
    ),
    (
        "slot_long",
        "The slot in the plate of the jig is as long as",
    ),
    ("bush", "The guide bush in it is as wide as"),
    (
        "support",
        "The near support, on whose side toward the person the edge guide runs, is as thick as",
    ),
    (
        "end_near",
        "From the end of the work to the near side of the teeth",
    ),
    (
        "stop",
        "The cut ends before the edge of the work, at the right, by",
    ),
    (
        "stop_beyond",
        "A stop block across the way of the base, its face beyond the end of the cut",
    ),
];

const STOPS: [(&str, &str); 5] = [
    (
        "stop_left",
        "A stop block at the left, its face from the left edge of the cutter",
    ),
    (
        "stop_right",
        "A stop block at the right, its face from the right edge of the cutter",
    ),
    (
        "stop_after",
        "A stop on the fence behind the blade, its face beyond the front of the teeth",
    ),
    (
        "stop_near",
        "The stop, its face from the near side of the teeth; it is drawn on one side, and on the other all is the same in mirror",
    ),
    (
        "stop_far",
        "The stop, its face from the far side of the teeth; it is drawn on one side, and on the other all is the same in mirror",
    ),
];

fn fence(scene: &Scene<'_>, name: &str) -> String {
    let to = match (name, scene.machine.tool) {
        ("pin_gap", _) => {
            let gap = scene.measures.shown(name);
            return format!("From the pin of the jig to the near side of the cutter: {gap}");
        }
        ("fence" | "guide_axis" | "block_axis", _) => "the axis of the tool",
        ("edge_near", _) if scene.measures.has("edge_end") => {
            "the near side of the cutter, which cuts the shoulder"
        }
        ("edge_near", _) => "the near side of the cutter, which cuts the left wall",
        ("fence_edge", _) => "the far edge of the cutter, the one toward the person",
        (_, Tool::Chisel) => "the near face of the chisel",
        _ => "the near side of the teeth",
    };
    let from = rest(scene.plan.guide);
    format!(
        "From the face of the {from} to {to}: {}",
        scene.measures.shown(name)
    )
}

/// What the work bears on.
pub(super) fn rest(guide: Guide) -> &'static str {
    match guide {
        Guide::Carriage => "carriage",
        Guide::Gauge => "gauge",
        Guide::Rollers => "rollers",
        Guide::Straightedge => "straightedge",
        Guide::Boards => "guide boards",
        Guide::Slot => "block of the jig",
        Guide::EdgeGuide => "edge guide",
        Guide::Fence
        | Guide::Sled
        | Guide::Carrier
        | Guide::Cramped
        | Guide::Jig
        | Guide::Freehand => "fence",
    }
}

/// Where guide and person are.
fn stands(scene: &Scene<'_>) -> &'static str {
    match scene.plan.guide {
        Guide::Boards => {
            "Two guide boards lie across the work, the person in front of them; the base runs along \
             the strip of the far one"
        }
        Guide::Slot => {
            "The jig is cramped on the work, its block at the far face, the person in front; seen \
             from the other side all is the same"
        }
        Guide::EdgeGuide => {
            "The edge guide is on the side of the person, against the near support; the work stands \
             beyond it"
        }
        Guide::Freehand if scene.machine.tool == Tool::Band => {
            "The person is in front; there is no fence on the table"
        }
        _ => scene.machine.stands,
    }
}

/// How the work passes the tool, or the tool the work.
fn feed(scene: &Scene<'_>) -> &'static str {
    match scene.plan.guide {
        Guide::Boards => {
            "The router is fed from left to right, first near the person but off the near board, \
             each next pass farther away, the last, which is drawn, along the far board; the near \
             wall is cut in the same way from the other side of the bench"
        }
        Guide::Slot => {
            "The router makes a hole at each end of the slot, then goes clockwise round it; the work \
             does not move"
        }
        Guide::EdgeGuide => {
            "The router starts in the near support and is pushed away from the person until the \
             guide stops it, each push beside the last and farther to the left (1); then it runs \
             along the far wall from left to right (2); the work does not move"
        }
        _ => scene.machine.feed_says,
    }
}

fn guided(scene: &Scene<'_>) -> &'static str {
    match scene.plan.guide {
        Guide::Jig => {
            "; it is cramped in a jig, drawn not to size, whose back runs along the fence: at the \
             stop block on the right the cutter stands under the cover, at the one on the left it is \
             hidden in the block behind the work; hands stay on the handles"
        }
        Guide::Freehand if scene.machine.tool == Tool::Block => {
            ", and push-blocks carry it past the block under the guard"
        }
        Guide::Freehand => ", and follows the line on it, a hand on each side of the line",
        Guide::Boards => {
            "; it lies under the boards between two side boards of its own thickness, on which the \
             cutter starts and ends"
        }
        Guide::Slot => "; the bush runs in the slot of the plate, which carries the base",
        Guide::EdgeGuide => "; it stands on end between two supports level with its end",
        Guide::Straightedge if scene.measures.has("edge_end") => {
            "; the straightedge lies on it; a run-on block at its left edge, a backing block at its \
             right edge and a support strip beyond its end carry the base"
        }
        Guide::Fence => ", and runs along the fence itself",
        Guide::Sled => "; a sled, drawn not to size, runs along the fence behind it",
        Guide::Carrier => "; it lies between the bars of a carrier, drawn not to size",
        Guide::Gauge => "; it lies before the face of the gauge, drawn not to size",
        Guide::Carriage => "; it stands on end, cramped to the carriage, a backing block behind it",
        Guide::Straightedge => "; the straightedge lies on it, clear of the cut",
        Guide::Cramped | Guide::Rollers => "",
    }
}
