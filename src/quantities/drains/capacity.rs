//! How much water a drain carries.

use super::course::{Course, beside};
use super::levels::Levels;
use crate::model::{Drain, DrainBody, Job, Origin, Sourced, Stated, Substance};
use crate::quantities::hydraulics::{Bore, Channel, Pipe};
use crate::quantities::measures::{Count, Flow, Length};
use crate::quantities::term::Term;
use crate::quantities::trace::Trace;
use crate::units::Quantity;

/// What a pipe carries when it runs full, and a channel with its water nowhere
/// over its top, in m³/s. `None` of other drains, and where the fall, a size or
/// what it is made of is not known.
pub(super) fn capacity(
    job: &Job,
    drain: &Drain,
    course: Option<&Course>,
    levels: &Levels<'_>,
    trace: &Trace,
) -> Option<f64> {
    let n = roughness(drain)?;
    let fall = levels.fall?;
    let body = &drain.body.as_ref()?.value;
    let flow = match body {
        DrainBody::Channel { clear, .. } => {
            let (width, depth) = clear.as_ref()?;
            let course = course?;
            let finish = beside(job, drain)?.level_at(course.outlet)?;
            let outlet = finish - levels.outlet?.value.0;
            let n = manning(&n, trace);
            let channel = Channel {
                length_m: course.length(),
                width_m: length("clear width", width, trace).value.0,
                head_m: length("clear depth at the head", depth, trace).value.0,
                outlet_m: trace
                    .input("clear depth at the outlet", Length(outlet), None)
                    .value
                    .0,
                slope: fall.value.0,
                n: n.value.0,
            };
            let how = "as much as falls freely off its end with the water nowhere over its top";
            trace.found("carries", Flow(channel.carries()?.flow), how)
        }
        body => {
            let inside = body.pipe()?.inside()?;
            let pipe = Pipe {
                bore_m: length("bore", inside, trace).value.0,
                slope: fall.value.0,
                n: manning(&n, trace).value.0,
            };
            let full = pipe.full();
            let is_flow = full.is_finite() && full > 0.0;
            let how = "Manning, running full: π·bore²/4 · (bore/4)^⅔ · √fall / n";
            trace.found("carries", Flow(is_flow.then_some(full)?), how)
        }
    };
    Some(flow.value.0)
}

/// Manning's n of a drain, by what its pipe or channel is in the catalogue;
/// `None` of what the catalogue does not know.
pub(super) fn roughness(drain: &Drain) -> Option<Sourced<f64>> {
    let of = match &drain.body.as_ref()?.value {
        DrainBody::Channel { of, .. } => of,
        body => &body.pipe()?.of,
    };
    let Substance::Material(material) = &of.value else {
        return None;
    };
    let bore = match material.stock? {
        "plastic-pipe" | "perforated-pipe" => Bore::Plastic,
        "coiled-pipe" => Bore::CorrugatedPlastic,
        "clay-pipe" => Bore::Clay,
        "concrete-pipe" => Bore::Concrete,
        "polymer-channel" => Bore::PolymerChannel,
        "plastic-channel" => Bore::PlasticChannel,
        "concrete-channel" => Bore::ConcreteChannel,
        "brick-channel" => Bore::BrickChannel,
        _ => return None,
    };
    let roughness = bore.roughness();
    Some(Sourced {
        value: roughness.n,
        origin: Origin::Default {
            what: "Manning's n of pipes and channels",
            source: roughness.source,
        },
    })
}

fn manning<'t>(n: &Sourced<f64>, trace: &'t Trace) -> Term<'t, Count> {
    trace.sourced("Manning's n", n, Count)
}

fn length<'t>(name: &str, stated: &Stated<Quantity>, trace: &'t Trace) -> Term<'t, Length> {
    trace.stated(name, Length(stated.value.si()), stated.place)
}
