//! How much of a made thing a line takes.

use evencrumb_manuscript::line::{Amount, Item};
use evencrumb_measure::{Custom, Dimension, Estimate, Influence, Range, Unit};

/// How much is made at once, as far as anybody says.
#[derive(Clone, Debug, Default)]
pub struct Whole {
    /// Grams when it is ready to be used.
    pub grams: Estimate,
    /// Millilitres, when the author measured them.
    pub millilitres: Option<f64>,
    /// Pieces, as of cookies.
    pub pieces: Option<f64>,
}

/// What a line asks for.
#[derive(Clone, Debug)]
pub enum Taken {
    /// A share of what is made at once.
    Share(Estimate),
    /// What no other line takes.
    Rest,
    /// The line doesn't tell.
    Unknown,
}

/// Grams of a millilitre of something that is made here: light foams and frostings at one end, syrups at the other.
/// Common practice, no source.
const DENSITY: (f64, f64, f64) = (0.6, 0.9, 1.2);

/// What a line takes of a thing of which `whole` is made. `grams` is what the line weighs if it names a food of the pantry;
/// cups and spoons are those of `custom`.
pub fn taken(item: &Item, grams: Option<&Estimate>, remaining: bool, whole: &Whole, custom: Custom) -> Taken {
    let of_whole = |grams: &Estimate| {
        let made = whole.grams.best();
        (made > 0.0).then(|| Taken::Share(grams.times(1.0 / made)))
    };
    if let Some(grams) = item.amounts.iter().find_map(stated_grams) {
        return of_whole(&grams).unwrap_or(Taken::Unknown);
    }
    let Some(amount) = item.amounts.first() else {
        return if remaining { Taken::Rest } else { Taken::Share(Estimate::exact(1.0)) };
    };
    let number = number(amount);
    match amount.unit() {
        Unit::Batch => Taken::Share(number),
        unit if unit.dimension() == Dimension::Volume => match (millilitres(amount, custom), whole.millilitres) {
            (Some(asked), Some(made)) if made > 0.0 => Taken::Share(asked.times(1.0 / made)),
            _ if grams.is_some() => grams.and_then(of_whole).unwrap_or(Taken::Unknown),
            (Some(asked), _) => {
                let density = Range::new(DENSITY.0, DENSITY.1, DENSITY.2).unwrap_or(Range::exact(DENSITY.1));
                let density = Estimate::of(density, Influence::named("what a cup of it weighs"));
                of_whole(&asked.product(&density)).unwrap_or(Taken::Unknown)
            }
            _ => Taken::Unknown,
        },
        Unit::Piece => match whole.pieces {
            // "a third of the caramel" is a share, "2 cookies" are two of those made.
            _ if number.best() <= 1.0 && whole.pieces.is_none_or(|pieces| pieces < 2.0) => Taken::Share(number),
            _ if number.best() < 1.0 => Taken::Share(number),
            Some(pieces) if pieces > 0.0 => Taken::Share(number.times(1.0 / pieces)),
            _ => Taken::Unknown,
        },
        _ => Taken::Unknown,
    }
}

fn number(amount: &Amount) -> Estimate {
    range(amount, |_| Some(1.0)).unwrap_or_default()
}

fn stated_grams(amount: &Amount) -> Option<Estimate> {
    range(amount, Unit::grams)
}

fn millilitres(amount: &Amount, custom: Custom) -> Option<Estimate> {
    range(amount, |unit| unit.millilitres(custom).map(Range::best))
}

/// The amount in a unit of which one of the written units holds `each`.
fn range(amount: &Amount, each: impl Fn(Unit) -> Option<f64>) -> Option<Estimate> {
    let (mut low, mut high) = (0.0, 0.0);
    for term in &amount.terms {
        let one = each(term.unit)?;
        let sign = if term.minus { -one } else { one };
        low += sign * term.low.value();
        high += sign * term.high.value();
    }
    let range = Range::new(low.max(0.0), f64::midpoint(low, high).max(0.0), high.max(0.0))?;
    Some(Estimate::of(range, Influence::named("how much is taken")))
}
