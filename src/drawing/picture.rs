//! The plan as it is shown beside its text: the best fit, as SVG, with the
//! lines that its marks come from; and bare, what goes with it.

use std::collections::BTreeMap;

use super::display_list::Drawing;
use super::plan::{Choice, plan};
use super::sheets::figures;
use super::svg::{Anchor, Dress, svg};
use crate::analysis::Analysis;

/// How wide and how high what goes with the plan may be, in millimetres.
const ROOM: (f64, f64) = (150.0, 150.0);

/// A plan to be shown.
#[derive(Debug, Clone)]
pub struct Picture {
    /// The picture.
    pub svg: String,
    /// What goes with it: sections, steps, drains along their length.
    pub sections: Vec<Section>,
    /// The anchors in them, each with its line in the file, from 0.
    pub anchors: BTreeMap<Anchor, u32>,
}

/// A picture that goes with the plan.
#[derive(Debug, Clone)]
pub struct Section {
    /// It.
    pub svg: String,
    /// What is to be said of it.
    pub notes: Vec<String>,
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
        let sections = figures(analysis, &[ROOM]);
        let mut anchors = BTreeMap::new();
        let items = std::iter::once(&drawing).chain(&sections);
        for place in items
            .flat_map(|own| &own.items)
            .filter_map(|item| item.link)
        {
            let anchor = analysis.ordinal(place).map(Anchor::from);
            if let Some((anchor, (0, line))) = anchor.zip(analysis.line(place)) {
                anchors.insert(anchor, line);
            }
        }
        let dress = Dress {
            has_type,
            anchor: &|place| analysis.ordinal(place).map(Anchor::from),
        };
        let section = |own: Drawing| Section {
            svg: svg(&own, &dress),
            notes: own.notes,
        };
        Ok(Picture {
            svg: svg(&drawing, &dress),
            sections: sections.into_iter().map(section).collect(),
            anchors,
        })
    }
}
