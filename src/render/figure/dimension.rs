//! Dimension lines with their heads and extension lines, outside what is drawn.

use std::fmt::Write;

use super::svg::{Dimension, Edge, Frame, GAP, Point, ROW, TYPE, label_width, number};

/// Where a dimension stands: its edge, where its extension lines begin, how far out it is.
pub(super) struct Place {
    pub(super) edge: Edge,
    pub(super) starts: [f64; 2],
    pub(super) beyond: f64,
}

/// Draws the lines of a dimension; gives the middle of its label and the room that it took.
pub(super) fn dimension_lines(
    out: &mut String,
    frame: &Frame,
    place: &Place,
    one: &Dimension,
) -> (Point, f64) {
    let width = label_width(&one.label);
    match place.edge {
        Edge::Top | Edge::Bottom => {
            let line = match place.edge {
                Edge::Top => frame.y(frame.least.1) - place.beyond - 4.0,
                _ => frame.y(frame.most.1) + place.beyond + ROW - 12.0,
            };
            let [from, to] = [frame.x(one.from), frame.x(one.to)];
            let [first, second] = place.starts.map(|start| frame.y(start));
            extension(out, [(from, first), (from, line)]);
            extension(out, [(to, second), (to, line)]);
            arrows(out, (from, line), (to, line));
            let half = width / 2.0 + 2.0;
            let middle = f64::midpoint(from, to).clamp(half, frame.width - half);
            ((middle, line - 6.0), ROW)
        }
        Edge::Left | Edge::Right => {
            let (line, side) = match place.edge {
                Edge::Left => (frame.x(frame.least.0) - place.beyond - 2.0, -1.0),
                _ => (frame.x(frame.most.0) + place.beyond + 2.0, 1.0),
            };
            let [from, to] = [frame.y(one.from), frame.y(one.to)];
            let [first, second] = place.starts.map(|start| frame.x(start));
            extension(out, [(first, from), (line, from)]);
            extension(out, [(second, to), (line, to)]);
            arrows(out, (line, from), (line, to));
            let middle = f64::midpoint(from, to) + TYPE / 3.0;
            let aside = line + side * (width / 2.0 + 7.0);
            ((aside, middle), width + 2.0 * GAP)
        }
    }
}

/// A thin line from just off the drawing to just past the dimension line.
fn extension(out: &mut String, [begin, end]: [Point; 2]) {
    let sign = |from: f64, to: f64| match from.total_cmp(&to) {
        std::cmp::Ordering::Less => 1.0,
        std::cmp::Ordering::Equal => 0.0,
        std::cmp::Ordering::Greater => -1.0,
    };
    let (dx, dy) = (sign(begin.0, end.0), sign(begin.1, end.1));
    let _ = write!(
        out,
        "<path stroke-width=\"0.7\" d=\"M{} {}L{} {}\"/>",
        number(begin.0 + 3.0 * dx),
        number(begin.1 + 3.0 * dy),
        number(end.0 + 4.0 * dx),
        number(end.1 + 4.0 * dy)
    );
}

/// A dimension line with filled heads; from outside inwards where the measure is too short.
fn arrows(out: &mut String, from: Point, to: Point) {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let long = dx.abs() + dy.abs();
    let (ux, uy) = if dx.abs() > dy.abs() {
        (dx.signum(), 0.0)
    } else {
        (0.0, dy.signum())
    };
    let outside = long < 22.0;
    let turn = if outside { -1.0 } else { 1.0 };
    let tail = if outside { 16.0 } else { 0.0 };
    let _ = write!(
        out,
        "<path stroke-width=\"0.9\" d=\"M{} {}L{} {}\"/>",
        number(from.0 - ux * tail),
        number(from.1 - uy * tail),
        number(to.0 + ux * tail),
        number(to.1 + uy * tail)
    );
    head(out, from, (ux * turn, uy * turn));
    head(out, to, (-ux * turn, -uy * turn));
}

pub(super) fn head(out: &mut String, tip: Point, (ux, uy): Point) {
    let (long, half) = (9.0, 2.6);
    let back = (tip.0 + ux * long, tip.1 + uy * long);
    let _ = write!(
        out,
        "<path fill=\"#000\" stroke=\"none\" d=\"M{} {}L{} {}L{} {}Z\"/>",
        number(tip.0),
        number(tip.1),
        number(back.0 - uy * half),
        number(back.1 + ux * half),
        number(back.0 + uy * half),
        number(back.1 - ux * half)
    );
}
