//! Figures, sources and the author's own words, as they are said.

use evencrumb_measure::say::decimal;

/// Characters of a line or a part of it that are said back to the author.
const LONGEST_ECHO: usize = 120;

/// A best value with its range, as `90 g (79 to 102)`; the value alone when it is exact.
pub fn range(best: f64, low: f64, high: f64, unit: &str) -> String {
    let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
    let places = match best.abs() {
        tiny if tiny > 0.0 && tiny < 0.1 => 3,
        small if small < 1.0 => 2,
        small if small < 20.0 => 1,
        _ => 0,
    };
    let shown = |value: f64| format!("{value:.places$}");
    if shown(low) == shown(high) {
        return format!("{}{unit}", decimal(best, places));
    }
    let (best, low, high) = (shown(best), shown(low), shown(high));
    format!("{best}{unit} ({low} to {high})")
}

/// A plain number with at most three decimals, none of them needless; more for one so small that it would read as zero.
pub fn number(value: f64) -> String {
    let places = if value > 0.0 && value < 0.001 { 6 } else { 3 };
    decimal(value, places)
}

/// A source by its title and how well it was seen, once where the title says it already ("from memory").
pub fn source(title: &str, status: &str) -> String {
    if title.to_lowercase().starts_with(status) { title.to_owned() } else { format!("{title} ({status})") }
}

/// The words of the author said back, cut where they are very long.
pub fn echo(text: &str) -> String {
    let text = text.trim();
    match text.char_indices().nth(LONGEST_ECHO) {
        Some((at, _)) => format!("{}…", &text[..at]),
        None => text.to_owned(),
    }
}

/// Characters at either end of a very long message that are said.
const LONGEST_END: usize = 400;

/// A message whose middle is left out where it is very long, because a name or a question of pages was said back in it.
pub fn in_short(message: &str) -> String {
    let end = message.char_indices().nth(LONGEST_END).map(|(at, _)| at);
    let start = message.char_indices().nth_back(LONGEST_END - 1).map(|(at, _)| at);
    match end.zip(start) {
        Some((end, start)) if end < start => format!("{}… …{}", &message[..end], &message[start..]),
        _ => message.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_ranges() {
        assert_eq!(range(90.2, 79.0, 102.3, "g"), "90 g (79 to 102)");
        assert_eq!(range(4.6, 4.2, 5.2, "g"), "4.6 g (4.2 to 5.2)");
        assert_eq!(range(0.36, 0.2, 0.5, "g"), "0.36 g (0.20 to 0.50)");
        assert_eq!(range(113.0, 113.0, 113.0, "g"), "113 g");
        assert_eq!(range(0.5, 0.5, 0.5, "g"), "0.5 g");
        assert_eq!(range(100.0, 100.0, 100.0, "g"), "100 g");
    }

    #[test]
    fn ok_long_words_are_cut() {
        assert_eq!(echo("  1 cup crème "), "1 cup crème");
        assert_eq!(echo(&"é".repeat(200)).chars().count(), LONGEST_ECHO + 1);
    }

    #[test]
    fn ok_a_message_of_pages_is_said_by_its_ends() {
        let said = in_short(&format!("“{}” was not understood", "é".repeat(100_000)));
        assert_eq!(said.chars().count(), 2 * LONGEST_END + 3);
        assert!(said.starts_with("“éé") && said.ends_with("” was not understood"), "{said}");
        let short = "é".repeat(2 * LONGEST_END);
        assert_eq!(in_short(&short), short);
    }

    #[test]
    fn ok_numbers() {
        assert_eq!(number(628.0), "628");
        assert_eq!(number(60.75), "60.75");
        assert_eq!(number(0.0), "0");
        assert_eq!(number(0.000_4), "0.0004");
    }
}
