//! Mistakes of steps, of their setting out, hire and budget, each with all
//! that it draws.

use super::{Mistaken, check_mistakes};

const MISTAKES: &[Mistaken] = &[
    // A tread whose edge snaps off.
    (
        "garden-steps",
        "york-stone, 50 mm, nosing 20 mm",
        "york-stone, 15 mm, nosing 20 mm",
        &["warning tread-thin"],
    ),
    (
        "garden-steps",
        "york-stone, 50 mm, nosing 20 mm",
        "york-stone, 25 mm, nosing 20 mm",
        &["advisory tread-thin"],
    ),
    (
        "garden-steps",
        "york-stone, 50 mm, nosing 20 mm",
        "york-stone, 25 mm",
        &[],
    ),
    // Risers, goings and what makes a stride.
    (
        "garden-steps",
        "risers       3",
        "risers       2",
        &["warning riser-high", "warning steps-apart"],
    ),
    (
        "garden-steps",
        "risers       3",
        "risers       6",
        &["advisory riser-low"],
    ),
    (
        "garden-steps",
        "riser        york-stone, 30 mm, waste 5 %",
        "riser        york-stone, waste 5 %",
        &["warning quantity-unknown"],
    ),
    (
        "garden-steps",
        "going        350 mm",
        "going        200 mm",
        &["warning going-short"],
    ),
    (
        "garden-steps",
        "going        350 mm",
        "going        800 mm",
        &["advisory step-proportion", "advisory tread-heavy"],
    ),
    (
        "garden-steps",
        "width        1.2 m",
        "width        500 mm",
        &["advisory path-narrow"],
    ),
    (
        "garden-steps",
        "nosing 20 mm, in 3 pieces",
        "nosing 20 mm",
        &["advisory tread-heavy"],
    ),
    (
        "garden-steps",
        "base         type-1",
        "base         sharp-sand",
        &["warning base-unsuitable"],
    ),
    // Treads, and what the flight stands on. Mixes are judged as they are laid
    // in steps, too.
    (
        "garden-steps",
        "  for          slab\n  parts        1 portland-cement : 2 sharp-sand : 4 concrete-stone",
        "  parts        1 portland-cement : 5 sharp-sand : 7 concrete-stone",
        &["warning mix-lean"],
    ),
    (
        "garden-steps",
        "  handrail     both sides\n",
        "  handrail     both sides\n  bed          tread-mix, 30 mm\n\nmix tread-mix\n  parts        1 portland-cement : 9 sharp-sand\n",
        &["warning mix-lean"],
    ),
    (
        "garden-steps",
        "nosing 20 mm",
        "nosing 60 mm",
        &["warning nosing-long"],
    ),
    (
        "garden-steps",
        "  fall         1:60\n  handrail",
        "  fall         1:5\n  handrail",
        &["warning tread-steep"],
    ),
    (
        "garden-steps",
        "  fall         1:60\n  handrail",
        "  handrail",
        &["advisory tread-flat"],
    ),
    (
        "garden-steps",
        "  riser        york-stone",
        "  bed          sharp-sand, 20 mm\n  riser        york-stone",
        &["warning tread-loose"],
    ),
    (
        "garden-steps",
        "core         slab-mix, down to base\n  base         type-1, 100 mm compacted, beyond 150 mm, top 200 mm below the foot\n",
        "core         slab-mix, to foot\n",
        &[],
    ),
    // Between the wrong levels, in the wrong place, the wrong way up.
    (
        "garden-steps",
        "from         lower",
        "from         -1300 mm",
        &["warning riser-high", "warning pitch-steep"],
    ),
    (
        "garden-steps",
        "from         lower",
        "from         upper",
        &[
            "error rise-missing",
            "warning steps-apart",
            "advisory riser-low",
        ],
    ),
    (
        "garden-steps",
        "  from         lower\n  to           upper",
        "  from         upper\n  to           lower",
        &["error rise-missing"],
    ),
    (
        "garden-steps",
        "at           (2.4 m, 0 m)",
        "at           (12 m, 9 m)",
        &["warning steps-apart", "warning steps-apart"],
    ),
    (
        "garden-steps",
        "climbing north",
        "climbing south",
        &["error steps-apart", "warning steps-apart"],
    ),
    // What a flight is said to be, and is not read.
    (
        "garden-steps",
        "risers       3",
        "risers       3.5",
        &["error value-range"],
    ),
    (
        "garden-steps",
        "  going        350 mm\n",
        "",
        &["error entry-missing"],
    ),
    (
        "garden-steps",
        "handrail     both sides",
        "handrail     none",
        &["error word-unknown"],
    ),
    // Marks that fix nothing.
    (
        "garden-steps",
        "from         (0, 0) and (4.8 m, 0 m)",
        "from         (0, 0) and (0 m, 0 m)",
        &["error value-range"],
    ),
    // The work that it takes, and what it costs.
    (
        "garden-steps",
        "  services     located 2027-04-02\n",
        "",
        &["warning services-unlocated"],
    ),
    (
        "garden-steps",
        "temperature  12 °C",
        "temperature  -6 °C",
        &["warning cold-mortar", "warning frozen-ground"],
    ),
    (
        "garden-steps",
        "£38/day, £120/week",
        "£38",
        &["error unit-missing"],
    ),
    (
        "garden-steps",
        "  contingency  10 %\n",
        "",
        &["advisory contingency-missing"],
    ),
    (
        "garden-steps",
        "labour       £26/h",
        "labour       $26/h",
        &["error currency-mixed"],
    ),
    (
        "garden-steps",
        "top 200 mm below the foot",
        "top 2000 mm below the foot",
        &["warning value-odd"],
    ),
    (
        "garden-steps",
        "type-1, 100 mm compacted, beyond 150 mm, top",
        "type-1, 10 mm compacted, beyond 150 mm, top",
        &["warning value-odd"],
    ),
    // A nought is missing.
    (
        "garden-steps",
        "£38/day, £120/week",
        "£38/day, £12/week",
        &["warning value-odd"],
    ),
    // Nothing is left to be faced.
    (
        "garden-steps",
        "york-stone, 50 mm, nosing 20 mm, in 3 pieces",
        "york-stone, 180 mm, nosing 20 mm, in 8 pieces",
        &["error quantity-unknown"],
    ),
    // In the middle of what it leads to.
    (
        "garden-steps",
        "at           (2.4 m, 0 m)",
        "at           (2.4 m, 2 m)",
        &["warning steps-apart"],
    ),
    // A flight to the floor that climbs along the wall.
    (
        "door-steps",
        "climbing north",
        "climbing east",
        &["warning steps-apart"],
    ),
    (
        "door-steps",
        "climbing north",
        "climbing south",
        &["warning steps-apart"],
    ),
    // Treads that nothing carries.
    (
        "door-steps",
        "  core         slab-mix, down to base\n",
        "",
        &["warning flight-unsupported", "advisory name-unused"],
    ),
];

#[test]
fn mistakes_of_steps_draw_what_they_declare() {
    check_mistakes(MISTAKES);
}
