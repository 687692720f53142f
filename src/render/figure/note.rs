//! Words and marks inside a drawing: each at the first of its places where it hides nothing.
//!
//! Two notes never meet; a note that finds no place off the lines stands across a line rather than
//! nowhere, and one that finds no free place at all is left out, since the words beside the picture
//! say the same.

use std::fmt::Write;

use super::super::inert::markup;
use super::svg::{Frame, Point, Shape, TYPE, label_width, number};
use crate::units::Angle;

/// What a note is.
pub(super) enum Said {
    Word(String),
    /// The loop that marks a face side; dashed where it is on the underside.
    FaceMark {
        under: bool,
    },
}

impl Said {
    fn size(&self) -> (f64, f64) {
        match self {
            Self::Word(word) => (label_width(word), TYPE),
            Self::FaceMark { .. } => (32.0, 28.0),
        }
    }
}

/// Left, top, right, bottom.
type Ground = [f64; 4];

/// Draws the notes among shapes.
pub(super) fn place(out: &mut String, frame: &Frame, shapes: &[Shape]) {
    let mut taken: Vec<Ground> = shapes.iter().filter_map(|one| ground(frame, one)).collect();
    let lines: Vec<(Point, Point)> = shapes.iter().flat_map(|one| lines(frame, one)).collect();
    let (least, most) = (frame.at(frame.least), frame.at(frame.most));
    for shape in shapes {
        let (middles, said) = match shape {
            Shape::Note(middles, said) => (middles, said),
            Shape::Keep(points) => {
                taken.push(bounds(frame, points, 0.0));
                continue;
            }
            _ => continue,
        };
        let (wide, high) = said.size();
        let around = |(x, y): Point| {
            let (x, y) = (x - wide / 2.0, y - high / 2.0);
            [x, y, x + wide, y + high]
        };
        let free = |place: &Ground| {
            let inside = place[0] >= least.0 && place[1] >= least.1;
            let inside = inside && place[2] <= most.0 && place[3] <= most.1;
            inside && taken.iter().all(|one| are_apart(one, place))
        };
        let clear = |place: &Ground| !lines.iter().any(|line| meets(place, *line));
        let places: Vec<Point> = shifted(middles.iter().map(|middle| frame.at(*middle)).collect());
        let free: Vec<Point> = (places.into_iter())
            .filter(|place| free(&around(*place)))
            .collect();
        let best = free.iter().find(|place| clear(&around(**place)));
        if let Some(place) = best.or(free.first()).copied() {
            taken.push(around(place));
            match said {
                Said::Word(word) => label(out, word, (place.0, place.1 + TYPE * 0.3)),
                Said::FaceMark { under } => face_mark(out, place, *under),
            }
        }
    }
}

/// The places as they are, then a little to every side of them.
fn shifted(places: Vec<Point>) -> Vec<Point> {
    let steps = [0.0, -1.0, 1.0, -2.0, 2.0].map(|step| step * TYPE * 0.7);
    let shifts = steps
        .iter()
        .flat_map(|y| steps.iter().map(move |x| (*x, *y)));
    let mut shifts: Vec<Point> = shifts.collect();
    shifts.sort_by(|one, other| far(*one).total_cmp(&far(*other)));
    let all = shifts.iter().flat_map(|(aside, down)| {
        let places = places.iter();
        places.map(move |(x, y)| (x + aside, y + down))
    });
    all.collect()
}

fn far((x, y): Point) -> f64 {
    x.abs() + y.abs()
}

/// What no note may hide.
fn ground(frame: &Frame, shape: &Shape) -> Option<Ground> {
    let (points, aside) = match shape {
        Shape::Round(middle, diameter) => (std::slice::from_ref(middle), diameter / 2.0),
        Shape::Solid(points) | Shape::Arrow(points) => (points.as_slice(), 0.0),
        _ => return None,
    };
    Some(bounds(frame, points, aside * frame.scale + 3.0))
}

/// The ground that points take, with so much around each.
fn bounds(frame: &Frame, points: &[Point], more: f64) -> Ground {
    let places = points.iter().map(|point| frame.at(*point));
    let least = [
        f64::INFINITY,
        f64::INFINITY,
        f64::NEG_INFINITY,
        f64::NEG_INFINITY,
    ];
    places.fold(least, |all, (x, y)| {
        [
            all[0].min(x - more),
            all[1].min(y - more),
            all[2].max(x + more),
            all[3].max(y + more),
        ]
    })
}

fn are_apart(one: &Ground, other: &Ground) -> bool {
    let beside = one[2] <= other[0] || other[2] <= one[0];
    beside || one[3] <= other[1] || other[3] <= one[1]
}

/// The lines that a note keeps off where it can.
fn lines(frame: &Frame, shape: &Shape) -> Vec<(Point, Point)> {
    let ring = |points: &[Point]| {
        let next = points.iter().cycle().skip(1);
        let pairs = points.iter().zip(next);
        pairs
            .map(|(from, to)| (frame.at(*from), frame.at(*to)))
            .collect()
    };
    match shape {
        Shape::Outline(points) | Shape::Phantom(points) | Shape::Cut(points, _) => ring(points),
        Shape::Centre(from, to) | Shape::Hidden(from, to) | Shape::Broken(from, to) => {
            vec![(frame.at(*from), frame.at(*to))]
        }
        _ => Vec::new(),
    }
}

/// Whether a line runs into a rectangle: what of it lies between the sides is not empty.
fn meets(ground: &Ground, (from, to): (Point, Point)) -> bool {
    let (mut begin, mut end) = (0.0_f64, 1.0_f64);
    for (at, step, low, high) in [
        (from.0, to.0 - from.0, ground[0], ground[2]),
        (from.1, to.1 - from.1, ground[1], ground[3]),
    ] {
        if step.abs() < 1e-9 {
            if at <= low || at >= high {
                return false;
            }
            continue;
        }
        let (one, other) = ((low - at) / step, (high - at) / step);
        begin = begin.max(one.min(other));
        end = end.min(one.max(other));
    }
    begin < end
}

/// The joiner's loop, drawn as a curve that crosses itself.
fn face_mark(out: &mut String, middle: Point, under: bool) {
    let dashes = if under { "4 2.5" } else { "none" };
    let _ = write!(
        out,
        "<path stroke-width=\"1.6\" stroke-dasharray=\"{dashes}\" d=\""
    );
    for step in 0..=32_u32 {
        let turn = Angle::degrees(-150.0 + 300.0 * f64::from(step) / 32.0);
        let x = middle.0 + 6.0 * turn.to_radians() - 10.0 * turn.sin();
        let y = middle.1 - 12.0 * turn.cos();
        let command = if step == 0 { 'M' } else { 'L' };
        let _ = write!(out, "{command}{} {}", number(x), number(y));
    }
    out.push_str("\"/>");
}

/// A label on a white ground, so that no line runs through it.
pub(super) fn label(out: &mut String, text: &str, middle: Point) {
    let width = label_width(text);
    let _ = write!(
        out,
        "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{TYPE}\" fill=\"#fff\" stroke=\"none\"/>\
         <text x=\"{}\" y=\"{}\" text-anchor=\"middle\" fill=\"#000\" stroke=\"none\">{}</text>",
        number(middle.0 - width / 2.0),
        number(middle.1 - TYPE * 0.8),
        number(width),
        number(middle.0),
        number(middle.1),
        markup(text)
    );
}
