//! `wait-short`: work that goes on before mortar has set.

use super::documents::{FLAGS_FLOATED, SETTING_DAYS};
use crate::findings::{Fix, Severity};
use crate::model::{Built, Pause, StatedWait, Surface};
use crate::quantities::{Law, ScheduleFigures, UsualWait, air_k, usual_wait};
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value};
use crate::sources::Source;
use crate::units::{Dimension, Quantity, show};
use crate::vocabulary::{Task, entry};

/// Work that goes on before mortar has set.
pub(crate) static WAIT_SHORT: Rule = Rule {
    name: "wait-short",
    family: Family::Work,
    severity: Severity::Warning,
    looks_at: "The waits that are stated after laying in mortar, after filling joints with it and after setting edging in concrete, longer in the cold; lime sets more slowly than cement.",
    reason: "Stone that is knelt on before the bed has set works loose, and joints that are washed early lose their cement or lime.",
    remedy: "Wait longer, or use a mix that sets faster, and say so.",
    limits: &[
        Limit {
            row: "bed",
            of: "a bed of mortar before its joints are filled, at 20 °C",
            bound: Bound::Least,
            general: Value {
                written: &["24 h"],
                source: FLAGS_FLOATED,
            },
            regions: &[],
        },
        Limit {
            row: "joints",
            of: "joints of mortar before they are cleaned, at 20 °C",
            bound: Bound::Least,
            general: Value {
                written: &["24 h"],
                source: SETTING_DAYS,
            },
            regions: &[],
        },
        Limit::practice(
            "kerbs",
            "concrete of an edging before paving is laid against it, at 20 °C",
            Bound::Least,
            &["12 h"],
        ),
        Limit {
            row: "lime",
            of: "mortar of hydraulic lime before it is worked on, at 20 °C",
            bound: Bound::Least,
            general: Value {
                written: &["72 h"],
                source: SETTING_DAYS,
            },
            regions: &[],
        },
    ],
    sources: &[FLAGS_FLOATED, SETTING_DAYS, Source::COMMON_PRACTICE],
    breaks: "surface court
  build        mortar-set

work
  crew         4
  «wait         4 h from laying to jointing»
",
    keeps: "surface court
  build        mortar-set

work
  crew         4
  wait         24 h from laying to jointing
",
    mended: Some(
        "surface court
  build        mortar-set

work
  crew         4
  wait         24 h from laying to jointing
",
    ),
    check: Check::Job(check),
};

fn check(context: &Context<'_>, found: &mut Found) {
    let job = context.job;
    let (Some(work), Some(schedule)) = (&job.work, &context.figures.schedule) else {
        return;
    };
    for wait in &work.waits {
        let named = |own: &&std::sync::Arc<Surface>| {
            let is_it = |of: &Built| *of == Built::Surface(own.name.value.clone());
            wait.of.as_ref().is_none_or(is_it)
        };
        // Of several surfaces the one that sets slowest.
        let surfaces = job.surfaces.iter().filter(named);
        let usual = surfaces
            .filter_map(|own| usual_wait(own, wait.from, wait.to))
            .max_by(|one, other| one.hours.total_cmp(&other.hours));
        let row = match (wait.from, usual.map(|usual| usual.law)) {
            (Task::Laying | Task::Jointing, Some(Law::Lime)) => "lime",
            (Task::Laying, _) => "bed",
            (Task::Jointing, _) => "joints",
            // A night is what the trade gives a kerb.
            (Task::Edging, _) if matches!(wait.pause, Pause::Seconds(_)) => "kerbs",
            _ => continue,
        };
        let limit = context.limit(&WAIT_SHORT, row);
        if let (Some(usual), Some(limit), true) = (usual, limit, wait.to != Task::Sealing) {
            short(context, schedule, (wait, usual), &limit, found);
        }
    }
}

fn short(
    context: &Context<'_>,
    schedule: &ScheduleFigures,
    (wait, usual): (&StatedWait, &UsualWait),
    limit: &InForce,
    found: &mut Found,
) {
    let stated = match wait.pause {
        Pause::Seconds(seconds) => seconds,
        Pause::Overnight => schedule.night_hours() * 3_600.0,
    };
    let air = context.job.work.as_ref().map_or(0.0, |work| air_k(work));
    // What never sets in frost is told of by the rules on the cold.
    let Some(factor) = usual.law.factor(air) else {
        return;
    };
    let least = limit.value.si() * factor.max(1.0);
    if stated >= least {
        return;
    }
    let least_h = (least / 3_600.0).ceil();
    let figure = Quantity::near(stated, Dimension::TIME);
    let shown = figure.map_or_else(String::new, |figure| {
        let system = context.system();
        show::apart(&figure, show::time(stated), &format!("{least_h} h"), system)
    });
    let cold = match factor > 1.0 {
        true => format!(" at {}", show::temperature(air, context.system())),
        false => String::new(),
    };
    let message = format!(
        "{shown} is too short for the {} to set; {least_h} h is the least{cold}. Wait longer",
        match wait.from {
            Task::Laying => "bed",
            Task::Edging => "concrete of the edging",
            _ => "joints",
        }
    );
    let of = wait
        .of
        .as_ref()
        .map_or_else(String::new, |of| format!(" of {}", of.name()));
    let (from, to) = (wait.from.word(), wait.to.word());
    let text = entry("wait", &format!("{least_h} h from {from} to {to}{of}"));
    found.add(
        WAIT_SHORT
            .finding(wait.place, message)
            .found(shown, figure)
            .against(limit, context)
            .fix(Fix::judged(format!("Wait {least_h} h"), wait.place, text)),
    );
}
