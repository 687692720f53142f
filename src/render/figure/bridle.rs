//! Bridle joint: the slotted piece and the tongue in section, and both together.
//!
//! Needs `board` (T, both pieces), `slot` (k), `cheek` (f), `depth` (h) of the slot, `tongue` (t),
//! `shoulder_face` (a) and `width_b` (w) of the piece with the tongue (`joinery.md` 2.2). The tongue
//! lies at the end of its piece, `tongue_length` (l) long, or goes on beyond a `recess` (r) of that
//! length; where `proud` (p) is known, the ends of the slot stand out by it.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, finish};
use crate::diag::Fault;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (board, slot) = (measures.mm("board")?, measures.mm("slot")?);
    let (cheek, depth) = (measures.mm("cheek")?, measures.mm("depth")?);
    let tongue = measures.mm("tongue")?;
    let (shoulder, wide) = (measures.mm("shoulder_face")?, measures.mm("width_b")?);
    measures.demand(cheek + slot < board, "the slot leaves no far cheek")?;
    measures.demand(2.0 * shoulder < board, "the shoulders leave no tongue")?;
    measures.demand_entering(tongue, slot, "the tongue is thicker than the slot")?;
    measures.demand(wide <= depth, "the slot is shorter than the piece is wide")?;
    let (beyond, far) = (-board.max(depth * 0.4), cheek + slot);
    let slotted = [
        (beyond, 0.0),
        (depth, 0.0),
        (depth, cheek),
        (0.0, cheek),
        (0.0, far),
        (depth, far),
        (depth, board),
        (beyond, board),
    ];
    let mut stile = Picture::new((beyond, 0.0), (depth, board));
    stile.cut(&slotted, Lean::Right);
    stile.broken((beyond, 0.0), (beyond, board));
    measures.mark(&mut stile, Edge::Top, [cheek, 0.0], "depth", [0.0, depth]);
    measures.mark(&mut stile, Edge::Right, [depth; 2], "slot", [cheek, far]);
    measures.mark(&mut stile, Edge::Right, [depth; 2], "cheek", [0.0, cheek]);
    measures.mark(&mut stile, Edge::Left, [beyond; 2], "board", [0.0, board]);
    let rail = tongued(measures, beyond)?;
    let mut together = Picture::new((beyond, 0.0), (depth, board));
    together.cut(&slotted, Lean::Right);
    together.broken((beyond, 0.0), (beyond, board));
    let top = f64::midpoint(cheek, far) - tongue / 2.0;
    together.cut(&boxed((0.0, top), (wide, top + tongue)), Lean::Left);
    measures.mark(
        &mut together,
        Edge::Bottom,
        [far; 2],
        "width_b",
        [0.0, wide],
    );
    let out = [wide, depth];
    measures.mark(&mut together, Edge::Top, [0.0; 2], "proud", out);
    let [says_stile, says_rail, both] = says(measures);
    Ok(finish(vec![
        (stile, "Slot, section", says_stile),
        (rail, "Tongue, section", says_rail),
        (together, "Together, section", both),
    ]))
}

/// The piece with the tongue.
fn tongued(measures: &Measures<'_>, beyond: f64) -> Result<Picture, Fault> {
    let (board, shoulder) = (measures.mm("board")?, measures.mm("shoulder_face")?);
    let recess = measures.optional("recess")?;
    let long = match recess {
        Some(recess) => recess,
        None => measures.mm("tongue_length")?,
    };
    let (low, far) = (board - shoulder, recess.map_or(long, |long| long - beyond));
    let mut rail = Picture::new((beyond, 0.0), (far, board));
    let mut points = vec![(beyond, 0.0), (0.0, 0.0), (0.0, shoulder), (long, shoulder)];
    if recess.is_some() {
        points.extend([(long, 0.0), (far, 0.0), (far, board), (long, board)]);
    }
    points.extend([(long, low), (0.0, low), (0.0, board), (beyond, board)]);
    rail.cut(&points, Lean::Left);
    rail.broken((beyond, 0.0), (beyond, board));
    let (name, starts) = match recess {
        Some(_) => ("recess", [0.0; 2]),
        None => ("tongue_length", [0.0, shoulder]),
    };
    measures.mark(&mut rail, Edge::Top, starts, name, [0.0, long]);
    measures.mark(&mut rail, Edge::Right, [long; 2], "tongue", [shoulder, low]);
    let step = [0.0, shoulder];
    measures.mark(&mut rail, Edge::Left, [beyond, 0.0], "shoulder_face", step);
    if recess.is_some() {
        rail.broken((far, 0.0), (far, board));
    }
    Ok(rail)
}

/// Slot, tongue and both together in words.
fn says(measures: &Measures<'_>) -> [String; 3] {
    let says_stile = format!(
        "The slotted piece, {} thick, in section along its length: from its end a slot {} wide and \
         {} deep, with a cheek of {} beside it.",
        measures.shown("board"),
        measures.shown("slot"),
        measures.shown("depth"),
        measures.shown("cheek")
    );
    let long = if measures.has("recess") {
        format!("cut from both faces over {}", measures.shown("recess"))
    } else {
        format!("{} long", measures.shown("tongue_length"))
    };
    let says_rail = format!(
        "The other piece in section along its length: a tongue {} thick, {long}, between shoulders \
         {} deep.",
        measures.shown("tongue"),
        measures.shown("shoulder_face")
    );
    let stand = match measures.shown("proud") {
        "" => "a little".to_owned(),
        proud => format!("by {proud}"),
    };
    let both = format!(
        "The tongue, {} wide, lies in the slot against its bottom; the ends stand out {stand} and \
         are planed off after gluing.",
        measures.shown("width_b")
    );
    [says_stile, says_rail, both]
}
