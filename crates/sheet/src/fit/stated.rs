//! What the author says that a pan, a cup or a piece weighs, and what a cup of the batter weighs.

use evencrumb_manuscript::{Manuscript, Measured};

use super::words::has_any;
use crate::measured;

/// What the text says, sorted by what it is about. Grams, lowest and highest.
#[derive(Clone, Debug, Default)]
pub(super) struct Stated {
    /// Of a volume of batter: a measuring cup of it, or what all of it takes up.
    pub volume: Option<Measured>,
    /// In each pan.
    pub each_pan: Option<Measured>,
    /// Of each piece, or in each cup of a muffin pan.
    pub each_piece: Option<Measured>,
    /// Of all the batter.
    pub whole: Option<Measured>,
}

const BATTER: &[&str] = &["batter", "dough", "mixture"];
const PANS: &[&str] = &["pan", "tin", "layer", "loaf", "loaves", "half", "dish"];
const PIECES: &[&str] =
    &["cup", "ball", "cookie", "muffin", "bun", "roll", "piece", "portion", "case", "scoop", "each"];
/// A sentence that speaks of these weighs something else than the batter.
const OTHERS: &[&str] = &[
    "filling",
    "frosting",
    "icing",
    "glaze",
    "cream",
    "syrup",
    "ganache",
    "curd",
    "jam",
    "puree",
    "sugar",
    "butter",
    "chocolate",
];

/// Sorts what the text weighs. What is weighed after the baking is baked, and is no batter any more.
pub(super) fn of(text: &str, manuscript: &Manuscript, baking: Option<usize>) -> Stated {
    let mut stated = Stated::default();
    for measured in &manuscript.measured {
        let after = text.get(measured.place.end..).unwrap_or_default().trim_start();
        let after = after[..after.floor_char_boundary(NEAR)].to_lowercase();
        let what = has_any(&measured.what, BATTER);
        let begins = |words: &[&str]| words.iter().any(|word| after.starts_with(word));
        if what && begins(&["a cup", "per cup", "/cup", "/ cup", "the cup", "to the cup", "in a cup"]) {
            stated.volume.get_or_insert_with(|| measured.clone());
            continue;
        }
        let sentence = sentence(text, measured.place.start).to_lowercase();
        if measured.millilitres.is_some() {
            // "You should have about 6 cups (1,400 g) of batter", but not of puree.
            if has_any(&sentence, BATTER) {
                stated.volume.get_or_insert_with(|| measured.clone());
                stated.whole.get_or_insert_with(|| measured.clone());
            }
            continue;
        }
        let in_steps = manuscript.step_at(measured.place.start).is_some();
        if in_steps && baking.is_some_and(|baking| measured.place.start > baking) {
            continue;
        }
        if measured::is_baked(&sentence)
            || measured.what == "mixture" && measured::of(text, manuscript, measured).is_none()
        {
            continue;
        }
        if has_any(&sentence, OTHERS) && !has_any(&sentence, BATTER) {
            continue;
        }
        let per = measured::one_of(text, measured).unwrap_or_default();
        let per = per.as_str();
        let slot = if has_any(per, PANS) || !per.is_empty() && has_any(&sentence, &["among", "between"]) {
            &mut stated.each_pan
        } else if has_any(per, PIECES) {
            &mut stated.each_piece
        } else if per.is_empty() && what {
            &mut stated.whole
        } else if !per.is_empty() && what && has_any(&sentence, PANS) {
            &mut stated.each_pan
        } else if !per.is_empty() && what {
            &mut stated.each_piece
        } else {
            continue;
        };
        slot.get_or_insert_with(|| measured.clone());
    }
    stated
}

/// Bytes that a sentence is looked for on either side, so that a text without full stops costs no more.
const NEAR: usize = 400;

/// The sentence that a byte stands in, roughly: from the full stop or line before to the one behind.
fn sentence(text: &str, at: usize) -> &str {
    let at = text.floor_char_boundary(at);
    let before = &text[text.floor_char_boundary(at.saturating_sub(NEAR))..at];
    let after = &text[at..text.floor_char_boundary(at.saturating_add(NEAR))];
    let ends = |part: &str| [part.find(". "), part.find('\n')].into_iter().flatten().min();
    let begins = [before.rfind(". "), before.rfind('\n')].into_iter().flatten().max().map_or(0, |stop| stop + 1);
    &text[at - before.len() + begins..at + ends(after).unwrap_or(after.len())]
}
