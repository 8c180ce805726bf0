//! `drylay explain`: what the rules are.

use super::arguments::ExplainArguments;
use super::output::{tell, write_result};
use super::problem::Problem;
use super::run::{GOOD, Status};
use crate::report::{explained, listed_rules};
use crate::rules;

/// Explains a rule, or lists them.
pub fn explain(arguments: &ExplainArguments) -> Result<Status, Problem> {
    let rule = arguments.rule.as_deref().and_then(rules::find);
    let words: Vec<&str> = arguments
        .search
        .iter()
        .flat_map(|text| text.split_whitespace())
        .collect();
    let text = rule.map_or_else(|| listed_rules(&words), explained);
    if text.is_empty() {
        tell("no rule speaks of that");
    }
    write_result(&text, arguments.output.output.as_deref())?;
    Ok(GOOD)
}
