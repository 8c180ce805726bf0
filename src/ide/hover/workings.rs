//! Workings as Markdown.

use crate::analysis::Analysis;
use crate::ide::markdown::{origin, paragraphs};
use crate::quantities::{FigureRef, Working, working};

/// The working of a figure: what went in, and the steps to the figure.
pub(crate) fn card(analysis: &Analysis, of: FigureRef) -> Option<String> {
    let working = working(&analysis.job, &analysis.figures, of)?;
    (!working.steps.is_empty()).then(|| shown(analysis, &working))
}

fn shown(analysis: &Analysis, working: &Working) -> String {
    let inputs = working.inputs.iter().map(|input| {
        let from = input
            .origin
            .map(|from| origin(analysis, from))
            .unwrap_or_default();
        let from = if from.is_empty() {
            from
        } else {
            format!(" ({from})")
        };
        format!("- {} {}{from}\n", input.name, input.value)
    });
    let steps = working.steps.iter().map(|step| {
        let formula = if step.numbers.is_empty() || step.formula == step.numbers {
            step.formula.clone()
        } else {
            format!("{} = {}", step.formula, step.numbers)
        };
        format!("- {} = {formula} = **{}**\n", step.gives, step.result)
    });
    paragraphs([
        format!("**{}**", working.title),
        inputs.collect(),
        steps.collect(),
        working.remarks.join("\n\n"),
    ])
}
