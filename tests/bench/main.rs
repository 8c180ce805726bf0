//! How long things take: `cargo bench`. The figures in the README come from
//! here; none of them is a test, for a busy machine is not a fault.

// A measurement may stop where it fails.
#![allow(clippy::expect_used, clippy::indexing_slicing)]
// Nothing leaves a benchmark.
#![allow(unreachable_pub)]

mod workload;

use std::hint::black_box;
use std::io::Write;
use std::process::{Command, Stdio};

use divan::Bencher;
use drylay::analysis::{Analyser, NoFiles};
use drylay::drawing::Picture;
use drylay::geometry::{Edge, Outline, Point, Tiling, Unit, Vector};
use drylay::syntax::Tree;
use drylay::text::Text;

const DRYLAY: &str = env!("CARGO_BIN_EXE_drylay");
const TODAY: &str = "2027-01-12";
const PATH: &str = "/specs/bench.patio";

fn main() {
    divan::main();
}

/// Reading a text into its tree.
#[divan::bench(args = [200, 2_000, 20_000])]
fn read(bencher: Bencher<'_, '_>, lines: usize) {
    let text: Text = Text::from(workload::spec(lines));
    bencher.bench(|| Tree::parse(black_box(text.clone())));
}

/// A text analysed for the first time.
#[divan::bench(args = [200, 2_000, 20_000])]
fn analyse(bencher: Bencher<'_, '_>, lines: usize) {
    let text: Text = Text::from(workload::spec(lines));
    bencher.bench(|| Analyser::new().analyse(PATH, black_box(text.clone()), &NoFiles, TODAY));
}

/// From an edit of one number to all findings, in process.
#[divan::bench(args = [200, 2_000, 20_000])]
fn edit(bencher: Bencher<'_, '_>, lines: usize) {
    let text = workload::spec(lines);
    let one: Text = Text::from(text.as_str());
    let other: Text = Text::from(workload::edited(&text));
    let mut analyser = Analyser::new();
    analyser.analyse(PATH, one.clone(), &NoFiles, TODAY);
    let mut turn = false;
    bencher.bench_local(|| {
        turn = !turn;
        let text = if turn { &other } else { &one };
        analyser.analyse(PATH, black_box(text.clone()), &NoFiles, TODAY)
    });
}

/// A lay-out of so many units of herringbone, turned, with a bowed end.
#[divan::bench(args = [3_000, 20_000])]
fn lay_out(bencher: Bencher<'_, '_>, units: u32) {
    let deep = f64::from(units) * 0.203 * 0.103 / 10.0;
    let corner = Point::new;
    let field = Outline::new(vec![
        Edge::line(corner(0.0, 0.0), corner(10.0, 0.0), 0),
        Edge::line(corner(10.0, 0.0), corner(10.0, deep - 0.7), 1),
        Edge::arc(corner(10.0, deep - 0.7), corner(0.0, deep - 0.7), 0.2, 2),
        Edge::line(corner(0.0, deep - 0.7), corner(0.0, 0.0), 3),
    ]);
    let field = [field.expect("a field")];
    let unit = |along, across, size, is_turned| Unit {
        corner: Vector::new(along, across),
        size,
        is_turned,
    };
    let tiling = Tiling {
        origin: corner(0.0, 0.0),
        along: Vector::new(0.8, 0.6),
        units: vec![
            unit(0.0, 0.0, Vector::new(0.2, 0.1), false),
            unit(0.203, -0.1, Vector::new(0.1, 0.2), true),
        ],
        steps: [Vector::new(0.103, 0.103), Vector::new(0.203, -0.203)],
    };
    bencher.bench(|| black_box(&tiling).over(black_box(&field), &[]));
}

/// From an edit of one number to all findings, in process: a court of 3,000
/// units is laid out anew, and a schedule of some 60 tasks made anew.
#[divan::bench]
fn edit_whole_job(bencher: Bencher<'_, '_>) {
    let one: Text = Text::from(workload::whole_job("6.3 m"));
    let other: Text = Text::from(workload::whole_job("6.4 m"));
    let mut analyser = Analyser::new();
    let first = analyser.analyse(PATH, one.clone(), &NoFiles, TODAY);
    let schedule = first.figures.schedule.as_ref().expect("a schedule");
    let yard = first.figures.surface("yard").expect("the yard");
    let layout = yard.layout.as_ref().expect("it is laid out");
    assert!(schedule.tasks.len() >= 60 && schedule.end_min.is_some());
    assert!(layout.whole + layout.cut >= 3_000);
    drop(first);
    let mut turn = false;
    bencher.bench_local(|| {
        turn = !turn;
        let text = if turn { &other } else { &one };
        analyser.analyse(PATH, black_box(text.clone()), &NoFiles, TODAY)
    });
}

/// From an edit of one number to the plan as a picture, in process: a spec of
/// 200 lines whose court has so many units, each of them drawn.
#[divan::bench(args = [3_000])]
fn picture(bencher: Bencher<'_, '_>, units: u32) {
    let one: Text = Text::from(workload::court(units, "1:60"));
    let other: Text = Text::from(workload::court(units, "1:50"));
    let mut analyser = Analyser::new();
    analyser.analyse(PATH, one.clone(), &NoFiles, TODAY);
    let mut turn = false;
    bencher.bench_local(|| {
        turn = !turn;
        let text = if turn { &other } else { &one };
        let analysis = analyser.analyse(PATH, black_box(text.clone()), &NoFiles, TODAY);
        Picture::of(&analysis, false).expect("a picture")
    });
}

/// `drylay drawing` of the longest spec in `specs`, every sheet as PDF, as a
/// whole process.
#[divan::bench]
fn drawing_process(bencher: Bencher<'_, '_>) {
    let folder = tempfile::tempdir().expect("a folder");
    let spec = workload::longest_of_specs();
    bencher.bench(|| {
        let status = Command::new(DRYLAY)
            .args(["drawing", "--output"])
            .arg(folder.path().join("drawing.pdf"))
            .arg(&spec)
            .status();
        black_box(status.expect("drylay runs"))
    });
}

/// `drylay check` of one spec, as a whole process.
#[divan::bench(args = [200, 2_000])]
fn check_process(bencher: Bencher<'_, '_>, lines: usize) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("bench.patio");
    std::fs::write(&path, workload::spec(lines)).expect("a file");
    bencher.bench(|| {
        let status = Command::new(DRYLAY)
            .arg("check")
            .arg(&path)
            .stdout(Stdio::null())
            .status();
        black_box(status.expect("drylay runs"))
    });
}

/// `drylay check` of 1,000 small specs, as a whole process.
#[divan::bench(sample_count = 20)]
fn check_thousand(bencher: Bencher<'_, '_>) {
    let folder = tempfile::tempdir().expect("a folder");
    for index in 0..1_000 {
        let path = folder.path().join(format!("court-{index:04}.patio"));
        std::fs::write(path, workload::spec(40)).expect("a file");
    }
    bencher.bench(|| {
        let status = Command::new(DRYLAY)
            .arg("check")
            .arg(folder.path())
            .stdout(Stdio::null())
            .status();
        black_box(status.expect("drylay runs"))
    });
}

/// The language server from its start to its first answer.
#[divan::bench]
fn serve_first_answer(bencher: Bencher<'_, '_>) {
    bencher.bench(|| {
        let mut server = Command::new(DRYLAY)
            .arg("serve")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("drylay runs");
        let body = r#"{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"capabilities":{}}}"#;
        let mut stdin = server.stdin.take().expect("its input");
        write!(stdin, "Content-Length: {}\r\n\r\n{body}", body.len()).expect("a request");
        let mut stdout = server.stdout.take().expect("its output");
        let mut first = [0_u8; 1];
        std::io::Read::read_exact(&mut stdout, &mut first).expect("an answer");
        drop(stdin);
        let _ = server.kill();
        let _ = server.wait();
        first
    });
}
