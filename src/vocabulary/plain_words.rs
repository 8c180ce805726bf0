//! Words that mean themselves: of the language wherever they stand in it, and
//! plain words of the trade. None of them is a slip of the hand for another.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use super::other_words::words_of_the_trade;
use super::{Form, SECTIONS};

/// What people write of a patio that is no word of the language, or hardly one
/// letter away from one: who writes `cutting` does not mean `carting`.
const PLAIN: &str = "
    access account add adhesive again all alone also among and angle any area aside back
    backing band bare basket bath bay bearing become bedding before behind belong bench bend
    bending beside big bin binder binding blended blinding blow board bonded bonding bore
    both bottom bound bracing branch breaking brick bricklaying broken brushing bucket built
    bulging bund buried but buy buying call car carrying carted case casting catch catching
    caulking caused cellar chain change changed channel cheap checking chip choose citing
    clad cladding claim class clause clean clearing cliff close closing coarse coarser coat
    coating code cold colour come compactor concreting convert cope coping core coring
    corner cost course cover crack crate crazy creasing crossing curb curved cut cutting
    daily damp data date dating deep delivered demolition dense depth dip ditch done door
    double down draft drawing drawn dress dressing drifts drilled drilling drive driven
    driving drop dug dust earth ease east edge else end ending enough erecting escape even
    excavating excavation excel expansion facing fail fan far fast fence fencing fetching
    fewest field filler filling filter find finding firing fitted fitting five fix fixing
    flag flight float flood flow flush flushing foam foot forward found four frame free
    freeze front frozen full fully garden gate get giving glass gone good grade graded
    grading grains grate grated grating gravelly great green grinding grooved ground
    grouting grown guide gutter half hall hand handling hard hardwood haul haulage hauling
    haunching header heading heat heating heavy hedge height here hide high hill hoarding
    hoisting hold hole hollow home hot house houses hung impermeable inlet inside inspection
    install iron isolation joined joining joins jointed keep kerbing land landing
    landscaping lap last lasting late later latex lawn lay layout lead leading leaf leaves
    leaving led left leg less level leveling levelling lie life lift lifting light lights
    likely lime line link little load loaded loading local lock locking long looked lose
    lost low lower lumber lying main making mark marked marking mason masses mat match
    matter max may meaning measure measuring melting membrane mending metal middle missed
    mixed mixing moist month more morning move moving mud naming narrow near neat necessary
    needed new next nice night noise none noon nothing now odd old once open ordered out
    outlet outset outside over own paid painting pair pallet panel parapet park parking part
    party pass passing past patch patching path paver paving pay pea peg pegging pencil
    piece pier pile piling pin pipe pipework piping pit pitch place placing plain plan plane
    plank planned planning plant planting plaster plastering plate play plinth plot plumbing
    plus pocket point pointing pole pond pool pop porch position post pot powder power press
    primer priming printed pumping put putty quick rack rail rain rainy raised raising
    raking ramming ramp ramped range reach read rear reason rebate red refill regular
    removal removing rendering rent repair repairing replacing rest restoring retaining
    reveal ridge right ring rinsing rise rising road rolling roof roofing room root roots
    rough round row rubbing rubble run running safe said sand sandy saw sawcutting sawing
    say scaffold scaffolding scrape scraping screed screeding screening screw seal sealant
    seat seating second seeding sell send separate set sett setting settling several severe
    shade shallow shape share shared sheet sheeting shelf shell shelter shifting shingle
    shop shoring short should shoveling shovelling shower shrinking shrub shuttering side
    siding sieving silent sill silt silty single site siting six size skip slab slack slate
    slating slight sliver slope sloped slot slow small smooth soaking soft softwood sold
    solid sort sorting sources spacing spade spare spell spiking splash split spoil spraying
    spread spreading spring square stacking stain staining stair stairs stakes staking stand
    standing start state steel steep step stepping stiff stock stone stones stop stopping
    store storing straight stream street stretch strike string strip strong struck suction
    surface surfacing surround survey surveying sweep sweeping swell table taken taking tall
    tamping tank tanked tanking tape taping tarp tarring team temporary terrace test testing
    than them they thick thin thing third thread three tidying tie tied tight tile tiling
    timber tinted tip tipping toe told tonnes too top topping topsoil total tough town
    traced tracing trade trailer training transport trapped treated tree trench trimming
    trip trowel troweling trowelling truck trucking true turf turfing turning twin two under
    unload unloading upper use used utility valley vapour verge very vibrating wacking waist
    waiting walk walked walking wall walling warm warning was wash washed washing waste
    wasted water watering wattle way wearing weather wedge weed weeding weekly weep weigh
    weighed weight welding well went west wheel wheeling when wide width will wind window
    winter wire wood word work worker working worth yard
";

static KNOWN: LazyLock<BTreeSet<&'static str>> = LazyLock::new(|| {
    let mut known: BTreeSet<&str> = PLAIN.split_whitespace().collect();
    for kind in SECTIONS {
        known.insert(kind.word);
        let headings = kind.clauses.iter().map(|clause| clause.parsed());
        known.extend(headings.flat_map(Form::words));
        for key in kind.keys {
            known.insert(key.word);
            known.extend(key.parsed().words());
            let clauses = key.clauses.iter().map(|clause| clause.parsed());
            known.extend(clauses.flat_map(Form::words));
        }
    }
    known.extend(words_of_the_trade());
    known
});

/// Whether a word, in lower case, is one of the language or a plain word, or
/// several of one.
pub fn is_plain(word: &str) -> bool {
    let one = word.strip_suffix('s');
    KNOWN.contains(word) || one.is_some_and(|one| KNOWN.contains(one))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_words_are_known_and_slips_are_not() {
        for word in [
            "cutting", "bedding", "soldier", "takes", "drains", "courses",
        ] {
            assert!(is_plain(word), "{word}");
        }
        for word in ["crating", "laing", "wter", "soliders", "form"] {
            assert!(!is_plain(word), "{word}");
        }
    }
}
