//! Whether the amounts of one line can be the same thing.

use evencrumb_manuscript::Query;
use evencrumb_manuscript::line::{Amount, Item, is_sold_in_sizes};
use evencrumb_measure::{Custom, Dimension, Estimate, Range, Unit};

use super::{AMOUNTS_DISAGREE, Weighing, in_words, ounces};

/// Labels and charts round: so far beyond the range is still agreement.
const ROUNDED: f64 = 0.05;
/// A metric cup is 5.7 % larger than the US one.
const ANOTHER_CUP: f64 = 0.10;
/// House tables say 15 g of nearly everything for a tablespoon and 5 g for a teaspoon, as if it were water, and double that
/// for two: printed weights of sugars, fats and thick creams lie up to a fifth beyond what the spoon holds. Flours, cocoa and
/// honey lie further off, and are asked about. Common practice, no source.
const SPOONED: f64 = 0.20;
/// Millilitres up to which spoons are weighed by such a table: 4 tablespoons, of the largest there are.
const SPOONS_UP_TO: f64 = 80.0;
/// How far the spoons of the world are apart: an Australian tablespoon holds 20 ml, a US one 14.8.
const ANOTHER_SPOON: f64 = 0.4;
/// A fruit gives more or less than its row says: only what lies far outside is asked about.
const COUNTED: f64 = 0.60;
/// Grams to which charts round an ounce: 30 g for 28, and from how many grams on.
const ROUND_GRAMS: (f64, f64) = (5.0, 20.0);

/// "1 tbsp (20 ml)": whether millilitres tell what the spoon beside them holds, which then is not this kitchen's.
pub(super) fn tells_the_spoon(amount: &Amount, item: &Item) -> bool {
    let millilitres = |amount: &Amount| amount.quantity(Custom::default()).1 * one(amount.unit());
    let spoon = item.amounts.first().filter(|first| matches!(first.unit(), Unit::Tablespoon | Unit::Teaspoon));
    let Some(spoon) = spoon.filter(|_| amount.unit() == Unit::Millilitre && amount.each.is_none()) else {
        return false;
    };
    let ratio = millilitres(amount) / millilitres(spoon);
    (ratio - 1.0).abs() > ANOTHER_CUP && (ratio - 1.0).abs() <= ANOTHER_SPOON
}

/// Millilitres of one of a unit in a US kitchen; 0 of what is no volume.
fn one(unit: Unit) -> f64 {
    unit.millilitres(Custom::default()).map_or(0.0, |range| range.best())
}

impl Weighing<'_> {
    /// Asks when another amount of the line cannot be the same thing as the one that was taken.
    pub(super) fn compare(&self, taken: &Amount, grams: &Estimate, other: &Amount, queries: &mut Vec<Query>) {
        let prepared = |amount: &Amount| amount.fill.as_deref() == Some("drained");
        // What is left after draining is less than the tin, and a pack holds what its label says.
        if prepared(taken) || prepared(other) || other.each.is_none() && varies(other.unit()) {
            return;
        }
        let computed = if other.is_weight() {
            let stated = self.stated_grams(other);
            ounces::by_volume(self, other).map_or(stated.clone(), |(factor, _)| stated.product(&factor))
        } else {
            let Some((computed, _)) = self.amount(other) else { return };
            computed
        };
        let slack = if taken.is_weight() {
            if self.is_few_spoons(other) { SPOONED } else { ROUNDED }
        } else if other.is_weight() {
            // The same ounces said as a volume.
            return;
        } else if other.unit().dimension() == Dimension::Volume || other.unit() == Unit::Stick {
            ANOTHER_CUP
        } else {
            COUNTED
        };
        let (range, weight) = (computed.range(), grams.range());
        let agree = range.low() * (1.0 - slack) <= weight.high() && weight.low() <= range.high() * (1.0 + slack);
        let off = (weight.best() - range.best()).abs();
        let round = other.is_weight() && off <= ROUND_GRAMS.0 && weight.best() >= ROUND_GRAMS.1;
        // Two measures of one volume err together: only their size can differ.
        let two_volumes = !taken.is_weight()
            && taken.unit().dimension() == Dimension::Volume
            && other.unit().dimension() == Dimension::Volume;
        let of_volumes = if tells_the_spoon(taken, self.item) { ANOTHER_SPOON } else { ANOTHER_CUP };
        let agree = if two_volumes { off <= of_volumes * weight.best() } else { agree };
        if agree || round {
            return;
        }
        let name = self.item.food.map_or(self.item.name.as_str(), |food| self.pantry.food(food).name.as_str());
        let what = if taken.is_weight() { "the weight" } else { "the latter" };
        queries.push(Query::new(
            &AMOUNTS_DISAGREE,
            other.place.clone(),
            format!(
                "{} of {name} weighs about {:.0} g ({:.0} to {:.0}), but the line also says {}; {what} was taken.",
                in_words(other),
                range.best(),
                range.low(),
                range.high(),
                in_words(taken)
            ),
            "Change the one that is wrong.",
        ));
    }

    /// Whether an amount is up to four tablespoons or so.
    fn is_few_spoons(&self, amount: &Amount) -> bool {
        let each = |unit: Unit| unit.millilitres(self.kitchen.custom).map(Range::best);
        let spoon = |unit: Unit| matches!(unit, Unit::Teaspoon | Unit::Dessertspoon | Unit::Tablespoon);
        let millilitres = amount
            .terms
            .iter()
            .map(|term| each(term.unit).filter(|_| spoon(term.unit)).map(|each| each * term.high.value()));
        millilitres.sum::<Option<f64>>().is_some_and(|all| all <= SPOONS_UP_TO)
    }
}

/// Packs come in many sizes, and so do bunches: one of them contradicts no weight.
fn varies(unit: Unit) -> bool {
    is_sold_in_sizes(unit) || unit == Unit::Bunch
}
