//! Which way a surface falls, how steeply, and where it stands against the
//! building.

use super::wording::entry_before;
use super::{Context, Found, InForce, Rule, trial};
use crate::findings::Fix;
use crate::geometry::{Edge, Vector};
use crate::model::{Contact, Surface, literal};
use crate::units::{Number, Quantity};
use crate::vocabulary::entry;

/// Slopes that differ by less, in metres per metre, are the same: a fiftieth
/// of a millimetre over a metre.
pub(crate) const SAME_SLOPE: f64 = 2e-5;

/// The way water runs on a surface, as long as the slope is steep, in metres
/// per metre: from its fall, or from its levels if there is more than one.
/// Nothing if neither says.
pub(crate) fn downhill(surface: &Surface) -> Option<Vector> {
    let gradient = match (&surface.plane, &surface.fall) {
        (_, Some(fall)) => fall.gradient(),
        (Some(plane), None) if surface.levels.len() > 1 => plane.gradient(),
        _ => return None,
    };
    let downhill = -gradient;
    (downhill.x.is_finite() && downhill.y.is_finite()).then_some(downhill)
}

/// How a surface falls the way that one goes on it, and across that way.
pub(crate) struct Travel {
    /// The way down, a unit vector of the plan.
    pub down: Vector,
    /// How steep it is that way, in metres per metre.
    pub running: f64,
    /// How steep it is across it, in metres per metre.
    pub across: f64,
}

/// How a ramp or a drive falls along and across: of a fall and a cross fall
/// one goes down the steeper, and where only levels say how it falls straight
/// down.
pub(crate) fn travel(surface: &Surface) -> Option<Travel> {
    let downhill = downhill(surface)?;
    let down = match &surface.fall {
        None => downhill.unit(),
        Some(fall) => match &fall.cross {
            Some((cross, toward)) if cross.value.si() > fall.slope.value.si() => *toward,
            _ => fall.toward,
        },
    };
    Some(Travel {
        down,
        running: downhill.dot(down),
        across: downhill.dot(down.left()).abs(),
    })
}

/// The sides of a surface that stand against the building.
pub(crate) fn building_edges(surface: &Surface) -> impl Iterator<Item = &Edge> {
    surface
        .edges()
        .filter(|edge| surface.contact(edge.tag) == Some(Contact::Building))
}

/// The sides against the building that no drain channel keeps dry.
pub(crate) fn undrained_building_edges(surface: &Surface) -> impl Iterator<Item = &Edge> {
    building_edges(surface).filter(|edge| surface.channel(edge.tag).is_none())
}

/// The sides against the building, of any surface, that a surface lies nearer
/// to than `reach`, each with the distance, in metres.
pub(crate) fn building_edges_within<'a>(
    context: &Context<'a>,
    surface: &'a Surface,
    reach: f64,
) -> impl Iterator<Item = (&'a Edge, f64)> {
    // No point of an outline is farther from a corner of it than half way
    // round.
    let may_be_near = move |edge: &Edge| {
        surface.outlines().any(|outline| {
            let half_way = 0.5 * outline.outer.length();
            let mut corners = outline.corners();
            let start = corners.next();
            start
                .is_some_and(|start| edge.start.distance(start) <= reach + half_way + edge.length())
        })
    };
    let surfaces = context.all_surfaces().iter();
    surfaces
        .filter(|other| !other.meets.is_empty())
        .flat_map(|other| building_edges(other))
        .filter(move |edge| may_be_near(edge))
        .map(move |edge| (edge, apart(edge, surface)))
        .filter(move |(_, distance)| *distance < reach)
}

/// The shortest distance between a side and the rim of a surface, in metres.
fn apart(edge: &Edge, surface: &Surface) -> f64 {
    surface
        .edges()
        .map(|side| side.distance_to_edge(edge))
        .fold(f64::INFINITY, f64::min)
}

/// The direction from a side into the shape, at right angles to the side, or
/// to its chord for an arc.
pub(crate) fn inward(edge: &Edge) -> Vector {
    edge.chord().unit().left()
}

/// How steeply water runs away from each side that stands against the
/// building without a drain channel between, in metres per metre, the least
/// and the most of each; negative where it runs towards it.
pub(crate) fn away_from_building(surface: &Surface, downhill: Vector) -> Vec<f64> {
    undrained_building_edges(surface)
        .map(|edge| edge.inward_share(downhill))
        .flat_map(|(least, most)| [least, most])
        .collect()
}

/// Whether water leaves a surface over a side, anywhere along it.
pub(crate) fn leaves_over(edge: &Edge, downhill: Vector) -> bool {
    edge.inward_share(downhill).0 < -SAME_SLOPE
}

/// A slope as a quantity, for what is shown and compared.
pub(crate) fn as_quantity(slope: f64) -> Option<Quantity> {
    Number::near(slope).map(Quantity::proportion)
}

/// A slope as a message shows it beside the limit that it misses:
/// `1.25 % (1:80)`.
pub(crate) fn beside(limit: &InForce, slope: f64, context: &Context<'_>) -> String {
    limit.beside_si(slope, context.system())
}

/// A slope as a spec writes it: `1:80` where that is a whole number, else in
/// per cent.
pub(crate) fn written(slope: f64) -> String {
    let run = 1.0 / slope;
    if run.is_finite() && run >= 1.0 && (run - run.round()).abs() < 1e-6 * run {
        return format!("1:{}", run.round());
    }
    let percent = format!("{:.2}", slope * 100.0);
    let percent = percent.trim_end_matches('0').trim_end_matches('.');
    format!("{percent} %")
}

/// The fix that restates the slope of a surface's fall for a rule. Only where
/// that alone settles the slope, one fall and no second level that would then
/// disagree, and puts nothing else wrong.
pub(crate) fn restated(
    context: &Context<'_>,
    rule: &Rule,
    surface: &Surface,
    slope: f64,
    found: &Found,
) -> Option<Fix> {
    let fall = surface.fall.as_ref()?;
    let text = written(slope);
    is_settled(context, rule, surface, literal(&text)?, fall.toward, found)
        .then(|| Fix::judged(format!("Make the fall {text}"), fall.slope.place, text))
}

/// The fix that turns a surface's fall away from the building. Only where one
/// edge meets the building, no second level or cross fall says otherwise, and
/// nothing else goes wrong.
pub(crate) fn turned_away(
    context: &Context<'_>,
    rule: &Rule,
    surface: &Surface,
    found: &Found,
) -> Option<Fix> {
    let fall = surface.fall.as_ref()?;
    let edge = only_building_edge(surface)?;
    let toward = building_edges(surface).map(inward).next()?;
    let slope = fall.slope.value;
    if !is_settled(context, rule, surface, slope, toward, found) {
        return None;
    }
    let title = format!("Turn the fall away from {edge}");
    let away = format!("{} away from {edge}", written(slope.si()));
    let text = entry("fall", &away);
    Some(Fix::judged(title, fall.place, text))
}

/// Whether another fall puts right what a rule finds, and nothing else wrong.
fn is_settled(
    context: &Context<'_>,
    rule: &Rule,
    surface: &Surface,
    slope: Quantity,
    toward: Vector,
    found: &Found,
) -> bool {
    let has_cross = surface
        .fall
        .as_ref()
        .is_some_and(|fall| fall.cross.is_some());
    if has_cross
        || surface.levels.len() > 1
        || found.is_trial()
        || context.is_misread(surface.section)
    {
        return false;
    }
    trial::with_fall(surface, slope, toward)
        .is_some_and(|after| trial::is_mended(context, rule, surface, &after))
}

/// The fix that states a fall away from the building where none is.
pub(crate) fn stated_anew(
    context: &Context<'_>,
    rule: &Rule,
    surface: &Surface,
    slope: f64,
    found: &Found,
) -> Option<Fix> {
    let edge = only_building_edge(surface)?;
    let level = surface.levels.first()?;
    let toward = building_edges(surface).map(inward).next()?;
    let text = written(slope);
    if !is_settled(context, rule, surface, literal(&text)?, toward, found) {
        return None;
    }
    let entry = entry_before("fall", &format!("{text} away from {edge}"));
    let title = format!("Let it fall {text} away from {edge}");
    Some(Fix::judged(title, level.place.start(), entry))
}

/// The name of the edge against the building, if there is just one and it is
/// straight.
pub(crate) fn only_building_edge(surface: &Surface) -> Option<&str> {
    let [meets] = surface.meets.as_slice() else {
        return None;
    };
    let straight = building_edges(surface).all(|edge| !edge.is_arc());
    let mut directions = building_edges(surface).map(inward);
    let first = directions.next()?;
    let one_way = directions.all(|other| other.dot(first) > 1.0 - 1e-9);
    (straight && one_way).then_some(meets.value.0.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slopes_are_written_as_the_trade_writes_them() {
        for (slope, text) in [
            (1.0 / 80.0, "1:80"),
            (0.02, "1:50"),
            (1.0 / 48.0, "1:48"),
            (0.05, "1:20"),
            (0.03, "3 %"),
            (0.0333, "3.33 %"),
            (0.015, "1.5 %"),
        ] {
            assert_eq!(written(slope), text);
        }
    }

    #[test]
    fn inward_is_to_the_left_of_an_edge() {
        use crate::geometry::Point;
        let north = Edge::line(Point::new(6.0, 4.0), Point::new(0.0, 4.0), 0);
        assert_eq!(inward(&north), Vector::new(0.0, -1.0));
    }
}
