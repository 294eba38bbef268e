//! Which crate may use which, as ARCHITECTURE.md has it.

use std::collections::BTreeMap;

use super::Fault;
use super::tree::Tree;

const MAP: &str = "ARCHITECTURE.md";

/// A row of the table.
#[derive(Debug, PartialEq, Eq)]
struct Row {
    line: usize,
    name: String,
    may_use: Vec<String>,
}

/// The rows below "| crate | may use |".
fn table(map: &str) -> Vec<Row> {
    let lines = map.lines().enumerate().skip_while(|(_, line)| !line.starts_with("| crate | may use |"));
    // The head and the line of hyphens below it.
    let rows = lines.skip(2).take_while(|(_, line)| line.starts_with('|'));
    rows.map(|(line, row)| {
        let cells: Vec<&str> = row.trim_matches('|').split('|').map(str::trim).collect();
        let may_use = cells.get(1).copied().unwrap_or_default().split(',').map(|word| word.trim().to_owned());
        let name = cells.first().copied().unwrap_or_default().to_owned();
        Row { line, name, may_use: may_use.filter(|word| word != "none of ours").collect() }
    })
    .collect()
}

/// Folder name of each package of ours by its manifest, with those of ours that it uses in any way.
fn manifests(tree: &Tree) -> BTreeMap<String, (String, Vec<String>)> {
    let of_ours = |name: &str| name.strip_prefix("evencrumb-").map(str::to_owned);
    let crates = tree.under("crates/", "/Cargo.toml").chain(tree.under("xtask/", "/Cargo.toml"));
    crates
        .map(|(path, text)| {
            let name = path.trim_end_matches("/Cargo.toml").trim_start_matches("crates/").to_owned();
            let manifest = text.parse::<toml::Table>().unwrap_or_default();
            let kinds = ["dependencies", "dev-dependencies", "build-dependencies"];
            let tables = kinds.iter().filter_map(|kind| manifest.get(*kind)?.as_table());
            let mut uses: Vec<String> = tables.flat_map(|table| table.keys()).filter_map(|key| of_ours(key)).collect();
            uses.sort();
            uses.dedup();
            (name, (path.to_owned(), uses))
        })
        .collect()
}

/// No manifest names a crate of ours that the table doesn't, the table has every crate once, and no row speaks of one
/// that stands below it.
pub(super) fn uses(tree: &Tree) -> Vec<Fault> {
    let (table, manifests) = (table(tree.text(MAP)), manifests(tree));
    let mut faults = Vec::new();
    for (name, (file, uses)) in &manifests {
        let Some(row) = table.iter().find(|row| row.name == *name) else {
            let what = format!("the crate {name} has no row in the table of crates");
            faults.push(Fault::of(MAP, what, "Say there what it may use and what it says nothing of"));
            continue;
        };
        for used in uses.iter().filter(|used| !row.may_use.contains(used)) {
            let what = format!("{name} uses {used}, which the table in {MAP} (line {}) does not say", row.line + 1);
            faults.push(Fault::of(file, what, "Take it out; or change the table, when the map is to be another"));
        }
    }
    for (at, row) in table.iter().enumerate() {
        if !manifests.contains_key(&row.name) {
            let what = format!("the table speaks of {}, and there is no such crate", row.name);
            faults.push(Fault::at(MAP, row.line, what, "Take the row out"));
        }
        for used in row.may_use.iter().filter(|used| !table[..at].iter().any(|above| above.name == **used)) {
            let what = format!("{} may use {used}, which does not stand above it", row.name);
            faults.push(Fault::at(MAP, row.line, what, "Let each row speak only of those above it"));
        }
    }
    faults
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEAD: &str = "Words.\n\n| crate | may use | says nothing of |\n|---|---|---|\n";

    fn faults(rows: &str, manifest: &str) -> Vec<String> {
        let map = format!("{HEAD}{rows}");
        let tree = Tree::of(&[
            (MAP, &map),
            ("crates/oven/Cargo.toml", manifest),
            ("crates/bowl/Cargo.toml", "[package]\nname = \"evencrumb-bowl\"\n"),
        ]);
        uses(&tree).iter().map(Fault::to_string).collect()
    }

    const USES_BOWL: &str =
        "[dependencies]\nserde.workspace = true\n[dev-dependencies]\nevencrumb-bowl.workspace = true\n";

    #[test]
    fn ok_as_the_table_says() {
        let rows = "| bowl | none of ours | ovens |\n| oven | bowl | cooks |\n";
        assert_eq!(faults(rows, USES_BOWL), [""; 0]);
    }

    #[test]
    fn err_a_crate_that_the_table_does_not_allow() {
        let rows = "| bowl | none of ours | ovens |\n| oven | none of ours | cooks |\n";
        let said = faults(rows, USES_BOWL);
        assert_eq!(
            said,
            [
                "crates/oven/Cargo.toml: oven uses bowl, which the table in ARCHITECTURE.md (line 6) does not say. Take it \
              out; or change the table, when the map is to be another."
            ]
        );
    }

    #[test]
    fn err_rows_of_nothing_and_rows_that_look_down() {
        let said = faults("| bowl | oven | |\n| plate | bowl | |\n", "");
        assert_eq!(said.len(), 3, "{said:?}");
        assert!(said[0].contains("oven has no row") && said[1].contains("does not stand above"), "{said:?}");
        assert!(said[2].starts_with("ARCHITECTURE.md:6: the table speaks of plate"), "{said:?}");
    }
}
