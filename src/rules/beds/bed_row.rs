//! Which limits a bed is held to: by what it is made of and what lies on it.

use crate::findings::{Finding, Fix};
use crate::materials::Kind;
use crate::model::{Build, Layer, State};
use crate::rules::construction::{
    compacted_m, is_in_checked_file, is_mortar, is_open_graded, is_sand, unit_kind,
};
use crate::rules::ground::is_filled_when_thinner;
use crate::rules::wording::{large_units, limit_as_written};
use crate::rules::{Bound, Context, InForce, Rule};
use crate::text::{capital, with_article};
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Role;

/// The row of the limits that a bed is held to, and the bed in words.
pub(super) fn bed_row(build: &Build, bed: &Layer) -> Option<(&'static str, &'static str)> {
    let units = unit_kind(build)?;
    let of = &bed.of.value;
    let is_dust = of.kind() == Some(Kind::StoneDust);
    if is_sand(of) || is_dust {
        return match units {
            Kind::ConcretePaver | Kind::ClayPaver => Some(("pavers", "under pavers")),
            Kind::ConcreteFlag | Kind::NaturalStone | Kind::Porcelain => {
                Some(("flags", "under flags"))
            }
            Kind::Sett => Some(("setts", "under setts")),
            _ => None,
        };
    }
    if is_open_graded(of) && units.is_paver() {
        return Some(("chips", "under pavers"));
    }
    // A thin coat is no bed of mortar, whatever role it is given.
    let is_coat = of.kind().is_some_and(Kind::is_bond_coat);
    if is_mortar(of) && !is_coat {
        return match units {
            Kind::ClayPaver => Some(("brick", "under brick")),
            Kind::ConcretePaver => None,
            _ => Some(("stone", "under stone")),
        };
    }
    None
}

/// The finding of a bed that misses a limit of a rule, if it does: `verb`
/// says what to do about it, `thin` or `thicken`.
pub(super) fn bed_finding(
    rule: &'static Rule,
    verb: &str,
    context: &Context<'_>,
    build: &Build,
    bed: &Layer,
) -> Option<Finding> {
    let thickness = bed.thickness.as_ref()?;
    if bed.role.value != Role::Bed || bed.existing.is_some() {
        return None;
    }
    let (row, under) = bed_row(build, bed)?;
    let limit = context.limit(rule, row)?;
    // The figures are those of cement, which shrinks; lime is laid thicker.
    if limit.bound == Bound::Most && bed.of.value.sets_with_lime() {
        return None;
    }
    let metres = compacted_m(bed);
    if limit.allows_si(metres) {
        return None;
    }
    let shown = limit.beside_si(metres, context.system());
    let bed_of = match row {
        "brick" | "stone" => "mortar",
        "chips" => "stone",
        _ => "sand",
    };
    let (too, side) = match limit.bound {
        Bound::Least => ("thin", "least"),
        Bound::Most => ("thick", "most"),
    };
    let under = match row {
        "flags" => format!("under {}", large_units(unit_kind(build), context)),
        _ => under.to_owned(),
    };
    let message = format!(
        "{} {bed_of} bed is too {too} {under}; {} is the {side}: {verb} it",
        with_article(&shown),
        limit.shown(context.system()),
    );
    let finding = rule
        .finding(thickness.place, message)
        .found(shown, Quantity::near(metres, Dimension::LENGTH))
        .against(&limit, context);
    let thinner = metres - limit.value.si();
    let is_filled = is_filled_when_thinner(context, build, thinner);
    let fix = to_the_limit(verb, bed, &limit, context).filter(|_| !is_filled);
    Some(match fix {
        Some(fix) => finding.fix(fix),
        None => finding,
    })
}

fn to_the_limit(verb: &str, bed: &Layer, limit: &InForce, context: &Context<'_>) -> Option<Fix> {
    let place = bed.thickness.as_ref()?.place;
    let is_spread = bed.state.as_ref().map(|state| state.value) == Some(State::Loose);
    if is_spread || !is_in_checked_file(place) {
        return None;
    }
    let text = limit_as_written(limit, context);
    let title = format!("{} the bed to {text}", capital(verb));
    Some(Fix::judged(title, place, text))
}
