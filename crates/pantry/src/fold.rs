//! Two spellings of one name: capitals, hyphens, accents, apostrophes and plurals do not make another food.
//!
//! Folding is for comparing, not for showing: "oats" folds to "oat", which nobody writes. It must never make two foods
//! one, so words whose singular is something else ("bitters") are rows of `data/plurals.toml`.

use std::collections::{HashMap, HashSet};
use std::sync::LazyLock;

use serde::Deserialize;
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// The form under which names are compared: singular words, lower case, one space between them.
///
/// ```
/// use evencrumb_pantry::fold::fold;
///
/// assert_eq!(fold("Crème  Fraîche"), "creme fraiche");
/// assert_eq!(fold("confectioners’ sugar"), fold("confectioner's sugar"));
/// assert_eq!(fold("all-purpose flours"), "all purpose flour");
/// assert_ne!(fold("bitters"), fold("bitter"));
/// ```
pub fn fold(name: &str) -> String {
    let mut plain = String::with_capacity(name.len());
    for letter in name.nfd().filter(|letter| !is_combining_mark(*letter)).flat_map(char::to_lowercase) {
        match letter {
            'œ' => plain.push_str("oe"),
            'æ' => plain.push_str("ae"),
            'ß' => plain.push_str("ss"),
            'ø' => plain.push('o'),
            'ł' => plain.push('l'),
            'ı' => plain.push('i'),
            '&' => plain.push_str(" and "),
            '\'' | '’' | '‘' | 'ʼ' | '`' | '´' => {}
            letter if letter.is_alphanumeric() || letter == '%' => plain.push(letter),
            _ => plain.push(' '),
        }
    }
    let words: Vec<&str> = plain.split_whitespace().collect();
    words.iter().map(|word| singular(word)).collect::<Vec<_>>().join(" ")
}

/// The singular of a lower-case word; a word that is singular already comes back as it is.
pub fn singular(word: &str) -> String {
    if let Some(singular) = PLURALS.irregular.get(word) {
        return singular.clone();
    }
    let short = word.chars().count() < 4;
    if short || !word.ends_with('s') || word.ends_with("ss") || word.ends_with("us") || PLURALS.same.contains(word) {
        return word.to_owned();
    }
    let stem = |ending: usize| &word[..word.len() - ending];
    match word {
        _ if word.ends_with("ies") => format!("{}y", stem(3)),
        _ if ["oes", "ches", "shes", "xes", "sses", "zzes"].iter().any(|ending| word.ends_with(ending)) => {
            stem(2).to_owned()
        }
        _ => stem(1).to_owned(),
    }
}

#[derive(Deserialize)]
struct Plurals {
    same: HashSet<String>,
    irregular: HashMap<String, String>,
}

static PLURALS: LazyLock<Plurals> = LazyLock::new(|| {
    toml::from_str(include_str!("../data/plurals.toml")).expect("plurals.toml is read by a test before it ships")
});

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn ok_plurals() {
        let cases = "berries berry|cherries cherry|cookies cookie|halves half|olives olive|chives chive|cloves clove|\
                     potatoes potato|sloes sloe|peaches peach|quiches quiche|radishes radish|mixes mix|glasses glass|\
                     cheeses cheese|glazes glaze|mousses mousse|pies pie|figs fig|peas pea|kiwis kiwi|bananas banana|\
                     citruses citrus|zucchinis zucchini|chillies chilli|leaves leaf|anchovies anchovy";
        for case in cases.split('|') {
            let (plural, one) = case.trim().split_once(' ').expect("two words");
            assert_eq!(singular(plural), one);
        }
    }

    #[test]
    fn ok_what_ends_in_s_and_is_one() {
        for word in ["molasses", "asparagus", "hummus", "couscous", "cassis", "swiss", "watercress", "bitters", "gas"] {
            assert_eq!(singular(word), word);
        }
    }

    #[test]
    fn ok_marks_between_and_on_letters() {
        assert_eq!(fold("Half-and-Half"), fold("half & half"));
        assert_eq!(fold("jalapeño"), "jalapeno");
        assert_eq!(fold("2% milk"), "2% milk");
        assert_eq!(fold("  "), "");
    }

    proptest! {
        /// Folding what is folded changes nothing: a name can be folded before it is known whether it was.
        #[test]
        fn ok_folding_twice_is_folding_once(name in "[a-zA-Zéñ '’&%-]{0,24}") {
            let once = fold(&name);
            prop_assert_eq!(fold(&once), once);
        }
    }
}
