//! Amounts that nobody measures: to taste, for greasing, for dusting. All ranges: common practice, no source.

use evencrumb_measure::{Estimate, Influence, Range};

use super::{Basis, Weighing};
use crate::row::Role;

/// Grams of a food named without an amount, by what it is for.
pub(super) fn grams(weighing: &Weighing<'_>, purpose: Option<&str>) -> Option<(Estimate, Vec<Basis>)> {
    let food = weighing.pantry.food(weighing.item.food?);
    let is = |role: Role| food.roles.first() == Some(&role);
    let (range, words) = match purpose.unwrap_or("taste") {
        "taste" | "finishing" | "serving" if is(Role::Salt) => {
            (Range::new(0.5, 2.0, 6.0), "salt to taste, for a whole bake")
        }
        "taste" if is(Role::Spice) || is(Role::Herb) => (Range::new(0.1, 0.5, 2.0), "a spice to taste"),
        "greasing" => (Range::new(4.0, 9.0, 18.0), "what greases one or two pans"),
        "dusting" => (Range::new(4.0, 12.0, 30.0), "what dusts a pan or a board"),
        "brushing" => (Range::new(5.0, 15.0, 30.0), "what glazes one bake"),
        _ => return None,
    };
    let grams = Estimate::of(range?, Influence::named(&format!("{words}, {}", food.name)));
    Some((grams, Basis::of("common-practice", words).into_iter().collect()))
}
