//! A line as tokens, with look-up of phrases across hyphens.

use std::ops::Range;

use crate::token::{self, Kind, Token};
use crate::words::Phrases;

/// A line cut into tokens, and the line itself for what must be quoted as written.
pub struct Cut<'a> {
    /// The line.
    pub text: &'a str,
    /// Its tokens.
    pub tokens: Vec<Token>,
}

impl<'a> Cut<'a> {
    /// Cuts a line.
    pub fn of(text: &'a str) -> Cut<'a> {
        Cut { text, tokens: token::tokens(text) }
    }

    /// Cuts the first tokens of a line, at most so many.
    pub fn opening(text: &'a str, most: usize) -> Cut<'a> {
        Cut { text, tokens: token::first_tokens(text, most) }
    }

    /// The token at `at`, if there is one.
    pub fn get(&self, at: usize) -> Option<&Token> {
        self.tokens.get(at)
    }

    /// Whether the token at `at` is this mark.
    pub fn mark(&self, at: usize, mark: char) -> bool {
        self.get(at).is_some_and(|token| token.is_mark(mark))
    }

    /// Whether the token at `at` is one of these words.
    pub fn any(&self, at: usize, words: &[&str]) -> bool {
        self.get(at).is_some_and(|token| token.is_any(words))
    }

    /// Whether the token at `at` is a word.
    pub fn is_word(&self, at: usize) -> bool {
        self.get(at).is_some_and(|token| token.kind == Kind::Word)
    }

    /// Bytes from token `from` up to token `to`, also where speech that took something back put them in another order.
    pub fn place(&self, from: usize, to: usize) -> Range<usize> {
        match (self.tokens.get(from), to.checked_sub(1).and_then(|last| self.tokens.get(last))) {
            (Some(first), Some(last)) if from < to => {
                first.place.start.min(last.place.start)..last.place.end.max(first.place.end)
            }
            _ => {
                let at = self.tokens.get(from).map_or(self.text.len(), |token| token.place.start);
                at..at
            }
        }
    }

    /// The author's words from token `from` up to token `to`.
    pub fn written(&self, from: usize, to: usize) -> &'a str {
        &self.text[self.place(from, to)]
    }

    /// Whether the token at `at` is a hyphen that joins two words or numbers, with no space on either side.
    pub fn joins(&self, at: usize) -> bool {
        self.get(at).is_some_and(|token| token.is_mark('-') && !token.spaced)
            && self.get(at + 1).is_some_and(|next| !next.spaced)
    }

    /// Whether a mark at `at` joins two words of a phrase: a hyphen, or the slash of "a/n".
    pub fn joins_phrase(&self, at: usize) -> bool {
        let letter = |at: usize| self.get(at).is_some_and(|token| token.kind == Kind::Word && token.folded.len() == 1);
        self.joins(at) || self.mark(at, '/') && at > 0 && letter(at - 1) && letter(at + 1) && !self.tokens[at].spaced
    }

    /// The next `count` words from `at`, hyphens between them passed over: folded phrase, and the token after it.
    pub fn phrase(&self, at: usize, count: usize) -> Option<(String, usize)> {
        let mut phrase = String::new();
        let mut next = at;
        for taken in 0..count {
            if taken > 0 {
                next += usize::from(self.joins_phrase(next));
                phrase.push(' ');
            }
            let token = self.get(next).filter(|token| token.kind == Kind::Word)?;
            phrase.push_str(&token.folded);
            next += 1;
        }
        Some((phrase, next))
    }

    /// The longest phrase of the list that starts at `at`: what it stands for, and the token after it.
    pub fn longest<'w>(&self, at: usize, list: &'w Phrases) -> Option<(&'w str, usize)> {
        let first = self.get(at).filter(|token| token.kind == Kind::Word)?;
        list.beginning_with(&first.folded).iter().find_map(|phrase| {
            let mut next = at + 1;
            for word in phrase.further_words() {
                next += usize::from(self.joins_phrase(next));
                self.get(next).filter(|token| token.is_word(word))?;
                next += 1;
            }
            Some((phrase.stands_for(), next))
        })
    }

    /// Whether a phrase of the list begins at `at`.
    pub fn begins(&self, at: usize, list: &Phrases) -> bool {
        self.longest(at, list).is_some()
    }

    /// Whether a phrase of the list stands anywhere.
    pub fn has(&self, list: &Phrases) -> bool {
        (0..self.tokens.len()).any(|at| self.begins(at, list))
    }

    /// The bracket that closes the one opened at `at`; the end of the line closes all.
    pub fn closing(&self, at: usize) -> usize {
        let mut open = 0usize;
        for (offset, token) in self.tokens[at..].iter().enumerate() {
            match token.kind {
                Kind::Mark('(') => open += 1,
                Kind::Mark(')') if open <= 1 => return at + offset,
                Kind::Mark(')') => open -= 1,
                _ => {}
            }
        }
        self.tokens.len()
    }
}
