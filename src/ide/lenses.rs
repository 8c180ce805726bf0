//! A line over each surface: its size, its base, its cost, its findings.

use crate::analysis::Analysis;
use crate::findings::Severity;
use crate::text::Span;
use crate::units::show;
use crate::vocabulary::Role;

/// A line of figures over a heading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lens {
    /// The heading, in bytes of the checked file.
    pub span: Span,
    /// What it says: `436.5 sq ft · 14.6 tons of base · 2 warnings`.
    pub text: String,
}

/// The lines over the surfaces of the checked file. Goods are ordered for the
/// whole job, so a cost stands only where the job has one surface.
pub fn lenses(analysis: &Analysis) -> Vec<Lens> {
    let job = &analysis.job;
    let system = job.heading.system();
    let surfaces = job.surfaces.iter().zip(analysis.figures.surfaces.iter());
    surfaces
        .filter_map(|(surface, figures)| {
            let (0, span) = analysis.span(surface.place)? else {
                return None;
            };
            let mut parts = Vec::new();
            parts.extend(figures.area_m2.map(|area| show::area(area, system)));
            let base = figures.layer(Role::Base).and_then(|base| base.mass_kg);
            parts.extend(base.map(|mass| format!("{} of base", show::mass(mass, system))));
            let total = analysis.figures.total.as_ref();
            let total = total.filter(|_| job.surfaces.len() == 1);
            parts.extend(total.map(ToString::to_string));
            for severity in [Severity::Error, Severity::Warning, Severity::Advisory] {
                let open = analysis.findings.iter().filter(|finding| {
                    let is_here = finding.place.section == surface.section
                        || finding.computed_from.contains(&surface.section);
                    is_here && finding.severity == Some(severity) && finding.accepted.is_none()
                });
                parts.extend(counted(open.count(), severity));
            }
            let text = parts.join(" · ");
            (!text.is_empty()).then_some(Lens { span, text })
        })
        .collect()
}

/// So many findings; nothing for none.
fn counted(count: usize, severity: Severity) -> Option<String> {
    match count {
        0 => None,
        1 => Some(format!("1 {}", severity.word())),
        count => Some(format!("{count} {}", severity.words())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ide::fixture::{COURT, analysed};

    #[test]
    fn a_surface_tells_its_figures_and_findings() {
        let analysis = analysed(COURT);
        let found = lenses(&analysis);
        let [lens] = found.as_slice() else {
            panic!("{found:?}")
        };
        assert_eq!(lens.span.slice(COURT).trim_end(), "surface court");
        let total = analysis.figures.total.as_ref().expect("a cost").to_string();
        let start = format!("24 m² · 7.63 t of base · {total}");
        assert!(lens.text.starts_with(&start), "{}", lens.text);
        let flat = lenses(&analysed(&COURT.replace("1:50", "1:400")));
        let warnings = |text: &str| text.contains("warning");
        assert!(flat.iter().all(|lens| warnings(&lens.text)), "{flat:?}");
    }

    #[test]
    fn a_cost_of_the_whole_job_is_no_surface_s() {
        let two = format!("{COURT}\nsurface yard\n  shape court\n");
        let found = lenses(&analysed(&two));
        assert_eq!(found.len(), 2);
        assert!(
            found.iter().all(|lens| !lens.text.contains('€')),
            "{found:?}"
        );
    }

    #[test]
    fn findings_are_counted_in_words() {
        for (count, severity, words) in [
            (0, Severity::Error, None),
            (1, Severity::Warning, Some("1 warning")),
            (2, Severity::Error, Some("2 errors")),
            (3, Severity::Advisory, Some("3 advisories")),
        ] {
            assert_eq!(counted(count, severity).as_deref(), words);
        }
    }
}
