//! Schemas of the JSON: each command that has one has its section on the page beside them.

use super::Fault;
use super::tree::Tree;

const PAGE: &str = "docs/json/README.md";

/// `NAME.schema.json` has the section "## `evencrumb NAME --json …`", and such a section its schema.
pub(super) fn sections(tree: &Tree) -> Vec<Fault> {
    let schemas = tree.under("docs/json/", ".schema.json");
    let schemas = schemas.filter_map(|(path, _)| path.rsplit('/').next()?.strip_suffix(".schema.json"));
    let schemas: Vec<&str> = schemas.collect();
    let sections = tree.text(PAGE).lines().enumerate();
    let sections =
        sections.filter_map(|(at, line)| Some((at, line.strip_prefix("## `evencrumb ")?.split(' ').next()?)));
    let sections: Vec<(usize, &str)> = sections.collect();

    let missing = schemas.iter().filter(|name| !sections.iter().any(|(_, section)| section == *name));
    let missing = missing.map(|name| {
        let mend = format!("Add “## `evencrumb {name} --json …`” with an example");
        Fault::of(PAGE, format!("{name}.schema.json has no section"), mend)
    });
    let stale = sections.iter().filter(|(_, section)| !schemas.contains(section));
    let stale = stale.map(|(at, section)| {
        let mend = "Add the answer to xtask/src/schema.rs and run `cargo xtask schema`, or take the section out";
        Fault::at(PAGE, *at, format!("there is no {section}.schema.json"), mend)
    });
    missing.chain(stale).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_and_err_sections() {
        let page = "# Page\n\n## `evencrumb bake --json FILE`\n\n## `evencrumb cool --json`\n";
        let whole = Tree::of(&[(PAGE, page), ("docs/json/bake.schema.json", ""), ("docs/json/cool.schema.json", "")]);
        assert_eq!(sections(&whole), []);
        let other = Tree::of(&[(PAGE, page), ("docs/json/bake.schema.json", ""), ("docs/json/rise.schema.json", "")]);
        let said: Vec<String> = sections(&other).iter().map(Fault::to_string).collect();
        assert!(said[0].starts_with("docs/json/README.md: rise.schema.json has no section."), "{said:?}");
        assert!(said[1].starts_with("docs/json/README.md:5: there is no cool.schema.json."), "{said:?}");
    }
}
