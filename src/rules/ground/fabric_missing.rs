//! `fabric-missing`: nothing between fine ground and the stone above it.

use crate::findings::{Fix, Place, Severity};
use crate::materials::Kind;
use crate::model::{Build, Layer, Substance, Surface};
use crate::rules::construction::{self, is_in_checked_file};
use crate::rules::documents::icpi_edges;
use crate::rules::wording::has_word;
use crate::rules::{Check, Context, Family, Found, Rule};
use crate::sources::Source;
use crate::vocabulary::{Role, Term, entry};

/// Advice on sub-bases from the society of British garden designers.
const GARDEN_DESIGNERS: Source = Source::read(
    "Society of Garden Designers, advice on sub-bases",
    "a geotextile over clay and silt",
);

/// An aggregate base on fine ground without a fabric.
pub(crate) static FABRIC_MISSING: Rule = Rule {
    name: "fabric-missing",
    family: Family::Ground,
    severity: Severity::Advisory,
    looks_at: "A stone base on clay or silt, or open-graded stone on any fine ground, with no geotextile between. Weed fabric is none: fabric-light tells of it under a base.",
    reason: "Traffic pumps wet fines up into the stone, which stops draining and loses its strength.",
    remedy: "Lay a separation geotextile under the base.",
    limits: &[],
    sources: &[
        GARDEN_DESIGNERS,
        icpi_edges("geotextile under and beside the base"),
    ],
    breaks: "\
site
  soil         clay, firm

build sand-set
  «base         crushed-stone, 150 mm compacted, lifts 2, beyond 150 mm»
  # no fabric
",
    keeps: "\
site
  soil         clay, firm

build sand-set
  fabric       geotextile, beyond 150 mm
",
    mended: Some(
        "\
site
  soil         clay, firm

build sand-set
  fabric       geotextile, beyond 150 mm
",
    ),
    check: Check::Built(check),
};

fn check(context: &Context<'_>, _: &Surface, build: &Build, found: &mut Found) {
    let Some(soil) = &context.job.site.soil else {
        return;
    };
    let is_separated = [Role::Fabric, Role::Membrane]
        .into_iter()
        .flat_map(|role| build.layers_for(role))
        .any(|sheet| !is_weed_fabric(&sheet.of.value));
    // Weed fabric under a base is told of by fabric-light, and as a warning.
    let is_told = build
        .layers
        .iter()
        .skip_while(|layer| !construction::is_base(layer))
        .any(|layer| layer.of.value.kind() == Some(Kind::WeedFabric));
    let Some(lowest) = lowest_new_base(build) else {
        return;
    };
    let is_open = lowest.of.value.kind().is_some_and(Kind::is_open_graded);
    let is_stone = lowest.of.value.kind().is_some_and(Kind::is_aggregate);
    let wants_fabric = matches!(soil.value.word, "clay" | "silt") || (is_open && soil.value.fine);
    // What could not be read may be the fabric.
    if build.has_lost_line || is_separated || is_told || !is_stone || !wants_fabric {
        return;
    }
    let stone = match is_open {
        true => context.word(Term::OpenStone),
        false => "stone base",
    };
    let ground = soil.value.word;
    let message = format!(
        "nothing separates the {stone} from the {ground}: the fines will pump up into it. Lay a separation geotextile"
    );
    let mut finding = FABRIC_MISSING
        .finding(lowest.place, message)
        .related(soil.place, "the soil, as stated here");
    if is_in_checked_file(lowest.place) {
        finding = finding.fix(laid_under(lowest.place, lowest));
    }
    found.add(finding);
}

/// Whether a sheet is thin fabric against weeds, which tears under stone.
fn is_weed_fabric(sheet: &Substance) -> bool {
    let material = sheet.material();
    let called = material.and_then(|material| material.called.as_deref());
    // What somebody calls a thing of the catalogue is no more than a name.
    let known = material.and_then(|material| material.stock);
    let mut names = [Some(known.unwrap_or(sheet.name())), called]
        .into_iter()
        .flatten();
    names.any(|name| has_word(name, &["weed", "weeds"]))
}

/// The lowest layer of stone, unless it lies there already.
fn lowest_new_base(build: &Build) -> Option<&Layer> {
    let lowest = construction::bases(build).last()?;
    lowest.existing.is_none().then_some(lowest)
}

/// The fix that lays a geotextile under a base, as far out as the base goes.
fn laid_under(place: Place, base: &Layer) -> Fix {
    let beyond = base
        .beyond
        .as_ref()
        .filter(|beyond| beyond.value.si() > 0.0);
    let width = beyond.and_then(|beyond| {
        let metres = beyond.value.si();
        let metric = crate::units::show::length(metres, crate::units::System::Metric);
        let read = crate::model::literal(&metric)?;
        let exact = (read.si() - metres).abs() < 1e-9;
        Some(if exact {
            metric
        } else {
            crate::units::show::length(metres, crate::units::System::Imperial)
        })
    });
    let clause = width.map_or(String::new(), |width| format!(", beyond {width}"));
    let entry = format!("\n  {}", entry("fabric", &format!("geotextile{clause}")));
    Fix::judged("Lay a geotextile under the base", place.end(), entry)
}
