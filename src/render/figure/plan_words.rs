//! A plan view in words: the same as the picture, for who cannot see it.

use super::plan::Scene;
use super::plan_machine::{Tool, guard};
use crate::procedure::Guide;

/// What the whole view shows.
pub(super) fn says(scene: &Scene<'_>) -> String {
    let (machine, plan, shown) = (scene.machine, scene.plan, |name: &str| {
        scene.measures.shown(name)
    });
    let mut said = vec![machine.stands.to_owned()];
    said.extend(scene.fence.map(|name| fence(scene, name)));
    let size = shown("cutter");
    said.push(match (machine.tool, size) {
        (Tool::Round | Tool::Chisel | Tool::Blade | Tool::Chop, size) if !size.is_empty() => {
            format!("{}; {size} across", machine.tool_says)
        }
        _ => machine.tool_says.to_owned(),
    });
    for (name, words) in [
        ("height", "The blade stands above the table by"),
        ("kerf", "The width that it cuts is"),
        ("table", "The width of the table is"),
    ] {
        if scene.measures.has(name) {
            said.push(format!("{words} {}", shown(name)));
        }
    }
    said.push(machine.feed_says.to_owned());
    said.push(format!(
        "The work measures {} along the feed and {} across{}",
        shown("long"),
        shown("across"),
        guided(plan.guide)
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
    let guard = guard(&plan.machine, &plan.operation);
    said.push(format!("The {guard} over it is drawn dashed, not to size"));
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
        ("fence", _) => "the axis of the tool",
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
        Guide::Fence | Guide::Sled | Guide::Carrier | Guide::Cramped => "fence",
    }
}

fn guided(guide: Guide) -> &'static str {
    match guide {
        Guide::Fence => ", and runs along the fence itself",
        Guide::Sled => "; a sled, drawn not to size, runs along the fence behind it",
        Guide::Carrier => "; it lies between the bars of a carrier, drawn not to size",
        Guide::Gauge => "; it lies before the face of the gauge, drawn not to size",
        Guide::Carriage => "; it stands on end, cramped to the carriage, a backing block behind it",
        Guide::Straightedge => "; the straightedge lies on it, clear of the cut",
        Guide::Cramped | Guide::Rollers => "",
    }
}
