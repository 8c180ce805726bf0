//! The sound court with some of its entries changed: the rules on falls,
//! levels, ground and edges just under, at and just over their limits, in both
//! systems of units and in the regions that differ.

use drylay::rules::{Family, complete, find};
use indexmap::IndexMap;

use crate::checked::checked;

/// What is found of a family in the sound job with some entries of its court
/// changed, `key=value; key=value`; an empty value takes the entry out. Other
/// sections are given as they are.
fn found(family: Family, sections: &str, changes: &str) -> String {
    let text = complete(&format!("{sections}\n{}", court(changes))).text;
    let checked = checked(&text);
    let of_family = |name: &str| find(name).is_some_and(|rule| rule.family == family);
    let findings = checked
        .findings()
        .iter()
        .filter(|finding| of_family(finding.rule));
    let mut said: Vec<String> = findings
        .map(|finding| {
            let severity = finding.severity.map_or("", |severity| severity.word());
            format!("{} {severity}", finding.rule)
        })
        .collect();
    said.sort();
    said.join(", ")
}

/// The court with its entries changed; of one that is changed twice the last
/// holds.
fn court(changes: &str) -> String {
    let changes = changes
        .split(';')
        .filter(|change| !change.trim().is_empty());
    let changes = changes.map(|change| change.split_once('=').expect("key=value"));
    let changes: IndexMap<&str, &str> = changes
        .map(|(key, value)| (key.trim(), value.trim()))
        .collect();
    let lines = changes.iter().map(|(key, value)| match value.is_empty() {
        true => format!("  # no {key}\n"),
        false => format!("  {key} {value}\n"),
    });
    format!("surface court\n{}", lines.collect::<String>())
}

/// A job of a region, metric or imperial.
fn job(region: &str, units: &str) -> String {
    format!("job \"Example court\"\n  units {units}\n  region {region}\n")
}

fn site(entries: &str) -> String {
    let lines = entries
        .split(';')
        .map(|entry| format!("  {}\n", entry.trim()));
    format!("site\n{}", lines.collect::<String>())
}

fn check(family: Family, cases: &[(String, &str, &str)]) {
    for (sections, changes, wanted) in cases {
        let said = found(family, sections, changes);
        // The ground of the court stays level, so that the water of a steeper
        // one has nowhere to run: `tests/all/limits` holds that rule.
        let is_other = |one: &&str| !one.is_empty() && !one.starts_with("outfall-high ");
        let said: Vec<&str> = said.split(", ").filter(is_other).collect();
        let said = said.join(", ");
        assert_eq!(said, *wanted, "{sections}{changes}");
    }
}

/// Paving of stone in mortar, where nothing else is amiss.
const STONE: &str = "build=mortar-set; laid=stack-bond, units 300 mm by 600 mm; joint=10 mm, filled with joint-mix; weeps=every 600 mm; isolation-joint=; movement-joints=;";

const GRAVEL: &str = "build gravelled\n  surfacing gravel, 50 mm\n  base crushed-stone, 100 mm compacted, beyond 150 mm\n";

const PERMEABLE: &str = "build open-set\n  paving concrete-paver, 80 mm\n  bed open-stone, 50 mm\n  base open-stone, 200 mm, beyond 200 mm\n  permeable\n";

fn stone(changes: &str) -> String {
    format!("{STONE} {changes}")
}

#[test]
fn falls_that_are_too_flat() {
    let flat = "fall-flat warning";
    for (sections, changes, wanted) in [
        ("", "fall=2 % away from north", ""),
        ("", "fall=1/4 in per ft away from north", ""),
        ("", "fall=1:51 away from north", flat),
        ("", "fall=0 % away from north", flat),
        ("", &stone("fall=1:80 away from north"), ""),
        ("", &stone("fall=1:81 away from north"), flat),
        ("", &stone("meets=; fall=1:81 toward south"), flat),
        (
            "",
            &stone("laid=irregular, stones about 400 mm; fall=1:60 away from north"),
            "",
        ),
        (
            "",
            &stone("laid=irregular, stones about 400 mm; fall=1:61 away from north"),
            "fall-flat advisory",
        ),
        (
            "",
            &stone("laid=irregular, stones about 400 mm; fall=1:81 away from north"),
            flat,
        ),
        (&job("uk", "metric"), "fall=1:80 away from north", ""),
        (&job("uk", "metric"), "fall=1:81 away from north", flat),
        (&job("au", "metric"), "fall=1:40 away from north", ""),
        (&job("au", "metric"), "fall=1:41 away from north", flat),
        (
            &job("us", "imperial"),
            &stone("fall=2 % away from north"),
            "",
        ),
        (
            &job("us", "imperial"),
            &stone("fall=1.9 % away from north"),
            flat,
        ),
        (
            &job("us", "imperial"),
            &stone("meets=; fall=1 % toward south"),
            "",
        ),
        (
            &job("us", "imperial"),
            &stone("meets=; fall=0.9 % toward south"),
            flat,
        ),
        ("", "for=foot, covered; fall=1:200 away from north", ""),
        ("", "for=ramp; fall=1:200 away from north", ""),
        // Levels alone give a fall as well; one level does not.
        (
            "",
            "fall=; level=-160 mm at north\n  level -240 mm at south",
            "",
        ),
        (
            "",
            "fall=; level=-160 mm at north\n  level -200 mm at south",
            flat,
        ),
        ("", "fall=", "fall-missing error"),
    ] {
        assert_eq!(
            found(Family::Falls, sections, changes),
            wanted,
            "{sections}{changes}"
        );
    }
}

#[test]
fn falls_that_are_missing_or_run_wrong() {
    let point = "level=-160 mm at (0 m, 4 m);";
    check(
        Family::Falls,
        &[
            (String::new(), "fall=", "fall-missing error"),
            (String::new(), "fall=; meets=", "fall-missing warning"),
            (String::new(), "fall=; for=foot, covered", ""),
            // What cannot be read is not said to be missing.
            (String::new(), "fall=1 in 60 away from north", ""),
            (
                GRAVEL.to_owned(),
                "fall=; build=gravelled; joint=; laid=",
                "",
            ),
            (
                PERMEABLE.to_owned(),
                "fall=; build=open-set; joint=8 mm, filled with chip-stone",
                "",
            ),
            (
                String::new(),
                "fall=1:50 toward north",
                "fall-backward error",
            ),
            (String::new(), "fall=1:50 toward south", ""),
            (
                String::new(),
                &format!("{point} fall=1:50 toward west"),
                "fall-along warning",
            ),
            (
                String::new(),
                &format!("{point} fall=1:50 toward bearing 100°"),
                "fall-flat warning",
            ),
            (
                String::new(),
                &format!("{point} fall=1:50 toward bearing 80°"),
                "fall-backward error",
            ),
            (
                String::new(),
                &format!("{point} meets=north and west; fall=1:50 away from north"),
                "",
            ),
        ],
    );
}

#[test]
fn falls_that_are_too_steep() {
    let point = "level=-160 mm at (0 m, 4 m);";
    let us = job("us", "imperial");
    check(
        Family::Falls,
        &[
            (String::new(), "fall=5 % away from north", ""),
            (
                String::new(),
                "fall=1:19 away from north",
                "fall-steep warning",
            ),
            (
                String::new(),
                "for=foot, seating; fall=1:30 away from north",
                "",
            ),
            (
                String::new(),
                "for=foot, seating; fall=1:29 away from north",
                "fall-steep advisory",
            ),
            (
                String::new(),
                "for=foot, seating; fall=6 % away from north",
                "fall-steep warning",
            ),
            (String::new(), "for=drive; fall=10 % away from north", ""),
            (String::new(), "for=ramp; fall=8 % away from north", ""),
            (
                String::new(),
                &stone("for=foot, accessible; fall=1:48 away from north"),
                "",
            ),
            (
                String::new(),
                &stone("for=foot, accessible; fall=1:47 away from north"),
                "fall-accessible warning",
            ),
            (
                us.clone(),
                &stone("for=foot, accessible; fall=1:47 away from north"),
                "fall-accessible error",
            ),
            // Either way passes, and both together do not.
            (
                us,
                &stone(&format!(
                    "{point} for=foot, accessible; fall=1:48 away from north, cross 1:48 toward east"
                )),
                "fall-accessible error",
            ),
            (
                job("au", "metric"),
                "for=foot, accessible; fall=1:40 away from north",
                "fall-band advisory",
            ),
            (
                String::new(),
                "for=foot, accessible; fall=2 % away from north",
                "fall-band advisory",
            ),
        ],
    );
}

#[test]
fn levels_at_the_building() {
    let imperial = job("general", "imperial");
    let damp_course = |region: &str| {
        let site = site("damp-course -40 mm");
        format!("{}{site}", job(region, "metric"))
    };
    let deep = site("ground -300 mm");
    check(
        Family::Levels,
        &[
            (String::new(), "level=-150 mm at north", ""),
            (
                String::new(),
                "level=-149 mm at north",
                "level-high warning",
            ),
            (String::new(), "level=0 mm at north", "level-high warning"),
            (
                String::new(),
                "level=160 mm at north",
                "level-above-floor error",
            ),
            (String::new(), "level=160 mm below datum at north", ""),
            (imperial.clone(), "level=-6 in at north", ""),
            (
                imperial.clone(),
                "level=-5 7/8 in at north",
                "level-high warning",
            ),
            (imperial, "level=-150 mm at north", ""),
            (damp_course("uk"), "level=-190 mm at north", ""),
            (
                damp_course("uk"),
                "level=-189 mm at north",
                "level-high error",
            ),
            (
                damp_course("general"),
                "level=-189 mm at north",
                "level-high warning",
            ),
            (String::new(), "meets=; level=-50 mm at north", ""),
            (deep.clone(), "level=-196 mm at north", ""),
            (deep.clone(), "level=-197 mm at north", "door-step advisory"),
            (
                format!("{}{deep}", job("us", "metric")),
                "level=-197 mm at north; door=at north",
                "door-step error",
            ),
            (
                deep,
                "for=foot, exit; level=-197 mm at north",
                "door-conflict advisory, door-step warning",
            ),
            (
                String::new(),
                "for=foot, exit; level=-30 mm at north",
                "door-conflict advisory, level-high warning",
            ),
        ],
    );
}

#[test]
fn levels_that_are_stated_more_than_once() {
    check(
        Family::Levels,
        &[
            (
                String::new(),
                "level=-160 mm at north\n  level -243.2 mm at south",
                "",
            ),
            (
                String::new(),
                "level=-160 mm at north\n  level -243.3 mm at south",
                "levels-disagree error",
            ),
            (
                String::new(),
                "level=-160 mm at north\n  level -200 mm at (3 m, 2 m)",
                "",
            ),
            (
                String::new(),
                "level=-160 mm at north\n  level -160 mm at (3 m, 2 m)",
                "levels-disagree error",
            ),
            (
                String::new(),
                "fall=; level=-160 mm at north\n  level -240 mm at south",
                "",
            ),
        ],
    );
}

#[test]
fn levels_and_their_datum() {
    let bare = site("# no datum");
    let floor = site("# no datum; floor 0 mm");
    check(
        Family::Levels,
        &[
            (bare, "", "datum-missing warning"),
            (floor, "", "datum-missing error"),
            (site("# no datum; # no ground"), "level=", ""),
        ],
    );
}

#[test]
fn bases_past_the_edge() {
    let base = |thickness: &str, beyond: &str| {
        format!(
            "build sand-set\n  paving concrete-paver, 60 mm\n  bed sharp-sand, 30 mm\n  base crushed-stone, {thickness} compacted, lifts 2{beyond}\n"
        )
    };
    let short = "overdig-short warning";
    let everywhere = "meets=north and south and east and west; edging=; fall=; for=foot, covered";
    check(
        Family::Ground,
        &[
            (base("100 mm", ", beyond 150 mm"), "", ""),
            (base("100 mm", ", beyond 149 mm"), "", short),
            (base("100 mm", ""), "", short),
            (base("6 in", ", beyond 150 mm"), "", ""),
            (base("200 mm", ", beyond 150 mm"), "", short),
            (base("200 mm", ", beyond 200 mm"), "", ""),
            (base("100 mm", ""), everywhere, ""),
        ],
    );
}

#[test]
fn edges_that_are_held() {
    check(
        Family::Edges,
        &[
            (String::new(), "", ""),
            (String::new(), "edging=", "edge-loose error"),
            (
                String::new(),
                "edging=steel-edge, along free except south",
                "edge-loose error",
            ),
            (String::new(), &stone(""), ""),
            (
                "build sand-set\n  paving sandstone, 50 mm\n  bed sharp-sand, 40 mm\n  base crushed-stone, 100 mm compacted, beyond 150 mm\n".to_owned(),
                "edging=",
                "edge-loose advisory",
            ),
        ],
    );
}

/// A path of 3 m by 4 m along the east side of the court.
fn path(entries: &str) -> String {
    let lines = entries
        .split(';')
        .map(|entry| format!("  {}\n", entry.trim()));
    format!(
        "shape path\n  rectangle 3 m by 4 m, at (6 m, 0 m)\nsurface path\n  shape path\n  build sand-set\n  water to \"lawn\"\n{}",
        lines.collect::<String>()
    )
}

#[test]
fn where_two_surfaces_meet() {
    let lip = "lip warning";
    let level = |level: &str| path(&format!("level {level} at north; fall 1:50 toward south"));
    check(
        Family::Falls,
        &[
            (level("-160 mm"), "", ""),
            (level("-166.4 mm"), "", ""),
            (level("-166.5 mm"), "", lip),
            (level("-259 mm"), "", lip),
            (level("-260 mm"), "", ""),
            (
                path("level -220 mm at east; fall 1:50 toward west"),
                "meets=; level=-160 mm at west; fall=1:50 toward east",
                "low-point error",
            ),
            // Along a common edge that falls, the water runs on.
            (
                path(
                    "level -280 mm at (6 m, 4 m); fall 1:50 toward west, cross 1:100 toward south",
                ),
                "meets=; level=-280 mm at (6 m, 4 m); fall=1:50 toward east, cross 1:100 toward south",
                "",
            ),
        ],
    );
}

#[test]
fn where_the_water_goes() {
    let uk = job("uk", "metric");
    let small = "shape court\n  rectangle 2 m by 2.5 m\n";
    let larger = "shape court\n  rectangle 2 m by 2.51 m\n";
    let front = "for=foot, front; water=to \"street gutter\"";
    check(
        Family::Falls,
        &[
            (String::new(), "water=", "outfall-missing advisory"),
            (String::new(), "water=; for=foot, covered", ""),
            (format!("{uk}{small}"), front, ""),
            (format!("{uk}{larger}"), front, "front-garden warning"),
            (larger.to_owned(), front, ""),
            (
                format!("{uk}{larger}"),
                "for=foot, front; water=to \"planting bed\"",
                "",
            ),
            (String::new(), &stone("weeps=every 610 mm"), ""),
            (
                String::new(),
                &stone("weeps=every 611 mm"),
                "weeps-missing warning",
            ),
            (String::new(), &stone("weeps="), "weeps-missing warning"),
            (
                String::new(),
                &stone("laid=running-bond, units 300 mm by 600 mm, along north"),
                "joints-across advisory",
            ),
            (
                String::new(),
                &stone("laid=running-bond, units 300 mm by 600 mm, along north, angle 45°"),
                "",
            ),
        ],
    );
}

#[test]
fn ground_that_wants_care() {
    let ground = |soil: &str| {
        site(&format!(
            "soil {soil}; datum \"hall floor\"; ground -200 mm"
        ))
    };
    let bare = "build sand-set\n  # no fabric\n";
    let open = "build sand-set\n  base open-stone, 150 mm, beyond 150 mm\n  # no fabric\n";
    let dust = "build sand-set\n  paving concrete-paver, 60 mm\n  bed sharp-sand, 30 mm\n  base stone-dust, 150 mm compacted, lifts 2, beyond 150 mm\n  fabric geotextile\n";
    let low = |level: &str| {
        site(&format!(
            "soil gravel, firm; datum \"hall floor\"; ground {level}"
        ))
    };
    check(
        Family::Ground,
        &[
            (ground("gravel, tilled"), "", "soil-loose warning"),
            (ground("gravel, soft"), "", "soil-loose warning"),
            (ground("fill"), "", "soil-loose warning"),
            (ground("fill, firm"), "", ""),
            (ground("peat"), "", "soil-organic warning"),
            (ground("clay, expansive"), "", "soil-expansive advisory"),
            (
                format!("{}{bare}", ground("clay")),
                "",
                "fabric-missing advisory",
            ),
            (format!("{}{bare}", ground("loam")), "", ""),
            (
                format!("{}{open}", ground("loam")),
                "",
                "fabric-missing advisory",
            ),
            (format!("{}{open}", ground("gravel")), "", ""),
            (ground("clay; frost 500 mm"), "", ""),
            (
                format!("{}{dust}", ground("clay; frost 500 mm")),
                "",
                "frost-base advisory",
            ),
            (ground("clay; frost 0 mm"), "", ""),
            (ground("gravel; frost 500 mm"), "", ""),
            // The underside lies at -400 mm at the building, lower beyond.
            (low("-400 mm"), "", ""),
            (low("-425 mm"), "", ""),
            (low("-426 mm"), "", "ground-filled warning"),
        ],
    );
}

#[test]
fn permeable_paving_beside_the_building() {
    let near = |x: &str| {
        format!(
            "{PERMEABLE}shape walk\n  rectangle 2 m by 4 m, at ({x}, 0 m)\nsurface walk\n  shape walk\n  level -160 mm at north\n  build open-set\n"
        )
    };
    let membrane = PERMEABLE.replace("  permeable", "  membrane impermeable-liner\n  permeable");
    let soaking = "build=open-set; joint=8 mm, filled with chip-stone";
    check(
        Family::Levels,
        &[
            (PERMEABLE.to_owned(), soaking, "soak-near warning"),
            (membrane, soaking, ""),
            (near("9.199 m"), "", "soak-near warning"),
            (near("9.2 m"), "", ""),
        ],
    );
}
