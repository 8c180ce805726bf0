//! What hiring something costs.

use super::super::measures::Count;
use super::super::schedule::{DAY_MINUTES, ScheduleFigures};
use super::super::trace::Trace;
use super::amounts::{Amount, sum};
use super::periods::{Plan, Tariff, cheapest};
use crate::model::{Hire, Period, Stretch};
use crate::units::{Currency, Day, Money};

/// What hiring something costs.
#[derive(Debug, Clone, PartialEq)]
pub struct HireFigures {
    /// Its name.
    pub name: String,
    /// On how many days it is kept, if that is stated.
    pub days: Option<u32>,
    /// The periods that are paid for, each with how many.
    pub paid: Vec<(Period, u32)>,
    /// How often it is fetched.
    pub fetched: u32,
    /// What the periods cost.
    pub hire: Option<Money>,
    /// What the fetchings cost, if they cost anything.
    pub delivery: Option<Money>,
    /// Both.
    pub cost: Option<Money>,
    /// Why it is not known what it costs.
    pub unknown: Option<&'static str>,
}

/// What hiring something costs.
///
/// The days are those that the hire states; where it states none, those on
/// which the schedule has the work that it is hired for.
pub(in crate::quantities) fn hire(
    own: &Hire,
    schedule: Option<&ScheduleFigures>,
    currency: Currency,
    trace: &Trace,
) -> HireFigures {
    let needed = Needed::of(own, schedule);
    let days = needed.days();
    let mut figures = HireFigures {
        name: own.name.value.clone(),
        days,
        paid: Vec::new(),
        fetched: 0,
        hire: None,
        delivery: None,
        cost: None,
        unknown: None,
    };
    if let Err(why) = priced(own, &needed, currency, trace, &mut figures) {
        figures.unknown = Some(why);
    }
    figures
}

/// What hiring something would cost if it were kept on the days alone on which
/// the schedule has its work.
pub fn hire_as_scheduled(
    own: &Hire,
    schedule: &ScheduleFigures,
    currency: Currency,
) -> HireFigures {
    let by_schedule = Hire {
        kept: Vec::new(),
        ..own.clone()
    };
    hire(&by_schedule, Some(schedule), currency, &Trace::silent())
}

/// When something that is hired is needed.
enum Needed<'a> {
    /// As the hire states.
    Stated(&'a [Stretch]),
    /// As the schedule has it: the day of the first if it has a date, and from
    /// it on whether each day is one.
    Scheduled(Option<Day>, Vec<bool>),
    /// The schedule does not know.
    Unknown(&'static str),
}

impl<'a> Needed<'a> {
    fn of(own: &'a Hire, schedule: Option<&ScheduleFigures>) -> Needed<'a> {
        let Some(schedule) = schedule.filter(|_| own.kept.is_empty()) else {
            return Needed::Stated(&own.kept);
        };
        if own.tasks.is_empty() {
            return Needed::Unknown("what it is hired for is not stated, as in for compacting");
        }
        let kinds = own.kinds();
        let days = schedule.days_of(&kinds).unwrap_or_default();
        let (Some(first), Some(last)) = (days.first(), days.last()) else {
            return Needed::Unknown("the schedule has no days for the work that it is hired for");
        };
        let all = (*first..=*last).map(|day| days.contains(&day));
        let date = schedule.day(first.saturating_mul(DAY_MINUTES));
        Needed::Scheduled(date, all.collect())
    }

    fn days(&self) -> Option<u32> {
        match self {
            Needed::Stated(kept) => days(kept),
            Needed::Scheduled(_, all) => u32::try_from(all.iter().filter(|is| **is).count()).ok(),
            Needed::Unknown(_) => None,
        }
    }

    /// Why there are no days.
    const fn unknown(&self) -> &'static str {
        match self {
            Needed::Unknown(why) => why,
            _ => "how long it is kept is not stated, as in kept 3 days",
        }
    }

    /// How all the days are paid for.
    fn plan(&self, tariff: &Tariff) -> Option<Plan> {
        match self {
            Needed::Stated(kept) => plan(kept, tariff),
            Needed::Scheduled(first, all) => cheapest(all, first.map(monday_after), tariff),
            Needed::Unknown(_) => None,
        }
    }
}

/// On how many days it is kept; a day that two stretches have counts once.
fn days(kept: &[Stretch]) -> Option<u32> {
    let needed = |day: &&bool| **day;
    let dated = dated(kept).map_or(0, |(_, days)| days.iter().filter(needed).count());
    let others = kept.iter().filter(|stretch| stretch.from.is_none());
    let others: u32 = others.map(|stretch| stretch.days).sum();
    let all = u32::try_from(dated).ok()?.checked_add(others)?;
    (all > 0).then_some(all)
}

/// The first day of the stretches that have one, and from it on whether each
/// day is one of theirs.
fn dated(kept: &[Stretch]) -> Option<(Day, Vec<bool>)> {
    let first = kept.iter().filter_map(|stretch| stretch.from).min()?;
    let mut days: Vec<bool> = Vec::new();
    for stretch in kept {
        let Some(from) = stretch.from else { continue };
        let start = usize::try_from(from.since(first)).ok()?;
        let end = start.checked_add(stretch.days as usize)?;
        if days.len() < end {
            days.resize(end, false);
        }
        let own = days.iter_mut().skip(start).take(stretch.days as usize);
        own.for_each(|day| *day = true);
    }
    Some((first, days))
}

/// The number of the first Monday from a day on.
fn monday_after(day: Day) -> usize {
    ((7 - day.weekday()) % 7) as usize
}

fn priced(
    own: &Hire,
    needed: &Needed<'_>,
    currency: Currency,
    trace: &Trace,
    figures: &mut HireFigures,
) -> Result<(), &'static str> {
    if own.is_unread {
        return Err("a line of it cannot be read");
    }
    let days = figures.days.ok_or(needed.unknown())?;
    let foreign = "it is in another currency than the job";
    let mut prices = Vec::new();
    for price in &own.prices {
        let amount = Amount::of(&price.price, currency).ok_or(foreign)?;
        prices.push((price.period, amount, price.place));
    }
    let fetching = match &own.delivery {
        Some(stated) => Some(Amount::of(&stated.value, currency).ok_or(foreign)?),
        None => None,
    };
    let tariff = Tariff {
        periods: prices
            .iter()
            .map(|(period, amount, _)| (*period, amount.0.cents))
            .collect(),
        fetching: fetching.map_or(0, |amount| amount.0.cents),
        minimum: own.minimum.as_ref().map_or(0, |days| days.value as usize),
    };
    let no_price = match own.prices.as_slice() {
        [] => "no price is stated",
        _ if own.kept.iter().any(|kept| kept.from.is_some()) => {
            "only a weekend has a price, and it is kept on other days"
        }
        _ => "its price for a weekend counts only where the first day is stated",
    };
    let plan = needed.plan(&tariff).ok_or(no_price)?;
    let how = match needed {
        Needed::Scheduled(..) => "the days of its work in the schedule",
        _ => "the days that are stated",
    };
    trace.found("days kept", Count(f64::from(days)), how);
    let mut parts = Vec::new();
    for (period, amount, place) in prices {
        let Some(count) = plan.paid.get(&period) else {
            continue;
        };
        let name = period.counted(1);
        let price = trace.stated(format_args!("price for {name}"), amount, place);
        let how = "as the cheapest mix of periods has it";
        let count_of = Count(f64::from(*count));
        let paid = trace.found(format_args!("times {name}"), count_of, how);
        parts.extend((paid * price).known());
        figures.paid.push((period, *count));
    }
    let too_large = "it is too large to work with";
    let hire = sum(parts).ok_or(too_large)?;
    let hire = trace.gives("hire", hire);
    figures.fetched = plan.fetched;
    figures.hire = Some(hire.value.0);
    let cost = match (fetching, &own.delivery) {
        (Some(amount), Some(stated)) => {
            let each = trace.stated("bringing it once", amount, stated.place);
            let often = Count(f64::from(plan.fetched));
            let often = trace.found("times it is brought", often, "as the cheapest way has it");
            let delivery = (often * each).known().ok_or(too_large)?;
            let delivery = trace.gives("delivery", delivery);
            figures.delivery = Some(delivery.value.0);
            let both = (hire + delivery).known().ok_or(too_large)?;
            trace.gives("hire and delivery", both)
        }
        _ => hire,
    };
    figures.cost = Some(cost.value.0);
    Ok(())
}

/// How all the days are paid for: those that are dated together, and each
/// stretch that is not by itself.
fn plan(kept: &[Stretch], tariff: &Tariff) -> Option<Plan> {
    let mut plans = Vec::new();
    if let Some((first, needed)) = dated(kept) {
        plans.push(cheapest(&needed, Some(monday_after(first)), tariff)?);
    }
    for stretch in kept.iter().filter(|stretch| stretch.from.is_none()) {
        plans.push(cheapest(&vec![true; stretch.days as usize], None, tariff)?);
    }
    let none = Plan::default();
    plans.iter().try_fold(none, |all, one| all.and(one))
}

#[cfg(test)]
mod tests {
    use super::super::super::fixture::{line, stated};
    use super::*;
    use crate::findings::{FileId, SectionRef};
    use crate::model::{PeriodPrice, Stated};
    use crate::syntax::SectionId;

    fn plate(kept: &[(u32, Option<&str>)]) -> Hire {
        let price = |period, text: &str| PeriodPrice {
            period,
            price: stated(text).value,
            place: line(3),
        };
        let stretch = |(days, from): &(u32, Option<&str>)| Stretch {
            days: *days,
            from: from.and_then(Day::read),
            place: line(2),
        };
        Hire {
            name: Stated::new("plate-compactor".to_owned(), line(1)),
            section: SectionRef {
                file: FileId(0),
                section: SectionId(0),
            },
            place: line(1),
            tasks: Vec::new(),
            kept: kept.iter().map(stretch).collect(),
            prices: vec![
                price(Period::Days(1), "$65"),
                price(Period::Days(7), "$180"),
                price(Period::Weekend, "$95"),
            ],
            delivery: Some(stated("$40")),
            minimum: None,
            is_unread: false,
        }
    }

    fn cost(hire: &Hire) -> Option<String> {
        let found = super::hire(hire, None, Currency::Dollar, &Trace::silent());
        assert_eq!(found.cost.is_none(), found.unknown.is_some());
        found.cost.map(Money::decimal)
    }

    #[test]
    fn a_weekend_counts_where_the_first_day_is_known() {
        // 2027-05-08 is a Saturday.
        for (kept, expected) in [
            (vec![(2, None)], Some("170.00")),
            (vec![(2, Some("2027-05-08"))], Some("135.00")),
            (vec![(2, Some("2027-05-07"))], Some("170.00")),
            (vec![(3, Some("2027-05-07"))], Some("200.00")),
            (vec![(1, None), (1, None)], Some("210.00")),
            // Two weekends: given back between them.
            (
                vec![(2, Some("2027-05-08")), (2, Some("2027-05-15"))],
                Some("270.00"),
            ),
            (vec![], None),
        ] {
            assert_eq!(cost(&plate(&kept)).as_deref(), expected, "{kept:?}");
        }
    }

    #[test]
    fn what_is_not_known_has_a_reason() {
        let known = plate(&[(2, None)]);
        let weekend = Hire {
            prices: known.prices[2..].to_vec(),
            ..known.clone()
        };
        let unread = Hire {
            is_unread: true,
            ..known.clone()
        };
        let foreign = Hire {
            delivery: Some(stated("£40")),
            ..known
        };
        for hire in [weekend, unread, foreign] {
            assert_eq!(cost(&hire), None);
        }
    }

    #[test]
    fn mondays_follow() {
        for (day, monday) in [
            ("2027-05-08", 2),
            ("2027-05-10", 0),
            ("2027-05-11", 6),
            ("1969-12-29", 0),
        ] {
            assert_eq!(monday_after(Day::read(day).unwrap()), monday, "{day}");
        }
    }
}
