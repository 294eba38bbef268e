//! What heat leaves of the weight: of what is in the pan when it bakes, and of parts that are cooked before.

use evencrumb_manuscript::{FactKind, Manuscript};
use evencrumb_measure::{Estimate, Influence, Range};
use evencrumb_pantry::{Nutrient, Pantry};

use crate::bake_loss::{self, Bake};
use crate::fit::{self, has_any};
use crate::sheet::{Component, Sheet, flour_grams};
use crate::{measured, yield_weight};

/// What heat leaves.
#[derive(Clone, Debug)]
pub struct Kept {
    /// The share of the raw weight of the whole batch that stays, from 0 to 1.
    pub share: Estimate,
    /// Why, in sentences without a full stop.
    pub why: Vec<String>,
}

/// The driest that a bake leaves the oven, as water in 100 g of it: a crisp cracker. Common practice, no source.
const DRIEST: f64 = 0.02;

/// What heat leaves of a sheet whose lines are summed and whose pans are chosen; nothing when nothing meets heat.
pub(crate) fn of(sheet: &Sheet, text: &str, manuscript: &Manuscript, pantry: &Pantry) -> Option<Kept> {
    let whole = sheet.total.grams.best();
    if whole <= 0.0 {
        return None;
    }
    let mut lost = Estimate::default();
    let mut why = Vec::new();
    let batter = sheet.fit.batter.as_ref();
    if is_baked(text, manuscript) {
        // What is spread on after the baking loses nothing.
        let baked = batter.map_or(whole, |batter| batter.grams.best().min(whole));
        let bake = bake(sheet, manuscript, pantry)?;
        let most = most_lost(sheet);
        let lost_here = Range::new(bake.lost.low().min(most), bake.lost.best().min(most), bake.lost.high().min(most))?;
        lost.add(&Estimate::of(lost_here.times(baked), Influence::named("water lost in baking")));
        let of = match batter.filter(|batter| !batter.left_out.is_empty()) {
            Some(batter) => format!("of the weight of {} as water", quoted(&batter.parts)),
            None => "of the weight as water".to_owned(),
        };
        why.push(format!(
            "baking is taken to drive off about {:.0} % {of}, as for {}",
            lost_here.best() * 100.0,
            bake.what
        ));
    }
    for (part, component) in sheet.components.iter().enumerate() {
        let name = component.heading();
        let in_the_pan = batter.is_some_and(|batter| batter.parts.iter().any(|taken| taken == name));
        let ready = measured::ready(text, manuscript, part);
        let ready = ready.filter(|_| measured::is_cooked(text, manuscript, part) && !in_the_pan);
        let Some(ready) = ready else { continue };
        let gone = (component.total.grams.best() - ready.grams.best()) * component.in_batch;
        if gone > 0.0 {
            lost.add(&Estimate::exact(gone));
            why.push(format!("“{name}” loses {gone:.0} g in cooking, by the weight that the text gives"));
        }
    }
    // What boils down on the hob loses as much as the author says, and nobody knows how much where she does not.
    let cooked = || manuscript.steps.iter().any(|step| step.cooks);
    if why.is_empty()
        && cooked()
        && let Some(ready) = yield_weight::ready(sheet, text, manuscript, whole)
    {
        let range = ready.range();
        let gone = Range::new((whole - range.high()).max(0.0), whole - range.best(), whole - range.low())?;
        lost.add(&Estimate::of(gone, Influence::named("what the author says comes out")));
        why.push(format!("cooking leaves {:.0} g, by the weight that the text gives", range.best()));
    }
    let share = lost.times(1.0 / whole);
    let range = share.range();
    let kept = Range::new((1.0 - range.high()).max(0.0), 1.0 - range.best(), 1.0 - range.low())?;
    (!why.is_empty()).then(|| Kept { share: Estimate::of(kept, Influence::named("water lost in the heat")), why })
}

/// The kind of bake, by the title and the parts that bake.
fn bake(sheet: &Sheet, manuscript: &Manuscript, pantry: &Pantry) -> Option<&'static Bake> {
    let batter = sheet.fit.batter.as_ref();
    let mut names = manuscript.title.clone().unwrap_or_default();
    for name in in_the_pan(sheet).filter_map(|component| component.name.as_deref()) {
        names.push_str("; ");
        names.push_str(name);
    }
    let flour = flour_grams(in_the_pan(sheet).flat_map(|part| &part.lines).map(|line| &line.weighed), pantry);
    let grams: f64 = in_the_pan(sheet).map(|part| part.total.grams.best()).sum();
    bake_loss::of(&names.to_lowercase(), batter.map_or("", |batter| batter.kind.name), flour / grams.max(1.0))
}

/// The share that can be lost at most of the parts that bake: nothing but water goes off, and a little of it stays.
fn most_lost(sheet: &Sheet) -> f64 {
    let water = |part: &Component| {
        let water = part.total.nutrient(Nutrient::Water);
        water.amount.range().high() + water.unknown_at_most
    };
    let grams: f64 = in_the_pan(sheet).map(|part| part.total.grams.best()).sum();
    let share = if grams > 0.0 { in_the_pan(sheet).map(water).sum::<f64>() / grams } else { 0.0 };
    ((share - DRIEST) / (1.0 - DRIEST)).clamp(0.0, 1.0)
}

/// The parts that bake; all where no pan is known.
fn in_the_pan(sheet: &Sheet) -> impl Iterator<Item = &Component> {
    let batter = sheet.fit.batter.as_ref();
    sheet.components.iter().filter(move |component| {
        let name = component.heading();
        batter.is_none_or(|batter| batter.parts.iter().any(|part| part == name))
    })
}

/// Whether an oven is told of that bakes the whole. Jam that boils to 105 °C and oil at 180 °C are on the hob, and oats that
/// are toasted before they are stirred into bars are a part.
pub(crate) fn is_baked(text: &str, manuscript: &Manuscript) -> bool {
    if fit::baking(text, manuscript).is_some() || manuscript.facts.iter().any(|fact| fact.kind == FactKind::BakeTime) {
        return true;
    }
    let toasts = toasts_a_part(text, manuscript);
    let stated = manuscript.facts.iter().any(|fact| fact.kind == FactKind::Oven && !fact.heats.is_empty());
    let mut heated = manuscript.steps.iter().flat_map(|step| step.heats.iter().map(move |heat| (step, heat)));
    let in_the_oven = heated.any(|(step, heat)| {
        let sentence = step.sentences.iter().find(|sentence| sentence.contains(&heat.place.start));
        let words = sentence.and_then(|sentence| text.get(sentence.clone())).unwrap_or_default().to_lowercase();
        // The oven may be heated for no more than the part.
        let for_a_part = toasts.is_some_and(|toasts| {
            sentence.is_some_and(|sentence| sentence.start == toasts)
                || has_any(&words, &["preheat", "heat the oven", "heat oven"])
        });
        heat.celsius >= 90.0 && !for_a_part && (has_any(&words, OVEN) || !has_any(&words, HOB))
    });
    in_the_oven || stated && toasts.is_none()
}

/// The byte of the sentence that toasts or roasts a part alone, before anything is mixed and while other lines are still to
/// come: "Toast the oats at 350 F", "Roast the hazelnuts".
fn toasts_a_part(text: &str, manuscript: &Manuscript) -> Option<usize> {
    let mut uses = manuscript.steps.iter().flat_map(|step| &step.uses);
    let sentences = manuscript.steps.iter().flat_map(|step| &step.sentences);
    let of_it = |words: &str| has_any(words, &["toast", "roast", "toasted", "roasted"]);
    let sentence = sentences
        .into_iter()
        .find(|sentence| of_it(&text.get((*sentence).clone()).unwrap_or_default().to_lowercase()))?;
    let first = uses.all(|taken| taken.place.start >= sentence.start);
    let taken = manuscript.first_uses.iter().flatten();
    let (mut here, mut elsewhere) = (0, 0);
    for first in taken {
        if first.is_some_and(|first| sentence.contains(&first)) { here += 1 } else { elsewhere += 1 }
    }
    (first && here > 0 && elsewhere > 0).then_some(sentence.start)
}

/// Words of a sentence whose temperature is the oven's.
const OVEN: &[&str] = &["oven", "bake", "roast"];
/// Words of a sentence whose temperature is that of a pot.
const HOB: &[&str] =
    &["boil", "simmer", "fry", "deep-fry", "thermometer", "syrup", "pot", "saucepan", "oil", "reaches", "reach"];

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
        let text = "Cake\n\nPan: 8-inch round pan\nOven: 350°F\n\nCake\n200 g flour\n200 g milk\n\nFrosting\n100 g butter\n100 g powdered sugar\n\nMethod\n1. Mix the flour and the milk and bake for 20 minutes.\n2. Beat the butter with the powdered sugar and spread it over.\n";
        assert!((ready(text) - 560.0).abs() < 1.0, "{}", ready(text));
    }

    #[test]
    fn ok_a_part_cooked_down_to_a_weight_that_the_text_gives() {
        let text = "Jam Cream\n\nFor the berry jam\n300 g raspberries\n100 g sugar\n\nFor the cream\n200 g heavy cream\n\nMethod\n1. Simmer the raspberries with the sugar. You should have about 1 cup (250 g).\n2. Whip the cream and fold in the jam.\n";
        assert!((ready(text) - 450.0).abs() < 6.0, "{}", ready(text));
    }

    /// Worked by hand: 90 g of white hold some 79 g of water, so that 260 g lose 28 %; the jam boils and does not bake.
    #[test]
    fn ok_a_meringue_loses_more_than_a_cake_and_what_boils_is_not_baked() {
        let kisses = "Meringue Kisses\n\n90 g egg whites\n170 g caster sugar\n\nMethod\n1. Whisk the whites and sugar until stiff. Pipe on two sheets, and dry at 95C for 1 hour 45.\n";
        assert!((ready(kisses) - 260.0 * 0.72).abs() < 0.5, "{}", ready(kisses));
        let jam =
            "Rhubarb Jam\n\n1 kg trimmed rhubarb\n600 g sugar\n\nMethod\n1. Boil the rhubarb and sugar to 105C.\n";
        assert!((ready(jam) - 1600.0).abs() < 1e-6, "{}", ready(jam));
    }

    /// Only water goes off: of what holds 10 % of it no 26 % can be lost.
    #[test]
    fn ok_no_more_goes_off_than_there_is_water() {
        let dry = "Dry Crackers\n\n100 g sugar\n\nMethod\n1. Bake for 20 minutes.\n";
        assert!((ready(dry) - 100.0).abs() < 1e-6, "{}", ready(dry));
    }

    /// Found by a practitioner: bars that are chilled lost 10 % because their oats were toasted at a temperature.
    #[test]
    fn ok_what_is_toasted_before_it_is_stirred_in_bakes_nothing() {
        let bars = |method: &str| ready(&format!("Oat Bars\n\n100 g oats\n100 g honey\n\nMethod\n{method}\n"));
        for method in [
            "Toast the oats at 350F for 10 minutes. Stir in the honey, press in an 8-inch square pan and chill.",
            "Preheat the oven to 350°F. Toast the oats for 10 minutes. Stir in the honey and chill. No-bake bars keep a week.",
            "Roast the oats at 180C. Stir in the honey and chill.",
        ] {
            assert!((bars(method) - 200.0).abs() < 1e-9, "{method} {}", bars(method));
        }
        for method in [
            "Toast the oats at 350F. Stir in the honey and bake 20 minutes.",
            "Stir the oats and honey, and put in the oven at 350F for 20 minutes.",
            "Toast the oats. Stir in the honey and put in a 350F oven for 20 minutes.",
        ] {
            assert!(bars(method) < 199.0, "{method} {}", bars(method));
        }
    }

    /// The pans and the loss must say the same.
    #[test]
    fn ok_what_loses_water_in_an_oven_is_baked_in_its_pan() {
        let pantry = Pantry::ours();
        let text = "Squares\n\n200 g flour\n200 g milk\n\nMethod\n1. Stir, pour in an 8-inch square pan and put in the oven at 350F for 30 minutes.\n";
        let sheet = sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default());
        let kind = sheet.fit.batter.as_ref().expect("a pan").kind.name;
        assert!(sheet.kept.is_some() && kind != "mixture that is not baked", "{kind}");
    }

    #[test]
    fn ok_what_meets_no_heat_keeps_all() {
        assert!((ready("Bars\n\n100 g oats\n100 g honey\n\nMethod\n1. Stir and chill.\n") - 200.0).abs() < 1e-9);
    }
}
