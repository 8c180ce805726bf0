//! A text changed by one typing error. What is ordered is then either what it
//! was, or told of, or not known: every format counts the errors.

use drylay::findings::Severity;

use crate::checked::checked;

/// A job in which everything that an order hangs on is stated.
const JOB: &str = "\
job \"Trial\"
  units metric
  region uk
  currency GBP

site
  soil loam

shape court
  rectangle 6 m by 4 m

surface court
  shape court
  fall 1:60 toward south
  build layers

build layers
  paving block-paver, 60 mm
  bed sharp-sand, 40 mm
  base stone, 150 mm compacted

material stone
  kind dense-aggregate
  density 1.7 t/m3 loose, 2.1 t/m3 compacted
  sold by t, in steps of 0.5
  price £24.50/t
  minimum 3 t
  waste 8 %
";

/// What a line is changed to: no figure of the stone's order may then be
/// shown as if nothing were wrong.
const ERRORS: &[(&str, &str)] = &[
    ("price £24.50/t", "price £24,50/t"),
    ("price £24.50/t", "price £24.5o/t"),
    ("price £24.50/t", "price 24.50/t"),
    ("sold by t, in", "sold by r, in"),
    ("steps of 0.5", "steps of 0,5"),
    ("steps of 0.5", "steps of O.5"),
    ("minimum 3 t", "minimum 3,2 t"),
    ("minimum 3 t", "minimum 3 r"),
    ("waste 8 %", "waste 8"),
    ("waste 8 %", "waste 8,5 %"),
    ("density 1.7 t/m3", "density 1,7 t/m3"),
    ("density 1.7 t/m3", "density 1.7 t/m"),
    ("150 mm compacted", "150 mn compacted"),
    ("150 mm compacted", "15o mm compacted"),
];

/// The same where the waste is said of the layer, so that of the material only
/// how it is sold counts.
const ERRORS_OF_A_SALE: &[(&str, &str)] = &[
    ("sold by t, in", "sold by pallet, in"),
    ("sold by t, in", "sold by yard, in"),
    ("minimum 3 t", "minimum 3 r"),
    ("minimum 3 t", "covers 12"),
];

#[test]
fn an_error_in_an_order_leaves_a_dash() {
    leave_a_dash(JOB, ERRORS);
    let wasted = JOB.replace("  waste 8 %\n", "");
    let wasted = wasted.replace("mm compacted", "mm compacted, waste 8 %");
    leave_a_dash(&wasted, ERRORS_OF_A_SALE);
}

fn leave_a_dash(job: &str, errors_made: &[(&str, &str)]) {
    let sound = checked(job);
    let errors = |found: &crate::checked::Checked| {
        let all = found.findings().iter();
        all.filter(|one| one.severity == Some(Severity::Error))
            .count()
    };
    let cost = |found: &crate::checked::Checked| {
        let orders = found.figures().orders.iter();
        orders
            .filter(|order| order.material == "stone")
            .any(|order| order.cost.is_some())
    };
    assert!(cost(&sound));
    for (right, wrong) in errors_made {
        assert!(job.contains(right), "{right}");
        let found = checked(&job.replacen(right, wrong, 1));
        assert!(errors(&found) > errors(&sound), "{wrong} is no error");
        assert!(!cost(&found), "{wrong} is costed all the same");
    }
}

#[test]
fn a_total_without_a_delivery_that_cannot_be_read_is_none() {
    let priced = JOB.replace("block-paver, 60 mm", "stone, 60 mm");
    let priced = priced.replace("bed sharp-sand", "bed stone");
    for (delivery, unpriced) in [("£75 per load of 10 t", 0), ("£75 per load of 1O t", 1)] {
        let found = checked(&format!("{priced}  delivery {delivery}\n"));
        assert_eq!(found.figures().unpriced(), unpriced, "{delivery}");
    }
}

/// A bare figure belongs to the `sold` that it was said with.
#[test]
fn a_bare_price_does_not_outlive_what_it_was_said_with() {
    let price = |material: &str| {
        let text = JOB.replace("base stone,", "base own,") + material;
        let found = checked(&text);
        let orders = found.figures().orders.iter();
        let own: Vec<_> = orders.filter(|order| order.material == "own").collect();
        let asks = found.findings().iter();
        let asks = asks
            .filter(|finding| finding.rule == "sold-unclear")
            .count();
        (own.iter().any(|order| order.price.is_some()), asks)
    };
    let of_ton = "\nmaterial of-ton\n  like stone\n  sold by t\n  price £24\n";
    for (own, priced, asked) in [
        ("\nmaterial own\n  like of-ton\n", true, 0),
        (
            "\nmaterial own\n  like of-ton\n  sold by bag of 25 kg\n",
            false,
            1,
        ),
        (
            "\nmaterial own\n  like of-ton\n  sold by bag of 25 kg\n  price £5\n",
            true,
            0,
        ),
        ("\nmaterial own\n  like of-ton\n  sold by t\n", true, 0),
        ("\nmaterial own\n  like sharp-sand\n  price £5\n", false, 1),
        ("\nmaterial own\n  like sharp-sand\n  price £5/t\n", true, 0),
    ] {
        assert_eq!(price(&format!("{of_ton}{own}")), (priced, asked), "{own}");
    }
}
