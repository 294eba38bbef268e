//! The rows of the method made steps: numbered, parted by blank rows, or each row its own.

use super::super::NodeKind;
use super::super::rows::Mark;
use super::In;
use super::Reader;
use super::Said;
use crate::food_words::FoodWords;
use crate::line::Kind;
use crate::word;
use crate::words::WORDS;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    pub(super) fn in_method(&mut self, at: usize, text: &str) -> In {
        if self.strong_component(at) && self.row(at).mark == Mark::None {
            return self.component(at, text);
        }
        if self.yields(at, text) {
            return In::Method;
        }
        self.method.push(at);
        In::Method
    }

    /// Makes steps of the method's rows read so far.
    pub(super) fn close_method(&mut self) {
        let rows = std::mem::take(&mut self.method);
        if rows.is_empty() {
            return;
        }
        let mut parts: Vec<Vec<usize>> = Vec::new();
        let marked = rows.iter().any(|at| self.row(*at).mark != Mark::None);
        let heads = rows.iter().any(|at| is_step_head(&self.row(*at).text));
        let parted = rows.windows(2).any(|pair| self.blank_before(pair[1]));
        let lower = rows.first().is_some_and(|at| self.row(*at).text.starts_with(char::is_lowercase));
        let last_marked = rows.iter().rposition(|at| self.row(*at).mark != Mark::None);
        for (nth, &at) in rows.iter().enumerate() {
            let text = self.row(at).text.clone();
            let goes_on = nth > 0 && !self.blank_before(at) && !parts.is_empty();
            let heading = self.row(at).mark == Mark::None
                && (nth == 0 || self.blank_before(at) || marked)
                && self.words(at) <= 8
                && (text.ends_with(':') || self.row(at).decorated)
                && !marked_inside(&text);
            if is_step_head(&text) || heading {
                self.say(at, NodeKind::Heading);
                if heading {
                    self.hints.push((self.row(at).place.start, text));
                }
                parts.push(Vec::new());
                continue;
            }
            let own = if marked {
                self.row(at).mark != Mark::None
            } else if heads {
                false
            } else if parted {
                self.blank_before(at)
            } else {
                let wraps = nth > 0
                    && !lower
                    && text.starts_with(char::is_lowercase)
                    && self.row(rows[nth - 1]).text.len() >= 40
                    && !self.row(rows[nth - 1]).text.ends_with(['.', '!', '?']);
                !wraps
            };
            if marked && !own && !goes_on {
                // Between marked steps an unmarked paragraph is a step of its own only before the first.
                if last_marked.is_some_and(|last| nth > last) || !self.step_like(at) {
                    self.note(at);
                    parts.push(Vec::new());
                } else {
                    parts.push(vec![at]);
                }
                continue;
            }
            if own || parts.is_empty() {
                parts.push(vec![at]);
            } else if marked && parts.last().is_some_and(Vec::is_empty) {
                self.note(at);
            } else if let Some(part) = parts.last_mut() {
                part.push(at);
            }
        }
        for part in parts.into_iter().filter(|part| !part.is_empty()) {
            self.step(&part, marked || heads);
        }
    }

    pub(super) fn step(&mut self, part: &[usize], marked: bool) {
        let (Some(&first), Some(&last)) = (part.first(), part.last()) else { return };
        if !marked && self.is_remark(part) {
            for &at in part {
                self.note(at);
            }
            return;
        }
        for (nth, &at) in part.iter().enumerate() {
            self.said[at] = Said { kind: NodeKind::Step, goes_on: nth > 0 };
        }
        let place = self.row(first).body.start..self.row(last).body.end;
        self.out.steps.push(crate::method::step(self.text, place));
    }

    /// Whether an unmarked paragraph of the method is a remark or verse and no step.
    pub(super) fn is_remark(&self, part: &[usize]) -> bool {
        let first = part[0];
        let text = &self.row(first).text;
        if part.len() >= 4
            && part.iter().all(|at| self.row(*at).text.len() <= 45)
            && part.iter().filter(|at| self.row(**at).text.ends_with('.')).count() <= 1
        {
            return true;
        }
        let said: Vec<_> =
            text.split(' ').take(3).map(|word| word::fold(word.trim_matches(|c: char| !c.is_alphanumeric()))).collect();
        let word = |at: usize| said.get(at).map_or("", |word| word.as_str());
        if matches!(word(0), "keeps" | "holds" | "leftovers" | "contains" | "freezes" | "stores")
            || matches!(word(0), "it" | "they" | "these" | "this")
                && matches!(word(1), "keeps" | "will" | "freezes" | "needs" | "is" | "keep" | "freeze")
        {
            return true;
        }
        if self.out.steps.is_empty() {
            return false;
        }
        let all: usize = part.iter().map(|at| self.words(*at)).sum();
        let does = text.split([' ', ',', '.']).take(40).map(word::fold).any(|word| {
            WORDS.verbs.has(&word)
                || WORDS.numbers.contains_key(word.as_str())
                || word.starts_with(|c: char| c.is_ascii_digit())
        });
        all <= 3 && !does
            || self.read_line(text).kind == Kind::Storage
                && word(0) != "refrigerate"
                && word(0) != "freeze"
                && word(0) != "keep"
    }
}

fn marked_inside(text: &str) -> bool {
    text.contains(". ") || text.ends_with('.')
}

/// "STEP 2" alone on a row.
pub(super) fn is_step_head(text: &str) -> bool {
    let mut words = text.trim_end_matches([':', '.']).split(' ');
    let step = words.next().is_some_and(|word| word.eq_ignore_ascii_case("step"));
    step && words.next().is_some_and(|word| {
        !word.is_empty() && word.bytes().all(|b| b.is_ascii_digit())
            || WORDS.numbers.contains_key(word::fold(word).as_str())
    }) && words.next().is_none()
}
