//! `runoff-odd`: less runs off by the spec than off such paving.

use crate::findings::{Place, Severity};
use crate::materials::Kind;
use crate::model::{Region, Surface, Taken};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;

use crate::vocabulary::Role;

const BRICK: Source = Source::read(
    "US Natural Resources Conservation Service, Hydrology Training Series 206 D, p. 16, as a data table",
    "brick 0.70 to 0.85",
);
const ROOFS: Source = Source::read(
    "US Natural Resources Conservation Service, Hydrology Training Series 206 D, p. 16, as a data table",
    "roofs 0.75 to 0.95",
);

/// Less runs off by the spec than off such paving.
pub(crate) static RUNOFF_ODD: Rule = Rule {
    name: "runoff-odd",
    family: Family::Drains,
    severity: Severity::Advisory,
    looks_at: "The runoff that is stated for paving with closed joints, and for a roof that a drain takes.",
    reason: "Paving sheds nearly all of a hard rain: reckon with less, and the drain comes out too small.",
    remedy: "Leave runoff out and the usual share is used, or say in a note why so much soaks in.",
    limits: &[
        Limit {
            row: "paving",
            of: "the share of the rain that runs off paving",
            bound: Bound::Least,
            general: Value {
                written: &["70 %"],
                source: BRICK,
            },
            regions: &[(
                Region::Us,
                Value {
                    written: &["70 %"],
                    source: BRICK,
                },
            )],
        },
        Limit {
            row: "roof",
            of: "the share of the rain that runs off a roof",
            bound: Bound::Least,
            general: Value {
                written: &["75 %"],
                source: ROOFS,
            },
            regions: &[(
                Region::Us,
                Value {
                    written: &["75 %"],
                    source: ROOFS,
                },
            )],
        },
    ],
    sources: &[BRICK, ROOFS],
    breaks: "\
surface court
  runoff       «40 %»
",
    keeps: "\
surface court
  runoff       80 %
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for surface in context.job.surfaces.iter() {
        if let Some(stated) = surface.runoff.as_ref().filter(|_| is_closed(surface)) {
            tell(context, "paving", stated.value.si(), stated.place, found);
        }
    }
    for takes in context.job.drains.iter().flat_map(|drain| &drain.takes) {
        let is_roof = takes.what.iter().any(|taken| match taken {
            Taken::Other(name, _) => name.value.to_lowercase().contains("roof"),
            Taken::Surface(_) => false,
        });
        if let Some(stated) = takes.runoff.as_ref().filter(|_| is_roof) {
            tell(context, "roof", stated.value.si(), stated.place, found);
        }
    }
}

/// Whether a surface is paved so that rain runs off it: neither of loose stone
/// nor made to let water through.
fn is_closed(surface: &Surface) -> bool {
    let Some(build) = surface.build.as_ref().map(|build| &build.value) else {
        return false;
    };
    let top = build.layer(Role::Paving).or(build.layer(Role::Slab));
    let kind = top.and_then(|top| top.of.value.kind());
    build.permeable.is_none() && top.is_some() && !kind.is_some_and(Kind::is_aggregate)
}

fn tell(context: &Context<'_>, row: &str, share: f64, place: Place, found: &mut Found) {
    let Some(limit) = context.limit(&RUNOFF_ODD, row) else {
        return;
    };
    if limit.allows_si(share) {
        return;
    }
    let shown = limit.beside_si(share, context.system());
    let what = if row == "roof" {
        "a roof"
    } else {
        "such paving"
    };
    let message = format!(
        "only {shown} of the rain runs off? From {what} {} or more does. Leave it out, or say why so much soaks in",
        limit.shown(context.system())
    );
    found.add(
        RUNOFF_ODD
            .finding(place, message)
            .found(shown, None)
            .against(&limit, context),
    );
}
