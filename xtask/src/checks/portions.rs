//! Our weights of cups, spoons and pieces against the portions of SR28, where ours do not come from there.

use evencrumb_measure::{Range, Unit};
use evencrumb_pantry::row::{Cited, Food, Size, Way};
use evencrumb_pantry::{Pantry, Portion, Table};

use super::row::{Row, Seen, Source};
use super::{Given, Theme};

const SR28: Source = Source {
    title: "USDA National Nutrient Database for Standard Reference, Release 28: household portions",
    seen: Seen::Text,
};
const ROWS: Source = Source { title: "our rows, counted by what they lean on", seen: Seen::Computed };

/// The household volumes in a US cup by their words in the table.
const IN_A_CUP: [(&str, f64); 4] = [("cup", 1.0), ("tbsp", 16.0), ("tsp", 48.0), ("fl oz", 8.0)];

/// From the middle of a normal spread to the point that one in twenty lies beyond.
const ONE_IN_TWENTY: f64 = 1.645;

pub(super) fn theme(_: &Given) -> anyhow::Result<Theme> {
    let (mut copied, mut printed, mut unprinted) = (0, 0, 0);
    let (mut held, mut compared) = (0, 0);
    let (mut wide, mut deviations) = (0, 0);
    for food in Pantry::ours().foods() {
        for weight in weights(food) {
            let from = &weight.cited.from;
            match (from.source.id == "sr28", from.source.printed) {
                (true, _) => copied += 1,
                (false, true) => printed += 1,
                (false, false) => unprinted += 1,
            }
            if from.source.id == "sr28" {
                if let Some((down, up)) = portion_of(food, weight.cited).and_then(spread) {
                    deviations += 1;
                    let range = weight.cited.range;
                    let share = |grams: f64| grams / range.best() + 1e-9;
                    wide += usize::from(
                        share(range.best() - range.low()) >= down && share(range.high() - range.best()) >= up,
                    );
                }
            } else if food.stand_in.is_none()
                && let Some(grams) = table_grams(food, &weight)
            {
                compared += 1;
                held += usize::from(weight.cited.range.holds(grams));
            }
        }
    }
    let count = |what: &str, got: usize, allowed: &str| Row {
        what: what.to_owned(),
        source: ROWS,
        expected: "counted".to_owned(),
        got: got.to_string(),
        allowed: allowed.to_owned(),
        is_ok: true,
        falls_short: false,
    };
    let rows = vec![
        count("weights of a cup, spoon or piece copied from SR28", copied, "no check of them"),
        count("weights from another printed source (egg classes, definitions)", printed, "see Eggs and Units"),
        count("weights without a printed source (common practice, memory)", unprinted, "compared below"),
        Row::share(
            "weights not from SR28 whose range holds the portion SR28 gives the same food",
            SR28,
            held,
            compared,
            None,
            0.40,
        ),
        Row::share(
            "ranges of weights from SR28 at least as wide as nine in ten of its printed spread",
            SR28,
            wide,
            deviations,
            None,
            0.50,
        ),
    ];
    Ok(Theme {
        title: "SR28's portions",
        about: "More than half of our weights are copied from this table. \
                A copy is no check, so those are only counted (`cargo xtask pantry` compares each with the table). \
                What can be checked: weights of ours that come from elsewhere, against the portion that SR28 gives the same food filled in the same way; \
                and our ranges, which are our own, against the standard deviations that SR28 prints for some portions (five weighed or more; nine in ten lie within 1.645 of them). \
                Neither is a fair test of a claim of 90 %: where we have another weight than SR28 gives, the table's portion is mostly of another form (whole berries beside a purée, table salt beside flakes); \
                and many of the printed deviations are of things as sold, which differ more than one kitchen's cups do. \
                So both are given as they were measured, and may not get worse unseen.".to_owned(),
        rows,
    })
}

/// One weight of a food, with what it is of.
struct Weight<'f> {
    cited: &'f Cited,
    of: Of,
}

enum Of {
    /// A cup filled so; whether it is the one used when a line names none.
    Cup(Option<Way>, bool),
    Teaspoon,
    Piece(Unit, Option<Size>),
}

fn weights(food: &Food) -> Vec<Weight<'_>> {
    let cups = food.cup.iter().enumerate().map(|(at, cup)| Weight { cited: &cup.grams, of: Of::Cup(cup.way, at == 0) });
    let spoon = food.teaspoon.iter().map(|cited| Weight { cited, of: Of::Teaspoon });
    let pieces = food.piece.iter().map(|piece| Weight { cited: &piece.grams, of: Of::Piece(piece.unit, piece.size) });
    cups.chain(spoon).chain(pieces).collect()
}

/// What the food's own row of the table says of the same measure; `None` when it says nothing of it.
fn table_grams(food: &Food, weight: &Weight<'_>) -> Option<f64> {
    let row = Table::embedded().row(food.table?)?;
    row.portions().iter().find_map(|portion| {
        let (unit, tail) = portion.text.split_once(", ").map_or((portion.text.as_str(), None), |(a, b)| (a, Some(b)));
        let each = portion.grams / portion.amount;
        let in_a_cup = IN_A_CUP.iter().find(|(word, _)| *word == unit).map(|(_, count)| *count);
        match (&weight.of, in_a_cup) {
            (Of::Cup(way, first), Some(count)) => {
                let same_way = match tail {
                    Some(tail) => way.is_some_and(|way| way.name() == tail),
                    // "cup" alone is the cup that is meant when nothing is said.
                    None => *first,
                };
                same_way.then_some(each * count)
            }
            (Of::Teaspoon, Some(count)) if tail.is_none() => Some(each * count / 48.0),
            (Of::Piece(Unit::Piece, Some(size)), None) => (portion.text == size.name()).then_some(each),
            (Of::Piece(unit, None), None) => (portion.text == unit.name()).then_some(each),
            _ => None,
        }
    })
}

/// The portion of the table that a weight was copied from.
fn portion_of(food: &Food, cited: &Cited) -> Option<&'static Portion> {
    let row = Table::embedded().row(cited.from.row.or(food.table)?)?;
    let words = cited.from.portion.as_deref()?;
    row.portions().iter().find(|portion| portion.text == words)
}

/// How far nine in ten of the weighed portions reach below and above their mean, as shares of it; `None` where the
/// table prints no deviation or weighed too few to have one.
fn spread(portion: &Portion) -> Option<(f64, f64)> {
    let deviation = portion.deviation.filter(|it| *it > 0.0)?;
    portion.data_points.filter(|points| *points >= 5)?;
    let reach = ONE_IN_TWENTY * deviation / portion.grams;
    Range::new(0.0, reach, 1.0).map(|_| (reach, reach))
}
