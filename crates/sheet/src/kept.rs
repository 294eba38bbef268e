//! What heat leaves of the weight: of what is in the pan when it bakes, and of parts that are cooked before.

use evencrumb_manuscript::{FactKind, Manuscript};
use evencrumb_measure::{Estimate, Influence, Range};

use crate::measured;
use crate::sheet::Sheet;

/// What heat leaves.
#[derive(Clone, Debug)]
pub struct Kept {
    /// The share of the raw weight of the whole batch that stays, from 0 to 1.
    pub share: Estimate,
    /// Why, in sentences without a full stop.
    pub why: Vec<String>,
}

/// Water lost in baking, as a share of the raw weight: layer cakes lose about a tenth. Common practice, no source; to be
/// replaced by the author's own weighings and by the bake.
const BAKED: (f64, f64, f64) = (0.84, 0.90, 0.95);

/// What heat leaves of a sheet whose lines are summed and whose pans are chosen; nothing when nothing meets heat.
pub(crate) fn of(sheet: &Sheet, manuscript: &Manuscript) -> Option<Kept> {
    let whole = sheet.total.grams.best();
    if whole <= 0.0 {
        return None;
    }
    let mut lost = Estimate::default();
    let mut why = Vec::new();
    let batter = sheet.fit.batter.as_ref();
    if is_baked(manuscript) {
        // What is spread on after the baking loses nothing.
        let baked = batter.map_or(whole, |batter| batter.grams.best().min(whole));
        let range = Range::new(1.0 - BAKED.2, 1.0 - BAKED.1, 1.0 - BAKED.0)?;
        lost.add(&Estimate::of(range.times(baked), Influence::named("water lost in baking")));
        let of = match batter.filter(|batter| !batter.left_out.is_empty()) {
            Some(batter) => format!("of the weight of {} as water", quoted(&batter.parts)),
            None => "of the weight as water".to_owned(),
        };
        why.push(format!("baking is taken to drive off about a tenth {of}"));
    }
    for (part, component) in sheet.components.iter().enumerate() {
        let name = component.name.as_deref().unwrap_or("Ingredients");
        let in_the_pan = batter.is_some_and(|batter| batter.parts.iter().any(|taken| taken == name));
        let ready = measured::ready(manuscript, part).filter(|_| measured::is_cooked(manuscript, part) && !in_the_pan);
        let Some(ready) = ready.and_then(|ready| ready.grams) else { continue };
        let gone = (component.total.grams.best() - ready.best()) * component.in_batch;
        if gone > 0.0 {
            lost.add(&Estimate::exact(gone));
            why.push(format!("“{name}” loses {gone:.0} g in cooking, by the weight that the text gives"));
        }
    }
    let share = lost.times(1.0 / whole);
    let range = share.range();
    let kept = Range::new((1.0 - range.high()).max(0.0), 1.0 - range.best(), 1.0 - range.low())?;
    (!why.is_empty()).then(|| Kept { share: Estimate::of(kept, Influence::named("water lost in the heat")), why })
}

fn is_baked(manuscript: &Manuscript) -> bool {
    manuscript.oven().is_some() || manuscript.facts.iter().any(|fact| fact.kind == FactKind::BakeTime)
}

fn quoted(names: &[String]) -> String {
    names.iter().map(|name| format!("“{name}”")).collect::<Vec<_>>().join(" and ")
}

#[cfg(test)]
mod tests {
    use evencrumb_pantry::Pantry;
    use evencrumb_pantry::weigh::Kitchen;

    use crate::sheet;

    fn ready(text: &str) -> f64 {
        let pantry = Pantry::ours();
        let sheet = sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default());
        sheet.ready(&sheet.total).grams.best()
    }

    #[test]
    fn ok_a_frosting_loses_nothing_in_the_oven() {
        let text = "Cake\n\nPan: 8-inch round pan\nOven: 350°F\n\nCake\n200 g flour\n200 g sugar\n\nFrosting\n100 g butter\n100 g powdered sugar\n\nMethod\n1. Mix the flour and the sugar and bake for 20 minutes.\n2. Beat the butter with the powdered sugar and spread it over.\n";
        assert!((ready(text) - 560.0).abs() < 1.0, "{}", ready(text));
    }

    #[test]
    fn ok_a_part_cooked_down_to_a_weight_that_the_text_gives() {
        let text = "Jam Cream\n\nFor the berry jam\n300 g raspberries\n100 g sugar\n\nFor the cream\n200 g heavy cream\n\nMethod\n1. Simmer the raspberries with the sugar. You should have about 1 cup (250 g).\n2. Whip the cream and fold in the jam.\n";
        assert!((ready(text) - 450.0).abs() < 6.0, "{}", ready(text));
    }

    #[test]
    fn ok_what_meets_no_heat_keeps_all() {
        assert!((ready("Bars\n\n100 g oats\n100 g honey\n\nMethod\n1. Stir and chill.\n") - 200.0).abs() < 1e-9);
    }
}
