//! What is kept of a part that no line takes of: "Halve it, and freeze one half", "freeze the rest of the frosting".

use evencrumb_manuscript::{Manuscript, Query, Yield};

use crate::fit::{has_any, last_word};
use crate::made::{self, LEFT_OVER, REST_KEPT_BACK, Rest};
use crate::total::Total;
use crate::yield_weight;

/// What is known of the part of a component that goes into this bake.
pub(crate) struct Aside {
    /// The share of it, from 0 to 1; nothing where a rest is kept and nobody says how much.
    pub share: Option<f64>,
    /// What to tell.
    pub query: Query,
}

/// What becomes of a component in a recipe of several; nothing when all of it goes into this bake.
pub(crate) fn of(text: &str, manuscript: &Manuscript, part: usize, total: &Total, makes: &Yield) -> Option<Aside> {
    if manuscript.components.len() < 2 || part >= MOST_COMPONENTS {
        return None;
    }
    let component = &manuscript.components[part];
    let name = component.name.clone()?;
    let place = component.place.clone();
    let share = if is_halved(text, manuscript, part) {
        Some(0.5)
    } else if made::rest(text, manuscript, part, false) == Some(Rest::KeptBack) {
        used(text, manuscript, part, makes).map(|grams| grams / total.grams.best()).filter(|share| *share < 1.0)
    } else {
        return None;
    };
    let query = match share {
        Some(share) => Query::new(
            &REST_KEPT_BACK,
            place,
            format!(
                "About {:.0} % of “{name}” goes into this; the rest is kept back, as the text says, and is in no serving.",
                share * 100.0
            ),
            "Nothing to do; the whole of it is still bought and paid for.",
        ),
        None => Query::new(
            &LEFT_OVER,
            place,
            format!("The method keeps a rest of “{name}” and does not say how much is used; all of it is counted."),
            "Write how much is used, as “200 g of the frosting” or “Pipe 40 g on each”.",
        ),
    };
    Some(Aside { share, query })
}

/// No recipe has so many, and a hostile text must not be slow.
const MOST_COMPONENTS: usize = 100;

/// What says that half of a part is for another day.
const HALF: &[&str] = &[
    "freeze half",
    "freeze one half",
    "freeze the other half",
    "freeze the second half",
    "keep one half for",
    "keep half for",
    "save half for",
    "save one half",
    "use half",
    "use only half",
    "half in the freezer",
];

fn is_halved(text: &str, manuscript: &Manuscript, part: usize) -> bool {
    let plainly = |words: &str, half: &str| has_any(words, &[half]) && !words.contains(&format!("{half} an"));
    let says = |words: &str| has_any(words, HALF) && HALF.iter().any(|half| plainly(words, half));
    let heading = manuscript.components[part].name.as_deref().unwrap_or_default().to_lowercase();
    if says(&heading) {
        return true;
    }
    manuscript.steps.iter().filter(|step| step.component == Some(part)).any(|step| {
        let words = text.get(step.place.clone()).unwrap_or_default().to_lowercase();
        says(&words) && !has_any(&words, &["use half of", "use half the"])
    })
}

/// Grams of a part that go on the pieces: "Pipe 40 g of frosting on each".
fn used(text: &str, manuscript: &Manuscript, part: usize, makes: &Yield) -> Option<f64> {
    let (low, high) = makes.pieces.or(makes.servings)?;
    let name = last_word(manuscript.components[part].name.as_deref()?)?;
    manuscript.steps.iter().flat_map(|step| &step.sentences).find_map(|sentence| {
        let words = text.get(sentence.clone())?.to_lowercase();
        let fits = has_any(&words, &[&name]) && has_any(&words, &["each", "every"]);
        let (least, most) = yield_weight::grams(text, sentence.clone()).filter(|_| fits)?;
        Some(f64::midpoint(least, most) * f64::midpoint(low, high))
    })
}

#[cfg(test)]
mod tests {
    use evencrumb_pantry::Pantry;
    use evencrumb_pantry::weigh::Kitchen;

    use crate::sheet;

    fn total(text: &str) -> (f64, Vec<String>) {
        let pantry = Pantry::ours();
        let sheet = sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default());
        let asked = sheet.queries.iter().map(|placed| placed.query.kind.name.to_owned());
        (
            sheet.total.grams.best().round(),
            asked.filter(|name| name.contains("kept") || name.contains("left")).collect(),
        )
    }

    fn tart(heading: &str, method: &str) -> String {
        format!(
            "Tart\n\nServes 8\nPan: 9-inch tart tin\n\nPastry{heading}\n300 g flour\n200 g butter\n\nCustard\n500 g cream\n100 g sugar\n\nMethod\n1. Make the pastry. {method} Line the tin.\n2. Mix the custard of cream and sugar, pour in, and bake 35 minutes.\n"
        )
    }

    #[test]
    fn ok_a_half_that_is_frozen_is_not_eaten() {
        assert_eq!(total(&tart("", "Chill for half an hour.")), (1100.0, vec![]));
        let half = (850.0, vec!["rest-kept-back".to_owned()]);
        assert_eq!(total(&tart("", "Halve it, and freeze one half.")), half);
        assert_eq!(total(&tart(" (makes enough for two; freeze half)", "")), half);
        assert_eq!(total(&tart("", "Freeze half an hour.")), (1100.0, vec![]));
    }

    #[test]
    fn ok_a_rest_that_is_frozen_is_not_eaten() {
        let text = |pipe: &str| {
            format!(
                "Cupcakes\n\nMakes 10 cupcakes\n\nCake\n300 g flour\n300 g milk\n\nFrosting\n300 g butter\n300 g powdered sugar\n\nMethod\n1. Mix the flour and milk and bake 20 minutes.\n2. Beat the butter and powdered sugar. {pipe} Freeze the rest of the frosting.\n"
            )
        };
        assert_eq!(total(&text("Pipe 40 g of frosting on each.")), (1000.0, vec!["rest-kept-back".to_owned()]));
        assert_eq!(total(&text("Pipe it on.")), (1200.0, vec!["made-and-left-over".to_owned()]));
    }
}
