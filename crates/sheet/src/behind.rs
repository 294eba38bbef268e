//! What the method leaves behind of the lines: a marinade that is poured off, coffee grounds in the sieve, the pot of water
//! that something boils in, and the oil that nothing takes up.

use std::collections::BTreeSet;

use evencrumb_manuscript::{Manuscript, Share};
use evencrumb_measure::{Estimate, Influence, Range};
use evencrumb_pantry::{Nutrient, Pantry};

use crate::fit::has_any;
use crate::line::WeighedLine;
use crate::sheet::flour_grams;
use crate::{eaten, total, yield_weight};

/// What frying takes up, of the weight of what is fried. Common practice, no source.
const TAKEN_UP: (f64, f64, f64) = (0.08, 0.115, 0.15);

/// Marks the lines of which something stays behind.
pub(crate) fn mark(text: &str, manuscript: &Manuscript, lines: &mut [Vec<WeighedLine>], pantry: &Pantry) {
    let sentences: Vec<(usize, String)> = manuscript
        .steps
        .iter()
        .flat_map(|step| &step.sentences)
        .map(|sentence| (sentence.start, text.get(sentence.clone()).unwrap_or_default().to_lowercase()))
        .collect();
    baths(manuscript, lines, pantry, &sentences);
    boiled_in(text, manuscript, lines, pantry);
    poured_off(manuscript, lines, pantry, &sentences);
    fried(text, manuscript, lines, pantry);
}

/// Lines of a heading such as "Bath", and of a "For the pot" of which nearly all is water, where something boils in it.
fn baths(manuscript: &Manuscript, lines: &mut [Vec<WeighedLine>], pantry: &Pantry, sentences: &[(usize, String)]) {
    if lines.len() < 2 {
        return;
    }
    let boils = || sentences.iter().any(|(_, words)| has_any(words, &["boil", "poach", "simmer", "drain", "dip"]));
    for (component, lines) in manuscript.components.iter().zip(lines) {
        let Some(name) = component.name.as_deref() else { continue };
        if eaten::is_bath(name) || eaten::is_pot(name) && is_water(lines, pantry) && boils() {
            for line in lines.iter_mut().filter(|line| line.read.purpose.is_none()) {
                line.read.purpose = Some("bath".to_owned());
            }
        }
    }
}

/// Whether lines are a litre of water and more, with little in it.
fn is_water(lines: &[WeighedLine], pantry: &Pantry) -> bool {
    let all = total::of(lines, pantry);
    let (grams, water) = (all.grams.best(), all.nutrient(Nutrient::Water).amount.best());
    water >= 900.0 && water > 0.9 * grams
}

/// The least water that pieces are boiled or dipped in, in grams. Common practice, no source.
const LEAST_BATH: f64 = 600.0;

/// Lines of a bath that only the method tells of: "Boil the 10 cups water with the baking soda. Dip each pretzel for 30
/// seconds." A broth in which dumplings cook is eaten, so that what is boiled must be baked or drained after it.
fn boiled_in(text: &str, manuscript: &Manuscript, lines: &mut [Vec<WeighedLine>], pantry: &Pantry) {
    let steps = manuscript.steps.iter().flat_map(|step| step.sentences.iter().map(move |sentence| (step, sentence)));
    let words = |sentence: &std::ops::Range<usize>| text.get(sentence.clone()).unwrap_or_default().to_lowercase();
    let said: Vec<_> = steps.map(|(step, sentence)| (step, sentence, words(sentence))).collect();
    let Some(dips) = said.iter().rposition(|(_, _, words)| is_dipped(words)) else { return };
    let baking = crate::fit::baking(text, manuscript);
    let leaves = baking.is_some_and(|baking| baking > said[dips].1.start)
        || said[dips..].iter().any(|(_, _, words)| has_any(words, &["drain", "drained", "lift", "slotted", "skim"]));
    let flour = flour_grams(lines.iter().flatten(), pantry);
    let grams = |line: &WeighedLine| total::eaten_grams(line, pantry).map_or(0.0, |grams| grams.best());
    // A dough never holds more water than flour; "the 10 cups water" is the line of 10 cups whatever else is water.
    let bath = said[..=dips].iter().enumerate().filter(|_| leaves).find_map(|(nth, (step, sentence, words))| {
        if !has_any(words, HEATED) || has_any(words, &["yeast", "flour"]) {
            return None;
        }
        let taken = step.uses.iter().filter(|taken| sentence.contains(&taken.place.start));
        let quoted = |share: &Share, line: &WeighedLine| match share {
            Share::Amount(amount) => line.text.to_lowercase().contains(&amount.to_lowercase()),
            _ => false,
        };
        let water = taken.filter_map(|taken| {
            let line = lines.get(taken.component)?.get(taken.line)?;
            let is_water = line.foods.len() == 1
                && line.foods[0].item.food.is_some_and(|food| pantry.food(food).name == "water")
                && line.read.purpose.is_none();
            let grams = grams(line);
            let large = grams >= LEAST_BATH && (grams > flour || quoted(&taken.share, line));
            (is_water && large).then_some((grams, (taken.component, taken.line)))
        });
        water.max_by(|one, other| one.0.total_cmp(&other.0)).map(|(_, at)| (nth, at))
    });
    let Some((first, water)) = bath else { return };
    let mut marked = BTreeSet::from([water]);
    // What goes into it is told in that sentence, or added before the pieces go in.
    for (nth, (step, sentence, words)) in said.iter().enumerate().take(dips + 1).skip(first) {
        if nth > first && (nth == dips || !has_any(words, &["add", "stir", "whisk", "dissolve", "pour", "sprinkle"])) {
            continue;
        }
        let taken: Vec<_> = step.uses.iter().filter(|taken| sentence.contains(&taken.place.start)).collect();
        for one in taken.iter().filter(|one| one.component == water.0) {
            let food = |at: usize| lines[water.0].get(at).and_then(|line| line.foods.first()?.item.food);
            let Some(of) = food(one.line).filter(|of| Some(*of) != food(water.1)) else { continue };
            // Of two lines of honey the one beside the water is meant; one that a step took before is in the dough.
            let same: Vec<usize> = (0..lines[water.0].len()).filter(|at| food(*at) == Some(of)).collect();
            let nearest = same.iter().copied().min_by_key(|at| at.abs_diff(water.1));
            let before = manuscript.first_uses.get(water.0).and_then(|lines| *lines.get(one.line)?);
            let before = before.is_some_and(|before| before < said[first].1.start);
            if nearest == Some(one.line) && !(same.len() == 1 && before) {
                marked.insert((one.component, one.line));
            }
        }
    }
    let of_bath: Vec<WeighedLine> = marked.iter().map(|(part, at)| lines[*part][*at].clone()).collect();
    let all = total::of(&of_bath, pantry);
    if all.nutrient(Nutrient::Water).amount.best() > 0.85 * all.grams.best() {
        for (part, at) in marked {
            lines[part][at].read.purpose.get_or_insert_with(|| "bath".to_owned());
        }
    }
}

/// How a bath is made ready.
const HEATED: &[&str] = &["boil", "boiling", "simmer", "simmering", "poach", "heat", "dissolve"];
/// What is boiled or dipped in one.
const PIECES: &[&str] = &[
    "bagel",
    "pretzel",
    "bialy",
    "simit",
    "knot",
    "roll",
    "bun",
    "ring",
    "stick",
    "bite",
    "piece",
    "each",
    "them",
    "few",
    "batches",
    "at a time",
    "dumpling",
    "gnocchi",
    "ravioli",
    "pierogi",
    "pasta",
    "noodle",
];

/// Whether a sentence in small letters boils pieces or dips them for a while.
fn is_dipped(words: &str) -> bool {
    let any = |wanted: &[&str]| has_any(words, wanted);
    let wet = any(&["second", "water", "bath", "boiling", "simmering", "solution", "pot", "soda", "lye"]);
    let into = any(&["dip", "dunk", "drop", "lower", "slip", "slide", "cook", "immerse", "submerge"]) && wet;
    any(PIECES) && (any(&["boil", "poach", "simmer", "blanch"]) || into)
}

/// Sentences that throw something away and are looked at; a hostile text must not be slow.
const MOST_THROWN: usize = 50;

/// Lines that a sentence throws away, and what was steeped and is strained out.
fn poured_off(manuscript: &Manuscript, lines: &mut [Vec<WeighedLine>], pantry: &Pantry, sentences: &[(usize, String)]) {
    for (_, words) in sentences.iter().filter(|(_, words)| is_thrown_away(words)).take(MOST_THROWN) {
        let called = |line: &WeighedLine| line.foods.first().map(|one| one.item.name.to_lowercase());
        let thrown =
            |line: &&mut WeighedLine| called(line).is_some_and(|name| !name.is_empty() && has_any(words, &[&name]));
        for line in lines.iter_mut().flatten().filter(|line| line.read.purpose.is_none()).filter(thrown) {
            line.read.purpose = Some("soaking".to_owned());
        }
    }
    // Whatever stands up to the end of the last sentence that strains.
    let strains = sentences.iter().rposition(|(_, words)| is_strained(words));
    let strains = strains.map(|nth| sentences.get(nth + 1).map_or(usize::MAX, |(start, _)| *start));
    for taken in manuscript.steps.iter().flat_map(|step| &step.uses) {
        let Some(line) = lines.get_mut(taken.component).and_then(|lines| lines.get_mut(taken.line)) else { continue };
        let before = strains.is_some_and(|strains| taken.place.start < strains) && line.read.purpose.is_none();
        let name = line.foods.first().and_then(|one| one.item.food).map(|food| pantry.food(food).name.as_str());
        if before && name.is_some_and(|name| STEEPED.contains(&name)) {
            line.read.purpose = Some("strained".to_owned());
        }
    }
}

/// Whether a sentence in small letters throws away the whole of what it names.
fn is_thrown_away(words: &str) -> bool {
    let away = words.contains("throw") && has_any(words, &["away"])
        || words.contains("pour") && has_any(words, &["pour away"]);
    let not_all = [
        "rest",
        "remaining",
        "excess",
        "any",
        "most",
        "some",
        "half",
        "leftover",
        "soaking",
        "shell",
        "skin",
        "peel",
        "core",
        "stone",
        "pit",
        "seed",
        "water",
        // Fat that was fried out of the meat that the sentence names.
        "fat",
        "grease",
        "dripping",
    ];
    (away || has_any(words, &["discard the", "pour off the", "drain off the"])) && !has_any(words, &not_all)
}

/// Whether a sentence strains something out of a liquid. Yogurt and curd are strained of theirs.
fn is_strained(words: &str) -> bool {
    has_any(
        words,
        &[
            "strain",
            "straining",
            "sieve out",
            "fish out",
            "lift out",
            "pick out",
            "take out the",
            "remove the",
            "discard the",
        ],
    )
}

/// What only lends its taste to a liquid and is strained out again.
const STEEPED: &[&str] = &[
    "ground coffee",
    "coffee bean",
    "tea leaf",
    "tea bag",
    "bay leaf",
    "star anise",
    "cardamom pod",
    "cinnamon stick",
    "whole clove",
    "vanilla bean",
    "lavender",
    "lemongrass",
    "black peppercorn",
];

/// How much of the frying oil is taken up: as the text says, else by the weight of what is fried; never more than there is.
fn fried(text: &str, manuscript: &Manuscript, lines: &mut [Vec<WeighedLine>], pantry: &Pantry) {
    let is_oil = |line: &WeighedLine| line.read.purpose.as_deref() == Some("frying");
    if !lines.iter().flatten().any(is_oil) {
        return;
    }
    let said = said_to_be_taken_up(text, manuscript);
    let grams = |lines: &[WeighedLine]| {
        let fried = lines.iter().filter(|line| line.read.purpose.is_none());
        fried.filter_map(|line| total::eaten_grams(line, pantry)).map(|grams| grams.best()).sum::<f64>()
    };
    let weights: Vec<f64> = lines.iter().map(|lines| grams(lines)).collect();
    let beside = |part: usize| {
        let name = manuscript.components[part].name.as_deref().unwrap_or_default().to_lowercase();
        has_any(
            &name,
            &["glaze", "icing", "sauce", "syrup", "filling", "coating", "serve", "finish", "topping", "dip", "cream"],
        )
    };
    let all: f64 = weights.iter().enumerate().filter(|(part, _)| !beside(*part)).map(|(_, grams)| grams).sum();
    for (lines, own) in lines.iter_mut().zip(weights) {
        let fried = if own > 0.0 { own } else { all };
        for line in lines.iter_mut().filter(|line| is_oil(line)) {
            let oil: f64 = line.foods.iter().filter_map(|one| one.weighed.grams.as_ref()).map(Estimate::best).sum();
            if oil <= 0.0 || said.is_none() && fried <= 0.0 {
                continue;
            }
            let (low, best, high) = TAKEN_UP;
            let [low, best, high] = match said {
                Some((low, high)) => [low, f64::midpoint(low, high), high],
                None => [low * fried, best * fried, high * fried],
            };
            let share = |grams: f64| (grams / oil).clamp(0.0, 1.0);
            let range = Range::new(share(low), share(best), share(high));
            line.taken_up = range.map(|range| Estimate::of(range, Influence::named("how much oil frying takes up")));
        }
    }
}

/// "The fritters take up about 50 g of the oil": grams, lowest and highest, a tenth about.
fn said_to_be_taken_up(text: &str, manuscript: &Manuscript) -> Option<(f64, f64)> {
    const UP: &[&str] = &["take up", "takes up", "taken up", "absorb", "absorbed", "soak up", "soaks up"];
    let sentences = manuscript.steps.iter().flat_map(|step| &step.sentences);
    sentences.into_iter().find_map(|sentence| {
        let words = text.get(sentence.clone())?.to_lowercase();
        let speaks = has_any(&words, UP) && has_any(&words, &["oil", "fat", "lard", "ghee", "butter"]);
        let (low, high) = yield_weight::grams(text, sentence.clone()).filter(|_| speaks)?;
        Some((low * 0.9, high * 1.1))
    })
}

#[cfg(test)]
mod tests {
    use evencrumb_pantry::Pantry;
    use evencrumb_pantry::weigh::Kitchen;

    use crate::sheet;

    fn grams(text: &str) -> f64 {
        let pantry = Pantry::ours();
        sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default()).total.grams.best()
    }

    /// 950 g of dough take up 11.5 % of it, 109 g, whether the pot holds one litre or three.
    #[test]
    fn ok_oil_is_taken_up_by_what_is_fried_and_not_by_the_pot() {
        let text = |oil: &str| {
            format!(
                "Doughnuts\n\n500 g bread flour\n150 g egg\n300 g milk\n{oil} sunflower oil, for frying\n\nMethod\n1. Knead and fry.\n"
            )
        };
        for oil in ["1 litre", "3 litres"] {
            assert!((grams(&text(oil)) - 950.0 * 1.115).abs() < 0.5, "{oil} {}", grams(&text(oil)));
        }
        assert!((grams(&text("20 g")) - 970.0).abs() < 0.5, "never more than there is");
        let said = text("1 litre").replace("fry.", "fry. The doughnuts take up about 50 g of the oil.");
        assert!((grams(&said) - 1000.0).abs() < 0.5, "{}", grams(&said));
    }

    #[test]
    fn ok_the_water_of_a_pot_is_poured_off() {
        let text = "Bagels\n\nDough\n500 g flour\n300 g milk\n\nFor the pot\n3 litres water\n20 g baking soda\n40 g honey\n\nMethod\n1. Knead the flour and milk.\n2. Boil them for 1 minute, drain and bake 20 min at 220C.\n";
        assert!((grams(text) - 800.0).abs() < 1e-6, "{}", grams(text));
        let stew = "Stew\n\nFor the pot\n500 g peeled carrots\n300 g water\n\nDumplings\n200 g flour\n\nMethod\n1. Boil all of it.\n";
        assert!((grams(stew) - 1000.0).abs() < 1e-6, "{}", grams(stew));
    }

    /// Found by a practitioner: a pretzel of 373 g, with the water that it was boiled in.
    #[test]
    fn ok_what_only_the_method_boils_pieces_in_is_not_eaten() {
        let pretzels = |water: &str, method: &str| {
            grams(&format!(
                "Pretzels\n\n500 g flour\n300 g water\n{water}\n\nMethod\nMix the flour and 300 g water. {method}\n"
            ))
        };
        let bath = "10 cups water\n2/3 cup baking soda";
        for method in [
            "Boil the 10 cups water with the baking soda. Dip each pretzel 30 seconds. Bake 15 minutes.",
            "Bring the 10 cups of water to a boil. Stir in the baking soda. Drop the pretzels in the boiling water. Bake 15 minutes.",
            "Bring the water to a boil and add the baking soda. Boil them one at a time for 30 seconds, then bake 12 minutes.",
        ] {
            assert!((pretzels(bath, method) - 800.0).abs() < 1e-6, "{method} {}", pretzels(bath, method));
        }
        let bagels = pretzels(
            "2 litres water\n60 g honey",
            "Boil the 2 litres water with the honey, boil the bagels 1 minute. Bake 20 minutes.",
        );
        assert!((bagels - 800.0).abs() < 1e-6, "{bagels}");
        // A pot that no line tells of leaves the water of the dough alone, and a broth is eaten.
        let unlisted = pretzels("10 g salt", "Bring a pot of water to a boil. Boil the pretzels 1 minute. Bake.");
        assert!((unlisted - 810.0).abs() < 1e-6, "{unlisted}");
        let broth = pretzels(
            "2 litres water",
            "Bring the 2 litres water to a boil. Drop each dumpling in the boiling water. Serve in bowls.",
        );
        assert!(broth > 2700.0, "{broth}");
    }

    #[test]
    fn ok_what_is_thrown_away_or_strained_out_is_not_eaten() {
        let text = |method: &str| {
            format!(
                "Wings\n\n400 g flour\n500 g buttermilk\n30 g ground coffee\n\nMethod\n1. Stir the coffee into the buttermilk. {method}\n2. Toss in the flour and bake.\n"
            )
        };
        assert!((grams(&text("Chill overnight.")) - 930.0).abs() < 1e-6);
        let away = grams(&text("Drain and throw the buttermilk away."));
        assert!((away - 430.0).abs() < 1e-6, "{away}");
        let strained = grams(&text("Chill and strain."));
        assert!(strained < 904.0 && strained > 899.0, "{strained}");
        assert!((grams(&text("Throw away the excess buttermilk.")) - 930.0).abs() < 1e-6);
    }
}
