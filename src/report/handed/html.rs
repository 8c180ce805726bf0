//! The report as a page for a browser and its printer.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::drawing::{
    Block, Column, Document, Drawing, Dress, Face, Holds, Row, Size, Table, svg, type_face,
};

const STYLE: &str = include_str!("report.css");

/// The whole page.
pub(crate) fn page(document: &Document) -> String {
    let faces: String = Face::ALL.into_iter().map(type_face).collect();
    let paper = match document.size {
        Size::Letter | Size::Tabloid => "letter",
        _ => "A4",
    };
    let size = format!(
        "@page {{ size: {paper}; }}\n@page sheet {{ size: {paper}; margin: 0; }}\n\
         @page lying {{ size: {paper} landscape; margin: 0; }}\n"
    );
    let markup = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta http-equiv="Content-Security-Policy"
                    content="default-src 'none'; style-src 'unsafe-inline'; font-src data:";
                title { (document.title) }
                style { (PreEscaped(faces + STYLE + &size)) }
            }
            body {
                main {
                    @for (number, blocks) in chapters(&document.blocks).enumerate() {
                        (chapter(document, number == 0, blocks))
                    }
                }
                footer { (document.foot) }
            }
        }
    };
    markup.into_string()
}

/// The blocks from one chapter or new page to the next, with what begins each;
/// a sheet, which has a page of its own, parts them too.
fn chapters(blocks: &[Block]) -> impl Iterator<Item = &[Block]> {
    let begins = |block: &Block| matches!(block, Block::Chapter | Block::NewPage);
    let is_sheet = |block: &Block| matches!(block, Block::Sheet(_));
    blocks.chunk_by(move |one, next| {
        let parts = is_sheet(one) || is_sheet(next) && !begins(one);
        !begins(next) && !parts
    })
}

/// A chapter, kept on one page where that holds it.
fn chapter(document: &Document, is_first: bool, blocks: &[Block]) -> Markup {
    let begins = blocks.first();
    let is_chapter = matches!(begins, Some(Block::Chapter));
    let is_new_page = matches!(begins, Some(Block::NewPage));
    let rest = blocks
        .iter()
        .filter(|block| !matches!(block, Block::Chapter | Block::NewPage));
    html! {
        section.chapter[is_chapter] {
            @if is_new_page { div.page {} }
            @if is_first || is_chapter || is_new_page { (warning(document)) }
            @for block in rest { (part(block)) }
        }
    }
}

/// What must be read before all else, on top of what may be handed out by
/// itself.
fn warning(document: &Document) -> Markup {
    html! { @if let Some(words) = &document.warning { p.stop { (words) } } }
}

fn part(block: &Block) -> Markup {
    match block {
        Block::Title(words) => html! { h1 { (words) } },
        Block::Heading(words) => html! { h2 { (words) } },
        Block::Subheading(words) => html! { h3 { (words) } },
        Block::Text(words) => html! { p { (unparted(words)) } },
        Block::Quiet(words) => html! { p.quiet { (words) } },
        Block::List(items) => html! { ul { @for item in items { li { (unparted(item)) } } } },
        Block::Table(table) => tabled(table),
        Block::Figure(drawing) => figure(drawing),
        Block::Facts(facts) => html! {
            div.facts {
                @for fact in facts {
                    div style=(format!("flex: {}", fact.share())) { p { (fact.caption) } p.fact { (fact.value) } p { (fact.note) } }
                }
            }
        },
        Block::Sheet(drawing) => sheet(drawing),
        Block::Together(blocks) => html! {
            section.short { @for block in blocks { (part(block)) } }
        },
        Block::Chapter | Block::NewPage => html! { div.page {} },
    }
}

/// Words in which a sign of per cent stays on the line of its figure.
fn unparted(words: &str) -> String {
    words.replace(" %", "\u{a0}%")
}

/// A sheet, its type that of the page.
fn sheet(drawing: &Drawing) -> Markup {
    let dress = Dress {
        has_type: false,
        anchor: &|_| None,
    };
    let (wide, high) = drawing.size;
    let size = format!("width: {wide}mm; height: {high}mm;");
    html! {
        div.sheet.lying[wide > high] style=(size) { (PreEscaped(svg(drawing, &dress))) }
    }
}

/// A picture among the words.
fn figure(drawing: &Drawing) -> Markup {
    let dress = Dress {
        has_type: false,
        anchor: &|_| None,
    };
    let wide = format!("width: {}mm;", drawing.size.0);
    html! { div.figure style=(wide) { (PreEscaped(svg(drawing, &dress))) } }
}

fn tabled(table: &Table) -> Markup {
    let has_heads = table.columns.iter().any(|own| !own.heading.is_empty());
    // What is short is not parted by the end of a page.
    let is_short = table.rows.len() <= 12;
    html! {
        table.short[is_short].narrow[table.is_narrow()] {
            @if !table.is_narrow() { colgroup { @for column in &table.columns { col style=(width(table, column)); } } }
            @if has_heads {
                thead { tr {
                    @for column in &table.columns {
                        th scope="col" class=(class(column.holds)) { (column.heading) }
                    }
                } }
            }
            tbody { @for row in &table.rows { (cells(table, row)) } }
        }
    }
}

/// How wide a column is: what stands in a box as wide as that, the others by
/// their share.
fn width(table: &Table, column: &Column) -> String {
    if column.holds == Holds::Ticks {
        return "width: 8mm".to_owned();
    }
    let words = table.columns.iter().filter(|own| own.holds != Holds::Ticks);
    let all: f64 = words.map(|own| own.share).sum();
    format!("width: {:.1}%", 100.0 * column.share / all.max(1e-9))
}

fn cells(table: &Table, row: &Row) -> Markup {
    let cells = table.columns.iter().zip(&row.cells);
    html! {
        tr class=[row.is_total.then_some("total")] {
            @for (column, words) in cells {
                td class=(class(column.holds)) {
                    @if column.holds != Holds::Ticks { (words) }
                    @else if !words.is_empty() { span.box {} }
                }
            }
        }
    }
}

const fn class(holds: Holds) -> &'static str {
    match holds {
        Holds::Words => "words",
        Holds::Figures => "figures",
        Holds::MoreFigures => "more",
        Holds::Ticks => "tick",
        Holds::Blanks => "blank",
    }
}
