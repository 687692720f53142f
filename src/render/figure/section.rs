//! Sections that several joints share: a grooved board, and the end of a board that enters it.
//!
//! The grooved board lies with its surface at y = 0 and its depth downwards, the groove about
//! x = 0; the other board stands above it. All in millimetres.

use super::svg::{Lean, Picture, Point};

/// How far boards are drawn: aside from the groove, and above the surface.
#[derive(Debug, Clone, Copy)]
pub(super) struct Extent {
    /// To each side of x = 0.
    pub(super) aside: f64,
    /// Above y = 0.
    pub(super) above: f64,
    /// Thickness of the grooved board, below y = 0.
    pub(super) side: f64,
}

/// The corners of a rectangle from its left upper to its right lower one.
pub(super) fn boxed(least: Point, most: Point) -> [Point; 4] {
    [least, (most.0, least.1), most, (least.0, most.1)]
}

impl Extent {
    /// Room for a groove and a board of these widths.
    pub(super) fn new(groove: f64, stock: f64, side: f64) -> Self {
        let wide = groove.max(stock);
        Self {
            aside: wide * 1.15,
            above: wide * 0.8,
            side,
        }
    }

    /// A picture of the grooved board alone.
    pub(super) fn board_picture(self) -> Picture {
        Picture::new((-self.aside, 0.0), (self.aside, self.side))
    }

    /// A picture of both boards.
    pub(super) fn joint_picture(self) -> Picture {
        Picture::new((-self.aside, -self.above), (self.aside, self.side))
    }

    /// A picture of the entering board alone, down to `end`.
    pub(super) fn tail_picture(self, half: f64, end: f64) -> Picture {
        Picture::new((-half, -self.above), (half, end))
    }

    /// Draws the grooved board; `groove` runs from left to right below the surface.
    pub(super) fn board(self, picture: &mut Picture, groove: &[Point]) {
        let mut points = vec![(-self.aside, 0.0)];
        points.extend_from_slice(groove);
        points.extend([
            (self.aside, 0.0),
            (self.aside, self.side),
            (-self.aside, self.side),
        ]);
        picture.cut(&points, Lean::Right);
        picture.broken((-self.aside, 0.0), (-self.aside, self.side));
        picture.broken((self.aside, 0.0), (self.aside, self.side));
    }

    /// Draws the entering board between two faces; `end` runs from its right face to its left.
    pub(super) fn tail(self, picture: &mut Picture, faces: (f64, f64), end: &[Point]) {
        let mut points = vec![(faces.0, -self.above), (faces.1, -self.above)];
        points.extend_from_slice(end);
        picture.cut(&points, Lean::Left);
        picture.broken((faces.0, -self.above), (faces.1, -self.above));
    }
}
