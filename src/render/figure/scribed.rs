//! Scribed joint: the frame on its face, one rail between both stiles.
//!
//! Needs `overall` (O), `stile` (V), `rail_length` (R), `profile` (p), `opening` (o) and `rail_width`
//! (W). The rail's scribed ends reach over the moulding of the stiles as far as the flat of their
//! faces. The curve of the moulding is the cutters' own and is not drawn; it lies in the strip that
//! a thin line bounds.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Picture, finish};
use crate::diag::Fault;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (overall, stile) = (measures.mm("overall")?, measures.mm("stile")?);
    let (rail, profile) = (measures.mm("rail_length")?, measures.mm("profile")?);
    let (opening, high) = (measures.mm("opening")?, measures.mm("rail_width")?);
    measures.demand(
        profile < stile.min(high),
        "the moulding is wider than its piece",
    )?;
    let left = stile - profile;
    let agrees = |one: f64, other: f64| (one - other).abs() < overall / 50.0;
    let fits = agrees(opening + 2.0 * stile, overall) && agrees(rail + 2.0 * left, overall);
    measures.demand(fits, "rail and stiles do not make the width of the frame")?;
    let low = high * 1.8;
    let mut picture = Picture::new((0.0, 0.0), (overall, low));
    for (from, to) in [(0.0, stile), (overall - stile, overall)] {
        picture.outline(&boxed((from, 0.0), (to, low)));
        picture.broken((from, low), (to, low));
    }
    picture.outline(&boxed((left, 0.0), (left + rail, high)));
    // Where the flat of each face ends and its moulding begins.
    picture.centre((left, high - profile), (left + rail, high - profile));
    picture.centre((left, high), (left, low));
    picture.centre((left + rail, high), (left + rail, low));
    let mut mark = |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
    mark(Edge::Top, [0.0; 2], "rail_length", [left, left + rail]);
    mark(Edge::Top, [0.0; 2], "overall", [0.0, overall]);
    mark(Edge::Bottom, [low; 2], "opening", [stile, stile + opening]);
    mark(Edge::Bottom, [low; 2], "stile", [0.0, stile]);
    mark(Edge::Right, [overall; 2], "profile", [high - profile, high]);
    mark(Edge::Left, [left; 2], "rail_width", [0.0, high]);
    let shown = |name| measures.shown(name);
    let says = format!(
        "The frame on its face, {} over its stiles, a rail at the top: stiles {} wide, {} of sight \
         opening between them. The rail is {} long from scribed end to scribed end; each end \
         reaches {} over the moulding of a stile, as far as the flat of its face. The curve of the \
         moulding is not drawn.",
        shown("overall"),
        shown("stile"),
        shown("opening"),
        shown("rail_length"),
        shown("profile")
    );
    Ok(finish(vec![(picture, "Together, on the face", says)]))
}
