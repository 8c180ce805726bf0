//! The columns under a long section: at which places its levels are told.

use super::chain::{Chain, Run, Stop};
use crate::model::DrainKind;

/// Two stations nearer to one another than this, in metres, are one, and two
/// levels the same.
const SAME: f64 = 0.0005;

/// A place along a chain, with what is told of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Station {
    /// How far from the head of the chain, in metres.
    pub at_m: f64,
    /// What stands or comes in there.
    pub name: Option<String>,
    /// The level of the finish or the ground.
    pub top_m: Option<f64>,
    /// The level of the top of the pipe.
    pub crown_m: Option<f64>,
    /// Whether there is a pipe, whose crown may not be known.
    pub has_crown: bool,
    /// The level of the bottom.
    pub invert_m: Option<f64>,
    /// Whether it is an end of a run.
    pub is_end: bool,
}

impl Station {
    /// How far the bottom lies under the finish or the ground.
    pub(crate) fn depth_m(&self) -> Option<f64> {
        Some(self.top_m? - self.invert_m?)
    }

    /// How much lies over the pipe.
    pub(crate) fn cover_m(&self) -> Option<f64> {
        Some(self.top_m? - self.crown_m?)
    }

    fn is_like(&self, other: &Station) -> bool {
        let same = |one: Option<f64>, other: Option<f64>| match (one, other) {
            (Some(one), Some(other)) => (one - other).abs() < SAME,
            (None, None) => true,
            _ => false,
        };
        (self.at_m - other.at_m).abs() < SAME
            && self.has_crown == other.has_crown
            && same(self.top_m, other.top_m)
            && same(self.invert_m, other.invert_m)
            && same(self.crown_m, other.crown_m)
    }
}

/// The stations of a chain, from its head down: both ends of each run, where
/// something else comes to lie over it, and where something stands on it.
pub(crate) fn stations(chain: &Chain<'_>) -> Vec<Station> {
    let mut stations: Vec<Station> = Vec::new();
    for run in &chain.runs {
        for station in of_run(chain, run) {
            match stations.last_mut().filter(|last| last.is_like(&station)) {
                Some(last) => {
                    last.is_end |= station.is_end;
                    last.name = last.name.take().or(station.name);
                }
                None => stations.push(station),
            }
        }
    }
    named(chain, &mut stations);
    for stop in &chain.stops {
        own_invert(stop, &mut stations);
    }
    stations
}

/// Gives a gully whose invert is not that of the run which ends or begins at it
/// a column of its own, on the side from which the water comes: how far it drops
/// there is what one looks for.
fn own_invert(stop: &Stop<'_>, stations: &mut Vec<Station>) {
    let invert = stop.figures.head_m.filter(|level| level.is_finite());
    let is_gully = stop.drain.kind() == Some(DrainKind::Gully);
    let Some(invert) = invert.filter(|_| is_gully) else {
        return;
    };
    let off = |station: &Station| (station.at_m - stop.at_m).abs();
    let nearest = stations
        .iter_mut()
        .enumerate()
        .min_by(|one, other| off(one.1).total_cmp(&off(other.1)));
    let Some((index, nearest)) = nearest else {
        return;
    };
    if nearest
        .invert_m
        .is_none_or(|own| (own - invert).abs() < SAME)
    {
        return;
    }
    let name = stop.drain.name.value.replace('-', " ");
    if nearest.name.as_ref() == Some(&name) {
        nearest.name = None;
    }
    let own = Station {
        at_m: nearest.at_m,
        name: Some(name),
        top_m: nearest.top_m,
        invert_m: Some(invert),
        is_end: true,
        ..Station::default()
    };
    let is_head = index == 0;
    stations.insert(if is_head { 0 } else { index + 1 }, own);
}

fn of_run(chain: &Chain<'_>, run: &Run<'_>) -> Vec<Station> {
    let length = run.course.length();
    let at = |along: f64, top_m: Option<f64>, is_end: bool| Station {
        at_m: run.from_m + along,
        name: None,
        top_m,
        crown_m: run.crown(along),
        has_crown: run
            .drain
            .body
            .as_ref()
            .is_some_and(|body| matches!(body.value, crate::model::DrainBody::Pipe(_))),
        invert_m: run.invert(along),
        is_end,
    };
    let mut stations = Vec::new();
    let tops: Vec<_> = run.tops().collect();
    let last = tops.len().saturating_sub(1);
    for (number, (piece, top)) in tops.into_iter().enumerate() {
        let (from, to) = (piece.from_m, piece.to_m());
        stations.push(at(from, top.map(|top| top.0), number == 0));
        let stops = chain.stops.iter().map(|stop| stop.at_m - run.from_m);
        let mut inside: Vec<f64> = stops
            .filter(|along| *along > from + SAME && *along < to - SAME)
            .collect();
        inside.dedup_by(|one, other| (*one - *other).abs() < SAME);
        for along in inside {
            let share = (along - from) / (to - from);
            let level = top.map(|(start, end)| start + (end - start) * share);
            stations.push(at(along.min(length), level, false));
        }
        stations.push(at(to.min(length), top.map(|top| top.1), number == last));
    }
    stations
}

/// Gives the stations the names of what stands or comes in there.
fn named(chain: &Chain<'_>, stations: &mut [Station]) {
    for stop in &chain.stops {
        let name = stop.drain.name.value.replace('-', " ");
        let name = match stop.drain.kind() {
            Some(kind) if kind.is_run() => format!("{name} comes in"),
            _ => name,
        };
        let off = |station: &Station| (station.at_m - stop.at_m).abs();
        let nearest = stations
            .iter_mut()
            .min_by(|one, other| off(one).total_cmp(&off(other)));
        if let Some(station) = nearest {
            station.name = Some(match station.name.take() {
                Some(known) => format!("{known}, {name}"),
                None => name,
            });
        }
    }
    if let Some(first) = stations.first_mut() {
        first.name.get_or_insert_with(|| "head".to_owned());
    }
    if let Some(last) = stations.last_mut() {
        let to = chain.to.map_or_else(
            || "end".to_owned(),
            |to| format!("to {}", to.replace('-', " ")),
        );
        last.name.get_or_insert(to);
    }
}
