//! The walk back through a sheet.

use std::cell::Cell;

use evencrumb_measure::{Estimate, Source};
use evencrumb_pantry::contents::{self, Origin};
use evencrumb_pantry::{Nutrient, Pantry};

use super::question::refused;
use super::{Misunderstood, Of, Question, Reason, What, Why};
use crate::composition;
use crate::eaten;
use crate::line::{WeighedItem, WeighedLine};
use crate::made;
use crate::sheet::{Component, Line, Sheet, is_taken_here};
use crate::total::{self, Total};

/// How deep made things may hold made things before the walk ends.
const DEEPEST: usize = 4;

/// Most lines that are walked once more for those that take of their part: a thousand lines that each take of a part of a
/// thousand lines would be a million, and nobody reads further.
const MOST_LINES_AGAIN: usize = 4_000;

pub fn answer(sheet: &Sheet, question: &Question, pantry: &Pantry) -> Result<Why, Misunderstood> {
    let walk = Walk { sheet, what: question.what, pantry, lines_again: Cell::new(MOST_LINES_AGAIN) };
    let raw = &sheet.total;
    let ready = sheet.ready(raw);
    let (mut figure, of) = match &question.of {
        Of::Batch => (walk.batch(&ready), raw),
        Of::RawBatch => {
            let mut reason = walk.reason(format!("{} in the batch, raw", walk.what.name()), walk.of(raw));
            reason.under = walk.lines_of_batch();
            (reason, raw)
        }
        Of::Weighing { grams, raw: before } => {
            let total = if *before { raw } else { &ready };
            let whole = total.grams.best();
            if whole <= 0.0 {
                return Err(nothing(&format!("{grams} g of it"), "nothing in it has a weight"));
            }
            let under = if *before { walk.lines_of_batch() } else { vec![walk.batch(&ready)] };
            let value = walk.of(total).times(grams.value() / whole);
            let state = if *before { "raw" } else { "as it is eaten" };
            let mut reason = walk.reason(format!("{} in {} g {state}", walk.what.name(), number(grams.value())), value);
            reason.under.push(plain(format!(
                "the batch weighs {whole:.0} g {state}; divided by that, times {}",
                number(grams.value())
            )));
            reason.under.extend(under);
            (reason, raw)
        }
        Of::Component(part) => {
            let component = &sheet.components[*part];
            (walk.component(component, &Estimate::exact(1.0), DEEPEST), &component.total)
        }
        Of::Lines(lines) => {
            let mut reasons: Vec<Reason> = lines
                .iter()
                .map(|(part, nth)| walk.line(&sheet.components[*part].lines[*nth], &Estimate::exact(1.0), DEEPEST))
                .collect();
            if reasons.len() == 1 {
                let mut reason = reasons.remove(0);
                walk.explain(&mut reason);
                return Ok(Why::of(reason, Vec::new()));
            }
            let value = reasons.iter().filter_map(|reason| reason.value.as_ref()).sum();
            let mut reason = walk.reason(format!("{} in these lines together", walk.what.name()), value);
            reason.under = reasons;
            walk.explain(&mut reason);
            return Ok(Why::of(reason, Vec::new()));
        }
    };
    walk.explain(&mut figure);
    let unknown = match question.what.nutrient() {
        Some((nutrient, _)) => of.unweighed.iter().chain(&of.nutrient(nutrient).unknown).cloned().collect(),
        _ => of.unweighed.clone(),
    };
    Ok(Why::of(figure, unknown))
}

pub(super) fn nothing(what: &str, why: &str) -> Misunderstood {
    refused(
        format!("There is no figure for {what}: {why}"),
        "Say it near the top of the manuscript, as “Makes 24 cookies, serves 12”.",
    )
}

pub(super) fn plain(words: String) -> Reason {
    Reason { words, value: None, unit: String::new(), source: None, under: Vec::new() }
}

/// What a component is called in a sentence.
pub(super) fn called(component: &Component) -> &str {
    component.name.as_deref().unwrap_or("the ingredients")
}

struct Walk<'w> {
    sheet: &'w Sheet,
    what: What,
    pantry: &'w Pantry,
    /// How many lines of parts that other parts take of are still walked.
    lines_again: Cell<usize>,
}

impl Walk<'_> {
    fn reason(&self, words: String, value: Estimate) -> Reason {
        Reason { words, value: Some(value), unit: self.what.unit().to_owned(), source: None, under: Vec::new() }
    }

    /// Says how the figure follows from the nutrient that the rows give, where it is another.
    fn explain(&self, reason: &mut Reason) {
        let words = match self.what {
            What::Salt => {
                "salt is counted as on labels of the EU and the UK, as 2.5 times the sodium, whatever it comes from; for the salt that is put in ask “grams of salt”"
            }
            What::Kilojoules => {
                "a kilocalorie is 4.184 kilojoules; a label that computes both from fat, carbohydrate and protein may differ by a few"
            }
            _ => return,
        };
        reason.under.insert(0, plain(words.to_owned()));
    }

    /// The figure in a sum.
    fn of(&self, total: &Total) -> Estimate {
        match self.what.nutrient() {
            Some((nutrient, times)) => total.nutrient(nutrient).amount.times(times),
            None => total.grams.clone(),
        }
    }

    fn batch(&self, ready: &Total) -> Reason {
        let mut reason = self.reason(format!("{} in the batch", self.what.name()), self.of(ready));
        if let Some(kept) = &self.sheet.kept {
            let touched = matches!(self.what, What::Grams | What::Nutrient(Nutrient::Water));
            if touched {
                let range = kept.share.range();
                reason.under.push(Reason {
                    source: Source::by_id("common-practice"),
                    ..plain(format!(
                        "{}: {:.0} % of the raw weight stay ({:.0} to {:.0} %)",
                        kept.why.join("; "),
                        range.best() * 100.0,
                        range.low() * 100.0,
                        range.high() * 100.0
                    ))
                });
            }
        }
        reason.under.extend(self.lines_of_batch());
        reason
    }

    /// Every component's part of the batch; the lines themselves where there is but one.
    fn lines_of_batch(&self) -> Vec<Reason> {
        match &self.sheet.components[..] {
            [one] => self.lines(one, &Estimate::exact(one.in_batch), DEEPEST),
            parts => largest_first(parts.iter().map(|part| self.part_of_batch(part)).collect()),
        }
    }

    /// What a component brings to the batch. What its lines take of another is counted there, so that the rows add up to
    /// the batch.
    fn part_of_batch(&self, component: &Component) -> Reason {
        let share = Estimate::exact(component.in_batch);
        let takes = |line: &Line| is_taken_here(&line.weighed);
        if !component.lines.iter().any(takes) {
            return self.component(component, &share, DEEPEST);
        }
        let own = component.lines.iter().filter(|line| !line.adds_nothing && !takes(line)).map(|line| &line.weighed);
        let value = self.of(&total::of(own, self.pantry)).product(&share);
        let name = component.name.as_deref().unwrap_or("the ingredients");
        let mut reason = self.reason(format!("{} in the other lines of “{name}”", self.what.name()), value);
        let line = |line: &Line| {
            let made = line.weighed.foods.iter().find_map(|one| one.made.as_ref());
            match made.filter(|_| takes(line)) {
                Some(made) => {
                    plain(format!("line {}: {} (counted under “{}”)", line.number, line.weighed.text.trim(), made.name))
                }
                None => self.line(line, &share, DEEPEST),
            }
        };
        reason.under = largest_first(component.lines.iter().map(line).collect());
        reason
    }

    fn component(&self, component: &Component, share: &Estimate, depth: usize) -> Reason {
        let name = called(component);
        let value = self.of(&component.total).product(share);
        let mut reason = self.reason(format!("{} in “{name}”", self.what.name()), value);
        reason.under = self.lines(component, share, depth);
        reason
    }

    fn lines(&self, component: &Component, share: &Estimate, depth: usize) -> Vec<Reason> {
        largest_first(component.lines.iter().map(|line| self.line(line, share, depth)).collect())
    }

    /// What a line brings, times a share.
    fn line(&self, line: &Line, share: &Estimate, depth: usize) -> Reason {
        let words = format!("line {}: {}", line.number, line.weighed.text.trim());
        if line.adds_nothing {
            return plain(format!("{words} (counted where it was listed before)"));
        }
        let total = total::of([&line.weighed], self.pantry);
        let mut reason = self.reason(words, self.of(&total).product(share));
        for one in &line.weighed.foods {
            reason.under.extend(self.food(&line.weighed, one, depth));
        }
        reason
    }

    /// What a food of a line leans on.
    fn food(&self, line: &WeighedLine, one: &WeighedItem, depth: usize) -> Vec<Reason> {
        let mut under = Vec::new();
        if let Some(made) = &one.made {
            under.push(self.made(made, depth));
            return under;
        }
        let grams = one.weighed.grams.clone();
        let name = one.item.food.map_or(one.item.name.as_str(), |food| self.pantry.food(food).name.as_str());
        let mut weight = Reason { value: grams, unit: "g".to_owned(), ..plain(format!("weight of {name}")) };
        if weight.value.is_none() {
            weight.words = format!("{name} has no weight here; it adds nothing, and the sum is a least");
        }
        weight.under.extend(
            one.weighed.basis.iter().map(|basis| Reason { source: Some(basis.source), ..plain(basis.words.clone()) }),
        );
        under.push(weight);
        if let Some((_, why)) = eaten::share(line, &one.item, self.pantry) {
            under.push(plain(why));
        }
        if let Some(left) = &line.fat_left {
            let (low, high) = (100.0 - 100.0 * left.range().high(), 100.0 - 100.0 * left.range().low());
            under.push(Reason {
                source: Source::by_id("common-practice"),
                ..plain(format!("its fat is fried out and poured off, {low:.0} to {high:.0} % of it"))
            });
        }
        if one.here < 1.0 {
            under.push(plain(format!("{:.0} % of it is used here, the rest by a later line", one.here * 100.0)));
        }
        if let Some((nutrient, _)) = self.what.nutrient() {
            under.push(self.holds(one, nutrient));
        }
        under
    }

    fn made(&self, made: &made::Made, depth: usize) -> Reason {
        let share = made.share.clone().unwrap_or_default();
        let value = self.of(&made.total);
        let mut reason = self.reason(format!("{:.0} % of “{}”", share.best() * 100.0, made.name), value);
        match &made.origin {
            made::Origin::Component(part) if depth > 0 => {
                let component = &self.sheet.components[*part];
                match self.lines_again.get().checked_sub(component.lines.len()) {
                    Some(left) => {
                        self.lines_again.set(left);
                        reason.under = self.lines(component, &share, depth - 1);
                    }
                    None => reason.under.push(plain(format!("its lines are many; ask for “{}” by itself", made.name))),
                }
            }
            made::Origin::Component(_) => {}
            made::Origin::Manuscript { title, .. } => {
                reason.under.push(plain(format!("from the recipe “{title}”; ask there for more")));
            }
        }
        reason
    }

    /// How much of a nutrient 100 g of a food hold, and who says so.
    fn holds(&self, one: &WeighedItem, nutrient: Nutrient) -> Reason {
        let Some(food) = one.item.food.map(|id| self.pantry.food(id)) else {
            return plain(format!("{} is not known here, and so is its {}", one.item.name, nutrient.name()));
        };
        let contents = contents::contents(food, self.pantry);
        let (from, source) = match contents.map(|contents| contents.origin) {
            Some(Origin::Table(row)) => {
                (format!("row {} “{}”", row.number(), row.description()), Source::by_id("sr28"))
            }
            Some(Origin::Own(citation)) => ("its own row".to_owned(), Some(citation.source)),
            Some(Origin::Mixed(citation)) => ("mixed of its parts".to_owned(), citation.map(|it| it.source)),
            None => ("no row".to_owned(), None),
        };
        let Some(held) = contents::holds(food, nutrient, self.pantry) else {
            return plain(format!(
                "how much {} {} holds is not known ({from}); it adds nothing, and the sum is a least",
                nutrient.name(),
                food.name
            ));
        };
        let range = composition::differing(held, nutrient);
        let reckoned = held.known.in_words().map(|words| format!("; {words}")).unwrap_or_default();
        let stand_in = food.stand_in.as_ref().map(|why| format!("; a stand-in: {why}")).unwrap_or_default();
        Reason {
            source,
            ..plain(format!(
                "100 g of {} hold {} {} of {} ({} to {}), {from}{stand_in}{reckoned}",
                food.name,
                number(held.range.best()),
                nutrient.unit(),
                nutrient.name(),
                number(range.low()),
                number(range.high())
            ))
        }
    }
}

fn number(value: f64) -> String {
    evencrumb_measure::say::decimal(value, 2)
}

pub(super) fn largest_first(mut reasons: Vec<Reason>) -> Vec<Reason> {
    let size = |reason: &Reason| reason.value.as_ref().map_or(-1.0, Estimate::best);
    reasons.sort_by(|a, b| size(b).total_cmp(&size(a)));
    reasons
}
