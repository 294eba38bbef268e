//! What the names of the ingredient lines may be called in a step: "flour" for "2 cups all-purpose flour".

use std::collections::{HashMap, HashSet};

use crate::layout::Component;
use crate::line::{Cut, Kind};
use crate::token::Kind as Token;

/// Lines by component: the component's number, then its lines in their order.
pub(super) type Lines = Vec<(usize, Vec<usize>)>;

/// The lines that a name may mean.
#[derive(Default)]
pub(super) struct Index {
    /// By the key of the name.
    pub(super) meant: HashMap<String, Meant>,
    /// The first words of all those keys: most words of a step begin none.
    pub(super) first_words: HashSet<String>,
    /// Components by the words of their names.
    pub(super) parts: HashMap<String, usize>,
}

/// The lines that one name may mean.
#[derive(Default)]
pub(super) struct Meant {
    /// It is their whole name.
    pub(super) names: Lines,
    /// It is the end of their name.
    pub(super) heads: Lines,
    /// It is the first word of their name.
    pub(super) starts: Lines,
}

impl Index {
    pub(super) fn of(components: &[Component]) -> Index {
        let mut index = Index::default();
        for (part, component) in components.iter().enumerate() {
            if let Some(name) = &component.name {
                let cut = Cut::of(name);
                let words: Vec<&str> = cut
                    .tokens
                    .iter()
                    .filter(|token| token.kind == Token::Word && !token.is_any(&["for", "the", "to", "of", "and", "a"]))
                    .map(|token| token.key.as_str())
                    .collect();
                if let Some(last) = words.last() {
                    index.parts.entry((*last).to_owned()).or_insert(part);
                }
            }
            for (nth, read) in component.lines.iter().enumerate().filter(|(_, read)| read.line.kind == Kind::Ingredient)
            {
                for item in &read.line.foods {
                    let cut = Cut::of(&item.name);
                    let words: Vec<&str> = cut
                        .tokens
                        .iter()
                        .filter(|token| token.kind == Token::Word)
                        .map(|token| token.key.as_str())
                        .collect();
                    for tail in 0..words.len().min(4) {
                        let name = words[words.len() - 1 - tail..].join(" ");
                        let meant = index.meant(name);
                        add(if tail + 1 == words.len() { &mut meant.names } else { &mut meant.heads }, part, nth);
                    }
                    // Cooks shorten: "chocolate" for chocolate chips, "peanuts" for roasted peanuts.
                    if words.len() > 1 && !COMMON_FIRST.contains(&words[0]) {
                        add(&mut index.meant(words[0].to_owned()).starts, part, nth);
                    }
                }
            }
        }
        index
    }

    fn meant(&mut self, name: String) -> &mut Meant {
        self.first_words.insert(first_word(&name).to_owned());
        self.meant.entry(name).or_default()
    }
}

pub(super) fn first_word(words: &str) -> &str {
    words.split(' ').next().unwrap_or_default()
}

fn add(parts: &mut Lines, part: usize, line: usize) {
    match parts.last_mut() {
        Some((last, lines)) if *last == part => {
            if lines.last() != Some(&line) {
                lines.push(line);
            }
        }
        _ => parts.push((part, vec![line])),
    }
}

/// First words of names that say nothing alone.
const COMMON_FIRST: &[&str] = &[
    "baking",
    "all",
    "light",
    "dark",
    "white",
    "whole",
    "fresh",
    "large",
    "powdered",
    "granulated",
    "unsalted",
    "salted",
    "ground",
    "plain",
    "sea",
    "heavy",
    "dry",
    "full",
    "self",
    "ice",
    "hot",
    "cold",
    "warm",
    "fine",
    "coarse",
    "old",
    "quick",
    "strong",
    "soft",
    "extra",
    "rice",
    "cake",
    "bread",
    "pastry",
];

/// Foods whose plural means several kinds of it.
pub(super) const KINDS: &[&str] = &["sugar", "flour", "oil", "butter", "milk", "salt", "cheese", "chocolate", "starch"];
