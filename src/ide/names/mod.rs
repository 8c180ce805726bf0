//! Names: where each is defined and where it is used, over all files that
//! the analysis read.

mod edges;
mod meaning;
mod occurrences;
mod rename;

pub use occurrences::{Occurrence, Role};
pub use rename::{Refusal, Renaming, renamable, rename, rename_of};

use crate::analysis::Analysis;
use crate::text::Span;
pub(super) use edges::{Edges, ShapeEdges, shape_of};
use meaning::Meaning;
pub(super) use occurrences::of_section;
use occurrences::{occurrences, of_analysis};

/// Every place of what bears the name at a byte of the checked file, in the
/// order of the files and their text; empty if nothing does.
pub fn places(analysis: &Analysis, offset: u32) -> Vec<Occurrence> {
    places_of(analysis, 0, offset)
}

/// The same for a byte of any file that the analysis read, by its index.
pub fn places_of(analysis: &Analysis, file: usize, offset: u32) -> Vec<Occurrence> {
    let all = of_analysis(analysis);
    let Some(here) = at(&all, file, offset) else {
        return Vec::new();
    };
    let meaning = here.meaning.clone();
    all.into_iter()
        .filter(|one| one.meaning == meaning)
        .collect()
}

/// Whether the name at a byte of the checked file is that of an edge.
pub fn is_edge(analysis: &Analysis, offset: u32) -> bool {
    let all = of_analysis(analysis);
    at(&all, 0, offset).is_some_and(|here| matches!(here.meaning, Meaning::Edge(..)))
}

/// Where what bears the name at a byte of the checked file is defined: the
/// file by its index in the analysis, and the name in it.
pub fn definitions(analysis: &Analysis, offset: u32) -> Vec<(usize, Span)> {
    let places = places(analysis, offset).into_iter();
    places
        .filter(|place| place.role == Role::Definition)
        .map(|place| (place.file, place.span))
        .collect()
}

/// The occurrence at a byte of a file. Of two that meet there, the one that
/// starts there is meant.
fn at(all: &[Occurrence], file: usize, offset: u32) -> Option<&Occurrence> {
    let own = all.iter().filter(|one| one.file == file);
    own.filter(|one| one.span.touches(offset))
        .max_by_key(|one| one.span.start)
}

/// Every name of a file with its place, as it is written.
pub(super) fn spelled(tree: &crate::syntax::Tree) -> Vec<(Span, String)> {
    let all = occurrences(std::iter::once(tree)).into_iter();
    all.map(|one| (one.span, one.span.slice(&tree.text).to_owned()))
        .collect()
}

/// Where the first name that is used on a line of the checked file starts.
pub(super) fn used_on(analysis: &Analysis, line: u32) -> Option<u32> {
    let lines = &analysis.files.first()?.lines;
    let all = of_analysis(analysis);
    let mut own = all.iter().filter(|one| one.file == 0);
    let used = own.find(|one| one.role == Role::Use && lines.line_of(one.span.start) == line);
    Some(used?.span.start)
}

/// The names of all lets that the analysis read.
pub(super) fn lets(analysis: &Analysis) -> Vec<String> {
    let all = of_analysis(analysis);
    all.into_iter()
        .filter_map(|one| match one.meaning {
            Meaning::Named(crate::vocabulary::NameSpace::Lets, name) => Some(name),
            _ => None,
        })
        .collect()
}

/// Something that a file defines which the checked file uses.
pub(super) struct Lent {
    /// The kind of section that defines it: `mix`.
    pub kind: String,
    /// Its name.
    pub name: String,
    /// The name of its file.
    pub file: String,
}

/// What the files define which the checked file uses.
pub(super) fn lent(analysis: &Analysis) -> Vec<Lent> {
    let all = of_analysis(analysis);
    let given = all
        .iter()
        .filter(|one| one.file != 0 && one.role == Role::Definition && space(one).is_some());
    let lent = given.filter_map(|one| {
        let file = analysis.files.get(one.file)?;
        Some(Lent {
            kind: file
                .tree
                .line_at(one.span.start)?
                .word()
                .to_ascii_lowercase(),
            name: one.span.slice(&file.tree.text).to_owned(),
            file: file.path.rsplit('/').next().unwrap_or_default().to_owned(),
        })
    });
    lent.collect()
}

/// The name space of an occurrence; `None` for an edge.
pub(super) fn space(one: &Occurrence) -> Option<crate::vocabulary::NameSpace> {
    match &one.meaning {
        Meaning::Named(space, _) => Some(*space),
        Meaning::Edge(..) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{COURT, analysed};

    /// Where `marked`, a part of the text, has its `¦`.
    fn offset(text: &str, marked: &str) -> u32 {
        let (before, after) = marked.split_once('¦').expect("a mark");
        let found = text.find(&format!("{before}{after}"));
        (found.unwrap_or_else(|| panic!("{marked}")) + before.len()) as u32
    }

    #[test]
    fn an_edge_is_told_from_other_names() {
        for (marked, wanted) in [
            ("away from q¦uay", true),
            ("named qu¦ay", true),
            ("shape co¦urt\n  start", false),
            ("units        met¦ric", false),
        ] {
            let is_edge = is_edge(&analysed(COURT), offset(COURT, marked));
            assert_eq!(is_edge, wanted, "{marked}");
        }
    }

    #[test]
    fn a_name_is_found_wherever_it_stands() {
        let more = "let deep = 2 * gap + length(court.quay)\nlet wide = area(court)\n";
        let text = format!("{more}{COURT}");
        for (marked, count, defined) in [
            ("let g¦ap", 2, 1),
            ("2 * ¦gap", 2, 1),
            ("shape co¦urt\n  start", 4, 1),
            ("area(court¦)", 4, 1),
            ("surface cour¦t", 1, 1),
            ("named qu¦ay", 5, 1),
            ("away from q¦uay", 5, 1),
            ("court.qu¦ay", 5, 1),
            ("cou¦rt.quay", 4, 1),
            ("build        sand¦-set", 2, 1),
            ("bed          bed¦-mix", 2, 1),
            ("base         hard¦-stone", 2, 1),
            ("4 sharp¦-sand", 1, 0),
            ("units        met¦ric", 0, 0),
            ("  sou¦th ", 0, 0),
        ] {
            let analysis = analysed(&text);
            let at = offset(&text, marked);
            let places = places(&analysis, at);
            assert_eq!(places.len(), count, "{marked}: {places:?}");
            assert_eq!(definitions(&analysis, at).len(), defined, "{marked}");
        }
    }

    #[test]
    fn edges_are_followed_into_the_shapes_that_they_came_from() {
        let text = "shape yard\n  start (0 m, 0 m)\n  east 9 m, named quay\n  south 9 m\n  west 9 m\n  close\n\
            shape tub\n  rectangle 1 m by 1 m, at (2 m, -4 m)\n\
            shape inner\n  inset yard, 1 m\n  cut tub\n\
            surface inner\n  shape inner\n  meets quay and tub.north\n  edging steel-edge, along tub\n";
        for (marked, count) in [
            ("meets q¦uay", 2),
            ("meets quay and tub.nor¦th", 1),
            ("meets quay and t¦ub", 4),
            ("along t¦ub", 4),
            ("inset y¦ard", 2),
        ] {
            let places = places(&analysed(text), offset(text, marked));
            assert_eq!(places.len(), count, "{marked}: {places:?}");
        }
    }
}
