use drylay::findings::FileId;
use drylay::model::*;
use drylay::syntax::Tree;
use std::sync::Arc;
fn main() {
    let path = std::env::args().nth(1).unwrap();
    let text = std::fs::read_to_string(path).unwrap();
    let tree = Tree::parse(Arc::from(text));
    let mut force = None;
    let mut rs = vec![];
    for p in &tree.sections {
        let r = read_section(tree.section_text(p), p, FileId(0), force);
        if !r.continues {
            force = r.kind;
        }
        rs.push(Arc::new(r));
    }
    let files = [FileInput {
        path: "x".into(),
        sections: joined(rs),
        uses: vec![],
    }];
    let job = resolve(&files);
    for s in job.shapes.values() {
        let o = s.outline.as_ref();
        println!(
            "{} area {:?} perim {:?}",
            s.name.value,
            o.map(|o| o.area()),
            o.map(|o| o.perimeter())
        );
    }
    for s in &job.surfaces {
        println!(
            "{} plane {:?} sides {:?} edgings {:?}",
            s.name.value, s.plane, s.sides, s.edgings
        );
    }
    for m in job.materials.values() {
        println!(
            "{} {:?} {:?} {:?}",
            m.name,
            m.density.map(|d| d.value.si()),
            m.compacted.map(|d| d.value.si()),
            m.sold.as_ref().map(|s| &s.value)
        );
    }
    for b in job.builds.values() {
        for l in &b.layers {
            println!(
                "  {} {} {:?}",
                l.role.value.word(),
                l.of.value.name(),
                l.thickness.as_ref().map(|t| t.value.si())
            );
        }
    }
    for m in job.mixes.values() {
        println!(
            "{} {:?}",
            m.name.value,
            m.parts
                .iter()
                .map(|p| (
                    p.amount.value.si(),
                    p.name.value.clone(),
                    p.material.is_some()
                ))
                .collect::<Vec<_>>()
        );
    }
    for f in &job.findings {
        let st = tree
            .sections
            .iter()
            .find(|p| p.id == f.place.section.section)
            .map(|p| p.start)
            .unwrap_or(0);
        let a = st + f.place.span.start;
        let line = tree.text[..a as usize].matches('\n').count() + 1;
        println!(
            "{}: {} [{}] {}",
            line,
            f.rule,
            &tree.text[a as usize..(st + f.place.span.end) as usize],
            f.message
        );
        for x in &f.fixes {
            println!(
                "     fix: {} -> {:?}",
                x.title,
                x.changes.iter().map(|c| &c.text).collect::<Vec<_>>()
            );
        }
    }
}
