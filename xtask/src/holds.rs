//! What must hold of any text: nothing panics, places lie in the text, ranges are in order, the answer is always the same.
//!
//! These functions panic with what does not hold, as a fuzzer expects it.

use std::fmt::Debug;

use evencrumb_manuscript::{line as lines, read, sound};
use evencrumb_measure::Estimate;
use evencrumb_pantry::weigh::Kitchen;
use evencrumb_pantry::{Nutrient, Pantry};
use evencrumb_sheet::line::{WeighedLine, weigh};
use evencrumb_sheet::sheet;

/// One line, read and weighed.
pub fn line(text: &str) {
    let pantry = Pantry::ours();
    let read = lines::read(text, pantry);
    sound::line(text, &read).unwrap_or_else(|wrong| panic!("{wrong}, in the line {text:?}"));
    let weighed = weigh(text, pantry, Kitchen::default());
    figures(&weighed);
    for query in &weighed.queries {
        assert!(text.get(query.place.clone()).is_some(), "{query:?} lies outside of {text:?}");
    }
    same(&weighed, &weigh(text, pantry, Kitchen::default()), text);
}

/// One manuscript, read, weighed and added up.
pub fn manuscript(text: &str) {
    let pantry = Pantry::ours();
    let manuscript = read(text, pantry);
    sound::manuscript(text, &manuscript).unwrap_or_else(|wrong| panic!("{wrong}, in the manuscript {text:?}"));
    let whole = sheet(text, &manuscript, pantry, Kitchen::default());
    for line in whole.components.iter().flat_map(|component| &component.lines) {
        figures(&line.weighed);
        assert!(text.get(line.place.clone()).is_some(), "a line lies outside of {text:?}");
    }
    for placed in &whole.queries {
        assert!(text.get(placed.query.place.clone()).is_some(), "{placed:?} lies outside of {text:?}");
    }
    let totals = whole.components.iter().map(|component| &component.total).chain([&whole.total]);
    for total in totals {
        in_order(&total.grams, text);
        Nutrient::ALL.iter().for_each(|nutrient| in_order(&total.nutrient(*nutrient).amount, text));
    }
    let again = read(text, pantry);
    same(&manuscript, &again, text);
    same(&whole, &sheet(text, &again, pantry, Kitchen::default()), text);
}

fn figures(line: &WeighedLine) {
    let grams = line.foods.iter().chain(&line.alternatives).filter_map(|one| one.weighed.grams.as_ref());
    grams.for_each(|grams| in_order(grams, &line.text));
}

fn in_order(figure: &Estimate, text: &str) {
    let range = figure.range();
    let all = [range.low(), range.best(), range.high()];
    assert!(all.iter().all(|value| value.is_finite()), "{range:?} is no number, in {text:?}");
    assert!(all.is_sorted(), "{range:?} is out of order, in {text:?}");
}

fn same<T: Debug>(once: &T, again: &T, text: &str) {
    assert!(format!("{once:?}") == format!("{again:?}"), "two answers to {text:?}");
}
