//! Pans as a measure of how much is made: what the recipe's pans hold, and what the wanted ones hold.

use evencrumb_manuscript::{FactKind, Manuscript};
use evencrumb_measure::{Number, Pan, Read, Unit, say};

use crate::fit::{OwnPan, as_deep, as_mine, is_joined, with_depths};

/// The pans a recipe is baked in: those of its facts, else the first that its method names with a size, and those it
/// names in one breath with it. What may stand in
/// for another ("8- or 9-inch") is left out. Her own are taken as she measured them, as on the sheet.
pub(super) fn of_recipe(text: &str, manuscript: &Manuscript, own: &[OwnPan]) -> Vec<Read> {
    let deep = with_depths(text, manuscript);
    let sized = |words: &str| -> Vec<Read> {
        let read = Pan::written(words).into_iter().filter(|read| !read.instead);
        read.map(|read| as_mine(as_deep(read, &deep), words, own)).filter(|read| read.pan.is_some()).collect()
    };
    let facts = manuscript.facts.iter().filter(|fact| matches!(fact.kind, FactKind::Pan | FactKind::Yield));
    let stated = facts.map(|fact| sized(&fact.words)).find(|reads| !reads.is_empty());
    let named = || {
        manuscript.steps.iter().find_map(|step| {
            let words = text.get(step.place.clone()).unwrap_or_default();
            let mut reads = sized(words);
            // The first step may roast something on a sheet; what batter goes into has a capacity.
            let first = reads.iter().position(|read| millilitres(std::slice::from_ref(read)) > 0.0)?;
            reads.drain(..first);
            let pairs = reads.windows(2);
            let joined = pairs.take_while(|two| is_joined(words.get(two[0].place.end..two[1].place.start))).count();
            reads.truncate(joined + 1);
            Some(reads)
        })
    };
    stated.or_else(named).unwrap_or_default()
}

/// Names of the author's own among them, each once.
pub(super) fn hers<'p>(pans: impl Iterator<Item = &'p Read>, own: &[OwnPan]) -> Vec<&'p str> {
    let inner = |read: &Read, one: &OwnPan| read.pan.as_ref().is_some_and(|pan| pan.inner() == one.pan.inner());
    let mine = pans.filter(|read| own.iter().any(|one| inner(read, one)));
    let mut names: Vec<&str> = mine.filter_map(|read| Some(read.pan.as_ref()?.name())).collect();
    names.sort_unstable();
    names.dedup();
    names
}

/// What they hold together, to the brim.
pub(super) fn millilitres(pans: &[Read]) -> f64 {
    let one = |read: &Read| read.pan.as_ref().map_or(0.0, Pan::capacity_millilitres);
    pans.iter().map(|read| f64::from(read.count) * one(read)).sum()
}

/// How many pans there are.
pub(super) fn count(pans: &[Read]) -> u32 {
    pans.iter().map(|read| read.count).sum()
}

/// Their depth in millimetres, weighed by what they hold.
pub(super) fn depth(pans: &[Read]) -> f64 {
    let all = millilitres(pans);
    let part = |read: &Read| {
        let one = std::slice::from_ref(read);
        read.pan.as_ref().map_or(0.0, |pan| pan.inner().depth) * millilitres(one)
    };
    if all > 0.0 { pans.iter().map(part).sum::<f64>() / all } else { 0.0 }
}

/// What the name of a pan ends with.
const VESSELS: &[&str] = &["pan", "tin", "dish", "sheet", "tray", "mold", "mould", "ring", "basin", "case"];

/// `two 6-inch round pans`.
pub(super) fn in_words(pans: &[Read]) -> String {
    let words: Vec<String> = pans
        .iter()
        .map(|read| {
            let name = read.pan.as_ref().map_or(read.shape.name(), Pan::name);
            // "three pieces", without the pieces.
            let count = say::spoken(Number::whole(read.count), Unit::Piece);
            let count = count.rsplit_once(' ').map_or(count.as_str(), |(count, _)| count);
            // Her own may be called "8-inch round".
            let last = name.rsplit(' ').next().unwrap_or_default().to_lowercase();
            let kind = if VESSELS.contains(&last.as_str()) { "" } else { " pan" };
            format!("{count} {name}{kind}{}", if read.count == 1 { "" } else { "s" })
        })
        .collect();
    words.join(" and ")
}
