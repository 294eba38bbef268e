//! When the baking happens: what the method takes before it is in the pan, what it takes after it is not.

use evencrumb_manuscript::Manuscript;

use super::words::has_any;

/// The byte of the last sentence that bakes, or nothing when no step does.
///
/// The last one counts, because a crust baked blind is filled and baked again. A sentence with a time is believed before
/// one without ("while the layers bake").
pub(crate) fn baking(text: &str, manuscript: &Manuscript) -> Option<usize> {
    let mut timed = None;
    let mut named = None;
    for step in &manuscript.steps {
        for sentence in &step.sentences {
            let words = text.get(sentence.clone()).unwrap_or_default().to_lowercase();
            let Some(at) = bakes_at(&words) else { continue };
            let has_time =
                step.times.iter().any(|time| sentence.contains(&time.place.start)) || has_any(&words, &["until"]);
            let byte = sentence.start + at;
            named = Some(byte);
            if has_time {
                timed = Some(byte);
            }
        }
    }
    timed.or(named)
}

/// Where a sentence in small letters tells to bake. "Baking paper" and "baking powder" bake nothing, nor does "no-bake".
fn bakes_at(sentence: &str) -> Option<usize> {
    let mut from = 0;
    for word in sentence.split(|c: char| !c.is_alphanumeric()) {
        let at = from;
        from += word.len() + sentence[at + word.len()..].chars().next().map_or(0, char::len_utf8);
        let tray = sentence[..at].trim_end().ends_with("tray");
        let before = sentence[..at].trim_end_matches(|c: char| c.is_whitespace() || c == '-' || c == '‑');
        let not = before.len() < at
            && ["no", "not", "don't", "don’t", "non"]
                .iter()
                .any(|no| before.strip_suffix(no).is_some_and(|rest| !rest.ends_with(char::is_alphanumeric)));
        if matches!(word, "bake" | "bakes" | "rebake") && !tray && !not {
            return Some(at);
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_what_bakes_and_what_does_not() {
        assert_eq!(bakes_at("then bake it"), Some(5));
        assert_eq!(bakes_at("line with baking paper and add the baking powder"), None);
        assert_eq!(bakes_at("grease the tray bake tin"), None);
        assert_eq!(bakes_at("é, bake"), Some(4));
        assert_eq!(bakes_at("these no-bake bars, do not bake them"), None);
        assert_eq!(bakes_at("piano bake"), Some(6));
    }
}
