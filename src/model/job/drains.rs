//! The drains of a job: each found by its name, and where each leads.

use std::ops::Deref;
use std::sync::Arc;

use rustc_hash::FxHashMap;

use super::{Drain, Job, Outlet, Surface};

/// The drains of a job, in the order of its text.
#[derive(Debug, Clone, Default)]
pub struct Drains {
    all: Vec<Arc<Drain>>,
    named: FxHashMap<String, usize>,
    /// The drain that each leads to.
    next: Vec<Option<usize>>,
    /// The drains that lead to each.
    before: Vec<Vec<usize>>,
}

/// Where water comes to in the end.
#[derive(Debug, Clone, Copy)]
pub enum Outfall<'a> {
    /// To what is said in quotes.
    Text(&'a str),
    /// To the last drain, which leads nowhere: a soakaway, one that is there,
    /// or one that does not say.
    Drain(&'a Drain),
    /// Round in a circle.
    Circle,
}

impl Drains {
    pub(crate) fn new(all: Vec<Arc<Drain>>) -> Drains {
        let mut named = FxHashMap::default();
        for (index, drain) in all.iter().enumerate() {
            named.entry(drain.name.value.clone()).or_insert(index);
        }
        let mut drains = Drains {
            next: Vec::new(),
            before: vec![Vec::new(); all.len()],
            all,
            named,
        };
        drains.next = drains.iter().map(|own| drains.after(own)).collect();
        for (index, next) in drains.next.iter().enumerate() {
            if let Some(before) = next.and_then(|next| drains.before.get_mut(next)) {
                before.push(index);
            }
        }
        drains
    }

    /// The drain with this name, by its index; the first of several.
    pub fn named(&self, name: &str) -> Option<usize> {
        self.named.get(name).copied()
    }

    /// The drain that an outlet names, by its index.
    pub fn at(&self, outlet: &Outlet) -> Option<usize> {
        self.named(outlet.drain()?)
    }

    /// The drain that one leads to, by its index.
    pub fn next(&self, index: usize) -> Option<usize> {
        self.next.get(index).copied().flatten()
    }

    /// The drain that one leads to, by its index, asked of the drain itself.
    pub fn after(&self, drain: &Drain) -> Option<usize> {
        self.at(&drain.to.as_ref()?.value)
    }

    /// The drains that lead to one, by their indices, in order.
    pub fn before(&self, index: usize) -> &[usize] {
        self.before.get(index).map_or(&[], Vec::as_slice)
    }

    /// Whether a drain is another or leads on to it, both by their indices.
    pub fn lead_on(&self, from: usize, to: usize) -> bool {
        let mut at = Some(from);
        for _ in 0..=self.len() {
            match at {
                Some(own) if own == to => return true,
                Some(own) => at = self.next(own),
                None => return false,
            }
        }
        false
    }

    /// The drains in such an order that each comes after those that lead to
    /// it. What goes round in a circle, and what comes out of one, is left out.
    pub fn downstream(&self) -> Vec<usize> {
        let mut waits: Vec<usize> = self.before.iter().map(Vec::len).collect();
        let all = 0..self.len();
        let mut order: Vec<usize> = all.filter(|own| waits.get(*own) == Some(&0)).collect();
        let mut at = 0;
        while let Some(own) = order.get(at).copied() {
            at += 1;
            let next = self.next(own);
            if let Some((next, waits)) = next.and_then(|next| Some((next, waits.get_mut(next)?))) {
                *waits = waits.saturating_sub(1);
                if *waits == 0 {
                    order.push(next);
                }
            }
        }
        order
    }

    /// The circles that drains make, each from its first drain on; each drain
    /// is come to once, however long the ways are.
    pub fn circles(&self) -> Vec<Vec<usize>> {
        let mut walk_of: Vec<Option<usize>> = vec![None; self.len()];
        let mut circles = Vec::new();
        for start in 0..self.len() {
            let (mut way, mut next) = (Vec::new(), Some(start));
            while let Some(index) = next
                && let Some(walk) = walk_of.get_mut(index)
            {
                if walk.is_some() {
                    break;
                }
                *walk = Some(start);
                way.push(index);
                next = self.next(index);
            }
            // Only a way that comes back to itself is a circle.
            let Some(at) = next.and_then(|next| way.iter().position(|index| *index == next)) else {
                continue;
            };
            let mut round = way.split_off(at);
            let first = round.iter().min().copied();
            let place = round.iter().position(|index| Some(*index) == first);
            round.rotate_left(place.unwrap_or(0));
            circles.push(round);
        }
        circles
    }
}

impl Deref for Drains {
    type Target = [Arc<Drain>];

    fn deref(&self) -> &[Arc<Drain>] {
        &self.all
    }
}

impl Job {
    /// The drain with this name.
    pub fn drain(&self, name: &str) -> Option<&Drain> {
        self.drain_at(self.drains.named(name)?)
    }

    /// The drain that a drain leads to.
    pub fn drain_after(&self, drain: &Drain) -> Option<&Drain> {
        self.drain_at(self.drains.after(drain)?)
    }

    /// The drains that lead to a drain, in order.
    pub fn drains_before(&self, drain: &Drain) -> impl Iterator<Item = &Drain> {
        let index = self.drains.named(&drain.name.value);
        let before = index.map_or(&[][..], |index| self.drains.before(index));
        before.iter().filter_map(|index| self.drain_at(*index))
    }

    /// The drain that a surface leads its water to by name, by its index.
    pub fn drain_of(&self, surface: &Surface) -> Option<usize> {
        self.drains.at(&surface.water.as_ref()?.value)
    }

    fn drain_at(&self, index: usize) -> Option<&Drain> {
        self.drains.get(index).map(AsRef::as_ref)
    }

    /// Where water that goes to an outlet comes to in the end; `None` if a
    /// name on the way could not be made out.
    pub fn outfall<'a>(&'a self, outlet: &'a Outlet) -> Option<Outfall<'a>> {
        let mut outlet = outlet;
        for _ in 0..=self.drains.len() {
            if let Outlet::Text(text) = outlet {
                return Some(Outfall::Text(text));
            }
            let drain = self.drain_at(self.drains.at(outlet)?)?;
            match &drain.to {
                Some(next) => outlet = &next.value,
                None if drain.entry("to").is_some() => return None,
                None => return Some(Outfall::Drain(drain)),
            }
        }
        Some(Outfall::Circle)
    }
}
