//! Text on a terminal: wrapped, indented, and without anything that could steer it.

use std::fmt::Write;

/// Columns when nobody says how wide the terminal is.
const USUAL_WIDTH: usize = 80;
/// Longer lines tire the eye, however wide the window.
const WIDEST: usize = 100;

/// A space at which no line is broken; it is written as a plain one.
const NO_BREAK: char = '\u{a0}';

/// Text being laid out.
pub struct Page {
    text: String,
    width: usize,
}

impl Page {
    /// An empty page as wide as the terminal.
    pub fn for_terminal() -> Page {
        let width = terminal_size::terminal_size().map_or(USUAL_WIDTH, |(width, _)| usize::from(width.0));
        Page { text: String::new(), width: width.clamp(30, WIDEST) }
    }

    /// An empty line.
    pub fn gap(&mut self) {
        self.text.push('\n');
    }

    /// A paragraph `indent` columns in; its further lines stand two columns deeper.
    pub fn line(&mut self, indent: usize, text: &str) {
        let mut column = indent;
        let _ = write!(self.text, "{:indent$}", "");
        let mut first = true;
        for word in plain(text).split(' ').filter(|word| !word.is_empty()) {
            let length = word.chars().count();
            if !first && column + 1 + length > self.width {
                let deeper = indent + 2;
                let _ = write!(self.text, "\n{:deeper$}", "");
                column = deeper;
            } else if !first {
                self.text.push(' ');
                column += 1;
            }
            self.text.push_str(&word.replace(NO_BREAK, " "));
            column += length;
            first = false;
        }
        self.text.push('\n');
    }

    /// Two columns: a label padded to `width`, and what belongs to it.
    pub fn row(&mut self, indent: usize, label: &str, width: usize, text: &str) {
        let label = plain(label);
        let gap = width.saturating_sub(label.chars().count());
        let _ = writeln!(self.text, "{:indent$}{label}{:gap$}  {}", "", "", plain(text).replace(NO_BREAK, " "));
    }

    /// What was laid out.
    pub fn into_text(self) -> String {
        self.text
    }
}

/// The text with control characters, and such as turn the direction of writing, made visible and harmless.
pub fn plain(text: &str) -> String {
    let steers = |c: char| matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    text.chars()
        .map(|c| match c {
            '\t' | '\n' | '\r' => ' ',
            c if c.is_control() || steers(c) => '\u{fffd}',
            c => c,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_long_text_is_wrapped() {
        let mut page = Page { text: String::new(), width: 20 };
        page.line(2, "a cup of hazelnut flour weighs 75\u{a0}g");
        page.row(0, "fat", 5, "60.75 g");
        assert_eq!(page.into_text(), "  a cup of hazelnut\n    flour weighs\n    75 g\nfat    60.75 g\n");
    }

    #[test]
    fn err_text_that_would_steer_the_terminal() {
        assert_eq!(plain("1 cup\u{1b}[2J \u{202e}flour\n"), "1 cup\u{fffd}[2J \u{fffd}flour ");
    }
}
