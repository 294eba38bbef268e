//! A figure quoted from the page, as in "why 13.1 g fat": which of the sheet's figures it is.

use evencrumb_measure::{Estimate, Number, say};
use evencrumb_pantry::Pantry;

use super::{Misunderstood, Of, Per, Priced, Question, Why, of_question};
use crate::sheet::Sheet;

/// How far a printed figure may lie from the exact one, as a share.
const ROUNDED: f64 = 0.02;
/// How many figures are told when none is the quoted one.
const TOLD: usize = 4;

/// The answer to the question that the quoted figure belongs to.
pub(super) fn answer(
    quoted: f64,
    question: &Question,
    sheet: &Sheet,
    pantry: &Pantry,
    priced: Option<Priced<'_>>,
) -> Result<Why, Misunderstood> {
    let asked = |of: Of, per: Option<Per>| {
        let question = Question { of, per, quoted: None, ..question.clone() };
        of_question(sheet, &question, pantry, priced).ok()
    };
    let hundred = |raw| Of::Weighing { grams: Number::whole(100), raw };
    let all: Vec<(Of, Option<Per>)> = match &question.of {
        Of::Batch => {
            let parts = (0..sheet.components.len()).map(|part| (Of::Component(part), None));
            let whole = [
                (Of::Batch, Some(Per::Serving)),
                (Of::Batch, Some(Per::Piece)),
                (hundred(false), None),
                (Of::Batch, None),
                (Of::RawBatch, None),
                (hundred(true), None),
            ];
            whole.into_iter().chain(parts).collect()
        }
        Of::Lines(lines) => {
            let each = lines.iter().map(|line| (Of::Lines(vec![*line]), None));
            [(question.of.clone(), None)].into_iter().chain(each).collect()
        }
        of => vec![(of.clone(), None)],
    };
    let told: Vec<Why> = all.into_iter().filter_map(|(of, per)| asked(of, per)).collect();
    let value = |why: &Why| why.figure.value.as_ref().map_or(0.0, Estimate::best);
    let near = |why: &&Why| (value(why) - quoted).abs() <= ROUNDED * quoted;
    let away = |why: &Why| (value(why) - quoted).abs();
    if let Some(found) = told.iter().filter(near).min_by(|one, other| away(one).total_cmp(&away(other))) {
        return Ok(found.clone());
    }
    let unit = told.first().map_or("", |why| why.figure.unit.as_str());
    let mut has: Vec<String> =
        told.iter().map(|why| format!("{}: {} {unit}", why.figure.words, say::decimal(value(why), 1))).collect();
    has.dedup();
    has.truncate(TOLD);
    Err(Misunderstood {
        said: format!("No figure of the sheet for {} is {quoted} {unit}", question.what.name()),
        mend: format!("These are: {}. Ask for one of them in words, as “fat per serving”.", has.join("; ")),
        near_to: None,
    })
}
