//! `cut-sliver`: a lay-out that leaves a sliver.

use crate::findings::Severity;
use crate::model::Surface;
use crate::rules::documents::icpi_tolerances;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Use;

const SMALLEST: Source =
    icpi_tolerances("smallest cut piece 3/8 in, a third of a unit where vehicles go");

/// A lay-out that leaves a sliver.
pub(crate) static CUT_SLIVER: Rule = Rule {
    name: "cut-sliver",
    family: Family::Units,
    severity: Severity::Warning,
    looks_at: "The smallest piece of a lay-out: its lesser side, and on a drive or street its share of a unit. Only where `laid` says where it starts.",
    reason: "A sliver breaks in the cutting or works loose, and under wheels a small piece tips.",
    remedy: "Start the lay-out elsewhere, turn the pattern, or put a border in.",
    limits: &[
        Limit {
            row: "plain",
            of: "the lesser side of the smallest piece",
            bound: Bound::Least,
            general: Value {
                written: &["10 mm", "3/8 in"],
                source: SMALLEST,
            },
            regions: &[],
        },
        Limit {
            row: "vehicles",
            of: "the smallest piece, as a share of a unit, where vehicles go",
            bound: Bound::Least,
            general: Value {
                written: &["33 %"],
                source: SMALLEST,
            },
            regions: &[],
        },
    ],
    sources: &[SMALLEST],
    breaks: "surface court
  laid         stack-bond, units 100 mm by 200 mm, along north, from «(0.005 m, 0 m)»
",
    keeps: "surface court
  laid         stack-bond, units 100 mm by 200 mm, along north, from (0 m, 0 m)
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let figures = context.figures.surfaces.get(surface.index);
    let layout = figures.and_then(|figures| figures.layout.as_ref());
    let Some((layout, least)) = layout.and_then(|layout| Some((layout, layout.least?))) else {
        return;
    };
    let from = surface.laid.as_ref().and_then(|laid| laid.from.as_ref());
    let place = from.map_or(layout.place, |from| from.place);
    let is_driven = matches!(surface.used_for, Use::Drive | Use::Street);
    let narrow = context
        .limit(&CUT_SLIVER, "plain")
        .filter(|limit| !limit.allows_si(least.least_m()));
    if let Some(limit) = narrow {
        let shown = limit.beside_si(least.least_m(), context.system());
        let message = format!(
            "the smallest piece is {shown} wide and will break: {} is the least. Start the lay-out elsewhere",
            limit.shown(context.system()),
        );
        found.add(
            CUT_SLIVER
                .finding(place, message)
                .found(shown, Quantity::near(least.least_m(), Dimension::LENGTH))
                .against(&limit, context),
        );
        return;
    }
    let small = context
        .limit(&CUT_SLIVER, "vehicles")
        .filter(|limit| is_driven && !limit.allows_si(least.share));
    if let Some(limit) = small {
        let shown = limit.beside_si(least.share, context.system());
        let message = format!(
            "the smallest piece is {shown} of a unit and will tip under wheels: {} is the least. Start the lay-out elsewhere",
            limit.shown(context.system()),
        );
        found.add(
            CUT_SLIVER
                .finding(place, message)
                .found(shown, Quantity::near(least.share, Dimension::NONE))
                .against(&limit, context),
        );
    }
}
