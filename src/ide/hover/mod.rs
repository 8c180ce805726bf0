//! What is known of the place under the pointer, as Markdown.

mod as_built;
mod builds;
mod comments;
mod drains;
mod findings;
mod help;
mod layers;
mod materials;
mod mixes;
mod money;
mod names;
mod numbers;
mod pictures;
mod rules;
mod shapes;
mod steps;
mod surfaces;
mod work;
mod workings;

pub(crate) use numbers::in_both_systems;
pub use pictures::picture;

use super::cursor::Cursor;
use super::markdown::paragraphs;
use crate::analysis::Analysis;
use crate::findings::{FileId, Finding};
use crate::quantities::FigureRef;
use crate::text::Span;
use crate::vocabulary::section;

/// What is shown for a place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hover {
    /// What it is about, in bytes of the checked file.
    pub span: Span,
    /// What is known of it.
    pub markdown: String,
}

/// What is known of a place of the checked file: the findings there, what
/// the word means, and the figures of what it names. The message of a finding
/// that `is_told`, because the editor shows it there itself, is left out.
pub fn hover(
    analysis: &Analysis,
    offset: u32,
    is_told: &dyn Fn(&Finding) -> bool,
) -> Option<Hover> {
    let file = analysis.files.first()?;
    let cursor = Cursor::at(file, FileId(0), offset)?;
    let (found, found_span) = findings::at(analysis, offset, is_told);
    let (span, about) = about(analysis, &cursor).unwrap_or((found_span, Vec::new()));
    let markdown = match (found.is_empty(), paragraphs(about)) {
        (false, about) if !about.is_empty() => format!("{}\n\n---\n\n{about}", paragraphs(found)),
        (false, _) => paragraphs(found),
        (true, about) => about,
    };
    (!markdown.is_empty()).then_some(Hover { span, markdown })
}

/// What a kind of section means.
pub(crate) fn of_section(analysis: &Analysis, word: &str) -> Option<String> {
    Some(help::section(analysis, section(word)?))
}

/// What a key means; the word of a section kind stands for its heading.
pub(crate) fn of_key(analysis: &Analysis, kind: &str, word: &str) -> Option<String> {
    let kind = section(kind)?;
    Some(match kind.key(word) {
        Some(key) => help::key(analysis, kind, key),
        None => help::section(analysis, kind),
    })
}

/// What a rule looks at, with its limits.
pub(crate) fn of_rule(analysis: &Analysis, name: &str) -> Option<String> {
    rules::card(analysis, name)
}

/// How a figure was worked out.
pub(crate) fn of_figure(analysis: &Analysis, of: FigureRef) -> Option<String> {
    workings::card(analysis, of)
}

/// What bears a name.
pub(crate) fn of_name(analysis: &Analysis, name: &str) -> Option<String> {
    names::anywhere(analysis, name)
}

/// What the word under the pointer is about, and where it stands.
fn about(analysis: &Analysis, cursor: &Cursor<'_>) -> Option<(Span, Vec<String>)> {
    if cursor.is_on_word() {
        let span = cursor.in_file(cursor.line.word);
        if let Some(kind) = cursor.heading() {
            let named = names::defined_by(analysis, cursor);
            let costs = money::cards(analysis, cursor);
            let flights = steps::cards(analysis, cursor);
            let built = as_built::cards(analysis, cursor);
            let times = work::cards(analysis, cursor);
            let known = named.into_iter().chain(costs).chain(flights);
            let known = known.chain(built).chain(times);
            return Some((span, known.chain([help::section(analysis, kind)]).collect()));
        }
        let key = cursor.key()?;
        let mut parts: Vec<String> = comments::above_entry(cursor, analysis)
            .into_iter()
            .collect();
        parts.extend(layers::cards(analysis, cursor));
        parts.extend(surfaces::of_line(analysis, cursor));
        parts.extend(money::cards(analysis, cursor));
        parts.extend(drains::cards(analysis, cursor));
        parts.extend(steps::cards(analysis, cursor));
        parts.extend(as_built::cards(analysis, cursor));
        parts.extend(work::cards(analysis, cursor));
        parts.extend(shapes::edges_of_line(analysis, cursor));
        parts.push(help::key(analysis, cursor.kind?, key));
        return Some((span, parts));
    }
    let (number, phrase) = cursor.phrase()?;
    let mut about = Vec::new();
    let mut span = phrase.span;
    if let Some(item) = cursor.item() {
        let known = names::known_by(analysis, cursor, item);
        if !known.is_empty() {
            return Some((cursor.in_file(item.span), known));
        }
        if let Some((own, number)) = numbers::card(cursor, item) {
            about.push(number);
            span = own;
        }
    }
    if about.is_empty() {
        about = shapes::edges_of_line(analysis, cursor);
    }
    about.extend(surfaces::of_line(analysis, cursor));
    let help = help::clause(cursor, number, phrase).or_else(|| {
        let value = (number == 0).then(|| cursor.key()).flatten();
        Some(help::key(analysis, cursor.kind?, value?))
    });
    about.extend(help);
    (!about.is_empty()).then(|| (cursor.in_file(span), about))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{COURT, analysed};

    /// What is known where `marked`, a part of the text, has its `¦`.
    fn at(text: &str, marked: &str) -> Option<Hover> {
        let (before, after) = marked.split_once('¦').unwrap();
        let found = text.find(&format!("{before}{after}")).unwrap();
        hover(&analysed(text), (found + before.len()) as u32, &unaccepted)
    }

    /// An editor shows what nobody has accepted.
    fn unaccepted(finding: &Finding) -> bool {
        finding.accepted.is_none()
    }

    fn says(text: &str, marked: &str, parts: &[&str]) {
        let hover = at(text, marked).unwrap_or_else(|| panic!("nothing at {marked}"));
        for part in parts {
            assert!(
                hover.markdown.contains(part),
                "{marked}: {part}\n{}",
                hover.markdown
            );
        }
    }

    #[test]
    fn words_of_the_language_are_explained() {
        for (marked, parts) in [
            (
                "sur¦face court",
                &["**surface** · a section", "```patio"][..],
            ),
            ("  fa¦ll ", &["**fall** · in a `surface`", "fall (SLOPE"]),
            ("lif¦ts 2", &["`lifts COUNT` · a clause of `base`"]),
            ("150 m¦m compacted", &["THICKNESS"]),
            ("units m¦etric", &["**units** · in a `job`"]),
        ] {
            says(
                &COURT.replace("units        metric", "units metric"),
                marked,
                parts,
            );
        }
    }

    #[test]
    fn a_line_of_a_surface_shows_what_it_comes_to() {
        for (marked, parts) in [
            ("  fa¦ll ", &["**fall** · in a `surface`", "drop"][..]),
            ("1:5¦0 away", &["drop"]),
            ("  lev¦el ", &["highest"]),
            ("  joi¦nt ", &["joint"]),
            ("  la¦id ", &["units"]),
        ] {
            says(COURT, marked, parts);
        }
    }

    #[test]
    fn examples_are_in_the_units_and_money_of_the_job() {
        says(COURT, "  lev¦el ", &["level -150 mm at wall"]);
        let imperial = COURT.replace("units        metric", "units        imperial");
        says(&imperial, "  lev¦el ", &["level -6 in at wall"]);
    }

    #[test]
    fn names_are_shown_with_their_figures() {
        for (marked, parts) in [
            (
                "shape co¦urt\n  start",
                &[
                    "**court** · a shape",
                    "24 m²",
                    "As measured on site.",
                    "edge `quay`",
                ][..],
            ),
            (
                "surface cou¦rt",
                &["**court** · a surface", "24 m²", "2 % (1:50)"],
            ),
            ("shape        c¦ourt", &["**court** · a shape"]),
            (
                "build        sand¦-set",
                &["**sand-set** · a build, 250 mm deep", "base"],
            ),
            ("let g¦ap", &["**gap** = 10 mm · a let"]),
            (
                "away from q¦uay",
                &[
                    "an edge of `court`, 6 m long",
                    "| 6 m straight | east | east |",
                    "| level of `court` | -150 mm | -150 mm |",
                ],
            ),
            (
                "  sou¦th ",
                &[
                    "**south** · an edge of `court`, 4 m long",
                    "| level of `court` | -150 mm | -230 mm |",
                ],
            ),
            ("named q¦uay", &["**quay** · an edge of `court`"]),
            ("20¦0 mm\n  joint", &["**200 mm** = 7 7/8\""]),
            (
                "base         hard¦-stone",
                &[
                    "**hard-stone** · a material",
                    "2,000 kg/m³",
                    "line 40",
                    "price",
                ],
            ),
            (
                "paving       conc¦rete-paver",
                &["**concrete-paver** · a material", "catalogue"],
            ),
        ] {
            says(COURT, marked, parts);
        }
    }

    #[test]
    fn a_layer_shows_its_working() {
        says(
            COURT,
            "  ba¦se ",
            &[
                "**base of court**",
                "Rolled twice.",
                "2,000 kg/m³ (line 39)",
                "= **7.63 t**",
            ],
        );
    }

    #[test]
    fn a_finding_shows_its_limit_and_whose_it_is() {
        let flat = COURT.replace("1:50", "1:400");
        says(
            &flat,
            "1:4¦00",
            &["**warning** · `fall-flat`", "- limit: ", "- source: "],
        );
        let accepted = flat.replace(
            "build        sand-set",
            "accept       fall-flat, because \"it is covered\"\n  build        sand-set",
        );
        says(
            &accepted,
            "1:4¦00",
            &[
                "**accepted warning** · `fall-flat`",
                "Accepted: it is covered",
            ],
        );
        says(
            &accepted,
            "accept       fall¦-flat",
            &["**fall-flat** · warning", "| limit | value | from |"],
        );
    }

    #[test]
    fn a_rule_is_explained_wherever_it_is_named() {
        let flat = COURT.replace("1:50", "1:400");
        let accepted = flat.replace(
            "build        sand-set",
            "accept       fall-flat, because \"it is covered\"\n  build        sand-set",
        );
        let standard = "standard \"House\"\n  limit  fall-flat 1:70\n  raise  lip to error\n  \
            off    care-dust, because \"our form\"\n  firm   fall-steep\n";
        for (text, marked, rule) in [
            (flat.as_str(), "1:4¦00", "fall-flat"),
            (&accepted, "accept       fall¦-flat", "fall-flat"),
            (standard, "fall¦-flat", "fall-flat"),
            (standard, "li¦p", "lip"),
            (standard, "care¦-dust", "care-dust"),
            (standard, "fall¦-steep", "fall-steep"),
        ] {
            let rule = crate::rules::find(rule).unwrap();
            let breaks = crate::rules::underlined(rule.breaks);
            let mut parts = vec![rule.looks_at, rule.reason, rule.remedy, breaks.trim_end()];
            parts.extend(rule.limits.iter().map(|limit| limit.of));
            says(text, marked, &parts);
        }
        for (marked, part) in [
            ("fall¦-flat", "| at least 1:70 | line 2, instead of 1:80 |"),
            ("li¦p", "Error instead of warning, by line 3."),
            (
                "care¦-dust",
                "Switched off by line 4, because \"our form\".",
            ),
            ("fall¦-steep", "Held firm by line 5."),
        ] {
            says(standard, marked, &[part]);
        }
    }

    #[test]
    fn several_findings_at_one_place_are_told_briefly() {
        // The cautions of a job come together at its title.
        for (text, marked, several) in [
            (COURT.to_owned(), "\"Boat ho¦use court\"", true),
            (COURT.replace("1:50", "1:400"), "1:4¦00", false),
        ] {
            let shown = at(&text, marked).unwrap().markdown;
            assert_eq!(shown.matches("** · `").count() > 1, several, "{shown}");
            assert_eq!(shown.contains("Breaks it:"), !several, "{shown}");
        }
    }

    #[test]
    fn what_the_editor_tells_is_not_said_again() {
        let flat = COURT.replace("1:50", "1:400");
        let accepted = flat.replace(
            "build        sand-set",
            "accept       fall-flat, because \"it is covered\"\n  build        sand-set",
        );
        let offset = |text: &str| text.find("1:400").unwrap() as u32;
        for (text, is_told, says) in [
            (&flat, true, false),
            (&flat, false, true),
            (&accepted, false, true),
        ] {
            let analysis = analysed(text);
            let finding = analysis.findings.iter().find(|own| own.rule == "fall-flat");
            let message = &finding.unwrap().message;
            let shown = hover(&analysis, offset(text), &|_| is_told).unwrap();
            assert_eq!(
                shown.markdown.contains(&**message),
                says,
                "{}",
                shown.markdown
            );
        }
        assert!(!at(&flat, "1:4¦00").unwrap().markdown.contains("is flatter"));
    }

    #[test]
    fn the_span_is_the_word_itself() {
        let hover = at(COURT, "build        sand¦-set").unwrap();
        assert_eq!(hover.span.slice(COURT), "sand-set");
    }

    #[test]
    fn nothing_is_made_up() {
        for marked in ["\n¦\nlet gap", "# The co¦urt"] {
            assert_eq!(at(COURT, marked), None, "{marked}");
        }
        for offset in 0..COURT.len() as u32 + 3 {
            hover(&analysed(COURT), offset, &unaccepted);
        }
    }
}
