//! `mix-life`: a batch that stiffens before it is laid.

use crate::findings::Severity;
use crate::model::{Mix, MixUse};
use crate::rules::documents::C270_LIFE;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;

/// A batch that stiffens before it is laid.
pub(crate) static MIX_LIFE: Rule = Rule {
    name: "mix-life",
    family: Family::Mixes,
    severity: Severity::Warning,
    looks_at: "How long a batch takes to lay against its pot life, or the usual limit for mortar where none is given. Not concrete for a slab.",
    reason: "Mortar that has begun to set no longer bonds, and water to bring it back weakens it.",
    remedy: "Mix smaller batches.",
    limits: &[
        Limit {
            row: "plain",
            of: "mortar from mixing to laying, where no pot life is given",
            bound: Bound::Most,
            general: Value {
                written: &["2.5 h"],
                source: C270_LIFE,
            },
            regions: &[],
        },
        Limit::practice(
            "lime",
            "mortar of hydraulic lime from mixing to laying",
            Bound::Most,
            &["24 h"],
        ),
    ],
    sources: &[C270_LIFE, Source::COMMON_PRACTICE],
    breaks: "surface court
  build        mortar-set
  laid         stack-bond, units 300 mm by 600 mm
  weeps        every 600 mm

mix bed-mix
  pot-life     90 min
  batch        100 L, laid in «2 h»
",
    keeps: "surface court
  build        mortar-set
  laid         stack-bond, units 300 mm by 600 mm
  weeps        every 600 mm

mix bed-mix
  batch        100 L, laid in 2 h
",
    mended: None,
    check: Check::Mix(check),
};

fn check(context: &Context<'_>, mix: &Mix, found: &mut Found) {
    let Some(time) = &mix.laid_in else {
        return;
    };
    let is_concrete = !mix.uses.is_empty() && mix.uses.iter().all(|of| of.value == MixUse::Slab);
    if is_concrete {
        return;
    }
    let takes = |shown: &str| format!("a batch that takes {shown} to lay goes off first");
    let remedy = "Mix smaller batches";
    if let Some(life) = &mix.pot_life {
        if time.value.si() <= life.value.si() {
            return;
        }
        let shown = context.show(&time.value);
        let message = format!(
            "{}: the mix stays workable for {}. {remedy}",
            takes(&shown),
            context.show(&life.value)
        );
        found.add(
            MIX_LIFE
                .finding(time.place, message)
                .found(shown, Some(time.value))
                .related(life.place, "its pot life"),
        );
        return;
    }
    let row = match mix.is_of_hydraulic_lime() {
        true => "lime",
        false => "plain",
    };
    let Some(limit) = context.limit(&MIX_LIFE, row) else {
        return;
    };
    if limit.allows(&time.value) {
        return;
    }
    let shown = limit.beside(&time.value, context.system());
    let message = format!(
        "{}: mortar stays workable for {}. {remedy}",
        takes(&shown),
        limit.shown(context.system())
    );
    found.add(
        MIX_LIFE
            .finding(time.place, message)
            .found(shown, Some(time.value))
            .against(&limit, context),
    );
}
