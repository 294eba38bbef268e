//! How the program ends, and what comes in and out of it when something is odd.

use std::io::Read;
use std::process::Stdio;

use crate::program::{program, run, run_in_the_demo, run_with};

#[test]
fn ok_ends_with_0_when_nothing_must_be_mended() {
    assert_eq!(run(&["weigh", "1 cup flour"]).status, 0);
    assert_eq!(run(&["weigh", "For the sponge:", "1 cup (200 g) all-purpose flour"]).status, 0);
    assert_eq!(run(&["food", "egg"]).status, 0);
    assert_eq!(run(&["--help"]).status, 0);
}

#[test]
fn err_ends_with_1_when_something_must() {
    assert_eq!(run(&["weigh", "1 cup flour", "1 cup moon dust"]).status, 1);
    assert_eq!(run(&["weigh", "--json", "1 cup moon dust"]).status, 1);
    assert_eq!(run(&["food", "moon dust", "--json"]).status, 1);
}

#[test]
fn err_ends_with_2_when_the_command_is_not_understood() {
    for arguments in [&["weigh"] as &[&str], &["wiegh", "1 egg"], &["weigh", "--jsn", "1 egg"], &["food"], &[]] {
        let ran = run(arguments);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(!ran.err.is_empty());
    }
}

#[test]
fn ok_json_is_one_object_or_an_array() {
    let of = |out: &str| serde_json::from_str::<serde_json::Value>(out).expect("JSON");
    assert_eq!(of(&run(&["weigh", "--json", "1 egg"]).out)["text"], "1 egg");
    assert_eq!(of(&run(&["weigh", "1 egg", "--json", "salt"]).out)[1]["text"], "salt");
    let read = of(&run_with(&["weigh", "--json", "-"], b"1 egg\r\n\r\nsalt").out);
    let texts: Vec<&str> = read.as_array().expect("an array").iter().filter_map(|it| it["text"].as_str()).collect();
    assert_eq!(texts, ["1 egg", "", "salt"]);
    assert_eq!(of(&run_with(&["weigh", "--json", "-"], b"1 egg\n").out)[0]["text"], "1 egg");
    assert_eq!(run_with(&["weigh", "--json", "-"], b"").out, "[]\n");
}

#[test]
fn ok_lines_pasted_with_their_hyphen_or_their_line_breaks() {
    assert_eq!(run(&["weigh", "- 1 cup flour"]).status, 0);
    let two = run(&["weigh", "--json", "1 egg\nsalt\n"]).out;
    assert_eq!(serde_json::from_str::<serde_json::Value>(&two).expect("JSON")[1]["text"], "salt");
}

#[test]
fn err_a_long_line_is_read_up_to_its_limit() {
    let long = format!("1 cup flour, {}", "sifted again and ".repeat(400));
    let ran = run(&["weigh", &long]);
    assert!(ran.out.contains("line-too-long"), "{}", ran.out);
    assert!(ran.out.contains("all-purpose flour"));
}

#[test]
fn err_more_input_than_is_read() {
    let ran = run_with(&["weigh", "-"], &b"1 egg\n".repeat(1_700_000));
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("more than 1 MB"), "{}", ran.err);
}

#[test]
fn err_input_that_is_no_text() {
    let ran = run_with(&["weigh", "-"], b"1 egg\n1 cr\xe8me\n");
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("line 2 of standard input is not text in UTF-8"), "{}", ran.err);
}

#[test]
fn err_a_hyphen_among_lines() {
    let ran = run(&["weigh", "-", "1 egg"]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("Give “-” alone"), "{}", ran.err);
}

#[cfg(unix)]
#[test]
fn err_an_argument_that_is_no_text() {
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt;
    let output = program().arg("weigh").arg(OsStr::from_bytes(b"1 cr\xe8me")).output().expect("the program starts");
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8(output.stderr).expect("text");
    assert!(said.starts_with("evencrumb: argument 2, “1 cr\u{fffd}me”, is not text in UTF-8"), "{said}");
}

#[test]
fn ok_a_line_that_would_steer_the_terminal_is_shown_and_not_sent() {
    let ran = run(&["weigh", "1 cup \u{1b}]0;title\u{7}flour \u{202e}"]);
    assert!(!ran.out.contains(['\u{1b}', '\u{7}', '\u{202e}']), "{:?}", ran.out);
}

#[test]
fn ok_a_reader_who_leaves_early() {
    for arguments in [&["weigh", "-"] as &[&str], &["weigh", "--json", "-"]] {
        let mut child = program().args(arguments).stdin(Stdio::piped()).spawn().expect("the program starts");
        drop(child.stdout.take());
        let mut stdin = child.stdin.take().expect("standard input is piped");
        std::io::Write::write_all(&mut stdin, &b"1 cup flour\n".repeat(100)).expect("it listens to the end");
        drop(stdin);
        let mut said = String::new();
        child.stderr.take().expect("standard error is piped").read_to_string(&mut said).expect("text");
        assert_eq!(said, "");
        assert_eq!(child.wait().expect("the program ends").code(), Some(0));
    }
}

#[test]
fn err_a_line_without_its_quotation_marks() {
    let ran = run(&["weigh", "3/4", "cup", "hazelnuts"]);
    assert!(ran.out.contains("evencrumb weigh \"3/4 cup hazelnuts\""), "{}", ran.out);
    assert!(!run(&["weigh", "salt", "sugar"]).out.contains("quotation marks"));
}

/// A manuscript in a folder of its own, where no kitchen and no price is.
fn alone(text: &str) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("cake.txt");
    std::fs::write(&file, text).expect("the folder is there");
    let name = file.to_str().expect("text").to_owned();
    (folder, name)
}

#[test]
fn err_scale_and_why_end_with_1_when_the_sheet_must_be_mended() {
    let (_folder, file) = alone("Squares\n\nMakes 9 squares\n\n1 cup moon dust\n2 eggs\n\nMethod\n1. Mix and bake.\n");
    assert_eq!(run(&["sheet", &file]).status, 1);
    let scaled = run(&["scale", &file, "--to", "double"]);
    assert_eq!(scaled.status, 1);
    assert!(scaled.out.contains("4 eggs"), "{}", scaled.out);
    let why = run(&["why", &file, "fat"]);
    assert_eq!(why.status, 1);
    assert!(why.out.contains("for moon dust it is not known"), "{}", why.out);
    let (_folder, file) = alone("");
    let empty = run(&["scale", &file, "--to", "double"]);
    assert_eq!(empty.status, 1);
    assert!(empty.out.contains("nothing-to-scale"), "{}", empty.out);
}

#[test]
fn ok_measures_takes_several_lines_and_one_line_of_words() {
    let of = |out: &str| serde_json::from_str::<serde_json::Value>(out).expect("JSON");
    let two = of(&run(&["measures", "85 g honey", "200 g tapioca starch", "--json"]).out);
    assert_eq!(two[1]["foods"][0]["food"]["name"], "tapioca starch");
    let one = of(&run(&["measures", "85", "g", "honey", "--json"]).out);
    assert_eq!(one["text"], "85 g honey");
    for (line, query) in [("sugar", "no-weight-to-measure"), ("1000000 g sugar", "too-much-to-measure")] {
        let ran = run(&["measures", line, "--json"]);
        assert_eq!((ran.status, of(&ran.out)["queries"][0]["name"].as_str()), (1, Some(query)));
    }
}

/// One cake is the batch, and a recipe without a price costs what nobody knows.
#[test]
fn ok_what_needs_no_saying_is_not_said() {
    let text = "Cake\n\nMakes one 9-inch cake, serves 8\n\n1 packet (7 g) instant yeast\n200 g flour\n100 g sugar\n\nMethod\n1. Mix and bake.\n";
    let (_folder, file) = alone(text);
    let sheet = run(&["sheet", &file]).out;
    assert!(sheet.contains("One serving weighs") && !sheet.contains("One cake weighs"), "{sheet}");
    let scaled = run(&["scale", &file, "--to", "half"]).out;
    assert!(!scaled.contains("3.5 g of 1 packet, 3.5 g"), "{scaled}");
    let parent = std::path::Path::new(&file).parent().expect("a folder");
    std::fs::write(parent.join("kitchen.toml"), "").expect("the folder is there");
    std::fs::write(parent.join("prices.toml"), "[[price]]\nfood = \"honey\"\npack = \"500 g\"\nprice = 5\n")
        .expect("it is there");
    let priced = run(&["sheet", &file]);
    assert!(
        !priced.out.contains("$0.00") && priced.out.contains("is not known: no price of"),
        "{}{}",
        priced.err,
        priced.out
    );
}

/// The figure, its division and the largest contributors stand on one screen; the rest comes when it is asked for.
#[test]
fn ok_a_long_walk_is_shown_whole_when_it_is_asked_for() {
    let cake = "recipes/roasted-pear-buckwheat-layer-cake.txt";
    let short = run_in_the_demo(&["why", cake, "sugar", "per", "serving"]).out;
    let all = run_in_the_demo(&["why", cake, "sugar", "per", "serving", "--all"]).out;
    let lines = |page: &str| page.lines().filter(|line| line.trim_start().starts_with("line ")).count();
    assert!((5..=12).contains(&lines(&short)) && short.contains("smaller ones") && short.contains("--all"), "{short}");
    assert!(all.lines().count() > 3 * short.lines().count() && all.contains("Sources"), "{all}");
    assert!(!all.contains("Common practice, no source; common practice"), "{all}");
}
