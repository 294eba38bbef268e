//! What counted things weigh: eggs by class, fruits by size, sticks, cans, and the zest and juice of a fruit.

use evencrumb_manuscript::line::{Amount, is_sold_in_sizes};
use evencrumb_measure::{Estimate, Influence, Range, Unit};

use super::spread::{self, Spread};
use super::{Basis, Weighing, leans_on};
use crate::row::{Cited, Food, PieceWeight, Size};

/// Grams of a number of things.
pub(super) fn grams(weighing: &Weighing<'_>, amount: &Amount) -> Option<(Estimate, Vec<Basis>)> {
    let id = weighing.item.food?;
    let food = weighing.pantry.food(id);
    if amount.size.as_deref().is_some_and(|size| size.starts_with('#')) {
        // A wholesaler's can number is a size we have no weights for.
        return None;
    }
    let size = weighing.item.size.as_deref().or(amount.size.as_deref()).and_then(Size::named);
    let unit = amount.unit();
    // A squeeze of lemon is no whole lemon's juice.
    if (weighing.item.part.is_some() && !unit.is_vague()
        || (unit == Unit::Piece && !food.piece.iter().any(|piece| piece.unit == Unit::Piece)))
        && let Some(found) = part(weighing, amount, size)
    {
        return Some(found);
    }
    let one = one(food, unit, size, weighing.kitchen.eggs)?;
    Some((one.grams.product(&weighing.numbers(amount)), one.basis))
}

/// Grams of one of what is counted, with all that makes it unsure; `None` when the row knows no such piece. Without a
/// `size`, the usual one is taken, and `eggs` is the class of an egg.
pub fn one(food: &Food, unit: Unit, size: Option<Size>, eggs: Size) -> Option<Spread> {
    let (piece, factor, assumed) = piece(food, unit, size, eggs)?;
    let named = match piece.size.map(|size| size.to_string()) {
        // "One eu l piece of egg" is nobody's English.
        Some(size) if piece.unit == Unit::Piece && size.starts_with("eu ") => {
            format!("{} of EU size {}", food.name, size.trim_start_matches("eu ").to_uppercase())
        }
        size => {
            let unit = if piece.unit == Unit::Piece { "piece".to_owned() } else { piece.unit.to_string() };
            format!("{}{unit} of {}", size.map(|size| format!("{size} ")).unwrap_or_default(), food.name)
        }
    };
    let words = format!("one {named} weighs {}", shown(&piece.grams));
    let mut basis = vec![leans_on(&piece.grams, words)];
    if assumed {
        basis.extend(Basis::of("common-practice", "the line does not say how large; the usual size was taken"));
    }
    let influence = format!("one {} of {}", piece.unit, food.name);
    Some(match size {
        Some(_) => {
            let range = piece.grams.range.times(factor);
            spread::alone(if is_sold_in_sizes(unit) { of_a_pack(range, factor) } else { range }, &influence, basis)
        }
        None => spread::unsized_piece(food, piece, &influence, basis),
    })
}

/// A small can may hold half of the usual one and a large one twice as much: which, the line does not say (common
/// practice, no source).
fn of_a_pack(range: Range, factor: f64) -> Range {
    let low = if factor < 1.0 { range.low() * 0.6 } else { range.low() };
    let high = if factor > 1.0 { range.high() * 1.8 } else { range.high() / factor.min(1.0) };
    Range::new(low, range.best(), high).unwrap_or(range)
}

/// The weight of one: by unit and size; a size the row lacks is scaled from the one it has, by the trade's steps.
fn piece(food: &Food, unit: Unit, size: Option<Size>, eggs: Size) -> Option<(&PieceWeight, f64, bool)> {
    let exact = food.piece.iter().any(|piece| piece.unit == unit);
    let of_unit =
        || food.piece.iter().filter(move |piece| if exact { piece.unit == unit } else { same_unit(piece.unit, unit) });
    let is_egg = food.piece.iter().any(|piece| piece.size == Some(Size::Jumbo) || piece.size == Some(Size::EuMedium));
    if let Some(size) = size {
        let size = if is_egg { size.of_egg(eggs) } else { size };
        if let Some(piece) = of_unit().find(|piece| piece.size == Some(size)) {
            return Some((piece, 1.0, false));
        }
        let piece = of_unit().next()?;
        return Some((piece, step(size) / piece.size.map_or(1.0, step), false));
    }
    if is_egg && let Some(piece) = of_unit().find(|piece| piece.size == Some(eggs)) {
        return Some((piece, 1.0, true));
    }
    of_unit().next().map(|piece| (piece, 1.0, piece.size.is_some()))
}

/// Units that hold the same thing under two names.
fn same_unit(known: Unit, asked: Unit) -> bool {
    let packet = |unit| matches!(unit, Unit::Packet | Unit::Package);
    let tub = |unit| matches!(unit, Unit::Carton | Unit::Tub);
    let rib = |unit| matches!(unit, Unit::Stalk | Unit::Stick);
    let one = |unit| matches!(unit, Unit::Piece | Unit::Leaf | Unit::Pod | Unit::Clove | Unit::Stick | Unit::Ball);
    known == asked
        || (one(known) && one(asked) && (known == Unit::Piece || asked == Unit::Piece))
        || (packet(known) && packet(asked))
        // A box is a whole package; a packet may be one of several in it, as of gelatin.
        || (known == Unit::Package && asked == Unit::Box)
        || (tub(known) && tub(asked))
        || (known == Unit::Stalk && rib(asked))
}

/// How a size stands to medium (common practice, no source).
fn step(size: Size) -> f64 {
    match size {
        Size::Small | Size::EuSmall => 0.75,
        Size::Medium | Size::EuMedium => 1.0,
        Size::Large | Size::EuLarge => 1.25,
        Size::ExtraLarge | Size::EuExtraLarge => 1.4,
        Size::Jumbo => 1.6,
    }
}

/// The zest or juice of a number of fruits.
fn part(weighing: &Weighing<'_>, amount: &Amount, size: Option<Size>) -> Option<(Estimate, Vec<Basis>)> {
    let id = weighing.item.food?;
    let (fruit, given) = weighing.pantry.given_by(id).next()?;
    let factor = size.map_or(1.0, step);
    let basis =
        vec![leans_on(&given.grams, format!("one {} gives {} of {}", fruit.name, shown(&given.grams), given.food))];
    let one = Estimate::of(
        given.grams.range.times(factor),
        Influence::named(&format!("{} of one {}", given.food, fruit.name)),
    );
    Some((one.product(&weighing.numbers(amount)), basis))
}

fn shown(cited: &Cited) -> String {
    let range = cited.range;
    let places = usize::from(range.best() < 20.0);
    format!("{:.places$} g ({:.places$} to {:.places$})", range.best(), range.low(), range.high())
}
