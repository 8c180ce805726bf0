//! Completing the rules' examples: a few lines are put into a small sound
//! job, so that an example shows nothing but what it is about.

use std::ops::Range;

/// An example as a whole file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Example {
    /// The text, its marks removed.
    pub text: String,
    /// What stood between the marks, in bytes of the text.
    pub marked: Option<Range<usize>>,
}

/// The sound job, a section a text, in the order of a spec.
const SOUND: &[&str] = &[
    "\
job \"Example court\"
  units        metric
  region       general
  currency     GBP
",
    "\
site
  soil         gravel, firm
  datum        \"hall floor\"
  ground       -200 mm
",
    "\
shape court
  rectangle    6 m by 4 m
",
    "\
surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
",
    "\
build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm
  fabric       geotextile, beyond 150 mm
",
    "\
build mortar-set
  paving       sandstone, 40 mm, waste 10 %
  bond         thin-set, 3 mm
  bed          bed-mix, 40 mm
  slab         slab-mix, 100 mm
  base         crushed-stone, 100 mm compacted, beyond 150 mm
",
    "\
mix bed-mix
  for          bed
  waste        10 %
  parts        1 portland-cement : 4 sharp-sand
  consistency  stiff
",
    "\
mix joint-mix
  for          joint
  waste        10 %
  parts        1 portland-cement : 2 sharp-sand
  consistency  plastic
",
    "\
mix slab-mix
  for          slab
  parts        1 portland-cement : 2 sharp-sand : 4 gravel
",
];

/// The court of a sound job that is laid in mortar.
const COURT_IN_MORTAR: &str = "\
surface court
  shape        court
  meets        north
  level        -160 mm at north
  fall         1:50 away from north
  build        mortar-set
  laid         running-bond, units 300 mm by 600 mm
  joint        10 mm, filled with joint-mix
  isolation-joint 12 mm
  movement-joints every 3 m
  water        to \"planting bed\"
";

/// The sound job for an example: its court is laid in mortar if the example
/// speaks of that build.
fn sound_for(example: &str) -> Vec<&'static str> {
    let is_in_mortar = example.contains("mortar-set");
    let sound = SOUND.iter().copied();
    let chosen = sound.map(|section| match key(section) {
        ("surface", _) if is_in_mortar => COURT_IN_MORTAR,
        _ => section,
    });
    chosen.collect()
}

/// An example put into the sound job.
///
/// A section of the example changes the one of the same kind and name, entry
/// by entry; a comment like `# no fall` leaves an entry out. The rest of the
/// sound job comes in where the example needs it: the job and the site always,
/// the court if the example has no surface, and what is named by what is there.
/// A standard is left as it is.
pub fn complete(example: &str) -> Example {
    let sound = sound_for(example);
    let own = sections(example).into_iter();
    let own: Vec<String> = own.map(|section| changed(section, &sound)).collect();
    let own: Vec<&str> = own.iter().map(String::as_str).collect();
    if own.iter().any(|section| key(section).0 == "standard") {
        return unmarked(example);
    }
    let mut parts: Vec<Option<&str>> = sound
        .iter()
        .map(|sound| {
            own.iter()
                .copied()
                .find(|section| key(section) == key(sound))
        })
        .collect();
    let has_surface = own.iter().any(|section| key(section).0 == "surface");
    loop {
        let so_far: Vec<&str> = own
            .iter()
            .copied()
            .chain(parts.iter().flatten().copied())
            .collect();
        let next = sound
            .iter()
            .zip(&parts)
            .position(|(sound, part)| part.is_none() && is_wanted(sound, has_surface, &so_far));
        let Some(next) = next else { break };
        if let (Some(part), Some(sound)) = (parts.get_mut(next), sound.get(next)) {
            *part = Some(sound);
        }
    }
    let replaces = |section: &&str| sound.iter().any(|sound| key(sound) == key(section));
    let others = own.iter().copied().filter(|section| !replaces(section));
    let whole: Vec<&str> = parts
        .into_iter()
        .flatten()
        .chain(others)
        .map(str::trim_end)
        .collect();
    unmarked(&(whole.join("\n\n") + "\n"))
}

/// What an example says of an entry of the sound job that it does without.
const LEFT_OUT: &str = "# no ";

/// A section of an example as a whole: the sound one, in which each entry of
/// the example stands in the place of those with its key, but never above the
/// entry that it follows in the example.
fn changed(section: &str, sound: &[&str]) -> String {
    let Some(sound) = sound.iter().find(|sound| key(sound) == key(section)) else {
        return section.to_owned();
    };
    let place = |own: &str| entries(sound).position(|line| entry_key(line) == entry_key(own));
    let is_own = |line: &str| entries(section).any(|own| entry_key(own) == entry_key(line));
    let kept = entries(sound).enumerate();
    let mut lines: Vec<(usize, &str)> = kept.filter(|(_, line)| !is_own(line)).collect();
    let mut at = None;
    for own in entries(section) {
        at = at.max(place(own)).or(Some(usize::MAX));
        if !own.trim().starts_with(LEFT_OUT) {
            lines.extend(at.map(|at| (at, own)));
        }
    }
    lines.sort_by_key(|(at, _)| *at);
    let heading = section.lines().next();
    let lines = heading
        .into_iter()
        .chain(lines.into_iter().map(|(_, line)| line));
    lines.map(|line| format!("{line}\n")).collect()
}

fn entries(section: &str) -> impl Iterator<Item = &str> {
    let lines = section.lines().skip(1);
    lines.filter(|line| !line.trim().is_empty())
}

/// The key that an entry starts with, or that it says is left out.
fn entry_key(entry: &str) -> &str {
    let line = entry.trim_start_matches([' ', '«']);
    let line = line.strip_prefix(LEFT_OUT).unwrap_or(line);
    line.split([' ', '«', '»']).next().unwrap_or_default()
}

/// Whether a section of the sound job is needed beside what there is so far.
fn is_wanted(sound: &str, has_surface: bool, so_far: &[&str]) -> bool {
    match key(sound) {
        ("job" | "site", _) => true,
        ("surface", _) => !has_surface,
        (_, name) => so_far.iter().any(|section| names(section, name)),
    }
}

/// Whether a section's entries name something.
fn names(section: &str, name: &str) -> bool {
    let entries = section.lines().skip(1);
    entries
        .flat_map(|line| line.split(|letter: char| !is_of_a_name(letter)))
        .any(|word| word == name)
}

fn is_of_a_name(letter: char) -> bool {
    letter.is_alphanumeric() || letter == '-' || letter == '_'
}

/// The sections of a text, each from its line at the margin to the next.
fn sections(text: &str) -> Vec<&str> {
    let mut starts: Vec<usize> = Vec::new();
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let at_margin = line
            .chars()
            .next()
            .is_some_and(|first| !first.is_whitespace() && first != '#');
        if at_margin {
            starts.push(start);
        }
        start += line.len();
    }
    let ends = starts.iter().skip(1).copied().chain([text.len()]);
    starts
        .iter()
        .zip(ends)
        .filter_map(|(start, end)| text.get(*start..end))
        .collect()
}

/// A section's kind and name; the title of a job counts for none.
fn key(section: &str) -> (&str, &str) {
    let heading = section.lines().next().unwrap_or_default();
    let mut words = heading
        .split([' ', '«', '»', ','])
        .filter(|word| !word.is_empty());
    let kind = words.next().unwrap_or_default();
    let name = words.next().filter(|name| !name.starts_with('"'));
    (kind, name.unwrap_or_default())
}

/// A text without its marks, and where they stood.
fn unmarked(text: &str) -> Example {
    let marks = text.find('«').zip(text.find('»'));
    let marked = marks
        .map(|(open, close)| open..close - '«'.len_utf8())
        .filter(|marked| marked.start <= marked.end);
    Example {
        text: text.replace(['«', '»'], ""),
        marked,
    }
}

/// A text without its marks; under each line that stands between them a
/// comment points at what is marked.
pub fn underlined(text: &str) -> String {
    let mut shown = String::with_capacity(2 * text.len());
    let mut is_open = false;
    for line in text.lines() {
        let (mut plain, mut pointer) = (String::new(), String::new());
        for letter in line.chars() {
            match letter {
                '«' | '»' => is_open = letter == '«',
                letter => {
                    plain.push(letter);
                    pointer.push(if is_open && letter != ' ' { '^' } else { ' ' });
                }
            }
            // What is missing is marked by a place of no width.
            if letter == '»' && pointer.trim().is_empty() {
                pointer.push('^');
            }
        }
        shown.push_str(&plain);
        shown.push('\n');
        let pointer = pointer.trim_end();
        if !pointer.is_empty() {
            // A comment, so that the text stays one that can be read.
            shown.push('#');
            shown.push_str(pointer.get(1..).unwrap_or_default());
            shown.push('\n');
        }
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_marked_place_is_pointed_at() {
        for (text, shown) in [
            ("site\n  soil clay\n", "site\n  soil clay\n"),
            ("  soil «clay», wet", "  soil clay, wet\n#      ^^^^\n"),
            ("«accept lip»\nsite", "accept lip\n#^^^^^ ^^^\nsite\n"),
            ("  fall «»\n", "  fall \n#      ^\n"),
            ("  a «b\n  c» d", "  a b\n#   ^\n  c d\n# ^\n"),
        ] {
            assert_eq!(underlined(text), shown, "{text}");
        }
    }

    fn headings(text: &str) -> Vec<(String, String)> {
        sections(text)
            .into_iter()
            .map(|section| {
                let (kind, name) = key(section);
                (kind.to_owned(), name.to_owned())
            })
            .collect()
    }

    fn kinds(text: &str) -> String {
        let headings = headings(&complete(text).text);
        let words = headings
            .into_iter()
            .map(|(kind, name)| format!("{kind} {name}"));
        words.collect::<Vec<_>>().join(", ")
    }

    #[test]
    fn only_what_is_needed_comes_in() {
        for (example, wanted) in [
            (
                "",
                "job , site , shape court, surface court, build sand-set",
            ),
            (
                "surface court\n  build mortar-set\n",
                "job , site , shape court, surface court, build mortar-set, mix bed-mix, \
                 mix joint-mix, mix slab-mix",
            ),
            (
                "build mortar-set\n  slab slab-mix, 75 mm\n",
                "job , site , shape court, surface court, build mortar-set, mix bed-mix, \
                 mix joint-mix, mix slab-mix",
            ),
            ("surface path\n  shape path\n", "job , site , surface path"),
            (
                "build sand-set\n  paving slate, 40 mm\n",
                "job , site , shape court, surface court, build sand-set",
            ),
            ("standard \"House rules\"\n", "standard "),
        ] {
            assert_eq!(kinds(example), wanted, "{example}");
        }
    }

    #[test]
    fn a_section_changes_the_sound_one_and_keeps_its_mark() {
        let example = complete("site\n  soil «clay», wet\n");
        assert!(example.text.contains("site\n  soil clay, wet\n  datum "));
        assert_eq!(example.text.matches("site").count(), 1);
        assert_eq!(
            example.marked.and_then(|marked| example.text.get(marked)),
            Some("clay")
        );
    }

    #[test]
    fn entries_that_differ_take_the_place_of_the_sound_ones() {
        for (example, wanted) in [
            // In their places, marks and all.
            (
                "surface court\n  level        «-60 mm» at north\n",
                "  meets        north\n  level        -60 mm at north\n  fall         1:50",
            ),
            // What is new comes after what it follows, or last.
            (
                "site\n  floor        20 mm\n",
                "  ground       -200 mm\n  floor        20 mm\n",
            ),
            (
                "site\n  datum        \"sill\"\n  floor        20 mm\n",
                "  datum        \"sill\"\n  floor        20 mm\n  ground       -200 mm\n",
            ),
            // One key, several entries.
            (
                "surface court\n  level        0 mm at north\n  level        1 mm at south\n",
                "  level        0 mm at north\n  level        1 mm at south\n  fall ",
            ),
            // What the example does without is left out.
            (
                "surface court\n  # no meets\n  level        0 mm at north\n",
                "surface court\n  shape        court\n  level        0 mm at north\n  fall ",
            ),
        ] {
            let text = complete(example).text;
            assert!(!example.contains("build") && text.contains("surface court"));
            let build = text.contains(wanted) || format!("{text}\nbuild").contains(wanted);
            assert!(build, "{example}\n{text}");
        }
    }

    #[test]
    fn marks_may_stand_round_a_heading() {
        let example = complete("surface «court»\n  shape court\n");
        assert_eq!(
            example.marked.and_then(|marked| example.text.get(marked)),
            Some("court")
        );
        assert_eq!(complete("let a = 1 m\n").marked, None);
    }
}
