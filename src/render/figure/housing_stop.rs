//! Where a housing stops: the grooved board from above with the places of the cutter, and the end of
//! the shelf in it, cut level with the board's surface.
//!
//! Needs `panel` (L), `stop` (b), `cutter` (d), `length` (l) of full width, `stop_near` (L),
//! `stop_far` (L) and `stop_axis` (A) from the back edge, and `notch` (N); `set_back` (r) of the
//! shelf's front where there is one (`joinery.md` 3.6). The front edge is at the right. The housing is
//! drawn as one pass leaves it, as wide as the cutter.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::stopped_housing::slot;
use super::svg::{Edge, Lean, Picture, finish};
use crate::diag::Fault;

/// Less than this between two places, in millimetres, is not drawn.
const HAIR: f64 = 0.01;

struct Stop {
    panel: f64,
    crown: f64,
    cutter: f64,
    /// Whether the corners of the end are left as the cutter leaves them.
    round: bool,
    half: f64,
}

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (panel, crown) = (measures.mm("panel")?, measures.mm("stop_far")?);
    let (cutter, length) = (measures.mm("cutter")?, measures.mm("length")?);
    let stop = Stop {
        panel,
        crown,
        cutter,
        round: crown - length > HAIR,
        half: (cutter * 2.0).max(panel / 5.0),
    };
    let near = measures.or_nothing("stop_near")?;
    let (axis, wide) = (measures.mm("stop_axis")?, cutter / 2.0);
    let mut alone = stop.picture();
    let starts = [-stop.half, -wide];
    let mut mark = |edge, starts, name, span| measures.mark(&mut alone, edge, starts, name, span);
    mark(Edge::Top, starts, "length", [0.0, length]);
    mark(Edge::Top, [-stop.half; 2], "panel", [0.0, panel]);
    mark(Edge::Left, [0.0; 2], "cutter", [-wide, wide]);
    let starts = [stop.half, 0.0];
    mark(Edge::Bottom, starts, "stop", [panel, crown]);
    mark(Edge::Bottom, starts, "stop_near", [0.0, near]);
    mark(Edge::Bottom, starts, "stop_axis", [0.0, axis]);
    mark(Edge::Bottom, starts, "stop_far", [0.0, crown]);
    let shown = |name| measures.shown(name);
    let end = match stop.round {
        true => "left round by the cutter",
        false => "chopped square",
    };
    let says = format!(
        "The board with the housing from above, {} from its back edge at the left to its front edge \
         at the right. The housing is open at the back and, in one pass, as wide as the cutter, {}. \
         It ends {} before the front edge, its end {end}, and is {} long at its full width. When \
         the stop block meets the back edge, the near edge of the cutter is {} from the block, its \
         axis {} and its far edge {}.",
        shown("panel"),
        shown("cutter"),
        shown("stop"),
        shown("length"),
        shown("stop_near"),
        shown("stop_axis"),
        shown("stop_far")
    );
    let (together, both) = stop.together(measures)?;
    Ok(finish(vec![
        (alone, "Grooved board, from above", says),
        (together, "Together, cut level with the surface", both),
    ]))
}

impl Stop {
    /// The board and its housing.
    fn picture(&self) -> Picture {
        let half = self.half;
        let mut picture = Picture::new((0.0, -half), (self.panel, half));
        let corners = boxed((0.0, -half), (self.panel, half));
        picture.outline(&corners);
        picture.broken(corners[0], corners[1]);
        picture.broken(corners[3], corners[2]);
        let wide = self.cutter / 2.0;
        let housing = match self.round {
            true => slot(self.crown, wide, wide),
            false => boxed((0.0, -wide), (self.crown, wide)).to_vec(),
        };
        picture.outline(&housing);
        picture
    }

    fn together(&self, measures: &Measures<'_>) -> Result<(Picture, String), Fault> {
        let notch = measures.mm("notch")?;
        let set_back = measures
            .optional_or_nothing("set_back")?
            .unwrap_or_default();
        let front = self.panel - set_back;
        measures.demand(notch < front, "the notch is as long as the shelf is wide")?;
        let (end, wide) = (front - notch, self.cutter / 2.0);
        let mut picture = self.picture();
        picture.cut(&boxed((0.0, -wide), (end, wide)), Lean::Left);
        picture.phantom(&boxed((end, -wide), (front, wide)));
        let top = [-wide; 2];
        measures.mark(&mut picture, Edge::Top, top, "notch", [end, front]);
        let edges = [wide, self.half];
        measures.mark(
            &mut picture,
            Edge::Bottom,
            edges,
            "set_back",
            [front, self.panel],
        );
        let back = match set_back > 0.0 {
            true => format!(
                ", {} behind the front edge of the board",
                measures.shown("set_back")
            ),
            false => ", flush with the front edge of the board".to_owned(),
        };
        let says = format!(
            "The end of the shelf in the housing, cut level with the surface of the board: it ends \
             before the end of the housing. Over the notch, {} long from the shelf's front, the \
             shelf goes on above the surface, drawn thin{back}.",
            measures.shown("notch")
        );
        Ok((picture, says))
    }
}
