//! The measure of a weighing, as `1 cup, packed`: read as a line of a recipe is, and more strictly.
//!
//! A line passes over a word that it does not know and goes on. A weighing stands before all we know, so every word of
//! its measure must be understood: a number, a measure, a size, a way of filling.

use evencrumb_manuscript::line::{self, Item};
use evencrumb_measure::{Custom, Dimension, Range, Unit};

use super::weighing::Slot;
use crate::pantry::Pantry;
use crate::row::{Food, Size, Way};
use crate::weigh::{self, Kitchen};

/// Words that may stand in a measure and change nothing of what it holds.
const BESIDE: &[&str] =
    &["a", "an", "and", "of", "level", "levelled", "leveled", "firmly", "lightly", "loosely", "tightly", "well"];
/// Numbers in words that a measure may begin with.
const NUMBERS: &[&str] = &["one", "two", "three", "four", "five", "six", "half", "third", "quarter"];

/// A measure that was understood.
pub(super) struct Measured {
    /// The food with its measure, as a line would have it.
    pub item: Item,
    /// How many of the unit.
    pub number: f64,
    /// The place in the food's row that the weighing takes.
    pub slot: Slot,
    /// How often the unit goes into what the slot holds.
    pub factor: f64,
    /// Millilitres of all of it, where it is filled and not counted.
    pub millilitres: Option<f64>,
    /// Whether the unit is a spoon.
    pub is_spoon: bool,
}

/// Reads a measure of a food.
///
/// # Errors
/// Says what is wrong with it, as `“furlong” is no measure known here`.
pub(super) fn measured(name: &str, measure: &str, pantry: &Pantry, kitchen: Kitchen) -> Result<Measured, String> {
    let no_measure = || format!("“{measure}” is no measure that can be filled and weighed");
    let (amount, how) = measure.split_once(',').unwrap_or((measure, ""));
    let amount = amount.trim();
    let amount = amount.strip_suffix(" of").unwrap_or(amount);
    // How it was filled stands before the food: in a line, "1 cup flour, sifted" is sifted after it was measured, and
    // "1 cup sifted flour" before.
    let text = [amount, how.trim(), name].join(" ");
    let mut read = line::read(&text, pantry);
    let item = (read.foods.len() == 1).then(|| read.foods.remove(0)).ok_or_else(no_measure)?;
    let [amount] = item.amounts.as_slice() else { return Err(no_measure()) };
    let [term] = amount.terms.as_slice() else { return Err(no_measure()) };
    let number = Some(term.low.value()).filter(|number| term.low == term.high && *number > 0.0);
    let number = number.ok_or_else(no_measure)?;
    // "1 packed cup" is filled in a way; a heaped one holds nobody knows how much.
    let is_heaped = amount.fill.as_deref().is_some_and(|fill| fill != "level" && Way::named(fill).is_none());
    if amount.each.is_some() || is_heaped || item.part.is_some() {
        return Err(no_measure());
    }
    if let Some(word) = not_understood(measure, pantry) {
        return Err(format!("“{word}” in “{measure}” is neither a measure known here nor a size nor a way of filling"));
    }
    let food = pantry.food(item.food.ok_or_else(no_measure)?);
    let unit = term.unit;
    let slot = slot(&item, unit, food, kitchen).ok_or_else(no_measure)?;
    let holds = |custom: Custom, unit: Unit| unit.millilitres(custom).map(Range::best);
    let of_a = |whole: Unit| Some(holds(Custom::Us, whole)? / holds(kitchen.custom, unit)?);
    let factor = match slot {
        Slot::Cup(_) => of_a(Unit::Cup),
        Slot::Teaspoon => of_a(Unit::Teaspoon),
        // "1, beaten": a thing that is counted is not filled in a way.
        Slot::Piece(..) if measure.split([' ', ',']).any(|word| is_way(word, pantry)) => None,
        Slot::Piece(..) => Some(1.0),
    };
    let factor = factor.ok_or_else(no_measure)?;
    let millilitres = match slot {
        Slot::Piece(..) => None,
        _ => holds(kitchen.custom, unit).map(|one| one * number),
    };
    let is_spoon = millilitres.is_some_and(|all| all / number < weigh::SPOON_MILLILITRES);
    Ok(Measured { item, number, slot, factor, millilitres, is_spoon })
}

/// The first word of a measure that nobody understands.
fn not_understood<'m>(measure: &'m str, pantry: &Pantry) -> Option<&'m str> {
    let (amount, how) = measure.split_once(',').unwrap_or((measure, ""));
    let words: Vec<&str> = pieces(amount);
    let is_number = |word: &str| {
        word.chars().all(|c| c.is_numeric() || matches!(c, '/' | '⁄' | '.')) || NUMBERS.contains(&&*word.to_lowercase())
    };
    let is_beside = |word: &str| BESIDE.contains(&&*word.to_lowercase());
    let mut at = 0;
    while at < words.len() {
        let understood = (1..=3).rev().filter(|length| at + length <= words.len()).find(|length| {
            let some = words[at..at + length].join(" ");
            Unit::written(&some).is_some()
                || is_size(&some.to_lowercase())
                || (*length == 1 && (is_number(&some) || is_beside(&some) || is_way(&some, pantry)))
        });
        match understood {
            Some(length) => at += length,
            None => return Some(words[at]),
        }
    }
    how.split_whitespace().find(|word| !is_beside(word) && !is_way(word, pantry))
}

/// Words of an amount; a digit and a letter that stand together are two.
fn pieces(amount: &str) -> Vec<&str> {
    let cut = |word: &'_ str| -> usize {
        let digits = word.find(|c: char| !(c.is_numeric() || matches!(c, '/' | '⁄' | '.'))).unwrap_or(0);
        // "1/2-cup" is a number and a measure, "-1" is neither.
        if digits > 0 { digits } else { word.len() }
    };
    let halves = |word| {
        let (number, unit) = str::split_at(word, cut(word));
        [number, unit.strip_prefix('-').unwrap_or(unit)]
    };
    amount.split_whitespace().flat_map(halves).filter(|word| !word.is_empty()).collect()
}

fn is_size(word: &str) -> bool {
    Size::named(&word.replace('-', " ")).is_some()
}

/// Whether this is a way of filling; the reader of lines knows more spellings than [`Way`] has.
fn is_way(word: &str, pantry: &Pantry) -> bool {
    if Way::named(&word.to_lowercase()).is_some() {
        return true;
    }
    let read = line::read(&format!("1 cup all-purpose flour, {word}"), pantry);
    matches!(read.foods.as_slice(), [item] if item.ways.iter().any(|way| Way::named(way).is_some()))
}

/// Where the figure belongs, by the rules by which a line is weighed.
fn slot(item: &Item, unit: Unit, food: &Food, kitchen: Kitchen) -> Option<Slot> {
    let way = item.ways.iter().find_map(|way| Way::named(way));
    let is_vague = unit.is_vague();
    match unit.dimension() {
        Dimension::Weight => None,
        Dimension::Volume if !is_vague => {
            let small = unit.millilitres(kitchen.custom)?.best() < weigh::SMALL_MILLILITRES;
            Some(if small && way.is_none() { Slot::Teaspoon } else { Slot::Cup(way) })
        }
        Dimension::Volume | Dimension::Count => {
            let size = item.size.as_deref().and_then(Size::named);
            // An egg without a size is one of the kitchen's class.
            let is_egg = food.piece.iter().any(|piece| piece.size == Some(Size::Jumbo));
            let class = size.unwrap_or(kitchen.eggs).of_egg(kitchen.eggs);
            Some(Slot::Piece(unit, if is_egg { Some(class) } else { size }))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn is_read(food: &str, measure: &str) -> bool {
        refused(food, measure).is_none()
    }

    fn refused(food: &str, measure: &str) -> Option<String> {
        measured(food, measure, Pantry::ours(), Kitchen::default()).err()
    }

    #[test]
    fn ok_measures() {
        for measure in [
            "1 cup",
            "1/2 cup",
            "1 1/2 cups",
            "½ c",
            "half a cup",
            "250ml",
            "1/2-cup",
            "2 tablespoons",
            "1 T",
            "2 fluid ounces",
            "1 cup, packed",
            "1 cup, firmly packed",
            "1 packed cup",
            "1 cup of",
            "1 cup, spooned and levelled",
        ] {
            assert_eq!(refused("brown sugar", measure), None);
        }
        for measure in ["1", "1 piece", "1 large", "2", "1 extra large"] {
            assert_eq!(refused("egg", measure), None);
        }
    }

    #[test]
    fn err_words_that_nobody_understands() {
        for measure in [
            "1 furlong",
            "1 cupp",
            "-1 cup",
            "0 cup",
            "1 cup fooey",
            "1 cup remaining",
            "1 cup, see note",
            "(see note) 1 cup",
            "1 cup (see note)",
            "1 cup, packed fooey",
            "1 to 2 cups",
            "1 cup plus 1 tablespoon",
            "100 g",
            "",
            ",",
        ] {
            assert!(!is_read("oat flour", measure), "{measure}");
        }
        // Without a number it is one of them, as in any line.
        assert!(is_read("oat flour", "cup"));
        assert!(!is_read("egg", "1, beaten"));
        assert_eq!(
            refused("oat flour", "1 furlong").as_deref(),
            Some("“furlong” in “1 furlong” is neither a measure known here nor a size nor a way of filling")
        );
    }
}
