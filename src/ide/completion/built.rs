//! What work is done on: surfaces, drains and flights of steps.

use super::{About, Completion, CompletionKind, drains, quantities};
use crate::analysis::Analysis;

/// All of them, each with what it is.
pub(crate) fn offers(analysis: &Analysis) -> Vec<Completion> {
    let mut all = quantities::surfaces(analysis);
    all.extend(drains::all(analysis));
    all.extend(analysis.job.steps.iter().map(|steps| {
        let name = &steps.name.value;
        Completion::new(name, CompletionKind::Name, "steps").about(About::Name(name.clone()))
    }));
    all
}
