//! Weights said anew: grams as a scale is read, ounces and pounds for those who wrote them.

use evencrumb_manuscript::line::Amount;
use evencrumb_measure::Unit;
use evencrumb_measure::say::{self, Care};

use super::food::{Recipe, Said, decimal, joined, number};
use crate::line::WeighedItem;

/// Grams taken so many times as a scale is read, and how far that is from the exact weight as a share of it. A recipe
/// that is not scaled keeps its own grams.
pub(super) fn printed(grams: f64, factor: f64, care: Care) -> (f64, f64) {
    let exact = grams * factor;
    if exact <= 0.0 {
        return (0.0, 0.0);
    }
    if (factor - 1.0).abs() < 1e-9 && (grams - grams.round()).abs() < 1e-9 {
        return (grams, 0.0);
    }
    let printed = say::printed_grams(exact, care);
    // What is there is not printed as nothing.
    let printed = if printed > 0.0 { printed } else { say::printed_grams(exact, Care::Exact) };
    (printed, printed / exact - 1.0)
}

/// A stated weight.
pub(super) fn said(amount: &Amount, one: &WeighedItem, recipe: &Recipe<'_>) -> Said {
    let (low, high) = grams(amount);
    let care = recipe.care(&one.item);
    let say = |grams: f64| match amount.unit() {
        Unit::Ounce => ounces(grams, recipe.factor),
        Unit::Pound | Unit::Stone => pounds(grams, recipe.factor),
        _ => {
            let (printed, error_share) = printed(grams, recipe.factor, care);
            Said { words: in_grams(printed), error_share, ..Said::default() }
        }
    };
    joined(say(low), (high > low).then(|| say(high)))
}

/// `1250 g`, `7.5 g`.
pub(super) fn in_grams(printed: f64) -> String {
    format!("{} g", decimal(printed))
}

fn grams(amount: &Amount) -> (f64, f64) {
    let (mut low, mut high) = (0.0, 0.0);
    for term in &amount.terms {
        let grams = term.unit.grams().unwrap_or(0.0) * if term.minus { -1.0 } else { 1.0 };
        low += grams * term.low.value();
        high += grams * term.high.value();
    }
    (f64::max(low, 0.0), f64::max(high, 0.0))
}

const GRAMS_IN_AN_OUNCE: f64 = 28.349_523_125;

fn ounces(grams: f64, factor: f64) -> Said {
    let exact = grams * factor / GRAMS_IN_AN_OUNCE;
    let step = if exact < 1.0 { 0.01 } else { 0.1 };
    let printed = (exact / step).round() * step;
    let words = format!("{} {}", decimal(printed), if printed > 1.0 { "ounces" } else { "ounce" });
    Said { words, error_share: error(printed, exact), ..Said::default() }
}

/// Pounds in quarters where that is exact, else pounds and ounces.
fn pounds(grams: f64, factor: f64) -> Said {
    let ounces_exact = grams * factor / GRAMS_IN_AN_OUNCE;
    let pounds = ounces_exact / 16.0;
    let quarters = (pounds * 4.0).round() / 4.0;
    if quarters > 0.0 && (quarters / pounds - 1.0).abs() < 0.005 {
        let unit = if quarters > 1.0 { "pounds" } else { "pound" };
        let words = format!("{} {unit}", number(quarters));
        return Said { words, error_share: error(quarters, pounds), ..Said::default() };
    }
    if pounds < 1.0 {
        return ounces(grams, factor);
    }
    let mut whole = pounds.floor();
    let mut rest = ((ounces_exact - whole * 16.0) * 10.0).round() / 10.0;
    if rest >= 16.0 {
        (whole, rest) = (whole + 1.0, 0.0);
    }
    let words = format!(
        "{} {} {} {}",
        say::number(whole),
        if whole > 1.0 { "pounds" } else { "pound" },
        decimal(rest),
        if rest > 1.0 { "ounces" } else { "ounce" }
    );
    Said { words, error_share: error(whole * 16.0 + rest, ounces_exact), ..Said::default() }
}

fn error(said: f64, exact: f64) -> f64 {
    if exact > 0.0 { said / exact - 1.0 } else { 0.0 }
}
