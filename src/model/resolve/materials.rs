//! Materials worked out: a section over what it is like, over the catalogue.

use std::borrow::Cow;
use std::sync::Arc;

use indexmap::IndexMap;

use super::super::catalogue::{self, built_in};
use super::super::job::{Job, Material, Named, Origin, Sourced, State, Stated, Substance};
use super::super::reading::{Entry, meant, slip_of};
use super::definitions::{Definition, LogicalSection};
use super::dependencies::Subject;
use super::evaluate::{Resolver, Worked};
use super::heading::text_of;
use super::want::Range;
use crate::findings::{FileId, Finding, Fix, Place};
use crate::materials::Kind;
use crate::units::{Dimension, Quantity};
use crate::vocabulary::{NameSpace, ValueKind, other_spelling, other_word, spelled_in};

impl Resolver<'_> {
    /// The material or mix that a name stands for. A change that the job
    /// makes holds for the libraries that it uses too, so names are looked up
    /// from the job whatever file they stand in.
    ///
    /// A name of the catalogue in British or American spelling is one material
    /// and one order: that which a section is for, or as it is spelled where
    /// the job is.
    pub(crate) fn substance_named(&mut self, name: &str, place: Place, file: FileId) -> Substance {
        let spelled = self.spelled(name);
        let known = built_in(name).map(|entry| entry.name);
        // A section of another spelling would change what is meant.
        for used in known.into_iter().chain([name]) {
            self.done.dependencies.use_name(NameSpace::Substances, used);
        }
        let name = spelled.as_ref();
        self.done.dependencies.use_name(NameSpace::Substances, name);
        match self.work_substance(name, place) {
            Some(substance) => substance,
            None => {
                if built_in(name).is_none() && !self.is_defined(name) {
                    self.missing_name(NameSpace::Substances, name, place, file);
                }
                Substance::Unknown(name.to_owned())
            }
        }
    }

    /// A name as that is spelled which it stands for.
    pub(super) fn spelled<'n>(&self, name: &'n str) -> Cow<'n, str> {
        match built_in(name) {
            Some(entry) if !self.is_defined(name) => other_spelling(name)
                .filter(|other| self.is_defined(other))
                .map_or_else(|| spelled_in(self.region, entry.name), Cow::Owned),
            _ => Cow::Borrowed(name),
        }
    }

    fn is_defined(&self, name: &str) -> bool {
        let definitions = &self.scope.definitions;
        !definitions.all(NameSpace::Substances, name).is_empty()
    }

    pub(crate) fn work_substance(&mut self, name: &str, place: Place) -> Option<Substance> {
        let subject = Subject::Substance(name.to_owned());
        self.done.dependencies.take(subject.clone());
        let definitions = &self.scope.definitions;
        let definitions = definitions.all(NameSpace::Substances, name).to_vec();
        match self.done.substances.get(name) {
            Some(Worked::Done(substance)) => return substance.clone(),
            Some(Worked::Begun) => {
                if let Some(definition) = definitions.first() {
                    self.circle(*definition, place);
                }
                return None;
            }
            None => {}
        }
        self.done.substances.insert(name.to_owned(), Worked::Begun);
        let substance = self.on(subject, |resolver| match definitions.split_first() {
            None => {
                catalogue::material(name, resolver.system, resolver.region).map(Substance::Material)
            }
            Some((first, rest)) => resolver.deeper(place, |resolver| {
                let section = resolver.section(*first)?;
                if section.is("mix") {
                    let mix = resolver.mix(section, first.file)?;
                    return Some(Substance::Mix(Arc::new(mix)));
                }
                resolver
                    .material(name, *first, rest)
                    .map(|material| Substance::Material(Arc::new(material)))
            }),
        });
        self.done
            .substances
            .insert(name.to_owned(), Worked::Done(substance.clone()));
        substance
    }

    /// Every material and mix of the file itself, used or not.
    pub(crate) fn all_substances(&mut self) {
        for kind in ["material", "mix"] {
            for (_, section) in self.own(kind) {
                if let Some(name) = section.name() {
                    self.work_substance(name.value, name.place);
                }
            }
        }
    }

    /// Lists the materials and mixes that the job states, as it states them,
    /// and after them those that it uses, by name.
    pub(crate) fn substances_listed(&mut self, job: &mut Job) {
        let known = |name: &str| match self.done.substances.get(name) {
            Some(Worked::Done(Some(substance))) => Some(substance.clone()),
            _ => None,
        };
        let kinds = ["material", "mix"].into_iter();
        let own = kinds.flat_map(|kind| self.own(kind));
        let own = own.filter_map(|(_, section)| known(section.name()?.value));
        let dependencies = &self.done.dependencies;
        let mut others: Vec<&str> = dependencies.names_used(NameSpace::Substances).collect();
        others.sort_unstable();
        let (mut materials, mut mixes) = (Named::default(), Named::default());
        for substance in own.chain(others.into_iter().filter_map(known)) {
            match substance {
                Substance::Material(material) => {
                    let all: &mut IndexMap<_, _> = Arc::make_mut(&mut materials);
                    all.entry(material.name.as_str().into()).or_insert(material);
                }
                Substance::Mix(mix) => {
                    let all: &mut IndexMap<_, _> = Arc::make_mut(&mut mixes);
                    all.entry(mix.name.value.as_str().into()).or_insert(mix);
                }
                Substance::Unknown(_) => {}
            }
        }
        (job.materials, job.mixes) = (materials, mixes);
    }

    /// A material section over what it starts from: what it is like; if that
    /// is its own name, the next section of that name, and after the last one
    /// the catalogue. There may be any number of those, so they are no calls
    /// in one another.
    fn material(&mut self, name: &str, first: Definition, rest: &[Definition]) -> Option<Material> {
        let mut over = Vec::new();
        let mut base = None;
        for definition in std::iter::once(&first).chain(rest) {
            let section = self.section(*definition)?;
            let file = definition.file;
            let like = section.entry("like");
            let like = like.and_then(|entry| entry.filled.name("NAME"));
            let is_own = |(other, _): (&str, _)| other == name || self.spelled(other) == name;
            over.push((section, file, like.is_none_or(is_own)));
            match like {
                Some(like) if is_own(like) => continue,
                Some((other, place)) => {
                    base = Some(self.material_like(other, place, file));
                    break;
                }
                None => break,
            }
        }
        let base = base.unwrap_or_else(|| catalogue::material(name, self.system, self.region));
        let mut material = match base {
            Some(base) => Material::clone(&base),
            None => catalogue::blank(name),
        };
        let in_catalogue = built_in(name).is_some();
        for (section, file, is_own) in over.into_iter().rev() {
            material.name = name.to_owned();
            material.place = Some(section.place());
            material.section = Some(section.at());
            material.changes_catalogue = in_catalogue && is_own;
            self.overlay(&mut material, section, file);
        }
        Some(material)
    }

    /// The material of another name that one starts from.
    fn material_like(&mut self, other: &str, place: Place, file: FileId) -> Option<Arc<Material>> {
        match self.substance_named(other, place, file) {
            Substance::Material(material) => Some(material),
            Substance::Mix(mix) => {
                let message = format!(
                    "`{}` is a mix; a material cannot start from it",
                    mix.name.value
                );
                self.find(
                    Finding::new("dimension-wrong", place, message)
                        .related(mix.name.place, "the mix is here"),
                );
                None
            }
            Substance::Unknown(_) => None,
        }
    }

    /// Puts what a section says over what was there.
    fn overlay(&mut self, material: &mut Material, section: &LogicalSection, file: FileId) {
        if let Some(entry) = section.entry("kind") {
            material.kind = self.material_kind(entry).or(material.kind);
        }
        if let Some(called) = text_of(section.entry("called"), "NAME") {
            material.called = Some(called.value);
        }
        if let Some(supplier) = text_of(section.entry("from"), "WHO") {
            material.supplier = Some(supplier.value);
        }
        let are_densities_read = section
            .entry("density")
            .is_some_and(|entry| self.densities(material, entry, file));
        let mut quantity = |key: &str, slot: &str, kind: ValueKind, range: Range| {
            let entry = section.entry(key)?;
            let stated = self.wanted(&entry.filled, slot, kind, range, file)?;
            Some(sourced(stated))
        };
        let particle = quantity(
            "particle-density",
            "DENSITY",
            ValueKind::Density,
            Range::Positive,
        );
        let bulking = quantity("bulking", "SHARE", ValueKind::Share, Range::Share);
        let absorption = quantity("absorption", "SHARE", ValueKind::Share, Range::Share);
        let strength = quantity("strength", "STRENGTH", ValueKind::Strength, Range::Positive);
        let covers = quantity("covers", "COVERAGE", ValueKind::Coverage, Range::Positive);
        let waste = quantity("waste", "SHARE", ValueKind::Share, Range::NotNegative);
        // What one piece is called hangs on what it is a piece of.
        let size = |key: &&&str| section.entry(key).is_some();
        let size = ["unit", "roll", "sheet"]
            .iter()
            .find(size)
            .unwrap_or(&"unit");
        let length = quantity(size, "LENGTH", ValueKind::Length, Range::Positive);
        let width = quantity(size, "WIDTH", ValueKind::Length, Range::Positive);
        let third = quantity("unit", "THICKNESS", ValueKind::Length, Range::Positive);
        let mass = quantity("mass", "MASS", ValueKind::Quantity, Range::Positive);
        let mut read = vec![
            ("density", are_densities_read),
            ("particle-density", particle.is_some()),
            ("bulking", bulking.is_some()),
            ("covers", covers.is_some()),
            ("waste", waste.is_some()),
            (*size, length.is_some() && width.is_some()),
        ];
        material.particle_density = particle.or(material.particle_density.take());
        material.bulking = bulking.or(material.bulking.take());
        material.absorption = absorption.or(material.absorption.take());
        material.strength = strength.or(material.strength.take());
        material.covers = covers.or(material.covers.take());
        if section.entry("waste").is_some() {
            material.waste = waste;
        }
        if let (Some(length), Some(width)) = (length, width) {
            let mut sides = [Some(length), Some(width), third];
            if third.is_some() {
                // The greatest first, however they are written.
                let size =
                    |side: &Option<Sourced<Quantity>>| side.map_or(0.0, |side| side.value.si());
                sides.sort_by(|a, b| size(b).total_cmp(&size(a)));
            }
            let [length, width, least] = sides;
            material.unit = length.zip(width);
            material.least_side = least;
        }
        if let Some(mass) = mass.filter(|mass| self.is_mass(mass, section)) {
            material.mass = Some(mass);
        }
        if let Some(entry) = section.entry("class")
            && let Some(class) = entry.filled.chosen("CLASS")
        {
            material.class = Some(class);
        }
        if let Some(entry) = section.entry("durability")
            && let Some(class) = entry.filled.chosen("CLASS")
        {
            material.durability = Some(class);
        }
        self.sale(material, section, file);
        let stated = section.entry("sold").map(|entry| entry.place);
        let sold = material.sold.as_ref();
        read.extend([
            (
                "sold",
                sold.is_some_and(|sold| sold.origin.place() == stated),
            ),
            ("price", material.price.is_some()),
            ("minimum", material.minimum.is_some()),
            ("delivery", material.delivery.is_some()),
        ]);
        note_unread(material, section, &read);
    }

    /// Whether a stated mass is one, of a piece or of an area.
    fn is_mass(&mut self, mass: &Sourced<Quantity>, section: &LogicalSection) -> bool {
        let dimension = mass.value.dimension;
        if mass.value.currency.is_none() && matches!(dimension, Dimension::MASS | Dimension::LOAD) {
            return true;
        }
        let place = match mass.origin {
            Origin::Line(place) => place,
            _ => section.place(),
        };
        let (rule, found) = match dimension.is_none() {
            true => ("unit-missing", "a plain number".to_owned()),
            false => ("dimension-wrong", dimension.name()),
        };
        let message = format!("this is {found}: a mass, or a mass for each area, belongs here");
        self.find(
            Finding::new(rule, place, message)
                .help("It is written `mass 27 lb/sq ft`, or `mass 5.2 lb` for one piece."),
        );
        false
    }

    fn material_kind(&mut self, entry: &Entry) -> Option<Kind> {
        let (word, place) = entry.filled.name("KIND")?;
        let kind = Kind::from_word(&word.to_lowercase());
        if kind.is_none() {
            if let Some(own) = other_word("kind", &word.to_lowercase()) {
                self.find(meant(word, own, place));
                return None;
            }
            let words: Vec<&str> = Kind::ALL.iter().map(|kind| kind.word()).collect();
            let finding = Finding::new(
                "word-unknown",
                place,
                format!("`{word}` is not a kind of material"),
            )
            .help(format!("It may be {}.", words.join(", ")));
            self.find(match slip_of(&word.to_lowercase(), words.iter().copied()) {
                Some(near) => finding.fix(Fix::judged(format!("Write `{near}`"), place, near)),
                None => finding,
            });
        }
        kind
    }

    /// One density, or one loose and one compacted.
    /// Gives whether all that is written could be made out.
    fn densities(&mut self, material: &mut Material, entry: &Entry, file: FileId) -> bool {
        let mut are_read = true;
        let mut plain = None;
        let mut loose = None;
        let mut compacted = None;
        let fills =
            std::iter::once(&entry.filled).chain(entry.values().map(|clause| &clause.filled));
        for filled in fills {
            let Some(stated) =
                self.wanted(filled, "DENSITY", ValueKind::Density, Range::Positive, file)
            else {
                are_read = false;
                continue;
            };
            let slot = match filled.chosen("STATE").map(|stated| stated.value) {
                Some(State::Loose) => &mut loose,
                Some(State::Compacted) => &mut compacted,
                None => &mut plain,
            };
            *slot = Some(sourced(stated));
        }
        match (plain, loose, compacted) {
            (Some(only), None, None) => {
                material.density = Some(only);
                material.compacted = None;
            }
            (plain, loose, compacted) => {
                material.density = loose.or(plain).or(material.density.take());
                material.compacted = compacted.or(material.compacted.take());
            }
        }
        are_read
    }
}

pub(super) fn sourced(stated: Stated<Quantity>) -> Sourced<Quantity> {
    Sourced {
        value: stated.value,
        origin: Origin::Line(stated.place),
    }
}

/// Notes which entries of a section could not be made out, so that what hangs
/// on them is not known; what is said anew is. `read` has each key with
/// whether it has a value.
fn note_unread(material: &mut Material, section: &LogicalSection, read: &[(&'static str, bool)]) {
    for (key, is_read) in read {
        let Some(entry) = section.entry(key) else {
            continue;
        };
        material.unread.retain(|unread| unread != key);
        if !(entry.is_sound && *is_read) {
            material.unread.push(key);
        }
    }
    if material.is_unread("price") {
        material.price = None;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vocabulary::other_words;

    #[test]
    fn other_words_for_a_kind_are_no_kinds_and_mean_one() {
        let words: Vec<_> = other_words("kind").collect();
        assert!(words.len() > 20);
        for (other, own) in words {
            assert!(Kind::from_word(own).is_some(), "{own}");
            assert!(Kind::from_word(other).is_none(), "{other}");
        }
    }
}
