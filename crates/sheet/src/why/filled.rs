//! How full a pan is and how deep the batter stands in it, walked back to the batter and the pan.

use evencrumb_manuscript::word::name_key;
use evencrumb_measure::{Estimate, Influence, Range};

use super::answer::plain;
use super::{Misunderstood, Of, Question, Reason, What, Why};
use crate::fit::{Batter, InPan};
use crate::sheet::Sheet;

pub fn answer(sheet: &Sheet, question: &Question) -> Result<Why, Misunderstood> {
    if question.of != Of::Batch {
        return Err(Misunderstood {
            said: "Only the batter of the whole recipe is set against its pans".to_owned(),
            mend: "Ask “how full” or “how deep” alone.".to_owned(),
            near_to: None,
        });
    }
    let filled = || sheet.fit.pans.iter().filter(|pan| pan.filling.is_some());
    let is_meant = |pan: &&InPan| {
        let name = name_key(pan.pan.name());
        !question.about.is_empty() && question.about.iter().all(|word| name.split(' ').any(|own| own == word))
    };
    let first = filled().find(is_meant).or_else(|| filled().find(|pan| !pan.instead));
    let Some((batter, pan)) = sheet.fit.batter.as_ref().zip(first) else {
        return Err(Misunderstood {
            said: "There is no pan of known size that a batter fills here".to_owned(),
            mend: "Write the pan with its size near the top, as “Pan: one 8-inch square pan, 2 inches deep”."
                .to_owned(),
            near_to: None,
        });
    };
    let reason = reason(question.what, batter, pan).ok_or_else(|| Misunderstood {
        said: format!("The batter may run over the {}, so that no depth can be said", pan.pan.name()),
        mend: "Ask “how full”.".to_owned(),
        near_to: None,
    })?;
    Ok(Why::of(reason, batter.unweighed.clone()))
}

fn reason(what: What, batter: &Batter, pan: &InPan) -> Option<Reason> {
    let filling = pan.filling.as_ref()?;
    let cup = pan.cups_filled.map_or("", |_| "each cup of ");
    let many = if pan.count > 1 { "each " } else { "the " };
    let (words, value) = match what {
        What::Deep => {
            let [low, best, high] = filling.deep_millimetres;
            let range = Range::new(low?, best?, high?)?;
            (format!("how deep the raw batter stands in {cup}{many}{}", pan.pan.name()), range)
        }
        _ => (format!("how full {cup}{many}{} is, of its brim", pan.pan.name()), filling.full.times(100.0)),
    };
    let grams = pan.grams_each.range();
    let holds = pan.pan.capacity_millilitres() / f64::from(pan.pan.count());
    let cup_holds = if pan.cups_filled.is_some() { "a cup of it" } else { "it" };
    let under = vec![
        plain(format!(
            "{:.0} g of batter are in {} ({:.0} to {:.0})",
            grams.best(),
            if pan.cups_filled.is_some() { "each cup" } else { "it" },
            grams.low(),
            grams.high()
        )),
        Reason {
            source: Some(batter.source),
            ..plain(format!(
                "taken as {}, because {}: {:.0} ml of it are {:.0} g",
                batter.kind.name,
                batter.why,
                100.0,
                batter.density.best() * 100.0
            ))
        },
        plain(format!(
            "so it takes {:.0} ml ({:.0} to {:.0})",
            filling.millilitres.best(),
            filling.millilitres.low(),
            filling.millilitres.high()
        )),
        Reason {
            // The author's own is in her kitchen.toml.
            source: pan.pan.source().filter(|_| pan.have.is_none()),
            ..plain(format!(
                "{cup_holds} holds {holds:.0} ml to the brim{}",
                pan.have.map_or("", |_| ", by the sides of your own in kitchen.toml")
            ))
        },
    ];
    let value = Estimate::of(value, Influence::named("the weight and the density of the batter"));
    Some(Reason { words, value: Some(value), unit: what.unit().to_owned(), source: None, under })
}
