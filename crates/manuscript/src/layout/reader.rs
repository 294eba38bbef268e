//! Walks the rows once and says of each what it is.
//!
//! A row is judged by where the reader is ([`In`]) and by what it looks like. Each question has its module:
//! the rows before the list `head`, the list `list`, the method `method`, and so on; this one holds the walk.

mod columns;
mod facts;
mod head;
mod headings;
mod lines;
mod list;
mod looks;
mod method;
mod outside;
mod prose;
mod second;
mod split;
mod table;
mod title;
mod turn;
mod wrapped;

#[cfg(test)]
mod tests;

use std::cell::{OnceCell, RefCell};
use std::collections::{HashSet, VecDeque};
use std::rc::Rc;

use super::fact;
use super::furniture;
use super::optional;
use super::repeated;
use super::rows::{self, Mark, Row};
use super::section::{self, Section};
use super::{Manuscript, NO_LINES, NO_STEPS, NO_TITLE, Node, NodeKind, SECOND_RECIPE};
use headings::Heading;
use split::Waiting;

use crate::food_words::FoodWords;
use crate::line;
use crate::method as steps;
use crate::query::Query;

/// Where the reader is.
#[derive(Clone, Copy, PartialEq, Eq)]
enum In {
    Head,
    Ingredients,
    Method,
    Notes,
    Nutrition,
}

/// A row's kind and whether it goes on with what the row before began.
#[derive(Clone, Copy)]
struct Said {
    kind: NodeKind,
    goes_on: bool,
}

struct Reader<'t, F: ?Sized> {
    text: &'t str,
    rows: Vec<Row>,
    /// Which rows are headers and footers of pages.
    running: Vec<bool>,
    /// For each row the next row that says something, itself included.
    said_from: Vec<usize>,
    said: Vec<Said>,
    looks: Vec<Option<bool>>,
    headings: Vec<OnceCell<Option<Heading>>>,
    foods: &'t F,
    out: Manuscript,
    /// Rows of the method read so far and not yet made steps.
    method: Vec<usize>,
    title: Option<(usize, String)>,
    /// The row up to which is read.
    end: usize,
    /// Whether the manuscript is the quoted part of a letter.
    letter: bool,
    /// Whether few of the rows are quoted, so that they are another's words.
    answers: bool,
    /// Whether the last line was joined with a further row and not read since.
    stale: bool,
    /// The lines read last, for a row is asked about more than once and so are those just below it.
    lately: RefCell<VecDeque<(String, Rc<line::Line>)>>,
    /// Whether parts are named between blank rows, once it was asked.
    parted: Option<bool>,
    /// The row up to which lines without amounts stand below their heading.
    bare_until: usize,
    /// The row up to which lines are another choice than those above.
    other_until: usize,
    /// Whether any line was listed.
    listed_any: bool,
    /// The names of the components so far, and their last parts.
    names: HashSet<String>,
    /// Lines that wait for what stands in another row.
    waiting: Waiting,
    /// The heading within the method, for the steps below it.
    hints: Vec<(usize, String)>,
}

pub fn read<F: FoodWords + ?Sized>(text: &str, foods: &F) -> Manuscript {
    let mut rows = rows::rows(text);
    rows::without_speakers(text, &mut rows);
    let mut said_from = vec![rows.len(); rows.len() + 1];
    for at in (0..rows.len()).rev() {
        said_from[at] = if rows[at].blank() || rows[at].rule { said_from[at + 1] } else { at };
    }
    let (quoted, filled) = rows
        .iter()
        .filter(|row| !row.blank())
        .fold((0, 0), |(quoted, all), row| (quoted + usize::from(row.quoted), all + 1));
    let mut reader = Reader {
        text,
        said: vec![Said { kind: NodeKind::Blank, goes_on: false }; rows.len()],
        looks: vec![None; rows.len()],
        headings: vec![OnceCell::new(); rows.len()],
        end: rows.len(),
        answers: quoted * 2 <= filled,
        letter: quoted * 2 > filled && quoted >= 4,
        running: furniture::running(&rows),
        rows,
        said_from,
        foods,
        out: Manuscript::default(),
        method: Vec::new(),
        title: None,
        stale: false,
        lately: RefCell::default(),
        parted: None,
        bare_until: 0,
        other_until: 0,
        listed_any: false,
        names: HashSet::new(),
        waiting: Waiting::default(),
        hints: Vec::new(),
    };
    reader.lines_under_signs();
    reader.take_first_column();
    reader.find_second();
    reader.walk();
    reader.finish()
}

impl<F: FoodWords + ?Sized> Reader<'_, F> {
    fn row(&self, at: usize) -> &Row {
        &self.rows[at]
    }

    fn words(&self, at: usize) -> usize {
        self.rows.get(at).map_or(0, |row| row.text.split(' ').take(60).count())
    }

    fn blank_before(&self, at: usize) -> bool {
        at == 0 || self.rows[at - 1].blank() || self.rows[at - 1].rule
    }

    fn say(&mut self, at: usize, kind: NodeKind) {
        self.said[at] = Said { kind, goes_on: false };
    }

    fn goes_on(&mut self, at: usize, kind: NodeKind) {
        self.said[at] = Said { kind, goes_on: true };
    }

    fn walk(&mut self) {
        let mut state = In::Head;
        let mut at = 0;
        while at < self.end {
            if self.row(at).blank() {
                at += 1;
                continue;
            }
            if self.row(at).rule {
                let under = at > 0 && matches!(self.said[at - 1].kind, NodeKind::Heading | NodeKind::Title);
                if under {
                    let kind = self.said[at - 1].kind;
                    self.goes_on(at, kind);
                } else {
                    self.say(at, NodeKind::Junk);
                }
                at += 1;
                continue;
            }
            if matches!(state, In::Method | In::Notes) && self.begins_second(at) {
                self.end = at;
                break;
            }
            state = self.take(at, state);
            at += 1;
        }
        self.close_method();
    }

    /// Says what row `at` is; gives where the reader is after it.
    fn take(&mut self, at: usize, state: In) -> In {
        let text = self.row(at).text.clone();
        if self.letter && !self.row(at).quoted {
            self.note(at);
            return state;
        }
        // A question that the author answers.
        if self.answers && state == In::Head && self.row(at).quoted {
            self.say(at, NodeKind::Headnote);
            return state;
        }
        // The title again, at the head of another page.
        let again = self.title.as_ref().is_some_and(|(first, title)| *first != at && *title == text);
        if self.running[at] || furniture::is_furniture(&text, &self.row(at).plain) || again && !self.heads_component(at)
        {
            self.take_columns(at);
            self.say(at, NodeKind::Junk);
            return state;
        }
        if self.row(at).crossed && state != In::Nutrition {
            self.note(at);
            self.asks_of_crossed(at);
            return state;
        }
        if furniture::is_table_head(&text, &self.row(at).plain) && (self.take_columns(at) || self.heads_table(at))
            || furniture::is_column(&self.row(at).plain) && self.heads_column(at)
        {
            self.say(at, NodeKind::Junk);
            return In::Ingredients;
        }
        if let Some(section) = self.row(at).section().filter(|_| self.row(at).mark != Mark::Number) {
            if section == Section::Ingredients {
                self.take_columns(at);
            }
            let section =
                if section == Section::Ingredients && self.heads_things(at) { Section::Equipment } else { section };
            // Below "You will also need" after the list, ingredients are a part of it.
            let next = self.said_from[at + 1];
            if section == Section::Equipment && self.listed_any && self.ingredient_like(next) {
                return self.component(at, &text);
            }
            return self.enter(at, section);
        }
        if let Some((section, rest)) = section::headed_with_words(&text).filter(|_| self.row(at).mark != Mark::Number) {
            let fact = state == In::Head && !fact::facts(&text, true).is_empty();
            // "Note: …" between ingredients or steps is a remark there, and the list goes on.
            let next = self.said_from[at + 1];
            let among = section == Section::Notes
                && next < self.end
                && (state == In::Ingredients && self.ingredient_like(next)
                    || state == In::Method && self.row(next).mark == Mark::Number);
            if among {
                self.note(at);
                return state;
            }
            if !fact {
                return self.enter_with_words(at, section, &text[rest..]);
            }
        }
        match state {
            In::Head => self.head(at, &text),
            In::Ingredients => self.ingredients(at, &text),
            In::Method => self.in_method(at, &text),
            In::Notes => {
                // Notes may stand before the list; then it begins as it does after a title.
                let first = !self.listed_any && self.blank_before(at) && self.row(at).mark == Mark::None;
                if self.listed_any && self.heads_variation(at) {
                    self.note(at);
                    return In::Notes;
                }
                if self.strong_component(at) || first && self.heads_lines(at) && self.lists_on(at) {
                    return self.component(at, &text);
                }
                if first && self.begins_list(at) && self.lists_on(at) {
                    return self.ingredients(at, &text);
                }
                if !self.yields(at, &text) {
                    self.note(at);
                }
                In::Notes
            }
            In::Nutrition => {
                self.say(at, NodeKind::Junk);
                In::Nutrition
            }
        }
    }

    fn note(&mut self, at: usize) {
        let place = self.row(at).body.clone();
        self.say(at, NodeKind::Note);
        self.out.notes.push(place);
    }

    fn finish(mut self) -> Manuscript {
        self.refresh();
        if self.out.components.iter().all(|component| component.lines.is_empty()) {
            self.read_prose();
        } else {
            if self.out.steps.is_empty() {
                self.method_above();
            }
            self.look_outside();
            self.prepared_above();
        }
        self.out.components.retain(|component| !component.lines.is_empty());
        for component in &mut self.out.components {
            let optional = component.name.as_deref().is_some_and(optional::heads);
            component.lines.iter_mut().for_each(|read| read.line.optional |= optional);
        }
        let asked = repeated::asked(&self.out.components);
        self.out.queries.extend(asked);
        self.out.title = self.title.take().map(|(_, title)| title);
        let headnote: Vec<&str> = self
            .rows
            .iter()
            .zip(&self.said)
            .filter(|(_, said)| said.kind == NodeKind::Headnote)
            .map(|(row, _)| row.text.as_str())
            .collect();
        self.out.headnote = headnote.join(" ");
        let end = self.rows.get(self.end).map_or(self.text.len(), |row| row.place.start);
        self.nodes();
        if end < self.text.len() {
            self.out.second = Some(end..self.text.len());
            self.out.nodes.push(Node { kind: NodeKind::SecondRecipe, place: end..self.text.len() });
            let title = self.row(self.end).text.clone();
            self.out.queries.push(Query::new(
                &SECOND_RECIPE,
                end..self.text.len(),
                format!("A second recipe begins with “{}”; only the first was read.", line_start(&title)),
                "Put it into a file of its own.",
            ));
        }
        steps::link(self.text, &mut self.out, &self.hints);
        if self.out.facts.iter().all(|fact| fact.makes.is_none()) {
            let tells = |kind| matches!(kind, NodeKind::Headnote | NodeKind::Step | NodeKind::Note);
            let told = self.out.nodes.iter().filter(|node| tells(node.kind));
            let mut told = told.flat_map(|node| steps::sentences(&self.text[node.place.clone()], node.place.start));
            let said = told.find_map(|place| fact::said(self.text, &place));
            let steps = self.out.steps.iter().rev().flat_map(|step| step.sentences.iter().rev());
            self.out.facts.extend(said.or_else(|| steps.filter_map(|place| fact::cut_up(self.text, place)).next()));
        }
        let missing = [
            (
                self.out.components.is_empty(),
                &NO_LINES,
                "No ingredient was found.",
                "Begin each ingredient's line with its amount and name.",
            ),
            (self.out.steps.is_empty(), &NO_STEPS, "No method was found.", "Write the steps below a line “Method”."),
            (self.out.title.is_none(), &NO_TITLE, "No title was found.", "Put the title on the first line."),
        ];
        for (is, kind, message, mend) in missing {
            if is {
                self.out.queries.push(Query::new(kind, 0..0, message, mend));
            }
        }
        self.out
    }

    /// Every row to its node; rows that go on with the one before share its node.
    fn nodes(&mut self) {
        let mut nodes: Vec<Node> = Vec::new();
        for (row, said) in self.rows[..self.end].iter().zip(&self.said) {
            let joins = said.goes_on || matches!(said.kind, NodeKind::Blank | NodeKind::Headnote | NodeKind::Junk);
            match nodes.last_mut() {
                Some(last) if joins && last.kind == said.kind => last.place.end = row.place.end,
                _ => nodes.push(Node { kind: said.kind, place: row.place.clone() }),
            }
        }
        self.out.nodes = nodes;
    }
}

fn line_start(text: &str) -> String {
    text.chars().take(60).collect()
}
