//! One-sided sliding dovetail: socket, tail and both together, in section.
//!
//! Needs `stock` (T), `mouth` (Mb), `base` (Bb), `depth` (h) and `exposure` (e), and `side` where it
//! is known. The left wall is square, the right one undercut; distances count from the square wall
//! (`joinery.md` 3.3). The tail's end is narrower than the stock by e less h tan(theta), which is
//! e less (base - mouth).

use super::View;
use super::measures::Measures;
use super::section::Extent;
use super::svg::{Edge, Picture, finish};
use crate::diag::Fault;

struct Joint {
    extent: Extent,
    /// The square wall.
    wall: f64,
    mouth: f64,
    base: f64,
    depth: f64,
    stock: f64,
    exposure: f64,
}

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let joint = Joint::new(measures)?;
    let shown = |name| measures.shown(name);
    let socket = format!(
        "{}, with a socket {} deep, its left wall square and its right wall undercut: {} wide at \
         its mouth, {} at its base.",
        joint.extent.says(measures),
        shown("depth"),
        shown("mouth"),
        shown("base")
    );
    let tail = format!(
        "A board {} thick in section; only its right face is cut, {} at the shoulder.",
        shown("stock"),
        shown("exposure")
    );
    let together = "The tail in its socket, its square face against the square wall.".to_owned();
    Ok(finish(vec![
        (joint.socket(measures), "Socket, section", socket),
        (joint.tail(measures), "Tail, section", tail),
        (joint.together(), "Together, section", together),
    ]))
}

impl Joint {
    fn new(measures: &Measures<'_>) -> Result<Self, Fault> {
        let stock = measures.mm("stock")?;
        let (mouth, base) = (measures.mm("mouth")?, measures.mm("base")?);
        let (depth, exposure) = (measures.mm("depth")?, measures.mm("exposure")?);
        measures.demand(mouth < base, "the mouth is not narrower than the base")?;
        measures.demand(exposure < stock, "the exposure leaves nothing of the tail")?;
        measures.demand(base - mouth <= exposure, "the tail is wider than its board")?;
        Ok(Self {
            extent: Extent::new(measures, (base, depth), stock)?,
            wall: -base / 2.0,
            mouth,
            base,
            depth,
            stock,
            exposure,
        })
    }

    fn groove(&self) -> [(f64, f64); 4] {
        [
            (self.wall, 0.0),
            (self.wall, self.depth),
            (self.wall + self.base, self.depth),
            (self.wall + self.mouth, 0.0),
        ]
    }

    fn socket(&self, measures: &Measures<'_>) -> Picture {
        let mut picture = self.extent.board_picture();
        self.extent.board(&mut picture, &self.groove());
        let end = self.wall + self.base;
        let across = measures.dimension("mouth", self.wall, self.wall + self.mouth);
        picture.measure(Edge::Top, [0.0; 2], across);
        let below = measures.dimension("base", self.wall, end);
        picture.measure(Edge::Bottom, [self.depth; 2], below);
        let deep = measures.dimension("depth", 0.0, self.depth);
        picture.measure(Edge::Right, [self.extent.aside, end], deep);
        let left = [-self.extent.aside; 2];
        measures.mark(
            &mut picture,
            Edge::Left,
            left,
            "side",
            [0.0, self.extent.side],
        );
        picture
    }

    /// Draws the tail with its square face at `left`; gives its right face, neck and end.
    fn draw_tail(&self, picture: &mut Picture, left: f64) -> (f64, f64, f64) {
        let face = left + self.stock;
        let neck = face - self.exposure;
        let end = neck + self.base - self.mouth;
        let points = [
            (face, 0.0),
            (neck, 0.0),
            (end, self.depth),
            (left, self.depth),
        ];
        self.extent.tail(picture, (left, face), &points);
        (face, neck, end)
    }

    fn tail(&self, measures: &Measures<'_>) -> Picture {
        let half = self.stock / 2.0;
        let mut picture = self.extent.tail_picture(half, self.depth);
        let (face, neck, end) = self.draw_tail(&mut picture, -half);
        let thick = measures.dimension("stock", -half, half);
        picture.measure(Edge::Top, [-self.extent.above; 2], thick);
        let shoulder = measures.dimension("exposure", neck, face);
        picture.measure(Edge::Bottom, [0.0; 2], shoulder);
        let deep = measures.dimension("depth", 0.0, self.depth);
        picture.measure(Edge::Right, [face, end], deep);
        picture
    }

    fn together(&self) -> Picture {
        let mut picture = self.extent.joint_picture();
        self.extent.board(&mut picture, &self.groove());
        self.draw_tail(&mut picture, self.wall);
        picture
    }
}
