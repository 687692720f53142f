//! Sizes of a tenon: thickness by the thirds or by the mortise's cutter, width by the rule of the
//! source that is named, shoulders, haunch.
//!
//! Thickness: a third of the framing (Fairham pp. 82, 85; Ross p. 52; Noyes p. 164). Of pieces of
//! different thickness the mortised one rules, and the tenon is half of its stock at most (`CP`,
//! joinery 2.7). Width: five times the thickness at most (Notes on Building Construction I);
//! haunched "half the rail width, minus the groove" (Noyes p. 164), which can be read as w/2 - g or
//! (w - g)/2; a pair in a row with widths and gap equal, no gap over 75 mm or 3 in (Fairham p. 73).
//! A groove takes its depth off the tenon on that edge (Fairham pp. 89-90).

use super::cheeks::{Cheeks, entering, third};
use super::figure::{about, at_least, at_most, under};
use super::{CheekMethod, Refusal};
use crate::units::Length;

pub(super) const NO_TENON: &str = "the clearance is as wide as the mortise";
pub(super) const TOO_THICK: &str = "the mortise takes the whole thickness";
pub(super) const OFF_STOCK: &str = "the tenon does not lie inside the stock";
pub(super) const NO_WIDTH: &str = "the rail is too narrow for a tenon there";
pub(super) const HAUNCH_LONG: &str = "the haunch is as long as the tenon";
pub(super) const OFF_CENTRE: &str =
    "both faces at one fence setting make a tenon in the middle only";

/// First words of the warning of an unusual thickness.
pub(super) const UNUSUAL: &str = "Thickness outside a quarter to a half of the pieces";
/// First words of the warning of a width that is held back.
pub(super) const HELD_BACK: &str = "Width held to five times the thickness";
/// First words of the warning of a thin side shoulder.
pub(super) const THIN_SHOULDER: &str = "Side shoulder under 3 mm (1/8 in)";
/// First words of the warning of a wide gap.
pub(super) const WIDE_GAP: &str = "Gap between the tenons over 75 mm (3 in)";

const SHOULDER_LEAST: Length = Length::nm(3_000_000);
/// Under this there is nothing to cut (own limit, common practice).
const WIDTH_LEAST: Length = Length::nm(1_000_000);
const GAP_MOST: Length = Length::nm(75_000_000);

/// How the sentence "half the rail width, minus the groove" is read, for rail w and groove g.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WidthRule {
    /// w/2 - g.
    HalfLessGroove,
    /// (w - g)/2, the larger.
    HalfOfRest,
}

/// The shape of a tenon across the width of the rail.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TenonForm {
    /// One tenon between two edge shoulders.
    Plain,
    /// One tenon beside the groove, a haunch of that projection from it to the outer edge.
    Haunched(WidthRule, Length),
    /// Two in a row, widths and gap equal.
    Twin,
}

/// What the sizes of a tenon are worked out from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tenon {
    /// Thickness of the rail.
    pub stock: Length,
    /// Width of the rail.
    pub width: Length,
    /// Thickness of the mortised piece.
    pub mortised: Length,
    /// Width of the mortise.
    pub mortise: Length,
    /// Mortise less tenon; plus is loose.
    pub clearance: Length,
    /// From the face to the tenon; in the middle when none.
    pub shoulder: Option<Length>,
    /// Depth of the panel groove in the rail's inner edge; nothing without a groove.
    pub groove: Length,
    /// Least shoulder at each edge.
    pub edge: Length,
    /// Length of the tenon.
    pub length: Length,
    /// Its shape across the width.
    pub form: TenonForm,
    /// How its cheeks are cut.
    pub method: CheekMethod,
}

/// Sizes of a tenon.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TenonPlan {
    /// Thickness of the tenon.
    pub thickness: Length,
    /// From the face to the tenon.
    pub shoulder_face: Length,
    /// From the tenon to the back.
    pub shoulder_back: Length,
    /// Width of the tenon; of each of a pair.
    pub width: Length,
    /// Between the tenons of a pair.
    pub gap: Option<Length>,
    /// From the rail's inner, grooved edge to the tenon.
    pub edge_inner: Length,
    /// From the tenon to the rail's outer edge: the haunch's width where there is one.
    pub edge_outer: Length,
    /// Whether the width would be more than five times the thickness.
    pub is_held_back: bool,
}

/// The mortise that the rule gives: a third of the mortised piece, at most half of the rail.
pub fn mortise_by_rule(stock: Length, mortised: Length) -> Length {
    third(mortised).min(Length::nm(stock.to_nm() / 2))
}

impl Tenon {
    /// Works out the sizes.
    ///
    /// # Errors
    /// A refusal with figures when thickness, width or haunch do not come out, or the method
    /// cannot make the tenon there.
    pub fn work_out(&self) -> Result<TenonPlan, Refusal> {
        let cheeks = self.cheeks()?;
        let (thickness, shoulder_face) = (cheeks.thickness, cheeks.near);
        self.refuse_haunch()?;
        let inner = match self.form {
            TenonForm::Haunched(..) => self.groove,
            TenonForm::Plain | TenonForm::Twin => self.groove.max(self.edge),
        };
        let wanted = self.wanted(inner)?;
        let width = wanted.min(thickness.times(5.0));
        let rest = self.width - inner - width;
        let (gap, edge_inner) = match self.form {
            TenonForm::Plain => (None, inner + (wanted - width).times(0.5)),
            TenonForm::Haunched(..) => (None, inner),
            TenonForm::Twin => (Some(rest - self.edge - width), inner),
        };
        let across = width + gap.map_or(Length::ZERO, |gap| gap + width);
        Ok(TenonPlan {
            thickness,
            shoulder_face,
            shoulder_back: self.stock - cheeks.far(),
            width,
            gap,
            edge_inner,
            edge_outer: self.width - edge_inner - across,
            is_held_back: width < wanted,
        })
    }

    /// The cheeks, within the stock and where the method can cut them.
    pub(super) fn cheeks(&self) -> Result<Cheeks, Refusal> {
        let thickness = entering(NO_TENON, self.mortise, self.clearance)?;
        let mortise_under = self
            .mortised
            .min(self.stock + self.clearance.min(Length::ZERO));
        if self.mortise >= mortise_under {
            return Err(Refusal::new(
                TOO_THICK,
                format!("cutter {}", about(self.mortise)),
                under(mortise_under),
                "Take a cutter or chisel near a third of the mortised piece.",
            ));
        }
        let middle = (self.stock - thickness).times(0.5);
        let cheeks = Cheeks {
            stock: self.stock,
            near: self.shoulder.unwrap_or(middle),
            thickness,
            opening: self.mortise,
            method: self.method,
        };
        if cheeks.far() > self.stock {
            return Err(Refusal::new(
                OFF_STOCK,
                format!("shoulder {}", about(cheeks.near)),
                at_most(self.stock - thickness),
                "Make the shoulder smaller, or the tenon thinner.",
            ));
        }
        if self.method == CheekMethod::Flipped && !cheeks.is_centred() {
            return Err(Refusal::new(
                OFF_CENTRE,
                format!("shoulder {}", about(cheeks.near)),
                about(middle),
                "Put the tenon in the middle, or cut both cheeks from one face.",
            ));
        }
        Ok(cheeks)
    }

    fn refuse_haunch(&self) -> Result<(), Refusal> {
        match self.form {
            TenonForm::Haunched(_, haunch) if haunch >= self.length => Err(Refusal::new(
                HAUNCH_LONG,
                format!("haunch {}", about(haunch)),
                under(self.length),
                "Make the haunch shorter: as the groove is deep, or 12 to 25 mm without one.",
            )),
            _ => Ok(()),
        }
    }

    /// The width that form and rule give before it is held to five times the thickness.
    fn wanted(&self, inner: Length) -> Result<Length, Refusal> {
        let between = self.width - inner - self.edge;
        // With what is taken off the rail, and what part of the rest is the tenon.
        let (wanted, taken, parts) = match self.form {
            TenonForm::Plain => (between, inner + self.edge, 1),
            TenonForm::Twin => (third(between), inner + self.edge, 3),
            TenonForm::Haunched(WidthRule::HalfLessGroove, _) => (
                Length::nm(self.width.to_nm() / 2) - self.groove,
                self.groove + self.groove,
                2,
            ),
            TenonForm::Haunched(WidthRule::HalfOfRest, _) => (
                Length::nm((self.width - self.groove).to_nm() / 2),
                self.groove,
                2,
            ),
        };
        if wanted < WIDTH_LEAST {
            let least = taken + WIDTH_LEAST.times(f64::from(parts));
            return Err(Refusal::new(
                NO_WIDTH,
                format!("width {}, groove {}", about(self.width), about(self.groove)),
                format!("width {}", at_least(least)),
                "Make the groove less deep or the edge shoulders smaller, or take a wider rail.",
            ));
        }
        Ok(wanted)
    }

    /// One sentence for each limit that is passed.
    pub(super) fn warnings(&self, plan: &TenonPlan) -> Vec<String> {
        let thin = self.mortise.times(4.0) < self.stock.min(self.mortised);
        let half = self.mortise.times(2.0);
        let unusual = (thin || half > self.stock || half > self.mortised).then(|| {
            format!(
                "{UNUSUAL}: mortise {}, rail {}, mortised piece {}; a third is usual.",
                about(self.mortise),
                about(self.stock),
                about(self.mortised)
            )
        });
        let held_back = plan.is_held_back.then(|| {
            format!(
                "{HELD_BACK}: {}; a wider one may bend. In a wide rail make two.",
                about(plan.width)
            )
        });
        let least = plan.shoulder_face.min(plan.shoulder_back);
        let is_thin = least > Length::nm(2) && least < SHOULDER_LEAST;
        let shoulder = is_thin.then(|| {
            format!(
                "{THIN_SHOULDER}: {}; better {}, or none at all (barefaced).",
                about(least),
                at_least(SHOULDER_LEAST)
            )
        });
        let gap = plan
            .gap
            .filter(|gap| *gap > GAP_MOST)
            .map(|gap| format!("{WIDE_GAP}: {}; better {}.", about(gap), at_most(GAP_MOST)));
        [unusual, held_back, shoulder, gap]
            .into_iter()
            .flatten()
            .collect()
    }
}
