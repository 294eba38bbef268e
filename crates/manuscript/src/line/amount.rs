//! Amounts in a line: numbers as people write them, units, ranges, sums, packs.

use std::ops::Range;

use evencrumb_measure::{Custom, Dimension, Number, Unit};

use super::custom::{in_millilitres, whose};
use super::cut::Cut;
use super::number::{about, fraction_words, number, numbers, range_end};
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
    /// Whether it goes elsewhere ("1 cup, plus 1 tablespoon for the top"): it is weighed with the rest and is no part of
    /// the number that the line is known by.
    pub apart: bool,
}

impl Amount {
    /// The unit of the first term.
    pub fn unit(&self) -> Unit {
        self.terms[0].unit
    }

    /// Lower and upper number in the unit of the first term: a sum is turned into that unit where one measure can be
    /// turned into another ("1 cup plus 2 tablespoons" is 1.125 cups); terms that cannot, and those that go elsewhere, are
    /// left out here.
    pub fn quantity(&self, custom: Custom) -> (f64, f64) {
        let unit = self.unit();
        let mut total = (0.0, 0.0);
        for term in self.terms.iter().filter(|term| !term.apart) {
            let Some(factor) = size(term.unit, custom)
                .zip(size(unit, custom))
                .filter(|_| term.unit.dimension() == unit.dimension())
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
            None => self.terms.iter().all(Term::is_weight),
        }
    }
}

impl Term {
    /// So many of a unit, from and to.
    pub fn of(low: Number, high: Number, unit: Unit) -> Term {
        Term { low, high, unit, minus: false, apart: false }
    }

    /// Whether the term is a weight.
    pub fn is_weight(&self) -> bool {
        self.unit.dimension() == Dimension::Weight
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

/// Packs that are sold in many sizes: a can, a jar, a loaf.
pub fn is_sold_in_sizes(unit: Unit) -> bool {
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
    )
}

/// Units that hold something of a stated size: a can, a jar, a slice.
pub fn is_pack(unit: Unit) -> bool {
    is_sold_in_sizes(unit)
        || matches!(
            unit,
            Unit::Stick
                | Unit::Piece
                | Unit::Knob
                | Unit::Sheet
                | Unit::Slice
                | Unit::Round
                | Unit::Cube
                | Unit::Square
        )
}

/// The unit spelt at `at`, in up to three words, with its full stop.
pub fn unit(cut: &Cut<'_>, at: usize) -> Option<(Unit, usize)> {
    // "3# butter", "1# 4oz butter"; the mark of "1 #10 can" stands before its number.
    let after_number = at > 0 && cut.get(at - 1).is_some_and(crate::token::Token::is_number);
    if cut.mark(at, '#')
        && (after_number && cut.get(at).is_some_and(|mark| !mark.spaced)
            || !cut.get(at + 1).is_some_and(crate::token::Token::is_number))
    {
        return Some((Unit::Pound, at + 1));
    }
    // `9" pie shell`
    if cut.mark(at, '"') && after_number && cut.get(at).is_some_and(|mark| !mark.spaced) {
        return Some((Unit::Inch, at + 1));
    }
    let first = cut.get(at).filter(|token| token.kind == Kind::Word)?;
    if first.place.len() == 1 && first.folded.len() > 1 {
        // The L of "3 L eggs" was read as their size.
        return None;
    }
    for count in (1..=Unit::longest_spelling(&first.folded)).rev() {
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
        // "2 x 100 g + 50 g": the fifty are no further packs.
        if whole.each.is_some() && term.unit.dimension() != Dimension::Count {
            let Some(held) = held(&whole) else { break };
            whole = held;
        }
        whole.terms.push(term);
        next = after;
        if whole.terms.len() > 6 {
            break;
        }
    }
    whole.place = cut.place(at, next);
    Some((whole, next))
}

/// What a number of packs hold together: 200 g for "2 x 100 g".
fn held(packs: &Amount) -> Option<Amount> {
    let [count] = packs.terms.as_slice() else { return None };
    let each = packs.each.as_ref().filter(|each| each.each.is_none())?;
    let of_all =
        |term: &Term| Some(Term { low: term.low.times(count.low)?, high: term.high.times(count.high)?, ..*term });
    let terms = each.terms.iter().map(of_all).collect::<Option<_>>()?;
    Some(Amount { terms, about: each.about || packs.about, place: packs.place.clone(), ..(**each).clone() })
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
    let at = at + usize::from(cut.mark(at, ','));
    if first.each.is_some()
        || !cut.get(at)?.is_number()
            && !WORDS.numbers.contains_key(cut.get(at)?.folded.as_str())
            && !WORDS.fractions.contains_key(cut.get(at)?.folded.as_str())
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
        } else if cut.any(at, &["a", "an"]) && matches!(cut.get(at + 1).map(|token| token.kind), Some(Kind::Digits(_)))
        {
            // "a 2 cm piece"
            at += 1;
        } else if cut.any(at, &["a", "an"])
            && cut.get(at + 1).is_some_and(|token| WORDS.numbers.contains_key(token.folded.as_str()))
            && unit(cut, at + 2).is_some_and(|(unit, _)| matches!(unit, Unit::Inch | Unit::Centimetre))
        {
            // "a one inch piece"
            at += 1;
        } else if cut.any(at, &["good"]) && matches!(cut.get(at + 1).map(|token| token.kind), Some(Kind::Digits(_))) {
            // "a good 100 g"
            at += 1;
        } else {
            break;
        }
    }
    if names.name_starts(at) && !unit_after_number(cut, at) {
        return None;
    }
    // "x3 eggs"
    at += usize::from(cut.any(at, &["x"]) && cut.get(at + 1).is_some_and(crate::token::Token::is_number));
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
    if let Some((packets, next)) = quarter_ounces(cut, low, next) {
        let mut amount = Amount { about: is_about, ..packets };
        amount.place = cut.place(start, next);
        return Some((amount, next));
    }
    let mut amount = Amount {
        terms: vec![Term::of(low, high, Unit::Piece)],
        about: is_about,
        fill,
        each: None,
        size: None,
        unnumbered: read.is_some_and(|read| read.vague),
        bare: true,
        place: cut.place(start, next),
    };
    next = times_food(cut, next, names);
    // "half a 12-oz bag", "1/2 of a 14 oz can"
    let of_a = next + usize::from(cut.any(next, &["of"]));
    if low.value() < 1.0 && cut.any(of_a, &["a", "an"]) && pack_size(cut, of_a + 1, names).is_some() {
        next = of_a + 1;
    }
    // "1 3-inch cinnamon stick": how long the one is.
    if low == Number::ONE
        && let Some((_, after)) = number(cut, next)
            .and_then(|(_, at)| unit(cut, at + usize::from(cut.joins(at))))
            .filter(|(unit, _)| matches!(unit, Unit::Inch | Unit::Centimetre))
    {
        // "1 2-inch piece of ginger" is a 2-inch piece.
        if cut.any(after.saturating_sub(1), &["piece", "knob"]) || cut.any(after, &["piece", "knob"]) {
            return self::amount(cut, next, names);
        }
        next = after;
    }
    if let Some((number, can)) = numbered_can(cut, next) {
        amount.terms[0].unit = Unit::Can;
        amount.size = Some(cut.written(next, number + 1).to_owned());
        amount.each = WORDS
            .cans
            .get(cut.tokens[number].folded.as_str())
            .map(|cups| Box::new(one(*cups, Unit::Cup, cut, next, can)));
        amount.bare = false;
        return Some((finish(cut, amount, start, can), can));
    }
    if let Some((mut each, after)) = (!inside).then(|| pack_size(cut, next, names)).flatten() {
        // "2 (14 oz) cans", "2 14-oz cans", "2 x 400 g tins"
        let together = cut.mark(next, '(') && (next..after).any(|at| cut.any(at, &["total", "altogether"]));
        if together && let Some(one) = shared_out(&each.1, low) {
            // "2 (8 oz total) packages"
            each.1 = one;
        }
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
        // "1 lg. can"
        .map(|(word, after)| (word, after + usize::from(cut.mark(after, '.') && !cut.tokens[after].spaced)))
        && unit(cut, after).is_some_and(|(found, end)| counted_unit_fits(cut, found, after, end, names))
    {
        amount.size = Some(word.to_owned());
        next = after;
    }
    // "a good glug", "a nice big pinch"
    if article {
        let mut ahead = next;
        while let Some((_, after)) = cut.longest(ahead, &WORDS.states).or_else(|| size_word(cut, ahead)) {
            ahead = after;
        }
        if ahead > next && unit(cut, ahead).is_some_and(|(found, end)| counted_unit_fits(cut, found, ahead, end, names))
        {
            next = ahead;
        }
    }
    let unit_at = next + usize::from(cut.joins(next));
    let whose = whose(cut, unit_at);
    let unit_at = whose.map_or(unit_at, |(_, after)| after);
    if let Some((found, after)) =
        unit(cut, unit_at).filter(|(found, after)| counted_unit_fits(cut, *found, unit_at, *after, names))
    {
        amount.terms[0].unit = found;
        amount.bare = false;
        if let Some((whose, _)) = whose {
            in_millilitres(&mut amount.terms[0], whose);
        }
        // "a grating of nutmeg", "a sprinkle of salt": no number was meant.
        amount.unnumbered |= article && found == Unit::Sprinkle;
        // "1 cup cup sugar"
        let after = if cut.written(unit_at, after) == cut.written(after, after + 1) { after + 1 } else { after };
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
            let next = said_again(cut, next).unwrap_or(next);
            let pack_at = next + usize::from(cut.joins(next));
            if let Some((pack, after)) = unit(cut, pack_at)
                .filter(|(pack, after)| is_pack(*pack) && counted_unit_fits(cut, *pack, pack_at, *after, names))
                .filter(|(pack, after)| *pack != Unit::Piece || cut.any(*after, &["of"]))
            {
                let each = finish(cut, amount, start, next);
                let one = Term::of(Number::ONE, Number::ONE, pack);
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

/// What one of `count` packs holds that hold this together.
fn shared_out(together: &Amount, count: Number) -> Option<Amount> {
    let (over, under) = count.parts();
    let share = Number::fraction(under, over)?;
    let of_one = |term: &Term| Some(Term { low: term.low.times(share)?, high: term.high.times(share)?, ..*term });
    Some(Amount { terms: together.terms.iter().map(of_one).collect::<Option<_>>()?, ..together.clone() })
}

/// "400 g / 14 oz can": the token after a second measure of the same pack, whose first is taken.
fn said_again(cut: &Cut<'_>, at: usize) -> Option<usize> {
    let at = cut.mark(at, '/').then_some(at + 1)?;
    let (_, after) = number(cut, at)?;
    let (other, after) = unit(cut, after + usize::from(cut.joins(after)))?;
    let pack = unit(cut, after + usize::from(cut.joins(after))).is_some_and(|(pack, _)| is_pack(pack));
    (pack && other.dimension() != Dimension::Count).then_some(after)
}

/// "2x pastry cases", "3 x eggs": the sign of times before a counted thing, where no pack follows.
fn times_food(cut: &Cut<'_>, at: usize, names: &dyn Names) -> usize {
    let times = cut.any(at, &["x"]) || cut.mark(at, '×');
    if times && cut.is_word(at + 1) && unit(cut, at + 1).is_none() && !names.name_starts(at) { at + 1 } else { at }
}

/// A number of a unit, as a table gives it.
fn one(number: Number, unit: Unit, cut: &Cut<'_>, from: usize, to: usize) -> Amount {
    Amount {
        terms: vec![Term::of(number, number, unit)],
        about: true,
        fill: None,
        each: None,
        size: None,
        unnumbered: false,
        bare: false,
        place: cut.place(from, to),
    }
}

/// Whether the number is a heat ("40C"): more cups than anyone would spell so.
fn heat(cut: &Cut<'_>, number: Number, at: usize) -> bool {
    number.value() >= 20.0 && cut.any(at, &["c", "f"])
}

/// "#10 can", "No. 2 can": a size of can that wholesalers number. The number's token, and the one after "can".
fn numbered_can(cut: &Cut<'_>, at: usize) -> Option<(usize, usize)> {
    let number = if cut.any(at, &["no"]) { at + 1 + usize::from(cut.mark(at + 1, '.')) } else { at + 1 };
    if number == at + 1 && !cut.mark(at, '#') && !cut.any(at, &["no"]) || !cut.get(number)?.is_number() {
        return None;
    }
    let (_, next) =
        unit(cut, number + 1 + usize::from(cut.joins(number + 1))).filter(|(unit, _)| *unit == Unit::Can)?;
    Some((number, next))
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
    // "two fifty grams flour" is no gram flour.
    if unit != Unit::Gram && names.unit_is_name(at, after) {
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
    // "garlic 4 cloves, crushed": the food stands before its number.
    let food_before = at >= 2
        && cut.tokens[at - 1].is_number()
        && cut.is_word(at - 2)
        && cut.longest(at - 2, &WORDS.tails).is_none()
        && !matches!(unit, Unit::Loaf | Unit::Round);
    !could_be_food || cut.is_word(after) || cut.mark(after, '(') || food_before
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
/// "2 ¼-oz packets": yeast comes in packets of a quarter ounce, and none is sold by two of them and a quarter.
fn quarter_ounces(cut: &Cut<'_>, number: Number, next: usize) -> Option<(Amount, usize)> {
    let (over, under) = number.parts();
    let whole = Number::whole(u32::try_from(over / under).ok()?);
    let quarter =
        Number::fraction(1, 4).filter(|quarter| whole.plus(*quarter) == Some(number) && whole >= Number::ONE)?;
    let (ounce, behind) = cut.joins(next).then(|| unit(cut, next + 1)).flatten()?;
    let (pack, after) = unit(cut, behind).filter(|(pack, _)| matches!(pack, Unit::Packet | Unit::Package))?;
    let mut packets = one(whole, pack, cut, next, after);
    packets.each = Some(Box::new(Amount { about: false, ..one(quarter, ounce, cut, next, behind) }));
    (ounce == Unit::Ounce).then_some((packets, after))
}

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
        if !WORDS.numbers.contains_key(word.folded.as_str()) {
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
