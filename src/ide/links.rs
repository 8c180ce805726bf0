//! The files that a spec names.

use crate::analysis::Analysis;
use crate::syntax::ItemKind;
use crate::text::Span;

/// A path that leads to another file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Link {
    /// The path between its quotes, in bytes of the checked file.
    pub span: Span,
    /// The path as it is written, relative to the file's folder.
    pub path: String,
}

/// The paths after `use`, and after `like` in a standard.
pub fn links(analysis: &Analysis) -> Vec<Link> {
    let Some(file) = analysis.files.first() else {
        return Vec::new();
    };
    let lines = file.tree.lines();
    let naming = lines.filter(|line| {
        let word = line.word().to_ascii_lowercase();
        word == "use" || word == "like"
    });
    naming
        .filter_map(|line| {
            let item = line.line.phrases.first()?.items.first()?;
            let ItemKind::Text { inner } = item.kind else {
                return None;
            };
            let path = line.text_of(inner);
            (!path.is_empty() && !path.contains('\\')).then(|| Link {
                span: line.in_file(inner),
                path: path.to_owned(),
            })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::analysed;

    #[test]
    fn the_path_between_the_quotes_is_the_link() {
        for (text, paths) in [
            (
                "use \"office/a.patio\"\nlet a = 1 m\n",
                &["office/a.patio"][..],
            ),
            ("standard \"S\"\n  like \"../b.patio\"\n", &["../b.patio"]),
            ("material a\n  like crushed-stone\nuse x\nuse \"\"\n", &[]),
        ] {
            let found = links(&analysed(text));
            let written: Vec<&str> = found.iter().map(|link| link.path.as_str()).collect();
            assert_eq!(written, paths, "{text}");
            assert!(found.iter().all(|link| link.span.slice(text) == link.path));
        }
    }
}
