//! The limits of drains, just under and just over, in each region that
//! differs.

use drylay::rules::complete;

use super::{A, SILENT, W, said};

/// A rule, the sections that are put into the sound job with `{}` for a value,
/// and by region the values with what is said of each.
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
        "drain-flat",
        "drain side\n  pipe plastic-pipe, 110 mm, from (0 m, -1 m) to (6 m, -1 m)\n  fall {}\n  invert -900 mm\n  to \"ditch\"\n",
        &[
            ("general", &[("1:100", SILENT), ("1:101", W)]),
            (
                "us",
                &[("1/8 in per ft", SILENT), ("1 %", SILENT), ("1:101", W)],
            ),
            ("uk", &[("1:100", SILENT), ("1:101", W)]),
            ("au", &[("1:100", SILENT), ("1:101", W)]),
        ],
    ),
    (
        "drain-flat",
        "drain side\n  pipe plastic-pipe, 2 1/2 in, from (0 m, -1 m) to (6 m, -1 m)\n  fall {}\n  invert -900 mm\n  to \"ditch\"\n",
        &[
            ("us", &[("1/4 in per ft", SILENT), ("1:49", W)]),
            ("uk", &[("1:48", SILENT), ("1:49", W)]),
        ],
    ),
    (
        "drain-flat",
        "drain side\n  pipe plastic-pipe, 8 in, from (0 m, -1 m) to (6 m, -1 m)\n  fall {}\n  invert -900 mm\n  to \"ditch\"\n",
        &[("us", &[("1/16 in per ft", SILENT), ("1:193", W)])],
    ),
    (
        "drain-flat",
        "drain side\n  pipe plastic-pipe, 110 mm, from (0 m, -1 m) to (6 m, -1 m)\n  fall 1:80 toward {}\n  invert -900 mm\n  to \"ditch\"\n",
        &[("uk", &[("east", SILENT), ("west", W), ("south", W)])],
    ),
    (
        "drain-flat",
        "drain side\n  trench 300 mm wide, 600 mm deep, along court.south\n  pipe perforated-pipe, 100 mm\n  fall {} toward east\n  filled open-stone\n  to \"ditch\"\n",
        &[
            ("general", &[("0.5 %", SILENT), ("0.49 %", W)]),
            ("us", &[("0.5 %", SILENT), ("0.49 %", W)]),
        ],
    ),
    // A channel runs level too.
    (
        "drain-flat",
        "drain side\n  channel polymer-channel, 100 mm by 80 mm clear, along court.south\n  fall {} toward east\n  to \"ditch\"\n",
        &[("uk", &[("0 %", SILENT)])],
    ),
    (
        "cover-thin",
        "drain side\n  pipe plastic-pipe, 110 mm, from (0 m, -6 m) to (4 m, -6 m)\n  fall 1:80\n  invert {}\n  to \"ditch\"\n",
        &[
            ("general", &[("-610 mm", SILENT), ("-609 mm", W)]),
            ("us", &[("-610 mm", SILENT), ("-609 mm", W)]),
            ("uk", &[("-910 mm", SILENT), ("-909 mm", W)]),
            ("au", &[("-410 mm", SILENT), ("-409 mm", W)]),
        ],
    ),
    (
        "cover-thin",
        "surface court\n  # no meets\n  for drive\n  level -160 mm at north\n  fall 1:50 away from north\n  build sand-set\n\ndrain side\n  pipe plastic-pipe, 110 mm, from (1 m, 3.9 m) to (5 m, 3.9 m)\n  fall 1:80\n  invert {}\n  to \"ditch\"\n",
        &[
            ("general", &[("-722 mm", SILENT), ("-721 mm", W)]),
            ("uk", &[("-1172 mm", SILENT), ("-1171 mm", W)]),
        ],
    ),
    // A gully's grating lies at the finish, 240 mm below the datum there.
    (
        "cover-thin",
        "drain yard\n  gully gully, at (3 m, 0 m)\n  invert {}\n  to \"ditch\"\n",
        &[(
            "uk",
            &[
                ("-600 mm", SILENT),
                ("-245 mm", SILENT),
                ("-150 mm", W),
                ("600 mm", W),
            ],
        )],
    ),
    (
        "drain-unwrapped",
        "site\n  soil sand\n\ndrain pit\n  soakaway 1 m by 1 m by 1 m, centre (3 m, -9 m)\n  filled {}\n  takes court\n",
        &[(
            "uk",
            &[
                ("crate, voids 95 %", A),
                ("crate, voids 95 %\n  wrapped geotextile", SILENT),
                ("open-stone, voids 40 %", SILENT),
            ],
        )],
    ),
    (
        "voids-high",
        "drain side\n  trench 300 mm wide, 600 mm deep, along court.south\n  fall 1:100 toward east\n  filled {}\n  to \"ditch\"\n",
        &[(
            "uk",
            &[
                ("open-stone, voids 45 %", SILENT),
                ("open-stone, voids 46 %", W),
                ("crate, voids 95 %", SILENT),
            ],
        )],
    ),
    // 110 mm of plastic runs into 100 mm of clay, and so do nine tenths.
    (
        "pipe-narrow",
        "drain side\n  pipe plastic-pipe, 110 mm, from (0 m, -1 m) to (6 m, -1 m)\n  fall 1:80\n  invert -900 mm\n  to road\n\ndrain road\n  pipe clay-pipe, {}, from (6 m, -1 m) to (12 m, -1 m)\n  fall 1:80\n  to \"ditch\"\n",
        &[
            (
                "uk",
                &[
                    ("100 mm", SILENT),
                    ("99 mm", SILENT),
                    ("98 mm", W),
                    ("150 mm", SILENT),
                ],
            ),
            ("us", &[("4 in", SILENT), ("3 in", W)]),
        ],
    ),
    (
        "pipe-narrow",
        "drain side\n  pipe plastic-pipe, 160 mm, from (0 m, -1 m) to (6 m, -1 m)\n  fall 1:80\n  invert -900 mm\n  to pit\n\ndrain pit\n  gully gully, at (6 m, -1 m)\n  to road\n\ndrain road\n  pipe plastic-pipe, {}, from (6 m, -1 m) to (12 m, -1 m)\n  fall 1:80\n  to \"ditch\"\n",
        &[("uk", &[("160 mm", SILENT), ("110 mm", W)])],
    ),
    (
        "invert-misplaced",
        "drain side\n  pipe plastic-pipe, 110 mm, from (0 m, -2 m) to (6 m, -2 m)\n  fall 1:80\n  invert -900 mm at (3 m, {})\n  to \"ditch\"\n",
        &[
            ("general", &[("-1.85 m", SILENT), ("-1.8 m", W)]),
            ("us", &[("-2 m", SILENT), ("2 m", W)]),
        ],
    ),
    // A trench has holes in its pipe, a pipe by itself none unless it gathers
    // water out of what it lies in.
    (
        "pipe-unsuited",
        "drain side\n  trench 300 mm wide, 600 mm deep, along court.south\n  pipe {}, 110 mm\n  fall 1:100 toward east\n  filled open-stone\n  to \"ditch\"\n",
        &[(
            "uk",
            &[
                ("perforated-pipe", SILENT),
                ("coiled-pipe", SILENT),
                ("clay-pipe", SILENT),
                ("plastic-pipe", W),
            ],
        )],
    ),
    (
        "pipe-unsuited",
        "drain side\n  pipe {}, from (0 m, -1 m) to (6 m, -1 m)\n  fall 1:80\n  invert -900 mm\n  to \"ditch\"\n",
        &[(
            "uk",
            &[
                ("plastic-pipe, 110 mm", SILENT),
                ("perforated-pipe, 110 mm", W),
                ("coiled-pipe, 110 mm", W),
            ],
        )],
    ),
    (
        "pipe-unsuited",
        "drain side\n  pipe perforated-pipe, 110 mm, from (0 m, -1 m) to (6 m, -1 m)\n  fall 1:80\n  invert -900 mm\n  bedded in {}, 100 mm round\n  to \"ditch\"\n",
        &[("uk", &[("pea-gravel", SILENT), ("sharp-sand", W)])],
    ),
    (
        "drain-clogged",
        "drain side\n  trench 300 mm wide, 600 mm deep, along court.south\n  fall 1:100 toward east\n  filled {}\n  to \"ditch\"\n",
        &[(
            "uk",
            &[
                ("open-stone", SILENT),
                ("pea-gravel", SILENT),
                ("type-1", W),
                ("sharp-sand", W),
                ("stone-dust", W),
            ],
        )],
    ),
    (
        "drain-clogged",
        "drain pit\n  soakaway 1 m by 1 m by 1 m, centre (3 m, -9 m)\n  filled {}\n",
        &[(
            "uk",
            &[("crate", SILENT), ("open-stone", SILENT), ("type-1", W)],
        )],
    ),
    (
        "drain-unwrapped",
        "site\n  soil {}\n  datum \"floor\"\n  ground -200 mm\n\ndrain side\n  trench 300 mm wide, 600 mm deep, along court.south\n  fall 1:100 toward east\n  filled open-stone\n  to \"ditch\"\n",
        &[(
            "uk",
            &[
                ("clay, firm", A),
                ("silt, firm", A),
                ("sand, firm", SILENT),
                ("gravel, firm", SILENT),
            ],
        )],
    ),
    (
        "channel-light",
        "surface court\n  for {}\n\ndrain side\n  channel plastic-channel, 100 mm by 80 mm clear, along court.south\n  fall 1:100 toward east\n  to \"ditch\"\n",
        &[("uk", &[("foot", A), ("drive", A), ("street", A)])],
    ),
    (
        "trench-narrow",
        "drain side\n  pipe plastic-pipe, 110 mm, from (0 m, -6 m) to (4 m, -6 m)\n  fall 1:80\n  invert -900 mm\n  bedded in gravel, {} round\n  to \"ditch\"\n",
        &[(
            "general",
            &[
                ("20 mm", SILENT),
                ("19 mm", A),
                ("7/8 in", SILENT),
                ("3/4 in", A),
            ],
        )],
    ),
    (
        "value-odd",
        "drain side\n  pipe plastic-pipe, {}, from (0 m, -6 m) to (4 m, -6 m)\n  fall 1:80\n  invert -900 mm\n  to \"ditch\"\n",
        &[(
            "general",
            &[
                ("110 mm", SILENT),
                ("2 m", SILENT),
                ("110 m", W),
                ("12 mm", SILENT),
                ("11 mm", W),
            ],
        )],
    ),
    (
        "storm-long",
        "site\n  storm 30 mm in {}\n\ndrain side\n  channel polymer-channel, 100 mm by 80 mm clear, along court.south\n  to \"ditch\"\n",
        &[
            ("general", &[("15 min", SILENT), ("16 min", A)]),
            ("uk", &[("15 min", SILENT), ("16 min", A)]),
            ("us", &[("60 min", SILENT), ("61 min", A)]),
        ],
    ),
    // A short one beside it, or none to judge by it.
    (
        "storm-long",
        "site\n  storm 30 mm in 1 h\n  storm {}\n\ndrain side\n  channel polymer-channel, 100 mm by 80 mm clear, along court.south\n  to \"ditch\"\n",
        &[(
            "uk",
            &[
                ("75 mm/h for 5 min", SILENT),
                ("50 mm/h", SILENT),
                ("40 mm in 2 h", A),
            ],
        )],
    ),
    // In concrete a pipe may lie where it likes.
    (
        "cover-thin",
        "mix slab-mix\n  for slab\n  parts 1 portland-cement : 2 sharp-sand : 4 gravel\n\ndrain side\n  pipe plastic-pipe, 110 mm, from (0 m, -6 m) to (4 m, -6 m)\n  fall 1:80\n  invert {}\n  bedded in slab-mix, 100 mm round\n  to \"ditch\"\n",
        &[("uk", &[("-400 mm", SILENT)])],
    ),
    (
        "drain-unled",
        "drain side\n  pipe plastic-pipe, 110 mm, from (0 m, -6 m) to (4 m, -6 m)\n  fall 1:80\n  invert -900 mm\n  to next\n\ndrain next\n  existing\n  gully at (4 m, {})\n",
        &[("general", &[("-6.152 m", SILENT), ("-6.153 m", W)])],
    ),
    (
        "drain-unled",
        "drain side\n  pipe plastic-pipe, 110 mm, from (0 m, -6 m) to (4 m, -6 m)\n  fall 1:80\n  invert -900 mm\n  to next\n\ndrain next\n  soakaway 1 m by 1 m by 1 m, centre (4 m, {})\n  filled crate\n",
        &[("general", &[("-6.65 m", SILENT), ("-6.66 m", W)])],
    ),
    (
        "invert-high",
        "drain side\n  pipe plastic-pipe, 110 mm, from (0 m, -6 m) to (8 m, -6 m)\n  fall 1:80\n  invert -700 mm\n  to next\n\ndrain next\n  soakaway 1 m by 1 m by 1 m, centre (8 m, -6 m)\n  invert {}\n  filled crate\n",
        &[(
            "general",
            &[
                ("-900 mm", SILENT),
                ("-800 mm", SILENT),
                ("-796.8 mm", SILENT),
                ("-796.7 mm", W),
            ],
        )],
    ),
    (
        "soak-near",
        "drain soak\n  soakaway 1 m by 1 m by 1 m, centre (3 m, {})\n  invert -900 mm\n  filled crate\n",
        &[
            ("general", &[("-1.5 m", SILENT), ("-1.4 m", W)]),
            ("uk", &[("-1.5 m", SILENT), ("-1.4 m", W)]),
            ("us", &[("0.45 m", SILENT), ("0.46 m", W)]),
        ],
    ),
    (
        "drain-idle",
        "drain side\n  channel polymer-channel, 100 mm by 80 mm clear, along court.{}\n  to \"ditch\"\n",
        &[(
            "general",
            &[("south", SILENT), ("north", A), ("north, at door", SILENT)],
        )],
    ),
    (
        "drain-small",
        "site\n  storm 75 mm/h for 5 min\n\ndrain side\n  pipe plastic-pipe, 110 mm, bore 103 mm, from (0 m, -1 m) to (8 m, -1 m)\n  fall 1:80\n  invert -900 mm\n  takes \"roof\" {} m2, runoff 100 %\n  to \"ditch\"\n",
        // 7.3849 L/s.
        &[("general", &[("354.4", SILENT), ("354.5", W)])],
    ),
    (
        "soakaway-small",
        "site\n  storm 30 mm in 1 h\n  storm 32 mm in 6 h\n  infiltration 40 mm/h\n\ndrain pit\n  soakaway 1 m by 1 m by 1 m, centre (3 m, -9 m)\n  filled crate, voids 95 %\n  takes \"roof\" {} m2, runoff 100 %\n",
        &[
            // 30 mm less 2 m² × 40 mm/h, in 0.95 m³.
            ("uk", &[("34.3", SILENT), ("34.4", W)]),
            // All of 32 mm.
            ("us", &[("29.6", SILENT), ("29.7", W)]),
        ],
    ),
    (
        "storm-short",
        "site\n  storm 20 mm in 30 min\n  storm {} in 6 h\n  infiltration 40 mm/h\n\ndrain pit\n  soakaway 1 m by 1 m by 1 m, centre (3 m, -9 m)\n  filled crate, voids 95 %\n  takes \"roof\" 30 m2, runoff 100 %\n",
        // 0.6 m³ less 0.04 m³ in the one, less 0.48 m³ in the other.
        &[
            ("general", &[("34 mm", SILENT), ("35 mm", W)]),
            ("us", &[("35 mm", A)]),
        ],
    ),
    (
        "storm-short",
        "site\n  storm 20 mm in 30 min\n  storm 40 mm in {}\n  infiltration 40 mm/h\n\ndrain pit\n  soakaway 1 m by 1 m by 1 m, centre (3 m, -9 m)\n  filled crate, voids 95 %\n  takes \"roof\" 30 m2, runoff 100 %\n",
        &[("us", &[("23 h", A), ("24 h", SILENT)])],
    ),
    (
        "drain-flat",
        "drain side\n  trench 300 mm wide, 600 mm deep, along court.south\n  fall 1:100 toward {}\n  filled open-stone\n  to \"ditch\"\n",
        &[(
            "uk",
            &[
                ("east", SILENT),
                ("west", SILENT),
                ("north", W),
                ("south-east", SILENT),
            ],
        )],
    ),
    (
        "soakaway-slow",
        "site\n  soil {}\n\nbuild sand-set\n  paving concrete-paver, 80 mm\n  bed open-stone, 50 mm\n  base open-stone, 300 mm\n  permeable\n",
        &[(
            "uk",
            &[
                ("gravel, firm", SILENT),
                ("clay, firm", A),
                ("clay, wet", W),
            ],
        )],
    ),
    (
        "soakaway-slow",
        "site\n  storm 30 mm in 1 h\n  storm 31 mm in 48 h\n  infiltration 8 mm/h\n\ndrain pit\n  soakaway 1 m by 1 m by 1 m, centre (3 m, -9 m)\n  filled crate, voids 95 %\n  takes \"roof\" {} m2, runoff 100 %\n",
        &[
            // Half of it in 24 h by 2 m² of sides.
            ("general", &[("26.1", SILENT), ("26.2", W)]),
            ("uk", &[("26.1", SILENT), ("26.2", W)]),
            // All of it in 48 h by 1 m² of base.
            ("us", &[("12.3", SILENT), ("12.4", W)]),
        ],
    ),
    (
        "runoff-odd",
        "surface court\n  runoff {}\n",
        &[
            ("general", &[("70 %", SILENT), ("69 %", A)]),
            ("us", &[("70 %", SILENT), ("69 %", A)]),
        ],
    ),
    (
        "runoff-odd",
        "drain pit\n  soakaway 1 m by 1 m by 1 m, centre (3 m, -9 m)\n  filled crate\n  takes \"roof\" 30 m2, runoff {}\n",
        &[
            ("general", &[("75 %", SILENT), ("74 %", A)]),
            ("us", &[("75 %", SILENT), ("74 %", A)]),
        ],
    ),
];

#[test]
fn drains_keep_to_their_limits_in_each_region() {
    for (rule, sections, regions) in CASES {
        for (region, values) in *regions {
            for (value, wanted) in *values {
                let heading = format!("job \"Example court\"\n  region       {region}\n\n");
                let text = heading + &sections.replace("{}", value);
                let found = said(rule, &complete(&text).text);
                assert_eq!(found, *wanted, "{rule} {region} {value}\n{text}");
            }
        }
    }
}
