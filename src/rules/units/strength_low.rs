//! `strength-low`: concrete, pavers or paving brick of too little strength.

use crate::findings::{Place, Severity};
use crate::materials::Kind;
use crate::model::{Build, Layer, Origin, Surface};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::{Region, Source};
use crate::units::Quantity;
use crate::vocabulary::Role;

/// How strong American concrete outdoors is.
const IRC_CONCRETE: Source = Source::memory(
    "International Residential Code, Table R402.2; edition to check",
    "slabs exposed to the weather 2,500 psi, 3,000 where frost is moderate, 3,500 where it is severe, with entrained air",
);

/// How strong any American concrete is, in the weather or out of it.
const IRC_SHELTERED: Source = Source::second_hand(
    "International Residential Code, Table R402.2, as makers and a pocket guide print it",
    "concrete not exposed to the weather 2,500 psi, wherever it is",
);

/// How strong the leanest British concrete under paving is.
const BS_LEAN: Source = Source::memory(
    "BS 8500-1, designated concretes; edition to check",
    "GEN1, C8/10, for blinding and mass fill; by the cylinder 8 MPa",
);

/// How strong the leanest Australian concrete is.
const AS_LEAST: Source = Source::second_hand(
    "AS 3600, Concrete structures, normal grades, by engineers' tables",
    "N20, 20 MPa, the weakest of them",
);

/// How strong British concrete outdoors is.
const BS_CONCRETE: Source = Source::memory(
    "BS 8500-1, designated concretes; edition to check",
    "PAV1, C25/30 with entrained air, for house drives and external paving; by the cylinder 25 MPa",
);

/// How strong Australian concrete outdoors is.
const AS_CONCRETE: Source = Source::memory(
    "AS/NZS 3727.1, Guide to residential pavements; edition to check",
    "concrete of strength grade N20, 20 MPa, for foot traffic and cars",
);

/// How strong Australian concrete is where it freezes.
const AS_FREEZING: Source = Source::memory(
    "AS 3600, Concrete structures, section 4; edition to check",
    "32 MPa where it freezes and thaws up to 25 times a year, 40 MPa beyond, with entrained air",
);

/// How strong American concrete pavers are.
const ASTM_PAVERS: Source = Source::memory(
    "ASTM C936, Solid Concrete Interlocking Paving Units; edition to check",
    "8,000 psi on average, no unit under 7,200",
);

/// How strong American paving brick is.
const ASTM_PAVING_BRICK: Source = Source::memory(
    "ASTM C902, Pedestrian and Light Traffic Paving Brick; edition to check",
    "class SX, for frost, 8,000 psi on average; MX and NX 3,000",
);

/// Concrete, pavers or paving brick of too little strength.
pub(crate) static STRENGTH_LOW: Rule = Rule {
    name: "strength-low",
    family: Family::Units,
    severity: Severity::Warning,
    looks_at: "The compressive strength that is stated of the concrete of a slab, less of one under paving, of concrete pavers and of paving brick, and whether it freezes there.",
    reason: "Weak concrete and weak brick wear, and frost takes their faces off.",
    remedy: "Order a stronger concrete, with entrained air where it freezes; of units ask for those made for paving.",
    limits: &[
        Limit {
            row: "concrete",
            of: "the strength of concrete outdoors",
            bound: Bound::Least,
            general: Value {
                written: &["17.2 MPa", "2500 psi"],
                source: IRC_CONCRETE,
            },
            regions: &[
                (
                    Region::Uk,
                    Value {
                        written: &["25 MPa"],
                        source: BS_CONCRETE,
                    },
                ),
                (
                    Region::Au,
                    Value {
                        written: &["20 MPa"],
                        source: AS_CONCRETE,
                    },
                ),
            ],
        },
        Limit {
            row: "concrete-freezing",
            of: "the strength of concrete where it freezes",
            bound: Bound::Least,
            general: Value {
                written: &["20.6 MPa", "3000 psi"],
                source: IRC_CONCRETE,
            },
            regions: &[
                (
                    Region::Uk,
                    Value {
                        written: &["25 MPa"],
                        source: BS_CONCRETE,
                    },
                ),
                (
                    Region::Au,
                    Value {
                        written: &["32 MPa"],
                        source: AS_FREEZING,
                    },
                ),
            ],
        },
        Limit {
            row: "concrete-under",
            of: "the strength of a slab under paving",
            bound: Bound::Least,
            general: Value {
                written: &["5 MPa", "725 psi"],
                source: Source::COMMON_PRACTICE,
            },
            regions: &[
                (
                    Region::Us,
                    Value {
                        written: &["2500 psi"],
                        source: IRC_SHELTERED,
                    },
                ),
                (
                    Region::Uk,
                    Value {
                        written: &["8 MPa"],
                        source: BS_LEAN,
                    },
                ),
                (
                    Region::Au,
                    Value {
                        written: &["20 MPa"],
                        source: AS_LEAST,
                    },
                ),
            ],
        },
        Limit {
            row: "paver",
            of: "the strength of concrete pavers",
            bound: Bound::Least,
            general: Value {
                written: &["55 MPa", "8000 psi"],
                source: ASTM_PAVERS,
            },
            regions: &[],
        },
        Limit {
            row: "brick",
            of: "the strength of paving brick",
            bound: Bound::Least,
            general: Value {
                written: &["20.6 MPa", "3000 psi"],
                source: ASTM_PAVING_BRICK,
            },
            regions: &[],
        },
        Limit {
            row: "brick-freezing",
            of: "the strength of paving brick where it freezes",
            bound: Bound::Least,
            general: Value {
                written: &["55 MPa", "8000 psi"],
                source: ASTM_PAVING_BRICK,
            },
            regions: &[],
        },
    ],
    sources: &[
        IRC_CONCRETE,
        IRC_SHELTERED,
        BS_LEAN,
        AS_LEAST,
        BS_CONCRETE,
        AS_CONCRETE,
        AS_FREEZING,
        ASTM_PAVERS,
        ASTM_PAVING_BRICK,
        Source::COMMON_PRACTICE,
    ],
    breaks: "\
build sand-set
  paving       court-paver, 60 mm, waste 5 %

material court-paver
  like         concrete-paver
  strength     «30 MPa»
",
    keeps: "\
build sand-set
  paving       court-paver, 60 mm, waste 5 %

material court-paver
  like         concrete-paver
  strength     60 MPa
",
    mended: None,
    check: Check::Layer(check),
};

fn check(context: &Context<'_>, _: &Surface, build: &Build, layer: &Layer, found: &mut Found) {
    let Some((strength, place)) = stated(layer) else {
        return;
    };
    let frost = context.job.site.frost.as_ref();
    let frost = frost.filter(|frost| frost.value.si() > 0.0);
    let kind = layer.of.value.kind();
    let is_paved = build.layer(Role::Paving).is_some();
    let row = match (layer.role.value, kind, frost) {
        // It is out of the weather, and leaner concrete is enough.
        (Role::Slab, ..) if is_paved => "concrete-under",
        (Role::Slab, _, None) => "concrete",
        (Role::Slab, _, Some(_)) => "concrete-freezing",
        (Role::Paving, Some(Kind::ConcretePaver), _) => "paver",
        (Role::Paving, Some(Kind::ClayPaver), None) => "brick",
        (Role::Paving, Some(Kind::ClayPaver), Some(_)) => "brick-freezing",
        _ => return,
    };
    let Some(limit) = context.limit(&STRENGTH_LOW, row) else {
        return;
    };
    if limit.allows(&strength) {
        return;
    }
    let shown = limit.beside(&strength, context.system());
    let is_freezing = row.ends_with("freezing");
    let message = format!(
        "{} is too weak at {shown}; {} is the least{}: use a stronger one",
        layer.of.value.name(),
        limit.shown(context.system()),
        if is_freezing { " where it freezes" } else { "" },
    );
    let mut finding = STRENGTH_LOW
        .finding(place, message)
        .found(shown, Some(strength))
        .against(&limit, context);
    if let Some(frost) = frost.filter(|_| is_freezing) {
        finding = finding.related(frost.place, "it freezes here");
    }
    found.add(finding);
}

/// The strength that the text states of what a layer is made of.
fn stated(layer: &Layer) -> Option<(Quantity, Place)> {
    if let Some(mix) = layer.of.value.mix() {
        let strength = mix.strength.as_ref()?;
        return Some((strength.value, strength.place));
    }
    let strength = layer.of.value.material()?.strength.as_ref()?;
    match strength.origin {
        Origin::Line(place) => Some((strength.value, place)),
        _ => None,
    }
}
