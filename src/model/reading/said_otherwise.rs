//! Lines that people write in another way than the language does, each as a
//! whole: `storm 75 mm/h, 5 min`, `task "bench", 4 h, 2 people`. What is
//! offered for one is tried first: nothing else may be wrong with the line then.

use super::literal::literal;
use super::section::{SectionReading, is_error};
use super::source::Source;
use super::trial::found_with;
use super::value::Value;
use super::weekdays::written_out;
use crate::findings::{Finding, Fix};
use crate::syntax::{Item, ItemKind, LineKind};
use crate::text::Span;
use crate::units::Dimension;
use crate::vocabulary::DIRECTIONS;

/// What is longer, in bytes, is not looked at.
const LONGEST: usize = 500;

/// What is shown of a line, in letters, at most.
const MOST_SHOWN: usize = 90;

/// In a kind of section, the words that begin a line, how it goes on, and how
/// that is written. A slot takes a figure of a kind: `{n}` any, `{len}`,
/// `{time}`, `{rain}`, `{share}`, `{slope}`, `{money}`, `{c}` a whole number,
/// `{stay}` so many days; or `{w}` a word or an edge, `{d}` a direction,
/// `{name}` no direction, `{p}` a point, `{weekdays}` days of the week, `{any}`
/// one or more of whatever, `{rest}` what is left. `,?` is a comma or none.
type Way = (&'static str, &'static str, &'static str, &'static str);

/// A way a line, however long.
#[rustfmt::skip]
const WAYS: &[Way] = &[
    ("site", "storm", "{rain} ,? {time} {rest}", "storm {0} for {1}{rest}"),
    ("site", "storm", "{len} in {time} ,? plus|climate|uplift {share}", "storm {0} in {1}, raised {2}"),
    ("site", "storm", "{rain} for {time} ,? plus|climate|uplift {share}", "storm {0} for {1}, raised {2}"),
    ("site", "storm", "{len} in {time} ,? climate change|allowance|factor {share}", "storm {0} in {1}, raised {2}"),
    ("site", "storm", "{rain} for {time} ,? climate change|allowance|factor {share}", "storm {0} for {1}, raised {2}"),
    ("surface", "edging", "{any} ,? on {w} , {len} {rest}", "edging {0}, on {1} {2}{rest}"),
    ("surface", "edging", "{any} ,? on {len} {w} {rest}", "edging {0}, on {2} {1}{rest}"),
    ("surface", "edging", "{any} , bedded|bed|laid|set on|in {w} ,? {len} {rest}", "edging {0}, on {1} {2}{rest}"),
    ("surface", "edging", "{any} , bedded|bed|laid|set on|in {len} {w} {rest}", "edging {0}, on {2} {1}{rest}"),
    ("surface", "edging", "{any} , upstand|raised|proud|projecting|standing|above {len} {rest}", "edging {0}, {1} above{rest}"),
    ("surface", "edging|border", "{any} ,? all round|around {rest}", "{key} {0}, along free{rest}"),
    ("surface", "edging|border", "{any} , along {w} , along {w} {rest}", "{key} {0}, along {1} and {2}{rest}"),
    ("surface", "border", "{any} , double {rest}", "border {0}, 2 courses{rest}"),
    ("surface", "border", "{any} , triple {rest}", "border {0}, 3 courses{rest}"),
    ("surface", "border", "{any} , {len} by {len} {rest}", "border {0}, units {1} by {2}{rest}"),
    ("surface", "border", "{any} , {w} corners {rest}", "border {0}, {1}{rest}"),
    ("surface", "soldier-course|soldiers|header-course|headers", "{w} {rest}", "border {0}, soldier{rest}"),
    ("surface", "laid", "third-bond {rest}", "laid running-bond, offset 1/3{rest}"),
    ("surface", "laid", "quarter-bond {rest}", "laid running-bond, offset 1/4{rest}"),
    ("surface", "laid", "{any} , from {d} {rest}", "laid {0}, along {1}{rest}"),
    ("surface", "laid", "{any} , start|starting|begin|beginning {p} {rest}", "laid {0}, from {1}{rest}"),
    ("surface", "laid", "{any} , start|starting|begin|beginning at {p} {rest}", "laid {0}, from {1}{rest}"),
    ("drain", "filled", "{w} ,? void|voids ratio|space|content|share|fraction {share}", "filled {0}, voids {1}"),
    ("drain", "soakaway", "across {len} by {len} deep {rest}", "soakaway across {0}, {1} deep{rest}"),
    ("drain", "soakaway", "across {len} by {len} {rest}", "soakaway across {0}, {1} deep{rest}"),
    ("drain", "soakaway", "{len} across|diameter|dia by {len} deep {rest}", "soakaway across {0}, {1} deep{rest}"),
    ("work", "task|rate", "{any} , {c} people|men|hands|workers|persons|person {rest}", "{key} {0}, crew {1}{rest}"),
    ("work", "weather|rain", "{stay}", "rain-days {0}"),
    ("work", "day|days", "{weekdays}", "day 8:00 to 16:30, {0}"),
    ("work", "wait", "{time} after laying {rest}", "wait {0} from laying to jointing{rest}"),
    ("work", "wait", "{time} after edging {rest}", "wait {0} from edging to laying{rest}"),
    ("work", "wait", "{time} before jointing {rest}", "wait {0} from laying to jointing{rest}"),
    ("work", "wait", "overnight after laying {rest}", "wait overnight from laying to jointing{rest}"),
    ("budget", "permit|permits|fee|fees|allowance|licence", "{money}", "item \"{key}\" {0}"),
];

/// The same where what was read of the line says something else: it counts for
/// nothing.
#[rustfmt::skip]
const OTHER_MEANING: &[Way] = &[
    ("site", "storm", "{len} ,? {time} {rest}", "storm {0} in {1}{rest}"),
    ("site", "storm", "{time} ,? {rain} {rest}", "storm {1} for {0}{rest}"),
    ("site", "storm", "{time} ,? {len} {rest}", "storm {1} in {0}{rest}"),
    ("surface", "border", "{w} , {w} {rest}", "border {1}, {0}{rest}"),
    ("surface", "fall", "to {w} ,? {slope} {rest}", "fall to {0}, at least {1}{rest}"),
    ("surface", "laid", "courses ,? {len} wide {rest}", "laid courses, units {0} wide{rest}"),
    ("surface", "laid", "courses ,? {len} {rest}", "laid courses, units {0} wide{rest}"),
    ("surface", "laid", "ashlar|random|irregular , units {len} by {len} {share} and {len} by {len} {share} {rest}", "laid ashlar, units {0} by {1} of {2} and {3} by {4} of {5}{rest}"),
    ("surface", "laid", "ashlar|random|irregular , units {len} by {len} {share} and {len} by {len} {share} and {len} by {len} {share} {rest}", "laid ashlar, units {0} by {1} of {2} and {3} by {4} of {5} and {6} by {7} of {8}{rest}"),
    ("surface", "laid", "random|irregular , units {len} by {len} of {share} and {any}", "laid ashlar, units {0} by {1} of {2} and {3}"),
    ("steps", "core", "{w} ,? down to ground|foot|soil|subsoil|earth {rest}", "core {0}, to foot{rest}"),
];

/// What reads as a sum that comes to nothing, and says something else.
#[rustfmt::skip]
const NO_SUM: &[Way] = &[
    ("site", "storm", "{rain} over {time} {rest}", "storm {0} for {1}{rest}"),
    ("site", "storm", "{len} in {time} + {share}", "storm {0} in {1}, raised {2}"),
    ("site", "storm", "{rain} for {time} + {share}", "storm {0} for {1}, raised {2}"),
];

/// What has two meanings, of which no one is the likelier; both are offered.
const TWO_MEANINGS: &[(Way, &str)] = &[(
    (
        "surface",
        "fall",
        "{slope} to|into {name} {rest}",
        "fall to {1}, at least {0}{rest}",
    ),
    "fall {0} toward {1}{rest}",
)];

/// What lacks something that nobody can guess, and what is said of it.
#[rustfmt::skip]
const LACKING: &[Way] = &[
    ("site", "storm", "{n} {n} years|year|yrs|yr {rest}", "how often a storm comes does not say how much rain falls: state how hard or how deep it is, and how long it lasts"),
    ("surface", "border", "{any} , {len} wide {rest}", "a border is as wide as its units make it: state how many courses there are, and the length and width of its units"),
    ("surface", "laid", "{any} , from corner|centre|center|middle|house|wall {rest}", "`from` takes a point, at which a unit has a corner, as in from (0, 0)"),
    ("work", "wait", "{time} after|before {w} {rest}", "a wait lies between two kinds of work: name both, as in wait 24 h from laying to jointing"),
];

/// A piece of a line.
#[derive(Clone, Copy)]
struct Token<'a> {
    span: Span,
    /// None of a comma.
    item: Option<&'a Item>,
}

/// What stands in the slots of a way.
#[derive(Default)]
struct Taken {
    slots: Vec<String>,
    rest: String,
}

impl SectionReading {
    /// Tells of a line with errors that is another way to write one that reads. The line's findings begin at `before`, its entry at
    /// `entries`.
    pub(super) fn said_otherwise(&mut self, source: &Source<'_>, before: usize, entries: usize) {
        let own = self.findings.get(before..).unwrap_or_default();
        let is_entry = source.line.kind == LineKind::Entry && source.text.len() <= LONGEST;
        let Some(kind) = self.kind.filter(|_| is_entry) else {
            return;
        };
        let is_wrong = own.iter().any(is_error);
        if !is_wrong && !may_be_no_sum(kind.word, source) {
            return;
        }
        let tokens = tokens(source);
        let ways = Ways {
            section: self,
            source,
            kind: kind.word,
            tokens: &tokens,
            found: own,
        };
        let Some(told) = ways.told() else {
            return;
        };
        // What stays wrong in the line is told of as it was.
        let is_left = |own: &Finding| told.left.iter().any(|left| is_same(left, own));
        let left: Vec<Finding> = own.iter().filter(|own| is_left(own)).cloned().collect();
        self.findings.truncate(before);
        self.findings.push(told.finding);
        self.findings.extend(left);
        for entry in self.entries.iter_mut().skip(entries) {
            (entry.complete, entry.is_sound) = (false, false);
            if told.means_another {
                let filled = &mut entry.filled.0;
                filled
                    .iter_mut()
                    .for_each(|(_, value, _)| *value = Value::Unreadable);
                entry.clauses.clear();
            }
        }
    }
}

fn is_same(one: &Finding, other: &Finding) -> bool {
    one.rule == other.rule && one.message == other.message
}

/// Whether a line begins as one does that may be no sum.
fn may_be_no_sum(kind: &str, source: &Source<'_>) -> bool {
    let key = source.slice(source.line.word);
    let mut ways = NO_SUM.iter();
    ways.any(|(own, word, ..)| *own == kind && word.eq_ignore_ascii_case(key))
}

/// The items and commas behind the first word of a line.
fn tokens<'a>(source: &Source<'a>) -> Vec<Token<'a>> {
    let line = source.line;
    let items = line.phrases.iter().flat_map(|phrase| &phrase.items);
    let items = items.map(|item| Token {
        span: item.span,
        item: Some(item),
    });
    let commas = line.commas.iter().map(|comma| Token {
        span: *comma,
        item: None,
    });
    let mut tokens: Vec<Token<'a>> = items.chain(commas).collect();
    tokens.sort_by_key(|token| token.span.start);
    tokens
}

/// What is told of a line.
struct Told {
    finding: Finding,
    /// Whether what was read of it means something else.
    means_another: bool,
    /// What else is wrong with it.
    left: Vec<Finding>,
}

impl Told {
    /// Of a line that means something else, and nothing beside.
    fn alone(finding: Finding) -> Told {
        Told {
            finding,
            means_another: true,
            left: Vec::new(),
        }
    }
}

/// A line as it is compared with the ways to write one.
struct Ways<'s, 'a> {
    section: &'s SectionReading,
    source: &'s Source<'a>,
    kind: &'static str,
    tokens: &'s [Token<'a>],
    /// What was found in it.
    found: &'s [Finding],
}

impl Ways<'_, '_> {
    /// What is told of the line.
    fn told(&self) -> Option<Told> {
        let by = |ways: &[Way], means_another: bool| {
            ways.iter().find_map(|way| {
                let text = self.written(way, way.3)?;
                let left = self.left_after(&text)?;
                Some(Told {
                    finding: self.offered(&[text]),
                    means_another,
                    left,
                })
            })
        };
        let no_sum = by(NO_SUM, true);
        if no_sum.is_some() || !self.found.iter().any(is_error) {
            return no_sum;
        }
        let one = by(WAYS, false).or_else(|| by(OTHER_MEANING, true));
        let two = || {
            TWO_MEANINGS.iter().find_map(|(way, other)| {
                let texts = [self.written(way, way.3)?, self.written(way, other)?];
                let reads =
                    |text: &String| self.left_after(text).is_some_and(|left| left.is_empty());
                let finding = texts.iter().all(reads).then(|| self.offered(&texts))?;
                Some(Told::alone(finding))
            })
        };
        let lacking = || {
            let way = LACKING.iter().find(|way| self.written(way, "").is_some())?;
            let place = self.source.place(self.whole());
            Some(Told::alone(Finding::new("word-stray", place, way.3)))
        };
        one.or_else(two).or_else(lacking)
    }

    /// What is left of what was found once the line is written so; nothing if
    /// that is no help, or there is something else then.
    fn left_after(&self, text: &str) -> Option<Vec<Finding>> {
        let left = found_with(self.section, self.source, self.whole(), text)?;
        let is_known = |left: &Finding| self.found.iter().any(|own| is_same(left, own));
        let helps = left.is_empty() || left.len() < self.found.len();
        (helps && left.iter().all(is_known)).then_some(left)
    }

    /// From the word of the line to the last that stands in it.
    fn whole(&self) -> Span {
        let word = self.source.line.word;
        self.tokens.last().map_or(word, |last| word.join(last.span))
    }

    fn offered(&self, texts: &[String]) -> Finding {
        let place = self.source.place(self.whole());
        let message = match texts {
            [one, other] => format!("is `{one}` meant, or `{other}`?"),
            [text, ..] if text.chars().count() <= MOST_SHOWN => {
                format!("this is written `{text}` here")
            }
            _ => "this line is written in another way here".to_owned(),
        };
        let finding = Finding::new("word-stray", place, message);
        texts.iter().fold(finding, |finding, text| {
            finding.fix(Fix::judged(format!("Write `{text}`"), place, text.as_str()))
        })
    }

    /// The line written another way, if it goes that way.
    fn written(&self, (kind, keys, said, _): &Way, written: &str) -> Option<String> {
        let key = self.source.slice(self.source.line.word);
        let is_key = |own: &str| own.eq_ignore_ascii_case(key);
        if *kind != self.kind || !keys.split('|').any(is_key) {
            return None;
        }
        let said: Vec<&str> = said.split(' ').collect();
        let mut taken = Taken::default();
        let after = self.source.line.word.end;
        if !self.goes(&said, self.tokens, after, &mut taken) {
            return None;
        }
        let mut text = written.replace("{key}", key);
        for (index, slot) in taken.slots.iter().enumerate() {
            text = text.replace(&format!("{{{index}}}"), slot);
        }
        Some(text.replace("{rest}", &taken.rest))
    }

    /// Whether tokens go the way of a pattern, the last before them ending at
    /// a place; what its slots take. It calls itself once for each word of the
    /// pattern, and they are few.
    fn goes(&self, said: &[&str], tokens: &[Token<'_>], after: u32, taken: &mut Taken) -> bool {
        let Some((next, said)) = said.split_first() else {
            return tokens.is_empty();
        };
        let first = tokens.first();
        let is_comma = first.is_some_and(|first| first.item.is_none());
        let count = match *next {
            "{rest}" => {
                let end = tokens.last().map_or(after, |last| last.span.end);
                self.source
                    .slice(Span::new(after, end))
                    .clone_into(&mut taken.rest);
                return true;
            }
            "{any}" => {
                for count in 1..=tokens.len() {
                    let Some((own, others)) = tokens.split_at_checked(count) else {
                        return false;
                    };
                    taken.slots.push(self.text_of(own));
                    let end = own.last().map_or(after, |last| last.span.end);
                    if self.goes(said, others, end, taken) {
                        return true;
                    }
                    taken.slots.pop();
                }
                return false;
            }
            ",?" => usize::from(is_comma),
            "," if is_comma => 1,
            "," => return false,
            slot if slot.starts_with('{') => match self.slot(slot, tokens) {
                Some((count, text)) => {
                    taken.slots.push(text);
                    count
                }
                None => return false,
            },
            words => {
                let is_it = |item: &Item| {
                    let written = self.source.slice(item.span);
                    words.split('|').any(|word| {
                        self.source.is_word(item, word) || written.eq_ignore_ascii_case(word)
                    })
                };
                match first.and_then(|first| first.item).is_some_and(is_it) {
                    true => 1,
                    false => return false,
                }
            }
        };
        let Some((own, others)) = tokens.split_at_checked(count) else {
            return false;
        };
        let slots = taken.slots.len();
        let end = own.last().map_or(after, |last| last.span.end);
        let goes = self.goes(said, others, end, taken);
        if !goes && next.starts_with('{') {
            taken.slots.truncate(slots.saturating_sub(1));
        }
        goes
    }

    fn text_of(&self, tokens: &[Token<'_>]) -> String {
        match (tokens.first(), tokens.last()) {
            (Some(first), Some(last)) => self.source.slice(first.span.join(last.span)).to_owned(),
            _ => String::new(),
        }
    }

    /// How many tokens a slot takes, and its text.
    fn slot(&self, slot: &str, tokens: &[Token<'_>]) -> Option<(usize, String)> {
        let item = tokens.first()?.item?;
        let written = self.source.slice(item.span);
        let mut ways = DIRECTIONS.iter();
        let is_direction = ways.any(|(word, _)| word.eq_ignore_ascii_case(written));
        let is_word = matches!(item.kind, ItemKind::Word);
        let is_number = matches!(item.kind, ItemKind::Number { .. });
        let whole = |is_it: bool| is_it.then(|| (1, written.to_owned()));
        match slot {
            "{n}" | "{len}" | "{time}" | "{rain}" | "{share}" | "{slope}" => {
                let count = figure(tokens)?;
                let text = self.text_of(tokens.get(..count)?);
                is_figure(slot, &text).then_some((count, text))
            }
            "{money}" => {
                let has_sign = |kind: &ItemKind| matches!(kind, ItemKind::Number { currency, .. } if currency.is_some());
                whole(has_sign(&item.kind))
            }
            "{c}" => whole(is_number && written.parse::<u32>().is_ok()),
            "{stay}" => {
                let days = written.strip_suffix("days").or(written.strip_suffix("day"));
                let days = days?.trim_end();
                (is_number && days.parse::<u32>().is_ok()).then(|| (1, days.to_owned()))
            }
            "{w}" => whole(is_word || matches!(item.kind, ItemKind::Reference { .. })),
            "{d}" => whole(is_word && is_direction),
            "{name}" => whole(is_word && !is_direction),
            "{p}" => whole(matches!(&item.kind, ItemKind::Group { phrases } if phrases.len() == 2)),
            "{weekdays}" => Some((tokens.len(), written_out(&self.text_of(tokens))?)),
            _ => None,
        }
    }
}

/// How many tokens a figure takes: its sign, its number and what it is for each
/// of.
fn figure(tokens: &[Token<'_>]) -> Option<usize> {
    let kind = |at: usize| tokens.get(at)?.item.map(|item| &item.kind);
    let sign = usize::from(matches!(kind(0), Some(ItemKind::Negative)));
    let is_number = matches!(
        kind(sign),
        Some(ItemKind::Number { .. } | ItemKind::Ratio { .. })
    );
    let after = tokens.iter().skip(sign + 1);
    let per = after.take_while(|token| {
        let kind = token.item.map(|item| &item.kind);
        matches!(kind, Some(ItemKind::Per { .. }))
    });
    is_number.then(|| sign + 1 + per.count())
}

/// Whether a figure is of the kind that a slot takes.
fn is_figure(slot: &str, text: &str) -> bool {
    let value = literal(text);
    let is_of = |dimension: Dimension| value.as_ref().is_some_and(|own| own.dimension == dimension);
    match slot {
        "{len}" => is_of(Dimension::LENGTH),
        "{time}" => is_of(Dimension::TIME),
        "{rain}" => is_of(Dimension::RAINFALL),
        "{share}" => text.ends_with('%'),
        "{slope}" => is_of(Dimension::NONE) && text.parse::<f64>().is_err(),
        _ => true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vocabulary::section;

    /// What is written leads somewhere, and every slot that it takes is there.
    #[test]
    fn every_way_is_of_a_section_and_fills_its_slots() {
        let two = TWO_MEANINGS.iter();
        let two = two.flat_map(|((kind, keys, said, one), other)| {
            [(*kind, *keys, *said, *one), (*kind, *keys, *said, *other)]
        });
        let all = WAYS.iter().chain(OTHER_MEANING).chain(NO_SUM);
        let all = all.copied().chain(two);
        for (kind, keys, said, written) in all {
            let own = section(kind).expect(kind);
            let key = written.split(' ').next().unwrap_or_default();
            match key {
                "{key}" => keys
                    .split('|')
                    .for_each(|key| assert!(own.key(key).is_some())),
                key => assert!(own.key(key).is_some(), "{written}"),
            }
            let taken = said.split(' ').filter(|part| part.starts_with('{'));
            let taken = taken.filter(|part| *part != "{rest}").count();
            for index in 0..9 {
                let is_used = written.contains(&format!("{{{index}}}"));
                assert_eq!(is_used, index < taken, "{said}: {written}");
            }
            assert_eq!(
                said.contains("{rest}"),
                written.contains("{rest}"),
                "{said}"
            );
        }
        for (kind, ..) in LACKING {
            assert!(section(kind).is_some(), "{kind}");
        }
    }
}
