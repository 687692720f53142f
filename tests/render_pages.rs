//! Checklists and site pages as a reader gets them: every caution before its step, nothing
//! injected, the same bytes each time, the right paper.
//!
//! The job is written by hand (`render_pages/fixture.rs`); its cautions are selected from a book
//! written here, since nothing else can make them. Geometry of the figures is checked against
//! `joinery.md` 3.1 (the source of the fixture's lengths), measured on the drawing itself.

use std::sync::Arc;

use faceside::caution::{Book, Selected};
use faceside::diag::{Code, Source};
use faceside::formula::Values;
use faceside::procedure::{Drawing, Run};
use faceside::render::figure::figure;
use faceside::render::{LIMITS, LIMITS_SHORT, checklist_html, checklist_text, site};
use faceside::shop::Paper;

#[path = "render_pages/fixture.rs"]
mod fixture;

/// Every text with markup, quotes, a change of direction and a character of four bytes.
const HOSTILE: &str = "<script>alert(1)</script>\"'><b onx=1>\u{202e}\u{1b}[31m 𝔽 &amp; </style>";

fn rule(id: &str, stands: &str, signal: &str, says: [&str; 3]) -> String {
    let [hazard, harm, avoid] = says.map(|text| format!("{text:?}"));
    let kind = match stands {
        "adjust" => "isolate",
        "cut" => "hand-distance",
        _ => "dust",
    };
    format!(
        "  - caution: {id}\n    kind: {kind}\n    operations: every\n    stands: {stands}\n    \
         signal: {signal}\n    hazard: {hazard}\n    harm: {harm}\n    avoid: {avoid}\n    \
         sources: [{{cite: workshop practice, fact: RT-01, status: practice}}]\n"
    )
}

const SAYS: [(&str, &str, &str, [&str; 3]); 5] = [
    (
        "t-dust",
        "sheet",
        "warning",
        [
            "The cutter fills the air with fine dust.",
            "Wood dust brings asthma.",
            "Extraction running before the cut.",
        ],
    ),
    (
        "t-isolate",
        "adjust",
        "warning",
        [
            "The cutter can start while your hand is at it.",
            "It cuts to the bone.",
            "Machine unplugged, the plug in sight.",
        ],
    ),
    (
        "t-hands",
        "cut",
        "danger",
        [
            "The cutter rises out of sight inside the work.",
            "A hand above the groove loses fingers.",
            "Hands on the push-blocks beside the line of cut.",
        ],
    ),
    (
        "t-splinter",
        "cut",
        "caution",
        [
            "The edge throws splinters.",
            "They stick in the skin.",
            "Edges broken before the cut.",
        ],
    ),
    (
        "t-tear",
        "cut",
        "notice",
        [
            "The exit tears.",
            "The edge is spoiled.",
            "A backing strip behind the exit.",
        ],
    ),
];
