//! `density-pair`: a loose and a compacted density that do not belong
//! together.

use crate::findings::{Place, Severity};
use crate::materials::Kind;
use crate::model::{Material, Sourced};
use crate::rules::construction::is_in_checked_file;
use crate::rules::documents::WSDOT_AGGREGATES;
use crate::rules::wording::limit_in_words;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Number, Quantity};

/// A loose and a compacted density that do not belong together.
pub static DENSITY_PAIR: Rule = Rule {
    name: "density-pair",
    family: Family::Base,
    severity: Severity::Warning,
    looks_at: "The compacted density of a material over its loose one, where the job states either. Clean open-graded stone may hardly compact at all.",
    reason: "The ratio turns the volume in place into the loose volume that is bought. A wrong pair orders far too much or too little.",
    remedy: "Check both figures with the supplier: which is loose, in the truck, and which is compacted, in place.",
    limits: &[
        Limit {
            row: "most",
            of: "compacted density over loose",
            bound: Bound::Most,
            general: Value {
                written: &["1.40"],
                source: Source::COMMON_PRACTICE,
            },
            regions: &[],
        },
        Limit {
            row: "least",
            of: "compacted density over loose; not of open-graded stone",
            bound: Bound::Least,
            general: Value {
                written: &["1.05"],
                source: Source::COMMON_PRACTICE,
            },
            regions: &[],
        },
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
    let (loose_shown, compacted_shown) =
        (context.show(&loose.value), context.show(&compacted.value));
    let figures = format!(
        "{} weighs {compacted_shown} compacted and {loose_shown} loose",
        material.name
    );
    let shown = format!("{ratio:.2}");
    let figure = Number::near(ratio).map(Quantity::plain);
    if ratio < 1.0 {
        let message =
            format!("{figures}: nothing grows lighter when it is compacted; are they swapped?");
        found.add(
            DENSITY_PAIR
                .finding(place, message)
                .severity(Severity::Error)
                .found(shown, figure),
        );
        return;
    }
    let is_open = material.kind.is_some_and(Kind::is_open_graded);
    for row in ["most", "least"] {
        if row == "least" && is_open {
            continue;
        }
        let Some(limit) = context.limit(&DENSITY_PAIR, row) else {
            continue;
        };
        if !limit.allows_si(ratio) {
            let message = format!(
                "{figures}, {shown} times as much; usual is {}: check both figures",
                limit_in_words(&limit, context),
            );
            found.add(
                DENSITY_PAIR
                    .finding(place, message)
                    .found(shown.clone(), figure)
                    .against(&limit, context),
            );
        }
    }
}

/// The line of the checked file that states a figure.
fn stated<T: Copy>(sourced: &Sourced<T>) -> Option<Place> {
    sourced
        .origin
        .place()
        .filter(|place| is_in_checked_file(*place))
}
