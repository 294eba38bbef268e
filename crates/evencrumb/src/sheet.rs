//! `evencrumb sheet`: all figures of one manuscript.

use std::collections::HashMap;
use std::path::Path;

use evencrumb_desk::wire::{
    ComponentAnswer, LineAnswer, NutrientSum, Open, PartNutrient, PlacedQueryAnswer, SheetAnswer, VariantAnswer,
};
use evencrumb_manuscript::word::singular;

use crate::opened::Opened;
use crate::page::Page;
use crate::trouble::Trouble;
use crate::{Outcome, cost, out, pans, say};

/// What the page shows of the many nutrients; the JSON has them all.
const SHOWN: &[&str] =
    &["energy", "fat", "saturated fat", "carbohydrate", "sugars", "starch", "fibre", "protein", "sodium", "water"];

/// Carries out the command.
///
/// Each of `with` names an alternative that is taken in place of the first, as `walnuts`, or another choice by its name.
pub fn run(file: &Path, with: &[String], json: bool) -> Result<Outcome, Trouble> {
    let Opened { sheet, pantry, found, choice, .. } = Opened::of(file, with)?;
    let answer = SheetAnswer { choice, ..SheetAnswer::of(&sheet, &pantry, &found) };
    let answer = cost::added(answer, &sheet, file.parent().unwrap_or(Path::new(".")), &pantry, &found);
    let answer = SheetAnswer { kitchen_faults: out::kitchen_faults(), ..answer };
    let outcome = if sheet.must_be_mended() { Outcome::ToMend } else { Outcome::Fine };
    out::answer(&answer, json, outcome, || page(&answer))
}

fn page(answer: &SheetAnswer) -> String {
    let mut page = Page::for_terminal();
    page.line(0, answer.title.as_deref().unwrap_or("No title was found"));
    if let Some(choice) = &answer.choice {
        page.line(0, &format!("Chosen: {choice}"));
    }
    page.line(0, &makes(answer));
    for component in &answer.components {
        page.gap();
        lay_out(component, &mut page);
    }
    page.gap();
    totals(answer, &mut page);
    if let Some(batter) = answer.batter.as_ref().filter(|_| !answer.pans.is_empty()) {
        page.gap();
        pans::lay_out(batter, &answer.pans, &mut page);
    }
    if let Some(cost) = &answer.totals.cost {
        page.gap();
        cost::lay_out(cost, one(answer).as_deref(), &mut page);
    }
    if !answer.variants.is_empty() {
        page.gap();
        page.line(0, "With another choice");
        for variant in &answer.variants {
            page.line(2, &in_short(variant));
        }
        page.line(2, "A whole sheet of each: evencrumb sheet FILE --with \"its name\", several times for several");
    }
    asked(&answer.queries, &mut page);
    page.gap();
    page.line(0, &format!("Taken throughout: {}; {}.", answer.kitchen, answer.totals.assumptions.join("; ")));
    page.into_text()
}

/// A variant in one line: what the batch weighs, and what a reader would look at first.
fn in_short(variant: &VariantAnswer) -> String {
    let totals = &variant.totals;
    let figure = |name: &str| {
        let nutrient = totals.nutrients.iter().find(|nutrient| nutrient.name == name)?;
        let (value, of) = nutrient.serving.map_or((nutrient.batch, "batch"), |serving| (serving, "serving"));
        Some(format!("{name} {} a {of}", open(&value, &nutrient.unit)))
    };
    let figures: Vec<String> = ["energy", "sugars", "fat"].into_iter().filter_map(figure).collect();
    let cost = totals.cost.as_ref().and_then(cost::in_short).map_or(String::new(), |cost| format!("; {cost}"));
    format!("{}: {}; {}{cost}", variant.name, open(&totals.grams, "g"), figures.join(", "))
}

fn makes(answer: &SheetAnswer) -> String {
    let count = |count: &evencrumb_desk::wire::Count| {
        let (low, high) = (say::number(count.low.value()), say::number(count.high.value()));
        if low == high { low } else { format!("{low} to {high}") }
    };
    let mut makes = Vec::new();
    if let Some(pieces) = &answer.makes.pieces {
        makes.push(format!("makes {} {}", count(pieces), answer.makes.word.as_deref().unwrap_or("pieces")));
    } else if let Some(container) = &answer.makes.container {
        makes.push(format!("makes {container}"));
    }
    if let Some(servings) = &answer.makes.servings {
        makes.push(format!("serves {}", count(servings)));
    }
    if makes.is_empty() { "How much it makes is not said.".to_owned() } else { makes.join(", ") }
}

fn lay_out(component: &ComponentAnswer, page: &mut Page) {
    let name = component.name.as_deref().unwrap_or("Ingredients");
    page.line(0, &format!("{name}: {}", open(&component.grams, "g")));
    for line in &component.lines {
        page.row(2, &grams(line), 22, &format!("{:>5}  {}", share(line), say::echo(line.weighed.text.trim())));
        counted(line).into_iter().for_each(|words| page.line(4, &words));
    }
    let of_it: Vec<String> = component.nutrients.iter().filter_map(part).collect();
    if !of_it.is_empty() {
        page.line(2, &format!("of it {}", of_it.join(", ")));
    }
}

/// What decides how a component bakes, as a share of its weight.
const BALANCE: &[&str] = &["water", "fat", "sugars", "protein", "starch"];

fn part(nutrient: &PartNutrient) -> Option<String> {
    let per_100_g = nutrient.per_100_g_raw.filter(|_| BALANCE.contains(&nutrient.name.as_str()))?;
    let (least, shown) = match per_100_g.high {
        Some(_) => ("", per_100_g.best),
        None => ("at least ", per_100_g.low),
    };
    Some(format!("{} {least}{:.0} %", nutrient.name, shown.value()))
}

/// Grams of all the foods of a line, in one figure a food.
fn grams(line: &LineAnswer) -> String {
    let weighed: Vec<String> = line
        .weighed
        .foods
        .iter()
        .map(|food| {
            food.grams.map_or("?".to_owned(), |grams| {
                say::range(grams.best.value(), grams.low.value(), grams.high.value(), "g")
            })
        })
        .collect();
    if line.weighed.foods.is_empty() { "?".to_owned() } else { weighed.join(" + ") }
}

/// What counts of a line, where that is less than its grams: peel and stones come off, grease stays in the pan, a later line
/// takes the rest.
fn counted(line: &LineAnswer) -> Option<String> {
    let foods = &line.weighed.foods;
    let whole: f64 = foods.iter().filter_map(|food| food.grams).map(|grams| grams.best.value()).sum();
    let eaten = line.eaten.filter(|eaten| eaten.best.value() < 0.995 * whole)?;
    let grams = say::range(eaten.best.value(), eaten.low.value(), eaten.high.value(), "g");
    let whys: Vec<&str> = foods.iter().filter_map(|food| food.eaten.as_ref()).map(|eaten| eaten.why.as_str()).collect();
    let why = if whys.is_empty() { "a later line takes the rest".to_owned() } else { whys.join("; ") };
    Some(format!("of it {grams} counts: {why}"))
}

fn share(line: &LineAnswer) -> String {
    line.share.map_or(String::new(), |share| match share.value() * 100.0 {
        small if small > 0.0 && small < 0.5 => "<1 %".to_owned(),
        percent => format!("{percent:.0} %"),
    })
}

/// A figure with its unit; "at least" its low end where a part of it is not known.
pub fn open(figure: &Open, unit: &str) -> String {
    match figure.high {
        Some(high) => say::range(figure.best.value(), figure.low.value(), high.value(), unit),
        None => format!("at least {}", say::range(figure.low.value(), figure.low.value(), figure.low.value(), unit)),
    }
}

fn totals(answer: &SheetAnswer, page: &mut Page) {
    let totals = &answer.totals;
    page.line(
        0,
        &format!(
            "The batch weighs {} raw{}.",
            open(&totals.grams, "g"),
            totals.grams_baked.as_ref().map_or(String::new(), |baked| {
                let about = if baked.high.is_some() { "about " } else { "" };
                format!(", {about}{} baked", open(baked, "g"))
            })
        ),
    );
    if !totals.unweighed.is_empty() {
        page.line(2, &format!("Not weighed: {}.", totals.unweighed.join(", ")));
    }
    let one = one(answer);
    if let (Some(word), Some(grams)) = (&one, &totals.grams_serving) {
        page.line(2, &format!("One {word} weighs {}.", open(grams, "g")));
    }
    let several = answer.makes.pieces.as_ref().is_some_and(|pieces| pieces.high.value() > 1.0);
    if let (Some(_), Some(grams)) = (&answer.makes.servings, totals.grams_piece.as_ref().filter(|_| several)) {
        page.line(2, &format!("One {} weighs {}.", piece(answer), open(grams, "g")));
    }
    let in_one = one.map_or(String::new(), |word| format!("in one {word}"));
    page.row(2, "", 15, &format!("{:<28}{in_one:<26}{}", "in the batch", "in 100 g"));
    for nutrient in totals.nutrients.iter().filter(|nutrient| SHOWN.contains(&nutrient.name.as_str())) {
        page.row(2, &nutrient.name, 15, &columns(nutrient));
    }
    let unknown: Vec<String> = totals
        .nutrients
        .iter()
        .filter(|nutrient| SHOWN.contains(&nutrient.name.as_str()) && !nutrient.unknown.is_empty())
        .map(|nutrient| format!("{} of {}", nutrient.name, some(&nutrient.unknown)))
        .collect();
    if !unknown.is_empty() {
        page.line(2, &format!("Not known, so that these are at least: {}.", unknown.join("; ")));
    }
}

/// The word for what the middle column is about: a serving, or a piece where only pieces are said.
fn one(answer: &SheetAnswer) -> Option<String> {
    answer.totals.servings?;
    Some(if answer.makes.servings.is_some() { "serving".to_owned() } else { piece(answer) })
}

/// The author's word for a piece, in the singular.
fn piece(answer: &SheetAnswer) -> String {
    answer.makes.word.as_deref().map_or("piece".to_owned(), |word| singular(&word.to_lowercase()).to_string())
}

/// The first names of a list, and how many more there are.
pub(crate) fn some(names: &[String]) -> String {
    let shown = names.iter().take(5).map(String::as_str).collect::<Vec<_>>().join(", ");
    if names.len() > 5 { format!("{shown} and {} more", names.len() - 5) } else { shown }
}

fn columns(nutrient: &NutrientSum) -> String {
    let cell = |figure: Option<Open>| figure.map_or(String::new(), |figure| open(&figure, &nutrient.unit));
    format!("{:<28}{:<26}{}", cell(Some(nutrient.batch)), cell(nutrient.serving), cell(nutrient.per_100_g))
}

/// Queries in the very same words that are told one by one.
const MOST_ALIKE: usize = 3;

/// All queries, with how many there are. Of very many in the same words the first is told, and how many lines are like it.
pub fn asked(queries: &[PlacedQueryAnswer], page: &mut Page) {
    if queries.is_empty() {
        return;
    }
    page.gap();
    page.line(0, &format!("Queries ({})", queries.len()));
    let mut alike: HashMap<(&str, &str), Vec<usize>> = HashMap::new();
    for query in queries {
        alike.entry((&query.name, &query.message)).or_default().push(query.line);
    }
    for query in queries {
        let Some(lines) = alike.get_mut(&(query.name.as_str(), query.message.as_str())) else { continue };
        if lines.len() > MOST_ALIKE {
            ask(query, page);
            let last = lines.last().copied().unwrap_or(query.line);
            page.line(4, &format!("And {} more like it, the last in line {last}.", lines.len() - 1));
            lines.clear();
        } else if !lines.is_empty() {
            ask(query, page);
        }
    }
}

/// One query with its place and its mend.
fn ask(query: &PlacedQueryAnswer, page: &mut Page) {
    page.line(
        2,
        &format!(
            "{}, line {}, column {}: {}: {}",
            query.weight.word(),
            query.line,
            query.column,
            query.name,
            query.message
        ),
    );
    page.line(4, &query.mend);
}
