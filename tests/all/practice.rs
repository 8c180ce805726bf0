//! A practice's libraries, standards and acceptances: where a finding is
//! reported, how much it matters, and what takes it.

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, Files};
use drylay::rules::complete;

/// Files in memory: their paths and texts.
struct Folder(Vec<(&'static str, &'static str)>);

impl Files for Folder {
    fn read(&self, path: &str) -> Option<Arc<str>> {
        let file = self.0.iter().find(|(own, _)| *own == path)?;
        Some(file.1.into())
    }

    fn exists(&self, path: &str) -> bool {
        let inside = format!("{path}/");
        let mut paths = self.0.iter().map(|(own, _)| *own);
        path == "/specs" || paths.any(|own| own == path || own.starts_with(&inside))
    }

    fn list(&self, folder: &str) -> Vec<String> {
        let inside = format!("{folder}/");
        let paths = self
            .0
            .iter()
            .filter_map(|(own, _)| own.strip_prefix(&inside));
        let mut names: Vec<String> = paths
            .filter_map(|rest| rest.split('/').next())
            .map(str::to_owned)
            .collect();
        names.push("court.patio".to_owned());
        names
    }
}

fn analysed(text: &str, files: Vec<(&'static str, &'static str)>) -> Arc<Analysis> {
    let text = complete(text).text;
    Analyser::new().analyse(
        "/specs/court.patio",
        text.into(),
        &Folder(files),
        "2027-04-12",
    )
}

/// What is said of a rule: how much it matters and of what text, and whether
/// it is accepted.
fn said(analysis: &Analysis, rule: &str) -> String {
    let findings = analysis
        .findings
        .iter()
        .filter(|finding| finding.rule == rule);
    let lines = findings.map(|finding| {
        let severity = finding.severity.map_or("", |severity| severity.word());
        let accepted = match finding.accepted {
            Some(_) => ", accepted",
            None => "",
        };
        format!("{severity} of `{}`{accepted}", analysis.text(finding.place))
    });
    lines.collect::<Vec<_>>().join("; ")
}

const FLAT: &str = "\
surface court
  shape court
  meets north
  level -160 mm at north
  fall 1:75 away from north
  build sand-set
  laid running-bond, units 100 mm by 200 mm
  joint 3 mm, filled with joint-sand
  edging steel-edge, along free
  water to \"planting bed\"
";

const LIBRARY: &str = "\
build thin-set-court
  paving concrete-paver, 60 mm
  bed sharp-sand, 30 mm
  base crushed-stone, 100 mm compacted, beyond 150 mm
";

const ON_CLAY: &str = "\
use \"library.patio\"

site
  soil clay, wet
  datum \"hall floor\"
  ground -200 mm

surface court
  shape court
  meets north
  level -160 mm at north
  fall 1:50 away from north
  build thin-set-court
  edging steel-edge, along free
  water to \"planting bed\"
";

#[test]
fn a_library_s_build_is_reported_where_it_is_used() {
    let analysis = analysed(ON_CLAY, vec![("/specs/library.patio", LIBRARY)]);
    assert_eq!(
        said(&analysis, "base-thin"),
        "warning of `build thin-set-court`"
    );
    let finding = analysis
        .findings
        .iter()
        .find(|finding| finding.rule == "base-thin")
        .expect("a thin base");
    let related: Vec<&str> = finding
        .related
        .iter()
        .map(|related| analysis.text(related.place))
        .collect();
    assert!(related.contains(&"100 mm"), "{related:?}");
    assert!(finding.fixes.iter().all(|fix| !fix.safe));
}

#[test]
fn an_acceptance_may_stand_in_any_section_that_a_finding_comes_from() {
    let accept = "  accept base-thin, because \"trial pit shows gravel\"\n";
    let with = |section: &str| {
        let text = ON_CLAY.replace(section, &format!("{section}{accept}"));
        said(
            &analysed(&text, vec![("/specs/library.patio", LIBRARY)]),
            "base-thin",
        )
    };
    let accepted = "warning of `build thin-set-court`, accepted";
    assert_eq!(with("  water to \"planting bed\"\n"), accepted);
    assert_eq!(with("  soil clay, wet\n"), accepted);
}

#[test]
fn an_acceptance_is_written_in_the_spec() {
    for (accept, flat, rule, of_accept) in [
        (
            "accept fall-flat, because \"gravel below\"",
            true,
            "accept-idle",
            "",
        ),
        (
            "accept fall-flat 1:75, because \"gravel below\"",
            true,
            "accept-idle",
            "",
        ),
        (
            "accept fall-flat 1:70, because \"gravel below\"",
            false,
            "accept-idle",
            "",
        ),
        (
            "accept fall-flat, because \"gravel below\", until 2027-04-11",
            false,
            "accept-expired",
            "warning",
        ),
        (
            "accept fall-flat, because \"gravel below\", until 2027-04-20",
            true,
            "accept-expired",
            "advice",
        ),
        ("accept fall-flat", false, "accept-reasonless", "error"),
        (
            "accept fall-flt, because \"gravel below\"",
            false,
            "limit-unknown",
            "error",
        ),
    ] {
        for text in [format!("{FLAT}  {accept}\n"), format!("{FLAT}\n{accept}\n")] {
            let analysis = analysed(&text, vec![]);
            let wanted = match flat {
                true => "warning of `1:75`, accepted",
                false => "warning of `1:75`",
            };
            assert_eq!(said(&analysis, "fall-flat"), wanted, "{accept}");
            let of_rule = said(&analysis, rule);
            assert!(of_rule.starts_with(of_accept), "{accept}: {of_rule}");
            assert_eq!(
                of_rule.is_empty(),
                of_accept.is_empty(),
                "{accept}: {of_rule}"
            );
        }
    }
}

#[test]
fn a_standard_sets_what_matters() {
    let accepting = format!("{FLAT}  accept fall-flat, because \"gravel below\"\n");
    for (standard, text, flat, firm) in [
        ("limit fall-flat pavers 1:80", FLAT, "", ""),
        ("limit fall-flat 1:80", FLAT, "warning of `1:75`", ""),
        (
            "limit fall-flat pavers 1:80, region uk",
            FLAT,
            "warning of `1:75`",
            "",
        ),
        ("raise fall-flat to error", FLAT, "error of `1:75`", ""),
        (
            "ease fall-flat to advice, because \"lawns\"",
            FLAT,
            "advice of `1:75`",
            "",
        ),
        ("ease fall-flat to advice", FLAT, "warning of `1:75`", ""),
        ("off fall-flat, because \"lawns\"", FLAT, "", ""),
        ("off fall-flat", FLAT, "warning of `1:75`", ""),
        (
            "firm fall-flat",
            accepting.as_str(),
            "warning of `1:75`",
            "error of `accept fall-flat, because \"gravel below\"`",
        ),
    ] {
        let file: &'static str = format!("standard \"House rules\"\n  {standard}\n").leak();
        let analysis = analysed(text, vec![("/specs/standard.patio", file)]);
        assert_eq!(said(&analysis, "fall-flat"), flat, "{standard}");
        assert_eq!(said(&analysis, "accept-firm"), firm, "{standard}");
    }
}
