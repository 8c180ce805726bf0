//! The findings for reading: each with its line marked, then what is accepted
//! and the cautions in short.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::sync::{Arc, OnceLock};

use miette::{MietteHandler, MietteHandlerOpts, ReportHandler, RgbColors};
use rayon::prelude::*;

use super::marked::{Marked, Pages, released};
use super::page::Page;
use super::terminal::Look;
use crate::report::{LOCAL_RULES, Review, Reviewed, Row, Summary, WIDTH, wrapped};
use crate::text::{Shown, clean};

/// How many findings of a file are drawn by one thread at a time.
const DRAWN_AT_ONCE: usize = 64;

/// So many times as many are drawn before they are written and let go: a text
/// may have a finding in each of its lines.
const WRITTEN_AT_ONCE: usize = 64;

/// The findings of a review as text, with those that are accepted if they are
/// asked for; the last line says how many there are.
pub(crate) struct FindingsText<'a> {
    pub(crate) review: &'a Review,
    pub(crate) look: &'a Look,
    pub(crate) with_accepted: bool,
}

/// Some of the findings of a file, drawn together.
struct Passage<'a> {
    file: &'a Reviewed,
    pages: Arc<OnceLock<Pages>>,
    rows: &'a [Row],
    is_last: bool,
}

impl fmt::Display for FindingsText<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let handler = handler(self.look);
        let passages: Vec<Passage<'_>> = self.review.files.iter().flat_map(passages).collect();
        for some in passages.chunks(WRITTEN_AT_ONCE) {
            let texts = some.par_iter().map(|one| self.passage(one, &handler));
            for text in texts.collect::<Vec<String>>() {
                out.write_str(&text)?;
            }
        }
        out.write_str(&cautions(self.review, self.look))?;
        out.write_str(&summary(self.review, self.look))
    }
}

/// How many findings there are, as a line.
pub(crate) fn summary(review: &Review, look: &Look) -> String {
    look.bold(&Summary::of(review).sentence()) + "\n"
}

fn passages(file: &Reviewed) -> impl Iterator<Item = Passage<'_>> {
    let pages = Arc::default();
    let count = file.rows.len().div_ceil(DRAWN_AT_ONCE).max(1);
    (0..count).map(move |index| {
        let rows = file.rows.chunks(DRAWN_AT_ONCE).nth(index);
        Passage {
            file,
            pages: Arc::clone(&pages),
            rows: rows.unwrap_or_default(),
            is_last: index + 1 == count,
        }
    })
}

impl FindingsText<'_> {
    fn passage(&self, passage: &Passage<'_>, handler: &MietteHandler) -> String {
        let file = passage.file;
        let standing = passage.rows.iter().filter(|row| row.accepted.is_none());
        let pages = || passage.pages.get_or_init(|| pages(file));
        let mut text: String = standing.map(|row| drawn(row, pages(), handler)).collect();
        if passage.is_last && self.with_accepted {
            let rows = file.rows.iter().chain(&file.cautions);
            let accepted = rows.filter(|row| row.accepted.is_some()).map(|row| {
                let label = format!("{}, line {}", row.rule, row.at.start.0);
                (label, reason(row))
            });
            let title = format!("Accepted in {}", file.path);
            text += &short_list(&title, accepted.collect(), self.look);
        }
        text
    }
}

fn handler(look: &Look) -> MietteHandler {
    let mut options = MietteHandlerOpts::new()
        .force_graphical(true)
        .color(look.is_coloured)
        .rgb_colors(RgbColors::Never)
        .terminal_links(false)
        .context_lines(1)
        .tab_width(4)
        .show_related_errors_as_nested();
    if let Some(ascii) = look.is_ascii {
        options = options.unicode(!ascii);
    }
    if let Some(width) = look.width {
        options = options.width(width);
    }
    options.build()
}

/// A finding with its line marked, and an empty line after it.
fn drawn(row: &Row, pages: &Pages, handler: &MietteHandler) -> String {
    let drawn = Drawn(&Marked::new(row, pages), handler).to_string();
    released(&drawn).trim_start_matches('\n').to_owned() + "\n"
}

/// The usual cautions, each once however many files it is for.
fn cautions(review: &Review, look: &Look) -> String {
    let mut files: Vec<&str> = Vec::new();
    let mut said: BTreeMap<(&str, &str), Vec<&str>> = BTreeMap::new();
    for file in &review.files {
        let rows = file.cautions.iter().filter(|row| row.accepted.is_none());
        let own: BTreeSet<(&str, &str)> = rows.map(|row| (row.rule, &*row.message)).collect();
        files.extend((!own.is_empty()).then_some(file.path.as_str()));
        for caution in own {
            said.entry(caution).or_default().push(&file.path);
        }
    }
    let title = match files.as_slice() {
        [only] => format!("Cautions for {only}; {LOCAL_RULES}"),
        several => format!("Cautions for {} files; {LOCAL_RULES}", several.len()),
    };
    let lines = said.into_iter().map(|((rule, message), own)| {
        let words = match own.as_slice() {
            _ if own.len() == files.len() => message.to_owned(),
            [only] => format!("{message} (in {only})"),
            several => format!("{message} (in {} of them)", several.len()),
        };
        (rule.to_owned(), words)
    });
    short_list(&title, lines.collect(), look)
}

/// The pages that the findings of a file are marked on.
fn pages(file: &Reviewed) -> Pages {
    let mut pages = Pages::new();
    for spot in file.standing().flat_map(Row::spots) {
        if let Some(Some(source)) = file.pages.get(spot.file) {
            pages
                .entry(spot.file)
                .or_insert_with(|| Page::of(source, spot.path.to_string()));
        }
    }
    pages
}

/// Findings in a line or two each, without their source; empty if there are
/// none.
fn short_list(title: &str, lines: Vec<(String, String)>, look: &Look) -> String {
    let widest = lines.iter().map(|(label, _)| label.chars().count()).max();
    let Some(widest) = widest else {
        return String::new();
    };
    let mut text = look.bold(title);
    for (label, words) in lines {
        let width = look.width.unwrap_or(WIDTH).min(WIDTH);
        text.push('\n');
        let words = clean(&words, Shown::Line);
        text += &wrapped(&words, &format!("  {label:<widest$}  "), width);
    }
    text + "\n\n"
}

/// Why a finding is accepted, by whom and until when.
fn reason(row: &Row) -> String {
    let Some(accepted) = &row.accepted else {
        return String::new();
    };
    let clause = |word: &str, said: &Option<String>| match said {
        Some(said) => format!(", {word} {said}"),
        None => String::new(),
    };
    let (by, until) = (clause("by", &accepted.by), clause("until", &accepted.until));
    format!("\"{}\"{by}{until}", accepted.reason)
}

/// A finding as the handler draws it.
struct Drawn<'a>(&'a Marked<'a>, &'a MietteHandler);

impl fmt::Display for Drawn<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.1.debug(self.0, out)
    }
}
