//! The lines of what is drawn, in straight pieces, so that words can keep off them.

use super::dimension::sides;
use super::lettering::Run;
use super::svg::{Frame, Point, Shape};
use crate::units::Angle;

impl Shape {
    /// Whether it may be broken for words that find no other place.
    pub(super) fn may_break(&self) -> bool {
        matches!(self, Self::Centre(..) | Self::Hidden(..))
    }

    /// The lines of it that no words may stand on.
    pub(super) fn runs(&self, frame: &Frame) -> Vec<Run> {
        let ring = |points: Vec<Point>| {
            let next = points.iter().copied().cycle().skip(1);
            points.iter().copied().zip(next).collect()
        };
        let all = |points: &[Point]| points.iter().map(|point| frame.at(*point)).collect();
        match self {
            Self::Outline(points)
            | Self::Phantom(points)
            | Self::Cut(points, _)
            | Self::Solid(points) => ring(all(points)),
            Self::Centre(from, to) | Self::Hidden(from, to) => {
                vec![(frame.at(*from), frame.at(*to))]
            }
            Self::Broken(from, to) => {
                let zigzag = zigzag(frame.at(*from), frame.at(*to));
                zigzag.windows(2).map(|pair| (pair[0], pair[1])).collect()
            }
            Self::Arrow(points) => {
                let points: Vec<Point> = all(points);
                let mut runs: Vec<Run> = points.windows(2).map(|pair| (pair[0], pair[1])).collect();
                let last = runs.last().copied().into_iter();
                runs.extend(last.flat_map(|(from, to)| sides(to, backwards(from, to))));
                runs
            }
            Self::Ring(middle, diameter) | Self::Round(middle, diameter) => {
                let ((x, y), radius) = (frame.at(*middle), diameter / 2.0 * frame.scale);
                let point = |step: u32| {
                    let angle = Angle::degrees(f64::from(step) * 15.0);
                    (x + radius * angle.cos(), y + radius * angle.sin())
                };
                ring((0..24).map(point).collect())
            }
            Self::Note(..) | Self::Keep(_) => Vec::new(),
        }
    }
}

/// The corners of the line of a broken-off board; it stands out a little at both ends.
pub(super) fn zigzag(from: Point, to: Point) -> [Point; 6] {
    let long = libm::hypot(to.0 - from.0, to.1 - from.1);
    let along = ((to.0 - from.0) / long, (to.1 - from.1) / long);
    let middle = long / 2.0;
    [
        (-5.0, 0.0),
        (middle - 6.0, 0.0),
        (middle - 3.0, 5.0),
        (middle + 3.0, -5.0),
        (middle + 6.0, 0.0),
        (long + 5.0, 0.0),
    ]
    .map(|(far, aside)| {
        (
            from.0 + along.0 * far - along.1 * aside,
            from.1 + along.1 * far + along.0 * aside,
        )
    })
}

/// The direction from the end of a line back to its beginning.
pub(super) fn backwards(from: Point, to: Point) -> Point {
    let long = libm::hypot(to.0 - from.0, to.1 - from.1).max(f64::EPSILON);
    ((from.0 - to.0) / long, (from.1 - to.1) / long)
}
