//! What people read: snapshots of whole answers.

use insta::assert_snapshot;

use crate::program::run;

/// What was printed, with the exit status when it is not 0.
fn shown(arguments: &[&str]) -> String {
    let ran = run(arguments);
    assert_eq!(ran.err, "");
    let end = if ran.status == 0 { String::new() } else { format!("exit status {}\n", ran.status) };
    ran.out + &end
}

#[test]
fn ok_a_measure() {
    assert_snapshot!(shown(&["weigh", "3/4 cup ground hazelnuts"]));
}

#[test]
fn ok_several_lines() {
    assert_snapshot!(shown(&["weigh", "2 large eggs, beaten", "2 (14 oz) cans coconut milk", "juice of 1 lemon"]));
}

#[test]
fn ok_what_the_author_added() {
    assert_snapshot!(shown(&[
        "weigh",
        "butter, for greasing",
        "1 cup pecans or walnuts, chopped (optional)",
        "1 cup plus 2 tablespoons flour, divided, plus more for dusting",
        "half a batch of the sponge",
    ]));
}

#[test]
fn ok_a_line_that_is_no_ingredient() {
    assert_snapshot!(shown(&["weigh", "For the sponge:"]));
}

#[test]
fn ok_a_contradicting_weight() {
    assert_snapshot!(shown(&["weigh", "1 cup (200 g) all-purpose flour"]));
}

#[test]
fn err_an_unknown_food() {
    assert_snapshot!(shown(&["weigh", "1 cup hazlenut flower"]));
}

/// A file of the demo.
fn demo(name: &str) -> String {
    format!("{}/../../demo/recipes/{name}", env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn ok_a_sheet_that_takes_of_another_recipe() {
    assert_snapshot!(shown(&["sheet", &demo("pear-pocket-pies.txt")]));
}

#[test]
fn ok_a_sheet_with_another_choice() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("bars.txt");
    let text = "Plain Bars\n\nMakes 12 bars\n\n200 g oats\n100 g pecans or walnuts\n100 g honey\n50 g dried apricots (optional)\n\n1. Stir and press.\n";
    std::fs::write(&file, text).expect("written");
    let file = file.display().to_string();
    assert_snapshot!(shown(&["sheet", &file]));
    assert_snapshot!(shown(&["sheet", &file, "--with", "walnuts"]));
}

#[test]
fn ok_several_choices_at_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("bars.txt");
    let text = "Plain Bars\n\nBase\n200 g oats\n100 g pecans or walnuts\n100 g honey or molasses\n50 g dried apricots (optional)\n\nTopping\n30 g pecans or walnuts or almonds (optional)\n";
    std::fs::write(&file, text).expect("written");
    let file = file.display().to_string();
    let with = |names: &[&str]| {
        let names = names.iter().flat_map(|name| ["--with", name]);
        run(&["sheet", &file].into_iter().chain(names).collect::<Vec<_>>())
    };
    let both = with(&["molasses", "walnuts in place of pecans in line 5"]);
    assert!(
        both.out.contains("Chosen: molasses in place of honey; walnuts in place of pecans in line 5"),
        "{}",
        both.out
    );
    assert!(both.out.contains("honey in place of molasses: 480 g"), "{}", both.out);
    let all = with(&["molasses", "without what is optional"]).out;
    assert!(all.contains("The batch weighs 400 g raw."), "{all}");
    let refused = |names: &[&str], words: &str| {
        let ran = with(names);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""));
        assert!(ran.err.contains(words), "{}", ran.err);
    };
    refused(&["walnuts"], "can be several choices");
    refused(&["walnuts"], "walnuts in place of pecans in line 5; walnuts in place of pecans in line 10");
    refused(
        &["walnuts in place of pecans in line 10", "almonds"],
        "line 10: it can't be both “walnuts in place of pecans in line 10” and “almonds in place of pecans”",
    );
    refused(&["almonds", "without what is optional"], "line 10: it can't be both");
    refused(&["maple syrup"], "there are: walnuts in place of pecans in line 5");
}

#[test]
fn ok_where_a_figure_comes_from() {
    assert_snapshot!(shown(&["why", &demo("pear-pocket-pies.txt"), "fat", "per", "pie"]));
    assert_snapshot!(shown(&["why", &demo("pear-pocket-pies.txt"), "cost of the pastry"]));
}

#[test]
fn ok_what_a_recipe_of_the_demo_costs() {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/recipes/roasted-pear-buckwheat-layer-cake.txt");
    let page = shown(&["sheet", demo]);
    let from = page.find("The batch costs").expect("it has prices");
    let cost = &page[from..];
    assert_snapshot!(&cost[..cost.find("\n\n").expect("the page goes on")]);
}

#[test]
fn err_faults_of_prices_and_stock_are_told_and_the_rest_works() {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let file = |name: &str, text: &str| std::fs::write(folder.path().join(name), text).expect("written");
    file("kitchen.toml", "currency = \"GBP\"\n");
    file(
        "prices.toml",
        "[[price]]\nfood = \"pear\"\npack = \"1 kg\"\nprice = 3\n[[price]]\nfood = \"pera\"\npack = \"1 kg\"\nprice = 3\n",
    );
    file("stock.toml", "[[stock]]\nfood = \"pear\"\nhave = \"some\"\n");
    file("tart.txt", "Tart\n\nServes 4\n\nIngredients\n500 g pears\n");
    let ran = run(&["sheet", &folder.path().join("tart.txt").display().to_string()]);
    assert!(ran.out.contains("The batch costs £1.50, one serving £0.38."), "{}", ran.out);
    file("tart.txt", "Tart\n\nServes 4\n\nIngredients\n500 g pears or apples\n");
    file("prices.toml", "[[price]]\nfood = \"apple\"\npack = \"1 kg\"\nprice = 2\n");
    let chosen = run(&["sheet", "--json", &folder.path().join("tart.txt").display().to_string()]).out;
    let answer: serde_json::Value = serde_json::from_str(&chosen).expect("JSON");
    assert_eq!(answer["totals"]["cost"]["batch"], serde_json::Value::Null);
    assert_eq!(answer["variants"][0]["totals"]["cost"]["batch"]["best"], 1);
    let page = run(&["sheet", &folder.path().join("tart.txt").display().to_string()]).out.replace("\n    ", " ");
    assert!(page.contains("a serving; £0.25 a serving"), "{page}");
    let faults: Vec<&str> = ran.err.lines().collect();
    assert_eq!(faults.len(), 2, "{}", ran.err);
    assert!(faults[0].contains("prices.toml, line 6: “pera” is not a food known here"));
    assert!(faults[1].contains("stock.toml, line 3: “some” of pear was not understood"));
}

#[test]
fn ok_a_nut_flour() {
    assert_snapshot!(shown(&["food", "filbert", "meal"]));
}

#[test]
fn ok_a_fruit() {
    assert_snapshot!(shown(&["food", "lemon"]));
}

#[test]
fn ok_a_mixture() {
    assert_snapshot!(shown(&["food", "praline paste"]));
}

#[test]
fn err_a_food_that_is_not_known() {
    assert_snapshot!(shown(&["food", "hazzelnut flower"]));
    assert_snapshot!(shown(&["food", "qqqq"]));
}

/// The part of a sheet that tells of pans.
fn pans(recipe: &str) -> String {
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/recipes/").to_owned() + recipe;
    let page = run(&["sheet", &file]).out;
    let from = page.find("\nPans\n").expect("pans are told");
    let part = &page[from + 1..];
    part[..part.find("\n\n").unwrap_or(part.len())].to_owned() + "\n"
}

#[test]
fn ok_pans_of_a_layer_cake() {
    assert_snapshot!(pans("roasted-pear-buckwheat-layer-cake.txt"));
}

#[test]
fn ok_pans_of_muffins() {
    assert_snapshot!(pans("blackcurrant-barley-muffins.txt"));
}

#[test]
fn ok_pans_of_cookies() {
    assert_snapshot!(pans("fig-sorghum-cookies.txt"));
}

#[test]
fn ok_pans_of_a_cake_in_prose() {
    assert_snapshot!(pans("rainy-day-raspberry-cake.txt"));
}

/// Found by a practitioner: one line weighed 300 g on the sheet and 400 g alone.
#[test]
fn ok_a_line_has_one_weight_on_a_sheet_and_alone() {
    let line = "400 g rhubarb, trimmed";
    let alone = shown(&["weigh", line]);
    assert!(alone.contains("  rhubarb: 400 g\n") && alone.contains("of it 300 g"), "{alone}");
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("crumble.txt");
    std::fs::write(&file, format!("Crumble\n\nServes 4\n\n{line}\n100 g sugar\n\nMethod\n1. Mix.\n")).expect("written");
    let file = file.to_string_lossy();
    let sheet = shown(&["sheet", &file]);
    assert!(sheet.contains("\n  400 g ") && sheet.contains("of it 300 g"), "{sheet}");
    let json: serde_json::Value = serde_json::from_str(&run(&["sheet", &file, "--json"]).out).expect("JSON");
    let line = &json["components"][0]["lines"][0];
    assert_eq!(line["foods"][0]["grams"]["best"], 400.0);
    assert_eq!(line["foods"][0]["eaten"]["grams"]["best"], 300.0);
    assert_eq!(line["eaten"]["best"], 300.0);
}
