//! `roots-near`: a dig among the roots of a tree.

use crate::findings::Severity;
use crate::model::Surface;
use crate::rules::documents::BS_5837;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::units::{Dimension, Quantity};

/// A dig among the roots of a tree.
pub(crate) static ROOTS_NEAR: Rule = Rule {
    name: "roots-near",
    family: Family::Ground,
    severity: Severity::Warning,
    looks_at: "How far each tree of the site stands from what is dug: its roots reach a dozen widths of its trunk.",
    reason: "A tree that loses its roots may die or blow over, and roots left under paving lift it.",
    remedy: "Keep off the roots, or dig by hand and pave on top of them without cutting: ask a tree surgeon. The tree may be protected.",
    limits: &[Limit {
        row: "plain",
        of: "the reach of roots in widths of the trunk",
        bound: Bound::Least,
        general: Value {
            written: &["12"],
            source: BS_5837,
        },
        regions: &[],
    }],
    sources: &[BS_5837],
    breaks: "\
site
  tree         «400 mm at (3 m, -3 m)»
",
    keeps: "\
site
  tree         400 mm at (3 m, -5 m)
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let (Some(_), Some(limit)) = (
        surface.outline.as_ref(),
        context.limit(&ROOTS_NEAR, "plain"),
    ) else {
        return;
    };
    let is_dug = surface.build.as_ref().is_some_and(|build| {
        let mut layers = build.value.layers.iter();
        layers.any(|layer| layer.existing.is_none() && layer.thickness_m() > 0.0)
    });
    if !is_dug {
        return;
    }
    for tree in &context.job.site.trees {
        let trunk = tree.value.trunk.si();
        let reach = limit.value.si() * trunk;
        let at = tree.value.at;
        let away = surface.edges().map(|edge| edge.distance_to(at));
        let distance = match surface.contains(at) {
            true => 0.0,
            false => away.fold(f64::INFINITY, f64::min),
        };
        if distance >= reach - 1e-9 {
            continue;
        }
        let shown = context.show_length(distance);
        let message = format!(
            "{} is dug {shown} from a tree with a {} trunk: its roots reach about {}. Keep off, or dig by hand and cut none",
            surface.name.value,
            context.show(&tree.value.trunk),
            context.show_length(reach)
        );
        found.add(
            ROOTS_NEAR
                .finding(tree.place, message)
                .found(shown, Quantity::near(distance, Dimension::LENGTH))
                .against(&limit, context)
                .related(surface.name.place, "this is dug for"),
        );
    }
}
