//! Dimension lines with their heads and extension lines, outside what is drawn.
//!
//! A label stands at the middle of its line, or beside it where the lines of another dimension run
//! there; then its own line goes on under it.

use std::fmt::Write;

use super::lettering::{Ground, Run, Words, are_apart, around, grown, meets, outside};
use super::svg::{Dimension, Edge, Frame, GAP, Point, ROW, TYPE, number};

/// Free around a label.
const CLEAR: f64 = 2.0;
/// From a dimension line to the middle of its label in a row, and to its side in a column.
const OVER: f64 = 12.5;
const ASIDE: f64 = 7.0;

/// A dimension laid out, its label not yet placed.
pub(super) struct Laid {
    edge: Edge,
    extensions: [Run; 2],
    line: Run,
    words: Words,
    middle: Point,
}

/// A dimension with its label in its place.
pub(super) struct Placed {
    extensions: [Run; 2],
    heads: Run,
    line: Run,
    words: Words,
    middle: Point,
}

/// The words of a dimension at an edge.
pub(super) fn words(edge: Edge, label: &str) -> Words {
    match edge {
        Edge::Top | Edge::Bottom => Words::line(label),
        Edge::Left | Edge::Right => Words::at_side(label),
    }
}

/// Lays out a dimension; `starts` are where its extension lines begin, `beyond` is how far out it
/// stands. Gives the room that it takes too.
pub(super) fn laid(
    frame: &Frame,
    edge: Edge,
    starts: [f64; 2],
    beyond: f64,
    one: &Dimension,
) -> (Laid, f64) {
    let words = words(edge, &one.label);
    let (wide, _) = words.size();
    let (extensions, line, middle, room) = match edge {
        Edge::Top | Edge::Bottom => {
            let line = match edge {
                Edge::Top => frame.y(frame.least.1) - frame.over.0 - beyond - 4.0,
                _ => frame.y(frame.most.1) + frame.over.1 + beyond + ROW - 12.0,
            };
            let [from, to] = [frame.x(one.from), frame.x(one.to)];
            let [first, second] = starts.map(|start| frame.y(start));
            (
                [((from, first), (from, line)), ((to, second), (to, line))],
                ((from, line), (to, line)),
                (f64::midpoint(from, to), line - OVER),
                ROW,
            )
        }
        Edge::Left | Edge::Right => {
            let (line, side) = match edge {
                Edge::Left => (frame.x(frame.least.0) - beyond - 2.0, -1.0),
                _ => (frame.x(frame.most.0) + beyond + 2.0, 1.0),
            };
            let [from, to] = [frame.y(one.from), frame.y(one.to)];
            let [first, second] = starts.map(|start| frame.x(start));
            (
                [((first, from), (line, from)), ((second, to), (line, to))],
                ((line, from), (line, to)),
                (line + side * (wide / 2.0 + ASIDE), f64::midpoint(from, to)),
                wide + 2.0 * GAP,
            )
        }
    };
    let laid = Laid {
        edge,
        extensions: extensions.map(extension),
        line,
        words,
        middle,
    };
    (laid, room)
}

/// Finds each label its place among the lines of the picture; where there is none that is clear of
/// them, extension lines are broken for it.
pub(super) fn placed(frame: &Frame, all: Vec<Laid>, runs: &[Run]) -> Vec<Placed> {
    let mut taken: Vec<Ground> = Vec::new();
    let place = |one: Laid| {
        let size = one.words.size();
        let is_free = |middle: &Point| {
            let ground = around(*middle, size);
            let inside = ground[0] >= 0.0 && ground[2] <= frame.width;
            inside && taken.iter().all(|other| are_apart(&ground, other))
        };
        let is_clear = |middle: &Point| {
            let ground = grown(&around(*middle, size), CLEAR - 0.5);
            !runs.iter().any(|run| meets(&ground, *run))
        };
        let places = one.places(frame, runs);
        let free = || places.iter().copied().filter(is_free);
        let best = free().find(is_clear).or_else(|| free().next());
        let middle = best.unwrap_or(one.middle);
        taken.push(around(middle, size));
        let line = one.under(middle);
        Placed {
            extensions: one.extensions,
            heads: one.line,
            line,
            words: one.words,
            middle,
        }
    };
    all.into_iter().map(place).collect()
}

impl Laid {
    /// All its lines.
    pub(super) fn runs(&self) -> Vec<Run> {
        let mut all = self.extensions.to_vec();
        all.push(tailed(self.line));
        all.extend(
            heads(self.line)
                .into_iter()
                .flat_map(|(tip, back)| sides(tip, back)),
        );
        all
    }

    /// Whether it stands above or below the drawing.
    pub(super) fn is_row(&self) -> bool {
        matches!(self.edge, Edge::Top | Edge::Bottom)
    }

    /// Where its label may stand, the nearest to its middle first: there, and just beside each
    /// line that runs across.
    fn places(&self, frame: &Frame, runs: &[Run]) -> Vec<Point> {
        let (wide, high) = self.words.size();
        let along = |(x, y): Point| if self.is_row() { x } else { y };
        let half = if self.is_row() { wide } else { high } / 2.0;
        let (low, most) = if self.is_row() {
            (half + CLEAR, frame.width - half - CLEAR)
        } else {
            let (top, foot) = (frame.y(frame.least.1), frame.y(frame.most.1));
            (top - frame.over.0 + half, foot + frame.over.1 - half)
        };
        let middle = along(self.middle);
        // All that it may be moved over.
        let [left, top, right, foot] = grown(&around(self.middle, (wide, high)), CLEAR);
        let band = match self.is_row() {
            true => [0.0, top, frame.width, foot],
            false => [
                left,
                frame.y(frame.least.1) - frame.over.0,
                right,
                most + half,
            ],
        };
        let mut ats = vec![middle];
        for (from, to) in runs.iter().filter(|run| meets(&band, **run)) {
            for end in [along(*from), along(*to)] {
                ats.extend([end - half - CLEAR, end + half + CLEAR]);
            }
        }
        let mut ats: Vec<f64> = ats
            .into_iter()
            .map(|at| at.clamp(low.min(most), most))
            .collect();
        ats.sort_by(|one, other| (one - middle).abs().total_cmp(&(other - middle).abs()));
        let place = |at: f64| match self.is_row() {
            true => (at, self.middle.1),
            false => (self.middle.0, at),
        };
        ats.into_iter().map(place).collect()
    }

    /// Its line with its tails, and on under a label that stands beside it.
    fn under(&self, middle: Point) -> Run {
        let (wide, high) = self.words.size();
        let (from, to) = tailed(self.line);
        let on = |from: f64, to: f64, low: f64, most: f64| {
            let beside = low > from.max(to) || most < from.min(to);
            match beside {
                true => (from.min(to).min(low), from.max(to).max(most)),
                false => (from, to),
            }
        };
        if self.is_row() {
            let (low, most) = (middle.0 - wide / 2.0, middle.0 + wide / 2.0);
            let (low, most) = on(from.0, to.0, low, most);
            return ((low, from.1), (most, from.1));
        }
        let most = middle.1 + high / 2.0 - TYPE / 2.0;
        let low = middle.1 - high / 2.0 + TYPE / 2.0;
        let (low, most) = on(from.1, to.1, low, most);
        ((from.0, low), (from.0, most))
    }
}

impl Placed {
    /// The ground of its label.
    pub(super) fn ground(&self) -> Ground {
        around(self.middle, self.words.size())
    }

    /// Draws its lines, broken where words stand.
    pub(super) fn draw(&self, out: &mut String, grounds: &[Ground]) {
        let [first, second] = self.extensions;
        for (thick, run) in [("0.7", first), ("0.7", second), ("0.9", self.line)] {
            for (from, to) in outside(run, grounds) {
                let _ = write!(
                    out,
                    "<path stroke-width=\"{thick}\" d=\"M{} {}L{} {}\"/>",
                    number(from.0),
                    number(from.1),
                    number(to.0),
                    number(to.1)
                );
            }
        }
        for (tip, back) in heads(self.heads) {
            head(out, tip, back);
        }
    }

    /// Writes its label.
    pub(super) fn write(&self, out: &mut String) {
        self.words.write(out, self.middle);
    }
}

/// A thin line from just off the drawing to just past the dimension line.
fn extension((begin, end): Run) -> Run {
    let sign = |from: f64, to: f64| match from.total_cmp(&to) {
        std::cmp::Ordering::Less => 1.0,
        std::cmp::Ordering::Equal => 0.0,
        std::cmp::Ordering::Greater => -1.0,
    };
    let (dx, dy) = (sign(begin.0, end.0), sign(begin.1, end.1));
    (
        (begin.0 + 3.0 * dx, begin.1 + 3.0 * dy),
        (end.0 + 4.0 * dx, end.1 + 4.0 * dy),
    )
}

/// Its direction along an axis.
fn towards((from, to): Run) -> Point {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    if dx.abs() > dy.abs() {
        (dx.signum(), 0.0)
    } else {
        (0.0, dy.signum())
    }
}

/// Whether its heads stand outside, since they have no room between.
fn is_short((from, to): Run) -> bool {
    (to.0 - from.0).abs() + (to.1 - from.1).abs() < 22.0
}

/// The tips of a dimension line, each with the direction of its head.
fn heads(line: Run) -> [(Point, Point); 2] {
    let (ux, uy) = towards(line);
    let turn = if is_short(line) { -1.0 } else { 1.0 };
    let (ux, uy) = (ux * turn, uy * turn);
    [(line.0, (ux, uy)), (line.1, (-ux, -uy))]
}

/// A dimension line as far as its heads have their tails.
fn tailed((from, to): Run) -> Run {
    let (ux, uy) = towards((from, to));
    let tail = if is_short((from, to)) { 16.0 } else { 0.0 };
    (
        (from.0 - ux * tail, from.1 - uy * tail),
        (to.0 + ux * tail, to.1 + uy * tail),
    )
}

/// The corners of a head, its tip first.
fn corners(tip: Point, (ux, uy): Point) -> [Point; 3] {
    let (long, half) = (9.0, 2.6);
    let back = (tip.0 + ux * long, tip.1 + uy * long);
    [
        tip,
        (back.0 - uy * half, back.1 + ux * half),
        (back.0 + uy * half, back.1 - ux * half),
    ]
}

/// The sides of a head.
pub(super) fn sides(tip: Point, back: Point) -> [Run; 3] {
    let [tip, one, other] = corners(tip, back);
    [(tip, one), (one, other), (other, tip)]
}

/// Draws a head; `back` is where it points away from.
pub(super) fn head(out: &mut String, tip: Point, back: Point) {
    let corners = corners(tip, back).map(|(x, y)| format!("{} {}", number(x), number(y)));
    let _ = write!(
        out,
        "<path fill=\"#000\" stroke=\"none\" d=\"M{}Z\"/>",
        corners.join("L")
    );
}
