//! Which component or which lines the words of a question name.

use evencrumb_manuscript::word::name_key;

use evencrumb_pantry::Pantry;

use super::Misunderstood;
use super::question::{Of, misunderstood};
use super::words::EMPTY;
use crate::made::Origin;
use crate::sheet::{Line, Sheet};

/// The component or the lines that the words name.
pub(super) fn named(words: &[String], sheet: &Sheet) -> Option<Of> {
    let holds = |name: &str| {
        let key = name_key(name);
        let keys: Vec<&str> = key.split(' ').collect();
        words.iter().all(|word| keys.contains(&word.as_str()))
    };
    let component = sheet.components.iter().position(|part| part.name.as_deref().is_some_and(holds));
    let lines: Vec<(usize, usize)> = sheet
        .components
        .iter()
        .enumerate()
        .flat_map(|(part, component)| component.lines.iter().enumerate().map(move |(nth, line)| (part, nth, line)))
        .filter(|(_, _, line)| line.weighed.foods.iter().any(|one| holds(&one.item.name)))
        .map(|(part, nth, _)| (part, nth))
        .collect();
    let lines = headed(lines, words, sheet);
    component.map(Of::Component).or_else(|| (!lines.is_empty()).then_some(Of::Lines(lines)))
}

/// The lines that the words call by more than the name that was read in them: as they are written ("the good chocolate"), by
/// the name or another name of their food, or by the other recipe that they take of.
pub(super) fn called(words: &[String], sheet: &Sheet, pantry: &Pantry) -> Option<Of> {
    if words.is_empty() {
        return None;
    }
    let asked = pantry.named(&words.join(" "));
    let holds = |name: &str| {
        let key = name_key(name);
        words.iter().all(|word| key.split(' ').any(|own| own == word))
    };
    let is_it = |line: &Line| {
        let written = name_key(&line.weighed.text);
        let written: Vec<&str> = written.split(' ').filter(|word| !EMPTY.contains(word)).collect();
        line.weighed.foods.iter().any(|one| {
            let food = one.item.food;
            let by_food = food.is_some() && food == asked || food.is_some_and(|food| holds(&pantry.food(food).name));
            let made = one.made.as_ref().is_some_and(|made| match &made.origin {
                Origin::Manuscript { title, .. } => holds(title) || holds(&made.name),
                Origin::Component(_) => holds(&made.name),
            });
            // "Chocolate" of "for the chocolate cake" is no food of the line: what it is comes last.
            let name = name_key(&one.item.name);
            let head = name.rsplit(' ').next() == words.last().map(String::as_str);
            by_food || made || head && written.windows(words.len()).any(|run| run == words)
        })
    };
    let lines = sheet
        .components
        .iter()
        .enumerate()
        .flat_map(|(part, component)| component.lines.iter().enumerate().map(move |(nth, line)| (part, nth, line)));
    let lines: Vec<(usize, usize)> =
        lines.filter(|(_, _, line)| is_it(line)).map(|(part, nth, _)| (part, nth)).collect();
    (!lines.is_empty()).then_some(Of::Lines(lines))
}

/// Whether a part or a line is just what the words say, and no flavour of it ("cake flour" is no cake).
pub(super) fn is_so_called(words: &[String], sheet: &Sheet) -> bool {
    let ends = |name: &str| name_key(name).rsplit(' ').next() == words.last().map(String::as_str);
    match named(words, sheet).filter(|_| !words.is_empty()) {
        Some(Of::Lines(lines)) => lines.iter().any(|(part, nth)| {
            sheet.components[*part].lines[*nth].weighed.foods.iter().any(|one| ends(&one.item.name))
        }),
        found => found.is_some(),
    }
}

/// "Butter in the frosting": lines of one component, where at least so many words name the food.
pub(super) fn within(words: &[String], least: usize, sheet: &Sheet) -> Option<Of> {
    sheet.components.iter().enumerate().find_map(|(part, component)| {
        let heading = name_key(component.name.as_deref()?);
        let (of, food): (Vec<&String>, Vec<&String>) =
            words.iter().partition(|word| heading.split(' ').any(|own| own == *word));
        if of.is_empty() || food.len() < least {
            return None;
        }
        let names = |name: &str| {
            let key = name_key(name);
            food.iter().all(|word| key.split(' ').any(|own| own == *word))
        };
        let lines = component.lines.iter().enumerate();
        let found = lines.filter(|(_, line)| line.weighed.foods.iter().any(|one| names(&one.item.name)));
        let found: Vec<(usize, usize)> = found.map(|(nth, _)| (part, nth)).collect();
        (!found.is_empty()).then_some(Of::Lines(found))
    })
}

pub(super) fn numbered(number: usize, sheet: &Sheet) -> Result<Vec<(usize, usize)>, Misunderstood> {
    let lines = sheet.components.iter().enumerate().flat_map(|(part, component)| {
        component.lines.iter().enumerate().map(move |(nth, line)| (part, nth, line.number))
    });
    let found: Vec<(usize, usize)> =
        lines.filter(|(_, _, at)| *at == number).map(|(part, nth, _)| (part, nth)).collect();
    if found.is_empty() {
        return Err(misunderstood(&format!("line {number}"), sheet));
    }
    Ok(found)
}

/// "Egg" means the eggs where yolks stand beside them: those whose name ends with the words, if there are any.
fn headed(lines: Vec<(usize, usize)>, words: &[String], sheet: &Sheet) -> Vec<(usize, usize)> {
    let ends = |(part, nth): &(usize, usize)| {
        let foods = &sheet.components[*part].lines[*nth].weighed.foods;
        foods.iter().any(|one| name_key(&one.item.name).split(' ').next_back() == words.last().map(String::as_str))
    };
    let heads: Vec<(usize, usize)> = lines.iter().copied().filter(ends).collect();
    if heads.is_empty() { lines } else { heads }
}
