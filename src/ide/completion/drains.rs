//! The drains.

use super::{About, Completion, CompletionKind};
use crate::analysis::Analysis;
use crate::ide::writing::Writing;
use crate::model::DrainKind;

/// The drains, each with what it is, but for the one being written: none runs
/// into itself.
pub fn but_own(analysis: &Analysis, writing: &Writing) -> Vec<Completion> {
    let drains = analysis.job.drains.iter();
    let others = drains.filter(|drain| Some(drain.section) != writing.section);
    let named = others.map(|drain| {
        let kind = drain.kind().map_or("drain", DrainKind::word);
        named(&drain.name.value, format!("a {kind}"))
    });
    named.collect()
}

fn named(name: &str, detail: String) -> Completion {
    Completion::new(name, CompletionKind::Name, detail).about(About::Name(name.to_owned()))
}
