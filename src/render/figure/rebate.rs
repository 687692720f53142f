//! Rebate: the rebated board in section, and both boards together.
//!
//! Needs `board` (T), `mate` (t), `rebate` (w) and `depth` (h); `lip` (q) where it is known
//! (`joinery.md` 2.5). The cut is at the
//! left, its depth from the upper face.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, finish};
use crate::diag::Fault;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (board, mate) = (measures.mm("board")?, measures.mm("mate")?);
    let (wide, deep) = (measures.mm("rebate")?, measures.mm("depth")?);
    measures.demand(deep < board, "the rebate is as deep as the board is thick")?;
    measures.demand(mate <= wide, "the rebate is narrower than its mate")?;
    let beyond = wide + board * 1.2;
    let above = -mate * 1.2;
    let draw = |picture: &mut Picture| {
        let points = [
            (0.0, deep),
            (wide, deep),
            (wide, 0.0),
            (beyond, 0.0),
            (beyond, board),
            (0.0, board),
        ];
        picture.cut(&points, Lean::Right);
        picture.broken((beyond, 0.0), (beyond, board));
    };
    let mut alone = Picture::new((0.0, 0.0), (beyond, board));
    draw(&mut alone);
    measures.mark(&mut alone, Edge::Top, [deep, 0.0], "rebate", [0.0, wide]);
    measures.mark(&mut alone, Edge::Left, [wide, 0.0], "depth", [0.0, deep]);
    measures.mark(&mut alone, Edge::Left, [0.0; 2], "lip", [deep, board]);
    measures.mark(&mut alone, Edge::Right, [beyond; 2], "board", [0.0, board]);
    let says = format!(
        "A board {} thick in section, its edge cut to a step {} wide and {} deep.",
        measures.shown("board"),
        measures.shown("rebate"),
        measures.shown("depth")
    );
    let mut together = Picture::new((0.0, above), (beyond, board));
    draw(&mut together);
    let left = wide - mate;
    together.cut(&boxed((left, above), (wide, deep)), Lean::Left);
    together.broken((left, above), (wide, above));
    measures.mark(&mut together, Edge::Top, [above; 2], "mate", [left, wide]);
    let both = format!(
        "The other board, {} thick, stands in the rebate against its wall; what the first board \
         stands out past it is planed off.",
        measures.shown("mate")
    );
    Ok(finish(vec![
        (alone, "Rebate, section", says),
        (together, "Together, section", both),
    ]))
}
