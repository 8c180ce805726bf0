//! Values of the wrong kind or out of range, and what depends on itself.

use crate::findings::Severity;
use crate::rules::{Check, Family, Rule};

/// A value of the wrong kind, such as a length where a mass belongs.
pub(crate) static DIMENSION_WRONG: Rule = Rule {
    name: "dimension-wrong",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "A value of the wrong kind, such as a length where a mass belongs.",
    reason: "The wrong kind gives a wrong figure, or none.",
    remedy: "Write a value of the kind that is named.",
    limits: &[],
    sources: &[],
    breaks: "\
build sand-set
  paving       concrete-paver, «60 kg», waste 5 %
",
    keeps: "\
build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
",
    mended: None,
    check: Check::Reading,
};

/// Prices in several currencies.
pub(crate) static CURRENCY_MIXED: Rule = Rule {
    name: "currency-mixed",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "Prices in another currency than the job's: each, or the job's own where all of them are in the same other one.",
    reason: "Amounts in two currencies have no sum.",
    remedy: "Write all prices in one currency, and state it in the job.",
    limits: &[],
    sources: &[],
    breaks: "\
material concrete-paver
  like         concrete-paver
  price        «€24»/m2
",
    keeps: "\
material concrete-paver
  like         concrete-paver
  price        £24/m2
",
    mended: None,
    check: Check::Reading,
};

/// A bare number where a unit belongs.
pub(crate) static UNIT_MISSING: Rule = Rule {
    name: "unit-missing",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "A bare number where a unit belongs.",
    reason: "60 may be millimetres or inches.",
    remedy: "Write the unit.",
    limits: &[],
    sources: &[],
    breaks: "\
build sand-set
  paving       concrete-paver, 60 mm, waste «5»
",
    keeps: "\
build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
",
    mended: Some(
        "\
build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
",
    ),
    check: Check::Reading,
};

/// An impossible value: a negative thickness, a day that does not exist, a division by zero.
pub(crate) static VALUE_RANGE: Rule = Rule {
    name: "value-range",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "An impossible value: a negative thickness, a day that does not exist, a division by zero.",
    reason: "Nothing can be worked out from it.",
    remedy: "Write a value that makes sense.",
    limits: &[],
    sources: &[],
    breaks: "\
build sand-set
  paving       concrete-paver, «-60 mm», waste 5 %
",
    keeps: "\
build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
",
    mended: Some(
        "\
build sand-set
  paving       concrete-paver, 60 mm, waste 5 %
",
    ),
    check: Check::Reading,
};

/// Lets, shapes, materials, mixes or files that depend on themselves.
pub(crate) static CIRCULAR: Rule = Rule {
    name: "circular",
    family: Family::Text,
    severity: Severity::Error,
    looks_at: "Lets, shapes, materials, mixes or files that depend on themselves.",
    reason: "There is nowhere to start, so there is no value.",
    remedy: "Give one of them a value of its own.",
    limits: &[],
    sources: &[],
    breaks: "\
let near = far + 1 m

let far = «near» + 1 m

shape court
  rectangle    6 m by 4 m, at (near, far)
",
    keeps: "\
let near = 1 m

let far = near + 1 m

shape court
  rectangle    6 m by 4 m, at (near, far)
",
    mended: None,
    check: Check::Reading,
};
