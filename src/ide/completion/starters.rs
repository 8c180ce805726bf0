//! Whole files to begin from, as snippets. An empty spec offers them, and the
//! editors' own snippets are made from them.

use super::{About, Completion, CompletionKind};
use crate::analysis::Analysis;
use crate::model::{Region, literal};
use crate::rules::{self, Limits};
use crate::units::{System, show};

/// A whole file to begin from.
#[derive(Debug, Clone, Copy)]
pub struct Starter {
    /// What it is: `a patio in feet`.
    pub label: &'static str,
    /// What is in it, in a few words.
    pub help: &'static str,
    /// Whether it is meant for a file that is called `standard.patio`.
    pub is_standard: bool,
    /// Where the job lies that it begins, the units that it is in, and how
    /// steeply its paving falls, as written.
    pub lies: Option<(Region, System, &'static str)>,
    /// The text, its values tab stops.
    pub body: &'static str,
}

/// A terrace in metres, by where it lies.
macro_rules! in_metres {
    ($label:literal, $region:expr, $word:literal, $currency:literal, $fall:literal) => {
        Starter {
            label: $label,
            help: "A rectangle of blocks on a bed and a base, its fall, where its water goes",
            is_standard: false,
            lies: Some(($region, System::Metric, $fall)),
            body: concat!(
                r#"job "${1:Terrace at the garden door}"
  units         metric
  region        "#,
                $word,
                "\n  currency      ",
                $currency,
                r#"

site
  soil          ${2|sand,gravel,silt,clay,loam|}, firm
  datum         "floor at the door"
  damp-course   -20 mm
  ground        -200 mm

shape ${3:terrace}
  rectangle     ${4:5 m} by ${5:3.5 m}

surface $3
  shape         $3
  for           foot, seating
  meets         north
  level         -170 mm at north
  fall          "#,
                $fall,
                r#" away from north
  build         blocks
  laid          running-bond, units 100 mm by 200 mm
  joint         3 mm, filled with joint-sand
  edging        steel-edge, along free
  water         to "${6:lawn}"

build blocks
  paving        concrete-paver, 60 mm, waste 8 %
  bed           sharp-sand, 40 mm
  base          crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm
  fabric        geotextile, lap 300 mm, beyond 150 mm
$0"#
            ),
        }
    };
}

/// Every one, the most usual first.
pub const STARTERS: &[Starter] = &[
    Starter {
        label: "a patio in feet",
        help: "A rectangle of pavers on a bed and a base, its fall, where its water goes",
        is_standard: false,
        lies: Some((Region::Us, System::Imperial, "1/4 in per ft")),
        body: r#"job "${1:Patio at the back door}"
  units         imperial
  region        us
  currency      USD

site
  soil          ${2|sand,gravel,silt,clay,loam|}, firm
  datum         "door sill"
  ground        -8 in

shape ${3:patio}
  rectangle     ${4:16'} by ${5:10'}

surface $3
  shape         $3
  for           foot, seating
  meets         north
  level         -6 in at north
  fall          1/4 in per ft away from north
  build         pavers
  laid          running-bond, units 4 in by 8 in
  joint         1/8 in, filled with joint-sand
  edging        steel-edge, along free
  water         to "${6:lawn}"

build pavers
  paving        concrete-paver, 2 3/8 in, waste 10 %
  bed           sharp-sand, 1 in
  base          crushed-stone, 6 in compacted, lifts 2, beyond 6 in
  fabric        geotextile, lap 12 in, beyond 6 in

material crushed-stone
  price         \$${7:36}/ton
$0"#,
    },
    in_metres!("a patio in metres", Region::Uk, "uk", "GBP", "1:60"),
    in_metres!(
        "a patio in metres, Australian",
        Region::Au,
        "au",
        "AUD",
        "1:40"
    ),
    in_metres!(
        "a patio in metres, elsewhere",
        Region::General,
        "general",
        "EUR",
        "1:50"
    ),
    Starter {
        label: "a library",
        help: "Materials, mixes and builds that several specs share",
        is_standard: false,
        lies: None,
        body: r#"# ${1:What the practice uses again and again.}
material ${2:yard-stone}
  like          crushed-stone
  density       ${3:110 lb/cu ft loose}, ${4:138 lb/cu ft compacted}
  sold          by ton
  price         \$${5:34}/ton

mix ${6:bed-mix}
  for           bed
  parts         1 portland-cement : 4 sharp-sand
  consistency   stiff
  waste         10 %

build ${7:flags-on-mortar}
  paving        sandstone, 1 1/2 in, waste 10 %
  bed           $6, 1 1/4 in
  base          $2, 6 in compacted, lifts 2, beyond 6 in
$0"#,
    },
    Starter {
        label: "a standard",
        help: "Limits for every spec below it; the file is called standard.patio",
        is_standard: true,
        lies: None,
        body: r#"standard "${1:House rules}"
  limit         fall-flat ${2:1:60}
  raise         waste-odd to warning
  off           outfall-missing, because "${3:drains are on the engineer's sheet}"
$0"#,
    },
];

/// The starters that fit a file in which nothing is said yet; none for any
/// other.
pub(crate) fn of_empty(analysis: &Analysis) -> Vec<Completion> {
    let Some(file) = analysis.files.first() else {
        return Vec::new();
    };
    // Comments say nothing, and one word alone is what is being typed.
    let said = |line: &str| line.split('#').next().unwrap_or_default().trim().to_owned();
    let said: Vec<String> = file.tree.text.lines().map(said).collect();
    let mut said = said.iter().filter(|line| !line.is_empty());
    let is_empty = said
        .next()
        .is_none_or(|line| !line.contains(char::is_whitespace));
    if !is_empty || said.next().is_some() {
        return Vec::new();
    }
    let is_standard = analysis.path.ends_with("/standard.patio");
    let own_units = analysis.job.heading.system();
    let mut starters: Vec<&Starter> = STARTERS
        .iter()
        .filter(|starter| starter.is_standard || !is_standard)
        .collect();
    starters.sort_by_key(|starter| {
        let lies = starter.lies.as_ref();
        lies.is_none_or(|(_, units, _)| *units != own_units) && lies.is_some()
    });
    let offer = |starter: &Starter| Completion {
        text: body(starter, analysis),
        has_stops: true,
        about: About::Help(starter.help.to_owned()),
        ..Completion::new(starter.label, CompletionKind::Section, starter.help)
    };
    starters.into_iter().map(offer).collect()
}

/// The text of a starter, its fall no flatter than the standards here allow.
fn body(starter: &Starter, analysis: &Analysis) -> String {
    let Some((region, _, fall)) = starter.lies else {
        return starter.body.to_owned();
    };
    let least = least_fall(&analysis.limits, region, fall);
    starter.body.replace(fall, &least)
}

/// How steeply pavers beside a building are to fall at least, if that is more
/// than a fall as it is written; else that fall.
pub(crate) fn least_fall(limits: &Limits, region: Region, fall: &str) -> String {
    let least = rules::find("fall-flat").and_then(|rule| {
        let rows = ["plain", "building", "pavers"].into_iter();
        let in_force = rows.filter_map(|row| limits.in_force(rule, row, region));
        in_force.max_by(|one, other| one.value.si().total_cmp(&other.value.si()))
    });
    let own = literal(fall).map_or(0.0, |fall| fall.si());
    let least = least
        .map(|least| least.value.si())
        .filter(|least| *least > own);
    least.map_or_else(|| fall.to_owned(), written)
}

/// A slope as a spec has it: `1:40`, or `2.1 %` where no whole number says it.
fn written(slope: f64) -> String {
    let run = 1.0 / slope;
    match (run - run.round()).abs() < 1e-9 {
        true => format!("1:{}", run.round()),
        false => show::share((slope * 1e4).ceil() / 1e4),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fall_is_no_flatter_than_is_allowed_where_the_job_lies() {
        let limits = Limits::default();
        for (region, fall, least) in [
            (Region::Us, "1/4 in per ft", "1/4 in per ft"),
            (Region::Us, "1:60", "1:50"),
            (Region::Uk, "1:60", "1:60"),
            (Region::Au, "1:60", "1:40"),
            (Region::General, "1:60", "1:50"),
        ] {
            assert_eq!(least_fall(&limits, region, fall), least, "{region:?}");
        }
        assert_eq!(written(0.021), "2.1 %");
    }

    #[test]
    fn starters_fall_as_steeply_as_they_have_to() {
        let limits = Limits::default();
        for starter in STARTERS {
            let Some((region, _, fall)) = starter.lies else {
                continue;
            };
            assert_eq!(least_fall(&limits, region, fall), fall, "{}", starter.label);
            assert!(starter.body.contains(fall), "{}", starter.label);
        }
    }
}
