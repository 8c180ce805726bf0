//! Where water goes: to a drain by its name, or to what a text names.

use std::sync::Arc;

use super::super::job::{Outlet, Stated, spells};
use super::super::reading::{Entry, nearest};
use super::evaluate::Resolver;
use crate::findings::{FileId, Finding, Fix, Place};
use crate::vocabulary::NameSpace;

const OWN: FileId = FileId(0);

/// So many drains are offered for one that is not there.
const MOST: usize = 3;

impl Resolver<'_> {
    /// Where an entry says that water goes: a drain by its name, or a text.
    pub(crate) fn outlet(&mut self, entry: &Entry) -> Option<Stated<Outlet>> {
        if let Some((name, place)) = entry.filled.name("DRAIN") {
            if self.seen(NameSpace::Drains, name, OWN).is_none() {
                self.no_drain(name, place);
                return None;
            }
            self.look_up(NameSpace::Drains, name, place, OWN)?;
            return Some(Stated::new(Outlet::Drain(name.to_owned()), place));
        }
        let (text, place) = entry.filled.text("WHERE")?;
        self.quoted_drain(text, place);
        Some(Stated::new(Outlet::Text(text.to_owned()), place))
    }

    /// A name that is no drain's: it may be misspelt, or be what in quotes
    /// says where the water goes.
    fn no_drain(&mut self, name: &str, place: Place) {
        let scope = Arc::clone(&self.scope);
        // A section whose heading cannot be read may be this drain.
        if scope.definitions.excused.contains(name) {
            return;
        }
        let known = scope.definitions.names(NameSpace::Drains);
        let known = || known.iter().map(String::as_str);
        let slip = nearest(name, known());
        // `rear-soakaway` beside `rear-soak`: in quotes it would lead nowhere.
        let meant = match slip {
            Some(near) => vec![near],
            None => {
                let own = self.drain_at(place);
                let others = || known().filter(|other| Some(*other) != own);
                let most = others().map(|other| words_shared(other, name)).max();
                let most = most.filter(|most| *most > 0);
                let are_most = |other: &&str| Some(words_shared(other, name)) == most;
                others().filter(are_most).collect()
            }
        };
        for near in &meant {
            self.done.dependencies.use_name(NameSpace::Drains, near);
        }
        let is_surface = self.seen(NameSpace::Surfaces, name, OWN).is_some();
        let message = match meant.as_slice() {
            [only] => format!("no drain is called `{name}`; did you mean `{only}`?"),
            _ if is_surface => format!(
                "`{name}` is a surface of this job: name the drain, or put in quotes what takes the water from there"
            ),
            [] => format!(
                "no drain is called `{name}`: put anything that is not a drain of this spec in quotes"
            ),
            some => format!("no drain is called `{name}`: is it {}?", some.join(" or ")),
        };
        let finding = Finding::new("name-unknown", place, message);
        let finding = meant.iter().take(MOST).fold(finding, |finding, near| {
            finding.fix(Fix::judged(format!("Write `{near}`"), place, *near))
        });
        self.find(match slip.is_some() || is_surface {
            true => finding,
            false => {
                let quoted = format!("\"{name}\"");
                finding.fix(Fix::judged("Put it in quotes", place, quoted))
            }
        });
    }

    /// The drain in whose section a place lies.
    fn drain_at(&self, place: Place) -> Option<&str> {
        let mut drains = self.own("drain").into_iter();
        let (_, section) = drains.find(|(_, own)| own.place().section == place.section)?;
        section.name().map(|name| name.value)
    }

    /// A text that spells the name of a drain, which it does not mean.
    fn quoted_drain(&mut self, text: &str, place: Place) {
        let scope = Arc::clone(&self.scope);
        let mut known = scope.definitions.names(NameSpace::Drains).iter();
        let Some(name) = known.find(|known| spells(text, known)) else {
            return;
        };
        self.done.dependencies.use_name(NameSpace::Drains, name);
        let message =
            format!("in quotes this is only text: the drain `{name}` gets none of this water");
        self.find(Finding::new("name-quoted", place, message).fix(Fix::judged(
            format!("Write `{name}`"),
            place,
            name.as_str(),
        )));
    }
}

/// How many words two names have in common that are long enough to say
/// something, or of which one begins the other: of `rear-soakaway` and
/// `rear-soak`, two.
fn words_shared(own: &str, name: &str) -> usize {
    /// So many letters say something.
    const LONG: usize = 4;
    let parts = |name: &str| -> Vec<String> {
        let parts = name.split(['-', '_', '.']).map(str::to_lowercase);
        parts.filter(|part| part.chars().count() >= LONG).collect()
    };
    let (own, name) = (parts(own), parts(name));
    let is_shared = |one: &&String| {
        name.iter()
            .any(|other| one.starts_with(other.as_str()) || other.starts_with(one.as_str()))
    };
    own.iter().filter(is_shared).count()
}
