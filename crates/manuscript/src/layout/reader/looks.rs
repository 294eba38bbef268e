//! Whether a row by itself looks like an ingredient or a step: "2 cups flour", "whisk the eggs".

use super::super::list;
use super::super::rows::Mark;
use super::Reader;
use super::method::is_doing;
use crate::food_words::FoodWords;
use crate::line::Cut;
use crate::line::Kind;
use crate::word;
use crate::words::WORDS;
use evencrumb_measure::Unit;

/// Most words of an ingredient whose count does not open it.
const LONGEST_COUNTED: usize = 8;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    /// Whether the row has an amount and reads as an ingredient. Asked once for each row.
    pub(super) fn ingredient_like(&mut self, at: usize) -> bool {
        if at >= self.end {
            return false;
        }
        if let Some(known) = self.looks[at] {
            return known;
        }
        let looks = self.looks_like(at);
        self.looks[at] = Some(looks);
        looks
    }

    /// Tells ingredients from headings among the rows with signs around them: what is in bold is a line as the others,
    /// what is struck out or hashed is none and is asked about. All else with such signs stays a heading.
    pub(super) fn lines_under_signs(&mut self) {
        let first = self.said_from[0];
        for at in 0..self.rows.len() {
            let row = self.row(at);
            if !row.decorated && !row.crossed {
                continue;
            }
            let struck = self.text[row.body.start.saturating_sub(2)..].starts_with("~~");
            let line = at != first && self.measures_food(at);
            let row = &mut self.rows[at];
            row.crossed = row.crossed && (line || struck);
            let bold = self.text[row.place.clone()].trim_start_matches([' ', '-', '\t']).starts_with(['*', '_']);
            row.decorated = row.decorated && !(line && (bold || row.crossed));
        }
    }

    /// Whether a row that signs stand around is an amount and a food, and not "2 Caramel" or "For 2 loaves:".
    fn measures_food(&self, at: usize) -> bool {
        let row = self.row(at);
        let written = self.text[row.place.clone()].trim_end();
        let plain = list::plain(&row.text);
        let cut = Cut::of(&plain);
        if written.ends_with(':') || row.text.ends_with(':') || !list::opens_with_amount(&cut, 0) {
            return false;
        }
        let small = row.text.split(' ').nth(1).is_some_and(|word| word.starts_with(char::is_lowercase));
        let read = self.read_cut(&row.text, cut);
        let whole = |item: &crate::line::Item| item.food.is_some() && item.unknown.is_empty();
        read.kind == Kind::Ingredient && small && read.foods.iter().any(whole)
    }

    fn looks_like(&self, at: usize) -> bool {
        let row = self.row(at);
        if row.text.is_empty() || row.text.len() > 220 || orders(&row.text) || row.decorated || row.text.contains(" = ")
        {
            return false;
        }
        let plain = list::plain(&row.text);
        let cut = Cut::of(&plain);
        let number = list::opens_with_amount(&cut, 0);
        let ends = row.text.ends_with(['.', '!', '?']) && self.words(at) > 6;
        if ends && !cut.get(0).is_some_and(crate::token::Token::is_number) {
            return false;
        }
        let any_number = number
            || cut.tokens.iter().any(|token| {
                let word = token.folded.as_str();
                token.is_number() || WORDS.numbers.contains_key(word) && !matches!(word, "a" | "an") || word == "half"
            });
        if !any_number {
            return false;
        }
        // "A teacup of sugar": a measure that is not known, and a food at the end.
        let of = number && cut.any(0, &["a", "an"]) && self.words(at) <= 7 && {
            let mut words = cut.tokens.iter().rev().filter(|token| token.kind == crate::token::Kind::Word);
            words.next().is_some_and(|last| self.foods.food(&last.key).is_some())
        };
        // "max 200 g flour", "weight of 3 eggs in sugar": words before the amount that nobody knows.
        let food_word = |token: &crate::token::Token| self.foods.food(&token.key).is_some();
        let short = self.words(at) <= LONGEST_COUNTED;
        let behind_unknown = short && cut.tokens.iter().any(food_word);
        let of_counted = short
            && cut
                .tokens
                .windows(3)
                .any(|three| three[0].is_any(&["of"]) && three[1].is_number() && food_word(&three[2]));
        let read = self.read_cut(&row.text, cut);
        if read.kind != Kind::Ingredient {
            return false;
        }
        // "Beurre / butter ........ 200 g", "Mehl      200 g": an amount in a column of its own.
        let written = &self.text[row.body.clone()];
        let column = written.rfind("...").or_else(|| written.rfind("   ")).or_else(|| written.rfind('\t'));
        let amount = column.is_some_and(|from| list::is_amount(written[from..].trim_matches(['.', ' ', '\t'])));
        if amount && self.words(at) <= 12 {
            return true;
        }
        let measured = read.foods.iter().flat_map(|item| &item.amounts).flat_map(|amount| &amount.terms).any(|term| {
            !matches!(
                term.unit,
                Unit::Inch
                    | Unit::Centimetre
                    | Unit::Piece
                    | Unit::Part
                    | Unit::Round
                    | Unit::Percent
                    | Unit::Stone
                    | Unit::Serving
            )
        });
        let known = read.foods.iter().any(|item| item.food.is_some());
        // "Eggs: 3", "Juice of 1 lemon": the count stands behind the food or within its name.
        let counted = || {
            short
                && !row.text.ends_with(':')
                && !WORDS.components.has(&row.plain)
                && read.foods.iter().any(|item| item.food.is_some() && !item.amounts.is_empty())
        };
        // "Glaze - 2 tbsp" among rows so written.
        let beside = |at: usize| self.rows.get(at).is_some_and(|row| list::is_dashed(&row.text));
        let dashed = || list::is_dashed(&row.text) && (at > 0 && beside(at - 1) || beside(at + 1));
        measured && (known || number || behind_unknown || dashed()) || number && known || of || of_counted || counted()
    }

    /// Whether the first word is a verb of the kitchen.
    pub(super) fn opens_with_verb(&self, at: usize) -> bool {
        let head = self.row(at).text.split([' ', ',']).next().map(word::fold).unwrap_or_default();
        WORDS.verbs.has(&head)
    }

    /// Whether the row tells what to do.
    pub(super) fn step_like(&self, at: usize) -> bool {
        let row = self.row(at);
        let text = row.text.as_str();
        let head = text.split([' ', ',', '.']).next().map(word::fold).unwrap_or_default();
        let sentences = text.find(". ").is_some_and(|dot| text[dot + 2..].starts_with(char::is_uppercase) && dot > 3);
        let words = self.words(at);
        if orders(text)
            || text.ends_with('.') && is_doing(&head)
            || text.ends_with(':') && row.mark == Mark::Number && WORDS.verbs.has(&head)
        {
            return true;
        }
        // "cream butter and sugar": a noun does something to a food, and the two are no food together.
        let mut two = text.split([' ', ',']).map(word::key);
        let (one, other) = (two.next().unwrap_or_default(), two.next().unwrap_or_default());
        if words >= 5
            && WORDS.verb_nouns.has(&head)
            && self.foods.food(&other).is_some()
            && self.foods.food(&format!("{one} {other}")).is_none()
        {
            return true;
        }
        // "Night before: mix the sponge."
        let told = || text.split_once(": ").and_then(|(_, rest)| rest.split([' ', ',']).next()).map(word::fold);
        if text.ends_with('.') && told().is_some_and(|word| WORDS.verbs.has(&word)) {
            return true;
        }
        if sentences && words >= 6 && !text.starts_with(|c: char| c.is_ascii_digit()) {
            return true;
        }
        let read = self.read_line(text);
        match read.kind {
            Kind::Step | Kind::Temperature => true,
            Kind::Equipment | Kind::Time | Kind::Chatter => WORDS.verbs.has(&head) && words >= 3 || words >= 9,
            _ => {
                words >= 10 && text.ends_with('.') && !text.starts_with(|c: char| c.is_ascii_digit())
                    || text.starts_with("For the ") && text.find(": ").is_some() && words > 6
            }
        }
    }
}

/// "line an 8x8 pan", "whisk the eggs", "Butter a pudding basin.": a verb and its object.
pub(super) fn orders(text: &str) -> bool {
    let mut words = text.split(' ');
    let first = words.next().map(word::fold).unwrap_or_default();
    let second = words.next().map(word::fold).unwrap_or_default();
    let Some(third) = words.next().map(word::fold) else { return false };
    if WORDS.verbs.has(&first) && matches!(second.as_str(), "an" | "a" | "your" | "until" | "into") {
        return true;
    }
    // "Butter the size of an egg" is an amount.
    let sentence = text.ends_with('.') || text.contains(". ");
    if !WORDS.verb_nouns.has(&first) || !sentence || third == "size" {
        return false;
    }
    // "Salt 2 cups water and boil."
    let last = text.trim_end_matches('.').rsplit(' ').take(2).map(word::fold).collect::<Vec<_>>();
    let goes_on = last.len() == 2 && last[1] == "and" && WORDS.verbs.has(&last[0]) && !text.contains(',');
    goes_on || matches!(second.as_str(), "a" | "an" | "the" | "your" | "both" | "each" | "two")
}

/// Whether the row breaks off before what it takes: "Stir together, then fold in", "and add".
pub(super) fn breaks_off(text: &str) -> bool {
    let mut words = text.rsplit(' ').map(word::fold);
    let last = words.next().unwrap_or_default();
    let joins = matches!(last.as_str(), "in" | "into" | "with");
    let verb = if joins { words.next().unwrap_or_default() } else { last };
    WORDS.verbs.has(&verb) && !text.ends_with(|c: char| c.is_ascii_punctuation())
}
