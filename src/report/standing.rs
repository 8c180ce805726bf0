//! Whether a spec stands, as each JSON document of a job says it.

use serde::Serialize;

use super::Summary;
use crate::analysis::Analysis;

/// What the check of the spec finds, what is accepted left out.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct Standing {
    errors: usize,
    warnings: usize,
}

impl Standing {
    /// How a spec stands.
    pub(super) fn of(analysis: &Analysis) -> Standing {
        let summary = Summary::standing(analysis);
        Standing {
            errors: summary.errors,
            warnings: summary.warnings,
        }
    }
}
