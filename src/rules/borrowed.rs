//! Figures that a region borrows: no document of its own is known that gives
//! one, so that of another country stands in, and counts for less.

use super::limits::InForce;
use super::{Context, Limit};
use crate::findings::{Finding, Severity};
use crate::model::Region;

impl Limit {
    /// Whether a region borrows the figure: it has a line of its own for its
    /// source, and in that the general figure.
    fn is_borrowed(&self, region: Region) -> bool {
        let own = self.regions.iter().find(|(own, _)| *own == region);
        own.is_some_and(|(_, value)| value.written == self.general.written)
    }
}

impl Finding {
    /// As an advisory that says so, where the limit of a row is an American figure
    /// and the job is elsewhere. What a practice sets itself is its own.
    #[must_use]
    pub fn where_borrowed(self, row: &Limit, limit: &InForce, context: &Context<'_>) -> Finding {
        let region = context.region();
        if limit.line.is_some() || !row.is_borrowed(region) {
            return self;
        }
        let people = match region {
            Region::Uk => "British",
            Region::Au => "Australian",
            Region::Us | Region::General => return self,
        };
        self.severity(Severity::Advisory).help(format!(
            "The figure is American; no {people} one is known here."
        ))
    }
}
