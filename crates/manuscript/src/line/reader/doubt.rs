//! What may have been meant otherwise, or may be an amount that was not read: the author is asked.

use crate::line::cut::Cut;
use crate::line::{
    AMOUNT_PER, ANOTHER_FOOD, CHOPPED_BEFORE_OR_AFTER, Item, Line, NUMBER_WITH_THOUSANDS, PART_NOT_WEIGHED, amount,
    number,
};
use crate::query::Query;
use crate::token::Kind as Token;
use crate::words::WORDS;
use evencrumb_measure::Dimension;

/// What can be read in two ways: the likelier is taken, and the other told.
pub(super) fn doubts(cut: &Cut<'_>, line: &mut Line, remarks: &[String]) {
    let grouped = (0..cut.tokens.len()).filter_map(|at| {
        let (number, next) = number::thousands(cut, at)?;
        Some(Query::new(
            &NUMBER_WITH_THOUSANDS,
            cut.place(at, next),
            format!("“{}” was read as {number}.", cut.written(at, next)),
            format!("Write “{number}”, or a point and fewer figures if a fraction is meant."),
        ))
    });
    line.queries.extend(grouped);
    let mut found: Vec<Query> = remarks.iter().filter_map(|words| another_food(cut, line, words)).collect();
    for item in line.foods.iter().filter(|item| item.food.is_some()) {
        found.extend(measured_when(cut, item));
        found.extend(wrung_out(item));
    }
    found.extend(remains_used(cut, line));
    found.extend(per(cut));
    line.queries.extend(found);
}

/// "spinach 1 bu", "bread flour 80% 800, ww 20% 200": a number in a remark that may be an amount nobody read.
fn number_left_over(line: &Line, words: &str) -> Option<String> {
    let cut = Cut::of(words);
    let first = line.foods.first()?;
    let number =
        |at: usize| matches!(cut.get(at).map(|token| token.kind), Some(Token::Digits(Some(_)) | Token::Fraction(_)));
    let last = cut.tokens.len().checked_sub(1)?;
    let unread = first.amounts.is_empty() && number(0) && last == 1 && cut.is_word(1);
    let behind = first.amounts.first().is_some_and(|amount| amount.place.start >= first.place.end);
    let ends =
        last > 0 && number(last) && cut.is_word(0) && !number::in_ratio(&cut, last) && !cut.begins(0, &WORDS.states);
    (unread || behind && ends).then(|| cut.written(if unread { 0 } else { last }, last + 1).to_owned())
}

/// "citric acid 50% solution", "mahleb substitute": a remark that may make another food of it.
fn another_food(cut: &Cut<'_>, line: &Line, words: &str) -> Option<Query> {
    let item = line.foods.iter().find(|item| item.food.is_some())?;
    let said = Cut::of(words);
    let first = said.tokens.iter().take_while(|token| token.kind != Token::Word).count();
    // "pandan juice", where no juice of it is known: what was weighed is not what is named.
    let part = (1..=2).any(|count| said.phrase(0, count).is_some_and(|(_, next)| next >= said.tokens.len()))
        && said.begins(0, &WORDS.parts)
        && item.part.is_none();
    if !part && (first > 0 && !said.mark(first - 1, '%') || !said.begins(first, &WORDS.another)) {
        return None;
    }
    let at = cut.text.find(words)?;
    // "6 passion fruit, pulp only" says what is used of the fruit.
    if part && cut.tokens.iter().rfind(|token| token.place.end <= at).is_none_or(|last| last.kind != Token::Word) {
        return None;
    }
    Some(Query::new(
        &ANOTHER_FOOD,
        at..at + words.len(),
        format!("“{words}” may make another food of {}; it was weighed as {} itself.", item.name, item.name),
        "If it is another food, write its name before the comma, or add it to your foods.",
    ))
}

/// "1 cup walnuts chopped": with a comma it would be measured before, and "chopped walnuts" after.
fn measured_when(cut: &Cut<'_>, item: &Item) -> Option<Query> {
    let amount = item.amounts.first().filter(|amount| amount.unit().dimension() == Dimension::Volume)?;
    let at = cut.tokens.iter().position(|token| token.place.start >= item.place.end)?;
    let (way, next) = cut.longest(at, &WORDS.ways)?;
    let cut_up = matches!(way, "chopped" | "fine" | "sliced" | "grated" | "shredded" | "crushed" | "cubed" | "pieces");
    (cut_up && !amount.unit().is_vague() && item.amounts.len() == 1).then(|| {
        let done = cut.written(at, next);
        Query::new(
            &CHOPPED_BEFORE_OR_AFTER,
            item.place.start..cut.tokens[next - 1].place.end,
            format!("{} was taken as measured before it was {done}.", item.name),
            format!("Write “{}, {done}” if so, or “{done} {}” if it is measured {done}.", item.name, item.name),
        )
    })
}

/// "1 courgette (about 200 g), grated and squeezed dry": what is squeezed out does not go into the bowl.
fn wrung_out(item: &Item) -> Option<Query> {
    let done = item.preparation.to_lowercase();
    let wrung = ["squeezed dry", "squeezed out", "wrung"].into_iter().find(|wrung| done.contains(wrung))?;
    let prepared = item.amounts.iter().any(|amount| amount.fill.as_deref() == Some("drained"));
    (!prepared && !item.amounts.is_empty()).then(|| {
        Query::new(
            &CHOPPED_BEFORE_OR_AFTER,
            item.place.clone(),
            format!(
                "{} was taken as measured before it was {wrung}; the water that leaves it is not taken off.",
                item.name
            ),
            "Write what is left, as “(180 g after squeezing)”.",
        )
    })
}

/// "2 apples, cores only": what the cores weigh is not known. "2 apples without the peel": what was weighed may have it.
fn remains_used(cut: &Cut<'_>, line: &mut Line) -> Option<Query> {
    let item = line.foods.iter_mut().find(|item| item.food.is_some() && item.part.is_none())?;
    let (from, to, alone) = (0..cut.tokens.len()).find_map(|at| {
        // "1 egg (50 g without shell)" says no more than every cook means.
        if cut.any(at, &["without"]) && !(at + 1..at + 3).any(|at| cut.any(at, &["shell", "shells"])) {
            let next = at + 1 + usize::from(cut.any(at + 1, &["the", "its", "their"]));
            return cut.longest(next, &WORDS.remains).map(|(_, to)| (at, to, false));
        }
        // "walnuts in the shell"
        let shell = at + 1 + usize::from(cut.any(at + 1, &["the", "their"]));
        if cut.any(at, &["in"]) && cut.any(shell, &["shell", "shells"]) || cut.any(at, &["unshelled", "unhulled"]) {
            return Some((at, if cut.any(at, &["in"]) { shell + 1 } else { at + 1 }, false));
        }
        // "just the cream" of a can
        if cut.any(at, &["just", "only"]) && cut.any(at + 1, &["the"]) {
            return cut.longest(at + 2, &WORDS.remains).map(|(_, to)| (at, to, true));
        }
        let (_, to) = cut.longest(at, &WORDS.remains)?;
        cut.any(to, &["only", "alone"]).then_some((at, to + 1, true))
    })?;
    let place = Some(cut.place(from, to)).filter(|place| place.start >= item.place.end)?;
    let words = cut.written(from, to);
    if alone {
        item.unread = true;
    }
    let (kind, message) = if alone {
        (&PART_NOT_WEIGHED, format!("“{words}” is less than the whole {}; nothing was weighed.", item.name))
    } else {
        (
            &ANOTHER_FOOD,
            format!(
                "“{words}” may mean another part than is weighed here; the weight is that of {} itself.",
                item.name
            ),
        )
    };
    Some(Query::new(kind, place, message, "Name the part that is used as the food, and write its grams."))
}

/// "1 cup sugar per egg", "1/2 cup for every 2 eggs": a rate, of which one can be taken alone.
fn per(cut: &Cut<'_>) -> Option<Query> {
    let by_the_packet =
        ["recipe", "package", "packet", "instructions", "directions", "the", "your", "label", "box", "cent"];
    let (at, next) = (1..cut.tokens.len()).find_map(|at| {
        let every = cut.any(at, &["for"]) && cut.any(at + 1, &["every", "each"]);
        (every || cut.any(at, &["per"])).then_some((at, at + 1 + usize::from(every)))
    })?;
    (next < cut.tokens.len() && !cut.any(next, &by_the_packet)).then(|| {
        let words = cut.written(at, cut.tokens.len().min(next + 3));
        Query::new(
            &AMOUNT_PER,
            cut.place(at, cut.tokens.len().min(next + 3)),
            format!("“{words}” makes a rate of the amount; it was taken once."),
            "Write how much it is for the whole recipe.",
        )
    })
}

/// An amount that stands in a remark and was not read, in the author's words.
pub(super) fn left_over(line: &Line, words: &str) -> Option<String> {
    measure_left_over(words).or_else(|| number_left_over(line, words))
}

/// A measure or weight in a remark: nothing measured passes unasked.
fn measure_left_over(words: &str) -> Option<String> {
    let cut = Cut::of(words);
    (0..cut.tokens.len()).find_map(|at| {
        let read = number::numbers(&cut, at)?;
        let (unit, next) = amount::unit(&cut, read.next)?;
        let measured = unit.dimension() != evencrumb_measure::Dimension::Count && !unit.is_vague();
        // "cut in 1 c. pieces" and "at 40 C" are no amounts.
        (measured && !cut.any(read.next, &["c", "t", "l", "f"])).then(|| cut.written(at, next).to_owned())
    })
}
