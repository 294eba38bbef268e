//! The rows before the list: the title, what it makes, the headnote, and where a list without heading begins.

use super::super::FactKind;
use super::super::NodeKind;
use super::super::fact;
use super::super::list;
use super::super::rows::Mark;
use super::super::section::Section;
use super::super::vocabulary::VOCABULARY;
use super::In;
use super::Reader;
use super::title::dish;
use crate::food_words::FoodWords;
use crate::line::Cut;
use crate::method;
use crate::word;
use crate::words::WORDS;

/// Longest row that is looked into for pans, in bytes.
const LONGEST_ORDER: usize = 1000;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    pub(super) fn head(&mut self, at: usize, text: &str) -> In {
        if self.title.is_none() && self.precedes_title(at) {
            self.say(at, NodeKind::Headnote);
            return In::Head;
        }
        if self.title.is_none() {
            let opens = self.ingredient_like(at)
                && self.ingredient_like(self.said_from[at + 1])
                && dish(text).1.is_none()
                && !self.titles_with_amount(at);
            let first = at == self.said_from[0];
            let talks = !first
                && (text.ends_with('.') || text.starts_with(char::is_lowercase) && text.ends_with(['!', '?']))
                || text.ends_with(',') && self.words(at) <= 4
                || text.ends_with('?');
            let short = self.words(at) <= 16 && text.len() <= 140 && !talks;
            let states = !fact::facts(text, false).is_empty() && self.words(at) < 5;
            if short
                && !opens
                && !states
                && (first && !(self.row(at).mark == Mark::Number && self.heads_lines(at))
                    || !self.heads_component(at)
                    || self.could_be_title(at))
            {
                self.titled(at);
                self.say(at, NodeKind::Title);
                return In::Head;
            }
        }
        // A sentence within a paragraph states nothing by itself.
        let within = at > 0 && !self.blank_before(at) && self.said[at - 1].kind == NodeKind::Headnote;
        if within && text.ends_with('.') && self.opens_with_verb(at) {
            self.say(at, NodeKind::Headnote);
            return In::Head;
        }
        if self.retitles(at, text) || self.states_in_cells(at) {
            return In::Head;
        }
        if self.prepares(at) {
            self.say(at, NodeKind::Headnote);
            return In::Head;
        }
        let facts = fact::facts(text, true);
        if !facts.is_empty()
            && (!self.ingredient_like(at)
                || facts[0].kind == FactKind::Yield
                || facts[0].kind == FactKind::Pan && !self.is_packed(at))
            && !(facts.len() == 1 && facts[0].kind == FactKind::Yield && self.counts_for_list(at, text))
        {
            self.state_facts(at, facts);
            return In::Head;
        }
        if let Some(fact) = self.counts_pieces(at, text) {
            self.state_facts(at, vec![fact]);
            return In::Head;
        }
        if let Some(from) = self.names_list(at) {
            return self.component_with_list(at, from);
        }
        if self.heads_component(at) {
            return self.component(at, text);
        }
        if self.begins_list(at) {
            return self.ingredients(at, text);
        }
        if self.row(at).mark == Mark::Number && self.step_like(at) {
            return self.in_method(at, text);
        }
        self.say(at, NodeKind::Headnote);
        In::Head
    }

    /// Whether the row is a sentence that makes pans or oven ready: "Preheat to 400. Line a 12-cup muffin tin." Oven and
    /// nothing else is a fact.
    pub(super) fn prepares(&self, at: usize) -> bool {
        let row = self.row(at);
        let mut words = row.text.split([' ', ',']).map(word::fold);
        // "Lightly grease"
        let first = words.find(|word| !word.ends_with("ly")).unwrap_or_default();
        // "Butter, for the pan" is an ingredient.
        let food = WORDS.verb_nouns.has(&first) && row.text.contains(" for ");
        let opens = row.mark == Mark::None && VOCABULARY.rows.readying.has(&first) && !food;
        let body = row.body.clone();
        opens && row.text.len() <= LONGEST_ORDER && !method::step(self.text, body).pans.is_empty()
    }

    /// Whether what looks like a pan is a food in tins: "2 x 400 g tins tomatoes", and not "12-cup muffin tin".
    fn is_packed(&self, at: usize) -> bool {
        let read = self.read_line(&self.row(at).text);
        let terms = read.foods.iter().flat_map(|item| &item.amounts).flat_map(|amount| &amount.terms);
        read.foods.iter().any(|item| item.food.is_some()) || terms.into_iter().any(|term| term.unit.grams().is_some())
    }

    /// Whether a row that counts and says no more ("12 graham crackers") belongs to the list and is not what is made:
    /// it stands straight above the list or names a food, and the dish has another name.
    fn counts_for_list(&mut self, at: usize, text: &str) -> bool {
        if !fact::only_counts(text) || self.names_dish(text) {
            return false;
        }
        let known = self.ingredient_like(at) && self.read_line(text).foods.iter().any(|item| item.food.is_some());
        let next = self.said_from[at + 1];
        let direct = next == at + 1 && self.ingredient_like(next);
        known || direct && !fact::counts_wholes(text)
    }

    /// Whether the last word is the one of the title: "24 oat cookies" below "Oat Cookies with Raisins".
    fn names_dish(&self, text: &str) -> bool {
        let Some((_, title)) = &self.title else { return false };
        let ends = |c: char| matches!(c, ',' | '(' | ':' | '|' | '—');
        let last = |text: &str| {
            let whole = text.split(ends).next().unwrap_or_default();
            let words = whole.trim().split(' ').take_while(|word| !matches!(*word, "with" | "for" | "from" | "in"));
            words.last().map(word::key)
        };
        last(text).is_some_and(|piece| last(title) == Some(piece))
    }

    /// "About 60 kisses" below a title that speaks of kisses.
    fn counts_pieces(&mut self, at: usize, text: &str) -> Option<fact::Fact> {
        // Straight above the list it is of the list.
        let direct = self.said_from[at + 1] == at + 1 && self.ingredient_like(at + 1);
        if self.words(at) > 4 || direct && !text.starts_with(char::is_alphabetic) {
            return None;
        }
        let (_, title) = self.title.as_ref()?;
        let piece = word::key(text.rsplit(' ').next()?.trim_end_matches('.'));
        let named = title.split(' ').any(|word| word::key(word.trim_matches(|c: char| !c.is_alphanumeric())) == piece);
        fact::counted(text).filter(|_| named && !self.ingredient_like(at))
    }

    /// Whether the first row, set apart from the list below it, is the title though it has an amount: "2 Cups of Joy
    /// Cookies", "Pound Cake: 1 lb each".
    fn titles_with_amount(&mut self, at: usize) -> bool {
        let next = self.said_from[at + 1];
        let apart = at == self.said_from[0]
            && next > at + 1
            && self.row(at).mark == Mark::None
            && self.ingredient_like(next)
            && self.ingredient_like(next + 1);
        if !apart {
            return false;
        }
        let text = &self.row(at).text;
        let dish = fact::is_dish(text.split(':').next().unwrap_or(text));
        let amount = list::opens_with_amount(&Cut::of(text), 0);
        let food = || self.row(at).plain.split(' ').any(|word| self.foods.food(&word::key(word)).is_some());
        dish && (!amount || !food())
    }

    /// Whether the row is nothing but the name of a food, with a remark at most.
    pub(super) fn is_bare_food(&self, at: usize) -> bool {
        let Some(row) = self.rows.get(at).filter(|_| at < self.end) else { return false };
        let words: Vec<_> = row.text.split(' ').take(6).map(|word| word::key(word.trim_end_matches(','))).collect();
        words.len() < 6
            && !row.text.ends_with(['.', ':', '!', '?'])
            && (1..=words.len()).any(|count| self.foods.food(&words[..count].join(" ")).is_some())
    }

    /// Whether three foods alone stand here, or two above an amount.
    fn begins_with_foods(&mut self, at: usize) -> bool {
        (at..at + 2).all(|at| self.is_bare_food(at)) && (self.is_bare_food(at + 2) || self.ingredient_like(at + 2))
    }

    /// Whether two ingredients follow the row.
    pub(super) fn lists_on(&mut self, at: usize) -> bool {
        let next = self.said_from[at + 1];
        next < self.end && self.ingredient_like(next) && self.ingredient_like(self.said_from[next + 1])
    }

    /// Whether a list without heading begins here: two ingredients one after another.
    pub(super) fn begins_list(&mut self, at: usize) -> bool {
        let next = self.said_from[at + 1];
        // Several on one row are a list by themselves.
        let several = self.row(at).text.len() <= 1000 && list::parts(&self.row(at).text, false).len() >= 3;
        if several && !self.step_like(at) {
            return true;
        }
        // "• 3 bananas super brown" above "• 1/3 c oil".
        let bulleted = |at: usize| self.rows.get(at).is_some_and(|row| row.mark == Mark::Bullet);
        let opens = || list::opens_with_amount(&Cut::of(&list::plain(&self.row(at).text)), 0);
        if next == at + 1
            && bulleted(at)
            && bulleted(next)
            && (opens() || self.is_bare_food(at))
            && self.ingredient_like(next)
        {
            return true;
        }
        if self.ingredient_like(at) {
            let alone = next >= self.end
                || self.row(at).mark == Mark::Bullet
                || self.row(next).section() == Some(Section::Method);
            // A single line above the heading of a further part.
            let apart = next > at + 1 && next < self.end && self.blank_before(at) && self.heads_component(next);
            return self.ingredient_like(next)
                || alone
                || apart
                || next == at + 1 && self.words(next) <= 6
                || next == at + 1
                    && self.blank_before(at)
                    && self.row(next).text.starts_with(char::is_lowercase)
                    && !self.opens_with_verb(next)
                    && self.row(at).text.starts_with(|c: char| c.is_numeric())
                || next > at + 1
                    && next < self.end
                    && self.step_like(next)
                    && self.blank_before(at)
                    && self.words(at) < 10;
        }
        // What opens with an amount straight above an ingredient is one too, read or not: "1 roll puff pastry".
        if next == at + 1
            && self.ingredient_like(next)
            && (self.opens_as_line(at) || self.opens_vaguely(at) || self.is_food_among_foods(at))
        {
            return true;
        }
        let amounts = |at: usize| self.rows.get(at).is_some_and(|row| row.amount);
        if amounts(at) && (amounts(next) || amounts(self.said_from.get(next + 1).copied().unwrap_or(self.end))) {
            return true;
        }
        if self.is_food_above_amount(at) {
            return true;
        }
        // Foods alone, without any amount, row after row.
        let below_title = at > 0 && self.said[at - 1].kind == NodeKind::Title;
        if (self.blank_before(at) || below_title) && self.begins_with_foods(at) {
            return true;
        }
        // "Butter the size of an egg" opens a list when amounts follow.
        let text = self.row(at).text.clone();
        let first = text.split([' ', ',']).next().map(word::key).unwrap_or_default();
        let after = self.said_from.get(next + 1).copied().unwrap_or(self.end);
        self.blank_before(at)
            && next == at + 1
            && self.ingredient_like(next)
            && (self.ingredient_like(after) || after > next + 1)
            && !text.ends_with('.')
            && self.words(at) <= 8
            && self.foods.food(&first).is_some()
    }
}
