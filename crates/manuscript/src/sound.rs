//! What holds of every reading, whatever the text: each place lies in it, and each byte of a manuscript has one node.
//!
//! Asked by tests and by whoever throws random texts at the reader; nothing else needs it.

use std::ops::Range;

use crate::layout::{Manuscript, Node};
use crate::line::{Amount, Item, Line};
use crate::query::Query;

/// Whether all places of a line lie in its text; else what does not.
///
/// # Errors
/// Says which place lies outside the text or cuts a character in two.
pub fn line(text: &str, line: &Line) -> Result<(), String> {
    line.foods.iter().chain(&line.alternatives).try_for_each(|item| of_item(text, item))?;
    queries(text, &line.queries)
}

/// Whether all places of a manuscript lie in its text, and its nodes cover it once; else what does not.
///
/// # Errors
/// Says which place lies outside the text or cuts a character in two, or where nodes leave a gap or overlap.
pub fn manuscript(text: &str, read: &Manuscript) -> Result<(), String> {
    covered(text, &read.nodes)?;
    for fact in &read.facts {
        inside(text, "fact", &fact.place)?;
        fact.heats.iter().try_for_each(|heat| inside(text, "heat of a fact", &heat.place))?;
        fact.times.iter().try_for_each(|time| inside(text, "time of a fact", &time.place))?;
    }
    for component in &read.components {
        inside(text, "component", &component.place)?;
        for read in &component.lines {
            inside(text, "ingredient line", &read.place)?;
            line(&read.text, &read.line)?;
        }
    }
    for step in &read.steps {
        inside(text, "step", &step.place)?;
        step.sentences.iter().try_for_each(|place| inside(text, "sentence", place))?;
        step.heats.iter().chain(&step.inside).try_for_each(|heat| inside(text, "heat of a step", &heat.place))?;
        step.times.iter().try_for_each(|time| inside(text, "time of a step", &time.place))?;
        step.done.iter().chain(&step.pans).try_for_each(|place| inside(text, "sign or pan of a step", place))?;
        for used in &step.uses {
            inside(text, "use of a step", &used.place)?;
            let lines = read.components.get(used.component).map_or(0, |component| component.lines.len());
            if used.line >= lines {
                return Err(format!("a step takes line {} of {lines}", used.line));
            }
        }
    }
    read.notes.iter().try_for_each(|place| inside(text, "note", place))?;
    read.measured.iter().try_for_each(|measured| inside(text, "weight in the text", &measured.place))?;
    read.second.iter().try_for_each(|place| inside(text, "second recipe", place))?;
    queries(text, &read.queries)
}

fn of_item(text: &str, item: &Item) -> Result<(), String> {
    inside(text, "name", &item.place)?;
    item.amounts.iter().try_for_each(|amount| of_amount(text, amount))
}

fn of_amount(text: &str, amount: &Amount) -> Result<(), String> {
    inside(text, "amount", &amount.place)?;
    amount.each.as_deref().map_or(Ok(()), |each| inside(text, "amount of a pack", &each.place))
}

fn queries(text: &str, queries: &[Query]) -> Result<(), String> {
    queries.iter().try_for_each(|query| {
        if query.message.is_empty() || query.mend.is_empty() {
            return Err(format!("the query {} says nothing", query.kind.name));
        }
        inside(text, query.kind.name, &query.place)
    })
}

fn inside(text: &str, what: &str, place: &Range<usize>) -> Result<(), String> {
    match text.get(place.clone()) {
        Some(_) => Ok(()),
        None => Err(format!("{what} at {place:?} is no stretch of a text of {} bytes", text.len())),
    }
}

fn covered(text: &str, nodes: &[Node]) -> Result<(), String> {
    let mut end = 0;
    for node in nodes {
        inside(text, "node", &node.place)?;
        if node.place.start != end || node.place.is_empty() {
            return Err(format!("the node {:?} at {:?} does not begin at {end}", node.kind, node.place));
        }
        end = node.place.end;
    }
    if end == text.len() { Ok(()) } else { Err(format!("the nodes end at {end} of {}", text.len())) }
}
