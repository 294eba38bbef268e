//! The words for figures in a question, and the small ones that say nothing.

use evencrumb_manuscript::word::name_key;
use evencrumb_pantry::Nutrient;

use super::question::What;

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
    ("saturated", Nutrient::SaturatedFat),
    ("transfat", Nutrient::TransFat),
];

/// Words that ask for a weight.
pub(super) const WEIGHTS: &[&str] = &["gram", "weight", "weigh", "heavy", "g"];
/// Words of a question that tell neither the figure nor of what it is.
pub(super) const EMPTY: &[&str] = &[
    "per",
    "a",
    "an",
    "the",
    "in",
    "of",
    "one",
    "each",
    "for",
    "how",
    "much",
    "many",
    "why",
    "is",
    "are",
    "what",
    "does",
    "do",
    "it",
    "from",
    "where",
    "come",
    "there",
    "and",
    "line",
    "amount",
    "total",
    "all",
    "my",
    "this",
    "that",
    "to",
    "they",
    "these",
    "those",
    "so",
    "high",
    "low",
    "such",
    "content",
    "contain",
    "hold",
    "have",
    "has",
    "you",
    "did",
    "add",
    "be",
    "when",
    "at",
    "any",
    "calculated",
    "figure",
    "number",
    "altogether",
    "together",
    "i",
    "get",
    "on",
    "with",
    "as",
    "single",
    "if",
    "us",
    "was",
    "were",
    "work",
    "out",
    "s",
    "entire",
    "thing",
    "everything",
    "got",
];

/// What asks how high the batter stands.
const DEEP: &[&[&str]] =
    &[&["how", "deep"], &["how", "thick"], &["how", "tall"], &["depth"], &["height"], &["thickness"]];

/// What asks which part of the flour is in a preferment.
const PREFERMENTED: &[&[&str]] = &[&["prefermented"], &["pre", "fermented"], &["preferment", "flour"]];

/// What bakers give in percent of the flour.
const BAKERS: &[&str] = &["salt", "yeast", "starter", "levain", "sourdough"];

/// Figures that are no nutrient, weight or cost; taken out of the question with the words that belong to them.
pub(super) fn special(words: &mut Vec<String>) -> Option<What> {
    let kilojoules = ["kj", "kilojoule", "joule"].iter().any(|word| said(words, &[word]));
    if kilojoules {
        said(words, &["energy"]);
        return Some(What::Kilojoules);
    }
    let baker = words.iter().position(|word| word.starts_with("baker"));
    let percent = words.iter().position(|word| matches!(word.as_str(), "percentage" | "percent"));
    let what = if said(words, &["how", "full"]) {
        What::Full
    } else if DEEP.iter().any(|run| said(words, run)) {
        What::Deep
    } else if said(words, &["hydration"]) || said(words, &["how", "wet"]) {
        What::Hydration
    } else if PREFERMENTED.iter().any(|run| said(words, run)) {
        said(words, &["flour"]);
        What::Prefermented
    } else if baker.is_some() && percent.is_some() {
        words.retain(|word| !word.starts_with("baker") && !matches!(word.as_str(), "percentage" | "percent" | "s"));
        What::BakersPercent
    } else if said(words, &["share"]) {
        What::Share
    } else if said(words, &["added", "sugar"]) {
        What::AddedSugars
    } else if ["serve", "yield"].iter().any(|word| said(words, &[word]))
        || said(words, &["how", "many", "serving"])
        || said(words, &["how", "many", "piece"])
        || said(words, &["how", "many", "portion"])
        || said(words, &["how", "many", "slice"])
        || *words == ["serving"]
        || said(words, &["it", "make"])
    {
        What::Yield
    } else if let Some(at) = percent {
        words.remove(at);
        let others = words.iter().any(|word| word != "flour" && !EMPTY.contains(&word.as_str()));
        let of_flour = others && said(words, &["flour"]);
        let baked = |word: &String| BAKERS.contains(&word.as_str());
        let nutrient_alone = nutrient(&mut words.clone()).is_some() && !words.iter().any(baked);
        match () {
            // "35 % fat" is told by the hundred grams.
            () if nutrient_alone => return Some(What::PerHundred),
            () if of_flour || words.iter().any(baked) => What::BakersPercent,
            () => What::Share,
        }
    } else {
        return None;
    };
    // "Why 63 % hydration": its sign says nothing more.
    words.retain(|word| word != "percent");
    if matches!(what, What::Hydration | What::Prefermented) {
        words.retain(|word| !["dough", "batter", "bread", "loaf"].contains(&word.as_str()));
    }
    if matches!(what, What::Full | What::Deep) {
        words.retain(|word| {
            !["pan", "tin", "batter", "dough", "depth", "get", "cup", "muffin", "mold", "mould", "dish", "layer"]
                .contains(&word.as_str())
        });
    }
    Some(what)
}

/// How many nutrients the words name.
pub(super) fn nutrients(words: &[String]) -> usize {
    let mut words = words.to_vec();
    std::iter::from_fn(|| nutrient(&mut words)).count()
}

/// Takes a word or a run of words out of the question; whether it was there.
pub(super) fn said(words: &mut Vec<String>, run: &[&str]) -> bool {
    let at = words.windows(run.len()).position(|window| window.iter().zip(run).all(|(one, other)| one == other));
    if let Some(at) = at {
        words.drain(at..at + run.len());
    }
    at.is_some()
}

/// Takes the longest name of a nutrient out of the question.
pub(super) fn nutrient(words: &mut Vec<String>) -> Option<Nutrient> {
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
