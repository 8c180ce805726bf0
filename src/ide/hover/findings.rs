//! The findings at a place.

use super::rules;
use crate::analysis::Analysis;
use crate::findings::{Acceptance, Finding};
use crate::ide::markdown::{paragraphs, plain, sentence};
use crate::text::Span;

/// The findings that touch a place of the checked file, each as Markdown, and
/// the narrowest stretch that one of them is about. What the editor itself
/// tells there is not said again.
pub(crate) fn at(
    analysis: &Analysis,
    offset: u32,
    is_told: &dyn Fn(&Finding) -> bool,
) -> (Vec<String>, Span) {
    let mut narrowest = Span::at(offset);
    let mut here = Vec::new();
    for finding in analysis.findings.iter() {
        let Some((_, span)) = analysis.span(finding.place) else {
            continue;
        };
        if span.touches(offset) {
            if narrowest.is_empty() || span.len() < narrowest.len() {
                narrowest = span;
            }
            here.push(finding);
        }
    }
    // Several rules explained at length could not be read at a glance.
    let about_rule = |name| match here.len() {
        1 => rules::after_remedy(analysis, name),
        _ => rules::in_brief(name),
    };
    let shown = here
        .iter()
        .map(|finding| card(finding, is_told(finding), about_rule(finding.rule)))
        .collect();
    (shown, narrowest)
}

/// One finding: what it says unless that is told already, the limit and whose
/// it is, what to do, who accepts it, and what is known of its rule.
fn card(finding: &Finding, is_told: bool, about_rule: Option<String>) -> String {
    let is_told = is_told && !finding.is_caution();
    let word = match finding.severity {
        _ if finding.is_caution() => "caution",
        Some(severity) => severity.word(),
        None => "finding",
    };
    let title = match &finding.accepted {
        Some(_) => format!("**accepted {word}** · `{}`", finding.rule),
        None => format!("**{word}** · `{}`", finding.rule),
    };
    let said = match is_told {
        true => String::new(),
        false => paragraphs(
            std::iter::once(&*finding.message)
                .chain(finding.help.as_deref())
                .map(sentence),
        ),
    };
    let limit = limit(finding);
    // The document that a limit is from is not named again among the rule's.
    let about_rule: Vec<&str> = about_rule
        .iter()
        .flat_map(|about| about.lines())
        .filter(|line| !line.starts_with("- source: ") || !limit.lines().any(|own| own == *line))
        .collect();
    paragraphs([
        title,
        said,
        limit.clone(),
        rules::remedy(finding.rule).unwrap_or_default().to_owned(),
        finding
            .accepted
            .as_ref()
            .map(|accepted| acceptance(accepted))
            .unwrap_or_default(),
        about_rule.join("\n"),
    ])
}

fn limit(finding: &Finding) -> String {
    let measured = finding.measured();
    let Some(limit) = &measured.limit else {
        return String::new();
    };
    let mut text = match &measured.found {
        Some(found) => format!("- found: {found}\n- limit: {limit}"),
        None => format!("- limit: {limit}"),
    };
    if let Some(from) = &measured.limit_from {
        text += &format!(", {}", from.what);
        if !from.source.is_empty() {
            text += &format!("\n- source: {}", from.source);
        }
    }
    text
}

fn acceptance(accepted: &Acceptance) -> String {
    let by = accepted
        .by
        .as_ref()
        .map(|by| format!(" by {}", plain(by)))
        .unwrap_or_default();
    let until = accepted
        .until
        .as_ref()
        .map(|until| format!(" until {}", plain(until)))
        .unwrap_or_default();
    format!("Accepted{by}{until}: {}", plain(&accepted.reason))
}

#[cfg(test)]
mod tests {
    use crate::ide::fixture::analysed;
    use crate::ide::hover;

    #[test]
    fn the_figure_and_what_to_do_come_first_and_an_example_last() {
        let flat = crate::ide::fixture::COURT.replace("1:50", "1:400");
        let at = flat.find("1:400").unwrap() as u32;
        let shown = hover(&analysed(&flat), at, &|_| false).unwrap().markdown;
        let rule = crate::rules::find("fall-flat").unwrap();
        let parts = [
            "- found: ",
            "- limit: ",
            rule.remedy,
            rule.reason,
            "| limit |",
            "Breaks it:",
        ];
        let places = parts.map(|part| shown.find(part));
        assert!(
            places.iter().all(Option::is_some) && places.is_sorted(),
            "{shown}"
        );
        let said = shown.split("Breaks it:").next().unwrap();
        let mut lines: Vec<&str> = said.lines().filter(|line| !line.is_empty()).collect();
        let all = lines.len();
        lines.sort_unstable();
        lines.dedup();
        assert_eq!(lines.len(), all, "{shown}");
    }

    #[test]
    fn what_somebody_wrote_is_no_markdown() {
        let hostile = "![i](http://i.example) <b> [l](l) @all";
        let text = format!(
            "use \"{hostile}.patio\"\n\nshape yard\n  rectangle 6 m by 4 m\n\n\
             # {hostile}\nsurface yard\n  shape yard\n  build set\n  \
             accept fall-missing, because \"{hostile}\", by \"{hostile}\"\n\n\
             build set\n  paving concrete-paver, 60 mm\n"
        );
        let analysis = analysed(&text);
        for place in ["use \"!", "surface yard"] {
            let at = text.find(place).unwrap() + 5;
            let shown = hover(&analysis, at as u32, &|_| false);
            let shown = shown
                .unwrap_or_else(|| panic!("nothing at {place}"))
                .markdown;
            let left = shown
                .replace("\\!\\[", "")
                .replace("\\[", "")
                .replace("\\<", "");
            for mark in ["![", "[l]", "<b>", "http://"] {
                assert!(!left.contains(mark), "{place}: {mark} in {shown}");
            }
        }
    }
}
