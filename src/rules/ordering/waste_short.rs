//! `waste-short`: waste that does not cover what the lay-out cuts away.

use crate::findings::{Fix, Severity};
use crate::model::{Build, Surface};
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity, show};
use crate::vocabulary::Role;

/// Waste that does not cover what the lay-out cuts away.
pub(crate) static WASTE_SHORT: Rule = Rule {
    name: "waste-short",
    family: Family::Ordering,
    severity: Severity::Warning,
    looks_at: "The waste of paving whose lay-out is known, beside what the cuts take with off-cuts used again.",
    reason: "The order runs out before the last row; a second one comes late, and in another shade.",
    remedy: "Raise the waste, or leave it out: the order is then what the lay-out needs and 2 % for breakage.",
    limits: &[],
    sources: &[Source::computed(
        "units to buy for the lay-out, over the units that the area alone takes",
    )],
    breaks: "surface court
  laid         herringbone, units 100 mm by 200 mm, angle 45°, from (0 m, 0 m)

build sand-set
  paving       concrete-paver, 60 mm, waste «1 %»
",
    keeps: "surface court
  laid         herringbone, units 100 mm by 200 mm, angle 45°, from (0 m, 0 m)

build sand-set
  paving       concrete-paver, 60 mm, waste 10 %
",
    mended: Some(
        "surface court
  laid         herringbone, units 100 mm by 200 mm, angle 45°, from (0 m, 0 m)

build sand-set
  paving       concrete-paver, 60 mm, waste 3.7 %
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    let figures = context.figures.surfaces.get(surface.index);
    let Some((figures, layout)) =
        figures.and_then(|figures| Some((figures, figures.layout.as_ref()?)))
    else {
        return;
    };
    let paving = figures.layer(Role::Paving);
    let Some((units, waste)) = paving.and_then(|paving| Some((paving.units?, paving.waste?)))
    else {
        return;
    };
    let Some(place) = waste.origin.place().filter(|_| units > 0.0) else {
        return;
    };
    let stock = layout.stock();
    let short = stock as f64 - units * (1.0 + waste.value);
    // Less than one unit is what rounding up brings anyway.
    if short < 1.0 {
        return;
    }
    let needed = (stock as f64 / units - 1.0) * 100.0;
    let needed = format!("{} %", show::number((needed * 10.0 - 1e-6).ceil() / 10.0));
    let message = format!(
        "{} waste is {} units short of the {} that the lay-out takes: it needs {needed}",
        show::share(waste.value),
        show::number(short.ceil()),
        show::number(stock as f64),
    );
    let shown = show::share(waste.value);
    let mut finding = WASTE_SHORT
        .finding(place, message)
        .found(shown, Quantity::near(waste.value, Dimension::NONE))
        .related(layout.place, "the lay-out is here");
    if build
        .layer(Role::Paving)
        .is_some_and(|layer| layer.waste.is_some())
    {
        finding = finding.fix(Fix::judged(
            format!("Raise the waste to {needed}"),
            place,
            needed.clone(),
        ));
    }
    found.add(finding);
}
