//! `coverage-odd`: a stated coverage that the stone cannot have.

use crate::findings::Severity;
use crate::model::{Build, Origin, Surface};
use crate::rules::construction::is_irregular;
use crate::rules::documents::STONE_YARD_COVERAGE;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Role;

/// A stated coverage that the stone cannot have.
pub(crate) static COVERAGE_ODD: Rule = Rule {
    name: "coverage-odd",
    family: Family::Units,
    severity: Severity::Error,
    looks_at: "What a supplier says paving covers by weight, against what its density and thickness allow less the joints. A warning where the density is the catalogue's, an advisory for irregular stone, whose thickness and joints are nobody's exact figures.",
    reason: "A ton of stone of one thickness covers so much and no more; a claim beyond that leaves the job short.",
    remedy: "Check coverage, thickness and density with the supplier.",
    limits: &[
        Limit {
            row: "plain",
            of: "stated coverage beyond what geometry allows",
            bound: Bound::Most,
            general: Value {
                written: &["2 %"],
                source: Source::computed(
                    "coverage = 1 / (density × thickness × (1 − joint share)), and 2 % for rounding",
                ),
            },
            regions: &[],
        },
        Limit {
            row: "irregular",
            of: "stated coverage of irregular stone beyond what geometry allows",
            bound: Bound::Most,
            general: Value {
                written: &["15 %"],
                source: STONE_YARD_COVERAGE,
            },
            regions: &[],
        },
    ],
    sources: &[
        Source::computed("coverage = 1 / (density × thickness × (1 − joint share))"),
        STONE_YARD_COVERAGE,
    ],
    breaks: "surface court
  build        mortar-set

material sandstone
  density      2400 kg/m3
  sold         by t
  covers       «14 m2/t»
",
    keeps: "surface court
  build        mortar-set

material sandstone
  density      2400 kg/m3
  sold         by t
  covers       10.4 m2/t
",
    mended: None,
    check: Check::Units(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let Some(paving) = build.layer(Role::Paving) else {
        return;
    };
    let Some(material) = paving.of.value.material() else {
        return;
    };
    let (Some(covers), Some(density)) = (&material.covers, &material.density) else {
        return;
    };
    let Origin::Line(place) = covers.origin else {
        return;
    };
    // Told once: the joints of two surfaces make two figures of one claim.
    let is_told = context
        .all_surfaces()
        .iter()
        .take(surface.index)
        .any(|earlier| {
            let paved = earlier
                .build
                .as_ref()
                .and_then(|own| own.value.layer(Role::Paving));
            paved.is_some_and(|paved| {
                paved.of.value.name() == material.name
                    && (paved.thickness_m() - paving.thickness_m()).abs() < 1e-9
            })
        });
    if surface.laid.is_none() && context.is_misread(surface.section) {
        return;
    }
    let is_irregular = is_irregular(surface);
    let row = if is_irregular { "irregular" } else { "plain" };
    let Some(limit) = context.limit(&COVERAGE_ODD, row).filter(|_| !is_told) else {
        return;
    };
    let share = joint_share(context, surface);
    let mass = density.value.si() * paving.thinnest_m() * (1.0 - share);
    if covers.value.dimension != Dimension::COVERAGE || !mass.is_normal() || mass <= 0.0 {
        return;
    }
    let beyond = covers.value.si() * mass - 1.0;
    if limit.allows_si(beyond) {
        return;
    }
    let Some(possible) = Quantity::near(1.0 / mass, Dimension::COVERAGE) else {
        return;
    };
    let shown = context.show(&covers.value);
    let message = format!(
        "{} cannot cover {shown}: density and thickness allow {} with joints. Check with the supplier",
        material.name,
        context.show(&possible),
    );
    let is_own_density = matches!(density.origin, Origin::Line(_));
    let mut finding = COVERAGE_ODD
        .finding(place, message)
        .severity(match (is_irregular, is_own_density) {
            (true, _) => Severity::Advisory,
            (false, true) => Severity::Error,
            (false, false) => Severity::Warning,
        })
        .found(shown, Some(covers.value))
        .against(&limit, context)
        .related(paving.place, "its thickness");
    if let Origin::Line(stated) = density.origin {
        finding = finding.related(stated, "its density");
    }
    found.add(finding);
}

/// The share of a surface that is joint; 0 where it cannot be told, which
/// lets the most pass but for a supplier's own joints.
fn joint_share(context: &Context<'_>, surface: &Surface) -> f64 {
    context
        .figures
        .surface(&surface.name.value)
        .and_then(|figures| figures.joints.as_ref())
        .and_then(|joints| joints.share)
        .filter(|share| (0.0..1.0).contains(share))
        .unwrap_or(0.0)
}
