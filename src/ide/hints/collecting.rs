//! Gathering hints: only for the lines that are asked for, so that a view of
//! a long spec costs no more than a short one.

use crate::analysis::Analysis;
use crate::findings::Place;
use crate::quantities::FigureRef;
use crate::text::Span;
use crate::units::System;

macro_rules! kinds {
    ($($kind:ident $setting:literal $doc:literal,)+) => {
        /// What a hint tells of; each kind can be switched off.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum HintKind { $(#[doc = $doc] $kind,)+ }

        impl HintKind {
            /// Every kind.
            pub const ALL: &'static [HintKind] = &[$(HintKind::$kind,)+];

            /// The word for it in the settings of an editor.
            pub const fn setting(self) -> &'static str {
                match self { $(HintKind::$kind => $setting,)+ }
            }

            /// What it tells, in a sentence.
            pub const fn help(self) -> &'static str {
                match self { $(HintKind::$kind => $doc,)+ }
            }
        }
    };
}

kinds! {
    Areas "areas" "Area and perimeter of a shape, length and direction of a closing edge, risers and run of steps; lengths that set the job out.",
    Layers "layers" "Mass, volume or area of a layer over all surfaces that have it, and of what steps are built of.",
    Mixes "mixes" "What a mix takes over the whole job.",
    Falls "falls" "A fall in per cent, and the drop that it makes; how far a measured point is off.",
    Lets "lets" "The value of a let.",
    Orders "orders" "What is ordered of a material, and what it costs.",
    Days "days" "The days on which the work of a line is done.",
}

/// Which figure a hint shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HintOf {
    /// One with a working.
    Figure(FigureRef),
    /// A layer over all surfaces that have it, by its place.
    Layer(Place),
    /// A let, by its place.
    Let(Place),
    /// One that says all by itself.
    Itself,
}

/// A figure to be shown at the end of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hint {
    /// The end of the line, in bytes of the checked file.
    pub offset: u32,
    /// What it tells of.
    pub kind: HintKind,
    /// The figure, in the job's units.
    pub label: String,
    /// Which figure it is.
    pub of: HintOf,
}

/// A label longer than this does not stay whole beside a line in half a window.
const LONG: usize = 40;

/// What parts the figures of a label.
const PARTING: &str = " · ";

impl Hint {
    /// The label as it is drawn where the whole of it can be asked for: as
    /// many of its figures as have room, the first in any case.
    pub fn short(&self) -> String {
        let is_long = |label: &str| label.chars().count() > LONG;
        let mut parts = self.label.split(PARTING);
        let mut short = parts.next().unwrap_or_default().to_owned();
        if !is_long(&self.label) {
            return self.label.clone();
        }
        for part in parts {
            let longer = format!("{short}{PARTING}{part}");
            if is_long(&longer) {
                return short + PARTING + "…";
            }
            short = longer;
        }
        short
    }
}

/// The hints so far.
pub(super) struct Collecting<'a> {
    /// The spec.
    pub analysis: &'a Analysis,
    /// How its figures are shown.
    pub system: System,
    wanted: Span,
    hints: Vec<Hint>,
}

impl<'a> Collecting<'a> {
    /// None yet, for the lines that a stretch touches.
    pub(crate) fn new(analysis: &'a Analysis, wanted: Span) -> Collecting<'a> {
        Collecting {
            analysis,
            system: analysis.job.heading.system(),
            wanted,
            hints: Vec::new(),
        }
    }

    /// Adds a hint at the end of the line on which a place ends, if that line
    /// is asked for; only then is the label made.
    pub(crate) fn add(
        &mut self,
        kind: HintKind,
        of: HintOf,
        place: Place,
        label: impl FnOnce() -> Option<String>,
    ) {
        let Some(offset) = self.line_end(place) else {
            return;
        };
        if let Some(label) = label() {
            self.hints.push(Hint {
                offset,
                kind,
                label,
                of,
            });
        }
    }

    fn line_end(&self, place: Place) -> Option<u32> {
        let (file, span) = self.analysis.span(place)?;
        let lines = &self.analysis.files.first().filter(|_| file == 0)?.lines;
        // An entry's place may take in the break that ends it.
        let last = span.end.saturating_sub(1).max(span.start);
        let line = lines.line_span(lines.line_of(last));
        (line.start <= self.wanted.end && self.wanted.start <= line.end).then_some(line.end)
    }

    /// The hints from the top down.
    pub(crate) fn finish(mut self) -> Vec<Hint> {
        self.hints.sort_by_key(|hint| hint.offset);
        self.hints
    }
}
