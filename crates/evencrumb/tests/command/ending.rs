//! How the program ends, and what comes in and out of it when something is odd.

use std::io::Read;
use std::process::Stdio;

use crate::program::{program, run, run_with};

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
