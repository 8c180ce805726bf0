//! What is offered while a spec is written may be written there.

use std::collections::BTreeSet;

use drylay::ide::{CompletionKind, completions};
use drylay::vocabulary::section;

use crate::checked::checked;
use crate::folder::Folder;
use crate::random::{Random, cases};

/// What tells that something does not belong where it stands.
const MISPLACED: [&str; 3] = ["entry-misplaced", "word-unknown", "outline-empty"];

/// A line that ends there may go on, and then it turns a corner.
const MAY_GO_ON: &str = "the line ends here and turns no corner";

/// What tells so, but for what the next line may put right.
fn misplaced(text: &str) -> Vec<(&'static str, String)> {
    let found = checked(text);
    let told = found.findings().iter();
    let told = told.filter(|finding| MISPLACED.contains(&finding.rule));
    let told = told.filter(|finding| *finding.message != *MAY_GO_ON);
    told.map(|finding| (finding.rule, finding.message.to_string()))
        .collect()
}

/// The specs that stand by themselves.
fn specs() -> Vec<String> {
    let folder = Folder::of_specs();
    let paths = folder.paths();
    let texts = paths.iter().map(|path| folder.text(path).to_string());
    let stands_alone = |text: &String| text.contains("\njob ") && !text.contains("\nuse ");
    texts.filter(stands_alone).collect()
}

#[test]
fn every_key_that_is_offered_may_be_written() {
    let (mut seen, mut wrong) = (BTreeSet::new(), BTreeSet::new());
    let mut random = Random::new("keys that are offered");
    let specs = specs();
    for text in &specs {
        let before = misplaced(text);
        let mut from = 0;
        for block in text.split_inclusive("\n\n") {
            let end = from + block.trim_end().len();
            from += block.len();
            let heading = block
                .lines()
                .find(|line| line.starts_with(char::is_alphabetic));
            let Some(kind) = heading.and_then(|line| section(line.split(' ').next()?)) else {
                continue;
            };
            let written: BTreeSet<&str> = block
                .lines()
                .filter_map(|line| line.strip_prefix("  ")?.split(' ').next())
                .collect();
            // Each time an eighth of the sections.
            if random.below(8) >= cases(1) {
                continue;
            }
            let mut begun = text.clone();
            begun.insert_str(end, "\n  ");
            let found = checked(&begun);
            let offers = completions(found.analysis(), (end + 3) as u32).expect("offers");
            for offer in offers.offers {
                assert_eq!(offer.kind, CompletionKind::Key, "{}", offer.label);
                let key = kind.key(&offer.label).expect("a key");
                if !seen.insert((kind.word, written.clone(), key.word)) {
                    continue;
                }
                let mut with = text.clone();
                with.insert_str(end, &format!("\n  {}", key.example));
                let after = misplaced(&with);
                if after.len() > before.len() {
                    let new = after.iter().find(|one| !before.contains(one));
                    wrong.insert(format!("{} {:?}: {} {new:?}", kind.word, written, key.word));
                }
            }
        }
    }
    assert!(seen.len() > 60, "{}", seen.len());
    assert!(
        wrong.is_empty(),
        "{} of {}: {wrong:#?}",
        wrong.len(),
        seen.len()
    );
}

#[test]
fn every_clause_that_is_offered_may_be_written() {
    let (mut seen, mut wrong) = (BTreeSet::new(), BTreeSet::new());
    let mut random = Random::new("clauses that are offered");
    for text in specs() {
        let before = misplaced(&text);
        let mut kind = None;
        let mut from = 0;
        for line in text.split_inclusive('\n') {
            let end = from + line.trim_end().len();
            from += line.len();
            if line.starts_with(char::is_alphabetic) {
                kind = line.split_whitespace().next().and_then(section);
            }
            let is_entry = line.starts_with("  ") && !line.contains('#');
            let (Some(kind), true) = (kind, is_entry) else {
                continue;
            };
            let Some(key) = line
                .split_whitespace()
                .next()
                .and_then(|word| kind.key(word))
            else {
                continue;
            };
            // Each time a sixth of the lines.
            if random.below(6) >= cases(1) {
                continue;
            }
            let mut begun = text.clone();
            begun.insert_str(end, ", ");
            let found = checked(&begun);
            let Some(offers) = completions(found.analysis(), (end + 2) as u32) else {
                continue;
            };
            let value = line.trim().split(',').next().unwrap_or_default();
            let value: Vec<&str> = value.split_whitespace().skip(1).take(1).collect();
            for offer in offers.offers {
                let clauses = key.clauses.iter();
                let clause = clauses
                    .filter(|clause| clause.word() == Some(&offer.label))
                    .find_map(|clause| example(clause.form));
                let Some(clause) = clause else { continue };
                if !seen.insert((kind.word, key.word, value.join(" "), clause.clone())) {
                    continue;
                }
                let mut with = text.clone();
                with.insert_str(end, &format!(", {clause}"));
                let after = misplaced(&with);
                if after.len() > before.len() {
                    let new = after.iter().find(|one| !before.contains(one));
                    wrong.insert(format!("{}, {clause}: {new:?}", line.trim()));
                }
            }
        }
    }
    assert!(seen.len() > 40, "{}", seen.len());
    assert!(
        wrong.is_empty(),
        "{} of {}: {wrong:#?}",
        wrong.len(),
        seen.len()
    );
}

/// A clause of lengths, counts and the like as it is written; none where it
/// takes a name.
fn example(form: &str) -> Option<String> {
    let mut written = Vec::new();
    for part in form.split_whitespace() {
        let Some((_, kind)) = part.split_once(':') else {
            match part {
                // What is left out may be left out.
                "[" | "{" => break,
                "(" | ")" | "|" => return None,
                word => written.push(word),
            }
            continue;
        };
        written.push(match kind {
            "length" => "150 mm",
            "count" => "2",
            "share" => "10 %",
            "number" => "1/3",
            "angle" => "45°",
            "slope" => "1:60",
            "point" => "(0 m, 0 m)",
            "heading" => "east",
            _ => return None,
        });
    }
    (!written.is_empty()).then(|| written.join(" "))
}
