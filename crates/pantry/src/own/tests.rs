use evencrumb_manuscript::line;
use evencrumb_measure::Custom;
use insta::assert_snapshot;
use proptest::prelude::*;

use super::*;
use crate::nutrient::Nutrient;
use crate::weigh::{Weighed, weigh};
use crate::{contents, row::Allergen};

fn own(text: &str) -> Own {
    read("foods.toml", text, Kitchen::default())
}

fn weighed(line: &str, pantry: &Pantry, kitchen: Kitchen) -> Weighed {
    let read = line::read(line, pantry);
    weigh(&read.foods[0], None, pantry, kitchen)
}

/// Best, low and high in whole grams.
fn grams(line: &str, pantry: &Pantry) -> String {
    let range = weighed(line, pantry, Kitchen::default()).grams.expect("a weight").range();
    format!("{:.0} ({:.0} to {:.0})", range.best(), range.low(), range.high())
}

fn remarks(own: &Own) -> String {
    own.remarks.iter().map(|remark| format!("{}: {}\n", remark.weight.word(), remark.fault)).collect()
}

const STEEL_CUP: &str = "[[weighing]]\nfood = \"pecan flour\"\nmeasure = \"1 cup\"\ngrams = [96, 101, 93]\nwhose = \"my dented steel cup\"\n";

/// By hand: the mean of 96, 101 and 93 is 96.67, s is 4.04, t for two degrees 2.92: ± 2.92 · 4.04 · √(4/3) = ± 13.6.
#[test]
fn ok_a_weighing_replaces_the_value_and_narrows_the_range() {
    let own = own(STEEL_CUP);
    assert_eq!(remarks(&own), "");
    assert_eq!(grams("1 cup pecan flour", Pantry::ours()), "80 (60 to 113)");
    assert_eq!(grams("1 cup pecan flour", &own.pantry), "97 (83 to 110)");
    assert_eq!(grams("1 cup pecan meal", &own.pantry), "97 (83 to 110)", "every name of it");
    assert_eq!(grams("1/2 cup pecan flour", &own.pantry), "48 (42 to 55)");
    assert_eq!(grams("1 cup dipped pecan flour", &own.pantry), "96 (72 to 129)", "she weighed none that was dipped");
    let basis = &weighed("1 cup pecan flour", &own.pantry, Kitchen::default()).basis;
    assert_eq!(basis[0].source.id, "own");
    assert_snapshot!(basis[0].words, @"a cup of pecan flour weighs 97 g (83 to 110), my dented steel cup, 3 weighings: 96, 101, 93 g");
}

/// A food that she weighed is counted once, and hers stands in the place of ours.
#[test]
fn ok_every_food_once() {
    let text = format!("{STEEL_CUP}[[food]]\nname = \"pear molasses\"\nlike = \"molasses\"\n");
    let pantry = own(&text).pantry;
    assert_eq!(pantry.foods().count(), Pantry::ours().foods().count() + 1);
    let pecan: Vec<_> = pantry.foods().filter(|food| food.name == "pecan flour").collect();
    assert_eq!(pecan.len(), 1);
    assert_eq!(pecan[0].cup[0].grams.from.source.id, "own");
}

/// Each measure of a food is her own, and none takes another's place.
#[test]
fn ok_several_measures_of_one_food() {
    let weighing = |measure: &str, grams: &str| {
        format!("[[weighing]]\nfood = \"butter\"\nmeasure = \"{measure}\"\ngrams = [{grams}]\n")
    };
    let text = weighing("1 stick", "112") + &weighing("1 knob", "12, 14") + &weighing("1 cup", "221, 223");
    let pantry = own(&text).pantry;
    for (line, mean) in [("1 stick butter", "112 ("), ("1 knob butter", "13 ("), ("1 cup butter", "222 (")] {
        assert!(grams(line, &pantry).starts_with(mean), "{line}: {}", grams(line, &pantry));
    }
    assert_eq!(pantry.foods().filter(|food| food.name == "unsalted butter").count(), 1);
}

/// By the words of the measure, she sifted before she filled; ", sifted" behind a food would be after.
#[test]
fn ok_a_cup_that_was_filled_in_a_way_is_no_plain_cup() {
    let text = "[[weighing]]\nfood = \"all-purpose flour\"\nmeasure = \"1 cup, sifted\"\ngrams = [100]\n\
                [[weighing]]\nfood = \"walnuts\"\nmeasure = \"1 cup, chopped\"\ngrams = [115]\n";
    let own = own(text);
    assert_eq!(remarks(&own), "");
    for line in ["1 cup flour", "1 cup walnuts", "1 cup flour, sifted"] {
        assert_eq!(grams(line, &own.pantry), grams(line, Pantry::ours()), "{line}");
    }
    assert!(grams("1 cup sifted flour", &own.pantry).starts_with("100 ("));
    assert!(grams("1 cup chopped walnuts", &own.pantry).starts_with("115 ("));
}

/// A file of which the end is missing: nobody knows what else stood in the list.
#[test]
fn err_a_list_of_grams_without_an_end() {
    let text = STEEL_CUP.split(" 101").next().unwrap_or_default();
    let own = own(text);
    assert!(remarks(&own).contains("pecan flour: its list of grams has no end"), "{}", remarks(&own));
    assert_eq!(grams("1 cup pecan flour", &own.pantry), grams("1 cup pecan flour", Pantry::ours()));
}

#[test]
fn ok_one_weighing_is_half_as_unsure_as_the_usual_cup() {
    // Filled by one cook, the usual cup lies up to 41 % from its best value (80, 72 to 113), so one weighing lies up to 20.6 %.
    let own = own("[[weighing]]\nfood = \"pecan flour\"\nmeasure = \"1 cup\"\ngrams = 100\n");
    assert_eq!(grams("1 cup pecan flour", &own.pantry), "100 (79 to 121)");
    assert_eq!(remarks(&own), "");
}

#[test]
fn ok_weighings_that_agree_are_still_a_little_unsure_and_those_that_do_not_are_no_less_sure_than_anybody() {
    let same = own("[[weighing]]\nfood = \"pecan flour\"\nmeasure = \"1 cup\"\ngrams = [100, 100, 100]\n");
    assert_eq!(grams("1 cup pecan flour", &same.pantry), "100 (97 to 103)");
    let two = own("[[weighing]]\nfood = \"pecan flour\"\nmeasure = \"1 cup\"\ngrams = [80, 100]\n");
    assert_eq!(grams("1 cup pecan flour", &two.pantry), "90 (53 to 127)");
}

#[test]
fn ok_weighings_with_several_measures_are_one_figure() {
    let text = "[[weighing]]\nfood = \"oat flour\"\nmeasure = \"1 cup\"\ngrams = [100]\nwhose = \"blue cup\"\n\
                [[weighing]]\nfood = \"oat flour\"\nmeasure = \"1/2 cup\"\ngrams = [52]\nwhose = \"small cup\"\n";
    let own = own(text);
    assert!(grams("1 cup oat flour", &own.pantry).starts_with("102 ("));
    let basis = weighed("1 cup oat flour", &own.pantry, Kitchen::default()).basis;
    assert!(
        basis[0].words.ends_with("blue cup, 1 weighing: 100 g; small cup, 1 weighing of 1/2 cup: 52 g"),
        "{basis:?}"
    );
}

/// Her metric cup comes back as she weighed it, whatever a US cup holds.
#[test]
fn ok_her_cup_is_the_cup_of_her_kitchen() {
    let kitchen = Kitchen { custom: Custom::Metric, ..Kitchen::default() };
    let own = read("foods.toml", STEEL_CUP, kitchen);
    let best = |line| weighed(line, &own.pantry, kitchen).grams.expect("a weight").best();
    assert!((best("1 cup pecan flour") - 290.0 / 3.0).abs() < 1e-9);
    assert!((best("250 ml pecan flour") - 290.0 / 3.0).abs() < 1e-9);
}

#[test]
fn ok_a_way_that_she_names_is_the_only_one_that_changes() {
    let text = "[[weighing]]\nfood = \"buckwheat flour\"\nmeasure = \"1 cup, spooned\"\ngrams = [110, 112, 111]\n";
    let own = own(text);
    assert_eq!(remarks(&own), "");
    assert_eq!(grams("1 cup spooned buckwheat flour", &own.pantry), "111 (108 to 114)");
    assert_eq!(grams("1 cup dipped buckwheat flour", &own.pantry), "136 (101 to 182)");
}

#[test]
fn ok_pieces_and_spoons() {
    let text = "[[weighing]]\nfood = \"banana\"\nmeasure = \"1 piece\"\ngrams = [100, 104, 108]\n\
                [[weighing]]\nfood = \"baking powder\"\nmeasure = \"1 teaspoon\"\ngrams = [5, 5]\n\
                [[weighing]]\nfood = \"egg\"\nmeasure = \"1 piece\"\ngrams = [52, 54, 53]\n";
    let own = own(text);
    assert_eq!(remarks(&own), "");
    assert!(grams("2 bananas", &own.pantry).starts_with("208 ("));
    assert!(grams("2 tsp baking powder", &own.pantry).starts_with("10 ("));
    assert!(grams("1 egg", &own.pantry).starts_with("53 ("));
    assert!(grams("1 jumbo egg", &own.pantry) == grams("1 jumbo egg", Pantry::ours()));
}

#[test]
fn err_a_weighing_out_of_the_usual_is_taken_and_asked_about() {
    let own = own("[[weighing]]\nfood = \"pecan flour\"\nmeasure = \"1 cup\"\ngrams = [196, 201]\nwhose = \"jug\"\n");
    assert!(grams("1 cup pecan flour", &own.pantry).starts_with("198 ("));
    assert_snapshot!(remarks(&own), @r#"
    look: foods.toml:1  pecan flour: 1 cup of it weighs 198 g (jug, 2 weighings: 196, 201 g), but 60 to 113 g are usual
        mend  your weighing was taken; look whether food and measure are right and the scale stood at zero
    "#);
}

#[test]
fn ok_a_food_that_is_like_another() {
    let text = "[[food]]\nname = \"pear syrup\"\nlike = \"pear molasses\"\nallergens = [\"sulphite\"]\n\
                [[food]]\nname = \"pear molasses\"\nalso = [\"boiled pear juice\"]\nlike = \"molasses\"\n";
    let own = own(text);
    assert_eq!(remarks(&own), "");
    assert_eq!(grams("1 cup boiled pear juice", &own.pantry), grams("1 cup molasses", Pantry::ours()));
    let food = own.pantry.food(own.pantry.named("Pear Syrup").expect("hers"));
    let molasses = Pantry::ours().named("molasses").expect("ours");
    assert_eq!(
        contents::holds(food, Nutrient::Sugars, &own.pantry),
        contents::holds(own.pantry.food(molasses), Nutrient::Sugars, &own.pantry)
    );
    assert!(food.allergens.contains(&Allergen::Sulphite));
    let basis = weighed("1 cup pear molasses", &own.pantry, Kitchen::default()).basis;
    assert_snapshot!(basis.last().expect("a basis").words, @"pear molasses is weighed as molasses");
}

#[test]
fn ok_what_a_label_says_and_no_more() {
    let text = "[[food]]\nname = \"seed crunch\"\nfrom = \"package label\"\nenergy = 560\nfat = 45.0\nsalt = 0.45\n\
                tablespoon_grams = 9\nallergens = [\"sesame\"]\ngluten = \"none\"\n";
    let own = own(text);
    assert_eq!(remarks(&own), "");
    let food = own.pantry.food(own.pantry.named("seed crunch").expect("hers"));
    let held = |nutrient| contents::holds(food, nutrient, &own.pantry).map(|held| held.range.best());
    assert_eq!((held(Nutrient::Energy), held(Nutrient::Fat)), (Some(560.0), Some(45.0)));
    assert_eq!(held(Nutrient::Sodium), Some(180.0), "0.45 g of salt, divided by 2.5");
    assert_eq!(held(Nutrient::Protein), None, "what is not printed is not zero");
    assert_eq!(grams("2 tablespoons seed crunch", &own.pantry), "18 (15 to 21)");
    let basis = weighed("1 tablespoon seed crunch", &own.pantry, Kitchen::default()).basis;
    assert!(basis[0].words.ends_with("from the package label"), "{basis:?}");
}

#[test]
fn err_salt_and_sodium_that_disagree() {
    let own = own("[[food]]\nname = \"seed crunch\"\nsalt = 1.2\nsodium_mg = 180\nfat = 450\n");
    assert_snapshot!(remarks(&own), @r"
    must mend: foods.toml:3  seed crunch: that salt holds 480 mg of sodium, but sodium_mg says 180
        mend  look at the label again; sodium_mg was taken
    must mend: foods.toml:5  seed crunch: 450 g of fat in 100 g
        mend  write it for 100 g; it was left unknown
    ");
}

#[test]
fn ok_her_meaning_wins_and_a_note_says_so() {
    let own = own(
        "[[meaning]]\nword = \"squash puree\"\nfood = \"canned pumpkin\"\n[[meaning]]\nword = \"crunchy sugar\"\nfood = \"turbinado sugar\"\n",
    );
    let named = |word| own.pantry.named(word).map(|id| own.pantry.food(id).name.clone());
    assert_eq!(named("squash purée"), named("canned pumpkin"));
    assert_eq!(named("crunchy sugar"), named("turbinado sugar"));
    assert_snapshot!(remarks(&own), @r#"
    note: foods.toml:1  squash puree: “squash puree” means butternut squash puree where you do not say otherwise
        mend  your meaning was taken
    "#);
    let near = own.pantry.nearest("crunchi sugar", 1);
    assert_eq!(Some(near[0].food.name.clone()), named("turbinado sugar"), "her words are near, too");
}

#[test]
fn err_every_fault_is_named_and_the_rest_works() {
    let text = r#"tea = 3
[[weighing]]
food = "pecan flour"
measure = "1 cup"
grams = [96, -5, 0, "many"]
scale = "old"
[[weighing]]
food = "moon dust"
measure = "1 cup"
grams = [3]
[[weighing]]
food = "oat flour"
measure = "100 g"
grams = [3]
[[weighing]]
food = "oat flour"
measure = "1 cup"
[[weighing]]
measure = "1 cup"
[[food]]
name = "pear molasses"
like = "moon dust"
[[food]]
name = "plain thing"
colour = "red"
[[food]]
name = "seed crunch"
fat = -1
gluten = "perhaps"
[[food]]
also = ["nothing"]
[[meaning]]
word = "crunchy sugar"
food = "moon dust"
[[meaning]]
word = "crunchy sugar"
[[meaning]]
word = "butter"
food = "lard"
"#;
    let own = own(text);
    assert_snapshot!(remarks(&own), @r#"
    must mend: foods.toml:1  a food without a name: `tea` is none of them
        mend  begin what you know with [[weighing]], [[food]] or [[meaning]]; it was passed over
    must mend: foods.toml:5  pecan flour: `grams` is -5, below zero
        mend  write grams = 5, if that is meant; it is not used
    must mend: foods.toml:5  pecan flour: a weighing of 0 g
        mend  take it out; it was not counted
    must mend: foods.toml:5  pecan flour: `grams` is not a number
        mend  write grams = 120, say; it is not used
    must mend: foods.toml:6  pecan flour: `scale` is not a word of a row
        mend  one of: food, measure, grams, whose, sure
    must mend: foods.toml:7  moon dust: “moon dust” is no food known here
        mend  the weighing was passed over. Write a name that `evencrumb food` knows
    must mend: foods.toml:11  oat flour: “100 g” is no measure that can be filled and weighed
        mend  write "1 cup", "2 tablespoons", "1 packed cup" or "1 piece", say; it was passed over
    must mend: foods.toml:15  oat flour: no grams were read
        mend  write grams = [96, 101, 93], one number for each time; it was passed over
    must mend: foods.toml:18  a food without a name: a weighing needs a food and a measure
        mend  write food = "oat flour", measure = "1 cup" and grams = [96, 101, 93]; it was passed over
    must mend: foods.toml:20  pear molasses: it is like “moon dust”, which is no food known here
        mend  it was taken as a food of which only this row is known. Write a name that `evencrumb food` knows
    must mend: foods.toml:23  plain thing: nothing is said of it but its name
        mend  write like = "…", or what its label says; until then it has neither weight nor nutrients
    must mend: foods.toml:25  plain thing: `colour` is not a word of a row
        mend  one of: like, from, salt, energy, fat and the other nutrients, cup_grams, tablespoon_grams, piece_grams, name, also, table, stand_in, cup, teaspoon, piece, edible, juice, zest, allergens, gluten, sugar, roles, strict, meant, composition, abroad, parts, parts_from
    must mend: foods.toml:26  seed crunch: nothing is said of it but its name
        mend  write like = "…", or what its label says; until then it has neither weight nor nutrients
    must mend: foods.toml:28  seed crunch: `fat` is -1, below zero
        mend  write fat = 1, if that is meant; it is not used
    must mend: foods.toml:29  seed crunch: `perhaps` is not a gluten
        mend  one of: none, contains, oats, check
    must mend: foods.toml:30  a food without a name: it has no name
        mend  write name = "…"; the row is not used
    must mend: foods.toml:32  crunchy sugar: “crunchy sugar” is to mean “moon dust”, which is no food known here
        mend  “crunchy sugar” means nothing. Write a name that `evencrumb food` knows
    must mend: foods.toml:35  crunchy sugar: a meaning needs a word and a food
        mend  write word = "…" and food = "…"; it was passed over
    note: foods.toml:37  butter: “butter” means unsalted butter where you do not say otherwise
        mend  your meaning was taken
    "#);
    assert!(grams("1 cup pecan flour", &own.pantry).starts_with("96 ("));
    let lard = own.pantry.named("butter").map(|id| own.pantry.food(id).name.as_str());
    assert_eq!(lard, Some("lard"));
}

#[test]
fn err_half_written_text_keeps_what_stands_around_it() {
    let own = own(&format!("{STEEL_CUP}\n[[food]]\nname = \"pear\n[[meaning]]\nword = \"x y z\"\nfood = \"honey\"\n"));
    assert!(remarks(&own).contains("foods.toml:8"), "{}", remarks(&own));
    assert_eq!(grams("1 cup pecan flour", &own.pantry), "97 (83 to 110)");
}

proptest! {
    /// Whatever is cut out of or put into a file, reading gives foods and remarks and does not stop.
    #[test]
    fn ok_nothing_stops_the_reader(at in 0..400_usize, length in 0..40_usize, put in "[\\[\\]{}=\"'a-z0-9 \n#.,-]{0,12}") {
        let mut text = format!("{STEEL_CUP}[[food]]\nname = \"seed crunch\"\nsalt = 0.45\nlike = \"granola\"\ntablespoon_grams = 9\n[[meaning]]\nword = \"nib\"\nfood = \"cocoa nibs\"\n");
        let start = at.min(text.len());
        let end = (start + length).min(text.len());
        text.replace_range(start..end, &put);
        let own = own(&text);
        prop_assert!(own.pantry.named("all-purpose flour").is_some());
        prop_assert!(own.remarks.iter().all(|remark| remark.fault.place.line <= text.lines().count() + 1));
    }
}

#[test]
fn err_a_weight_that_no_kitchen_weighs_is_left_out() {
    let text = "[[weighing]]\nfood = \"oat flour\"\nmeasure = \"1 cup\"\ngrams = 1e308\n\
                [[weighing]]\nfood = \"pecan flour\"\nmeasure = \"1 cup\"\ngrams = [96, 2]\n\
                [[food]]\nname = \"seed crunch\"\ncup_grams = 0\ntablespoon_grams = 9000\npiece_grams = 1e9\nlike = \"granola\"\n\
                [[food]]\nname = \"seed dust\"\ncup = [{ way = \"spooned\", best = 0 }]\nlike = \"granola\"\n";
    let own = own(text);
    assert_snapshot!(remarks(&own), @r"
    must mend: foods.toml:4  oat flour: 1e308 g is no weight that a kitchen scale says (0.01 g to 100 kg)
        mend  correct the number; it was not counted
    must mend: foods.toml:8  pecan flour: 2 g in a measure of 237 ml is lighter than any food
        mend  correct the number; it was not counted
    must mend: foods.toml:11  seed crunch: cup_grams: 0 g is no weight that a kitchen scale says (0.01 g to 100 kg)
        mend  correct it; it was left out
    must mend: foods.toml:12  seed crunch: tablespoon_grams: 9000 g in a measure of 15 ml is heavier than any food
        mend  correct it; it was left out
    must mend: foods.toml:13  seed crunch: piece_grams: 1e9 g is no weight that a kitchen scale says (0.01 g to 100 kg)
        mend  correct it; it was left out
    must mend: foods.toml:17  seed dust: 0 g is no weight that a kitchen scale says (0.01 g to 100 kg)
        mend  correct it; it was left out
    ");
    for line in ["1 cup oat flour", "1 cup granola"] {
        assert_eq!(grams(line, &own.pantry), grams(line, Pantry::ours()));
    }
    assert!(grams("1 cup pecan flour", &own.pantry).starts_with("96 ("));
    for name in ["seed crunch", "seed dust"] {
        assert_eq!(grams(&format!("1 cup {name}"), &own.pantry), grams("1 cup granola", Pantry::ours()));
    }
}

#[test]
fn err_a_slip_among_weighings_is_left_out_unless_she_is_sure() {
    let row = |grams: &str| format!("[[weighing]]\nfood = \"oat flour\"\nmeasure = \"1 cup\"\ngrams = {grams}\n");
    let slip = own(&row("[98, 980, 95]"));
    assert!(grams("1 cup oat flour", &slip.pantry).starts_with("96 ("), "{}", grams("1 cup oat flour", &slip.pantry));
    assert_snapshot!(remarks(&slip), @r"
    must mend: foods.toml:4  oat flour: 980 g in a measure of 237 ml is heavier than any food
        mend  correct the number; it was not counted
    ");
    assert_snapshot!(remarks(&own(&row("9.8"))), @r"
    must mend: foods.toml:4  oat flour: 9.8 g is far from the 104 g that 1 cup of it usually weighs
        mend  correct the number, or write sure = true in its row if it is so; it was not counted
    ");
    let cups = "[[weighing]]\nfood = \"oat flour\"\nmeasure = \"1/2 cup\"\ngrams = [48, 148]\n";
    assert_snapshot!(remarks(&own(&format!("{}{cups}", row("[98, 95, 97]")))), @r"
    must mend: foods.toml:8  oat flour: 148 g is far from the 48 g that 1/2 cup of it should weigh by the other weighings
        mend  correct the number, or write sure = true in its row if it is so; it was not counted
    ");
    let sure = own(&format!("{}sure = true\n", row("[98, 500, 95]")));
    assert!(grams("1 cup oat flour", &sure.pantry).starts_with("231 ("));
    assert!(!remarks(&sure).contains("must mend"), "{}", remarks(&sure));
}

#[test]
fn err_a_measure_with_words_that_nobody_understands() {
    for measure in ["1 furlong", "1 cupp", "-1 cup", "1 cup fooey"] {
        let own = own(&format!("[[weighing]]\nfood = \"oat flour\"\nmeasure = \"{measure}\"\ngrams = 96\n"));
        assert!(remarks(&own).contains("it was passed over"), "{measure}: {}", remarks(&own));
        assert_eq!(grams("1 cup oat flour", &own.pantry), grams("1 cup oat flour", Pantry::ours()), "{measure}");
    }
}

#[test]
fn err_foods_that_are_like_each_other_in_a_circle() {
    let own = own("[[food]]\nname = \"pear molasses\"\nlike = \"quince syrup\"\n\
                   [[food]]\nname = \"quince syrup\"\nlike = \"Pear Molasses\"\n\
                   [[food]]\nname = \"fig paste\"\nlike = \"fig paste\"\n\
                   [[food]]\nname = \"date paste\"\nlike = \"fig paste\"\n");
    assert_snapshot!(remarks(&own), @r"
    must mend: foods.toml:1  pear molasses: what it is like goes in a circle: pear molasses → quince syrup → pear molasses
        mend  say of one of them what it is like among other foods, or what its label says; it was taken as a food of which only this row is known
    must mend: foods.toml:4  quince syrup: what it is like goes in a circle: quince syrup → pear molasses → quince syrup
        mend  say of one of them what it is like among other foods, or what its label says; it was taken as a food of which only this row is known
    note: foods.toml:7  fig paste: “fig paste” means fig paste where you do not say otherwise
        mend  your meaning was taken
    note: foods.toml:10  date paste: “date paste” means date paste where you do not say otherwise
        mend  your meaning was taken
    ");
}

#[test]
fn err_a_circle_that_only_a_name_of_ours_opens() {
    let own = own(
        "[[food]]\nname = \"butter\"\nlike = \"pear spread\"\n[[food]]\nname = \"pear spread\"\nlike = \"butter\"\n",
    );
    let said = remarks(&own);
    assert!(
        said.contains("pear spread: what it is like goes in a circle: pear spread → butter → pear spread"),
        "{said}"
    );
    assert!(said.contains("the unsalted butter known here without your file was taken for “butter”"), "{said}");
}

#[test]
fn err_a_label_in_kilojoules_and_one_that_holds_more_than_all() {
    let own = own("[[food]]\nname = \"pear dust\"\nenergy = 1480\nfat = 3\n\
                   [[food]]\nname = \"pear juice mix\"\nenergy = 200\nfat = 0\ncarbohydrate = 11.5\nprotein = 0.3\n\
                   [[food]]\nname = \"pear paste\"\nfat = 40\ncarbohydrate = 50\nsugars = 45\nprotein = 30\n\
                   [[food]]\nname = \"pear cream\"\nfat = 4\nsaturated_fat = 9\nsodium_mg = 250000\n");
    assert_snapshot!(remarks(&own), @r#"
    must mend: foods.toml:3  pear dust: 1480 kcal in 100 g, more than pure fat has
        mend  these may be kilojoules: write energy = 354, if the label says 1480 kJ; it was left unknown
    must mend: foods.toml:5  pear juice mix: 200 kcal in 100 g, but its fat, carbohydrate and protein give some 47
        mend  these may be kilojoules: write energy = 48, if the label says 200 kJ; it was left unknown
    must mend: foods.toml:11  pear paste: fat, carbohydrate, protein are 120 g together in 100 g
        mend  look whether the label says them for 100 g; they were left unknown
    must mend: foods.toml:11  pear paste: nothing is said of it but its name
        mend  write like = "…", or what its label says; until then it has neither weight nor nutrients
    must mend: foods.toml:17  pear cream: 9 g of saturated fat are more than 4 g of fat
        mend  look at the label again; saturated fat was left unknown
    must mend: foods.toml:21  pear cream: 250000 mg of sodium_mg in 100 g
        mend  write it for 100 g; it was left unknown
    "#);
    let food = |name: &str| own.pantry.food(own.pantry.named(name).expect("hers"));
    assert!(contents::holds(food("pear dust"), Nutrient::Energy, &own.pantry).is_none());
    assert!(contents::holds(food("pear paste"), Nutrient::Fat, &own.pantry).is_none());
    let sound = super::read(
        "foods.toml",
        "[[food]]\nname = \"pear crunch\"\nenergy = 560\nfat = 45\ncarbohydrate = 21\nsugars = 2.5\nprotein = 22\nwater = 11\n",
        Kitchen::default(),
    );
    assert_eq!(remarks(&sound), "", "99 g");
}
