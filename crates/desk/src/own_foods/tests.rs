#![allow(clippy::disallowed_methods, reason = "lays files out for the tests")]

use super::*;

use evencrumb_pantry::weigh::Kitchen;
use evencrumb_sheet::line;

/// A kitchen folder with this `foods.toml`.
fn kitchen(foods: Option<&[u8]>) -> (tempfile::TempDir, Found) {
    let home = tempfile::tempdir().expect("a temporary folder");
    std::fs::write(home.path().join("kitchen.toml"), "").expect("written");
    if let Some(foods) = foods {
        std::fs::write(home.path().join(FILE), foods).expect("written");
    }
    let found = beside(&kitchen::beside(home.path()));
    (home, found)
}

fn best(line: &str, pantry: &Pantry) -> f64 {
    let weighed = line::weigh(line, pantry, Kitchen::default());
    weighed.foods[0].weighed.grams.as_ref().expect("a weight").best()
}

#[test]
fn ok_the_demo_is_read_without_faults_and_weighs_with_its_own_cup() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo");
    let found = beside(&kitchen::beside(&demo.join("recipes")));
    assert!(found.file.is_some());
    assert_eq!(found.faults, [""; 0]);
    assert!((best("1 cup pecan flour", Pantry::ours()) - 80.0).abs() < 1e-9);
    assert!((best("1 cup pecan flour", &found.pantry) - 290.0 / 3.0).abs() < 1e-9, "the mean of 96, 101 and 93 g");
    assert!((best("2 tablespoons crunchy seeds", &found.pantry) - 18.0).abs() < 1e-9);
    let named = |word| found.pantry.named(word).map(|id| found.pantry.food(id).name.clone());
    assert_eq!(named("squash puree"), named("canned pumpkin"));
    assert_eq!(found.notes.len(), 1, "squash puree meant another food: {:?}", found.notes);
}

#[test]
fn ok_outside_a_kitchen_and_without_the_file_the_foods_are_ours() {
    let nowhere = beside(&kitchen::Found::default());
    assert!(nowhere.file.is_none() && nowhere.faults.is_empty());
    let (_home, empty) = kitchen(None);
    assert!(empty.file.is_none() && empty.faults.is_empty());
    assert!((best("1 cup pecan flour", &empty.pantry) - 80.0).abs() < 1e-9);
}

#[test]
fn err_faults_name_file_line_and_mend_and_the_rest_works() {
    let (home, found) =
        kitchen(Some(b"[[weighing]]\nfood = \"pecan flour\"\nmeasure = \"1 cup\"\ngrams = [96, -101]\n"));
    let file = home.path().canonicalize().expect("a folder").join(FILE);
    let expected = format!(
        "{}, line 4: pecan flour: `grams` is -101, below zero. Write grams = 101, if that is meant; it is not used.",
        file.display()
    );
    assert_eq!(found.faults, [expected]);
    assert!((best("1 cup pecan flour", &found.pantry) - 96.0).abs() < 1e-9);
}

#[test]
fn err_bytes_that_are_no_text_keep_the_rest() {
    let (_home, found) =
        kitchen(Some(b"# caf\xe9\n[[weighing]]\nfood = \"pecan flour\"\nmeasure = \"1 cup\"\ngrams = [96]\n"));
    assert_eq!(found.faults.len(), 1, "{:?}", found.faults);
    assert!(found.faults[0].contains("Save it as UTF-8"));
    assert!((best("1 cup pecan flour", &found.pantry) - 96.0).abs() < 1e-9);
}

/// What is odd of one food is told with that food, and not whenever another is asked of.
#[test]
fn ok_an_odd_weighing_is_told_with_its_food() {
    let (_home, found) = kitchen(Some(b"[[weighing]]\nfood = \"dates\"\nmeasure = \"10\"\ngrams = [190, 200]\n"));
    assert_eq!(found.faults, [""; 0]);
    let [(food, words)] = found.odd.as_slice() else { panic!("{:?}", found.odd) };
    assert_eq!(Some(*food), found.pantry.named("date"));
    assert!(words.contains("but 53 to 95 g are usual"), "{words}");
}

/// The examples in a new folder's file are read once their `#` is taken away.
#[test]
fn ok_the_examples_of_a_new_file_are_sound() {
    let new = include_str!("../../data/new/foods.toml");
    let is_example = |line: &str| line.starts_with("[[") || line.split(' ').nth(1) == Some("=");
    let examples: Vec<&str> =
        new.lines().filter_map(|line| line.strip_prefix("# ")).filter(|line| is_example(line)).collect();
    assert_eq!(examples.iter().filter(|line| line.starts_with("[[")).count(), 4);
    let own = own::read(FILE, &examples.join("\n"), Kitchen::default());
    assert_eq!(own.remarks, []);
    assert!((best("1 cup oat flour", &own.pantry) - 290.0 / 3.0).abs() < 1e-9);
    assert_eq!(own::read(FILE, new, Kitchen::default()).remarks, []);
}
