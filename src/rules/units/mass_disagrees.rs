//! `mass-disagrees`: a stated mass that thickness and density do not give.

use crate::findings::Severity;
use crate::model::{Build, Layer, Origin, Surface};
use crate::rules::construction::unit_size;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Number, Quantity, show};
use crate::vocabulary::Role;

const ROUNDING: Source = Source::computed(
    "mass of an area = thickness × density; 10 % for rounded figures and uneven backs",
);

/// A stated mass that thickness and density do not give.
pub(crate) static MASS_DISAGREES: Rule = Rule {
    name: "mass-disagrees",
    family: Family::Units,
    severity: Severity::Warning,
    looks_at: "The stated mass of paving, for an area or for one piece, against its size, thickness and density.",
    reason: "One of the three is wrong, and with it loads, lifts and orders by weight.",
    remedy: "Check mass, thickness and density with the supplier.",
    limits: &[Limit {
        row: "plain",
        of: "stated mass off thickness times density, either way",
        bound: Bound::Most,
        general: Value {
            written: &["10 %"],
            source: ROUNDING,
        },
        regions: &[],
    }],
    sources: &[ROUNDING],
    breaks: "surface court
  build        mortar-set
  laid         stack-bond, units 300 mm by 450 mm
  weeps        every 600 mm

material sandstone
  density      2400 kg/m3
  mass         «150 kg/m2»
",
    keeps: "surface court
  build        mortar-set
  laid         stack-bond, units 300 mm by 450 mm
  weeps        every 600 mm

material sandstone
  density      2400 kg/m3
  mass         100 kg/m2
",
    mended: None,
    check: Check::Layer(check),
};

fn check(
    context: &Context<'_>,
    surface: &Surface,
    build: &Build,
    layer: &Layer,
    found: &mut Found,
) {
    let material = layer.of.value.material();
    let Some(material) = material.filter(|_| layer.role.value == Role::Paving) else {
        return;
    };
    let (Some(mass), Some(density), Some(limit)) = (
        &material.mass,
        &material.density,
        context.limit(&MASS_DISAGREES, "plain"),
    ) else {
        return;
    };
    let Origin::Line(place) = mass.origin else {
        return;
    };
    let of_area = layer.thickness_m() * density.value.si();
    let (reckoned, dimension) = match mass.value.dimension {
        Dimension::MASS => {
            let Some((length, width)) = unit_size(surface, build) else {
                return;
            };
            (of_area * length * width, Dimension::MASS)
        }
        _ => (of_area, Dimension::LOAD),
    };
    let ratio = mass.value.si() / reckoned;
    let off = (ratio - 1.0).abs();
    if !off.is_finite() || reckoned <= 0.0 || limit.allows_si(off) {
        return;
    }
    let Some(reckoned) = Quantity::near(reckoned, dimension) else {
        return;
    };
    let shown = context.show(&mass.value);
    let more_or_less = if ratio > 1.0 { "more" } else { "less" };
    let limit_shown = limit.shown(context.system());
    let rounded = show::share((off * 100.0).round() / 100.0);
    let figure = Number::near(off).map(Quantity::proportion);
    let by = figure.map_or_else(String::new, |figure| {
        show::apart(&figure, rounded, &limit_shown, context.system())
    });
    let message = format!(
        "{} at {shown} is {by} {more_or_less} than thickness and density give, {}; {limit_shown} is the most: check with the supplier",
        material.name,
        context.show(&reckoned),
    );
    let mut finding = MASS_DISAGREES
        .finding(place, message)
        .found(by, figure)
        .against(&limit, context)
        .related(layer.place, "its thickness");
    if let Origin::Line(stated) = density.origin {
        finding = finding.related(stated, "its density");
    }
    found.add(finding);
}
