//! `base-thin`: too little base for what the paving carries and stands on.

use crate::findings::{Finding, Fix, Severity};
use crate::materials::Soil;
use crate::model::{Build, Layer, Site, SoilCondition, State, Surface, Use};
use crate::rules::construction::{self, Construction};
use crate::rules::documents::{GARDEN_GUIDES, ICPI_MAKER, icpi_tolerances};
use crate::rules::wording::{limit_as_written, limit_in_words};
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value};
use crate::units::{Dimension, Quantity};

const SIX_INCHES: &[&str] = &["150 mm", "6 in"];

const fn least(row: &'static str, of: &'static str, general: Value) -> Limit {
    Limit {
        row,
        of,
        bound: Bound::Least,
        general,
        regions: &[],
    }
}

/// Too little base for what the paving carries and stands on.
pub static BASE_THIN: Rule = Rule {
    name: "base-thin",
    family: Family::Base,
    severity: Severity::Error,
    looks_at: "The compacted base under paving that is set on sand with no slab: base and subbase together, against what the use, the soil and the frost want.",
    reason: "Sand-set paving passes its load to the ground through the base alone; too thin a base lets the paving sink into ruts and dips, first where the ground is wet or freezes.",
    remedy: "Thicken the base. Where a trial pit shows that the ground bears better, say so in an `accept`.",
    limits: &[
        least(
            "foot",
            "paving for foot traffic",
            Value {
                written: &["100 mm", "4 in"],
                source: icpi_tolerances("least compacted base, walks and patios"),
            },
        ),
        least(
            "clay",
            "paving on clay or peat",
            Value {
                written: SIX_INCHES,
                source: GARDEN_GUIDES,
            },
        ),
        least(
            "frost",
            "paving where the ground freezes",
            Value {
                written: SIX_INCHES,
                source: ICPI_MAKER,
            },
        ),
        least(
            "drive",
            "a private drive",
            Value {
                written: SIX_INCHES,
                source: icpi_tolerances("least compacted base, residential driveways"),
            },
        ),
        least(
            "street",
            "a street",
            Value {
                written: &["200 mm", "8 in"],
                source: icpi_tolerances("least compacted base, parking and residential streets"),
            },
        ),
    ],
    sources: &[
        icpi_tolerances("least compacted base"),
        ICPI_MAKER,
        GARDEN_GUIDES,
    ],
    breaks: "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         crushed-stone, «50 mm» compacted, beyond 150 mm
",
    keeps: "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         crushed-stone, 100 mm compacted, beyond 150 mm
",
    mended: Some(
        "build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
  bed          sharp-sand, 30 mm
  base         crushed-stone, 100 mm compacted, beyond 150 mm
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    // Permeable paving has its own rule.
    if !wants_base(build) || build.permeable.is_some() {
        return;
    }
    let bases: Vec<&Layer> = construction::bases(build).collect();
    let Some(first) = bases.first() else { return };
    let Some(thickness) = &first.thickness else {
        return;
    };
    if bases.iter().any(|base| base.thickness.is_none()) {
        return;
    }
    let total: f64 = bases
        .iter()
        .map(|base| construction::compacted_m(base))
        .sum();
    let Some(limit) = wanted(context, surface) else {
        return;
    };
    if limit.allows_si(total) {
        return;
    }
    let shown = context.show_length(total);
    let message = format!(
        "the base is {shown} thick; {} it wants {}: thicken it",
        circumstance(&limit, &context.job.site),
        limit_in_words(&limit.limit, context),
    );
    let mut finding = BASE_THIN
        .finding(thickness.place, message)
        .severity(severity(context, surface, total))
        .found(shown, Quantity::near(total, Dimension::LENGTH))
        .against(&limit.limit, context);
    finding = relate(finding, &limit, context, surface);
    if let [base] = bases.as_slice()
        && let Some(fix) = thicker(base, &limit.limit, context)
    {
        finding = finding.fix(fix);
    }
    found.add(finding);
}

/// Whether the paving of a build passes its load to the ground through a
/// base alone.
pub(super) fn wants_base(build: &Build) -> bool {
    Construction::of(build) == Construction::SandSet && construction::slab(build).is_none()
}

/// A limit in force and the row that it is of.
pub(super) struct Wanted {
    row: &'static str,
    pub(super) limit: InForce,
}

impl Wanted {
    fn allows_si(&self, metres: f64) -> bool {
        self.limit.allows_si(metres)
    }
}

/// The greatest base that the use, the soil and the frost want.
pub(super) fn wanted(context: &Context<'_>, surface: &Surface) -> Option<Wanted> {
    let site = &context.job.site;
    let on_clay = site
        .soil
        .as_ref()
        .is_some_and(|soil| is_clay_or_peat(soil.value));
    let freezes = site
        .frost
        .as_ref()
        .is_some_and(|frost| frost.value.si() > 0.0);
    let rows = [
        Some(row_of_use(surface.used_for)),
        on_clay.then_some("clay"),
        freezes.then_some("frost"),
    ];
    rows.into_iter()
        .flatten()
        .filter_map(|row| {
            let limit = context.limit(&BASE_THIN, row)?;
            Some(Wanted { row, limit })
        })
        .reduce(|most, next| {
            if next.limit.value.si() > most.limit.value.si() {
                next
            } else {
                most
            }
        })
}

/// What the limit's row is about, in the words of the job: `on wet clay`.
pub(super) fn circumstance(wanted: &Wanted, site: &Site) -> String {
    match wanted.row {
        "clay" => format!("on {}", ground_in_words(site)),
        "frost" => "where the ground freezes".to_owned(),
        "drive" => "under a drive".to_owned(),
        "street" => "under a street".to_owned(),
        _ => "under foot traffic".to_owned(),
    }
}

/// With the line that asks for so much base.
pub(super) fn relate(
    finding: Finding,
    wanted: &Wanted,
    context: &Context<'_>,
    surface: &Surface,
) -> Finding {
    let site = &context.job.site;
    let (place, message) = match wanted.row {
        "clay" => (
            site.soil.as_ref().map(|soil| soil.place),
            "the soil is stated here",
        ),
        "frost" => (
            site.frost.as_ref().map(|frost| frost.place),
            "the frost is stated here",
        ),
        _ => (surface.used_for_place, "the use is stated here"),
    };
    match place {
        Some(place) => finding.related(place, message),
        None => finding,
    }
}

/// An error under the row of the use, a warning under any other.
pub(super) fn severity(context: &Context<'_>, surface: &Surface, metres: f64) -> Severity {
    let row = match row_of_use(surface.used_for) {
        "street" => "drive",
        row => row,
    };
    match context.limit(&BASE_THIN, row) {
        Some(limit) if !limit.allows_si(metres) => Severity::Error,
        _ => Severity::Warning,
    }
}

fn row_of_use(used_for: Use) -> &'static str {
    match used_for {
        Use::Foot | Use::Ramp | Use::Landing => "foot",
        Use::Drive => "drive",
        Use::Street => "street",
    }
}

fn is_clay_or_peat(soil: &Soil) -> bool {
    matches!(soil.word, "clay" | "peat")
}

fn ground_in_words(site: &Site) -> String {
    let conditions = site.conditions.iter().map(|stated| match stated.value {
        SoilCondition::Firm => "firm",
        SoilCondition::Soft => "soft",
        SoilCondition::Wet => "wet",
        SoilCondition::Expansive => "expansive",
        SoilCondition::Tilled => "tilled",
        SoilCondition::Compacted => "compacted",
    });
    let soil = site.soil.as_ref().map_or("ground", |soil| soil.value.word);
    let words: Vec<&str> = conditions.chain([soil]).collect();
    words.join(" ")
}

/// Raises a base to the limit, where its lifts and margin then still do.
fn thicker(base: &Layer, limit: &InForce, context: &Context<'_>) -> Option<Fix> {
    let thickness = base.thickness.as_ref()?;
    let metres = limit.value.si();
    let is_spread = base.state.as_ref().map(|state| state.value) == Some(State::Loose);
    let is_lifted = base.lifts.as_ref().is_some_and(|lifts| {
        let lift = metres / lifts.value.si();
        context
            .limit(&super::lift_thick::LIFT_THICK, "plate")
            .is_some_and(|most| !most.allows_si(lift))
    });
    let is_short = base.beyond.is_some() && base.beyond_m() < metres - 1e-9;
    let is_ours = construction::is_in_checked_file(thickness.place);
    if is_spread || is_lifted || is_short || base.existing.is_some() || !is_ours {
        return None;
    }
    let text = limit_as_written(limit, context);
    let title = format!("Raise the base to {text}");
    Some(Fix::judged(title, thickness.place, text))
}
