//! Frame and panel: the stile in section with its groove, and the panel in it.
//!
//! Needs `board` (T, the frame), `mortised_width` (V, the stile), `groove` (k), `depth` (h), `wall`
//! (f), `panel_edge` (p) and `gap` (z), what is left before the groove's bottom with the panel in
//! the middle (`joinery.md` 3.11).

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, finish};
use crate::diag::Fault;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (board, wide) = (measures.mm("board")?, measures.mm("mortised_width")?);
    let (groove, depth) = (measures.mm("groove")?, measures.mm("depth")?);
    let (wall, thin) = (measures.mm("wall")?, measures.mm("panel_edge")?);
    let gap = measures.mm("gap")?;
    measures.demand(
        wall + groove < board,
        "the groove leaves no wall at the back",
    )?;
    measures.demand(depth < wide, "the groove is as deep as the stile is wide")?;
    measures.demand(thin <= groove, "the panel is thicker than the groove")?;
    measures.demand(gap < depth, "the panel does not reach into the groove")?;
    let (far, beyond) = (wall + groove, depth.max(board));
    let stile = [
        (-wide, 0.0),
        (0.0, 0.0),
        (0.0, wall),
        (-depth, wall),
        (-depth, far),
        (0.0, far),
        (0.0, board),
        (-wide, board),
    ];
    let mut alone = Picture::new((-wide, 0.0), (0.0, board));
    alone.cut(&stile, Lean::Right);
    measures.mark(&mut alone, Edge::Top, [wall, 0.0], "depth", [-depth, 0.0]);
    let across = [-wide, 0.0];
    measures.mark(
        &mut alone,
        Edge::Bottom,
        [board; 2],
        "mortised_width",
        across,
    );
    measures.mark(&mut alone, Edge::Right, [0.0; 2], "groove", [wall, far]);
    measures.mark(&mut alone, Edge::Right, [0.0; 2], "wall", [0.0, wall]);
    measures.mark(&mut alone, Edge::Left, [-wide; 2], "board", [0.0, board]);
    let says = format!(
        "A stile {} thick and {} wide, cut through, face side at the top: in its inner edge a \
         groove {} wide and {} deep, {} from the face.",
        measures.shown("board"),
        measures.shown("mortised_width"),
        measures.shown("groove"),
        measures.shown("depth"),
        measures.shown("wall")
    );
    let top = f64::midpoint(wall, far) - thin / 2.0;
    let mut together = Picture::new((-wide, 0.0), (beyond, board));
    together.cut(&stile, Lean::Right);
    together.cut(&boxed((gap - depth, top), (beyond, top + thin)), Lean::Left);
    together.broken((beyond, top), (beyond, top + thin));
    let left = [-depth, gap - depth];
    measures.mark(&mut together, Edge::Top, [wall, top], "gap", left);
    let thick = [top, top + thin];
    measures.mark(&mut together, Edge::Right, [beyond; 2], "panel_edge", thick);
    let both = format!(
        "The panel, {} thick at its edge, loose in the groove; {} stays free before the bottom, so \
         that it can move.",
        measures.shown("panel_edge"),
        measures.shown("gap")
    );
    Ok(finish(vec![
        (alone, "Stile, section", says),
        (together, "Together, section", both),
    ]))
}
