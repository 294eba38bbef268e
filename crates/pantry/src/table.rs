//! The table of foods: what 100 g of each holds, and what its household portions weigh.
//!
//! It is USDA's SR28 without brands and dishes, packed by `cargo xtask sr28` (see `data/sr28.provenance.toml`).
//! The table is opened once; a column is inflated when it is first asked for, so that weighing a recipe does not pay
//! for its vitamins. A value that is not known is `None` and never zero.
//!
//! ```
//! use evencrumb_pantry::{Nutrient, Table};
//!
//! let butter = Table::embedded().row(1001).expect("salted butter");
//! assert_eq!(butter.description(), "Butter, salted");
//! assert_eq!(butter.value(Nutrient::Fat), Some(81.11));
//! assert_eq!(butter.value(Nutrient::Caffeine), Some(0.0));
//! assert_eq!(butter.value(Nutrient::Fructose), None);
//! ```

mod column;
pub mod layout;

use std::sync::{LazyLock, OnceLock};

use crate::nutrient::Nutrient;
use column::Column;
use layout::Kind;

/// The packed table, opened.
pub struct Table {
    body: &'static [u8],
    checksum: u64,
    sections: Vec<Section>,
    /// The SR28 number of each row, ascending.
    numbers: Vec<u32>,
    words: OnceLock<Words>,
    facts: OnceLock<Vec<Facts>>,
    portions: OnceLock<Portions>,
    values: Vec<OnceLock<Column>>,
    errors: Vec<OnceLock<Column>>,
    points: Vec<OnceLock<Column>>,
}

/// One food of the table.
#[derive(Clone, Copy)]
pub struct Row<'t> {
    table: &'t Table,
    at: usize,
}

/// What one household portion weighs, as the table gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct Portion {
    /// How many of what the words say, as 0.5 (of a cup).
    pub amount: f64,
    /// The words, as `cup, chopped`.
    pub text: String,
    /// What the whole amount weighs, in grams.
    pub grams: f64,
    /// How many were weighed, where the table says so.
    pub data_points: Option<u32>,
    /// Their standard deviation in grams, where the table says so.
    pub deviation: Option<f64>,
}

/// Atwater's factors for one food, where the table gives them: how its energy was computed.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Factors {
    /// Grams of protein for a gram of nitrogen.
    pub nitrogen: Option<f64>,
    /// Kilocalories in a gram of protein.
    pub protein: Option<f64>,
    /// Kilocalories in a gram of fat.
    pub fat: Option<f64>,
    /// Kilocalories in a gram of carbohydrate.
    pub carbohydrate: Option<f64>,
}

/// Why bytes are not a table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unreadable {
    /// It does not begin as a packed table does.
    NotATable,
    /// It was packed by another version of the layout, this one.
    OtherVersion(u16),
    /// It ends early or its parts contradict each other.
    Damaged,
}

struct Section {
    kind: u8,
    number: u16,
    decimals: u8,
    inflated: usize,
    start: usize,
    end: usize,
}

struct Words {
    groups: Vec<String>,
    descriptions: Vec<String>,
    refuse: Vec<String>,
}

struct Facts {
    group: u8,
    refuse_percent: u8,
    factors: Factors,
}

struct Portions {
    all: Vec<Portion>,
    /// Where each row's portions begin, and one more for the end.
    starts: Vec<usize>,
}

static EMBEDDED: LazyLock<Table> = LazyLock::new(|| {
    Table::open(include_bytes!("../data/sr28.bin")).expect("the packed table is opened by a test before it ships")
});

impl Table {
    /// The table inside the program.
    pub fn embedded() -> &'static Table {
        &EMBEDDED
    }

    /// A packed table. Only the row numbers are read here.
    pub fn open(bytes: &'static [u8]) -> Result<Table, Unreadable> {
        let mut rest = bytes.strip_prefix(&layout::MAGIC).ok_or(Unreadable::NotATable)?;
        let version = layout::take_fixed::<2>(&mut rest).ok_or(Unreadable::Damaged)? as u16;
        if version != layout::VERSION {
            return Err(Unreadable::OtherVersion(version));
        }
        Table::read(rest).ok_or(Unreadable::Damaged)
    }

    fn read(mut rest: &'static [u8]) -> Option<Table> {
        let rows = layout::take_fixed::<4>(&mut rest)? as usize;
        let count = layout::take_fixed::<4>(&mut rest)? as usize;
        let checksum = layout::take_fixed::<8>(&mut rest)?;
        let body = rest;
        let mut end = count.checked_mul(layout::ENTRY)?;
        let mut sections = Vec::new();
        for _ in 0..count {
            let kind = layout::take_byte(&mut rest)?;
            let number = layout::take_fixed::<2>(&mut rest)? as u16;
            let decimals = layout::take_byte(&mut rest)?;
            let inflated = layout::take_fixed::<4>(&mut rest)? as usize;
            let start = end;
            end = start.checked_add(layout::take_fixed::<4>(&mut rest)? as usize)?;
            if end > body.len() {
                return None;
            }
            sections.push(Section { kind, number, decimals, inflated, start, end });
        }
        let locks = || std::iter::repeat_with(OnceLock::new).take(Nutrient::ALL.len()).collect();
        let mut table = Table {
            body,
            checksum,
            sections,
            numbers: Vec::new(),
            words: OnceLock::new(),
            facts: OnceLock::new(),
            portions: OnceLock::new(),
            values: locks(),
            errors: locks(),
            points: locks(),
        };
        let numbers = table.inflate(Kind::Numbers, 0).0;
        let mut numbers = numbers.as_slice();
        let mut last = 0;
        for _ in 0..rows {
            last += u32::try_from(layout::take(&mut numbers)?).ok()?;
            table.numbers.push(last);
        }
        Some(table)
    }

    /// The food of this SR28 number (`NDB_No`); `None` when the table was packed without it.
    pub fn row(&self, number: u32) -> Option<Row<'_>> {
        let at = self.numbers.binary_search(&number).ok()?;
        Some(Row { table: self, at })
    }

    /// Every food, in the order of the numbers.
    pub fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        (0..self.numbers.len()).map(|at| Row { table: self, at })
    }

    /// Whether the bytes are those that were packed. Not asked on the way to a figure, since it reads the whole file.
    pub fn is_whole(&self) -> bool {
        layout::checksum(self.body) == self.checksum
    }

    /// The bytes of a section, with its decimals; empty when there is none or it cannot be inflated, so that its
    /// values are unknown.
    fn inflate(&self, kind: Kind, number: u16) -> (Vec<u8>, u8) {
        let Some(section) = self.sections.iter().find(|section| section.kind == kind as u8 && section.number == number)
        else {
            return (Vec::new(), 0);
        };
        let mut out = vec![0; section.inflated];
        match miniz_oxide::inflate::decompress_slice_iter_to_slice(
            &mut out,
            std::iter::once(&self.body[section.start..section.end]),
            false,
            true,
        ) {
            Ok(length) if length == section.inflated => (out, section.decimals),
            _ => (Vec::new(), 0),
        }
    }

    fn lines(&self, kind: Kind) -> Vec<String> {
        let text = String::from_utf8(self.inflate(kind, 0).0).unwrap_or_default();
        text.split('\n').map(str::to_owned).collect()
    }

    fn words(&self) -> &Words {
        self.words.get_or_init(|| {
            let mut lines = self.lines(Kind::Words);
            let groups_end = lines.iter().position(String::is_empty).unwrap_or(lines.len());
            let mut rest = lines.split_off(groups_end);
            rest.resize(1 + 2 * self.numbers.len(), String::new());
            let refuse = rest.split_off(1 + self.numbers.len());
            rest.remove(0);
            Words { groups: lines, descriptions: rest, refuse }
        })
    }

    fn facts(&self) -> &[Facts] {
        self.facts.get_or_init(|| {
            let bytes = self.inflate(Kind::Facts, 0).0;
            let mut bytes = bytes.as_slice();
            self.numbers.iter().map(|_| Facts::take(&mut bytes).unwrap_or(Facts::UNKNOWN)).collect()
        })
    }

    fn portions(&self) -> &Portions {
        self.portions.get_or_init(|| {
            let bytes = self.inflate(Kind::Portions, 0).0;
            let mut bytes = bytes.as_slice();
            let mut words = self.lines(Kind::PortionWords).into_iter();
            let mut portions = Portions { all: Vec::new(), starts: vec![0] };
            for _ in &self.numbers {
                let count = layout::take(&mut bytes).unwrap_or(0);
                for _ in 0..count {
                    portions.all.extend(Portion::take(&mut bytes, words.next().unwrap_or_default()));
                }
                portions.starts.push(portions.all.len());
            }
            portions
        })
    }

    fn column<'t>(&'t self, columns: &'t [OnceLock<Column>], kind: Kind, nutrient: Nutrient) -> &'t Column {
        columns[nutrient as usize].get_or_init(|| {
            let (bytes, decimals) = self.inflate(kind, nutrient.number());
            Column::read(&bytes, decimals, self.numbers.len())
        })
    }
}

impl<'t> Row<'t> {
    /// The SR28 number.
    pub fn number(self) -> u32 {
        self.table.numbers[self.at]
    }

    /// The long description, brand words taken out.
    pub fn description(self) -> &'t str {
        &self.table.words().descriptions[self.at]
    }

    /// The food group, as `Dairy and Egg Products`.
    pub fn group(self) -> &'t str {
        let group = self.table.facts()[self.at].group;
        self.table.words().groups.get(usize::from(group)).map_or("", String::as_str)
    }

    /// How much of it is in 100 g of the edible part, in the nutrient's unit; `None` when the table does not know.
    pub fn value(self, nutrient: Nutrient) -> Option<f64> {
        self.table.column(&self.table.values, Kind::Value, nutrient).at(self.at)
    }

    /// The standard error of [`Row::value`], where samples were measured: it says how well the mean of foods as sold
    /// was known, not how far one packet lies from the next.
    pub fn standard_error(self, nutrient: Nutrient) -> Option<f64> {
        self.table.column(&self.table.errors, Kind::Error, nutrient).at(self.at)
    }

    /// How many samples stand behind [`Row::value`]; zero when it was computed, imputed or taken from a label.
    pub fn data_points(self, nutrient: Nutrient) -> u32 {
        self.table.column(&self.table.points, Kind::Points, nutrient).at(self.at).map_or(0, |points| points as u32)
    }

    /// The household portions, in the table's order.
    pub fn portions(self) -> &'t [Portion] {
        let portions = self.table.portions();
        &portions.all[portions.starts[self.at]..portions.starts[self.at + 1]]
    }

    /// The share of the weight as bought that is thrown away, from 0 to 1.
    pub fn refuse_share(self) -> f64 {
        f64::from(self.table.facts()[self.at].refuse_percent) / 100.0
    }

    /// What is thrown away, as `Core and stem`; empty when nothing is.
    pub fn refuse(self) -> &'t str {
        &self.table.words().refuse[self.at]
    }

    /// How the table computed this food's energy.
    pub fn factors(self) -> Factors {
        self.table.facts()[self.at].factors
    }
}

impl Facts {
    const UNKNOWN: Facts = Facts {
        group: u8::MAX,
        refuse_percent: 0,
        factors: Factors { nitrogen: None, protein: None, fat: None, carbohydrate: None },
    };

    fn take(bytes: &mut &[u8]) -> Option<Facts> {
        let group = layout::take_byte(bytes)?;
        let refuse_percent = layout::take_byte(bytes)?;
        let mut factor = || -> Option<Option<f64>> {
            let hundredths = layout::take(bytes)?;
            Some(hundredths.checked_sub(1).map(|hundredths| hundredths as f64 / 100.0))
        };
        let factors = Factors { nitrogen: factor()?, protein: factor()?, fat: factor()?, carbohydrate: factor()? };
        Some(Facts { group, refuse_percent, factors })
    }
}

impl Portion {
    fn take(bytes: &mut &[u8], text: String) -> Option<Portion> {
        let thousandths = |value: u64| value as f64 / 1000.0;
        Some(Portion {
            amount: thousandths(layout::take(bytes)?),
            text,
            grams: thousandths(layout::take(bytes)?),
            data_points: layout::take(bytes)?.checked_sub(1).map(|points| points as u32),
            deviation: layout::take(bytes)?.checked_sub(1).map(thousandths),
        })
    }
}

#[cfg(test)]
mod tests;
