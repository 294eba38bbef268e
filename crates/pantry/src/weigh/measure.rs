//! What a cup, a spoon or a pinch of a food weighs.

use evencrumb_manuscript::line::{Amount, Item};
use evencrumb_measure::{Custom, Estimate, Influence, Range, Unit};

use super::spread::{self, Spread};
use super::{Basis, Weighing, leans_on};
use crate::row::{Cited, Food, Way};

/// Below this a measure is a spoon, and a food's own spoon counts before its cup.
pub(crate) const SMALL_MILLILITRES: f64 = 12.0;

/// Below this a measure is a spoon of any country: the largest tablespoon holds 20 ml.
pub(crate) const SPOON_MILLILITRES: f64 = 25.0;

/// Whether a food is weighed by its teaspoon in a measure of this size. A teaspoon that the author weighed counts for a
/// tablespoon, too, which is three of them; unless she weighed that or a cup.
pub fn is_by_teaspoon(food: &Food, millilitres: f64) -> bool {
    let is_hers = |cited: &Cited| cited.from.source.id == "own";
    millilitres < SMALL_MILLILITRES
        || millilitres < SPOON_MILLILITRES
            && food.teaspoon.as_ref().is_some_and(is_hers)
            && !food.cup.first().is_some_and(|cup| is_hers(&cup.grams))
}

/// Grams of a volume.
pub(super) fn grams(weighing: &Weighing<'_>, amount: &Amount) -> Option<(Estimate, Vec<Basis>)> {
    let food = weighing.pantry.food(weighing.item.food?);
    let unit = amount.unit();
    let volume = unit.millilitres(weighing.kitchen.custom)?;
    let Spread { grams: density, mut basis, .. } = puree(food, weighing.item)
        .or_else(|| millilitre(food, &weighing.item.ways, is_by_teaspoon(food, volume.best())))?;
    let one = if unit.is_vague() {
        // A pinch of one food by one cook says nothing of the next line's pinch.
        Estimate::of(volume, Influence::named(&format!("the {unit} in “{}”", weighing.line_words(amount))))
    } else {
        Estimate::exact(volume.best())
    };
    if unit.is_vague() {
        basis.extend(unit.source().map(|source| Basis {
            source,
            words: format!(
                "a {unit} is taken as {:.2} ml ({:.2} to {:.2})",
                volume.best(),
                volume.low(),
                volume.high()
            ),
        }));
    }
    let mut grams = one.product(&density).product(&weighing.numbers(amount));
    if let Some((factor, words)) = fill(amount, &weighing.item.ways) {
        let influence = format!("how full in “{}”", weighing.line_words(amount));
        grams = grams.product(&Estimate::of(factor, Influence::named(&influence)));
        basis.extend(Basis::of("common-practice", words));
    }
    Some((grams, basis))
}

/// A puree fills its cup without gaps, whatever the pieces weigh that it was made of: 0.95 to 1.06 g/ml, common practice,
/// no source. Only of foods whose own cup is one of pieces; a food that is a puree has its own.
fn puree(food: &Food, item: &Item) -> Option<Spread> {
    let said = |way: &str| item.ways.iter().any(|said| said == way);
    let named = item.name.to_lowercase().split(' ').any(|word| word == "puree" || word == "purée");
    let ways = item.ways.iter().filter_map(|way| Way::named(way));
    let own = ways.into_iter().any(|way| food.cup_filled(Some(way)).is_some());
    let in_pieces = food.cup.first().and_then(|cup| cup.way).is_some_and(|way| {
        !matches!(way, Way::Mashed | Way::Puree | Way::Poured | Way::Spooned | Way::Packed | Way::Loose)
    });
    if !(named || said("puree") || said("mashed")) || own && !named || !in_pieces {
        return None;
    }
    let words = format!("a cup of a puree weighs about 240 g (225 to 250), whatever {} weighs in pieces", food.name);
    let basis = Basis::of("common-practice", words).into_iter().collect();
    Some(spread::alone(Range::new(0.95, 1.01, 1.06)?, &format!("a cup of puree of {}", food.name), basis))
}

/// Heaped and scant measures: common practice, no source.
fn fill(amount: &Amount, ways: &[String]) -> Option<(Range, &'static str)> {
    let heaped = amount.fill.as_deref() == Some("heaped") || ways.iter().any(|way| way == "heaped");
    let scant = amount.fill.as_deref() == Some("scant") || ways.iter().any(|way| way == "scant");
    if heaped {
        // A spoon heaps by half as much again, a cup by less.
        let spoon = matches!(amount.unit(), Unit::Tablespoon | Unit::Teaspoon | Unit::Dessertspoon);
        let range = if spoon { Range::new(1.15, 1.5, 2.0) } else { Range::new(1.05, 1.15, 1.35) };
        return range.map(|range| (range, "a heaped measure holds more than a level one"));
    }
    if scant {
        return Range::new(0.85, 0.94, 1.0).map(|range| (range, "a scant measure is not quite full"));
    }
    None
}

/// Grams per millilitre of a food filled in the ways named, as [`crate::weigh`] takes it for a cup (`small`: for a
/// spoon); `None` when neither a cup nor a spoon of it is known.
pub fn grams_per_millilitre(food: &Food, ways: &[String], small: bool) -> Option<(Range, Vec<Basis>)> {
    millilitre(food, ways, small).map(|it| (it.grams.range(), it.basis))
}

/// Grams of a millilitre of the food as it was filled, with all that makes it unsure.
pub fn millilitre(food: &Food, ways: &[String], small: bool) -> Option<Spread> {
    let ways: Vec<Way> = ways.iter().filter_map(|way| Way::named(way)).collect();
    let cup_ml = Unit::Cup.millilitres(Custom::Us)?.best();
    // The first way written for which the row has a cup.
    // A fruit that is crushed lies in the cup as it does mashed.
    let mashed = ways.contains(&Way::Crushed).then_some(Way::Mashed);
    let filled = ways.iter().copied().chain(mashed).find_map(|way| food.cup.iter().find(|cup| cup.way == Some(way)));
    let by_spoon = |spoon: &Cited| {
        let basis = vec![leans_on(spoon, format!("a teaspoon of {} weighs {}", food.name, grams_of(spoon)))];
        let way = food.cup.first().and_then(|cup| cup.way);
        spread::filled(food, way, spoon, spoon.range.times(48.0 / cup_ml), &format!("a spoon of {}", food.name), basis)
    };
    if let Some(spoon) = food.teaspoon.as_ref().filter(|_| small && filled.is_none()) {
        return Some(by_spoon(spoon));
    }
    if let Some(cup) = filled {
        let influence = format!("a cup of {}, {}", food.name, cup.way.map(Way::name).unwrap_or_default());
        let basis = vec![leans_on(&cup.grams, format!("{influence}, weighs {}", grams_of(&cup.grams)))];
        let range = cup.grams.range.times(1.0 / cup_ml);
        return Some(spread::filled(food, cup.way, &cup.grams, range, &influence, basis));
    }
    let Some((cited, way)) = food.cup.first().map(|cup| (&cup.grams, cup.way)) else {
        return food.teaspoon.as_ref().map(by_spoon);
    };
    let mut range = cited.range;
    let mut basis = vec![leans_on(
        cited,
        format!(
            "a cup of {}{} weighs {}",
            food.name,
            way.map(|way| format!(", {way},")).unwrap_or_default(),
            grams_of(cited)
        ),
    )];
    // Nobody said how the flour got into the cup: the range must hold spooners and dippers.
    if way == Some(Way::Spooned)
        && let Some(dipped) = food.cup_filled(Some(Way::Dipped))
    {
        range = Range::new(range.low(), range.best(), range.high().max(dipped.grams.range.high()))?;
        basis.push(leans_on(
            &dipped.grams,
            format!(
                "dipped it would weigh {}, and the line does not say how the cup is filled",
                grams_of(&dipped.grams)
            ),
        ));
    }
    // Brown sugar is meant packed where nothing is said, so that a loose cup lies outside the range: it is told instead.
    if way == Some(Way::Packed)
        && let Some(loose) = food.cup_filled(Some(Way::Loose))
    {
        let words = format!("packed was taken; left loose it would weigh {}", grams_of(&loose.grams));
        basis.push(leans_on(&loose.grams, words));
    }
    Some(spread::filled(food, way, cited, range.times(1.0 / cup_ml), &format!("a cup of {}", food.name), basis))
}

fn grams_of(cited: &Cited) -> String {
    let range = cited.range;
    let places = usize::from(range.best() < 20.0);
    format!("{:.places$} g ({:.places$} to {:.places$})", range.best(), range.low(), range.high())
}
