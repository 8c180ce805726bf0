//! A material in two sizes is two things to buy.

use drylay::analysis::Analysis;
use drylay::quantities::Order;

use crate::checked::checked;
use crate::tools::command;

const JOB: &str = r#"job "Two courts"
  units         metric
  region        uk
  currency      GBP

site
  soil          sand, firm
  datum         "floor"
  ground        -200 mm

shape left
  rectangle     4 m by 3 m

shape right
  rectangle     4 m by 3 m, at (6 m, 0 m)

surface left
  shape         left
  level         -150 mm at north
  fall          1:60 away from north
  build         left-flags
  laid          stack-bond, units 450 mm by 450 mm

surface right
  shape         right
  level         -150 mm at north
  fall          1:60 away from north
  build         right-flags
  laid          stack-bond, units 600 mm by 600 mm

build left-flags
  paving        LEFT, 38 mm, waste 5 %
  bed           sharp-sand, 40 mm

build right-flags
  paving        RIGHT, 38 mm, waste 5 %
  bed           sharp-sand, 40 mm

drain upper
  pipe          UPPER, 110 mm, from (0 m, -4 m) to (6 m, -4 m)
  fall          1:80
  invert        -700 mm at (0 m, -4 m)
  to            lower

drain lower
  pipe          LOWER, 160 mm, from (6 m, -4 m) to (16 m, -4 m)
  fall          1:80
  to            "ditch"

"#;

/// The job with what is bought under these names, each like the catalogue's.
fn job(names: [&str; 4]) -> String {
    let mut text = JOB.to_owned();
    for (slot, name) in ["LEFT", "RIGHT", "UPPER", "LOWER"].iter().zip(names) {
        text = text.replace(slot, name);
    }
    for (name, rest) in [
        ("flag", "concrete-flag\n  sold each\n  price £6.20\n"),
        ("other-flag", "concrete-flag\n  sold each\n  price £6.20\n"),
        (
            "tube",
            "plastic-pipe\n  sold by length of 3 m\n  price £11.40\n",
        ),
        (
            "other-tube",
            "plastic-pipe\n  sold by length of 3 m\n  price £11.40\n",
        ),
    ] {
        if names.contains(&name) {
            text += &format!("material {name}\n  like {rest}\n");
        }
    }
    text
}

/// What the order lines come to, whatever they are called.
fn lines(analysis: &Analysis) -> Vec<(Option<f64>, String, Option<i128>)> {
    let orders = analysis.figures.orders.iter();
    let line = |order: &Order| {
        let ordered = order.ordered.map(|number| number.to_f64());
        (
            ordered,
            order.unit.clone(),
            order.cost.map(|cost| cost.cents),
        )
    };
    orders.map(|order| line(order)).collect()
}

#[test]
fn a_material_in_two_sizes_is_ordered_as_two_materials_are() {
    let together = checked(&job(["flag", "flag", "tube", "tube"]));
    let apart = checked(&job(["flag", "other-flag", "tube", "other-tube"]));
    let by_kind = |analysis: &Analysis| {
        let mut lines = lines(analysis);
        lines.sort_by(|one, other| one.1.cmp(&other.1).then(one.2.cmp(&other.2)));
        lines
    };
    assert_eq!(by_kind(together.analysis()), by_kind(apart.analysis()));
    assert_eq!(together.figures().total, apart.figures().total);
    let names = |analysis: &Analysis| -> Vec<String> {
        let system = analysis.job.heading.system();
        let orders = analysis.figures.orders.iter();
        orders.map(|order| order.name(system)).collect()
    };
    let named = names(together.analysis());
    assert_eq!(
        named
            .iter()
            .filter(|name| name.starts_with("flag"))
            .collect::<Vec<_>>(),
        [
            "flag, 450 mm by 450 mm by 38 mm",
            "flag, 600 mm by 600 mm by 38 mm"
        ]
    );
    assert!(
        named.contains(&"tube, 160 mm across".to_owned()),
        "{named:?}"
    );
    // One size of each needs no telling apart.
    assert!(names(apart.analysis()).contains(&"other-tube".to_owned()));
}

#[test]
fn the_same_size_is_one_line_however_it_is_written() {
    let text = job(["flag", "flag", "tube", "tube"]);
    let same = text.replace("600 mm by 600 mm", "45 cm by 0.45 m");
    let found = checked(&same.replace("160 mm", "0.11 m"));
    let orders = found.figures().orders.iter();
    let counted = orders.filter(|order| ["flag", "tube"].contains(&order.material.as_str()));
    assert_eq!(counted.count(), 2);
}

#[test]
fn sizes_of_a_material_come_on_the_same_loads() {
    let text = job(["flag", "flag", "tube", "tube"]);
    let delivered = text.replace("price £6.20", "price £6.20\n  delivery £45 per load of 400");
    let found = checked(&delivered);
    let brought: Vec<_> = found
        .figures()
        .orders
        .iter()
        .filter(|order| order.material == "flag")
        .map(|order| order.delivery.map(|own| own.cost.cents))
        .collect();
    assert_eq!(brought, [Some(4500), None]);
}

#[test]
fn every_list_of_what_is_bought_has_the_size() {
    let folder = tempfile::tempdir().expect("a folder");
    let spec = folder.path().join("courts.patio");
    std::fs::write(&spec, job(["flag", "flag", "tube", "tube"])).expect("it is written");
    for list in [
        &["takeoff"][..],
        &["takeoff", "--format", "csv"],
        &["takeoff", "--format", "markdown"],
        &["report"],
        &["report", "--for", "crew"],
        &["report", "--for", "supplier"],
    ] {
        let output = command(env!("CARGO_BIN_EXE_drylay"), folder.path())
            .args(list)
            .arg(&spec)
            .output()
            .expect("the program runs");
        let text = String::from_utf8_lossy(&output.stdout).to_lowercase();
        for size in ["flag, 450 mm by 450 mm by 38 mm", "tube, 160 mm across"] {
            assert!(text.contains(size), "{list:?}: {text}");
        }
    }
}
