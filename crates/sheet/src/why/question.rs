//! What is asked: a figure, and of what.

use evencrumb_manuscript::word::name_key;
use evencrumb_measure::Number;
use evencrumb_pantry::Nutrient;

use super::names::{named, numbered, within};
use super::numbers::Numbers;
use super::words::{EMPTY, WEIGHTS, nutrient, nutrients, said, special};
use super::{answer, held, near};
use crate::sheet::Sheet;

/// Which figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// Grams.
    Grams,
    /// Money.
    Cost,
    /// A nutrient.
    Nutrient(Nutrient),
    /// Energy in kilojoules.
    Kilojoules,
    /// Salt as labels outside the USA count it: 2.5 times the sodium.
    Salt,
    /// Sugars of foods that count as added.
    AddedSugars,
    /// A nutrient in percent: grams in 100 g. Only while a question is read.
    PerHundred,
    /// How many it makes or serves.
    Yield,
    /// Which foods hold what people with an allergy ask for.
    Allergens,
    /// Water for 100 g of flours and starches.
    Hydration,
    /// The share of a line in its component.
    Share,
    /// Grams of a line for 100 g of the flours, starches and nut flours of its component.
    BakersPercent,
    /// How full the pan is.
    Full,
    /// How deep the batter stands in the pan.
    Deep,
}

/// Of what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Of {
    /// The whole batch as it is eaten.
    Batch,
    /// The whole batch before heat.
    RawBatch,
    /// So many grams, raw or as it is eaten.
    Weighing {
        /// How many.
        grams: Number,
        /// Whether before heat.
        raw: bool,
    },
    /// A component, by number, raw.
    Component(usize),
    /// Lines: component and line.
    Lines(Vec<(usize, usize)>),
}

/// One of what.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Per {
    /// One serving, or one piece where servings are not said.
    Serving,
    /// One piece.
    Piece,
}

/// A question as understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// Which figure.
    pub what: What,
    /// Of what.
    pub of: Of,
    /// Divided by what, if by anything.
    pub per: Option<Per>,
    /// How many servings or pieces it is asked of.
    pub times: Number,
    /// The figure as the page says it, where one was quoted.
    pub quoted: Option<f64>,
    /// Whether one of what a line counts is meant, as one egg of four.
    pub one: bool,
    /// What else was said: which pan, or which allergen.
    pub about: Vec<String>,
}

/// A question that was not understood.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{said}")]
pub struct Misunderstood {
    /// What was read and why it gives nothing.
    pub said: String,
    /// What can be asked.
    pub mend: String,
}

pub(super) fn refused(said: String, mend: &str) -> Misunderstood {
    Misunderstood { said, mend: mend.to_owned() }
}

/// Reads a question about a sheet.
///
/// # Errors
/// Gives what was not understood and what can be asked.
pub fn read(question: &str, sheet: &Sheet) -> Result<Question, Misunderstood> {
    let own = sheet.makes.word.as_deref().map(name_key).unwrap_or_default();
    let Numbers { line, grams, times, quoted, mut words } = Numbers::of(question, &own)?;
    if let Some(about) = held::asked(&words)? {
        return Ok(Question { about, ..Question::plain(What::Allergens, Of::Batch) });
    }
    let several = question.contains([',', '&']) || words.iter().any(|word| word == "and" || word == "plus");
    // Whole lines and components are named before figures: "grams of the brown sugar" asks for no sugars.
    if said(&mut words, &["line"]) && line.is_none() {
        return Err(misunderstood(question, sheet));
    }
    // "One egg", and not "one of the squares".
    let single = words.iter().any(|word| ["one", "single", "each", "a", "an", "per"].contains(&word.as_str()));
    let state = oven(&mut words);
    let heaviest = ["heaviest", "largest", "biggest"].iter().any(|word| said(&mut words, &[word, "ingredient"]));
    let special = special(&mut words);
    // "Percentage of sugar" is the share of a line where one is called so, and else of what a nutrient is in 100 g.
    let mut named_so = words.clone();
    named_so.retain(|word| !EMPTY.contains(&word.as_str()));
    let is_line = !named_so.is_empty() && named(&named_so, sheet).is_some();
    let special = if special == Some(What::PerHundred) && is_line { Some(What::Share) } else { special };
    let grams = grams.or((special == Some(What::PerHundred)).then(|| Number::whole(100)));
    let special = special.filter(|special| *special != What::PerHundred);
    let weight = WEIGHTS.iter().filter(|word| **word != "g").any(|word| said(&mut words, &[word])) || heaviest;
    let cost = ["cost", "price", "money", "expensive"].iter().any(|word| said(&mut words, &[word]));
    // "Raw sugar" is a food; only grams and a batch can be raw.
    let raw = words.last().is_some_and(|word| word == "raw") && said(&mut words, &["raw"]);
    words.retain(|word| word != "g");
    let is_own = !own.is_empty() && said(&mut words, &[&own]);
    let serving = said(&mut words, &["serving"]) | said(&mut words, &["portion"]);
    let slice = said(&mut words, &["slice"]);
    let piece = is_own | said(&mut words, &["piece"]) | slice;
    if slice && !is_own && one_whole(sheet) && sheet.makes.servings.is_none() {
        return Err(answer::nothing("a slice", "the text does not say into how many it is cut"));
    }
    let whole_of_it = said(&mut words, &["whole"]) | said(&mut words, &["entire"]);
    // "The whole cake" is no slice of it.
    let piece = piece && !(whole_of_it && times.is_none());
    let batch = said(&mut words, &["batch"]) | said(&mut words, &["recipe"]) | whole_of_it;
    let vitamin_a = said(&mut words, &["vitamin", "a"]);
    words.retain(|word| !EMPTY.contains(&word.as_str()));
    words.extend(vitamin_a.then(|| ["vitamin", "a"].map(str::to_owned)).into_iter().flatten());
    let about =
        if matches!(special, Some(What::Full | What::Deep)) { pan_words(&mut words, sheet) } else { Vec::new() };
    // What is made, by its title's words or by what it is before it is baked, is the batch.
    let mixed =
        named(&words, sheet).is_none() && ["batter", "dough", "mixture"].iter().any(|word| said(&mut words, &[word]));
    let raw = raw || mixed || state == Some(State::Raw) || weight && words.len() == 1 && said(&mut words, &["raw"]);
    let baked = state == Some(State::Baked);
    if baked && sheet.kept.is_none() {
        return Err(refused("Nothing is baked here, as far as the text says".to_owned(), "Ask for the “raw weight”."));
    }
    let titled = named(&words, sheet).is_none() && within(&words, 1, sheet).is_none() && title_words(&mut words, sheet);
    let piece = piece || titled && single && !one_whole(sheet) && !whole_of_it;
    let batch = batch || baked || mixed || titled;
    let weight = weight || mixed && special.is_none() && !cost && nutrient(&mut words.clone()).is_none();
    if let Some(Of::Component(_)) = named(&words, sheet).filter(|_| weight && single && words.len() == 1) {
        let heads = |name: &str| name.to_lowercase().split(' ').any(|own| own == words[0]);
        let is_one = sheet.components.iter().filter_map(|part| part.name.as_deref()).any(heads);
        if !is_one {
            // "One layer" of "cake layers" is a part of them that nobody divided.
            return Err(refused(
                format!("“{}” asks for one of several, and the text does not say how many there are", question.trim()),
                "Ask for all of them together; what goes into each pan is told by the sheet.",
            ));
        }
    }
    // Salt is what a label calls so where a part of the whole is asked for, and a line where one is called so.
    let divided = piece || serving || grams.is_some() || batch || raw;
    let of_salt = special.is_none() && !cost && words == ["salt"] && (divided || named(&words, sheet).is_none());
    if of_salt {
        words.clear();
    }
    let special = special.or(of_salt.then_some(What::Salt));
    // A line or a component that all the words name comes before a figure of that name: "raw sugar", "salt".
    let whole = (!words.is_empty() && line.is_none())
        .then(|| named(&words, sheet).or_else(|| within(&words, 2, sheet)))
        .flatten();
    let only_named =
        whole.is_some() && grams.is_none() && !batch && nutrient(&mut words.clone()).is_none_or(|_| words.len() > 1);
    let figures = usize::from(weight && !of_salt) + usize::from(cost) + usize::from(special.is_some());
    let listed = nutrients(&words);
    if figures > 1 || several && whole.is_none() && figures + listed > 1 {
        return Err(refused(
            format!("“{}” asks for more than one figure", question.trim()),
            "Ask for one figure at a time, as “fat per serving”, and then for the other.",
        ));
    }
    // "Grams of fat" are fat, where no line and no component is called so.
    let figure_named = weight && whole.is_some() || cost || special.is_some() || only_named;
    let nutrient = if figure_named { None } else { nutrient(&mut words) };
    let found = if words.is_empty() { None } else { named(&words, sheet).or_else(|| within(&words, 1, sheet)) };
    let per = match (piece, serving) {
        // One cake that serves 20 is cut into slices: its servings.
        (true, _) if sheet.makes.servings.is_some() && one_whole(sheet) => Some(Per::Serving),
        (true, _) => Some(Per::Piece),
        (_, true) => Some(Per::Serving),
        _ => None,
    };
    let of = match (line, found) {
        (Some(number), _) => Some(Of::Lines(numbered(number, sheet)?)),
        (None, Some(of)) => Some(of),
        (None, None) if !words.is_empty() => return Err(misunderstood(question, sheet)),
        _ if grams.is_some() => grams.map(|grams| Of::Weighing { grams, raw }),
        _ if raw => Some(Of::RawBatch),
        _ if batch => Some(Of::Batch),
        _ => None,
    };
    let what = match nutrient {
        _ if special.is_some() => special.unwrap_or(What::Share),
        Some(nutrient) => What::Nutrient(nutrient),
        None if cost => What::Cost,
        None if weight || of.is_some() || per.is_some() && single => What::Grams,
        None => return Err(misunderstood(question, sheet)),
    };
    let divided = per.is_some() || matches!(of, Some(Of::Weighing { .. } | Of::RawBatch));
    if what.is_the_same_for_any_part() && divided && what != What::Yield {
        // What is in a muffin cup and how deep it stands is asked of the pan alone.
        let of_the_pan = matches!(what, What::Full | What::Deep) && grams.is_none();
        if !of_the_pan {
            return Err(refused(
                format!("{} is the same for any part of the batch", what.name()),
                "Ask for it without “per”, as “hydration”, “how full” or “share of line 12”.",
            ));
        }
    }
    let whole_batch = what.is_the_same_for_any_part() && matches!(of, Some(Of::RawBatch) | None);
    if grams.is_some() && !matches!(of, Some(Of::Weighing { .. })) {
        return Err(refused(
            format!("“{}” asks for a number of grams of a part or a line", question.trim()),
            "Ask for it in the part or line itself, or for so many grams of the whole, as “sugar per 50 g”.",
        ));
    }
    let of = of.filter(|_| !whole_batch).unwrap_or(Of::Batch);
    Ok(Question {
        per: per.filter(|_| !what.is_the_same_for_any_part()),
        times: times.unwrap_or(Number::ONE),
        quoted: quoted.map(Number::value),
        one: single,
        about,
        ..Question::plain(what, of)
    })
}

/// Before or after the oven.
#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    Raw,
    Baked,
}

/// Takes "after baking", "before it goes into the oven" and "baked" out of the question.
fn oven(words: &mut Vec<String>) -> Option<State> {
    let heat = ["bake", "baking", "baked", "oven", "cook", "cooking", "cooked"];
    let is_heat = |word: &String| heat.contains(&word.as_str());
    let at = words.iter().position(is_heat)?;
    let before = words[..at].iter().rposition(|word| ["before", "after"].contains(&word.as_str()));
    let weighed = words.iter().any(|word| WEIGHTS.contains(&word.as_str()));
    let state = match before.map(|before| words[before].as_str()) {
        Some("before") => State::Raw,
        Some(_) => State::Baked,
        None if weighed && words[at] == "baked" => State::Baked,
        None => return None,
    };
    words.drain(before.unwrap_or(at)..=at);
    Some(state)
}

/// Takes out the words that tell which pan is meant, or that name what stands in it.
fn pan_words(words: &mut Vec<String>, sheet: &Sheet) -> Vec<String> {
    let names: Vec<String> = sheet.fit.pans.iter().map(|pan| name_key(pan.pan.name())).collect();
    let about: Vec<String> =
        words.iter().filter(|word| names.iter().any(|name| name.split(' ').any(|own| own == *word))).cloned().collect();
    words.retain(|word| !about.contains(word));
    if named(words, sheet).is_none() {
        title_words(words, sheet);
    }
    about
}

/// Takes the words of the title and of what is made out of the question; whether nothing else was left.
fn title_words(words: &mut Vec<String>, sheet: &Sheet) -> bool {
    let title = name_key(sheet.title.as_deref().unwrap_or_default());
    let made = sheet.makes.word.as_deref().or(sheet.makes.container.as_deref()).map(name_key).unwrap_or_default();
    let is_of_it =
        |word: &String| MADE.contains(&word.as_str()) || title.split(' ').chain(made.split(' ')).any(|own| own == word);
    let mut without = words.clone();
    without.retain(|word| !is_of_it(word));
    let rest_is_a_figure = without.is_empty()
        || nutrients(&without) == 1 && {
            let mut rest = without.clone();
            nutrient(&mut rest);
            rest.is_empty()
        };
    let found = without.len() < words.len() && rest_is_a_figure;
    if found {
        *words = without;
    }
    found
}

/// What anybody calls what comes out of the oven.
const MADE: &[&str] = &["bake", "cake", "loaf", "bread", "thing", "stuff"];

impl Question {
    fn plain(what: What, of: Of) -> Question {
        Question { what, of, per: None, times: Number::ONE, quoted: None, one: false, about: Vec::new() }
    }
}

impl What {
    /// Whether it is no sum of which a part could be told.
    fn is_the_same_for_any_part(self) -> bool {
        matches!(
            self,
            What::Hydration
                | What::Share
                | What::BakersPercent
                | What::Full
                | What::Deep
                | What::Yield
                | What::Allergens
        )
    }
}

/// Whether it makes one piece that is cut up.
fn one_whole(sheet: &Sheet) -> bool {
    sheet.makes.pieces.is_none_or(|(_, high)| high <= 1.0)
}

pub(super) fn misunderstood(words: &str, sheet: &Sheet) -> Misunderstood {
    let parts: Vec<String> =
        sheet.components.iter().filter_map(|part| part.name.as_ref()).map(|name| format!("“{name}”")).collect();
    let parts = if parts.is_empty() { String::new() } else { format!(" Components here are {}.", parts.join(", ")) };
    let near: Vec<String> = near::to(words, sheet).iter().map(|near| format!("“{near}”")).collect();
    Misunderstood {
        said: format!("“{}” was not understood as a question about this sheet", words.trim()),
        mend: format!(
            "Near to it are {}. You can ask for a weight, a cost, energy or any nutrient (of a serving, a piece, 100 g, a component, a line or an ingredient), for a share or baker’s percentage, hydration, how full or how deep the pan is, and allergens.{parts}",
            near.join(", ")
        ),
    }
}
