//! Where a figure comes from: walked back to lines, foods, rows of the table and assumptions.
//!
//! [`reading`] understands what is asked ("sugar per serving") as a [`question`], [`answer`] walks the sheet. What comes out is a tree of
//! reasons, each with its figure and what it leans on; faces lay it out.

mod added;
mod answer;
mod filled;
mod held;
mod names;
mod near;
mod numbers;
mod one;
mod question;
mod quoted;
mod ratio;
mod reading;
mod share;
mod spent;
mod words;

use evencrumb_measure::{Currency, Estimate, Number, Source};
use evencrumb_pantry::{Nutrient, Pantry};

use crate::cost::Cost;
use crate::sheet::Sheet;

pub use question::{Misunderstood, Of, Per, Question, What};
pub use reading::read;

/// A figure and where it comes from.
#[derive(Clone, Debug)]
pub struct Why {
    /// The figure, and under it what it is made of.
    pub figure: Reason,
    /// Foods for which it is not known, so that the figure is a least.
    pub unknown: Vec<String>,
    /// What makes it unsure, the strongest first: the influence, and how far it may pull down and up in the figure's unit.
    pub doubts: Vec<(String, f64, f64)>,
}

/// A step on the way back.
#[derive(Clone, Debug)]
pub struct Reason {
    /// What it is, in words.
    pub words: String,
    /// The figure, where the step has one.
    pub value: Option<Estimate>,
    /// The unit of the figure: `g`, `kcal`, `mg` or `µg`, or the code of a currency.
    pub unit: String,
    /// What it leans on.
    pub source: Option<&'static Source>,
    /// What it is made of, the largest first where things are added up.
    pub under: Vec<Reason>,
}

/// Answers a question about a sheet.
///
/// # Errors
/// Gives what was not understood and what can be asked.
pub fn why(sheet: &Sheet, question: &str, pantry: &Pantry, priced: Option<Priced<'_>>) -> Result<Why, Misunderstood> {
    answered(sheet, question, pantry, priced).map_err(|wrong| near::told(wrong, sheet, pantry, priced))
}

/// The answer, or what was not understood without questions near to it.
fn answered(sheet: &Sheet, question: &str, pantry: &Pantry, priced: Option<Priced<'_>>) -> Result<Why, Misunderstood> {
    if let Some((one, other)) = ratio::sides(question) {
        return ratio::answer((&one, &other), sheet, pantry, priced);
    }
    let question = read(question, sheet, pantry)?;
    match question.quoted.filter(|_| question.per.is_none()) {
        Some(quoted) if question.what.is_summed() => quoted::answer(quoted, &question, sheet, pantry, priced),
        _ => of_question(sheet, &question, pantry, priced),
    }
}

/// Answers a question that was understood.
fn of_question(
    sheet: &Sheet,
    question: &Question,
    pantry: &Pantry,
    priced: Option<Priced<'_>>,
) -> Result<Why, Misunderstood> {
    let whole = match (question.what, priced) {
        (What::Allergens, _) => Ok(held::answer(sheet, question, pantry)),
        (What::Yield, _) => made(sheet),
        (What::AddedSugars, _) => added::answer(sheet, question, pantry),
        (What::Grams | What::Cost, _) if question.one && matches!(question.of, Of::Lines(_)) => {
            let all = Question { one: false, ..question.clone() };
            one::answer(sheet, question, of_question(sheet, &all, pantry, priced)?)
        }
        (What::Cost, Some(priced)) => spent::answer(sheet, question, pantry, priced),
        (What::Cost, None) => Err(Misunderstood {
            said: "There is no cost: no price is known in this kitchen".to_owned(),
            mend: "Write prices into prices.toml of the kitchen folder.".to_owned(),
            near_to: None,
        }),
        (What::Full | What::Deep, _) => filled::answer(sheet, question),
        (What::Hydration | What::Prefermented, _) => share::hydration(sheet, question, pantry),
        (What::Share | What::BakersPercent, _) => share::of_lines(sheet, question),
        _ => answer::answer(sheet, question, pantry),
    }?;
    match question.per {
        Some(per) => whole.divided(per, question.times, sheet),
        None => Ok(whole),
    }
}

/// How many it makes or serves, as the text says.
fn made(sheet: &Sheet) -> Result<Why, Misunderstood> {
    let number = sheet.servings().ok_or_else(|| answer::nothing("how many it serves", "the text does not say"))?;
    let word = sheet.makes.word.clone().unwrap_or_else(|| "pieces".to_owned());
    let count = |(low, high): (f64, f64)| if low < high { format!("{low} to {high}") } else { low.to_string() };
    let makes = sheet.makes.pieces.map(|pieces| format!("the text says that it makes {} {word}", count(pieces)));
    let serves = sheet.makes.servings.map(|servings| format!("the text says that it serves {}", count(servings)));
    let under = makes.into_iter().chain(serves).map(written).collect();
    let words = if sheet.makes.servings.is_some() { "servings".to_owned() } else { word };
    let figure = Reason { value: Some(number), unit: String::new(), under, ..answer::plain(words) };
    Ok(Why::of(figure, Vec::new()))
}

/// A step that leans on the author's own words.
fn written(words: String) -> Reason {
    Reason { source: Source::by_id("manuscript"), ..answer::plain(words) }
}

/// What a sheet costs.
#[derive(Clone, Copy, Debug)]
pub struct Priced<'a> {
    /// The cost, in the smallest coins.
    pub cost: &'a Cost,
    /// Whose coins.
    pub currency: Currency,
}

impl Why {
    /// The figure for so many servings or pieces.
    fn divided(self, per: Per, times: Number, sheet: &Sheet) -> Result<Why, Misunderstood> {
        let piece = per == Per::Piece;
        let number = if piece { sheet.pieces() } else { sheet.servings() };
        let Some(number) = number else {
            let what = if piece { "how many pieces it makes" } else { "how many it serves" };
            return Err(answer::nothing(what, "the text does not say"));
        };
        let said = piece || sheet.makes.servings.is_none();
        let word = sheet
            .makes
            .word
            .clone()
            .filter(|_| said)
            .unwrap_or_else(|| if piece { "pieces".to_owned() } else { "servings".to_owned() });
        let one = evencrumb_manuscript::word::singular(&word.to_lowercase());
        let (of, then) = match times == Number::ONE {
            true => (format!("one {one}"), String::new()),
            false if times > Number::ONE => (format!("{times} {}", word.to_lowercase()), format!(", times {times}")),
            false => (format!("{times} of a {one}"), format!(", times {times}")),
        };
        // "Makes 1 1/2 cups".
        let said = evencrumb_measure::say::decimal(number.best(), 2);
        let whole = self.figure;
        let figure = Reason {
            words: format!("{}, for {of}", whole.words),
            value: whole.value.as_ref().map(|value| value.product(&number.inverse()).times(times.value())),
            unit: whole.unit.clone(),
            source: None,
            under: vec![written(format!("the text says {said} {word}; divided by that{then}")), whole],
        };
        Ok(Why::of(figure, self.unknown))
    }

    /// A figure with what is not known of it; its doubts are sorted.
    fn of(figure: Reason, unknown: Vec<String>) -> Why {
        let mut doubts: Vec<(String, f64, f64)> = figure
            .value
            .iter()
            .flat_map(Estimate::pulls)
            .map(|pull| (pull.influence.to_string(), pull.down, pull.up))
            .collect();
        doubts.sort_by(|a, b| (b.1 + b.2).total_cmp(&(a.1 + a.2)).then_with(|| a.0.cmp(&b.0)));
        Why { figure, unknown, doubts }
    }
}

impl What {
    /// Whether it is a sum over lines, of which a part can be told.
    fn is_summed(self) -> bool {
        matches!(self, What::Grams | What::Cost | What::Nutrient(_) | What::Kilojoules | What::Salt | What::AddedSugars)
    }

    /// The nutrient it is computed from, and how much of it one unit of that gives.
    fn nutrient(self) -> Option<(Nutrient, f64)> {
        match self {
            What::Nutrient(nutrient) => Some((nutrient, 1.0)),
            // Grams of salt from milligrams of sodium.
            What::Salt => Some((Nutrient::Sodium, 0.0025)),
            What::Kilojoules => Some((Nutrient::Energy, 4.184)),
            _ => None,
        }
    }

    /// The unit of its figures.
    pub fn unit(self) -> &'static str {
        match self {
            What::Grams => "g",
            // Money is told in the currency of the prices.
            What::Cost => "",
            What::Nutrient(nutrient) => nutrient.unit(),
            What::Kilojoules => "kJ",
            What::Salt | What::AddedSugars => "g",
            What::Yield | What::Allergens => "",
            What::Hydration
            | What::Prefermented
            | What::Share
            | What::BakersPercent
            | What::Full
            | What::PerHundred => "%",
            What::Deep => "mm",
        }
    }

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            What::Grams => "weight",
            What::Cost => "cost",
            What::Nutrient(nutrient) => Nutrient::name(nutrient),
            What::Kilojoules => "energy",
            What::Salt => "salt",
            What::AddedSugars => "added sugars",
            What::PerHundred => "grams in 100 g",
            What::Yield => "how many it makes",
            What::Allergens => "allergens",
            What::Hydration => "hydration",
            What::Prefermented => "prefermented flour",
            What::Share => "share",
            What::BakersPercent => "baker’s percentage",
            What::Full => "how full it is",
            What::Deep => "how deep it stands",
        }
    }
}

#[cfg(test)]
mod tests;
