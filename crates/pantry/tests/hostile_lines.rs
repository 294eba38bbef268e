//! Any text is a line: nothing panics, places lie in the text, figures are finite and ordered.

use evencrumb_manuscript::line;
use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::{Kitchen, weigh};
use proptest::prelude::*;

fn holds_together(text: &str) {
    let pantry = Pantry::ours();
    let read = line::read(text, pantry);
    for item in read.foods.iter().chain(&read.alternatives) {
        assert!(text.get(item.place.clone()).is_some(), "place {:?} in {text:?}", item.place);
        for amount in &item.amounts {
            assert!(text.get(amount.place.clone()).is_some(), "place {:?} in {text:?}", amount.place);
        }
        let weighed = weigh(item, read.purpose.as_deref(), pantry, Kitchen::default());
        if let Some(grams) = weighed.grams {
            let range = grams.range();
            assert!(
                range.low() >= 0.0 && range.low() <= range.best() && range.best() <= range.high(),
                "{range:?} in {text:?}"
            );
        }
    }
    for query in &read.queries {
        assert!(text.get(query.place.clone()).is_some(), "place {:?} in {text:?}", query.place);
        assert!(!query.message.is_empty() && !query.mend.is_empty());
    }
}

/// Lines of the open corpus, to be cut up and stirred.
fn corpus() -> Vec<&'static str> {
    include_str!("../../../fixtures/lines.tsv").lines().skip(1).filter_map(|row| row.split('\t').nth(1)).collect()
}

#[test]
fn ok_numbers_no_kitchen_holds() {
    for text in [
        "1/0 cup flour",
        "1e999 g sugar",
        "⅟ cup milk",
        "99999999999999999999 cups flour",
        "1 / 2 / 3 cups",
        "½½½ cup oil",
        "-3 eggs",
        "0 eggs",
        "1,000,000,000 g flour",
    ] {
        holds_together(text);
    }
}

#[test]
fn ok_nested_brackets_and_long_lines() {
    holds_together(&"(".repeat(100_000));
    holds_together(&format!("1 cup {} flour", "(a) ".repeat(20_000)));
    holds_together(&"1 cup flour or ".repeat(5_000));
    holds_together(&"and & + / ".repeat(5_000));
    holds_together(&"½".repeat(50_000));
    holds_together(&"a\u{0301}".repeat(20_000));
    holds_together(&"١٢٣ كوب دقيق ".repeat(2_000));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn ok_any_text(text in "\\PC{0,120}") {
        holds_together(&text);
    }

    #[test]
    fn ok_stirred_lines(picks in proptest::collection::vec((0usize..10_000, 0usize..200, 0usize..200), 1..4)) {
        let corpus = corpus();
        let mut text = String::new();
        for (line, from, to) in picks {
            let line = corpus[line % corpus.len()];
            let letters: Vec<char> = line.chars().collect();
            let (from, to) = (from % letters.len(), to % letters.len());
            text.extend(&letters[from.min(to)..from.max(to)]);
        }
        holds_together(&text);
    }
}
