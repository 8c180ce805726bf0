//! Findings under a number that stays while they do, by which a client that
//! asks is told that nothing has changed.

use tower_lsp::lsp_types::Diagnostic;

/// Findings and their number.
#[derive(Debug, Default)]
pub(crate) struct Numbered {
    /// The number; 0 before anything was found or not found.
    pub number: u64,
    /// The findings.
    pub findings: Vec<Diagnostic>,
}

impl Numbered {
    /// Takes findings, with a fresh number if they are others than before;
    /// whether they are. Where none were known before, none are no news.
    pub(crate) fn take(&mut self, findings: Vec<Diagnostic>, fresh: u64) -> bool {
        let are_others = self.findings != findings;
        if are_others || self.number == 0 {
            *self = Numbered {
                number: fresh,
                findings,
            };
        }
        are_others
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_other_findings_are_news() {
        let one = vec![Diagnostic::default()];
        let mut own = Numbered::default();
        for (findings, fresh, is_news, number) in [
            (&[][..], 1, false, 1),
            (&[], 2, false, 1),
            (&one, 3, true, 3),
            (&one, 4, false, 3),
            (&[], 5, true, 5),
        ] {
            assert_eq!(own.take(findings.to_vec(), fresh), is_news, "{fresh}");
            assert_eq!((own.number, &*own.findings), (number, findings));
        }
    }
}
