//! A `limit` line of a standard that wants its value: what the limit takes is
//! known from its rule.

use super::families;
use super::standard::{in_words, unknown_row, unknown_rule};
use crate::findings::Finding;
use crate::model::{Standard, UnsetLimit, literal};

/// Has each finding about a limit without a value say what that limit takes,
/// or that there is no such limit.
pub fn tell_what_limits_take(standard: &Standard, findings: &mut [Finding]) {
    for finding in findings {
        let place = finding.place;
        let is_about = |unset: &&UnsetLimit| {
            let last = unset.row.as_ref().map_or(unset.rule.place, |row| row.place);
            last.section == place.section && last.span.end == place.span.end
        };
        let mut unset = standard.unset.iter();
        if finding.rule != "entry-missing" {
            continue;
        }
        if let Some(unset) = unset.find(is_about) {
            tell(finding, unset);
        }
    }
}

fn tell(finding: &mut Finding, unset: &UnsetLimit) {
    let (named, row) = (&unset.rule, unset.row.as_ref());
    let Some(rule) = families::find(&named.value) else {
        *finding = unknown_rule(named);
        return;
    };
    let Some(limit) = rule.limit(rule.row_meant(row)) else {
        // Another row alone would not put the line right.
        *finding = unknown_row(rule, named, row);
        finding.fixes.clear();
        return;
    };
    let usual = limit.general.written.first();
    let Some((usual, quantity)) = usual.and_then(|text| Some((text, literal(text)?))) else {
        return;
    };
    let of = row.map_or(String::new(), |row| format!(" {}", row.value));
    let name = rule.name;
    finding.message = "the value of the limit is missing after this".into();
    let help = format!(
        "It takes {}; the usual one is written `limit {name}{of} {usual}`.",
        in_words(&quantity),
    );
    finding.help = Some(help.into());
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::{FileId, Place, SectionRef};
    use crate::model::Stated;
    use crate::syntax::SectionId;
    use crate::text::Span;

    fn place(start: u32, end: u32) -> Place {
        Place {
            section: SectionRef {
                file: FileId(0),
                section: SectionId(0),
            },
            span: Span::new(start, end),
        }
    }

    #[test]
    fn a_limit_without_a_value_is_told_what_it_takes() {
        for (rule, row, message, help) in [
            (
                "fall-flat",
                Some("pavers"),
                "the value of the limit is missing after this",
                Some(
                    "It takes a slope or a share; the usual one is written `limit fall-flat pavers 2 %`.",
                ),
            ),
            (
                "base-thin",
                None,
                "the value of the limit is missing after this",
                Some("It takes a length; the usual one is written `limit base-thin 100 mm`."),
            ),
            (
                "fall-flt",
                None,
                "there is no rule fall-flt: did you mean fall-flat?",
                None,
            ),
            (
                "fall-along",
                None,
                "fall-along has no limit to set: remove the line",
                None,
            ),
        ] {
            let stated = |name: &str| Stated::new(name.to_owned(), place(8, 20));
            let unset = UnsetLimit {
                rule: stated(rule),
                row: row.map(stated),
            };
            let standard = Standard {
                unset: vec![unset],
                ..Standard::default()
            };
            let missing = |end| Finding::new("entry-missing", place(8, end), "missing");
            let mut findings = [missing(20), missing(19)];
            tell_what_limits_take(&standard, &mut findings);
            let [reported, other] = findings;
            assert_eq!(
                (&*reported.message, reported.help.as_deref()),
                (message, help)
            );
            assert_eq!(other, missing(19), "another line keeps its words");
        }
    }
}
