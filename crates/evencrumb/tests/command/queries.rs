//! The examples of docs/queries.md bring the queries they stand for.

use std::path::Path;

use crate::program::{run, run_in};

/// Longer than what is read of a line.
const LONG: usize = 5000;

fn page() -> String {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/queries.md");
    std::fs::read_to_string(file).expect("the page is committed")
}

/// Names and the cell of the example, of each row of the page's tables.
fn rows(page: &str) -> Vec<(&str, &str)> {
    let rows = page.lines().filter_map(|line| line.strip_prefix("| `")?.split_once("` | "));
    rows.map(|(name, rest)| (name, rest.split(" | ").nth(2).expect("a cell with an example"))).collect()
}

/// Names of the queries in an answer, wherever in it they stand.
fn brought(json: &str) -> Vec<String> {
    let answer: serde_json::Value = serde_json::from_str(json).unwrap_or_else(|wrong| panic!("{wrong} in {json:?}"));
    let queries = answer["queries"].as_array().expect("queries").iter();
    queries.map(|query| query["name"].as_str().expect("a name").to_owned()).collect()
}

/// Queries of `evencrumb measures`; all other lines are weighed.
const OF_MEASURES: &[&str] = &["no-weight-to-measure", "too-much-to-measure"];

fn of_a_line(name: &str, cell: &str) -> Vec<String> {
    let command = if OF_MEASURES.contains(&name) { "measures" } else { "weigh" };
    let (line, rest) = cell.trim_start_matches('`').split_once('`').expect("a line in back quotes");
    let more = if rest.contains("and so on") { " and sifted".repeat(LONG / 11) } else { String::new() };
    brought(&run(&[command, "--json", &format!("{line}{more}")]).out)
}

/// Lays out the recipes of the section with that name in a folder, and asks for the sheet or other amounts of the first.
fn of_a_recipe(page: &str, name: &str) -> Vec<String> {
    let section = page.split("\n### ").find(|section| section.lines().next() == Some(name)).expect("a section");
    let folder = tempfile::tempdir().expect("a folder");
    for (at, fence) in section.split("```text").skip(1).enumerate() {
        let (saved_as, rest) = fence.split_once('\n').expect("a line behind the fence");
        let text = rest.split("```").next().expect("an end");
        let bytes = match saved_as {
            ", saved as Windows-1252" => text.chars().map(|c| u8::try_from(c).expect("a letter of Latin 1")).collect(),
            _ => text.as_bytes().to_vec(),
        };
        std::fs::write(folder.path().join(format!("{at}.txt")), bytes).expect("the folder can be written");
    }
    let to = section.split("--to \"").nth(1).and_then(|rest| rest.split('"').next());
    let arguments = match to {
        Some(to) => vec!["scale", "--json", "0.txt", "--to", to],
        None => vec!["sheet", "--json", "0.txt"],
    };
    brought(&run_in(folder.path(), &arguments).out)
}

#[test]
fn ok_each_example_brings_its_query() {
    let page = page();
    let rows = rows(&page);
    assert!(rows.len() > 40, "the page lost its rows");
    for (name, cell) in rows {
        let brought = if cell.starts_with('`') { of_a_line(name, cell) } else { of_a_recipe(&page, name) };
        assert!(brought.iter().any(|one| one == name), "the example of {name} brings {brought:?}");
    }
}
