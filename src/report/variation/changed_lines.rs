//! Which lines of which sections changed.

use std::collections::BTreeMap;
use std::ops::RangeInclusive;

use super::passages::Passage;
use super::said_lines::{LineChange, line_changes};

/// Lines from one to another, both of them too, counted from 1.
pub(super) type LineRange = RangeInclusive<u32>;

/// Lines of a section that changed together: an entry that was written anew,
/// or lines on end that came or went.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct ChangedLines {
    /// Its file as shown; empty for the spec itself.
    pub path: String,
    /// The kind and the name of the section.
    pub section: String,
    /// Its older lines that are gone or were written anew; empty if it is
    /// new or only added to.
    pub old: Vec<LineRange>,
    /// Its newer lines that were added or written anew; empty if it is gone
    /// or lines were only taken out.
    pub new: Vec<LineRange>,
}

/// How a change is taken back in the newer state.
#[derive(Debug, Clone)]
pub(super) struct Undo {
    /// The file that it is in, by its index in the newer state.
    pub file: usize,
    /// The lines that came, from 0.
    pub came: Vec<u32>,
    /// The lines that went.
    pub went: String,
    /// The line before which they go back; `None` at the end.
    pub before: Option<u32>,
}

/// A change, with how it is taken back; `None` where the newer state reads no
/// such file any more.
type Change = (ChangedLines, Option<Undo>);

/// The lines that changed, comments aside, in the order of the newer state; then
/// the sections that are gone.
pub(super) fn changed_lines(old: &[Passage], new: &[Passage]) -> Vec<Change> {
    let key = |one: &Passage| (one.file.clone(), one.title.clone(), one.nth);
    let mut known: BTreeMap<_, &Passage> = old.iter().map(|own| (key(own), own)).collect();
    let mut changes: Vec<Change> = Vec::new();
    for passage in new {
        changes.extend(between(known.remove(&key(passage)), passage));
    }
    let gone = old.iter().filter(|own| known.contains_key(&key(own)));
    changes.extend(gone.flat_map(|own| whole(own, new)));
    changes
}

/// What changed from one passage to another, none for one that is new.
fn between(old: Option<&Passage>, new: &Passage) -> Vec<Change> {
    let before = old.map_or("", |own| own.text);
    let change = |own: LineChange| {
        let lines = ChangedLines {
            path: new.shown.clone(),
            section: new.title.clone(),
            old: ranges(&own.old, old.map_or(1, |own| own.first_line)),
            new: ranges(&own.new, new.first_line),
        };
        // Lines of a passage are counted from its first, which counts from 1.
        let in_file = |line: u32| line.saturating_add(new.first_line).saturating_sub(1);
        let went = own.old.iter();
        let went = went.filter_map(|line| before.lines().nth(*line as usize));
        let undo = Undo {
            file: new.file_index,
            came: own.new.iter().copied().map(in_file).collect(),
            went: went.map(|line| format!("{line}\n")).collect(),
            before: Some(in_file(own.before)),
        };
        (lines, Some(undo))
    };
    let changes = line_changes(before, new.text).into_iter();
    changes.map(change).collect()
}

/// A passage that is gone, unless it says nothing; `new` tells where its file
/// is now.
fn whole(old: &Passage, new: &[Passage]) -> Option<Change> {
    let lines = line_changes(old.text, "").into_iter().next()?;
    let file = new.iter().find(|own| own.file == old.file);
    let change = ChangedLines {
        path: old.shown.clone(),
        section: old.title.clone(),
        old: ranges(&lines.old, old.first_line),
        new: Vec::new(),
    };
    let undo = file.map(|own| Undo {
        file: own.file_index,
        came: Vec::new(),
        went: format!("\n{}\n", old.text),
        before: None,
    });
    Some((change, undo))
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

/// The changes of one section after another, together: its path, its name, its
/// older and its newer lines.
pub(super) fn by_section(changes: &[ChangedLines]) -> Vec<ChangedLines> {
    let is_same = |one: &ChangedLines, next: &ChangedLines| {
        one.path == next.path && one.section == next.section
    };
    let sections = changes.chunk_by(is_same);
    let sections = sections.filter_map(|section| {
        let all =
            |side: fn(&ChangedLines) -> &Vec<LineRange>| joined(section.iter().flat_map(side));
        Some(ChangedLines {
            old: all(|own| &own.old),
            new: all(|own| &own.new),
            ..section.first()?.clone()
        })
    });
    sections.collect()
}

/// Ranges in order, those that follow on one another as one.
fn joined<'r>(ranges: impl Iterator<Item = &'r LineRange>) -> Vec<LineRange> {
    let mut joined: Vec<LineRange> = Vec::new();
    for range in ranges {
        match joined.last_mut() {
            Some(last) if last.end().saturating_add(1) == *range.start() => {
                *last = *last.start()..=*range.end();
            }
            _ => joined.push(range.clone()),
        }
    }
    joined
}

/// Where the lines of some changes stand: `31, 40-42`, `was 12`,
/// `house.patio 3`.
pub(super) fn said_of(changes: &[ChangedLines], which: &[usize]) -> String {
    let which = which.iter().filter_map(|index| changes.get(*index));
    let which: Vec<&ChangedLines> = which.collect();
    let is_alike = |one: &&ChangedLines, next: &&ChangedLines| {
        one.path == next.path && one.new.is_empty() == next.new.is_empty()
    };
    let parts = which.chunk_by(is_alike).filter_map(|alike| {
        let first = alike.first()?;
        let lines = match first.new.is_empty() {
            true => format!(
                "was {}",
                said(&joined(alike.iter().flat_map(|own| &own.old)))
            ),
            false => said(&joined(alike.iter().flat_map(|own| &own.new))),
        };
        Some(match first.path.is_empty() {
            true => lines,
            false => format!("{} {lines}", first.path),
        })
    });
    parts.collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn passage(text: &'static str, first_line: u32) -> Passage<'static> {
        Passage {
            file: String::new(),
            shown: String::new(),
            file_index: 0,
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
            let changes = between(Some(&passage(old, 10)), &passage(new, 20));
            let lines: Vec<ChangedLines> = changes.into_iter().map(|own| own.0).collect();
            let change = by_section(&lines).pop();
            let (of_old, of_new) = change.map_or_else(Default::default, |change| {
                (said(&change.old), said(&change.new))
            });
            assert_eq!(
                (of_old.as_str(), of_new.as_str()),
                (old_lines, new_lines),
                "{new}"
            );
        }
        let (gone, undo) = whole(&passage(old, 10), &[]).unwrap();
        assert_eq!(
            (said(&gone.old), said(&gone.new)),
            ("10-12".to_owned(), String::new())
        );
        assert!(undo.is_none(), "no file is left to put it back into");
    }

    #[test]
    fn lines_that_follow_are_told_as_one_range() {
        let change = |path: &str, old: &[LineRange], new: &[LineRange]| ChangedLines {
            path: path.to_owned(),
            section: "build layers".to_owned(),
            old: old.to_vec(),
            new: new.to_vec(),
        };
        let changes = [
            change("", &[1..=1], &[2..=2]),
            change("", &[], &[3..=4]),
            change("", &[4..=4], &[6..=6]),
            change("", &[7..=7], &[]),
            change("house.patio", &[2..=2], &[2..=2]),
        ];
        for (which, wanted) in [
            (&[0, 1][..], "2-4"),
            (&[0, 1, 2], "2-4, 6"),
            (&[0, 3], "2, was 7"),
            (&[3, 4], "was 7, house.patio 2"),
            (&[], ""),
        ] {
            assert_eq!(said_of(&changes, which), wanted);
        }
    }
}
