//! Numbers as people write and say them: digits, fractions, words, ranges.

use std::sync::LazyLock;

use evencrumb_measure::{Number, Unit};
use rustc_hash::FxHashSet;

use super::amount::unit;
use super::cut::Cut;
use crate::token::Kind;
use crate::words::WORDS;

/// Words that may open a number. It is asked of every word of a text, and nearly all of them open none.
static OPENERS: LazyLock<FxHashSet<&str>> = LazyLock::new(|| {
    let others = ["a", "an", "between", "couple", "double", "dozen", "few", "from", "point", "several"];
    let listed = WORDS.numbers.keys().chain(WORDS.fractions.keys()).map(String::as_str);
    listed.chain(others).collect()
});

/// Whether the token at `at` may open a number.
pub fn may_open(cut: &Cut<'_>, at: usize) -> bool {
    cut.get(at).is_some_and(|token| match token.kind {
        Kind::Digits(_) | Kind::Fraction(_) => true,
        Kind::Word => OPENERS.contains(token.folded.as_str()),
        Kind::Mark(_) => false,
    })
}

/// A number, or two with "to" between, and the token after.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Numbers {
    /// Lower end.
    pub low: Number,
    /// Upper end.
    pub high: Number,
    /// The token after.
    pub next: usize,
    /// Whether it is a word such as "a few" and no number.
    pub vague: bool,
}

/// Denominators that kitchens use; `250/300` is no fraction.
const DENOMINATORS: &[u64] = &[2, 3, 4, 5, 6, 8, 10, 12, 16, 32];

/// Reads the number at `at`, without a range.
pub fn number(cut: &Cut<'_>, at: usize) -> Option<(Number, usize)> {
    if !may_open(cut, at) {
        return None;
    }
    let (number, next) = match cut.get(at)?.kind {
        Kind::Digits(whole) => digits(cut, at, whole?)?,
        Kind::Fraction(part) => (part, at + 1),
        Kind::Word => words(cut, at)?,
        Kind::Mark(_) => return None,
    };
    dozens(cut, number, next)
}

/// "a dozen", "half a dozen", "2 dozen": twelve of what was read; also "2 hundred".
fn dozens(cut: &Cut<'_>, number: Number, next: usize) -> Option<(Number, usize)> {
    if cut.any(next, &["dozen", "doz"]) {
        // "a dozen and a half eggs" is eighteen.
        let half = cut.any(next + 1, &["and"]).then(|| fraction_words(cut, next + 2)).flatten();
        let (number, next) =
            half.and_then(|(part, after)| Some((number.plus(part)?, after))).unwrap_or((number, next + 1));
        return Some((number.times(Number::whole(12))?, next));
    }
    if cut.any(next, &["hundred"]) && number.is_whole() {
        return Some((number.times(Number::whole(100))?, next + 1));
    }
    if cut.any(next, &["thousand"]) {
        return Some((number.times(Number::whole(1000))?, next + 1));
    }
    Some((number, next))
}

fn digits(cut: &Cut<'_>, at: usize, whole: Number) -> Option<(Number, usize)> {
    let mut next = at + 1;
    if let Some((part, after)) = slashed(cut, at) {
        return Some((part, after));
    }
    if let Some(grouped) = thousands(cut, at) {
        return Some(grouped);
    }
    if cut.any(next, &["point"])
        && let Some((number, after)) = spoken_decimal(cut, whole, next + 1)
    {
        return Some((number, after));
    }
    if !whole.is_whole() {
        return Some((whole, next));
    }
    // "1 and 1/2", "1 & ½", "1-1/2", "1 and a half"; a plain space needs no mark.
    // "1–1/2 cups": a range does not end below where it begins.
    let dash = cut.mark(next, '–') && !cut.tokens[next].spaced && whole >= Number::ONE;
    let joined = cut.joins(next) || dash && proper_fraction(cut, next + 1, false).is_some();
    if joined || cut.any(next, &["and", "n"]) || cut.mark(next, '&') {
        next += 1;
    }
    if let Some((part, after)) = proper_fraction(cut, next, next > at + 1 && !joined) {
        return Some((whole.plus(part)?, after));
    }
    // "3 quarters", "1 half", "2 thirds".
    if let Some(under) = cut.get(at + 1).and_then(|token| WORDS.fractions.get(token.folded.as_str())) {
        let (over, _) = whole.parts();
        if over < u64::from(*under) && !cut.any(at + 1, &["halves"]) {
            return Some((Number::fraction(over, u64::from(*under))?, of_a(cut, at + 2)));
        }
    }
    Some((whole, at + 1))
}

/// Whether the number at `at` grades a flour: "T65", "W300", "type 550".
pub fn is_grade(cut: &Cut<'_>, at: usize) -> bool {
    let glued = |at: usize| !cut.tokens[at].spaced && cut.any(at - 1, &["t", "w"]);
    at > 0
        && matches!(cut.get(at).map(|token| token.kind), Some(Kind::Digits(_)))
        && (glued(at) || cut.any(at - 1, &["type", "typ", "tipo"]))
}

/// "1 250 g", "1.000 g": thousands parted by a space or a point, which grams and millilitres alone reach. "2 400 g tins"
/// are two tins.
pub fn thousands(cut: &Cut<'_>, at: usize) -> Option<(Number, usize)> {
    let token = cut.get(at)?;
    if is_grade(cut, at) || at > 0 && (cut.mark(at - 1, '/') || cut.mark(at - 1, ':')) {
        return None;
    }
    let next = at + if token.folded.contains('.') { 1 } else { 2 };
    let last = cut.get(next - 1)?;
    let three =
        last.folded.rsplit('.').next().is_some_and(|part| part.len() == 3) && matches!(last.kind, Kind::Digits(_));
    if !three {
        return None;
    }
    let text = match token.folded.split_once('.') {
        Some((whole, part)) => format!("{whole}{part}"),
        None => format!("{}{}", token.folded, last.folded),
    };
    let groups =
        text.bytes().all(|byte| byte.is_ascii_digit()) && (4..=6).contains(&text.len()) && !text.starts_with('0');
    let spaced_once = next == at + 1 || last.spaced && token.folded.len() <= 3;
    if !groups || !spaced_once {
        return None;
    }
    let (unit, after) = unit(cut, next)?;
    let pack = super::amount::unit(cut, after).is_some_and(|(pack, _)| super::amount::is_pack(pack));
    (matches!(unit, Unit::Gram | Unit::Millilitre) && !pack).then_some((Number::decimal(&text)?, next))
}

/// `1/2` in digits.
fn slashed(cut: &Cut<'_>, at: usize) -> Option<(Number, usize)> {
    let Kind::Digits(Some(over)) = cut.get(at)?.kind else { return None };
    if !cut.mark(at + 1, '/') {
        return None;
    }
    let Kind::Digits(Some(under)) = cut.get(at + 2)?.kind else { return None };
    let ((over, one), (under, also_one)) = (over.parts(), under.parts());
    if let Some(mixed) = run_together(over, under) {
        return Some((mixed, at + 3));
    }
    if one != 1 || also_one != 1 || !DENOMINATORS.contains(&under) || over > 99 {
        return None;
    }
    Some((Number::fraction(over, under)?, at + 3))
}

/// "21/2" where a pasted text lost its space: 2 1/2. No cook writes twenty-one halves.
pub fn run_together(over: u64, under: u64) -> Option<Number> {
    let (whole, part) = (over / 10, over % 10);
    if !(11..100).contains(&over) || part == 0 || part >= under || !matches!(under, 2 | 3 | 4 | 8) {
        return None;
    }
    Number::fraction(whole * under + part, under)
}

/// A fraction below one that may follow a whole number.
fn proper_fraction(cut: &Cut<'_>, at: usize, after_and: bool) -> Option<(Number, usize)> {
    let (part, next) = match cut.get(at)?.kind {
        Kind::Fraction(part) => (part, at + 1),
        Kind::Digits(_) => slashed(cut, at)?,
        Kind::Word if after_and => fraction_words(cut, at)?,
        _ => return None,
    };
    (part < Number::ONE).then_some((part, next))
}

/// "half", "a half", "one half", "three quarters", "two-thirds", "a third", with "of a" after it passed over.
pub fn fraction_words(cut: &Cut<'_>, at: usize) -> Option<(Number, usize)> {
    let token = cut.get(at)?;
    let mut next = at;
    let mut over = 1;
    if token.is_any(&["a", "an"]) {
        next += 1;
    } else if let Some(value) = WORDS.numbers.get(token.folded.as_str()).filter(|value| **value > 0) {
        over = *value;
        next += 1;
        if cut.joins(next) {
            next += 1;
        }
    }
    let under = *WORDS.fractions.get(cut.get(next)?.folded.as_str())?;
    if over >= under {
        return None;
    }
    Some((Number::fraction(u64::from(over), u64::from(under))?, of_a(cut, next + 1)))
}

/// Passes over "of a", "of an", "of one", "a", "an" after a fraction, where a unit or a thing follows.
fn of_a(cut: &Cut<'_>, at: usize) -> usize {
    if cut.any(at, &["of"]) && cut.any(at + 1, &["a", "an", "one"]) {
        return at + 2;
    }
    if cut.any(at, &["a", "an"]) && cut.is_word(at + 1) {
        return at + 1;
    }
    at
}

/// Numbers in words: "two hundred and fifty", "twenty-five", "one and a half", "three quarters of a".
fn words(cut: &Cut<'_>, at: usize) -> Option<(Number, usize)> {
    let token = cut.get(at)?;
    if let Some(read) = fraction_words(cut, at) {
        return Some(read);
    }
    if token.is_any(&["dozen"]) {
        return Some((Number::ONE, at));
    }
    if token.is_any(&["a", "an"]) {
        return match cut.get(at + 1) {
            Some(next) if next.is_any(&["dozen", "doz", "thousand"]) => Some((Number::ONE, at + 1)),
            Some(next)
                if next.is_any(&["double"]) && unit(cut, at + 2).is_some_and(|(unit, _)| unit == Unit::Batch) =>
            {
                Some((Number::whole(2), at + 2))
            }
            Some(next) if next.is_any(&["hundred"]) => hundreds(cut, 1, at + 1),
            Some(next) if next.is_any(&["couple", "pair"]) => Some((Number::whole(2), of(cut, at + 2))),
            _ => None,
        };
    }
    if token.is_any(&["couple"]) {
        return Some((Number::whole(2), of(cut, at + 1)));
    }
    if token.is_any(&["point"]) {
        return spoken_decimal(cut, Number::ZERO, at + 1);
    }
    if token.is_any(&["double"]) && unit(cut, at + 1).is_some_and(|(unit, _)| unit == Unit::Batch) {
        return Some((Number::whole(2), at + 1));
    }
    hundreds(cut, 0, at)
}

/// Whole numbers in words from `at`, where `total` was read before; then a half or a decimal.
fn hundreds(cut: &Cut<'_>, total: u32, at: usize) -> Option<(Number, usize)> {
    let (mut total, mut next) = (total, at);
    let mut read = total > 0;
    loop {
        let after_and = usize::from(read && total >= 100 && cut.any(next, &["and"]));
        let Some(word) = cut.get(next + after_and) else { break };
        if read && word.folded == "hundred" && total > 0 && total < 100 {
            total *= 100;
            next += 1;
        } else if let Some(value) = WORDS.numbers.get(word.folded.as_str()).filter(|_| word.kind == Kind::Word) {
            // "two fifty grams" as people say two hundred and fifty.
            if read && (1..10).contains(&total) && *value >= 20 && said_grams(cut, next + 1) {
                total = total * 100 + value;
                next += 1;
                continue;
            }
            let fits = !read
                || (total % 100 == 0 && total > 0 && *value > 0)
                || (total % 100 >= 20 && total % 10 == 0 && (1..10).contains(value));
            if !fits {
                break;
            }
            total += value;
            next += after_and + 1;
            read = true;
            if cut.joins(next) && cut.get(next + 1).is_some_and(|word| WORDS.numbers.contains_key(word.folded.as_str()))
            {
                next += 1;
            }
        } else {
            break;
        }
    }
    if !read {
        return None;
    }
    let whole = Number::whole(total);
    if cut.any(next, &["point"])
        && let Some(decimal) = spoken_decimal(cut, whole, next + 1)
    {
        return Some(decimal);
    }
    let and = usize::from(cut.any(next, &["and", "n"]) || cut.mark(next, '&'));
    if let Some((part, after)) = proper_fraction(cut, next + and, and == 1) {
        return Some((whole.plus(part)?, after));
    }
    Some((whole, next))
}

/// Whether grams or millilitres follow, after one more number word at most.
fn said_grams(cut: &Cut<'_>, at: usize) -> bool {
    let at = at
        + usize::from(cut.get(at).is_some_and(|token| {
            WORDS.numbers.get(token.folded.as_str()).is_some_and(|value| (1..10).contains(value))
        }));
    unit(cut, at).is_some_and(|(unit, _)| matches!(unit, Unit::Gram | Unit::Millilitre))
}

/// Digits after a spoken point: "one point two five".
fn spoken_decimal(cut: &Cut<'_>, whole: Number, at: usize) -> Option<(Number, usize)> {
    let (mut over, mut under, mut next) = (0u64, 1u64, at);
    while under < 1000 {
        let Some(token) = cut.get(next) else { break };
        let digit = match token.kind {
            Kind::Digits(Some(number)) if number.is_whole() && next == at => {
                let places = token.folded.len();
                return whole
                    .plus(Number::fraction(
                        number.parts().0,
                        10u64.pow(u32::try_from(places).ok().filter(|p| *p < 6)?),
                    )?)
                    .map(|n| (n, next + 1));
            }
            Kind::Word => match WORDS.numbers.get(token.folded.as_str()) {
                Some(value) if *value < 10 => u64::from(*value),
                _ => break,
            },
            _ => break,
        };
        (over, under, next) = (over * 10 + digit, under * 10, next + 1);
    }
    if next == at {
        return None;
    }
    Some((whole.plus(Number::fraction(over, under)?)?, next))
}

fn of(cut: &Cut<'_>, at: usize) -> usize {
    at + usize::from(cut.any(at, &["of"]))
}

/// Reads a number or a range of numbers at `at`.
pub fn numbers(cut: &Cut<'_>, at: usize) -> Option<Numbers> {
    if !may_open(cut, at) {
        return None;
    }
    let between = cut.any(at, &["between"]);
    let start = at + usize::from((between || cut.any(at, &["from"])) && number(cut, at + 1).is_some());
    // "a few", "several": the custom is three, give or take.
    let few = start + usize::from(cut.any(start, &["a"]));
    if cut.any(few, &["few"]) {
        return Some(Numbers { low: Number::whole(3), high: Number::whole(4), next: of(cut, few + 1), vague: true });
    }
    if cut.any(start, &["several"]) {
        return Some(Numbers { low: Number::whole(3), high: Number::whole(5), next: of(cut, start + 1), vague: true });
    }
    let (low, next) = number(cut, start)?;
    if is_ratio(cut, start) {
        return None;
    }
    // "between a quarter and a third"
    let upper = range_end(cut, next).or_else(|| (between && cut.any(next, &["and"])).then_some(next + 1));
    if let Some((high, after)) = upper.and_then(|at| number(cut, at))
        && high > low
    {
        return Some(Numbers { low, high, next: or_so(cut, after), vague: false });
    }
    Some(Numbers { low, high: low, next: or_so(cut, next), vague: false })
}

/// Two numbers in proportion and no amount: "1:1", "60/40", "22/24".
fn is_ratio(cut: &Cut<'_>, at: usize) -> bool {
    let whole = |at: usize| matches!(cut.get(at).map(|token| token.kind), Some(Kind::Digits(Some(number))) if number.is_whole());
    whole(at)
        && whole(at + 2)
        && (cut.mark(at + 1, ':') || cut.mark(at + 1, '/') && slashed(cut, at).is_none())
        && [at + 1, at + 2].iter().all(|at| cut.get(*at).is_some_and(|token| !token.spaced))
        && unit(cut, at + 3).is_none()
}

/// Whether the number at `at` is either side of a proportion.
pub fn in_ratio(cut: &Cut<'_>, at: usize) -> bool {
    is_ratio(cut, at) || at >= 2 && is_ratio(cut, at - 2)
}

/// Passes over "or so" and "ish" after a number.
fn or_so(cut: &Cut<'_>, at: usize) -> usize {
    if cut.any(at, &["or"]) && cut.any(at + 1, &["so"]) { at + 2 } else { at + usize::from(cut.any(at, &["ish"])) }
}

/// The token after "to", "or", a hyphen or a dash that may join two numbers.
pub fn range_end(cut: &Cut<'_>, at: usize) -> Option<usize> {
    let token = cut.get(at)?;
    let joins = token.is_mark('-')
        || token.is_mark('–')
        || token.is_mark('~')
        || token.is_any(&["to", "or", "through", "til", "till", "max"]);
    joins.then_some(at + 1)
}

/// Words before a number that make it a guess.
pub fn about(cut: &Cut<'_>, at: usize) -> Option<usize> {
    if cut.mark(at, '~') {
        return Some(at + 1);
    }
    if cut.any(at, &["approx", "c", "ca", "circa"])
        && cut.mark(at + 1, '.')
        && cut.get(at + 2).is_some_and(crate::token::Token::is_number)
    {
        return Some(at + 2);
    }
    if cut.any(at, &["just", "somewhere"]) && cut.any(at + 1, &["over", "about", "between", "around"]) {
        return Some(at + 1 + usize::from(!cut.any(at + 1, &["between"])));
    }
    if cut.any(at, &["up"]) && cut.any(at + 1, &["to"]) {
        return Some(at + 2);
    }
    if cut.any(at, &["at"]) && cut.any(at + 1, &["least", "most"]) {
        return Some(at + 2);
    }
    let single = [
        "about",
        "approx",
        "approximately",
        "around",
        "roughly",
        "circa",
        "ca",
        "nearly",
        "almost",
        "maybe",
        "say",
        "abt",
        "aprox",
        "approximatly",
        "perhaps",
        "probably",
        "like",
    ];
    cut.any(at, &single).then_some(at + 1)
}
