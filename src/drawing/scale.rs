//! Scales, as drawings of metric and of imperial jobs name them.

use super::lettering::FRACTION;
use crate::units::System;

/// How much smaller the drawing is than the ground.
#[derive(Debug, Clone, PartialEq)]
pub struct Scale {
    /// So many millimetres of ground to one of paper.
    pub ratio: f64,
    /// How it is written: `1:50`, `1/4 in = 1 ft`.
    pub words: String,
}

/// The scales of metric drawings, the largest picture first.
const METRIC: [u32; 11] = [5, 10, 20, 25, 50, 100, 200, 250, 500, 1000, 2000];

/// Those of imperial ones: inches of paper to so many feet, and the ratio.
const IMPERIAL: [(&str, u32, u32); 15] = [
    ("3", 1, 4),
    ("1 1/2", 1, 8),
    ("1", 1, 12),
    ("3/4", 1, 16),
    ("1/2", 1, 24),
    ("3/8", 1, 32),
    ("1/4", 1, 48),
    ("3/16", 1, 64),
    ("1/8", 1, 96),
    ("3/32", 1, 128),
    ("1/16", 1, 192),
    ("1", 20, 240),
    ("1", 40, 480),
    ("1", 60, 720),
    ("1", 100, 1200),
];

/// The largest and the smallest ratio that may be asked for.
const BOUNDS: std::ops::RangeInclusive<f64> = 1.0..=5000.0;

impl Scale {
    /// The scales that a job of this system is drawn to, the largest picture
    /// first.
    pub fn usual(system: System) -> Vec<Scale> {
        match system {
            System::Metric => METRIC.iter().map(|ratio| Scale::one_to(*ratio)).collect(),
            System::Imperial => {
                let scales = IMPERIAL.iter();
                scales
                    .map(|(inches, feet, ratio)| Scale {
                        ratio: f64::from(*ratio),
                        words: format!("{inches} in = {feet} ft"),
                    })
                    .collect()
            }
        }
    }

    /// One that is not usual, its ratio rounded up to a whole one, for what is
    /// too large for all others.
    pub(crate) fn whole(ratio: f64) -> Scale {
        let ratio = ratio.ceil().min(1e9);
        Scale {
            ratio,
            words: format!("1:{ratio:.0}"),
        }
    }

    fn one_to(ratio: u32) -> Scale {
        Scale {
            ratio: f64::from(ratio),
            words: format!("1:{ratio}"),
        }
    }

    /// A scale as it is written: `1:50` or `1/4 in = 1 ft`.
    ///
    /// # Errors
    /// What to write instead.
    pub fn read(text: &str) -> Result<Scale, String> {
        let read = read_ratio(text).or_else(|| read_inches(text));
        let ratio = read.ok_or("write a scale as 1:50, or as 1/4 in = 1 ft")?;
        if !BOUNDS.contains(&ratio) {
            return Err("a scale lies between 1:1 and 1:5000".to_owned());
        }
        Ok(Scale {
            ratio,
            words: text.split_whitespace().collect::<Vec<_>>().join(" "),
        })
    }

    /// As it is set on the sheet: fractions with their bar.
    pub fn set(&self) -> String {
        let is_of_inches = self.words.contains('=');
        match is_of_inches {
            true => self.words.replace('/', &FRACTION.to_string()),
            false => self.words.clone(),
        }
    }
}

fn read_ratio(text: &str) -> Option<f64> {
    let (paper, ground) = text.trim().split_once(':')?;
    let (paper, ground): (f64, f64) = (paper.trim().parse().ok()?, ground.trim().parse().ok()?);
    Some(ground / paper).filter(|ratio| ratio.is_finite())
}

fn read_inches(text: &str) -> Option<f64> {
    let (paper, ground) = text.split_once('=')?;
    let inches = number(paper.trim().strip_suffix("in")?)?;
    let feet = number(ground.trim().strip_suffix("ft")?)?;
    Some(12.0 * feet / inches).filter(|ratio| ratio.is_finite())
}

/// `1`, `0.25`, `1/4` or `1 1/2`.
fn number(text: &str) -> Option<f64> {
    let mut sum = 0.0;
    for part in text.split_whitespace() {
        sum += match part.split_once('/') {
            Some((over, under)) => over.parse::<f64>().ok()? / under.parse::<f64>().ok()?,
            None => part.parse::<f64>().ok()?,
        };
    }
    (sum > 0.0).then_some(sum)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scales_are_read_as_they_are_written() {
        for (text, ratio) in [
            ("1:50", 50.0),
            (" 1 : 20 ", 20.0),
            ("2:100", 50.0),
            ("1/4 in = 1 ft", 48.0),
            ("1 1/2in = 1ft", 8.0),
            ("1 in = 20 ft", 240.0),
        ] {
            let scale = Scale::read(text).expect(text);
            assert!((scale.ratio - ratio).abs() < 1e-9, "{text}");
        }
        for text in [
            "",
            "50",
            "1:0",
            "0:1",
            "1:9999",
            "1/4 = 1 ft",
            "1/0 in = 1 ft",
            "1:nan",
            "-1:-50x",
        ] {
            assert!(Scale::read(text).is_err(), "{text}");
        }
    }

    #[test]
    fn the_usual_scales_say_what_they_are() {
        for system in [System::Metric, System::Imperial] {
            let scales = Scale::usual(system);
            for scale in &scales {
                let read = Scale::read(&scale.words).expect(&scale.words);
                assert!((read.ratio - scale.ratio).abs() < 1e-9, "{}", scale.words);
            }
            assert!(scales.is_sorted_by(|a, b| a.ratio < b.ratio));
        }
    }
}
