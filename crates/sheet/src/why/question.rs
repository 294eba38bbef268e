//! What is asked: a figure, and of what.

use evencrumb_manuscript::line::Cut;
use evencrumb_manuscript::word::name_key;
use evencrumb_pantry::Nutrient;

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
}

/// Of what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Of {
    /// The whole batch as it is eaten.
    Batch,
    /// One serving, or one piece where servings are not said.
    Serving,
    /// One piece.
    Piece,
    /// 100 g, raw or as it is eaten.
    Hundred {
        /// Whether before heat.
        raw: bool,
    },
    /// A component, by number, raw.
    Component(usize),
    /// Lines: component and line.
    Lines(Vec<(usize, usize)>),
}

/// A question as understood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// Which figure.
    pub what: What,
    /// Of what.
    pub of: Of,
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

/// Everyday words for figures.
const ALSO: &[(&str, Nutrient)] = &[
    ("sugar", Nutrient::Sugars),
    ("calorie", Nutrient::Energy),
    ("kcal", Nutrient::Energy),
    ("kilocalorie", Nutrient::Energy),
    ("carb", Nutrient::Carbohydrate),
    ("fiber", Nutrient::Fibre),
    ("sat fat", Nutrient::SaturatedFat),
    ("saturate", Nutrient::SaturatedFat),
    ("total fat", Nutrient::Fat),
];

const WEIGHTS: &[&str] = &["gram", "weight", "weigh", "heavy", "g"];
const EMPTY: &[&str] = &[
    "per", "a", "an", "the", "in", "of", "one", "each", "for", "how", "much", "many", "why", "is", "are", "what",
    "does", "do", "it", "from", "where", "come", "there", "and", "line", "amount", "total", "all", "my", "this",
    "that", "to",
];

/// Reads a question about a sheet.
///
/// # Errors
/// Gives what was not understood and what can be asked.
pub fn read(question: &str, sheet: &Sheet) -> Result<Question, Misunderstood> {
    let cut = Cut::of(question);
    let mut words: Vec<String> = cut
        .tokens
        .iter()
        .map(|token| token.key.to_string())
        .filter(|key| key.contains(char::is_alphanumeric))
        .collect();
    let numbers: Vec<usize> =
        question.split(|c: char| !c.is_ascii_digit()).filter_map(|digits| digits.parse().ok()).collect();
    // Whole lines and components are named before figures: "grams of the brown sugar" asks for no sugars.
    let line = said(&mut words, &["line"]).then(|| numbers.first().copied()).flatten();
    let weight = WEIGHTS.iter().filter(|word| **word != "g").any(|word| said(&mut words, &[word]));
    let cost = ["cost", "price", "money", "expensive"].iter().any(|word| said(&mut words, &[word]));
    let raw = said(&mut words, &["raw"]);
    let hundred = numbers.contains(&100) && line.is_none();
    words.retain(|word| word.parse::<usize>().is_err() && word != "g");
    let serving = said(&mut words, &["serving"]) | said(&mut words, &["portion"]);
    let own = sheet.makes.word.as_deref().map(name_key).unwrap_or_default();
    let piece =
        said(&mut words, &["piece"]) | said(&mut words, &["slice"]) | (!own.is_empty() && said(&mut words, &[&own]));
    let batch = said(&mut words, &["batch"]) | said(&mut words, &["whole"]) | said(&mut words, &["recipe"]);
    let nutrient = if weight || cost { None } else { nutrient(&mut words) };
    words.retain(|word| !EMPTY.contains(&word.as_str()));
    let named = if words.is_empty() { None } else { named(&words, sheet) };
    let of = match (line, named) {
        (Some(number), _) => Some(Of::Lines(numbered(number, sheet)?)),
        (None, Some(of)) => Some(of),
        (None, None) if !words.is_empty() => return Err(misunderstood(&words.join(" "), sheet)),
        _ if hundred => Some(Of::Hundred { raw }),
        _ if piece => Some(Of::Piece),
        _ if serving => Some(Of::Serving),
        _ if batch => Some(Of::Batch),
        _ => None,
    };
    let what = match nutrient {
        Some(nutrient) => What::Nutrient(nutrient),
        None if cost => What::Cost,
        None if weight || of.is_some() => What::Grams,
        None => return Err(misunderstood(question, sheet)),
    };
    Ok(Question { what, of: of.unwrap_or(Of::Batch) })
}

/// Takes a word or a run of words out of the question; whether it was there.
fn said(words: &mut Vec<String>, run: &[&str]) -> bool {
    let at = words.windows(run.len()).position(|window| window.iter().zip(run).all(|(one, other)| one == other));
    if let Some(at) = at {
        words.drain(at..at + run.len());
    }
    at.is_some()
}

/// Takes the longest name of a nutrient out of the question.
fn nutrient(words: &mut Vec<String>) -> Option<Nutrient> {
    let names = Nutrient::ALL.iter().map(|nutrient| (name_key(nutrient.name()), *nutrient));
    let also = ALSO.iter().map(|(name, nutrient)| ((*name).to_owned(), *nutrient));
    let mut names: Vec<(Vec<String>, Nutrient)> =
        names.chain(also).map(|(name, nutrient)| (name.split(' ').map(str::to_owned).collect(), nutrient)).collect();
    names.sort_by_key(|(name, _)| std::cmp::Reverse(name.len()));
    names
        .into_iter()
        .find(|(name, _)| said(words, &name.iter().map(String::as_str).collect::<Vec<_>>()))
        .map(|(_, it)| it)
}

/// The component or the lines that the words name.
fn named(words: &[String], sheet: &Sheet) -> Option<Of> {
    let holds = |name: &str| {
        let key = name_key(name);
        let keys: Vec<&str> = key.split(' ').collect();
        words.iter().all(|word| keys.contains(&word.as_str()))
    };
    let component = sheet.components.iter().position(|part| part.name.as_deref().is_some_and(holds));
    let lines: Vec<(usize, usize)> = sheet
        .components
        .iter()
        .enumerate()
        .flat_map(|(part, component)| component.lines.iter().enumerate().map(move |(nth, line)| (part, nth, line)))
        .filter(|(_, _, line)| line.weighed.foods.iter().any(|one| holds(&one.item.name)))
        .map(|(part, nth, _)| (part, nth))
        .collect();
    component.map(Of::Component).or_else(|| (!lines.is_empty()).then_some(Of::Lines(lines)))
}

fn numbered(number: usize, sheet: &Sheet) -> Result<Vec<(usize, usize)>, Misunderstood> {
    let lines = sheet.components.iter().enumerate().flat_map(|(part, component)| {
        component.lines.iter().enumerate().map(move |(nth, line)| (part, nth, line.number))
    });
    let found: Vec<(usize, usize)> =
        lines.filter(|(_, _, at)| *at == number).map(|(part, nth, _)| (part, nth)).collect();
    if found.is_empty() {
        return Err(misunderstood(&format!("line {number}"), sheet));
    }
    Ok(found)
}

fn misunderstood(words: &str, sheet: &Sheet) -> Misunderstood {
    let parts: Vec<String> =
        sheet.components.iter().filter_map(|part| part.name.as_ref()).map(|name| format!("“{name}”")).collect();
    let parts = if parts.is_empty() { String::new() } else { format!(" Components here are {}.", parts.join(", ")) };
    Misunderstood {
        said: format!("“{words}” is no figure, no component and no ingredient line of this sheet"),
        mend: format!(
            "Ask for a figure and of what, as “sugar per serving”, “weight of one piece”, “fat in the frosting”, “energy per 100 g”, “cost per serving”, “grams of butter” or “line 12”.{parts}"
        ),
    }
}
