# Patio specifications in Kakoune: the file type and its colours.
#
# Put this file into ~/.config/kak/autoload; kakrc beside it starts the
# language server.

hook global BufCreate .*[.]patio %{
    set-option buffer filetype patio
}

hook global WinSetOption filetype=patio %{
    require-module patio
    set-option window static_words %opt{patio_words}
    set-option window comment_line '#'
    set-option window indentwidth 2
}

hook -group patio-highlight global WinSetOption filetype=patio %{
    add-highlighter window/patio ref patio
    hook -once -always window WinSetOption filetype=.* %{ remove-highlighter window/patio }
}

provide-module patio %§

# From here on made from src/vocabulary; DRYLAY_REFRESH=1 cargo test makes it again.
declare-option -hidden regex patio_sections '(?:setting-out|material|measured|standard|surface|accept|budget|build|drain|shape|steps|hire|site|work|job|let|mix|use)'
declare-option -hidden regex patio_keys '(?:particle-density|isolation-joint|movement-joints|datum-reading|below-string|infiltration|consistency|contingency|damp-course|prepared-by|temperature|absorption|durability|foundation|weep-holes|permeable|rain-days|rectangle|reference|surfacing|cladding|currency|delivery|disposal|existing|handrail|membrane|overflow|pot-life|services|soakaway|strength|bearing|bulking|channel|density|minimum|polygon|reading|subbase|wrapped|accept|access|bedded|border|called|circle|covers|edging|fabric|filled|ground|invert|labour|levels|margin|markup|outset|paving|region|risers|runoff|slurry|string|trench|batch|board|build|class|clear|close|curve|datum|floor|frost|going|guard|gully|inset|joint|level|limit|meets|north|order|parts|price|quote|raise|riser|shape|sheet|south|start|storm|swell|takes|tread|units|vents|voids|walls|waste|water|weeps|width|base|bond|core|crew|date|door|ease|east|edge|fall|firm|from|item|kept|kind|laid|like|mass|mesh|note|pegs|pipe|rate|roll|slab|soil|sold|task|tree|type|unit|wait|west|add|bed|cut|day|for|off|tax|at|by|of|on|to)'
declare-option -hidden regex patio_joining '(?:accessible|compacted|expansive|overnight|stretcher|turned-up|climbing|existing|haunched|bearing|because|between|centres|chamfer|corners|counted|courses|covered|falling|jointed|located|seating|soldier|through|turning|across|before|beyond|centre|corner|except|filled|ground|height|inward|joints|mitred|nosing|offset|pieces|radius|raised|region|runoff|slides|stones|swings|tilled|toward|turned|about|above|after|along|angle|below|break|clear|cross|datum|depth|every|floor|flush|front|joint|least|lifts|loose|makes|named|place|right|round|sides|steps|units|until|voids|waste|away|base|bore|crew|deep|door|down|edge|exit|firm|flat|foot|free|from|laid|left|load|long|over|side|soft|then|wide|with|all|and|for|lap|per|the|top|wet|at|by|in|of|on|to)'
declare-option -hidden regex patio_choices '(?:jointing-compound|medium-bed-mortar|bagged-concrete|dense-aggregate|concrete-paver|crack-membrane|hydraulic-lime|masonry-cement|masonry-veneer|open-aggregate|polymeric-sand|rounded-gravel|bagged-mortar|concrete-flag|drain-channel|natural-stone|basket-weave|bedding-sand|heavy-paving|joint-filler|running-bond|backfilling|herringbone|weed-fabric|clay-paver|compacting|dry-laying|everything|joint-sand|mason-sand|stack-bond|stone-dust|bond-coat|compacted|irregular|materials|porcelain|stripping|surfacing|wednesday|advisory|building|cleaning|concrete|disposal|draining|imperial|jointing|locating|membrane|saturday|thursday|together|asphalt|carting|courses|digging|forming|general|landing|masonry|plastic|pouring|sealing|subbase|tuesday|warning|apiece|ashlar|cement|curing|edging|fabric|facing|finish|framed|friday|gravel|labour|laying|lining|metric|monday|paving|slurry|street|sunday|volume|weight|FP100|above|below|crate|drive|error|fluid|gully|inner|items|joint|loose|north|outer|right|rings|south|stiff|base|bond|both|clay|each|east|fill|foot|hire|left|lime|loam|mesh|peat|pipe|ramp|rock|sand|sett|silt|slab|soil|west|EXP|FP0|PRO|bed|dig|dry|one|out|F0|F1|F2|GP|MW|MX|NW|NX|SW|SX|au|in|uk|us|M|N|O|S)'
declare-option -hidden regex patio_functions '(?:perimeter|round-up|length|level|area|max|min)'
declare-option -hidden regex patio_currencies '(?:AUD|CAD|EUR|GBP|NZD|USD)'
declare-option -hidden regex patio_units '(?:inches|tonnes|cu\h+ft|cu\h+in|cu\h+yd|hours|sq\h+ft|sq\h+in|sq\h+yd|tonne|weeks|cu\h+m|days|feet|foot|ft²|ft³|hour|inch|sq\h+m|sqft|tons|week|yd²|yd³|MPa|day|deg|ft2|ft3|gal|lbs|min|m²|m³|pcf|psi|sqm|ton|yd2|yd3|cm|cy|ft|in|kg|lb|m2|m3|mm|sf|yd|L|g|h|m|t)'
declare-option -hidden str-list patio_words EXP F0 F1 F2 FP0 FP100 GP M MW MX N NW NX O PRO S SW SX about above absorption accept access accessible across add advisory after all along and angle apiece area ashlar asphalt at au away backfilling bagged-concrete bagged-mortar base basket-weave batch bearing because bed bedded bedding-sand before below below-string between beyond board bond bond-coat border bore both break budget build building bulking by called carting cement centre centres chamfer channel circle cladding class clay clay-paver cleaning clear climbing close compacted compacting concrete concrete-flag concrete-paver consistency contingency core corner corners counted courses covered covers crack-membrane crate crew cross curing currency curve cut damp-course date datum datum-reading day deep delivery dense-aggregate density depth dig digging disposal door down drain drain-channel draining drive dry dry-laying durability each ease east edge edging error every everything except existing exit expansive fabric facing fall falling fill filled finish firm flat floor fluid flush foot for forming foundation framed free friday from front frost general going gravel ground guard gully handrail haunched heavy-paving height herringbone hire hydraulic-lime imperial in infiltration inner inset invert inward irregular isolation-joint item items job joint joint-filler joint-sand jointed jointing jointing-compound joints kept kind labour laid landing lap laying least left length let level levels lifts like lime limit lining load loam located locating long loose makes margin markup mason-sand masonry masonry-cement masonry-veneer mass material materials max measured medium-bed-mortar meets membrane mesh metric min minimum mitred mix monday movement-joints named natural-stone north nosing note of off offset on one open-aggregate order out outer outset over overflow overnight particle-density parts paving peat pegs per perimeter permeable pieces pipe place plastic polygon polymeric-sand porcelain pot-life pouring prepared-by price quote radius rain-days raise raised ramp rate reading rectangle reference region right rings riser risers rock roll round round-up rounded-gravel running-bond runoff sand saturday sealing seating services sett setting-out shape sheet side sides silt site slab slides slurry soakaway soft soil sold soldier south stack-bond standard start steps stiff stone-dust stones storm street strength stretcher string stripping subbase sunday surface surfacing swell swings takes task tax temperature the then through thursday tilled to together top toward tread tree trench tuesday turned turned-up turning type uk unit units until us use vents voids volume wait walls warning waste water wednesday weed-fabric weep-holes weeps weight west wet wide width with work wrapped
# To here made.

add-highlighter shared/patio regions
add-highlighter shared/patio/value default-region group
add-highlighter shared/patio/text region '(?<![0-9½¼¾⅛⅜⅝⅞⅓⅔])["“]' '(?<!\\)(\\\\)*["”]|$' fill string
add-highlighter shared/patio/comment region '#' '$' fill comment

evaluate-commands %sh{
    end='(?![\w-])'
    figure='(?:\d{1,3}(?:,\d{3})+|\d+[ -]\d+/\d+|\d+/\d+|\d*\.?\d+)\h*[½¼¾⅛⅜⅝⅞⅓⅔]?'
    colour() { printf "add-highlighter shared/patio/value/ regex %%{%s} %s\n" "$1" "$2"; }
    colour "(?i)(?<![\\w.-])(?:$kak_opt_patio_joining)$end" 0:operator
    colour "(?i)(?<![\\w.-])(?:$kak_opt_patio_choices)$end" 0:value
    colour "(?i)(?<![\\w-])(?:$kak_opt_patio_functions)(?=\\()" 0:function
    colour '(\w[\w-]*)\.(\w[\w-]*)' '1:type 2:variable'
    colour "(?i)(?<!\\w)(?<!\\w-)(?:\\d{4}-\\d{2}-\\d{2}|[\$£€]?$figure(?::$figure)*(?:['’′\"″”%]|\\h*°[CF]?|\\h*(?:$kak_opt_patio_units|$kak_opt_patio_currencies)$end)?)" 0:value
    colour "(?i)(?:/|\\bper)\\h*$kak_opt_patio_units$end" 0:value
    colour "(?i)^\\h+($kak_opt_patio_keys)$end" 1:attribute
    colour "(?i)^($kak_opt_patio_sections)$end(?:\\h+(\\w[\\w-]*))?" '1:keyword 2:type'
}

§
