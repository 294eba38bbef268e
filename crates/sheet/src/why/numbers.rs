//! The numbers of a question: how many servings, how many grams, or a figure quoted from the sheet.

use evencrumb_manuscript::line::{Cut, number};
use evencrumb_measure::{Number, Unit};

use super::Misunderstood;
use super::question::refused;

/// The numbers of a question, and its words without them.
#[derive(Default)]
pub(super) struct Numbers {
    pub line: Option<usize>,
    pub grams: Option<Number>,
    pub times: Option<Number>,
    /// A figure as the page says it, as the 13.1 of "why 13.1 g fat".
    pub quoted: Option<Number>,
    pub words: Vec<String>,
}

/// A number behind one of these says of how much is asked.
const BEFORE_A_SHARE: &[&str] = &["per", "in", "for", "of", "to", "from", "every", "each", "with"];

impl Numbers {
    /// `own` is what the recipe calls its pieces, folded.
    pub(super) fn of(question: &str, own: &str) -> Result<Numbers, Misunderstood> {
        let cut = Cut::of(question);
        let key = |at: usize| cut.get(at).map(|token| token.key.to_string()).unwrap_or_default();
        let served = |at: usize| {
            // "Half a slice", "3 of the buns".
            let at = at + usize::from(["a", "an", "the", "of"].contains(&key(at).as_str()));
            let at = at + usize::from(["a", "the"].contains(&key(at).as_str()));
            let key = key(at);
            ["serving", "portion", "piece", "slice"].contains(&key.as_str()) || !own.is_empty() && key == own
        };
        let is_word = |at: usize| key(at).contains(char::is_alphabetic);
        let mut found = Numbers::default();
        let mut at = 0;
        while at < cut.tokens.len() {
            let Some((read, next)) = number(&cut, at) else {
                if cut.mark(at, '%') {
                    found.words.push("percent".to_owned());
                }
                found.words.extend(Some(key(at)).filter(|key| key.contains(char::is_alphanumeric)));
                at += 1;
                continue;
            };
            let minus = at > 0 && cut.mark(at - 1, '-') && (at < 2 || cut.tokens[at - 1].spaced);
            let unit = cut.get(next).and_then(|token| Unit::written(&token.folded)).and_then(Unit::grams);
            let spoken = cut.written(at, next);
            let money = at > 0 && ['$', '£', '€'].iter().any(|mark| cut.mark(at - 1, *mark));
            let behind_a_share = at > 0 && BEFORE_A_SHARE.contains(&key(at - 1).as_str());
            let energy = ["kcal", "calorie", "kilocalorie", "kj", "kilojoule"].contains(&key(next).as_str());
            if minus {
                return Err(refused(format!("“-{spoken}” is below nothing"), "Ask with a number above nothing."));
            } else if at > 0 && key(at - 1) == "line" {
                found.line = spoken.parse().ok();
            } else if money {
                found.quoted = Some(read);
                found.words.push("cost".to_owned());
            } else if energy || cut.mark(next, '%') || ["percent", "mg", "mcg", "µg"].contains(&key(next).as_str()) {
                found.quoted = Some(read);
                at = next + usize::from(!energy && !cut.mark(next, '%') && key(next) != "percent");
                continue;
            } else if let Some(unit) = unit {
                // "Why 13.1 g fat": a figure is quoted, and no share of that weight is meant. Of 100 g anything is told.
                let of_it =
                    (next + 1..cut.tokens.len()).find(|at| is_word(*at) && !["of", "raw"].contains(&key(*at).as_str()));
                let hundred = read == Number::whole(100);
                if !behind_a_share && !hundred && of_it == Some(next + 1 + usize::from(key(next + 1) == "of")) {
                    found.quoted = Some(read);
                } else {
                    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "the cast saturates")]
                    let milligrams = Number::fraction((unit * 1000.0).round() as u64, 1000);
                    found.grams = milligrams.and_then(|unit| read.times(unit));
                }
                at = next + 1;
                continue;
            } else if served(next) {
                found.times = Some(read);
            } else if (at..next).any(|at| key(at) == "dozen") {
                // "Per dozen", "two dozen of them": they are pieces, whatever they are called.
                found.times = Some(read);
                found.words.extend((!served(next)).then(|| "piece".to_owned()));
            } else if read == Number::ONE && is_word(next) {
                found.words.push("one".to_owned());
            } else if spoken.contains(|c: char| c.is_ascii_digit()) {
                return Err(refused(
                    format!("“{spoken}” is not said to be grams, servings, pieces or a line"),
                    "Say what it counts, as “sugar per 50 g”, “fat in 2 servings” or “line 12”.",
                ));
            }
            at = next;
        }
        if [found.grams, found.times].contains(&Some(Number::ZERO)) {
            return Err(refused("nothing of it holds nothing".to_owned(), "Ask of more than nothing, as “per 100 g”."));
        }
        Ok(found)
    }
}
