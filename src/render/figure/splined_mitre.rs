//! Splined mitre: one side with its groove, and the corner with the spline, along the corner's edge.
//!
//! The mitre's face stands upright, the outside corner at the top, so that groove and spline lie
//! level; the sides run down at 45 degrees (`joinery.md` 3.10, four sides). Needs `board` (T),
//! `centre` (x), `groove` (k), `depth` (h), `spline` (s) and `spline_width` (w).

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, Point, finish};
use crate::diag::Fault;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (board, centre) = (measures.mm("board")?, measures.mm("centre")?);
    let (groove, depth) = (measures.mm("groove")?, measures.mm("depth")?);
    let (spline, wide) = (measures.mm("spline")?, measures.mm("spline_width")?);
    let face = board * std::f64::consts::SQRT_2;
    measures.demand(groove / 2.0 < centre, "the groove breaks out at the inside")?;
    measures.demand(
        depth < face - centre - groove / 2.0,
        "the groove breaks out at the outside",
    )?;
    measures.demand(spline <= groove, "the spline is thicker than its groove")?;
    measures.demand(wide <= 2.0 * depth, "the spline is wider than both grooves")?;
    let side = Side {
        face,
        long: face * 0.9,
        near: face - centre + groove / 2.0,
        far: face - centre - groove / 2.0,
        depth,
    };
    let mut alone = side.picture((-side.long, 0.0), 0.0);
    side.draw(&mut alone, -1.0, Lean::Left);
    let middle = face - centre;
    measures.mark(
        &mut alone,
        Edge::Right,
        [-depth; 2],
        "groove",
        [side.far, side.near],
    );
    measures.mark(
        &mut alone,
        Edge::Right,
        [-depth / 2.0, 0.0],
        "centre",
        [middle, face],
    );
    measures.mark(
        &mut alone,
        Edge::Top,
        [side.far, 0.0],
        "depth",
        [-depth, 0.0],
    );
    alone.centre((-depth * 1.4, middle), (0.0, middle));
    let across = side.long;
    let mut together = side.picture((-across, 0.0), across);
    side.draw(&mut together, -1.0, Lean::Left);
    side.draw(&mut together, 1.0, Lean::Right);
    let (half, thin) = (wide / 2.0, spline / 2.0);
    together.outline(&boxed((-half, middle - thin), (half, middle + thin)));
    let level = [middle - thin, middle + thin];
    measures.mark(&mut together, Edge::Left, [-half; 2], "spline", level);
    measures.mark(
        &mut together,
        Edge::Top,
        [middle; 2],
        "spline_width",
        [-half, half],
    );
    let says = format!(
        "One side, {} thick, seen along the corner's edge, its mitre upright at the right, outside \
         corner at the top: a groove {} wide and {} deep, square to the mitre, its middle {} from \
         the inside corner.",
        measures.shown("board"),
        measures.shown("groove"),
        measures.shown("depth"),
        measures.shown("centre")
    );
    let both = format!(
        "The corner: both mitres meet, and a spline {} thick and {} wide lies in both grooves.",
        measures.shown("spline"),
        measures.shown("spline_width")
    );
    Ok(finish(vec![
        (alone, "Side, along the corner", says),
        (together, "Together, along the corner", both),
    ]))
}

/// One side, to the left or the right of its mitre at x = 0.
struct Side {
    face: f64,
    /// How far its outside runs before it is broken off, measured level.
    long: f64,
    near: f64,
    far: f64,
    depth: f64,
}

impl Side {
    fn picture(&self, least: Point, right: f64) -> Picture {
        Picture::new(
            least,
            (right, self.face / 2.0 + self.long.max(self.face / 2.0)),
        )
    }

    fn draw(&self, picture: &mut Picture, turn: f64, lean: Lean) {
        let half = self.face / 2.0;
        // The end is broken off square to the side.
        let outer = (-self.long, self.long);
        let inner = (half - self.long, half + self.long);
        let points = [
            (0.0, 0.0),
            (0.0, self.far),
            (-self.depth, self.far),
            (-self.depth, self.near),
            (0.0, self.near),
            (0.0, self.face),
            inner,
            outer,
        ];
        let turned = |(x, y): Point| (-x * turn, y);
        let points: Vec<Point> = points.into_iter().map(turned).collect();
        picture.cut(&points, lean);
        picture.broken(turned(outer), turned(inner));
    }
}
