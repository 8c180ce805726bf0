//! Pictures in a hover, for editors that show them.

use crate::analysis::Analysis;
use crate::drawing::layers_picture;
use crate::findings::FileId;
use crate::ide::cursor::Cursor;

/// The most letters of a picture: an editor cuts off a longer hover.
const MOST: usize = 90_000;

/// The layers of the build whose heading stands at a place of the checked
/// file, to scale, as an image in Markdown.
pub fn picture(analysis: &Analysis, offset: u32) -> Option<String> {
    let cursor = Cursor::at(analysis.files.first()?, FileId(0), offset)?;
    cursor.heading().filter(|kind| kind.word == "build")?;
    let mut builds = analysis.job.builds.values();
    let build = builds.find(|build| build.section == cursor.section)?;
    let heading = &analysis.job.heading;
    let svg = layers_picture(build, heading.system(), heading.region())?;
    let packed = base_64(svg.as_bytes());
    (packed.len() <= MOST)
        .then(|| format!("![its layers, to scale](data:image/svg+xml;base64,{packed})"))
}

/// Bytes in letters that may stand in an address.
fn base_64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut packed = String::new();
    for three in bytes.chunks(3) {
        let at = |index: usize| u32::from(three.get(index).copied().unwrap_or(0));
        let bits = at(0) << 16 | at(1) << 8 | at(2);
        for place in 0..4 {
            let letter = LETTERS.get((bits >> (18 - 6 * place)) as usize & 63);
            packed.push(match letter {
                Some(letter) if place <= three.len() => char::from(*letter),
                _ => '=',
            });
        }
    }
    packed
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_build_has_a_picture_where_it_begins() {
        use crate::analysis::{Analyser, NoFiles};
        use crate::text::Text;

        let text = "build flags\n  paving york-stone, 50 mm\n  bed sharp-sand, 30 mm\n\
            build bare\nmaterial york-stone\n  like york-stone\n";
        let analysis =
            Analyser::new().analyse("/a.patio", Text::from(text), &NoFiles, "2027-01-12");
        let at = |words: &str| {
            let offset = text.find(words).expect(words);
            picture(&analysis, offset as u32)
        };
        let image = at("build flags").expect("a picture");
        assert!(image.starts_with("![its layers, to scale](data:image/svg+xml;base64,"));
        assert!(!image.contains(char::is_whitespace) || image.matches(' ').count() == 3);
        for none in ["paving", "build bare", "material"] {
            assert_eq!(at(none), None, "{none}");
        }
    }

    #[test]
    fn bytes_are_packed_as_everybody_packs_them() {
        for (bytes, packed) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foobar", "Zm9vYmFy"),
            ("<svg>Ø</svg>", "PHN2Zz7DmDwvc3ZnPg=="),
        ] {
            assert_eq!(base_64(bytes.as_bytes()), packed);
        }
    }
}
