//! The examples of README.md and docs/json/README.md are run as written.
//!
//! When the pantry learns a better figure, `UPDATE_EXAMPLES=1 cargo test -p evencrumb` writes the answers anew; one that
//! leaves lines out ("…") has to be mended by hand.

use std::path::Path;

use crate::program::{Ran, run, run_in_the_demo};

/// Runs the program with arguments.
type Run = fn(&[&str]) -> Ran;

/// An example: what is typed after `$ evencrumb`, and what the page says comes out.
struct Example {
    arguments: Vec<String>,
    answer: String,
}

fn examples(page: &str) -> Vec<Example> {
    let fences = page.split("```console\n").skip(1).filter_map(|rest| rest.split_once("```").map(|(fence, _)| fence));
    fences
        .map(|fence| {
            let (typed, answer) = fence.split_once('\n').expect("a command and its answer");
            let typed = typed.strip_prefix("$ evencrumb ").expect("the command begins with $ evencrumb");
            Example { arguments: words(typed), answer: answer.to_owned() }
        })
        .collect()
}

/// Words of a command line in which only quotation marks mean something.
fn words(typed: &str) -> Vec<String> {
    let inside_or_out = typed.split('"').enumerate();
    inside_or_out
        .flat_map(|(at, part)| match at % 2 {
            0 => part.split_whitespace().map(str::to_owned).collect(),
            _ => vec![part.to_owned()],
        })
        .collect()
}

/// The page with the answers of today.
fn renewed(page: &str, examples: &[Example], run: Run) -> String {
    examples.iter().fold(page.to_owned(), |page, example| {
        let arguments: Vec<&str> = example.arguments.iter().map(String::as_str).collect();
        page.replace(&example.answer, &excerpt(&example.answer, &run(&arguments).out))
    })
}

/// The answer with the same lines left out as before: each part begins where its first two lines stand, the last ends with
/// the answer.
fn excerpt(before: &str, answer: &str) -> String {
    let lines: Vec<&str> = answer.lines().collect();
    let parts: Vec<Vec<&str>> = before.split("…\n").map(|part| part.lines().collect()).collect();
    let mut from = 0;
    let mut said = Vec::new();
    for (at, part) in parts.iter().enumerate() {
        let alike = |start: &usize| part.iter().take(2).eq(lines[*start..].iter().take(part.len().min(2)));
        let start = if at == 0 { Some(0) } else { (from..lines.len()).find(alike) };
        let start = start.unwrap_or_else(|| panic!("the part {part:?} is to be chosen again by hand"));
        let end = if at + 1 == parts.len() { lines.len() } else { lines.len().min(start + part.len()) };
        said.push(lines[start..end].iter().map(|line| format!("{line}\n")).collect::<String>());
        from = end;
    }
    said.join("…\n")
}

#[test]
fn ok_the_examples_of_the_json_come_out_as_the_page_says() {
    come_out("docs/json/README.md", 4, run_in_the_demo);
}

#[test]
fn ok_the_examples_of_the_readme_come_out_as_it_says() {
    come_out("README.md", 3, run);
}

/// Runs the examples of a page, which has at least so many.
fn come_out(page: &str, least: usize, run: Run) {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(page);
    let page = std::fs::read_to_string(&file).expect("the page is committed");
    let examples = examples(&page);
    assert!(examples.len() >= least, "the page lost its examples");
    if std::env::var_os("UPDATE_EXAMPLES").is_some() {
        std::fs::write(&file, renewed(&page, &examples, run)).expect("the page can be written");
        return;
    }
    for example in examples {
        let arguments: Vec<&str> = example.arguments.iter().map(String::as_str).collect();
        let ran = run(&arguments);
        assert_eq!(ran.err, "", "{arguments:?}");
        // "…" on a line of its own leaves out what stands between.
        let mut rest = ran.out.as_str();
        for (at, part) in example.answer.split("…\n").enumerate() {
            let part = part.trim_end_matches(' ');
            let found = rest.find(part).unwrap_or_else(|| panic!("{arguments:?} lacks\n{part}in\n{}", ran.out));
            assert!(at > 0 || found == 0, "{arguments:?} does not begin as the page says:\n{}", ran.out);
            rest = &rest[found + part.len()..];
        }
        assert_eq!(rest, "", "{arguments:?} goes on after the page ends");
    }
}
