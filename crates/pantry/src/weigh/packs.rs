//! Whether a weight beside a number of packs is that of one of them: "2 packages (8 oz) cream cheese".

use evencrumb_manuscript::line::{Amount, is_sold_in_sizes};

use super::Weighing;

/// The packs with the weight as what each holds, where that is meant: of less than one pack always, of several where a pack
/// of the food is known and one of them comes nearer to it than all together.
pub(super) fn each(weighing: &Weighing<'_>, stated: &Amount) -> Option<Amount> {
    let first = weighing.item.amounts.first().filter(|first| is_sold_in_sizes(first.unit()) && first.each.is_none())?;
    let [term] = first.terms.as_slice() else { return None };
    if stated.each.is_some() || stated.fill.is_some() || term.low != term.high {
        return None;
    }
    let (packs, told) = (term.high.value(), weighing.stated_grams(stated).best());
    let known = || weighing.amount(first).map(|(grams, _)| grams.best() / packs).filter(|one| *one > 0.0);
    let off = |grams: f64, one: f64| (grams / one).ln().abs();
    let of_each = packs < 1.0 || packs > 1.0 && known().is_some_and(|one| off(told, one) < off(told / packs, one));
    of_each.then(|| Amount { each: Some(Box::new(stated.clone())), ..first.clone() })
}
