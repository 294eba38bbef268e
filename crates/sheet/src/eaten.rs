//! Not everything is eaten: grease stays in the pan, soaking water is poured off, a weighed banana has its peel.

use evencrumb_manuscript::line::{Item, Line};
use evencrumb_measure::{Estimate, Influence, Range};
use evencrumb_pantry::{Food, Pantry};

/// The share of an item's grams that is eaten, from 0 to 1, and why, where it is not all of it. `text` is the line that
/// `item` was read from.
///
/// Shares of what stays behind are common practice, no source. A weight as bought is taken down to the food's edible
/// share; counts and measures already are the part that goes in the bowl.
pub fn share(text: &str, line: &Line, item: &Item, pantry: &Pantry) -> Option<(Estimate, String)> {
    let left_behind = match line.purpose.as_deref() {
        Some("greasing") => Some((Range::new(0.3, 0.7, 1.0), "some of what greases the pan stays in it")),
        Some("dusting") => Some((Range::new(0.2, 0.5, 0.9), "some of what dusts the board stays on it")),
        Some("frying") => Some((Range::new(0.05, 0.12, 0.25), "most of what fries is left in the pan")),
        Some("brushing") => Some((Range::new(0.3, 0.6, 1.0), "some of what is brushed on stays in the cup")),
        Some("soaking") => Some((Range::new(0.0, 0.0, 0.1), "what soaks or boils is poured off")),
        _ => None,
    };
    if let Some((range, why)) = left_behind {
        return range.map(|range| (Estimate::of(range, Influence::named(why)), why.to_owned()));
    }
    let food = pantry.food(item.food?);
    let edible = edible_share(food).filter(|_| is_as_bought(text, item))?;
    let why = format!("{:.0} % of {} as bought is eaten", edible.best() * 100.0, food.name);
    Some((edible, why))
}

/// The share of a food as bought that is eaten; nothing where it is all of it.
pub fn edible_share(food: &Food) -> Option<Estimate> {
    let share = food.edible.as_ref()?.range;
    Some(Estimate::of(share, Influence::named(&format!("edible share of {}", food.name))))
}

/// Whether the grams of an item still hold peel, core and stone: a weight does unless the line says otherwise, counts and
/// measures never do.
pub fn is_as_bought(text: &str, item: &Item) -> bool {
    item.amounts.iter().any(evencrumb_manuscript::line::Amount::is_weight) && !trimmed_before(text, item)
}

/// Whether the author weighed what was left after trimming ("200 g peeled weight", "100 g shelled nuts").
fn trimmed_before(text: &str, item: &Item) -> bool {
    // "mashed banana" may be the food's own name, so the name is read too; "banana, mashed" was weighed whole.
    let words = format!("{} {}", item.name, item.preparation).to_lowercase();
    let said = ["peeled weight", "prepared weight", "trimmed weight", "shelled weight", "drained weight", "net weight"];
    let worked = ["chopped", "cubed", "diced", "sliced", "mashed", "puree", "pureed", "grated", "shredded", "minced"];
    let name = item.name.to_lowercase();
    // "pitted dates" were weighed without their stones, "dates, pitted" with them.
    let before = text.get(..item.place.start).unwrap_or_default().to_lowercase();
    let taken_off = [
        "pitted", "stoned", "peeled", "hulled", "shelled", "cored", "deseeded", "seeded", "trimmed", "boneless",
        "skinless", "rindless",
    ];
    if before.split(|c: char| !c.is_alphabetic()).any(|word| taken_off.contains(&word)) {
        return true;
    }
    said.iter().any(|said| words.contains(said))
        || item.ways.iter().any(|way| worked.contains(&way.as_str()) || way == "fine")
        || worked.iter().any(|word| name.split(' ').any(|part| part == *word))
}

#[cfg(test)]
mod tests {
    use evencrumb_pantry::weigh::Kitchen;

    use super::*;

    fn eaten(text: &str) -> f64 {
        let pantry = Pantry::ours();
        let line = crate::line::weigh(text, pantry, Kitchen::default());
        share(&line.text, &line.read, &line.foods[0].item, pantry).map_or(1.0, |(share, _)| share.best())
    }

    #[test]
    fn ok_peel_comes_off_what_is_weighed_and_not_off_what_is_counted() {
        assert!((eaten("500 g bananas") - 0.64).abs() < 1e-9);
        assert_eq!(eaten("2 bananas").to_bits(), 1.0f64.to_bits());
        assert_eq!(eaten("200 g mashed banana").to_bits(), 1.0f64.to_bits());
    }

    #[test]
    fn ok_what_was_pitted_before_it_was_weighed_is_all_eaten() {
        assert_eq!(eaten("250g pitted dates").to_bits(), 1.0f64.to_bits());
        assert!(eaten("250 g dates, pitted") < 1.0);
        assert!(eaten("250 g unpeeled bananas") < 1.0);
    }

    #[test]
    fn ok_grease_and_poaching_water_are_not_all_eaten() {
        assert!(eaten("butter for greasing") < 1.0);
        assert!(eaten("2 cups water for boiling") < 0.2);
    }
}
