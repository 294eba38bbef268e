//! Files of a kitchen folder that are not as they should be: said in plain words, and never waited for.

use std::fs;
use std::path::Path;

use crate::program::{Ran, program, run, run_in};

/// A folder with a kitchen and a recipe that names one food.
fn kitchen() -> tempfile::TempDir {
    let home = tempfile::tempdir().expect("a temporary folder");
    fs::write(home.path().join("kitchen.toml"), "").expect("written");
    fs::write(home.path().join("cake.txt"), "Cake\n\n1 cup oat flour\n").expect("written");
    home
}

fn weighed(home: &Path, arguments: &[&str]) -> Ran {
    run_in(home, &[&["weighed"], arguments].concat())
}

#[test]
fn err_a_weighing_that_cannot_be_so_is_refused_and_nothing_is_written() {
    let home = kitchen();
    let file = home.path().join("foods.toml");
    let refused = |arguments: &[&str], why: &str| {
        let ran = weighed(home.path(), arguments);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{}", ran.err);
        assert!(ran.err.contains(why), "{arguments:?}: {}", ran.err);
        assert!(!file.exists(), "{arguments:?}");
    };
    refused(&["1 cup oat flour", "1e308"], "1e308 g is no weight that a kitchen scale says");
    refused(&["1 cup oat flour", "1e308", "--sure"], "1e308 g is no weight");
    refused(&["1 cup oat flour", "98", "380", "95"], "380 g is far from the 98 g");
    refused(&["1 cup oat flour", "98", "380", "95"], "--sure");
    refused(&["1 furlong oat flour", "96"], "“furlong” in “1 furlong” is neither a measure known here");
    refused(&["1 cup fooey oat flour", "96"], "fooey");
    refused(&["1 cup remaining oat flour", "96"], "remaining");
    refused(&["1 cup oat flour (see note)", "96"], "see note");
    refused(&["1 egg, beaten", "50"], "is no measure that can be filled and weighed");
    assert_eq!(weighed(home.path(), &["-1 cup oat flour", "96"]).status, 2);
    let sure = weighed(home.path(), &["1 cup oat flour", "98", "380", "95", "--sure"]);
    assert_eq!(sure.status, 0, "{}", sure.err);
    assert!(fs::read_to_string(&file).expect("written").contains("sure = true"));
}

#[test]
fn ok_a_weighing_under_another_name_says_which_food_it_counts_for() {
    let home = kitchen();
    let ran = weighed(home.path(), &["1 piece damson", "30"]);
    let whole = ran.out.replace('\n', " ");
    assert!(whole.contains("“damson” is known here as plum"), "{}{}", ran.out, ran.err);
    assert!(!weighed(home.path(), &["1 piece plum", "31"]).out.contains("is known here as"));
}

#[test]
fn ok_no_weighing_is_lost_among_twelve_at_once() {
    let home = kitchen();
    let started: Vec<_> = (0..12)
        .map(|at| {
            let grams = (90 + at).to_string();
            program().current_dir(home.path()).args(["weighed", "1 cup oat flour", &grams]).spawn().expect("it starts")
        })
        .collect();
    for child in started {
        let output = child.wait_with_output().expect("it ends");
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    }
    let text = fs::read_to_string(home.path().join("foods.toml")).expect("written");
    assert!((90..102).all(|grams| text.contains(&grams.to_string())), "{text}");
}

/// Each file of the folder in turn as a folder, a pipe, a link to nothing and a link in a circle.
#[cfg(unix)]
#[test]
fn err_what_is_no_file_is_said_and_the_rest_works() {
    use std::os::unix::fs::symlink;
    for name in ["kitchen.toml", "foods.toml", "prices.toml", "stock.toml", "cake.txt"] {
        for (what, words) in [
            ("folder", "it is a folder, not a file"),
            ("pipe", "it is a pipe or a device, not a file"),
            ("device", "it is a pipe or a device, not a file"),
            ("nothing", "it is a link to something that is not there"),
            ("circle", "it is a link that leads back to itself"),
        ] {
            let home = kitchen();
            let path = home.path().join(name);
            let _ = fs::remove_file(&path);
            match what {
                "folder" => fs::create_dir(&path).expect("made"),
                "pipe" => {
                    assert!(std::process::Command::new("mkfifo").arg(&path).status().expect("it runs").success());
                }
                "device" => symlink("/dev/zero", &path).expect("a link"),
                "nothing" => symlink("nowhere", &path).expect("a link"),
                _ => symlink(name, &path).expect("a link"),
            }
            let ran = run(&["sheet", "--json", &home.path().join("cake.txt").display().to_string()]);
            assert!(ran.err.contains(name) && ran.err.contains(words), "{name} as {what}: {}", ran.err);
            assert!(!ran.err.contains("os error"), "{}", ran.err);
            assert_eq!(ran.err.matches(words).count(), 1, "said once: {}", ran.err);
            if name == "cake.txt" {
                assert_eq!((ran.status, ran.out.as_str()), (2, ""));
            } else {
                assert_eq!(ran.status, 0);
                let answer: serde_json::Value = serde_json::from_str(&ran.out).expect("JSON");
                let faults = answer["kitchen_faults"].as_array().expect("a list");
                assert_eq!(faults.len(), 1, "{faults:?}");
                assert!(faults[0].as_str().is_some_and(|fault| fault.contains(words)));
            }
        }
    }
}

#[test]
fn err_faults_of_the_kitchen_stand_in_the_json_once() {
    let home = kitchen();
    let row = |grams: &str| format!("[[weighing]]\nfood = \"oat flour\"\nmeasure = \"1 cup\"\ngrams = {grams}\n");
    fs::write(home.path().join("foods.toml"), row("[180, 182, 181]")).expect("written");
    fs::write(home.path().join("kitchen.toml"), "eggs = \"huge\"\n").expect("written");
    let faults = |arguments: &[&str]| {
        let ran = run_in(home.path(), arguments);
        assert_eq!(ran.status, 0, "{}", ran.err);
        let answer: serde_json::Value = serde_json::from_str(&ran.out).expect("JSON");
        let faults: Vec<String> = serde_json::from_value(answer["kitchen_faults"].clone()).expect("sentences");
        assert_eq!(ran.err.lines().count(), faults.len(), "{}", ran.err);
        faults
    };
    let asked: [&[&str]; 6] = [
        &["weigh", "--json", "1 cup oat flour"],
        &["sheet", "--json", "cake.txt"],
        &["why", "--json", "cake.txt", "weight"],
        &["scale", "--json", "cake.txt", "--to", "half"],
        &["measures", "--json", "85 g oat flour"],
        &["food", "--json", "oat flour"],
    ];
    for arguments in asked {
        let told = faults(arguments);
        assert_eq!(told.len(), 2, "{told:?}");
        assert!(told[0].contains("eggs is \"huge\"") && told[1].contains("1 cup of it weighs 181 g"), "{told:?}");
    }
    // What is odd of the oats is nothing to somebody who asks of honey.
    let of_another: [&[&str]; 2] = [&["measures", "--json", "85 g honey"], &["food", "--json", "honey"]];
    for arguments in of_another {
        assert_eq!(faults(arguments).len(), 1);
    }
}

#[cfg(unix)]
#[test]
fn err_a_link_to_nothing_among_the_recipes_is_said_where_a_line_names_it() {
    let home = kitchen();
    std::os::unix::fs::symlink("nowhere", home.path().join("sponge.txt")).expect("a link");
    let err = || run_in(home.path(), &["sheet", "cake.txt"]).err;
    assert_eq!(err(), "", "no line names it");
    fs::write(home.path().join("cake.txt"), "Cake\n\n1 cup oat flour\n1 batch of the sponge\n").expect("written");
    let said = err();
    assert!(
        said.contains(
            "sponge.txt, which a line names, could not be read: it is a link to something that is not there. Take"
        ),
        "{said}"
    );
    assert_eq!(said.lines().count(), 1, "{said}");
    let json = run_in(home.path(), &["sheet", "--json", "cake.txt"]).out;
    let answer: serde_json::Value = serde_json::from_str(&json).expect("JSON");
    assert!(answer["kitchen_faults"][0].as_str().is_some_and(|fault| fault.contains("sponge.txt")), "{answer}");
}

#[test]
fn err_what_the_encoding_did_to_a_text_is_asked_about() {
    let home = kitchen();
    let sheet = |bytes: &[u8]| {
        fs::write(home.path().join("cake.txt"), bytes).expect("written");
        run_in(home.path(), &["sheet", "cake.txt"])
    };
    let mixed = sheet(b"Caf\xC3\xA9 Cake\n\n\xBD cup oat flour\n").out;
    assert!(mixed.starts_with("Café Cake") && mixed.contains("old-encoding"), "{mixed}");
    let garbled = sheet("CafÃ© Cake\n\n1 cup oat flour\n".as_bytes()).out;
    assert!(garbled.contains("line 1, column 4: garbled-letters"), "{garbled}");
    let coloured = sheet("\u{1B}[1mCake\u{1B}[0m\n\n\u{1B}[32m1 cup oat flour\u{1B}[0m\n".as_bytes());
    assert_eq!(coloured.status, 2);
    assert!(coloured.err.contains("escape characters (ESC)"), "{}", coloured.err);
}

#[test]
fn err_a_new_folder_where_none_can_be() {
    let home = tempfile::tempdir().expect("a temporary folder");
    fs::write(home.path().join("list.txt"), "1 egg").expect("written");
    let refused = |folder: &str, why: &str| {
        let ran = run_in(home.path(), &["new", folder]);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{folder}");
        assert!(ran.err.contains(why), "{folder}: {}", ran.err);
    };
    refused("nope/a/b", "nope/a/b was not laid out: the folder that it should lie in is not there");
    refused("list.txt", "something already lies there, and it is left as it is");
    #[cfg(unix)]
    {
        refused("list.txt/kitchen", "what it should lie in is no folder");
        std::os::unix::fs::symlink("nowhere", home.path().join("link")).expect("a link");
        refused("link", "something already lies there, and it is left as it is");
    }
}

#[test]
fn err_a_list_without_a_title_is_made_with_nothing() {
    let home = kitchen();
    let list = "1 cup flour\n2 eggs\n100 g sugar\n";
    fs::write(home.path().join("list.txt"), list).expect("written");
    for file in ["list.txt", "cake.txt"] {
        fs::write(home.path().join("cake.txt"), format!("Cake\nserves 4\n\n{list}")).expect("written");
        let ran = run_in(home.path(), &["sheet", file]);
        assert_eq!(ran.status, 0, "{file}: {}{}", ran.out, ran.err);
        let flour = ran.out.lines().find(|row| row.ends_with("1 cup flour")).expect("the line of flour");
        assert!(flour.trim().starts_with("125 g"), "{file}: {}", ran.out);
        assert!(!ran.out.contains("goes-in-a-circle"), "{file}: {}", ran.out);
    }
}

#[test]
fn ok_of_many_queries_in_the_same_words_one_is_told() {
    let home = kitchen();
    let text = format!("Cake\n\n200 g sugar\n{}1 cup moon dust\n", "1 cup fooey\n".repeat(400));
    fs::write(home.path().join("cake.txt"), text).expect("written");
    let ran = run_in(home.path(), &["sheet", "cake.txt"]);
    assert_eq!(ran.status, 1);
    assert_eq!(ran.out.matches("“fooey” is not a food known here").count(), 1, "{}", ran.out);
    assert!(ran.out.contains("Queries (402)") && ran.out.contains("And 399 more like it, the last in line 403."));
    assert!(ran.out.contains("“moon dust” is not a food"), "{}", ran.out);
    let json = run_in(home.path(), &["sheet", "cake.txt", "--json"]);
    // Each at its line and in the list.
    assert_eq!(json.out.matches("“fooey” is not a food known here").count(), 800);
}
