;;; patio-mode.el --- Patio specifications  -*- lexical-binding: t; -*-

;; SPDX-License-Identifier: MIT OR Apache-2.0
;; Package-Requires: ((emacs "29.1"))

;;; Commentary:

;; Colours, comments, indentation and the language server of patio
;; specifications, for Emacs 29 or newer.  Put this file into a folder of the
;; load path and `drylay' on the PATH, and say in the init file:
;;
;;   (add-to-list 'load-path "~/.emacs.d/lisp")
;;   (require 'patio-mode)

;;; Code:

(require 'rx)
(require 'eglot)

;; From here on made from src/vocabulary; DRYLAY_REFRESH=1 cargo test makes it again.
(defconst patio--sections
  '("job" "site" "use" "let" "shape" "surface" "steps" "drain" "build"
    "mix" "material" "setting-out" "measured" "work" "hire" "budget"
    "accept" "standard")
  "The words of sections.")

(defconst patio--keys
  '("absorption" "accept" "access" "add" "at" "base" "batch" "bearing"
    "bed" "bedded" "below-string" "board" "bond" "border" "build" "bulking"
    "by" "called" "channel" "circle" "cladding" "class" "clear" "close"
    "consistency" "contingency" "core" "covers" "crew" "currency" "curve"
    "cut" "damp-course" "date" "datum" "datum-reading" "day" "delivery"
    "density" "disposal" "door" "durability" "ease" "east" "edge" "edging"
    "existing" "fabric" "fall" "filled" "firm" "floor" "for" "foundation"
    "from" "frost" "going" "ground" "guard" "gully" "handrail"
    "infiltration" "inset" "invert" "isolation-joint" "item" "joint" "kept"
    "kind" "labour" "laid" "level" "levels" "like" "limit" "margin"
    "markup" "mass" "meets" "membrane" "mesh" "minimum" "movement-joints"
    "north" "note" "of" "off" "on" "order" "outset" "overflow"
    "particle-density" "parts" "paving" "pegs" "permeable" "pipe" "polygon"
    "pot-life" "prepared-by" "price" "quote" "rain-days" "raise" "rate"
    "reading" "rectangle" "reference" "region" "riser" "risers" "roll"
    "runoff" "services" "shape" "sheet" "slab" "slurry" "soakaway" "soil"
    "sold" "south" "start" "storm" "strength" "string" "subbase"
    "surfacing" "swell" "takes" "task" "tax" "temperature" "to" "tread"
    "tree" "trench" "type" "unit" "units" "vents" "voids" "wait" "walls"
    "waste" "water" "weep-holes" "weeps" "west" "width" "wrapped")
  "The keys of entries.")

(defconst patio--joining
  '("about" "above" "accessible" "across" "after" "all" "along" "and"
    "angle" "at" "away" "base" "bearing" "because" "before" "below"
    "between" "beyond" "bore" "break" "by" "centre" "centres" "chamfer"
    "clear" "climbing" "compacted" "corner" "corners" "counted" "courses"
    "covered" "crew" "cross" "datum" "deep" "depth" "door" "down" "edge"
    "every" "except" "existing" "exit" "expansive" "falling" "filled"
    "firm" "flat" "floor" "flush" "foot" "for" "free" "from" "front"
    "ground" "haunched" "height" "in" "inward" "joint" "jointed" "joints"
    "laid" "lap" "least" "left" "lifts" "load" "located" "long" "loose"
    "makes" "mitred" "named" "nosing" "of" "offset" "on" "over" "overnight"
    "per" "pieces" "place" "radius" "raised" "region" "right" "round"
    "runoff" "seating" "side" "sides" "slides" "soft" "soldier" "steps"
    "stones" "stretcher" "swings" "the" "then" "through" "tilled" "to"
    "top" "toward" "turned" "turned-up" "turning" "units" "until" "voids"
    "waste" "wet" "wide" "with" "per" "over")
  "The words that join and begin clauses.")

(defconst patio--choices
  '("EXP" "F0" "F1" "F2" "FP0" "FP100" "GP" "M" "MW" "MX" "N" "NW" "NX" "O"
    "PRO" "S" "SW" "SX" "above" "advisory" "apiece" "ashlar" "asphalt" "au"
    "backfilling" "bagged-concrete" "bagged-mortar" "base" "basket-weave"
    "bed" "bedding-sand" "below" "bond" "bond-coat" "both" "building"
    "carting" "cement" "clay" "clay-paver" "cleaning" "compacted"
    "compacting" "concrete" "concrete-flag" "concrete-paver" "courses"
    "crack-membrane" "crate" "curing" "dense-aggregate" "dig" "digging"
    "disposal" "drain-channel" "draining" "drive" "dry" "dry-laying" "each"
    "east" "edging" "error" "everything" "fabric" "facing" "fill" "finish"
    "fluid" "foot" "forming" "framed" "friday" "general" "gravel" "gully"
    "heavy-paving" "herringbone" "hire" "hydraulic-lime" "imperial" "in"
    "inner" "irregular" "items" "joint" "joint-filler" "joint-sand"
    "jointing" "jointing-compound" "labour" "landing" "laying" "left"
    "lime" "lining" "loam" "locating" "loose" "mason-sand" "masonry"
    "masonry-cement" "masonry-veneer" "materials" "medium-bed-mortar"
    "membrane" "mesh" "metric" "monday" "natural-stone" "north" "one"
    "open-aggregate" "out" "outer" "paving" "peat" "pipe" "plastic"
    "polymeric-sand" "porcelain" "pouring" "ramp" "right" "rings" "rock"
    "rounded-gravel" "running-bond" "sand" "saturday" "sealing" "sett"
    "silt" "slab" "slurry" "soil" "south" "stack-bond" "stiff" "stone-dust"
    "street" "stripping" "subbase" "sunday" "surfacing" "thursday"
    "together" "tuesday" "uk" "us" "volume" "warning" "wednesday"
    "weed-fabric" "weight" "west")
  "The words that values are chosen from.")

(defconst patio--functions
  '("area" "perimeter" "length" "level" "min" "max" "round-up")
  "The functions that expressions call.")

(defconst patio--currencies
  '("AUD" "CAD" "EUR" "GBP" "NZD" "USD")
  "The codes of money.")

(defconst patio--units
  '("inches" "tonnes" "cu ft" "cu in" "cu yd" "hours" "sq ft" "sq in"
    "sq yd" "tonne" "weeks" "cu m" "days" "feet" "foot" "ft²" "ft³"
    "hour" "inch" "sq m" "sqft" "tons" "week" "yd²" "yd³" "MPa" "day"
    "deg" "ft2" "ft3" "gal" "lbs" "min" "m²" "m³" "pcf" "psi" "sqm" "ton"
    "yd2" "yd3" "cm" "cy" "ft" "in" "kg" "lb" "m2" "m3" "mm" "sf" "yd" "L"
    "g" "h" "m" "t")
  "The units, as they may be spelled.")
;; To here made.

(defgroup patio nil
  "Patio specifications."
  :group 'languages)

(defcustom patio-hints
  '(:areas t :layers t :mixes t :falls t :lets t :orders t)
  "The figures that stand at the ends of lines, each kind t or :json-false."
  :type 'plist)

(defun patio--any-of (words)
  "A pattern of any of WORDS, with any blanks where they have one."
  (string-replace " " "[ \t]+" (regexp-opt words)))

(defconst patio--end "\\(?:[^[:word:]_-]\\|$\\)"
  "What follows a word and is no part of it.")

(defconst patio--figure
  (concat "\\(?:[0-9]\\{1,3\\}\\(?:,[0-9]\\{3\\}\\)+\\|[0-9]+[ -][0-9]+/[0-9]+\\|[0-9]+/[0-9]+"
          "\\|[0-9]*\\.?[0-9]+\\)[ ]?[½¼¾⅛⅜⅝⅞⅓⅔]?")
  "A number.")

(defun patio--match-key (limit)
  "Find the next key up to LIMIT; a line that an entry goes on in has none."
  (let ((pattern (concat "^[ \t]+\\(" (regexp-opt patio--keys) "\\)" patio--end)) found)
    (while (and (not found) (re-search-forward pattern limit t))
      (setq found (save-match-data
                    (save-excursion
                      (goto-char (match-beginning 0))
                      (forward-comment (- (point)))
                      (not (eq (char-before) ?,))))))
    found))

(defconst patio-font-lock-keywords
  (let ((name "\\([[:alpha:]][[:alnum:]_-]*\\)"))
    `((,(concat "^\\(" (regexp-opt patio--sections) "\\)" patio--end)
       (1 'font-lock-keyword-face)
       (,(concat "\\=[ \t]*" name "[ \t]*\\(?:$\\|[#=,]\\)")
        (forward-char -1) nil (1 'font-lock-type-face)))
      (patio--match-key (1 'font-lock-variable-name-face))
      (,(concat "\\_<" name "\\(\\.\\)" name)
       (1 'font-lock-type-face) (3 'font-lock-variable-name-face))
      (,(concat "\\_<\\(" (regexp-opt patio--functions) "\\)(") (1 'font-lock-function-name-face))
      (,(concat "\\(?:^\\|\\=\\|[ \t(,=+*/×:]\\)-?\\([0-9]\\{4\\}-[0-9][0-9]-[0-9][0-9]\\|[$£€]?" patio--figure "\\(?::" patio--figure "\\)*"
                "\\(?:['’′\"″”%°]\\|[ \t]*\\(?:" (patio--any-of patio--units) "\\|"
                (regexp-opt patio--currencies) "\\)\\_>\\)?\\)")
       (1 'font-lock-constant-face))
      (,(concat "\\(?:/\\|\\_<per\\)[ \t]*\\(?:" (patio--any-of patio--units) "\\)\\_>")
       (0 'font-lock-constant-face))
      (,(concat "\\_<\\(?:" (regexp-opt patio--joining) "\\)\\_>") (0 'font-lock-builtin-face))
      (,(concat "\\_<\\(?:" (regexp-opt patio--choices) "\\)\\_>") (0 'font-lock-constant-face))))
  "What is coloured in a spec, and how.")

(defvar patio-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?# "<" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?\" "\"" table)
    (modify-syntax-entry ?' "." table)
    (modify-syntax-entry ?_ "_" table)
    (modify-syntax-entry ?- "_" table)
    table)
  "What the characters of a spec are.")

(defconst patio--propertize
  ;; A quote that touches a figure is a mark of inches.
  (syntax-propertize-rules ("[0-9½¼¾⅛⅜⅝⅞⅓⅔]\\(\"\\)" (1 (if (nth 3 (syntax-ppss (match-beginning 1))) nil "."))))
  "What a character is by those before it.")

;;;###autoload
(define-derived-mode patio-mode prog-mode "Patio"
  "A mode for patio specifications."
  (setq-local comment-start "# ")
  (setq-local comment-start-skip "#+[ \t]*")
  (setq-local comment-end "")
  (setq-local indent-tabs-mode nil)
  (setq-local tab-width 2)
  (setq-local indent-line-function #'indent-relative)
  (setq-local syntax-propertize-function patio--propertize)
  (setq-local font-lock-defaults '(patio-font-lock-keywords nil t))
  (setq-local outline-regexp "[[:alpha:]]"))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.patio\\'" . patio-mode))

(defun patio--contact (&rest _)
  "How the server is started."
  (list "drylay" "serve" :initializationOptions (list :hints patio-hints)))

(add-to-list 'eglot-server-programs '(patio-mode . patio--contact))
(add-hook 'patio-mode-hook #'eglot-ensure)

(provide 'patio-mode)
;;; patio-mode.el ends here
