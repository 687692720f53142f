//! Sizes of a drawer's parts: what is left of the opening for each.
//!
//! Letters and datums: the sketch of `drawer.rs`. Derivation (`D`): the drawer is the opening less
//! its play, B = W - x and E = H - y; its sides end z before the back of the opening, and begin
//! behind the wood that a lapped dovetail or a rebate leaves of the front, so that from face to
//! rear it is D - z + q deep. What lies between the sides is B - 2 t; the bottom reaches the
//! grooves' floors less its play, which is less than a groove is deep, so that the bottom stays in
//! both; the back reaches the floors of its housings or, dovetailed, the sides' outer faces.
//! The bottom slides in under the back, whose lower edge is level with the groove's upper wall.

use super::Refusal;
use super::figure::{about, at_least, at_most, under};
use crate::units::Length;

/// The refusal of sides that fill the drawer.
pub(super) const NO_INSIDE: &str = "the sides leave no inside between them";
/// The refusal of a drawer of no depth.
pub(super) const NO_DEPTH: &str = "front and back leave no inside between them";
/// The refusal of a back of no height.
pub(super) const NO_BACK: &str = "no height is left for the back";
/// The refusal of a lap that is the whole front.
pub(super) const NO_JOINT: &str = "the lap leaves no front for the joint";
/// The refusal of a drawer that stands out of its opening.
pub(super) const STANDS_OUT: &str = "the drawer is deeper than its opening";
/// The refusal of a groove that comes out at the other face.
pub(super) const THROUGH: &str = "the groove for the bottom goes through a part";
/// The refusal of a housing that cuts the side in two.
pub(super) const LET_IN: &str = "the back is let in over half of the side";
/// The refusal of a bottom that drags.
pub(super) const DRAGS: &str = "the bottom stands out below the sides";
/// The refusal of a bottom with so much play that it may slip out of a groove.
pub(super) const SLIPS_OUT: &str = "the bottom may slip out of a groove";

/// How front and sides are joined.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FrontCorner {
    /// Through dovetail or comb: the sides run to the face of the front.
    Through,
    /// Lapped dovetail or rebate: so much of the front covers the sides' ends.
    Lapped(Length),
}

/// What the drawer is smaller than its opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Play {
    /// Across, at both sides together.
    pub width: Length,
    /// In height.
    pub height: Length,
}

/// What a drawer is worked out from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Drawer {
    /// Opening, from side to side.
    pub width: Length,
    /// Opening, in height.
    pub height: Length,
    /// Opening, from the front edge to what stops the drawer.
    pub depth: Length,
    /// What the drawer is smaller than the opening.
    pub play: Play,
    /// What the sides are shorter than the opening is deep.
    pub short: Length,
    /// Thickness of the front.
    pub front: Length,
    /// Thickness of each side.
    pub side: Length,
    /// Thickness of the back.
    pub back: Length,
    /// Thickness of the bottom.
    pub bottom: Length,
    /// How front and sides are joined.
    pub corner: FrontCorner,
    /// Depth of the groove for the bottom in sides and front.
    pub groove: Length,
    /// Width of the groove.
    pub groove_width: Length,
    /// From the lower edges to the groove's lower wall.
    pub groove_up: Length,
    /// What the bottom is smaller than from groove to groove.
    pub bottom_play: Length,
    /// How deep the back lies in each side.
    pub back_let: Length,
    /// From the sides' rear ends to the back's rear face.
    pub back_in: Length,
    /// The back's upper edge below that of the sides.
    pub back_drop: Length,
}

/// Sizes of a drawer's parts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DrawerPlan {
    /// Front from end to end.
    pub front_length: Length,
    /// Height of front and sides.
    pub front_height: Length,
    /// Side from end to end.
    pub side_length: Length,
    /// Back from end to end.
    pub back_length: Length,
    /// Height of the back.
    pub back_height: Length,
    /// Bottom from side to side, along its grain.
    pub bottom_length: Length,
    /// Bottom from front to rear, across its grain.
    pub bottom_width: Length,
    /// Between the sides.
    pub inside_width: Length,
    /// Between front and back.
    pub inside_depth: Length,
}

impl Drawer {
    /// Works out the parts.
    ///
    /// # Errors
    /// A refusal with figures when a part would be nothing or the drawer would not go in.
    pub fn work_out(&self) -> Result<DrawerPlan, Refusal> {
        let front_length = self.width - self.play.width;
        let front_height = self.height - self.play.height;
        let inside_width = front_length - self.side - self.side;
        let lap = self.lap();
        let to_rear = self.depth - self.short + lap;
        let inside_depth = to_rear - self.front - self.back - self.back_in;
        let under_back = self.groove_up + self.groove_width;
        let back_height = front_height - under_back - self.back_drop;
        self.check_corner(lap)?;
        self.check_inside(front_length, inside_width, inside_depth)?;
        self.check_bottom()?;
        self.check_back(back_height)?;
        Ok(DrawerPlan {
            front_length,
            front_height,
            side_length: self.depth - self.short,
            back_length: inside_width + self.back_let + self.back_let,
            back_height,
            bottom_length: inside_width + self.groove + self.groove - self.bottom_play,
            bottom_width: self.groove + inside_depth + self.back,
            inside_width,
            inside_depth,
        })
    }

    fn lap(&self) -> Length {
        match self.corner {
            FrontCorner::Through => Length::ZERO,
            FrontCorner::Lapped(lap) => lap,
        }
    }

    fn check_corner(&self, lap: Length) -> Result<(), Refusal> {
        if lap >= self.front {
            return Err(Refusal::new(
                NO_JOINT,
                format!("lap {}, front {}", about(lap), about(self.front)),
                format!("lap {}", under(self.front)),
                "Leave 6 mm (1/4 in) of the front, or join the corner through it.",
            ));
        }
        if lap > self.short {
            return Err(Refusal::new(
                STANDS_OUT,
                format!("lap {}, short {}", about(lap), about(self.short)),
                format!("lap {}", at_most(self.short)),
                "Leave less lap, or make the sides shorter.",
            ));
        }
        Ok(())
    }

    fn check_inside(&self, over: Length, width: Length, depth: Length) -> Result<(), Refusal> {
        if width <= Length::ZERO {
            return Err(Refusal::new(
                NO_INSIDE,
                format!("side {}", about(self.side)),
                format!("side {}", under(over.times(0.5))),
                "Take thinner sides, or measure the opening again.",
            ));
        }
        if depth <= Length::ZERO {
            return Err(Refusal::new(
                NO_DEPTH,
                format!("depth {}", about(self.depth)),
                format!("depth over {}", about(self.depth - depth)),
                "Take thinner stock for front and back, or measure the opening again.",
            ));
        }
        Ok(())
    }

    fn check_bottom(&self) -> Result<(), Refusal> {
        let thinnest = self.side.min(self.front);
        if self.groove >= thinnest {
            return Err(Refusal::new(
                THROUGH,
                format!("groove {}", about(self.groove)),
                format!("groove {}", at_most(thinnest.times(0.5))),
                "Cut the groove half as deep as its part is thick, or glue on grooved slips.",
            ));
        }
        let below = self.bottom - self.groove_width;
        if below > self.groove_up {
            return Err(Refusal::new(
                DRAGS,
                format!("groove_up {} for this bottom", about(self.groove_up)),
                format!("groove_up {}", at_least(below)),
                "Set the groove higher, or take a thinner bottom.",
            ));
        }
        if self.bottom_play >= self.groove {
            return Err(Refusal::new(
                SLIPS_OUT,
                format!("bottom_play {}", about(self.bottom_play)),
                format!("bottom_play {}", under(self.groove)),
                "Cut the bottom longer, or the grooves deeper.",
            ));
        }
        Ok(())
    }

    fn check_back(&self, height: Length) -> Result<(), Refusal> {
        let half = self.side.times(0.5);
        if self.back_let > half && self.back_let != self.side {
            return Err(Refusal::new(
                LET_IN,
                format!("back_let {}", about(self.back_let)),
                format!(
                    "back_let {}, or the same as side for a dovetail through it",
                    at_most(half)
                ),
                "House the back less deep, or dovetail it through the sides.",
            ));
        }
        if height <= Length::ZERO {
            return Err(Refusal::new(
                NO_BACK,
                format!("height {}", about(self.height)),
                format!("height over {}", about(self.height - height)),
                "Set the groove lower, drop the back less, or measure the opening again.",
            ));
        }
        Ok(())
    }
}
