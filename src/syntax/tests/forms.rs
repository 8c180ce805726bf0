//! Each form that a value may have, and what looks like it.

use super::dump::{dump, spacing};
use crate::syntax::Tree;
use crate::units::{UNITS, find_unit};

/// Reads each text as what follows a key, and compares.
fn check(cases: &[(&str, &str)]) {
    for (text, expected) in cases {
        let tree = Tree::parse(format!("  key {text}").into());
        let shown: Vec<_> = tree.lines().map(dump).collect();
        assert_eq!(shown, [*expected], "{text}");
        assert_eq!(tree.to_text(), format!("  key {text}"));
    }
}

#[test]
fn numbers() {
    check(&[
        ("12", "12"),
        ("12.5", "12.5"),
        (".5", ".5"),
        ("1,200", "1,200"),
        ("1,200,000.5", "1,200,000.5"),
        ("3/4", "3/4"),
        ("1 3/4", "1 3/4"),
        ("1-3/4", "1-3/4"),
        ("½", "½"),
        ("6½", "6½"),
        ("6 ½", "6 ½"),
        ("1,5 m", "1 | 5~m"),
        ("1,2000", "1 | 2000"),
        ("0,200", "0 | 200"),
        ("1200,300", "1200 | 300"),
        ("1 200 mm", "1 200~mm"),
        ("12.", "12 stray(.)"),
        ("1e5", "1 e5"),
        ("3 / 4", "3 DIV 4"),
        ("1.5/2", "1.5 DIV 2"),
        ("٣", "stray(٣)"),
    ]);
}

#[test]
fn lengths() {
    check(&[
        ("24'", "24~'"),
        ("6 1/2\"", "6 1/2~\""),
        ("6½\"", "6½~\""),
        ("24' 6\"", "24~'+6~\""),
        ("24'6\"", "24~'+6~\""),
        ("24'-6 1/2\"", "24~'+6 1/2~\""),
        ("24'–6\"", "24~'+6~\""),
        ("24 ft 6 in", "24~ft+6~in"),
        ("24 feet 6 1/2 inches", "24~feet+6 1/2~inches"),
        ("24 ft 6\"", "24~ft+6~\""),
        ("24′ 6″", "24~′+6~″"),
        ("24’ 6”", "24~’+6~”"),
        ("24' 6''", "24~'+6~''"),
        ("6’’", "6~’’"),
        ("3.6 m", "3.6~m"),
        ("150mm", "150~mm"),
        ("12\u{A0}ft", "12~ft"),
        ("12 FT", "12~FT"),
        ("1-1/2 in", "1-1/2~in"),
        ("12 in to 24 in", "12~in to 24~in"),
        ("24' 6", "24~' 6"),
        ("24 '", "24 stray(')"),
        ("12 in-situ", "12 in-situ"),
        ("2 day-sand", "2 day-sand"),
        ("12 inner", "12 inner"),
        ("12 in²", "12 in stray(²)"),
        ("in 12", "in 12"),
        ("24' 6 sq ft", "24~' 6~sq ft"),
    ]);
}

#[test]
fn other_quantities() {
    check(&[
        ("4 sq ft", "4~sq ft"),
        ("4 sq  ft", "4~sq  ft"),
        ("4 ft²", "4~ft²"),
        ("4 m2", "4~m2"),
        ("2 Cu Yd", "2~Cu Yd"),
        ("3 min", "3~min"),
        ("3 min(a, b)", "3 min(a | b)"),
        ("2 %", "2~%"),
        ("2%", "2~%"),
        ("40 °F", "40~°F"),
        ("5°C", "5~°C"),
        ("35°", "35~°"),
        ("35.2 deg", "35.2~deg"),
        ("35° 12'", "35~° 12~'"),
        ("2027-04-12", "date(2027-04-12)"),
        (
            "2027-4-12",
            "2027 stray(-) 4 stray(-) 12 ! minus - ! minus -",
        ),
        ("4/12/2027", "4 DIV 12/2027"),
        ("1:60", "ratio(1 60)"),
        ("1/4:12", "ratio(1/4 12)"),
        ("1 : 60", "1 COLON 60"),
        ("1:1:6", "parts(1:1:6)"),
        ("1:½:4", "parts(1:½:4)"),
        (
            "1 portland-cement : 4 sharp-sand",
            "1 portland-cement COLON 4 sharp-sand",
        ),
        ("1 in 60", "1~in 60"),
    ]);
}

#[test]
fn units_in_the_denominator() {
    check(&[
        ("1.35 t/m3", "1.35~t per(m3)"),
        ("150 lb/cu ft", "150~lb per(cu ft)"),
        ("1/4 in per ft", "1/4~in per(ft)"),
        ("20 mm per m", "20~mm per(m)"),
        ("3.5 in / h", "3.5~in per(h)"),
        ("$42/ton", "$:42 per(ton)"),
        ("$5.80/sq ft", "$:5.80 per(sq ft)"),
        ("$74 per day", "$:74 per(day)"),
        ("2 kg/m2/h", "2~kg per(m2) per(h)"),
        ("rate / m", "rate per(m)"),
        ("(a + b)/m", "(a ADD b) per(m)"),
        ("area(a)/m2", "area(a) per(m2)"),
        ("1/2 in over 12'", "1/2~in OVER 12~'"),
        ("$95 per load of 10 ton", "$:95 PER load of 10~ton"),
        ("a / b", "a DIV b"),
        ("a / min(b, c)", "a DIV min(b | c)"),
        ("per ton", "PER ton"),
        ("/ ton", "DIV ton"),
        ("2 in per day-sand", "2~in PER day-sand"),
        ("perch overlap", "perch overlap"),
    ]);
}

#[test]
fn money() {
    check(&[
        ("$42", "$:42"),
        ("£6.50", "£:6.50"),
        ("€6", "€:6"),
        ("$1,200.50", "$:1,200.50"),
        ("42 USD", "USD:42"),
        ("42 usd/ton", "usd:42 per(ton)"),
        ("USD", "USD"),
        ("$", "stray($)"),
        ("42 USDA", "42 USDA"),
    ]);
}

#[test]
fn minus() {
    check(&[
        ("-6 in", "NEG 6~in"),
        ("−6 in", "NEG 6~in"),
        ("–a", "NEG a"),
        ("a - b", "a SUB b"),
        ("a – 6 in", "a SUB 6~in"),
        ("24' - 6\"", "24~' SUB 6~\""),
        ("(14', -12')", "(14~' | NEG 12~')"),
        ("(-14', 3)", "(NEG 14~' | 3)"),
        ("a, -6 in", "a | NEG 6~in"),
        ("a = -6 in", "a EQUALS NEG 6~in"),
        ("a * -2", "a MUL NEG 2"),
        ("a - -2", "a SUB NEG 2"),
        ("-(a)", "NEG (a)"),
        ("-min(a, b)", "NEG min(a | b)"),
        ("-$42", "NEG $:42"),
        ("margin -6 in", "margin stray(-) 6~in ! minus -"),
        ("24' -6\"", "24~' stray(-) 6~\" ! minus -"),
        ("24'- 6\"", "24~' stray(-) 6~\" ! minus -"),
        ("3.6-0.15 m", "3.6 stray(-) 0.15~m ! minus -"),
        ("30-50 mm", "30 stray(-) 50~mm ! minus -"),
        ("30–50 mm", "30 stray(–) 50~mm ! minus –"),
        ("- 6 in", "stray(-) 6~in ! minus -"),
        ("-\"a\"", "stray(-) text(a) ! minus -"),
        ("-", "stray(-) ! minus -"),
        ("bed- 3", "bed stray(-) 3 ! minus -"),
        ("a -- 3", "a stray(--) 3"),
        ("bed-mix", "bed-mix"),
        ("a--b", "a--b"),
    ]);
}

#[test]
fn names_calls_and_edges() {
    check(&[
        ("clay, wet", "clay | wet"),
        ("Ölberg_2-b", "Ölberg_2-b"),
        ("court.wall", "edge(court wall)"),
        ("court. wall", "court stray(.) wall"),
        ("a.b.c", "edge(a b) stray(.c)"),
        ("area(terrace)", "area(terrace)"),
        ("length(court.wall) * 2", "length(edge(court wall)) MUL 2"),
        ("area (terrace)", "area (terrace)"),
        ("centre (14', -12')", "centre (14~' | NEG 12~')"),
        ("f()", "f()"),
        ("per(m)", "PER (m)"),
        ("f(g(h(1, 2)), 3)", "f(g(h(1 | 2)) | 3)"),
        ("value: 3", "value COLON 3"),
        ("_a", "stray(_a)"),
        ("wall & garage", "wall stray(&) garage"),
        ("owner's", "owner stray('s)"),
        ("12' x 24'", "12~' x 24~'"),
        ("12' × 24'", "12~' BY 24~'"),
        ("12'x24'", "12~' BY 24~'"),
        ("12x24 in", "12 BY 24~in"),
        ("2 xylo", "2 xylo"),
        ("2xylo", "2 xylo"),
    ]);
}

#[test]
fn parentheses_and_commas() {
    check(&[
        ("(0, 0) (1, 1)", "(0 | 0) (1 | 1)"),
        ("(0, 0", "(0 | 0) ! group-open ("),
        ("((0, 0)", "((0 | 0)) ! group-open ("),
        ("0)", "0 stray()) ! group-close )"),
        (")", "stray()) ! group-close )"),
        ("()", "()"),
        ("(,1)", "( | 1) ! comma ,"),
        ("(1,)", "(1 | ) ! comma ,"),
        ("(,)", "( | ) ! comma ,"),
        ("a,", "a |  ! comma ,"),
        ("a,, b", "a |  | b ! comma ,"),
        ("a, # why", "a |  ! comma ,"),
        (", voids 40 %", "| voids 40~%"),
        (",", "|  ! comma ,"),
    ]);
}

#[test]
fn text_and_marks_of_inches() {
    check(&[
        ("\"garden-door sill\"", "text(garden-door sill)"),
        (r#""a \"b\" \\""#, r#"text(a \"b\" \\)"#),
        (r#""12" 3"#, "text(12) 3"),
        ("\"a, (b # c\"", "text(a, (b # c)"),
        ("“a \\” b” 3", "text(a \\” b) 3"),
        ("“a\" 3", "text(a) 3"),
        ("\"a” b\"", "text(a” b)"),
        ("\"\"", "text()"),
        (
            "\"open # no comment",
            "text(open # no comment) ! text-open \"open # no comment",
        ),
        ("“open", "text(open) ! text-open “open"),
        ("called\"a\"", "called text(a)"),
        ("12\"a", "12~\" a"),
        ("x2\"", "x 2~\""),
        ("a-2\"", "a stray(-) 2~\" ! minus -"),
        ("$42\" a\"", "stray($42\") a text() ! text-open \""),
        (
            "2027-04-12\"",
            "2027 stray(-) 04 stray(-) 12~\" ! minus - ! minus -",
        ),
        ("1:60\"", "1 COLON 60~\""),
        ("@5\" a", "stray(@5\") a"),
        ("6 1/2 \"", "6 1/2 text() ! inch-off \""),
        ("6 \", 4 \"", "6 text(, 4 ) ! inch-off \""),
        ("6 \"big\" stones", "6 text(big) stones"),
        ("6 ″", "6 stray(″) ! inch-off ″"),
        ("6 ''", "6 stray('') ! inch-off ''"),
        ("a ″", "a stray(″)"),
    ]);
}

#[test]
fn comments() {
    check(&[
        ("a # b, \"c\" (", "a"),
        ("a#b", "a"),
        ("#57 stone", "! hash #"),
        ("50# bag", "50 ! hash #"),
        ("a # 57", "a"),
        ("(0, # x\n      0) # 1", "(0 | 0)"),
        ("a per # b\n", "a PER"),
        ("(a per # b\n        m)", "(a per(m))"),
        ("a,\n      #57\n      b", "a | b"),
    ]);
}

#[test]
fn the_spaces_round_an_item_are_kept() {
    for (text, expected) in [
        ("a-b -c", "_a-b_ _-. .c_"),
        ("3:x =\t4#", "_3. .:. .x_ _=_ _4_"),
        ("a\u{2009}(b),", "_a_ _(b)."),
    ] {
        let tree = Tree::parse(format!("  key {text}").into());
        assert_eq!(
            tree.lines().map(spacing).collect::<Vec<_>>(),
            [expected],
            "{text}"
        );
    }
}

#[test]
fn every_unit_of_the_table_is_read() {
    let degrees = ["°F", "°C", "°"];
    let spellings = UNITS.iter().flat_map(|unit| {
        [unit.symbol]
            .into_iter()
            .chain(unit.spellings.iter().copied())
    });
    for unit in spellings.chain(degrees) {
        check(&[
            (&format!("12 {unit}"), &format!("12~{unit}")),
            (&format!("12{unit}"), &format!("12~{unit}")),
            (
                &format!("12 {}", unit.to_uppercase()),
                &format!("12~{}", unit.to_uppercase()),
            ),
        ]);
        if !unit.contains('°') {
            check(&[(&format!("$3/{unit}"), &format!("$:3 per({unit})"))]);
        }
    }
}

#[test]
fn every_unit_that_is_read_is_in_the_table() {
    let grammar = include_str!("../../../grammar/patio.pest");
    let unit = grammar
        .split("unit = @{")
        .nth(1)
        .and_then(|rest| rest.split(" ~ unit_end").next())
        .unwrap();
    let words: Vec<_> = unit
        .split("^\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .collect();
    assert!(words.len() > 20);
    for word in words
        .into_iter()
        .filter(|word| !["sq", "cu"].contains(word))
    {
        assert!(find_unit(word).is_some(), "{word}");
    }
}
