//! Tongues: along the edges of boards (tongue and groove), and at an end in a housing.
//!
//! Edges need `board` (T), `groove` (k), `depth` (h), `wall` (f), `tongue` (t), `tongue_length` (l),
//! `shoulder_face` (a) and `shoulder_back` (b); `wall_back` (n) where it is known (`joinery.md` 2.6). A corner needs `stock` (T), `side`
//! (S), `width` (w), `depth` (h), `wall` (f), `tongue` (t), `tongue_length` (l) and `shoulder_face`
//! (a); `rest` (q) where it is known.

use super::View;
use super::measures::Measures;
use super::svg::{Edge, Lean, Picture, Point, finish};
use crate::diag::Fault;

/// Boards edge to edge, faces at the top, the groove in the left one.
pub(super) fn edges(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (board, groove) = (measures.mm("board")?, measures.mm("groove")?);
    let (depth, wall) = (measures.mm("depth")?, measures.mm("wall")?);
    let (face, back) = (measures.mm("shoulder_face")?, measures.mm("shoulder_back")?);
    let long = measures.mm("tongue_length")?;
    measures.mm("tongue")?;
    measures.demand(
        wall + groove < board,
        "the groove leaves no wall at the back",
    )?;
    measures.demand(face + back < board, "the shoulders leave no tongue")?;
    measures.demand(
        long <= depth,
        "the tongue is longer than the groove is deep",
    )?;
    let (beyond, far, low) = (depth + board, wall + groove, board - back);
    let grooved = [
        (-beyond, 0.0),
        (0.0, 0.0),
        (0.0, wall),
        (-depth, wall),
        (-depth, far),
        (0.0, far),
        (0.0, board),
        (-beyond, board),
    ];
    let tongued = [
        (board, 0.0),
        (0.0, 0.0),
        (0.0, face),
        (-long, face),
        (-long, low),
        (0.0, low),
        (0.0, board),
        (board, board),
    ];
    let mut left = Picture::new((-beyond, 0.0), (0.0, board));
    half(&mut left, &grooved, -beyond, board, Lean::Right);
    measures.mark(&mut left, Edge::Top, [wall, 0.0], "depth", [-depth, 0.0]);
    measures.mark(&mut left, Edge::Right, [0.0; 2], "groove", [wall, far]);
    measures.mark(&mut left, Edge::Right, [0.0; 2], "wall", [0.0, wall]);
    let behind = [far, board];
    measures.mark(&mut left, Edge::Right, [0.0; 2], "wall_back", behind);
    measures.mark(&mut left, Edge::Left, [-beyond; 2], "board", [0.0, board]);
    let mut right = Picture::new((-long, 0.0), (board, board));
    half(&mut right, &tongued, board, board, Lean::Left);
    measures.mark(
        &mut right,
        Edge::Top,
        [face, 0.0],
        "tongue_length",
        [-long, 0.0],
    );
    measures.mark(&mut right, Edge::Left, [-long; 2], "tongue", [face, low]);
    measures.mark(
        &mut right,
        Edge::Right,
        [board, 0.0],
        "shoulder_face",
        [0.0, face],
    );
    measures.mark(
        &mut right,
        Edge::Right,
        [0.0, board],
        "shoulder_back",
        [low, board],
    );
    let mut both = Picture::new((-beyond, 0.0), (board, board));
    half(&mut both, &grooved, -beyond, board, Lean::Right);
    half(&mut both, &tongued, board, board, Lean::Left);
    Ok(finish(vec![
        (left, "Groove, section", says_groove(measures)),
        (right, "Tongue, section", says_tongue(measures)),
        (
            both,
            "Together, section",
            "The tongue in its groove, both face sides flush at the top.".to_owned(),
        ),
    ]))
}

fn says_groove(measures: &Measures<'_>) -> String {
    format!(
        "A board {} thick in section, face side at the top; in its edge a groove {} wide and {} \
         deep, {} from the face.",
        measures.shown("board"),
        measures.shown("groove"),
        measures.shown("depth"),
        measures.shown("wall")
    )
}

fn says_tongue(measures: &Measures<'_>) -> String {
    format!(
        "The next board in section: on its edge a tongue {} thick and {} long, shoulders {} deep \
         from the face and {} from the back.",
        measures.shown("tongue"),
        measures.shown("tongue_length"),
        measures.shown("shoulder_face"),
        measures.shown("shoulder_back")
    )
}

/// A board that goes on beyond an upright edge of the picture.
fn half(picture: &mut Picture, points: &[Point], broken: f64, board: f64, lean: Lean) {
    picture.cut(points, lean);
    picture.broken((broken, 0.0), (broken, board));
}

/// A tongue in a housing near the end of a side; the side's inside lies upwards, its end left.
pub(super) fn corner(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (side, stock) = (measures.mm("side")?, measures.mm("stock")?);
    let (width, depth) = (measures.mm("width")?, measures.mm("depth")?);
    let (wall, shoulder) = (measures.mm("wall")?, measures.mm("shoulder_face")?);
    let (tongue, long) = (measures.mm("tongue")?, measures.mm("tongue_length")?);
    measures.demand(depth < side, "the housing is as deep as the side is thick")?;
    measures.demand(tongue + shoulder <= stock * 1.01, "the tongue is too thick")?;
    measures.demand(
        long <= depth,
        "the tongue is longer than the housing is deep",
    )?;
    let (beyond, above) = (wall + width + stock, -stock * 1.1);
    let far = wall + width;
    let housed = [
        (0.0, 0.0),
        (wall, 0.0),
        (wall, depth),
        (far, depth),
        (far, 0.0),
        (beyond, 0.0),
        (beyond, side),
        (0.0, side),
    ];
    // The rebate of the tongue lies on the outside, which is the end of the side.
    let tongued = |face: f64| {
        let outer = face - stock;
        [
            (outer, above),
            (face, above),
            (face, long),
            (face - tongue, long),
            (face - tongue, 0.0),
            (outer, 0.0),
        ]
    };
    let mut housing = Picture::new((0.0, 0.0), (beyond, side));
    half(&mut housing, &housed, beyond, side, Lean::Right);
    measures.mark(&mut housing, Edge::Top, [0.0; 2], "width", [wall, far]);
    measures.mark(&mut housing, Edge::Top, [0.0; 2], "wall", [0.0, wall]);
    measures.mark(
        &mut housing,
        Edge::Right,
        [beyond, far],
        "depth",
        [0.0, depth],
    );
    let under = [beyond, far];
    measures.mark(&mut housing, Edge::Right, under, "rest", [side, depth]);
    measures.mark(&mut housing, Edge::Left, [0.0; 2], "side", [0.0, side]);
    let mut end = Picture::new((0.0, above), (stock, long));
    end.cut(&tongued(stock), Lean::Left);
    end.broken((0.0, above), (stock, above));
    measures.mark(&mut end, Edge::Top, [above; 2], "stock", [0.0, stock]);
    let step = [0.0, stock - tongue];
    measures.mark(&mut end, Edge::Bottom, [0.0, long], "shoulder_face", step);
    measures.mark(
        &mut end,
        Edge::Bottom,
        [long; 2],
        "tongue",
        [stock - tongue, stock],
    );
    measures.mark(
        &mut end,
        Edge::Left,
        [0.0, stock - tongue],
        "tongue_length",
        [0.0, long],
    );
    let face = far - (width - tongue) / 2.0;
    let mut together = Picture::new(((face - stock).min(0.0), above), (beyond, side));
    half(&mut together, &housed, beyond, side, Lean::Right);
    together.cut(&tongued(face), Lean::Left);
    together.broken((face - stock, above), (face, above));
    let [says_side, says_end, both] = says_corner(measures);
    Ok(finish(vec![
        (housing, "Housing, section", says_side),
        (end, "Tongue, section", says_end),
        (together, "Together, section", both),
    ]))
}

/// Housing, tongue and both together in words.
fn says_corner(measures: &Measures<'_>) -> [String; 3] {
    let says_side = format!(
        "The end of the side in section, {} thick, with a housing {} wide and {} deep, {} from its \
         end.",
        measures.shown("side"),
        measures.shown("width"),
        measures.shown("depth"),
        measures.shown("wall")
    );
    let says_end = format!(
        "The board, {} thick, in section: its end is cut {} deep on the outside, which leaves a \
         tongue {} thick and {} long.",
        measures.shown("stock"),
        measures.shown("shoulder_face"),
        measures.shown("tongue"),
        measures.shown("tongue_length")
    );
    let both = "The tongue in the housing, the shoulder on the side; what the side stands out past \
                the board is planed off.";
    [says_side, says_end, both.to_owned()]
}
