//! What the check finds, the gravest first.

use maud::{Markup, html};

use super::parts::{said, sentence};
use crate::findings::Severity;
use crate::report::{Reviewed, Row};

/// The findings of a job: those that stand, then those that are accepted.
pub(super) fn findings(reviewed: &Reviewed) -> Markup {
    let mut standing: Vec<&Row> = reviewed.standing().collect();
    standing.sort_by_key(|row| std::cmp::Reverse(row.severity));
    let accepted = reviewed.rows.iter().filter(|row| row.accepted.is_some());
    let accepted: Vec<&Row> = accepted.collect();
    html! {
        h2 { "Findings" }
        @if standing.is_empty() { p { "The check finds nothing." } }
        @for row in standing { (finding(row)) }
        @if !accepted.is_empty() {
            details {
                summary { "Accepted: " (accepted.len()) }
                @for row in accepted { (finding(row)) }
            }
        }
    }
}

fn finding(row: &Row) -> Markup {
    let (kind, word) = match row.severity {
        Severity::Error => ("error", "Error"),
        Severity::Warning => ("warning", "Warning"),
        Severity::Advisory => ("advisory", "Advisory"),
    };
    let is_own = row.at.file == 0;
    let line = row.at.start.0;
    html! {
        article class=(kind) data-line=[is_own.then_some(line)] tabindex="0" {
            p.kind {
                span.mark {}
                strong { (word) }
                span.rule { (row.rule) }
                span.line {
                    @if !is_own { (said(&row.at.path)) " " }
                    "line " (line)
                }
            }
            p { (sentence(&row.message)) }
            @if row.measured().found.is_some() || row.measured().limit.is_some() { (figure_and_limit(row)) }
            @if let Some(help) = &row.help { p { (sentence(help)) } }
            @for fix in &row.fixes { p.fix { (sentence(&fix.title)) } }
            @if let Some(accepted) = &row.accepted {
                p { "Accepted" @if let Some(by) = &accepted.by { " by " (said(by)) }
                    @if let Some(until) = &accepted.until { " until " (said(until)) }
                    ": " (said(&accepted.reason)) }
            }
        }
    }
}

fn figure_and_limit(row: &Row) -> Markup {
    html! {
        dl {
            @if let Some(found) = &row.measured().found { dt { "found" } dd { (said(found)) } }
            @if let Some(limit) = &row.measured().limit {
                dt { "limit" }
                dd { (said(limit))
                    @if let Some(of) = row.limit_of() { span.quiet { ", " (said(of)) } } }
            }
        }
        @if let Some(source) = row.source() { p.quiet { (said(source)) } }
    }
}
