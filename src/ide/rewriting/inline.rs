//! A let's value written wherever it is used, and the let taken out.

use super::{Rewriting, RewritingKind, edit};
use crate::analysis::Analysis;
use crate::ide::names::{self, Occurrence, Role};
use crate::model::FileKind;
use crate::syntax::{Item, ItemKind, PlacedLine, Tree};
use crate::text::{Edit, Span, Text, apply};
use crate::vocabulary::NameSpace;

/// The let whose name stands at a place, inlined. A library's let is left: who
/// uses it is not known here. So is one whose value cannot be moved without
/// being read as something else.
pub(crate) fn inlined(analysis: &Analysis, wanted: Span) -> Option<Rewriting> {
    if analysis.job.kind == FileKind::Library {
        return None;
    }
    let places = names::places(analysis, wanted.start);
    let is_let = |one: &Occurrence| names::space(one) == Some(NameSpace::Lets);
    let (given, used): (Vec<&Occurrence>, Vec<&Occurrence>) = places
        .iter()
        .filter(|one| is_let(one))
        .partition(|one| one.role == Role::Definition);
    let [given] = given.as_slice() else {
        return None;
    };
    if used.is_empty() || places.iter().any(|one| one.file != 0) {
        return None;
    }
    let file = analysis.files.first()?;
    let line = file.tree.line_at(given.span.start)?;
    let value = value_of(&line)?;
    let name = given.span.slice(&file.tree.text);
    let mut edits: Vec<_> = used
        .iter()
        .map(|one| edit(one.span, value.clone()))
        .collect();
    edits.push(edit(with_blank_line(&file.tree.text, line.span()), ""));
    edits.sort_by_key(|edit| edit.span.start);
    let is_kept = keeps_names(&file.tree, &places, line.span(), &edits);
    is_kept.then(|| Rewriting {
        title: format!("Write the value of `{name}` where it is used"),
        kind: RewritingKind::Inline,
        finding: None,
        cursor: None,
        edits,
    })
}

/// What stands after the `=`, in parentheses unless it is one plain number.
fn value_of(line: &PlacedLine<'_>) -> Option<String> {
    let items = &line.line.phrases.first()?.items;
    let mut after = items
        .iter()
        .skip_while(|item| item.kind != ItemKind::Equals);
    after.next()?;
    let value: Vec<&Item> = after.collect();
    let (first, last) = (value.first()?, value.last()?);
    let written = line.text_of(first.span.join(last.span));
    if line.line.phrases.len() != 1 || written.contains(['\n', '\r', '#']) {
        return None;
    }
    let is_plain = match (&first.kind, value.len()) {
        (ItemKind::Number { terms, .. }, 1) => terms.len() == 1 && !written.contains('/'),
        (ItemKind::Word | ItemKind::Group { .. } | ItemKind::Call { .. }, 1) => true,
        _ => false,
    };
    Some(match is_plain {
        true => written.to_owned(),
        false => format!("({written})"),
    })
}

/// A line with the blank line after it, if another stands before it.
fn with_blank_line(text: &str, line: Span) -> Span {
    let before = Span::new(0, line.start).slice(text);
    let after = text.get(line.end as usize..).unwrap_or_default();
    let is_first = before.trim().is_empty();
    let is_after_blank = before.ends_with("\n\n") || before.ends_with("\n\r\n");
    let blank = ["\n", "\r\n"]
        .into_iter()
        .find(|end| after.starts_with(end) && (is_first || is_after_blank));
    Span::new(line.start, line.end + blank.map_or(0, str::len) as u32)
}

/// Whether every other name still stands, and nothing more than the names of
/// the value wherever it was written.
fn keeps_names(
    tree: &Tree,
    places: &[Occurrence],
    line: Span,
    edits: &[crate::ide::ActionEdit],
) -> bool {
    let edits: Vec<Edit> = edits
        .iter()
        .map(|edit| Edit::new(edit.span, edit.text.clone()))
        .collect();
    let Some(text) = apply(&tree.text, &edits) else {
        return false;
    };
    let before = names::spelled(tree);
    let inner: Vec<&str> = before
        .iter()
        .filter(|(span, _)| line.covers(*span) && !places.iter().any(|one| one.span == *span))
        .map(|(_, name)| name.as_str())
        .collect();
    let mut expected: Vec<&str> = Vec::new();
    for (span, name) in before.iter().filter(|(span, _)| !line.covers(*span)) {
        match places.iter().any(|one| one.span == *span) {
            true => expected.extend(&inner),
            false => expected.push(name),
        }
    }
    let after = names::spelled(&Tree::parse(Text::from(text)));
    after.iter().map(|(_, name)| name.as_str()).eq(expected)
}

#[cfg(test)]
mod tests {
    use super::super::tests::rewritten;
    use crate::ide::fixture::analysed;

    const JOB: &str = "job \"A\"\n\n";

    #[test]
    fn a_value_stands_wherever_its_name_stood_and_the_lets_stay_what_they_were() {
        for (before, after) in [
            (
                "let g¦ap = 5 mm\nlet a = 2 * gap\nlet b = gap + 1 m\n",
                "let a = 2 * 5 mm\nlet b = 5 mm + 1 m\n",
            ),
            (
                "let one = 1 m\n\nlet gap = one + 5 mm\n\nlet a = 2 * g¦ap\n",
                "let one = 1 m\n\nlet a = 2 * (one + 5 mm)\n",
            ),
            (
                "let gap = 1/2 in\nlet a = 3 * ¦gap\n",
                "let a = 3 * (1/2 in)\n",
            ),
            ("let gap = 5 mm # tight\nlet a = gap¦\n", "let a = 5 mm\n"),
        ] {
            let text = rewritten(&format!("{JOB}{before}"), "Write the value");
            assert_eq!(text, Some(format!("{JOB}{after}")), "{before}");
            let value = |text: &str| {
                let analysis = analysed(&text.replace('¦', ""));
                let last = analysis.job.lets.last().expect("a let");
                last.1.as_ref().expect("a value").si()
            };
            assert_eq!(value(before), value(after), "{before}");
        }
    }

    #[test]
    fn what_others_may_use_or_nothing_uses_is_left() {
        for text in [
            "let g¦ap = 5 mm\nlet a = 2 * gap\n".to_owned(),
            format!("{JOB}let g¦ap = 5 mm\n"),
            format!("{JOB}let a = 2 * g¦ap\n"),
            format!("{JOB}let a = 2 * 5¦ mm\n"),
        ] {
            assert_eq!(rewritten(&text, "Write the value"), None, "{text}");
        }
    }
}
