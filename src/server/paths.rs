//! Addresses of documents and the paths that analyses know them by.

use tower_lsp::lsp_types::Url;

/// The path of a document: absolute, parted by `/`. What is no file (an
/// unsaved document, say) goes by its address, and has no folder.
pub(crate) fn of(uri: &Url) -> String {
    let path = match uri.scheme() {
        "file" => uri.to_file_path().ok(),
        _ => None,
    };
    match path.as_deref().and_then(std::path::Path::to_str) {
        Some(path) => path.replace(std::path::MAIN_SEPARATOR, "/"),
        None => uri.to_string(),
    }
}

/// The path of a document whose address is written as text.
pub(crate) fn of_text(uri: &str) -> Option<String> {
    Some(of(&Url::parse(uri).ok()?))
}

/// The address of a path; nothing if it is no path of this machine.
pub(crate) fn address(path: &str) -> Option<Url> {
    Url::from_file_path(path)
        .ok()
        .or_else(|| Url::parse(path).ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_go_by_their_path_and_others_by_their_address() {
        for (uri, path) in [
            ("untitled:Untitled-1", "untitled:Untitled-1"),
            ("git:/jobs/a.patio?HEAD", "git:/jobs/a.patio?HEAD"),
        ] {
            let uri = Url::parse(uri).unwrap();
            assert_eq!(of(&uri), path);
            assert_eq!(address(path), Some(uri));
        }
    }

    #[cfg(unix)]
    #[test]
    fn addresses_that_are_written_differently_are_one_path() {
        for uri in [
            "file:///jobs/caf%C3%A9%20a.patio",
            "file:///jobs/café a.patio",
            "file://localhost/jobs/café a.patio",
        ] {
            assert_eq!(of(&Url::parse(uri).unwrap()), "/jobs/café a.patio");
        }
        assert_eq!(
            address("/jobs/café a.patio").unwrap().as_str(),
            "file:///jobs/caf%C3%A9%20a.patio"
        );
    }
}
