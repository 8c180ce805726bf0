//! Which lines caused what: each change is taken back alone, and what then comes
//! out otherwise than in the newer state is owed to it.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::changed_lines::Undo;
use super::figure_changes::{FigureChange, OtherFigures, Outcome};
use super::finding_changes::FindingChange;
use crate::analysis::{Analyser, Analysis, Files};
use crate::report::fingerprint::Fingerprint;
use crate::report::row::{Row, rows};
use crate::text::Text;

/// So many figures are worked out again at most; where that is not enough for
/// each change by itself, several that stand together are taken back at once.
const MOST_FIGURES: usize = 400_000;

/// Where the newer state was looked at, to look at it again.
#[derive(Clone, Copy)]
pub struct World<'w> {
    /// The files beside it.
    pub files: &'w dyn Files,
    /// The day.
    pub today: &'w str,
}

/// Fills in which of the changes caused each figure and each finding. Where one
/// of the two states is not there, all of them did.
pub(super) fn find_causes(
    new: Option<&Analysis>,
    undos: &[Option<Undo>],
    world: World<'_>,
    folder: &str,
    (figures, findings): (&mut [FigureChange], &mut [FindingChange]),
) {
    if figures.is_empty() && findings.is_empty() {
        return;
    }
    let all: Vec<usize> = (0..undos.len()).collect();
    let Some(new) = new else {
        figures.iter_mut().for_each(|own| own.from = all.clone());
        findings.iter_mut().for_each(|own| own.from = all.clone());
        return;
    };
    let mut looks = Looks {
        new,
        undos,
        world,
        folder,
        analyser: Analyser::new(),
    };
    let whole = looks.without(&all);
    let each = whole.figures.count() + whole.findings.len();
    let groups = all.chunks(together(all.len(), each));
    let groups: Vec<&[usize]> = groups.collect();
    let without = groups.iter().map(|group| (*group, looks.without(group)));
    let without: Vec<(&[usize], Found)> = without.collect();
    // Asked only where it is needed: it is as much work again.
    let mut alone: Option<Vec<(&[usize], Found)>> = None;
    for figure in figures {
        let outcomes = || {
            without
                .iter()
                .map(|(group, found)| (*group, figure.outcome(&found.figures)))
        };
        let with = |wanted: Outcome| {
            let groups = outcomes().filter(move |(_, outcome)| *outcome == wanted);
            groups
                .flat_map(|(group, _)| group.to_vec())
                .collect::<Vec<_>>()
        };
        let owed = [with(Outcome::Otherwise), with(Outcome::Unknown)];
        // Another version of a standard is owed to no line.
        let is_owed = figure.outcome(&whole.figures) != Outcome::Same;
        let mut owed = owed.into_iter().filter(|owed| is_owed && !owed.is_empty());
        figure.from = match owed.next() {
            Some(owed) => owed,
            None if !is_owed => Vec::new(),
            // Where each alone is enough, as where an order is rounded up, no
            // one of them is missed. What none brings about alone they do
            // together.
            None => {
                let alone = alone.get_or_insert_with(|| looks.alone(&groups, &all));
                let enough = alone
                    .iter()
                    .filter(|(_, found)| figure.outcome(&found.figures) == Outcome::Same);
                let enough: Vec<usize> = enough.flat_map(|(group, _)| group.to_vec()).collect();
                match enough.is_empty() {
                    true => all.clone(),
                    false => enough,
                }
            }
        };
    }
    for finding in findings {
        let is_otherwise = |found: &Found| finding.is_otherwise(&found.findings);
        let groups = without.iter().filter(|(_, found)| is_otherwise(found));
        let alone: Vec<usize> = groups.flat_map(|(group, _)| group.to_vec()).collect();
        finding.from = match alone.is_empty() && is_otherwise(&whole) {
            true => all.clone(),
            false => alone,
        };
    }
}

/// How many of so many changes are taken back at once where a look finds so much.
fn together(changes: usize, found: usize) -> usize {
    let looks = (MOST_FIGURES / found.max(1)).max(1);
    changes.div_ceil(looks).max(1)
}

/// What a look at other lines finds.
struct Found {
    figures: OtherFigures,
    findings: BTreeMap<Fingerprint, Row>,
}

/// The newer state, to be looked at with some of its changes taken back.
struct Looks<'a> {
    new: &'a Analysis,
    undos: &'a [Option<Undo>],
    world: World<'a>,
    folder: &'a str,
    /// Keeps what one look and the next have in common.
    analyser: Analyser,
}

impl Looks<'_> {
    /// What is found where all is taken back but one group of changes, for
    /// each group.
    fn alone<'g>(&mut self, groups: &[&'g [usize]], all: &[usize]) -> Vec<(&'g [usize], Found)> {
        let looks = groups.iter().map(|group| {
            let others = all.iter().filter(|change| !group.contains(change));
            (*group, self.without(&others.copied().collect::<Vec<_>>()))
        });
        looks.collect()
    }

    /// What is found without some changes.
    fn without(&mut self, changes: &[usize]) -> Found {
        let undos = changes.iter().filter_map(|index| self.undos.get(*index));
        let undos: Vec<&Undo> = undos.flatten().collect();
        let texts = self.new.files.iter().enumerate().map(|(index, file)| {
            let own: Vec<&Undo> = undos
                .iter()
                .copied()
                .filter(|undo| undo.file == index)
                .collect();
            (file.path.as_str(), taken_back(&file.tree.text, &own))
        });
        let texts: BTreeMap<&str, Text> = texts.collect();
        let files = Written {
            files: self.world.files,
            texts: &texts,
        };
        let path = &self.new.path;
        let text = texts.get(path.as_str()).cloned().unwrap_or_default();
        let found = (self.analyser).analyse(path, text, &files, self.world.today);
        let findings = rows(&found, self.folder).into_iter();
        Found {
            figures: OtherFigures::of(&found),
            findings: findings.map(|row| (row.fingerprint, row)).collect(),
        }
    }
}

/// A text with some changes taken back.
fn taken_back(text: &Text, undos: &[&Undo]) -> Text {
    if undos.is_empty() {
        return text.clone();
    }
    let came: BTreeSet<u32> = undos
        .iter()
        .flat_map(|undo| undo.came.iter().copied())
        .collect();
    let mut went: BTreeMap<u32, String> = BTreeMap::new();
    for undo in undos {
        let before = undo.before.unwrap_or(u32::MAX);
        *went.entry(before).or_default() += &undo.went;
    }
    let mut back = String::new();
    for (number, line) in (0..).zip(text.lines()) {
        back += &went.remove(&number).unwrap_or_default();
        if !came.contains(&number) {
            back += line;
            back.push('\n');
        }
    }
    went.values().for_each(|lines| back += lines);
    back.into()
}

/// Files of which some say something else.
struct Written<'w> {
    files: &'w dyn Files,
    texts: &'w BTreeMap<&'w str, Text>,
}

impl Files for Written<'_> {
    fn read(&self, path: &str) -> Result<Text, String> {
        let own = self.texts.get(path);
        own.map_or_else(|| self.files.read(path), |text| Ok(text.clone()))
    }

    fn exists(&self, path: &str) -> bool {
        self.files.exists(path)
    }

    fn list(&self, folder: &str) -> Arc<[String]> {
        self.files.list(folder)
    }

    fn leads_out(&self, path: &str, folder: &str) -> bool {
        self.files.leads_out(path, folder)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_spec_is_looked_at_again_less_often() {
        for (changes, found, wanted) in [
            (0, 0, 1),
            (30, 400, 1),
            (1000, 400, 1),
            (1001, 400, 2),
            (20_000, 60_000, 3334),
            (5, 1_000_000, 5),
        ] {
            assert_eq!(together(changes, found), wanted, "{changes} {found}");
            let looks = changes.div_ceil(wanted);
            assert!(
                looks <= 1 || looks * found <= MOST_FIGURES,
                "{changes} {found}"
            );
        }
    }

    #[test]
    fn changes_are_taken_back_where_they_are() {
        let undo = |came: &[u32], went: &str, before: Option<u32>| Undo {
            file: 0,
            came: came.to_vec(),
            went: went.to_owned(),
            before,
        };
        let text: Text = "a\nb\n# note\nc".into();
        for (undos, wanted) in [
            (&[][..], "a\nb\n# note\nc"),
            (&[undo(&[1], "x\ny\n", Some(1))], "a\nx\ny\n# note\nc\n"),
            (&[undo(&[], "x\n", Some(0))], "x\na\nb\n# note\nc\n"),
            (&[undo(&[3], "", Some(3))], "a\nb\n# note\n"),
            (&[undo(&[], "\nx\n", None)], "a\nb\n# note\nc\n\nx\n"),
            (
                &[undo(&[0], "x\n", Some(0)), undo(&[3], "y\n", Some(3))],
                "x\nb\n# note\ny\n",
            ),
        ] {
            let undos: Vec<&Undo> = undos.iter().collect();
            assert_eq!(&*taken_back(&text, &undos), wanted);
        }
    }
}
