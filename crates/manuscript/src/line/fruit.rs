//! Parts of a counted thing: the zest of two lemons, the whites of three eggs, one orange, juiced.

use super::amount::{self, Amount, Names};
use super::cut::Cut;
use super::name::{self, Ask};
use super::number;
use crate::food_words::Named;
use crate::words::WORDS;

/// Parts of a counted thing, as "zest and juice of 1 lemon".
pub struct Source {
    /// Each part with its food, in the order written: the part's name, the food, the key looked up.
    pub parts: Vec<(String, Option<Named>, String)>,
    /// How many of the fruit, when the line says.
    pub amount: Option<Amount>,
    /// States written before the part ("finely grated").
    pub before: Vec<String>,
    /// The thing itself.
    pub thing: name::Found,
    /// The token after.
    pub next: usize,
}

/// Reads "[finely grated] zest [and juice] of 2 lemons" at `at`.
pub fn source(cut: &Cut<'_>, at: usize, to: usize, ask: Ask<'_>, names: &dyn Names) -> Option<Source> {
    let (parts, before, mut next) = parts(cut, at)?;
    next += usize::from(cut.any(next, &["only"]));
    // "seeds scraped out of 1 vanilla pod"
    let done = state(cut, next).map(|after| after + usize::from(cut.any(after, &["out"])));
    next = done.filter(|after| cut.any(*after, &["of", "from", "off"])).unwrap_or(next);
    let joined = cut.any(next, &["of", "from", "off"]);
    if joined {
        next += 1;
    } else if number::number(cut, next).is_none() && !cut.any(next, &["a", "an"]) {
        return None;
    }
    next += usize::from(cut.any(next, &["the"]));
    let mut count = None;
    if let Some((read, after)) = amount::amount(cut, next, names).filter(|(read, _)| read.bare || is_piece(read)) {
        count = Some(read);
        next = after + usize::from(cut.any(after, &["a", "an"]));
    } else if let Some(one) = article(cut, next) {
        count = Some(one);
        next += 1;
    } else if !joined {
        return None;
    }
    let end = (next..to).find(|at| ends_thing(cut, *at)).unwrap_or(to);
    let thing = name::find(cut, next, end, ask);
    thing.named?;
    let parts = parts.into_iter().map(|part| named(&part, &thing, ask)).collect();
    let next = thing.tail;
    Some(Source { parts, amount: count, before, thing, next })
}

/// The food that a part of a thing is: "zest" of "navel orange" is looked up as "navel orange zest", then "orange zest".
fn named(part: &str, thing: &name::Found, ask: Ask<'_>) -> (String, Option<Named>, String) {
    let words: Vec<&str> = thing.key.split(' ').collect();
    for from in 0..words.len() {
        let key = format!("{} {part}", words[from..].join(" "));
        if let Some(named) = ask(&key) {
            return (part.to_owned(), Some(named), key);
        }
    }
    // "seeds of 1 vanilla pod": what the pantry knows is the pod.
    let whole = matches!(part, "seed" | "pulp").then_some(thing.named).flatten();
    (part.to_owned(), whole, format!("{} {part}", thing.key))
}

/// Where the words of a thing end: at a comma, a dash, an "or", a further amount.
fn ends_thing(cut: &Cut<'_>, at: usize) -> bool {
    let token = &cut.tokens[at];
    token.is_mark(',')
        || token.is_mark(';')
        || token.is_mark('–')
        || token.is_mark('(')
        || token.is_any(&["or", "plus", "and"])
}

/// Whether pieces are counted: "3 ea lemons".
fn is_piece(amount: &Amount) -> bool {
    amount.unit() == evencrumb_measure::Unit::Piece && amount.each.is_none()
}

/// One, for "a lemon".
fn article(cut: &Cut<'_>, at: usize) -> Option<Amount> {
    cut.any(at, &["a", "an"]).then(|| one(cut, at, at + 1))
}

/// One of a counted thing.
pub fn one(cut: &Cut<'_>, from: usize, to: usize) -> Amount {
    use evencrumb_measure::{Number, Unit};
    Amount {
        terms: vec![amount::Term::of(Number::ONE, Number::ONE, Unit::Piece)],
        about: false,
        fill: None,
        each: None,
        size: None,
        unnumbered: false,
        bare: true,
        place: cut.place(from, to),
    }
}

/// "juice of 1" after the zest of lemons: the part, its food, the key looked up and how many, for the fruit whose part was
/// named before in `last`.
pub fn part_of(
    cut: &Cut<'_>,
    (from, to): (usize, usize),
    last: &str,
    ask: Ask<'_>,
    names: &dyn Names,
) -> Option<(String, Named, String, Amount)> {
    let (parts, _, next) = parts(cut, from + usize::from(cut.any(from, &["its", "their"])))?;
    let [part] = parts.as_slice() else { return None };
    let at = next + usize::from(cut.any(next, &["of", "from"]));
    let counted = || amount::amount(cut, at, names).filter(|(amount, _)| amount.bare && at > next);
    let amount = match counted() {
        Some((amount, end)) => {
            let spoken = end + usize::from(cut.any(end, &["of"]) && cut.any(end + 1, &["them", "those", "these"])) * 2;
            (spoken >= to).then_some(amount)?
        }
        // "2 tbsp lemon juice plus the grated zest of the lemon": of one, where a part of it was named before.
        None => {
            let of_it = at > next && cut.any(at, &["the", "that", "it", "same"]) && at + 3 >= to;
            let before = last.rsplit(' ').next().is_some_and(|word| WORDS.parts.has(&crate::word::fold(word)));
            (before && !last.ends_with(part.as_str()) && (next >= to || of_it)).then(|| one(cut, from, to))?
        }
    };
    let words: Vec<_> = last.split(' ').map(crate::word::key).collect();
    (0..words.len()).flat_map(|from| [words.len(), words.len() - 1].map(|to| (from, to))).find_map(|(from, to)| {
        let key = format!("{} {part}", words.get(from..to)?.join(" "));
        Some((part.clone(), ask(&key)?, key, amount.clone()))
    })
}

/// Reads "finely grated zest and juice": the parts, the states before them, the token after.
fn parts(cut: &Cut<'_>, at: usize) -> Option<(Vec<String>, Vec<String>, usize)> {
    let (mut parts, mut before, mut next) = (Vec::new(), Vec::new(), at);
    loop {
        next += usize::from(cut.any(next, &["the", "all"]));
        while let Some(after) = state(cut, next).filter(|_| !is_part(cut, next)) {
            before.push(cut.written(next, after).to_owned());
            next = after;
        }
        if cut.any(next, &["strips", "strip", "slivers"]) && cut.any(next + 1, &["of"]) {
            next += 2;
        }
        let (part, after) = cut.longest(next, &WORDS.parts)?;
        parts.push(part.to_owned());
        next = after;
        let joins = cut.any(next, &["and", "plus", "n"])
            || cut.mark(next, '&')
            || cut.mark(next, '+')
            || cut.mark(next, '/')
            || cut.mark(next, ',');
        if !joins || parts.len() > 3 {
            break;
        }
        let mut ahead = next + 1;
        while let Some(after) = state(cut, ahead).filter(|_| !is_part(cut, ahead)) {
            ahead = after;
        }
        if cut.longest(ahead, &WORDS.parts).is_none() {
            break;
        }
        next += 1;
    }
    Some((parts, before, next))
}

fn is_part(cut: &Cut<'_>, at: usize) -> bool {
    cut.longest(at, &WORDS.parts).is_some()
}

fn state(cut: &Cut<'_>, at: usize) -> Option<usize> {
    [&WORDS.ways, &WORDS.states].iter().filter_map(|list| cut.longest(at, list)).map(|(_, next)| next).max()
}

/// The parts that tokens `from` to `to` speak of, when they speak of nothing else: "zested and juiced", "finely grated
/// zest only", "juice of". Each with its food for the thing with this key.
pub fn taken(
    cut: &Cut<'_>,
    from: usize,
    to: usize,
    thing: &name::Found,
    ask: Ask<'_>,
) -> Option<Vec<(String, Option<Named>, String)>> {
    let mut parts: Vec<String> = Vec::new();
    let mut at = from;
    while at < to {
        if let Some((part, next)) = cut.longest(at, &WORDS.parts) {
            if !parts.iter().any(|known| known == part) {
                parts.push(part.to_owned());
            }
            at = next;
        } else if let Some(next) = state(cut, at) {
            at = next;
        } else if cut.any(at, &["and", "then", "only", "of", "the", "plus", "both", "n", "its", "save", "reserve"])
            || cut.mark(at, '&')
            || cut.mark(at, '+')
            || cut.mark(at, '/')
            || cut.mark(at, ',')
        {
            at += 1;
        } else {
            return None;
        }
    }
    let named: Vec<_> =
        parts.iter().map(|part| named(part, thing, ask)).filter(|(_, food, _)| food.is_some()).collect();
    (!named.is_empty()
        && named.len() == parts.len()
        && named.iter().all(|(_, food, _)| food.map(|f| f.food) != thing.named.map(|f| f.food)))
    .then_some(named)
}
