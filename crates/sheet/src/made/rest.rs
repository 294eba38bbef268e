//! What becomes of the rest of a part of which lines take only some: "Keep the rest of the caramel for another day."

use evencrumb_manuscript::Manuscript;

use super::mention::words;
use crate::fit::has_any;

/// What the method does with the rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rest {
    /// It is kept for another bake or thrown away, so that nobody eats it with this one.
    KeptBack,
    /// It goes on or beside what is served.
    Used,
}

const REST: &[&str] = &["rest", "remaining", "remainder", "leftover", "left over", "left-over", "surplus"];
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
];
const USED: &[&str] = &[
    "serve", "serving", "drizzle", "pour", "spread", "spoon", "top", "topping", "decorate", "brush", "fill", "pipe",
    "sandwich", "over", "scatter", "sprinkle", "fold", "stir", "glaze", "dust", "add", "swirl",
];
const KEPT: &[&str] = &["keep", "save", "store", "refrigerate", "reserve"];

/// What the method says of the rest of a component; nothing when it is silent. "Freeze the rest" without a name is of the
/// `only` part that lines take of.
pub fn of(text: &str, manuscript: &Manuscript, component: usize, only: bool) -> Option<Rest> {
    let named = |part: usize, said: &super::mention::Words| {
        let name = manuscript.components[part].name.as_deref().unwrap_or_default();
        words(name).intersection(said).next().is_some()
    };
    let sentences = manuscript.steps.iter().flat_map(|step| &step.sentences);
    sentences.filter_map(|sentence| text.get(sentence.clone())).find_map(|sentence| {
        let lower = sentence.to_lowercase();
        let said = words(sentence);
        let nameless = || only && has_any(&lower, &["the rest"]) && !lower.contains("the rest of");
        if !has_any(&lower, REST) || !(named(component, &said) || nameless()) {
            return None;
        }
        let any = |words: &[&str]| has_any(&lower, words);
        match () {
            () if any(ANOTHER) => Some(Rest::KeptBack),
            () if any(USED) => Some(Rest::Used),
            () if any(KEPT) => Some(Rest::KeptBack),
            () => None,
        }
    })
}
