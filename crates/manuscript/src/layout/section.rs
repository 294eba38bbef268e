//! What a heading opens, and rows that came along with a web page.

use crate::word::fold;

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

const INGREDIENTS: &[&str] = &[
    "ingredients",
    "ingredient list",
    "what you need",
    "you need",
    "you will need",
    "youll need",
    "what youll need",
    "what goes in",
    "what goes in it",
    "shopping list",
    "shopping",
    "shopping ingredients",
    "the ingredients",
    "ingredients list",
    "for the recipe",
    "zutaten",
];
const METHOD: &[&str] = &[
    "method",
    "the method",
    "directions",
    "instructions",
    "preparation",
    "procedure",
    "process",
    "steps",
    "to do",
    "what you do",
    "what to do",
    "how to make it",
    "how to",
    "to make it",
    "to make",
    "how",
    "how it goes",
    "work",
    "making",
    "making it",
    "making them",
    "do this",
    "the work",
    "step by step",
    "baking instructions",
    "method of preparation",
    "recipe instructions",
    "cooking instructions",
    "how to make them",
    "to make them",
];
const NOTES: &[&str] = &[
    "notes",
    "note",
    "tips",
    "tip",
    "bakers notes",
    "bakers note",
    "recipe notes",
    "my notes",
    "variations",
    "variation",
    "faq",
    "storage",
    "storing",
    "keeping",
    "to store",
    "make ahead",
    "freezing",
    "serving",
    "serving suggestions",
    "substitutions",
    "leftovers",
    "nb",
    "ps",
];
const EQUIPMENT: &[&str] = &["equipment", "tools", "special equipment", "equipment needed"];
const NUTRITION: &[&str] = &[
    "nutrition",
    "nutrition facts",
    "nutritional information",
    "nutrition information",
    "nutrition per serving",
    "comments",
    "reviews",
    "leave a reply",
    "related recipes",
    "you may also like",
];

/// Folded words with single spaces, marks and what stands in brackets left out; at most the first 60 bytes count.
fn plain(text: &str) -> String {
    let text = text.split('(').next().unwrap_or(text);
    let mut words = String::new();
    for word in
        text.split(|c: char| !c.is_alphanumeric() && !crate::word::is_apostrophe(c)).filter(|word| !word.is_empty())
    {
        if !words.is_empty() {
            words.push(' ');
        }
        words.push_str(&fold(word));
        if words.len() > 60 {
            break;
        }
    }
    words
}

/// The section a whole row heads.
pub fn headed(text: &str) -> Option<Section> {
    if text.len() > 80 {
        return None;
    }
    let words = plain(text);
    let is = |list: &[&str]| list.contains(&words.as_str());
    if is(INGREDIENTS) {
        Some(Section::Ingredients)
    } else if is(METHOD) || (words.starts_with("how to make ") && !text.contains(['.', '!'])) {
        Some(Section::Method)
    } else if is(NOTES) {
        Some(Section::Notes)
    } else if is(EQUIPMENT) {
        Some(Section::Equipment)
    } else if is(NUTRITION) {
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
    Some((headed(head)?, head.len() + 1 + rest.len() - rest.trim_start().len()))
}

/// Rows a web page, a video or a scanner left behind.
pub fn is_junk(text: &str) -> bool {
    if text.len() > 200 {
        return false;
    }
    let words = plain(text);
    let starts = [
        "jump to",
        "print recipe",
        "skip to",
        "pin recipe",
        "save recipe",
        "rate this",
        "did you make this",
        "leave a reply",
        "your email address",
        "this post may contain",
        "this post contains",
        "advertisement",
        "us customary",
        "save pin",
        "share this",
        "subscribe",
        "leave a comment",
        "read the disclosure",
        "click here",
        "scroll down",
        "posted by",
        "posted on",
        "filed under",
        "tagged",
        "cook mode",
        "prevent your screen",
        "chapters",
        "home cakes",
        "sent from",
        "all rights reserved",
        "share on",
        "follow me",
        "tag us",
    ];
    if starts.iter().any(|start| words.starts_with(start))
        || matches!(
            words.as_str(),
            "print"
                | "pin"
                | "save"
                | "share"
                | "pin it"
                | "home"
                | "menu"
                | "search"
                | "metric"
                | "course cuisine"
                | "amount ingredient remark"
                | "item quantity"
                | "quantity ingredient"
                | "amount ingredient"
                | "ingredient amount"
                | "ingredient quantity"
                | "ingredient weight"
                | "item amount"
        )
    {
        return true;
    }
    // "4.8 from 212 votes", "12 comments", "Calories 311 kcal".
    let mut each = words.split(' ');
    let first = each.next().unwrap_or("");
    let last = words.rsplit(' ').next().unwrap_or("");
    let digit = first.starts_with(|c: char| c.is_ascii_digit());
    if digit && matches!(last, "votes" | "vote" | "comments" | "comment" | "reviews" | "ratings" | "shares" | "views") {
        return true;
    }
    if matches!(first, "calories" | "carbohydrates" | "cuisine" | "course" | "author" | "keyword" | "votes")
        && words.len() > first.len()
    {
        return true;
    }
    if text.contains(" » ") || text.contains(" › ") || text.starts_with("http") || text.starts_with("www.") {
        return true;
    }
    // "1x 2x 3x", a page number "- 47 -", and a time of a video "0:42 The persimmons".
    if !words.is_empty()
        && words
            .split(' ')
            .all(|word| word.len() <= 3 && word.ends_with('x') && word.starts_with(|c: char| c.is_ascii_digit()))
        && words.contains(' ')
    {
        return true;
    }
    let bare = text.trim_matches(|c: char| matches!(c, '-' | '–' | '—' | ' '));
    if bare.len() < 4 && bare.len() < text.len() && !bare.is_empty() && bare.bytes().all(|b| b.is_ascii_digit()) {
        return true;
    }
    let time = text.split(' ').next().unwrap_or("");
    if time.len() <= 8
        && time.contains(':')
        && time.split(':').all(|part| !part.is_empty() && part.len() <= 2 && part.bytes().all(|b| b.is_ascii_digit()))
    {
        return true;
    }
    text.starts_with('#') && text.split(' ').all(|word| word.starts_with('#'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_sections() {
        assert_eq!(headed("Shopping / ingredients"), Some(Section::Ingredients));
        assert_eq!(headed("What you'll need:"), Some(Section::Ingredients));
        assert_eq!(headed("How to make it"), Some(Section::Method));
        assert_eq!(headed("Cake"), None);
        assert_eq!(headed_with_words("Method: Stir it").map(|read| read.1), Some(8));
    }

    #[test]
    fn ok_junk() {
        for text in [
            "1x 2x 3x",
            "4.8 from 212 votes",
            "- 47 -",
            "0:42 The persimmons",
            "#baking #cake",
            "Home » Cakes",
            "Item Quantity",
        ] {
            assert!(is_junk(text), "{text}");
        }
        for text in ["1 egg", "Salt", "#10 can tomatoes", "Save the whites for later"] {
            assert!(!is_junk(text), "{text}");
        }
    }
}
