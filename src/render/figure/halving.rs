//! Halvings: each piece in section along its length, and both together.
//!
//! The first piece is cut from its face, the second from its back; both faces lie upwards
//! (`joinery.md` 2.1, 3.12). Needs `stock_a` (A), `stock_b` (B), `depth_a` (g), `depth_b` (j) and
//! `width_b` (w); at an end `lap_a` (m) and `lap_b` (n), at a crossing `recess_a` (r) and `recess_b`
//! (s); for a dovetail `width_a` (v), `lap_b` (n) and `neck` (k). Pieces that cross at any angle, the
//! smaller one, need `recess_a` and `lap_a`.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, Point, finish};
use crate::diag::Fault;
use crate::units::Angle;

/// One piece: its cut and how far it runs on beside it.
struct Piece {
    stock: f64,
    depth: f64,
    long: f64,
    /// Beside the cut; nothing where the piece ends.
    beyond: f64,
    before: f64,
}

impl Piece {
    fn new(measures: &Measures<'_>, names: [&str; 3], crosses: bool) -> Result<Self, Fault> {
        let [stock, depth, long] = names.map(|name| measures.mm(name));
        let (stock, depth, long) = (stock?, depth?, long?);
        measures.demand(depth < stock, "a cut is as deep as its piece is thick")?;
        let before = stock.max(long * 0.5);
        let beyond = if crosses { before } else { 0.0 };
        Ok(Self {
            stock,
            depth,
            long,
            beyond,
            before,
        })
    }

    fn picture(&self, above: f64) -> Picture {
        Picture::new((-self.before, above), (self.long + self.beyond, self.stock))
    }

    /// Draws the piece with its cut from the face, or from the back.
    fn draw(&self, picture: &mut Picture, back: bool, lean: Lean) {
        let (cut, far) = (self.depth, self.long + self.beyond);
        let mut points = vec![
            (-self.before, 0.0),
            (0.0, 0.0),
            (0.0, cut),
            (self.long, cut),
        ];
        if self.beyond > 0.0 {
            points.extend([(self.long, 0.0), (far, 0.0)]);
        }
        points.extend([(far, self.stock), (-self.before, self.stock)]);
        let turn = |(x, y): Point| if back { (x, self.stock - y) } else { (x, y) };
        let points: Vec<Point> = points.into_iter().map(turn).collect();
        picture.cut(&points, lean);
        picture.broken((-self.before, 0.0), (-self.before, self.stock));
        if self.beyond > 0.0 {
            picture.broken((far, 0.0), (far, self.stock));
        }
    }

    /// The piece alone with the dimensions of its cut.
    fn alone(&self, measures: &Measures<'_>, back: bool, names: [&str; 3]) -> Picture {
        let [stock, depth, long] = names;
        let mut picture = self.picture(0.0);
        let lean = if back { Lean::Left } else { Lean::Right };
        self.draw(&mut picture, back, lean);
        let (edge, face) = if back {
            (Edge::Bottom, self.stock)
        } else {
            (Edge::Top, 0.0)
        };
        let ends = if self.beyond > 0.0 {
            face
        } else {
            (face - self.depth).abs()
        };
        measures.mark(&mut picture, edge, [face, ends], long, [0.0, self.long]);
        let cut = if back {
            [self.stock - self.depth, self.stock]
        } else {
            [0.0, self.depth]
        };
        let near = if self.beyond > 0.0 {
            self.long + self.beyond
        } else {
            0.0
        };
        let starts = if back {
            [self.long, near]
        } else {
            [near, self.long]
        };
        measures.mark(&mut picture, Edge::Right, starts, depth, cut);
        let left = [-self.before; 2];
        measures.mark(&mut picture, Edge::Left, left, stock, [0.0, self.stock]);
        picture
    }
}

/// The second piece, cut through where it lies in the first: from its face down to its cut.
fn laid(picture: &mut Picture, width: f64, thick: f64) {
    picture.cut(&boxed((0.0, 0.0), (width, thick)), Lean::Left);
}

/// A corner: both pieces end in the joint.
pub(super) fn end(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    straight(measures, ["lap_a", "lap_b"], false)
}

/// A crossing.
pub(super) fn cross(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    straight(measures, ["recess_a", "recess_b"], true)
}

fn straight(
    measures: &Measures<'_>,
    [long_a, long_b]: [&str; 2],
    crosses: bool,
) -> Result<Vec<View>, Fault> {
    let (a, b) = (
        ["stock_a", "depth_a", long_a],
        ["stock_b", "depth_b", long_b],
    );
    let first = Piece::new(measures, a, crosses)?;
    let second = Piece::new(measures, b, crosses)?;
    let width = measures.mm("width_b")?;
    measures.demand(width <= first.long, "the piece is wider than its cut")?;
    let mut together = first.picture(0.0);
    first.draw(&mut together, false, Lean::Right);
    laid(&mut together, width, second.stock - second.depth);
    measures.mark(&mut together, Edge::Top, [0.0; 2], "width_b", [0.0, width]);
    let says = |[stock, depth, long]: [&str; 3], face: &str| {
        let where_from = if crosses {
            "across its length"
        } else {
            "at its end"
        };
        format!(
            "A piece {} thick in section along its length, face side up, with a cut from its {face} \
             {where_from}: {} long and {} deep.",
            measures.shown(stock),
            measures.shown(long),
            measures.shown(depth)
        )
    };
    let both = format!(
        "The second piece, {} wide, lies across the cut of the first, both face sides flush.{}",
        measures.shown("width_b"),
        if crosses {
            ""
        } else {
            " The end of the first stands out past it and is planed off after gluing."
        }
    );
    Ok(finish(vec![
        (
            first.alone(measures, false, a),
            "First piece, section",
            says(a, "face"),
        ),
        (
            second.alone(measures, true, b),
            "Second piece, section",
            says(b, "back"),
        ),
        (together, "Together, section", both),
    ]))
}

/// A crossing at any angle: the first piece, the second cut across, and both together; and the
/// first where it ends in the joint.
pub(super) fn slanting(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let recess = ["stock_a", "depth_a", "recess_a"];
    let first = Piece::new(measures, recess, true)?;
    let lap = ["stock_a", "depth_a", "lap_a"];
    let ended = Piece::new(measures, lap, false)?;
    let (stock, depth) = (measures.mm("stock_b")?, measures.mm("depth_b")?);
    let width = measures.mm("width_b")?;
    measures.demand(depth < stock, "a cut is as deep as its piece is thick")?;
    let angle = measures.angle().unwrap_or(90.0);
    let slant = width / Angle::degrees(angle).sin();
    measures.demand_entering(slant, first.long, "the piece is wider than its cut")?;
    let left = stock - depth;
    let mut second = Picture::new((0.0, 0.0), (width, stock));
    second.cut(&boxed((0.0, 0.0), (width, left)), Lean::Left);
    second.phantom(&boxed((0.0, left), (width, stock)));
    measures.mark(&mut second, Edge::Top, [0.0; 2], "width_b", [0.0, width]);
    measures.mark(
        &mut second,
        Edge::Right,
        [width; 2],
        "depth_b",
        [left, stock],
    );
    measures.mark(&mut second, Edge::Left, [0.0; 2], "stock_b", [0.0, stock]);
    let mut together = first.picture(0.0);
    first.draw(&mut together, false, Lean::Right);
    laid(&mut together, slant, left);
    let shown = |name| measures.shown(name);
    let says_first = format!(
        "A piece {} thick in section along its length, face side up, with a cut from its face: {} \
         long and {} deep.",
        shown("stock_a"),
        shown("recess_a"),
        shown("depth_a")
    );
    let says_second = format!(
        "The second piece, {} wide and {} thick, cut across where it lies in the first: {} is cut \
         away from its back.",
        shown("width_b"),
        shown("stock_b"),
        shown("depth_b")
    );
    let both = format!(
        "The second piece lies in the cut of the first{}, both face sides flush.",
        match measures.angle_shown() {
            "" => String::new(),
            angle => format!(" at an angle of {angle}"),
        }
    );
    let says_end = format!(
        "The same piece where it ends in the joint, as at a corner: the lap is {} long, its end \
         trimmed after gluing.",
        shown("lap_a")
    );
    let alone = first.alone(measures, false, recess);
    let end = ended.alone(measures, false, lap);
    Ok(finish(vec![
        (alone, "First piece, section", says_first),
        (second, "Second piece, cut across", says_second),
        (together, "Together, section", both),
        (end, "First piece at an end, section", says_end),
    ]))
}

/// A tail at the end of the second piece, in a socket across the first.
pub(super) fn dovetail(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let names = ["stock_b", "depth_b", "lap_b"];
    let tail = Piece::new(measures, names, false)?;
    let (stock, socket) = (measures.mm("stock_a")?, measures.mm("depth_a")?);
    measures.demand(
        socket < stock,
        "the socket is as deep as its piece is thick",
    )?;
    let across = measures.mm("width_a")?;
    measures.demand(across <= tail.long, "the tail does not reach across")?;
    let says = format!(
        "The rail, {} thick, in section along its length, face side up: its end is cut {} from the \
         back over {}.",
        measures.shown("stock_b"),
        measures.shown("depth_b"),
        measures.shown("lap_b")
    );
    let mut together = Picture::new((-tail.before, 0.0), (tail.long, stock.max(tail.stock)));
    together.cut(&boxed((0.0, socket), (across, stock)), Lean::Right);
    tail.draw(&mut together, true, Lean::Left);
    let whole = [0.0, stock];
    measures.mark(&mut together, Edge::Right, [across; 2], "stock_a", whole);
    measures.mark(
        &mut together,
        Edge::Right,
        [tail.long, across],
        "depth_a",
        [0.0, socket],
    );
    let under = stock;
    measures.mark(
        &mut together,
        Edge::Bottom,
        [under; 2],
        "width_a",
        [0.0, across],
    );
    let both = format!(
        "The stile, {} thick and {} wide, cut through at its socket, which is {} deep; the tail of \
         the rail lies in it, face sides flush, and stands out a little beyond.",
        measures.shown("stock_a"),
        measures.shown("width_a"),
        measures.shown("depth_a")
    );
    let (plan, plan_says) = plan(measures, &tail)?;
    let mut views = finish(vec![(plan, "Tail, from above", plan_says)]);
    views.extend(finish(vec![
        (tail.alone(measures, true, names), "Rail, section", says),
        (together, "Together, section", both),
    ]));
    Ok(views)
}

fn plan(measures: &Measures<'_>, tail: &Piece) -> Result<(Picture, String), Fault> {
    let (width, neck) = (measures.mm("width_b")?, measures.mm("neck")?);
    measures.demand(neck < width, "the neck is as wide as the rail")?;
    let (half, in_half, far) = (width / 2.0, neck / 2.0, tail.long);
    let left = -tail.before;
    let mut picture = Picture::new((left, -half), (far, half));
    picture.outline(&[
        (left, -half),
        (0.0, -half),
        (0.0, -in_half),
        (far, -half),
        (far, half),
        (0.0, in_half),
        (0.0, half),
        (left, half),
    ]);
    picture.broken((left, -half), (left, half));
    picture.hidden((0.0, -in_half), (0.0, in_half));
    let ends = [-half, half];
    measures.mark(&mut picture, Edge::Right, [far; 2], "width_b", ends);
    let narrow = [-in_half, in_half];
    measures.mark(&mut picture, Edge::Left, [0.0; 2], "neck", narrow);
    measures.mark(&mut picture, Edge::Top, [-half; 2], "lap_b", [0.0, far]);
    let says = format!(
        "The end of the rail from above: a tail {} long, {} wide at its neck and at its end as wide \
         as the rail, {}.",
        measures.shown("lap_b"),
        measures.shown("neck"),
        measures.shown("width_b")
    );
    Ok((picture, says))
}
