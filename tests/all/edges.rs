//! Edges keep their names through add and cut, also where two outlines have
//! an edge in common.

use super::checked::checked;

/// A job whose yard is a rectangle of 7 m by 4 m with rounded corners and,
/// along its north side, what is added; what meets the building is given.
fn yard(strip: &str, meets: &str) -> String {
    format!(
        "job \"Yard\"\n  units        metric\n  region       uk\n\n\
         shape strip\n  rectangle    {strip}\n\n\
         shape yard\n  rectangle    7 m by 4 m, at (0 m, -4 m), corners 0.5 m\n  add          strip\n\n\
         surface yard\n  shape        yard\n  meets        {meets}\n  build        gravelled\n\n\
         build gravelled\n  surfacing    pea-gravel, 50 mm\n"
    )
}

#[test]
fn a_side_that_two_outlines_have_answers_to_both_names() {
    let whole = "7 m by 0.6 m, at (0 m, -0.6 m)";
    let short = "3 m by 0.6 m, at (2 m, -0.6 m)";
    let outside = "3 m by 0.6 m, at (2 m, 0 m)";
    for (strip, meets, length) in [
        // The strip squares the corners: its side is the whole north side.
        (whole, "strip.north", 7.0),
        (whole, "north", 6.0),
        (whole, "north and strip.north", 7.0),
        // It lies along a part of the north side only.
        (short, "strip.north", 3.0),
        (short, "north", 6.0),
        // It stands out, and the two sides have nothing in common.
        (outside, "strip.north", 3.0),
        (outside, "north", 3.0),
    ] {
        let yard = checked(&yard(strip, meets));
        let found = yard.figures().surfaces[0].building_m.expect("a length");
        assert!((found - length).abs() < 1e-9, "{strip}, {meets}: {found}");
    }
}

#[test]
fn the_base_is_widened_along_no_edge_at_the_building() {
    let text = yard("7 m by 0.6 m, at (0 m, -0.6 m)", "strip.north")
        + "  base         crushed-stone, 150 mm compacted, beyond 150 mm\n";
    // 7.3 m by 4.15 m, less what the two widened round corners leave out.
    let corners = 2.0 * (1.0 - std::f64::consts::FRAC_PI_4) * 0.65 * 0.65;
    let found = checked(&text).figures().surfaces[0].layers[1].area_m2;
    let found = found.expect("an area");
    assert!((found - (7.3 * 4.15 - corners)).abs() < 1e-9, "{found}");
}
