//! Specs of any length to measure with: courts side by side, each with its
//! shape, surface, build and material.

use std::fmt::Write;
use std::path::{Path, PathBuf};

/// A sound spec of about so many lines.
pub fn spec(lines: usize) -> String {
    let mut text = String::from(
        "job \"Row of courts\"\n  reference    \"B-1\"\n  units        metric\n  region       uk\n  currency     GBP\n\n\
         site\n  soil         gravel, firm\n  datum        \"hall floor\"\n  ground       -200 mm\n",
    );
    let mut court = 0;
    while text.lines().count() + 24 <= lines.max(34) {
        one_court(&mut text, court);
        court += 1;
    }
    text
}

/// The same spec with one number of its middle changed.
pub fn edited(text: &str) -> String {
    let middle = text.len() / 2;
    let from = text[middle..]
        .find("rectangle    ")
        .map_or(0, |at| middle + at);
    let digit = from + "rectangle    ".len();
    let mut edited = text.to_owned();
    edited.replace_range(
        digit..=digit,
        if &text[digit..=digit] == "5" {
            "4"
        } else {
            "5"
        },
    );
    edited
}

fn one_court(text: &mut String, court: usize) {
    let east = court * 8;
    let _ = write!(
        text,
        "\nshape bay-{court:05}\n  circle       radius 0.8 m, centre ({centre} m, 0 m)\n\
         \nshape court-{court:05}\n  rectangle    6 m by 4 m, at ({east} m, 0 m)\n  add          bay-{court:05}\n\
         \nsurface court-{court:05}\n  shape        court-{court:05}\n  meets        north\n  level        -160 mm at north\n  \
         fall         1:50 away from north\n  build        stack-{court:05}\n  \
         laid         running-bond, units 100 mm by 200 mm\n  joint        3 mm, filled with joint-sand\n  \
         edging       steel-edge, along free\n  water        to \"planting bed\"\n\
         \nbuild stack-{court:05}\n  paving       flag-{court:05}, 60 mm, waste 6 %\n  bed          sharp-sand, 30 mm\n  \
         base         crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm\n\
         \nmaterial flag-{court:05}\n  like         concrete-paver\n  sold         by m2\n  price        £24/m2\n",
        centre = east + 3,
    );
}

/// A spec of about 200 lines with one court of so many units in herringbone.
pub fn court(units: u32, fall: &str) -> String {
    let deep = f64::from(units) * 0.2 * 0.1 / 8.0;
    let mut text = format!(
        "job \"Court\"\n  units        metric\n  region       uk\n\
         \nsite\n  soil         gravel, firm\n  datum        \"sill\"\n  ground       -200 mm\n\
         \nshape court\n  rectangle    8 m by {deep:.3} m\n\
         \nsurface court\n  shape        court\n  meets        north\n  level        -160 mm at north\n  \
         fall         {fall} away from north\n  build        blocks\n  \
         laid         herringbone, units 200 mm by 100 mm, angle 45 deg\n  \
         joint        3 mm, filled with joint-sand\n  edging       steel-edge, along free\n  \
         water        to \"planting bed\"\n\
         \nbuild blocks\n  paving       concrete-paver, 60 mm, waste 6 %\n  bed          sharp-sand, 30 mm\n  \
         base         crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm\n"
    );
    let mut number = 0;
    while text.lines().count() < 196 {
        let _ = write!(
            text,
            "\nmaterial spare-{number}\n  like         concrete-paver\n  sold         by m2\n  price        £24/m2\n"
        );
        number += 1;
    }
    text
}

/// A spec of about 200 lines with a court so many metres deep that is laid out
/// in 3,000 units and more, and a schedule of some 60 tasks.
pub fn whole_job(deep: &str) -> String {
    let mut text = spec(160).replace("lifts 2", "lifts 4");
    let _ = write!(
        text,
        "\nshape yard\n  rectangle    10 m by {deep}, at (0 m, 40 m)\n\
         \nsurface yard\n  shape        yard\n  level        -160 mm at north\n  \
         fall         1:60 away from north\n  build        stack-00000\n  \
         laid         herringbone, units 200 mm by 100 mm, from (0 m, 40 m)\n  \
         joint        3 mm, filled with joint-sand\n  edging       steel-edge, along free\n  \
         water        to \"planting bed\"\n\
         \nwork\n  start        2027-04-12\n  crew         3\n  rate         laying 2 m2 per h each, crew 2\n  \
         wait         overnight from compacting to laying\n"
    );
    text
}

/// The longest spec in `specs`.
pub fn longest_of_specs() -> PathBuf {
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let entries = std::fs::read_dir(specs).expect("the specs");
    let files = entries.map(|entry| entry.expect("a spec").path());
    let files = files.filter(|path| path.extension().is_some_and(|own| own == "patio"));
    let longest = files.max_by_key(|path| std::fs::metadata(path).map_or(0, |own| own.len()));
    longest.expect("a spec")
}
