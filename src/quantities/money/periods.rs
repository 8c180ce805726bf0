//! The cheapest way to pay for days of hire: which periods, and whether what
//! is hired is kept over a gap or given back and fetched again.
//!
//! A stretch of days is paid for by dynamic programming over its days: what
//! the first so many days cost at least is the least, over all periods, of
//! what the days before the period cost and its price. Which stretches there
//! are is settled the same way over the runs of days on which it is needed.

use std::collections::BTreeMap;

use crate::model::Period;

/// What hiring costs, in cents.
#[derive(Debug, Clone, Default)]
pub(super) struct Tariff {
    /// Each period and its price.
    pub periods: Vec<(Period, i128)>,
    /// What each fetching costs.
    pub fetching: i128,
    /// How many days each fetching is paid for at least.
    pub minimum: usize,
}

/// How days are paid for.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Plan {
    /// What the periods cost together, in cents.
    pub cost: i128,
    /// How often it is fetched.
    pub fetched: u32,
    /// How many of each period are paid for.
    pub paid: BTreeMap<Period, u32>,
}

impl Plan {
    /// With the fetchings.
    fn whole(&self, tariff: &Tariff) -> Option<i128> {
        tariff
            .fetching
            .checked_mul(i128::from(self.fetched))?
            .checked_add(self.cost)
    }

    /// Both plans as one.
    pub(crate) fn and(&self, other: &Plan) -> Option<Plan> {
        let mut paid = self.paid.clone();
        for (period, count) in &other.paid {
            *paid.entry(*period).or_default() += count;
        }
        Some(Plan {
            cost: self.cost.checked_add(other.cost)?,
            fetched: self.fetched.saturating_add(other.fetched),
            paid,
        })
    }
}

/// The cheapest way to have something on the days of `needed`, day by day;
/// `monday` is the number of the first Monday among them and those that
/// follow, if it is known. `None` if no period can pay for a day.
pub(super) fn cheapest(needed: &[bool], monday: Option<usize>, tariff: &Tariff) -> Option<Plan> {
    let runs = runs(needed);
    // The best way to have it on the first so many runs.
    let mut best = vec![Plan::default()];
    for (last, (_, end)) in runs.iter().enumerate() {
        let ways = runs.iter().zip(&best).take(last + 1);
        let ways = ways.filter_map(|((start, _), before)| {
            let days = end.saturating_sub(*start).max(tariff.minimum);
            before.and(&stretch(*start, days, monday, tariff)?)
        });
        let least = ways.min_by_key(|plan| plan.whole(tariff).unwrap_or(i128::MAX))?;
        best.push(least);
    }
    best.pop()
}

/// The runs of days on which it is needed: the first, and the one after the
/// last.
fn runs(needed: &[bool]) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (day, _) in needed.iter().enumerate().filter(|(_, needed)| **needed) {
        match runs.last_mut() {
            Some((_, end)) if *end == day => *end += 1,
            _ => runs.push((day, day + 1)),
        }
    }
    runs
}

/// What the first so many days cost at least, and the period that ends them:
/// the day that it starts on, and which it is.
type Reached = (i128, Option<(usize, Period)>);

/// The cheapest periods over so many days without a gap. A period may run on
/// past the last of them.
fn stretch(start: usize, days: usize, monday: Option<usize>, tariff: &Tariff) -> Option<Plan> {
    let mut best: Vec<Option<Reached>> = vec![None; days + 1];
    if let Some(first) = best.first_mut() {
        *first = Some((0, None));
    }
    for day in 0..days {
        let Some(Some((so_far, _))) = best.get(day).copied() else {
            continue;
        };
        for (period, price) in &tariff.periods {
            let Some(length) = length(*period, start + day, monday) else {
                continue;
            };
            let cost = so_far.checked_add(*price)?;
            let end = day.saturating_add(length).min(days);
            if let Some(place) = best.get_mut(end)
                && place.is_none_or(|(known, _)| cost < known)
            {
                *place = Some((cost, Some((day, *period))));
            }
        }
    }
    let (cost, _) = best.last().copied().flatten()?;
    let mut paid = BTreeMap::new();
    let mut at = days;
    while let Some(Some((_, Some((before, period))))) = best.get(at) {
        *paid.entry(*period).or_default() += 1;
        at = *before;
    }
    Some(Plan {
        cost,
        fetched: 1,
        paid,
    })
}

/// For how many days a period pays from a day on: a weekend for the Saturday
/// and the Sunday.
fn length(period: Period, day: usize, monday: Option<usize>) -> Option<usize> {
    match period {
        Period::Days(days) => Some(days as usize),
        // Days after Monday, the first Monday being no later than day 6.
        Period::Weekend => match (day + 7).checked_sub(monday?)? % 7 {
            5 => Some(2),
            6 => Some(1),
            _ => None,
        },
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// The same by trying everything: on each day it is paid for, paid on,
    /// given back, or fetched because it is needed.
    fn tried(needed: &[bool], monday: Option<usize>, tariff: &Tariff) -> Option<i128> {
        /// `paid` days from `day` on are paid for; `owed` of the least are not.
        fn least(
            needed: &[bool],
            monday: Option<usize>,
            tariff: &Tariff,
            (day, paid, owed, here): (usize, usize, usize, bool),
        ) -> Option<i128> {
            let is_over = needed.iter().skip(day).all(|needed| !needed);
            if is_over && owed <= paid {
                return Some(0);
            }
            let mut ways = Vec::new();
            if paid > 0 {
                let next = (day + 1, paid - 1, owed.saturating_sub(1), true);
                ways.push(least(needed, monday, tariff, next));
            } else {
                let is_needed = needed.get(day).copied().unwrap_or(false);
                if !is_needed && owed == 0 {
                    ways.push(least(needed, monday, tariff, (day + 1, 0, 0, false)));
                }
                for (period, price) in &tariff.periods {
                    let Some(length) = length(*period, day, monday) else {
                        continue;
                    };
                    if !here && !is_needed {
                        continue;
                    }
                    let (owed, fetching) = match here {
                        true => (owed, 0),
                        false => (tariff.minimum, tariff.fetching),
                    };
                    let after = least(needed, monday, tariff, (day, length, owed, true));
                    ways.push(after.map(|after| after + price + fetching));
                }
            }
            ways.into_iter().flatten().min()
        }
        least(needed, monday, tariff, (0, 0, 0, false))
    }

    fn tariff(periods: &[(Period, i128)], fetching: i128, minimum: usize) -> Tariff {
        Tariff {
            periods: periods.to_vec(),
            fetching,
            minimum,
        }
    }

    const DAY: Period = Period::Days(1);
    const WEEK: Period = Period::Days(7);

    #[test]
    fn the_cheapest_mix_of_periods_is_paid() {
        let prices = [(DAY, 65), (WEEK, 180), (Period::Weekend, 95)];
        for (days, monday, cost) in [
            (1, None, 65),
            (2, None, 130),
            (3, None, 180),
            (8, None, 245),
            (10, None, 360),
            // From a Saturday on, Monday is the third day.
            (2, Some(2), 95),
            (3, Some(2), 160),
            // From a Sunday on the weekend costs more than its one day.
            (1, Some(1), 65),
        ] {
            let plan = cheapest(&vec![true; days], monday, &tariff(&prices, 0, 0));
            assert_eq!(plan.unwrap().cost, cost, "{days} days");
        }
        let none = cheapest(&[true], None, &tariff(&[(Period::Weekend, 95)], 0, 0));
        assert_eq!(none, None);
    }

    #[test]
    fn over_a_gap_it_is_kept_or_given_back() {
        let days = |gap: usize| [vec![true], vec![false; gap], vec![true]].concat();
        for (gap, fetched) in [(0, 1), (1, 1), (2, 1), (3, 2)] {
            let plan = cheapest(&days(gap), None, &tariff(&[(DAY, 20)], 50, 0)).unwrap();
            assert_eq!(plan.fetched, fetched, "{gap} days");
        }
    }

    #[test]
    fn the_least_is_paid_for_each_fetching() {
        let plan = cheapest(&[true], None, &tariff(&[(DAY, 20)], 0, 3)).unwrap();
        assert_eq!((plan.cost, plan.paid[&DAY]), (60, 3));
    }

    proptest! {
        #[test]
        fn no_other_way_is_cheaper(
            needed in prop::collection::vec(any::<bool>(), 1..6),
            monday in prop::option::of(0usize..7),
            day in 1i128..60,
            longer in prop::option::of((2u32..5, 1i128..120)),
            weekend in prop::option::of(1i128..90),
            fetching in 0i128..80,
            minimum in 0usize..4,
        ) {
            let longer = longer.map(|(days, price)| (Period::Days(days), price));
            let weekend = weekend.map(|price| (Period::Weekend, price));
            let periods: Vec<_> = [Some((DAY, day)), longer, weekend].into_iter().flatten().collect();
            let tariff = tariff(&periods, fetching, minimum);
            let plan = cheapest(&needed, monday, &tariff).unwrap();
            prop_assert_eq!(plan.whole(&tariff), tried(&needed, monday, &tariff));
            let prices: i128 = plan.paid.iter().map(|(period, count)| {
                let price = periods.iter().find(|(own, _)| own == period).unwrap().1;
                price * i128::from(*count)
            }).sum();
            prop_assert_eq!(prices, plan.cost);
        }
    }
}
