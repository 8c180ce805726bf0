//! `kerb-straight`: straight kerbs along a curve that is too tight for them.

use crate::findings::Severity;
use crate::geometry::Edge;
use crate::model::{Edging, Surface};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::spelled_in;

const UK_ADVISER: Source = Source::read(
    "A British paving trade adviser's page on curves",
    "straight kerb units from a radius of 12 m up",
);

/// Straight kerbs along a curve that is too tight for them.
pub(crate) static KERB_STRAIGHT: Rule = Rule {
    name: "kerb-straight",
    family: Family::Edges,
    severity: Severity::Advisory,
    looks_at: "Kerbs of half a metre and more along a curve, where the size of one is known. The limit is for kerbs 915 mm long, and in proportion for others.",
    reason: "Straight kerbs make corners of a curve: their joints gape at the outside and the paving behind them has to be cut to each.",
    remedy: "Order radius kerbs for the curve, or shorter units; or take a larger radius.",
    limits: &[Limit {
        row: "plain",
        of: "the radius along which straight kerbs 915 mm long are laid",
        bound: Bound::Least,
        general: Value {
            written: &["12 m", "40 ft"],
            source: UK_ADVISER,
        },
        regions: &[],
    }],
    sources: &[UK_ADVISER],
    breaks: "material kerb
  like         concrete-kerb
  unit         125 mm by 255 mm by 915 mm

shape court
  circle       radius 3.5 m, centre (3 m, 2 m)
  # no rectangle

surface court
  # no meets
  level        -160 mm at (3 m, 2 m)
  fall         1:50 toward south
  «edging       kerb, along rim»
",
    keeps: "material kerb
  like         concrete-kerb
  unit         125 mm by 255 mm by 915 mm

shape court
  circle       radius 14 m, centre (3 m, 2 m)
  # no rectangle

surface court
  # no meets
  level        -160 mm at (3 m, 2 m)
  fall         1:50 toward south
  edging       kerb, along rim
",
    mended: None,
    check: Check::Surface(check),
};

/// How long the kerbs are that the limit is for, in metres.
const USUAL: f64 = 0.915;

/// Shorter ones follow a curve, in metres.
const SHORT: f64 = 0.5;

fn check(context: &Context<'_>, surface: &Surface, found: &mut Found) {
    let Some(limit) = context.limit(&KERB_STRAIGHT, "plain") else {
        return;
    };
    let kerbs = surface
        .edgings
        .iter()
        .filter(|own| own.stands_in_concrete());
    for (edging, long) in kerbs.filter_map(|own| Some((own, length(own)?))) {
        let is_own = |edge: &&Edge| edge.is_arc() && edging.along.contains(&edge.tag);
        let radii = surface.edges().filter(is_own).map(Edge::radius);
        let least = limit.value.si() * long / USUAL;
        let Some(tightest) = radii.reduce(f64::min).filter(|own| *own < least) else {
            continue;
        };
        let shown = context.show_length(tightest);
        let kerb = spelled_in(context.region(), "kerb");
        let message = format!(
            "straight {kerb}s of {} do not follow a radius of {shown}; {} is the least: order radius {kerb}s",
            context.show_length(long),
            context.show_length((least * 10.0).ceil() / 10.0),
        );
        found.add(
            KERB_STRAIGHT
                .finding(edging.place, message)
                .found(shown, Quantity::near(tightest, Dimension::LENGTH))
                .against(&limit, context),
        );
    }
}

/// How long a kerb is, in metres, if it is long and that is known.
fn length(edging: &Edging) -> Option<f64> {
    let (length, _) = edging.material.value.material()?.unit.as_ref()?;
    Some(length.value.si()).filter(|length| *length >= SHORT)
}
