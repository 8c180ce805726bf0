//! Which scale and which sheet a plan is drawn at.

use std::fmt;

use super::borders;
use super::dimensions;
use super::drains;
use super::ground::{Frame, Ground, View};
use super::steps;
use crate::analysis::Analysis;
use crate::drawing::scale::Scale;
use crate::drawing::sheet::{Panel, Sheet, Size};
use crate::drawing::surround::WARNING;
use crate::geometry::{Point, Vector};
use crate::model::Job;
use crate::units::System;

/// What was asked for; what is left open is chosen.
#[derive(Debug, Clone, Default)]
pub struct Choice {
    /// The scale.
    pub scale: Option<Scale>,
    /// The sheet.
    pub sheet: Option<Size>,
    /// In place of a sheet, so much of the width and height of a page: the plan
    /// is drawn bare, without frame, legend and title block.
    pub room: Option<(f64, f64)>,
    /// Whether it stands upright.
    pub is_upright: bool,
    /// Whether contours are drawn.
    pub shows_contours: bool,
    /// Whether the pegs of the setting out are drawn.
    pub shows_pegs: bool,
    /// Whether a plan that is too big for its sheet is parted over several.
    pub is_parted: bool,
    /// Whether no other sheet goes with the plan.
    pub is_alone: bool,
    /// Whether what lies on the surfaces is left out: their outlines, levels and
    /// falls are looked for.
    pub is_outline: bool,
}

/// A scale and a sheet on which the plan fits.
#[derive(Debug, Clone)]
pub(crate) struct Fitting {
    /// The scale.
    pub scale: Scale,
    /// The sheet.
    pub sheet: Sheet,
}

/// A plan too big for its sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Misfit {
    scale: String,
    sheet: &'static str,
    needs: (f64, f64),
    has: (f64, f64),
    fits: Option<String>,
    larger: Option<(&'static str, Option<String>)>,
    /// How many sheets it takes in parts, the key plan counted.
    pub parts: Option<usize>,
}

impl fmt::Display for Misfit {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let ((wide, high), (width, height)) = (self.needs, self.has);
        write!(
            out,
            "the plan is too big for {} at {}: it takes {wide:.0} × {high:.0} mm, and there is \
             room for {width:.0} × {height:.0} mm. ",
            self.sheet, self.scale,
        )?;
        match (&self.fits, &self.larger) {
            (Some(scale), Some((sheet, None))) => write!(out, "{scale} fits, or {sheet} does"),
            (Some(scale), Some((sheet, Some(there)))) => {
                write!(out, "{scale} fits; {sheet} takes {there}")
            }
            (Some(scale), None) => write!(out, "{scale} fits"),
            (None, _) => out.write_str("Take a smaller scale"),
        }?;
        match self.parts {
            Some(sheets) => write!(out, "; --parts draws it over {sheets} sheets"),
            None => Ok(()),
        }
    }
}

/// Scales coarser than this are worth a larger sheet.
const FINE_ENOUGH: f64 = 50.0;

/// The part of a sheet that the plan may take.
pub(crate) fn plan_panel(sheet: &Sheet, has_errors: bool) -> Panel {
    let mut panel = sheet.plan;
    if has_errors && !sheet.is_bare {
        panel.high.y -= WARNING;
    }
    panel
}

/// A job's plan before it has a place.
pub(crate) struct Figure<'j> {
    analysis: &'j Analysis,
    job: &'j Job,
    system: System,
}

impl<'j> Figure<'j> {
    /// That of a job.
    pub(crate) fn of(analysis: &'j Analysis) -> Figure<'j> {
        let job = &analysis.job;
        Figure {
            analysis,
            job,
            system: job.heading.system(),
        }
    }

    /// The corners of what it takes on paper, the plan's origin at 0.
    pub(crate) fn corners(&self, scale: &Scale) -> (Point, Point) {
        let view = View {
            scale: 1000.0 / scale.ratio,
            origin: Point::ORIGIN,
        };
        let grounds = Ground::of_job(self.job, &view);
        let frame = Frame::of(&grounds);
        let strips = borders::building(&grounds);
        let flights = steps::outlines(self.analysis, &view);
        let reach = borders::reaches(&grounds, strips.iter().chain(&flights), &frame);
        let sides = dimensions::sides(&grounds, &frame);
        let (mut low, mut high) = dimensions::extents(&sides, &reach, &frame);
        for soakaway in &self.job.site.soakaways {
            let at = view.point(soakaway.value);
            let room = 12.0;
            low = Point::new(low.x.min(at.x - room), low.y.min(at.y - room));
            high = Point::new(high.x.max(at.x + room), high.y.max(at.y + room));
        }
        let flights = steps::corners(self.analysis, &view);
        for at in drains::corners(self.job, &view).into_iter().chain(flights) {
            let room = 14.0;
            low = Point::new(low.x.min(at.x - room), low.y.min(at.y - room));
            high = Point::new(high.x.max(at.x + room), high.y.max(at.y + room));
        }
        (low, high)
    }

    /// The view that puts it in the middle of a panel.
    pub(crate) fn view(&self, scale: &Scale, panel: &Panel) -> View {
        let (low, high) = self.corners(scale);
        let origin = Point::ORIGIN + (panel.low.midpoint(panel.high) - low.midpoint(high));
        View {
            scale: 1000.0 / scale.ratio,
            origin: if origin.is_finite() {
                origin
            } else {
                panel.low
            },
        }
    }

    fn needs(&self, scale: &Scale) -> (f64, f64) {
        let (low, high) = self.corners(scale);
        let size: Vector = high - low;
        (size.x, size.y)
    }

    fn fits(&self, scale: &Scale, panel: &Panel) -> bool {
        let (width, height) = self.needs(scale);
        width <= panel.width() && height <= panel.height()
    }

    /// The scale of the largest picture that fits.
    fn best(&self, panel: &Panel) -> Scale {
        let usual = Scale::usual(self.system);
        let last = usual.last().map_or(1.0, |scale| scale.ratio);
        usual
            .into_iter()
            .chain(beyond(self.system, last))
            .find(|scale| self.fits(scale, panel))
            .unwrap_or_else(|| round_scale(self.system, 1e12))
    }
}

/// Round scales past the usual ones.
fn beyond(system: System, last: f64) -> impl Iterator<Item = Scale> {
    let powers = (2..12).flat_map(|power| [1.0, 2.0, 5.0].map(|lead| lead * 10_f64.powi(power)));
    powers
        .map(move |count| round_scale(system, count))
        .filter(move |scale| scale.ratio > last)
}

fn round_scale(system: System, count: f64) -> Scale {
    match system {
        System::Metric => Scale {
            ratio: count,
            words: format!("1:{count:.0}"),
        },
        System::Imperial => Scale {
            ratio: count * 12.0,
            words: format!("1 in = {count:.0} ft"),
        },
    }
}

/// Picks what was left open.
///
/// # Errors
/// [`Misfit`] if the scale that was asked for is too large for the sheet.
pub(crate) fn fit(
    figure: &Figure<'_>,
    choice: &Choice,
    has_errors: bool,
) -> Result<Fitting, Box<Misfit>> {
    let smaller = match figure.system {
        System::Metric => Size::A4,
        System::Imperial => Size::Letter,
    };
    let sizes: Vec<Size> = match (choice.sheet, choice.room) {
        (Some(size), _) => vec![size],
        (None, Some(_)) => vec![smaller],
        (None, None) => [Some(smaller), smaller.larger()]
            .into_iter()
            .flatten()
            .collect(),
    };
    // Where the sheet is left open it may stand, if the plan is larger so.
    let ways: &[bool] = match choice.sheet.is_some() || choice.is_upright {
        true => &[choice.is_upright],
        false => &[false, true],
    };
    let sheets = sizes.iter().flat_map(|size| match choice.room {
        Some(room) => vec![Sheet::bare(room)],
        None => ways.iter().map(|way| Sheet::new(*size, *way)).collect(),
    });
    let mut found: Option<Fitting> = None;
    for sheet in sheets {
        let panel = plan_panel(&sheet, has_errors);
        let scale = match &choice.scale {
            Some(scale) if figure.fits(scale, &panel) => scale.clone(),
            Some(_) => continue,
            None => figure.best(&panel),
        };
        let is_fine = choice.scale.is_some() || scale.ratio <= FINE_ENOUGH;
        let is_better = |own: &Fitting| scale.ratio < own.scale.ratio;
        if found.as_ref().is_none_or(is_better) {
            found = Some(Fitting { scale, sheet });
        }
        if is_fine {
            break;
        }
    }
    found.ok_or_else(|| {
        misfit(
            figure,
            choice,
            sizes.last().copied().unwrap_or(smaller),
            has_errors,
        )
    })
}

fn misfit(figure: &Figure<'_>, choice: &Choice, size: Size, has_errors: bool) -> Box<Misfit> {
    let panel = |size: Size| plan_panel(&Sheet::new(size, choice.is_upright), has_errors);
    let own = panel(size);
    let scale = choice.scale.clone();
    let needs = scale
        .as_ref()
        .map_or((0.0, 0.0), |scale| figure.needs(scale));
    let larger = size.larger().map(|larger| {
        let there = panel(larger);
        let fits = scale
            .as_ref()
            .is_some_and(|scale| figure.fits(scale, &there));
        (larger.name(), (!fits).then(|| figure.best(&there).words))
    });
    Box::new(Misfit {
        scale: scale.map_or_else(String::new, |scale| scale.words),
        sheet: size.name(),
        needs,
        has: (own.width(), own.height()),
        fits: Some(figure.best(&own).words),
        larger,
        parts: None,
    })
}

/// The sheet that a plan is parted on: the one that is asked for, else the
/// larger one of its family.
pub(crate) fn parted_on(figure: &Figure<'_>, choice: &Choice) -> Sheet {
    let larger = match figure.system {
        System::Metric => Size::A3,
        System::Imperial => Size::Tabloid,
    };
    Sheet::new(choice.sheet.unwrap_or(larger), choice.is_upright)
}

/// The next larger sheet, where it takes a larger picture.
pub(crate) fn larger(
    figure: &Figure<'_>,
    choice: &Choice,
    fitting: &Fitting,
    has_errors: bool,
) -> Option<Fitting> {
    let sheet = Sheet::new(fitting.sheet.size.larger()?, fitting.sheet.is_upright);
    let panel = plan_panel(&sheet, has_errors);
    let scale = match &choice.scale {
        Some(scale) => scale.clone(),
        None => figure.best(&panel),
    };
    Some(Fitting { scale, sheet })
}
