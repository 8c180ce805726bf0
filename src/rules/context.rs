//! What a check may look at.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, OnceLock};

use rustc_hash::FxHashSet;

use super::limits::{InForce, Limits};
use super::{Family, Rule, families};
use crate::findings::{FileId, Finding, LimitFrom, Place, SectionRef, Severity};
use crate::model::{Job, Region, Surface};
use crate::quantities::{Figures, WaterFigures, catchments};
use crate::units::{Day, Quantity, System};
use crate::vocabulary::Term;

/// A job, its figures, and the limits in force.
pub struct Context<'a> {
    /// The job.
    pub job: &'a Job,
    /// Its figures.
    pub figures: &'a Figures,
    /// The limits in force.
    pub limits: &'a Limits,
    /// The day on which it is looked at, if it is known. Only a check of the
    /// whole job may ask for it: what is found of its parts is kept.
    pub today: Option<Day>,
    has_looked_far: AtomicBool,
    water: Arc<OnceLock<Arc<WaterFigures>>>,
    misread: Arc<OnceLock<FxHashSet<SectionRef>>>,
}

impl<'a> Context<'a> {
    /// A job, its figures, and the limits in force.
    pub fn new(job: &'a Job, figures: &'a Figures, limits: &'a Limits) -> Context<'a> {
        Context {
            job,
            figures,
            limits,
            today: None,
            has_looked_far: AtomicBool::new(false),
            water: Arc::default(),
            misread: Arc::default(),
        }
    }

    /// The same, looked at on a day written as `2027-04-12`.
    #[must_use]
    pub fn on(mut self, today: &str) -> Context<'a> {
        self.today = Day::read(today);
        self
    }

    /// The same for one surface, of which it is to be known whether its
    /// checks look past it and those beside it.
    pub(super) fn of_one(&self) -> Context<'a> {
        Context {
            water: Arc::clone(&self.water),
            misread: Arc::clone(&self.misread),
            ..Context::new(self.job, self.figures, self.limits)
        }
    }

    /// Where the water of the job goes, whether or not it states a storm:
    /// worked out once for all checks. It may run on to surfaces far off.
    pub fn water(&self) -> Arc<WaterFigures> {
        self.all_surfaces();
        let known = self.water.get_or_init(|| match &self.figures.water {
            Some(known) => Arc::clone(known),
            None => Arc::new(catchments(self.job)),
        });
        Arc::clone(known)
    }

    /// Every surface of the job, for a check of one that must look past those
    /// beside it.
    pub fn all_surfaces(&self) -> &'a [Arc<Surface>] {
        self.has_looked_far.store(true, Ordering::Relaxed);
        &self.job.surfaces
    }

    /// A surface beside the one that is checked, by its index.
    pub fn beside(&self, index: usize) -> Option<&'a Surface> {
        self.job.surfaces.get(index).map(Arc::as_ref)
    }

    /// Whether a check has looked at every surface.
    pub(super) fn has_looked_far(&self) -> bool {
        self.has_looked_far.load(Ordering::Relaxed)
    }

    /// How figures are shown.
    pub fn system(&self) -> System {
        self.job.heading.system()
    }

    /// Whose limits apply.
    pub fn region(&self) -> Region {
        self.job.heading.region()
    }

    /// Whether a region is stated, or may be, that could not be read.
    fn is_region_unread(&self) -> bool {
        let heading = &self.job.heading;
        heading.is_region_unread || heading.place.is_none() && self.job.has_lost_heading
    }

    /// The limit of a rule's row that is in force here. None where the limit
    /// hangs on the region and which that is could not be read: what the
    /// general limit finds may be nothing in the region that is meant.
    pub fn limit(&self, rule: &'static Rule, row: &str) -> Option<InForce> {
        let hangs_on_region = || {
            let mut limits = rule.limits.iter().filter(|limit| limit.row == row);
            limits.any(|limit| !limit.regions.is_empty())
        };
        if self.is_region_unread() && hangs_on_region() {
            return None;
        }
        self.limits.in_force(rule, row, self.region())
    }

    /// Whether a rule that usually matters so much still does in the standards
    /// in force: only beside one that does may another fall silent.
    pub fn is_in_force(&self, rule: &Rule, usual: Severity) -> bool {
        self.limits.weigh(rule.name, usual) >= Some(usual)
    }

    /// Whether the reading found an error in the text of a section, so that
    /// what seems to be missing there may only be misread.
    pub fn is_misread(&self, section: SectionRef) -> bool {
        self.misread().contains(&section)
    }

    /// Whether it found one in any section.
    pub fn is_any_misread(&self) -> bool {
        !self.misread().is_empty()
    }

    fn misread(&self) -> &FxHashSet<SectionRef> {
        let is_error = |finding: &&Finding| {
            let rule = families::find(finding.rule);
            let severity = families::severity_of(finding);
            rule.is_none_or(|rule| rule.family == Family::Text)
                && severity.unwrap_or(Severity::Error) == Severity::Error
        };
        self.misread.get_or_init(|| {
            let errors = self.job.findings.iter().filter(is_error);
            errors.map(|error| error.place.section).collect()
        })
    }

    /// The same of a section that a job has one of, by its place: the site, the
    /// heading. One that is not there may stand under a heading that could not
    /// be made out.
    pub fn is_misread_at(&self, place: Option<Place>) -> bool {
        place.map_or(self.job.has_lost_heading, |place| {
            self.is_misread(place.section)
        })
    }

    /// Where to report what is computed from a surface's build: at the place
    /// itself if it stands in the checked file, else at the surface's `build`
    /// entry.
    pub fn at(&self, surface: &Surface, place: Place) -> Place {
        match &surface.build {
            Some(build) if place.section.file != FileId::default() => build.place,
            _ => place,
        }
    }

    /// A word of the trade, as people say it where the job is.
    pub fn word(&self, term: Term) -> &'static str {
        term.word(self.region())
    }

    /// A quantity as the job shows it.
    pub fn show(&self, quantity: &Quantity) -> String {
        crate::units::show::quantity(quantity, self.system())
    }

    /// A length in metres as the job shows it.
    pub fn show_length(&self, metres: f64) -> String {
        crate::units::show::length(metres, self.system())
    }
}

impl Finding {
    /// With the limit that was missed and whose it is.
    #[must_use]
    pub fn against(mut self, limit: &InForce, context: &Context<'_>) -> Finding {
        let measured = self.measured_mut();
        measured.limit = Some(limit.shown(context.system()));
        measured.limit_from = Some(LimitFrom {
            what: limit.whose.clone(),
            // A practice's limit is known by its line.
            source: match limit.line {
                Some(_) => String::new(),
                None => limit.source.cited(),
            },
            borrowed: limit.borrowed,
            line: limit.line,
        });
        self
    }
}
