//! The price as a client reads it: what each part of the work comes to, with
//! its share of what is set aside and earned in it, so that no cost and no
//! margin can be read from it.

use super::MoneyFigures;
use super::headings::Heading;
use crate::units::Money;

/// A part of the price.
#[derive(Debug, Clone, PartialEq)]
pub struct PricePart {
    /// What it is for: goods with their deliveries, hire, work, disposal, an
    /// item, or a tax on everything.
    pub of: Heading,
    /// The words of an item or a tax; what the budget calls it.
    pub name: String,
    /// What is paid for it.
    pub amount: Money,
}

impl MoneyFigures {
    /// Whether the budget says what is earned: a sum of bare costs is no price.
    pub fn is_price(&self) -> bool {
        let profit = [Heading::Margin, Heading::Markup];
        profit.iter().any(|own| self.line(*own).is_some())
    }

    /// The price by part, which add up to the total to the cent; `None` where
    /// there is no price, or it is not known.
    ///
    /// What is before the taxes on everything is parted as the costs are, by the
    /// greatest remainders; a tax on some of it is part of what it costs.
    pub fn price_parts(&self) -> Option<Vec<PricePart>> {
        let total = self.total().filter(|_| self.is_price())?;
        let mut parts: Vec<PricePart> = Vec::new();
        let mut taxes: Vec<PricePart> = Vec::new();
        for line in &self.costs {
            let part = |of: Heading| {
                Some(PricePart {
                    of,
                    name: line.name.clone(),
                    amount: line.amount?,
                })
            };
            match line.heading {
                Heading::Deliveries => {
                    let own = part(Heading::Materials)?;
                    let mut known = parts.iter_mut();
                    match known.find(|part| part.of == Heading::Materials) {
                        Some(goods) => goods.amount = goods.amount.plus(own.amount)?,
                        None => parts.push(own),
                    }
                }
                Heading::Materials
                | Heading::Hire
                | Heading::Labour
                | Heading::Disposal
                | Heading::Item(_) => parts.push(part(line.heading)?),
                Heading::TaxOnEverything(_) => taxes.push(part(line.heading)?),
                Heading::Tax(_)
                | Heading::Cost
                | Heading::Contingency
                | Heading::Margin
                | Heading::Markup
                | Heading::Total => {}
            }
        }
        let taxed = Money::sum(total.currency, taxes.iter().map(|tax| tax.amount))?;
        let untaxed = total.cents.checked_sub(taxed.cents)?;
        let costs: Vec<i128> = parts.iter().map(|part| part.amount.cents).collect();
        let amounts = parted(untaxed, &costs)?;
        for (part, cents) in parts.iter_mut().zip(amounts) {
            part.amount.cents = cents;
        }
        parts.extend(taxes);
        Some(parts)
    }
}

/// An amount parted as these shares are, to the whole cent: each has what is
/// whole of it, and those of which the most is lost a cent more. `None` where
/// there is nothing to part by.
fn parted(amount: i128, shares: &[i128]) -> Option<Vec<i128>> {
    let all: i128 = shares.iter().sum();
    if all <= 0 {
        return None;
    }
    let wholes = shares.iter().map(|share| {
        let exact = amount.checked_mul(*share)?;
        Some((exact.div_euclid(all), exact.rem_euclid(all)))
    });
    let wholes = wholes.collect::<Option<Vec<(i128, i128)>>>()?;
    let left = amount - wholes.iter().map(|(whole, _)| whole).sum::<i128>();
    let mut order: Vec<usize> = (0..wholes.len()).collect();
    order.sort_by_key(|at| std::cmp::Reverse(wholes.get(*at).map(|own| own.1)));
    let mut amounts: Vec<i128> = wholes.iter().map(|own| own.0).collect();
    let more = usize::try_from(left).unwrap_or_default();
    for at in order.into_iter().take(more) {
        if let Some(own) = amounts.get_mut(at) {
            *own += 1;
        }
    }
    Some(amounts)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_are_those_of_the_costs_and_lose_no_cent() {
        for (amount, shares, expected) in [
            (100, vec![1, 1, 1], Some(vec![34, 33, 33])),
            (1_000, vec![250, 250, 500], Some(vec![250, 250, 500])),
            (1_180, vec![600, 400], Some(vec![708, 472])),
            // A credit goes down as the rest goes up.
            (200, vec![150, -50], Some(vec![300, -100])),
            (7, vec![0, 3], Some(vec![0, 7])),
            (7, vec![], None),
            (7, vec![0, 0], None),
            (i128::MAX, vec![3, 4], None),
        ] {
            assert_eq!(parted(amount, &shares), expected, "{amount} by {shares:?}");
        }
        for amount in 0..500 {
            let shares = [7, 11, 13, 17];
            let all: i128 = parted(amount, &shares).expect("shares").iter().sum();
            assert_eq!(all, amount);
        }
    }
}
