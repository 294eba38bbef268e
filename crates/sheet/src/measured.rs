//! What the author weighed and wrote into the text ("you should have about 2 cups (490 g)"), and which component it is of.

use evencrumb_manuscript::word::key;
use evencrumb_manuscript::{Manuscript, Measured, Query, QueryKind, Step, Weight};
use evencrumb_measure::{Estimate, Influence, Range};

use crate::fit::{has_any, last_word};
use crate::total::Total;

/// How much of a component is there when it is ready.
#[derive(Clone, Debug)]
pub struct Ready {
    /// Grams.
    pub grams: Estimate,
    /// Millilitres, where the text gives them too.
    pub millilitres: Option<f64>,
    /// Bytes of the manuscript where it stands.
    pub place: std::ops::Range<usize>,
}

/// A weight in the text and the lines' sum are too far apart.
pub static MEASURED_DIFFERS: QueryKind = QueryKind { name: "measured-differs", weight: Weight::Look };

/// Words for a part of the whole: "10 balls of about 80 g" says nothing of what all weighs.
const PARTS: &[&str] =
    &["ball", "layer", "square", "piece", "bun", "roll", "cookie", "muffin", "pan", "half", "portion", "cup", "coat"];

/// What a component weighs as the text says, as a whole.
pub fn ready(text: &str, manuscript: &Manuscript, component: usize) -> Option<Ready> {
    let mut whole = manuscript.measured.iter().take(MOST_WEIGHTS).filter(|found| is_whole(text, found));
    let found = whole.find(|found| of(text, manuscript, found) == Some(component))?;
    let (low, high) = found.grams;
    // A kitchen scale and the bowl's scrapings: 2 % either way; common practice, no source.
    let range = Range::new(low * 0.98, f64::midpoint(low, high), high * 1.02)?;
    let grams = Estimate::of(range, Influence::named("what the author weighed"));
    Some(Ready { grams, millilitres: found.millilitres, place: found.place.clone() })
}

fn is_whole(text: &str, found: &Measured) -> bool {
    one_of(text, found).is_none() && !PARTS.contains(&key(&found.what).as_str())
}

/// What a weight in the text is that of one of, also where it stands before: "divide the dough into 8; each should weigh
/// about 88 g" weighs one, and "every bun of the dough weighs 60 g" a bun. Nothing where it is of the whole.
pub fn one_of(text: &str, found: &Measured) -> Option<String> {
    if found.per.is_some() {
        return found.per.clone();
    }
    let before = text.get(..found.place.start).unwrap_or_default();
    // Not further back than a sentence is long, so that a text without full stops costs no more.
    let near = &before[before.floor_char_boundary(before.len().saturating_sub(MOST_OF_A_SENTENCE))..];
    let clause = near.rsplit(['.', ';', '\n', ':']).next()?.to_lowercase();
    let mut words = clause.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.find(|word| matches!(*word, "each" | "every"))?;
    let next =
        words.next().filter(|next| !["should", "will", "weighs", "weighing", "about", "of", "one"].contains(next));
    Some(next.unwrap_or("each").to_owned())
}

/// Bytes of a sentence that are looked at.
const MOST_OF_A_SENTENCE: usize = 200;

/// Whether a component is cooked before it is used: a step that takes of its lines tells to cook, roast or simmer, or a
/// sentence cooks it by its name ("Boil the syrup").
pub fn is_cooked(text: &str, manuscript: &Manuscript, component: usize) -> bool {
    let takes = |step: &&Step| step.uses.iter().any(|taken| taken.component == component);
    let mut sentences = manuscript.steps.iter().flat_map(|step| &step.sentences);
    manuscript.steps.iter().filter(takes).any(|step| step.cooks)
        || sentences.any(|sentence| {
            let words = words_of(text, sentence);
            COOKED.iter().any(|verb| words.starts_with(verb)) && is_made_in(&words, manuscript, component)
        })
}

/// The first cooking of a component.
pub struct Cooked {
    /// The byte of its sentence.
    pub place: usize,
    /// Whether the oven alone does it, so that its dough or batter is raw.
    pub is_baked: bool,
}

/// Where a component is first cooked, as [`is_cooked`] tells it; nothing when it never is.
pub fn is_cooked_at(text: &str, manuscript: &Manuscript, component: usize) -> Option<Cooked> {
    if !is_cooked(text, manuscript, component) {
        return None;
    }
    let first =
        |step: &Step| step.uses.iter().find(|taken| taken.component == component).map(|taken| taken.place.start);
    let mut found: Option<Cooked> = None;
    for step in &manuscript.steps {
        let taken = first(step).filter(|_| step.cooks);
        for sentence in &step.sentences {
            let words = words_of(text, sentence);
            let named = COOKED.iter().any(|verb| words.starts_with(verb)) && is_made_in(&words, manuscript, component);
            let on_the_hob = has_any(&words, ON_THE_HOB);
            let cooks = on_the_hob || has_any(&words, &["bake", "roast"]);
            // What a step cooks before it takes of the component is another.
            if !named && (taken.is_none_or(|taken| taken >= sentence.end) || !cooks) {
                continue;
            }
            let cooked = found.get_or_insert(Cooked { place: sentence.start, is_baked: true });
            cooked.is_baked &= !on_the_hob;
        }
    }
    found
}

/// What is cooked so is no dough any more, but for the paste of choux, which is cooked before it is a dough.
const ON_THE_HOB: &[&str] =
    &["cook", "simmer", "boil", "reduce", "fry", "toast", "caramelize", "caramelise", "poach", "stew"];

/// The component that a weight in the text is of; nothing where it is of a single food ("Brown the butter; you should have
/// about 165 g"), of what is baked, or where nobody can tell.
///
/// A part that the sentence makes or weighs by its name comes first; else it is the part of the foods named up to there.
pub fn of(text: &str, manuscript: &Manuscript, found: &Measured) -> Option<usize> {
    let at = found.place.start;
    let Some(step) = manuscript.step_at(at) else {
        let sentence = text.get(..at).unwrap_or_default();
        let begins = sentence.rfind(['.', '\n']).map_or(0, |stop| stop + 1);
        let words = text.get(begins..).unwrap_or_default();
        let words = words[..words.find('\n').unwrap_or(words.len())].to_lowercase();
        return (manuscript.components.len() == 1 && !is_baked(&words)).then_some(0);
    };
    let nth = step.sentences.iter().position(|sentence| sentence.contains(&at));
    let words = nth.map(|nth| words_of(text, &step.sentences[nth])).unwrap_or_default();
    if is_baked(&words) {
        return None;
    }
    let all = 0..manuscript.components.len().min(MOST_COMPONENTS);
    if let Some(named) = all.clone().find(|part| heading(manuscript, *part).as_deref() == Some(&found.what)) {
        return Some(named);
    }
    if found.what != "mixture" {
        return step.component.or_else(|| (manuscript.components.len() == 1).then_some(0));
    }
    // "Boil the syrup; you should have …", also a sentence before.
    let before = step.sentences[..nth.map_or(0, |nth| nth + 1)].iter().rev();
    let near: Vec<String> = before.take(2).map(|sentence| words_of(text, sentence)).collect();
    let makes = |words: &String| MADE.iter().any(|verb| words.starts_with(verb));
    let made = near
        .iter()
        .filter(|words| makes(words))
        .find_map(|words| all.clone().find(|part| is_made_in(words, manuscript, *part)));
    if made.is_some() {
        return made;
    }
    // The part that the step works on, where it was at it by then: "puree until smooth" may name a line of another.
    let mut before = step.uses.iter().rev().filter(|taken| taken.place.start < at).map(|taken| taken.component);
    let nearest = before.clone().find(|part| Some(*part) == step.component).or_else(|| before.next());
    let part = nearest.or(step.component).or_else(|| (manuscript.components.len() == 1).then_some(0))?;
    is_all_in(manuscript, part, at).then_some(part)
}

/// Whether all of a component is in what is weighed at a byte: nothing of it is first used later, and what was used is more
/// than one food of several.
fn is_all_in(manuscript: &Manuscript, part: usize, at: usize) -> bool {
    let first = &manuscript.first_uses[part];
    let used = first.iter().flatten().filter(|first| **first < at).count();
    let later = first.iter().flatten().any(|first| *first > at);
    !later && (used != 1 || first.len() <= 2)
}

/// Components whose headings are looked for; no recipe has so many, and a hostile text must not be slow.
const MOST_COMPONENTS: usize = 100;

/// Weights that are looked at for each component, for the same reason.
const MOST_WEIGHTS: usize = 100;

/// What begins a sentence that makes a part.
const MADE: &[&str] = &[
    "boil", "simmer", "cook", "reduce", "make", "mix", "knead", "strain", "roast", "stew", "melt", "warm", "heat",
    "stir",
];
/// What begins a sentence that cooks one.
const COOKED: &[&str] = &["boil", "simmer", "cook", "reduce", "roast", "stew"];

/// Whether a sentence in small letters has the component for its object: "boil the syrup", "reduce the syrup by half".
fn is_made_in(words: &str, manuscript: &Manuscript, part: usize) -> bool {
    let Some(name) = heading(manuscript, part) else { return false };
    let clause = &words[..words.find([';', ',', ':', '.']).unwrap_or(words.len())];
    let clause = clause.split(" with ").next().unwrap_or(clause);
    let object = clause.split_whitespace().skip(1).take(4).collect::<Vec<_>>().join(" ");
    has_any(&object, &[&name])
        && manuscript.components[part].lines.iter().all(|line| !has_any(&line.text.to_lowercase(), &[&name]))
}

/// What sentences call a component.
fn heading(manuscript: &Manuscript, part: usize) -> Option<String> {
    last_word(manuscript.components[part].name.as_deref()?)
}

fn words_of(text: &str, sentence: &std::ops::Range<usize>) -> String {
    text.get(sentence.clone()).unwrap_or_default().to_lowercase()
}

/// Whether a sentence in small letters tells what something weighs when it is baked: "Each loaf weighs about 425 g baked".
pub fn is_baked(words: &str) -> bool {
    has_any(words, &["weigh", "weight", "weighing"])
        && has_any(
            words,
            &[
                "baked",
                "after baking",
                "out of the oven",
                "from the oven",
                "when cool",
                "once cool",
                "when cold",
                "cooled",
            ],
        )
        && !has_any(words, &["unbaked", "before baking", "baked weight of", "baking powder"])
}

/// How far a weight in the text may lie beyond the range of its lines, as a factor, and still be believed before them: up
/// to one and a half times the highest, down to two thirds of the lowest. A spoon more or less, or a cup filled by another
/// hand, is within it; beyond it the sentence speaks of something else, or a number slipped. Common practice, no source.
const BELIEVED_WITHIN: f64 = 1.5;

/// Whether a weight in the text can be that of a component whose lines come to `summed`. What was cooked may have lost any
/// part of it and gained little.
pub fn is_believed(said: &Estimate, summed: &Estimate, is_cooked: bool) -> bool {
    let (said, summed) = (said.range(), summed.range());
    let not_too_much = said.low() <= summed.high() * BELIEVED_WITHIN;
    not_too_much && (is_cooked || said.high() >= summed.low() / BELIEVED_WITHIN)
}

/// Puts what the author weighed in place of the sum of a component's lines, and asks when the two are far apart. Where they
/// are too far apart to be of one thing, the lines are kept.
///
/// What was cooked weighs less than what went in, so that its weight says nothing of the raw sum and leaves it alone.
///
/// A weight that is rather that of the component with parts made before it ("Add everything for the dough", the sponge too)
/// is left alone; `before` are the grams of those.
pub fn put_over(
    text: &str,
    manuscript: &Manuscript,
    component: usize,
    before: &[f64],
    total: &mut Total,
) -> Option<Query> {
    let ready = ready(text, manuscript, component)?;
    let (said, summed) = (ready.grams.range(), total.grams.range());
    let cooked = is_cooked(text, manuscript, component);
    let apart = said.low() > summed.high() || said.high() < summed.low();
    let with = |more: f64| said.high() >= summed.low() + more && said.low() <= summed.high() + more;
    if apart && (before.iter().any(|one| with(*one)) || with(before.iter().sum())) {
        return None;
    }
    if cooked && said.low() <= summed.high() {
        return None;
    }
    let words = format!(
        "The text says {:.0} g, its lines come to {:.0} g ({:.0} to {:.0})",
        said.best(),
        summed.best(),
        summed.low(),
        summed.high()
    );
    let is_put = !cooked && total.unweighed.is_empty() && is_believed(&ready.grams, &total.grams, cooked);
    if is_put {
        total.grams = ready.grams;
    }
    apart.then(|| {
        let taken = if is_put { "the text was taken" } else { "the lines were taken" };
        Query::new(
            &MEASURED_DIFFERS,
            ready.place,
            format!("{words}; {taken}."),
            "Weigh it once more, or look for a line whose amount is wrong.",
        )
    })
}

#[cfg(test)]
mod tests {
    use evencrumb_pantry::Pantry;
    use evencrumb_pantry::weigh::Kitchen;

    use crate::{Sheet, sheet};

    fn read(text: &str) -> Sheet {
        let pantry = Pantry::ours();
        sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default())
    }

    fn raw_and_ready(text: &str) -> (f64, f64) {
        let sheet = read(text);
        (sheet.total.grams.best().round(), sheet.ready(&sheet.total).grams.best().round())
    }

    fn asked(text: &str) -> Vec<String> {
        let names = read(text).queries.into_iter().map(|placed| placed.query.kind.name.to_owned());
        names.filter(|name| name.ends_with("differs")).collect()
    }

    /// Worked by hand: of 300 g of syrup 200 g stay, so that 60 g and 40 g are half of it.
    #[test]
    fn ok_a_weight_is_of_the_part_that_its_sentence_makes() {
        let text = "Layer Cake\n\nServes 12\n\nSyrup\n150 g sugar\n150 g water\n\nCake\n220 g flour\n180 g sugar\n150 g egg\n60 g syrup, from above\n\nCream\n400 g mascarpone\n40 g syrup\n\nBoil the syrup; you should have about 200 g. Mix the cake and bake. Whip the mascarpone with the syrup. Discard the rest of the syrup.\n";
        let sheet = read(text);
        let grams: Vec<f64> = sheet.components.iter().map(|part| part.total.grams.best().round()).collect();
        assert_eq!(grams, [300.0, 610.0, 440.0]);
        assert!((sheet.components[0].in_batch - 0.5).abs() < 1e-6, "{}", sheet.components[0].in_batch);
    }

    const BREAD: &str = "Pumpkin Bread\n\nMakes 2 loaves\n\n300 g flour\n200 g sugar\n100 g egg\n100 g oil\n300 g water\n\nMix and bake.";

    #[test]
    fn ok_a_baked_weight_is_held_against_what_is_baked() {
        for said in
            ["The baked loaf weighs 450 g.", "Each loaf weighs about 450 g baked.", "It weighs 900 g when baked."]
        {
            let text = format!("{BREAD} {said}\n");
            assert_eq!(raw_and_ready(&text), (1000.0, 900.0), "{said}");
            assert!(asked(&text).is_empty(), "{said} {:?}", asked(&text));
        }
        for said in
            ["The baked loaf weighs 250 g.", "Each loaf weighs about 250 g baked.", "It weighs 500 g when baked."]
        {
            assert_eq!(asked(&format!("{BREAD} {said}\n")), ["yield-weight-differs"], "{said}");
        }
    }

    /// Eight pieces of the 705 g weigh 88 g each, wherever the sentence says "each".
    #[test]
    fn ok_the_weight_of_each_piece_is_that_of_raw_dough_and_not_of_all() {
        let text = |said: &str| {
            format!(
                "Bagels\n\nMakes 8 bagels\n\nDough\n450 g bread flour\n240 g water\n10 g salt\n5 g instant yeast\n\nMethod\n1. Knead the flour, water, salt and yeast.\n2. {said}\n3. Bake 20 minutes at 220C on a baking sheet.\n"
            )
        };
        let plain = raw_and_ready(&text("Divide the dough into 8."));
        for said in [
            "Divide the dough into 8; each should weigh about 88 g.",
            "Divide the dough into 8 pieces, about 88 g each.",
            "Divide the dough into 8. Each piece of dough weighs about 88 g.",
            "Divide into 8 bagels. Each weighs about 88 g.",
            "Cut the dough in 8; every bagel of the dough weighs 88 g.",
        ] {
            assert_eq!(raw_and_ready(&text(said)), plain, "{said}");
            assert!(asked(&text(said)).is_empty(), "{said} {:?}", asked(&text(said)));
        }
        let off = text("Divide the dough into 8; each should weigh about 130 g.");
        assert_eq!((raw_and_ready(&off), asked(&off)), (plain, vec!["batter-weight-differs".to_owned()]));
    }

    #[test]
    fn ok_the_weight_of_one_food_is_not_that_of_all() {
        let text = |method: &str| {
            format!(
                "Apple Cake\n\n1 kg apples\n250 g butter\n300 g flour\n200 g sugar\n\nMethod\n1. {method}\n2. Stir the flour and sugar into it and bake 30 minutes in a 9-inch square pan.\n"
            )
        };
        let plain = raw_and_ready(&text("Melt the butter and peel the apples."));
        for method in [
            "Brown the butter; you should have about 200 g. Peel the apples.",
            "Peel and core the apples; you should have about 750 g. Melt the butter.",
            "Peel the apples. You should have about 750 g. Melt the butter.",
        ] {
            assert_eq!(raw_and_ready(&text(method)), plain, "{method}");
            assert!(asked(&text(method)).is_empty(), "{method} {:?}", asked(&text(method)));
        }
    }

    #[test]
    fn ok_a_jam_that_should_weigh_so_much() {
        let text = "Onion Jam\n\nServes 6\n\nJam\n1 kg peeled onions, sliced\n50 g butter\n\nCook the onions in the butter for an hour. The jam should weigh about 350 g.\n";
        assert_eq!(raw_and_ready(text), (1050.0, 350.0));
    }

    #[test]
    fn ok_a_dough_that_is_weighed_with_the_sponge_in_it() {
        let text = |grams: u32| {
            format!(
                "Plait\n\nSponge\n100 g bread flour\n120 g milk\n\nDough\n400 g bread flour\n60 g sugar\n100 g egg\n80 g butter\n\nTo glaze\n30 g egg white\n\nMethod\nMix the sponge and leave 45 minutes. Add everything for the dough and knead. The dough should weigh about {grams} g. Brush with the egg white and bake 30 minutes.\n"
            )
        };
        assert_eq!(raw_and_ready(&text(860)), (890.0, 801.0));
        assert!(asked(&text(860)).is_empty(), "{:?}", asked(&text(860)));
        assert!(asked(&text(1300)).contains(&"measured-differs".to_owned()));
    }
}
