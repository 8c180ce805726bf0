//! What is hired and the budget, and what both share: prices that say what
//! they are for, and the currency that they are in.
//!
//! Both are small and are worked out anew at each edit.

use std::sync::Arc;

use super::super::job::{Job, Stated};
use super::super::reading::{Entry, Expression, Filled, Operation};
use super::currencies::in_another;
use super::evaluate::Resolver;
use super::want::Range;
use crate::findings::{FileId, Finding, Place};
use crate::units::{Dimension, Quantity};
use crate::vocabulary::{NameSpace, ValueKind};

/// The file itself: a library has neither.
pub(super) const OWN: FileId = FileId(0);

/// How many lets may stand between a price and the unit that it is for.
const MOST_LETS: usize = 8;

impl Resolver<'_> {
    /// Fills in what is hired, and the budget.
    pub(crate) fn money(&mut self, job: &mut Job) {
        let hires = self.hires();
        job.hires = Arc::new(hires.into_iter().map(Arc::new).collect());
        let budget = self.own("budget").into_iter().next();
        job.budget = budget.map(|(_, section)| Arc::new(self.budget(section)));
    }

    /// The price in a slot.
    pub(super) fn price(&mut self, filled: &Filled) -> Option<Stated<Quantity>> {
        self.wanted(filled, "PRICE", ValueKind::Price, Range::NotNegative, OWN)
    }

    /// An amount of money in a slot, for nothing in particular.
    pub(super) fn amount(&mut self, filled: &Filled) -> Option<Stated<Quantity>> {
        let price = self.price(filled)?;
        if price.value.dimension == Dimension::MONEY {
            return Some(price);
        }
        let found = price.value.dimension.name();
        self.find(Finding::new(
            "dimension-wrong",
            price.place,
            format!("this is {found}: an amount of money belongs here"),
        ));
        None
    }

    /// The share in an entry.
    pub(super) fn share(&mut self, filled: &Filled, range: Range) -> Option<Stated<Quantity>> {
        self.wanted(filled, "SHARE", ValueKind::Share, range, OWN)
    }

    /// What a price is for, as it is written: a day of `$65/day`. A price that
    /// a let holds is looked up there.
    pub(super) fn price_is_for(&self, expression: &Expression) -> Option<Quantity> {
        let mut expression = expression;
        for _ in 0..MOST_LETS {
            match expression {
                Expression::Product(factors, _) => {
                    let (Operation::Divide, last) = factors.last()? else {
                        return None;
                    };
                    return last.literal();
                }
                Expression::Name(name, _) => {
                    let lets = self.scope.definitions.all(NameSpace::Lets, name);
                    let section = self.section(*lets.first()?)?;
                    expression = section.heading()?.filled.quantity("VALUE")?;
                }
                _ => return None,
            }
        }
        None
    }
}

/// What an entry says; where it is there and cannot be made out that is noted.
pub(super) fn noted<T>(
    entry: Option<&Entry>,
    unread: &mut Vec<Place>,
    read: impl FnOnce(&Entry) -> Option<T>,
) -> Option<T> {
    let entry = entry?;
    let said = read(entry);
    if said.is_none() {
        unread.push(entry.place);
    }
    said
}

impl Job {
    /// Takes the currency of the first price for that of a job that states
    /// none.
    pub(super) fn see_currency(&mut self) {
        let mut materials = self.materials.values();
        let of_materials = materials.find_map(|material| material.price.as_ref()?.value.currency);
        let seen = of_materials.or_else(|| self.money_stated().next()?.value.currency);
        self.heading.currency_seen = seen;
    }

    /// What the budget and the hires state in another currency than that of a
    /// job that states none itself; one that states its own refuses others
    /// where they are read.
    pub(super) fn in_other_currencies(&self) -> Vec<Finding> {
        let own = self.heading.currency();
        let stated = self.money_stated().filter_map(|stated| {
            let currency = stated.value.resolved(own).currency?;
            let finding = in_another(stated.value, currency, own, stated.place);
            (currency != own).then_some(finding)
        });
        stated.collect()
    }

    /// Every amount and price of the hires and the budget, in order.
    pub(super) fn money_stated(&self) -> impl Iterator<Item = Stated<Quantity>> + '_ {
        let hires = self.hires.iter().flat_map(|hire| {
            let prices = hire.prices.iter();
            let prices = prices.map(|price| Stated::new(price.price, price.place));
            prices.chain(hire.delivery.clone())
        });
        let budget = self.budget.iter().flat_map(|budget| {
            let labour = budget.labour.as_ref().map(|labour| labour.rate.clone());
            let disposal = budget.disposal.as_ref();
            let disposal = disposal.map(|disposal| disposal.price.clone());
            let items = budget.items.iter().filter_map(|item| item.price.clone());
            let quotes = budget.quotes.iter().map(|quote| quote.price.clone());
            labour
                .into_iter()
                .chain(disposal)
                .chain(items)
                .chain(quotes)
        });
        hires.chain(budget)
    }
}
