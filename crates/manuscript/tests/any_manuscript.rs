//! Whole manuscripts of random parts: they are read soundly, the same each time, and what was plainly written is found.

use evencrumb_manuscript::{read, sound};
use proptest::prelude::*;

const FOODS: &[&str] = &["flour", "sugar", "butter", "egg", "milk", "salt", "lemon", "lemon zest", "brown sugar"];

fn title() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec!["Plain Cake", "CRÈME SLICE", "# Squares #", "🍐 Tart", "Loaf, my aunt’s", "l"])
}

fn fact() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec![
        "Makes 24 cookies, serves 12",
        "Oven: 180C / 160C fan / gas 4",
        "Serves 4 to 6 | 12-inch pan | 450°F | 25 minutes, plus a rest",
        "Prep: ½ hour",
        "Storage: airtight, 1 week; or frozen",
    ])
}

fn heading() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec![
        "Ingredients",
        "For the sponge:",
        "**Glaze**:",
        "~ Filling ~",
        "Zutaten",
        "TOPPING",
        "Method",
        "Notes:",
        "---",
        "",
        "Nutrition facts",
    ])
}

fn line() -> impl Strategy<Value = String> {
    let amount = prop::sample::select(vec!["1 1/2 cups", "200 g", "½ tsp.", "l cup", "2", "", "a pinch of", "1/0 cup"]);
    let food = prop::sample::select(vec!["flour", "brown sugar", "eggs", "moon dust", "lemon", "ﬂour", "sel"]);
    let tail =
        prop::sample::select(vec!["", ", sifted", " (about 4 oz)", " or milk", " ..... 3 g", " and", ", zested –"]);
    (amount, food, tail).prop_map(|(amount, food, tail)| format!("{amount} {food}{tail}"))
}

fn step() -> impl Strategy<Value = String> {
    let verb = prop::sample::select(vec!["Whisk", "1. Fold in", "Step 2: Bake", "add", "“Beat", "The batter weighs"]);
    let object =
        prop::sample::select(vec!["the flour", "both sugars", "212 g a cup", "at 350 deg. F", "half of the é"]);
    let end = prop::sample::select(vec![" until golden.", " for 20 to 25 minutes!", ".", "", " (see note", "\u{301}."]);
    (verb, object, end).prop_map(|(verb, object, end)| format!("{verb} {object}{end}"))
}

/// Rows of a manuscript in any order, each with what may open it in a list, joined with one kind of line end.
fn manuscript() -> impl Strategy<Value = String> {
    let row = prop_oneof![
        1 => title().prop_map(str::to_owned),
        2 => fact().prop_map(str::to_owned),
        3 => heading().prop_map(str::to_owned),
        6 => line(),
        4 => step(),
        1 => "\\PC{0,30}",
    ];
    let opener = prop::sample::select(vec!["", "", "", "- ", "• ", "\t", "  ", "3) ", "[ ] ", "> ", "| ", "\u{FEFF}"]);
    let rows = prop::collection::vec((opener, row), 0..40);
    let end = prop::sample::select(vec!["\n", "\r\n", "\r", "\n\n", "\u{2028}", "\t\n"]);
    (rows, end)
        .prop_map(|(rows, end)| rows.iter().map(|(opener, row)| format!("{opener}{row}")).collect::<Vec<_>>().join(end))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn ok_rows_in_any_order(text in manuscript()) {
        let manuscript = read(&text, FOODS);
        prop_assert_eq!(sound::manuscript(&text, &manuscript), Ok(()));
        prop_assert_eq!(read(&text, FOODS), manuscript);
    }

    /// However the rows end, a plain recipe keeps its parts.
    #[test]
    fn ok_a_plain_recipe_with_any_line_ends(
        grams in prop::collection::vec(1u32..900, 1..6),
        bullet in prop::sample::select(vec!["", "- ", "• ", "* "]),
        end in prop::sample::select(vec!["\n", "\r\n", "\r"]),
    ) {
        let names = ["flour", "sugar", "butter", "milk", "salt"];
        let mut rows = vec!["Plain Cake".to_owned(), String::new(), "Ingredients".to_owned()];
        rows.extend(grams.iter().zip(names).map(|(grams, name)| format!("{bullet}{grams} g {name}")));
        rows.extend([String::new(), "Method".to_owned(), "1. Mix all and bake for 20 minutes.".to_owned()]);
        let text = rows.join(end);
        let manuscript = read(&text, FOODS);
        prop_assert_eq!(manuscript.title.as_deref(), Some("Plain Cake"));
        let lines: Vec<&str> = manuscript.components.iter().flat_map(|part| &part.lines).map(|line| line.text.as_str()).collect();
        let written: Vec<String> = grams.iter().zip(names).map(|(grams, name)| format!("{grams} g {name}")).collect();
        prop_assert_eq!(lines, written);
        prop_assert_eq!(manuscript.steps.len(), 1);
    }
}
