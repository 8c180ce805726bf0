//! One section of a file, read against the vocabulary.

use std::sync::Arc;

use super::entry::{Row, read_entry};
use super::fault;
use super::lost_headings::{Above, lost_heading};
use super::other_keys::{
    clause_of_others, entry_at_margin, height_of_riser, key_called, key_in_other_number,
    key_in_two, key_meant, material_as_key, material_before_figure, material_in_words,
    meant_by_heading, name_before_key, square, title_without_job, two_readings, word_before_key,
};
use super::source::{Source, apart, meant};
use super::spoken_lines::level_behind_point;
use super::suggest::{as_many_as_are_read, slip_of};
use super::trial::keep_what_helps;
use super::value::Entry;
use super::winds::wind_as_key;
use crate::findings::{FileId, Finding, Fix, Place, SectionRef, Severity};
use crate::syntax::{ItemKind, Line, LineKind, Placed};
use crate::text::{Span, capital};
use crate::units::System;
use crate::vocabulary::{SECTIONS, SectionKind, other_word, section};

/// So many faults of a line are told: one with more is no line of a spec, and
/// each is looked for in the whole of it.
const MOST_TOLD: usize = 20;

/// What a section says.
#[derive(Debug, Clone)]
pub struct SectionReading {
    /// Which section it is.
    pub at: SectionRef,
    /// Its kind; `None` if that is unknown or it has no heading.
    pub kind: Option<&'static SectionKind>,
    /// Whether it goes on with the section above it: its first line had lost
    /// its indent.
    pub continues: bool,
    /// Whether it has a heading whose kind could not be made out.
    pub has_lost_heading: bool,
    /// For a section of unknown kind, the name that it would have defined.
    pub unknown_name: Option<String>,
    /// The heading.
    pub heading: Option<Entry>,
    /// The word of the heading, or the section's start.
    pub word: Place,
    /// The entries, in order.
    pub entries: Vec<Entry>,
    /// Whether a line says something that could not be made out at all, so that
    /// what seems to be missing may be there.
    pub has_lost_line: bool,
    /// What was found.
    pub findings: Vec<Finding>,
    /// Whether the next entry stands no deeper than the line that is read.
    goes_on_beside: bool,
    /// Where units are written that mean different things in different
    /// places: `ton`, `gal`.
    pub unclear_units: Vec<(String, Place)>,
    /// The system in which the section's first length is written.
    pub first_length: Option<System>,
}

/// Reads a section. `text` is the section's text, `in_force` the kind of the
/// section above it.
pub fn read_section(
    text: &str,
    placed: &Placed,
    file: FileId,
    in_force: Option<&'static SectionKind>,
) -> SectionReading {
    read(text, placed, file, (in_force, false), true)
}

/// Reads an entry of the section above, of the kind `in_force`, that has lost
/// its indent, though its word could start a section.
pub fn read_lost_entry(
    text: &str,
    placed: &Placed,
    file: FileId,
    in_force: Option<&'static SectionKind>,
) -> SectionReading {
    read(text, placed, file, (in_force, true), true)
}

/// What [`read_section`] reads, but fixes are offered whether they help or not.
pub(crate) fn read_untried(
    text: &str,
    placed: &Placed,
    file: FileId,
    in_force: Option<&'static SectionKind>,
) -> SectionReading {
    read(text, placed, file, (in_force, false), false)
}

fn read(
    text: &str,
    placed: &Placed,
    file: FileId,
    (in_force, is_entry): (Option<&'static SectionKind>, bool),
    tries_fixes: bool,
) -> SectionReading {
    let at = SectionRef {
        file,
        section: placed.id,
    };
    let mut reading = SectionReading {
        at,
        kind: None,
        continues: is_entry,
        has_lost_heading: false,
        unknown_name: None,
        heading: None,
        word: Place {
            section: at,
            span: Span::at(0),
        },
        entries: Vec::new(),
        has_lost_line: false,
        findings: Vec::new(),
        goes_on_beside: false,
        unclear_units: Vec::new(),
        first_length: None,
    };
    let mut headless = true;
    let lines = &placed.section.lines;
    let is_alone = !lines.iter().any(|(_, line)| line.kind == LineKind::Entry);
    for (index, (start, line)) in lines.iter().enumerate() {
        // Not of blank lines, of which there may be many.
        if matches!(line.kind, LineKind::Heading | LineKind::Entry) {
            let mut after = lines.iter().skip(index + 1);
            let next = after.find(|(_, line)| line.kind == LineKind::Entry);
            reading.goes_on_beside =
                next.is_some_and(|(_, next)| next.word.start <= line.word.start);
        }
        let end = start.saturating_add(line.length);
        let source = Source {
            at,
            start: *start,
            text: Span::new(*start, end).slice(text),
            line,
        };
        let before = reading.findings.len();
        let entries = reading.entries.len();
        match line.kind {
            LineKind::Blank | LineKind::Comment => {}
            LineKind::Unread => reading.has_lost_line = true,
            LineKind::Heading => {
                headless = false;
                reading.heading(&source, in_force, is_alone);
            }
            LineKind::Entry => {
                if let Some(lost) = reading.lost_heading(&source, lines.iter().skip(index), text) {
                    reading.findings.push(lost);
                    reading.has_lost_line = true;
                    break;
                }
                reading.entry(&source, headless);
            }
        }
        reading.faults(&source, before);
        let reported = reading.findings.get(before..).unwrap_or_default();
        let is_sound = !reported.iter().any(is_error);
        // At the margin an acceptance is a heading and an entry in one.
        let is_accept = reading.kind.is_some_and(|kind| kind.word == "accept");
        let alone = reading.heading.iter_mut().filter(|_| is_accept);
        for entry in reading.entries.iter_mut().skip(entries).chain(alone) {
            entry.is_sound &= is_sound;
        }
        if tries_fixes {
            reading.said_otherwise(&source, before, entries);
            reading.try_fixes(&source, before);
        }
        reading.note_units(&source);
    }
    reading.entries.shrink_to_fit();
    reading.findings.shrink_to_fit();
    reading
}

/// The kind that is in force after a section, `in_force` being the one above
/// it: the section's own, or the same where its heading is an entry that has
/// lost its indent.
pub fn kind_after(
    text: &str,
    placed: &Placed,
    in_force: Option<&'static SectionKind>,
) -> Option<&'static SectionKind> {
    let (start, line) = placed.section.heading()?;
    let word = line.word.shift(start).slice(text);
    let lines = &placed.section.lines;
    let is_alone = !lines.iter().any(|(_, line)| line.kind == LineKind::Entry);
    // A line alone whose word is unknown ends nothing.
    let goes_on = |kind: &&SectionKind| kind.key(word).is_some() || is_alone;
    section(word)
        .or_else(|| meant_by_heading(word, line, is_alone))
        .or_else(|| in_force.filter(goes_on))
}

/// Whether a finding of the reading says that a line may mean something else
/// than was read: all but those on commas and comments that change nothing.
pub(super) fn is_error(finding: &Finding) -> bool {
    match finding.severity {
        Some(severity) => severity == Severity::Error,
        None => !matches!(finding.rule, "comma-stray" | "comment-unclear"),
    }
}

impl SectionReading {
    /// Whether the section's kind is this one.
    pub fn is(&self, kind: &str) -> bool {
        self.kind.is_some_and(|own| own.word == kind)
    }

    /// Tells of a line's faults, but not of those inside a number of which a
    /// finding tells already: `2027-4-12`. The line's own findings begin at
    /// `before`.
    fn faults(&mut self, source: &Source<'_>, before: usize) {
        if source.line.faults.is_empty() {
            return;
        }
        let reported = self.findings.get(before..).unwrap_or_default();
        let is_told = |fault: &Finding| {
            reported.iter().any(|finding| {
                let (whole, part) = (finding.place.span, fault.place.span);
                ["number-unclear", "word-unknown"].contains(&finding.rule)
                    && whole.start <= part.start
                    && part.end <= whole.end
            })
        };
        let faults: Vec<Finding> = source
            .line
            .faults
            .iter()
            .take(MOST_TOLD)
            .map(|found| fault::finding(source, found))
            .filter(|fault| !is_told(fault))
            .collect();
        self.findings.splice(before..before, faults);
    }

    /// Tries what is offered for a minus that may mean several things, and for
    /// words that do not belong or are missing.
    fn try_fixes(&mut self, source: &Source<'_>, before: usize) {
        let is_tried = |finding: &Finding| {
            let rules = ["minus-unclear", "word-stray", "entry-missing"];
            rules.contains(&finding.rule) && !finding.fixes.is_empty()
        };
        let own = self.findings.get(before..).unwrap_or_default();
        if !own.iter().any(is_tried) {
            return;
        }
        let known = own.to_vec();
        let mut tried = known.clone();
        for finding in tried.iter_mut().filter(|finding| is_tried(finding)) {
            keep_what_helps(self, source, &known, finding);
        }
        self.findings.truncate(before);
        self.findings.extend(tried);
    }

    /// `is_alone` where no line stands under it.
    fn heading(
        &mut self,
        source: &Source<'_>,
        in_force: Option<&'static SectionKind>,
        is_alone: bool,
    ) {
        let word = source.slice(source.line.word);
        self.word = source.place(source.line.word);
        self.bullet(source);
        if let Some(kind) = section(word).filter(|_| !self.continues) {
            self.kind = Some(kind);
            let row = Row {
                key: None,
                word: kind.word,
                value: kind.heading,
                clauses: kind.clauses,
            };
            self.heading = Some(read_entry(source, row, &mut self.findings));
            return;
        }
        if let Some(kind) = meant_by_heading(word, source.line, is_alone) {
            self.kind = Some(kind);
            self.findings.push(meant(word, kind.word, self.word));
            let row = Row {
                key: None,
                word: kind.word,
                value: kind.heading,
                clauses: kind.clauses,
            };
            self.heading = Some(read_entry(source, row, &mut self.findings));
            return;
        }
        if let Some(kind) = in_force.filter(|kind| kind.key(word).is_some()) {
            self.kind = Some(kind);
            self.continues = true;
            self.findings.push(
                Finding::new(
                    "entry-misplaced",
                    self.word,
                    format!(
                        "`{word}` has lost its indent; it is read as an entry of the {} above",
                        kind.noun()
                    ),
                )
                .severity(Severity::Warning)
                .fix(Fix::safe("Indent it", self.word.start(), "  ")),
            );
            self.entry(source, false);
            return;
        }
        self.has_lost_heading = true;
        self.unknown_name = source
            .line
            .phrases
            .first()
            .and_then(|phrase| phrase.items.first())
            .filter(|item| item.kind == ItemKind::Word)
            .map(|item| source.name(item.span));
        let lower = word.to_lowercase();
        let title = title_without_job(source).filter(|_| in_force.is_none());
        let other = other_word("", &lower);
        // `Patio for the neighbours` is no surface of that name.
        let is_title = title.is_some() && other.is_none_or(|kind| kind == "surface");
        let told = match (title, other) {
            (Some(finding), _) if is_title => Some(finding),
            (_, Some(kind)) => Some(meant(word, kind, self.word)),
            _ => None,
        };
        if let Some(finding) = told {
            self.findings.push(finding);
            return;
        }
        let kinds = SECTIONS.iter().map(|kind| kind.word);
        if let Some((kind, whole)) = source.in_two(source.line.word, source.first(), kinds.clone())
        {
            self.findings.push(apart(kind, whole));
            return;
        }
        if let Some(finding) = entry_at_margin(word, self.word) {
            self.findings.push(finding);
            return;
        }
        let finding = Finding::new(
            "word-unknown",
            self.word,
            match slip_of(&lower, kinds.clone()) {
                Some(near) => format!("`{word}` is not a kind of section; did you mean `{near}`?"),
                None => format!(
                    "`{word}` is not a kind of section, and not an entry of the section above"
                ),
            },
        );
        self.findings.push(match slip_of(&lower, kinds.clone()) {
            Some(near) => finding.fix(Fix::judged(format!("Write `{near}`"), self.word, near)),
            None => finding.help(format!(
                "A section is one of {}.",
                kinds.collect::<Vec<_>>().join(", ")
            )),
        });
    }

    /// Tells that from a line on the heading of another section is missing.
    fn lost_heading<'t>(
        &self,
        source: &Source<'_>,
        lines: impl Iterator<Item = &'t (u32, Arc<Line>)> + Clone,
        text: &str,
    ) -> Option<Finding> {
        let heading = self.heading.as_ref();
        let named = heading.and_then(|heading| heading.filled.name("NAME"));
        let above = Above {
            kind: self.kind,
            name: named.map(|(name, _)| name),
        };
        if self.has_lost_heading {
            return None;
        }
        lost_heading(lines, text, &above, source.place(source.line.word))
    }

    fn entry(&mut self, source: &Source<'_>, headless: bool) {
        let word = source.slice(source.line.word);
        let place = source.place(source.line.word);
        if !self.continues || source.line.kind == LineKind::Entry {
            self.bullet(source);
        }
        let Some(kind) = self.kind else {
            if headless && section(word).is_none() {
                self.findings.push(Finding::new(
                    "entry-misplaced",
                    place,
                    format!("`{word}` belongs to no section"),
                ));
            } else if headless {
                self.at_margin(source, word, place);
            }
            return;
        };
        let own = kind.key(word);
        let lower = word.to_lowercase();
        let instead = || height_of_riser(kind.word, &lower, source);
        let in_another_order = || level_behind_point(kind, &lower, source);
        if let Some(finding) = key_in_two(kind, source)
            .or_else(instead)
            .or_else(in_another_order)
        {
            self.has_lost_line = true;
            self.findings.push(finding);
            return;
        }
        // Every limit hangs on the region, and what it is called is not in doubt.
        let other = || other_word(kind.word, &word.to_lowercase()).and_then(|own| kind.key(own));
        if let Some(key) = own.or_else(|| other().filter(|key| key.word == "region")) {
            if own.is_none() {
                self.findings.push(meant(word, key.word, place));
            }
            let row = Row {
                key: Some(key),
                word: key.word,
                value: key.value,
                clauses: key.clauses,
            };
            let entry = read_entry(source, row, &mut self.findings);
            // `tread 350 mm` may be the going.
            self.has_lost_line |= key.word == "tread" && !entry.complete;
            self.entries.push(entry);
            return;
        }
        if section(word).is_some() {
            match key_meant(kind.word, &lower, source) {
                Some(key) => {
                    self.has_lost_line = true;
                    self.findings.push(meant(word, key, place));
                }
                None => self.at_margin(source, word, place),
            }
            return;
        }
        let elsewhere: Vec<&str> = SECTIONS
            .iter()
            .filter(|other| other.key(word).is_some())
            .map(|other| other.noun())
            .collect();
        // `units` in a material is its `unit`, whatever it is in a job.
        if let Some(key) = key_in_other_number(kind, &lower).filter(|_| !elsewhere.is_empty()) {
            self.has_lost_line = true;
            self.findings.push(meant(word, key.word, place));
            return;
        }
        // What has a word of its own here is told that word.
        if !elsewhere.is_empty() && other_word(kind.word, &lower).is_none() {
            self.findings.push(Finding::new(
                "entry-misplaced",
                place,
                format!(
                    "`{word}` belongs in a {} and not in {}",
                    elsewhere.join(" or "),
                    kind.thing()
                ),
            ));
            return;
        }
        self.has_lost_line = true;
        let keys = kind.keys.iter().map(|key| key.word);
        if let Some((key, whole)) = source.in_two(source.line.word, source.first(), keys.clone()) {
            self.findings.push(apart(key, whole));
            return;
        }
        if let Some(finding) = self
            .clause_as_line(source, &lower)
            .or_else(|| word_before_key(kind, source, &lower, place))
            .or_else(|| name_before_key(kind, source))
            .or_else(|| material_in_words(kind, source))
            .or_else(|| two_readings(kind.word, &lower, word, place))
            .or_else(|| square(kind.word, &lower, source))
            .or_else(|| wind_as_key(kind, source))
            .or_else(|| material_before_figure(kind, source))
            .or_else(|| Some(key_called(word, other_word(kind.word, &lower)?, place)))
            .or_else(|| material_as_key(kind, source))
        {
            self.findings.push(finding);
            return;
        }
        if let Some(finding) = clause_of_others(kind, &lower, place) {
            self.findings.push(finding);
            return;
        }
        let near = slip_of(&lower, keys.clone());
        let finding = Finding::new(
            "word-unknown",
            place,
            match near {
                Some(near) => {
                    format!(
                        "`{word}` is not an entry of {}; did you mean `{near}`?",
                        kind.thing()
                    )
                }
                None => format!("`{word}` is not an entry of {}", kind.thing()),
            },
        );
        self.findings.push(match near {
            Some(near) => finding.fix(Fix::judged(format!("Write `{near}`"), place, near)),
            None if kind.keys.is_empty() => {
                finding.help(format!("A `{}` has no entries under it.", kind.word))
            }
            None => finding.help(format!(
                "{} may have {}.",
                capital(&kind.thing()),
                as_many_as_are_read(keys)
            )),
        });
    }

    /// `cross 1 % toward east` on a line of its own: a clause of the entry
    /// above it.
    fn clause_as_line(&self, source: &Source<'_>, word: &str) -> Option<Finding> {
        let above = self.entries.last()?;
        let key = above.key?;
        let mut clauses = key.clauses.iter().filter_map(|clause| clause.word());
        let is_next = above.line.span.end == source.start;
        if !is_next || !clauses.any(|clause| clause == word) {
            return None;
        }
        let place = source.place(source.line.word);
        let message = format!(
            "`{word}` says more of `{}`, and stands on its line",
            key.word
        );
        let finding = Finding::new("entry-misplaced", place, message);
        // A comment between the two would take in what follows it.
        let line_end = above.line.span.end.saturating_sub(above.place.span.end);
        Some(match line_end <= 2 {
            true => {
                let between = Place {
                    span: Span::new(above.place.span.end, place.span.start),
                    ..place
                };
                finding.fix(Fix::judged("Write it on that line", between, ", "))
            }
            false => finding,
        })
    }

    /// A section kind that is indented.
    fn at_margin(&mut self, source: &Source<'_>, word: &str, place: Place) {
        let indent = source.place(Span::new(0, source.line.word.start));
        let has_entries = section(word).is_some_and(|kind| !kind.keys.is_empty());
        let finding = Finding::new(
            "entry-misplaced",
            place,
            format!("`{word}` starts a section, and must stand at the margin"),
        );
        // At the margin it would take what follows it out of this section.
        let is_within = self.kind.is_some() && self.goes_on_beside;
        self.findings.push(match has_entries && is_within {
            true => finding,
            false => finding.fix(Fix::judged("Move it to the margin", indent, "")),
        });
    }

    /// A bullet before the first word.
    fn bullet(&mut self, source: &Source<'_>) {
        let before = Span::new(source.line.indent.end, source.line.word.start);
        let bullet = before.slice(source.text).trim();
        if bullet.is_empty() || bullet == "\u{FEFF}" {
            return;
        }
        let place = source.place(Span::new(
            before.start,
            before.start.saturating_add(bullet.len() as u32),
        ));
        self.findings.push(
            Finding::new(
                "word-stray",
                place,
                format!("an entry needs no `{bullet}` before it"),
            )
            .severity(Severity::Warning)
            .fix(Fix::safe(
                format!("Take out the `{bullet}`"),
                source.place(before),
                "",
            )),
        );
    }
}
