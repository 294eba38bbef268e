//! One step by itself: its sentences, temperatures, times, "until …", and pans.

use std::ops::Range;

use super::Step;
use crate::figures;
use crate::layout::PANS;
use crate::line::Cut;
use crate::token::Kind as Token;

/// Reads one step, without its links.
pub fn step(text: &str, place: Range<usize>) -> Step {
    let written = &text[place.clone()];
    let mut step = Step { sentences: sentences(written, place.start), place, ..Step::default() };
    for sentence in &step.sentences {
        let cut = Cut::of(&text[sentence.clone()]);
        for heat in figures::heats(&cut, sentence.start) {
            let is_inside =
                heat.celsius < 90.0 || inside(&cut, heat.place.start - sentence.start, heat.place.end - sentence.start);
            if is_inside { step.inside.push(heat) } else { step.heats.push(heat) }
        }
        step.times.extend(figures::times(&cut, sentence.start));
        for (at, token) in cut.tokens.iter().enumerate() {
            if token.is_any(&["until", "till"]) {
                let end = (at + 1..cut.tokens.len())
                    .find(|end| matches!(cut.tokens[*end].kind, Token::Mark(',' | ';' | '.' | ')')))
                    .unwrap_or(cut.tokens.len());
                let place = cut.place(at, end);
                let open = step.done.last().is_some_and(|last| last.end > place.start + sentence.start);
                if !open {
                    step.done.push(place.start + sentence.start..place.end + sentence.start);
                }
            }
            step.cooks |= token.is_any(COOKING) && !cut.any(at + 1, &["paper", "spray", "sheet"]);
            if token.is_any(PANS) && !(token.folded == "sheet" && cut.any(at + 1, &["cake"])) {
                step.pans.push(token.place.start + sentence.start..token.place.end + sentence.start);
            }
        }
    }
    step
}

/// What is done over heat, by the verbs of it.
const COOKING: &[&str] =
    &["cook", "simmer", "boil", "roast", "bake", "reduce", "fry", "toast", "caramelize", "caramelise", "poach", "stew"];

/// Whether the temperature between the bytes is that of what is cooked, not of the oven.
fn inside(cut: &Cut<'_>, start: usize, end: usize) -> bool {
    let first = cut.tokens.partition_point(|token| token.place.start < start);
    let after = cut.tokens.partition_point(|token| token.place.start < end);
    let before = cut.tokens[first.saturating_sub(4)..first].iter().any(|token| {
        token.is_any(&[
            "reaches",
            "registers",
            "reach",
            "thermometer",
            "temperature",
            "internal",
            "inside",
            "reads",
            "water",
            "milk",
            "syrup",
        ])
    });
    before
        || cut.any(after, &["inside"])
        || cut.any(after, &["in"]) && cut.any(after + 2, &["middle", "center", "centre"])
}

/// Longest sentence; a longer one is broken at white space, so that looking around in one costs no more than this.
const LONGEST_SENTENCE: usize = 1000;

/// Sentences of a text: they end with a mark and white space after it.
pub fn sentences(text: &str, offset: usize) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let mut start = 0;
    for (at, byte) in text.bytes().enumerate() {
        // Nearly every character only goes on with its sentence.
        if !matches!(byte, b'.' | b'!' | b'?') && at <= start + LONGEST_SENTENCE {
            continue;
        }
        let Some(c) = text.get(at..).and_then(|rest| rest.chars().next()) else { continue };
        let next = || text[at + c.len_utf8()..].chars().next();
        let ends = matches!(c, '.' | '!' | '?') && next().is_none_or(char::is_whitespace);
        // "350 deg. F", "3 tbsp. of": a small letter goes on.
        let goes_on = ends
            && c == '.'
            && text[at + 1..].chars().take(4).find(|c| !c.is_whitespace()).is_some_and(char::is_lowercase);
        let before = if ends { text[start..at].rsplit(|c: char| !c.is_alphabetic()).next().unwrap_or("") } else { "" };
        let goes_on = goes_on || matches!(before, "deg" | "approx" | "Tbsp" | "tbsp" | "tsp" | "oz" | "lb");
        let long = at - start > LONGEST_SENTENCE && (c.is_whitespace() || at - start > 2 * LONGEST_SENTENCE);
        if ends && !goes_on || long {
            push(&mut found, text, start, at + c.len_utf8(), offset);
            start = at + c.len_utf8();
        }
    }
    push(&mut found, text, start, text.len(), offset);
    found
}

fn push(found: &mut Vec<Range<usize>>, text: &str, start: usize, end: usize, offset: usize) {
    let said = &text[start..end];
    let lead = said.len() - said.trim_start().len();
    if !said.trim().is_empty() {
        found.push(start + lead + offset..start + said.trim_end().len() + offset);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_sentences_and_signs() {
        let text = "Bake at 350 deg. F for 20 minutes, until golden. Cool in the pan.";
        let step = step(text, 0..text.len());
        assert_eq!(step.sentences.len(), 2);
        assert_eq!(step.times.len(), 1);
        assert_eq!(step.done.len(), 1);
        assert_eq!(step.pans.len(), 1);
    }
}
