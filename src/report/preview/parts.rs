//! The head of the page, the figures, and what to be careful of.

use maud::{Markup, PreEscaped, html};

use crate::analysis::Analysis;
use crate::drawing::Section;
use crate::model::Stated;
use crate::report::figure_tables::{Part, Table, figure_tables};
use crate::report::{Summary, cautions, counted, shown_path, unknown};
use crate::text::{Shown, clean};
use crate::units::System;
use crate::vocabulary::Term;

/// Text that somebody wrote, without what would move or hide it.
pub(super) fn said(text: &str) -> String {
    clean(text, Shown::Line).into_owned()
}

/// A sentence of our own, in which what is written in the text stands in
/// backticks.
pub(super) fn sentence(text: &str) -> Markup {
    let text = said(text);
    let parts = text.split('`').enumerate();
    html! {
        @for (number, part) in parts {
            @if number % 2 == 1 { code { (part) } } @else { (part) }
        }
    }
}

/// Which job it is, from which text, and how it stands.
pub(super) fn head(analysis: &Analysis, folder: &str) -> Markup {
    let heading = &analysis.job.heading;
    let title = heading.title.as_ref().map(|title| said(&title.value));
    let of = |stated: &Option<Stated<String>>| stated.as_ref().map(|own| said(&own.value));
    let units = match heading.system() {
        System::Imperial => "feet and inches",
        System::Metric => Term::Metres.word(heading.region()),
    };
    let about: Vec<String> = [
        Some(said(&shown_path(&analysis.path, folder))),
        of(&heading.reference),
        of(&heading.date),
        Some(units.to_owned()),
    ]
    .into_iter()
    .flatten()
    .collect();
    let standing = Summary::standing(analysis);
    html! {
        h1 { (title.unwrap_or_else(|| "Untitled job".to_owned())) }
        p.quiet { (about.join(" · ")) }
        @if standing.errors > 0 {
            p.stop {
                "Do not build or order from this: " (counted(standing.errors, "error", "errors"))
            }
        } @else if standing.warnings > 0 {
            p.note { "Before you order: " (standing.kinds()) }
        }
    }
}

/// What goes with the plan; empty if there is nothing.
pub(super) fn sections(sections: &[Section]) -> Markup {
    html! {
        @if !sections.is_empty() {
            h2 { "Sections" }
            @for own in sections {
                figure {
                    (PreEscaped(&own.svg))
                    @if !own.notes.is_empty() {
                        figcaption.quiet { (own.notes.iter().map(|note| said(note)).collect::<Vec<_>>().join(" ")) }
                    }
                }
            }
        }
    }
}

/// Every figure of the take-off but the orders, which are the shopping list.
pub(super) fn figures(analysis: &Analysis) -> Markup {
    let parts = figure_tables(analysis);
    let parts = parts
        .iter()
        .filter(|part| !["order", "total"].contains(&part.kind));
    html! {
        h2 { "Figures" }
        @for part in parts { (figure_part(part)) }
        @let unknown = unknown(analysis);
        @if !unknown.is_empty() {
            h3 { "Not known" }
            ul { @for why in &unknown { li { (sentence(why)) } } }
        }
    }
}

/// So many columns stand beside one another on a narrow page too; more become
/// names and values there.
const FEW: usize = 4;

fn figure_part(part: &Part) -> Markup {
    html! {
        h3 { (part.heading) " " (said(&part.name)) }
        @for table in &part.tables {
            @let is_many = matches!(table, Table::Rows(columns, _) if columns.len() > FEW);
            div.wide { table.many[is_many] { (rows(table)) } }
        }
    }
}

fn rows(table: &Table) -> Markup {
    match table {
        Table::Whole(figures) => html! {
            @for (what, shown) in figures {
                tr { th scope="row" { (what) } td { (shown) } }
            }
        },
        Table::Rows(columns, rows) => html! {
            tr { th {} @for column in columns { th.number scope="col" { (column) } } }
            @for (name, cells) in rows {
                tr {
                    th scope="row" { (said(name)) }
                    @for (column, cell) in columns.iter().zip(cells) {
                        td data-head=(column) { (cell) }
                    }
                }
            }
        },
    }
}

/// What to be careful of; empty if there is nothing.
pub(super) fn care(analysis: &Analysis) -> Markup {
    let cautions = cautions(analysis);
    html! {
        @if !cautions.is_empty() {
            h2 { "Take care" }
            ul { @for caution in &cautions { li { (sentence(caution)) } } }
        }
    }
}
