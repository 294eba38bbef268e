//! What is allowed but seldom right: it is shown to a person, who knows.

use evencrumb_measure::Unit;

use crate::fold::fold;
use crate::nutrient::Nutrient;
use crate::row::{Allergen, Fault, Food, Gluten, Role, SugarKind};
use crate::table::Table;

/// Grams of a stick of butter: a quarter of a US pound.
const STICK: f64 = 453.592_37 / 4.0;

/// Looks at one food.
pub(super) fn food(food: &Food, table: &Table, looks: &mut Vec<Fault>) {
    let mut look = |what: String, mend: &str| {
        let (place, name) = (food.place.clone(), food.name.clone());
        looks.push(Fault { place, food: Some(name), what, mend: mend.to_owned() });
    };
    if let Some(what) = energy(food) {
        look(what, "is a number mistyped, or are there sugar alcohols or acids?");
    }
    if let Some(what) = teaspoon(food) {
        look(what, "spoons are heaped or cups are loose, but not by so much");
    }
    for piece in &food.piece {
        let best = piece.grams.range.best();
        if piece.unit == Unit::Stick && food.roles.contains(&Role::Fat) && (best - STICK).abs() > 1.0 {
            look(format!("a stick of {best} g"), "a US stick is a quarter of a pound, 113.4 g");
        }
    }
    let row = food.table.and_then(|number| table.row(number));
    if let Some(row) = row {
        if food.stand_in.is_none() && !shares_a_word(food, row.description()) {
            look(
                format!("row {} is \"{}\"", row.number(), row.description()),
                "is it the right row? if a relative, say so in stand_in",
            );
        }
        let sugars = row.value(Nutrient::Sugars).unwrap_or(0.0);
        if food.sugar == Some(SugarKind::None) && sugars > 1.0 {
            look(format!("sugar is `none`, but row {} has {sugars} g of sugars", row.number()), "say where they count");
        }
    }
    let grains = [Allergen::Wheat, Allergen::Rye, Allergen::Barley];
    if food.gluten == Some(Gluten::Contains) && !food.allergens.iter().any(|it| grains.contains(it)) {
        look("it contains gluten, but of no grain".to_owned(), "name wheat, rye or barley among the allergens");
    }
    if (food.gluten == Some(Gluten::Oats)) && !food.allergens.contains(&Allergen::Oats) {
        look("gluten is `oats`, but oats are not among the allergens".to_owned(), "name oats among the allergens");
    }
    if food.cup.is_empty() && food.piece.is_empty() && food.teaspoon.is_none() {
        look("it has neither cup, spoon nor piece".to_owned(), "only weights can be read for it");
    }
}

/// Energy against 4 for protein, 9 for fat, 4 for carbohydrate without fibre, 2 for fibre, 7 for alcohol.
fn energy(food: &Food) -> Option<String> {
    let composition = food.composition.as_ref()?;
    let stated = composition.value(Nutrient::Energy)?;
    let [protein, fat, carbohydrate] =
        [Nutrient::Protein, Nutrient::Fat, Nutrient::Carbohydrate].map(|nutrient| composition.value(nutrient));
    let fibre = composition.value(Nutrient::Fibre).unwrap_or(0.0);
    let alcohol = composition.value(Nutrient::Alcohol).unwrap_or(0.0);
    let (protein, fat) = (protein.unwrap_or(0.0), fat.unwrap_or(0.0));
    let counted = 4.0 * protein + 9.0 * fat + 4.0 * (carbohydrate? - fibre).max(0.0) + 2.0 * fibre + 7.0 * alcohol;
    let off = (stated - counted).abs();
    (off > 10.0 && off > 0.15 * stated).then(|| format!("energy is {stated} kcal, but its parts give {counted:.0}"))
}

fn teaspoon(food: &Food) -> Option<String> {
    let spoon = food.teaspoon.as_ref()?.range.best();
    let cup = food.cup.first()?.grams.range.best();
    let off = (spoon - cup / 48.0).abs() > 0.25 * cup / 48.0;
    off.then(|| format!("a teaspoon of {spoon} g, but a cup of {cup} g is {:.2} a teaspoon", cup / 48.0))
}

/// Whether the table's description has a word of one of the names in it; a mistyped number hardly ever does.
fn shares_a_word(food: &Food, description: &str) -> bool {
    let described = fold(description);
    let described: Vec<&str> = described.split(' ').collect();
    food.names().any(|name| fold(name).split(' ').any(|word| described.contains(&word)))
}
