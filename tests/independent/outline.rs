//! Sections of wood and of cutters as polygons in mm, cut and laid over each other by `i_overlay`
//! on its grid of 64-bit whole numbers.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use i_overlay::i_shape::float::area::Area;

use crate::turned;

pub(crate) type Point = [f64; 2];

/// A section: shapes of contours, the first of each its outline, all others holes.
#[derive(Debug, Clone)]
pub(crate) struct Outline(Vec<Vec<Vec<Point>>>);

impl Outline {
    pub(crate) fn polygon(points: &[Point]) -> Self {
        Self(vec![vec![points.to_vec()]])
    }

    /// The rectangle between two opposite corners.
    pub(crate) fn rectangle([left, low]: Point, [right, high]: Point) -> Self {
        Self::polygon(&[[left, low], [right, low], [right, high], [left, high]])
    }

    /// A regular polygon of `sides`, corners on the circle; the first at the right.
    pub(crate) fn circle([x, y]: Point, radius: f64, sides: u32) -> Self {
        let corner = |at| {
            let (sine, cosine) = turned(f64::from(at) / f64::from(sides));
            [x + radius * cosine, y + radius * sine]
        };
        Self::polygon(&(0..sides).map(corner).collect::<Vec<_>>())
    }

    fn overlay(&self, other: &Self, rule: OverlayRule) -> Self {
        Self(self.0.overlay_as::<i64>(&other.0, rule, FillRule::NonZero))
    }

    pub(crate) fn and(&self, other: &Self) -> Self {
        self.overlay(other, OverlayRule::Union)
    }

    pub(crate) fn less(&self, other: &Self) -> Self {
        self.overlay(other, OverlayRule::Difference)
    }

    pub(crate) fn common(&self, other: &Self) -> Self {
        self.overlay(other, OverlayRule::Intersect)
    }

    /// All of these joined.
    pub(crate) fn all(outlines: impl IntoIterator<Item = Self>) -> Self {
        let joined = outlines.into_iter().reduce(|one, two| one.and(&two));
        joined.unwrap_or(Self(Vec::new()))
    }

    /// Area in mm2, without its sign: outlines run one way round and holes the other.
    pub(crate) fn area(&self) -> f64 {
        let contours = self.0.iter().flatten();
        contours
            .map(|contour| contour.as_slice().area())
            .sum::<f64>()
            .abs()
    }

    /// What is in one of the two only.
    pub(crate) fn differs(&self, other: &Self) -> f64 {
        self.overlay(other, OverlayRule::Xor).area()
    }

    /// Pieces that hang together, those of more than `least` mm2.
    pub(crate) fn pieces(&self, least: f64) -> Vec<Self> {
        let alone = self.0.iter().map(|shape| Self(vec![shape.clone()]));
        alone.filter(|piece| piece.area() > least).collect()
    }

    fn coordinates(&self, at: usize) -> impl Iterator<Item = f64> {
        let points = self.0.iter().flatten().flatten();
        points.map(move |point| point[at])
    }

    /// Least and most of the first coordinate.
    pub(crate) fn across(&self) -> (f64, f64) {
        let least = self.coordinates(0).fold(f64::INFINITY, f64::min);
        (least, self.coordinates(0).fold(f64::NEG_INFINITY, f64::max))
    }

    /// Every point moved by a rule that keeps or turns round the sense of rotation as a whole.
    pub(crate) fn moved(&self, rule: impl Fn(Point) -> Point) -> Self {
        let contour = |contour: &Vec<Point>| contour.iter().copied().map(&rule).collect();
        let shape = |shape: &Vec<Vec<Point>>| shape.iter().map(contour).collect();
        Self(self.0.iter().map(shape).collect())
    }
}

// A square of 4 mm with a hole of 2 mm and a square apart: 16 - 4 + 1, two pieces; by hand.
#[test]
fn areas_holes_and_pieces() {
    let square = |low: f64, high: f64| Outline::rectangle([low, low], [high, high]);
    let whole = square(0.0, 4.0)
        .less(&square(1.0, 3.0))
        .and(&square(6.0, 7.0));
    crate::within(whole.area(), 13.0, 1e-9);
    assert_eq!(whole.pieces(0.5).len(), 2);
    assert_eq!(whole.pieces(2.0).len(), 1);
    crate::within(whole.differs(&square(0.0, 4.0)), 5.0, 1e-9);
    assert_eq!(whole.across(), (0.0, 7.0));
    // A hexagon in a circle of 2 mm: 6 triangles of sqrt(3) mm2.
    let hexagon = Outline::circle([1.0, 1.0], 2.0, 6);
    crate::within(hexagon.area(), 6.0 * f64::sqrt(3.0), 1e-9);
}
