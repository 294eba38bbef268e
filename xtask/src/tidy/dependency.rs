//! What we build on, as docs/dependencies.md has it.

use std::collections::BTreeSet;

use super::Fault;
use super::tree::Tree;

const PAGE: &str = "docs/dependencies.md";
const ROOT: &str = "Cargo.toml";
const FUZZ: &str = "fuzz/Cargo.toml";

/// Crates of others that the root manifest declares, and those of `fuzz/`, which is a workspace of its own.
fn declared(tree: &Tree) -> BTreeSet<String> {
    let table = |file: &str| tree.text(file).parse::<toml::Table>().unwrap_or_default();
    let (root, fuzz) = (table(ROOT), table(FUZZ));
    let shared = root.get("workspace").and_then(|workspace| workspace.get("dependencies"));
    let of_fuzz = fuzz.get("dependencies");
    let tables = [shared, of_fuzz].into_iter().flatten().filter_map(toml::Value::as_table).flatten();
    // Those of ours have a path.
    tables.filter(|(_, value)| value.get("path").is_none()).map(|(name, _)| name.clone()).collect()
}

/// Names of the headings "### name, with something", with their lines; not those of the part on what is only fetched.
fn headings(page: &str) -> Vec<(usize, &str)> {
    let lines = page.lines().enumerate().take_while(|(_, line)| !line.starts_with("## Fetched"));
    let headings = lines.filter_map(|(at, line)| Some((at, line.strip_prefix("### ")?)));
    headings.filter_map(|(at, heading)| Some((at, heading.split([',', ' ']).next()?))).collect()
}

/// Every crate of others has its entry, and every entry its crate.
pub(super) fn entries(tree: &Tree) -> Vec<Fault> {
    let declared = declared(tree);
    let headings = headings(tree.text(PAGE));
    let missing = declared.iter().filter(|name| !headings.iter().any(|(_, heading)| heading == name));
    let missing = missing.map(|name| {
        let mend = format!("Write “### {name}” with what for, what else was looked at and how to remove it");
        Fault::of(PAGE, format!("{name} is in a manifest and has no entry"), mend)
    });
    let stale = headings.iter().filter(|(_, heading)| !declared.contains(*heading));
    let stale = stale.map(|(at, heading)| {
        Fault::at(PAGE, *at, format!("{heading} has an entry and is in no manifest"), "Take the entry out")
    });
    missing.chain(stale).collect()
}

/// Every crate that the root manifest declares is used by a manifest below it.
pub(super) fn used(tree: &Tree) -> Vec<Fault> {
    let manifests: Vec<&str> =
        tree.files().filter(|(path, _)| path.ends_with("/Cargo.toml")).map(|(_, text)| text).collect();
    let is_used = |name: &str| {
        let begins = |line: &str| line.strip_prefix(name).is_some_and(|rest| rest.starts_with(['.', ' ', '=']));
        manifests.iter().any(|manifest| manifest.lines().any(begins))
    };
    let unused = declared(tree).into_iter().filter(|name| !is_used(name));
    unused.map(|name| Fault::of(ROOT, format!("no crate of ours uses {name}"), "Take it out")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const MANIFEST: &str = "[workspace.dependencies]\nevencrumb-bowl = { path = \"crates/bowl\" }\nwhisk = \"1\"\n";

    #[test]
    fn ok_each_has_its_entry() {
        let page = "### whisk, with wires\n- **For**: air\n\n## Fetched for checks\n\n### @far/table\n";
        let tree = Tree::of(&[(ROOT, MANIFEST), (PAGE, page), ("crates/a/Cargo.toml", "whisk.workspace = true\n")]);
        assert_eq!(entries(&tree), []);
        assert_eq!(used(&tree), []);
    }

    #[test]
    fn err_missing_stale_and_unused() {
        let page = "# Page\n\n### spoon\n";
        let tree = Tree::of(&[(ROOT, MANIFEST), (PAGE, page), ("crates/a/Cargo.toml", "whisks.workspace = true\n")]);
        let said: Vec<String> = entries(&tree).iter().chain(&used(&tree)).map(Fault::to_string).collect();
        assert!(said[0].starts_with("docs/dependencies.md: whisk is in a manifest and has no entry."), "{said:?}");
        assert!(said[1].starts_with("docs/dependencies.md:3: spoon has an entry and is in no manifest."), "{said:?}");
        assert_eq!(said[2], "Cargo.toml: no crate of ours uses whisk. Take it out.");
    }
}
