//! `joints-across`: long joints that stand in the way of the water.

use crate::findings::Severity;
use crate::geometry::Vector;
use crate::model::{Build, Pattern, Surface, Use};
use crate::rules::construction::{Construction, stated_courses};
use crate::rules::documents::bia_14c;
use crate::rules::{Check, Context, Family, Found, Rule, slope};

/// Continuous mortar joints that run across the fall.
pub(crate) static JOINTS_ACROSS: Rule = Rule {
    name: "joints-across",
    family: Family::Falls,
    severity: Severity::Advisory,
    looks_at: "The long joints of mortared running bond: whether they run down the fall or across it. Not under cars, whose wheels they have to lie across.",
    reason: "Every joint across the fall holds water back; down the fall it runs along them and away.",
    remedy: "Turn the pattern so that the long joints run down the fall.",
    limits: &[],
    sources: &[bia_14c("continuous joints parallel to the fall")],
    breaks: "\
surface court
  build        mortar-set
  laid         running-bond, units 300 mm by 600 mm, along «north»
  isolation-joint 10 mm
  weeps        every 600 mm
",
    keeps: "\
surface court
  build        mortar-set
  laid         running-bond, units 300 mm by 600 mm, along east
  isolation-joint 10 mm
  weeps        every 600 mm
",
    mended: None,
    check: Check::Built(check),
};

fn check(_: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let Some(laid) = &surface.laid else {
        return;
    };
    let is_bonded = laid.pattern.value == Pattern::RunningBond;
    // Wheels turn on a drive, and on a ramp feet and wheels want joints to grip.
    let is_gripped = matches!(surface.used_for, Use::Drive | Use::Street | Use::Ramp);
    if !is_bonded || is_gripped || Construction::of(build) != Construction::MortarSet {
        return;
    }
    let (Some(joints), Some(downhill)) = (stated_courses(surface), slope::downhill(surface)) else {
        return;
    };
    let is_level = downhill.length() <= slope::SAME_SLOPE;
    if is_level || downhill.length() > STEEP || !lies_across(joints, downhill) {
        return;
    }
    let (place, run) = match (&laid.along, &laid.angle) {
        (Some((along, _)), None) => (along.place, format!("run along {}, across", along.value)),
        (_, Some(angle)) => (angle.place, "run across".to_owned()),
        (None, None) => return,
    };
    let message = format!(
        "the long joints {run} the fall, and hold water. Turn the pattern so that they run down it"
    );
    found.add(JOINTS_ACROSS.finding(place, message));
}

/// A fall, as its tangent, at which no joint holds water.
const STEEP: f64 = 0.05;

/// Whether joints lie nearer to across the fall than to down it.
fn lies_across(joints: Vector, downhill: Vector) -> bool {
    joints.dot(downhill.unit()).abs() < std::f64::consts::FRAC_1_SQRT_2 - 1e-9
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn joints_at_half_a_right_angle_pass() {
        let south = Vector::new(0.0, -0.02);
        for (bearing, across) in [(90.0, true), (0.0, false), (45.0, false), (46.0, true)] {
            let joints = Vector::from_bearing(bearing);
            assert_eq!(lies_across(joints, south), across, "{bearing}");
        }
    }
}
