//! Words made comparable: lower case, no accents, no apostrophes, singular.
//!
//! Whatever looks a food up, and whatever lists the names it may have, folds both through here,
//! so "Crème Fraîche" finds "creme fraiche" and "confectioners'" finds "confectioner's".

use std::sync::LazyLock;

use compact_str::{CompactString, format_compact};
use rustc_hash::{FxHashMap, FxHashSet};
use serde::Deserialize;
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// Lower case, compatibility forms resolved, accents and apostrophes taken off.
pub fn fold(word: &str) -> CompactString {
    // Most words of a text are small plain letters.
    if word.bytes().all(|byte| byte.is_ascii_lowercase()) {
        return word.into();
    }
    if word.is_ascii() {
        let mut folded = CompactString::from(word);
        folded.make_ascii_lowercase();
        if folded.bytes().any(|byte| byte == b'\'') {
            folded.retain(|c| c != '\'');
        }
        return folded;
    }
    let mut folded = CompactString::with_capacity(word.len());
    for c in word.nfkd().filter(|c| !is_combining_mark(*c) && !is_apostrophe(*c)) {
        match c {
            'œ' | 'Œ' => folded.push_str("oe"),
            'æ' | 'Æ' => folded.push_str("ae"),
            'ø' | 'Ø' => folded.push('o'),
            'ß' | 'ẞ' => folded.push_str("ss"),
            'ł' | 'Ł' => folded.push('l'),
            'ı' => folded.push('i'),
            c => folded.extend(c.to_lowercase()),
        }
    }
    folded
}

/// Whether the character stands for an apostrophe, in any of the ways programs write one.
pub fn is_apostrophe(c: char) -> bool {
    matches!(c, '\'' | '\u{2019}' | '\u{2018}' | '\u{02BC}' | '\u{00B4}' | '\u{0060}' | '\u{FF07}')
}

/// The singular of a folded English word; a word that is no plural comes back as it is.
///
/// It must never make two foods one, so words whose singular is another thing ("bitters") are rows of `data/plurals.toml`.
pub fn singular(word: &str) -> CompactString {
    PLURALS.irregular.get(word).cloned().unwrap_or_else(|| regular_singular(word))
}

/// Plurals whose singular the rules would get wrong, each with it.
pub(crate) fn irregular_plurals() -> &'static FxHashMap<String, CompactString> {
    &PLURALS.irregular
}

/// [`singular`] by the rules alone.
pub(crate) fn regular_singular(word: &str) -> CompactString {
    if !word.ends_with('s')
        || word.chars().count() < 4
        || ["ss", "us"].iter().any(|ending| word.ends_with(ending))
        || PLURALS.same.contains(word)
    {
        return word.into();
    }
    let stem = |ending: usize| &word[..word.len() - ending];
    match word {
        _ if word.ends_with("ies") => format_compact!("{}y", stem(3)),
        _ if ["oes", "ches", "shes", "xes", "sses", "zzes"].iter().any(|ending| word.ends_with(ending)) => {
            stem(2).into()
        }
        _ => stem(1).into(),
    }
}

#[derive(Deserialize)]
struct Plurals {
    same: FxHashSet<String>,
    irregular: FxHashMap<String, CompactString>,
}

static PLURALS: LazyLock<Plurals> = LazyLock::new(|| {
    toml::from_str(include_str!("../data/plurals.toml")).expect("plurals.toml is read by a test before it ships")
});

/// A word as it is looked up: folded and singular.
pub fn key(word: &str) -> CompactString {
    singular(&fold(word))
}

/// A whole name as it is looked up: its words' keys with one space between, hyphens and full stops passed over.
pub fn name_key(name: &str) -> String {
    let cut = crate::line::Cut::of(name);
    crate::line::key(&cut, 0, cut.tokens.len())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn ok_plurals() {
        let read = |word| key(word);
        for (many, one) in [
            ("Eggs", "egg"),
            ("cherries", "cherry"),
            ("tomatoes", "tomato"),
            ("leaves", "leaf"),
            ("olives", "olive"),
            ("molasses", "molasses"),
            ("peaches", "peach"),
            ("radishes", "radish"),
            ("cookies", "cookie"),
            ("dates", "date"),
            ("oats", "oat"),
            ("figs", "fig"),
            ("confectioners\u{2019}", "confectioner"),
            ("confectioner's", "confectioner"),
            ("Crème", "creme"),
            ("couscous", "couscous"),
            ("boxes", "box"),
            ("halves", "half"),
            ("bitters", "bitters"),
            ("quiches", "quiche"),
            ("chillies", "chilli"),
        ] {
            assert_eq!(read(many), one);
        }
    }

    proptest! {
        #[test]
        fn ok_any_text_folds_and_a_key_is_its_own_key(word in "\\PC{0,24}") {
            let once = key(&word);
            prop_assert_eq!(fold(&once), once);
        }
    }
}
