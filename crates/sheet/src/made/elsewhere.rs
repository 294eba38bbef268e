//! The other recipes of the kitchen folder while one sheet is computed: their names, and each read and weighed once,
//! however many lines of however many recipes take of it.

use std::cell::{OnceCell, RefCell};
use std::collections::{BTreeSet, HashMap};
use std::rc::Rc;
use std::sync::Arc;

use evencrumb_manuscript::word::name_key;
use evencrumb_manuscript::{Manuscript, Query, Weight};

use super::mention::{MOST_COMPONENTS, Words, words};
use super::settle::{Stack, as_weighed};
use super::share::Whole;
use super::{GOES_IN_A_CIRCLE, MENDED_THERE_FIRST};
use crate::sheet::{Setting, Sheet};
use crate::shelf::Shelf;
use crate::total::Total;

/// How many recipes are followed one within the other. No kitchen has so many, and a folder of nothing but links must not
/// use up the memory of the program.
pub const DEEPEST: usize = 40;

/// The shelf during one computation.
pub struct Elsewhere<'a> {
    /// Where the recipes come from.
    pub shelf: &'a dyn Shelf,
    titles: OnceCell<Titles>,
    met: RefCell<HashMap<usize, Met>>,
}

/// The names of the shelf, found by their words.
struct Titles {
    shelved: Vec<Shelved>,
    /// The recipes that have a word in one of their names.
    with: HashMap<String, Vec<usize>>,
    /// The recipes of which a name has no rarer word: a line that holds a whole name is found by that word, and not by the
    /// "cake" of every cake.
    by_rarest: HashMap<String, Vec<usize>>,
}

/// A manuscript of the shelf by its names.
pub struct Shelved {
    /// Its title.
    pub title: String,
    /// Its names.
    pub names: Vec<Name>,
}

/// One name of a manuscript.
pub struct Name {
    /// As it is written.
    pub written: String,
    /// Its words as they are looked up, one after another.
    pub key: String,
    /// Its telling words.
    pub words: Words,
}

/// What was met on the shelf.
#[derive(Clone)]
pub enum Met {
    /// A recipe, weighed.
    Recipe(Rc<Recipe>),
    /// Nothing that could be read.
    Nothing,
    /// One that is being computed already, by its title: it would be made with itself.
    Circle(String),
    /// One that lies further down than recipes are followed.
    TooDeep,
}

/// Another recipe, weighed.
pub struct Recipe {
    /// What it is called.
    pub title: String,
    /// Its sheet.
    pub sheet: Arc<Sheet>,
    /// All of it, when it is ready to be used.
    pub all: (Total, Whole),
    /// What must be mended there first; its place is left to the line that takes of it.
    pub query: Option<Query>,
    /// Whether it can't be weighed because it lies in a circle.
    pub is_in_a_circle: bool,
    manuscript: Manuscript,
    text: String,
    /// The words that tell each component from the whole.
    telling: Vec<Words>,
    /// Components that lines take of, when they are ready to be used.
    components: Vec<OnceCell<(Total, Whole)>>,
}

impl<'a> Elsewhere<'a> {
    /// A shelf of which nothing was asked yet.
    pub fn of(shelf: &'a dyn Shelf) -> Elsewhere<'a> {
        Elsewhere { shelf, titles: OnceCell::new(), met: RefCell::default() }
    }

    /// Every recipe, in the order of the shelf.
    pub fn shelved(&self) -> &[Shelved] {
        &self.titles().shelved
    }

    /// The recipes of which a whole name may stand in the words, in the order of the shelf.
    pub fn within<'w>(&self, words: impl Iterator<Item = &'w str>) -> BTreeSet<usize> {
        let by_rarest = &self.titles().by_rarest;
        words.filter_map(|word| by_rarest.get(word)).flatten().copied().collect()
    }

    /// The recipes that may have all the words in a name.
    pub fn with(&self, words: &Words) -> BTreeSet<usize> {
        let with = &self.titles().with;
        let fewest = words.iter().map(|word| with.get(word).map_or(&[][..], Vec::as_slice)).min_by_key(|at| at.len());
        fewest.unwrap_or_default().iter().copied().collect()
    }

    fn titles(&self) -> &Titles {
        self.titles.get_or_init(|| {
            let name = |written: String| Name { key: name_key(&written), words: words(&written), written };
            let shelved: Vec<Shelved> = self
                .shelf
                .names()
                .into_iter()
                .map(|names| Shelved {
                    title: names.first().cloned().unwrap_or_default(),
                    names: names.into_iter().map(name).collect(),
                })
                .collect();
            let mut with: HashMap<String, Vec<usize>> = HashMap::new();
            for (at, one) in shelved.iter().enumerate() {
                for word in one.names.iter().flat_map(|name| name.key.split(' ').chain(telling(name))) {
                    with.entry(word.to_owned()).or_default().push(at);
                }
            }
            let mut by_rarest: HashMap<String, Vec<usize>> = HashMap::new();
            for (at, one) in shelved.iter().enumerate() {
                for name in &one.names {
                    let count = |word: &&str| with.get(*word).map_or(0, Vec::len);
                    let rarest = [name.key.split(' ').min_by_key(count), telling(name).min_by_key(count)];
                    for word in rarest.into_iter().flatten() {
                        by_rarest.entry(word.to_owned()).or_default().push(at);
                    }
                }
            }
            Titles { shelved, with, by_rarest }
        })
    }

    /// A recipe by its place on the shelf, for a line of the manuscript that lies last on the stack.
    pub fn recipe(&self, at: usize, setting: &Setting<'_>, stack: Stack<'_>) -> Met {
        if let Some(met) = self.met.borrow().get(&at) {
            return met.clone();
        }
        if stack.len() > DEEPEST {
            return Met::TooDeep;
        }
        let remember = |met: Met| {
            self.met.borrow_mut().insert(at, met.clone());
            met
        };
        let Some(text) = self.shelf.text(at) else { return remember(Met::Nothing) };
        let manuscript = evencrumb_manuscript::read(&text, setting.pantry);
        let called = self.shelved().get(at).map(|one| one.title.clone());
        let title = manuscript.title.clone().or(called).unwrap_or_default();
        // Until it is computed, whoever meets it has met a circle.
        let circle = remember(Met::Circle(title.clone()));
        if stack.contains(&text.as_str()) {
            return circle;
        }
        let sheet = Sheet::within(&text, &manuscript, setting, self, stack);
        remember(Met::Recipe(Rc::new(Recipe::of(title, text, manuscript, sheet))))
    }
}

fn telling(name: &Name) -> impl Iterator<Item = &str> {
    name.words.iter().map(String::as_str)
}

impl Recipe {
    fn of(title: String, text: String, manuscript: Manuscript, sheet: Sheet) -> Recipe {
        let mut asked = sheet.queries.iter();
        // What lies in a circle further down has its query there; here it is a part that has no weight.
        let circle = asked.clone().find(|placed| placed.query.kind.name == GOES_IN_A_CIRCLE.name).map(|placed| {
            let message = format!("“{title}” can't be weighed: {}", placed.query.message);
            Query::new(&GOES_IN_A_CIRCLE, 0..0, message, placed.query.mend.clone())
        });
        let to_mend = asked.find(|placed| placed.query.kind.weight == Weight::MustMend).map(|placed| {
            Query::new(
                &MENDED_THERE_FIRST,
                0..0,
                format!("“{title}” has something to mend (line {}): {}", placed.line, placed.query.message),
                format!("Mend it there: {}", placed.query.mend),
            )
        });
        let title_words = words(&title);
        let telling = |component: &evencrumb_manuscript::Component| {
            words(component.name.as_deref().unwrap_or("")).difference(&title_words).cloned().collect()
        };
        let telling: Vec<Words> = manuscript.components.iter().take(MOST_COMPONENTS).map(telling).collect();
        let total = sheet.ready(&sheet.total);
        let pieces = sheet.makes.pieces.map(|(low, high)| f64::midpoint(low, high));
        let whole = Whole { grams: total.grams.clone(), millilitres: None, pieces };
        Recipe {
            is_in_a_circle: circle.is_some(),
            query: circle.or(to_mend),
            all: (total, whole),
            components: telling.iter().map(|_| OnceCell::new()).collect(),
            telling,
            title,
            sheet: Arc::new(sheet),
            manuscript,
            text,
        }
    }

    /// The component that a line means, by the words in it, when it doesn't mean the whole.
    pub fn component(&self, said: &Words) -> Option<usize> {
        self.telling.iter().position(|words| !words.is_empty() && words.is_subset(said))
    }

    /// What a component holds when it is ready to be used, and how much of it there is.
    pub fn component_when_ready(&self, of: usize) -> &(Total, Whole) {
        self.components[of]
            .get_or_init(|| as_weighed(&self.text, &self.manuscript, of, &self.sheet.components[of].total))
    }
}
