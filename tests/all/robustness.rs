//! Texts that nobody would write: the analysis gives what it can, never
//! panics, never hangs, and after an edit knows what a fresh one knows.
//!
//! `DRYLAY_CASES=50 cargo test --release --test all robustness` makes a long
//! run of it.

use std::fmt::Write;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, Files, NoFiles};
use drylay::findings::Place;

use crate::fixture::applied;
use crate::folder::{Folder, TODAY};
use crate::random::{Random, cases};
use crate::same::{figures, ground};
use crate::vocabulary::piece;
use drylay::text::Text;

const PATH: &str = "/specs/trial.patio";

/// Pieces that a text may have come by through a slip or with bad intent.
const NASTY: &[&str] = &[
    "(",
    ")",
    "((((((((",
    "min(",
    "\"",
    "\\",
    "“",
    "#",
    "#57",
    ",",
    ",,",
    ":",
    "=",
    "-",
    "--",
    " -6 in",
    "×",
    "x",
    "%",
    "°",
    "½",
    "'",
    "''",
    "\u{0}",
    "\u{FEFF}",
    "\u{202E}",
    "e\u{301}",
    "🧱",
    "ß",
    "\r",
    "\r\n",
    "\n",
    "\n\n  ",
    "\t",
    "\u{A0}",
    "0",
    "0 m",
    "-1 m",
    "1:0",
    "1/0",
    "999999999999999 m",
    "9999999999999999999999",
    "0.000000000000001 mm",
    "1 kg",
    "1 in 60",
    "1,5 m",
    "per",
    "over",
    "and",
    "away from",
    "toward bearing 400°",
    "beyond 100 m",
    "surface",
    "shape",
    "\nshape court\n  cut court\n",
    "\nlet a = a\n",
    "\nuse \"trial.patio\"\n",
    "\nuse \"../../../etc/passwd\"\n",
    "\naccept fall-flat\n",
    "\njob \"again\"\n",
    "\nstandard \"x\"\n",
];

/// A text with one change, at a place and of a kind that chance settles.
fn changed(random: &mut Random, text: &str) -> String {
    let mut lines: Vec<&str> = text.split_inclusive('\n').collect();
    let line = random.below(lines.len());
    let at = floor(text, random.below(text.len() + 1));
    match random.below(8) {
        0 if !lines.is_empty() => {
            lines.remove(line);
        }
        1 if !lines.is_empty() => lines.insert(line, lines[line]),
        2 if lines.len() > 1 => {
            let other = random.below(lines.len());
            lines.swap(line, other);
        }
        3 if lines.len() > 1 => {
            let moved = lines.remove(line);
            lines.insert(random.below(lines.len() + 1), moved);
        }
        4 => {
            // A few characters are taken out.
            let end = floor(text, (at + 1 + random.below(6)).min(text.len()));
            return format!("{}{}", &text[..at], &text[end.max(at)..]);
        }
        5 => {
            let end = floor(text, (at + 4).min(text.len())).max(at);
            let other = char::from_u32(random.below(0x250) as u32).unwrap_or('?');
            return format!("{}{other}{}", &text[..at], &text[end..]);
        }
        _ => return format!("{}{}{}", &text[..at], piece(random, NASTY), &text[at..]),
    }
    lines.concat()
}

/// The nearest place before that is between two characters.
fn floor(text: &str, at: usize) -> usize {
    (0..=at)
        .rev()
        .find(|at| text.is_char_boundary(*at))
        .unwrap_or(0)
}

/// Everything that is known, as text: with places as they stand in the files.
pub fn known(analysis: &Analysis) -> String {
    let place = |place: Place| {
        let (file, span) = analysis.span(place).expect("a place stands in a file");
        let whole = analysis.files[file].tree.text.len();
        assert!(span.end as usize <= whole, "a place is beyond its text");
        format!("{file}:{}..{}", span.start, span.end)
    };
    let mut known = String::new();
    for finding in analysis.findings.iter() {
        let _ = writeln!(
            known,
            "{} {:?} {} {} {:?} {:?} {:?}",
            place(finding.place),
            finding.severity,
            finding.rule,
            finding.message,
            finding.help,
            finding.measured().found,
            finding.measured().limit,
        );
        for related in &finding.related {
            let _ = writeln!(known, "  {} {}", place(related.place), related.message);
        }
        for fix in &finding.fixes {
            for change in &fix.changes {
                let _ = writeln!(
                    known,
                    "  {} {:?} {}",
                    place(change.place),
                    change.text,
                    fix.title
                );
            }
        }
        if let Some(accepted) = &finding.accepted {
            let _ = writeln!(known, "  {} {}", place(accepted.place), accepted.reason);
        }
    }
    for (name, _, figure) in figures(analysis).into_iter().chain(ground(analysis)) {
        let _ = writeln!(known, "{name} {figure:?}");
    }
    for order in analysis.figures.orders.iter() {
        let _ = writeln!(
            known,
            "{} {:?} {:?}",
            order.material, order.ordered, order.cost
        );
    }
    known
}

/// Looks at all that must hold of a text whatever it says; the analyser has
/// seen other texts of this path before.
fn holds(analyser: &mut Analyser, path: &str, text: &str, files: &dyn Files, random: &mut Random) {
    let analysis = analyser.analyse(path, Text::from(text), files, TODAY);
    assert_eq!(analysis.own_text(), text, "the tree is not the text");
    let tree: String = analysis.files[0].tree.to_text();
    assert_eq!(tree, text, "the lines do not add up to the text");
    let fresh = Analyser::new().analyse(path, Text::from(text), files, TODAY);
    let (kept, anew) = (known(&analysis), known(&fresh));
    let apart = kept
        .lines()
        .zip(anew.lines())
        .find(|(one, other)| one != other);
    assert!(
        kept == anew,
        "an edit leaves other knowledge than a fresh look: {apart:?}"
    );
    let fixes: Vec<_> = fresh
        .findings
        .iter()
        .flat_map(|finding| finding.fixes.iter().map(move |fix| (finding, fix)))
        .collect();
    for (finding, fix) in &fixes {
        let mended = applied(&fresh, fix);
        // Every safe one is tried, and now and then another.
        if !fix.safe && !random.once_in(4) {
            continue;
        }
        let after = Analyser::new().analyse(path, Text::from(mended.as_str()), files, TODAY);
        known(&after);
        // A safe one leaves one fewer of its kind, or none at its place.
        let alike = |analysis: &Analysis| -> Vec<_> {
            let findings = analysis.findings.iter();
            findings
                .filter(|other| other.rule == finding.rule && other.message == finding.message)
                .map(|other| analysis.span(other.place))
                .collect()
        };
        let (before, left) = (alike(&fresh), alike(&after));
        let is_gone = left.len() < before.len() || !left.contains(&fresh.span(finding.place));
        assert!(
            !fix.safe || is_gone,
            "`{}` leaves {}: {}\n{mended}",
            fix.title,
            finding.rule,
            finding.message,
        );
    }
}

/// Does something with a text, and shows the text if that panics.
fn shown_if_it_fails(text: &str, act: impl FnOnce()) {
    if let Err(panic) = catch_unwind(AssertUnwindSafe(act)) {
        let message = panic.downcast_ref::<String>().cloned().or_else(|| {
            panic
                .downcast_ref::<&str>()
                .map(|&message| message.to_owned())
        });
        panic!("{}\n--- in\n{text}\n---", message.unwrap_or_default());
    }
}

// Takes over ten seconds: each spec is changed many times, and looked at from
// end to end each time.
#[test]
fn specs_may_be_changed_in_any_way() {
    let folder = Folder::of_specs();
    for path in folder.paths() {
        let mut random = Random::new(&path);
        for _ in 0..cases(3) {
            let mut analyser = Analyser::new();
            let mut text = folder.text(&path).to_string();
            for _ in 0..8 {
                text = changed(&mut random, &text);
                let now = text.clone();
                shown_if_it_fails(&now, || {
                    holds(&mut analyser, &path, &now, &folder, &mut random);
                });
            }
        }
    }
}

#[test]
fn any_bytes_may_come() {
    let mut random = Random::new("bytes");
    let mut analyser = Analyser::new();
    for _ in 0..cases(40) {
        let length = random.below(1500);
        let bytes: Vec<u8> = (0..length)
            .map(|_| match random.below(4) {
                0 => random.next() as u8,
                1 => *random.pick(b"\n  \t,.:()\"'#-/"),
                _ => (32 + random.below(95)) as u8,
            })
            .collect();
        let text = String::from_utf8_lossy(&bytes).into_owned();
        shown_if_it_fails(&text, || {
            holds(&mut analyser, PATH, &text, &NoFiles, &mut random)
        });
    }
}

/// Sound words in no sound order, which reach further than bytes do.
#[test]
fn any_words_may_come() {
    let folder = Folder::of_specs();
    let words: Vec<String> = folder
        .paths()
        .iter()
        .flat_map(|path| {
            let text = folder.text(path);
            text.split(' ').map(str::to_owned).collect::<Vec<_>>()
        })
        .collect();
    let mut random = Random::new("words");
    let mut analyser = Analyser::new();
    for _ in 0..cases(40) {
        let mut text = String::new();
        for _ in 0..random.below(150) {
            let word: &String = random.pick(&words);
            let gap: &&str = random.pick(&[" ", " ", ", ", "\n", "\n  ", ""]);
            text += word;
            text += gap;
        }
        shown_if_it_fails(&text, || {
            holds(&mut analyser, PATH, &text, &NoFiles, &mut random)
        });
    }
}

/// What is known of a text too large to be looked at more than once.
fn survives(text: String) -> Arc<Analysis> {
    let length = text.len();
    let analysis = Analyser::new().analyse(PATH, Text::from(text), &NoFiles, TODAY);
    assert_eq!(analysis.own_text().len(), length);
    for finding in analysis.findings.iter() {
        assert!(analysis.span(finding.place).is_some());
    }
    analysis
}

/// On the least stack that any thread has.
#[test]
fn definitions_may_extend_themselves_without_end() {
    survives("material slab\n  like slab\n  waste 5 %\n\n".repeat(1_100));
    let job = "job \"Yard\"\n\nshape yard\n  rectangle 6 m by 4 m\n\n\
               material slab\n  like slab\n\nbuild set\n  paving slab, 50 mm\n\n";
    survives(job.repeat(800));
    let chain: String = (0..2_000)
        .map(|number| format!("material m-{number}\n  like m-{}\n\n", number + 1))
        .collect();
    survives(chain);
}

#[test]
fn a_line_of_nothing_but_signs_is_told_a_few_times() {
    let analysis = survives(format!("let a = {}\n", "- ".repeat(20_000)));
    assert!(analysis.findings.iter().count() < 50);
}

fn rules(analysis: &Analysis) -> Vec<&'static str> {
    let mut rules: Vec<_> = analysis
        .findings
        .iter()
        .map(|finding| finding.rule)
        .collect();
    rules.sort_unstable();
    rules.dedup();
    rules
}

#[test]
fn parentheses_may_stand_ten_thousand_deep() {
    for (open, close) in [("(", ")"), ("min(", ")"), ("-(", ")"), ("(", ""), ("", ")")] {
        let deep = format!(
            "let a = {}1 m{}\n",
            open.repeat(10_000),
            close.repeat(10_000)
        );
        let analysis = survives(deep);
        assert!(!analysis.findings.is_empty());
    }
    let parted = "let a = (\n".to_owned() + &"  (\n".repeat(10_000);
    assert!(!survives(parted).findings.is_empty());
}

#[test]
fn expressions_may_be_long() {
    let sum = "1 m + ".repeat(10_000) + "1 m";
    assert_eq!(rules(&survives(format!("let a = {sum}\n"))), [""; 0]);
    let signs = "- ".repeat(10_000) + "1 m";
    survives(format!("let a = {signs}\n"));
    survives(format!("let a = {}1 m\n", "-".repeat(10_000)));
    survives(format!("let a = {}\n", "2 * ".repeat(10_000) + "1 m"));
    survives(format!("let a = 1 m{}\n", " / 7".repeat(10_000)));
}

#[test]
fn numbers_may_be_of_any_size() {
    let numbers = [
        "0",
        "-0",
        "0.000000000000001",
        "999999999999999",
        "1/999999999999",
        "999999999999/1",
        "99999999999999999999999999",
        "1e30",
        "1:999999999999",
        "999999999999:1",
    ];
    for number in numbers {
        for other in numbers {
            let text = format!(
                "\
job \"Trial\"
  units metric
  region general

site
  soil clay
  frost {number} m
  datum \"floor\"
  ground {other} m, falling {number} % toward bearing {other}°

shape court
  rectangle {number} m by {other} m, at ({other} m, {number} m), corners {number} mm

shape round
  circle radius {other} mm
  cut court

shape wide
  outset court, {number} m

surface court
  shape court
  meets north
  level {number} mm at north
  fall {other} % away from north, cross {number} % toward east
  build layers
  laid running-bond, units {number} mm by {other} mm
  joint {number} mm, filled with joint-sand
  movement-joints every {other} mm
  edging steel-edge, along free

build layers
  paving stone, {number} mm, waste {other} %
  base crushed-stone, {other} m, lifts {number}, beyond {number} m

mix mortar
  for joint
  parts {number} portland-cement : {other} sharp-sand
  water {number}
  batch {other} m3

material stone
  like sandstone
  density {number} kg/m3
  sold by bag of {other} kg, in steps of {number} kg
  price {number} GBP
  delivery {other} GBP per load of {number} kg
  minimum {other} kg
"
            );
            shown_if_it_fails(&text, || {
                let analysis = survives(text.clone());
                for (name, _, figure) in figures(&analysis).into_iter().chain(ground(&analysis)) {
                    assert!(figure.is_none_or(f64::is_finite), "{name} is {figure:?}");
                }
            });
        }
    }
}

#[test]
fn a_line_may_be_ten_million_bytes_long() {
    let analysis = survives(format!(
        "let a = {}\nlet b = c\n",
        "1 m + ".repeat(1_700_000)
    ));
    assert_eq!(rules(&analysis), ["line-unread", "name-unknown"]);
}

#[test]
fn a_file_may_have_a_hundred_thousand_lines() {
    let mut text = String::from("job \"Long\"\n  units metric\n  region general\n\n");
    for number in 0..33_333 {
        let _ = write!(text, "shape s{number}\n  rectangle 6 m by {number} mm\n\n");
    }
    let mut analyser = Analyser::new();
    let mut text: String = text;
    analyser.analyse(PATH, Text::from(text.as_str()), &NoFiles, TODAY);
    assert!(analyser.lines_parsed(PATH) > 60_000);
    // An edit reads its own line and no other.
    let at = text.find("rectangle 6 m by 20000 mm").expect("it is there");
    text.replace_range(at + 10..at + 11, "7");
    analyser.analyse(PATH, Text::from(text), &NoFiles, TODAY);
    assert_eq!(analyser.lines_parsed(PATH), 1);
}

#[test]
fn ten_thousand_lets_may_come_in_reverse() {
    let mut text = String::new();
    for number in (1..10_000).rev() {
        let _ = writeln!(text, "let a{number} = a{} + 1 mm", number - 1);
    }
    text += "let a0 = 1 m\n\nshape court\n  rectangle 6 m by a100\n";
    let analysis = survives(text);
    let area = analysis
        .figures
        .shape("court")
        .and_then(|court| court.area_m2);
    assert!(
        area.is_some_and(|area| (area - 6.6).abs() < 1e-9),
        "{area:?}"
    );
}

#[test]
fn everything_may_go_round_in_circles() {
    let ring = |what: &dyn Fn(usize, usize) -> String| -> String {
        (0..1000)
            .map(|number| what(number, (number + 1) % 1000))
            .collect()
    };
    let rings = [
        ring(&|own, next| format!("let a{own} = a{next} + 1 m\n")),
        ring(&|own, next| format!("material a{own}\n  like a{next}\n\n")),
        ring(&|own, next| format!("mix a{own}\n  for bed\n  parts 1 a{next} : 4 sharp-sand\n\n")),
        ring(&|own, next| format!("shape a{own}\n  inset a{next}, 1 m\n\n")),
        ring(&|own, next| format!("shape a{own}\n  rectangle 6 m by 4 m\n  cut a{next}\n\n")),
        ring(&|own, next| format!("shape a{own}\n  rectangle area(a{next}) / 1 m by 4 m\n\n")),
        ring(&|own, next| {
            format!("surface a{own}\n  shape court\n  level level(a{next}, (0, 0)) at (0, 0)\n\n")
        }) + "shape court\n  rectangle 6 m by 4 m\n",
    ];
    for ring in rings {
        let start: String = ring.lines().take(2).collect::<Vec<_>>().join(" | ");
        let rules = rules(&survives(ring));
        assert!(
            rules.contains(&"circular") || rules.contains(&"dimension-wrong"),
            "{start}: {rules:?}"
        );
    }
}

#[test]
fn chains_may_be_long() {
    let chain = |what: &dyn Fn(usize, usize) -> String| -> String {
        (1..3000).map(|number| what(number, number - 1)).collect()
    };
    survives(
        chain(&|own, last| format!("material a{own}\n  like a{last}\n\n"))
            + "material a0\n  like gravel\n",
    );
    survives(
        chain(&|own, last| format!("shape a{own}\n  outset a{last}, 1 mm\n\n"))
            + "shape a0\n  rectangle 6 m by 4 m\n",
    );
}

/// A yard out of which pits of so many sides are cut.
fn pitted(pits: usize, sides: usize) -> String {
    let mut text = String::from("shape yard\n  rectangle 300 m by 300 m\n");
    for pit in 0..pits {
        let _ = writeln!(text, "  cut p{pit}");
    }
    for pit in 0..pits {
        let _ = write!(text, "\nshape p{pit}\n  polygon");
        for side in 0..sides {
            let angle = side as f64 / sides as f64 * std::f64::consts::TAU;
            let (x, y) = (angle.cos() + (pit * 4 + 2) as f64, angle.sin() + 2.0);
            let _ = write!(text, " ({x:.9} m, {y:.9} m)");
        }
    }
    text
}

#[test]
fn shapes_may_have_many_parts() {
    let area = |text: String| {
        let analysis = survives(text);
        let area = analysis.figures.shape("yard").and_then(|yard| yard.area_m2);
        (area.map(f64::round), rules(&analysis))
    };
    assert_eq!(area(pitted(60, 4)), (Some(90_000.0 - 120.0), vec![]));
    // More sides than a shape may have: told, and no figure given.
    assert_eq!(area(pitted(12, 100)), (None, vec!["value-range"]));
}

#[test]
fn an_edit_of_two_surfaces_at_once_is_seen_in_both() {
    let folder = Folder::of_specs();
    let path = "/specs/ropewalk-path.patio";
    let before = folder.text(path);
    let line = "  base          crushed-stone, 100 mm compacted, beyond 100 mm\n";
    assert!(before.contains(line) && before.contains("  close\n"));
    // One loses its outline, and so what it wants; the other a material.
    let after = before.replacen("  close\n", "", 1).replacen(line, "", 1);
    let mut analyser = Analyser::new();
    analyser.analyse(path, before, &folder, TODAY);
    let kept = analyser.analyse(path, Text::from(after.as_str()), &folder, TODAY);
    let fresh = Analyser::new().analyse(path, Text::from(after), &folder, TODAY);
    assert_eq!(known(&kept), known(&fresh));
}

#[test]
fn an_edit_beside_two_of_one_name_is_seen() {
    let path = "/specs/court.patio";
    let text = |blank: &str, width: &str| {
        format!(
            "job \"Court\"\n  units metric\n{blank}\nshape court\n  rectangle {width} by 4 m\n\n\
             shape court\n  circle radius 1 m\n\nsurface court\n  shape court\n"
        )
    };
    let mut analyser = Analyser::new();
    for (blank, width) in [("", "6 m"), ("\n", "6 m"), ("\n", "5 m"), ("", "5 m")] {
        let text = text(blank, width);
        let kept = analyser.analyse(path, Text::from(text.as_str()), &NoFiles, TODAY);
        let fresh = Analyser::new().analyse(path, Text::from(text), &NoFiles, TODAY);
        assert_eq!(known(&kept), known(&fresh));
        // The first of them holds.
        let shapes: Vec<f64> = fresh
            .figures
            .shapes
            .iter()
            .filter_map(|shape| shape.area_m2)
            .collect();
        assert_eq!(shapes, [4.0 * if width == "6 m" { 6.0 } else { 5.0 }]);
    }
}

#[test]
fn an_edit_reads_one_line_again() {
    let folder = Folder::of_specs();
    for path in folder.paths() {
        let text = folder.text(&path).to_string();
        let mut analyser = Analyser::new();
        analyser.analyse(&path, Text::from(text.as_str()), &folder, TODAY);
        assert!(analyser.lines_parsed(&path) > 5, "{path}");
        let digits: Vec<usize> = text
            .char_indices()
            .filter(|(_, character)| character.is_ascii_digit())
            .map(|(at, _)| at)
            .collect();
        for at in digits.into_iter().step_by(7) {
            let mut edited = text.clone();
            edited.replace_range(at..=at, "8");
            if edited == text {
                continue;
            }
            analyser.analyse(&path, Text::from(edited.as_str()), &folder, TODAY);
            assert!(analyser.lines_parsed(&path) <= 1, "{path} at {at}");
            analyser.analyse(&path, Text::from(text.as_str()), &folder, TODAY);
            assert!(analyser.lines_parsed(&path) <= 1, "{path} at {at}");
        }
    }
}
