//! What stands in the base of paving is not base, and what is dug there is dug
//! once: kerbs in concrete, channels on their beds, trenches; by hand.

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::vocabulary::Role;

/// A level court of 6 by 4 m whose base lies from 100 to 300 mm below the
/// finish and goes 300 mm past the free edges.
fn court(entries: &str, more: &str) -> Arc<Analysis> {
    let text = format!(
        "job \"Court\"\n  units metric\n  region uk\n\n\
         site\n  soil gravel, firm\n  swell 25 %\n  datum \"sill\"\n  ground 0 mm\n\n\
         shape court\n  rectangle 6 m by 4 m\n\n\
         surface court\n  shape court\n  level 0 mm\n  build sand-set\n{entries}\n\
         build sand-set\n  paving concrete-paver, 60 mm, waste 5 %\n  bed sharp-sand, 40 mm\n  \
         base crushed-stone, 200 mm compacted, beyond 300 mm\n\n\
         build strip\n  paving concrete-paver, 60 mm, waste 5 %\n  bed sharp-sand, 40 mm\n  \
         base crushed-stone, 300 mm compacted, beyond 300 mm\n\n\
         material kerb\n  like concrete-kerb\n  unit 125 mm by 255 mm by 915 mm\n\n\
         mix haunch-mix\n  for bed\n  parts 1 portland-cement : 2 sharp-sand : 4 gravel\n\n{more}"
    );
    Analyser::new().analyse("/court.patio", text.as_str().into(), &NoFiles, "2027-04-12")
}

fn base_m3(analysis: &Analysis, surface: usize) -> f64 {
    let base = analysis.figures.surfaces[surface].layer(Role::Base);
    base.and_then(|base| base.volume_m3).expect("it is known")
}

/// The base with nothing in it: mitred at its corners.
const WHOLE_M3: f64 = 6.6 * 4.6 * 0.2;

#[test]
fn what_stands_in_the_base_is_not_base() {
    let channel = |fall: &str| {
        format!(
            "drain foot\n  channel polymer-channel, 100 mm by 80 mm clear, 140 mm over all, along court.south\n  \
             bedded in haunch-mix, 100 mm round\n{fall}  to \"ditch\"\n"
        )
    };
    for (what, entries, more, taken) in [
        ("nothing", "", String::new(), 0.0),
        // Spiked down, it takes nothing.
        ("an edge", "  edging steel-edge, along south\n", String::new(), 0.0),
        // Kerb and bed reach 355 mm down, through all of the base.
        (
            "a kerb on its bed",
            "  edging kerb, along south, on haunch-mix 100 mm\n",
            String::new(),
            6.0 * 0.125 * 0.2,
        ),
        // The top of the haunch lies half way down the base.
        (
            "a kerb with its haunch",
            "  edging kerb, along south, on haunch-mix 100 mm, haunched 100 mm wide to 200 mm below the top\n",
            String::new(),
            6.0 * (0.125 * 0.2 + 0.1 * 0.1),
        ),
        // Standing proud, it reaches 50 mm less far down and still through.
        (
            "a kerb that stands proud",
            "  edging kerb, along south, on haunch-mix 20 mm, 50 mm above\n",
            String::new(),
            6.0 * 0.125 * 0.125,
        ),
        // Its base goes no further than 300 mm: a haunch past it takes none.
        (
            "a wide haunch",
            "  edging kerb, along south, on haunch-mix 100 mm, haunched 400 mm wide to 50 mm below the top\n",
            String::new(),
            6.0 * 0.3 * 0.2,
        ),
        // 80 mm deep with a wall of 20 mm, on 100 mm: 100 mm into the base,
        // 240 mm wide inside the edge and 100 mm outside.
        ("a channel", "", channel(""), 6.0 * 0.34 * 0.1),
        // From 80 to 140 mm: on the average 130 mm into the base.
        ("a channel with a fall", "", channel("  fall 1:100 toward east\n"), 6.0 * 0.34 * 0.13),
        (
            "a trench",
            "",
            "drain foot\n  trench 250 mm wide, 600 mm deep, along court.south\n  filled open-stone\n".to_owned(),
            6.0 * 0.25 * 0.2,
        ),
        (
            "what is there already",
            "",
            format!("{}  existing\n", channel("")),
            0.0,
        ),
    ] {
        let found = base_m3(&court(entries, &more), 0);
        assert!(
            (found - (WHOLE_M3 - taken)).abs() < 1e-9,
            "{what}: {} taken, by hand {taken}",
            WHOLE_M3 - found
        );
    }
}

#[test]
fn a_kerb_stands_in_the_base_of_a_border() {
    let entries = |edging: &str| {
        format!(
            "  joint 0 mm\n  edging {edging}\n  border clay-paver, soldier, units 200 mm by 100 mm, along south, on strip\n"
        )
    };
    let bare = court(&entries("steel-edge, along south"), "");
    let kerb = court(&entries("kerb, along south, on haunch-mix 100 mm"), "");
    // From 100 to 355 mm down, in a base that reaches to 400.
    let taken = base_m3(&bare, 1) - base_m3(&kerb, 1);
    assert!((taken - 6.0 * 0.125 * 0.255).abs() < 1e-9, "{taken}");
}

#[test]
fn a_trench_is_dug_from_where_the_base_is_dug_to() {
    let bank = |wide: &str, edge: &str| {
        let analysis = court(
            "  meets north\n",
            &format!(
                "drain foot\n  trench {wide} wide, 600 mm deep, along court.{edge}\n  filled open-stone\n"
            ),
        );
        analysis.figures.drains[0].dig.expect("it is dug").bank_m3
    };
    for (wide, edge, wanted) in [
        // All of it lies where the base is dug for, 300 mm down.
        ("300 mm", "south", 6.0 * 0.3 * 0.3),
        // 200 mm of it lie beyond.
        ("500 mm", "south", 6.0 * (0.3 * 0.3 + 0.2 * 0.6)),
        // Past the building edge nothing is dug.
        ("300 mm", "north", 6.0 * 0.3 * 0.6),
    ] {
        let found = bank(wide, edge);
        assert!(
            (found - wanted).abs() < 1e-9,
            "{wide} {edge}: {found}, by hand {wanted}"
        );
    }
}
