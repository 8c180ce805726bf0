//! `tread-thin`: treads too thin for their front edge.

use super::treads;
use crate::findings::Severity;
use crate::materials::Kind;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;

/// Treads too thin for their front edge.
pub(crate) static TREAD_THIN: Rule = Rule {
    name: "tread-thin",
    family: Family::Steps,
    severity: Severity::Warning,
    looks_at: "The thickness of treads of stone, slabs and porcelain; of natural stone that overhangs the riser an advisory besides.",
    reason: "The foot comes down on the front edge. What overhangs there hangs in the air, and a thin edge snaps off.",
    remedy: "Use thicker treads, or leave the nosing out.",
    limits: &[
        Limit::practice("plain", "a tread", Bound::Least, &["18 mm", "11/16 in"]),
        Limit::practice(
            "nosing",
            "a tread of stone with a nosing",
            Bound::Least,
            &["30 mm", "1 3/16 in"],
        ),
    ],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  tread        sandstone, «12 mm», nosing 20 mm, in 3 pieces
  bed          bed-mix, 20 mm
  fall         1:60
  core         slab-mix, to foot
  handrail     both sides
",
    keeps: "\
steps garden-steps
  from         -700 mm
  to           court
  at           (3 m, 0 m), climbing north
  width        1.2 m
  going        350 mm
  tread        sandstone, 40 mm, nosing 20 mm, in 3 pieces
  bed          bed-mix, 20 mm
  fall         1:60
  core         slab-mix, to foot
  handrail     both sides
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let limits = context
        .limit(&TREAD_THIN, "plain")
        .zip(context.limit(&TREAD_THIN, "nosing"));
    let Some((plain, with_nosing)) = limits else {
        return;
    };
    for (_, tread) in treads(context) {
        let Some(thickness) = &tread.thickness else {
            continue;
        };
        let kind = tread.of.value.kind();
        let is_thin = matches!(
            kind,
            Some(Kind::NaturalStone | Kind::ConcreteFlag | Kind::Porcelain)
        );
        let overhangs = tread.nosing.is_some() && kind == Some(Kind::NaturalStone);
        let (limit, severity, remedy) = if is_thin && !plain.allows(&thickness.value) {
            (&plain, Severity::Warning, "use thicker")
        } else if overhangs && !with_nosing.allows(&thickness.value) {
            let remedy = "use thicker, or leave the nosing out";
            (&with_nosing, Severity::Advisory, remedy)
        } else {
            continue;
        };
        let shown = limit.beside(&thickness.value, context.system());
        let with = if overhangs { " with a nosing" } else { "" };
        let message = format!(
            "the edge of a {shown} tread{with} will snap off; {} is the least: {remedy}",
            limit.shown(context.system())
        );
        found.add(
            TREAD_THIN
                .finding(thickness.place, message)
                .severity(severity)
                .found(shown, Some(thickness.value))
                .against(limit, context),
        );
    }
}
