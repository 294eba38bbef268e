//! One food of a line, said anew: which of its amounts leads, and what it weighs now.

use evencrumb_manuscript::FoodId;
use evencrumb_manuscript::line::{Amount, Item};
use evencrumb_measure::say::{self, Care};
use evencrumb_measure::{Dimension, Measure, Number, Range, Unit};
use evencrumb_pantry::Pantry;
use evencrumb_pantry::row::Food;
use evencrumb_pantry::weigh::Kitchen;

use super::eggs::{self, EggSplit};
use super::{count, volume, weight};
use crate::drawer;
use crate::line::{WeighedItem, WeighedLine};
use crate::sheet::Sheet;

/// What all lines of a recipe share when it is scaled.
pub(super) struct Recipe<'r> {
    /// How many times the recipe.
    pub factor: f64,
    /// Whether its author measures in cups; else spoons are all that is said beside grams.
    pub cups: bool,
    pub pantry: &'r Pantry,
    pub kitchen: Kitchen,
}

/// A new amount in words.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Said {
    /// As a cook follows it: `2 1/4 cups`, `7 eggs plus 1 yolk`.
    pub words: String,
    /// How far it is from the exact amount, as a share of it; negative when it is too little.
    pub error_share: f64,
    /// How many of which measure, largest first; empty where nothing is scooped.
    pub scoops: Vec<(u32, Measure)>,
    /// Whether only a scale can be as exact as this food wants.
    pub scale_needed: bool,
    /// Whether it is less than a kitchen's smallest spoon holds.
    pub too_little: bool,
}

/// A food of a scaled line.
#[derive(Clone, Debug, PartialEq)]
pub struct ScaledFood {
    /// The food's name in the author's words.
    pub written: String,
    /// Which food it is, when the pantry knows.
    pub food: Option<FoodId>,
    /// The new amount; nothing when the line says none, or when it does not grow with the batch.
    pub now: Option<Said>,
    /// Another way to say it: beaten egg beside whole eggs, a measure beside a weight.
    pub or: Option<Said>,
    /// The new grams, exact; nothing when nobody knows what the line weighs or when it does not grow with the batch.
    pub grams: Option<Range>,
    /// The new grams as a scale is read.
    pub printed_grams: Option<f64>,
    /// How far those are from the exact ones, as a share.
    pub printed_error_share: Option<f64>,
    /// Whole eggs and what goes in beside them, where the eggs don't come out whole.
    pub eggs: Option<EggSplit>,
    /// What else must be said, in whole sentences.
    pub notes: Vec<String>,
}

/// Whether any line of the recipe is measured in cups.
pub(super) fn has_cups(sheet: &Sheet) -> bool {
    let lines = sheet.components.iter().flat_map(|component| &component.lines);
    let items = lines.flat_map(|line| line.weighed.foods.iter().chain(&line.weighed.alternatives));
    items.flat_map(|one| &one.item.amounts).any(|amount| amount.terms.iter().any(|term| term.unit == Unit::Cup))
}

impl Recipe<'_> {
    pub(super) fn food(&self, item: &Item) -> Option<&Food> {
        item.food.map(|id| self.pantry.food(id))
    }

    pub(super) fn care(&self, item: &Item) -> Care {
        self.food(item).map_or(Care::Usual, drawer::care)
    }

    /// The error that scoops of this food may have, as a share.
    pub(super) fn allowed(&self, item: &Item) -> f64 {
        self.food(item).map_or(evencrumb_measure::USUAL_ERROR, drawer::allowed_error_share)
    }
}

/// What grows with the pans or with the cook's taste, not with the batch.
fn by_the_pan(line: &WeighedLine, measured: bool) -> Option<&'static str> {
    match line.read.purpose.as_deref()? {
        "greasing" => Some("Not scaled: grease as many pans as you use."),
        // More pieces are rolled in more of it.
        "dusting" if measured && rolls_pieces(line) => None,
        "dusting" => Some("Not scaled: dust as much as the board or the pans need."),
        "frying" => Some("Not scaled: it is as deep as the pan you fry in."),
        "soaking" | "bath" => Some("Not scaled: take enough to cover."),
        _ => None,
    }
}

/// Whether the line is for what pieces are rolled in, and not for the board: sugar, nuts, seeds.
fn rolls_pieces(line: &WeighedLine) -> bool {
    let words = line.text.to_lowercase();
    let floury = line.foods.iter().any(|one| one.item.name.to_lowercase().contains("flour"));
    !floury && ["for rolling", "for coating", "for dredging"].iter().any(|purpose| words.contains(purpose))
}

/// Scales a food of a line.
pub(super) fn scaled(line: &WeighedLine, one: &WeighedItem, recipe: &Recipe<'_>) -> ScaledFood {
    let item = &one.item;
    let mut food = ScaledFood {
        written: item.name.clone(),
        food: item.food,
        now: None,
        or: None,
        grams: None,
        printed_grams: None,
        printed_error_share: None,
        eggs: None,
        notes: Vec::new(),
    };
    if let Some(note) = by_the_pan(line, !item.amounts.is_empty()) {
        food.notes.push(note.to_owned());
        return food;
    }
    let Some(first) = item.amounts.first() else {
        food.notes.push(unmeasured(line, item).to_owned());
        return food;
    };
    if first.terms.iter().any(|term| matches!(term.unit, Unit::Percent | Unit::Part)) {
        food.notes.push("A share of something else: it stays as it is.".to_owned());
        return food;
    }
    if let Some(grams) = &one.weighed.grams {
        let wanted = grams.times(recipe.factor).range();
        let (printed, error) = weight::printed(grams.best(), recipe.factor, recipe.care(item));
        food.grams = Some(wanted);
        // Nobody weighs a pinch.
        let weighable = one.item.amounts.iter().any(|amount| !amount.unit().is_vague());
        food.printed_grams = weighable.then_some(printed);
        food.printed_error_share = weighable.then_some(error);
    }
    if let Some(egg) = eggs::split(one, first, recipe) {
        (food.now, food.or) = egg.ways(item);
        food.eggs = egg.split();
    } else {
        food.now = Some(amount(first, one, recipe));
        // A spoonful is a dollop by another name and a squeeze a splash, and hers stays.
        let written = line.text.get(first.place.clone()).unwrap_or_default().to_lowercase();
        for (hers, ours, ours_several) in [("spoonful", "dollop", "dollops"), ("squeeze", "splash", "splashes")] {
            if let Some(now) = food.now.as_mut().filter(|_| written.contains(hers)) {
                now.words = now.words.replace(ours_several, &format!("{hers}s")).replace(ours, hers);
            }
        }
        food.weigh_first();
        // A weight stays a weight; a measure beside it is said too.
        let beside = item.amounts.iter().skip(1).find(|other| !other.is_weight());
        if let Some(other) = beside.filter(|_| first.is_weight()) {
            food.or = Some(amount(other, one, recipe));
        }
    }
    if line.read.purpose.as_deref() == Some("taste") {
        food.notes.push("Then to taste.".to_owned());
    }
    food
}

impl ScaledFood {
    /// Where no spoon is exact enough and the grams are known, the grams lead and the spoons stand beside them.
    fn weigh_first(&mut self) {
        let Some((grams, error_share)) = self.printed_grams.zip(self.printed_error_share) else { return };
        let Some(now) = self.now.take_if(|now| now.scale_needed) else { return };
        let words = weight::in_grams(grams);
        self.now = Some(Said { words, error_share, scale_needed: true, too_little: now.too_little, ..Said::default() });
        self.or = Some(now);
    }
}

/// What is said of a food without an amount.
fn unmeasured(line: &WeighedLine, item: &Item) -> &'static str {
    match line.read.purpose.as_deref() {
        Some("taste") => "To taste, as before.",
        Some(_) => "As much as it takes.",
        None if item.reference => "Scale that recipe by as much.",
        None => "The line says no amount, so there is none to scale.",
    }
}

/// One amount as written, said anew.
pub(super) fn amount(amount: &Amount, one: &WeighedItem, recipe: &Recipe<'_>) -> Said {
    let mut said = if amount.is_weight() && amount.each.is_none() {
        weight::said(amount, one, recipe)
    } else if amount.terms.iter().all(|term| term.unit.dimension() == Dimension::Volume) && amount.each.is_none() {
        volume::said(amount, one, recipe)
    } else {
        count::said(amount, one, recipe)
    };
    if amount.about {
        said.words = format!("about {}", said.words);
    }
    said
}

/// Two ends of "2 to 3" joined; the larger error counts.
pub(super) fn joined(low: Said, high: Option<Said>) -> Said {
    let Some(high) = high else { return low };
    if low.words == high.words {
        return high;
    }
    let error_share = if low.error_share.abs() > high.error_share.abs() { low.error_share } else { high.error_share };
    Said {
        words: format!("{} to {}", low.words, high.words),
        error_share,
        scoops: Vec::new(),
        scale_needed: low.scale_needed || high.scale_needed,
        too_little: low.too_little || high.too_little,
    }
}

/// A number that need not be whole, as `2 1/2`; a decimal where it is no half, third, quarter or eighth.
pub(super) fn number(value: f64) -> String {
    match fraction(value, &[1, 2, 3, 4, 8], 0.001) {
        Some(fraction) => fraction.to_string(),
        None if value < 1.0 => decimal(value),
        None => decimal((value * 100.0).round() / 100.0),
    }
}

/// The first of these fractions that lies within a share of the value.
pub(super) fn fraction(value: f64, unders: &[u32], within: f64) -> Option<Number> {
    unders.iter().find_map(|under| {
        let over = (value * f64::from(*under)).round();
        let near = (over / f64::from(*under) - value).abs() <= within * value && (1.0..1e6).contains(&over);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 1 to a million")]
        near.then(|| Number::fraction(over as u64, u64::from(*under))).flatten()
    })
}

/// At most three decimals, none of them needless.
pub(super) fn decimal(value: f64) -> String {
    say::decimal(value, 3)
}
