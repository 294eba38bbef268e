//! Reads a file of foods value by value, and says what it could not read.

use std::sync::Arc;

use evencrumb_measure::{Range, Source, Unit};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::{
    Allergen, By, Citation, Cited, Composition, CupWeight, Fault, Food, Gluten, Meant, Part, PieceWeight, Place, Role,
    Size, SugarKind, Way, Whose, Yield,
};
use crate::nutrient::Nutrient;

/// How far a value reaches that names no range.
pub(crate) const UNSAID: f64 = 0.15;

/// The foods of a file, in its order, and what is wrong in it. Text that is not TOML is a fault too; what stands
/// before and after it is read as far as it can be.
pub fn read(file: &str, text: &str, whose: Whose) -> (Vec<Food>, Vec<Fault>) {
    let mut reader = Reader::new(file, text, whose);
    let (document, errors) = DeTable::parse_recoverable(text);
    reader.not_toml(&errors);
    let mut foods = Vec::new();
    for (key, value) in document.get_ref() {
        let rows = value.get_ref().as_array().filter(|_| key.get_ref() == "food");
        let Some(rows) = rows else {
            let place = reader.place(key.span().start);
            reader.fault(
                place,
                format!("`{}` is not a food", key.get_ref()),
                "begin each food with [[food]]".to_owned(),
            );
            continue;
        };
        for row in rows.iter() {
            reader.food = None;
            if let Some(mut fields) = reader.fields(row, "a food") {
                foods.extend(reader.food(&mut fields));
                reader.refuse_the_rest(fields, FOOD_KEYS);
            }
        }
    }
    (foods, reader.faults)
}

pub(crate) const FOOD_KEYS: &str = "name, also, table, stand_in, cup, teaspoon, piece, edible, juice, zest, allergens, gluten, \
                         sugar, roles, strict, meant, composition, abroad, parts, parts_from";

/// Reads values of one file and gathers what is wrong with them.
pub(crate) struct Reader {
    file: Arc<str>,
    /// Where each line begins.
    lines: Vec<usize>,
    whose: Whose,
    pub(crate) food: Option<String>,
    pub(crate) faults: Vec<Fault>,
}

pub(crate) type Value<'v> = Spanned<DeValue<'v>>;

/// A table of the file whose keys are taken one by one, so that what is left over at the end was not understood.
pub(crate) struct Fields<'f, 'v> {
    pub(crate) left: Vec<(&'f str, usize, &'f Value<'v>)>,
    pub(crate) at: usize,
}

impl<'f, 'v> Fields<'f, 'v> {
    pub(crate) fn take(&mut self, key: &str) -> Option<&'f Value<'v>> {
        let found = self.left.iter().position(|(name, _, _)| *name == key)?;
        Some(self.left.swap_remove(found).2)
    }
}

impl Reader {
    pub(crate) fn new(file: &str, text: &str, whose: Whose) -> Reader {
        let lines = std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Reader { file: Arc::from(file), lines, whose, food: None, faults: Vec::new() }
    }

    /// Text that could not be read as TOML.
    pub(crate) fn not_toml(&mut self, errors: &[toml::de::Error]) {
        for error in errors {
            let place = self.place(error.span().map_or(0, |span| span.start));
            self.fault(
                place,
                error.message().to_owned(),
                "the file is TOML: name = \"value\", lists in [ ], rows in { }".to_owned(),
            );
        }
    }

    pub(crate) fn place(&self, offset: usize) -> Place {
        Place { file: Arc::clone(&self.file), line: self.lines.partition_point(|start| *start <= offset) }
    }

    pub(crate) fn fault(&mut self, place: Place, what: String, mend: String) {
        self.faults.push(Fault { place, food: self.food.clone(), what, mend });
    }

    pub(crate) fn fault_at(&mut self, value: &Value<'_>, what: String, mend: impl Into<String>) {
        self.fault(self.place(value.span().start), what, mend.into());
    }

    pub(crate) fn fields<'f, 'v>(&mut self, value: &'f Value<'v>, what: &str) -> Option<Fields<'f, 'v>> {
        let Some(table) = value.get_ref().as_table() else {
            self.fault_at(value, format!("{what} is written as {}", kind(value)), "write { key = value, … }");
            return None;
        };
        let left = table.iter().map(|(key, value)| (key.get_ref().as_ref(), key.span().start, value)).collect();
        Some(Fields { left, at: value.span().start })
    }

    pub(crate) fn refuse_the_rest(&mut self, fields: Fields<'_, '_>, known: &str) {
        for (key, at, _) in fields.left {
            let place = self.place(at);
            self.fault(place, format!("`{key}` is not a word of a row"), format!("one of: {known}"));
        }
    }

    pub(crate) fn food(&mut self, fields: &mut Fields<'_, '_>) -> Option<Food> {
        let place = self.place(fields.at);
        let Some(name) = fields.take("name").and_then(|value| self.text(value, "name")) else {
            self.fault(place, "it has no name".to_owned(), "write name = \"…\"; the row is not used".to_owned());
            fields.left.clear();
            return None;
        };
        self.food = Some(name.clone());
        let optional_text = |reader: &mut Reader, fields: &mut Fields<'_, '_>, key: &str| {
            fields.take(key).and_then(|value| reader.text(value, key))
        };
        Some(Food {
            id: name.replace(' ', "-"),
            also: self.list(fields, "also", |reader, value| reader.text(value, "also")),
            table: fields.take("table").and_then(|value| self.row_number(value)),
            stand_in: optional_text(self, fields, "stand_in"),
            cup: self.list(fields, "cup", Reader::cup),
            teaspoon: fields.take("teaspoon").and_then(|value| self.cited_alone(value, "teaspoon")),
            piece: self.list(fields, "piece", Reader::piece),
            edible: fields.take("edible").and_then(|value| self.cited_alone(value, "edible")),
            juice: fields.take("juice").and_then(|value| self.yields(value, "juice")),
            zest: fields.take("zest").and_then(|value| self.yields(value, "zest")),
            allergens: self.list(fields, "allergens", |reader, value| {
                reader.word(value, "allergen", Allergen::named, Allergen::ALL.iter().map(|it| it.name()))
            }),
            allergens_untold: false,
            gluten: fields
                .take("gluten")
                .and_then(|value| self.word(value, "gluten", Gluten::named, Gluten::ALL.iter().map(|it| it.name()))),
            sugar: fields.take("sugar").and_then(|value| {
                self.word(value, "sugar", SugarKind::named, SugarKind::ALL.iter().map(|it| it.name()))
            }),
            roles: self.list(fields, "roles", |reader, value| {
                reader.word(value, "role", Role::named, Role::ALL.iter().map(|it| it.name()))
            }),
            strict: fields.take("strict").and_then(|value| self.yes_or_no(value, "strict")).unwrap_or(false),
            meant: self.list(fields, "meant", Reader::meant),
            composition: fields.take("composition").and_then(|value| self.composition(value)),
            abroad: optional_text(self, fields, "abroad"),
            parts: self.list(fields, "parts", Reader::part),
            parts_from: fields.take("parts_from").and_then(|value| self.source(value, None)),
            like: None,
            own: Vec::new(),
            name,
            place,
        })
    }

    pub(crate) fn list<T>(
        &mut self,
        fields: &mut Fields<'_, '_>,
        key: &str,
        mut each: impl FnMut(&mut Reader, &Value<'_>) -> Option<T>,
    ) -> Vec<T> {
        let Some(value) = fields.take(key) else { return Vec::new() };
        match value.get_ref().as_array() {
            Some(values) => values.iter().filter_map(|value| each(self, value)).collect(),
            None => {
                // One value without its brackets is plain enough to be taken, and still told.
                self.fault_at(value, format!("`{key}` is not a list"), "put it in [ ]; it was taken as a list of one");
                each(self, value).into_iter().collect()
            }
        }
    }

    fn cup(&mut self, value: &Value<'_>) -> Option<CupWeight> {
        let mut fields = self.fields(value, "a cup")?;
        let way = match fields.take("way") {
            Some(way) => Some(self.word(way, "way of filling", Way::named, Way::ALL.iter().map(|it| it.name()))?),
            None => {
                self.fault_at(value, "a cup without a way of filling".to_owned(), "write way = \"spooned\", say");
                None
            }
        };
        let dense = fields.take("dense").and_then(|value| self.text(value, "dense"));
        let grams = self.cited(&mut fields, "cup");
        self.refuse_the_rest(fields, "way, best, low, high, from, portion, dense");
        Some(CupWeight { way, grams: grams?, dense })
    }

    fn piece(&mut self, value: &Value<'_>) -> Option<PieceWeight> {
        let mut fields = self.fields(value, "a piece")?;
        let unit = match fields.take("unit") {
            Some(unit) => self.word(
                unit,
                "unit",
                counted,
                Unit::ALL.iter().map(|it| it.name()).filter(|name| counted(name).is_some()),
            )?,
            None => {
                self.fault_at(
                    value,
                    "a piece without a unit".to_owned(),
                    "write unit = \"piece\", say; piece was taken",
                );
                Unit::Piece
            }
        };
        let size = match fields.take("size") {
            Some(size) => Some(self.word(size, "size", Size::named, Size::ALL.iter().map(|it| it.name()))?),
            None => None,
        };
        let grams = self.cited(&mut fields, "piece");
        self.refuse_the_rest(fields, "unit, size, best, low, high, from, portion");
        Some(PieceWeight { unit, size, grams: grams? })
    }

    fn yields(&mut self, value: &Value<'_>, what: &str) -> Option<Yield> {
        let mut fields = self.fields(value, what)?;
        let food = fields.take("food").and_then(|food| self.text(food, "food"));
        let grams = self.cited(&mut fields, what);
        self.refuse_the_rest(fields, "food, best, low, high, from, portion");
        if food.is_none() {
            self.fault_at(value, format!("{what} of no food"), "write food = \"lemon juice\", say");
        }
        Some(Yield { food: food?, grams: grams? })
    }

    fn cited_alone(&mut self, value: &Value<'_>, what: &str) -> Option<Cited> {
        let mut fields = self.fields(value, what)?;
        let cited = self.cited(&mut fields, what);
        self.refuse_the_rest(fields, "best, low, high, from, portion");
        cited
    }

    /// Best, low, high and where they come from. A value without a source is not used unless it is the author's.
    fn cited(&mut self, fields: &mut Fields<'_, '_>, what: &str) -> Option<Cited> {
        let place = self.place(fields.at);
        let number = |reader: &mut Reader, fields: &mut Fields<'_, '_>, key: &str| {
            fields.take(key).and_then(|value| reader.number(value, key))
        };
        let (best, low, high) =
            (number(self, fields, "best"), number(self, fields, "low"), number(self, fields, "high"));
        let from = self.citation(fields, what, &place);
        let Some(best) = best else {
            self.fault(place, format!("{what} has no best value"), "write best = …; it is not used".to_owned());
            return None;
        };
        if self.whose == Whose::Ours && (low.is_none() || high.is_none()) {
            let mend = "write low = … and high = …; 15 % either side was taken".to_owned();
            self.fault(place.clone(), format!("{what} has no range"), mend);
        }
        let (low, high) = (low.unwrap_or(best * (1.0 - UNSAID)), high.unwrap_or(best * (1.0 + UNSAID)));
        let range = Range::new(low, best, high).filter(|range| range.low() >= 0.0);
        if range.is_none() {
            let mend = "order them low, best, high; it is not used".to_owned();
            self.fault(place.clone(), format!("{what} goes from {low} over {best} to {high}"), mend);
        }
        Some(Cited { range: range?, from: from?, place })
    }

    fn citation(&mut self, fields: &mut Fields<'_, '_>, what: &str, place: &Place) -> Option<Citation> {
        let portion = fields.take("portion").and_then(|value| self.text(value, "portion"));
        match (fields.take("from"), self.whose) {
            (Some(value), _) => self.source(value, portion),
            (None, Whose::Author) => {
                Source::by_id("own").map(|source| Citation { source, row: None, portion, words: None })
            }
            (None, Whose::Ours) => {
                let mend = "write from = \"…\"; without a source it is not used".to_owned();
                self.fault(place.clone(), format!("{what} has no source"), mend);
                None
            }
        }
    }

    fn source(&mut self, value: &Value<'_>, portion: Option<String>) -> Option<Citation> {
        let id = self.text(value, "from")?;
        let Some(source) = Source::by_id(&id) else {
            let known: Vec<&str> = Source::all().iter().map(|source| source.id.as_str()).collect();
            self.fault_at(value, format!("there is no source `{id}`"), format!("one of: {}", known.join(", ")));
            return None;
        };
        let row = id.split_once(':').map(|(_, row)| row);
        let number = row.and_then(|row| row.parse().ok());
        if row.is_some() && number.is_none() {
            self.fault_at(value, format!("`{id}` names a row that is not a number"), "write \"sr28:9150\", say");
        }
        Some(Citation { source, row: number, portion, words: None })
    }

    fn composition(&mut self, value: &Value<'_>) -> Option<Composition> {
        let mut fields = self.fields(value, "composition")?;
        let place = self.place(fields.at);
        let from = self.citation(&mut fields, "composition", &place);
        let mut values = Vec::new();
        for (key, at, value) in std::mem::take(&mut fields.left) {
            match Nutrient::of_key(key) {
                Some(nutrient) => values.extend(self.number(value, key).map(|value| (nutrient, value))),
                None => {
                    let known: Vec<String> = Nutrient::ALL.iter().map(|nutrient| nutrient.key()).take(45).collect();
                    let place = self.place(at);
                    self.fault(place, format!("`{key}` is not a nutrient"), format!("one of: {}", known.join(", ")));
                }
            }
        }
        values.sort_by_key(|(nutrient, _)| *nutrient);
        Some(Composition { values, from: from?, place })
    }

    fn meant(&mut self, value: &Value<'_>) -> Option<Meant> {
        let mut fields = self.fields(value, "a meaning")?;
        let place = self.place(fields.at);
        let name = fields.take("name").and_then(|name| self.text(name, "name"));
        let food = fields.take("food").and_then(|food| self.text(food, "food"));
        let by = self.list(&mut fields, "by", |reader, value| {
            let units = Unit::ALL.iter().map(|it| it.name());
            reader.word(value, "measure", measure, units.chain(Way::ALL.iter().map(|it| it.name())))
        });
        self.refuse_the_rest(fields, "name, by, food");
        if name.is_none() || food.is_none() || by.is_empty() {
            let mend = "write { name = \"red pepper\", by = [\"teaspoon\"], food = \"red pepper flake\" }";
            self.fault_at(value, "a meaning needs a name, its measures and a food".to_owned(), mend);
            return None;
        }
        Some(Meant { name: name?, by, food: food?, place })
    }

    fn part(&mut self, value: &Value<'_>) -> Option<Part> {
        let mut fields = self.fields(value, "a part")?;
        let food = fields.take("food").and_then(|food| self.text(food, "food"));
        let share = fields.take("share").and_then(|share| self.number(share, "share"));
        self.refuse_the_rest(fields, "food, share");
        if food.is_none() || share.is_none() {
            self.fault_at(value, "a part needs a food and a share".to_owned(), "write { food = \"…\", share = 0.5 }");
        }
        Some(Part { food: food?, share: share? })
    }

    fn row_number(&mut self, value: &Value<'_>) -> Option<u32> {
        let number = value.get_ref().as_integer().filter(|number| number.radix() == 10);
        let number = number.and_then(|number| number.as_str().parse().ok());
        if number.is_none() {
            self.fault_at(value, "`table` is not the number of a row".to_owned(), "write table = 12120, say");
        }
        number
    }

    /// Numbers of a row are finite and not negative.
    pub(crate) fn number(&mut self, value: &Value<'_>, key: &str) -> Option<f64> {
        let text = match value.get_ref() {
            DeValue::Integer(number) if number.radix() == 10 => Some(number.as_str()),
            DeValue::Float(number) => Some(number.as_str()),
            _ => None,
        };
        match text.and_then(|text| text.parse::<f64>().ok()).filter(|number| number.is_finite()) {
            Some(number) if number >= 0.0 => return Some(number),
            Some(number) => {
                let mend = format!("write {key} = {}, if that is meant; it is not used", -number);
                self.fault_at(value, format!("`{key}` is {number}, below zero"), mend);
            }
            None => {
                let mend = format!("write {key} = 120, say; it is not used");
                self.fault_at(value, format!("`{key}` is not a number"), mend);
            }
        }
        None
    }

    pub(crate) fn text(&mut self, value: &Value<'_>, key: &str) -> Option<String> {
        let text = value.get_ref().as_str().map(str::trim).filter(|text| !text.is_empty());
        if text.is_none() {
            self.fault_at(value, format!("`{key}` holds no words"), format!("write {key} = \"…\""));
        }
        text.map(str::to_owned)
    }

    pub(crate) fn yes_or_no(&mut self, value: &Value<'_>, key: &str) -> Option<bool> {
        let answer = value.get_ref().as_bool();
        if answer.is_none() {
            self.fault_at(value, format!("`{key}` is neither true nor false"), format!("write {key} = true"));
        }
        answer
    }

    fn word<T>(
        &mut self,
        value: &Value<'_>,
        list: &str,
        named: impl Fn(&str) -> Option<T>,
        known: impl Iterator<Item = &'static str>,
    ) -> Option<T> {
        let word = self.text(value, list)?;
        let meant = named(&word);
        if meant.is_none() {
            let known: Vec<&str> = known.collect();
            self.fault_at(value, format!("`{word}` is not a {list}"), format!("one of: {}", known.join(", ")));
        }
        meant
    }
}

/// A unit or a way of filling.
fn measure(word: &str) -> Option<By> {
    Unit::named(word).map(By::Unit).or_else(|| Way::named(word).map(By::Way))
}

/// A unit that counts things, and the few vague ones whose weight a food may know.
fn counted(name: &str) -> Option<Unit> {
    use evencrumb_measure::Dimension;
    Unit::named(name).filter(|unit| {
        unit.dimension() == Dimension::Count
            || matches!(unit, Unit::Handful | Unit::Knob | Unit::Drop | Unit::Scoop | Unit::Shot)
    })
}

fn kind(value: &Value<'_>) -> &'static str {
    match value.get_ref() {
        DeValue::String(_) => "words",
        DeValue::Integer(_) | DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}
