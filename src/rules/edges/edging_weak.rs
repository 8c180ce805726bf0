//! `edging-weak`: an edging that cars push over.

use crate::findings::{Finding, Fix, Place, Severity};
use crate::materials::Kind;
use crate::model::{Build, Edging, Footing, Stated, Surface, Use};
use crate::rules::construction::Construction;
use crate::rules::documents::icpi_edges;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity, System};
use crate::vocabulary::{Term, spelled_in};

/// An edging that cars push over.
pub(crate) static EDGING_WEAK: Rule = Rule {
    name: "edging-weak",
    family: Family::Edges,
    severity: Severity::Warning,
    looks_at: "Edging of plastic or timber or of units with no concrete under them or none behind them, or too little, along paving on sand that cars drive on, and of metal on pins along a street.",
    reason: "Turning wheels push the paving against its edge; plastic on pins leans and timber rots, and the paving spreads.",
    remedy: "Bed and haunch a kerb or a row of block in concrete.",
    limits: &[
        Limit::practice(
            "bed",
            "the concrete under an edging that cars press on",
            Bound::Least,
            &["75 mm", "3 in"],
        ),
        Limit::practice(
            "haunch",
            "the width of the concrete behind it",
            Bound::Least,
            &["75 mm", "3 in"],
        ),
        Limit::practice(
            "back",
            "how far up its back that concrete reaches",
            Bound::Least,
            &["40 mm", "1 1/2 in"],
        ),
    ],
    sources: &[
        icpi_edges("restraints stay put under impacts from vehicles"),
        Source::COMMON_PRACTICE,
    ],
    breaks: "surface court
  for          drive
  laid         herringbone, units 100 mm by 200 mm
  edging       «plastic-edge», along free
",
    keeps: "surface court
  for          drive
  laid         herringbone, units 100 mm by 200 mm
  edging       concrete-kerb, along free
",
    mended: Some(
        "surface court
  for          drive
  laid         herringbone, units 100 mm by 200 mm
  edging       concrete-kerb, along free
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    if !matches!(surface.used_for, Use::Drive | Use::Street)
        || Construction::of(build) != Construction::SandSet
    {
        return;
    }
    let is_street = surface.used_for == Use::Street;
    let driven = if is_street { "street" } else { "drive" };
    let [kerb, aluminium] = ["kerb", "aluminium"].map(|word| spelled_in(context.region(), word));
    for edging in &surface.edgings {
        let stock = edging.material.value.material().and_then(|own| own.stock);
        let what = match stock {
            Some("plastic-edge") => "plastic",
            Some("timber-edge") => "timber",
            Some("steel-edge") if is_street => "steel",
            Some("aluminium-edge") if is_street => aluminium.as_ref(),
            _ => {
                let is_unit = edging.material.value.kind().is_some_and(Kind::is_unit);
                if is_unit && !edging.stands_in_concrete() {
                    found.add(unbedded(edging.material.place, driven));
                }
                let footing = edging.footing.as_ref();
                match footing.filter(|own| own.is_read) {
                    Some(own) if own.haunch.is_none() => {
                        found.add(unhaunched(context, edging.place, driven));
                    }
                    Some(own) => found.findings.extend(slight(context, edging, own, driven)),
                    None => {}
                }
                continue;
            }
        };
        let message = format!(
            "{what} edging will not hold a {driven}: turning wheels push it over. Use a {kerb} or a row of block haunched in concrete"
        );
        let place = edging.material.place;
        let finding = EDGING_WEAK.finding(place, message).fix(Fix::judged(
            format!("Use a concrete {kerb}"),
            place,
            "concrete-kerb",
        ));
        found.add(match surface.used_for_place {
            Some(place) => finding.related(place, "cars drive here"),
            None => finding,
        });
    }
}

/// A kerb on a bed of concrete with none against its back.
fn unhaunched(context: &Context<'_>, place: Place, driven: &str) -> Finding {
    let (width, down) = match context.system() {
        System::Metric => ("100 mm", "50 mm"),
        System::Imperial => ("4 in", "2 in"),
    };
    let message = format!(
        "nothing stands behind this edging, and it will not hold a {driven}: turning wheels push it over. {}, as in haunched {width} wide to {down} below the top",
        context.word(Term::Haunch)
    );
    EDGING_WEAK.finding(place, message)
}

/// A kerb with too little concrete under it or against its back.
fn slight(
    context: &Context<'_>,
    edging: &Edging,
    footing: &Footing,
    driven: &str,
) -> Option<Finding> {
    let haunch = footing.haunch.as_ref();
    let back = haunch.zip(edging.standing()).map(|(haunch, (height, _))| {
        let down = &haunch.below_top;
        (height.value.si() - down.value.si(), down.place)
    });
    let of = |own: &Stated<Quantity>| (own.value.si(), own.place);
    let parts = [
        ("bed", "under this edging", footing.depth.as_ref().map(of)),
        (
            "haunch",
            "behind this edging",
            haunch.map(|own| of(&own.width)),
        ),
        ("back", "up the back of this edging", back),
    ];
    parts.into_iter().find_map(|(row, where_it_lies, part)| {
        let ((metres, place), limit) = part.zip(context.limit(&EDGING_WEAK, row))?;
        if limit.allows_si(metres) {
            return None;
        }
        let shown = limit.beside_si(metres, context.system());
        let message = format!(
            "{shown} of concrete {where_it_lies} will not hold it on a {driven}: turning wheels push it over. {} is the least",
            limit.shown(context.system()),
        );
        let finding = EDGING_WEAK.finding(place, message);
        let found = Quantity::near(metres, Dimension::LENGTH);
        Some(finding.found(shown, found).against(&limit, context))
    })
}

/// A row of units that nothing holds but the sand or stone that it stands on.
fn unbedded(place: Place, driven: &str) -> Finding {
    let message = format!(
        "a row of units on no concrete will not hold a {driven}: turning wheels push it over. Bed and haunch it in concrete, as in on kerb-mix 100 mm"
    );
    EDGING_WEAK.finding(place, message)
}
