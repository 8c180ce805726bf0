//! Where a lay-out starts: a court that is the same from all its corners comes
//! to the same from each, along whichever edge it is laid.

use drylay::analysis::{Analyser, NoFiles};

/// Whole and cut units of a court so large, laid in a pattern along an edge from
/// a point.
fn laid(court: &str, pattern: &str, edge: &str, from: &str) -> (usize, usize) {
    let text = format!(
        "job \"Court\"\n  units metric\n\nshape court\n  rectangle {court}\n\n\
         surface court\n  shape court\n  build flags\n  \
         laid {pattern}, along {edge}, from {from}\n  joint 5 mm, filled with joint-sand\n\n\
         build flags\n  paving porcelain, 20 mm\n"
    );
    let analysis = Analyser::new().analyse("/court.patio", text.into(), &NoFiles, "2027-04-12");
    let surface = analysis.figures.surfaces.iter().next();
    let layout = surface.and_then(|own| own.layout.as_ref());
    let layout = layout.unwrap_or_else(|| panic!("no lay-out {pattern} {edge} {from}"));
    (layout.whole, layout.cut)
}

#[test]
fn a_court_is_laid_alike_from_each_of_its_corners() {
    let flags = "stack-bond, units 600 mm by 600 mm";
    let bricks = "running-bond, units 215 mm by 103 mm";
    let cross = "herringbone, units 215 mm by 103 mm";
    // Five flags by four with their joints, by hand; and a little more each way.
    for (court, width, depth, pattern, by_hand) in [
        ("3.02 m by 2.415 m", 3.02, 2.415, flags, Some((20, 0))),
        ("3.1 m by 2.5 m", 3.1, 2.5, flags, Some((20, 10))),
        ("3.1 m by 2.5 m", 3.1, 2.5, bricks, None),
        ("2.5 m by 2.5 m", 2.5, 2.5, cross, None),
    ] {
        for edge in ["north", "east", "south", "west"] {
            let of = |x: f64, y: f64| laid(court, pattern, edge, &format!("({x} m, {y} m)"));
            let first = of(0.0, 0.0);
            for (x, y) in [(width, 0.0), (0.0, depth), (width, depth)] {
                assert_eq!(of(x, y), first, "{court} {pattern} {edge} from ({x}, {y})");
            }
            if let Some(by_hand) = by_hand {
                assert_eq!(first, by_hand, "{court} {pattern} {edge}");
            }
        }
    }
    // Elsewhere on the ground the units go on along the edge: no corner.
    let inside = laid("3.02 m by 2.415 m", flags, "north", "(1 m, 1 m)");
    assert!(inside.1 > 0, "{inside:?}");
}
