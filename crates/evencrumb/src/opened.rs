//! A manuscript opened in its kitchen: read, weighed and summed, for whichever command asks.

use std::path::Path;

use evencrumb_desk::kitchen::Found;
use evencrumb_desk::own_foods;
use evencrumb_desk::shelf::Beside;
use evencrumb_manuscript::word::name_key;
use evencrumb_manuscript::{Manuscript, Text, read_text};
use evencrumb_pantry::Pantry;
use evencrumb_sheet::{Choice, Setting, Sheet, Variant};

use crate::trouble::Trouble;
use crate::{input, out};

/// A manuscript with all that was computed of it.
pub struct Opened {
    /// Its text.
    pub text: String,
    /// What was read in it.
    pub manuscript: Manuscript,
    /// Its figures.
    pub sheet: Sheet,
    /// The choice that was asked for, by its name.
    pub choice: Option<String>,
    /// The foods of its kitchen.
    pub pantry: Pantry,
    /// Its kitchen.
    pub found: Found,
}

impl Opened {
    /// Opens a file. `with` names an alternative that is taken in place of the first, or another variant.
    pub fn of(file: &Path, with: Option<&str>) -> Result<Opened, Trouble> {
        let (own_foods::Found { pantry, .. }, found) = out::at_hand(file.parent().unwrap_or(Path::new(".")));
        let text = read_text(&input::file(file)?)
            .map_err(|refused| Trouble::NoManuscript { file: file.to_owned(), why: refused.to_string() })?;
        let Text { text, queries, .. } = text;
        let mut manuscript = evencrumb_manuscript::read(&text, &pantry);
        // What the file's encoding asks comes before what its words ask.
        manuscript.queries.splice(0..0, queries);
        let shelf = Beside::of(file);
        let setting = Setting { pantry: &pantry, kitchen: found.kitchen, shelf: &shelf, pans: &found.household.pans };
        let mut sheet = Sheet::of(&text, &manuscript, &setting, &Choice::default());
        let mut choice = None;
        if let Some(wanted) = with {
            let variant = variant(&sheet, wanted, file)?;
            sheet = Sheet::of(&text, &manuscript, &setting, &variant.choice);
            choice = Some(variant.name);
        }
        Ok(Opened { text, manuscript, sheet, choice, pantry, found })
    }
}

/// The variant of the sheet that the words mean.
fn variant(sheet: &Sheet, wanted: &str, file: &Path) -> Result<Variant, Trouble> {
    let key = name_key(wanted);
    let named = |variant: &&Variant| {
        let name = name_key(&variant.name);
        name == key || name.split_once(" in place of ").is_some_and(|(with, _)| with == key)
    };
    sheet.variants.iter().find(named).cloned().ok_or_else(|| Trouble::NoSuchVariant {
        file: file.to_owned(),
        wanted: wanted.to_owned(),
        there: sheet.variants.iter().map(|variant| variant.name.clone()).collect(),
    })
}
