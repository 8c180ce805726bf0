//! A `standard` file worked out.

use super::super::job::{SetLimit, SetSeverity, Standard, Stated, UnsetLimit};
use super::super::reading::Entry;
use super::definitions::FileInput;
use super::dependencies::Subject;
use super::evaluate::Resolver;
use super::heading::text_of;
use super::want::Range;
use crate::findings::{FileId, Finding, Severity};
use crate::vocabulary::{SeverityWord, ValueKind};

/// What a standard says, and what is wrong with its text. The first of
/// `files` is the standard itself.
pub fn read_standard(files: &[FileInput]) -> (Standard, Vec<Finding>) {
    let mut resolver = Resolver::new(files);
    let mut findings = resolver.about_names();
    let sections = files.iter().flat_map(|file| file.sections.iter());
    for section in sections {
        findings.extend(section.about_lines().cloned());
        findings.extend(section.about_entries());
    }
    let standard = resolver.on(Subject::Heading, Resolver::standard);
    findings.extend(resolver.done.dependencies.findings().cloned());
    (standard, findings)
}

impl Resolver<'_> {
    fn standard(&mut self) -> Standard {
        let resolver = self;
        let Some((_, section)) = resolver.own("standard").into_iter().next() else {
            return Standard::default();
        };
        let mut standard = Standard {
            title: section.heading().and_then(|heading| {
                let (text, place) = heading.filled.text("TITLE")?;
                Some(Stated::new(text.to_owned(), place))
            }),
            like: section
                .all("like")
                .filter_map(|entry| text_of(Some(entry), "PATH"))
                .collect(),
            firm: section
                .all("firm")
                .filter_map(|entry| named(entry, "RULE"))
                .collect(),
            notes: section
                .all("note")
                .filter_map(|entry| text_of(Some(entry), "NOTE"))
                .collect(),
            ..Standard::default()
        };
        for entry in section.all("limit") {
            let value = resolver.wanted(
                &entry.filled,
                "VALUE",
                ValueKind::Quantity,
                Range::Any,
                FileId(0),
            );
            if entry.filled.get("VALUE").is_none() {
                let row = named(entry, "ROW");
                let unset = named(entry, "RULE").map(|rule| UnsetLimit { rule, row });
                standard.unset.extend(unset);
            }
            let region = entry.clause("region");
            let read = region.and_then(|clause| {
                let stated = clause.filled.chosen("REGION")?;
                Some(stated.value)
            });
            // A region that is misread is not every region.
            if region.is_some() && read.is_none() {
                continue;
            }
            if let (Some(rule), Some(value)) = (named(entry, "RULE"), value) {
                standard.limits.push(SetLimit {
                    rule,
                    row: named(entry, "ROW"),
                    value,
                    region: read,
                    place: entry.place,
                });
            }
        }
        for (key, eases) in [("raise", false), ("ease", true)] {
            for entry in section.all(key) {
                let severity = entry.filled.chosen("SEVERITY");
                let severity = severity.map(|stated| match stated.value {
                    SeverityWord::Error => Severity::Error,
                    SeverityWord::Warning => Severity::Warning,
                    SeverityWord::Advisory => Severity::Advisory,
                });
                if let (Some(rule), Some(severity)) = (named(entry, "RULE"), severity) {
                    standard.severities.push(SetSeverity {
                        rule,
                        severity,
                        eases,
                        reason: reason(entry),
                        place: entry.place,
                    });
                }
            }
        }
        standard.off = section
            .all("off")
            .filter_map(|entry| Some((named(entry, "RULE")?, reason(entry))))
            .collect();
        standard
    }
}

fn named(entry: &Entry, slot: &str) -> Option<Stated<String>> {
    let (name, place) = entry.filled.name(slot)?;
    Some(Stated::new(name.to_owned(), place))
}

fn reason(entry: &Entry) -> Option<String> {
    let (text, _) = entry.clause("because")?.filled.text("REASON")?;
    Some(text.to_owned()).filter(|text| !text.trim().is_empty())
}
