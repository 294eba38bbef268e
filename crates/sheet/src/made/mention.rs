//! Whether a line names something that is made: a component, or another manuscript.

use std::collections::BTreeSet;

use evencrumb_manuscript::Manuscript;
use evencrumb_manuscript::line::{Cut, Item};

use crate::line::WeighedLine;
use crate::shelf::Shelf;

/// Words by their keys, in no order.
pub type Words = BTreeSet<String>;

/// What a line names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Mention {
    /// A component of this manuscript.
    Component(usize),
    /// Another manuscript by its place on the shelf, and words that may name one of its components.
    Manuscript(usize, Words),
    /// A batch of something that is nowhere.
    Nowhere,
    /// One of several manuscripts, by their names.
    Several(Vec<String>),
}

/// How plainly a line says that it names something made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Pointing {
    /// Not at all; only the name can tell.
    No,
    /// "from above", "(recipe below)", "remaining".
    Somewhere,
    /// "half a batch of", "1 recipe".
    Batch,
}

/// Words that don't help to tell one thing from another.
const EMPTY: &[&str] = &[
    "for",
    "the",
    "a",
    "an",
    "of",
    "to",
    "and",
    "from",
    "with",
    "in",
    "on",
    "your",
    "my",
    "our",
    "about",
    "all",
    "recipe",
    "batch",
    "quantity",
    "portion",
    "amount",
    "above",
    "below",
    "see",
    "page",
    "remaining",
    "rest",
    "reserved",
    "made",
    "cold",
    "cooled",
    "warm",
    "or",
    "plus",
    "half",
    "double",
];

/// The telling words of a name.
pub fn words(name: &str) -> Words {
    let cut = Cut::of(name);
    let words = cut.tokens.iter().enumerate().filter(|(at, _)| cut.is_word(*at)).map(|(_, token)| &token.key);
    words.filter(|word| !EMPTY.contains(&word.as_str())).map(ToString::to_string).collect()
}

/// The things made in one manuscript and around it, by their words.
pub struct Names<'a> {
    components: Vec<Words>,
    manuscript: &'a Manuscript,
    shelf: &'a dyn Shelf,
    /// Each manuscript of the shelf with its names' words; read when the first line asks.
    shelved: std::cell::OnceCell<Vec<(String, Vec<Words>)>>,
}

impl<'a> Names<'a> {
    /// The names of a manuscript and of a shelf.
    pub fn of(manuscript: &'a Manuscript, shelf: &'a dyn Shelf) -> Names<'a> {
        let components =
            manuscript.components.iter().map(|component| words(component.name.as_deref().unwrap_or(""))).collect();
        Names { components, manuscript, shelf, shelved: std::cell::OnceCell::new() }
    }

    /// What a line of component `here` names, when it names something made.
    pub fn mention(&self, here: usize, line: &WeighedLine) -> Option<Mention> {
        let item = &line.foods.first()?.item;
        let pointing = pointing(line, item);
        let said = words(&line.text);
        let name = words(&item.name);
        self.component(here, line, item, pointing, &said, &name)
            .map(Mention::Component)
            .or_else(|| self.other(item, pointing, &said, &name))
            .or_else(|| (pointing == Pointing::Batch).then_some(Mention::Nowhere))
    }

    fn component(
        &self,
        here: usize,
        line: &WeighedLine,
        item: &Item,
        pointing: Pointing,
        said: &Words,
        name: &Words,
    ) -> Option<usize> {
        let others = || {
            self.components.iter().enumerate().filter(|(at, words)| {
                *at != here && !words.is_empty() && !self.manuscript.components[*at].lines.is_empty()
            })
        };
        // "For the pears: 5 pears": a heading that is a food of its own list names the food as well.
        let is_raw = |at: usize| {
            item.food.is_some()
                && self.manuscript.components[at]
                    .lines
                    .iter()
                    .flat_map(|read| &read.line.foods)
                    .any(|other| other.food == item.food)
        };
        let plainly = others().filter(|(at, made)| {
            let whole = *made == name;
            let held = made.is_subset(said) && (made.len() > 1 || pointing > Pointing::No);
            match pointing {
                Pointing::No => (whole || held && item.food.is_none()) && !is_raw(*at),
                _ => held || whole || !name.is_empty() && name.is_subset(made),
            }
        });
        let most = plainly.max_by_key(|(_, made)| made.intersection(said).count()).map(|(at, _)| at);
        if most.is_some() || pointing == Pointing::No || line.read.remaining {
            return most;
        }
        // "2 cups puree, from above" where the heading says "For the pears, pureed": the only one that shares a word.
        let mut near = others().filter(|(_, made)| made.intersection(name).next().is_some()).map(|(at, _)| at);
        near.next().filter(|_| near.next().is_none())
    }

    fn other(&self, item: &Item, pointing: Pointing, said: &Words, name: &Words) -> Option<Mention> {
        // A food that is known and not pointed away from is that food, unless a whole title stands in the line.
        let shelved = self.shelved.get_or_init(|| {
            self.shelf
                .names()
                .into_iter()
                .map(|names| {
                    (names.first().cloned().unwrap_or_default(), names.iter().map(|name| words(name)).collect())
                })
                .collect()
        });
        let own = words(self.manuscript.title.as_deref().unwrap_or(""));
        let others = || shelved.iter().enumerate().filter(|(_, (_, names))| !names.contains(&own));
        let fits: Vec<usize> = others()
            .filter(|(_, (_, names))| names.iter().any(|title| title.len() > 1 && title.is_subset(said)))
            .map(|(at, _)| at)
            .collect();
        let fits = if fits.is_empty() && (pointing == Pointing::Batch || item.food.is_none()) && !name.is_empty() {
            others()
                .filter(|(_, (_, names))| {
                    names.iter().any(|title| {
                        title == name || pointing == Pointing::Batch && !title.is_empty() && name.is_subset(title)
                    })
                })
                .map(|(at, _)| at)
                .collect()
        } else {
            fits
        };
        match fits[..] {
            [] => None,
            [one] => Some(Mention::Manuscript(one, said.clone())),
            _ => {
                // The longest title wins: "Pear Cake" is in every line that names the "Brown Butter Pear Cake".
                let length = |at: &usize| shelved[*at].1.iter().map(Words::len).max().unwrap_or(0);
                let longest = fits.iter().map(length).max().unwrap_or(0);
                let mut best = fits.iter().filter(|at| length(at) == longest);
                match (best.next(), best.next()) {
                    (Some(one), None) => Some(Mention::Manuscript(*one, said.clone())),
                    _ => Some(Mention::Several(fits.iter().map(|at| shelved[*at].0.clone()).collect())),
                }
            }
        }
    }
}

fn pointing(line: &WeighedLine, item: &Item) -> Pointing {
    if item.reference {
        return Pointing::Batch;
    }
    let text = line.text.to_lowercase();
    let said = [
        "from above",
        "(above)",
        "see above",
        "as above",
        "made above",
        "recipe above",
        "from earlier",
        "reserved from",
        "from below",
        "(below)",
        "see below",
        "recipe below",
        "recipe follows",
        "(see page",
        "(page",
        "see recipe",
    ];
    if line.read.remaining || said.iter().any(|said| text.contains(said)) { Pointing::Somewhere } else { Pointing::No }
}

#[cfg(test)]
mod tests {
    use evencrumb_pantry::Pantry;
    use evencrumb_pantry::weigh::Kitchen;

    use super::*;

    const TEXT: &str = "Pear Squares\n\nFor the roasted pears\n900 g pears\n\nCaramel\n200 g sugar\n100 g cream\n\nBase\n200 g flour\n";
    const SHELF: &[(&str, &str)] = &[("All-Butter Shortcrust", ""), ("Fig and Sorghum Cookies", ""), ("Oat Base", "")];

    fn mention(line: &str) -> Option<Mention> {
        let pantry = Pantry::ours();
        let manuscript = evencrumb_manuscript::read(TEXT, pantry);
        let names = Names::of(&manuscript, &SHELF);
        names.mention(2, &crate::line::weigh(line, pantry, Kitchen::default()))
    }

    fn manuscript(line: &str) -> Option<usize> {
        match mention(line) {
            Some(Mention::Manuscript(at, _)) => Some(at),
            _ => None,
        }
    }

    #[test]
    fn ok_components() {
        assert_eq!(mention("1 cup (245 g) roasted pear puree, from above"), Some(Mention::Component(0)));
        assert_eq!(mention("remaining roasted pear puree"), Some(Mention::Component(0)));
        assert_eq!(mention("200 g caramel"), Some(Mention::Component(1)));
        assert_eq!(mention("half of the caramel (see above)"), Some(Mention::Component(1)));
    }

    #[test]
    fn ok_foods_stay_foods() {
        assert_eq!(mention("2 pears"), None);
        assert_eq!(mention("1 cup flour"), None);
        assert_eq!(mention("2 tablespoons caramel sauce"), None);
    }

    #[test]
    fn ok_other_manuscripts() {
        assert_eq!(manuscript("1 batch all-butter shortcrust"), Some(0));
        assert_eq!(manuscript("1 batch shortcrust"), Some(0));
        assert_eq!(manuscript("6 fig and sorghum cookies, crumbled"), Some(1));
        assert_eq!(manuscript("1 quantity oat base, chilled"), Some(2));
    }

    #[test]
    fn err_a_batch_of_nothing() {
        assert_eq!(mention("1 batch vanilla sponge"), Some(Mention::Nowhere));
    }
}
