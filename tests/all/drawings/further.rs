//! The sheets that go with a plan: steps, the long section of drains, and the
//! parts of a plan too big for one.

use drylay::drawing::{Choice, Drawing, Extents, Inset, Scale, Size, sheets};
use drylay::geometry::Point;

use super::{analysed, moved_job, texts};

/// The words on the sheets of one kind.
fn words_of(text: &str, kind: &str) -> Vec<String> {
    let drawn = sheets(&analysed(text), "court.patio", &Choice::default()).expect("it fits");
    let own = drawn
        .iter()
        .filter(|drawing| drawing.title.contains(&format!(": {kind}")));
    own.flat_map(|drawing| texts(drawing).map(|(line, _)| line.setting.words()))
        .collect()
}

/// A pipe in a garden that a channel and a second pipe come to.
const DRAINS: &str = "job \"Yard\"\n  units metric\n  region uk\nsite\n  datum \"sill\"\n  \
    ground -200 mm at (0 m, 0 m), falling 1:100 toward east\n\
    drain upper\n  pipe plastic-pipe, 110 mm, bore 100 mm, from (0 m, 0 m) to (8 m, 0 m)\n  \
    fall 1:80\n  invert -700 mm at (0 m, 0 m)\n  to lower\n\
    drain lower\n  pipe plastic-pipe, 110 mm, bore 100 mm, from (8 m, 0 m) to (12 m, 0 m)\n  \
    fall 1:40\n  invert -900 mm at (8 m, 0 m)\n  to \"the ditch\"\n\
    drain side\n  pipe plastic-pipe, 110 mm, bore 100 mm, from (8 m, 3 m) to (8 m, 0 m)\n  \
    fall 1:60\n  invert -600 mm at (8 m, 3 m)\n  to lower\n";

#[test]
fn a_long_section_tells_levels_depth_and_cover() {
    let known = words_of(DRAINS, "long section");
    let count = |words: &str| known.iter().filter(|own| *own == words).count();
    // Two chains: the pipe with what it leads on to, and what comes in.
    for said in ["Upper, lower to the ditch", "Side to lower", "to the ditch"] {
        assert_eq!(count(said), 1, "{said}: {known:?}");
    }
    assert_eq!(count("side comes in"), 1);
    // Inverts: 700 + 8000/80 under level 0, then 900 and 900 + 4000/40; the top
    // of the pipe 105 over them; the ground 200 and 80 under level 0 there.
    for said in ["−0.700", "−0.800", "−0.900", "−1.000", "−0.595", "−0.895"] {
        assert!(count(said) >= 1, "{said}: {known:?}");
    }
    // Depth and cover at the head, and at the end: 1000 − 320.
    for said in ["500", "395", "680", "575", "12000"] {
        assert!(count(said) >= 1, "{said}: {known:?}");
    }
    let no_ground = DRAINS.replace(
        "  ground -200 mm at (0 m, 0 m), falling 1:100 toward east\n",
        "",
    );
    let unknown = words_of(&no_ground, "long section");
    assert!(unknown.contains(&"−0.700".to_owned()));
    assert!(
        unknown.contains(&"–".to_owned()),
        "depth and cover are not known"
    );
    let described = |words: &[String], part: &str| words.join(" ").contains(part);
    assert!(described(&unknown, "The level of the ground is not known"));
    assert!(!described(&known, "is not known"));
    // No level, no picture; and a circle of drains comes to an end.
    let lost = DRAINS.replace("  invert", "  # invert");
    let lost = lost.replace("  ground -200 mm", "  # ground -200 mm");
    assert!(words_of(&lost, "long section").is_empty());
    let circle = DRAINS.replace("to \"the ditch\"", "to upper");
    assert!(!words_of(&circle, "long section").is_empty());
}

#[test]
fn steps_are_cut_along_their_climb() {
    let job = "job \"Yard\"\n  units metric\n  region uk\nsite\n  datum \"sill\"\n\
        steps flight\n  from -700 mm\n  to -100 mm\n  at (2 m, 2 m), climbing north\n  \
        width 1.2 m\n  going 300 mm\n  risers 4\n  tread york-stone, 50 mm, nosing 20 mm\n  \
        base crushed-stone, 150 mm compacted, top 200 mm below the foot\n  handrail left side\n";
    let known = words_of(job, "steps");
    // Each nosing 150 over the one before, the foot first.
    for said in [
        "−0.700",
        "−0.550",
        "−0.400",
        "−0.250",
        "−0.100",
        "3 × 300 = 900",
        "Handrail",
    ] {
        assert!(known.contains(&said.to_owned()), "{said}: {known:?}");
    }
    let all = known.join(" ");
    for said in [
        "4 risers of 150",
        "Handrail on the left",
        "Treads: york stone",
        "Base: crushed stone",
    ] {
        assert!(all.contains(said), "{said}: {all}");
    }
    assert!(
        all.contains("not stated, and not drawn: risers, core"),
        "{all}"
    );
    let plan = words_of(job, "plan");
    assert!(plan.contains(&"Handrail".to_owned()), "{plan:?}");
    assert!(words_of(&job.replace("  to -100 mm\n", ""), "steps").is_empty());
}

#[test]
fn a_plan_too_big_for_its_sheet_is_told_or_parted() {
    let analysis = analysed(&moved_job(|x, y| (x, y), false));
    let choice = |is_parted| Choice {
        scale: Some(Scale::read("1:20").expect("a scale")),
        sheet: Some(Size::A4),
        is_parted,
        ..Choice::default()
    };
    let reported = sheets(&analysis, "court.patio", &choice(false)).expect_err("too big");
    let reported = reported.to_string();
    assert!(
        reported.contains("too big for A4 at 1:20") && reported.contains("--parts draws it over"),
        "{reported}"
    );
    let drawn = sheets(&analysis, "court.patio", &choice(true)).expect("in parts");
    let plans: Vec<&Drawing> = drawn
        .iter()
        .filter(|drawing| drawing.title.ends_with(": plan"))
        .collect();
    let count = plans.len();
    assert!(
        reported.contains(&format!("over {count} sheets")),
        "{reported}: {count}"
    );
    assert!(plans[0].scale > 20.0 && plans[1..].iter().all(|part| part.scale == 20.0));
    // The key plan names each part, and each says where it goes on.
    let words = |drawing: &Drawing| -> Vec<String> {
        texts(drawing)
            .map(|(line, _)| line.setting.words())
            .collect()
    };
    for number in 2..=count {
        assert!(words(plans[0]).contains(&format!("sheet {number}")));
        let leads = format!("goes on on sheet {number}");
        assert!(plans[1..].iter().any(|part| words(part).contains(&leads)));
    }
    // What is said of the corners at the ends is said on one part or another.
    let parts = plans[1..].iter().flat_map(|part| words(part));
    let parts: Vec<String> = parts.collect();
    for said in ["−0.150", "1:60", "court"] {
        assert!(parts.contains(&said.to_owned()), "{said}");
    }
}

/// Where a figure stands on its sheet: from its corner to its farthest text.
fn room_of(drawing: &Drawing, inset: &Inset) -> Extents {
    let own = drawing.items.get(inset.items.clone()).expect("its marks");
    let corners = own.iter().filter_map(|item| match &item.mark {
        drylay::drawing::Mark::Text(text) => Some(text.extents().upright().1),
        _ => None,
    });
    let far = corners.fold(inset.corner, |far, corner| {
        Point::new(far.x.max(corner.x), far.y.max(corner.y))
    });
    Extents::between(inset.corner, far)
}

/// A yard with a build, a flight of steps and drains.
fn yard() -> String {
    let steps = "steps flight\n  from -700 mm\n  to -100 mm\n  at (2 m, 2 m), climbing north\n  \
        width 1.2 m\n  going 300 mm\n  risers 4\n  tread york-stone, 50 mm, nosing 20 mm\n";
    let surface = "shape pad\n  rectangle 3 m by 2 m\nsurface pad\n  shape pad\n  \
        level -20 mm at south\n  fall 1:60 away from south\n  build flags\n\
        build flags\n  paving york-stone, 50 mm\n  bed sharp-sand, 30 mm\n  \
        base crushed-stone, 150 mm\n";
    format!("{DRAINS}{steps}{surface}")
}

#[test]
fn figures_share_a_sheet_each_to_its_own_scale() {
    let analysis = analysed(&yard());
    let on = |size| {
        let choice = Choice {
            sheet: Some(size),
            ..Choice::default()
        };
        sheets(&analysis, "yard.patio", &choice).expect("it fits")
    };
    let (small, large) = (on(Size::A4), on(Size::A3));
    assert!(large.len() < small.len(), "{} {}", large.len(), small.len());
    let figures = |drawn: &[Drawing]| -> usize {
        let further = drawn.iter().skip(1);
        further.map(|drawing| drawing.insets.len()).sum()
    };
    // A section, a flight and two chains of drains.
    assert_eq!((figures(&small), figures(&large)), (4, 4));
    for drawing in small.iter().chain(&large).skip(1) {
        let rooms = drawing.insets.iter().map(|own| room_of(drawing, own));
        let rooms: Vec<Extents> = rooms.collect();
        for (at, one) in rooms.iter().enumerate() {
            let mut others = rooms.iter().skip(at + 1);
            assert!(
                !others.any(|other| one.overlaps(other)),
                "{}",
                drawing.title
            );
        }
        // Each has a scale bar of its own, and none is drawn larger than the
        // sheet says.
        for inset in &drawing.insets {
            let scale = format!("1:{}", inset.scale);
            let bars = texts(drawing).filter(|(line, _)| line.setting.words() == scale);
            assert!(bars.count() > 0, "{scale}");
            assert!(inset.scale <= drawing.scale);
        }
    }
    let mixed = large.iter().find(|own| own.insets.len() > 2);
    let mixed = mixed.expect("several on one sheet");
    let words: Vec<String> = texts(mixed).map(|(line, _)| line.setting.words()).collect();
    assert!(words.contains(&"as shown".to_owned()), "{words:?}");
}

#[test]
fn steps_with_a_long_run_are_drawn_on_paper_that_shows_them() {
    let risers = |count: u32| {
        let top = -700 + 150 * i64::from(count);
        let job = yard().replace("  to -100 mm\n", &format!("  to {top} mm\n"));
        let job = job.replace("  risers 4\n", &format!("  risers {count}\n"));
        let drawn = sheets(&analysed(&job), "yard.patio", &Choice::default());
        let drawn = drawn.expect("it fits");
        let own = drawn.iter().find(|own| own.title.contains("steps"));
        let own = own.expect("steps");
        let marks = own.insets.iter().filter(|inset| {
            let marks = own.items.get(inset.items.clone()).expect("its marks");
            let words = marks.iter().filter_map(|item| match &item.mark {
                drylay::drawing::Mark::Text(text) => Some(text.setting.words()),
                _ => None,
            });
            words.into_iter().any(|words| words == "riser")
        });
        let scale = marks.map(|inset| inset.scale).next().expect("the flight");
        (150.0 / scale, own.size.0)
    };
    // A riser is high enough for its tread to be made out.
    for count in [4, 9, 13] {
        let (high, wide) = risers(count);
        assert!(high >= 5.5, "{count} risers: {high} on {wide}");
    }
}

/// The bed of treads is drawn between them and the core; treads without one
/// lie on it as they are, and nothing is said to be missing.
#[test]
fn treads_are_drawn_on_their_bed() {
    let core = "  core york-stone, to foot\n";
    let bedded = yard().replace(
        "  risers 4\n",
        &format!("  risers 4\n{core}  bed sharp-sand, 30 mm\n"),
    );
    let bare = yard().replace("  risers 4\n", &format!("  risers 4\n{core}"));
    let unsized_bed = bedded.replace("  bed sharp-sand, 30 mm\n", "  bed sharp-sand\n");
    let words = |text: &str| words_of(text, "").join(" ");
    assert!(
        words(&bedded).contains("Bed: sharp sand 30 thick"),
        "{}",
        words(&bedded)
    );
    for (text, is_lost) in [(&bedded, false), (&bare, false), (&unsized_bed, true)] {
        let words = words(text);
        assert!(words.contains("Treads: "), "{words}");
        assert_eq!(
            words.contains("for want of a size: bed"),
            is_lost,
            "{words}"
        );
        assert!(!words.contains("not drawn: bed"), "{words}");
    }
}

/// A nosing is that of the treads: of the landing's edge nothing is stated, and
/// that is said.
#[test]
fn the_edge_of_a_landing_claims_no_nosing() {
    let landing = yard().replace("  to -100 mm\n", "  to pad\n").replace(
        "rectangle 3 m by 2 m\n",
        "rectangle 3 m by 2 m, at (0 m, 2 m)\n",
    );
    let flush = landing.replace(", nosing 20 mm", "");
    let words = |text: &str| words_of(text, "").join(" ");
    let said = "how far pad stands out over the top riser is not stated";
    assert!(words(&landing).contains(said), "{}", words(&landing));
    assert!(!words(&flush).contains(said));
    assert!(!words(&yard()).contains("over the top riser"));
}

/// A plan that is larger on a sheet that stands has one, where none is asked
/// for.
#[test]
fn a_long_plan_from_north_to_south_stands() {
    let sheet = |east: u32, north: u32, choice: &Choice| {
        let text = format!(
            "job \"Drive\"\n  units metric\nshape a\n  rectangle {east} m by {north} m\n\
             surface a\n  shape a\n"
        );
        let drawn = sheets(&analysed(&text), "drive.patio", choice).expect("it fits");
        let plan = drawn.first().expect("a plan");
        (plan.size.1 > plan.size.0, plan.scale)
    };
    let open = Choice::default();
    assert_eq!(sheet(4, 26, &open), (true, 100.0));
    assert!(!sheet(26, 4, &open).0);
    let asked = Choice {
        sheet: Some(Size::A3),
        ..Choice::default()
    };
    assert_eq!(sheet(4, 26, &asked), (false, 200.0));
}

/// A long section is as large as its width lets it be, on as much of a page as
/// it takes.
#[test]
fn a_deep_long_section_is_not_squeezed_into_half_a_page() {
    let deep = DRAINS.replace(
        "invert -700 mm at (0 m, 0 m)",
        "invert -2700 mm at (0 m, 0 m)",
    );
    let deep = deep.replace("  invert -900 mm at (8 m, 0 m)\n", "");
    let rooms = [(170.0, 125.0), (170.0, 250.0)];
    let scale = |rooms: &[(f64, f64)]| {
        let drawn = drylay::drawing::figures(&analysed(&deep), rooms);
        drawn
            .iter()
            .map(|drawing| drawing.scale)
            .fold(0.0, f64::max)
    };
    assert!(
        scale(&rooms) < scale(&rooms[..1]),
        "{} {}",
        scale(&rooms),
        scale(&rooms[..1])
    );
    assert_eq!(scale(&rooms), scale(&rooms[1..]));
}

#[test]
fn no_sheet_of_figures_is_half_empty() {
    let specs = crate::folder::Folder::of_specs();
    for path in specs.paths() {
        let drawn = sheets(&specs.analysis(&path), &path, &Choice::default());
        for drawing in drawn.expect("it fits").iter().skip(1) {
            let rooms = drawing.insets.iter().map(|own| room_of(drawing, own));
            let feet = rooms.map(|room| room.upright().0.y);
            let lowest = feet.fold(f64::INFINITY, f64::min);
            let share = 1.0 - lowest / drawing.size.1;
            assert!(share > 0.5, "{path}, {}: {share:.2}", drawing.title);
        }
    }
}
