//! Names looked up.

use std::borrow::Cow;
use std::sync::Arc;

use rustc_hash::FxHashMap;

use super::super::job::{FileKind, Stated};
use super::super::reading::{ending_in, held_in, meant, nearest, slip_of};
use super::definitions::{Definition, LogicalSection, twice};
use super::evaluate::Resolver;
use crate::findings::{FileId, Finding, Fix, Place};
use crate::materials::other_names;
use crate::vocabulary::{FREE, Key, NameSpace, ValueKind, is_reserved};

/// So many names are looked at for one that may be meant.
const MOST_NAMES: usize = 1000;

impl<'a> Resolver<'a> {
    /// The section that a name stands for, seen from a file.
    pub(crate) fn look_up(
        &mut self,
        space: NameSpace,
        name: &str,
        place: Place,
        file: FileId,
    ) -> Option<Definition> {
        if let Some(definition) = self.seen(space, name, file) {
            self.done.dependencies.use_name(space, name);
            return Some(definition);
        }
        self.missing_name(space, name, place, file);
        None
    }

    /// The section that a name stands for, seen from a file, if there is one.
    pub(crate) fn seen(&self, space: NameSpace, name: &str, file: FileId) -> Option<Definition> {
        let mut definitions = self.scope.definitions.all(space, name).iter().copied();
        definitions.find(|definition| self.scope.sees(file, definition.file))
    }

    /// Tells that nothing has this name.
    pub(crate) fn missing_name(
        &mut self,
        space: NameSpace,
        name: &str,
        place: Place,
        file: FileId,
    ) {
        self.missing(space, space.noun(), (name, place), file);
    }

    /// The same of what is looked for under a noun of several spaces.
    pub(crate) fn missing(
        &mut self,
        space: NameSpace,
        noun: &str,
        (name, place): (&str, Place),
        file: FileId,
    ) {
        let scope = Arc::clone(&self.scope);
        let definitions = &scope.definitions;
        // It may be defined where nothing could be read.
        if scope.lacks_some(file) || definitions.excused.contains(name) {
            return;
        }
        if name.contains(' ') {
            self.name_in_words(space, name, place);
            return;
        }
        let elsewhere = [
            NameSpace::Lets,
            NameSpace::Shapes,
            NameSpace::Surfaces,
            NameSpace::Builds,
            NameSpace::Drains,
            NameSpace::Substances,
            NameSpace::Steps,
        ]
        .into_iter()
        .find(|other| *other != space && self.seen(*other, name, file).is_some());
        // Among so many none is guessed: it would be done for each of them.
        let known = definitions.names(space).iter().take(MOST_NAMES);
        let mut known: Vec<&str> = known.map(String::as_str).collect();
        let lower = name.to_lowercase();
        // A name of the spec itself is meant before one of the catalogue.
        let is_alike = |own: &&&str| folded(own) == folded(name);
        let alike = known.iter().find(is_alike).copied();
        let is_substance = space == NameSpace::Substances;
        let own = match ending_in(&lower, known.iter().copied()).as_slice() {
            _ if alike.is_some() => alike,
            [] => slip(name, is_substance, &known),
            [only] => Some(*only),
            _ => None,
        };
        if is_substance {
            known.extend(crate::materials::materials().map(|material| material.name));
        }
        let entry = is_substance.then(|| self.entry_at(place)).flatten();
        if entry == Some("edging") && lower == "existing" {
            let message = "what is there already and stays is written `in place`";
            let finding = Finding::new("name-unknown", place, message);
            self.find(finding.fix(Fix::judged("Write `in place`", place, "in place")));
            return;
        }
        let mut kinds: Vec<&str> = other_names(&lower).filter(|_| is_substance).collect();
        if kinds.is_empty() {
            kinds = ending_in(&lower, known.iter().copied());
        }
        if is_substance {
            kinds = suited(kinds, entry);
        }
        let near = match kinds.as_slice() {
            _ if own.is_some() => own,
            [] => slip(name, is_substance, &known)
                .or_else(|| named_last(&lower, entry))
                .or_else(|| held_in(&lower, known.iter().copied())),
            [only] => Some(*only),
            _ => None,
        };
        let spelled = |name| match is_substance {
            true => self.spelled(name),
            false => Cow::Borrowed(name),
        };
        let (near, kinds) = (near.map(spelled), kinds.into_iter().map(spelled));
        let (near, kinds): (_, Vec<Cow<'_, str>>) = (near.as_deref(), kinds.collect());
        let finding = match (elsewhere, near) {
            // `patio`, a surface, where the shape is called `Patio`.
            (Some(other), Some(near)) if near.eq_ignore_ascii_case(name) => Finding::new(
                "name-unknown",
                place,
                format!("`{name}` is {}; {noun} is called `{near}`", other.noun()),
            )
            .fix(Fix::judged(format!("Write `{near}`"), place, near)),
            (Some(other), _) => Finding::new(
                "name-unknown",
                place,
                format!("`{name}` is {} and not {noun}", other.noun()),
            ),
            (None, Some(near)) => Finding::new(
                "name-unknown",
                place,
                format!("nothing defines `{name}`; did you mean `{near}`?"),
            )
            .fix(Fix::judged(format!("Write `{near}`"), place, near)),
            (None, None)
                if space == NameSpace::Lets
                    && let Some(digits) = digits_of(&lower) =>
            {
                let message = format!("a number is written in digits: `{digits}`");
                Finding::new("name-unknown", place, message).fix(Fix::judged(
                    format!("Write `{digits}`"),
                    place,
                    digits,
                ))
            }
            (None, None) if kinds.is_empty() && space == NameSpace::Lets => Finding::new(
                "name-unknown",
                place,
                format!("nothing defines `{name}`: a value is named by `let {name} = …`"),
            ),
            (None, None) if kinds.is_empty() => Finding::new(
                "name-unknown",
                place,
                format!("nothing defines `{name}`, which should be {noun}"),
            ),
            (None, None) => kinds.iter().fold(
                Finding::new(
                    "name-unknown",
                    place,
                    format!("`{name}` may be {}: say which", kinds.join(", ")),
                ),
                |finding, kind| {
                    let fix = Fix::judged(format!("Write `{kind}`"), place, kind.as_ref());
                    finding.fix(fix)
                },
            ),
        };
        // What was meant is used, though it is misspelt here.
        for meant in near.into_iter().chain(kinds.iter().map(Cow::as_ref)) {
            self.done.dependencies.use_name(space, meant);
        }
        self.find(finding);
    }

    /// The key of the entry that a place stands in.
    pub(super) fn entry_at(&self, place: Place) -> Option<&'static str> {
        let file = self.files.get(usize::from(place.section.file.0))?;
        let parts = file.sections.iter().flat_map(LogicalSection::parts);
        let mut parts = parts.filter(|part| part.at == place.section);
        let mut entries = parts.next()?.entries.iter();
        let entry = entries.find(|entry| entry.place.span.overlaps(place.span))?;
        Some(entry.key?.word)
    }

    /// A name whose words stand apart: of those that it may be, the spec's own
    /// comes before the catalogue's.
    fn name_in_words(&mut self, space: NameSpace, name: &str, place: Place) {
        let scope = Arc::clone(&self.scope);
        let mut known = scope.definitions.names(space).iter().take(MOST_NAMES);
        let own = known.find(|own| folded(own) == folded(name));
        let joined = name.replace(' ', "-").to_lowercase();
        let built_in = crate::materials::find(&joined).map(|material| material.name);
        let built_in = built_in.or_else(|| crate::materials::other_name(&joined));
        let (finding, word) = match (own, built_in) {
            (Some(own), _) => {
                let message = format!("a name has hyphens, not spaces: `{own}`");
                let fix = Fix::judged(format!("Write `{own}`"), place, own.as_str());
                let finding = Finding::new("word-stray", place, message).fix(fix);
                (finding, own.as_str())
            }
            (None, Some(word)) => (meant(name, word, place), word),
            (None, None) => return,
        };
        self.done.dependencies.use_name(space, word);
        self.find(finding);
    }

    /// What there is to say of the definitions themselves: names twice, names
    /// that differ only by case, names with a meaning of their own, sections
    /// of which a file has one.
    pub(crate) fn about_names(&self) -> Vec<Finding> {
        let mut found = Vec::new();
        let mut folded: FxHashMap<(NameSpace, String), (&str, Place)> = FxHashMap::default();
        let mut first: FxHashMap<(NameSpace, &str), (Place, FileId)> = FxHashMap::default();
        for (file, input) in (0..).map(FileId).zip(self.files) {
            for section in input.sections.iter() {
                let space = section.kind().and_then(|kind| kind.defines);
                let (Some(space), Some(name)) = (space, section.name()) else {
                    continue;
                };
                if matches!(space, NameSpace::Lets | NameSpace::Substances)
                    && let Some(why) = is_reserved(name.value)
                {
                    found.push(Finding::new(
                        "name-reserved",
                        name.place,
                        format!(
                            "`{}` is {why}, so it cannot be a name: choose another",
                            name.value
                        ),
                    ));
                }
                if space == NameSpace::Shapes {
                    found.extend(called_free(section, &name));
                }
                match first.get(&(space, name.value)) {
                    Some((place, defined_in)) => {
                        let changes = section
                            .entry("like")
                            .and_then(|entry| entry.filled.name("NAME"))
                            .is_some_and(|(like, _)| like == name.value);
                        let own_first = *defined_in == FileId(0) && file != FileId(0);
                        let may_change = changes || (own_first && self.changes_used(name.value));
                        if *defined_in == file || !may_change {
                            let (at, other) = match file {
                                FileId(0) => (name.place, *place),
                                // What is told in a library is told to nobody
                                // here: both are used, so it is told there.
                                _ if *defined_in != FileId(0) && *defined_in != file => {
                                    let at = input.asked_at.unwrap_or(name.place);
                                    let clash = twice(name.value, space.noun(), at, *place);
                                    found.push(clash.related(name.place, "the other one is here"));
                                    continue;
                                }
                                _ => (*place, name.place),
                            };
                            found.push(twice(name.value, space.noun(), at, other));
                        }
                    }
                    None => {
                        first.insert((space, name.value), (name.place, file));
                        let lower = name.value.to_lowercase();
                        match folded.get(&(space, lower.clone())) {
                            Some((other, place)) => found.push(
                                Finding::new(
                                    "name-twice",
                                    name.place,
                                    format!(
                                        "`{}` and `{other}` differ only by case; give one another name",
                                        name.value
                                    ),
                                )
                                .related(*place, "the other one is here"),
                            ),
                            None => {
                                folded.insert((space, lower), (name.value, name.place));
                            }
                        }
                    }
                }
            }
            self.only_one(file, "job", &mut found);
            self.only_one(file, "site", &mut found);
            self.only_one(file, "setting-out", &mut found);
            self.only_one(file, "budget", &mut found);
            self.only_one(file, "standard", &mut found);
        }
        self.only_a_standard(&mut found);
        found
    }

    /// Whether the job's own section of this name says that it changes one of
    /// its own name.
    fn changes_used(&self, name: &str) -> bool {
        self.scope
            .definitions
            .all(NameSpace::Substances, name)
            .iter()
            .filter(|definition| definition.file == FileId(0))
            .filter_map(|definition| self.section(*definition))
            .filter_map(|section| section.entry("like"))
            .filter_map(|entry| entry.filled.name("NAME"))
            .any(|(like, _)| like == name)
    }

    fn only_one(&self, file: FileId, kind: &str, found: &mut Vec<Finding>) {
        let Some(input) = self.files.get(file.0 as usize) else {
            return;
        };
        let mut sections = input.sections.iter().filter(|section| section.is(kind));
        let Some(first) = sections.next() else { return };
        for other in sections {
            found.push(
                Finding::new(
                    "entry-twice",
                    other.word(),
                    format!("this file already has a `{kind}`; the first one counts"),
                )
                .related(first.word(), "the first one is here"),
            );
        }
    }

    /// A standard holds nothing else.
    fn only_a_standard(&self, found: &mut Vec<Finding>) {
        let Some(own) = self.files.first() else {
            return;
        };
        if own.kind != FileKind::Standard {
            return;
        }
        let others = own
            .sections
            .iter()
            .filter(|section| section.kind().is_some() && !section.is("standard"));
        found.extend(others.map(|section| {
            Finding::new(
                "entry-misplaced",
                section.word(),
                "a file with a `standard` holds nothing else; move this to another file",
            )
        }));
    }

    /// Names of the file itself that nothing uses.
    pub(crate) fn unused(&self) -> Vec<Finding> {
        let own = self.files.first().map(|own| own.sections.iter());
        let own = own.into_iter().flatten();
        // What cannot be read is made of something.
        let is_unread = own.clone().any(LogicalSection::is_any_unread);
        let unread = own.clone().flat_map(LogicalSection::entries);
        let unread = unread.filter(|entry| !entry.complete);
        let keys: Vec<&Key> = unread.filter_map(|entry| entry.key).collect();
        let may_be_used = |space: NameSpace| {
            let kind = match space {
                NameSpace::Shapes => ValueKind::Shape,
                NameSpace::Builds => ValueKind::Build,
                _ => return false,
            };
            let takes_one = |key: &&Key| key.slots().any(|(_, own)| own == kind);
            keys.iter().any(takes_one)
        };
        own.filter_map(|section| {
            let space = section.kind()?.defines?;
            let name = section.name()?;
            let reserved = matches!(space, NameSpace::Lets | NameSpace::Substances)
                && is_reserved(name.value).is_some();
            let is_built = matches!(
                space,
                NameSpace::Surfaces | NameSpace::Drains | NameSpace::Steps
            );
            let is_unused =
                !is_built && !reserved && !self.done.dependencies.uses(space, name.value);
            if !is_unused {
                return None;
            }
            let slip = (space == NameSpace::Substances)
                .then(|| self.slip_of_a_built_in(name.clone()))
                .flatten();
            let plain = || {
                let message = format!("nothing uses `{}`: use it or take it out", name.value);
                let is_hidden = is_unread && space == NameSpace::Substances || may_be_used(space);
                (!is_hidden).then(|| Finding::new("name-unused", name.place, message))
            };
            slip.or_else(plain)
        })
        .collect()
    }

    /// `material Crushed-Stone` where `crushed-stone` is used: what the section
    /// says counts for nothing.
    fn slip_of_a_built_in(&self, name: Stated<&str>) -> Option<Finding> {
        let is_used = |own: &&str| self.done.dependencies.uses(NameSpace::Substances, own);
        let built_in = || crate::materials::materials().map(|material| material.name);
        let alike = |own: &&str| folded(own) == folded(name.value);
        let (finding, own) = match built_in().filter(is_used).find(alike) {
            Some(own) => {
                let message = format!(
                    "only the built-in `{own}` is used, and what stands here counts for nothing: \
                     is `{own}` meant?"
                );
                (Finding::new("name-twice", name.place, message), own)
            }
            None => {
                let own = nearest(name.value, built_in().filter(is_used))?;
                let message = format!(
                    "nothing uses `{}`: is the built-in `{own}` meant?",
                    name.value
                );
                (Finding::new("name-unused", name.place, message), own)
            }
        };
        Some(finding.fix(Fix::judged(format!("Write `{own}`"), name.place, own)))
    }
}

/// What there is to say of a shape or an edge of it that is called `free`.
fn called_free(section: &LogicalSection, name: &Stated<&str>) -> Vec<Finding> {
    let edges = section.entries().filter_map(|entry| {
        let own = entry.key.filter(|key| key.word == "edge");
        let own = own.map(|_| &entry.filled);
        let named = entry.clause("named").map(|clause| &clause.filled);
        own.or(named)?.name("NAME")
    });
    let all = edges.chain([(name.value, name.place)]);
    let free = all.filter(|(name, _)| *name == FREE);
    free.map(|(_, place)| {
        let message = "`free` is a small word, so it cannot be a name: `along free` stands for all edges that meet nothing. Choose another";
        Finding::new("name-reserved", place, message)
    })
    .collect()
}

/// The name that another is a slip of; a plain word is none of a material:
/// `sand` does not mean `sandstone`.
fn slip<'n>(name: &str, is_substance: bool, known: &[&'n str]) -> Option<&'n str> {
    let known = known.iter().copied();
    match is_substance {
        true => slip_of(&name.to_lowercase(), known),
        false => nearest(name, known),
    }
}

/// Those of some materials that such an entry usually takes, or all of them if
/// it takes none.
fn suited<'n>(names: Vec<&'n str>, entry: Option<&str>) -> Vec<&'n str> {
    let suits = |name: &&&str| {
        let kind = crate::materials::find(name).map(|material| material.kind);
        kind.and_then(|kind| kind.suits(entry?)) == Some(true)
    };
    let those: Vec<&str> = names.iter().filter(suits).copied().collect();
    match those.is_empty() {
        true => names,
        false => those,
    }
}

/// The material that the last word of a name stands for where its first is
/// another that such an entry does not take: of `bluestone-chips`, `chip-stone`.
fn named_last(name: &str, entry: Option<&str>) -> Option<&'static str> {
    let (first, last) = name.rsplit_once('-')?;
    let suits = |name: &str| crate::materials::find(name)?.kind.suits(entry?);
    let other = crate::materials::other_name(last)?;
    (suits(first) == Some(false) && suits(other) == Some(true)).then_some(other)
}

/// A name without what people write in one way or another: capitals, hyphens
/// and blanks, and an s at its end.
fn folded(name: &str) -> String {
    let letters = name.chars().filter(|letter| letter.is_alphanumeric());
    let folded: String = letters.flat_map(char::to_lowercase).collect();
    match folded.strip_suffix('s') {
        Some(one) => one.to_owned(),
        None => folded,
    }
}

/// The digits of a number that is written out.
fn digits_of(word: &str) -> Option<&'static str> {
    const WORDS: [(&str, &str); 17] = [
        ("half", "1/2"),
        ("third", "1/3"),
        ("quarter", "1/4"),
        ("none", "0"),
        ("nil", "0"),
        ("zero", "0"),
        ("one", "1"),
        ("two", "2"),
        ("three", "3"),
        ("four", "4"),
        ("five", "5"),
        ("six", "6"),
        ("seven", "7"),
        ("eight", "8"),
        ("nine", "9"),
        ("ten", "10"),
        ("twelve", "12"),
    ];
    let found = WORDS.iter().find(|(own, _)| *own == word)?;
    Some(found.1)
}
