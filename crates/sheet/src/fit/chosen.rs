//! Which pans the recipe means, and which of the author's own they are.

use std::ops::Range as Bytes;

use evencrumb_manuscript::{FactKind, Manuscript};
use evencrumb_measure::{Assumed, Pan, Read, Shape, Style};

use super::OwnPan;

/// A pan that the recipe means.
#[derive(Clone, Debug)]
pub(super) struct Chosen {
    /// The pan to compute with.
    pub pan: Pan,
    /// How many of it.
    pub count: u32,
    /// How many of it the author owns, where it is one of hers.
    pub have: Option<u32>,
    /// Whether it may be used in place of the one before.
    pub instead: bool,
    /// What was taken that the text does not say.
    pub note: Option<String>,
    /// Where the text names it.
    pub place: Bytes<usize>,
}

/// What the text says of its pans.
#[derive(Clone, Debug, Default)]
pub(super) struct Said {
    /// The pans whose size is known.
    pub pans: Vec<Chosen>,
    /// Where a pan is named whose size is not, and its shape.
    pub unsized_pan: Option<(Bytes<usize>, Shape)>,
}

/// Sides that differ less than this, as a share, are one size.
const SAME_SIDE: f64 = 0.035;
/// Depths that differ less than this, as a share, are one depth.
const SAME_DEPTH: f64 = 0.12;

/// The pans of a manuscript: of its facts, else of its method.
pub(super) fn pans(text: &str, manuscript: &Manuscript, own: &[OwnPan]) -> Said {
    let facts = manuscript.facts.iter().filter(|fact| fact.kind == FactKind::Pan).map(|fact| fact.place.clone());
    let deep = with_depths(text, manuscript);
    let said = read(text, facts, own, &deep);
    if !said.pans.is_empty() {
        return said;
    }
    // The headnote of a recipe without a list of facts names its pan too, and prose is all steps.
    let steps = read(text, manuscript.steps.iter().map(|step| step.place.clone()), own, &deep);
    if steps.pans.is_empty() {
        return Said { unsized_pan: said.unsized_pan.or(steps.unsized_pan), ..steps };
    }
    only_first(text, steps)
}

/// A method names one pan again and again, and sheets that things are roasted or cooled on; the first that holds batter
/// is meant with those that it is named in one breath with ("two 8-inch round pans and a 6-inch round pan"), else the
/// first.
fn only_first(text: &str, mut said: Said) -> Said {
    let at = said.pans.iter().position(|one| one.pan.capacity_millilitres() > 0.0 && one.pan.shape() != Shape::Sheet);
    let at = at.unwrap_or(0);
    let mut kept = vec![said.pans[at].clone()];
    for one in &said.pans[at + 1..] {
        let before = &kept[kept.len() - 1].place;
        if !one.instead && !is_joined(text.get(before.end..one.place.start)) {
            break;
        }
        kept.push(one.clone());
    }
    said.pans = kept;
    said
}

/// Whether nothing but "and a" stands between two pans, so that they are filled together.
pub(crate) fn is_joined(between: Option<&str>) -> bool {
    let words = between.unwrap_or(".").to_lowercase();
    let mut words = words.split(|c: char| c.is_whitespace() || c == ',').filter(|word| !word.is_empty()).peekable();
    words.peek().is_some() && words.all(|word| matches!(word, "and" | "plus" | "a" | "an" | "one" | "&"))
}

/// The pans that the text names with their depth, anywhere.
pub(crate) fn with_depths(text: &str, manuscript: &Manuscript) -> Vec<Read> {
    let facts = manuscript.facts.iter().filter(|fact| matches!(fact.kind, FactKind::Pan | FactKind::Yield));
    let places = facts.map(|fact| &fact.place).chain(manuscript.steps.iter().map(|step| &step.place));
    let reads = places.flat_map(|place| Pan::written(text.get(place.clone()).unwrap_or_default()));
    reads.filter(|read| read.depth.is_some() && read.pan.is_some()).collect()
}

/// The pan with the depth that another place says of it: "6-inch springform" where a step says "6 x 3 inch springform".
pub(crate) fn as_deep(mut read: Read, deep: &[Read]) -> Read {
    if !read.depth_assumed() {
        return read;
    }
    let same = |one: &&Read| {
        let sides = read.size.zip(one.size);
        let near = sides.is_some_and(|((length, width), (other, across))| near(length, other) && near(width, across));
        one.shape == read.shape && one.style == read.style && near
    };
    if let Some(one) = deep.iter().find(same) {
        read.depth = one.depth;
        read.pan.clone_from(&one.pan);
        read.assumed.retain(|assumed| *assumed != Assumed::Depth);
    }
    read
}

fn near(mine: f64, said: f64) -> bool {
    (mine / said).ln().abs() < SAME_SIDE
}

fn read(text: &str, places: impl Iterator<Item = Bytes<usize>>, own: &[OwnPan], deep: &[Read]) -> Said {
    let mut said = Said::default();
    for place in places {
        let words = text.get(place.clone()).unwrap_or_default();
        for read in Pan::written(words) {
            let read = as_deep(read, deep);
            let spoken = words.get(read.place.clone()).unwrap_or_default();
            let place = place.start + read.place.start..place.start + read.place.end;
            match choose(spoken, words, &read, own) {
                Some(chosen) => said.pans.push(Chosen { place, ..chosen }),
                None => {
                    said.unsized_pan.get_or_insert((place, read.shape));
                }
            }
        }
    }
    said
}

/// The author's own pan where one matches, else the usual one. `line` is what `spoken` stands in.
fn choose(spoken: &str, line: &str, read: &Read, own: &[OwnPan]) -> Option<Chosen> {
    let mine = own.iter().filter(|one| is_it(one, spoken, line, read)).min_by(|one, other| {
        let key = |one: &OwnPan| (!is_named(one, spoken) && !is_named(one, line), depth_away(&one.pan, read));
        let ((named, away), (other_named, other_away)) = (key(one), key(other));
        named.cmp(&other_named).then(away.total_cmp(&other_away))
    });
    if let Some(mine) = mine {
        return Some(Chosen {
            pan: mine.pan.clone(),
            count: read.count,
            have: Some(mine.have),
            instead: read.instead,
            note: None,
            place: 0..0,
        });
    }
    let pan = read.pan.clone()?;
    let depth = pan.inner().depth;
    let note = (read.depth_assumed() && depth > 0.0).then(|| {
        format!(
            "its depth is not said; {:.1} inches ({:.1} cm), as such pans usually have, was taken",
            depth / 25.4,
            depth / 10.0
        )
    });
    Some(Chosen { pan, count: read.count, have: None, instead: read.instead, note, place: 0..0 })
}

/// The pan that is read, as the author's own where she has it; the cups of her muffin pan, however many are wanted.
/// `line` is what it was read in.
pub(crate) fn as_mine(mut read: Read, line: &str, own: &[OwnPan]) -> Read {
    let spoken = line.get(read.place.clone()).unwrap_or_default();
    let mine = choose(spoken, line, &read, own).filter(|chosen| chosen.have.is_some()).map(|chosen| chosen.pan);
    let mine = mine.or_else(|| {
        let wanted = read.pan.as_ref().filter(|pan| pan.shape() == Shape::Muffin && pan.style() == Style::Usual)?;
        let tin = own.iter().map(|one| &one.pan).find(|pan| pan.shape() == Shape::Muffin)?;
        Pan::new(wanted.name(), Shape::Muffin, tin.inner(), wanted.count())
    });
    if let Some(mine) = mine {
        read.pan = Some(mine);
        read.assumed.retain(|assumed| *assumed != Assumed::Depth);
    }
    read
}

fn is_it(own: &OwnPan, spoken: &str, line: &str, read: &Read) -> bool {
    let pan = &own.pan;
    if read.depth.is_some() && depth_away(pan, read) > SAME_DEPTH {
        return false;
    }
    if is_named(own, spoken) || is_named(own, line) && read.pan.is_none() {
        return true;
    }
    let springform = pan.name().to_lowercase().contains("spring");
    if pan.shape() != read.shape || springform != (read.style == Style::Springform) {
        return false;
    }
    if matches!(read.style, Style::Mini | Style::Jumbo | Style::Flat | Style::Deep) {
        return false;
    }
    if pan.shape() == Shape::Muffin {
        return read.pan.as_ref().is_some_and(|usual| usual.count() == pan.count());
    }
    let top = pan.inner().top;
    let size = read.size.or_else(|| read.pan.as_ref().map(|pan| (pan.inner().top.length, pan.inner().top.width)));
    size.is_some_and(|(length, width)| near(top.length, length.max(width)) && near(top.width, length.min(width)))
}

/// How far the depth written lies from the pan's, as a share; nothing when none is written.
fn depth_away(pan: &Pan, read: &Read) -> f64 {
    read.depth.map_or(0.0, |depth| (pan.inner().depth / depth).ln().abs())
}

/// Whether all the words of the author's name for her pan are said, as "12-cup muffin pan".
fn is_named(own: &OwnPan, spoken: &str) -> bool {
    let words = |text: &str| -> Vec<String> {
        let words = text.to_lowercase();
        words
            .split(|c: char| !c.is_alphanumeric() && c != '.')
            .map(|word| word.strip_suffix('s').unwrap_or(word).to_owned())
            .filter(|word| !word.is_empty())
            .collect()
    };
    let said = words(spoken);
    let name = words(own.pan.name());
    // A name of numbers alone, as "13 x 9", is a size, and sizes are compared as such.
    name.iter().any(|word| word.len() > 1 && word.chars().all(char::is_alphabetic))
        && name.iter().all(|word| said.contains(word))
}
