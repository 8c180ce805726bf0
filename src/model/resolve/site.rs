//! The `site` section worked out.

use super::super::job::{Ground, Job, Site, SoilCondition, Stated, Tree};
use super::super::reading::Entry;
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::heading::text_of;
use super::want::Range;
use crate::findings::{FileId, Finding};
use crate::geometry::{Plane, Point, Vector};
use crate::materials::{Soil, soils};
use crate::units::{Number, Quantity};
use crate::vocabulary::{SoilWord, ValueKind};

const OWN: FileId = FileId(0);

impl Resolver<'_> {
    /// Fills in the site.
    pub fn site(&mut self, job: &mut Job) {
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
        let floor = stated_floor.or_else(|| {
            let datum = datum.as_ref()?;
            let lower = datum.value.to_lowercase();
            ["floor", "sill", "threshold"]
                .iter()
                .any(|word| lower.contains(word))
                .then(|| {
                    Stated::new(
                        Quantity::new(Number::ZERO, crate::units::Dimension::LENGTH),
                        datum.place,
                    )
                })
        });
        let rainfall = |resolver: &mut Self, key: &str, slot: &str| {
            let entry = section.entry(key)?;
            resolver.wanted(
                &entry.filled,
                slot,
                ValueKind::Rainfall,
                Range::Positive,
                OWN,
            )
        };
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
            damp_course: length(self, "damp-course", "LEVEL", Range::Any),
            foundation: length(self, "foundation", "LEVEL", Range::Any),
            vents: length(self, "vents", "LEVEL", Range::Any),
            weep_holes: length(self, "weep-holes", "LEVEL", Range::Any),
            walls: section
                .entry("walls")
                .and_then(|entry| entry.filled.chosen("WALLS")),
            cladding: length(self, "cladding", "LEVEL", Range::Any),
            ground: self.ground(section),
            storm: rainfall(self, "storm", "RAIN"),
            infiltration: rainfall(self, "infiltration", "RATE"),
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
        let mut spots: Vec<(Point, f64, Option<Vector>, &Entry)> = Vec::new();
        let mut levels = Vec::new();
        for entry in section.all("ground") {
            let level = self.wanted(&entry.filled, "LEVEL", ValueKind::Length, Range::Any, OWN)?;
            let at = match entry.filled.get("PLACE") {
                None => Point::ORIGIN,
                Some(_) => self.point(&entry.filled, "PLACE", OWN)?.value,
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
                    Some(Vector {
                        x: -slope.value.si() * toward.x,
                        y: -slope.value.si() * toward.y,
                    })
                }
            };
            spots.push((at, level.value.si(), falling, entry));
            levels.push(level);
        }
        let places = spots.iter().map(|(_, _, _, entry)| entry.place).collect();
        let plane = match spots.as_slice() {
            [] => return None,
            [(at, level, falling, _)] => {
                Plane::through(*level, *at, falling.unwrap_or(Vector { x: 0.0, y: 0.0 }))
            }
            [first, second, third] => {
                let points = [(first.0, first.1), (second.0, second.1), (third.0, third.1)];
                match Plane::from_points(&points) {
                    Some(plane) => plane,
                    None => {
                        self.find(Finding::new(
                            "value-range",
                            third.3.place,
                            "the three ground levels lie on one line, and so give no plane",
                        ));
                        return None;
                    }
                }
            }
            [_, .., last] => {
                self.find(
                    Finding::new(
                        "value-range",
                        last.3.place,
                        "the ground is one level, or three levels at points; this is neither",
                    )
                    .help("With one level the ground may fall: `ground -4 in at (0, 0), falling 2 % toward south`."),
                );
                return None;
            }
        };
        Some(Ground {
            plane,
            levels,
            places,
        })
    }
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
