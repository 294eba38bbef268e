//! First lines of modules, and links between pages.

use super::Fault;
use super::tree::Tree;

/// Every Rust file begins with what it is about. `tests.rs` is about the module beside it.
pub(super) fn first_lines(tree: &Tree) -> Vec<Fault> {
    let modules = tree.files().filter(|(path, _)| path.ends_with(".rs") && !path.ends_with("/tests.rs"));
    let silent = modules.filter(|(_, text)| !text.trim_start().starts_with("//! "));
    let mend = "Begin it with one line after “//!”";
    silent.map(|(path, _)| Fault::of(path, "the first line does not say what the module is about", mend)).collect()
}

/// Every page in docs can be found from the two pages that people open first.
pub(super) fn linked(tree: &Tree) -> Vec<Fault> {
    let first = [tree.text("README.md"), tree.text("ARCHITECTURE.md")];
    let is_linked = |path: &str| first.iter().any(|page| page.contains(&format!("]({path})")));
    let lost = tree.under("docs/", ".md").filter(|(path, _)| !is_linked(path));
    let mend = "Say there in a few words what it is, with a link";
    lost.map(|(path, _)| Fault::of(path, "neither README.md nor ARCHITECTURE.md links to it", mend)).collect()
}

/// A link to a file of ours leads to one that is there.
pub(super) fn links(tree: &Tree) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (file, text) in tree.files().filter(|(path, _)| path.ends_with(".md")) {
        let folder = file.rsplit_once('/').map_or("", |(folder, _)| folder);
        for (at, line) in text.lines().enumerate() {
            let targets = line.split("](").skip(1).filter_map(|rest| rest.split_once(')')).map(|(target, _)| target);
            let near = targets.filter(|target| !target.contains("://") && !target.starts_with('#'));
            for target in near.filter(|target| !tree.has(&joined(folder, target))) {
                faults.push(Fault::at(
                    file,
                    at,
                    format!("the link leads to {target}, which is not there"),
                    "Mend the link",
                ));
            }
        }
    }
    faults
}

/// The path from the top that a link from a folder means.
fn joined(folder: &str, target: &str) -> String {
    let target = target.split('#').next().unwrap_or_default();
    let mut parts: Vec<&str> = folder.split('/').filter(|part| !part.is_empty()).collect();
    for part in target.split('/') {
        match part {
            ".." => drop(parts.pop()),
            "." | "" => {}
            part => parts.push(part),
        }
    }
    parts.join("/")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(faults: &[Fault]) -> Vec<String> {
        faults.iter().map(Fault::to_string).collect()
    }

    #[test]
    fn ok_modules_and_links() {
        let tree = Tree::of(&[
            ("README.md", "See [why](docs/why.md) and [there](https://example.org), or [below](#below)."),
            ("docs/why.md", "Back to [the first](../README.md#top), to [code](../crates)."),
            ("crates/a/src/lib.rs", "//! What it is.\n"),
            ("crates/a/src/cup/tests.rs", "use super::*;\n"),
        ]);
        assert_eq!(first_lines(&tree), []);
        assert_eq!(linked(&tree), []);
        assert_eq!(links(&tree), []);
    }

    #[test]
    fn err_a_module_without_its_line() {
        let tree = Tree::of(&[("crates/a/src/lib.rs", "/// Not of the module.\npub fn a() {}\n")]);
        assert!(said(&first_lines(&tree))[0].starts_with("crates/a/src/lib.rs: the first line"));
    }

    #[test]
    fn err_pages_that_are_lost_and_links_that_lead_nowhere() {
        let tree = Tree::of(&[("README.md", "\nSee [why](docs/whi.md)."), ("docs/why.md", "Words.")]);
        assert!(said(&linked(&tree))[0].starts_with("docs/why.md: neither"));
        assert_eq!(
            said(&links(&tree)),
            ["README.md:2: the link leads to docs/whi.md, which is not there. Mend the link."]
        );
    }
}
