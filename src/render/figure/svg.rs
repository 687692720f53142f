//! A small SVG writer: outlines, hatching, dimensions; every text escaped.
//!
//! Millimetres go in with the origin where the drawing wants it, y downwards; the writer scales
//! and moves them. Dimensions stand outside the drawing, each in a row or column of its own, so
//! that no two labels can meet. No ids and no styles from outside: a picture stands alone and
//! several can share a page. Numbers are written to a hundredth, so that output is the same
//! everywhere.

use std::fmt::Write;

use super::super::inert::markup;
use super::View;
use super::dimension::{Laid, head, laid, words};
use super::hatch::hatch;
use super::lettering::{Ground, Run, outside};
use super::note::Said;
use super::runs::{backwards, zigzag};
use super::{dimension, note};

/// A point in millimetres.
pub(super) type Point = (f64, f64);

/// A measure between two places on one axis.
#[derive(Debug, Clone)]
pub(super) struct Dimension {
    /// Where it begins, millimetres.
    pub(super) from: f64,
    /// Where it ends.
    pub(super) to: f64,
    /// Letter and value.
    pub(super) label: String,
    /// Letter, what it is, and value.
    pub(super) says: String,
}

/// Side of the drawing that a dimension stands on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Edge {
    Top,
    Bottom,
    Left,
    Right,
}

/// Size of letters.
pub(super) const TYPE: f64 = 15.0;
/// Height of a row of dimensions.
pub(super) const ROW: f64 = 30.0;
/// From the drawing to the first row, and from the picture's edge.
pub(super) const GAP: f64 = 10.0;
/// Room at a side without dimensions: lines of others end this far out at most.
const MARGIN: f64 = 21.0;
/// Least width of a picture; long labels make it wider, so that the drawing keeps its room.
const WIDTH: f64 = 300.0;
/// A picture wider than this takes the width of two.
const WIDE: f64 = 400.0;
/// Least width of what is drawn, without its dimensions.
const ROOM: f64 = 150.0;
/// Most height of what is drawn, without its dimensions.
const HEIGHT: f64 = 200.0;

/// A picture being drawn.
pub(super) struct Picture {
    least: Point,
    most: Point,
    body: Vec<Shape>,
    dimensions: Vec<(Edge, [f64; 2], Dimension)>,
    /// Least width and most height of what is drawn, without its dimensions.
    room: (f64, f64),
}

/// One thing drawn.
pub(super) enum Shape {
    Cut(Vec<Point>, Lean),
    Outline(Vec<Point>),
    Centre(Point, Point),
    Hidden(Point, Point),
    Broken(Point, Point),
    Round(Point, f64),
    Phantom(Vec<Point>),
    Solid(Vec<Point>),
    Arrow(Vec<Point>),
    Ring(Point, f64),
    Note(Vec<Point>, Said, Vec<Bound>),
    Keep(Vec<Point>),
}

/// A place that a word means: it stands inside, or outside.
#[derive(Debug, Clone)]
pub(super) struct Bound {
    pub(super) corners: Vec<Point>,
    pub(super) inside: bool,
}

/// Which way a face is hatched; parts that touch lean apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Lean {
    Right,
    Left,
}

/// Where millimetres land in the picture.
pub(super) struct Frame {
    pub(super) scale: f64,
    pub(super) width: f64,
    left: f64,
    top: f64,
    height: f64,
    /// Room above and below a drawing that is lower than a label beside it, or that the tails of
    /// dimensions at its sides stand out of.
    pub(super) over: Point,
    pub(super) least: Point,
    pub(super) most: Point,
}

impl Frame {
    pub(super) fn x(&self, mm: f64) -> f64 {
        self.left + (mm - self.least.0) * self.scale
    }

    pub(super) fn y(&self, mm: f64) -> f64 {
        self.top + (mm - self.least.1) * self.scale
    }

    pub(super) fn at(&self, point: Point) -> Point {
        (self.x(point.0), self.y(point.1))
    }
}

impl Picture {
    /// A picture of the area between two corners, in millimetres.
    pub(super) fn new(least: Point, most: Point) -> Self {
        Self {
            least,
            most,
            body: Vec::new(),
            dimensions: Vec::new(),
            room: (ROOM, HEIGHT),
        }
    }

    /// Gives what is drawn another least width and most height.
    pub(super) fn room(&mut self, room: (f64, f64)) {
        self.room = room;
    }

    /// The right lower corner of its area.
    pub(super) fn most(&self) -> Point {
        self.most
    }

    /// A cut face: thick outline, hatched.
    pub(super) fn cut(&mut self, points: &[Point], lean: Lean) {
        self.body.push(Shape::Cut(points.to_vec(), lean));
    }

    /// A face seen: thick outline.
    pub(super) fn outline(&mut self, points: &[Point]) {
        self.body.push(Shape::Outline(points.to_vec()));
    }

    /// A centre line: thin, long and short.
    pub(super) fn centre(&mut self, from: Point, to: Point) {
        self.body.push(Shape::Centre(from, to));
    }

    /// An edge that lies behind what is seen: thin, dashed.
    pub(super) fn hidden(&mut self, from: Point, to: Point) {
        self.body.push(Shape::Hidden(from, to));
    }

    /// What is not part of the thing drawn, or a limit: thin, long and two short.
    pub(super) fn phantom(&mut self, points: &[Point]) {
        self.body.push(Shape::Phantom(points.to_vec()));
    }

    /// A block filled black.
    pub(super) fn solid(&mut self, points: &[Point]) {
        self.body.push(Shape::Solid(points.to_vec()));
    }

    /// A line with a head at its end: a movement.
    pub(super) fn arrow(&mut self, points: &[Point]) {
        self.body.push(Shape::Arrow(points.to_vec()));
    }

    /// A word in the drawing, its middle at the first of these places that is free; without a
    /// free one within its bounds it is left out, since the words beside the picture say the same.
    pub(super) fn note(&mut self, middles: &[Point], word: &str, bounds: Vec<Bound>) {
        let word = Said::Word(word.to_owned());
        self.body.push(Shape::Note(middles.to_vec(), word, bounds));
    }

    /// The loop that marks a face side, at the first free place on the work.
    pub(super) fn face_mark(&mut self, middles: &[Point], under: bool, on: Bound) {
        let mark = Said::FaceMark { under };
        self.body
            .push(Shape::Note(middles.to_vec(), mark, vec![on]));
    }

    /// A place that later notes stay out of.
    pub(super) fn keep(&mut self, points: &[Point]) {
        self.body.push(Shape::Keep(points.to_vec()));
    }

    /// A round tool at another place or below the work: thin, dashed.
    pub(super) fn ring(&mut self, middle: Point, diameter: f64) {
        self.body.push(Shape::Ring(middle, diameter));
    }

    /// The outline of what stands above: thin, dashed.
    pub(super) fn above(&mut self, points: &[Point]) {
        for (at, from) in points.iter().enumerate() {
            self.hidden(*from, points[(at + 1) % points.len()]);
        }
    }

    /// A round hole or the end of a pin, by its middle and its diameter.
    pub(super) fn round(&mut self, middle: Point, diameter: f64) {
        self.body.push(Shape::Round(middle, diameter));
    }

    /// An edge where the board goes on beyond the picture.
    pub(super) fn broken(&mut self, from: Point, to: Point) {
        self.body.push(Shape::Broken(from, to));
    }

    /// A dimension at an edge; its extension lines begin at `starts` on the other axis.
    pub(super) fn measure(&mut self, edge: Edge, starts: [f64; 2], dimension: Dimension) {
        self.dimensions.push((edge, starts, dimension));
    }

    fn at(&self, edge: Edge) -> impl Iterator<Item = &(Edge, [f64; 2], Dimension)> {
        self.dimensions.iter().filter(move |(at, _, _)| *at == edge)
    }

    /// Sizes of the labels at an edge.
    fn labels(&self, edge: Edge) -> impl Iterator<Item = Point> {
        self.at(edge)
            .map(move |(_, _, one)| words(edge, &one.label).size())
    }

    fn column(&self, edge: Edge) -> f64 {
        let wide: f64 = self.labels(edge).map(|(wide, _)| wide + 2.0 * GAP).sum();
        wide.max(MARGIN)
    }

    fn width(&self) -> f64 {
        let columns = self.column(Edge::Left) + self.column(Edge::Right);
        let rows = self.labels(Edge::Top).chain(self.labels(Edge::Bottom));
        let labels = rows.map(|(wide, _)| wide + GAP);
        labels.fold(WIDTH.max(columns + self.room.0), f64::max)
    }

    /// Pixels a millimetre that this picture has room for.
    fn scale(&self) -> f64 {
        let across = self.width() - self.column(Edge::Left) - self.column(Edge::Right);
        let size = (self.most.0 - self.least.0, self.most.1 - self.least.1);
        (across / size.0).min(self.room.1 / size.1)
    }

    fn frame(&self, scale: f64) -> Frame {
        let sides = self.labels(Edge::Left).chain(self.labels(Edge::Right));
        let own = (self.most.1 - self.least.1) * scale;
        let high = sides.map(|(_, high)| high).fold(own, f64::max);
        let half = (high - own) / 2.0;
        let frame = self.framed(scale, (half, half));
        // What stands out where labels of rows would stand.
        let has_row = |edge| self.at(edge).next().is_some();
        let (top, foot) = (frame.y(self.least.1), frame.y(self.most.1));
        let (mut above, mut below) = frame.over;
        for (_, y) in self.beside(&frame) {
            if has_row(Edge::Top) {
                above = above.max(top - y);
            }
            if has_row(Edge::Bottom) {
                below = below.max(y - foot);
            }
        }
        self.framed(scale, (above, below))
    }

    /// The ends of all lines that do not belong to the rows.
    fn beside(&self, frame: &Frame) -> Vec<Point> {
        let laid = self.laid(frame).into_iter();
        let columns = laid.filter(|one| !one.is_row());
        let columns = columns.flat_map(|one| one.runs());
        let body = self.body.iter().flat_map(|one| one.runs(frame));
        columns
            .chain(body)
            .flat_map(|(from, to)| [from, to])
            .collect()
    }

    fn framed(&self, scale: f64, over: Point) -> Frame {
        let (left, right) = (self.column(Edge::Left), self.column(Edge::Right));
        let size = (self.most.0 - self.least.0, self.most.1 - self.least.1);
        let rows = |edge| (self.at(edge).count() as f64 * ROW + GAP).max(MARGIN);
        let width = self.width();
        let spare = width - left - right - size.0 * scale;
        let top = rows(Edge::Top) + over.0;
        Frame {
            scale,
            width,
            left: left + spare / 2.0,
            top,
            height: top + size.1 * scale + over.1 + rows(Edge::Bottom),
            over,
            least: self.least,
            most: self.most,
        }
    }

    /// The picture as SVG, with a title and the same in words for who cannot see it.
    fn finish(&self, scale: f64, title: &str, says: &str) -> String {
        let frame = self.frame(scale);
        let mut out = String::new();
        let _ = write!(
            out,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" role=\"img\" \
             fill=\"none\" stroke=\"#000\" stroke-width=\"1\" stroke-linejoin=\"round\" \
             font-family=\"Helvetica, Arial, Liberation Sans, DejaVu Sans Condensed, sans-serif\" font-size=\"{TYPE}\">\
             <title>{}</title><desc>{}</desc>",
            number(frame.width),
            number(frame.height),
            markup(title),
            markup(says)
        );
        let laid = self.laid(&frame);
        let of = |shapes: &mut dyn Iterator<Item = &Shape>| -> Vec<Run> {
            shapes.flat_map(|one| one.runs(&frame)).collect()
        };
        let mut firm = of(&mut self.body.iter().filter(|one| !one.may_break()));
        firm.extend(laid.iter().flat_map(Laid::runs));
        let thin = of(&mut self.body.iter().filter(|one| one.may_break()));
        let dimensions = dimension::placed(&frame, laid, &[&*firm, &*thin].concat());
        let notes = note::placed(&frame, &self.body, (&firm, &thin));
        let labels = dimensions.iter().map(dimension::Placed::ground);
        let grounds: Vec<Ground> = labels
            .chain(notes.iter().map(note::Noted::ground))
            .collect();
        for shape in &self.body {
            draw(&mut out, &frame, shape, &grounds);
        }
        for one in &dimensions {
            one.draw(&mut out, &grounds);
        }
        for one in &notes {
            one.draw(&mut out);
        }
        for one in &dimensions {
            one.write(&mut out);
        }
        out.push_str("</svg>");
        out
    }

    /// Its dimensions, those of an edge one beyond the other.
    fn laid(&self, frame: &Frame) -> Vec<Laid> {
        let mut all = Vec::new();
        for edge in [Edge::Top, Edge::Bottom, Edge::Left, Edge::Right] {
            let mut beyond = GAP;
            for (_, starts, one) in self.at(edge) {
                let (one, room) = laid(frame, edge, *starts, beyond, one);
                all.push(one);
                beyond += room;
            }
        }
        all
    }
}

/// Finishes pictures that share one scale, each with its title and its words.
pub(super) fn finish(pictures: Vec<(Picture, &str, String)>) -> Vec<View> {
    let scales = pictures.iter().map(|(picture, _, _)| picture.scale());
    let scale = scales.fold(f64::INFINITY, f64::min);
    let finished = pictures.into_iter().map(|(picture, title, mut says)| {
        let letters = picture.dimensions.iter();
        let letters: Vec<&str> = letters.map(|(_, _, one)| one.says.as_str()).collect();
        if !letters.is_empty() {
            says += &format!(" Letters: {}.", letters.join("; "));
        }
        View {
            letters: picture.dimensions.iter().map(letter).collect(),
            wide: picture.width() > WIDE,
            svg: picture.finish(scale, title, &says),
            title: title.to_owned(),
            says,
        }
    });
    finished.collect()
}

/// The letter of a dimension, which its label begins with.
fn letter((_, _, one): &(Edge, [f64; 2], Dimension)) -> String {
    one.label.chars().take_while(|one| *one != ' ').collect()
}

fn draw(out: &mut String, frame: &Frame, shape: &Shape, grounds: &[Ground]) {
    match shape {
        Shape::Cut(points, lean) => {
            hatch(out, frame, points, *lean);
            polygon(out, frame, points);
        }
        Shape::Outline(points) => polygon(out, frame, points),
        Shape::Phantom(points) => {
            out.push_str("<path stroke-dasharray=\"14 4 3 4 3 4\" d=\"");
            run(out, frame, points);
            out.push_str("Z\"/>");
        }
        Shape::Solid(points) => {
            out.push_str("<path fill=\"#000\" d=\"");
            run(out, frame, points);
            out.push_str("Z\"/>");
        }
        Shape::Arrow(points) => movement(out, frame, points),
        Shape::Note(..) | Shape::Keep(_) => {}
        Shape::Ring(middle, diameter) => {
            let (x, y) = frame.at(*middle);
            let _ = write!(
                out,
                "<circle cx=\"{}\" cy=\"{}\" r=\"{}\" stroke-dasharray=\"6 4\"/>",
                number(x),
                number(y),
                number(diameter / 2.0 * frame.scale)
            );
        }
        Shape::Centre(from, to) => {
            dashed(out, "14 4 3 4", (frame.at(*from), frame.at(*to)), grounds);
        }
        Shape::Hidden(from, to) => dashed(out, "6 4", (frame.at(*from), frame.at(*to)), grounds),
        Shape::Round(middle, diameter) => {
            let (x, y) = frame.at(*middle);
            let _ = write!(
                out,
                "<circle cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"#fff\" stroke-width=\"2.4\"/>",
                number(x),
                number(y),
                number(diameter / 2.0 * frame.scale)
            );
        }
        Shape::Broken(from, to) => break_line(out, frame.at(*from), frame.at(*to)),
    }
}

/// Wipes the outline of an edge and draws the zigzag of a broken-off board.
fn break_line(out: &mut String, from: Point, to: Point) {
    let place = |(x, y): Point| format!("{} {}", number(x), number(y));
    let zigzag = zigzag(from, to).map(place).join("L");
    let (from, to) = (place(from), place(to));
    let _ = write!(
        out,
        "<path stroke=\"#fff\" stroke-width=\"5\" d=\"M{from}L{to}\"/><path d=\"M{zigzag}\"/>"
    );
}

fn polygon(out: &mut String, frame: &Frame, points: &[Point]) {
    out.push_str("<path stroke-width=\"2.4\" d=\"");
    run(out, frame, points);
    out.push_str("Z\"/>");
}

/// A line with a head at its end.
fn movement(out: &mut String, frame: &Frame, points: &[Point]) {
    let ([.., before, last], true) = (points, points.len() > 1) else {
        return;
    };
    out.push_str("<path stroke-width=\"1.6\" d=\"");
    run(out, frame, points);
    out.push_str("\"/>");
    let (from, to) = (frame.at(*before), frame.at(*last));
    head(out, to, backwards(from, to));
}

/// From point to point.
fn run(out: &mut String, frame: &Frame, points: &[Point]) {
    for (at, point) in points.iter().enumerate() {
        let (x, y) = frame.at(*point);
        let command = if at == 0 { 'M' } else { 'L' };
        let _ = write!(out, "{command}{} {}", number(x), number(y));
    }
}

/// A thin line, broken where words stand.
fn dashed(out: &mut String, dashes: &str, run: Run, grounds: &[Ground]) {
    for (from, to) in outside(run, grounds) {
        let _ = write!(
            out,
            "<path stroke-dasharray=\"{dashes}\" d=\"M{} {}L{} {}\"/>",
            number(from.0),
            number(from.1),
            number(to.0),
            number(to.1)
        );
    }
}

/// A number to a hundredth without trailing noughts.
pub(super) fn number(value: f64) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0" } else { text }.to_owned()
}
