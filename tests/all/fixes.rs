//! A fix is offered only where it puts right what it is offered for and
//! nothing else goes wrong by it: tried on sound specs, and on what breaks each
//! rule, with one or two of their words and figures changed at random.

use std::collections::BTreeMap;
use std::sync::Arc;

use drylay::findings::{Finding, Fix};
use drylay::rules::{Family, all, complete, find};

use crate::checked::{Checked, checked};
use crate::{messages, sound};

/// How many changed specs are tried.
const CASES: u32 = 300;

/// Numbers that look random and are the same at every run.
struct Dice(u64);

impl Dice {
    /// A number under a limit.
    fn under(&mut self, limit: usize) -> usize {
        // Steele, Lea and Flood's mixing of a counter.
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^= mixed >> 31;
        (mixed % limit.max(1) as u64) as usize
    }

    /// One of several.
    fn of<'a, T>(&mut self, several: &'a [T]) -> &'a T {
        &several[self.under(several.len())]
    }
}

/// What a figure is multiplied by.
const FACTORS: &[f64] = &[0.0, 0.1, 0.3, 0.5, 0.7, 0.9, 1.1, 1.4, 2.0, 3.0, 10.0, -1.0];

/// Words that are put in one another's place.
const WORDS: &[&[&str]] = &[
    &["us", "uk", "au", "general"],
    &["metric", "imperial"],
    &[
        "gravel,", "clay,", "silt,", "peat,", "sand,", "rock,", "fill,", "loam,",
    ],
    &["firm", "soft", "wet", "expansive", "tilled"],
    &["north", "east", "south", "west"],
    &["foot", "drive", "street", "landing", "ramp"],
    &["seating", "accessible", "front", "exit", "covered"],
    &["running-bond,", "stack-bond,", "irregular,", "herringbone,"],
    &[
        "york-stone,",
        "sandstone,",
        "granite,",
        "slate,",
        "limestone,",
        "concrete-paver,",
        "clay-paver,",
        "porcelain,",
        "concrete-flag,",
    ],
    &[
        "sharp-sand,",
        "mason-sand,",
        "stone-dust,",
        "bed-mix,",
        "concrete-sand,",
    ],
    &[
        "type-1,",
        "crushed-stone,",
        "open-stone,",
        "pea-gravel,",
        "hardcore,",
        "gravel,",
        "slab-mix,",
    ],
    &[
        "joint-sand",
        "pointing",
        "polymeric-sand",
        "jointing-compound",
        "open-stone",
        "kiln-dried-sand",
    ],
    &["dry", "stiff", "plastic", "fluid"],
    &["compacted", "loose"],
    &["toward", "away from"],
    &["M", "S", "N", "O"],
];

/// A line with something in it changed.
fn changed(line: &str, dice: &mut Dice) -> Option<String> {
    match dice.under(8) {
        0 => Some(String::new()),
        1 => {
            let (kept, _) = line.rsplit_once(',')?;
            Some(kept.to_owned())
        }
        2 => {
            // A letter lost or two changed about.
            let letters: Vec<usize> = line
                .char_indices()
                .filter(|(at, letter)| *at > 2 && letter.is_ascii_lowercase())
                .map(|(at, _)| at)
                .collect();
            if letters.is_empty() {
                return None;
            }
            let mut typed = line.to_owned();
            typed.remove(*dice.of(&letters));
            Some(typed)
        }
        3 => {
            let from = *dice.of(&["1:60", "1:80", " mm", " in", " %", ", ", " m"]);
            let to = *dice.of(&["1 in 60", "1/60", "", " ", ": ", " = ", " kg", "\t"]);
            line.contains(from).then(|| line.replacen(from, to, 1))
        }
        4 | 5 => {
            let words: Vec<&str> = line.split_whitespace().collect();
            let sets = WORDS
                .iter()
                .filter(|set| set.iter().any(|word| words.contains(word)));
            let sets: Vec<_> = sets.collect();
            if sets.is_empty() {
                return None;
            }
            let set: &[&str] = sets[dice.under(sets.len())];
            let from = set.iter().find(|word| words.contains(word))?;
            Some(line.replacen(from, dice.of::<&str>(set), 1))
        }
        _ => {
            let numbers = numbers(line);
            if numbers.is_empty() {
                return None;
            }
            let (start, end) = *dice.of(&numbers);
            let value: f64 = line[start..end].parse().ok()?;
            let new = value * dice.of(FACTORS);
            let text = format!("{:.2}", new);
            let text = text.trim_end_matches('0').trim_end_matches('.');
            Some(format!("{}{text}{}", &line[..start], &line[end..]))
        }
    }
}

/// Where the numbers of a line stand.
fn numbers(line: &str) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut start = None;
    for (at, letter) in line.char_indices().chain([(line.len(), ' ')]) {
        // The parts of a date are no numbers.
        let is_part = letter.is_ascii_digit() || (matches!(letter, '.' | '-') && start.is_some());
        match start {
            None if is_part => start = Some(at),
            Some(from) if !is_part => {
                found.push((from, at));
                start = None;
            }
            _ => {}
        }
    }
    found
}

/// A sound spec with one or two lines changed.
fn mutated(specs: &[(String, String)], dice: &mut Dice) -> (String, String) {
    let (name, text) = dice.of(specs).clone();
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let mut left = 1 + dice.under(2);
    for _ in 0..20 {
        let at = dice.under(lines.len());
        if left == 0 || !lines[at].starts_with(' ') {
            continue;
        }
        if let Some(new) = changed(&lines[at], dice) {
            left -= 1;
            lines[at] = new;
        }
    }
    (name, lines.join("\n") + "\n")
}

/// What is changed at random: the sound specs, and what breaks each rule.
fn bases() -> Vec<(String, String)> {
    let breaking = all().map(|rule| (rule.name.to_owned(), complete(rule.breaks).text));
    sound::specs().into_iter().chain(breaking).collect()
}

/// How often each rule speaks, the cautions left out.
fn counts(checked: &Checked) -> BTreeMap<&'static str, usize> {
    let mut counts = BTreeMap::new();
    for finding in sound::besides_cautions(checked) {
        *counts.entry(finding.rule).or_insert(0) += 1;
    }
    counts
}

/// Whether a rule is of the text itself: what stands in a text is seen only
/// once it can be read, so that putting it right may show more.
fn is_of_the_text(rule: &str) -> bool {
    // Whoever names a region asks to be held to its limits, and parts that are
    // named say what a mix is.
    // A level that holds nowhere gives no plane, and so nothing of levels, and
    // one with the wrong sign hides what is wrong below it; of what has no kind
    // no rule of materials speaks. Where the fall is another, water comes to
    // other drains, readings lie beside another plane, and flights climb to
    // another level.
    matches!(
        rule,
        "region-unstated"
            | "mix-unlabelled"
            | "levels-disagree"
            | "level-unclear"
            | "kind-unknown"
            | "fall-missing"
            | "fall-along"
            | "fall-steep"
    ) || find(rule).is_some_and(|rule| rule.family == Family::Text)
}

/// What goes wrong when a fix is applied.
fn wrongs(before: &Checked, finding: &Finding, fix: &Fix) -> Vec<String> {
    let after = checked(&before.with(fix));
    let (was, is) = (counts(before), counts(&after));
    let reads_better = is_of_the_text(finding.rule);
    let same =
        |other: &&Arc<Finding>| other.rule == finding.rule && other.message == finding.message;
    let had_same = before.findings().iter().filter(same).count();
    let has_same = after.findings().iter().filter(same).count();
    let mut wrongs = Vec::new();
    if has_same >= had_same {
        wrongs.push("nothing: it is still found".to_owned());
    }
    for (rule, count) in &is {
        // What may be applied unseen may show more, and spoils no text.
        if reads_better && !(fix.safe && is_of_the_text(rule)) {
            continue;
        }
        let had = was.get(rule).copied().unwrap_or(0);
        let may = had - usize::from(*rule == finding.rule && had > 0);
        if *count > may {
            let of_rule = after.findings().iter().filter(|one| one.rule == *rule);
            let said: Vec<String> = of_rule.map(|one| after.shown(one)).collect();
            wrongs.push(format!("{rule}: {had} before, then {}", said.join(" | ")));
        }
    }
    wrongs
}

#[test]
fn a_fix_puts_right_what_it_is_for_and_nothing_wrong() {
    let specs = bases();
    let cases = std::env::var("DRYLAY_CASES").ok();
    let cases = cases.and_then(|cases| cases.parse().ok()).unwrap_or(CASES);
    let mut tried = 0;
    let mut reported: BTreeMap<String, String> = BTreeMap::new();
    for seed in 0..cases {
        let mut dice = Dice(u64::from(seed));
        let (name, text) = mutated(&specs, &mut dice);
        let before = checked(&text);
        for finding in before.findings().iter() {
            messages::check(finding);
        }
        for finding in sound::besides_cautions(&before) {
            for fix in &finding.fixes {
                tried += 1;
                for wrong in wrongs(&before, finding, fix) {
                    let key = format!(
                        "{} -> {}",
                        finding.rule,
                        wrong.split(':').next().unwrap_or_default()
                    );
                    reported.entry(key).or_insert_with(|| {
                        let shown = before.shown(finding);
                        format!("seed {seed}, {name}: {shown}\n  `{}`\n  {wrong}", fix.title)
                    });
                }
            }
        }
    }
    assert!(tried > cases / 4, "{tried} fixes");
    let reported: Vec<String> = reported
        .into_iter()
        .map(|(key, said)| format!("== {key}\n{said}"))
        .collect();
    assert!(
        reported.is_empty(),
        "{tried} tried\n{}",
        reported.join("\n")
    );
}

const BANK: &str = "job \"x\"\n  units metric\n  region uk\n  currency GBP\n\n\
    site\n  soil sand, firm\n  datum \"floor\"\n";

/// A fix writes what stands in the entry's place, no more of it and no less,
/// and what it is for is gone.
#[test]
fn a_fix_leaves_the_rest_of_its_line_and_takes_its_finding_away() {
    for (rest, rule, line) in [
        (
            "  ground -200 mm\n\ndrain p\n  pipe plastic-pipe, 110 mm, from (0 m, -2 m) to (6 m, -2 m)\n  \
             fall 1:80\n  invert 900 mm at (0 m, -2 m)\n  to \"storm drain\"\n",
            "cover-thin",
            "  invert -900 mm at (0 m, -2 m)",
        ),
        (
            "  ground -200 mm\n\ndrain q\n  trench 300 mm wide, 600 mm deep, from (0 m, -8 m) to (6 m, -8 m)\n  \
             filled open-stone\n  fall 1:80\n  invert 800 mm\n  to \"ditch\"\n",
            "cover-thin",
            "  invert -800 mm",
        ),
        // The more risers, the lower the foot on the bank.
        (
            "  ground -900 mm at (0 m, 0 m), falling 1:3 toward south\n\nsteps bank-steps\n  \
             from ground\n  to -200 mm\n  at (2 m, 0 m), climbing north\n  width 1.2 m\n  \
             going 300 mm\n  risers 3\n  tread sandstone, 40 mm\n  core slab-mix, to foot\n",
            "riser-high",
            "",
        ),
    ] {
        let before = checked(&format!("{BANK}{rest}"));
        let found = before.findings().iter().find(|own| own.rule == rule);
        let found = found.unwrap_or_else(|| panic!("no {rule}: {rest}"));
        let mended = before.mended(found).expect("it has a fix");
        assert!(
            line.is_empty() || mended.lines().any(|own| own == line),
            "{mended}"
        );
        let after = checked(&mended);
        let again = after
            .findings()
            .iter()
            .any(|own| own.rule == rule && line.is_empty());
        assert!(!again, "{mended}");
    }
}
