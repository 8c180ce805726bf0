//! Mistakes of base, bed, mix and order, each with all that it draws.

use super::{Mistaken, check_mistakes};

const MISTAKES: &[Mistaken] = &[
    // A slab too thin to walk on, and a sheet that one would walk on.
    (
        "plain-slab",
        "125 mm, joints every 3.5 m",
        "60 mm, joints every 1.75 m",
        &["warning slab-thin"],
    ),
    (
        "plain-slab",
        "125 mm, joints every 3.5 m",
        "75 mm, joints every 1.75 m",
        &[],
    ),
    (
        "plain-slab",
        "  slab         slab-mix",
        "  membrane     polythene-sheet\n  slab         slab-mix",
        &["error layers-order"],
    ),
    (
        "plain-slab",
        "every 3.5 m\n",
        "every 3.5 m\n  membrane     polythene-sheet\n",
        &[],
    ),
    (
        "sandstone-on-mortar",
        "sandstone, 25 mm",
        "sandstone, 15 mm",
        &["warning flag-thin"],
    ),
    // Sand too fine for a bed and for concrete.
    (
        "flags-on-mortar-bed",
        "  parts        1 portland-cement : 4 sharp-sand",
        "  parts        1 portland-cement : 4 kiln-dried-sand",
        &["advisory aggregate-unwashed"],
    ),
    (
        "flags-on-mortar-bed",
        "1 portland-cement : 2 sharp-sand : 4 concrete-stone",
        "1 portland-cement : 2 building-sand : 4 concrete-stone",
        &["warning aggregate-unwashed"],
    ),
    // Pointing is of whatever sand.
    (
        "flags-on-mortar-bed",
        "  parts        1 portland-cement : 3 sharp-sand",
        "  parts        1 portland-cement : 3 building-sand",
        &[],
    ),
    // A sheet to which nothing sticks.
    (
        "uncoupled-porcelain",
        "  membrane     crack-membrane",
        "  membrane     polythene-sheet",
        &["warning membrane-loose"],
    ),
    // A nought too many.
    (
        "block-drive",
        "lifts 2, beyond 200 mm",
        "lifts 2, beyond 2000 mm",
        &["warning value-odd"],
    ),
    // Pedestals are no bed.
    (
        "pedestal-deck",
        "  slab         concrete, 200 mm, existing",
        "  bed          pedestal, 60 mm\n  slab         concrete, 200 mm, existing\n\nmaterial pedestal\n  sold         by each",
        &[
            "advisory density-unknown",
            "warning kind-unknown",
            "warning sold-unclear",
        ],
    ),
    // A line forgotten.
    (
        "block-drive",
        "  bed          sharp-sand, 40 mm\n",
        "",
        &["error bed-missing"],
    ),
    (
        "block-drive",
        "  joint        3 mm, filled with kiln-dried-sand\n",
        "",
        &["advisory joint-unfilled"],
    ),
    // A mix that does not say what it is for is judged by what it is laid as.
    (
        "sandstone-on-mortar",
        "  for          bed\n  waste        10 %\n  parts        1 portland-cement : 5 sharp-sand",
        "  waste        10 %\n  parts        1 portland-cement : 8 sharp-sand",
        &["warning mix-lean"],
    ),
    (
        "sandstone-on-mortar",
        "type-1, 100 mm",
        "type-1, 50 mm",
        &["warning base-thin"],
    ),
    // What cars drive on, and slabs, without the stone that carries them.
    (
        "gravel-drive",
        "type-1, 150 mm compacted, lifts 2",
        "type-1, 100 mm compacted",
        &["warning base-thin"],
    ),
    (
        "gravel-drive",
        "  base         type-1, 150 mm compacted, lifts 2\n",
        "",
        &["warning base-missing"],
    ),
    (
        "gravel-drive",
        "  surfacing    shingle, 50 mm\n  base         type-1,",
        "  surfacing    type-1,",
        &[],
    ),
    (
        "gravel-drive",
        "base         type-1",
        "base         pea-gravel",
        &["warning base-unsuitable"],
    ),
    // A fabric that keeps gravel out of its base.
    (
        "gravel-drive",
        "shingle, 50 mm\n",
        "shingle, 50 mm\n  fabric       weed-fabric\n",
        &[],
    ),
    (
        "slab-drive",
        "crushed-stone, 100 mm compacted",
        "crushed-stone, 25 mm compacted",
        &["warning base-thin"],
    ),
    (
        "plain-slab",
        "crushed-stone, 100 mm compacted",
        "crushed-stone, 75 mm compacted",
        &[],
    ),
    (
        "setts-drive",
        "  slab         concrete, 150 mm, joints every 3.5 m\n",
        "",
        &["warning mortar-unsupported"],
    ),
    // Mortar on what gives way under it.
    (
        "overlaid-slab",
        "  slab         concrete, 100 mm, existing\n  base         hardcore, 100 mm compacted, existing\n",
        "  base         asphalt, 60 mm, existing\n",
        &["warning mortar-unsupported"],
    ),
    (
        "overlaid-slab",
        "bed-mix, 40 mm\n",
        "bed-mix, 40 mm\n  bed          sharp-sand, 20 mm\n",
        &["warning mortar-unsupported"],
    ),
    (
        "granite-path",
        "base         crushed-stone, 4 in compacted",
        "base         open-stone, 4 in",
        &["warning choke-missing"],
    ),
    (
        "granite-path",
        "base         crushed-stone, 4 in compacted",
        "fabric       geotextile\n  base         open-stone, 4 in",
        &[],
    ),
    // Concrete that is none.
    (
        "plain-slab",
        "2 sharp-sand : 4 concrete-stone",
        "2 sharp-sand : 5 concrete-stone",
        &[],
    ),
    (
        "plain-slab",
        "2 sharp-sand : 4 concrete-stone",
        "2 sharp-sand : 5.1 concrete-stone",
        &["warning mix-lean"],
    ),
    (
        "plain-slab",
        "2 sharp-sand : 4 concrete-stone",
        "2 all-in-ballast",
        &["advisory mix-rich"],
    ),
    // A liner that holds the rain.
    (
        "permeable-lined",
        "  water        to \"underdrain to the swale\"\n",
        "",
        &["warning liner-undrained"],
    ),
    // Mortar that stays in the barrow.
    (
        "flags-on-mortar-bed",
        "bed\n  waste        10 %",
        "bed",
        &["advisory waste-odd"],
    ),
    (
        "flags-on-mortar-bed",
        "joint\n  waste        10 %",
        "joint\n  waste        0 %",
        &[],
    ),
    // A sheet of our own that laps: nobody knows how many laps there are.
    (
        "block-drive",
        "fabric       geotextile, beyond 200 mm",
        "fabric       own-fabric, beyond 200 mm, lap 300 mm\n\nmaterial own-fabric\n  kind fabric\n  sold by m2",
        &["warning quantity-unknown"],
    ),
    (
        "block-drive",
        "fabric       geotextile, beyond 200 mm",
        "fabric       own-fabric, beyond 200 mm, lap 300 mm\n\nmaterial own-fabric\n  kind fabric\n  roll 4.5 m by 100 m\n  sold by m2",
        &[],
    ),
    (
        "sandstone-on-mortar",
        "soil         loam",
        "soil         clay",
        &["warning base-thin", "advisory fabric-missing"],
    ),
    (
        "sandstone-on-mortar",
        "base         type-1",
        "base         shingle",
        &["warning base-unsuitable"],
    ),
    (
        "lime-flags",
        "  base         type-1, 150 mm compacted, lifts 1, beyond 150 mm\n",
        "",
        &["warning base-missing"],
    ),
    (
        "one-lift-drive",
        "225 mm compacted, lifts 1, beyond 225 mm",
        "240 mm compacted, lifts 1, beyond 240 mm",
        &["error lift-thick"],
    ),
    (
        "one-lift-drive",
        ", lifts 1, beyond 225 mm",
        ", beyond 225 mm",
        &[],
    ),
    (
        "one-lift-drive",
        "225 mm compacted, lifts 1, beyond 225 mm",
        "240 mm compacted, beyond 240 mm",
        &["warning lift-thick"],
    ),
    (
        "cold-climate-pavers",
        "base         crushed-stone",
        "base         stone-dust",
        &["advisory frost-base"],
    ),
    (
        "cold-climate-pavers",
        "fabric       geotextile",
        "fabric       weed-fabric",
        &["warning fabric-light"],
    ),
    (
        "cold-climate-pavers",
        "  base         crushed-stone, 6 in compacted, lifts 2,",
        "  base         open-stone, 6 in,",
        &["warning choke-missing"],
    ),
    (
        "brick-on-sand",
        "  fabric       geotextile\n  base",
        "  base",
        &["warning choke-missing"],
    ),
    (
        "choked-brick",
        "chip-stone, 2 in",
        "chip-stone, 3 1/2 in",
        &["warning choke-missing"],
    ),
    (
        "permeable-drive",
        "base         type-3",
        "base         type-1",
        &["warning permeable-clogged"],
    ),
    (
        "permeable-drive",
        "bed          chip-stone",
        "bed          sharp-sand",
        &["warning permeable-clogged"],
    ),
    (
        "permeable-drive",
        "filled with chip-stone",
        "filled with kiln-dried-sand",
        &["warning permeable-clogged"],
    ),
    (
        "permeable-drive",
        "voids 30 %",
        "voids 90 %",
        &["warning base-permeable"],
    ),
    (
        "slab-drive",
        "slab-mix, 120 mm",
        "slab-mix, 90 mm",
        &["warning slab-thin"],
    ),
    (
        "slab-drive",
        "  base         crushed-stone, 100 mm compacted, beyond 100 mm\n  fabric       geotextile, beyond 100 mm\n",
        "",
        &["warning base-missing"],
    ),
    (
        "sandstone-on-mortar",
        "5 sharp-sand",
        "5 topsoil",
        &["warning aggregate-unwashed", "warning density-unknown"],
    ),
    (
        "slab-drive",
        "3 concrete-stone",
        "3 crushed-stone",
        &["warning aggregate-unwashed"],
    ),
    (
        "slab-drive",
        "  consistency  stiff",
        "  water        6",
        &["warning mix-odd"],
    ),
    (
        "slab-drive",
        "  consistency  stiff",
        "  water        0:6",
        &["error value-range"],
    ),
    (
        "lime-flags",
        "1 hydraulic-lime : 2 1/2",
        "1 hydrated-lime : 2 1/2",
        &["warning lime-alone"],
    ),
    (
        "lime-flags",
        "1 hydraulic-lime : 2 1/2",
        "1 hydraulic-lime : 4",
        &["warning mix-lean"],
    ),
    (
        "medium-bed-granite",
        "medium-bed-mortar, 3/4 in",
        "thin-set, 3/4 in",
        &["advisory bond-thick"],
    ),
    (
        "medium-bed-granite",
        "medium-bed-mortar, 3/4 in",
        "medium-bed-mortar, 1 in",
        &["advisory bond-thick"],
    ),
    (
        "uncoupled-porcelain",
        "  bond         thin-set, 5 mm\n",
        "",
        &["warning membrane-loose"],
    ),
    (
        "uncoupled-porcelain",
        "  slurry       thin-set, 3 mm\n",
        "",
        &["advisory membrane-loose"],
    ),
    (
        "level-threshold",
        "  bond         priming-slurry, 2 mm\n",
        "",
        &["warning bond-missing"],
    ),
    (
        "clay-path",
        "sharp-sand, 35 mm",
        "sharp-sand, 20 mm",
        &["advisory bed-thin"],
    ),
    (
        "one-lift-drive",
        "filled with kiln-dried-sand",
        "filled with pointing-mortar",
        &["warning bed-joint-clash"],
    ),
    (
        "one-lift-drive",
        "base         type-1, 225 mm compacted, lifts 1, beyond 225 mm",
        "base         yard-stone, 225 mm, lifts 1, beyond 225 mm\n\nmaterial yard-stone\n  density      1.8 t/m3\n  sold         by t",
        &["warning kind-unknown"],
    ),
    (
        "one-lift-drive",
        "build blocks",
        "material type-1\n  density      17 t/m3 loose, 2.2 t/m3 compacted\n\nbuild blocks",
        &["error density-pair"],
    ),
    (
        "one-lift-drive",
        "build blocks",
        "material type-1\n  sold         by bag of 850 g\n\nbuild blocks",
        &["warning bag-mass"],
    ),
    (
        "one-lift-drive",
        "build blocks",
        "material type-1\n  price        £24/kg\n\nbuild blocks",
        &["warning price-odd"],
    ),
    (
        "one-lift-drive",
        "build blocks",
        "material type-1\n  price        £2700/m3\n\nbuild blocks",
        &["advisory price-odd"],
    ),
    (
        "one-lift-drive",
        "build blocks",
        "material type-1\n  price        £340/t\n\nbuild blocks",
        &["advisory price-odd"],
    ),
    (
        "one-lift-drive",
        "build blocks",
        "material type-1\n  price        £95/t\n\nbuild blocks",
        &[],
    ),
    (
        "one-lift-drive",
        "build blocks",
        "material type-1\n  price        £172/l\n\nbuild blocks",
        &["warning price-odd"],
    ),
    // Packs and loads of another unit than was meant.
    (
        "one-lift-drive",
        "build blocks",
        "material type-1\n  sold         by bag of 850 kg\n  delivery     £40 per load of 10 t\n\nbuild blocks",
        &[],
    ),
    (
        "one-lift-drive",
        "build blocks",
        "material type-1\n  sold         by bag of 25 t\n\nbuild blocks",
        &["warning value-odd"],
    ),
    (
        "one-lift-drive",
        "build blocks",
        "material type-1\n  sold         by truck of 20 t\n\nbuild blocks",
        &[],
    ),
    (
        "one-lift-drive",
        "build blocks",
        "material type-1\n  delivery     £40 per load of 10 kg\n\nbuild blocks",
        &["warning value-odd"],
    ),
    // Asphalt counts with its base, and the base alone has a least.
    (
        "tarmac-drive",
        "type-1, 150 mm compacted, lifts 2",
        "type-1, 90 mm compacted",
        &["warning base-thin"],
    ),
    (
        "tarmac-drive",
        "asphalt, 60 mm\n  base         type-1, 150 mm compacted, lifts 2",
        "asphalt, 30 mm\n  base         type-1, 110 mm compacted",
        &["warning base-thin", "warning surfacing-thin"],
    ),
    // Asphalt sheds its water and breaks up where it is thin.
    (
        "tarmac-drive",
        "asphalt, 60 mm",
        "asphalt, 40 mm",
        &["advisory base-thin", "warning surfacing-thin"],
    ),
    ("tarmac-drive", "asphalt, 60 mm", "asphalt, 50 mm", &[]),
    (
        "gravel-drive",
        "shingle, 50 mm",
        "shingle, 15 mm",
        &["advisory surfacing-thin"],
    ),
    (
        "tarmac-drive",
        "fall         1:40 toward east",
        "fall         1:300 toward east",
        &["warning fall-flat"],
    ),
    (
        "tarmac-drive",
        "  level        -20 mm at west\n  fall         1:40 toward east\n",
        "",
        &["warning fall-missing", "warning level-missing"],
    ),
    (
        "tarmac-drive",
        "type-1, 150 mm compacted, lifts 2",
        "type-1, 130 mm compacted",
        &["advisory base-thin"],
    ),
    // Water that gets through asphalt or gravel and no further.
    (
        "tarmac-drive",
        "  fabric       geotextile\n",
        "  fabric       geotextile\n  permeable\n",
        &["warning permeable-clogged", "advisory soakaway-slow"],
    ),
    (
        "gravel-drive",
        "type-1, 150 mm compacted, lifts 2\n",
        "type-1, 150 mm compacted, lifts 2\n  permeable\n",
        &["advisory permeable-clogged"],
    ),
    (
        "gravel-drive",
        "type-1, 150 mm compacted, lifts 2\n",
        "type-3, 150 mm\n  permeable\n",
        &[],
    ),
    // Nothing to hold flags to a slab, or what holds nothing.
    (
        "overlaid-slab",
        "  bond         priming-slurry, 2 mm\n  bed          bed-mix, 40 mm\n",
        "",
        &["warning bed-missing", "advisory name-unused"],
    ),
    (
        "overlaid-slab",
        "  bed          bed-mix, 40 mm\n",
        "",
        &["warning bed-missing", "advisory name-unused"],
    ),
    (
        "overlaid-slab",
        "  bond         priming-slurry, 2 mm\n  bed          bed-mix, 40 mm\n",
        "  bond         thin-set, 5 mm\n",
        &["advisory name-unused"],
    ),
    // The bed that would tell how flags are held.
    (
        "sandstone-on-mortar",
        "  bond         priming-slurry, 2 mm\n  bed          bed-mix, 40 mm\n",
        "",
        &["warning bed-missing", "advisory name-unused"],
    ),
    // A coat that is not on the back of the flags.
    (
        "overlaid-slab",
        "  bond         priming-slurry, 2 mm\n  bed          bed-mix, 40 mm\n",
        "  bed          bed-mix, 40 mm\n  bond         priming-slurry, 2 mm\n",
        &["warning layers-order"],
    ),
    (
        "overlaid-slab",
        "  paving       sandstone, 30 mm, waste 10 %\n  bond         priming-slurry, 2 mm\n",
        "  bond         priming-slurry, 2 mm\n  paving       sandstone, 30 mm, waste 10 %\n",
        &["error layers-order"],
    ),
    // A figure from memory, and one that no bed is built by.
    (
        "clay-path",
        "sharp-sand, 35 mm",
        "sharp-sand, 4 mm",
        &["warning bed-thin"],
    ),
    // Parts the wrong way round in what a kerb stands in.
    (
        "kerbed-blocks",
        "1 portland-cement : 2 sharp-sand : 4 gravel",
        "4 portland-cement : 2 sharp-sand : 1 gravel",
        &["warning mix-rich"],
    ),
    (
        "kerbed-blocks",
        "1 portland-cement : 2 sharp-sand : 4 gravel",
        "1 portland-cement : 1 sharp-sand : 1 gravel",
        &["advisory mix-rich"],
    ),
    // Centimetres for millimetres.
    (
        "slab-drive",
        "slab-mix, 120 mm",
        "slab-mix, 120 cm",
        &["warning value-odd"],
    ),
    (
        "kerbed-blocks",
        "type-1, 150 mm compacted, lifts 2",
        "type-1, 100 cm compacted, lifts 5",
        &["warning value-odd"],
    ),
    // A digit lost from the strength of a slab under setts.
    (
        "setts-drive",
        "build setts-on-slab",
        "material concrete\n  strength     3.5 MPa\n\nbuild setts-on-slab",
        &["warning strength-low"],
    ),
    (
        "setts-drive",
        "build setts-on-slab",
        "material concrete\n  strength     8 MPa\n\nbuild setts-on-slab",
        &[],
    ),
];

#[test]
fn mistakes_of_base_beds_and_mixes_draw_what_they_declare() {
    check_mistakes(MISTAKES);
}
