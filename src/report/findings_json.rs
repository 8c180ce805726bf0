//! Findings as JSON, for programs.

use serde::Serialize;

use super::row::{Accepted, Mending, Row, Spot};
use super::{Review, Summary};

/// The findings of a review as one JSON document, as `grammar/check.schema.json`
/// tells. Lines and columns count from 1, columns in characters; bytes are
/// half open.
pub fn findings_json(review: &Review) -> String {
    let files = review.files.iter();
    let document = Document {
        version: 2,
        files: files
            .map(|file| File {
                path: &file.path,
                findings: file.rows.iter().map(found).collect(),
                cautions: file.cautions.iter().map(caution).collect(),
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
    };
    // Strings and whole numbers under keys that are strings always serialise.
    let mut text = serde_json::to_string_pretty(&document).unwrap_or_default();
    text.push('\n');
    text
}

#[derive(Serialize)]
struct Document<'a> {
    version: u32,
    files: Vec<File<'a>>,
    date: &'a str,
    standard: Option<&'a str>,
    unread: Vec<&'a str>,
    put_right: Vec<PutRight<'a>>,
    summary: Summary,
}

#[derive(Serialize)]
struct PutRight<'a> {
    path: &'a str,
    fingerprints: &'a [String],
}

#[derive(Serialize)]
struct File<'a> {
    path: &'a str,
    findings: Vec<Found<'a>>,
    cautions: Vec<Caution<'a>>,
}

#[derive(Serialize)]
struct Caution<'a> {
    rule: &'a str,
    message: &'a str,
    accepted: Option<AcceptedBy<'a>>,
}

#[derive(Serialize)]
struct Found<'a> {
    rule: &'a str,
    severity: &'a str,
    message: &'a str,
    start: Position,
    end: Position,
    bytes: [u32; 2],
    section: &'a str,
    found: Option<&'a str>,
    limit: Option<&'a str>,
    limit_from: Option<LimitFrom<'a>>,
    source: Option<&'a str>,
    help: Option<&'a str>,
    related: Vec<Related<'a>>,
    fingerprint: &'a str,
    fixes: Vec<Fix<'a>>,
    accepted: Option<AcceptedBy<'a>>,
}

#[derive(Serialize)]
struct Position {
    line: u32,
    column: u32,
}

#[derive(Serialize)]
struct LimitFrom<'a> {
    what: &'a str,
    path: Option<&'a str>,
    line: Option<u32>,
}

#[derive(Serialize)]
struct Related<'a> {
    path: &'a str,
    line: u32,
    column: u32,
    message: &'a str,
}

#[derive(Serialize)]
struct Fix<'a> {
    title: &'a str,
    safe: bool,
    edits: Vec<Edit<'a>>,
}

#[derive(Serialize)]
struct Edit<'a> {
    path: &'a str,
    bytes: [u32; 2],
    text: &'a str,
}

#[derive(Serialize)]
struct AcceptedBy<'a> {
    reason: &'a str,
    by: Option<&'a str>,
    until: Option<&'a str>,
    path: &'a str,
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
        found: row.found.as_deref(),
        limit: row.limit.as_deref(),
        limit_from: row.limit_of.as_deref().map(|what| LimitFrom {
            what,
            path: row.limit_line.as_ref().map(|line| line.path.as_str()),
            line: row.limit_line.as_ref().map(|line| line.start.0),
        }),
        source: row.source.as_deref(),
        help: row.help.as_deref(),
        related: row.related.iter().map(related).collect(),
        fingerprint: &row.fingerprint,
        fixes: row.fixes.iter().map(fix).collect(),
        accepted: row.accepted.as_ref().map(accepted),
    }
}

fn caution(row: &Row) -> Caution<'_> {
    Caution {
        rule: row.rule,
        message: &row.message,
        accepted: row.accepted.as_ref().map(accepted),
    }
}

fn position((line, column): (u32, u32)) -> Position {
    Position { line, column }
}

fn bytes(at: &Spot) -> [u32; 2] {
    [at.bytes.start, at.bytes.end]
}

fn related((at, message): &(Spot, String)) -> Related<'_> {
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
