//! Cups, spoons and pinches said anew.

use evencrumb_manuscript::line::Amount;
use evencrumb_measure::say::{self, Care};
use evencrumb_measure::{Custom, Hold, MOST_MILLILITRES, Number, Scoops, Unit, drawer};

use super::food::{Recipe, Said, decimal, fraction, joined, number};
use super::{scoop, weight};
use crate::line::WeighedItem;

/// A volume as written, taken so many times.
pub(super) fn said(amount: &Amount, one: &WeighedItem, recipe: &Recipe<'_>) -> Said {
    let custom = recipe.kitchen.custom;
    let (low, high) = amount.quantity(custom);
    let say = |quantity: f64| one_end(amount, quantity * recipe.factor, one, recipe);
    joined(say(low), (high > low).then(|| say(high)))
}

/// `quantity` counts the first unit of the amount.
fn one_end(amount: &Amount, quantity: f64, one: &WeighedItem, recipe: &Recipe<'_>) -> Said {
    let unit = amount.unit();
    if unit.is_vague() {
        return vague(unit, quantity, one, recipe);
    }
    if let Some(fill) = amount.fill.as_deref().filter(|fill| matches!(*fill, "heaped" | "scant")) {
        // A heap belongs to its own spoon: two heaped spoons are no level cup.
        // By eye it is no finer than eighths.
        let near = fraction(quantity, &[1, 2, 3, 4], 0.001).map_or((quantity * 8.0).round() / 8.0, Number::value);
        let (near, about) = if near > 0.0 { (near, "about ") } else { (quantity, "") };
        let error_share = near / quantity - 1.0;
        let about = if error_share.abs() < 0.001 { "" } else { about };
        return Said {
            words: format!("{about}{} {fill} {}", number(near), named(unit, near)),
            error_share,
            ..Said::default()
        };
    }
    let Some(millilitres) = unit.millilitres(recipe.kitchen.custom).map(|range| range.best() * quantity) else {
        return Said { words: format!("{} {}", number(quantity), named(unit, quantity)), ..Said::default() };
    };
    let metric = matches!(unit, Unit::Millilitre | Unit::Centilitre | Unit::Decilitre | Unit::Litre);
    let spoon = matches!(unit, Unit::Tablespoon | Unit::Teaspoon | Unit::Dessertspoon);
    let cups = recipe.cups || recipe.kitchen.custom == Custom::Us && !spoon;
    if metric || !cups && !spoon {
        return in_millilitres(millilitres, (recipe.factor - 1.0).abs() < 1e-9);
    }
    in_scoops(millilitres, cups, one, recipe)
}

/// Millilitres in cups and spoons, or in spoons alone.
pub(super) fn in_scoops(millilitres: f64, cups: bool, one: &WeighedItem, recipe: &Recipe<'_>) -> Said {
    let (allowed, custom) = (recipe.allowed(&one.item), recipe.kitchen.custom);
    let cup = Unit::Cup.millilitres(custom).filter(|_| millilitres > MOST_MILLILITRES);
    if let Some(cup) = cup {
        // The drawer stops counting there, and a scale leads anyhow.
        return Said { words: format!("{} cups", number((millilitres / cup.best()).round())), ..Said::default() };
    }
    let care = recipe.care(&one.item);
    let scoops = scoop::plainest(millilitres, cups, care, allowed, custom);
    let exact = care == Care::Exact;
    let too_little = matches!(scoops.hold, Hold::PartOfSmallest(_));
    let words = match scoops.hold {
        Hold::PartOfSmallest(Number::ONE) => "about 1/8 teaspoon".to_owned(),
        Hold::PartOfSmallest(part) => format!("about {part} of 1/8 teaspoon"),
        // The error stands beside the words and is not said in them.
        _ => say::scoops(&Scoops { hold: Hold::Within, ..scoops.clone() }),
    };
    Said {
        words,
        error_share: scoops.error_share,
        scale_needed: too_little || exact && scoops.error_share.abs() > LEAVENER_WITHIN,
        too_little,
        scoops: scoops.scoops,
    }
}

/// What raises, salts or binds is never moved by more than this.
const LEAVENER_WITHIN: f64 = 0.03;

/// Pinches and dashes are counted, and measured by the spoon once there are many.
fn vague(unit: Unit, quantity: f64, one: &WeighedItem, recipe: &Recipe<'_>) -> Said {
    let spoon = matches!(unit, Unit::Pinch | Unit::Dash | Unit::Smidgen | Unit::Tad);
    let counted = format!("{} {}", number(quantity), named(unit, quantity));
    let words = match unit.millilitres(Custom::Us) {
        Some(size) if spoon && quantity >= 4.0 => {
            // Nobody's pinch is nearer to another's than this.
            let scoops = drawer(size.best() * quantity, 0.10, Custom::Us);
            format!("{} ({counted})", say::scoops(&scoops))
        }
        // Nobody takes 0.37 of a pinch.
        _ if spoon && quantity < 0.75 => {
            if quantity < 0.4 { "a few grains" } else { "half a pinch" }.replace("pinch", unit.name())
        }
        // Nor 0.9 of one.
        _ if spoon && fraction(quantity, &[1, 2], 0.001).is_none() => {
            let nearest = (quantity * 2.0).round() / 2.0;
            if nearest <= 1.0 {
                format!("a {}", unit.name())
            } else {
                format!("{} {}", number(nearest), named(unit, nearest))
            }
        }
        // Two thirds of a knob are no knob that anybody sees.
        _ if fraction(quantity, &[1, 2], 0.001).is_none() => {
            let nearest = ((quantity * 2.0).round() / 2.0).max(0.5);
            let measure = match nearest < 1.0 {
                true => format!("half a {}", unit.name()),
                false => format!("{} {}", number(nearest), named(unit, nearest)),
            };
            let grams = one.weighed.grams.as_ref().map(|grams| grams.best() * recipe.factor);
            match grams.map(|grams| say::printed_grams(grams, Care::Usual)).filter(|grams| *grams > 0.0) {
                Some(grams) => format!("{measure} (about {})", weight::in_grams(grams)),
                None => format!("about {measure}"),
            }
        }
        _ => counted,
    };
    Said { words, too_little: spoon && quantity < 0.75, ..Said::default() }
}

fn named(unit: Unit, quantity: f64) -> String {
    let amount = if quantity > 1.0 { Number::whole(2) } else { Number::ONE };
    let said = say::measure(amount, unit);
    said.split_once(' ').map_or(said.clone(), |(_, name)| name.to_owned())
}

/// Millilitres as a jug is read: in steps of 1 below 100 and of 5 above.
fn in_millilitres(exact: f64, as_written: bool) -> Said {
    let printed = if as_written { exact } else { say::printed_grams(exact, Care::Usual) };
    let error_share = if exact > 0.0 { printed / exact - 1.0 } else { 0.0 };
    let words = format!("{} ml", decimal(printed));
    Said { words, error_share, ..Said::default() }
}
