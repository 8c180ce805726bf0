//! Drains: how long they are, where they end, and what goes into them.

use super::HintKind;
use super::collecting::{Collecting, HintOf};
use crate::model::{Drain, DrainKind};
use crate::quantities::{DrainFigures, FigureRef, StuffFigures};
use crate::units::show;

/// At what a drain is its length and cover; at its invert, else at its fall,
/// the invert at the other end.
pub(crate) fn add_levels(hints: &mut Collecting<'_>) {
    let system = hints.system;
    for (index, own, figures) in drains(hints) {
        let of = || HintOf::Figure(FigureRef::DrainLevels(index));
        if let Some(body) = &own.body {
            hints.add(HintKind::Falls, of(), body.place, || {
                let long = show::length(figures.length_m?, system);
                let cover = figures.cover_m().map(|cover| show::length(cover, system));
                Some(match cover {
                    Some(cover) => format!("{long} long · {cover} of cover"),
                    None => format!("{long} long"),
                })
            });
        }
        if !own.kind().is_some_and(DrainKind::is_run) {
            continue;
        }
        let invert = own.inverts.last().map(|invert| invert.value.place);
        let fall = own.fall.as_ref().map(|fall| fall.place);
        let deep = own.body.as_ref().map(|body| body.place);
        if let Some(place) = invert.or(fall).or(deep) {
            hints.add(HintKind::Falls, of(), place, || {
                let outlet = show::length(figures.outlet_m?, system);
                Some(match (own.inverts.len(), figures.fall) {
                    (2.., Some(fall)) => format!("falls {}", show::slope(fall)),
                    (0, _) => {
                        let head = show::length(figures.head_m?, system);
                        format!("bottom from {head} to {outlet}")
                    }
                    _ => format!("ends at {outlet}"),
                })
            });
        }
    }
}

/// Beside where a drain leads, or beside what it names as taken, what comes
/// to it and what it carries or holds.
pub(crate) fn add_water(hints: &mut Collecting<'_>) {
    let system = hints.system;
    let Some(water) = hints.analysis.figures.water.clone() else {
        return;
    };
    for (index, own, figures) in drains(hints) {
        let Some(comes) = water.drains.get(index) else {
            continue;
        };
        let takes = own.takes.last().map(|takes| takes.place);
        let to = own.to.as_ref().map(|to| to.place);
        let Some(place) = takes.or(to).or(Some(own.name.place)) else {
            continue;
        };
        let of = HintOf::Figure(FigureRef::DrainWater(index));
        hints.add(HintKind::Falls, of, place, || {
            let flow = comes.flow.map(|flow| show::flow(flow, system));
            if let Some(soaking) = &comes.soaking {
                let (need, holds) = (soaking.need_m3?, figures.storage_m3);
                let beside = |holds| show::volume_beside(holds, Some(need), system);
                let (need, holds) = (show::volume_beside(need, holds, system), holds.map(beside));
                return Some(match holds {
                    Some(holds) => format!("has to hold {need} · holds {holds}"),
                    None => format!("has to hold {need}"),
                });
            }
            let carries = figures.carries_m3s.map(|flow| show::flow(flow, system));
            Some(match carries {
                Some(carries) => format!("{} comes · carries {carries}", flow?),
                None => format!("{} comes", flow?),
            })
        });
    }
}

/// At what a drain is laid in or filled with how much that is, and what it
/// holds.
pub(crate) fn add_stuff(hints: &mut Collecting<'_>) {
    let system = hints.system;
    let much = |stuff: &StuffFigures| {
        let volume = show::volume(stuff.volume_m3?, system);
        let mass = stuff.mass_kg.map(|mass| show::mass(mass, system));
        Some(match mass {
            Some(mass) => format!("{mass} · {volume}"),
            None => volume,
        })
    };
    for (index, own, figures) in drains(hints) {
        let of = || HintOf::Figure(FigureRef::DrainWorks(index));
        if let (Some(bedded), Some(stuff)) = (&own.bedded, &figures.bedding) {
            hints.add(HintKind::Layers, of(), bedded.place, || much(stuff));
        }
        if let (Some(filled), Some(stuff)) = (&own.filled, &figures.fill) {
            hints.add(HintKind::Layers, of(), filled.place, || {
                let holds = figures.storage_m3.map(|holds| show::volume(holds, system));
                let much = much(stuff)?;
                Some(match holds {
                    Some(holds) => format!("{much} · holds {holds} of water"),
                    None => much,
                })
            });
        }
    }
}

/// The drains with their indices and figures.
fn drains<'a>(hints: &Collecting<'a>) -> Vec<(usize, &'a Drain, &'a DrainFigures)> {
    let (job, figures) = (&hints.analysis.job, &hints.analysis.figures);
    let both = job.drains.iter().zip(figures.drains.iter()).enumerate();
    both.map(|(index, (own, figures))| (index, own.as_ref(), figures))
        .collect()
}
