//! Headings of parts: "For the sponge" above ingredients begins a component, "Method: beat …" a section.

use super::super::Component;
use super::super::NodeKind;
use super::super::fact;
use super::super::furniture;
use super::super::list;
use super::super::optional;
use super::super::rows::{Mark, is_picture};
use super::super::section;
use super::super::section::Section;
use super::In;
use super::Reader;
use super::list::LONGEST_BARE;
use super::method::is_step_head;
use crate::food_words::FoodWords;
use crate::line::{Cut, Kind};
use crate::word;
use crate::words::WORDS;

/// Longest list on one row that is taken apart, in bytes.
const LONGEST_LIST: usize = 1000;

/// Longest list of things to bake with.
const MOST_THINGS: usize = 20;

/// What of a heading a row has by itself.
#[derive(Clone, Copy)]
pub(super) struct Heading {
    /// A colon, signs around it or a rule below: even an ingredient so written is a heading.
    bound: bool,
    /// So marked that it is one in the middle of the method too.
    clear: bool,
    /// It may have a blank row below it.
    strong: bool,
    /// Capitals only.
    shouted: bool,
    /// Its first word is a food.
    food: bool,
    /// It may stand between lines without a blank row.
    within: bool,
    /// It may be one without any sign.
    plain: bool,
}

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    /// Whether the row heads a part of the ingredients: it looks like a heading, and ingredients follow,
    /// or a heading of its own that they follow ("2. THE TOP" above "2.1 Cream").
    pub(super) fn heads_component(&mut self, at: usize) -> bool {
        self.heads_lines(at) || self.heads_headings(at)
    }

    /// Whether the row heads further headings: it names no part itself.
    pub(super) fn heads_headings(&mut self, at: usize) -> bool {
        let next = self.said_from[at + 1];
        next < self.end
            && self.heading(at).is_some_and(|heading| heading.strong || heading.clear)
            && self.heading(next).is_some()
            && !self.ingredient_like(at)
            && self.heads_lines(next)
            && !self.heads_lines(at)
    }

    /// Whether the row looks like a heading and ingredients follow it.
    pub(super) fn heads_lines(&mut self, at: usize) -> bool {
        let Some(heading) = self.heading(at) else { return false };
        let next = self.said_from[at + 1];
        if next >= self.end {
            return false;
        }
        let like = self.ingredient_like(at);
        let opens = || self.opens_with_amount(at) || self.opens_as_line(at);
        let lists = !heading.bound && (like || !heading.shouted && opens());
        if lists {
            return false;
        }
        // "for dusting the board" in small letters goes on with the line above.
        if !heading.bound
            && at > 0
            && !self.blank_before(at)
            && self.row(at).text.starts_with(char::is_lowercase)
            && self.ingredient_like(at - 1)
        {
            return false;
        }
        if !heading.bound && (self.is_food_above_amount(at) || self.is_food_among_foods(at)) {
            return false;
        }
        // "some flour", "a little butter"
        if !heading.bound && self.opens_vaguely(at) {
            return false;
        }
        // "the tangzhong" takes the part of that name.
        if !heading.bound && word::fold(self.row(at).text.split(' ').next().unwrap_or_default()) == "the" {
            let part = self.is_component(&self.row(at).text);
            if part {
                return false;
            }
        }
        // A question heads what answers it.
        if self.row(at).text.ends_with('?') && !self.ingredient_like(next) {
            return false;
        }
        let direct = next == at + 1 || next == at + 2 && self.row(at + 1).rule;
        if !heading.strong && !direct && !((self.listed_any || self.parted()) && self.stands_apart(at)) {
            return false;
        }
        let after = self.said_from[next + 1];
        let amounts = |at: usize| self.rows.get(at).is_some_and(|row| row.amount);
        if !heading.strong && heading.food && (amounts(next) || amounts(after)) {
            return false;
        }
        let first_is_bare = self.words(next) <= if heading.strong { 12 } else { 6 }
            && !self.row(next).text.ends_with('.')
            && self.row(next).mark != Mark::Number
            && !self.heading(next).is_some_and(|heading| heading.strong);
        let follow = self.ingredient_like(next)
            || self.is_component(&self.row(next).text)
            || first_is_bare && self.ingredient_like(after)
            || self.row(next).amount;
        // In a numbered list an item is no heading of the next.
        let numbered = self.row(at).mark == Mark::Number && self.row(next).mark == Mark::Number;
        // "To serve:" above "• blackcurrants".
        let bulleted = heading.bound
            && self.listed_any
            && self.row(at).mark == Mark::None
            && self.row(next).mark == Mark::Bullet
            && !self.step_like(next)
            && !self.opens_with_verb(next);
        let follow = follow || bulleted;
        follow && !numbered && (heading.strong || heading.plain)
    }

    /// "Sugar" straight below "Flour" or above "Butter", and "icing sugar" in small letters, are lines without amount.
    pub(super) fn is_food_among_foods(&self, at: usize) -> bool {
        let (row, above_row) = (self.row(at), at.checked_sub(1).map(|above| self.row(above)));
        // "Icing sugar", "200 g flour" below the title or "Ingredients", and no part after them.
        let headed = above_row.is_some_and(|above| above.section() == Some(Section::Ingredients));
        let opens = (headed || self.opens_list(at)) && {
            let blank = (at..self.end).find(|at| self.row(*at).blank()).unwrap_or(self.end);
            let next = self.said_from[blank];
            next >= self.end || self.row(next).section().is_some() || self.step_like(next)
        };
        let small = row.text.starts_with(char::is_lowercase);
        let food = |at: usize| {
            let row = self.row(at);
            let words: Vec<_> = row.text.split(' ').take(6).map(word::key).collect();
            let several = || {
                let read = self.read_line(&row.text);
                read.foods.len() > 1 && read.foods.iter().all(|item| item.food.is_some() && item.unknown.is_empty())
            };
            row.mark == Mark::None
                && !WORDS.components.has(&row.plain)
                && (self.foods.food(&words.join(" ")).is_some() || several())
        };
        let neighbour = |at: usize| at < self.end && !self.row(at).blank() && food(at);
        let above = || !self.blank_before(at) && neighbour(at - 1) && self.said[at - 1].kind != NodeKind::Title;
        food(at) && (small || opens || above() || neighbour(at + 1))
    }

    /// Whether nothing of the list stands above the row: the title, a fact, talk or the heading of the whole list.
    fn opens_list(&self, at: usize) -> bool {
        let above = (0..at).rev().find(|at| !self.row(*at).blank() && !self.row(*at).rule);
        above.is_some_and(|above| {
            matches!(self.said[above].kind, NodeKind::Title | NodeKind::Fact | NodeKind::Headnote)
                || self.row(above).section() == Some(Section::Ingredients)
        })
    }

    /// Whether the row asks for a food in no amount one could weigh: "some flour", "a little butter".
    pub(super) fn opens_vaguely(&self, at: usize) -> bool {
        let text = self.row(at).text.as_str();
        let first = word::fold(text.split(' ').next().unwrap_or_default());
        let vague = matches!(first.as_str(), "some" | "any" | "a" | "an" | "few" | "little" | "enough" | "several");
        // "Oil for frying" too.
        let uses = text.contains(" for ") || text.contains(" to ");
        (vague || uses) && {
            let read = self.read_line(text);
            (vague || read.purpose.is_some()) && read.foods.iter().any(|item| item.food.is_some())
        }
    }

    /// "Poached pears" between blank rows, above two ingredients.
    fn stands_apart(&mut self, at: usize) -> bool {
        let next = self.said_from[at + 1];
        next == at + 2
            && self.row(at + 1).blank()
            && self.blank_before(at)
            && self.is_plain_name(at)
            && !self.ingredient_like(at)
            && self.ingredient_like(next)
            && self.ingredient_like(self.said_from[next + 1])
    }

    /// A few words, the first with a capital, that neither tell what to do nor state anything.
    fn is_plain_name(&self, at: usize) -> bool {
        let row = self.row(at);
        self.heading(at).is_some_and(|heading| heading.plain)
            && row.mark == Mark::None
            && self.words(at) <= 6
            && row.text.starts_with(char::is_uppercase)
            && !self.opens_with_verb(at)
            && fact::facts(&row.text, true).is_empty()
    }

    /// Whether the recipe's parts each have their name between blank rows: two names at least below the title.
    fn parted(&mut self) -> bool {
        if let Some(known) = self.parted {
            return known;
        }
        let first = self.said_from[0];
        let parted = (first + 1..self.end).filter(|at| self.stands_apart(*at)).take(2).count() == 2;
        *self.parted.insert(parted)
    }

    /// Begins the component of a heading such as "To serve" with lines that have no amount below it. Rows of more than
    /// `longest` words are none of these.
    pub(super) fn bare_component(&mut self, at: usize, text: &str, longest: usize) -> Option<In> {
        let end = self.bare_rows(at, longest)?;
        let state = self.component(at, text);
        self.bare_until = end;
        Some(state)
    }

    /// Where the rows without amounts end that such a heading has below it: "a few raspberries".
    fn bare_rows(&mut self, at: usize, longest: usize) -> Option<usize> {
        let heading = self.heading(at).filter(|heading| heading.strong)?;
        if !self.listed_any || heading.food && !heading.bound || self.ingredient_like(at) {
            return None;
        }
        let start = self.said_from[at + 1].min(at + 2);
        let mut end = start;
        let mut named = 0;
        while end < self.end && !self.row(end).blank() && !self.row(end).rule {
            // Where two have none, others may have one: "fresh berries", "icing sugar", then "a few mint leaves".
            if self.ingredient_like(end) && end > start + 1 {
                (named, end) = (named + 1, end + 1);
                continue;
            }
            if self.ingredient_like(end) {
                return None;
            }
            let row = self.row(end);
            let other = self.words(end) > longest
                || row.text.ends_with(['.', ':', '!', '?'])
                || row.mark == Mark::Number
                || row.section().is_some()
                || row.decorated
                || !fact::facts(&row.text, false).is_empty();
            if other || self.opens_with_verb(end) || self.step_like(end) {
                return None;
            }
            let names = |text: &str| text.split(' ').any(|word| self.foods.food(&word::key(word)).is_some());
            named += usize::from(names(&row.plain) || self.is_component(&row.text) || row.plain.contains("rest of"));
            end += 1;
        }
        (named > 0 && named * 2 > end - start).then_some(end)
    }

    /// Whether the row is a food whose amount stands in the next row, as in a table pasted cell by cell.
    pub(super) fn is_food_above_amount(&mut self, at: usize) -> bool {
        let next = self.said_from[at + 1];
        if next >= self.end || self.row(at).amount || !self.row(next).amount {
            return false;
        }
        let names = self.row(at).plain.split(' ').any(|word| self.foods.food(&word::key(word)).is_some());
        names && self.words(at) <= 8 && !self.row(at).text.ends_with(':') && !self.row(at).decorated
    }

    /// "Sponge: 200 g butter, 4 eggs": a component on one row. Gives where its list begins.
    pub(super) fn names_list(&self, at: usize) -> Option<usize> {
        let text = self.row(at).text.as_str();
        let dash = || [" - ", " – ", " — "].into_iter().find_map(|sign| text.split_once(sign));
        let colon = text.split_once(':');
        let (head, rest) = colon.or_else(dash)?;
        let words = section::plain(head);
        let last = words.rsplit(' ').next().unwrap_or_default();
        if head.len() > 40
            || optional::label(text) > 0
            || text.contains('=')
            || head.contains([',', '.'])
            || words.split(' ').count() > 5
            || !fact::facts(text, true).is_empty()
        {
            return None;
        }
        let said = rest.trim_start();
        // "Curd - 1 tbsp, sour" is a food and its amount, whatever else the word names.
        if list::is_amount(said.split([',', '(']).next().unwrap_or(said).trim_end())
            && list::parts(said, true).len() == 1
        {
            return None;
        }
        let known = WORDS.components.has(&words) || words.starts_with("for ") || words.starts_with("to ");
        // "Drizzle: juice of 2 lemons, 175 g sugar"
        let amounts = || {
            let first = list::parts(said, true).swap_remove(0);
            known
                && first.len() < said.len()
                && self.read_line(&said[first]).foods.iter().any(|item| !item.amounts.is_empty())
        };
        if said.len() > LONGEST_LIST || !list::opens_with_amount(&Cut::of(said), 0) && !amounts() {
            return None;
        }
        let least = if colon.is_some() { 2 } else { 3 };
        let several = list::parts(said, true).len() >= least && self.foods.food(&word::key(last)).is_none();
        (known || several).then_some(text.len() - said.len())
    }

    /// Whether the row begins as an ingredient does.
    fn opens_with_amount(&self, at: usize) -> bool {
        list::opens_with_amount(&Cut::of(&list::plain(&self.row(at).text)), 0)
    }

    /// Whether the row opens as an ingredient does and is no sentence, whether its food is known or not.
    pub(super) fn opens_as_line(&self, at: usize) -> bool {
        let text = self.row(at).text.as_str();
        let figure = text.trim_start_matches(['-', '–', '−', '+', '~', '(']).starts_with(char::is_numeric);
        (figure || self.opens_with_amount(at))
            && self.words(at) <= 12
            && !text.ends_with(['.', '!', '?', ':'])
            && self.row(at).section().is_none()
            && self.read_line(text).kind == Kind::Ingredient
    }

    /// What of a heading the row has by itself. Found out once for each row.
    fn heading(&self, at: usize) -> Option<Heading> {
        *self.headings[at].get_or_init(|| self.heading_of(at))
    }

    fn heading_of(&self, at: usize) -> Option<Heading> {
        let row = self.row(at);
        let text = row.text.as_str();
        // What stands in a bracket behind the heading is a remark on it.
        let unended = text.trim_end_matches(':');
        let bare = if unended.ends_with(')') { unended.split('(').next().unwrap_or_default().trim_end() } else { text };
        if bare.is_empty()
            || self.words(at) > 16
            || bare.split(' ').count() > 10
            || text.ends_with(['.', '!', ','])
            || text.ends_with('?') && self.words(at) > 7
            || text.contains('=')
            || text.contains(". ")
            || furniture::is_table_head(text, &row.plain)
        {
            return None;
        }
        let colon = bare.ends_with(':') || text.ends_with(':') || text.ends_with(":-");
        let numbered = row.mark == Mark::Number;
        let words: Vec<_> = bare.trim_end_matches([':', '-', ' ']).split(' ').map(word::fold).collect();
        let verb = WORDS.verbs.has(&words[0]) && !WORDS.components.has(&words.join(" "));
        if row.mark == Mark::Bullet && !(colon || row.decorated) || numbered && verb {
            return None;
        }
        let ruled = self.rows.get(at + 1).is_some_and(|row| row.rule);
        let letters = bare.chars().filter(|c| c.is_alphabetic()).take(80).collect::<Vec<_>>();
        let shouted = letters.len() > 1 && letters.iter().all(|c| c.is_uppercase()) && words.len() <= 6;
        let for_the = matches!(words[0].as_str(), "for" | "to") && words.len() <= 7;
        let next = self.rows.get(at + 1).filter(|next| !next.blank());
        let outdented = next.is_some_and(|next| next.indent > row.indent) && words.len() <= 6 && !bare.contains(',');
        let known = WORDS.components.has(&words.join(" "));
        let first_is_food = self.foods.food(&word::key(&words[0])).is_some();
        Some(Heading {
            bound: colon || row.decorated || ruled,
            clear: colon || row.decorated || ruled || bare.starts_with("For the ") || numbered,
            strong: colon || row.decorated || ruled || for_the || known || shouted || outdented && !first_is_food,
            shouted,
            food: first_is_food,
            within: colon
                || row.decorated
                || numbered
                || known && (!first_is_food || shouted)
                || (outdented || shouted && next.is_some_and(|next| next.text.contains(char::is_lowercase)))
                    && !first_is_food,
            // A plain word: a blank row stands before it, and it does not begin a list without headings.
            plain: (!first_is_food || words.len() <= 3) && !text.contains(','),
        })
    }

    /// Whether the row heads a part though no blank row stands before it: "Filling" above what is set further in.
    pub(super) fn heads_within(&self, at: usize) -> bool {
        self.heading(at).is_some_and(|heading| heading.within)
    }

    /// Whether a heading with a clear sign and ingredients below it stands here.
    pub(super) fn strong_component(&mut self, at: usize) -> bool {
        let next = self.said_from[at + 1];
        let Some(heading) = self.heading(at) else { return false };
        // Where all is in capitals, capitals say nothing.
        let shouted = heading.shouted
            && next < self.end
            && self.row(next).text.contains(char::is_lowercase)
            && (next + 1 >= self.end || self.said_from[next + 1] > next + 1 || self.ingredient_like(next + 1));
        // "Raspberry jelly" above two ingredients, "To assemble" above one.
        let after = self.said_from.get(next + 1).copied().unwrap_or(self.end);
        let plain = self.blank_before(at)
            && self.is_plain_name(at)
            && next < self.end
            && self.ingredient_like(next)
            && (heading.strong && !heading.shouted || self.ingredient_like(after));
        (heading.clear || shouted || plain)
            && next < self.end
            && self.row(next).mark != Mark::Number
            && (self.heads_lines(at) && self.ingredient_like(next) || self.heads_headings(at))
    }

    /// Whether the cells of a column follow: amounts, or the foods that amounts above wait for.
    pub(super) fn heads_column(&self, at: usize) -> bool {
        let next = self.said_from[at + 1];
        self.waiting.has_amounts() || next < self.end && self.row(next).amount
    }

    /// Whether rows of a table follow: one of the next three rows is an ingredient or has a number.
    pub(super) fn heads_table(&mut self, at: usize) -> bool {
        let mut next = at;
        (0..3).any(|_| {
            next = self.said_from.get(next + 1).copied().unwrap_or(self.end);
            self.ingredient_like(next)
        })
    }

    /// Whether the words name a component that stands above: "the Flour blend", "half of the Toffee, warm".
    pub(super) fn is_component(&self, text: &str) -> bool {
        let end = text.find([',', '(']).unwrap_or(text.len());
        if end > 80 || self.names.is_empty() {
            return false;
        }
        let words = section::plain(&text[..end]);
        let mut words = words.as_str();
        while let Some((_, rest)) = words.split_once(' ').filter(|(first, _)| {
            matches!(*first, "the" | "all" | "half" | "of" | "remaining" | "rest" | "your" | "prepared")
        }) {
            words = rest;
        }
        self.names.contains(words)
    }

    pub(super) fn component(&mut self, at: usize, text: &str) -> In {
        self.refresh();
        self.close_method();
        self.say(at, NodeKind::Heading);
        // "Frosting" above a further heading "Ingredients" is the part's name.
        let further =
            self.listed_any && self.rows.get(self.said_from[at + 1]).is_some_and(|next| next.section().is_some());
        let bare = self.bare_rows(at, LONGEST_BARE).is_some();
        if self.heads_headings(at) && self.names_list(at).is_none() && !further && !bare {
            return In::Ingredients;
        }
        let name = text.trim_end_matches(|c| matches!(c, ':' | ' ' | '-' | '–' | '—') || is_picture(c)).to_owned();
        let plain = section::plain(&name);
        let behind = plain.trim_start_matches("for ").trim_start_matches("the ").to_owned();
        self.names.extend([plain, behind, section::plain(name.rsplit(':').next().unwrap_or_default())]);
        self.waiting.clear();
        let place = self.row(at).body.clone();
        // "Step 1" names no part.
        let name = (!is_step_head(self.row(at))).then_some(name);
        self.out.components.push(Component { name, place, lines: Vec::new() });
        In::Ingredients
    }

    /// Takes the row as a component with its list, which begins at byte `from` of its text.
    pub(super) fn component_with_list(&mut self, at: usize, from: usize) -> In {
        let text = self.row(at).text.clone();
        let state = self.component(at, text[..from].trim_end());
        self.say(at, NodeKind::IngredientLine);
        let body = self.row(at).body.clone();
        self.listed(&text[from..], body, true);
        state
    }

    /// Whether "You will need" heads things to bake with: another heading of ingredients follows, and none between.
    pub(super) fn heads_things(&mut self, at: usize) -> bool {
        let (mut next, mut things) = (self.said_from[at + 1], 0);
        for _ in 0..MOST_THINGS {
            if next >= self.end || self.ingredient_like(next) {
                return false;
            }
            match self.row(next).section() {
                Some(Section::Ingredients) => return things > 0,
                Some(_) => return false,
                None => {}
            }
            things += usize::from(self.read_line(&self.row(next).text.clone()).kind == Kind::Equipment);
            next = self.said_from[next + 1];
        }
        false
    }

    pub(super) fn enter(&mut self, at: usize, section: Section) -> In {
        if section == Section::Ingredients
            && let Some(above) = self.names_further_list(at)
        {
            self.method.pop();
            self.component(above, &self.row(above).text.clone());
        }
        self.close_method();
        self.say(at, NodeKind::Heading);
        // A further list below a method is a part of its own, though nothing names it.
        let last = self.out.components.last();
        if section == Section::Ingredients
            && !self.out.steps.is_empty()
            && last.is_some_and(|last| !last.lines.is_empty())
        {
            self.refresh();
            self.waiting.clear();
            let place = self.row(at).body.clone();
            self.out.components.push(Component { name: None, place, lines: Vec::new() });
        }
        match section {
            Section::Ingredients => In::Ingredients,
            Section::Method => In::Method,
            Section::Notes | Section::Equipment => In::Notes,
            Section::Nutrition => In::Nutrition,
        }
    }

    /// The row of "Frosting" above a further heading "Ingredients" when it was taken for the last of the method.
    fn names_further_list(&self, at: usize) -> Option<usize> {
        let above = *self.method.last()?;
        let named = self.listed_any
            && self.said_from[above + 1] == at
            && self.words(above) <= 6
            && self.row(above).mark == Mark::None
            && self.heading(above).is_some()
            && !self.step_like(above);
        named.then_some(above)
    }

    /// The row of "Glaze" straight above an ingredient when it was taken for the last of the method.
    pub(super) fn names_line_below(&self, at: usize) -> Option<usize> {
        let above = *self.method.last()?;
        let plain = above + 1 == at && self.words(above) <= 4 && self.is_plain_name(above) && !self.step_like(above);
        plain.then_some(above)
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
                let written = &self.text[self.row(at).body.clone()];
                if let Some((head, rest)) = written.split_once(':') {
                    self.rows[at].body.start += head.len() + 1 + rest.len() - rest.trim_start().len();
                }
                self.rows[at].says(rest.to_owned());
                self.headings[at].take();
                self.method.push(at);
            }
            Section::Notes | Section::Equipment => self.note(at),
            Section::Nutrition => self.say(at, NodeKind::Junk),
        }
        state
    }
}
