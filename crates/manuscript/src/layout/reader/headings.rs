//! Headings of parts: "For the sponge" above ingredients begins a component, "Method: beat …" a section.

use super::super::Component;
use super::super::NodeKind;
use super::super::list;
use super::super::rows::Mark;
use super::super::section::Section;
use super::In;
use super::Reader;
use crate::food_words::FoodWords;
use crate::line::Cut;
use crate::word;
use crate::words::WORDS;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    /// Whether the row heads a part of the ingredients: it looks like a heading, and ingredients follow.
    pub(super) fn heads_component(&mut self, at: usize) -> bool {
        let row = self.row(at);
        let text = row.text.clone();
        let words = self.words(at);
        if text.is_empty()
            || words > 10
            || text.ends_with(['.', '!', '?', ','])
            || text.contains('=')
            || text.contains(". ")
            || row.mark == Mark::Number
        {
            return false;
        }
        let bullet = row.mark == Mark::Bullet;
        let next = self.said_from[at + 1];
        if next >= self.end {
            return false;
        }
        let direct = next == at + 1 || (next == at + 2 && self.row(at + 1).rule);
        let ruled = self.rows.get(at + 1).is_some_and(|row| row.rule);
        let letters = text.chars().filter(|c| c.is_alphabetic()).take(80).collect::<Vec<_>>();
        let shouted = letters.len() > 1 && letters.iter().all(|c| c.is_uppercase());
        let folded: Vec<_> = text.trim_end_matches(':').split(' ').map(word::fold).collect();
        let known = WORDS.components.has(&folded.join(" "));
        let for_the = folded.first().is_some_and(|word| word == "for" || word == "to") && words <= 7;
        let strong = row.decorated || ruled || text.ends_with(':') || for_the || known || shouted && words <= 6;
        if bullet && !(text.ends_with(':') || row.decorated) {
            return false;
        }
        if !strong && !direct {
            return false;
        }
        let bare = !text.ends_with(':') && !row.decorated && !ruled;
        let opens = |text: &str| list::opens_with_amount(&Cut::of(&list::plain(text)), 0);
        if bare && (self.ingredient_like(at) || !shouted && opens(&text)) {
            return false;
        }
        let after = self.said_from[next + 1];
        let first_is_bare = self.words(next) <= if strong { 12 } else { 6 }
            && !self.row(next).text.ends_with('.')
            && self.row(next).mark != Mark::Number;
        let follow = self.ingredient_like(next) || first_is_bare && self.ingredient_like(after);
        if !follow {
            return false;
        }
        if strong {
            return true;
        }
        // A plain word: a blank row stands before it, and it does not begin a list without headings.
        let first_is_food = self.foods.food(&word::key(&folded[0])).is_some();
        (!first_is_food || words <= 3) && !text.contains(',')
    }

    /// Whether a heading with a clear sign and ingredients below it stands here.
    pub(super) fn strong_component(&mut self, at: usize) -> bool {
        let row = self.row(at);
        let clear = row.decorated
            || row.text.ends_with(':')
            || row.text.starts_with("For the ")
            || self.rows.get(at + 1).is_some_and(|row| row.rule);
        let next = self.said_from[at + 1];
        clear
            && next < self.end
            && self.row(next).mark != Mark::Number
            && self.heads_component(at)
            && self.ingredient_like(next)
    }

    pub(super) fn component(&mut self, at: usize, text: &str) -> In {
        self.refresh();
        self.close_method();
        self.say(at, NodeKind::Heading);
        let name = text.trim_end_matches([':', ' ']).to_owned();
        let place = self.row(at).body.clone();
        self.out.components.push(Component { name: Some(name), place, lines: Vec::new() });
        In::Ingredients
    }

    pub(super) fn enter(&mut self, at: usize, section: Section) -> In {
        self.close_method();
        self.say(at, NodeKind::Heading);
        match section {
            Section::Ingredients => In::Ingredients,
            Section::Method => In::Method,
            Section::Notes | Section::Equipment => In::Notes,
            Section::Nutrition => In::Nutrition,
        }
    }

    pub(super) fn enter_with_words(&mut self, at: usize, section: Section, rest: &str) -> In {
        let state = self.enter(at, section);
        match section {
            Section::Ingredients => {
                self.say(at, NodeKind::IngredientLine);
                let body = self.row(at).body.clone();
                self.listed(rest, body, true);
            }
            Section::Method => {
                // The step begins after the colon.
                if let Some(colon) = self.text[self.row(at).body.clone()].find(':') {
                    self.rows[at].body.start += colon + 1;
                }
                self.rows[at].text = rest.to_owned();
                self.method.push(at);
            }
            Section::Notes | Section::Equipment => self.note(at),
            Section::Nutrition => self.say(at, NodeKind::Junk),
        }
        state
    }
}
