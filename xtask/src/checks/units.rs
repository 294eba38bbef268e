//! Sizes of units against laws and standards.

use evencrumb_measure::{Custom, Pan, Unit};

use super::row::{Allowed, Row, Seen, Source};
use super::{Given, Theme};

const US: Source = Source {
    title: "NIST Handbook 44, Appendix C: the gallon is 231 cubic inches, the inch 25.4 mm",
    seen: Seen::Memory,
};
const BY_ARITHMETIC: Source = Source { title: "its share of the gallon of 231 cubic inches", seen: Seen::Computed };
const IMPERIAL: Source =
    Source { title: "UK Weights and Measures Act 1985, schedule 1: the gallon is 4.54609 litres", seen: Seen::Memory };
const POUND: Source =
    Source { title: "UK Weights and Measures Act 1985, schedule 1: pound = 0.453 592 37 kilogram", seen: Seen::Text };
const POUND_PARTS: Source = Source { title: "the same schedule: ounce = 1/16 pound", seen: Seen::Text };
const STONE: Source = Source { title: "14 pounds", seen: Seen::Computed };
const IMPERIAL_PARTS: Source = Source { title: "its share of the imperial gallon", seen: Seen::Computed };
const METRIC: Source = Source {
    title: "metric kitchen measures as Australian cook books print them: cup 250, teaspoon 5 ml",
    seen: Seen::Copy,
};
const AUSTRALIAN: Source = Source {
    title: "Australian kitchen measures as Australian cook books print them: tablespoon 20 ml",
    seen: Seen::Copy,
};
const SPOONS: Source = Source { title: "UK spoon sets of today: 15 and 5 ml", seen: Seen::Memory };
const CUSTOMARY: Source = Source { title: "US Census, Statistical Abstract 1999, appendix IV", seen: Seen::Copy };

pub(super) fn theme(_: &Given) -> anyhow::Result<Theme> {
    let gallon = 231.0 * 2.54_f64.powi(3);
    let mut rows = vec![
        // Read off a written pan, for no unit of ours is a length.
        Row::near("inch, in a written pan size", US, "mm", 25.4, inch(), Allowed::Nothing),
        Row::near("US gallon", US, "ml", gallon, ml(Unit::Gallon, Custom::Us), Allowed::Nothing),
    ];
    for (unit, in_a_gallon) in [
        (Unit::Quart, 4.0),
        (Unit::Pint, 8.0),
        (Unit::Cup, 16.0),
        (Unit::Gill, 32.0),
        (Unit::FluidOunce, 128.0),
        (Unit::Tablespoon, 256.0),
        (Unit::Teaspoon, 768.0),
    ] {
        let what = format!("US {unit}");
        rows.push(Row::near(&what, BY_ARITHMETIC, "ml", gallon / in_a_gallon, ml(unit, Custom::Us), Allowed::Nothing));
    }
    // Printed with two places there (millilitres, and litres for the larger), so ours may differ by half of the last.
    for (unit, printed) in [(Unit::FluidOunce, 29.57), (Unit::Cup, 240.0), (Unit::Pint, 470.0), (Unit::Quart, 950.0)] {
        let allowed = if unit == Unit::FluidOunce { 0.005 } else { 5.0 };
        let what = format!("US {unit}, as printed");
        rows.push(Row::near(&what, CUSTOMARY, "ml", printed, ml(unit, Custom::Us), Allowed::Amount(allowed)));
    }
    rows.push(Row::near("imperial gallon", IMPERIAL, "ml", 4546.09, ml(Unit::Gallon, Custom::Uk), Allowed::Nothing));
    for (unit, in_a_gallon) in [(Unit::Quart, 4.0), (Unit::Pint, 8.0), (Unit::Gill, 32.0), (Unit::FluidOunce, 160.0)] {
        let what = format!("imperial {unit}");
        let expected = 4546.09 / in_a_gallon;
        rows.push(Row::near(&what, IMPERIAL_PARTS, "ml", expected, ml(unit, Custom::Uk), Allowed::Nothing));
    }
    for (unit, custom, source, expected) in [
        (Unit::Cup, Custom::Metric, METRIC, 250.0),
        (Unit::Teaspoon, Custom::Metric, METRIC, 5.0),
        (Unit::Tablespoon, Custom::Metric, SPOONS, 15.0),
        (Unit::Tablespoon, Custom::Uk, SPOONS, 15.0),
        (Unit::Teaspoon, Custom::Uk, SPOONS, 5.0),
        (Unit::Cup, Custom::Australian, METRIC, 250.0),
        (Unit::Tablespoon, Custom::Australian, AUSTRALIAN, 20.0),
        (Unit::Teaspoon, Custom::Australian, METRIC, 5.0),
    ] {
        let whose = match custom {
            Custom::Us => "US",
            Custom::Metric => "metric",
            Custom::Uk => "UK",
            Custom::Australian => "Australian",
        };
        rows.push(Row::near(&format!("{whose} {unit}"), source, "ml", expected, ml(unit, custom), Allowed::Nothing));
    }
    rows.push(Row::near("pound", POUND, "g", 453.592_37, grams(Unit::Pound), Allowed::Nothing));
    rows.push(Row::near("ounce", POUND_PARTS, "g", 453.592_37 / 16.0, grams(Unit::Ounce), Allowed::Nothing));
    rows.push(Row::near("stone", STONE, "g", 14.0 * 453.592_37, grams(Unit::Stone), Allowed::Nothing));
    Ok(Theme {
        title: "Units",
        about: "What one of each measure holds or weighs, against the definitions. \
                These are exact: nothing but the last digits of the arithmetic may differ, except where a table prints rounded figures. \
                No law was found that sizes the metric cup and spoon or the Australian tablespoon; the cook books that print them agree.".to_owned(),
        rows,
    })
}

fn ml(unit: Unit, custom: Custom) -> f64 {
    unit.millilitres(custom).map_or(f64::NAN, |range| range.best())
}

fn grams(unit: Unit) -> f64 {
    unit.grams().unwrap_or(f64::NAN)
}

fn inch() -> f64 {
    let read = Pan::written("Pour into a 10-inch round pan.");
    read.first().and_then(|read| read.size).map_or(f64::NAN, |(length, _)| length / 10.0)
}
