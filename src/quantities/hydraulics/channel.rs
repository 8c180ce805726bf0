//! What a channel carries that gathers its water all along its length.
//!
//! Such a flow grows from nothing at the channel's head to all of it at the
//! outlet, so no formula of even flow holds for it: a level channel carries
//! water too, by a surface that falls. What pushes and what resists are
//! balanced along the channel: the specific force of the water
//! M = b·y²/2 + Q²/(g·b·y) changes by dM/dx = b·y·(S − Sf), with S the slope
//! of the bottom and Sf that of friction by Manning (Chow, Open-Channel
//! Hydraulics, 1959, spatially varied flow with increasing discharge; from
//! memory). At a free outlet the water is as deep as it is with the least
//! force for its flow, the critical depth, and from there the balance is
//! followed to the head.
//!
//! A bottom so steep that water outruns its own waves at the outlet has no
//! such surface. It runs as evenly as a flow can that grows: Manning, with
//! what the water that joins takes of the slope.

use super::GRAVITY;
use super::manning::{Rectangle, root};

/// A channel with a flat bottom and upright sides that gathers water evenly
/// along its length and lets it fall freely at its end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Channel {
    /// How long it is, in metres.
    pub length_m: f64,
    /// Its clear width, in metres.
    pub width_m: f64,
    /// Its clear depth at its head, in metres.
    pub head_m: f64,
    /// Its clear depth at its outlet, in metres.
    pub outlet_m: f64,
    /// How its bottom falls toward the outlet.
    pub slope: f64,
    /// Manning's n.
    pub n: f64,
}

/// By what a channel's flow is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Regime {
    /// By the critical depth at its outlet.
    Outlet,
    /// By its slope, which is steeper than critical.
    Steep,
}

/// What a channel carries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Carried {
    /// The flow at its outlet, in m³/s.
    pub flow: f64,
    /// By what it is held.
    pub regime: Regime,
}

/// So many stretches are followed along a channel.
const STRETCHES: u32 = 48;

/// A station along the channel.
#[derive(Debug, Clone, Copy)]
struct Station {
    /// From the head, in metres.
    x: f64,
    /// The depth of the water, in metres.
    depth: f64,
}

impl Channel {
    /// The most that it carries with its water nowhere over its top. `None`
    /// if one of its sizes is not a size, or its bottom rises.
    pub fn carries(&self) -> Option<Carried> {
        let sizes = [
            self.length_m,
            self.width_m,
            self.head_m,
            self.outlet_m,
            self.n,
        ];
        let is_channel = sizes.iter().all(|size| size.is_finite() && *size > 0.0);
        if !is_channel || !self.slope.is_finite() || self.slope < 0.0 {
            return None;
        }
        let most = self.critical_flow(self.outlet_m);
        let overflows = |flow: f64| {
            let deeper = |station: &Station| station.depth > self.clear(station.x);
            self.surface(flow).iter().any(deeper)
        };
        let held = root(most, overflows);
        if self.slope <= self.critical_slope() {
            return Some(Carried {
                flow: held,
                regime: Regime::Outlet,
            });
        }
        let stations = (1..=STRETCHES).map(|step| self.station(step));
        let even = stations.map(|x| self.even_flow(x)).fold(f64::MAX, f64::min);
        Some(Carried {
            flow: held.max(even),
            regime: Regime::Steep,
        })
    }

    /// The slope over which water that fills the outlet outruns its waves:
    /// what friction and the water that joins take of it at critical depth.
    pub fn critical_slope(&self) -> f64 {
        let filled = self.rectangle().section(self.outlet_m);
        let friction = filled.slope(self.n, self.critical_flow(self.outlet_m));
        friction + 2.0 * self.outlet_m / self.length_m
    }

    fn rectangle(&self) -> Rectangle {
        Rectangle {
            width_m: self.width_m,
            n: self.n,
            slope: self.slope,
        }
    }

    /// The clear depth so far from the head.
    fn clear(&self, x: f64) -> f64 {
        self.head_m + (self.outlet_m - self.head_m) * x / self.length_m
    }

    /// The flow whose critical depth this is.
    fn critical_flow(&self, depth: f64) -> f64 {
        self.width_m * (GRAVITY * depth.powi(3)).sqrt()
    }

    /// The depth at which so much water has the least force.
    fn critical_depth(&self, flow: f64) -> f64 {
        (flow.powi(2) / (GRAVITY * self.width_m.powi(2))).cbrt()
    }

    /// The specific force of so much water so deep, in m³.
    fn force(&self, flow: f64, depth: f64) -> f64 {
        match depth > 0.0 {
            true => {
                self.width_m * depth.powi(2) / 2.0 + flow.powi(2) / (GRAVITY * self.width_m * depth)
            }
            false => 0.0,
        }
    }

    /// The depth of slow water that has this force: the largest root of
    /// y³ − (2M/b)·y + 2Q²/(g·b²) = 0. Never less than critical.
    fn depth(&self, flow: f64, force: f64) -> f64 {
        let critical = self.critical_depth(flow);
        let third = 2.0 * force / self.width_m / 3.0;
        if third <= critical.powi(2) {
            return critical;
        }
        // At the critical depth the ratio is 1.
        let ratio = (critical / third.sqrt()).powi(3);
        2.0 * third.sqrt() * ((-ratio).clamp(-1.0, 1.0).acos() / 3.0).cos()
    }

    /// How the force changes along the channel where it is this.
    fn change(&self, flow: f64, force: f64) -> f64 {
        let depth = self.depth(flow, force);
        if depth <= 0.0 {
            return 0.0;
        }
        let friction = self.rectangle().section(depth).slope(self.n, flow);
        self.width_m * depth * (self.slope - friction)
    }

    /// The surface of so much water, from the outlet to the head.
    ///
    /// Close to a critical outlet the depth changes as the square root of the
    /// distance; stepping in that root keeps the steps' order.
    fn surface(&self, flow: f64) -> Vec<Station> {
        let at = |root: f64| self.length_m * (1.0 - root.powi(2));
        let flow_at = |x: f64| flow * x / self.length_m;
        let slope = |root: f64, force: f64| {
            self.change(flow_at(at(root)), force) * (-2.0 * self.length_m * root)
        };
        let step = 1.0 / f64::from(STRETCHES);
        let critical = self.critical_depth(flow);
        let mut force = self.force(flow, critical);
        let mut stations = vec![Station {
            x: self.length_m,
            depth: critical,
        }];
        for count in 0..STRETCHES {
            let start = f64::from(count) * step;
            // Runge and Kutta's fourth order.
            let first = slope(start, force);
            let second = slope(start + step / 2.0, force + first * step / 2.0);
            let third = slope(start + step / 2.0, force + second * step / 2.0);
            let fourth = slope(start + step, force + third * step);
            force += (first + 2.0 * second + 2.0 * third + fourth) * step / 6.0;
            let x = at(start + step);
            let own = flow_at(x);
            // Water on a bottom that is steep here is at most critical.
            force = force.max(self.force(own, self.critical_depth(own)));
            let depth = self.depth(own, force);
            stations.push(Station { x, depth });
        }
        stations
    }

    /// How far from the head the end of a stretch is.
    fn station(&self, step: u32) -> f64 {
        self.length_m * f64::from(step) / f64::from(STRETCHES)
    }

    /// The flow at the outlet with which the channel is just full so far from
    /// its head, by Manning: S = V²·(n²/R^(4/3) + 2/(g·x)).
    fn even_flow(&self, x: f64) -> f64 {
        let section = self.rectangle().section(self.clear(x));
        let friction = self.n.powi(2) / section.radius().powf(4.0 / 3.0);
        let joining = 2.0 / (GRAVITY * x);
        let velocity = (self.slope / (friction + joining)).sqrt();
        section.area_m2 * velocity * self.length_m / x
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn channel() -> Channel {
        Channel {
            length_m: 6.0,
            width_m: 0.1,
            head_m: 0.1,
            outlet_m: 0.1,
            slope: 0.0,
            n: 0.011,
        }
    }

    fn flow(channel: Channel) -> f64 {
        channel.carries().unwrap().flow
    }

    /// Without friction the force is the same all along: at the head, where
    /// nothing moves, h = √3·y of the outlet, so Q = b·√g·(h/√3)^1.5.
    #[test]
    fn a_level_channel_without_friction_keeps_its_force() {
        for (width, depth) in [(0.1, 0.1), (0.15, 0.1), (0.1, 0.15)] {
            let smooth = Channel {
                width_m: width,
                head_m: depth,
                outlet_m: depth,
                n: 1e-9,
                ..channel()
            };
            let wanted = width * GRAVITY.sqrt() * (depth / 3f64.sqrt()).powf(1.5);
            assert!((flow(smooth) / wanted - 1.0).abs() < 1e-9);
            let rough = Channel { n: 0.011, ..smooth };
            let share = flow(rough) / wanted;
            assert!((0.7..0.95).contains(&share), "{share}");
        }
    }

    #[test]
    fn what_is_no_channel_carries_nothing_known() {
        for own in [
            Channel {
                length_m: 0.0,
                ..channel()
            },
            Channel {
                width_m: -0.1,
                ..channel()
            },
            Channel {
                head_m: f64::NAN,
                ..channel()
            },
            Channel {
                slope: -0.01,
                ..channel()
            },
            Channel {
                n: f64::INFINITY,
                ..channel()
            },
        ] {
            assert_eq!(own.carries(), None);
        }
    }

    #[test]
    fn a_slope_is_steep_above_its_critical_one() {
        let critical = channel().critical_slope();
        for (slope, regime) in [
            (0.0, Regime::Outlet),
            (critical * 0.999, Regime::Outlet),
            (critical * 1.001, Regime::Steep),
        ] {
            assert_eq!(
                Channel { slope, ..channel() }.carries().unwrap().regime,
                regime
            );
        }
        // At the critical slope the outlet runs full at its critical depth.
        let just = Channel {
            slope: critical * 1.000_001,
            ..channel()
        };
        let filled = just.critical_flow(just.outlet_m);
        assert!((flow(just) / filled - 1.0).abs() < 1e-5);
    }

    #[test]
    fn a_long_steep_channel_runs_as_manning_has_it() {
        let long = Channel {
            length_m: 1e6,
            slope: 0.03,
            ..channel()
        };
        let even = long.rectangle().flow(0.1);
        assert!((flow(long) / even - 1.0).abs() < 1e-4);
    }

    proptest! {
        #[test]
        fn a_wider_deeper_steeper_or_smoother_channel_carries_more(
            length in 0.5..40.0f64, width in 0.05..0.4f64, depth in 0.03..0.4f64,
            deeper in 0.0..0.2f64, slope in 0.0..0.08f64, n in 0.009..0.02f64,
            more in 1.01..1.5f64,
        ) {
            let own = Channel {
                length_m: length,
                width_m: width,
                head_m: depth,
                outlet_m: depth + deeper,
                slope,
                n,
            };
            let least = flow(own) * (1.0 - 1e-6);
            for better in [
                Channel { width_m: width * more, ..own },
                Channel { head_m: depth * more, outlet_m: own.outlet_m * more, ..own },
                Channel { slope: slope * more, ..own },
                Channel { n: n / more, ..own },
            ] {
                prop_assert!(flow(better) >= least, "{better:?}: {} of {least}", flow(better));
            }
        }
    }
}
