//! Not everything is eaten: grease stays in the pan, soaking water is poured off, a weighed banana has its peel.

use evencrumb_manuscript::line::Item;
use evencrumb_measure::{Estimate, Influence, Range};
use evencrumb_pantry::{Food, Pantry};

use crate::line::WeighedLine;

/// The share of an item's grams that is eaten, from 0 to 1, and why, where it is not all of it. `item` is of the line.
///
/// Shares of what stays behind are common practice, no source. A weight as bought is taken down to the food's edible
/// share; counts and measures already are the part that goes in the bowl.
pub fn share(line: &WeighedLine, item: &Item, pantry: &Pantry) -> Option<(Estimate, String)> {
    let text = line.text.as_str();
    if let Some(share) = &line.taken_up {
        return Some((share.clone(), "what is fried takes up some of the oil, the rest stays in the pan".to_owned()));
    }
    let is_last = || line.foods.last().is_some_and(|last| last.item.place == item.place);
    let of_last = line.purpose_of_last.as_deref().filter(|_| is_last());
    let left_behind = match line.read.purpose.as_deref().or(of_last) {
        Some("greasing") => Some((Range::new(0.3, 0.7, 1.0), "some of what greases the pan stays in it")),
        Some("dusting") => Some((Range::new(0.2, 0.5, 0.9), "some of what dusts the board stays on it")),
        Some("frying") => Some((Range::new(0.05, 0.12, 0.25), "most of what fries is left in the pan")),
        Some("brushing") => Some((Range::new(0.3, 0.6, 1.0), "some of what is brushed on stays in the cup")),
        Some("soaking") => Some((Range::new(0.0, 0.0, 0.1), "what soaks or boils is poured off")),
        // A dough that is dipped in litres of it takes a film along.
        Some("bath") => Some((Range::new(0.0, 0.0, 0.02), "a bath is poured off")),
        // Coffee grounds keep some of the milk and give some of themselves to it.
        Some("strained") => Some((Range::new(0.0, 0.05, 0.3), "what is strained out is not eaten")),
        _ => None,
    };
    if let Some((range, why)) = left_behind {
        return range.map(|range| (Estimate::of(range, Influence::named(why)), why.to_owned()));
    }
    let food = pantry.food(item.food?);
    let lower = text.to_lowercase();
    let skin_on = SKIN_ON.iter().any(|said| lower.contains(said));
    if is_with_peel(text, item, food) || skin_on && food.name.split(' ').any(|word| SKIN_EATEN.contains(&word)) {
        return None;
    }
    let edible = edible_share(food).filter(|_| is_as_bought(text, item))?;
    if let Some(kept) = Range::new(PEELED.0, PEELED.1, PEELED.2).filter(|_| is_peeled_later(food, item)) {
        let peeled =
            edible.product(&Estimate::of(kept, Influence::named(&format!("what peeling leaves of {}", food.name))));
        let why = format!("{:.0} % of {} as bought is left without core and peel", peeled.best() * 100.0, food.name);
        return Some((peeled, why));
    }
    let why = format!("{:.0} % of {} as bought is eaten", edible.best() * 100.0, food.name);
    Some((edible, why))
}

/// What peeling leaves of a cored apple or pear: SR28 takes 10 % off an apple for its core (row 09003) and 23 % for core and
/// skin (row 09004), so that 77 of 90 stay. The range, and pears: common practice, no source.
const PEELED: (f64, f64, f64) = (0.80, 0.77 / 0.90, 0.91);

/// Whether a heading is that of a bath in which something boils: "Poaching bath", "For the bath", "To boil". Its water and
/// soda are poured off; "Bath buns" are buns.
pub fn is_bath(heading: &str) -> bool {
    let heading = heading.split('(').next().unwrap_or_default();
    let words: Vec<String> =
        words(heading).filter(|word| !matches!(word.as_str(), "for" | "the" | "to" | "a")).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    matches!(words[..], [.., "bath"] | ["boil" | "boiling" | "poach" | "poaching"])
        || matches!(words[..], ["boiling" | "poaching" | "cooking", "water" | "liquid" | "bagels" | "pretzels"])
}

/// Whether a fruit whose edible share leaves its skin on is peeled after it was weighed.
fn is_peeled_later(food: &Food, item: &Item) -> bool {
    let cored_only = food.name.split(' ').any(|word| matches!(word, "apple" | "pear"));
    cored_only && words(&item.preparation).any(|word| word == "peeled")
}

/// Whether a heading is that of a pot: "For the pot", "In the kettle". What stands under it tells whether it is poured off.
pub fn is_pot(heading: &str) -> bool {
    let all: Vec<String> = words(heading).collect();
    matches!(all.last().map(String::as_str), Some("pot" | "kettle" | "saucepan")) && all.len() <= 4
}

/// The words of a text in small letters.
fn words(text: &str) -> impl Iterator<Item = String> {
    let parts = text.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty());
    parts.map(str::to_lowercase)
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

/// Whether a whole citrus fruit goes in with its peel: "2 whole lemons, sliced thin", "1 whole orange, boiled and pureed".
pub fn is_with_peel(text: &str, item: &Item, food: &Food) -> bool {
    let is_citrus = food.name.split(' ').any(|word| CITRUS.contains(&word));
    is_citrus && {
        let all: Vec<String> = words(text).collect();
        let any = |wanted: &[&str]| all.iter().any(|word| wanted.contains(&word.as_str()));
        let whole = any(&["whole", "unpeeled"]) && any(WITH_PEEL);
        (whole || text.to_lowercase().contains("with peel"))
            && !any(&["juice", "juiced", "zest", "zested", "peeled", "segments", "segmented", "supremed", "cloves"])
            && !item.preparation.to_lowercase().contains("to serve")
    }
}

const CITRUS: &[&str] =
    &["lemon", "lime", "orange", "clementine", "mandarin", "tangerine", "satsuma", "kumquat", "grapefruit", "bergamot"];
/// What is done with a fruit whose peel is eaten.
const WITH_PEEL: &[&str] = &[
    "sliced",
    "boiled",
    "simmered",
    "pureed",
    "puree",
    "blended",
    "blitzed",
    "chopped",
    "minced",
    "ground",
    "candied",
    "cooked",
    "quartered",
];
/// Vegetables whose skin may be eaten: where the line leaves it on, all of it is.
const SKIN_EATEN: &[&str] = &[
    "potato", "potatoes", "carrot", "parsnip", "beet", "beetroot", "turnip", "squash", "pumpkin", "cucumber",
    "eggplant", "ginger", "radish", "celeriac",
];
const SKIN_ON: &[&str] =
    &["skin on", "skins on", "skin-on", "skins-on", "with skin", "with their skin", "unpeeled", "not peeled"];

/// Whether a weight in the line is of what was peeled, pitted or trimmed already: "3 ripe bananas (about 300 g peeled)".
fn weighed_ready(text: &str) -> bool {
    let all: Vec<String> =
        text.split(|c: char| !c.is_alphanumeric()).map(str::to_lowercase).filter(|word| !word.is_empty()).collect();
    let is_weight = |word: &str| {
        let unit = word.trim_start_matches(|c: char| c.is_ascii_digit());
        matches!(unit, "g" | "gram" | "grams" | "kg" | "oz" | "ounces" | "lb" | "lbs" | "pounds")
    };
    let said = |at: usize| all.get(at).is_some_and(|word| TAKEN_OFF.contains(&word.as_str()));
    (0..all.len()).any(|at| {
        let joined = all.get(at + 1).is_some_and(|word| matches!(word.as_str(), "when" | "once" | "after"));
        is_weight(&all[at]) && (said(at + 1) || joined && said(at + 2))
    })
}

/// Whether the author weighed what was left after trimming: "200 g peeled weight", "300 g mango flesh", "250 g frozen
/// cherries", "500 g apples (weighed after peeling)".
fn trimmed_before(text: &str, item: &Item) -> bool {
    // "mashed banana" may be the food's own name, so the name is read too; "banana, mashed" was weighed whole.
    let worked = ["chopped", "cubed", "diced", "sliced", "mashed", "puree", "pureed", "grated", "shredded", "minced"];
    let name = item.name.to_lowercase();
    let taken_off = |word: String| TAKEN_OFF.contains(&word.as_str());
    // "pitted dates" were weighed without their stones, "dates, pitted" with them.
    let before = text.get(..item.place.start).unwrap_or_default();
    // "mango flesh", "pineapple chunks": what is eaten is named, behind the fruit and before any comma.
    let rest = text.get(item.place.start..).unwrap_or_default();
    let called = &rest[..rest.find([',', ';', '(']).unwrap_or(rest.len())];
    words(before).chain(words(&item.name)).any(taken_off)
        || words(before).chain(words(called)).any(|word| PREPARED.contains(&word.as_str()))
        || weighed_ready(text)
        || WEIGHED_AFTER.iter().any(|said| text.to_lowercase().contains(said))
        || item.ways.iter().any(|way| worked.contains(&way.as_str()) || way == "fine")
        || worked.iter().any(|word| name.split(' ').any(|part| part == *word))
}

/// Said before the food, these were done before it was weighed.
const TAKEN_OFF: &[&str] = &[
    "pitted", "stoned", "destoned", "peeled", "hulled", "shelled", "cored", "deseeded", "seeded", "trimmed",
    "boneless", "skinless", "rindless", "depitted",
];
/// Only what is eaten is called so, or was bought, frozen or cooked without the rest.
const PREPARED: &[&str] = &[
    "flesh", "pulp", "chunk", "chunks", "segments", "frozen", "roasted", "roast", "cooked", "baked", "steamed",
    "boiled", "poached", "stewed", "puree", "purée",
];
/// What a line says that was weighed without its waste.
const WEIGHED_AFTER: &[&str] = &[
    "peeled weight",
    "prepared weight",
    "trimmed weight",
    "shelled weight",
    "drained weight",
    "net weight",
    "pitted weight",
    "stoned weight",
    "flesh weight",
    "prepped weight",
    "hulled weight",
    "cored weight",
    "weighed after",
    "weight after",
    "after peeling",
    "after coring",
    "after pitting",
    "after stoning",
    "after trimming",
    "once peeled",
    "once pitted",
    "once stoned",
    "weighed without",
    "weighed peeled",
    "weighed pitted",
];

#[cfg(test)]
mod tests {
    use evencrumb_pantry::weigh::Kitchen;

    use super::*;

    fn eaten(text: &str) -> f64 {
        let pantry = Pantry::ours();
        let line = crate::line::weigh(text, pantry, Kitchen::default());
        share(&line, &line.foods[0].item, pantry).map_or(1.0, |(share, _)| share.best())
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

    /// Found by a practitioner: waste was taken off what has none any more.
    #[test]
    fn ok_nothing_comes_off_what_was_prepared_before_it_was_weighed() {
        for line in [
            "100 g passionfruit pulp",
            "170 g stoned dates",
            "6oz stoned dates",
            "200 g dates, pitted weight",
            "500 g apples (weighed after peeling and coring)",
            "300 g mango flesh",
            "100 g avocado flesh",
            "500 g pumpkin flesh",
            "300 g pineapple chunks",
            "200 g frozen mango",
            "250 g frozen cherries",
            "500 g roasted butternut squash",
            "200 g roast pumpkin",
            "200 g frozen raspberries",
        ] {
            assert_eq!(eaten(line).to_bits(), 1.0f64.to_bits(), "{line}");
        }
        assert!(eaten("300 g mango") < 0.9 && eaten("500 g pears, roasted") < 1.0);
    }

    #[test]
    fn ok_skin_that_is_left_on_and_weights_of_what_was_peeled() {
        for line in [
            "400 g potatoes, scrubbed, skin on",
            "3 ripe bananas (about 300 g peeled)",
            "4 peaches (500 g once stoned)",
            "500 g whole oranges, boiled and pureed",
        ] {
            assert_eq!(eaten(line).to_bits(), 1.0f64.to_bits(), "{line}");
        }
        assert!(eaten("400 g potatoes, peeled") < 1.0 && eaten("3 ripe bananas (about 300 g)") < 1.0);
        assert!(eaten("400 g bananas, skin on") < 1.0);
    }

    /// SR28 rows 09150 and 09200: a medium lemon without peel weighs 58 g, 53 % of it; an orange 131 g, 73 %.
    #[test]
    fn ok_whole_fruit_is_weighed_with_its_peel() {
        let grams = |text: &str| {
            let line = crate::line::weigh(text, Pantry::ours(), Kitchen::default());
            crate::total::eaten_grams(&line, Pantry::ours()).map_or(0.0, |grams| grams.best())
        };
        assert!((grams("2 whole lemons, sliced thin") - 2.0 * 58.0 / 0.53).abs() < 0.5);
        assert!((grams("1 whole orange, boiled and pureed") - 131.0 / 0.73).abs() < 0.5);
        assert!((grams("1 orange, peeled and sliced") - 131.0).abs() < 0.5);
        assert!((grams("2 lemons, sliced") - 116.0).abs() < 0.5);
    }

    /// SR28: 10 % of an apple is core and stem (09003), 23 % core, stem and skin (09004).
    #[test]
    fn ok_apples_that_are_peeled_lose_more_than_their_core() {
        assert!((eaten("1 kg apples, peeled, cored and sliced") - 0.77).abs() < 1e-9);
        assert!((eaten("1 kg apples, cored") - 0.90).abs() < 1e-9);
        assert!((eaten("1 kg unpeeled apples") - 0.90).abs() < 1e-9);
        assert_eq!(eaten("1 kg peeled apples").to_bits(), 1.0f64.to_bits());
    }

    #[test]
    fn ok_a_bath_is_poured_off() {
        for heading in
            ["Bath", "Poaching bath", "For the soda bath (next day)", "To boil", "For boiling", "Boiling water"]
        {
            assert!(is_bath(heading), "{heading}");
        }
        assert!(!is_bath("Bath buns") && !is_bath("Dough") && !is_bath("Boiled icing"));
        let text = "Knots\n\nDough\n500 g flour\n300 g milk\n\nBath\n2 litres water\n60 g baking soda\n\nMethod\n1. Knead the flour and milk.\n2. Boil for 30 seconds in the bath, then bake 15 min at 220C.\n";
        let sheet =
            crate::sheet(text, &evencrumb_manuscript::read(text, Pantry::ours()), Pantry::ours(), Kitchen::default());
        let range = sheet.total.grams.range();
        assert!((range.best() - 800.0).abs() < 1e-6 && range.high() < 850.0, "{range:?}");
        assert!((sheet.fit.batter.as_ref().expect("a batter").grams.best() - 800.0).abs() < 1e-6);
    }

    /// Found by a practitioner: an egg white for brushing cut the three eggs of the dough as well.
    #[test]
    fn ok_a_purpose_behind_the_last_food_is_that_ones_alone() {
        let eaten = |text: &str| -> Vec<bool> {
            let pantry = Pantry::ours();
            let line = crate::line::weigh(text, pantry, Kitchen::default());
            line.foods.iter().map(|one| share(&line, &one.item, pantry).is_none()).collect()
        };
        for line in [
            "3 eggs + 1 egg white for brushing",
            "2 eggs plus 1 egg yolk, for brushing",
            "2 eggs and 1 yolk for brushing",
            "500 g flour + 1 egg for brushing",
        ] {
            assert_eq!(eaten(line), [true, false], "{line}");
        }
        for line in ["1 egg and 1 tbsp milk, for brushing", "1 egg + 1 tbsp milk for brushing"] {
            assert_eq!(eaten(line), [false, false], "{line}");
        }
    }

    #[test]
    fn ok_grease_and_poaching_water_are_not_all_eaten() {
        assert!(eaten("butter for greasing") < 1.0);
        assert!(eaten("2 cups water for boiling") < 0.2);
    }
}
