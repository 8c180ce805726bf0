//! The drains.

use super::{About, Completion, CompletionKind};
use crate::analysis::Analysis;
use crate::ide::writing::Writing;
use crate::model::{Drain, DrainKind};

/// The drains, each with what it is, but for the one being written: none runs
/// into itself.
pub(crate) fn but_own(analysis: &Analysis, writing: &Writing) -> Vec<Completion> {
    let drains = analysis.job.drains.iter();
    let others = drains.filter(|drain| Some(drain.section) != writing.section);
    others.map(|drain| offer(drain)).collect()
}

/// All drains, each with what it is.
pub(crate) fn all(analysis: &Analysis) -> Vec<Completion> {
    let drains = analysis.job.drains.iter();
    drains.map(|drain| offer(drain)).collect()
}

fn offer(drain: &Drain) -> Completion {
    let kind = drain.kind().map_or("drain", DrainKind::word);
    named(&drain.name.value, format!("a {kind}"))
}

fn named(name: &str, detail: String) -> Completion {
    Completion::new(name, CompletionKind::Name, detail).about(About::Name(name.to_owned()))
}
