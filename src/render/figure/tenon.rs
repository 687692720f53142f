//! Mortise and tenon: the rail from its edge and on its face, the mortise in section, and both
//! together.
//!
//! The rail comes from the right, its shoulders at x = 0; the mortised piece is cut through
//! (`joinery.md` 3.7). Needs `stock` (T), `tenon` (t), `tenon_length` (l), `shoulder_face` (a),
//! `shoulder_back` (b), `rail_width` (W), `tenon_width` (w), `mortised` (S), `mortised_width` (V),
//! `wall` (f), `mortise` (m); a stopped mortise also `mortise_depth` (z). A loose tenon needs
//! `rail_depth` (y) and no shoulders.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, Point, finish};
use crate::diag::Fault;

/// The mortised piece in section.
pub(super) struct Post {
    stock: f64,
    width: f64,
    wall: f64,
    mortise: f64,
    depth: f64,
}

impl Post {
    fn new(measures: &Measures<'_>, through: bool) -> Result<Self, Fault> {
        let (stock, width) = (measures.mm("mortised")?, measures.mm("mortised_width")?);
        let (wall, mortise) = (measures.mm("wall")?, measures.mm("mortise")?);
        let depth = if through {
            width
        } else {
            measures.mm("mortise_depth")?
        };
        measures.demand(through || depth < width, "the mortise goes through")?;
        measures.demand(wall + mortise < stock, "the mortise leaves no far wall")?;
        Ok(Self {
            stock,
            width,
            wall,
            mortise,
            depth,
        })
    }

    fn draw(&self, picture: &mut Picture) {
        let (far, near) = (self.wall + self.mortise, -self.width);
        if self.depth < self.width {
            let points = [
                (near, 0.0),
                (0.0, 0.0),
                (0.0, self.wall),
                (-self.depth, self.wall),
                (-self.depth, far),
                (0.0, far),
                (0.0, self.stock),
                (near, self.stock),
            ];
            picture.cut(&points, Lean::Right);
        } else {
            picture.cut(&boxed((near, 0.0), (0.0, self.wall)), Lean::Right);
            picture.cut(&boxed((near, far), (0.0, self.stock)), Lean::Right);
        }
    }

    fn alone(&self, measures: &Measures<'_>) -> (Picture, String) {
        let mut picture = Picture::new((-self.width, 0.0), (0.0, self.stock));
        self.draw(&mut picture);
        let far = self.wall + self.mortise;
        let mut says = format!(
            "The mortised piece cut through, {} thick and {} wide, face side at the top. {} from \
             the face side lies a mortise {} wide",
            measures.shown("mortised"),
            measures.shown("mortised_width"),
            measures.shown("wall"),
            measures.shown("mortise")
        );
        if self.depth < self.width {
            let deep = [-self.depth, 0.0];
            measures.mark(
                &mut picture,
                Edge::Top,
                [self.wall; 2],
                "mortise_depth",
                deep,
            );
            says += &format!(" and {} deep.", measures.shown("mortise_depth"));
        } else {
            says += ", right through.";
        }
        let across = [-self.width, 0.0];
        let under = [self.stock; 2];
        measures.mark(&mut picture, Edge::Bottom, under, "mortised_width", across);
        measures.mark(
            &mut picture,
            Edge::Right,
            [0.0; 2],
            "mortise",
            [self.wall, far],
        );
        measures.mark(
            &mut picture,
            Edge::Right,
            [0.0; 2],
            "wall",
            [0.0, self.wall],
        );
        let left = [-self.width; 2];
        measures.mark(
            &mut picture,
            Edge::Left,
            left,
            "mortised",
            [0.0, self.stock],
        );
        (picture, says)
    }
}

/// The rail's end from its edge.
pub(super) struct Rail {
    pub(super) stock: f64,
    pub(super) length: f64,
    pub(super) face: f64,
    back: f64,
    pub(super) beyond: f64,
}

impl Rail {
    pub(super) fn new(measures: &Measures<'_>) -> Result<Self, Fault> {
        let (stock, length) = (measures.mm("stock")?, measures.mm("tenon_length")?);
        let (face, back) = (
            measures.or_nothing("shoulder_face")?,
            measures.or_nothing("shoulder_back")?,
        );
        measures.mm("tenon")?;
        measures.demand(face + back < stock, "the shoulders leave no tenon")?;
        Ok(Self {
            stock,
            length,
            face,
            back,
            beyond: stock.max(length * 0.5),
        })
    }

    pub(super) fn draw(&self, picture: &mut Picture, top: f64) {
        let (near, far) = (self.face, self.stock - self.back);
        let points = [
            (self.beyond, 0.0),
            (0.0, 0.0),
            (0.0, near),
            (-self.length, near),
            (-self.length, far),
            (0.0, far),
            (0.0, self.stock),
            (self.beyond, self.stock),
        ];
        let down: Vec<Point> = points.iter().map(|(x, y)| (*x, y + top)).collect();
        picture.cut(&down, Lean::Left);
        picture.broken((self.beyond, top), (self.beyond, top + self.stock));
    }

    pub(super) fn alone(&self, measures: &Measures<'_>) -> (Picture, String) {
        let mut picture = Picture::new((-self.length, 0.0), (self.beyond, self.stock));
        self.draw(&mut picture, 0.0);
        let (near, far) = (self.face, self.stock - self.back);
        let long = [-self.length, 0.0];
        measures.mark(&mut picture, Edge::Top, [near, 0.0], "tenon_length", long);
        measures.mark(
            &mut picture,
            Edge::Left,
            [-self.length; 2],
            "tenon",
            [near, far],
        );
        let right = [self.beyond, 0.0];
        measures.mark(
            &mut picture,
            Edge::Right,
            right,
            "shoulder_face",
            [0.0, near],
        );
        let right = [0.0, self.beyond];
        let back = [far, self.stock];
        measures.mark(&mut picture, Edge::Right, right, "shoulder_back", back);
        let says = format!(
            "The rail's end in section from its edge, face side at the top: a tenon {} thick and {} \
             long, its shoulders {} on the face side and {} on the back.",
            measures.shown("tenon"),
            measures.shown("tenon_length"),
            measures.shown("shoulder_face"),
            measures.shown("shoulder_back")
        );
        (picture, says)
    }
}

/// A tenon in a mortise that stops.
pub(super) fn stopped(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    views(measures, false)
}

/// A tenon through the mortised piece.
pub(super) fn through(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    views(measures, true)
}

fn views(measures: &Measures<'_>, through: bool) -> Result<Vec<View>, Fault> {
    let mut views = sections(measures, through)?;
    let (face, says) = on_face(measures)?;
    views.extend(finish(vec![(face, "Rail, on its face", says)]));
    Ok(views)
}

/// Rail, mortise and both together, at one scale.
pub(super) fn sections(measures: &Measures<'_>, through: bool) -> Result<Vec<View>, Fault> {
    let (rail, post) = (Rail::new(measures)?, Post::new(measures, through)?);
    let reaches = rail.length <= post.depth;
    measures.demand(
        through != reaches,
        "tenon and mortise are not of one length",
    )?;
    let (tenon, says_tenon) = rail.alone(measures);
    let (mortise, says_mortise) = post.alone(measures);
    let top = post.wall - rail.face;
    let mut together = Picture::new(
        (-rail.length.max(post.width), top.min(0.0)),
        (rail.beyond, post.stock.max(top + rail.stock)),
    );
    post.draw(&mut together);
    rail.draw(&mut together, top);
    let thick = [top, top + rail.stock];
    measures.mark(&mut together, Edge::Right, [rail.beyond; 2], "stock", thick);
    let both = format!(
        "The rail, {} thick, with its shoulders against the mortised piece; the tenon {}.",
        measures.shown("stock"),
        if through {
            "comes out on the other side"
        } else {
            "stops before the bottom of the mortise"
        }
    );
    Ok(finish(vec![
        (tenon, "Tenon, section", says_tenon),
        (mortise, "Mortise, section", says_mortise),
        (together, "Together, section", both),
    ]))
}

fn on_face(measures: &Measures<'_>) -> Result<(Picture, String), Fault> {
    let (wide, narrow) = (measures.mm("rail_width")?, measures.mm("tenon_width")?);
    let long = measures.mm("tenon_length")?;
    measures.demand(narrow <= wide, "the tenon is wider than the rail")?;
    let (edge, beyond) = ((wide - narrow) / 2.0, wide * 0.4);
    let mut picture = Picture::new((-long, 0.0), (beyond, wide));
    picture.outline(&[
        (beyond, 0.0),
        (0.0, 0.0),
        (0.0, edge),
        (-long, edge),
        (-long, wide - edge),
        (0.0, wide - edge),
        (0.0, wide),
        (beyond, wide),
    ]);
    picture.outline(&[(0.0, 0.0), (0.0, wide)]);
    picture.broken((beyond, 0.0), (beyond, wide));
    let across = [edge, wide - edge];
    measures.mark(&mut picture, Edge::Left, [-long; 2], "tenon_width", across);
    measures.mark(
        &mut picture,
        Edge::Right,
        [beyond; 2],
        "rail_width",
        [0.0, wide],
    );
    let says = format!(
        "The end of the rail on its face, {} wide, with a tenon {} wide in its middle.",
        measures.shown("rail_width"),
        measures.shown("tenon_width")
    );
    Ok((picture, says))
}

/// Two mortises and a tenon of its own.
pub(super) fn loose(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let post = Post::new(measures, false)?;
    let (stock, deep) = (measures.mm("stock")?, measures.mm("rail_depth")?);
    let (thick, long) = (measures.mm("tenon")?, measures.mm("tenon_length")?);
    let (far, beyond) = (post.wall + post.mortise, deep + stock * 0.6);
    measures.demand(far < stock, "the mortise leaves no wall of the rail")?;
    measures.demand(
        thick <= post.mortise,
        "the tenon is thicker than its mortise",
    )?;
    measures.demand(long <= deep + post.depth, "the tenon is too long")?;
    let draw = |picture: &mut Picture| {
        let points = [
            (beyond, 0.0),
            (0.0, 0.0),
            (0.0, post.wall),
            (deep, post.wall),
            (deep, far),
            (0.0, far),
            (0.0, stock),
            (beyond, stock),
        ];
        picture.cut(&points, Lean::Left);
        picture.broken((beyond, 0.0), (beyond, stock));
    };
    let mut rail = Picture::new((0.0, 0.0), (beyond, stock));
    draw(&mut rail);
    let span = [post.wall, far];
    measures.mark(&mut rail, Edge::Left, [0.0; 2], "mortise", span);
    measures.mark(
        &mut rail,
        Edge::Top,
        [post.wall; 2],
        "rail_depth",
        [0.0, deep],
    );
    measures.mark(&mut rail, Edge::Right, [beyond; 2], "stock", [0.0, stock]);
    let rail_says = format!(
        "The rail's end in section from its edge, {} thick, with a mortise {} deep.",
        measures.shown("stock"),
        measures.shown("rail_depth")
    );
    let (mortise, says) = post.alone(measures);
    let mut together = Picture::new((-post.width, 0.0), (beyond, post.stock.max(stock)));
    post.draw(&mut together);
    draw(&mut together);
    let (slack, play) = (
        (deep + post.depth - long) / 2.0,
        (post.mortise - thick) / 2.0,
    );
    let (left, right) = (slack - post.depth, deep - slack);
    let (top, bottom) = (post.wall + play, far - play);
    together.outline(&boxed((left, top), (right, bottom)));
    measures.mark(
        &mut together,
        Edge::Top,
        [top; 2],
        "tenon_length",
        [left, right],
    );
    measures.mark(&mut together, Edge::Left, [left; 2], "tenon", [top, bottom]);
    let both = format!(
        "The loose tenon, {} thick and {} long, in both mortises, with a gap at each end.",
        measures.shown("tenon"),
        measures.shown("tenon_length")
    );
    Ok(finish(vec![
        (mortise, "Stile, section", says),
        (rail, "Rail, section", rail_says),
        (together, "Together, section", both),
    ]))
}
