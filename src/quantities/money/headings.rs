//! The cost of the job by heading, from materials to what is paid in all.

use super::super::measures::{Area, Measured, Volume};
use super::super::schedule::ScheduleFigures;
use super::super::term::Term;
use super::super::trace::Trace;
use super::super::{DrainFigures, Figures, Order, StepsFigures, SurfaceFigures};
use super::amounts::{Amount, Portion, Rate, sum};
use super::hire::HireFigures;
use super::spoil::of_each_dig;
use crate::findings::Place;
use crate::model::{Budget, Disposal, Job, Labour, Listed, Profit, Stated, Tax, Taxed};
use crate::units::{Currency, Dimension, Money, Quantity, unit};
use crate::vocabulary::spelled_in;

/// What money goes for, in the order in which it adds up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Heading {
    /// The goods that are ordered.
    Materials,
    /// Bringing them.
    Deliveries,
    /// What is hired, and bringing that.
    Hire,
    /// Work.
    Labour,
    /// Getting rid of spoil.
    Disposal,
    /// Something else, by its place in the budget.
    Item(usize),
    /// A tax on some of it, by its place in the budget.
    Tax(usize),
    /// The sum so far.
    Cost,
    /// What is set aside.
    Contingency,
    /// What the price leaves over, as a share of the price.
    Margin,
    /// The same, as a share of the cost.
    Markup,
    /// A tax on everything, by its place in the budget.
    TaxOnEverything(usize),
    /// All of it.
    Total,
}

impl Heading {
    /// A word for it, for programs.
    pub const fn word(self) -> &'static str {
        match self {
            Heading::Materials => "materials",
            Heading::Deliveries => "deliveries",
            Heading::Hire => "hire",
            Heading::Labour => "labour",
            Heading::Disposal => "disposal",
            Heading::Item(_) => "item",
            Heading::Tax(_) => "tax",
            Heading::Cost => "cost",
            Heading::Contingency => "contingency",
            Heading::Margin => "margin",
            Heading::Markup => "markup",
            Heading::TaxOnEverything(_) => "tax-on-everything",
            Heading::Total => "total",
        }
    }
}

/// A line of the cost.
#[derive(Debug, Clone, PartialEq)]
pub struct CostLine {
    /// What the money goes for.
    pub heading: Heading,
    /// What it is called: `materials`, `tax on hire`, the words of an item.
    pub name: String,
    /// The line of the spec, or the budget's heading.
    pub place: Place,
    /// How much.
    pub amount: Option<Money>,
    /// How much for each square metre of all surfaces: money over area.
    pub per_area: Option<Quantity>,
    /// Why it is not known.
    pub unknown: Option<String>,
}

/// What the lines are worked out from.
#[derive(Clone, Copy)]
pub(in crate::quantities) struct Ground<'a> {
    pub job: &'a Job,
    pub budget: &'a Budget,
    pub orders: &'a Listed<Order>,
    pub surfaces: &'a Listed<SurfaceFigures>,
    pub drains: &'a [DrainFigures],
    pub steps: &'a Listed<StepsFigures>,
    pub schedule: Option<&'a ScheduleFigures>,
    pub hires: &'a [HireFigures],
}

const PART_UNKNOWN: &str = "a part of it is not known";
const TOO_LARGE: &str = "it is too large to work with";
const FOREIGN: &str = "it is in another currency than the job";

impl<'a> Ground<'a> {
    /// What a job with a budget has.
    pub(crate) fn of(
        job: &'a Job,
        budget: &'a Budget,
        figures: &'a Figures,
        hires: &'a [HireFigures],
    ) -> Ground<'a> {
        Ground {
            job,
            budget,
            orders: &figures.orders,
            surfaces: &figures.surfaces,
            drains: &figures.drains,
            steps: &figures.steps,
            schedule: figures.schedule.as_deref(),
            hires,
        }
    }

    /// The lines of the cost, in order.
    pub(crate) fn lines(&self) -> Vec<CostLine> {
        let mut lines: Vec<CostLine> = Vec::new();
        for heading in self.headings() {
            let found = self.amount(heading, &lines, &Trace::silent());
            let (amount, unknown) = match found {
                Ok(amount) => (Some(amount.0), None),
                Err(why) => (None, Some(why)),
            };
            lines.push(CostLine {
                heading,
                name: self.name(heading),
                place: self.place(heading),
                amount,
                per_area: amount.and_then(|amount| self.per_area(amount)),
                unknown,
            });
        }
        lines
    }

    /// Which lines there are.
    fn headings(&self) -> Vec<Heading> {
        let budget = self.budget;
        let states_delivery = |order: &Order| {
            let material = self.job.materials.get(order.material.as_str());
            material.is_some_and(|material| material.delivery.is_some())
        };
        let some = |heading, is_there: bool| is_there.then_some(heading);
        let mut headings: Vec<Heading> = [
            some(Heading::Materials, !self.orders.is_empty()),
            some(
                Heading::Deliveries,
                self.orders.iter().any(|order| states_delivery(order)),
            ),
            some(Heading::Hire, !self.hires.is_empty()),
            some(Heading::Labour, budget.labour.is_some()),
            some(Heading::Disposal, budget.disposal.is_some()),
        ]
        .into_iter()
        .flatten()
        .collect();
        headings.extend((0..budget.items.len()).map(Heading::Item));
        let taxes = budget.taxes.iter().enumerate();
        let (last, first): (Vec<_>, Vec<_>) = taxes.partition(|(_, tax)| tax.is_on_everything());
        headings.extend(first.iter().map(|(index, _)| Heading::Tax(*index)));
        let profit = budget.profit.as_ref().map(|profit| match profit {
            Profit::Margin(_) => Heading::Margin,
            Profit::Markup(_) => Heading::Markup,
        });
        let contingency = budget.contingency.as_ref().map(|_| Heading::Contingency);
        let more: Vec<Heading> = contingency
            .into_iter()
            .chain(profit)
            .chain(
                last.iter()
                    .map(|(index, _)| Heading::TaxOnEverything(*index)),
            )
            .collect();
        if !more.is_empty() {
            headings.push(Heading::Cost);
        }
        headings.extend(more);
        headings.push(Heading::Total);
        headings
    }

    fn name(&self, heading: Heading) -> String {
        let budget = self.budget;
        let labour = spelled_in(self.job.heading.region(), "labour");
        let tax = |index: usize| {
            let on = budget.taxes.get(index).map(|tax| tax.on.as_slice());
            let said = |on: &Taxed| match on {
                Taxed::Labour => &*labour,
                on => on.word(),
            };
            let on: Vec<&str> = on.unwrap_or_default().iter().map(said).collect();
            match on.as_slice() {
                [all @ .., last] if !all.is_empty() => {
                    format!("tax on {} and {last}", all.join(", "))
                }
                _ => format!("tax on {}", on.concat()),
            }
        };
        match heading {
            Heading::Item(index) => {
                let item = budget.items.get(index);
                item.map_or_else(String::new, |item| item.what.clone())
            }
            Heading::Tax(index) | Heading::TaxOnEverything(index) => tax(index),
            Heading::Labour => labour.into_owned(),
            _ => heading.word().to_owned(),
        }
    }

    fn place(&self, heading: Heading) -> Place {
        let budget = self.budget;
        let tax = |index: usize| budget.taxes.get(index).map(|tax| tax.place);
        let own = match heading {
            Heading::Labour => budget.labour.as_ref().map(|labour| labour.place),
            Heading::Disposal => budget.disposal.as_ref().map(|disposal| disposal.place),
            Heading::Item(index) => budget.items.get(index).map(|item| item.place),
            Heading::Tax(index) | Heading::TaxOnEverything(index) => tax(index),
            Heading::Contingency => budget.contingency.as_ref().map(|stated| stated.place),
            Heading::Margin | Heading::Markup => match &budget.profit {
                Some(Profit::Margin(stated) | Profit::Markup(stated)) => Some(stated.place),
                None => None,
            },
            Heading::Materials
            | Heading::Deliveries
            | Heading::Hire
            | Heading::Cost
            | Heading::Total => None,
        };
        own.unwrap_or(budget.place)
    }

    fn currency(&self) -> Currency {
        self.job.heading.currency()
    }

    /// An amount for each square metre of all surfaces.
    fn per_area(&self, amount: Money) -> Option<Quantity> {
        let areas: Option<Vec<Area>> = self
            .surfaces
            .iter()
            .map(|surface| surface.area_m2.map(Area))
            .collect();
        let Area(area) = areas?.into_iter().sum();
        let area = Quantity::near(area, Dimension::AREA).filter(|_| area > 0.0)?;
        amount.quantity()?.divided_by(area).ok()
    }

    /// How much goes for a heading; `before` are the lines before it.
    pub(crate) fn amount(
        &self,
        heading: Heading,
        before: &[CostLine],
        trace: &Trace,
    ) -> Result<Amount, String> {
        let budget = self.budget;
        let found = match heading {
            Heading::Materials => self.materials(trace),
            Heading::Deliveries => self.deliveries(trace),
            Heading::Hire => self.hire(trace),
            Heading::Labour => match &budget.labour {
                Some(labour) => self.labour(labour, trace),
                None => Err(PART_UNKNOWN.to_owned()),
            },
            Heading::Disposal => match &budget.disposal {
                Some(disposal) => self.disposal(disposal, trace),
                None => Err(PART_UNKNOWN.to_owned()),
            },
            Heading::Item(index) => self.item(index, trace),
            Heading::Tax(index) => match budget.taxes.get(index) {
                Some(tax) => {
                    let is_base = |line: &&CostLine| tax.is_on(line.heading);
                    let base = before.iter().filter(is_base);
                    share_of(base, &tax.share, "what it is on", trace)
                }
                None => Err(PART_UNKNOWN.to_owned()),
            },
            Heading::Cost | Heading::Total => self.sum_of(heading, before, trace),
            Heading::Contingency => match &budget.contingency {
                Some(share) => share_of(so_far(before), share, "cost", trace),
                None => Err(PART_UNKNOWN.to_owned()),
            },
            Heading::Markup => match &budget.profit {
                Some(Profit::Markup(share)) => {
                    share_of(so_far(before), share, "cost and contingency", trace)
                }
                _ => Err(PART_UNKNOWN.to_owned()),
            },
            Heading::Margin => match &budget.profit {
                Some(Profit::Margin(share)) => margin(before, share, trace),
                _ => Err(PART_UNKNOWN.to_owned()),
            },
            Heading::TaxOnEverything(index) => match budget.taxes.get(index) {
                Some(tax) => {
                    let is_no_tax =
                        |line: &&CostLine| !matches!(line.heading, Heading::TaxOnEverything(_));
                    let all = so_far(before).filter(is_no_tax);
                    share_of(all, &tax.share, "what it is on", trace)
                }
                None => Err(PART_UNKNOWN.to_owned()),
            },
        }?;
        Ok(found)
    }

    fn materials(&self, trace: &Trace) -> Result<Amount, String> {
        let costs: Option<Vec<_>> = self
            .orders
            .iter()
            .map(|order| {
                let cost = order.cost.filter(|cost| cost.currency == self.currency())?;
                Some(trace.term(order.name(self.job.heading.system()), Amount(cost)))
            })
            .collect();
        let costs = costs.ok_or("not every order has a cost")?;
        let all = sum(costs).ok_or(TOO_LARGE)?;
        Ok(trace.gives("materials", all).value)
    }

    fn deliveries(&self, trace: &Trace) -> Result<Amount, String> {
        let mut costs = Vec::new();
        for order in self.orders.iter() {
            let material = self.job.materials.get(order.material.as_str());
            let is_stated = material.is_some_and(|material| material.delivery.is_some());
            let is_nothing = order.ordered.is_some_and(|ordered| ordered.is_zero());
            let is_brought = !order.is_first || is_nothing;
            match &order.delivery {
                Some(delivery) if delivery.cost.currency == self.currency() => {
                    let name = format_args!("delivery of {}", order.material);
                    costs.push(trace.term(name, Amount(delivery.cost)));
                }
                None if !is_stated || is_brought => {}
                _ => return Err("what a delivery costs is not known".to_owned()),
            }
        }
        let nothing = Money {
            cents: 0,
            currency: self.currency(),
        };
        let all = match costs.is_empty() {
            true => trace.found("deliveries", Amount(nothing), "nothing is brought"),
            false => trace.gives("deliveries", sum(costs).ok_or(TOO_LARGE)?),
        };
        Ok(all.value)
    }

    fn hire(&self, trace: &Trace) -> Result<Amount, String> {
        let mut costs = Vec::new();
        for hire in self.hires {
            let unknown = || format!("what {} costs is not known", hire.name);
            let cost = hire.cost.ok_or_else(unknown)?;
            costs.push(trace.term(&hire.name, Amount(cost)));
        }
        let all = sum(costs).ok_or(TOO_LARGE)?;
        Ok(trace.gives("hire", all).value)
    }

    fn labour(&self, labour: &Labour, trace: &Trace) -> Result<Amount, String> {
        let rate = Rate::of(&labour.rate.value, self.currency()).ok_or(FOREIGN)?;
        let hours = self.hours_worked(labour, trace)?;
        let rate = trace.stated("rate", rate, labour.rate.place);
        let cost = (hours * rate).known().ok_or(TOO_LARGE)?;
        let name = spelled_in(self.job.heading.region(), "labour");
        Ok(trace.gives(name, cost).value)
    }

    /// The hours worked: as stated, else those of the schedule.
    fn hours_worked<'t>(
        &self,
        labour: &Labour,
        trace: &'t Trace,
    ) -> Result<Term<'t, Measured>, String> {
        let much = |seconds: f64| Measured {
            value: seconds,
            dimension: Dimension::TIME,
        };
        match (&labour.hours, self.schedule) {
            (Some(hours), _) => {
                let own = much(hours.value.si());
                Ok(trace.stated("hours worked", own, hours.place))
            }
            (None, Some(schedule)) => {
                let hours = schedule.hours;
                let hours = hours.ok_or("the hours of a task of the schedule are not known")?;
                Ok(trace.term("hours worked", much(hours * unit::HOUR.size().to_f64())))
            }
            (None, None) => {
                let why = "how many hours are worked is not stated, as in labour $38/h, 60 h";
                Err(why.to_owned())
            }
        }
    }

    fn disposal(&self, disposal: &Disposal, trace: &Trace) -> Result<Amount, String> {
        let loose = of_each_dig(self.surfaces, self.drains, self.steps);
        let loose = loose.ok_or("how much loose spoil there is is not known in full")?;
        let loose = trace.sum("loose spoil", "the spoil of the one dig", loose.into_iter());
        let place = disposal.price.place;
        let cost = match &disposal.load {
            None => {
                let rate = Rate::of(&disposal.price.value, self.currency()).ok_or(FOREIGN)?;
                let rate = trace.stated("price", rate, place);
                let much = |loose: Volume| Measured {
                    value: loose.0,
                    dimension: Dimension::VOLUME,
                };
                loose.map(much) * rate
            }
            Some(load) => {
                let each = Amount::of(&disposal.price.value, self.currency()).ok_or(FOREIGN)?;
                let each = trace.stated("one load costs", each, place);
                let holds = Volume(load.value.si());
                let holds = trace.stated("one load holds", holds, load.place);
                let loads = (loose / holds).rounded_up().ok_or(TOO_LARGE)?;
                trace.gives("loads begun", loads) * each
            }
        };
        let cost = cost.known().ok_or(TOO_LARGE)?;
        Ok(trace.gives("disposal", cost).value)
    }

    fn item(&self, index: usize, trace: &Trace) -> Result<Amount, String> {
        let item = self.budget.items.get(index);
        let price = item.and_then(|item| item.price.as_ref());
        let price = price.ok_or("its price cannot be read")?;
        let amount = Amount::of(&price.value, self.currency()).ok_or(FOREIGN)?;
        let stated = trace.stated("price", amount, price.place);
        Ok(trace.gives("amount", stated).value)
    }

    /// A sum of all that comes before.
    fn sum_of(
        &self,
        heading: Heading,
        before: &[CostLine],
        trace: &Trace,
    ) -> Result<Amount, String> {
        if !self.budget.unread.is_empty() {
            return Err("a line of the budget cannot be read".to_owned());
        }
        let parts: Option<Vec<_>> = so_far(before)
            .map(|line| Some(trace.term(&line.name, Amount(line.amount?))))
            .collect();
        let parts = parts.ok_or(PART_UNKNOWN)?;
        let all = sum(parts).ok_or("nothing in it has a price")?;
        Ok(trace.gives(self.name(heading), all).value)
    }
}

impl Tax {
    /// Whether a tax on some of it is on this.
    pub fn is_on(&self, heading: Heading) -> bool {
        let base = match heading {
            Heading::Materials | Heading::Deliveries => Taxed::Materials,
            Heading::Hire => Taxed::Hire,
            Heading::Labour => Taxed::Labour,
            Heading::Disposal => Taxed::Disposal,
            Heading::Item(_) => Taxed::Items,
            _ => return false,
        };
        self.on.contains(&base)
    }
}

/// The lines that add up to what comes next: the cost and what follows it, or
/// all of them where there is none.
fn so_far(before: &[CostLine]) -> impl Iterator<Item = &CostLine> {
    let cost = before.iter().position(|line| line.heading == Heading::Cost);
    before.iter().skip(cost.unwrap_or(0))
}

/// A share of a sum of lines.
fn share_of<'a>(
    lines: impl Iterator<Item = &'a CostLine>,
    share: &Stated<Quantity>,
    name: &str,
    trace: &Trace,
) -> Result<Amount, String> {
    let parts: Option<Vec<_>> = lines
        .map(|line| Some(trace.term(&line.name, Amount(line.amount?))))
        .collect();
    let parts = parts.ok_or(PART_UNKNOWN)?;
    let is_one = parts.len() == 1;
    let base = sum(parts).ok_or("nothing that it is on is in the budget")?;
    let base = match is_one {
        true => base,
        false => trace.gives(name, base),
    };
    let portion = trace.stated("share", Portion(share.value.number), share.place);
    let part = (base * portion).known().ok_or(TOO_LARGE)?;
    Ok(trace.gives("amount", part).value)
}

/// What a price leaves over the cost, if that is a share of the price.
fn margin(before: &[CostLine], share: &Stated<Quantity>, trace: &Trace) -> Result<Amount, String> {
    let parts: Option<Vec<_>> = so_far(before)
        .map(|line| Some(trace.term(&line.name, Amount(line.amount?))))
        .collect();
    let parts = parts.ok_or(PART_UNKNOWN)?;
    let is_one = parts.len() == 1;
    let cost = sum(parts).ok_or(PART_UNKNOWN)?;
    let cost = match is_one {
        true => cost,
        false => trace.gives("cost and contingency", cost),
    };
    let share = trace.stated("margin", Portion(share.value.number), share.place);
    let left = (1.0 - share).known().ok_or(TOO_LARGE)?;
    let price = (cost / left).known().ok_or(TOO_LARGE)?;
    let price = trace.gives("price", price);
    let margin = (price - cost).known().ok_or(TOO_LARGE)?;
    Ok(trace.gives("amount", margin).value)
}
