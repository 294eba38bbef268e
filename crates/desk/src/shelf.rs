//! The other manuscripts of a kitchen folder, read from disk when a line names one.

#![allow(clippy::disallowed_methods, reason = "opens the other recipes of the folder")]

use std::cell::{OnceCell, RefCell};
use std::path::{Path, PathBuf};

use evencrumb_manuscript::read_text;
use evencrumb_sheet::shelf::Shelf;

use crate::disk;

/// Bytes at the start of a file in which its title is looked for.
const TITLE_WITHIN: usize = 2_000;

/// The manuscripts that lie in the folder of one, itself too: a recipe that is made with itself is to be found out.
#[derive(Debug, Default)]
pub struct Beside {
    folder: PathBuf,
    files: OnceCell<Vec<PathBuf>>,
    names: OnceCell<Vec<Vec<String>>>,
    faults: RefCell<Vec<String>>,
}

impl Beside {
    /// The manuscripts in the folder where `file` lies; none of it is read yet.
    pub fn of(file: &Path) -> Beside {
        let folder = file.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
        Beside { folder: folder.to_owned(), ..Beside::default() }
    }

    /// What has the name of a plain text, in the order of the names; a link to nothing too, so that whoever takes of it is
    /// told.
    fn files(&self) -> &[PathBuf] {
        self.files.get_or_init(|| {
            let entries = std::fs::read_dir(&self.folder).into_iter().flatten().flatten();
            let mut files: Vec<PathBuf> = entries
                .map(|entry| entry.path())
                .filter(|path| path.extension().is_some_and(|ending| ending == "txt"))
                .collect();
            files.sort();
            files
        })
    }

    /// Why a recipe that a line names could not be read, in sentences.
    pub fn faults(&self) -> Vec<String> {
        self.faults.borrow().clone()
    }
}

impl Shelf for Beside {
    fn names(&self) -> Vec<Vec<String>> {
        let names = |path: &PathBuf| {
            let start = start_of(path);
            // The whole reader finds a title better; this one is asked of every file of the folder and must be cheap.
            let title = start
                .lines()
                .map(|line| line.trim_matches(|c: char| !c.is_alphanumeric()))
                .find(|line| !line.is_empty());
            let file = path.file_stem().map(|stem| stem.to_string_lossy().replace(['-', '_'], " "));
            title.map(str::to_owned).into_iter().chain(file).collect()
        };
        self.names.get_or_init(|| self.files().iter().map(names).collect()).clone()
    }

    fn text(&self, at: usize) -> Option<String> {
        let path = self.files().get(at)?;
        let read = disk::bytes(path).map_err(|why| format!("{why}. {}", why.mend()));
        let text = read.and_then(|bytes| read_text(&bytes).map_err(|refused| refused.to_string()));
        let fault = |why: String| {
            let words = format!("{}, which a line names, could not be read: {why}", path.display());
            self.faults.borrow_mut().push(words);
        };
        text.map_err(fault).ok().map(|text| text.text)
    }
}

/// The first bytes of a file as text; nothing when it can't be read.
fn start_of(path: &Path) -> String {
    use std::io::Read;
    if disk::plain_file(path).is_err() {
        return String::new();
    }
    let mut bytes = Vec::new();
    let read = std::fs::File::open(path).and_then(|file| file.take(TITLE_WITHIN as u64).read_to_end(&mut bytes));
    if read.is_err() {
        return String::new();
    }
    read_text(&bytes).map_or_else(|_| String::from_utf8_lossy(&bytes).into_owned(), |text| text.text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_titles_of_the_others_and_their_texts() {
        let folder = tempfile::tempdir().expect("a folder");
        let file = |name: &str, text: &str| {
            let path = folder.path().join(name);
            std::fs::write(&path, text).expect("written");
            path
        };
        file("plum-cake.txt", "# Plum Layer Cake\n\n1 plum\n");
        let own = file("pies.txt", "Pies\n");
        file("photo.jpg", "no text");
        let shelf = Beside::of(&own);
        assert_eq!(shelf.names(), [["Pies", "pies"], ["Plum Layer Cake", "plum cake"]]);
        assert!(shelf.text(1).is_some_and(|text| text.contains("1 plum")));
        assert_eq!(shelf.text(2), None);
    }
}
