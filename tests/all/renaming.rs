//! A new name changes nothing but the name: every name of every spec is given
//! another, and each spec comes to the same.

use std::collections::BTreeMap;
use std::fs;
use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, Files};
use drylay::ide::{renamable, rename};
use drylay::report::takeoff_json;
use drylay::text::{Edit, Text, apply};

use crate::folder::repository;

/// The specs of the repository, some of them as changed.
struct Changed(BTreeMap<String, String>);

impl Files for Changed {
    fn read(&self, path: &str) -> Result<Text, String> {
        let changed = self.0.get(path).cloned();
        let text = changed.map_or_else(|| fs::read_to_string(path), Ok);
        text.map(Text::from).map_err(|error| error.to_string())
    }

    fn exists(&self, path: &str) -> bool {
        std::path::Path::new(path).exists()
    }

    fn list(&self, folder: &str) -> Arc<[String]> {
        let entries = fs::read_dir(folder).into_iter().flatten();
        let names = entries.filter_map(|entry| entry.ok()?.file_name().into_string().ok());
        let mut names: Vec<String> = names.collect();
        names.sort();
        names.into()
    }
}

fn analysed(path: &str, files: &Changed) -> Arc<Analysis> {
    let text = files.read(path).expect("a spec");
    Analyser::new().analyse(path, text, files, "2027-01-12")
}

/// Everything that a spec comes to, a name told by another.
fn come_to(analysis: &Analysis, new: &str, old: &str) -> String {
    let findings = analysis.findings.iter();
    let findings = findings.map(|one| format!("{} {}\n", one.rule, one.message));
    let all = findings.collect::<String>() + &takeoff_json(analysis);
    all.replace(new, old)
}

const NEW: &str = "quite-another";

#[test]
fn every_name_of_every_spec_may_be_another() {
    let mut renamed = 0;
    let specs = fs::read_dir(repository().join("specs")).expect("the specs");
    for entry in specs {
        let path = entry.expect("a spec").path();
        if path.extension().is_none_or(|ending| ending != "patio") {
            continue;
        }
        let path = path.to_str().expect("a path").to_owned();
        let before = analysed(&path, &Changed(BTreeMap::new()));
        let text = before.own_text().to_owned();
        let mut done: Vec<String> = Vec::new();
        for at in 0..text.len() as u32 {
            let Ok(Some(span)) = renamable(&before, at) else {
                continue;
            };
            let old = span.slice(&text).to_owned();
            if span.start != at || done.contains(&old) {
                continue;
            }
            done.push(old.clone());
            let edits = rename(&before, at, NEW).unwrap_or_else(|refusal| panic!("{refusal:?}"));
            let mut files = BTreeMap::new();
            for (index, file) in before.files.iter().enumerate() {
                let own = edits.iter().filter(|edit| edit.file == index);
                let own: Vec<Edit> = own
                    .map(|edit| Edit::new(edit.span, edit.text.clone()))
                    .collect();
                let changed = apply(&file.tree.text, &own).expect("edits that fit");
                files.insert(file.path.clone(), changed);
            }
            let after = analysed(&path, &Changed(files));
            assert_eq!(
                come_to(&after, NEW, &old),
                come_to(&before, NEW, &old),
                "{path}: {old}"
            );
            renamed += 1;
        }
    }
    assert!(renamed > 40, "{renamed} names");
}
