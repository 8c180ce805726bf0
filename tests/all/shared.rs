//! What several surfaces share is said once, as gravely as by any of them, and
//! whatever the order of the sections and of the edits.

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis};
use drylay::findings::{Finding, Severity};
use drylay::text::Text;

use crate::folder::{Folder, TODAY};
use crate::robustness::known;

const PATH: &str = "/specs/job.patio";

/// A standard by which both surfaces want the same of their base, though it
/// matters more under cars.
const STANDARD: &str = "standard \"House\"\n  limit        base-thin clay 250 mm\n";

const START: &str = "\
job \"Two yards\"
  units        metric
  region       general
  currency     GBP

site
  soil         clay, wet
  datum        \"hall floor\"
  ground       -250 mm

shape court
  rectangle    6 m by 4 m

shape drive
  rectangle    6 m by 4 m, at (20 m, 0 m)

build sand-set
  paving       concrete-paver, 80 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         crushed-stone, 125 mm compacted, lifts 2, beyond 150 mm
  fabric       geotextile, beyond 150 mm
";

fn surface(name: &str, more: &str) -> String {
    format!(
        "
surface {name}
  shape        {name}
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set
  laid         herringbone, units 100 mm by 200 mm
  joint        3 mm, filled with joint-sand
  edging       steel-edge, along free
  water        to \"planting bed\"
{more}"
    )
}

fn job(surfaces: &[String]) -> String {
    START.to_owned() + &surfaces.concat()
}

fn folder(text: &str) -> Folder {
    Folder::with([(PATH, text), ("/specs/standard.patio", STANDARD)])
}

fn analysed(text: &str) -> Arc<Analysis> {
    folder(text).analysis(PATH)
}

/// How thin bases are told of: how gravely, with how many related places, and
/// whether that is accepted.
fn thin(analysis: &Analysis) -> Vec<(Severity, usize, bool)> {
    let findings = analysis.findings.iter();
    let thin = findings.filter(|finding| finding.rule == "base-thin");
    thin.map(|finding| {
        let severity = finding.severity.expect("a severity");
        (severity, finding.related.len(), finding.accepted.is_some())
    })
    .collect()
}

const CARS: &str = "  for          drive\n";

#[test]
fn swapped_sections_change_no_finding() {
    let (court, drive) = (surface("court", ""), surface("drive", CARS));
    let one = analysed(&job(&[court.clone(), drive.clone()]));
    let other = analysed(&job(&[drive, court]));
    let said = thin(&one);
    assert!(
        matches!(said.first(), Some((Severity::Error, _, false))),
        "{said:?}"
    );
    let all = |analysis: &Analysis| -> Vec<(&'static str, Option<Severity>, Box<str>)> {
        let findings = analysis.findings.iter();
        let described = |own: &Arc<Finding>| (own.rule, own.severity, own.message.clone());
        let mut all: Vec<_> = findings.map(described).collect();
        all.sort();
        all
    };
    assert_eq!(said, thin(&other));
    assert_eq!(all(&one), all(&other));
}

#[test]
fn an_acceptance_takes_the_share_of_its_own_surface() {
    let accept = "  accept       base-thin, because \"nobody drives here\"\n";
    for (court, drive, said) in [
        (
            "",
            "",
            vec![(Severity::Error, false), (Severity::Warning, false)],
        ),
        (
            accept,
            "",
            vec![(Severity::Error, false), (Severity::Warning, true)],
        ),
        (
            "",
            accept,
            vec![(Severity::Error, true), (Severity::Warning, false)],
        ),
        (
            accept,
            accept,
            vec![(Severity::Error, true), (Severity::Warning, true)],
        ),
    ] {
        let drive = format!("{CARS}{drive}");
        let text = job(&[surface("court", court), surface("drive", &drive)]);
        let found = thin(&analysed(&text));
        let found: Vec<_> = found
            .into_iter()
            .map(|(how, _, taken)| (how, taken))
            .collect();
        assert_eq!(found, said, "{court} {drive}");
    }
}

#[test]
fn an_edit_and_its_undo_leave_what_a_fresh_look_finds() {
    let text = job(&[surface("court", ""), surface("drive", CARS)]);
    let fresh = known(&analysed(&text));
    for (from, to) in [
        (
            "surface court\n  shape        court\n  level        -160 mm",
            "surface court\n  shape        court\n  level        -170 mm",
        ),
        ("  for          drive\n", "  for          street\n"),
        ("beyond 150 mm\n  fabric", "beyond 160 mm\n  fabric"),
        ("clay, wet", "clay"),
        ("125 mm compacted", "130 mm compacted"),
    ] {
        let mut analyser = Analyser::new();
        let mut look = |text: &str| {
            let folder = folder(text);
            analyser.analyse(PATH, Text::from(text), &folder, TODAY)
        };
        look(&text);
        let edited = text.replacen(from, to, 1);
        assert_ne!(edited, text, "{from}");
        assert_eq!(known(&look(&edited)), known(&analysed(&edited)), "{to}");
        assert_eq!(known(&look(&text)), fresh, "{to} undone");
    }
}

#[test]
fn cautions_stand_apart() {
    let analysis = analysed(&job(&[surface("court", "")]));
    let review = drylay::report::Reviewed::new(&analysis, "/specs");
    let names: Vec<&str> = review.cautions.iter().map(|row| row.rule).collect();
    assert!(names.contains(&"care-dust"), "{names:?}");
    assert!(review.rows.iter().all(|row| !row.rule.starts_with("care-")));
    let said = drylay::report::cautions(&analysis);
    let of_law = said
        .iter()
        .filter(|said| said.contains("licensed practice"));
    assert_eq!((of_law.count(), said.len()), (1, names.len() + 1));
}
