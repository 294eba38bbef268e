//! Temperatures and times in running text, each with its place.

use std::ops::Range;

use crate::line::{Cut, may_open_number, number, numbers};
use crate::words::WORDS;

/// A temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct Heat {
    /// Degrees Celsius; the usual ones of a gas mark.
    pub celsius: f64,
    /// The upper end of a range in degrees Celsius, else the same.
    pub high: f64,
    /// Whether it is said for a fan oven.
    pub fan: bool,
    /// Whether the scale was written; else it was guessed from the size of the number.
    pub scale_written: bool,
    /// Where it stands.
    pub place: Range<usize>,
}

/// A time, in minutes.
#[derive(Clone, Debug, PartialEq)]
pub struct Minutes {
    /// The shortest.
    pub low: f64,
    /// The longest.
    pub high: f64,
    /// Where it stands.
    pub place: Range<usize>,
}

/// What the marks of a gas oven are in degrees Celsius, from mark 1; common practice.
const GAS: [f64; 9] = [140.0, 150.0, 160.0, 180.0, 190.0, 200.0, 220.0, 230.0, 240.0];

/// All temperatures in the cut text. `offset` is added to their places.
pub fn heats(cut: &Cut<'_>, offset: usize) -> Vec<Heat> {
    let mut found = Vec::new();
    let mut at = 0;
    while at < cut.tokens.len() {
        match heat(cut, at) {
            Some((mut heat, next)) => {
                heat.place = heat.place.start + offset..heat.place.end + offset;
                found.push(heat);
                at = next.max(at + 1);
            }
            None => at += 1,
        }
    }
    found
}

/// All times in the cut text. `offset` is added to their places.
pub fn times(cut: &Cut<'_>, offset: usize) -> Vec<Minutes> {
    let mut found: Vec<Minutes> = Vec::new();
    let mut joins = false;
    let mut at = 0;
    while at < cut.tokens.len() {
        match time(cut, at) {
            Some((mut minutes, next)) => {
                minutes.place = minutes.place.start + offset..minutes.place.end + offset;
                match found.last_mut().filter(|_| joins) {
                    // "1 hour 48 minutes" is one time.
                    Some(last) if last.low >= 60.0 && minutes.high < 60.0 => {
                        last.low += minutes.low;
                        last.high += minutes.high;
                        last.place.end = minutes.place.end;
                    }
                    _ => found.push(minutes),
                }
                at = next.max(at + 1);
                joins = true;
            }
            None => {
                joins = joins && cut.any(at, &["and"]);
                at += 1;
            }
        }
    }
    found
}

/// Whether token `at` goes on with a run of numbers, where none begins: "1 1 1 1" is a table or nonsense.
pub(crate) fn in_run(cut: &Cut<'_>, at: usize) -> bool {
    let is_number = |at: usize| {
        cut.get(at).is_some_and(|token| token.is_number() || WORDS.numbers.contains_key(token.folded.as_str()))
    };
    at >= 3 && (at - 3..at).all(is_number)
}

/// The temperature that starts at token `at`, and the token after it.
pub fn heat(cut: &Cut<'_>, at: usize) -> Option<(Heat, usize)> {
    // Nearly no word of a text begins a temperature.
    if !may_open_number(cut, at) && !cut.any(at, &["gas"]) || in_run(cut, at) {
        return None;
    }
    let fan_before = at > 0 && cut.any(at - 1, &["fan", "convection"]);
    if cut.any(at, &["gas"]) {
        let mut next = at + 1 + usize::from(cut.any(at + 1, &["mark"]));
        next += usize::from(cut.mark(next, ':'));
        let (mark, next) = number(cut, next)?;
        let celsius = gas(mark.value())?;
        let place = cut.place(at, next);
        return Some((Heat { celsius, high: celsius, fan: false, scale_written: true, place }, next));
    }
    // The second half of a number such as 9x350 or 2/350 is none.
    if at > 0 && cut.get(at).is_some_and(|token| !token.spaced && token.is_number()) && cut.mark(at - 1, '/') {
        let earlier = at > 1 && cut.get(at - 2).is_some_and(crate::token::Token::is_number);
        if earlier {
            return None;
        }
    }
    let (low, high, next) = match spoken(cut, at) {
        Some((value, next)) => (value, value, next),
        // "350/40min" is no fraction.
        None if cut.mark(at + 1, '/') && time(cut, at + 2).is_some() => {
            let value = cut.get(at).and_then(|token| token.folded.parse().ok())?;
            (value, value, at + 1)
        }
        None => {
            let read = numbers(cut, at)?;
            (read.low.value(), read.high.value(), read.next)
        }
    };
    let (fahrenheit, written, next) = scale(cut, at, next, low)?;
    let celsius = |value: f64| if fahrenheit { (value - 32.0) / 1.8 } else { value };
    let fan = fan_before || cut.any(next, &["fan", "convection"]) && !cut.any(next + 1, &["off"]);
    let place = cut.place(at, next);
    Some((Heat { celsius: celsius(low), high: celsius(high), fan, scale_written: written, place }, next))
}

fn gas(mark: f64) -> Option<f64> {
    if mark < 1.0 {
        return (mark > 0.0).then_some(if mark < 0.4 { 110.0 } else { 130.0 });
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 1 and 9")]
    (mark < 9.5).then(|| GAS.get(mark.round() as usize - 1).copied()).flatten()
}

/// "three fifty", "four twenty five": an oven as people say it.
fn spoken(cut: &Cut<'_>, at: usize) -> Option<(f64, usize)> {
    let word = |at: usize| cut.get(at).and_then(|token| WORDS.numbers.get(token.folded.as_str())).copied();
    let hundreds = word(at).filter(|value| (1..=5).contains(value))?;
    let tens = word(at + 1).filter(|value| (20..=90).contains(value))?;
    let ones = word(at + 2).filter(|value| *value == 5);
    let value = f64::from(hundreds * 100 + tens + ones.unwrap_or(0));
    Some((value, at + 2 + usize::from(ones.is_some())))
}

/// Whether the number that ends before `next` is Fahrenheit, whether that is written, and the token after the scale.
fn scale(cut: &Cut<'_>, at: usize, next: usize, value: f64) -> Option<(bool, bool, usize)> {
    let mut end = next;
    let degrees = cut.mark(end, '°') || cut.any(end, &["degrees", "degree", "deg"]);
    if degrees {
        let sign = cut.written(end, end + 1);
        if sign == "℃" || sign == "℉" {
            return Some((sign == "℉", true, end + 1));
        }
        end += 1 + usize::from(cut.mark(end + 1, '.'));
    }
    if cut.any(end, &["f", "fahrenheit"]) && value >= 30.0 {
        return Some((true, true, end + 1));
    }
    if cut.any(end, &["c", "celsius", "centigrade"]) && (degrees || (20.0..=320.0).contains(&value)) {
        // "1 c. sugar" is a cup; nobody writes 20 cups so.
        return Some((false, true, end + 1));
    }
    if degrees && value >= 30.0 {
        return Some((value > 260.0, false, end));
    }
    // A bare number: only where an oven's stands, and only a round one.
    let fan = |at: usize| cut.any(at, &["fan", "convection", "conventional"]);
    let said = fan(next)
        || at > 0
            && (fan(at - 1)
                || cut.any(at - 1, &["at", "to", "oven", "preheat", "bake"])
                || cut.mark(at - 1, ',')
                || cut.mark(at - 1, ':'));
    let ends = cut.get(next).is_none_or(|token| {
        matches!(token.kind, crate::token::Kind::Mark(',' | '.' | ';' | ')' | '–'))
            || token.is_any(&["for", "and", "then", "until", "till", "with", "fan", "convection", "conventional"])
    });
    // Ovens are set between 120 and 240 °C or between 250 and 500 °F, so that the size of the number tells the scale.
    let in_celsius =
        fan(next) || at > 0 && (fan(at - 1) || cut.any(at - 1, &["oven", "preheat"])) || oven_before(cut, at);
    let least = if in_celsius { 120.0 } else { 250.0 };
    let round = (least..=500.0).contains(&value) && value % 5.0 < 0.01;
    // "375 - 10 MIN.", "350, 20 to 25 minutes": how hot, then how long.
    let opens = at == 0 || cut.any(at - 1, &["bake", "oven"]);
    let bakes = (opens && time(cut, next).is_some()
        || cut.mark(next, '-')
        || cut.mark(next, '–')
        || cut.mark(next, ',')
        || cut.mark(next, '/')
        || cut.any(next, &["for"])
        || opens && cut.any(next, &["first"]))
        && time(cut, next + 1)
            .or_else(|| time(cut, next))
            .is_some_and(|(minutes, _)| minutes.low >= 2.0 && minutes.high <= 240.0);
    let alone = at == 0 && next == cut.tokens.len();
    (round && (said && ends || (bakes || alone))).then_some((value >= 250.0, false, next))
}

/// Whether an oven is spoken of in the words before: "heat the oven to 180", "bake at 180".
fn oven_before(cut: &Cut<'_>, at: usize) -> bool {
    (at.saturating_sub(4)..at).any(|at| cut.any(at, &["oven", "bake", "baked", "baking"]))
}

/// The time that starts at token `at`, and the token after it.
pub fn time(cut: &Cut<'_>, at: usize) -> Option<(Minutes, usize)> {
    if cut.any(at, &["overnight"]) {
        return Some((Minutes { low: 480.0, high: 720.0, place: cut.place(at, at + 1) }, at + 1));
    }
    if !may_open_number(cut, at) && !cut.any(at, &["a", "an", "another"]) || in_run(cut, at) {
        return None;
    }
    let before = at.checked_sub(1).and_then(|before| cut.get(before));
    if before.is_some_and(|token| token.is_number() && !cut.get(at).is_some_and(|this| this.spaced)) {
        return None;
    }
    let (mut low, mut high, next) = match numbers(cut, at) {
        Some(read) => (read.low.value(), read.high.value(), read.next),
        None if cut.any(at, &["a", "an", "another"]) => (1.0, 1.0, at + 1),
        None => return None,
    };
    let mut next = next + usize::from(cut.mark(next, '-'));
    let unit = |at: usize| -> Option<f64> {
        let token = cut.get(at)?;
        Some(match token.folded.as_str() {
            "second" | "seconds" | "sec" | "secs" => 1.0 / 60.0,
            "minute" | "minutes" | "min" | "mins" => 1.0,
            "hour" | "hours" | "hr" | "hrs" | "h" => 60.0,
            "day" | "days" => 1440.0,
            "week" | "weeks" => 10080.0,
            "month" | "months" => 43200.0,
            _ => return None,
        })
    };
    // "half an hour", "1 hour to 90 minutes" apart, "30 minutes to 1 hour" as one range.
    next += usize::from(cut.any(next, &["an", "a"]) && unit(next + 1).is_some());
    let size = unit(next)?;
    next += 1 + usize::from(cut.mark(next + 1, '.') && cut.get(next + 2).is_some());
    if cut.any(next, &["and"]) && cut.any(next + 1, &["a"]) {
        let part = if cut.any(next + 2, &["half"]) {
            Some(0.5)
        } else if cut.any(next + 2, &["quarter"]) {
            Some(0.25)
        } else {
            None
        };
        if let Some(part) = part {
            low += part;
            high += part;
            next += 3;
        }
    }
    (low, high) = (low * size, high * size);
    if (cut.any(next, &["to"]) || cut.mark(next, '-') || cut.mark(next, '–'))
        && let Some((end, size, after)) =
            number(cut, next + 1).and_then(|(end, after)| unit(after).map(|size| (end.value(), size, after + 1)))
        && end * size > low
    {
        high = end * size;
        next = after;
    }
    Some((Minutes { low, high, place: cut.place(at, next) }, next))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn heats_of(text: &str) -> Vec<i64> {
        #[expect(clippy::cast_possible_truncation, reason = "an oven's degrees")]
        heats(&Cut::of(text), 0).iter().map(|heat| heat.celsius.round() as i64).collect()
    }

    fn times_of(text: &str) -> Vec<(f64, f64)> {
        times(&Cut::of(text), 0).iter().map(|time| (time.low, time.high)).collect()
    }

    #[test]
    fn ok_heats() {
        assert_eq!(heats_of("350°F (175°C)"), [177, 175]);
        assert_eq!(heats_of("Oven: 180C / 160C fan / gas 4"), [180, 160, 180]);
        assert_eq!(heats_of("bake that at three fifty for thirty minutes"), [177]);
        assert_eq!(heats_of("Heat the oven to three hundred and fifty degrees."), [177]);
        assert_eq!(heats_of("8x8 pan w parchment, 350, 22-25 min"), [177]);
        assert_eq!(heats_of("DROP ON GR SHEET. 375 - 10 MIN."), [191]);
        assert_eq!(heats_of("375, 45-50 min. COOL before cutting!!"), [191]);
        assert_eq!(heats_of("Bake at 180 for 40 mins."), [180]);
        assert_eq!(heats_of("bake 150 one hour"), [150]);
        assert_eq!(heats_of("350/40min"), [177]);
        assert_eq!(heats_of("BAKE 400 20 MIN"), [204]);
        assert_eq!(heats_of("350 25-30 min 3 layers"), [177]);
        assert_eq!(heats_of("400"), [204]);
        assert_eq!(heats_of("Weigh 350 g, 2 minutes"), Vec::<i64>::new());
        assert_eq!(heats_of("Oven 350°"), [177]);
        assert_eq!(heats_of("Oven 170 fan. Line a 20cm tin."), [170]);
        assert_eq!(heats_of("Heat the oven to 180, then bake"), [180]);
        assert_eq!(heats_of("Reduce the cream to 200, then stir"), Vec::<i64>::new());
        assert_eq!(heats_of("Gas mark 3."), [160]);
        assert_eq!(heats_of("Weigh 350 g into 2 pans and add 1 c sugar"), Vec::<i64>::new());
        assert!(heats(&Cut::of("fan 200C"), 0)[0].fan);
    }

    #[test]
    fn ok_times() {
        assert_eq!(times_of("Bake 45 to 50 minutes."), [(45.0, 50.0)]);
        assert_eq!(times_of("22-25 min"), [(22.0, 25.0)]);
        assert_eq!(times_of("an hour and a quarter"), [(75.0, 75.0)]);
        assert_eq!(times_of("1 hour 48 minutes"), [(108.0, 108.0)]);
        assert_eq!(times_of("1 to 1 1/2 hours"), [(60.0, 90.0)]);
        assert_eq!(times_of("70 to 80 seconds").len(), 1);
    }
}
