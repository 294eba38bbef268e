//! Where a second recipe begins: a title above ingredients that come after a method.

use super::super::FactKind;
use super::super::fact;
use super::super::rows::Mark;
use super::super::section::Section;
use super::Reader;
use super::title::is_date;
use crate::food_words::FoodWords;
use crate::word;
use crate::words::WORDS;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    pub(super) fn find_second(&mut self) {
        let mut ingredients = false;
        let mut method = None;
        for at in 0..self.rows.len() {
            match self.rows[at].section() {
                Some(Section::Ingredients) if ingredients && method.is_some() => {
                    if let Some(start) = method.take().and_then(|method| self.title_before(at, method)) {
                        self.end = start;
                        return;
                    }
                }
                Some(Section::Ingredients) => ingredients = true,
                Some(Section::Method) => method = Some(at),
                _ => {}
            }
        }
    }

    /// Whether another recipe begins in the row, after the method or notes of the first: a title with a list of its own
    /// below it, and a date or rule before it, or a fact of what it makes where the first has one too.
    pub(super) fn begins_second(&mut self, at: usize) -> bool {
        if !self.blank_before(at) || !self.listed_any {
            return false;
        }
        let dated = is_date(&self.row(at).text);
        // A rule, or the head of another page.
        let ruled = at > 0 && (at.saturating_sub(2)..at).any(|before| self.row(before).rule || self.running[before]);
        let mut title = None;
        let mut makes = false;
        let mut next = at;
        for _ in 0..5 {
            if next >= self.end {
                return false;
            }
            let text = self.row(next).text.clone();
            let listed =
                title.is_some() && self.ingredient_like(next) && self.ingredient_like(self.said_from[next + 1]);
            if listed {
                let stated = makes && self.out.facts.iter().any(|fact| fact.kind == FactKind::Yield);
                return dated || ruled || stated;
            }
            if !fact::facts(&text, true).is_empty() {
                if title.is_none() {
                    return false;
                }
                makes = true;
            } else if title.is_none() && !is_date(&text) && self.could_be_title(next) {
                title = Some(next);
            } else {
                // Only the date and the weather of a diary may stand before the title.
                let weather = next > at && text.starts_with(char::is_lowercase);
                if !(dated && title.is_none() && (next == at || weather)) {
                    return false;
                }
            }
            next = self.said_from[next + 1];
        }
        false
    }

    /// Whether the row may be a title rather than the heading of a part.
    pub(super) fn could_be_title(&self, at: usize) -> bool {
        let row = self.row(at);
        let last = row.text.rsplit(' ').next().map(word::fold).unwrap_or_default();
        let part = WORDS.components.has(&row.plain) || self.words(at) == 1 && WORDS.components.has(&last);
        row.mark == Mark::None
            && self.words(at) <= 14
            && !part
            && row.text.starts_with(|c: char| !c.is_lowercase() && !c.is_numeric())
            && !row.text.ends_with(['.', ':', '!'])
            && !word::fold(row.text.split(' ').next().unwrap_or("")).starts_with("for")
    }

    /// The title of a second recipe above its ingredients and below the method of the first: a short row between blank
    /// rows or after a rule, and not the name of a part such as "Frosting".
    fn title_before(&self, ingredients: usize, method: usize) -> Option<usize> {
        let mut title = None;
        for at in (ingredients.saturating_sub(30).max(method + 1)..ingredients).rev() {
            let row = self.row(at);
            if row.rule && title.is_some() {
                break;
            }
            if row.blank() || row.rule {
                continue;
            }
            if row.mark != Mark::None {
                break;
            }
            let text = row.text.as_str();
            let own = self.words(at) <= 14
                && !text.ends_with(['.', ':', '!'])
                && fact::facts(text, true).is_empty()
                && !word::fold(text.split(' ').next().unwrap_or("")).starts_with("for");
            // "Blondies" straight above "Ingredients" needs no blank row.
            let straight = || self.said_from[at + 1] == ingredients && self.could_be_title(at);
            if own && !self.opens_with_verb(at) && (self.blank_before(at) || straight()) {
                title = Some(at);
            } else if self.step_like(at) {
                break;
            }
        }
        title.filter(|at| !self.names_part(*at))
    }

    /// Whether the row is the name of a part.
    fn names_part(&self, at: usize) -> bool {
        let words = &self.row(at).plain;
        let last = words.rsplit(' ').next().unwrap_or_default();
        WORDS.components.has(words) && last != "cake" || self.words(at) <= 3 && WORDS.kinds.ends_heading.has(last)
    }
}
