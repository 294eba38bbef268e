//! Which component or which lines the words of a question name.

use evencrumb_manuscript::word::name_key;

use super::Misunderstood;
use super::question::{Of, misunderstood};
use crate::sheet::Sheet;

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
