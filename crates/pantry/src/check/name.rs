//! Names: each means one food, and names that look alike are worth a look.

use std::collections::BTreeMap;

use crate::fold::fold;
use crate::row::{Fault, Food};

/// Shorter names differ by a letter and mean different foods too often to say anything.
const LONG_ENOUGH: usize = 8;

/// Every name, folded, with the foods it means.
pub(super) struct Names<'f> {
    names: BTreeMap<String, Vec<(&'f str, &'f Food)>>,
}

impl<'f> Names<'f> {
    pub(super) fn of(foods: &'f [Food]) -> Names<'f> {
        let mut names: BTreeMap<String, Vec<(&str, &Food)>> = BTreeMap::new();
        for food in foods {
            for name in food.names() {
                names.entry(fold(name)).or_default().push((name, food));
            }
        }
        Names { names }
    }

    /// Whether a food is called so.
    pub(super) fn has(&self, name: &str) -> bool {
        self.names.contains_key(&fold(name))
    }

    /// Whether the parts of a food, or the parts of those, hold the food itself: what it is made of would have no end.
    pub(super) fn leads_back(&self, food: &Food) -> bool {
        let mut seen: Vec<&str> = Vec::new();
        let mut open: Vec<&Food> = vec![food];
        while let Some(next) = open.pop() {
            for part in &next.parts {
                let Some((_, part)) = self.names.get(&fold(&part.food)).and_then(|meant| meant.first()) else {
                    continue;
                };
                if part.id == food.id {
                    return true;
                }
                if !seen.contains(&part.id.as_str()) {
                    seen.push(&part.id);
                    open.push(part);
                }
            }
        }
        false
    }

    /// The likest name there is.
    pub(super) fn nearest(&self, name: &str) -> Option<&'f str> {
        let folded = fold(name);
        let likeness = |other: &str| strsim::normalized_damerau_levenshtein(&folded, other);
        let likest = self.names.iter().max_by(|(one, _), (other, _)| likeness(one).total_cmp(&likeness(other)))?;
        likest.1.first().map(|(name, _)| *name)
    }

    /// A name that means two foods is a fault of the later one.
    pub(super) fn refuse_shared(&self, faults: &mut Vec<Fault>) {
        for meant in self.names.values() {
            let Some(((_, first), rest)) = meant.split_first() else { continue };
            let mut told: Vec<&Food> = vec![first];
            for (name, food) in rest {
                if told.iter().any(|told| std::ptr::eq(*told, *food)) {
                    continue;
                }
                told.push(food);
                faults.push(Fault {
                    place: food.place.clone(),
                    food: Some(food.name.clone()),
                    what: format!("`{name}` also means {} ({})", first.name, first.place),
                    mend: "a name means one food: keep it where a baker would look first".to_owned(),
                });
            }
        }
    }

    /// Names of different foods that a slip of one letter would swap. Misspellings written into `also` are meant to be
    /// near their own food, so only those near another are told.
    pub(super) fn look_alike(&self, looks: &mut Vec<Fault>) {
        let mut by_length: BTreeMap<usize, Vec<(&str, &str, &Food)>> = BTreeMap::new();
        for (name, meant) in self.names.iter().filter(|(name, _)| name.chars().count() >= LONG_ENOUGH) {
            if let Some((said, food)) = meant.first() {
                by_length.entry(name.len()).or_default().push((name, said, food));
            }
        }
        for (length, names) in &by_length {
            for (at, (name, said, food)) in names.iter().enumerate() {
                let longer = by_length.get(&(length + 1)).into_iter().flatten();
                for (other, other_said, other_food) in names[at + 1..].iter().chain(longer) {
                    if !std::ptr::eq(*food, *other_food) && near(name, other) {
                        looks.push(Fault {
                            place: food.place.clone(),
                            food: Some(food.name.clone()),
                            what: format!("`{said}` looks like `{other_said}`, which is {}", other_food.name),
                            mend: "fine if both are so; else move the name".to_owned(),
                        });
                    }
                }
            }
        }
    }
}

/// Whether one slip makes one of the other. The lengths differ by one at most, so most pairs are told apart at once.
/// Numbers are meant: `60% chocolate` is no slip for `70% chocolate`.
fn near(one: &str, other: &str) -> bool {
    let words = |name: &str| -> String { name.chars().filter(|letter| !letter.is_ascii_digit()).collect() };
    let (one_bytes, other_bytes) = (one.as_bytes(), other.as_bytes());
    let same_start = one_bytes.iter().zip(other_bytes).take_while(|(a, b)| a == b).count();
    let same_end = one_bytes.iter().rev().zip(other_bytes.iter().rev()).take_while(|(a, b)| a == b).count();
    same_start + same_end + 2 >= one.len() && words(one) != words(other) && strsim::damerau_levenshtein(one, other) == 1
}
