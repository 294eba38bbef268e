//! Which steps use a line, how much of it, and what is left over.

use evencrumb_manuscript::{Manuscript, Share, line};
use evencrumb_pantry::weigh;

use crate::line::{WeighedItem, WeighedLine};
use crate::sheet::Setting;

/// What a step takes of a line.
#[derive(Clone, Debug, PartialEq)]
pub struct LineUse {
    /// The step, from 1.
    pub step: usize,
    /// The share of the line, from 0 to 1 and more; nothing when the step doesn't tell.
    pub share: Option<f64>,
}

/// What the method makes of a line.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Uses {
    /// The steps that take of it, in their order.
    pub steps: Vec<LineUse>,
    /// The share that no step takes; nothing when that can't be told. Below zero more is taken than there is.
    pub left: Option<f64>,
}

/// What the steps take of every line, by component and line.
///
/// "The sugar" is all of it where one step names it alone, and what is left where an earlier step said how much it takes.
pub fn uses(manuscript: &Manuscript, lines: &[Vec<WeighedLine>], setting: &Setting<'_>) -> Vec<Vec<Uses>> {
    let mut uses: Vec<Vec<Uses>> = lines.iter().map(|lines| vec![Uses::default(); lines.len()]).collect();
    // Which uses take all that is left then.
    let mut open: Vec<Vec<Vec<usize>>> = lines.iter().map(|lines| vec![Vec::new(); lines.len()]).collect();
    for (nth, step) in manuscript.steps.iter().enumerate() {
        for taken in &step.uses {
            let Some(line) = lines.get(taken.component).and_then(|lines| lines.get(taken.line)) else { continue };
            let of_line = &mut uses[taken.component][taken.line];
            let share = match &taken.share {
                Share::Part(part) => Some(*part),
                Share::Amount(words) | Share::Remaining(Some(words)) => share_of(words, line, setting),
                Share::All | Share::Remaining(None) | Share::Reserved => {
                    open[taken.component][taken.line].push(of_line.steps.len());
                    None
                }
            };
            of_line.steps.push(LineUse { step: nth + 1, share });
        }
    }
    for (uses, open) in uses.iter_mut().flatten().zip(open.iter().flatten()) {
        settle(uses, open);
    }
    uses
}

/// Gives what is left to the one use that takes it.
fn settle(uses: &mut Uses, open: &[usize]) {
    let known = uses.steps.iter().filter_map(|one| one.share).sum::<f64>();
    let unknown = uses.steps.iter().filter(|one| one.share.is_none()).count();
    match (unknown, open) {
        (0, _) => uses.left = Some(if uses.steps.is_empty() { 1.0 } else { 1.0 - known }),
        (1, [at]) => {
            uses.steps[*at].share = Some((1.0 - known).max(0.0));
            uses.left = Some((1.0 - known).min(0.0));
        }
        _ => {}
    }
}

/// The share of a line that an amount in a step is.
fn share_of(words: &str, line: &WeighedLine, setting: &Setting<'_>) -> Option<f64> {
    let one = line.foods.first()?;
    let whole = one.weighed.grams.as_ref().map(evencrumb_measure::Estimate::best).filter(|grams| *grams > 0.0)?;
    let grams = grams_of(words, one, setting)?;
    Some(grams / whole)
}

/// What an amount in a step weighs: it is read with the line's own food and filled the same way.
fn grams_of(words: &str, one: &WeighedItem, setting: &Setting<'_>) -> Option<f64> {
    let read = line::read(&format!("{words} {}", one.item.name), setting.pantry);
    let amounts = read.foods.into_iter().next()?.amounts;
    let item = line::Item { amounts, ..one.item.clone() };
    let weighed = weigh::weigh(&item, None, setting.pantry, setting.kitchen);
    weighed.grams.map(|grams| grams.best())
}

#[cfg(test)]
mod tests {
    use evencrumb_pantry::Pantry;
    use evencrumb_pantry::weigh::Kitchen;

    use crate::sheet;

    /// Uses of the first line, as "step share", and what is left.
    fn uses(line: &str, method: &str) -> (Vec<String>, Option<f64>) {
        let pantry = Pantry::ours();
        let text = format!("Cake\n\n{line}\n200 g flour\n\nMethod\n{method}\n");
        let sheet = sheet(&text, &evencrumb_manuscript::read(&text, pantry), pantry, Kitchen::default());
        let uses = &sheet.components[0].lines[0].uses;
        let steps = uses.steps.iter().map(|one| format!("{} {:?}", one.step, one.share)).collect();
        (steps, uses.left.map(|left| (left * 1000.0).round() / 1000.0))
    }

    #[test]
    fn ok_one_step_takes_all() {
        assert_eq!(uses("1 cup sugar", "1. Beat the sugar."), (vec!["1 Some(1.0)".to_owned()], Some(0.0)));
    }

    #[test]
    fn ok_a_part_and_the_rest() {
        let (steps, left) =
            uses("1 cup sugar, divided", "1. Beat in 1/4 cup of the sugar.\n2. Sprinkle on the remaining sugar.");
        assert_eq!(steps, ["1 Some(0.25)", "2 Some(0.75)"]);
        assert_eq!(left, Some(0.0));
    }

    #[test]
    fn err_some_is_left_over_or_too_much_is_taken() {
        assert_eq!(uses("1 cup sugar", "1. Beat in 1/2 cup of the sugar.").1, Some(0.5));
        assert_eq!(
            uses("1 cup sugar", "1. Beat in 3/4 cup of the sugar.\n2. Dust with 1/2 cup of the sugar.").1,
            Some(-0.25)
        );
        assert_eq!(uses("1 cup sugar", "1. Beat the flour.").1, Some(1.0));
    }

    #[test]
    fn ok_what_cannot_be_told_is_not_told() {
        assert_eq!(uses("1 cup sugar", "1. Beat the sugar.\n2. Beat the sugar again.").1, None);
    }
}
