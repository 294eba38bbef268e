//! What the head of a table says of its columns: "Grams" is the unit of the bare numbers below it, and of "Single" and
//! "Double" the first is taken.

use std::cell::OnceCell;
use std::ops::Range;

use super::super::COLUMN_TAKEN;
use super::super::list::is_amount;
use super::super::section::Section;
use super::super::vocabulary::VOCABULARY;
use super::Reader;
use crate::food_words::FoodWords;
use crate::line::{Cut, unit};
use crate::query::Query;
use crate::word;
use evencrumb_measure::Dimension;

/// What a column holds.
enum Column<'t> {
    /// Anything, with its unit.
    Whole,
    /// Numbers of this unit.
    Of(String),
    /// The amounts of this batch.
    Batch(&'t str),
}

/// Most pieces that bare numbers count below the name of a unit: "Eggs | 2" below "Grams".
const MOST_PIECES: u8 = 12;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    /// Reads the head of a table, and says what the rows below it leave to it. Gives whether they do.
    pub(super) fn take_columns(&mut self, at: usize) -> bool {
        let text = self.text;
        let written = &text[self.row(at).body.clone()];
        let head: Vec<Column<'_>> = cells(written).into_iter().map(|cell| column(&written[cell])).collect();
        let batches: Vec<&str> = head
            .iter()
            .filter_map(|column| if let Column::Batch(name) = column { Some(*name) } else { None })
            .collect();
        let several = batches.len() >= 2;
        if !several && !head.iter().any(|column| matches!(column, Column::Of(_))) {
            return false;
        }
        let (mut left_out, mut any) = (false, false);
        for below in at + 1..self.end {
            if self.row(below).section().is_some_and(|section| section != Section::Ingredients) {
                break;
            }
            let written = &text[self.row(below).body.clone()];
            let (said, without) = self.told_by(&head, several, written);
            left_out |= without;
            any |= said.is_some();
            if let Some(said) = said {
                self.rows[below].says(said);
                (self.looks[below], self.headings[below]) = (None, OnceCell::new());
            }
        }
        if left_out {
            self.out.queries.push(Query::new(
                &COLUMN_TAKEN,
                self.row(at).body.clone(),
                format!("The list has amounts for {}; those for “{}” were taken.", in_words(&batches), batches[0]),
                "Leave only the amounts you make, or put these first.",
            ));
        }
        any
    }

    /// The row of a table with its units and without the amounts of further batches, where that is another than what
    /// is written; and whether some were left out.
    fn told_by(&self, head: &[Column<'_>], several: bool, written: &str) -> (Option<String>, bool) {
        let cells = cells(written);
        if cells.len() < 2 {
            return (None, false);
        }
        // A first cell or the last ones may be missing.
        let from = head.len().saturating_sub(cells.len());
        let from = if cells.len() + 1 == head.len() && !is_amount(&written[cells[0].clone()]) { 0 } else { from };
        let before = cells.len().saturating_sub(head.len());
        // "Large eggs, separated"
        let counted = cells.iter().any(|cell| {
            let name = written[cell.clone()].split([',', '(']).next().unwrap_or_default().trim_end();
            let last = name.rsplit(char::is_whitespace).next().unwrap_or_default();
            self.foods.food(&word::key(last)).is_some_and(|named| named.counted)
        });
        let column = |nth: usize| nth.checked_sub(before).and_then(|nth| head.get(nth + from));
        let unit_of = |nth: usize| {
            let text = &written[cells[nth].clone()];
            let pieces = counted && text.parse().is_ok_and(|pieces: u8| pieces <= MOST_PIECES);
            column(nth)
                .and_then(|column| if let Column::Of(unit) = column { Some(unit) } else { None })
                .filter(|_| is_number(text) && !pieces)
        };
        let weighed = (0..cells.len()).any(|nth| unit_of(nth).is_some());
        let (mut said, mut another, mut left_out, mut taken) = (String::new(), false, false, false);
        let mut end = 0;
        for (nth, cell) in cells.iter().enumerate() {
            let text = &written[cell.clone()];
            let column = column(nth);
            // The number of the row, its share or price: beside an amount it is none.
            if weighed && matches!(column, Some(Column::Whole)) && is_number(text) {
                (another, end) = (true, cell.end);
                continue;
            }
            let drops =
                several && taken && matches!(column, Some(Column::Batch(_))) && (text.is_empty() || is_amount(text));
            taken |= matches!(column, Some(Column::Batch(_)));
            if drops {
                (another, left_out, end) = (true, left_out || !text.is_empty(), cell.end);
                continue;
            }
            said.push_str(&written[end..cell.end]);
            end = cell.end;
            if let Some(unit) = unit_of(nth) {
                said = format!("{said} {unit}");
                another = true;
            }
        }
        said.push_str(&written[end..]);
        let said = said.replace("**", "").split_whitespace().collect::<Vec<_>>().join(" ");
        (another.then_some(said), left_out)
    }
}

/// The cells of a row of a table: parted by bars, by tabs, by wide gaps or by " / ".
fn cells(written: &str) -> Vec<Range<usize>> {
    let inner = written.strip_prefix('|').unwrap_or(written);
    let start = written.len() - inner.len();
    let inner = inner.strip_suffix('|').unwrap_or(inner);
    let sign = ["|", "\t", "  ", " / "].into_iter().find(|sign| inner.contains(sign));
    let Some(sign) = sign else { return std::iter::once(0..written.len()).collect() };
    let mut found = Vec::new();
    let mut at = start;
    for cell in inner.split(sign) {
        let lead = cell.len() - cell.trim_start().len();
        // A wide gap is one sign however wide.
        if sign != "  " || !cell.trim().is_empty() {
            found.push(at + lead..(at + lead).max(at + cell.trim_end().len()));
        }
        at += cell.len() + sign.len();
    }
    found
}

/// What the head of a column says: "Weight (g)", "Grams", "Double batch", "2x".
fn column(head: &str) -> Column<'_> {
    let words = || head.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    let times = |word: &str| {
        let number = word.strip_prefix('x').or_else(|| word.strip_suffix('x'));
        number.is_some_and(|number| !number.is_empty() && number.bytes().all(|b| b.is_ascii_digit()))
    };
    if words().any(|word| VOCABULARY.furniture.batches.has(&word::fold(word)) || times(word)) {
        return Column::Batch(head.rsplit(['(', ':']).next().unwrap_or(head).trim_matches([')', ' ', '*']));
    }
    let of = words().find(|word| {
        let cut = Cut::of(word);
        unit(&cut, 0).is_some_and(|(unit, next)| next >= cut.tokens.len() && unit.dimension() != Dimension::Count)
    });
    // "T" is another measure than "t".
    of.map_or(Column::Whole, |word| Column::Of(if word.len() > 2 { word.to_lowercase() } else { word.to_owned() }))
}

/// Whether the cell is a number without a unit.
fn is_number(cell: &str) -> bool {
    is_amount(cell) && !cell.contains(|c: char| c.is_alphabetic() || c == '%')
}

/// “Single” and “Double”
fn in_words(names: &[&str]) -> String {
    let quoted: Vec<String> = names.iter().map(|name| format!("“{name}”")).collect();
    let (last, before) = quoted.split_last().map_or(("", &[][..]), |(last, before)| (last.as_str(), before));
    format!("{} and {last}", before.join(", "))
}
