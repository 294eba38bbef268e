//! One of what a line counts: one egg of the four.

use evencrumb_measure::{Estimate, Unit};

use super::answer::plain;
use super::{Misunderstood, Of, Question, Reason, Why};
use crate::sheet::Sheet;

/// A figure of counted things for one of them; as it is where nothing is counted.
pub(super) fn answer(sheet: &Sheet, question: &Question, all: Why) -> Result<Why, Misunderstood> {
    let Of::Lines(lines) = &question.of else { return Ok(all) };
    let mut count = 0.0;
    for (part, nth) in lines {
        for one in &sheet.components[*part].lines[*nth].weighed.foods {
            let counted = one.item.amounts.iter().find(|amount| amount.bare && amount.unit() == Unit::Piece);
            // Where one line is weighed and not counted, nobody can say what one of them is.
            let Some(amount) = counted.filter(|amount| amount.terms.len() == 1) else { return Ok(all) };
            count += f64::midpoint(amount.terms[0].low.value(), amount.terms[0].high.value());
        }
    }
    if count <= 0.0 || (count - 1.0).abs() < f64::EPSILON {
        return Ok(all);
    }
    let whole = all.figure;
    let figure = Reason {
        words: format!("{} of one of these {count}", question.what.name()),
        value: whole.value.as_ref().map(|value: &Estimate| value.times(1.0 / count)),
        unit: whole.unit.clone(),
        source: None,
        under: vec![plain(format!("the text counts {count} of them; divided by that")), whole],
    };
    Ok(Why::of(figure, all.unknown))
}
