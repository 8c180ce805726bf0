//! `base-thin`: too little base for what the paving carries and stands on.

use crate::findings::{Finding, Fix, Place, Severity};
use crate::model::{Build, Layer, Region, Site, SoilCondition, State, Surface, Use};
use crate::rules::construction;
use crate::rules::documents::{GARDEN_GUIDES, ICPI_MAKER, ICPI_WEAK_SOIL, icpi_tolerances};
use crate::rules::wording::limit_as_written;
use crate::rules::{Bound, Check, Context, Family, Found, InForce, Limit, Rule, Value};
use crate::sources::Source;
use crate::text::with_article;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::Role;

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
pub(crate) static BASE_THIN: Rule = Rule {
    name: "base-thin",
    family: Family::Base,
    severity: Severity::Error,
    looks_at: "The compacted base, subbase included, by use, soil and frost: under paving on sand or in mortar with no slab, under gravel, asphalt and the like that cars drive on, and under a slab on clay, silt or peat or in a street. Asphalt carries as its base does and counts with it, an advisory on clay; the base alone has a least of its own. Not a base that is there already.",
    reason: "The base alone spreads the load. Where it is thin, sand-set paving ruts and mortared paving cracks, first where the ground is wet or freezes.",
    remedy: "Thicken the base. If a trial pit shows better ground, say so in an `accept`.",
    limits: &[
        Limit {
            regions: &[(
                Region::Uk,
                Value {
                    written: &["100 mm"],
                    source: GARDEN_GUIDES,
                },
            )],
            ..least(
                "foot",
                "paving for foot traffic",
                Value {
                    written: &["100 mm", "4 in"],
                    source: icpi_tolerances("least compacted base, walks and patios"),
                },
            )
        },
        Limit {
            regions: &[(
                Region::Us,
                Value {
                    written: SIX_INCHES,
                    source: ICPI_WEAK_SOIL,
                },
            )],
            ..least(
                "clay",
                "paving on clay or peat",
                Value {
                    written: SIX_INCHES,
                    source: GARDEN_GUIDES,
                },
            )
        },
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
        // Two inches more than on firm ground that does not freeze.
        least(
            "drive-weak",
            "a drive on clay or peat, or where the ground freezes",
            Value {
                written: &["200 mm", "8 in"],
                source: ICPI_WEAK_SOIL,
            },
        ),
        least(
            "street-weak",
            "a street on clay or peat, or where the ground freezes",
            Value {
                written: &["250 mm", "10 in"],
                source: ICPI_WEAK_SOIL,
            },
        ),
        least(
            "surfacing",
            "gravel, asphalt and the like that cars drive on",
            Value::practice(SIX_INCHES),
        ),
        least(
            "under-asphalt",
            "the base alone under asphalt and the like that cars drive on",
            Value::practice(&["100 mm", "4 in"]),
        ),
        least(
            "asphalt-clay",
            "asphalt and its base together, on clay or peat, where cars drive",
            Value::practice(&["200 mm", "8 in"]),
        ),
        least(
            "slab",
            "a slab on clay, silt or peat, or in a street",
            Value::practice(&["100 mm", "4 in"]),
        ),
    ],
    sources: &[
        icpi_tolerances("least compacted base"),
        ICPI_MAKER,
        ICPI_WEAK_SOIL,
        GARDEN_GUIDES,
        Source::COMMON_PRACTICE,
    ],
    breaks: "build sand-set
  base         crushed-stone, «50 mm» compacted, beyond 150 mm
",
    keeps: "build sand-set
  base         crushed-stone, 100 mm compacted, beyond 150 mm
",
    mended: Some(
        "build sand-set
  base         crushed-stone, 100 mm compacted, beyond 150 mm
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, surface: &Surface, build: &Build, found: &mut Found) {
    // Permeable paving has its own rule.
    if build.permeable.is_some() && construction::unit_kind(build).is_some() {
        return;
    }
    let bases: Vec<&Layer> = construction::bases(build).collect();
    let Some(thickness) = bases.first().and_then(|first| first.thickness.as_ref()) else {
        return;
    };
    // What lies there already has carried so far, and nobody orders it.
    let is_judged = |base: &&Layer| base.existing.is_none() && base.thickness.is_some();
    // A line that could not be read may be one more layer of it.
    if !bases.iter().all(is_judged) || build.has_lost_line {
        return;
    }
    let base = bases
        .iter()
        .map(|base| construction::compacted_m(base))
        .sum::<f64>();
    let total = base + surfacing_m(build);
    let Some(most) = wanted(context, surface, build) else {
        return;
    };
    if total > base && most.row == "surfacing" {
        let finding = under_asphalt(context, (base, total), thickness.place, &most);
        found
            .findings
            .extend(finding.map(|own| relate(own, &most, context, surface)));
        return;
    }
    if most.allows_si(total) {
        return;
    }
    let site = &context.job.site;
    let by_use = use_row(context, surface).filter(|by_use| !by_use.allows_si(total));
    let lesser = by_use.as_ref().unwrap_or(&most);
    let shown = lesser.limit.beside_si(total, context.system());
    let (against, message) = match by_use {
        Some(by_use) if by_use.row != most.row && most.is_of_paving() => {
            let message = format!(
                "{} base is too thin {}; {} is the least, and {} {}: thicken it",
                with_article(&shown),
                circumstance(&by_use, surface, site),
                by_use.limit.shown(context.system()),
                most.limit.shown(context.system()),
                circumstance(&most, surface, site),
            );
            (by_use, message)
        }
        _ => {
            let message = format!(
                "{} base is too thin {}; {} is the least: thicken it",
                with_article(&shown),
                circumstance(&most, surface, site),
                most.limit.shown(context.system()),
            );
            (
                Wanted {
                    row: most.row,
                    limit: most.limit.clone(),
                },
                message,
            )
        }
    };
    let mut finding = BASE_THIN
        .finding(thickness.place, message)
        .severity(severity(context, surface, &most, total))
        .found(shown, Quantity::near(total, Dimension::LENGTH))
        .against(&against.limit, context);
    finding = relate(finding, &most, context, surface);
    if let [base] = bases.as_slice()
        && let Some(fix) = thicker(base, &most.limit, context)
    {
        finding = finding.fix(fix);
    }
    found.add(finding);
}

/// The finding of a base that is too thin under asphalt that cars drive on: by
/// itself, or together with the asphalt.
fn under_asphalt(
    context: &Context<'_>,
    (base, total): (f64, f64),
    place: Place,
    most: &Wanted,
) -> Option<Finding> {
    let system = context.system();
    let said = |metres: f64, limit: &InForce, severity, says: &dyn Fn(&str, &str) -> String| {
        let shown = limit.beside_si(metres, system);
        BASE_THIN
            .finding(place, says(&shown, &limit.shown(system)))
            .severity(severity)
            .found(shown, Quantity::near(metres, Dimension::LENGTH))
            .against(limit, context)
    };
    let own = |row| context.limit(&BASE_THIN, row);
    if let Some(limit) = own("under-asphalt").filter(|limit| !limit.allows_si(base)) {
        return Some(said(base, &limit, Severity::Warning, &|shown, least| {
            format!(
                "{} base is too thin under asphalt that cars drive on; {least} is the least: thicken it",
                with_article(shown)
            )
        }));
    }
    let together = |shown: &str, least: &str, ground: &str| {
        format!(
            "base and asphalt together, {shown}, are too thin for cars{ground}; {least} is the least: thicken the base"
        )
    };
    if !most.allows_si(total) {
        let says = |shown: &str, least: &str| together(shown, least, "");
        return Some(said(total, &most.limit, Severity::Warning, &says));
    }
    let site = &context.job.site;
    let on_clay = own("asphalt-clay").filter(|_| is_on(site, CLAY_OR_PEAT));
    let limit = on_clay.filter(|limit| !limit.allows_si(total))?;
    let ground = format!(" on {}", ground_in_words(site));
    let says = |shown: &str, least: &str| together(shown, least, &ground);
    Some(said(total, &limit, Severity::Advisory, &says))
}

/// A limit in force and the row that it is of.
pub(super) struct Wanted {
    row: &'static str,
    pub(super) limit: InForce,
}

impl Wanted {
    pub(super) fn allows_si(&self, metres: f64) -> bool {
        self.limit.allows_si(metres)
    }

    /// Whether it is of paving that stands on its base alone.
    fn is_of_paving(&self) -> bool {
        !matches!(self.row, "surfacing" | "slab")
    }
}

/// The greatest base that what is carried, its use, the soil and the frost
/// want; `None` where none has to be laid.
pub(super) fn wanted(context: &Context<'_>, surface: &Surface, build: &Build) -> Option<Wanted> {
    let of_row = |row| {
        let limit = context.limit(&BASE_THIN, row)?;
        Some(Wanted { row, limit })
    };
    let site = &context.job.site;
    if construction::rests_on_base(build) {
        let is_stone = construction::is_stepping_stone(surface, build);
        return of_paving(site, surface)
            .filter_map(|row| of_row(row).filter(|_| !is_stone))
            .reduce(|most, next| {
                if next.limit.value.si() > most.limit.value.si() {
                    next
                } else {
                    most
                }
            });
    }
    if build.layers.iter().any(|layer| layer.existing.is_some()) || is_on(site, &["rock"]) {
        return None;
    }
    if build.layer(Role::Slab).is_some() {
        let is_weak = is_on(site, &["clay", "silt", "peat"]) || surface.used_for == Use::Street;
        return of_row("slab").filter(|_| is_weak);
    }
    of_row("surfacing").filter(|_| construction::is_driven_surfacing(surface, build))
}

/// The compacted surfacing of a build in metres, which carries as the base
/// under it does; loose gravel carries nothing.
pub(super) fn surfacing_m(build: &Build) -> f64 {
    let is_on_slab = build.layer(Role::Slab).is_some();
    let bound = build.layers_for(Role::Surfacing).filter(|layer| {
        let kind = layer.of.value.kind();
        kind.is_some_and(|kind| !kind.is_loose_stone()) && !is_on_slab
    });
    bound.map(construction::compacted_m).sum()
}

/// The rows of paving that stands on its base alone. What is driven on wants
/// more where the ground is weak or freezes.
fn of_paving(site: &Site, surface: &Surface) -> impl Iterator<Item = &'static str> {
    let (on_clay, freezes) = (is_on(site, CLAY_OR_PEAT), freezes(site));
    let weak = match surface.used_for {
        Use::Drive => Some("drive-weak"),
        Use::Street => Some("street-weak"),
        Use::Foot | Use::Ramp | Use::Landing => None,
    };
    let rows = [
        Some(row_of_use(surface.used_for)),
        on_clay.then_some("clay"),
        freezes.then_some("frost"),
        weak.filter(|_| on_clay || freezes),
    ];
    rows.into_iter().flatten()
}

/// What the limit's row is about, in the words of the job: `on wet clay`.
pub(super) fn circumstance(wanted: &Wanted, surface: &Surface, site: &Site) -> String {
    let used = match surface.used_for {
        Use::Foot | Use::Ramp | Use::Landing => "for foot traffic",
        Use::Drive => "for a drive",
        Use::Street => "for a street",
    };
    let where_it_freezes = "where the ground freezes";
    match wanted.row {
        "clay" => format!("on {}", ground_in_words(site)),
        "frost" => where_it_freezes.to_owned(),
        "drive-weak" | "street-weak" if is_on(site, CLAY_OR_PEAT) => {
            let freezes = if freezes(site) { " that freezes" } else { "" };
            format!("{used} on {}{freezes}", ground_in_words(site))
        }
        "drive-weak" | "street-weak" => format!("{used} {where_it_freezes}"),
        "slab" if surface.used_for == Use::Street => "under the slab of a street".to_owned(),
        "slab" => format!("under a slab on {}", ground_in_words(site)),
        "drive" => "for a drive".to_owned(),
        _ => used.to_owned(),
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
        "slab" if surface.used_for == Use::Street => (surface.used_for_place, "the use"),
        "clay" | "slab" => (site.soil.as_ref().map(|soil| soil.place), "the soil"),
        "frost" => (site.frost.as_ref().map(|frost| frost.place), "the frost"),
        _ => (surface.used_for_place, "the use"),
    };
    match place {
        Some(place) => finding.related(place, message),
        None => finding,
    }
}

/// An error under the row of the use, a warning under any other.
pub(super) fn severity(
    context: &Context<'_>,
    surface: &Surface,
    wanted: &Wanted,
    metres: f64,
) -> Severity {
    match use_row(context, surface).filter(|_| wanted.is_of_paving()) {
        // A garden guide is no ground for an error.
        Some(by_use) if !by_use.allows_si(metres) && by_use.limit.source != GARDEN_GUIDES => {
            Severity::Error
        }
        _ => Severity::Warning,
    }
}

/// The row of the use, under which it is an error: that of a drive for a
/// street too.
fn use_row(context: &Context<'_>, surface: &Surface) -> Option<Wanted> {
    let row = match row_of_use(surface.used_for) {
        "street" => "drive",
        row => row,
    };
    let limit = context.limit(&BASE_THIN, row)?;
    Some(Wanted { row, limit })
}

fn row_of_use(used_for: Use) -> &'static str {
    match used_for {
        Use::Foot | Use::Ramp | Use::Landing => "foot",
        Use::Drive => "drive",
        Use::Street => "street",
    }
}

/// Soils that are weak when they are wet.
const CLAY_OR_PEAT: &[&str] = &["clay", "peat"];

fn freezes(site: &Site) -> bool {
    let frost = site.frost.as_ref();
    frost.is_some_and(|frost| frost.value.si() > 0.0)
}

/// Whether what is driven on wants more base than on firm ground that does not
/// freeze.
pub(super) fn is_weak(site: &Site) -> bool {
    is_on(site, CLAY_OR_PEAT) || freezes(site)
}

/// Whether a site's soil is one of these.
pub(super) fn is_on(site: &Site, soils: &[&str]) -> bool {
    let soil = site.soil.as_ref();
    soil.is_some_and(|soil| soils.contains(&soil.value.word))
}

fn ground_in_words(site: &Site) -> String {
    let conditions = site.conditions.iter().map(|stated| match stated.value {
        SoilCondition::Firm => "firm",
        SoilCondition::Soft => "soft",
        SoilCondition::Wet => "wet",
        SoilCondition::Expansive => "expansive",
        SoilCondition::Tilled => "dug-over",
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
