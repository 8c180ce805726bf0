//! Mistakes in the work of a sound job, and what is found for each.

use super::{Mistaken, check_mistakes};

const MISTAKES: &[Mistaken] = &[
    // The plate is booked for the week before.
    (
        "planned-terrace",
        "  rain-days     2\n",
        "  rain-days     2\n\nhire plate\n  for compacting\n  kept 2 days, from 2027-04-05\n  price £40/day\n",
        &["warning hire-away"],
    ),
    (
        "planned-terrace",
        "  rain-days     2\n",
        "  rain-days     2\n\nhire plate\n  for compacting\n  kept 1 day, from 2027-04-12\n  price £40/day\n",
        &[],
    ),
    // It is given back before all is compacted.
    (
        "planned-terrace",
        "  rain-days     2\n",
        "  rain-days     2\n\nhire plate\n  for compacting and laying\n  kept 1 day\n  price £40/day\n",
        &["warning hire-away"],
    ),
    // It is paid for a month and works for two days; for nothing at all.
    (
        "planned-terrace",
        "  rain-days     2\n",
        "  rain-days     2\n\nhire plate\n  for compacting\n  kept 30 days\n  price £40/day, £120/week\n",
        &["advisory hire-idle"],
    ),
    (
        "planned-terrace",
        "  rain-days     2\n",
        "  rain-days     2\n\nhire breaker\n  for stripping\n  kept 1 day\n  price £40/day\n",
        &["advisory hire-idle"],
    ),
    // Lime wants it warmer than cement.
    (
        "lime-flags",
        "to \"flower bed\"\n",
        "to \"flower bed\"\n\nwork\n  crew 2\n  temperature 4 °C\n",
        &["warning cold-mortar"],
    ),
    (
        "lime-flags",
        "to \"flower bed\"\n",
        "to \"flower bed\"\n\nwork\n  crew 2\n  temperature 5 °C\n",
        &[],
    ),
    (
        "planned-terrace",
        "  services      located 2027-04-01\n",
        "",
        &["warning services-unlocated"],
    ),
    (
        "planned-terrace",
        "located 2027-04-01",
        "located 2027-03-01",
        &["warning locate-stale"],
    ),
    (
        "planned-terrace",
        "temperature   12 °C",
        "temperature   2 °C",
        &["warning cold-mortar", "warning wait-short"],
    ),
    (
        "planned-terrace",
        "temperature   12 °C",
        "temperature   40 °C",
        &["warning hot-mortar"],
    ),
    (
        "planned-terrace",
        "temperature   12 °C",
        "temperature   -5 °C",
        &["warning cold-mortar", "warning frozen-ground"],
    ),
    (
        "planned-terrace",
        "wait          48 h from laying to jointing",
        "wait          overnight from laying to jointing",
        &["warning wait-short"],
    ),
    (
        "planned-terrace",
        "wait          28 days from pouring to laying",
        "wait          3 days from pouring to laying",
        &["warning slab-young"],
    ),
    (
        "planned-terrace",
        "wait          48 h from laying to jointing",
        "wait          48 h from jointing to laying",
        &["error order-wrong"],
    ),
    (
        "planned-terrace",
        "after cleaning of terrace",
        "after sealing of terrace",
        &["error order-wrong"],
    ),
    (
        "planned-terrace",
        "crew          3",
        "crew          1",
        &[
            "error crew-short",
            "error crew-short",
            "error crew-short",
            "warning crew-short",
        ],
    ),
    (
        "planned-terrace",
        "laying 1 m2 per h each",
        "laying 10 m2 per h each",
        &["advisory output-odd"],
    ),
    (
        "planned-terrace",
        "laying 1 m2 per h each",
        "laying 1 m per h each",
        &["error dimension-wrong"],
    ),
    (
        "planned-terrace",
        "8:00 to 16:30",
        "8 to 16:30",
        &["error number-unclear"],
    ),
    // The concrete of a kerb is laid in the same air.
    (
        "kerbed-blocks",
        "temperature  8 °C",
        "temperature  1 °C",
        &["warning cold-mortar"],
    ),
    (
        "kerbed-blocks",
        "temperature  8 °C",
        "temperature  41 °C",
        &["warning hot-mortar"],
    ),
];

#[test]
fn mistakes_of_the_work_draw_what_they_declare() {
    check_mistakes(MISTAKES);
}
