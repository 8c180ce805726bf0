//! `lift-thick`: a lift too thick to compact through.

use crate::findings::{Fix, Severity};
use crate::model::{Build, Layer, Region, State, Surface};
use crate::rules::construction;
use crate::rules::documents::{LIFTS_FOUR_INCHES, nhbc};
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value};
use crate::sources::Source;
use crate::text::with_article;
use crate::units::{Dimension, Quantity};

const NHBC_LAYERS: Source = nhbc("10.2.6 (2021), hardcore compacted by mechanical plant");

/// What Australian plates compact in ordinary work.
const AS_LAYERS: Source =
    Source::memory("AS 2870 (Australia)", "fill compacted in layers of 150 mm");

/// A lift too thick to compact through.
pub(crate) static LIFT_THICK: Rule = Rule {
    name: "lift-thick",
    family: Family::Base,
    severity: Severity::Warning,
    looks_at: "The lifts that a base is compacted in, and a base thicker than any machine compacts at once with no lifts given. Not open-graded stone.",
    reason: "A compactor reaches only so deep: the bottom of a thick lift stays loose and settles later.",
    remedy: "Spread and compact the base in more lifts.",
    limits: &[
        Limit {
            row: "plate",
            of: "a lift under a plate compactor",
            bound: Bound::Most,
            general: Value {
                written: &["100 mm", "4 in"],
                source: LIFTS_FOUR_INCHES,
            },
            regions: &[
                (
                    Region::Uk,
                    Value {
                        written: &["225 mm"],
                        source: NHBC_LAYERS,
                    },
                ),
                (
                    Region::Au,
                    Value {
                        written: &["150 mm"],
                        source: AS_LAYERS,
                    },
                ),
            ],
        },
        Limit {
            row: "plant",
            of: "a lift under any machine",
            bound: Bound::Most,
            general: Value {
                written: &["225 mm"],
                source: NHBC_LAYERS,
            },
            regions: &[],
        },
    ],
    sources: &[LIFTS_FOUR_INCHES, NHBC_LAYERS, AS_LAYERS],
    breaks: "build sand-set
  base         crushed-stone, 150 mm compacted, lifts «1», beyond 150 mm
",
    keeps: "build sand-set
  base         crushed-stone, 200 mm compacted, lifts 2, beyond 200 mm
",
    mended: Some(
        "build sand-set
  base         crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm
",
    ),
    check: Check::Layer(check),
};

fn check(
    context: &Context<'_>,
    _surface: &Surface,
    _build: &Build,
    layer: &Layer,
    found: &mut Found,
) {
    let is_open = layer
        .of
        .value
        .kind()
        .is_some_and(|kind| kind.is_open_graded());
    if !construction::is_base(layer) || layer.existing.is_some() || is_open {
        return;
    }
    let (Some(plate), Some(plant)) = (
        context.limit(&LIFT_THICK, "plate"),
        context.limit(&LIFT_THICK, "plant"),
    ) else {
        return;
    };
    match &layer.lifts {
        Some(lifts) if lifts.value.si() >= 1.0 => {
            counted(context, layer, lifts.value.si(), [plate, plant], found);
        }
        Some(_) => {}
        None if layer.may_say("lifts") => {}
        None => uncounted(context, layer, [&plate, &plant], found),
    }
}

/// A base whose lifts are counted.
fn counted(
    context: &Context<'_>,
    layer: &Layer,
    count: f64,
    [plate, plant]: [InForce; 2],
    found: &mut Found,
) {
    let Some(lifts) = &layer.lifts else { return };
    let thickness = construction::compacted_m(layer);
    let lift = thickness / count;
    let fix = lifts_wanted(thickness, &plate)
        .filter(|_| construction::is_in_checked_file(lifts.place))
        .map(|wanted| {
            let title = format!("Compact it in {wanted} lifts");
            Fix::judged(title, lifts.place, wanted)
        });
    let (limit, severity, what) = if !plant.allows_si(lift) {
        (plant, Severity::Error, "no machine compacts")
    } else if !plate.allows_si(lift) {
        (plate, Severity::Warning, "a plate will not compact")
    } else {
        return;
    };
    let shown = limit.beside_si(lift, context.system());
    let message = format!(
        "{what} {} lift right through; {} is the most: use more lifts",
        with_article(&shown),
        limit.shown(context.system()),
    );
    let finding = LIFT_THICK
        .finding(lifts.place, message)
        .severity(severity)
        .found(shown, Quantity::near(lift, Dimension::LENGTH))
        .against(&limit, context);
    found.add(match fix {
        Some(fix) => finding.fix(fix),
        None => finding,
    });
}

/// A base of which nothing says that it is compacted in lifts.
fn uncounted(
    context: &Context<'_>,
    layer: &Layer,
    [plate, plant]: [&InForce; 2],
    found: &mut Found,
) {
    let Some(stated) = &layer.thickness else {
        return;
    };
    let thickness = construction::compacted_m(layer);
    if plant.allows_si(thickness) {
        return;
    }
    let shown = plant.beside_si(thickness, context.system());
    let message = format!(
        "{shown} of base and no lifts given; no machine compacts more than {} at once: say how many lifts",
        plant.shown(context.system()),
    );
    let finding = LIFT_THICK
        .finding(stated.place, message)
        .found(shown, Quantity::near(thickness, Dimension::LENGTH))
        .against(plant, context);
    let end = match &layer.state {
        Some(state) if state.value == State::Compacted => state.place.end(),
        Some(_) => return found.add(finding),
        None => stated.place.end(),
    };
    let wanted = lifts_wanted(thickness, plate);
    found.add(
        match wanted.filter(|_| construction::is_in_checked_file(stated.place)) {
            Some(wanted) => {
                let title = format!("Compact it in {wanted} lifts");
                finding.fix(Fix::judged(title, end, format!(", lifts {wanted}")))
            }
            None => finding,
        },
    );
}

/// As many lifts as keep the limit of a plate compactor.
fn lifts_wanted(thickness: f64, plate: &InForce) -> Option<String> {
    let wanted = (thickness / plate.value.si() - 1e-9).ceil();
    (2.0..=20.0).contains(&wanted).then(|| format!("{wanted}"))
}
