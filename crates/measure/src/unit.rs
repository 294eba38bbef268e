//! Units as people write them, and what each holds or weighs.
//!
//! A household volume depends on whose cup it is ([`Custom`]); a vague measure is a range;
//! a counted thing (a stick, a can) weighs what its food says, so it has no size here.

use std::fmt;
use std::sync::LazyLock;

use rustc_hash::FxHashMap;
use serde::{Deserialize, Serialize};

use crate::range::Range;
use crate::source::Source;

macro_rules! units {
    ($($variant:ident = $name:literal),+ $(,)?) => {
        /// A unit of an ingredient line. Sizes stand in `data/units.toml`, one row each.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
        pub enum Unit {
            $(#[doc = $name] $variant),+
        }

        impl Unit {
            /// Every unit, in the order of `data/units.toml`.
            pub const ALL: &'static [Unit] = &[$(Unit::$variant),+];

            /// The name spelt out in the singular, as `tablespoon`.
            pub fn name(self) -> &'static str {
                match self { $(Unit::$variant => $name),+ }
            }

            /// The unit whose spelt-out singular name this is.
            pub fn named(name: &str) -> Option<Unit> {
                match name { $($name => Some(Unit::$variant),)+ _ => None }
            }
        }
    };
}

units! {
    Cup = "cup", Tablespoon = "tablespoon", Teaspoon = "teaspoon", Dessertspoon = "dessertspoon",
    FluidOunce = "fluid ounce", Pint = "pint", Quart = "quart", Gallon = "gallon", Gill = "gill",
    Millilitre = "millilitre", Centilitre = "centilitre", Decilitre = "decilitre", Litre = "litre",
    Gram = "gram", Kilogram = "kilogram", Milligram = "milligram", Ounce = "ounce", Pound = "pound", Stone = "stone",
    Pinch = "pinch", Dash = "dash", Smidgen = "smidgen", Tad = "tad", Drop = "drop", Splash = "splash",
    Drizzle = "drizzle", Glug = "glug", Dollop = "dollop", Sprinkle = "sprinkle", Handful = "handful", Knob = "knob",
    Shot = "shot", Scoop = "scoop",
    Piece = "piece", Stick = "stick", Slice = "slice", Clove = "clove", Leaf = "leaf", Pod = "pod", Sheet = "sheet",
    Square = "square", Sprig = "sprig", Bunch = "bunch", Stalk = "stalk", Wedge = "wedge", Section = "section",
    Packet = "packet", Package = "package", Can = "can", Jar = "jar", Carton = "carton", Bottle = "bottle", Bag = "bag",
    Box = "box", Tub = "tub", Tube = "tube", Block = "block", Bar = "bar", Cube = "cube", Ball = "ball", Ear = "ear",
    Head = "head", Inch = "inch", Centimetre = "centimetre", Loaf = "loaf", Round = "round",
    Batch = "batch", Serving = "serving", Part = "part", Percent = "percent",
}

/// Whose household measures are meant.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Custom {
    /// US customary: a cup of 236.6 ml, a tablespoon of 14.8 ml.
    #[default]
    Us,
    /// Metric: 250, 15 and 5 ml.
    Metric,
    /// United Kingdom: 15 and 5 ml spoons, imperial pints.
    Uk,
    /// Australia: 250 ml cups and 20 ml tablespoons.
    Australian,
}

/// What a unit measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// A volume, exact or vague.
    Volume,
    /// A weight.
    Weight,
    /// A number of things; how much one weighs is the food's to say.
    Count,
}

impl Unit {
    /// What this unit measures.
    pub fn dimension(self) -> Dimension {
        let row = row(self);
        match (&row.millilitres, row.grams) {
            (Some(_), _) => Dimension::Volume,
            (None, Some(_)) => Dimension::Weight,
            (None, None) => Dimension::Count,
        }
    }

    /// Millilitres of one, in the custom given: exact for a measure, a range for a vague one, `None` for other units.
    pub fn millilitres(self, custom: Custom) -> Option<Range> {
        let row = row(self);
        let best = match row.millilitres.as_ref()? {
            Millilitres::Everywhere(best) => *best,
            Millilitres::ByCustom { us, metric, uk, australian } => match custom {
                Custom::Us => *us,
                Custom::Metric => *metric,
                Custom::Uk => *uk,
                Custom::Australian => *australian,
            },
        };
        Range::new(row.low.unwrap_or(best), best, row.high.unwrap_or(best))
    }

    /// Grams of one, exact; `None` unless this is a unit of weight.
    pub fn grams(self) -> Option<f64> {
        row(self).grams
    }

    /// Whether the unit is a kitchen word with no fixed size: pinch, dash, handful.
    pub fn is_vague(self) -> bool {
        row(self).low.is_some()
    }

    /// Where the size of the unit comes from; `None` for a counted thing, which has none.
    pub fn source(self) -> Option<&'static Source> {
        row(self).from.as_deref().and_then(Source::by_id)
    }

    /// The unit a written word means. `t` and `T` are told apart; otherwise capitals, a full stop
    /// at the end and the plural do not matter. Two-word units come with one space between.
    pub fn written(word: &str) -> Option<Unit> {
        let word = word.trim_end_matches('.');
        if let Some(unit) = TABLE.cased.get(word) {
            return Some(*unit);
        }
        if word.bytes().all(|byte| byte.is_ascii_lowercase()) {
            return TABLE.words.get(word).copied();
        }
        TABLE.words.get(word.to_lowercase().as_str()).copied()
    }

    /// The longest number of words that a spelling with this first word in lower case may have; 1 for most words.
    pub fn longest_spelling(first: &str) -> usize {
        TABLE.longest.get(first).copied().unwrap_or(1)
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.name())
    }
}

#[derive(Deserialize)]
struct File {
    unit: Vec<Row>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    name: String,
    also: Vec<String>,
    #[serde(default)]
    cased: Vec<String>,
    millilitres: Option<Millilitres>,
    grams: Option<f64>,
    low: Option<f64>,
    high: Option<f64>,
    from: Option<String>,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum Millilitres {
    Everywhere(f64),
    ByCustom { us: f64, metric: f64, uk: f64, australian: f64 },
}

struct Table {
    rows: Vec<Row>,
    words: FxHashMap<String, Unit>,
    cased: FxHashMap<String, Unit>,
    /// How many words the longest spelling has, by first words of spellings of several.
    longest: FxHashMap<String, usize>,
}

static TABLE: LazyLock<Table> = LazyLock::new(|| {
    let file: File =
        toml::from_str(include_str!("../data/units.toml")).expect("units.toml is read by a test before it ships");
    let mut table = Table {
        rows: file.unit,
        words: FxHashMap::default(),
        cased: FxHashMap::default(),
        longest: FxHashMap::default(),
    };
    for (row, unit) in table.rows.iter().zip(Unit::ALL) {
        assert_eq!(row.name, unit.name(), "units.toml and the enum are in one order");
        for word in row.also.iter().chain([&row.name]) {
            if let Some((first, further)) = word.split_once(' ') {
                let longest = table.longest.entry(first.to_owned()).or_default();
                *longest = (*longest).max(1 + further.split(' ').count());
            }
            table.words.insert(word.clone(), *unit);
        }
        for word in &row.cased {
            table.cased.insert(word.clone(), *unit);
        }
    }
    table
});

fn row(unit: Unit) -> &'static Row {
    &TABLE.rows[unit as usize]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ml(unit: Unit, custom: Custom) -> f64 {
        unit.millilitres(custom).expect("a volume").best()
    }

    #[test]
    fn ok_every_row_is_there_once_and_no_word_means_two_units() {
        assert_eq!(TABLE.rows.len(), Unit::ALL.len());
        let spellings: usize = TABLE.rows.iter().map(|row| row.also.len() + 1).sum();
        assert_eq!(TABLE.words.len(), spellings);
    }

    /// Source: 1 gallon = 231 cubic inches, 1 inch = 25.4 mm (NIST Handbook 44, App. C, from memory); computed here.
    #[test]
    fn ok_us_measures_follow_from_the_gallon() {
        let gallon = 231.0 * 2.54_f64.powi(3);
        for (unit, in_a_gallon) in [
            (Unit::Gallon, 1.0),
            (Unit::Quart, 4.0),
            (Unit::Pint, 8.0),
            (Unit::Cup, 16.0),
            (Unit::FluidOunce, 128.0),
            (Unit::Tablespoon, 256.0),
            (Unit::Teaspoon, 768.0),
        ] {
            assert!((ml(unit, Custom::Us) * in_a_gallon - gallon).abs() < 1e-6, "{unit}");
        }
        assert!((ml(Unit::Pint, Custom::Uk) - 4546.09 / 8.0).abs() < 1e-9);
    }

    #[test]
    fn ok_t_and_capital_t_are_told_apart() {
        assert_eq!(Unit::written("t"), Some(Unit::Teaspoon));
        assert_eq!(Unit::written("T"), Some(Unit::Tablespoon));
        assert_eq!(Unit::written("T."), Some(Unit::Tablespoon));
        assert_eq!(Unit::written("Tbsp."), Some(Unit::Tablespoon));
        assert_eq!(Unit::written("TSP"), Some(Unit::Teaspoon));
        assert_eq!(Unit::written("fl oz"), Some(Unit::FluidOunce));
        assert_eq!(Unit::written("spatula"), None);
    }
}
