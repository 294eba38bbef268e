//! Which parts of a recipe fill the pan, and which come on after the baking.
//!
//! The method is asked first: what it takes before the last baking is in the pan. Headings decide where the method is
//! silent, and for what is never baked whatever the order of the steps (a frosting may be made while the oven heats).

use std::collections::HashMap;
use std::ops::Range as Bytes;

use evencrumb_manuscript::{Manuscript, Query, QueryKind, Weight};
use evencrumb_measure::Estimate;
use evencrumb_pantry::Pantry;

use super::words::{has_any, last_word};
use crate::made::{self, Origin};
use crate::{Component, Line, total};

/// A part of which nobody said whether it goes in the pan.
pub static PART_IN_PAN_UNSURE: QueryKind = QueryKind { name: "part-in-pan-unsure", weight: Weight::Look };

/// What fills the pan.
#[derive(Clone, Debug, Default)]
pub(super) struct Parts {
    /// Its grams.
    pub grams: Estimate,
    /// The parts taken, each by its number.
    pub taken: Vec<usize>,
    /// The lines taken: part and line.
    pub lines: Vec<(usize, usize)>,
    /// The parts left out, and why.
    pub left_out: Vec<(usize, String)>,
    /// Foods of the taken parts that have no weight.
    pub unweighed: Vec<String>,
    /// What a careful reader would ask.
    pub queries: Vec<Query>,
}

/// Never baked.
const FINISHES: &[&str] = &[
    "frosting",
    "icing",
    "buttercream",
    "ganache",
    "drizzle",
    "sauce",
    "garnish",
    "to serve",
    "for serving",
    "to decorate",
    "decoration",
];
/// Baked in some recipes and not in others.
const EITHER: &[&str] = &["filling", "topping", "glaze", "cream", "syrup", "caramel", "compote", "curd", "to finish"];
/// Purposes of a line that leave nothing in the batter.
const BESIDE_THE_BATTER: &[&str] = &["greasing", "dusting", "frying", "soaking", "bath", "brushing", "serving"];

/// Chooses the parts. `baking` is the byte where the baking is told.
pub(super) fn of(
    text: &str,
    components: &[Component],
    manuscript: &Manuscript,
    baking: Option<usize>,
    pantry: &Pantry,
) -> Parts {
    let mut parts = Parts::default();
    let alone = components.len() == 1;
    let mut uses = Uses::of(text, components, manuscript, baking);
    let made_into = made_into(components);
    for part in (0..components.len().min(MOST_COMPONENTS)).filter(|part| made_into[*part].is_some()) {
        uses.lined[part] = uses.lined[part].or_else(|| rest_lined(text, manuscript, part, baking));
    }
    for (at, component) in components.iter().enumerate() {
        let name = component.heading();
        // A dough of which a little goes into a crumble is in the pan all the same where it is pressed into it.
        let made_into = made_into[at].filter(|_| uses.lined[at].is_none());
        match verdict(at, components, manuscript, baking.map(|_| &uses), made_into) {
            Verdict::Taken => parts.taken.push(at),
            _ if alone => parts.taken.push(at),
            Verdict::LeftOut(why) => parts.left_out.push((at, why)),
            Verdict::Unsure { taken, why } => {
                let (did, mend) = match taken {
                    true => ("it was counted as part of the batter", "is not baked"),
                    false => ("it was not counted as part of the batter", "is baked with it"),
                };
                parts.queries.push(Query::new(
                    &PART_IN_PAN_UNSURE,
                    place(at, manuscript),
                    format!("The text does not tell whether “{name}” goes in the pan ({why}); {did}."),
                    format!("If it {mend}, say in the method, before or after the sentence that bakes, what is done with it."),
                ));
                if taken { parts.taken.push(at) } else { parts.left_out.push((at, why)) }
            }
        }
    }
    if parts.taken.is_empty() && !components.is_empty() {
        parts = Parts { taken: (0..components.len()).collect(), ..Parts::default() };
    }
    add_up(&mut parts, components, &uses, pantry);
    parts
}

enum Verdict {
    Taken,
    LeftOut(String),
    Unsure { taken: bool, why: String },
}

/// `uses` are how the steps take the part's lines; nothing where nothing is baked.
fn verdict(
    at: usize,
    components: &[Component],
    manuscript: &Manuscript,
    uses: Option<&Uses>,
    made_into: Option<(usize, &Line)>,
) -> Verdict {
    let heading = components[at].name.as_deref().unwrap_or_default().to_lowercase();
    if let Some((other, line)) = made_into {
        return Verdict::LeftOut(format!(
            "it goes into “{}” as “{}”",
            components[other].heading(),
            line.weighed.text.trim()
        ));
    }
    let finish = has_any(&heading, FINISHES);
    let Some(uses) = uses else {
        return if finish { Verdict::LeftOut("by its heading".to_owned()) } else { Verdict::Taken };
    };
    match uses.of_part(at) {
        (0, 0) if finish => Verdict::LeftOut("by its heading".to_owned()),
        (0, 0) if uses.placed[at] == Some(true) || uses.lined[at].is_some() => Verdict::Taken,
        (0, 0) if uses.placed[at] == Some(false) => Verdict::LeftOut("it goes on after the baking".to_owned()),
        (0, 0) if has_any(&heading, EITHER) => Verdict::Unsure {
            taken: is_filled(at, components, manuscript),
            why: "no step names its ingredients, and its heading does not tell".to_owned(),
        },
        (before, after) if before < after && uses.while_baking[at] => {
            Verdict::LeftOut("it goes on while the rest bakes".to_owned())
        }
        (before, after) if before < after => Verdict::LeftOut("it is used after the baking".to_owned()),
        // Butter that is brushed on before is not the butter of the icing that is spread on the warm rolls.
        _ if finish && uses.placed[at] == Some(false) => Verdict::LeftOut("it goes on after the baking".to_owned()),
        _ if finish => Verdict::Unsure {
            taken: false,
            why: "its heading says that it is not baked, and a step uses it before the baking".to_owned(),
        },
        _ => Verdict::Taken,
    }
}

/// Whether the recipe is of a kind that is baked with what fills or tops it.
fn is_filled(at: usize, components: &[Component], manuscript: &Manuscript) -> bool {
    let others =
        components.iter().enumerate().filter(|(other, _)| *other != at).filter_map(|(_, one)| one.name.as_deref());
    let mut names = others.chain(manuscript.title.as_deref());
    names.any(|name| has_any(&name.to_lowercase(), &["crust", "pastry", "pie", "tart", "cheesecake", "base", "dough"]))
}

/// For each part the line of another part that takes of it: roasted pears, as "1 cup roasted pear puree, from above".
fn made_into(components: &[Component]) -> Vec<Option<(usize, &Line)>> {
    let mut found = vec![None; components.len()];
    for (part, component) in components.iter().enumerate() {
        for line in &component.lines {
            for made in taken_of(line).filter(|made| *made != part && *made < components.len()) {
                found[made].get_or_insert((part, line));
            }
        }
    }
    found
}

/// The parts of this manuscript that a line takes of.
pub(super) fn taken_of(line: &Line) -> impl Iterator<Item = usize> {
    line.weighed.foods.iter().filter_map(|one| match one.made.as_ref()?.origin {
        Origin::Component(part) => Some(part),
        Origin::Manuscript { .. } => None,
    })
}

/// Shares of each part that lines take, here or of all the lines there are.
fn taken_shares(components: &[Component], counts: impl Fn(usize) -> bool) -> Vec<f64> {
    let mut shares = vec![0.0; components.len()];
    let parts = components.iter().enumerate().filter(|(at, _)| counts(*at));
    for one in parts.flat_map(|(_, part)| &part.lines).flat_map(|line| &line.weighed.foods) {
        let Some(made) = &one.made else { continue };
        if let (Origin::Component(of), Some(share)) = (&made.origin, &made.share)
            && let Some(sum) = shares.get_mut(*of)
        {
            *sum += share.best();
        }
    }
    shares
}

fn add_up(parts: &mut Parts, components: &[Component], uses: &Uses, pantry: &Pantry) {
    // What lines outside the pan take of a part in the pan is not there, nor what is kept for another bake; and lines that
    // take more of a part than is made get no more than that.
    let elsewhere = taken_shares(components, |at| !parts.taken.contains(&at));
    let taken = taken_shares(components, |_| true);
    for part in parts.taken.clone() {
        let here = match components[part].in_batch {
            kept if kept < 1.0 => kept,
            _ => (1.0 - elsewhere[part]).max(0.0),
        };
        for (at, line) in components[part].lines.iter().enumerate() {
            if line.weighed.read.purpose.as_deref().is_some_and(|why| BESIDE_THE_BATTER.contains(&why))
                || uses.only_after(part, at)
            {
                continue;
            }
            // What is counted in another line has no share here, and what is made of a part that is in the pan is in it.
            let grams = total::eaten_grams(&line.weighed, pantry);
            let counted_there = line.adds_nothing || grams.is_some() && line.share.is_none();
            if counted_there || taken_of(line).any(|made| parts.taken.contains(&made)) {
                continue;
            }
            parts.lines.push((part, at));
            match grams {
                Some(grams) => {
                    let most = taken_of(line).map(|made| taken[made]).fold(1.0, f64::max);
                    parts.grams.add(&grams.times(here / most));
                }
                None => parts.unweighed.extend(
                    line.weighed
                        .foods
                        .iter()
                        .filter(|one| total::is_missing(&line.weighed, one))
                        .map(|one| one.item.name.clone()),
                ),
            }
        }
    }
}

/// How often the steps take each line before the baking and after it, by part and line.
struct Uses {
    counts: Vec<Vec<(usize, usize)>>,
    /// Whether a part goes on during the last minutes of the baking.
    while_baking: Vec<bool>,
    /// Whether the part by its name ("spread with the filling") is put in its place before the baking; nothing when no
    /// sentence says so.
    placed: Vec<Option<bool>>,
    /// Where a sentence before the baking presses the part into the pan by its name.
    lined: Vec<Option<usize>>,
}

/// A sentence that presses a part by its name into the pan, as "Press 2/3 of the dough in a springform".
fn lined(said: &[Said], name: &str, baking: Option<usize>) -> Option<usize> {
    let mut before = said.iter().filter(|(start, _)| baking.is_some_and(|baking| *start < baking));
    before.find_map(|(start, words)| {
        let at = words.find(name).filter(|_| has_any(words, &[name]))?;
        let pressed = has_any(&words[..at], &["press", "pat", "line", "roll", "spread", "put", "ease", "fit"]);
        (pressed && has_any(words, VESSELS)).then_some(*start)
    })
}

/// Where a sentence before the baking puts what lines leave of the part into the pan: "Set aside 100 g of the base. Press
/// the rest into the lined tin."
fn rest_lined(text: &str, manuscript: &Manuscript, part: usize, baking: Option<usize>) -> Option<usize> {
    let (start, words) =
        made::rest_used(text, manuscript, part).filter(|(start, _)| baking.is_some_and(|b| *start < b))?;
    (has_any(&words, VESSELS) || has_any(&words, &["over", "on top"])).then_some(start)
}

/// Parts whose rest is looked for; no recipe has so many, and a hostile text must not be slow.
const MOST_COMPONENTS: usize = 100;

/// A sentence of the method: where it begins, and its words in small letters.
type Said = (usize, String);

const VESSELS: &[&str] = &["pan", "tin", "springform", "dish", "mould", "mold", "tray", "case", "ring"];

/// Whether a sentence takes all there is of its part: "Beat all together", "Mix all the ingredients", "Add everything".
fn takes_all(words: &str) -> bool {
    let said = ["all together", "everything", "all the ingredients", "all ingredients", "all of the ingredients"];
    has_any(words, &said)
        && has_any(words, &["beat", "mix", "stir", "whisk", "add", "combine", "put", "blend", "knead", "rub", "work"])
        && !has_any(words, &["except", "but", "apart from"])
}

/// What is done with a part when it is put in its place.
const PLACED: &[&str] = &[
    "spread", "pour", "fill", "top", "cover", "fold", "scatter", "sprinkle", "brush", "spoon", "roll", "pipe",
    "dollop", "arrange", "add", "swirl",
];
/// A bake that is so has left the oven.
const OUT_OF_THE_OVEN: &[&str] = &["chilled", "cooled", "cold", "baked", "set"];

/// Whether the last sentence that puts a part in its place by its name stands before the baking. "Heat the caramel
/// ingredients" after it makes what goes on later, whatever the next sentence calls it.
fn placed(said: &[Said], name: &str, baking: Option<usize>) -> Option<bool> {
    let all_of_it = format!("{name} ingredients");
    if let Some((start, words)) = said.iter().find(|(_, words)| words.contains(&all_of_it)) {
        let before = baking.is_none_or(|baking| *start < baking);
        let in_the_pan = has_any(words, &["press", "pour", "spread", "tip", "line"]) && has_any(words, VESSELS);
        if !before || in_the_pan {
            return Some(before);
        }
    }
    said.iter().rev().find_map(|(start, words)| {
        let at = words.find(name).filter(|_| has_any(words, &[name]) && has_any(words, PLACED))?;
        Some(baking.is_none_or(|baking| start + at < baking) && !has_any(words, OUT_OF_THE_OVEN))
    })
}

/// Whether a part of which no step names a line goes on after the baking by the last words of its lines: "200 g plain or
/// milk chocolate" where a step melts chocolate and pours it over. Words that other parts have too tell nothing.
fn placed_after(said: &[Said], part: usize, components: &[Component], baking: Option<usize>) -> Option<bool> {
    let lines =
        |part: &Component| part.lines.iter().take(MOST_LINES).map(|line| line.weighed.text.to_lowercase()).collect();
    let own: Vec<String> = lines(&components[part]);
    let others = components.iter().take(MOST_COMPONENTS).enumerate().filter(|(other, _)| *other != part);
    let others: Vec<String> = others.flat_map(|(_, one)| -> Vec<String> { lines(one) }).collect();
    let words = own.iter().filter_map(|line| {
        let name = line.split([',', '(']).next()?;
        name.rsplit(|c: char| !c.is_alphabetic()).find(|word| word.len() > 3)
    });
    let words: Vec<&str> = words.filter(|word| !others.iter().any(|line| has_any(line, &[word]))).collect();
    let mut taken = said.iter().filter(|(_, sentence)| has_any(sentence, &words)).peekable();
    taken.peek()?;
    taken
        .all(|(start, sentence)| baking.is_some_and(|baking| *start > baking) && has_any(sentence, PLACED))
        .then_some(false)
}

/// Lines of a part whose words are looked for; a hostile text must not be slow.
const MOST_LINES: usize = 12;

impl Uses {
    fn of(text: &str, components: &[Component], manuscript: &Manuscript, baking: Option<usize>) -> Uses {
        let mut counts: Vec<Vec<(usize, usize)>> = components.iter().map(|one| vec![(0, 0); one.lines.len()]).collect();
        let mut while_baking = vec![false; components.len()];
        for (step, one) in manuscript.steps.iter().flat_map(|step| step.uses.iter().map(move |one| (step, one))) {
            let sentence = step.sentence_at(one.place.start);
            let words = sentence.and_then(|sentence| text.get(sentence.clone())).unwrap_or_default().to_lowercase();
            if has_any(&words, &["last", "final"])
                && has_any(&words, &["minute", "minutes"])
                && let Some(part) = while_baking.get_mut(one.component)
            {
                *part = true;
            }
            if let Some(count) = counts.get_mut(one.component).and_then(|lines| lines.get_mut(one.line)) {
                match baking.is_none_or(|baking| one.place.start < baking) {
                    true => count.0 += 1,
                    false => count.1 += 1,
                }
            }
        }
        for step in &manuscript.steps {
            // Where the list has one part, "all" is of it, whatever the step names.
            let part = if components.len() == 1 { Some(0) } else { step.component };
            let Some(lines) = part.and_then(|part| counts.get_mut(part)) else { continue };
            let before = step.sentences.iter().filter(|sentence| baking.is_none_or(|baking| sentence.start < baking));
            let mut words = before.filter_map(|sentence| text.get(sentence.clone()));
            if words.any(|words| takes_all(&words.to_lowercase())) {
                // What only a later step names was in it all the same: icing sugar over a cake of sugar.
                lines.iter_mut().filter(|count| count.1 > 0).for_each(|count| count.0 += 1);
            }
        }
        let sentences = manuscript.steps.iter().flat_map(|step| &step.sentences);
        let said = sentences.filter_map(|sentence| Some((sentence.start, text.get(sentence.clone())?.to_lowercase())));
        let said: Vec<Said> = said.collect();
        // Parts of one name are looked for once: a text of very many recipes must not be slow.
        let mut known: HashMap<Option<String>, (Option<bool>, Option<usize>)> = HashMap::new();
        let named = components.iter().map(|component| component.name.as_deref().and_then(last_word));
        let found = named.map(|name| {
            let look = |name: &str| (placed(&said, name, baking), lined(&said, name, baking));
            *known.entry(name).or_insert_with_key(|name| name.as_deref().map(look).unwrap_or_default())
        });
        let (mut placed, lined): (Vec<Option<bool>>, _) = found.unzip();
        for part in (0..components.len().min(MOST_COMPONENTS)).filter(|_| components.len() > 1) {
            if placed[part].is_none() && counts[part].iter().all(|count| *count == (0, 0)) {
                placed[part] = placed_after(&said, part, components, baking);
            }
        }
        Uses { counts, while_baking, placed, lined }
    }

    fn of_part(&self, part: usize) -> (usize, usize) {
        self.counts[part].iter().fold((0, 0), |sum, count| (sum.0 + count.0, sum.1 + count.1))
    }

    /// Whether every step that takes the line comes after the baking, as powdered sugar that is sifted over a cake.
    fn only_after(&self, part: usize, line: usize) -> bool {
        let (before, after) = self.counts[part][line];
        before == 0 && after > 0
    }
}

fn place(at: usize, manuscript: &Manuscript) -> Bytes<usize> {
    manuscript.components.get(at).map_or(0..0, |component| component.place.clone())
}
