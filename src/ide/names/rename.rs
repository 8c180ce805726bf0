//! Another name for something, everywhere that it is named.

use unicode_normalization::UnicodeNormalization;

use super::at;
use super::meaning::Meaning;
use super::occurrences::{Occurrence, Role, occurrences, of_analysis};
use crate::analysis::Analysis;
use crate::ide::ActionEdit;
use crate::materials;
use crate::model::built_in;
use crate::syntax::Tree;
use crate::text::{Edit, Span, Text, apply};
use crate::vocabulary::{NameSpace, is_reserved};

/// Words of the forms that would be taken for themselves where an edge is
/// named, and the lone `x`, which is read as *by*.
const NO_NAMES: &[&str] = &["edge", "except", "bearing", "each", "x"];

/// The changes of a new name.
pub type Renaming = Vec<ActionEdit>;

/// Why a name may not be changed, or not so.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal(pub String);

/// The name at a byte of the checked file that may be changed; nothing where
/// there is no name.
pub fn renamable(analysis: &Analysis, offset: u32) -> Result<Option<Span>, Refusal> {
    let all = of_analysis(analysis);
    let Some(here) = at(&all, 0, offset) else {
        return Ok(None);
    };
    may_change(&all, &here.meaning)?;
    Ok(Some(here.span))
}

/// The changes that give what is named at a byte of the checked file another
/// name. Nothing but the name changes: a name that is taken, that has a
/// meaning of its own, or that some line would read otherwise is refused.
pub fn rename(analysis: &Analysis, offset: u32, name: &str) -> Result<Renaming, Refusal> {
    rename_of(analysis, 0, offset, name)
}

/// The same for a byte of any file that the analysis read, by its index.
pub fn rename_of(
    analysis: &Analysis,
    file: usize,
    offset: u32,
    name: &str,
) -> Result<Renaming, Refusal> {
    let all = of_analysis(analysis);
    let Some(here) = at(&all, file, offset) else {
        return Err(Refusal("there is no name here".to_owned()));
    };
    let old = here.meaning.clone();
    may_change(&all, &old)?;
    let name: String = name.trim().nfc().collect();
    may_bear(analysis, &all, &old, &name)?;
    let edits: Renaming = all
        .iter()
        .filter(|one| one.meaning == old)
        .map(|one| ActionEdit {
            file: one.file,
            span: one.span,
            text: name.clone(),
        })
        .collect();
    if stays_the_same(analysis, &all, &old, &name, &edits) {
        Ok(edits)
    } else {
        let message = format!("`{name}` would be read as something else in some line");
        Err(Refusal(message))
    }
}

fn word(meaning: &Meaning) -> &str {
    match meaning {
        Meaning::Named(_, name) | Meaning::Edge(_, name) => name,
    }
}

fn may_change(all: &[Occurrence], meaning: &Meaning) -> Result<(), Refusal> {
    let name = word(meaning);
    let is_substance = matches!(meaning, Meaning::Named(NameSpace::Substances, _));
    let mut places = all.iter().filter(|one| one.meaning == *meaning);
    let is_defined = places.any(|one| one.role == Role::Definition);
    if is_substance && built_in(name).is_some() {
        return Err(Refusal(if is_defined {
            format!(
                "this section changes the catalogue's `{name}` and would not under another name"
            )
        } else {
            format!("`{name}` is a material of the catalogue")
        }));
    }
    if is_defined {
        Ok(())
    } else {
        Err(Refusal(match meaning {
            Meaning::Edge(shape, _) => {
                format!("`{shape}` has this edge from its form; name it with an `edge` line first")
            }
            Meaning::Named(..) => format!("nothing defines `{name}`"),
        }))
    }
}

fn may_bear(
    analysis: &Analysis,
    all: &[Occurrence],
    old: &Meaning,
    name: &str,
) -> Result<(), Refusal> {
    let is_name = name.starts_with(char::is_alphabetic)
        && !name.ends_with('-')
        && name
            .chars()
            .all(|character| character.is_alphanumeric() || matches!(character, '-' | '_'));
    if !is_name {
        return Err(Refusal(format!(
            "`{name}` is not a name: a name is letters, digits, `-` and `_`, starts with a letter and \
             does not end in a hyphen"
        )));
    }
    let lower = name.to_lowercase();
    if let Some(why) = is_reserved(&lower).or_else(|| is_reserved(name)) {
        return Err(Refusal(format!(
            "`{name}` is {why}, so it cannot be a name"
        )));
    }
    if NO_NAMES.contains(&lower.as_str()) {
        return Err(Refusal(format!("`{name}` has a meaning of its own")));
    }
    let is_other = |other: &str| other != word(old) && other.to_lowercase() == lower;
    let is_taken = all.iter().any(|one| {
        is_other(word(&one.meaning))
            && match (&one.meaning, old) {
                (Meaning::Named(space, _), Meaning::Named(own, _)) => space == own,
                (Meaning::Edge(shape, _), Meaning::Edge(own, _)) => shape == own,
                _ => false,
            }
    });
    let is_in_catalogue = matches!(old, Meaning::Named(NameSpace::Substances, _))
        && materials::materials().any(|material| is_other(material.name));
    let is_on_shape = match old {
        Meaning::Edge(shape, _) => analysis
            .job
            .shapes
            .get(shape.as_str())
            .is_some_and(|shape| {
                let labels = shape.labels.iter();
                labels
                    .flat_map(|label| label.names().flat_map(|(owner, name)| [owner, name]))
                    .flatten()
                    .any(is_other)
            }),
        Meaning::Named(..) => false,
    };
    if is_taken || is_in_catalogue || is_on_shape {
        return Err(Refusal(format!("`{name}` is taken")));
    }
    Ok(())
}

/// Whether the files, so changed, name the same things in the same places.
fn stays_the_same(
    analysis: &Analysis,
    all: &[Occurrence],
    old: &Meaning,
    name: &str,
    edits: &[ActionEdit],
) -> bool {
    let changed: Option<Vec<Tree>> = (0..analysis.files.len())
        .zip(&analysis.files)
        .map(|(index, file)| {
            let own = edits.iter().filter(|edit| edit.file == index);
            let own: Vec<Edit> = own
                .map(|edit| Edit::new(edit.span, edit.text.clone()))
                .collect();
            if own.is_empty() {
                return Some(file.tree.clone());
            }
            Some(Tree::parse(Text::from(apply(&file.tree.text, &own)?)))
        })
        .collect();
    let Some(changed) = changed else { return false };
    let after = occurrences(changed.iter());
    after.len() == all.len()
        && all.iter().zip(&after).all(|(before, after)| {
            before.role == after.role
                && before.file == after.file
                && named_anew(&before.meaning, old, name) == after.meaning
        })
}

/// What something is called once `old` has its new name.
fn named_anew(meaning: &Meaning, old: &Meaning, name: &str) -> Meaning {
    match (meaning, old) {
        (Meaning::Named(space, _), _) if meaning == old => Meaning::Named(*space, name.to_owned()),
        (Meaning::Edge(shape, _), _) if meaning == old => {
            Meaning::Edge(shape.clone(), name.to_owned())
        }
        (Meaning::Edge(shape, edge), Meaning::Named(NameSpace::Shapes, own)) if shape == own => {
            Meaning::Edge(name.to_owned(), edge.clone())
        }
        _ => meaning.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{COURT, analysed};

    fn renamed(marked: &str, name: &str) -> Result<String, Refusal> {
        let (before, after) = marked.split_once('¦').expect("a mark");
        let at = COURT.find(&format!("{before}{after}"));
        let at = at.unwrap_or_else(|| panic!("{marked}")) + before.len();
        let edits = rename(&analysed(COURT), at as u32, name)?;
        let edits: Vec<Edit> = edits
            .into_iter()
            .map(|edit| Edit::new(edit.span, edit.text))
            .collect();
        Ok(apply(COURT, &edits).expect("edits in order"))
    }

    #[test]
    fn nothing_but_the_name_changes() {
        let figures = |text: &str| {
            let analysis = analysed(text);
            let figures = &analysis.figures;
            let layers = figures.surfaces.iter().flat_map(|surface| &surface.layers);
            let masses: Vec<Option<f64>> = layers.map(|layer| layer.mass_kg).collect();
            let areas: Vec<_> = figures.shapes.iter().map(|shape| shape.area_m2).collect();
            let found: Vec<&str> = analysis.findings.iter().map(|one| one.rule).collect();
            format!("{masses:?} {areas:?} {found:?} {:?}", figures.total)
        };
        let before = figures(COURT);
        assert!(before.contains("Some("), "{before}");
        for marked in [
            "let g¦ap",
            "shape co¦urt\n  start",
            "surface cour¦t",
            "away from q¦uay",
            "build        sand¦-set",
            "mix bed¦-mix",
            "hard¦-stone, 150",
        ] {
            let text = renamed(marked, "Größe-2").expect(marked);
            assert!(text.contains("Größe-2"), "{marked}");
            assert_eq!(figures(&text), before, "{marked}");
        }
    }

    #[test]
    fn what_would_mean_something_else_is_refused() {
        for (marked, name, says) in [
            ("let g¦ap", "north", "a direction"),
            ("let g¦ap", "Mm", "a unit"),
            ("let g¦ap", "max", "a function"),
            ("let g¦ap", "along", "a small word"),
            ("let g¦ap", "2nd", "not a name"),
            ("let g¦ap", "a b", "not a name"),
            ("let g¦ap", "", "not a name"),
            ("let g¦ap", "gap-", "not a name"),
            ("mix bed¦-mix", "hard-stone", "taken"),
            ("mix bed¦-mix", "Hard-Stone", "taken"),
            ("mix bed¦-mix", "sharp-sand", "taken"),
            ("away from q¦uay", "x", "of its own"),
            ("4 sharp¦-sand", "sand", "catalogue"),
            ("units        me¦tric", "wide", "no name here"),
        ] {
            let Err(Refusal(message)) = renamed(marked, name) else {
                panic!("{marked} {name}")
            };
            assert!(message.contains(says), "{marked} {name}: {message}");
        }
        assert!(renamed("surface cour¦t", "sand-set").is_ok());
    }
}
