//! Grams of what a line asks for, with the range and the reason.
//!
//! A weight in the line is taken as it stands. A measure is filled by the food's cup or spoon, a count by the weight of
//! one piece, a part of a fruit by what one fruit gives. What cannot be known has no grams, and is never guessed.

mod agree;
mod count;
mod drained;
mod meant;
mod measure;
mod ounces;
mod packs;
mod promise;
pub mod spread;
mod unmeasured;

use evencrumb_manuscript::line::{Amount, Item, Term};
use evencrumb_manuscript::{Query, QueryKind, Weight};
use evencrumb_measure::{Custom, Dimension, Estimate, Influence, Range, Source, Unit, say};

use crate::pantry::Pantry;
use crate::row::{Cited, Size};

pub use count::one;
pub use meant::meant;
pub(crate) use measure::{SMALL_MILLILITRES, SPOON_MILLILITRES};
pub use measure::{grams_per_millilitre, is_by_teaspoon, millilitre};

/// Whose measures and eggs are meant when a line does not say.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Kitchen {
    /// Cups and spoons.
    pub custom: Custom,
    /// The class of a plain egg.
    pub eggs: Size,
}

impl Default for Kitchen {
    fn default() -> Kitchen {
        Kitchen { custom: Custom::Us, eggs: Size::Large }
    }
}

/// What one item weighs.
#[derive(Clone, Debug, Default)]
pub struct Weighed {
    /// Grams of the edible part that goes in the bowl, or of what the line weighs out; `None` when nobody can say.
    pub grams: Option<Estimate>,
    /// What the figure leans on, in the order of the reckoning.
    pub basis: Vec<Basis>,
    /// What a careful reader would ask.
    pub queries: Vec<Query>,
}

/// One thing a figure leans on.
#[derive(Clone, Debug, PartialEq)]
pub struct Basis {
    /// Where it comes from.
    pub source: &'static Source,
    /// What was taken, in words.
    pub words: String,
}

impl Basis {
    /// What was taken from a source of this name; nothing when the list of sources has none.
    pub fn of(source: &str, words: impl Into<String>) -> Option<Basis> {
        Source::by_id(source).map(|source| Basis { source, words: words.into() })
    }
}

/// A weight and a volume in one line that contradict each other.
pub static AMOUNTS_DISAGREE: QueryKind = QueryKind { name: "amounts-disagree", weight: Weight::Look };
/// A measure of a food whose measure is not known.
pub static MEASURE_NOT_KNOWN: QueryKind = QueryKind { name: "measure-not-known", weight: Weight::MustMend };
/// A weight that no kitchen means.
pub static AMOUNT_ENORMOUS: QueryKind = QueryKind { name: "amount-enormous", weight: Weight::Look };

/// Grams of more than any bakery's batch: a tonne. Common practice, no source.
const MOST_GRAMS: f64 = 1e6;

/// How far from the best value a guessed number ("about 200 g") may lie.
const ABOUT: f64 = 0.10;

/// Weighs an item.
pub fn weigh(item: &Item, purpose: Option<&str>, pantry: &Pantry, kitchen: Kitchen) -> Weighed {
    let mut weighed = Weighed::default();
    let weighing = Weighing { item, pantry, kitchen };
    if let Some(food) = item.food {
        weighed.queries.extend(promise::broken(item, pantry.food(food)));
    }
    if item.unread {
        return weighed;
    }
    let weights = || item.amounts.iter().filter(|amount| amount.is_weight());
    // What is left in the sieve counts before the tin, grams before ounces, the rest in the order written.
    let stated = weights()
        .find(|amount| amount.fill.as_deref() == Some("drained"))
        .or_else(|| weights().find(|amount| is_metric(amount)))
        .or_else(|| weights().next());
    if let Some(amount) = stated.filter(|amount| !ounces::are_fluid(&weighing, amount)) {
        let of_each = packs::each(&weighing, amount);
        weighing.take_stated(of_each.as_ref().unwrap_or(amount), &mut weighed);
        return weighed;
    }
    // What was measured says more than what was counted ("juice of 3 limes, about 1/4 cup").
    let measured = |amount: &&Amount| {
        amount.each.is_none() && amount.unit().dimension() == Dimension::Volume && !amount.unit().is_vague()
    };
    // And what is weighed but for a spoonful ("200 g plus 2 tablespoons") more than either.
    let weighed_in_part = |amount: &&Amount| !amount.is_weight() && amount.terms.iter().any(Term::is_weight);
    // A stick of butter is as good as a weight; a cup is not ("1 cup (2 sticks) butter").
    let stick = |amount: &&Amount| amount.each.is_none() && amount.unit() == Unit::Stick;
    let rank = |amount: &&Amount| {
        (!weighed_in_part(amount), !stick(amount), !agree::tells_the_spoon(amount, item), !measured(amount))
    };
    let mut ranked: Vec<&Amount> = item.amounts.iter().collect();
    ranked.sort_by_key(rank);
    for amount in ranked {
        if let Some((grams, basis)) = weighing.amount(amount) {
            weighing.compare_others(amount, &grams, &mut weighed.queries);
            weighed.grams = Some(grams);
            weighed.basis = basis;
            if let Some((food, like)) =
                item.food.map(|id| pantry.food(id)).and_then(|food| Some((food, food.like.as_ref()?)))
            {
                weighed.basis.extend(Basis::of("own", format!("{} is weighed as {like}", food.name)));
            }
            return weighed;
        }
    }
    if item.amounts.is_empty() {
        if let Some((grams, basis)) = unmeasured::grams(&weighing, purpose) {
            weighed.grams = Some(grams);
            weighed.basis = basis;
        }
    } else if let Some(food) = item.food.filter(|_| !item.reference) {
        let name = &pantry.food(food).name;
        let amount = &item.amounts[0];
        weighed.queries.push(Query::new(
            &MEASURE_NOT_KNOWN,
            amount.place.clone(),
            format!("What {} of {name} weighs is not known here; no weight was taken.", in_words(amount)),
            format!("Write the grams beside it, or weigh it once and add it to foods.toml under {name}."),
        ));
    }
    weighed
}

/// An item being weighed.
struct Weighing<'w> {
    item: &'w Item,
    pantry: &'w Pantry,
    kitchen: Kitchen,
}

impl Weighing<'_> {
    /// Takes a weight as the line states it.
    fn take_stated(&self, amount: &Amount, weighed: &mut Weighed) {
        let mut grams = self.stated_grams(amount);
        if let Some((share, words)) = drained::share(self.item, amount) {
            grams = grams.product(&share);
            weighed.basis.extend(Basis::of("common-practice", words));
        }
        weighed.basis.extend(Basis::of("manuscript", format!("the line says {}", in_words(amount))));
        if let Some((factor, words)) = ounces::by_volume(self, amount) {
            grams = grams.product(&factor);
            weighed.basis.extend(Basis::of("common-practice", words));
        }
        self.compare_others(amount, &grams, &mut weighed.queries);
        if grams.best() > MOST_GRAMS {
            weighed.queries.push(Query::new(
                &AMOUNT_ENORMOUS,
                amount.place.clone(),
                format!("{} is more than any bakery's batch; it was taken all the same.", in_words(amount)),
                "Look at the number and its unit.",
            ));
        }
        weighed.grams = Some(grams);
    }

    /// Compares the amount that was taken with the others of the item.
    fn compare_others(&self, taken: &Amount, grams: &Estimate, queries: &mut Vec<Query>) {
        let is_drained = taken.is_weight() && drained::share(self.item, taken).is_some();
        let of_each = |other: &Amount| taken.each.as_ref().is_some_and(|each| each.place == other.place);
        for other in self.item.amounts.iter().filter(|other| !std::ptr::eq(*other, taken) && !of_each(other)) {
            // A tin's label says the same in ounces and in grams, however much of it is poured off.
            let label = (is_drained && other.is_weight()).then(|| self.stated_grams(taken));
            self.compare(taken, label.as_ref().unwrap_or(grams), other, queries);
        }
    }

    /// Grams of one amount and what they lean on.
    fn amount(&self, amount: &Amount) -> Option<(Estimate, Vec<Basis>)> {
        if let Some(each) = &amount.each {
            let (one, mut basis) = if each.is_weight() {
                (
                    self.stated_grams(each),
                    Basis::of("manuscript", format!("each holds {}", in_words(each))).into_iter().collect(),
                )
            } else {
                self.amount(each)?
            };
            let count = self.numbers(amount);
            basis.extend(Basis::of("manuscript", format!("the line says {}", in_words(amount))));
            return Some((one.product(&count), basis));
        }
        let mut total = Estimate::default();
        let mut basis: Vec<Basis> = Vec::new();
        for at in 0..amount.terms.len() {
            let term = amount.terms[at];
            let plain = Term { minus: false, ..term };
            let part = Amount { terms: vec![plain], each: None, ..amount.clone() };
            let (grams, leans_on) = match term.unit.dimension() {
                Dimension::Weight => (self.stated_grams(&part), Vec::new()),
                // A knob or a handful may have a weight of its own in the food's row.
                Dimension::Volume if term.unit.is_vague() => {
                    count::grams(self, &part).or_else(|| measure::grams(self, &part))?
                }
                Dimension::Volume => measure::grams(self, &part)?,
                Dimension::Count => count::grams(self, &part)?,
            };
            if term.minus {
                // What is taken off errs as what is left: a cup less a spoon is a part of that cup.
                let left = if total.best() > 0.0 { 1.0 - grams.best() / total.best() } else { 0.0 };
                total = total.times(left);
            } else {
                total.add(&grams);
            }
            for leans in leans_on {
                if !basis.contains(&leans) {
                    basis.push(leans);
                }
            }
        }
        Some((total, basis))
    }

    /// Grams of a stated weight; "about" and "2 to 3" make it a range.
    fn stated_grams(&self, amount: &Amount) -> Estimate {
        if let Some(each) = &amount.each {
            return self.stated_grams(each).product(&self.numbers(amount));
        }
        let (mut low, mut high) = (0.0, 0.0);
        for term in &amount.terms {
            let grams = term.unit.grams().unwrap_or(0.0);
            let sign = if term.minus { -grams } else { grams };
            low += sign * term.low.value();
            high += sign * term.high.value();
        }
        self.spread(low.max(0.0), high.max(0.0), amount)
    }

    /// The number of an amount as a figure: exact, or a range that belongs to this line alone.
    fn numbers(&self, amount: &Amount) -> Estimate {
        let (low, high) = amount.terms.iter().fold((0.0, 0.0), |(low, high), term| {
            let sign = if term.minus { -1.0 } else { 1.0 };
            (low + sign * term.low.value(), high + sign * term.high.value())
        });
        self.spread(low, high, amount)
    }

    fn spread(&self, low: f64, high: f64, amount: &Amount) -> Estimate {
        let best = f64::midpoint(low, high);
        let slack = if amount.about { ABOUT * best } else { 0.0 };
        let range = Range::new((low - slack).max(0.0), best, high + slack).unwrap_or(Range::exact(best));
        if range.spread() <= 0.0 {
            return Estimate::exact(best);
        }
        Estimate::of(range, Influence::named(&format!("the number in “{}”", self.line_words(amount))))
    }

    /// An amount and its food, to name by them what only this line is unsure of: "about 2 cups of flour".
    fn line_words(&self, amount: &Amount) -> String {
        let about = if amount.about { "about " } else { "" };
        format!("{about}{} of {}", in_words(amount), self.item.name)
    }
}

fn is_metric(amount: &Amount) -> bool {
    let unit = amount.each.as_ref().map_or(amount.unit(), |each| each.unit());
    matches!(unit, Unit::Gram | Unit::Kilogram | Unit::Milligram)
}

/// An amount in plain words, as `1 1/2 cups` or `2 to 3 pieces`.
pub fn in_words(amount: &Amount) -> String {
    let mut words = String::new();
    for (at, term) in amount.terms.iter().enumerate() {
        if at > 0 {
            words.push_str(if term.minus { " less " } else { " plus " });
        }
        if term.high != term.low {
            words.push_str(&format!("{} to ", term.low));
        }
        let bare = amount.bare && term.unit == Unit::Piece;
        words.push_str(&if bare { term.high.to_string() } else { say::measure(term.high, term.unit) });
    }
    if let Some(each) = &amount.each {
        words.push_str(&format!(" of {} each", in_words(each)));
    }
    words
}

/// What a cited figure leans on, in words.
fn leans_on(cited: &Cited, words: String) -> Basis {
    let row = cited.from.row.map(|row| format!(", row {row}")).unwrap_or_default();
    let portion = cited.from.portion.as_ref().map(|portion| format!(" (portion “{portion}”)")).unwrap_or_default();
    let own = cited.from.words.as_ref().map(|own| format!(", {own}")).unwrap_or_default();
    Basis { source: cited.from.source, words: format!("{words}{row}{portion}{own}") }
}

#[cfg(test)]
mod tests;
