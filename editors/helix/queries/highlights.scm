; Made from src/vocabulary; DRYLAY_REFRESH=1 cargo test makes it again.

((kind) @keyword
  (#any-of? @keyword "accept" "budget" "build" "drain" "hire" "job" "let" "material" "measured"
    "mix" "setting-out" "shape" "site" "standard" "steps" "surface" "use" "work"))

(heading
  (kind) @keyword
  .
  (phrase . (word) @type)
  (#any-of? @keyword "build" "drain" "hire" "let" "material" "mix" "shape" "steps" "surface"))

(entry
  (key) @variable.other.member
  .
  (phrase . (word) @variable)
  (#any-of? @variable.other.member "edge" "meets"))

(entry
  (key) @variable.other.member
  .
  (phrase . (word) @type)
  (#any-of? @variable.other.member "add" "base" "bed" "bond" "border" "build" "channel" "core"
    "cut" "fabric" "filled" "inset" "like" "membrane" "mesh" "of" "order" "outset" "paving"
    "pipe" "riser" "shape" "slab" "slurry" "subbase" "surfacing" "tread" "wrapped"))

(entry
  (key) @variable.other.member
  .
  (phrase . (word) @constant.builtin)
  (#any-of? @variable.other.member "accept" "ease" "firm" "kind" "limit" "off" "raise"))

((word) @keyword.storage.modifier
  (#any-of? @keyword.storage.modifier "about" "above" "accessible" "across" "after" "all" "along"
    "and" "angle" "at" "away" "base" "bearing" "because" "before" "below" "between" "beyond"
    "bore" "break" "by" "centre" "centres" "chamfer" "clear" "climbing" "compacted" "corner"
    "corners" "counted" "courses" "covered" "crew" "cross" "datum" "deep" "depth" "door" "down"
    "edge" "every" "except" "existing" "exit" "expansive" "falling" "filled" "firm" "flat"
    "floor" "flush" "foot" "for" "free" "from" "front" "ground" "haunched" "height" "in" "inward"
    "joint" "jointed" "joints" "laid" "lap" "least" "left" "lifts" "load" "located" "long"
    "loose" "makes" "mitred" "named" "nosing" "of" "offset" "on" "over" "overnight" "per"
    "pieces" "place" "radius" "raised" "region" "right" "round" "runoff" "seating" "side" "sides"
    "slides" "soft" "soldier" "steps" "stones" "stretcher" "swings" "the" "then" "through"
    "tilled" "to" "top" "toward" "turned" "turned-up" "turning" "units" "until" "voids" "waste"
    "wet" "wide" "with"))

((word) @constant.builtin
  (#any-of? @constant.builtin "EXP" "F0" "F1" "F2" "FP0" "FP100" "GP" "M" "MW" "MX" "N" "NW" "NX"
    "O" "PRO" "S" "SW" "SX" "above" "advisory" "apiece" "ashlar" "asphalt" "au" "backfilling"
    "bagged-concrete" "bagged-mortar" "base" "basket-weave" "bed" "bedding-sand" "below" "bond"
    "bond-coat" "both" "building" "carting" "cement" "clay" "clay-paver" "cleaning" "compacted"
    "compacting" "concrete" "concrete-flag" "concrete-paver" "courses" "crack-membrane" "crate"
    "curing" "dense-aggregate" "dig" "digging" "disposal" "drain-channel" "draining" "drive"
    "dry" "dry-laying" "each" "east" "edging" "error" "everything" "fabric" "facing" "fill"
    "finish" "fluid" "foot" "forming" "framed" "friday" "general" "gravel" "gully" "heavy-paving"
    "herringbone" "hire" "hydraulic-lime" "imperial" "in" "inner" "irregular" "items" "joint"
    "joint-filler" "joint-sand" "jointing" "jointing-compound" "labour" "landing" "laying" "left"
    "lime" "lining" "loam" "locating" "loose" "mason-sand" "masonry" "masonry-cement"
    "masonry-veneer" "materials" "medium-bed-mortar" "membrane" "mesh" "metric" "monday"
    "natural-stone" "north" "one" "open-aggregate" "out" "outer" "paving" "peat" "pipe" "plastic"
    "polymeric-sand" "porcelain" "pouring" "ramp" "right" "rings" "rock" "rounded-gravel"
    "running-bond" "sand" "saturday" "sealing" "sett" "silt" "slab" "slurry" "soil" "south"
    "stack-bond" "stiff" "stone-dust" "street" "stripping" "subbase" "sunday" "surfacing"
    "thursday" "together" "tuesday" "uk" "us" "volume" "warning" "wednesday" "weed-fabric"
    "weight" "west"))

(key) @variable.other.member

(comment) @comment
(text) @string
[(number) (ratio) (money) (rate) (date)] @constant.numeric
(function) @function
(owner) @type
(edge) @variable
[(operator) (minus) (by)] @operator
"," @punctuation.delimiter
["(" ")"] @punctuation.bracket
