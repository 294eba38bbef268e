//! A row between ingredients: a line, unless clearly a heading, a step, a fact or talk.

use super::super::FactKind;
use super::super::NodeKind;
use super::super::fact;
use super::super::optional;
use super::super::rows::Mark;
use super::In;
use super::Reader;
use super::looks::breaks_off;
use super::method::{is_number, is_stage, is_step_head};
use crate::food_words::FoodWords;
use crate::line;
use crate::line::Cut;
use crate::line::Item;
use crate::line::Kind;
use crate::word;
use crate::words::WORDS;
use evencrumb_measure::Unit;

/// Most words of a line without an amount below a heading such as "To serve".
pub(super) const LONGEST_BARE: usize = 7;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    pub(super) fn ingredients(&mut self, at: usize, text: &str) -> In {
        if at < self.other_until {
            self.note(at);
            return In::Ingredients;
        }
        let before = at.checked_sub(1).map(|before| self.said[before]);
        let after_line = before.is_some_and(|said| said.kind == NodeKind::IngredientLine);
        let after_heading = before.is_some_and(|said| said.kind == NodeKind::Heading)
            && self.out.components.last().is_some_and(|component| component.lines.is_empty());
        if self.heads_step(at, text) {
            return self.in_method(at, text);
        }
        if self.closes_remark(at, text) {
            self.note(at);
            return In::Ingredients;
        }
        let choice = after_line || self.waits_for_choice();
        if self.offers_list(at) || self.offers(at) || self.completes(at, text) || choice && self.continues(at, text) {
            return In::Ingredients;
        }
        if let Some(from) = self.names_list(at) {
            return self.component_with_list(at, from);
        }
        if self.yields(at, text) && !self.ingredient_like(at) {
            return In::Ingredients;
        }
        if at < self.bare_until {
            self.lists(at, text);
            return In::Ingredients;
        }
        let opens_blank = self.blank_before(at) || !after_line;
        if !after_heading
            && self.blank_before(at)
            && let Some(state) = self.bare_component(at, text, LONGEST_BARE)
        {
            return state;
        }
        if !after_heading && (opens_blank || self.heads_within(at)) && self.heads_component(at) && !self.begins_bare(at)
        {
            return self.component(at, text);
        }
        let like = self.ingredient_like(at) || self.is_food_below(at);
        let has_lines = self.listed_any;
        // "Stir together, then fold in" above the fruit.
        if !like
            && has_lines
            && self.opens_with_verb(at)
            && breaks_off(text)
            && self.ingredient_like(self.said_from[at + 1])
        {
            return self.in_method(at, text);
        }
        if !like && has_lines && self.titles_below(at) {
            self.titled(at);
            self.say(at, NodeKind::Title);
            return In::Ingredients;
        }
        if !like && has_lines && self.heads_method(at) {
            self.say(at, NodeKind::Heading);
            return In::Method;
        }
        let facts = if like { Vec::new() } else { fact::facts(text, true) };
        if facts.first().is_some_and(|fact| matches!(fact.kind, FactKind::Oven | FactKind::Pan))
            && self.row(at).mark == Mark::None
            && self.words(at) <= 10
            && text.contains(':')
        {
            self.state_facts(at, facts);
            return In::Ingredients;
        }
        if !like && has_lines && self.is_between(at, text) {
            self.note(at);
            return In::Ingredients;
        }
        if !like && has_lines && self.begins_method(at, opens_blank) {
            return self.in_method(at, text);
        }
        if !like && self.is_aside(at, text) {
            self.note(at);
            return In::Ingredients;
        }
        self.lists(at, text);
        self.wait(at, text);
        In::Ingredients
    }

    /// Whether the row, apart from the list above it, is nothing but foods and what they are for: "Powdered sugar, for
    /// dusting", "Flaky salt". Such a line needs no amount to be one.
    fn is_food_below(&mut self, at: usize) -> bool {
        let row = self.row(at);
        let apart = self.listed_any && self.blank_before(at);
        if !apart
            || row.decorated
            || row.mark == Mark::Number
            || row.text.ends_with(['.', ':', '!', '?'])
            || self.words(at) > LONGEST_BARE
            || WORDS.components.has(&row.plain)
            || self.is_component(&row.text)
            || self.step_like(at)
        {
            return false;
        }
        let read = self.read_line(&row.text);
        let known = |item: &Item| item.food.is_some() && item.unknown.is_empty() && !item.reference;
        if read.kind != Kind::Ingredient || read.foods.is_empty() || !read.foods.iter().all(known) {
            return false;
        }
        // "butter, sugar and eggs" of the list above is the method of one who writes no verbs.
        read.purpose.is_some() || read.optional || read.foods.len() == 1 || !self.lists_foods_of(&read)
    }

    /// Puts the row in as an ingredient line.
    fn lists(&mut self, at: usize, text: &str) {
        self.say(at, NodeKind::IngredientLine);
        let body = self.row(at).body.clone();
        self.listed(text, body, false);
    }

    /// Whether the row is the number or the heading of a step.
    fn heads_step(&mut self, at: usize, text: &str) -> bool {
        let next = self.said_from[at + 1];
        let heads = if is_number(text) {
            self.listed_any && self.blank_before(at) && !self.waits() && next < self.end && self.step_like(next)
        } else {
            is_step_head(self.row(at))
        };
        heads || is_stage(self.row(at)) && !self.heads_component(at)
    }

    /// Whether the row is the title, which may stand below the list, above what is done.
    fn titles_below(&mut self, at: usize) -> bool {
        let next = self.said_from[at + 1];
        self.title.is_none()
            && self.blank_before(at)
            && !self.step_like(at)
            && self.could_be_title(at)
            && next < self.end
            && (self.step_like(next) || self.row(next).section().is_some())
    }

    /// A line that opens a list with a food and no amount.
    pub(super) fn begins_bare(&mut self, at: usize) -> bool {
        !self.ingredient_like(at) && self.begins_list(at) && self.words(at) > 3
    }

    /// The second row of a remark in brackets.
    fn closes_remark(&self, at: usize, text: &str) -> bool {
        let open = |text: &str| text.starts_with('(') && !text.contains(')');
        at > 0
            && self.said[at - 1].kind == NodeKind::Note
            && open(&self.row(at - 1).text)
            && text.trim_end_matches('.').ends_with(')')
    }

    /// A remark that no step begins with: in brackets, or talk straight above a further ingredient.
    fn is_between(&mut self, at: usize, text: &str) -> bool {
        let open = text.starts_with('(') && !text.contains(')');
        if optional::in_brackets(text).is_some() || open && self.ingredient_like(at + 2) {
            return true;
        }
        self.row(at).mark != Mark::Number
            && !self.blank_before(at)
            && self.ingredient_like(at + 1)
            && self.read_line(text).kind == Kind::Chatter
            && !self.opens_with_verb(at)
    }

    /// Talk between ingredients.
    fn is_aside(&self, at: usize, text: &str) -> bool {
        let cut = Cut::of(text);
        let measured = line::numbers(&cut, 0)
            .and_then(|read| line::unit(&cut, read.next))
            .is_some_and(|(unit, _)| !matches!(unit, Unit::Inch | Unit::Centimetre));
        if measured {
            return false;
        }
        let read = self.read_line(text);
        match read.kind {
            Kind::Chatter | Kind::Storage => true,
            Kind::Equipment | Kind::Time | Kind::Temperature | Kind::Yield => true,
            Kind::Ingredient => {
                read.foods.iter().all(|item| item.food.is_none())
                    && optional::label(text) == 0
                    && (self.words(at) > 12 || text.starts_with('(') || word::fold(text).starts_with("note"))
            }
            Kind::Step | Kind::Heading | Kind::Blank => self.words(at) > 8,
        }
    }
}
