//! Ingredients that stand in sentences: "whisk three eggs with a cup of sugar".

mod fruit;
mod named;
mod shared;

use std::ops::Range;

use crate::food_words::FoodWords;
use crate::layout::LineRead;
use crate::line::{self, Cut, Kind, MEASURE_NOT_READ, numbers, unit};
use crate::query::Query;
use crate::words::WORDS;

pub use named::{Known, named};

/// Most tokens from an amount to the end of its food.
const REACH: usize = 14;

/// The spans of a paragraph that name an amount and a food. `offset` is where the paragraph stands in the manuscript.
pub fn lines<F: FoodWords + ?Sized>(text: &str, offset: usize, foods: &F) -> Vec<LineRead> {
    let mut found = Vec::new();
    for sentence in crate::method::sentences(text, 0) {
        let start = sentence.start + offset;
        let cut = Cut::of(&text[sentence]);
        let mut at = 0;
        while at < cut.tokens.len() {
            let shared = shared::span(&cut, at, foods);
            let is_shared = shared.is_some();
            let shared = shared.map(|tokens| (spanned(&cut, tokens.clone(), foods), tokens.end));
            let vague = || vague(&cut, at, foods).or_else(|| likened(&cut, at, foods));
            let Some(((place, text, line), next)) =
                shared.or_else(|| fruit::parts(&cut, at, foods)).or_else(|| span(&cut, at, foods)).or_else(vague)
            else {
                at += 1;
                continue;
            };
            at = next.max(at + 1);
            // "A spoonful of the flour" is of the flour that was named.
            let named = |known: &LineRead| {
                known.line.foods.iter().any(|item| item.food == line.foods.first().and_then(|item| item.food))
            };
            if is_shared || !(text.contains(" of the ") && found.iter().any(named)) {
                found.push(LineRead { place: place.start + start..place.end + start, text, line });
            }
        }
    }
    found
}

/// Bytes of the sentence, their words with single spaces, and what is read in them.
type Span = (Range<usize>, String, line::Line);

/// What is read in some tokens of a sentence.
fn spanned<F: FoodWords + ?Sized>(cut: &Cut<'_>, tokens: Range<usize>, foods: &F) -> Span {
    let place = cut.place(tokens.start, tokens.end);
    let text = cut.text[place.clone()].split_whitespace().collect::<Vec<_>>().join(" ");
    let line = line::read(&text, foods);
    (place, text, line)
}

/// The amount and the food that begin at token `at`, and the token after them.
fn span<F: FoodWords + ?Sized>(cut: &Cut<'_>, at: usize, foods: &F) -> Option<(Span, usize)> {
    if crate::figures::in_run(cut, at) {
        return None;
    }
    let article = cut.any(at, &["a", "an"]);
    let next = match numbers(cut, at) {
        Some(read) => read.next,
        None if article => at + 1,
        None => return None,
    };
    // "A good pinch", "two heaping teaspoons": a word may stand before the unit, and how full it is.
    let filled = cut.longest(next, &WORDS.fills).and_then(|(_, next)| unit(cut, next));
    let measure = unit(cut, next).or(filled).or_else(|| article.then(|| unit(cut, next + 1)).flatten());
    if article && measure.is_none() && next == at + 1 {
        return None;
    }
    // "10-inch", "350 F", "20 minutes" and "the 1/3 cup" are no new ingredient.
    let follows = |words: &[&str]| cut.any(next, words) || (cut.mark(next, '-') && cut.any(next + 1, words));
    if follows(&[
        "inch", "inches", "cm", "minutes", "minute", "min", "mins", "hours", "hour", "degrees", "f", "c", "seconds",
        "days", "times", "by", "x", "part", "parts", "layers",
    ]) || cut.mark(next, '°')
    {
        return None;
    }
    if at > 0 && cut.any(at - 1, &["the", "remaining", "that", "this", "other", "last"]) {
        return None;
    }
    let from = measure.map_or(next, |(_, next)| next);
    let mut end = from;
    while let Some(token) = cut.get(end).filter(|_| end < from + REACH) {
        let joins = cut.joins(end);
        let mark = matches!(token.kind, crate::token::Kind::Mark(_)) && !joins;
        // "And a quarter of brown sugar" belongs to the amount.
        let over = end > from
            && token.is_any(ENDS)
            && !(token.is_any(&["and"])
                && end < from + 3
                && cut.any(end + 1, &["a"])
                && cut.any(end + 2, &["half", "quarter", "third"]));
        let verb = end > from + 1
            && token.kind == crate::token::Kind::Word
            && WORDS.verbs.has(&token.folded)
            && foods.food(&token.key).is_none()
            && !cut.any(end - 1, &["of"])
            && foods.food(&line::words_key(cut, end, end + 2)).is_none();
        // "Two eggs beaten up with milk": what is done with the food begins.
        let verb = verb
            || end > from
                && cut.longest(end, &WORDS.ways).is_some()
                && foods.food(&line::words_key(cut, from, end)).is_some()
                && foods.food(&line::words_key(cut, from, end + 1)).is_none();
        // "a cup of flour a teaspoon of soda": the next amount.
        let again = end > from + 1 && (token.is_number() || token.is_any(&["a", "an", "half"])) && opens(cut, end);
        if mark || over || verb || again {
            break;
        }
        end += 1;
    }
    if end <= at + 1 {
        return None;
    }
    let place = cut.place(at, end);
    let read = line::read(&cut.text[place.clone()], foods);
    let item = read.foods.first().filter(|_| read.kind == Kind::Ingredient)?;
    item.food?;
    if item.amounts.is_empty() || measure.is_none() && item.part.is_none() && !counted(item, foods) {
        return None;
    }
    // The line ends with its food; what is said after it is the sentence's.
    let last =
        (at..end).rev().find(|at| cut.tokens[*at].place.end - place.start <= item.place.end).map_or(end, |at| at + 1);
    let (last, end) = prepared(cut, last.max(at + 1)).map_or((last.max(at + 1), end), |after| (after, end.max(after)));
    Some((spanned(cut, at..last, foods), end))
}

/// "A glass of milk", "another spoonful of sugar": a measure that nobody knows, before a food. It is asked about.
fn vague<F: FoodWords + ?Sized>(cut: &Cut<'_>, at: usize, foods: &F) -> Option<(Span, usize)> {
    let counts = cut.any(at, &["a", "an", "another", "one"]) || cut.get(at)?.is_number();
    let measure = cut.get(at + 1).filter(|token| token.kind == crate::token::Kind::Word)?;
    if !counts || !cut.any(at + 2, &["of"]) || measure.is_any(NO_MEASURES) {
        return None;
    }
    let named = |end: &usize| foods.food(&line::words_key(cut, at + 3, *end)).is_some();
    let end = (at + 4..=at + 6).rev().find(|end| (at + 3..*end).all(|at| cut.is_word(at)) && named(end))?;
    Some((asked(cut, at, end, cut.written(at, at + 2), foods), end))
}

/// "Butter the size of an egg": the food stands before what it is likened to. It is asked about.
fn likened<F: FoodWords + ?Sized>(cut: &Cut<'_>, at: usize, foods: &F) -> Option<(Span, usize)> {
    let sized = (at + 1..=at + 3)
        .find(|next| cut.any(*next, &["the"]) && cut.any(next + 1, &["size"]) && cut.any(next + 2, &["of"]))?;
    foods.food(&line::words_key(cut, at, sized))?;
    let end = (sized + 3 + 2).min(cut.tokens.len());
    Some((asked(cut, at, end, cut.written(sized, end), foods), end))
}

/// The tokens as a line whose measure could not be read.
fn asked<F: FoodWords + ?Sized>(cut: &Cut<'_>, at: usize, end: usize, measure: &str, foods: &F) -> Span {
    let (place, text, mut line) = spanned(cut, at..end, foods);
    if line.foods.iter().any(|item| item.food.is_none() || item.amounts.is_empty()) {
        // It is the measure that is not known, not the food.
        line.queries.clear();
        line.queries.push(Query::new(
            &MEASURE_NOT_READ,
            0..text.len(),
            format!("“{measure}” is no measure that is known; nothing was weighed for “{text}”."),
            "Write the amount in a measure or weight, as “1 cup” or “50 g”.",
        ));
    }
    (place, text, line)
}

/// Words before "of" that measure nothing: "a bit of", "one half of".
const NO_MEASURES: &[&str] = &[
    "half", "third", "quarter", "bit", "lot", "layer", "mixture", "kind", "sort", "type", "bowl", "pan", "pot", "bed",
];

/// Whether an amount with its measure begins at token `at`, as "half a teaspoon of".
fn opens(cut: &Cut<'_>, at: usize) -> bool {
    let next = numbers(cut, at).map_or(at + 1, |read| read.next);
    unit(cut, next).is_some_and(|(_, next)| cut.any(next, &["of"]) || numbers(cut, at).is_some())
}

/// The token after ", halved" between a food that ends before `at` and a further mark.
fn prepared(cut: &Cut<'_>, at: usize) -> Option<usize> {
    let after = [&WORDS.ways, &WORDS.states]
        .into_iter()
        .filter_map(|list| cut.longest(at + 1, list))
        .map(|(_, next)| next)
        .max();
    let ends = |at: usize| {
        cut.get(at).is_none_or(|token| matches!(token.kind, crate::token::Kind::Mark(',' | '.' | ';' | ')')))
    };
    after.filter(|next| cut.mark(at, ',') && ends(*next))
}

/// Whether a bare number of the food means pieces.
fn counted<F: FoodWords + ?Sized>(item: &line::Item, foods: &F) -> bool {
    let cut = Cut::of(&item.name);
    let all = line::words_key(&cut, 0, cut.tokens.len());
    foods.food(&all).is_some_and(|named| named.counted)
}

const ENDS: &[&str] = &[
    "with", "in", "into", "over", "to", "and", "then", "that", "which", "until", "goes", "go", "for", "on", "by",
    "while", "or", "plus", "along", "at", "when", "but", "so", "it", "you",
];

#[cfg(test)]
mod tests {
    use super::*;

    fn mined(text: &str) -> Vec<String> {
        let foods: &[&str] = &["egg", "sugar", "flour", "brown sugar", "butter", "salt"];
        lines(text, 0, foods).into_iter().map(|line| line.text).collect()
    }

    #[test]
    fn ok_spans() {
        assert_eq!(
            mined("whisk three eggs with a cup of sugar and fold in half a cup of flour"),
            ["three eggs", "a cup of sugar", "half a cup of flour"]
        );
        assert_eq!(mined("then a cup and a quarter of brown sugar goes in"), ["a cup and a quarter of brown sugar"]);
        assert_eq!(mined("Lay 3 eggs, halved, in it; add 1 cup flour, then stir."), ["3 eggs, halved", "1 cup flour"]);
        assert_eq!(
            mined("add four ounces each of butter and sugar, and stir"),
            ["four ounces each of butter and sugar"]
        );
        assert_eq!(
            mined(
                "take the same weight of butter, sugar and flour: about 8 ounces of each. Mix a spoonful of the flour in."
            ),
            ["butter, sugar and flour: about 8 ounces of each"]
        );
        assert_eq!(mined("put a cup of flour a teaspoon of salt in"), ["a cup of flour", "a teaspoon of salt"]);
        assert_eq!(
            mined("then two eggs beaten up with two heaping teaspoons of sugar"),
            ["two eggs", "two heaping teaspoons of sugar"]
        );
        assert_eq!(mined("bake in a 9-inch pan 20 minutes at 350"), Vec::<String>::new());
    }

    #[test]
    fn ok_vague_amounts_are_lines_with_a_query() {
        let foods: &[&str] = &["milk", "flour", "butter", "sugar"];
        let text =
            "Take a glass of milk and a mugful of flour, with butter the size of a fist and another ladleful of sugar.";
        let found = lines(text, 0, foods);
        let texts: Vec<&str> = found.iter().map(|line| line.text.as_str()).collect();
        let all = ["a glass of milk", "a mugful of flour", "butter the size of a fist", "another ladleful of sugar"];
        assert_eq!(texts, all);
        for read in found {
            assert!(read.line.queries.iter().any(|query| query.kind == &MEASURE_NOT_READ), "{}", read.text);
        }
        assert!(lines("Spread a layer of butter in a bowl of milk.", 0, foods).is_empty());
    }

    const CITRUS: &[&str] = &[
        "egg",
        "egg white",
        "lemon",
        "lemon juice",
        "lemon zest",
        "lemon rind",
        "sugar",
        "powdered sugar",
        "butter",
        "walnut",
        "nut",
        "cream",
        "brown butter",
    ];

    #[test]
    fn ok_parts_of_a_fruit_or_an_egg() {
        let mined = |text: &str| lines(text, 0, CITRUS).into_iter().map(|line| line.text).collect::<Vec<_>>();
        assert_eq!(
            mined("Beat in the juice and zest of one lemon, then the whites of two eggs."),
            ["the juice and zest of one lemon", "the whites of two eggs"]
        );
        assert_eq!(
            mined(
                "Stir in the grated rind and juice of two lemons. Pour over the juice of another lemon boiled with a cup of sugar."
            ),
            ["the grated rind and juice of two lemons", "the juice of one lemon", "a cup of sugar"]
        );
        for read in lines("Add the juice and zest of a lemon.", 0, CITRUS) {
            let names: Vec<_> = read.line.foods.iter().filter_map(|item| item.part.as_deref()).collect();
            assert_eq!(names, ["juice", "zest"]);
        }
        assert_eq!(mined("Add the juice of the lemon."), Vec::<String>::new());
    }

    #[test]
    fn ok_foods_named_without_an_amount() {
        let asked = |text: &str| {
            let mut known = Known::of(&lines(text, 0, CITRUS));
            named(text, 0, &mut known, CITRUS).into_iter().map(|(_, name)| name).collect::<Vec<_>>()
        };
        assert_eq!(
            asked("Whisk three eggs. Bake, then dust with powdered sugar and more powdered sugar."),
            ["powdered sugar"]
        );
        assert_eq!(asked("Whisk a cup of powdered sugar in. Stir in butter, then the walnuts."), ["butter", "walnuts"]);
        // What was counted is named again, whole or in part; what is done is no food, nor what is eaten beside it.
        for text in [
            "Butter a pan, and cream a cup of powdered sugar. Sift the sugar over.",
            "Whisk three eggs, then fold the whites in. Butter the tin.",
            "Add the juice of two lemons. Grate the lemon over.",
            "Whisk a cup of walnuts in; scatter the nuts over.",
            "Whisk a cup of sugar in. Serve with cream.",
            "Brown a cup of butter. Stir the brown butter in.",
        ] {
            assert_eq!(asked(text), Vec::<String>::new(), "{text}");
        }
    }
}
