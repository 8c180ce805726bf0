//! What the files define which the spec uses.

use super::{About, Completion, CompletionKind};
use crate::analysis::Analysis;
use crate::ide::names;

/// What other files lend that sections of some kinds define, each with the
/// file that it comes from.
pub(crate) fn lent(analysis: &Analysis, kinds: &[&str]) -> impl Iterator<Item = Completion> {
    let wanted = names::lent(analysis)
        .into_iter()
        .filter(|lent| kinds.contains(&lent.kind.as_str()));
    wanted.map(|lent| {
        let detail = format!("a {} of {}", lent.kind, lent.file);
        Completion::new(&lent.name, CompletionKind::Name, detail).about(About::Name(lent.name))
    })
}
