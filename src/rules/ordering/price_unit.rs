//! `price-unit`: a price per something that is not what is bought.

use super::uses::{Use, uses};
use crate::findings::Severity;
use crate::model::{Material, Sold, Stated};
use crate::rules::construction::is_in_checked_file;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};

/// A price per something that is not what is bought.
pub static PRICE_UNIT: Rule = Rule {
    name: "price-unit",
    family: Family::Ordering,
    severity: Severity::Error,
    looks_at: "A price per a unit or pack that the material is neither sold by nor can be turned into with what is known: its density, thickness, unit size or coverage.",
    reason: "The order is worked out in what is sold; without a way from one to the other there is no cost.",
    remedy: "Price it by what it is sold by, or state what turns one into the other.",
    limits: &[],
    sources: &[Source::computed("the dimensions of the price and of what is sold")],
    breaks: "material concrete-paver
  sold         by m2
  price        «£31/m»
",
    keeps: "material concrete-paver
  sold         by m2
  price        £31/m2
",
    mended: None,
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    for material in context.job.materials.values() {
        let Some(price) = &material.price else {
            continue;
        };
        let uses = uses(context.job, material);
        if uses.is_empty() || !is_in_checked_file(price.place) {
            continue;
        }
        if let Some(trouble) = trouble(material, price, &uses, context) {
            found.add(PRICE_UNIT.finding(price.place, trouble));
        }
    }
}

fn trouble(
    material: &Material,
    price: &Stated<Quantity>,
    uses: &[Use],
    context: &Context<'_>,
) -> Option<String> {
    let name = &material.name;
    let Some(sold) = material.sold.as_ref().map(|sold| &sold.value) else {
        return match (&material.price_pack, per(price)) {
            (None, Some(Dimension::NONE)) => Some(format!(
                "{name} has a price and nothing says for how much: state what it is sold by"
            )),
            _ => None,
        };
    };
    if let Some(pack) = &material.price_pack {
        let is_sold = matches!(sold, Sold::Pack(other) if other.word == *pack);
        return (!is_sold).then(|| {
            format!(
                "{name} is priced per {pack} and sold {}: price it by what it is sold by",
                in_words(sold)
            )
        });
    }
    let per = per(price)?;
    if per.is_none() || reachable(material, sold, uses).contains(&per) {
        return None;
    }
    Some(format!(
        "{name} is priced at {} and sold {}, and nothing known turns one into the other: price it by what it is sold by",
        context.show(&price.value),
        in_words(sold)
    ))
}

/// What a price is per: nothing where it is for one sold unit.
fn per(price: &Stated<Quantity>) -> Option<Dimension> {
    Dimension::MONEY.divided_by(price.value.dimension)
}

fn in_words(sold: &Sold) -> String {
    match sold {
        Sold::Unit(unit) => format!("by {}", unit.symbol),
        Sold::Each => "by the piece".to_owned(),
        Sold::Pack(pack) => format!("by the {}", pack.word),
    }
}

/// The dimensions that an ordered amount can be told in.
fn reachable(material: &Material, sold: &Sold, uses: &[Use]) -> Vec<Dimension> {
    let mut known = vec![match sold {
        Sold::Unit(unit) => unit.dimension,
        Sold::Each => Dimension::NONE,
        Sold::Pack(pack) => pack.content.dimension,
    }];
    let mut ways: Vec<(Dimension, Dimension)> = Vec::new();
    if material.density.is_some() {
        ways.push((Dimension::MASS, Dimension::VOLUME));
    }
    if uses.iter().any(|used| used.thickness.is_some()) {
        ways.push((Dimension::VOLUME, Dimension::AREA));
    }
    if material.covers.is_some() {
        ways.push((Dimension::MASS, Dimension::AREA));
    }
    if material.unit.is_some() {
        ways.push((Dimension::NONE, Dimension::AREA));
    }
    if material.makes.is_some() {
        known.push(Dimension::VOLUME);
    }
    // Each way is taken once at most, so that as many rounds as there are
    // ways reach everything.
    for _ in 0..ways.len() {
        for (one, other) in &ways {
            if known.contains(one) != known.contains(other) {
                known.extend([*one, *other]);
            }
        }
    }
    known
}
