//! How rough what water runs in is: Manning's n by what it is made of.

use crate::sources::Source;

/// Manning's n, and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Roughness {
    /// Manning's n, in s/m^(1/3).
    pub n: f64,
    /// Where it comes from.
    pub source: &'static Source,
}

/// What a pipe or a channel is made of, as water feels it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bore {
    /// Plastic pipe, smooth inside.
    Plastic,
    /// Plastic pipe that is corrugated inside: coiled drain.
    CorrugatedPlastic,
    /// Clay pipe.
    Clay,
    /// Concrete pipe.
    Concrete,
    /// Corrugated metal pipe.
    CorrugatedMetal,
    /// A channel body of polymer concrete.
    PolymerChannel,
    /// A channel body of concrete, or one cast and floated on site.
    ConcreteChannel,
    /// A channel body of plastic or glass fibre.
    PlasticChannel,
    /// A channel of brickwork lined with cement mortar.
    BrickChannel,
}

const CHOW: &str = "Chow, Open-Channel Hydraulics (1959), as FishXing 3.0 tabulates it";

static PLASTIC: Source = Source::read(
    "tables of n by two civil engineering firms",
    "smooth PVC pipe, 0.009 to 0.011, agencies prescribing 0.011",
);
static CORRUGATED_PLASTIC: Source = Source::read(
    "a table of n by a civil engineering firm",
    "plastic pipe corrugated inside, 0.018 to 0.025; the upper figure",
);
static CLAY: Source = Source::read(CHOW, "clay drainage tile, normal");
static CONCRETE: Source = Source::read(CHOW, "concrete culvert with bends and some debris, normal");
static CORRUGATED_METAL: Source = Source::read(CHOW, "corrugated metal storm drain, normal");
static CONCRETE_CHANNEL: Source = Source::read(
    "a US channel drain maker's page on hydraulics",
    "concrete channel bodies",
);
static BRICK: Source = Source::read(CHOW, "brickwork lined with cement mortar, normal");

impl Bore {
    /// Manning's n of it, on the cautious side where sources differ.
    pub fn roughness(self) -> Roughness {
        let (n, source) = match self {
            Bore::Plastic => (0.011, &PLASTIC),
            Bore::CorrugatedPlastic => (0.025, &CORRUGATED_PLASTIC),
            Bore::Clay => (0.013, &CLAY),
            Bore::Concrete => (0.013, &CONCRETE),
            Bore::CorrugatedMetal => (0.024, &CORRUGATED_METAL),
            // Makers print 0.010 and 0.009; grit lies in every channel.
            Bore::PolymerChannel | Bore::PlasticChannel => (0.011, &Source::COMMON_PRACTICE),
            Bore::ConcreteChannel => (0.013, &CONCRETE_CHANNEL),
            Bore::BrickChannel => (0.015, &BRICK),
        };
        Roughness { n, source }
    }
}
