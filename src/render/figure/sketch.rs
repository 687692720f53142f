//! A picture in the frame of the plan views, drawn a quarter turn on where the machine is fed from
//! front to back: left becomes back, back becomes right.

use super::measures::Measures;
use super::svg::{Bound, Edge, Picture, Point};

pub(super) struct Sketch {
    picture: Picture,
    quarter: bool,
    least: Point,
    most: Point,
}

impl Sketch {
    pub(super) fn new(least: Point, most: Point, quarter: bool, room: (f64, f64)) -> Self {
        let mut picture = if quarter {
            Picture::new((-most.1, least.0), (-least.1, most.0))
        } else {
            Picture::new(least, most)
        };
        picture.room(room);
        Self {
            picture,
            quarter,
            least,
            most,
        }
    }

    /// Its corners, before the turn.
    pub(super) fn area(&self) -> (Point, Point) {
        (self.least, self.most)
    }

    pub(super) fn finish(self) -> Picture {
        self.picture
    }

    /// Where a point goes; what would lie outside is drawn at the edge.
    fn at(&self, (x, y): Point) -> Point {
        let x = x.clamp(self.least.0, self.most.0);
        let y = y.clamp(self.least.1, self.most.1);
        if self.quarter { (-y, x) } else { (x, y) }
    }

    fn all(&self, points: &[Point]) -> Vec<Point> {
        points.iter().map(|point| self.at(*point)).collect()
    }

    pub(super) fn outline(&mut self, points: &[Point]) {
        self.picture.outline(&self.all(points));
    }

    pub(super) fn phantom(&mut self, points: &[Point]) {
        self.picture.phantom(&self.all(points));
    }

    pub(super) fn solid(&mut self, points: &[Point]) {
        self.picture.solid(&self.all(points));
    }

    pub(super) fn arrow(&mut self, points: &[Point]) {
        self.picture.arrow(&self.all(points));
    }

    pub(super) fn above(&mut self, points: &[Point]) {
        self.picture.above(&self.all(points));
    }

    pub(super) fn keep(&mut self, points: &[Point]) {
        self.picture.keep(&self.all(points));
    }

    pub(super) fn note(&mut self, middles: &[Point], word: &str) {
        self.picture.note(&self.all(middles), word, Vec::new());
    }

    /// A word that means the place that it stands in.
    pub(super) fn note_in(&mut self, middles: &[Point], word: &str, bounds: &[Bound]) {
        let turned = bounds.iter().map(|bound| self.bound(bound)).collect();
        self.picture.note(&self.all(middles), word, turned);
    }

    pub(super) fn face_mark(&mut self, middles: &[Point], under: bool, on: Bound) {
        let on = self.bound(&on);
        self.picture.face_mark(&self.all(middles), under, on);
    }

    fn bound(&self, bound: &Bound) -> Bound {
        Bound {
            corners: self.all(&bound.corners),
            inside: bound.inside,
        }
    }

    pub(super) fn round(&mut self, middle: Point, diameter: f64) {
        self.picture.round(self.at(middle), diameter);
    }

    pub(super) fn ring(&mut self, middle: Point, diameter: f64) {
        self.picture.ring(self.at(middle), diameter);
    }

    pub(super) fn centre(&mut self, from: Point, to: Point) {
        self.picture.centre(self.at(from), self.at(to));
    }

    pub(super) fn hidden(&mut self, from: Point, to: Point) {
        self.picture.hidden(self.at(from), self.at(to));
    }

    pub(super) fn broken(&mut self, from: Point, to: Point) {
        self.picture.broken(self.at(from), self.at(to));
    }

    /// The dimension of a length at an edge.
    pub(super) fn mark(
        &mut self,
        measures: &Measures<'_>,
        edge: Edge,
        starts: [f64; 2],
        name: &str,
        span: [f64; 2],
    ) {
        let across = matches!(edge, Edge::Left | Edge::Right);
        let (edge, starts, span) = if !self.quarter {
            (edge, starts, span)
        } else if across {
            let edge = if edge == Edge::Left {
                Edge::Top
            } else {
                Edge::Bottom
            };
            (edge, starts, span.map(|y| -y))
        } else {
            let edge = if edge == Edge::Top {
                Edge::Right
            } else {
                Edge::Left
            };
            (edge, starts.map(|y| -y), span)
        };
        let dimension = measures.dimension(name, span[0], span[1]);
        self.picture.measure(edge, starts, dimension);
    }
}
