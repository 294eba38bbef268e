//! A line that goes on in the next row: "2 cups flour, spooned and", then "leveled".

use super::super::list::{self, opens_with_amount};
use super::super::optional;
use super::super::rows::Mark;
use super::super::section;
use super::super::vocabulary::VOCABULARY;
use super::super::{NodeKind, OUTSIDE_THE_LIST};
use super::Reader;
use crate::food_words::FoodWords;
use crate::line::{Cut, Kind};
use crate::query::Query;
use crate::word;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    /// Joins a row to the ingredient before it when it goes on with it, or takes it for a note about it.
    pub(super) fn continues(&mut self, at: usize, text: &str) -> bool {
        if self.adds(at, text) {
            return true;
        }
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
            let end = row.body.end;
            self.join(at, joined, end);
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

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    /// A row set in below an ingredient that adds to it or offers another: "  plus 2 tablespoons", "  and 2 eggs",
    /// "  (or 3/4 cup honey)"; or the row after "1 cup butter or".
    fn adds(&mut self, at: usize, text: &str) -> bool {
        let row = self.row(at);
        let first_row = (0..at).rev().find(|before| !self.said[*before].goes_on).unwrap_or(at);
        let set_in = row.mark == Mark::None && row.indent > 0 && {
            let above = self.row(first_row);
            row.indent > above.indent || above.mark != Mark::None
        };
        let Some(last) = self.out.components.last().and_then(|component| component.lines.last()) else { return false };
        if row.decorated || row.mark == Mark::Number || last.text.len() > LONGEST_WRAPPED {
            return false;
        }
        let inside = optional::in_brackets(text).unwrap_or(text);
        let (first, rest) = inside.split_once(' ').unwrap_or((inside, ""));
        let link = word::fold(first);
        let amount = opens_with_amount(&Cut::of(&list::plain(rest)), 0);
        let chosen = dangles_on_or(&last.text) && opens_with_amount(&Cut::of(&list::plain(text)), 0);
        let links = set_in && amount && matches!(&*link, "plus" | "and" | "or" | "with");
        if !chosen && !links {
            return false;
        }
        // "and 2 eggs" is an ingredient of its own.
        let own = links && link != "or" && {
            let read = self.read_line(rest);
            read.kind == Kind::Ingredient && read.foods.iter().any(|item| item.food.is_some())
        };
        if own {
            let (rest, body) = (rest.to_owned(), row.body.clone());
            self.say(at, NodeKind::IngredientLine);
            self.listed(&rest, body, false);
            return true;
        }
        // An alternative in brackets stays in them.
        let joined = format!("{} {text}", last.text);
        let end = row.body.end;
        self.join(at, joined, end);
        true
    }

    /// "Or" below a part called "Either": its lines are another choice, told in a note and asked about.
    pub(super) fn offers_list(&mut self, at: usize) -> bool {
        let plain = |text: &str| section::plain(text);
        let either = self.out.components.last().is_some_and(|component| {
            component.name.as_deref().is_some_and(|name| plain(name) == "either") && !component.lines.is_empty()
        });
        if !either || self.row(at).plain != "or" {
            return false;
        }
        let start = self.said_from[at + 1];
        let end = (start..self.end).find(|at| !self.ingredient_like(*at)).unwrap_or(self.end);
        if end == start {
            return false;
        }
        self.note(at);
        self.other_until = end;
        let place = self.row(start).body.start..self.row(end - 1).body.end;
        let message = "These lines stand below “Or”; those below “Either” were counted, and these were not.";
        let mend = "Leave only the choice you make, or write each choice on one line: “200 g butter or 150 g oil”.";
        self.out.queries.push(Query::new(&OUTSIDE_THE_LIST, place, message, mend));
        true
    }

    /// "OR" on a row of its own between two ingredients: what follows is another choice for the line above.
    pub(super) fn offers(&mut self, at: usize) -> bool {
        let next = self.said_from[at + 1];
        let above = (0..at).rev().find(|before| !self.row(*before).blank() && !self.row(*before).rule);
        let between = self.row(at).plain == "or"
            && above.is_some_and(|above| self.said[above].kind == NodeKind::IngredientLine)
            && self.ingredient_like(next);
        let last = self.out.components.last().and_then(|component| component.lines.last());
        let Some(last) = last.filter(|last| between && last.text.len() <= LONGEST_WRAPPED) else { return false };
        let joined = format!("{} or", last.text);
        let end = self.row(at).body.end;
        self.join(at, joined, end);
        true
    }

    /// Whether the last line ends with "or".
    pub(super) fn waits_for_choice(&self) -> bool {
        let last = self.out.components.last().and_then(|component| component.lines.last());
        last.is_some_and(|last| dangles_on_or(&last.text))
    }

    /// Takes the row for more of the last line, which then says `joined`.
    fn join(&mut self, at: usize, joined: String, end: usize) {
        self.stale = true;
        self.goes_on(at, NodeKind::IngredientLine);
        if let Some(last) = self.out.components.last_mut().and_then(|component| component.lines.last_mut()) {
            last.place.end = end;
            last.text = joined;
        }
    }
}

/// Whether the line ends with the word that another choice must follow.
fn dangles_on_or(text: &str) -> bool {
    text.rsplit(' ').next().is_some_and(|last| word::fold(last) == "or")
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
