//! Specs of invented places, right and wrong, for the tests that change them.

pub(super) const PONTOON: &str = "\
# Landing of the rowing club, north bank.
job \"Alder Reach pontoon landing\"
  reference    \"AR-19\"
  units        imperial

site
  soil         silt, wet
  datum        \"boathouse sill\"
  ground       -5 in, falling 1:40 toward south

let margin = 6 in

# The part that the boats are carried over.
shape landing
  start        (0, 0)
  east         31' 6\", named house
  south        14'-2 1/2\", corner 3'
  west         31.5 ft
  close
  cut          hatch

shape hatch
  rectangle    4' by 4', at (20',
                             -9')     # over the slipway

surface landing
  meets        house
  level        -4 1/2 in at house
  fall         1:60 away from house
  joint        3/8 in, depth 1 3/4 in,
               filled with joint-mix
  build        carried

build carried
  paving       slate, 1 3/4 in, waste 9 %
  base         crushed-stone, max(4 in, margin), beyond margin - 1 in

mix joint-mix
  parts        1 portland-cement : 3 mason-sand

material slate
  density      2.75 t/m3
  price        $7.10/sq ft
";

pub(super) const MISTAKES: &str = "\
\u{FEFF}job \"Open title
  key: value\r
  - bullet 3 in
\tstart (0, 0\r  east 30-50 mm, , at
reference    “AR-19”, 24' -6\"
shape a (
   called #57 stone, 6 1/2 \"
12 ft \u{A0}½ m²
  \"text\" )
# about
# nothing

";
