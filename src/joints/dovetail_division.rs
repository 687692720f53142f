//! Dovetails across the width of a board: tails, sockets between them, half sockets at the edges.
//!
//! Sketch, letters and worked example: `dovetails.rs`. Datum: marks from the edge of the board.
//!
//! Derivation (`D`, joinery 3.9; equal division with half sockets at the edges after Noyes,
//! p. 165). At the base line n tails r u and n sockets u fill W: u = W/(n (r + 1)), v = r u. Over
//! the tail's length L each flank leans by L tan a, so at the end the socket is u - 2 L tan a and
//! the tail v + 2 L tan a. A half socket is half of a socket.
//!
//! Limits: the saw passes the socket at its narrow end (Griffith p. 103), a half socket there no
//! less than 1.5 mm (`CP`); tails to 44.45 mm (1 3/4 in) and to 4 times the socket (Noyes p. 165);
//! no slope steeper than 1 in 6 (Fairham p. 134).

use super::Refusal;
use super::dovetail_rules::steepest;
use super::figure::{about, at_least};
use crate::units::{Angle, Length};

/// Refused: what cuts the sockets does not get in.
pub(super) const KERF_STUCK: &str = "the kerf does not pass the socket at its narrow end";
/// Refused: half pins that would break off.
pub(super) const HALF_THIN: &str = "the half sockets at the edges are too narrow";

/// First words of the warning of a wide tail.
pub(super) const TAIL_WIDE: &str = "Tail over 44.45 mm (1.750 in)";
/// First words of the warning of thin pins.
pub(super) const RATIO_HIGH: &str = "Tail over 4 times the socket";
/// First words of the warning of a steep slope.
pub(super) const SLOPE_STEEP: &str = "Slope steeper than 1 in 6";

/// The widest tail, 1 3/4 in (Noyes, p. 165).
const TAIL_MOST: Length = Length::nm(44_450_000);
/// The largest tail for its socket (Noyes, p. 165).
const RATIO_MOST: f64 = 4.0;

/// What dovetails are divided from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dovetails {
    /// Width of the boards.
    pub width: Length,
    /// Base line of the tails from the end.
    pub tail_length: Length,
    /// Slope from the square line.
    pub angle: Angle,
    /// Number of tails, at least one.
    pub tails: i64,
    /// Tail to socket at the base line.
    pub ratio: f64,
}

/// Widths of tails and sockets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DovetailsPlan {
    /// Width of the boards.
    pub width: Length,
    /// Number of tails.
    pub tails: i64,
    /// Socket at the base line.
    pub socket_wide: Length,
    /// Socket at the end.
    pub socket_narrow: Length,
    /// Tail at the end.
    pub tail_wide: Length,
    /// Tail at the base line.
    pub tail_narrow: Length,
}

impl Dovetails {
    /// Divides the width, for a saw of that kerf and half sockets no less than `half_least`.
    ///
    /// # Errors
    /// A refusal with figures when the sockets are too narrow at the end.
    pub fn work_out(&self, kerf: Length, half_least: Length) -> Result<DovetailsPlan, Refusal> {
        let parts = self.tails as f64 * (self.ratio + 1.0);
        let lean = self.lean();
        let socket_wide = self.width.times(1.0 / parts);
        let tail_narrow = self.width.times(self.ratio / parts);
        let plan = DovetailsPlan {
            width: self.width,
            tails: self.tails,
            socket_wide,
            socket_narrow: socket_wide - lean,
            tail_wide: tail_narrow + lean,
            tail_narrow,
        };
        if plan.socket_narrow < kerf {
            let is = format!("kerf {}, socket {}", about(kerf), about(plan.socket_narrow));
            return Err(self.narrow(KERF_STUCK, is, kerf));
        }
        if plan.half_socket_narrow() < half_least {
            let is = format!(
                "half_least {}, half socket {}",
                about(half_least),
                about(plan.half_socket_narrow())
            );
            return Err(self.narrow(HALF_THIN, is, half_least + half_least));
        }
        Ok(plan)
    }

    /// What both flanks of a tail lean together over its length.
    fn lean(&self) -> Length {
        self.tail_length.times(2.0 * self.angle.tan())
    }

    /// The refusal of sockets that must be `least` at the end.
    fn narrow(&self, what: &str, is: String, least: Length) -> Refusal {
        let at_base = least + self.lean();
        let tails = (self.width.per(at_base) / (self.ratio + 1.0)).floor();
        let may_be = if tails >= 1.0 {
            format!("tails at most {tails:.0}")
        } else {
            let width = at_base.times(self.ratio + 1.0);
            format!("tails 1, on a width of {}", at_least(width))
        };
        let instead = "Take fewer tails, a smaller ratio, or less slope.";
        Refusal::new(what, format!("tails {}, {is}", self.tails), may_be, instead)
    }

    /// What to beware of.
    pub(super) fn warnings(&self, plan: &DovetailsPlan) -> Vec<String> {
        let wide = (plan.tail_wide > TAIL_MOST).then(|| {
            format!(
                "{TAIL_WIDE}: {} at the end{}.",
                about(plan.tail_wide),
                self.tails_wanted()
            )
        });
        let high = (self.ratio > RATIO_MOST).then(|| {
            format!(
                "{RATIO_HIGH}: {} times; equal is strongest, 4 times the most for looks.",
                self.ratio
            )
        });
        let steep = (self.angle > steepest()).then(|| {
            format!(
                "{SLOPE_STEEP}: {:.2} deg; the corners of the tails may break off along the grain.",
                self.angle.to_degrees()
            )
        });
        [wide, high, steep].into_iter().flatten().collect()
    }

    /// How many tails would be narrow enough, in words; nothing when none would.
    fn tails_wanted(&self) -> String {
        let at_base = TAIL_MOST - self.lean();
        if at_base <= Length::ZERO {
            return String::new();
        }
        let all_tails = self.width.times(self.ratio / (self.ratio + 1.0));
        format!("; {:.0} tails are narrower", all_tails.per(at_base).ceil())
    }
}

impl DovetailsPlan {
    /// Half socket at the base line.
    pub fn half_socket_wide(&self) -> Length {
        self.socket_wide.times(0.5)
    }

    /// Half socket at the end.
    pub fn half_socket_narrow(&self) -> Length {
        self.socket_narrow.times(0.5)
    }

    /// Marks on the base line, two a tail, from the edge.
    pub fn layout(&self) -> Vec<Length> {
        self.marks(self.half_socket_wide())
    }

    /// Marks on the end, two a tail, from the edge.
    pub fn layout_end(&self) -> Vec<Length> {
        self.marks(self.half_socket_narrow())
    }

    /// Each tail's two sides, half a socket inside its equal share of the width; every mark is
    /// reckoned from the edge, so that no rounding adds up.
    fn marks(&self, half: Length) -> Vec<Length> {
        let share = |shares: i64| self.width.times(shares as f64 / self.tails as f64);
        (0..self.tails)
            .flat_map(|tail| [share(tail) + half, share(tail + 1) - half])
            .collect()
    }
}
