//! The outline of a document.

use tower_lsp::lsp_types::{DocumentSymbolParams, SymbolKind};

use super::json;
use super::positions::Counted;
use super::session::Session;
use crate::ide::{self, Symbol};

/// The outline, written.
pub(crate) fn answer(
    session: &mut Session,
    params: &DocumentSymbolParams,
    to: &mut String,
) -> Option<()> {
    let snapshot = session.look(&params.text_document.uri)?;
    let text = snapshot.own()?;
    let symbols = ide::symbols(&snapshot.analysis);
    to.reserve(192 * symbols.len());
    json::array(&symbols, to, |symbol, to| write(symbol, text, to));
    Some(())
}

/// Symbols stand at most one in another.
fn write(symbol: &Symbol, text: Counted<'_>, to: &mut String) {
    to.push_str(r#"{"name":"#);
    json::text(&symbol.name, to);
    if let Some(detail) = &symbol.detail {
        to.push_str(r#","detail":"#);
        json::text(detail, to);
    }
    to.push_str(r#","kind":"#);
    to.push_str(&serde_json::to_string(&kind(symbol.kind)).unwrap_or_default());
    to.push_str(r#","range":"#);
    json::range(text.range(symbol.span), to);
    to.push_str(r#","selectionRange":"#);
    json::range(text.range(symbol.name_span), to);
    if !symbol.children.is_empty() {
        to.push_str(r#","children":"#);
        json::array(&symbol.children, to, |child, to| write(child, text, to));
    }
    to.push('}');
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
