//! What applies where a spec lies: the region whose limits hold, and the
//! lines of the standards that set any.

use super::{shown_path, spot};
use crate::analysis::{Analysis, folder};
use crate::findings::Place;
use crate::model::{FileKind, Region};
use crate::units::System;

/// An analysis, asked for what applies to it, and the folder from which paths
/// are shown. What is no spec stands for any that may lie in its folder.
pub(super) struct Applied<'a> {
    /// The analysis.
    pub analysis: &'a Analysis,
    /// The folder.
    pub folder: &'a str,
}

impl Applied<'_> {
    fn is_spec(&self) -> bool {
        self.analysis.job.kind == FileKind::Spec
    }

    /// The region whose limits hold; `None` where any may.
    pub(crate) fn region(&self) -> Option<Region> {
        let heading = &self.analysis.job.heading;
        self.is_spec().then(|| heading.region())
    }

    /// The units in which limits are shown; `None` where any may be.
    pub(crate) fn system(&self) -> Option<System> {
        let heading = &self.analysis.job.heading;
        self.is_spec().then(|| heading.system())
    }

    /// Where it is, as the end of a heading: `IN court.patio, REGION uk`.
    pub(crate) fn place(&self) -> String {
        let path = &self.analysis.path;
        let heading = &self.analysis.job.heading;
        match self.region() {
            Some(region) => {
                let unsaid = match heading.region {
                    Some(_) => "",
                    None => " (IT NAMES NONE)",
                };
                let path = shown_path(path, self.folder);
                format!("IN {path}, REGION {}{unsaid}", region.word())
            }
            None => {
                let above = folder(path);
                match shown_path(above, self.folder).as_str() {
                    "" => "IN THIS FOLDER".to_owned(),
                    shown => format!("IN THE FOLDER {shown}"),
                }
            }
        }
    }

    /// A line of one of the files: `line 3 of standard.patio`.
    pub(crate) fn line(&self, place: Place) -> String {
        spot(self.analysis, place, self.folder).map_or_else(String::new, |at| {
            format!("line {} of {}", at.start.0, at.path)
        })
    }

    /// The number of a line in its file.
    pub(crate) fn line_number(&self, place: Place) -> u32 {
        spot(self.analysis, place, self.folder).map_or(0, |at| at.start.0)
    }

    /// What stands at a place.
    pub(crate) fn text(&self, place: Place) -> String {
        self.analysis.text(place).to_owned()
    }
}
