//! A finding: which rule, where, what it says and what would put it right.

use std::fmt;
use std::sync::Arc;

use super::{Fix, Place, SectionRef};
use crate::sources::Region;
use crate::units::Quantity;

/// How much a finding matters, the least first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Worth a thought.
    Advisory,
    /// Against accepted practice.
    Warning,
    /// It will fail, hurt someone, or the text means nothing.
    Error,
}

impl Severity {
    /// The word for it, as it is shown and as a standard writes it.
    pub const fn word(self) -> &'static str {
        match self {
            Severity::Advisory => "advisory",
            Severity::Warning => "warning",
            Severity::Error => "error",
        }
    }
}

impl Severity {
    /// The word for several of them.
    pub const fn words(self) -> &'static str {
        match self {
            Severity::Advisory => "advisories",
            Severity::Warning => "warnings",
            Severity::Error => "errors",
        }
    }
}

impl fmt::Display for Severity {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.word())
    }
}

/// How the names of the rules begin that are cautions.
const CAUTION: &str = "care-";

/// Something that a rule found in a spec.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The rule's name.
    pub rule: &'static str,
    /// How much it matters; `None` until the rule's declaration has filled
    /// it in.
    pub severity: Option<Severity>,
    /// What is wrong, the figure found, the limit and whose it is, what to do.
    pub message: String,
    /// The cause.
    pub place: Place,
    /// The figure found, in the job's units.
    pub found: Option<String>,
    /// The same figure as a quantity, for an acceptance that holds as far as
    /// a figure.
    pub figure: Option<Quantity>,
    /// The limit that it missed, in the job's units.
    pub limit: Option<String>,
    /// Whose limit that is.
    pub limit_from: Option<LimitFrom>,
    /// What to do, in a sentence or two, where the message does not say.
    pub help: Option<String>,
    /// What it clashes with.
    pub related: Vec<Related>,
    /// Ways to put it right, the likeliest first.
    pub fixes: Vec<Fix>,
    /// The sections that it was computed from, besides the one it stands in:
    /// an acceptance in any of them may take it.
    pub computed_from: Vec<SectionRef>,
    /// The acceptance that took it, if one did.
    pub accepted: Option<Acceptance>,
    /// The findings that it was made of, where several said the same of one
    /// place: one a surface, each of which may be accepted by itself.
    pub shares: Vec<Arc<Finding>>,
}

/// Another place that matters to a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Related {
    /// Where.
    pub place: Place,
    /// What stands there: `the soil is stated here`.
    pub message: String,
}

/// Where a limit comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LimitFrom {
    /// What it is for and where: `concrete pavers, in the UK`.
    pub what: String,
    /// The source of the limit, as it is shown; empty for a practice's own.
    pub source: String,
    /// Set where the limit stands in for want of one of the region's own.
    pub borrowed: Option<Borrowed>,
    /// The line of a practice's standard that set it, if one did.
    pub line: Option<Place>,
}

/// A limit that a region borrows: none of its own is known, so that of
/// another stands in, and counts for less.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Borrowed {
    /// The region whose figure it is.
    pub lender: Region,
    /// The region of the job.
    pub borrower: Region,
    /// The most that a finding against it may matter, unless a practice
    /// raises it.
    pub at_most: Severity,
}

impl fmt::Display for Borrowed {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            out,
            "{} figure; no {} one is known",
            self.lender.people(),
            self.borrower.people()
        )
    }
}

/// That the designer has looked at a finding and accepts it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Acceptance {
    /// Why.
    pub reason: String,
    /// By whom.
    pub by: Option<String>,
    /// Until when, as `2027-03-01`.
    pub until: Option<String>,
    /// The `accept` entry.
    pub place: Place,
}

impl Finding {
    /// A finding with nothing but its rule, place and message.
    pub fn new(rule: &'static str, place: Place, message: impl Into<String>) -> Finding {
        Finding {
            rule,
            severity: None,
            message: message.into(),
            place,
            found: None,
            figure: None,
            limit: None,
            limit_from: None,
            help: None,
            related: Vec::new(),
            fixes: Vec::new(),
            computed_from: Vec::new(),
            accepted: None,
            shares: Vec::new(),
        }
    }

    /// Whether it is a caution to whoever builds the job, and no fault of it.
    /// Cautions are told apart from findings, and never counted.
    pub fn is_caution(&self) -> bool {
        self.rule.starts_with(CAUTION)
    }

    /// With a severity other than its rule's usual one.
    #[must_use]
    pub fn severity(mut self, severity: Severity) -> Finding {
        self.severity = Some(severity);
        self
    }

    /// With what to do.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Finding {
        self.help = Some(help.into());
        self
    }

    /// With another place that matters.
    #[must_use]
    pub fn related(mut self, place: Place, message: impl Into<String>) -> Finding {
        self.related.push(Related {
            place,
            message: message.into(),
        });
        self.computed_from.push(place.section);
        self
    }

    /// With a way to put it right.
    #[must_use]
    pub fn fix(mut self, fix: Fix) -> Finding {
        self.fixes.push(fix);
        self
    }

    /// With the figure that was found, as shown and as a quantity.
    #[must_use]
    pub fn found(mut self, shown: impl Into<String>, figure: Option<Quantity>) -> Finding {
        self.found = Some(shown.into());
        self.figure = figure;
        self
    }
}
