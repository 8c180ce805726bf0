//! Whole sections at the margin, and the keys of a section.

use super::starters::least_fall;
use super::{About, Completion, CompletionKind, edges};
use crate::analysis::Analysis;
use crate::ide::writing::Writing;
use crate::model::FileKind;
use crate::syntax::LineKind;
use crate::units::System;
use crate::vocabulary::{Part, SECTIONS, SectionKind, VALUE_COLUMN, ValueKind, in_currency};

/// How wide a key is written, with the blank after it, so that values start at
/// the column of the formatter behind an indent of two.
const KEY_WIDTH: usize = VALUE_COLUMN - 2;

/// The kinds of section, each as a whole section with tab stops; those that
/// may stand once and do are left out.
pub(crate) fn templates(analysis: &Analysis) -> Vec<Completion> {
    let is_there = |kind: &SectionKind| {
        matches!(kind.word, "job" | "site" | "standard")
            && analysis.files.first().is_some_and(|file| {
                let mut lines = file.tree.lines();
                lines.any(|line| line.word().eq_ignore_ascii_case(kind.word))
            })
    };
    let belongs = |kind: &SectionKind| match analysis.job.kind {
        FileKind::Standard => kind.word == "standard",
        FileKind::Spec => kind.word != "standard",
        FileKind::Library => true,
    };
    SECTIONS
        .iter()
        .filter(|kind| belongs(kind) && !is_there(kind))
        .map(|kind| Completion {
            text: template(analysis, kind),
            has_stops: true,
            about: About::Section(kind.word.to_owned()),
            ..Completion::new(kind.word, CompletionKind::Section, kind.help)
        })
        .collect()
}

/// The examples of the sections that have figures, in the units that the
/// vocabulary does not write them in.
const METRIC: &[(&str, &str)] = &[
    (
        "site",
        "site\n  soil clay\n  datum \"garden-door sill\"\n  ground -100 mm\n",
    ),
    (
        "shape",
        "shape court\n  start (0 m, 0 m)\n  east 7.2 m, named wall\n  south 3.6 m\n  west 7.2 m\n  close\n",
    ),
    (
        "surface",
        "surface court\n  shape court\n  meets wall\n  level -150 mm at wall\n  fall 1:60 away from wall\n  build sand-set\n",
    ),
    (
        "material",
        "material road-stone\n  like crushed-stone\n  sold by t\n  price $38/t\n",
    ),
    ("let", "let margin = 150 mm"),
    (
        "setting-out",
        "setting-out\n  from (0 m, 0 m) and (7.2 m, 0 m)\n  string 150 mm above\n  board 2.4 m\n",
    ),
    (
        "measured",
        "measured \"base of the court\"\n  of court, base\n  on 2027-05-06\n  level -155 mm at (0 m, 0 m)\n",
    ),
];
const IMPERIAL: &[(&str, &str)] = &[
    (
        "steps",
        "steps garden-steps\n  from court\n  to terrace\n  at (10', 0), climbing north\n  width 4'\n  going 14 in\n",
    ),
    (
        "drain",
        "drain rear-pipe\n  pipe plastic-pipe, 4 in, from (10', -6') to (30', -12')\n  fall 1/8 in per ft\n  invert -24 in\n  bedded in pea-gravel, 4 in round\n  to \"storm drain\"\n",
    ),
    (
        "build",
        "build sand-set\n  paving concrete-paver, 2 3/8 in\n  bed sharp-sand, 1 in\n  base crushed-stone, 6 in compacted, lifts 2, beyond 6 in\n",
    ),
    (
        "budget",
        "budget\n  disposal $45/cu yd\n  tax 8 % on materials\n  contingency 10 %\n",
    ),
];

/// The example of a kind of section in the units and the money of a job, its
/// fall no flatter than it has to be there.
pub(crate) fn example_of(analysis: &Analysis, kind: &'static SectionKind) -> String {
    let job = &analysis.job;
    let has_units = job.heading.place.is_some();
    let others = match job.heading.system() {
        System::Imperial => IMPERIAL,
        System::Metric => METRIC,
    };
    let other = others.iter().find(|(word, _)| *word == kind.word);
    let example = other
        .filter(|_| has_units)
        .map_or(kind.example, |(_, example)| example);
    let example = in_currency(example, job.heading.currency());
    match kind.word {
        "surface" => with_fall(analysis, &example),
        _ => example.into_owned(),
    }
}

/// The example of a kind of section in the job's units and with the names
/// that it has, the cursor led from value to value.
fn template(analysis: &Analysis, kind: &'static SectionKind) -> String {
    let example = example_of(analysis, kind);
    let names = Names::of(analysis);
    let lines = example.lines().enumerate().map(|(index, line)| {
        let body = line.trim_start();
        let (word, value) = body.split_once(' ').unwrap_or((body, ""));
        let (indent, width) = match index {
            0 => ("", 0),
            _ => ("  ", KEY_WIDTH),
        };
        let value = names.put_into(kind.word, word, value.trim_start());
        let blank = if word.len() >= width { " " } else { "" };
        let stop = match choices(kind, index, word, &value, &names) {
            _ if value.is_empty() => return format!("{indent}{word}"),
            choices if choices.len() > 1 => format!("|{}|", escaped(&choices).join(",")),
            _ => format!(":{}", escaped(&[value]).concat()),
        };
        format!("{indent}{word:<width$}{blank}${{{}{stop}}}", index + 1)
    });
    lines.collect::<Vec<_>>().join("\n") + "$0"
}

/// The example of a surface, falling no flatter than its paving has to where
/// the job lies.
fn with_fall(analysis: &Analysis, example: &str) -> String {
    let heading = &analysis.job.heading;
    let usual = match heading.system() {
        System::Imperial => "1/4 in per ft",
        System::Metric => "1:60",
    };
    let fall = least_fall(&analysis.limits, heading.region(), usual);
    example.replace("1:60", &fall)
}

/// The names of the job that a section may take up.
struct Names {
    shapes: Vec<String>,
    surfaces: Vec<String>,
    builds: Vec<String>,
    /// A named edge of the first of the shapes, or else its first.
    edge: Option<String>,
}

impl Names {
    /// Shapes that nothing covers yet come first.
    fn of(analysis: &Analysis) -> Names {
        let job = &analysis.job;
        let is_covered = |name: &str| {
            let mut surfaces = job.surfaces.iter();
            surfaces.any(|surface| {
                let shape = surface.shape.as_ref();
                shape.is_some_and(|shape| *shape.value.name.value == *name)
            })
        };
        let mut shapes: Vec<_> = job.shapes.iter().collect();
        shapes.sort_by_key(|(name, _)| is_covered(name));
        let edges = shapes.first().map(|(_, shape)| edges::names(shape, false));
        Names {
            edge: edges.and_then(|edges| edges.into_iter().next()),
            surfaces: job
                .surfaces
                .iter()
                .map(|surface| surface.name.value.clone())
                .collect(),
            shapes: shapes.iter().map(|(name, _)| name.to_string()).collect(),
            builds: job.builds.keys().map(|name| name.to_string()).collect(),
        }
    }

    /// A value of the example with the names of the job in it.
    fn put_into(&self, kind: &str, word: &str, value: &str) -> String {
        let first = |names: &[String]| first_or(names, value);
        match (kind, word) {
            ("surface", "surface" | "shape") => first(&self.shapes),
            ("surface", "build") => first(&self.builds),
            ("steps", "from") => first(&self.surfaces),
            ("steps", "to") => first(self.surfaces.get(1..).unwrap_or_default()),
            ("measured", "of") => value.replace("court", &first_or(&self.surfaces, "court")),
            ("surface", _) => {
                let edge = self.edge.as_deref().unwrap_or("wall");
                value.replace("wall", edge)
            }
            _ => value.to_owned(),
        }
    }
}

fn first_or(names: &[String], other: &str) -> String {
    names.first().map_or(other, String::as_str).to_owned()
}

/// What a value may be instead, itself first, where its form is a choice or a
/// name of the job's.
fn choices(
    kind: &'static SectionKind,
    index: usize,
    word: &str,
    value: &str,
    names: &Names,
) -> Vec<String> {
    let key = kind.key(word).filter(|_| index > 0);
    let all: Vec<String> = match key.map(|key| key.parsed().parts.as_slice()) {
        Some([Part::Choice { words, .. }, ..]) => {
            words.iter().map(|own| (*own).to_owned()).collect()
        }
        Some(
            [
                Part::Slot {
                    kind: ValueKind::Shape,
                    ..
                },
            ],
        ) => names.shapes.clone(),
        Some(
            [
                Part::Slot {
                    kind: ValueKind::Build,
                    ..
                },
            ],
        ) => names.builds.clone(),
        _ => Vec::new(),
    };
    if !all.iter().any(|own| own == value) {
        return Vec::new();
    }
    let others = all.iter().filter(|own| *own != value);
    std::iter::once(value.to_owned())
        .chain(others.cloned())
        .collect()
}

/// Values with nothing in them that a snippet gives a meaning to.
fn escaped(values: &[String]) -> Vec<String> {
    let escape = |value: &String| {
        let mut escaped = String::with_capacity(value.len());
        for character in value.chars() {
            if matches!(character, '$' | '}' | '\\') {
                escaped.push('\\');
            }
            escaped.push(character);
        }
        escaped
    };
    values.iter().map(escape).collect()
}

/// The keys of the section that are not written yet or may stand again; the
/// ones that it means nothing without come first, those written come last.
pub(crate) fn keys(analysis: &Analysis, writing: &Writing) -> Vec<Completion> {
    let (Some(kind), Some(file)) = (writing.kind, analysis.files.first()) else {
        return Vec::new();
    };
    let placed = writing
        .section
        .and_then(|section| file.tree.find(section.section));
    let lines = placed
        .into_iter()
        .flat_map(|placed| file.tree.lines_of(placed));
    let written: Vec<&str> = lines
        .filter(|line| line.line.kind == LineKind::Entry)
        .filter(|line| line.in_file(line.line.word).start != writing.span.start)
        .map(|line| line.word())
        .collect();
    let is_written = |word: &str| written.iter().any(|own| own.eq_ignore_ascii_case(word));
    let mut keys: Vec<_> = kind
        .keys
        .iter()
        .filter(|key| key.repeats || !is_written(key.word))
        .filter(|key| !key.apart.iter().any(|other| is_written(other)))
        .collect();
    keys.sort_by_key(|key| (is_written(key.word), !key.required));
    keys.into_iter()
        .map(|key| {
            let text = match key.value {
                "" => key.word.to_owned(),
                _ if key.word.len() < KEY_WIDTH => format!("{:<KEY_WIDTH$}", key.word),
                _ => format!("{} ", key.word),
            };
            Completion {
                text,
                about: About::Key(kind.word.to_owned(), key.word.to_owned()),
                ..Completion::new(key.word, CompletionKind::Key, key.parsed().shown())
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::completions;
    use crate::ide::fixture::{analysed, marked};

    #[test]
    fn what_is_begun_is_in_the_units_money_and_falls_of_its_job() {
        for (units, region, currency, foreign) in [
            (
                "imperial",
                "us",
                "USD",
                [" mm", " m,", "/m3", "£", "€", "1:60"].as_slice(),
            ),
            ("metric", "uk", "GBP", &["'", " ft", "/ton", "$", "€"]),
            (
                "metric",
                "au",
                "AUD",
                &["'", " ft", "/ton", "£", "€", "1:60"],
            ),
        ] {
            let job = format!(
                "job \"A\"\n  units {units}\n  region {region}\n  currency {currency}\n\n¦\n"
            );
            let (text, offset) = marked(&job);
            let found = completions(&analysed(&text), offset)
                .expect("offers")
                .offers;
            assert!(found.len() > 10, "{}", found.len());
            for offer in found {
                let plain = offer.plain_text();
                let words: Vec<&str> = plain.split([' ', ',', '\n']).collect();
                let is_number = |word: &str| word.ends_with(|last: char| last.is_ascii_digit());
                let mut pairs = words.windows(2);
                let has_inches = pairs.any(|pair| is_number(pair[0]) && pair[1] == "in");
                assert!(
                    units == "imperial" || !has_inches,
                    "{region}: inches in\n{plain}"
                );
                for word in foreign {
                    assert!(!plain.contains(word), "{region}: {word} in\n{plain}");
                }
            }
        }
    }
}
