//! Ingredients that stand outside the list: in a sentence, before the list or in a note. None is passed over in silence.

use std::collections::HashSet;
use std::ops::Range;

use super::super::list::opens_with_amount;
use super::super::section::Section;
use super::super::{Component, LINES_FROM_PROSE, LineRead, NodeKind, OUTSIDE_THE_LIST};
use super::{Reader, line_start};
use crate::food_words::FoodWords;
use crate::line::{Cut, Item};
use crate::method;
use crate::prose;
use crate::query::Query;
use crate::word;

/// Most queries about ingredients outside the list.
const MOST_ASKED: usize = 12;

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    /// Adds what the steps bring where the list stands in pieces among them, and asks about the rest.
    pub(super) fn look_outside(&mut self) {
        let before = self.out.queries.len();
        let known = self.names_listed();
        let in_pieces = self.list_in_pieces();
        let steps: Vec<Range<usize>> = self.out.steps.iter().map(|step| step.place.clone()).collect();
        for step in steps {
            for read in self.in_sentences(&step, &known) {
                if in_pieces {
                    self.add_from_step(read);
                } else {
                    let message =
                        format!("“{}” stands in a step and in no line of the list; it was not counted.", read.text);
                    self.ask_outside(before, read.place, message);
                }
            }
        }
        self.take_told_above(&known);
        for at in 0..self.end {
            let kind = self.said[at].kind;
            let body = self.row(at).body.clone();
            let other = self.out.queries.iter().any(|query| {
                query.kind == &OUTSIDE_THE_LIST && query.place.start <= body.start && body.end <= query.place.end
            });
            if other || !matches!(kind, NodeKind::Headnote | NodeKind::Note) || !self.ingredient_like(at) {
                continue;
            }
            let said = line_start(&self.row(at).text);
            if kind == NodeKind::Headnote {
                let message =
                    format!("“{said}” looks like an ingredient and stands before the list; it was taken for talk.");
                self.ask_outside(before, body, message);
            } else if self.brings_food(at) {
                let message = format!("“{said}” looks like an ingredient and stands in a note; it was not counted.");
                self.ask_outside(before, body, message);
            }
        }
    }

    /// Whether a row of the notes heads another way to make it: "For a richer cake use:", "With honey instead".
    pub(super) fn heads_variation(&self, at: usize) -> bool {
        let row = &self.row(at).plain;
        let words: Vec<&str> = row.split(' ').collect();
        let says = |list: &[&str]| words.iter().any(|word| list.contains(word));
        says(&["use", "using", "instead", "variation", "version", "swap", "substitute", "replace", "alternatively"])
            || words.starts_with(&["for", "a"]) && self.words(at) > 2
    }

    /// Asks about an ingredient that is struck out or hashed.
    pub(super) fn asks_of_crossed(&mut self, at: usize) {
        let said = line_start(&self.row(at).text);
        let message = format!("“{said}” is struck out or hashed; it was not counted.");
        let mend = "Write it as the other lines if it goes in, or delete it.";
        self.out.queries.push(Query::new(&OUTSIDE_THE_LIST, self.row(at).body.clone(), message, mend));
    }

    fn ask_outside(&mut self, before: usize, place: Range<usize>, message: String) {
        if self.out.queries.len() < before + MOST_ASKED {
            let mend = "Put it into the list if it belongs there.";
            self.out.queries.push(Query::new(&OUTSIDE_THE_LIST, place, message, mend));
        }
    }

    /// Whether a note names a food behind its amount, and is not the list told again.
    fn brings_food(&self, at: usize) -> bool {
        let text = &self.row(at).text;
        let read = self.read_line(text);
        opens_with_amount(&Cut::of(text), 0)
            && !text.ends_with('.')
            && read.foods.iter().any(|item| item.food.is_some())
            && !self.lists_again(&read)
    }

    /// The words of all foods of the list, and what its parts and the title call what is made: "cake" of "Walnut Cake",
    /// whose walnuts are an ingredient like any other.
    fn names_listed(&self) -> HashSet<String> {
        let lines = self.out.components.iter().flat_map(|component| &component.lines);
        let foods = lines.flat_map(|read| read.line.foods.iter().chain(&read.line.alternatives));
        let parts = self.out.components.iter().filter_map(|component| component.name.as_deref());
        let title = self.title.iter().map(|(_, title)| title.as_str());
        foods.flat_map(|item| words(&item.name)).chain(parts.chain(title).filter_map(dish)).collect()
    }

    /// Whether parts of the list, none of them below a heading “Ingredients”, stand among the steps.
    fn list_in_pieces(&self) -> bool {
        let Some(first) = self.out.steps.first() else { return false };
        let headed = self.rows[..self.end].iter().any(|row| row.section() == Some(Section::Ingredients));
        let later = self.out.components.iter().flat_map(|component| &component.lines);
        !headed && later.into_iter().any(|read| read.place.start > first.place.start)
    }

    /// What the sentences name with its amount, and the list does not have.
    fn in_sentences(&self, place: &Range<usize>, known: &HashSet<String>) -> Vec<LineRead> {
        let listed = |item: &Item| words(&item.name).any(|word| known.contains(&word));
        let mut found = prose::lines(&self.text[place.clone()], place.start, self.foods);
        found.retain(|read| {
            let before = self.text[place.start..read.place.start].trim_end().rsplit(' ').next().map(word::fold);
            // "reduce to 1 cup syrup", "you should have 2 cups juice" tell what comes out.
            let comes_out = before.is_some_and(|word| COMES_OUT.contains(&&*word));
            // "1/4 cup lemon filling", "1/3 cup walnut batter" are of what is made.
            let behind = self.text[read.place.end..place.end].split_whitespace().next().map(|word| words(word).next());
            let made = behind.flatten().is_some_and(|word| known.contains(&word) || MADE.contains(&word.as_str()));
            !comes_out
                && !made
                && !read.text.contains(" of the ")
                && !read.line.foods.iter().any(|item| listed(item) || self.heats_water(item, place))
        });
        found
    }

    /// Water that a pan stands in or that is only heated.
    fn heats_water(&self, item: &Item, place: &Range<usize>) -> bool {
        let step = || method::step(self.text, place.clone());
        words(&item.name).any(|word| word == "water") && (step().cooks || !step().pans.is_empty())
    }

    /// Adds an ingredient of a step to the part of the list that stands before it.
    fn add_from_step(&mut self, read: LineRead) {
        let message = format!("“{}” stands in a step; it was added to the list.", read.text);
        let mend = "Look whether it is there once, or write it into the list.";
        self.out.queries.push(Query::new(&LINES_FROM_PROSE, read.place.clone(), message, mend));
        let part = self.out.components.iter().rposition(|part| part.place.start < read.place.start).unwrap_or(0);
        if let Some(component) = self.out.components.get_mut(part) {
            component.place.end = component.place.end.max(read.place.end);
            component.lines.push(read);
        }
    }

    /// A first step above the list that brings what the list does not have: "Whisk together 2 cups flour, 2 tbsp sugar."
    fn take_told_above(&mut self, known: &HashSet<String>) {
        let Some(list) = self.out.components.first().map(|part| part.place.start) else { return };
        for at in 0..self.end {
            let body = self.row(at).body.clone();
            if body.start > list {
                return;
            }
            if self.said[at].kind != NodeKind::Headnote || !self.opens_with_verb(at) {
                continue;
            }
            let lines = self.in_sentences(&body, known);
            let (Some(first), Some(last)) = (lines.first(), lines.last()) else { continue };
            let place = first.place.start..last.place.end;
            self.say(at, NodeKind::Step);
            self.out.steps.insert(0, method::step(self.text, body));
            let message = format!("{} ingredients of the list were taken out of a sentence above it.", lines.len());
            let mend = "Look whether each is there once, or write them into the list.";
            self.out.queries.push(Query::new(&LINES_FROM_PROSE, place.clone(), message, mend));
            match self.out.components.first_mut().filter(|part| part.name.is_none()) {
                Some(part) => {
                    part.place.start = place.start;
                    part.lines.splice(0..0, lines);
                }
                None => self.out.components.insert(0, Component { name: None, place, lines }),
            }
            return;
        }
    }
}

/// Before the amount of what comes out of a step.
const COMES_OUT: &[&str] =
    &["to", "have", "get", "about", "yield", "yields", "make", "makes", "is", "are", "weigh", "weighs"];

/// What foods are made into before they are a cake.
const MADE: &[&str] = &["batter", "dough", "mixture"];

/// The word for what is made: the last before what it is made with.
fn dish(name: &str) -> Option<String> {
    let name = name.split([',', '(', ':', '–', '—']).next().unwrap_or(name);
    words(name.split(" with ").next().unwrap_or(name)).last()
}

/// The words of a name, as they are looked up.
fn words(name: &str) -> impl Iterator<Item = String> + use<'_> {
    name.split(|c: char| !c.is_alphanumeric()).filter(|word| word.len() > 2).map(|word| word::key(word).to_string())
}
