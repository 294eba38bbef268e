use evencrumb_pantry::weigh::Kitchen;
use evencrumb_pantry::{Nutrient, Pantry};

use super::{Of, Reason, What, read, why};
use crate::{Sheet, sheet};

const TEXT: &str = "Slab\n\nMakes 12 slabs, serves 6\n\nBase\n200 g all-purpose flour\n100 g unsalted butter\n150 g granulated sugar\n\nFrosting\n100 g light brown sugar\n100 g moon dust\n";

fn slab() -> Sheet {
    let pantry = Pantry::ours();
    sheet(TEXT, &evencrumb_manuscript::read(TEXT, pantry), pantry, Kitchen::default())
}

fn question(text: &str) -> Option<(What, Of)> {
    read(text, &slab()).ok().map(|question| (question.what, question.of))
}

#[test]
fn ok_questions() {
    let sugars = What::Nutrient(Nutrient::Sugars);
    assert_eq!(question("sugar per serving"), Some((sugars, Of::Serving)));
    assert_eq!(question("How much sugar is in the frosting?"), Some((sugars, Of::Component(1))));
    assert_eq!(question("energy per 100 g"), Some((What::Nutrient(Nutrient::Energy), Of::Hundred { raw: false })));
    assert_eq!(
        question("saturated fat in 100 g raw"),
        Some((What::Nutrient(Nutrient::SaturatedFat), Of::Hundred { raw: true }))
    );
    assert_eq!(question("calories per slab"), Some((What::Nutrient(Nutrient::Energy), Of::Piece)));
    assert_eq!(question("weight of one piece"), Some((What::Grams, Of::Piece)));
    assert_eq!(question("grams of the brown sugar"), Some((What::Grams, Of::Lines(vec![(1, 0)]))));
    assert_eq!(question("butter"), Some((What::Grams, Of::Lines(vec![(0, 1)]))));
    assert_eq!(question("line 6"), Some((What::Grams, Of::Lines(vec![(0, 0)]))));
    assert_eq!(question("fat"), Some((What::Nutrient(Nutrient::Fat), Of::Batch)));
}

#[test]
fn err_questions_that_are_not_understood_say_what_can_be_asked() {
    let wrong = read("sparkle per serving", &slab()).expect_err("no such figure");
    assert!(wrong.said.contains("sparkle") && wrong.mend.contains("“Frosting”"), "{wrong:?}");
    assert!(read("", &slab()).is_err());
    assert!(read("line 99", &slab()).is_err());
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
}

#[test]
fn err_a_cost_without_prices() {
    assert!(why(&slab(), "cost per serving", Pantry::ours(), None).is_err());
}
