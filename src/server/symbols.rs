//! The outline of a document.

use tower_lsp::lsp_types::{DocumentSymbol, DocumentSymbolResponse, SymbolKind, Url};

use super::desk::Desk;
use super::positions::Counted;
use crate::ide::{self, Symbol};

/// The outline.
pub fn answer(desk: &mut Desk, uri: &Url) -> Option<DocumentSymbolResponse> {
    let look = desk.look(uri)?;
    let text = look.own()?;
    let symbols = ide::symbols(&look.analysis).into_iter();
    Some(DocumentSymbolResponse::Nested(
        symbols.map(|symbol| shown(symbol, text)).collect(),
    ))
}

#[allow(
    deprecated,
    reason = "the type has a field that the protocol has given up"
)]
fn shown(symbol: Symbol, text: Counted<'_>) -> DocumentSymbol {
    let children: Vec<DocumentSymbol> = symbol
        .children
        .into_iter()
        .map(|child| shown(child, text))
        .collect();
    DocumentSymbol {
        name: symbol.name,
        detail: symbol.detail,
        kind: kind(symbol.kind),
        tags: None,
        deprecated: None,
        range: text.range(symbol.span),
        selection_range: text.range(symbol.name_span),
        children: (!children.is_empty()).then_some(children),
    }
}

/// Editors draw a sign for each of the protocol's kinds; these look least odd.
pub fn kind(kind: ide::SymbolKind) -> SymbolKind {
    match kind {
        ide::SymbolKind::Heading => SymbolKind::PACKAGE,
        ide::SymbolKind::Let => SymbolKind::CONSTANT,
        ide::SymbolKind::Shape => SymbolKind::STRUCT,
        ide::SymbolKind::Surface => SymbolKind::CLASS,
        ide::SymbolKind::Build => SymbolKind::MODULE,
        ide::SymbolKind::Layer => SymbolKind::FIELD,
        ide::SymbolKind::Mix => SymbolKind::FUNCTION,
        ide::SymbolKind::Material => SymbolKind::OBJECT,
        ide::SymbolKind::Other => SymbolKind::NAMESPACE,
    }
}
