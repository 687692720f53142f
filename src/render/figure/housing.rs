//! Housing: the grooved board in section, and both boards together.
//!
//! Needs `width` and `depth` of the housing; `stock` (what enters) and `side` (the grooved board)
//! where they are known. Without `stock` the grooved board is drawn alone.

use super::View;
use super::measures::Measures;
use super::section::Extent;
use super::svg::{Edge, Picture, finish};
use crate::diag::Fault;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (board, says) = grooved(measures)?;
    let mut pictures = vec![(board, "Housing, section", says)];
    if measures.known("stock")?.is_some() {
        let (joint, together) = joint(measures)?;
        pictures.push((joint, "Together, section", together));
    }
    Ok(finish(pictures))
}

/// The grooved board in section, and the same in words.
fn grooved(measures: &Measures<'_>) -> Result<(Picture, String), Fault> {
    let (extent, width, depth) = lengths(measures)?;
    let half = width / 2.0;
    let mut picture = extent.board_picture();
    extent.board(&mut picture, &groove(half, depth));
    let across = [-half, half];
    measures.mark(&mut picture, Edge::Top, [0.0; 2], "width", across);
    let starts = [extent.aside, half];
    measures.mark(&mut picture, Edge::Right, starts, "depth", [0.0, depth]);
    let thick = [0.0, extent.side];
    measures.mark(&mut picture, Edge::Left, [-extent.aside; 2], "side", thick);
    let says = format!(
        "{}, with a square groove {} wide and {} deep in its surface.",
        extent.says(measures),
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
    let (top, thick) = ([-extent.above; 2], [-half, half]);
    measures.mark(&mut picture, Edge::Top, top, "stock", thick);
    let says = format!(
        "The other board, {} thick, stands square in the groove and on its bottom.",
        measures.shown("stock")
    );
    Ok((picture, says))
}

fn lengths(measures: &Measures<'_>) -> Result<(Extent, f64, f64), Fault> {
    let (width, depth) = (measures.mm("width")?, measures.mm("depth")?);
    let stock = measures.known("stock")?.unwrap_or(width);
    let extent = Extent::new(measures, (width, depth), stock)?;
    Ok((extent, width, depth))
}

fn groove(half: f64, depth: f64) -> [(f64, f64); 4] {
    [(-half, 0.0), (-half, depth), (half, depth), (half, 0.0)]
}
