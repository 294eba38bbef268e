//! Rows and texts that ship: each is taken in by code, and told in the map.

use super::Fault;
use super::tree::Tree;

const MAP: &str = "ARCHITECTURE.md";

/// Data of a crate, or a file of the demo, by what stands for it in the code that takes it in: its path from `data/`
/// or within `demo/`.
fn shipped(tree: &Tree) -> impl Iterator<Item = (&str, &str, &str)> {
    tree.files().filter(|(path, _)| [".toml", ".txt", ".tsv", ".bin"].iter().any(|end| path.ends_with(end))).filter_map(
        |(path, _)| {
            if let Some(name) = path.strip_prefix("demo/") {
                return Some((path, "crates/evencrumb/", name));
            }
            let (owner, _) = path.split_once("/data/")?;
            let name = &path[owner.len() + 1..];
            Some((path, &path[..=owner.len()], name))
        },
    )
}

/// Code of the crate names each file, or its build script the folder, all of which it then reads.
pub(super) fn taken_in(tree: &Tree) -> Vec<Fault> {
    let is_named = |owner: &str, name: &str| {
        let folder = name.rsplit_once('/').map_or(name, |(folder, _)| folder);
        let by_script = tree.text(&format!("{owner}build.rs")).contains(&format!("\"{folder}\""));
        let by_code = tree.under(owner, ".rs").any(|(_, code)| code.contains(&format!("{name}\"")));
        by_code || by_script
    };
    let forgotten = shipped(tree).filter(|(_, owner, name)| !is_named(owner, name));
    let mend = "Name it where the others of its folder are taken in, or delete it";
    forgotten.map(|(path, owner, _)| Fault::of(path, format!("no code of {owner} takes it in"), mend)).collect()
}

/// The table of data names each file of rows, itself or as `*.toml` of its folder.
pub(super) fn listed(tree: &Tree) -> Vec<Fault> {
    let map = tree.text(MAP);
    let is_listed = |path: &str| {
        let (folder, name) = path.rsplit_once('/').unwrap_or(("", path));
        map.contains(&format!("{folder}/*.toml`")) || map.contains(path) || map.contains(&format!("`{name}`"))
    };
    let data = tree.under("crates/", ".toml").filter(|(path, _)| path.contains("/data/"));
    let mend = "Add a row to the table of data there: what it holds, the file, its form";
    data.filter(|(path, _)| !is_listed(path))
        .map(|(path, _)| Fault::of(MAP, format!("{path} is not told"), mend))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_files_that_are_named() {
        let tree = Tree::of(&[
            ("crates/a/data/cups.toml", ""),
            ("crates/a/src/cup.rs", "include_str!(\"../data/cups.toml\")"),
            ("crates/b/data/foods/figs.toml", ""),
            ("crates/b/build.rs", "read(Path::new(\"data/foods\"))"),
            ("crates/evencrumb/src/demo.rs", "files![\"recipes/pie.txt\"]"),
            ("demo/recipes/pie.txt", ""),
            (MAP, "| cups | `crates/a/data/cups.toml` |\n| figs | `crates/b/data/foods/*.toml` |"),
        ]);
        assert_eq!(taken_in(&tree), []);
        assert_eq!(listed(&tree), []);
    }

    #[test]
    fn err_files_that_nobody_takes_in() {
        let tree = Tree::of(&[
            ("crates/a/data/cups.toml", ""),
            ("crates/b/src/cup.rs", "include_str!(\"../data/cups.toml\")"),
            ("demo/recipes/pie.txt", ""),
            (MAP, ""),
        ]);
        let said: Vec<String> = taken_in(&tree).iter().chain(&listed(&tree)).map(Fault::to_string).collect();
        assert!(said[0].starts_with("crates/a/data/cups.toml: no code of crates/a/ takes it in."), "{said:?}");
        assert!(said[1].starts_with("demo/recipes/pie.txt: no code of crates/evencrumb/ takes it in."), "{said:?}");
        assert!(said[2].starts_with("ARCHITECTURE.md: crates/a/data/cups.toml is not told."), "{said:?}");
    }
}
