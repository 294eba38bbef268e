#![allow(clippy::disallowed_methods, reason = "the rows are checked as they lie in the folder")]

use insta::assert_snapshot;

use super::*;

fn faults(text: &str) -> String {
    let report = check([("foods.toml", text)], Table::embedded());
    report.faults.iter().map(|fault| format!("{} {}\n  {}\n", fault.place.line, fault.what, fault.mend)).collect()
}

fn looks(text: &str) -> String {
    let report = check([("foods.toml", text)], Table::embedded());
    report.looks.iter().map(|look| format!("{}\n", look.what)).collect()
}

/// A row with everything said, and one more line.
fn row(name: &str, more: &str) -> String {
    format!("[[food]]\nname = \"{name}\"\ngluten = \"none\"\nsugar = \"intrinsic\"\nroles = [\"sugar\"]\n{more}\n")
}

#[test]
fn ok_values_that_are_the_table_s_own() {
    let sugar = row(
        "granulated sugar",
        r#"table = 19335
        cup = [{ way = "spooned", best = 200, low = 188, high = 212, from = "sr28", portion = "cup" }]
        teaspoon = { best = 4.2, low = 4, high = 4.5, from = "sr28", portion = "tsp" }
        piece = [{ unit = "cube", best = 2.3, low = 2.2, high = 2.5, from = "sr28", portion = "serving 1 cube" }]"#,
    );
    assert_eq!(faults(&sugar), "");
    let cinnamon = row(
        "ground cinnamon",
        r#"table = 2010
        cup = [{ way = "spooned", best = 125, low = 110, high = 140, from = "sr28", portion = "tbsp" }]
        teaspoon = { best = 2.6, low = 2.3, high = 3, from = "sr28", portion = "tbsp" }"#,
    );
    assert_eq!(faults(&cinnamon), "");
    let apple = row(
        "apple",
        r#"table = 9003
        edible = { best = 0.9, low = 0.8, high = 0.95, from = "sr28" }
        cup = [{ way = "sliced", best = 109, low = 90, high = 120, from = "sr28:09003", portion = "cup slices" }]"#,
    );
    assert_eq!(faults(&apple), "");
}

#[test]
fn err_values_that_differ_from_the_table() {
    let text = row(
        "apple",
        r#"table = 9003
edible = { best = 0.8, low = 0.7, high = 0.95, from = "sr28" }
cup = [
  { way = "sliced", best = 119, low = 90, high = 120, from = "sr28", portion = "cup slices" },
  { way = "chopped", best = 125, low = 90, high = 130, from = "sr28", portion = "cup, chopped" },
  { way = "grated", best = 125, low = 90, high = 130, from = "sr28" },
  { way = "puree", best = 125, low = 90, high = 130, from = "sr28", portion = "NLEA serving" },
  { way = "mashed", best = 125, low = 90, high = 130, from = "sr28:9", portion = "cup" },
]"#,
    );
    assert_snapshot!(faults(&text), @r#"
    7 edible share is 0.8, but row 9003 throws away 10 % (Core and stem)
      write best = 0.9, or name another source
    9 cup sliced is 119 g, but `cup slices` of row 9003 gives 109
      write best = 109, or name another source
    10 cup chopped: row 9003 has no portion `cup, chopped`
      it has `cup, quartered or chopped` 125 g, `cup slices` 109 g, `large (3-1/4" dia)`, `small (2-3/4" dia)`
    11 cup grated 125 g names no portion of row 9003
      it has `cup, quartered or chopped` 125 g, `cup slices` 109 g, `large (3-1/4" dia)`, `medium (3" dia)`
    12 cup puree: `NLEA serving` of row 9003 is not a volume
      it has `NLEA serving`, `cup slices` 109 g, `medium (3" dia)`, `extra small (2-1/2" dia)`
    13 cup mashed: the table has no row 9
      look it up in FOOD_DES.txt
    "#);
}

#[test]
fn err_what_every_row_must_say() {
    let text = "[[food]]\nname = \"Mystery\"\nallergens = [\"wheat\"]\nstand_in = \"?\"";
    assert_snapshot!(faults(text), @r#"
    1 `Mystery` has capitals
      write `mystery`
    1 stand_in without a table row
      write table = …, or take stand_in out
    1 nothing says what it holds
      write table, composition or parts
    1 it has no role
      write roles = ["flour"], say
    1 it does not say whether it holds gluten
      write gluten = "none", "contains", "oats" or "check"
    1 it does not say where its sugars count
      write sugar = "none", "added", "intrinsic", "milk" or "juice"
    "#);
    assert_snapshot!(faults(&row("flour", "allergens = [\"wheat\"]\ntable = 99999")), @r#"
    1 the table has no row 99999
      look it up in FOOD_DES.txt, or run `cargo xtask sr28` again if it is there
    1 gluten is `none`, but it is wheat
      write gluten = "contains" or "check"
    "#);
}

#[test]
fn err_a_narrow_range_without_a_printed_source() {
    let cup = |low: f64, high: f64, from: &str| {
        let cup = format!("{{ way = \"spooned\", best = 100, low = {low}, high = {high}, from = \"{from}\" }}");
        faults(&row("flour", &format!("table = 20081\ncup = [{cup}]")))
    };
    assert_eq!(cup(85.0, 115.0, "from-memory"), "");
    assert_eq!(cup(99.0, 101.0, "usda-ams-56"), "");
    assert_snapshot!(cup(86.0, 120.0, "common-practice"), @r#"
    7 cup spooned 100 from common-practice goes only from 86 to 120
      without a printed source at least 85 to 115
    "#);
    assert_snapshot!(cup(80.0, 110.0, "from-memory"), @r#"
    7 cup spooned 100 from from-memory goes only from 80 to 110
      without a printed source at least 85 to 115
    "#);
}

#[test]
fn err_a_name_that_means_two_foods() {
    let text = row("caster sugar", "table = 19335\nalso = [\"castor sugar\", \"Crème Sugar\"]")
        + &row("brown sugar", "table = 19334\nalso = [\"caster-sugars\", \"creme sugar\"]");
    assert_snapshot!(faults(&text), @r#"
    1 `Crème Sugar` has capitals
      write `crème sugar`
    8 `caster-sugars` also means caster sugar (foods.toml:1)
      a name means one food: keep it where a baker would look first
    8 `creme sugar` also means caster sugar (foods.toml:1)
      a name means one food: keep it where a baker would look first
    "#);
}

#[test]
fn err_parts_and_yields() {
    let text = row(
        "blend",
        r#"parts = [{ food = "white rice flour", share = 0.6 }, { food = "blend", share = 0.3 }]
juice = { food = "lemon juice", best = 48, low = 30, high = 62, from = "sr28:9152", portion = "lemon yields" }"#,
    );
    assert_snapshot!(faults(&text), @r#"
    1 its parts add to 0.9000
      shares of a mixture add to 1
    1 its parts have no source
      write parts_from = "…"
    1 its parts lead back to itself
      a mixture is made of other foods
    1 there is no food `white rice flour`
      give it a row; `blend` is the nearest
    7 there is no food `lemon juice`
      give it a row; `blend` is the nearest
    "#);
}

#[test]
fn err_a_liquid_that_is_none() {
    let cup = |more: &str| {
        let cup = format!("{{ way = \"poured\", best = 100, low = 80, high = 120, from = \"from-memory\"{more} }}");
        faults(&row("foam", &format!("table = 19335\ncup = [{cup}, {cup}]")))
    };
    assert_snapshot!(cup(""), @r#"
    7 a poured cup of 100 g is 0.42 g/ml
      liquids lie between 0.6 and 1.5; write dense = "why" if this one does not
    7 a poured cup of 100 g is 0.42 g/ml
      liquids lie between 0.6 and 1.5; write dense = "why" if this one does not
    7 two cups filled the poured way
      keep one
    "#);
    assert_snapshot!(cup(", dense = \"it is whipped\""), @r#"
    7 two cups filled the poured way
      keep one
    "#);
}

#[test]
fn ok_what_is_worth_a_look() {
    let text = row(
        "butter",
        r#"table = 19335
        composition = { from = "from-memory", energy = 900, fat = 80, protein = 1, carbohydrate = 0 }
        cup = [{ way = "softened", best = 227, low = 190, high = 262, from = "from-memory" }]
        teaspoon = { best = 7, low = 5, high = 9, from = "from-memory" }
        piece = [{ unit = "stick", best = 100, low = 80, high = 120, from = "from-memory" }]"#,
    )
    .replace("\"sugar\"]", "\"fat\"]")
    .replace("intrinsic", "none")
        + &row("chickpea flour", "table = 16157")
        + &row("chickpee flour", "table = 16157");
    assert_snapshot!(looks(&text), @r#"
    energy is 900 kcal, but its parts give 724
    a teaspoon of 7 g, but a cup of 227 g is 4.73 a teaspoon
    a stick of 100 g
    row 19335 is "Sugars, granulated"
    sugar is `none`, but row 19335 has 99.8 g of sugars
    it has neither cup, spoon nor piece
    `chickpea flour` looks like `chickpee flour`, which is chickpee flour
    it has neither cup, spoon nor piece
    "#);
}

/// The rule of the house: our own rows have no fault, and there are enough of them to bake with.
#[test]
fn ok_our_own_rows() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/data/foods");
    let entries = std::fs::read_dir(folder).expect("the folder of rows");
    let paths = entries.map(|entry| entry.expect("an entry").path());
    let mut files: Vec<_> = paths.map(|path| (path.display().to_string(), std::fs::read_to_string(path))).collect();
    files.sort_by(|one, other| one.0.cmp(&other.0));
    let texts = files.iter().map(|(name, text)| (name.as_str(), text.as_deref().expect("text")));
    let report = check(texts, Table::embedded());
    let faults: Vec<String> = report.faults.iter().map(ToString::to_string).collect();
    assert!(faults.is_empty(), "{} faults\n{}", faults.len(), faults.join("\n"));
    assert!(report.counts.foods >= 450, "{} foods", report.counts.foods);
    assert!(report.counts.tied >= 300, "{} tied to a row of the table", report.counts.tied);
}
