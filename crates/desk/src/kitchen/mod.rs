//! The kitchen a figure is for: read from `kitchen.toml` of the folder a manuscript lies in, or the usual one.

mod file;
mod ovens;
mod pans;
mod place;
mod words;

use std::path::{Path, PathBuf};

use evencrumb_pantry::weigh::Kitchen;
use evencrumb_sheet::fit::OwnPan;

use crate::{disk, folder};

pub use ovens::{Oven, OvenKind};
pub use place::Jurisdiction;
pub use words::in_words;

/// A kitchen with what could not be read of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Found {
    /// Whose measures and eggs are meant; what the file does not say, or says wrongly, is as in the usual kitchen.
    pub kitchen: Kitchen,
    /// The rest of what the file tells.
    pub household: Household,
    /// The file it was read from; nothing outside a kitchen folder.
    pub file: Option<PathBuf>,
    /// What is wrong in the file: what was read, where, what was taken instead, and how to mend it.
    pub faults: Vec<String>,
}

/// What a kitchen folder tells beyond measures and eggs.
#[derive(Clone, Debug, PartialEq)]
pub struct Household {
    /// What the author calls her kitchen.
    pub name: Option<String>,
    /// Metres above the sea; nothing when the file does not say, and then sea level is taken.
    pub altitude_metres: Option<f64>,
    /// The currency of prices, as an ISO 4217 code.
    pub currency: String,
    /// The language and country of pages, as `en-US` (BCP 47).
    pub locale: String,
    /// Whose law labels follow.
    pub jurisdiction: Jurisdiction,
    /// The author's pans, in the order written.
    pub pans: Vec<OwnPan>,
    /// The author's ovens, in the order written.
    pub ovens: Vec<Oven>,
}

impl Default for Household {
    fn default() -> Household {
        Household {
            name: None,
            altitude_metres: None,
            currency: "USD".to_owned(),
            locale: "en-US".to_owned(),
            jurisdiction: Jurisdiction::Us,
            pans: Vec::new(),
            ovens: Vec::new(),
        }
    }
}

/// The kitchen of the folder `start` or of one just above it; the usual kitchen where there is none.
pub fn beside(start: &Path) -> Found {
    let Some(file) = folder::upward(start, "kitchen.toml") else { return Found::default() };
    let name = file.display().to_string();
    let usual = |why: &str, mend: &str| {
        let taken = "the usual kitchen was taken: US cups and spoons, large US eggs, US law, sea level";
        Found { faults: vec![format!("{name} could not be read: {why}; {taken}. {mend}")], ..Found::default() }
    };
    let mut found = match disk::whole(&file).map(String::from_utf8) {
        Ok(Ok(text)) => file::read(&name, text.strip_prefix('\u{feff}').unwrap_or(&text)),
        Ok(Err(_)) => usual("it is not plain text in UTF-8", "Save it as plain text."),
        Err(why) => usual(&why.to_string(), why.mend()),
    };
    found.file = Some(file);
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_the_demo_kitchen_is_found_from_its_recipes() {
        let found = beside(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo/recipes"));
        assert!(found.file.is_some() && found.faults.is_empty(), "{found:?}");
        assert_eq!((found.household.pans.len(), found.household.ovens.len()), (13, 2));
        assert_eq!(found.household.altitude_metres, Some(240.0));
    }
}
