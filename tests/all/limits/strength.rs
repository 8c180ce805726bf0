//! The limits of strengths, just under and just over, in each region that
//! differs and in both systems of units.

use super::falls_levels_ground::{Case, wrong};
use super::{SILENT, W};

const CASES: &[Case] = &[
    (
        "strength-low",
        "surface court\n  build bare-slab\n\nbuild bare-slab\n  slab slab-mix, 100 mm\n  base crushed-stone, 100 mm compacted\n\nmix slab-mix\n  strength {}\n",
        &[
            ("us", &[("2500 psi", SILENT), ("2490 psi", W)]),
            ("general", &[("17.2 MPa", SILENT), ("17.1 MPa", W)]),
            ("uk", &[("25 MPa", SILENT), ("24.9 MPa", W)]),
            ("au", &[("20 MPa", SILENT), ("19.9 MPa", W)]),
        ],
    ),
    (
        "strength-low",
        "site\n  frost 600 mm\n\nsurface court\n  build bare-slab\n\nbuild bare-slab\n  slab slab-mix, 100 mm\n  base crushed-stone, 100 mm compacted\n\nmix slab-mix\n  strength {}\n",
        &[
            ("us", &[("3000 psi", SILENT), ("2980 psi", W)]),
            ("general", &[("20.6 MPa", SILENT), ("20.5 MPa", W)]),
            ("uk", &[("25 MPa", SILENT), ("24.9 MPa", W)]),
            ("au", &[("32 MPa", SILENT), ("31.9 MPa", W)]),
        ],
    ),
    // A slab under paving is out of the weather.
    (
        "strength-low",
        "surface court\n  build mortar-set\n\nmix slab-mix\n  strength {}\n",
        &[
            ("general", &[("5 MPa", SILENT), ("4.9 MPa", W)]),
            (
                "uk",
                &[("20 MPa", SILENT), ("8 MPa", SILENT), ("7.9 MPa", W)],
            ),
            ("us", &[("2500 psi", SILENT), ("2490 psi", W)]),
            ("au", &[("20 MPa", SILENT), ("19.9 MPa", W)]),
        ],
    ),
    (
        "strength-low",
        "material concrete-paver\n  strength {}\n",
        &[
            ("us", &[("8000 psi", SILENT), ("7900 psi", W)]),
            ("general", &[("55 MPa", SILENT), ("54 MPa", W)]),
        ],
    ),
    (
        "strength-low",
        "build sand-set\n  paving clay-paver, 65 mm\n\nmaterial clay-paver\n  strength {}\n",
        &[
            ("us", &[("3000 psi", SILENT), ("2900 psi", W)]),
            ("general", &[("20.6 MPa", SILENT), ("20 MPa", W)]),
        ],
    ),
    (
        "strength-low",
        "site\n  frost 600 mm\n\nbuild sand-set\n  paving clay-paver, 65 mm\n\nmaterial clay-paver\n  strength {}\n",
        &[
            ("us", &[("8000 psi", SILENT), ("7900 psi", W)]),
            ("general", &[("55 MPa", SILENT), ("54 MPa", W)]),
        ],
    ),
];

#[test]
fn strengths_are_told_of_beyond_their_limits_only() {
    let wrong = wrong(CASES);
    assert!(wrong.is_empty(), "\n{wrong}");
}
