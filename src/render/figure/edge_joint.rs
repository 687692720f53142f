//! Edge joint: two boards in section, and the joint from above with its cramps.
//!
//! Needs `board` (T), `board_width` (W), `joint_length` (L), `first_cramp` (c) and `spacing` (s)
//! (`joinery.md` 3.12).

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, finish};
use crate::diag::Fault;

/// Most cramps that are drawn.
const MOST: usize = 100;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (board, wide) = (measures.mm("board")?, measures.mm("board_width")?);
    let mut ends = Picture::new((-wide, 0.0), (wide, board));
    ends.cut(&boxed((-wide, 0.0), (0.0, board)), Lean::Right);
    ends.cut(&boxed((0.0, 0.0), (wide, board)), Lean::Left);
    measures.mark(&mut ends, Edge::Top, [0.0; 2], "board_width", [-wide, 0.0]);
    measures.mark(&mut ends, Edge::Right, [wide; 2], "board", [0.0, board]);
    let says = format!(
        "Two boards in section, {} thick and {} wide, edge to edge, the glue line upright between \
         them.",
        measures.shown("board"),
        measures.shown("board_width")
    );
    let (plan, plan_says) = plan(measures, wide)?;
    let mut views = finish(vec![(ends, "Together, section", says)]);
    views.extend(finish(vec![(plan, "Cramps, from above", plan_says)]));
    Ok(views)
}

fn plan(measures: &Measures<'_>, wide: f64) -> Result<(Picture, String), Fault> {
    let (long, first) = (measures.mm("joint_length")?, measures.mm("first_cramp")?);
    let spacing = measures.mm("spacing")?;
    measures.demand(first < long, "the first cramp lies beyond the joint")?;
    measures.demand(
        long / spacing < MOST as f64,
        "the cramps are too many to draw",
    )?;
    let over = wide * 0.3;
    let mut picture = Picture::new((0.0, -wide - over), (long, wide + over));
    picture.outline(&boxed((0.0, -wide), (long, 0.0)));
    picture.outline(&boxed((0.0, 0.0), (long, wide)));
    let axes = (0..MOST).map(|at| first + spacing * at as f64);
    let axes: Vec<f64> = axes.take_while(|axis| *axis < long).collect();
    for axis in &axes {
        picture.centre((*axis, -wide - over), (*axis, wide + over));
    }
    let top = -wide - over;
    measures.mark(
        &mut picture,
        Edge::Top,
        [-wide, top],
        "first_cramp",
        [0.0, first],
    );
    if let Some(next) = axes.get(1) {
        measures.mark(&mut picture, Edge::Top, [top; 2], "spacing", [first, *next]);
    }
    measures.mark(
        &mut picture,
        Edge::Bottom,
        [wide; 2],
        "joint_length",
        [0.0, long],
    );
    let says = format!(
        "Both boards from above, the joint {} long; {} cramps across it, the first {} from the end, \
         then {} from cramp to cramp.",
        measures.shown("joint_length"),
        axes.len(),
        measures.shown("first_cramp"),
        measures.shown("spacing")
    );
    Ok((picture, says))
}
