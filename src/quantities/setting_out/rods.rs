//! How far below the string line the finish, each layer and the dig lie. The
//! strings run as the finish falls, so that one rod does for all pegs.

use super::super::dig::dug_through;
use super::super::measures::Length;
use super::super::term::Term;
use super::super::trace::Trace;
use crate::model::{Job, Surface};
use crate::vocabulary::Role;

/// What a mark of the rod is set to.
#[derive(Debug, Clone, PartialEq)]
pub enum RodTop {
    /// The finished surface.
    Finish,
    /// The top of a layer, of this material.
    Layer(Role, String),
    /// The bottom of the dig.
    Dig,
}

impl RodTop {
    /// What it is called on a sheet: `finish`, `top of base`, `dig`.
    pub fn words(&self) -> String {
        match self {
            RodTop::Finish => "finish".to_owned(),
            RodTop::Layer(role, _) => format!("top of {}", role.word()),
            RodTop::Dig => "dig".to_owned(),
        }
    }
}

/// A mark of the rod.
#[derive(Debug, Clone, PartialEq)]
pub struct RodMark {
    /// What it is set to.
    pub top: RodTop,
    /// How far below the string that lies, in metres.
    pub below_m: Option<f64>,
}

/// The rod of a surface, from the top down. The finish alone where nothing is
/// built.
pub(super) fn rod(job: &Job, surface: &Surface, trace: &Trace) -> Vec<RodMark> {
    let setting_out = job.setting_out.as_ref();
    let is_unread = setting_out.is_some_and(|own| own.is_unread("string"));
    let stated = setting_out.and_then(|own| own.string.as_ref());
    let mut below: Option<Term<'_, Length>> = match stated {
        Some(stated) => {
            let height = Length(stated.value.si());
            Some(trace.stated("string above the finish", height, stated.place))
        }
        None if is_unread => None,
        None => Some(trace.term("string at the finish", Length(0.0))),
    };
    let mut marks = vec![RodMark {
        top: RodTop::Finish,
        below_m: below.map(|below| below.value.0),
    }];
    let build = surface.build.as_ref().map(|build| &build.value);
    // Without the thickness of every layer it is not known how far down the dig goes.
    let layers = build.map_or(&[][..], |build| match build.depth_m() {
        Some(_) => dug_through(build).unwrap_or_default(),
        None => &build.layers,
    });
    let thick = layers.iter().filter(|layer| !layer.role.value.is_sheet());
    let tops: Vec<RodTop> = thick
        .clone()
        .skip(1)
        .map(|layer| RodTop::Layer(layer.role.value, layer.of.value.name().to_owned()))
        .chain([RodTop::Dig])
        .collect();
    for (layer, top) in thick.zip(tops) {
        let name = format!("{} of {}", layer.role.value.word(), layer.of.value.name());
        let thickness = layer.thickness.as_ref();
        let thickness =
            thickness.map(|stated| trace.stated(name, Length(stated.value.si()), stated.place));
        let words = format!("{} below the string", top.words());
        below = below
            .zip(thickness)
            .map(|(below, thickness)| trace.gives(words, below + thickness));
        marks.push(RodMark {
            top,
            below_m: below.map(|below| below.value.0),
        });
    }
    marks
}
