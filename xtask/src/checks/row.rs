//! One check: what was held against what, and how it came out.

use std::fmt;

/// How well the source was seen; the words are those of `crates/measure/data/sources.toml`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Seen {
    /// In the text of the law, standard or table itself.
    Text,
    /// In somebody's copy of it.
    Copy,
    /// Nobody printed it; it follows by arithmetic.
    Computed,
    /// Kitchens do so; nobody we could name says it.
    Practice,
    /// Remembered; the text was not seen.
    Memory,
}

impl fmt::Display for Seen {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Seen::Text => "read in the text",
            Seen::Copy => "read in a copy",
            Seen::Computed => "computed",
            Seen::Practice => "common practice, no source",
            Seen::Memory => "from memory",
        })
    }
}

/// Where an expected value comes from.
#[derive(Clone, Copy, Debug)]
pub struct Source {
    /// As a reader would look for it.
    pub title: &'static str,
    /// How well we saw it.
    pub seen: Seen,
}

/// How far ours may lie from what was expected.
#[derive(Clone, Copy, Debug)]
pub enum Allowed {
    /// Not at all, but for the last digits of a computer's arithmetic.
    Nothing,
    /// A share of the expected value.
    Share(f64),
    /// So much either way, in the unit of the row.
    Amount(f64),
}

/// One line of the table.
#[derive(Clone, Debug)]
pub struct Row {
    /// What was held against the source.
    pub what: String,
    /// What it was held against.
    pub source: Source,
    /// The source's figure.
    pub expected: String,
    /// Ours.
    pub got: String,
    /// How far they may lie apart.
    pub allowed: String,
    /// Whether they do not lie further apart.
    pub is_ok: bool,
    /// Whether a claim of ours is not met by what was measured, which is said and is not a fault of the check.
    pub falls_short: bool,
}

impl Row {
    /// One number against another, both in `unit`.
    pub fn near(what: &str, source: Source, unit: &str, expected: f64, got: f64, allowed: Allowed) -> Row {
        let (most, words) = match allowed {
            Allowed::Nothing => (1e-9 * expected.abs(), "exact".to_owned()),
            Allowed::Share(share) => (share * expected.abs(), format!("±{} %", figure(100.0 * share))),
            Allowed::Amount(amount) => (amount, format!("±{}", with_unit(figure(amount), unit))),
        };
        // What must agree in every digit shows them.
        let said = |value: f64| match allowed {
            Allowed::Nothing => format!("{} {unit}", trimmed(&format!("{value:.9}"))),
            _ => with_unit(figure(value), unit),
        };
        Row {
            what: what.to_owned(),
            source,
            expected: said(expected),
            got: said(got),
            allowed: words,
            is_ok: (got - expected).abs() <= most,
            falls_short: false,
        }
    }

    /// One number that must lie between two, ends included.
    pub fn between(what: &str, source: Source, unit: &str, (low, high): (f64, f64), got: f64) -> Row {
        Row {
            what: what.to_owned(),
            source,
            expected: format!("{} to {}", significant(low, 4), with_unit(significant(high, 4), unit)),
            got: with_unit(significant(got, 4), unit),
            allowed: "between them".to_owned(),
            is_ok: low <= got && got <= high,
            falls_short: false,
        }
    }

    /// How many of some things hold something. `claim` is the share that we say do; a share that chance explains no
    /// longer is said to fall short. `floor` is what may not be undercut: it is set a little below what was measured.
    pub fn share(what: &str, source: Source, hold: usize, of: usize, claim: Option<f64>, floor: f64) -> Row {
        let share = ratio(hold, of);
        let (expected, fits) = match claim {
            // Two standard deviations of a binomial draw hold 19 chances in 20.
            Some(claim) => {
                let chance = 2.0 * (claim * (1.0 - claim) / ratio(of, 1).max(1.0)).sqrt();
                let low = claim - chance;
                let high = (claim + chance).min(1.0);
                let fits = share >= low;
                (format!("{} (by chance {} to {})", percent(claim), percent(low), percent(high)), fits)
            }
            None => ("no claim".to_owned(), true),
        };
        let short = if fits { "" } else { "; the claim is NOT met" };
        Row {
            what: what.to_owned(),
            source,
            expected,
            got: format!("{hold} of {of}, {}{short}", percent(share)),
            allowed: format!("measured; not below {}", percent(floor)),
            is_ok: of > 0 && share >= floor,
            falls_short: !fits,
        }
    }
}

/// One part as a share of another number of things.
fn ratio(part: usize, of: usize) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "some thousand things at most")]
    let ratio = part as f64 / of.max(1) as f64;
    ratio
}

fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}

fn with_unit(number: String, unit: &str) -> String {
    if unit.is_empty() { number } else { format!("{number} {unit}") }
}

/// A number with six digits that count.
pub fn figure(value: f64) -> String {
    significant(value, 6)
}

/// A number with so many digits that count, and no more than six places.
fn significant(value: f64, digits: usize) -> String {
    let before_the_point = [1.0, 10.0, 100.0, 1000.0].iter().filter(|size| value.abs() >= **size).count();
    let places = digits.saturating_sub(before_the_point).min(6);
    trimmed(&format!("{value:.places$}"))
}

/// Without zeros that say nothing.
fn trimmed(decimals: &str) -> String {
    let text = decimals.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOOK: Source = Source { title: "a book", seen: Seen::Memory };

    #[test]
    fn ok_near_and_err_off() {
        assert!(Row::near("cup", BOOK, "ml", 240.0, 236.6, Allowed::Share(0.02)).is_ok);
        assert!(!Row::near("cup", BOOK, "ml", 240.0, 236.6, Allowed::Amount(3.0)).is_ok);
        assert!(!Row::near("cup", BOOK, "ml", 240.0, 240.000_001, Allowed::Nothing).is_ok);
        assert!(!Row::near("cup", BOOK, "ml", 240.0, f64::NAN, Allowed::Share(0.02)).is_ok);
        assert!(!Row::between("egg", BOOK, "g", (50.0, 56.0), 57.0).is_ok);
    }

    /// 70 of 100 against a claim of 90 %: chance gives 84 to 96.
    #[test]
    fn ok_a_claim_that_is_not_met_says_so() {
        let row = Row::share("ranges", BOOK, 70, 100, Some(0.9), 0.65);
        assert_eq!((row.got.as_str(), row.is_ok), ("70 of 100, 70 %; the claim is NOT met", true));
        assert_eq!(row.expected, "90 % (by chance 84 % to 96 %)");
        assert!(!Row::share("ranges", BOOK, 60, 100, Some(0.9), 0.65).is_ok);
        assert!(!Row::share("ranges", BOOK, 0, 0, None, 0.0).is_ok);
    }

    /// The words that `sources.toml` uses and a test there insists on.
    #[test]
    fn ok_statuses_are_those_of_the_sources() {
        let words = [Seen::Text, Seen::Copy, Seen::Computed, Seen::Practice, Seen::Memory].map(|seen| seen.to_string());
        for source in evencrumb_measure::Source::all() {
            assert!(words.contains(&source.status), "{}", source.status);
        }
    }

    #[test]
    fn ok_figures_are_short() {
        assert_eq!(
            [figure(240.0), figure(0.5), figure(-0.000_000_1), figure(236.588_236_5)],
            ["240", "0.5", "0", "236.588"]
        );
    }
}
