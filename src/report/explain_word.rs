//! Words of the language explained: kinds of section, keys, words that a key
//! takes, and the materials of the catalogue.

use super::words::{WIDTH, paragraph, wrapped};
use crate::materials::{self, CatalogueMaterial, Sourced};
use crate::model::built_in;
use crate::vocabulary::{Clause, Form, Key, SECTIONS, SectionKind, other_word, section};

/// All that a word means in a spec, by itself or as it is called otherwise;
/// nothing where it is no word of the language.
pub fn explained_word(word: &str) -> Option<String> {
    let word = word.trim().to_lowercase();
    let own = parts(&word);
    if !own.is_empty() {
        return Some(own.join("\n\n"));
    }
    let meant = materials::other_name(&word).or_else(|| meant(&word))?;
    let parts = parts(meant);
    let also = format!("{word} is called {meant} here.\n\n");
    (!parts.is_empty()).then(|| also + &parts.join("\n\n"))
}

/// Every word that may be asked for.
pub fn explained_words() -> impl Iterator<Item = &'static str> {
    let keys = SECTIONS.iter().flat_map(|kind| kind.keys);
    let words = SECTIONS.iter().map(|kind| kind.word);
    let names = materials::materials().map(|own| own.name);
    words.chain(keys.map(|key| key.word)).chain(names)
}

/// The word of a section or of a key that is meant by another.
fn meant(word: &str) -> Option<&'static str> {
    let within = SECTIONS.iter().map(|kind| kind.word);
    let mut within = std::iter::once("").chain(within);
    within.find_map(|within| other_word(within, word))
}

fn parts(word: &str) -> Vec<String> {
    let mut parts: Vec<String> = section(word).map(of_section).into_iter().collect();
    for kind in SECTIONS {
        parts.extend(kind.key(word).map(|key| of_key(kind, key)));
    }
    parts.extend(built_in(word).map(of_material));
    if parts.is_empty() {
        parts.extend(of_choice(word));
    }
    parts
}

fn of_section(kind: &'static SectionKind) -> String {
    let keys: String = kind
        .keys
        .iter()
        .map(|key| line(key.word, key.help))
        .collect();
    let mut text = head(kind.word, "a section", kind.help);
    text += &written(kind.word, kind.heading, kind.clauses);
    if !keys.is_empty() {
        text += &format!("\nWHAT MAY STAND IN IT\n{keys}");
    }
    text + &example(kind.example)
}

fn of_key(kind: &SectionKind, key: &'static Key) -> String {
    let place = match key.repeats {
        true => format!("in {}, on as many lines as it takes", kind.thing()),
        false => format!("in {}", kind.thing()),
    };
    head(key.word, &place, key.help)
        + &written(key.word, key.value, key.clauses)
        + &example(key.example)
}

/// A word that keys take: where it may stand.
fn of_choice(word: &str) -> Option<String> {
    let takes = |form: &'static str| Form::of(form).words().any(|own| own == word);
    let mut places = Vec::new();
    for kind in SECTIONS {
        for key in kind.keys {
            let mut forms = key.clauses.iter().map(|clause| clause.form);
            if takes(key.value) || forms.any(takes) {
                let form = Form::of(key.value).shown_after(key.word);
                places.push(line(&form, &format!("in {}", kind.thing())));
            }
        }
    }
    (!places.is_empty()).then(|| format!("{word}: a word of these lines\n\n{}", places.concat()))
}

fn of_material(own: &'static CatalogueMaterial) -> String {
    let mut text = head(
        own.name,
        &format!("a built-in material, {}", own.kind.word().replace('-', " ")),
        own.called,
    );
    let mut rows = String::new();
    let mut row = |name: &str, value: Option<Sourced>| {
        if let Some(value) = value {
            rows += &line(name, &format!("{}; {}", value.text, value.source));
        }
    };
    let density = match own.compacted {
        Some(_) => "density, loose",
        None => "density",
    };
    row(density, own.density);
    row("density, compacted", own.compacted);
    row("unit", own.unit);
    row("waste", own.waste);
    let (metric, imperial) = (own.sold.metric.by, own.sold.imperial.by);
    let sold = match metric == imperial {
        true => metric.to_owned(),
        false => format!("{metric}, in feet {imperial}"),
    };
    rows += &line("sold", &sold);
    text += &format!("\nWHAT IS KNOWN OF IT\n{rows}");
    if !own.note.is_empty() {
        text += &format!("\n{}", paragraph(own.note));
    }
    text + "\nA material of your own section of the same name says otherwise.\n"
}

fn head(word: &str, what: &str, help: &str) -> String {
    format!("{word}: {what}\n\n{}", paragraph(help))
}

/// How it is written, and what may follow after a comma.
fn written(word: &str, value: &'static str, clauses: &'static [Clause]) -> String {
    let form = Form::of(value).shown_after(word);
    let mut text = format!("\nHOW IT IS WRITTEN\n{}", paragraph(&form));
    if !clauses.is_empty() {
        let lines = clauses.iter();
        let lines = lines.map(|own| line(&own.parsed().shown(), own.help));
        text += &format!("\nWHAT MAY FOLLOW IT\n{}", lines.collect::<String>());
    }
    text
}

fn example(text: &str) -> String {
    let lines = text.lines().map(|line| format!("  {line}\n"));
    format!("\nAN EXAMPLE\n{}", lines.collect::<String>())
}

fn line(word: &str, help: &str) -> String {
    let first = match word.chars().count() {
        0..=18 => format!("  {word:<18} "),
        _ => format!("  {word}\n                     "),
    };
    match first.split_once('\n') {
        Some((word, indent)) => format!("{word}\n{}\n", wrapped(help, indent, WIDTH)),
        None => wrapped(help, &first, WIDTH) + "\n",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_the_language_are_explained() {
        for (word, said) in [
            ("surface", "surface: a section"),
            (
                "Edging",
                "HOW IT IS WRITTEN\n  edging (in place | MATERIAL)",
            ),
            ("sharp-sand", "sharp-sand: a built-in material"),
            ("herringbone", "herringbone: a word of these lines"),
            ("mot", "mot is called type-1 here"),
        ] {
            let text = explained_word(word).unwrap_or_default();
            assert!(text.contains(said), "{word}:\n{text}");
        }
        assert_eq!(explained_word("gazebo"), None);
        for word in explained_words() {
            let text = explained_word(word).expect(word);
            assert!(text.lines().count() > 3, "{word}:\n{text}");
        }
    }
}
