//! The limits of bases and slabs where use, soil and frost add up.

use super::{E, SILENT, W, example, said};

/// What cars drive on wants more base where the ground is weak or freezes.
#[test]
fn a_drive_wants_more_base_on_weak_ground() {
    let thin = |soil: &str, used: &str, thickness: &str| {
        [
            ("soil         gravel, firm", soil.to_owned()),
            (
                "  meets        north",
                format!("  for {used}\n  meets        north"),
            ),
            ("100 mm compacted", thickness.to_owned()),
        ]
    };
    for (region, soil, used, thickness, wanted) in [
        ("general", "soil clay, wet", "drive", "149 mm compacted", E),
        ("general", "soil clay, wet", "drive", "199 mm compacted", W),
        (
            "general",
            "soil clay, wet",
            "drive",
            "8 in compacted",
            SILENT,
        ),
        (
            "general",
            "soil sand\n  frost 600 mm",
            "drive",
            "199 mm compacted",
            W,
        ),
        ("uk", "soil clay", "drive", "150 mm compacted", W),
        ("uk", "soil clay", "drive", "200 mm compacted", SILENT),
        ("us", "soil peat", "street", "249 mm compacted", W),
        ("us", "soil peat", "street", "10 in compacted", SILENT),
    ] {
        let changes = thin(soil, used, thickness);
        let changes = changes.each_ref().map(|(from, to)| (*from, to.as_str()));
        let text = example("base-thin", region, &changes);
        assert_eq!(
            said("base-thin", &text),
            wanted,
            "{soil} {used} {thickness}"
        );
    }
    let open = |soil: &str, thickness: &str| {
        let drive = "  build        sand-set\n  laid";
        let driven = format!("  for          drive\n{drive}");
        let changes = [
            ("soil         gravel, firm", soil),
            ("open-stone, 150 mm", thickness),
            (drive, &driven),
        ];
        said(
            "base-permeable",
            &example("base-permeable", "general", &changes),
        )
    };
    for (soil, thickness, wanted) in [
        ("soil gravel, firm", "open-stone, 200 mm", SILENT),
        ("soil clay, wet", "open-stone, 199 mm", E),
        ("soil clay, wet", "open-stone, 200 mm", W),
        ("soil clay, wet", "open-stone, 250 mm", SILENT),
    ] {
        assert_eq!(open(soil, thickness), wanted, "{soil} {thickness}");
    }
}

#[test]
fn a_street_wants_a_thicker_slab() {
    for (thickness, wanted) in [
        ("100 mm", W),
        ("149 mm", W),
        ("6 in", SILENT),
        ("150 mm", SILENT),
    ] {
        let slab = format!("slab-mix, {thickness}");
        let street = "  for street\n  movement-joints every 2 m";
        let changes = [
            ("slab-mix, 100 mm", slab.as_str()),
            ("  movement-joints every 2 m", street),
        ];
        let text = example("slab-thin", "general", &changes);
        assert_eq!(said("slab-thin", &text), wanted, "{thickness}");
    }
}
