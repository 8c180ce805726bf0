//! How much sand, or stone, a mix has to its binder, by volume.

use super::each_use;
use crate::findings::{Finding, Severity};
use crate::materials::Kind;
use crate::model::{Consistency, Measure, Mix, MixPart, MixUse, Stated, UsedAs};
use crate::rules::{Bound, Context, InForce, Rule};
use crate::units::{Number, Quantity};
use crate::vocabulary::{Role, Term};

/// Parts of sand to one part of binder by loose volume: cement and lime
/// together. `None` for concrete, for bags that are blended already, and
/// where the parts, or the kind or density of one, are not known.
pub(super) fn sand_to_binder(mix: &Mix) -> Option<f64> {
    filler_to_binder(mix, |kind| kind.is_sand() || kind == Kind::StoneDust)
}

/// The same of concrete: its sand and its stone, measured apart.
fn aggregate_to_binder(mix: &Mix) -> Option<f64> {
    filler_to_binder(mix, Kind::is_granular)
}

fn filler_to_binder(mix: &Mix, is_filler: fn(Kind) -> bool) -> Option<f64> {
    if mix.are_parts_unread {
        return None;
    }
    let (mut filler, mut binder) = (0.0, 0.0);
    for part in &mix.parts {
        let kind = part.material.as_ref()?.kind?;
        let volume = volume(mix, part)?;
        if kind.is_binder() {
            binder += volume;
        } else if is_filler(kind) {
            filler += volume;
        } else {
            return None;
        }
    }
    let has_cement = mix.amount_of(|kind| kind != Kind::Lime && kind.is_binder()) > 0.0;
    (has_cement && binder > 0.0 && filler.is_finite()).then(|| filler / binder)
}

fn volume(mix: &Mix, part: &MixPart) -> Option<f64> {
    let amount = part.amount.value.si();
    match mix.measure {
        Measure::Volume => Some(amount),
        Measure::Weight => {
            let density = part.material.as_ref()?.density.as_ref()?.value.si();
            (density > 0.0).then(|| amount / density)
        }
    }
}

/// The row of a use of a mix, and the use in words.
fn row(mix: &Mix, used: MixUse) -> Option<(&'static str, &'static str)> {
    if used != MixUse::Slab && mix.is_of_hydraulic_lime() {
        return Some(("lime", "lime mortar"));
    }
    let is_dry = mix.consistency.as_ref().map(|stated| stated.value) == Some(Consistency::Dry);
    match used {
        MixUse::Bed if is_dry => Some(("dry-bed", "a dry bed")),
        MixUse::Bed => Some(("bed", "a bed")),
        MixUse::Joint => Some(("joint", "joints")),
        MixUse::Bond => Some(("bond", "a bond coat")),
        MixUse::Slurry => Some(("slurry", "a slurry")),
        MixUse::Slab => Some(("slab", "a slab")),
    }
}

/// What a mix is laid as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Laid {
    /// What `for` has a word for.
    As(MixUse),
    /// What an edging stands in.
    Kerb,
    /// What a drain is laid in.
    Bedding,
}

/// What a mix is used for: as it says itself, and as the job lays it.
fn uses(context: &Context<'_>, mix: &Mix) -> Vec<Stated<Laid>> {
    let stated = mix.uses.iter();
    let stated = stated.map(|own| Stated::new(Laid::As(own.value), own.place));
    let mut uses: Vec<Stated<Laid>> = stated.collect();
    each_use(context, mix, |_, used| {
        let laid = match used.used {
            UsedAs::Layer(Role::Bed) => Laid::As(MixUse::Bed),
            UsedAs::Layer(Role::Bond) => Laid::As(MixUse::Bond),
            UsedAs::Layer(Role::Slurry) => Laid::As(MixUse::Slurry),
            UsedAs::Layer(Role::Slab) | UsedAs::Core => Laid::As(MixUse::Slab),
            UsedAs::Joint => Laid::As(MixUse::Joint),
            UsedAs::Footing => Laid::Kerb,
            UsedAs::Bedding => Laid::Bedding,
            _ => return,
        };
        if !uses.iter().any(|known| known.value == laid) {
            uses.push(Stated::new(laid, used.of.place));
        }
    });
    uses
}

/// The finding of a mix that misses a limit of a rule for one of its uses.
pub(super) fn proportion_finding(
    rule: &'static Rule,
    context: &Context<'_>,
    mix: &Mix,
) -> Option<Finding> {
    let place = mix.parts_place.unwrap_or(mix.name.place);
    uses(context, mix).iter().find_map(|used| {
        let (ratio, (row, words)) = match used.value {
            Laid::Kerb => (
                aggregate_to_binder(mix)?,
                ("kerb", "the concrete of an edging"),
            ),
            Laid::Bedding => (
                aggregate_to_binder(mix)?,
                ("kerb", "the concrete round a drain"),
            ),
            Laid::As(MixUse::Slab) => (aggregate_to_binder(mix)?, row(mix, MixUse::Slab)?),
            Laid::As(used) => (sand_to_binder(mix)?, row(mix, used)?),
        };
        let limit = context.limit(rule, row)?;
        if limit.allows_si(ratio) {
            return None;
        }
        let (count, shown) = parts(ratio, &limit);
        let (too, side, remedy) = match limit.bound {
            Bound::Least if ratio < 1.0 => ("rich", "least", "are the parts the wrong way round?"),
            Bound::Least if matches!(row, "slab" | "kerb") => {
                ("rich", "least", "use more sand and stone")
            }
            Bound::Least => ("rich", "least", "use more sand"),
            Bound::Most if row == "lime" => ("lean", "most", "use more lime"),
            Bound::Most => ("lean", "most", "use more cement"),
        };
        let words = match row {
            "dry-bed" => format!("a {} bed", context.word(Term::DryMix)),
            _ => words.to_owned(),
        };
        let message = format!(
            "{count} to 1 is too {too} for {words}; {} to 1 is the {side}: {remedy}",
            limit.shown(context.system()),
        );
        // More cement than sand is a slip of the pen, and no choice.
        let severity = match ratio < 1.0 {
            true => rule.severity.max(Severity::Warning),
            false => rule.severity,
        };
        Some(
            rule.finding(place, message)
                .severity(severity)
                .found(shown, Number::near(ratio).map(Quantity::plain))
                .against(&limit, context)
                .related(used.place, "its use"),
        )
    })
}

/// So many parts of a ratio that misses a limit, as a bare number and in
/// words: `4.5` and `4.5 parts`.
pub(super) fn parts(ratio: f64, limit: &InForce) -> (String, String) {
    let count = limit.beside_ratio(ratio, 2);
    let words = match count.as_str() {
        "1" => "1 part".to_owned(),
        count => format!("{count} parts"),
    };
    (count, words)
}

#[cfg(test)]
mod tests {
    use super::parts;
    use crate::model::Region;
    use crate::rules::{Limits, find};

    #[test]
    fn parts_are_counted_in_words() {
        let rule = find("mix-lean").unwrap();
        let most = Limits::default().in_force(rule, "bed", Region::General);
        for (ratio, words) in [
            (1.0, "1 part"),
            (7.0, "7 parts"),
            (10.0, "10 parts"),
            (4.5, "4.5 parts"),
            (2.666_7, "2.67 parts"),
            (0.0, "0 parts"),
            // The most is 5.
            (5.002, "5.002 parts"),
        ] {
            assert_eq!(parts(ratio, most.as_ref().unwrap()).1, words);
        }
    }
}
