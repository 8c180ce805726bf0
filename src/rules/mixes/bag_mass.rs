//! `bag-mass`: a bag whose mass is not to be believed.

use crate::findings::{Finding, Fix, Place, Severity};
use crate::materials::Kind;
use crate::model::{Material, Sold};
use crate::rules::construction::is_in_checked_file;
use crate::rules::documents::BAG_YIELDS;
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Number, Quantity};

/// A bag whose mass is not to be believed.
pub(crate) static BAG_MASS: Rule = Rule {
    name: "bag-mass",
    family: Family::Mixes,
    severity: Severity::Warning,
    looks_at: "What is in a bag: mortar, concrete or bond coat against what the bag makes, and any bag of sand, stone or binder under 2 kg.",
    reason: "Bags are counted by what is in one; a wrong figure leaves the job short or buries it in bags.",
    remedy: "Check mass and yield as printed on the bag.",
    limits: &[
        Limit::practice(
            "plain",
            "how far the mass of a bag may be from its yield times the density",
            Bound::Most,
            &["15 %"],
        ),
        Limit::practice(
            "light",
            "a bag of sand, stone or binder",
            Bound::Least,
            &["2 kg", "4 lb"],
        ),
    ],
    sources: &[BAG_YIELDS, Source::COMMON_PRACTICE],
    breaks: "surface court
  build        mortar-set
  joint        10 mm, filled with bagged-mortar

material bagged-mortar
  sold         by bag of 25 kg, makes «25 L»
",
    keeps: "surface court
  build        mortar-set
  joint        10 mm, filled with bagged-mortar

material bagged-mortar
  sold         by bag of 25 kg, makes 12.5 L
",
    mended: None,
    check: Check::Material(check),
};

fn check(context: &Context<'_>, material: &Material, found: &mut Found) {
    let mut times = 1.0;
    if let Some(finding) = too_light(context, material) {
        // What it makes is then held to as many kilograms.
        let is_slip = !finding.fixes.is_empty();
        found.add(finding);
        if !is_slip {
            return;
        }
        times = 1000.0;
    }
    let Some((mass, makes, density, place)) = bag(material) else {
        return;
    };
    let mass = mass * times;
    let Some(limit) = context.limit(&BAG_MASS, "plain") else {
        return;
    };
    let expected = makes * density;
    let off = (mass - expected).abs() / expected;
    if !off.is_finite() || limit.allows_si(off) {
        return;
    }
    let figure = |value: f64, dimension: Dimension| {
        Quantity::near(value, dimension).map_or_else(String::new, |value| context.show(&value))
    };
    let shown = limit.beside_si((off * 100.0).round() / 100.0, context.system());
    let message = format!(
        "{} of {} cannot make {} at {}: it is {shown} off. Check both on the bag",
        figure(mass, Dimension::MASS),
        material.name,
        figure(makes, Dimension::VOLUME),
        figure(density, Dimension::DENSITY),
    );
    found.add(
        BAG_MASS
            .finding(place, message)
            .found(shown, Number::near(off).map(Quantity::proportion))
            .against(&limit, context),
    );
}

/// The finding of a pack of so little that another unit must be meant.
fn too_light(context: &Context<'_>, material: &Material) -> Option<Finding> {
    let is_heavy = |kind: Kind| kind.is_granular() || kind.is_binder() || kind.is_premix();
    material.kind.filter(|kind| is_heavy(*kind))?;
    let Sold::Pack(pack) = &material.sold.as_ref()?.value else {
        return None;
    };
    let place = pack.place.filter(|place| is_in_checked_file(*place))?;
    let limit = context.limit(&BAG_MASS, "light")?;
    if pack.content.dimension != Dimension::MASS || limit.allows(&pack.content) {
        return None;
    }
    let shown = limit.beside(&pack.content, context.system());
    let message = format!(
        "a {} of {} holds more than {shown}: is another unit meant?",
        pack.word, material.name
    );
    let finding = BAG_MASS
        .finding(place, message)
        .found(shown, Some(pack.content))
        .against(&limit, context);
    let kilograms = pack.content.si() * 1000.0;
    let is_whole = (kilograms - kilograms.round()).abs() < 1e-6 && kilograms >= 2.0;
    Some(match is_whole {
        true => {
            let text = format!("{kilograms:.0} kg");
            finding.fix(Fix::judged(format!("Write {text}"), place, text))
        }
        false => finding,
    })
}

/// Mass, yield and density of a bag blended dry, in SI, and the line of the
/// checked file that states its yield or its mass.
fn bag(material: &Material) -> Option<(f64, f64, f64, Place)> {
    material.kind.filter(|kind| Kind::is_premix(*kind))?;
    let sold = material.sold.as_ref()?;
    let Sold::Pack(pack) = &sold.value else {
        return None;
    };
    let makes = material.makes.as_ref()?;
    let density = material.density.as_ref()?;
    let stated = [makes.origin.place(), sold.origin.place()];
    let place = stated
        .into_iter()
        .flatten()
        .find(|place| is_in_checked_file(*place))?;
    let is_by_mass = pack.content.dimension == Dimension::MASS;
    let (mass, makes, density) = (pack.content.si(), makes.value.si(), density.value.si());
    (is_by_mass && mass > 0.0 && makes > 0.0 && density > 0.0)
        .then_some((mass, makes, density, place))
}
