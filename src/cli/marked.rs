//! A finding with its line marked, as it is drawn.

use std::collections::BTreeMap;
use std::fmt;

use miette::{Diagnostic, LabeledSpan, Severity as Grade, SourceCode};

use super::page::Page;
use crate::findings::Severity;
use crate::report::{Row, Spot, bound};
use crate::text::{Shown, clean};

/// The pages that marks are made on, by the file's place in the analysis.
pub(crate) type Pages = BTreeMap<usize, Page>;

/// A finding on the page that it is about.
pub(crate) struct Marked<'a> {
    row: &'a Row,
    pages: &'a Pages,
    elsewhere: Vec<Elsewhere<'a>>,
}

/// What a finding clashes with in another file.
struct Elsewhere<'a> {
    at: &'a Spot,
    message: &'a str,
    page: Option<&'a Page>,
}

impl<'a> Marked<'a> {
    /// A finding of the file that was checked.
    pub(crate) fn new(row: &'a Row, pages: &'a Pages) -> Marked<'a> {
        let others = row.related.iter().filter(|(at, _)| at.file != row.at.file);
        let elsewhere = others.map(|(at, message)| Elsewhere {
            at,
            message,
            page: pages.get(&at.file),
        });
        Marked {
            row,
            pages,
            elsewhere: elsewhere.collect(),
        }
    }

    /// What to do, where the limit comes from, and what would put it right.
    fn advice(&self) -> Vec<String> {
        let row = self.row;
        let mut lines: Vec<String> = row.help.iter().map(|help| help.to_string()).collect();
        if let Some(limit) = &row.measured().limit {
            let line = row.limit_line.as_ref();
            let set = line.map(|at| format!("set in {} line {}", at.path, at.start.0));
            let own = |words: Option<&str>| words.filter(|_| set.is_none()).map(str::to_owned);
            let (of, source) = (own(row.limit_of()), own(row.source()));
            let before: Vec<String> = std::iter::once(limit.clone()).chain(of).collect();
            let reported: Vec<String> = std::iter::once(before.join(", "))
                .chain(set)
                .chain(source)
                .collect();
            lines.push(format!("limit: {}", reported.join("; ")));
        }
        let was = row.was.as_ref();
        lines.extend(was.map(|was| format!("worse than the baseline knows: {was} then")));
        lines.extend(row.fixes.iter().enumerate().map(|(index, fix)| {
            let before = if index == 0 { "to fix it" } else { "or" };
            let unseen = if fix.is_safe { " (--fix does)" } else { "" };
            format!("{before}: {}{unseen}", fix.title)
        }));
        lines
    }
}

/// Stands for a hyphen while lines are broken, so that none is broken there.
const HELD_HYPHEN: char = '\u{e02d}';

/// The text as it is handed over to be broken into lines: never inside a
/// hyphenated name, nor between a figure and its unit.
fn held(text: &str) -> String {
    bound(&clean(text, Shown::Lines)).replace('-', &HELD_HYPHEN.to_string())
}

/// What was drawn, with its hyphens back.
pub(crate) fn released(drawn: &str) -> String {
    drawn.replace(HELD_HYPHEN, "-")
}

impl fmt::Debug for Marked<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{} at {}", self.row.rule, self.row.at.path)
    }
}

impl fmt::Display for Marked<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&held(&self.row.message))
    }
}

impl std::error::Error for Marked<'_> {}

impl Diagnostic for Marked<'_> {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        Some(Box::new(format!(
            "{}: {}",
            self.row.severity, self.row.rule
        )))
    }

    fn severity(&self) -> Option<Grade> {
        Some(match self.row.severity {
            Severity::Error => Grade::Error,
            Severity::Warning => Grade::Warning,
            Severity::Advisory => Grade::Advice,
        })
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        let advice = self.advice();
        (!advice.is_empty()).then(|| Box::new(held(&advice.join("\n"))) as Box<dyn fmt::Display>)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.pages
            .get(&self.row.at.file)
            .map(|page| page as &dyn SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let page = self.pages.get(&self.row.at.file)?;
        let own = page.first_line_of(self.row.at.bytes);
        let here = self
            .row
            .related
            .iter()
            .filter(|(at, _)| at.file == self.row.at.file);
        // Among other marks the one that matters says so.
        let label = here.clone().next().map(|_| "here".to_owned());
        let own = LabeledSpan::new_primary_with_span(label, own);
        let others = here.map(|(at, message)| {
            LabeledSpan::new_with_span(
                Some(clean(message, Shown::Line).into_owned()),
                page.first_line_of(at.bytes),
            )
        });
        Some(Box::new(std::iter::once(own).chain(others)))
    }

    fn related<'a>(&'a self) -> Option<Box<dyn Iterator<Item = &'a dyn Diagnostic> + 'a>> {
        let elsewhere = self.elsewhere.iter().map(|other| other as &dyn Diagnostic);
        (!self.elsewhere.is_empty()).then(|| Box::new(elsewhere) as _)
    }
}

impl fmt::Debug for Elsewhere<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{} at {}", self.message, self.at.path)
    }
}

impl fmt::Display for Elsewhere<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&held(self.message))
    }
}

impl std::error::Error for Elsewhere<'_> {}

impl Diagnostic for Elsewhere<'_> {
    fn severity(&self) -> Option<Grade> {
        Some(Grade::Advice)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.page.map(|page| page as &dyn SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let at = self.page?.first_line_of(self.at.bytes);
        Some(Box::new(std::iter::once(
            LabeledSpan::new_primary_with_span(None, at),
        )))
    }
}
