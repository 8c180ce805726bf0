//! The plan as it is shown beside its text: the best fit, as SVG, with the
//! lines that its marks come from.

use std::collections::BTreeMap;

use super::plan::{Choice, plan};
use super::svg::{Anchor, Dress, svg};
use crate::analysis::Analysis;

/// A plan to be shown.
#[derive(Debug, Clone)]
pub struct Picture {
    /// The picture.
    pub svg: String,
    /// The anchors in it, each with its line in the file, from 0.
    pub anchors: BTreeMap<Anchor, u32>,
}

impl Picture {
    /// The plan of a job. With `has_type` the type that it is set in comes
    /// with it.
    ///
    /// # Errors
    /// Why there is none, in words.
    pub fn of(analysis: &Analysis, has_type: bool) -> Result<Picture, String> {
        let path = &analysis.path;
        let file = path.rsplit('/').next().unwrap_or(path);
        let drawing =
            plan(analysis, file, &Choice::default()).map_err(|misfit| misfit.to_string())?;
        let mut anchors = BTreeMap::new();
        for place in drawing.items.iter().filter_map(|item| item.link) {
            let anchor = analysis.ordinal(place).map(Anchor::from);
            if let Some((anchor, (0, line))) = anchor.zip(analysis.line(place)) {
                anchors.insert(anchor, line);
            }
        }
        let dress = Dress {
            has_type,
            anchor: &|place| analysis.ordinal(place).map(Anchor::from),
        };
        Ok(Picture {
            svg: svg(&drawing, &dress),
            anchors,
        })
    }
}
