// What hangs on more than the next character. A line's start looks ahead to
// tell where the line ends, and an item's start to tell where each of its
// pieces ends; what was found is kept and handed out piece by piece.
//
// The rules are those of grammar/patio.pest and of src/syntax.

#include "tree_sitter/alloc.h"
#include "tree_sitter/parser.h"
#include "words.h"

#include <stddef.h>
#include <string.h>

enum Token {
  HEADING_START,
  ENTRY_START,
  UNREAD_START,
  UNREAD_TEXT,
  LINE_END,
  GROUP_END,
  GOING_ON,
  NUMBER_START,
  RATIO_START,
  MONEY_START,
  DATE_START,
  RATE_START,
  SMALL_START,
  SHORT_START,
  STRAY_START,
  FIGURE,
  UNIT,
  PART,
  SIGN,
  DATE,
  PER,
  STRAY,
  TIGHT_BY,
  SMALL_WORD,
  SHORT_NAME,
  EDGE_STOP,
  NEVER,
};

// Parentheses may stand so deep in each other.
#define DEEPEST 64
// So many lines on the end of an open parenthesis is looked for.
#define FARTHEST_CLOSE 16
// So far ahead an item is looked at, in characters.
#define FARTHEST 512
#define MOST_PIECES 16

typedef struct {
  uint16_t token;
  // The blanks before it.
  uint16_t gap;
  uint16_t length;
} Piece;

typedef struct {
  // How many line ends lie inside the line from here on.
  uint16_t line_ends;
  uint16_t pieces;
  Piece piece[MOST_PIECES];
} Scanner;

// The rest of a physical line.
typedef struct {
  int32_t at[FARTHEST + 8];
  unsigned length;
} Text;

static bool is_blank(int32_t c) { return c == ' ' || c == '\t' || c == 0xA0 || c == 0x2009 || c == 0x202F; }

static bool is_line_end(int32_t c) { return c == '\n' || c == '\r'; }

static bool is_digit(int32_t c) { return c >= '0' && c <= '9'; }

static bool is_dash(int32_t c) { return c == '-' || c == 0x2013 || c == 0x2212; }

static bool is_vulgar(int32_t c) { return (c >= 0xBC && c <= 0xBE) || (c >= 0x215B && c <= 0x215E) || c == 0x2153 || c == 0x2154; }

static bool is_ascii_letter(int32_t c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

// Letters beyond ASCII: everything that is no sign, by the blocks of signs.
static bool is_letter(int32_t c) {
  if (c < 0x80) return is_ascii_letter(c);
  if (c < 0xC0) return c == 0xAA || c == 0xB5 || c == 0xBA;
  if (c == 0xD7 || c == 0xF7 || (c >= 0x300 && c < 0x370)) return false;
  return c < 0x2000 || (c >= 0x2C00 && c < 0x2E00) || (c >= 0x3040 && c < 0xD800) || (c >= 0x20000 && c < 0x32000);
}

static bool is_bullet(int32_t c) {
  return c == '-' || c == '*' || c == '+' || c == 0x2013 || c == 0x2014 || c == 0x2022 || c == 0xB7;
}

// Where words and odd signs end.
static bool is_stop(int32_t c) {
  return c == 0 || is_blank(c) || is_line_end(c) || c == ',' || c == '#' || c == '(' || c == ')' || c == '"' || c == 0x201C;
}

static int32_t lower(int32_t c) { return c >= 'A' && c <= 'Z' ? c + 32 : c; }

// ---- the pieces of an item; each gives where it ends, or where it starts if
// it is not there ----

static unsigned blanks(const Text *text, unsigned at) {
  while (is_blank(text->at[at])) at++;
  return at;
}

static unsigned digits(const Text *text, unsigned at) {
  while (is_digit(text->at[at])) at++;
  return at;
}

static bool digits_of_a_name(const Text *text, unsigned at) {
  return is_digit(text->at[at]) && text->at[digits(text, at)] != '"';
}

static bool goes_on(const Text *text, unsigned at) {
  int32_t c = text->at[at];
  return is_letter(c) || c == '_' || (c >= 0x300 && c < 0x370) || digits_of_a_name(text, at);
}

static bool name_part(const Text *text, unsigned at) {
  if (goes_on(text, at)) return true;
  if (text->at[at] != '-') return false;
  while (text->at[at] == '-') at++;
  return goes_on(text, at);
}

static bool unit_end(const Text *text, unsigned at) {
  return !name_part(text, at) && text->at[at] != 0xB2 && text->at[at] != 0xB3;
}

// A word of a list, in any case and with any blanks where it has one.
static unsigned word(const Text *text, unsigned at, const wchar_t *word) {
  unsigned start = at;
  for (; *word; word++) {
    if (*word == L' ') {
      unsigned after = blanks(text, at);
      if (after == at) return start;
      at = after;
    } else if (lower(text->at[at]) == (int32_t)*word) {
      at++;
    } else {
      return start;
    }
  }
  return at;
}

// The "in" of "8 in all" is no inch.
static bool in_all(const Text *text, unsigned at) {
  unsigned start = blanks(text, at), end = word(text, start, L"all");
  return start > at && end > start && !name_part(text, end);
}

static unsigned any_word(const Text *text, unsigned at, const wchar_t *const *words) {
  for (; *words; words++) {
    unsigned end = word(text, at, *words);
    if (end == at) continue;
    if (is_digit(text->at[end - 1]) && text->at[end] == '"') continue;
    if (!wcscmp(*words, L"min") && text->at[end] == '(') continue;
    if (!wcscmp(*words, L"in") && in_all(text, end)) continue;
    if (unit_end(text, end)) return end;
  }
  return at;
}

static unsigned below(const Text *text, unsigned at) {
  if (text->at[at] != '/') return at;
  unsigned end = digits(text, at + 1);
  if (end == at + 1) return at;
  int32_t next = text->at[end];
  return (next == '/' || next == '.') && is_digit(text->at[end + 1]) ? at : end;
}

static unsigned decimals(const Text *text, unsigned at) {
  if (text->at[at] != '.') return at;
  unsigned end = digits(text, at + 1);
  return end == at + 1 ? at : end;
}

static unsigned figure(const Text *text, unsigned at) {
  if (is_vulgar(text->at[at])) return at + 1;
  if (text->at[at] == '.') return decimals(text, at);
  unsigned whole = digits(text, at);
  if (whole == at) return at;
  if (text->at[at] != '0' && whole - at <= 3) {
    unsigned end = whole;
    while (text->at[end] == ',' && digits(text, end + 1) == end + 4) end += 4;
    if (end > whole) return decimals(text, end);
  }
  unsigned end = decimals(text, whole);
  if (end > whole) return end;
  end = below(text, whole);
  if (end > whole) return end;
  unsigned after = text->at[whole] == '-' ? whole + 1 : blanks(text, whole);
  if (after > whole) {
    unsigned above = digits(text, after);
    if (above > after && below(text, above) > above) return below(text, above);
  }
  after = blanks(text, whole);
  return is_vulgar(text->at[after]) ? after + 1 : whole;
}

static unsigned part(const Text *text, unsigned at) {
  if (is_vulgar(text->at[at])) return at + 1;
  unsigned whole = digits(text, at);
  if (whole == at) return at;
  unsigned end = decimals(text, whole);
  if (end == whole) end = below(text, whole);
  if (end == whole && is_vulgar(text->at[whole])) end = whole + 1;
  return end;
}

static unsigned foot_mark(const Text *text, unsigned at) {
  int32_t c = text->at[at], next = text->at[at + 1];
  bool is_mark = (c == '\'' && next != '\'') || (c == 0x2019 && next != 0x2019) || c == 0x2032;
  return is_mark ? at + 1 : at;
}

static unsigned two_marks(const Text *text, unsigned at) {
  int32_t c = text->at[at];
  if (c == 0x2033 || c == 0x201D) return at + 1;
  return (c == '\'' || c == 0x2019) && text->at[at + 1] == c ? at + 2 : at;
}

static unsigned inch_mark(const Text *text, unsigned at) {
  return text->at[at] == '"' ? at + 1 : two_marks(text, at);
}

static const wchar_t *const FEET[] = {L"foot", L"feet", L"ft", NULL};
static const wchar_t *const INCHES[] = {L"inches", L"inch", L"in", NULL};
static const wchar_t *const PER_WORD[] = {L"per", NULL};
static const wchar_t *const SMALL_WORDS[] = {L"per", L"over", NULL};
static const wchar_t *const DEGREES[] = {L"\u00b0f", L"\u00b0c", L"deg", NULL};

static unsigned whole_word(const Text *text, unsigned at, const wchar_t *const *words) {
  for (; *words; words++) {
    unsigned end = word(text, at, *words);
    if (end > at && !name_part(text, end)) return end;
  }
  return at;
}

static void add(Scanner *scanner, enum Token token, unsigned gap, unsigned length) {
  if (scanner->pieces == MOST_PIECES) return;
  scanner->piece[scanner->pieces++] = (Piece){(uint16_t)token, (uint16_t)gap, (uint16_t)length};
}

// The inches after feet.
static unsigned inches(Scanner *scanner, const Text *text, unsigned at) {
  unsigned start = is_dash(text->at[at]) ? at + 1 : blanks(text, at);
  unsigned end = figure(text, start);
  if (end == start) return at;
  unsigned mark = inch_mark(text, end), gap = 0;
  if (mark == end) {
    gap = blanks(text, end) - end;
    mark = any_word(text, end + gap, INCHES);
    if (mark == end + gap) return at;
  }
  // A dash between feet and inches belongs to the inches.
  unsigned dash = is_dash(text->at[at]);
  add(scanner, FIGURE, dash ? 0 : start - at, end - start + dash);
  add(scanner, UNIT, gap, mark - end - gap);
  return mark;
}

// A number with what measures it.
static enum Token number(Scanner *scanner, const Text *text) {
  unsigned end = figure(text, 0);
  if (!end) return NEVER;
  add(scanner, FIGURE, 0, end);
  enum Token token = NUMBER_START;
  unsigned at = end, tight = end;
  while (text->at[tight] == ':' && part(text, tight + 1) > tight + 1) tight = part(text, tight + 1);
  if (tight > end && text->at[tight] != '"') {
    while (at < tight) {
      unsigned next = part(text, at + 1);
      add(scanner, PART, 0, next - at);
      at = next;
    }
    token = RATIO_START;
  } else if (foot_mark(text, end) > end) {
    add(scanner, UNIT, 0, 1);
    at = inches(scanner, text, end + 1);
  } else if (inch_mark(text, end) > end) {
    at = inch_mark(text, end);
    add(scanner, UNIT, 0, at - end);
  } else {
    unsigned start = blanks(text, end), feet = any_word(text, start, FEET), mark = feet;
    if (mark == start) mark = any_word(text, start, UNITS);
    if (mark == start && text->at[start] == '%') mark = start + 1;
    if (mark == start) mark = whole_word(text, start, DEGREES);
    if (mark == start && text->at[start] == 0xB0) mark = start + 1;
    if (mark == start) mark = whole_word(text, start, CURRENCIES);
    if (mark > start) {
      add(scanner, UNIT, start - end, mark - start);
      at = feet > start ? inches(scanner, text, mark) : mark;
    }
  }
  int32_t next = text->at[at + 1];
  if (lower(text->at[at]) == 'x' && (is_digit(next) || is_vulgar(next) || (next == '.' && is_digit(text->at[at + 2])))) {
    add(scanner, TIGHT_BY, 0, 1);
  }
  return token;
}

static enum Token date(Scanner *scanner, const Text *text) {
  bool is_date = digits(text, 0) == 4 && text->at[4] == '-' && digits(text, 5) == 7 && text->at[7] == '-' &&
                 is_digit(text->at[8]) && is_digit(text->at[9]);
  if (!is_date || name_part(text, 10) || text->at[10] == '-' || text->at[10] == '"') return NEVER;
  add(scanner, DATE, 0, 10);
  return DATE_START;
}

static enum Token money(Scanner *scanner, const Text *text) {
  int32_t c = text->at[0];
  if (c != '$' && c != 0xA3 && c != 0x20AC) return NEVER;
  unsigned start = blanks(text, 1), end = figure(text, start);
  if (end == start || text->at[end] == '"') return NEVER;
  add(scanner, SIGN, 0, 1);
  add(scanner, FIGURE, start - 1, end - start);
  return MONEY_START;
}

static enum Token rate(Scanner *scanner, const Text *text) {
  unsigned per = text->at[0] == '/' ? 1 : whole_word(text, 0, PER_WORD);
  if (!per) return NEVER;
  unsigned start = blanks(text, per), end = any_word(text, start, UNITS);
  if (end == start) return NEVER;
  add(scanner, PER, 0, per);
  add(scanner, UNIT, start - per, end - start);
  return RATE_START;
}

// `per` before something that is no unit, and `over`.
static enum Token small_word(Scanner *scanner, const Text *text) {
  unsigned end = whole_word(text, 0, SMALL_WORDS);
  if (!end) return NEVER;
  add(scanner, SMALL_WORD, 0, end);
  return SMALL_START;
}

// A name that ends before digits with a mark of inches; any other the grammar
// itself can read.
static enum Token short_name(Scanner *scanner, const Text *text) {
  unsigned end = 1, at;
  for (;;) {
    at = end;
    while (text->at[at] == '-') at++;
    if (!goes_on(text, at)) break;
    end = is_digit(text->at[at]) ? digits(text, at) : at + 1;
  }
  if (!is_digit(text->at[at]) || text->at[digits(text, at)] != '"') return NEVER;
  add(scanner, SHORT_NAME, 0, end);
  return SHORT_START;
}

static enum Token stray(Scanner *scanner, const Text *text) {
  unsigned end = 0;
  while (is_dash(text->at[end])) end++;
  if (end == 1) return NEVER;
  if (!end) end = two_marks(text, 0);
  if (!end) {
    while (end < FARTHEST) {
      int32_t c = text->at[end];
      if (end && (is_digit(c) || is_vulgar(c)) && text->at[end + 1] == '"') end += 2;
      else if (!is_stop(c)) end++;
      else break;
    }
  }
  if (!end) return NEVER;
  add(scanner, STRAY, 0, end);
  return STRAY_START;
}

// What starts here, with its pieces; never if the grammar itself can tell.
static enum Token item(Scanner *scanner, const Text *text) {
  int32_t c = text->at[0];
  enum Token token = rate(scanner, text);
  if (token == NEVER) token = small_word(scanner, text);
  if (token == NEVER && is_letter(c)) return short_name(scanner, text);
  if (token != NEVER) return token;
  switch (c) {
    case 0: case '"': case 0x201C: case '(': case ')': case ',': case '#':
    case '+': case '*': case '/': case ':': case '=': case 0xD7:
      return NEVER;
  }
  if ((token = date(scanner, text)) != NEVER) return token;
  if ((token = number(scanner, text)) != NEVER) return token;
  if ((token = money(scanner, text)) != NEVER) return token;
  bool is_sign = c < 0xC0 || c == 0xF7 || c == 0xFEFF || (c >= 0x2000 && c < 0x2C00);
  return is_sign ? stray(scanner, text) : NEVER;
}

// ---- lines ----

static void advance(TSLexer *lexer) { lexer->advance(lexer, false); }

static void skip(TSLexer *lexer) { lexer->advance(lexer, true); }

// Passes one line end: `\n`, `\r\n` or a lone `\r`.
static void pass_line_end(TSLexer *lexer, bool skips) {
  bool is_return = lexer->lookahead == '\r';
  lexer->advance(lexer, skips);
  if (is_return && lexer->lookahead == '\n') lexer->advance(lexer, skips);
}

// A byte-order mark at the very start of a line has no width.
static bool is_byte_order_mark(int32_t c, bool at_margin) { return at_margin && c == 0xFEFF; }

static unsigned widened(unsigned width, int32_t c) {
  if (c == 0xFEFF) return width;
  return c == '\t' ? (width / 4 + 1) * 4 : width + 1;
}

// Passes over text up to its closing quote or the line's end.
static void pass_text(TSLexer *lexer) {
  bool is_curly = lexer->lookahead == 0x201C;
  advance(lexer);
  while (!lexer->eof(lexer) && !is_line_end(lexer->lookahead)) {
    int32_t c = lexer->lookahead;
    advance(lexer);
    if (c == '"' || (is_curly && c == 0x201D)) return;
    int32_t next = lexer->lookahead;
    if (c == '\\' && (next == '\\' || next == '"' || (is_curly && next == 0x201D))) advance(lexer);
  }
}

typedef struct {
  unsigned depth;
  bool level, comma, too_deep;
} OpenEnds;

// Goes on to the end of a physical line and tells what it leaves open.
static void open_ends(TSLexer *lexer, OpenEnds *open) {
  open->level = open->depth == 0;
  open->comma = false;
  int32_t before = ' ';
  while (!lexer->eof(lexer) && !is_line_end(lexer->lookahead) && lexer->lookahead != '#') {
    int32_t c = lexer->lookahead;
    if (!is_blank(c)) open->comma = c == ',';
    if ((c == '"' && !is_digit(before) && !is_vulgar(before)) || c == 0x201C) {
      pass_text(lexer);
    } else {
      if (c == '(' && ++open->depth > DEEPEST) open->too_deep = true;
      if (c == ')') {
        if (open->depth) open->depth--;
        open->level |= open->depth == 0;
      }
      advance(lexer);
    }
    before = c;
  }
  while (!lexer->eof(lexer) && !is_line_end(lexer->lookahead)) advance(lexer);
}

// Goes on to the next line with words; gives its width, or 0 at the end.
static unsigned next_words(TSLexer *lexer, unsigned *line_ends) {
  unsigned width = 0;
  bool at_margin = false;
  while (!lexer->eof(lexer)) {
    int32_t c = lexer->lookahead;
    if (is_line_end(c)) {
      pass_line_end(lexer, false);
      (*line_ends)++;
      width = 0;
      at_margin = true;
    } else if (is_blank(c) || is_byte_order_mark(c, at_margin)) {
      width = widened(width, c);
      at_margin = false;
      advance(lexer);
    } else if (c == '#') {
      while (!lexer->eof(lexer) && !is_line_end(lexer->lookahead)) advance(lexer);
    } else {
      return width;
    }
  }
  return 0;
}

// The start of a line: what it is, and how many line ends lie in it.
static bool line_start(Scanner *scanner, TSLexer *lexer) {
  unsigned width = 0;
  bool at_margin = true;
  while (!lexer->eof(lexer)) {
    int32_t c = lexer->lookahead;
    if (is_line_end(c)) {
      pass_line_end(lexer, true);
      width = 0;
      at_margin = true;
    } else if (is_blank(c) || is_byte_order_mark(c, at_margin)) {
      width = widened(width, c);
      at_margin = false;
      skip(lexer);
    } else {
      break;
    }
  }
  if (lexer->eof(lexer) || lexer->lookahead == '#') return false;
  lexer->mark_end(lexer);
  bool has_word = is_letter(lexer->lookahead);
  if (is_bullet(lexer->lookahead)) {
    advance(lexer);
    if (is_blank(lexer->lookahead)) {
      while (is_blank(lexer->lookahead)) advance(lexer);
      has_word = is_letter(lexer->lookahead);
    }
  }

  OpenEnds open = {0, true, false, false};
  unsigned line_ends = 0, accepted = 0, tentative_ends = 0, lines = 0;
  bool tentative = false, too_deep = false;
  for (;;) {
    bool was_too_deep = open.too_deep;
    open_ends(lexer, &open);
    if (open.too_deep && !was_too_deep) too_deep = true;
    if (open.level) tentative = false;
    if (!open.comma && !open.depth) break;
    unsigned next = next_words(lexer, &line_ends);
    if (next <= width) break;
    if (!open.comma && !tentative) {
      tentative = true;
      tentative_ends = accepted;
      lines = 0;
    }
    if (tentative && ++lines > FARTHEST_CLOSE) break;
    accepted = line_ends;
  }
  if (tentative && open.depth) accepted = tentative_ends;
  scanner->line_ends = (uint16_t)accepted;
  scanner->pieces = 0;
  lexer->result_symbol = !has_word || too_deep ? UNREAD_START : width ? ENTRY_START : HEADING_START;
  return true;
}

static bool unread_text(TSLexer *lexer) {
  if (lexer->eof(lexer) || lexer->lookahead == '#') return false;
  while (!lexer->eof(lexer) && !is_line_end(lexer->lookahead) && lexer->lookahead != '#') {
    if (lexer->lookahead == '"' || lexer->lookahead == 0x201C) pass_text(lexer);
    else advance(lexer);
  }
  lexer->mark_end(lexer);
  lexer->result_symbol = UNREAD_TEXT;
  return true;
}

static bool next_piece(Scanner *scanner, TSLexer *lexer, const bool *valid) {
  Piece piece = scanner->piece[0];
  if (!valid[piece.token]) {
    scanner->pieces = 0;
    return false;
  }
  memmove(scanner->piece, scanner->piece + 1, --scanner->pieces * sizeof(Piece));
  for (unsigned i = 0; i < piece.gap; i++) skip(lexer);
  for (unsigned i = 0; i < piece.length; i++) advance(lexer);
  lexer->mark_end(lexer);
  lexer->result_symbol = piece.token;
  return true;
}

static bool scan(Scanner *scanner, TSLexer *lexer, const bool *valid) {
  if (scanner->pieces) return next_piece(scanner, lexer, valid);
  if (valid[HEADING_START] || valid[ENTRY_START]) return line_start(scanner, lexer);
  bool touches = !is_blank(lexer->lookahead);
  while (is_blank(lexer->lookahead)) skip(lexer);
  if (is_line_end(lexer->lookahead) && scanner->line_ends && valid[GOING_ON]) {
    pass_line_end(lexer, false);
    scanner->line_ends--;
    lexer->mark_end(lexer);
    lexer->result_symbol = GOING_ON;
    return true;
  }
  bool at_end = is_line_end(lexer->lookahead) || lexer->eof(lexer);
  if (at_end && valid[GROUP_END]) {
    lexer->mark_end(lexer);
    lexer->result_symbol = GROUP_END;
    return true;
  }
  if (at_end && valid[LINE_END]) {
    if (!lexer->eof(lexer)) pass_line_end(lexer, false);
    lexer->mark_end(lexer);
    lexer->result_symbol = LINE_END;
    return true;
  }
  if (valid[UNREAD_TEXT]) return unread_text(lexer);
  if (!valid[NUMBER_START] && !valid[SHORT_START]) return false;
  Text text;
  text.length = 0;
  lexer->mark_end(lexer);
  if (lexer->lookahead == '.' && valid[EDGE_STOP] && touches) {
    text.at[text.length++] = '.';
    advance(lexer);
    if (is_letter(lexer->lookahead)) {
      lexer->mark_end(lexer);
      lexer->result_symbol = EDGE_STOP;
      return true;
    }
  }
  while (text.length < FARTHEST && !lexer->eof(lexer) && !is_line_end(lexer->lookahead)) {
    text.at[text.length++] = lexer->lookahead;
    advance(lexer);
    // What the grammar can tell by itself is not looked at further.
    int32_t first = text.at[0];
    if (is_letter(first) && lower(first) != 'p' && is_stop(text.at[text.length - 1])) break;
    if (first == '"' || first == 0x201C || first == '#' || first == ',' || first == '(' || first == ')') return false;
  }
  memset(text.at + text.length, 0, 8 * sizeof(int32_t));
  // Where no item may stand, a line's first word does.
  bool is_first = !valid[NUMBER_START];
  enum Token token = !is_first ? item(scanner, &text) : is_letter(text.at[0]) ? short_name(scanner, &text) : NEVER;
  if (token == NEVER) {
    scanner->pieces = 0;
    return false;
  }
  lexer->result_symbol = token;
  return true;
}

void *tree_sitter_patio_external_scanner_create(void) { return ts_calloc(1, sizeof(Scanner)); }

void tree_sitter_patio_external_scanner_destroy(void *scanner) { ts_free(scanner); }

// Only what is still to come is kept, so that the states between lines are all
// alike and a tree can be used again after a change.
static unsigned size(const Scanner *scanner) {
  bool is_empty = !scanner->line_ends && !scanner->pieces;
  return is_empty ? 0 : (unsigned)(offsetof(Scanner, piece) + scanner->pieces * sizeof(Piece));
}

unsigned tree_sitter_patio_external_scanner_serialize(void *scanner, char *buffer) {
  memcpy(buffer, scanner, size(scanner));
  return size(scanner);
}

void tree_sitter_patio_external_scanner_deserialize(void *scanner, const char *buffer, unsigned length) {
  memset(scanner, 0, sizeof(Scanner));
  if (length && length <= sizeof(Scanner)) memcpy(scanner, buffer, length);
}

bool tree_sitter_patio_external_scanner_scan(void *scanner, TSLexer *lexer, const bool *valid) {
  // All is valid only where the parser has lost its way.
  return !valid[NEVER] && scan(scanner, lexer, valid);
}
