//! What may be written at a place, the most useful first.

mod built;
mod drains;
mod edges;
mod expected;
mod lending;
mod quantities;
mod sections;
mod starters;
mod substances;
mod usual;

pub(crate) use sections::example_of;
pub use starters::{STARTERS, Starter};
pub(crate) use substances::usual as usual_material;

use super::hover;
use super::writing::{Part as Place, Rest, Writing, is_word, writing};
use crate::analysis::Analysis;
use crate::findings::Severity;
use crate::materials;
use crate::rules;
use crate::syntax::ItemKind;
use crate::text::Span;
use crate::units::{UNITS, show};
use crate::vocabulary::{Clause, DIRECTIONS, Form, ValueKind};
use expected::{Expected, expected};

/// What kind of thing is offered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CompletionKind {
    /// A section with its entries.
    Section,
    /// A key.
    Key,
    /// A word of a clause.
    Word,
    /// One of a few words.
    Choice,
    /// A name that the spec defines.
    Name,
    /// A material of the catalogue.
    Catalogue,
    /// An edge.
    Edge,
    /// A unit.
    Unit,
    /// A function.
    Function,
    /// A rule.
    Rule,
}

/// What an offer is about, for its documentation.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub enum About {
    /// Nothing more is known.
    Nothing,
    /// A kind of section.
    Section(String),
    /// A key of a kind of section.
    Key(String, String),
    /// Something that has a name.
    Name(String),
    /// A rule.
    Rule(String),
    /// Help that is at hand.
    Help(String),
}

/// One offer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Completion {
    /// What is shown, and what the begun word is compared with.
    pub label: String,
    /// What kind of thing it is.
    pub kind: CompletionKind,
    /// What to show beside it.
    pub detail: String,
    /// What is put in; with tab stops if `has_stops`.
    pub text: String,
    /// Whether `text` has tab stops: `${1:name}`.
    pub has_stops: bool,
    /// What it is about.
    pub about: About,
}

impl Completion {
    fn new(label: impl Into<String>, kind: CompletionKind, detail: impl Into<String>) -> Self {
        let label = label.into();
        Completion {
            text: label.clone(),
            label,
            kind,
            detail: detail.into(),
            has_stops: false,
            about: About::Nothing,
        }
    }

    fn about(mut self, about: About) -> Self {
        self.about = about;
        self
    }

    /// What is put in where there are no tab stops: each filled in as it
    /// stands.
    pub fn plain_text(&self) -> String {
        if !self.has_stops {
            return self.text.clone();
        }
        let mut plain = String::with_capacity(self.text.len());
        let mut values: Vec<(&str, String)> = Vec::new();
        let mut rest = self.text.as_str();
        while let Some((before, after)) = rest.split_once('$') {
            if let Some(before) = before.strip_suffix('\\') {
                plain.push_str(before);
                plain.push('$');
                rest = after;
                continue;
            }
            plain.push_str(before);
            let (number, stop) = stop_of(after);
            let Some(stop) = stop else {
                // A stop that stands again has the value that it had before.
                let known = values.iter().find(|(own, _)| *own == number);
                plain.push_str(known.map_or("", |(_, value)| value));
                rest = after.strip_prefix(number).unwrap_or(after);
                continue;
            };
            let (value, after) = value_of(stop);
            plain.push_str(&value);
            values.push((number, value));
            rest = after;
        }
        plain.push_str(rest);
        plain
    }
}

/// The number of a tab stop behind its `$`, and what follows that where the
/// stop has a value: `:patio}…`, `|clay,sand|}…`.
fn stop_of(after: &str) -> (&str, Option<&str>) {
    let (inside, is_open) = match after.strip_prefix('{') {
        Some(inside) => (inside, true),
        None => (after, false),
    };
    let digits = inside.len()
        - inside
            .trim_start_matches(|own: char| own.is_ascii_digit())
            .len();
    let (number, rest) = inside.split_at_checked(digits).unwrap_or((inside, ""));
    (number, is_open.then_some(rest))
}

/// The value of a tab stop, of a choice its first, and what follows the stop.
fn value_of(stop: &str) -> (String, &str) {
    let is_choice = stop.starts_with('|');
    let mut value = String::new();
    let mut is_first = true;
    let mut characters = stop.chars();
    characters.next();
    while let Some(character) = characters.next() {
        match character {
            '}' => break,
            ',' | '|' if is_choice => is_first = false,
            _ if !is_first => {}
            '\\' => value.extend(characters.next()),
            _ => value.push(character),
        }
    }
    (value, characters.as_str())
}

/// What is offered at a place, and the begun word that it stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Completions {
    /// What is replaced, in bytes of the checked file.
    pub span: Span,
    /// The offers, the most useful first.
    pub offers: Vec<Completion>,
}

/// What may be written at a byte of the checked file.
pub fn completions(analysis: &Analysis, offset: u32) -> Option<Completions> {
    let writing = writing(analysis, offset)?;
    let mut offers = match &writing.part {
        Place::Margin => [starters::of_empty(analysis), sections::templates(analysis)].concat(),
        Place::Key => sections::keys(analysis, &writing),
        Place::Rest(rest) if rest.is_closed => Vec::new(),
        Place::Rest(rest) => inside(analysis, &writing, rest),
    };
    let mut seen = Vec::new();
    offers.retain(|offer| {
        let is_new = !seen.contains(&offer.label);
        seen.push(offer.label.clone());
        is_new
    });
    Some(Completions {
        span: writing.span,
        offers,
    })
}

/// The documentation of an offer, as Markdown.
pub fn documentation(analysis: &Analysis, about: &About) -> Option<String> {
    match about {
        About::Nothing => None,
        About::Help(help) => Some(help.clone()),
        About::Section(word) => hover::of_section(analysis, word),
        About::Key(section, key) => hover::of_key(analysis, section, key),
        About::Rule(rule) => hover::of_rule(analysis, rule),
        About::Name(name) => {
            let region = analysis.job.heading.region();
            hover::of_name(analysis, name).or_else(|| substances::of_catalogue(name, region))
        }
    }
}

/// What may stand after the first word of a line.
fn inside(analysis: &Analysis, writing: &Writing, rest: &Rest) -> Vec<Completion> {
    match rest.inside.as_deref() {
        Some("area" | "perimeter") => return names(analysis, ValueKind::Shape),
        Some("length") => return edges::of_all_shapes(analysis),
        Some("level") if rest.text.trim_end().ends_with('(') => {
            return quantities::surfaces(analysis);
        }
        Some(_) => return quantities::offers(analysis, ValueKind::Quantity),
        None => {}
    }
    let row = rest.row;
    let mut found = Vec::new();
    if rest.phrase == 0 {
        let form = Form::of(row.value());
        found = expected(&rest.text, &rest.items, &form.parts);
    }
    let mut offers = Vec::new();
    if rest.phrase > 0 {
        for clause in row.clauses() {
            let is_begun = rest.items.first().is_some_and(|first| {
                clause
                    .word()
                    .is_none_or(|word| is_word(&rest.text, first, word))
            });
            let is_used = clause
                .word()
                .is_some_and(|word| rest.before.iter().any(|before| before == word));
            // A clause that starts with a value is known by its place.
            let is_elsewhere = clause.word().is_none() && rest.phrase != 1;
            if is_used
                || is_elsewhere
                || !has_meaning(clause, rest)
                || (!rest.items.is_empty() && !is_begun)
            {
                continue;
            }
            let next = expected(&rest.text, &rest.items, &clause.parsed().parts);
            if let ([Expected::Word(word), ..], true) = (next.as_slice(), rest.items.is_empty()) {
                offers.push(Completion {
                    detail: clause.parsed().shown(),
                    about: About::Help(clause.help.to_owned()),
                    ..Completion::new(*word, CompletionKind::Word, "")
                });
            } else {
                found.extend(next);
            }
        }
    }
    // What a value may be comes before the word that leads to another one.
    found.sort_by_key(|one| matches!(one, Expected::Word(_)));
    let values = found
        .into_iter()
        .flat_map(|one| offered(analysis, writing, rest, one));
    offers.extend(values);
    offers.sort_by_key(|offer| offer.kind == CompletionKind::Function);
    offers
}

/// Whether a clause means anything on a line that begins as this one does.
fn has_meaning(clause: &Clause, rest: &Rest) -> bool {
    let value = rest.text.split(',').next().unwrap_or_default();
    let says = |words: &[&str]| value.split_whitespace().any(|word| words.contains(&word));
    !says(clause.apart) && (clause.beside.is_empty() || says(clause.beside))
}

fn offered(analysis: &Analysis, writing: &Writing, rest: &Rest, one: Expected) -> Vec<Completion> {
    let word = rest.row.word();
    let kind = match one {
        Expected::Word(word) => return vec![Completion::new(word, CompletionKind::Word, "")],
        Expected::OneOf(words) => {
            let about = About::Key(rest.row.kind.word.to_owned(), word.to_owned());
            let words = words.into_iter();
            return words
                .map(|own| Completion::new(own, CompletionKind::Choice, word).about(about.clone()))
                .collect();
        }
        Expected::UnitOf(kind) => return quantities::units(analysis, kind),
        Expected::PerUnit => return all_units(),
        Expected::Value(kind) => kind,
    };
    match kind {
        ValueKind::Drain => drains::but_own(analysis, writing),
        ValueKind::Shape | ValueKind::Build => {
            let mut names = names(analysis, kind);
            // No shape is made of itself.
            names.retain(|name| !is_own_name(analysis, writing, &name.label));
            names
        }
        ValueKind::Material | ValueKind::Substance => {
            // The first part of a mix is what binds it.
            let is_first = !rest.items.iter().any(|item| item.kind == ItemKind::Colon);
            let entry = if word == "parts" && is_first {
                "binder"
            } else {
                word
            };
            substances::offers(analysis, kind == ValueKind::Substance, entry)
        }
        ValueKind::MaterialKind => materials::Kind::ALL
            .iter()
            .map(|kind| Completion::new(kind.word(), CompletionKind::Choice, kind.help()))
            .collect(),
        ValueKind::Edge | ValueKind::Place => edges::of_own_shape(analysis, writing),
        ValueKind::SurfaceEdge => edges::of_all_surfaces(analysis),
        ValueKind::Surface => quantities::surfaces(analysis),
        ValueKind::Built => built::offers(analysis),
        ValueKind::Heading => [directions(), edges::of_own_shape(analysis, writing)].concat(),
        ValueKind::Direction => directions(),
        ValueKind::Unit => all_units(),
        ValueKind::Rule => rule_names(analysis),
        ValueKind::Word if word == "limit" => rows_of_rule(rest),
        ValueKind::Word if word == "currency" => usual::currencies(analysis),
        kind if kind.is_quantity() => usual::with_figures(analysis, rest, kind),
        _ => Vec::new(),
    }
}

/// Whether a shape with this name is the one being written.
fn is_own_name(analysis: &Analysis, writing: &Writing, name: &str) -> bool {
    let shape = analysis.job.shapes.get(name);
    shape.is_some_and(|shape| Some(shape.section) == writing.section)
}

/// The shapes or the builds, each with its figure.
fn names(analysis: &Analysis, kind: ValueKind) -> Vec<Completion> {
    let system = analysis.job.heading.system();
    let named = |name: &str, detail: String| {
        let about = About::Name(name.to_owned());
        Completion::new(name, CompletionKind::Name, detail).about(about)
    };
    if kind == ValueKind::Build {
        let builds = analysis.job.builds.iter();
        return builds
            .map(|(name, build)| {
                let depth = build.depth_m();
                let deep = depth.map(|depth| show::length(depth, system) + " deep");
                named(name, deep.unwrap_or_default())
            })
            .chain(lending::lent(analysis, &["build"]))
            .collect();
    }
    let shapes = analysis.job.shapes.keys();
    shapes
        .map(|name| {
            let area = analysis.figures.shape(name).and_then(|own| own.area_m2);
            let area = area.map(|area| show::area(area, system));
            named(name, area.unwrap_or_default())
        })
        .chain(lending::lent(analysis, &["shape"]))
        .collect()
}

fn directions() -> Vec<Completion> {
    let words = DIRECTIONS.iter().map(|(word, _)| *word).chain(["bearing"]);
    words
        .map(|word| Completion::new(word, CompletionKind::Choice, "a direction of the plan"))
        .collect()
}

fn all_units() -> Vec<Completion> {
    let symbols = UNITS.iter().map(|unit| unit.symbol).chain(["each"]);
    symbols
        .map(|symbol| Completion::new(symbol, CompletionKind::Unit, ""))
        .collect()
}

/// The rows of the rule whose limit is being set.
fn rows_of_rule(rest: &Rest) -> Vec<Completion> {
    let named = rest.items.first().map(|item| item.span.slice(&rest.text));
    let rule = named.and_then(rules::find);
    let limits = rule.map(|rule| rule.limits.iter()).into_iter().flatten();
    limits
        .filter(|limit| limit.row != "plain")
        .map(|limit| Completion::new(limit.row, CompletionKind::Choice, limit.of))
        .collect()
}

/// The rules, those that have found something here first.
fn rule_names(analysis: &Analysis) -> Vec<Completion> {
    let mut offers: Vec<(bool, Completion)> = rules::all()
        .map(|rule| {
            let found = analysis.findings.iter().any(|finding| {
                finding.rule == rule.name
                    && finding.accepted.is_none()
                    && finding.severity != Some(Severity::Error)
            });
            let offer = Completion::new(rule.name, CompletionKind::Rule, rule.looks_at);
            let about = About::Rule(rule.name.to_owned());
            (!found, offer.about(about))
        })
        .collect();
    offers.sort_by_key(|(elsewhere, _)| *elsewhere);
    offers.into_iter().map(|(_, offer)| offer).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{COURT, analysed, marked};

    /// What is offered at the mark.
    fn at(text: &str) -> Vec<Completion> {
        let (text, offset) = marked(text);
        completions(&analysed(&text), offset).map_or(Vec::new(), |found| found.offers)
    }

    /// The small job with a line in place of another.
    fn court(old: &str, new: &str) -> String {
        assert!(COURT.contains(old), "{old}");
        COURT.replacen(old, new, 1)
    }

    #[test]
    fn what_belongs_at_a_place_comes_first() {
        let mut wrong = Vec::new();
        for (old, new, first) in [
            ("let gap", "¦\nlet gap", &["site", "use", "shape"][..]),
            ("  shape        court", "  ¦", &["shape", "for", "level"]),
            ("  shape        court", "  shape ¦", &["court"]),
            ("units        metric", "units ¦", &["imperial", "metric"]),
            ("units        metric", "currency ¦", &["EUR", "USD", "GBP"]),
            ("1:50 away from quay", "¦", &["1:50", "gap"]),
            ("  meets        quay", "  meets ¦", &["quay"]),
            ("  meets        quay", "  meets quay ¦", &["and"]),
            ("at quay\n", "at ¦\n", &["quay"]),
            ("1:50 away from quay", "1:50 ¦", &["away", "toward"]),
            (
                "1:50 away from quay",
                "2 ¦",
                &["%", "mm per m", "in per ft"],
            ),
            ("1:50 away from quay", "1:50 away from q¦", &["quay"]),
            ("1:50 away from quay", "1:50 toward ¦", &["north", "east"]),
            ("build        sand-set", "build sa¦", &["sand-set"]),
            ("laid         running", "laid r¦", &["irregular"]),
            ("units 100 mm by 200 mm", "units 100 ¦", &["mm", "cm", "m"]),
            ("units 100 mm by 200 mm", "units 100 m¦ ((", &["mm"]),
            ("units 100 mm by 200 mm", "units 100 mm ¦", &["by"]),
            ("3 mm, filled with joint-sand", "¦", &["gap"]),
            (
                "3 mm, filled with joint-sand",
                "3 mm, ¦",
                &["depth", "filled"],
            ),
            ("3 mm, filled with joint-sand", "3 mm, filled ¦", &["with"]),
            (
                "3 mm, filled with joint-sand",
                "3 mm, filled with ¦",
                &["joint-sand"],
            ),
            ("bed-mix, 40 mm", "¦, 40 mm", &["bed-mix"]),
            (
                "150 mm compacted, lifts 2",
                "150 mm ¦",
                &["compacted", "loose"],
            ),
            (
                "150 mm compacted, lifts 2",
                "150 mm, lifts 2, ¦",
                &["compacted", "beyond"],
            ),
            (
                "150 mm compacted, lifts 2",
                "¦",
                &["compacted", "lifts", "gap"],
            ),
            (
                "1 portland-cement : 4 sharp-sand",
                "1 ¦",
                &["portland-cement"],
            ),
            ("consistency  dry", "consistency ¦", &["dry", "stiff"]),
            ("sold         by t", "sold by ¦", &["in", "ft"]),
            ("price        €30/t", "price €30/¦", &["in", "ft"]),
            ("price        €30/t", "kind ¦", &["concrete-paver"]),
            ("let gap = 2 * 5 mm", "let gap = area(¦", &["court"]),
            ("let gap = 2 * 5 mm", "let gap = length(¦", &["court.quay"]),
            ("let gap = 2 * 5 mm", "let gap = level(¦", &["court"]),
        ] {
            let offers = at(&court(old, new));
            let labels: Vec<&str> = offers.iter().map(|offer| offer.label.as_str()).collect();
            let are_there = first.iter().all(|label| labels.contains(label));
            if !are_there || labels.first() != first.first() {
                wrong.push(format!("{new}: {first:?} of {labels:?}"));
            }
        }
        assert!(wrong.is_empty(), "{wrong:#?}");
    }

    #[test]
    fn nothing_is_offered_where_nothing_is_known() {
        for (old, new) in [
            ("# As measured", "# As ¦measured"),
            ("job \"Boat", "job \"B¦oat"),
            ("units 100 mm by", "units 100¦ mm by"),
            ("shape court", "shape co¦urt"),
            ("  shape        court", "  shepe ¦"),
        ] {
            assert_eq!(at(&court(old, new)), [], "{new}");
        }
    }

    #[test]
    fn a_limit_is_of_a_row_of_its_rule() {
        let offers = at("standard \"S\"\n  limit base-thin ¦");
        let labels: Vec<&str> = offers.iter().map(|offer| offer.label.as_str()).collect();
        assert!(labels.starts_with(&["foot"]), "{labels:?}");
        let offers = at("shape a\n  rectangle 3 m by 3 m\n\nshape b\n  add ¦");
        let labels: Vec<&str> = offers.iter().map(|offer| offer.label.as_str()).collect();
        assert_eq!(labels, ["a"], "no shape is made of itself");
    }

    #[test]
    fn what_is_written_is_not_offered_again() {
        let keys = at(&court("  shape        court", "  shape court\n  ¦"));
        let keys: Vec<&str> = keys.iter().map(|offer| offer.label.as_str()).collect();
        assert!(
            !keys.contains(&"shape") && keys.contains(&"level"),
            "{keys:?}"
        );
        let clauses = at(&court("lifts 2, beyond", "lifts 2, ¦ beyond"));
        assert!(clauses.iter().all(|clause| clause.label != "lifts"));
    }

    #[test]
    fn a_material_tells_its_density_and_price_and_a_rule_its_findings() {
        let offers = at(&court("hard-stone, 150", "¦, 150"));
        let stone = offers.iter().find(|offer| offer.label == "hard-stone");
        let stone = stone.expect("the spec's own material");
        assert!(
            stone.detail.contains("2,000 kg/m³") && stone.detail.contains("€30"),
            "{stone:?}"
        );
        let flat = court("1:50", "1:400") + "\naccept ¦\n";
        let (text, offset) = marked(&flat);
        let found: Vec<String> = completions(&analysed(&text), offset)
            .expect("offers")
            .offers
            .into_iter()
            .map(|offer| offer.label)
            .collect();
        let fall = found.iter().position(|label| label == "fall-flat");
        assert!(fall.is_some_and(|place| place < 12), "{found:?}");
    }

    #[test]
    fn a_template_is_a_section_that_reads_without_a_mistake() {
        for offer in at("¦") {
            let plain = offer.plain_text() + "\n";
            let analysis = analysed(&plain);
            let misread = analysis.findings.iter().find(|finding| {
                ["word-unknown", "word-stray", "entry-missing"].contains(&finding.rule)
            });
            assert!(misread.is_none(), "{plain}\n{misread:?}");
            assert!(offer.has_stops || offer.label == "site", "{plain}");
        }
    }

    #[test]
    fn every_offer_can_tell_what_it_is_about() {
        for (old, new) in [
            ("let gap", "¦\nlet gap"),
            ("  shape        court", "  ¦"),
            ("bed-mix, 40 mm", "¦, 40 mm"),
            ("  level", "  accept ¦\n  level"),
        ] {
            let (text, offset) = marked(&court(old, new));
            let analysis = analysed(&text);
            for offer in completions(&analysis, offset).expect("offers").offers {
                assert!(
                    documentation(&analysis, &offer.about).is_some(),
                    "{offer:?}"
                );
            }
        }
    }
}
