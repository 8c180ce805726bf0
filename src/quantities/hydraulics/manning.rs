//! Even flow in pipes and channels, by Manning's formula.
//!
//! V = R^(2/3)·S^(1/2) / n, in metres and seconds: R the area of the water
//! over the length that it wets, S the slope.

use std::f64::consts::{PI, TAU};

/// The section of a flow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Section {
    /// The area of the water, in m².
    pub area_m2: f64,
    /// The length of wall and bottom that it wets, in metres.
    pub wetted_m: f64,
}

impl Section {
    /// The hydraulic radius, in metres; 0 where there is no water.
    pub fn radius(&self) -> f64 {
        match self.wetted_m > 0.0 {
            true => self.area_m2 / self.wetted_m,
            false => 0.0,
        }
    }

    /// How fast water runs in it, in m/s.
    pub fn velocity(&self, n: f64, slope: f64) -> f64 {
        self.radius().powf(2.0 / 3.0) * slope.max(0.0).sqrt() / n
    }

    /// How much runs in it, in m³/s.
    pub fn flow(&self, n: f64, slope: f64) -> f64 {
        self.area_m2 * self.velocity(n, slope)
    }

    /// The slope that so much water wants in it.
    pub fn slope(&self, n: f64, flow: f64) -> f64 {
        let velocity = flow / self.area_m2;
        (velocity * n).powi(2) / self.radius().powf(4.0 / 3.0)
    }
}

/// A round pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pipe {
    /// Its inner diameter, in metres.
    pub bore_m: f64,
    /// Manning's n.
    pub n: f64,
    /// How it falls.
    pub slope: f64,
}

impl Pipe {
    /// The section of the water where it is so deep.
    pub fn section(&self, depth_m: f64) -> Section {
        let filled = (depth_m / self.bore_m).clamp(0.0, 1.0);
        // The angle at the centre over the water's width.
        let angle = match filled {
            1.0 => TAU,
            _ => 2.0 * (1.0 - 2.0 * filled).acos(),
        };
        Section {
            area_m2: self.bore_m.powi(2) / 8.0 * (angle - angle.sin()),
            wetted_m: self.bore_m / 2.0 * angle,
        }
    }

    /// What it carries when it runs full, not under pressure, in m³/s.
    pub fn full(&self) -> f64 {
        let radius = self.bore_m / 2.0;
        let section = Section {
            area_m2: PI * radius.powi(2),
            wetted_m: TAU * radius,
        };
        section.flow(self.n, self.slope)
    }

    /// What it carries where the water is so deep, in m³/s.
    pub fn part_full(&self, depth_m: f64) -> f64 {
        self.section(depth_m).flow(self.n, self.slope)
    }

    /// How deep so much water runs in it, in metres: the lesser of two depths
    /// where there are two. `None` if it carries that only under pressure.
    pub fn depth(&self, flow: f64) -> Option<f64> {
        (flow <= self.full()).then(|| {
            // It carries what it does when full at 82 % of its height too.
            root(0.82 * self.bore_m, |depth| self.part_full(depth) >= flow)
        })
    }
}

/// A channel with a flat bottom and upright sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rectangle {
    /// Its clear width, in metres.
    pub width_m: f64,
    /// Manning's n.
    pub n: f64,
    /// How its bottom falls.
    pub slope: f64,
}

impl Rectangle {
    /// The section of the water where it is so deep.
    pub fn section(&self, depth_m: f64) -> Section {
        let depth = depth_m.max(0.0);
        Section {
            area_m2: self.width_m * depth,
            wetted_m: self.width_m + 2.0 * depth,
        }
    }

    /// What runs in it evenly so deep, in m³/s.
    pub fn flow(&self, depth_m: f64) -> f64 {
        self.section(depth_m).flow(self.n, self.slope)
    }

    /// How deep so much water runs in it evenly, in metres; `None` if its
    /// bottom is level.
    pub fn depth(&self, flow: f64) -> Option<f64> {
        let carries = |depth: f64| self.flow(depth) >= flow;
        let mut depths = (0..40).map(|doubled| self.width_m * 2f64.powi(doubled));
        let deepest = depths.find(|depth| carries(*depth))?;
        Some(root(deepest, carries))
    }
}

/// The least depth, up to `deepest`, at which something holds that holds at
/// every greater one.
pub(super) fn root(deepest: f64, holds: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (0.0, deepest);
    // Each halving gives a bit of the answer.
    for _ in 0..53 {
        let middle = (low + high) / 2.0;
        match holds(middle) {
            true => high = middle,
            false => low = middle,
        }
    }
    high
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn pipe(bore_m: f64, slope: f64) -> Pipe {
        Pipe {
            bore_m,
            n: 0.011,
            slope,
        }
    }

    #[test]
    fn nothing_runs_where_nothing_can() {
        assert_eq!(pipe(0.1, 0.0).full(), 0.0);
        assert_eq!(pipe(0.1, -0.01).full(), 0.0);
        assert_eq!(pipe(0.1, 0.01).part_full(0.0), 0.0);
        assert_eq!(pipe(0.1, 0.01).part_full(-1.0), 0.0);
        let level = Rectangle {
            width_m: 0.1,
            n: 0.011,
            slope: 0.0,
        };
        assert_eq!(level.depth(0.001), None);
    }

    #[test]
    fn a_pipe_that_is_filled_runs_as_one_that_is_full() {
        let own = pipe(0.103, 0.0125);
        assert!((own.part_full(0.103) - own.full()).abs() < 1e-12);
        assert!((own.part_full(0.0515) - own.full() / 2.0).abs() < 1e-12);
        assert_eq!(own.depth(own.full() * 1.001), None);
        // Almost full a round pipe carries more than full.
        assert!(own.part_full(0.095) > own.full());
    }

    proptest! {
        #[test]
        fn the_depth_of_a_flow_gives_the_flow(
            bore in 0.05..0.6f64, slope in 1e-3..0.1f64, share in 0.01..1.0f64,
        ) {
            let own = pipe(bore, slope);
            let flow = own.full() * share;
            let depth = own.depth(flow).unwrap();
            prop_assert!((own.part_full(depth) - flow).abs() <= 1e-9 * own.full());
            let open = Rectangle { width_m: bore, n: 0.013, slope };
            let depth = open.depth(flow).unwrap();
            prop_assert!((open.flow(depth) - flow).abs() <= 1e-9 * own.full());
        }

        #[test]
        fn a_wider_or_steeper_pipe_carries_more(
            bore in 0.05..0.6f64, slope in 0.0..0.1f64, more in 1.001..3.0f64,
        ) {
            let own = pipe(bore, slope);
            prop_assert!(pipe(bore * more, slope).full() >= own.full());
            prop_assert!(pipe(bore, slope * more).full() >= own.full());
        }
    }
}
