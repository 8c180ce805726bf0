//! Where a rule can be read about on the web.

use super::Rule;

/// Where the package says that it is kept; empty if it does not say.
const REPOSITORY: &str = env!("CARGO_PKG_REPOSITORY");

/// The address of a rule in the reference, on the page of this version's
/// rules; nothing where the package names no repository, for none is made up.
pub fn address(rule: &Rule) -> Option<String> {
    in_repository(REPOSITORY, rule.name)
}

fn in_repository(repository: &str, rule: &str) -> Option<String> {
    let version = env!("CARGO_PKG_VERSION");
    let repository = repository.trim_end_matches('/');
    let page = || format!("{repository}/blob/v{version}/grammar/rules.md#{rule}");
    (!repository.is_empty()).then(page)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::find;

    #[test]
    fn an_address_is_given_and_never_made_up() {
        let version = env!("CARGO_PKG_VERSION");
        for (repository, address) in [
            ("", None),
            (
                "https://host.example/drylay/",
                Some(format!(
                    "https://host.example/drylay/blob/v{version}/grammar/rules.md#lip"
                )),
            ),
        ] {
            assert_eq!(in_repository(repository, "lip"), address);
        }
        let own = address(find("lip").unwrap());
        assert_eq!(own.is_some(), !REPOSITORY.is_empty());
    }
}
