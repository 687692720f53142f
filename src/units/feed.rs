//! Feed: how fast the work passes the cutter, in metres a minute.

/// A feed rate, in metres a minute.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Feed(f64);

impl Feed {
    /// So many metres a minute.
    pub const fn metres_per_minute(feed: f64) -> Self {
        Self(feed)
    }

    /// The metres a minute.
    pub const fn to_metres_per_minute(self) -> f64 {
        self.0
    }
}
