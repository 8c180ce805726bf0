;;; emacs.el --- A real Emacs on a spec of ours  -*- lexical-binding: t; -*-

;; Emacs with the mode that a user copies:
;;   emacs -Q --batch -L editors/emacs -l tests/editors/emacs.el SPEC
;; SPEC is changed and not saved.  Ends with status 0 if all of it came out,
;; and says what did not.

(require 'cl-lib)
(require 'patio-mode)
(require 'flymake)

(defvar failed 0)

(defun check (what holds &optional found)
  (unless holds (setq failed (1+ failed)))
  (princ (format "%s %s%s\n" (if holds "ok     " "FAILED ") what
                 (if holds "" (format ", but found: %S" found)))))

(defun await (find)
  "What FIND finds, once it finds something."
  (let ((end (+ (float-time) 30)) found)
    (while (not (or (setq found (funcall find)) (> (float-time) end)))
      (accept-process-output nil 0.05))
    found))

(defun at (start &optional word)
  "Goes to the line that begins with START, and in it to WORD."
  (goto-char (point-min))
  (re-search-forward (concat "^" (regexp-quote start)))
  (goto-char (match-beginning 0))
  (when word (search-forward word) (goto-char (match-beginning 0)))
  (point))

(defun line () (buffer-substring-no-properties (line-beginning-position) (line-end-position)))

(defun finding (rule)
  (cl-find rule (flymake-diagnostics) :test (lambda (rule found) (string-search rule (flymake-diagnostic-text found)))))

(defun drawn ()
  "What is drawn behind the text of this line."
  (mapconcat (lambda (overlay)
               (if (overlay-get overlay 'eglot--inlay-hint)
                   (substring-no-properties (or (overlay-get overlay 'after-string) (overlay-get overlay 'before-string) ""))
                 ""))
             (overlays-in (line-beginning-position) (1+ (line-end-position))) ""))

(defun hints-of (start text)
  (at start)
  (await (lambda ()
           ;; Without a window nothing asks for the hints of what is seen.
           (eglot--update-hints-1 (point-min) (point-max))
           (accept-process-output nil 0.2)
           (string-search text (drawn)))))

(defun colours ()
  (font-lock-ensure)
  (pcase-dolist (`(,start ,word ,face)
                 '(("# The yard" "yard" font-lock-comment-face)
                   ("job" "job" font-lock-keyword-face)
                   ("job" "Fennel" font-lock-string-face)
                   ("  reference" "reference" font-lock-variable-name-face)
                   ("shape yard" "yard" font-lock-type-face)
                   ("  rectangle     24'" "24'" font-lock-constant-face)
                   ("  rectangle     24'" "at" font-lock-builtin-face)
                   ("  laid" "herringbone" font-lock-constant-face)
                   ("  laid" "8 in" font-lock-constant-face)
                   ("  paving" "2 3/8 in" font-lock-constant-face)
                   ("  ground" "9 in" font-lock-constant-face)
                   ("  access" "# the side" font-lock-comment-delimiter-face)
                   ("  called" "4 by 8" font-lock-string-face)))
    (at start word)
    (let ((found (get-text-property (point) 'face)))
      (check (format "`%s' has the colour of its kind" word) (memq face (ensure-list found)) found))))

(defun run ()
  (check "a spec is in its mode" (eq major-mode 'patio-mode) major-mode)
  (colours)
  ;; What `eglot-ensure' does once a command has ended, of which a batch has none.
  (apply #'eglot (eglot--guess-contact))
  (check "the server attaches" (await #'eglot-managed-p))

  (flymake-start)
  (at "  fall")
  (check "a flat fall is found" (await (lambda () (finding "too flat: 0.5 %"))) (flymake-diagnostics))
  (check "and marked in its line"
         (cl-some (lambda (overlay) (overlay-get overlay 'flymake-diagnostic))
                  (overlays-in (at "  fall") (line-end-position))))

  (let (shown)
    (at "  base" "base")
    (eglot-hover-eldoc-function (lambda (text &rest _) (setq shown text)))
    (await (lambda () shown))
    (check "a hover shows the help" (string-search "The compacted base" (or shown "")) shown)
    (check "a hover shows the working" (string-search "volume in place" (or shown "")) shown))

  (eglot-inlay-hints-mode 1)
  (check "a tonnage is drawn" (hints-of "  base" "12.9 tons") (drawn))
  (check "a drop is drawn" (hints-of "  fall" "15/16") (drawn))

  (at "  fall" "1/2")
  (let* ((offered (eglot-code-actions (point) (point) nil nil))
         (fix (cl-find-if (lambda (action) (string-search "Make the fall" (plist-get action :title))) offered)))
    (check "a fix is offered" fix offered)
    (eglot-execute (eglot--current-server-or-lose) fix)
    (check "its fix mends it" (await (lambda () (at "  fall") (not (string-search "1/2 %" (line))))) (line)))
  ;; A batch is never idle, which is when changes are sent by themselves.
  (eglot--signal-textDocument/didChange)
  (check "and its finding goes" (await (lambda () (not (finding "too flat: 0.5 %")))) (flymake-diagnostics))

  (eglot-format-buffer)
  (at "  fall")
  (check "the spec is laid out" (string-match-p "^  fall \\{10\\}1:" (line)) (line))

  (at "let" "margin")
  (eglot-rename "overhang")
  (check "the let has its new name" (and (at "let") (string-search "let overhang" (line))) (line))
  (at "  base")
  (check "and so has its use" (string-search "beyond overhang" (line)) (line))
  (search-forward "beyond ")
  (let ((found (xref-backend-definitions 'eglot (xref-backend-identifier-at-point 'eglot))))
    (check "the definition of a let is known"
           (and found (= (xref-location-line (xref-item-location (car found))) (line-number-at-pos (at "let"))))
           found))

  (at "  fall")
  (end-of-line)
  (insert "\n  iso")
  (let* ((table (eglot-completion-at-point)) (all (all-completions "iso" (nth 2 table))))
    (check "a key is completed" (member "isolation-joint" all) all))
  (check "the outline lists the sections"
         (string-search "sand-set" (format "%S" (funcall imenu-create-index-function)))))

(let ((spec (pop command-line-args-left)))
  (setq eglot-sync-connect 30)
  (with-current-buffer (find-file-noselect spec)
    (set-window-buffer (selected-window) (current-buffer))
    (at "  fall" "2 %")
    (replace-match "1/2 %" t t)
    (condition-case fault (run)
      (error (setq failed (1+ failed)) (princ (format "FAILED  %S\n" fault))))
    (set-buffer-modified-p nil)
    (when (eglot-current-server) (eglot-shutdown (eglot-current-server))))
  (kill-emacs (if (= failed 0) 0 1)))
;;; emacs.el ends here
