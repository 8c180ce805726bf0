//! Figures at the ends of lines.

mod areas;
mod as_built;
mod borders;
mod collecting;
mod detail;
mod drains;
mod edgings;
mod falls;
mod layers;
mod layouts;
mod lets;
mod mixes;
mod orders;
mod setting_out;
mod steps;
mod work;

pub use collecting::{Hint, HintKind, HintOf};
pub use detail::{HintDetail, hint_detail};

use crate::analysis::Analysis;
use crate::text::Span;
use collecting::Collecting;

/// The hints of the kinds that are shown, on the lines of the checked file
/// that a stretch of it touches, from the top down.
pub fn hints(analysis: &Analysis, wanted: Span, shows: impl Fn(HintKind) -> bool) -> Vec<Hint> {
    let mut collecting = Collecting::new(analysis, wanted);
    for kind in HintKind::ALL.iter().copied().filter(|kind| shows(*kind)) {
        match kind {
            HintKind::Areas => {
                areas::add(&mut collecting);
                areas::add_repeats(&mut collecting);
                steps::add_flights(&mut collecting);
                setting_out::add_lengths(&mut collecting);
            }
            HintKind::Layers => {
                layers::add(&mut collecting);
                drains::add_stuff(&mut collecting);
                steps::add_parts(&mut collecting);
                edgings::add(&mut collecting);
                layouts::add(&mut collecting);
                borders::add(&mut collecting);
            }
            HintKind::Mixes => mixes::add(&mut collecting),
            HintKind::Falls => {
                falls::add(&mut collecting);
                drains::add_levels(&mut collecting);
                drains::add_water(&mut collecting);
                as_built::add(&mut collecting);
                setting_out::add_board(&mut collecting);
            }
            HintKind::Lets => lets::add(&mut collecting),
            HintKind::Orders => {
                orders::add(&mut collecting);
                orders::add_money(&mut collecting);
            }
            HintKind::Days => work::add(&mut collecting),
        }
    }
    collecting.finish()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{COURT, analysed};

    /// The text with every hint written at the end of its line.
    fn drawn(text: &str, wanted: Span, shows: impl Fn(HintKind) -> bool) -> Vec<String> {
        let analysis = analysed(text);
        let hints = hints(&analysis, wanted, shows);
        let hinted = hints.iter().map(|hint| {
            let line = text[..hint.offset as usize]
                .rsplit('\n')
                .next()
                .unwrap_or_default();
            assert!(text[hint.offset as usize..].starts_with(['\n', '\r']));
            format!("{} » {}", line.trim(), hint.label)
        });
        hinted.collect()
    }

    /// The court on ground that is known, with its work.
    fn with_work() -> String {
        format!(
            "{COURT}\nsite\n  soil gravel\n  ground -200 mm\n\nwork\n  start 2027-04-12\n  crew 2\n"
        )
    }

    fn all(text: &str) -> Span {
        Span::from(0..text.len())
    }

    #[test]
    fn every_kind_is_drawn_at_the_end_of_its_line() {
        assert_eq!(
            drawn(COURT, all(COURT), |_| true),
            [
                r#"job "Boat house court" » €231.00 in all, 5 orders without a price"#,
                "let gap = 2 * 5 mm » = 10 mm",
                "shape court » 24 m² · 20 m round",
                "close » 4 m north",
                "fall         1:50 away from quay » 2 % · drops 80 mm",
                "paving       concrete-paver, 60 mm » 1,148 units · 3.23 t · 1.44 m³",
                "bed          bed-mix, 40 mm » 1.92 t · 0.96 m³",
                "base         hard-stone, 150 mm compacted, lifts 2, beyond 100 mm » 7.63 t · 5.08 m³ loose",
                "fabric       geotextile, beyond 100 mm » 25.4 m²",
                "mix bed-mix » 17 bags portland-cement · 1.37 t sharp-sand",
                "material hard-stone » order 7.7 t · €231.00",
            ]
        );
    }

    #[test]
    fn a_long_hint_has_a_short_form() {
        let hint = |label: &str| Hint {
            offset: 0,
            kind: HintKind::Mixes,
            label: label.to_owned(),
            of: HintOf::Itself,
        };
        for (label, short) in [
            ("24 m² · 20 m round", "24 m² · 20 m round"),
            (
                "17 bags portland-cement · 1.37 t sharp-sand",
                "17 bags portland-cement · …",
            ),
            (
                "order 7.7 t · €231.00 · 12 bags lime · 2 t of sand",
                "order 7.7 t · €231.00 · 12 bags lime · …",
            ),
            (
                "€231.00 in all, 5 orders without a price at all",
                "€231.00 in all, 5 orders without a price at all",
            ),
        ] {
            assert_eq!(hint(label).short(), short);
        }
    }

    #[test]
    fn a_kind_that_is_off_is_not_drawn() {
        let text = with_work();
        let text = text.as_str();
        let every = drawn(text, all(text), |_| true).len();
        let mut counted = 0;
        for kind in HintKind::ALL {
            let only = drawn(text, all(text), |shown| shown == *kind);
            assert!(!only.is_empty(), "{kind:?}");
            counted += only.len();
        }
        assert_eq!(counted, every);
        assert_eq!(drawn(COURT, all(COURT), |_| false), [] as [&str; 0]);
    }

    #[test]
    fn only_the_lines_that_are_asked_for_are_drawn() {
        let from = COURT.find("shape court").unwrap();
        let to = COURT.find("  start").unwrap();
        assert_eq!(drawn(COURT, Span::from(from..to), |_| true).len(), 1);
    }

    #[test]
    fn a_layer_is_summed_over_the_surfaces_that_have_it() {
        let two = COURT.replace(
            "surface court",
            "shape lane\n  rectangle    1 m by 24 m, at (50 m, 0 m)\n\nsurface lane\n  shape lane\n  build sand-set\n\nsurface court",
        );
        let bed = |text: &str| {
            let hints = drawn(text, all(text), |kind| kind == HintKind::Layers);
            hints
                .into_iter()
                .find(|hint| hint.starts_with("bed"))
                .unwrap()
        };
        assert_eq!(bed(COURT), "bed          bed-mix, 40 mm » 1.92 t · 0.96 m³");
        assert_eq!(
            bed(&two),
            "bed          bed-mix, 40 mm » 3.83 t · 1.92 m³ · 2 surfaces"
        );
    }

    #[test]
    fn each_line_that_causes_work_has_its_days() {
        let text = with_work();
        let days = drawn(&text, all(&text), |kind| kind == HintKind::Days);
        let of = |line: &str| days.iter().find(|hint| hint.starts_with(line)).cloned();
        let paving = of("paving").expect("it is laid on some day");
        assert!(paving.contains(" Apr"), "{paving}");
        assert!(of("work").is_some_and(|hint| hint.contains(" · done ")));
        assert_eq!(of("bed"), None);
    }

    #[test]
    fn what_cannot_be_known_is_not_drawn() {
        let unknown = COURT.replace("6 m, named quay", "6 kg");
        let hints = drawn(&unknown, all(&unknown), |kind| kind == HintKind::Areas);
        assert_eq!(hints, [] as [&str; 0]);
    }

    #[test]
    fn line_ends_of_every_kind_and_comments_stay_behind_the_hint() {
        for text in [
            COURT.replace('\n', "\r\n"),
            COURT.replace("  close", "  close # back to the quay"),
        ] {
            let hints = drawn(&text, all(&text), |kind| kind == HintKind::Areas);
            assert_eq!(hints.len(), 2, "{hints:?}");
        }
    }
}
