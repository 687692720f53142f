//! Drawer box: the four parts cut level, from above, and a side from the inside.
//!
//! Letters are those of the calculator `drawer`. Needs `front_length` (B), `front` (f),
//! `side_thick` (t), `side_length` (e), `front_lap` (q), `back` (a), `back_in` (m), `inside_width` (n);
//! `back_tongue` and `back_tongue_length`; and `side_height` (h), `back_height` (k), `groove_up` (u),
//! `groove_width` (j). The front is at the top: the drawer lies with its face away from the reader.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, finish};
use crate::diag::Fault;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (plan, says_plan) = plan(measures)?;
    let (side, says_side) = side(measures)?;
    let mut views = finish(vec![(plan, "Together, section from above", says_plan)]);
    views.extend(finish(vec![(side, "Side, from inside", says_side)]));
    Ok(views)
}

fn plan(measures: &Measures<'_>) -> Result<(Picture, String), Fault> {
    let (wide, front) = (measures.mm("front_length")?, measures.mm("front")?);
    let (side, long) = (measures.mm("side_thick")?, measures.mm("side_length")?);
    let (lap, back) = (measures.mm("front_lap")?, measures.mm("back")?);
    let (behind, between) = (measures.mm("back_in")?, measures.mm("inside_width")?);
    let (tongue, thin) = (
        measures.mm("back_tongue_length")?,
        measures.mm("back_tongue")?,
    );
    measures.demand(lap < front, "the lap is as thick as the front")?;
    let agrees = (wide - between - 2.0 * side).abs() < wide / 50.0;
    measures.demand(
        agrees,
        "sides and inside width do not make the front's length",
    )?;
    measures.demand(
        tongue < side,
        "the tongues of the back come through the sides",
    )?;
    measures.demand(thin <= back, "the tongue is thicker than the back")?;
    let (end, rear) = (lap + long, lap + long - behind);
    measures.demand(
        rear - back > front,
        "the back does not lie behind the front",
    )?;
    let mut picture = Picture::new((0.0, 0.0), (wide, end));
    picture.room((220.0, 220.0));
    let right = wide - side;
    picture.cut(
        &[
            (0.0, 0.0),
            (wide, 0.0),
            (wide, lap),
            (right, lap),
            (right, front),
            (side, front),
            (side, lap),
            (0.0, lap),
        ],
        Lean::Right,
    );
    // Each side has a housing for the tongue of the back, at the back's inside.
    let (top, low) = (rear - back, rear - back + thin);
    let wall = |x: f64, inner: f64, turn: f64| {
        [
            (x, lap),
            (inner, lap),
            (inner, top),
            (inner + tongue * turn, top),
            (inner + tongue * turn, low),
            (inner, low),
            (inner, end),
            (x, end),
        ]
    };
    picture.cut(&wall(0.0, side, -1.0), Lean::Left);
    picture.cut(&wall(wide, right, 1.0), Lean::Left);
    picture.cut(
        &[
            (side - tongue, top),
            (right + tongue, top),
            (right + tongue, low),
            (right, low),
            (right, rear),
            (side, rear),
            (side, low),
            (side - tongue, low),
        ],
        Lean::Right,
    );
    let mut mark = |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
    mark(Edge::Top, [0.0; 2], "front_length", [0.0, wide]);
    mark(Edge::Bottom, [end; 2], "side_thick", [0.0, side]);
    mark(Edge::Bottom, [end; 2], "inside_width", [side, right]);
    mark(Edge::Left, [0.0; 2], "side_length", [lap, end]);
    mark(Edge::Right, [wide; 2], "front_lap", [0.0, lap]);
    mark(Edge::Right, [wide, side], "front", [0.0, front]);
    mark(Edge::Right, [right, wide], "back_in", [rear, end]);
    Ok((picture, plan_says(measures)))
}

/// The same in words.
fn plan_says(measures: &Measures<'_>) -> String {
    let shown = |name| measures.shown(name);
    format!(
        "The drawer cut level, from above, its front at the top. The front, {} long and {} thick, \
         keeps a lap of {} before the ends of the sides. The sides, {} thick and {} long, stand \
         in its rebates, {} apart. The back, {} thick, lies {} before their rear ends; its tongues, \
         {} thick and {} long, at its inside, stand in housings of the sides.",
        shown("front_length"),
        shown("front"),
        shown("front_lap"),
        shown("side_thick"),
        shown("side_length"),
        shown("inside_width"),
        shown("back"),
        shown("back_in"),
        shown("back_tongue"),
        shown("back_tongue_length")
    )
}

fn side(measures: &Measures<'_>) -> Result<(Picture, String), Fault> {
    let (long, high) = (measures.mm("side_length")?, measures.mm("side_height")?);
    let (up, groove) = (measures.mm("groove_up")?, measures.mm("groove_width")?);
    let (back, behind) = (measures.mm("back_height")?, measures.mm("back_in")?);
    let thick = measures.mm("back")?;
    measures.demand(up + groove < high, "the groove lies above the side")?;
    measures.demand(
        behind + thick < long,
        "the back does not lie within the side",
    )?;
    let floor = high - up;
    measures.demand(
        back <= floor,
        "the back is higher than the side above the groove",
    )?;
    let mut picture = Picture::new((0.0, 0.0), (long, high));
    picture.outline(&boxed((0.0, 0.0), (long, high)));
    picture.outline(&boxed((0.0, floor - groove), (long, floor)));
    let (rear, under) = (long - behind, floor - groove);
    let top = (under - back).max(0.0);
    picture.phantom(&boxed((rear - thick, top), (rear, under)));
    let mut mark = |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
    mark(Edge::Left, [0.0; 2], "side_height", [0.0, high]);
    mark(Edge::Right, [long; 2], "groove_up", [floor, high]);
    mark(
        Edge::Right,
        [long; 2],
        "groove_width",
        [floor - groove, floor],
    );
    mark(Edge::Bottom, [high; 2], "back_in", [rear, long]);
    mark(Edge::Top, [top; 2], "back", [rear - thick, rear]);
    let shown = |name| measures.shown(name);
    let says = format!(
        "A side from the inside, {} long and {} high, its front end at the left: the groove for \
         the bottom, {} wide, begins {} above the lower edge. The back, {} high, stands on the \
         bottom; its place is drawn thin, {} from the rear end.",
        shown("side_length"),
        shown("side_height"),
        shown("groove_width"),
        shown("groove_up"),
        shown("back_height"),
        shown("back_in")
    );
    Ok((picture, says))
}
