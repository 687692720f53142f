//! What tongue, bridle and tenon share: clearance, and how the two cheeks of what enters are cut.
//!
//! Three ways, with the effect of one unit of error of the setting on the thickness t (`D`, joinery
//! 3.7; T: stock): each cheek cut in from its own face by s, t = T - 2 s; both cheeks from one face,
//! a and b from it, t = b - a whatever T is; both faces in turn to the fence of a table saw, the
//! waste outside the blade at f, t = 2 f - T. So one face counts an error once, two faces twice,
//! and thicker stock makes t thicker in the first way, thinner in the last.

use super::figure::{about, under};
use super::fit::{Cause, Slips};
use super::{Fit, Input, Origin, Refusal};
use crate::units::Length;

/// The clearance, c.
pub(super) const CLEARANCE: Input = Input::length(
    "clearance",
    "c",
    ("-0.5 mm", "2 mm"),
    "Opening less what enters it; plus is loose",
)
.usual("0 mm");

/// First words of the warning of a thin wall beside an opening in the thickness.
pub(super) const THIN_WALL: &str = "Wall beside the opening under a quarter of the stock";

/// The warning of a wall beside the opening that is under a quarter of the stock: openings are a
/// quarter to a third of it (reference joinery 2.7); that walls are no thinner is common practice.
pub(super) fn thin_wall(wall: Length, stock: Length) -> Option<String> {
    (wall.times(4.0) < stock).then(|| format!("{THIN_WALL}: {} of {}.", about(wall), about(stock)))
}

/// A third of a length, never more.
pub(super) fn third(length: Length) -> Length {
    Length::nm(length.to_nm() / 3)
}

/// What enters an opening of that width.
///
/// # Errors
/// The refusal `what` when the clearance leaves nothing of it.
pub(super) fn entering(what: &str, opening: Length, clearance: Length) -> Result<Length, Refusal> {
    if clearance >= opening {
        return Err(Refusal::new(
            what,
            format!("clearance {}", about(clearance)),
            under(opening),
            "Give less clearance, or make the opening wider.",
        ));
    }
    Ok(opening - clearance)
}

/// How far what enters an opening of that depth reaches into it.
///
/// # Errors
/// The refusal `what` when the gap at its end leaves nothing of it.
pub(super) fn reach(what: &str, depth: Length, end_gap: Length) -> Result<Length, Refusal> {
    if end_gap >= depth {
        return Err(Refusal::new(
            what,
            format!("end_gap {}", about(end_gap)),
            under(depth),
            "Leave less gap, or cut deeper.",
        ));
    }
    Ok(depth - end_gap)
}

/// How the cheeks are cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CheekMethod {
    /// Each cheek cut in from its own face: router table, the faces down on it in turn.
    OwnFaces,
    /// Both cheeks cut with the same face at the fence.
    OneFace,
    /// Table saw: both faces in turn at the fence, the waste outside the blade.
    Flipped,
}

/// Two cheeks and the opening that they enter.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cheeks {
    /// Thickness of the stock.
    pub(super) stock: Length,
    /// From the face to the nearer cheek.
    pub(super) near: Length,
    /// From cheek to cheek.
    pub(super) thickness: Length,
    /// Width of the opening.
    pub(super) opening: Length,
    /// How they are cut.
    pub(super) method: CheekMethod,
}

impl Cheeks {
    /// From the face to the farther cheek.
    pub(super) fn far(&self) -> Length {
        self.near + self.thickness
    }

    /// Whether one setting does for both faces, to the nanometre that a half may be off.
    pub(super) fn is_centred(&self) -> bool {
        (self.stock - self.far() - self.near).abs() <= Length::nm(2)
    }

    /// What enters less its opening, in mm.
    fn fit_mm(&self, slips: &Slips) -> f64 {
        let stock = self.stock.to_mm() + slips.stock;
        let (near, far) = (self.near.to_mm(), self.far().to_mm());
        let opening = self.opening.to_mm() - slips.cutter;
        let (near, far) = match self.method {
            CheekMethod::OwnFaces => {
                let from_back = self.stock.to_mm() - far;
                let both = slips.exposure;
                (
                    near + both + slips.near,
                    stock - (from_back + both + slips.far),
                )
            }
            CheekMethod::OneFace => (near + slips.near + slips.kerf, far + slips.far),
            CheekMethod::Flipped => (stock - (far + slips.far), far + slips.far),
        };
        far - near - opening
    }

    /// The fit, and what each error does to it.
    pub(super) fn fit(&self) -> Fit {
        let own: &[Cause] = match self.method {
            CheekMethod::OwnFaces if self.is_centred() => OWN_FACES,
            CheekMethod::OwnFaces => OWN_FACES_APART,
            CheekMethod::OneFace => ONE_FACE,
            CheekMethod::Flipped => FLIPPED,
        };
        Fit::of(SHARED.iter().chain(own), |slips| self.fit_mm(slips))
    }
}

const SHARED: &[Cause] = &[
    Cause("stock thicker than measured", Origin::Measuring, |slips| {
        &mut slips.stock
    }),
    Cause(
        "opening narrower than its figure",
        Origin::Diameter,
        |slips| &mut slips.cutter,
    ),
];

const OWN_FACES: &[Cause] = &[Cause(
    "both faces cut deeper at one setting",
    Origin::Height,
    |slips| &mut slips.exposure,
)];

const OWN_FACES_APART: &[Cause] = &[
    Cause("the face cut deeper", Origin::Height, |slips| {
        &mut slips.near
    }),
    Cause("the back cut deeper", Origin::Height, |slips| {
        &mut slips.far
    }),
];

const ONE_FACE: &[Cause] = &[
    Cause(
        "fence farther off for the nearer cheek",
        Origin::Fence,
        |slips| &mut slips.near,
    ),
    Cause(
        "fence farther off for the farther cheek",
        Origin::Fence,
        |slips| &mut slips.far,
    ),
    Cause(
        "nearer cheek's cut wider than its figure",
        Origin::Diameter,
        |slips| &mut slips.kerf,
    ),
];

const FLIPPED: &[Cause] = &[Cause(
    "fence farther off, both faces cut",
    Origin::Fence,
    |slips| &mut slips.far,
)];
