//! Amounts in a line: numbers as people write them, units, ranges, sums, packs.

use std::ops::Range;

use evencrumb_measure::{Custom, Dimension, Number, Unit};

use super::cut::Cut;
use crate::token::Kind;
use crate::words::WORDS;

/// One amount as written: `1 cup plus 2 tablespoons` is one amount of two terms.
#[derive(Clone, Debug, PartialEq)]
pub struct Amount {
    /// What is added up, in the order written; the first may not be taken off.
    pub terms: Vec<Term>,
    /// Whether the author wrote "about".
    pub about: bool,
    /// How full the measure is: `heaped`, `scant`, `level`, `packed`, `sifted`, `spooned`, `dipped`.
    pub fill: Option<String>,
    /// What one of a counted thing holds: `14 oz` in "2 (14 oz) cans".
    pub each: Option<Box<Amount>>,
    /// Size word between number and unit or food: `large`.
    pub size: Option<String>,
    /// Whether the number is only a word such as "a few".
    pub unnumbered: bool,
    /// Whether no unit was written, so that pieces are counted.
    pub bare: bool,
    /// Bytes of the line.
    pub place: Range<usize>,
}

/// A number and a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Term {
    /// The number, or the lower end of "2 to 3".
    pub low: Number,
    /// The number, or the upper end.
    pub high: Number,
    /// The unit; pieces where none was written.
    pub unit: Unit,
    /// Whether it is taken off ("1 cup minus 1 tablespoon").
    pub minus: bool,
}

impl Amount {
    /// The unit of the first term.
    pub fn unit(&self) -> Unit {
        self.terms[0].unit
    }

    /// Lower and upper number in the unit of the first term: a sum is turned into that unit where one measure can be
    /// turned into another ("1 cup plus 2 tablespoons" is 1.125 cups); terms that cannot are left out here.
    pub fn quantity(&self, custom: Custom) -> (f64, f64) {
        let unit = self.unit();
        let mut total = (0.0, 0.0);
        for term in &self.terms {
            let Some(factor) = size(term.unit, custom)
                .zip(size(unit, custom))
                .map(|(one, other)| one / other)
                .or_else(|| (term.unit == unit).then_some(1.0))
            else {
                continue;
            };
            let sign = if term.minus { -factor } else { factor };
            total.0 += sign * term.low.value();
            total.1 += sign * term.high.value();
        }
        (f64::max(total.0, 0.0), f64::max(total.1, 0.0))
    }

    /// Whether the amount is a weight.
    pub fn is_weight(&self) -> bool {
        match &self.each {
            Some(each) => each.is_weight(),
            None => self.terms.iter().all(|term| term.unit.dimension() == Dimension::Weight),
        }
    }
}

/// Size of a unit for turning one into another of its dimension; volumes and weights are told apart by sign.
fn size(unit: Unit, custom: Custom) -> Option<f64> {
    match unit.dimension() {
        Dimension::Volume => unit.millilitres(custom).map(|range| range.best()),
        Dimension::Weight => unit.grams().map(|grams| -grams),
        Dimension::Count => None,
    }
    .filter(|_| !unit.is_vague())
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

/// Units that hold something of a stated size: a can, a jar, a bar.
pub fn is_pack(unit: Unit) -> bool {
    matches!(
        unit,
        Unit::Can
            | Unit::Jar
            | Unit::Package
            | Unit::Packet
            | Unit::Carton
            | Unit::Bottle
            | Unit::Bag
            | Unit::Box
            | Unit::Tub
            | Unit::Tube
            | Unit::Block
            | Unit::Bar
            | Unit::Ball
            | Unit::Loaf
            | Unit::Stick
            | Unit::Piece
            | Unit::Knob
            | Unit::Sheet
            | Unit::Slice
            | Unit::Round
            | Unit::Cube
    )
}

/// Denominators that kitchens use; `250/300` is no fraction.
const DENOMINATORS: &[u64] = &[2, 3, 4, 5, 6, 8, 10, 12, 16, 32];

/// Reads the number at `at`, without a range.
pub fn number(cut: &Cut<'_>, at: usize) -> Option<(Number, usize)> {
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
        return Some((number.times(Number::whole(12))?, next + 1));
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
    if cut.any(next, &["point"])
        && let Some((number, after)) = spoken_decimal(cut, whole, next + 1)
    {
        return Some((number, after));
    }
    if !whole.is_whole() {
        return Some((whole, next));
    }
    // "1 and 1/2", "1 & ½", "1-1/2", "1 and a half"; a plain space needs no mark.
    let joined = cut.joins(next);
    if joined || cut.any(next, &["and", "n"]) || cut.mark(next, '&') {
        next += 1;
    }
    if let Some((part, after)) = proper_fraction(cut, next, next > at + 1 && !joined) {
        return Some((whole.plus(part)?, after));
    }
    // "3 quarters", "1 half", "2 thirds".
    if let Some(under) = cut.get(at + 1).and_then(|token| WORDS.fractions.get(&token.folded)) {
        let (over, _) = whole.parts();
        if over < u64::from(*under) && !cut.any(at + 1, &["halves"]) {
            return Some((Number::fraction(over, u64::from(*under))?, of_a(cut, at + 2)));
        }
    }
    Some((whole, at + 1))
}

/// `1/2` in digits.
fn slashed(cut: &Cut<'_>, at: usize) -> Option<(Number, usize)> {
    let Kind::Digits(Some(over)) = cut.get(at)?.kind else { return None };
    if !cut.mark(at + 1, '/') {
        return None;
    }
    let Kind::Digits(Some(under)) = cut.get(at + 2)?.kind else { return None };
    let ((over, one), (under, also_one)) = (over.parts(), under.parts());
    if one != 1 || also_one != 1 || !DENOMINATORS.contains(&under) || over > 99 {
        return None;
    }
    Some((Number::fraction(over, under)?, at + 3))
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
fn fraction_words(cut: &Cut<'_>, at: usize) -> Option<(Number, usize)> {
    let token = cut.get(at)?;
    let mut next = at;
    let mut over = 1;
    if token.is_any(&["a", "an"]) {
        next += 1;
    } else if let Some(value) = WORDS.numbers.get(&token.folded).filter(|value| **value > 0) {
        over = *value;
        next += 1;
        if cut.joins(next) {
            next += 1;
        }
    }
    let under = *WORDS.fractions.get(&cut.get(next)?.folded)?;
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
        return Some((Number::whole(12), at + 1));
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
        } else if let Some(value) = WORDS.numbers.get(&word.folded).filter(|_| word.kind == Kind::Word) {
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
            if cut.joins(next) && cut.get(next + 1).is_some_and(|word| WORDS.numbers.contains_key(&word.folded)) {
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
        + usize::from(
            cut.get(at)
                .is_some_and(|token| WORDS.numbers.get(&token.folded).is_some_and(|value| (1..10).contains(value))),
        );
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
            Kind::Word => match WORDS.numbers.get(&token.folded) {
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
    let start = at + usize::from(cut.any(at, &["between", "from"]) && number(cut, at + 1).is_some());
    // "a few", "several": the custom is three, give or take.
    let few = start + usize::from(cut.any(start, &["a"]));
    if cut.any(few, &["few"]) {
        return Some(Numbers { low: Number::whole(3), high: Number::whole(4), next: of(cut, few + 1), vague: true });
    }
    if cut.any(start, &["several"]) {
        return Some(Numbers { low: Number::whole(3), high: Number::whole(5), next: of(cut, start + 1), vague: true });
    }
    let (low, next) = number(cut, start)?;
    if let Some((high, after)) = range_end(cut, next).and_then(|at| number(cut, at))
        && high > low
    {
        return Some(Numbers { low, high, next: after, vague: false });
    }
    Some(Numbers { low, high: low, next, vague: false })
}

/// The token after "to", "or", a hyphen or a dash that may join two numbers.
fn range_end(cut: &Cut<'_>, at: usize) -> Option<usize> {
    let token = cut.get(at)?;
    let joins = token.is_mark('-')
        || token.is_mark('–')
        || token.is_mark('~')
        || token.is_any(&["to", "or", "through", "til", "till", "and", "max"]);
    if token.is_any(&["and"]) {
        return None;
    }
    joins.then_some(at + 1)
}

/// Words before a number that make it a guess.
fn about(cut: &Cut<'_>, at: usize) -> Option<usize> {
    if cut.mark(at, '~') {
        return Some(at + 1);
    }
    if cut.any(at, &["approx", "c", "ca", "circa"])
        && cut.mark(at + 1, '.')
        && cut.get(at + 2).is_some_and(crate::token::Token::is_number)
    {
        return Some(at + 2);
    }
    if cut.any(at, &["just"]) && cut.any(at + 1, &["over", "about"]) {
        return Some(at + 2);
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

/// The unit spelt at `at`, in up to three words, with its full stop.
pub fn unit(cut: &Cut<'_>, at: usize) -> Option<(Unit, usize)> {
    if cut.mark(at, '#') && !cut.get(at + 1).is_some_and(crate::token::Token::is_number) {
        return Some((Unit::Pound, at + 1));
    }
    for count in (1..=Unit::longest_spelling()).rev() {
        let Some((phrase, next)) = spelling(cut, at, count) else { continue };
        if let Some(unit) = Unit::written(&phrase) {
            let next = next + usize::from(cut.mark(next, '.') && cut.get(next).is_some_and(|stop| !stop.spaced));
            return Some((unit, next));
        }
    }
    None
}

/// `count` words from `at` with single spaces between: as written for one word (t and T differ), folded otherwise.
fn spelling(cut: &Cut<'_>, at: usize, count: usize) -> Option<(String, usize)> {
    if count == 1 {
        return cut.is_word(at).then(|| (cut.written(at, at + 1).to_owned(), at + 1));
    }
    let mut phrase = String::new();
    let mut next = at;
    for taken in 0..count {
        if taken > 0 {
            next += usize::from(cut.mark(next, '.') || cut.joins(next));
            phrase.push(' ');
        }
        phrase.push_str(&cut.get(next).filter(|token| token.kind == Kind::Word)?.folded);
        next += 1;
    }
    Some((phrase, next))
}

/// What the amount reader must ask about words: whether they name a food.
pub trait Names {
    /// Whether the tokens from `at` begin a food's name of at least two words, so that the first is no unit or number.
    fn name_starts(&self, at: usize) -> bool;

    /// Whether the unit word at `at` begins another food's name than the one after it ("pound cake", but not "clove of
    /// garlic", which is garlic).
    fn unit_is_name(&self, at: usize, after: usize) -> bool;
}

/// Reads the amount at `at`, with sums and what each pack holds, but not what stands beside it as another measure.
pub fn amount(cut: &Cut<'_>, at: usize, names: &dyn Names) -> Option<(Amount, usize)> {
    let (mut whole, mut next) = single(cut, at, names, false)?;
    // "200g-250g", "2 tbsp to 3 tbsp".
    if whole.terms.len() == 1
        && whole.terms[0].low == whole.terms[0].high
        && let Some((upper, after)) = range_end(cut, next).and_then(|at| single(cut, at, names, true))
        && upper.unit() == whole.unit()
        && !upper.bare
        && !whole.bare
        && upper.terms[0].high > whole.terms[0].high
        && upper.terms.len() == 1
    {
        whole.terms[0].high = upper.terms[0].high;
        next = after;
    }
    while let Some((term, after)) = added(cut, next, names, &whole) {
        whole.terms.push(term);
        next = after;
        if whole.terms.len() > 6 {
            break;
        }
    }
    whole.place = cut.place(at, next);
    Some((whole, next))
}

/// A further term: "plus 2 tablespoons", "+ 30 g", "minus a teaspoon".
fn added(cut: &Cut<'_>, at: usize, names: &dyn Names, first: &Amount) -> Option<(Term, usize)> {
    if first.bare {
        return None;
    }
    if let Some(found) = smaller(cut, at, names, first) {
        return Some(found);
    }
    let minus = cut.any(at, &["minus", "less"]);
    let plus = cut.any(at, &["plus", "and"]) || cut.mark(at, '+') || cut.mark(at, '&');
    if !plus && !minus {
        return None;
    }
    let start = at
        + 1
        + usize::from(cut.any(at + 1, &["another", "an"]) && cut.any(at + 2, &["extra", "additional"])) * 2
        + usize::from(cut.any(at + 1, &["another"]) && !cut.any(at + 2, &["extra", "additional"]));
    let (other, next) = single(cut, start, names, true)?;
    if other.bare || other.each.is_some() {
        return None;
    }
    let countable = |unit: Unit| unit.dimension() == Dimension::Count;
    if countable(other.unit()) && other.unit() != first.unit() {
        return None;
    }
    Some((Term { minus, ..other.terms[0] }, next))
}

/// The smaller unit right after the larger: "2 lb 4 oz", "1 cup 2 tablespoons".
fn smaller(cut: &Cut<'_>, at: usize, names: &dyn Names, first: &Amount) -> Option<(Term, usize)> {
    let larger = first.terms.last()?.unit;
    if first.each.is_some()
        || !cut.get(at)?.is_number()
            && !WORDS.numbers.contains_key(&cut.get(at)?.folded)
            && !WORDS.fractions.contains_key(&cut.get(at)?.folded)
    {
        return None;
    }
    let (other, next) = single(cut, at, names, true)?;
    let pairs = matches!(
        (larger, other.unit()),
        (Unit::Pound, Unit::Ounce)
            | (Unit::Kilogram, Unit::Gram)
            | (Unit::Cup, Unit::Tablespoon | Unit::Teaspoon)
            | (Unit::Tablespoon, Unit::Teaspoon)
            | (Unit::Pint, Unit::FluidOunce)
            | (Unit::Quart, Unit::Cup)
            | (Unit::Litre, Unit::Millilitre)
    );
    let below =
        size(other.unit(), Custom::Us)?.abs() * other.terms[0].high.value() < size(larger, Custom::Us)?.abs() * 0.995;
    (pairs && below && other.each.is_none() && other.terms.len() == 1).then_some((other.terms[0], next))
}

/// Reads one number and unit. `inside` a pack no further pack is looked for: cans do not hold cans, and a line of
/// nothing but numbers must not be read into itself.
fn single(cut: &Cut<'_>, start: usize, names: &dyn Names, inside: bool) -> Option<(Amount, usize)> {
    let mut at = start;
    let (mut is_about, mut fill) = (false, None);
    loop {
        if let Some(next) = about(cut, at) {
            is_about = true;
            at = next;
        } else if let Some((word, next)) = cut.longest(at, &WORDS.fills).filter(|(_, next)| amount_follows(cut, *next))
        {
            fill = Some(word.to_owned());
            at = next;
        } else if cut.any(at, &["a", "an"])
            && cut.longest(at + 1, &WORDS.fills).is_some_and(|(_, next)| number(cut, next).is_some())
        {
            // "a generous 1/2 cup"
            at += 1;
        } else {
            break;
        }
    }
    if names.name_starts(at) && !unit_after_number(cut, at) {
        return None;
    }
    let read = numbers(cut, at);
    // "a cup", "a heaped teaspoon", "another pinch".
    let article = read.is_none() && cut.any(at, &["a", "an", "another"]);
    let (low, high, mut next) = match read {
        Some(read) => (read.low, read.high, read.next),
        None if article => (Number::ONE, Number::ONE, at + 1),
        None => return None,
    };
    if cut.mark(next, '%') || cut.any(next, &["percent", "pct"]) || cut.mark(next, '°') || heat(cut, low, next) {
        return None;
    }
    let mut amount = Amount {
        terms: vec![Term { low, high, unit: Unit::Piece, minus: false }],
        about: is_about,
        fill,
        each: None,
        size: None,
        unnumbered: read.is_some_and(|read| read.vague),
        bare: true,
        place: cut.place(start, next),
    };
    if let Some(can) = numbered_can(cut, next) {
        amount.terms[0].unit = Unit::Can;
        amount.size = Some(cut.written(next, next + 2).to_owned());
        amount.bare = false;
        return Some((finish(cut, amount, start, can), can));
    }
    if let Some((each, after)) = (!inside).then(|| pack_size(cut, next, names)).flatten() {
        // "2 (14 oz) cans", "2 14-oz cans", "2 x 400 g tins"
        amount.terms[0].unit = each.0;
        amount.each = Some(Box::new(each.1));
        amount.bare = false;
        return Some((finish(cut, amount, start, after), after));
    }
    if let Some((word, after)) = cut.longest(next, &WORDS.fills)
        && unit(cut, after + usize::from(cut.joins(after))).is_some()
    {
        amount.fill = Some(word.to_owned());
        next = after;
    }
    if let Some((word, after)) = size_word(cut, next)
        && unit(cut, after).is_some_and(|(found, end)| counted_unit_fits(cut, found, after, end, names))
    {
        amount.size = Some(word.to_owned());
        next = after;
    }
    let unit_at = next + usize::from(cut.joins(next));
    if let Some((found, after)) =
        unit(cut, unit_at).filter(|(found, after)| counted_unit_fits(cut, *found, unit_at, *after, names))
    {
        amount.terms[0].unit = found;
        amount.bare = false;
        next = after + usize::from(cut.any(after, &["or"]) && cut.any(after + 1, &["so"])) * 2;
        // "a cup and a half", "a cup and a quarter"
        if (article || low == high)
            && let Some((part, after)) = half_more(cut, next)
            && let (Some(low), Some(high)) = (low.plus(part), high.plus(part))
        {
            amount.terms[0].low = low;
            amount.terms[0].high = high;
            next = after;
        }
        // "400g tin", "8-ounce package", "250 g block"
        if !matches!(found.dimension(), Dimension::Count) && !found.is_vague() {
            let pack_at = next + usize::from(cut.joins(next));
            if let Some((pack, after)) = unit(cut, pack_at)
                .filter(|(pack, after)| is_pack(*pack) && counted_unit_fits(cut, *pack, pack_at, *after, names))
                .filter(|(pack, after)| *pack != Unit::Piece || cut.any(*after, &["of"]))
            {
                let each = finish(cut, amount, start, next);
                let one = Term { low: Number::ONE, high: Number::ONE, unit: pack, minus: false };
                let amount = Amount {
                    terms: vec![one],
                    about: false,
                    fill: None,
                    each: Some(Box::new(each)),
                    size: None,
                    unnumbered: false,
                    bare: false,
                    place: cut.place(start, after),
                };
                return Some((amount, after));
            }
        }
        return Some((finish(cut, amount, start, next), next));
    }
    if article {
        return None;
    }
    Some((finish(cut, amount, start, next), next))
}

/// Whether the number is a heat ("40C"): more cups than anyone would spell so.
fn heat(cut: &Cut<'_>, number: Number, at: usize) -> bool {
    number.value() >= 20.0 && cut.any(at, &["c", "f"])
}

/// "#10 can": a size of can that wholesalers number. The token after "can".
fn numbered_can(cut: &Cut<'_>, at: usize) -> Option<usize> {
    if !cut.mark(at, '#') || !cut.get(at + 1)?.is_number() {
        return None;
    }
    unit(cut, at + 2 + usize::from(cut.joins(at + 2))).filter(|(unit, _)| *unit == Unit::Can).map(|(_, next)| next)
}

fn finish(cut: &Cut<'_>, mut amount: Amount, start: usize, next: usize) -> Amount {
    amount.place = cut.place(start, next);
    amount
}

/// A size word before a unit ("2 large handfuls", "1 small bunch").
fn size_word<'w>(cut: &Cut<'_>, at: usize) -> Option<(&'w str, usize)> {
    cut.longest(at, &WORDS.sizes)
}

/// Whether a number or article follows a fill word, so that it belongs to an amount ("heaping 1/2 cup").
fn amount_follows(cut: &Cut<'_>, at: usize) -> bool {
    numbers(cut, at).is_some() || cut.any(at, &["a", "an"])
}

/// Whether the number at `at` has a unit right behind it ("7 g"), so that it can be no part of a food's name.
fn unit_after_number(cut: &Cut<'_>, at: usize) -> bool {
    numbers(cut, at).is_some_and(|read| {
        unit(cut, read.next).is_some_and(|(unit, _)| unit.dimension() != Dimension::Count && unit != Unit::Percent)
    })
}

/// A counted unit that could itself be the food ("2 cloves", "1 pound cake") counts as a unit only where a name follows it.
fn counted_unit_fits(cut: &Cut<'_>, unit: Unit, at: usize, after: usize, names: &dyn Names) -> bool {
    if names.unit_is_name(at, after) {
        return false;
    }
    let could_be_food = matches!(
        unit,
        Unit::Clove
            | Unit::Leaf
            | Unit::Pod
            | Unit::Stalk
            | Unit::Loaf
            | Unit::Cube
            | Unit::Round
            | Unit::Ear
            | Unit::Head
    );
    !could_be_food || cut.is_word(after) || cut.mark(after, '(')
}

/// "and a half" after a unit.
fn half_more(cut: &Cut<'_>, at: usize) -> Option<(Number, usize)> {
    if !cut.any(at, &["and"]) {
        return None;
    }
    let (part, next) = fraction_words(cut, at + 1)?;
    // "1 cup and a half teaspoon" adds half a teaspoon: then it is a term of its own.
    (unit(cut, next).is_none()).then_some((part, next))
}

/// What each pack holds, written after the count: bracketed, joined with x, or plain.
fn pack_size(cut: &Cut<'_>, at: usize, names: &dyn Names) -> Option<((Unit, Amount), usize)> {
    if cut.mark(at, '(') {
        let close = cut.closing(at);
        let (each, end) = single(cut, at + 1, names, true)?;
        if each.bare || each.unit().dimension() == Dimension::Count && each.each.is_none() {
            return None;
        }
        let inner_end = end + usize::from(cut.any(end, &["each"]));
        let doubled = inner_end < close; // "(14 oz / 400 g) cans": the first is taken
        if !doubled && inner_end != close {
            return None;
        }
        let (pack, after) = unit(cut, close + 1).filter(|(pack, _)| is_pack(*pack))?;
        return Some(((pack, each), after));
    }
    let times = cut.any(at, &["x"]) || cut.mark(at, '×') || cut.mark(at, '*');
    let start = at + usize::from(times);
    let starts_number = cut.get(start).is_some_and(crate::token::Token::is_number);
    if !starts_number && !times {
        // "one eight ounce package": a second number in words.
        let word = cut.get(start)?;
        if !WORDS.numbers.contains_key(&word.folded) {
            return None;
        }
    }
    let (inner, after) = single(cut, start, names, true)?;
    let unit = inner.unit();
    let is_one = inner.terms[0].low == Number::ONE && inner.terms[0].high == Number::ONE;
    match inner.each {
        Some(each) if is_one => Some(((unit, *each), after)),
        None if times && !inner.bare && unit.dimension() != Dimension::Count => Some(((Unit::Piece, inner), after)),
        _ => None,
    }
}
