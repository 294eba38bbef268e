//! Two columns of amounts without a head that names them: "Flour 100 g 200 g", "Eggs 1 2".

use super::super::COLUMN_TAKEN;
use super::super::furniture;
use super::Reader;
use crate::food_words::FoodWords;
use crate::line::{Cut, numbers, unit};
use crate::query::Query;
use crate::word;
use evencrumb_measure::Unit;

/// Fewest rows that make columns.
const FEWEST: usize = 3;

/// A row that ends with two amounts of one unit.
struct Pair {
    row: usize,
    /// Bytes of the row's text up to the end of the first.
    end: usize,
    first: f64,
    second: f64,
}

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    /// Takes the first of two columns everywhere, and asks. One row alone tells a range or a slip of the pen; where
    /// three do, and the same column has always the more, they are two batches.
    pub(super) fn take_first_column(&mut self) {
        let pairs: Vec<Pair> = (0..self.rows.len()).filter_map(|at| self.pair(at)).collect();
        // What a head says of its columns is no guess.
        let headed = self.rows.iter().any(|row| {
            furniture::is_table_head(&row.text, &row.plain)
                || row.plain.split(' ').any(|word| matches!(word, "single" | "double"))
        });
        let more = pairs.iter().filter(|pair| pair.second > pair.first).count();
        let less = pairs.iter().filter(|pair| pair.second < pair.first).count();
        if headed || more.max(less) + 1 < FEWEST || pairs.len() < FEWEST || more.min(less) > 0 {
            return;
        }
        let place = self.row(pairs[0].row).body.clone();
        for pair in pairs {
            let row = &mut self.rows[pair.row];
            let text = row.text[..pair.end].replace('|', " ").split_whitespace().collect::<Vec<_>>().join(" ");
            row.says(text);
        }
        let message = "The list has two columns of amounts, as for two batches; the first was taken.";
        let mend = "Leave the column that you bake, and put the other into a file of its own.";
        self.out.queries.push(Query::new(&COLUMN_TAKEN, place, message, mend));
    }

    fn pair(&self, at: usize) -> Option<Pair> {
        let row = self.row(at);
        if row.text.len() > 120 || !row.text.ends_with(|c: char| c.is_alphanumeric() || matches!(c, '|' | '.')) {
            return None;
        }
        // Nearly no row has two numbers, and none is cut for less.
        let begins = |(before, c): (char, char)| c.is_numeric() && !before.is_numeric();
        if row.text.chars().zip(row.text.chars().skip(1)).filter(|pair| begins(*pair)).count() < 2 {
            return None;
        }
        let text = row.text.replace('|', " ");
        let cut = Cut::of(&text);
        let from = cut.tokens.iter().position(crate::token::Token::is_number).filter(|from| *from > 0)?;
        let (first, one, next) = amount(&cut, from)?;
        let (second, other, last) = amount(&cut, next)?;
        let names = cut.tokens[..from].iter().any(|token| self.foods.food(&word::key(&token.folded)).is_some());
        (names && one == other && last >= cut.tokens.len()).then(|| Pair {
            row: at,
            end: cut.place(from, next).end,
            first,
            second,
        })
    }
}

/// The amount at a token: its number, its unit, and the token after it.
fn amount(cut: &Cut<'_>, at: usize) -> Option<(f64, Option<Unit>, usize)> {
    let read = numbers(cut, at).filter(|read| read.low == read.high)?;
    let (unit, next) = unit(cut, read.next).map_or((None, read.next), |(unit, next)| (Some(unit), next));
    Some((read.low.value(), unit, next))
}
