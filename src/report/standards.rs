//! The standards that apply to a file, and what each of their lines does.

use super::words::{WIDTH, wrapped};
use super::{shown_path, spot};
use crate::analysis::Analysis;
use crate::findings::Place;
use crate::model::{Region, SetLimit, Standard};
use crate::rules;
use crate::units::show;

/// What applies to a file: each standard, the nearest first, with the line of
/// everything that it sets. Paths as seen from a folder.
pub fn standards(analysis: &Analysis, folder: &str) -> String {
    let applied = analysis.limits.standards.iter().zip(&analysis.standards);
    let parts: Vec<String> = applied
        .map(|(standard, path)| {
            let head = format!(
                "{}, {}\n",
                shown_path(path, folder),
                standard.title_in_words()
            );
            head + &lines(analysis, standard)
        })
        .collect();
    match parts.is_empty() {
        true => {
            "no standard applies here: the built-in limits of each job's region do\n".to_owned()
        }
        false => parts.join("\n"),
    }
}

/// What a standard sets, in the order of its lines.
fn lines(analysis: &Analysis, standard: &Standard) -> String {
    let mut said: Vec<(Place, String)> = Vec::new();
    said.extend(
        standard
            .limits
            .iter()
            .map(|set| (set.place, limit(analysis, set))),
    );
    said.extend(standard.severities.iter().map(|set| {
        let because = because(set.reason.as_deref());
        (
            set.place,
            format!(
                "{} is {}{because}",
                set.rule.value,
                with_article(set.severity.word())
            ),
        )
    }));
    said.extend(standard.off.iter().map(|(rule, reason)| {
        (
            rule.place,
            format!("{} is off{}", rule.value, because(reason.as_deref())),
        )
    }));
    said.extend(standard.firm.iter().map(|rule| {
        (
            rule.place,
            format!("{} may not be accepted, eased or switched off", rule.value),
        )
    }));
    said.sort_by_key(|(place, _)| *place);
    if said.is_empty() {
        return "  sets nothing\n".to_owned();
    }
    let line = |(place, text): (Place, String)| {
        let at = spot(analysis, place, "/").map_or(0, |at| at.start.0);
        wrapped(&text, &format!("  {:<9} ", format!("line {at}")), WIDTH) + "\n"
    };
    said.into_iter().map(line).collect()
}

/// A limit that is set, and the built-in one that it stands for.
fn limit(analysis: &Analysis, set: &SetLimit) -> String {
    let system = analysis.job.heading.system();
    let name = &set.rule.value;
    let row = set
        .row
        .as_ref()
        .map_or(String::new(), |row| format!(", row {}", row.value));
    let region = set.region.map_or(String::new(), |region| {
        format!(" in region {}", region.word())
    });
    let value = show::quantity(&set.value.value, system);
    let built_in = rules::find(name).and_then(|rule| rule.limit(row_of(set)));
    let built_in = built_in.map(|limit| {
        let region = set.region.unwrap_or(Region::General);
        limit.value(region).written.join(" or ")
    });
    let instead = built_in.map_or(String::new(), |usual| format!(", instead of {usual}"));
    format!("{name}{row}: {value}{region}{instead}")
}

/// The row that is set: the plain one if none is named.
fn row_of(set: &SetLimit) -> &str {
    set.row.as_ref().map_or("plain", |row| row.value.as_str())
}

fn because(reason: Option<&str>) -> String {
    reason.map_or(String::new(), |reason| format!(", because \"{reason}\""))
}

fn with_article(severity: &str) -> String {
    match severity {
        "error" => "an error".to_owned(),
        "warning" => "a warning".to_owned(),
        other => other.to_owned(),
    }
}
