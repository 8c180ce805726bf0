//! The drains.

use super::{About, Completion, CompletionKind};
use crate::analysis::Analysis;
use crate::ide::writing::Writing;
use crate::model::{Drain, Region};

/// The drains, each with what it is, but for the one being written: none runs
/// into itself.
pub(crate) fn but_own(analysis: &Analysis, writing: &Writing) -> Vec<Completion> {
    let drains = analysis.job.drains.iter();
    let others = drains.filter(|drain| Some(drain.section) != writing.section);
    let region = analysis.job.heading.region();
    others.map(|drain| offer(drain, region)).collect()
}

/// All drains, each with what it is.
pub(crate) fn all(analysis: &Analysis) -> Vec<Completion> {
    let drains = analysis.job.drains.iter();
    let region = analysis.job.heading.region();
    drains.map(|drain| offer(drain, region)).collect()
}

fn offer(drain: &Drain, region: Region) -> Completion {
    let kind = drain.kind().map_or("drain", |kind| kind.called_in(region));
    named(&drain.name.value, format!("a {kind}"))
}

fn named(name: &str, detail: String) -> Completion {
    Completion::new(name, CompletionKind::Name, detail).about(About::Name(name.to_owned()))
}
