//! The limits of falls, levels and ground, just under and just over, in each
//! region that differs and in both systems of units.

use drylay::rules::complete;

use super::{A, E, SILENT, W, said};

/// What is said of some sections in a region by a rule.
fn described(rule: &str, region: &str, sections: &str) -> Option<&'static str> {
    let heading = format!("job \"Example court\"\n  region       {region}\n\n");
    said(rule, &complete(&(heading + sections)).text)
}

/// A rule, the sections that are put into the sound job with `{}` for a value,
/// and by region the values with what is said of each.
pub(super) type Case = (
    &'static str,
    &'static str,
    &'static [(
        &'static str,
        &'static [(&'static str, Option<&'static str>)],
    )],
);

const CASES: &[Case] = &[
    (
        "fall-flat",
        "surface court\n  fall {} away from north\n",
        &[
            ("general", &[("2 %", SILENT), ("1.99 %", W)]),
            ("us", &[("1/4 in per ft", SILENT), ("1:51", W)]),
            ("uk", &[("1:80", SILENT), ("1:81", W)]),
            ("au", &[("1:40", SILENT), ("1:41", W)]),
        ],
    ),
    // A narrow walk that meets no building.
    (
        "fall-flat",
        "shape court\n  rectangle 1.2 m by 8 m\n\nsurface court\n  # no meets\n  level -160 mm at north\n  fall {} toward south\n  build sand-set\n",
        &[
            ("general", &[("1:100", SILENT), ("1:101", W)]),
            ("us", &[("1/8 in per ft", SILENT), ("1:101", W)]),
            ("uk", &[("1:100", SILENT), ("1:101", W)]),
            ("au", &[("1:100", SILENT), ("1:101", A)]),
        ],
    ),
    // Foot traffic away from buildings, and a drive.
    (
        "fall-flat",
        "surface court\n  # no meets\n  level -160 mm at north\n  fall {} toward south\n  build sand-set\n",
        &[("au", &[("1:80", SILENT), ("1:81", A)])],
    ),
    (
        "fall-flat",
        "surface court\n  # no meets\n  for drive\n  level -160 mm at north\n  fall {} toward south\n  build sand-set\n",
        &[("au", &[("1:40", SILENT), ("1:41", W)])],
    ),
    // A stepping stone needs no fall.
    (
        "fall-missing",
        "shape court\n  rectangle {} by 800 mm\n\nsurface court\n  # no meets\n  level -160 mm at north\n  # no fall\n  build stone\n\nbuild stone\n  paving granite, 50 mm\n  bed sharp-sand, 40 mm\n",
        &[("uk", &[("1.2 m", SILENT), ("1.3 m", W)])],
    ),
    // A pad beside the corner of the house, a metre from its wall.
    (
        "fall-backward",
        "surface court\n  for foot\n\nshape pad\n  rectangle 1 m by 2.5 m, at (7 m, 1 m)\n\nsurface pad\n  shape pad\n  level -240 mm at south\n  fall 1:50 {}\n  build sand-set\n  laid running-bond, units 100 mm by 200 mm\n  joint 3 mm, filled with joint-sand\n  edging steel-edge, along free\n",
        &[
            (
                "us",
                &[
                    ("toward south", SILENT),
                    ("toward north", W),
                    ("toward east", SILENT),
                ],
            ),
            ("uk", &[("toward south", SILENT), ("toward north", A)]),
        ],
    ),
    // A walk may run down 1:20, and falls across as little as a court.
    (
        "fall-accessible",
        "shape court\n  rectangle 1.5 m by 8 m\n\nsurface court\n  # no meets\n  for foot, accessible\n  level -160 mm at (0 m, 8 m)\n  fall {}\n",
        &[
            (
                "us",
                &[
                    ("1:30 toward south", SILENT),
                    ("1:30 toward south, cross 1:50 toward east", SILENT),
                    ("1:30 toward south, cross 1:40 toward east", E),
                    ("1:30 toward east", E),
                ],
            ),
            (
                "uk",
                &[
                    ("1:30 toward south, cross 1:40 toward east", SILENT),
                    ("1:30 toward south, cross 1:36 toward east", W),
                ],
            ),
        ],
    ),
    (
        "fall-accessible",
        "surface court\n  for foot, accessible\n  fall {} away from north\n",
        &[
            ("general", &[("1:48", SILENT), ("1:47", W)]),
            (
                "us",
                &[("1:48", SILENT), ("1/4 in per ft", SILENT), ("1:47", E)],
            ),
            ("uk", &[("1:40", SILENT), ("1:39", W)]),
            ("au", &[("1:40", SILENT), ("1:39", W)]),
        ],
    ),
    (
        "drive-steep",
        "surface court\n  for drive\n  fall {} away from north\n",
        &[
            ("general", &[("1:6", SILENT), ("1:5.9", W)]),
            ("us", &[("2 in per ft", SILENT), ("17 %", A)]),
            ("uk", &[("1:6", SILENT), ("17 %", W)]),
            ("au", &[("1:6", SILENT), ("17 %", A)]),
        ],
    ),
    (
        "ramp-steep",
        "surface court\n  for ramp\n  fall {} away from north\n",
        &[
            ("general", &[("1:12", SILENT), ("1:11.9", W)]),
            ("us", &[("1 in per ft", SILENT), ("1 1/8 in per ft", W)]),
            ("uk", &[("1:12", SILENT), ("1:11.9", W)]),
            ("au", &[("1:14", SILENT), ("1:13.9", W)]),
        ],
    ),
    (
        "ramp-steep",
        "surface court\n  for ramp, accessible\n  fall {} away from north\n",
        &[("us", &[("1:12", SILENT), ("1:11", E)])],
    ),
    // A cross fall makes no ramp steeper or longer, and has a limit of its own.
    (
        "ramp-steep",
        "surface court\n  for ramp\n  level -160 mm at (0 m, 4 m)\n  fall {} toward east\n",
        &[(
            "general",
            &[
                ("1:12 toward south, cross 1:50", SILENT),
                ("1:50 toward south, cross 1:11", W),
            ],
        )],
    ),
    (
        "ramp-long",
        "shape court\n  rectangle 2 m by 9.14 m\n\nsurface court\n  for ramp\n  level -160 mm at (0 m, 9.14 m)\n  fall 1:12 toward south, cross {} toward east\n",
        &[("general", &[("1:50", SILENT)])],
    ),
    (
        "drive-steep",
        "surface court\n  for drive\n  level -160 mm at (0 m, 4 m)\n  fall 1:6 toward south, cross {} toward east\n",
        &[("uk", &[("1:40", SILENT)])],
    ),
    (
        "crossfall-steep",
        "surface court\n  for ramp\n  level -160 mm at (0 m, 4 m)\n  fall 1:15 toward south, cross {} toward east\n",
        &[
            ("general", &[("1:48", SILENT), ("1:47", W)]),
            ("us", &[("1/4 in per ft", SILENT), ("1:47", W)]),
            ("uk", &[("1:40", SILENT), ("1:39", W)]),
            ("au", &[("1:40", SILENT), ("1:39", W)]),
        ],
    ),
    (
        "crossfall-steep",
        "surface court\n  for ramp, accessible\n  level -160 mm at (0 m, 4 m)\n  fall 1:15 toward south, cross {} toward east\n",
        &[("us", &[("1:48", SILENT), ("1:20", E)])],
    ),
    // As flat as a landing, it is one.
    (
        "landing-missing",
        "surface court\n  for ramp\n  fall {} away from north\n  door at north\n",
        &[
            ("general", &[("1:48", SILENT), ("1:47", W)]),
            ("uk", &[("1:60", SILENT), ("1:59", W)]),
        ],
    ),
    (
        "door-misplaced",
        "surface court\n  level -160 mm at north\n  door at {}\n",
        &[
            (
                "general",
                &[
                    ("north", SILENT),
                    ("(3 m, 4 m)", SILENT),
                    ("(3 m, 4.6 m)", SILENT),
                    ("(3 m, 4.61 m)", W),
                    ("(3 m, 2 m)", W),
                ],
            ),
            ("us", &[("(10', 4.6 m)", SILENT), ("(10', 4.62 m)", W)]),
        ],
    ),
    (
        "lap-short",
        "build sand-set\n  paving concrete-paver, 60 mm, waste 5 %\n  bed sharp-sand, 30 mm\n  base crushed-stone, 150 mm compacted, lifts 2\n  {}\n",
        &[
            (
                "general",
                &[
                    ("fabric geotextile, lap 300 mm", SILENT),
                    ("fabric geotextile, lap 299 mm", A),
                    ("fabric geotextile", SILENT),
                ],
            ),
            (
                "us",
                &[
                    ("fabric geotextile, lap 12 in", SILENT),
                    ("fabric geotextile, lap 11 in", A),
                ],
            ),
        ],
    ),
    // A ramp of 1:12 climbs 500 mm in 6 m.
    (
        "handrail-missing",
        "shape court\n  rectangle 2 m by {}\n\nsurface court\n  for ramp, accessible\n  fall 1:12 away from north\n",
        &[
            ("general", &[("1.8 m", SILENT), ("1.84 m", W)]),
            ("us", &[("6'", SILENT), ("6' 2\"", W)]),
            ("uk", &[("7.2 m", SILENT), ("7.21 m", W)]),
        ],
    ),
    (
        "handrail-missing",
        "surface court\n  for ramp{}\n  fall 1:12 away from north\n",
        &[(
            "general",
            &[
                (", accessible", W),
                ("", SILENT),
                (", accessible\n  handrail both sides", SILENT),
                (", accessible\n  guard along free", SILENT),
            ],
        )],
    ),
    (
        "handrail-missing",
        "surface court\n  for ramp, accessible\n  fall 1:12 away from north\n  {}\n",
        &[
            (
                "us",
                &[
                    ("handrail both sides", SILENT),
                    ("handrail left side", W),
                    ("guard along free", W),
                ],
            ),
            ("uk", &[("handrail left side", SILENT)]),
        ],
    ),
    (
        "path-narrow",
        "shape court\n  rectangle {} by 4 m\n\nsurface court\n  for foot, accessible\n",
        &[
            (
                "general",
                &[("914 mm", SILENT), ("36 in", SILENT), ("913 mm", W)],
            ),
            ("us", &[("36 in", SILENT), ("35 in", W)]),
            ("uk", &[("900 mm", SILENT), ("899 mm", W)]),
            ("au", &[("1 m", SILENT), ("999 mm", W)]),
        ],
    ),
    (
        "path-narrow",
        "shape court\n  rectangle 600 mm by 4 m\n\nsurface court\n  for foot{}\n",
        &[("us", &[(", accessible", W), ("", SILENT)])],
    ),
    (
        "ramp-long",
        "shape court\n  rectangle 2 m by {}\n\nsurface court\n  for ramp\n  fall 1:12 away from north\n",
        &[
            ("general", &[("9.14 m", SILENT), ("9.15 m", W)]),
            ("us", &[("30'", SILENT), ("30' 1\"", W)]),
            ("uk", &[("2 m", SILENT), ("2.01 m", W)]),
        ],
    ),
    // Between the rows in proportion to the run: 1:13 may go 3 m.
    (
        "ramp-long",
        "shape court\n  rectangle 2 m by {}\n\nsurface court\n  for ramp\n  fall 1:13 away from north\n",
        &[("uk", &[("3 m", SILENT), ("3.01 m", W)])],
    ),
    (
        "ramp-long",
        "shape court\n  rectangle 2 m by {}\n\nsurface court\n  for ramp\n  fall 1:20 away from north\n",
        &[("uk", &[("10 m", SILENT), ("10.1 m", W)])],
    ),
    (
        "landing-steep",
        "surface court\n  for landing\n  fall {} away from north\n",
        &[
            ("general", &[("1:48", SILENT), ("1:47", W)]),
            ("us", &[("1/4 in per ft", SILENT), ("1:47", W)]),
            ("uk", &[("1:60", SILENT), ("1:59", W)]),
        ],
    ),
    (
        "landing-short",
        "shape court\n  rectangle 2 m by {}\n\nsurface court\n  for landing\n",
        &[
            ("general", &[("914 mm", SILENT), ("913 mm", W)]),
            ("us", &[("36 in", SILENT), ("35 7/8 in", W)]),
            ("uk", &[("1200 mm", SILENT), ("1199 mm", W)]),
        ],
    ),
    (
        "guard-missing",
        "site\n  ground {}\n",
        &[
            ("general", &[("-922 mm", SILENT), ("-923 mm", W)]),
            ("us", &[("-36 1/4 in", SILENT), ("-36 3/8 in", W)]),
            ("uk", &[("-760 mm", SILENT), ("-761 mm", W)]),
            ("au", &[("-1160 mm", SILENT), ("-1161 mm", W)]),
        ],
    ),
    (
        "guard-missing",
        "site\n  ground -2 m\n\nsurface court\n  guard along {}\n",
        &[(
            "uk",
            &[
                ("free", SILENT),
                ("east and south and west", SILENT),
                ("east and west", W),
            ],
        )],
    ),
    (
        "lip",
        "shape path\n  rectangle 3 m by 4 m, at (6 m, 0 m)\n\nsurface path\n  shape path\n  meets north\n  level {} at north\n  fall 1:50 away from north\n  build sand-set\n\nsurface court\n  level -160 mm at north\n",
        &[
            (
                "general",
                &[
                    ("-166.4 mm", SILENT),
                    ("-166.5 mm", W),
                    ("-259 mm", W),
                    ("-260 mm", SILENT),
                    ("-380 mm", SILENT),
                    ("-381 mm", W),
                ],
            ),
            ("us", &[("-356 mm", SILENT), ("-357 mm", W)]),
            ("uk", &[("-380 mm", SILENT), ("-381 mm", W)]),
            ("au", &[("-350 mm", SILENT), ("-351 mm", W)]),
        ],
    ),
    (
        "lip",
        "shape path\n  rectangle 6 m by 3 m, at (0 m, -3 m)\n\nsurface path\n  shape path\n  for ramp\n  level {} at north\n  fall 1:21 away from north\n  build sand-set\n\nsurface court\n  level -160 mm at north\n",
        &[(
            "general",
            &[
                ("-246.4 mm", SILENT),
                ("-246.5 mm", W),
                ("-340 mm", W),
                ("-400 mm", W),
            ],
        )],
    ),
    (
        "lip",
        "shape path\n  rectangle 6 m by 3 m, at (0 m, -3 m)\n\nsurface path\n  shape path\n  level {} at north\n  fall 1:50 away from north\n  build sand-set\n\nsurface court\n  level -160 mm at north\n",
        &[(
            "general",
            &[("-246.5 mm", W), ("-340 mm", SILENT), ("-400 mm", SILENT)],
        )],
    ),
    (
        "outfall-high",
        "site\n  ground {}\n",
        &[
            (
                "general",
                &[
                    ("-150 mm", SILENT),
                    ("-146 mm", A),
                    ("-37 mm", A),
                    ("-36 mm", W),
                ],
            ),
            (
                "us",
                &[
                    ("-6 in", SILENT),
                    ("-5 7/8 in", A),
                    ("-1 1/2 in", A),
                    ("-1 3/8 in", W),
                ],
            ),
        ],
    ),
    // Water that goes to a drain is led away below the ground.
    (
        "outfall-high",
        "site\n  ground -20 mm\n\nsurface court\n  water to {}\n",
        &[("uk", &[("\"lawn\"", W), ("\"gully by the gate\"", SILENT)])],
    ),
    // The floor, the damp course, the foundation.
    (
        "level-high",
        "surface court\n  level {} at north\n",
        &[
            (
                "general",
                &[("-150 mm", SILENT), ("-149 mm", W), ("50 mm", SILENT)],
            ),
            ("us", &[("-1/2 in", SILENT), ("-3/8 in", A)]),
            ("au", &[("-50 mm", SILENT), ("-49 mm", W)]),
        ],
    ),
    (
        "level-high",
        "surface court\n  level {} at north\n  fall 0 % away from north\n",
        &[
            ("general", &[("-150 mm", SILENT), ("-149 mm", W)]),
            ("us", &[("-1/2 in", SILENT), ("-3/8 in", A)]),
            ("au", &[("-150 mm", SILENT), ("-149 mm", W)]),
        ],
    ),
    // Cars drive in over it.
    (
        "level-high",
        "surface court\n  for drive\n  door at north\n  level {} at north\n",
        &[
            ("uk", &[("-13 mm", SILENT), ("-12 mm", A)]),
            ("us", &[("-1/2 in", SILENT), ("-3/8 in", A)]),
        ],
    ),
    (
        "level-unclear",
        "site\n  damp-course 150 mm\n\nsurface court\n  for {}\n  door at north\n",
        &[("uk", &[("drive", SILENT), ("foot", W)])],
    ),
    // The same building, counted from its damp course.
    (
        "level-unclear",
        "site\n  datum \"damp course\"\n  floor {}\n  ground -200 mm\n",
        &[("uk", &[("0 mm", SILENT), ("75 mm", SILENT), ("-75 mm", W)])],
    ),
    (
        "level-high",
        "site\n  damp-course 0 mm\n\nsurface court\n  level {} at north\n",
        &[
            ("general", &[("-150 mm", SILENT), ("-149 mm", W)]),
            ("us", &[("-5 7/8 in", W), ("-6 in", SILENT)]),
            ("uk", &[("-150 mm", SILENT), ("-149 mm", E)]),
            ("au", &[("-75 mm", SILENT), ("-74 mm", W)]),
        ],
    ),
    (
        "level-high",
        "site\n  damp-course 0 mm\n\nsurface court\n  for foot, covered\n  level {} at north\n",
        &[("au", &[("-50 mm", SILENT), ("-49 mm", W)])],
    ),
    (
        "level-high",
        "site\n  damp-course 0 mm\n\nsurface court\n  level {} at north\n  fall 0 % away from north\n",
        &[("au", &[("-150 mm", SILENT), ("-149 mm", W)])],
    ),
    (
        "level-high",
        "site\n  foundation -2 in\n\nsurface court\n  level {} at north\n",
        &[("us", &[("-8 in", SILENT), ("-7 7/8 in", W)])],
    ),
    (
        "level-high",
        "site\n  walls masonry-veneer\n  foundation 0 mm\n\nsurface court\n  level {} at north\n",
        &[("us", &[("-4 in", SILENT), ("-3 7/8 in", W)])],
    ),
    // A door that is stated, one that is not, an escape door by how it opens.
    (
        "door-step",
        "surface court\n  level {} at north\n  door at north\n",
        &[
            ("general", &[("-196 mm", SILENT), ("-197 mm", W)]),
            ("us", &[("-7 3/4 in", SILENT), ("-7 7/8 in", E)]),
            ("uk", &[("-220 mm", SILENT), ("-221 mm", W)]),
            ("au", &[("-190 mm", SILENT), ("-191 mm", W)]),
        ],
    ),
    (
        "door-step",
        "surface court\n  for foot, accessible\n  level {} at north\n  door at north\n",
        &[
            ("general", &[("-13 mm", SILENT), ("-14 mm", W)]),
            ("us", &[("-1/2 in", SILENT), ("-5/8 in", W)]),
            ("uk", &[("-15 mm", SILENT), ("-16 mm", W)]),
            ("au", &[("-35 mm", SILENT), ("-36 mm", W)]),
        ],
    ),
    (
        "door-step",
        "surface court\n  level {} at north\n",
        &[
            ("us", &[("-7 3/4 in", SILENT), ("-7 7/8 in", A)]),
            ("uk", &[("-220 mm", SILENT), ("-221 mm", A)]),
        ],
    ),
    (
        "door-step",
        "surface court\n  for foot, exit\n  level {} at north\n",
        &[
            ("general", &[("-38 mm", SILENT), ("-39 mm", W)]),
            ("us", &[("-1 1/2 in", SILENT), ("-1 5/8 in", E)]),
        ],
    ),
    (
        "door-step",
        "surface court\n  for foot, exit\n  level -7 3/4 in at north\n  door at (3 m, 4 m), {}\n",
        &[(
            "us",
            &[("slides", SILENT), ("swings in", SILENT), ("swings out", E)],
        )],
    ),
    (
        "vents-covered",
        "site\n  vents -155 mm\n\nsurface court\n  level {} at north\n",
        &[
            ("general", &[("-156 mm", SILENT), ("-155 mm", W)]),
            ("us", &[("-6 1/8 in", SILENT), ("-6 in", W)]),
        ],
    ),
    (
        "vents-covered",
        "site\n  weep-holes -80 mm\n\nsurface court\n  level {} at north\n",
        &[("au", &[("-81 mm", SILENT), ("-80 mm", E)])],
    ),
    (
        "soak-near",
        "site\n  soakaway (3 m, {})\n",
        &[
            ("general", &[("-1 m", SILENT), ("-0.9 m", W)]),
            ("uk", &[("-1 m", SILENT), ("-0.9 m", W)]),
            ("us", &[("3' 1\"", SILENT), ("3' 2\"", W)]),
        ],
    ),
    (
        "soak-near",
        "site\n  soakaway (3 m, {})\n\nsurface court\n  for street\n",
        &[("uk", &[("-5 m", SILENT), ("-4.9 m", W)])],
    ),
    (
        "soakaway-slow",
        "site\n  infiltration {}\n  soakaway (3 m, -9 m)\n",
        &[
            ("general", &[("3.6 mm/h", SILENT), ("3.5 mm/h", W)]),
            ("uk", &[("0.000001 m/s", SILENT), ("0.0000009 m/s", W)]),
            ("us", &[("0.27 in/h", SILENT), ("0.26 in/h", W)]),
            ("us", &[("222 min/in", SILENT), ("223 min/in", W)]),
        ],
    ),
    (
        "soakaway-slow",
        "site\n  soil {}\n  datum \"hall floor\"\n  ground -200 mm\n  soakaway (3 m, -9 m)\n",
        &[(
            "uk",
            &[
                ("gravel", SILENT),
                ("clay", A),
                ("sand, wet", W),
                ("clay, wet", W),
            ],
        )],
    ),
    (
        "roots-near",
        "site\n  tree {} at (3 m, -5 m)\n",
        &[
            // The base goes 150 mm beyond the edge.
            ("general", &[("404 mm", SILENT), ("405 mm", W)]),
            ("us", &[("15 7/8 in", SILENT), ("16 in", W)]),
        ],
    ),
];

/// Where what is said of some cases is not what is wanted.
pub(super) fn wrong(cases: &[Case]) -> String {
    let mut wrong = String::new();
    for (rule, sections, regions) in cases {
        for (region, values) in *regions {
            for (value, wanted) in *values {
                let said = described(rule, region, &sections.replace("{}", value));
                if said != *wanted {
                    wrong += &format!("{rule}, {region}, {value}: {said:?}, not {wanted:?}\n");
                }
            }
        }
    }
    wrong
}

#[test]
fn falls_levels_and_ground_speak_beyond_their_limits_only() {
    let wrong = wrong(CASES);
    assert!(wrong.is_empty(), "\n{wrong}");
}

/// The day on which it is looked at counts where the spec has no date.
#[test]
fn located_services_go_stale() {
    for (date, located, wanted) in [
        ("  date 2027-04-12\n", "2027-03-15", SILENT),
        ("  date 2027-04-12\n", "2027-03-14", W),
        // The tests look on 2027-04-12.
        ("", "2027-03-15", SILENT),
        ("", "2027-03-14", W),
        ("  date 2026-11-10\n", "2026-11-02", SILENT),
    ] {
        let text = format!(
            "job \"Example court\"\n  units metric\n{date}\nsite\n  services located {located}\n"
        );
        let said = said("locate-stale", &complete(&text).text);
        assert_eq!(said, wanted, "{date} {located}");
    }
}

/// A dig that begins before anybody knows what lies there.
#[test]
fn services_are_located_before_the_dig() {
    for (located, wanted) in [
        ("2027-06-07", SILENT),
        ("2027-06-08", E),
        ("2027-05-10", SILENT),
        ("2027-05-09", W),
    ] {
        let text = format!(
            "site\n  services     located {located}\n\nwork\n  start        2027-06-07\n  crew         2\n"
        );
        assert_eq!(
            said("locate-stale", &complete(&text).text),
            wanted,
            "{located}"
        );
    }
}
