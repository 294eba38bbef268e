//! Words that promise a reader something the food found does not keep: "vegan white chocolate" is read as white chocolate,
//! which holds milk. The weight may be right all the same; the allergens would not be.

use evencrumb_manuscript::line::Item;
use evencrumb_manuscript::{Query, QueryKind, Weight};

use crate::row::{Allergen, Food, Gluten, SugarKind};
use crate::table::{Row, Table};

/// A promise that the food read does not keep.
pub static MAY_NOT_BE_WHAT_IT_SAYS: QueryKind = QueryKind { name: "may-not-be-what-it-says", weight: Weight::Look };

/// Words before or after a name, and whether a food breaks what they promise.
type Promise = (&'static [&'static str], fn(&Food) -> bool);

const PROMISES: &[Promise] = &[
    (&["gluten free", "gf"], |food| food.gluten != Some(Gluten::None)),
    (&["vegan", "plant based"], |food| {
        holds(food, &[Allergen::Milk, Allergen::Egg, Allergen::Fish, Allergen::Crustacean, Allergen::Mollusc])
            || is_of_animals(food)
    }),
    (&["dairy free", "non dairy", "nondairy", "lactose free"], |food| holds(food, &[Allergen::Milk])),
    (&["egg free", "eggless"], |food| holds(food, &[Allergen::Egg])),
    (&["soy free"], |food| holds(food, &[Allergen::Soy])),
    (&["nut free"], |food| {
        food.allergens.iter().any(|allergen| allergen.name().starts_with("tree nut"))
            || holds(food, &[Allergen::Peanut])
    }),
    (&["sugar free", "unsweetened", "no sugar added", "keto", "low sugar"], |food| {
        food.sugar == Some(SugarKind::Added)
    }),
];

/// Foods of animals that no allergen gives away, and for which the table's group does not speak.
const OF_ANIMALS: &[&str] = &[
    "honey",
    "gelatin-powder",
    "leaf-gelatin",
    "flavored-gelatin-mix",
    "marshmallow",
    "mini-marshmallow",
    "gummy-bear",
    "gummy-worm",
    "collagen-peptide",
    "lard",
    "tallow",
    "beef-suet",
    "chicken-broth",
    "beef-broth",
    "beef-stock-cube",
];

fn is_of_animals(food: &Food) -> bool {
    let group = food.table.and_then(|number| Table::embedded().row(number)).map(Row::group);
    let flesh = ["Beef", "Pork", "Lamb", "Poultry", "Sausages"];
    OF_ANIMALS.contains(&food.id.as_str()) || group.is_some_and(|group| flesh.iter().any(|it| group.starts_with(it)))
}

fn holds(food: &Food, allergens: &[Allergen]) -> bool {
    food.allergens.iter().any(|allergen| allergens.contains(allergen))
}

/// "300 g cooked barley": the grain known is the dry one, of which a third of the weight would be in the bowl.
fn dry(item: &Item, food: &Food) -> Option<Query> {
    let group = Table::embedded().row(food.table?)?.group();
    let grain = ["Cereal Grains", "Breakfast Cereals", "Legumes"].iter().any(|it| group.starts_with(it));
    let cooked = item.ways.iter().any(|way| way == "cooked") && !food.names().any(|name| name.contains("cooked"));
    (grain && cooked).then(|| {
        Query::new(
            &MAY_NOT_BE_WHAT_IT_SAYS,
            item.place.clone(),
            format!(
                "The line says “cooked”, but only dry {} is known here; what is in it (energy, starch, fibre) is that of the dry one, and too much.",
                food.name
            ),
            format!("Write the dry weight, or add your own cooked {} to your foods.", food.name),
        )
    })
}

/// Asks about each promise in the line's words that the food does not keep.
pub(super) fn broken(item: &Item, food: &Food) -> Vec<Query> {
    let words = format!(" {} ", item.preparation.to_lowercase().replace(['-', ','], " "));
    let name = format!(" {} ", item.name.to_lowercase().replace('-', " "));
    // Nearly no line promises anything, so that the plain search comes first.
    let says = |text: &str, said: &str| text.contains(said) && text.contains(&format!(" {said} "));
    let mut queries: Vec<Query> = dry(item, food).into_iter().collect();
    for (said, breaks) in PROMISES {
        let promise = said.iter().find(|said| says(&words, said) || says(&name, said));
        let known_so = promise.is_some_and(|said| food.names().any(|known| known.replace('-', " ").contains(said)));
        if let Some(said) = promise.filter(|_| !known_so && breaks(food)) {
            queries.push(Query::new(
                &MAY_NOT_BE_WHAT_IT_SAYS,
                item.place.clone(),
                format!("The line says “{said}”, but it was read as ordinary {}, which may not be; its allergens and sugars are those of the ordinary one.", food.name),
                format!("Read the packet, and add your own {said} {} to your foods.", food.name),
            ));
        }
    }
    queries
}
