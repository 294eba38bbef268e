//! What lines take of made things, each thing after what goes into it.

use std::collections::{HashMap, HashSet};
use std::ops::Range as Bytes;
use std::sync::Arc;

use evencrumb_manuscript::{Manuscript, Query};
use evencrumb_measure::{Estimate, Influence, Range};

use super::elsewhere::{DEEPEST, Elsewhere, Met};
use super::mention::{Mention, Names, Words};
use super::rest::{self, Rest};
use super::share::{self, Taken, Whole};
use super::{
    GOES_IN_A_CIRCLE, LEFT_OVER, MADE_ABOVE_OR_ELSEWHERE, MADE_TWICE, Made, Origin, PART_NOT_FOUND, REST_KEPT_BACK,
    SHARE_NOT_KNOWN, TAKEN_TOO_OFTEN,
};
use crate::fit::has_any;
use crate::line::{WeighedItem, WeighedLine};
use crate::measured;
use crate::sheet::{Setting, UNHEADED};
use crate::total::{self, Total};

/// Texts of the manuscripts that are being computed, outermost first, this one last. Titles may be missing or double; a
/// text that is met again is a circle.
pub type Stack<'s> = &'s [&'s str];

/// What came of settling.
#[derive(Debug, Default)]
pub(crate) struct Settled {
    /// What to ask, with places in the manuscript.
    pub queries: Vec<Query>,
    /// Components of which a rest is kept for another bake, and the share that goes into this one.
    pub in_batch: HashMap<usize, f64>,
    /// Components that lines take of.
    pub taken: HashSet<usize>,
}

/// Gives each line that names something made its share of it.
pub(crate) fn settle(
    manuscript: &Manuscript,
    lines: &mut [Vec<WeighedLine>],
    setting: &Setting<'_>,
    elsewhere: &Elsewhere<'_>,
    stack: Stack<'_>,
) -> Settled {
    let names = Names::of(manuscript, setting.pantry, elsewhere);
    let mentions: Vec<Vec<Option<Mention>>> = lines
        .iter()
        .enumerate()
        .map(|(part, lines)| lines.iter().map(|line| names.mention(part, line)).collect())
        .collect();
    if mentions.iter().flatten().all(Option::is_none) {
        return Settled::default();
    }
    let mut takers: HashMap<usize, Vec<(usize, usize)>> = HashMap::new();
    for (part, mentions) in mentions.iter().enumerate() {
        for (nth, mention) in mentions.iter().enumerate() {
            if let Some(Mention::Component(of)) = mention {
                takers.entry(*of).or_default().push((part, nth));
            }
        }
    }
    let mut settling = Settling {
        manuscript,
        lines,
        mentions,
        setting,
        elsewhere,
        stack,
        state: vec![State::Waiting; manuscript.components.len()],
        only: takers.len() == 1,
        takers,
        settled: Settled::default(),
    };
    for part in 0..manuscript.components.len() {
        settling.component(part);
    }
    settling.settled
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    Waiting,
    UnderWay,
    Done,
}

struct Settling<'a> {
    manuscript: &'a Manuscript,
    lines: &'a mut [Vec<WeighedLine>],
    mentions: Vec<Vec<Option<Mention>>>,
    setting: &'a Setting<'a>,
    elsewhere: &'a Elsewhere<'a>,
    stack: Stack<'a>,
    state: Vec<State>,
    /// For a component, the lines that take of it.
    takers: HashMap<usize, Vec<(usize, usize)>>,
    /// Whether lines take of one component only.
    only: bool,
    settled: Settled,
}

impl Settling<'_> {
    /// Settles the lines of a component, then those that take of it.
    fn component(&mut self, part: usize) {
        if self.state[part] != State::Waiting {
            return;
        }
        self.state[part] = State::UnderWay;
        for nth in 0..self.lines[part].len() {
            match self.mentions[part][nth].clone() {
                Some(Mention::Component(of)) if self.state[of] == State::UnderWay => {
                    self.mentions[part][nth] = None;
                    let (name, own) = (self.heading(of), self.heading(part));
                    self.circle(part, nth, &name, &own);
                }
                Some(Mention::Component(of)) => self.component(of),
                Some(Mention::Manuscript(at, said)) => self.other(part, nth, at, &said),
                Some(Mention::Nowhere) => self.nowhere(part, nth),
                Some(Mention::Several(titles)) => self.several(part, nth, &titles),
                None => {}
            }
        }
        self.state[part] = State::Done;
        self.give(part);
    }

    /// Gives every line that takes of a component its share.
    fn give(&mut self, of: usize) {
        let Some(mut takers) = self.takers.remove(&of) else { return };
        // A line whose mention led into a circle takes nothing.
        takers.retain(|(part, nth)| self.mentions[*part][*nth].is_some());
        self.settled.taken.insert(of);
        let component = &self.manuscript.components[of];
        let raw = total::of(&self.lines[of], self.setting.pantry);
        let ready = when_ready(self.text(), self.manuscript, of, &raw);
        // What is taken before the part is baked weighs what went in.
        let unbaked = (raw.clone(), Whole { grams: raw.grams.clone(), ..ready.1.clone() });
        let given: Vec<&(Total, Whole)> = takers
            .iter()
            .map(|(part, nth)| if self.is_taken_raw(of, *part, *nth) { &unbaked } else { &ready })
            .collect();
        let taken: Vec<Taken> =
            takers.iter().zip(&given).map(|((part, nth), (_, whole))| self.taken(*part, *nth, whole)).collect();
        let known: Vec<&Estimate> =
            taken.iter().filter_map(|taken| if let Taken::Share(share) = taken { Some(share) } else { None }).collect();
        let sum = known.iter().map(|share| share.best()).sum::<f64>();
        let least = known.iter().map(|share| share.range().low()).sum::<f64>();
        let rests = taken.iter().filter(|taken| matches!(taken, Taken::Rest)).count();
        let name = self.heading(of);
        let place = component.place.clone();
        if known.len() + rests == taken.len() {
            let made = given.iter().map(|(total, _)| &total.grams).max_by(|a, b| a.best().total_cmp(&b.best()));
            self.compare(of, place, [least, sum], rests, made.unwrap_or(&raw.grams));
        }
        for (((part, nth), taken), (total, _)) in takers.into_iter().zip(&taken).zip(given) {
            let share = match taken {
                Taken::Share(share) => Some(share.clone()),
                Taken::Rest => Some(Estimate::exact((1.0 - sum).max(0.0) / rests as f64)),
                Taken::Unknown => None,
            };
            self.set(part, nth, &name, Origin::Component(of), share, total);
        }
    }

    /// Whether a line takes of a component before that is baked or cooked: it speaks of dough or batter, or stands in a
    /// sentence of the method before the first that cooks it.
    fn is_taken_raw(&self, of: usize, part: usize, nth: usize) -> bool {
        let Some(cooked) = measured::is_cooked_at(self.text(), self.manuscript, of) else { return false };
        let words = self.lines[part][nth].text.to_lowercase();
        if has_any(&words, &["raw", "unbaked", "uncooked"]) || has_any(&words, &["dough", "batter"]) && cooked.is_baked
        {
            return true;
        }
        let uses = self.manuscript.steps.iter().flat_map(|step| &step.uses);
        let mut uses = uses.filter(|taken| (taken.component, taken.line) == (part, nth));
        uses.next().is_some_and(|taken| taken.place.start < cooked.place)
    }

    /// Asks when what is taken is not what is made.
    ///
    /// `least` and `sum` are the shares that lines take together, at least and most likely.
    fn compare(&mut self, of: usize, place: Bytes<usize>, [least, sum]: [f64; 2], rests: usize, made: &Estimate) {
        let name = self.heading(of);
        let percent = |share: f64| format!("{:.0} %", share * 100.0);
        // Cups of a puree and cooking down are not so sure that a tenth more or less would be worth asking about; grams of
        // what was weighed are.
        let is_sure = least * made.best() > made.range().high() * 1.02;
        if sum > 1.15 || is_sure {
            self.settled.queries.push(Query::new(
                &TAKEN_TOO_OFTEN,
                place,
                format!(
                    "{} of “{name}” is taken by lines, but only about {:.0} g of it is made.",
                    percent(sum),
                    made.best()
                ),
                "Look at the amounts in those lines, or make more of it.",
            ));
        } else if rests == 0 && sum < 0.85 {
            let query = match rest::of(self.text(), self.manuscript, of, self.only) {
                Some(Rest::Used) => return,
                Some(Rest::KeptBack) => {
                    self.settled.in_batch.insert(of, sum);
                    Query::new(
                        &REST_KEPT_BACK,
                        place,
                        format!(
                            "Lines take {} of “{name}”; the rest is kept back, as the method says, and is in no serving.",
                            percent(sum)
                        ),
                        "Nothing to do; the whole of it is still bought and paid for.",
                    )
                }
                None => Query::new(
                    &LEFT_OVER,
                    place,
                    format!("Lines take {} of “{name}”; all of it is counted.", percent(sum)),
                    "Say in the method what becomes of the rest, as “Freeze the rest of the caramel” or “Pour the rest over the cake”.",
                ),
            };
            self.settled.queries.push(query);
        }
    }

    fn taken(&self, part: usize, nth: usize, whole: &Whole) -> Taken {
        let line = &self.lines[part][nth];
        let Some(one) = line.foods.first() else { return Taken::Unknown };
        share::taken(
            &one.item,
            one.weighed.grams.as_ref().filter(|_| one.item.food.is_some()),
            line.read.remaining,
            whole,
            self.setting.kitchen.custom,
        )
    }

    /// A line that names another manuscript, or one component of it.
    fn other(&mut self, part: usize, nth: usize, at: usize, said: &Words) {
        let recipe = match self.elsewhere.recipe(at, self.setting, self.stack) {
            Met::Recipe(recipe) => recipe,
            Met::Nothing => return self.nowhere(part, nth),
            Met::TooDeep => return self.too_deep(part, nth, at),
            Met::Circle(title) => {
                let own = self.manuscript.title.clone().unwrap_or_default();
                return self.circle(part, nth, &title, &own);
            }
        };
        if let Some(query) = recipe.query.clone() {
            self.query(part, nth, query);
        }
        if recipe.is_in_a_circle {
            return;
        }
        let of = recipe.component(said);
        let (total, whole) = of.map_or(&recipe.all, |of| recipe.component_when_ready(of));
        let component = of.map(|of| recipe.sheet.components[of].name.clone().unwrap_or_default());
        let name = component.clone().unwrap_or_else(|| recipe.title.clone());
        let share = match self.taken(part, nth, whole) {
            Taken::Share(share) => Some(share),
            Taken::Rest => Some(Estimate::exact(1.0)),
            Taken::Unknown => None,
        };
        let title = recipe.title.clone();
        self.set(part, nth, &name, Origin::Manuscript { title, component }, share, total);
        if let Some(made) = self.lines[part][nth].foods.first_mut().and_then(|one| one.made.as_mut()) {
            made.sheet = Some(Arc::clone(&recipe.sheet));
        }
    }

    /// Sets what a line takes, in place of what its words would weigh as a food.
    fn set(&mut self, part: usize, nth: usize, name: &str, origin: Origin, share: Option<Estimate>, whole: &Total) {
        let line = &mut self.lines[part][nth];
        line.queries.retain(|query| !OF_A_FOOD.contains(&query.kind.name));
        line.foods.truncate(1);
        let Some(one) = line.foods.first_mut() else { return };
        names_no_food(one);
        let total = share.as_ref().map(|share| whole.times(share)).unwrap_or_default();
        one.weighed.grams = share.is_some().then(|| total.grams.clone());
        let from = match &origin {
            Origin::Component(_) => format!("“{name}” above"),
            Origin::Manuscript { title, component: Some(_) } => format!("“{name}” of “{title}”"),
            Origin::Manuscript { title, .. } => format!("“{title}”"),
        };
        let query = match &share {
            Some(share) => Query::new(
                &MADE_ABOVE_OR_ELSEWHERE,
                0..0,
                format!(
                    "“{}” is {} of {from}, which gives about {:.0} g.",
                    line.text.trim(),
                    in_percent(share.best()),
                    whole.grams.best()
                ),
                "Nothing to do, unless a bought ingredient is meant: then name it as it is sold.",
            ),
            None => Query::new(
                &SHARE_NOT_KNOWN,
                0..0,
                format!("How much of {from} “{}” takes is not known; it has no weight.", line.text.trim()),
                "Write grams, or a share such as “half of”.",
            ),
        };
        if share.is_some() {
            one.weighed.basis.extend(evencrumb_pantry::weigh::Basis::of("manuscript", query.message.clone()));
        }
        one.made = Some(Box::new(Made { name: name.to_owned(), origin, share, total, sheet: None }));
        self.query(part, nth, query);
    }

    fn nowhere(&mut self, part: usize, nth: usize) {
        let written = self.lines[part][nth].foods.first().map_or(String::new(), |one| one.item.name.clone());
        let shelved = self.elsewhere.shelved().iter().filter(|one| !one.names.is_empty());
        let known: Vec<String> = shelved.take(TITLES_TOLD).map(|one| format!("“{}”", one.title)).collect();
        let known = if known.is_empty() { String::new() } else { format!(" Recipes here are {}.", known.join(", ")) };
        let query = Query::new(
            &PART_NOT_FOUND,
            0..0,
            format!("“{written}” is no part of this recipe and no other recipe of the folder; it has no weight."),
            format!(
                "Give it a list of its own under a heading with that name, or write the title of its recipe.{known}"
            ),
        );
        self.query(part, nth, query);
    }

    fn too_deep(&mut self, part: usize, nth: usize, at: usize) {
        let title = self.elsewhere.shelved().get(at).map_or("", |one| &one.title);
        let query = Query::new(
            &PART_NOT_FOUND,
            0..0,
            format!(
                "“{title}” lies {DEEPEST} recipes deep, each made with the next; it was not followed and has no weight."
            ),
            "Write what goes into it here, or leave out recipes between.",
        );
        self.query(part, nth, query);
    }

    fn several(&mut self, part: usize, nth: usize, titles: &[String]) {
        let mut named: Vec<String> = titles.iter().take(TITLES_TOLD).map(|title| format!("“{title}”")).collect();
        if titles.len() > TITLES_TOLD {
            named.push(format!("one of {} others", titles.len() - TITLES_TOLD));
        }
        let query = Query::new(
            &MADE_TWICE,
            0..0,
            format!("“{}” can be {}; none was taken.", self.lines[part][nth].text.trim(), named.join(" or ")),
            "Write the whole title or heading, and give no two lists the same one.",
        );
        self.lines[part][nth].foods.first_mut().into_iter().for_each(names_no_food);
        self.query(part, nth, query);
    }

    fn circle(&mut self, part: usize, nth: usize, name: &str, own: &str) {
        let query = Query::new(
            &GOES_IN_A_CIRCLE,
            0..0,
            format!("“{own}” is made with “{name}”, and “{name}” with “{own}”; the line has no weight."),
            "Take one out of the other.",
        );
        self.lines[part][nth].foods.first_mut().into_iter().for_each(names_no_food);
        self.query(part, nth, query);
    }

    /// Keeps a query of a line, at the line's place in the manuscript.
    fn query(&mut self, part: usize, nth: usize, query: Query) {
        let place = self.manuscript.components[part].lines[nth].place.clone();
        self.settled.queries.push(Query { place, ..query });
    }

    /// The text that is computed: the last on the stack.
    fn text(&self) -> &str {
        self.stack.last().copied().unwrap_or_default()
    }

    fn heading(&self, part: usize) -> String {
        self.manuscript.components[part].name.clone().unwrap_or_else(|| UNHEADED.to_owned())
    }
}

/// What its words would weigh as a food is not what is meant.
fn names_no_food(one: &mut WeighedItem) {
    one.item.food = None;
    one.item.reference = true;
    one.weighed.grams = None;
}

/// What a component holds when it is ready to be used, and how much of it there is: as the text weighs it, else what cooking
/// leaves of it.
fn when_ready(text: &str, manuscript: &Manuscript, component: usize, raw: &Total) -> (Total, Whole) {
    let left = if measured::is_cooked(text, manuscript, component) { Some(cooked_down()) } else { None };
    weighed_or(text, manuscript, component, raw, left)
}

/// The same as its own sheet says: as the text weighs it, else raw.
pub fn as_weighed(text: &str, manuscript: &Manuscript, component: usize, raw: &Total) -> (Total, Whole) {
    weighed_or(text, manuscript, component, raw, None)
}

/// The same as the text weighs it, else a share of it that is left.
fn weighed_or(
    text: &str,
    manuscript: &Manuscript,
    component: usize,
    raw: &Total,
    left: Option<Estimate>,
) -> (Total, Whole) {
    let ready = measured::ready(text, manuscript, component);
    let is_cooked = measured::is_cooked(text, manuscript, component);
    let said = ready.as_ref().map(|ready| &ready.grams);
    let total = match (said.filter(|grams| measured::is_believed(grams, &raw.grams, is_cooked)), left) {
        (Some(grams), _) => raw.dried_to(grams),
        (None, Some(left)) => raw.dried_to(&raw.grams.product(&left)),
        (None, None) => raw.clone(),
    };
    let millilitres = ready.and_then(|ready| ready.millilitres);
    let whole = Whole { grams: total.grams.clone(), millilitres, pieces: None };
    (total, whole)
}

/// Titles that a query names before it counts the rest.
const TITLES_TOLD: usize = 4;

/// Queries that only make sense where a food of the pantry is meant.
const OF_A_FOOD: &[&str] = &[
    "food-not-known",
    "unit-missing",
    "measure-not-known",
    "word-passed-over",
    "amounts-disagree",
    "amount-left-over",
];

fn in_percent(share: f64) -> String {
    if (share - 1.0).abs() < 1e-9 { "all".to_owned() } else { format!("{:.0} %", share * 100.0) }
}

/// What cooking leaves of the weight when nobody says: between a gentle warming and a long roast. Common practice, no
/// source.
fn cooked_down() -> Estimate {
    let range = Range::new(0.6, 0.85, 1.0).unwrap_or(Range::exact(0.85));
    Estimate::of(range, Influence::named("water lost in cooking a part"))
}
