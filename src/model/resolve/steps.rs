//! Flights of steps worked out. They are few and small, and are worked out
//! anew at each edit.

use std::sync::Arc;

use super::super::job::{
    Core, CoreFoot, Ending, Facing, Job, Stated, Steps, StepsBase, Tread, TreadBed,
};
use super::super::reading::{Clause, Entry};
use super::builds::thickness_of_unit;
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::heading::text_of;
use super::money::OWN;
use super::want::Range;
use crate::findings::{Finding, Fix};
use crate::geometry::Vector;
use crate::units::Quantity;
use crate::vocabulary::{NameSpace, Role, ValueKind};

/// More risers than any flight has.
const MOST_RISERS: f64 = 200.0;

impl Resolver<'_> {
    /// Fills in the flights of steps of the file itself, in order.
    pub(crate) fn all_steps(&mut self, job: &mut Job) {
        let own = self.own("steps").into_iter();
        let steps = own.filter_map(|(_, section)| self.flight(section));
        job.steps = Arc::new(steps.map(Arc::new).collect());
    }

    /// What a flight of steps says of itself.
    fn flight(&mut self, section: &LogicalSection) -> Option<Steps> {
        let name = section.name()?;
        let at = section.entry("at");
        let core = section.entry("core").and_then(|entry| self.core(entry));
        self.core_has_base(core.as_ref(), section);
        let count = section.entry("risers");
        let risers = count.and_then(|entry| self.risers(entry));
        let base = section.entry("base").and_then(|entry| self.base(entry));
        Some(Steps {
            name: Stated::new(name.value.to_owned(), name.place),
            section: section.at(),
            has_lost_line: section.has_lost_line(),
            place: section.place(),
            from: self.ending(section, "from", Ending::Ground),
            to: self.ending(section, "to", Ending::Floor),
            at: at.and_then(|entry| self.point(&entry.filled, "POINT", OWN)),
            climbing: at.and_then(|entry| self.climbing(entry)),
            width: self.length_of(section, "width", "WIDTH"),
            going: self.length_of(section, "going", "GOING"),
            is_count_unread: count.is_some() && risers.is_none(),
            risers,
            tread: section.entry("tread").and_then(|entry| self.tread(entry)),
            bed: section.entry("bed").and_then(|entry| self.tread_bed(entry)),
            riser: section.entry("riser").and_then(|entry| self.facing(entry)),
            core,
            base,
            fall: section.entry("fall").and_then(|entry| {
                let (kind, range) = (ValueKind::Slope, Range::NotNegative);
                self.wanted(&entry.filled, "SLOPE", kind, range, OWN)
            }),
            handrail: section.entry("handrail").and_then(|entry| {
                let side = entry.filled.chosen("SIDE")?;
                Some(Stated::new(side.value, entry.place))
            }),
            notes: section
                .all("note")
                .filter_map(|entry| text_of(Some(entry), "NOTE"))
                .collect(),
        })
    }

    fn length_of(
        &mut self,
        section: &LogicalSection,
        key: &str,
        slot: &str,
    ) -> Option<Stated<Quantity>> {
        let entry = section.entry(key)?;
        let (kind, range) = (ValueKind::Length, Range::Positive);
        self.wanted(&entry.filled, slot, kind, range, OWN)
    }

    /// What the flight begins or ends at; `word` is what is meant where the
    /// entry names no surface and states no level.
    fn ending(
        &mut self,
        section: &LogicalSection,
        key: &str,
        word: Ending,
    ) -> Option<Stated<Ending>> {
        let entry = section.entry(key).filter(|entry| entry.complete)?;
        let filled = &entry.filled;
        if let Some((name, place)) = filled.name("SURFACE") {
            self.look_up(NameSpace::Surfaces, name, place, OWN)?;
            return Some(Stated::new(Ending::Surface(name.to_owned()), place));
        }
        if filled.get("LEVEL").is_some() {
            let level = self.wanted(filled, "LEVEL", ValueKind::Length, Range::Any, OWN)?;
            return Some(Stated::new(Ending::Level(level.value), level.place));
        }
        Some(Stated::new(word, entry.place))
    }

    fn climbing(&mut self, entry: &Entry) -> Option<Stated<Vector>> {
        let Some(clause) = entry.clause("climbing") else {
            if entry.complete {
                let message = "which way does the flight climb? Say so: `climbing north`";
                let finding = Finding::new("entry-missing", entry.place, message);
                let end = entry.place.end();
                let ways = ["north", "east", "south", "west"].into_iter();
                self.find(ways.fold(finding, |finding, way| {
                    let written = format!(", climbing {way}");
                    finding.fix(Fix::judged(format!("Write `climbing {way}`"), end, written))
                }));
            }
            return None;
        };
        let (way, place) = clause.filled.get("WAY")?;
        Some(Stated::new(self.direction(way, OWN)?, place))
    }

    fn risers(&mut self, entry: &Entry) -> Option<Stated<Quantity>> {
        let (kind, range) = (ValueKind::Count, Range::Whole);
        let count = self.wanted(&entry.filled, "COUNT", kind, range, OWN)?;
        if count.value.si() <= MOST_RISERS {
            return Some(count);
        }
        let message = format!("no flight has more than {MOST_RISERS} risers");
        self.find(Finding::new("value-range", count.place, message));
        None
    }

    /// The positive length in a slot of a clause.
    fn clause_length(&mut self, clause: Option<&Clause>, slot: &str) -> Option<Stated<Quantity>> {
        let (kind, range) = (ValueKind::Length, Range::Positive);
        self.wanted(&clause?.filled, slot, kind, range, OWN)
    }

    /// The waste of an entry, and whether one is stated that could not be
    /// made out.
    pub(crate) fn waste_of(&mut self, entry: &Entry) -> (Option<Stated<Quantity>>, bool) {
        let Some(clause) = entry.clause("waste") else {
            return (None, false);
        };
        let waste = self.share(&clause.filled, Range::NotNegative);
        let is_unread = waste.is_none();
        (waste, is_unread)
    }

    fn tread(&mut self, entry: &Entry) -> Option<Tread> {
        let (of, of_place) = entry.filled.name("MATERIAL")?;
        let of = Stated::new(self.substance_named(of, of_place, OWN), of_place);
        let stated = entry.values().next();
        let thickness = match stated {
            Some(_) => self.clause_length(stated, "THICKNESS"),
            None => thickness_of_unit(&of.value),
        };
        if stated.is_none() && thickness.is_none() && entry.complete {
            let message = "how thick is the tread? The riser that shows hangs on it";
            self.find(
                Finding::new("entry-missing", entry.place, message)
                    .help("It is written `tread MATERIAL, THICKNESS`."),
            );
        }
        let (waste, is_waste_unread) = self.waste_of(entry);
        let count = entry.clause("in");
        let pieces = count.and_then(|clause| {
            let (kind, range) = (ValueKind::Count, Range::Whole);
            self.wanted(&clause.filled, "COUNT", kind, range, OWN)
        });
        let overhang = entry.clause("nosing");
        let nosing = overhang.and_then(|clause| {
            let (kind, range) = (ValueKind::Length, Range::NotNegative);
            self.wanted(&clause.filled, "OVERHANG", kind, range, OWN)
        });
        Some(Tread {
            of,
            thickness,
            is_nosing_unread: overhang.is_some() && nosing.is_none(),
            nosing,
            is_count_unread: count.is_some() && pieces.is_none(),
            pieces,
            waste,
            is_waste_unread,
            place: whole(entry),
        })
    }

    fn tread_bed(&mut self, entry: &Entry) -> Option<TreadBed> {
        let (of, of_place) = entry.filled.name("MATERIAL")?;
        let of = Stated::new(self.substance_named(of, of_place, OWN), of_place);
        let thickness = self.clause_length(entry.values().next(), "THICKNESS");
        if entry.values().next().is_none() && entry.complete {
            let message = "how thick is the bed under the treads? The mix hangs on it";
            self.find(
                Finding::new("entry-missing", entry.place, message)
                    .help("It is written `bed MATERIAL, THICKNESS`."),
            );
        }
        let (waste, is_waste_unread) = self.waste_of(entry);
        Some(TreadBed {
            of,
            thickness,
            waste,
            is_waste_unread,
            place: whole(entry),
        })
    }

    fn facing(&mut self, entry: &Entry) -> Option<Facing> {
        let (of, of_place) = entry.filled.name("MATERIAL")?;
        let of = Stated::new(self.substance_named(of, of_place, OWN), of_place);
        let (waste, is_waste_unread) = self.waste_of(entry);
        Some(Facing {
            of,
            thickness: self.clause_length(entry.values().next(), "THICKNESS"),
            flat: entry.clause("flat").map(|clause| clause.place),
            courses: self.clause_length(entry.clause("courses"), "HEIGHT"),
            waste,
            is_waste_unread,
            place: whole(entry),
        })
    }

    fn core(&mut self, entry: &Entry) -> Option<Core> {
        let (of, of_place) = entry.filled.name("MIX")?;
        let of = Stated::new(self.substance_named(of, of_place, OWN), of_place);
        let (waste, is_waste_unread) = self.waste_of(entry);
        let (down, to_foot) = (entry.clause("down"), entry.clause("to"));
        let down_to = match (down, to_foot) {
            (Some(_), _) => Some(CoreFoot::Base),
            (None, Some(_)) => Some(CoreFoot::Foot),
            (None, None) => None,
        };
        match (down, to_foot) {
            (Some(_), Some(other)) => self.find(Finding::new(
                "entry-twice",
                other.place,
                "the core reaches down to the base already: keep one of the two",
            )),
            (None, None) if entry.complete => {
                let finding = Finding::new(
                    "entry-missing",
                    entry.place,
                    "how far down does the core reach? Say so: `down to base`, or `to foot`",
                );
                let end = entry.place.end();
                let ways = ["down to base", "to foot"].into_iter();
                self.find(ways.fold(finding, |finding, way| {
                    finding.fix(Fix::judged(
                        format!("Write `{way}`"),
                        end,
                        format!(", {way}"),
                    ))
                }));
            }
            _ => {}
        }
        Some(Core {
            of,
            down_to,
            waste,
            is_waste_unread,
            place: whole(entry),
        })
    }

    /// A core that reaches down to a base needs one.
    fn core_has_base(&mut self, core: Option<&Core>, section: &LogicalSection) {
        let Some(core) = core.filter(|core| core.down_to == Some(CoreFoot::Base)) else {
            return;
        };
        let message = match section.entry("base") {
            None if section.has_lost_line() => return,
            None => {
                "the core reaches down to a base and the steps have none: state one, or write `to foot`"
            }
            Some(base) if base.clause("top").is_none() && base.complete => {
                "how deep does the core go? The base does not say where its top is: `top 200 mm below the foot`"
            }
            Some(_) => return,
        };
        self.find(Finding::new("entry-missing", core.place, message));
    }

    fn base(&mut self, entry: &Entry) -> Option<StepsBase> {
        let layer = self.layer(entry, Role::Base, OWN)?;
        let top = entry.clause("top").and_then(|clause| {
            let (kind, range) = (ValueKind::Length, Range::NotNegative);
            self.wanted(&clause.filled, "DEPTH", kind, range, OWN)
        });
        Some(StepsBase { layer, top })
    }
}

/// An entry with its clauses.
fn whole(entry: &Entry) -> crate::findings::Place {
    let last = entry.clauses.last();
    entry
        .place
        .to(last.map_or(entry.place, |clause| clause.place))
}
