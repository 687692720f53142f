//! Frames from the front: a rail between its stiles and a stile with its horns; a panel in its frame.
//!
//! A rail needs `overall` (F), `stile` (S) and `rail_length` (R) between its shoulders; where they are
//! known `profile` (p), `tenon_length` (l) with `rail_whole` (r), and `frame_height` (H) with `horn`
//! (u) and `stile_length` (s). A panel needs `opening` (O), `depth` (g) of the groove and `panel_width`
//! (P), and `stile` where it is known. What has no length is broken off
//! (`joinery.md` 3.11).

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Picture, finish};
use crate::diag::Fault;

/// A rail between two stiles, and a stile.
pub(super) fn rail(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (overall, stile) = (measures.mm("overall")?, measures.mm("stile")?);
    let long = measures.mm("rail_length")?;
    let tenon = measures.optional("tenon_length")?;
    let left = (overall - long) / 2.0;
    measures.demand(left <= stile * 1.0001, "the rail does not reach the stiles")?;
    let (right, out) = (overall - left, tenon.unwrap_or_default());
    let (ends, low) = ([left - out, right + out], stile.max(overall / 6.0));
    let top = low * 0.35;
    let mut picture = Picture::new((ends[0].min(0.0), 0.0), (ends[1].max(overall), low));
    for (from, to) in [(0.0, stile), (overall - stile, overall)] {
        picture.outline(&boxed((from, 0.0), (to, low)));
        picture.broken((from, 0.0), (to, 0.0));
        picture.broken((from, low), (to, low));
    }
    picture.outline(&boxed((left, top), (right, low)));
    picture.broken((left, low), (right, low));
    if out > 0.0 {
        for (shoulder, end) in [(left, ends[0]), (right, ends[1])] {
            picture.hidden((shoulder, top), (end, top));
            picture.hidden((end, top), (end, low));
        }
    }
    let mut mark = |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
    mark(Edge::Top, [top; 2], "rail_length", [left, right]);
    mark(Edge::Top, [top; 2], "rail_whole", ends);
    mark(Edge::Top, [0.0; 2], "overall", [0.0, overall]);
    mark(Edge::Bottom, [low; 2], "profile", [left, stile]);
    mark(Edge::Bottom, [low; 2], "tenon_length", [right, ends[1]]);
    mark(Edge::Bottom, [low; 2], "stile", [0.0, stile]);
    let shown = |name| measures.shown(name);
    let mut says = format!(
        "The frame from the front, {} over its stiles, which are {} wide and broken off; the rail, \
         its lower edge broken off, is {} from shoulder to shoulder.",
        shown("overall"),
        shown("stile"),
        shown("rail_length")
    );
    if measures.optional_or_nothing("profile")?.unwrap_or_default() > 0.0 {
        says += &format!(
            " It reaches {} over the profile of each stile.",
            shown("profile")
        );
    }
    if out > 0.0 {
        says += &format!(
            " Its tenons, dashed, are {} long, so that it is {} from end to end.",
            shown("tenon_length"),
            shown("rail_whole")
        );
    }
    let mut views = finish(vec![(picture, "Together, from the front", says)]);
    views.extend(horned(measures, stile)?);
    Ok(views)
}

/// A stile with its horns, where the height of the frame is known.
fn horned(measures: &Measures<'_>, wide: f64) -> Result<Vec<View>, Fault> {
    let Some(height) = measures.optional("frame_height")? else {
        return Ok(Vec::new());
    };
    let horn = measures.or_nothing("horn")?;
    let long = height + 2.0 * horn;
    let mut picture = Picture::new((0.0, 0.0), (long, wide));
    picture.outline(&boxed((0.0, 0.0), (long, wide)));
    for x in [horn, long - horn] {
        picture.centre((x, 0.0), (x, wide));
    }
    let mut mark = |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
    mark(Edge::Top, [0.0; 2], "frame_height", [horn, long - horn]);
    mark(Edge::Top, [0.0; 2], "stile_length", [0.0, long]);
    mark(Edge::Bottom, [wide; 2], "horn", [0.0, horn]);
    mark(Edge::Right, [long; 2], "stile", [0.0, wide]);
    let says = format!(
        "A stile on its face, lying, {} wide and cut {} long: the height of the frame, {}, and a \
         horn of {} at each end.",
        measures.shown("stile"),
        measures.shown("stile_length"),
        measures.shown("frame_height"),
        measures.shown("horn")
    );
    Ok(finish(vec![(picture, "Stile, on its face", says)]))
}

/// A panel in the grooves of its stiles.
pub(super) fn panel(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (opening, groove) = (measures.mm("opening")?, measures.mm("depth")?);
    let panel = measures.mm("panel_width")?;
    let known = measures.optional("stile")?;
    let wide = known.unwrap_or(groove.max(opening * 0.1) * 1.5);
    let inside = (panel - opening) / 2.0;
    measures.demand(inside > 0.0, "the panel does not reach into the grooves")?;
    measures.demand(
        inside <= groove,
        "the panel is wider than from groove to groove",
    )?;
    measures.demand(groove < wide, "the groove is as deep as the stile is wide")?;
    let (overall, low) = (opening + 2.0 * wide, wide.max(opening / 5.0));
    let right = wide + opening;
    let mut picture = Picture::new((0.0, 0.0), (overall, low));
    for (from, to, outer) in [(0.0, wide, 0.0), (right, overall, overall)] {
        picture.outline(&boxed((from, 0.0), (to, low)));
        picture.broken((from, 0.0), (to, 0.0));
        picture.broken((from, low), (to, low));
        if known.is_none() {
            picture.broken((outer, 0.0), (outer, low));
        }
    }
    for x in [wide - inside, right + inside] {
        picture.hidden((x, 0.0), (x, low));
    }
    picture.broken((wide, 0.0), (right, 0.0));
    picture.broken((wide, low), (right, low));
    let mut mark = |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
    mark(
        Edge::Top,
        [0.0; 2],
        "panel_width",
        [wide - inside, right + inside],
    );
    mark(Edge::Bottom, [low; 2], "opening", [wide, right]);
    mark(Edge::Bottom, [low; 2], "stile", [0.0, wide]);
    let of_stile = match known {
        Some(_) => format!("{} wide", measures.shown("stile")),
        None => "broken off".to_owned(),
    };
    let says = format!(
        "The frame from the front: stiles {of_stile}, an opening of {} between them. The \
         panel, {} wide, reaches behind the edges of both stiles, dashed.",
        measures.shown("opening"),
        measures.shown("panel_width")
    );
    let mut views = finish(vec![(picture, "Together, from the front", says)]);
    let deep = groove * 1.6;
    let mut edge = Picture::new((-deep, 0.0), (groove, groove * 2.0));
    let corners = boxed((-deep, 0.0), (0.0, groove * 2.0));
    edge.outline(&corners);
    edge.broken(corners[0], (groove, 0.0));
    edge.broken(corners[3], (groove, groove * 2.0));
    edge.broken(corners[0], corners[3]);
    edge.hidden((-groove, 0.0), (-groove, groove * 2.0));
    edge.hidden((-inside, 0.0), (-inside, groove * 2.0));
    measures.mark(&mut edge, Edge::Top, [0.0; 2], "depth", [-groove, 0.0]);
    let says = format!(
        "The inner edge of the left stile, larger: the bottom of the groove, {} deep, and the edge \
         of the panel, both dashed; between them is room for the panel to swell.",
        measures.shown("depth")
    );
    views.extend(finish(vec![(edge, "Edge of the panel, larger", says)]));
    Ok(views)
}
