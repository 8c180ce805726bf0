//! Pictures in a hover, for editors that show them.

use data_encoding::BASE64;

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
    let packed = BASE64.encode(svg.as_bytes());
    (packed.len() <= MOST)
        .then(|| format!("![its layers, to scale](data:image/svg+xml;base64,{packed})"))
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
}
