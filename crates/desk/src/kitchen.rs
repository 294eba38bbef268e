//! What is taken where no kitchen says otherwise, in words.

use evencrumb_measure::Custom;
use evencrumb_pantry::row::Size;
use evencrumb_pantry::weigh::Kitchen;

/// Whose measures, eggs, law and air a figure leans on, as `US customary cups and spoons, large US eggs, US law, sea
/// level`.
///
/// Law and altitude are those of the program until a kitchen can name its own; they are said all the same, because a
/// reader elsewhere would not guess them.
pub fn in_words(kitchen: Kitchen) -> String {
    let measures = match kitchen.custom {
        Custom::Us => "US customary cups and spoons",
        Custom::Metric => "metric cups and spoons",
        Custom::Uk => "UK spoons and pints",
        Custom::Australian => "Australian cups and spoons",
    };
    let eggs = match kitchen.eggs {
        Size::EuSmall => "small EU eggs (S)".to_owned(),
        Size::EuMedium => "medium EU eggs (M)".to_owned(),
        Size::EuLarge => "large EU eggs (L)".to_owned(),
        Size::EuExtraLarge => "very large EU eggs (XL)".to_owned(),
        size => format!("{size} US eggs"),
    };
    format!("{measures}, {eggs}, US law, sea level")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_the_plain_kitchen() {
        assert_eq!(in_words(Kitchen::default()), "US customary cups and spoons, large US eggs, US law, sea level");
    }

    #[test]
    fn ok_another_kitchen() {
        let kitchen = Kitchen { custom: Custom::Metric, eggs: Size::EuMedium };
        assert_eq!(in_words(kitchen), "metric cups and spoons, medium EU eggs (M), US law, sea level");
    }
}
