//! The method: what each step says of heat, time and when it is done, and which ingredients it takes.

use std::collections::{HashMap, HashSet};
use std::ops::Range;

use crate::figures::{self, Heat, Minutes};
use crate::layout::{Component, Manuscript, PANS};
use crate::line::{Cut, Kind, number, numbers, unit, words_key};
use crate::query::{Query, QueryKind, Weight};
use crate::token::Kind as Token;

/// A step.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Step {
    /// Bytes of the manuscript, without its number.
    pub place: Range<usize>,
    /// Its sentences.
    pub sentences: Vec<Range<usize>>,
    /// Temperatures of the oven; those of water, jam or crumb stand in `inside`.
    pub heats: Vec<Heat>,
    /// Temperatures of what is cooked.
    pub inside: Vec<Heat>,
    /// Times.
    pub times: Vec<Minutes>,
    /// "until …", as written.
    pub done: Vec<Range<usize>>,
    /// Words for what it is baked in.
    pub pans: Vec<Range<usize>>,
    /// Whether something is cooked in it, so that water goes off.
    pub cooks: bool,
    /// The component it works on, when that can be told.
    pub component: Option<usize>,
    /// The ingredient lines it takes.
    pub uses: Vec<Use>,
}

/// A line that a step takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Use {
    /// The component, by number.
    pub component: usize,
    /// The line of the component, by number.
    pub line: usize,
    /// How much of it.
    pub share: Share,
    /// Where the step names it.
    pub place: Range<usize>,
}

/// How much of a line a step takes.
#[derive(Clone, Debug, PartialEq)]
pub enum Share {
    /// All, as far as the step says.
    All,
    /// A part, as one half.
    Part(f64),
    /// An amount, in the author's words.
    Amount(String),
    /// What is left, with the amount when one is said.
    Remaining(Option<String>),
    /// What was put aside.
    Reserved,
}

/// A weight the author gives in the text.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// What weighs it: batter, layer.
    pub what: String,
    /// Grams, lowest and highest.
    pub grams: (f64, f64),
    /// Millilitres that the same sentence gives for it ("about 2 cups (490 g)"), by US cups and spoons.
    pub millilitres: Option<f64>,
    /// What of it, as cup, layer, pan; `None` for the whole.
    pub per: Option<String>,
    /// Where it stands.
    pub place: Range<usize>,
}

/// One name in the method that fits very many lines.
pub static TOO_MANY_LINES: QueryKind = QueryKind { name: "name-fits-too-many-lines", weight: Weight::Look };

/// Most lines of one name that a step is linked to.
const MOST_LINES: usize = 16;

/// Reads one step, without its links.
pub fn step(text: &str, place: Range<usize>) -> Step {
    let written = &text[place.clone()];
    let mut step = Step { sentences: sentences(written, place.start), place, ..Step::default() };
    for sentence in &step.sentences {
        let cut = Cut::of(&text[sentence.clone()]);
        for heat in figures::heats(&cut, sentence.start) {
            let is_inside =
                heat.celsius < 90.0 || inside(&cut, heat.place.start - sentence.start, heat.place.end - sentence.start);
            if is_inside { step.inside.push(heat) } else { step.heats.push(heat) }
        }
        step.times.extend(figures::times(&cut, sentence.start));
        for (at, token) in cut.tokens.iter().enumerate() {
            if token.is_any(&["until", "till"]) {
                let end = (at + 1..cut.tokens.len())
                    .find(|end| matches!(cut.tokens[*end].kind, Token::Mark(',' | ';' | '.' | ')')))
                    .unwrap_or(cut.tokens.len());
                let place = cut.place(at, end);
                let open = step.done.last().is_some_and(|last| last.end > place.start + sentence.start);
                if !open {
                    step.done.push(place.start + sentence.start..place.end + sentence.start);
                }
            }
            step.cooks |= token.is_any(COOKING) && !cut.any(at + 1, &["paper", "spray", "sheet"]);
            if token.is_any(PANS) && !(token.folded == "sheet" && cut.any(at + 1, &["cake"])) {
                step.pans.push(token.place.start + sentence.start..token.place.end + sentence.start);
            }
        }
    }
    step
}

/// What is done over heat, by the verbs of it.
const COOKING: &[&str] =
    &["cook", "simmer", "boil", "roast", "bake", "reduce", "fry", "toast", "caramelize", "caramelise", "poach", "stew"];

/// Whether the temperature between the bytes is that of what is cooked, not of the oven.
fn inside(cut: &Cut<'_>, start: usize, end: usize) -> bool {
    let first = cut.tokens.partition_point(|token| token.place.start < start);
    let after = cut.tokens.partition_point(|token| token.place.start < end);
    let before = cut.tokens[first.saturating_sub(4)..first].iter().any(|token| {
        token.is_any(&[
            "reaches",
            "registers",
            "reach",
            "thermometer",
            "temperature",
            "internal",
            "inside",
            "reads",
            "water",
            "milk",
            "syrup",
        ])
    });
    before
        || cut.any(after, &["inside"])
        || cut.any(after, &["in"]) && cut.any(after + 2, &["middle", "center", "centre"])
}

/// Longest sentence; a longer one is broken at white space, so that looking around in one costs no more than this.
const LONGEST_SENTENCE: usize = 1000;

/// Sentences of a text: they end with a mark and white space after it.
pub fn sentences(text: &str, offset: usize) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    let mut start = 0;
    let mut chars = text.char_indices().peekable();
    while let Some((at, c)) = chars.next() {
        let ends = matches!(c, '.' | '!' | '?') && chars.peek().is_none_or(|(_, next)| next.is_whitespace());
        // "350 deg. F", "3 tbsp. of": a small letter goes on.
        let goes_on = ends
            && c == '.'
            && text[at + 1..].chars().take(4).find(|c| !c.is_whitespace()).is_some_and(char::is_lowercase);
        let before = if ends { text[start..at].rsplit(|c: char| !c.is_alphabetic()).next().unwrap_or("") } else { "" };
        let goes_on = goes_on || matches!(before, "deg" | "approx" | "Tbsp" | "tbsp" | "tsp" | "oz" | "lb");
        let long = at - start > LONGEST_SENTENCE && (c.is_whitespace() || at - start > 2 * LONGEST_SENTENCE);
        if ends && !goes_on || long {
            push(&mut found, text, start, at + c.len_utf8(), offset);
            start = at + c.len_utf8();
        }
    }
    push(&mut found, text, start, text.len(), offset);
    found
}

fn push(found: &mut Vec<Range<usize>>, text: &str, start: usize, end: usize, offset: usize) {
    let said = &text[start..end];
    let lead = said.len() - said.trim_start().len();
    if !said.trim().is_empty() {
        found.push(start + lead + offset..start + said.trim_end().len() + offset);
    }
}

/// Lines by component: the component's number, then its lines in their order.
type Lines = Vec<(usize, Vec<usize>)>;

/// The lines that a name may mean.
#[derive(Default)]
struct Index {
    /// By the key of the name.
    meant: HashMap<String, Meant>,
    /// The first words of all those keys: most words of a step begin none.
    first_words: HashSet<String>,
    /// Components by the words of their names.
    parts: HashMap<String, usize>,
}

/// The lines that one name may mean.
#[derive(Default)]
struct Meant {
    /// It is their whole name.
    names: Lines,
    /// It is the end of their name.
    heads: Lines,
    /// It is the first word of their name.
    starts: Lines,
}

impl Index {
    fn of(components: &[Component]) -> Index {
        let mut index = Index::default();
        for (part, component) in components.iter().enumerate() {
            if let Some(name) = &component.name {
                let cut = Cut::of(name);
                let words: Vec<&str> = cut
                    .tokens
                    .iter()
                    .filter(|token| token.kind == Token::Word && !token.is_any(&["for", "the", "to", "of", "and", "a"]))
                    .map(|token| token.key.as_str())
                    .collect();
                if let Some(last) = words.last() {
                    index.parts.entry((*last).to_owned()).or_insert(part);
                }
            }
            for (nth, read) in component.lines.iter().enumerate().filter(|(_, read)| read.line.kind == Kind::Ingredient)
            {
                for item in &read.line.foods {
                    let cut = Cut::of(&item.name);
                    let words: Vec<&str> = cut
                        .tokens
                        .iter()
                        .filter(|token| token.kind == Token::Word)
                        .map(|token| token.key.as_str())
                        .collect();
                    for tail in 0..words.len().min(4) {
                        let name = words[words.len() - 1 - tail..].join(" ");
                        let meant = index.meant(name);
                        add(if tail + 1 == words.len() { &mut meant.names } else { &mut meant.heads }, part, nth);
                    }
                    // Cooks shorten: "chocolate" for chocolate chips, "peanuts" for roasted peanuts.
                    if words.len() > 1 && !COMMON_FIRST.contains(&words[0]) {
                        add(&mut index.meant(words[0].to_owned()).starts, part, nth);
                    }
                }
            }
        }
        index
    }

    fn meant(&mut self, name: String) -> &mut Meant {
        self.first_words.insert(first_word(&name).to_owned());
        self.meant.entry(name).or_default()
    }
}

fn first_word(words: &str) -> &str {
    words.split(' ').next().unwrap_or_default()
}

fn add(parts: &mut Lines, part: usize, line: usize) {
    match parts.last_mut() {
        Some((last, lines)) if *last == part => {
            if lines.last() != Some(&line) {
                lines.push(line);
            }
        }
        _ => parts.push((part, vec![line])),
    }
}

/// First words of names that say nothing alone.
const COMMON_FIRST: &[&str] = &[
    "baking",
    "all",
    "light",
    "dark",
    "white",
    "whole",
    "fresh",
    "large",
    "powdered",
    "granulated",
    "unsalted",
    "salted",
    "ground",
    "plain",
    "sea",
    "heavy",
    "dry",
    "full",
    "self",
    "ice",
    "hot",
    "cold",
    "warm",
    "fine",
    "coarse",
    "old",
    "quick",
    "strong",
    "soft",
    "extra",
    "rice",
    "cake",
    "bread",
    "pastry",
];

/// Foods whose plural means several kinds of it.
const KINDS: &[&str] = &["sugar", "flour", "oil", "butter", "milk", "salt", "cheese", "chocolate", "starch"];

/// A name found in a step.
struct Hit<'i> {
    from: usize,
    parts: &'i [(usize, Vec<usize>)],
    exact: bool,
    many: bool,
    /// Lines of longer names with the same last word, when the plural means all kinds ("both sugars").
    kinds: &'i [(usize, Vec<usize>)],
}

/// Links the steps to the lines they take, and reads what the text says of weights. `hints` are headings in the method.
pub fn link(text: &str, out: &mut Manuscript, hints: &[(usize, String)]) {
    let index = Index::of(&out.components);
    let mut used: Vec<Vec<bool>> = out.components.iter().map(|component| vec![false; component.lines.len()]).collect();
    let mut last_part = None;
    let mut crowded: Option<Range<usize>> = None;
    let mut steps = std::mem::take(&mut out.steps);
    for step in &mut steps {
        let hint = hints.partition_point(|(at, _)| *at < step.place.start).checked_sub(1).map(|at| &hints[at].1);
        let cut = Cut::of(&text[step.place.clone()]);
        let hits = hits(&cut, &index);
        let part = hint
            .and_then(|hint| named_part(&Cut::of(hint), &index))
            .or_else(|| named_part(&cut, &index))
            .or_else(|| commonest(&hits))
            .or(last_part);
        step.component = part;
        last_part = part;
        for hit in &hits {
            let here =
                hit.parts.iter().take(MOST_LINES).find(|(at, _)| Some(*at) == part).or_else(|| hit.parts.first());
            let Some((component, lines)) = here else { continue };
            if lines.len() > MOST_LINES || hit.parts.len() > MOST_LINES {
                crowded.get_or_insert(
                    cut.place(hit.from, hit.from + 1).start + step.place.start
                        ..cut.place(hit.from, hit.from + 1).end + step.place.start,
                );
            }
            let mut share = share(&cut, hit.from);
            let free: Vec<usize> = lines.iter().take(MOST_LINES).copied().collect();
            // A last word that fits several lines means all only in the plural ("flours"); else the first not used.
            let chosen: Vec<usize> = if hit.exact || hit.many || free.len() == 1 {
                free
            } else {
                free.iter().find(|line| !used[*component][**line]).or(free.first()).copied().into_iter().collect()
            };
            let kinds = hit.kinds.iter().take(MOST_LINES).find(|(at, _)| at == component);
            let chosen: Vec<usize> = chosen
                .into_iter()
                .chain(kinds.into_iter().flat_map(|(_, lines)| lines.iter().take(MOST_LINES).copied()))
                .collect();
            // A line that was taken out of this very sentence is the one meant.
            let named = cut.place(hit.from, hit.from + 1).start + step.place.start;
            let own =
                chosen.iter().copied().find(|line| out.components[*component].lines[*line].place.contains(&named));
            let chosen = own.map_or(chosen, |line| {
                share = Share::All;
                vec![line]
            });
            for line in chosen {
                let twice = step
                    .uses
                    .iter()
                    .rev()
                    .take(64)
                    .any(|other| other.component == *component && other.line == line && other.share == share);
                if !twice {
                    let name = cut.place(hit.from, hit.from + 1);
                    used[*component][line] = true;
                    step.uses.push(Use {
                        component: *component,
                        line,
                        share: share.clone(),
                        place: name.start + step.place.start..name.end + step.place.start,
                    });
                }
            }
        }
        dry(&cut, step, &out.components, part, &mut used);
    }
    out.steps = steps;
    if let Some(place) = crowded {
        out.queries.push(Query::new(
            &TOO_MANY_LINES,
            place,
            format!("A name in the method fits more than {MOST_LINES} lines; only so many were looked at."),
            "Name the food more exactly in the step.",
        ));
    }
    out.measured = measured(text, out);
}

/// "Whisk the dry ingredients": the dry lines of the component that no step took before.
fn dry(cut: &Cut<'_>, step: &mut Step, components: &[Component], part: Option<usize>, used: &mut [Vec<bool>]) {
    let Some(at) =
        (0..cut.tokens.len()).find(|at| cut.any(*at, &["dry"]) && cut.any(at + 1, &["ingredients", "things", "stuff"]))
    else {
        return;
    };
    let part = part.unwrap_or(0);
    let Some(component) = components.get(part) else { return };
    let place = cut.place(at, at + 2);
    let place = place.start + step.place.start..place.end + step.place.start;
    for (line, read) in component.lines.iter().enumerate() {
        let is_dry = read.line.foods.iter().any(|item| {
            let cut = Cut::of(&item.name);
            cut.tokens.iter().any(|token| DRY.contains(&token.key.as_str()))
        });
        if is_dry && !used[part][line] {
            used[part][line] = true;
            step.uses.push(Use { component: part, line, share: Share::All, place: place.clone() });
        }
    }
}

const DRY: &[&str] = &[
    "flour",
    "powder",
    "soda",
    "salt",
    "cocoa",
    "cinnamon",
    "ginger",
    "nutmeg",
    "clove",
    "spice",
    "starch",
    "cornstarch",
    "cornmeal",
    "semolina",
    "oat",
    "yeast",
    "allspice",
    "cardamom",
    "meal",
];

/// The names in a step, longest first at each place.
fn hits<'i>(cut: &Cut<'_>, index: &'i Index) -> Vec<Hit<'i>> {
    let mut found = Vec::new();
    let mut at = 0;
    while at < cut.tokens.len() {
        if !cut.is_word(at) {
            at += 1;
            continue;
        }
        if !index.first_words.contains(first_word(&cut.tokens[at].key)) {
            at += 1;
            continue;
        }
        let hit = (1..=5usize)
            .rev()
            .filter(|count| at + count <= cut.tokens.len() && cut.is_word(at + count - 1))
            .find_map(|count| {
                let key = words_key(cut, at, at + count);
                let many = cut.tokens[at + count - 1].folded != cut.tokens[at + count - 1].key;
                let Meant { names, heads, starts } = index.meant.get(&key)?;
                let exact = !names.is_empty();
                let parts = [names, heads, starts].into_iter().find(|lines| !lines.is_empty())?;
                let kinds = if many && exact && KINDS.contains(&key.as_str()) { heads } else { &[][..] };
                Some((Hit { from: at, parts, exact, many, kinds }, at + count))
            });
        match hit {
            Some((hit, next)) => {
                // "flour mixture", "egg wash", "flour the pan": not the ingredient.
                let made = cut.any(next, &["mixture", "mix", "wash", "glaze", "batter", "dough", "pan", "tin"])
                    || cut.any(next, &["the"]) && cut.any(next + 1, PANS);
                // "Butter the pan", "Oil a tin": a verb.
                let opens = at == 0 || cut.mark(at - 1, '.') || cut.any(at - 1, &["and"]);
                let object = cut.is_word(next)
                    && !cut.any(
                        next,
                        &["and", "with", "in", "until", "to", "is", "at", "on", "over", "goes", "from", "into", "or"],
                    );
                let verb = opens && cut.any(at, &["butter", "flour", "oil", "cream"]) && next == at + 1 && object;
                if !made && !verb {
                    found.push(hit);
                }
                at = next;
            }
            None => at += 1,
        }
    }
    found
}

/// The component that a text names by its head word: "for the glaze".
fn named_part(cut: &Cut<'_>, index: &Index) -> Option<usize> {
    (0..cut.tokens.len()).find_map(|at| {
        let said = at == 0
            || cut.any(at - 1, &["the"]) && (at == 1 || cut.any(at - 2, &["for", "make"]))
            || cut.any(at - 1, &["for", "make"]);
        cut.tokens.get(at).filter(|_| said).and_then(|token| index.parts.get(token.key.as_str())).copied()
    })
}

/// The component most of the names can mean; the earlier one of equals.
fn commonest(hits: &[Hit<'_>]) -> Option<usize> {
    let mut counts: std::collections::BTreeMap<usize, usize> = std::collections::BTreeMap::new();
    for hit in hits {
        for (part, _) in hit.parts.iter().take(MOST_LINES) {
            *counts.entry(*part).or_default() += if hit.exact { 2 } else { 1 };
        }
    }
    let most = counts.values().copied().max()?;
    counts.into_iter().find(|(_, count)| *count == most).map(|(part, _)| part)
}

/// What is said before the name at `at` of how much of it is taken.
fn share(cut: &Cut<'_>, at: usize) -> Share {
    let floor = at.saturating_sub(8);
    let stop = (floor..at).rev().find(|at| {
        matches!(cut.tokens[*at].kind, Token::Mark(',' | ';' | '.' | ':'))
            || cut.any(*at, &["and", "with", "then", "in"]) && !cut.any(at + 1, &["a"])
    });
    let from = stop.map_or(floor, |stop| stop + 1);
    let amount = (from..at).find_map(|start| {
        let count = numbers(cut, start).map(|read| read.next);
        let next = count.or_else(|| cut.any(start, &["a", "an"]).then_some(start + 1))?;
        let (_, end) = unit(cut, next)?;
        (end <= at).then(|| cut.written(start, end).to_owned())
    });
    let has = |words: &[&str]| (from..at).any(|at| cut.any(at, words));
    if has(&["remaining", "rest", "remainder"]) {
        return Share::Remaining(amount);
    }
    if has(&["reserved"]) {
        return Share::Reserved;
    }
    if let Some(amount) = amount {
        return Share::Amount(amount);
    }
    if has(&["of", "half"]) {
        for start in from..at {
            let part = if cut.any(start, &["half"]) {
                Some((0.5, start + 1))
            } else {
                number(cut, start).map(|(number, next)| (number.value(), next))
            };
            // "a cup and a half of flour" is an amount and no half.
            let counted = start > 0
                && (cut.any(start - 1, &["and"])
                    || start > 1 && cut.any(start - 1, &["a"]) && cut.any(start - 2, &["and"]));
            if let Some((part, next)) = part.filter(|_| !counted).filter(|(part, _)| *part > 0.0 && *part < 1.0)
                && cut.any(next, &["of", "the"])
            {
                return Share::Part(part);
            }
        }
    }
    Share::All
}

/// Weights in headnote, notes and steps: "the batter weighs 212 g a cup".
fn measured(text: &str, out: &Manuscript) -> Vec<Measured> {
    use crate::layout::NodeKind;
    let mut found = Vec::new();
    for node in
        out.nodes.iter().filter(|node| matches!(node.kind, NodeKind::Headnote | NodeKind::Note | NodeKind::Step))
    {
        for sentence in sentences(&text[node.place.clone()], node.place.start) {
            let cut = Cut::of(&text[sentence.clone()]);
            weights(&cut, sentence.start, &mut found);
        }
    }
    found
}

const WEIGHED: &[&str] = &[
    "batter", "dough", "layer", "layers", "mixture", "filling", "frosting", "icing", "crumb", "streusel", "glaze",
    "cake", "loaf", "coat", "ball", "balls", "cup", "cups", "square", "squares", "piece", "bun", "roll", "cookie",
    "muffin", "pan", "pans", "half", "portion", "syrup", "custard", "cream", "caramel", "ganache", "crust", "pulp",
    "puree",
];

fn weights(cut: &Cut<'_>, offset: usize, found: &mut Vec<Measured>) {
    let mut what: Option<&str> = None;
    let mut at = 0;
    while at < cut.tokens.len() {
        if cut.any(at, WEIGHED) && !(what.is_some() && at > 0 && cut.any(at - 1, &["of"])) {
            what = Some(cut.written(at, at + 1));
        }
        let start = (!figures::in_run(cut, at)).then_some(at);
        let read = start.and_then(|at| numbers(cut, at)).and_then(|read| {
            unit(cut, read.next).and_then(|(unit, next)| {
                unit.grams().map(|grams| (read.low.value() * grams, read.high.value() * grams, next))
            })
        });
        let Some((low, high, next)) = read else {
            at += 1;
            continue;
        };
        let each = (1..=2).any(|back| at >= back && cut.any(at - back, &["each"]));
        let per = if cut.any(next, &["a", "per", "each", "apiece"]) || cut.mark(next, '/') {
            cut.get(next + 1)
                .filter(|token| token.kind == Token::Word && !cut.any(next, &["each", "apiece"]))
                .map(|token| token.folded.to_string())
                .or_else(|| what.map(str::to_owned))
        } else if cut.any(next, &["into", "in"]) && cut.any(next + 1, &["each"]) {
            cut.get(next + 2)
                .filter(|token| token.kind == Token::Word)
                .map(|token| token.folded.to_string())
                .or_else(|| what.map(str::to_owned))
        } else if each || (0..at).any(|at| cut.any(at, &["each", "every"]) && at < 3) {
            what.map(str::to_owned)
        } else {
            None
        };
        let of = (cut.any(next, &["of"]) && cut.any(next + 1, WEIGHED)).then(|| cut.written(next + 1, next + 2));
        let verb = (at.saturating_sub(5)..at)
            .any(|at| cut.any(at, &["weigh", "weighs", "is", "are", "takes", "about", "makes", "gives", "scale"]));
        let bracketed = at > 0 && cut.mark(at - 1, '(');
        // "You should have about 2 cups (490 g)": what the step made, whatever it is called.
        let before = bracketed.then(|| volume_before(cut, at - 1)).flatten();
        let gives = before.is_some_and(|(from, _)| {
            (from.saturating_sub(4)..from).any(|at| cut.any(at, &["have", "makes", "make", "gives", "yields", "get"]))
        });
        if gives && let Some((_, millilitres)) = before {
            let place = cut.place(at, next);
            found.push(Measured {
                what: "mixture".to_owned(),
                grams: (low, high),
                millilitres: Some(millilitres),
                per: None,
                place: place.start + offset..place.end + offset,
            });
        } else if (verb || per.is_some())
            && !bracketed
            && let Some(name) = of.or(what).map(|name| crate::word::fold(name).into()).or_else(|| per.clone())
        {
            let place = cut.place(at, next);
            found.push(Measured {
                what: name,
                grams: (low, high),
                millilitres: None,
                per,
                place: place.start + offset..place.end + offset,
            });
        }
        at = next.max(at + 1);
    }
}

/// A volume that ends before token `end`: where it begins, and its millilitres.
fn volume_before(cut: &Cut<'_>, end: usize) -> Option<(usize, f64)> {
    (end.saturating_sub(6)..end).find_map(|from| {
        let read = numbers(cut, from)?;
        let (unit, next) = unit(cut, read.next)?;
        let each = unit.millilitres(evencrumb_measure::Custom::Us)?.best();
        (next == end).then_some((from, f64::midpoint(read.low.value(), read.high.value()) * each))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const FOODS: &[&str] = &["flour", "butter", "sugar", "brown sugar", "egg", "salt", "cream", "milk"];

    /// The uses of the first step, as "line share".
    fn uses(list: &str, step: &str) -> Vec<String> {
        let text = format!("Cake\n\n{list}\n\nMethod\n1. {step}\n");
        let read = crate::layout::read(&text, FOODS);
        read.steps[0].uses.iter().map(|found| format!("{} {:?}", found.line, found.share)).collect()
    }

    #[test]
    fn ok_shares() {
        let list = "1 cup sugar\n2 cups flour\n1/2 tsp salt";
        assert_eq!(
            uses(list, "Mix half of the sugar with a third of the flour."),
            ["0 Part(0.5)", "1 Part(0.3333333333333333)"]
        );
        assert_eq!(
            uses(list, "Mix 1/2 cup of the sugar and the remaining flour."),
            ["0 Amount(\"1/2 cup\")", "1 Remaining(None)"]
        );
        assert_eq!(
            uses(list, "Add a pinch of salt and the rest of the sugar."),
            ["2 Amount(\"a pinch\")", "0 Remaining(None)"]
        );
        assert_eq!(uses(list, "Add the reserved sugar."), ["0 Reserved"]);
    }

    #[test]
    fn ok_verbs_and_mixtures_are_no_ingredients() {
        let list = "1 cup butter\n1 cup cream\n2 cups flour\n1 cup sugar";
        assert_eq!(uses(list, "Butter the pan. Cream butter and sugar."), ["0 All", "3 All"]);
        assert_eq!(uses(list, "Fold in the flour mixture."), Vec::<String>::new());
        assert_eq!(uses("1 cup sugar\n1 cup brown sugar\n2 eggs", "Beat the sugars."), ["0 All", "1 All"]);
    }

    #[test]
    fn ok_what_a_step_should_have_made() {
        let text =
            "Pears\n\n900 g pears\n50 g sugar\n\nMethod\n1. Roast and puree. You should have about 2 cups (490 g).\n";
        let read = crate::layout::read(text, &["pear"][..]);
        assert_eq!(read.measured.len(), 1);
        assert!((read.measured[0].grams.0 - 490.0).abs() < 1e-9);
        assert!((read.measured[0].millilitres.unwrap_or_default() - 473.2).abs() < 0.1);
        assert!(read.steps[0].cooks);
    }

    #[test]
    fn ok_sentences_and_signs() {
        let text = "Bake at 350 deg. F for 20 minutes, until golden. Cool in the pan.";
        let step = step(text, 0..text.len());
        assert_eq!(step.sentences.len(), 2);
        assert_eq!(step.times.len(), 1);
        assert_eq!(step.done.len(), 1);
        assert_eq!(step.pans.len(), 1);
    }
}
