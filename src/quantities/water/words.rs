//! What becomes of a surface's water, in the words of the job's region.

use super::{Amount, ComesFrom, End, Fate, Shut, Way};
use crate::geometry::Tag;
use crate::model::{Job, Surface};
use crate::units::show;
use crate::vocabulary::Term;

impl Way {
    /// The edge and what becomes of the water there: `off south`, `over east
    /// onto court`, `to the building at north, along it and off west`.
    pub fn described(&self, job: &Job, own: &Surface) -> String {
        let edge = place_name(own, self.edge);
        let named = |other: usize| {
            let other = job.surfaces.get(other);
            other.map_or("its neighbour", |other| other.name.value.as_str())
        };
        let first = match self.fate {
            Fate::Off => return format!("off {edge}"),
            Fate::Onto(other) => return format!("over {edge} onto {}", named(other)),
            Fate::Unknown(other) => {
                let other = named(other);
                return format!("over {edge} to {other}; how they lie is not known");
            }
            Fate::Drained(taker) => {
                let drain = taker_name(job, taker);
                return match self.edge {
                    Some(_) => format!("over {edge} into {drain}"),
                    None => format!("into {drain}"),
                };
            }
            Fate::Shut(Shut::Proud) => format!("to the edging that stands proud at {edge}"),
            Fate::Shut(Shut::Building) => format!("to the building at {edge}"),
            Fate::Shut(Shut::Higher(other)) => {
                format!("to {edge}, where {} stands higher", named(other))
            }
            Fate::Shut(Shut::Facing(other)) => {
                format!("to the valley with {} at {edge}", named(other))
            }
        };
        match self.end {
            Some(end) => first + &end.described(job, own),
            None => first,
        }
    }

    /// The flow, and what else comes there, as far as it is known:
    /// `14.2 m² with what comes from elsewhere, 0.2 l/s`.
    pub fn flow_told(&self, job: &Job) -> Option<String> {
        let system = job.heading.system();
        let Amount { area_m2, .. } = self.all;
        let all = match area_m2 {
            None => return Some("what comes from elsewhere is not known".to_owned()),
            Some(all) if all > self.area_m2 * (1.0 + 1e-9) => {
                let all = show::area(all, system);
                Some(format!("{all} with what comes from elsewhere"))
            }
            Some(_) => None,
        };
        let flow = self.flow.map(|flow| show::flow(flow, system));
        let parts: Vec<String> = all.into_iter().chain(flow).collect();
        (!parts.is_empty()).then(|| parts.join(", "))
    }
}

/// Where the water of a surface goes, in words: what goes the same way, as over
/// the pieces of one edge, together.
pub fn told_together(ways: &[Way], job: &Job, own: &Surface) -> Vec<(String, Way)> {
    let mut all: Vec<(String, Way)> = Vec::new();
    for way in ways {
        let words = way.described(job, own);
        match all.iter_mut().find(|(other, _)| *other == words) {
            Some((_, other)) => other.take_in(way),
            None => all.push((words, way.clone())),
        }
    }
    all
}

impl Way {
    /// Adds what goes the same way.
    fn take_in(&mut self, other: &Way) {
        let sum = |one: Option<f64>, other: Option<f64>| Some(one? + other?);
        self.area_m2 += other.area_m2;
        self.share += other.share;
        self.weighted_m2 = sum(self.weighted_m2, other.weighted_m2);
        self.all = Amount {
            area_m2: sum(self.all.area_m2, other.all.area_m2),
            weighted_m2: sum(self.all.weighted_m2, other.all.weighted_m2),
        };
        self.flow = sum(self.flow, other.flow);
    }
}

impl End {
    /// What follows on the edge along which water runs.
    fn described(self, job: &Job, own: &Surface) -> String {
        match self {
            End::Off { surface, side, .. } => {
                let Some(other) = job.surfaces.get(surface) else {
                    return String::new();
                };
                let edge = other.sides.get(side as usize).map(|side| side.edge);
                let edge = edge.map_or_else(String::new, |edge| other.edge_name(edge));
                match surface == own.index {
                    true => format!(", along it and off {edge}"),
                    false => format!(", along it and off {edge} of {}", other.name.value),
                }
            }
            End::Drained(taker) => format!(", along it and into {}", taker_name(job, taker)),
            End::Stands { surface, .. } if surface != own.index => {
                let other = job.surfaces.get(surface);
                let other = other.map_or("", |other| other.name.value.as_str());
                format!(", along it, and stands on {other}")
            }
            End::Stands { .. } => ", where it stands".to_owned(),
            End::Unknown => ", along it; where to is not known".to_owned(),
        }
    }
}

impl ComesFrom {
    /// From what it comes: `court over south`, `corner-gully`, `roof`.
    pub fn described(&self, job: &Job) -> String {
        let surface = |index: usize| job.surfaces.get(index).map(AsRef::as_ref);
        let name = |own: &Surface| own.name.value.clone();
        match self {
            ComesFrom::Surface(index, edge) => {
                surface(*index).map_or_else(String::new, |own| match edge {
                    Some(edge) => format!("{} over {}", own.name.value, own.edge_name(*edge)),
                    None => own.name.value.clone(),
                })
            }
            ComesFrom::Led(index) | ComesFrom::Whole(index) => {
                surface(*index).map_or_else(String::new, name)
            }
            ComesFrom::Drain(index) => taker_name(job, Some(*index)),
            ComesFrom::Named(name) => name.clone(),
        }
    }
}

/// What takes water: a drain by its name, or a channel of which a surface
/// alone tells.
fn taker_name(job: &Job, taker: Option<usize>) -> String {
    match taker.and_then(|index| job.drains.get(index)) {
        Some(drain) => drain.name.value.clone(),
        None => format!("the {}", Term::Channel.word(job.heading.region())),
    }
}

/// Where on a surface water leaves: an edge of its shape, or inside.
pub(super) fn place_name(own: &Surface, edge: Option<Tag>) -> String {
    edge.map_or_else(|| "the drain in it".to_owned(), |edge| own.edge_name(edge))
}
