//! How much a soakaway has to hold, and how long it takes to empty.

use super::amounts::voids;
use crate::model::{Drain, DrainBody, DrainKind, Job, Pit, Region};
use crate::quantities::hydraulics::{Chamber, Method, Sizing, Storm, size};
use crate::quantities::measures::{Area, Measured, RainDepth, Rate, Share, Volume};
use crate::quantities::trace::Trace;
use crate::units::Dimension;

/// What a soakaway has to hold, and how long it takes to empty.
#[derive(Debug, Clone, PartialEq)]
pub struct Soaking {
    /// The water that it has to hold; `None` where that is not known.
    pub need_m3: Option<f64>,
    /// The storm that needs most, by its place among those of the site; of
    /// `need_m3`, or of what it has to hold at least.
    pub storm: Option<usize>,
    /// What it has to hold at least, where the longest storm that is stated
    /// needs most and a longer one may need more still.
    pub at_least_m3: Option<f64>,
    /// How long what it has to hold takes to half empty, or to empty where
    /// `is_whole`.
    pub empties_need_s: Option<f64>,
    /// The same of all that it holds.
    pub empties_built_s: Option<f64>,
    /// Whether the hours are those until it is empty, and not half empty.
    pub is_whole: bool,
    /// Why it is not known what it has to hold.
    pub unknown: Option<SoakingGap>,
}

/// Why it is not known what a soakaway has to hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SoakingGap {
    /// What comes to it is not known.
    Inflow,
    /// Its size, or the voids of what fills it, are not stated.
    Size,
    /// How fast the ground takes water is not stated.
    Infiltration,
    /// No storm is stated with how long it lasts.
    NoStorm,
    /// All that comes to it is what another soakaway overflows with.
    Overflow,
    /// The longest storm that is stated needs most.
    StormShort,
}

/// By which method a soakaway is reckoned: water leaves by the sides, the base
/// too if it says so; in America by the base alone.
fn method(job: &Job, drain: &Drain) -> Method {
    let counts_base = matches!(
        drain.body.as_ref().map(|body| &body.value),
        Some(DrainBody::Soakaway {
            base_counted: Some(_),
            ..
        })
    );
    match (job.heading.region(), counts_base) {
        (Region::Us, _) => Method::Base,
        (_, true) => Method::SidesAndBase,
        (_, false) => Method::Sides,
    }
}

fn chamber(job: &Job, drain: &Drain) -> Option<Chamber> {
    let DrainBody::Soakaway { pit, deep, .. } = &drain.body.as_ref()?.value else {
        return None;
    };
    let deep = deep.as_ref()?.value.si();
    let voids = voids(job, drain)?.value;
    Some(match pit {
        Pit::Box(long, wide) => Chamber::rectangular(long.value.si(), wide.value.si(), deep, voids),
        Pit::Round(across) => Chamber::round(across.value.si(), deep, voids),
    })
}

/// What a soakaway has to hold of so much weighted area, and how long it takes
/// to empty; `None` of other drains.
pub(in crate::quantities) fn soaking(
    job: &Job,
    drain: &Drain,
    weighted_m2: Option<f64>,
    trace: &Trace,
) -> Option<Soaking> {
    if drain.kind() != Some(DrainKind::Soakaway) {
        return None;
    }
    let method = method(job, drain);
    let gap = |unknown: SoakingGap| Soaking {
        need_m3: None,
        storm: None,
        at_least_m3: None,
        empties_need_s: None,
        empties_built_s: None,
        is_whole: method.emptied() >= 1.0,
        unknown: Some(unknown),
    };
    let Some(chamber) = chamber(job, drain).filter(|_| !drain.is_unread) else {
        return Some(gap(SoakingGap::Size));
    };
    let Some(infiltration) = &job.site.infiltration else {
        return Some(gap(SoakingGap::Infiltration));
    };
    let infiltration = trace.stated(
        "infiltration",
        Rate(infiltration.value.si()),
        infiltration.place,
    );
    let storms = job.site.storms.iter().enumerate();
    let storms: Vec<(usize, Storm)> = storms
        .filter_map(|(index, storm)| {
            let (depth_m, duration_s) = (storm.depth_m()?, storm.duration_s()?);
            let storm = Storm {
                depth_m,
                duration_s,
            };
            Some((index, storm))
        })
        .collect();
    let list: Vec<Storm> = storms.iter().map(|(_, storm)| *storm).collect();
    let sized = size(
        &chamber,
        method,
        weighted_m2.unwrap_or_default(),
        &list,
        infiltration.value.0,
    );
    let Some(sized) = sized else {
        let unknown = match list.is_empty() {
            true => SoakingGap::NoStorm,
            false => SoakingGap::Infiltration,
        };
        return Some(gap(unknown));
    };
    let built = Soaking {
        empties_built_s: Some(sized.empties_built_s),
        ..gap(SoakingGap::Inflow)
    };
    let Some(weighted) = weighted_m2 else {
        return Some(built);
    };
    if weighted <= 0.0 {
        let unknown = takes_overflow(job, drain).then_some(SoakingGap::Overflow);
        return Some(Soaking {
            need_m3: unknown.is_none().then_some(0.0),
            unknown,
            ..built
        });
    }
    let storm = storms.get(sized.storm).map(|(index, _)| *index);
    took_down(job, storm, (&chamber, method), weighted, &sized, trace);
    if sized.is_open {
        return Some(Soaking {
            storm,
            at_least_m3: Some(sized.need_m3),
            unknown: Some(SoakingGap::StormShort),
            ..built
        });
    }
    Some(Soaking {
        need_m3: Some(sized.need_m3),
        storm,
        empties_need_s: Some(sized.empties_need_s),
        unknown: None,
        ..built
    })
}

/// Whether another drain leads to it what it cannot hold itself.
fn takes_overflow(job: &Job, drain: &Drain) -> bool {
    let overflows = job.drains.iter().filter_map(|own| own.overflow.as_ref());
    let mut names = overflows.filter_map(|to| to.value.drain());
    names.any(|name| name == drain.name.value)
}

/// Takes down how the largest need came about.
fn took_down(
    job: &Job,
    storm: Option<usize>,
    (chamber, method): (&Chamber, Method),
    weighted: f64,
    sized: &Sizing,
    trace: &Trace,
) {
    let Some(storm) = storm.and_then(|index| job.site.storms.get(index)) else {
        return;
    };
    let (Some(depth), Some(lasts)) = (storm.depth_m(), storm.duration_s()) else {
        return;
    };
    let weighted = trace.term("all that comes, weighted", Area(weighted));
    let depth = trace.stated(
        "depth of the storm that needs most",
        RainDepth(depth),
        storm.place,
    );
    let comes = trace.gives("water that comes", weighted * depth);
    let (through, how) = match method {
        Method::Sides => (
            "area of the sides to half the depth",
            "round it times the depth ÷ 2; the base silts up and is not counted",
        ),
        Method::SidesAndBase => (
            "area of the base and of the sides to half the depth",
            "round it times the depth ÷ 2, and the base",
        ),
        Method::Base => ("area of the base", "its length times its width"),
    };
    trace.found(through, Area(chamber.soaking_m2(method)), how);
    let need = match method {
        Method::Base => comes,
        _ => {
            let lost = trace.found(
                "what soaks away meanwhile",
                Volume(sized.soaks * lasts),
                format!(
                    "that area times the infiltration times {}",
                    crate::units::show::time(lasts)
                ),
            );
            comes - lost
        }
    };
    trace.gives("has to hold", need);
    let emptied = trace.term("of which has to leave", Share(method.emptied()));
    trace.gives("leaves before the next storm", need * emptied);
    let empty = match method.emptied() >= 1.0 {
        true => "empty",
        false => "half empty",
    };
    let time = |seconds: f64| Measured {
        value: seconds,
        dimension: Dimension::TIME,
    };
    let how = "what leaves, over that area times the infiltration";
    if !sized.is_open {
        trace.found(format!("{empty} in"), time(sized.empties_need_s), how);
    }
    let share = match method.emptied() >= 1.0 {
        true => "all",
        false => "half",
    };
    let how = format!("{share} of what it holds, over the same");
    trace.found(
        format!("as built {empty} in"),
        time(sized.empties_built_s),
        how,
    );
}
