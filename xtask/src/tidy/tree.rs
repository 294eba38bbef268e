//! The files of the repository, without what git is told to pass over.

use std::collections::BTreeMap;
use std::path::Path;

use anyhow::Context;

/// Files by their path from the top, with `/` between folders.
pub(super) struct Tree(BTreeMap<String, String>);

impl Tree {
    /// Reads the folder. Not asked of git: a copy without its history has to be tidy too.
    pub fn read(top: &Path) -> anyhow::Result<Tree> {
        let ignored = std::fs::read_to_string(top.join(".gitignore")).context("reading .gitignore")?;
        let mut files = BTreeMap::new();
        walk(top, "", &ignored, &mut files)?;
        Ok(Tree(files))
    }

    /// Files made up for a test.
    #[cfg(test)]
    pub fn of(files: &[(&str, &str)]) -> Tree {
        Tree(files.iter().map(|(path, text)| ((*path).to_owned(), (*text).to_owned())).collect())
    }

    /// Path and text of every file, by path.
    pub fn files(&self) -> impl Iterator<Item = (&str, &str)> {
        self.0.iter().map(|(path, text)| (path.as_str(), text.as_str()))
    }

    /// Files whose path begins and ends so.
    pub fn under<'a>(&'a self, start: &'a str, end: &'a str) -> impl Iterator<Item = (&'a str, &'a str)> {
        self.files().filter(move |(path, _)| path.starts_with(start) && path.ends_with(end))
    }

    /// The text of one file; empty when there is none, which no page of ours is.
    pub fn text(&self, path: &str) -> &str {
        self.0.get(path).map_or("", String::as_str)
    }

    /// Whether a file lies there, or a folder with files.
    pub fn has(&self, path: &str) -> bool {
        let folder = format!("{}/", path.trim_end_matches('/'));
        self.0.contains_key(path) || self.0.keys().any(|file| file.starts_with(&folder))
    }

    /// How many files.
    pub fn len(&self) -> usize {
        self.0.len()
    }
}

fn walk(top: &Path, folder: &str, ignored: &str, files: &mut BTreeMap<String, String>) -> anyhow::Result<()> {
    let entries = std::fs::read_dir(top.join(folder)).with_context(|| format!("reading the folder {folder}"))?;
    for entry in entries {
        let entry = entry?;
        let path = format!("{folder}{}", entry.file_name().to_string_lossy());
        if is_passed_over(&path, ignored) {
            continue;
        }
        if entry.file_type()?.is_dir() {
            walk(top, &format!("{path}/"), ignored, files)?;
        } else {
            // A packed table and a recipe in an old encoding are no UTF-8, and are looked through all the same.
            let bytes = std::fs::read(entry.path()).with_context(|| format!("reading {path}"))?;
            files.insert(path, String::from_utf8_lossy(&bytes).into_owned());
        }
    }
    Ok(())
}

/// By the two forms that our .gitignore has: a path from the top (`/target`), an ending (`*.pending-snap`).
fn is_passed_over(path: &str, ignored: &str) -> bool {
    let named = |line: &str| match line.strip_prefix('*') {
        Some(ending) => path.ends_with(ending),
        None => line.strip_prefix('/') == Some(path),
    };
    path == ".git" || ignored.lines().any(named)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_what_git_passes_over_is_passed_over() {
        let over = |path| is_passed_over(path, "/target\n/fuzz/corpus\n*.pending-snap\n");
        assert!([".git", "target", "fuzz/corpus", "crates/a/.tests.rs.pending-snap"].into_iter().all(over));
        assert!(!["crates/target", "fuzz/corpus-notes.md", ".gitignore"].into_iter().any(over));
    }

    #[test]
    fn ok_the_repository_is_read() {
        let tree = Tree::read(&crate::repository()).unwrap();
        assert!(tree.has("xtask/src/tidy/tree.rs") && tree.has("crates/pantry"));
        assert!(!tree.has("target"));
        // No form of .gitignore that is not understood here.
        let lines: Vec<&str> = tree.text(".gitignore").lines().collect();
        assert!(lines.iter().all(|line| line.starts_with('/') || line.starts_with("*.")), "{lines:?}");
    }
}
