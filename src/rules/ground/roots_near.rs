//! `roots-near`: a dig among the roots of a tree.

use crate::findings::Severity;
use crate::geometry::Point;
use crate::model::{DrainKind, Layer, Stated, Surface};
use crate::rules::documents::BS_5837;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::text::with_article;
use crate::units::{Dimension, Quantity};

/// A dig among the roots of a tree.
pub(crate) static ROOTS_NEAR: Rule = Rule {
    name: "roots-near",
    family: Family::Ground,
    severity: Severity::Warning,
    looks_at: "How far each tree of the site stands from what is dug, the base beyond the edges and the trenches of drains too: its roots reach a dozen widths of its trunk.",
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
    check: Check::SurfaceAndJob(surface, drains),
};

fn surface(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let Some(build) = surface.build.as_ref() else {
        return;
    };
    let layers = build.value.layers.iter();
    let dug = layers.filter(|layer| layer.existing.is_none() && layer.thickness_m() > 0.0);
    let Some(beyond) = dug.map(Layer::beyond_m).reduce(f64::max) else {
        return;
    };
    let away = |at: Point| {
        if surface.contains(at) {
            return 0.0;
        }
        let edges = surface.edges().map(|edge| {
            let wider = if surface.is_free(edge.tag) {
                beyond
            } else {
                0.0
            };
            edge.distance_to(at) - wider
        });
        edges.fold(f64::INFINITY, f64::min).max(0.0)
    };
    look(context, &surface.name, away, found);
}

/// The trenches and pits of drains, which are dug deeper than any paving.
fn drains(context: &Context<'_>, found: &mut Found) {
    let drains = context.job.drains.iter().zip(context.figures.drains.iter());
    for (drain, figures) in drains {
        let is_deep = matches!(
            drain.kind(),
            Some(DrainKind::Pipe | DrainKind::Trench | DrainKind::Soakaway)
        );
        if !is_deep || drain.existing.is_some() || drain.is_unread {
            continue;
        }
        let half = 0.5 * figures.dig.and_then(|dig| dig.width_m).unwrap_or_default();
        let away = |at| {
            let off = drain.distance_to(at).unwrap_or(f64::INFINITY);
            (off - half).max(0.0)
        };
        look(context, &drain.name, away, found);
    }
}

/// Tells of each tree that stands too near to something that is dug; `away` is
/// how far a point lies from it, in metres.
fn look(
    context: &Context<'_>,
    dug: &Stated<String>,
    away: impl Fn(Point) -> f64,
    found: &mut Found,
) {
    let Some(limit) = context.limit(&ROOTS_NEAR, "plain") else {
        return;
    };
    for tree in &context.job.site.trees {
        let reach = limit.value.si() * tree.value.trunk.si();
        let distance = away(tree.value.at);
        if distance >= reach - 1e-9 {
            continue;
        }
        let shown = context.show_length(distance);
        let message = format!(
            "{} is dug {shown} from a tree with {} trunk: its roots reach about {}. Keep off, or dig by hand and cut none",
            dug.value,
            with_article(&context.show(&tree.value.trunk)),
            context.show_length(reach)
        );
        found.add(
            ROOTS_NEAR
                .finding(tree.place, message)
                .found(shown, Quantity::near(distance, Dimension::LENGTH))
                .against(&limit, context)
                .related(dug.place, "this is dug for"),
        );
    }
}
