//! Dowelled joint: one piece on the joint, and both pieces in section through the dowels.
//!
//! Needs `rail_width` (W, along the joint), `first` (a), `pitch` (q), `cutter` (d, the drill),
//! `rail_depth` (y), `mortise_depth` (z) and `dowel` (l) (`joinery.md` 3.12). A rail on a stile needs
//! `board` (T, the rail) and `mortised_width` (V) too; of two pieces of one length what is not known
//! is broken off, and of a long joint a part is drawn larger. The dowels are drawn whole, as round
//! parts are along their length.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, Point, finish};
use crate::diag::Fault;

/// Most dowels that are drawn.
const MOST: usize = 400;

struct Joint {
    /// Two pieces of one length, not a rail on a stile that runs on.
    is_row: bool,
    board: f64,
    rail: f64,
    stile: f64,
    drill: f64,
    rail_hole: f64,
    stile_hole: f64,
    dowel: f64,
    axes: Vec<f64>,
    /// The part that is drawn in section.
    part: [f64; 2],
}

/// The end of a rail on the edge of a stile.
pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (board, stile) = (measures.mm("board")?, measures.mm("mortised_width")?);
    let mut joint = Joint::new(measures, board, stile)?;
    joint.part = [-joint.rail * 0.15, joint.rail * 1.15];
    let end = joint.end(measures);
    let says = format!("The end of the rail, {}", joint.end_says(measures));
    let (through, through_says) = joint.section(measures);
    let mut views = finish(vec![(end, "Rail, on its end", says)]);
    views.extend(finish(vec![(through, "Together, section", through_says)]));
    Ok(views)
}

/// Two pieces along a joint.
pub(super) fn row(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let drill = measures.mm("cutter")?;
    let hole = measures.mm("mortise_depth")?;
    let board = measures.optional("board")?.unwrap_or(drill * 3.0);
    let stile = measures.optional("mortised_width")?;
    let mut joint = Joint::new(measures, board, stile.unwrap_or(hole * 1.6))?;
    joint.is_row = true;
    let reach = (3.0 * (joint.rail_hole + joint.stile_hole)).max(6.0 * drill);
    let first = joint.axes.first().copied().unwrap_or_default();
    let begin = if first > reach / 3.0 {
        first - reach / 3.0
    } else {
        0.0
    };
    joint.part = [begin, (begin + reach).min(joint.rail)];
    let end = joint.end(measures);
    let says = format!("One piece on the joint, {}", joint.end_says(measures));
    let mut views = finish(vec![(end, "One piece, on the joint", says)]);
    let (through, through_says) = joint.section(measures);
    let mut others = vec![(through, "Together, section", through_says)];
    if joint.is_cropped() {
        let (detail, says) = joint.detail(measures);
        others.insert(0, (detail, "One piece, a part larger", says));
    }
    views.extend(finish(others));
    Ok(views)
}

impl Joint {
    fn new(measures: &Measures<'_>, board: f64, stile: f64) -> Result<Self, Fault> {
        let (first, pitch) = (measures.mm("first")?, measures.mm("pitch")?);
        let (rail, drill) = (measures.mm("rail_width")?, measures.mm("cutter")?);
        let many = rail / pitch < MOST as f64;
        measures.demand(many, "the dowels are too many to draw")?;
        let joint = Self {
            is_row: false,
            board,
            rail,
            stile,
            drill,
            rail_hole: measures.mm("rail_depth")?,
            stile_hole: measures.mm("mortise_depth")?,
            dowel: measures.mm("dowel")?,
            // A last dowel that rounding puts a hair beyond still counts.
            axes: (0..MOST)
                .map(|at| first + pitch * at as f64)
                .take_while(|axis| *axis <= rail - first + pitch * 0.01)
                .collect(),
            part: [0.0, rail],
        };
        measures.demand(drill < joint.board, "the drill is as thick as the rail")?;
        measures.demand(drill < pitch, "the holes run into each other")?;
        measures.demand(drill / 2.0 < first, "the first hole breaks out at the edge")?;
        measures.demand(joint.stile_hole < joint.stile, "the holes go through")?;
        measures.demand(!joint.axes.is_empty(), "no dowel finds room")?;
        measures.demand(
            joint.dowel <= joint.rail_hole + joint.stile_hole,
            "the dowels are longer than both holes",
        )?;
        Ok(joint)
    }

    /// Whether only a part of a row is drawn in section.
    fn is_cropped(&self) -> bool {
        self.is_row && (self.part[0] > 0.0 || self.part[1] < self.rail)
    }

    /// The dowels of the part that is drawn.
    fn shown(&self) -> impl Iterator<Item = f64> {
        let [from, to] = self.part;
        let half = self.drill / 2.0;
        let axes = self.axes.iter().copied();
        axes.filter(move |axis| axis - half > from && axis + half < to)
    }

    /// The whole of one piece, seen on the joint.
    fn end(&self, measures: &Measures<'_>) -> Picture {
        let mut picture = Picture::new((0.0, 0.0), (self.rail, self.board));
        let middle = self.face(measures, &mut picture, [0.0, self.rail]);
        let from = self.axes.first().copied().unwrap_or_default();
        measures.mark(&mut picture, Edge::Top, [0.0, middle], "first", [0.0, from]);
        if let Some(next) = self.axes.get(1) {
            measures.mark(&mut picture, Edge::Top, [middle; 2], "pitch", [from, *next]);
        }
        let under = [self.board; 2];
        let along = [0.0, self.rail];
        measures.mark(&mut picture, Edge::Bottom, under, "rail_width", along);
        if self.is_cropped() {
            picture.room((360.0, 200.0));
        } else {
            self.thick(measures, &mut picture, (from, self.rail));
        }
        picture
    }

    /// A face with its holes; gives the line of their axes.
    fn face(&self, measures: &Measures<'_>, picture: &mut Picture, [from, to]: [f64; 2]) -> f64 {
        let corners = boxed((from, 0.0), (to, self.board));
        picture.outline(&corners);
        let (middle, over) = (self.board / 2.0, self.drill * 0.8);
        picture.centre((from - over * 0.5, middle), (to + over * 0.5, middle));
        for axis in self.axes.iter().filter(|axis| (from..to).contains(*axis)) {
            picture.round((*axis, middle), self.drill);
            picture.centre((*axis, middle - over), (*axis, middle + over));
        }
        if !measures.has("board") {
            picture.broken(corners[0], corners[1]);
            picture.broken(corners[3], corners[2]);
        }
        middle
    }

    /// The thickness, and the drill at the hole at `axis`.
    fn thick(&self, measures: &Measures<'_>, picture: &mut Picture, (axis, right): (f64, f64)) {
        let whole = [0.0, self.board];
        measures.mark(picture, Edge::Right, [right; 2], "board", whole);
        let (middle, half) = (self.board / 2.0, self.drill / 2.0);
        let hole = [middle - half, middle + half];
        measures.mark(picture, Edge::Left, [axis; 2], "cutter", hole);
    }

    /// A part of the face, larger.
    fn detail(&self, measures: &Measures<'_>) -> (Picture, String) {
        let [from, to] = self.part;
        let mut picture = Picture::new((from, 0.0), (to, self.board));
        self.face(measures, &mut picture, self.part);
        for (x, end) in [(from, 0.0), (to, self.rail)] {
            if (x - end).abs() > 0.0 {
                picture.broken((x, 0.0), (x, self.board));
            }
        }
        let axis = self.shown().next().unwrap_or(from);
        self.thick(measures, &mut picture, (axis, to));
        let thick = match measures.has("board") {
            true => format!(", {} thick", measures.shown("board")),
            false => String::new(),
        };
        let says = format!(
            "A part of the same piece{thick}: holes of {}.",
            measures.shown("cutter")
        );
        (picture, says)
    }

    fn end_says(&self, measures: &Measures<'_>) -> String {
        let (along, thick) = match (self.is_row, measures.shown("board")) {
            (true, "") => ("long", String::new()),
            (true, thick) => ("long", format!(" and {thick} thick")),
            (false, thick) => ("wide", format!(" and {thick} thick")),
        };
        let place = match (self.is_row, thick.is_empty()) {
            (_, true) => "",
            (true, false) => ", drawn in the middle of its thickness",
            (false, false) => " in the middle of its thickness",
        };
        format!(
            "{} {along}{thick}, with {} holes of {}{place}: the first {} from the edge, then {} from \
             hole to hole.",
            measures.shown("rail_width"),
            self.axes.len(),
            measures.shown("cutter"),
            measures.shown("first"),
            measures.shown("pitch")
        )
    }

    /// The edge of a piece at x = 0 with its holes, from the top down.
    fn holes(&self, deep: f64) -> Vec<Point> {
        let half = self.drill / 2.0;
        let hole = |axis: f64| {
            [
                (0.0, axis - half),
                (deep, axis - half),
                (deep, axis + half),
                (0.0, axis + half),
            ]
        };
        self.shown().flat_map(hole).collect()
    }

    fn section(&self, measures: &Measures<'_>) -> (Picture, String) {
        let [above, below] = self.part;
        let [high, low] = match self.is_row {
            true => self.part,
            false => [0.0, self.rail],
        };
        let on = self.rail * 0.35;
        let on = if self.is_row {
            on.min(self.rail_hole)
        } else {
            on
        };
        let beyond = self.rail_hole + on;
        let mut picture = Picture::new((-self.stile, above), (beyond, below));
        let mut stile = vec![(-self.stile, above), (0.0, above)];
        stile.extend(self.holes(-self.stile_hole));
        stile.extend([(0.0, below), (-self.stile, below)]);
        picture.cut(&stile, Lean::Right);
        let mut rail = vec![(beyond, high), (0.0, high)];
        rail.extend(self.holes(self.rail_hole));
        rail.extend([(0.0, low), (beyond, low)]);
        picture.cut(&rail, Lean::Left);
        picture.broken((beyond, high), (beyond, low));
        if !measures.has("mortised_width") {
            picture.broken((-self.stile, above), (-self.stile, below));
        }
        for (y, end) in [(above, 0.0), (below, self.rail)] {
            if (y - end).abs() > 0.0 {
                let right = if self.is_row { beyond } else { 0.0 };
                picture.broken((-self.stile, y), (right, y));
            }
        }
        let slack = (self.rail_hole + self.stile_hole - self.dowel) / 2.0;
        let (left, right) = (slack - self.stile_hole, self.rail_hole - slack);
        let half = self.drill / 2.0;
        let (mut top, mut foot) = (f64::INFINITY, above);
        for axis in self.shown() {
            picture.outline(&boxed((left, axis - half), (right, axis + half)));
            picture.centre((left - half, axis), (right + half, axis));
            (top, foot) = (top.min(axis - half), foot.max(axis + half));
        }
        let mut mark =
            |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
        let hole = [-self.stile_hole, 0.0];
        mark(Edge::Bottom, [foot; 2], "mortise_depth", hole);
        let across = [-self.stile, 0.0];
        mark(Edge::Bottom, [below; 2], "mortised_width", across);
        mark(Edge::Top, [top; 2], "rail_depth", [0.0, self.rail_hole]);
        mark(Edge::Top, [top; 2], "dowel", [left, right]);
        (picture, self.section_says(measures))
    }

    fn section_says(&self, measures: &Measures<'_>) -> String {
        let (both, one, other) = match self.is_row {
            true => ("Both pieces", "the one piece", "the other"),
            false => ("Rail and stile", "the rail", "the stile"),
        };
        let wide = match measures.shown("mortised_width") {
            "" => String::new(),
            wide => format!(", which is {wide} wide"),
        };
        format!(
            "{both} cut through along the dowels: holes {} deep in {one} and {} deep in \
             {other}{wide}; in each pair a dowel {} long, with a gap at its ends.",
            measures.shown("rail_depth"),
            measures.shown("mortise_depth"),
            measures.shown("dowel")
        )
    }
}
