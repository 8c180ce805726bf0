//! After an edit only what it touched is worked out again, and what is known
//! then is what a fresh look knows.

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis};

use crate::folder::{Folder, TODAY};
use crate::random::{Random, cases};
use crate::robustness::known;
use crate::vocabulary;
use drylay::text::Text;

/// Words that an entry may hold in place of another, beside those of the
/// vocabulary.
const WORDS: &[&str] = &[
    "north",
    "south",
    "west",
    "east",
    "free",
    "compacted",
    "loose",
    "0",
    "1:40",
    "1:200",
    "3 in",
    "6\"",
    "4'",
    "100 mm",
    "2.5 m",
    "10 %",
    "paving",
    "crushed-stone",
    "sharp-sand",
    "concrete",
    "gravel",
    "thin-set",
    "beyond",
    "existing",
    "# ",
    ",",
    "(0, 0)",
    "margin * 2",
    "bogus",
];

fn word(random: &mut Random) -> String {
    match random.once_in(2) {
        true => (*random.pick(WORDS)).to_owned(),
        false => random.pick::<String>(&vocabulary::WORDS).clone(),
    }
}

/// Changes a word or a number inside an entry: no heading, no line of `job`.
fn changed(random: &mut Random, text: &str) -> String {
    let lines: Vec<&str> = text.split_inclusive('\n').collect();
    let entries: Vec<usize> = (0..lines.len())
        .filter(|line| lines[*line].starts_with("  ") && lines[*line].trim().len() > 1)
        .collect();
    if entries.is_empty() {
        return text.to_owned();
    }
    let line = *random.pick(&entries);
    let (indent, rest) = lines[line].split_at(2);
    let mut words: Vec<String> = rest.split(' ').map(str::to_owned).collect();
    let at = random.below(words.len());
    match random.below(5) {
        0 => words[at] = word(random),
        1 => words.insert(at, word(random)),
        2 if words.len() > 1 => drop(words.remove(at)),
        _ => {
            // A digit is another one.
            let digits: Vec<usize> = rest
                .char_indices()
                .filter(|(_, character)| character.is_ascii_digit())
                .map(|(at, _)| at)
                .collect();
            if !digits.is_empty() {
                let at = *random.pick(&digits);
                let digit = random.below(10).to_string();
                let rest = format!("{}{digit}{}", &rest[..at], &rest[at + 1..]);
                return with_line(&lines, line, &format!("{indent}{rest}"));
            }
        }
    }
    let mut entry = format!("{indent}{}", words.join(" "));
    if !entry.ends_with('\n') {
        entry.push('\n');
    }
    with_line(&lines, line, &entry)
}

/// One of the sections stands a second time at the end.
fn twice(random: &mut Random, text: &str) -> String {
    let lines: Vec<&str> = text.split_inclusive('\n').collect();
    let begins = |line: &&str| line.starts_with(|first: char| first.is_ascii_lowercase());
    let headings: Vec<usize> = (0..lines.len())
        .filter(|line| begins(&lines[*line]))
        .collect();
    if headings.is_empty() {
        return text.to_owned();
    }
    let start = *random.pick(&headings);
    let own = lines[start + 1..].iter().take_while(|line| !begins(line));
    let own: String = own.copied().collect();
    format!("{text}\n{}{own}", lines[start])
}

fn with_line(lines: &[&str], at: usize, line: &str) -> String {
    let mut lines = lines.to_vec();
    lines[at] = line;
    lines.concat()
}

/// What is known after edit upon edit is what is known of the text alone;
/// after some of them the text is as it was at first.
#[test]
fn what_is_kept_is_what_a_fresh_look_finds() {
    let folder = Folder::of_specs();
    let sound = crate::sound::specs();
    let texts = folder
        .paths()
        .into_iter()
        .map(|path| (path.clone(), folder.text(&path).to_string()))
        .chain(
            sound
                .into_iter()
                .map(|(name, text)| (format!("/specs/{name}"), text)),
        );
    for (path, first) in texts {
        let mut random = Random::new(&path);
        let mut analyser = Analyser::new();
        let mut text = first.clone();
        let mut held: Option<(Arc<Analysis>, String)> = None;
        for _ in 0..cases(12) {
            text = match random.below(10) {
                0 => first.clone(),
                1 => twice(&mut random, &text),
                _ => changed(&mut random, &text),
            };
            // An editor may ask for what needs no more than the text.
            if random.once_in(3) {
                analyser.read_text(&path, Text::from(text.as_str()));
            }
            let look = |analyser: &mut Analyser| -> Arc<Analysis> {
                analyser.analyse(&path, Text::from(text.as_str()), &folder, TODAY)
            };
            let (now, fresh) = (look(&mut analyser), look(&mut Analyser::new()));
            let (kept, fresh) = (known(&now), known(&fresh));
            // Whoever holds an analysis sees what it was.
            if let Some((before, was)) = held.take() {
                assert!(known(&before) == was, "{path}:\n{text}");
            }
            held = random.once_in(2).then(|| (now, kept.clone()));
            let mut lines = kept.lines().zip(fresh.lines());
            let apart = lines.find(|(one, other)| one != other);
            assert!(kept == fresh, "{path}: {apart:?}\n{text}");
        }
    }
}

#[test]
fn an_analysis_takes_over_what_was_read() {
    let folder = Folder::of_specs();
    let path = folder.paths().into_iter().next().expect("a spec");
    let text = folder.text(&path).to_string();
    let mut analyser = Analyser::new();
    analyser.analyse(&path, text.as_str().into(), &folder, TODAY);
    let longer = format!("{text}\nlet one-more = 1 m\n");
    let read = analyser.read_text(&path, longer.as_str().into());
    assert!(
        analyser.lines_parsed(&path) <= 2,
        "a line, and the blank one"
    );
    let analysis = analyser.analyse(&path, longer.as_str().into(), &folder, TODAY);
    let own = &analysis.files[0];
    assert!(Arc::ptr_eq(&own.tree.sections, &read.tree.sections));
    assert!(Arc::ptr_eq(&own.sections, &read.sections));
}

/// Of a job of many surfaces an edit of one works one out again.
#[test]
fn an_edit_works_out_what_it_touches() {
    let court = |number: usize| {
        format!(
            "shape court-{number}\n  rectangle    3 m by 4 m, at ({east} m, 0 m)\n\n\
             surface court-{number}\n  shape        court-{number}\n  level        0\n  \
             build        stack\n\n",
            east = number * 5,
        )
    };
    let courts: String = (0..40).map(court).collect();
    let text = format!(
        "job \"Many courts\"\n  units        metric\n\nbuild stack\n  \
         paving       slate, 30 mm\n  base         gravel, 150 mm\n\n{courts}"
    );
    let folder = Folder::of_specs();
    let mut analyser = Analyser::new();
    let mut look = |text: &str| analyser.analyse("/specs/many.patio", text.into(), &folder, TODAY);
    let before = look(&text);
    let after = look(&text.replacen("(100 m, 0 m)", "(100 m, 9 m)", 1));
    let same = |one: &Analysis, other: &Analysis| {
        let both = one
            .figures
            .surfaces
            .iter()
            .zip(other.figures.surfaces.iter());
        both.filter(|(one, other)| Arc::ptr_eq(one, other)).count()
    };
    assert_eq!(after.figures.surfaces.len(), 40);
    assert_eq!(same(&before, &after), 39, "all but the one that moved");
    // What all of them lie on touches all of them.
    let thicker = look(&text.replacen("150 mm", "160 mm", 1));
    assert_eq!(same(&after, &thicker), 0);
    // What nobody holds is changed where it is.
    let lists = |analysis: &Analysis| {
        (
            Arc::as_ptr(&analysis.files[0].sections),
            Arc::as_ptr(&analysis.job.surfaces),
            Arc::as_ptr(&analysis.figures.surfaces),
            Arc::as_ptr(&analysis.figures.orders),
        )
    };
    let before = lists(&thicker);
    drop(thicker);
    let thinner = look(&text.replacen("150 mm", "140 mm", 1));
    assert_eq!(lists(&thinner), before);
    let other = look(&text);
    assert_ne!(lists(&other), lists(&thinner), "it is held");
    // Two of one name cost an edit of something else nothing.
    let twins = format!("{text}let gap = 1 mm\nlet gap = 2 mm\n");
    let before = look(&twins);
    let after = look(&twins.replacen("(100 m, 0 m)", "(100 m, 9 m)", 1));
    assert_eq!(same(&before, &after), 39, "all but the one that moved");
}
