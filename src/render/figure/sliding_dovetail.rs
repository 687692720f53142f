//! Sliding dovetail: socket, tail and both together, in section.
//!
//! Needs `stock` (T), `mouth` (m), `base` (B), `depth` (h), `exposure` (e) and `end_cut` (k), and
//! `side` where it is known; the tail is stock less twice e at its neck and stock less twice k at its end
//! (`joinery.md` 3.1).

use super::View;
use super::measures::Measures;
use super::section::Extent;
use super::svg::{Edge, Picture, finish};
use crate::diag::Fault;

struct Joint {
    extent: Extent,
    mouth: f64,
    base: f64,
    depth: f64,
    stock: f64,
    neck: f64,
    end: f64,
}

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let joint = Joint::new(measures)?;
    let shown = |name| measures.shown(name);
    let socket = format!(
        "{}, with a socket {} deep: {} wide at its mouth, {} at its base.",
        joint.extent.says(measures),
        shown("depth"),
        shown("mouth"),
        shown("base")
    );
    let tail = format!(
        "A board {} thick in section, its end cut to a tail: on each face {} at the shoulder and \
         {} at the end.",
        shown("stock"),
        shown("exposure"),
        shown("end_cut")
    );
    let together = "The tail in its socket, shoulders down on the surface.".to_owned();
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
        let depth = measures.mm("depth")?;
        let neck = stock - 2.0 * measures.mm("exposure")?;
        let end = stock - 2.0 * measures.or_nothing("end_cut")?;
        measures.demand(mouth < base, "the mouth is not narrower than the base")?;
        measures.demand(neck > 0.0, "the exposure leaves nothing of the tail")?;
        measures.demand(
            neck < end,
            "the tail is not wider at its end than at its neck",
        )?;
        Ok(Self {
            extent: Extent::new(measures, (base, depth), stock)?,
            mouth,
            base,
            depth,
            stock,
            neck,
            end,
        })
    }

    fn groove(&self) -> [(f64, f64); 4] {
        let (mouth, base) = (self.mouth / 2.0, self.base / 2.0);
        [
            (-mouth, 0.0),
            (-base, self.depth),
            (base, self.depth),
            (mouth, 0.0),
        ]
    }

    fn socket(&self, measures: &Measures<'_>) -> Picture {
        let mut picture = self.extent.board_picture();
        self.extent.board(&mut picture, &self.groove());
        let (mouth, base) = (self.mouth / 2.0, self.base / 2.0);
        let across = measures.dimension("mouth", -mouth, mouth);
        picture.measure(Edge::Top, [0.0; 2], across);
        let below = measures.dimension("base", -base, base);
        picture.measure(Edge::Bottom, [self.depth; 2], below);
        let deep = measures.dimension("depth", 0.0, self.depth);
        picture.measure(Edge::Right, [self.extent.aside, base], deep);
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

    fn draw_tail(&self, picture: &mut Picture) {
        let (face, neck, end) = (self.stock / 2.0, self.neck / 2.0, self.end / 2.0);
        let points = [
            (face, 0.0),
            (neck, 0.0),
            (end, self.depth),
            (-end, self.depth),
            (-neck, 0.0),
            (-face, 0.0),
        ];
        self.extent.tail(picture, (-face, face), &points);
    }

    fn tail(&self, measures: &Measures<'_>) -> Picture {
        let (face, neck, end) = (self.stock / 2.0, self.neck / 2.0, self.end / 2.0);
        let mut picture = self.extent.tail_picture(face, self.depth);
        self.draw_tail(&mut picture);
        let thick = measures.dimension("stock", -face, face);
        picture.measure(Edge::Top, [-self.extent.above; 2], thick);
        let starts = [self.depth, 0.0];
        measures.mark(&mut picture, Edge::Bottom, starts, "end_cut", [end, face]);
        let shoulder = measures.dimension("exposure", -face, -neck);
        picture.measure(Edge::Bottom, [0.0; 2], shoulder);
        let deep = measures.dimension("depth", 0.0, self.depth);
        picture.measure(Edge::Right, [face, end], deep);
        picture
    }

    fn together(&self) -> Picture {
        let mut picture = self.extent.joint_picture();
        self.extent.board(&mut picture, &self.groove());
        self.draw_tail(&mut picture);
        picture
    }
}

/// The sections, and the socket from above as it ends in a bored pocket before the front edge.
pub(super) fn stopped(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (panel, stop) = (measures.mm("panel")?, measures.mm("stop")?);
    let (pocket, notch) = (measures.mm("pocket")?, measures.mm("notch")?);
    let (mouth, base) = (measures.mm("mouth")? / 2.0, measures.mm("base")? / 2.0);
    let axis = panel - stop - pocket / 2.0;
    measures.demand(axis > pocket, "the pocket leaves no length for the socket")?;
    measures.demand(notch < panel, "the notch is as long as the shelf is wide")?;
    let half = (base * 3.0).max(panel / 6.0).max(pocket);
    let mut picture = Picture::new((0.0, -half), (panel, half));
    let corners = [(0.0, -half), (panel, -half), (panel, half), (0.0, half)];
    picture.outline(&corners);
    picture.broken(corners[0], corners[1]);
    picture.broken(corners[3], corners[2]);
    picture.outline(&[(0.0, -mouth), (axis, -mouth), (axis, mouth), (0.0, mouth)]);
    for side in [-base, base] {
        picture.hidden((0.0, side), (axis, side));
    }
    picture.round((axis, 0.0), pocket);
    picture.centre((-panel / 40.0, 0.0), (panel - stop + panel / 40.0, 0.0));
    let mut mark = |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
    mark(Edge::Top, [-half; 2], "panel", [0.0, panel]);
    mark(Edge::Bottom, [0.0, half], "stop", [panel - stop, panel]);
    mark(
        Edge::Bottom,
        [0.0; 2],
        "pocket",
        [axis - pocket / 2.0, axis + pocket / 2.0],
    );
    mark(Edge::Top, [-half; 2], "notch", [panel - notch, panel]);
    let shown = |name| measures.shown(name);
    let says = format!(
        "The board with the socket from above, {} from its back edge at the left to its front edge \
         at the right. The socket is open at the back and ends in a bored pocket {} across, {} \
         before the front edge. The tail is cut away over {} at the front of the shelf.",
        shown("panel"),
        shown("pocket"),
        shown("stop"),
        shown("notch")
    );
    let mut all = views(measures)?;
    all.extend(finish(vec![(picture, "Socket, from above", says)]));
    Ok(all)
}

/// The sections at the front edge, and the socket from above: it widens toward the back.
pub(super) fn tapered(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let long = measures.mm("joint_length")?;
    let (front, back) = (measures.mm("mouth")?, measures.mm("mouth_back")?);
    measures.demand(front < back, "the socket does not widen toward the back")?;
    let half = (back * 1.5).max(long / 8.0);
    let (low, high) = (-half, back + half);
    let mut picture = Picture::new((0.0, low), (long, high));
    picture.outline(&[(0.0, low), (long, low), (long, high), (0.0, high)]);
    picture.broken((0.0, low), (long, low));
    picture.broken((0.0, high), (long, high));
    // One wall is parallel, the other runs out of true.
    picture.outline(&[(0.0, 0.0), (long, 0.0), (long, front), (0.0, back)]);
    let mut mark = |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
    mark(Edge::Top, [low; 2], "joint_length", [0.0, long]);
    mark(Edge::Left, [0.0; 2], "mouth_back", [0.0, back]);
    mark(Edge::Right, [long; 2], "mouth", [0.0, front]);
    let says = format!(
        "The board with the socket from above, {} from its back edge at the left to its front edge \
         at the right. One wall is parallel; the other tapers, so that the mouth is {} wide at the \
         back and {} at the front. The shelf goes in from the back.",
        measures.shown("joint_length"),
        measures.shown("mouth_back"),
        measures.shown("mouth")
    );
    let mut all = views(measures)?;
    all.extend(finish(vec![(picture, "Socket, from above", says)]));
    Ok(all)
}
