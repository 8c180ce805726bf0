//! Rules on units and joints look at what borders are made of, and at what
//! they stand on.

use drylay::analysis::{Analyser, NoFiles};

/// What is found of a court of sound pavers with this border, and with these
/// sections more: each rule with the words that it points at.
fn found(border: &str, more: &str) -> Vec<(&'static str, String)> {
    analysed(&job(border, more))
}

fn job(border: &str, more: &str) -> String {
    format!(
        "job \"Court\"\n  units metric\n  region uk\n\n\
         site\n  soil gravel, firm\n  frost 450 mm\n  datum \"sill\"\n  ground -100 mm\n\n\
         shape court\n  rectangle 6 m by 4 m\n\n\
         surface court\n  shape court\n  for drive\n  level 0 mm at north\n  fall 1:60 away from north\n  build sand-set\n  \
         laid herringbone, units 200 mm by 100 mm\n  joint 3 mm, filled with joint-sand\n  \
         edging steel-edge, along free\n  border {border}, along free\n\n\
         build sand-set\n  paving concrete-paver, 80 mm\n  bed sharp-sand, 30 mm\n  base type-1, 150 mm compacted, beyond 100 mm\n\n{more}"
    )
}

fn analysed(text: &str) -> Vec<(&'static str, String)> {
    let analysis = Analyser::new().analyse("/court.patio", text.into(), &NoFiles, "2027-04-12");
    let findings = analysis.findings.iter();
    let told = findings.map(|own| (own.rule, analysis.text(own.place).to_owned()));
    told.collect()
}

const SOUND: &str = "concrete-paver, soldier, units 200 mm by 100 mm";

#[test]
fn each_rule_looks_at_the_border() {
    let sound = found(SOUND, "");
    for (rule, at, border, more) in [
        (
            "lift-heavy",
            "900 mm by 600 mm",
            "sandstone, units 900 mm by 600 mm".to_owned(),
            "",
        ),
        (
            "size-odd",
            "4 m",
            "concrete-paver, units 4 m by 100 mm".to_owned(),
            "",
        ),
        ("joint-wide", "12 mm", format!("{SOUND}, joint 12 mm"), ""),
        (
            "strength-low",
            "10 MPa",
            SOUND.replace("concrete-paver", "rim"),
            "material rim\n  like concrete-paver\n  strength 10 MPa\n",
        ),
        (
            "brick-class",
            "facing",
            SOUND.replace("concrete-paver", "rim"),
            "material rim\n  like clay-brick\n  class facing\n",
        ),
        (
            "absorption-high",
            "9 %",
            SOUND.replace("concrete-paver", "rim"),
            "material rim\n  like sandstone\n  absorption 9 %\n",
        ),
        (
            "mass-disagrees",
            "9 kg",
            SOUND.replace("concrete-paver", "rim"),
            "material rim\n  like concrete-paver\n  density 2300 kg/m3\n  mass 9 kg\n",
        ),
        (
            "unit-thin",
            "30 mm",
            format!("{SOUND}, on rim"),
            "build rim\n  paving concrete-paver, 30 mm\n  bed sharp-sand, 30 mm\n  base type-1, 200 mm compacted\n",
        ),
    ] {
        assert!(
            !sound.iter().any(|(own, _)| *own == rule),
            "{rule}: {sound:?}"
        );
        let told = found(&border, more);
        let mut of_rule = told.iter().filter(|(own, _)| *own == rule);
        let first = of_rule.next().unwrap_or_else(|| panic!("{rule}: {told:?}"));
        assert_eq!(first.1, at, "{rule}");
        assert_eq!(of_rule.next(), None, "{rule} is told once");
    }
}

/// A border in mortar on a slab holds the edges that it runs along, and the
/// base of the field ends at it; one on sand of its own does not.
#[test]
fn a_border_on_a_slab_holds_its_edges() {
    let rules = |on: &str| -> Vec<&'static str> {
        let more = "build rigid\n  paving concrete-paver, 80 mm\n  bed mortar, 20 mm\n  slab concrete, 100 mm\n\n\
            build soft\n  paving concrete-paver, 80 mm\n  bed sharp-sand, 30 mm\n  base type-1, 150 mm compacted\n\n\
            mix mortar\n  for bed\n  parts 1 portland-cement : 4 sharp-sand\n";
        let told = job(&format!("{SOUND}{on}"), more);
        let bare = told.replace("  edging steel-edge, along free\n", "");
        let bare = bare.replace("150 mm compacted, beyond 100 mm", "150 mm compacted");
        analysed(&bare).iter().map(|(rule, _)| *rule).collect()
    };
    for (on, tells) in [
        ("", [true, true]),
        (", on soft", [true, false]),
        (", on rigid", [false, false]),
    ] {
        let told = rules(on);
        for (rule, is_told) in ["edge-loose", "overdig-short"].into_iter().zip(tells) {
            // What the border itself stands on is looked at, too.
            let of_field = told.iter().filter(|own| **own == rule).count();
            let of_border = usize::from(on == ", on soft" && rule == "overdig-short");
            assert_eq!(
                of_field,
                usize::from(is_told) + of_border,
                "{rule}{on}: {told:?}"
            );
        }
    }
}

/// What the border shares with its surface is told once.
#[test]
fn what_both_share_is_told_once() {
    let thin = "build thin\n  paving concrete-paver, 30 mm\n";
    let told = found(SOUND, thin);
    assert!(!told.iter().any(|(rule, _)| *rule == "unit-thin"));
    let text = found(&format!("{SOUND}, joint 3 mm"), "");
    assert_eq!(text, found(SOUND, ""));
}
