//! Through and lapped dovetails: the tail board on its face, the pin board from its end, and the
//! corner cut through the middle of the tail board.
//!
//! Letters are those of the calculator `dovetails`. Needs `board_width` (W), `pin_board` (T),
//! `tail_length` (L), `tail_wide` (V), `tail_narrow` (v), `socket_wide` (u), `socket_narrow` (U),
//! `half_socket_wide` (x), `half_socket_narrow` (y); a lapped joint has its `lap` (l) too
//! (`joinery.md` 3.9). Without `tail_board` (S) and `pin_line` (B) the pin board is not drawn on its
//! edge.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, Point, finish};
use crate::diag::Fault;

/// More tails than a board has.
const MOST: f64 = 60.0;

struct Corner {
    width: f64,
    /// Thickness of the tail board and length of the pins, where they are known.
    edge: Option<(f64, f64)>,
    pin_board: f64,
    long: f64,
    lap: f64,
    /// Left and right corner of each tail: at its end, and at the base line.
    tails: Vec<[f64; 4]>,
}

/// Through dovetails.
pub(super) fn through(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    Corner::new(measures, 0.0)?.views(measures)
}

/// Lapped dovetails.
pub(super) fn lapped(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    Corner::new(measures, measures.or_nothing("lap")?)?.views(measures)
}

impl Corner {
    fn new(measures: &Measures<'_>, lap: f64) -> Result<Self, Fault> {
        let width = measures.mm("board_width")?;
        let (wide, narrow) = (measures.mm("tail_wide")?, measures.mm("tail_narrow")?);
        let (base_gap, end_gap) = (measures.mm("socket_wide")?, measures.mm("socket_narrow")?);
        let base = measures.mm("half_socket_wide")?;
        let end = measures.or_nothing("half_socket_narrow")?;
        let pin_board = measures.mm("pin_board")?;
        let pitch = narrow + base_gap;
        let many = libm::round((width - 2.0 * base + base_gap) / pitch);
        measures.demand(
            (1.0..MOST).contains(&many),
            "the tails do not fill the width",
        )?;
        let close = width / 100.0;
        let agree = |one: f64, other: f64| (one - other).abs() < close;
        let fills = agree(2.0 * base + many * narrow + (many - 1.0) * base_gap, width)
            && agree(2.0 * end + many * wide + (many - 1.0) * end_gap, width)
            && narrow < wide;
        measures.demand(fills, "tails and sockets do not fill the width")?;
        measures.demand(lap < pin_board, "the lap leaves no length for the tails")?;
        let tail_board = measures.known("tail_board")?;
        let edge = tail_board.zip(measures.known("pin_line")?);
        let tails = (0..many as u32).map(|at| {
            let at = f64::from(at);
            let (far, near) = (end + at * (wide + end_gap), base + at * pitch);
            [far, far + wide, near, near + narrow]
        });
        Ok(Self {
            width,
            edge,
            pin_board,
            long: measures.mm("tail_length")?,
            lap,
            tails: tails.collect(),
        })
    }

    fn views(&self, measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
        let shown = |name| measures.shown(name);
        let tails = format!(
            "The tail board on its face, {} wide, its end at the top: {} tails, each {} wide at \
             the end and {} at the base line, {} long; between them sockets of {} at the end and \
             {} at the base line; at both edges half sockets of {} and {}.",
            shown("board_width"),
            self.tails.len(),
            shown("tail_wide"),
            shown("tail_narrow"),
            shown("tail_length"),
            shown("socket_narrow"),
            shown("socket_wide"),
            shown("half_socket_narrow"),
            shown("half_socket_wide")
        );
        let lap = if self.lap > 0.0 {
            format!("; the outside keeps a lap of {}", shown("lap"))
        } else {
            String::new()
        };
        let long = match self.edge {
            Some(_) => format!(", and {} long", shown("pin_line")),
            None => String::new(),
        };
        let pins = format!(
            "The end of the pin board, {} thick, its outside at the top: the pins are narrow toward \
             the outside and wide inside{long}{lap}.",
            shown("pin_board")
        );
        let both = format!(
            "The corner cut through the middle of the tail board, outside at the top: the pins \
             fill the sockets as far as the base line{}.",
            if self.lap > 0.0 {
                "; the pin board's lap covers the ends of the tails"
            } else {
                ""
            }
        );
        let one = vec![(self.tail_view(measures), "Tail board, on its face", tails)];
        let mut views = finish(one);
        let mut others = vec![(self.pin_view(measures), "Pin board, from its end", pins)];
        if let Some(edge) = self.edge {
            let side = format!(
                "The pin board on its edge, its end at the right: the base line of the pins lies {} \
                 from the end; the tail board, {} thick, is drawn in its place.",
                shown("pin_line"),
                shown("tail_board")
            );
            let picture = self.pin_side(measures, edge);
            others.push((picture, "Pin board, on its edge", side));
        }
        others.push((self.together(measures), "Together, section", both));
        views.extend(finish(others));
        Ok(views)
    }

    /// From the base line at the left edge round the tails to its right edge.
    fn comb(&self, top: f64, base: f64) -> Vec<Point> {
        let mut points = Vec::new();
        for [far_left, far_right, near_left, near_right] in &self.tails {
            points.extend([
                (*near_left, base),
                (*far_left, top),
                (*far_right, top),
                (*near_right, base),
            ]);
        }
        points
    }

    fn tail_view(&self, measures: &Measures<'_>) -> Picture {
        let low = self.long * 2.2;
        let mut picture = Picture::new((0.0, 0.0), (self.width, low));
        let mut outline = vec![(0.0, low), (0.0, self.long)];
        outline.extend(self.comb(0.0, self.long));
        outline.extend([(self.width, self.long), (self.width, low)]);
        picture.outline(&outline);
        picture.broken((0.0, low), (self.width, low));
        picture.hidden((0.0, self.long), (self.width, self.long));
        let [far_left, far_right, near_left, near_right] = self.tails[0];
        let mut mark =
            |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
        mark(Edge::Top, [0.0; 2], "tail_wide", [far_left, far_right]);
        if let Some([next, _, near, _]) = self.tails.get(1) {
            mark(Edge::Top, [0.0; 2], "socket_narrow", [far_right, *next]);
            mark(
                Edge::Bottom,
                [self.long; 2],
                "socket_wide",
                [near_right, *near],
            );
        }
        mark(
            Edge::Top,
            [self.long, 0.0],
            "half_socket_narrow",
            [0.0, far_left],
        );
        mark(
            Edge::Bottom,
            [self.long; 2],
            "tail_narrow",
            [near_left, near_right],
        );
        mark(
            Edge::Bottom,
            [self.long; 2],
            "half_socket_wide",
            [0.0, near_left],
        );
        mark(Edge::Bottom, [low; 2], "board_width", [0.0, self.width]);
        mark(
            Edge::Right,
            [self.width; 2],
            "tail_length",
            [0.0, self.long],
        );
        picture
    }

    fn pin_view(&self, measures: &Measures<'_>) -> Picture {
        let thick = self.pin_board;
        let mut picture = Picture::new((0.0, 0.0), (self.width, thick));
        if self.lap > 0.0 {
            let mut outline = vec![(self.width, 0.0), (0.0, 0.0), (0.0, thick)];
            outline.extend(self.comb(self.lap, thick));
            outline.push((self.width, thick));
            picture.outline(&outline);
            let lap = [0.0, self.lap];
            measures.mark(&mut picture, Edge::Right, [self.width; 2], "lap", lap);
        } else {
            for pin in self.pins(0.0, thick) {
                picture.outline(&pin);
            }
        }
        let span = [0.0, thick];
        measures.mark(&mut picture, Edge::Left, [0.0; 2], "pin_board", span);
        picture
    }

    /// The pin board on its edge, with the tail board in its place: how far the pins stand out.
    fn pin_side(&self, measures: &Measures<'_>, (tail_board, pins): (f64, f64)) -> Picture {
        let (thick, along) = (self.pin_board, pins * 2.2);
        let right = pins.max(tail_board);
        // Their ends are level where the tail board's inside lies on the base line.
        let top = (thick - self.long).min(0.0);
        let mut picture = Picture::new((pins - along, top), (right, thick * 1.6));
        picture.outline(&boxed((pins - along, 0.0), (pins, thick)));
        picture.broken((pins - along, 0.0), (pins - along, thick));
        picture.hidden((0.0, 0.0), (0.0, thick));
        let tail = boxed((0.0, thick - self.long), (tail_board, thick * 1.6));
        picture.phantom(&tail);
        let span = [0.0, pins];
        measures.mark(&mut picture, Edge::Top, [0.0; 2], "pin_line", span);
        let span = [0.0, tail_board];
        let low = thick * 1.6;
        measures.mark(&mut picture, Edge::Bottom, [low; 2], "tail_board", span);
        picture
    }

    /// The pins between two levels, half pins at both edges.
    fn pins(&self, top: f64, base: f64) -> Vec<[Point; 4]> {
        let edge = [0.0, 0.0, 0.0, 0.0];
        let last = [self.width; 4];
        let before = std::iter::once(&edge).chain(&self.tails);
        let after = self.tails.iter().chain(std::iter::once(&last));
        before
            .zip(after)
            .map(|(left, right)| {
                [
                    (left[1], top),
                    (right[0], top),
                    (right[2], base),
                    (left[3], base),
                ]
            })
            .collect()
    }

    fn together(&self, measures: &Measures<'_>) -> Picture {
        let on = self.edge.map_or(0.0, |(tail_board, _)| tail_board);
        let low = self.long + on.max(self.long);
        // Where the pin board's outside lies: a through joint may stand out on either side.
        let outside = self.long - self.pin_board;
        let top = outside.min(0.0);
        let mut picture = Picture::new((0.0, top), (self.width, low));
        let mut tails = vec![(0.0, low), (0.0, self.long)];
        tails.extend(self.comb(0.0, self.long));
        tails.extend([(self.width, self.long), (self.width, low)]);
        if self.lap > 0.0 {
            let mut pins = vec![(self.width, outside), (0.0, outside), (0.0, self.long)];
            pins.extend(self.comb(0.0, self.long));
            pins.push((self.width, self.long));
            picture.cut(&pins, Lean::Right);
        } else {
            for pin in self.pins(outside.max(0.0), self.long) {
                picture.cut(&pin, Lean::Right);
            }
            if outside < 0.0 {
                for [left, right, _, _] in self.pins(0.0, self.long) {
                    let stands = boxed((left.0, outside), (right.0, 0.0));
                    picture.cut(&stands, Lean::Right);
                }
            }
        }
        picture.cut(&tails, Lean::Left);
        picture.broken((0.0, low), (self.width, low));
        let span = [outside, self.long];
        measures.mark(&mut picture, Edge::Left, [0.0; 2], "pin_board", span);
        picture
    }
}
