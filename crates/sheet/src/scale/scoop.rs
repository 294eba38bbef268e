//! Which of the ways to scoop an amount is said.
//!
//! The drawer knows the fewest scoops within an error. A cook who multiplies by heart expects `3 3/4 cups` and
//! `2 1/2 teaspoons`, though `3 2/3 cups` (2 % less) or half a tablespoon and a teaspoon are fewer scoops. So what is
//! exact is said where it costs only a few scoops more: first in one unit, then in quarters of a cup and tablespoons, then
//! however the drawer has it.

use evencrumb_measure::say::Care;
use evencrumb_measure::{Custom, Hold, Measure, Number, Scoops, Unit, drawer, spoons};

use crate::drawer::{FORGIVEN, handy, is_fiddly, joins};

/// Scoops that being exact may cost.
const A_FEW: u32 = 3;
/// What is nearer than this, as a share, is exact: no cook levels a spoon so well.
const EXACT: f64 = 0.004;

/// The scoops that are said of an amount: with cups, or with spoons alone.
pub(super) fn plainest(millilitres: f64, cups: bool, care: Care, allowed_error_share: f64, custom: Custom) -> Scoops {
    let scoops =
        |allowed| if cups { drawer(millilitres, allowed, custom) } else { spoons(millilitres, allowed, custom) };
    let fewest = handy(care, allowed_error_share, scoops);
    if matches!(fewest.hold, Hold::PartOfSmallest(_)) {
        return fewest;
    }
    let most = count(&fewest) + A_FEW;
    let one_unit = [Unit::Cup, Unit::Tablespoon, Unit::Teaspoon]
        .into_iter()
        .filter(|unit| cups || *unit != Unit::Cup)
        .find_map(|unit| in_one_unit(millilitres, unit, EXACT, cups, custom).filter(|scoops| count(scoops) <= most));
    let plain =
        one_unit.or_else(|| cups_and_tablespoons(millilitres, custom).filter(|scoops| cups && count(scoops) <= most));
    if let Some(plain) = plain {
        return plain;
    }
    let exact = scoops(EXACT);
    // Nobody takes another spoon for the last percent of butter.
    let worth_it = care == Care::Exact || joins(&exact) <= joins(&fewest);
    if exact.hold == Hold::Within && count(&exact) <= most && worth_it && !is_fiddly(&exact) {
        return exact;
    }
    let near = if care == Care::Exact { allowed_error_share } else { FORGIVEN.max(allowed_error_share) };
    let teaspoons = in_one_unit(millilitres, Unit::Teaspoon, near, cups, custom);
    teaspoons.filter(|_| is_fiddly(&scoops(allowed_error_share))).unwrap_or(fewest)
}

fn count(scoops: &Scoops) -> u32 {
    scoops.scoops.iter().map(|(count, _)| count).sum()
}

/// An amount that is within `allowed` (a share) of a kitchen number of one unit; nothing when it is none, or is said in the next larger unit.
fn in_one_unit(millilitres: f64, unit: Unit, allowed: f64, cups: bool, custom: Custom) -> Option<Scoops> {
    let quantity = millilitres / unit.millilitres(custom)?.best();
    let (parts, below): (&[u32], f64) = match unit {
        Unit::Cup => (&[1, 2, 3, 4], f64::INFINITY),
        Unit::Tablespoon => (&[1, 2], if cups { 4.0 } else { f64::INFINITY }),
        _ => (&[1, 2, 4, 8], 3.0),
    };
    let least = match unit {
        Unit::Cup => 0.99 / 4.0,
        // Half a tablespoon is said in teaspoons, since many drawers have no such spoon.
        Unit::Tablespoon => 0.99,
        _ => 0.0,
    };
    if quantity > below * 0.99 || quantity < least {
        return None;
    }
    let (parts, over) = parts.iter().find_map(|parts| {
        let over = (quantity * f64::from(*parts)).round();
        let near = over >= 1.0 && (over / f64::from(*parts) / quantity - 1.0).abs() <= allowed && over < 1e6;
        near.then_some((*parts, over))
    })?;
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 1 to a million")]
    let scoops = measures(over as u32, parts, unit)?;
    let held = over / f64::from(parts) * (millilitres / quantity);
    Some(Scoops { scoops, millilitres: held, error_share: held / millilitres - 1.0, hold: Hold::Within })
}

/// Quarters of a cup and a few tablespoons more: six tablespoons are `1/4 cup plus 2 tablespoons`.
fn cups_and_tablespoons(millilitres: f64, custom: Custom) -> Option<Scoops> {
    let (cup, spoon) = (Unit::Cup.millilitres(custom)?.best(), Unit::Tablespoon.millilitres(custom)?.best());
    let quarters = (millilitres * 4.0 / cup).floor();
    let halves = ((millilitres - quarters * cup / 4.0) * 2.0 / spoon).round();
    let held = quarters * cup / 4.0 + halves * spoon / 2.0;
    let error_share = held / millilitres - 1.0;
    if quarters < 1.0 || halves < 1.0 || quarters > 1e6 || error_share.abs() > EXACT {
        return None;
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 1 to a million")]
    let mut scoops = measures(quarters as u32, 4, Unit::Cup)?;
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "less than a quarter of a cup")]
    scoops.extend(measures(halves as u32, 2, Unit::Tablespoon)?);
    Some(Scoops { scoops, millilitres: held, error_share, hold: Hold::Within })
}

/// So many parts of a unit in its measures: seven quarters are one, a half and a quarter.
fn measures(over: u32, parts: u32, unit: Unit) -> Option<Vec<(u32, Measure)>> {
    let measure = |under: u32| Some(Measure { size: Number::fraction(1, u64::from(under))?, unit });
    let mut scoops = Vec::new();
    if over >= parts {
        scoops.push((over / parts, measure(1)?));
    }
    let rest = over % parts;
    if parts.is_power_of_two() {
        // Seven eighths are a half, a quarter and an eighth.
        for under in [2, 4, 8].into_iter().filter(|under| *under <= parts && rest & (parts / under) > 0) {
            scoops.push((1, measure(under)?));
        }
    } else if rest > 0 {
        scoops.push((rest, measure(parts)?));
    }
    Some(scoops)
}

#[cfg(test)]
mod tests {
    use evencrumb_measure::say;
    use proptest::prelude::*;

    use super::*;

    fn said(quantity: f64, unit: Unit) -> String {
        with(Care::Usual, quantity, unit)
    }

    fn with(care: Care, quantity: f64, unit: Unit) -> String {
        let one = unit.millilitres(Custom::Us).expect("a volume").best();
        say::scoops(&plainest(quantity * one, true, care, 0.03, Custom::Us))
    }

    #[test]
    fn ok_as_a_cook_would_multiply() {
        assert_eq!(said(3.75, Unit::Cup), "3 3/4 cups");
        assert_eq!(said(2.5, Unit::Teaspoon), "2 1/2 teaspoons");
        assert_eq!(said(2.5, Unit::Tablespoon), "2 1/2 tablespoons");
        assert_eq!(said(6.25, Unit::Teaspoon), "2 tablespoons plus 1/4 teaspoon");
        assert_eq!(said(1.875, Unit::Cup), "1 3/4 cups plus 2 tablespoons");
        assert_eq!(said(5.0 / 6.0, Unit::Cup), "1/2 cup plus 1/3 cup");
        assert_eq!(said(6.0, Unit::Tablespoon), "1/4 cup plus 2 tablespoons");
        assert_eq!(said(13.0, Unit::Tablespoon), "3/4 cup plus 1 tablespoon");
        assert_eq!(said(5.0, Unit::Tablespoon), "1/4 cup plus 1 tablespoon");
        assert_eq!(said(1.875, Unit::Teaspoon), "1 3/4 teaspoons plus 1/8 teaspoon");
        assert_eq!(said(2.84, Unit::Teaspoon), "2 3/4 teaspoons");
        assert_eq!(with(Care::Exact, 2.84, Unit::Teaspoon), "2 3/4 teaspoons plus 1/8 teaspoon");
        assert_eq!(said(0.625, Unit::Teaspoon), "1/2 teaspoon plus 1/8 teaspoon");
        assert_eq!(said(4.0 / 3.0, Unit::Cup), "1 1/3 cups");
        assert_eq!(said(0.5, Unit::Tablespoon), "1 1/2 teaspoons");
    }

    /// Found by a practitioner: three scoops where the third is less than the doubt of the second.
    #[test]
    fn ok_no_spoon_is_taken_for_a_percent_of_what_forgives_it() {
        assert_eq!(said(9.125, Unit::Teaspoon), "3 tablespoons");
        assert_eq!(said(51.5, Unit::Teaspoon), "1 cup plus 1 tablespoon");
        assert_eq!(with(Care::Exact, 9.125, Unit::Teaspoon), "3 tablespoons plus 1/8 teaspoon");
    }

    proptest! {
        #[test]
        fn ok_the_error_is_the_one_said(millilitres in 0.7..9000.0f64, cups: bool) {
            let scoops = plainest(millilitres, cups, Care::Exact, 0.03, Custom::Us);
            let held: f64 = scoops.scoops.iter().map(|(count, measure)| {
                f64::from(*count) * measure.size.value() * measure.unit.millilitres(Custom::Us).expect("a volume").best()
            }).sum();
            prop_assert!((held / millilitres - 1.0 - scoops.error_share).abs() < 1e-9);
            prop_assert!(scoops.hold != Hold::Within || scoops.error_share.abs() <= 0.03 + 1e-9);
        }
    }
}
