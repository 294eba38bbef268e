//! The rows of the method made steps: numbered, parted by blank rows, or each row its own.

use std::ops::Range;

use super::super::list;
use super::super::rows::{Mark, Row};
use super::super::vocabulary::VOCABULARY;
use super::super::{NodeKind, OUTSIDE_THE_LIST};
use super::In;
use super::Reader;
use super::Said;
use super::looks::{breaks_off, orders};
use super::wrapped::dangles;
use crate::food_words::FoodWords;
use crate::line::{Amount, Item, Kind, Line};
use crate::query::Query;
use crate::word;
use crate::words::WORDS;

/// Most words of a line without an amount below a heading in the method, where more words tell in short what is done.
const LONGEST_BARE: usize = 4;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    pub(super) fn in_method(&mut self, at: usize, text: &str) -> In {
        if self.strong_component(at) {
            return self.component(at, text);
        }
        if self.blank_before(at)
            && self.method.last().is_none_or(|above| self.row(*above).mark == Mark::None)
            && let Some(state) = self.bare_component(at, text, LONGEST_BARE)
        {
            return state;
        }
        if self.yields(at, text) {
            return In::Method;
        }
        if self.row(at).mark != Mark::Number
            && let Some(from) = self.names_list(at)
        {
            // "Topping: 100 g nuts, 50 g sugar"
            if !text.ends_with('.') {
                return self.component_with_list(at, from);
            }
            if self.tells_list(at, text, from) {
                return In::Method;
            }
        }
        if self.lists_under_step(at) {
            self.say(at, NodeKind::IngredientLine);
            let body = self.row(at).body.clone();
            self.listed(text, body, false);
        } else if self.stands_among_steps(at) {
            if let Some(above) = self.names_line_below(at) {
                self.method.pop();
                self.component(above, &self.row(above).text.clone());
            }
            self.close_method();
            self.say(at, NodeKind::IngredientLine);
            let body = self.row(at).body.clone();
            self.ask_twice(at, text);
            self.listed(text, body, false);
            return In::Method;
        }
        self.method.push(at);
        In::Method
    }

    /// Takes "Streusel: 1 cup flour, 1/4 cup butter. Rub together." for a part and its step, unless its sentence only
    /// tells again what is listed. The list begins at byte `from`.
    fn tells_list(&mut self, at: usize, text: &str, from: usize) -> bool {
        let sentence = crate::method::sentences(&text[from..], from).swap_remove(0);
        let said = text[sentence.clone()].trim_end_matches('.');
        let parts = list::parts(said, true);
        let reads: Vec<_> = parts.iter().map(|part| self.read_line(&said[part.clone()])).collect();
        let whole = |item: &Item| item.food.is_some() && !item.amounts.is_empty();
        if parts.len() < 2
            || said.contains(" of the ")
            || !reads.iter().all(|read| read.foods.iter().all(whole))
            || reads.iter().all(|read| self.lists_again(read))
        {
            return false;
        }
        self.component(at, text[..from].trim_end());
        for part in parts {
            self.ask_twice(at, &said[part]);
        }
        self.say(at, NodeKind::IngredientLine);
        let body = self.row(at).body.clone();
        let rest = text[sentence.end..].trim_start();
        let place = self.text[body.clone()].rfind(rest).map(|start| body.start + start..body.end);
        self.listed(said, body, true);
        if let Some(place) = place.filter(|_| !rest.is_empty()) {
            self.out.steps.push(crate::method::step(self.text, place));
        }
        true
    }

    /// Whether an ingredient stands by itself between steps, "1 cup milk" between "Beat well." and "Bake.": no part of
    /// a wrapped sentence, and not the list told again.
    fn stands_among_steps(&mut self, at: usize) -> bool {
        let row = self.row(at);
        let wide = |at: usize| self.row(at).text.len() >= 40;
        let whole = |at: usize| self.row(at).text.ends_with(['.', '!', ':', '?']);
        // What is numbered, or marked as the steps are, is one of them.
        let marked =
            row.mark != Mark::None && self.method.last().is_some_and(|above| self.row(*above).mark == row.mark);
        let small = self.rows.get(at + 1).is_some_and(|below| below.text.starts_with(char::is_lowercase));
        let wraps = self.method.last().is_some_and(|above| {
            *above + 1 == at
                && !whole(*above)
                && (wide(*above) || dangles(&self.row(*above).text))
                && !breaks_off(&self.row(*above).text)
        });
        if row.mark == Mark::Number
            || marked
            || row.text.ends_with(['.', '!', ':', '?', ','])
            || self.words(at) > LONGEST_AMONG_STEPS
            || small
            || wraps
            || !self.ingredient_like(at)
        {
            return false;
        }
        let text = self.row(at).text.clone();
        let read = self.read_line(&text);
        let known = read.foods.iter().all(|item| item.food.is_some() && !item.amounts.is_empty());
        known && !self.lists_again(&read)
    }

    /// Whether each food of the line is in the list with the same amount.
    pub(super) fn lists_again(&self, read: &Line) -> bool {
        read.foods.iter().all(|item| {
            self.listed_items().any(|(line, known)| {
                known.food == item.food && (line.divided || same_amount(&known.amounts, &item.amounts))
            })
        })
    }

    /// Whether each food of the line is in the list, in whatever amount.
    pub(super) fn lists_foods_of(&self, read: &Line) -> bool {
        read.foods.iter().all(|item| self.listed_items().any(|(_, known)| known.food == item.food))
    }

    fn listed_items(&self) -> impl Iterator<Item = (&Line, &Item)> {
        let lines = self.out.components.iter().flat_map(|component| &component.lines);
        lines.take(MOST_LISTED).flat_map(|read| read.line.foods.iter().map(|item| (&read.line, item)))
    }

    /// Asks about a line among the steps whose food is in the list too: it may be a part of that.
    fn ask_twice(&mut self, at: usize, text: &str) {
        let read = self.read_line(text);
        let twice = read.foods.iter().any(|item| self.listed_items().any(|(_, known)| known.food == item.food));
        if twice {
            self.out.queries.push(Query::new(
                &OUTSIDE_THE_LIST,
                self.row(at).body.clone(),
                format!("“{text}” stands among the steps, and its food is in the list too; it was added to the list."),
                "Take its amount out of the step if it is a part of what is listed.",
            ));
        }
    }

    /// Whether an ingredient stands in the method, below a step that ends with a colon: "2. Fold in:" and "200 g flour".
    fn lists_under_step(&mut self, at: usize) -> bool {
        let Some(&above) = self.method.last() else { return false };
        let below = self.row(above).mark == Mark::Number
            && (self.row(at).mark == Mark::Bullet || self.row(at).indent > self.row(above).indent)
            && self.listed_under(at);
        let opens = self.row(above).text.ends_with(':') || self.is_listed(above) || below;
        opens && self.row(at).mark != Mark::Number && self.ingredient_like(at)
    }

    /// Whether all rows from here to the next numbered step are ingredients.
    fn listed_under(&mut self, at: usize) -> bool {
        let mut next = at;
        while next < self.end && !self.row(next).blank() && self.row(next).mark != Mark::Number {
            if !self.ingredient_like(next) {
                return false;
            }
            next += 1;
        }
        true
    }

    /// Whether the row of the method was taken for an ingredient.
    fn is_listed(&self, at: usize) -> bool {
        self.said[at].kind == NodeKind::IngredientLine
    }

    /// Takes what stood before the list for the method when none came after it: paragraphs that open with an order.
    pub(super) fn method_above(&mut self) {
        let mut told = false;
        for at in 0..self.end {
            if self.said[at].kind != NodeKind::Headnote || self.row(at).blank() {
                continue;
            }
            if self.blank_before(at) || self.said[at - 1].kind != NodeKind::Headnote {
                told = (self.opens_with_verb(at) || orders(&self.row(at).text)) && self.step_like(at);
            }
            if told {
                self.method.push(at);
            }
        }
        self.close_method();
    }

    /// Takes sentences above the list that make pans ready for the first steps: "Grease a 9-inch square pan."
    pub(super) fn prepared_above(&mut self) {
        let list = self.said.iter().position(|said| said.kind == NodeKind::IngredientLine).unwrap_or(0);
        let mut at = 0;
        while at < list {
            let told = |at: usize| self.said[at].kind == NodeKind::Headnote && !self.row(at).blank();
            let opens = |at: usize| {
                at == 0 || self.blank_before(at) || !told(at - 1) || self.row(at - 1).text.ends_with(['.', '!', ':'])
            };
            if !told(at) || !opens(at) || !self.prepares(at) {
                at += 1;
                continue;
            }
            let first = at;
            at += 1;
            // A wrapped sentence goes on.
            while at < list && told(at) && !self.blank_before(at) {
                at += 1;
            }
            for row in first..at {
                self.said[row] = Said { kind: NodeKind::Step, goes_on: row > first };
            }
            let place = self.row(first).body.start..self.row(at - 1).body.end;
            self.out.steps.push(crate::method::step(self.text, place));
        }
        self.out.steps.sort_by_key(|step| step.place.start);
    }

    /// Makes steps of the method's rows read so far.
    pub(super) fn close_method(&mut self) {
        let rows = std::mem::take(&mut self.method);
        if rows.is_empty() {
            return;
        }
        let mut parts: Vec<Vec<usize>> = Vec::new();
        let with_mark = |at: &&usize| self.row(**at).mark != Mark::None && !self.is_listed(**at);
        // A dash before a single row further down is no list: "- Mrs. O."
        let marked = rows.first().as_ref().is_some_and(with_mark) || rows.iter().filter(with_mark).count() > 1;
        let heads = rows.iter().any(|at| is_step_head(self.row(*at)));
        let capitals = rows.iter().all(|at| !self.row(*at).text.contains(char::is_lowercase));
        let headings: Vec<bool> = (0..rows.len()).map(|nth| self.heads_steps(&rows, nth, marked, capitals)).collect();
        let parted = (1..rows.len()).any(|nth| {
            self.blank_before(rows[nth])
                && !headings[nth]
                && !headings[nth - 1]
                && !self.is_remark(&rows[nth..=nth], true)
        });
        let lower = rows.first().is_some_and(|at| self.row(*at).text.starts_with(char::is_lowercase));
        let last_marked = rows.iter().rposition(|at| self.row(*at).mark != Mark::None);
        let whole = self.whole_rows(&rows, &headings);
        for (nth, &at) in rows.iter().enumerate() {
            let text = self.row(at).text.clone();
            let open = nth > 0 && dangles(&self.row(rows[nth - 1]).text);
            let goes_on = nth > 0 && (!self.blank_before(at) || open) && !parts.is_empty();
            if headings[nth] {
                self.say(at, NodeKind::Heading);
                if !is_step_head(self.row(at)) {
                    self.hints.push((self.row(at).place.start, text));
                }
                parts.push(Vec::new());
                continue;
            }
            let own = if self.is_listed(at) {
                false
            } else if marked {
                self.row(at).mark != Mark::None
            } else if heads {
                false
            } else if parted {
                self.blank_before(at) || whole[nth]
            } else {
                let wraps = nth > 0 && self.row(rows[nth - 1]).text.len() >= 40 && {
                    let above = &self.row(rows[nth - 1]).text;
                    above.ends_with(',')
                        || !lower && text.starts_with(char::is_lowercase) && !above.ends_with(['.', '!', '?'])
                };
                !wraps
            };
            if marked && !own && !goes_on && !self.is_listed(at) {
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
        // What stands first below a list is no remark, whatever was done before.
        let before = self.out.steps.len();
        for part in parts.into_iter().filter(|part| !part.is_empty()) {
            self.step(&part, marked || heads, self.out.steps.len() > before);
        }
    }

    /// Which rows are sentences of their own in a paragraph of such: each ends with its mark, so that none is wrapped.
    fn whole_rows(&self, rows: &[usize], headings: &[bool]) -> Vec<bool> {
        let width = |at: usize| self.text[self.row(at).body.clone()].len();
        let widest = rows.iter().map(|at| width(*at)).max().unwrap_or(0);
        // Where rows are wrapped elsewhere, one that is nearly full is wrapped too.
        let wrapped = rows.windows(2).any(|pair| {
            let (text, below) = (&self.row(pair[0]).text, &self.row(pair[1]).text);
            pair[1] == pair[0] + 1
                && text.len() >= 40
                && !text.ends_with(['.', '!', '?', ':'])
                && below.starts_with(char::is_lowercase)
        });
        let full = if wrapped { widest * 3 / 4 } else { widest };
        let mut whole = vec![false; rows.len()];
        let mut start = 0;
        while start < rows.len() {
            let mut end = start + 1;
            while end < rows.len() && !self.blank_before(rows[end]) && !headings[end] && !headings[end - 1] {
                end += 1;
            }
            let small = self.row(rows[start]).text.starts_with(char::is_lowercase);
            let all = rows[start..end].iter().all(|at| {
                let text = self.row(*at).text.as_str();
                (text.ends_with(['.', '!', '?']) || *at == rows[end - 1])
                    && (small || !text.starts_with(char::is_lowercase))
            });
            // A wrapped row would have taken the next word too.
            let had_room = rows[start..end].windows(2).any(|pair| {
                let word = self.row(pair[1]).text.split(' ').next().map_or(0, str::len);
                width(pair[0]) + 1 + word <= full
            });
            whole[start..end].fill(all && had_room);
            start = end;
        }
        whole
    }

    /// Whether the row heads steps: "STEP 2", "Day 1", "MAKE THE PEARS" or "Glaze:" above what is done.
    fn heads_steps(&self, rows: &[usize], nth: usize, marked: bool, capitals: bool) -> bool {
        let at = rows[nth];
        let row = self.row(at);
        let text = row.text.as_str();
        if is_step_head(row) {
            return true;
        }
        let opens = nth == 0 || self.blank_before(at) || marked;
        let above_items = rows.get(nth + 1).is_some_and(|next| self.row(*next).mark != Mark::None);
        // "A. SPONGE" above "1. Whisk the eggs."
        let lettered = row.mark == Mark::Number && above_items && !capitals && !text.contains(char::is_lowercase);
        if row.mark != Mark::None && !lettered
            || self.is_listed(at)
            || !opens
            || self.words(at) > 10
            || marked_inside(text)
        {
            return false;
        }
        let letters = || text.split('(').next().unwrap_or_default().chars().filter(|c| c.is_alphabetic());
        let shouted = !capitals && letters().count() > 2 && letters().all(char::is_uppercase);
        let next = rows.get(nth + 1);
        let above_marked = marked
            && !self.is_listed(at)
            && next.is_some_and(|next| self.row(*next).mark != Mark::None)
            && self.words(at) <= 5;
        // A plain word alone above a paragraph of sentences.
        let first = text.split(' ').next().map(word::fold).unwrap_or_default();
        let above_sentences = next
            .is_some_and(|next| *next == at + 1 && self.row(*next).text.contains(". ") && self.words(*next) > 8)
            && self.words(at) <= 4
            && !WORDS.verbs.has(&first)
            && !text.ends_with(',')
            && text.starts_with(char::is_uppercase);
        let lists = next.is_some_and(|next| self.is_listed(*next)) && WORDS.verbs.has(&first);
        text.ends_with(':') && !lists || row.decorated || shouted || is_stage(row) || above_marked || above_sentences
    }

    /// Whether the words tell what to do: a verb in whatever form, a number, a time, or foods without talk.
    fn does(&self, text: &str) -> bool {
        if orders(text) {
            return true;
        }
        let (mut foods, mut talk) = (false, false);
        let words = text.split(|c: char| !c.is_alphanumeric()).take(60).filter(|word| !word.is_empty());
        for word in words {
            let folded = word::fold(word);
            if is_doing(&folded)
                || WORDS.numbers.contains_key(folded.as_str())
                || folded.starts_with(|c: char| c.is_ascii_digit())
            {
                return true;
            }
            talk = talk || WORDS.chatter.has(&folded);
            foods = foods || self.foods.food(&word::key(word)).is_some();
        }
        foods && !talk && text.split(' ').count() >= 4
    }

    fn step(&mut self, part: &[usize], marked: bool, later: bool) {
        let (Some(&first), Some(&last)) = (part.first(), part.last()) else { return };
        if !marked && self.is_remark(part, later) {
            for &at in part {
                self.note(at);
            }
            return;
        }
        let mut joins = false;
        for &at in part {
            if self.is_listed(at) {
                joins = false;
            } else {
                self.said[at] = Said { kind: NodeKind::Step, goes_on: joins };
                joins = true;
            }
        }
        let place = self.row(first).body.start..self.row(last).body.end;
        for item in items(&self.text[place.clone()]) {
            self.out.steps.push(crate::method::step(self.text, item.start + place.start..item.end + place.start));
        }
    }

    /// Whether an unmarked paragraph of the method is a remark or verse and no step.
    /// `later` says whether steps stand before it: the first row of a method is none.
    pub(super) fn is_remark(&self, part: &[usize], later: bool) -> bool {
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
        if !later {
            return false;
        }
        !part.iter().any(|at| self.does(&self.row(*at).text))
            || self.read_line(text).kind == Kind::Storage
                && word(0) != "refrigerate"
                && word(0) != "freeze"
                && word(0) != "keep"
    }
}

/// Whether an amount of the one is said in the other.
fn same_amount(known: &[Amount], said: &[Amount]) -> bool {
    known.iter().any(|known| said.contains(known))
}

/// Lines of the list that a line among the steps is compared with; no recipe has so many, and a hostile text must not be
/// slow.
const MOST_LISTED: usize = 1000;

/// Most words of an ingredient among steps.
const LONGEST_AMONG_STEPS: usize = 12;

fn marked_inside(text: &str) -> bool {
    text.contains(". ") || text.ends_with('.')
}

/// "STEP 2" or "2" alone on a row.
pub(super) fn is_step_head(row: &Row) -> bool {
    if is_number(&row.text) {
        return true;
    }
    let mut words = row.plain.split(' ');
    let step = words.next().is_some_and(|word| word.eq_ignore_ascii_case("step"));
    step && words.next().is_some_and(|word| {
        !word.is_empty() && word.bytes().all(|b| b.is_ascii_digit())
            || WORDS.numbers.contains_key(word::fold(word).as_str())
    }) && words.next().is_none()
}

/// Whether the row is nothing but a number of a step.
pub(super) fn is_number(text: &str) -> bool {
    let digits = text.trim_end_matches(['.', ')', ':']);
    !digits.is_empty() && digits.len() <= 2 && digits.bytes().all(|b| b.is_ascii_digit())
}

/// "Day 1", "STAGE TWO: the dough": heads some of the steps.
pub(super) fn is_stage(row: &Row) -> bool {
    let mut words = row.plain.split(' ');
    let stage = words.next().is_some_and(|word| VOCABULARY.rows.stages.has(word));
    let number = |word: &str| word.bytes().all(|b| b.is_ascii_digit()) || WORDS.numbers.contains_key(word);
    stage && words.next().is_some_and(number) && words.count() <= 6 && !row.text.ends_with('.')
}

/// Whether the folded word is a verb of the kitchen: "mix", "mixed", "whipping".
pub(super) fn is_doing(word: &str) -> bool {
    if WORDS.verbs.has(word) {
        return true;
    }
    let Some(stem) = word.strip_suffix("ed").or_else(|| word.strip_suffix("ing")) else { return false };
    let single = || {
        let mut chars = stem.chars().rev();
        let last = chars.next();
        (last.is_some() && last == chars.next()).then(|| &stem[..stem.len() - last.map_or(0, char::len_utf8)])
    };
    stem.len() > 1
        && (WORDS.verbs.has(stem)
            || WORDS.verbs.has(&format!("{stem}e"))
            || single().is_some_and(|stem| WORDS.verbs.has(stem)))
}

/// The items of "Mix all. 2) Roll thin. 3) Bake.", which run on in one paragraph; else the whole.
fn items(text: &str) -> Vec<Range<usize>> {
    let mut items = Vec::new();
    let mut start = 0;
    let mut number = 2;
    for (at, _) in text.match_indices(['.', ')']) {
        let digits = text[..at].bytes().rev().take_while(u8::is_ascii_digit).count();
        let from = at - digits;
        let before = text[..from].trim_end_matches('(').trim_end();
        let ended = before.ends_with(['.', '!', ';']);
        let opens = text[at + 1..].trim_start().starts_with(char::is_uppercase)
            && text[at + 1..].starts_with(char::is_whitespace);
        if digits > 0 && digits < 3 && from > before.len() && ended && opens && text[from..at].parse() == Ok(number) {
            items.push(start..before.len());
            start = text.len() - text[at + 1..].trim_start().len();
            number += 1;
        }
    }
    // "1." may stand before the first.
    if let Some(first) = items.first_mut() {
        let own = text[..first.end].trim_start_matches('(');
        let own = own.strip_prefix("1.").or_else(|| own.strip_prefix("1)")).map(str::trim_start);
        first.start = own.map_or(first.start, |own| first.end - own.len());
    }
    items.push(start..text.len());
    items
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_items_that_run_on() {
        let parts = |text: &'static str| items(text).into_iter().map(|item| &text[item]).collect::<Vec<_>>();
        assert_eq!(parts("Mix all. 2) Roll thin. 3) Bake."), ["Mix all.", "Roll thin.", "Bake."]);
        assert_eq!(parts("(1) Mix. (2) Bake."), ["Mix.", "Bake."]);
        assert_eq!(parts("Mix 2. Bake at 180."), ["Mix 2. Bake at 180."]);
    }
}
