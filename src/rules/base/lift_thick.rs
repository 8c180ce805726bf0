//! `lift-thick`: a lift too thick to compact through.

use crate::findings::{Fix, Severity};
use crate::model::{Build, Layer, Surface};
use crate::rules::construction;
use crate::rules::documents::{LIFTS_FOUR_INCHES, nhbc};
use crate::rules::wording::limit_in_words;
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value};
use crate::units::{Dimension, Quantity};

/// A lift too thick to compact through.
pub static LIFT_THICK: Rule = Rule {
    name: "lift-thick",
    family: Family::Base,
    severity: Severity::Warning,
    looks_at: "The thickness of each lift of a base whose number of lifts is stated.",
    reason: "A compactor reaches only so deep: the bottom of a thick lift stays loose and settles under the paving later.",
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
            regions: &[],
        },
        Limit {
            row: "plant",
            of: "a lift under any plant",
            bound: Bound::Most,
            general: Value {
                written: &["225 mm"],
                source: nhbc("10.2.6 (2021), hardcore compacted by mechanical plant"),
            },
            regions: &[],
        },
    ],
    sources: &[
        LIFTS_FOUR_INCHES,
        nhbc("10.2.6 (2021), hardcore compacted by mechanical plant"),
    ],
    breaks: "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         crushed-stone, 150 mm compacted, lifts «1», beyond 150 mm
",
    keeps: "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         crushed-stone, 200 mm compacted, lifts 2, beyond 200 mm
",
    mended: Some(
        "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
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
    let Some(lifts) = &layer.lifts else { return };
    let is_open = layer
        .of
        .value
        .kind()
        .is_some_and(|kind| kind.is_open_graded());
    let count = lifts.value.si();
    if !construction::is_base(layer) || layer.existing.is_some() || is_open || count < 1.0 {
        return;
    }
    let thickness = construction::compacted_m(layer);
    let lift = thickness / count;
    let (Some(plate), Some(plant)) = (
        context.limit(&LIFT_THICK, "plate"),
        context.limit(&LIFT_THICK, "plant"),
    ) else {
        return;
    };
    let (limit, severity) = if !plant.allows_si(lift) {
        (plant, Severity::Error)
    } else if !plate.allows_si(lift) {
        (plate.clone(), Severity::Warning)
    } else {
        return;
    };
    let shown = context.show_length(lift);
    let message = format!(
        "each lift of the base is {shown} thick; to be compacted through it is to be {}: use more lifts",
        limit_in_words(&limit, context),
    );
    let finding = LIFT_THICK
        .finding(lifts.place, message)
        .severity(severity)
        .found(shown, Quantity::near(lift, Dimension::LENGTH))
        .against(&limit, context);
    let fix = more_lifts(layer, thickness, &plate);
    found.add(match fix {
        Some(fix) => finding.fix(fix),
        None => finding,
    });
}

/// As many lifts as keep the limit of a plate compactor.
fn more_lifts(layer: &Layer, thickness: f64, plate: &InForce) -> Option<Fix> {
    let place = layer.lifts.as_ref()?.place;
    let wanted = (thickness / plate.value.si() - 1e-9).ceil();
    let is_sound = (2.0..=20.0).contains(&wanted) && construction::is_in_checked_file(place);
    is_sound.then(|| {
        let title = format!("Compact it in {wanted} lifts");
        Fix::judged(title, place, format!("{wanted}"))
    })
}
