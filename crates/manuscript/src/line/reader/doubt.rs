//! What may have been meant otherwise, or may be an amount that was not read: the author is asked.

use crate::line::cut::Cut;
use crate::line::{ANOTHER_FOOD, Item, Line, MEASURED_WHEN, THOUSANDS, amount, number};
use crate::query::Query;
use crate::token::Kind as Token;
use crate::words::WORDS;
use evencrumb_measure::Dimension;

/// What can be read in two ways: the likelier is taken, and the other told.
pub(super) fn doubts(cut: &Cut<'_>, line: &mut Line, remarks: &[String]) {
    let grouped = (0..cut.tokens.len()).filter_map(|at| {
        let (number, next) = number::thousands(cut, at)?;
        Some(Query::new(
            &THOUSANDS,
            cut.place(at, next),
            format!("“{}” was read as {number}.", cut.written(at, next)),
            format!("Write “{number}”, or a point and fewer figures if a fraction is meant."),
        ))
    });
    line.queries.extend(grouped);
    let mut found: Vec<Query> = remarks.iter().filter_map(|words| another_food(cut, line, words)).collect();
    for item in line.foods.iter().filter(|item| item.food.is_some()) {
        found.extend(measured_when(cut, item));
    }
    line.queries.extend(found);
}

/// "spinach 1 bu", "bread flour 80% 800, ww 20% 200": a number in a remark that may be an amount nobody read.
fn number_left_over(line: &Line, words: &str) -> Option<String> {
    let cut = Cut::of(words);
    let first = line.foods.first()?;
    let number =
        |at: usize| matches!(cut.get(at).map(|token| token.kind), Some(Token::Digits(Some(_)) | Token::Fraction(_)));
    let last = cut.tokens.len().checked_sub(1)?;
    let unread = first.amounts.is_empty() && number(0) && last == 1 && cut.is_word(1);
    let behind = first.amounts.first().is_some_and(|amount| amount.place.start >= first.place.end);
    let ends =
        last > 0 && number(last) && cut.is_word(0) && !number::in_ratio(&cut, last) && !cut.begins(0, &WORDS.states);
    (unread || behind && ends).then(|| cut.written(if unread { 0 } else { last }, last + 1).to_owned())
}

/// "citric acid 50% solution", "mahleb substitute": a remark that may make another food of it.
fn another_food(cut: &Cut<'_>, line: &Line, words: &str) -> Option<Query> {
    let item = line.foods.iter().find(|item| item.food.is_some())?;
    let said = Cut::of(words);
    let first = said.tokens.iter().take_while(|token| token.kind != Token::Word).count();
    // "pandan juice", where no juice of it is known: what was weighed is not what is named.
    let part = (1..=2).any(|count| said.phrase(0, count).is_some_and(|(_, next)| next >= said.tokens.len()))
        && said.begins(0, &WORDS.parts)
        && item.part.is_none();
    if !part && (first > 0 && !said.mark(first - 1, '%') || !said.begins(first, &WORDS.another)) {
        return None;
    }
    let at = cut.text.find(words)?;
    // "6 passion fruit, pulp only" says what is used of the fruit.
    if part && cut.tokens.iter().rfind(|token| token.place.end <= at).is_none_or(|last| last.kind != Token::Word) {
        return None;
    }
    Some(Query::new(
        &ANOTHER_FOOD,
        at..at + words.len(),
        format!("“{words}” may make another food of {}; it was weighed as {} itself.", item.name, item.name),
        "If it is another food, write its name before the comma, or add it to your foods.",
    ))
}

/// "1 cup walnuts chopped": with a comma it would be measured before, and "chopped walnuts" after.
fn measured_when(cut: &Cut<'_>, item: &Item) -> Option<Query> {
    let amount = item.amounts.first().filter(|amount| amount.unit().dimension() == Dimension::Volume)?;
    let at = cut.tokens.iter().position(|token| token.place.start >= item.place.end)?;
    let (way, next) = cut.longest(at, &WORDS.ways)?;
    let cut_up = matches!(way, "chopped" | "fine" | "sliced" | "grated" | "shredded" | "crushed" | "cubed" | "pieces");
    (cut_up && !amount.unit().is_vague() && item.amounts.len() == 1).then(|| {
        let done = cut.written(at, next);
        Query::new(
            &MEASURED_WHEN,
            item.place.start..cut.tokens[next - 1].place.end,
            format!("{} was taken as measured before it was {done}.", item.name),
            format!("Write “{}, {done}” if so, or “{done} {}” if it is measured {done}.", item.name, item.name),
        )
    })
}

/// An amount that stands in a remark and was not read, in the author's words.
pub(super) fn left_over(line: &Line, words: &str) -> Option<String> {
    measure_left_over(words).or_else(|| number_left_over(line, words))
}

/// A measure or weight in a remark: nothing measured passes unasked.
fn measure_left_over(words: &str) -> Option<String> {
    let cut = Cut::of(words);
    (0..cut.tokens.len()).find_map(|at| {
        let read = number::numbers(&cut, at)?;
        let (unit, next) = amount::unit(&cut, read.next)?;
        let measured = unit.dimension() != evencrumb_measure::Dimension::Count && !unit.is_vague();
        // "cut in 1 c. pieces" and "at 40 C" are no amounts.
        (measured && !cut.any(read.next, &["c", "t", "l", "f"])).then(|| cut.written(at, next).to_owned())
    })
}
