use evencrumb_measure::Number;
use evencrumb_pantry::weigh::Kitchen;
use evencrumb_pantry::{Nutrient, Pantry};

use super::{Of, Per, Reason, What, read, why};
use crate::{Sheet, sheet};

const TEXT: &str = "Slab\n\nMakes 12 slabs, serves 6\n\nBase\n200 g all-purpose flour\n100 g unsalted butter\n150 g granulated sugar\n\nFrosting\n100 g light brown sugar\n100 g moon dust\n";

fn slab() -> Sheet {
    let pantry = Pantry::ours();
    sheet(TEXT, &evencrumb_manuscript::read(TEXT, pantry), pantry, Kitchen::default())
}

fn question(text: &str) -> Option<(What, Of, Option<Per>)> {
    read(text, &slab(), Pantry::ours()).ok().map(|question| (question.what, question.of, question.per))
}

#[test]
fn ok_questions() {
    let sugars = What::Nutrient(Nutrient::Sugars);
    let energy = What::Nutrient(Nutrient::Energy);
    let lines = |part, line| Of::Lines(vec![(part, line)]);
    assert_eq!(question("sugar per serving"), Some((sugars, Of::Batch, Some(Per::Serving))));
    assert_eq!(question("How much sugar is in the frosting?"), Some((sugars, Of::Component(1), None)));
    assert_eq!(
        question("energy per 100 g"),
        Some((energy, Of::Weighing { grams: Number::whole(100), raw: false }, None))
    );
    let fat = What::Nutrient(Nutrient::SaturatedFat);
    assert_eq!(
        question("saturated fat in 100 g raw"),
        Some((fat, Of::Weighing { grams: Number::whole(100), raw: true }, None))
    );
    assert_eq!(question("calories per slab"), Some((energy, Of::Batch, Some(Per::Piece))));
    assert_eq!(question("weight of one piece"), Some((What::Grams, Of::Batch, Some(Per::Piece))));
    assert_eq!(question("grams of the brown sugar"), Some((What::Grams, lines(1, 0), None)));
    assert_eq!(question("light brown sugar per slab"), Some((What::Grams, lines(1, 0), Some(Per::Piece))));
    assert_eq!(question("brown sugar in the frosting"), Some((What::Grams, lines(1, 0), None)));
    assert_eq!(question("butter"), Some((What::Grams, lines(0, 1), None)));
    assert_eq!(question("line 6"), Some((What::Grams, lines(0, 0), None)));
    assert_eq!(question("fat"), Some((What::Nutrient(Nutrient::Fat), Of::Batch, None)));
    assert_eq!(question("cost of the base"), Some((What::Cost, Of::Component(0), None)));
}

#[test]
fn err_questions_that_are_not_understood_say_what_can_be_asked() {
    let wrong = read("sparkle per serving", &slab(), Pantry::ours()).expect_err("no such figure");
    assert!(wrong.said.contains("sparkle") && wrong.mend.contains("“Frosting”"), "{wrong:?}");
    assert!(read("", &slab(), Pantry::ours()).is_err());
    assert!(read("line 99", &slab(), Pantry::ours()).is_err());
}

/// The questions that are told near to words that are not understood.
fn near(words: &str, sheet: &Sheet) -> Vec<String> {
    let wrong = why(sheet, words, Pantry::ours(), None).expect_err("not understood");
    let near = wrong.mend.split_once(". You can ask").map_or("", |(near, _)| near);
    near.split('“').skip(1).filter_map(|one| one.split('”').next()).map(str::to_owned).collect()
}

/// No price, no serving, no pan, nothing baked and a food that nobody knows: every question that is told is answered.
#[test]
fn ok_near_questions_can_be_asked_of_this_sheet() {
    let pantry = Pantry::ours();
    let bare = "Paste\n\n200 g almonds\n100 g moon dust\nstardust\n1/2 cup milk or cream\n\nRest\nremaining almonds\n";
    let bare = sheet(bare, &evencrumb_manuscript::read(bare, pantry), pantry, Kitchen::default());
    for sheet in [slab(), bare] {
        for words in [
            "sparkle per serving",
            "cots per serving",
            "cost of the almonds pls quick",
            "gramms of stardust",
            "how ful is the pan then",
            "hydratoin",
            "weihgt after bakeing",
            "moon dust sparkle",
            "share of remaining stardust dust",
        ] {
            let near = near(words, &sheet);
            assert_eq!(near.len(), 3, "{words}: {near:?}");
            for asked in near {
                let why = why(&sheet, &asked, pantry, None).unwrap_or_else(|wrong| panic!("{words}: {asked}: {wrong}"));
                assert!(why.figure.value.is_none_or(|value| value.best() > 0.0), "{words}: {asked}");
            }
        }
    }
    assert!(near("sparkle per serving", &slab()).contains(&"sugar per serving".to_owned()));
}

/// Every leaf of a tree.
fn words(reason: &Reason, into: &mut Vec<String>) {
    into.push(reason.words.clone());
    for under in &reason.under {
        words(under, into);
    }
}

/// SR28 row 19335 gives granulated sugar 99.80 g of sugars in 100 g; 150 g of it hold 149.7 g.
#[test]
fn ok_a_figure_walks_back_to_rows() {
    let why = why(&slab(), "sugar per serving", Pantry::ours(), None).expect("understood");
    let mut said = Vec::new();
    words(&why.figure, &mut said);
    assert!(said.iter().any(|words| words.contains("6 servings")), "{said:#?}");
    assert!(said.iter().any(|words| words.contains("100 g of granulated sugar hold 99.8 g")), "{said:#?}");
    assert!(said.iter().any(|words| words.contains("line 8: 150 g granulated sugar")), "{said:#?}");
    assert_eq!(why.unknown, ["moon dust"]);
    assert!(!why.doubts.is_empty());
}

/// What stands under a sum adds up to it.
#[test]
fn ok_the_parts_add_up() {
    for asked in ["fat in the base", "weight", "sugar", "water in the base"] {
        let why = why(&slab(), asked, Pantry::ours(), None).expect("understood");
        let sum: f64 = why.figure.under.iter().filter_map(|under| under.value.as_ref()).map(|value| value.best()).sum();
        let whole = why.figure.value.expect("a figure").best();
        assert!((sum - whole).abs() < 1e-6 * whole.max(1.0), "{asked}: {sum} {whole}");
    }
}

#[test]
fn err_a_serving_that_nobody_cuts() {
    let pantry = Pantry::ours();
    let text = "Slab\n\n200 g flour\n100 g sugar\n";
    let sheet = sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default());
    assert!(why(&sheet, "sugar per serving", pantry, None).is_err());
}

/// 200 g of a 1,000 g pack for 2.00 and 100 g of a 500 g pack for 5.00 are 0.40 and 1.00; a sixth of both is 0.2333.
#[test]
fn ok_a_cost_walks_back_to_packs() {
    let pantry = Pantry::ours();
    let price = |name: &str, grams: f64, dollars: u32| crate::cost::Price {
        food: pantry.named(name).expect("a food of ours"),
        pack: format!("{grams} g"),
        grams: evencrumb_measure::Estimate::exact(grams),
        price: evencrumb_measure::Money::of(
            evencrumb_measure::Number::whole(dollars),
            evencrumb_measure::Currency::US_DOLLAR,
        )
        .expect("a price"),
        bought: None,
        note: None,
    };
    let prices = [price("all-purpose flour", 1000.0, 2), price("unsalted butter", 500.0, 5)];
    let sheet = slab();
    let cost = crate::cost::cost(&sheet, &prices, &[], pantry, Kitchen::default());
    let priced = super::Priced { cost: &cost, currency: evencrumb_measure::Currency::US_DOLLAR };
    let why = why(&sheet, "what does one serving cost?", pantry, Some(priced)).expect("understood");
    assert!((why.figure.value.clone().expect("a figure").best() - 1.4 / 6.0).abs() < 1e-9);
    let mut said = Vec::new();
    words(&why.figure, &mut said);
    assert!(
        said.iter()
            .any(|words| words
                .contains("100 g of unsalted butter as bought; a pack of 500 g holds 500 g and cost $5.00")),
        "{said:#?}"
    );
    assert!(why.unknown.iter().any(|name| name.contains("granulated sugar")), "{:?}", why.unknown);

    let text = "Meringue\n\nIngredients\n3 egg whites\n";
    let sheet = crate::sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default());
    let cost = crate::cost::cost(&sheet, &[price("egg", 600.0, 6)], &[], pantry, Kitchen::default());
    let priced = super::Priced { cost: &cost, currency: evencrumb_measure::Currency::US_DOLLAR };
    let why = super::why(&sheet, "cost of the batch", pantry, Some(priced)).expect("understood");
    let mut said = Vec::new();
    words(&why.figure, &mut said);
    assert!(said.iter().any(|words| words.contains("the whole egg is paid for: 3 of them")), "{said:#?}");
}

#[test]
fn err_a_cost_without_prices() {
    assert!(why(&slab(), "cost per serving", Pantry::ours(), None).is_err());
}

/// What a question comes to, and its unit.
fn figure(asked: &str) -> (f64, String) {
    let why = why(&slab(), asked, Pantry::ours(), None).unwrap_or_else(|wrong| panic!("{asked}: {wrong:?}"));
    (why.figure.value.expect("a figure").best(), why.figure.unit)
}

/// The slab is never baked, so raw and ready are one: 550 g have a weight, and 149.7 g of granulated sugar's 150 g, 97.02 g of
/// brown sugar's 100 g are only compared with each other here.
#[test]
fn ok_any_number_of_grams_and_servings() {
    let (hundred, fifty) = (figure("sugar per 100 g").0, figure("sugar per 50 g").0);
    assert!((hundred / fifty - 2.0).abs() < 1e-9);
    assert!((figure("sugar per 1 ounce").0 / hundred - 0.2835).abs() < 1e-4);
    let (one, two) = (figure("fat per serving").0, figure("fat per 2 servings").0);
    assert!((two / one - 2.0).abs() < 1e-9);
    assert!((figure("fat in 3 slabs").0 / figure("fat per slab").0 - 3.0).abs() < 1e-9);
}

#[test]
fn err_questions_that_would_get_another_figure() {
    for (asked, said) in [
        ("sugar per 0 g", "nothing"),
        ("fat and sugar per serving", "more than one figure"),
        ("cost and weight of a serving", "more than one figure"),
        ("line -1", "below nothing"),
        ("sugar per 7", "“7” is not said to be"),
        ("hydration per serving", "same for any part"),
        ("share", "of an ingredient line"),
        ("how full", "no pan"),
        ("baked weight", "Nothing is baked"),
        ("baker’s percentage of the brown sugar", "no flour"),
    ] {
        let wrong = why(&slab(), asked, Pantry::ours(), None).expect_err(asked);
        assert!(wrong.said.contains(said), "{asked}: {wrong:?}");
        assert!(!wrong.mend.is_empty());
    }
}

/// 100 g of butter in a base of 450 g are 22.2 %, and 50 for 100 g of flour.
#[test]
fn ok_shares() {
    assert!((figure("share of line 7").0 - 100.0 / 4.5).abs() < 1e-9);
    assert!((figure("baker's percentage of line 7").0 - 50.0).abs() < 1e-9);
    assert!((figure("baker’s percentage of the butter").0 - 50.0).abs() < 1e-9);
}

/// Butter is the only wet thing beside 200 g of flour; SR28 row 01145 gives unsalted butter 17.94 g of water in 100 g (and
/// granulated sugar 0.02).
#[test]
fn ok_hydration() {
    let (best, unit) = figure("hydration of the base");
    assert!((best - (17.94 + 0.03) / 2.0).abs() < 0.05 && unit == "%", "{best} {unit}");
    // The topping bakes with it and is no dough.
    assert!((figure("hydration").0 - (17.94 + 0.03) / 2.0).abs() < 0.05, "{}", figure("hydration").0);
}

/// The hydration of a recipe's batch.
fn hydration(text: &str) -> f64 {
    let pantry = Pantry::ours();
    let sheet = sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default());
    why(&sheet, "hydration", pantry, None).expect("understood").figure.value.expect("a figure").best()
}

/// Worked by hand, with water as pure water: 340 g for 500 g of flour; 400 for 550; 395 for 550 with a starter of 80 g for 100 of flour; a
/// filling and dusting flour beside.
#[test]
fn ok_preferments_bring_their_flour_and_fillings_nothing() {
    let bake = "\n\nMethod\n1. Mix and bake for 40 minutes.\n";
    let poolish = "Loaf\n\nPoolish\n150 g bread flour\n150 g water\n\nFinal dough\nall the poolish\n350 g bread flour\n190 g water\n";
    let found = hydration(&format!("{poolish}{bake}"));
    assert!((found - 68.0).abs() < 0.15, "{found}");
    let filled = format!("{poolish}bread flour for dusting\n\nFilling\n100 g butter\n100 g milk{bake}");
    assert!((hydration(&filled) - 68.0).abs() < 0.15);
    let sour = "Loaf\n\n500 g bread flour\n350 g water\n100 g sourdough starter";
    assert!((hydration(&format!("{sour}{bake}")) - 400.0 / 5.5).abs() < 0.15);
    let stiff = (350.0 + 100.0 * 0.8 / 1.8) / (500.0 + 100.0 / 1.8) * 100.0;
    assert!((hydration(&format!("{sour} (80 % hydration){bake}")) - stiff).abs() < 0.15);
}

/// Worked by hand: 300 g of batter in a tin of 1,311 ml to the brim, near enough; only what stands under it is tested.
#[test]
fn ok_how_full_and_how_deep() {
    let pantry = Pantry::ours();
    let text = "Cake\n\nPan: one 8-inch square pan, 2 inches deep\nBake: 30 minutes\n\n200 g flour\n100 g sugar\n200 g milk\n\nMethod\n1. Mix and pour into the pan.\n2. Bake for 30 minutes.\n";
    let sheet = sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default());
    let full = why(&sheet, "how full is the pan?", pantry, None).expect("understood").figure;
    let deep = why(&sheet, "how deep", pantry, None).expect("understood").figure;
    let (full, deep) = (full.value.expect("a figure").best(), deep.value.expect("a figure").best());
    assert!((deep - full / 100.0 * 50.8).abs() < 1.5, "{full} % and {deep} mm of a straight tin of 50.8 mm");
    let raw = why(&sheet, "raw weight", pantry, None).expect("understood").figure;
    let baked = why(&sheet, "baked weight", pantry, None).expect("understood").figure;
    assert!((raw.value.expect("a figure").best() - 500.0).abs() < 1e-9);
    assert!(baked.value.expect("a figure").best() < 499.0);
}

/// A kitchen's words on a recipe of two doughs; its figures by hand from the lines.
const BUNS: &str = "Salt Buns\n\nMakes 10 buns\nPan: one 9-inch springform pan, 2 1/2 inches deep\nBake: 20 minutes\n\nDough\n500 g bread flour\n10 g salt\n4 eggs\n2 egg yolks\n100 g butter\n\nFilling\n100 g butter\n80 g sugar\n50 g walnuts\n\nMethod\n1. Knead, fill and roll.\n2. Put the buns into the pan and bake for 20 minutes.\n";

fn buns(asked: &str) -> super::Why {
    let pantry = Pantry::ours();
    let sheet = sheet(BUNS, &evencrumb_manuscript::read(BUNS, pantry), pantry, Kitchen::default());
    why(&sheet, asked, pantry, None).unwrap_or_else(|wrong| panic!("{asked}: {wrong:?}"))
}

fn best(asked: &str) -> f64 {
    buns(asked).figure.value.unwrap_or_else(|| panic!("{asked}: a figure")).best()
}

#[test]
fn ok_a_home_baker_s_words() {
    let near =
        |asked: &str, wanted: f64| assert!((best(asked) - wanted).abs() < 1e-6 * wanted, "{asked}: {}", best(asked));
    near("kj", best("energy") * 4.184);
    near("energy in kilojoules per bun", best("energy per bun") * 4.184);
    near("salt per bun", best("sodium per bun") * 0.0025);
    near("salt", 10.0);
    near("salt percentage", 2.0);
    near("baker's percentage of butter", 20.0);
    near("added sugar", best("sugar in line 16"));
    near("weight of one egg", best("grams of eggs") / 4.0);
    near("how many does it make", 10.0);
    near("weight after baking", best("baked weight"));
    near("weight before baking", best("raw weight"));
    near("calories in half a bun", best("calories per bun") / 2.0);
    near("fat percentage", best("fat per 100 g"));
    near("how much do the buns weigh", best("weight per bun"));
    near("vitamin a", best("vitamin A in the batch"));
    near("how deep are the buns", best("how deep"));
    near("how full is the springform", best("how full"));
}

/// A figure read off the page is found again; one that nowhere stands is refused with those that do.
#[test]
fn ok_a_figure_quoted_from_the_page() {
    let per_bun = best("fat per bun");
    let asked = format!("why {per_bun:.1} g fat");
    assert!((best(&asked) - per_bun).abs() < 1e-9, "{asked}: {}", best(&asked));
    assert!((best("why 500 g bread flour") - 500.0).abs() < 1e-9);
    let pantry = Pantry::ours();
    let sheet = sheet(BUNS, &evencrumb_manuscript::read(BUNS, pantry), pantry, Kitchen::default());
    let wrong = why(&sheet, "why 777 g fat", pantry, None).expect_err("no such figure");
    assert!(wrong.said.contains("777") && wrong.mend.contains("for one bun"), "{wrong:?}");
}

#[test]
fn ok_allergens_are_told_by_food_and_never_promised() {
    let told = |asked: &str| {
        let figure = buns(asked).figure;
        let under: Vec<String> = figure.under.iter().map(|under| under.words.clone()).collect();
        (figure.words, under.join("\n"))
    };
    let (words, under) = told("allergens");
    for held in ["milk", "egg", "wheat", "gluten", "walnut"] {
        assert!(words.contains(held), "{held}: {words}");
    }
    assert!(under.contains("unsalted butter (lines 12, 15)"), "{under}");
    assert!(under.contains("read every pack") && under.contains("no promise"), "{under}");
    let (words, under) = told("is it gluten free?");
    assert!(words.contains("found") && under.contains("bread flour (line 8)"), "{words}: {under}");
    for asked in ["nuts", "tree nut", "wheat", "dairy"] {
        let (words, under) = told(asked);
        assert!(
            words.contains(": found among the listed ingredients") && under.contains("no promise"),
            "{asked}: {words}"
        );
    }
    // A line that is called so is asked for its weight.
    assert!(!told("walnuts").0.contains("listed ingredients"));
    let (words, _) = told("does it contain sesame");
    assert!(words.contains("no source was found among the listed ingredients"), "{words}");
}

/// A recipe of which nothing has a price costs nobody knows what, and not nothing.
#[test]
fn err_a_cost_of_what_has_no_price() {
    let pantry = Pantry::ours();
    let sheet = slab();
    let cost = crate::cost::cost(&sheet, &[], &[], pantry, Kitchen::default());
    let priced = super::Priced { cost: &cost, currency: evencrumb_measure::Currency::US_DOLLAR };
    let wrong = why(&sheet, "cost of the butter", pantry, Some(priced)).expect_err("no price");
    assert!(wrong.said.contains("no price is known"), "{wrong:?}");
}

#[test]
fn err_a_slice_of_what_nobody_cuts() {
    let pantry = Pantry::ours();
    let text = "Loaf\n\nMakes one loaf\n\n200 g flour\n100 g sugar\n";
    let sheet = sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default());
    let wrong = why(&sheet, "sugar in a slice", pantry, None).expect_err("not cut");
    assert!(wrong.said.contains("into how many it is cut"), "{wrong:?}");
    assert!(why(&sheet, "is it vegan", pantry, None).is_err());
}

/// 400 lines that take of a part of 400 lines: 160,000 would be walked, and none is read.
#[test]
fn ok_lines_of_a_part_that_very_many_take_of_are_walked_only_so_often() {
    let pantry = Pantry::ours();
    let (part, takes) = ("1 egg\n".repeat(400), "1 g pear syrup\n".repeat(400));
    let text = format!("Cake\n\nPear syrup\n{part}\nBatter\n{takes}");
    let sheet = sheet(&text, &evencrumb_manuscript::read(&text, pantry), pantry, Kitchen::default());
    let told = why(&sheet, "weight of the batter", pantry, None).expect("a figure");
    let under = |reason: &super::Reason| reason.under.iter().map(|line| line.under[0].under.len()).collect::<Vec<_>>();
    let walked = under(&told.figure);
    assert_eq!(walked.len(), 400);
    assert_eq!(walked.iter().filter(|lines| **lines == 400).count(), 10);
    assert_eq!(walked.iter().filter(|lines| **lines == 1).count(), 390);
}

/// Found by a practitioner: a part and the lines that take of it were both listed, and the rows came to more than the total.
#[test]
fn ok_rows_of_parts_that_take_of_each_other_add_up_to_the_batch() {
    let pantry = Pantry::ours();
    let text = "Squares\n\nSyrup\n200 g sugar\n200 g water\n\nBase\n300 g flour\n100 g syrup, from above\n\nTopping\n50 g butter\nremaining syrup\n";
    let sheet = crate::sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default());
    for asked in ["grams in the batch", "sugars in the batch", "fibre per batch"] {
        let figure =
            super::why(&sheet, asked, pantry, None).unwrap_or_else(|wrong| panic!("{asked}: {wrong:?}")).figure;
        let best = |reason: &Reason| reason.value.as_ref().map_or(0.0, |value| value.best());
        let rows: f64 = figure.under.iter().map(best).sum();
        assert!((rows - best(&figure)).abs() < 1e-6 && rows > 0.0, "{asked}: {rows} {}", best(&figure));
        for part in &figure.under {
            let lines: f64 = part.under.iter().map(best).sum();
            assert!((lines - best(part)).abs() < 1e-6, "{asked}: {lines} {}", part.words);
        }
    }
}

/// Where all the sugar there is was added, the added sugars are the sugars of the totals: of a part whose rest is frozen, of
/// a part that takes of another, of what is left by frying pans and baths, in 100 g and in a serving.
#[test]
fn ok_added_sugars_agree_with_the_totals() {
    let text = "Tarts\n\nServes 8\n\nSyrup\n200 g granulated sugar\n200 g water\n\nPastry\n300 g cornstarch\n100 g granulated sugar\n\nTop\n100 g syrup, from above\n50 g granulated sugar, for dusting\n\nMethod\n1. Stir the syrup. Freeze the rest of the syrup.\n2. Make the pastry. Halve it, and freeze one half.\n3. Bake 30 minutes in a 9-inch tin, and pour the top over.\n";
    let pantry = Pantry::ours();
    let sheet = sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default());
    assert!(sheet.components.iter().filter(|part| part.in_batch < 1.0).count() == 2, "{:?}", sheet.queries);
    let best = |asked: &str| {
        let why = why(&sheet, asked, pantry, None).expect(asked);
        assert!(why.unknown.is_empty(), "{asked} {:?}", why.unknown);
        why.figure.value.expect("a figure").best()
    };
    for of in ["in the batch", "per serving", "per 100 g", "in the syrup", "in the pastry", "in the top"] {
        let (added, all) = (best(&format!("added sugar {of}")), best(&format!("sugar {of}")));
        assert!((added - all).abs() < 1e-6 * all, "{of}: {added} {all}");
        assert!(added > 1.0, "{of}");
    }
}
/// The first line of an answer, and all lines under it, about a recipe beside others.
fn held(text: &str, asked: &str, shelf: &[(&str, &str)]) -> (String, String) {
    let pantry = Pantry::ours();
    let setting = crate::Setting { pantry, kitchen: Kitchen::default(), shelf: &shelf, pans: &[] };
    let manuscript = evencrumb_manuscript::read(text, pantry);
    let sheet = crate::Sheet::of(text, &manuscript, &setting, &crate::Choice::default());
    let figure = super::why(&sheet, asked, pantry, None).unwrap_or_else(|wrong| panic!("{asked}: {wrong:?}")).figure;
    let under: Vec<String> = figure.under.iter().map(|under| under.words.clone()).collect();
    (figure.words, under.join("\n"))
}

/// Found by a practitioner: a pie whose crust is a recipe of its own was said to hold no gluten.
#[test]
fn ok_allergens_of_other_recipes_are_told_at_any_depth() {
    let crust =
        "Plum Crust\n\nMakes 1 crust\n\n200 g all-purpose flour\n100 g butter\n1/2 batch walnut paste\n\n1. Mix.\n";
    let paste = "Walnut Paste\n\n100 g walnuts\n50 g sugar\n\n1. Grind.\n";
    let pie = "Plum Tart\n\nServes 8\n\n1 batch plum crust\n500 g plums\n50 g sugar\n\n1. Bake.\n";
    let shelf = [("Plum Crust", crust), ("Walnut Paste", paste)];
    let (words, under) = held(pie, "gluten", &shelf);
    assert_eq!(words, "gluten: found among the listed ingredients");
    assert!(under.contains("all-purpose flour (line 5 of “Plum Crust”)"), "{under}");
    let (words, under) = held(pie, "tree nuts", &shelf);
    assert!(words.contains("found among the listed ingredients: tree nut: walnut"), "{words}");
    assert!(under.contains("walnut (line 3 of “Walnut Paste”)"), "{under}");
    let (words, _) = held(pie, "does it contain sesame", &shelf);
    assert!(words.contains("no source was found"), "{words}");
}

/// What could not be looked into is said first, and never that there is none.
#[test]
fn err_allergens_that_cannot_be_said() {
    let pie = "Plum Tart\n\nServes 8\n\n1 batch plum crust\n500 g plums\n50 g sugar\n\n1. Bake.\n";
    let (words, _) = held(pie, "gluten", &[]);
    assert!(words.starts_with("gluten: cannot be said: line 5 is another recipe that"), "{words}");
    let unknown = "Plum Tart\n\nServes 8\n\n2 cups moon dust\n500 g plums\n\n1. Bake.\n";
    let (words, _) = held(unknown, "nuts", &[]);
    assert!(words.contains(": cannot be said: line 5: “moon dust” is not known here"), "{words}");
    let crust = "Plum Crust\n\n200 g all-purpose flour\n2 cups moon dust\n\n1. Mix.\n";
    let (words, _) = held(pie, "does it contain sesame", &[("Plum Crust", crust)]);
    assert!(words.contains("cannot be said: line 4 of “Plum Crust”: “moon dust”"), "{words}");
    let (words, _) = held(pie, "is it gluten free", &[("Plum Crust", crust)]);
    assert!(words.starts_with("gluten: found"), "{words}");
    let stirred = "Plain Cake\n\nServes 8\n\n2 cups flour\n1 cup sugar\n\n1. Mix. Stir in 1 cup walnuts.\n2. Bake.\n";
    let (words, _) = held(stirred, "nuts", &[]);
    assert!(words.contains("cannot be said: line 8: “1 cup walnuts” stands in a step"), "{words}");
    let oats = "Squares\n\n200 g rolled oats\n100 g honey\n";
    let (words, _) = held(oats, "is it gluten free", &[]);
    assert!(words.contains("cannot be said: oats, in which gluten"), "{words}");
}

#[test]
fn ok_dozens_and_one_and_a_half() {
    let text = "Biscotti\n\nMakes 42 biscotti\n\n300 g flour\n120 g sugar\n";
    for asked in ["weight per dozen", "weight of a dozen", "weight of a dozen biscotti", "weight of one dozen"] {
        let (words, value) = told(text, asked).expect("understood");
        assert!((value - 120.0).abs() < 1e-6 && words.contains("12 biscotti"), "{asked}: {words}: {value}");
    }
    let (words, value) = told(text, "weight of two dozen").expect("understood");
    assert!((value - 240.0).abs() < 1e-6, "{words}: {value}");
    let curd = "Curd\n\nMakes 1 1/2 cups\n\n300 g sugar\n60 g butter\n";
    let sheet = sheet(curd, &evencrumb_manuscript::read(curd, Pantry::ours()), Pantry::ours(), Kitchen::default());
    let why = why(&sheet, "weight of one cup", Pantry::ours(), None).expect("understood");
    assert!(why.figure.under[0].words.starts_with("the text says 1.5 cup"), "{:?}", why.figure.under[0].words);
}

#[test]
fn ok_the_dough_is_the_part_that_is_called_so() {
    let parts = |dough: &str, filling: &str| {
        format!(
            "Cinnamon Rolls\n\nMakes 8\n\n{dough}\n300 g flour\n100 g butter\n\n{filling}\n50 g butter\n50 g sugar\n"
        )
    };
    let asked = |text: &str, asked: &str| told(text, asked).map(|(words, value)| (words, value.round()));
    let rolls = parts("Dough", "Filling");
    let (words, fat) = asked(&rolls, "fat in the dough").expect("understood");
    assert!(words.contains("in “Dough”") && (82.0..86.0).contains(&fat), "{words}: {fat}");
    assert!((asked(&rolls, "weight of the dough").expect("understood").1 - 400.0).abs() < 1e-9);
    assert!((asked(&rolls, "fat in the dough per piece").expect("understood").1 - (fat / 8.0).round()).abs() < 1e-9);
    // The list without a heading is what the title names.
    let bare = "Cinnamon Rolls\n\nMakes 8\n\n300 g flour\n100 g butter\n\nFilling\n50 g butter\n50 g sugar\n";
    assert!((asked(bare, "weight of the dough").expect("understood").1 - 400.0).abs() < 1e-9);
    // One list is all of it, and so is what the title calls a dough.
    assert!(
        (asked("Rolls\n\n300 g flour\n100 g butter\n", "weight of the dough").expect("understood").1 - 400.0).abs()
            < 1e-9
    );
    let whole = parts("Sponge", "Rest").replace("Cinnamon Rolls", "Brioche Dough");
    assert!((asked(&whole, "weight of the dough").expect("understood").1 - 500.0).abs() < 1e-9);
    let wrong = asked(&parts("Rolls", "Filling"), "fat in the dough").expect_err("no part is called so");
    assert!(wrong.said.contains("called dough") && wrong.mend.contains("“Rolls”, “Filling”"), "{wrong:?}");
}

/// An own food whose row leaves out allergens or gluten is not known to hold none; an empty list and "none" say so.
#[test]
fn err_allergens_that_an_own_row_leaves_out() {
    let rows = "[[food]]\nname = \"house blend\"\ncup_grams = 130\nMORE\n";
    let asked = |more: &str, asked: &str| {
        let file = evencrumb_pantry::own::read("foods.toml", &rows.replace("MORE", more), Kitchen::default());
        let text = "Bars\n\n1 cup house blend\n1 cup sugar\n";
        let sheet = sheet(text, &evencrumb_manuscript::read(text, &file.pantry), &file.pantry, Kitchen::default());
        super::why(&sheet, asked, &file.pantry, None).unwrap_or_else(|wrong| panic!("{asked}: {wrong:?}")).figure.words
    };
    for (more, question) in [
        ("", "allergens"),
        ("", "nuts"),
        ("", "gluten"),
        ("", "does it contain wheat"),
        ("gluten = \"none\"", "allergens"),
        ("gluten = \"none\"", "nuts"),
        ("gluten = \"none\"\nallergens = [\"perhaps\"]", "nuts"),
        ("allergens = []", "gluten"),
        ("allergens = []", "allergens"),
    ] {
        let words = asked(more, question);
        assert!(words.contains("cannot be said: ") && words.contains("house blend (line 3)"), "{more}: {words}");
    }
    for (more, question) in [
        ("gluten = \"none\"", "gluten"),
        ("gluten = \"none\"\nallergens = []", "allergens"),
        ("allergens = []", "nuts"),
        ("like = \"rice flour\"", "nuts"),
    ] {
        let words = asked(more, question);
        assert!(words.contains("no source was found"), "{more}: {words}");
    }
}

/// The first line of an answer, with its figure; or what was refused.
fn told(text: &str, asked: &str) -> Result<(String, f64), super::Misunderstood> {
    let pantry = Pantry::ours();
    let sheet = crate::sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default());
    let figure = super::why(&sheet, asked, pantry, None)?.figure;
    let value = figure.value.map_or(f64::NAN, |value| value.best());
    Ok((figure.words, value))
}

/// Found by a practitioner: a food whose words stand in the title was answered with the whole batch.
#[test]
fn ok_words_of_a_line_go_before_words_of_the_title() {
    let text = "Shortbread with the Good Dark Chocolate\n\nMakes 20 fingers\n\n200 g all-purpose flour\n150 g the good dark chocolate, chopped\n100 g butter\n\n1. Mix and bake for 30 minutes.\n";
    for asked in ["the good dark chocolate", "grams of the good dark chocolate", "why dark chocolate", "good chocolate"]
    {
        let told = told(text, asked);
        let found = told.as_ref().is_ok_and(|(_, grams)| (grams - 150.0).abs() < 1e-9);
        let refused = told.as_ref().is_err_and(|wrong| wrong.mend.contains("dark chocolate"));
        assert!(found || asked == "good chocolate" && refused, "{asked}: {told:?}");
    }
    let (words, _) = told(text, "fat in the good dark chocolate").expect("understood");
    assert!(words.starts_with("line 6"), "{words}");
    let (words, _) = told(text, "fat in the shortbread").expect("understood");
    assert!(words.starts_with("fat in the batch"), "{words}");
    // Another name of the same food.
    let (_, grams) = told(text, "grams of plain flour").expect("understood");
    assert!((grams - 200.0).abs() < 1e-9, "{grams}");
    // The cake is not its cake flour.
    let text = "Lemon Cake\n\nServes 8\n\n200 g cake flour\n100 g sugar\n\n1. Mix.\n";
    for (asked, grams) in [("weight of the cake", 300.0), ("grams of cake flour", 200.0)] {
        let told = told(text, asked).expect("understood");
        assert!((told.1 - grams).abs() < 1e-9, "{asked}: {told:?}");
    }
    // A flavour in the title is no whole, least of all where its food is missing from the list.
    let text = "Walnut Cake\n\nServes 8\n\n200 g flour\n100 g sugar\n\n1. Mix and bake for 30 minutes.\n";
    assert!(told(text, "grams of walnut").is_err());
    assert!(told(text, "grams of walnut cake").expect("understood").0.contains("batch"));
}

/// Found by a practitioner: the title of another recipe was not understood, though the line says it.
#[test]
fn ok_another_recipe_is_asked_for_by_its_name() {
    let crust = "All-Butter Plum Crust\n\n200 g all-purpose flour\n100 g butter\n\n1. Mix.\n";
    let tart = "Plum Tart\n\nServes 8\n\n1 recipe All-Butter Plum Crust\n500 g plums\n\n1. Bake.\n";
    for asked in ["All-Butter Plum Crust", "grams of the all-butter plum crust", "plum crust"] {
        let (words, _) = held(tart, asked, &[("All-Butter Plum Crust", crust)]);
        assert!(words.starts_with("line 5"), "{asked}: {words}");
    }
}

#[test]
fn ok_a_piece_without_a_word_of_its_own_goes_by_any() {
    let text = "Spice Drops\n\nMakes 20\n\n200 g flour\n200 g sugar\n\n1. Mix.\n";
    for asked in ["weight of one cookie", "weight of a cookie", "grams per biscuit"] {
        let (words, grams) = told(text, asked).unwrap_or_else(|wrong| panic!("{asked}: {wrong:?}"));
        assert!((grams - 20.0).abs() < 1e-9, "{asked}: {words} {grams}");
    }
    // Where the text has a word, another may be a half of it.
    let text = text.replace("Makes 20", "Makes 20 sandwiches");
    assert!(told(&text, "weight of one cookie").is_err());
}

#[test]
fn ok_depth_in_other_words() {
    let text = "Cake\n\nPan: one 8-inch square pan, 2 inches deep\nBake: 30 minutes\n\n200 g flour\n100 g sugar\n200 g milk\n\nMethod\n1. Mix and pour into the pan.\n2. Bake for 30 minutes.\n";
    let (_, deep) = told(text, "how deep").expect("understood");
    for asked in ["depth of batter", "depth of the batter", "height of a layer", "how thick is the batter"] {
        let (words, other) = told(text, asked).unwrap_or_else(|wrong| panic!("{asked}: {wrong:?}"));
        assert!((deep - other).abs() < 1e-9, "{asked}: {words}");
    }
}

/// By hand: 150 g of 500; 50 g of a starter's 100 for 550.
#[test]
fn ok_prefermented_flour_and_ratios() {
    let bake = "\n\nMethod\n1. Mix and bake for 40 minutes.\n";
    let poolish = "Loaf\n\nPoolish\n150 g bread flour\n150 g water\n\nFinal dough\nall the poolish\n350 g bread flour\n190 g water";
    for asked in ["prefermented flour", "how much pre-fermented flour"] {
        let (_, share) = told(&format!("{poolish}{bake}"), asked).unwrap_or_else(|wrong| panic!("{asked}: {wrong:?}"));
        assert!((share - 30.0).abs() < 1e-6, "{asked}: {share}");
    }
    let sour = "Loaf\n\n500 g bread flour\n350 g water\n100 g sourdough starter";
    let (_, share) = told(&format!("{sour}{bake}"), "prefermented flour").expect("understood");
    assert!((share - 5000.0 / 550.0).abs() < 1e-6, "{share}");
    for asked in
        ["ratio of water to bread flour", "water to bread flour ratio", "what is the ratio of water to bread flour?"]
    {
        let (words, ratio) = told(&format!("{sour}{bake}"), asked).unwrap_or_else(|wrong| panic!("{asked}: {wrong:?}"));
        assert!((ratio - 0.7).abs() < 1e-6, "{words}: {ratio}");
    }
    // "Hydration" has a ratio in its middle and is none.
    assert!(told(&format!("{sour}{bake}"), "hydration").expect("understood").0.starts_with("hydration"));
    assert!(super::ratio::sides("hydration of the dough and the filling").is_none());
    assert!(super::ratio::sides("ratio of ratio of a to b to c").is_none());
    assert!(told(&format!("{sour}{bake}"), "ratio of moon dust to bread flour").is_err());
}
