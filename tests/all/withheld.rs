//! A figure that hangs on what could not be read is withheld, never worked
//! out as if the line were not there.

use super::checked::checked;

const YARD: &str = "\
job \"Yard\"
  units        metric
  region       uk

site
  soil         gravel
  datum        \"hall floor\"
  ground       -200 mm

shape pit
  rectangle    1 m by 1 m, at (2 m, 1 m)

shape yard
  rectangle    6 m by 4 m
  cut          pit

surface yard
  shape        yard
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set

build sand-set
  paving       concrete-paver, 60 mm
  bed          sharp-sand, 30 mm
  base         crushed-stone, 150 mm compacted
";

#[test]
fn figures_that_hang_on_an_unread_word_are_withheld() {
    for (right, written, area, is_deep, is_dug) in [
        ("", "", Some(23.0), true, true),
        ("150 mm", "150", Some(23.0), false, false),
        ("sand, 30 mm", "sand", Some(23.0), false, false),
        ("cut          pit", "cut          pti", None, true, false),
    ] {
        let yard = checked(&YARD.replacen(right, written, 1));
        let surface = &yard.figures().surfaces[0];
        let found = surface.area_m2.map(|area| (area * 1e9).round() / 1e9);
        assert_eq!(found, area, "{written}");
        assert_eq!(surface.depth_m.is_some(), is_deep, "{written}");
        assert_eq!(surface.dig.is_some(), is_dug, "{written}");
    }
}
