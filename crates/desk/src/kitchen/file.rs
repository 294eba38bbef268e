//! Reading `kitchen.toml`: what is wrong in it is a fault with its line, and what stands around it is used.

use evencrumb_measure::Custom;
use evencrumb_pantry::row::Size;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::place::{self, Jurisdiction};
use super::{Found, ovens, pans};
use crate::rows;

/// Heights where people bake, in metres: from the Dead Sea to the highest towns.
const ALTITUDES: std::ops::RangeInclusive<f64> = -450.0..=6000.0;

/// The faults of a file, each with the byte it is about.
pub(super) struct Faults<'f> {
    text: &'f str,
    found: Vec<rows::Fault>,
}

impl Faults<'_> {
    /// Adds a fault; `words` say what was read, what was taken instead and how to mend it.
    pub(super) fn add(&mut self, at: usize, words: &str) {
        self.found.push((at, words.to_owned()));
    }
}

/// A value with its byte.
pub(super) type Value<'v, 't> = &'v Spanned<DeValue<'t>>;

/// The number that a value is, whole or not.
pub(super) fn number(value: Value<'_, '_>) -> Option<f64> {
    let value = value.get_ref();
    let digits = match (value.as_integer(), value.as_float()) {
        (Some(whole), _) if whole.radix() == 10 => whole.as_str(),
        (_, Some(float)) => float.as_str(),
        _ => return None,
    };
    digits.replace('_', "").parse().ok().filter(|number: &f64| number.is_finite())
}

/// What stands in the file at a value, for saying it back.
pub(super) fn said(value: Value<'_, '_>, faults: &Faults<'_>) -> String {
    let written = faults.text.get(value.span()).unwrap_or_default().trim();
    written.chars().take(60).collect()
}

/// Reads a kitchen file.
pub(super) fn read(name: &str, text: &str) -> Found {
    let mut found = Found::default();
    let mut faults = Faults { text, found: Vec::new() };
    let (document, errors) = DeTable::parse_recoverable(text);
    if let Some(error) = errors.first() {
        let at = error.span().map_or(0, |span| span.start);
        let words = format!("{}. The rest of the file was used. Write it as name = \"value\".", error.message());
        faults.add(at, &words);
    }
    for (key, value) in document.get_ref() {
        set(&mut found, key.get_ref(), key.span().start, value, &mut faults);
    }
    found.faults = rows::in_words(name, &rows::Lines::of(text), faults.found);
    found
}

fn set(found: &mut Found, key: &str, key_at: usize, value: Value<'_, '_>, faults: &mut Faults<'_>) {
    let word = value.get_ref().as_str();
    let lower = word.map(str::to_lowercase);
    let home = &mut found.household;
    let wanted = match key {
        "measures" => match lower.as_deref().and_then(custom) {
            Some(custom) => return found.kitchen.custom = custom,
            None => "one of us, metric, uk, australian; US cups and spoons were taken",
        },
        "eggs" => match lower.as_deref().and_then(eggs) {
            Some(size) => return found.kitchen.eggs = size,
            None => {
                "one of small, medium, large, extra large, jumbo, eu s, eu m, eu l, eu xl; large US eggs were taken"
            }
        },
        "name" => match word {
            Some(word) => return home.name = Some(word.to_owned()),
            None => "words in quotation marks; the kitchen was left without a name",
        },
        "altitude_metres" => match number(value).filter(|metres| ALTITUDES.contains(metres)) {
            Some(metres) => return home.altitude_metres = Some(metres),
            None => "a number of metres between -450 and 6000, without quotation marks; sea level was taken",
        },
        "currency" => match word.and_then(place::currency) {
            Some(code) => return home.currency = code,
            None => "a currency's three letters (ISO 4217), as \"USD\"; USD was taken",
        },
        "locale" => match word.and_then(place::locale) {
            Some(locale) => return home.locale = locale,
            None => "a language and country, as \"en-US\"; en-US was taken",
        },
        "jurisdiction" => match lower.as_deref().and_then(Jurisdiction::named) {
            Some(whose) => return home.jurisdiction = whose,
            None => "one of us, eu, uk, canada, australia; US law was taken",
        },
        "pan" => match value.get_ref().as_array() {
            Some(rows) => return home.pans = rows.iter().filter_map(|row| pans::read(row, faults)).collect(),
            None => "a row that begins with [[pan]], in two pairs of brackets; no pan was taken from it",
        },
        "oven" => match value.get_ref().as_array() {
            Some(rows) => return home.ovens = rows.iter().filter_map(|row| ovens::read(row, faults)).collect(),
            None => "a row that begins with [[oven]], in two pairs of brackets; no oven was taken from it",
        },
        _ => {
            let words = format!(
                "“{key}” is nothing that a kitchen file tells, and was left out. It tells name, measures, eggs, altitude_metres, currency, locale, jurisdiction, and rows of [[pan]] and [[oven]]."
            );
            return faults.add(key_at, &words);
        }
    };
    let words = format!("{key} is {}, which is not {wanted}.", said(value, faults));
    faults.add(key_at, &words);
}

/// A class of eggs; those of the UK are those of the EU under its own name.
fn eggs(word: &str) -> Option<Size> {
    match word.strip_prefix("uk ").or_else(|| word.strip_prefix("eu ")) {
        Some("s" | "small") => Some(Size::EuSmall),
        Some("m" | "medium") => Some(Size::EuMedium),
        Some("l" | "large") => Some(Size::EuLarge),
        Some("xl" | "extra large" | "very large") => Some(Size::EuExtraLarge),
        Some(_) => None,
        None => Size::named(word),
    }
}

fn custom(word: &str) -> Option<Custom> {
    match word {
        "us" => Some(Custom::Us),
        "metric" => Some(Custom::Metric),
        "uk" => Some(Custom::Uk),
        "australian" => Some(Custom::Australian),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use evencrumb_pantry::weigh::Kitchen;

    use super::*;

    #[test]
    fn ok_a_kitchen_file_is_read() {
        let found = read(
            "kitchen.toml",
            "name = \"Ours\"\nmeasures = \"UK\"\neggs = \"eu m\"\naltitude_metres = 1_600\ncurrency = \"gbp\"\nlocale = \"en-gb\"\njurisdiction = \"uk\"\n",
        );
        assert_eq!(found.faults, Vec::<String>::new());
        assert_eq!(found.kitchen, Kitchen { custom: Custom::Uk, eggs: Size::EuMedium });
        let home = found.household;
        assert_eq!((home.name.as_deref(), home.altitude_metres), (Some("Ours"), Some(1600.0)));
        assert_eq!(
            (home.currency.as_str(), home.locale.as_str(), home.jurisdiction),
            ("GBP", "en-GB", Jurisdiction::Uk)
        );
    }

    #[test]
    fn ok_the_classes_of_eggs_by_their_letters_and_words() {
        let class = |word: &str| read("kitchen.toml", &format!("eggs = \"{word}\"\n")).kitchen.eggs;
        assert_eq!(["UK medium", "eu m", "medium"].map(class), [Size::EuMedium, Size::EuMedium, Size::Medium]);
    }

    #[test]
    fn err_a_fault_is_named_and_the_rest_works() {
        let found = read("kitchen.toml", "measures = \"uk\"\neggs = \"huge\"\n[[pan]\n");
        assert_eq!(found.kitchen.custom, Custom::Uk);
        // The eggs, the bracket that is missing, and the pan that therefore has no shape.
        assert_eq!(found.faults.len(), 3, "{:?}", found.faults);
        assert!(
            found.faults.iter().any(|fault| fault.contains("line 2") && fault.contains("large US eggs were taken"))
        );
    }

    #[test]
    fn err_a_file_of_nothing_but_broken_pans() {
        let found = read("kitchen.toml", &"[[pan]]\n".repeat(100_000));
        assert_eq!(found.household.pans, []);
        assert_eq!(found.faults.len(), rows::MOST_TOLD + 1);
        assert_eq!(
            found.faults.last().map(String::as_str),
            Some("kitchen.toml: 99980 further faults are not told here. Mend these first.")
        );
    }

    #[test]
    fn err_each_wrong_line_says_what_was_taken() {
        let text = "altitude_metres = \"240\"\ncurrency = \"dollars\"\nlocale = \"English\"\njurisdiction = \"mars\"\naltitude_feet = 800\npan = 3\n";
        let found = read("kitchen.toml", text);
        assert_eq!(
            found.faults,
            [
                "kitchen.toml, line 1: altitude_metres is \"240\", which is not a number of metres between -450 and 6000, without quotation marks; sea level was taken.",
                "kitchen.toml, line 2: currency is \"dollars\", which is not a currency's three letters (ISO 4217), as \"USD\"; USD was taken.",
                "kitchen.toml, line 3: locale is \"English\", which is not a language and country, as \"en-US\"; en-US was taken.",
                "kitchen.toml, line 4: jurisdiction is \"mars\", which is not one of us, eu, uk, canada, australia; US law was taken.",
                "kitchen.toml, line 5: “altitude_feet” is nothing that a kitchen file tells, and was left out. It tells name, measures, eggs, altitude_metres, currency, locale, jurisdiction, and rows of [[pan]] and [[oven]].",
                "kitchen.toml, line 6: pan is 3, which is not a row that begins with [[pan]], in two pairs of brackets; no pan was taken from it.",
            ]
        );
        assert_eq!(found.household, super::super::Household::default());
    }
}
