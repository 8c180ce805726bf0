//! `slab-panel`: panels of a slab too long between its joints.

use super::extent::sides_m;
use super::movement_missing::movement_row;
use crate::findings::{Place, Severity};
use crate::model::{Build, Layer, Region, Surface};
use crate::rules::documents::{SLAB_PANELS, bia_14a};
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value};
use crate::units::{Dimension, Number, Quantity};
use crate::vocabulary::Role;

const SPACING: Value = Value {
    written: &["3.7 m", "12 ft"],
    source: bia_14a("control joints in a concrete base, 12 ft apart at most"),
};
const THICKNESSES: Value = Value {
    written: &["36"],
    source: SLAB_PANELS,
};
const RATIO: Value = Value {
    written: &["1.5"],
    source: SLAB_PANELS,
};

/// So many times as long as a plain panel one with mesh may be where no figure
/// of the region is known. Common practice, no source.
const MESHED: f64 = 1.5;

/// Panels of a slab too long between its joints.
pub(crate) static SLAB_PANEL: Rule = Rule {
    name: "slab-panel",
    family: Family::Joints,
    severity: Severity::Warning,
    looks_at: "The panels of a concrete slab between its joints, or else the movement joints: their length, and that over the thickness and over the width. Under mortared paving movement-missing and movement-far judge the length. Where the figure is borrowed, mesh in the slab lets panels be half as long again.",
    reason: "Concrete shrinks as it dries; a long or narrow panel cracks where no joint was made.",
    remedy: "Joint the slab into panels that are nearly square.",
    limits: &[
        Limit {
            row: "spacing",
            of: "length of a panel",
            bound: Bound::Most,
            general: SPACING,
            // No figure of theirs is known.
            regions: &[(Region::Uk, SPACING), (Region::Au, SPACING)],
        },
        Limit {
            row: "thicknesses",
            of: "length of a panel over its thickness",
            bound: Bound::Most,
            general: THICKNESSES,
            // No figure of theirs is known.
            regions: &[(Region::Uk, THICKNESSES), (Region::Au, THICKNESSES)],
        },
        Limit {
            row: "ratio",
            of: "length of a panel over its width",
            bound: Bound::Most,
            general: RATIO,
            // No figure of theirs is known.
            regions: &[(Region::Uk, RATIO), (Region::Au, RATIO)],
        },
    ],
    sources: &[bia_14a("control joints in a concrete base"), SLAB_PANELS],
    breaks: "surface court
  «build        plain-slab»
  isolation-joint 12 mm

build plain-slab
  slab         slab-mix, 125 mm
  base         crushed-stone, 100 mm compacted, beyond 150 mm
",
    keeps: "surface court
  build        plain-slab
  isolation-joint 12 mm
  movement-joints every 3 m

build plain-slab
  slab         slab-mix, 125 mm
  base         crushed-stone, 100 mm compacted, beyond 150 mm
",
    mended: None,
    check: Check::Built(check),
};

/// The length and width of a surface's longest panel in metres, and the line
/// that makes it so long.
struct Panel {
    length: f64,
    width: f64,
    place: Place,
}

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let poured = |layer: &&Layer| layer.existing.is_none();
    let Some(slab) = build.layer(Role::Slab).filter(poured) else {
        return;
    };
    let Some(panel) = panel(surface, slab) else {
        return;
    };
    let is_paved = movement_row(build).is_some() && slab.joints.is_none();
    let stated = surface.movement_joints.is_some();
    let may_be_jointed = slab.joints.is_none() && slab.may_say("joints");
    if (is_paved && !stated) || may_be_jointed || context.is_misread(surface.section) {
        return;
    }
    let limit = |row: &str| context.limit(&SLAB_PANEL, row);
    let is_meshed = build.layer(Role::Mesh).is_some();
    let misses = |limit: &InForce, figure: f64| figure.is_finite() && !limit.allows_si(figure);
    // How long a panel is as far as mesh in it does not make up for that.
    let shortened = |limit: &InForce, figure: f64| match limit.borrowed.is_some() && is_meshed {
        true => figure / MESHED,
        false => figure,
    };
    let thicknesses = panel.length / slab.thickness_m();
    let ratio = panel.length / panel.width;
    if let Some(limit) =
        limit("spacing").filter(|limit| !is_paved && misses(limit, shortened(limit, panel.length)))
    {
        let shown = limit.beside_si(panel.length, context.system());
        let message = format!(
            "slab panels of {shown} are too long; {} is the most: add joints",
            limit.shown(context.system()),
        );
        let figure = Quantity::near(panel.length, Dimension::LENGTH);
        found.add(
            SLAB_PANEL
                .finding(panel.place, message)
                .found(shown, figure)
                .against(&limit, context),
        );
    } else if let Some(limit) = limit("thicknesses")
        .filter(|limit| !is_paved && misses(limit, shortened(limit, thicknesses)))
    {
        let shown = limit.beside_ratio(thicknesses, 0);
        let message = format!(
            "slab panels of {} are {shown} times as long as the slab is thick; {} is the most: add joints or thicken it",
            context.show_length(panel.length),
            limit.shown(context.system()),
        );
        found.add(
            SLAB_PANEL
                .finding(panel.place, message)
                .found(shown, Number::near(thicknesses).map(Quantity::plain))
                .against(&limit, context)
                .related(slab.place, "the slab"),
        );
    } else if let Some(limit) =
        limit("ratio").filter(|limit| misses(limit, ratio) && panel.length > SMALL)
    {
        let shown = limit.beside_ratio(ratio, 1);
        let message = format!(
            "slab panels of {} by {} will crack across: {shown} times as long as wide, and {} is the most. Make them nearly square",
            context.show_length(panel.length),
            context.show_length(panel.width),
            limit.shown(context.system()),
        );
        found.add(
            SLAB_PANEL
                .finding(panel.place, message)
                .found(shown, Number::near(ratio).map(Quantity::plain))
                .against(&limit, context),
        );
    }
}

/// A panel no longer, in metres, does not crack for its shape.
const SMALL: f64 = 2.4;

fn panel(surface: &Surface, slab: &Layer) -> Option<Panel> {
    let (length, width) = sides_m(surface.outline.as_ref()?)?;
    match slab.joints.as_ref().or(surface.movement_joints.as_ref()) {
        Some(spacing) => {
            let every = spacing.value.si();
            let (length, width) = (length.min(every), width.min(every));
            (width > 0.0).then_some(Panel {
                length,
                width,
                place: spacing.place,
            })
        }
        None => Some(Panel {
            length,
            width,
            place: surface.build.as_ref()?.place,
        }),
    }
}
