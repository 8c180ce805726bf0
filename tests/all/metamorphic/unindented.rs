//! Specs that have lost every indent, as one pasted from a mail has.

use std::collections::BTreeSet;

use crate::checked::{Checked, checked};
use crate::folder::Folder;

/// The specs that stand by themselves, each with all its lines at the margin.
fn specs() -> Vec<(String, String)> {
    let folder = Folder::of_specs();
    let paths = folder.paths();
    let stands_alone = |text: &String| text.contains("\njob ") && !text.contains("\nuse ");
    let texts = paths.iter().filter(|path| !path.contains("/mistakes/"));
    let texts = texts.map(|path| folder.text(path).to_string());
    let texts = texts.filter(stands_alone);
    // What goes on over several lines is indented more than once.
    let is_plain = |text: &String| !text.contains("\n   ");
    let at_margin = |text: String| {
        let lines = text.lines().map(str::trim_start);
        let flat = lines.collect::<Vec<_>>().join("\n") + "\n";
        (text, flat)
    };
    texts.filter(is_plain).map(at_margin).collect()
}

/// The rules that a spec breaks where nothing is accepted.
fn rules(found: &Checked) -> BTreeSet<&'static str> {
    let told = found.findings().iter();
    told.filter(|one| !one.is_caution() && one.accepted.is_none())
        .map(|one| one.rule)
        .collect()
}

#[test]
fn lost_indents_are_the_one_thing_wrong_and_come_back() {
    let specs = specs();
    assert!(specs.len() > 5, "{} specs", specs.len());
    for (text, flat) in specs {
        for flat in [flat.replace("\n\n", "\n"), flat] {
            let found = checked(&flat);
            let whole = checked(&text);
            if !text.contains("\n  accept") {
                let mut told = rules(&found);
                assert!(told.remove("entry-misplaced"), "{flat}");
                assert_eq!(told, rules(&whole), "{flat}");
            }
            let told = found.findings().iter();
            let all: Vec<_> = told.filter(|one| one.rule == "entry-misplaced").collect();
            let sections = text.matches("\n\n").count() + 1;
            assert!(
                all.len() <= sections,
                "{} in {sections} sections",
                all.len()
            );
            let mut changes: Vec<_> = all
                .iter()
                .flat_map(|one| &one.fixes)
                .flat_map(|fix| &fix.changes)
                .map(|change| (found.range(change.place), change.text.as_ref()))
                .collect();
            changes.sort_by_key(|(range, _)| range.start);
            let mut mended = flat.clone();
            for (range, new) in changes.into_iter().rev() {
                mended.replace_range(range, new);
            }
            let wanted: String = match flat.contains("\n\n") {
                true => text.clone(),
                false => text.replace("\n\n", "\n"),
            };
            assert_eq!(mended, wanted);
        }
    }
}

#[test]
fn a_section_being_begun_takes_in_nothing() {
    let own = "job \"A\"\n  units metric\n\nshape yard\n  rectangle 3 m by 3 m\n\n";
    for begun in [
        "surface yard\n  shape yard\n\nbuild flags\n",
        "surface yard\n\nbuild flags\n",
        "surface yard\nbuild flags\n  paving concrete-flag, 40 mm\n",
    ] {
        let found = checked(&(own.to_owned() + begun));
        assert!(!rules(&found).contains("entry-misplaced"), "{begun}");
        assert!(found.analysis().job.builds.contains_key("flags"), "{begun}");
    }
}
