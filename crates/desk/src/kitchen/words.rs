//! The kitchen in one line, as it stands under every answer.

use evencrumb_measure::Custom;
use evencrumb_pantry::row::Size;

use super::Found;

/// Whose measures, eggs, law and air a figure leans on, as `US customary cups and spoons, large US eggs, US law, sea
/// level`.
///
/// All four are said even where nothing is set, because a reader elsewhere would not guess them.
pub fn in_words(found: &Found) -> String {
    let measures = match found.kitchen.custom {
        Custom::Us => "US customary cups and spoons",
        Custom::Metric => "metric cups and spoons",
        Custom::Uk => "UK spoons and pints",
        Custom::Australian => "Australian cups and spoons",
    };
    let eggs = match found.kitchen.eggs {
        Size::EuSmall => "small EU eggs (S)".to_owned(),
        Size::EuMedium => "medium EU eggs (M)".to_owned(),
        Size::EuLarge => "large EU eggs (L)".to_owned(),
        Size::EuExtraLarge => "very large EU eggs (XL)".to_owned(),
        size => format!("{size} US eggs"),
    };
    let air = match found.household.altitude_metres.map(f64::round) {
        Some(metres) if metres >= 1.0 => format!("{metres:.0} m above sea level"),
        Some(metres) if metres <= -1.0 => format!("{:.0} m below sea level", -metres),
        _ => "sea level".to_owned(),
    };
    format!("{measures}, {eggs}, {}, {air}", found.household.jurisdiction.law())
}

#[cfg(test)]
mod tests {
    use evencrumb_pantry::weigh::Kitchen;

    use super::super::{Household, Jurisdiction};
    use super::*;

    #[test]
    fn ok_the_plain_kitchen() {
        assert_eq!(in_words(&Found::default()), "US customary cups and spoons, large US eggs, US law, sea level");
    }

    #[test]
    fn ok_another_kitchen() {
        let kitchen = Kitchen { custom: Custom::Metric, eggs: Size::EuMedium };
        let household =
            Household { altitude_metres: Some(1609.3), jurisdiction: Jurisdiction::Eu, ..Household::default() };
        assert_eq!(
            in_words(&Found { kitchen, household, ..Found::default() }),
            "metric cups and spoons, medium EU eggs (M), EU law, 1609 m above sea level"
        );
    }
}
