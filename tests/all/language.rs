//! What the language promises of plausible text: that it never silently means
//! something else, and what it offers in its place.

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::findings::Finding;
use drylay::model::literal;
use drylay::rules::{self, Family};
use drylay::units::{Quantity, UNITS};

use crate::fixture::{Fixture, applied, note_of};
use crate::folder::Folder;

/// The files of fixtures, by what they are about.
const FILES: &[&str] = &[
    "language/text.md",
    "language/words.md",
    "language/values.md",
    "language/usual.md",
    "language/slips.md",
    "language/names.md",
    "language/sections.md",
    "language/outlines.md",
    "language/levels.md",
    "language/files.md",
    "language/money.md",
    "language/repeats.md",
    "language/setting-out.md",
    "language/drains.md",
    "language/steps.md",
    "language/measured.md",
    "language/work.md",
    "language/water.md",
    "language/otherwise.md",
];

/// Rules of other families that speak of what the text means.
const OF_MEANING: &[&str] = &[
    "cut-idle",
    "level-unclear",
    "levels-disagree",
    "mix-unlabelled",
    "price-unit",
    "sold-unclear",
    "surfaces-overlap",
    "ton-unclear",
];

/// Only what is said of the text itself, and of what it means, counts here.
fn is_of_the_text(finding: &Finding) -> bool {
    OF_MEANING.contains(&finding.rule)
        || rules::find(finding.rule).is_none_or(|rule| rule.family == Family::Text)
}

fn fixtures() -> impl Iterator<Item = Fixture> {
    FILES.iter().flat_map(|file| Fixture::all(file))
}

#[test]
fn every_line_is_told_of_as_it_is_noted() {
    let differences: Vec<String> = fixtures()
        .flat_map(|fixture| fixture.differences(is_of_the_text))
        .collect();
    assert!(differences.is_empty(), "{}", differences.join("\n"));
}

#[test]
fn every_fix_takes_its_finding_away() {
    let mut fixes = 0;
    for fixture in fixtures() {
        let analysis = fixture.analysis();
        for finding in analysis.findings.iter().filter(|one| is_of_the_text(one)) {
            let same = |other: &&Arc<Finding>| other.rule == finding.rule;
            let before = analysis.findings.iter().filter(same).count();
            for fix in &finding.fixes {
                fixes += 1;
                let mut files = fixture.files.clone();
                let text = applied(&analysis, fix);
                files.0.insert(analysis.path.clone(), text.as_str().into());
                let after = files.analysis(&analysis.path);
                let left = after.findings.iter().filter(same).count();
                let note = note_of(&analysis, finding);
                assert!(
                    left < before,
                    "{}: `{}` leaves {note:?} in\n{text}",
                    fixture.title,
                    fix.title
                );
            }
        }
    }
    assert!(fixes > 50, "only {fixes} fixes were tried");
}

#[test]
fn every_unit_is_read_in_all_its_spellings() {
    for unit in UNITS {
        let one = Some(Quantity::one(unit));
        for spelling in std::iter::once(&unit.symbol).chain(unit.spellings) {
            // A capital T is refused: a fixture has it.
            let upper = match *spelling {
                "t" => "t".to_owned(),
                spelling => spelling.to_uppercase(),
            };
            for text in [
                format!("1 {spelling}"),
                format!("1{spelling}"),
                format!("1 {upper}"),
            ] {
                assert_eq!(literal(&text), one, "{text}");
            }
            // A degree is a mark and no word: nothing is sold by it.
            if *spelling == "°" {
                continue;
            }
            let rate = format!("2 kg per {spelling}");
            let slashed = format!("2 kg/{spelling}");
            assert!(literal(&rate).is_some(), "{rate}");
            assert_eq!(literal(&rate), literal(&slashed), "{rate}");
        }
    }
}

/// Each first form, and others that mean the same.
const SAME: &[(&str, &[&str])] = &[
    (
        "12 in",
        &[
            "1 ft",
            "1'",
            "1′",
            "1’",
            "1 foot",
            "12\"",
            "12″",
            "12”",
            "12''",
            "12 INCHES",
        ],
    ),
    (
        "294.5 in",
        &[
            "24' 6 1/2\"",
            "24'-6 1/2\"",
            "24' 6-1/2\"",
            "24' 6½\"",
            "24′ 6½″",
            "24’ 6 1/2”",
            "24’-6½”",
            "24'–6 1/2\"",
            "24 ft 6 1/2 in",
            "24.5 ft + .5 in",
            "25' - 0' 5 1/2\"",
        ],
    ),
    (
        "1.75 m",
        &[
            "1 3/4 m", "1-3/4 m", "1¾ m", "1 ¾ m", "7/4 m", "1,750 mm", "1750mm", "175 cm",
        ],
    ),
    (
        "1 m",
        &[
            "1\u{A0}m",
            "1\u{2009}m",
            "1\u{202F}m",
            "1  m",
            "1\tm",
            "1.0 M",
        ],
    ),
    (
        "2 m",
        &[
            "3 m – 1 m",
            "3 m − 1 m",
            "3 m - 1 m",
            "(3 m - 1 m)",
            "-(1 m - 3 m)",
        ],
    ),
    (
        "-6 in",
        &["–6 in", "−6 in", "-(6 in)", "0 - 6 in", "6 in * -1"],
    ),
    (
        "1:60",
        &[
            "1 m over 60 m",
            "1 m / 60 m",
            "5/3 %",
            "1 ft per 60 ft",
            "0.2 in per ft",
        ],
    ),
    ("2 %", &["1:50", "20 mm per m", "20 mm/m", "2%", "0.02 * 1"]),
    (
        "1/4 in per ft",
        &[
            "1:48",
            "1/4\" per ft",
            "1/4 in / ft",
            "3 in over 12'",
            "¼″ PER FT",
        ],
    ),
    (
        "2000 lb",
        &[
            "1 ton",
            "2,000 lbs",
            "1 TON",
            "907.18474 kg",
            "0.90718474 t",
        ],
    ),
    (
        "150 lb/cu ft",
        &["150 pcf", "150 lb per cu ft", "150 lb/ft3", "150 lb / ft³"],
    ),
    ("$42/ton", &["$42 per ton", "$84/2 per ton", "$ 42 / ton"]),
    ("42 USD", &["42.00 usd", "42USD", "40 USD + 2 USD"]),
    ("40 °F", &["40°F", "40 °f"]),
    ("35°", &["35 deg", "35 °", "35.0°", "35 DEG"]),
    (
        "3.5 in/h",
        &["3.5 in per h", "3.5\"/h", "88.9 mm/h", "3.5 in per hour"],
    ),
];

#[test]
fn forms_that_mean_the_same_are_read_the_same() {
    let meaning = |text: &str| {
        let quantity = literal(text).unwrap_or_else(|| panic!("{text} cannot be read"));
        (quantity.number, quantity.dimension, quantity.currency)
    };
    for (first, others) in SAME {
        for other in *others {
            assert_eq!(meaning(other), meaning(first), "{other} and {first}");
        }
    }
}

/// Rules and lines of what is found, and every figure, as text in small
/// letters.
fn outcome(analysis: &Analysis) -> String {
    let mut outcome = String::new();
    for finding in analysis.findings.iter() {
        let line = analysis.line(finding.place).map(|(_, line)| line);
        outcome += &format!("{line:?} {} {}\n", finding.rule, finding.message);
    }
    for shape in analysis.figures.shapes.iter() {
        outcome += &format!(
            "{} {:?} {:?}\n",
            shape.name, shape.area_m2, shape.perimeter_m
        );
    }
    for order in analysis.figures.orders.iter() {
        outcome += &format!("{} {:?} {:?}\n", order.material, order.needed, order.cost);
    }
    outcome.to_lowercase()
}

/// A change of every spec that changes nothing that it says.
fn changes_nothing(change: impl Fn(&str) -> String) {
    let folder = Folder::of_specs();
    for path in folder.paths() {
        let before = folder.analysis(&path);
        let mut changed = folder.clone();
        let text = change(&folder.text(&path));
        changed.0.insert(path.clone(), text.as_str().into());
        let (before, after) = (outcome(&before), outcome(&changed.analysis(&path)));
        let differ = before
            .lines()
            .zip(after.lines())
            .find(|(one, other)| one != other);
        assert!(before == after, "{path}: {differ:?}");
    }
}

#[test]
fn line_ends_change_nothing() {
    changes_nothing(|text| text.replace('\n', "\r\n"));
    changes_nothing(|text| text.replace('\n', "\r"));
    changes_nothing(|text| {
        let ends = ["\n", "\r\n", "\r"].iter().cycle();
        // A blank keeps a lone CR before an empty line's LF from being one end.
        text.lines()
            .zip(ends)
            .map(|(line, end)| format!("{line} {end}"))
            .collect()
    });
    changes_nothing(|text| text.trim_end().to_owned());
}

#[test]
fn a_byte_order_mark_changes_nothing() {
    changes_nothing(|text| format!("\u{FEFF}{text}"));
}

#[test]
fn the_kind_and_width_of_blanks_change_nothing() {
    changes_nothing(|text| text.replace("\n  ", "\n\t"));
    changes_nothing(|text| text.replace("\n  ", "\n       "));
    changes_nothing(|text| text.replace('\n', "   \n"));
    changes_nothing(|text| {
        let columns = |line: &str| match line.split_once('#') {
            Some(_) => line.to_owned(),
            None if line.contains('"') => line.to_owned(),
            None => line.replace("      ", "\u{A0}\t "),
        };
        text.lines().map(|line| columns(line) + "\n").collect()
    });
}

#[test]
fn words_that_begin_with_a_capital_change_nothing() {
    changes_nothing(|text| {
        let capital = |line: &str| {
            let start = line.len() - line.trim_start().len();
            let first = line
                .get(start..start + 1)
                .unwrap_or_default()
                .to_uppercase();
            let rest = line.get(start + 1..).unwrap_or_default();
            format!("{}{first}{rest}\n", &line[..start])
        };
        text.lines().map(capital).collect()
    });
}

/// Where a clause goes wrong its own form is shown, and not that of its entry.
#[test]
fn what_goes_wrong_is_shown_as_it_is_written() {
    for (entry, help) in [
        (
            "laid stack-bond, along \"x\"",
            "It is written `along EDGE`.",
        ),
        (
            "joint 3 mm, filled with 5 mm",
            "It is written `filled with FILLING`.",
        ),
        ("meets 5 m", "It is written `meets EDGE"),
    ] {
        let text = format!(
            "shape yard\n  rectangle 4 m by 3 m\n\nsurface yard\n  shape yard\n  {entry}\n"
        );
        let analysis =
            Analyser::new().analyse("/a.patio", text.as_str().into(), &NoFiles, "2027-04-12");
        let mut helps = analysis
            .findings
            .iter()
            .filter_map(|own| own.help.as_deref());
        assert!(helps.any(|own| own.starts_with(help)), "{entry}");
    }
}
