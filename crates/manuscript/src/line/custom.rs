//! Whose measures a line names: "1 metric cup", "2 US pints".

use evencrumb_measure::{Custom, Dimension, Number, Unit};

use super::amount::{Term, unit};
use super::cut::Cut;
use crate::words::WORDS;

/// Whose cup it is where the line says so ("1 metric cup", "2 US pints"), and the token of the unit.
pub fn whose(cut: &Cut<'_>, at: usize) -> Option<(&'static str, usize)> {
    let (whose, next) = cut.longest(at, &WORDS.customs)?;
    let (unit, _) = unit(cut, next)?;
    (unit.dimension() == Dimension::Volume && !unit.is_vague()).then_some((whose, next))
}

/// Turns a term into millilitres by the measures of one country: whose cup it is must not be asked again.
pub fn in_millilitres(term: &mut Term, whose: &str) {
    let size = match (whose, term.unit) {
        // Half an imperial pint, which is no longer the cup of British spoons and cups.
        ("imperial", Unit::Cup) => Unit::Pint.millilitres(Custom::Uk).map(|pint| pint.best() / 2.0),
        ("us", unit) => unit.millilitres(Custom::Us).map(|range| range.best()),
        ("metric", unit) => unit.millilitres(Custom::Metric).map(|range| range.best()),
        ("australian", unit) => unit.millilitres(Custom::Australian).map(|range| range.best()),
        (_, unit) => unit.millilitres(Custom::Uk).map(|range| range.best()),
    };
    let size = size.and_then(|size| Number::decimal(&size.to_string()));
    if let Some((low, high)) = size.and_then(|size| Some((term.low.times(size)?, term.high.times(size)?))) {
        (term.low, term.high, term.unit) = (low, high, Unit::Millilitre);
    }
}
