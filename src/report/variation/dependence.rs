//! Which changed sections a figure or a finding draws on.

use std::collections::{BTreeMap, BTreeSet};

use super::changed_lines::ChangedLines;
use super::passages::Passage;

/// The sections of one state by what they name, and where they changed.
#[derive(Debug)]
pub(super) struct Dependence<'a> {
    passages: &'a [Passage<'a>],
    words: Vec<BTreeSet<&'a str>>,
    marks: &'a [Option<usize>],
    by_name: BTreeMap<&'a str, Vec<usize>>,
    by_title: BTreeMap<&'a str, Vec<usize>>,
    by_kind: BTreeMap<&'a str, Vec<usize>>,
    /// The passages in which a word stands.
    users: BTreeMap<&'a str, Vec<usize>>,
    /// What each surface and each flight of steps draws on, itself included.
    surfaces: Vec<BTreeSet<usize>>,
}

impl<'a> Dependence<'a> {
    /// The dependence among passages; `marks` gives the change of each.
    pub(crate) fn of(passages: &'a [Passage<'a>], marks: &'a [Option<usize>]) -> Dependence<'a> {
        let mut own = Dependence {
            passages,
            words: passages.iter().map(Passage::words).collect(),
            marks,
            by_name: BTreeMap::new(),
            by_title: BTreeMap::new(),
            by_kind: BTreeMap::new(),
            users: BTreeMap::new(),
            surfaces: Vec::new(),
        };
        // A long spec is not gone through again for each figure and finding.
        for (index, passage) in passages.iter().enumerate() {
            if !passage.name().is_empty() {
                own.by_name.entry(passage.name()).or_default().push(index);
            }
            own.by_title.entry(&passage.title).or_default().push(index);
            own.by_kind.entry(passage.kind()).or_default().push(index);
        }
        for (index, words) in own.words.iter().enumerate() {
            for word in words {
                own.users.entry(word).or_default().push(index);
            }
        }
        let surfaces = ["surface", "steps"].into_iter();
        let surfaces = surfaces.filter_map(|kind| own.by_kind.get(kind)).flatten();
        own.surfaces = surfaces.map(|one| own.reach([*one])).collect();
        own
    }

    /// Some passages and, by any road, all that they name.
    fn reach(&self, from: impl IntoIterator<Item = usize>) -> BTreeSet<usize> {
        self.reach_without(from, &[])
    }

    /// The same, without what is of a kind that is barred.
    fn reach_without(
        &self,
        from: impl IntoIterator<Item = usize>,
        barred: &[&str],
    ) -> BTreeSet<usize> {
        let is_barred = |index: usize| {
            let passage = self.passages.get(index);
            passage.is_some_and(|passage| barred.contains(&passage.kind()))
        };
        let mut open: Vec<usize> = from.into_iter().collect();
        let mut reached = BTreeSet::new();
        while let Some(index) = open.pop() {
            if !is_barred(index) && reached.insert(index) {
                let words = self.words.get(index).into_iter().flatten();
                let named = words.filter_map(|word| self.by_name.get(word));
                open.extend(named.flatten());
            }
        }
        reached
    }

    /// The changes that the section of this title draws on, those aside that
    /// it comes to through sections of a kind that is barred.
    pub(crate) fn of_section(&self, title: &str, barred: &[&str]) -> BTreeSet<usize> {
        let own = self.by_title.get(title).into_iter().flatten().copied();
        self.changes(&self.reach_without(own, barred))
    }

    /// The changes in sections that name this one.
    pub(crate) fn of_users(&self, title: &str) -> BTreeSet<usize> {
        let own = self.by_title.get(title).and_then(|all| all.first());
        let own = own.and_then(|own| self.passages.get(*own));
        let users = self.users.get(own.map_or("", Passage::name));
        self.changes(users.into_iter().flatten())
    }

    /// The changes that what is bought or mixed under a name draws on: its
    /// own section, and every surface that comes to it; of the materials and
    /// mixes there, only those by which it does.
    pub(crate) fn of_substance(&self, name: &str) -> BTreeSet<usize> {
        let own = self.by_name.get(name).into_iter().flatten().copied();
        let mut reached = self.reach(own);
        for surface in &self.surfaces {
            let mut words = surface.iter().filter_map(|index| self.words.get(*index));
            if words.any(|words| words.contains(name)) {
                let leads = surface.iter().filter(|index| self.leads_to(**index, name));
                reached.extend(leads);
            }
        }
        self.changes(&reached)
    }

    /// Whether a section is other than a material or mix, or comes to this one.
    fn leads_to(&self, index: usize, name: &str) -> bool {
        let passage = self.passages.get(index);
        let kind = passage.map_or("", Passage::kind);
        let words = |index: &usize| self.words.get(*index);
        !["material", "mix"].contains(&kind)
            || self
                .reach([index])
                .iter()
                .filter_map(words)
                .any(|words| words.contains(name))
    }

    /// The changes of every section that a figure may draw on.
    pub(crate) fn of_all(&self) -> BTreeSet<usize> {
        self.marks.iter().flatten().copied().collect()
    }

    /// The changes of the sections of this kind.
    pub(crate) fn of_kind(&self, kind: &str) -> BTreeSet<usize> {
        self.changes(self.by_kind.get(kind).into_iter().flatten())
    }

    fn changes<'i>(&self, reached: impl IntoIterator<Item = &'i usize>) -> BTreeSet<usize> {
        let marks = reached
            .into_iter()
            .filter_map(|index| self.marks.get(*index));
        marks.flatten().copied().collect()
    }
}

/// The changes that may have caused a figure, in order; what only costs
/// changes no quantity, unless nothing else is left that could have.
pub(super) fn for_figures(
    causes: BTreeSet<usize>,
    lines: &[ChangedLines],
    is_cost: bool,
) -> Vec<usize> {
    let counts = |index: &usize| lines.get(*index).is_some_and(|line| line.is_for_figures);
    let causes: Vec<usize> = causes.into_iter().filter(counts).collect();
    let is_meant = |index: &&usize| {
        let line = lines.get(**index);
        is_cost || line.is_some_and(|line| !line.is_for_costs)
    };
    let meant: Vec<usize> = causes.iter().filter(is_meant).copied().collect();
    match meant.is_empty() {
        true => causes,
        false => meant,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_surface_draws_on_what_it_names() {
        let passage = |title: &str, text: &'static str| Passage {
            file: String::new(),
            shown: String::new(),
            title: title.to_owned(),
            nth: 0,
            text,
            first_line: 1,
        };
        let passages = [
            passage("shape court", "shape court\n  rectangle 3 m by 4 m\n"),
            passage(
                "surface court",
                "surface court\n  shape court\n  build flags # not walls\n",
            ),
            passage("surface path", "surface path\n  build walls\n"),
            passage("build flags", "build flags\n  base grit, 100 mm\n"),
            passage("build walls", "build walls\n  base sand, 100 mm\n"),
            passage("material grit", "material grit\n  density 1.6 t/m3\n"),
        ];
        let marks: Vec<Option<usize>> = (0..passages.len()).map(Some).collect();
        let dependence = Dependence::of(&passages, &marks);
        let all = |set: BTreeSet<usize>| set.into_iter().collect::<Vec<_>>();
        assert_eq!(
            all(dependence.of_section("surface court", &[])),
            [0, 1, 3, 5]
        );
        assert_eq!(
            all(dependence.of_section("surface court", &["build"])),
            [0, 1]
        );
        assert_eq!(all(dependence.of_section("shape court", &[])), [0]);
        assert_eq!(all(dependence.of_users("build walls")), [2]);
        assert_eq!(all(dependence.of_substance("grit")), [0, 1, 3, 5]);
        assert_eq!(all(dependence.of_substance("sand")), [2, 4]);
        assert_eq!(all(dependence.of_kind("build")), [3, 4]);
        // What the next layer is made of is no cause.
        let passages = [
            passage("surface court", "surface court\n  build flags\n"),
            passage(
                "build flags",
                "build flags\n  bed fill, 40 mm\n  base grit, 100 mm\n",
            ),
            passage("mix fill", "mix fill\n  parts 1 lime : 3 sand\n"),
            passage("material grit", "material grit\n  density 1.6 t/m3\n"),
            passage("material sand", "material sand\n  density 1.5 t/m3\n"),
        ];
        let of_layers = Dependence::of(&passages, &marks);
        assert_eq!(all(of_layers.of_substance("grit")), [0, 1, 3]);
        assert_eq!(all(of_layers.of_substance("sand")), [0, 1, 2, 4]);
        assert_eq!(all(dependence.of_all()).len(), 6);
    }

    /// What is kept and gone through of a spec grows as it does: a surface
    /// draws on what it names, however many stand beside it.
    #[test]
    fn what_many_surfaces_draw_on_grows_as_they_do() {
        let kept = |count: usize| -> usize {
            let texts: Vec<(String, String)> = (0..count)
                .flat_map(|at| {
                    let shape = format!("shape court-{at}");
                    let surface = format!("surface court-{at}");
                    let rectangle = format!("{shape}\n  rectangle 3 m by 4 m\n");
                    let laid = format!("{surface}\n  {shape}\n  build flags\n");
                    [(shape, rectangle), (surface, laid)]
                })
                .chain([(
                    "build flags".to_owned(),
                    "build flags\n  base grit, 100 mm\n".to_owned(),
                )])
                .collect();
            let passages: Vec<Passage<'_>> = texts
                .iter()
                .map(|(title, text)| Passage {
                    file: String::new(),
                    shown: String::new(),
                    title: title.clone(),
                    nth: 0,
                    text,
                    first_line: 1,
                })
                .collect();
            let marks: Vec<Option<usize>> = (0..passages.len()).map(Some).collect();
            let dependence = Dependence::of(&passages, &marks);
            let of_each = passages
                .iter()
                .filter(|passage| passage.kind() != "build")
                .map(|passage| dependence.of_section(&passage.title, &[]).len());
            let surfaces = dependence.surfaces.iter().map(BTreeSet::len);
            surfaces.chain(of_each).sum()
        };
        assert_eq!(kept(10), 70);
        assert_eq!(kept(1_000), 7_000);
    }
}
