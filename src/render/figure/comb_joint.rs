//! Comb joint: the end of one board on its face, the other, and the corner seen on the first's face.
//!
//! Needs `board_width` (W), `board` (T), `finger` (g), `slot` (k), `depth` (h) and `proud` (p)
//! (`joinery.md` 2.8, 3.8). The edge that bore on the pin is at the top; the first board has a
//! finger there, the second a slot. The last finger is what the width leaves; where `filled` (t) is
//! known, the boards are trimmed to it, and what is trimmed off is drawn beside them.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, Point, finish};
use crate::diag::Fault;

/// More fingers than a board has: a comb this fine is not drawn.
const MOST: usize = 200;

/// Less than this over the fingers, in millimetres, is not drawn.
const HAIR: f64 = 0.01;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (whole, stock) = (measures.mm("board_width")?, measures.mm("board")?);
    let width = measures.optional("filled")?.unwrap_or(whole);
    let (finger, slot) = (measures.mm("finger")?, measures.mm("slot")?);
    let (deep, proud) = (measures.mm("depth")?, measures.or_nothing("proud")?);
    let step = finger + slot;
    measures.demand_entering(finger, slot, "the fingers are wider than the slots")?;
    measures.demand(width <= whole, "the fingers fill more than the board")?;
    measures.demand(step < width, "the board has no room for two fingers")?;
    measures.demand(
        width / step < MOST as f64,
        "the fingers are too many to draw",
    )?;
    measures.demand(proud < deep, "the fingers stand out by their whole length")?;
    let beyond = -deep.max(stock);
    let first = slots(finger, step, slot, width);
    let second = slots(0.0, step, slot, width);
    let draw = |picture: &mut Picture, slots: &[(f64, f64)]| {
        picture.outline(&comb(slots, beyond, deep, width));
        picture.broken((beyond, 0.0), (beyond, width));
    };
    let trimmed = |picture: &mut Picture| {
        if whole - width > HAIR {
            picture.phantom(&boxed((beyond, width), (0.0, whole)));
        }
    };
    let mut one = Picture::new((beyond, 0.0), (deep, whole));
    draw(&mut one, &first);
    trimmed(&mut one);
    measures.mark(&mut one, Edge::Top, [0.0; 2], "depth", [0.0, deep]);
    measures.mark(&mut one, Edge::Right, [deep; 2], "finger", [0.0, finger]);
    measures.mark(&mut one, Edge::Right, [deep; 2], "slot", [finger, step]);
    if whole - width > HAIR {
        measures.mark(&mut one, Edge::Left, [beyond; 2], "filled", [0.0, width]);
    }
    measures.mark(
        &mut one,
        Edge::Left,
        [beyond; 2],
        "board_width",
        [0.0, whole],
    );
    let mut two = Picture::new((beyond, 0.0), (deep, whole));
    draw(&mut two, &second);
    trimmed(&mut two);
    let mut both = Picture::new((beyond, 0.0), (deep, width));
    draw(&mut both, &first);
    for (top, bottom) in &first {
        let (high, low) = (top.max(0.0), bottom.min(width));
        // The other board's finger is narrower than the slot by the clearance.
        let end = (high + finger).min(low);
        both.cut(&boxed((0.0, high), (stock, end)), Lean::Left);
    }
    measures.mark(
        &mut both,
        Edge::Bottom,
        [width; 2],
        "proud",
        [deep - proud, deep],
    );
    measures.mark(&mut both, Edge::Top, [0.0; 2], "board", [0.0, stock]);
    let [says_one, says_two, says_both] = says(measures, whole - width > HAIR, proud > 0.0);
    Ok(finish(vec![
        (one, "First board, on its face", says_one),
        (two, "Other board, on its face", says_two),
        (both, "Together, on the face of the first", says_both),
    ]))
}

/// One board, the other, and both together in words.
fn says(measures: &Measures<'_>, trimmed: bool, proud: bool) -> [String; 3] {
    let to_width = match trimmed {
        true => format!(
            " The fingers fill {}; what is over is trimmed off.",
            measures.shown("filled")
        ),
        false => String::new(),
    };
    let says_one = format!(
        "The end of one board on its face, {} wide: from the upper edge a finger {} wide, a slot {} \
         wide, and so on; the slots are {} deep.{to_width}",
        measures.shown("board_width"),
        measures.shown("finger"),
        measures.shown("slot"),
        measures.shown("depth")
    );
    let says_two =
        "The other board: it begins with a slot where the first has a finger.".to_owned();
    let stand = match proud {
        true => format!(
            "; the fingers stand out by {} and are planed off.",
            measures.shown("proud")
        ),
        false => ", flush with the fingers.".to_owned(),
    };
    let says_both = format!(
        "The corner on the face of the first board: the ends of the other, {} thick, fill the \
         slots{stand}",
        measures.shown("board")
    );
    [says_one, says_two, says_both]
}

/// The slots of a board from its upper edge, as far as its width goes.
fn slots(first: f64, step: f64, slot: f64, width: f64) -> Vec<(f64, f64)> {
    let tops = (0..MOST).map(|at| first + step * at as f64);
    tops.take_while(|top| *top < width)
        .map(|top| (top, (top + slot).min(width)))
        .collect()
}

/// The outline of a board's end.
fn comb(slots: &[(f64, f64)], beyond: f64, deep: f64, width: f64) -> Vec<Point> {
    let mut points = vec![(beyond, 0.0)];
    let mut edge = 0.0;
    for (top, bottom) in slots {
        if *top > edge {
            points.extend([(deep, edge), (deep, *top)]);
        }
        points.extend([(0.0, *top), (0.0, *bottom)]);
        edge = *bottom;
    }
    if edge < width {
        points.extend([(deep, edge), (deep, width)]);
    }
    points.push((beyond, width));
    points
}
