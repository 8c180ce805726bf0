//! The sheets that go with a plan: steps, the long section of drains, and the
//! parts of a plan too big for one.

use drylay::drawing::{Choice, Drawing, Scale, Size, sheets};

use super::{analysed, moved_job, texts};

/// The words on the sheets of one kind.
fn words_of(text: &str, kind: &str) -> Vec<String> {
    let drawn = sheets(&analysed(text), "court.patio", &Choice::default()).expect("it fits");
    let own = drawn
        .iter()
        .filter(|drawing| drawing.title.ends_with(&format!(": {kind}")));
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
