//! `slab-thin`: too thin a slab for what is to bear on it.

use crate::findings::{Fix, Severity};
use crate::model::{Build, Layer, Surface, Use};
use crate::rules::construction::{Construction, is_in_checked_file};
use crate::rules::documents::masonry_handbook;
use crate::rules::wording::limit_as_written;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::text::with_article;
use crate::vocabulary::Role;

const FOUR_INCHES: &[&str] = &["100 mm", "4 in"];

/// Too thin a slab for what is to bear on it.
pub(crate) static SLAB_THIN: Rule = Rule {
    name: "slab-thin",
    family: Family::Base,
    severity: Severity::Warning,
    looks_at: "The thickness of a concrete slab under paving in mortar, and of one that is walked or driven on itself.",
    reason: "A thin slab cracks under load, and the crack runs up through whatever is laid on it.",
    remedy: "Thicken the slab.",
    limits: &[
        Limit {
            row: "plain",
            of: "a slab under mortared paving",
            bound: Bound::Least,
            general: Value {
                written: FOUR_INCHES,
                source: masonry_handbook("fig. 8-31, a 4 in concrete base"),
            },
            regions: &[],
        },
        Limit::practice(
            "walk",
            "a slab that is walked on itself",
            Bound::Least,
            &["75 mm", "3 in"],
        ),
        Limit::practice(
            "drive",
            "a slab that cars drive on",
            Bound::Least,
            FOUR_INCHES,
        ),
        Limit::practice(
            "street",
            "a slab in a street",
            Bound::Least,
            &["150 mm", "6 in"],
        ),
    ],
    sources: &[
        masonry_handbook("fig. 8-31, a 4 in concrete base"),
        Source::COMMON_PRACTICE,
    ],
    breaks: "surface court
  build        mortar-set
  movement-joints every 2 m

build mortar-set
  slab         slab-mix, «75 mm»
",
    keeps: "surface court
  build        mortar-set
  movement-joints every 2 m
",
    mended: Some(
        "surface court
  build        mortar-set
  movement-joints every 2 m

build mortar-set
  slab         slab-mix, 100 mm
",
    ),
    check: Check::Layer(check),
};

fn check(
    context: &Context<'_>,
    surface: &Surface,
    build: &Build,
    layer: &Layer,
    found: &mut Found,
) {
    let (Role::Slab, Some(thickness)) = (layer.role.value, &layer.thickness) else {
        return;
    };
    let (row, purpose) = match (surface.used_for, Construction::of(build)) {
        (Use::Street, _) => ("street", "for a street"),
        (Use::Drive, _) => ("drive", "for cars"),
        (_, Construction::MortarSet) => ("plain", "under mortared paving"),
        // A thin one that lies on another is a topping.
        (Use::Foot, Construction::Slab)
            if layer.existing.is_none()
                && build
                    .layers
                    .iter()
                    .filter(|own| own.role.value == Role::Slab)
                    .count()
                    == 1 =>
        {
            ("walk", "to walk on")
        }
        _ => return,
    };
    let Some(limit) = context.limit(&SLAB_THIN, row) else {
        return;
    };
    if limit.allows(&thickness.value) {
        return;
    }
    let shown = limit.beside(&thickness.value, context.system());
    let remedy = match layer.existing {
        None => "thicken it",
        Some(_) => "break it out and pour it anew",
    };
    let message = format!(
        "{} slab is too thin {purpose}; {} is the least: {remedy}",
        with_article(&shown),
        limit.shown(context.system()),
    );
    let finding = SLAB_THIN
        .finding(thickness.place, message)
        .found(shown, Some(thickness.value))
        .against(&limit, context);
    let can_be_changed = layer.existing.is_none() && is_in_checked_file(thickness.place);
    found.add(if can_be_changed {
        let text = limit_as_written(&limit, context);
        let title = format!("Raise the slab to {text}");
        finding.fix(Fix::judged(title, thickness.place, text))
    } else {
        finding
    });
}
