//! Findings as SARIF 2.1.0, the OASIS interchange format for results of
//! static analysis.

use std::borrow::Cow;
use std::sync::Arc;

use serde::{Serialize, Serializer};
use serde_json::{Value, json};

use super::explanation::explanation;
use super::row::{Accepted, Mending, Row, Spot};
use super::{Review, Unread};
use crate::findings::Severity;
use crate::model::Region;
use crate::rules::{self, Bound, Limit, Rule};
use crate::text::{Shown, clean};

/// The findings of a review as one SARIF log: every rule with its sources,
/// and each finding with its related places, its fixes and, where it is
/// accepted, the reason.
///
/// Whoever writes it makes each result in its turn: a spec may have a finding
/// in each of its lines.
pub fn sarif(review: &Review) -> impl Serialize + '_ {
    let rules: Vec<&'static Rule> = rules::all().collect();
    Log {
        schema: "https://json.schemastore.org/sarif-2.1.0.json",
        runs: [Run {
            column_kind: "unicodeCodePoints",
            invocations: json!([{
                "executionSuccessful": review.unread.is_empty(),
                "toolExecutionNotifications":
                    review.unread.iter().map(notification).collect::<Vec<_>>(),
            }]),
            tool: json!({"driver": {
                "name": "drylay",
                "version": env!("CARGO_PKG_VERSION"),
                "semanticVersion": env!("CARGO_PKG_VERSION"),
                "rules": rules.iter().map(|rule| descriptor(rule)).collect::<Vec<_>>(),
            }}),
            results: Results { review, rules },
        }],
        version: "2.1.0",
    }
}

/// The log, its keys in the order of the alphabet as those of every value.
#[derive(Serialize)]
struct Log<'a> {
    #[serde(rename = "$schema")]
    schema: &'static str,
    runs: [Run<'a>; 1],
    version: &'static str,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Run<'a> {
    column_kind: &'static str,
    invocations: Value,
    results: Results<'a>,
    tool: Value,
}

/// What was found.
struct Results<'a> {
    review: &'a Review,
    rules: Vec<&'static Rule>,
}

impl Serialize for Results<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let rows = self.review.files.iter().flat_map(|file| &file.rows);
        serializer.collect_seq(rows.map(|row| result(row, &self.rules)))
    }
}

fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Advisory => "note",
    }
}

fn descriptor(rule: &'static Rule) -> Value {
    let sources: Vec<String> = rule.sources.iter().map(ToString::to_string).collect();
    let sources = match sources.is_empty() {
        true => String::new(),
        false => format!("\n\nSources: {}.", sources.join("; ")),
    };
    let limits: Vec<Value> = rule.limits.iter().flat_map(limits).collect();
    let mut descriptor = json!({
        "id": rule.name,
        "shortDescription": {"text": rule.looks_at},
        "fullDescription": {"text": rule.reason},
        "help": {
            "text": format!("{}{sources}", rule.remedy),
            "markdown": explanation(rule),
        },
        "defaultConfiguration": {"level": level(rule.severity)},
        "properties": {"tags": [rule.family.word()], "limits": limits},
    });
    if let (Some(descriptor), Some(address)) = (descriptor.as_object_mut(), rules::address(rule)) {
        descriptor.insert("helpUri".to_owned(), address.into());
    }
    descriptor
}

/// A limit in each region that has its own.
fn limits(limit: &Limit) -> Vec<Value> {
    let bound = match limit.bound {
        Bound::Least => "at least",
        Bound::Most => "at most",
    };
    let own = limit.regions.iter().map(|(region, value)| (*region, value));
    std::iter::once((Region::General, &limit.general))
        .chain(own)
        .map(|(region, value)| {
            json!({
                "row": limit.row,
                "of": limit.of,
                "region": region.word(),
                "limit": format!("{bound} {}", value.written.join(" or ")),
                "source": value.source.to_string(),
            })
        })
        .collect()
}

fn notification(unread: &Unread) -> Value {
    json!({
        "level": "error",
        "message": {"text": plain(&format!("{}: {}", unread.path, unread.why))},
        "locations": [{"physicalLocation": {"artifactLocation": artifact(&unread.path)}}],
    })
}

fn result(row: &Row, rules: &[&Rule]) -> Value {
    let mut result = json!({
        "ruleId": row.rule,
        "level": level(row.severity),
        "message": {"text": plain(&message(row))},
        "locations": [{
            "physicalLocation": physical(&row.at),
            "logicalLocations": [{"fullyQualifiedName": &*row.section, "kind": "element"}],
        }],
        "relatedLocations": row.related.iter().enumerate().map(related).collect::<Vec<_>>(),
        "partialFingerprints": {"drylay/v1": row.fingerprint},
        "fixes": row.fixes.iter().map(fix).collect::<Vec<_>>(),
        "properties": {
            "found": row.measured().found,
            "limit": row.measured().limit,
            "limitOf": row.limit_of(),
            "source": row.source(),
        },
    });
    let index = rules.iter().position(|rule| rule.name == row.rule);
    let suppressions = row
        .accepted
        .as_ref()
        .map(|accepted| json!([suppression(accepted)]));
    if let Some(result) = result.as_object_mut() {
        result.extend(index.map(|index| ("ruleIndex".to_owned(), index.into())));
        result.extend(suppressions.map(|list| ("suppressions".to_owned(), list)));
    }
    result
}

fn message(row: &Row) -> String {
    match &row.help {
        Some(help) => format!("{}. {help}", row.message),
        None => row.message.to_string(),
    }
}

/// A text in which nothing is a link.
fn plain(text: &str) -> Cow<'_, str> {
    clean(text, Shown::Sarif)
}

fn suppression(accepted: &Accepted) -> Value {
    json!({
        "kind": "inSource",
        "status": "accepted",
        "justification": accepted.reason,
        "location": {"physicalLocation": physical(&accepted.at)},
        "properties": {"by": accepted.by, "until": accepted.until},
    })
}

fn related((index, (at, message)): (usize, &(Spot, Arc<str>))) -> Value {
    json!({
        "id": index + 1,
        "message": {"text": plain(message)},
        "physicalLocation": physical(at),
    })
}

fn physical(at: &Spot) -> Value {
    json!({"artifactLocation": artifact(&at.path), "region": region(at)})
}

fn region(at: &Spot) -> Value {
    json!({
        "startLine": at.start.0,
        "startColumn": at.start.1,
        "endLine": at.end.0,
        "endColumn": at.end.1,
        "byteOffset": at.bytes.start,
        "byteLength": at.bytes.len(),
    })
}

/// A file as an address; a path that is not absolute is meant from the top of
/// what was checked.
fn artifact(path: &str) -> Value {
    let address = encoded(path);
    match path.as_bytes().get(1) {
        Some(b':') => json!({"uri": format!("file:///{address}")}),
        _ if path.starts_with('/') => json!({"uri": format!("file://{address}")}),
        _ => json!({"uri": address, "uriBaseId": "%SRCROOT%"}),
    }
}

/// A path with every byte that an address may not hold written as its number
/// (RFC 3986, section 2).
fn encoded(path: &str) -> String {
    let mut address = String::with_capacity(path.len());
    for byte in path.bytes() {
        let is_plain = byte.is_ascii_alphanumeric() || b"-._~/".contains(&byte);
        match is_plain {
            true => address.push(char::from(byte)),
            false => address.push_str(&format!("%{byte:02X}")),
        }
    }
    address
}

/// A fix, its changes file by file.
fn fix(mending: &Mending) -> Value {
    let mut files: Vec<(&str, Vec<Value>)> = Vec::new();
    for (at, text) in &mending.changes {
        let replacement =
            json!({"deletedRegion": region(at), "insertedContent": {"text": &**text}});
        match files.iter_mut().find(|(path, _)| *path == &*at.path) {
            Some((_, replacements)) => replacements.push(replacement),
            None => files.push((&at.path, vec![replacement])),
        }
    }
    let changes = files.into_iter().map(|(path, replacements)| {
        json!({"artifactLocation": artifact(path), "replacements": replacements})
    });
    json!({
        "description": {"text": plain(&mending.title)},
        "artifactChanges": changes.collect::<Vec<_>>(),
        "properties": {"safe": mending.is_safe},
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_help_of_a_rule_names_sources_where_there_are_some() {
        for rule in rules::all() {
            let descriptor = descriptor(rule);
            let help = descriptor["help"]["text"].as_str().unwrap();
            assert!(!help.contains("Sources: ."), "{}", rule.name);
            assert_eq!(help.contains("Sources:"), !rule.sources.is_empty());
        }
    }

    #[test]
    fn paths_become_addresses() {
        for (path, address) in [
            ("jobs/court.patio", "jobs/court.patio"),
            ("a job/50 %.patio", "a%20job/50%20%25.patio"),
            ("a:b/höf.patio", "a%3Ab/h%C3%B6f.patio"),
        ] {
            assert_eq!(encoded(path), address);
        }
    }
}
