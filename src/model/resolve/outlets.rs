//! Where water goes: to a drain by its name, or to what a text names.

use std::sync::Arc;

use super::super::job::{Outlet, Stated, spells};
use super::super::reading::{Entry, nearest};
use super::evaluate::Resolver;
use crate::findings::{FileId, Finding, Fix, Place};
use crate::vocabulary::NameSpace;

const OWN: FileId = FileId(0);

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
        let near = nearest(name, known.iter().map(String::as_str));
        let quoted = Fix::judged("Put it in quotes", place, format!("\"{name}\""));
        if let Some(near) = near {
            self.done.dependencies.use_name(NameSpace::Drains, near);
        }
        self.find(match near {
            Some(near) => Finding::new(
                "name-unknown",
                place,
                format!("no drain is called `{name}`; did you mean `{near}`?"),
            )
            .fix(Fix::judged(format!("Write `{near}`"), place, near)),
            None => Finding::new(
                "name-unknown",
                place,
                format!(
                    "no drain is called `{name}`: put anything that is not a drain of this spec in quotes"
                ),
            )
            .fix(quoted),
        });
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
