//! Limits: their rows, what is in force for a job, and whose limit it is.

use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::sync::LazyLock;

use super::standard::is_bare;
use super::{Family, Rule, families};
use crate::findings::{Borrowed, Place, Severity};
use crate::model::{Region, SetLimit, Standard, literal};
use crate::sources::Source;
use crate::units::{Kind, Number, Quantity, System, show};

/// Whether a limit is a least or a most.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// A figure under it is found.
    Least,
    /// A figure over it is found.
    Most,
}

/// One limit of a rule: a named row with a value for each region.
#[derive(Debug, Clone, Copy)]
pub struct Limit {
    /// The row's name. `plain` is the one meant where none is named; a rule
    /// without a plain row means its first.
    pub row: &'static str,
    /// What the row is for, in words: `sand under pavers`.
    pub of: &'static str,
    /// Whether it is a least or a most.
    pub bound: Bound,
    /// The value where no region has its own.
    pub general: Value,
    /// The values of the regions that differ.
    pub regions: &'static [(Region, Value)],
}

/// A limit's value as bodies print it, with its source.
#[derive(Debug, Clone, Copy)]
pub struct Value {
    /// As a spec would write it; twins such as `150 mm` and `6 in` are both
    /// given, and the kinder one counts. Metric first.
    pub written: &'static [&'static str],
    /// Where it comes from.
    pub source: Source,
}

/// A limit as it is in force for a job.
#[derive(Debug, Clone)]
pub struct InForce {
    /// Its value; of twins the kinder one.
    pub value: Quantity,
    /// The twins as they are written, metric first.
    pub written: &'static [&'static str],
    /// Whether it is a least or a most.
    pub bound: Bound,
    /// Whether a proportion is a slope, `2 % (1:50)`, and not a share, `2 %`.
    pub is_slope: bool,
    /// What it is for and where, as people say it: `concrete pavers, in the
    /// UK`, or the title of the standard that sets it.
    pub whose: String,
    /// Where the built-in value comes from; common practice for a standard's.
    pub source: Source,
    /// Set where it stands in for want of a figure of the region's own.
    pub borrowed: Option<Borrowed>,
    /// The line of a standard that set it.
    pub line: Option<Place>,
}

impl Value {
    /// A value of common practice, which no document gives.
    pub const fn practice(written: &'static [&'static str]) -> Value {
        Value {
            written,
            source: Source::COMMON_PRACTICE,
        }
    }
}

impl Limit {
    /// A limit of common practice, the same in every region.
    pub const fn practice(
        row: &'static str,
        of: &'static str,
        bound: Bound,
        written: &'static [&'static str],
    ) -> Limit {
        Limit {
            row,
            of,
            bound,
            general: Value::practice(written),
            regions: &[],
        }
    }

    /// The built-in value in a region.
    pub fn value(&self, region: Region) -> Value {
        self.regions
            .iter()
            .find(|(own, _)| *own == region)
            .map_or(self.general, |(_, value)| *value)
    }

    /// Whether a region borrows the built-in value: whose document it is, and
    /// how much a finding may matter. Where the table names the region and has
    /// no document of its own to give, an advisory; else a warning.
    fn borrowed(&self, region: Region) -> Option<Borrowed> {
        let lender = self.value(region).source.region()?;
        if region == Region::General || region == lender {
            return None;
        }
        let is_named = self.regions.iter().any(|(own, _)| *own == region);
        Some(Borrowed {
            lender,
            borrower: region,
            at_most: match is_named {
                true => Severity::Advisory,
                false => Severity::Warning,
            },
        })
    }

    /// The built-in limit as it is in force in a region: of twins the kinder
    /// one.
    fn built_in(&self, region: Region) -> Option<InForce> {
        let value = self.value(region);
        let mut read = value.written.iter().filter_map(|text| twin(text));
        let first = read.next()?;
        let kindest = read.fold(first, |kindest, twin| match self.bound {
            Bound::Least => kindest.min(twin).unwrap_or(kindest),
            Bound::Most => kindest.max(twin).unwrap_or(kindest),
        });
        let is_own = self.regions.iter().any(|(own, _)| *own == region);
        let borrowed = self.borrowed(region);
        let whose = match is_own && borrowed.is_none() {
            true => format!("{}, {}", self.of, region.in_words()),
            false => self.of.to_owned(),
        };
        Some(InForce {
            value: kindest,
            written: value.written,
            bound: self.bound,
            is_slope: true,
            whose,
            source: value.source,
            borrowed,
            line: None,
        })
    }
}

impl InForce {
    /// The limit as the job shows it: of twins the one in the job's units.
    pub fn shown(&self, system: System) -> String {
        let written = match (self.written, system) {
            ([metric, _], System::Metric) => Some(*metric),
            ([_, imperial], System::Imperial) => Some(*imperial),
            ([only], _) => Some(*only),
            _ => None,
        };
        let value = written.and_then(twin).unwrap_or(self.value);
        let usual = self.usually(&value, system);
        match self.line {
            // A practice's own, to the last digit that it wrote.
            Some(_) => show::exactly(&value, usual, system),
            None => usual,
        }
    }

    /// A figure that misses the limit as the job shows it, so finely that it
    /// does not read as the limit does, nor as nothing.
    pub fn beside(&self, figure: &Quantity, system: System) -> String {
        let usual = show::something(figure, self.usually(figure, system), system);
        show::apart(figure, usual, &self.shown(system), system)
    }

    /// The same of a computed figure in SI.
    pub fn beside_si(&self, figure: f64, system: System) -> String {
        let Some(number) = Number::near(figure) else {
            return show::number(figure);
        };
        self.beside(
            &Quantity {
                number,
                ..self.value
            },
            system,
        )
    }

    /// The same of a ratio, to so many decimals where that is enough.
    pub fn beside_ratio(&self, ratio: f64, decimals: i32) -> String {
        let Some(number) = Number::near(ratio) else {
            return show::number(ratio);
        };
        let (shift, system) = (10_f64.powi(decimals), System::Metric);
        let usual = show::number((ratio * shift).round() / shift);
        show::apart(&Quantity::plain(number), usual, &self.shown(system), system)
    }

    /// A figure of the limit's kind as it is shown where no other is beside
    /// it.
    fn usually(&self, figure: &Quantity, system: System) -> String {
        match figure.kind {
            Kind::Proportion if figure.dimension.is_none() => match self.is_slope {
                true if self.value.si() <= STEEPEST => show::slope(figure.si()),
                _ => show::share(figure.si()),
            },
            _ => show::quantity(figure, system),
        }
    }

    /// Whether a figure keeps the limit; at the limit passes.
    pub fn allows(&self, figure: &Quantity) -> bool {
        use std::cmp::Ordering::{Greater, Less};
        !matches!(
            (self.bound, figure.compare(self.value)),
            (Bound::Least, Ok(Less)) | (Bound::Most, Ok(Greater))
        )
    }

    /// Whether a computed figure in SI keeps the limit, with room for the
    /// last digits of double precision.
    pub fn allows_si(&self, figure: f64) -> bool {
        let limit = self.value.si();
        let slack = 1e-9 * limit.abs().max(1e-6);
        match self.bound {
            Bound::Least => figure >= limit - slack,
            Bound::Most => figure <= limit + slack,
        }
    }
}

/// What is steeper is no slope that is built, but a share.
const STEEPEST: f64 = 0.25;

/// The limits in force: the built-in ones and a practice's own.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Limits {
    /// The standards that apply, the nearest first.
    pub standards: Vec<std::sync::Arc<Standard>>,
}

impl Limits {
    /// The limit of a rule's row in a region.
    ///
    /// The nearest standard that sets it decides; where one further out holds
    /// the rule firm, a nearer one may set it no kinder.
    pub fn in_force(&self, rule: &'static Rule, row: &str, region: Region) -> Option<InForce> {
        let limit = rule.limit(row)?;
        // Only falls are slopes, of drains and treads too; elsewhere, and in a
        // row that says so, a proportion is a share.
        let may_be_slope = matches!(rule.family, Family::Falls | Family::Drains | Family::Steps);
        let is_slope = may_be_slope && row != "share";
        let built_in = InForce {
            is_slope,
            ..limit.built_in(region)?
        };
        let mut strictest: Option<InForce> = None;
        // Whether a nearer standard says what holds for every row: it takes
        // the place of what one further out says so.
        let mut is_general = false;
        for (index, standard) in self.standards.iter().enumerate() {
            let is_held = || self.firm_beyond(index, rule.name).is_some();
            let set = set_in(standard, rule, &built_in, row, region)
                .filter(|set| set.row.is_some() || !is_general || is_held());
            is_general |= says_for_all(standard, rule, &built_in, region);
            let Some(set) = set else {
                continue;
            };
            // A value of another kind sets nothing; a finding says so.
            let value = &set.value.value;
            if value.compare(built_in.value).is_err() || is_bare(value, &built_in.value) {
                continue;
            }
            let own = InForce {
                value: set.value.value,
                written: &[],
                bound: limit.bound,
                is_slope,
                whose: standard.title_in_words(),
                source: Source::COMMON_PRACTICE,
                borrowed: None,
                line: Some(set.place),
            };
            let so_far = stricter(strictest, own);
            if self.firm_beyond(index + 1, rule.name).is_none() {
                return Some(so_far);
            }
            strictest = Some(so_far);
        }
        Some(stricter(strictest, built_in))
    }
}

/// The values that the rules' limits are written as. They are asked for at
/// every check, and read once.
static TWINS: LazyLock<BTreeMap<&'static str, Quantity>> = LazyLock::new(|| {
    let limits = families::all().flat_map(|rule| rule.limits);
    let values = limits.flat_map(|limit| {
        let regions = limit.regions.iter().map(|(_, value)| *value);
        std::iter::once(limit.general).chain(regions)
    });
    values
        .flat_map(|value| value.written)
        .filter_map(|text| Some((*text, literal(text)?)))
        .collect()
});

/// The value of a limit as it is written.
fn twin(text: &str) -> Option<Quantity> {
    TWINS.get(text).copied().or_else(|| literal(text))
}

/// What a standard sets for a rule's row: in this region, else in every one;
/// the last line that says so. A least that is set without a row holds for
/// every row that would allow less, unless a line names that row.
fn set_in<'a>(
    standard: &'a Standard,
    rule: &Rule,
    built_in: &InForce,
    row: &str,
    region: Region,
) -> Option<&'a SetLimit> {
    let own = |set: &&SetLimit| rule.row_meant(set.row.as_ref()) == row;
    let raises = |set: &&SetLimit| {
        let meant = rule.limit(rule.row_meant(None)).map(|limit| limit.bound);
        let is_least = [Some(built_in.bound), meant] == [Some(Bound::Least); 2];
        let compared = built_in.value.compare(set.value.value);
        set.row.is_none() && is_least && compared.is_ok_and(Ordering::is_lt)
    };
    let lines = |which: &dyn Fn(&&SetLimit) -> bool| {
        let limits = standard.limits.iter().rev();
        let of_rule = || limits.clone().filter(|set| set.rule.value == rule.name);
        of_rule()
            .filter(|set| set.region == Some(region))
            .find(which)
            .or_else(|| of_rule().filter(|set| set.region.is_none()).find(which))
    };
    lines(&own).or_else(|| lines(&raises))
}

/// Whether a standard sets a limit of this kind for all rows of a rule.
fn says_for_all(standard: &Standard, rule: &Rule, built_in: &InForce, region: Region) -> bool {
    let mut limits = standard.limits.iter();
    limits.any(|set| {
        set.rule.value == rule.name
            && set.row.is_none()
            && set.region.is_none_or(|of| of == region)
            && set.value.value.compare(built_in.value).is_ok()
    })
}

/// Of two limits for the same thing the one that allows less; the first if
/// they are alike.
fn stricter(one: Option<InForce>, other: InForce) -> InForce {
    match one {
        Some(one) if other.allows(&one.value) => one,
        _ => other,
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::findings::{FileId, SectionRef};
    use crate::model::Stated;
    use crate::rules::find;
    use crate::syntax::SectionId;
    use crate::text::Span;

    const PLACE: Place = Place {
        section: SectionRef {
            file: FileId(1),
            section: SectionId(0),
        },
        span: Span::new(0, 4),
    };

    fn named(name: &str) -> Stated<String> {
        Stated::new(name.to_owned(), PLACE)
    }

    fn set(row: Option<&str>, value: &str, region: Option<Region>) -> SetLimit {
        SetLimit {
            rule: named("fall-flat"),
            row: row.map(named),
            value: Stated::new(literal(value).unwrap(), PLACE),
            region,
            place: PLACE,
        }
    }

    fn standard(limits: Vec<SetLimit>, firm: bool) -> Standard {
        Standard {
            limits,
            firm: firm.then(|| named("fall-flat")).into_iter().collect(),
            ..Standard::default()
        }
    }

    fn in_force(standards: Vec<Standard>, row: &str, region: Region) -> f64 {
        let limits = Limits {
            standards: standards.into_iter().map(Arc::new).collect(),
        };
        let rule = find("fall-flat").unwrap();
        limits.in_force(rule, row, region).unwrap().value.si()
    }

    #[test]
    fn a_least_without_a_row_holds_for_every_row_that_allows_less() {
        let rule = find("fall-flat").unwrap();
        for region in Region::ALL {
            for limit in rule
                .limits
                .iter()
                .filter(|limit| limit.bound == Bound::Least)
            {
                let usual = limit.built_in(*region).unwrap().value.si();
                let bare = standard(vec![set(None, "1:60", None)], false);
                let now = in_force(vec![bare], limit.row, *region);
                let wanted = match limit.row {
                    "plain" => 1.0 / 60.0,
                    _ => usual.max(1.0 / 60.0),
                };
                assert!((now - wanted).abs() < 1e-9, "{} {now}", limit.row);
                // A line that names the row counts before it.
                let named = vec![set(Some(limit.row), "1:200", None), set(None, "1:60", None)];
                let now = in_force(vec![standard(named, false)], limit.row, *region);
                let wanted = match limit.row {
                    "plain" => 1.0 / 60.0,
                    _ => 1.0 / 200.0,
                };
                assert!((now - wanted).abs() < 1e-9, "{} {now}", limit.row);
            }
        }
    }

    #[test]
    fn the_nearest_standard_decides_unless_the_rule_is_held_firm() {
        let plain = |value: &str| vec![set(None, value, None)];
        for (standards, wanted) in [
            (vec![], 1.0 / 80.0),
            (vec![standard(plain("1:60"), false)], 1.0 / 60.0),
            (vec![standard(plain("1:100"), false)], 1.0 / 100.0),
            (vec![standard(plain("60 mm"), false)], 1.0 / 80.0),
            (
                vec![
                    standard(plain("1:100"), false),
                    standard(plain("1:60"), false),
                ],
                1.0 / 100.0,
            ),
            (
                vec![
                    standard(plain("1:100"), false),
                    standard(plain("1:60"), true),
                ],
                1.0 / 60.0,
            ),
            (
                vec![
                    standard(plain("1:50"), false),
                    standard(plain("1:60"), true),
                ],
                1.0 / 50.0,
            ),
            (
                vec![standard(plain("1:100"), false), standard(vec![], true)],
                1.0 / 80.0,
            ),
            (vec![standard(plain("1:100"), true)], 1.0 / 100.0),
        ] {
            assert_eq!(in_force(standards, "plain", Region::General), wanted);
        }
    }

    #[test]
    fn a_nearer_limit_for_all_rows_takes_the_place_of_one_further_out() {
        // One in so many, set nearer; what then holds for brick, 1:50 built in,
        // and beside a building, 1:80 in Britain.
        for (nearer, brick, building) in [
            (Some("1:75"), 50.0, 75.0),
            (Some("1:79"), 50.0, 79.0),
            (Some("1:80"), 50.0, 80.0),
            (Some("1:85"), 50.0, 80.0),
            (Some("60 mm"), 40.0, 40.0),
            (None, 40.0, 40.0),
        ] {
            let further = |firm| standard(vec![set(None, "1:40", None)], firm);
            let nearer = nearer.map(|value| standard(vec![set(None, value, None)], false));
            for (row, region, wanted) in [
                ("brick", Region::General, brick),
                ("building", Region::Uk, building),
            ] {
                for (firm, wanted) in [(false, wanted), (true, 40.0)] {
                    let standards = nearer.iter().cloned().chain([further(firm)]);
                    let now = in_force(standards.collect(), row, region);
                    assert!(
                        (1.0 / now - wanted).abs() < 1e-6,
                        "{row} {firm}: 1:{}",
                        1.0 / now
                    );
                }
            }
        }
    }

    #[test]
    fn a_limit_is_set_for_its_row_and_region_only() {
        let of_uk = || {
            let limits = vec![
                set(None, "1:60", None),
                set(None, "1:70", Some(Region::Uk)),
                set(Some("pavers"), "1:40", None),
                set(None, "1:65", None),
            ];
            vec![standard(limits, false)]
        };
        for (row, region, wanted) in [
            ("plain", Region::General, 1.0 / 65.0),
            ("plain", Region::Uk, 1.0 / 70.0),
            ("pavers", Region::Uk, 1.0 / 40.0),
            ("brick", Region::General, 0.02),
        ] {
            assert_eq!(in_force(of_uk(), row, region), wanted, "{row}");
        }
    }

    #[test]
    fn of_twins_the_kinder_one_counts() {
        let of = |name: &str, row: &str| {
            let limits = Limits::default();
            let rule = find(name).unwrap();
            limits.in_force(rule, row, Region::General).unwrap()
        };
        assert_eq!(of("level-high", "plain").value.si(), 0.15);
        assert_eq!(of("door-step", "plain").value.si(), 7.75 * 0.0254);
        let shown = |system| of("level-high", "plain").shown(system);
        assert_eq!(shown(System::Metric), "150 mm");
        assert_eq!(shown(System::Imperial), "6\"");
    }
}
