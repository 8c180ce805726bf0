//! The `site` section worked out.

use super::super::job::{DesignStorm, Ground, Job, Rain, Site, SoilCondition, Stated, Tree};
use super::super::reading::Entry;
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::heading::text_of;
use super::want::Range;
use crate::findings::{FileId, Finding, Fix, Place, Severity};
use crate::geometry::{Plane, Point, Vector};
use crate::materials::{Soil, soils};
use crate::units::{Dimension, Number, Quantity};
use crate::vocabulary::{SoilWord, ValueKind};

const OWN: FileId = FileId(0);

/// What a datum at the floor is called by.
const FLOOR: &[&str] = &[
    "floor",
    "floors",
    "ffl",
    "sill",
    "cill",
    "threshold",
    "door",
    "doors",
    "doorstep",
    "slab",
];

/// What a datum at the damp course is called by.
const DAMP_COURSE: &[&str] = &["dpc", "damp", "dampcourse"];

/// Words after which a datum only says where it is: a cover by the door.
const WHERE: &[&str] = &[
    "above", "at", "before", "below", "beside", "by", "from", "in", "near", "on", "opposite",
    "outside", "over", "under",
];

/// Words of the garden and of the neighbour, whose floors and sills are not
/// the house's.
const ELSEWHERE: &[&str] = &[
    "gate",
    "patio",
    "terrace",
    "paving",
    "path",
    "garden",
    "lawn",
    "yard",
    "valley",
    "road",
    "street",
    "neighbour",
    "neighbours",
    "neighbor",
    "neighbors",
];

/// Parts of a house that are called after the garden.
const OF_THE_HOUSE: &[&str] = &[
    "garden room",
    "garden-room",
    "garden door",
    "garden-door",
    "patio door",
    "patio-door",
    "terrace door",
    "terrace-door",
];

/// Whether a datum is called by one of these words, and not after the garden.
fn is_called(datum: &str, words: &[&str]) -> bool {
    let lower = OF_THE_HOUSE
        .iter()
        .fold(datum.to_lowercase(), |text, part| {
            text.replace(part, "door")
        });
    let mut all = lower.split(|one: char| !one.is_alphanumeric());
    if all.any(|word| ELSEWHERE.contains(&word)) {
        return false;
    }
    let mut own = lower.split(|one: char| !one.is_alphanumeric());
    let mut own = own.by_ref().take_while(|word| !WHERE.contains(word));
    own.any(|word| words.contains(&word))
}

impl Resolver<'_> {
    /// Fills in the site.
    pub(crate) fn site(&mut self, job: &mut Job) {
        let Some((_, section)) = self.own("site").into_iter().next() else {
            return;
        };
        let length = |resolver: &mut Self, key: &str, slot: &str, range: Range| {
            let entry = section.entry(key)?;
            resolver.wanted(&entry.filled, slot, ValueKind::Length, range, OWN)
        };
        let soil = section.entry("soil").and_then(|entry| {
            let stated = entry.filled.chosen::<SoilWord>("SOIL")?;
            Some(Stated::new(soil_of(stated.value), stated.place))
        });
        let conditions = section.entry("soil").map(conditions).unwrap_or_default();
        let datum = text_of(section.entry("datum"), "WHAT");
        let stated_floor = length(self, "floor", "LEVEL", Range::Any);
        let at_datum = |words: &[&str]| {
            let datum = datum.as_ref()?;
            let level = Quantity::new(Number::ZERO, Dimension::LENGTH);
            is_called(&datum.value, words).then(|| Stated::new(level, datum.place))
        };
        let floor = stated_floor.or_else(|| at_datum(FLOOR));
        let damp_course = length(self, "damp-course", "LEVEL", Range::Any);
        let damp_course = damp_course.or_else(|| at_datum(DAMP_COURSE));
        let services = section.entry("services");
        job.site = Site {
            place: Some(section.place()),
            soil,
            conditions,
            frost: length(self, "frost", "DEPTH", Range::NotNegative),
            swell: section.entry("swell").and_then(|entry| {
                self.wanted(&entry.filled, "SHARE", ValueKind::Share, Range::Share, OWN)
            }),
            datum,
            floor,
            damp_course,
            foundation: length(self, "foundation", "LEVEL", Range::Any),
            vents: length(self, "vents", "LEVEL", Range::Any),
            weep_holes: length(self, "weep-holes", "LEVEL", Range::Any),
            walls: section
                .entry("walls")
                .and_then(|entry| entry.filled.chosen("WALLS")),
            cladding: length(self, "cladding", "LEVEL", Range::Any),
            ground: self.ground(section),
            storms: section
                .all("storm")
                .filter_map(|entry| self.storm(entry))
                .collect(),
            infiltration: section
                .entry("infiltration")
                .and_then(|entry| self.infiltration(entry)),
            soakaways: section
                .all("soakaway")
                .filter_map(|entry| self.point(&entry.filled, "AT", OWN))
                .collect(),
            trees: section
                .all("tree")
                .filter_map(|entry| self.tree(entry))
                .collect(),
            north: section.entry("north").and_then(|entry| {
                self.wanted(&entry.filled, "ANGLE", ValueKind::Angle, Range::Any, OWN)
            }),
            access: length(self, "access", "WIDTH", Range::Positive),
            services_located: self.checked_date(services),
            notes: section
                .all("note")
                .filter_map(|entry| text_of(Some(entry), "NOTE"))
                .collect(),
        };
    }

    /// A `storm` entry.
    fn storm(&mut self, entry: &Entry) -> Option<DesignStorm> {
        let mut wanted = |slot: &str, kind: ValueKind| {
            self.wanted(&entry.filled, slot, kind, Range::Positive, OWN)
        };
        let rain = match entry.filled.get("DEPTH") {
            Some(_) => Rain::Depth(wanted("DEPTH", ValueKind::Length)?.value),
            None => Rain::Rate(wanted("RAIN", ValueKind::Rainfall)?.value),
        };
        let duration = match entry.filled.get("DURATION") {
            Some(_) => Some(wanted("DURATION", ValueKind::Time)?),
            None => None,
        };
        let raised = match entry.clause("raised") {
            Some(clause) => Some(self.wanted(
                &clause.filled,
                "SHARE",
                ValueKind::Share,
                Range::NotNegative,
                OWN,
            )?),
            None => None,
        };
        Some(DesignStorm {
            rain,
            duration,
            raised,
            place: entry.place,
        })
    }

    /// How fast the ground takes water, as depth over time: `30 min/in` is
    /// an inch in 30 minutes.
    fn infiltration(&mut self, entry: &Entry) -> Option<Stated<Quantity>> {
        let (kind, range) = (ValueKind::Infiltration, Range::Positive);
        let stated = self.wanted(&entry.filled, "RATE", kind, range, OWN)?;
        if stated.value.dimension != Dimension::PERCOLATION {
            return Some(stated);
        }
        let rate = Number::ONE.divided_by(stated.value.number)?;
        let rate = Quantity::new(rate, Dimension::RAINFALL);
        Some(Stated::new(rate, stated.place))
    }

    fn tree(&mut self, entry: &Entry) -> Option<Stated<Tree>> {
        let trunk = self.wanted(
            &entry.filled,
            "TRUNK",
            ValueKind::Length,
            Range::Positive,
            OWN,
        )?;
        let at = self.point(&entry.filled, "AT", OWN)?;
        let place = trunk.place.to(at.place);
        let (trunk, at) = (trunk.value, at.value);
        Some(Stated::new(Tree { trunk, at }, place))
    }

    /// The plane of the ground: level, falling, or through three points.
    fn ground(&mut self, section: &LogicalSection) -> Option<Ground> {
        let entries: Vec<&Entry> = section.all("ground").collect();
        let spots: Option<Vec<Spot>> = entries.iter().map(|entry| self.spot(entry)).collect();
        let spots = spots?;
        let places = entries.iter().map(|entry| entry.place).collect();
        let plane = match spots.as_slice() {
            [] => return None,
            [only] => {
                if let (None, Some((_, clause))) = (only.at, only.falling) {
                    self.holds_where(only, clause);
                }
                let gradient = only.falling.map(|(gradient, _)| gradient);
                let at = only.at.unwrap_or(Point::ORIGIN);
                Plane::through(only.level.value.si(), at, gradient.unwrap_or_default())
            }
            [first, second, third] => {
                let reported = spots.iter().map(|spot| self.is_one_of_three(spot));
                // Each of them is told of.
                if reported.filter(|is_one| !is_one).count() > 0 {
                    return None;
                }
                let point = |spot: &Spot| (spot.at.unwrap_or(Point::ORIGIN), spot.level.value.si());
                let points = [point(first), point(second), point(third)];
                match Plane::from_points(&points) {
                    Some(plane) => plane,
                    None => {
                        self.find(Finding::new(
                            "value-range",
                            third.place,
                            "the three ground levels lie on one line, so they give no plane",
                        ));
                        return None;
                    }
                }
            }
            [..] if section.has_lost_line() => return None,
            [_, .., last] => {
                self.find(
                    Finding::new(
                        "value-range",
                        last.place,
                        "the ground is one level, or three levels at points; this is neither",
                    )
                    .help("With one level the ground may fall: `ground -4 in at (0, 0), falling 2 % toward south`."),
                );
                return None;
            }
        };
        Some(Ground {
            plane,
            levels: spots.into_iter().map(|spot| spot.level).collect(),
            places,
        })
    }

    /// A `ground` entry.
    fn spot(&mut self, entry: &Entry) -> Option<Spot> {
        let level = self.wanted(&entry.filled, "LEVEL", ValueKind::Length, Range::Any, OWN)?;
        let at = match entry.filled.get("PLACE") {
            None => None,
            Some(_) => Some(self.point(&entry.filled, "PLACE", OWN)?.value),
        };
        let falling = match entry.clause("falling") {
            None => None,
            Some(clause) => {
                let slope = self.wanted(
                    &clause.filled,
                    "SLOPE",
                    ValueKind::Slope,
                    Range::NotNegative,
                    OWN,
                )?;
                let (heading, _) = clause.filled.get("HEADING")?;
                let toward = self.direction(heading, OWN)?;
                let gradient = Vector {
                    x: -slope.value.si() * toward.x,
                    y: -slope.value.si() * toward.y,
                };
                Some((gradient, clause.place))
            }
        };
        Some(Spot {
            level,
            at,
            falling,
            place: entry.place,
        })
    }

    /// Ground that falls is at its level in one point only, and not all mean
    /// the plan's own.
    fn holds_where(&mut self, spot: &Spot, falling: Place) {
        let finding = Finding::new(
            "value-odd",
            spot.place.to(falling),
            "ground that falls is this high at one point only, and (0, 0) is taken: say at which",
        );
        let fix = Fix::judged("Say it at (0, 0)", spot.level.place.end(), " at (0, 0)");
        self.find(finding.severity(Severity::Advisory).fix(fix));
    }

    /// Whether a level is one of three that make a plane: at a point, and
    /// with no fall of its own.
    fn is_one_of_three(&mut self, spot: &Spot) -> bool {
        if let Some((_, clause)) = spot.falling {
            self.find(Finding::new(
                "word-stray",
                clause,
                "three ground levels say how the ground falls: take this out, or two of the levels",
            ));
        }
        if spot.at.is_none() {
            self.find(Finding::new(
                "entry-missing",
                spot.place,
                "each of three ground levels holds at a point: say where this one does",
            ));
        }
        spot.falling.is_none() && spot.at.is_some()
    }
}

/// A `ground` entry worked out.
struct Spot {
    level: Stated<Quantity>,
    at: Option<Point>,
    /// Its gradient, and the clause that says so.
    falling: Option<(Vector, Place)>,
    place: Place,
}

fn soil_of(word: SoilWord) -> &'static Soil {
    match word {
        SoilWord::Gravel => &soils::GRAVEL,
        SoilWord::Sand => &soils::SAND,
        SoilWord::Silt => &soils::SILT,
        SoilWord::Clay => &soils::CLAY,
        SoilWord::Loam => &soils::LOAM,
        SoilWord::Peat => &soils::PEAT,
        SoilWord::Rock => &soils::ROCK,
        SoilWord::Fill => &soils::FILL,
    }
}

fn conditions(entry: &Entry) -> Vec<Stated<SoilCondition>> {
    [
        ("firm", SoilCondition::Firm),
        ("soft", SoilCondition::Soft),
        ("wet", SoilCondition::Wet),
        ("expansive", SoilCondition::Expansive),
        ("tilled", SoilCondition::Tilled),
        ("compacted", SoilCondition::Compacted),
    ]
    .into_iter()
    .filter_map(|(word, condition)| {
        let clause = entry.clause(word)?;
        Some(Stated::new(condition, clause.place))
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_soil_is_called_by_its_word() {
        for word in SoilWord::ALL {
            assert_eq!(soil_of(*word).word, word.word());
        }
        assert_eq!(SoilWord::ALL.len(), soils::SOILS.len());
    }
}
