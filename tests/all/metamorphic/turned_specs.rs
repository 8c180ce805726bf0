//! Every spec and every sound job, turned by any angle: each point, direction
//! and step of its plan is written anew, and what is found and what it comes
//! to stay.

use std::collections::BTreeMap;

use drylay::analysis::{Analyser, Analysis};
use drylay::findings::Place;
use drylay::model::{Argument, DrainKind, Entry, Expression, Filled, Value};

use super::agree;
use super::changes::jobs;
use crate::folder::TODAY;
use crate::same::{Grows, figures, findings, ground};

/// A spec whose plan is turned clockwise about the origin.
struct Turning<'a> {
    analysis: &'a Analysis,
    degrees: f64,
    /// What is written in place of what, by where that begins.
    changes: BTreeMap<u32, (u32, String)>,
}

impl Turning<'_> {
    fn turned(analysis: &Analysis, degrees: f64) -> String {
        let mut turning = Turning {
            analysis,
            degrees,
            changes: BTreeMap::new(),
        };
        for section in analysis.files[0].sections.iter() {
            section.heading().into_iter().for_each(|heading| {
                turning.entry("", heading);
            });
            for entry in section.entries() {
                let key = entry.key.map_or("", |key| key.word);
                let is_shape = section.kind().is_some_and(|kind| kind.word == "shape");
                turning.entry(if is_shape { key } else { "" }, entry);
            }
        }
        let mut text = analysis.own_text().to_owned();
        for (start, (end, new)) in turning.changes.into_iter().rev() {
            text.replace_range(start as usize..end as usize, &new);
        }
        text
    }

    /// An entry, by its key where it is one of a shape.
    fn entry(&mut self, key: &str, entry: &Entry) {
        let step = ["north", "east", "south", "west"]
            .iter()
            .position(|way| *way == key);
        match (step, key) {
            (Some(quarters), _) => {
                let bearing = self.bearing(90.0 * quarters as f64);
                self.put(entry.word, format!("{bearing},"));
            }
            (None, "bearing") => {
                if let Some(angle) = entry.filled.quantity("ANGLE") {
                    let written = self.analysis.text(angle.place());
                    self.put(angle.place(), format!("{written} + {}°", self.degrees));
                }
            }
            (None, "rectangle") => match entry.clause("turned") {
                Some(clause) => {
                    let written = self.analysis.text(clause.place).to_owned();
                    self.put(clause.place, format!("{written} + {}°", self.degrees));
                }
                None => self.put(entry.place.end(), format!(", turned {}°", self.degrees)),
            },
            _ => {}
        }
        self.slots(&entry.filled);
        for clause in &entry.clauses {
            self.slots(&clause.filled);
        }
    }

    fn slots(&mut self, filled: &Filled) {
        for (_, value, place) in &filled.0 {
            match value {
                Value::Point(point) => {
                    let new = self.point(&point.0, &point.1);
                    self.put(*place, new);
                }
                Value::Quantity(quantity) => self.inside(quantity),
                Value::Compass(degrees) => self.put(*place, self.bearing(*degrees)),
                Value::Bearing(angle) => {
                    let written = self.analysis.text(angle.place());
                    self.put(angle.place(), format!("{written} + {}°", self.degrees));
                }
                _ => {}
            }
        }
    }

    /// The points in an expression: `level(court, (0, 0))`.
    fn inside(&mut self, expression: &Expression) {
        match expression {
            Expression::Call { arguments, .. } => {
                for argument in arguments {
                    if let Argument::Point(point, place) = argument {
                        let new = self.point(&point.0, &point.1);
                        self.put(*place, new);
                    }
                }
            }
            Expression::Negative(inner, _) => self.inside(inner),
            Expression::Sum(parts, _) | Expression::Product(parts, _) => {
                for (_, part) in parts {
                    self.inside(part);
                }
            }
            Expression::Literal(..) | Expression::Name(..) => {}
        }
    }

    fn bearing(&self, degrees: f64) -> String {
        format!("bearing {}°", (degrees + self.degrees).rem_euclid(360.0))
    }

    fn point(&self, east: &Expression, north: &Expression) -> String {
        let (sin, cos) = self.degrees.to_radians().sin_cos();
        let written = |expression: &Expression| {
            let own = self.analysis.text(expression.place());
            match own {
                "0" => "0 m".to_owned(),
                own => own.to_owned(),
            }
        };
        let (east, north) = (written(east), written(north));
        format!(
            "(({east}) * {cos:.13} + ({north}) * {sin:.13}, ({north}) * {cos:.13} + ({east}) * {:.13})",
            -sin
        )
    }

    fn put(&mut self, place: Place, text: String) {
        let (file, span) = self.analysis.span(place).expect("a place is there");
        assert_eq!(file, 0);
        self.changes.insert(span.start, (span.end, text));
    }
}

/// All figures but the length of pipes and what they are laid in: a pit keeps
/// to the plan's axes, and a pipe ends at its face.
fn turnable(analysis: &Analysis) -> Vec<(String, Grows, Option<f64>)> {
    let pipes = analysis.job.drains.iter();
    let pipes = pipes.filter(|drain| drain.kind() == Some(DrainKind::Pipe));
    let laid_in = pipes.filter_map(|pipe| pipe.bedded.as_ref());
    let laid_in: Vec<String> = laid_in
        .map(|laid| format!("order of {}", laid.of.value.name()))
        .collect();
    let is_turnable = |name: &String| !name.ends_with("-pipe") && !laid_in.contains(name);
    let all = figures(analysis).into_iter();
    all.filter(|(name, ..)| is_turnable(name)).collect()
}

#[test]
fn a_spec_turned_by_any_angle_keeps_its_findings_and_figures() {
    let mut apart = Vec::new();
    for (path, folder) in jobs() {
        let still = folder.analysis(&path);
        for degrees in [90.0, 137.0, 301.5] {
            let text = Turning::turned(&still, degrees);
            let turned = Analyser::new().analyse(&path, text.as_str().into(), &folder, TODAY);
            let place = format!("{path} turned by {degrees}°");
            if findings(&still) != findings(&turned) {
                let described = |analysis: &Analysis| {
                    let all = analysis.findings.iter();
                    all.map(|one| format!("{}: {}", one.rule, one.message))
                        .collect::<Vec<_>>()
                };
                apart.push(format!(
                    "{place}: {:#?} and {:#?}",
                    described(&still),
                    described(&turned)
                ));
                continue;
            }
            let same = agree(&turnable(&still), &turnable(&turned), 1.0)
                .and_then(|()| agree(&ground(&still), &ground(&turned), 1.0));
            apart.extend(same.err().map(|why| format!("{place}: {why}")));
        }
    }
    assert!(apart.is_empty(), "{}", apart.join("\n"));
}
