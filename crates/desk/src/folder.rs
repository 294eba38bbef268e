//! The kitchen folder: its files found from a recipe, and a new one laid out whole or not at all.

#![allow(clippy::disallowed_methods, reason = "lays out the kitchen folder")]

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use crate::disk;

/// How many folders upward a file is looked for: `recipes/` lies one below the kitchen folder.
const UPWARD: usize = 3;

/// What lies under that name in the folder `start` or in one just above it: a file, or what must be said to be none.
pub(crate) fn upward(start: &Path, name: &str) -> Option<PathBuf> {
    let start = if start.as_os_str().is_empty() { Path::new(".") } else { start };
    let start = start.canonicalize().unwrap_or_else(|_| start.to_owned());
    start.ancestors().take(UPWARD).map(|folder| folder.join(name)).find(|file| disk::lies_there(file))
}

/// Folders that every kitchen folder has.
const FOLDERS: &[&str] = &["recipes", "trials", "photos", "kept", "out"];

/// The author's files in a new folder, with remarks that say what belongs there.
const NEW: &[(&str, &str)] = &[
    ("kitchen.toml", include_str!("../data/new/kitchen.toml")),
    ("foods.toml", include_str!("../data/new/foods.toml")),
    ("prices.toml", include_str!("../data/new/prices.toml")),
    ("stock.toml", include_str!("../data/new/stock.toml")),
];

/// Makes an empty kitchen folder.
///
/// # Errors
/// Gives what the system says, and [`io::ErrorKind::AlreadyExists`] when something already lies there; then nothing is
/// changed.
pub fn new(folder: &Path) -> io::Result<()> {
    lay_out(folder, NEW)
}

/// Lays out a kitchen folder with these files, each by its place in the folder. It is made beside its place and moved there
/// when it is whole.
///
/// # Errors
/// As [`new`].
pub fn lay_out(folder: &Path, files: &[(&str, &str)]) -> io::Result<()> {
    // A link to nothing too, as it would be written over.
    if disk::lies_there(folder) {
        return Err(io::Error::from(io::ErrorKind::AlreadyExists));
    }
    let beside = folder
        .parent()
        .filter(|parent| !parent.as_os_str().is_empty())
        .map_or_else(|| PathBuf::from("."), Path::to_path_buf);
    let made = tempfile::Builder::new().prefix(".evencrumb-").tempdir_in(beside)?;
    for name in FOLDERS {
        fs::create_dir_all(made.path().join(name))?;
    }
    for (name, text) in files {
        fs::write(made.path().join(name), text)?;
    }
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        // A temporary folder is closed to others; the author's own is as any folder she makes.
        fs::set_permissions(made.path(), fs::Permissions::from_mode(0o755))?;
    }
    fs::rename(made.path(), folder)?;
    // It has left its temporary place, so there is nothing to clear away.
    let _ = made.keep();
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_a_new_folder_is_whole_and_its_kitchen_is_read() {
        let home = tempfile::tempdir().expect("a temporary folder");
        let folder = home.path().join("kitchen");
        new(&folder).expect("made");
        assert!(FOLDERS.iter().all(|name| folder.join(name).is_dir()));
        let found = crate::kitchen::beside(&folder.join("recipes"));
        assert!(found.file.is_some() && found.faults.is_empty(), "{found:?}");
        assert_eq!(fs::read_dir(home.path()).expect("a folder").count(), 1, "nothing is left behind");
    }

    #[test]
    fn err_what_lies_there_is_never_touched() {
        let home = tempfile::tempdir().expect("a temporary folder");
        fs::write(home.path().join("note.txt"), "mine").expect("written");
        let error = new(home.path()).expect_err("something lies there");
        assert_eq!(error.kind(), io::ErrorKind::AlreadyExists);
        assert_eq!(fs::read_dir(home.path()).expect("a folder").count(), 1);
    }
}
