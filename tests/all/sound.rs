//! Sound jobs of many kinds and regions: nothing is found in them but the
//! cautions that come with the work and the advisories that a job names in a
//! comment, `# draws fall-accessible`. One mistake put into one of them gives
//! what it declares and nothing else; a file of `sound/` for each group of
//! families.

mod base_beds_mixes;
mod drains;
mod falls_levels_ground;
mod joints_units_edges;
mod materials;
mod patterns;
mod slips;
mod steps;
mod unsuited;
mod work;

use std::fs;
use std::path::Path;

use drylay::findings::{Finding, Severity};
use drylay::rules::{Family, find};

use crate::checked::{Checked, checked};

/// The sound specs: their names and texts, in order.
pub fn specs() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sound");
    let files = fs::read_dir(&folder).expect("the folder of sound specs");
    let mut specs: Vec<(String, String)> = files
        .map(|file| {
            let path = file.expect("a file").path();
            let name = path.file_stem().expect("a name").to_string_lossy();
            let text = fs::read_to_string(&path).expect("a text");
            (name.into_owned(), text)
        })
        .collect();
    specs.sort();
    specs
}

/// The sound spec of a name.
pub fn spec(name: &str) -> String {
    let found = specs().into_iter().find(|(own, _)| own == name);
    found.expect(name).1
}

/// What is found but for the cautions.
pub fn besides_cautions(checked: &Checked) -> Vec<&Finding> {
    let is_caution =
        |finding: &Finding| find(finding.rule).is_some_and(|rule| rule.family == Family::Cautions);
    let findings = checked.findings().iter().map(|finding| &**finding);
    findings.filter(|finding| !is_caution(finding)).collect()
}

#[test]
fn sound_jobs_are_found_sound() {
    let specs = specs();
    assert!(specs.len() >= 12, "{}", specs.len());
    let mut reported = String::new();
    for (name, text) in specs {
        let checked = checked(&text);
        reported += &difference(&name, &checked, drawn(&text));
    }
    assert!(reported.is_empty(), "\n{reported}");
}

/// The advisories that a sound job says it draws.
fn drawn(text: &str) -> Vec<String> {
    let lines = text
        .lines()
        .filter_map(|line| line.strip_prefix("# draws "));
    let rules = lines.flat_map(|rules| rules.split(", "));
    rules.map(|rule| format!("advisory {rule}")).collect()
}

/// A mistake: the sound spec that it is put into, a text of that spec, what
/// is put in its place, and all that is then found besides cautions, each as
/// `warning base-thin`, in any order.
pub type Mistaken = (
    &'static str,
    &'static str,
    &'static str,
    &'static [&'static str],
);

/// Holds mistakes to what they declare.
pub fn check_mistakes(mistakes: &[Mistaken]) {
    let mut reported = String::new();
    for (name, from, to, declared) in mistakes {
        let text = spec(name);
        assert!(text.contains(from), "{name}: no `{from}`");
        let changed = checked(&text.replacen(from, to, 1));
        let mut all = drawn(&text);
        all.extend(declared.iter().map(|&finding| finding.to_owned()));
        reported += &difference(&format!("{name}, `{to}`"), &changed, all);
    }
    assert!(reported.is_empty(), "\n{reported}");
}

/// How what is found besides cautions differs from what is declared; empty
/// where it does not.
fn difference(what: &str, checked: &Checked, mut declared: Vec<String>) -> String {
    let word = |finding: &&Finding| {
        let severity = match finding.severity {
            Some(Severity::Error) => "error",
            Some(Severity::Warning) => "warning",
            _ => "advisory",
        };
        format!("{severity} {}", finding.rule)
    };
    let findings = besides_cautions(checked);
    let mut said: Vec<String> = findings.iter().map(word).collect();
    said.sort();
    declared.sort();
    if said == declared {
        return String::new();
    }
    let shown = findings
        .iter()
        .map(|finding| format!("    {}\n", checked.shown(finding)));
    let shown: String = shown.collect();
    format!("{what}: {said:?}, not {declared:?}\n{shown}")
}

/// A sound spec, a text of it, what is put in its place, and the rule that
/// then speaks.
type Mistake = (&'static str, &'static str, &'static str, &'static str);

const MISTAKES: &[Mistake] = &[
    // Falls and water.
    (
        "brick-on-sand",
        "1/4 in per ft away",
        "1:80 away",
        "fall-flat",
    ),
    ("courtyard-1-40", "1:40 away", "1:60 away", "fall-flat"),
    ("porch-veneer", "2 % away", "0.9 % away", "fall-flat"),
    (
        "flags-on-mortar-bed",
        "  fall         1:60 away from north\n",
        "",
        "fall-missing",
    ),
    (
        "flags-on-mortar-bed",
        "1:60 away from north",
        "1:60 toward north",
        "fall-backward",
    ),
    (
        "overlaid-slab",
        "1:60 away from north",
        "1:15 away from north",
        "fall-steep",
    ),
    (
        "accessible-terrace",
        "1:60 toward south",
        "1:40 toward south",
        "fall-accessible",
    ),
    (
        "permeable-drive",
        "1:60 toward south",
        "6 % toward south",
        "fall-permeable",
    ),
    (
        "brick-on-sand",
        "  water        to \"planting bed\"\n",
        "",
        "outfall-missing",
    ),
    (
        "setts-drive",
        "  weeps        every 600 mm\n",
        "",
        "weeps-missing",
    ),
    ("porch-veneer", "along east", "along north", "joints-across"),
    (
        "two-surfaces",
        "-230 mm at north",
        "-250 mm at north",
        "lip",
    ),
    (
        "level-threshold",
        "  channel      along north\n",
        "",
        "level-high",
    ),
    // Levels at the building.
    (
        "courtyard-1-40",
        "-190 mm at west",
        "-110 mm at west",
        "level-high",
    ),
    (
        "porch-veneer",
        "  walls        masonry-veneer\n",
        "",
        "level-high",
    ),
    (
        "flags-on-mortar-bed",
        "-155 mm at north",
        "155 mm at north",
        "level-above-floor",
    ),
    (
        "two-surfaces",
        "-150 mm at north",
        "-150 mm at north\n  level        -220 mm at south",
        "levels-disagree",
    ),
    (
        "brick-on-sand",
        "  datum        \"back-door sill\"\n",
        "",
        "datum-missing",
    ),
    ("level-threshold", "(4 m, -9 m)", "(4 m, -4 m)", "soak-near"),
    (
        "two-surfaces",
        "datum        \"garden-door sill\"",
        "datum        \"garden-door sill\"\n  cladding     -120 mm",
        "siding-close",
    ),
    // Dig and ground.
    ("two-surfaces", "loam, firm", "loam, tilled", "soil-loose"),
    (
        "overlaid-slab",
        "gravel, firm",
        "gravel, expansive",
        "soil-expansive",
    ),
    ("two-surfaces", "loam, firm", "peat", "soil-organic"),
    (
        "two-surfaces",
        "lifts 2, beyond 150 mm",
        "lifts 2, beyond 100 mm",
        "overdig-short",
    ),
    (
        "gravel-walk",
        "  fabric       geotextile, beyond 150 mm\n",
        "",
        "fabric-missing",
    ),
    (
        "courtyard-1-40",
        "ground       -300 mm",
        "ground       -600 mm",
        "ground-filled",
    ),
    // Base and beds.
    (
        "courtyard-1-40",
        "crushed-stone, 100 mm",
        "crushed-stone, 75 mm",
        "base-thin",
    ),
    (
        "brick-on-sand",
        "open-stone, 8 in",
        "open-stone, 5 in",
        "base-thin",
    ),
    (
        "permeable-drive",
        "type-3, 250 mm, lifts 3",
        "type-3, 150 mm, lifts 2",
        "base-permeable",
    ),
    ("two-surfaces", "lifts 2", "lifts 1", "lift-thick"),
    (
        "accessible-terrace",
        "concrete, 4 in",
        "concrete, 3 1/2 in",
        "slab-thin",
    ),
    (
        "two-surfaces",
        "sharp-sand, 30 mm",
        "sharp-sand, 60 mm",
        "bed-thick",
    ),
    (
        "courtyard-1-40",
        "sharp-sand, 25 mm",
        "sharp-sand, 15 mm",
        "bed-thin",
    ),
    (
        "two-surfaces",
        "bed          sharp-sand",
        "bed          stone-dust",
        "bed-fines",
    ),
    (
        "accessible-terrace",
        "  bond         thin-set, 3/16 in\n",
        "",
        "bond-missing",
    ),
    (
        "accessible-terrace",
        "thin-set, 3/16 in",
        "thin-set, 3/4 in",
        "bond-thick",
    ),
    // Mixes.
    (
        "setts-drive",
        "1 portland-cement : 4 sharp-sand",
        "1 portland-cement : 7 sharp-sand",
        "mix-lean",
    ),
    (
        "setts-drive",
        "1 portland-cement : 3 sharp-sand",
        "1 portland-cement : 1 sharp-sand",
        "mix-rich",
    ),
    (
        "setts-drive",
        "1 portland-cement : 4 sharp-sand",
        "1:4",
        "mix-unlabelled",
    ),
    (
        "porch-veneer",
        "type         S\n  consistency  plastic",
        "type         N\n  consistency  plastic",
        "mix-type",
    ),
    ("porch-veneer", "laid in 2 h", "laid in 3 h", "mix-life"),
    // Units and stone.
    (
        "two-surfaces",
        "concrete-paver, 60 mm",
        "concrete-paver, 50 mm",
        "unit-thin",
    ),
    (
        "flags-on-sand",
        "granite, 50 mm",
        "granite, 30 mm",
        "flag-thin",
    ),
    (
        "courtyard-1-40",
        "units 200 mm by 200 mm",
        "units 200 mm by 300 mm",
        "unit-slender",
    ),
    (
        "overlaid-slab",
        "units 450 mm by 450 mm",
        "units 900 mm by 600 mm",
        "lift-heavy",
    ),
    (
        "brick-on-sand",
        "class        paving",
        "class        building",
        "brick-class",
    ),
    (
        "brick-on-sand",
        "class        paving",
        "class        paving\n  mass         40 lb/sq ft",
        "mass-disagrees",
    ),
    // Joints and movement.
    (
        "two-surfaces",
        "edging       steel-edge, along free\n  water        to \"lawn\"\n\nsurface path",
        "water        to \"lawn\"\n\nsurface path",
        "edge-loose",
    ),
    (
        "courtyard-1-40",
        "joint        3 mm",
        "joint        8 mm",
        "joint-wide",
    ),
    (
        "courtyard-1-40",
        "joint        3 mm",
        "joint        1 mm",
        "joint-narrow",
    ),
    (
        "courtyard-1-40",
        "joint        3 mm",
        "joint        3 mm, depth 80 mm",
        "joint-shallow",
    ),
    (
        "overlaid-slab",
        "  movement-joints every 3 m\n",
        "",
        "movement-missing",
    ),
    (
        "overlaid-slab",
        "movement-joints every 3 m",
        "movement-joints every 4.5 m",
        "movement-far",
    ),
    (
        "setts-drive",
        "  isolation-joint 10 mm\n",
        "",
        "isolation-missing",
    ),
    ("plain-slab", ", joints every 3.5 m", "", "slab-panel"),
    ("irregular-flagstone", ", corners jointed", "", "re-entrant"),
    // Ordering.
    (
        "flags-on-mortar-bed",
        "waste 10 %",
        "waste 10",
        "unit-missing",
    ),
    ("two-surfaces", ", waste 5 %", "", "waste-odd"),
    (
        "brick-on-sand",
        "class        paving",
        "class        paving\n  price        $3 per pallet",
        "price-unit",
    ),
    (
        "brick-on-sand",
        "  region       us\n",
        "",
        "region-unstated",
    ),
    ("courtyard-1-40", "along free", "along fre", "name-unknown"),
    (
        "courtyard-1-40",
        "fall         1:40",
        "fall         1 in 40",
        "number-unclear",
    ),
    (
        "courtyard-1-40",
        "fall         1:40",
        "fal          1:40",
        "word-unknown",
    ),
    ("courtyard-1-40", "4 m\n", "4 m by\n", "word-stray"),
    ("ramp", "5 in, joints", "5 lb, joints", "dimension-wrong"),
    ("ramp", "5 in, joints", "5, joints", "unit-missing"),
];

#[test]
fn one_mistake_gives_one_finding() {
    let mut reported = String::new();
    for (name, from, to, rule) in MISTAKES {
        let text = spec(name);
        assert!(text.contains(from), "{name}: no `{from}`");
        let checked = checked(&text.replacen(from, to, 1));
        let said: Vec<&str> = besides_cautions(&checked)
            .iter()
            .map(|finding| finding.rule)
            .collect();
        if said != [*rule] {
            reported += &format!("{name}, `{to}`: {said:?}, not {rule}\n");
            for finding in besides_cautions(&checked) {
                reported += &format!("    {}\n", checked.shown(finding));
            }
        }
    }
    assert!(reported.is_empty(), "\n{reported}");
}
