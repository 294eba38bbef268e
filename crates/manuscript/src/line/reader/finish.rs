//! What the tail said goes into the line, and what was not known is asked about.

use super::Reading;
use super::doubt::{doubts, left_over};
use crate::line::Item;
use crate::line::cut::Cut;
use crate::line::{AMOUNT_LEFT_OVER, NUMBER_RUN_TOGETHER, number};
use crate::line::{AMOUNT_SHARED, FOOD_NOT_KNOWN, NUMBER_NOT_READ, WORD_PASSED_OVER};
use crate::query::Query;
use crate::token::Kind as Token;

pub(super) fn shorten(text: &str) -> String {
    if text.chars().count() <= 24 {
        text.to_owned()
    } else {
        format!("{}…", text.chars().take(24).collect::<String>())
    }
}

/// "200 g nuts: 100 g walnuts, 100 g hazelnuts": whether the first food is the sum of those told behind its colon.
fn lists_what_it_weighs(cut: &Cut<'_>, foods: &[Item]) -> bool {
    let [whole, parts @ ..] = foods else { return false };
    let colon = cut.tokens.iter().find(|token| token.place.start >= whole.place.end);
    let grams = |item: &Item| match item.amounts.as_slice() {
        [amount] if amount.is_weight() && amount.each.is_none() => {
            amount.terms.iter().map(|term| Some(term.unit.grams()? * term.high.value())).sum::<Option<f64>>()
        }
        _ => None,
    };
    let told = parts.iter().map(grams).sum::<Option<f64>>();
    parts.len() > 1
        && colon.is_some_and(|token| token.is_mark(':'))
        && grams(whole).zip(told).is_some_and(|(whole, told)| (whole - told).abs() <= whole * SAME)
}

/// How far a sum may be from its parts: by the rounding of each.
const SAME: f64 = 0.02;

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
        if lists_what_it_weighs(cut, &line.foods) {
            line.foods.remove(0);
        }
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
            if let Some(amount) = left_over(line, words) {
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
