//! A value given a name.

use super::{Rewriting, RewritingKind, edit, line_end};
use crate::analysis::Analysis;
use crate::findings::FileId;
use crate::ide::cursor::Cursor;
use crate::ide::names;
use crate::syntax::ItemKind;
use crate::text::Span;
use crate::vocabulary::is_reserved;

/// The value at a place as a `let` above its section, named after the clause
/// or key that it stands in.
pub(crate) fn extracted(analysis: &Analysis, wanted: Span) -> Option<Rewriting> {
    let file = analysis.files.first()?;
    let cursor = Cursor::at(file, FileId(0), wanted.start)?;
    let key = cursor.key()?;
    let item = cursor.item()?;
    let (_, phrase) = cursor.phrase()?;
    let ItemKind::Number { terms, currency } = &item.kind else {
        return None;
    };
    // A number without a unit may be a part of a mix or a count.
    if currency.is_none() && terms.iter().all(|term| term.unit.is_none()) {
        return None;
    }
    let span = cursor.with_unit_after(item);
    let written = cursor.slice(span);
    let first = phrase.items.first().map(|first| cursor.slice(first.span));
    let clauses = key.clauses.iter().filter_map(|clause| clause.word());
    let clause = clauses
        .into_iter()
        .find(|word| first.is_some_and(|first| first.eq_ignore_ascii_case(word)));
    let name = free_name(analysis, clause.unwrap_or(key.word))?;
    let placed = file.tree.find(cursor.section.section)?;
    let end = line_end(&file.tree.text);
    let text = format!("let {name} = {written}{end}{end}");
    Some(Rewriting {
        title: format!("Name `{written}` with a let"),
        kind: RewritingKind::Extract,
        finding: None,
        cursor: None,
        edits: vec![
            edit(Span::at(placed.start), text),
            edit(cursor.in_file(span), name),
        ],
    })
}

/// The word, or the word with a number, as the name of no let yet.
fn free_name(analysis: &Analysis, word: &str) -> Option<String> {
    let taken = names::lets(analysis);
    let is_free = |name: &String| is_reserved(name).is_none() && !taken.contains(name);
    let plain = std::iter::once(word.to_owned());
    let numbered = (1..1_000).map(|number| match number {
        1 => format!("{word}-size"),
        _ => format!("{word}-size-{number}"),
    });
    plain.chain(numbered).find(is_free)
}

#[cfg(test)]
mod tests {
    use super::super::tests::rewritten;
    use crate::ide::fixture::{COURT, analysed};

    #[test]
    fn a_value_is_named_above_its_section_and_the_figures_stay() {
        for (marked, named) in [
            ("beyond 10¦0 mm\n  fabric", "let beyond = 100 mm\n\nbuild"),
            ("east         ¦6 m", "let east-size = 6 m\n\n# As measured"),
            (
                "density      1.5 ¦t/m3 loose",
                "let density = 1.5 t/m3\n\nmaterial",
            ),
            ("price        €3¦0/t", "let price = €30/t\n\nmaterial"),
        ] {
            let plain = marked.replace('¦', "");
            let text = rewritten(&COURT.replacen(&plain, marked, 1), "Name").expect(marked);
            assert!(text.contains(named), "{marked}\n{text}");
            let totals = [COURT, text.as_str()].map(|text| {
                let analysis = analysed(text);
                let rules: Vec<&str> = analysis.findings.iter().map(|one| one.rule).collect();
                format!("{:?} {rules:?}", analysis.figures.total)
            });
            assert_eq!(totals[0], totals[1], "{marked}\n{text}");
        }
    }

    #[test]
    fn names_and_bare_numbers_are_left() {
        for marked in ["lifts 2¦", "1¦ portland-cement", "by s¦harp", "la¦id"] {
            let plain = marked.replace('¦', "");
            let text = COURT.replacen(&plain, marked, 1);
            if text.contains('¦') {
                assert_eq!(rewritten(&text, "Name"), None, "{marked}");
            }
        }
    }
}
