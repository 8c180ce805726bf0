//! A job turned by any angle keeps every finding, and its figure: arcs are
//! measured where they are farthest, lowest and nearest, and not where a
//! shape happens to begin them.

use std::f64::consts::TAU;

use drylay::rules::{Family, find};
use proptest::prelude::*;

use crate::checked::checked;

/// Turns points of the plan about the origin, clockwise.
struct Turned(f64);

impl Turned {
    fn point(&self, x: f64, y: f64) -> String {
        let (sin, cos) = self.0.sin_cos();
        format!("({:.9} m, {:.9} m)", x * cos + y * sin, y * cos - x * sin)
    }

    fn bearing(&self, degrees: f64) -> String {
        let turned = (degrees + self.0 / TAU * 360.0).rem_euclid(360.0);
        format!("bearing {turned:.9}°")
    }
}

/// A round terrace in a court at the house, a permeable circle near it, and
/// ground that falls.
#[derive(Debug, Clone)]
struct Round {
    radius: f64,
    centre: (f64, f64),
    round_level: f64,
    round_fall: (f64, f64),
    court_level: f64,
    court_fall: f64,
    soaking: (f64, f64),
    ground: f64,
}

fn round() -> impl Strategy<Value = Round> {
    (
        1.0..1.8_f64,
        (2.2..5.8_f64, 2.1..3.8_f64),
        -0.45..-0.1_f64,
        (0.0..0.08_f64, 0.0..360.0_f64),
        -0.3..-0.05_f64,
        0.005..0.06_f64,
        (1.0..7.0_f64, -4.5..-2.5_f64),
        -1.2..0.1_f64,
    )
        .prop_map(|drawn| {
            let (radius, centre, round_level, round_fall, court_level, court_fall, soaking, ground) =
                drawn;
            Round {
                radius,
                centre,
                round_level,
                round_fall,
                court_level,
                court_fall,
                soaking,
                ground,
            }
        })
}

impl Round {
    fn text(&self, turned: &Turned) -> String {
        let at = |x: f64, y: f64| turned.point(x, y);
        let centre = at(self.centre.0, self.centre.1);
        let (soak, round) = (self.soaking, self.radius);
        format!(
            "job \"Turned\"
  units metric
  region uk

site
  soil gravel, firm
  datum \"hall floor\"
  damp-course -20 mm
  ground {ground:.6} m at {origin}, falling 2 % toward {south}
  soakaway {soakaway}

shape disc
  circle radius {round:.6} m, centre {centre}

shape soaking
  circle radius 1.5 m, centre {soaking}

shape court
  start {origin}
  to {a}
  to {b}
  curve to {c}, radius 6 m
  close
  cut disc

surface court
  shape court
  meets step-3
  level {court_level:.6} m at {corner}
  fall {court_fall:.6} % toward {south}
  build sand-set

surface terrace
  shape disc
  for foot, accessible
  level {round_level:.6} m at {centre}
  fall {round_slope:.6} % toward {round_way}
  build sand-set

surface soaking
  shape soaking
  level -300 mm at {soaking}
  fall 1:60 toward {south}
  build open-set

build sand-set
  paving concrete-paver, 60 mm
  bed sharp-sand, 30 mm
  base crushed-stone, 150 mm compacted, lifts 2

build open-set
  paving concrete-paver, 80 mm
  bed open-stone, 50 mm
  base open-stone, 200 mm
  permeable
",
            ground = self.ground,
            origin = at(0.0, 0.0),
            south = turned.bearing(180.0),
            soakaway = at(soak.0, soak.1 + 1.0),
            soaking = at(soak.0, soak.1),
            a = at(8.0, 0.0),
            b = at(8.0, 6.0),
            c = at(0.0, 6.0),
            corner = at(0.0, 6.0),
            court_level = self.court_level,
            court_fall = self.court_fall * 100.0,
            round_level = self.round_level,
            round_slope = self.round_fall.0 * 100.0,
            round_way = turned.bearing(self.round_fall.1),
        )
        .replace("step-3", "wall")
        .replace("radius 6 m", "radius 6 m, named wall")
    }

    /// The rules on falls, levels and ground that speak, with the figure each
    /// found to a tenth of a millimetre or a hundredth of a per cent.
    fn said(&self, turned: &Turned) -> Vec<(String, String)> {
        let text = self.text(turned);
        let checked = checked(&text);
        let mut said = Vec::new();
        for finding in checked.findings().iter() {
            let family = find(finding.rule).map(|rule| rule.family);
            assert_ne!(
                family,
                Some(Family::Text),
                "{text}\n{}",
                checked.shown(finding)
            );
            let counts = [Family::Falls, Family::Levels, Family::Ground];
            if family.is_some_and(|family| counts.contains(&family)) {
                let figure = finding
                    .measured()
                    .figure
                    .map(|figure| format!("{:.0}", figure.si() * 1e4));
                let severity = finding.severity.map_or("", |severity| severity.word());
                let rule = format!("{severity} {}", finding.rule);
                said.push((rule, figure.unwrap_or_default()));
            }
        }
        said.sort();
        said
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn a_job_turned_by_any_angle_keeps_every_finding(round in round(), angle in 0.0..TAU) {
        let still = round.said(&Turned(0.0));
        prop_assert!(!still.is_empty());
        let names = |said: &[(String, String)]| -> Vec<String> {
            said.iter().map(|(rule, _)| rule.clone()).collect()
        };
        let turned = round.said(&Turned(angle));
        prop_assert_eq!(names(&still), names(&turned), "{}", round.text(&Turned(angle)));
        for ((rule, one), (_, other)) in still.iter().zip(&turned) {
            let (one, other) = (one.parse::<f64>(), other.parse::<f64>());
            if let (Ok(one), Ok(other)) = (one, other) {
                prop_assert!((one - other).abs() <= 2.0, "{rule}: {one}, {other}");
            }
        }
    }
}
