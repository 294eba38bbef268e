//! The author's ovens: `[[oven]]` rows.

use super::file::{Faults, Value, number, said};

/// An oven of the author's own.
#[derive(Clone, Debug, PartialEq)]
pub struct Oven {
    /// What she calls it.
    pub name: String,
    /// How it heats.
    pub kind: OvenKind,
    /// How far it settles above what it is set to, in degrees Celsius; negative when it runs cool.
    pub runs_hot_celsius: f64,
}

/// How an oven heats.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum OvenKind {
    /// Top and bottom heat, without a fan.
    #[default]
    TopAndBottom,
    /// With a fan that drives the air about.
    Fan,
    /// A gas flame below.
    Gas,
}

impl OvenKind {
    fn named(word: &str) -> Option<OvenKind> {
        match word.to_lowercase().as_str() {
            "top and bottom heat" | "conventional" => Some(OvenKind::TopAndBottom),
            "fan" | "convection" => Some(OvenKind::Fan),
            "gas" => Some(OvenKind::Gas),
            _ => None,
        }
    }
}

/// An oven further off than this is broken, or the number is a temperature and no difference.
const FURTHEST_OFF_CELSIUS: f64 = 60.0;

/// Reads a row; what is wrong in it is a fault, and the usual is taken for it.
pub(super) fn read(row: Value<'_, '_>, faults: &mut Faults<'_>) -> Option<Oven> {
    let table = row.get_ref().as_table()?;
    let mut oven = Oven { name: String::new(), kind: OvenKind::default(), runs_hot_celsius: 0.0 };
    for (key, value) in table {
        let word = value.get_ref().as_str();
        let wanted = match key.get_ref().as_ref() {
            "name" => match word {
                Some(word) => {
                    word.clone_into(&mut oven.name);
                    continue;
                }
                None => "words in quotation marks; the oven was left without a name",
            },
            "kind" => match word.and_then(OvenKind::named) {
                Some(kind) => {
                    oven.kind = kind;
                    continue;
                }
                None => "one of \"top and bottom heat\", \"fan\", \"gas\"; top and bottom heat was taken",
            },
            "runs_hot_celsius" => match number(value).filter(|off| off.abs() <= FURTHEST_OFF_CELSIUS) {
                Some(off) => {
                    oven.runs_hot_celsius = off;
                    continue;
                }
                None => {
                    "how many degrees it runs above what it is set to, as 6 (-6 when it runs cool); an oven that is right was taken"
                }
            },
            _ => "something an oven's row tells (name, kind, runs_hot_celsius), and was left out",
        };
        let words = format!("{} is {}, which is not {wanted}.", key.get_ref(), said(value, faults));
        faults.add(key.span().start, &words);
    }
    Some(oven)
}

#[cfg(test)]
mod tests {
    use super::super::file::read;
    use super::*;

    #[test]
    fn ok_ovens() {
        let text = "[[oven]]\nname = \"big\"\nkind = \"fan\"\nruns_hot_celsius = -4.5\n";
        let found = read("kitchen.toml", text);
        let big = Oven { name: "big".to_owned(), kind: OvenKind::Fan, runs_hot_celsius: -4.5 };
        assert_eq!((found.household.ovens, found.faults), (vec![big], Vec::new()));
    }

    #[test]
    fn err_an_oven_that_is_told_wrongly_is_an_oven_that_is_right() {
        let text = "[[oven]]\nkind = \"steam\"\nruns_hot_celsius = 180\ncolour = 3\n";
        let found = read("kitchen.toml", text);
        assert_eq!(found.household.ovens[0].runs_hot_celsius.to_bits(), 0.0f64.to_bits());
        assert_eq!(found.faults.len(), 3, "{:?}", found.faults);
        assert!(found.faults[1].starts_with("kitchen.toml, line 3: runs_hot_celsius is 180"), "{:?}", found.faults);
    }
}
