//! Hatching of a cut face: thin lines at 45 degrees.

use std::fmt::Write;

use super::svg::{Frame, Lean, Point, number};

/// Between the lines, measured along an axis.
const APART: f64 = 11.0;

/// Lines at 45 degrees across a polygon: each meets its edges an even number of times.
pub(super) fn hatch(out: &mut String, frame: &Frame, points: &[Point], lean: Lean) {
    let turn = if lean == Lean::Right { 1.0 } else { -1.0 };
    let turned = |point: &Point| (frame.x(point.0), frame.y(point.1) * turn);
    let corners: Vec<Point> = points.iter().map(turned).collect();
    let sums = corners.iter().map(|(x, y)| x + y);
    let least = sums.clone().fold(f64::INFINITY, f64::min);
    let most = sums.fold(f64::NEG_INFINITY, f64::max);
    // Off the whole numbers, so that no line runs exactly through a corner.
    let mut sum = (least / APART).ceil() * APART + 0.37;
    out.push_str("<path stroke-width=\"0.7\" d=\"");
    while sum < most {
        let mut meets = crossings(&corners, sum);
        meets.sort_by(f64::total_cmp);
        for pair in meets.chunks_exact(2) {
            let _ = write!(
                out,
                "M{} {}L{} {}",
                number(pair[0]),
                number((sum - pair[0]) * turn),
                number(pair[1]),
                number((sum - pair[1]) * turn)
            );
        }
        sum += APART;
    }
    out.push_str("\"/>");
}

/// Where the line x + y = sum meets the edges of a polygon, as x.
fn crossings(corners: &[Point], sum: f64) -> Vec<f64> {
    let next = corners.iter().cycle().skip(1);
    let edges = corners.iter().zip(next);
    edges
        .filter_map(|(from, to)| {
            let (before, after) = (from.0 + from.1 - sum, to.0 + to.1 - sum);
            let meets = (before < 0.0) != (after < 0.0);
            meets.then(|| from.0 + (to.0 - from.0) * before / (before - after))
        })
        .collect()
}
