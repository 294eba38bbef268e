//! What the tail said goes into the line, and what was not known is asked about.

use super::Reading;
use crate::line::cut::Cut;
use crate::line::{AMOUNT_LEFT_OVER, NUMBER_RUN_TOGETHER, amount, number};
use crate::line::{AMOUNT_SHARED, FOOD_NOT_KNOWN, NUMBER_NOT_READ, WORD_PASSED_OVER};
use crate::line::{ANOTHER_FOOD, Item, Line, MEASURED_WHEN, THOUSANDS};
use crate::query::Query;
use crate::token::Kind as Token;
use crate::words::WORDS;
use evencrumb_measure::Dimension;

/// A measure or weight that stands in a remark, in the author's words: nothing measured passes unasked.
fn left_over(words: &str) -> Option<String> {
    let cut = Cut::of(words);
    (0..cut.tokens.len()).find_map(|at| {
        let read = number::numbers(&cut, at)?;
        let (unit, next) = amount::unit(&cut, read.next)?;
        let measured = unit.dimension() != evencrumb_measure::Dimension::Count && !unit.is_vague();
        // "cut in 1 c. pieces" and "at 40 C" are no amounts.
        (measured && !cut.any(read.next, &["c", "t", "l", "f"])).then(|| cut.written(at, next).to_owned())
    })
}

pub(super) fn shorten(text: &str) -> String {
    if text.chars().count() <= 24 {
        text.to_owned()
    } else {
        format!("{}…", text.chars().take(24).collect::<String>())
    }
}

/// What can be read in two ways: the likelier is taken, and the other told.
fn doubts(cut: &Cut<'_>, line: &mut Line, remarks: &[String]) {
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

impl<'a> Reading<'_, 'a> {
    /// Moves what the tail says into the line and asks about what was not known.
    pub(super) fn finish(self) {
        let Reading { cut, line, tail, .. } = self;
        line.optional = tail.optional || cut.tokens.iter().any(|token| token.is_any(&["optional", "optionally"]));
        line.divided = tail.divided;
        line.remaining = tail.remaining
            || cut.tokens.first().is_some_and(|token| token.is_any(&["remaining", "rest", "leftover", "reserved"]))
            || cut.any(1, &["remaining", "rest", "reserved"]);
        line.purpose = tail.purpose;
        line.more = tail.more;
        let count = line.foods.len();
        let amounts = line.foods.iter().find(|item| !item.amounts.is_empty()).map(|item| item.amounts.clone());
        let shares = count > 1 && line.foods.iter().any(|item| item.amounts.is_empty());
        if let Some(amounts) = amounts.filter(|_| shares) {
            if tail.each || cut.tokens.iter().any(|token| token.is_any(&["each"])) {
                for item in line.foods.iter_mut().filter(|item| item.amounts.is_empty()) {
                    item.amounts.clone_from(&amounts);
                }
            } else {
                let place = amounts[0].place.clone();
                let names: Vec<&str> = line.foods.iter().map(|item| item.name.as_str()).collect();
                line.queries.push(Query::new(
                    &AMOUNT_SHARED,
                    place,
                    format!(
                        "One amount stands for {}; it was taken for {} alone.",
                        names.join(" and "),
                        line.foods[0].name
                    ),
                    "Give each its own line, or write “each” after the amount.",
                ));
            }
        }
        for item in &mut line.foods {
            if let Some(fill) = tail.fill.clone()
                && !item.ways.contains(&fill)
            {
                item.ways.push(fill);
            }
            let mut preparation: Vec<String> = Vec::new();
            if !item.preparation.is_empty() {
                preparation.push(item.preparation.clone());
            }
            preparation.extend(tail.preparation.iter().cloned());
            item.preparation = preparation.join(", ");
        }
        for item in line.foods.iter().chain(&line.alternatives) {
            if item.food.is_none() && !item.reference {
                let message = if item.name.is_empty() {
                    "No food was found in this line; nothing is weighed.".to_owned()
                } else {
                    format!("“{}” is not a food known here; nothing is weighed for it.", item.name)
                };
                line.queries.push(Query::new(
                    &FOOD_NOT_KNOWN,
                    item.place.clone(),
                    message,
                    "Name the food another way, or add it to your foods.",
                ));
            } else if !item.unknown.is_empty() {
                line.queries.push(Query::new(
                    &WORD_PASSED_OVER,
                    item.place.clone(),
                    format!(
                        "“{}” was read as {}; the word “{}” is not known here and was passed over.",
                        item.name,
                        item.name,
                        item.unknown.join(" ")
                    ),
                    "If it makes another food, add that food to your foods.",
                ));
            }
        }
        doubts(cut, line, &tail.preparation);
        for three in cut.tokens.windows(3).filter(|three| three[1].is_mark('/')) {
            let (Token::Digits(Some(over)), Token::Digits(Some(under))) = (three[0].kind, three[2].kind) else {
                continue;
            };
            if let Some(mixed) =
                number::run_together(over.parts().0, under.parts().0).filter(|_| over.is_whole() && under.is_whole())
            {
                line.queries.push(Query::new(
                    &NUMBER_RUN_TOGETHER,
                    three[0].place.start..three[2].place.end,
                    format!(
                        "“{}/{}” was read as {mixed}, as if a space had been lost.",
                        three[0].folded, three[2].folded
                    ),
                    format!("Write “{mixed}”."),
                ));
            }
        }
        for words in &tail.preparation {
            if let Some(amount) = left_over(words).or_else(|| number_left_over(line, words)) {
                let at = cut.text.find(words).unwrap_or(0);
                line.queries.push(Query::new(
                    &AMOUNT_LEFT_OVER,
                    at..at + words.len().min(cut.text.len() - at),
                    format!("“{words}” was kept as a remark; its {amount} was not weighed."),
                    "If it is an ingredient or a further amount, give it a line of its own.",
                ));
            }
        }
        for token in &cut.tokens {
            if matches!(token.kind, Token::Digits(None)) {
                line.queries.push(Query::new(
                    &NUMBER_NOT_READ,
                    token.place.clone(),
                    format!("“{}” is no amount that a kitchen holds; it was left out.", shorten(&token.folded)),
                    "Write the amount as a plain number, a fraction or a mixed number, such as 1 1/2.",
                ));
            }
        }
        if cut.tokens.windows(3).any(|three| {
            three[0].is_number()
                && three[1].is_mark('/')
                && three[2].folded.bytes().all(|byte| byte == b'0')
                && three[2].is_number()
        }) {
            line.queries.push(Query::new(
                &NUMBER_NOT_READ,
                0..cut.text.len(),
                "A fraction over nothing is no amount; it was left out.",
                "Write the amount as a plain number, a fraction or a mixed number, such as 1 1/2.",
            ));
        }
    }
}
