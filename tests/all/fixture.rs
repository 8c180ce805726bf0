//! Specs with what is found in them noted under the line that causes it.
//!
//! Under a line, `~~~ rule «place»: part of the message` says that it has
//! such a finding, at that place; `~~> line` then says what the line becomes
//! by each of its fixes, in order. Place and message may be left out. Every
//! finding must be noted, and every note found.
//!
//! Fixtures stand in Markdown files: a heading titles those below it, each a
//! block marked `patio`. A block marked `patio NAME` is another file, which
//! the next block may use. What a fixture names and does not define comes in
//! from a sound court.

use std::sync::Arc;

use drylay::analysis::Analysis;
use drylay::findings::{Finding, Fix};

use crate::folder::{Folder, repository};
use drylay::text::Text;

/// Where a fixture's own text lies.
pub const PATH: &str = "/site/spec.patio";

/// A finding that is expected.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Note {
    /// Its line, from 0.
    pub line: usize,
    /// Its rule.
    pub rule: String,
    /// The text that it points at, if that is noted.
    pub place: Option<String>,
    /// Part of its message, if that is noted.
    pub message: Option<String>,
    /// What its line becomes by each fix.
    pub fixes: Vec<String>,
}

/// A spec with its notes.
#[derive(Clone)]
pub struct Fixture {
    /// Where it stands.
    pub title: String,
    /// Its text, the notes taken out, completed.
    pub text: String,
    /// Its notes, in order.
    pub notes: Vec<Note>,
    /// The files that it may use.
    pub files: Folder,
}

impl Fixture {
    /// A text with its notes.
    pub fn read(title: &str, marked: &str) -> Fixture {
        let mut lines: Vec<&str> = Vec::new();
        let mut notes: Vec<Note> = Vec::new();
        for line in marked.lines() {
            let trimmed = line.trim();
            if let Some(note) = trimmed.strip_prefix("~~~") {
                notes.push(read_note(note.trim(), lines.len().saturating_sub(1)));
            } else if let Some(fixed) = trimmed.strip_prefix("~~>") {
                let last = notes.last_mut().expect("a fix stands under its finding");
                last.fixes.push(fixed.trim().to_owned());
            } else {
                lines.push(line);
            }
        }
        let text = completed(&(lines.join("\n") + "\n"));
        Fixture {
            title: title.to_owned(),
            files: Folder::with([(PATH, text.as_str())]),
            text,
            notes,
        }
    }

    /// The fixtures of a file of this repository.
    pub fn all(file: &str) -> Vec<Fixture> {
        let text = std::fs::read_to_string(repository().join("tests").join(file))
            .unwrap_or_else(|error| panic!("{file}: {error}"));
        let mut fixtures: Vec<Fixture> = Vec::new();
        let mut title = String::new();
        let mut others: Vec<(String, String)> = Vec::new();
        let mut block: Option<(String, String)> = None;
        for (number, line) in (1..).zip(text.lines()) {
            match (&mut block, line.strip_prefix("```")) {
                (None, Some(kind)) => {
                    let name = kind.strip_prefix("patio").expect("every block is a patio");
                    block = Some((name.trim().to_owned(), String::new()));
                    if name.is_empty() {
                        title = format!("{file}:{number}");
                    }
                }
                (Some(_), Some(_)) => {
                    let (name, body) = block.take().unwrap_or_default();
                    if name.is_empty() {
                        let mut fixture = Fixture::read(&title, &body);
                        for (name, body) in others.drain(..) {
                            let path = format!("/site/{name}");
                            fixture.files.0.insert(path, Text::from(body));
                        }
                        fixtures.push(fixture);
                    } else {
                        others.push((name, body));
                    }
                }
                (Some((_, body)), None) => {
                    body.push_str(line);
                    body.push('\n');
                }
                (None, None) => {}
            }
        }
        assert!(block.is_none(), "{file}: a block is not closed");
        fixtures
    }

    /// What is known of it.
    pub fn analysis(&self) -> Arc<Analysis> {
        self.files.analysis(PATH)
    }

    /// In what its findings differ from its notes, those left aside that
    /// `counts` says no to.
    pub fn differences(&self, counts: impl Fn(&Finding) -> bool) -> Vec<String> {
        let analysis = self.analysis();
        let mut wanted = self.notes.clone();
        let mut differences = Vec::new();
        for finding in analysis.findings.iter().filter(|finding| counts(finding)) {
            let found = note_of(&analysis, finding);
            match wanted.iter().position(|note| matches(note, &found)) {
                Some(index) => {
                    wanted.remove(index);
                }
                None => differences.push(format!("found {}", shown(&found))),
            }
        }
        differences.extend(wanted.iter().map(|note| format!("wanted {}", shown(note))));
        if !differences.is_empty() {
            differences.insert(0, format!("{}\n{}", self.title, self.text));
        }
        differences
    }
}

fn read_note(note: &str, line: usize) -> Note {
    let (rule, place, rest) = match note.split_once('«') {
        Some((rule, rest)) => {
            let (place, rest) = rest.split_once('»').expect("a place has its end");
            (rule, Some(place.to_owned()), rest)
        }
        None => match note.split_once(':') {
            Some((rule, _)) => (rule, None, note.get(rule.len()..).unwrap_or_default()),
            None => (note, None, ""),
        },
    };
    Note {
        line,
        rule: rule.trim().to_owned(),
        place,
        message: rest
            .strip_prefix(':')
            .map(|message| message.trim().to_owned()),
        fixes: Vec::new(),
    }
}

/// A finding as a note would have it.
pub fn note_of(analysis: &Analysis, finding: &Finding) -> Note {
    let (_, line) = analysis.line(finding.place).expect("a finding has a place");
    Note {
        line: line as usize,
        rule: finding.rule.to_owned(),
        place: Some(analysis.text(finding.place).to_owned()),
        message: Some(finding.message.to_string()),
        fixes: finding
            .fixes
            .iter()
            .map(|fix| changed(analysis.own_text(), &applied(analysis, fix)))
            .collect(),
    }
}

fn matches(note: &Note, found: &Note) -> bool {
    let holds =
        |noted: &Option<String>, fits: &dyn Fn(&str, &str) -> bool, found: &Option<String>| {
            noted
                .as_deref()
                .is_none_or(|noted| fits(found.as_deref().unwrap_or_default(), noted))
        };
    note.line == found.line
        && note.rule == found.rule
        && note.fixes == found.fixes
        && holds(&note.place, &|found, noted| found == noted, &found.place)
        && holds(
            &note.message,
            &|found, noted| found.contains(noted),
            &found.message,
        )
}

fn shown(note: &Note) -> String {
    let mut shown = format!("on line {}:\n  ~~~ {}", note.line + 1, note.rule);
    if let Some(place) = &note.place {
        shown += &format!(" «{place}»");
    }
    if let Some(message) = &note.message {
        shown += &format!(": {message}");
    }
    for fix in &note.fixes {
        shown += &format!("\n  ~~> {fix}");
    }
    shown
}

/// The file's own text after a fix. One that changes another file says so.
pub fn applied(analysis: &Analysis, fix: &Fix) -> String {
    let mut text = analysis.own_text().to_owned();
    let mut changes: Vec<_> = fix
        .changes
        .iter()
        .filter_map(|change| {
            let (file, span) = analysis.span(change.place).expect("a change has a place");
            if file != 0 {
                let (_, name) = analysis.files[file].path.rsplit_once('/').expect("a path");
                let says_so = fix.title.ends_with(&format!(" in {name}"));
                assert!(says_so && !fix.safe, "it goes unseen: {fix:?}");
                return None;
            }
            Some((span.start as usize, span.end as usize, &*change.text))
        })
        .collect();
    changes.sort_unstable();
    for pair in changes.windows(2) {
        assert!(pair[0].1 <= pair[1].0, "changes of a fix overlap");
    }
    for (start, end, with) in changes.into_iter().rev() {
        text.replace_range(start..end, with);
    }
    text
}

/// The lines of `after` that are not those of `before`, in one line.
fn changed(before: &str, after: &str) -> String {
    let (before, after): (Vec<_>, Vec<_>) = (before.lines().collect(), after.lines().collect());
    let same = |pair: &(&&str, &&str)| pair.0 == pair.1;
    let head = before.iter().zip(&after).take_while(same).count();
    let tails = before[head..].iter().rev().zip(after[head..].iter().rev());
    let tail = tails.take_while(same).count();
    let lines: Vec<&str> = after[head..after.len() - tail]
        .iter()
        .map(|line| line.trim())
        .collect();
    lines.join(" | ")
}

/// A sound court, a section a text.
const SOUND: &[&str] = &[
    "\
shape court
  start         (0, 0)
  east          6 m, named wall
  south         4 m
  west          6 m, named garden
  close
",
    "\
build sand-set
  paving        concrete-paver, 60 mm, waste 5 %
  bed           sharp-sand, 30 mm
  base          crushed-stone, 150 mm compacted, beyond 150 mm
",
    "\
mix bed-mix
  for           bed
  parts         1 portland-cement : 4 sharp-sand
",
];

/// A text with what it names of the sound court, and does not define, added.
fn completed(text: &str) -> String {
    let mut text = text.to_owned();
    for sound in SOUND {
        let heading = sound.lines().next().unwrap_or_default();
        let name = heading.split(' ').next_back().unwrap_or_default();
        let is_of_a_name = |letter: char| letter.is_alphanumeric() || letter == '-';
        let is_named = text
            .split(|letter: char| !is_of_a_name(letter))
            .any(|word| word == name);
        let is_defined = text.lines().any(|line| line == heading);
        if is_named && !is_defined {
            text += "\n";
            text += sound;
        }
    }
    text
}

#[test]
fn notes_are_read_and_taken_out() {
    let fixture = Fixture::read(
        "",
        "site\n  soil clay\n  ~~~ soil-odd «clay»: odd\n  ~~> soil loam\n",
    );
    assert_eq!(fixture.text, "site\n  soil clay\n");
    assert_eq!(
        fixture.notes,
        [Note {
            line: 1,
            rule: "soil-odd".to_owned(),
            place: Some("clay".to_owned()),
            message: Some("odd".to_owned()),
            fixes: vec!["soil loam".to_owned()],
        }]
    );
    assert!(!fixture.differences(|_| true).is_empty());
}
