//! A figure that hangs on what could not be read is withheld, never worked
//! out as if the line were not there.

use drylay::analysis::{Analyser, NoFiles};
use drylay::report::unknown;

use super::checked::checked;

const YARD: &str = "\
job \"Yard\"
  units        metric
  region       uk

site
  soil         gravel
  datum        \"hall floor\"
  ground       -200 mm

shape pit
  rectangle    1 m by 1 m, at (2 m, 1 m)

shape yard
  rectangle    6 m by 4 m
  cut          pit

surface yard
  shape        yard
  level        -160 mm at north
  fall         1:50 away from north
  build        sand-set

build sand-set
  paving       concrete-paver, 60 mm
  bed          sharp-sand, 30 mm
  base         crushed-stone, 150 mm compacted
";

/// The same yard against a wall, its base wider than the paving.
fn wide() -> String {
    YARD.replace(
        "  level  ",
        "  meets        north\n  edging       steel-edge, along free\n  level  ",
    )
    .replace(
        "150 mm compacted",
        "150 mm compacted, beyond 200 mm, waste 10 %",
    )
}

#[test]
fn what_an_unread_word_would_change_is_withheld() {
    for (right, written, is_base, is_ordered, is_edged, is_dug) in [
        ("", "", true, true, true, true),
        ("beyond 200 mm", "beyond margn", false, false, true, false),
        ("waste 10 %", "waste 10", true, false, true, true),
        (
            "meets        north",
            "meets        nroth",
            false,
            false,
            false,
            false,
        ),
    ] {
        let yard = checked(&wide().replacen(right, written, 1));
        let surface = &yard.figures().surfaces[0];
        let base = surface.layers.last().expect("a base");
        assert_eq!(base.area_m2.is_some(), is_base, "{written}");
        let order = yard.figures().order("crushed-stone").expect("an order");
        assert_eq!(order.ordered.is_some(), is_ordered, "{written}");
        assert_eq!(surface.edgings[0].length_m.is_some(), is_edged, "{written}");
        assert_eq!(surface.dig.is_some(), is_dug, "{written}");
        assert_eq!(
            surface.building_m.is_some(),
            !written.starts_with("meets"),
            "{written}"
        );
        // What does not hang on it is known all the same.
        assert!(surface.layers[0].area_m2.is_some(), "{written}");
        assert!(
            yard.figures()
                .order("sharp-sand")
                .is_some_and(|own| own.ordered.is_some())
        );
    }
}

/// A walk beside the yard.
const WALK: &str = "
shape walk
  rectangle    2 m by 4 m, at (6 m, 0 m)

surface walk
  shape        walk
  edging       steel-edge, along free
";

#[test]
fn a_neighbour_that_cannot_be_read_leaves_no_edge_free() {
    let yard = wide() + WALK;
    let edging = |text: &str| {
        let yard = checked(text);
        let own = &yard.figures().surfaces[0];
        let base = own.layers.last().expect("a base");
        let figures = [own.edgings[0].length_m, base.area_m2];
        (figures, own.dig.is_some(), own.layers[0].area_m2)
    };
    let sound = edging(&yard);
    let (figures, is_dug, paved) = &sound;
    assert!(figures.iter().all(Option::is_some) && *is_dug);
    // Beside it the edge is not free.
    let alone = edging(&wide());
    assert!(alone.0[0] > figures[0], "{alone:?}");
    for (right, written) in [
        ("2 m by 4 m", "2 n by 4 m"),
        ("(6 m, 0 m)", "(6 m 0 m)"),
        ("rectangle    2 m", "rectangel    2 m"),
        ("\nshape walk", "\nshape wakl"),
        ("  shape        walk", "  shape        wlak-way"),
    ] {
        let found = edging(&yard.replacen(right, written, 1));
        assert_eq!(found, ([None; 2], false, *paved), "{written}");
    }
}

/// Sections of its own for materials and for the mix of its bed.
const OWN: &str = "
material crushed-stone
  waste        5 %

material joint-sand
  waste        5 %

material steel-edge
  waste        5 %

mix bed-mix
  for          bed
  parts        1 portland-cement : 4 sharp-sand
  waste        5 %
";

#[test]
fn what_an_unread_waste_of_its_own_would_change_is_withheld() {
    const JOINT: &str = "  laid         running-bond, units 100 mm by 200 mm, along east\n  \
        joint        4 mm, filled with joint-sand\n  edging  ";
    let yard = wide()
        .replace(", waste 10 %", "")
        .replace("sharp-sand, 30 mm", "bed-mix, 30 mm")
        .replace("  edging  ", JOINT);
    let yard = yard + OWN;
    let orders = [
        "crushed-stone",
        "joint-sand",
        "steel-edge",
        "portland-cement",
    ];
    let ordered = |text: &str| {
        let yard = checked(text);
        let order = |name| yard.figures().order(name).expect("an order");
        orders.map(|name| order(name).ordered.is_some())
    };
    assert_eq!(ordered(&yard), [true; 4]);
    let sections = [
        "material crushed-stone",
        "material joint-sand",
        "material steel-edge",
    ];
    let places = sections.into_iter().chain(["4 sharp-sand"]);
    for (index, place) in places.enumerate() {
        let right = format!("{place}\n  waste        5 %");
        let text = yard.replace(&right, &right.replace("5 %", "5"));
        let mut wanted = [true; 4];
        wanted[index] = false;
        assert_eq!(ordered(&text), wanted, "{place}");
    }
    // What a layer says goes before.
    let text = yard
        .replace("beyond 200 mm", "beyond 200 mm, waste 10 %")
        .replace(
            "crushed-stone\n  waste        5 %",
            "crushed-stone\n  waste        5",
        );
    assert_eq!(ordered(&text), [true; 4]);
}

#[test]
fn figures_that_hang_on_an_unread_word_are_withheld() {
    for (right, written, area, is_deep, is_dug) in [
        ("", "", Some(23.0), true, true),
        ("150 mm", "150", Some(23.0), false, false),
        ("sand, 30 mm", "sand", Some(23.0), false, false),
        ("cut          pit", "cut          pti", None, true, false),
    ] {
        let yard = checked(&YARD.replacen(right, written, 1));
        let surface = &yard.figures().surfaces[0];
        let found = surface.area_m2.map(|area| (area * 1e9).round() / 1e9);
        assert_eq!(found, area, "{written}");
        assert_eq!(surface.depth_m.is_some(), is_deep, "{written}");
        assert_eq!(surface.dig.is_some(), is_dug, "{written}");
    }
}

/// Of paving that lies there already nothing is dug, and no dig is missed.
#[test]
fn what_lies_there_already_is_not_dug_for() {
    let beside = |existing: &str| {
        let more = format!(
            "\nshape old\n  rectangle 2 m by 4 m, at (6 m, 0 m)\n\nsurface old\n  shape old\n  \
             level -160 mm at north\n  fall 1:50 away from north\n  build there\n\n\
             build there\n  paving concrete-flag, 40 mm{existing}\n  base crushed-stone{existing}\n"
        );
        let text = YARD.to_owned() + &more;
        let analysis =
            Analyser::new().analyse("/yard.patio", text.as_str().into(), &NoFiles, "2027-04-12");
        let unknown = unknown(&analysis);
        unknown.iter().any(|why| why.contains("dig for old"))
    };
    assert!(beside(""));
    assert!(!beside(", existing"));
}

#[test]
fn pieces_that_cannot_be_counted_are_withheld() {
    let steps = crate::sound::spec("garden-steps");
    for (count, wanted) in [("3", Some(6.0)), ("0", None), ("some", None)] {
        let steps = checked(&steps.replacen("in 3 pieces", &format!("in {count} pieces"), 1));
        let treads = steps.figures().steps[0].treads.as_ref().expect("treads");
        assert_eq!(treads.pieces, wanted, "{count}");
        assert_eq!(treads.piece_kg.is_some(), wanted.is_some(), "{count}");
        assert!(treads.area_m2.is_some(), "{count}");
    }
}

#[test]
fn treads_of_a_nosing_that_cannot_be_read_are_withheld() {
    let steps = crate::sound::spec("garden-steps");
    for (nosing, is_known) in [("20 mm", true), ("20", false), ("some", false)] {
        let steps = steps.replacen("nosing 20 mm", &format!("nosing {nosing}"), 1);
        let steps = checked(&steps);
        let treads = steps.figures().steps[0].treads.as_ref().expect("treads");
        assert_eq!(treads.pieces, Some(6.0), "{nosing}");
        let sizes = [treads.area_m2.is_some(), treads.volume_m3.is_some()];
        assert_eq!(sizes, [is_known; 2], "{nosing}");
    }
}
