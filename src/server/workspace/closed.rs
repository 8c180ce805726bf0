//! What is kept of a spec that is not open.

use tower_lsp::lsp_types::{Range, SymbolKind};

use crate::server::numbered::Numbered;

/// What is kept of a spec that is not open.
#[derive(Debug, Default)]
pub(crate) struct Closed {
    /// Its findings.
    pub found: Numbered,
    /// Whether the client was sent findings of it.
    pub is_told: bool,
    /// Its sections.
    pub symbols: Box<[ClosedSymbol]>,
}

/// A section of a spec that is not open.
#[derive(Debug)]
pub(crate) struct ClosedSymbol {
    /// Its name.
    pub name: Box<str>,
    /// What stands beside it.
    pub detail: Option<Box<str>>,
    /// Its kind.
    pub kind: SymbolKind,
    /// Where its name stands.
    pub range: Range,
}
