//! How long texts of 1, 2, 4 and 8 MB take, in shapes that trip readers: `cargo run --release -p xtask -- linear`.

use std::fs;
use std::time::Instant;

use anyhow::Context;
use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::Kitchen;
use evencrumb_sheet::{line, sheet};

const MEGABYTE: usize = 1_000_000;

/// Prints seconds for each shape and size, for lines weighed one by one and for one manuscript.
pub fn print() -> anyhow::Result<()> {
    let recipe = "demo/recipes/roasted-pear-buckwheat-layer-cake.txt";
    let recipe = fs::read_to_string(crate::repository().join(recipe)).with_context(|| format!("reading {recipe}"))?;
    let lines: String = fs::read_to_string(crate::repository().join("fixtures/lines.tsv"))
        .context("reading fixtures/lines.tsv")?
        .lines()
        .skip(1)
        .filter_map(|row| Some(format!("{}\n", row.split('\t').nth(1)?)))
        .collect();
    let unknown: String = (0..40_000).map(|at: u32| format!("1 cup {} dust\n", word(at))).collect();
    // What stands once at the top, and what is repeated below it.
    let shapes = [
        ("recipes", "", recipe.as_str()),
        ("lines", "", lines.as_str()),
        ("unknown foods", "", unknown.as_str()),
        ("short lines", "", "1 egg\n"),
        ("numbers", "", "1\n"),
        ("equal lines", "", "1 cup (120 g) flour, sifted\n"),
        ("tabs", "Cake\n\n", "1\tcup\tflour\tsifted\n"),
        ("amounts behind", "Cake\n\n", "flour: 1 cup\n"),
        ("two weights", "Cake\n\n", "100 g flour (3 1/2 oz)\n"),
        ("from above", "Batter\n\n", "1 cup cream, from above\n"),
        ("what remains", "Cake\n\n1 cup sugar, divided\n", "remaining sugar\n"),
        ("of a part", "Cake\n\nPear syrup\n200 g sugar\n\nBase\n300 g flour\n", "100 g pear syrup\n"),
        ("batches", "Cake\n\n", "1 quantity vanilla sponge\n"),
        ("parts", "Cake\n", "\nBatter\n1 cup flour\n"),
        ("one line", "", "1 cup flour or "),
        ("brackets", "", "("),
        ("no spaces", "", "flour"),
    ];
    println!("{:<16}{:<12}{:>9}{:>9}{:>9}{:>9}", "seconds", "", "1 MB", "2 MB", "4 MB", "8 MB");
    for (name, top, piece) in shapes {
        for (reader, read) in [("lines", weigh_lines as fn(&str)), ("manuscript", read_manuscript)] {
            print!("{name:<16}{reader:<12}");
            for megabytes in [1, 2, 4, 8] {
                let text = format!("{top}{}", piece.repeat(megabytes * MEGABYTE / piece.len() + 1));
                let start = Instant::now();
                read(&text);
                print!("{:>9.2}", start.elapsed().as_secs_f64());
            }
            println!();
        }
    }
    Ok(())
}

/// A word that is no food's, another for each number.
fn word(number: u32) -> String {
    number.to_string().bytes().flat_map(|digit| [b'q' + digit % 5, b'a' + digit - b'0']).map(char::from).collect()
}

fn weigh_lines(text: &str) {
    for one in text.lines() {
        std::hint::black_box(line::weigh(one, Pantry::ours(), Kitchen::default()));
    }
}

fn read_manuscript(text: &str) {
    let pantry = Pantry::ours();
    let read = evencrumb_manuscript::read(text, pantry);
    std::hint::black_box(sheet(text, &read, pantry, Kitchen::default()));
}
