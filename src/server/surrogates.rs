//! Halves of characters without their other half, which an editor may cut an
//! edit to: each is U+FFFD, and the edit is not lost.

/// How long an escape is: `\ud83d`.
const ESCAPE: usize = 6;

/// A body with `\ufffd` for each half that stands alone; nothing if there is
/// none.
pub(crate) fn mended(body: &[u8]) -> Option<Vec<u8>> {
    let mut mended = body.to_vec();
    let (mut at, mut alone) = (0, 0);
    while let Some(rest) = body.get(at..).filter(|rest| !rest.is_empty()) {
        let is_escape = rest.starts_with(b"\\");
        at += match half(rest) {
            Some(Half::High) if matches!(rest.get(ESCAPE..).and_then(half), Some(Half::Low)) => {
                2 * ESCAPE
            }
            Some(_) => {
                alone += 1;
                if let Some(own) = mended.get_mut(at..at + ESCAPE) {
                    own.copy_from_slice(b"\\ufffd");
                }
                ESCAPE
            }
            // What is escaped begins nothing: `\\ud83d`.
            None if is_escape => 2,
            None => 1,
        };
    }
    (alone > 0).then_some(mended)
}

/// A half of a character beyond the first 65,536.
enum Half {
    High,
    Low,
}

/// The half that an escape at the start of some bytes is.
fn half(bytes: &[u8]) -> Option<Half> {
    let digits = bytes.get(..ESCAPE)?.strip_prefix(b"\\u")?;
    let code = u16::from_str_radix(std::str::from_utf8(digits).ok()?, 16).ok()?;
    match code {
        0xD800..=0xDBFF => Some(Half::High),
        0xDC00..=0xDFFF => Some(Half::Low),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::mended;

    #[test]
    fn halves_that_stand_alone_are_replaced() {
        for (body, expected) in [
            (r#""a\ud83dx""#, Some(r#""a\ufffdx""#)),
            (r#""\uDf33""#, Some(r#""\ufffd""#)),
            (r#""\ud83d\ud83d\udf33""#, Some(r#""\ufffd\ud83d\udf33""#)),
            (r#""\udf33\ud83d""#, Some(r#""\ufffd\ufffd""#)),
            (r#""\ud83d\udf33""#, None),
            (r#""\\ud83d""#, None),
            (r#""\u00e9 \n""#, None),
            (r#""\ud83"#, None),
        ] {
            let found = mended(body.as_bytes());
            let found = found.map(|found| String::from_utf8(found).expect("text"));
            assert_eq!(found.as_deref(), expected, "{body}");
        }
    }
}
