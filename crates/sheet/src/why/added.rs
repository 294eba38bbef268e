//! Sugars of the foods that count as added, walked back to their lines.

use evencrumb_measure::Estimate;
use evencrumb_pantry::row::SugarKind;
use evencrumb_pantry::{Nutrient, Pantry};

use super::answer::{largest_first, nothing, plain};
use super::{Misunderstood, Of, Question, Reason, What, Why};
use crate::line::WeighedLine;
use crate::sheet::{Line, Sheet};
use crate::total;

pub(super) fn answer(sheet: &Sheet, question: &Question, pantry: &Pantry) -> Result<Why, Misunderstood> {
    let all = |part: usize| (0..sheet.components[part].lines.len()).map(move |nth| (part, nth));
    let lines: Vec<(usize, usize)> = match &question.of {
        Of::Component(part) => all(*part).collect(),
        Of::Lines(lines) => lines.clone(),
        _ => (0..sheet.components.len()).flat_map(all).collect(),
    };
    let (mut sum, mut under, mut unknown) = (Estimate::default(), Vec::new(), Vec::new());
    for (part, nth) in lines {
        let line = &sheet.components[part].lines[nth];
        let Some(only) = added(line, pantry) else { continue };
        let total = total::of([&only], pantry);
        let held = total.nutrient(Nutrient::Sugars);
        unknown.extend(total.unweighed.iter().chain(&held.unknown).cloned());
        sum.add(&held.amount);
        let words = format!("line {}: {}", line.number, line.weighed.text.trim());
        under.push(Reason { value: Some(held.amount.clone()), unit: "g".to_owned(), ..plain(words) });
    }
    let made = sheet.components.iter().flat_map(|part| &part.lines).flat_map(|line| &line.weighed.foods);
    unknown.extend(made.filter_map(|one| one.made.as_ref()).filter_map(|made| match &made.origin {
        crate::made::Origin::Manuscript { title, .. } => Some(title.clone()),
        crate::made::Origin::Component(_) => None,
    }));
    let mut words =
        format!("{} in {}", What::AddedSugars.name(), if question.of == Of::Batch { "the batch" } else { "it" });
    let mut under = largest_first(under);
    if let Of::Weighing { grams, raw } = &question.of {
        let whole = if *raw { sheet.total.grams.best() } else { sheet.ready(&sheet.total).grams.best() };
        if whole <= 0.0 {
            return Err(nothing(&format!("{grams} g of it"), "nothing in it has a weight"));
        }
        sum = sum.times(grams.value() / whole);
        words = format!("{} in {grams} g", What::AddedSugars.name());
        under.insert(0, plain(format!("the batch weighs {whole:.0} g; divided by that, times {grams}")));
    }
    under.insert(
        0,
        plain("counted are the sugars of sugar, syrups, honey and foods that hold them, and not those of fruit, juice and milk; what the law of a label counts comes with a later stage".to_owned()),
    );
    Ok(Why::of(Reason { value: Some(sum), unit: "g".to_owned(), under, ..plain(words) }, unknown))
}

/// A line with nothing but its foods of added sugars; nothing where it has none.
fn added(line: &Line, pantry: &Pantry) -> Option<WeighedLine> {
    let mut only = line.weighed.clone();
    only.foods.retain(|one| {
        one.made.is_none() && one.item.food.is_some_and(|food| pantry.food(food).sugar == Some(SugarKind::Added))
    });
    (!line.adds_nothing && !only.foods.is_empty()).then_some(only)
}
