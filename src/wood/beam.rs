//! Sag of a shelf or a rail under a load.
//!
//! Handbook eq. 9-2 to 9-4 (read in words, p. 9-2; A' from memory, confirmed by the table's 10 %):
//!   sag = k_b W L^3 / (E I) + k_s W L / (G A'),  I = b h^3 / 12,  A' = 5 b h / 6
//! k_b, k_s: Table 9-1 (read). G = E / 16: the least of the ratios of Table 5-1 (read at second
//! hand; sugar maple), so the most sag by shear.
//!
//! A table's E holds the shear of its test, at a span of 14 depths: with it the shear term is
//! counted already, and 1.1 E is the bending alone (table's footnote, read at second hand). For a
//! slender shelf E without the term is right, for a short or a clamped one 1.1 E with it; the
//! larger sag of the two is taken, so that there is no jump between them.

use crate::units::Length;

/// E of bending alone over the E of the tables.
const WITHOUT_SHEAR: f64 = 1.1;
/// E over G.
const STIFFER_THAN_SHEAR: f64 = 16.0;

/// How the ends are held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ends {
    /// Both lie on supports that let them turn.
    Simple,
    /// Both are held so that they cannot turn.
    Clamped,
    /// One is held so that it cannot turn, the other is free.
    Cantilever,
}

/// Where the load is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Placed {
    /// Evenly over the whole span.
    Spread,
    /// At one point: the middle, of a cantilever the free end.
    Point,
}

/// A shelf or a rail as a beam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beam {
    /// Front to back.
    pub width: Length,
    /// Size in the direction of the load.
    pub thickness: Length,
    /// Modulus of elasticity along the grain as tables give it, in gigapascals.
    pub modulus_gpa: f64,
    /// How the ends are held.
    pub ends: Ends,
    /// Where the load is.
    pub placed: Placed,
}

/// How far a beam bends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sag {
    /// Down from the straight line, where it is most.
    pub most: Length,
    /// Whether the way with the shear term gave it.
    pub with_shear: bool,
}

impl Beam {
    /// The factors of bending and shear, k_b and k_s.
    fn factors(&self) -> (f64, f64) {
        match (self.ends, self.placed) {
            (Ends::Simple, Placed::Spread) => (5.0 / 384.0, 1.0 / 8.0),
            (Ends::Clamped, Placed::Spread) => (1.0 / 384.0, 1.0 / 8.0),
            (Ends::Cantilever, Placed::Spread) => (1.0 / 8.0, 1.0 / 2.0),
            (Ends::Simple, Placed::Point) => (1.0 / 48.0, 1.0 / 4.0),
            (Ends::Clamped, Placed::Point) => (1.0 / 192.0, 1.0 / 4.0),
            (Ends::Cantilever, Placed::Point) => (1.0 / 3.0, 1.0),
        }
    }

    /// Sag at once under a load in newtons, its own weight within it.
    pub fn sag(&self, span: Length, load_newtons: f64) -> Sag {
        let (bending, shear) = self.factors();
        let (span, width, depth) = (span.to_mm(), self.width.to_mm(), self.thickness.to_mm());
        let modulus = self.modulus_gpa * 1e3;
        let second_moment = width * depth * depth * depth / 12.0;
        let shear_area = 5.0 * width * depth / 6.0;
        let shear_modulus = modulus * WITHOUT_SHEAR / STIFFER_THAN_SHEAR;
        let by_table = bending * load_newtons * span * span * span / (modulus * second_moment);
        let by_shear = shear * load_newtons * span / (shear_modulus * shear_area);
        let by_parts = by_table / WITHOUT_SHEAR + by_shear;
        Sag {
            most: Length::mm(by_table.max(by_parts)),
            with_shear: by_parts > by_table,
        }
    }

    /// The longest span that sags no more than `most`, for a load of so many newtons on `span`:
    /// a spread load is as heavy on each metre of any other span, a load at a point stays.
    pub fn span_most(&self, span: Length, load_newtons: f64, most: Length) -> Length {
        let load = |other: Length| match self.placed {
            Placed::Spread => load_newtons * other.per(span),
            Placed::Point => load_newtons,
        };
        let sags_too_much = |other| self.sag(other, load(other)).most > most;
        let (mut good, mut bad) = (0, Length::MOST.to_nm());
        while bad - good > 1 {
            let middle = good + (bad - good) / 2;
            if sags_too_much(Length::nm(middle)) {
                bad = middle;
            } else {
                good = middle;
            }
        }
        Length::nm(good)
    }
}
