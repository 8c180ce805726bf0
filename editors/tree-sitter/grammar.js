/**
 * @file The grammar of patio specifications for editors that colour by trees.
 *
 * It reads what the grammar of the program reads, which is in patio.pest. What
 * hangs on more than the next character (which lines belong together, where a
 * number ends, what is a unit) is settled by src/scanner.c: before each such
 * item it puts a mark without width that tells what follows.
 * @license MIT OR Apache-2.0
 */

const BLANK = /[\s\uFEFF\u00A0\u2009\u202F]/;
const NAME = /\p{L}(?:[\p{L}\p{M}0-9_]|-+[\p{L}\p{M}0-9_])*/;

/** Phrases parted at commas, at least one of either; a phrase may be missing. */
const parted = (phrase) =>
  choice(
    seq(phrase, repeat(seq(",", optional(phrase)))),
    repeat1(seq(",", optional(phrase))),
  );

/** What stands in a parenthesis, and its end, which may be that of its line. */
const inside = ($) => seq(optional($._members), choice(")", $._group_end));

/** A name. Digits that touch a mark of inches end it before them. */
const name = ($) => choice($._name, seq($._short_start, $._short_name));

module.exports = grammar({
  name: "patio",

  externals: ($) => [
    $._heading_start,
    $._entry_start,
    $._unread_start,
    $.unread_text,
    $._line_end,
    $._group_end,
    $._going_on,
    $._number_start,
    $._ratio_start,
    $._money_start,
    $._date_start,
    $._rate_start,
    $._small_start,
    $._short_start,
    $._stray_start,
    $.figure,
    $.unit,
    $.part,
    $.sign,
    $._date,
    $.per,
    $._stray,
    $._tight_by,
    $._small_word,
    $._short_name,
    $._edge_stop,
    $._never,
  ],

  extras: ($) => [BLANK, $.comment, $._going_on],

  rules: {
    specification: ($) => seq(repeat($._line), repeat($.section)),

    section: ($) => seq($.heading, repeat($._line)),

    heading: ($) =>
      seq(
        $._heading_start,
        optional($.bullet),
        field("kind", $.kind),
        optional($._phrases),
        $._line_end,
      ),

    _line: ($) => choice($.entry, $.unread),

    entry: ($) =>
      seq(
        $._entry_start,
        optional($.bullet),
        field("key", $.key),
        optional($._phrases),
        $._line_end,
      ),

    // A line that does not start with a word.
    unread: ($) => seq($._unread_start, repeat($.unread_text), $._line_end),

    bullet: () => /[-–—*+•·]/,

    _phrases: ($) => parted($.phrase),
    phrase: ($) => repeat1(choice($._item, alias(")", $.stray))),
    _members: ($) => parted($.member),
    member: ($) => repeat1($._item),

    _item: ($) =>
      choice(
        $.word,
        $.reference,
        $.call,
        $.number,
        $.ratio,
        $.money,
        $.rate,
        $.date,
        $.text,
        $.group,
        $.operator,
        $.minus,
        $.by,
        $.stray,
      ),

    kind: name,
    key: name,
    word: name,
    // An edge of a shape, `court.wall`.
    reference: ($) => seq(alias($._name, $.owner), $._edge_stop, alias($._name, $.edge)),
    call: ($) => seq(alias($._name, $.function), token.immediate(prec(1, "(")), inside($)),
    group: ($) => seq("(", inside($)),

    // A number with its unit, or with feet and inches.
    number: ($) => seq($._number_start, $.figure, optional($.unit), optional(seq($.figure, $.unit))),
    // `1:60`, `1:1:6`.
    ratio: ($) => seq($._ratio_start, $.figure, repeat1($.part)),
    money: ($) => seq($._money_start, $.sign, $.figure),
    // `/ton`, `per ft`.
    rate: ($) => seq($._rate_start, $.per, $.unit),
    date: ($) => seq($._date_start, $._date),

    text: () =>
      token(
        choice(
          /"([^"\\\r\n]|\\[^\r\n])*\\?"?/,
          /“([^"”\\\r\n]|\\[^\r\n])*\\?["”]?/,
        ),
      ),

    operator: ($) => choice("+", "*", "/", ":", "=", seq($._small_start, $._small_word)),
    minus: () => /[-–−]/,
    by: ($) => choice("×", $._tight_by),
    stray: ($) => choice(seq($._stray_start, $._stray), $._odd),
    // A character of no script and of no other use here.
    _odd: () => token(prec(-1, /[^\x00-\x7F\p{L}\s×–−“½¼¾⅛⅜⅝⅞⅓⅔\uFEFF][^\s,#()"“]*/)),

    _name: () => NAME,
    comment: () => /#[^\r\n]*/,
  },
});
