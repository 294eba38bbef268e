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

fn queries(text: &str) -> String {
    let pantry = Pantry::ours();
    let line = line::read(text, pantry);
    let of_weight = line.foods.iter().flat_map(|item| weigh(item, None, pantry, Kitchen::default()).queries);
    line.queries.iter().cloned().chain(of_weight).map(|query| query.kind.name).collect::<Vec<_>>().join(" ")
}

#[test]
fn ok_a_cup_less_a_spoon() {
    assert_eq!(weighed("1 cup minus 1 tablespoon all-purpose flour"), "all-purpose flour 117 g");
}

#[test]
fn ok_a_drained_tin() {
    assert_eq!(weighed("1 x 400g tin of black beans, drained"), "black bean 240 g");
    assert_eq!(weighed("400g tin chickpeas (240g drained)"), weighed("240 g chickpeas"));
}

#[test]
fn ok_foods_that_stand_alone_before_or() {
    assert_eq!(weighed("100 g butter or olive oil"), "unsalted butter 100 g");
    assert_eq!(weighed("1 cup sugar or maple syrup"), "granulated sugar 200 g");
    assert_eq!(weighed("1 cup almonds or coconut flour"), weighed("1 cup almonds"));
    assert_eq!(weighed("1 cup almond or oat milk"), "almond milk 240 g");
}

#[test]
fn err_what_would_mislead_is_asked_about() {
    assert_eq!(queries("21/2 cups all-purpose flour"), "number-run-together");
    assert_eq!(queries("100 g vegan white chocolate"), "promise-not-kept");
    assert_eq!(queries("100 g gluten-free spelt flour"), "promise-not-kept");
    assert_eq!(queries("1 cup sugar free chocolate chips"), "promise-not-kept");
    assert_eq!(queries("100 g sugar, 50 g of it for the cake"), "amount-left-over");
    assert_eq!(queries("100 g sugar plus 20 g for sprinkling"), "extra-not-added");
}

#[test]
fn ok_several_foods_in_one_line() {
    assert_eq!(weighed("flour 2 c, sugar 1 c"), "all-purpose flour 250 g, granulated sugar 200 g");
    assert_eq!(weighed("300g flour 100g sugar 3 eggs"), "all-purpose flour 300 g, granulated sugar 100 g, egg 150 g");
    assert_eq!(queries("99999999999 kg sugar"), "amount-enormous");
}

#[test]
fn ok_each_of_a_count() {
    assert_eq!(weighed("3 eggs, 55 g each"), "egg 165 g");
    assert_eq!(weighed("two fifty grams flour"), "all-purpose flour 250 g");
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
