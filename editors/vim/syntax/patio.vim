" Colours of patio specifications.
" Made from src/vocabulary; DRYLAY_REFRESH=1 cargo test makes it again.

if exists("b:current_syntax")
  finish
endif

syntax case ignore
syntax iskeyword @,48-57,_,-,128-255
syntax sync minlines=1

syntax match patioWord "[-_0-9]\@!\k\+"
syntax match patioJoining "[-_0-9]\@!\<\%(accessible\|compacted\|expansive\|overnight\|stretcher\|turned-up\|climbing\|existing\|haunched\|bearing\|because\|between\|centres\|chamfer\|corners\|counted\|courses\|covered\|falling\|jointed\|located\|seating\|soldier\|through\|turning\|across\|before\|beyond\|centre\|corner\|except\|filled\|ground\|height\|inward\|joints\|mitred\|nosing\|offset\|pieces\|radius\|raised\|region\|runoff\|slides\|stones\|swings\|tilled\|toward\|turned\|about\|above\|after\|along\|angle\|below\|break\|clear\|cross\|datum\|depth\|every\|floor\|flush\|front\|joint\|least\|lifts\|loose\|makes\|named\|place\|right\|round\|sides\|steps\|units\|until\|voids\|waste\|away\|base\|bore\|crew\|deep\|door\|down\|edge\|exit\|firm\|flat\|foot\|free\|from\|laid\|left\|load\|long\|over\|side\|soft\|then\|wide\|with\|all\|and\|for\|lap\|per\|the\|top\|wet\|at\|by\|in\|of\|on\|to\|per\|over\)\>[.(]\@!"
syntax match patioChoice "[-_0-9]\@!\<\%(jointing-compound\|medium-bed-mortar\|bagged-concrete\|dense-aggregate\|concrete-paver\|crack-membrane\|hydraulic-lime\|masonry-cement\|masonry-veneer\|open-aggregate\|polymeric-sand\|rounded-gravel\|bagged-mortar\|concrete-flag\|drain-channel\|natural-stone\|basket-weave\|bedding-sand\|heavy-paving\|joint-filler\|running-bond\|backfilling\|herringbone\|weed-fabric\|clay-paver\|compacting\|dry-laying\|everything\|joint-sand\|mason-sand\|stack-bond\|stone-dust\|bond-coat\|compacted\|irregular\|materials\|porcelain\|stripping\|surfacing\|wednesday\|advisory\|building\|cleaning\|concrete\|disposal\|draining\|imperial\|jointing\|locating\|membrane\|saturday\|thursday\|together\|asphalt\|carting\|courses\|digging\|forming\|general\|landing\|masonry\|plastic\|pouring\|sealing\|subbase\|tuesday\|warning\|apiece\|ashlar\|cement\|curing\|edging\|fabric\|facing\|finish\|framed\|friday\|gravel\|labour\|laying\|lining\|metric\|monday\|paving\|slurry\|street\|sunday\|volume\|weight\|FP100\|above\|below\|crate\|drive\|error\|fluid\|gully\|inner\|items\|joint\|loose\|north\|outer\|right\|rings\|south\|stiff\|base\|bond\|both\|clay\|each\|east\|fill\|foot\|hire\|left\|lime\|loam\|mesh\|peat\|pipe\|ramp\|rock\|sand\|sett\|silt\|slab\|soil\|west\|EXP\|FP0\|PRO\|bed\|dig\|dry\|one\|out\|F0\|F1\|F2\|GP\|MW\|MX\|NW\|NX\|SW\|SX\|au\|in\|uk\|us\|M\|N\|O\|S\)\>[.(]\@!"
syntax match patioEdge "\%(\k\)\@1<=\.[-_0-9]\@!\k\+"
syntax match patioFunction "\<\%(perimeter\|round-up\|length\|level\|area\|max\|min\)(\@="
syntax match patioKey "^\s\+\zs\%(particle-density\|isolation-joint\|movement-joints\|datum-reading\|below-string\|infiltration\|consistency\|contingency\|damp-course\|prepared-by\|temperature\|absorption\|durability\|foundation\|weep-holes\|permeable\|rain-days\|rectangle\|reference\|surfacing\|cladding\|currency\|delivery\|disposal\|existing\|handrail\|membrane\|overflow\|pot-life\|services\|soakaway\|strength\|bearing\|bulking\|channel\|density\|minimum\|polygon\|reading\|subbase\|wrapped\|accept\|access\|bedded\|border\|called\|circle\|covers\|edging\|fabric\|filled\|ground\|invert\|labour\|levels\|margin\|markup\|outset\|paving\|region\|risers\|runoff\|slurry\|string\|trench\|batch\|board\|build\|class\|clear\|close\|curve\|datum\|floor\|frost\|going\|guard\|gully\|inset\|joint\|level\|limit\|meets\|north\|order\|parts\|price\|quote\|raise\|riser\|shape\|sheet\|south\|start\|storm\|swell\|takes\|tread\|units\|vents\|voids\|walls\|waste\|water\|weeps\|width\|base\|bond\|core\|crew\|date\|door\|ease\|east\|edge\|fall\|firm\|from\|item\|kept\|kind\|laid\|like\|mass\|mesh\|note\|pegs\|pipe\|rate\|roll\|slab\|soil\|sold\|task\|tree\|type\|unit\|wait\|west\|add\|bed\|cut\|day\|for\|off\|tax\|at\|by\|of\|on\|to\)\>"
syntax match patioSection "^\%(\%ufeff\)\?\%(setting-out\|material\|measured\|standard\|surface\|accept\|budget\|build\|drain\|shape\|steps\|hire\|site\|work\|job\|let\|mix\|use\)\>" nextgroup=patioName skipwhite
syntax match patioName "[-_0-9]\@!\k\+" contained
syntax match patioOperator "[-+*/×:=–−]"
syntax match patioUnit "\%(''\|’’\|['’′″”%\"]\|°\s*[CF]\?\|\s*\<\%(AUD\|CAD\|EUR\|GBP\|NZD\|USD\)\>\|\s*\<\%(inches\|tonnes\|cu\s\+ft\|cu\s\+in\|cu\s\+yd\|hours\|sq\s\+ft\|sq\s\+in\|sq\s\+yd\|tonne\|weeks\|cu\s\+m\|days\|feet\|foot\|ft²\|ft³\|hour\|inch\|sq\s\+m\|sqft\|tons\|week\|yd²\|yd³\|MPa\|day\|deg\|ft2\|ft3\|gal\|lbs\|min\|m²\|m³\|pcf\|psi\|sqm\|ton\|yd2\|yd3\|cm\|cy\|ft\|in\|kg\|lb\|m2\|m3\|mm\|sf\|yd\|L\|g\|h\|m\|t\)\>(\@!\)" contained
syntax match patioRate "\%(/\|\<per\>\)\s*\%(inches\|tonnes\|cu\s\+ft\|cu\s\+in\|cu\s\+yd\|hours\|sq\s\+ft\|sq\s\+in\|sq\s\+yd\|tonne\|weeks\|cu\s\+m\|days\|feet\|foot\|ft²\|ft³\|hour\|inch\|sq\s\+m\|sqft\|tons\|week\|yd²\|yd³\|MPa\|day\|deg\|ft2\|ft3\|gal\|lbs\|min\|m²\|m³\|pcf\|psi\|sqm\|ton\|yd2\|yd3\|cm\|cy\|ft\|in\|kg\|lb\|m2\|m3\|mm\|sf\|yd\|L\|g\|h\|m\|t\)\>"
syntax match patioNumber "\%(\d\{1,3}\%(,\d\{3}\)\+\d\@!\%(\.\d\+\)\?\|\d\+\/\d\+\|\d\+[ -]\d\+\/\d\+\|\d\+\.\d\+\|\.\d\+\|\d\+\s*[½¼¾⅛⅜⅝⅞⅓⅔]\|[½¼¾⅛⅜⅝⅞⅓⅔]\|\d\+\)\%(:\%(\d\{1,3}\%(,\d\{3}\)\+\d\@!\%(\.\d\+\)\?\|\d\+\/\d\+\|\d\+[ -]\d\+\/\d\+\|\d\+\.\d\+\|\.\d\+\|\d\+\s*[½¼¾⅛⅜⅝⅞⅓⅔]\|[½¼¾⅛⅜⅝⅞⅓⅔]\|\d\+\)\)*" nextgroup=patioUnit skipwhite
syntax match patioMoney "[$£€]\s*\%(\d\{1,3}\%(,\d\{3}\)\+\d\@!\%(\.\d\+\)\?\|\d\+\/\d\+\|\d\+[ -]\d\+\/\d\+\|\d\+\.\d\+\|\.\d\+\|\d\+\s*[½¼¾⅛⅜⅝⅞⅓⅔]\|[½¼¾⅛⅜⅝⅞⅓⅔]\|\d\+\)"
syntax match patioDate "\d\{4}-\d\d-\d\d[-0-9]\@!"
syntax region patioText start=+"+ start=+“+ skip=+\\["”\\]+ end=+["”]+ end=+$+ oneline contains=@Spell
syntax match patioComment "#.*$" contains=@Spell

highlight default link patioSection Keyword
highlight default link patioName Type
highlight default link patioKey Identifier
highlight default link patioJoining Statement
highlight default link patioChoice Constant
highlight default link patioEdge Special
highlight default link patioFunction Function
highlight default link patioNumber Number
highlight default link patioMoney Number
highlight default link patioDate Number
highlight default link patioUnit Number
highlight default link patioRate Number
highlight default link patioOperator Operator
highlight default link patioText String
highlight default link patioComment Comment

let b:current_syntax = "patio"
