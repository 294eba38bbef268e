//! Shares: a line in its component, a line for 100 g of flour, and water for 100 g of flour.

use evencrumb_measure::Estimate;
use evencrumb_pantry::{Nutrient, Pantry};

use super::answer::{largest_first, plain};
use super::{Misunderstood, Of, Question, Reason, What, Why};
use crate::made::Origin;
use crate::sheet::{Component, Line, Sheet, flour_grams, is_of_the_hundred};
use crate::total;

fn no_figure(said: &str, mend: String) -> Misunderstood {
    Misunderstood { said: said.to_owned(), mend }
}

/// The share or the baker's percentage of a line.
pub fn of_lines(sheet: &Sheet, question: &Question) -> Result<Why, Misunderstood> {
    let what = question.what;
    let Of::Lines(lines) = &question.of else {
        return Err(no_figure(
            "A share is asked of an ingredient line",
            format!("Say which, as “{} of line 12” or “{} of the butter”.", what.name(), what.name()),
        ));
    };
    let (mut reasons, mut without) = (Vec::new(), Vec::new());
    let mut parts = Vec::new();
    for (part, nth) in lines {
        let (component, line) = (&sheet.components[*part], &sheet.components[*part].lines[*nth]);
        match of_line(what, component, line) {
            Ok(reason) => {
                reasons.push(reason);
                parts.push(*part);
            }
            Err(wrong) => without.push(wrong),
        }
    }
    // A frosting of butter without flour has none, and the butter of the cake has.
    if let Some(wrong) = without.first().filter(|_| reasons.is_empty()) {
        return Err(wrong.clone());
    }
    let one_part = parts.iter().all(|part| Some(part) == parts.first());
    if reasons.len() > 1 && !one_part {
        let words = format!("{} in each component on its own", what.name());
        let reasons: Vec<Reason> = reasons;
        return Ok(Why::of(Reason { under: reasons, ..plain(words) }, Vec::new()));
    }
    if reasons.len() == 1 {
        return Ok(Why::of(reasons.remove(0), Vec::new()));
    }
    let value = reasons.iter().filter_map(|reason| reason.value.as_ref()).sum();
    let reason = Reason { under: reasons, ..percent(format!("{} of these lines together", what.name()), value) };
    Ok(Why::of(reason, Vec::new()))
}

fn percent(words: String, value: Estimate) -> Reason {
    Reason { value: Some(value), unit: "%".to_owned(), ..plain(words) }
}

fn of_line(what: What, component: &Component, line: &Line) -> Result<Reason, Misunderstood> {
    let hundred = what == What::BakersPercent;
    let share = if hundred { line.bakers_percent } else { line.share.map(|share| share * 100.0) };
    let name = component.name.as_deref().unwrap_or("the ingredients");
    let Some((share, eaten)) = share.zip(line.eaten.as_ref()) else {
        let why = if hundred && line.eaten.is_some() {
            format!("“{name}” holds no flour, starch or nut flour")
        } else {
            format!("line {} has no weight of its own", line.number)
        };
        return Err(no_figure(&format!("There is no {}: {why}", what.name()), "Ask of another line.".to_owned()));
    };
    let words = format!("{} of line {}: {}", what.name(), line.number, line.weighed.text.trim());
    let mut reason = percent(words, Estimate::exact(share));
    let whole = if share > 0.0 { eaten.best() * 100.0 / share } else { 0.0 };
    reason.under = vec![
        Reason { value: Some(eaten.clone()), unit: "g".to_owned(), ..plain(format!("grams of line {}", line.number)) },
        plain(if hundred {
            format!("the flours, starches and nut flours of “{name}” weigh {whole:.0} g; divided by that, times 100")
        } else {
            format!("“{name}” weighs {whole:.0} g; divided by that, times 100")
        }),
    ];
    Ok(reason)
}

/// Water for 100 g of flours and starches, with its lines: of a component, else of what goes into the pan together. What the
/// flours themselves hold is not counted.
pub fn hydration(sheet: &Sheet, question: &Question, pantry: &Pantry) -> Result<Why, Misunderstood> {
    let name = |component: &Component| component.name.clone().unwrap_or_else(|| "Ingredients".to_owned());
    let taken: Vec<usize> = match (&question.of, &sheet.fit.batter) {
        (Of::Component(part), _) => vec![*part],
        (Of::Batch, Some(batter)) => {
            let parts = sheet.components.iter().enumerate();
            parts.filter(|(_, part)| batter.parts.contains(&name(part))).map(|(at, _)| at).collect()
        }
        (Of::Batch, None) => (0..sheet.components.len()).collect(),
        _ => {
            return Err(no_figure(
                "Hydration is of a dough or batter, and not of a line",
                "Ask “hydration”, or “hydration of” a component by its name.".to_owned(),
            ));
        }
    };
    // What is made of a part that is counted already is in it.
    let made_of_taken = |line: &Line| {
        line.weighed.foods.iter().any(|one| match one.made.as_ref().map(|made| &made.origin) {
            Some(Origin::Component(part)) => taken.contains(part),
            _ => false,
        })
    };
    let lines = taken.iter().flat_map(|part| &sheet.components[*part].lines);
    let lines: Vec<&Line> = lines.filter(|line| !line.adds_nothing && !made_of_taken(line)).collect();
    let flour = flour_grams(lines.iter().map(|line| &line.weighed), pantry);
    if flour <= 0.0 {
        return Err(no_figure(
            "There is no hydration: no flour or starch with a weight was read there",
            "Ask for the water instead, as “water in the batch”.".to_owned(),
        ));
    }
    let mut sum = Reason { unit: "g".to_owned(), ..plain("water of the other lines".to_owned()) };
    let (mut water, mut unknown) = (Estimate::default(), Vec::new());
    for line in lines.iter().filter(|line| !line.weighed.foods.iter().any(|one| is_of_the_hundred(one, pantry))) {
        let total = total::of([&line.weighed], pantry);
        let held = total.nutrient(Nutrient::Water);
        unknown.extend(total.unweighed.iter().chain(&held.unknown).cloned());
        water.add(&held.amount);
        let words = format!("line {}: {}", line.number, line.weighed.text.trim());
        sum.under.push(Reason { value: Some(held.amount.clone()), unit: "g".to_owned(), ..plain(words) });
    }
    let names: Vec<String> = taken.iter().map(|part| format!("“{}”", name(&sheet.components[*part]))).collect();
    let of = if names.len() == sheet.components.len() { "all of it".to_owned() } else { names.join(", ") };
    let words = format!("hydration of {of}: water for 100 g of flours and starches");
    let mut reason = percent(words, water.times(100.0 / flour));
    let divided = format!(
        "the flours, starches and nut flours weigh {flour:.0} g; divided by that, times 100; the water in them is not counted"
    );
    sum.value = Some(water);
    sum.under = largest_first(sum.under);
    reason.under = vec![plain(divided), sum];
    Ok(Why::of(reason, unknown))
}
