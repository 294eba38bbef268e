//! A line that goes on in the next row: "2 cups flour, spooned and", then "leveled".

use super::super::NodeKind;
use super::super::optional;
use super::super::rows::Mark;
use super::super::vocabulary::VOCABULARY;
use super::Reader;
use crate::food_words::FoodWords;
use crate::word;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    /// Joins a row to the ingredient before it when it goes on with it, or takes it for a note about it.
    pub(super) fn continues(&mut self, at: usize, text: &str) -> bool {
        let like = self.ingredient_like(at);
        let row = self.row(at);
        if row.mark != Mark::None || row.decorated || like && !text.starts_with(|c: char| c.is_lowercase() || c == '(')
        {
            return false;
        }
        let first_row = (0..at).rev().find(|before| !self.said[*before].goes_on).unwrap_or(at);
        let deeper = row.indent > self.row(first_row).indent;
        let hangs = self.row(first_row).mark != Mark::None && row.indent > 0;
        let small = text.starts_with(|c: char| c.is_lowercase() || c == '(');
        let Some(last) = self.out.components.last().and_then(|component| component.lines.last()) else { return false };
        // "… plus a good bit more", then "for dusting the board".
        let links = last.text.len() >= LEAST_WRAPPED
            && !self.blank_before(at)
            && text.split(' ').next().is_some_and(|first| VOCABULARY.rows.linking.has(first));
        let open = dangles(&last.text) || links;
        // A line wrapped over more than this is none; what follows is read as lines of its own.
        if last.text.len() > LONGEST_WRAPPED {
            return false;
        }
        // A bracket not set in is no remark on the line before when it holds an ingredient.
        if !(deeper || hangs || small && open) || like && text.starts_with('(') && !deeper && !hangs {
            return false;
        }
        let bracket = last.text.matches('(').count() > last.text.matches(')').count();
        let said = word::fold(text);
        let talks = text.starts_with('(') && !open
            || said.starts_with("note")
            || [" i ", "they ", "it ", "don", "you "].iter().any(|word| said.starts_with(word));
        let unknown = !self.stale && last.line.foods.iter().all(|item| item.food.is_none());
        if bracket || open || small && !talks && (last.text.contains(',') || unknown) {
            let joined = format!("{} {text}", last.text);
            let place = last.place.start..row.body.end;
            self.stale = true;
            self.goes_on(at, NodeKind::IngredientLine);
            if let Some(last) = self.out.components.last_mut().and_then(|component| component.lines.last_mut()) {
                last.place = place;
                last.text = joined;
            }
            return true;
        }
        // "(2 cups crumbs)" set in below "20 biscuits" is the same again.
        let again = || optional::bracketed(text).is_some_and(|inside| !optional::is_said(inside));
        if deeper && (!like || again()) {
            self.note(at);
            return true;
        }
        false
    }
}

/// Shortest ingredient line that is wrapped, in bytes.
const LEAST_WRAPPED: usize = 30;

/// Longest ingredient line that a further row may go on with, in bytes.
const LONGEST_WRAPPED: usize = 300;

/// Whether a line ends so that more must come.
pub(super) fn dangles(text: &str) -> bool {
    let last = text.rsplit(' ').next().unwrap_or("");
    let folded = word::fold(last);
    text.ends_with([',', '-', '–', '/', '&', '+'])
        || VOCABULARY.rows.dangling.has(&folded)
        || folded.len() > 4 && folded.ends_with("ly") && !folded.ends_with("jelly")
}
