//! A finding: which rule, where, what it says and what would put it right.

use std::fmt;
use std::ops::{Deref, DerefMut};
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

/// Something that a rule found in a spec: what it says, which all who keep
/// the finding share, and how much that matters in this job.
///
/// A copy costs little. Whoever changes what one says changes a copy of its
/// own.
#[derive(Debug, Clone)]
pub struct Finding {
    /// How much it matters; `None` until the rule's declaration has filled
    /// it in.
    pub severity: Option<Severity>,
    /// The acceptance that took it, if one did.
    pub accepted: Option<Arc<Acceptance>>,
    /// The findings that it was made of, where several said the same of one
    /// place: one a surface, each of which may be accepted by itself.
    pub shares: Box<[Arc<Finding>]>,
    said: Arc<Said>,
}

/// What a finding says, whoever weighs it. There may be hundreds of thousands:
/// what few of them have is kept apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Said {
    /// The rule's name.
    pub rule: &'static str,
    /// What is wrong, the figure found, the limit and whose it is, what to do.
    pub message: Box<str>,
    /// The cause.
    pub place: Place,
    /// What to do, in a sentence or two, where the message does not say.
    pub help: Option<Box<str>>,
    /// What it clashes with.
    pub related: Vec<Related>,
    /// Ways to put it right, the likeliest first.
    pub fixes: Vec<Fix>,
    /// The sections that it was computed from, besides the one it stands in:
    /// an acceptance in any of them may take it.
    pub computed_from: Vec<SectionRef>,
    measured: Option<Box<Measured>>,
}

/// The figure that was found, and the limit that it missed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Measured {
    /// The figure found, in the job's units.
    pub found: Option<String>,
    /// The same figure as a quantity, for an acceptance that holds as far as
    /// a figure.
    pub figure: Option<Quantity>,
    /// The limit that it missed, in the job's units.
    pub limit: Option<String>,
    /// Whose limit that is.
    pub limit_from: Option<LimitFrom>,
}

/// What a finding measures that measures nothing.
static NOTHING: Measured = Measured {
    found: None,
    figure: None,
    limit: None,
    limit_from: None,
};

/// Another place that matters to a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Related {
    /// Where.
    pub place: Place,
    /// What stands there: `the soil is stated here`.
    pub message: Arc<str>,
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

impl Deref for Finding {
    type Target = Said;

    fn deref(&self) -> &Said {
        &self.said
    }
}

impl DerefMut for Finding {
    fn deref_mut(&mut self) -> &mut Said {
        Arc::make_mut(&mut self.said)
    }
}

impl PartialEq for Finding {
    fn eq(&self, other: &Finding) -> bool {
        self.severity == other.severity
            && self.accepted == other.accepted
            && self.shares == other.shares
            && (Arc::ptr_eq(&self.said, &other.said) || self.said == other.said)
    }
}

impl Said {
    /// The figure found and the limit that it missed; neither where nothing
    /// was measured.
    pub fn measured(&self) -> &Measured {
        self.measured.as_deref().unwrap_or(&NOTHING)
    }

    /// The same, to be filled in.
    pub fn measured_mut(&mut self) -> &mut Measured {
        self.measured.get_or_insert_default()
    }
}

impl Finding {
    /// A finding with nothing but its rule, place and message.
    pub fn new(rule: &'static str, place: Place, message: impl Into<Box<str>>) -> Finding {
        Finding {
            severity: None,
            accepted: None,
            shares: Box::default(),
            said: Arc::new(Said {
                rule,
                message: message.into(),
                place,
                help: None,
                related: Vec::new(),
                fixes: Vec::new(),
                computed_from: Vec::new(),
                measured: None,
            }),
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
    pub fn help(mut self, help: impl Into<Box<str>>) -> Finding {
        self.help = Some(help.into());
        self
    }

    /// With another place that matters.
    #[must_use]
    pub fn related(mut self, place: Place, message: impl Into<Arc<str>>) -> Finding {
        let related = Related {
            place,
            message: message.into(),
        };
        add(&mut self.related, related);
        add(&mut self.computed_from, place.section);
        self
    }

    /// With a way to put it right.
    #[must_use]
    pub fn fix(mut self, fix: Fix) -> Finding {
        add(&mut self.fixes, fix);
        self
    }

    /// With the figure that was found, as shown and as a quantity.
    #[must_use]
    pub fn found(mut self, shown: impl Into<String>, figure: Option<Quantity>) -> Finding {
        let measured = self.measured_mut();
        measured.found = Some(shown.into());
        measured.figure = figure;
        self
    }
}

/// Adds one to a list that seldom holds more, and takes no room for more.
fn add<T>(list: &mut Vec<T>, one: T) {
    list.reserve_exact(1);
    list.push(one);
}

#[cfg(test)]
mod tests {
    use super::super::FileId;
    use super::*;
    use crate::syntax::SectionId;
    use crate::text::Span;

    fn finding() -> Finding {
        let section = SectionRef {
            file: FileId(0),
            section: SectionId(0),
        };
        let place = Place {
            section,
            span: Span::at(0),
        };
        Finding::new("lip", place, "too high").fix(Fix::safe("Lower it", place, ""))
    }

    #[test]
    fn a_finding_takes_little_room() {
        // A text may have one in each of its lines, and each is held by those
        // who read, weigh and show it.
        assert!(size_of::<Finding>() <= 40, "{}", size_of::<Finding>());
        assert!(size_of::<Said>() <= 144, "{}", size_of::<Said>());
        let finding = finding();
        assert_eq!(finding.fixes.capacity(), 1);
    }

    #[test]
    fn copies_share_what_is_said_until_one_is_changed() {
        let one = finding();
        let mut other = one.clone().severity(Severity::Error);
        assert!(Arc::ptr_eq(&one.said, &other.said) && one != other);
        other.message = "too low".into();
        assert_eq!((&*one.message, &*other.message), ("too high", "too low"));
    }
}
