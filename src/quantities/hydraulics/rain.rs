//! Rain, and how fast it comes off a surface.

/// A design storm: so deep, in so long.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Storm {
    /// How deep, in metres.
    pub depth_m: f64,
    /// How long, in seconds.
    pub duration_s: f64,
}

impl Storm {
    /// How hard it rains, in metres a second.
    pub fn rate(&self) -> f64 {
        self.depth_m / self.duration_s
    }

    /// The same storm made fiercer by a share, for a changing climate.
    pub fn raised(self, share: f64) -> Storm {
        Storm {
            depth_m: self.depth_m * (1.0 + share),
            ..self
        }
    }
}

/// The flow off surfaces of so much weighted area, each area times its
/// runoff, under rain of so many metres a second: the rational method,
/// Q = C·i·A, in m³/s.
///
/// It takes the rain to last until the farthest drop has come, which a patio
/// sees to in minutes.
pub fn peak_flow(weighted_m2: f64, rate: f64) -> f64 {
    weighted_m2 * rate
}
