//! The standards that apply to a file, what each of their lines does, and
//! every limit that is in force there.

use super::applied::Applied;
use super::shown_path;
use super::words::{WIDTH, wrapped};
use crate::analysis::Analysis;
use crate::findings::Place;
use crate::model::{SetLimit, Standard};
use crate::rules::{self, Family, InRegion, Rule};
use crate::text::with_article;

/// What applies to a file: each standard, the nearest first, with the line of
/// everything that it sets; then every limit in force, family by family, with
/// where it comes from. Paths as seen from a folder.
pub fn standards(analysis: &Analysis, folder: &str) -> String {
    let applied = Applied { analysis, folder };
    format!(
        "STANDARDS THAT APPLY {place}\n{}\nLIMITS IN FORCE {place}\n{}",
        lines_that_apply(&applied),
        in_force(&applied),
        place = applied.place()
    )
}

/// Each standard with its lines.
fn lines_that_apply(applied: &Applied<'_>) -> String {
    let analysis = applied.analysis;
    let standards = analysis.limits.standards.iter().zip(&analysis.standards);
    let parts: Vec<String> = standards
        .enumerate()
        .map(|(index, (standard, path))| {
            let head = format!(
                "  {}, {}\n",
                shown_path(path, applied.folder),
                standard.title_in_words()
            );
            head + &lines(applied, standard, index)
        })
        .collect();
    match parts.is_empty() {
        true => "  none: the built-in limits of each job's region apply\n".to_owned(),
        false => parts.concat(),
    }
}

/// What a standard sets, in the order of its lines; `index` counts the
/// standards from the nearest.
fn lines(applied: &Applied<'_>, standard: &Standard, index: usize) -> String {
    let limits = &applied.analysis.limits;
    let unless_firm = |rule: &str| match limits.firm_beyond(index + 1, rule) {
        Some((_, firm)) => format!("; does not count: {} holds it firm", firm.title_in_words()),
        None => String::new(),
    };
    let mut said: Vec<(Place, String)> = Vec::new();
    let limits = standard.limits.iter();
    said.extend(limits.map(|set| (set.place, limit(applied, set))));
    said.extend(standard.severities.iter().map(|set| {
        let because = because(set.reason.as_deref());
        let severity = weight(set.severity.word());
        let rule = &set.rule.value;
        let firm = match set.eases {
            true => unless_firm(rule),
            false => String::new(),
        };
        let text = format!("{rule} is {severity}{because}{firm}");
        (set.place, text)
    }));
    said.extend(standard.off.iter().map(|(rule, reason)| {
        let because = because(reason.as_deref());
        let text = format!("{} is off{because}{}", rule.value, unless_firm(&rule.value));
        (rule.place, text)
    }));
    said.extend(standard.firm.iter().map(|rule| {
        let text = format!("{} may not be accepted, eased or switched off", rule.value);
        (rule.place, text)
    }));
    said.sort_by_key(|(place, _)| *place);
    if said.is_empty() {
        return "    sets nothing\n".to_owned();
    }
    let line = |(place, text): (Place, String)| {
        let line = applied.line_number(place);
        wrapped(&text, &format!("    {:<9} ", format!("line {line}")), WIDTH) + "\n"
    };
    said.into_iter().map(line).collect()
}

/// A limit that is set, as it is written.
fn limit(applied: &Applied<'_>, set: &SetLimit) -> String {
    let name = &set.rule.value;
    let row = set.row.as_ref();
    let row = row.map_or_else(String::new, |row| format!(", row {}", row.value));
    let region = set.region.map_or_else(String::new, |region| {
        format!(" in region {}", region.word())
    });
    format!("{name}{row}: {}{region}", applied.text(set.value.place))
}

/// Every limit in force, family by family, rule by rule.
fn in_force(applied: &Applied<'_>) -> String {
    let limits = &applied.analysis.limits;
    let rows_of = |rule: &'static Rule| (rule, limits.rows(rule, applied.region()));
    let families = Family::ALL.iter().filter_map(|family| {
        let rules: Vec<_> = rules::of(*family)
            .map(rows_of)
            .filter(|(_, rows)| !rows.is_empty())
            .collect();
        (!rules.is_empty()).then(|| {
            let tables = rules.iter().map(|(rule, rows)| table(applied, rule, rows));
            format!("\n{}\n{}", family.title(), tables.collect::<String>())
        })
    });
    families.collect()
}

/// The limits of one rule: row, region where any may hold, figure, whence.
fn table(applied: &Applied<'_>, rule: &Rule, rows: &[InRegion]) -> String {
    let text = |place| applied.text(place);
    let cells: Vec<[String; 3]> = rows
        .iter()
        .map(|row| {
            let region = match applied.region() {
                Some(_) => "",
                None => row.region_word(),
            };
            let figure = row.bound(applied.system(), &text);
            [row.limit.row.to_owned(), region.to_owned(), figure]
        })
        .collect();
    let width = |column: usize| {
        let of_column = cells.iter().filter_map(|row| row.get(column));
        of_column
            .map(|cell| cell.chars().count())
            .max()
            .unwrap_or(0)
    };
    let (widest_row, widest_region, widest_figure) = (width(0), width(1), width(2));
    let mut table = format!("  {}{}\n", rule.name, said_of(applied, rule));
    let mut row_before = String::new();
    for (row, [name, region, figure]) in rows.iter().zip(cells) {
        let shown = match name == row_before {
            true => "",
            false => name.as_str(),
        };
        let mut first = format!("    {shown:<widest_row$}  ");
        if widest_region > 0 {
            first += &format!("{region:<widest_region$}  ");
        }
        first += &format!("{figure:<widest_figure$}  ");
        let whence = row.whence(&|place| applied.line(place));
        table += &(wrapped(&whence, &first, WIDTH) + "\n");
        row_before = name;
    }
    table
}

/// How much a rule matters here if a standard says so: `, off`, `, error`.
fn said_of(applied: &Applied<'_>, rule: &Rule) -> String {
    let weight = applied.analysis.limits.weight(rule.name, rule.severity);
    match (weight.line, weight.severity) {
        (None, _) => String::new(),
        (Some(_), None) => ", off".to_owned(),
        (Some(_), Some(severity)) => format!(", {}", severity.word()),
    }
}

fn because(reason: Option<&str>) -> String {
    reason.map_or_else(String::new, |reason| format!(", because \"{reason}\""))
}

fn weight(severity: &str) -> String {
    match severity {
        "advisory" => severity.to_owned(),
        _ => with_article(severity),
    }
}
