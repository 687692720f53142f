//! Keyed mitre: the corner cut through a slot with its key, and one side's outside with its slots.
//!
//! Letters are those of the calculator `mitre-key`: needs `board` (T), `key_depth` (p), `key_leg`
//! (l), `key_base` (b) and `key_left` (r); and `corner_height` (H), `outer` (a) and `slot` (k), without
//! which the corner is drawn once more with its sides level and upright. The outside corner is at the
//! top, the bisector upright, so that the bottom of the slot lies level (`joinery.md` 3.10).

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, Point, finish};
use crate::diag::Fault;

/// More keys than a corner has.
const MOST: f64 = 12.0;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (board, deep) = (measures.mm("board")?, measures.mm("key_depth")?);
    let (base, left) = (measures.mm("key_base")?, measures.mm("key_left")?);
    let face = board * std::f64::consts::SQRT_2;
    measures.demand(deep < face, "the slot comes through at the inside corner")?;
    let agrees = (base - 2.0 * deep).abs() < deep / 20.0;
    measures.demand(agrees, "the key is not twice as long as the slot is deep")?;
    let long = (face * 0.9).max(deep * 1.3);
    let half = face / 2.0;
    let mut corner = Picture::new((-long, 0.0), (long, half + long.max(half)));
    let side = |turn: f64| -> Vec<Point> {
        let points = [
            (0.0, deep),
            (base / 2.0, deep),
            (long, long),
            (long - half, long + half),
            (0.0, face),
        ];
        points.map(|(x, y)| (x * turn, y)).to_vec()
    };
    for (turn, lean) in [(-1.0, Lean::Left), (1.0, Lean::Right)] {
        corner.cut(&side(turn), lean);
        corner.broken((long * turn, long), ((long - half) * turn, long + half));
    }
    corner.outline(&[(0.0, 0.0), (base / 2.0, deep), (-base / 2.0, deep)]);
    corner.centre((0.0, -deep * 0.15), (0.0, face * 1.1));
    let mut mark = |edge, starts, name, span| measures.mark(&mut corner, edge, starts, name, span);
    mark(Edge::Right, [0.0, base / 2.0], "key_depth", [0.0, deep]);
    mark(
        Edge::Left,
        [-base / 2.0, 0.0],
        "key_left",
        [deep, deep + left],
    );
    mark(Edge::Top, [deep; 2], "key_base", [-base / 2.0, base / 2.0]);
    let says = format!(
        "The corner cut through a slot, sides {} thick, outside corner at the top: the slot is {} \
         deep along the bisector and its bottom {} long; {} of wood stay to the inside corner. The \
         key fills it.",
        measures.shown("board"),
        measures.shown("key_depth"),
        measures.shown("key_base"),
        measures.shown("key_left")
    );
    let mut views = finish(vec![(corner, "Together, section", says)]);
    let (other, title, says) = if measures.known("corner_height")?.is_some() {
        let (slots, says) = outside(measures)?;
        (slots, "Side, on its outside", says)
    } else {
        let (level, says) = level(measures, board)?;
        (level, "Together, one side level", says)
    };
    views.extend(finish(vec![(other, title, says)]));
    Ok(views)
}

/// The corner with one side level and the other upright, the outside corner at the right.
fn level(measures: &Measures<'_>, board: f64) -> Result<(Picture, String), Fault> {
    let leg = measures.mm("key_leg")?;
    let run = (board * 2.2).max(leg * 1.3);
    let mut picture = Picture::new((-run, 0.0), (0.0, run));
    let middle = (-leg / 2.0, leg / 2.0);
    let inner = (-board, board);
    let flat = [(-run, 0.0), (-leg, 0.0), middle, inner, (-run, board)];
    let upright = [(0.0, run), (0.0, leg), middle, inner, (-board, run)];
    picture.cut(&flat, Lean::Right);
    picture.broken(flat[0], flat[4]);
    picture.cut(&upright, Lean::Left);
    picture.broken(upright[0], upright[4]);
    picture.outline(&[(0.0, 0.0), (0.0, leg), (-leg, 0.0)]);
    let mut mark = |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
    mark(Edge::Top, [0.0; 2], "key_leg", [-leg, 0.0]);
    mark(Edge::Left, [-run; 2], "board", [0.0, board]);
    let says = format!(
        "The same corner with one side level and the other upright, both {} thick: the key runs {} \
         from the corner along each outside.",
        measures.shown("board"),
        measures.shown("key_leg")
    );
    Ok((picture, says))
}

/// The outside of one side, the corner at the right.
fn outside(measures: &Measures<'_>) -> Result<(Picture, String), Fault> {
    let (height, outer) = (measures.mm("corner_height")?, measures.mm("outer")?);
    let (slot, leg) = (measures.mm("slot")?, measures.mm("key_leg")?);
    let many = libm::floor((height - slot / 2.0) / outer);
    measures.demand(
        (1.0..=MOST).contains(&many),
        "the slots do not fill the height",
    )?;
    measures.demand(slot < outer, "the slots run into each other")?;
    measures.demand(outer + slot / 2.0 < height, "the slot lies beyond the rim")?;
    let aside = -(leg * 2.0).max(height * 0.6);
    let mut picture = Picture::new((aside, 0.0), (0.0, height));
    picture.outline(&boxed((aside, 0.0), (0.0, height)));
    picture.broken((aside, 0.0), (aside, height));
    for at in 1..=many as u32 {
        let middle = outer * f64::from(at);
        let key = boxed((-leg, middle - slot / 2.0), (0.0, middle + slot / 2.0));
        if middle + slot / 2.0 < height {
            picture.cut(&key, Lean::Right);
            picture.centre((-leg * 1.2, middle), (0.0, middle));
        }
    }
    let first = [outer - slot / 2.0, outer + slot / 2.0];
    let mut mark = |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
    mark(Edge::Top, [outer - slot / 2.0; 2], "key_leg", [-leg, 0.0]);
    mark(Edge::Right, [0.0; 2], "slot", first);
    mark(Edge::Right, [0.0; 2], "outer", [0.0, outer]);
    mark(Edge::Left, [aside; 2], "corner_height", [0.0, height]);
    let says = format!(
        "The outside of one side, {} high, the corner at the right: slots {} wide run {} in from \
         the corner, the first with its middle {} from the rim, the others as far apart.",
        measures.shown("corner_height"),
        measures.shown("slot"),
        measures.shown("key_leg"),
        measures.shown("outer")
    );
    Ok((picture, says))
}
