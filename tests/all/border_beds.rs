//! Borders on a build of their own: by hand.

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::quantities::{Course, SurfaceFigures};
use drylay::report::{SheetLayout, takeoff_json, takeoff_text};
use drylay::vocabulary::Role;
use serde_json::Value;

fn analysed(text: &str) -> Arc<Analysis> {
    Analyser::new().analyse("/court.patio", text.into(), &NoFiles, "2027-04-12")
}

/// A court of 6 by 4 m with a border of soldiers 200 mm wide, with this more
/// said of the border and these entries.
fn court(border: &str, entries: &str) -> String {
    format!(
        "job \"Court\"\n  units metric\n  region uk\n\n\
         site\n  soil gravel, firm\n  swell 25 %\n  datum \"sill\"\n  ground 0 mm\n\n\
         shape court\n  rectangle 6 m by 4 m\n\n\
         surface court\n  shape court\n{entries}  build sand-set\n  joint 0 mm\n  \
         edging steel-edge, along free\n  \
         border clay-paver, soldier, units 200 mm by 100 mm, along free{border}\n\n\
         build sand-set\n  paving concrete-paver, 60 mm, waste 5 %\n  bed sharp-sand, 40 mm\n  \
         base crushed-stone, 150 mm compacted, beyond 100 mm\n\n\
         build haunched\n  paving clay-paver, 65 mm, waste 8 %\n  bed sharp-sand, 30 mm\n  \
         base crushed-stone, 250 mm compacted, beyond 150 mm\n"
    )
}

const LEVEL: &str = "  level 0 mm\n";

fn surfaces(analysis: &Analysis) -> Vec<&SurfaceFigures> {
    let figures = analysis.figures.surfaces.iter();
    figures.map(AsRef::as_ref).collect()
}

fn close(what: &str, found: Option<f64>, wanted: f64) {
    let found = found.unwrap_or(f64::NAN);
    assert!(
        (found - wanted).abs() < 1e-9,
        "{what}: {found}, and by hand {wanted}"
    );
}

#[test]
fn a_strip_stands_on_its_own_build() {
    let analysis = analysed(&court(", on haunched", LEVEL));
    let [field, strip] = surfaces(&analysis)[..] else {
        panic!("a surface and its border");
    };
    // 5.6 by 3.6 m is left inside.
    let (inside, whole) = (5.6 * 3.6, 24.0);
    let area = |own: &SurfaceFigures, role| own.layer(role).and_then(|layer| layer.area_m2);
    let volume = |own: &SurfaceFigures, role| own.layer(role).and_then(|layer| layer.volume_m3);
    close("field", area(field, Role::Paving), inside);
    close("bed", area(field, Role::Bed), inside);
    // The strip lies on all sides: no base goes past the field.
    close("base", area(field, Role::Base), inside);
    close("strip", strip.area_m2, whole - inside);
    close("its bed", volume(strip, Role::Bed), (whole - inside) * 0.03);
    close("its base", area(strip, Role::Base), 6.3 * 4.3 - inside);
    close("dig", field.dig.map(|dig| dig.bank_m3), inside * 0.25);
    let deep = 0.065 + 0.03 + 0.25;
    close(
        "its dig",
        strip.dig.map(|dig| dig.bank_m3),
        (6.3 * 4.3 - inside) * deep,
    );
    close("tops", strip.highest_m, field.highest_m.unwrap_or(f64::NAN));
    // Units are as thick as the paving of what they stand on.
    let border = &field.borders[0];
    close("units", border.volume_m3, (whole - inside) * 0.065);
    assert_eq!(border.waste.as_ref().map(|waste| waste.value), Some(0.08));
    // They are ordered once, and the edging runs once.
    let order = analysis
        .figures
        .order("clay-paver")
        .and_then(|order| order.needed);
    close("order", order, border.units.unwrap_or(f64::NAN) * 1.08);
    close(
        "edging",
        analysis
            .figures
            .order("steel-edge")
            .and_then(|order| order.needed),
        20.0,
    );
    let text = takeoff_text(&analysis, "court.patio", SheetLayout::default());
    assert!(
        text.contains("SURFACE clay-paver border of court"),
        "{text}"
    );
    let json: Value = serde_json::from_str(&takeoff_json(&analysis)).expect("JSON");
    assert_eq!(json["surfaces"][1]["border_of"], "court");
    assert_eq!(json["surfaces"][0].get("border_of"), None);
}

/// A border on what the field stands on comes to what it did, and both ways the
/// paving is the whole surface.
#[test]
fn parts_add_up_to_the_surface() {
    let plain = analysed(&court("", LEVEL));
    let [whole] = surfaces(&plain)[..] else {
        panic!("one surface");
    };
    let parted = analysed(&court(", on haunched", LEVEL));
    let own = surfaces(&parted);
    let sum = |role| -> f64 {
        let each = own
            .iter()
            .map(|own| own.layer(role).and_then(|layer| layer.area_m2));
        each.map(Option::unwrap_or_default).sum()
    };
    close("paving", Some(sum(Role::Paving)), 24.0);
    close(
        "bed",
        whole.layer(Role::Bed).and_then(|layer| layer.area_m2),
        sum(Role::Bed),
    );
    assert_eq!(whole.borders[0].units, own[0].borders[0].units);
}

/// A court that falls to a drain in it has a border that does, too.
#[test]
fn a_border_falls_with_its_surface() {
    let text = court(
        ", on haunched",
        "  level 0 mm\n  fall to pot, at least 1:40\n",
    ) + "\ndrain pot\n  gully clay-gully, at (2 m, 1 m), 300 mm wide\n  to \"sewer\"\n";
    let analysis = analysed(&text);
    let own = surfaces(&analysis);
    let sum: f64 = own.iter().filter_map(|own| Some(own.dig?.area_m2)).sum();
    close("dug", Some(sum), 6.3 * 4.3);
    assert!(own[1].dig.is_some_and(|dig| dig.bank_m3 > 0.0));
}

/// A pipe under a border is dug from what the border is dug down to.
#[test]
fn a_pipe_under_a_border_is_dug_from_its_underside() {
    let pipe = "\ndrain pot\n  gully clay-gully, at (2 m, 1 m), 300 mm wide\n  to line\n\n\
        drain line\n  pipe plastic-pipe, 100 mm, from (2 m, 1 m) to (6 m, 1 m)\n  fall 1:80\n  invert -900 mm\n  to \"sewer\"\n";
    let dug = |border: &str, falls: &str| {
        let analysis = analysed(&(court(border, falls) + pipe));
        let drains = &analysis.figures.drains;
        drains[1].dig.expect("it is dug")
    };
    for falls in [LEVEL, "  level 0 mm\n  fall to pot, at least 1:40\n"] {
        let (plain, own) = (dug("", falls), dug(", on haunched", falls));
        // 95 mm less over the 200 mm that lie under the border.
        let less = 0.2 * 0.095 * own.width_m.unwrap_or(f64::NAN);
        close(falls, Some(plain.bank_m3 - own.bank_m3), less);
    }
}

/// A border along two edges apart is one border, in two pieces.
#[test]
fn a_border_in_two_pieces_is_one() {
    let text = court(", on haunched", LEVEL).replace("along free, on", "along east and west, on");
    let analysis = analysed(&text);
    let own = surfaces(&analysis);
    assert_eq!(own.len(), 2);
    close("strips", own[1].area_m2, 2.0 * 4.0 * 0.2);
    close("round them", own[1].perimeter_m, 4.0 * 4.2);
    let base = own[1].layer(Role::Base).and_then(|layer| layer.area_m2);
    // Past the outer side and the ends of each, in front of the field too.
    let north = own[0].layer(Role::Base).and_then(|layer| layer.area_m2);
    close(
        "bases",
        Some(base.unwrap_or(f64::NAN) + north.unwrap_or(f64::NAN)),
        {
            let field = 5.6 * 4.2;
            let strips = 2.0 * (0.2 + 0.15) * 4.3;
            field + strips
        },
    );
}

/// A pipe under it is dug for from the underside of what it stands on.
#[test]
fn a_pipe_under_it_is_dug_from_its_underside() {
    let pipe = "\ndrain line\n  pipe plastic-pipe, 110 mm, from (3 m, 2 m) to (3 m, -1 m)\n  \
                fall 1:80\n  invert -900 mm\n  to \"ditch\"\n";
    let analysis = analysed(&(court(", on haunched", LEVEL) + pipe));
    let course = Course::of(&analysis.job, &analysis.job.drains[0]).expect("it is stated");
    let dug_from: Vec<(f64, f64)> = course
        .pieces
        .iter()
        .map(|piece| {
            let level = piece
                .dug_from
                .expect("known")
                .level_at(piece.edge.midpoint());
            (piece.edge.length(), level)
        })
        .collect();
    for ((length, level), wanted) in dug_from
        .iter()
        .zip([(1.8, -0.25), (0.2, -0.345), (1.0, 0.0)])
    {
        close("length", Some(*length), wanted.0);
        close("dug from", Some(*level), wanted.1);
    }
    assert_eq!(dug_from.len(), 3);
}

/// An edit of either build, of the border or of the surface comes to what a
/// fresh look does.
#[test]
fn edits_come_to_what_a_fresh_look_does() {
    let mut analyser = Analyser::new();
    let parted = court(", on haunched", LEVEL);
    for text in [
        parted.clone(),
        parted.replace("250 mm compacted", "300 mm compacted"),
        court("", LEVEL),
        parted.replace("200 mm by 100 mm", "250 mm by 100 mm"),
        parted.replace("  level 0 mm\n", "  level 50 mm\n"),
        parted.replace("on haunched", "on haunchd"),
        parted,
    ] {
        let kept = analyser.analyse("/court.patio", text.as_str().into(), &NoFiles, "2027-04-12");
        let fresh = analysed(&text);
        assert_eq!(takeoff_json(&kept), takeoff_json(&fresh), "{text}");
        let rules = |analysis: &Analysis| -> Vec<&str> {
            analysis
                .findings
                .iter()
                .map(|finding| finding.rule)
                .collect()
        };
        assert_eq!(rules(&kept), rules(&fresh), "{text}");
    }
}

/// What it stands on is looked at as what a surface stands on is.
#[test]
fn rules_look_at_what_it_stands_on() {
    let thin = court(", on haunched", LEVEL).replace("250 mm compacted", "40 mm compacted");
    let rules = |text: &str| -> Vec<&'static str> {
        let analysis = analysed(text);
        analysis
            .findings
            .iter()
            .map(|finding| finding.rule)
            .collect()
    };
    assert!(rules(&thin).contains(&"base-thin"), "{:?}", rules(&thin));
    let sound = court(", on haunched", LEVEL);
    assert!(!rules(&sound).contains(&"base-thin"));
    let count = |rule: &str| rules(&sound).iter().filter(|own| **own == rule).count();
    assert!(count("edge-loose") == 0 && count("surfaces-overlap") == 0);
}

#[test]
fn units_of_a_border_and_its_edging_have_their_waste() {
    let needed = |border: &str, edging: &str| {
        let text = court(border, LEVEL).replace("edging steel-edge", "edging concrete-kerb");
        let text = text.replace(
            "along free\n  border",
            &format!("along free{edging}\n  border"),
        );
        let analysis = analysed(&text);
        let orders = &analysis.figures.orders;
        let of = |name: &str| {
            let order = orders.iter().find(|own| own.material == name);
            order.and_then(|own| own.needed)
        };
        (of("clay-paver"), of("concrete-kerb"))
    };
    let (bare, bare_kerb) = needed("", "");
    let (wasted, kerb) = needed(", waste 10 %", ", waste 5 %");
    close("a border", wasted, bare.expect("a need") * 1.1);
    close("a kerb", kerb, bare_kerb.expect("a need") * 1.05);
    // The border's own waste goes before that of the build that it stands on.
    let (on_build, _) = needed(", on haunched", "");
    let (own, _) = needed(", on haunched, waste 20 %", "");
    close("on a build", own, on_build.expect("a need") / 1.08 * 1.2);
    // One that cannot be read is not known.
    assert_eq!(needed(", waste some", ", waste some"), (None, None));
}

#[test]
fn one_lot_of_bricks_has_one_mass() {
    // With joints of 10 mm the units are less than the strip.
    let spec = court(", on haunched", LEVEL).replace("joint 0 mm", "joint 10 mm");
    let analysis = analysed(&spec);
    let [field, strip] = surfaces(&analysis)[..] else {
        panic!("a surface and its border");
    };
    let border = field.borders.first().expect("it has a border");
    let paving = strip.layer(Role::Paving).expect("it is paved");
    close(
        "mass",
        paving.mass_kg,
        border.mass_kg.expect("it is weighed"),
    );
    assert!(border.volume_m3 < paving.volume_m3);
}

#[test]
fn waste_is_told_of_borders_and_edgings_too() {
    let spec = court(", on haunched, waste 7 %", LEVEL).replace(
        "edging steel-edge, along free",
        "edging steel-edge, along free, waste 6 %",
    );
    let analysis = analysed(&spec);
    let sheet = takeoff_text(&analysis, "court.patio", SheetLayout::default());
    for words in [
        "5 % on the paving",
        "7 % on the border of clay-paver",
        "6 % on the edging of steel-edge",
    ] {
        let line = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(line.contains(words), "{words} in\n{sheet}");
    }
}
