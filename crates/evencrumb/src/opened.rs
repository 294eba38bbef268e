//! A manuscript opened in its kitchen: read, weighed and summed, for whichever command asks.

use std::path::Path;

use evencrumb_desk::kitchen::Found;
use evencrumb_desk::shelf::Beside;
use evencrumb_manuscript::word::name_key;
use evencrumb_manuscript::{Manuscript, Text, read_text};
use evencrumb_pantry::Pantry;
use evencrumb_sheet::{Choice, Offer, Setting, Sheet, Unchosen};

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
    /// The choices that were asked for, by their names; nothing when none was.
    pub choice: Option<String>,
    /// The foods of its kitchen.
    pub pantry: Pantry,
    /// Its kitchen.
    pub found: Found,
}

impl Opened {
    /// Opens a file. Each of `with` names an alternative that is taken in place of the first, or another choice.
    pub fn of(file: &Path, with: &[String]) -> Result<Opened, Trouble> {
        let (foods, found) = out::at_hand(file.parent().unwrap_or(Path::new(".")));
        let text = read_text(&input::file(file)?)
            .map_err(|refused| Trouble::NoManuscript { file: file.to_owned(), why: refused.to_string() })?;
        let Text { text, queries, .. } = text;
        let mut manuscript = evencrumb_manuscript::read(&text, &foods.pantry);
        // What the file's encoding asks comes before what its words ask.
        manuscript.queries.splice(0..0, queries);
        let shelf = Beside::of(file, &foods.pantry);
        let setting =
            Setting { pantry: &foods.pantry, kitchen: found.kitchen, shelf: &shelf, pans: &found.household.pans };
        let unchosen = Unchosen::of(&text, &manuscript, &setting);
        let chosen = if with.is_empty() { Vec::new() } else { chosen(&unchosen.offers(), with, file)? };
        let choice = chosen.iter().fold(Choice::default(), |choice, offer| choice.and(&offer.choice));
        let sheet = unchosen.sheet(&choice);
        out::faults(&shelf.faults());
        sheet.components.iter().flat_map(|part| &part.lines).for_each(|line| out::odd(&foods, &line.weighed));
        let names: Vec<&str> = chosen.iter().map(|offer| offer.name.as_str()).collect();
        let choice = (!names.is_empty()).then(|| names.join("; "));
        Ok(Opened { text, manuscript, sheet, choice, pantry: foods.pantry, found })
    }
}

/// The offers that the words mean, each of other lines than the others.
fn chosen(offers: &[Offer], with: &[String], file: &Path) -> Result<Vec<Offer>, Trouble> {
    let mut chosen: Vec<Offer> = Vec::new();
    for wanted in with {
        let offer = named(offers, wanted, file)?;
        let twice = |other: &&Offer| other.lines.iter().any(|line| offer.lines.contains(line));
        if let Some(other) = chosen.iter().find(twice) {
            let line = offer.lines.iter().find(|line| other.lines.contains(line)).copied().unwrap_or_default();
            let (one, other) = (other.name.clone(), offer.name.clone());
            return Err(Trouble::ChosenTwice { file: file.to_owned(), line, one, other });
        }
        chosen.push(offer.clone());
    }
    Ok(chosen)
}

/// The one offer that the words mean.
fn named<'o>(offers: &'o [Offer], wanted: &str, file: &Path) -> Result<&'o Offer, Trouble> {
    let key = name_key(wanted);
    if let Some(offer) = offers.iter().find(|offer| name_key(&offer.name) == key) {
        return Ok(offer);
    }
    let short = |offer: &&Offer| name_key(&offer.name).split_once(" in place of ").is_some_and(|(with, _)| with == key);
    let meant: Vec<&Offer> = offers.iter().filter(short).collect();
    let names = |offers: &mut dyn Iterator<Item = &Offer>| offers.map(|offer| offer.name.clone()).collect();
    let (file, wanted) = (file.to_owned(), wanted.to_owned());
    match meant[..] {
        [offer] => Ok(offer),
        [] => Err(Trouble::NoSuchChoice { file, wanted, there: names(&mut offers.iter()) }),
        _ => Err(Trouble::SeveralChoices { file, wanted, meant: names(&mut meant.into_iter()) }),
    }
}
