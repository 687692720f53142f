//! Housing: the grooved board in section, and both boards together.
//!
//! Needs `stock` (what enters), `side` (the grooved board), `width` and `depth` of the housing.

use super::View;
use super::measures::Measures;
use super::section::Extent;
use super::svg::{Edge, Picture, finish};
use crate::diag::Fault;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (board, says) = grooved(measures)?;
    let (joint, together) = joint(measures)?;
    Ok(finish(vec![
        (board, "Housing, section", says),
        (joint, "Together, section", together),
    ]))
}

/// The grooved board in section, and the same in words.
fn grooved(measures: &Measures<'_>) -> Result<(Picture, String), Fault> {
    let (extent, width, depth) = lengths(measures)?;
    let half = width / 2.0;
    let mut picture = extent.board_picture();
    extent.board(&mut picture, &groove(half, depth));
    let across = measures.dimension("width", -half, half);
    picture.measure(Edge::Top, [0.0; 2], across);
    let deep = measures.dimension("depth", 0.0, depth);
    picture.measure(Edge::Right, [extent.aside, half], deep);
    let thick = measures.dimension("side", 0.0, extent.side);
    picture.measure(Edge::Left, [-extent.aside; 2], thick);
    let says = format!(
        "A board {} thick in section, with a square groove {} wide and {} deep in its surface.",
        measures.shown("side"),
        measures.shown("width"),
        measures.shown("depth")
    );
    Ok((picture, says))
}

/// Both boards together, and the same in words.
pub(super) fn joint(measures: &Measures<'_>) -> Result<(Picture, String), Fault> {
    let (extent, width, depth) = lengths(measures)?;
    let half = measures.mm("stock")? / 2.0;
    let mut picture = extent.joint_picture();
    extent.board(&mut picture, &groove(width / 2.0, depth));
    extent.tail(
        &mut picture,
        (-half, half),
        &[(half, depth), (-half, depth)],
    );
    let thick = measures.dimension("stock", -half, half);
    picture.measure(Edge::Top, [-extent.above; 2], thick);
    let says = format!(
        "The other board, {} thick, stands square in the groove and on its bottom.",
        measures.shown("stock")
    );
    Ok((picture, says))
}

fn lengths(measures: &Measures<'_>) -> Result<(Extent, f64, f64), Fault> {
    let (stock, side) = (measures.mm("stock")?, measures.mm("side")?);
    let (width, depth) = (measures.mm("width")?, measures.mm("depth")?);
    measures.demand(depth < side, "the housing is as deep as the board is thick")?;
    Ok((Extent::new(width, stock, side), width, depth))
}

fn groove(half: f64, depth: f64) -> [(f64, f64); 4] {
    [(-half, 0.0), (-half, depth), (half, depth), (half, 0.0)]
}
