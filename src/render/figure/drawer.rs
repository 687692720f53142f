//! Drawer box: the four parts cut level, from above, and a side from the inside.
//!
//! Letters are those of the calculator `drawer`. Needs `front_length` (B), `front` (f), `side_thick`
//! (t), `side_length` (e), `back` (a), `back_in` (m), `inside_width` (n) and `back_tongue_length`;
//! and `side_height` (h), `back_height` (k), `groove_up` (u), `groove_width` (j). A calculation has
//! `front_lap` (q) where the front covers the ends of the sides, no `back_tongue` where the whole back
//! lies in the sides, and `inside_depth` (o). The front is at the top: the drawer lies with its face
//! away from the reader.

use super::View;
use super::measures::Measures;
use super::section::boxed;
use super::svg::{Edge, Lean, Picture, Point, finish};
use crate::diag::Fault;

pub(super) fn views(measures: &Measures<'_>) -> Result<Vec<View>, Fault> {
    let (plan, says_plan) = plan(measures)?;
    let (side, says_side) = side(measures)?;
    let mut views = finish(vec![(plan, "Together, section from above", says_plan)]);
    views.extend(finish(vec![(side, "Side, from inside", says_side)]));
    Ok(views)
}

/// What lies where in the plan: the front at the top, sides at x = 0 and x = wide.
struct Plan {
    wide: f64,
    front: f64,
    side: f64,
    /// Wood of the front before the ends of the sides.
    lap: f64,
    /// Length and thickness of the tongues of the back.
    tongue: (f64, f64),
    /// Inside, end of the tongue, rear of the back, and the rear ends of the sides.
    top: f64,
    low: f64,
    rear: f64,
    end: f64,
}

impl Plan {
    fn new(measures: &Measures<'_>) -> Result<Self, Fault> {
        let (wide, front) = (measures.mm("front_length")?, measures.mm("front")?);
        let (side, long) = (measures.mm("side_thick")?, measures.mm("side_length")?);
        let lap = measures.known("front_lap")?.unwrap_or_default();
        let (back, behind) = (measures.mm("back")?, measures.or_nothing("back_in")?);
        let between = measures.mm("inside_width")?;
        let tongue = measures.or_nothing("back_tongue_length")?;
        let thin = measures.known("back_tongue")?.unwrap_or(back);
        measures.demand(lap < front, "the lap is as thick as the front")?;
        let agrees = (wide - between - 2.0 * side).abs() < wide / 50.0;
        measures.demand(
            agrees,
            "sides and inside width do not make the front's length",
        )?;
        measures.demand(
            tongue <= side,
            "the tongues of the back come through the sides",
        )?;
        measures.demand(thin <= back, "the tongue is thicker than the back")?;
        let (end, rear) = (lap + long, lap + long - behind);
        let top = rear - back;
        measures.demand(top > front, "the back does not lie behind the front")?;
        Ok(Self {
            wide,
            front,
            side,
            lap,
            tongue: (tongue, thin),
            top,
            low: top + thin,
            rear,
            end,
        })
    }

    /// The front: over the ends of the sides, or between them.
    fn front(&self) -> Vec<Point> {
        let (wide, right) = (self.wide, self.wide - self.side);
        if self.lap <= 0.0 {
            return boxed((self.side, 0.0), (right, self.front)).to_vec();
        }
        vec![
            (0.0, 0.0),
            (wide, 0.0),
            (wide, self.lap),
            (right, self.lap),
            (right, self.front),
            (self.side, self.front),
            (self.side, self.lap),
            (0.0, self.lap),
        ]
    }

    /// A side from its outside at `x` to its inside, in the pieces that the back leaves of it.
    fn side(&self, x: f64, inner: f64) -> Vec<Vec<Point>> {
        let (deep, turn) = (self.tongue.0, (x - inner).signum());
        if deep >= self.side {
            let mut pieces = vec![boxed((x, self.lap), (inner, self.top)).to_vec()];
            if self.end > self.low {
                pieces.push(boxed((x, self.low), (inner, self.end)).to_vec());
            }
            return pieces;
        }
        let floor = inner + deep * turn;
        let mut points = vec![(x, self.lap), (inner, self.lap), (inner, self.top)];
        points.extend([(floor, self.top), (floor, self.low)]);
        if self.end > self.low {
            points.extend([(inner, self.low), (inner, self.end)]);
        }
        points.push((x, self.end));
        vec![points]
    }

    /// The back, its tongues at its inside.
    fn back(&self) -> Vec<Point> {
        let (left, right) = (self.side, self.wide - self.side);
        let tongue = self.tongue.0;
        vec![
            (left - tongue, self.top),
            (right + tongue, self.top),
            (right + tongue, self.low),
            (right, self.low),
            (right, self.rear),
            (left, self.rear),
            (left, self.low),
            (left - tongue, self.low),
        ]
    }
}

fn plan(measures: &Measures<'_>) -> Result<(Picture, String), Fault> {
    let plan = Plan::new(measures)?;
    let (wide, end) = (plan.wide, plan.end);
    let (side, right) = (plan.side, wide - plan.side);
    let mut picture = Picture::new((0.0, 0.0), (wide, end));
    picture.room((220.0, 220.0));
    picture.cut(&plan.front(), Lean::Right);
    for (x, inner) in [(0.0, side), (wide, right)] {
        for piece in plan.side(x, inner) {
            picture.cut(&piece, Lean::Left);
        }
    }
    picture.cut(&plan.back(), Lean::Right);
    let mut mark = |edge, starts, name, span| measures.mark(&mut picture, edge, starts, name, span);
    mark(Edge::Top, [0.0; 2], "front_length", [0.0, wide]);
    mark(Edge::Bottom, [end; 2], "side_thick", [0.0, side]);
    mark(Edge::Bottom, [end; 2], "inside_width", [side, right]);
    mark(Edge::Left, [0.0; 2], "side_length", [plan.lap, end]);
    mark(Edge::Right, [wide; 2], "front_lap", [0.0, plan.lap]);
    mark(Edge::Right, [wide, side], "front", [0.0, plan.front]);
    mark(Edge::Right, [right, wide], "back_in", [plan.rear, end]);
    let inside = [plan.front, plan.top];
    mark(Edge::Right, [right; 2], "inside_depth", inside);
    Ok((picture, plan_says(measures, &plan)))
}

/// The same in words.
fn plan_says(measures: &Measures<'_>, plan: &Plan) -> String {
    let shown = |name| measures.shown(name);
    let front = match plan.lap > 0.0 {
        true => format!(
            "keeps a lap of {} before the ends of the sides. The sides, {} thick and {} long, stand \
             in its rebates, {} apart.",
            shown("front_lap"),
            shown("side_thick"),
            shown("side_length"),
            shown("inside_width")
        ),
        false => format!(
            "is joined between the sides, which run to its face. They are {} thick and {} long, {} \
             apart.",
            shown("side_thick"),
            shown("side_length"),
            shown("inside_width")
        ),
    };
    let place = match plan.end > plan.rear {
        true => format!("lies {} before their rear ends", shown("back_in")),
        false => "lies flush with their rear ends".to_owned(),
    };
    let held = if measures.has("back_tongue") {
        format!(
            "; its tongues, {} thick and {} long, at its inside, stand in housings of the sides",
            shown("back_tongue"),
            shown("back_tongue_length")
        )
    } else if plan.tongue.0 > 0.0 {
        format!(
            " and reaches {} into each side",
            shown("back_tongue_length")
        )
    } else {
        " and stands between them".to_owned()
    };
    format!(
        "The drawer cut level, from above, its front at the top. The front, {} long and {} thick, \
         {front} The back, {} thick, {place}{held}.",
        shown("front_length"),
        shown("front"),
        shown("back")
    )
}

fn side(measures: &Measures<'_>) -> Result<(Picture, String), Fault> {
    let (long, high) = (measures.mm("side_length")?, measures.mm("side_height")?);
    let (up, groove) = (measures.mm("groove_up")?, measures.mm("groove_width")?);
    let back = measures.mm("back_height")?;
    let behind = measures.or_nothing("back_in")?;
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
    let place = match behind > 0.0 {
        true => format!("{} from the rear end", shown("back_in")),
        false => "flush with the rear end".to_owned(),
    };
    let says = format!(
        "A side from the inside, {} long and {} high, its front end at the left: the groove for \
         the bottom, {} wide, begins {} above the lower edge. The back, {} high, stands on the \
         bottom; its place is drawn thin, {place}.",
        shown("side_length"),
        shown("side_height"),
        shown("groove_width"),
        shown("groove_up"),
        shown("back_height")
    );
    Ok((picture, says))
}
