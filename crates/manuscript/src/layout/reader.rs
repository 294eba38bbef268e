//! Walks the rows once and says of each what it is.

use std::cell::RefCell;
use std::collections::VecDeque;
use std::ops::Range;
use std::rc::Rc;

use super::fact;
use super::list;
use super::rows::{self, Mark, Row};
use super::section::{self, Section};
use super::{
    Component, FactKind, LINES_FROM_PROSE, LineRead, Manuscript, NO_LINES, NO_STEPS, NO_TITLE, Node, NodeKind,
    SCANNED_NUMBER, SECOND_RECIPE,
};
use crate::food_words::FoodWords;
use crate::line::{self, Cut, Kind};
use crate::method;
use crate::prose;
use crate::query::Query;
use crate::word;
use crate::words::WORDS;
use evencrumb_measure::Unit;

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
    /// For each row the next row that says something, itself included.
    said_from: Vec<usize>,
    said: Vec<Said>,
    looks: Vec<Option<bool>>,
    foods: &'t F,
    out: Manuscript,
    /// Rows of the method read so far and not yet made steps.
    method: Vec<usize>,
    title: Option<usize>,
    /// The row up to which is read.
    end: usize,
    /// Whether the manuscript is the quoted part of a letter.
    letter: bool,
    /// Whether the last line was joined with a further row and not read since.
    stale: bool,
    /// The lines read last, for a row is asked about more than once and so are those just below it.
    lately: RefCell<VecDeque<(String, Rc<line::Line>)>>,
    /// The heading within the method, for the steps below it.
    hints: Vec<(usize, String)>,
}

pub fn read<F: FoodWords + ?Sized>(text: &str, foods: &F) -> Manuscript {
    let rows = rows::rows(text);
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
        end: rows.len(),
        letter: quoted * 2 > filled && quoted >= 4,
        rows,
        said_from,
        foods,
        out: Manuscript::default(),
        method: Vec::new(),
        title: None,
        stale: false,
        lately: RefCell::default(),
        hints: Vec::new(),
    };
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

    /// Reads a line, or remembers it.
    fn read_line(&self, text: &str) -> Rc<line::Line> {
        if let Some((_, line)) = self.lately.borrow().iter().find(|(known, _)| known == text) {
            return Rc::clone(line);
        }
        let line = Rc::new(self.read_line_anew(text));
        let mut lately = self.lately.borrow_mut();
        lately.truncate(REMEMBERED - 1);
        lately.push_front((text.to_owned(), Rc::clone(&line)));
        line
    }

    fn read_line_anew(&self, text: &str) -> line::Line {
        let plain = list::plain(text);
        let mut read = line::read(&plain, self.foods);
        if text.starts_with('l') && plain.starts_with('1') {
            read.queries.push(Query::new(
                &SCANNED_NUMBER,
                0..1,
                format!("“{}” begins with the letter l; it was read as the number 1.", line_start(text)),
                "Write the number.",
            ));
        }
        read
    }

    fn say(&mut self, at: usize, kind: NodeKind) {
        self.said[at] = Said { kind, goes_on: false };
    }

    fn goes_on(&mut self, at: usize, kind: NodeKind) {
        self.said[at] = Said { kind, goes_on: true };
    }

    /// Whether the row has an amount and reads as an ingredient. Asked once for each row.
    fn ingredient_like(&mut self, at: usize) -> bool {
        if at >= self.end {
            return false;
        }
        if let Some(known) = self.looks[at] {
            return known;
        }
        let looks = self.looks_like(at);
        self.looks[at] = Some(looks);
        looks
    }

    fn looks_like(&self, at: usize) -> bool {
        let row = self.row(at);
        if row.text.is_empty() || row.text.len() > 220 || orders(&row.text) || row.decorated || row.text.contains(" = ")
        {
            return false;
        }
        let plain = list::plain(&row.text);
        let cut = Cut::of(&plain);
        let number = list::opens_with_amount(&cut, 0);
        let ends = row.text.ends_with(['.', '!', '?']) && self.words(at) > 6;
        if ends && !cut.get(0).is_some_and(crate::token::Token::is_number) {
            return false;
        }
        let any_number = number || cut.tokens.iter().any(crate::token::Token::is_number);
        if !any_number {
            return false;
        }
        let read = self.read_line(&row.text);
        if read.kind != Kind::Ingredient {
            return false;
        }
        let measured = read.foods.iter().flat_map(|item| &item.amounts).flat_map(|amount| &amount.terms).any(|term| {
            !matches!(
                term.unit,
                Unit::Inch
                    | Unit::Centimetre
                    | Unit::Piece
                    | Unit::Part
                    | Unit::Round
                    | Unit::Percent
                    | Unit::Stone
                    | Unit::Serving
            )
        });
        let known = read.foods.iter().any(|item| item.food.is_some());
        // "A teacup of sugar": a measure that is not known, and a food at the end.
        let last = cut
            .tokens
            .iter()
            .rev()
            .find(|token| token.kind == crate::token::Kind::Word)
            .and_then(|token| self.foods.food(&token.key));
        let of = number && last.is_some() && cut.any(0, &["a", "an"]) && self.words(at) <= 7;
        measured && (known || number) || number && known || of
    }

    /// Whether the row tells what to do.
    fn step_like(&self, at: usize) -> bool {
        let row = self.row(at);
        let text = row.text.as_str();
        let head = text.split([' ', ',', '.']).next().map(word::fold).unwrap_or_default();
        let sentences = text.find(". ").is_some_and(|dot| text[dot + 2..].starts_with(char::is_uppercase) && dot > 3);
        let words = self.words(at);
        if orders(text) || text.ends_with('.') && WORDS.verbs.has(&head) {
            return true;
        }
        if sentences && words >= 6 && !text.starts_with(|c: char| c.is_ascii_digit()) {
            return true;
        }
        let read = self.read_line(text);
        match read.kind {
            Kind::Step | Kind::Temperature => true,
            Kind::Equipment | Kind::Time | Kind::Chatter => WORDS.verbs.has(&head) && words >= 3 || words >= 9,
            _ => {
                words >= 10 && text.ends_with('.') && !text.starts_with(|c: char| c.is_ascii_digit())
                    || text.starts_with("For the ") && text.find(": ").is_some() && words > 6
            }
        }
    }

    /// Whether the row heads a part of the ingredients: it looks like a heading, and ingredients follow.
    fn heads_component(&mut self, at: usize) -> bool {
        let row = self.row(at);
        let text = row.text.clone();
        let words = self.words(at);
        if text.is_empty()
            || words > 10
            || text.ends_with(['.', '!', '?', ','])
            || text.contains('=')
            || text.contains(". ")
            || row.mark == Mark::Number
        {
            return false;
        }
        let bullet = row.mark == Mark::Bullet;
        let next = self.said_from[at + 1];
        if next >= self.end {
            return false;
        }
        let direct = next == at + 1 || (next == at + 2 && self.row(at + 1).rule);
        let ruled = self.rows.get(at + 1).is_some_and(|row| row.rule);
        let letters = text.chars().filter(|c| c.is_alphabetic()).take(80).collect::<Vec<_>>();
        let shouted = letters.len() > 1 && letters.iter().all(|c| c.is_uppercase());
        let folded: Vec<_> = text.trim_end_matches(':').split(' ').map(word::fold).collect();
        let known = WORDS.components.has(&folded.join(" "));
        let for_the = folded.first().is_some_and(|word| word == "for" || word == "to") && words <= 7;
        let strong = row.decorated || ruled || text.ends_with(':') || for_the || known || shouted && words <= 6;
        if bullet && !(text.ends_with(':') || row.decorated) {
            return false;
        }
        if !strong && !direct {
            return false;
        }
        let bare = !text.ends_with(':') && !row.decorated && !ruled;
        let opens = |text: &str| list::opens_with_amount(&Cut::of(&list::plain(text)), 0);
        if bare && (self.ingredient_like(at) || !shouted && opens(&text)) {
            return false;
        }
        let after = self.said_from[next + 1];
        let first_is_bare = self.words(next) <= if strong { 12 } else { 6 }
            && !self.row(next).text.ends_with('.')
            && self.row(next).mark != Mark::Number;
        let follow = self.ingredient_like(next) || first_is_bare && self.ingredient_like(after);
        if !follow {
            return false;
        }
        if strong {
            return true;
        }
        // A plain word: a blank row stands before it, and it does not begin a list without headings.
        let first_is_food = self.foods.food(&word::key(&folded[0])).is_some();
        (!first_is_food || words <= 3) && !text.contains(',')
    }

    fn find_second(&mut self) {
        let (mut ingredients, mut method) = (false, false);
        for at in 0..self.rows.len() {
            match section::headed(&self.rows[at].text) {
                Some(Section::Ingredients) if ingredients && method => {
                    if let Some(start) = self.title_before(at) {
                        self.end = start;
                        return;
                    }
                    method = false;
                }
                Some(Section::Ingredients) => ingredients = true,
                Some(Section::Method) => method = true,
                _ => {}
            }
        }
    }

    /// The title of a second recipe above its ingredients: a short row between blank rows or after a rule.
    fn title_before(&self, ingredients: usize) -> Option<usize> {
        let mut title = None;
        for at in (ingredients.saturating_sub(30)..ingredients).rev() {
            let row = self.row(at);
            if row.rule && title.is_some() {
                break;
            }
            if row.blank() || row.rule {
                continue;
            }
            if row.mark != Mark::None {
                break;
            }
            let text = row.text.as_str();
            let own = self.words(at) <= 14
                && !text.ends_with(['.', ':', '!'])
                && fact::facts(text, true).is_empty()
                && !word::fold(text.split(' ').next().unwrap_or("")).starts_with("for");
            if own && self.blank_before(at) {
                title = Some(at);
            }
        }
        title
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
        if section::is_junk(&text) {
            self.say(at, NodeKind::Junk);
            return state;
        }
        if let Some(section) = section::headed(&text).filter(|_| self.row(at).mark != Mark::Number) {
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
                if self.strong_component(at) {
                    return self.component(at, &text);
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

    fn enter(&mut self, at: usize, section: Section) -> In {
        self.close_method();
        self.say(at, NodeKind::Heading);
        match section {
            Section::Ingredients => In::Ingredients,
            Section::Method => In::Method,
            Section::Notes | Section::Equipment => In::Notes,
            Section::Nutrition => In::Nutrition,
        }
    }

    fn enter_with_words(&mut self, at: usize, section: Section, rest: &str) -> In {
        let state = self.enter(at, section);
        match section {
            Section::Ingredients => {
                self.say(at, NodeKind::IngredientLine);
                let body = self.row(at).body.clone();
                self.listed(rest, body, true);
            }
            Section::Method => {
                // The step begins after the colon.
                if let Some(colon) = self.text[self.row(at).body.clone()].find(':') {
                    self.rows[at].body.start += colon + 1;
                }
                self.rows[at].text = rest.to_owned();
                self.method.push(at);
            }
            Section::Notes | Section::Equipment => self.note(at),
            Section::Nutrition => self.say(at, NodeKind::Junk),
        }
        state
    }

    fn note(&mut self, at: usize) {
        let place = self.row(at).body.clone();
        self.say(at, NodeKind::Note);
        self.out.notes.push(place);
    }

    fn head(&mut self, at: usize, text: &str) -> In {
        if self.title.is_none() {
            let opens =
                self.ingredient_like(at) && self.blank_before(at) && self.ingredient_like(self.said_from[at + 1]);
            let short = self.words(at) <= 16 && text.len() <= 140;
            let states = !fact::facts(text, false).is_empty() && self.words(at) < 5;
            if short && !opens && !states && (at == self.said_from[0] || !self.heads_component(at)) {
                self.title = Some(at);
                self.say(at, NodeKind::Title);
                return In::Head;
            }
        }
        let facts = fact::facts(text, true);
        if !facts.is_empty()
            && (!self.ingredient_like(at) || facts[0].kind == FactKind::Yield || facts[0].kind == FactKind::Pan)
        {
            self.state_facts(at, facts);
            return In::Head;
        }
        if self.heads_component(at) {
            return self.component(at, text);
        }
        if self.begins_list(at) {
            return self.ingredients(at, text);
        }
        if self.row(at).mark == Mark::Number && self.step_like(at) {
            return self.in_method(at, text);
        }
        self.say(at, NodeKind::Headnote);
        In::Head
    }

    /// Whether a list without heading begins here: two ingredients one after another.
    fn begins_list(&mut self, at: usize) -> bool {
        let next = self.said_from[at + 1];
        // Several on one row are a list by themselves.
        let several = self.row(at).text.len() <= 1000 && list::parts(&self.row(at).text, false).len() >= 3;
        if several && !self.step_like(at) {
            return true;
        }
        if self.ingredient_like(at) {
            let alone = next >= self.end || self.row(at).mark == Mark::Bullet;
            return self.ingredient_like(next)
                || alone
                || next == at + 1 && self.words(next) <= 6
                || next > at + 1
                    && next < self.end
                    && self.step_like(next)
                    && self.blank_before(at)
                    && self.words(at) < 10;
        }
        // "Butter the size of an egg" opens a list when amounts follow.
        let text = self.row(at).text.clone();
        let first = text.split(' ').next().map(word::key).unwrap_or_default();
        let after = self.said_from.get(next + 1).copied().unwrap_or(self.end);
        self.blank_before(at)
            && next == at + 1
            && self.ingredient_like(next)
            && (self.ingredient_like(after) || after > next + 1)
            && !text.ends_with('.')
            && self.words(at) <= 8
            && self.foods.food(&first).is_some()
    }

    fn state_facts(&mut self, at: usize, facts: Vec<fact::Fact>) {
        self.say(at, NodeKind::Fact);
        let body = self.row(at).body.clone();
        let exact = self.text[body.clone()] == *self.row(at).text;
        for mut fact in facts {
            // Places are exact where the row stands as it was read, else the row's.
            let place =
                |own: &Range<usize>| if exact { own.start + body.start..own.end + body.start } else { body.clone() };
            fact.place = place(&fact.place);
            fact.heats.iter_mut().for_each(|heat| heat.place = place(&heat.place));
            fact.times.iter_mut().for_each(|time| time.place = place(&time.place));
            self.out.facts.push(fact);
        }
    }

    /// Takes the row as a fact when it says what the recipe makes.
    fn yields(&mut self, at: usize, text: &str) -> bool {
        if self.words(at) > 14 || self.row(at).mark != Mark::None {
            return false;
        }
        let facts = fact::facts(text, false);
        if facts.first().is_none_or(|fact| fact.kind != FactKind::Yield) {
            return false;
        }
        self.state_facts(at, facts);
        true
    }

    fn component(&mut self, at: usize, text: &str) -> In {
        self.refresh();
        self.close_method();
        self.say(at, NodeKind::Heading);
        let name = text.trim_end_matches([':', ' ']).to_owned();
        let place = self.row(at).body.clone();
        self.out.components.push(Component { name: Some(name), place, lines: Vec::new() });
        In::Ingredients
    }

    /// Whether a heading with a clear sign and ingredients below it stands here.
    fn strong_component(&mut self, at: usize) -> bool {
        let row = self.row(at);
        let clear = row.decorated
            || row.text.ends_with(':')
            || row.text.starts_with("For the ")
            || self.rows.get(at + 1).is_some_and(|row| row.rule);
        let next = self.said_from[at + 1];
        clear
            && next < self.end
            && self.row(next).mark != Mark::Number
            && self.heads_component(at)
            && self.ingredient_like(next)
    }

    fn ingredients(&mut self, at: usize, text: &str) -> In {
        let before = at.checked_sub(1).map(|before| self.said[before]);
        let after_line = before.is_some_and(|said| said.kind == NodeKind::IngredientLine);
        let after_heading = before.is_some_and(|said| said.kind == NodeKind::Heading)
            && self.out.components.last().is_some_and(|component| component.lines.is_empty());
        if is_step_head(text) {
            return self.in_method(at, text);
        }
        if after_line && self.continues(at, text) {
            return In::Ingredients;
        }
        if self.yields(at, text) && !self.ingredient_like(at) {
            return In::Ingredients;
        }
        let opens_blank = self.blank_before(at) || !after_line;
        if !after_heading
            && (opens_blank || text.ends_with(':') || self.row(at).decorated)
            && self.heads_component(at)
            && !self.begins_bare(at)
        {
            return self.component(at, text);
        }
        let like = self.ingredient_like(at);
        let has_lines = self.out.components.iter().any(|component| !component.lines.is_empty());
        // A heading of the method in words that are not listed: steps follow it.
        let next = self.said_from[at + 1];
        if !like
            && has_lines
            && self.blank_before(at)
            && self.words(at) <= 6
            && next < self.end
            && !self.ingredient_like(next)
            && !text.ends_with('.')
            && self.step_like(next)
            && (self.row(next).mark == Mark::Number || text.ends_with(':') || self.row(at).decorated)
            && !self.step_like(at)
        {
            self.say(at, NodeKind::Heading);
            return In::Method;
        }
        let facts = if like { Vec::new() } else { fact::facts(text, true) };
        if facts.first().is_some_and(|fact| matches!(fact.kind, FactKind::Oven | FactKind::Pan))
            && self.row(at).mark == Mark::None
            && self.words(at) <= 10
            && text.contains(':')
        {
            self.state_facts(at, facts);
            return In::Ingredients;
        }
        if !like
            && has_lines
            && (opens_blank || self.row(at).mark == Mark::Number || self.words(at) > 5 || text.ends_with('.'))
            && self.step_like(at)
            && !self.begins_bare(at)
        {
            return self.in_method(at, text);
        }
        if !like && self.is_aside(at, text) {
            self.note(at);
            return In::Ingredients;
        }
        self.say(at, NodeKind::IngredientLine);
        let body = self.row(at).body.clone();
        self.listed(text, body, false);
        In::Ingredients
    }

    /// A line that opens a list with a food and no amount.
    fn begins_bare(&mut self, at: usize) -> bool {
        !self.ingredient_like(at) && self.begins_list(at) && self.words(at) > 3
    }

    /// Talk between ingredients.
    fn is_aside(&self, at: usize, text: &str) -> bool {
        let cut = Cut::of(text);
        let measured = line::numbers(&cut, 0)
            .and_then(|read| line::unit(&cut, read.next))
            .is_some_and(|(unit, _)| !matches!(unit, Unit::Inch | Unit::Centimetre));
        if measured {
            return false;
        }
        let read = self.read_line(text);
        match read.kind {
            Kind::Chatter | Kind::Storage => true,
            Kind::Equipment | Kind::Time | Kind::Temperature | Kind::Yield => true,
            Kind::Ingredient => {
                read.foods.iter().all(|item| item.food.is_none())
                    && (self.words(at) > 12 || text.starts_with('(') || word::fold(text).starts_with("note"))
            }
            Kind::Step | Kind::Heading | Kind::Blank => self.words(at) > 8,
        }
    }

    /// Joins a row to the ingredient before it when it goes on with it, or takes it for a note about it.
    fn continues(&mut self, at: usize, text: &str) -> bool {
        let like = self.ingredient_like(at);
        let row = self.row(at);
        if row.mark != Mark::None || row.decorated || like && !text.starts_with(char::is_lowercase) {
            return false;
        }
        let first_row = (0..at).rev().find(|before| !self.said[*before].goes_on).unwrap_or(at);
        let deeper = row.indent > self.row(first_row).indent;
        let hangs = self.row(first_row).mark != Mark::None && row.indent > 0;
        let small = text.starts_with(|c: char| c.is_lowercase() || c == '(');
        let Some(last) = self.out.components.last().and_then(|component| component.lines.last()) else { return false };
        let open = dangles(&last.text);
        // A line wrapped over more than this is none; what follows is read as lines of its own.
        if last.text.len() > LONGEST_WRAPPED {
            return false;
        }
        if !(deeper || hangs || small && open) {
            return false;
        }
        let bracket = last.text.matches('(').count() > last.text.matches(')').count();
        let said = word::fold(text);
        let talks = text.starts_with('(') && !open
            || said.starts_with("note")
            || [" i ", "they ", "it ", "don", "you "].iter().any(|word| said.starts_with(word));
        let unknown = !self.stale && last.line.foods.iter().all(|item| item.food.is_none());
        if bracket || open || small && !talks && (last.text.contains(',') || unknown) {
            let joined = format!("{} {text}", last.text);
            let place = last.place.start..row.body.end;
            self.stale = true;
            self.goes_on(at, NodeKind::IngredientLine);
            if let Some(last) = self.out.components.last_mut().and_then(|component| component.lines.last_mut()) {
                last.place = place;
                last.text = joined;
            }
            return true;
        }
        if deeper && !like {
            self.note(at);
            return true;
        }
        false
    }

    /// Reads the last line anew when rows were joined to it.
    fn refresh(&mut self) {
        if !std::mem::take(&mut self.stale) {
            return;
        }
        let last = self.out.components.last().and_then(|component| component.lines.last());
        let Some(line) = last.map(|last| self.read_line(&last.text)) else { return };
        if let Some(last) = self.out.components.last_mut().and_then(|component| component.lines.last_mut()) {
            last.line = Rc::unwrap_or_clone(line);
        }
    }

    /// Adds the row's ingredient, or its several.
    fn listed(&mut self, text: &str, body: Range<usize>, surely: bool) {
        self.refresh();
        if self.out.components.is_empty() {
            self.out.components.push(Component { name: None, place: body.clone(), lines: Vec::new() });
        }
        let written = &self.text[body.clone()];
        let offset = written.find(text).map(|offset| body.start + offset);
        for part in list::parts(text, surely) {
            let said = &text[part.clone()];
            let place = offset.map_or(body.clone(), |offset| offset + part.start..offset + part.end);
            let line = Rc::unwrap_or_clone(self.read_line(said));
            if let Some(component) = self.out.components.last_mut() {
                component.place.end = body.end;
                component.lines.push(LineRead { place, text: said.to_owned(), line });
            }
        }
    }

    fn in_method(&mut self, at: usize, text: &str) -> In {
        if self.strong_component(at) && self.row(at).mark == Mark::None {
            return self.component(at, text);
        }
        if self.yields(at, text) {
            return In::Method;
        }
        self.method.push(at);
        In::Method
    }

    /// Makes steps of the method's rows read so far.
    fn close_method(&mut self) {
        let rows = std::mem::take(&mut self.method);
        if rows.is_empty() {
            return;
        }
        let mut parts: Vec<Vec<usize>> = Vec::new();
        let marked = rows.iter().any(|at| self.row(*at).mark != Mark::None);
        let heads = rows.iter().any(|at| is_step_head(&self.row(*at).text));
        let parted = rows.windows(2).any(|pair| self.blank_before(pair[1]));
        let lower = rows.first().is_some_and(|at| self.row(*at).text.starts_with(char::is_lowercase));
        let last_marked = rows.iter().rposition(|at| self.row(*at).mark != Mark::None);
        for (nth, &at) in rows.iter().enumerate() {
            let text = self.row(at).text.clone();
            let goes_on = nth > 0 && !self.blank_before(at) && !parts.is_empty();
            let heading = self.row(at).mark == Mark::None
                && (nth == 0 || self.blank_before(at) || marked)
                && self.words(at) <= 8
                && (text.ends_with(':') || self.row(at).decorated)
                && !marked_inside(&text);
            if is_step_head(&text) || heading {
                self.say(at, NodeKind::Heading);
                if heading {
                    self.hints.push((self.row(at).place.start, text));
                }
                parts.push(Vec::new());
                continue;
            }
            let own = if marked {
                self.row(at).mark != Mark::None
            } else if heads {
                false
            } else if parted {
                self.blank_before(at)
            } else {
                let wraps = nth > 0
                    && !lower
                    && text.starts_with(char::is_lowercase)
                    && self.row(rows[nth - 1]).text.len() >= 40
                    && !self.row(rows[nth - 1]).text.ends_with(['.', '!', '?']);
                !wraps
            };
            if marked && !own && !goes_on {
                // Between marked steps an unmarked paragraph is a step of its own only before the first.
                if last_marked.is_some_and(|last| nth > last) || !self.step_like(at) {
                    self.note(at);
                    parts.push(Vec::new());
                } else {
                    parts.push(vec![at]);
                }
                continue;
            }
            if own || parts.is_empty() {
                parts.push(vec![at]);
            } else if marked && parts.last().is_some_and(Vec::is_empty) {
                self.note(at);
            } else if let Some(part) = parts.last_mut() {
                part.push(at);
            }
        }
        for part in parts.into_iter().filter(|part| !part.is_empty()) {
            self.step(&part, marked || heads);
        }
    }

    fn step(&mut self, part: &[usize], marked: bool) {
        let (Some(&first), Some(&last)) = (part.first(), part.last()) else { return };
        if !marked && self.is_remark(part) {
            for &at in part {
                self.note(at);
            }
            return;
        }
        for (nth, &at) in part.iter().enumerate() {
            self.said[at] = Said { kind: NodeKind::Step, goes_on: nth > 0 };
        }
        let place = self.row(first).body.start..self.row(last).body.end;
        self.out.steps.push(method::step(self.text, place));
    }

    /// Whether an unmarked paragraph of the method is a remark or verse and no step.
    fn is_remark(&self, part: &[usize]) -> bool {
        let first = part[0];
        let text = &self.row(first).text;
        if part.len() >= 4
            && part.iter().all(|at| self.row(*at).text.len() <= 45)
            && part.iter().filter(|at| self.row(**at).text.ends_with('.')).count() <= 1
        {
            return true;
        }
        let said: Vec<_> =
            text.split(' ').take(3).map(|word| word::fold(word.trim_matches(|c: char| !c.is_alphanumeric()))).collect();
        let word = |at: usize| said.get(at).map_or("", |word| word.as_str());
        if matches!(word(0), "keeps" | "holds" | "leftovers" | "contains" | "freezes" | "stores")
            || matches!(word(0), "it" | "they" | "these" | "this")
                && matches!(word(1), "keeps" | "will" | "freezes" | "needs" | "is" | "keep" | "freeze")
        {
            return true;
        }
        if self.out.steps.is_empty() {
            return false;
        }
        let all: usize = part.iter().map(|at| self.words(*at)).sum();
        let does = text.split([' ', ',', '.']).take(40).map(word::fold).any(|word| {
            WORDS.verbs.has(&word)
                || WORDS.numbers.contains_key(word.as_str())
                || word.starts_with(|c: char| c.is_ascii_digit())
        });
        all <= 3 && !does
            || self.read_line(text).kind == Kind::Storage
                && word(0) != "refrigerate"
                && word(0) != "freeze"
                && word(0) != "keep"
    }

    fn finish(mut self) -> Manuscript {
        self.refresh();
        if self.out.components.iter().all(|component| component.lines.is_empty()) {
            self.read_prose();
        }
        self.out.components.retain(|component| !component.lines.is_empty());
        self.out.title = self.title.map(|at| self.row(at).text.trim_end_matches(':').to_owned());
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
        method::link(self.text, &mut self.out, &self.hints);
        if self.out.facts.iter().all(|fact| fact.makes.is_none()) {
            let steps = self.out.steps.iter().rev().flat_map(|step| step.sentences.iter().rev());
            self.out.facts.extend(steps.filter_map(|place| fact::cut_up(self.text, place)).next());
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

    /// Reads a manuscript without a list: paragraphs that tell what to do are steps, and the ingredients stand in them.
    fn read_prose(&mut self) {
        self.out.components.clear();
        self.out.steps.clear();
        self.out.notes.retain(|_| self.letter);
        let mut lines = Vec::new();
        let mut at = 0;
        while at < self.end {
            let free =
                |kind| matches!(kind, NodeKind::Headnote | NodeKind::Step | NodeKind::Note | NodeKind::IngredientLine);
            let taken = |reader: &Reader<'_, F>, at: usize| {
                reader.row(at).blank() || !free(reader.said[at].kind) || reader.letter && !reader.row(at).quoted
            };
            if taken(self, at) {
                at += 1;
                continue;
            }
            let mut part = vec![at];
            at += 1;
            while at < self.end && !taken(self, at) && self.row(at).mark == Mark::None {
                part.push(at);
                at += 1;
            }
            let first = part[0];
            let text = self.row(first).text.clone();
            if part.len() == 1 && self.yields(first, &text) {
                continue;
            }
            let verse = part.len() >= 4 && part.iter().all(|at| self.row(*at).text.len() <= 45);
            let place = self.row(first).body.start..self.row(part[part.len() - 1]).body.end;
            let found =
                if verse { Vec::new() } else { prose::lines(&self.text[place.clone()], place.start, self.foods) };
            let heated = || !method::step(self.text, place.clone()).heats.is_empty();
            let does = heated()
                || part.iter().any(|at| {
                    self.row(*at)
                        .text
                        .split(|c: char| !c.is_alphanumeric())
                        .map(word::fold)
                        .any(|word| DOING.contains(&word.as_str()))
                });
            let step = !verse && !self.is_remark(&part[..1]) && (does || !found.is_empty());
            let kind = if step {
                NodeKind::Step
            } else if self.out.steps.is_empty() {
                NodeKind::Headnote
            } else {
                NodeKind::Note
            };
            for (nth, &at) in part.iter().enumerate() {
                self.said[at] = Said { kind, goes_on: nth > 0 };
            }
            if step {
                lines.extend(found);
                self.out.steps.push(method::step(self.text, place));
            } else if kind == NodeKind::Note {
                self.out.notes.push(place);
            }
        }
        if let (Some(first), Some(last)) = (lines.first(), lines.last()) {
            let place = first.place.start..last.place.end;
            self.out.queries.push(Query::new(
                &LINES_FROM_PROSE,
                place.clone(),
                format!("The manuscript has no list; {} ingredients were taken out of its sentences.", lines.len()),
                "Look whether each is there once, or write a list.",
            ));
            self.out.components.push(Component { name: None, place, lines });
        }
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

/// "line an 8x8 pan", "whisk the eggs": a verb and its object.
fn orders(text: &str) -> bool {
    let mut words = text.split(' ');
    let first = words.next().map(word::fold).unwrap_or_default();
    let second = words.next().map(word::fold).unwrap_or_default();
    let enough = words.next().is_some();
    enough && WORDS.verbs.has(&first) && matches!(second.as_str(), "an" | "a" | "your" | "until" | "into")
}

/// How many lines are remembered: the row at hand and the few after it that are asked about before its kind is said.
const REMEMBERED: usize = 4;

/// Longest ingredient line that a further row may go on with, in bytes.
const LONGEST_WRAPPED: usize = 300;

/// Words that tell what to do, in the middle of a sentence too.
const DOING: &[&str] = &[
    "whisk", "stir", "mix", "fold", "bake", "pour", "beat", "scrape", "sprinkle", "knead", "cream", "melt", "spread",
    "simmer", "boil", "sift", "combine", "add", "roll", "chill",
];

fn line_start(text: &str) -> String {
    text.chars().take(60).collect()
}

fn marked_inside(text: &str) -> bool {
    text.contains(". ") || text.ends_with('.')
}

/// "STEP 2" alone on a row.
fn is_step_head(text: &str) -> bool {
    let mut words = text.trim_end_matches([':', '.']).split(' ');
    let step = words.next().is_some_and(|word| word.eq_ignore_ascii_case("step"));
    step && words.next().is_some_and(|word| {
        !word.is_empty() && word.bytes().all(|b| b.is_ascii_digit())
            || WORDS.numbers.contains_key(word::fold(word).as_str())
    }) && words.next().is_none()
}

/// Whether a line ends so that more must come.
fn dangles(text: &str) -> bool {
    let last = text.rsplit(' ').next().unwrap_or("");
    let folded = word::fold(last);
    text.ends_with([',', '-', '–', '/', '&', '+'])
        || matches!(
            folded.as_str(),
            "and"
                | "or"
                | "the"
                | "a"
                | "an"
                | "of"
                | "with"
                | "to"
                | "in"
                | "into"
                | "for"
                | "your"
                | "at"
                | "if"
                | "plus"
                | "such"
                | "as"
                | "from"
                | "is"
                | "are"
                | "until"
                | "very"
                | "about"
        )
        || folded.len() > 4 && folded.ends_with("ly") && !folded.ends_with("jelly")
}
