//! The author's own weighings: what her cup of a food weighs, and how far the next one may lie from that.
//!
//! A range of ours says where nine kitchens in ten lie. Hers says where nine of ten of her own fillings lie, so it is
//! the prediction interval for one more filling: mean ± t·s·√(1 + 1/n), with s from her n weighings and Student's t for
//! 90 % and n − 1 degrees of freedom (JCGM 100:2008, G.3 and table G.2, from memory; the mean of n and the one filling
//! to come each add their doubt). Two or three weighings say little of their own scatter, and that formula would then
//! give more doubt than all kitchens together have, hers among them. So the usual spread of the food is the most that
//! is taken, as a share. It is never less than [`LEAST`], and always holds every weighing. One weighing says nothing of
//! scatter: half the usual spread is taken, at least [`LEAST_OF_ONE`] (both common practice, no source).
//!
//! A mean believes every number, so one that doesn't belong to the others is left out before, and said (see
//! [`judge::slips`]).
//!
//! Three teaspoons are a tablespoon: what she weighed with one spoon counts for both, as long as the other was not
//! weighed, too.

use std::collections::BTreeMap;

use evencrumb_manuscript::{FoodId, Weight};
use evencrumb_measure::{Range, Source, Unit};

use super::judge::{self, shown};
use super::measure::{Measured, measured};
use super::{Reading, Remark};
use crate::pantry::Pantry;
use crate::row::{Citation, Cited, CupWeight, Fault, Food, PieceWeight, Place, Size, UNSAID, Value, Way};
use crate::weigh::{self, Kitchen, spread};

/// The least doubt of a filling, as a share: what a scale in whole grams and a level cup allow.
const LEAST: f64 = 0.03;
/// The least doubt after a single weighing, as a share.
const LEAST_OF_ONE: f64 = 0.05;

/// Teaspoons that fill a cup, by the definition of both.
const TEASPOONS_IN_A_CUP: f64 = 48.0;

/// What is weighed: the place in a food's row that the figure takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Slot {
    /// A US teaspoon.
    Teaspoon,
    /// A US cup, filled in a way or as she always does.
    Cup(Option<Way>),
    /// One of what is counted.
    Piece(Unit, Option<Size>),
}

/// One row of the file.
struct Row {
    food: FoodId,
    /// What she calls it.
    food_name: String,
    slot: Slot,
    /// One for each time.
    weighings: Vec<Weighing>,
    /// Whether she said that they are so, however far apart.
    is_sure: bool,
    /// What the food's measure weighs without her, for the slot.
    usual: Option<Range>,
    /// The same as one kitchen fills it, which is what her weighings narrow.
    of_one_kitchen: Option<Range>,
    /// Whose measure, as `my steel cup`.
    whose: String,
    /// As it was written: `1/2 cup`.
    measure: String,
    /// How many of the unit that was.
    number: f64,
    /// What of the slot the measure holds.
    goes_in: f64,
    /// Whether the measure is a spoon, and so says what every spoon holds.
    is_spoon: bool,
    place: Place,
}

/// One number of a row.
struct Weighing {
    /// Grams of the measure, as written.
    grams: f64,
    place: Place,
}

impl Row {
    /// As `my steel cup, 3 weighings: 96, 101, 93 g`.
    fn words(&self) -> String {
        let shown: Vec<String> = self.weighings.iter().map(|one| one.grams.to_string()).collect();
        let times = if shown.len() == 1 { "1 weighing".to_owned() } else { format!("{} weighings", shown.len()) };
        let is_one = (self.number - 1.0).abs() < f64::EPSILON;
        let of = if is_one { String::new() } else { format!(" of {}", self.measure) };
        format!("{}, {times}{of}: {} g", self.whose, shown.join(", "))
    }

    /// Grams of what the slot holds, one for each weighing.
    fn in_slot(&self) -> impl Iterator<Item = f64> {
        self.weighings.iter().map(|one| one.grams / self.goes_in)
    }
}

impl Reading {
    /// Takes in all weighings. Those of one food filled one way make one figure.
    pub(super) fn weighings(&mut self, rows: &[&Value<'_>]) {
        let mut by_slot: BTreeMap<(FoodId, Slot), Vec<Row>> = BTreeMap::new();
        for row in rows.iter().filter_map(|row| self.row(row)) {
            by_slot.entry((row.food, row.slot)).or_default().push(row);
        }
        for ((id, slot), mut rows) in by_slot {
            self.without_slips(&mut rows);
            if !rows.is_empty() {
                self.take_in(id, slot, &rows);
            }
        }
    }

    /// Leaves out what is too far from the other weighings of the measure to be so, and tells it.
    fn without_slips(&mut self, rows: &mut Vec<Row>) {
        if rows.iter().any(|row| row.is_sure) {
            return;
        }
        let values: Vec<f64> = rows.iter().flat_map(Row::in_slot).collect();
        let usual = rows.iter().find_map(|row| row.usual).map(Range::best);
        let mut slips = judge::slips(&values, usual).into_iter();
        let others = if values.len() == 1 { "usually weighs" } else { "should weigh by the other weighings" };
        for row in rows.iter_mut() {
            let (food, measure, goes_in) = (&row.food_name, &row.measure, row.goes_in);
            let (told, remarks) = (&mut self.reader, &mut self.remarks);
            row.weighings.retain(|one| {
                let Some(slip) = slips.next().flatten() else { return true };
                let near = slip.near * goes_in;
                let places = usize::from(near < 20.0);
                let what =
                    format!("{} g is far from the {near:.places$} g that {measure} of it {others}", shown(one.grams));
                let mend = "correct the number, or write sure = true in its row if it is so; it was not counted";
                let (place, food, mend) = (one.place.clone(), Some(food.clone()), mend.to_owned());
                if slip.impossible {
                    told.food = food;
                    told.fault(place, what, mend);
                } else {
                    remarks.push(Remark { weight: Weight::Look, fault: Fault { place, food, what, mend } });
                }
                false
            });
        }
        rows.retain(|row| !row.weighings.is_empty());
    }

    fn row(&mut self, row: &Value<'_>) -> Option<Row> {
        self.reader.food = None;
        let mut fields = self.reader.fields(row, "a weighing")?;
        let place = self.reader.place(fields.at);
        let mut words = |key: &str| fields.take(key).and_then(|value| self.reader.text(value, key));
        let (name, measure, whose) = (words("food"), words("measure"), words("whose"));
        self.reader.food.clone_from(&name);
        let grams = fields.take("grams");
        let is_half = grams.is_some_and(|grams| self.has_no_end(grams));
        let mut weighings = grams.filter(|_| !is_half).map(|value| self.grams(value)).unwrap_or_default();
        let sure = fields.take("sure");
        let is_sure = sure.and_then(|value| self.reader.yes_or_no(value, "sure")).unwrap_or(false);
        self.reader.refuse_the_rest(fields, "food, measure, grams, whose, sure");
        let (Some(name), Some(measure)) = (name, measure) else {
            let mend = "write food = \"oat flour\", measure = \"1 cup\" and grams = [96, 101, 93]; it was passed over";
            self.reader.fault(place, "a weighing needs a food and a measure".to_owned(), mend.to_owned());
            return None;
        };
        if weighings.is_empty() {
            let what =
                if is_half { "its list of grams has no end, so some may be missing" } else { "no grams were read" };
            let mend = "write grams = [96, 101, 93], one number for each time; it was passed over".to_owned();
            self.reader.fault(place, what.to_owned(), mend);
            return None;
        }
        if self.pantry.named(&name).is_none() {
            let mend = self.nearest(&name, "the weighing was passed over");
            self.reader.fault(place, format!("“{name}” is no food known here"), mend);
            return None;
        }
        let Measured { item, number, slot, factor, millilitres, is_spoon } =
            match measured(&name, &measure, &self.pantry, self.kitchen) {
                Ok(measured) => measured,
                Err(what) => {
                    let mend =
                        "write \"1 cup\", \"2 tablespoons\", \"1 packed cup\" or \"1 piece\", say; it was passed over";
                    self.reader.fault(place, what, mend.to_owned());
                    return None;
                }
            };
        weighings.retain(|one| match judge::no_kitchen_weighs(one.grams, millilitres) {
            Some(what) => {
                self.reader.fault(one.place.clone(), what, "correct the number; it was not counted".to_owned());
                false
            }
            None => true,
        });
        if weighings.is_empty() {
            return None;
        }
        let usual = weigh::weigh(&item, None, &self.pantry, self.kitchen).grams;
        Some(Row {
            food: item.food?,
            food_name: name,
            slot,
            weighings,
            is_sure,
            of_one_kitchen: usual.as_ref().map(|usual| spread::without_others(usual).range().times(factor / number)),
            usual: usual.map(|usual| usual.range().times(factor / number)),
            whose: whose.unwrap_or_else(|| "your own measure".to_owned()),
            measure,
            number,
            goes_in: number / factor,
            is_spoon,
            place,
        })
    }

    /// Whether a list was begun and not closed, as at the end of a file that was written by half.
    fn has_no_end(&self, value: &Value<'_>) -> bool {
        let written = self.text.get(value.span()).unwrap_or_default();
        value.get_ref().as_array().is_some() && !written.trim_end().ends_with(']')
    }

    fn grams(&mut self, value: &Value<'_>) -> Vec<Weighing> {
        let one = |reading: &mut Reading, value: &Value<'_>| {
            let grams = reading.reader.number(value, "grams")?;
            if grams <= 0.0 {
                reading.reader.fault_at(value, "a weighing of 0 g".to_owned(), "take it out; it was not counted");
                return None;
            }
            Some(Weighing { grams, place: reading.reader.place(value.span().start) })
        };
        match value.get_ref().as_array() {
            Some(values) => values.iter().filter_map(|value| one(self, value)).collect(),
            None => one(self, value).into_iter().collect(),
        }
    }

    fn take_in(&mut self, id: FoodId, slot: Slot, rows: &[Row]) {
        let grams: Vec<f64> = rows.iter().flat_map(Row::in_slot).collect();
        let usual = rows.iter().find_map(|row| row.usual);
        let of_one_kitchen = rows.iter().find_map(|row| row.of_one_kitchen);
        let (Some(range), Some(first), Some(source)) =
            (range(&grams, of_one_kitchen), rows.first(), Source::by_id("own"))
        else {
            return;
        };
        // With what her other measures of it weigh.
        let mut food = self.pantry.food(self.pantry.known_here(id)).clone();
        let words: Vec<String> = rows.iter().map(Row::words).collect();
        let words = words.join("; ");
        if let Some(usual) = usual.filter(|usual| !usual.holds(range.best())) {
            let [taken, low, high] = [range.best(), usual.low(), usual.high()].map(|grams| grams * first.goes_in);
            let what =
                format!("{} of it weighs {taken:.0} g ({words}), but {low:.0} to {high:.0} g are usual", first.measure);
            let mend = "your weighing was taken; look whether food and measure are right and the scale stood at zero";
            self.remark(Weight::Look, first.place.clone(), Some(food.name.clone()), what, mend.to_owned());
        }
        food.own.push(format!("your weighing counts: {words} ({})", first.place));
        let from = Citation { source, row: None, portion: None, words: Some(words) };
        let grams = Cited { range, from, place: first.place.clone() };
        // A teaspoon that she weighed was put in before: [`Slot`]s come in that order.
        let weighed_a_teaspoon = food.teaspoon.as_ref().is_some_and(|spoon| spoon.from.source.id == "own");
        if slot == Slot::Cup(None) && first.is_spoon && food.teaspoon.is_some() && !weighed_a_teaspoon {
            food.teaspoon = Some(Cited { range: grams.range.times(TEASPOONS_IN_A_CUP.recip()), ..grams.clone() });
        }
        fill(&mut food, slot, grams);
        self.pantry.put_instead(id, food);
    }
}

/// Whether this much of a food can be filled and weighed, so that a weighing of it would be read.
///
/// # Errors
/// Says what is wrong with the measure.
pub fn is_measure(food: &str, measure: &str, pantry: &Pantry, kitchen: Kitchen) -> Result<(), String> {
    measured(food, measure, pantry, kitchen).map(|_| ())
}

/// Puts the figure into the row. What she did not say how to fill is what a line means that doesn't say it either, so
/// it comes first; the ways of ours stay behind it for lines that name one.
fn fill(food: &mut Food, slot: Slot, grams: Cited) {
    match slot {
        Slot::Teaspoon => food.teaspoon = Some(grams),
        Slot::Cup(way) => {
            let known = food.cup.iter().position(|cup| cup.way == way);
            put(&mut food.cup, known, way.is_some(), CupWeight { way, grams, dense: None });
        }
        Slot::Piece(unit, size) => {
            let known = food.piece.iter().position(|piece| (piece.unit, piece.size) == (unit, size));
            put(&mut food.piece, known, size.is_some(), PieceWeight { unit, size, grams });
        }
    }
}

/// In the place of what is known, else last where it is named exactly, else first.
fn put<T>(values: &mut Vec<T>, known: Option<usize>, exactly: bool, value: T) {
    match known {
        Some(at) => values[at] = value,
        None if exactly => values.push(value),
        None => values.insert(0, value),
    }
}

/// The figure of some weighings, `usual` being what one kitchen has without them: see the head of this file.
fn range(grams: &[f64], usual: Option<Range>) -> Option<Range> {
    #[expect(clippy::cast_precision_loss, reason = "nobody weighs a food so often")]
    let n = grams.len() as f64;
    let mean = grams.iter().sum::<f64>() / n;
    let most = usual.map_or(UNSAID, Range::spread);
    let share = if grams.len() == 1 {
        (most / 2.0).max(LEAST_OF_ONE)
    } else {
        let squares: f64 = grams.iter().map(|grams| (grams - mean).powi(2)).sum();
        let scatter = (squares / (n - 1.0)).sqrt();
        (student(grams.len() - 1) * scatter * (1.0 + 1.0 / n).sqrt() / mean).min(most).max(LEAST)
    };
    let low = grams.iter().copied().fold(mean * (1.0 - share), f64::min);
    let high = grams.iter().copied().fold(mean * (1.0 + share), f64::max);
    Range::new(low.max(0.0), mean, high)
}

/// Student's t that nine values in ten lie within, for the degrees of freedom; between those listed, that of fewer is
/// taken, which is the wider. JCGM 100:2008, table G.2, from memory; a test computes the first two.
fn student(degrees: usize) -> f64 {
    const LISTED: &[(usize, f64)] = &[
        (1, 6.31),
        (2, 2.92),
        (3, 2.35),
        (4, 2.13),
        (5, 2.02),
        (6, 1.94),
        (7, 1.89),
        (8, 1.86),
        (9, 1.83),
        (10, 1.81),
        (15, 1.75),
        (20, 1.72),
        (30, 1.70),
        (50, 1.68),
        (100, 1.66),
    ];
    LISTED.iter().take_while(|(least, _)| *least <= degrees).last().map_or(6.31, |(_, t)| *t)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// For one degree t is tan(π · 0.45), for two 0.9 · √(2 / (1 − 0.81)): both follow from the distribution itself.
    #[test]
    fn ok_the_first_factors_are_student_s() {
        assert!((student(1) - (std::f64::consts::PI * 0.45).tan()).abs() < 0.005);
        assert!((student(2) - 0.9 * (2.0_f64 / 0.19).sqrt()).abs() < 0.005);
        assert!((1..200).all(|degrees| student(degrees) >= student(degrees + 1) && student(degrees) > 1.644));
    }
}
