//! The cost by heading: published sums, and what must hold of any.

use std::sync::Arc;

use drylay::analysis::{Analyser, Analysis, NoFiles};
use drylay::report::unknown;
use drylay::units::Money;

/// A small priced job with these sections more.
fn priced(more: &str) -> Arc<Analysis> {
    let text = format!(
        "job \"Court\"\n  units imperial\n  region us\n  currency USD\n\n\
         site\n  soil gravel, firm\n  datum \"sill\"\n  ground -8 in\n\n\
         shape court\n  rectangle 20' by 15'\n\n\
         surface court\n  shape court\n  meets north\n  level -6 in at north\n  \
         fall 2 % away from north\n  build strip\n\n\
         build strip\n  base crushed-stone, 4 in compacted\n\n\
         material crushed-stone\n  price $40/ton\n  delivery $90 per load of 10 ton\n\n{more}"
    );
    Analyser::new().analyse("/court.patio", text.as_str().into(), &NoFiles, "2027-04-12")
}

/// The amounts of the cost by their names, of those asked for.
fn amounts(analysis: &Analysis, names: &[&str]) -> Vec<Option<String>> {
    let money = analysis.figures.money.as_ref().expect("it has a budget");
    let amount = |name: &&str| {
        let mut lines = money.costs.iter();
        let line = lines.find(|line| line.name == *name).expect("it is a line");
        line.amount.map(Money::decimal)
    };
    names.iter().map(amount).collect()
}

fn known(texts: &[&str]) -> Vec<Option<String>> {
    texts.iter().map(|text| Some((*text).to_owned())).collect()
}

/// *Estimating in Building Construction*, p. 125, as read: 803 sq ft of brick
/// face take 48 mason's hours and 64 labourer's hours, rounded before they are
/// priced, at 14.25 and 10.00: 684 and 640.
#[test]
fn hours_are_priced_as_an_estimating_book_prices_them() {
    for (labour, cost) in [("$14.25/h, 48 h", "684.00"), ("$10/h, 64 h", "640.00")] {
        let analysis = priced(&format!("budget\n  labour {labour}\n"));
        assert_eq!(amounts(&analysis, &["labor"]), known(&[cost]));
    }
}

/// Gillette and Hill, *Concrete Construction: Methods and Costs* (1908), as
/// read: the labour of a kerb in Ottawa, item by item, comes to 304.33; the base
/// and the finish of a walk in Quincy to 7.18 and 13.57 a cubic yard; turning a
/// mix six times at two cents and shovelling it three times at five to 27 cents,
/// two and two to 14; and loading stone and sand to 14.
#[test]
fn items_add_up_as_published() {
    let base = [1.22 * 1.53, 0.50 * 1.02, 0.84 * 1.57, 3.48];
    let cases: [(&[f64], i64); 6] = [
        (
            &[88.90, 43.30, 61.30, 45.15, 9.85, 25.00, 13.60, 17.23],
            30_433,
        ),
        (&base, 718),
        (&[6.12, 0.80, 0.29, 6.36], 1_357),
        (&[6.0 * 0.02, 3.0 * 0.05], 27),
        (&[2.0 * 0.02, 2.0 * 0.05], 14),
        (&[1.50 / 15.0, 0.4 * 1.50 / 15.0], 14),
    ];
    for (items, wanted) in cases {
        let lines: String = items
            .iter()
            .map(|cost| format!("  item \"gang\" ${cost:.2}\n"))
            .collect();
        let analysis = priced(&format!("budget\n{lines}  contingency 0 %\n"));
        let found = amounts(&analysis, &["materials", "deliveries", "cost"]);
        let cents = |text: &Option<String>| -> i64 {
            text.as_ref().unwrap().replace('.', "").parse().unwrap()
        };
        let [materials, deliveries, cost] = found.as_slice() else {
            panic!("three lines");
        };
        assert_eq!(cents(cost) - cents(materials) - cents(deliveries), wanted);
    }
}

#[test]
fn money_adds_up_in_its_order() {
    // 8.23 tons of stone at most 10 a load: 11.3 tons of base.
    let base = priced("budget\n  contingency 0 %\n");
    let [materials, deliveries] = &amounts(&base, &["materials", "deliveries"])[..] else {
        panic!("two lines");
    };
    let cents = |text: &Option<String>| -> i128 {
        text.as_ref().unwrap().replace('.', "").parse().unwrap()
    };
    let goods = cents(materials) + cents(deliveries);
    let rounded = |exact: f64| (exact + 1e-6).round() as i128;
    for (lines, tax, contingency, profit, total) in [
        (
            "tax 7.5 % on materials",
            rounded(goods as f64 * 0.075),
            0,
            0,
            None,
        ),
        ("contingency 10 %", 0, rounded(goods as f64 * 0.1), 0, None),
        (
            "margin 20 %",
            0,
            0,
            rounded(goods as f64 / 0.8) - goods,
            None,
        ),
        ("markup 20 %", 0, 0, rounded(goods as f64 * 0.2), None),
        (
            "tax 20 % on everything",
            0,
            0,
            0,
            Some(goods + rounded(goods as f64 * 0.2)),
        ),
    ] {
        let analysis = priced(&format!("budget\n  {lines}\n"));
        let money = analysis.figures.money.as_ref().unwrap();
        let found = money.total().unwrap().cents;
        let expected = total.unwrap_or(goods + tax + contingency + profit);
        assert_eq!(found, expected, "{lines}");
    }
}

/// A margin is a share of the price and a markup one of the cost: a margin of
/// a fifth and a markup of a quarter leave the same.
#[test]
fn a_margin_of_a_fifth_is_a_markup_of_a_quarter() {
    let total = |line: &str| {
        let analysis = priced(&format!("budget\n  {line}\n"));
        analysis.figures.money.as_ref().unwrap().total().unwrap()
    };
    assert_eq!(total("margin 20 %"), total("markup 25 %"));
}

#[test]
fn what_is_not_known_is_a_dash_with_its_reason() {
    for (more, name, reason) in [
        (
            "budget\n  labour $38/h\n",
            "labor",
            "how many hours are worked is not stated",
        ),
        (
            "material crushed-stone\n  sold by ton\n\nbudget\n  disposal $30 per load of 2 kg\n",
            "total",
            "a line of the budget cannot be read",
        ),
        (
            "hire saw\n  price $40/day\n\nbudget\n  contingency 10 %\n",
            "hire",
            "what saw costs is not known",
        ),
    ] {
        let analysis = priced(more);
        assert_eq!(amounts(&analysis, &[name, "total"]), [None, None], "{more}");
        let reasons = unknown(&analysis).join("\n");
        assert!(reasons.contains(reason), "{reasons}");
    }
}

#[test]
fn a_quote_stands_beside_the_cost() {
    let analysis = priced("budget\n  quote $9,800, by \"the contractor\"\n");
    let money = analysis.figures.money.as_ref().unwrap();
    let quote = &money.quotes[0];
    let saved = quote.asked.unwrap().cents - money.total().unwrap().cents;
    assert_eq!(quote.saved.unwrap().cents, saved);
    assert_eq!(quote.by.as_deref(), Some("the contractor"));
}

/// What is saved is so for each hour that nobody is paid for.
#[test]
fn own_work_earns_what_is_saved() {
    let quote = |budget: &str| {
        let analysis = priced(&format!("work\n  crew 2\n\nbudget\n{budget}"));
        let hours = analysis.figures.schedule.as_ref().unwrap().hours.unwrap();
        let quotes = &analysis.figures.money.as_ref().unwrap().quotes;
        (quotes[0].clone(), hours)
    };
    let (found, hours) = quote("  quote $9,800\n");
    let wanted = found.saved.unwrap().cents as f64 / hours;
    let hourly = found.saved_per_hour.unwrap().cents as f64;
    assert!((hourly - wanted).abs() <= 0.5, "{hourly}, wanted {wanted}");
    for budget in ["  quote $9,800\n  labour $38/h\n", "  quote $1\n"] {
        assert_eq!(quote(budget).0.saved_per_hour, None, "{budget}");
    }
}

#[test]
fn a_spec_without_money_has_none() {
    assert!(priced("").figures.money.is_none());
}
