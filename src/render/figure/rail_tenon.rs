//! A tenon whose mortised piece is known by its mortise alone: the rail from its edge and on its face,
//! the mortise in section, and both together.
//!
//! Needs `stock` (T), `tenon` (t), `tenon_length` (l), `shoulder_face` (a), `shoulder_back` (b),
//! `rail_width` (W), `tenon_width` (w), `edge_inner` (i), `edge_outer` (o), `mortise` (m) and
//! `mortise_depth` (z) (`joinery.md` 3.7); for a pair of tenons their `gap` (x), for a haunch
//! `haunch_long` (j), for a panel groove its `depth` (g). The mortised piece is broken off beside its
//! mortise, and behind it where `mortised_width` (V) is not known. The outer edge of the rail is at
//! the top.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, Point, finish};
use super::tenon::Rail;
use crate::diag::Fault;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (rail, mortise) = (Rail::new(measures)?, Mortise::new(measures)?);
    let tenon = measures.mm("tenon")?;
    measures.demand_entering(tenon, mortise.wide, "the tenon is thicker than its mortise")?;
    let (alone, says_tenon) = rail.alone(measures);
    let top = (mortise.wide - tenon) / 2.0 - rail.face;
    let least = (-rail.length.max(mortise.reach), mortise.above.min(top));
    let most = (rail.beyond, mortise.below.max(top + rail.stock));
    let mut together = Picture::new(least, most);
    mortise.draw(&mut together);
    rail.draw(&mut together, top);
    let (cut, says_mortise) = mortise.alone(measures);
    let both = "The tenon in its mortise, the shoulders of the rail against the mortised piece.";
    let mut views = finish(vec![
        (alone, "Tenon, section", says_tenon),
        (cut, "Mortise, section", says_mortise),
        (together, "Together, section", both.to_owned()),
    ]);
    let (face, says) = on_face(measures, rail.length)?;
    views.extend(finish(vec![(face, "Rail, on its face", says)]));
    Ok(views)
}

/// Less than this between two lengths, in millimetres, is none.
const HAIR: f64 = 0.01;

/// The mortised piece about its mortise, which begins at y = 0.
struct Mortise {
    wide: f64,
    deep: f64,
    /// How far the piece is drawn along the tenon.
    reach: f64,
    /// Whether that is its whole width.
    whole: bool,
    above: f64,
    below: f64,
}

impl Mortise {
    fn new(measures: &Measures<'_>) -> Result<Self, Fault> {
        let (wide, deep) = (measures.mm("mortise")?, measures.mm("mortise_depth")?);
        let face = measures.or_nothing("shoulder_face")?;
        let beside = face.max(measures.or_nothing("shoulder_back")?) + wide * 0.7;
        let width = measures.optional("mortised_width")?;
        Ok(Self {
            wide,
            deep,
            reach: width.unwrap_or(deep + wide),
            whole: width.is_some(),
            above: -beside,
            below: wide + beside,
        })
    }

    fn is_through(&self) -> bool {
        self.deep >= self.reach
    }

    fn draw(&self, picture: &mut Picture) {
        let (left, above, below) = (-self.reach, self.above, self.below);
        if self.is_through() {
            picture.cut(&boxed((left, above), (0.0, 0.0)), Lean::Right);
            picture.cut(&boxed((left, self.wide), (0.0, below)), Lean::Right);
        } else {
            let points = [
                (left, above),
                (0.0, above),
                (0.0, 0.0),
                (-self.deep, 0.0),
                (-self.deep, self.wide),
                (0.0, self.wide),
                (0.0, below),
                (left, below),
            ];
            picture.cut(&points, Lean::Right);
        }
        picture.broken((left, above), (0.0, above));
        picture.broken((left, below), (0.0, below));
        if !self.whole {
            picture.broken((left, above), (left, below));
        }
    }

    fn alone(&self, measures: &Measures<'_>) -> (Picture, String) {
        let left = -self.reach;
        let mut picture = Picture::new((left, self.above), (0.0, self.below));
        self.draw(&mut picture);
        let mut mark =
            |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
        if !self.is_through() {
            mark(Edge::Top, [0.0; 2], "mortise_depth", [-self.deep, 0.0]);
        }
        mark(Edge::Right, [0.0; 2], "mortise", [0.0, self.wide]);
        mark(Edge::Bottom, [self.below; 2], "mortised_width", [left, 0.0]);
        let deep = match self.is_through() {
            true => "right through".to_owned(),
            false => format!("{} deep", measures.shown("mortise_depth")),
        };
        let wide = match self.whole {
            true => format!("{} wide, ", measures.shown("mortised_width")),
            false => String::new(),
        };
        let says = format!(
            "The mortised piece cut through, {wide}broken off beside the mortise, which is {} wide \
             and {deep}.",
            measures.shown("mortise")
        );
        (picture, says)
    }
}

/// The end of the rail on its face.
fn on_face(measures: &Measures<'_>, long: f64) -> Result<(Picture, String), Fault> {
    let (wide, width) = (measures.mm("rail_width")?, measures.mm("tenon_width")?);
    let inner = measures.or_nothing("edge_inner")?;
    let outer = measures.or_nothing("edge_outer")?;
    let (gap, haunch) = (measures.optional("gap")?, measures.optional("haunch_long")?);
    let groove = measures.optional_or_nothing("depth")?.unwrap_or_default();
    let mut tenons = vec![(outer, outer + width)];
    tenons.extend(gap.map(|gap| (outer + width + gap, outer + 2.0 * width + gap)));
    let low = tenons.last().map_or(0.0, |(_, low)| *low);
    measures.demand(
        (low + inner - wide).abs() < wide / 50.0,
        "tenon and edges do not make the width of the rail",
    )?;
    let beyond = wide * 0.4;
    let mut picture = Picture::new((-long, 0.0), (beyond, wide));
    let root = -haunch.unwrap_or_default();
    let mut points: Vec<Point> = vec![(beyond, 0.0), (root, 0.0), (root, outer)];
    for (top, bottom) in &tenons {
        points.extend([(-long, *top), (-long, *bottom), (0.0, *bottom)]);
        if *bottom < low {
            points.extend(gap.map(|gap| (0.0, bottom + gap)));
        }
    }
    points.extend([(0.0, wide), (beyond, wide)]);
    picture.outline(&points);
    picture.outline(&[(0.0, 0.0), (0.0, wide)]);
    picture.broken((beyond, 0.0), (beyond, wide));
    if groove > 0.0 {
        picture.hidden((0.0, wide - groove), (beyond, wide - groove));
    }
    let mut mark = |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
    mark(Edge::Top, [0.0; 2], "haunch_long", [root, 0.0]);
    let end = -long;
    mark(Edge::Left, [end; 2], "tenon_width", [outer, outer + width]);
    mark(Edge::Left, [end; 2], "gap", [outer + width, low - width]);
    mark(Edge::Left, [root, end], "edge_outer", [0.0, outer]);
    // A groove as deep as the tenon lies from the edge has its dimension there.
    if (groove - inner).abs() > HAIR {
        mark(Edge::Left, [end, 0.0], "edge_inner", [low, wide]);
    }
    mark(Edge::Right, [beyond; 2], "depth", [wide - groove, wide]);
    mark(Edge::Right, [beyond; 2], "rail_width", [0.0, wide]);
    let shown = |name| measures.shown(name);
    let mut says = format!(
        "The end of the rail on its face, {} wide, outer edge at the top: ",
        shown("rail_width")
    );
    says += &match (gap, haunch) {
        (Some(_), _) => format!(
            "two tenons, each {} wide, {} between them",
            shown("tenon_width"),
            shown("gap")
        ),
        (None, Some(_)) => format!(
            "a haunch {} long, below it the tenon, {} wide",
            shown("haunch_long"),
            shown("tenon_width")
        ),
        (None, None) => format!("a tenon {} wide", shown("tenon_width")),
    };
    says += &format!(
        "; {} to the outer edge and {} to the inner edge.",
        shown("edge_outer"),
        shown("edge_inner")
    );
    if groove > 0.0 {
        says += &format!(
            " The inner edge has a panel groove {} deep.",
            shown("depth")
        );
    }
    Ok((picture, says))
}
