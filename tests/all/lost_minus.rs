//! A level whose minus is lost, and a border wider than its surface: nothing
//! that is dug, laid or ordered comes out below nought.

use drylay::report::takeoff_json;
use serde_json::Value;

use crate::checked::checked;
use crate::sound;

/// What no job has less than none of.
const AMOUNTS: &[&str] = &[
    "area_m2",
    "bank_m3",
    "deepest_m",
    "fabric_m2",
    "filled_in_m3",
    "joints_m3",
    "length_m",
    "loose_m3",
    "loose_volume_m3",
    "mass_kg",
    "needed",
    "ordered",
    "sheet_m2",
    "storage_m3",
    "units",
    "units_with_waste",
    "volume_m3",
];

/// The amounts below nought, each with the way to it.
fn below_nought(value: &Value, way: &str, found: &mut Vec<String>) {
    match value {
        Value::Object(own) => {
            for (key, value) in own {
                let way = format!("{way}.{key}");
                let amount = value.as_f64().filter(|_| AMOUNTS.contains(&key.as_str()));
                found.extend(
                    amount
                        .filter(|amount| *amount < 0.0)
                        .map(|amount| format!("{way}: {amount}")),
                );
                below_nought(value, &way, found);
            }
        }
        Value::Array(own) => own.iter().for_each(|value| below_nought(value, way, found)),
        _ => {}
    }
}

fn check(name: &str, text: &str) {
    let checked = checked(text);
    let document: Value =
        serde_json::from_str(&takeoff_json(checked.analysis())).expect("it is JSON");
    let mut found = Vec::new();
    below_nought(&document, "", &mut found);
    assert!(found.is_empty(), "{name}: {found:#?}\n{text}");
}

#[test]
fn what_lies_the_wrong_way_up_is_less_than_none_of_nothing() {
    let mut tried = 0;
    for (name, text) in sound::specs() {
        check(&name, &text);
        for key in ["invert ", "level ", "ground ", "from "] {
            for line in text
                .lines()
                .filter(|line| line.trim_start().starts_with(key))
            {
                let lost = line.replacen(" -", " ", 1);
                if lost != line {
                    tried += 1;
                    check(&name, &text.replacen(line, &lost, 1));
                }
            }
        }
    }
    assert!(tried > 60, "{tried}");
}

/// A trench and a channel that take a level of their own, above the ground and
/// far below it.
#[test]
fn open_runs_above_the_ground_order_nothing() {
    let trench = "  filled       open-stone\n  wrapped      geotextile\n  to           well-pipe";
    let channel = "  fall         1:200 toward east\n  to           lawn-pipe";
    for (name, before, key, inverts) in [
        (
            "terrace-to-dry-well",
            trench,
            "(0', 0')",
            ["30 in", "-7 in"],
        ),
        (
            "drive-to-soakaway",
            channel,
            "(0 m, 0 m)",
            ["300 mm", "-230 mm"],
        ),
    ] {
        let text = sound::spec(name);
        for invert in inverts {
            let stated = format!("  invert       {invert} at {key}\n{before}");
            let changed = text.replacen(before, &stated, 1);
            assert_ne!(changed, text, "{name}");
            check(name, &changed);
        }
    }
}

#[test]
fn a_border_wider_than_its_surface_leaves_no_field() {
    for (name, text) in sound::specs() {
        for line in text.lines().filter(|line| line.contains("rectangle")) {
            let narrow = line
                .replacen(" m by", " in by", 1)
                .replacen("' by", " in by", 1);
            check(&name, &text.replacen(line, &narrow, 1));
        }
    }
}
