//! Words and marks inside a drawing: each at the first of its places where it hides nothing and no
//! line runs through it, in one line if it can be, else broken at its blanks; where there is none,
//! thin lines are broken for it.
//!
//! Two notes never meet; a note that finds no such place is left out, since the words beside the
//! picture say the same.

use std::fmt::Write;

use super::lettering::{Ground, Run, Words, are_apart, around, grown, meets};
use super::svg::{Bound, Frame, Point, Shape, TYPE, number};
use crate::units::Angle;

/// Free around a note.
const CLEAR: f64 = 1.5;
/// Between two notes.
const APART: f64 = 5.0;
/// By how much it is moved to look for a place.
const STEP: f64 = TYPE * 0.75;

/// What a note is.
pub(super) enum Said {
    Word(String),
    /// The loop that marks a face side; dashed where it is on the underside.
    FaceMark {
        under: bool,
    },
}

/// One of the forms that a note may take.
enum Form {
    Words(Words),
    FaceMark { under: bool },
}

impl Said {
    /// Its forms, the best first.
    fn forms(&self) -> Vec<Form> {
        match self {
            Self::Word(word) => Words::ways(word).into_iter().map(Form::Words).collect(),
            Self::FaceMark { under } => vec![Form::FaceMark { under: *under }],
        }
    }
}

impl Form {
    fn size(&self) -> (f64, f64) {
        match self {
            Self::Words(words) => words.size(),
            Self::FaceMark { .. } => (32.0, 28.0),
        }
    }
}

/// A note in its place.
pub(super) struct Noted {
    form: Form,
    middle: Point,
}

impl Noted {
    /// The ground that it takes.
    pub(super) fn ground(&self) -> Ground {
        around(self.middle, self.form.size())
    }

    /// Draws it.
    pub(super) fn draw(&self, out: &mut String) {
        match &self.form {
            Form::Words(words) => words.write(out, self.middle),
            Form::FaceMark { under } => face_mark(out, self.middle, *under),
        }
    }
}

/// Finds the notes among shapes their places, clear of all lines or, where there is no such place, of
/// those that may not be broken.
pub(super) fn placed(
    frame: &Frame,
    shapes: &[Shape],
    (firm, thin): (&[Run], &[Run]),
) -> Vec<Noted> {
    let mut taken: Vec<Ground> = shapes.iter().filter_map(|one| ground(frame, one)).collect();
    let (least, most) = (frame.at(frame.least), frame.at(frame.most));
    let mut notes = Vec::new();
    for shape in shapes {
        let (middles, said, within) = match shape {
            Shape::Note(middles, said, within) => (middles, said, within),
            Shape::Keep(points) => {
                taken.push(bounds(frame, points, 0.0));
                continue;
            }
            _ => continue,
        };
        let places: Vec<Point> = shifted(middles.iter().map(|middle| frame.at(*middle)).collect());
        let fits = |middle: &Point, form: &Form, lines: &[&[Run]]| {
            let place = around(*middle, form.size());
            let inside = place[0] >= least.0 && place[1] >= least.1;
            let inside = inside && place[2] <= most.0 && place[3] <= most.1;
            let wanted = grown(&place, CLEAR);
            inside
                && taken.iter().all(|one| are_apart(one, &place))
                && within.iter().all(|one| is_kept(frame, one, *middle))
                && !lines
                    .iter()
                    .copied()
                    .flatten()
                    .any(|line| meets(&wanted, *line))
        };
        let clear_of = |lines: &[&[Run]]| {
            said.forms().into_iter().find_map(|form| {
                let found = places.iter().find(|place| fits(place, &form, lines));
                let middle = *found?;
                Some(Noted { form, middle })
            })
        };
        let found = clear_of(&[firm, thin]).or_else(|| clear_of(&[firm]));
        taken.extend(found.iter().map(|one| grown(&one.ground(), APART)));
        notes.extend(found);
    }
    notes
}

/// Whether a place is on the wanted side of a bound. A ray from it to the right meets the sides of
/// what it is inside of an odd number of times.
fn is_kept(frame: &Frame, bound: &Bound, (x, y): Point) -> bool {
    let corners: Vec<Point> = bound.corners.iter().map(|one| frame.at(*one)).collect();
    let next = corners.iter().cycle().skip(1);
    let met = corners.iter().zip(next).filter(|(from, to)| {
        let passes = (from.1 > y) != (to.1 > y);
        passes && from.0 + (to.0 - from.0) * (y - from.1) / (to.1 - from.1) > x
    });
    (met.count() % 2 == 1) == bound.inside
}

/// The places as they are, then a little to every side of them.
fn shifted(places: Vec<Point>) -> Vec<Point> {
    let steps = [0.0, -1.0, 1.0, -2.0, 2.0, -3.0, 3.0].map(|step| step * STEP);
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
