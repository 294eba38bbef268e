//! How the words of a question are understood: each step takes those it knows out of it, until none is left.

use evencrumb_manuscript::word::name_key;
use evencrumb_measure::Number;
use evencrumb_pantry::{Nutrient, Pantry};

use super::names::{called, is_so_called, named, numbered, within};
use super::numbers::Numbers;
use super::question::{Misunderstood, Of, Per, Question, What, misunderstood, refused};
use super::words::{EMPTY, WEIGHTS, nutrient, nutrients, said, special};
use super::{answer, held};
use crate::sheet::Sheet;

/// Reads a question about a sheet.
///
/// # Errors
/// Gives what was not understood and what can be asked.
pub fn read(question: &str, sheet: &Sheet, pantry: &Pantry) -> Result<Question, Misunderstood> {
    let own = sheet.makes.word.as_deref().map(name_key).unwrap_or_default();
    let Numbers { line, grams, times, quoted, mut words } = Numbers::of(question, &own)?;
    if let Some(about) = held::asked(&words, sheet)? {
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
    let mut reading = Reading {
        question,
        sheet,
        pantry,
        words,
        line,
        grams,
        times,
        single,
        several,
        said: Said::default(),
        about: Vec::new(),
        part: None,
    };
    reading.figures();
    reading.extent(&own)?;
    reading.what_is_made(state)?;
    let nutrient = reading.nutrient()?;
    let asked = reading.settled(nutrient)?;
    Ok(Question { quoted: quoted.map(Number::value), ..asked })
}

/// A question while it is read.
struct Reading<'q> {
    question: &'q str,
    sheet: &'q Sheet,
    pantry: &'q Pantry,
    /// The words that no step has understood yet.
    words: Vec<String>,
    /// The number of a line.
    line: Option<usize>,
    grams: Option<Number>,
    /// How many servings or pieces.
    times: Option<Number>,
    /// Whether one of something is meant.
    single: bool,
    /// Whether the question may ask for more than one thing.
    several: bool,
    said: Said,
    /// Which pan.
    about: Vec<String>,
    /// The part that is meant by "the dough", where no part is called so.
    part: Option<usize>,
}

/// What the words that were understood ask for.
#[derive(Default)]
struct Said {
    /// A figure that is no nutrient, weight or cost.
    special: Option<What>,
    weight: bool,
    cost: bool,
    /// Of what: all of it, all of it before heat, one piece, one serving.
    batch: bool,
    raw: bool,
    piece: bool,
    serving: bool,
    /// "The whole cake".
    whole_of_it: bool,
}

impl Reading<'_> {
    fn said(&mut self, run: &[&str]) -> bool {
        said(&mut self.words, run)
    }

    /// A component or lines that all the words left name.
    fn named(&self) -> Option<Of> {
        named(&self.words, self.sheet)
    }

    /// Whether the words left hold the name of a nutrient.
    fn names_nutrient(&self) -> bool {
        nutrient(&mut self.words.clone()).is_some()
    }

    /// Takes out the figures that are no nutrients.
    fn figures(&mut self) {
        let heaviest = ["heaviest", "largest", "biggest"].iter().any(|word| self.said(&[word, "ingredient"]));
        let special = special(&mut self.words);
        // "Percentage of sugar" is the share of a line where one is called so, and else of what a nutrient is in 100 g.
        let mut named_so = self.words.clone();
        named_so.retain(|word| !EMPTY.contains(&word.as_str()));
        let is_line = !named_so.is_empty() && named(&named_so, self.sheet).is_some();
        self.said.special = match special {
            Some(What::PerHundred) if is_line => Some(What::Share),
            Some(What::PerHundred) => {
                self.grams = self.grams.or(Some(Number::whole(100)));
                None
            }
            special => special,
        };
        self.said.weight = WEIGHTS.iter().filter(|word| **word != "g").any(|word| self.said(&[word])) || heaviest;
        self.said.cost = ["cost", "price", "money", "expensive"].iter().any(|word| self.said(&[word]));
    }

    /// Takes out of how much it is asked, then the words that say nothing. `own` is what the recipe calls its pieces.
    fn extent(&mut self, own: &str) -> Result<(), Misunderstood> {
        // "Raw sugar" is a food; only grams and a batch can be raw.
        self.said.raw = self.words.last().is_some_and(|word| word == "raw") && self.said(&["raw"]);
        self.words.retain(|word| word != "g");
        let is_own = !own.is_empty() && self.said(&[own]);
        self.said.serving = self.said(&["serving"]) | self.said(&["portion"]);
        let slice = self.said(&["slice"]);
        let piece = is_own | self.said(&["piece"]) | slice;
        if slice && !is_own && one_whole(self.sheet) && self.sheet.makes.servings.is_none() {
            return Err(answer::nothing("a slice", "the text does not say into how many it is cut"));
        }
        let whole_of_it = self.said(&["whole"]) | self.said(&["entire"]);
        self.said.whole_of_it = whole_of_it;
        // "The whole cake" is no slice of it.
        self.said.piece = piece && !(whole_of_it && self.times.is_none());
        self.said.batch = self.said(&["batch"]) | self.said(&["recipe"]) | whole_of_it;
        let vitamin_a = self.said(&["vitamin", "a"]);
        self.words.retain(|word| !EMPTY.contains(&word.as_str()));
        self.words.extend(vitamin_a.then(|| ["vitamin", "a"].map(str::to_owned)).into_iter().flatten());
        if matches!(self.said.special, Some(What::Full | What::Deep)) {
            self.about = pan_words(&mut self.words, self.sheet);
        }
        Ok(())
    }

    /// Takes out what is made, by its title's words or by what it is before it is baked: it is the batch.
    fn what_is_made(&mut self, state: Option<State>) -> Result<(), Misunderstood> {
        // Of what a figure is asked: the words without the nutrient.
        let mut of_what = self.words.clone();
        nutrient(&mut of_what);
        let makes = &self.sheet.makes;
        let untold = makes.word.is_none() && makes.pieces.is_some_and(|(_, high)| high > 1.0);
        if let [one] = of_what.as_slice()
            && untold
            && PIECES.contains(&one.as_str())
            && named(&of_what, self.sheet).is_none()
        {
            self.said(&[one]);
            self.said.piece |= self.single;
            self.said.batch |= !self.single;
            of_what.clear();
        }
        // "Fat in the dough" asks of the part that is called so, where there is one.
        let has_a_part = matches!(named(&of_what, self.sheet), Some(Of::Component(_))) && !of_what.is_empty();
        let mixed = ["batter", "dough", "mixture"].into_iter().filter(|_| !has_a_part && self.named().is_none());
        let mixed = mixed.into_iter().find(|word| self.words.iter().any(|own| own == word));
        if let Some(word) = mixed {
            self.said(&[word]);
            self.part = mixed_part(word, self.sheet)?;
        }
        let mixed = mixed.is_some();
        let only_raw = self.said.weight && self.words.len() == 1;
        self.said.raw = self.said.raw || mixed || state == Some(State::Raw) || only_raw && self.said(&["raw"]);
        let baked = state == Some(State::Baked);
        if baked && self.sheet.kept.is_none() {
            let said = "Nothing is baked here, as far as the text says".to_owned();
            return Err(refused(said, "Ask for the “raw weight”."));
        }
        // "The pie" is not its pie crust.
        let titled = !is_so_called(&self.words, self.sheet)
            && within(&self.words, 1, self.sheet).is_none()
            && (MADE.contains(&of_what.join(" ").as_str()) || !is_so_called(&of_what, self.sheet))
            && (of_what.len() < 2 || called(&of_what, self.sheet, self.pantry).is_none())
            && title_words(&mut self.words, self.sheet);
        self.said.piece |= titled && self.single && !one_whole(self.sheet) && !self.said.whole_of_it;
        self.said.batch |= baked || mixed || titled;
        self.said.weight |= mixed && self.said.special.is_none() && !self.said.cost && !self.names_nutrient();
        if let Some(Of::Component(_)) =
            self.named().filter(|_| self.said.weight && self.single && self.words.len() == 1)
        {
            let heads = |name: &str| name.to_lowercase().split(' ').any(|own| own == self.words[0]);
            let is_one = self.sheet.components.iter().filter_map(|part| part.name.as_deref()).any(heads);
            if !is_one {
                // "One layer" of "cake layers" is a part of them that nobody divided.
                return Err(refused(
                    format!(
                        "“{}” asks for one of several, and the text does not say how many there are",
                        self.question.trim()
                    ),
                    "Ask for all of them together; what goes into each pan is told by the sheet.",
                ));
            }
        }
        Ok(())
    }

    /// Takes out the nutrient that is asked for, if one is; nothing where its words name a line or another figure.
    fn nutrient(&mut self) -> Result<Option<Nutrient>, Misunderstood> {
        let Said { cost, weight, batch, raw, piece, serving, .. } = self.said;
        // Salt is what a label calls so where a part of the whole is asked for, and a line where one is called so.
        let divided = piece || serving || self.grams.is_some() || batch || raw;
        let of_salt =
            self.said.special.is_none() && !cost && self.words == ["salt"] && (divided || self.named().is_none());
        if of_salt {
            self.words.clear();
            self.said.special = Some(What::Salt);
        }
        let special = self.said.special.is_some();
        // A line or a component that all the words name comes before a figure of that name: "raw sugar", "salt".
        let whole = !self.words.is_empty()
            && self.line.is_none()
            && (self.named().is_some() || within(&self.words, 2, self.sheet).is_some());
        let only_named = whole && self.grams.is_none() && !batch && (self.words.len() > 1 || !self.names_nutrient());
        let figures = usize::from(weight && !of_salt) + usize::from(cost) + usize::from(special);
        if figures > 1 || self.several && !whole && figures + nutrients(&self.words) > 1 {
            return Err(refused(
                format!("“{}” asks for more than one figure", self.question.trim()),
                "Ask for one figure at a time, as “fat per serving”, and then for the other.",
            ));
        }
        // "Grams of fat" are fat, where no line and no component is called so.
        let figure_named = weight && whole || cost || special || only_named;
        Ok(if figure_named { None } else { nutrient(&mut self.words) })
    }

    /// The question, by what was said and what the words that are left name.
    fn settled(self, nutrient: Option<Nutrient>) -> Result<Question, Misunderstood> {
        let Reading { question, sheet, pantry, words, grams, single, part, .. } = self;
        let Said { special, cost, weight, batch, raw, piece, serving, .. } = self.said;
        let found = if words.is_empty() {
            None
        } else {
            named(&words, sheet).or_else(|| within(&words, 1, sheet)).or_else(|| called(&words, sheet, pantry))
        };
        let per = match (piece, serving) {
            // One cake that serves 20 is cut into slices: its servings.
            (true, _) if sheet.makes.servings.is_some() && one_whole(sheet) => Some(Per::Serving),
            (true, _) => Some(Per::Piece),
            (_, true) => Some(Per::Serving),
            _ => None,
        };
        let of = match (self.line, found) {
            (Some(number), _) => Some(Of::Lines(numbered(number, sheet)?)),
            (None, Some(of)) => Some(of),
            (None, None) if part.is_some() && words.is_empty() && grams.is_none() => part.map(Of::Component),
            (None, None) if !words.is_empty() => return Err(misunderstood(question, sheet)),
            _ if grams.is_some() => grams.map(|grams| Of::Weighing { grams, raw }),
            _ if raw => Some(Of::RawBatch),
            _ if batch => Some(Of::Batch),
            _ => None,
        };
        let what = match (special, nutrient) {
            (Some(special), _) => special,
            (None, Some(nutrient)) => What::Nutrient(nutrient),
            (None, None) if cost => What::Cost,
            (None, None) if weight || of.is_some() || per.is_some() && single => What::Grams,
            (None, None) => return Err(misunderstood(question, sheet)),
        };
        let same = what.is_the_same_for_any_part();
        let divided = per.is_some() || matches!(of, Some(Of::Weighing { .. } | Of::RawBatch));
        // What is in a muffin cup and how deep it stands is asked of the pan alone.
        let of_the_pan = matches!(what, What::Full | What::Deep) && grams.is_none();
        if same && divided && what != What::Yield && !of_the_pan {
            return Err(refused(
                format!("{} is the same for any part of the batch", what.name()),
                "Ask for it without “per”, as “hydration”, “how full” or “share of line 12”.",
            ));
        }
        if grams.is_some() && !matches!(of, Some(Of::Weighing { .. })) {
            return Err(refused(
                format!("“{}” asks for a number of grams of a part or a line", question.trim()),
                "Ask for it in the part or line itself, or for so many grams of the whole, as “sugar per 50 g”.",
            ));
        }
        let of = of.filter(|of| !(same && *of == Of::RawBatch)).unwrap_or(Of::Batch);
        Ok(Question {
            per: per.filter(|_| !same),
            times: self.times.unwrap_or(Number::ONE),
            one: single,
            about: self.about,
            ..Question::plain(what, of)
        })
    }
}

/// Which part is the dough where none is called so; nothing where that is all of it.
///
/// # Errors
/// Where several parts may be it, and some are none: a filling is no dough.
fn mixed_part(word: &str, sheet: &Sheet) -> Result<Option<usize>, Misunderstood> {
    let parts = &sheet.components;
    if parts.len() < 2 || heads_of_title(sheet).iter().any(|head| head == word) {
        return Ok(None);
    }
    let in_pan = sheet.fit.batter.as_ref().map(|batter| batter.parts.as_slice()).unwrap_or_default();
    let taken: Vec<usize> =
        (0..parts.len()).filter(|at| in_pan.iter().any(|name| name == parts[*at].heading())).collect();
    // Beside parts with a heading, the list without one is what the title names.
    let unheaded: Vec<usize> = (0..parts.len()).filter(|at| parts[*at].name.is_none()).collect();
    match (taken.as_slice(), unheaded.as_slice()) {
        ([one], _) | (_, [one]) => Ok(Some(*one)),
        (all, _) if all.len() == parts.len() => Ok(None),
        _ => {
            let names: Vec<String> = parts.iter().map(|part| format!("“{}”", part.heading())).collect();
            Err(refused(
                format!("No part here is called {word}, and not all that is listed is one"),
                &format!("Ask of a part by its name: {}; or of the batch.", names.join(", ")),
            ))
        }
    }
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
    // "Walnut" is not the whole of a walnut cake.
    let heads = heads_of_title(sheet);
    let is_head =
        |word: &String| MADE.contains(&word.as_str()) || heads.contains(word) || made.split(' ').any(|own| own == word);
    let whole = words.iter().filter(|word| !without.contains(word)).any(is_head);
    let found = without.len() < words.len() && rest_is_a_figure && whole;
    if found {
        *words = without;
    }
    found
}

/// The words of the title that say what it is, and not of what or with what: the last, and the one before "for" or "of".
fn heads_of_title(sheet: &Sheet) -> Vec<String> {
    let title = sheet.title.as_deref().unwrap_or_default();
    let title = title.split([',', '(', ':', ';']).find(|part| !part.trim().is_empty()).unwrap_or_default();
    let key = name_key(title);
    let words: Vec<&str> = key.split(' ').take_while(|word| *word != "with").collect();
    let joins = ["of", "for", "by", "from", "in", "on", "without", "to"];
    let at = |at: usize| words.get(at).map(|word| (*word).to_owned());
    let before = words.iter().position(|word| joins.contains(word)).and_then(|join| at(join.checked_sub(1)?));
    words.len().checked_sub(1).and_then(at).into_iter().chain(before).collect()
}

/// What anybody calls one of many small ones, where the text has no word for them.
const PIECES: &[&str] = &[
    "cookie", "biscuit", "muffin", "cupcake", "bun", "roll", "bar", "square", "scone", "brownie", "finger", "cracker",
    "tartlet", "macaron", "doughnut", "donut", "truffle", "bite", "ball",
];

/// What anybody calls what comes out of the oven.
const MADE: &[&str] = &["bake", "cake", "loaf", "bread", "thing", "stuff"];

/// Whether it makes one piece that is cut up.
fn one_whole(sheet: &Sheet) -> bool {
    sheet.makes.pieces.is_none_or(|(_, high)| high <= 1.0)
}
