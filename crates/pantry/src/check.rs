//! Checks the rows: what breaks a rule of `data/README.md` is a fault, what only looks wrong is for a person to look at.
//!
//! `cargo xtask pantry` prints the report, and a test insists that our own rows have no fault.

mod count;
mod look;
mod name;
mod portion;

use std::collections::BTreeMap;

use crate::row::{Allergen, Citation, Cited, Fault, Food, Gluten, Place, Way, Whose, read};
use crate::table::Table;

pub use count::Counts;

/// A cup of 236.588 ml weighing less than this share of it, or more than the other, is no liquid.
const LIQUID: std::ops::RangeInclusive<f64> = 0.6..=1.5;
/// Millilitres in a US cup.
const CUP: f64 = 236.588;
/// How far a value without a printed source reaches at least, either side.
const UNPRINTED: f64 = 0.15;

/// What the check found.
#[derive(Debug, Default)]
pub struct Report {
    /// What breaks a rule.
    pub faults: Vec<Fault>,
    /// What is worth a look; none of it is forbidden.
    pub looks: Vec<Fault>,
    /// How many foods and values there are, and what they lean on.
    pub counts: Counts,
    /// Every value by the source it leans on: food, what, best, and the row or portion named.
    pub by_source: BTreeMap<String, Vec<String>>,
}

/// Checks files of rows, given as name and text, against the table.
pub fn check<'f>(files: impl IntoIterator<Item = (&'f str, &'f str)>, table: &Table) -> Report {
    let mut report = Report::default();
    let mut foods = Vec::new();
    for (name, text) in files {
        let (read, faults) = read(name, text, Whose::Ours);
        foods.extend(read);
        report.faults.extend(faults);
    }
    let names = name::Names::of(&foods);
    names.refuse_shared(&mut report.faults);
    for food in &foods {
        Checker { food, table, names: &names, faults: &mut report.faults }.check();
        look::food(food, table, &mut report.looks);
    }
    names.look_alike(&mut report.looks);
    report.counts = Counts::of(&foods);
    report.by_source = count::by_source(&foods);
    let order = |fault: &Fault| (fault.place.file.clone(), fault.place.line);
    report.faults.sort_by_key(order);
    report.looks.sort_by_key(order);
    report
}

struct Checker<'c> {
    food: &'c Food,
    table: &'c Table,
    names: &'c name::Names<'c>,
    faults: &'c mut Vec<Fault>,
}

impl Checker<'_> {
    fn fault(&mut self, place: &Place, what: impl Into<String>, mend: impl Into<String>) {
        let food = Some(self.food.name.clone());
        self.faults.push(Fault { place: place.clone(), food, what: what.into(), mend: mend.into() });
    }

    fn check(&mut self) {
        let food = self.food;
        self.check_names();
        self.check_table();
        self.check_said();
        for value in values(food) {
            if let Some(cited) = value.cited {
                self.check_width(cited, value.kind);
                if let Some((what, mend)) = portion::compare(food, &value, cited, self.table) {
                    self.fault(&cited.place, what, mend);
                }
            } else {
                self.check_row(value.from, value.place);
            }
        }
        for cup in &food.cup {
            let density = cup.grams.range.best() / CUP;
            if cup.way == Some(Way::Poured) && cup.dense.is_none() && !LIQUID.contains(&density) {
                let what = format!("a poured cup of {} g is {density:.2} g/ml", cup.grams.range.best());
                self.fault(
                    &cup.grams.place,
                    what,
                    "liquids lie between 0.6 and 1.5; write dense = \"why\" if this one does not",
                );
            }
        }
        self.check_twice();
        self.check_parts();
        for meant in &food.meant {
            self.check_known(&meant.food, &meant.place);
            if !food.names().any(|name| name == meant.name) {
                self.fault(&meant.place, format!("`{}` is not a name of it", meant.name), "write one of its names");
            }
        }
        if let Some(abroad) = &food.abroad {
            self.check_known(abroad, &food.place);
        }
        for yields in food.juice.iter().chain(&food.zest) {
            self.check_known(&yields.food, &yields.grams.place);
        }
    }

    fn check_names(&mut self) {
        let food = self.food;
        for name in food.names() {
            if name != name.to_lowercase() {
                self.fault(&food.place, format!("`{name}` has capitals"), format!("write `{}`", name.to_lowercase()));
            }
        }
    }

    fn check_table(&mut self) {
        let food = self.food;
        if let Some(number) = food.table
            && self.table.row(number).is_none()
        {
            self.fault(
                &food.place,
                format!("the table has no row {number}"),
                "look it up in FOOD_DES.txt, or run `cargo xtask sr28` again if it is there",
            );
        }
        if food.stand_in.is_some() && food.table.is_none() {
            self.fault(&food.place, "stand_in without a table row", "write table = …, or take stand_in out");
        }
        if food.table.is_none() && food.composition.is_none() && food.parts.is_empty() {
            self.fault(&food.place, "nothing says what it holds", "write table, composition or parts");
        }
    }

    fn check_said(&mut self) {
        let food = self.food;
        if food.roles.is_empty() {
            self.fault(&food.place, "it has no role", "write roles = [\"flour\"], say");
        }
        if food.gluten.is_none() {
            self.fault(
                &food.place,
                "it does not say whether it holds gluten",
                "write gluten = \"none\", \"contains\", \"oats\" or \"check\"",
            );
        }
        if food.sugar.is_none() {
            self.fault(
                &food.place,
                "it does not say where its sugars count",
                "write sugar = \"none\", \"added\", \"intrinsic\", \"milk\" or \"juice\"",
            );
        }
        // A contradiction here could put "gluten-free" on a page, so it is never only worth a look.
        let holds = [Allergen::Wheat, Allergen::Rye, Allergen::Barley];
        if food.gluten == Some(Gluten::None)
            && let Some(grain) = food.allergens.iter().find(|allergen| holds.contains(allergen))
        {
            self.fault(
                &food.place,
                format!("gluten is `none`, but it is {grain}"),
                "write gluten = \"contains\" or \"check\"",
            );
        }
    }

    /// Where nothing printed stands behind a value, nine kitchens in ten cannot lie close to it.
    fn check_width(&mut self, cited: &Cited, kind: Kind<'_>) {
        let range = cited.range;
        let most = if kind == Kind::Edible { 1.0 } else { f64::INFINITY };
        let (low, high) = (range.best() * (1.0 - UNPRINTED), (range.best() * (1.0 + UNPRINTED)).min(most));
        // Ends are written rounded; half a unit in the last place of a whole number is no offence above ten grams.
        let slack = if range.best() >= 10.0 { 0.5 } else { range.best() * 0.01 };
        if !cited.from.source.printed && (range.low() > low + slack || range.high() < high - slack) {
            let what = format!(
                "{kind} {} from {} goes only from {} to {}",
                range.best(),
                cited.from.source.id,
                range.low(),
                range.high()
            );
            self.fault(
                &cited.place,
                what,
                format!("without a printed source at least {} to {}", portion::said(low), portion::said(high)),
            );
        }
    }

    fn check_row(&mut self, from: &Citation, place: &Place) {
        if from.source.id == portion::TABLE
            && let Some(row) = from.row
            && self.table.row(row).is_none()
        {
            self.fault(place, format!("the table has no row {row}"), "look it up in FOOD_DES.txt");
        }
    }

    fn check_twice(&mut self) {
        let food = self.food;
        for (at, cup) in food.cup.iter().enumerate() {
            if food.cup[..at].iter().any(|other| other.way == cup.way) {
                let way = cup.way.map_or("no", Way::name);
                self.fault(&cup.grams.place, format!("two cups filled the {way} way"), "keep one");
            }
        }
        for (at, piece) in food.piece.iter().enumerate() {
            if food.piece[..at].iter().any(|other| (other.unit, other.size) == (piece.unit, piece.size)) {
                let size = piece.size.map_or("", |size| size.name());
                self.fault(&piece.grams.place, format!("two weights of one {size} {}", piece.unit), "keep one");
            }
        }
    }

    fn check_parts(&mut self) {
        let food = self.food;
        if food.parts.is_empty() {
            return;
        }
        let total: f64 = food.parts.iter().map(|part| part.share).sum();
        if (total - 1.0).abs() > 0.001 {
            self.fault(&food.place, format!("its parts add to {total:.4}"), "shares of a mixture add to 1");
        }
        if food.parts_from.is_none() {
            self.fault(&food.place, "its parts have no source", "write parts_from = \"…\"");
        }
        if self.names.leads_back(food) {
            self.fault(&food.place, "its parts lead back to itself", "a mixture is made of other foods");
        }
        for part in &food.parts {
            self.check_known(&part.food, &food.place);
        }
    }

    fn check_known(&mut self, name: &str, place: &Place) {
        if !self.names.has(name) {
            let mend = self
                .names
                .nearest(name)
                .map_or_else(|| "give it a row".to_owned(), |near| format!("give it a row; `{near}` is the nearest"));
            self.fault(place, format!("there is no food `{name}`"), mend);
        }
    }
}

/// What a value weighs or shares.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Kind<'f> {
    Cup(Option<Way>),
    Teaspoon,
    Piece(&'f str),
    Edible,
    Yield(&'f str),
    Composition,
    Parts,
}

impl std::fmt::Display for Kind<'_> {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Kind::Cup(Some(way)) => write!(out, "cup {way}"),
            Kind::Cup(None) => out.write_str("cup"),
            Kind::Teaspoon => out.write_str("teaspoon"),
            Kind::Piece(unit) => out.write_str(unit),
            Kind::Edible => out.write_str("edible share"),
            Kind::Yield(food) => out.write_str(food),
            Kind::Composition => out.write_str("composition"),
            Kind::Parts => out.write_str("parts"),
        }
    }
}

/// One value of a food: what it is, and what it leans on.
struct Value<'f> {
    kind: Kind<'f>,
    from: &'f Citation,
    /// The number and its range; none where several stand behind one source.
    cited: Option<&'f Cited>,
    place: &'f Place,
}

fn values(food: &Food) -> Vec<Value<'_>> {
    fn one<'f>(kind: Kind<'f>, cited: &'f Cited) -> Value<'f> {
        Value { kind, from: &cited.from, cited: Some(cited), place: &cited.place }
    }
    let mut values: Vec<Value<'_>> = food.cup.iter().map(|cup| one(Kind::Cup(cup.way), &cup.grams)).collect();
    values.extend(food.teaspoon.iter().map(|spoon| one(Kind::Teaspoon, spoon)));
    values.extend(food.piece.iter().map(|piece| one(Kind::Piece(piece.unit.name()), &piece.grams)));
    values.extend(food.edible.iter().map(|share| one(Kind::Edible, share)));
    values.extend(food.juice.iter().chain(&food.zest).map(|it| one(Kind::Yield(&it.food), &it.grams)));
    if let Some(composition) = &food.composition {
        values.push(Value { kind: Kind::Composition, from: &composition.from, cited: None, place: &composition.place });
    }
    if let Some(from) = &food.parts_from {
        values.push(Value { kind: Kind::Parts, from, cited: None, place: &food.place });
    }
    values
}

#[cfg(test)]
mod tests;
