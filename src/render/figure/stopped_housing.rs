//! Stopped housing: the grooved board from above, both boards in section, and the notched end
//! of the shelf.
//!
//! Needs what a housing needs, and `panel` (L), `stop` (b), `length` (l), `cutter` (d), `notch`
//! (N) and `notch_depth` (D), a little less than the housing so that the shelf's end stands on its bottom (`joinery.md` 3.6). From above the front edge is at the right; the housing is open at the
//! back. Its end keeps the corners that the cutter leaves, half a cutter round.

use super::View;
use super::housing;
use super::measures::Measures;
use super::svg::{Edge, Picture, Point, finish};
use crate::diag::Fault;
use crate::units::Angle;

/// Points of a quarter circle.
const STEPS: u32 = 8;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (plan, plan_says) = plan(measures)?;
    let (section, section_says) = together(measures)?;
    let (notch, notch_says) = notched(measures)?;
    let mut views = finish(vec![(plan, "Grooved board, from above", plan_says)]);
    views.extend(finish(vec![(section, "Together, section", section_says)]));
    views.extend(finish(vec![(
        notch,
        "Shelf, front corner from above",
        notch_says,
    )]));
    Ok(views)
}

fn plan(measures: &Measures<'_>) -> Result<(Picture, String), Fault> {
    let panel = measures.mm("panel")?;
    measures.mm("stop")?;
    let (length, width) = (measures.mm("length")?, measures.mm("width")?);
    let cutter = measures.mm("cutter")?;
    measures.demand(
        length < panel,
        "the housing is as long as the board is wide",
    )?;
    measures.demand(
        cutter <= width * 1.0001,
        "the cutter is wider than the housing",
    )?;
    let half = (width * 2.0).max(panel / 5.0);
    let mut picture = Picture::new((0.0, -half), (panel, half));
    let corners = [(0.0, -half), (panel, -half), (panel, half), (0.0, half)];
    picture.outline(&corners);
    picture.broken(corners[0], corners[1]);
    picture.broken(corners[3], corners[2]);
    picture.outline(&slot(length, width / 2.0, cutter / 2.0));
    picture.centre((-panel / 40.0, 0.0), (length + panel / 40.0, 0.0));
    let to_crown = measures.dimension("length", 0.0, length);
    picture.measure(Edge::Top, [-half, -width / 2.0], to_crown);
    let whole = measures.dimension("panel", 0.0, panel);
    picture.measure(Edge::Top, [-half; 2], whole);
    let rest = measures.dimension("stop", length, panel);
    picture.measure(Edge::Bottom, [width / 2.0, half], rest);
    let across = measures.dimension("width", -width / 2.0, width / 2.0);
    picture.measure(Edge::Left, [0.0; 2], across);
    let says = format!(
        "The grooved board from above, {} from its back edge at the left to its front edge at the \
         right. The housing, {} wide, is open at the back and ends {} before the front edge; it is \
         {} long to its crown. A cutter of {} rounds the corners of its end.",
        measures.shown("panel"),
        measures.shown("width"),
        measures.shown("stop"),
        measures.shown("length"),
        measures.shown("cutter")
    );
    Ok((picture, says))
}

/// The outline of a housing from above, its end rounded by the cutter.
pub(super) fn slot(length: f64, half: f64, radius: f64) -> Vec<Point> {
    let radius = radius.min(half);
    let axis = length - radius;
    let arc = |side: f64, turned: u32| {
        let angle = Angle::degrees(f64::from(turned) * 90.0 / f64::from(STEPS));
        let across = half - radius + radius * angle.cos();
        (axis + radius * angle.sin(), side * across)
    };
    let mut points = vec![(0.0, -half)];
    points.extend((0..=STEPS).map(|turned| arc(-1.0, turned)));
    points.extend((0..=STEPS).rev().map(|turned| arc(1.0, turned)));
    points.push((0.0, half));
    points
}

/// The section across the housing with the shelf in it.
fn together(measures: &Measures<'_>) -> Result<(Picture, String), Fault> {
    let (mut picture, says) = housing::joint(measures)?;
    let (side, depth) = (measures.mm("side")?, measures.mm("depth")?);
    let half = measures.mm("width")? / 2.0;
    let aside = picture.most().0;
    let across = measures.dimension("width", -half, half);
    picture.measure(Edge::Bottom, [depth; 2], across);
    let deep = measures.dimension("depth", 0.0, depth);
    picture.measure(Edge::Right, [aside, half], deep);
    let thick = measures.dimension("side", 0.0, side);
    picture.measure(Edge::Left, [-aside; 2], thick);
    let groove = format!(
        "The grooved board, {} thick, in section, the groove {} wide and {} deep. ",
        measures.shown("side"),
        measures.shown("width"),
        measures.shown("depth")
    );
    Ok((picture, groove + &says))
}

fn notched(measures: &Measures<'_>) -> Result<(Picture, String), Fault> {
    let (notch, depth) = (measures.mm("notch")?, measures.mm("notch_depth")?);
    let (left, top) = (-3.0 * notch, -2.0 * depth.max(notch / 2.0));
    let mut picture = Picture::new((left, top), (0.0, depth));
    picture.outline(&[
        (left, top),
        (0.0, top),
        (0.0, 0.0),
        (-notch, 0.0),
        (-notch, depth),
        (left, depth),
    ]);
    picture.broken((left, top), (left, depth));
    picture.broken((left, top), (0.0, top));
    let long = measures.dimension("notch", -notch, 0.0);
    picture.measure(Edge::Bottom, [depth, 0.0], long);
    let deep = measures.dimension("notch_depth", 0.0, depth);
    picture.measure(Edge::Right, [0.0, -notch], deep);
    let says = format!(
        "The end of the shelf from above, front edge at the right: a notch {} long from the front \
         edge and {} deep, so that the shelf comes to the front over the end of the housing.",
        measures.shown("notch"),
        measures.shown("notch_depth")
    );
    Ok((picture, says))
}
