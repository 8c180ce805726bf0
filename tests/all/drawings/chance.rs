//! Jobs that chance makes up, to be drawn.

use std::fmt::Write;

use crate::random::Random;

/// A job of one to three surfaces, as chance has it.
pub fn random_job(random: &mut Random) -> String {
    let is_metric = random.once_in(2);
    let (units, region) = match is_metric {
        true => ("metric", *random.pick(&["uk", "au", "general"])),
        false => ("imperial", "us"),
    };
    let title = *random.pick(&[
        "Yard",
        "A court whose title goes on for longer than any block",
        "<b>&",
    ]);
    let mut text = format!("job \"{title}\"\n  units {units}\n  region {region}\n");
    if random.once_in(2) {
        text += "site\n  datum \"sill\"\n";
        if random.once_in(2) {
            text += "  ground -300 mm at (0 m, 0 m), falling 1:80 toward south\n";
        }
        text += if random.once_in(3) {
            "  north 30°\n"
        } else {
            ""
        };
        text += if random.once_in(4) {
            "  soakaway at (-3 m, -6 m)\n"
        } else {
            ""
        };
    }
    text += "build flags\n  paving concrete-paver, 50 mm\n  bed sharp-sand, 30 mm\n  base crushed-stone, 150 mm\n";
    text += "build loose\n  surfacing pea-gravel, 50 mm\n  base crushed-stone, 100 mm\n";
    text += "build cast\n  slab concrete, 100 mm\n  base crushed-stone, 100 mm\n";
    let count = 1 + random.below(3);
    let mut north = 0.0;
    for number in 0..count {
        let (wide, deep) = (random.step(1.0, 14.0, 0.05), random.step(0.8, 9.0, 0.05));
        shape(random, &mut text, number, (wide, deep), north);
        surface(random, &mut text, number);
        north -= deep
            + if random.once_in(2) {
                0.0
            } else {
                random.step(0.1, 3.0, 0.1)
            };
    }
    if random.once_in(3) {
        flight(random, &mut text);
    }
    if random.once_in(3) {
        drains(random, &mut text);
    }
    text
}

/// A channel or a pipe from the first surface, by way of a gully or not, to a
/// soakaway or a ditch; some of it not stated.
fn drains(random: &mut Random, text: &mut String) {
    let (x, y) = (random.step(2.0, 30.0, 0.1), random.step(-12.0, 4.0, 0.1));
    let has_gully = random.once_in(2);
    let to = *random.pick(&[
        "soak",
        "\"the ditch that runs along the lane behind the barn\"",
    ]);
    if random.once_in(2) {
        let _ = writeln!(
            text,
            "drain edge-channel\n  channel polymer-channel, 100 mm by 90 mm clear, along s0.north\n  \
             fall 1:200 toward east\n  to {}",
            if has_gully { "pot" } else { "run" }
        );
    }
    if has_gully {
        *text += "drain pot\n  gully in place, 300 mm, at (1 m, 0 m)\n  to run\n";
    }
    let _ = writeln!(
        text,
        "drain run\n  pipe plastic-pipe, 110 mm, from (1 m, 0 m) to ({x:.1} m, {y:.1} m)\n  to next"
    );
    for line in ["fall 1:80", "invert -700 mm at (1 m, 0 m)"] {
        if !random.once_in(4) {
            let _ = writeln!(text, "  {line}");
        }
    }
    let _ = writeln!(
        text,
        "drain next\n  pipe plastic-pipe, 110 mm, from ({x:.1} m, {y:.1} m) to ({:.1} m, {y:.1} m)\n  \
         fall 1:{}\n  invert -{} mm at ({x:.1} m, {y:.1} m)\n  to {to}",
        x + random.step(0.3, 9.0, 0.1),
        20 + random.below(200),
        random.step(900.0, 2500.0, 10.0),
    );
    if random.once_in(2) {
        let _ = writeln!(
            text,
            "drain side\n  pipe plastic-pipe, 110 mm, from ({:.1} m, {:.1} m) to ({x:.1} m, {y:.1} m)\n  \
             fall 1:60\n  invert -650 mm at ({:.1} m, {:.1} m)\n  to next",
            x - 1.5,
            y + 2.0,
            x - 1.5,
            y + 2.0,
        );
    }
    if to == "soak" {
        let _ = writeln!(
            text,
            "drain soak\n  soakaway 1.6 m by 1.2 m by 1 m, centre ({:.1} m, {y:.1} m)\n  \
             filled crate, voids 95 %",
            x + 9.0
        );
    }
}

fn flight(random: &mut Random, text: &mut String) {
    let (x, y) = (random.step(0.0, 8.0, 0.1), random.step(-8.0, 1.0, 0.1));
    let way = *random.pick(&["north", "east", "south", "bearing 30 deg"]);
    let _ = writeln!(
        text,
        "steps flight\n  from -{} mm\n  to -100 mm\n  at ({x:.1} m, {y:.1} m), climbing {way}\n  \
         width {:.1} m\n  going 350 mm\n  risers {}",
        random.step(200.0, 1500.0, 10.0),
        random.step(0.8, 3.0, 0.1),
        1 + random.below(9)
    );
    for line in [
        "tread york-stone, 50 mm, nosing 20 mm",
        "riser york-stone, 30 mm",
        "core concrete, down to base",
        "base crushed-stone, 150 mm compacted, beyond 150 mm, top 200 mm below the foot",
        "fall 1:60",
        "handrail left side",
    ] {
        if !random.once_in(4) {
            let _ = writeln!(text, "  {line}");
        }
    }
}

fn shape(
    random: &mut Random,
    text: &mut String,
    number: usize,
    (wide, deep): (f64, f64),
    north: f64,
) {
    let south = north - deep;
    let has_hole = random.once_in(3);
    if has_hole {
        let (x, y) = (
            wide * random.between(0.3, 0.7),
            north - deep * random.between(0.3, 0.7),
        );
        let size = 0.2 * wide.min(deep);
        let _ = match random.once_in(2) {
            true => writeln!(
                text,
                "shape pit{number}\n  circle radius {size:.2} m, centre ({x:.2} m, {y:.2} m)"
            ),
            false => writeln!(
                text,
                "shape pit{number}\n  rectangle {size:.2} m by {size:.2} m, at ({x:.2} m, {y:.2} m)"
            ),
        };
    }
    let _ = writeln!(text, "shape s{number}");
    let corner = 0.1 * wide.min(deep);
    let _ = match random.below(5) {
        0 => writeln!(
            text,
            "  rectangle {wide:.2} m by {deep:.2} m, at (0 m, {south:.2} m)\n  edge north from (0 m, {north:.2} m) to ({wide:.2} m, {north:.2} m)"
        ),
        1 => writeln!(
            text,
            "  rectangle {wide:.2} m by {deep:.2} m, at (0 m, {south:.2} m), corners {corner:.2} m"
        ),
        2 => writeln!(
            text,
            "  rectangle {wide:.2} m by {deep:.2} m, at (0 m, {south:.2} m), turned {}°",
            random.below(90)
        ),
        3 => writeln!(
            text,
            "  start (0 m, {north:.2} m)\n  east {wide:.2} m, named north\n  south {deep:.2} m, corner {corner:.2} m\n  curve to (0 m, {south:.2} m), height {:.2} m\n  close",
            0.1 * wide
        ),
        _ => writeln!(
            text,
            "  polygon (0 m, {north:.2} m) ({wide:.2} m, {north:.2} m) ({wide:.2} m, {south:.2} m) ({:.2} m, {:.2} m) (0 m, {:.2} m)\n  edge north from (0 m, {north:.2} m) to ({wide:.2} m, {north:.2} m)",
            0.6 * wide,
            south + 0.3 * deep,
            south + 0.1 * deep
        ),
    };
    if has_hole {
        let _ = writeln!(text, "  cut pit{number}");
    }
}

fn surface(random: &mut Random, text: &mut String, number: usize) {
    let _ = writeln!(text, "surface s{number}\n  shape s{number}");
    if random.once_in(2) {
        let _ = writeln!(text, "  meets north\n  isolation-joint 10 mm");
    }
    let build = *random.pick(&["flags", "flags", "loose", "cast"]);
    let _ = writeln!(text, "  build {build}");
    let laid = *random.pick(&[
        "running-bond, units 600 mm by 300 mm",
        "stack-bond, units 450 mm by 450 mm",
        "herringbone, units 200 mm by 100 mm, angle 45°",
        "basket-weave, units 215 mm by 102.5 mm",
        "irregular, stones 300 mm to 600 mm",
    ]);
    if build == "flags" && !random.once_in(5) {
        let _ = writeln!(text, "  laid {laid}\n  joint 5 mm, filled with joint-sand");
    }
    if build == "flags" && random.once_in(3) {
        let _ = writeln!(
            text,
            "  border clay-paver, soldier, units 215 mm by 102.5 mm, along free\n  \
             border clay-paver, 2 courses, units 200 mm by 50 mm, along free"
        );
    }
    for line in [
        "level -150 mm at (0.1 m, -0.1 m)",
        "fall 1:60 toward south",
        "movement-joints every 3 m",
        "edging steel-edge, along free",
        "water to \"the lawn and the beds behind it\"",
        "channel along north",
    ] {
        if !random.once_in(3) {
            let _ = writeln!(text, "  {line}");
        }
    }
}
