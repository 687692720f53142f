//! Words in a picture: how much ground they take, what meets it, and how they are written.
//!
//! A line never runs through words: words keep off lines, and a line of a dimension that cannot be
//! kept off is broken for them (ISO 129-1 lets extension lines be broken so, from memory).

use std::fmt::Write;

use super::super::inert::markup;
use super::svg::{Point, TYPE, number};

/// Room that a letter takes on average.
const LETTER: f64 = 8.6;
/// A line longer than this is broken at a blank where it stands at a side.
const SIDE: usize = 11;

/// Left, top, right, bottom.
pub(super) type Ground = [f64; 4];

/// A line in the picture.
pub(super) type Run = (Point, Point);

/// Words in one line or several, each line centred.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Words(Vec<String>);

impl Words {
    /// In one line.
    pub(super) fn line(text: &str) -> Self {
        Self(vec![text.to_owned()])
    }

    /// In lines of the length that a side has room for; a longer word keeps a line to itself.
    pub(super) fn at_side(text: &str) -> Self {
        Self::broken(text, SIDE)
    }

    /// The ways to break it, in one line first.
    pub(super) fn ways(text: &str) -> Vec<Self> {
        let whole = Self::line(text);
        let mut ways = vec![whole];
        let mut measure = text.chars().count();
        while measure > 1 {
            measure -= 1;
            let way = Self::broken(text, measure);
            if way.0.len() > ways.last().map_or(0, |last| last.0.len()) {
                ways.push(way);
            }
        }
        ways
    }

    fn broken(text: &str, measure: usize) -> Self {
        let mut lines: Vec<String> = Vec::new();
        for word in text.split(' ') {
            match lines.last_mut() {
                Some(line) if line.chars().count() + 1 + word.chars().count() <= measure => {
                    line.push(' ');
                    line.push_str(word);
                }
                _ => lines.push(word.to_owned()),
            }
        }
        Self(lines)
    }

    /// Width and height.
    pub(super) fn size(&self) -> (f64, f64) {
        let letters = self.0.iter().map(|line| line.chars().count()).max();
        (
            letters.unwrap_or(0) as f64 * LETTER,
            self.0.len() as f64 * TYPE,
        )
    }

    /// Writes them on a white ground, so that no hatching runs through them.
    pub(super) fn write(&self, out: &mut String, middle: Point) {
        let ground = around(middle, self.size());
        let _ = write!(
            out,
            "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"#fff\" stroke=\"none\"/>\
             <text text-anchor=\"middle\" fill=\"#000\" stroke=\"none\"",
            number(ground[0]),
            number(ground[1]),
            number(ground[2] - ground[0]),
            number(ground[3] - ground[1]),
        );
        let foot = |at: usize| ground[1] + TYPE * (at as f64 + 0.8);
        let place = |at| format!("x=\"{}\" y=\"{}\"", number(middle.0), number(foot(at)));
        if let [line] = self.0.as_slice() {
            let _ = write!(out, " {}>{}</text>", place(0), markup(line));
            return;
        }
        out.push('>');
        for (at, line) in self.0.iter().enumerate() {
            let blank = if at == 0 { "" } else { " " };
            let place = place(at);
            let _ = write!(out, "{blank}<tspan {place}>{}</tspan>", markup(line));
        }
        out.push_str("</text>");
    }
}

/// The ground about a middle.
pub(super) fn around((x, y): Point, (wide, high): (f64, f64)) -> Ground {
    let (left, top) = (x - wide / 2.0, y - high / 2.0);
    [left, top, left + wide, top + high]
}

/// The same ground with so much more on every side.
pub(super) fn grown(ground: &Ground, more: f64) -> Ground {
    [
        ground[0] - more,
        ground[1] - more,
        ground[2] + more,
        ground[3] + more,
    ]
}

/// Whether one ground lies wholly beside another.
pub(super) fn are_apart(one: &Ground, other: &Ground) -> bool {
    let beside = one[2] <= other[0] || other[2] <= one[0];
    beside || one[3] <= other[1] || other[3] <= one[1]
}

/// From where to where along a line it runs inside a ground, as parts of its length.
fn within(ground: &Ground, (from, to): Run) -> Option<(f64, f64)> {
    let (mut begin, mut end) = (0.0_f64, 1.0_f64);
    for (at, step, low, high) in [
        (from.0, to.0 - from.0, ground[0], ground[2]),
        (from.1, to.1 - from.1, ground[1], ground[3]),
    ] {
        if step.abs() < 1e-9 {
            if at <= low || at >= high {
                return None;
            }
            continue;
        }
        let (one, other) = ((low - at) / step, (high - at) / step);
        begin = begin.max(one.min(other));
        end = end.min(one.max(other));
    }
    (begin < end).then_some((begin, end))
}

/// Whether a line runs into a ground.
pub(super) fn meets(ground: &Ground, run: Run) -> bool {
    within(ground, run).is_some()
}

/// What of a line lies outside all grounds, in pieces.
pub(super) fn outside(run: Run, grounds: &[Ground]) -> Vec<Run> {
    let mut pieces = vec![run];
    for ground in grounds {
        let cut = |(from, to): Run| {
            let Some((begin, end)) = within(ground, (from, to)) else {
                return vec![(from, to)];
            };
            let at = |part: f64| {
                let (x, y) = (to.0 - from.0, to.1 - from.1);
                (from.0 + x * part, from.1 + y * part)
            };
            let mut left = Vec::new();
            left.extend((begin > 0.0).then(|| (from, at(begin))));
            left.extend((end < 1.0).then(|| (at(end), to)));
            left
        };
        pieces = pieces.into_iter().flat_map(cut).collect();
    }
    pieces
}
