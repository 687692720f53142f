//! Breadboard end: the end strip and the top's tongue in section, and both together.
//!
//! Needs `board` (T, the top), `end_thick` (S), `mortised_width` (V, the strip), `groove` (k),
//! `depth` (h), `wall` (f), `tongue` (t), `tongue_length` (l), `shoulder_face` (a), `shoulder_back`
//! (b) and `cutter` (d, the peg) (`joinery.md` 3.11). Face sides at the top.

use super::View;
use super::measures::Measures;
use super::svg::{Edge, Lean, Picture, Point, finish};
use crate::diag::Fault;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (board, strip) = (measures.mm("board")?, measures.mm("end_thick")?);
    let (wide, groove) = (measures.mm("mortised_width")?, measures.mm("groove")?);
    let (depth, wall) = (measures.mm("depth")?, measures.mm("wall")?);
    let (long, peg) = (measures.mm("tongue_length")?, measures.mm("cutter")?);
    let (face, back) = (measures.mm("shoulder_face")?, measures.mm("shoulder_back")?);
    measures.mm("tongue")?;
    measures.demand(
        wall + groove < strip,
        "the groove leaves no wall at the back",
    )?;
    measures.demand(depth < wide, "the groove is as deep as the strip is wide")?;
    measures.demand(face + back < board, "the shoulders leave no tongue")?;
    measures.demand(
        long <= depth,
        "the tongue is longer than the groove is deep",
    )?;
    measures.demand(peg < long, "the peg is wider than the tongue is long")?;
    let (far, low, beyond) = (wall + groove, board - back, board * 1.2);
    let grooved = [
        (-wide, 0.0),
        (0.0, 0.0),
        (0.0, wall),
        (-depth, wall),
        (-depth, far),
        (0.0, far),
        (0.0, strip),
        (-wide, strip),
    ];
    // The tongue's face lies where the groove's upper wall is, with half of the play above.
    let top = wall + (groove - (low - face)) / 2.0 - face;
    let tongued = |top: f64| {
        [
            (beyond, top),
            (0.0, top),
            (0.0, top + face),
            (-long, top + face),
            (-long, top + low),
            (0.0, top + low),
            (0.0, top + board),
            (beyond, top + board),
        ]
    };
    let end = end_strip(measures, &grooved)?;
    let tongue = tongue_alone(measures, &tongued(0.0), beyond)?;
    let (high, deep) = (top.min(0.0), strip.max(top + board));
    let mut together = Picture::new((-wide, high), (beyond, deep));
    together.cut(&grooved, Lean::Right);
    together.cut(&tongued(top), Lean::Left);
    together.broken((beyond, top), (beyond, top + board));
    let (axis, half) = (-long / 2.0, peg / 2.0);
    together.hidden((axis - half, far), (axis - half, strip));
    together.hidden((axis + half, far), (axis + half, strip));
    together.centre((axis, top + face), (axis, strip));
    let bored = [axis - half, axis + half];
    measures.mark(&mut together, Edge::Bottom, [strip; 2], "cutter", bored);
    let thick = [top, top + board];
    measures.mark(&mut together, Edge::Right, [beyond; 2], "board", thick);
    Ok(finish(vec![
        (end, "End strip, section", says_end(measures)),
        (tongue, "Tongue, section", says_tongue(measures)),
        (together, "Together, section", says_both(measures)),
    ]))
}

/// The end strip alone; its outline begins at the left upper corner.
fn end_strip(measures: &Measures<'_>, grooved: &[Point]) -> Result<Picture, Fault> {
    let (strip, wide) = (measures.mm("end_thick")?, measures.mm("mortised_width")?);
    let (groove, depth, wall) = (
        measures.mm("groove")?,
        measures.mm("depth")?,
        measures.mm("wall")?,
    );
    let far = wall + groove;
    let mut end = Picture::new((-wide, 0.0), (0.0, strip));
    end.cut(grooved, Lean::Right);
    measures.mark(&mut end, Edge::Top, [wall, 0.0], "depth", [-depth, 0.0]);
    measures.mark(
        &mut end,
        Edge::Bottom,
        [strip; 2],
        "mortised_width",
        [-wide, 0.0],
    );
    measures.mark(&mut end, Edge::Right, [0.0; 2], "groove", [wall, far]);
    measures.mark(&mut end, Edge::Right, [0.0; 2], "wall", [0.0, wall]);
    measures.mark(&mut end, Edge::Left, [-wide; 2], "end_thick", [0.0, strip]);
    Ok(end)
}

/// The tongue alone; its outline begins at the right upper corner, `beyond` the shoulders.
fn tongue_alone(measures: &Measures<'_>, tongued: &[Point], beyond: f64) -> Result<Picture, Fault> {
    let (board, long) = (measures.mm("board")?, measures.mm("tongue_length")?);
    let face = measures.mm("shoulder_face")?;
    let low = board - measures.mm("shoulder_back")?;
    let mut tongue = Picture::new((-long, 0.0), (beyond, board));
    tongue.cut(tongued, Lean::Left);
    tongue.broken((beyond, 0.0), (beyond, board));
    let out = [-long, 0.0];
    measures.mark(&mut tongue, Edge::Top, [face, 0.0], "tongue_length", out);
    measures.mark(&mut tongue, Edge::Left, [-long; 2], "tongue", [face, low]);
    let right = [beyond, 0.0];
    measures.mark(
        &mut tongue,
        Edge::Right,
        right,
        "shoulder_face",
        [0.0, face],
    );
    let right = [0.0, beyond];
    measures.mark(
        &mut tongue,
        Edge::Right,
        right,
        "shoulder_back",
        [low, board],
    );
    Ok(tongue)
}

fn says_end(measures: &Measures<'_>) -> String {
    format!(
        "The end strip cut through, {} thick and {} wide, face side at the top: a groove {} wide \
         and {} deep, {} from the face.",
        measures.shown("end_thick"),
        measures.shown("mortised_width"),
        measures.shown("groove"),
        measures.shown("depth"),
        measures.shown("wall")
    )
}

fn says_tongue(measures: &Measures<'_>) -> String {
    format!(
        "The end of the top in section along its grain: a tongue {} thick and {} long, shoulders {} \
         on the face side and {} on the back.",
        measures.shown("tongue"),
        measures.shown("tongue_length"),
        measures.shown("shoulder_face"),
        measures.shown("shoulder_back")
    )
}

fn says_both(measures: &Measures<'_>) -> String {
    format!(
        "The top, {} thick, with its tongue in the groove, free at the bottom; a peg of {} comes \
         from the back through the middle of the tongue.",
        measures.shown("board"),
        measures.shown("cutter")
    )
}
