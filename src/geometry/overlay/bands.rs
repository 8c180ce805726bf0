//! Which seams pass over a place, without asking each of them.

/// Spans along one axis, sorted into bands of equal width across it.
pub(super) struct Bands {
    low: f64,
    width: f64,
    members: Vec<Vec<usize>>,
}

impl Bands {
    /// Bands over spans from a least to a greatest value; each span is known
    /// by its place in the list.
    pub fn new(spans: &[(f64, f64)]) -> Bands {
        let low = spans
            .iter()
            .map(|span| span.0)
            .fold(f64::INFINITY, f64::min);
        let high = spans
            .iter()
            .map(|span| span.1)
            .fold(f64::NEG_INFINITY, f64::max);
        let count = (spans.len() / 4).clamp(1, 512);
        let width = (high - low) / count as f64;
        let mut bands = Bands {
            low,
            width,
            members: vec![Vec::new(); count],
        };
        for (number, &(from, to)) in spans.iter().enumerate() {
            for band in bands.place(from)..=bands.place(to) {
                if let Some(members) = bands.members.get_mut(band) {
                    members.push(number);
                }
            }
        }
        bands
    }

    /// The spans that may hold `value`, in order.
    pub fn at(&self, value: f64) -> &[usize] {
        self.members
            .get(self.place(value))
            .map_or(&[], Vec::as_slice)
    }

    fn place(&self, value: f64) -> usize {
        // A width of zero gives no number, which counts as the first band.
        let place = ((value - self.low) / self.width) as usize;
        place.min(self.members.len().saturating_sub(1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_span_that_holds_a_value_is_found() {
        let spans: Vec<(f64, f64)> = (0..200)
            .map(|place| f64::from(place % 17))
            .map(|low| (low, low + low / 3.0))
            .collect();
        let bands = Bands::new(&spans);
        for tenth in -10..250 {
            let value = f64::from(tenth) / 10.0;
            for (number, &(from, to)) in spans.iter().enumerate() {
                let holds = from <= value && value <= to;
                assert!(!holds || bands.at(value).contains(&number), "{value}");
            }
        }
        assert!(bands.at(1.05).len() < spans.len() / 2);
    }

    #[test]
    fn no_span_and_spans_of_no_width_are_no_trouble() {
        assert!(Bands::new(&[]).at(1.0).is_empty());
        assert_eq!(Bands::new(&[(2.0, 2.0); 9]).at(2.0).len(), 9);
    }
}
