//! `evencrumb food`: all that is known of a food, and from where.

use std::path::Path;

use evencrumb_desk::wire::{
    CompositionAnswer, CompositionFrom, FoodAnswer, FoodRow, GivenAnswer, NutrientAnswer, PieceAnswer, SourceAnswer,
    Span,
};
use evencrumb_pantry::Nutrient;

use crate::page::Page;
use crate::trouble::Trouble;
use crate::{Outcome, out, say};

/// The last nutrient that is told on a line of its own: a label ends with it.
const LAST_OF_THE_LABEL: Nutrient = Nutrient::Potassium;

/// The first of the fatty acids, which come last.
const FIRST_ACID: Nutrient = Nutrient::Acid4To0;

/// Carries out the command.
///
/// With `all`, single fatty acids are told too.
pub fn run(name: &str, all: bool, json: bool) -> Result<Outcome, Trouble> {
    let (foods, _) = out::at_hand(Path::new("."));
    if let Some(food) = foods.pantry.named(name) {
        out::odd_of(&foods, food);
    }
    let answer = FoodAnswer { kitchen_faults: out::kitchen_faults(), ..FoodAnswer::of(name, &foods.pantry) };
    let outcome = if answer.food.is_some() { Outcome::Fine } else { Outcome::ToMend };
    out::answer(&answer, json, outcome, || text(&answer, all))
}

fn text(answer: &FoodAnswer, all: bool) -> String {
    let mut page = Page::for_terminal();
    match &answer.food {
        Some(food) => Telling { page: &mut page, sources: Vec::new(), all }.food(food),
        None => not_known(answer, &mut page),
    }
    page.into_text()
}

fn not_known(answer: &FoodAnswer, page: &mut Page) {
    page.line(0, &format!("“{}” is not a food known here.", say::echo(&answer.asked)));
    if answer.nearest.is_empty() {
        page.line(2, "No name is near to it.");
        return;
    }
    let names: Vec<String> = answer.nearest.iter().map(|near| format!("“{}”", near.name)).collect();
    page.line(2, &format!("The nearest: {}.", names.join(", ")));
}

/// A food being told; sources are gathered and named once, at the end.
struct Telling<'p> {
    page: &'p mut Page,
    sources: Vec<(String, String)>,
    /// Whether single fatty acids are told too.
    all: bool,
}

impl Telling<'_> {
    fn food(&mut self, food: &FoodRow) {
        self.page.line(0, &food.name);
        if !food.also.is_empty() {
            self.page.line(2, &format!("also called {}", food.also.join(", ")));
        }
        for own in &food.own {
            self.page.line(2, own);
        }
        self.nature(food);
        self.weights(food);
        self.composition(food);
        self.named_sources();
    }

    fn weights(&mut self, food: &FoodRow) {
        let mut rows: Vec<(String, String)> = Vec::new();
        for cup in &food.cup {
            let way = cup.way.as_ref().map(|way| format!(", {way}")).unwrap_or_default();
            rows.push((format!("a US cup{way}"), self.cited(&cup.grams, "g", &cup.from)));
        }
        if let Some(spoon) = &food.teaspoon {
            rows.push(("a US teaspoon".to_owned(), self.cited(&spoon.grams, "g", &spoon.from)));
        }
        for piece in &food.pieces {
            rows.push((one(piece), self.cited(&piece.grams, "g", &piece.from)));
        }
        for given in food.juice.iter().chain(&food.zest) {
            rows.push((format!("{} of one", given.food), self.given(given)));
        }
        for given in &food.given_by {
            rows.push((format!("from one {}", given.food), self.given(given)));
        }
        if let Some(edible) = &food.edible {
            let percent = |share: f64| 100.0 * share;
            let share = &edible.share;
            let words =
                say::range(percent(share.best.value()), percent(share.low.value()), percent(share.high.value()), "%");
            rows.push(("eaten, of what is bought".to_owned(), format!("{words}  {}", self.source(&edible.from))));
        }
        if rows.is_empty() {
            self.heading("Weights: none are known");
        } else {
            self.heading("Weights");
            self.rows(&rows);
        }
        for dense in food.cup.iter().filter_map(|cup| cup.dense.as_ref()) {
            self.page.line(2, dense);
        }
    }

    fn nature(&mut self, food: &FoodRow) {
        self.heading("What it is");
        let unknown = || "unknown".to_owned();
        let allergens = match food.allergens.as_deref() {
            None => "not told by its row, which is not “none”".to_owned(),
            Some([]) => "none named in its row".to_owned(),
            Some(some) => some.join(", "),
        };
        let gluten = match food.gluten.as_deref() {
            None => unknown(),
            Some("none") => "none of its own".to_owned(),
            Some("check") => "packets differ: read yours".to_owned(),
            Some(word) => word.to_owned(),
        };
        let sugar = match food.sugar.as_deref() {
            None => unknown(),
            Some("none") => "holds none to count".to_owned(),
            Some("added") => "count as added sugars".to_owned(),
            Some("intrinsic") => "its own, in the whole food".to_owned(),
            Some("milk") => "those of milk".to_owned(),
            Some("juice") => "those of juice".to_owned(),
            Some(word) => word.to_owned(),
        };
        let roles = if food.roles.is_empty() { unknown() } else { food.roles.join(", ") };
        let rows = [("allergens", allergens), ("gluten", gluten), ("sugars", sugar), ("in a recipe", roles)];
        self.rows(&rows.map(|(label, text)| (label.to_owned(), text)));
    }

    fn composition(&mut self, food: &FoodRow) {
        let Some(held) = &food.composition else {
            self.heading("100 g hold: not known");
            return;
        };
        self.heading("100 g of the edible part hold");
        let origin = self.origin(held, food);
        self.page.line(2, &origin);
        if let Some(why) = &food.stand_in {
            self.page.line(2, &format!("That row stands in: {why}"));
        }
        let (label, further) = held.nutrients.split_at(LAST_OF_THE_LABEL as usize + 1);
        let (vitamins, acids) = further.split_at(FIRST_ACID as usize - label.len());
        let known = |it: &&NutrientAnswer| it.value.is_some();
        let rows: Vec<(String, String)> = label.iter().filter(known).map(|it| (it.name.clone(), amount(it))).collect();
        self.rows(&rows);
        for (nutrient, reckoned) in held.nutrients.iter().filter_map(|it| Some((it, it.reckoned.as_ref()?))) {
            let range = [reckoned.low, reckoned.high].map(|it| say::number(it.value()));
            let [low, high] = range;
            self.page.line(2, &format!("{} ({low} to {high}) is {}", nutrient.name, reckoned.how));
        }
        let told = if self.all { further } else { vitamins };
        let also: Vec<String> =
            told.iter().filter(known).map(|it| format!("{}\u{a0}{}", it.name, amount(it))).collect();
        if !also.is_empty() {
            self.page.line(2, &format!("further: {}", also.join(", ")));
        }
        let unknown: Vec<&str> = label.iter().chain(told).filter(|it| !known(it)).map(|it| it.name.as_str()).collect();
        if !unknown.is_empty() {
            self.page.line(2, &format!("unknown, which is not zero: {}", unknown.join(", ")));
        }
        if !self.all && acids.iter().any(|it| known(&it)) {
            self.page.line(2, "Single fatty acids: ask with --all.");
        }
    }

    fn origin(&mut self, held: &CompositionAnswer, food: &FoodRow) -> String {
        let source = held.from.as_ref().map(|from| self.source(from)).unwrap_or_default();
        match held.by {
            CompositionFrom::Table => {
                let description = food.table.as_ref().and_then(|table| table.description.clone()).unwrap_or_default();
                format!("{source}, “{description}”")
            }
            CompositionFrom::Own => format!("from its own row {source}"),
            CompositionFrom::Parts => {
                let parts: Vec<String> = held
                    .parts
                    .iter()
                    .map(|part| format!("{} % {}", say::number(100.0 * part.share.value()), part.food))
                    .collect();
                format!("mixed of {} {source}", parts.join(", "))
            }
        }
    }

    fn heading(&mut self, words: &str) {
        self.page.gap();
        self.page.line(0, words);
    }

    fn rows(&mut self, rows: &[(String, String)]) {
        let width = rows.iter().map(|(label, _)| label.chars().count()).max().unwrap_or(0);
        for (label, text) in rows {
            self.page.row(2, label, width, text);
        }
    }

    fn given(&mut self, given: &GivenAnswer) -> String {
        self.cited(&given.grams, "g", &given.from)
    }

    fn cited(&mut self, span: &Span, unit: &str, from: &SourceAnswer) -> String {
        let words = say::range(span.best.value(), span.low.value(), span.high.value(), unit);
        format!("{words}  {}", self.source(from))
    }

    /// A number for the source, and the row and portion in it.
    fn source(&mut self, from: &SourceAnswer) -> String {
        let source = (from.title.clone(), from.status.clone());
        let at = self.sources.iter().position(|known| *known == source).unwrap_or_else(|| {
            self.sources.push(source);
            self.sources.len() - 1
        });
        let row = from.row.map(|row| format!(" row {row}")).unwrap_or_default();
        let portion = from.portion.as_ref().map(|portion| format!(", “{portion}”")).unwrap_or_default();
        format!("[{}]{row}{portion}", at + 1)
    }

    fn named_sources(&mut self) {
        if self.sources.is_empty() {
            return;
        }
        self.heading("Sources");
        for (at, (title, status)) in self.sources.iter().enumerate() {
            self.page.line(2, &format!("[{}] {}", at + 1, say::source(title, status)));
        }
    }
}

/// What is counted, as `one slice`, `one, large` or `one, EU class M`.
fn one(piece: &PieceAnswer) -> String {
    let unit = if piece.unit == "piece" { String::new() } else { format!(" {}", piece.unit) };
    let size = match piece.size.as_deref() {
        None => String::new(),
        Some(size) => match size.strip_prefix("eu ") {
            Some(class) => format!(", EU class {}", class.to_uppercase()),
            None => format!(", {size}"),
        },
    };
    format!("one{unit}{size}")
}

/// With a space that does not break between number and unit.
fn amount(nutrient: &NutrientAnswer) -> String {
    nutrient
        .value
        .map_or_else(|| "unknown".to_owned(), |value| format!("{}\u{a0}{}", say::number(value.value()), nutrient.unit))
}
