//! What is kept of a spec that is not open.

use tower_lsp::lsp_types::{Diagnostic, Range, SymbolKind};

/// What is kept of a spec that is not open.
#[derive(Debug, Default)]
pub(crate) struct Closed {
    /// The number of its findings, which stays while they do.
    pub number: u64,
    /// Its findings.
    pub findings: Box<[Diagnostic]>,
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

impl Closed {
    /// Takes findings, with a fresh number if they are others than before;
    /// whether they are. Of a spec that was not known before, none are none.
    pub(crate) fn take(&mut self, findings: &[Diagnostic], fresh: u64) -> bool {
        let is_first = self.number == 0;
        let are_others = *self.findings != *findings;
        if is_first || are_others {
            self.number = fresh;
            self.findings = findings.into();
        }
        are_others
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_other_findings_are_news() {
        let one = [Diagnostic {
            message: "one".to_owned(),
            ..Diagnostic::default()
        }];
        let mut closed = Closed::default();
        for (findings, fresh, is_news, number) in [
            (&one[..0], 1, false, 1),
            (&one, 2, true, 2),
            (&one, 3, false, 2),
            (&one[..0], 4, true, 4),
        ] {
            assert_eq!(closed.take(findings, fresh), is_news, "{fresh}");
            assert_eq!(closed.number, number);
            assert_eq!(*closed.findings, *findings);
        }
    }
}
