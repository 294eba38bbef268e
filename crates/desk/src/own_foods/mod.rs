//! The author's own `foods.toml`: read beside her kitchen ([`beside`]), and written to when she asks ([`edit`]).
//!
//! What stands in it, and how it is read, is told in [`evencrumb_pantry::own`].

pub mod edit;

use std::path::{Path, PathBuf};

use evencrumb_manuscript::{FoodId, Weight};
use evencrumb_pantry::Pantry;
use evencrumb_pantry::own::{self, Own, Remark};

use crate::{disk, kitchen, rows};

/// The name of the file in a kitchen folder.
pub const FILE: &str = "foods.toml";

/// The foods at hand in a kitchen.
#[derive(Clone, Debug)]
pub struct Found {
    /// Ours and the author's own; ours alone outside a kitchen folder and where there is no such file.
    pub pantry: Pantry,
    /// The file, when there is one.
    pub file: Option<PathBuf>,
    /// What is wrong in the file: what was read, where, what was taken instead, and how to mend it.
    pub faults: Vec<String>,
    /// What is out of the usual in what a food weighs, in the same form: worth a look by whoever asks of that food.
    pub odd: Vec<(FoodId, String)>,
    /// What is only to be known, as that a word of hers meant another food before.
    pub notes: Vec<String>,
}

/// The foods of a kitchen that was found, or was not.
pub fn beside(kitchen: &kitchen::Found) -> Found {
    let Some(file) = file(kitchen).filter(|file| disk::lies_there(file)) else {
        return Found { file: None, ..told(Path::new(FILE), Own::none(kitchen.kitchen)) };
    };
    match disk::whole(&file) {
        Ok(bytes) => {
            let text = String::from_utf8_lossy(&bytes);
            let text = text.strip_prefix('\u{feff}').unwrap_or(&text);
            let mut found = told(&file, own::read(FILE, text, kitchen.kitchen));
            if std::str::from_utf8(&bytes).is_err() {
                let name = file.display();
                found
                    .faults
                    .push(format!("{name} is not all text in UTF-8; what could be read was used. Save it as UTF-8."));
            }
            found
        }
        Err(why) => {
            let mut found = told(&file, Own::none(kitchen.kitchen));
            let (name, mend) = (file.display(), why.mend());
            found
                .faults
                .push(format!("{name} could not be read: {why}; only the foods of the program were used. {mend}"));
            found
        }
    }
}

/// Where the file of a kitchen lies or would lie; `None` outside a kitchen folder.
pub fn file(kitchen: &kitchen::Found) -> Option<PathBuf> {
    Some(kitchen.file.as_ref()?.with_file_name(FILE))
}

fn told(file: &Path, own: Own) -> Found {
    let (notes, remarks): (Vec<Remark>, Vec<Remark>) =
        own.remarks.into_iter().partition(|remark| remark.weight == Weight::Note);
    let sentence = |remark: &Remark| sentence(file, remark);
    let (mut faults, mut odd) = (Vec::new(), Vec::new());
    for remark in &remarks {
        let food = remark.fault.food.as_ref().filter(|_| remark.weight == Weight::Look);
        match food.and_then(|food| own.pantry.named(food)) {
            Some(food) => odd.push((food, sentence(remark))),
            None => faults.push(sentence(remark)),
        }
    }
    let count = faults.len();
    Found {
        pantry: own.pantry,
        file: Some(file.to_owned()),
        faults: rows::few(&file.display().to_string(), faults.into_iter(), count),
        odd,
        notes: notes.iter().map(sentence).collect(),
    }
}

/// As `foods.toml, line 5: pecan flour: … Write …`.
fn sentence(file: &Path, Remark { fault, .. }: &Remark) -> String {
    let food = fault.food.as_ref().map(|food| format!("{food}: ")).unwrap_or_default();
    let mut mend = fault.mend.chars();
    let mend = mend.next().map(|first| first.to_uppercase().chain(mend).collect::<String>()).unwrap_or_default();
    format!("{}, line {}: {food}{}. {mend}.", file.display(), fault.place.line, fault.what)
}

#[cfg(test)]
mod tests;
