//! Sugars of the foods that count as added, walked back to their lines.
//!
//! What is walked is what the totals count: of a part whose rest is kept for another bake only its share, of what lines take
//! of other parts as much as they take, and in the batch each part once.

use evencrumb_measure::Estimate;
use evencrumb_pantry::row::SugarKind;
use evencrumb_pantry::{Nutrient, Pantry};

use super::answer::{largest_first, nothing, plain};
use super::{Misunderstood, Of, Question, Reason, What, Why};
use crate::line::WeighedLine;
use crate::made::Origin;
use crate::sheet::{Line, Sheet, is_taken_here};
use crate::total;

/// How deep made things may hold made things before the walk ends.
const DEEPEST: usize = 4;

/// Most lines that are walked once more for those that take of their part; a thousand lines that each take of a part of a
/// thousand lines would be a million.
const MOST_LINES_AGAIN: usize = 4_000;

pub(super) fn answer(sheet: &Sheet, question: &Question, pantry: &Pantry) -> Result<Why, Misunderstood> {
    let mut walk = Walk {
        sheet,
        pantry,
        sum: Estimate::default(),
        under: Vec::new(),
        unknown: Vec::new(),
        lines_again: MOST_LINES_AGAIN,
    };
    let whole = Estimate::exact(1.0);
    match &question.of {
        Of::Component(part) => sheet.components[*part].lines.iter().for_each(|line| walk.line(line, &whole, DEEPEST)),
        Of::Lines(lines) => {
            let lines = lines.iter().map(|(part, nth)| &sheet.components[*part].lines[*nth]);
            lines.for_each(|line| walk.line(line, &whole, DEEPEST));
        }
        _ => {
            for part in &sheet.components {
                let share = Estimate::exact(part.in_batch);
                // What a part takes of another is counted there.
                let own = part.lines.iter().filter(|line| !is_taken_here(&line.weighed));
                own.for_each(|line| walk.line(line, &share, DEEPEST));
            }
        }
    }
    let Walk { mut sum, under, unknown, .. } = walk;
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

struct Walk<'w> {
    sheet: &'w Sheet,
    pantry: &'w Pantry,
    sum: Estimate,
    under: Vec<Reason>,
    unknown: Vec<String>,
    lines_again: usize,
}

impl Walk<'_> {
    /// Adds the sugars of a share of a line; what it takes of a part is told by the part's lines.
    fn line(&mut self, line: &Line, share: &Estimate, depth: usize) {
        if line.adds_nothing {
            return;
        }
        if let Some(only) = added(&line.weighed, self.pantry) {
            let total = total::of([&only], self.pantry);
            let held = total.nutrient(Nutrient::Sugars);
            self.unknown.extend(total.unweighed.iter().chain(&held.unknown).cloned());
            let grams = held.amount.product(share);
            self.sum.add(&grams);
            let of = if share.best() < 0.995 { format!("{:.0} % of ", share.best() * 100.0) } else { String::new() };
            let words = format!("{of}line {}: {}", line.number, line.weighed.text.trim());
            self.under.push(Reason { value: Some(grams), unit: "g".to_owned(), ..plain(words) });
        }
        for made in line.weighed.foods.iter().filter_map(|one| one.made.as_deref()) {
            let part = match &made.origin {
                Origin::Component(part) => &self.sheet.components[*part],
                Origin::Manuscript { title, .. } => {
                    self.unknown.push(title.clone());
                    continue;
                }
            };
            let (taken, left) = (made.share.as_ref(), self.lines_again.checked_sub(part.lines.len()));
            let Some((taken, left)) = taken.zip(left).filter(|_| depth > 0) else {
                self.unknown.push(made.name.clone());
                continue;
            };
            self.lines_again = left;
            part.lines.iter().for_each(|line| self.line(line, &share.product(taken), depth - 1));
        }
    }
}

/// A line with nothing but its foods of added sugars; nothing where it has none.
fn added(line: &WeighedLine, pantry: &Pantry) -> Option<WeighedLine> {
    let mut only = line.clone();
    only.foods.retain(|one| {
        one.made.is_none() && one.item.food.is_some_and(|food| pantry.food(food).sugar == Some(SugarKind::Added))
    });
    (!only.foods.is_empty()).then_some(only)
}
