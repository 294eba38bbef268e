//! "Remaining sugar, about 1/2 cup": a line that uses what an earlier line brought.

use std::collections::HashMap;

use evencrumb_manuscript::{FoodId, Query, QueryKind, Weight};

use crate::line::WeighedLine;

/// A line uses what is left of an earlier one.
pub static ALREADY_COUNTED: QueryKind = QueryKind { name: "already-counted", weight: Weight::Note };
/// A line uses more than was left of an earlier one.
pub static MORE_THAN_REMAINS: QueryKind = QueryKind { name: "more-than-remains", weight: Weight::Look };

/// What became of a line that speaks of something remaining.
#[derive(Clone, Debug)]
pub struct Settled {
    /// Component and line.
    pub at: (usize, usize),
    /// What to say; its place is left to the caller.
    pub query: Query,
    /// Whether the line adds nothing, because how much it takes is not said or where it comes from is not known.
    pub adds_nothing: bool,
}

/// Moves grams from the lines that brought a food to the lines that use what remains of it. Lines that name something made
/// have been settled before and are passed over.
pub fn settle(lines: &mut [Vec<WeighedLine>]) -> Vec<Settled> {
    let mut settled = Vec::new();
    // The first line that brought a food, with a weight.
    let mut sources: HashMap<FoodId, (usize, usize)> = HashMap::new();
    for part in 0..lines.len() {
        for nth in 0..lines[part].len() {
            let line = &lines[part][nth];
            let first = line.foods.first();
            let food = first.and_then(|one| one.item.food);
            if !speaks_of_earlier(line) {
                if let Some(food) = food.filter(|_| first.is_some_and(|one| one.weighed.grams.is_some())) {
                    sources.entry(food).or_insert((part, nth));
                }
            } else if !line.foods.iter().any(|one| one.made.is_some() || one.item.reference) {
                let source = food.and_then(|food| sources.get(&food).copied());
                settled.push(move_grams(lines, (part, nth), source));
            }
        }
    }
    settled
}

/// Settles the line `at`, which takes what remains of the line `source`.
fn move_grams(lines: &mut [Vec<WeighedLine>], at: (usize, usize), source: Option<(usize, usize)>) -> Settled {
    let line = &lines[at.0][at.1];
    let text = line.text.trim().to_owned();
    let grams = line.foods.first().and_then(|one| one.weighed.grams.as_ref()).map(evencrumb_measure::Estimate::best);
    let measured = line.foods.first().is_some_and(|one| !one.item.amounts.is_empty());
    let nothing = |message: String, mend: &str| Settled {
        at,
        query: Query::new(&ALREADY_COUNTED, 0..0, message, mend),
        adds_nothing: true,
    };
    let Some((part, nth)) = source else {
        return nothing(
            format!("“{text}” was made or listed above; its weight is shown and not added again."),
            "Nothing to do, unless it is a new ingredient: then leave out “remaining” or “from above”.",
        );
    };
    let Some(wanted) = grams.filter(|_| measured) else {
        return nothing(
            format!("“{text}” is what is left of “{}”; it is counted there.", lines[part][nth].text.trim()),
            "Write how much it is (“remaining 1/2 cup sugar”), and it is counted where it is used.",
        );
    };
    let source = &mut lines[part][nth];
    let words = source.text.trim().to_owned();
    let Some(one) = source.foods.first_mut() else { return nothing(String::new(), "") };
    let whole = one.weighed.grams.as_ref().map_or(0.0, evencrumb_measure::Estimate::best);
    let left = whole * one.here;
    one.here = if whole > 0.0 { ((left - wanted) / whole).max(0.0) } else { 1.0 };
    let query = if wanted > left * 1.05 {
        Query::new(
            &MORE_THAN_REMAINS,
            0..0,
            format!(
                "“{text}” asks for {wanted:.0} g, and {left:.0} g are left of “{words}”; what it asks for was taken."
            ),
            "Change one of the two amounts.",
        )
    } else {
        Query::new(
            &ALREADY_COUNTED,
            0..0,
            format!("“{text}” is a part of “{words}”; {wanted:.0} g are counted here and no longer there."),
            "Nothing to do, unless it is a new ingredient: then leave out “remaining” or “from above”.",
        )
    };
    Settled { at, query, adds_nothing: false }
}

/// Whether a line speaks of what an earlier line or component already brought: "remaining sugar", "pear puree, from above".
pub fn speaks_of_earlier(line: &WeighedLine) -> bool {
    let words = line.text.to_lowercase();
    let above = [
        "from above",
        "(above)",
        "see above",
        "recipe above",
        "made above",
        "as above",
        "from earlier",
        "reserved from",
    ];
    line.read.remaining || above.iter().any(|said| words.contains(said))
}
