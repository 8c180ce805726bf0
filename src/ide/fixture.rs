//! Specs for the tests of this room.

use std::sync::Arc;

use crate::analysis::{Analyser, Analysis, NoFiles};
use crate::text::Text;

/// A text analysed on its own.
pub(crate) fn analysed(text: &str) -> Arc<Analysis> {
    Analyser::new().analyse("/jobs/a.patio", Text::from(text), &NoFiles, "2027-01-12")
}

/// A text without its mark `¦`, and where that stood.
pub(crate) fn marked(text: &str) -> (String, u32) {
    let (before, after) = text.split_once('¦').expect("a mark");
    (format!("{before}{after}"), before.len() as u32)
}

/// A small job with everything that hints and hovers tell of.
pub(crate) const COURT: &str = r#"# The court behind the boat house.
job "Boat house court"
  units        metric
  currency     EUR

let gap = 2 * 5 mm

# As measured on site.
shape court
  start        (0 m, 0 m)
  east         6 m, named quay
  south        4 m
  west         6 m
  close

surface court
  shape        court
  meets        quay
  level        -150 mm at quay
  fall         1:50 away from quay
  build        sand-set
  laid         running-bond, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand

build sand-set
  paving       concrete-paver, 60 mm
  bed          bed-mix, 40 mm
  # Rolled twice.
  base         hard-stone, 150 mm compacted, lifts 2, beyond 100 mm
  fabric       geotextile, beyond 100 mm

mix bed-mix
  for          bed
  parts        1 portland-cement : 4 sharp-sand
  consistency  dry

material hard-stone
  like         crushed-stone
  density      1.5 t/m3 loose, 2 t/m3 compacted
  sold         by t
  price        €30/t
"#;
