//! What pipes, channels and soakaways come to, held to what NumPy makes of
//! the same by other ways.

use drylay::quantities::hydraulics::{Chamber, size};
use drylay::quantities::hydraulics::{Channel, Method, Pipe, Regime, Storm};
use serde_json::{Value, json};

use crate::outside::checked_by;
use crate::random::{Random, cases};

#[test]
fn hydraulics_agree_with_numpy() {
    let mut random = Random::new("hydraulics");
    let mut made = Vec::new();
    for round in 0..cases(60) {
        made.push(pipe(&mut random));
        made.push(channel(&mut random, round % 3 == 0));
        made.push(soakaway(&mut random));
    }
    checked_by("hydraulics_check.py", "hydraulics", &made);
}

fn pipe(random: &mut Random) -> Value {
    let own = Pipe {
        bore_m: random.between(0.05, 0.3),
        n: random.between(0.009, 0.025),
        slope: random.between(0.002, 0.05),
    };
    let depth = own.bore_m * random.between(0.05, 0.98);
    json!({
        "kind": "pipe", "bore": own.bore_m, "n": own.n, "slope": own.slope, "depth": depth,
        "found": {"full": own.full(), "part_full": own.part_full(depth)},
    })
}

/// A channel, much flatter than critical or much steeper.
fn channel(random: &mut Random, is_steep: bool) -> Value {
    let head_m = random.between(0.05, 0.2);
    let own = Channel {
        length_m: random.between(2.0, 20.0),
        width_m: random.between(0.08, 0.3),
        head_m,
        outlet_m: head_m + random.between(0.0, 0.05),
        slope: match is_steep {
            true => random.between(0.12, 0.3),
            false => random.between(0.0, 0.004),
        },
        n: random.between(0.01, 0.015),
    };
    let carried = own.carries().expect("a channel");
    json!({
        "kind": "channel", "length": own.length_m, "width": own.width_m, "head": own.head_m,
        "outlet": own.outlet_m, "slope": own.slope, "n": own.n,
        "found": {"flow": carried.flow, "steep": carried.regime == Regime::Steep},
    })
}

fn soakaway(random: &mut Random) -> Value {
    let (length, width) = (random.between(0.5, 4.0), random.between(0.5, 3.0));
    let depth = random.between(0.4, 2.0);
    let chamber = Chamber::rectangular(length, width, depth, random.between(0.3, 0.97));
    let (infiltration, weighted) = (
        10f64.powf(random.between(-6.0, -3.5)),
        random.between(5.0, 300.0),
    );
    let mut storms = Vec::new();
    let mut storm = Storm {
        depth_m: random.between(0.004, 0.012),
        duration_s: 300.0,
    };
    for _ in 0..random.below(8) + 1 {
        storms.push(storm);
        storm.depth_m *= random.between(1.05, 1.5);
        storm.duration_s *= random.between(1.5, 3.0);
    }
    let method = *random.pick(&[Method::Sides, Method::SidesAndBase, Method::Base]);
    let sized = size(&chamber, method, weighted, &storms, infiltration).expect("a size");
    let storms: Vec<[f64; 2]> = storms
        .iter()
        .map(|own| [own.depth_m, own.duration_s])
        .collect();
    json!({
        "kind": "soakaway", "length": length, "width": width, "depth": depth,
        "voids": chamber.voids, "method": format!("{method:?}"), "weighted": weighted,
        "storms": storms, "infiltration": infiltration,
        "found": {
            "need": sized.need_m3, "open": sized.is_open,
            "empties_need": sized.empties_need_s, "empties_built": sized.empties_built_s,
        },
    })
}
