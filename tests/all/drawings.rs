//! The plan of every spec and of jobs that chance made up: no label lies on
//! another, nothing leaves the sheet or its surface, all of it can be read;
//! and a job that is turned or mirrored draws the turned or mirrored plan.

mod bare;
mod chance;
mod complete;
mod contours;
mod edges;
mod further;
mod named;
mod readers;

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::drawing::{
    Choice, Drawing, Extents, Layer, Mark, Path, Scale, Size, Text as Line, plan, sheets,
};
use drylay::geometry::{Edge, Point};
use drylay::text::Text;
use rayon::prelude::*;

use crate::folder::{Folder, TODAY};
use crate::random::{Random, cases};
use chance::random_job;

/// How many jobs chance makes up. Many take long to draw without optimisation:
/// `DRYLAY_CASES=10` draws a thousand.
const JOBS: usize = 100;

/// The least height of a capital that is read on a site, in millimetres.
const LEAST: f64 = 1.8;

fn analysed(text: &str) -> Arc<Analysis> {
    Analyser::new().analyse("/specs/trial.patio", Text::from(text), &NoFiles, TODAY)
}

fn texts(drawing: &Drawing) -> impl Iterator<Item = (&Line, Layer)> {
    drawing.items.iter().filter_map(|item| match &item.mark {
        Mark::Text(text) => Some((text, item.layer)),
        _ => None,
    })
}

fn paths(mark: &Mark) -> &[Path] {
    match mark {
        Mark::Stroke(paths, _) | Mark::Fill(paths, _) => paths,
        Mark::Text(_) => &[],
    }
}

/// Points along an edge, its ends among them.
fn along(edge: &Edge) -> impl Iterator<Item = Point> + '_ {
    let parts = if edge.is_arc() { 8 } else { 1 };
    (0..=parts).map(move |part| edge.point_at(edge.length() * f64::from(part) / f64::from(parts)))
}

/// What is wrong with a sheet, in words.
fn faults(analysis: &Analysis, drawing: &Drawing) -> Vec<String> {
    faults_within(9.0, analysis, drawing)
}

/// The same, with so much white round what is drawn.
fn faults_within(white: f64, analysis: &Analysis, drawing: &Drawing) -> Vec<String> {
    let mut faults = Vec::new();
    let (width, height) = drawing.size;
    let sheet = Extents::between(Point::new(0.0, 0.0), Point::new(width, height)).grown(-white);
    let lines: Vec<(&Line, Layer)> = texts(drawing).collect();
    for (at, (line, layer)) in lines.iter().enumerate() {
        let (own, words) = (line.extents(), line.setting.words());
        if !sheet.holds(&own) {
            faults.push(format!("{words} leaves the sheet"));
        }
        if line
            .setting
            .runs
            .iter()
            .any(|run| run.capital < LEAST - 1e-9)
        {
            faults.push(format!("{words} is too small"));
        }
        for (other, _) in lines.iter().skip(at + 1) {
            // Lines of one block stand a little closer than their tails.
            if own.grown(-0.1).overlaps(&other.extents().grown(-0.1)) {
                faults.push(format!(
                    "{words} ({layer:?}) lies on {}",
                    other.setting.words()
                ));
            }
        }
    }
    for item in &drawing.items {
        let points = || {
            paths(&item.mark)
                .iter()
                .flat_map(|path| path.edges.iter())
                .flat_map(along)
        };
        if let Some(off) = points().find(|at| !sheet.holds(&Extents::about(*at, 0.0, 0.0))) {
            faults.push(format!("{:?} leaves the sheet at {off:?}", item.layer));
        }
        let Some(surface) = item.within else { continue };
        let outline = analysis.job.surfaces[surface]
            .outline
            .as_ref()
            .expect("an outline");
        let on_plan = |at: Point| {
            let off = at - drawing.origin;
            Point::new(0.0, 0.0) + off * (drawing.scale / 1000.0)
        };
        let reach = 0.02 * drawing.scale / 1000.0;
        if let Some(off) = points()
            .map(on_plan)
            .find(|at| !outline.contains(*at) && outline.distance_to_boundary(*at) > reach)
        {
            faults.push(format!("{:?} leaves its surface at {off:?}", item.layer));
        }
    }
    faults
}

/// What is wrong with a plan, each fault after its name; and what its sheets
/// show.
fn described(name: &str, analysis: &Analysis, choice: &Choice) -> (Vec<String>, Vec<String>) {
    let Ok(drawings) = sheets(analysis, "trial.patio", choice) else {
        return (Vec::new(), Vec::new());
    };
    let shown = drawings.iter().flat_map(|drawing| {
        let (_, kinds) = drawing.title.rsplit_once(": ").unwrap_or_default();
        kinds.split(", ").map(str::to_owned)
    });
    let shown = shown.collect();
    let drawings = drawings.iter().enumerate();
    let faults = drawings.flat_map(|(page, drawing)| {
        let faults = faults(analysis, drawing).into_iter();
        faults.map(move |fault| format!("sheet {}: {fault}", page + 1))
    });
    let faults = faults.map(|fault| format!("{name}, {choice:?}: {fault}"));
    (faults.collect(), shown)
}

#[test]
fn no_label_lies_on_another_and_nothing_leaves_its_place() {
    let specs = Folder::of_specs();
    let of_specs: Vec<String> = specs
        .paths()
        .par_iter()
        .flat_map(|path| {
            let analysis = specs.analysis(path);
            let choices = [
                (None, false),
                (Some(Size::A4), true),
                (Some(Size::A3), false),
                (Some(Size::Tabloid), true),
            ];
            choices
                .map(|(sheet, is_upright)| {
                    described(
                        path,
                        &analysis,
                        &Choice {
                            sheet,
                            is_upright,
                            shows_contours: is_upright,
                            shows_pegs: is_upright,
                            ..Choice::default()
                        },
                    )
                    .0
                })
                .concat()
        })
        .collect();
    let mut random = Random::new("drawings");
    let jobs: Vec<(usize, String, Choice)> = (0..cases(JOBS))
        .map(|number| {
            let text = random_job(&mut random);
            // At 1:20 hardly any job has room on one sheet.
            let is_large = number % 10 == 0;
            let scale = match is_large {
                true => Some("1:20"),
                false => *random.pick(&[None, None, None, Some("1:100"), Some("1:50")]),
            };
            let choice = Choice {
                scale: scale.map(|scale| Scale::read(scale).expect("a scale")),
                sheet: random.once_in(2).then(|| *random.pick(Size::ALL)),
                room: None,
                is_upright: random.once_in(3),
                shows_contours: random.once_in(3),
                shows_pegs: random.once_in(3),
                is_parted: is_large || random.once_in(2),
                is_alone: !is_large && random.once_in(8),
                is_outline: random.once_in(8),
            };
            (number, text, choice)
        })
        .collect();
    // How many surfaces, what is told of the sheets, and what those show.
    type Drawn = (usize, (Vec<String>, Vec<String>));
    let of_jobs: Vec<Drawn> = jobs
        .par_iter()
        .map(|(number, text, choice)| {
            let analysis = analysed(text);
            let drawn = analysis
                .job
                .surfaces
                .iter()
                .filter(|own| own.outline.is_some());
            (
                drawn.count(),
                described(&format!("job {number}"), &analysis, choice),
            )
        })
        .collect();
    let drawn: usize = of_jobs.iter().map(|(drawn, _)| drawn).sum();
    let faulty = jobs
        .iter()
        .zip(&of_jobs)
        .find(|(_, (_, (reported, _)))| !reported.is_empty());
    let reported: Vec<String> = of_specs
        .into_iter()
        .chain(
            of_jobs
                .iter()
                .flat_map(|(_, (reported, _))| reported.clone()),
        )
        .collect();
    let example = faulty.map_or("", |((_, text, _), _)| text);
    assert!(
        reported.is_empty(),
        "{} faults, such as\n{}\n{example}",
        reported.len(),
        reported
            .iter()
            .take(40)
            .cloned()
            .collect::<Vec<_>>()
            .join("\n")
    );
    assert!(drawn > cases(JOBS), "only {drawn} surfaces were drawn");
    let parted = jobs
        .iter()
        .zip(&of_jobs)
        .filter(|((_, _, choice), (_, (_, shown)))| {
            choice.is_parted && shown.iter().filter(|own| *own == "plan").count() > 1
        });
    assert!(
        parted.count() > cases(JOBS) / 50,
        "too few plans were parted"
    );
    for kind in ["plan", "section", "steps", "long section"] {
        let shown = of_jobs.iter().flat_map(|(_, (_, shown))| shown);
        let count = shown.filter(|own| *own == kind).count();
        assert!(count > cases(JOBS) / 20, "only {count} sheets show: {kind}");
    }
}

/// An L with a bow, its corners moved by a function of the plan.
fn moved_job(place: impl Fn(f64, f64) -> (f64, f64), is_mirrored: bool) -> String {
    let at = |x: f64, y: f64| {
        let (x, y) = place(x, y);
        format!("({x:.9} m, {y:.9} m)")
    };
    let mut corners = [
        (0.0, 0.0),
        (0.0, -5.0),
        (3.0, -5.0),
        (3.0, -2.5),
        (8.0, -2.5),
        (8.0, 0.0),
    ];
    if is_mirrored {
        corners[1..].reverse();
    }
    let points: Vec<String> = corners.iter().map(|(x, y)| at(*x, *y)).collect();
    format!(
        "job \"Court\"\n  units metric\n  region uk\nsite\n  datum \"sill\"\n\
         shape pit\n  circle radius 0.6 m, centre {}\n\
         shape court\n  polygon {}\n  edge wall from {} to {}\n  cut pit\n\
         surface court\n  shape court\n  meets wall\n  level -150 mm at wall\n  \
         fall 1:60 away from wall\n  build flags\n  laid irregular, stones 300 mm to 600 mm\n\
         build flags\n  paving york-stone, 50 mm\n  bed sharp-sand, 30 mm\n  base crushed-stone, 150 mm\n",
        at(1.5, -2.5),
        points.join(" "),
        at(0.0, 0.0),
        at(8.0, 0.0),
    )
}

/// What a plan says of lengths, levels and falls, in order.
fn said(drawing: &Drawing) -> Vec<String> {
    let wanted = [Layer::Dimensions, Layer::Levels, Layer::Falls, Layer::Names];
    let mut said: Vec<String> = texts(drawing)
        .filter(|(_, layer)| wanted.contains(layer))
        .map(|(text, _)| text.setting.words())
        .collect();
    said.sort();
    said
}

/// The corners of what is drawn of the edges, on the plan.
fn corners(drawing: &Drawing) -> Vec<Point> {
    let of_edges = drawing.items.iter().filter(|item| {
        matches!(item.layer, Layer::Outlines | Layer::Building) && item.link.is_some()
    });
    // Where a circle starts is nobody's concern.
    let is_straight = |path: &&Path| path.edges.iter().all(|edge| !edge.is_arc());
    let straight = of_edges
        .flat_map(|item| paths(&item.mark))
        .filter(is_straight);
    straight
        .filter_map(Path::start)
        .map(|at| Point::new(0.0, 0.0) + (at - drawing.origin) * (drawing.scale / 1000.0))
        .collect()
}

#[test]
fn a_section_tells_what_is_known() {
    let words = |text: &str| -> Vec<String> {
        let drawn = sheets(&analysed(text), "court.patio", &Choice::default()).expect("it fits");
        assert_eq!(drawn.len(), 2, "the plan and one sheet of sections");
        texts(&drawn[1])
            .map(|(line, _)| line.setting.words())
            .collect()
    };
    let job = moved_job(|x, y| (x, y), false);
    let known = words(&job);
    // The tops of the paving, the bed and the base at the wall.
    for said in [
        "−0.150",
        "−0.200",
        "−0.230",
        "at the building",
        "at the low edge",
    ] {
        assert!(known.contains(&said.to_owned()), "{said}: {known:?}");
    }
    for layer in ["Paving: ", "Bed: ", "Base: "] {
        assert!(known.iter().any(|own| own.starts_with(layer)), "{layer}");
    }
    let unknown = words(&job.replace("  level -150 mm at wall\n", ""));
    assert!(
        !unknown.iter().any(|own| own.starts_with("−0.")),
        "{unknown:?}"
    );
    assert!(unknown.contains(&"–".to_owned()));
    // What lies under a layer of no known thickness is listed and not drawn.
    let thick = words(&job.replace("sharp-sand, 30 mm", "sharp-sand"));
    assert!(!thick.contains(&"−0.230".to_owned()), "{thick:?}");
    let nothing = job.replace("  build flags\n", "");
    let plan = sheets(&analysed(&nothing), "court.patio", &Choice::default());
    assert_eq!(plan.expect("it fits").len(), 1, "nothing is built");
}

#[test]
fn turned_and_mirrored_jobs_draw_the_turned_and_mirrored_plan() {
    let choice = Choice {
        scale: Some(Scale::read("1:50").expect("a scale")),
        sheet: Some(Size::A3),
        shows_contours: true,
        shows_pegs: true,
        ..Choice::default()
    };
    let drawn = |text: &str| {
        let analysis = analysed(text);
        plan(&analysis, "court.patio", &choice).expect("it fits")
    };
    let first = drawn(&moved_job(|x, y| (x, y), false));
    let expected = said(&first);
    assert!(expected.contains(&"8000".to_owned()), "{expected:?}");
    let turn = |degrees: f64| {
        let (sin, cos) = degrees.to_radians().sin_cos();
        move |x: f64, y: f64| (x * cos - y * sin, x * sin + y * cos)
    };
    type Move = Box<dyn Fn(f64, f64) -> (f64, f64)>;
    let moves: Vec<(&str, Move, bool)> = vec![
        ("turned by 90°", Box::new(turn(90.0)), false),
        ("turned by 180°", Box::new(turn(180.0)), false),
        ("turned by 20°", Box::new(turn(20.0)), false),
        ("mirrored", Box::new(|x, y| (-x, y)), true),
        (
            "moved far off",
            Box::new(|x, y| (x + 5000.0, y - 700.0)),
            false,
        ),
    ];
    for (name, place, is_mirrored) in moves {
        let drawing = drawn(&moved_job(&place, is_mirrored));
        assert_eq!(said(&drawing), expected, "{name}");
        let found = corners(&drawing);
        for corner in corners(&first) {
            let (x, y) = place(corner.x, corner.y);
            let nearest = found.iter().map(|own| own.distance(Point::new(x, y)));
            let off = nearest.fold(f64::INFINITY, f64::min);
            assert!(off < 1e-3, "{name}: nothing is drawn at {x}, {y}");
        }
    }
}

#[test]
fn a_plan_says_only_what_is_known() {
    let job = |more: &str, laid: &str| {
        format!(
            "job \"A\"\n  units metric\n  region uk\nshape a\n  rectangle 5 m by 4 m\n\
             surface a\n  shape a\n  build b\n{laid}{more}build b\n  paving york-stone, 50 mm\n"
        )
    };
    let words = |text: &str| {
        let analysis = analysed(text);
        let drawing = plan(&analysis, "a.patio", &Choice::default()).expect("it fits");
        let texts: Vec<String> = texts(&drawing)
            .map(|(text, _)| text.setting.words())
            .collect();
        (texts.join("\n"), drawing)
    };
    let (bare, drawing) = words(&job("", ""));
    assert!(bare.contains("its levels are not known"), "{bare}");
    assert!(
        !drawing
            .items
            .iter()
            .any(|item| matches!(item.layer, Layer::Levels | Layer::Falls | Layer::Units))
    );
    assert!(
        !bare.contains("Fall") && !bare.contains("Building"),
        "{bare}"
    );
    let (levelled, _) = words(&job(
        "  level -150 mm at north\n  fall 1:60 away from north\n",
        "",
    ));
    assert!(
        levelled.contains("−0.150") && levelled.contains("1:60"),
        "{levelled}"
    );
    assert!(
        levelled.contains("What level 0 is, is not stated"),
        "{levelled}"
    );
    let (irregular, drawing) = words(&job("", "  laid irregular, stones 300 mm to 600 mm\n"));
    assert!(irregular.contains("texture only"), "{irregular}");
    assert!(!drawing.items.iter().any(|item| item.layer == Layer::Units));
    // Joints between stones are never closed: no two arms meet.
    let arms = drawing
        .items
        .iter()
        .filter(|item| item.layer == Layer::Textures && item.within.is_some());
    assert!(
        arms.flat_map(|item| paths(&item.mark))
            .all(|path| !path.is_closed)
    );
    let (wrong, _) = words(&job("  fall 1:60 toward nowhere\n", ""));
    assert!(wrong.contains("Do not build from this: "), "{wrong}");
    let (nothing, _) = words("job \"A\"\n");
    assert!(nothing.contains("Nothing to draw yet"), "{nothing}");
}

/// 58 joints in 6 m of soldiers 100 mm wide with 3 mm between them, each as
/// long as the border is deep, and one course the less where another edge's
/// units run through the corner; too small on paper, there are none.
#[test]
fn a_border_is_drawn_unit_by_unit() {
    let joints = |along: &str, scale: &str| {
        let text = format!(
            "job \"A\"\n  units metric\nshape a\n  rectangle 6 m by 4 m\n\
             surface a\n  shape a\n  build flags\n  laid irregular, stones about 400 mm\n  \
             joint 3 mm\n  border clay-paver, soldier, units 200 mm by 100 mm, along {along}\n\
             build flags\n  paving york-stone, 50 mm\n"
        );
        let analysis = analysed(&text);
        let choice = Choice {
            scale: Scale::read(scale).ok(),
            sheet: Some(Size::A3),
            ..Choice::default()
        };
        let drawing = plan(&analysis, "a.patio", &choice).expect("it fits");
        let border = analysis.job.surfaces[0].borders[0].place;
        let deep = 0.203 * 1000.0 / drawing.scale;
        let own = drawing
            .items
            .iter()
            .filter(|item| item.link == Some(border));
        own.flat_map(|item| paths(&item.mark))
            .filter(|path| !path.is_closed)
            .filter(|path| {
                let line = path.edges.first().expect("a line");
                (line.length() - deep).abs() < 1e-6
            })
            .count()
    };
    for (along, scale, wanted) in [
        ("south", "1:50", 58),
        ("south and north", "1:50", 116),
        // From the corner that is taken: 3.797 m and its first joint.
        ("south and east", "1:50", 58 + 37),
        ("south", "1:100", 0),
    ] {
        assert_eq!(joints(along, scale), wanted, "{along} at {scale}");
    }
}

#[test]
fn a_plan_shows_how_a_flight_climbs() {
    let job = |risers: &str| {
        format!(
            "job \"A\"\n  units metric\n  region uk\nshape a\n  rectangle 5 m by 4 m\n\
             surface a\n  shape a\n  level -100 mm at north\n  fall 1:60 away from north\n\
             steps garden-steps\n  from -700 mm\n  to -166.67 mm\n  \
             at (2.5 m, 0 m), climbing north\n  width 1.6 m\n  going 350 mm\n{risers}"
        )
    };
    let drawn = |risers: &str| {
        let analysis = analysed(&job(risers));
        let drawing = plan(&analysis, "a.patio", &Choice::default()).expect("it fits");
        (analysis, drawing)
    };
    let (analysis, drawing) = drawn("  risers 4\n");
    let flight = analysis.job.steps.iter().next().expect("a flight").place;
    let own = || {
        drawing
            .items
            .iter()
            .filter(|item| item.link == Some(flight))
    };
    let said: Vec<String> = own()
        .filter_map(|item| match &item.mark {
            Mark::Text(text) => Some(text.setting.words()),
            _ => None,
        })
        .collect();
    for words in [
        "up",
        "1",
        "2",
        "3",
        "4",
        "garden steps",
        "4 risers of 133, going 350",
    ] {
        assert!(said.iter().any(|one| one == words), "{words}: {said:#?}");
    }
    // Four nosings, 1.6 m wide and 350 mm apart, the top one at the edge.
    let scale = 1000.0 / drawing.scale;
    let nosings = own()
        .map(|item| paths(&item.mark))
        .find(|paths| paths.len() == 4)
        .expect("the nosings");
    for (path, back) in nosings.iter().zip([1.05, 0.7, 0.35, 0.0]) {
        let line = path.edges.first().expect("a line");
        assert!((line.length() - 1.6 * scale).abs() < 1e-6);
        assert!((line.midpoint().y - drawing.origin.y + back * scale).abs() < 1e-6);
    }
    let legend = texts(&drawing).any(|(text, _)| text.setting.words() == "Steps, the arrow climbs");
    assert!(legend);
    // Of a flight that is not known nothing is drawn, and a note says so.
    let (_, unknown) = drawn("  risers 2.5\n");
    let said: Vec<String> = texts(&unknown)
        .map(|(text, _)| text.setting.words())
        .collect();
    assert!(!said.iter().any(|words| words == "up"), "{said:#?}");
    assert!(
        said.join(" ")
            .contains("number of risers could not be made out"),
        "{said:#?}"
    );
}

#[test]
fn a_plan_too_big_for_its_sheet_is_told_with_what_fits() {
    let analysis = analysed(
        "job \"A\"\n  units metric\nshape a\n  rectangle 26 m by 12 m\nsurface a\n  shape a\n",
    );
    let described = |scale: &str, sheet| {
        let scale = Some(Scale::read(scale).expect("a scale"));
        let choice = Choice {
            scale,
            sheet,
            ..Choice::default()
        };
        plan(&analysis, "a.patio", &choice)
            .map(|drawing| drawing.scale)
            .map_err(|misfit| misfit.to_string())
    };
    let misfit = described("1:20", Some(Size::A4)).expect_err("it is too big");
    assert!(
        misfit.contains("too big for A4 at 1:20") && misfit.contains("1:200 fits"),
        "{misfit}"
    );
    assert_eq!(described("1:200", Some(Size::A4)), Ok(200.0));
    // Left open, the sheet is the one that takes the scale.
    assert_eq!(described("1:100", None), Ok(100.0));
}

/// Outlines of any kind are drawn, far off and tiny ones too.
#[test]
fn no_numbers_are_too_odd_to_draw() {
    for text in [
        "shape a\n  rectangle 1 mm by 1 mm\n",
        "shape a\n  rectangle 900 m by 1 mm\n",
        "shape a\n  rectangle 5 m by 5 m, at (100000 m, -100000 m)\n",
        "shape a\n  circle radius 400 m\n",
    ] {
        for units in ["metric", "imperial"] {
            let text = format!("job \"A\"\n  units {units}\n{text}surface a\n  shape a\n");
            let analysis = analysed(&text);
            let drawing = plan(&analysis, "a.patio", &Choice::default()).expect("it fits");
            assert_eq!(faults(&analysis, &drawing), Vec::<String>::new(), "{text}");
        }
    }
}
