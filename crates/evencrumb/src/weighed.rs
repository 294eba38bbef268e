//! `evencrumb weighed`: what the author's own measure weighed, put into her `foods.toml`.

use std::path::Path;

use evencrumb_desk::own_foods::edit::{NotWritten, Weighing, add_weighing};
use evencrumb_desk::{kitchen, own_foods};
use evencrumb_manuscript::word::name_key;
use evencrumb_manuscript::{FoodId, line};
use evencrumb_pantry::Pantry;
use evencrumb_pantry::own;
use evencrumb_pantry::weigh::Kitchen;
use evencrumb_sheet::line::weigh;

use crate::page::Page;
use crate::sheet::some;
use crate::trouble::Trouble;
use crate::{Outcome, out, say};

/// How a weighing is written.
const FORM: &str = "Write a measure and a food, as “1 cup oat flour”.";
/// What is to be done about a number that can't be so, or hardly.
const SURE: &str =
    "Look at the numbers and write them again. One that is far from the others and yet so is taken with --sure.";

/// Carries out the command: writes the weighing, and says what the line weighed before and weighs now.
pub fn run(text: &str, grams: &[f64], whose: Option<&str>, is_sure: bool) -> Result<Outcome, Trouble> {
    let kitchen = kitchen::beside(Path::new("."));
    out::faults(&kitchen.faults);
    let file = own_foods::file(&kitchen).ok_or(Trouble::NoKitchen)?;
    let before = own_foods::beside(&kitchen);
    let Parts { id, written, food, measure } = parts(text, &before.pantry, kitchen.kitchen)?;
    let weighing = Weighing { food: &food, measure: &measure, grams, whose, is_sure };
    add_weighing(&file, &weighing, kitchen.kitchen).map_err(|error| match error {
        NotWritten::NotBelieved { what } => Trouble::Weighing { text: say::echo(text), why: what, mend: SURE },
        error => Trouble::NotWritten { file: file.clone(), error },
    })?;
    let now = own_foods::beside(&kitchen);

    let mut page = Page::for_terminal();
    page.line(0, &say::echo(text));
    page.line(2, &format!("before: {}", figure(text, &before.pantry, kitchen.kitchen)));
    page.line(2, &format!("now: {}", figure(text, &now.pantry, kitchen.kitchen)));
    if let Some(words) = also_meant(&written, id, &before.pantry) {
        page.line(2, &words);
    }
    for fault in now.faults.iter().filter(|fault| !before.faults.contains(fault)) {
        page.line(2, fault);
    }
    for (_, odd) in now.odd.iter().filter(|odd| !before.odd.contains(odd)) {
        page.line(2, odd);
    }
    page.line(0, &format!("Written into {}.", file.display()));
    let mut outcome = Outcome::Fine;
    out::people(&mut outcome, |out, _| out.write_all(page.into_text().as_bytes()))?;
    Ok(outcome)
}

/// What else the weighing counts for, when the author's word is one of several names of a food.
fn also_meant(word: &str, id: FoodId, pantry: &Pantry) -> Option<String> {
    let food = pantry.food(id);
    if pantry.named(word) != Some(id) {
        // "Ginger" by the inch is the root, and by the spoon the powder.
        let name = &food.name;
        return Some(format!("“{word}” measured like this is {name}: this counts for {name} and all its names."));
    }
    let is_its_name = |name: &str| name_key(name) == name_key(&food.name);
    if is_its_name(word) {
        return None;
    }
    let names: Vec<String> = food.names().skip(1).map(str::to_owned).collect();
    Some(format!(
        "“{word}” is known here as {name}: from now on this counts for every {name} and all its names ({}). To keep {word} \
         apart, take the row out of foods.toml again and write a [[food]] of its own there, with like = \"{name}\".",
        some(&names),
        name = food.name,
    ))
}

/// A line taken apart.
struct Parts {
    /// The food that it means.
    id: FoodId,
    /// The food in the author's words.
    written: String,
    /// The food by a name that means it alone, as `ginger root` for a piece of "ginger".
    food: String,
    /// The measure with what is said of its filling.
    measure: String,
}

fn parts(text: &str, pantry: &Pantry, kitchen: Kitchen) -> Result<Parts, Trouble> {
    let refused = |why: String| Trouble::Weighing { text: say::echo(text), why, mend: FORM };
    let read = line::read(text, pantry);
    let [item] = read.foods.as_slice() else {
        return Err(refused("it names no single food".to_owned()));
    };
    let Some(id) = item.food else {
        let nearest = pantry.nearest(&item.name, 1);
        let near = nearest.first().map(|near| format!("; the nearest is “{}”", near.food.name)).unwrap_or_default();
        return Err(refused(format!("“{}” is no food known here{near}", say::echo(&item.name))));
    };
    let (amount, filling) = (text[..item.place.start].trim(), text[item.place.end..].trim());
    let amount = amount.strip_suffix(" of").unwrap_or(amount);
    // "1 cup flour, sifted" is sifted after it was measured: that cup is the plain one.
    let done_after = item.ways.is_empty() && filling.starts_with(',');
    let filling = if done_after && own::is_measure(&item.name, &format!("{amount}{filling}"), pantry, kitchen).is_ok() {
        ""
    } else {
        filling
    };
    let measure = format!("{amount}{}{filling}", if filling.is_empty() || filling.starts_with(',') { "" } else { " " });
    let written = item.name.clone();
    let food = if pantry.named(&written) == Some(id) { written.clone() } else { pantry.food(id).name.clone() };
    own::is_measure(&food, &measure, pantry, kitchen).map_err(refused)?;
    Ok(Parts { id, written, food, measure })
}

/// What the line weighs, and on what that leans.
fn figure(text: &str, pantry: &Pantry, kitchen: Kitchen) -> String {
    let line = weigh(text, pantry, kitchen);
    let Some((grams, basis)) =
        line.foods.first().and_then(|one| Some((one.weighed.grams.as_ref()?, &one.weighed.basis)))
    else {
        return "not known".to_owned();
    };
    let range = grams.range();
    let words: Vec<&str> = basis.iter().map(|basis| basis.words.as_str()).collect();
    format!("{}: {}", say::range(range.best(), range.low(), range.high(), "g"), words.join("; "))
}
