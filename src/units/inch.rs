//! Inch fractions as text: `1 1/2`, `23/32`, `1-1/2`, `1½`; and back.
//!
//! Only the parts that a rule has are read: halves to hundred-and-twenty-eighths.

/// A number of the shop as an exact ratio of whole numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Ratio {
    pub(super) over: i128,
    pub(super) under: i128,
}

impl Ratio {
    pub(super) fn plus(self, other: Self) -> Self {
        Self {
            over: self.over * other.under + other.over * self.under,
            under: self.under * other.under,
        }
    }

    /// This ratio of `unit`, to the nearest whole, halves away from zero.
    pub(super) fn of(self, unit: i128) -> i128 {
        let (over, half) = (self.over * unit, self.under / 2);
        if over < 0 {
            (over - half) / self.under
        } else {
            (over + half) / self.under
        }
    }
}

/// Unicode fraction signs and what they stand for.
pub(super) const SIGNS: &[(char, i128, i128)] = &[
    ('½', 1, 2),
    ('¼', 1, 4),
    ('¾', 3, 4),
    ('⅛', 1, 8),
    ('⅜', 3, 8),
    ('⅝', 5, 8),
    ('⅞', 7, 8),
];

/// Whether a rule has parts of this size.
pub(super) fn is_rule_part(under: i128) -> bool {
    matches!(under, 2 | 4 | 8 | 16 | 32 | 64 | 128)
}

/// `parts` parts of `1/under` inch as a rule is read: `1 1/2`, `7/64`, `0`.
pub(super) fn fraction_text(parts: i64, under: i64) -> String {
    let sign = if parts < 0 { "-" } else { "" };
    let (whole, mut over, mut under) = (parts.abs() / under, parts.abs() % under, under);
    while over % 2 == 0 && over > 0 {
        (over, under) = (over / 2, under / 2);
    }
    match (whole, over) {
        (whole, 0) => format!("{sign}{whole}"),
        (0, over) => format!("{sign}{over}/{under}"),
        (whole, over) => format!("{sign}{whole} {over}/{under}"),
    }
}
