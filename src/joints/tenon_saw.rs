//! Settings for a tenon on the table saw: the fence for both cheeks, the spacer, the shoulder.
//!
//! Sketch: that of `tenon.rs`. Datum: fence distances from the fence to the blade's near side; for
//! the cheeks the rail stands on end, for the shoulders it lies flat.
//!
//! Derivation (`D`, joinery 3.7). One face to the fence: the blade leaves the nearer cheek on its
//! far side, fence a - k, and the farther one on its near side, fence a + t; a spacer between
//! fence and work that makes the one setting do for both is t + k thick. Both faces to the fence in
//! turn: T - f is cut off each, f = (T + t)/2. Shoulders: blade as high as the shoulder, fence
//! l - k, and the thickness of a stand-off block.
//!
//! Example (joinery 3.7): T 22, t 8, a 7, k 3.2, l 32: 3.8, 15, spacer 11.2, flipped 15, 28.8 mm.

use super::Refusal;
use super::cheeks::{CheekMethod, Cheeks};
use super::figure::{about, at_most};
use crate::units::Length;

pub(super) const KERF_WIDE: &str =
    "the blade is wider than the shoulder and would run in the fence";

/// Fence and blade of a table saw for one tenon.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TenonSaw {
    /// Fence for nearer and farther cheek with one face at it; none where the blade is wider than
    /// the shoulder.
    pub one_face: Option<(Length, Length)>,
    /// Spacer between fence and work that makes one setting do for both cheeks.
    pub spacer: Length,
    /// Fence with both faces at it in turn; none for a tenon out of the middle.
    pub flipped: Option<Length>,
    /// Height of the blade for the face's shoulder, the rail lying on its face.
    pub blade_height: Length,
    /// Fence for the shoulder, without a stand-off block.
    pub fence_shoulder: Length,
}

impl TenonSaw {
    /// The settings for these cheeks, a tenon of that length and a saw of that kerf.
    ///
    /// # Errors
    /// A refusal with figures when the blade is too wide for cheeks cut from one face.
    pub(super) fn new(cheeks: &Cheeks, length: Length, kerf: Length) -> Result<Self, Refusal> {
        let fence_near = cheeks.near - kerf;
        if fence_near.is_negative() && cheeks.method == CheekMethod::OneFace {
            return Err(Refusal::new(
                KERF_WIDE,
                format!("kerf {}, shoulder {}", about(kerf), about(cheeks.near)),
                format!("kerf {}", at_most(cheeks.near)),
                "Cut with both faces at the fence in turn, or make the shoulder larger.",
            ));
        }
        Ok(Self {
            one_face: (!fence_near.is_negative()).then(|| (fence_near, cheeks.far())),
            spacer: cheeks.thickness + kerf,
            flipped: cheeks
                .is_centred()
                .then(|| (cheeks.stock + cheeks.thickness).times(0.5)),
            blade_height: cheeks.near,
            fence_shoulder: length - kerf,
        })
    }
}
