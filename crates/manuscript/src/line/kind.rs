//! What a line is when it is no ingredient.

use super::Kind;
use super::amount;
use super::cut::Cut;
use super::name::{self, Ask};
use super::number;
use crate::token::Kind as Token;
use crate::words::WORDS;
use evencrumb_measure::Unit;

/// What the line is, when something other than an ingredient shows; `None` when it should be read as one.
/// `amount` says whether an amount opens the line.
pub fn other(cut: &Cut<'_>, ask: Ask<'_>, amount: bool, amount_end: usize) -> Option<Kind> {
    let last = cut.tokens.len() - 1;
    if cut.begins(0, &WORDS.kinds.notes) && cut.mark(1, ':') && last > 1 {
        return Some(Kind::Chatter);
    }
    if is_heading(cut, ask, amount, last) {
        return Some(Kind::Heading);
    }
    if is_yield(cut, ask, amount) {
        return Some(Kind::Yield);
    }
    if is_storage(cut) {
        return Some(Kind::Storage);
    }
    if is_temperature(cut, ask) {
        return Some(Kind::Temperature);
    }
    if is_time(cut) {
        return Some(Kind::Time);
    }
    if is_equipment(cut, ask, amount_end) {
        return Some(Kind::Equipment);
    }
    if is_process(cut, ask, amount) {
        return Some(Kind::Step);
    }
    if is_step(cut, ask, amount) {
        return Some(Kind::Step);
    }
    if is_chatter(cut, ask, amount) {
        return Some(Kind::Chatter);
    }
    None
}

/// Whether the words from `at` name a food, ignoring what stands around.
fn names_food(cut: &Cut<'_>, from: usize, to: usize, ask: Ask<'_>) -> bool {
    name::find(cut, from, to, ask).named.is_some()
}

fn has_number(cut: &Cut<'_>) -> bool {
    cut.tokens.iter().any(super::super::token::Token::is_number)
}

/// Whether a measure with its number stands in the line.
fn has_amount(cut: &Cut<'_>) -> bool {
    let dimension = |at| amount::unit(cut, at).map(|(unit, _)| unit.dimension());
    (1..cut.tokens.len()).any(|at| {
        cut.tokens[at - 1].is_number()
            && dimension(at).is_some_and(|dimension| dimension != evencrumb_measure::Dimension::Count)
    })
}

fn words_in(cut: &Cut<'_>) -> usize {
    cut.tokens.iter().filter(|token| token.kind == Token::Word).count()
}

fn is_heading(cut: &Cut<'_>, ask: Ask<'_>, amount: bool, last: usize) -> bool {
    if amount {
        return false;
    }
    let words = words_in(cut);
    let ends_in_colon = cut.mark(last, ':');
    // "GLAZE, mirror, dark", "Crème pâtissière (batch = 1 sheet)"
    let shouted_part = cut.get(0).is_some_and(|token| WORDS.components.has(&token.folded))
        && cut.mark(1, ',')
        && !cut.text.chars().take_while(|c| *c != ',').any(char::is_lowercase);
    let parts = |at: usize| cut.mark(at, '(') || cut.mark(at, '–') || cut.mark(at, '-') && cut.tokens[at].spaced;
    let batch = (1..=last).any(|at| parts(at) && cut.any(at + 1, &["batch", "makes", "yield", "yields"]));
    if shouted_part && !has_number(cut) || batch && words <= 10 && !has_amount(cut) {
        return true;
    }
    if ends_in_colon && words <= 10 && !cut.tokens[..last].iter().any(|token| token.is_mark('.') || token.is_mark(':'))
    {
        return true;
    }
    if cut.any(0, &["for"]) && cut.any(1, &["the", "your"]) && words <= 7 && !has_number(cut) {
        return true;
    }
    let end = (0..=last).rev().find(|at| cut.is_word(*at)).map_or(0, |at| at + 1);
    if end > 0 && words <= 5 && !has_number(cut) {
        let from = usize::from(cut.any(0, &["the"]));
        if let Some((phrase, _)) = cut.phrase(from, words - from).filter(|(_, next)| *next >= end) {
            let shouted = !cut.text.chars().any(char::is_lowercase);
            if WORDS.components.has(&phrase) && (shouted || ask(&name::key(cut, from, end)).is_none()) {
                return true;
            }
        }
        // "milk, to glaze" tells what the milk is for.
        let purposed = (1..end).any(|at| cut.longest(at, &WORDS.purposes).is_some() && names_food(cut, 0, at, ask));
        let heads_component = !purposed && cut.begins(end - 1, &WORDS.kinds.ends_heading);
        let plural_or_bare = ask(&name::key(cut, 0, end)).is_none();
        if heads_component && plural_or_bare && words <= 4 {
            return true;
        }
    }
    if let Some(and) = cut.tokens.iter().position(|token| token.is_mark('&')) {
        // "ASSEMBLY & FINISH"
        let part = |from: usize, to: usize| {
            let words = cut.phrase(from, to - from).map(|(words, _)| words);
            words.is_some_and(|words| WORDS.components.has(&words) || WORDS.verbs.has(&words))
        };
        return part(0, and) && part(and + 1, cut.tokens.len()) && !has_number(cut);
    }
    let letters: Vec<char> = cut.text.chars().filter(|c| c.is_alphabetic()).collect();
    let shouted = letters.len() > 2 && letters.iter().all(|c| c.is_uppercase());
    shouted && words <= 6 && !has_number(cut) && !names_food(cut, 0, cut.tokens.len(), ask)
}

fn is_yield(cut: &Cut<'_>, ask: Ask<'_>, amount: bool) -> bool {
    let first = cut.begins(0, &WORDS.kinds.yields);
    if first && (cut.begins(1, &WORDS.kinds.behind_yields) || has_number(cut) || words_numbers(cut)) {
        return true;
    }
    if cut.any(0, &["cuts", "cut"]) && cut.any(1, &["into"]) && has_number(cut) {
        return true;
    }
    if cut.any(0, &["enough"]) && cut.any(1, &["for", "to"]) {
        return true;
    }
    if cut.any(0, &["recipe"]) && cut.any(1, &["makes", "serves", "yields"]) {
        return true;
    }
    if cut.any(0, &["makes", "yields"])
        || (cut.any(0, &["this", "it"])
            && cut.any(1, &["makes", "serves", "yields"])
            && (has_number(cut) || words_numbers(cut)))
    {
        return true;
    }
    // "it'll serve like ten people", "Total 1888 g"
    let says = (0..3).any(|at| cut.begins(at, &WORDS.kinds.makes));
    if says && !amount && (has_number(cut) || words_numbers(cut)) && !names_any_food(cut, ask) {
        return true;
    }
    // "12 servings", "8-10 portions", "24 cookies"
    if amount || has_number(cut) {
        if let Some(read) = number::numbers(cut, 0) {
            let rest = cut.tokens.len() - read.next;
            if rest <= 2 && cut.begins(read.next, &WORDS.kinds.eaters) {
                return true;
            }
        }
        if cut.any(0, &["for"])
            && number::numbers(cut, 1).is_some_and(|read| cut.begins(read.next, &WORDS.kinds.eaters))
        {
            return true;
        }
    }
    false
}

fn words_numbers(cut: &Cut<'_>) -> bool {
    cut.tokens.iter().any(|token| WORDS.numbers.contains_key(token.folded.as_str()) || token.is_any(&["dozen", "half"]))
}

fn is_storage(cut: &Cut<'_>) -> bool {
    let first = cut.begins(0, &WORDS.kinds.storage);
    if first {
        return !cut.any(1, &["bought"]) && words_in(cut) > 1 && !cut.mark(1, '-');
    }
    (cut.begins(0, &WORDS.kinds.kept) && (0..5).any(|at| cut.begins(at, &WORDS.kinds.keeps)))
        && cut.has(&WORDS.kinds.keeping)
}

/// Whether a temperature stands at `at`: "350°F", "180 C", "gas mark 4", "gas 6".
pub fn temperature_at(cut: &Cut<'_>, at: usize) -> bool {
    if cut.any(at, &["gas"]) {
        return cut.get(at + 1).is_some_and(super::super::token::Token::is_number) || cut.any(at + 1, &["mark"]);
    }
    let Some((number, next)) = number::number(cut, at) else { return false };
    let value = number.value();
    let degrees = cut.mark(next, '°') || cut.begins(next, &WORDS.kinds.degrees);
    let celsius = cut.any(next, &["c"]) && (100.0..=300.0).contains(&value);
    (degrees || celsius) && value >= 30.0
}

fn is_temperature(cut: &Cut<'_>, ask: Ask<'_>) -> bool {
    let holds = (0..cut.tokens.len()).any(|at| temperature_at(cut, at));
    if temperature_at(cut, 0) && !names_any_food(cut, ask) {
        return true;
    }
    if holds && !names_any_food(cut, ask) && words_in(cut) <= 6 {
        return true;
    }
    let oven_first = cut.begins(0, &WORDS.kinds.ovens)
        || (cut.any(0, &["fan"]) && holds)
        || (cut.any(0, &["gas"]) && temperature_at(cut, 0));
    let has_oven_number = cut.any(0, &["oven", "temperature", "preheat"]) && has_number(cut);
    (oven_first && holds && words_in(cut) <= 12) || has_oven_number
}

fn names_any_food(cut: &Cut<'_>, ask: Ask<'_>) -> bool {
    (0..cut.tokens.len()).any(|at| cut.is_word(at) && ask(&cut.tokens[at].key).is_some())
}

/// Whether a number of minutes, hours or days stands in the line.
fn has_time(cut: &Cut<'_>) -> bool {
    (0..cut.tokens.len()).any(|at| {
        cut.begins(at, &WORDS.kinds.time_units)
            && (at == 0
                || cut.tokens[at - 1].is_number()
                || WORDS.numbers.contains_key(cut.tokens[at - 1].folded.as_str())
                || cut.tokens[at - 1].is_any(&["an", "a", "half"])
                || cut.tokens[at - 1].is_mark('-'))
    })
}

fn is_time(cut: &Cut<'_>) -> bool {
    if !has_time(cut) {
        return false;
    }
    let named = cut.begins(0, &WORDS.kinds.times);
    let start = number::about(cut, 0).unwrap_or(0);
    let only_time = number::numbers(cut, start).is_some_and(|read| {
        cut.begins(read.next, &WORDS.kinds.time_units)
            || (cut.mark(read.next, '-') && cut.begins(read.next + 1, &WORDS.kinds.time_units))
    }) && words_in(cut) <= 9;
    (named && words_in(cut) <= 10) || only_time
}

/// Whether the amount that ends before `at` is one of a food: mixers go by quarts and loaf tins by pounds.
fn measured(cut: &Cut<'_>, at: usize) -> bool {
    let food = [Unit::Cup, Unit::Tablespoon, Unit::Teaspoon, Unit::Gram];
    (0..at).any(|at| amount::unit(cut, at).is_some_and(|(unit, _)| food.contains(&unit)))
}

/// Whether a length stands at `at`: "8-inch (20 cm) square pan".
fn inches(cut: &Cut<'_>, at: usize) -> bool {
    amount::unit(cut, at).is_some_and(|(unit, _)| matches!(unit, Unit::Inch | Unit::Centimetre))
}

fn is_equipment(cut: &Cut<'_>, ask: Ask<'_>, amount_end: usize) -> bool {
    let named = cut.begins(0, &WORDS.kinds.tools) && (cut.mark(1, ':') || cut.any(1, &["equipment", "tools"]));
    if named {
        return true;
    }
    if (cut.any(0, &["you'll", "youll", "you", "we"]) && cut.any(1, &["need", "will", "ll"]))
        && cut.tokens.iter().any(|token| token.kind == Token::Word && WORDS.equipment.has(&token.folded))
    {
        return true;
    }
    // The head noun: the last word before a comma, a bracket, or a purpose.
    let end = (0..cut.tokens.len())
        .find(|at| {
            let token = &cut.tokens[*at];
            *at > 0
                && (((token.is_number() || WORDS.numbers.contains_key(token.folded.as_str()))
                    && WORDS.equipment.has(&cut.tokens[at - 1].folded))
                    || token.is_mark(',')
                    || token.is_mark('(') && !(*at..cut.closing(*at)).any(|inside| inches(cut, inside))
                    || token.is_mark(';')
                    || token.is_mark('–')
                    || cut.begins(*at, &WORDS.kinds.behind_thing))
        })
        .unwrap_or(cut.tokens.len());
    let Some(head) = (0..end).rev().find(|at| cut.is_word(*at)) else { return false };
    let is_thing = (1..=2).any(|count| {
        let from = (head + 1).saturating_sub(count);
        cut.phrase(from, count).is_some_and(|(phrase, next)| next == head + 1 && WORDS.equipment.has(&phrase))
    });
    // "2 sticks (1 cup) butter": the word is the unit of an amount, and a name follows.
    // "2 sticks (1 cup) butter": the word is the unit of an amount, and a name follows; "1/4 cup spruce tips" are measured.
    if !is_thing
        || head < amount_end && amount_end < cut.tokens.len()
        || amount_end > 0 && head >= amount_end && measured(cut, amount_end)
    {
        return false;
    }
    // "1 tin", "2 sheets of nori" and "4 cinnamon sticks" are no equipment: a food follows or is the name.
    let food_follows = cut.any(head + 1, &["of"]);
    let from = number::numbers(cut, 0).map_or(0, |read| read.next);
    let phrase_is_food =
        (0..=head).any(|start| ask(&name::key(cut, start, head + 1)).is_some() && start >= from.saturating_sub(1));
    let food_inside = (from..head)
        .any(|at| cut.is_word(at) && ask(&cut.tokens[at].key).is_some() && !cut.begins(at, &WORDS.kinds.baked_in));
    !food_follows && !phrase_is_food && !food_inside && (head > from || from == 0 || cut.tokens.len() > from + 1)
}

fn is_step(cut: &Cut<'_>, ask: Ask<'_>, amount: bool) -> bool {
    if amount {
        return false;
    }
    if cut.any(0, &["step"]) && cut.get(1).is_some_and(super::super::token::Token::is_number) {
        return true;
    }
    let Some(first) = cut.get(0).filter(|token| token.kind == Token::Word) else { return false };
    let starts_food = name::starts(cut, 0, ask);
    let followed_by = |words: &[&str]| cut.any(1, words);
    let is_noun = WORDS.verb_nouns.has(&first.folded);
    let is_verb = WORDS.verbs.has(&first.folded);
    // "Cream butter and sugar till fluffy, then add eggs": what follows the noun tells that it is a verb.
    let goes_on = cut.tokens.iter().any(|token| token.is_any(&["till", "until", "then"])) && words_in(cut) > 5;
    let next_food = name::find(cut, 1, 2, ask).named.is_some() && !starts_food;
    // "Cream butter + sugar, add eggs in 3 adds": so does a further verb.
    let verb_behind = (2..cut.tokens.len()).any(|at| {
        cut.mark(at - 1, ',')
            && cut.begins(at, &WORDS.verbs)
            && !cut.begins(at, &WORDS.verb_nouns)
            && cut.is_word(at + 1)
    });
    if is_noun && verb_behind && next_food {
        return true;
    }
    // "Whites to med. peak, fold in thirds, do not overmix"
    let forbids =
        (1..cut.tokens.len()).any(|at| cut.any(at, &["do"]) && cut.any(at + 1, &["not"]) || cut.any(at, &["dont"]));
    if verb_behind && forbids && !has_number(cut) {
        return true;
    }
    if is_noun && goes_on && next_food && !(1..cut.tokens.len()).any(|at| cut.tokens[at].is_number()) {
        return true;
    }
    // "Butter the size of an egg" is an amount.
    if cut.any(1, &["the"]) && cut.any(2, &["size"]) {
        return false;
    }
    let thing = |token: &crate::token::Token| token.kind == Token::Word && WORDS.equipment.has(&token.folded);
    if is_noun && followed_by(&["a", "an", "two", "the"]) && cut.tokens.iter().any(thing) {
        return true;
    }
    if is_noun {
        return cut.begins(1, &WORDS.kinds.behind_noun)
            || (is_verb
                && !starts_food
                && ask(&first.key).is_none()
                && words_in(cut) > 3
                && !followed_by(&["of"])
                && names_any_food_after(cut, ask));
    }
    if is_verb && !starts_food && !followed_by(&["of"]) {
        // "Trim/cake scrap 500 g" is a name.
        if cut.mark(1, '/') {
            return false;
        }
        return cut.begins(1, &WORDS.kinds.behind_verb) || words_in(cut) > 2 || ask(&first.key).is_none();
    }
    if cut.longest(0, &WORDS.openers).is_some() && words_in(cut) > 3 && !starts_food {
        return true;
    }
    // A long sentence with a verb in it, such as "The oven goes to 350 and the cake bakes for an hour."
    words_in(cut) > 9
        && (1..cut.tokens.len()).any(|at| cut.begins(at, &WORDS.kinds.later_verbs))
        && !names_food(cut, 0, 4.min(cut.tokens.len()), ask)
}

/// "Mix: 3 min 1st speed", "Bulk 2 h at 24 C", "Deck 240 top": a professional's process, told by its first word and a number.
fn is_process(cut: &Cut<'_>, ask: Ask<'_>, amount: bool) -> bool {
    let Some((_, next)) = cut.longest(0, &WORDS.processes).filter(|_| !amount && has_number(cut)) else { return false };
    let measured = (next..cut.tokens.len())
        .filter_map(|at| amount::unit(cut, at).filter(|_| at > 0 && cut.tokens[at - 1].is_number()))
        .any(|(unit, _)| unit.dimension() == evencrumb_measure::Dimension::Volume);
    has_time(cut) && !measured || !names_any_food(cut, ask)
}

fn names_any_food_after(cut: &Cut<'_>, ask: Ask<'_>) -> bool {
    (1..cut.tokens.len()).any(|at| cut.is_word(at) && ask(&cut.tokens[at].key).is_some())
}

fn is_chatter(cut: &Cut<'_>, ask: Ask<'_>, amount: bool) -> bool {
    // "1x 2x 3x": the buttons of a page.
    if cut.tokens.len() > 3 && cut.tokens.iter().all(|token| token.is_number() || token.is_any(&["x"])) {
        return true;
    }
    if amount {
        return false;
    }
    let first_talks = cut.get(0).is_some_and(|token| token.kind == Token::Word && WORDS.chatter.has(&token.folded))
        && !name::starts(cut, 0, ask);
    let starts_food = name::starts(cut, 0, ask) || cut.get(0).is_some_and(|token| ask(&token.key).is_some());
    let talk = cut.tokens.iter().filter(|token| token.kind == Token::Word && WORDS.chatter.has(&token.folded)).count();
    let words = words_in(cut);
    let ends_in_shout = cut.tokens.last().is_some_and(|token| token.is_mark('!') || token.is_mark('?'));
    let has_amount = (1..cut.tokens.len()).any(|at| cut.tokens[at].is_number() && amount::unit(cut, at + 1).is_some());
    if words == 0 {
        return true;
    }
    if has_amount && !first_talks {
        return false;
    }
    let named = names_food(cut, 0, cut.tokens.len().min(14), ask);
    (first_talks && (words > 2 || ends_in_shout || !named))
        || (!starts_food && !named && (ends_in_shout || (talk > 0 && words > 3) || words > 8))
        || (talk >= 2 && words > 6)
        || words > 24
}
