//! Limits: their rows, what is in force for a job, and whose limit it is.

use super::Rule;
use crate::findings::Place;
use crate::model::{Region, Standard, literal};
use crate::sources::Source;
use crate::units::{Quantity, System, show};

/// Whether a limit is a least or a most.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// A figure under it is found.
    Least,
    /// A figure over it is found.
    Most,
}

/// One limit of a rule: a named row with a value for each region.
#[derive(Debug, Clone, Copy)]
pub struct Limit {
    /// The row's name. `plain` is the one meant where none is named; a rule
    /// without a plain row means its first.
    pub row: &'static str,
    /// What the row is for, in words: `sand under pavers`.
    pub of: &'static str,
    /// Whether it is a least or a most.
    pub bound: Bound,
    /// The value where no region has its own.
    pub general: Value,
    /// The values of the regions that differ.
    pub regions: &'static [(Region, Value)],
}

/// A limit's value as bodies print it, with its source.
#[derive(Debug, Clone, Copy)]
pub struct Value {
    /// As a spec would write it; twins such as `150 mm` and `6 in` are both
    /// given, and the kinder one counts. Metric first.
    pub written: &'static [&'static str],
    /// Where it comes from.
    pub source: Source,
}

/// A limit as it is in force for a job.
#[derive(Debug, Clone)]
pub struct InForce {
    /// Its value; of twins the kinder one.
    pub value: Quantity,
    /// The twins as they are written, metric first.
    pub written: &'static [&'static str],
    /// Whether it is a least or a most.
    pub bound: Bound,
    /// Whose it is: `region uk, row pavers`, or the standard's title.
    pub whose: String,
    /// Where the built-in value comes from; common practice for a standard's.
    pub source: Source,
    /// The line of a standard that set it.
    pub line: Option<Place>,
}

impl Limit {
    /// The built-in value in a region.
    pub fn value(&self, region: Region) -> Value {
        self.regions
            .iter()
            .find(|(own, _)| *own == region)
            .map_or(self.general, |(_, value)| *value)
    }
}

impl InForce {
    /// The limit as the job shows it: of twins the one in the job's units.
    pub fn shown(&self, system: System) -> String {
        let twin = match (self.written, system) {
            ([metric, _], System::Metric) => Some(*metric),
            ([_, imperial], System::Imperial) => Some(*imperial),
            ([only], _) => Some(*only),
            _ => None,
        };
        let value = twin.and_then(literal).unwrap_or(self.value);
        show::quantity(&value, system)
    }

    /// Whether a figure keeps the limit; at the limit passes.
    pub fn allows(&self, figure: &Quantity) -> bool {
        use std::cmp::Ordering::{Greater, Less};
        !matches!(
            (self.bound, figure.compare(self.value)),
            (Bound::Least, Ok(Less)) | (Bound::Most, Ok(Greater))
        )
    }

    /// Whether a computed figure in SI keeps the limit, with room for the
    /// last digits of double precision.
    pub fn allows_si(&self, figure: f64) -> bool {
        let limit = self.value.si();
        let slack = 1e-9 * limit.abs().max(1e-6);
        match self.bound {
            Bound::Least => figure >= limit - slack,
            Bound::Most => figure <= limit + slack,
        }
    }
}

/// The limits in force: the built-in ones and a practice's own.
#[derive(Debug, Clone, Default)]
pub struct Limits {
    /// The standards that apply, the nearest first.
    pub standards: Vec<std::sync::Arc<Standard>>,
}

impl Limits {
    /// The limit of a rule's row in a region.
    pub fn in_force(&self, rule: &'static Rule, row: &str, region: Region) -> Option<InForce> {
        let limit = rule.limit(row)?;
        for standard in &self.standards {
            let for_row = || {
                let limits = standard.limits.iter().rev();
                limits.filter(|set| set.rule.value == rule.name && rule.row_meant(set) == row)
            };
            let set = for_row()
                .find(|set| set.region == Some(region))
                .or_else(|| for_row().find(|set| set.region.is_none()));
            if let Some(set) = set {
                return Some(InForce {
                    value: set.value.value,
                    written: &[],
                    bound: limit.bound,
                    whose: standard.title_in_words(),
                    source: Source::COMMON_PRACTICE,
                    line: Some(set.place),
                });
            }
        }
        let value = limit.value(region);
        let mut read = value.written.iter().filter_map(|text| literal(text));
        let first = read.next()?;
        let kindest = read.fold(first, |kindest, twin| match limit.bound {
            Bound::Least => kindest.min(twin).unwrap_or(kindest),
            Bound::Most => kindest.max(twin).unwrap_or(kindest),
        });
        let whose = if row == "plain" {
            format!("region {}", region.word())
        } else {
            format!("region {}, row {row}", region.word())
        };
        Some(InForce {
            value: kindest,
            written: value.written,
            bound: limit.bound,
            whose,
            source: value.source,
            line: None,
        })
    }
}
