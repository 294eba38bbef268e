//! Holds a value that leans on the table against the table's own portion.

use super::{Kind, Value};
use crate::row::{Cited, Food};
use crate::table::{Portion, Row, Table};

/// The source that can be held against.
pub(super) const TABLE: &str = "sr28";

/// How many of a household volume make a cup.
const IN_A_CUP: [(&str, f64); 13] = [
    ("cup", 1.0),
    ("cups", 1.0),
    ("tbsp", 16.0),
    ("tablespoon", 16.0),
    ("tablespoons", 16.0),
    ("tsp", 48.0),
    ("teaspoon", 48.0),
    ("teaspoons", 48.0),
    ("fl oz", 8.0),
    ("fluid ounce", 8.0),
    ("pint", 0.5),
    ("quart", 0.25),
    ("gallon", 0.0625),
];

/// What is wrong with a value from the table and how it is mended; `None` when it agrees or leans on something else.
pub(super) fn compare(food: &Food, value: &Value<'_>, cited: &Cited, table: &Table) -> Option<(String, String)> {
    if cited.from.source.id != TABLE {
        return None;
    }
    let (kind, best) = (value.kind, cited.range.best());
    let Some(number) = cited.from.row.or(food.table) else {
        return Some((
            format!("{kind} leans on the table, but no row is named"),
            "write from = \"sr28:12120\", say".to_owned(),
        ));
    };
    let Some(row) = table.row(number) else {
        return Some((format!("{kind}: the table has no row {number}"), "look it up in FOOD_DES.txt".to_owned()));
    };
    if kind == Kind::Edible {
        return edible(row, best);
    }
    let Some(words) = &cited.from.portion else {
        return Some((format!("{kind} {best} g names no portion of row {number}"), nearest(row, kind, "")));
    };
    let mut weights = row.portions().iter().filter(|it| is_named(it, words)).peekable();
    if weights.peek().is_none() {
        return Some((format!("{kind}: row {number} has no portion `{words}`"), nearest(row, kind, words)));
    }
    let mut expected = Vec::new();
    for portion in weights {
        match one(portion, kind) {
            Some(grams) if (grams - best).abs() <= (grams * 0.01).max(0.055) => return None,
            Some(grams) => expected.push(grams),
            None => {}
        }
    }
    let Some(grams) = expected.first() else {
        return Some((format!("{kind}: `{words}` of row {number} is not a volume"), nearest(row, kind, words)));
    };
    Some((
        format!("{kind} is {best} g, but `{words}` of row {number} gives {}", said(*grams)),
        format!("write best = {}, or name another source", said(*grams)),
    ))
}

fn edible(row: Row<'_>, best: f64) -> Option<(String, String)> {
    let share = 1.0 - row.refuse_share();
    if (share - best).abs() <= 0.0051 {
        return None;
    }
    let what = format!(
        "edible share is {best}, but row {} throws away {:.0} % ({})",
        row.number(),
        row.refuse_share() * 100.0,
        row.refuse()
    );
    Some((what, format!("write best = {}, or name another source", said(share))))
}

/// Portions are named by their words, or by amount and words.
fn is_named(portion: &Portion, words: &str) -> bool {
    let words = words.trim();
    portion.text == words || format!("{} {}", portion.amount, portion.text) == words
}

/// Grams of one of what the kind counts; `None` when the words are not a volume and the kind is.
fn one(portion: &Portion, kind: Kind<'_>) -> Option<f64> {
    let each = portion.grams / portion.amount;
    match kind {
        Kind::Cup(_) => Some(each * in_a_cup(&portion.text)?),
        Kind::Teaspoon => Some(each * in_a_cup(&portion.text)? / 48.0),
        _ => Some(each),
    }
}

/// How many of what the words say make a cup: `tbsp` 16, `serving 8 fl oz` one.
fn in_a_cup(text: &str) -> Option<f64> {
    if let Some((count, volume)) = text.strip_prefix("serving ").and_then(|text| text.split_once(' ')) {
        return Some(in_a_cup(volume)? / count.parse::<f64>().ok()?);
    }
    let starts = |name: &str| text.strip_prefix(name).is_some_and(|rest| !rest.starts_with(char::is_alphabetic));
    IN_A_CUP.iter().find(|(name, _)| starts(name)).map(|(_, count)| *count)
}

/// The portions there are, those with the likest words first, as the kind would have them.
fn nearest(row: Row<'_>, kind: Kind<'_>, words: &str) -> String {
    let mut portions: Vec<&Portion> = row.portions().iter().collect();
    if portions.is_empty() {
        return "the row has no portions; name another source".to_owned();
    }
    let likeness = |portion: &Portion| strsim::normalized_damerau_levenshtein(&portion.text, words);
    portions.sort_by(|one, other| likeness(other).total_cmp(&likeness(one)));
    let said: Vec<String> = portions
        .iter()
        .take(4)
        .map(|portion| match one(portion, kind) {
            Some(grams) => format!("`{}` {} g", portion.text, said(grams)),
            None => format!("`{}`", portion.text),
        })
        .collect();
    format!("it has {}", said.join(", "))
}

/// A number as a row would write it.
pub(super) fn said(grams: f64) -> String {
    let digits = if grams >= 20.0 { 1 } else { 3 };
    evencrumb_measure::say::decimal(grams, digits)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_volumes_of_a_cup() {
        assert_eq!(in_a_cup("cup, chopped"), Some(1.0));
        assert_eq!(in_a_cup("tbsp, leaves"), Some(16.0));
        assert_eq!(in_a_cup("fl oz"), Some(8.0));
        assert_eq!(in_a_cup("serving 8 fl oz"), Some(1.0));
        assert_eq!(in_a_cup("cupcake"), None);
        assert_eq!(in_a_cup("serving packet"), None);
    }
}
