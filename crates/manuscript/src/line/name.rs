//! Finding the food among the words of a line.

use super::behind;
use super::cut::Cut;
use super::number;
use crate::food_words::Named;
use crate::token::Kind;
use crate::words::WORDS;

/// How the pantry is asked.
pub type Ask<'f> = &'f dyn Fn(&str) -> Option<Named>;

/// Longest food name in words; longer phrases are not looked up.
const LONGEST_NAME: usize = 7;
/// Words of a line among which a name is looked for.
const LOOKED_AT: usize = 24;

/// A food found between two tokens.
#[derive(Clone, Debug, Default)]
pub struct Found {
    /// The food; `None` when the words name none that is known.
    pub named: Option<Named>,
    /// Tokens of the name.
    pub from: usize,
    /// The token after the name.
    pub to: usize,
    /// The key that was looked up, or would be: folded singular words.
    pub key: String,
    /// What stood around the name and was understood.
    pub around: Around,
    /// Where the tail begins: what follows is no name.
    pub tail: usize,
}

/// Words around a name.
#[derive(Clone, Debug, Default)]
pub struct Around {
    /// Size of one.
    pub size: Option<String>,
    /// Fill words.
    pub fill: Option<String>,
    /// Ways that stood before the name, so that they were true when it was measured.
    pub ways: Vec<String>,
    /// States and ways before the name, as written.
    pub before: Vec<String>,
    /// States and ways right after the name, as written.
    pub after: Vec<String>,
    /// Words that promise something.
    pub promises: Vec<String>,
    /// Words that were not known.
    pub unknown: Vec<String>,
}

/// The folded singular words of tokens `from` to `to`, hyphens and full stops between them passed over.
pub fn key(cut: &Cut<'_>, from: usize, to: usize) -> String {
    let mut key = String::new();
    for at in from..to.min(cut.tokens.len()) {
        push_key(&mut key, cut, at);
    }
    key
}

fn push_key(key: &mut String, cut: &Cut<'_>, at: usize) {
    let token = &cut.tokens[at];
    match token.kind {
        Kind::Mark('-') if cut.joins(at) => {}
        Kind::Mark('.' | '\'' | '"') => {}
        _ => {
            if !key.is_empty() && !token.is_mark('%') {
                key.push(' ');
            }
            key.push_str(match token.kind {
                Kind::Mark('&') => "and",
                _ => &token.key,
            });
        }
    }
}

/// The keys of all stretches from one token: each is the beginning of the longest one's, so that one text holds them all.
#[derive(Default)]
struct Keys {
    text: String,
    ends: Vec<usize>,
    from: usize,
}

impl Keys {
    /// Takes the stretches from `from` up to `to`; the room of those before is used again.
    fn fill(&mut self, cut: &Cut<'_>, from: usize, to: usize) {
        self.text.clear();
        self.ends.clear();
        self.from = from;
        for at in from..to {
            push_key(&mut self.text, cut, at);
            self.ends.push(self.text.len());
        }
    }

    /// The key of the tokens up to `to`.
    fn to(&self, to: usize) -> &str {
        &self.text[..self.ends[to - self.from - 1]]
    }
}

/// Whether a food's name of at least two words begins at `at` (so "00" in "00 flour" is no amount).
pub fn starts(cut: &Cut<'_>, at: usize, ask: Ask<'_>) -> bool {
    longest(cut, at, ask).is_some()
}

/// The food with the longest name of at least two words that begins at `at`.
pub fn longest(cut: &Cut<'_>, at: usize, ask: Ask<'_>) -> Option<Named> {
    let last = (at + LONGEST_NAME).min(cut.tokens.len());
    let mut keys = Keys::default();
    keys.fill(cut, at, last);
    (at + 2..=last).rev().filter(|to| cut.tokens[to - 1].kind == Kind::Word).find_map(|to| ask(keys.to(to)))
}

/// Finds the food named by tokens `from` to `to`.
///
/// Every stretch of words is tried; around it only sizes, states and ways may stand, after it also a tail. The stretch
/// with the fewest unknown words before it wins, then the longest. A word before the name that is itself a food, or
/// any unknown word before a strict name, makes another food of it: then nothing is found.
pub fn find(cut: &Cut<'_>, from: usize, to: usize, ask: Ask<'_>) -> Found {
    let to = to.min(cut.tokens.len()).min(from + LOOKED_AT);
    let mut best: Option<(usize, usize, Found)> = None;
    let mut keys = Keys::default();
    for start in from..to {
        if !matches!(cut.tokens[start].kind, Kind::Word | Kind::Digits(_)) {
            continue;
        }
        let longest = to.min(start + LONGEST_NAME + 3);
        keys.fill(cut, start, longest);
        // What stands before costs more to read than a name to look up, so it is read where there is a name.
        let mut read_before = None;
        for end in (start + 1..=longest).rev() {
            // "T55": a grade may end the name, an amount may not.
            if cut.tokens[end - 1].kind != Kind::Word && !(end > start + 1 && number::is_grade(cut, end - 1)) {
                continue;
            }
            let key = keys.to(end);
            let Some(named) = ask(key).or_else(|| said(key, ask)) else { continue };
            let Some(before) = read_before.get_or_insert_with(|| before(cut, from, start)) else { break };
            if !before.unknown.is_empty() && (named.strict || holds_food(cut, from, start, ask)) {
                continue;
            }
            let (key, named, end) = match behind::finer(cut, key, end, to, ask) {
                Some(finer) => (finer.key, finer.named, finer.to),
                None => (key.to_owned(), named, end),
            };
            let Some((after, tail)) = after(cut, end, to) else { continue };
            let unknown = before.unknown.len();
            let length = end - start;
            if best.as_ref().is_none_or(|(least, most, _)| (unknown, usize::MAX - length) < (*least, usize::MAX - most))
            {
                let mut around = before.clone();
                around.after = after.before;
                around.ways.extend(after.ways);
                around.promises.extend(after.promises);
                // "flour, sifted" was measured before it was sifted.
                around.fill = around.fill.or(after.fill.filter(|fill| fill != "sifted")).map(sifted);
                around.size = around.size.or(after.size);
                best = Some((unknown, length, Found { named: Some(named), from: start, to: end, key, around, tail }));
            }
            break;
        }
    }
    best.map_or_else(|| unknown(cut, from, to), |(_, _, found)| found)
}

/// "sifted before measuring" tells where it stands what "sifted" tells before the food.
pub fn sifted(fill: String) -> String {
    if fill == "sifted first" { "sifted".to_owned() } else { fill }
}

/// What people say for a food: a professional's "whites", and what a machine heard ("buckwheat flower").
fn said(key: &str, ask: Ask<'_>) -> Option<Named> {
    if matches!(key, "white" | "yolk") {
        return ask(&format!("egg {key}"));
    }
    let meant = |word| WORDS.heard.get(word).map(String::as_str);
    if !key.split(' ').any(|word| word == "percent" || meant(word).is_some()) {
        return None;
    }
    if let Some((share, rest)) = key.split_once(" percent ") {
        // "seventy percent chocolate" is written with a figure.
        let value = share.split(' ').map(|word| WORDS.numbers.get(word).copied()).sum::<Option<u32>>()?;
        return ask(&format!("{value}% {rest}"));
    }
    if !key.split(' ').any(|word| meant(word).is_some()) {
        return None;
    }
    ask(&key.split(' ').map(|word| meant(word).unwrap_or(word)).collect::<Vec<_>>().join(" "))
}

/// Whether the tokens are nothing but states, ways and sizes.
pub fn only_states(cut: &Cut<'_>, from: usize, to: usize) -> bool {
    let mut at = from;
    while at < to {
        match understood(cut, at, &mut Around::default(), false) {
            Some(next) => at = next,
            None => return false,
        }
    }
    at == to
}

/// The words that stand where a name should, when none is known.
fn unknown(cut: &Cut<'_>, from: usize, to: usize) -> Found {
    let mut start = from;
    let mut around = Around::default();
    while start < to {
        match understood(cut, start, &mut around, true) {
            Some(next) => start = next,
            None => break,
        }
    }
    let mut end = start;
    while end < to && (end == start || cut.longest(end, &WORDS.tails).is_none()) {
        if cut.tokens[end].kind == Kind::Mark('.') && cut.get(end + 1).is_some_and(|next| next.spaced) {
            break;
        }
        end += 1;
    }
    Found { named: None, from: start, to: end, key: key(cut, start, end), around, tail: end }
}

/// Whether the tokens hold a food's name of their own.
fn holds_food(cut: &Cut<'_>, from: usize, to: usize, ask: Ask<'_>) -> bool {
    (from..to).any(|at| {
        let single = cut.tokens[at].kind == Kind::Word && ask(&cut.tokens[at].key).is_some();
        single && cut.longest(at, &WORDS.states).is_none()
    })
}

/// Reads the tokens before a name; `None` when something stands there that never does.
fn before(cut: &Cut<'_>, from: usize, to: usize) -> Option<Around> {
    let mut around = Around::default();
    let mut at = from;
    while at < to {
        if let Some(next) = understood(cut, at, &mut around, true).filter(|next| *next <= to) {
            at = next;
            continue;
        }
        let token = &cut.tokens[at];
        // "fresh or frozen blueberries", "toasted and chopped nuts"
        if at > from
            && token.is_any(&["and", "or", "then", "but"])
            && understood(cut, at + 1, &mut Around::default(), true).is_some()
        {
            at += 1;
            continue;
        }
        match token.kind {
            Kind::Word
                if cut.longest(at, &WORDS.tails).is_some()
                    && !token.is_any(&["extra", "more", "any", "only", "both", "for", "enough"]) =>
            {
                return None;
            }
            Kind::Word => around.unknown.push(cut.written(at, at + 1).to_owned()),
            Kind::Digits(_) | Kind::Fraction(_) => {
                // "70% dark chocolate", "14-oz can": a number may only stand before a percent sign.
                if !cut.mark(at + 1, '%') {
                    return None;
                }
            }
            Kind::Mark('-' | '.' | '\'' | '"' | '%' | ',' | '&' | '*' | '/' | '®' | '™') => {}
            Kind::Mark(_) => return None,
        }
        at += 1;
    }
    Some(around)
}

/// Reads the tokens after a name up to a tail; `None` when an unknown word stands there (it would be part of the name).
fn after(cut: &Cut<'_>, from: usize, to: usize) -> Option<(Around, usize)> {
    let mut around = Around::default();
    let mut at = from;
    while at < to {
        let token = &cut.tokens[at];
        // "pumpkin the plain kind": a remark that has lost its comma.
        if token.is_any(&["the", "any"]) && cut.is_word(at + 1) {
            break;
        }
        // "apricots chopped small": the size of the pieces, not of the fruit.
        if let Some((_, next)) = cut.longest(at, &WORDS.sizes).filter(|_| at > from && cut.begins(at - 1, &WORDS.ways))
        {
            around.before.push(cut.written(at, next).to_owned());
            at = next;
            continue;
        }
        if let Some(next) = understood(cut, at, &mut around, false).filter(|next| *next <= to) {
            at = next;
            continue;
        }
        if cut.longest(at, &WORDS.tails).is_some()
            || cut.longest(at, &WORDS.purposes).is_some()
            || only_parts(cut, at, to)
            || opens_number(cut, at)
        {
            break;
        }
        match token.kind {
            // "cornflour slaked with water": what has been done to a food is no part of its name.
            Kind::Word if token.folded.len() > 4 && token.folded.ends_with("ed") && !cut.joins(at + 1) => {
                around.before.push(cut.written(at, at + 1).to_owned());
                at += 1;
            }
            Kind::Word => return None,
            Kind::Mark('-') if cut.joins(at) => return None,
            _ => break,
        }
    }
    Some((around, at))
}

/// Whether the tokens speak of parts and nothing else: "lemon juiced and zested".
fn only_parts(cut: &Cut<'_>, mut at: usize, to: usize) -> bool {
    let mut found = false;
    while at < to {
        if let Some((_, next)) = cut.longest(at, &WORDS.parts) {
            (at, found) = (next, true);
        } else if found && (cut.any(at, &["and", "then", "plus"]) || cut.mark(at, '&')) {
            at += 1;
        } else {
            return false;
        }
    }
    found
}

/// Whether a number in words stands at `at`, with a word behind it: "chocolate chips twelve ounces".
fn opens_number(cut: &Cut<'_>, at: usize) -> bool {
    cut.get(at).is_some_and(|token| WORDS.numbers.contains_key(token.folded.as_str())) && cut.is_word(at + 1)
}

/// Reads one size, fill, way, state or promise at `at`; the longest phrase of all lists wins.
fn understood(cut: &Cut<'_>, at: usize, around: &mut Around, is_before: bool) -> Option<usize> {
    let lists = [&WORDS.ways, &WORDS.fills, &WORDS.sizes, &WORDS.states, &WORDS.promises];
    let (which, (stands_for, next)) = lists
        .iter()
        .enumerate()
        .filter_map(|(which, list)| cut.longest(at, list).map(|found| (which, found)))
        .max_by_key(|(which, (_, next))| (*next, usize::MAX - which))?;
    let written = cut.written(at, next).to_owned();
    match which {
        0 => {
            // "almonds slivered": the form they are bought in.
            // "pea puree" was a puree when it was measured; "peas, pureed" were not.
            if is_before || matches!(stands_for, "slivered" | "ground") || written.eq_ignore_ascii_case("puree") {
                around.ways.push(stands_for.to_owned());
            }
            around.before.push(written);
        }
        1 => {
            around.fill.get_or_insert_with(|| stands_for.to_owned());
            if !matches!(stands_for, "packed" | "level" | "heaped" | "scant") {
                around.before.push(written);
            }
        }
        2 => {
            around.size.get_or_insert_with(|| stands_for.to_owned());
        }
        3 => around.before.push(written),
        _ => around.promises.push(written),
    }
    // "well-drained": the hyphen belongs to the state.
    Some(next + usize::from(cut.joins(next) && is_before))
}
