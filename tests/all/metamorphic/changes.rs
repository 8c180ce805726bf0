//! Specs changed where the change means nothing here: a surface added
//! elsewhere, an overlap beside, a cut that fails. Figures and findings of the
//! rest stay.

use drylay::analysis::Analysis;

use crate::folder::Folder;
use crate::same::{Grows, figures};
use crate::sound;

/// Every spec of the repository and every sound job, by a path.
pub fn jobs() -> Vec<(String, Folder)> {
    let specs = Folder::of_specs();
    let of_specs = specs.paths().into_iter();
    let of_specs = of_specs.filter(|path| !path.contains("/mistakes/"));
    let of_specs = of_specs.map(|path| (path, specs.clone()));
    let sound = sound::specs().into_iter().map(|(name, text)| {
        let path = format!("/sound/{name}.patio");
        let folder = Folder::with([(path.as_str(), text.as_str())]);
        (path, folder)
    });
    of_specs.chain(sound).collect()
}

/// Figures by name, in an order of their own.
fn in_order(analysis: &Analysis) -> Vec<(String, Grows, Option<f64>)> {
    let mut all = figures(analysis);
    all.sort_by(|(one, ..), (other, ..)| one.cmp(other));
    all
}

/// What is found, with the line that it is found at, in an order of its own.
fn found(analysis: &Analysis) -> Vec<(String, &'static str)> {
    let findings = analysis.findings.iter();
    let mut all: Vec<(String, &'static str)> = findings
        .map(|finding| {
            let (_, line) = analysis.line(finding.place).expect("a finding has a place");
            let line = analysis
                .own_text()
                .lines()
                .nth(line as usize)
                .unwrap_or_default();
            (line.to_owned(), finding.rule)
        })
        .collect();
    all.sort();
    all
}

#[test]
fn a_surface_added_elsewhere_changes_nothing_here() {
    let far = "
shape far-off-yard
  rectangle 3 m by 3 m, at (4000 m, 4000 m)

shape far-off-path
  rectangle 3 m by 1 m, at (4001 m, 4001 m)

surface far-off-yard
  shape far-off-yard

surface far-off-path
  shape far-off-path
";
    for (path, folder) in jobs() {
        let before = folder.analysis(&path);
        let mut other = folder.clone();
        let text = format!("{}{far}", &*folder.text(&path));
        other.0.insert(path.clone(), text.as_str().into());
        let after = other.analysis(&path);
        let own = |analysis: &Analysis| -> Vec<_> {
            let all = in_order(analysis).into_iter();
            all.filter(|(name, ..)| !name.contains("far-off")).collect()
        };
        assert_eq!(own(&before), own(&after), "{path}");
        for here in found(&before) {
            assert!(found(&after).contains(&here), "{path}: {here:?} is gone");
        }
    }
}

/// Five courts side by side; the second also overlaps a sixth.
#[test]
fn an_overlap_ends_no_search_for_neighbours() {
    let court = |name: &str, east: f64| {
        format!(
            "
shape {name}
  rectangle 2 m by 2 m, at ({east} m, 0)

surface {name}
  shape {name}
  edging steel-edge, along free
"
        )
    };
    let row: String = ["a", "b", "c", "d"]
        .iter()
        .enumerate()
        .map(|(at, name)| court(name, at as f64 * 2.0))
        .collect();
    let head = "job \"Row\"\n  units metric\n  region uk\n";
    let edging = |text: &str, name: &str| {
        let folder = Folder::with([("/row.patio", text)]);
        let analysis = folder.analysis("/row.patio");
        let surfaces = &analysis.figures.surfaces;
        let own = surfaces.iter().find(|surface| surface.name == name);
        own.and_then(|own| own.edgings.first()?.length_m)
    };
    let alone = format!("{head}{row}");
    let more = format!("{head}{}{row}", court("over", 2.5));
    for name in ["a", "c", "d"] {
        assert!(edging(&alone, name).is_some(), "{name}");
    }
    // What stands beside `b` goes on doing so under the court that covers it.
    assert_eq!(edging(&alone, "a"), edging(&more, "a"));
    assert_eq!(edging(&alone, "d"), edging(&more, "d"));
}

#[test]
fn every_overlap_is_told() {
    let at = |name: &str, east: f64| {
        format!(
            "\nshape {name}\n  rectangle 3 m by 3 m, at ({east} m, 0)\n\nsurface {name}\n  shape {name}\n"
        )
    };
    let text = format!("{}{}{}", at("a", 0.0), at("b", 1.0), at("c", 2.0));
    let folder = Folder::with([("/heap.patio", text.as_str())]);
    let analysis = folder.analysis("/heap.patio");
    let overlaps = analysis.findings.iter();
    let overlaps = overlaps.filter(|finding| finding.rule == "surfaces-overlap");
    assert_eq!(overlaps.count(), 3);
}

/// A cut that cannot be followed is told of where it stands, and by nothing
/// else in the surfaces beside it.
#[test]
fn a_cut_that_fails_says_nothing_of_the_neighbours() {
    let text = |cut: &str| {
        format!(
            "\
job \"Two\"
  units metric
  region uk

shape bed
  rectangle 1 m by 1 m, at (1 m, 1 m)

shape court
  rectangle 4 m by 4 m
  {cut}

shape walk
  rectangle 2 m by 4 m, at (4 m, 0)

surface court
  shape court
  edging steel-edge, along free

surface walk
  shape walk
  edging steel-edge, along free
"
        )
    };
    let walk = |text: &str| {
        let folder = Folder::with([("/two.patio", text)]);
        let analysis = folder.analysis("/two.patio");
        let own = analysis
            .figures
            .surfaces
            .iter()
            .find(|own| own.name == "walk");
        own.and_then(|own| own.edgings.first()?.length_m)
    };
    let sound = walk(&text("cut bed"));
    assert!(sound.is_some());
    assert_eq!(walk(&text("cut bad")), sound);
}
