//! Weights that the author gives for what comes out: "Makes 4 jars (250 g each)", "it makes about 900 g".

use std::ops::Range as Bytes;

use evencrumb_manuscript::{FactKind, Manuscript, Query, QueryKind, Weight};
use evencrumb_measure::{Estimate, Influence, Range, Unit};

use crate::fit::has_any;
use crate::measured;
use crate::place::Lines;
use crate::sheet::{Placed, Sheet};

/// What is said to come out weighs something else than what the ingredients make.
pub static YIELD_WEIGHT_DIFFERS: QueryKind = QueryKind { name: "yield-weight-differs", weight: Weight::Look };

/// How far a weight that is told in passing may lie off: "about". Common practice, no source.
const ABOUT: f64 = 0.05;

/// A weight of the text.
struct Said {
    /// Grams, at least.
    low: f64,
    /// Grams, at most.
    high: f64,
    /// Whether it is that of one of several.
    each: bool,
    /// Bytes of the manuscript.
    place: Bytes<usize>,
}

/// Asks of a sheet whose total and oven loss are known.
pub(crate) fn put(sheet: &mut Sheet, text: &str, manuscript: &Manuscript) {
    let ready = sheet.ready(&sheet.total).grams;
    if ready.best() <= 0.0 || !sheet.total.unweighed.is_empty() {
        return;
    }
    let count = sheet.pieces().or_else(|| sheet.servings());
    let one = count.as_ref().map(|count| ready.product(&count.inverse()));
    let state = if sheet.kept.is_some() { " as it leaves the heat" } else { "" };
    let lines = Lines::of(text);
    for said in said(text, manuscript) {
        let near = |ours: &Estimate| {
            let ours = ours.range();
            said.high * (1.0 + ABOUT) >= ours.low() && said.low * (1.0 - ABOUT) <= ours.high()
        };
        // "Makes 4 jars (250 g)" may mean one of them.
        let fits = one.as_ref().is_some_and(near) || !said.each && near(&ready);
        let Some(ours) = if said.each { one.as_ref() } else { Some(&ready) }.filter(|_| !fits) else { continue };
        let range = ours.range();
        let (line, column) = lines.position(said.place.start);
        let message = format!(
            "“{}”{} is written; the ingredients make {:.0} g ({:.0} to {:.0}){state}.",
            text.get(said.place.clone()).unwrap_or_default(),
            if said.each { " each" } else { "" },
            range.best(),
            range.low(),
            range.high()
        );
        let mend = "Weigh what comes out once more, or look for a line whose amount is wrong.";
        let query = Query::new(&YIELD_WEIGHT_DIFFERS, said.place, message, mend);
        sheet.queries.push(Placed { query, line, column });
    }
    sheet.queries.sort_by_key(|placed| (placed.query.place.start, placed.query.kind.weight));
}

/// Grams of all that comes out, as the author says, where it is of less than `raw` grams: jam that boils down.
pub(crate) fn ready(sheet: &Sheet, text: &str, manuscript: &Manuscript, raw: f64) -> Option<Estimate> {
    let count = sheet.pieces().or_else(|| sheet.servings()).map_or(1.0, |count| count.best());
    let whole = |said: &Said| {
        let times = if said.each { count } else { 1.0 };
        let (low, high) = (said.low * times, said.high * times);
        Range::new(low * (1.0 - ABOUT), f64::midpoint(low, high), high * (1.0 + ABOUT))
    };
    // A tenth of it is no batch boiled down, but one jar of many.
    let sound = |range: &Range| range.best() < raw && range.best() > LEAST_LEFT * raw;
    let range = said(text, manuscript).iter().filter_map(whole).find(sound)?;
    Some(Estimate::of(range, Influence::named("what the author says comes out")))
}

/// The least that boiling down leaves of the weight. Common practice, no source.
const LEAST_LEFT: f64 = 0.3;

/// What is said to come out, in rows of the yield and in sentences that speak of it.
fn said(text: &str, manuscript: &Manuscript) -> Vec<Said> {
    let yields = manuscript.facts.iter().filter(|fact| fact.kind == FactKind::Yield || fact.makes.is_some());
    let mut found: Vec<Said> = yields.filter_map(|fact| weight(text, fact.place.clone())).collect();
    for sentence in manuscript.steps.iter().flat_map(|step| &step.sentences) {
        let words = text.get(sentence.clone()).unwrap_or_default().to_lowercase();
        // Only what comes out last: a part has its weight compared with its own lines.
        let last = manuscript.steps.last().is_some_and(|step| step.place.contains(&sentence.start));
        let known = || manuscript.measured.iter().any(|measured| sentence.contains(&measured.place.start));
        if last && has_any(&words, &["you get", "it makes", "this makes", "you will get"]) && !known() {
            found.extend(weight(text, sentence.clone()));
        }
        // "Each loaf weighs about 425 g baked", "It weighs 850 g when baked".
        let it = ["each", "every", "it", "they", "the baked", "the loaf", "the loaves", "the cake", "the bread"];
        if measured::is_baked(&words) && it.iter().any(|it| has_any(&words, &[it])) {
            let each = has_any(&words, &["each", "every"]);
            found.extend(weight(text, sentence.clone()).map(|said| Said { each: each || said.each, ..said }));
        }
    }
    found
}

/// Grams of the first weight in some bytes of the text, lowest and highest.
pub(crate) fn grams(text: &str, within: Bytes<usize>) -> Option<(f64, f64)> {
    weight(text, within).map(|said| (said.low, said.high))
}

/// The first weight in some bytes of the text: "250 g each", "200-220g". A "2-pound loaf" and a "900 g tin" are sizes.
fn weight(text: &str, within: Bytes<usize>) -> Option<Said> {
    let written = text.get(within.clone())?;
    let mut before: Option<(f64, usize)> = None;
    let mut at = 0;
    while let Some(digit) = written[at..].find(|c: char| c.is_ascii_digit()).map(|found| found + at) {
        let rest = &written[digit..];
        let end = digit + rest.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rest.len());
        at = end;
        let Ok(number) = written[digit..end].trim_end_matches('.').parse::<f64>() else { continue };
        let behind = written[end..].trim_start_matches([' ', '\u{a0}']);
        let word = &behind[..behind.find(|c: char| !c.is_alphabetic()).unwrap_or(behind.len())];
        let grams = Unit::written(word).and_then(Unit::grams);
        let Some(grams) = grams else {
            before = ["-", "–", "to"].iter().any(|sign| behind.starts_with(sign)).then_some((number, digit));
            continue;
        };
        let after = behind[word.len()..].trim_start().to_lowercase();
        let is_size =
            ["tin", "pan", "loaf tin", "loaf pan", "jar", "dish", "-"].iter().any(|size| after.starts_with(size));
        if is_size {
            continue;
        }
        let (low, start) = before.filter(|(low, _)| *low < number).unwrap_or((number, digit));
        let stop = written.len() - behind.len() + word.len();
        let each = ["each", "apiece", "per "].iter().any(|each| after.starts_with(each));
        let place = within.start + start..within.start + stop;
        return Some(Said { low: low * grams, high: number * grams, each, place });
    }
    None
}

#[cfg(test)]
mod tests {
    use evencrumb_pantry::Pantry;
    use evencrumb_pantry::weigh::Kitchen;

    use super::*;

    /// What is asked of 1,000 g that meet no heat.
    fn asked(makes: &str, last: &str) -> Vec<String> {
        let text = format!(
            "Spread\n\n{makes}\n\n600 g sugar\n400 g cream\n\nMethod\n1. Stir the sugar into the cream. {last}\n"
        );
        let sheet =
            crate::sheet(&text, &evencrumb_manuscript::read(&text, Pantry::ours()), Pantry::ours(), Kitchen::default());
        let asked = sheet.queries.iter().filter(|placed| placed.query.kind.name == YIELD_WEIGHT_DIFFERS.name);
        asked.map(|placed| placed.query.message.chars().take(12).collect()).collect()
    }

    #[test]
    fn ok_weights_that_agree() {
        assert!(asked("Makes 4 jars (250 g each)", "").is_empty());
        assert!(asked("Makes 4 jars (about 240-260g each)", "").is_empty());
        assert!(asked("Makes 4 jars (250 g)", "").is_empty());
        assert!(asked("Makes 4 jars", "Pot: you get about 1 kg.").is_empty());
        assert!(asked("Makes one loaf in a 2-pound tin", "").is_empty());
    }

    /// 1 kg of jam out of 1,600 g: what the author says is taken, because nobody knows how far it boils.
    #[test]
    fn ok_what_boils_down_weighs_what_the_author_says() {
        let text = "Rhubarb Jam\n\nMakes 4 jars (250 g each)\n\n1 kg trimmed rhubarb\n600 g sugar\n\nMethod\n1. Boil the rhubarb and the sugar to 105C. You get about 1 kg.\n";
        let sheet =
            crate::sheet(text, &evencrumb_manuscript::read(text, Pantry::ours()), Pantry::ours(), Kitchen::default());
        assert!((sheet.ready(&sheet.total).grams.best() - 1000.0).abs() < 1e-6);
        assert!(!sheet.queries.iter().any(|placed| placed.query.kind.name == YIELD_WEIGHT_DIFFERS.name));
    }

    #[test]
    fn err_weights_that_the_ingredients_do_not_make() {
        assert_eq!(asked("Makes 4 jars (350 g each)", ""), ["“350 g” each"]);
        assert_eq!(asked("Makes 4 jars", "Pot in hot jars: you get about 700 g."), ["“700 g” is w"]);
    }
}
