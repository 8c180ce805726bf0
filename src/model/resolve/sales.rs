//! How a material is sold, and what is said for each of what is sold.

use super::super::catalogue;
use super::super::job::{Load, Material, Origin, Pack, Region, Sold, Sourced, Stated};
use super::super::reading::{Entry, Value};
use super::definitions::LogicalSection;
use super::evaluate::Resolver;
use super::materials::sourced;
use super::want::Range;
use crate::findings::{FileId, Finding, Fix, Place};
use crate::units::{Dimension, Quantity, System, show};
use crate::vocabulary::{ByPiece, ValueKind, entry};

/// The entries that may say something for each of what is sold.
const TERMS: [&str; 3] = ["price", "minimum", "delivery"];

impl Resolver<'_> {
    /// Puts what a section says of selling over what was there. A figure that
    /// names no unit belongs to the `sold` that it was said with: it does not
    /// outlive it, and is not said of what the catalogue sells by, which
    /// differs with the units that figures are shown in.
    pub(super) fn sale(&mut self, material: &mut Material, section: &LogicalSection, file: FileId) {
        let before = material.sold.clone();
        if let Some(entry) = section.entry("sold") {
            self.sold(material, entry, file);
            let is_other = match (&before, &material.sold) {
                (Some(before), Some(now)) => !is_same_sale(&before.value, &now.value),
                (None, now) => now.is_some(),
                (Some(_), None) => false,
            };
            if is_other {
                self.outlived(material, section, entry, before.map(|before| before.value));
            }
        }
        self.terms(material, section, file);
        self.terms_of_what(material, section);
    }

    /// The price, the least that is sold and the delivery.
    fn terms(&mut self, material: &mut Material, section: &LogicalSection, file: FileId) {
        let mut wanted = |entry: &Entry, slot: &str, kind: ValueKind, range: Range| {
            self.wanted(&entry.filled, slot, kind, range, file)
        };
        if let Some(entry) = section.entry("price") {
            material.price = wanted(entry, "PRICE", ValueKind::Price, Range::NotNegative);
            let pack = entry.filled.name("PACK").map(|(word, _)| word.to_owned());
            let is_by_the_piece = entry.filled.chosen::<ByPiece>("PIECE").is_some()
                || pack.as_deref().is_some_and(is_a_piece);
            material.price_pack = match is_by_the_piece {
                true => Some(ByPiece::Each.word().to_owned()),
                false => pack,
            };
            // A price for each says by itself how the thing is sold.
            if is_by_the_piece && section.entry("sold").is_none() {
                material.sold = Some(Sourced {
                    value: Sold::Each,
                    origin: Origin::Line(entry.place),
                });
            }
        }
        if let Some(entry) = section.entry("minimum") {
            let least = wanted(entry, "LEAST", ValueKind::Quantity, Range::NotNegative);
            material.minimum = least.map(|least| Stated::new(least.value, entry.place));
        }
        if let Some(entry) = section.entry("delivery") {
            let price = wanted(entry, "PRICE", ValueKind::Price, Range::NotNegative);
            let size = wanted(entry, "LOAD", ValueKind::Quantity, Range::Positive);
            material.delivery = price.zip(size).map(|(price, size)| {
                let load = Load {
                    price: price.value,
                    size: size.value,
                };
                Stated::new(load, entry.place)
            });
        }
    }

    /// How it is sold. What the catalogue says of packs, steps and yields goes
    /// when the way of selling changes to none of its own.
    fn sold(&mut self, material: &mut Material, entry: &Entry, file: FileId) {
        let sold = match (entry.filled.get("UNIT"), entry.filled.name("PACK")) {
            (Some((Value::Unit(unit), _)), _) => Some(Sold::Unit(unit)),
            (Some((Value::Name(_), _)), _) => Some(Sold::Each),
            _ if entry.filled.chosen::<ByPiece>("PIECE").is_some() => Some(Sold::Each),
            (_, Some((word, _))) => {
                let content = self.wanted(
                    &entry.filled,
                    "CONTENT",
                    ValueKind::Quantity,
                    Range::Positive,
                    file,
                );
                content.map(|content| {
                    Sold::Pack(Pack {
                        word: word.to_owned(),
                        content: content.value,
                        place: Some(content.place),
                    })
                })
            }
            _ => None,
        };
        let Some(sold) = sold else { return };
        let mut clause = |word: &str, slot: &str, kind: ValueKind| {
            let clause = entry.clause(word)?;
            let stated = self.wanted(&clause.filled, slot, kind, Range::Positive, file)?;
            Some(sourced(stated))
        };
        let makes = clause("makes", "VOLUME", ValueKind::Volume);
        material.step = clause("in", "STEP", ValueKind::Quantity);
        material.makes = match entry.clause("makes") {
            Some(_) => makes,
            None => usual_yield(material, &sold),
        };
        material.sold = Some(Sourced {
            value: sold,
            origin: Origin::Line(entry.place),
        });
    }

    /// Drops the figures that name no unit and were said with another `sold`,
    /// and asks for them anew.
    fn outlived(
        &mut self,
        material: &mut Material,
        section: &LogicalSection,
        sold: &Entry,
        before: Option<Sold>,
    ) {
        let bare = bare_terms(material);
        let mut gone = bare
            .into_iter()
            .filter(|(key, _)| section.entry(key).is_none());
        let said: Vec<(&str, Place)> = gone.by_ref().collect();
        let [(first, _), ..] = said.as_slice() else {
            return;
        };
        let of = before.map_or("something else".to_owned(), |before| {
            self.per(&before, self.system)
        });
        let message =
            format!("`{first}` was said with {of}, and this is sold otherwise: say it anew");
        let mut finding = Finding::new("sold-unclear", sold.place, message);
        for (key, place) in said {
            finding = finding.related(place, format!("`{key}` is stated here"));
            drop_term(material, key);
        }
        self.find(finding);
    }

    /// Asks what a figure of this section that names no unit is for, where
    /// only the catalogue says what is sold, or nothing does.
    fn terms_of_what(&mut self, material: &mut Material, section: &LogicalSection) {
        let origin = material.sold.as_ref().map(|sold| sold.origin);
        let (ways, what) = match origin {
            Some(Origin::Catalogue { material, .. }) => {
                let way = |system: System| {
                    let sold = catalogue::material(material, system, self.region)?;
                    let sold = sold.sold.clone()?;
                    Some((sold.value, system))
                };
                let ways = [self.system, self.system.other()].map(way);
                match ways {
                    [Some((one, _)), Some((other, _))] if is_same_sale(&one, &other) => return,
                    ways => (ways, "and what the catalogue has differs with the units"),
                }
            }
            Some(_) => return,
            None => ([None, None], "and nothing says what it is sold by"),
        };
        let is_sold_unread = match section.entry("sold") {
            Some(sold) => !sold.complete,
            None => section.has_lost_line(),
        };
        if is_sold_unread {
            return;
        }
        let bare = bare_terms(material);
        let own = bare.into_iter().filter_map(|(key, _)| section.entry(key));
        let own: Vec<&Entry> = own.collect();
        // What could not be read is told already, and may have named it.
        let Some(first) = own.iter().find(|entry| entry.complete) else {
            return;
        };
        let key = first.key.map_or("price", |key| key.word);
        let message = match &material.price_pack {
            Some(pack) if key == "price" => {
                let content = match self.system {
                    System::Imperial => "50 lb",
                    System::Metric => "25 kg",
                };
                format!("how much is in a {pack}? Add `sold`, as in `sold by {pack} of {content}`")
            }
            _ => format!("`{key}` of how much? It names no unit, {what}: add `sold`"),
        };
        let mut finding = Finding::new("sold-unclear", first.place, message);
        for (sold, system) in ways.into_iter().flatten() {
            let by = self.per(&sold, system);
            let line = format!("  {}\n", entry("sold", &by));
            let title = format!("Say that it is sold {by}");
            finding = finding.fix(Fix::judged(title, first.line.start(), line));
        }
        for entry in own {
            drop_term(material, entry.key.map_or("", |key| key.word));
        }
        self.find(finding);
    }

    /// A way of selling, as a spec writes it: `by ton`.
    fn per(&self, sold: &Sold, system: System) -> String {
        match sold {
            Sold::Unit(unit) => format!("by {}", unit.symbol),
            Sold::Each => "by each".to_owned(),
            Sold::Pack(pack) => {
                let content = show::quantity(&pack.content, system);
                format!("by {} of {content}", pack.word)
            }
        }
    }
}

/// Whether the word of a price is for one piece: `$2 per piece`.
fn is_a_piece(word: &str) -> bool {
    let words = ["each", "piece", "item", "unit"];
    words.iter().any(|piece| piece.eq_ignore_ascii_case(word))
}

/// Whether two ways of selling are one, wherever they are stated.
fn is_same_sale(one: &Sold, other: &Sold) -> bool {
    match (one, other) {
        (Sold::Unit(one), Sold::Unit(other)) => one.symbol == other.symbol,
        (Sold::Each, Sold::Each) => true,
        (Sold::Pack(one), Sold::Pack(other)) => {
            one.word.eq_ignore_ascii_case(&other.word) && is_same(&one.content, &other.content)
        }
        _ => false,
    }
}

fn is_same(one: &Quantity, other: &Quantity) -> bool {
    one.compare(*other).ok() == Some(std::cmp::Ordering::Equal)
}

/// What one pack makes when mixed, as the catalogue has it for packs of this
/// size in either system.
fn usual_yield(material: &Material, sold: &Sold) -> Option<Sourced<Quantity>> {
    let Some(Origin::Catalogue { material: name, .. }) =
        material.makes.as_ref().map(|makes| makes.origin)
    else {
        return None;
    };
    [System::Imperial, System::Metric]
        .into_iter()
        .filter_map(|system| catalogue::material(name, system, Region::General))
        .find(|usual| {
            let own = usual.sold.as_ref();
            own.is_some_and(|own| is_same_sale(&own.value, sold))
        })
        .and_then(|usual| usual.makes)
}

/// The figures that are said for each of what is sold and name no unit, each
/// with its place.
fn bare_terms(material: &Material) -> Vec<(&'static str, Place)> {
    let price = material.price.as_ref();
    let price = price.filter(|price| price.value.dimension == Dimension::MONEY);
    let least = material.minimum.as_ref();
    let least =
        least.filter(|least| least.value.dimension.is_none() && !least.value.number.is_zero());
    let load = material.delivery.as_ref();
    let load = load.filter(|load| load.value.size.dimension.is_none());
    let places = [
        price.map(|stated| stated.place),
        least.map(|stated| stated.place),
        load.map(|stated| stated.place),
    ];
    let terms = TERMS.into_iter().zip(places);
    terms
        .filter_map(|(key, place)| Some((key, place?)))
        .collect()
}

fn drop_term(material: &mut Material, key: &str) {
    match key {
        "price" => (material.price, material.price_pack) = (None, None),
        "minimum" => material.minimum = None,
        _ => material.delivery = None,
    }
}
