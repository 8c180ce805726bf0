//! `taper-wide`: a border whose joints open or close too much on a curve.

use crate::findings::Severity;
use crate::model::{Stated, Substance, Surface};
use crate::quantities::{BorderFigures, Taper};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::{Region, Source};
use crate::units::{Dimension, Quantity};

const QUOTED: Source = Source::second_hand(
    "BS 7533-3, Code of practice for laying precast concrete paving blocks and clay pavers",
    "joints of 2 to 5 mm, as a UK paving adviser quotes it for blocks on curves",
);

const ON_SITE: Source = Source::read(
    "A British block paving firm's page on curves",
    "joints of 10 mm at the wide end, 2.1 m the least radius of blocks laid across",
);

/// A border whose joints open or close too much on a curve.
pub(crate) static TAPER_WIDE: Rule = Rule {
    name: "taper-wide",
    family: Family::Joints,
    severity: Severity::Warning,
    looks_at: "The joints of a border on a curve, at the tighter and at the wider side of each course. Mortar takes up a taper, but no units that overlap.",
    reason: "A wedge of sand washes out at its wide end, and where units touch at the other they spall.",
    remedy: "Take a larger radius, smaller or tapered units, or lay them along the edge.",
    limits: &[
        Limit {
            row: "wide",
            of: "the joint at the wider side of a course",
            bound: Bound::Most,
            general: Value {
                written: &["10 mm", "3/8 in"],
                source: ON_SITE,
            },
            regions: &[(
                Region::Uk,
                Value {
                    written: &["5 mm"],
                    source: QUOTED,
                },
            )],
        },
        Limit {
            row: "tight",
            of: "the joint at the tighter side of a course",
            bound: Bound::Least,
            general: Value::practice(&["1 mm", "1/32 in"]),
            regions: &[(
                Region::Uk,
                Value {
                    written: &["2 mm"],
                    source: QUOTED,
                },
            )],
        },
    ],
    sources: &[QUOTED, ON_SITE],
    breaks: "shape court
  circle       radius 1.5 m, centre (3 m, 2 m)
  # no rectangle

surface court
  # no meets
  level        -160 mm at (3 m, 2 m)
  fall         1:50 toward south
  «border       clay-paver, soldier, units 200 mm by 100 mm, along rim»
",
    keeps: "shape court
  circle       radius 3.5 m, centre (3 m, 2 m)
  # no rectangle

surface court
  # no meets
  level        -160 mm at (3 m, 2 m)
  fall         1:50 toward south
  border       clay-paver, soldier, units 200 mm by 100 mm, along rim
",
    mended: None,
    check: Check::Surface(check),
};

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let filling = surface
        .joint
        .as_ref()
        .and_then(|joint| joint.filling.as_ref());
    // What nobody knows may be a mix.
    let may_be_mix = |filling: &Stated<Substance>| match &filling.value {
        Substance::Mix(_) | Substance::Unknown(_) => true,
        Substance::Material(material) => material.kind.is_none(),
    };
    let takes_up_taper = filling.is_some_and(may_be_mix);
    let figures = context.figures.surfaces.get(surface.index);
    for border in figures.into_iter().flat_map(|figures| &figures.borders) {
        let is_told = overlaps(context, border, found) || takes_up_taper;
        if !is_told && !opens_too_far(context, border, found) {
            closes_too_far(context, border, found);
        }
    }
}

/// Tells of units that would lie in one another's place; whether they do.
fn overlaps(context: &Context<'_>, border: &BorderFigures, found: &mut Found) -> bool {
    let Some(taper) = border.taper.filter(|taper| taper.tight_m < -OVERLAP) else {
        return false;
    };
    let over = context.show_length(-taper.tight_m);
    let message = format!(
        "these units do not fit the curve: with joints of {} at the wider side they overlap by {over} at the tighter one. Take a larger radius or smaller units, or cut them to the taper",
        context.show_length(taper.wide_m)
    );
    found.add(
        TAPER_WIDE
            .finding(border.place, message)
            .severity(Severity::Error)
            .found(
                format!("-{over}"),
                Quantity::near(taper.tight_m, Dimension::LENGTH),
            ),
    );
    true
}

/// What units may overlap, in metres, for rounding.
const OVERLAP: f64 = 1e-4;

/// Tells of a joint that opens too far; whether it does.
fn opens_too_far(context: &Context<'_>, border: &BorderFigures, found: &mut Found) -> bool {
    let limit = context.limit(&TAPER_WIDE, "wide");
    let Some((taper, limit)) = border.taper.zip(limit) else {
        return false;
    };
    if limit.allows_si(taper.wide_m) {
        return false;
    }
    let shown = limit.beside_si(taper.wide_m, context.system());
    let most = limit.shown(context.system());
    let mend = mend(context, &taper, limit.value.si());
    let message = format!("joints open to {shown} on the curve; {most} is the most: {mend}");
    found.add(
        TAPER_WIDE
            .finding(border.place, message)
            .found(shown, Quantity::near(taper.wide_m, Dimension::LENGTH))
            .against(&limit, context),
    );
    true
}

/// What to do of a joint that opens past `most` metres: to narrow it, if the
/// curve takes that, else what the curve or the units have to be.
fn mend(context: &Context<'_>, taper: &Taper, most: f64) -> String {
    let closest = context.limit(&TAPER_WIDE, "tight");
    let closest = closest.map_or(taper.tight_m, |limit| limit.value.si().min(taper.tight_m));
    let own = taper.radius_m(taper.tight_m, taper.wide_m);
    let least = taper.radius_m(closest, most);
    let is_laid_across = taper.deep_m > taper.along_m;
    let units = if is_laid_across {
        "stretchers"
    } else {
        "smaller units"
    };
    match (own, least) {
        (Some(own), Some(least)) if own >= least => "narrow the joint".to_owned(),
        (_, Some(least)) => {
            let least = (least * 100.0 - 1e-6).ceil() / 100.0;
            format!(
                "at {} it takes a radius of {}; else take {units}, or cut to the taper",
                context.show_length(closest),
                context.show_length(least)
            )
        }
        _ => format!("take {units}, or cut them to the taper"),
    }
}

/// Tells of a joint that closes too far.
fn closes_too_far(context: &Context<'_>, border: &BorderFigures, found: &mut Found) {
    let limit = context.limit(&TAPER_WIDE, "tight");
    let Some((taper, limit)) = border.taper.zip(limit) else {
        return;
    };
    if limit.allows_si(taper.tight_m) {
        return;
    }
    let shown = limit.beside_si(taper.tight_m.max(0.0), context.system());
    let message = format!(
        "the joints of this border close to {shown} on the curve; {} is the least: widen the joint, or state it at the tighter side",
        limit.shown(context.system()),
    );
    found.add(
        TAPER_WIDE
            .finding(border.place, message)
            .found(shown, Quantity::near(taper.tight_m, Dimension::LENGTH))
            .against(&limit, context),
    );
}
