//! A practice's libraries, standards and acceptances: where a finding is
//! reported, how much it matters, and what takes it.

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, Files};
use drylay::rules::{complete, find};
use drylay::text::Text;

/// Files in memory: their paths and texts.
struct Folder(Vec<(&'static str, &'static str)>);

impl Files for Folder {
    fn read(&self, path: &str) -> Result<Text, String> {
        let file = self.0.iter().find(|(own, _)| *own == path);
        let text = file.map(|(_, text)| Text::from(*text));
        text.ok_or_else(|| "there is no such file".to_owned())
    }

    fn exists(&self, path: &str) -> bool {
        let inside = format!("{path}/");
        let mut paths = self.0.iter().map(|(own, _)| *own);
        path == "/specs" || paths.any(|own| own == path || own.starts_with(&inside))
    }

    fn list(&self, folder: &str) -> Arc<[String]> {
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
        names.sort();
        names.into()
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
fn what_a_library_accepts_of_a_build_is_accepted_in_the_jobs_that_use_it() {
    let library = |accept: &str| -> &'static str { format!("{LIBRARY}{accept}").leak() };
    for (accept, base, idle) in [
        ("", "warning of `build thin-set-court`", ""),
        (
            "  accept base-thin 100 mm, because \"tested on this clay\"\n",
            "warning of `build thin-set-court`, accepted",
            "",
        ),
        // No further than its figure, nor without a reason.
        (
            "  accept base-thin 125 mm, because \"tested on this clay\"\n",
            "warning of `build thin-set-court`",
            "",
        ),
        (
            "  accept base-thin 100 mm\n",
            "warning of `build thin-set-court`",
            "",
        ),
        // At the margin it is for the library alone.
        (
            "\naccept base-thin, because \"tested on this clay\"\n",
            "warning of `build thin-set-court`",
            "advisory of `accept base-thin, because \"tested on this clay\"`",
        ),
    ] {
        let text = library(accept);
        let job = analysed(ON_CLAY, vec![("/specs/library.patio", text)]);
        assert_eq!(said(&job, "base-thin"), base, "{accept}");
        let alone = Analyser::new().analyse(
            "/specs/library.patio",
            text.into(),
            &Folder(Vec::new()),
            "2027-04-12",
        );
        assert_eq!(said(&alone, "accept-idle"), idle, "{accept}");
    }
}

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

/// A job is built with what it uses: a mix that says nothing of its use is
/// judged where it is laid, by the file that lays it.
#[test]
fn a_library_s_mix_is_judged_where_it_is_laid() {
    const MIXES: &str = "\
mix lean-mix
  parts 1 portland-cement : 9 sharp-sand

mix kerb-mix
  parts 2 sharp-sand : 4 gravel

mix good-mix
  parts 1 portland-cement : 4 sharp-sand
";
    const MORTARED: &str = "\
surface court
  shape court
  meets north
  level -160 mm at north
  fall 1:50 away from north
  build in-mortar
  laid running-bond, units 600 mm by 300 mm
  joint 10 mm, filled with good-mix
  edging kerb, along free, on kerb-mix 100 mm, haunched 100 mm wide to 50 mm below the top

material kerb
  like concrete-kerb
  unit 915 mm by 150 mm by 50 mm

build in-mortar
  paving sandstone, 30 mm
  bed lean-mix, 40 mm
  base type-1, 150 mm compacted
";
    let text = |bed: &str| format!("use \"mixes.patio\"\n\n{MORTARED}").replace("lean-mix", bed);
    for (bed, lean) in [("lean-mix", "warning of `lean-mix`"), ("good-mix", "")] {
        let analysis = analysed(&text(bed), vec![("/specs/mixes.patio", MIXES)]);
        assert_eq!(said(&analysis, "mix-lean"), lean, "{bed}");
        assert_eq!(
            said(&analysis, "binder-missing"),
            "warning of `kerb-mix`",
            "{bed}"
        );
    }
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
            "advisory",
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
            "ease fall-flat to advisory, because \"lawns\"",
            FLAT,
            "advisory of `1:75`",
            "",
        ),
        ("ease fall-flat to advisory", FLAT, "warning of `1:75`", ""),
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

/// A spec that uses what is not there, what is outside, and itself; with a
/// word that is none.
const ASTRAY: &str = "\
use \"librery.patio\"
use \"../house.patio\"
use \"round.patio\"

site
  soil clay, wet
  datum \"hall floor\"
  ground -200 mm
  colour blue
";

#[test]
fn what_is_wrong_with_files_and_text_is_weighed_and_accepted_as_all_else() {
    let files = |standard: &'static str| {
        vec![
            ("/specs/library.patio", LIBRARY),
            ("/specs/round.patio", "let margin = 6 in\n"),
            ("/specs/standard.patio", standard),
        ]
    };
    let missing = "error of `\"librery.patio\"`";
    let outside = "error of `\"../house.patio\"`";
    let unknown = "error of `colour`";
    // A rule, what a standard says of it and what the spec accepts; then what
    // is found.
    for (rule, standard, accept, found) in [
        ("use-missing", "", "", missing),
        (
            "use-missing",
            "off use-missing, because \"sent without\"",
            "",
            "",
        ),
        // The line itself is an error of the standard, which is told as well.
        (
            "use-missing",
            "off use-missing",
            "",
            "error of `job`; error of `\"librery.patio\"`",
        ),
        (
            "use-missing",
            "ease use-missing to advisory, because \"sent without\"",
            "",
            "advisory of `\"librery.patio\"`",
        ),
        (
            "use-missing",
            "",
            "accept use-missing, because \"sent without\"",
            "error of `\"librery.patio\"`, accepted",
        ),
        ("use-missing", "", "accept use-missing", missing),
        (
            "use-missing",
            "firm use-missing",
            "accept use-missing, because \"sent without\"",
            missing,
        ),
        ("use-outside", "", "", outside),
        (
            "use-outside",
            "",
            "accept use-outside, because \"moved next week\"",
            "error of `\"../house.patio\"`, accepted",
        ),
        ("word-unknown", "", "", unknown),
        (
            "word-unknown",
            "ease word-unknown to advisory, because \"kept for the mason\"",
            "",
            "advisory of `colour`",
        ),
        (
            "word-unknown",
            "",
            "accept word-unknown, because \"kept for the mason\"",
            "error of `colour`, accepted",
        ),
    ] {
        let standard: &'static str = format!("standard \"House\"\n  {standard}\n").leak();
        let analysis = analysed(&format!("{ASTRAY}\n{accept}\n"), files(standard));
        assert_eq!(said(&analysis, rule), found, "{standard}{accept}");
    }
    // Round a circle, told where this file asks for it.
    let circle = vec![("/specs/round.patio", "use \"round.patio\"\n")];
    let reported = Analyser::new().analyse(
        "/specs/round.patio",
        Text::from("use \"round.patio\"\n\naccept circular, because \"it is being parted\"\n"),
        &Folder(circle),
        "2027-04-12",
    );
    assert_eq!(
        said(&reported, "circular"),
        "error of `\"round.patio\"`, accepted"
    );
}

#[test]
fn a_near_name_is_offered_for_a_file_that_is_not_there() {
    for (asked, offered) in [
        ("librery.patio", Some("library.patio")),
        ("./librery.patio", Some("./library.patio")),
        ("stones.patio", None),
        // Neither the file that asks nor one that is no spec is meant.
        ("curt.patio", None),
        ("library.patoi", Some("library.patio")),
    ] {
        let analysis = analysed(
            &format!("use \"{asked}\"\n"),
            vec![
                ("/specs/library.patio", LIBRARY),
                ("/specs/librery.txt", ""),
            ],
        );
        let mut findings = analysis.findings.iter();
        let finding = findings.find(|finding| finding.rule == "use-missing");
        let fixes = &finding.expect("a file that is missing").fixes;
        let texts: Vec<&str> = fixes
            .iter()
            .flat_map(|fix| &fix.changes)
            .map(|change| change.text.trim_matches('"'))
            .collect();
        assert_eq!(texts, offered.into_iter().collect::<Vec<_>>(), "{asked}");
        assert!(fixes.iter().all(|fix| !fix.safe));
    }
}

#[test]
fn a_fix_that_changes_another_file_says_which() {
    let own = complete(find("re-entrant").expect("the rule").breaks);
    let own = own.text.replace("mortar-set", "office-set");
    let (spec, build) = own.split_once("\nbuild ").expect("a build");
    let library: &'static str = format!("build {build}").leak();
    let analysis = analysed(
        &format!("use \"library.patio\"\n\n{spec}"),
        vec![("/specs/library.patio", library)],
    );
    let mut elsewhere = 0;
    for finding in analysis.findings.iter() {
        for fix in &finding.fixes {
            let mut files = fix.changes.iter().map(|change| change.place.section.file.0);
            let is_elsewhere = files.any(|file| file != 0);
            assert_eq!(
                fix.title.ends_with(" in library.patio"),
                is_elsewhere,
                "{fix:?}"
            );
            assert!(!is_elsewhere || !fix.safe, "{fix:?}");
            elsewhere += usize::from(is_elsewhere);
        }
    }
    assert!(elsewhere > 0, "nothing is mended in the library");
}

#[test]
fn a_borrowed_figure_that_a_practice_sets_is_its_own() {
    let own = find("movement-missing").expect("the rule").breaks;
    let uk = format!("job \"Court\"\n  region       uk\n\n{own}");
    for (text, standard, severity, words) in [
        (own, "", "warning", None),
        (
            &uk,
            "",
            "advisory",
            Some("American figure; no British one is known"),
        ),
        (&uk, "limit movement-missing 3.5 m", "warning", None),
        (
            &uk,
            "raise movement-missing to warning",
            "warning",
            Some("American figure"),
        ),
    ] {
        let standard: &'static str = format!("standard \"House\"\n  {standard}\n").leak();
        let analysis = analysed(text, vec![("/specs/standard.patio", standard)]);
        let mut findings = analysis.findings.iter();
        let found = findings.find(|finding| finding.rule == "movement-missing");
        let found = found.expect("joints that are missing");
        let weight = found.severity.map(|severity| severity.word());
        assert_eq!(weight, Some(severity), "{standard}");
        let said = &found.message;
        let agrees = match words {
            Some(words) => said.contains(words),
            None => !said.contains("American"),
        };
        assert!(agrees, "{standard}: {said}");
    }
}

/// A file of the name of a standard that is none hides no rules of the house:
/// that is told, and the next one out holds.
#[test]
fn a_standard_without_its_heading_hides_none_further_out() {
    const HOUSE: &str = "standard \"House\"\n  off fall-flat, because \"courts drain to pits\"\n";
    let with = |inner: &'static str| {
        let files = vec![
            ("/specs/standard.patio", inner),
            ("/standard.patio", HOUSE),
            ("/.git/HEAD", ""),
        ];
        analysed(FLAT, files)
    };
    let hidden = with("job \"x\"\n  units metric\n");
    assert_eq!(said(&hidden, "fall-flat"), "");
    let told = hidden
        .findings
        .iter()
        .filter(|own| own.rule == "use-missing");
    let told: Vec<&str> = told.map(|own| &*own.message).collect();
    assert!(
        told.iter()
            .any(|message| message.contains("standard.patio")),
        "{told:?}"
    );
    let own = with("standard \"Own\"\n");
    assert_ne!(said(&own, "fall-flat"), "");
}

/// A line of a standard that sets nothing is told in every spec that it was to
/// hold for: whoever checks the specs alone would never see it.
#[test]
fn errors_of_a_standard_are_told_where_it_applies() {
    for (line, is_told) in [
        ("limit fall-flat 1:70", false),
        ("limit fall-flt 1:70", true),
        ("limit fall-flat 70", true),
        ("limit fall-flat 70 mm", true),
        ("firm level-high", false),
        ("firm level-hi", true),
        ("off fall-flat, because \"lawns\"", false),
    ] {
        let file: &'static str = format!("standard \"House rules\"\n  {line}\n").leak();
        let analysis = analysed(FLAT, vec![("/specs/standard.patio", file)]);
        let told = analysis.findings.iter().any(|own| {
            own.rule == "use-missing" && own.message.contains("standard.patio that applies here")
        });
        assert_eq!(told, is_told, "{line}");
    }
}

/// What the site brings is accepted at the site: to remove the line would be to
/// lose its reason.
#[test]
fn an_acceptance_of_what_the_whole_job_brings_is_sent_there() {
    let accept = "  accept soil-expansive, because \"the engineer passed it\"\n";
    let spec = |in_site: &str, in_surface: &str| {
        format!(
            "{FLAT}{in_surface}\nsite\n  soil clay, expansive\n  datum \"hall floor\"\n{in_site}"
        )
    };
    let idle = |in_site: &str, in_surface: &str| {
        let analysis = analysed(&spec(in_site, in_surface), Vec::new());
        let all = analysis.findings.iter();
        let idle = all.filter(|finding| finding.rule == "accept-idle");
        let told = idle.map(|finding| {
            let there = finding.related.iter().map(|own| analysis.text(own.place));
            (there.collect::<Vec<_>>().join(", "), finding.fixes.len())
        });
        told.collect::<Vec<_>>()
    };
    assert_eq!(idle(accept, ""), []);
    assert_eq!(idle("", accept), [("expansive".to_owned(), 0)]);
    // Where it is accepted there already, this one is of no use.
    assert_eq!(idle(accept, accept), [(String::new(), 1)]);
    let fixed = accept.replace("soil-expansive", "lip");
    assert_eq!(idle("", &fixed), [(String::new(), 1)]);
}
