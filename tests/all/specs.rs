//! The specs under `specs/`: what is found in them, what comes out of them,
//! and some of it worked out by hand.

use std::f64::consts::PI;
use std::fmt::Write;

use drylay::analysis::Analysis;
use drylay::findings::Severity;
use drylay::quantities::SurfaceFigures;
use drylay::vocabulary::Role;

use crate::folder::Folder;
use crate::golden;

/// The specs that are written with mistakes on purpose lie here.
const MISTAKES: &str = "/specs/mistakes/";

#[test]
fn sound_specs_have_nothing_but_advisories() {
    let folder = Folder::of_specs();
    for path in folder.paths() {
        if path.starts_with(MISTAKES) {
            continue;
        }
        let analysis = folder.analysis(&path);
        let firm: Vec<String> = analysis
            .findings
            .iter()
            .filter(|finding| finding.accepted.is_none())
            .filter(|finding| finding.severity != Some(Severity::Advisory))
            .map(|finding| format!("{}: {}", finding.rule, finding.message))
            .collect();
        assert!(firm.is_empty(), "{path}: {firm:#?}");
    }
}

#[test]
fn specs_come_to_what_is_kept_of_them() {
    let folder = Folder::of_specs();
    for path in folder.paths() {
        let name = path.trim_start_matches('/').replace(".patio", ".txt");
        golden::check(&name, &summary(&folder.analysis(&path)));
    }
}

#[test]
fn every_mistake_made_on_purpose_is_found() {
    let analysis = Folder::of_specs().analysis("/specs/mistakes/shelter-apron.patio");
    let found: Vec<(u32, &str)> = analysis
        .findings
        .iter()
        .filter(|finding| !finding.rule.starts_with("care-"))
        .map(|finding| {
            let (_, line) = analysis.line(finding.place).expect("it has a place");
            (line + 1, finding.rule)
        })
        .collect();
    assert_eq!(found, MADE_ON_PURPOSE);
}

/// The mistakes of the shelter's apron, by line.
const MADE_ON_PURPOSE: &[(u32, &str)] = &[
    (4, "word-stray"),      // a reference without its quotes
    (10, "word-unknown"),   // cley
    (20, "outline-askew"),  // 8.9 m back after 9 m out
    (22, "name-unused"),    // the hole is cut out of nothing
    (23, "unit-missing"),   // by 400
    (29, "level-high"),     // 40 mm below the damp course
    (30, "number-unclear"), // 1 in 100
    (33, "joint-wide"),     // 12 mm of sand
    (34, "word-unknown"),   // no key of a surface
    (37, "waste-odd"),      // 40 %
    (38, "bed-fines"),
    (38, "bed-thick"),
    (39, "base-thin"),
    (39, "overdig-short"),
    (45, "level-missing"),
    (46, "surfaces-overlap"),
    (47, "front-garden"),
    (49, "movement-missing"),
    (51, "joint-shallow"), // 60 mm deep in 25 mm of stone
    (51, "waste-odd"),     // the mortar has none
    (55, "waste-odd"),     // nor has the bed
    (55, "bed-thick"),
    (56, "layers-order"),
    (57, "base-unsuitable"), // rounded gravel
    (57, "name-unknown"),    // margn
    (61, "mix-lean"),
    (65, "mix-unlabelled"),
    (68, "density-pair"), // swapped
    (69, "ton-unclear"),
    (71, "entry-twice"),     // two prices
    (74, "dimension-wrong"), // a density in kg
];

/// What is found and what comes out, a line each.
fn summary(analysis: &Analysis) -> String {
    let mut text = String::new();
    let figures = &analysis.figures;
    for shape in figures.shapes.iter() {
        let (area, perimeter) = (shown(shape.area_m2, "m2"), shown(shape.perimeter_m, "m"));
        line(
            &mut text,
            "shape",
            &shape.name,
            &[("area", area), ("perimeter", perimeter)],
        );
    }
    for surface in figures.surfaces.iter() {
        surface_lines(&mut text, surface);
    }
    for mix in figures.mixes.iter() {
        let parts = [
            ("in place", shown(mix.volume_m3, "m3")),
            ("mixed", shown(mix.mixed_m3, "m3")),
            ("batches", shown(mix.batches, "")),
            ("water", shown(mix.water_kg, "kg")),
        ];
        line(&mut text, "mix", &mix.name, &parts);
        for part in &mix.ingredients {
            let parts = [
                ("mass", shown(part.mass_kg, "kg")),
                ("loose", shown(part.loose_volume_m3, "m3")),
            ];
            line(&mut text, "  part", &part.material, &parts);
        }
    }
    for order in figures.orders.iter() {
        let parts = [
            ("needed", shown(order.needed, "")),
            (
                "ordered",
                shown(order.ordered.map(|number| number.to_f64()), &order.unit),
            ),
            (
                "cost",
                order.cost.map_or("-".to_owned(), |cost| cost.decimal()),
            ),
            (
                "delivery",
                order
                    .delivery
                    .as_ref()
                    .map_or("-".to_owned(), |delivery| delivery.cost.decimal()),
            ),
        ];
        line(&mut text, "order", &order.material, &parts);
    }
    if let Some(total) = figures.total {
        line(&mut text, "total", &total.decimal(), &[]);
    }
    for finding in analysis.findings.iter() {
        let number = analysis.line(finding.place).map_or(0, |(_, line)| line + 1);
        let severity = finding.severity.map_or("-", Severity::word);
        let _ = writeln!(text, "{number:4} {severity} {}", finding.rule);
    }
    text
}

fn surface_lines(text: &mut String, surface: &SurfaceFigures) {
    let parts = [
        ("area", shown(surface.area_m2, "m2")),
        ("fall", shown(surface.fall, "")),
        ("drop", shown(surface.drop_m, "m")),
        ("highest", shown(surface.highest_m, "m")),
        ("lowest", shown(surface.lowest_m, "m")),
        ("depth", shown(surface.depth_m, "m")),
    ];
    line(text, "surface", &surface.name, &parts);
    for layer in &surface.layers {
        let parts = [
            ("area", shown(layer.sheet_m2.or(layer.area_m2), "m2")),
            ("volume", shown(layer.volume_m3, "m3")),
            ("loose", shown(layer.loose_volume_m3, "m3")),
            ("mass", shown(layer.mass_kg, "kg")),
        ];
        line(
            text,
            &format!("  {}", layer.role.word()),
            &layer.material,
            &parts,
        );
    }
    if let Some(joints) = &surface.joints {
        let filling = joints.material.as_deref().unwrap_or("-");
        let parts = [
            ("share", shown(joints.share, "")),
            ("volume", shown(joints.volume_m3, "m3")),
        ];
        line(text, "  joints", filling, &parts);
    }
    for edging in &surface.edgings {
        line(
            text,
            "  edging",
            &edging.material,
            &[("length", shown(edging.length_m, "m"))],
        );
    }
    if let Some(dig) = &surface.dig {
        let parts = [
            ("bank", shown(Some(dig.bank_m3), "m3")),
            ("loose", shown(dig.loose_m3, "m3")),
            ("fill", shown(Some(dig.fill_m3), "m3")),
        ];
        line(text, "  dig", "", &parts);
    }
}

fn line(text: &mut String, what: &str, name: &str, parts: &[(&str, String)]) {
    let parts: Vec<String> = parts
        .iter()
        .map(|(word, figure)| format!("{word} {figure}"))
        .collect();
    let whole = format!("{what:<10} {name:<18} {}", parts.join(", "));
    text.push_str(whole.trim_end());
    text.push('\n');
}

/// A figure with four decimals, which no last digit of a computation reaches.
fn shown(figure: Option<f64>, unit: &str) -> String {
    match figure {
        Some(figure) => format!("{figure:.4} {unit}").trim_end().to_owned(),
        None => "-".to_owned(),
    }
}

const FOOT: f64 = 0.3048;
const INCH: f64 = 0.0254;
const POUND: f64 = 0.45359237;

fn same(what: &str, found: Option<f64>, by_hand: f64) {
    let found = found.unwrap_or_else(|| panic!("{what} is not known"));
    let off = (found - by_hand).abs();
    assert!(
        off <= 1e-9 * by_hand.abs().max(1.0),
        "{what}: {found} and by hand {by_hand}"
    );
}

/// A walk 1.5 m wide round a quarter bend: straights of 12 m and 5 m, arcs of
/// 6 m and 4.5 m about one centre, which lies 6 m south of the walk's edge.
#[test]
fn the_ropewalk_by_hand() {
    let analysis = Folder::of_specs().analysis("/specs/ropewalk-path.patio");
    let walk = analysis.figures.surface("walk").expect("the walk");
    let quarter = |outer: f64, inner: f64| PI / 4.0 * (outer * outer - inner * inner);
    same("area", walk.area_m2, 1.5 * (12.0 + 5.0) + quarter(6.0, 4.5));
    let arcs = PI / 2.0 * (6.0 + 4.5);
    same(
        "perimeter",
        walk.perimeter_m,
        2.0 * (12.0 + 5.0 + 1.5) + arcs,
    );
    // All but the end at the ramp is edged.
    let edging = walk.edgings.first().and_then(|edging| edging.length_m);
    same("edging", edging, 2.0 * (12.0 + 5.0) + 1.5 + arcs);
    // Its far end lies 11 m south of its near edge; it falls 1:60 from there.
    same("drop", walk.drop_m, 11.0 / 60.0);

    // 150 mm wider all round, but not where the ramp goes on: 1.8 m wide,
    // 150 mm longer at the west end, the arcs still about the one centre.
    let base = 1.8 * (12.15 + 5.0) + quarter(6.15, 4.35);
    let layer = walk.layer(Role::Base).expect("the base");
    same("base", layer.area_m2, base);
    same("base in place", layer.volume_m3, base * 0.15);
    // 109.3 and 137 lb/cu ft.
    let density = |pounds: f64| pounds * POUND / FOOT.powi(3);
    same("mass", layer.mass_kg, base * 0.15 * density(137.0));
    same("loose", layer.loose_volume_m3, base * 0.15 * 137.0 / 109.3);

    // The ground falls as the walk does, 40 mm below it: 190 mm of layers
    // leave 0.15 m to dig all along.
    let bank = 0.15 * base;
    same("dig", walk.dig.as_ref().map(|dig| dig.bank_m3), bank);
    // Gravel swells by 12 %.
    same(
        "to cart away",
        walk.dig.as_ref().and_then(|dig| dig.loose_m3),
        1.12 * bank,
    );
}

/// A terrace of 26 by 13 ft and a walk of 34 by 4 1/2 ft that share 26 ft.
#[test]
fn the_mill_terrace_by_hand() {
    let analysis = Folder::of_specs().analysis("/specs/mill-terrace.patio");
    let figures = &analysis.figures;
    let dining = figures.surface("dining").expect("the terrace");
    let walk = figures.surface("walk").expect("the walk");
    let square_feet = FOOT * FOOT;
    // 6 in wider at the two ends; the walk also along its front and along the
    // 8 ft that it goes on beyond the terrace. Of the corner of 6 by 6 in that
    // both reach, on one build and so equally deep, each bears a half.
    let dining_base = 27.0 * 13.0 - 0.125;
    let walk_base = 35.0 * 5.0 + 8.5 * 0.5 - 0.125;
    let base = |surface: &SurfaceFigures| surface.layer(Role::Base).and_then(|base| base.area_m2);
    same(
        "base of the terrace",
        base(dining),
        dining_base * square_feet,
    );
    same("base of the walk", base(walk), walk_base * square_feet);
    // 6 in of it at 137 lb/cu ft, in tons of 2,000 lb, in steps of a tenth.
    let tons = (dining_base + walk_base) * 0.5 * 137.0 / 2000.0;
    let order = figures.order("road-stone").expect("the stone is ordered");
    same("tons", order.needed, tons);
    let ordered = (tons * 10.0).ceil() / 10.0;
    same(
        "ordered",
        order.ordered.map(|number| number.to_f64()),
        ordered,
    );
    let cost = order.cost.map(|cost| cost.decimal());
    assert_eq!(
        cost.as_deref(),
        Some(format!("{:.2}", ordered * 33.5).as_str())
    );
    // Pavers with 7 % of waste, in pallets of 98 sq ft at $410.
    let pallets = (26.0 * 13.0 + 34.0 * 4.5) * 1.07 / 98.0;
    let order = figures.order("mill-paver").expect("the pavers are ordered");
    same("pallets", order.needed, pallets);
    assert_eq!(
        order.cost.map(|cost| cost.decimal()).as_deref(),
        Some("2460.00")
    );
    // 13 ft and then 4 1/2 ft at 2 %, the walk from where the terrace ends.
    same("drop of the terrace", dining.drop_m, 0.02 * 13.0 * FOOT);
    same(
        "top of the walk",
        walk.highest_m,
        -6.0 * INCH - 0.02 * 13.0 * FOOT,
    );
    // At the corners of the terrace: level along the house, and along the front.
    let drop = 0.02 * 13.0 * FOOT;
    for (edge, start, end) in [
        ("north", 0.0, 0.0),
        ("south", drop, drop),
        ("east", drop, 0.0),
        ("west", 0.0, drop),
    ] {
        let mut levels = dining.edge_levels.iter();
        let levels = levels.find(|levels| levels.edge == edge);
        let [at_start, at_end] = [start, end].map(|down| -6.0 * INCH - down);
        same(edge, levels.map(|levels| levels.start_m), at_start);
        same(edge, levels.map(|levels| levels.end_m), at_end);
    }
    // Pavers of 6 in by 12 in with 3/16 in of joint, and 7 % of them broken or cut.
    let paving = dining.layer(Role::Paving).expect("the terrace is paved");
    assert_eq!(paving.units_with_waste(), Some(691.0));
    same(
        "foot of the walk",
        walk.lowest_m,
        -6.0 * INCH - 0.02 * 17.5 * FOOT,
    );
}

/// A slab of 20 by 12 ft on ground that falls as the slab does.
#[test]
fn the_washing_slab_by_hand() {
    let analysis = Folder::of_specs().analysis("/specs/wash-slab.patio");
    let pad = analysis.figures.surface("pad").expect("the slab");
    // The base is 6 in wider on three sides. From ground 10 in down to an
    // underside of 6 + 5 + 4 in there are 5 in to dig, and as the ground falls
    // 3 in over 12 ft, which is 1/4 in per ft, everywhere.
    let base = 21.0 * 12.5 * FOOT * FOOT;
    same(
        "base",
        pad.layer(Role::Base).and_then(|base| base.area_m2),
        base,
    );
    let dig = pad.dig.as_ref().expect("the dig");
    same("dig", Some(dig.bank_m3), base * 5.0 * INCH);
    same("fill", Some(dig.fill_m3), 0.0);
    // 5 in of concrete and 7 % of waste, in half yards.
    let yards = 20.0 * 12.0 * 5.0 / 12.0 / 27.0 * 1.07;
    let order = analysis
        .figures
        .order("ready-mix")
        .expect("concrete is ordered");
    same("concrete", order.needed, yards);
    same(
        "ordered",
        order.ordered.map(|number| number.to_f64()),
        (yards * 2.0).ceil() / 2.0,
    );
}

/// Curves by their height and by a point that they pass.
#[test]
fn segments_by_hand() {
    let folder = Folder::of_specs();
    // A half circle of 1.2 m cut out of 8.4 by 5.4 m.
    let court = folder.analysis("/specs/almond-court.patio");
    let court = court.figures.surface("court").expect("the court");
    same("court", court.area_m2, 8.4 * 5.4 - PI * 1.2 * 1.2 / 2.0);
    // 150 mm wider on three sides and into the half circle, whose mouth goes
    // on square to the front.
    let mouth = PI * 1.05 * 1.05 / 2.0 + 2.1 * 0.15;
    let base = court.layer(Role::Base).and_then(|base| base.area_m2);
    same("its base", base, 8.7 * 5.55 - mouth);
    // 6 by 4 m and a segment 1 m high over 4 m, so of radius 2.5 m.
    let landing = folder.analysis("/specs/office/granary-steps.patio");
    let landing = landing.figures.surface("landing").expect("the landing");
    let segment = 2.5 * 2.5 * 0.6f64.acos() - 1.5 * 2.0;
    same("landing", landing.area_m2, 6.0 * 4.0 + segment);
    let arc = 2.0 * 2.5 * 0.6f64.acos();
    same(
        "round the landing",
        landing.perimeter_m,
        6.0 + 6.0 + 4.0 + arc,
    );
}
