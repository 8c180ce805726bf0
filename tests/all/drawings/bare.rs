//! Drawings without frame and legend, as pages of words hold them.

use drylay::drawing::{Choice, figures, plan};
use rayon::prelude::*;

use super::{faults_within, texts};
use crate::folder::Folder;

#[test]
fn what_stands_bare_on_a_page_has_no_label_on_another_and_keeps_its_room() {
    let specs = Folder::of_specs();
    let reported: Vec<String> = specs
        .paths()
        .par_iter()
        .flat_map(|path| {
            let analysis = specs.analysis(path);
            let room = (172.0, 132.0);
            let choice = Choice {
                room: Some(room),
                is_alone: true,
                ..Choice::default()
            };
            let plan = plan(&analysis, "", &choice).expect("some scale fits");
            let card = Choice {
                room: Some((172.0, 84.0)),
                is_outline: true,
                shows_pegs: true,
                ..choice.clone()
            };
            let card = drylay::drawing::plan(&analysis, "", &card).expect("some scale fits");
            let mut drawn = figures(&analysis, &[(150.0, 150.0)]);
            drawn.extend(figures(&analysis, &[(170.0, 126.0)]));
            drawn.extend([plan, card]);
            let of_each = drawn.iter().flat_map(|drawing| {
                let mut reported = faults_within(1.0, &analysis, drawing);
                let (wide, high) = drawing.size;
                // The scale bar and the white come under what has the room.
                if wide > room.0 + 12.0 || high > 165.0 {
                    reported.push(format!("{wide:.0} by {high:.0} is too large"));
                }
                // Nothing of a sheet is left.
                if texts(drawing).any(|(line, _)| line.setting.words() == "Legend") {
                    reported.push("it has a legend".to_owned());
                }
                reported
            });
            let named = of_each.map(|fault| format!("{path}: {fault}"));
            named.collect::<Vec<String>>()
        })
        .collect();
    assert!(reported.is_empty(), "{}", reported.join("\n"));
}
