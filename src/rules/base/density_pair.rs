//! `density-pair`: densities of one material that cannot all be right.

use crate::findings::{Finding, Place, Severity};
use crate::materials::Kind;
use crate::model::{Material, Sourced};
use crate::rules::construction::is_in_checked_file;
use crate::rules::documents::WSDOT_AGGREGATES;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Number, Quantity};

/// Densities of one material that cannot all be right.
pub(crate) static DENSITY_PAIR: Rule = Rule {
    name: "density-pair",
    family: Family::Base,
    severity: Severity::Warning,
    looks_at: "The compacted density of a material over its loose one, and both against the density of its grains, where the job states any of them. Open-graded stone may hardly compact.",
    reason: "The ratio turns what lies in place into what is bought. A wrong pair orders far too much or too little.",
    remedy: "Ask the supplier which figure is loose, in the truck, and which is compacted, in place.",
    limits: &[
        Limit::practice(
            "most",
            "compacted density over loose",
            Bound::Most,
            &["1.40"],
        ),
        Limit::practice(
            "least",
            "compacted density over loose; not of open-graded stone",
            Bound::Least,
            &["1.05"],
        ),
        Limit::practice(
            "grains",
            "what grains of unknown density weigh",
            Bound::Most,
            &["3200 kg/m3", "200 lb/cu ft"],
        ),
    ],
    sources: &[WSDOT_AGGREGATES, Source::COMMON_PRACTICE],
    breaks: "material crushed-stone
  density      2000 kg/m3 loose, «1500 kg/m3» compacted
",
    keeps: "material crushed-stone
  density      1600 kg/m3 loose, 2000 kg/m3 compacted
",
    mended: None,
    check: Check::Material(check),
};

fn check(context: &Context<'_>, material: &Material, found: &mut Found) {
    if let Some(finding) = over_its_grains(context, material) {
        found.add(finding);
        return;
    }
    let (Some(loose), Some(compacted)) = (&material.density, &material.compacted) else {
        return;
    };
    let Some(place) = stated(compacted).or(stated(loose)) else {
        return;
    };
    if loose.value.si() <= 0.0 {
        return;
    }
    let ratio = compacted.value.si() / loose.value.si();
    let figures = format!(
        "{} compacted, {} loose",
        context.show(&compacted.value),
        context.show(&loose.value)
    );
    let figure = Number::near(ratio).map(Quantity::plain);
    if ratio < 1.0 {
        let message = format!(
            "{} is lighter compacted than loose ({figures}): are the two swapped?",
            material.name
        );
        found.add(
            DENSITY_PAIR
                .finding(place, message)
                .severity(Severity::Error)
                .found(format!("{ratio:.2}"), figure),
        );
        return;
    }
    let is_open = material.kind.is_some_and(Kind::is_open_graded);
    for (row, too, side) in [("most", "far", "most"), ("least", "hardly", "least")] {
        if row == "least" && is_open {
            continue;
        }
        let Some(limit) = context.limit(&DENSITY_PAIR, row) else {
            continue;
        };
        if !limit.allows_si(ratio) {
            let shown = limit.beside_ratio(ratio, 2);
            let message = format!(
                "{} is {too} denser compacted than loose: {shown} times, and {} is about the {side}. Check both figures",
                material.name,
                limit.shown(context.system()),
            );
            found.add(
                DENSITY_PAIR
                    .finding(place, message)
                    .found(shown, figure)
                    .against(&limit, context),
            );
        }
    }
}

/// The finding of something in grains that is heavier than its grains are.
fn over_its_grains(context: &Context<'_>, material: &Material) -> Option<Finding> {
    let is_in_grains = |kind: Kind| kind.is_granular() || kind.is_binder();
    material.kind.filter(|kind| is_in_grains(*kind))?;
    let own = material.particle_density.as_ref();
    let limit = context.limit(&DENSITY_PAIR, "grains")?;
    let grains = own.map_or(limit.value, |grains| grains.value);
    let densities = [
        (&material.density, "loose"),
        (&material.compacted, "compacted"),
    ];
    let (density, state) = densities
        .into_iter()
        .filter_map(|(density, state)| Some((density.as_ref()?, state)))
        .find(|(density, _)| density.value.si() > grains.si())?;
    let place = stated(density).or(own.and_then(stated))?;
    let shown = limit.beside(&density.value, context.system());
    let message = format!(
        "{} cannot weigh {shown} {state}: its grains weigh {}. Check the figure and its unit",
        material.name,
        context.show(&grains),
    );
    let finding = DENSITY_PAIR
        .finding(place, message)
        .severity(Severity::Error)
        .found(shown, Some(density.value));
    Some(match own {
        Some(_) => finding,
        None => finding.severity(Severity::Warning).against(&limit, context),
    })
}

/// The line of the checked file that states a figure.
fn stated<T: Copy>(sourced: &Sourced<T>) -> Option<Place> {
    sourced
        .origin
        .place()
        .filter(|place| is_in_checked_file(*place))
}
