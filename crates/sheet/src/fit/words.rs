//! Looking for words in small letters.

/// Whether a text in small letters has one of these as whole words, in the singular or with an s. None of them is empty.
pub(crate) fn has_any(text: &str, wanted: &[&str]) -> bool {
    // One walk over the text for all that is wanted: nearly everywhere none of them has the byte that stands there.
    let mut firsts = [false; 256];
    for first in wanted.iter().filter_map(|word| word.bytes().next()) {
        firsts[usize::from(first)] = true;
    }
    text.bytes().enumerate().any(|(at, byte)| {
        firsts[usize::from(byte)]
            && text[..at].chars().next_back().is_none_or(|c| !c.is_alphanumeric())
            && wanted.iter().any(|word| opens(&text[at..], word))
    })
}

/// Whether the text begins with the whole word, in the singular or with an s.
fn opens(text: &str, word: &str) -> bool {
    let ends = |rest: &str| rest.chars().next().is_none_or(|c| !c.is_alphanumeric());
    let plural = |rest: &str| ["s", "es"].iter().any(|plural| rest.strip_prefix(plural).is_some_and(ends));
    let same = text.as_bytes().first() == word.as_bytes().first();
    same && text.strip_prefix(word).is_some_and(|rest| ends(rest) || plural(rest))
}

/// The last word of a heading, in small letters and without its remark in brackets: what sentences call the part.
pub(crate) fn last_word(heading: &str) -> Option<String> {
    let heading = heading.split('(').next()?;
    heading.rsplit(|c: char| !c.is_alphanumeric()).find(|word| !word.is_empty()).map(str::to_lowercase)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_whole_words() {
        assert!(has_any("two 8-inch pans", &["pan"]) && has_any("fig bars", &["bar"]));
        assert!(has_any("2 loaves, each", &["loaf", "each"]) && has_any("a spring-form", &["form"]));
        assert!(!has_any("barley", &["bar"]) && !has_any("expand", &["pan"]));
    }
}
