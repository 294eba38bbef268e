//! Shares: a line in its component, a line for 100 g of flour, and water for 100 g of flour.

use evencrumb_measure::Estimate;
use evencrumb_pantry::{Nutrient, Pantry};

use super::answer::{largest_first, plain};
use super::{Misunderstood, Of, Question, Reason, What, Why};
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
    let mut reasons = Vec::new();
    for (part, nth) in lines {
        let (component, line) = (&sheet.components[*part], &sheet.components[*part].lines[*nth]);
        reasons.push(of_line(what, component, line)?);
    }
    let one_part = lines.iter().all(|(part, _)| Some(*part) == lines.first().map(|(first, _)| *first));
    if reasons.len() > 1 && !one_part {
        return Err(no_figure(
            "Lines of that name stand in more than one component, and a share is of one",
            format!("Ask by line, as “{} of line {}”.", what.name(), numbers(sheet, lines)),
        ));
    }
    if reasons.len() == 1 {
        return Ok(Why::of(reasons.remove(0), Vec::new()));
    }
    let value = reasons.iter().filter_map(|reason| reason.value.as_ref()).sum();
    let reason = Reason { under: reasons, ..percent(format!("{} of these lines together", what.name()), value) };
    Ok(Why::of(reason, Vec::new()))
}

fn numbers(sheet: &Sheet, lines: &[(usize, usize)]) -> String {
    let numbers: Vec<String> =
        lines.iter().map(|(part, nth)| sheet.components[*part].lines[*nth].number.to_string()).collect();
    numbers.join("” or “line ")
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

/// Water for 100 g of flours and starches, with its lines. What the flours themselves hold is not counted.
pub fn hydration(sheet: &Sheet, question: &Question, pantry: &Pantry) -> Result<Why, Misunderstood> {
    let weighed = |component: &Component| flour_grams(component.lines.iter().map(|line| &line.weighed), pantry);
    let floury: Vec<&Component> = match &question.of {
        Of::Component(part) => vec![&sheet.components[*part]],
        Of::Batch => sheet.components.iter().filter(|component| weighed(component) > 0.0).collect(),
        _ => {
            return Err(no_figure(
                "Hydration is of a dough or batter, and not of a line",
                "Ask “hydration”, or “hydration of” a component by its name.".to_owned(),
            ));
        }
    };
    let name = |component: &Component| component.name.clone().unwrap_or_else(|| "the ingredients".to_owned());
    let component = match floury.as_slice() {
        [one] if weighed(one) > 0.0 => *one,
        [] | [_] => {
            return Err(no_figure(
                "There is no hydration: no flour or starch with a weight was read there",
                "Ask for the water instead, as “water in the batch”.".to_owned(),
            ));
        }
        several => {
            let names: Vec<String> = several.iter().map(|one| format!("“hydration of {}”", name(one))).collect();
            return Err(no_figure("Flour goes into more than one component", format!("Ask {}.", names.join(" or "))));
        }
    };
    let flour = weighed(component);
    let wet = component.lines.iter().filter(|line| {
        let mut foods = line.weighed.foods.iter();
        !line.adds_nothing && !foods.any(|one| is_of_the_hundred(one, pantry))
    });
    let mut lines = Vec::new();
    let (mut water, mut unknown) = (Estimate::default(), Vec::new());
    for line in wet {
        let total = total::of([&line.weighed], pantry);
        let held = total.nutrient(Nutrient::Water);
        unknown.extend(total.unweighed.iter().chain(&held.unknown).cloned());
        water.add(&held.amount);
        let words = format!("line {}: {}", line.number, line.weighed.text.trim());
        lines.push(Reason { value: Some(held.amount.clone()), unit: "g".to_owned(), ..plain(words) });
    }
    let words = format!("hydration of “{}”: water for 100 g of flours and starches", name(component));
    let mut reason = percent(words, water.times(100.0 / flour));
    let divided = format!(
        "the flours, starches and nut flours weigh {flour:.0} g; divided by that, times 100; the water in them is not counted"
    );
    let sum = Reason {
        value: Some(water),
        unit: "g".to_owned(),
        under: largest_first(lines),
        ..plain("water of the other lines".to_owned())
    };
    reason.under = vec![plain(divided), sum];
    Ok(Why::of(reason, unknown))
}
