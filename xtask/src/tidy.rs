//! Whether the repository says of itself what is so: which crate uses which, which files are embedded, which pages are
//! whole. Each rule is one function from the files to what breaks it.

mod crates;
mod dependency;
mod forbidden;
mod page;
mod query;
mod row;
mod schema;
mod tree;

use std::fmt;

use anyhow::bail;
use tree::Tree;

/// Something that is not so.
#[derive(Debug, PartialEq, Eq)]
struct Fault {
    /// The file, from the top of the repository.
    file: String,
    /// Its line, from 1; none when the whole file is meant.
    line: Option<usize>,
    /// What is wrong, as a clause.
    what: String,
    /// How to mend it, as a sentence without its stop.
    mend: String,
}

impl Fault {
    /// Of a whole file.
    fn of(file: &str, what: impl Into<String>, mend: impl Into<String>) -> Fault {
        Fault { file: file.to_owned(), line: None, what: what.into(), mend: mend.into() }
    }

    /// Of one line, counted from 0.
    fn at(file: &str, line: usize, what: impl Into<String>, mend: impl Into<String>) -> Fault {
        Fault { line: Some(line + 1), ..Fault::of(file, what, mend) }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let line = self.line.map(|line| format!(":{line}")).unwrap_or_default();
        write!(out, "{}{line}: {}. {}.", self.file, self.what, self.mend)
    }
}

type Rule = fn(&Tree) -> Vec<Fault>;

/// Every rule, with what it looks at.
const RULES: &[(&str, Rule)] = &[
    ("crates use each other as the table of ARCHITECTURE.md says", crates::uses),
    ("outside crates have their entry in docs/dependencies.md", dependency::entries),
    ("outside crates that are declared are used", dependency::used),
    ("no text of this machine, of a registry or of a merge", forbidden::texts),
    ("rows and pages that ship are named by the code that takes them in", row::taken_in),
    ("rows stand in the table of ARCHITECTURE.md", row::listed),
    ("every module says in its first line what it is", page::first_lines),
    ("pages of docs are linked", page::linked),
    ("links lead to a file", page::links),
    ("kinds of queries stand in docs/queries.md", query::kinds),
    ("schemas of JSON have their section", schema::sections),
];

/// Prints what breaks a rule; fails when anything does.
pub fn run() -> anyhow::Result<()> {
    let tree = Tree::read(&crate::repository())?;
    let mut count = 0;
    for (looks_at, rule) in RULES {
        let faults = rule(&tree);
        if !faults.is_empty() {
            println!("not so: {looks_at}");
        }
        faults.iter().for_each(|fault| println!("  {fault}"));
        count += faults.len();
    }
    if count > 0 {
        bail!("{count} to mend before the repository is tidy");
    }
    println!("tidy: {} rules hold of {} files", RULES.len(), tree.len());
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_a_fault_says_where_what_and_how_to_mend_it() {
        let fault = Fault::at("docs/a.md", 4, "the word is missing", "Write it");
        assert_eq!(fault.to_string(), "docs/a.md:5: the word is missing. Write it.");
    }
}
