//! Which foods of the table are packed: things one bakes with, and neither brands nor dishes.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use super::text::Food;

/// What becomes of a food.
pub(crate) enum Fate {
    Kept,
    LeftOut(&'static str),
}

const GROUPS: [(&str, &str); 6] = [
    ("0300", "baby foods"),
    ("2100", "fast foods"),
    ("2200", "meals, entrees and side dishes"),
    ("2500", "snacks"),
    ("3500", "foods of American Indians and Alaska natives"),
    ("3600", "restaurant foods"),
];

/// Capitals that are not a brand: the department and its programmes, "not further specified", and kitchen short forms.
const NOT_A_BRAND: [&str; 7] = ["USDA", "NFSMI", "NFS", "BBQ", "VPP", "UPC", "ENR"];

/// Beginnings of descriptions of what comes ready to eat from a packet or a can.
const READY_MADE: [&str; 9] = [
    "Soup,",
    "Infant formula",
    "Luncheon meat",
    "Energy drink",
    "Beverages, Energy drink",
    "School Lunch",
    "Formulated bar",
    "Candies, ",
    "Gravy,",
];

/// Among the ready-made, what one also cooks with.
const COOKED_WITH: [&str; 18] = [
    "broth",
    "stock",
    "bouillon",
    "chocolate",
    "caramels",
    "marshmallows",
    "carob",
    "confectioner",
    "baking",
    "fondant",
    "gumdrop",
    "jellybean",
    "toffee",
    "peanut brittle",
    "fudge",
    "marzipan",
    "butterscotch",
    "nougat",
];

/// Whether a food is packed, and if not, why.
pub(crate) fn fate(food: &Food) -> Fate {
    if let Some((_, why)) = GROUPS.iter().find(|(group, _)| *group == food.group) {
        return Fate::LeftOut(why);
    }
    if !food.manufacturer.is_empty() || brand_words(&food.description).next().is_some() {
        return Fate::LeftOut("brands");
    }
    let lower = food.description.to_lowercase();
    let ready = READY_MADE.iter().any(|start| food.description.starts_with(start));
    if ready && !COOKED_WITH.iter().any(|word| lower.contains(word)) {
        return Fate::LeftOut("ready-made");
    }
    Fate::Kept
}

/// A description without the words that name a brand, for the few such rows a food leans on.
pub(crate) fn without_brand(description: &str) -> String {
    let brands: Vec<&str> = brand_words(description).collect();
    let words: Vec<&str> = description.split(' ').filter(|word| !brands.contains(&bare(word))).collect();
    let parts: Vec<String> =
        words.join(" ").split(',').map(|part| part.trim().to_owned()).filter(|part| !part.is_empty()).collect();
    parts.join(", ")
}

/// Words of three capitals or more that are not among those known to be none.
fn brand_words(description: &str) -> impl Iterator<Item = &str> {
    description.split([' ', ',', '/', '(', ')']).map(bare).filter(|word| {
        let letters = word.chars().filter(|letter| letter.is_alphabetic()).count();
        letters >= 3 && !word.chars().any(char::is_lowercase) && !NOT_A_BRAND.contains(word)
    })
}

fn bare(word: &str) -> &str {
    word.trim_matches(|letter: char| !letter.is_alphanumeric())
}

/// The numbers of the rows that the food rows lean on, as `table = N` or `from = "sr28:N"`.
pub(crate) fn cited(folder: &Path) -> anyhow::Result<BTreeSet<u32>> {
    let mut cited = BTreeSet::new();
    let Ok(entries) = fs::read_dir(folder) else { return Ok(cited) };
    for entry in entries {
        let path = entry?.path();
        if path.extension().is_some_and(|ending| ending == "toml") {
            let text = fs::read_to_string(&path)?;
            // Faults of the rows are for `cargo xtask pantry` to tell; what can be read counts here.
            let (table, _) = toml::de::DeTable::parse_recoverable(&text);
            for (key, value) in table.get_ref() {
                gather(key.get_ref(), value.get_ref(), &mut cited);
            }
        }
    }
    Ok(cited)
}

fn gather(key: &str, value: &toml::de::DeValue<'_>, cited: &mut BTreeSet<u32>) {
    use toml::de::DeValue;
    match value {
        DeValue::Integer(number) if key == "table" => cited.extend(number.as_str().parse::<u32>()),
        DeValue::String(text) if key.ends_with("from") => {
            cited.extend(text.strip_prefix("sr28:").and_then(|number| number.parse::<u32>().ok()));
        }
        DeValue::Array(values) => values.iter().for_each(|value| gather(key, value.get_ref(), cited)),
        DeValue::Table(table) => table.iter().for_each(|(key, value)| gather(key.get_ref(), value.get_ref(), cited)),
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_brands_are_words_in_capitals() {
        let brands = |text: &'static str| brand_words(text).collect::<Vec<_>>();
        assert_eq!(brands("Wheat, KAMUT khorasan, uncooked"), ["KAMUT"]);
        assert!(brands("USDA Commodity, cheese, cheddar, reduced fat").is_empty());
        assert!(brands("Oil, soybean, salad or cooking, (partially hydrogenated), 18:3").is_empty());
        assert_eq!(without_brand("Wheat, KAMUT khorasan, uncooked"), "Wheat, khorasan, uncooked");
        assert_eq!(without_brand("Kefir, lowfat, plain, LIFEWAY"), "Kefir, lowfat, plain");
    }
}
