use insta::assert_snapshot;
use proptest::prelude::*;

use super::*;

fn ours(text: &str) -> (Vec<Food>, Vec<Fault>) {
    read("flours.toml", text, Whose::Ours)
}

fn faults(text: &str) -> String {
    let (_, faults) = ours(text);
    faults.iter().map(|fault| format!("{}: {}\n", fault.place, fault.what)).collect()
}

const HAZELNUT: &str = r#"
[[food]]
name = "hazelnut flour"
also = ["ground hazelnut", "filbert meal"]
table = 12120
stand_in = "whole nuts"
cup = [
  { way = "spooned", best = 75, low = 66, high = 85, from = "sr28", portion = "cup, ground" },
  { way = "packed", best = 95.5, low = 80, high = 110, from = "from-memory" },
]
piece = [{ unit = "piece", size = "extra large", best = 1.4, low = 1, high = 2, from = "sr28:12121" }]
edible = { best = 0.64, low = 0.58, high = 0.70, from = "sr28" }
allergens = ["tree nut: hazelnut"]
gluten = "none"
sugar = "intrinsic"
roles = ["nut flour", "fat"]
strict = true
"#;

#[test]
fn ok_a_whole_row() {
    let (foods, faults) = ours(HAZELNUT);
    assert_eq!(faults, []);
    let food = &foods[0];
    assert_eq!(food.id, "hazelnut-flour");
    assert_eq!(food.names().collect::<Vec<_>>(), ["hazelnut flour", "ground hazelnut", "filbert meal"]);
    assert_eq!(food.table, Some(12120));
    assert_eq!(food.cup_filled(None).and_then(|cup| cup.way), Some(Way::Spooned));
    let packed = food.cup_filled(Some(Way::Packed)).expect("a packed cup");
    assert_eq!(Some(packed.grams.range), Range::new(80.0, 95.5, 110.0));
    assert!(!packed.grams.from.source.printed);
    assert_eq!(food.cup[0].grams.from.portion.as_deref(), Some("cup, ground"));
    assert_eq!((food.piece[0].unit, food.piece[0].size), (Unit::Piece, Some(Size::ExtraLarge)));
    assert_eq!(food.piece[0].grams.from.row, Some(12121));
    assert_eq!(food.allergens, [Allergen::Hazelnut]);
    assert_eq!(food.roles, [Role::NutFlour, Role::Fat]);
    assert_eq!((food.gluten, food.sugar, food.strict), (Some(Gluten::None), Some(SugarKind::Intrinsic), true));
    assert_eq!((food.place.line, food.cup[1].grams.place.line), (2, 9));
}

#[test]
fn ok_composition_and_parts() {
    let (foods, faults) = ours(
        r#"
        [[food]]
        name = "blend"
        composition = { from = "from-memory", energy = 343, sodium_mg = 11, saturated_fat = 0 }
        parts = [{ food = "white rice flour", share = 0.6 }, { food = "tapioca starch", share = 0.4 }]
        parts_from = "common-practice"
        "#,
    );
    assert_eq!(faults, []);
    let composition = foods[0].composition.as_ref().expect("a composition");
    assert_eq!(composition.value(Nutrient::Sodium), Some(11.0));
    assert_eq!(composition.value(Nutrient::SaturatedFat), Some(0.0));
    assert_eq!(composition.value(Nutrient::Fibre), None);
    assert_eq!(foods[0].parts[1].food, "tapioca starch");
}

#[test]
fn ok_the_author_need_not_name_herself_or_a_range() {
    let text = "[[food]]\nname = \"my blend\"\ncup = [{ way = \"spooned\", best = 100 }]";
    let (foods, faults) = read("foods.toml", text, Whose::Author);
    assert_eq!(faults, []);
    assert_eq!(foods[0].cup[0].grams.from.source.id, "own");
    assert!((foods[0].cup[0].grams.range.low() - 85.0).abs() < 1e-9);
}

#[test]
fn err_every_fault_has_its_line_and_the_rest_is_used() {
    let text = r#"
[[food]]
name = "flour"
colour = "white"
cup = [
  { way = "heaped", best = 1, low = 1, high = 1, from = "sr28" },
  { way = "spooned", best = 125, low = 110, high = 140 },
  { way = "dipped", best = 125, low = 130, high = 140, from = "sr28" },
  { way = "sifted", best = 115, low = 100, high = 130, from = "a friend" },
  { way = "packed", best = "much", low = 100, high = 130, from = "sr28" },
  { way = "loose", best = 100, from = "sr28" },
]
piece = [{ unit = "cup", best = 1, low = 1, high = 1, from = "sr28" }]
edible = 0.9
composition = { from = "sr28", energie = 3 }
roles = "flour"
table = "12120"
[[food]]
also = ["no name"]
[[food]]
name = "sugar"
"#;
    assert_snapshot!(faults(text), @r"
    flours.toml:17: `table` is not the number of a row
    flours.toml:6: `heaped` is not a way of filling
    flours.toml:7: cup has no source
    flours.toml:8: cup goes from 130 over 125 to 140
    flours.toml:9: there is no source `a friend`
    flours.toml:10: `best` is not a number
    flours.toml:10: cup has no best value
    flours.toml:11: cup has no range
    flours.toml:13: `cup` is not a unit
    flours.toml:14: edible is written as a number
    flours.toml:16: `roles` is not a list
    flours.toml:15: `energie` is not a nutrient
    flours.toml:4: `colour` is not a word of a row
    flours.toml:18: it has no name
    ");
    let (foods, _) = ours(text);
    assert_eq!(foods.iter().map(|food| food.name.as_str()).collect::<Vec<_>>(), ["flour", "sugar"]);
    assert_eq!(foods[0].cup.len(), 1);
    assert_eq!(foods[0].roles, [Role::Flour]);
}

#[test]
fn err_text_that_is_not_toml_keeps_the_rows_around_it() {
    let text = "[[food]]\nname = \"flour\"\nroles = [\"flour\"\n\n[[food]]\nname = \"sugar\"\n";
    let (foods, faults) = ours(text);
    assert!(!faults.is_empty());
    assert_eq!(foods.first().map(|food| food.name.as_str()), Some("flour"));
}

proptest! {
    /// Whatever is cut out of or put into a file, reading gives rows and faults and does not stop.
    #[test]
    fn ok_nothing_stops_the_reader(at in 0..700_usize, length in 0..40_usize, put in "[\\[\\]{}=\"'a-z0-9 \n#.,-]{0,12}") {
        let mut text: String = HAZELNUT.to_owned();
        let start = at.min(text.len());
        let end = (start + length).min(text.len());
        text.replace_range(start..end, &put);
        let (foods, faults) = ours(&text);
        prop_assert!(foods.len() <= 3 || !faults.is_empty());
        prop_assert!(faults.iter().all(|fault| fault.place.line <= text.lines().count() + 1));
    }
}
