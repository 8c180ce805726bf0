//! `reading-unclear`: a reading so far off that it was taken or written wrong.

use crate::findings::{Finding, Fix, Severity};
use crate::model::{Measurement, ReadBy, Sight};
use crate::quantities::{MeasuredFigures, PointMeasured};
use crate::rules::{Bound, Check, Context, Family, Found, Limit, Rule};
use crate::sources::Source;
use crate::units::{Dimension, Quantity, show};

/// A reading so far off that it was taken or written wrong.
pub(crate) static READING_UNCLEAR: Rule = Rule {
    name: "reading-unclear",
    family: Family::AsBuilt,
    severity: Severity::Warning,
    looks_at: "Readings far off their design level, and points outside the surface that was measured.",
    reason: "Nobody builds so far off: a minus is missing, the tape was held at the wrong line, or the point is another one.",
    remedy: "Look at the sign, at what was read, and at where; read it again.",
    limits: &[Limit::practice(
        "plain",
        "a reading off its design level",
        Bound::Most,
        &["100 mm", "4 in"],
    )],
    sources: &[Source::COMMON_PRACTICE],
    breaks: "measured \"court\"
  of           court
  level        «160 mm» at (0, 4 m)
",
    keeps: "measured \"court\"
  of           court
  level        -160 mm at (0, 4 m)
",
    mended: Some(
        "measured \"court\"
  of           court
  level        -160 mm at (0, 4 m)
",
    ),
    check: Check::Job(check),
};

/// Whether a point is so far off that its reading is in doubt: what else it
/// would say is not said.
pub(super) fn is_unclear(context: &Context<'_>, point: &PointMeasured) -> bool {
    let limit = context.limit(&READING_UNCLEAR, "plain");
    let is_far = limit
        .zip(point.off_m)
        .is_some_and(|(limit, off)| !limit.allows_si(off.abs()));
    let is_told = context.is_in_force(&READING_UNCLEAR, READING_UNCLEAR.severity);
    is_told && (is_far || point.is_outside)
}

fn check(context: &Context<'_>, found: &mut Found) {
    let sections = context.job.measured.iter().zip(&context.figures.measured);
    for (section, own) in sections.filter(|(section, _)| !section.is_unread) {
        let both = || section.points.iter().zip(&own.points);
        let wrong = wrong_sights(context, &both().collect::<Vec<_>>());
        for (measurement, point) in both() {
            let is_of_wrong = sight(measurement)
                .is_some_and(|own| wrong.iter().any(|wrong| wrong.place == own.reading.place));
            if !is_of_wrong {
                found
                    .findings
                    .extend(doubt(context, own, measurement, point));
            }
        }
        found.findings.extend(wrong);
    }
}

fn sight(measurement: &Measurement) -> Option<&Sight> {
    match &measurement.taken {
        ReadBy::Staff(_, sight) => sight.as_ref(),
        _ => None,
    }
}

/// So many readings over one known level tell of that level.
const SEVERAL: usize = 3;

/// The readings on a known level over which everything is as far off: not each
/// point was built wrong, the known level was.
fn wrong_sights(context: &Context<'_>, points: &[(&Measurement, &PointMeasured)]) -> Vec<Finding> {
    let Some(limit) = context.limit(&READING_UNCLEAR, "plain") else {
        return Vec::new();
    };
    let mut wrong: Vec<Finding> = Vec::new();
    for (measurement, _) in points {
        let Some(known) = sight(measurement) else {
            continue;
        };
        let place = known.reading.place;
        let over = points
            .iter()
            .filter(|(own, _)| sight(own).is_some_and(|own| own.reading.place == place));
        let offs: Vec<Option<f64>> = over.map(|(_, point)| point.off_m).collect();
        let offs: Option<Vec<f64>> = offs.into_iter().collect();
        let Some(offs) = offs.filter(|offs| offs.len() >= SEVERAL) else {
            continue;
        };
        let is_far = offs.iter().all(|off| !limit.allows_si(off.abs()));
        let is_one_way = offs.iter().all(|off| *off > 0.0) || offs.iter().all(|off| *off < 0.0);
        if !is_far || !is_one_way || wrong.iter().any(|known| known.place == place) {
            continue;
        }
        let sizes = || offs.iter().map(|off| off.abs());
        let least = sizes().fold(f64::INFINITY, f64::min);
        let most = sizes().fold(0.0, f64::max);
        let way = if offs.iter().any(|off| *off > 0.0) {
            "high"
        } else {
            "low"
        };
        let message = format!(
            "all {} readings taken from this one are {} to {} too {way}: this reading is wrong, or the level that it was taken on",
            offs.len(),
            context.show_length(least),
            context.show_length(most)
        );
        wrong.push(
            READING_UNCLEAR
                .finding(place, message)
                .found(
                    limit.beside_si(least, context.system()),
                    Quantity::near(least, Dimension::LENGTH),
                )
                .against(&limit, context),
        );
    }
    wrong
}

fn doubt(
    context: &Context<'_>,
    own: &MeasuredFigures,
    measurement: &Measurement,
    point: &PointMeasured,
) -> Option<Finding> {
    if point.is_outside {
        let message = format!(
            "this point is not on {}: is a minus missing, or are east and north swapped?",
            own.name
        );
        return Some(READING_UNCLEAR.finding(measurement.at.place, message));
    }
    let limit = context.limit(&READING_UNCLEAR, "plain")?;
    let (off, design) = (point.off_m?, point.design_m?);
    if limit.allows_si(off.abs()) {
        return None;
    }
    let shown = limit.beside_si(off.abs(), context.system());
    let way = if off > 0.0 { "high" } else { "low" };
    let (place, question) = match &measurement.taken {
        ReadBy::Level(level) => (
            level.place,
            "Is a minus wrong, or was it taped down from the line?",
        ),
        ReadBy::BelowString(depth) => (depth.place, "From which line was it taped?"),
        ReadBy::Staff(reading, _) => (reading.place, "Read it and the datum again"),
    };
    let message = format!("{shown} too {way}. {question}");
    let finding = READING_UNCLEAR
        .finding(place, message)
        .found(shown, Quantity::near(off.abs(), Dimension::LENGTH))
        .against(&limit, context);
    let ReadBy::Level(level) = &measurement.taken else {
        return Some(finding);
    };
    let other = level.value.negated().ok()?;
    let is_better = limit.allows_si((other.si() - design).abs());
    Some(match is_better {
        true => {
            let written = show::quantity(&other, context.system());
            finding.fix(Fix::judged(
                format!("Write `{written}`"),
                level.place,
                written,
            ))
        }
        false => finding,
    })
}
