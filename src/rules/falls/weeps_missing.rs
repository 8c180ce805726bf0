//! `weeps-missing`: bed water that is shut in between mortar and slab.

use crate::findings::{Fix, Severity};
use crate::model::{Build, Region, Surface};
use crate::rules::construction::{self, Construction};
use crate::rules::documents::bia_14c;
use crate::rules::wording::{entry_before, limit_as_written};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::vocabulary::Role;

/// What stands in where no figure of the region's own is known.
const BORROWED: Value = Value {
    written: &["610 mm", "24 in"],
    source: bia_14c("weeps, 24 in (610 mm), an American figure; none of this region is known"),
};

/// Paving on a slab with no way out for the water in its bed.
pub(crate) static WEEPS_MISSING: Rule = Rule {
    name: "weeps-missing",
    family: Family::Falls,
    severity: Severity::Warning,
    looks_at: "Paving on a bed of mortar or sand over a slab: whether weeps let water out of the bed at its low edge, and how far apart they are.",
    reason: "Water gets through the joints; trapped above a slab it freezes, lifts the paving, brings lime stains out of mortar and pumps sand away.",
    remedy: "Leave weeps along the low edge, or drill holes through the slab there, and state how far apart.",
    limits: &[Limit {
        row: "plain",
        of: "the spacing of weeps",
        bound: Bound::Most,
        general: Value {
            written: &["610 mm", "24 in"],
            source: bia_14c("weeps of 10 mm and more, 24 in (610 mm) apart at most"),
        },
        regions: &[(Region::Uk, BORROWED), (Region::Au, BORROWED)],
    }],
    sources: &[bia_14c("weeps at the edge of mortared paving")],
    breaks: "\
surface «court»
  build        mortar-set
  laid         running-bond, units 300 mm by 600 mm, along east
  isolation-joint 10 mm
",
    keeps: "\
surface court
  build        mortar-set
  laid         running-bond, units 300 mm by 600 mm, along east
  isolation-joint 10 mm
  weeps        every 600 mm
",
    mended: Some(
        "\
surface court
  meets        north
  weeps        every 610 mm
  build        mortar-set
  laid         running-bond, units 300 mm by 600 mm, along east
  isolation-joint 10 mm
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let bed = match Construction::of(build) {
        Construction::MortarSet => "mortar",
        Construction::SandSet => "sand",
        _ => return,
    };
    let is_shut_in = build.layer(Role::Bed).is_some() && construction::slab(build).is_some();
    if !is_shut_in
        || !surface.channels.is_empty()
        || !surface.drained.is_empty()
        || surface.covered.is_some()
        || build.permeable.is_some()
        || has_drainage_mat(build)
    {
        return;
    }
    let Some(limit) = context.limit(&WEEPS_MISSING, "plain") else {
        return;
    };
    let text = limit_as_written(&limit, context);
    let wanted = limit.shown(context.system());
    if let Some(weeps) = &surface.weeps {
        if limit.allows(&weeps.value) {
            return;
        }
        let shown = limit.beside(&weeps.value, context.system());
        let message =
            format!("weeps {shown} apart are too few: {wanted} is the most. Set them closer");
        let title = format!("Set the weeps every {text}");
        found.add(
            WEEPS_MISSING
                .finding(weeps.place, message)
                .found(shown, Some(weeps.value))
                .against(&limit, context)
                .fix(Fix::judged(title, weeps.place, text)),
        );
        return;
    }
    if context.is_misread(surface.section) {
        return;
    }
    let message = format!(
        "water is trapped in the {bed} bed above the slab: nothing lets it out. Leave weeps every {wanted} along the low edge"
    );
    let mut finding = WEEPS_MISSING
        .finding(surface.name.place, message)
        .against(&limit, context);
    if let Some(level) = surface.levels.first() {
        let entry = entry_before("weeps", &format!("every {text}"));
        let title = format!("Set weeps every {text}");
        finding = finding.fix(Fix::judged(title, level.place.start(), entry));
    }
    found.add(finding);
}

/// Whether a mat leads the water of the bed away over the slab.
fn has_drainage_mat(build: &Build) -> bool {
    let mut sheets = build.layers_for(Role::Membrane);
    sheets.any(|sheet| {
        let material = sheet.of.value.material();
        material.is_some_and(|own| own.stock == Some("drainage-mat"))
    })
}
