//! Regions: whose limits apply to a job, and for which of them a published
//! document speaks.

use super::{Known, Source};

/// Whose limits apply.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Region {
    /// The United States.
    Us,
    /// The United Kingdom.
    Uk,
    /// Australia and New Zealand.
    Au,
    /// Nowhere in particular.
    #[default]
    General,
}

impl Region {
    /// Every region.
    pub const ALL: &'static [Region] = &[Region::Us, Region::Uk, Region::Au, Region::General];

    /// The word for it in a spec.
    pub const fn word(self) -> &'static str {
        match self {
            Region::Us => "us",
            Region::Uk => "uk",
            Region::Au => "au",
            Region::General => "general",
        }
    }

    /// Whose a figure of the region is: `an American figure`.
    pub const fn people(self) -> &'static str {
        match self {
            Region::Us => "American",
            Region::Uk => "British",
            Region::Au => "Australian",
            Region::General => "general",
        }
    }

    /// Where it holds, as people say it: `in the UK`.
    pub const fn in_words(self) -> &'static str {
        match self {
            Region::Us => "in the US",
            Region::Uk => "in the UK",
            Region::Au => "in Australia",
            Region::General => "anywhere",
        }
    }

    /// The region with this word.
    pub fn from_word(word: &str) -> Option<Region> {
        Region::ALL
            .iter()
            .copied()
            .find(|region| region.word().eq_ignore_ascii_case(word))
    }
}

/// Who publishes what the rules cite, by how the titles begin, and the region
/// that it is written for; none where it holds wherever it is read.
const PUBLISHERS: &[(&str, Option<Region>)] = &[
    ("2010 ADA", Some(Region::Us)),
    ("A British", Some(Region::Uk)),
    ("A South African", None),
    ("A pool owners' forum", Some(Region::Us)),
    ("A quarry's test report on York stone", Some(Region::Uk)),
    ("A maker's data sheet", None),
    ("A paver maker's answers, citing ICPI", Some(Region::Us)),
    ("ABA and ADA", Some(Region::Us)),
    ("ACI", Some(Region::Us)),
    ("ADA", Some(Region::Us)),
    ("ANSI", Some(Region::Us)),
    ("AS ", Some(Region::Au)),
    ("AS/NZS", Some(Region::Au)),
    ("ASTM", Some(Region::Us)),
    ("Approved Document", Some(Region::Uk)),
    ("Australian", Some(Region::Au)),
    ("BIA", Some(Region::Us)),
    ("BRE", Some(Region::Uk)),
    ("BS ", Some(Region::Uk)),
    ("Beall", Some(Region::Us)),
    ("British makers'", Some(Region::Uk)),
    ("Building Regulations", Some(Region::Uk)),
    ("Building Standards (Scotland)", Some(Region::Uk)),
    ("CIRIA", Some(Region::Uk)),
    ("CMHA", Some(Region::Us)),
    ("California", Some(Region::Us)),
    ("Concrete Construction (magazine)", Some(Region::Us)),
    ("Construction cost consultants'", None),
    ("Dimension Stone Design Manual", Some(Region::Us)),
    ("Directive", None),
    ("EN ", None),
    (
        "Guidance on the permeable surfacing of front gardens",
        Some(Region::Uk),
    ),
    ("HSE", Some(Region::Uk)),
    ("Highways Act", Some(Region::Uk)),
    ("ICPI", Some(Region::Us)),
    ("ISO", None),
    ("Irish Cement", None),
    ("International Building Code", Some(Region::Us)),
    ("International Correspondence Schools", Some(Region::Us)),
    ("International Plumbing Code", Some(Region::Us)),
    ("International Residential Code", Some(Region::Us)),
    ("Landscape Architect (magazine)", Some(Region::Us)),
    ("Makers' data sheets", None),
    ("Makers' yield tables", Some(Region::Us)),
    ("NAVEDTRA", Some(Region::Us)),
    ("NCC", Some(Region::Au)),
    ("NHBC", Some(Region::Uk)),
    ("NIOSH", Some(Region::Us)),
    ("NIST", Some(Region::Us)),
    ("National Construction Code", Some(Region::Au)),
    ("OSHA", Some(Region::Us)),
    ("PCA", Some(Region::Us)),
    ("Society of Garden Designers", Some(Region::Uk)),
    ("Masonry (magazine)", Some(Region::Us)),
    ("TCNA", Some(Region::Us)),
    ("TMS", Some(Region::Us)),
    ("The Building Regulations", Some(Region::Uk)),
    ("U.S. ", Some(Region::Us)),
    ("US ", Some(Region::Us)),
    ("Estimating sheets of", Some(Region::Us)),
    ("WSDOT", Some(Region::Us)),
];

impl Source {
    /// The region that the document is written for; none for what holds
    /// anywhere, as mathematics and common practice do.
    pub fn region(&self) -> Option<Region> {
        publisher(self.document).flatten()
    }

    /// Whether it is known for which region the document is written.
    pub fn is_placed(&self) -> bool {
        matches!(self.known, Known::CommonPractice | Known::Computed)
            || publisher(self.document).is_some()
    }
}

fn publisher(document: &str) -> Option<Option<Region>> {
    let mut all = PUBLISHERS.iter();
    let (_, region) = all.find(|(start, _)| document.starts_with(start))?;
    Some(*region)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_document_speaks_for_its_region() {
        for (source, region) in [
            (Source::read("BIA Technical Note 14A", ""), Some(Region::Us)),
            (Source::memory("BS 7533", ""), Some(Region::Uk)),
            (Source::read("AS/NZS 3727.1", ""), Some(Region::Au)),
            (Source::read("EN 14411", ""), None),
            (Source::COMMON_PRACTICE, None),
        ] {
            assert_eq!(source.region(), region, "{source}");
            assert!(source.is_placed(), "{source}");
        }
        assert!(!Source::read("A book that nobody placed", "").is_placed());
    }
}
