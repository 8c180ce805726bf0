//! How far off its design level each point was built.

use super::HintKind;
use super::collecting::{Collecting, HintOf};
use crate::quantities::FigureRef;
use crate::units::{System, show};
use crate::vocabulary::compass_word;

/// At each reading how far it is off; at the heading the mean, and how the
/// plane through the readings falls.
pub(crate) fn add(hints: &mut Collecting<'_>) {
    let (analysis, system) = (hints.analysis, hints.system);
    for (index, own) in analysis.figures.measured.iter().enumerate() {
        let of = HintOf::Figure(FigureRef::Measured(index));
        hints.add(HintKind::Falls, of, own.place, || {
            let mean = own.mean_m.map(|mean| format!("mean {}", off(mean, system)));
            let fall = own.plane.as_ref().map(|plane| {
                let way = plane.fall_direction();
                let way = way.map_or("", |way| compass_word(way.bearing()));
                format!("falls {} {way}", show::share(plane.slope()))
            });
            let parts: Vec<String> = mean.into_iter().chain(fall).collect();
            (!parts.is_empty()).then(|| parts.join(" · "))
        });
        for point in &own.points {
            hints.add(HintKind::Falls, of, point.place, || {
                Some(off(point.off_m?, system))
            });
        }
    }
}

/// `8 mm high`, `1/4" low`, `as designed`.
fn off(metres: f64, system: System) -> String {
    let zero = show::read_off(0.0, system);
    match (show::read_off(metres.abs(), system), metres > 0.0) {
        (size, _) if size == zero => "as designed".to_owned(),
        (size, true) => format!("{size} high"),
        (size, false) => format!("{size} low"),
    }
}
