//! The plan: what is drawn, in which order, at which scale, on which sheet.

mod borders;
mod canvas;
mod contours;
mod courses;
mod cuts;
mod dimensions;
mod drains;
mod falls;
mod fields;
mod fit;
mod ground;
mod levels;
mod marks;
mod names;
mod parts;
mod pegs;
mod radii;
mod rows;
mod steps;

pub(crate) use fields::called_briefly;
pub use fit::{Choice, Misfit};

use canvas::Canvas;
use fit::{Figure, Fitting};
use ground::{Frame, Ground, View};
use parts::Parts;

use super::bare::bare;
use super::bearings;
use super::beside::{self, Rest, Said, sheet_item};
use super::cropped::cropped;
use super::display_list::{Drawing, Extents, Ink, Item, Layer};
use super::font::Face;
use super::labels::{self, Board};
use super::legend::Legend;
use super::lettering::{self, LABEL};
use super::scale::Scale;
use super::sheet::{Panel, Sheet};
use super::surround::{self, About, errors, job_title};
use crate::analysis::Analysis;
use crate::geometry::{Point, Vector};
use crate::quantities::SurfaceFigures;
use crate::units::System;

/// How many sheets come after those of a plan on such a sheet.
pub(crate) type Count<'a> = &'a dyn Fn(&Sheet) -> usize;

/// Draws the plan of a job. `source` is its file as it is shown.
///
/// # Errors
/// [`Misfit`] if a scale was asked for and the plan is too big for its sheet.
pub fn plan(analysis: &Analysis, source: &str, choice: &Choice) -> Result<Drawing, Box<Misfit>> {
    let (mut drawings, _) = on_sheets(analysis, source, choice, &|_| 0)?;
    Ok(drawings.swap_remove(0))
}

/// The plan of a job, never none: the plan, or a key plan and its parts; and
/// the sheet that they are drawn on. Of that it is asked how many others come
/// after them.
///
/// # Errors
/// [`Misfit`] if a scale was asked for, the plan is too big for its sheet at
/// it, and is not to be parted.
pub(crate) fn on_sheets(
    analysis: &Analysis,
    source: &str,
    choice: &Choice,
    further: Count<'_>,
) -> Result<(Vec<Drawing>, Sheet), Box<Misfit>> {
    let figure = Figure::of(analysis);
    let fitting = match fit::fit(&figure, choice, errors(analysis) > 0) {
        Ok(fitting) => fitting,
        Err(misfit) => return parted(analysis, source, &figure, (choice, further), misfit),
    };
    let draw = |fitting: &Fitting, rest_on: Option<usize>| {
        let count = 1 + usize::from(rest_on.is_some()) + further(&fitting.sheet);
        let of = Of {
            parts: None,
            count,
            rest_on,
        };
        drawn(analysis, source, &figure, (fitting, choice), &of)
    };
    let (mut drawing, mut left_out) = draw(&fitting, None);
    let mut fitting = fitting;
    // What is crowded on a small sheet may not be on the next larger one.
    if left_out.count() > 0
        && choice.sheet.is_none()
        && choice.room.is_none()
        && let Some(larger) = fit::larger(&figure, choice, &fitting, errors(analysis) > 0)
    {
        (drawing, left_out) = draw(&larger, None);
        fitting = larger;
    }
    if left_out.rest.count() == 0 {
        return Ok((vec![drawing], fitting.sheet));
    }
    let (drawing, left_out) = draw(&fitting, Some(2));
    let around = Around {
        source,
        drawing: "Plan: what else is said of it",
        number: (2, 2 + further(&fitting.sheet)),
        rest_on: None,
    };
    let said = said_alone(analysis, &left_out.rest, &fitting, &around);
    Ok((vec![drawing, said], fitting.sheet))
}

/// A plan over several sheets, the key plan first.
fn parted(
    analysis: &Analysis,
    source: &str,
    figure: &Figure<'_>,
    (choice, further): (&Choice, Count<'_>),
    mut misfit: Box<Misfit>,
) -> Result<(Vec<Drawing>, Sheet), Box<Misfit>> {
    let sheet = fit::parted_on(figure, choice);
    let scale = choice.scale.as_ref();
    let parts = scale.and_then(|scale| Parts::of(analysis, figure, scale, &sheet));
    let parts = match parts {
        Some(parts) if choice.is_parted => parts,
        parts => {
            misfit.parts = parts.map(|parts| parts.count() + 1);
            return Err(misfit);
        }
    };
    let whole = Choice {
        scale: None,
        sheet: Some(sheet.size),
        ..choice.clone()
    };
    let fitting = fit::fit(figure, &whole, errors(analysis) > 0)?;
    let count = 1 + parts.count() + further(&sheet);
    let of = Of {
        parts: Some(&parts),
        count,
        rest_on: None,
    };
    let (key, _) = drawn(analysis, source, figure, (&fitting, &whole), &of);
    let mut drawings = vec![key];
    drawings.extend(parts.drawn(analysis, source, choice, count));
    Ok((drawings, sheet))
}

/// What a title block says of a plan.
struct Around<'a> {
    source: &'a str,
    drawing: &'a str,
    number: (usize, usize),
    /// The sheet on which stands what has no room beside the plan.
    rest_on: Option<usize>,
}

/// What a plan is the first sheet of.
struct Of<'a> {
    /// With parts it is their key.
    parts: Option<&'a Parts>,
    /// How many sheets there are.
    count: usize,
    /// The one on which stands what has no room beside the plan.
    rest_on: Option<usize>,
}

/// What found no place.
struct LeftOut {
    /// Labels on the plan, which stand beside it instead.
    labels: usize,
    /// What has no room beside it either.
    rest: Rest,
}

impl LeftOut {
    fn count(&self) -> usize {
        self.labels + self.rest.count()
    }
}

/// A canvas on a sheet, its labels to stand in an area of it.
fn canvas_on(analysis: &Analysis, sheet: &Sheet, view: View, area: Extents) -> Canvas {
    let errors = errors(analysis);
    let mut canvas = Canvas {
        system: analysis.job.heading.system(),
        region: analysis.job.heading.region(),
        view,
        items: Vec::new(),
        board: Board::new(area),
        legend: Legend::default(),
        notes: Vec::new(),
    };
    if !sheet.is_bare {
        canvas.items.extend(surround::frame(sheet));
        canvas
            .items
            .extend(surround::warning(sheet, "build", errors));
    }
    north(&mut canvas, analysis, &fit::plan_panel(sheet, errors > 0));
    canvas
}

/// The plan on its sheet, the first of several, and what found no place on it.
fn drawn(
    analysis: &Analysis,
    source: &str,
    figure: &Figure<'_>,
    (fitting, choice): (&Fitting, &Choice),
    of: &Of<'_>,
) -> (Drawing, LeftOut) {
    let parts = of.parts;
    let job = &analysis.job;
    let (sheet, scale) = (&fitting.sheet, &fitting.scale);
    let panel = fit::plan_panel(sheet, errors(analysis) > 0);
    let view = figure.view(scale, &panel);
    let mut canvas = canvas_on(analysis, sheet, view, panel.extents().grown(-1.0));
    let grounds = Ground::of_job(job, &view);
    let others = [
        steps::outlines(analysis, &view).len(),
        drains::corners(job, &view).len(),
    ];
    if grounds.is_empty() && others == [0, 0] {
        nothing(&mut canvas, &panel);
    }
    let labels = parts.map(|parts| {
        let (items, labels) = parts.on_key(&view);
        let seen = items.iter().filter_map(|item| cropped(item, &panel));
        (seen.collect::<Vec<Item>>(), labels)
    });
    if let Some((_, labels)) = &labels {
        for label in labels {
            canvas.board.place(label);
        }
    }
    content(&mut canvas, analysis, &grounds, choice);
    canvas
        .items
        .extend(labels.into_iter().flat_map(|(items, _)| items));
    let has_levels = grounds.iter().any(|ground| ground.surface.has_levels());
    let kind = match parts {
        Some(parts) => format!(
            "Key plan of {} parts at {}",
            parts.count(),
            parts.scale().words
        ),
        None if has_levels => "Plan: laying and levels".to_owned(),
        None => "Plan: laying".to_owned(),
    };
    let around = Around {
        source,
        drawing: &kind,
        number: (1, of.count),
        rest_on: of.rest_on,
    };
    finished(analysis, canvas, (sheet, scale), &around)
}

/// A plan with what stands beside it, and what found no place.
fn finished(
    analysis: &Analysis,
    mut canvas: Canvas,
    (sheet, scale): (&Sheet, &Scale),
    around: &Around<'_>,
) -> (Drawing, LeftOut) {
    let keyed = std::mem::take(&mut canvas.board.keyed);
    let listed = std::mem::take(&mut canvas.board.listed);
    if !listed.is_empty() {
        canvas.note(format!(
            "Without room for their number: {}; see the setting out.",
            listed.join(", ")
        ));
    }
    let labels = keyed.len() + listed.len();
    let mut items = std::mem::take(&mut canvas.items);
    items.append(&mut canvas.board.items);
    let drawing = Drawing {
        title: format!("{}: plan", job_title(analysis)),
        size: sheet.paper,
        scale: scale.ratio,
        origin: canvas.view.origin,
        is_imperial: canvas.system == System::Imperial,
        items: Vec::new(),
        insets: Vec::new(),
        notes: Vec::new(),
    };
    if sheet.is_bare {
        let mut notes = labels::sentences(&keyed);
        notes.append(&mut canvas.notes);
        let drawing = Drawing {
            items,
            notes,
            ..drawing
        };
        let rest = Rest::default();
        return (
            bare(drawing, scale, canvas.system),
            LeftOut { labels, rest },
        );
    }
    items.extend(bearings::scale_bar(&sheet.foot, scale, canvas.system));
    let said = Said {
        legend: &canvas.legend.entries,
        key: &keyed,
        notes: &canvas.notes,
    };
    let (mut beside, rest) = said.set(sheet, around.rest_on);
    items.append(&mut beside);
    items.extend(titled(analysis, (sheet, scale), around));
    (Drawing { items, ..drawing }, LeftOut { labels, rest })
}

/// The title block of a sheet of the plan.
fn titled(analysis: &Analysis, (sheet, scale): (&Sheet, &Scale), around: &Around<'_>) -> Vec<Item> {
    let mut surfaces = analysis.job.surfaces.iter();
    let about = About {
        source: around.source,
        drawing: around.drawing,
        scale,
        sheet,
        number: around.number,
        has_levels: surfaces.any(|own| own.outline.is_some() && own.has_levels()),
    };
    beside::title_block(&sheet.title, &surround::title(analysis, &about))
}

/// The sheet of what has no room beside the plan.
fn said_alone(analysis: &Analysis, rest: &Rest, fitting: &Fitting, around: &Around<'_>) -> Drawing {
    let errors = errors(analysis);
    let kept = if errors > 0 { surround::WARNING } else { 0.0 };
    let sheet = fitting.sheet.of_words(kept);
    let mut items = surround::frame(&sheet).to_vec();
    items.extend(surround::warning(&sheet, "build", errors));
    items.extend(rest.said().set(&sheet, None).0);
    items.extend(titled(analysis, (&sheet, &fitting.scale), around));
    Drawing {
        title: format!("{}: what else is said of the plan", job_title(analysis)),
        size: sheet.paper,
        scale: fitting.scale.ratio,
        origin: Point::ORIGIN,
        is_imperial: analysis.job.heading.system() == System::Imperial,
        items,
        insets: Vec::new(),
        notes: Vec::new(),
    }
}

/// What lies on the plan: ground first, then every mark, then text, which finds
/// its place among them.
fn content(canvas: &mut Canvas, analysis: &Analysis, grounds: &[Ground<'_>], choice: &Choice) {
    let job = &analysis.job;
    // What is said of a surface is said once, at the outline that it draws.
    let drawn = grounds.iter().filter(|ground| ground.is_drawn_by_shape());
    let firsts: Vec<Ground<'_>> = drawn.cloned().collect();
    let figures: Vec<Option<&SurfaceFigures>> = firsts
        .iter()
        .map(|ground| {
            let own = analysis.figures.surfaces.get(ground.surface.index);
            own.map(AsRef::as_ref)
        })
        .collect();
    if !choice.is_outline {
        cuts::draw(canvas, &firsts, &figures);
    }
    for ground in grounds.iter().filter(|_| !choice.is_outline) {
        fields::draw(canvas, ground);
        courses::draw(canvas, ground);
    }
    for (ground, figures) in firsts.iter().zip(&figures) {
        if let Some(figures) = figures {
            borders::movement(canvas, ground, figures);
        }
    }
    let strips = borders::building(grounds);
    borders::draw_building(canvas, grounds, &strips);
    for ground in grounds {
        borders::draw(canvas, job, ground);
        canvas.board.take_outline(&ground.outline);
    }
    for strip in &strips {
        canvas.board.take_outline(strip);
    }
    steps::draw(canvas, analysis);
    drains::draw(canvas, analysis);
    marks::draw(canvas, job, grounds);
    let levels = levels::draw(canvas, &firsts, &figures);
    let pegs = choice.shows_pegs.then(|| pegs::draw(canvas, job));
    for ground in &firsts {
        falls::draw_facets(canvas, ground);
    }
    // From here on what is written keeps off what is drawn.
    let frame = Frame::of(grounds);
    let flights = steps::outlines(analysis, &canvas.view);
    let reach = borders::reaches(grounds, strips.iter().chain(&flights), &frame);
    let sides = dimensions::sides(grounds, &frame);
    let [along, across] = reach;
    let edges = [across.1, -across.0, -along.0, along.1];
    for (side, edge) in sides.iter().zip(edges) {
        dimensions::draw(canvas, side, edge, &strips);
    }
    levels::label(canvas, &firsts, &levels);
    steps::label(canvas, analysis);
    for ground in &firsts {
        names::holes(canvas, ground, grounds);
        radii::draw(canvas, ground, &strips);
    }
    for ground in &firsts {
        falls::draw(canvas, ground);
        names::surface(canvas, ground, grounds, !choice.is_outline);
    }
    borders::name_edgings(canvas, grounds);
    marks::label(canvas, job);
    drains::label(canvas, analysis);
    for ground in &firsts {
        falls::water(canvas, ground, job);
    }
    for surface in job.surfaces.iter() {
        if surface.outline.is_none() {
            let name = &surface.name.value;
            canvas.note(format!(
                "{name}: its outline is not known, and it is not drawn."
            ));
        }
    }
    if choice.shows_contours {
        contours::draw(canvas, grounds);
    }
    for spot in pegs.iter().flatten() {
        pegs::label(canvas, spot);
    }
}

/// The needle of north, where the site says which way it points.
fn north(canvas: &mut Canvas, analysis: &Analysis, panel: &Panel) {
    let Some(north) = &analysis.job.site.north else {
        return;
    };
    let way = Vector::new(0.0, 1.0).turned(-north.value.si().to_radians());
    let middle = Point::new(panel.low.x + 14.0, panel.high.y - 14.0);
    for mark in bearings::needle(middle, way) {
        // Of the plan and not of its sheet: where only that is shown it is too.
        canvas.draw(Layer::Names, Some(north.place), mark);
    }
    canvas.notes.extend(surround::plan_north(analysis));
    canvas.board.take(bearings::needle_room(middle));
}

/// What a sheet says on which there is nothing yet.
fn nothing(canvas: &mut Canvas, panel: &Panel) {
    let words = "Nothing to draw yet: no surface has an outline.";
    let setting = lettering::set(words, LABEL, Face::Regular);
    let middle = panel.extents().centre;
    let at = middle + Vector::new(-setting.width / 2.0, 0.0);
    let item = Item {
        layer: Layer::Names,
        ..sheet_item(None, beside::text(at, setting, Ink::Pale))
    };
    canvas.board.take(Extents::about(middle, 60.0, 4.0));
    canvas.items.push(item);
}
