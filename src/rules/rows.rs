//! The limits of a rule as they are in force, row by row and region by
//! region, for those who show them.

use super::Rule;
use super::limits::{Bound, InForce, Limit, Limits};
use crate::findings::Place;
use crate::model::{Region, literal};
use crate::units::System;

/// One row of a rule in one region: what is in force, and what it stands for.
#[derive(Debug, Clone)]
pub struct InRegion {
    /// The limit as it is declared.
    pub limit: &'static Limit,
    /// The region; `None` where the row is the same in each.
    pub region: Option<Region>,
    /// What is in force there.
    pub now: InForce,
    /// The built-in value as it is written, where a standard sets another.
    pub instead_of: &'static [&'static str],
    /// Where the standard writes the value.
    pub written_at: Option<Place>,
}

impl InRegion {
    /// The figure: as a job shows it in its units; without a job as it is
    /// written, by the standard that sets it or by the bodies that print it.
    /// `text` gives what stands at a place.
    pub fn figure(&self, system: Option<System>, text: &dyn Fn(Place) -> String) -> String {
        let as_set = || {
            let written = text(self.written_at?);
            literal(&written).map(|_| written)
        };
        match system {
            Some(system) => self.now.shown(system),
            None if self.now.written.is_empty() => {
                as_set().unwrap_or_else(|| self.now.shown(System::Metric))
            }
            None => self.now.written.join(" or "),
        }
    }

    /// The figure with its side: `at least 150 mm or 6 in`.
    pub fn bound(&self, system: Option<System>, text: &dyn Fn(Place) -> String) -> String {
        let side = match self.limit.bound {
            Bound::Least => "at least",
            Bound::Most => "at most",
        };
        format!("{side} {}", self.figure(system, text))
    }

    /// Where it comes from: `line 3 of standard.patio, instead of 1:80`, or
    /// the source of the built-in value. `line` names the line of a place.
    pub fn whence(&self, line: &dyn Fn(Place) -> String) -> String {
        match self.now.line {
            Some(place) => format!(
                "{}, instead of {}",
                line(place),
                self.instead_of.join(" or ")
            ),
            None => self.now.source.to_string(),
        }
    }

    /// The word for its region: `uk`, or `any` where each has the same.
    pub fn region_word(&self) -> &'static str {
        self.region.map_or("any", Region::word)
    }
}

impl Limits {
    /// Every limit of a rule as it is in force in a region; without one, in
    /// each region that differs from the general one, which comes first.
    pub fn rows(&self, rule: &'static Rule, region: Option<Region>) -> Vec<InRegion> {
        let limits: &'static [Limit] = rule.limits;
        limits
            .iter()
            .flat_map(|limit| match region {
                Some(region) => self.row(rule, limit, region).into_iter().collect(),
                None => self.row_by_region(rule, limit),
            })
            .collect()
    }

    fn row_by_region(&self, rule: &'static Rule, limit: &'static Limit) -> Vec<InRegion> {
        let Some(mut general) = self.row(rule, limit, Region::General) else {
            return Vec::new();
        };
        let others = Region::ALL
            .iter()
            .filter(|region| **region != Region::General)
            .filter_map(|region| self.row(rule, limit, *region))
            .filter(|row| !is_same(row, &general));
        let others: Vec<InRegion> = others.collect();
        if others.is_empty() {
            general.region = None;
        }
        std::iter::once(general).chain(others).collect()
    }

    fn row(&self, rule: &'static Rule, limit: &'static Limit, region: Region) -> Option<InRegion> {
        let now = self.in_force(rule, limit.row, region)?;
        let instead_of = match now.line {
            Some(_) => limit.value(region).written,
            None => &[],
        };
        let lines = self.standards.iter().flat_map(|standard| &standard.limits);
        let set = now
            .line
            .and_then(|line| lines.into_iter().find(|set| set.place == line));
        Some(InRegion {
            limit,
            region: Some(region),
            written_at: set.map(|set| set.value.place),
            now,
            instead_of,
        })
    }
}

/// Whether two rows are in force alike: by one line of a standard, or by one
/// built-in value.
fn is_same(one: &InRegion, other: &InRegion) -> bool {
    match (one.now.line, other.now.line) {
        (Some(one), Some(other)) => one == other,
        (None, None) => (one.now.written, one.now.source) == (other.now.written, other.now.source),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::findings::{FileId, Place, SectionRef};
    use crate::model::{SetLimit, Standard, Stated, literal};
    use crate::rules::find;
    use crate::syntax::SectionId;
    use crate::text::Span;

    fn place(start: u32) -> Place {
        Place {
            section: SectionRef {
                file: FileId(1),
                section: SectionId(0),
            },
            span: Span::new(start, start + 4),
        }
    }

    /// Limits of `fall-flat` that a standard sets, each in its own line.
    fn limits(set: &[(&str, Option<Region>)]) -> Limits {
        let lines = set.iter().enumerate().map(|(line, (value, region))| {
            let place = place(10 * line as u32);
            SetLimit {
                rule: Stated::new("fall-flat".to_owned(), place),
                row: None,
                value: Stated::new(literal(value).unwrap(), place),
                region: *region,
                place,
            }
        });
        let standard = Standard {
            limits: lines.collect(),
            ..Standard::default()
        };
        Limits {
            standards: vec![Arc::new(standard)],
        }
    }

    /// The plain rows: region, value, and what it stands for.
    fn plain(limits: &Limits, region: Option<Region>) -> String {
        let rows = limits.rows(find("fall-flat").unwrap(), region);
        let rows = rows.iter().filter(|row| row.limit.row == "plain");
        let said = rows.map(|row| {
            let region = row.region.map_or("any", Region::word);
            let instead = row.instead_of.join("/");
            format!("{region} 1:{:.0} {instead}", 1.0 / row.now.value.si())
        });
        said.map(|row| row.trim_end().to_owned())
            .collect::<Vec<_>>()
            .join(", ")
    }

    #[test]
    fn rows_are_told_by_region_where_they_differ() {
        let uk = Some(Region::Uk);
        for (set, region, reported) in [
            (&[][..], None, "general 1:80, us 1:100"),
            (&[], uk, "uk 1:80"),
            (&[("1:70", None)], uk, "uk 1:70 1:80"),
            (&[("1:70", None)], Some(Region::Us), "us 1:70 1 %"),
            // One line for all of them is told once.
            (&[("1:70", None)], None, "any 1:70 1:80"),
            (
                &[("1:70", uk)],
                None,
                "general 1:80, us 1:100, uk 1:70 1:80",
            ),
            (
                &[("1:70", None), ("1:60", uk)],
                None,
                "general 1:70 1:80, uk 1:60 1:80",
            ),
        ] {
            assert_eq!(plain(&limits(set), region), reported, "{set:?} {region:?}");
        }
    }
}
