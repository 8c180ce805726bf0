//! The limits of steps, at them and just past them, in each region that
//! differs and in both systems of units.

use super::{A, E, SILENT, W, said};
use drylay::analysis::{Analyser, NoFiles};
use drylay::rules::complete;

/// What is said of a flight in a region by a rule: between two levels, its
/// entries over those of a sound one.
fn described(rule: &str, region: &str, entries: &str) -> Option<&'static str> {
    let has = |key: &str| entries.lines().any(|line| line.trim().starts_with(key));
    let usual = [
        ("from ", "-460 mm"),
        ("to ", "0 mm"),
        ("at ", "(3 m, 0 m), climbing north"),
        ("width ", "1.2 m"),
        ("going ", "350 mm"),
        ("handrail ", "both sides"),
    ];
    // A handrail keeps the rule on handrails silent.
    let is_left_out = |key: &str| key == "handrail " && rule == "handrail-missing";
    let usual = usual
        .iter()
        .filter(|(key, _)| !has(key) && !is_left_out(key));
    let usual: String = usual
        .map(|(key, value)| format!("  {key} {value}\n"))
        .collect();
    let text =
        format!("job \"Example court\"\n  region       {region}\n\nsteps flight\n{usual}{entries}");
    said(rule, &complete(&text).text)
}

/// A rule, the entries of a flight with `{}` for a value, and by region the
/// values with what is said of each.
type Case = (
    &'static str,
    &'static str,
    &'static [(
        &'static str,
        &'static [(&'static str, Option<&'static str>)],
    )],
);

const CASES: &[Case] = &[
    (
        "riser-high",
        "  from {}\n  risers 1\n",
        &[
            ("general", &[("-7 3/4 in", SILENT), ("-198 mm", W)]),
            ("us", &[("-7 3/4 in", SILENT), ("-7 7/8 in", W)]),
            // At a British house one of 220 mm will do where two are too low.
            (
                "uk",
                &[("-170 mm", SILENT), ("-220 mm", SILENT), ("-221 mm", W)],
            ),
            ("au", &[("-190 mm", SILENT), ("-191 mm", W)]),
        ],
    ),
    (
        "riser-high",
        "  from {}\n  risers 5\n",
        &[(
            "uk",
            &[
                ("-850 mm", SILENT),
                ("-900 mm", A),
                ("-1100 mm", A),
                ("-1105 mm", W),
            ],
        )],
    ),
    (
        "steps-apart",
        "  to court\n  at {}, climbing north\n  risers 3\n",
        &[
            (
                "general",
                &[
                    ("(3 m, -300 mm)", SILENT),
                    ("(3 m, -305 mm)", W),
                    ("(3 m, -12 in)", SILENT),
                    ("(3 m, -12 1/4 in)", W),
                ],
            ),
            (
                "uk",
                &[
                    ("(3 m, 995 mm)", SILENT),
                    ("(3 m, 1005 mm)", W),
                    ("(3 m, -4 m)", W),
                ],
            ),
        ],
    ),
    // The wrong way round, and wider than the side of 6 m that it leads to.
    (
        "steps-apart",
        "  to court\n  at (3 m, 0 m), climbing {}\n  risers 3\n",
        &[("general", &[("north", SILENT), ("south", E)])],
    ),
    (
        "steps-apart",
        "  to court\n  at ({}, 0 m), climbing north\n  risers 3\n",
        &[("general", &[("5.7 m", SILENT), ("5.71 m", W)])],
    ),
    (
        "riser-low",
        "  from {}\n  risers 1\n",
        &[
            ("general", &[("-100 mm", SILENT), ("-99 mm", A)]),
            ("us", &[("-4 in", SILENT), ("-3 3/4 in", A)]),
            ("uk", &[("-150 mm", SILENT), ("-149 mm", A)]),
            ("au", &[("-115 mm", SILENT), ("-114 mm", A)]),
        ],
    ),
    (
        "going-short",
        "  going {}\n",
        &[
            ("general", &[("254 mm", SILENT), ("253 mm", W)]),
            ("us", &[("10 in", SILENT), ("9 3/4 in", W)]),
            ("uk", &[("250 mm", SILENT), ("249 mm", W)]),
            ("au", &[("240 mm", SILENT), ("239 mm", W)]),
        ],
    ),
    // Two risers of 230 mm, which riser-high tells of; 207 mm make 42 degrees.
    (
        "pitch-steep",
        "  risers 2\n  going {}\n",
        &[
            ("general", &[("256 mm", SILENT), ("255 mm", W)]),
            ("uk", &[("256 mm", SILENT), ("255 mm", W)]),
            ("us", &[("255 mm", W)]),
        ],
    ),
    // Two risers of 150 mm make 300 mm.
    (
        "step-proportion",
        "  from -450 mm\n  going {}\n",
        &[
            (
                "general",
                &[
                    ("310 mm", SILENT),
                    ("308 mm", A),
                    ("386 mm", SILENT),
                    ("387 mm", A),
                ],
            ),
            ("uk", &[("400 mm", SILENT), ("401 mm", A)]),
            ("au", &[("400 mm", SILENT), ("401 mm", A)]),
        ],
    ),
    (
        "handrail-missing",
        "  risers {}\n",
        &[
            ("general", &[("3", SILENT), ("4", W)]),
            ("us", &[("3", SILENT), ("4", W)]),
            ("eu", &[("3", SILENT), ("4", W)]),
            ("uk", &[("3", SILENT), ("4", SILENT)]),
        ],
    ),
    // Where the region counts the climb, risers do not matter.
    (
        "handrail-missing",
        "  from {}\n",
        &[
            ("uk", &[("-600 mm", SILENT), ("-605 mm", W)]),
            ("au", &[("-1 m", SILENT), ("-1005 mm", W)]),
            ("us", &[("-400 mm", SILENT), ("-800 mm", W)]),
        ],
    ),
    (
        "path-narrow",
        "  width {}\n",
        &[
            ("general", &[("914 mm", SILENT), ("913 mm", A)]),
            ("us", &[("36 in", SILENT), ("35 1/2 in", A)]),
            ("uk", &[("914 mm", SILENT), ("900 mm", A)]),
        ],
    ),
    (
        "rise-missing",
        "  from {}\n",
        &[("general", &[("-1 mm", SILENT), ("0 mm", E), ("50 mm", E)])],
    ),
    // Of six risers five lie below the top tread.
    (
        "edge-high",
        "  from {}\n  risers 6\n\nsite\n  ground {}\n",
        &[
            ("general", &[("-912 mm", SILENT), ("-915 mm", W)]),
            // Risers of 152 mm, the odd 2 mm in the lowest: the drop is 30 in.
            ("us", &[("-914 mm", SILENT), ("-915 mm", W)]),
            ("uk", &[("-720 mm", SILENT), ("-721 mm", W)]),
            ("au", &[("-1200 mm", SILENT), ("-1201 mm", W)]),
        ],
    ),
    // Over the flight's 1.2 m the ground falls 9.5 mm, and 5 mm.
    (
        "risers-uneven",
        "  from ground\n  to court\n\nsite\n  ground -700 mm at (3 m, -0.7 m), falling {} toward east\n",
        &[
            ("general", &[("0.79 %", SILENT), ("0.8 %", W)]),
            ("au", &[("0.41 %", SILENT), ("0.42 %", W)]),
        ],
    ),
    (
        "nosing-long",
        "  tread sandstone, 40 mm, nosing {}\n",
        &[
            (
                "general",
                &[("38 mm", SILENT), ("1 1/2 in", SILENT), ("39 mm", W)],
            ),
            ("us", &[("1 1/4 in", SILENT), ("1 5/16 in", W)]),
            ("uk", &[("38 mm", SILENT), ("39 mm", W)]),
        ],
    ),
    (
        "tread-steep",
        "  tread sandstone, 40 mm\n  fall {}\n",
        &[
            ("general", &[("1:40", SILENT), ("1:39", W)]),
            ("us", &[("1/4 in per ft", SILENT), ("2.5 %", W)]),
        ],
    ),
    (
        "tread-flat",
        "  tread sandstone, 40 mm\n  fall {}\n",
        &[("general", &[("1:100", SILENT), ("1:101", A)])],
    ),
    (
        "tread-flat",
        "  tread sandstone, 40 mm{}\n",
        &[("uk", &[("", A), ("\n  fall 1:60", SILENT)])],
    ),
    (
        "tread-loose",
        "  tread sandstone, {}\n  bed sharp-sand, 15 mm\n",
        &[(
            "general",
            &[("100 mm", SILENT), ("4 in", SILENT), ("99 mm", W)],
        )],
    ),
    (
        "tread-thin",
        "  tread sandstone, {}\n  bed bed-mix, 15 mm\n",
        &[(
            "general",
            &[("18 mm", SILENT), ("11/16 in", SILENT), ("17 mm", W)],
        )],
    ),
    (
        "tread-thin",
        "  tread sandstone, {}, nosing 20 mm\n  bed bed-mix, 15 mm\n",
        &[(
            "general",
            &[("30 mm", SILENT), ("1 3/16 in", SILENT), ("29 mm", A)],
        )],
    ),
    (
        "flight-long",
        "  from -3.1 m\n  risers {}\n",
        &[
            ("general", &[("18", SILENT), ("19", W)]),
            ("au", &[("18", SILENT), ("19", W)]),
            ("us", &[("19", W)]),
        ],
    ),
    // A piece of 1.2 m by 350 mm at 2,400 kg/m3.
    (
        "tread-heavy",
        "  tread concrete-flag, 50 mm, in {} pieces\n",
        &[("general", &[("4", SILENT), ("1", A)])],
    ),
    (
        "tread-heavy",
        "  tread concrete-flag, {}\n",
        &[("general", &[("73 mm", A), ("490 mm", A), ("550 mm", W)])],
    ),
];

#[test]
fn steps_are_told_of_beyond_their_limits_only() {
    let mut wrong = String::new();
    for (rule, entries, regions) in CASES {
        for (region, values) in *regions {
            for (value, wanted) in *values {
                let said = described(rule, region, &entries.replace("{}", value));
                if said != *wanted {
                    wrong += &format!("{rule}, {region}, {value}: {said:?}, not {wanted:?}\n");
                }
            }
        }
    }
    assert!(wrong.is_empty(), "\n{wrong}");
}

/// A graver finding of the same going stands alone.
#[test]
fn the_gravest_of_a_going_is_told() {
    let steep = "  going 150 mm\n";
    assert_eq!(described("pitch-steep", "general", steep), W);
    for other in ["going-short", "step-proportion"] {
        assert_eq!(described(other, "general", steep), SILENT, "{other}");
    }
    let high = "  risers 2\n";
    assert_eq!(described("riser-high", "general", high), W);
    assert_eq!(described("step-proportion", "general", high), SILENT);
    // Low risers keep back no stride that higher ones make longer still.
    let low = "  from -450 mm\n  risers 6\n  going 800 mm\n";
    assert_eq!(described("riser-low", "general", low), A);
    assert_eq!(described("step-proportion", "general", low), A);
}

/// What is said of a job by a rule: its message.
fn told(rule: &str, text: &str) -> Option<String> {
    let text = complete(text).text;
    let analysis =
        Analyser::new().analyse("/specs/example.patio", text.into(), &NoFiles, "2027-04-12");
    let mut findings = analysis.findings.iter();
    let finding = findings.find(|finding| finding.rule == rule);
    finding.map(|finding| finding.message.to_string())
}

/// A machine that digs lifts heavy treads too, where it is hired for that.
#[test]
fn a_hired_machine_lifts_the_treads() {
    for (tasks, wanted) in [
        ("building and digging", SILENT),
        ("digging", A),
        ("building", A),
    ] {
        let text = format!(
            "job \"Example court\"\n  region uk\n\nsteps flight\n  from -460 mm\n  to 0 mm\n  \
             at (3 m, 0 m), climbing north\n  width 1.2 m\n  going 350 mm\n  handrail both sides\n  \
             tread sandstone, 150 mm\n\nhire excavator\n  for {tasks}\n  price £100/day\n"
        );
        assert_eq!(
            said("tread-heavy", &complete(&text).text),
            wanted,
            "{tasks}"
        );
    }
}

/// What lacks of bricks before risers is told, and not what is stated.
#[test]
fn bricks_before_risers_lack_what_is_not_stated() {
    for (unit, facing, wanted) in [
        ("  unit 8 in by 4 in\n", "flat", "no courses for brick"),
        ("  unit 8 in by 4 in\n", "flat, courses 2 5/8 in", ""),
        ("", "4 in, courses 2 5/8 in", "state its unit"),
    ] {
        let text = format!(
            "job \"Example court\"\n  region us\n\nsteps flight\n  from -460 mm\n  to 0 mm\n  \
             at (3 m, 0 m), climbing north\n  width 1.2 m\n  going 350 mm\n  handrail both sides\n  \
             tread sandstone, 2 in\n  riser brick, {facing}\n\n\
             material brick\n  like clay-brick\n{unit}  sold by each\n"
        );
        let told = told("sold-unclear", &text).unwrap_or_default();
        assert!(told.contains(wanted), "{facing}: {told}");
        assert_eq!(told.is_empty(), wanted.is_empty(), "{facing}: {told}");
    }
}

#[test]
fn a_drop_is_told_of_on_each_side_where_there_is_one() {
    let steps = "steps garden-steps\n  from -1300 mm\n  to court\n  at (3 m, 0 m), climbing north\n  \
                 width 1.2 m\n  going 350 mm\n  risers 7\n  handrail both sides\n";
    for (ground, wanted) in [
        ("-1300 mm", "on both sides"),
        (
            "-1300 mm at (3 m, -1 m), falling 1:10 toward east",
            "on the right going up, and",
        ),
        (
            "-1050 mm at (3 m, -1 m), falling 1:5 toward west",
            "on the left going up. ",
        ),
    ] {
        let message = told("edge-high", &format!("site\n  ground {ground}\n\n{steps}"));
        let message = message.expect(ground);
        assert!(message.contains(wanted), "{ground}: {message}");
    }
}

#[test]
fn a_door_needs_room_before_the_steps() {
    for (door, wanted) in [
        ("(3 m, 4 m), swings out", SILENT),
        ("(3 m, 0.914 m), swings out", SILENT),
        ("(3 m, 0.913 m), swings in", W),
        // Beside the flight there is room.
        ("(5 m, 0.5 m), swings out", SILENT),
    ] {
        let text = format!(
            "surface court\n  door at {door}\n\nsteps garden-steps\n  from -700 mm\n  to court\n  \
             at (3 m, 0 m), climbing north\n  width 1.2 m\n  going 350 mm\n  handrail both sides\n"
        );
        assert_eq!(
            said("landing-short", &complete(&text).text),
            wanted,
            "{door}"
        );
    }
}
