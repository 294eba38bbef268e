//! The other manuscripts of a kitchen folder, read from disk when a line names one.

#![allow(clippy::disallowed_methods, reason = "opens the other recipes of the folder")]

use std::cell::{OnceCell, RefCell};
use std::path::{Path, PathBuf};

use evencrumb_manuscript::line::{self, Kind};
use evencrumb_manuscript::read_text;
use evencrumb_pantry::Pantry;
use evencrumb_sheet::shelf::Shelf;

use crate::disk;

/// Bytes at the start of a file in which its title is looked for.
const TITLE_WITHIN: usize = 2_000;

/// The manuscripts that lie in the folder of one, itself too: a recipe that is made with itself is to be found out.
#[derive(Debug)]
pub struct Beside<'p> {
    folder: PathBuf,
    pantry: &'p Pantry,
    files: OnceCell<Vec<PathBuf>>,
    names: OnceCell<Vec<Vec<String>>>,
    faults: RefCell<Vec<String>>,
}

impl Beside<'_> {
    /// The manuscripts in the folder where `file` lies; none of it is read yet. The foods of the pantry tell a title from a
    /// line of ingredients.
    pub fn of<'p>(file: &Path, pantry: &'p Pantry) -> Beside<'p> {
        let folder = file.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
        Beside {
            folder: folder.to_owned(),
            pantry,
            files: OnceCell::new(),
            names: OnceCell::new(),
            faults: RefCell::default(),
        }
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

impl Beside<'_> {
    /// The title in the first lines of a text; nothing where there is none, and the recipe goes by its file's name only.
    fn title(&self, start: &str) -> Option<String> {
        let mut rows = start.lines().map(str::trim);
        let first = rows.find(|row| row.contains(char::is_alphanumeric))?;
        let read = line::read(first, self.pantry);
        // "1 cup flour" at the top is no title, and lines that ask for flour don't mean this recipe. The whole reader tells
        // it from "7 Layer Bars"; it is asked only then, because every file of the folder comes through here.
        if read.kind == Kind::Ingredient && read.foods.iter().any(|food| !food.amounts.is_empty()) {
            return evencrumb_manuscript::read(start, self.pantry).title;
        }
        Some(first.trim_matches(|c: char| !c.is_alphanumeric()).to_owned())
    }
}

impl Shelf for Beside<'_> {
    fn names(&self) -> Vec<Vec<String>> {
        let names = |path: &PathBuf| {
            let title = self.title(&start_of(path));
            let file = path.file_stem().map(|stem| stem.to_string_lossy().replace(['-', '_'], " "));
            title.into_iter().chain(file).collect()
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

/// The first bytes of a file as text; nothing when it can't be read or is no plain text.
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
    read_text(&bytes).map(|text| text.text).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(folder: &Path, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
        let path = folder.join(name);
        std::fs::write(&path, bytes).expect("written");
        path
    }

    #[test]
    fn ok_titles_of_the_others_and_their_texts() {
        let folder = tempfile::tempdir().expect("a folder");
        file(folder.path(), "plum-cake.txt", "# Plum Layer Cake\n\n1 plum\n");
        let own = file(folder.path(), "pies.txt", "Pies\n");
        file(folder.path(), "photo.jpg", "no text");
        let shelf = Beside::of(&own, Pantry::ours());
        assert_eq!(shelf.names(), [["Pies", "pies"], ["Plum Layer Cake", "plum cake"]]);
        assert!(shelf.text(1).is_some_and(|text| text.contains("1 plum")));
        assert_eq!(shelf.text(2), None);
    }

    #[test]
    fn err_a_line_of_ingredients_and_a_picture_are_no_titles() {
        let folder = tempfile::tempdir().expect("a folder");
        let own = file(folder.path(), "a-list.txt", "\n- 1 cup (120 g) flour, sifted\n- 2 eggs\n- 100 g sugar\n");
        file(folder.path(), "bars.txt", "7 Layer Bars\n\n1 cup oats\n2 eggs\n100 g sugar\n");
        file(folder.path(), "photo.txt", [0xC3, 0x00, 0x9D, 0x1B, 0x41, 0xFF, 0x00, 0x07]);
        let shelf = Beside::of(&own, Pantry::ours());
        assert_eq!(shelf.names(), [vec!["a list"], vec!["7 Layer Bars", "bars"], vec!["photo"]]);
    }
}
