//! Kinds of queries: those of the code are those of docs/queries.md, with the same weight.

use std::collections::BTreeMap;

use super::Fault;
use super::tree::Tree;

const PAGE: &str = "docs/queries.md";

/// What a file of code or the page says of a kind.
#[derive(Debug, PartialEq, Eq)]
struct Kind<'a> {
    file: &'a str,
    line: usize,
    weight: &'a str,
}

/// Kinds that the code makes. The tests below make one up in its own words, so xtask is not looked at.
fn of_the_code(tree: &Tree) -> BTreeMap<&str, Kind<'_>> {
    let mut kinds = BTreeMap::new();
    for (file, text) in tree.under("crates/", ".rs") {
        for (at, found) in text.match_indices("QueryKind {") {
            let inside = text[at + found.len()..].split('}').next().unwrap_or_default();
            let Some((_, rest)) = inside.split_once("name: \"") else { continue };
            let Some((name, rest)) = rest.split_once('"') else { continue };
            let weight = rest.split("Weight::").nth(1).unwrap_or_default();
            let weight = match weight.trim_end_matches([' ', ',', '\n']) {
                "MustMend" => "must mend",
                "Look" => "look",
                "Note" => "note",
                other => other,
            };
            kinds.insert(name, Kind { file, line: text[..at].lines().count().saturating_sub(1), weight });
        }
    }
    kinds
}

/// Kinds that the page tells: rows that begin with a name in back quotes.
fn of_the_page(page: &str) -> BTreeMap<&str, Kind<'_>> {
    let rows = page.lines().enumerate().filter_map(|(line, row)| {
        let (name, rest) = row.strip_prefix("| `")?.split_once('`')?;
        let weight = rest.split('|').nth(1)?.trim();
        Some((name, Kind { file: PAGE, line, weight }))
    });
    rows.collect()
}

/// Each kind of the code has its row, each row its kind, and both the same weight.
pub(super) fn kinds(tree: &Tree) -> Vec<Fault> {
    let (code, page) = (of_the_code(tree), of_the_page(tree.text(PAGE)));
    let mut faults = Vec::new();
    for (name, kind) in &code {
        match page.get(name) {
            None => {
                let mend =
                    format!("Add a row: | `{name}` | {} | what it means | an example | how to mend it |", kind.weight);
                faults.push(Fault::at(kind.file, kind.line, format!("{name} has no row in {PAGE}"), mend));
            }
            Some(told) if told.weight != kind.weight => {
                let what = format!("{name} is told as “{}”, and the code has “{}”", told.weight, kind.weight);
                faults.push(Fault::at(PAGE, told.line, what, "Change the one that is wrong"));
            }
            Some(_) => {}
        }
    }
    for (name, told) in page.iter().filter(|(name, _)| !code.contains_key(**name)) {
        faults.push(Fault::at(PAGE, told.line, format!("no code makes the query {name}"), "Take the row out"));
    }
    faults
}

#[cfg(test)]
mod tests {
    use super::*;

    fn faults(page: &str) -> Vec<String> {
        let code = "\npub static A: QueryKind = QueryKind { name: \"too-hot\", weight: Weight::Look };\n";
        let broken =
            "pub static B: QueryKind =\n    QueryKind {\n    name: \"too-cold\",\n    weight: Weight::MustMend,\n};\n";
        let tree = Tree::of(&[("crates/a/src/a.rs", code), ("crates/b/src/b.rs", broken), (PAGE, page)]);
        kinds(&tree).iter().map(Fault::to_string).collect()
    }

    #[test]
    fn ok_both_say_the_same() {
        assert_eq!(faults("| `too-hot` | look | x | y | z |\n| `too-cold` | must mend | x | y | z |\n"), [""; 0]);
    }

    #[test]
    fn err_missing_stale_and_of_another_weight() {
        let said = faults("| `too-hot` | note | x | y | z |\n| `too-wet` | look | x | y | z |\n");
        assert!(said[0].starts_with("crates/b/src/b.rs:2: too-cold has no row in docs/queries.md."), "{said:?}");
        assert!(
            said[1].starts_with("docs/queries.md:1: too-hot is told as “note”, and the code has “look”."),
            "{said:?}"
        );
        assert_eq!(said[2], "docs/queries.md:2: no code makes the query too-wet. Take the row out.");
    }
}
