use crate::layout::{SECOND_RECIPE, read};
use crate::method::Share;
use proptest::prelude::*;

const FOODS: &[&str] = &[
    "flour",
    "all purpose flour",
    "egg",
    "butter",
    "sugar",
    "brown sugar",
    "milk",
    "salt",
    "baking powder",
    "vanilla",
    "water",
    "powdered sugar",
];

const PLAIN: &str = "Plain Cake\n\nMakes 24 squares, serves 12\nOven: 350°F\nThe batter weighs 212 g a cup.\n\nFor the sponge\n--------------\n2 cups flour\n3 eggs\n1/2 cup sugar\n\n**Icing**\n1 cup powdered sugar\n2 tbsp water\n\nMethod\n1. Beat the eggs with half of the sugar.\n2. Add the flour and the remaining sugar, bake for 20 to 25 minutes, until golden.\n\nKeeps 2 days.\n";

#[test]
fn ok_a_plain_manuscript() {
    let read = read(PLAIN, FOODS);
    assert_eq!(read.title.as_deref(), Some("Plain Cake"));
    assert_eq!(
        read.components.iter().map(|part| (part.name.as_deref(), part.lines.len())).collect::<Vec<_>>(),
        [(Some("For the sponge"), 3), (Some("Icing"), 2)]
    );
    assert_eq!(read.steps.len(), 2);
    assert_eq!(read.notes.len(), 1);
    assert_eq!(read.oven().map(|heat| heat.celsius.round()), Some(177.0));
    let shares: Vec<(usize, Share)> =
        read.steps.iter().flat_map(|step| &step.uses).map(|found| (found.line, found.share.clone())).collect();
    assert_eq!(shares, [(1, Share::All), (2, Share::Part(0.5)), (0, Share::All), (2, Share::Remaining(None))]);
    assert_eq!(
        read.measured
            .iter()
            .map(|found| (found.what.as_str(), found.grams.0, found.per.as_deref()))
            .collect::<Vec<_>>(),
        [("batter", 212.0, Some("cup"))]
    );
    assert_eq!(&PLAIN[read.steps[1].done[0].clone()], "until golden");
}

#[test]
fn ok_headings_in_many_ways() {
    for heading in [
        "For the sponge",
        "SPONGE",
        "Sponge:",
        "Sponge\n------",
        "Sponge\n======",
        "## Sponge",
        "**Sponge**",
        "--- Sponge ---",
        "~ Sponge ~",
    ] {
        let text = format!("Cake\n\nIngredients\n\n{heading}\n1 cup flour\n2 eggs\n\nMethod\n1. Mix.\n");
        let read = read(&text, FOODS);
        assert_eq!(read.components.len(), 1, "{heading}");
        assert!(
            read.components[0].name.as_deref().is_some_and(|name| name.to_lowercase().contains("sponge")),
            "{heading}"
        );
        assert_eq!(read.components[0].lines.len(), 2, "{heading}");
    }
}

fn lines(text: &str) -> Vec<String> {
    read(text, FOODS).components.into_iter().flat_map(|part| part.lines).map(|line| line.text).collect()
}

fn steps(text: &str) -> Vec<String> {
    read(text, FOODS).steps.into_iter().map(|step| text[step.place].to_owned()).collect()
}

#[test]
fn ok_tables_and_lists_on_one_line() {
    let table = "Cake\n\n| Amount | Ingredient |\n|---|---|\n| 200 g | flour |\n| 3 | eggs |\n| 50 g | sugar |\n\nMethod\n1. Mix the eggs.\n";
    let read = read(table, FOODS);
    assert_eq!(read.components.len(), 1);
    assert_eq!(read.components[0].lines.iter().filter(|line| line.line.foods[0].food.is_some()).count(), 3);
    assert_eq!(
        lines("Cake\n\n2 cups flour, 1 tsp salt and 3 eggs\n\nMix the eggs and the flour.\n"),
        ["2 cups flour", "1 tsp salt", "3 eggs"]
    );
    assert_eq!(
        lines("BISCUITS\n200 g flour, 100 g butter and 1 egg.\nRub together and bake.\n"),
        ["200 g flour", "100 g butter", "1 egg"]
    );
    assert_eq!(lines("Cake\n\nIngredients:\nflour\t200 g\neggs\t3\n"), ["flour 200 g", "eggs 3"]);
}

#[test]
fn ok_numbered_ingredients_and_numbered_steps() {
    let text = "Cake\n\n1. 2 cups flour\n2. 3 eggs\n3. 1/2 cup sugar\n\n1. Whisk the eggs.\n2. Add the flour.\n";
    assert_eq!(lines(text), ["2 cups flour", "3 eggs", "1/2 cup sugar"]);
    assert_eq!(steps(text), ["Whisk the eggs.", "Add the flour."]);
}

#[test]
fn ok_wrapped_lines_and_remarks() {
    let text = "Cake\n\n2 cups flour, spooned and\n  leveled\n3 eggs\n   they must be warm, I mean it\n1/2 cup sugar\n\nMethod\n1. Mix the\n   eggs.\n";
    assert_eq!(lines(text), ["2 cups flour, spooned and leveled", "3 eggs", "1/2 cup sugar"]);
    assert_eq!(read(text, FOODS).notes.len(), 1);
    assert_eq!(steps(text).len(), 1);
}

#[test]
fn ok_a_second_recipe_is_told() {
    let one = "Ingredients\n1 cup flour\n2 eggs\n\nMethod\n1. Mix the eggs.\n\n";
    let text = format!("First Cake\n\n{one}====\n\nSecond Cake\n\nMakes 3\n\n{one}");
    let read = read(&text, FOODS);
    assert_eq!(read.components[0].lines.len(), 2);
    assert!(read.second.is_some_and(|place| text[place].starts_with("Second Cake")));
    assert!(read.queries.iter().any(|query| query.kind == &SECOND_RECIPE));
}

#[test]
fn err_nothing_in_it() {
    let kinds: Vec<&str> = read("", FOODS).queries.iter().map(|query| query.kind.name).collect();
    assert_eq!(kinds, ["no-ingredients-found", "no-method-found", "no-title-found"]);
}

#[test]
fn ok_temperatures_of_the_oven_and_of_the_crumb() {
    let text = "Cake\n\n1 cup flour\n2 eggs\n\nMethod\n1. Bake at 375°F for 35 minutes, to 190°F inside.\n2. Boil until it reaches 220°F.\n";
    let read = read(text, FOODS);
    assert_eq!((read.steps[0].heats.len(), read.steps[0].inside.len(), read.steps[1].inside.len()), (1, 1, 1));
}

#[test]
fn ok_the_dry_ingredients() {
    let text = "Cake\n\n1 cup flour\n1 tsp salt\n2 eggs\n\nMethod\n1. Whisk the dry ingredients.\n2. Beat the eggs.\n";
    let uses: Vec<usize> = read(text, FOODS).steps[0].uses.iter().map(|found| found.line).collect();
    assert_eq!(uses, [0, 1]);
}

#[test]
fn ok_weights_in_the_text() {
    let text = "Cake\n\nThe batter weighs 1,150 g. Each layer is 410 g of batter.\n\n1 cup flour\n2 eggs\n\nMethod\n1. Weigh 610 g into each pan.\n";
    let read = read(text, FOODS);
    let told: Vec<(f64, Option<&str>)> =
        read.measured.iter().map(|found| (found.grams.0, found.per.as_deref())).collect();
    assert_eq!(told, [(1150.0, None), (410.0, Some("layer")), (610.0, Some("pan"))]);
}

fn covers(text: &str) {
    let read = read(text, FOODS);
    let mut at = 0;
    for node in &read.nodes {
        assert_eq!(node.place.start, at);
        assert!(text.get(node.place.clone()).is_some());
        at = node.place.end;
    }
    assert_eq!(at, text.len());
    for line in read.components.iter().flat_map(|part| &part.lines) {
        assert!(text.get(line.place.clone()).is_some());
    }
    for step in &read.steps {
        assert!(text.get(step.place.clone()).is_some());
        for found in &step.uses {
            assert!(text.get(found.place.clone()).is_some());
        }
    }
}

#[test]
fn ok_empty_and_odd_texts() {
    for text in [
        "",
        "\n",
        "\r\n\r\n",
        "---",
        "Ingredients",
        "Method:",
        "Ingredients\n\nMethod\n",
        "=====\n=====\n",
        "> a\n> b\n> c\n> d\n",
        "1.",
        "Step 1",
        "**",
        "a:b",
        "# ",
        "[1:2]",
        "Ingredients: 1 egg, 2 eggs",
        "Whisk the flour until golden.\n\n1 1/2 cups flour\n\n---",
    ] {
        covers(text);
    }
}

#[test]
fn ok_nodes_grow_with_the_text() {
    // As much text again gives as many nodes again, however it is shaped.
    for block in [
        "1 cup flour\n",
        "For the sponge\n1 cup flour\n2 eggs\n\n",
        "Beat the eggs and the flour. \n\n",
        "Ingredients\n1 egg\nMethod\n1. Mix the egg.\n",
    ] {
        let count = |times: usize| read(&format!("Cake\n\n{}", block.repeat(times)), FOODS).nodes.len();
        let (small, large) = (count(20), count(200));
        assert!(large <= small * 11 + 20, "{block:?}: {small} and {large}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn ok_every_byte_has_a_node(text in "\\PC{0,300}") {
        covers(&text);
    }

    #[test]
    fn ok_every_shuffle_has_its_nodes(rows in proptest::collection::vec(prop::sample::select(vec![
        "Cake", "", "", "Ingredients", "Method", "For the icing:", "1 cup flour", "2 eggs, beaten", "  and more", "- 1/2 cup sugar", "1. Mix the eggs.", "Bake at 350°F for 20 minutes.",
        "---", "====", "Makes 12", "> 1 egg", "Notes", "STEP 1", "| 200 g | flour |", "Salt ..... 3 g", "Ingredients: 1 egg, 2 tbsp milk", "1x 2x 3x", "**Icing**", "\t1 cup milk",
    ]), 0..40), crlf in any::<bool>()) {
        covers(&rows.join(if crlf { "\r\n" } else { "\n" }));
    }
}
