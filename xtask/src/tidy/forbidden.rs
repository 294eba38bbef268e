//! Texts that may stand in no file: of somebody's machine, of a registry, of a merge that was not finished.

use super::Fault;
use super::tree::Tree;

const LOCK: &str = "Cargo.lock";
/// What the lock names for every crate of others, on every machine.
const USUAL_SOURCE: &str = concat!("source = \"registry+https://github.com/rust-lang/crates", ".io-index\"");

/// Begin of a path that leads somewhere on one machine only. Written in two halves, so that this file holds none.
const MACHINE_PATHS: &[&str] = &[
    concat!("/ho", "me/"),
    concat!("/Us", "ers/"),
    concat!("/ro", "ot/"),
    concat!("/wo", "rk/"),
    concat!("C:\\Us", "ers"),
];
/// Where packages come from is for each one's own settings to say.
const REGISTRIES: &[&str] = &[
    concat!("crates", ".io"),
    concat!("registry", ".npmjs"),
    concat!("npm", "js.com"),
    concat!("py", "pi.org"),
    concat!("art", "ifactory"),
    concat!("index", "-url"),
];
/// Begin of a line that git writes where two changes meet.
const MERGES: &[&str] = &[concat!("<<<<", "<<< "), concat!(">>>>", ">>> "), concat!("||||", "||| ")];

/// What is wrong with a line, and how to mend it.
fn fault(file: &str, line: &str) -> Option<(&'static str, &'static str)> {
    let holds = |words: &[&str]| words.iter().any(|word| line.contains(word));
    let usual = file == LOCK && line == USUAL_SOURCE;
    if MERGES.iter().any(|mark| line.starts_with(mark)) {
        Some(("a merge was not finished here", "Choose between the two texts and take the marks out"))
    } else if holds(MACHINE_PATHS) {
        Some(("a path of one machine stands here", "Write it from the top of the repository, or as an example name"))
    } else if holds(REGISTRIES) && !usual {
        Some(("a registry is named here", "Take it out; from where packages come is for each one's own settings"))
    } else {
        None
    }
}

/// Looks through every line of every file. Says the place only, since there are lines that nobody may read.
pub(super) fn texts(tree: &Tree) -> Vec<Fault> {
    let lines = tree.files().flat_map(|(file, text)| text.lines().enumerate().map(move |(at, line)| (file, at, line)));
    lines.filter_map(|(file, at, line)| fault(file, line).map(|(what, mend)| Fault::at(file, at, what, mend))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn faults(file: &str, text: &str) -> Vec<String> {
        texts(&Tree::of(&[(file, text)])).iter().map(Fault::to_string).collect()
    }

    #[test]
    fn ok_plain_texts_and_the_lock() {
        let rule = "=".repeat(7);
        assert_eq!(faults("a.md", &format!("Title\n{rule}\nwork/hours > 7 and /homemade/\n")), [""; 0]);
        assert_eq!(faults(LOCK, USUAL_SOURCE), [""; 0]);
    }

    #[test]
    fn err_each_of_them() {
        for word in MACHINE_PATHS.iter().chain(REGISTRIES) {
            assert_eq!(faults("a.md", &format!("first\nsee {word}there\n")).len(), 1, "{word}");
        }
        for mark in MERGES {
            let said = faults("a.md", &format!("{mark}HEAD\n"));
            assert!(said[0].starts_with("a.md:1: a merge was not finished here."), "{said:?}");
        }
    }

    #[test]
    fn err_a_lock_of_another_registry() {
        let mirror = format!("source = \"registry+https://crates{}.example/index\"", ".io");
        assert_eq!(faults(LOCK, &mirror).len(), 1);
    }
}
