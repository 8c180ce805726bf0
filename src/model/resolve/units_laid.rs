//! The sizes of what a surface is laid with, by how it is laid.

use super::super::job::{AshlarSize, Stated};
use super::super::reading::{Clause, Entry, Value};
use super::evaluate::Resolver;
use super::money::OWN;
use super::want::Range;
use crate::findings::{Finding, Fix};
use crate::geometry::Point;
use crate::units::{Quantity, show};
use crate::vocabulary::{Pattern, ValueKind};

/// How far the shares of ashlar may lie off the whole, by rounding.
const OFF: f64 = 0.005;

/// What a `laid` entry says of its units.
#[derive(Default)]
pub(crate) struct UnitsLaid {
    pub units: Option<(Stated<Quantity>, Stated<Quantity>)>,
    pub sizes: Vec<AshlarSize>,
    pub wide: Option<Stated<Quantity>>,
    pub centre: Option<Stated<Point>>,
}

impl Resolver<'_> {
    /// What a `laid` entry says of its units.
    pub(crate) fn units_laid(&mut self, entry: &Entry, pattern: &Stated<Pattern>) -> UnitsLaid {
        let own = pattern.value;
        let mut laid = UnitsLaid::default();
        let stated = entry.clause("units");
        if let Some(clause) = stated {
            let is_wide = clause.filled.get("WIDE").is_some();
            let is_shared = clause.filled.get("SHARE").is_some();
            match own {
                Pattern::Courses if !is_wide => self.no_width(entry, Some(clause)),
                Pattern::Ashlar if is_wide => self.no_sizes(entry, Some(clause)),
                Pattern::Ashlar => laid.sizes = self.sizes(clause),
                Pattern::Courses => laid.wide = self.length_laid(clause, "WIDE"),
                _ if is_wide => {
                    self.misplaced(clause, "only courses are known by their width", own)
                }
                _ if is_shared => self.misplaced(clause, "only ashlar is of sizes by share", own),
                _ => {
                    let long = self.length_laid(clause, "LENGTH");
                    let wide = self.length_laid(clause, "WIDTH");
                    laid.units = long.zip(wide);
                }
            }
        } else if entry.complete {
            match own {
                Pattern::Courses => self.no_width(entry, None),
                Pattern::Ashlar => self.no_sizes(entry, None),
                _ => {}
            }
        }
        laid.centre = self.centre_laid(entry, own);
        if let Some(clause) = entry.clause("from")
            && matches!(own, Pattern::Rings | Pattern::Courses | Pattern::Ashlar)
        {
            let message = format!(
                "{} has no start: it is not laid out unit by unit",
                own.word()
            );
            self.find(Finding::new("entry-misplaced", clause.place, message));
        }
        laid
    }

    fn length_laid(&mut self, clause: &Clause, slot: &str) -> Option<Stated<Quantity>> {
        let (kind, range) = (ValueKind::Length, Range::Positive);
        self.wanted(&clause.filled, slot, kind, range, OWN)
    }

    fn misplaced(&mut self, clause: &Clause, only: &str, own: Pattern) {
        let message = format!("{only}, not {}: write the size of a unit", own.word());
        self.find(
            Finding::new("entry-misplaced", clause.place, message)
                .help("It is written `units 200 mm by 100 mm`."),
        );
    }

    fn no_width(&mut self, entry: &Entry, clause: Option<&Clause>) {
        let message = "how wide are the courses? Their units are of all lengths";
        let place = clause.map_or(entry.place, |clause| clause.place);
        self.find(
            Finding::new("entry-missing", place, message)
                .help("It is written `laid courses, units 300 mm wide`."),
        );
    }

    fn no_sizes(&mut self, entry: &Entry, clause: Option<&Clause>) {
        let message = "of which sizes is the ashlar, and how much of each?";
        let place = clause.map_or(entry.place, |clause| clause.place);
        self.find(Finding::new("entry-missing", place, message).help(
            "It is written `laid ashlar, units 600 mm by 900 mm of 40 % and 600 mm by 600 mm of 60 %`.",
        ));
    }

    /// The middle of rings, which they need and nothing else has.
    fn centre_laid(&mut self, entry: &Entry, own: Pattern) -> Option<Stated<Point>> {
        match (entry.clause("centre"), own) {
            (Some(clause), Pattern::Rings) => self.point(&clause.filled, "POINT", OWN),
            (Some(clause), _) => {
                let message = format!("only rings have a centre, not {}", own.word());
                self.find(Finding::new("entry-misplaced", clause.place, message));
                None
            }
            (None, Pattern::Rings) if entry.complete => {
                let message = "round which point do the rings lie? State their centre";
                let finding = Finding::new("entry-missing", entry.place, message);
                let fix = Fix::judged(
                    "Write `centre (0, 0)`, and put the point there",
                    entry.place.end(),
                    ", centre (0, 0)",
                );
                self.find(finding.fix(fix));
                None
            }
            _ => None,
        }
    }

    /// The sizes of ashlar, whose shares must make up the whole.
    fn sizes(&mut self, clause: &Clause) -> Vec<AshlarSize> {
        let mut sizes: Vec<AshlarSize> = Vec::new();
        let (mut length, mut width) = (None, None);
        let mut is_read = true;
        let mut lengths = 0;
        for (slot, value, _) in &clause.filled.0 {
            let Value::Quantity(expression) = value else {
                continue;
            };
            let (kind, range) = match *slot {
                "SHARE" => (ValueKind::Share, Range::Share),
                _ => (ValueKind::Length, Range::Positive),
            };
            let found = self.want(expression, kind, range, OWN);
            is_read &= found.is_some();
            match *slot {
                "LENGTH" => {
                    lengths += 1;
                    length = found;
                }
                "WIDTH" => width = found,
                _ => {
                    let both = length.take().zip(width.take()).zip(found);
                    sizes.extend(both.map(|((length, width), share)| AshlarSize {
                        length,
                        width,
                        share,
                    }));
                }
            }
        }
        if !is_read {
            return Vec::new();
        }
        if sizes.len() < lengths {
            let message = "how much of the area is of this size? Each size has its share";
            self.find(Finding::new("entry-missing", clause.place, message).help(
                "It is written `units 600 mm by 900 mm of 40 % and 600 mm by 600 mm of 60 %`.",
            ));
            return Vec::new();
        }
        let whole: f64 = sizes.iter().map(|size| size.share.value.si()).sum();
        if (whole - 1.0).abs() > OFF {
            let message = format!(
                "the shares come to {}, and must come to 100 %",
                show::share(whole)
            );
            let finding = Finding::new("value-range", clause.place, message);
            self.find(match sizes.split_last() {
                Some((last, rest)) if whole - last.share.value.si() < 1.0 => {
                    let rest: f64 = rest.iter().map(|size| size.share.value.si()).sum();
                    let left = show::share(1.0 - rest);
                    let title = format!("Make the last {left}");
                    finding.fix(Fix::judged(title, last.share.place, left))
                }
                _ => finding,
            });
            return Vec::new();
        }
        sizes
    }
}
