//! Pegs of shapes that come again, and pegs that stand clear of every dig.

use drylay::analysis::{Analyser, Analysis};
use drylay::geometry::Point;
use drylay::quantities::{DrivenInto, PegOn, Stands, setting_out};

use super::{analysed, set_out};
use crate::folder::{Folder, TODAY};

/// A terrace against the house and a row of pads below it, so many of them.
fn row(pads: u32, clear: &str) -> String {
    let again = match pads {
        1 => String::new(),
        pads => format!(", {pads} in all, every 900 mm between centres, toward south"),
    };
    format!(
        "job \"Row\"\n  units metric\n\nsite\n  ground -200 mm\n\n\
         shape terrace\n  rectangle 6 m by 3 m, at (0, -3 m)\n\n\
         shape pad\n  rectangle 900 mm by 600 mm, at (1 m, -3.9 m)\n\n\
         surface terrace\n  shape terrace\n  meets north\n  level -150 mm at north\n  \
         fall 1:50 away from north\n  build flags\n\n\
         surface pads\n  shape pad{again}\n  level -200 mm\n  build flags\n\n\
         build flags\n  paving sandstone, 40 mm\n  base crushed-stone, 100 mm compacted, beyond 100 mm\n\n\
         setting-out\n  clear {clear}\n"
    )
}

fn is_meant_clear(on: &PegOn) -> bool {
    matches!(
        on.stands,
        Stands::Past(..) | Stands::OutOf(..) | Stands::OutOfCorner(..)
    )
}

#[test]
fn each_of_a_shape_that_comes_again_is_pegged() {
    for pads in [1, 2, 5] {
        let found = set_out(&row(pads, "500 mm"));
        let own = &found.surfaces[1];
        let corners = own.pegs.iter().filter(|on| !is_meant_clear(on));
        let corners: Vec<(Option<(usize, usize)>, Point)> = corners
            .map(|on| (on.nth, found.pegs[on.peg as usize - 1].at))
            .collect();
        assert_eq!(corners.len(), 4 * pads as usize);
        for (place, four) in corners.chunks(4).enumerate() {
            let nth = (pads > 1).then_some((place + 1, pads as usize));
            let north = -3.3 - 0.9 * place as f64;
            for (east, south) in [(1.0, 0.0), (1.9, 0.0), (1.9, 0.6), (1.0, 0.6)] {
                let at = Point::new(east, north - south);
                let is_there = |own: &&(_, Point)| own.0 == nth && own.1.distance(at) < 1e-9;
                assert_eq!(
                    four.iter().filter(is_there).count(),
                    1,
                    "{at:?} in {four:?}"
                );
            }
        }
        // Each is proved square by its own two diagonals.
        assert_eq!(own.checks.len(), 2 * pads as usize);
    }
}

#[test]
fn a_circle_that_comes_again_is_set_out_from_each_centre() {
    let found = set_out(
        "job \"Stones\"\n  units metric\n\nshape stone\n  circle across 400 mm\n\n\
         surface stones\n  shape stone, 4 in all, every 650 mm between centres, toward east\n",
    );
    let own = &found.surfaces[0];
    let centres = own
        .pegs
        .iter()
        .filter(|on| matches!(on.stands, Stands::Centre(_)));
    let east = centres.map(|on| found.pegs[on.peg as usize - 1].at.x);
    let east: Vec<i64> = east
        .map(|metres| (1000.0 * metres).round() as i64)
        .collect();
    assert_eq!(east, [0, 650, 1300, 1950]);
}

/// A line along a row runs on past all of it, and up to the house it ends in a
/// mark on the wall.
#[test]
fn the_line_of_a_row_is_pegged_past_the_row() {
    let found = set_out(&row(5, "500 mm"));
    let past = |way: &str| {
        let pegs = found.surfaces[1].pegs.iter();
        let own = pegs.filter(|on| on.stands == Stands::Past("east".to_owned(), way.to_owned()));
        own.map(|on| (on.driven_into.clone(), found.pegs[on.peg as usize - 1].at))
            .collect::<Vec<_>>()
    };
    // The last pad ends at 7.5 m, its dig 100 mm farther.
    let [(DrivenInto::Ground, south)] = &past("south")[..] else {
        panic!("{:?}", past("south"))
    };
    assert!(south.distance(Point::new(1.9, -8.1)) < 1e-9, "{south:?}");
    let [(DrivenInto::Wall, north)] = &past("north")[..] else {
        panic!("{:?}", past("north"))
    };
    assert!(north.distance(Point::new(1.9, 0.0)) < 1e-9, "{north:?}");
}

/// Where no clear ground is in reach of a string, that is said.
#[test]
fn a_peg_that_cannot_stand_clear_says_so() {
    // A slot of 400 mm between two long strips, and clear of both by 500 mm.
    let text = |wide: &str| {
        format!(
            "job \"Slot\"\n  units metric\n\nshape pad\n  rectangle 1 m by 1 m\n\n\
             shape yard\n  rectangle {wide} by 40 m, at (1.2 m, -20 m)\n\n\
             surface pad\n  shape pad\n  build flags\n\nsurface yard\n  shape yard\n  build flags\n\n\
             build flags\n  paving sandstone, 40 mm\n\nsetting-out\n  from (0, 0) and (0, 9 m)\n  clear 500 mm\n"
        )
    };
    let dug = |wide: &str| {
        let found = set_out(&text(wide));
        let pegs = found.surfaces[0].pegs.iter();
        pegs.filter(|on| on.driven_into == DrivenInto::Dig("yard".to_owned()))
            .count()
    };
    assert_eq!(dug("40 m"), 2);
    assert_eq!(dug("4 m"), 0);
    let sheet = drylay::report::setout_text(&analysed(&text("40 m")), "/", false);
    assert!(sheet.contains("in the dig of yard"), "{sheet}");
    assert!(sheet.contains("a wall or a profile board"), "{sheet}");
}

/// In every spec no peg that is to stand clear stands where anything is dug.
#[test]
fn no_peg_stands_in_the_dig_of_a_neighbour() {
    let folder = Folder::of_specs();
    let mut looked_at = 0;
    for path in folder.paths() {
        let analysis = Analyser::new().analyse(&path, folder.text(&path), &folder, TODAY);
        looked_at += clear_pegs(&path, &analysis);
    }
    assert!(looked_at > 40, "{looked_at} pegs");
    let pads = clear_pegs("a row", &analysed(&row(5, "500 mm")));
    assert!(pads > 10, "{pads}");
}

/// How many pegs of a job stand clear; fails if one stands where it is dug.
fn clear_pegs(path: &str, analysis: &Analysis) -> usize {
    let found = setting_out(&analysis.job);
    let digs = analysis
        .figures
        .surfaces
        .iter()
        .zip(analysis.job.surfaces.iter());
    let digs: Vec<_> = digs
        .filter_map(|(figures, own)| Some((&own.name.value, figures.dug.clone()?)))
        .collect();
    let pegs = found.surfaces.iter().flat_map(|own| &own.pegs);
    let clear = pegs.filter(|on| is_meant_clear(on) && on.driven_into == DrivenInto::Ground);
    let mut looked_at = 0;
    for on in clear {
        looked_at += 1;
        let at = found.pegs[on.peg as usize - 1].at;
        for (name, dug) in &digs {
            let is_in = dug.outlines.iter().any(|outline| outline.contains(at));
            assert!(!is_in, "{path}: peg {} stands in the dig of {name}", on.peg);
        }
    }
    looked_at
}

#[test]
fn a_hole_too_narrow_for_a_clear_peg_has_none() {
    let job = |radius: &str| {
        format!(
            "job \"Maple\"\n  units metric\n\nshape maple\n  circle radius {radius}, centre (3 m, -2 m)\n\n\
             shape court\n  rectangle 6 m by 4 m, at (0, -4 m)\n  cut maple\n\n\
             surface court\n  shape court\n  meets north\n  level -150 mm at north\n  \
             fall 1:50 away from north\n  build flags\n\n\
             build flags\n  paving sandstone, 40 mm\n  base crushed-stone, 100 mm compacted, beyond 150 mm\n\n\
             setting-out\n  clear 600 mm\n"
        )
    };
    let clear_in_hole = |text: &str| {
        let found = set_out(text);
        let own = found.surfaces[0]
            .pegs
            .iter()
            .filter(|on| is_meant_clear(on));
        let middle = Point::new(3.0, -2.0);
        let places = own.map(|on| found.pegs[on.peg as usize - 1].at.distance(middle));
        (places.filter(|off| *off < 1.9).count(), found.cramped.len())
    };
    let narrow = job("600 mm");
    assert_eq!(clear_in_hole(&narrow), (0, 1));
    let said = drylay::report::setout_text(&analysed(&narrow), "/", false);
    assert!(said.contains("the hole is too narrow for a peg"), "{said}");
    let (pegs, cramped) = clear_in_hole(&job("1.5 m"));
    assert!(pegs > 0 && cramped == 0);
}
