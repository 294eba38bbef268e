//! Where a second recipe begins: a title above ingredients that come after a method.

use super::super::fact;
use super::super::rows::Mark;
use super::super::section;
use super::super::section::Section;
use super::Reader;
use crate::food_words::FoodWords;
use crate::word;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    pub(super) fn find_second(&mut self) {
        let (mut ingredients, mut method) = (false, false);
        for at in 0..self.rows.len() {
            match section::headed(&self.rows[at].text) {
                Some(Section::Ingredients) if ingredients && method => {
                    if let Some(start) = self.title_before(at) {
                        self.end = start;
                        return;
                    }
                    method = false;
                }
                Some(Section::Ingredients) => ingredients = true,
                Some(Section::Method) => method = true,
                _ => {}
            }
        }
    }

    /// The title of a second recipe above its ingredients: a short row between blank rows or after a rule.
    fn title_before(&self, ingredients: usize) -> Option<usize> {
        let mut title = None;
        for at in (ingredients.saturating_sub(30)..ingredients).rev() {
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
            if own && self.blank_before(at) {
                title = Some(at);
            }
        }
        title
    }
}
