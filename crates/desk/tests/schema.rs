//! Answers must be what docs/json/*.schema.json says; `cargo xtask schema` writes those files.

#![allow(clippy::disallowed_methods, reason = "a test reads files")]

use std::path::Path;

use evencrumb_desk::kitchen::Found;
use evencrumb_desk::wire::{FoodAnswer, MeasuresAnswer, ScaleAnswer, SheetAnswer, WeighAnswer, WhyAnswer};
use evencrumb_desk::{prices, stock};
use evencrumb_measure::Currency;
use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::Kitchen;
use evencrumb_sheet::{line, scale};
use serde_json::Value;

/// Lines that between them fill every field, and lines that leave it empty.
const LINES: &[&str] = &[
    "3/4 cup ground hazelnuts",
    "2 large eggs, beaten",
    "2 (14 oz) cans coconut milk",
    "about 1 cup plus 2 tablespoons flour, divided, plus more for dusting",
    "1 cup minus 1 tablespoon sugar",
    "juice and zest of 1 lemon",
    "1 cup pecans or walnuts, chopped (optional)",
    "butter, for greasing",
    "remaining icing sugar",
    "half a batch of the sponge",
    "a heaped tablespoon of cocoa",
    "1 cup (200 g) all-purpose flour",
    "1 cup moon dust",
    "99999999999999999999 cups flour",
    "For the sponge:",
    "Preheat the oven to 350 F.",
    "",
    ", ; %",
    "\u{1b}[2J \u{0} ½ \u{202e}cup",
];

const FOODS: &[&str] =
    &["hazelnut flour", "egg", "lemon", "lemon zest", "praline paste", "table salt", "moon dust", "", "milk"];

fn schema(name: &str) -> jsonschema::Validator {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/json").join(name);
    let text = std::fs::read_to_string(&file).expect("the schema is committed");
    jsonschema::validator_for(&serde_json::from_str(&text).expect("the schema is JSON")).expect("a sound schema")
}

fn weighed(text: &str) -> Value {
    let (pantry, kitchen) = (Pantry::ours(), Kitchen::default());
    serde_json::to_value(WeighAnswer::of(&line::weigh(text, pantry, kitchen), pantry, &Found::default()))
        .expect("an answer")
}

fn faults(schema: &jsonschema::Validator, answer: &Value) -> Vec<String> {
    schema.iter_errors(answer).map(|error| error.to_string()).collect()
}

#[test]
fn ok_weighed_lines_are_as_the_schema_says() {
    let schema = schema("weigh.schema.json");
    for text in LINES {
        let answer = weighed(text);
        assert_eq!(faults(&schema, &answer), Vec::<String>::new(), "{text}");
        let silent = answer["foods"] == Value::from(Vec::<Value>::new()) && answer["queries"] == answer["foods"];
        assert!(!silent, "{text}");
    }
}

#[test]
fn ok_measures_are_as_the_schema_says() {
    let schema = schema("measures.schema.json");
    let (pantry, kitchen) = (Pantry::ours(), Kitchen::default());
    for text in LINES.iter().chain(&["85 g honey", "3 g baking powder", "0.1 g salt"]) {
        let answer = MeasuresAnswer::of(&line::weigh(text, pantry, kitchen), pantry, kitchen);
        let answer = serde_json::to_value(answer).expect("an answer");
        assert_eq!(faults(&schema, &answer), Vec::<String>::new(), "{text}");
    }
}

#[test]
fn ok_sheets_are_as_the_schema_says() {
    let schema = schema("sheet.schema.json");
    let (pantry, kitchen) = (Pantry::ours(), Kitchen::default());
    let fixtures = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/manuscripts");
    let mut texts = vec![String::new(), "1/0\n\n\u{202e}".to_owned()];
    for entry in std::fs::read_dir(fixtures).expect("the fixtures are committed") {
        let path = entry.expect("an entry").path();
        if path.extension().is_some_and(|ending| ending == "txt") {
            let bytes = std::fs::read(path).expect("a file");
            texts.push(evencrumb_manuscript::read_text(&bytes).expect("a text").text);
        }
    }
    assert!(texts.len() > 40);
    for text in texts {
        let sheet = evencrumb_sheet::sheet(&text, &evencrumb_manuscript::read(&text, pantry), pantry, kitchen);
        let answer = serde_json::to_value(SheetAnswer::of(&sheet, pantry, &Found::default())).expect("an answer");
        assert_eq!(faults(&schema, &answer), Vec::<String>::new(), "{text}");
    }
}

#[test]
fn ok_reasons_are_as_the_schema_says() {
    let schema = schema("why.schema.json");
    let (pantry, kitchen) = (Pantry::ours(), Kitchen::default());
    let text = "Slab\n\nMakes 12 slabs\n\n200 g flour\n1 cup moon dust\n1 egg\n";
    let sheet = evencrumb_sheet::sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, kitchen);
    for asked in ["protein per slab", "weight", "water per 100 g raw", "egg"] {
        let why = evencrumb_sheet::why::why(&sheet, asked, pantry, None).expect("understood");
        let answer = serde_json::to_value(WhyAnswer::of(&why, asked, sheet.title.as_deref())).expect("an answer");
        assert_eq!(faults(&schema, &answer), Vec::<String>::new(), "{asked}");
    }
}

#[test]
fn ok_sheets_with_cost_are_as_the_schema_says() {
    let schema = schema("sheet.schema.json");
    let (pantry, kitchen) = (Pantry::ours(), Kitchen::default());
    let recipes = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo/recipes");
    let prices = prices::beside(&recipes, pantry, kitchen, Currency::US_DOLLAR).rows;
    let stock = stock::beside(&recipes, pantry, kitchen).rows;
    let answered = |text: &str| {
        let sheet = evencrumb_sheet::sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, kitchen);
        let cost = evencrumb_sheet::cost::cost(&sheet, &prices, &stock, pantry, kitchen);
        let answer = SheetAnswer::of(&sheet, pantry, &Found::default()).with_cost(&cost, Currency::US_DOLLAR, pantry);
        serde_json::to_value(answer).expect("an answer")
    };
    for entry in std::fs::read_dir(&recipes).expect("the demo is committed") {
        let text = std::fs::read_to_string(entry.expect("an entry").path()).expect("a recipe");
        let answer = answered(&text);
        assert_eq!(faults(&schema, &answer), Vec::<String>::new(), "{text}");
        assert_ne!(answer["totals"]["cost"], Value::Null);
    }
    let answer = answered("Tea\n\nIngredients\n50 g tahini\n");
    assert_eq!(faults(&schema, &answer), Vec::<String>::new());
    let (cost, line) = (&answer["totals"]["cost"], &answer["components"][0]["lines"][0]);
    assert_eq!((&cost["batch"], &cost["unpriced"][0]), (&Value::Null, &Value::from("tahini")));
    assert_eq!(line["cost"], Value::Null);
}

#[test]
fn ok_scaled_recipes_are_as_the_schema_says() {
    let schema = schema("scale.schema.json");
    let (pantry, kitchen) = (Pantry::ours(), Kitchen::default());
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/manuscripts");
    for name in
        ["us-plain-cornmeal-cake", "uk-old-imperial-parkin", "old-hand-vague-amounts", "alternatives-and-ranges"]
    {
        let text = std::fs::read_to_string(folder.join(name).with_extension("txt")).expect("the fixture is committed");
        let manuscript = evencrumb_manuscript::read(&text, pantry);
        let sheet = evencrumb_sheet::sheet(&text, &manuscript, pantry, kitchen);
        let setting = evencrumb_sheet::Setting { pantry, kitchen, shelf: &evencrumb_sheet::shelf::Empty, pans: &[] };
        for to in ["2 1/2 times", "1/3", "x 0.01"] {
            let scaled = scale::to(to, &text, &manuscript, &sheet, &setting).expect("so many times can always be");
            let answer = ScaleAnswer::of(to, &scaled, &sheet, pantry, &Found::default());
            let answer = serde_json::to_value(answer).expect("an answer");
            assert_eq!(faults(&schema, &answer), Vec::<String>::new(), "{name}, {to}");
        }
    }
}

#[test]
fn ok_foods_are_as_the_schema_says() {
    let schema = schema("food.schema.json");
    for name in FOODS {
        let answer = serde_json::to_value(FoodAnswer::of(name, Pantry::ours())).expect("an answer");
        assert_eq!(faults(&schema, &answer), Vec::<String>::new(), "{name}");
    }
}

#[test]
fn err_an_answer_that_lacks_or_bends_a_field() {
    let schema = schema("weigh.schema.json");
    let mut lacking = weighed(LINES[0]);
    lacking["foods"][0].as_object_mut().expect("an object").remove("grams");
    assert_eq!(faults(&schema, &lacking).len(), 1);
    let mut bent = weighed(LINES[0]);
    bent["foods"][0]["quantity"]["low"] = Value::from("3/4");
    assert_eq!(faults(&schema, &bent).len(), 1);
}

#[test]
fn ok_unknown_is_null_and_never_zero() {
    let answer = weighed("1 cup moon dust");
    assert_eq!(answer["foods"][0]["food"], Value::Null);
    assert_eq!(answer["foods"][0]["grams"], Value::Null);
    let food = serde_json::to_value(FoodAnswer::of("hazelnut flour", Pantry::ours())).expect("an answer");
    let nutrients = food["food"]["composition"]["nutrients"].as_array().expect("a list");
    let value = |name: &str| &nutrients.iter().find(|it| it["name"] == name).expect("every nutrient is there")["value"];
    assert_eq!(value("trans fat"), &Value::Null);
    assert_eq!(value("cholesterol"), &Value::from(0));
}

/// People's own lines, every ninth of the corpus: all of them take long in a debug build.
#[test]
fn ok_lines_of_the_corpus_are_as_the_schema_says() {
    let schema = schema("weigh.schema.json");
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures/lines.tsv");
    let corpus = std::fs::read_to_string(file).expect("the corpus is committed");
    for text in corpus.lines().skip(1).step_by(9).filter_map(|row| row.split('\t').nth(1)) {
        assert!(schema.is_valid(&weighed(text)), "{text}");
    }
}
