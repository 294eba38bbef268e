//! Commands inside a kitchen folder, where `foods.toml` says what its author knows.

use std::fs;
use std::path::{Path, PathBuf};

use insta::assert_snapshot;

use crate::program::{Ran, run, run_in};

/// The demo's kitchen without its recipes, to be written to.
fn kitchen() -> tempfile::TempDir {
    let home = tempfile::tempdir().expect("a temporary folder");
    let demo = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../demo");
    for name in ["kitchen.toml", "foods.toml"] {
        fs::copy(demo.join(name), home.path().join(name)).expect("copied");
    }
    home
}

/// What was printed, when nothing was complained of.
fn fine(ran: Ran) -> String {
    assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{}", ran.out);
    ran.out
}

#[test]
fn ok_lines_are_weighed_with_the_author_s_own_foods() {
    let home = kitchen();
    let lines = ["weigh", "1 cup pecan flour", "2 tbsp seed topping", "1/4 cup pear syrup", "1 cup squash puree"];
    assert_snapshot!(fine(run_in(home.path(), &lines)));
    let outside = tempfile::tempdir().expect("a temporary folder");
    assert!(fine(run_in(outside.path(), &["weigh", "1 cup pecan flour"])).contains("pecan flour: 80 g (60 to 113)"));
}

#[test]
fn ok_a_food_tells_what_is_the_author_s_own() {
    let home = kitchen();
    let head = |name: &str| {
        let told = fine(run_in(home.path(), &["food", name]));
        told.split("\n\n").take(3).collect::<Vec<_>>().join("\n\n")
    };
    let foods = ["pecan flour", "pear syrup", "seed crunch", "squash puree"];
    assert_snapshot!(foods.map(head).join("\n\n"));
    let json = fine(run_in(home.path(), &["food", "--json", "pecan flour"]));
    assert!(json.contains("\"words\": \"my dented steel cup, 3 weighings: 96, 101, 93 g\""), "{json}");
}

/// The sheet and the measures stand on the same foods as `weigh`: 290 g in three cups are 96.7 g in one.
#[test]
fn ok_sheet_and_measures_use_them_too() {
    let home = kitchen();
    fs::create_dir(home.path().join("recipes")).expect("made");
    let recipe = home.path().join("recipes/cake.txt");
    fs::write(&recipe, "Cake\n\n3 cups pecan flour\n100 g sugar\n\n1. Stir and bake.\n").expect("written");
    let sheet = fine(run(&["sheet", &recipe.display().to_string()]));
    assert!(sheet.contains("290 g"), "{sheet}");
    let measures = fine(run_in(&home.path().join("recipes"), &["measures", "290 g pecan flour"]));
    assert!(measures.contains("3 cups"), "{measures}");
}

#[test]
fn ok_a_weighing_is_written_down_and_counts_from_then_on() {
    let home = kitchen();
    let before = fs::read_to_string(home.path().join("foods.toml")).expect("it is there");
    let out =
        fine(run_in(home.path(), &["weighed", "1 cup of oat flour", "96", "101", "93g", "--whose", "my steel cup"]));
    let (figures, written) = out.split_once("Written into").expect("it says where");
    assert!(written.contains("foods.toml"));
    assert_snapshot!(figures);
    let now = fs::read_to_string(home.path().join("foods.toml")).expect("it is there");
    let row =
        "\n[[weighing]]\nfood = \"oat flour\"\nmeasure = \"1 cup\"\ngrams = [96, 101, 93]\nwhose = \"my steel cup\"\n";
    assert_eq!(now.replacen(row, "", 1), before);
    assert!(fine(run_in(home.path(), &["weigh", "1 cup oat flour"])).contains("oat flour: 97 g (83 to 110)"));
}

#[test]
fn err_a_weighing_that_is_not_understood_changes_nothing() {
    let home = kitchen();
    let file = home.path().join("foods.toml");
    let before = fs::read(&file).expect("it is there");
    let refused = |folder: &Path, line: &str| {
        let ran = run_in(folder, &["weighed", line, "96"]);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""));
        ran.err
    };
    let lines = ["1 cup moon dust", "100 g oat flour", "a heaped cup of oat flour", "For the sponge:"];
    assert_snapshot!(lines.map(|line| refused(home.path(), line)).join(""));
    assert_eq!(fs::read(&file).expect("it is there"), before);
    fs::write(&file, "[[weighing]\n").expect("written");
    assert!(refused(home.path(), "1 cup oat flour").contains("was left as it is: line 1 could not be read"));
    assert_eq!(fs::read(&file).expect("it is there"), b"[[weighing]\n");
    let outside = tempfile::tempdir().expect("a temporary folder");
    assert!(refused(outside.path(), "1 cup oat flour").contains("no kitchen.toml here"));
    assert_eq!(run_in(home.path(), &["weighed", "1 cup oat flour", "0"]).status, 2, "nothing weighs 0 g");
}

#[test]
fn err_a_fault_is_named_and_the_rest_is_weighed() {
    let home = kitchen();
    fs::write(home.path().join("foods.toml"), "[[meaning]]\nword = \"stardust\"\nfood = \"moon dust\"\n")
        .expect("written");
    let ran = run_in(home.path(), &["weigh", "1 cup pecan flour"]);
    assert!(ran.err.contains("foods.toml, line 1: stardust: “stardust” is to mean “moon dust”"), "{}", ran.err);
    assert!(ran.out.contains("pecan flour: 80 g"), "{}", ran.out);
}

/// One cup among three that does not belong to the others is left out, and said; by hand (100 + 101) / 2.
#[test]
fn ok_a_weighing_that_does_not_belong_to_the_others_is_written_and_left_out() {
    let home = kitchen();
    let told = fine(run_in(home.path(), &["weighed", "1 cup rye flour", "100", "101", "160"]));
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains("now: 100 g (") || told.contains("now: 101 g ("), "{told}");
    assert!(
        told.contains("160 g is far from the 101 g that 1 cup of it should weigh by the other weighings"),
        "{told}"
    );
    assert!(told.contains("it was not counted"), "{told}");
}

/// Three teaspoons are a tablespoon of the same salt, whichever spoon she weighed: 15.3 g.
#[test]
fn ok_a_weighed_teaspoon_counts_for_tablespoons_and_the_other_way() {
    let home = kitchen();
    fine(run_in(home.path(), &["weighed", "1 teaspoon salt", "5", "5.2"]));
    let told = fine(run_in(home.path(), &["weigh", "2 teaspoons salt", "1 tablespoon salt"]));
    assert!(told.contains("10.2 g") && told.contains("15.3 g"), "{told}");
    let home = kitchen();
    fine(run_in(home.path(), &["weighed", "1 tablespoon salt", "15", "15.6"]));
    let told = fine(run_in(home.path(), &["weigh", "2 teaspoons salt", "1 tablespoon salt"]));
    assert!(told.contains("10.2 g") && told.contains("15.3 g"), "{told}");
}

/// A piece of "ginger" is the root, though the word alone is the powder.
#[test]
fn ok_a_weighing_says_which_food_it_counts_for() {
    let home = kitchen();
    let told = fine(run_in(home.path(), &["weighed", "1-inch piece ginger", "9", "11"]));
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains("this counts for ginger root") && !told.contains("ground ginger"), "{told}");
    let told = fine(run_in(home.path(), &["weigh", "2-inch piece ginger"]));
    assert!(told.contains("ginger root: 20"), "{told}");
}
