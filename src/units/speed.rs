//! Spindle speed in revolutions a minute, and rim speed in metres a second.

use super::Length;

/// A spindle speed, in revolutions a minute.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Spindle(f64);

impl Spindle {
    /// So many revolutions a minute.
    pub const fn rpm(rpm: f64) -> Self {
        Self(rpm)
    }

    /// The revolutions a minute.
    pub const fn to_rpm(self) -> f64 {
        self.0
    }
}

/// The speed of a cutter's edge, in metres a second.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct RimSpeed(f64);

impl RimSpeed {
    /// So many metres a second.
    pub const fn metres_per_second(speed: f64) -> Self {
        Self(speed)
    }

    /// The speed of a point `diameter / 2` from the axis.
    ///
    /// ```
    /// use faceside::units::{Length, RimSpeed, Spindle};
    /// // 10 in at 3450 rpm: 9032.08 ft/min (joinery handbooks' formula pi D n / 12).
    /// let rim = RimSpeed::of(Length::inches(10.0), Spindle::rpm(3450.0));
    /// assert!((rim.to_metres_per_second() - 45.88296).abs() < 1e-5);
    /// ```
    pub fn of(diameter: Length, spindle: Spindle) -> Self {
        Self(std::f64::consts::PI * diameter.to_metres() * spindle.to_rpm() / 60.0)
    }

    /// The spindle speed that gives this rim speed at `diameter`; not finite for no diameter.
    pub fn spindle_at(self, diameter: Length) -> Spindle {
        Spindle(60.0 * self.0 / (std::f64::consts::PI * diameter.to_metres()))
    }

    /// The metres a second.
    pub const fn to_metres_per_second(self) -> f64 {
        self.0
    }

    /// The feet a minute (1 ft = 0.3048 m).
    pub fn to_feet_per_minute(self) -> f64 {
        self.0 * 60.0 / 0.3048
    }
}
