//! The outline of a document, and the sections of all specs.

use tower_lsp::lsp_types::*;

use super::positions::Counted;
use super::session::Session;
use super::snapshot::Snapshot;
use crate::ide::{self, Symbol};

/// A section of a spec, as it is kept of one that is not open.
#[derive(Debug)]
pub(crate) struct Section {
    name: Box<str>,
    /// What stands beside it.
    detail: Option<Box<str>>,
    kind: SymbolKind,
    /// Where its name stands.
    range: Range,
}

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

/// The sections of all specs, open or in the folders of the workspace, whose
/// name has what is asked for.
pub(crate) fn of_workspace(
    session: &mut Session,
    params: &WorkspaceSymbolParams,
) -> Option<Vec<SymbolInformation>> {
    let query = params.query.to_lowercase();
    let is_wanted = |section: &&Section| section.name.to_lowercase().contains(&query);
    let mut found = Vec::new();
    for uri in session.addresses() {
        if let Some(snapshot) = session.look(&uri) {
            let all = sections(&snapshot);
            let wanted = all.iter().filter(is_wanted);
            found.extend(wanted.map(|section| section.at(uri.clone())));
        }
    }
    let closed = session.closed_sections();
    let closed = closed.filter(|(_, section)| is_wanted(section));
    found.extend(closed.filter_map(|(path, section)| Some(section.at(session.address(path)?))));
    Some(found)
}

/// The sections of a spec.
pub(crate) fn sections(snapshot: &Snapshot) -> Box<[Section]> {
    let Some(text) = snapshot.own() else {
        return Box::default();
    };
    let symbols = ide::symbols(&snapshot.analysis).into_iter();
    let sections = symbols.map(|symbol| Section {
        range: text.range(symbol.name_span),
        kind: kind(symbol.kind),
        name: symbol.name.into(),
        detail: symbol.detail.map(Into::into),
    });
    sections.collect()
}

impl Section {
    #[allow(
        deprecated,
        reason = "the type has a field that the protocol has given up"
    )]
    fn at(&self, uri: Url) -> SymbolInformation {
        SymbolInformation {
            location: Location::new(uri, self.range),
            kind: self.kind,
            name: self.name.to_string(),
            tags: None,
            deprecated: None,
            container_name: self.detail.as_deref().map(str::to_owned),
        }
    }
}

/// Editors draw a sign for each of the protocol's kinds; these look least odd.
fn kind(kind: ide::SymbolKind) -> SymbolKind {
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
