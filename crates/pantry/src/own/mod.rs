//! What an author knows of her own foods: `foods.toml` of her kitchen folder, read over ours.
//!
//! Three kinds of thing stand there. A **food** of her own is like one of ours, or says what its label says. A
//! **meaning** says which food a word of hers means. A **weighing** says what her own cup of a food weighs; it stands
//! before whatever we know. Reading never fails: what cannot be used is told with its place, what was taken instead
//! and its mend, and the rest works.
//!
//! ```
//! use evencrumb_pantry::{own, weigh::Kitchen};
//!
//! let text = "[[food]]\nname = \"pear molasses\"\nlike = \"molasses\"\n";
//! let found = own::read("foods.toml", text, Kitchen::default());
//! assert!(found.remarks.is_empty());
//! assert!(found.pantry.named("pear molasses").is_some());
//! ```

mod food;
mod judge;
mod label;
mod measure;
mod weighing;

pub use weighing::is_measure;

use evencrumb_manuscript::Weight;
use evencrumb_manuscript::word::name_key;
use toml::de::DeTable;

use crate::pantry::Pantry;
use crate::row::{Fault, Place, Reader, Value, Whose};
use crate::weigh::Kitchen;

/// Our foods and the author's own.
#[derive(Clone, Debug)]
pub struct Own {
    /// The foods of this kitchen.
    pub pantry: Pantry,
    /// What is to be said of the file, in the order of its lines.
    pub remarks: Vec<Remark>,
}

/// Something to be said of a line of the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// How much it matters: a fault is to be mended, a figure out of the usual to be looked at, a note only to be known.
    pub weight: Weight,
    /// Where it stands, what was read, and what was taken or how to mend it.
    pub fault: Fault,
}

impl Own {
    /// The kitchen of somebody who wrote no `foods.toml`.
    pub fn none(kitchen: Kitchen) -> Own {
        Own { pantry: Pantry::of_kitchen(kitchen.custom), remarks: Vec::new() }
    }
}

/// Reads the text of a `foods.toml`; `file` is its name in what is said of it. Whose cups and eggs are meant decides
/// what a weighed cup holds.
pub fn read(file: &str, text: &str, kitchen: Kitchen) -> Own {
    let (document, errors) = DeTable::parse_recoverable(text);
    let mut reading = Reading {
        text: text.to_owned(),
        pantry: Pantry::of_kitchen(kitchen.custom),
        reader: Reader::new(file, text, Whose::Author),
        kitchen,
        remarks: Vec::new(),
    };
    reading.reader.not_toml(&errors);
    let (mut foods, mut meanings, mut weighings) = (Vec::new(), Vec::new(), Vec::new());
    for (key, value) in document.get_ref() {
        let list = match key.get_ref().as_ref() {
            "food" => &mut foods,
            "meaning" => &mut meanings,
            "weighing" => &mut weighings,
            other => {
                let place = reading.reader.place(key.span().start);
                let mend = "begin what you know with [[weighing]], [[food]] or [[meaning]]; it was passed over";
                reading.reader.fault(place, format!("`{other}` is none of them"), mend.to_owned());
                continue;
            }
        };
        match value.get_ref().as_array() {
            Some(rows) => list.extend(rows.iter()),
            // `[food]` for `[[food]]` is plain enough to be taken.
            None => list.push(value),
        }
    }
    // A meaning may speak of a food of her own, and a weighing of both, whatever stands first in the file.
    reading.foods(&foods);
    meanings.into_iter().for_each(|row| reading.meaning(row));
    reading.weighings(&weighings);
    reading.finish()
}

struct Reading {
    /// The file, to see where a list ends.
    text: String,
    pantry: Pantry,
    reader: Reader,
    kitchen: Kitchen,
    /// What is no fault: looks and notes.
    remarks: Vec<Remark>,
}

impl Reading {
    fn meaning(&mut self, row: &Value<'_>) {
        self.reader.food = None;
        let Some(mut fields) = self.reader.fields(row, "a meaning") else { return };
        let place = self.reader.place(fields.at);
        let mut words = |key: &str| fields.take(key).and_then(|value| self.reader.text(value, key));
        let (word, food) = (words("word"), words("food"));
        self.reader.refuse_the_rest(fields, "word, food");
        self.reader.food.clone_from(&word);
        let (Some(word), Some(food)) = (word, food) else {
            let mend = "write word = \"…\" and food = \"…\"; it was passed over".to_owned();
            self.reader.fault(place, "a meaning needs a word and a food".to_owned(), mend);
            return;
        };
        if name_key(&word).is_empty() {
            let mend = "write letters; it was passed over".to_owned();
            self.reader.fault(place, format!("“{word}” is no word"), mend);
            return;
        }
        let Some(id) = self.pantry.named(&food) else {
            let what = format!("“{word}” is to mean “{food}”, which is no food known here");
            let taken = match self.pantry.named(&word) {
                Some(meant) => format!("“{word}” means {} as before", self.pantry.food(meant).name),
                None => format!("“{word}” means nothing"),
            };
            let mend = self.nearest(&food, &taken);
            self.reader.fault(place, what, mend);
            return;
        };
        self.note_another_meaning(&word, Some(id), &place);
        self.pantry.mean(&word, id);
    }

    /// The author's meaning wins, and she may want to know that there was another.
    fn note_another_meaning(&mut self, word: &str, now: Option<evencrumb_manuscript::FoodId>, place: &Place) {
        let Some(before) = self.pantry.named(word).filter(|before| Some(*before) != now) else { return };
        let food = self.pantry.food(before);
        if !food.own.is_empty() {
            let what = format!("“{word}” is also a name of {} ({})", food.name, food.place);
            let mend = "the later was taken; take the word out of one of them".to_owned();
            self.remark(Weight::MustMend, place.clone(), Some(word.to_owned()), what, mend);
            return;
        }
        let what = format!("“{word}” means {} where you do not say otherwise", food.name);
        self.remark(Weight::Note, place.clone(), Some(word.to_owned()), what, "your meaning was taken".to_owned());
    }

    fn remark(&mut self, weight: Weight, place: Place, food: Option<String>, what: String, mend: String) {
        self.remarks.push(Remark { weight, fault: Fault { place, food, what, mend } });
    }

    /// What was taken, and the food whose name is nearest.
    fn nearest(&self, food: &str, taken: &str) -> String {
        match self.pantry.nearest(food, 1).first() {
            Some(guess) => format!("{taken}. Write another name; the nearest known is “{}”", guess.food.name),
            None => format!("{taken}. Write a name that `evencrumb food` knows"),
        }
    }

    fn finish(self) -> Own {
        let faults = self.reader.faults.into_iter().map(|fault| Remark { weight: Weight::MustMend, fault });
        let mut remarks: Vec<Remark> = faults.chain(self.remarks).collect();
        remarks.sort_by_key(|remark| (remark.fault.place.line, remark.weight));
        Own { pantry: self.pantry, remarks }
    }
}

#[cfg(test)]
mod tests;
