//! Counted things said anew: whole where they come out whole, else halves, else whole ones and a weighed part of another.

use evencrumb_manuscript::line::{Amount, Item};
use evencrumb_manuscript::word::name_key;
use evencrumb_measure::say::{self, Care};
use evencrumb_measure::{Dimension, Number, Unit, spoons};
use evencrumb_pantry::row::Role;
use evencrumb_pantry::weigh;

use super::food::{Recipe, Said, joined, number};
use super::{volume, weight};
use crate::drawer::FORGIVEN;
use crate::line::WeighedItem;

/// A counted amount, or one in which counts and measures are added up.
pub(super) fn said(amount: &Amount, one: &WeighedItem, recipe: &Recipe<'_>) -> Said {
    let dimension = amount.unit().dimension();
    if amount.terms.iter().any(|term| term.unit.dimension() != dimension || term.unit.dimension() != Dimension::Count)
        && amount.terms.len() > 1
    {
        return mixed(amount, one, recipe);
    }
    let (low, high) = amount.quantity(recipe.kitchen.custom);
    let say = |count: f64| one_end(amount, count, one, recipe);
    joined(say(low), (high > low).then(|| say(high)))
}

/// "1 stick plus 2 tablespoons": measured together where a cup of the food is known, else term by term.
fn mixed(amount: &Amount, one: &WeighedItem, recipe: &Recipe<'_>) -> Said {
    if let Some(said) = by_density(one, recipe) {
        return said;
    }
    let mut words = String::new();
    for term in &amount.terms {
        if !words.is_empty() {
            words.push_str(if term.minus { " less " } else { " plus " });
        }
        let value = term.high.value() * recipe.factor;
        words.push_str(&format!("{} {}", number(value), plural(term.unit.name(), value)));
    }
    Said { words, ..Said::default() }
}

/// The grams of the food in cups and spoons.
fn by_density(one: &WeighedItem, recipe: &Recipe<'_>) -> Option<Said> {
    let grams = one.weighed.grams.as_ref()?.best() * recipe.factor;
    let (density, _) = weigh::grams_per_millilitre(recipe.food(&one.item)?, &one.item.ways, false)?;
    Some(volume::in_scoops(grams / density.best(), recipe.cups, one, recipe))
}

/// How a counted thing may be cut.
#[derive(PartialEq)]
enum Cuts {
    /// Anyhow: lengths, batches, servings.
    Anyhow,
    /// A wrapper has marks for quarters.
    Quarters,
    /// Fruits, sheets, pods and slices can be halved by eye.
    Halves,
    /// What is in a pack can't be seen, so a part of it is weighed.
    Never,
}

fn cuts(unit: Unit) -> Cuts {
    match unit {
        Unit::Batch | Unit::Serving | Unit::Inch | Unit::Centimetre => Cuts::Anyhow,
        Unit::Stick => Cuts::Quarters,
        Unit::Packet
        | Unit::Package
        | Unit::Can
        | Unit::Jar
        | Unit::Carton
        | Unit::Bottle
        | Unit::Bag
        | Unit::Box
        | Unit::Tub
        | Unit::Tube => Cuts::Never,
        _ => Cuts::Halves,
    }
}

fn one_end(amount: &Amount, written: f64, one: &WeighedItem, recipe: &Recipe<'_>) -> Said {
    let count = written * recipe.factor;
    let small = grams_of_one(amount, one, recipe).is_some_and(|each| each < SMALL_THING_GRAMS);
    if small && cuts(amount.unit()) == Cuts::Halves {
        let whole = count.round().max(1.0);
        let words = named(amount, &one.item, whole, written);
        return Said { words, error_share: (whole - count) / count, ..Said::default() };
    }
    let parts = match cuts(amount.unit()) {
        // A white or a yolk is poured and weighed, and can't be cut in half.
        _ if is_of_egg(&one.item, recipe) => 1.0,
        Cuts::Anyhow => return Said { words: named(amount, &one.item, count, written), ..Said::default() },
        Cuts::Quarters => 4.0,
        Cuts::Halves => 2.0,
        Cuts::Never => 1.0,
    };
    let cut = (count * parts).round() / parts;
    if cut > 0.0 && (cut - count).abs() < 1e-6 * cut {
        return Said { words: named(amount, &one.item, cut, written), ..Said::default() };
    }
    // Nobody weighs a slip of another lemon.
    let nearest = [count.round(), cut].into_iter().find(|near| *near > 0.0 && (near / count - 1.0).abs() <= FORGIVEN);
    let forgiving = recipe.care(&one.item) == Care::Usual && !is_of_egg(&one.item, recipe);
    if let Some(near) = nearest.filter(|_| forgiving && amount.unit() != Unit::Stick) {
        return Said {
            words: named(amount, &one.item, near, written),
            error_share: near / count - 1.0,
            ..Said::default()
        };
    }
    if amount.unit() == Unit::Stick
        && let Some(said) = by_density(one, recipe)
    {
        return said;
    }
    let Some(each) = grams_of_one(amount, one, recipe) else {
        return Said { words: named(amount, &one.item, count, written), ..Said::default() };
    };
    let whole = (count + 1e-6).floor();
    let (rest, error) = weight::printed(each, count - whole, recipe.care(&one.item));
    let spoons = as_spoons(rest, one, recipe).map(|words| format!(" ({words})")).unwrap_or_default();
    let words = if whole > 0.0 {
        format!("{} plus {}{spoons} of another", named(amount, &one.item, whole, written), weight::in_grams(rest))
    } else {
        format!("{}{spoons} of {}", weight::in_grams(rest), named(amount, &one.item, 1.0, written))
    };
    Said { words, error_share: error * (count - whole) / count, ..Said::default() }
}

/// Nobody cuts or weighs a part of a leaf, a pod or a clove that weighs less than this (common practice, no source).
const SMALL_THING_GRAMS: f64 = 2.0;

/// Grams of one counted thing of this line.
fn grams_of_one(amount: &Amount, one: &WeighedItem, recipe: &Recipe<'_>) -> Option<f64> {
    let (low, high) = amount.quantity(recipe.kitchen.custom);
    let count = f64::midpoint(low, high);
    let grams = one.weighed.grams.as_ref()?.best();
    (count > 0.0 && grams > 0.0).then(|| grams / count)
}

/// How far spoons may be off that only stand beside grams, as a share.
const BESIDE_GRAMS: f64 = 0.05;

fn is_of_egg(item: &Item, recipe: &Recipe<'_>) -> bool {
    recipe.food(item).is_some_and(|food| food.roles.first() == Some(&Role::Egg))
}

/// A part of a white or a yolk in spoons, since it can be poured.
fn as_spoons(grams: f64, one: &WeighedItem, recipe: &Recipe<'_>) -> Option<String> {
    let food = recipe.food(&one.item).filter(|_| is_of_egg(&one.item, recipe))?;
    let (density, _) = weigh::grams_per_millilitre(food, &[], true)?;
    let scoops = spoons(grams / density.best(), BESIDE_GRAMS, recipe.kitchen.custom);
    Some(say::scoops(&scoops))
}

/// The number with what it counts: `2 1/2 medium pears`, `3 sticks`, `2 cans (14 ounces each)`, `juice of 3 lemons`.
fn named(amount: &Amount, item: &Item, count: f64, written: f64) -> String {
    let words = number(count);
    if !(amount.bare && amount.unit() == Unit::Piece) {
        let holds = amount.each.as_ref().map(|each| format!(" ({} each)", weigh::in_words(each))).unwrap_or_default();
        return format!("{words} {}{holds}", plural(amount.unit().name(), count));
    }
    let size = size(amount, item);
    let fruit = item.part.as_deref().and_then(|part| Some((part, item.name.strip_suffix(part)?.trim_end())));
    match fruit {
        // "lemon juice" is the name that was read, in the singular; lemons are what is counted.
        Some((part, fruit)) if !fruit.is_empty() => format!("{part} of {words} {size}{}", plural(fruit, count)),
        _ => format!("{words} {size}{}", agreeing(&item.name, count, written)),
    }
}

/// The size that a line says, before what it counts: `medium `, and `EU M ` of a class of eggs.
pub(super) fn size(amount: &Amount, item: &Item) -> String {
    let size = item.size.as_deref().or(amount.size.as_deref());
    let class = |size: &str| size.strip_prefix("eu ").map(|class| format!("EU {} ", class.to_uppercase()));
    size.map(|size| class(size).unwrap_or_else(|| format!("{size} "))).unwrap_or_default()
}

/// The author's name for a thing, in the number that `count` wants; it stands in the number of `written`.
fn agreeing(name: &str, count: f64, written: f64) -> String {
    match (count > 1.0, written > 1.0) {
        (true, false) => plural(name, count),
        (false, true) => {
            let (head, last) =
                name.rsplit_once(' ').map_or((String::new(), name), |(head, last)| (format!("{head} "), last));
            format!("{head}{}", name_key(last))
        }
        _ => name.to_owned(),
    }
}

/// The plural of a thing by its name in either number.
pub(super) fn plural_of(name: &str) -> String {
    agreeing(&agreeing(name, 1.0, 2.0), 2.0, 1.0)
}

/// An English plural, for more than one.
fn plural(name: &str, count: f64) -> String {
    if count <= 1.0 || name.ends_with('s') && !name.ends_with("ss") {
        return name.to_owned();
    }
    let before_y = name.chars().rev().nth(1).is_some_and(|c| !"aeiou".contains(c));
    if let Some(stem) = name
        .strip_suffix("leaf")
        .map(|stem| format!("{stem}leaves"))
        .or_else(|| name.strip_suffix("loaf").map(|stem| format!("{stem}loaves")))
    {
        return stem;
    }
    match name.strip_suffix('y').filter(|_| before_y) {
        Some(stem) => format!("{stem}ies"),
        None if ["ch", "sh", "x", "ss", "tato", "mato", "ango"].iter().any(|end| name.ends_with(end)) => {
            format!("{name}es")
        }
        None => format!("{name}s"),
    }
}

/// A whole number as an exact one; nothing when it is not whole.
pub(super) fn exact(amount: &Amount) -> Option<Number> {
    let [term] = amount.terms.as_slice() else { return None };
    let plain = amount.bare && amount.unit() == Unit::Piece && amount.each.is_none();
    (plain && term.low == term.high && term.low > Number::ZERO).then_some(term.low)
}
