//! Whether a line names something that is made: a component, or another manuscript.

use std::cell::OnceCell;
use std::collections::BTreeSet;

use evencrumb_manuscript::Manuscript;
use evencrumb_manuscript::line::{Amount, Cut, Item, is_sold_in_sizes};
use evencrumb_manuscript::word::name_key;
use evencrumb_pantry::Pantry;

use super::elsewhere::{Elsewhere, Name, Shelved};
use crate::line::WeighedLine;

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

/// What any part may be called besides its name.
pub const MIXTURES: &[&str] = &["dough", "batter", "mixture", "mix"];

/// The telling words of a name; what stands in brackets is a remark ("Preferment (night before)").
pub fn words(name: &str) -> Words {
    let cut = Cut::of(name);
    let mut depth = 0usize;
    let mut words = Words::new();
    for (at, token) in cut.tokens.iter().enumerate() {
        if cut.mark(at, '(') {
            depth += 1;
        } else if cut.mark(at, ')') {
            depth = depth.saturating_sub(1);
        } else if depth == 0 && (cut.is_word(at) || token.is_number()) && !EMPTY.contains(&token.key.as_str()) {
            words.insert(token.key.to_string());
        }
    }
    words
}

/// Components that are looked through for what a line names; no recipe has so many, and a hostile text must not be slow.
pub const MOST_COMPONENTS: usize = 100;

/// The things made in one manuscript and around it, by their words.
pub struct Names<'a> {
    components: Vec<Words>,
    manuscript: &'a Manuscript,
    pantry: &'a Pantry,
    elsewhere: &'a Elsewhere<'a>,
    /// The title as it is looked up.
    own: Option<String>,
}

impl<'a> Names<'a> {
    /// The names of a manuscript and of a shelf.
    pub fn of(manuscript: &'a Manuscript, pantry: &'a Pantry, elsewhere: &'a Elsewhere<'a>) -> Names<'a> {
        let named = manuscript.components.iter().take(MOST_COMPONENTS);
        let components = named.map(|component| words(component.name.as_deref().unwrap_or(""))).collect();
        Names { components, manuscript, pantry, elsewhere, own: manuscript.title.as_deref().map(name_key) }
    }

    /// What a line of component `here` names, when it names something made.
    pub fn mention(&self, here: usize, line: &WeighedLine) -> Option<Mention> {
        let asked = Asked::of(here, line)?;
        self.component(&asked)
            .or_else(|| self.other(&asked))
            .or_else(|| (asked.pointing == Pointing::Batch).then_some(Mention::Nowhere))
    }

    fn component(&self, asked: &Asked<'_>) -> Option<Mention> {
        let known = asked.pointing == Pointing::No && asked.item.food.is_some();
        // Nearly every line names a food, and no part above is called like it.
        if known && !self.components.iter().take(asked.here).any(|made| asked.name.is_subset(made)) {
            return None;
        }
        let own = self.components.get(asked.here);
        let others: Vec<(usize, &Words)> = self
            .components
            .iter()
            .enumerate()
            .filter(|(at, made)| *at != asked.here && !made.is_empty() && Some(*made) != own)
            .filter(|(at, _)| !self.manuscript.components[*at].lines.is_empty())
            .collect();
        let name = &asked.name;
        // "100 g of the base dough" where the heading says "Base".
        let bare: Words = name.iter().filter(|word| !MIXTURES.contains(&word.as_str())).cloned().collect();
        let plainly = others.iter().filter(|(at, made)| {
            let whole = *made == name || *made == &bare;
            let held = || made.is_subset(asked.said()) && (made.len() > 1 || asked.pointing > Pointing::No);
            match asked.pointing {
                Pointing::No if known => *at < asked.here && self.is_namesake(*at, made, asked),
                Pointing::No => whole || held(),
                _ => whole || held() || !name.is_empty() && name.is_subset(made),
            }
        });
        let shared = |made: &Words| made.intersection(asked.said()).count();
        let fits: Vec<(usize, usize)> = plainly.map(|(at, made)| (shared(made), *at)).collect();
        if let Some(most) = fits.iter().map(|(shared, _)| *shared).max() {
            let mut best = fits.iter().filter(|(shared, _)| *shared == most).map(|(_, at)| *at);
            let first = best.next()?;
            // Two lists under one heading: nobody can say which is meant.
            let same = best.find(|at| self.components[*at] == self.components[first]);
            return Some(match same {
                Some(same) => Mention::Several([first, same].map(|at| self.heading(at)).to_vec()),
                None => Mention::Component(first),
            });
        }
        if asked.pointing != Pointing::Somewhere || asked.remaining {
            return None;
        }
        // "2 cups puree, from above" where the heading says "For the pears, pureed": the only one that shares a word.
        let mut near = others.iter().filter(|(_, made)| made.intersection(name).next().is_some());
        near.next().filter(|_| near.next().is_none()).map(|(at, _)| Mention::Component(*at))
    }

    fn heading(&self, at: usize) -> String {
        self.manuscript.components[at].name.clone().unwrap_or_default()
    }

    /// Whether a line that names a food of the pantry means the part above of that name: "Brown butter: 225 g butter" and
    /// then "170 g brown butter". What is bought, and a heading that only repeats the one thing under it ("For the pears:
    /// 5 pears"), name the food.
    fn is_namesake(&self, at: usize, made: &Words, asked: &Asked<'_>) -> bool {
        let lines = &self.manuscript.components[at].lines;
        let repeats = || lines.len() == 1 && made.is_subset(&words(&lines[0].text));
        // "Toasted oats", and not "oats, toasted".
        let called = asked.name.is_subset(made)
            && made.is_subset(&words(asked.text.get(..asked.item.place.end).unwrap_or_default()));
        called && !repeats() && !asked.is_bought()
    }

    fn other(&self, asked: &Asked<'_>) -> Option<Mention> {
        let shelved = self.elsewhere.shelved();
        if shelved.is_empty() {
            return None;
        }
        let line = name_key(asked.text);
        let is_batch = asked.pointing == Pointing::Batch;
        // A whole title in the line, word by word; of a food that is known only one that is no food itself.
        let whole = |name: &Name| {
            let long = if asked.item.food.is_none() || asked.pointing > Pointing::No { 2 } else { 3 };
            name.words.len() >= long && contains(&line, &name.key) && self.pantry.named(&name.written).is_none()
        };
        let loosely = |Name { words, .. }: &Name| {
            let known = asked.item.food.is_some() && !is_batch;
            let all = words.len() > 1 && words.is_subset(asked.said());
            !known && !words.is_empty() && (all || *words == asked.name)
        };
        let partly = |name: &Name| is_batch && !asked.name.is_empty() && asked.name.is_subset(&name.words);
        let said = asked.said().iter().chain(&asked.name).map(String::as_str);
        let within = self.elsewhere.within(line.split(' ').chain(said));
        let with = if is_batch { self.elsewhere.with(&asked.name) } else { BTreeSet::new() };
        let rules: [(Rule<'_>, _); 3] = [(&whole, &within), (&loosely, &within), (&partly, &with)];
        for (fits, may) in rules {
            let found = may.iter().copied().filter(|at| {
                // The recipe's own title stands in many of its lines; only "1 batch of" it means itself.
                (is_batch || !self.is_own(&shelved[*at])) && shelved[*at].names.iter().any(fits)
            });
            let found: Vec<usize> = found.collect();
            match found[..] {
                [] => {}
                [one] => return Some(Mention::Manuscript(one, asked.said().clone())),
                _ => {
                    // The longest title wins: "Pear Cake" is in every line that names the "Brown Butter Pear Cake".
                    let length = |at: usize| shelved[at].names.iter().map(|name| name.words.len()).max().unwrap_or(0);
                    let longest = found.iter().map(|at| length(*at)).max().unwrap_or(0);
                    let mut best = found.iter().filter(|at| length(**at) == longest);
                    return Some(match (best.next(), best.next()) {
                        (Some(one), None) => Mention::Manuscript(*one, asked.said().clone()),
                        _ => Mention::Several(found.iter().map(|at| shelved[*at].title.clone()).collect()),
                    });
                }
            }
        }
        None
    }

    /// Whether it has the title of the very manuscript that is computed.
    fn is_own(&self, one: &Shelved) -> bool {
        self.own.is_some() && one.names.first().map(|name| &name.key) == self.own.as_ref()
    }
}

/// Whether a name of a manuscript is what a line means.
type Rule<'r> = &'r dyn Fn(&Name) -> bool;

/// A line as it is asked about.
struct Asked<'a> {
    here: usize,
    item: &'a Item,
    pointing: Pointing,
    remaining: bool,
    /// The telling words of the line, once they were asked for.
    said: OnceCell<Words>,
    /// Those of the food's name.
    name: Words,
    /// The line.
    text: &'a str,
}

impl<'a> Asked<'a> {
    fn of(here: usize, line: &'a WeighedLine) -> Option<Asked<'a>> {
        let item = &line.foods.first()?.item;
        Some(Asked {
            here,
            item,
            pointing: pointing(line, item),
            remaining: line.read.remaining,
            said: OnceCell::new(),
            name: words(&item.name),
            text: &line.text,
        })
    }

    fn said(&self) -> &Words {
        self.said.get_or_init(|| words(self.text))
    }

    /// "Shop-bought lemon curd", "1 can pumpkin puree": not what was made above.
    fn is_bought(&self) -> bool {
        let sold = |amount: &Amount| amount.terms.iter().any(|term| is_sold_in_sizes(term.unit));
        let said = ["bought", "purchased", "canned", "tinned", "jarred", "ready-made"];
        let text = self.text.to_lowercase();
        said.iter().any(|said| text.contains(said)) || self.item.amounts.iter().any(sold)
    }
}

/// Whether words stand in a text one after another.
fn contains(text: &str, words: &str) -> bool {
    !words.is_empty() && format!(" {text} ").contains(&format!(" {words} "))
}

fn pointing(line: &WeighedLine, item: &Item) -> Pointing {
    if item.reference {
        return Pointing::Batch;
    }
    if line.read.remaining || points(&line.text) { Pointing::Somewhere } else { Pointing::No }
}

/// Whether the text points to something made above or elsewhere.
fn points(text: &str) -> bool {
    let begins = |word: &str, last: &str| word.get(..last.len()).is_some_and(|word| word.eq_ignore_ascii_case(last));
    // Nearly no line has such a word, and to look for one of the phrases costs as much as this walk.
    let may = text.split(|c: char| !c.is_alphabetic()).any(|word| LAST.iter().any(|last| begins(word, last)));
    may && {
        let text = text.to_lowercase();
        SAID.iter().any(|said| text.contains(said))
    }
}

/// What points to something made above or elsewhere.
const SAID: &[&str] = &[
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

/// The last words of those.
const LAST: &[&str] = &["above", "earlier", "from", "below", "follows", "page", "recipe"];

#[cfg(test)]
mod tests {
    use evencrumb_pantry::Pantry;
    use evencrumb_pantry::weigh::Kitchen;

    use super::*;

    const TEXT: &str = "Pear Squares\n\nFor the roasted pears\n900 g pears\n\nCaramel\n200 g sugar\n100 g cream\n\nBase\n200 g flour\n";
    const SHELF: &[(&str, &str)] = &[
        ("All-Butter Shortcrust", ""),
        ("Fig and Sorghum Cookies", ""),
        ("Oat Base", ""),
        ("Recipe 1 Cake", ""),
        ("Recipe 2 Cake", ""),
        ("Brown Sugar", ""),
        ("Pear Squares", ""),
    ];

    fn mention(line: &str) -> Option<Mention> {
        let pantry = Pantry::ours();
        let manuscript = evencrumb_manuscript::read(TEXT, pantry);
        let elsewhere = Elsewhere::of(&SHELF);
        let names = Names::of(&manuscript, pantry, &elsewhere);
        names.mention(2, &crate::line::weigh(line, pantry, Kitchen::default()))
    }

    fn manuscript(line: &str) -> Option<usize> {
        match mention(line) {
            Some(Mention::Manuscript(at, _)) => Some(at),
            _ => None,
        }
    }

    #[test]
    fn ok_every_phrase_points() {
        for said in SAID {
            assert!(points(&format!("1 cup puree, {}", said.to_uppercase())), "{said}");
        }
        assert!(!points("1 cup recipes of above the pages"));
    }

    #[test]
    fn ok_components() {
        assert_eq!(mention("1 cup (245 g) roasted pear puree, from above"), Some(Mention::Component(0)));
        assert_eq!(mention("remaining roasted pear puree"), Some(Mention::Component(0)));
        assert_eq!(mention("200 g caramel"), Some(Mention::Component(1)));
        assert_eq!(mention("100 g of the caramel mixture"), Some(Mention::Component(1)));
        assert_eq!(mention("100 g cookie dough mixture"), None);
        assert_eq!(mention("half of the caramel (see above)"), Some(Mention::Component(1)));
    }

    #[test]
    fn ok_foods_stay_foods() {
        assert_eq!(mention("2 pears"), None);
        assert_eq!(mention("1 cup flour"), None);
        assert_eq!(mention("2 tablespoons caramel sauce"), None);
        assert_eq!(mention("100 g brown sugar"), None);
    }

    #[test]
    fn ok_other_manuscripts() {
        assert_eq!(manuscript("1 batch all-butter shortcrust"), Some(0));
        assert_eq!(manuscript("1 batch shortcrust"), Some(0));
        assert_eq!(manuscript("6 fig and sorghum cookies, crumbled"), Some(1));
        assert_eq!(manuscript("1 quantity oat base, chilled"), Some(2));
        assert_eq!(manuscript("1 batch Recipe 2 Cake"), Some(4));
        assert_eq!(manuscript("1 batch pear squares"), Some(6));
    }

    #[test]
    fn err_a_batch_of_nothing() {
        assert_eq!(mention("1 batch vanilla sponge"), Some(Mention::Nowhere));
    }
}
