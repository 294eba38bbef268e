//! What becomes of the rest of a part of which lines take only some: "Keep the rest of the caramel for another day."

use evencrumb_manuscript::Manuscript;

use super::mention::{MIXTURES, Words, words};
use crate::fit::has_any;

/// What the method does with the rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rest {
    /// It is kept for another bake or thrown away, so that nobody eats it with this one.
    KeptBack,
    /// It goes on or beside what is served.
    Used,
}

const REST: &[&str] = &[
    "rest",
    "remaining",
    "remainder",
    "leftover",
    "left over",
    "left-over",
    "surplus",
    "what is left",
    "what’s left",
    "what's left",
];
/// For another bake, whatever else the sentence says.
const ANOTHER: &[&str] = &[
    "another",
    "freeze",
    "discard",
    "throw",
    "compost",
    "other use",
    "other uses",
    "future",
    "next time",
    "next batch",
    "cook's treat",
    "feed",
    "back into the jar",
    "back in the jar",
    "back to the jar",
    "back into its jar",
    "back in its jar",
];
const USED: &[&str] = &[
    "serve", "serving", "drizzle", "pour", "spread", "spoon", "top", "topping", "decorate", "brush", "fill", "pipe",
    "sandwich", "over", "scatter", "sprinkle", "fold", "stir", "glaze", "dust", "add", "swirl", "press", "pat", "line",
    "roll", "tip", "scrape", "ease", "crumble", "dot", "lay",
];
const KEPT: &[&str] = &["keep", "save", "store", "refrigerate", "reserve", "jar", "fridge", "refrigerator"];

/// What the method says of the rest of a component; nothing when it is silent. "Freeze the rest" without a name is of the
/// `only` part that lines take of, or of the part that was spoken of just before.
pub fn of(text: &str, manuscript: &Manuscript, component: usize, only: bool) -> Option<Rest> {
    said(text, manuscript, component, only).map(|(rest, _)| rest)
}

/// Where the method puts the rest of a component to use, by the byte of the sentence, and the sentence in small letters.
pub fn used(text: &str, manuscript: &Manuscript, component: usize) -> Option<(usize, String)> {
    let (rest, sentence) = said(text, manuscript, component, false)?;
    (rest == Rest::Used).then(|| (sentence.start, text.get(sentence.clone()).unwrap_or_default().to_lowercase()))
}

fn said<'m>(
    text: &str,
    manuscript: &'m Manuscript,
    component: usize,
    only: bool,
) -> Option<(Rest, &'m std::ops::Range<usize>)> {
    let name = words(manuscript.components.get(component)?.name.as_deref().unwrap_or_default());
    // The two sentences before: "Set aside 100 g of the base. Chill it. Press the rest into the tin."
    let mut before = ["", ""];
    for step in &manuscript.steps {
        for sentence in &step.sentences {
            let here = text.get(sentence.clone()).unwrap_or_default();
            let just_before = before;
            before = [here, just_before[0]];
            let lower = here.to_lowercase();
            if !has_any(&lower, REST) {
                continue;
            }
            let named = |said: &Words| name.intersection(said).next().is_some();
            let spoken_of = |before: &&str| is_part_of(before) && named(&words(before));
            let nameless = || is_nameless(&lower) && (only || just_before.iter().any(spoken_of));
            if !named(&words(here)) && !nameless() {
                continue;
            }
            let any = |words: &[&str]| has_any(&lower, words);
            let rest = match () {
                () if any(ANOTHER) => Rest::KeptBack,
                () if any(USED) => Rest::Used,
                () if any(KEPT) => Rest::KeptBack,
                () => continue,
            };
            return Some((rest, sentence));
        }
    }
    None
}

/// Whether a sentence in small letters speaks of a rest and does not say of what: "the rest", "what is left", "the
/// remaining dough", for which a sentence before has the name.
fn is_nameless(lower: &str) -> bool {
    let bare = has_any(lower, &["the rest", "the remainder", "what is left", "what’s left", "what's left"])
        && !["the rest of", "the remainder of", "left of the"].iter().any(|of| lower.contains(of));
    let mixture = |mixture: &&str| {
        ["remaining", "rest of the", "remainder of the", "left of the", "leftover"]
            .iter()
            .any(|said| has_any(lower, &[&format!("{said} {mixture}")]))
    };
    bare || MIXTURES.iter().any(mixture)
}

/// Whether a sentence takes only some of what it names, so that the next can speak of the rest: "Set aside 100 g of the
/// base dough", "Press two thirds of the base into the tin".
fn is_part_of(sentence: &str) -> bool {
    let lower = sentence.to_lowercase();
    lower.contains(" of ") || has_any(&lower, &["half", "some", "set aside", "reserve", "keep back", "hold back"])
}
