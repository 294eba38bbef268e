use evencrumb_manuscript::line;

use super::*;

fn weighed(text: &str) -> String {
    let pantry = Pantry::ours();
    let line = line::read(text, pantry);
    let shown: Vec<String> = line
        .foods
        .iter()
        .map(|item| {
            let name = item.food.map_or("?", |food| pantry.food(food).name.as_str());
            let grams = weigh(item, line.purpose.as_deref(), pantry, Kitchen::default()).grams;
            let grams = grams.map_or("? g".to_owned(), |grams| format!("{:.0} g", grams.range().best()));
            format!("{name} {grams}")
        })
        .collect();
    shown.join(", ")
}

#[test]
fn ok_weights_measures_and_counts() {
    assert_eq!(weighed("85 g honey"), "honey 85 g");
    assert_eq!(weighed("1 cup all-purpose flour"), "all-purpose flour 125 g");
    assert_eq!(weighed("2 large eggs"), "egg 100 g");
    assert_eq!(weighed("1 stick (113 g) butter"), "unsalted butter 113 g");
    assert_eq!(weighed("2 (14 oz) cans coconut milk"), "coconut milk 794 g");
    assert_eq!(weighed("juice of 1 lemon"), "lemon juice 48 g");
}

#[test]
fn ok_a_contradicting_weight_is_asked_about() {
    let pantry = Pantry::ours();
    let line = line::read("1 cup (200 g) all-purpose flour", pantry);
    let weighed = weigh(&line.foods[0], None, pantry, Kitchen::default());
    assert_eq!(weighed.queries[0].kind.name, "amounts-disagree");
    assert_eq!(weighed.grams.map(|grams| grams.best()), Some(200.0));
}

#[test]
fn ok_the_same_food_in_other_states_weighs_otherwise() {
    assert_ne!(weighed("1 cup chopped walnuts"), weighed("1 cup walnuts, chopped"));
}
