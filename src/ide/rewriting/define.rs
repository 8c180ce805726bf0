//! A section for a name that nothing defines.

use super::{Rewriting, RewritingKind, edit, line_end};
use crate::analysis::Analysis;
use crate::findings::FileId;
use crate::ide::completion::usual_material;
use crate::ide::cursor::Cursor;
use crate::ide::names::{self, Role};
use crate::model::built_in;
use crate::text::Span;
use crate::units::System;
use crate::vocabulary::{NameSpace, ValueKind, section};

/// A section at the end of the file for each kind of thing that the name at a
/// place may be; none if it is defined, or of the catalogue.
pub(crate) fn defined(analysis: &Analysis, wanted: Span) -> Vec<Rewriting> {
    let Some(file) = analysis.files.first() else {
        return Vec::new();
    };
    let Some(cursor) = Cursor::at(file, FileId(0), wanted.start) else {
        return Vec::new();
    };
    let places = names::places(analysis, wanted.start);
    let Some(space) = places.first().and_then(names::space) else {
        return Vec::new();
    };
    let Some(own) = places.iter().find(|one| one.file == 0) else {
        return Vec::new();
    };
    let name = own.span.slice(&file.tree.text);
    let is_known = places.iter().any(|one| one.role == Role::Definition)
        || space == NameSpace::Substances && built_in(name).is_some();
    if is_known {
        return Vec::new();
    }
    let takes_mixes = cursor.kinds().contains(&ValueKind::Substance);
    let kinds: &[&str] = match space {
        NameSpace::Shapes => &["shape"],
        NameSpace::Builds => &["build"],
        NameSpace::Substances if takes_mixes => &["material", "mix"],
        NameSpace::Substances => &["material"],
        NameSpace::Lets | NameSpace::Surfaces | NameSpace::Drains | NameSpace::Steps => &[],
    };
    kinds
        .iter()
        .filter_map(|kind| written(analysis, &cursor, kind, name))
        .collect()
}

fn written(analysis: &Analysis, cursor: &Cursor<'_>, kind: &str, name: &str) -> Option<Rewriting> {
    let text: &str = &analysis.files.first()?.tree.text;
    let end = line_end(text);
    let entry = cursor.key().map_or("", |key| key.word);
    let lines = lines(analysis, kind, name, entry)?;
    let first = lines.first()?.len() + end.len();
    let before = match text.ends_with(['\n', '\r']) {
        true => end.to_owned(),
        false => format!("{end}{end}"),
    };
    let at = text.len() as u32;
    let section = lines.join(end) + end;
    Some(Rewriting {
        title: format!("Make a `{kind}` section for `{name}`"),
        kind: RewritingKind::Define,
        finding: None,
        cursor: Some(at + (before.len() + first) as u32),
        edits: vec![edit(Span::at(at), before + &section)],
    })
}

/// The lines of a section to start from.
fn lines(analysis: &Analysis, kind: &str, name: &str, entry: &str) -> Option<Vec<String>> {
    let heading = format!("{kind} {name}");
    let line = |key: &str, value: &str| format!("  {key:<13}{value}");
    Some(match kind {
        "material" => vec![heading, line("like", usual_material(entry))],
        "shape" => {
            let size = match analysis.job.heading.system() {
                System::Imperial => "10' by 10'",
                System::Metric => "3 m by 3 m",
            };
            vec![heading, line("rectangle", size)]
        }
        _ => {
            let example = section(kind)?.example.lines().skip(1);
            let example = example.map(|own| match own.trim_start().starts_with("for ") {
                true => line("for", if entry == "joint" { "joint" } else { "bed" }),
                false => own.to_owned(),
            });
            std::iter::once(heading).chain(example).collect()
        }
    })
}

#[cfg(test)]
mod tests {
    use super::super::tests::rewritten;
    use crate::ide::fixture::{COURT, analysed};

    #[test]
    fn a_name_that_nothing_defines_gets_its_section() {
        for (old, new, title, section) in [
            (
                "base         hard-stone",
                "base         old¦-stone",
                "Make a `material`",
                "\n\nmaterial old-stone\n  like         crushed-stone\n",
            ),
            (
                "bed          bed-mix",
                "bed          soft¦-mix",
                "Make a `mix`",
                "\n\nmix soft-mix\n  for          bed\n  parts        1 portland-cement : 4 sharp-sand\n",
            ),
            (
                "filled with joint-sand",
                "filled with fine¦-mix",
                "Make a `mix`",
                "\n\nmix fine-mix\n  for          joint\n",
            ),
            (
                "4 sharp-sand",
                "4 pit¦-sand",
                "Make a `material`",
                "\n\nmaterial pit-sand\n  like         ",
            ),
            (
                "shape        court",
                "shape        cou¦rt-2",
                "Make a `shape`",
                "\n\nshape court-2\n  rectangle    3 m by 3 m\n",
            ),
            (
                "build        sand-set",
                "build        slab¦-set",
                "Make a `build`",
                "\n\nbuild slab-set\n  paving       concrete-paver, 60 mm\n",
            ),
        ] {
            let text =
                rewritten(&COURT.replace(old, new), title).unwrap_or_else(|| panic!("{new}"));
            assert!(text.contains(section), "{new}\n{text}");
            let name = section.split_whitespace().nth(1).expect("a name");
            let analysis = analysed(&text);
            let is_at_name = |place| analysis.text(place) == name;
            let mut unknown = analysis
                .findings
                .iter()
                .filter(|one| one.rule == "name-unknown");
            assert!(!unknown.any(|one| is_at_name(one.place)), "{new}");
        }
    }

    #[test]
    fn what_is_known_gets_none() {
        for (old, new) in [
            ("base         hard-stone", "base         hard¦-stone"),
            ("4 sharp-sand", "4 sharp¦-sand"),
            ("2 * 5 mm", "2 * n¦o"),
            ("4 sharp-sand", "4 pit-sa¦nd"),
        ] {
            let made = rewritten(&COURT.replace(old, new), "Make a `mix`");
            assert_eq!(made, None, "{new}");
        }
    }
}
