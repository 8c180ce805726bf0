//! Findings as JSON, for programs.

use std::sync::Arc;

use serde::{Serialize, Serializer};

use super::fingerprint::Fingerprint;
use super::row::{Accepted, Mending, Row, Spot};
use super::{Review, Summary};
#[cfg(test)]
use crate::findings::Severity;

/// What a finding may be, the most serious first.
#[cfg(test)]
const SEVERITIES: [Severity; 3] = [Severity::Error, Severity::Warning, Severity::Advisory];

/// The version of the document's form.
pub(super) const VERSION: u32 = 2;

/// The findings of a review as one JSON document, as `grammar/check.schema.json`
/// tells. Lines and columns count from 1, columns in characters; bytes are
/// half open.
///
/// Whoever writes it makes each finding's text in its turn: a spec may have
/// one in each of its lines.
pub fn findings_json(review: &Review) -> impl Serialize + '_ {
    let files = review.files.iter();
    Document {
        version: VERSION,
        files: files
            .map(|file| File {
                path: &file.path,
                findings: &file.rows,
                cautions: &file.cautions,
            })
            .collect(),
        date: &review.date,
        standard: review.standard.as_deref(),
        unread: review
            .unread
            .iter()
            .map(|unread| unread.path.as_str())
            .collect(),
        put_right: review
            .put_right
            .iter()
            .map(|(path, fingerprints)| PutRight { path, fingerprints })
            .collect(),
        summary: Summary::of(review),
    }
}

fn each_found<S: Serializer>(rows: &&[Row], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(rows.iter().map(found))
}

fn each_caution<S: Serializer>(rows: &&[Row], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(rows.iter().map(caution))
}

/// The document of a check.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub(super) struct Document<'a> {
    version: u32,
    /// The files that were checked, in order of their paths.
    files: Vec<File<'a>>,
    /// The day that settles which acceptances have run out.
    #[cfg_attr(test, schemars(regex(pattern = "^[0-9]{4}-[0-9]{2}-[0-9]{2}$")))]
    date: &'a str,
    /// The standard that was applied to every file, if one was named.
    standard: Option<&'a str>,
    /// The files that could not be read.
    unread: Vec<&'a str>,
    /// What a baseline knows and is no longer found, by file.
    put_right: Vec<PutRight<'a>>,
    summary: Summary,
}

/// What is no longer found in a file.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct PutRight<'a> {
    path: &'a str,
    /// As the baseline has them.
    fingerprints: &'a [String],
}

/// A file that was checked.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct File<'a> {
    /// As seen from the folder in which drylay ran, parted by /.
    path: &'a str,
    /// In order of place, then rule.
    #[serde(serialize_with = "each_found")]
    #[cfg_attr(test, schemars(with = "Vec<Found<'a>>"))]
    findings: &'a [Row],
    /// What whoever builds the job is cautioned of, once a job. No findings:
    /// neither counted nor denied.
    #[serde(serialize_with = "each_caution")]
    #[cfg_attr(test, schemars(with = "Vec<Caution<'a>>"))]
    cautions: &'a [Row],
}

/// What whoever builds the job is cautioned of.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Caution<'a> {
    #[cfg_attr(test, schemars(regex(pattern = "^care(-[a-z]+)+$")))]
    rule: &'a str,
    message: &'a str,
    /// The acceptance that took it, if one did.
    accepted: Option<AcceptedBy<'a>>,
}

/// A finding.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Found<'a> {
    #[cfg_attr(test, schemars(regex(pattern = "^[a-z]+(-[a-z]+)*$")))]
    rule: &'a str,
    #[cfg_attr(test, schemars(extend("enum" = SEVERITIES.map(Severity::word))))]
    severity: &'a str,
    message: &'a str,
    /// Where it begins.
    start: Position,
    /// Just past its last character.
    end: Position,
    /// From the first byte to just past the last, counted from 0.
    bytes: [u32; 2],
    /// Kind and name of the section that it stands in: surface forecourt.
    section: &'a str,
    /// The figure found, in the units of the job.
    found: Option<&'a str>,
    /// The limit that it missed, in the units of the job.
    limit: Option<&'a str>,
    /// Whose limit that is.
    limit_from: Option<LimitFrom<'a>>,
    /// The published document of the limit, and how it is known.
    source: Option<&'a str>,
    /// What to do.
    help: Option<&'a str>,
    /// Other places that have to do with it.
    related: Vec<Related<'a>>,
    /// Stays the same when lines above it change; once in a file.
    #[cfg_attr(test, schemars(with = "String"))]
    fingerprint: Fingerprint,
    /// Ways to mend it, the likeliest first.
    fixes: Vec<Fix<'a>>,
    /// The acceptance that took it, if one did.
    accepted: Option<AcceptedBy<'a>>,
}

/// Counted from 1; columns in characters (Unicode scalar values).
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Position {
    #[cfg_attr(test, schemars(range(min = 1)))]
    line: u32,
    #[cfg_attr(test, schemars(range(min = 1)))]
    column: u32,
}

/// Whose limit it is, and the line of a standard that set it.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct LimitFrom<'a> {
    what: &'a str,
    path: Option<&'a str>,
    #[cfg_attr(test, schemars(range(min = 1)))]
    line: Option<u32>,
}

/// A place that has to do with a finding, and how. Counted as its own.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Related<'a> {
    path: &'a str,
    #[cfg_attr(test, schemars(range(min = 1)))]
    line: u32,
    #[cfg_attr(test, schemars(range(min = 1)))]
    column: u32,
    message: &'a str,
}

/// A way to mend a finding.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Fix<'a> {
    title: &'a str,
    /// Whether it may be applied without being looked at.
    safe: bool,
    edits: Vec<Edit<'a>>,
}

/// A text put in the place of another.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct Edit<'a> {
    path: &'a str,
    /// From the first byte to just past the last, counted from 0.
    bytes: [u32; 2],
    text: &'a str,
}

/// The line that accepts a finding.
#[derive(Serialize)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
struct AcceptedBy<'a> {
    reason: &'a str,
    by: Option<&'a str>,
    /// The day on which it runs out.
    until: Option<&'a str>,
    path: &'a str,
    #[cfg_attr(test, schemars(range(min = 1)))]
    line: u32,
}

fn found(row: &Row) -> Found<'_> {
    Found {
        rule: row.rule,
        severity: row.severity.word(),
        message: &row.message,
        start: position(row.at.start),
        end: position(row.at.end),
        bytes: bytes(&row.at),
        section: &row.section,
        found: row.measured().found.as_deref(),
        limit: row.measured().limit.as_deref(),
        limit_from: row.limit_of().map(|what| LimitFrom {
            what,
            path: row.limit_line.as_ref().map(|line| &*line.path),
            line: row.limit_line.as_ref().map(|line| line.start.0),
        }),
        source: row.source(),
        help: row.help.as_deref(),
        related: row.related.iter().map(related).collect(),
        fingerprint: row.fingerprint,
        fixes: row.fixes.iter().map(fix).collect(),
        accepted: row.accepted.as_deref().map(accepted),
    }
}

fn caution(row: &Row) -> Caution<'_> {
    Caution {
        rule: row.rule,
        message: &row.message,
        accepted: row.accepted.as_deref().map(accepted),
    }
}

fn position((line, column): (u32, u32)) -> Position {
    Position { line, column }
}

fn bytes(at: &Spot) -> [u32; 2] {
    [at.bytes.start, at.bytes.end]
}

fn related((at, message): &(Spot, Arc<str>)) -> Related<'_> {
    Related {
        path: &at.path,
        line: at.start.0,
        column: at.start.1,
        message,
    }
}

fn fix(mending: &Mending) -> Fix<'_> {
    let changes = mending.changes.iter();
    Fix {
        title: &mending.title,
        safe: mending.is_safe,
        edits: changes
            .map(|(at, text)| Edit {
                path: &at.path,
                bytes: bytes(at),
                text,
            })
            .collect(),
    }
}

fn accepted(accepted: &Accepted) -> AcceptedBy<'_> {
    AcceptedBy {
        reason: &accepted.reason,
        by: accepted.by.as_deref(),
        until: accepted.until.as_deref(),
        path: &accepted.at.path,
        line: accepted.at.start.0,
    }
}
