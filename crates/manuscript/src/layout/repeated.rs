//! Headings that change how much of their part there is: "Dough (x 2)", "For each layer", "Small" beside "Large".
//!
//! The amounts below them are counted once, as they stand; what the heading says is asked about.

use super::vocabulary::VOCABULARY;
use super::{Component, PART_REPEATED, PARTS_OF_TWO_SIZES};
use crate::line::{Cut, numbers};
use crate::query::Query;
use crate::token::Kind;
use crate::word;
use crate::words::WORDS;

/// Most parts that are compared with one another.
const MOST_PARTS: usize = 40;

/// What a careful reader asks of the headings.
pub fn asked(components: &[Component]) -> Vec<Query> {
    let listed: Vec<&Component> = components.iter().filter(|part| !part.lines.is_empty()).take(MOST_PARTS).collect();
    let mut queries = Vec::new();
    for part in &listed {
        let Some(name) = part.name.as_deref().filter(|name| is_repeated(name)) else { continue };
        let message = format!("“{name}” says that the part is made more than once; its amounts were counted once.");
        let mend = "Write the amounts of all of them together; if they are that already, take the remark out.";
        queries.push(Query::new(&PART_REPEATED, part.place.clone(), message, mend));
    }
    for (nth, one) in listed.iter().enumerate() {
        let Some(other) = listed[nth + 1..].iter().find(|other| are_two_sizes(one, other)) else { continue };
        let (first, second) = (one.name.as_deref().unwrap_or_default(), other.name.as_deref().unwrap_or_default());
        let message = format!("“{first}” and “{second}” look like two sizes of one; both were counted.");
        let mend = "Keep the one that you bake in this file, and the other in a file of its own.";
        queries.push(Query::new(&PARTS_OF_TWO_SIZES, other.place.clone(), message, mend));
    }
    queries
}

/// Whether a heading says that its part is made more than once: "(x 2)", "(make twice)", "For each layer (make 3)".
fn is_repeated(name: &str) -> bool {
    let cut = Cut::of(name);
    let words: Vec<&str> = cut.tokens.iter().map(|token| token.folded.as_str()).collect();
    let from = |at: usize| words[at..].join(" ");
    if VOCABULARY.rows.of_each.begins(&from(0)) || (0..words.len()).any(|at| VOCABULARY.rows.repeats.begins(&from(at)))
    {
        return true;
    }
    let many = |at: usize| numbers(&cut, at).filter(|read| read.low.value() >= 2.0);
    let number = |at: usize| cut.get(at).is_some_and(crate::token::Token::is_number);
    (0..cut.tokens.len()).any(|at| {
        let times = cut.any(at, &["x"]) || cut.mark(at, '×');
        // "20 x 30 cm" is a size, and "x 400 g" a packet.
        let before = at > 0 && number(at - 1);
        let alone = |at: usize| cut.get(at).is_none_or(|token| matches!(token.kind, Kind::Mark(_)));
        times && !before && many(at + 1).is_some_and(|read| alone(read.next))
            || times && before && many(at - 1).is_some() && alone(at + 1)
            || cut.any(at, &["make", "bake"]) && many(at + 1).is_some()
    })
}

/// Whether two parts have the same name but for a size, and mostly the same foods.
fn are_two_sizes(one: &Component, other: &Component) -> bool {
    let (Some(first), Some(second)) = (sized(one), sized(other)) else { return false };
    if first.name != second.name || first.sizes == second.sizes {
        return false;
    }
    let foods = |part: &Component| -> Vec<_> {
        part.lines.iter().flat_map(|read| &read.line.foods).filter_map(|item| item.food).collect()
    };
    let (ours, theirs) = (foods(one), foods(other));
    let shared = ours.iter().filter(|food| theirs.contains(food)).count();
    shared >= 2 && shared * 2 > ours.len().max(theirs.len())
}

/// A heading taken apart.
struct Sized {
    name: Vec<String>,
    sizes: Vec<String>,
}

/// The heading's name and its sizes, if it has any: "Small (6-inch)", "For a 20 cm tin", "For 12 buns".
fn sized(part: &Component) -> Option<Sized> {
    let cut = Cut::of(part.name.as_deref()?);
    let mut read = Sized { name: Vec::new(), sizes: Vec::new() };
    for (at, token) in cut.tokens.iter().enumerate() {
        let word = token.folded.as_str();
        if token.is_number() {
            let measured = (at + 1..at + 3).any(|at| cut.any(at, &["inch", "inches", "cm", "in"]) || cut.mark(at, '"'));
            let counted = at > 0 && cut.any(at - 1, &["for", "makes", "serves"]);
            let list = if measured || counted { &mut read.sizes } else { &mut read.name };
            list.push(word.to_owned());
        } else if WORDS.sizes.has(word) {
            read.sizes.push(word.to_owned());
        } else if token.kind == Kind::Word && !matches!(word, "inch" | "inches" | "cm" | "in" | "a" | "the" | "for") {
            read.name.push(word::key(word).to_string());
        }
    }
    (!read.sizes.is_empty()).then_some(read)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::read;

    #[test]
    fn ok_headings_that_repeat_their_part() {
        for name in [
            "Dough (x 2)",
            "Dough (x2)",
            "Dough × 2",
            "Dough (2x)",
            "Filling (make twice)",
            "For each layer (make 3)",
            "For each layer",
            "Per tin",
            "Sponge, make two",
            "Custard (double quantity)",
        ] {
            assert!(is_repeated(name), "{name}");
        }
        for name in [
            "Dough",
            "Double cream topping",
            "For the 20 x 30 cm tin",
            "Buns (makes 12)",
            "Filling 2",
            "To make the top",
            "Extra filling",
            "Mix 2",
        ] {
            assert!(!is_repeated(name), "{name}");
        }
    }

    fn asked_of(text: &str) -> Vec<&'static str> {
        let foods: &[&str] = &["flour", "sugar", "butter", "egg"];
        read(text, foods).queries.iter().map(|query| query.kind.name).collect()
    }

    #[test]
    fn ok_parts_of_two_sizes_are_asked_about() {
        for (one, other) in
            [("Small (6-inch)", "Large (9-inch)"), ("For a 20 cm tin", "For a 23 cm tin"), ("Small cake", "Large cake")]
        {
            let list = "200 g flour\n100 g sugar\n50 g butter\n";
            let text = format!("Slab\n\n{one}:\n{list}\n{other}:\n{list}\nMethod\n1. Stir and bake.\n");
            assert_eq!(asked_of(&text), ["parts-of-two-sizes"], "{text}");
        }
        let layers =
            "Slab\n\nLayer 1:\n200 g flour\n100 g sugar\n\nLayer 2:\n200 g flour\n100 g sugar\n\nMethod\n1. Stir.\n";
        assert_eq!(asked_of(layers), Vec::<&str>::new());
        let others = "Slab\n\nSmall balls:\n200 g flour\n100 g sugar\n\nLarge balls:\n3 eggs\n100 g butter\n\nMethod\n1. Stir.\n";
        assert_eq!(asked_of(others), Vec::<&str>::new());
    }

    #[test]
    fn ok_a_part_made_twice_is_asked_about() {
        let text = "Slab\n\nDough (x 2)\n200 g flour\n100 g butter\n\nMethod\n1. Stir and bake.\n";
        assert_eq!(asked_of(text), ["part-repeated"]);
    }
}
