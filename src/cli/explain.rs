//! `drylay explain`: what the rules are, and the words of the language.

use std::path::Path;

use super::applied::applied_at;
use super::arguments::ExplainArguments;
use super::output::{refuse_inputs, tell, write_result};
use super::problem::Problem;
use super::source::current_folder;
use super::status::{GOOD, Status};
use crate::report::{explained, explained_word, listed_rules};
use crate::rules;

/// Explains a rule or a word, or lists the rules.
pub(crate) fn explain(arguments: &ExplainArguments) -> Result<Status, Problem> {
    let name = arguments.name.as_deref();
    let text = match (name.and_then(rules::find), name.and_then(explained_word)) {
        (Some(rule), _) => {
            let folder = current_folder()?;
            let path = arguments.path.as_deref().unwrap_or(Path::new("."));
            explained(rule, &*applied_at(path, &folder)?, &folder)
        }
        (None, Some(word)) => word,
        (None, None) => listed(arguments.search.as_deref().unwrap_or_default()),
    };
    let output = arguments.output.output.as_deref();
    refuse_inputs(output, arguments.path.as_deref())?;
    write_result(&text, output)?;
    Ok(GOOD)
}

/// The rules that speak of every one of the words.
fn listed(words: &str) -> String {
    let words: Vec<&str> = words.split_whitespace().collect();
    let text = listed_rules(&words);
    if text.is_empty() {
        tell("no rule deals with that");
    }
    text
}
