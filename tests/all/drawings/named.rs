//! What things are called on the sheets: titles whole, a drain by one letter
//! wherever its name has no room, and the marks that tapes are held at.

use drylay::drawing::{Choice, Layer, Mark, Scale, Size, sheets};

use super::{analysed, texts};

/// The words on the sheets whose title has a part.
fn words_on(text: &str, choice: &Choice, title: &str) -> Vec<String> {
    let drawn = sheets(&analysed(text), "court.patio", choice).expect("it fits");
    let own = drawn.iter().filter(|drawing| drawing.title.contains(title));
    own.flat_map(|drawing| texts(drawing).map(|(line, _)| line.setting.words()))
        .collect()
}

#[test]
fn a_long_title_is_whole_on_every_sheet() {
    let title = "Terrace, steps, long walk and forecourt behind the Upper Mill at Saltbush Rise";
    let text = format!(
        "job \"{title}\"\n  units metric\n\nshape a\n  rectangle 4 m by 3 m\n\n\
         surface the-terrace-behind-the-kitchen-wing\n  shape a\n  level 0 mm at north\n  \
         fall 1:60 toward south\n  build flags-in-mortar-on-a-slab\n\n\
         build flags-in-mortar-on-a-slab\n  paving sandstone, 40 mm\n  bed sharp-sand, 40 mm\n"
    );
    for size in Size::ALL {
        let choice = Choice {
            sheet: Some(*size),
            ..Choice::default()
        };
        let words = words_on(&text, &choice, "");
        let cut = words.iter().find(|words| words.contains('…'));
        assert_eq!(cut, None, "{size:?}");
    }
}

/// Many short drains on a small plan, whose names have no room there.
fn drains(count: u32) -> String {
    let drains = (0..count).map(|number| {
        let (from, to) = (number, number + 1);
        format!(
            "drain the-long-name-of-pipe-{number}\n  pipe plastic-pipe, 110 mm, from ({from} m, 0 m) \
             to ({to} m, 0 m)\n  fall 1:60\n  invert -{} mm at ({from} m, 0 m)\n  to {}\n",
            600 + 20 * number,
            match to < count {
                true => format!("the-long-name-of-pipe-{to}"),
                false => "\"the ditch\"".to_owned(),
            }
        )
    });
    format!(
        "job \"Yard\"\n  units metric\n  region uk\n{}",
        drains.collect::<String>()
    )
}

#[test]
fn a_drain_has_one_letter_on_the_plan_and_along_its_length() {
    let text = drains(10);
    let on = |size: Size, scale: Option<Scale>| Choice {
        sheet: Some(size),
        scale,
        ..Choice::default()
    };
    let small = on(Size::A4, Scale::read("1:200").ok());
    let plan = words_on(&text, &small, ": plan");
    let long = words_on(&text, &on(Size::A3, None), ": long section").join(" ");
    let mut told = 0;
    for (number, letter) in (0..10).zip('a'..) {
        let name = format!("the long name of pipe {number}");
        // In the key of the plan the letter stands before its name.
        let at = plan
            .windows(2)
            .find(|pair| pair[1].starts_with(&format!("{name},")));
        if let Some([mark, _]) = at
            && mark != "–"
        {
            assert_eq!(*mark, letter.to_string(), "{name}");
            told += 1;
        }
        assert!(
            long.contains(&format!("({letter}) {name}:")),
            "{name}: {long}"
        );
    }
    let heading = "The long name of pipe 0, the long name of pipe 1 and 8 more to the ditch";
    assert!(long.contains(heading), "{long}");
    assert!(told > 1, "{told} in the key: {plan:?}");
}

#[test]
fn the_marks_that_tapes_are_held_at_are_drawn_with_the_pegs() {
    let text = "job \"Court\"\n  units metric\n\nshape a\n  rectangle 4 m by 3 m\n\n\
        surface a\n  shape a\n  meets north\n\nsetting-out\n  from (-200 mm, 3 m) and (4.2 m, 3 m)\n";
    let with = Choice {
        shows_pegs: true,
        ..Choice::default()
    };
    let known = words_on(text, &with, ": plan");
    for mark in ["A", "B", "1", "4"] {
        assert!(known.contains(&mark.to_owned()), "{mark}: {known:?}");
    }
    let without = words_on(text, &Choice::default(), ": plan");
    assert!(!without.contains(&"A".to_owned()), "{without:?}");
}

/// Rings and courses run where they lie, ashlar and small units are a texture;
/// where nothing is known of a laying nothing is drawn of it.
#[test]
fn a_field_shows_what_is_known_of_its_laying() {
    let marks = |laid: &str, side: &str| {
        let text = format!(
            "job \"Court\"\n  units metric\n\nshape a\n  rectangle {side} by {side}\n\n\
             surface a\n  shape a\n  build b\n  laid {laid}\n  joint 5 mm\n\n\
             build b\n  paving granite-setts, 80 mm\n\nmaterial granite-setts\n  like granite\n"
        );
        let drawn = sheets(&analysed(&text), "court.patio", &Choice::default()).expect("it fits");
        let plan = drawn.first().expect("a plan");
        let textures = plan
            .items
            .iter()
            .filter(|item| item.layer == Layer::Textures);
        let paths = textures.map(|item| match &item.mark {
            Mark::Stroke(paths, _) => paths.len(),
            _ => 0,
        });
        paths.sum::<usize>()
    };
    for (laid, side, is_shown) in [
        (
            "rings, units 100 mm by 100 mm, centre (2 m, 2 m)",
            "4 m",
            true,
        ),
        ("rings, centre (2 m, 2 m)", "4 m", false),
        ("courses, units 150 mm wide, along north", "4 m", true),
        (
            "ashlar, units 600 mm by 400 mm of 50 % and 400 mm by 400 mm of 50 %",
            "4 m",
            true,
        ),
        ("herringbone, units 200 mm by 100 mm", "30 m", true),
        // Each is drawn as it lies, and needs no texture.
        ("herringbone, units 200 mm by 100 mm", "4 m", false),
    ] {
        assert_eq!(
            marks(laid, side) > 4,
            is_shown,
            "{laid}: {}",
            marks(laid, side)
        );
    }
}
