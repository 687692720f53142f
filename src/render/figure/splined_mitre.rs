//! Mitres: one side with its groove, and the corner with the spline, along the corner's edge; or the
//! bare corner and a whole side.
//!
//! The mitre's face stands upright, the outside corner at the top, so that groove and spline lie
//! level; the sides run down at the angle of the mitre, from the square cut: 45 degrees where none is
//! given (`joinery.md` 3.10, four sides). A spline needs `board` (T), `centre` (x), `groove` (k) and
//! `depth` (h); without `spline` (s) and `spline_width` (w) the corner is drawn without it. A bare
//! mitre needs `board`; a whole side `outside` (L) and `inside` (I). The `face` (F) of the mitre is
//! marked where it is known.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, Point, finish};
use crate::diag::Fault;
use crate::units::Angle;

/// A mitre with grooves for a spline.
pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let centre = measures.mm("centre")?;
    let (groove, depth) = (measures.mm("groove")?, measures.mm("depth")?);
    let side = Side::new(measures, Some((centre, groove, depth)))?;
    measures.demand(groove / 2.0 < centre, "the groove breaks out at the inside")?;
    let (far, near) = side.walls();
    let inside = depth * side.mitre.sin() < far * side.mitre.cos();
    measures.demand(inside, "the groove breaks out at the outside")?;
    let mut alone = side.picture(0.0);
    side.draw(&mut alone, -1.0, Lean::Left);
    let middle = side.face - centre;
    let mut mark = |edge, starts, name, span| measures.mark(&mut alone, edge, starts, name, span);
    mark(Edge::Right, [-depth; 2], "groove", [far, near]);
    mark(
        Edge::Right,
        [-depth / 2.0, 0.0],
        "centre",
        [middle, side.face],
    );
    mark(Edge::Top, [far, 0.0], "depth", [-depth, 0.0]);
    alone.centre((-depth * 1.4, middle), (0.0, middle));
    let says = format!(
        "One side, {} thick, seen along the corner's edge, its mitre upright at the right, outside \
         corner at the top: a groove {} wide and {} deep, square to the mitre, its middle {} from \
         the inside corner.",
        measures.shown("board"),
        measures.shown("groove"),
        measures.shown("depth"),
        measures.shown("centre")
    );
    let mut together = side.corner(measures);
    let both = match spline(measures, (groove, depth))? {
        Some((spline, wide)) => {
            let (half, thin) = (wide / 2.0, spline / 2.0);
            let level = [middle - thin, middle + thin];
            together.outline(&boxed((-half, level[0]), (half, level[1])));
            let mut mark =
                |edge, starts, name, span| measures.mark(&mut together, edge, starts, name, span);
            mark(Edge::Left, [-half; 2], "spline", level);
            mark(Edge::Top, [middle; 2], "spline_width", [-half, half]);
            format!(
                "The corner: both mitres meet, and a spline {} thick and {} wide lies in both \
                 grooves.",
                measures.shown("spline"),
                measures.shown("spline_width")
            )
        }
        None => {
            "The corner: both mitres meet, and their grooves lie opposite each other.".to_owned()
        }
    };
    Ok(finish(vec![
        (alone, "Side, along the corner", says),
        (together, "Together, along the corner", both),
    ]))
}

/// Thickness and width of the spline, where both are known.
fn spline(
    measures: &Measures<'_>,
    (groove, depth): (f64, f64),
) -> Result<Option<(f64, f64)>, Fault> {
    let thick = measures.known("spline")?;
    let spline = thick.zip(measures.known("spline_width")?);
    if let Some((thick, wide)) = spline {
        measures.demand_entering(thick, groove, "the spline is thicker than its groove")?;
        measures.demand(wide <= 2.0 * depth, "the spline is wider than both grooves")?;
    }
    Ok(spline)
}

/// A mitre without a spline.
pub(super) fn bare(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let side = Side::new(measures, None)?;
    let says = format!(
        "Two sides, {} thick, seen along the corner's edge, outside corner at the top: each is cut \
         at {} from the square cut, and their mitres meet over {}.",
        measures.shown("board"),
        measures.angle_shown(),
        measures.shown("face")
    );
    let corner = side.corner(measures);
    let mut views = finish(vec![(corner, "Together, along the corner", says)]);
    let long = measures.optional("outside")?;
    if let Some((long, short)) = long.zip(measures.optional("inside")?) {
        let (thick, cut) = (side.board, (long - short) / 2.0);
        measures.demand(cut > 0.0, "the side is not shorter inside")?;
        let mut whole = Picture::new((0.0, 0.0), (long, thick));
        let inside = [(long - cut, thick), (cut, thick)];
        whole.cut(&[(0.0, 0.0), (long, 0.0), inside[0], inside[1]], Lean::Left);
        let mut mark =
            |edge, starts, name, span| measures.mark(&mut whole, edge, starts, name, span);
        mark(Edge::Top, [0.0; 2], "outside", [0.0, long]);
        mark(Edge::Bottom, [thick; 2], "inside", [cut, long - cut]);
        mark(Edge::Right, [long, long - cut], "board", [0.0, thick]);
        let says = format!(
            "One side, {} thick, seen along the corners' edges, its outside at the top: {} long \
             outside and {} inside.",
            measures.shown("board"),
            measures.shown("outside"),
            measures.shown("inside")
        );
        views.extend(finish(vec![(whole, "One side, along the corners", says)]));
    }
    Ok(views)
}

/// Centre, width and depth of a groove.
type Groove = (f64, f64, f64);

/// One side, to the left or the right of its mitre at x = 0.
struct Side {
    board: f64,
    /// From the square cut.
    mitre: Angle,
    face: f64,
    /// Along the side from the outside corner to where it is broken off.
    long: f64,
    groove: Option<Groove>,
}

impl Side {
    fn new(measures: &Measures<'_>, groove: Option<Groove>) -> Result<Self, Fault> {
        let board = measures.mm("board")?;
        let mitre = Angle::degrees(measures.angle().unwrap_or(45.0));
        let face = board / mitre.cos();
        let mut side = Self {
            board,
            mitre,
            face,
            long: face * 0.9 * std::f64::consts::SQRT_2,
            groove,
        };
        // As far as the groove reaches along the side, and more.
        let (_, near) = side.walls();
        let deep = groove.map_or(0.0, |(_, _, depth)| depth);
        let reach = deep * mitre.cos() + near * mitre.sin();
        side.long = side.long.max(reach * 1.15);
        Ok(side)
    }

    /// The walls of the groove, from the outside corner along the mitre's face.
    fn walls(&self) -> (f64, f64) {
        let (centre, width, _) = self.groove.unwrap_or_default();
        let middle = self.face - centre;
        (middle - width / 2.0, middle + width / 2.0)
    }

    /// The corners of the end, broken off square to the side: outside and inside.
    fn end(&self) -> (Point, Point) {
        let (sin, cos) = (self.mitre.sin(), self.mitre.cos());
        let outer = (-self.long * cos, self.long * sin);
        (
            outer,
            (outer.0 + self.board * sin, outer.1 + self.board * cos),
        )
    }

    fn picture(&self, right: f64) -> Picture {
        let (outer, inner) = self.end();
        Picture::new((outer.0, 0.0), (right, inner.1.max(outer.1).max(self.face)))
    }

    /// Both sides at their corner, and the length of their mitres.
    fn corner(&self, measures: &Measures<'_>) -> Picture {
        let (outer, _) = self.end();
        let mut picture = self.picture(-outer.0);
        self.draw(&mut picture, -1.0, Lean::Left);
        self.draw(&mut picture, 1.0, Lean::Right);
        measures.mark(
            &mut picture,
            Edge::Right,
            [0.0; 2],
            "face",
            [0.0, self.face],
        );
        picture
    }

    fn draw(&self, picture: &mut Picture, turn: f64, lean: Lean) {
        let (outer, inner) = self.end();
        let mut points = vec![(0.0, 0.0)];
        if let Some((_, _, depth)) = self.groove {
            let (far, near) = self.walls();
            points.extend([(0.0, far), (-depth, far), (-depth, near), (0.0, near)]);
        }
        points.extend([(0.0, self.face), inner, outer]);
        let turned = |(x, y): Point| (-x * turn, y);
        let points: Vec<Point> = points.into_iter().map(turned).collect();
        picture.cut(&points, lean);
        picture.broken(turned(outer), turned(inner));
    }
}
