//! A tin whose liquor is poured off.

use evencrumb_manuscript::line::{Amount, Item};
use evencrumb_measure::{Estimate, Influence, Range, Unit};

/// The share of a tin's stated weight that stays in the sieve, when the line says "drained" and states no drained weight;
/// and why. Pulses and fruit in liquor: labels print 55 to 65 % (common practice, no source).
pub(super) fn share(item: &Item, stated: &Amount) -> Option<(Estimate, &'static str)> {
    let tin = matches!(stated.unit(), Unit::Can | Unit::Jar) && stated.each.is_some()
        || item.amounts.iter().any(|amount| matches!(amount.unit(), Unit::Can | Unit::Jar));
    let said = item.preparation.to_lowercase();
    let mut words = said.split(|c: char| !c.is_alphabetic());
    let drained = words.any(|word| word == "drained") && !said.contains("not drained");
    if !tin || !drained || stated.fill.as_deref() == Some("drained") {
        return None;
    }
    let range = Range::new(0.52, 0.6, 0.72)?;
    Some((
        Estimate::of(range, Influence::named("what stays of a drained tin")),
        "about 60 % of a tin stays when it is drained",
    ))
}
