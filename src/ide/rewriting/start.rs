//! Where a lay-out had better start.

use super::{Rewriting, RewritingKind, edit};
use crate::analysis::Analysis;
use crate::geometry::Point;
use crate::model::{Laid, Surface, literal};
use crate::quantities::{
    LayoutFigures, MOST_AT_ONCE, laid_over, layout_of, most_units, starts, tiling, tiling_from,
};
use crate::text::Span;
use crate::units::{System, show};

/// At a `laid` entry, the start that cuts the fewest units and the one whose
/// smallest piece is the widest, each with what it gains.
pub(crate) fn started(analysis: &Analysis, wanted: Span) -> Vec<Rewriting> {
    let touched = |laid: &Laid| {
        let (file, span) = analysis.span(laid.place)?;
        let is_touched = file == 0 && span.start <= wanted.end && wanted.start <= span.end;
        is_touched.then_some(span)
    };
    let surfaces = analysis.job.surfaces.iter();
    let mut all = surfaces.filter_map(|surface| {
        let laid = surface.laid.as_ref()?;
        Some((surface.as_ref(), laid, touched(laid)?))
    });
    let Some((surface, laid, span)) = all.next() else {
        return Vec::new();
    };
    offered(analysis, (surface, laid), span).unwrap_or_default()
}

/// A start that is tried, as it is written, and what it comes to.
struct Tried {
    written: String,
    layout: LayoutFigures,
}

fn offered(
    analysis: &Analysis,
    (surface, laid): (&Surface, &Laid),
    span: Span,
) -> Option<Vec<Rewriting>> {
    let system = analysis.job.heading.system();
    let own = tiling(surface)?;
    let figures = analysis.figures.surfaces.get(surface.index)?;
    let over = laid_over(surface, figures.paved())?;
    (most_units(&own, &over) <= MOST_AT_ONCE).then_some(())?;
    let now = layout_of(surface, &own, &over)?;
    let tried: Vec<Tried> = starts(surface, &own, &over)
        .into_iter()
        .filter_map(|start| {
            let (written, origin) = written(start, system)?;
            let tiling = tiling_from(surface, Some(origin))?;
            let layout = layout_of(surface, &tiling, &over)?;
            Some(Tried { written, layout })
        })
        .collect();
    // To a tenth of a millimetre: what lies below is rounding and no gain.
    let least = |layout: &LayoutFigures| {
        let least = layout.least.map_or(f64::INFINITY, |least| least.least_m());
        (least * 1e4).round() / 1e4
    };
    let fewest = tried.iter().min_by(|a, b| {
        let cuts = a.layout.all_cut().cmp(&b.layout.all_cut());
        cuts.then(least(&b.layout).total_cmp(&least(&a.layout)))
    })?;
    let widest = tried.iter().min_by(|a, b| {
        let wide = least(&b.layout).total_cmp(&least(&a.layout));
        wide.then(a.layout.all_cut().cmp(&b.layout.all_cut()))
    })?;
    let is_started = laid.from.is_some();
    let length = |layout: &LayoutFigures| match layout.least {
        Some(least) => show::length(least.least_m(), system),
        None => "a whole unit".to_owned(),
    };
    let mut titles = Vec::new();
    if !is_started || fewest.layout.all_cut() < now.all_cut() {
        let (cuts, before) = (fewest.layout.all_cut(), now.all_cut());
        let gain = match is_started {
            true => format!("{cuts} units cut instead of {before}"),
            false => format!("the fewest cuts, {cuts} units"),
        };
        titles.push((format!("Start at {}: {gain}", fewest.written), fewest));
    }
    if widest.written != fewest.written
        && (!is_started || least(&widest.layout) > least(&now) + 5e-4)
    {
        let gain = match is_started {
            true => format!(
                "smallest piece {} wide instead of {}",
                length(&widest.layout),
                length(&now)
            ),
            false => format!("the widest smallest piece, {}", length(&widest.layout)),
        };
        titles.push((format!("Start at {}: {gain}", widest.written), widest));
    }
    let from = laid.from.as_ref();
    let from = from.and_then(|from| analysis.span(from.place));
    let rewriting = |(title, tried): (String, &Tried)| Rewriting {
        title,
        kind: RewritingKind::Rewrite,
        finding: None,
        cursor: None,
        edits: vec![match from {
            Some((_, place)) => edit(place, tried.written.clone()),
            None => edit(Span::at(span.end), format!(", from {}", tried.written)),
        }],
    };
    Some(titles.into_iter().map(rewriting).collect())
}

/// A point as a spec has it, and the point that it then is.
fn written(point: Point, system: System) -> Option<(String, Point)> {
    let [x, y] = [point.x, point.y].map(|length| show::length(length, system));
    let read = Point::new(literal(&x)?.si(), literal(&y)?.si());
    Some((format!("({x}, {y})"), read))
}

#[cfg(test)]
mod tests {
    use super::super::tests::rewritten;

    const YARD: &str = "job \"A\"\n  units metric\n\nshape yard\n  rectangle 5.85 m by 4 m\n\n\
        surface yard\n  shape yard\n  build b\n  laid stack-bond, units 200 mm by 100 mm, along south¦\n\n\
        build b\n  paving concrete-paver, 60 mm\n";

    #[test]
    fn a_start_is_written_with_what_it_gains() {
        for (title, start) in [
            ("Start at (0 mm, 0 mm): the fewest cuts", "(0 mm, 0 mm)"),
            ("Start at (2.925 m, 0 mm): the widest", "(2.925 m, 0 mm)"),
        ] {
            let text = rewritten(YARD, title).expect(title);
            assert!(
                text.contains(&format!("along south, from {start}\n")),
                "{text}"
            );
        }
        let started = YARD.replace("along south¦", "along south, from (3¦0 mm, 20 mm)");
        let text = rewritten(&started, "Start at (0 mm, 0 mm): 40 units cut instead of").unwrap();
        assert!(text.contains("from (0 mm, 0 mm)"), "{text}");
    }

    #[test]
    fn what_lies_in_no_pattern_has_no_start() {
        let text = YARD.replace("stack-bond", "irregular");
        assert_eq!(rewritten(&text, "Start"), None);
    }
}
