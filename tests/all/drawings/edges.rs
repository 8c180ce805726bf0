//! What stands along an edge: edgings and channels at their width on the plan,
//! cut at their size in the section, and told apart where there are several.

use std::sync::Arc;

use drylay::analysis::Analysis;
use drylay::drawing::{Choice, Drawing, Layer, sheets};
use drylay::geometry::Point;

use super::{analysed, paths, texts};

/// A court with a kerb at one side, a channel at its foot.
const COURT: &str = "job \"Court\"\n  units metric\n  region uk\nsite\n  datum \"sill\"\n\
    shape court\n  rectangle 5 m by 4 m\nsurface court\n  shape court\n  meets north\n  \
    level -150 mm at north\n  fall 1:60 away from north\n  build flags\n  \
    edging kerb, along east\nbuild flags\n  paving york-stone, 50 mm\n  bed sharp-sand, 30 mm\n  \
    base crushed-stone, 150 mm\ndrain foot\n  \
    channel polymer-channel, 100 mm by 90 mm clear, 140 mm over all, along court.south\n  \
    bedded in haunch-mix, 100 mm round\n  fall 1:200 toward east\n  to \"the ditch\"\n\
    mix haunch-mix\n  for haunch\n  parts 1 portland-cement : 5 all-in-ballast\n\
    material kerb\n  like concrete-kerb\n  unit 50 mm by 200 mm by 915 mm\n";

fn drawn(text: &str) -> (Arc<Analysis>, Vec<Drawing>) {
    let analysis = analysed(text);
    let drawings = sheets(&analysis, "court.patio", &Choice::default()).expect("it fits");
    (analysis, drawings)
}

fn words(drawing: &Drawing) -> Vec<String> {
    texts(drawing)
        .map(|(line, _)| line.setting.words())
        .collect()
}

/// How far off a place each end of a line of a layer lies, on the plan.
fn reaches(drawing: &Drawing, layer: Layer, off: impl Fn(Point) -> f64) -> Vec<f64> {
    let on_plan =
        |at: Point| Point::new(0.0, 0.0) + (at - drawing.origin) * (drawing.scale / 1000.0);
    let own = drawing.items.iter();
    own.filter(|item| item.layer == layer && item.link.is_some())
        .flat_map(|item| paths(&item.mark))
        .flat_map(|path| &path.edges)
        .flat_map(|edge| [edge.start, edge.end])
        .map(|at| off(on_plan(at)))
        .collect()
}

#[test]
fn edgings_and_channels_are_drawn_at_their_width() {
    let (_, drawings) = drawn(COURT);
    let plan = &drawings[0];
    let east = reaches(plan, Layer::Outlines, |at| at.x - 5.0);
    let widest = east.iter().copied().fold(0.0, f64::max);
    // 50 mm and not the 200 mm that the kerb is high.
    assert!((widest - 0.05).abs() < 1e-6, "{widest}");
    let south = reaches(plan, Layer::Water, |at| at.y);
    let inner = |wide: f64| south.iter().any(|own| (own - wide).abs() < 1e-6);
    assert!(inner(0.14) && !inner(0.1), "{south:?}");
    assert!(words(plan).contains(&"140 wide".to_owned()));
    // Without a width over all it is as wide as it is clear.
    let (_, narrow) = drawn(&COURT.replace(", 140 mm over all", ""));
    assert!(words(&narrow[0]).contains(&"100 wide".to_owned()));
}

#[test]
fn a_channel_is_cut_at_its_size_where_that_is_known() {
    let (_, drawings) = drawn(COURT);
    let reported = words(&drawings[1]);
    for said in [
        "100 × 90 clear, at its size",
        "The channel lies in haunch mix",
    ] {
        assert!(reported.contains(&said.to_owned()), "{said}: {reported:?}");
    }
    let (_, unknown) = drawn(&COURT.replace(", 100 mm by 90 mm clear, 140 mm over all", ""));
    let reported = words(&unknown[1]);
    assert!(
        !reported.iter().any(|own| own.contains("clear")),
        "{reported:?}"
    );
    assert!(reported.join(" ").contains("foot: its size is not stated"));
}

#[test]
fn edgings_of_several_kinds_are_told_apart_on_the_plan() {
    let named = |text: &str| {
        let own = words(&drawn(text).1[0]);
        own.iter()
            .filter(|own| own.contains("edging") && !own.starts_with("Edging"))
            .count()
    };
    assert_eq!(named(COURT), 0);
    let two = COURT.replace(
        "along east\n",
        "along east\n  edging steel-edging, along west\n",
    );
    assert!(named(&two) >= 1);
}
