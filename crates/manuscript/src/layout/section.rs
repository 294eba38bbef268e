//! What a heading opens: "Directions" the method, "Shopping list" the ingredients.

use super::vocabulary::VOCABULARY;
use crate::word::{fold, is_apostrophe};

/// A part of the manuscript.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Section {
    /// What goes in.
    Ingredients,
    /// What is done.
    Method,
    /// What the author adds.
    Notes,
    /// Things to bake with.
    Equipment,
    /// Figures printed by a page.
    Nutrition,
}

/// Folded words with single spaces, marks and what stands in brackets left out; at most the first 60 bytes count.
pub fn plain(text: &str) -> String {
    let mut words = String::with_capacity(text.len().min(80));
    let mut depth = 0usize;
    let mut start = 0;
    for (at, c) in text.char_indices() {
        if c.is_alphanumeric() || is_apostrophe(c) {
            continue;
        }
        if depth == 0 {
            push_word(&mut words, &text[start..at]);
        }
        start = at + c.len_utf8();
        match c {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ => {}
        }
        if words.len() > 60 {
            return words;
        }
    }
    if depth == 0 {
        push_word(&mut words, &text[start..]);
    }
    words
}

fn push_word(words: &mut String, word: &str) {
    if word.is_empty() {
        return;
    }
    if !words.is_empty() {
        words.push(' ');
    }
    words.push_str(&fold(word));
}

/// The section that a whole text heads, with its [`plain`] words.
pub fn headed_by(text: &str, words: &str) -> Option<Section> {
    if text.len() > 80 {
        return None;
    }
    let known = &VOCABULARY.sections;
    let last = words.rsplit(' ').next().unwrap_or_default();
    let short = || words.split(' ').count() <= 3 && !text.trim_end_matches(':').contains(['.', '!', ':', ',']);
    if known.ingredients.has(words) || words.ends_with(" you need") || words.ends_with(" you will need") {
        Some(Section::Ingredients)
    } else if known.method.has(words)
        || words.starts_with("how to make ") && !text.contains(['.', '!'])
        || known.method_ends.has(last) && short()
    {
        Some(Section::Method)
    } else if known.notes.has(words) || known.notes_ends.has(last) && short() {
        Some(Section::Notes)
    } else if known.equipment.has(words) {
        Some(Section::Equipment)
    } else if known.nutrition.has(words) {
        Some(Section::Nutrition)
    } else {
        None
    }
}

/// The section of a row such as "Ingredients: flour, …", and where the words after the colon begin.
pub fn headed_with_words(text: &str) -> Option<(Section, usize)> {
    let (head, rest) = text.split_once(':')?;
    if head.len() > 40 || rest.trim().is_empty() {
        return None;
    }
    Some((headed_by(head, &plain(head))?, head.len() + 1 + rest.len() - rest.trim_start().len()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_sections() {
        let headed = |text| headed_by(text, &plain(text));
        assert_eq!(headed("Shopping / ingredients"), Some(Section::Ingredients));
        assert_eq!(headed("What you'll need:"), Some(Section::Ingredients));
        assert_eq!(headed("How to make it"), Some(Section::Method));
        assert_eq!(headed("Cake"), None);
        assert_eq!(headed_with_words("Method: Stir it").map(|read| read.1), Some(8));
    }
}
