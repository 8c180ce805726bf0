//! What sheets leave out, and that they say so: levels that nobody states, what
//! has no room beside the plan, letters that the type has not, sections that
//! are one.

use drylay::drawing::{
    Choice, Drawing, Extents, Ink, Layer, Mark, Path, Size, lacking, plan_north, sheets,
};
use drylay::geometry::Point;

use super::{Folder, analysed, moved_job, paths, texts};

/// A pad of which no level is known, a kerb round it.
const PAD: &str = "job \"Pad\"\n  units metric\n  region uk\n  currency GBP\nsite\n  datum \"floor\"\n\
    shape pad\n  rectangle 8 m by 3 m\nsurface pad\n  shape pad\n  build flags\n  \
    laid running-bond, units 215 mm by 102.5 mm\n  joint 3 mm, filled with joint-sand\n  \
    edging kerb, along free, on haunch-mix 100 mm, haunched 100 mm wide to 50 mm below the top\n  \
    water to \"lawn\"\nbuild flags\n  paving block-paver, 60 mm\n  bed sharp-sand, 40 mm\n  \
    base type-1, 100 mm compacted, beyond 100 mm\nmix haunch-mix\n  for bed\n  \
    parts 1 portland-cement : 5 ballast\nmaterial kerb\n  like concrete-kerb\n  \
    unit 50 mm by 150 mm by 915 mm\n";

fn drawn(text: &str, choice: &Choice) -> Vec<Drawing> {
    sheets(&analysed(text), "pad.patio", choice).expect("it fits")
}

fn words(drawing: &Drawing) -> String {
    let lines = texts(drawing).map(|(line, _)| line.setting.words());
    lines.collect::<Vec<_>>().join(" ")
}

#[test]
fn an_edging_all_round_is_cut_whichever_edge_is_low() {
    let section = |text: &str| words(&drawn(text, &Choice::default())[1]);
    let all_round = section(PAD);
    for said in [
        "Edging: kerb",
        "at one edge",
        "neither level nor fall is stated",
    ] {
        assert!(all_round.contains(said), "{said}: {all_round}");
    }
    for wrong in ["is not at the low edge", "at the high edge", "low edge is"] {
        assert!(!all_round.contains(wrong), "{wrong}: {all_round}");
    }
    let in_part = section(&PAD.replace("along free", "along south"));
    assert!(in_part.contains("which edge is low is not known, so the kerb is not drawn here"));
    // The fall alone says which edge is low.
    let falling = PAD.replace("along free", "along south");
    let falling = falling.replace(
        "  build flags\n  laid",
        "  fall 1:60 toward south\n  build flags\n  laid",
    );
    let falling = section(&falling);
    assert!(
        falling.contains("at the low edge") && falling.contains("Edging: kerb"),
        "{falling}"
    );
    assert!(falling.contains("no level is stated"), "{falling}");
}

#[test]
fn no_leader_is_struck_through_a_name() {
    let plan = &drawn(PAD, &Choice::default())[0];
    let names = texts(plan).filter(|(_, layer)| *layer == Layer::Names);
    let names: Vec<Extents> = names.map(|(line, _)| line.extents().grown(-0.1)).collect();
    assert!(words(plan).contains("water to lawn"));
    let of_water = plan.items.iter().filter(|item| item.layer == Layer::Water);
    for edge in of_water
        .flat_map(|item| paths(&item.mark))
        .flat_map(|path| &path.edges)
    {
        assert!(!names.iter().any(|own| own.is_crossed(edge.start, edge.end)));
    }
}

#[test]
fn a_unit_has_the_size_that_was_written() {
    assert!(words(&drawn(PAD, &Choice::default())[0]).contains("215 × 102.5, running bond"));
}

#[test]
fn captions_stand_under_all_that_is_cut() {
    let falling = PAD.replace(
        "  build flags\n  laid",
        "  meets north\n  level -150 mm at north\n  fall 1:60 away from north\n  build flags\n  laid",
    );
    let channel = "drain foot\n  channel polymer-channel, 200 mm by 200 mm clear, 260 mm over all, \
        along pad.south\n  bedded in haunch-mix, 150 mm round\n  fall 1:200 toward east\n  \
        to \"the ditch\"\n";
    let drawings = drawn(&(falling + channel), &Choice::default());
    let section = drawings
        .iter()
        .find(|own| own.title.contains("section"))
        .expect("a section");
    let inset = &section.insets[0];
    let items = &section.items[inset.items.clone()];
    let of_cut = items.iter().filter(|item| item.layer == Layer::Textures);
    let lowest = of_cut
        .flat_map(|item| paths(&item.mark))
        .flat_map(|path| &path.edges)
        .map(|edge| edge.start.y)
        .fold(f64::INFINITY, f64::min);
    let captions = texts(section).filter(|(line, _)| line.setting.words().starts_with("at the "));
    let captions: Vec<f64> = captions.map(|(line, _)| line.at.y).collect();
    assert_eq!(captions.len(), 2);
    assert!(
        captions.iter().all(|base| base + 1.8 < lowest),
        "{captions:?} {lowest}"
    );
}

#[test]
fn a_plan_whose_words_mean_another_north_says_so() {
    let note = |north: &str| {
        let site = format!("site\n  north {north}\n");
        let analysis = analysed(&PAD.replace("site\n", &site));
        let told = plan_north(&analysis);
        let drawn = sheets(&analysis, "pad.patio", &Choice::default()).expect("it fits");
        assert_eq!(words(&drawn[0]).contains("in words are"), told.is_some());
        told
    };
    assert_eq!(note("0°"), None);
    assert_eq!(note("345°"), None);
    for (north, lies) in [
        ("180°", "lies straight down"),
        ("30°", "lies 30° to the right of up"),
        ("330°", "lies 30° to the left of up"),
    ] {
        assert!(
            note(north).is_some_and(|told| told.contains(lies)),
            "{north}"
        );
    }
}

#[test]
fn what_has_no_room_beside_a_plan_stands_on_the_next_sheet() {
    let choices = [(Size::A4, false), (Size::Letter, true)];
    let choices = choices.map(|(sheet, is_upright)| Choice {
        sheet: Some(sheet),
        is_upright,
        is_alone: true,
        ..Choice::default()
    });
    let told = |drawn: &[Drawing]| drawn.iter().map(words).collect::<Vec<_>>().join(" ");
    let specs = Folder::of_specs();
    for path in specs.paths() {
        let analysis = specs.analysis(&path);
        for choice in &choices {
            let drawn = sheets(&analysis, &path, choice).expect("it fits");
            let all = told(&drawn);
            assert!(!all.contains("take a larger sheet"), "{path}");
            assert_eq!(drawn.len() > 1, all.contains("on sheet 2"), "{path}");
        }
    }
    let courts = analysed(&courts(40, 3));
    for choice in &choices {
        let drawn = sheets(&courts, "courts.patio", choice).expect("it fits");
        let all = told(&drawn);
        assert!(!all.contains("take a larger sheet"), "{all}");
        assert!(
            drawn.len() == 2 && all.contains("stand on sheet 2"),
            "{all}"
        );
        assert!(words(&drawn[1]).contains("2 of 2"));
        assert_eq!(super::faults(&courts, &drawn[1]), Vec::<String>::new());
    }
}

#[test]
fn letters_that_the_type_has_not_are_known() {
    let lacks = |name: &str| {
        let drawn = drawn(&PAD.replace("\"Pad\"", name), &Choice::default());
        lacking(&drawn).into_iter().collect::<String>()
    };
    assert_eq!(lacks("\"Łódź, façade №\"").replace('№', ""), "");
    assert_eq!(lacks("\"庭 Двор庭\""), "Двор庭");
}

#[test]
fn a_gully_is_drawn_down_to_its_own_invert() {
    let yard = "job \"Yard\"\n  units metric\n  region uk\nsite\n  datum \"sill\"\n  \
        ground -200 mm\ndrain pipe\n  pipe plastic-pipe, 110 mm, bore 100 mm, \
        from (0 m, 0 m) to (8 m, 0 m)\n  fall 1:80\n  invert -700 mm at (0 m, 0 m)\n  to pit\n\
        drain pit\n  existing\n  gully at (8 m, 0 m), 300 mm wide\n  invert -1100 mm\n";
    let section = |text: &str| {
        let drawn = drawn(text, &Choice::default());
        let own = drawn.iter().find(|own| own.title.contains("long section"));
        words(own.expect("a long section"))
    };
    let both = section(yard);
    // The end of the pipe, and 300 mm lower the gully's own.
    assert!(both.contains("−0.800") && both.contains("−1.100"), "{both}");
    let level = section(&yard.replace("-1100 mm", "-800 mm"));
    // Along the scale of levels and in one column.
    assert_eq!(level.matches("−0.800").count(), 2, "{level}");
}

/// So many courts side by side, each so much lower than the one before.
fn courts(count: u32, lower_mm: u32) -> String {
    let mut text = "job \"Courts\"\n  units metric\n  region uk\nsite\n  datum \"floor\"\n\
        build b\n  paving concrete-paver, 60 mm\n  bed sharp-sand, 40 mm\n  \
        base type-1, 150 mm compacted\n"
        .to_owned();
    for number in 0..count {
        let (x, y) = (2 * (number % 10), 2 * (number / 10));
        let level = 160 + lower_mm * number;
        text += &format!(
            "shape s{number}\n  rectangle 2 m by 2 m, at ({x} m, {y} m)\nsurface t{number}\n  \
             shape s{number}\n  level -{level} mm at ({x} m, {y} m)\n  fall 1:60 toward south\n  \
             build b\n"
        );
    }
    text
}

#[test]
fn many_courts_take_no_more_paper_than_their_sections_differ() {
    let sections = |text: &str| {
        let drawn = drawn(text, &Choice::default());
        let figures: usize = drawn.iter().map(|own| own.insets.len()).sum();
        let marks: usize = drawn.iter().skip(1).map(|own| own.items.len()).sum();
        let words: Vec<String> = drawn.iter().map(words).collect();
        (figures, marks, words.join(" "))
    };
    // Of one level, the low edge free or beside another.
    let (alike, marks, told) = sections(&courts(40, 0));
    assert_eq!(alike, 2);
    assert!(told.contains("beside its neighbour"), "{told}");
    assert!(marks < 10_000, "{marks}");
    let (some, _, told) = sections(&courts(12, 3));
    assert!(some == 12 && !told.contains("further down have none"));
    let (most, _, told) = sections(&courts(40, 3));
    assert!(
        most == 24 && told.contains("16 surfaces further down have none"),
        "{most}: {told}"
    );
}

#[test]
fn the_hatch_of_the_building_stands_slanting_to_its_wall() {
    for degrees in [0.0_f64, 30.0, 45.0, 53.0, 90.0, 135.0] {
        let turn = degrees.to_radians();
        let job = moved_job(
            |x, y| {
                (
                    x * turn.cos() - y * turn.sin(),
                    x * turn.sin() + y * turn.cos(),
                )
            },
            false,
        );
        let plan = &drawn(&job, &Choice::default())[0];
        let hatch = plan
            .items
            .iter()
            .find(|item| item.layer == Layer::Building && item.link.is_none());
        let hatch = hatch.map(|item| &item.mark).expect("a hatch");
        assert!(matches!(hatch, Mark::Stroke(..)));
        let lines = paths(hatch).iter().flat_map(|path| &path.edges);
        for line in lines {
            let way: Point = Point::new(0.0, 0.0) + (line.end - line.start);
            let off = (way.y.atan2(way.x) - turn).to_degrees().rem_euclid(90.0);
            assert!((off - 45.0).abs() < 0.01, "{degrees}: {off}");
        }
    }
}

#[test]
fn cut_units_are_tinted_and_counted() {
    let job = |start: &str| {
        format!(
            "job \"Step\"\n  units metric\n  region uk\nsite\n  datum \"sill\"\nshape pad\n  \
             rectangle 900 mm by 600 mm, at (0, -600 mm)\nsurface pad\n  shape pad\n  meets north\n  \
             level -160 mm at north\n  fall 1:60 away from north\n  build flags\n  \
             laid stack-bond, units 300 mm by 300 mm, along north{start}\n  \
             joint 8 mm, filled with joint-sand\nbuild flags\n  paving sandstone, 25 mm\n  \
             bed sharp-sand, 40 mm\n  base crushed-stone, 100 mm compacted\n"
        )
    };
    let tinted = |plan: &Drawing| -> f64 {
        let areas = plan.items.iter().filter_map(|item| match &item.mark {
            Mark::Fill(paths, Ink::Tint) if item.layer == Layer::Units => Some(paths),
            _ => None,
        });
        let twice = |path: &Path| -> f64 {
            let edges = path.edges.iter();
            let from = |at: Point| at - Point::new(0.0, 0.0);
            edges
                .map(|edge| from(edge.start).cross(from(edge.end)))
                .sum()
        };
        let paper: f64 = areas.flatten().map(|path| twice(path).abs() / 2.0).sum();
        paper * (plan.scale / 1000.0).powi(2)
    };
    let plan = &drawn(&job(", from (0, 0)"), &Choice::default())[0];
    let told = words(plan);
    assert!(told.contains("Cut unit 4 pieces"), "{told}");
    // The third column of 284 mm, the second row of 292 mm.
    let cut = 0.284 * 0.3 + 2.0 * 0.3 * 0.292 + 0.284 * 0.292;
    assert!((tinted(plan) - cut).abs() < 1e-6, "{}", tinted(plan));
    // Where nobody says where it starts, nobody knows which are cut.
    let open = &drawn(&job(""), &Choice::default())[0];
    assert!(tinted(open) == 0.0 && !words(open).contains("Cut unit"));
}
