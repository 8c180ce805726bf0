//! What a check may look at.

use super::Rule;
use super::limits::{InForce, Limits};
use crate::findings::{Finding, LimitFrom};
use crate::model::{Job, Region};
use crate::quantities::Figures;
use crate::units::{Quantity, System};

/// A job, its figures, and the limits in force.
pub struct Context<'a> {
    /// The job.
    pub job: &'a Job,
    /// Its figures.
    pub figures: &'a Figures,
    /// The limits in force.
    pub limits: &'a Limits,
}

impl Context<'_> {
    /// How figures are shown.
    pub fn system(&self) -> System {
        self.job.heading.system()
    }

    /// Whose limits apply.
    pub fn region(&self) -> Region {
        self.job.heading.region()
    }

    /// The limit of a rule's row that is in force here.
    pub fn limit(&self, rule: &'static Rule, row: &str) -> Option<InForce> {
        self.limits.in_force(rule, row, self.region())
    }

    /// A quantity as the job shows it.
    pub fn show(&self, quantity: &Quantity) -> String {
        crate::units::show::quantity(quantity, self.system())
    }

    /// A length in metres as the job shows it.
    pub fn show_length(&self, metres: f64) -> String {
        crate::units::show::length(metres, self.system())
    }
}

impl Finding {
    /// With the limit that was missed and whose it is.
    #[must_use]
    pub fn against(mut self, limit: &InForce, context: &Context<'_>) -> Finding {
        self.limit = Some(limit.shown(context.system()));
        self.limit_from = Some(LimitFrom {
            what: limit.whose.clone(),
            source: limit.source.to_string(),
            line: limit.line,
        });
        self
    }
}
