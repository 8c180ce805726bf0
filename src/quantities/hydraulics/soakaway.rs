//! How large a soakaway has to be, and how long it takes to empty.
//!
//! What comes in less what soaks away, storm by storm; the largest of these
//! is what it has to hold. A short storm is fierce and a long one gives the
//! ground time, so the largest need lies somewhere between: if the longest
//! storm has it, a longer one may need more still.

use std::f64::consts::PI;

use super::Storm;

/// What a soakaway is, below the inlet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chamber {
    /// How long its sides are together, in metres.
    pub round_m: f64,
    /// The area of its base, in m².
    pub base_m2: f64,
    /// How deep it is below its inlet, in metres.
    pub depth_m: f64,
    /// How much of it is hollow, as a fraction of one.
    pub voids: f64,
}

impl Chamber {
    /// One with a base of four square corners.
    pub fn rectangular(length_m: f64, width_m: f64, depth_m: f64, voids: f64) -> Chamber {
        Chamber {
            round_m: 2.0 * (length_m + width_m),
            base_m2: length_m * width_m,
            depth_m,
            voids,
        }
    }

    /// A round one.
    pub fn round(diameter_m: f64, depth_m: f64, voids: f64) -> Chamber {
        Chamber {
            round_m: PI * diameter_m,
            base_m2: PI * diameter_m.powi(2) / 4.0,
            depth_m,
            voids,
        }
    }

    /// How much water it holds below its inlet, in m³.
    pub fn holds_m3(&self) -> f64 {
        self.base_m2 * self.depth_m * self.voids
    }

    /// The area that water soaks away through, in m².
    pub fn soaking_m2(&self, method: Method) -> f64 {
        let sides = self.round_m * self.depth_m / 2.0;
        match method {
            Method::Sides => sides,
            Method::SidesAndBase => sides + self.base_m2,
            Method::Base => self.base_m2,
        }
    }
}

/// How a soakaway is reckoned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// As BRE Digest 365 has it, known from three engineers' calculation
    /// sheets: water leaves through the sides to half the depth, the base
    /// silting up; the largest need over the storms; half empty in a day.
    Sides,
    /// The same with the base, for one that is kept clean.
    SidesAndBase,
    /// As American counties have it: the runoff of the design storm is held
    /// whole, and leaves through the bottom; all of it in so many hours.
    Base,
}

impl Method {
    /// How much of what is held has to leave in the hours that are told.
    pub fn emptied(self) -> f64 {
        match self {
            Method::Sides | Method::SidesAndBase => 0.5,
            Method::Base => 1.0,
        }
    }
}

/// What a soakaway has to hold, and how fast it empties.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sizing {
    /// The water that it has to hold, in m³; 0 where all soaks away at once.
    pub need_m3: f64,
    /// The storm with the largest need, by its place in the list.
    pub storm: usize,
    /// Whether a longer storm than those stated may need more.
    pub is_open: bool,
    /// How fast water soaks away, in m³/s.
    pub soaks: f64,
    /// How long what it has to hold takes to half empty, or empty where the
    /// base is reckoned with alone, in seconds.
    pub empties_need_s: f64,
    /// The same of all that it holds.
    pub empties_built_s: f64,
}

/// Sizes a soakaway for so much weighted area, each area times its runoff,
/// under these storms, in ground that takes so many metres a second. `None`
/// where there is no storm or the ground takes nothing.
pub fn size(
    chamber: &Chamber,
    method: Method,
    weighted_m2: f64,
    storms: &[Storm],
    infiltration: f64,
) -> Option<Sizing> {
    let soaks = chamber.soaking_m2(method) * infiltration;
    let is_possible = soaks > 0.0 && soaks.is_finite();
    let need = |storm: &Storm| {
        let comes = weighted_m2 * storm.depth_m;
        match method {
            Method::Sides | Method::SidesAndBase => comes - soaks * storm.duration_s,
            Method::Base => comes,
        }
    };
    let needs = storms.iter().map(need).enumerate();
    let (storm, largest) = needs.max_by(|(_, left), (_, right)| left.total_cmp(right))?;
    let longest = storms.iter().map(|storm| storm.duration_s);
    let longest = longest.fold(0.0, f64::max);
    let lasts = storms.get(storm)?.duration_s;
    let need_m3 = largest.max(0.0);
    let seconds = |volume: f64| method.emptied() * volume / soaks;
    is_possible.then(|| Sizing {
        need_m3,
        storm,
        is_open: method != Method::Base && largest > 0.0 && lasts >= longest,
        soaks,
        empties_need_s: seconds(need_m3),
        empties_built_s: seconds(chamber.holds_m3()),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const MILLIMETRE: f64 = 1e-3;
    const MINUTE: f64 = 60.0;

    fn storm(millimetres: f64, minutes: f64) -> Storm {
        Storm {
            depth_m: millimetres * MILLIMETRE,
            duration_s: minutes * MINUTE,
        }
    }

    fn pit() -> Chamber {
        Chamber::rectangular(1.2, 1.2, 1.0, 0.95)
    }

    #[test]
    fn the_largest_need_may_lie_at_the_end() {
        let storms = [storm(8.0, 10.0), storm(20.0, 60.0), storm(30.0, 240.0)];
        let sized =
            |storms: &[Storm], f: f64| size(&pit(), Method::Sides, 50.0, storms, f).unwrap();
        let slow = sized(&storms, 1e-6);
        assert_eq!((slow.storm, slow.is_open), (2, true));
        let fast = sized(&storms, 2e-4);
        assert_eq!((fast.storm, fast.is_open), (0, false));
        let faster = sized(&storms, 1.0);
        assert_eq!((faster.need_m3, faster.is_open), (0.0, false));
        // With one storm nobody knows whether a longer one needs more.
        assert!(sized(&storms[..1], 1e-6).is_open);
        assert!(
            !size(&pit(), Method::Base, 50.0, &storms[..1], 1e-6)
                .unwrap()
                .is_open
        );
    }

    #[test]
    fn without_rain_or_where_nothing_soaks_away_nothing_is_known() {
        let storms = [storm(8.0, 10.0)];
        assert_eq!(size(&pit(), Method::Sides, 50.0, &[], 1e-5), None);
        for ground in [0.0, -1e-5, f64::NAN, f64::INFINITY] {
            assert_eq!(size(&pit(), Method::Sides, 50.0, &storms, ground), None);
        }
    }

    #[test]
    fn a_round_pit_has_round_sides() {
        let round = Chamber::round(1.2, 1.0, 0.95);
        assert!((round.soaking_m2(Method::Sides) - PI * 0.6).abs() < 1e-12);
        assert!((round.soaking_m2(Method::SidesAndBase) - PI * 0.96).abs() < 1e-12);
        assert!((round.holds_m3() - PI * 0.36 * 0.95).abs() < 1e-12);
    }

    proptest! {
        #[test]
        fn more_rain_needs_more_and_better_ground_less(
            weighted in 1.0..500.0f64, ground in 1e-7..1e-3f64,
            depths in prop::collection::vec(1.0..80.0f64, 1..6), more in 1.0..3.0f64,
        ) {
            let storms: Vec<Storm> = depths
                .iter()
                .zip(1u32..)
                .map(|(depth, step)| storm(*depth, 10.0 * f64::from(step.pow(2))))
                .collect();
            for method in [Method::Sides, Method::SidesAndBase, Method::Base] {
                let need = |weighted: f64, ground: f64| {
                    size(&pit(), method, weighted, &storms, ground).unwrap().need_m3
                };
                let own = need(weighted, ground);
                prop_assert!(need(weighted * more, ground) >= own);
                prop_assert!(need(weighted, ground * more) <= own);
            }
        }
    }
}
