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
const LABELS: Source =
    Source { title: "16 CFR 500.19: conversion factors for labels, to six figures, the inch exact", seen: Seen::Copy };
const CODES: Source = Source { title: "Unified Code for Units of Measure, to four places", seen: Seen::Copy };

pub(super) fn theme(_: &Given) -> anyhow::Result<Theme> {
    let gallon = 231.0 * 2.54_f64.powi(3);
    let mut rows = vec![
        // Read off a written pan, for no unit of ours is a length.
        Row::near("inch, in a written pan size", LABELS, "mm", 25.4, inch(), Allowed::Nothing),
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
    // Rounded there; ours may differ by one of the last digit, since the pint there was rounded twice (473.1765).
    for (unit, printed, last_digit) in [
        (Unit::FluidOunce, 29.5735, 0.0001),
        (Unit::Pint, 473.177, 0.001),
        (Unit::Quart, 946.353, 0.001),
        (Unit::Gallon, 3785.41, 0.01),
    ] {
        let got = ml(unit, Custom::Us);
        rows.push(Row::near(
            &format!("US {unit}, as printed"),
            LABELS,
            "ml",
            printed,
            got,
            Allowed::Amount(last_digit),
        ));
    }
    for (unit, printed) in [(Unit::Cup, 236.5882), (Unit::Tablespoon, 14.7868), (Unit::Teaspoon, 4.9289)] {
        let got = ml(unit, Custom::Us);
        rows.push(Row::near(&format!("US {unit}, as printed"), CODES, "ml", printed, got, Allowed::Amount(0.0001)));
    }
    for (unit, printed, last_digit) in [(Unit::Ounce, 28.3495, 0.0001), (Unit::Pound, 453.592, 0.001)] {
        rows.push(Row::near(
            &format!("{unit}, as printed"),
            LABELS,
            "g",
            printed,
            grams(unit),
            Allowed::Amount(last_digit),
        ));
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
