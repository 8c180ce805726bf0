//! Why figures of drains are not known.

use crate::model::{Drain, DrainBody, DrainKind, Job};
use crate::quantities::{DrainFigures, DrainWater, SoakingGap};

/// A reason, and the figure that it keeps from being known: `length of`.
type Reason = (&'static str, &'static str);

/// Why figures of a drain are not known.
pub(super) fn reasons(job: &Job, own: &Drain, figures: &DrainFigures) -> Vec<Reason> {
    let Some(body) = &own.body else {
        return vec![(
            "what it is is not stated or cannot be read",
            "every figure of",
        )];
    };
    if own.is_unread {
        return vec![("a line of it cannot be read", "figures of")];
    }
    let mut reasons = Vec::new();
    let is_run = own.kind().is_some_and(DrainKind::is_run);
    match (&own.line, figures.head_at) {
        (None, _) => reasons.push(("where it lies is not stated", "place and length of")),
        (Some(_), None) => reasons.push((
            "nothing says which way its water runs, as in fall 1:200 toward east",
            "inverts of",
        )),
        _ => {}
    }
    let lacks_invert = figures.head_m.is_none() && figures.outlet_m.is_none();
    if figures.head_at.is_some() && lacks_invert {
        let why = match &body.value {
            DrainBody::Channel { clear: None, .. } => "how deep it is inside is not stated",
            DrainBody::Trench { deep: None, .. } => "how deep it is is not stated",
            DrainBody::Channel { .. } | DrainBody::Trench { .. } => {
                "the finish beside it is not known"
            }
            _ => "no invert is stated",
        };
        reasons.push((why, "inverts of"));
    } else if is_run && figures.fall.is_none() && figures.head_at.is_some() {
        reasons.push((
            "neither a fall nor a second invert is stated",
            "the other invert of",
        ));
    }
    if own.existing.is_some() {
        return reasons;
    }
    match figures.dig {
        Some(dig) if dig.loose_m3.is_none() => {
            reasons.push((
                "neither soil nor swell is stated",
                "what is carted away from",
            ));
        }
        None if figures.is_dug() => reasons.push((why_no_dig(job, own, figures), "dig for")),
        _ => {}
    }
    if let Some(bedding) = &figures.bedding
        && bedding.volume_m3.is_none()
    {
        let why = match own.bedded.as_ref().and_then(|bedded| bedded.round.as_ref()) {
            None => "how thick it is is not stated, as in 100 mm round",
            Some(_) if own.kind() == Some(DrainKind::Gully) => "what is dug for it is not known",
            Some(_) if lies_above(figures) => "it lies above the finish",
            Some(_) => "the size or the length is not known",
        };
        reasons.push((why, "bedding of"));
    }
    if figures
        .fill
        .as_ref()
        .is_some_and(|fill| fill.volume_m3.is_none())
    {
        let why = match lies_above(figures) {
            true => "it lies above the finish",
            false => "how deep it is is not known",
        };
        reasons.push((why, "fill of"));
    }
    if own.filled.is_some() && figures.voids.is_none() {
        reasons.push(("the voids of what fills it are not stated", "water held by"));
    }
    reasons
}

/// Why it is not known what comes to a drain, or what it has to hold.
pub(super) fn of_water(own: &Drain, water: &DrainWater) -> Vec<Reason> {
    let mut reasons = Vec::new();
    if water.all.weighted_m2.is_none() {
        let why = match own.is_unread {
            true => "a line of it cannot be read",
            false => "where the water of a surface or a drain before it goes is not known",
        };
        reasons.push((why, "what comes to"));
    }
    let gap = water.soaking.as_ref().and_then(|soaking| soaking.unknown);
    let why = match gap {
        None | Some(SoakingGap::Inflow) => return reasons,
        Some(SoakingGap::Size) => "its size and the voids of what fills it are not known",
        Some(SoakingGap::Infiltration) => "how fast the ground takes water is not stated",
        Some(SoakingGap::NoStorm) => "no storm says how long it lasts",
        Some(SoakingGap::Overflow) => "how much overflows to it is not worked out",
        Some(SoakingGap::StormShort) => {
            "the longest storm that is stated needs most: a longer one may need more"
        }
    };
    reasons.push((why, "what has to be held by"));
    reasons
}

/// Whether the bottom of a channel or a trench lies above the finish.
fn lies_above(figures: &DrainFigures) -> bool {
    figures
        .depths_m
        .is_some_and(|(head, outlet)| head.max(outlet) <= 0.0)
}

fn why_no_dig(job: &Job, own: &Drain, figures: &DrainFigures) -> &'static str {
    let lacks_size = match own.body.as_ref().map(|body| &body.value) {
        Some(DrainBody::Pipe(pipe)) => pipe.size.is_none(),
        Some(DrainBody::Channel { clear, .. }) => clear.is_none(),
        Some(DrainBody::Soakaway { deep, .. }) => deep.is_none(),
        Some(DrainBody::Gully { wide, .. }) => wide.is_none(),
        _ => false,
    };
    if lacks_size {
        return "its size is not stated in full";
    }
    match (figures.head_m, &job.site.ground) {
        (None, _) => "its inverts are not known",
        (_, None) => "no ground level is stated",
        _ => "how deep the paving over it is dug is not known",
    }
}
