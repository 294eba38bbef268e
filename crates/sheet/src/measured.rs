//! What the author weighed and wrote into the text ("you should have about 2 cups (490 g)"), and which component it is of.

use evencrumb_manuscript::word::key;
use evencrumb_manuscript::{Manuscript, Measured, Query, QueryKind, Weight};
use evencrumb_measure::{Estimate, Influence, Range};

use crate::total::Total;

/// How much of a component is there when it is ready.
#[derive(Clone, Debug)]
pub struct Ready {
    /// Grams.
    pub grams: Estimate,
    /// Millilitres, where the text gives them too.
    pub millilitres: Option<f64>,
    /// Bytes of the manuscript where it stands.
    pub place: std::ops::Range<usize>,
}

/// A weight in the text and the lines' sum are too far apart.
pub static MEASURED_DIFFERS: QueryKind = QueryKind { name: "measured-differs", weight: Weight::Look };

/// Words for a part of the whole: "10 balls of about 80 g" says nothing of what all weighs.
const PARTS: &[&str] =
    &["ball", "layer", "square", "piece", "bun", "roll", "cookie", "muffin", "pan", "half", "portion", "cup", "coat"];

/// What a component weighs as the text says, as a whole.
pub fn ready(manuscript: &Manuscript, component: usize) -> Option<Ready> {
    let found = manuscript.measured.iter().find(|found| is_whole(found) && of(manuscript, found) == Some(component))?;
    let (low, high) = found.grams;
    // A kitchen scale and the bowl's scrapings: 2 % either way; common practice, no source.
    let range = Range::new(low * 0.98, f64::midpoint(low, high), high * 1.02)?;
    let grams = Estimate::of(range, Influence::named("what the author weighed"));
    Some(Ready { grams, millilitres: found.millilitres, place: found.place.clone() })
}

fn is_whole(found: &Measured) -> bool {
    found.per.is_none() && !PARTS.contains(&key(&found.what).as_str())
}

/// Whether a component is cooked before it is used: a step that takes of its lines tells to cook, roast or simmer.
pub fn is_cooked(manuscript: &Manuscript, component: usize) -> bool {
    manuscript
        .steps
        .iter()
        .filter(|step| step.uses.iter().any(|taken| taken.component == component))
        .any(|step| step.cooks)
}

/// The component that a weight in the text is of: that of the step it stands in.
fn of(manuscript: &Manuscript, found: &Measured) -> Option<usize> {
    let step = manuscript.steps.iter().find(|step| step.place.contains(&found.place.start));
    step.and_then(|step| step.component).or_else(|| (manuscript.components.len() == 1).then_some(0))
}

/// How far a weight in the text may lie beyond the range of its lines, as a factor, and still be believed before them: up
/// to one and a half times the highest, down to two thirds of the lowest. A spoon more or less, or a cup filled by another
/// hand, is within it; beyond it the sentence speaks of something else, or a number slipped. Common practice, no source.
const BELIEVED_WITHIN: f64 = 1.5;

/// Whether a weight in the text can be that of a component whose lines come to `summed`. What was cooked may have lost any
/// part of it and gained little.
pub fn is_believed(said: &Estimate, summed: &Estimate, is_cooked: bool) -> bool {
    let (said, summed) = (said.range(), summed.range());
    let not_too_much = said.low() <= summed.high() * BELIEVED_WITHIN;
    not_too_much && (is_cooked || said.high() >= summed.low() / BELIEVED_WITHIN)
}

/// Puts what the author weighed in place of the sum of a component's lines, and asks when the two are far apart. Where they
/// are too far apart to be of one thing, the lines are kept.
///
/// What was cooked weighs less than what went in, so that its weight says nothing of the raw sum and leaves it alone.
pub fn put_over(manuscript: &Manuscript, component: usize, total: &mut Total) -> Option<Query> {
    let ready = ready(manuscript, component)?;
    let (said, summed) = (ready.grams.range(), total.grams.range());
    let cooked = is_cooked(manuscript, component);
    let apart = said.low() > summed.high() || said.high() < summed.low();
    if cooked && said.low() <= summed.high() {
        return None;
    }
    let words = format!(
        "The text says {:.0} g, its lines come to {:.0} g ({:.0} to {:.0})",
        said.best(),
        summed.best(),
        summed.low(),
        summed.high()
    );
    let is_put = !cooked && total.unweighed.is_empty() && is_believed(&ready.grams, &total.grams, cooked);
    if is_put {
        total.grams = ready.grams;
    }
    apart.then(|| {
        let taken = if is_put { "the text was taken" } else { "the lines were taken" };
        Query::new(
            &MEASURED_DIFFERS,
            ready.place,
            format!("{words}; {taken}."),
            "Weigh it once more, or look for a line whose amount is wrong.",
        )
    })
}
