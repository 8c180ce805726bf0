//! What changes from one state of a spec to another, and why.

use std::fs;
use std::path::Path;

use serde_json::Value;

use super::{SOUND, folder, run_in, text};
use crate::tools::command;

const OLD: &str = "\
job \"Gate court\"
  reference \"A\"
  units metric
  region general
  currency GBP

shape court
  rectangle 4 m by 3 m

shape path
  rectangle 1 m by 5 m

surface court
  shape court
  build flags

surface path
  shape path
  build chips

build flags
  paving sandstone, 40 mm
  bed concrete-sand, 30 mm
  base house-grit, 100 mm

build chips
  base house-grit, 80 mm

use \"house.patio\"
";

const LIBRARY: &str = "material house-grit\n  density 2 t/m3\n  sold by t\n  price 20 GBP per t\n";

/// The newer spec: a comment more, another reference, a thicker base, a
/// wider court, and no path.
fn newer() -> String {
    let path = "surface path\n  shape path\n  build chips\n\n";
    OLD.replace("reference \"A\"", "reference \"B\"")
        .replace(
            "base house-grit, 100 mm",
            "# Soft ground.\n  base house-grit, 150 mm",
        )
        .replace("4 m by 3 m", "5 m by 3 m")
        .replace(path, "")
}

fn compared(folder: &Path, arguments: &[&str]) -> String {
    let output = run_in(folder, &[&["compare"][..], arguments].concat());
    assert_eq!(
        (output.status.code(), text(&output.stderr).as_str()),
        (Some(0), "")
    );
    text(&output.stdout)
}

fn parsed(folder: &Path, arguments: &[&str]) -> Value {
    let arguments = [arguments, &["--format", "json"]].concat();
    serde_json::from_str(&compared(folder, &arguments)).unwrap()
}

/// The sections that are told to have caused a figure.
fn causes(comparison: &Value, label: &str) -> Vec<String> {
    let figures = comparison["figures"].as_array().unwrap();
    let figure = figures.iter().find(|figure| figure["label"] == label);
    let figure = figure.unwrap_or_else(|| panic!("{label} is not in {comparison:#}"));
    let from = figure["from"].as_array().unwrap().iter();
    from.map(|index| &comparison["lines"][index.as_u64().unwrap() as usize]["section"])
        .map(|section| section.as_str().unwrap().to_owned())
        .collect()
}

#[test]
fn changed_figures_are_told_with_the_lines_that_caused_them() {
    let folder = folder(&[
        ("old/court.patio", OLD),
        ("old/house.patio", LIBRARY),
        ("new/court.patio", &newer()),
        ("new/house.patio", LIBRARY),
    ]);
    let files = ["old/court.patio", "new/court.patio"];
    let document = parsed(folder.path(), &files);
    let comparison = &document["comparisons"][0];
    for (label, sections) in [
        ("shape court: area", &["shape court"][..]),
        ("court: area", &["shape court"]),
        ("court, base of house-grit: thickness", &["build flags"]),
        ("surface path", &["surface path"]),
    ] {
        assert_eq!(causes(comparison, label), sections, "{label}");
    }
    let order = causes(comparison, "order of house-grit: ordered");
    assert_eq!(order, ["shape court", "build flags", "surface path"]);
    let lines = comparison["lines"].as_array().unwrap();
    let of = |section: &str| {
        lines
            .iter()
            .find(|line| line["section"] == section)
            .unwrap()
    };
    assert_eq!(of("build flags")["old"], serde_json::json!([[24, 24]]));
    assert_eq!(of("build flags")["new"], serde_json::json!([[21, 21]]));
    assert_eq!(
        of("job")["new"],
        serde_json::json!([[2, 2]]),
        "it is told, and causes nothing"
    );
    assert_eq!(of("surface path")["new"], serde_json::json!([]));
    // A part that is gone is one line.
    let figures = comparison["figures"].as_array().unwrap();
    let of_path = figures
        .iter()
        .filter(|figure| figure["name"] == "path" && figure["part"] == "surface");
    assert_eq!(of_path.count(), 1);
    assert!(
        figures
            .iter()
            .all(|figure| !figure["from"].as_array().unwrap().is_empty())
    );
    let findings = comparison["findings"].as_array().unwrap();
    assert!(
        findings.iter().any(|finding| finding["change"] == "gone"),
        "{findings:#?}"
    );

    let sheet = compared(folder.path(), &files);
    assert!(
        sheet.contains("shape court: area") && sheet.contains("+25.0 %"),
        "{sheet}"
    );
    assert!(sheet.contains("\n  build flags    21    24\n"), "{sheet}");
    let comment = compared(
        folder.path(),
        &[&files[..], &["--format", "markdown"]].concat(),
    );
    assert!(
        comment.starts_with("### old/court.patio → new/court.patio\n"),
        "{comment}"
    );
    assert!(
        comment.contains("\n| shape court: area | 12.00 m² | 15.00 m² | +25.0 % | 8 |\n"),
        "{comment}"
    );
    let same = compared(folder.path(), &["old/court.patio", "old/court.patio"]);
    assert!(same.contains("\nnothing changed: "), "{same}");
}

#[test]
fn a_spec_is_compared_with_what_it_was() {
    let folder = folder(&[
        ("standard.patio", "standard \"House\"\n"),
        ("jobs/court.patio", OLD),
        ("jobs/house.patio", LIBRARY),
        ("jobs/other.patio", SOUND),
        ("jobs/going.patio", "job \"Going\"\n"),
        ("jobs/early.patio", OLD),
    ]);
    let git = |arguments: &[&str]| {
        let done = command("git", folder.path())
            .args(arguments)
            .output()
            .unwrap();
        assert!(done.status.success(), "{done:?}");
    };
    git(&["init", "--quiet"]);
    git(&["add", "."]);
    git(&["commit", "--quiet", "-m", "Begin"]);
    let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).unwrap();
    assert_eq!(
        compared(folder.path(), &["--git", "HEAD", "jobs"]),
        "nothing changed in 5 specs\n"
    );

    // The library that a spec uses is read as it was, too.
    write("jobs/house.patio", &LIBRARY.replace("20 GBP", "25 GBP"));
    fs::remove_file(folder.path().join("jobs/going.patio")).unwrap();
    write("jobs/coming.patio", SOUND);
    // One that was renamed and changed is followed.
    fs::remove_file(folder.path().join("jobs/early.patio")).unwrap();
    write(
        "jobs/late.patio",
        &OLD.replacen("\n\n", "\n\n# Renamed.\n", 1),
    );
    let document = parsed(folder.path(), &["--git", "HEAD", "jobs"]);
    let comparisons = document["comparisons"].as_array().unwrap();
    let named = |name: &str| {
        let is_named = |one: &&Value| one["new"] == name || one["old"] == format!("{name} at HEAD");
        comparisons
            .iter()
            .find(is_named)
            .unwrap_or_else(|| panic!("no {name}: {document:#}"))
    };
    let court = named("jobs/court.patio");
    assert_eq!(
        causes(court, "order of house-grit: cost"),
        ["material house-grit"]
    );
    assert_eq!(court["lines"][0]["path"], "jobs/house.patio");
    assert_eq!(named("jobs/going.patio")["new"], Value::Null);
    assert_eq!(named("jobs/coming.patio")["old"], Value::Null);
    assert_eq!(named("jobs/late.patio")["old"], "jobs/early.patio at HEAD");
    assert_eq!(named("jobs/other.patio")["figures"], serde_json::json!([]));

    // A standard is read as it was: what it makes of a spec changes.
    write(
        "standard.patio",
        "standard \"House\"\n  limit base-thin foot 300 mm\n",
    );
    let document = parsed(
        &folder.path().join("jobs"),
        &["--git", "HEAD", "court.patio"],
    );
    let findings = document["comparisons"][0]["findings"].to_string();
    assert!(findings.contains("base-thin"), "{document:#}");

    for (arguments, reported) in [
        (&["--git", "none", "jobs"][..], "git knows no revision none"),
        (&["--git", "HEAD", "never.patio"], "there is no such file"),
        (&["jobs/court.patio"], "name two specs"),
    ] {
        let output = run_in(folder.path(), &[&["compare"][..], arguments].concat());
        assert_eq!(output.status.code(), Some(2));
        assert!(text(&output.stderr).contains(reported), "{output:?}");
    }
}

#[test]
fn what_a_figure_does_not_draw_on_is_not_blamed() {
    let spec = OLD.replace("bed concrete-sand", "bed yard-sand");
    let library = |grit: &str, sand: &str| {
        format!(
            "material house-grit\n  density 2 t/m3\n  sold by t\n  price {grit} GBP per t\n\n\
             material yard-sand\n  like concrete-sand\n  sold by t\n  price {sand} GBP per t\n"
        )
    };
    let thick = spec.replace("house-grit, 100 mm", "house-grit, 120 mm");
    let folder = folder(&[
        ("old/court.patio", &spec),
        ("old/house.patio", &library("20", "30")),
        ("new/court.patio", &thick),
        ("new/house.patio", &library("25", "35")),
    ]);
    let document = parsed(folder.path(), &["old/court.patio", "new/court.patio"]);
    let comparison = &document["comparisons"][0];
    for (label, sections) in [
        ("order of house-grit: ordered", &["build flags"][..]),
        ("order of house-grit: price", &["material house-grit"]),
        (
            "order of house-grit: cost",
            &["build flags", "material house-grit"],
        ),
        ("order of yard-sand: price", &["material yard-sand"]),
    ] {
        assert_eq!(causes(comparison, label), sections, "{label}");
    }
    let figures = comparison["figures"].as_array().unwrap().iter();
    let dig = figures.filter(|figure| figure["item"] == "dig");
    for figure in dig {
        let label = figure["label"].as_str().unwrap();
        assert_eq!(causes(comparison, label), ["build flags"], "{label}");
    }
}

/// The lines that are told to have caused what is listed under a key.
fn lines_behind(comparison: &Value, of: &Value) -> Vec<u64> {
    let from = of["from"].as_array().unwrap().iter();
    let changes = from.map(|index| &comparison["lines"][index.as_u64().unwrap() as usize]);
    changes
        .map(|change| change["new"][0][0].as_u64().unwrap())
        .collect()
}

#[test]
fn a_sum_of_which_more_is_priced_is_no_dearer() {
    let priced = OLD.to_owned() + "\nmaterial concrete-sand\n  price 35 GBP per t\n";
    let folder = folder(&[
        ("old/court.patio", OLD),
        ("old/house.patio", LIBRARY),
        ("new/court.patio", &priced),
        ("new/house.patio", LIBRARY),
    ]);
    for (old, new, change) in [
        ("old", "new", "more of it is priced"),
        ("new", "old", "less of it is priced"),
    ] {
        let [old, new] = [old, new].map(|own| format!("{own}/court.patio"));
        let document = parsed(folder.path(), &[&old, &new]);
        let figures = document["comparisons"][0]["figures"].as_array().unwrap();
        let total = figures.iter().find(|own| own["label"] == "total: cost");
        assert_eq!(total.expect("a total")["change"], change);
    }
}

#[test]
fn where_an_order_is_rounded_up_each_line_that_is_enough_is_blamed() {
    // 1.2 m³ and what is wasted comes to 1.4 m³ as it is ordered. A smaller
    // court or a thinner slab alone makes it so, too; the reference does not.
    let spec = |reference: &str, length: &str, thickness: &str| {
        format!(
            "job \"Gate court\"\n  reference \"{reference}\"\n  units metric\n  region uk\n\n\
             shape court\n  rectangle {length} m by 3 m\n\n\
             surface court\n  shape court\n  build slab\n\n\
             build slab\n  slab concrete, {thickness} mm, waste 10 %\n"
        )
    };
    let folder = folder(&[
        ("old/court.patio", &spec("A", "3.9", "98")),
        ("new/court.patio", &spec("B", "4", "100")),
    ]);
    let document = parsed(folder.path(), &["old/court.patio", "new/court.patio"]);
    let comparison = &document["comparisons"][0];
    let figures = comparison["figures"].as_array().unwrap();
    for label in ["order of concrete: needed", "order of concrete: ordered"] {
        let figure = figures.iter().find(|figure| figure["label"] == label);
        let figure = figure.unwrap_or_else(|| panic!("{label} is not in {comparison:#}"));
        assert_eq!(lines_behind(comparison, figure), [7, 14], "{label}");
    }
}

#[test]
fn each_line_of_a_section_is_blamed_for_what_it_changes() {
    // Three lines of one build, and one of the job that changes no figure.
    let new = OLD
        .replace("reference \"A\"", "reference \"B\"")
        .replace("sandstone, 40 mm", "sandstone, 50 mm")
        .replace("concrete-sand, 30 mm", "concrete-sand, 40 mm")
        .replace("house-grit, 100 mm", "house-grit, 60 mm");
    let folder = folder(&[
        ("old/court.patio", OLD),
        ("old/house.patio", LIBRARY),
        ("new/court.patio", &new),
        ("new/house.patio", LIBRARY),
    ]);
    let document = parsed(folder.path(), &["old/court.patio", "new/court.patio"]);
    let comparison = &document["comparisons"][0];
    let figures = comparison["figures"].as_array().unwrap();
    for (label, lines) in [
        ("court, paving of sandstone: thickness", &[22][..]),
        ("court, bed of concrete-sand: mass", &[23]),
        ("court, base of house-grit: mass", &[24]),
        ("order of house-grit: cost", &[24]),
        ("court: depth of build", &[22, 23, 24]),
    ] {
        let figure = figures.iter().find(|figure| figure["label"] == label);
        let figure = figure.unwrap_or_else(|| panic!("{label} is not in {comparison:#}"));
        assert_eq!(lines_behind(comparison, figure), lines, "{label}");
    }
    let findings = comparison["findings"].as_array().unwrap().iter();
    for finding in findings.filter(|finding| finding["rule"] == "base-thin") {
        assert_eq!(lines_behind(comparison, finding), [24], "{finding:#}");
    }
}

#[test]
fn what_another_standard_brings_about_is_no_fault_of_the_spec() {
    let folder = folder(&[
        ("old/court.patio", OLD),
        ("old/house.patio", LIBRARY),
        (
            "new/court.patio",
            &OLD.replace("reference \"A\"", "reference \"B\""),
        ),
        ("new/house.patio", LIBRARY),
        (
            "new/standard.patio",
            "standard \"House\"\n  limit base-thin foot 300 mm\n",
        ),
    ]);
    let document = parsed(folder.path(), &["old/court.patio", "new/court.patio"]);
    let comparison = &document["comparisons"][0];
    let findings = comparison["findings"].as_array().unwrap().iter();
    let mut thin = findings.filter(|finding| finding["rule"] == "base-thin");
    let thin = thin.next().unwrap_or_else(|| panic!("{comparison:#}"));
    let from = thin["from"].as_array().unwrap().iter();
    let lines = from.map(|index| &comparison["lines"][index.as_u64().unwrap() as usize]);
    for line in lines {
        let path = line["path"].as_str().unwrap_or_default();
        assert!(path.ends_with("standard.patio"), "{line:#}");
    }
}

#[test]
fn one_price_of_a_library_is_a_line_for_each_spec() {
    let names: Vec<String> = (0..40)
        .map(|number| format!("job-{number}.patio"))
        .collect();
    let mut files: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), OLD)).collect();
    files.push(("house.patio", LIBRARY));
    let folder = folder(&files);
    for arguments in [
        &["init", "--quiet"][..],
        &["add", "."],
        &["commit", "--quiet", "-m", "Begin"],
    ] {
        let done = command("git", folder.path()).args(arguments).output();
        assert!(done.unwrap().status.success());
    }
    let dearer = LIBRARY.replace("20 GBP", "25 GBP");
    fs::write(folder.path().join("house.patio"), dearer).unwrap();
    for (format, head) in [
        ("text", "Lines that changed"),
        ("markdown", "### The same lines change 40 specs"),
    ] {
        let reported = compared(folder.path(), &["--git", "HEAD", ".", "--format", format]);
        assert_eq!(
            reported.matches("job-").count() + reported.matches("job\\-").count(),
            40,
            "{reported}"
        );
        assert_eq!(reported.matches("material house").count(), 1, "{reported}");
        assert!(
            reported.contains(head) && reported.contains('£'),
            "{reported}"
        );
        assert!(reported.len() < 40 * 120 + 400, "{} bytes", reported.len());
    }
}

#[test]
fn a_spec_that_is_new_or_gone_is_a_line() {
    let folder = folder(&[("court.patio", OLD), ("house.patio", LIBRARY)]);
    for arguments in [
        &["init", "--quiet"][..],
        &["add", "."],
        &["commit", "--quiet", "-m", "Begin"],
    ] {
        let done = command("git", folder.path()).args(arguments).output();
        assert!(done.unwrap().status.success());
    }
    let yard = OLD
        .replace("court", "yard")
        .replace("6 m by 4 m", "9 m by 2 m");
    fs::write(folder.path().join("yard.patio"), yard).unwrap();
    let compared = run_in(folder.path(), &["compare", "--git", "HEAD", "."]);
    let shown = text(&compared.stdout);
    assert!(shown.starts_with("yard.patio is new: "), "{shown}");
    assert!(!shown.contains("Figures that changed"), "{shown}");
    fs::remove_file(folder.path().join("yard.patio")).unwrap();
    let compared = run_in(folder.path(), &["compare", "--git", "HEAD", "."]);
    assert!(!text(&compared.stdout).contains("is new"));
}
