//! The outline of a document.

use tower_lsp::lsp_types::{
    DocumentSymbol, DocumentSymbolParams, DocumentSymbolResponse, SymbolKind,
};

use super::positions::Counted;
use super::session::Session;
use crate::ide::{self, Symbol};

/// The outline.
pub(crate) fn answer(
    session: &mut Session,
    params: &DocumentSymbolParams,
) -> Option<DocumentSymbolResponse> {
    let snapshot = session.look(&params.text_document.uri)?;
    let text = snapshot.own()?;
    Some(shown(ide::symbols(&snapshot.analysis), text).into())
}

/// Symbols stand at most one in another.
#[allow(
    deprecated,
    reason = "the type has a field that the protocol has given up"
)]
fn shown(symbols: Vec<Symbol>, text: Counted<'_>) -> Vec<DocumentSymbol> {
    let shown = symbols.into_iter().map(|symbol| DocumentSymbol {
        range: text.range(symbol.span),
        selection_range: text.range(symbol.name_span),
        kind: kind(symbol.kind),
        name: symbol.name,
        detail: symbol.detail,
        children: (!symbol.children.is_empty()).then(|| shown(symbol.children, text)),
        tags: None,
        deprecated: None,
    });
    shown.collect()
}

/// Editors draw a sign for each of the protocol's kinds; these look least odd.
pub(crate) fn kind(kind: ide::SymbolKind) -> SymbolKind {
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
