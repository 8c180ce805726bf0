//! Which lines of which sections changed.

use std::collections::BTreeMap;
use std::ops::RangeInclusive;

use super::passages::Passage;
use super::said_lines::differing_lines;

/// Lines from one to another, both of them too, counted from 1.
pub(super) type LineRange = RangeInclusive<u32>;

/// A section of which lines changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct ChangedLines {
    /// Its file as shown; empty for the spec itself.
    pub path: String,
    /// Its kind and name.
    pub section: String,
    /// Its older lines that are gone or were written anew; empty if it is
    /// new or only added to.
    pub old: Vec<LineRange>,
    /// Its newer lines that were added or written anew; empty if it is gone
    /// or lines were only taken out.
    pub new: Vec<LineRange>,
    /// Whether more changed than what the papers of a job need.
    pub is_for_figures: bool,
    /// Whether nothing changed but what things cost.
    pub is_for_costs: bool,
}

/// For each passage of the older and of the newer state, the change in it by
/// its place in the list.
#[derive(Debug, Default)]
pub(super) struct Marks {
    pub old: Vec<Option<usize>>,
    pub new: Vec<Option<usize>>,
}

/// The entries of a job's heading that figures depend on.
const OF_FIGURES: [&str; 3] = ["units", "region", "currency"];

/// The entries of a material that change no quantity.
const OF_COSTS: [&str; 2] = ["price", "delivery"];

/// The sections of which lines changed, comments aside, in the order of the
/// newer state; then those that are gone.
pub(super) fn changed_lines(old: &[Passage], new: &[Passage]) -> (Vec<ChangedLines>, Marks) {
    let key = |one: &Passage| (one.file.clone(), one.title.clone(), one.nth);
    let known: BTreeMap<_, usize> = old
        .iter()
        .enumerate()
        .map(|(index, passage)| (key(passage), index))
        .collect();
    let mut changes = Vec::new();
    let mut marks = Marks {
        old: vec![None; old.len()],
        new: vec![None; new.len()],
    };
    let mut kept = vec![false; old.len()];
    for (index, passage) in new.iter().enumerate() {
        let before = known.get(&key(passage)).copied();
        if let Some(kept) = before.and_then(|before| kept.get_mut(before)) {
            *kept = true;
        }
        let change = between(before.and_then(|before| old.get(before)), Some(passage));
        let Some(change) = change else { continue };
        let marked = [
            marks.new.get_mut(index),
            before.and_then(|before| marks.old.get_mut(before)),
        ];
        for mark in marked.into_iter().flatten() {
            *mark = Some(changes.len());
        }
        changes.push(change);
    }
    let gone = old.iter().zip(&kept).enumerate();
    for (index, (passage, _)) in gone.filter(|(_, (_, kept))| !**kept) {
        if let (Some(change), Some(mark)) = (between(Some(passage), None), marks.old.get_mut(index))
        {
            *mark = Some(changes.len());
            changes.push(change);
        }
    }
    (changes, marks)
}

/// What changed from one passage to another; `None` if that is nothing but
/// comments and blanks.
fn between(old: Option<&Passage>, new: Option<&Passage>) -> Option<ChangedLines> {
    let either = new.or(old)?;
    let text = |passage: Option<&Passage<'_>>| {
        let text = passage.map_or("", |passage| passage.text);
        text.to_owned()
    };
    let (before, after) = (text(old), text(new));
    let (of_old, of_new) = differing_lines(&before, &after);
    if of_old.is_empty() && of_new.is_empty() {
        return None;
    }
    let words_of = |text: &'_ str, lines: &[u32]| -> Vec<String> {
        let lines = lines.iter().map(|line| text.lines().nth(*line as usize));
        let words = lines.map(|line| line.unwrap_or_default().split_whitespace().next());
        words
            .map(|word| word.unwrap_or_default().to_owned())
            .collect()
    };
    let words = [words_of(&before, &of_old), words_of(&after, &of_new)].concat();
    let is_one_of = |all: &[&str], word: &String| all.contains(&word.as_str());
    let is_for_figures =
        either.kind() != "job" || words.iter().any(|word| is_one_of(&OF_FIGURES, word));
    let is_for_costs =
        either.kind() == "material" && words.iter().all(|word| is_one_of(&OF_COSTS, word));
    let first = |passage: Option<&Passage>| passage.map_or(1, |passage| passage.first_line);
    Some(ChangedLines {
        path: either.shown.clone(),
        section: either.title.clone(),
        old: ranges(&of_old, first(old)),
        new: ranges(&of_new, first(new)),
        is_for_figures,
        is_for_costs,
    })
}

/// Lines in order as ranges, counted from the line that their text starts in.
fn ranges(lines: &[u32], first: u32) -> Vec<LineRange> {
    let follows = |one: &u32, next: &u32| one.saturating_add(1) == *next;
    let runs = lines.chunk_by(follows);
    let ends = runs.filter_map(|run| Some((run.first()?, run.last()?)));
    ends.map(|(from, to)| first.saturating_add(*from)..=first.saturating_add(*to))
        .collect()
}

/// Ranges of lines in words: `12, 15-17`.
pub(super) fn said(ranges: &[LineRange]) -> String {
    let said: Vec<String> = ranges
        .iter()
        .map(|range| match range.start() == range.end() {
            true => range.start().to_string(),
            false => format!("{}-{}", range.start(), range.end()),
        })
        .collect();
    said.join(", ")
}

/// Where the lines of some changes stand: `31, 40-42`, `was 12`,
/// `house.patio 3`.
pub(super) fn said_of(changes: &[ChangedLines], which: &[usize]) -> String {
    let mut parts = Vec::new();
    for change in which.iter().filter_map(|index| changes.get(*index)) {
        let lines = match change.new.is_empty() {
            true => format!("was {}", said(&change.old)),
            false => said(&change.new),
        };
        parts.push(match change.path.is_empty() {
            true => lines,
            false => format!("{} {lines}", change.path),
        });
    }
    parts.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn passage(text: &'static str, first_line: u32) -> Passage<'static> {
        Passage {
            file: String::new(),
            shown: String::new(),
            title: "build layers".to_owned(),
            nth: 0,
            text,
            first_line,
        }
    }

    #[test]
    fn the_lines_that_changed_are_told_comments_aside() {
        let old = "build layers\n  paving sandstone, 40 mm\n  base grit, 100 mm\n";
        for (new, old_lines, new_lines) in [
            (old, "", ""),
            (
                "# A note.\nbuild layers\n  paving sandstone, 40 mm\n\n  base grit, 100 mm\n",
                "",
                "",
            ),
            (
                "build layers\n  paving sandstone, 40 mm\n  base grit, 150 mm\n",
                "12",
                "22",
            ),
            ("build layers\n  paving sandstone, 40 mm\n", "12", ""),
            (
                "build layers\n  paving sandstone, 40 mm\n  bed sand, 30 mm\n  base grit, 100 mm\n",
                "",
                "22",
            ),
        ] {
            let change = between(Some(&passage(old, 10)), Some(&passage(new, 20)));
            let (of_old, of_new) = change.map_or_else(Default::default, |change| {
                (said(&change.old), said(&change.new))
            });
            assert_eq!(
                (of_old.as_str(), of_new.as_str()),
                (old_lines, new_lines),
                "{new}"
            );
        }
        let gone = between(Some(&passage(old, 10)), None).unwrap();
        assert_eq!(
            (said(&gone.old), said(&gone.new)),
            ("10-12".to_owned(), String::new())
        );
    }

    #[test]
    fn what_only_papers_need_causes_no_figure() {
        for (line, causes) in [("  note \"wet\"\n", false), ("  region uk\n", true)] {
            let old = Passage {
                title: "job".to_owned(),
                ..passage("job \"A\"\n", 1)
            };
            let text: &'static str = Box::leak(format!("job \"A\"\n{line}").into_boxed_str());
            let new = Passage {
                text,
                ..old.clone()
            };
            let change = between(Some(&old), Some(&new)).unwrap();
            assert_eq!(change.is_for_figures, causes, "{line}");
        }
    }
}
