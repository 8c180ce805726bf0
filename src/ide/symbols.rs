//! The outline of a spec: its sections, and the layers of its builds.

use rustc_hash::FxHashMap;

use crate::analysis::Analysis;
use crate::syntax::{Line, LineKind, Placed, Tree};
use crate::text::Span;
use crate::units::{Quantity, show};
use crate::vocabulary::{Role, section};

/// What an outline's line stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SymbolKind {
    /// A `job`, `site` or `standard`.
    Heading,
    /// A `let`.
    Let,
    /// A `shape`.
    Shape,
    /// A `surface`.
    Surface,
    /// A `build`.
    Build,
    /// A layer of a build.
    Layer,
    /// A `mix`.
    Mix,
    /// A `material`.
    Material,
    /// Any other section.
    Other,
}

/// A line of the outline.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Symbol {
    /// Its name, or its kind and title.
    pub name: String,
    /// What to show beside it.
    pub detail: Option<String>,
    /// What it stands for.
    pub kind: SymbolKind,
    /// All of it, in bytes of the checked file.
    pub span: Span,
    /// Its name; inside `span`.
    pub name_span: Span,
    /// What it holds.
    pub children: Vec<Symbol>,
}

/// The outline of the checked file, from the top down.
pub fn symbols(analysis: &Analysis) -> Vec<Symbol> {
    let Some(file) = analysis.files.first() else {
        return Vec::new();
    };
    let mut lets = Lets::default();
    for (name, value) in &analysis.job.lets {
        lets.entry(&name.value).or_insert(value.as_ref());
    }
    let sections = file.tree.sections.iter();
    sections
        .filter_map(|placed| symbol(analysis, &lets, &file.tree, placed))
        .collect()
}

/// What the lets come to, by their names.
type Lets<'a> = FxHashMap<&'a str, Option<&'a Quantity>>;

/// A section; nothing if it has no heading of a known kind.
fn symbol(analysis: &Analysis, lets: &Lets<'_>, tree: &Tree, placed: &Placed) -> Option<Symbol> {
    let heading = Placing::heading(tree, placed)?;
    let kind = section(heading.word())?;
    let named = heading.first_phrase();
    let name = match named {
        Some(span) if kind.defines.is_some() => span.slice(&tree.text).to_owned(),
        Some(span) => format!("{} {}", kind.word, span.slice(&tree.text)),
        None => kind.word.to_owned(),
    };
    let mut end = heading.span().end;
    let mut children = Vec::new();
    for (start, line) in &placed.section.lines {
        let line = Placing {
            tree,
            start: placed.start.saturating_add(*start),
            line,
        };
        if line.start > heading.start
            && matches!(line.line.kind, LineKind::Entry | LineKind::Unread)
        {
            end = line.span().end;
            if kind.word == "build" {
                children.extend(layer(&line));
            }
        }
    }
    let own_kind = Some(kind.word.to_owned());
    let (symbol, detail) = match kind.word {
        "job" | "site" | "standard" => (SymbolKind::Heading, None),
        "let" => (SymbolKind::Let, value(analysis, lets, &name)),
        "shape" => (SymbolKind::Shape, area(analysis, &name)),
        "surface" => (SymbolKind::Surface, own_kind),
        "steps" => (SymbolKind::Other, risers(analysis, &name).or(own_kind)),
        "build" => (SymbolKind::Build, own_kind),
        "mix" => (SymbolKind::Mix, own_kind),
        "material" => (SymbolKind::Material, own_kind),
        "drain" => (SymbolKind::Other, own_kind),
        _ => (SymbolKind::Other, None),
    };
    Some(Symbol {
        name,
        detail,
        kind: symbol,
        span: Span::new(heading.span().start, end),
        name_span: named.unwrap_or(heading.word_span()),
        children,
    })
}

fn layer(line: &Placing<'_>) -> Option<Symbol> {
    Role::from_word(line.word())?;
    let of = line.first_phrase();
    let rest = of.map(|of| Span::new(of.start, line.span().end).slice(&line.tree.text));
    Some(Symbol {
        name: line.word().to_owned(),
        detail: rest.map(str::to_owned),
        kind: SymbolKind::Layer,
        span: line.span(),
        name_span: line.word_span(),
        children: Vec::new(),
    })
}

fn area(analysis: &Analysis, name: &str) -> Option<String> {
    let area = analysis
        .figures
        .shapes
        .get(analysis.job.shapes.get_index_of(name)?)?
        .area_m2?;
    Some(show::area(area, analysis.job.heading.system()))
}

/// How many risers a flight of steps has, and how high they are.
fn risers(analysis: &Analysis, name: &str) -> Option<String> {
    let mut all = analysis.figures.steps.iter();
    let own = all.find(|steps| steps.name == name)?;
    let flight = own.flight.as_ref()?;
    let each = show::length(flight.riser_m, analysis.job.heading.system());
    Some(match flight.risers {
        1 => format!("1 riser of {each}"),
        more => format!("{more} risers of {each}"),
    })
}

fn value(analysis: &Analysis, lets: &Lets<'_>, name: &str) -> Option<String> {
    let value = lets.get(name).copied().flatten()?;
    Some(show::quantity(value, analysis.job.heading.system()))
}

/// A line at its place in the file.
struct Placing<'a> {
    tree: &'a Tree,
    start: u32,
    line: &'a Line,
}

impl<'a> Placing<'a> {
    fn heading(tree: &'a Tree, placed: &'a Placed) -> Option<Placing<'a>> {
        let lines = &placed.section.lines;
        let (start, line) = lines
            .iter()
            .find(|(_, line)| line.kind == LineKind::Heading)?;
        Some(Placing {
            tree,
            start: placed.start.saturating_add(*start),
            line,
        })
    }

    fn word_span(&self) -> Span {
        self.line.word.shift(self.start)
    }

    fn word(&self) -> &'a str {
        self.word_span().slice(&self.tree.text)
    }

    /// The value of the line; for a `let` the name before its sign.
    fn first_phrase(&self) -> Option<Span> {
        let phrase = self.line.phrases.first()?;
        let first = phrase.items.first()?;
        let names = section(self.word()).is_some_and(|kind| kind.defines.is_some());
        let span = if names { first.span } else { phrase.span };
        Some(span.shift(self.start))
    }

    /// From its first word to its last item, comments and break left out.
    fn span(&self) -> Span {
        let last = self
            .line
            .phrases
            .iter()
            .rev()
            .find(|phrase| !phrase.items.is_empty());
        let end = last.map_or(self.line.word.end, |phrase| phrase.span.end);
        Span::new(self.line.word.start, end).shift(self.start)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{COURT, analysed};

    #[test]
    fn the_outline_is_the_sections_and_the_layers() {
        let symbols = symbols(&analysed(COURT));
        let names: Vec<&str> = symbols.iter().map(|symbol| symbol.name.as_str()).collect();
        assert_eq!(
            names,
            [
                "job \"Boat house court\"",
                "gap",
                "court",
                "court",
                "sand-set",
                "bed-mix",
                "hard-stone"
            ]
        );
        let layers: Vec<&str> = symbols[4]
            .children
            .iter()
            .map(|layer| layer.name.as_str())
            .collect();
        assert_eq!(layers, ["paving", "bed", "base", "fabric"]);
        assert_eq!(symbols[1].detail.as_deref(), Some("10 mm"));
        assert_eq!(symbols[2].detail.as_deref(), Some("24 m²"));
    }

    #[test]
    fn spans_hold_their_names_and_their_children() {
        fn check(symbols: &[Symbol], within: Span) {
            for symbol in symbols {
                assert!(within.covers(symbol.span), "{symbol:?}");
                assert!(symbol.span.covers(symbol.name_span), "{symbol:?}");
                check(&symbol.children, symbol.span);
            }
        }
        let odd = "job\n\nwhat is this\n  x\nlet = 5\nshape\n  start\n  (\nbuild b\n  base\n\n # c\nuse \"x\"";
        for text in [COURT, odd, &COURT.replace('\n', "\r\n")] {
            check(&symbols(&analysed(text)), Span::from(0..text.len()));
        }
    }
}
