//! Rules explained: what each looks at, why, its limits with their sources,
//! and an example that breaks it.

use super::applied::Applied;
use super::words::{WIDTH, paragraph, wrapped};
use crate::analysis::Analysis;
use crate::rules::{Bound, Family, InRegion, Rule, of, underlined};

/// Everything that is known of a rule, with the limits that are in force
/// where an analysis lies. Paths as seen from a folder.
pub fn explained(rule: &'static Rule, analysis: &Analysis, folder: &str) -> String {
    let applied = Applied { analysis, folder };
    let mut text = format!(
        "{}: {}, {}\n",
        rule.name,
        rule.severity,
        rule.family.title().to_lowercase()
    );
    let mut part = |head: &str, body: String| {
        if !body.is_empty() {
            text += &format!("\n{head}\n{body}");
        }
    };
    part("WHAT IT LOOKS AT", paragraph(rule.looks_at));
    part("WHY", paragraph(rule.reason));
    part("WHAT TO DO", paragraph(rule.remedy));
    part("WHAT A STANDARD SAYS HERE", said_here(rule, &applied));
    part(
        &format!("LIMITS IN FORCE {}", applied.place()),
        limits(rule, &applied),
    );
    part(
        "SOURCES",
        rule.sources
            .iter()
            .map(|source| paragraph(&source.to_string()))
            .collect(),
    );
    part(
        "AN EXAMPLE THAT BREAKS IT, THE PLACE MARKED",
        example(rule.breaks),
    );
    part("AN EXAMPLE THAT KEEPS IT", example(rule.keeps));
    part(
        "THE FIRST EXAMPLE, FIXED",
        rule.mended.map(example).unwrap_or_default(),
    );
    text
}

/// Every rule in a line or two, family by family; only those in whose name
/// or words all of `words` stand, in any case.
pub fn listed_rules(words: &[&str]) -> String {
    let families = Family::ALL.iter().map(|family| {
        let found: Vec<&Rule> = of(*family).filter(|rule| speaks_of(rule, words)).collect();
        (family, found)
    });
    let parts: Vec<String> = families
        .filter(|(_, found)| !found.is_empty())
        .map(|(family, found)| {
            let lines: String = found.into_iter().map(line).collect();
            format!("{}\n{lines}", family.title().to_uppercase())
        })
        .collect();
    parts.join("\n")
}

fn speaks_of(rule: &Rule, words: &[&str]) -> bool {
    let of_limits = rule.limits.iter().flat_map(|limit| [limit.row, limit.of]);
    let said = [
        rule.name,
        rule.looks_at,
        rule.reason,
        rule.remedy,
        rule.family.title(),
    ];
    let said: Vec<String> = said
        .into_iter()
        .chain(of_limits)
        .map(str::to_lowercase)
        .collect();
    words
        .iter()
        .all(|word| said.iter().any(|text| text.contains(&word.to_lowercase())))
}

fn line(rule: &Rule) -> String {
    let first = format!("  {:<20} {:<8} ", rule.name, rule.severity.word());
    wrapped(rule.looks_at, &first, WIDTH) + "\n"
}

/// What the standards that apply say of a rule, besides its limits.
fn said_here(rule: &Rule, applied: &Applied<'_>) -> String {
    let limits = &applied.analysis.limits;
    let line = |place| applied.line(place);
    let weight = limits.weight(rule.name, rule.severity);
    let firm = limits.firm(rule.name).map(|(place, _)| {
        format!(
            "Held firm by {}: it may not be accepted in a spec, nor eased or switched off further in.",
            line(place)
        )
    });
    let said = weight.in_words(rule.severity, &line).into_iter();
    said.chain(firm)
        .map(|sentence| paragraph(&sentence))
        .collect()
}

/// The limits of a rule, row by row, with what is in force and whence.
fn limits(rule: &'static Rule, applied: &Applied<'_>) -> String {
    let rows = applied.analysis.limits.rows(rule, applied.region());
    let figures: Vec<String> = rows
        .iter()
        .map(|row| row.figure(applied.system(), &|place| applied.text(place)))
        .collect();
    let widest = figures.iter().map(|figure| figure.chars().count()).max();
    let widest = widest.unwrap_or(0);
    let (mut text, mut row_before) = (String::new(), "");
    for (row, figure) in rows.iter().zip(figures) {
        if row.limit.row != row_before {
            row_before = row.limit.row;
            text += &paragraph(&head(row));
        }
        let first = match applied.region() {
            Some(_) => format!("    {figure:<widest$}  "),
            None => format!("    {:<7}  {figure:<widest$}  ", row.region_word()),
        };
        let whence = row.whence(&|place| applied.line(place));
        text += &(wrapped(&whence, &first, WIDTH) + "\n");
    }
    text
}

/// What a row is for: `row clay: the base on clay, at least`.
fn head(row: &InRegion) -> String {
    let bound = match row.limit.bound {
        Bound::Least => "at least",
        Bound::Most => "at most",
    };
    format!("row {}: {}, {bound}", row.limit.row, row.limit.of)
}

/// An example, a comment under the place that is found.
fn example(text: &str) -> String {
    let shown = underlined(text);
    let lines = shown
        .lines()
        .map(|line| format!("  {line}").trim_end().to_owned() + "\n");
    lines.collect()
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::analysis::{Analyser, Files, NoFiles};
    use crate::rules::{all, find};
    use crate::text::Text;

    const STANDARD: &str = "\
standard \"House rules\"
  limit        fall-flat 1:70
  limit        fall-flat 1:60, region uk
  limit        base-thin foot 5 in
  raise        lip to error
  off          care-dust, because \"our form covers it\"
  firm         lip
";

    /// A standard above every file.
    struct House;

    impl Files for House {
        fn read(&self, path: &str) -> Result<Text, String> {
            match path {
                "/jobs/standard.patio" => Ok(Text::from(STANDARD)),
                _ => Err("there is no such file".to_owned()),
            }
        }

        fn exists(&self, path: &str) -> bool {
            self.read(path).is_ok()
        }

        fn list(&self, _: &str) -> Arc<[String]> {
            Arc::default()
        }
    }

    fn analysed(text: &str, files: &dyn Files) -> Arc<Analysis> {
        Analyser::new().analyse("/jobs/a.patio", Text::from(text), files, "2027-01-12")
    }

    fn described(rule: &str, text: &str, files: &dyn Files) -> String {
        explained(find(rule).unwrap(), &analysed(text, files), "/jobs")
    }

    #[test]
    fn every_rule_is_listed_and_explained() {
        let list = listed_rules(&[]);
        let nowhere = analysed("", &NoFiles);
        for rule in all() {
            assert!(list.contains(rule.name), "{}", rule.name);
            let text = explained(rule, &nowhere, "/");
            assert!(
                text.contains("WHAT TO DO") && text.contains('^') && !text.contains('«'),
                "{}",
                rule.name
            );
        }
    }

    #[test]
    fn rules_are_searched_by_their_words() {
        assert!(listed_rules(&["Frost"]).contains("base-thin"));
        assert!(!listed_rules(&["frost"]).contains("mix-rich"));
        assert_eq!(listed_rules(&["frost", "no such word at all"]), "");
    }

    #[test]
    fn limits_are_shown_with_their_sources() {
        let text = described("fall-flat", "", &NoFiles);
        for limit in find("fall-flat").unwrap().limits {
            assert!(text.contains(&format!("row {}: ", limit.row)));
            assert!(text.contains(limit.general.written.first().unwrap()));
        }
        assert!(text.contains("    us       1 % "), "{text}");
    }

    #[test]
    fn limits_are_those_in_force_here() {
        const UK: &str = "job \"A\"\n  units metric\n  region uk\n";
        const PLAIN: &str = "job \"A\"\n  units imperial\n";
        for (rule, text, said, unsaid) in [
            (
                "fall-flat",
                UK,
                "1.67 % (1:60)  line 3 of standard.patio, instead of 1:80\n",
                "1:70",
            ),
            (
                "fall-flat",
                UK,
                "LIMITS IN FORCE IN a.patio, REGION uk\n",
                "    general ",
            ),
            (
                "fall-flat",
                PLAIN,
                "line 2 of standard.patio, instead of 1:80\n",
                "line 3",
            ),
            (
                "fall-flat",
                PLAIN,
                "LIMITS IN FORCE IN a.patio, REGION general (IT NAMES NONE)\n",
                "uk",
            ),
            (
                "fall-flat",
                "",
                "    uk       1:60  line 3 of standard.patio, instead of 1:80\n",
                "    us       1 %",
            ),
            ("base-thin", UK, "127 mm", "    us "),
            ("base-thin", "", " 5 in ", "127 mm"),
            (
                "lip",
                UK,
                "Error instead of warning, by line 5 of standard.patio.\n  Held firm by line 7 of standard.patio: ",
                "Switched",
            ),
            (
                "care-dust",
                UK,
                "Switched off by line 6 of standard.patio, because \"our form covers it\".\n",
                "LIMITS",
            ),
            ("low-point", UK, "WHAT TO DO", "STANDARD SAYS"),
        ] {
            let text = described(rule, text, &House);
            assert!(text.contains(said), "{rule}: {said}\n{text}");
            let limits = text.split("AN EXAMPLE").next().unwrap_or_default();
            assert!(!limits.contains(unsaid), "{rule}: {unsaid}\n{text}");
        }
    }
}
