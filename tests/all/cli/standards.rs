//! A practice's standards and acceptances, every right and wrong spelling of
//! them, as the command line tells of them.

use serde_json::Value;
use tempfile::TempDir;

use super::{folder, json, run_in, text};

/// A court that falls 1:100 away from its building, where 1:80 is wanted.
const COURT: &str = "\
job \"Court\"
  units metric
  region uk
  currency GBP

site
  soil gravel, firm
  datum \"hall floor\"
  ground -200 mm

shape court
  rectangle 6 m by 4 m

surface court
  shape court
  meets north
  level -160 mm at north
  fall 1:100 away from north
  build sand-set
  laid running-bond, units 100 mm by 200 mm
  joint 3 mm, filled with joint-sand
  edging steel-edge, along free
  water to \"planting bed\"
";

const BUILD: &str = "
build sand-set
  paving concrete-paver, 60 mm, waste 5 %
  bed sharp-sand, 30 mm
  base crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm
  fabric geotextile, beyond 150 mm
";

/// The court with an entry of its surface, and a section of its own.
fn court(entry: &str, section: &str) -> String {
    let entry = match entry {
        "" => String::new(),
        entry => format!("  {entry}\n"),
    };
    format!("{COURT}{entry}{BUILD}\n{section}\n")
}

fn standard(lines: &str) -> String {
    let lines = lines.lines().map(|line| format!("  {}\n", line.trim()));
    format!("standard \"House\"\n{}", lines.collect::<String>())
}

/// What is told on a day, cautions aside: each rule with how much it matters,
/// with its line where it is in another file than the spec.
fn described(folder: &TempDir, arguments: &[&str]) -> String {
    let check = ["check", "--format", "json", "--date", "2027-04-12"];
    let output = run_in(folder.path(), &[&check[..], arguments].concat());
    assert!(output.status.code() < Some(2), "{}", text(&output.stderr));
    let document = json(&output);
    let mut reported = Vec::new();
    for file in document["files"].as_array().unwrap() {
        for finding in file["findings"].as_array().unwrap() {
            let of = |key: &str| finding[key].as_str().unwrap();
            if of("rule").starts_with("care-") {
                continue;
            }
            let place = match file["path"].as_str().unwrap() {
                "jobs/court.patio" => String::new(),
                path => format!("{path}:{} ", finding["start"]["line"]),
            };
            let accepted = match finding["accepted"] {
                Value::Null => "",
                _ => " accepted",
            };
            reported.push(format!(
                "{place}{} {}{accepted}",
                of("rule"),
                of("severity")
            ));
        }
    }
    reported.join(", ")
}

#[test]
fn every_spelling_of_an_acceptance_is_heard_or_told() {
    let flat = "fall-flat warning";
    let taken = "fall-flat warning accepted";
    let mut wrong = String::new();
    // An acceptance, and what is told where it is an entry of the surface and
    // where it stands at the margin.
    for (accept, of_both) in [
        ("accept fall-flat, because \"it drains\"", taken.to_owned()),
        (
            "accept fall-flat 1:100, because \"it drains\"",
            taken.to_owned(),
        ),
        (
            "accept fall-flat 1 %, because \"it drains\"",
            taken.to_owned(),
        ),
        (
            "accept fall-flat 10 mm per m, because \"it drains\"",
            taken.to_owned(),
        ),
        (
            "accept fall-flat 1/8 in per ft, because \"it drains\"",
            flat.to_owned(),
        ),
        (
            "accept fall-flat 1:99, because \"it drains\"",
            flat.to_owned(),
        ),
        (
            "accept fall-flat, because \"it drains\", by \"site office\", until 2027-12-31",
            taken.to_owned(),
        ),
        (
            "accept fall-flat, until 2027-12-31, by \"site office\", because \"it drains\"",
            taken.to_owned(),
        ),
        (
            "accept fall-flat, because \"it drains\", until 2027-05-01",
            format!("{taken}, accept-expired advisory"),
        ),
        (
            "accept fall-flat, because \"it drains\", until 2027-04-11",
            format!("{flat}, accept-expired warning"),
        ),
        (
            "accept fall-flat, because \"it drains\", until 2027-02-30",
            format!("{flat}, value-range error"),
        ),
        (
            "accept fall-flat",
            format!("{flat}, accept-reasonless error"),
        ),
        (
            "accept fall-flat, because \"  \"",
            format!("{flat}, accept-reasonless error"),
        ),
        (
            "accept fall-flat 1:100, by \"site office\"",
            format!("{flat}, accept-reasonless error"),
        ),
        (
            "accept fall-flt, because \"it drains\"",
            format!("{flat}, limit-unknown error"),
        ),
        (
            "accept fall-flat 10 mm, because \"it drains\"",
            format!("{flat}, limit-unknown error"),
        ),
        (
            "accept fall-missing 1:100, because \"it drains\"",
            format!("{flat}, limit-unknown error"),
        ),
        (
            "accept lip, because \"it drains\"",
            format!("{flat}, accept-idle advisory"),
        ),
        ("accept", format!("{flat}, entry-missing error")),
        (
            "accept fall-flat because \"it drains\"",
            format!("{taken}, comma-stray warning"),
        ),
        (
            "accept fall-flat, becuase \"it drains\"",
            format!("{flat}, word-unknown error"),
        ),
        (
            "accept fall-flat, because it drains",
            format!("{flat}, word-stray error"),
        ),
        (
            "accept fall-flat, because \"it drains\", until \"2027-12-31\"",
            format!("{flat}, word-stray error"),
        ),
        (
            "accept fall-flat, 1:100, because \"it drains\"",
            format!("{flat}, word-unknown error"),
        ),
        (
            "accept fall-flat, because \"it drains\", because \"still\"",
            format!("{flat}, entry-twice error"),
        ),
    ] {
        for (entry, section) in [(accept, ""), ("", accept)] {
            let spec = court(entry, section);
            let folder = folder(&[("jobs/court.patio", &spec)]);
            let reported = described(&folder, &["jobs"]);
            if reported != of_both {
                wrong += &format!("{entry}|{section}\n  {reported}\n  and not {of_both}\n");
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn every_spelling_of_a_standard_is_heard_or_told() {
    const FILE: &str = "jobs/standard.patio";
    let flat = "fall-flat warning";
    let mut wrong = String::new();
    // The lines of a standard, and what is told of it and of the court.
    for (lines, of_both) in [
        ("limit fall-flat pavers 1:100", String::new()),
        ("limit fall-flat pavers 1 %", String::new()),
        ("limit fall-flat pavers 10 mm per m", String::new()),
        ("limit fall-flat pavers 1:100, region uk", String::new()),
        ("limit fall-flat pavers 1:100, region us", flat.to_owned()),
        ("limit fall-flat 1:100", flat.to_owned()),
        ("limit fall-flat plain 1:100", flat.to_owned()),
        (
            "limit fall-flat pavers 1:100, region scotland",
            format!("{flat}, {FILE}:2 word-unknown error"),
        ),
        (
            "limit fall-flat paver 1:100",
            format!("{flat}, {FILE}:2 limit-unknown error"),
        ),
        (
            "limit fall-flt pavers 1:100",
            format!("{flat}, {FILE}:2 limit-unknown error"),
        ),
        (
            "limit fall-flat pavers 100 mm",
            format!("{flat}, {FILE}:2 limit-unknown error"),
        ),
        (
            "limit fall-missing 1:100",
            format!("{flat}, {FILE}:2 limit-unknown error"),
        ),
        (
            "limit fall-flat pavers",
            format!("{flat}, {FILE}:2 entry-missing error"),
        ),
        (
            "limit fall-flat paver",
            format!("{flat}, {FILE}:2 limit-unknown error"),
        ),
        (
            "limit fall-flat pavers 1:100 region uk",
            format!("{FILE}:2 comma-stray warning"),
        ),
        (
            "limit fall-flat pavers 1:90\nlimit fall-flat pavers 1:100",
            format!("{FILE}:3 entry-twice error"),
        ),
        (
            "limit fall-flat pavers 1:90\nlimit fall-flat pavers 1:100, region uk",
            String::new(),
        ),
        ("raise fall-flat to error", "fall-flat error".to_owned()),
        (
            "raise fall-flat to advisory",
            format!("{flat}, {FILE}:2 limit-unknown error"),
        ),
        (
            "raise fall-flat error",
            format!("{flat}, {FILE}:2 word-stray error"),
        ),
        (
            "raise fall-flat to fatal",
            format!("{flat}, {FILE}:2 word-unknown error"),
        ),
        (
            "ease fall-flat to advisory, because \"gardens drain\"",
            "fall-flat advisory".to_owned(),
        ),
        (
            "ease fall-flat to advice, because \"gardens drain\"",
            format!("fall-flat advisory, {FILE}:2 word-unknown advisory"),
        ),
        (
            "ease fall-flat to advisory",
            format!("{flat}, {FILE}:2 accept-reasonless error"),
        ),
        (
            "ease fall-flat to advisory because \"gardens drain\"",
            format!("fall-flat advisory, {FILE}:2 comma-stray warning"),
        ),
        (
            "ease fall-flt to advisory, because \"gardens drain\"",
            format!("{flat}, {FILE}:2 limit-unknown error"),
        ),
        ("off fall-flat, because \"gardens drain\"", String::new()),
        (
            "off fall-flat",
            format!("{flat}, {FILE}:2 accept-reasonless error"),
        ),
        (
            "off fall-flat, because \" \"",
            format!("{flat}, {FILE}:2 accept-reasonless error"),
        ),
        (
            "off fall-flat, because \"gardens drain\"\nraise fall-flat to error",
            format!("{FILE}:2 entry-twice error"),
        ),
        (
            "off fall-flat, because \"gardens drain\"\nfirm fall-flat",
            format!("{FILE}:2 accept-firm error"),
        ),
        ("firm fall-flat", flat.to_owned()),
        (
            "firm fall-flt",
            format!("{flat}, {FILE}:2 limit-unknown error"),
        ),
        ("firm", format!("{flat}, {FILE}:2 entry-missing error")),
        ("note \"reviewed each winter\"", flat.to_owned()),
        (
            "like \"none.patio\"",
            format!("{flat}, {FILE}:2 use-missing error"),
        ),
        (
            "like \"court.patio\"",
            format!("{flat}, {FILE}:2 use-missing error"),
        ),
        (
            "like \"standard.patio\"",
            format!("{flat}, {FILE}:2 circular error"),
        ),
        (
            "like \"round.patio\"",
            format!("{flat}, {FILE}:2 circular error"),
        ),
        (
            "like \"/standard.patio\"",
            format!("{flat}, {FILE}:2 use-outside error"),
        ),
        (
            "like \"..\\standard.patio\"",
            format!("{flat}, {FILE}:2 use-missing error"),
        ),
        (
            "soften fall-flat",
            format!("{flat}, {FILE}:2 word-unknown error"),
        ),
    ] {
        let (spec, own) = (court("", ""), standard(lines));
        let round = "standard \"Round\"\n  like \"standard.patio\"\n";
        let folder = folder(&[
            ("jobs/court.patio", &spec),
            ("jobs/standard.patio", &own),
            ("jobs/round.patio", round),
        ]);
        let reported = described(&folder, &["jobs/court.patio", "jobs/standard.patio"]);
        let of_both = of_both.trim_start_matches(", ");
        // The spec is told that its standard has errors; where another standard
        // is missing, that is told of there alone.
        let is_in_error =
            of_both.contains(FILE) && of_both.ends_with(" error") && !lines.starts_with("like ");
        let told = if is_in_error {
            "use-missing error, "
        } else {
            ""
        };
        let of_both = format!("{told}{of_both}");
        if reported != of_both {
            wrong += &format!("{lines}\n  {reported}\n  and not {of_both}\n");
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

/// A standard of each folder: of the practice, of its office, and a shared
/// one beside them.
fn practice(outer: &str, inner: &str, spec: &str) -> TempDir {
    let (outer, inner) = (standard(outer), standard(inner));
    folder(&[
        ("standard.patio", &outer),
        (
            "practice/house.patio",
            "standard \"Shared\"\n  limit fall-flat pavers 1:60\n  raise fall-flat to error\n  firm lip\n",
        ),
        (
            "practice/mild.patio",
            "standard \"Mild\"\n  limit fall-flat pavers 1:200\n",
        ),
        ("jobs/standard.patio", &inner),
        ("jobs/court.patio", spec),
    ])
}

#[test]
fn standards_start_from_one_another_and_firm_lines_reach_inward() {
    let flat = "fall-flat warning";
    let accepting = "accept fall-flat, because \"it drains\"";
    let mut wrong = String::new();
    // What the outer and the inner standard say, the acceptance, and what is
    // told.
    for (outer, inner, accept, of_all) in [
        // One further out is not started from unless that is said.
        ("limit fall-flat pavers 1:200", "note \"x\"", "", flat),
        (
            "limit fall-flat pavers 1:200",
            "like \"../standard.patio\"",
            "",
            "",
        ),
        (
            "off fall-flat, because \"x\"",
            "like \"../standard.patio\"",
            "",
            "",
        ),
        // The nearer line counts.
        (
            "limit fall-flat pavers 1:200",
            "like \"../standard.patio\"\nlimit fall-flat pavers 1:90",
            "",
            flat,
        ),
        (
            "limit fall-flat pavers 1:50",
            "like \"../standard.patio\"\nlimit fall-flat pavers 1:200",
            "",
            "",
        ),
        // Several are started from, the first before the second.
        (
            "note \"x\"",
            "like \"../practice/house.patio\"",
            "",
            "fall-flat error",
        ),
        (
            "note \"x\"",
            "like \"../practice/mild.patio\"\nlike \"../practice/house.patio\"",
            "",
            "",
        ),
        (
            "note \"x\"",
            "like \"../practice/house.patio\"\nlike \"../practice/mild.patio\"",
            "",
            "fall-flat error",
        ),
        // By way of another.
        (
            "like \"practice/house.patio\"",
            "like \"../standard.patio\"",
            "",
            "fall-flat error",
        ),
        // What is held firm holds inward whole: its limit and its severity.
        (
            "firm fall-flat\nlimit fall-flat pavers 1:20\nraise fall-flat to error",
            "limit fall-flat pavers 1:200",
            "",
            "fall-flat error, jobs/standard.patio:2 accept-firm error",
        ),
        (
            "firm fall-flat\nraise fall-flat to error",
            "raise fall-flat to warning",
            "",
            "fall-flat error",
        ),
        // Only of the rule that is held firm.
        (
            "firm lip\nlimit fall-flat pavers 1:20\nraise fall-flat to error",
            "note \"x\"",
            "",
            flat,
        ),
        // Firm lines are heard from further out, started from or not.
        ("firm fall-flat", "note \"x\"", "", flat),
        (
            "firm fall-flat",
            "note \"x\"",
            accepting,
            "fall-flat warning, accept-firm error",
        ),
        (
            "note \"x\"",
            "firm fall-flat",
            accepting,
            "fall-flat warning, accept-firm error",
        ),
        (
            "note \"x\"",
            "note \"x\"",
            accepting,
            "fall-flat warning accepted",
        ),
        (
            "firm fall-flat",
            "off fall-flat, because \"x\"",
            "",
            "fall-flat warning, jobs/standard.patio:2 accept-firm error",
        ),
        (
            "firm fall-flat",
            "ease fall-flat to advisory, because \"x\"",
            "",
            "fall-flat warning, jobs/standard.patio:2 accept-firm error",
        ),
        (
            "firm fall-flat",
            "limit fall-flat pavers 1:200",
            "",
            "fall-flat warning, jobs/standard.patio:2 accept-firm error",
        ),
        // In a region with a stricter limit the line counts, and in others not.
        (
            "firm fall-flat",
            "limit fall-flat pavers 1:60",
            "",
            "fall-flat warning, jobs/standard.patio:2 accept-firm advisory",
        ),
        (
            "firm fall-flat",
            "raise fall-flat to error",
            "",
            "fall-flat error",
        ),
        ("firm lip", "off fall-flat, because \"x\"", "", ""),
        // A standard is held to the firm lines of the one that it is like.
        (
            "note \"x\"",
            "like \"../practice/house.patio\"\noff lip, because \"x\"",
            "",
            "fall-flat error, jobs/standard.patio:3 accept-firm error",
        ),
    ] {
        let practice = practice(outer, inner, &court(accept, ""));
        let reported = described(&practice, &["jobs"]);
        if reported != of_all {
            wrong += &format!("{outer}|{inner}|{accept}\n  {reported}\n  and not {of_all}\n");
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn a_named_standard_stands_alone() {
    let practice = practice(
        "firm fall-flat",
        "limit fall-flat pavers 1:200",
        &court("", ""),
    );
    for (arguments, of_spec) in [
        (&["jobs/court.patio"][..], "fall-flat warning"),
        (
            &["--standard", "practice/house.patio", "jobs/court.patio"],
            "fall-flat error",
        ),
        (
            &["--standard", "practice/mild.patio", "jobs/court.patio"],
            "",
        ),
    ] {
        assert_eq!(described(&practice, arguments), of_spec, "{arguments:?}");
    }
    for (named, complaint) in [
        ("none.patio", "none.patio: there is no such file"),
        ("jobs/court.patio", "it is not a standard"),
        ("jobs", "it is a folder"),
    ] {
        let output = run_in(practice.path(), &["check", "--standard", named, "jobs"]);
        assert_eq!(output.status.code(), Some(2), "{named}");
        let reported = text(&output.stderr);
        assert!(reported.contains(complaint), "{named}: {reported}");
    }
}

#[test]
fn a_changed_standard_or_library_has_its_users_checked() {
    let practice = practice(
        "limit fall-flat pavers 1:200",
        "like \"../practice/house.patio\"",
        &court("", ""),
    );
    let write = |name: &str, text: &str| {
        let path = practice.path().join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
    };
    write(
        "others/gate.patio",
        "job \"Gate\"\n  units metric\n\nuse \"../library.patio\"\n",
    );
    write("library.patio", "use \"stones.patio\"\n");
    write("stones.patio", "let margin = 150 mm\n");
    let checked = |changed: &[&str]| {
        let arguments = ["check", "--format", "json", ".", "--affected-by"];
        let output = run_in(practice.path(), &[&arguments[..], changed].concat());
        let document = json(&output);
        let files = document["files"].as_array().unwrap().iter();
        files
            .map(|file| file["path"].as_str().unwrap().to_owned())
            .collect::<Vec<_>>()
            .join(" ")
    };
    for (changed, of_all) in [
        (&["jobs/court.patio"][..], "jobs/court.patio"),
        // By way of another library, and of the standard that one is like.
        (
            &["stones.patio"],
            "library.patio others/gate.patio stones.patio",
        ),
        (
            &["practice/house.patio"],
            "jobs/court.patio jobs/standard.patio practice/house.patio",
        ),
        (
            &["jobs/standard.patio"],
            "jobs/court.patio jobs/standard.patio",
        ),
        (
            &["jobs/court.patio", "stones.patio"],
            "jobs/court.patio library.patio others/gate.patio stones.patio",
        ),
        (&["elsewhere.patio"], ""),
        // One that would apply if it were there: it may have been removed.
        (&["others/standard.patio"], "others/gate.patio"),
    ] {
        assert_eq!(checked(changed), of_all, "{changed:?}");
    }
    let everyone = checked(&["standard.patio"]);
    assert_eq!(everyone.split(' ').count(), 8, "{everyone}");
}
