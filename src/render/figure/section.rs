//! Sections that several joints share: a grooved board, and the end of a board that enters it.
//!
//! The grooved board lies with its surface at y = 0 and its depth downwards, the groove about
//! x = 0; the other board stands above it. All in millimetres.

use super::measures::Measures;
use super::svg::{Lean, Picture, Point};
use crate::diag::Fault;

/// How far boards are drawn: aside from the groove, and above the surface.
#[derive(Debug, Clone, Copy)]
pub(super) struct Extent {
    /// To each side of x = 0.
    pub(super) aside: f64,
    /// Above y = 0.
    pub(super) above: f64,
    /// Thickness of the grooved board, below y = 0; of one of unknown thickness, how much is drawn
    /// before it is broken off.
    pub(super) side: f64,
    /// Whether that is its whole thickness.
    whole: bool,
}

/// The corners of a rectangle from its left upper to its right lower one.
pub(super) fn boxed(least: Point, most: Point) -> [Point; 4] {
    [least, (most.0, least.1), most, (least.0, most.1)]
}

impl Extent {
    /// Room for a groove and a board of these widths; the grooved board may be of unknown thickness.
    ///
    /// # Errors
    /// A groove as deep as the board is thick.
    pub(super) fn new(
        measures: &Measures<'_>,
        groove: (f64, f64),
        stock: f64,
    ) -> Result<Self, Fault> {
        let (width, depth) = groove;
        let side = measures.known("side")?;
        let wide = width.max(stock);
        let extent = Self {
            aside: wide * 1.15,
            above: wide * 0.8,
            side: side.unwrap_or(depth + wide * 0.4),
            whole: side.is_some(),
        };
        let through = "the groove is as deep as the board is thick";
        measures.demand(depth < extent.side, through)?;
        Ok(extent)
    }

    /// The grooved board at the beginning of a sentence.
    pub(super) fn says(self, measures: &Measures<'_>) -> String {
        match self.whole {
            true => format!("A board {} thick in section", measures.shown("side")),
            false => "A board in section, broken off under the groove".to_owned(),
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
        if !self.whole {
            picture.broken((-self.aside, self.side), (self.aside, self.side));
        }
    }

    /// Draws the entering board between two faces; `end` runs from its right face to its left.
    pub(super) fn tail(self, picture: &mut Picture, faces: (f64, f64), end: &[Point]) {
        let mut points = vec![(faces.0, -self.above), (faces.1, -self.above)];
        points.extend_from_slice(end);
        picture.cut(&points, Lean::Left);
        picture.broken((faces.0, -self.above), (faces.1, -self.above));
    }
}
