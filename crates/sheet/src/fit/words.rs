//! Looking for words in small letters.

/// Whether a text in small letters has one of these as whole words, in the singular or with an s.
pub(crate) fn has_any(text: &str, wanted: &[&str]) -> bool {
    wanted.iter().any(|word| has(text, word))
}

fn has(text: &str, word: &str) -> bool {
    text.match_indices(word).any(|(at, _)| {
        let before = text[..at].chars().next_back().is_none_or(|c| !c.is_alphanumeric());
        let rest = &text[at + word.len()..];
        let ends = |rest: &str| rest.chars().next().is_none_or(|c| !c.is_alphanumeric());
        before && (ends(rest) || ["s", "es"].iter().any(|plural| rest.strip_prefix(plural).is_some_and(ends)))
    })
}

/// The last word of a heading, in small letters and without its remark in brackets: what sentences call the part.
pub(crate) fn last_word(heading: &str) -> Option<String> {
    let heading = heading.split('(').next()?.to_lowercase();
    heading.split(|c: char| !c.is_alphanumeric()).rfind(|word| !word.is_empty()).map(str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_whole_words() {
        assert!(has_any("two 8-inch pans", &["pan"]) && has_any("fig bars", &["bar"]));
        assert!(!has_any("barley", &["bar"]) && !has_any("expand", &["pan"]));
    }
}
