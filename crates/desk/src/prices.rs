//! What packs cost: read from `prices.toml` of the kitchen folder.

use std::path::Path;
use std::str::FromStr;

use evencrumb_manuscript::FoodId;
use evencrumb_measure::{Currency, Money, Number};
use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::Kitchen;
use evencrumb_sheet::cost::{Price, Whose, grams_as_bought};

use crate::rows::{self, Cell, Fault, Form, Found, Row};

const FORM: Form = Form { file: "prices.toml", row: "price", keys: &["food", "pack", "price", "bought"] };

/// How a pack is written.
const PACK_MEND: &str =
    "Write the pack as it says on it, as pack = \"2 lb\", \"12 large\", \"4 fl oz\" or \"6 x 330 ml\".";

/// The prices of the folder `start` or of one just above it, one a food; none where there is no such file.
pub fn beside(start: &Path, pantry: &Pantry, kitchen: Kitchen, currency: Currency) -> Found<Price> {
    let found = rows::beside(start, FORM, |row, faults| price(row, pantry, kitchen, currency, faults));
    Found { rows: one_a_food(found.rows, pantry), file: found.file, faults: found.faults }
}

/// A price with the line it stands in.
type Written = (usize, Price);

fn price(
    row: &Row<'_>,
    pantry: &Pantry,
    kitchen: Kitchen,
    currency: Currency,
    faults: &mut Vec<Fault>,
) -> Result<Written, Fault> {
    let (name, food) = food(row, pantry)?;
    let pack = row.need("pack", PACK_MEND)?;
    let grams = grams_as_bought(&pack.text, &name, food, Whose::Pack, pantry, kitchen);
    let Some(grams) = grams.filter(|grams| grams.range().low() > 0.0) else {
        let words = format!(
            "the pack “{}” of {name} was not understood, so nobody knows how many grams it holds; its price was not used. {PACK_MEND}",
            pack.text
        );
        return Err((pack.at, words));
    };
    let paid = row.need("price", "Write what you pay for the pack, as price = 4.20.")?;
    let money = money(&paid, &name, currency)?;
    let bought = row.cell("bought").and_then(|cell| match date(&cell.text) {
        Some(date) => Some(date),
        None => {
            let words = format!(
                "“{}” is not a day; the price of {name} was taken without one. Write it as bought = \"2026-10-03\": year, month, day.",
                cell.text
            );
            faults.push((cell.at, words));
            None
        }
    });
    Ok((row.line(), Price { food, pack: pack.text, grams, price: money, bought, note: None }))
}

/// The food a row is about, with the author's name of it.
pub(crate) fn food(row: &Row<'_>, pantry: &Pantry) -> Result<(String, FoodId), Fault> {
    let name = row.need("food", "Write food = \"pear\", with the food's name.")?;
    pantry.named(&name.text).map(|id| (name.text.clone(), id)).ok_or_else(|| {
        let nearest = pantry.nearest(&name.text, 1).into_iter().next();
        let nearest = nearest.map_or(String::new(), |guess| {
            format!("The nearest known is “{}”; it was not taken for it. ", guess.food.name)
        });
        let words = format!(
            "“{}” is not a food known here; the row was left out. {nearest}Write the name as your recipe does.",
            name.text
        );
        (name.at, words)
    })
}

fn money(paid: &Cell, name: &str, currency: Currency) -> Result<Money, Fault> {
    let fault = |what: &str| {
        let example = if currency.places() == 0 { "price = 420" } else { "price = 4.20" };
        let words = format!("the price of {name} is {}, {what}; it was not used. Write {example}.", paid.text);
        Err((paid.at, words))
    };
    // A price is also taken in quotation marks, with its sign in front.
    let digits = paid.text.trim_start_matches(currency.sign().trim()).trim();
    if let Some(below) = digits.strip_prefix(['-', '−'])
        && Number::decimal(below).is_some()
    {
        return fault("which is below nothing");
    }
    match Number::decimal(digits.trim_start_matches('+')) {
        None => fault("which is no number"),
        Some(units) => match Money::of(units, currency) {
            None => fault("which is finer than the smallest coin"),
            Some(money) if money.coins() == 0 => fault("and nothing is free but water"),
            Some(money) => Ok(money),
        },
    }
}

/// A day as `2026-10-03`; nothing for anything else.
fn date(text: &str) -> Option<String> {
    let day = toml::value::Datetime::from_str(text).ok()?;
    (day.date.is_some() && day.time.is_none() && day.offset.is_none()).then(|| day.to_string())
}

/// Of several prices of a food the latest by its day, else the last in the file.
fn one_a_food(written: Vec<Written>, pantry: &Pantry) -> Vec<Price> {
    let mut chosen: Vec<(usize, usize, Price)> = Vec::new();
    for (line, price) in written {
        match chosen.iter_mut().find(|(_, _, known)| known.food == price.food) {
            None => chosen.push((line, 1, price)),
            Some((best, count, known)) => {
                *count += 1;
                // A price without a day is older than any with one: nobody knows when it was paid.
                if price.bought >= known.bought {
                    (*best, *known) = (line, price);
                }
            }
        }
    }
    let noted = |(line, count, mut price): (usize, usize, Price)| {
        let name = &pantry.food(price.food).name;
        price.note = (count > 1).then(|| match &price.bought {
            Some(day) => {
                format!("{name} has {count} prices; the latest, of {day} in line {line} of prices.toml, was taken")
            }
            None => {
                format!("{name} has {count} prices without a day; the last, in line {line} of prices.toml, was taken")
            }
        });
        price
    };
    chosen.into_iter().map(noted).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> (Vec<Price>, Vec<String>) {
        let (pantry, kitchen) = (Pantry::ours(), Kitchen::default());
        let (rows, faults) = rows::read("prices.toml", text, FORM, |row, faults| {
            price(row, pantry, kitchen, Currency::US_DOLLAR, faults)
        });
        (one_a_food(rows, pantry), faults)
    }

    fn row(food: &str, pack: &str, price: &str) -> String {
        format!("[[price]]\nfood = \"{food}\"\npack = \"{pack}\"\nprice = {price}\n")
    }

    fn fault(food: &str, pack: &str, price: &str) -> String {
        let (prices, faults) = read(&row(food, pack, price));
        assert_eq!((prices, faults.len()), (Vec::new(), 1), "{faults:?}");
        faults.into_iter().next().unwrap_or_default()
    }

    #[test]
    fn ok_prices_to_the_cent_and_packs_in_grams() {
        let (prices, faults) =
            read(&[row("pear", "2 lb", "4.20"), row("egg", "12 large", "4"), row("milk", "1 l", "\"$1.15\"")].concat());
        assert_eq!(faults, Vec::<String>::new());
        let told: Vec<(u64, f64)> =
            prices.iter().map(|price| (price.price.coins(), price.grams.best().round())).collect();
        assert_eq!(told, [(420, 907.0), (400, 600.0), (115, 1031.0)]);
    }

    #[test]
    fn ok_packs_of_eggs_by_the_classes_of_the_kitchen() {
        let pantry = Pantry::ours();
        let eggs = |pack: &str| {
            let kitchen = Kitchen { eggs: evencrumb_pantry::row::Size::EuMedium, ..Kitchen::default() };
            let read =
                |row: &Row<'_>, faults: &mut Vec<Fault>| price(row, pantry, kitchen, Currency::US_DOLLAR, faults);
            let (rows, faults) = rows::read("prices.toml", &row("egg", pack, "4"), FORM, read);
            assert_eq!(faults, Vec::<String>::new());
            rows.first().map(|(_, price)| price.grams.best().round())
        };
        for pack in ["12 medium", "12 eu m", "12", "12 eggs", "12 medium eggs"] {
            assert_eq!(eggs(pack), Some(612.0), "{pack}");
        }
        assert_eq!(eggs("6 eggs"), Some(306.0));
    }

    #[test]
    fn ok_the_latest_price_is_taken_and_said() {
        let day = |day: &str| format!("bought = {day}\n");
        let pear = |price: &str| row("pear", "2 lb", price);
        let (prices, faults) =
            read(&[pear("4.20"), day("2026-10-03"), pear("3.90"), day("\"2026-02-01\""), pear("9.99")].concat());
        assert_eq!(faults, Vec::<String>::new());
        assert_eq!((prices.len(), prices[0].price.coins()), (1, 420));
        assert_eq!(
            prices[0].note.as_deref(),
            Some("pear has 3 prices; the latest, of 2026-10-03 in line 1 of prices.toml, was taken")
        );
        let (prices, _) = read(&[pear("4.20"), pear("3.90")].concat());
        assert_eq!(prices[0].price.coins(), 390);
        assert_eq!(
            prices[0].note.as_deref(),
            Some("pear has 2 prices without a day; the last, in line 5 of prices.toml, was taken")
        );
    }

    #[test]
    fn err_each_fault_says_where_what_and_how_to_mend_it() {
        assert_eq!(
            fault("hazlenut flower", "2 lb", "4.20"),
            "prices.toml, line 2: “hazlenut flower” is not a food known here; the row was left out. The nearest known is “hazelnut flour”; it was not taken for it. Write the name as your recipe does."
        );
        assert_eq!(
            fault("all-purpose flour", "a bag", "4.20"),
            "prices.toml, line 3: the pack “a bag” of all-purpose flour was not understood, so nobody knows how many grams it holds; its price was not used. Write the pack as it says on it, as pack = \"2 lb\", \"12 large\", \"4 fl oz\" or \"6 x 330 ml\"."
        );
        assert_eq!(
            fault("pear", "2 lb", "-4.20"),
            "prices.toml, line 4: the price of pear is -4.20, which is below nothing; it was not used. Write price = 4.20."
        );
        assert!(fault("pear", "2 lb", "0.00").contains("and nothing is free but water"));
        assert!(fault("pear", "2 lb", "nan").contains("which is no number"));
        assert!(fault("pear", "2 lb", "\"about 4\"").contains("which is no number"));
        assert!(fault("pear", "2 lb", "4.205").contains("finer than the smallest coin"));
        assert!(fault("pear", "-2 lb", "4.20").contains("was not understood"));
        assert!(fault("pear", "0 lb", "4.20").contains("was not understood"));
        assert!(fault("pear", "", "4.20").contains("does not say its pack"));
    }

    #[test]
    fn err_a_day_that_is_none() {
        let (prices, faults) = read(&(row("pear", "2 lb", "4.20") + "bought = \"October\"\n"));
        assert_eq!((prices.len(), prices[0].bought.as_deref()), (1, None));
        assert_eq!(
            faults,
            [
                "prices.toml, line 5: “October” is not a day; the price of pear was taken without one. Write it as bought = \"2026-10-03\": year, month, day."
            ]
        );
    }

    #[test]
    fn ok_the_prices_of_the_demo() {
        let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo/recipes");
        let found = beside(&demo, Pantry::ours(), Kitchen::default(), Currency::US_DOLLAR);
        assert_eq!(found.faults, Vec::<String>::new());
        assert_eq!(found.rows.len(), 24);
    }

    #[test]
    fn ok_a_folder_without_prices_knows_none() {
        let home = tempfile::tempdir().expect("a temporary folder");
        let found = beside(home.path(), Pantry::ours(), Kitchen::default(), Currency::US_DOLLAR);
        assert_eq!((found.rows, found.file, found.faults.len()), (Vec::new(), None, 0));
    }
}
