//! More rules just under, at and just over their limits, and what silences
//! them: in the keeping example of a rule some values are replaced, and the
//! rule speaks or is silent.

use drylay::rules::complete;

use crate::checked::checked;
use crate::limits::{A, E, SILENT, W, example, said};
use crate::sound;

/// A rule, a region, what is replaced in its keeping example, and what the
/// rule then says.
type Row = (
    &'static str,
    &'static str,
    &'static [(&'static str, &'static str)],
    Option<&'static str>,
);

const ROWS: &[Row] = &[
    // Falls and levels.
    (
        "fall-permeable",
        "general",
        &[("5 % toward", "1:20 toward")],
        SILENT,
    ),
    (
        "fall-permeable",
        "general",
        &[("5 % toward", "5.1 % toward")],
        W,
    ),
    (
        "fall-permeable",
        "general",
        &[("5 % toward", "0 % toward")],
        SILENT,
    ),
    ("siding-close", "general", &[("-110 mm", "-110.1 mm")], W),
    ("siding-close", "us", &[("-110 mm", "-109.2 mm")], SILENT),
    ("siding-close", "general", &[("-110 mm", "-170 mm")], W),
    // Base.
    (
        "base-permeable",
        "general",
        &[("open-stone, 150 mm", "open-stone, 149 mm")],
        E,
    ),
    (
        "base-permeable",
        "general",
        &[("open-stone, 150 mm", "open-stone, 6 in")],
        SILENT,
    ),
    (
        "base-permeable",
        "general",
        &[("  meets        north", "  for drive\n  meets north")],
        E,
    ),
    (
        "base-permeable",
        "us",
        &[
            ("  meets        north", "  for drive\n  meets north"),
            ("open-stone, 150 mm", "open-stone, 8 in"),
        ],
        SILENT,
    ),
    (
        "base-permeable",
        "uk",
        &[
            ("  meets        north", "  for drive\n  meets north"),
            ("open-stone, 150 mm", "open-stone, 199 mm"),
        ],
        W,
    ),
    (
        "slab-thin",
        "general",
        &[("slab-mix, 100 mm", "slab-mix, 99 mm")],
        W,
    ),
    (
        "slab-thin",
        "general",
        &[("slab-mix, 100 mm", "slab-mix, 4 in")],
        SILENT,
    ),
    // Units.
    (
        "unit-thin",
        "general",
        &[("concrete-paver, 60 mm", "concrete-paver, 80 mm")],
        SILENT,
    ),
    (
        "unit-thin",
        "us",
        &[("concrete-paver, 60 mm", "concrete-paver, 2.37 in")],
        SILENT,
    ),
    ("unit-slender", "us", &[("240 mm", "9.44 in")], SILENT),
    ("unit-slender", "us", &[("240 mm", "9.45 in")], W),
    (
        "density-odd",
        "general",
        &[("2300 kg/m3", "2640 kg/m3")],
        SILENT,
    ),
    ("density-odd", "general", &[("2300 kg/m3", "2660 kg/m3")], A),
    (
        "density-odd",
        "us",
        &[("2300 kg/m3", "165 lb/cu ft")],
        SILENT,
    ),
    ("density-odd", "us", &[("2300 kg/m3", "109 lb/cu ft")], A),
    (
        "mass-disagrees",
        "general",
        &[("mass         100 kg/m2", "mass 105.6 kg/m2")],
        SILENT,
    ),
    (
        "mass-disagrees",
        "general",
        &[("mass         100 kg/m2", "mass 105.7 kg/m2")],
        W,
    ),
    (
        "mass-disagrees",
        "general",
        &[("mass         100 kg/m2", "mass 86.4 kg/m2")],
        SILENT,
    ),
    (
        "mass-disagrees",
        "general",
        &[("mass         100 kg/m2", "mass 86.3 kg/m2")],
        W,
    ),
    (
        "mass-disagrees",
        "us",
        &[("mass         100 kg/m2", "mass 20 lb/sq ft")],
        SILENT,
    ),
    (
        "mass-disagrees",
        "us",
        &[("mass         100 kg/m2", "mass 22 lb/sq ft")],
        W,
    ),
    // Of one piece of 300 by 450 mm: 12.96 kg.
    (
        "mass-disagrees",
        "general",
        &[("mass         100 kg/m2", "mass 14.2 kg")],
        SILENT,
    ),
    (
        "mass-disagrees",
        "general",
        &[("mass         100 kg/m2", "mass 14.3 kg")],
        W,
    ),
    (
        "brick-class",
        "general",
        &[("class        paving", "class building")],
        W,
    ),
    (
        "brick-class",
        "general",
        &[("class        paving", "class facing")],
        W,
    ),
    (
        "brick-class",
        "general",
        &[("class        paving", "class heavy-paving")],
        SILENT,
    ),
    (
        "brick-class",
        "us",
        &[
            ("like         clay-paver", "like concrete-paver"),
            ("class        paving", "class facing"),
        ],
        SILENT,
    ),
    // Mixes.
    (
        "mix-life",
        "general",
        &[("laid in 2 h", "laid in 150 min")],
        SILENT,
    ),
    (
        "mix-life",
        "general",
        &[("laid in 2 h", "laid in 151 min")],
        W,
    ),
    (
        "mix-life",
        "us",
        &[(
            "batch        100 L, laid in 2 h",
            "pot-life 2 h\n  batch 3 cu ft, laid in 2 h",
        )],
        SILENT,
    ),
    (
        "mix-life",
        "us",
        &[(
            "batch        100 L, laid in 2 h",
            "pot-life 4 h\n  batch 3 cu ft, laid in 3 h",
        )],
        SILENT,
    ),
    (
        "mix-life",
        "us",
        &[(
            "batch        100 L, laid in 2 h",
            "pot-life 1 h\n  batch 3 cu ft, laid in 61 min",
        )],
        W,
    ),
    (
        "mix-life",
        "us",
        &[("batch        100 L, laid in 2 h", "batch 100 L")],
        SILENT,
    ),
    (
        "bag-mass",
        "general",
        &[("makes 12.5 L", "makes 14.9 L")],
        SILENT,
    ),
    ("bag-mass", "general", &[("makes 12.5 L", "makes 15 L")], W),
    ("bag-mass", "general", &[("makes 12.5 L", "makes 11 L")], W),
    (
        "bag-mass",
        "us",
        &[(
            "by bag of 25 kg, makes 12.5 L",
            "by bag of 80 lb, makes 0.65 cu ft",
        )],
        SILENT,
    ),
    (
        "bag-mass",
        "us",
        &[(
            "by bag of 25 kg, makes 12.5 L",
            "by bag of 80 lb, makes 0.9 cu ft",
        )],
        W,
    ),
    (
        "premix-sand",
        "general",
        &[("1 portland-cement", "1 bagged-mortar")],
        W,
    ),
    // Joints.
    (
        "joint-open",
        "general",
        &[("joint        12 mm", "joint 13 mm")],
        SILENT,
    ),
    (
        "joint-open",
        "general",
        &[("joint        12 mm", "joint 13.1 mm")],
        W,
    ),
    (
        "joint-open",
        "us",
        &[("joint        12 mm", "joint 1/2 in")],
        SILENT,
    ),
    (
        "joint-open",
        "us",
        &[("joint        12 mm", "joint 5/8 in")],
        W,
    ),
    (
        "joint-open",
        "general",
        &[
            ("joint        12 mm", "joint 20 mm"),
            ("foot, accessible", "foot"),
        ],
        SILENT,
    ),
    (
        "movement-missing",
        "general",
        &[("  movement-joints every 3 m\n", "")],
        W,
    ),
    (
        "movement-missing",
        "general",
        &[
            ("  movement-joints every 3 m\n", ""),
            ("rectangle    6 m by 4 m", "rectangle 3.7 m by 3.7 m"),
        ],
        SILENT,
    ),
    (
        "movement-missing",
        "general",
        &[
            ("  movement-joints every 3 m\n", ""),
            ("rectangle    6 m by 4 m", "rectangle 3.71 m by 3 m"),
        ],
        W,
    ),
    (
        "movement-missing",
        "us",
        &[
            ("  movement-joints every 3 m\n", ""),
            ("rectangle    6 m by 4 m", "rectangle 12' by 12'"),
        ],
        SILENT,
    ),
    (
        "isolation-missing",
        "general",
        &[("  isolation-joint 12 mm\n", "")],
        W,
    ),
    (
        "isolation-missing",
        "general",
        &[
            ("  isolation-joint 12 mm\n", ""),
            ("  meets        north\n", ""),
        ],
        SILENT,
    ),
    (
        "slab-panel",
        "general",
        &[
            ("slab-mix, 125 mm", "slab-mix, 125 mm, joints every 3.7 m"),
            ("  movement-joints every 3 m\n", ""),
        ],
        SILENT,
    ),
    (
        "slab-panel",
        "general",
        &[
            ("slab-mix, 125 mm", "slab-mix, 125 mm, joints every 3.8 m"),
            ("  movement-joints every 3 m\n", ""),
        ],
        W,
    ),
    (
        "slab-panel",
        "us",
        &[
            ("slab-mix, 125 mm", "slab-mix, 5 in, joints every 12'"),
            ("  movement-joints every 3 m\n", ""),
        ],
        SILENT,
    ),
    (
        "slab-panel",
        "general",
        &[
            ("slab-mix, 125 mm", "slab-mix, 100 mm, joints every 3.6 m"),
            ("  movement-joints every 3 m\n", ""),
        ],
        SILENT,
    ),
    (
        "slab-panel",
        "general",
        &[
            ("slab-mix, 125 mm", "slab-mix, 100 mm, joints every 3.61 m"),
            ("  movement-joints every 3 m\n", ""),
        ],
        W,
    ),
    // The slab's own joints count before the paving's.
    (
        "slab-panel",
        "general",
        &[("slab-mix, 125 mm", "slab-mix, 125 mm, joints every 5 m")],
        W,
    ),
    (
        "slab-panel",
        "general",
        &[
            ("every 3 m", "every 3 m"),
            ("rectangle    6 m by 4 m", "rectangle 6 m by 2 m"),
        ],
        SILENT,
    ),
    (
        "slab-panel",
        "general",
        &[
            ("every 3 m", "every 3.1 m"),
            ("rectangle    6 m by 4 m", "rectangle 6 m by 2 m"),
        ],
        W,
    ),
    // Ordering.
    (
        "quantity-unknown",
        "general",
        &[("stack-bond, units 300 mm by 600 mm", "stack-bond")],
        W,
    ),
    (
        "quantity-unknown",
        "general",
        &[(
            "stack-bond, units 300 mm by 600 mm",
            "irregular, stones about 400 mm",
        )],
        SILENT,
    ),
    (
        "quantity-unknown",
        "general",
        &[("stack-bond, units 300 mm by 600 mm", "irregular")],
        W,
    ),
    (
        "density-unknown",
        "general",
        &[(
            "  density      2100 kg/m3\n  sold         by t",
            "  sold by m2",
        )],
        A,
    ),
    ("sold-unclear", "general", &[("by m2", "by m")], W),
];

#[test]
fn rules_speak_beyond_their_limits_only() {
    let mut reported = String::new();
    for (rule, region, changes, wanted) in ROWS {
        let said = said(rule, &example(rule, region, changes));
        if said != *wanted {
            reported += &format!("{rule}, {region}, {changes:?}: {said:?}, not {wanted:?}\n");
        }
    }
    assert!(reported.is_empty(), "\n{reported}");
}

/// A sound spec with some of its text replaced, and what a rule says of it.
fn in_sound(name: &str, changes: &[(&str, &str)], rule: &str) -> Option<&'static str> {
    let mut text = sound::spec(name);
    for (from, to) in changes {
        assert!(text.contains(from), "{name}: no `{from}`");
        text = text.replacen(from, to, 1);
    }
    said(rule, &text)
}

#[test]
fn beds_and_joints_are_judged_by_what_lies_on_them() {
    let brick = "porch-veneer";
    let stone = "accessible-terrace";
    for (name, from, to, rule, wanted) in [
        (
            brick,
            "bed-mix, 3/4 in",
            "bed-mix, 1 in",
            "bed-thick",
            SILENT,
        ),
        (
            brick,
            "bed-mix, 3/4 in",
            "bed-mix, 1 1/16 in",
            "bed-thick",
            W,
        ),
        (
            brick,
            "bed-mix, 3/4 in",
            "bed-mix, 3/8 in",
            "bed-thin",
            SILENT,
        ),
        (brick, "bed-mix, 3/4 in", "bed-mix, 5/16 in", "bed-thin", W),
        (
            stone,
            "bed-mix, 1 1/4 in",
            "bed-mix, 2 in",
            "bed-thick",
            SILENT,
        ),
        (
            stone,
            "bed-mix, 1 1/4 in",
            "bed-mix, 2 1/16 in",
            "bed-thick",
            W,
        ),
        (
            stone,
            "bed-mix, 1 1/4 in",
            "bed-mix, 3/4 in",
            "bed-thin",
            SILENT,
        ),
        (stone, "bed-mix, 1 1/4 in", "bed-mix, 5/8 in", "bed-thin", W),
        (
            "flags-on-sand",
            "sharp-sand, 40 mm",
            "sharp-sand, 50 mm",
            "bed-thick",
            SILENT,
        ),
        (
            "flags-on-sand",
            "sharp-sand, 40 mm",
            "sharp-sand, 52 mm",
            "bed-thick",
            W,
        ),
        (
            brick,
            "joint        3/8 in",
            "joint 1/4 in",
            "joint-narrow",
            SILENT,
        ),
        (
            brick,
            "joint        3/8 in",
            "joint 3/16 in",
            "joint-narrow",
            W,
        ),
        (
            brick,
            "joint        3/8 in",
            "joint 1/2 in",
            "joint-wide",
            SILENT,
        ),
        (
            brick,
            "joint        3/8 in",
            "joint 9/16 in",
            "joint-wide",
            W,
        ),
        (
            stone,
            "joint        3/8 in",
            "joint 3/16 in",
            "joint-narrow",
            SILENT,
        ),
        (
            stone,
            "joint        3/8 in",
            "joint 1/8 in",
            "joint-narrow",
            W,
        ),
        (
            stone,
            "joint        3/8 in",
            "joint 1 in",
            "joint-wide",
            SILENT,
        ),
        (
            stone,
            "joint        3/8 in",
            "joint 1 1/16 in",
            "joint-wide",
            W,
        ),
        (
            "permeable-drive",
            "joint        6 mm",
            "joint 5.9 mm",
            "joint-narrow",
            W,
        ),
        (
            "permeable-drive",
            "joint        6 mm",
            "joint 13 mm",
            "joint-wide",
            SILENT,
        ),
        (
            "permeable-drive",
            "joint        6 mm",
            "joint 14 mm",
            "joint-wide",
            W,
        ),
        (
            "brick-on-sand",
            "bed          concrete-sand",
            "bed mason-sand",
            "bed-fines",
            W,
        ),
        (
            "brick-on-sand",
            "filled with joint-sand",
            "filled with bagged-mortar",
            "bed-joint-clash",
            W,
        ),
        (
            "brick-on-sand",
            "concrete-sand, 1 in",
            "concrete-sand, 1 in, beyond 6 in",
            "edging-bed",
            W,
        ),
        (
            "brick-on-sand",
            "open-stone, 8 in",
            "gravel, 8 in",
            "base-unsuitable",
            W,
        ),
        (
            "flags-on-mortar-bed",
            "  bond         priming-slurry, 2 mm\n",
            "",
            "bond-missing",
            A,
        ),
        (
            "brick-on-sand",
            "clay-paver, 2 1/4 in",
            "clay-paver, 2 1/4 in, existing",
            "waste-odd",
            SILENT,
        ),
    ] {
        assert_eq!(in_sound(name, &[(from, to)], rule), wanted, "{name}: {to}");
    }
}

#[test]
fn traffic_asks_for_thicker_and_shorter_units() {
    let street = (
        "  meets        west\n",
        "  for          street\n  meets        west\n",
    );
    let paver = "concrete-paver, 60 mm";
    for (thick, unit_thin) in [
        ("79 mm", W),
        ("80 mm", SILENT),
        ("3 1/8 in", SILENT),
        ("3.1 in", W),
    ] {
        let thick = format!("concrete-paver, {thick}");
        let changes = [street, (paver, thick.as_str())];
        assert_eq!(
            in_sound("courtyard-1-40", &changes, "unit-thin"),
            unit_thin,
            "{thick}"
        );
    }
    for (units, wanted) in [("200 mm by 240 mm", SILENT), ("200 mm by 241 mm", W)] {
        let units = format!("units {units}");
        let changes = [
            street,
            (paver, "concrete-paver, 80 mm"),
            ("units 200 mm by 200 mm", units.as_str()),
        ];
        assert_eq!(
            in_sound("courtyard-1-40", &changes, "unit-slender"),
            wanted,
            "{units}"
        );
    }
    let classed = [
        ("for          foot, seating", "for          street"),
        ("class        paving", "class        heavy-paving"),
    ];
    assert_eq!(in_sound("brick-on-sand", &classed[..1], "brick-class"), W);
    assert_eq!(in_sound("brick-on-sand", &classed, "brick-class"), SILENT);
}

#[test]
fn a_channel_takes_the_water_that_comes_to_it() {
    let threshold = "level-threshold";
    let backward = ("1:80 away from north", "1:80 toward north");
    let none = ("  channel      along north\n", "");
    let elsewhere = ("channel      along north", "channel      along south");
    for (changes, rule, wanted) in [
        (&[backward][..], "fall-backward", SILENT),
        (&[backward, none], "fall-backward", E),
        (&[backward, elsewhere], "fall-backward", E),
        (&[none], "level-high", E),
        (&[elsewhere], "level-high", E),
        (
            &[("  weeps        every 600 mm\n", "")],
            "weeps-missing",
            SILENT,
        ),
        (
            &[("  weeps        every 600 mm\n", ""), none],
            "weeps-missing",
            // A British job borrows the American figure.
            A,
        ),
        (
            &[(
                "  water        to \"soakaway at the foot of the garden\"\n",
                "",
            )],
            "outfall-missing",
            W,
        ),
        (
            &[
                (
                    "  water        to \"soakaway at the foot of the garden\"\n",
                    "",
                ),
                none,
            ],
            "outfall-missing",
            A,
        ),
        // Too flat a fall stays too flat, whichever way it runs.
        (
            &[("1:80 away from north", "1:81 toward north")],
            "fall-flat",
            W,
        ),
        // A step at the door is one with a channel before it.
        (&[("-10 mm at north", "-221 mm at north")], "door-step", A),
    ] {
        assert_eq!(in_sound(threshold, changes, rule), wanted, "{changes:?}");
    }
}

#[test]
fn a_channel_drains_a_valley_between_surfaces() {
    let valley = |channel: &str| {
        complete(&format!(
            "shape path\n  rectangle 3 m by 4 m, at (6 m, 0 m)\n\nsurface court\n  # no meets\n  level -160 mm at west\n  fall 1:50 toward east\n  build sand-set\n  water to \"bed\"\n\nsurface path\n  shape path\n  level -220 mm at east\n  fall 1:50 toward west\n  build sand-set\n  water to \"bed\"\n{channel}"
        ))
        .text
    };
    assert_eq!(said("low-point", &valley("")), E);
    assert_eq!(said("low-point", &valley("  channel along west\n")), SILENT);
    assert_eq!(said("low-point", &valley("  channel along east\n")), E);
}

#[test]
fn soakaways_keep_away_from_buildings() {
    // The terrace stands against the building along y = 0, from x = 0 to 8 m.
    for (at, wanted) in [
        ("(4 m, -5 m)", SILENT),
        ("(4 m, -4.99 m)", W),
        ("(12.99 m, 0 m)", W),
        ("(13 m, 0 m)", SILENT),
        ("(11 m, -4 m)", SILENT),
        ("(11 m, -3.9 m)", W),
    ] {
        let change = [("(4 m, -9 m)", at)];
        assert_eq!(
            in_sound("level-threshold", &change, "soak-near"),
            wanted,
            "{at}"
        );
    }
    let several = [(
        "soakaway     (4 m, -9 m)",
        "soakaway (4 m, -1 m)\n  soakaway (4 m, -2 m)",
    )];
    let text = sound::spec("level-threshold").replacen(several[0].0, several[0].1, 1);
    let found = checked(&text);
    let of_rule = found
        .findings()
        .iter()
        .filter(|one| one.rule == "soak-near");
    assert_eq!(of_rule.count(), 2);
}

#[test]
fn veneer_lets_american_paving_lie_higher() {
    let veneer = "walls        masonry-veneer";
    for (region, walls, level, wanted) in [
        ("us", veneer, "-4 in", SILENT),
        ("us", veneer, "-3 15/16 in", SILENT), // 100 mm is the kinder twin
        ("us", veneer, "-3 7/8 in", W),
        ("us", "walls        masonry", "-5 7/8 in", W),
        ("us", "walls        masonry", "-6 in", SILENT),
        ("general", veneer, "-5 7/8 in", W),
        ("general", veneer, "-6 in", SILENT),
    ] {
        let region = format!("region       {region}");
        let level = format!("{level} at north");
        let changes = [
            ("region       us", region.as_str()),
            (veneer, walls),
            ("-4 in at north", level.as_str()),
        ];
        assert_eq!(
            in_sound("porch-veneer", &changes, "level-high"),
            wanted,
            "{walls} {level}"
        );
    }
}

#[test]
fn inside_corners_want_their_joints() {
    let jointed = ", corners jointed";
    let spec = "irregular-flagstone";
    assert_eq!(in_sound(spec, &[(jointed, "")], "re-entrant"), A);
    assert_eq!(in_sound(spec, &[], "re-entrant"), SILENT);
    let existing = [(jointed, ", existing")];
    assert_eq!(in_sound(spec, &existing, "re-entrant"), SILENT);
}

#[test]
fn new_words_are_held_to_what_they_mean() {
    let brick = "class        paving";
    let porch = "base         crushed-stone, 4 in compacted";
    for (name, from, to, rule) in [
        ("brick-on-sand", brick, "mass 4 in", "dimension-wrong"),
        ("brick-on-sand", brick, "mass 5", "unit-missing"),
        ("brick-on-sand", brick, "mass 0 lb", "value-range"),
        ("brick-on-sand", brick, "class fancy", "word-unknown"),
        (
            "porch-veneer",
            porch,
            "base crushed-stone, 4 in compacted, joints every 8'",
            "word-stray",
        ),
        (
            "porch-veneer",
            porch,
            "base crushed-stone, 4 in compacted, corners jointed",
            "word-stray",
        ),
        (
            "porch-veneer",
            "joints every 8'",
            "joints every 8 lb",
            "dimension-wrong",
        ),
        (
            "porch-veneer",
            "walls        masonry-veneer",
            "walls wood",
            "word-unknown",
        ),
        (
            "porch-veneer",
            "laid in 2 h",
            "laid in 2 in",
            "dimension-wrong",
        ),
        (
            "level-threshold",
            "channel      along north",
            "channel along nrth",
            "name-unknown",
        ),
        (
            "level-threshold",
            "soakaway     (4 m, -9 m)",
            "soakaway (4, -9)",
            "unit-missing",
        ),
    ] {
        assert!(in_sound(name, &[(from, to)], rule).is_some(), "{to}");
    }
}
