//! What is dug for a flight: from the ground, or from the underside of what
//! is dug for a surface there, down to the underside of its base.

use std::sync::Arc;

use super::super::dig::DigFigures;
use super::super::footprint::Footprint;
use super::super::measures::{Area, Length, Share, Volume};
use super::super::surface::SurfaceFigures;
use super::super::trace::Trace;
use super::flight::Flight;
use crate::geometry::{Outline, Plane, intersection, volumes_between};
use crate::model::{CoreFoot, Job, Steps};

/// How far the underside of the base lies below the foot, in metres; `None`
/// if that is not known.
fn depth_m(own: &Steps) -> Option<f64> {
    let base = own.base.as_ref()?;
    let reaches_down = |core: &crate::model::Core| core.down_to == Some(CoreFoot::Foot);
    let top = match &base.top {
        Some(top) => top.value.si(),
        // Without a core, or under one that ends there, it lies at the foot.
        None if own.core.as_ref().is_none_or(reaches_down) => 0.0,
        None => return None,
    };
    Some(top + base.layer.thickness.as_ref()?.value.si())
}

/// The dig for a flight; `None` if it has no base, or ground, levels or a
/// depth are not known.
pub(super) fn dig(
    job: &Job,
    own: &Steps,
    flight: &Flight,
    surfaces: &[Arc<SurfaceFigures>],
    trace: &Trace,
) -> Option<DigFigures> {
    let ground = job.site.ground.as_ref()?;
    let base = &own.base.as_ref()?.layer;
    let depth = depth_m(own)?;
    let outline = flight.outline(base.beyond_m())?;
    let foot = trace.term("level of the foot", Length(flight.foot_m));
    let depth = trace.term("depth to the underside of the base", Length(depth));
    let underside = trace.gives("level of the underside", foot - depth);
    let level = Plane::level(underside.value.0);
    let whole = volumes_between(&outline, &ground.plane, &level);
    let mut dug_already = Already::default();
    for (surface, figures) in job.surfaces.iter().zip(surfaces) {
        let Some(dug) = figures.dug.as_deref() else {
            continue;
        };
        let common = common(dug, &outline);
        if common.is_empty() {
            continue;
        }
        let below = figures.dig.as_ref()?.depth_m;
        if !surface.has_levels() {
            return None;
        }
        for (piece, share) in common {
            for (finished, part) in surface.parted(&piece).ok()? {
                let under = finished.raised(-below);
                dug_already.add(&part, share, [&ground.plane, &under, &level]);
            }
        }
    }
    for place in &ground.places {
        let at = ground.plane.level_at(outline.centroid());
        trace.stated("ground at the middle", Length(at), *place);
    }
    let how = "what lies between the ground and the underside";
    let between = trace.found("between ground and underside", Volume(whole.above), how);
    let already = trace.term("dug for the surfaces there", Volume(dug_already.dug));
    let bank = trace.gives("bank volume", between - already);
    let loose = job.site.swell().map(|swell| {
        let swell = trace.sourced("swell", &swell, Share);
        trace.gives("loose volume", bank * (1.0 + swell))
    });
    Some(DigFigures {
        bank_m3: bank.value.0.max(0.0),
        loose_m3: loose.map(|loose| loose.value.0.max(0.0)),
        fill_m3: (whole.below - dug_already.filled).max(0.0),
        area_m2: Area(outline.area()).0,
        depth_m: depth.value.0,
        deepest_m: ground.plane.less(&level).levels_over(&outline).1.max(0.0),
    })
}

/// The ground that both cover, each piece with the share of it that is the
/// surface's.
fn common(dug: &Footprint, outline: &Outline) -> Vec<(Outline, f64)> {
    let pieces = dug.pieces.iter();
    let common = pieces.flat_map(|piece| {
        let both = intersection(&piece.outline, outline).unwrap_or_default();
        both.into_iter().map(|outline| (outline, piece.share()))
    });
    common.collect()
}

/// What is dug or filled for surfaces of the ground under a flight.
#[derive(Default)]
struct Already {
    dug: f64,
    filled: f64,
}

impl Already {
    /// Of a piece, what lies between the ground and the higher of the two
    /// undersides, that of the surface and that of the flight.
    fn add(&mut self, piece: &Outline, share: f64, [ground, surface, flight]: [&Plane; 3]) {
        let of_surface = volumes_between(piece, ground, surface);
        let of_flight = volumes_between(piece, ground, flight);
        self.dug += share * of_surface.above.min(of_flight.above);
        self.filled += share * of_flight.below;
    }
}
