//! Ounces of a liquid: American cooks write "8 oz milk" for a cup of it, bakers for half a pound. Nobody can tell which.

use evencrumb_manuscript::line::Amount;
use evencrumb_measure::{Custom, Dimension, Estimate, Influence, Range, Unit};

use super::{Weighing, in_words};
use crate::row::Way;

/// Grams in an ounce of weight and millilitres in a US fluid ounce: both by definition.
const OUNCE: f64 = 28.349523125;
const FLUID_OUNCE: f64 = 29.5735295625;
/// Syrups, honey and condensed milk are sold by weight, and their ounces are meant so.
const THICK: f64 = 1.2;
/// How near two volumes lie that are the same measure said twice.
const SAME: f64 = 0.03;

/// How far a stated weight in ounces may be meant by volume, and why; nothing where it is a weight for certain.
pub(super) fn by_volume(weighing: &Weighing<'_>, amount: &Amount) -> Option<(Estimate, String)> {
    let ratio = ratio(weighing, amount)?;
    let range = Range::new(ratio.min(1.0), 1.0, ratio.max(1.0))?;
    let name = &weighing.pantry.food(weighing.item.food?).name;
    let words = format!(
        "ounces of a liquid may be meant by volume; {} of {name} measured in a jug would weigh {:.0} % of that",
        in_words(amount),
        100.0 * ratio
    );
    Some((Estimate::of(range, Influence::named(&format!("the ounces in “{}”", weighing.line_words(amount)))), words))
}

/// Whether the line also gives the same measure as a volume ("1 cup (8 oz) milk"), which shows that the ounces are fluid.
pub(super) fn are_fluid(weighing: &Weighing<'_>, amount: &Amount) -> bool {
    let [term] = &amount.terms[..] else { return false };
    let millilitres = term.low.value() * FLUID_OUNCE;
    ratio(weighing, amount).is_some()
        && weighing.item.amounts.iter().any(|other| {
            let [measured] = &other.terms[..] else { return false };
            let one = measured.unit.millilitres(Custom::Us).filter(|_| measured.unit.dimension() == Dimension::Volume);
            one.is_some_and(|one| (measured.low.value() * one.best() - millilitres).abs() <= SAME * millilitres)
        })
}

/// Grams of a fluid ounce to those of an ounce, of a thin liquid that was written in ounces.
fn ratio(weighing: &Weighing<'_>, amount: &Amount) -> Option<f64> {
    if amount.unit() != Unit::Ounce || amount.each.is_some() {
        return None;
    }
    let food = weighing.pantry.food(weighing.item.food?);
    let poured = food.cup.first().filter(|cup| cup.way == Some(Way::Poured))?;
    let cup = Unit::Cup.millilitres(Custom::Us)?.best();
    let ratio = poured.grams.range.best() / cup * FLUID_OUNCE / OUNCE;
    (ratio < THICK).then_some(ratio)
}
