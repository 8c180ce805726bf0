//! Contours: each lies at its level on its surface, and none is drawn unasked.

use drylay::analysis::Analysis;
use drylay::drawing::{Choice, Drawing, Ink, Layer, Mark, plan};
use drylay::geometry::Point;

use super::{analysed, moved_job, paths};
use crate::folder::Folder;

fn drawn(analysis: &Analysis, shows_contours: bool) -> Drawing {
    let choice = Choice {
        shows_contours,
        ..Choice::default()
    };
    plan(analysis, "court.patio", &choice).expect("it fits")
}

/// Both ends of each contour, on the plan.
fn contours(drawing: &Drawing) -> Vec<(Point, Point)> {
    let dashed = drawing.items.iter().filter(|item| {
        item.layer == Layer::Falls
            && matches!(&item.mark, Mark::Stroke(_, pen)
                if pen.ink == Ink::Water && !pen.dash.is_empty())
    });
    let on_plan =
        |at: Point| Point::new(0.0, 0.0) + (at - drawing.origin) * (drawing.scale / 1000.0);
    dashed
        .flat_map(|item| paths(&item.mark))
        .flat_map(|path| &path.edges)
        .map(|edge| (on_plan(edge.start), on_plan(edge.end)))
        .collect()
}

#[test]
fn contours_lie_at_their_level_and_are_drawn_when_asked_for() {
    let analysis = analysed(&moved_job(|x, y| (x, y), false));
    assert!(contours(&drawn(&analysis, false)).is_empty());
    let surface = &analysis.job.surfaces[0];
    let plane = surface.plane.expect("a plane");
    let outline = surface.outline.as_ref().expect("an outline");
    let found = contours(&drawn(&analysis, true));
    // 5 m at 1:60 fall 83 mm: contours every 10 mm, or 5 or 20.
    assert!((4..40).contains(&found.len()), "{}", found.len());
    for (from, to) in found {
        let (one, other) = (plane.level_at(from), plane.level_at(to));
        assert!((one - other).abs() < 1e-6, "{one} and {other}");
        let steps = one / 0.005;
        assert!(
            (steps - steps.round()).abs() < 1e-4,
            "{one} is no round level"
        );
        assert!(outline.contains(from.midpoint(to)));
    }
    let unknown = moved_job(|x, y| (x, y), false).replace("  level -150 mm at wall\n", "");
    assert!(contours(&drawn(&analysed(&unknown), true)).is_empty());
}

/// A court that falls from all its edges has contours that go all round.
#[test]
fn contours_of_a_court_go_round_its_drain() {
    let specs = Folder::of_specs();
    let path = "/specs/foundry-court.patio";
    let analysis = specs.analysis(path);
    let surface = &analysis.job.surfaces[0];
    let found = contours(&drawn(&analysis, true));
    assert!(found.len() >= 4 * surface.facets.len());
    for (from, to) in found {
        let middle = from.midpoint(to);
        let facet = surface
            .facets
            .iter()
            .find(|own| own.outline.contains(middle));
        let plane = facet.expect("it lies on a facet").plane;
        assert!((plane.level_at(from) - plane.level_at(to)).abs() < 1e-6);
    }
}
