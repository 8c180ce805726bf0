//! The limits of stone by its size, of drives at garages and of pools.

use super::{A, SILENT, W, example, said};

#[test]
fn a_joint_is_as_wide_as_the_stones_that_fill_it() {
    for (joint, wanted) in [
        ("19 mm, filled with open-stone", W),
        ("3/4 in, filled with open-stone", SILENT),
        ("20 mm, filled with open-stone", SILENT),
        ("59 mm, filled with permeable-ballast", W),
        ("60 mm, filled with permeable-ballast", SILENT),
        ("5 mm, filled with chip-stone", SILENT),
        ("4 mm, filled with chip-stone", W),
    ] {
        let changes = [("2 mm, filled with joint-sand", joint)];
        let text = example("joint-narrow", "general", &changes);
        assert_eq!(said("joint-narrow", &text), wanted, "{joint}");
    }
}

/// What a supplier sells under a name of its own may be of any size.
#[test]
fn stone_of_another_name_is_of_no_known_size() {
    let joint = [(
        "2 mm, filled with joint-sand",
        "8 mm, filled with fine-stone",
    )];
    let text = example("joint-narrow", "general", &joint);
    let like = "\nmaterial fine-stone\n  like open-stone\n";
    assert_eq!(said("joint-narrow", &(text + like)), SILENT);
}

#[test]
fn the_stones_of_mortar_are_smaller_than_its_joint() {
    for (part, joint, wanted) in [
        ("chip-stone", "16 mm, filled", W),
        ("chip-stone", "17 mm, filled", SILENT),
        ("concrete-stone", "30 mm, filled", W),
        ("concrete-stone", "34 mm, filled", SILENT),
    ] {
        let part = format!("3 {part}");
        let changes = [("3 sharp-sand", part.as_str()), ("10 mm, filled", joint)];
        let text = example("aggregate-coarse", "general", &changes);
        assert_eq!(said("aggregate-coarse", &text), wanted, "{part} {joint}");
    }
}

#[test]
fn a_car_gets_over_a_low_edge_into_a_garage() {
    let drive = "  for          drive\n  level        ";
    for (level, door, wanted) in [
        ("-40 mm", "  door         at north\n", SILENT),
        ("-41 mm", "  door         at north\n", W),
        ("-1 1/2 in", "  door         at north\n", SILENT),
        ("-100 mm", "", A),
    ] {
        let level = format!("{drive}{level}");
        let changes = [
            ("hall floor", "garage floor"),
            ("  level        -190 mm", level.as_str()),
            ("  door         at north\n", door),
        ];
        let text = example("door-step", "general", &changes);
        assert_eq!(said("door-step", &text), wanted, "{level} {door}");
    }
    // A damp course there says that no door is.
    let level = format!("{drive}-100 mm");
    let changes = [
        ("hall floor\"", "garage floor\"\n  damp-course  50 mm"),
        ("  level        -190 mm", level.as_str()),
        ("  door         at north\n", ""),
    ];
    let text = example("door-step", "general", &changes);
    assert_eq!(said("door-step", &text), SILENT);
}

#[test]
fn little_of_the_water_may_run_into_a_pool() {
    let at = "at (1.5 m, 1 m)";
    let channel = "  channel      along pool.north\n";
    for (place, shape, wanted) in [
        ("at (1.5 m, 2 m)", "pool", SILENT),
        ("at (1.5 m, 1.7 m)", "pool", W),
        ("at (1.5 m, 1.7 m)", "spa", W),
        ("at (1.5 m, 1.7 m)", "window-well", W),
        ("at (1.5 m, 1.7 m)", "tree-pit", SILENT),
    ] {
        let changes = [(channel, ""), (at, place), ("pool", shape)];
        let text = example("pool-fed", "general", &changes);
        assert_eq!(said("pool-fed", &text), wanted, "{place} {shape}");
    }
    // Said, it is meant.
    let changes = [(channel, ""), ("planting bed", "the pool overflow")];
    assert_eq!(
        said("pool-fed", &example("pool-fed", "general", &changes)),
        SILENT
    );
}
