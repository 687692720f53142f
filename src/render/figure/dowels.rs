//! Dowelled joint: the end of the rail, and both pieces in section through the dowels.
//!
//! Needs `board` (T, the rail), `rail_width` (W), `mortised_width` (V), `first` (a), `pitch` (q),
//! `cutter` (d, the drill), `rail_depth` (y), `mortise_depth` (z) and `dowel` (l)
//! (`joinery.md` 3.12). The dowels are drawn whole, as round parts are along their length.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, Point, finish};
use crate::diag::Fault;

/// Most dowels that are drawn.
const MOST: usize = 100;

struct Joint {
    board: f64,
    rail: f64,
    stile: f64,
    drill: f64,
    rail_hole: f64,
    stile_hole: f64,
    dowel: f64,
    axes: Vec<f64>,
}

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let joint = Joint::new(measures)?;
    let (end, end_says) = joint.end(measures);
    let (through, says) = joint.section(measures);
    let mut views = finish(vec![(end, "Rail, on its end", end_says)]);
    views.extend(finish(vec![(through, "Together, section", says)]));
    Ok(views)
}

impl Joint {
    fn new(measures: &Measures<'_>) -> Result<Self, Fault> {
        let (first, pitch) = (measures.mm("first")?, measures.mm("pitch")?);
        let (rail, drill) = (measures.mm("rail_width")?, measures.mm("cutter")?);
        let joint = Self {
            board: measures.mm("board")?,
            rail,
            stile: measures.mm("mortised_width")?,
            drill,
            rail_hole: measures.mm("rail_depth")?,
            stile_hole: measures.mm("mortise_depth")?,
            dowel: measures.mm("dowel")?,
            // A last dowel that rounding puts a hair beyond still counts.
            axes: (0..MOST)
                .map(|at| first + pitch * at as f64)
                .take_while(|axis| *axis <= rail - first + pitch * 0.01)
                .collect(),
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

    fn end(&self, measures: &Measures<'_>) -> (Picture, String) {
        let mut picture = Picture::new((0.0, 0.0), (self.rail, self.board));
        picture.outline(&boxed((0.0, 0.0), (self.rail, self.board)));
        let (middle, over) = (self.board / 2.0, self.drill * 0.8);
        picture.centre((-over * 0.5, middle), (self.rail + over * 0.5, middle));
        for axis in &self.axes {
            picture.round((*axis, middle), self.drill);
            picture.centre((*axis, middle - over), (*axis, middle + over));
        }
        let from = self.axes.first().copied().unwrap_or_default();
        measures.mark(&mut picture, Edge::Top, [0.0, middle], "first", [0.0, from]);
        if let Some(next) = self.axes.get(1) {
            measures.mark(&mut picture, Edge::Top, [middle; 2], "pitch", [from, *next]);
        }
        let wide = [0.0, self.rail];
        measures.mark(
            &mut picture,
            Edge::Bottom,
            [self.board; 2],
            "rail_width",
            wide,
        );
        measures.mark(
            &mut picture,
            Edge::Right,
            [self.rail; 2],
            "board",
            [0.0, self.board],
        );
        let half = self.drill / 2.0;
        let hole = [middle - half, middle + half];
        measures.mark(&mut picture, Edge::Left, [from; 2], "cutter", hole);
        let says = format!(
            "The end of the rail, {} wide and {} thick, with {} holes of {} in the middle of its \
             thickness: the first {} from the edge, then {} from hole to hole.",
            measures.shown("rail_width"),
            measures.shown("board"),
            self.axes.len(),
            measures.shown("cutter"),
            measures.shown("first"),
            measures.shown("pitch")
        );
        (picture, says)
    }

    /// The edge of a piece at x = 0 with its holes, from the top down.
    fn holes(&self, deep: f64) -> Vec<Point> {
        let half = self.drill / 2.0;
        let hole = |axis: &f64| {
            [
                (0.0, axis - half),
                (deep, axis - half),
                (deep, axis + half),
                (0.0, axis + half),
            ]
        };
        self.axes.iter().flat_map(hole).collect()
    }

    fn section(&self, measures: &Measures<'_>) -> (Picture, String) {
        let (above, below) = (-self.rail * 0.15, self.rail * 1.15);
        let beyond = self.rail_hole + self.rail * 0.35;
        let mut picture = Picture::new((-self.stile, above), (beyond, below));
        let mut stile = vec![(-self.stile, above), (0.0, above)];
        stile.extend(self.holes(-self.stile_hole));
        stile.extend([(0.0, below), (-self.stile, below)]);
        picture.cut(&stile, Lean::Right);
        picture.broken((-self.stile, above), (0.0, above));
        picture.broken((-self.stile, below), (0.0, below));
        let mut rail = vec![(beyond, 0.0), (0.0, 0.0)];
        rail.extend(self.holes(self.rail_hole));
        rail.extend([(0.0, self.rail), (beyond, self.rail)]);
        picture.cut(&rail, Lean::Left);
        picture.broken((beyond, 0.0), (beyond, self.rail));
        let slack = (self.rail_hole + self.stile_hole - self.dowel) / 2.0;
        let (left, right) = (slack - self.stile_hole, self.rail_hole - slack);
        let half = self.drill / 2.0;
        for axis in &self.axes {
            picture.outline(&boxed((left, axis - half), (right, axis + half)));
            picture.centre((left - half, *axis), (right + half, *axis));
        }
        let last = self.axes.last().copied().unwrap_or_default();
        let (high, low) = (
            self.axes.first().map_or(0.0, |axis| axis - half),
            last + half,
        );
        let hole = [-self.stile_hole, 0.0];
        measures.mark(&mut picture, Edge::Bottom, [low; 2], "mortise_depth", hole);
        let across = [-self.stile, 0.0];
        measures.mark(
            &mut picture,
            Edge::Bottom,
            [below; 2],
            "mortised_width",
            across,
        );
        measures.mark(
            &mut picture,
            Edge::Top,
            [high; 2],
            "rail_depth",
            [0.0, self.rail_hole],
        );
        measures.mark(&mut picture, Edge::Top, [high; 2], "dowel", [left, right]);
        let says = format!(
            "Rail and stile cut through along the dowels: holes {} deep in the rail and {} deep in \
             the stile, which is {} wide; in each pair a dowel {} long, with a gap at its ends.",
            measures.shown("rail_depth"),
            measures.shown("mortise_depth"),
            measures.shown("mortised_width"),
            measures.shown("dowel")
        );
        (picture, says)
    }
}
