//! What may stand on the command line.

use clap::{Parser, Subcommand};

/// Weights and figures for recipes written as plain text.
///
/// Ends with 0 when all is well, with 1 when something in what was written must be mended, with 2 when the command
/// could not be carried out.
#[derive(Parser)]
#[command(name = "evencrumb", version)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The commands.
#[derive(Subcommand)]
pub enum Command {
    /// Weigh lines of an ingredient list, as "3/4 cup ground hazelnuts"
    ///
    /// Each line is one argument, in quotation marks. A single "-" reads lines from standard input.
    Weigh {
        /// A line of an ingredient list, or "-"
        #[arg(value_name = "LINE", required = true, allow_hyphen_values = true, value_parser = line)]
        lines: Vec<String>,
        /// Answer in JSON (docs/json/README.md): an object for one line, an array for several or for "-"
        #[arg(long)]
        json: bool,
    },
    /// Put what your own measure weighed into foods.toml of this kitchen folder, as "1 cup oat flour" 96 101 93
    ///
    /// From then on your figure stands before the usual one, with the doubt that your weighings leave.
    Weighed {
        /// The measure and the food, in quotation marks
        #[arg(value_name = "LINE", value_parser = line)]
        line: String,
        /// Grams, one number for each time that you filled and weighed it
        #[arg(value_name = "GRAMS", required = true, value_parser = grams)]
        grams: Vec<f64>,
        /// Whose measure it is, as "my steel cup"
        #[arg(long, value_name = "WORDS")]
        whose: Option<String>,
        /// Write it down even where it is far from your other weighings
        #[arg(long)]
        sure: bool,
    },
    /// Say a weight in cups and spoons that a drawer holds, as "85 g honey"
    ///
    /// Several arguments of several words each are several lines.
    Measures {
        /// A line of an ingredient list
        #[arg(value_name = "LINE", required = true, value_parser = line)]
        line: Vec<String>,
        /// Answer in JSON (docs/json/README.md)
        #[arg(long)]
        json: bool,
    },
    /// Lay out the demo kitchen folder here, and print the sheet of its leading recipe
    Demo {
        /// Only print (there is no workbench to open yet, so this is what it always does)
        #[arg(long)]
        print: bool,
    },
    /// Make an empty kitchen folder
    New {
        /// The folder to make; nothing may lie there yet
        #[arg(value_name = "DIR")]
        folder: std::path::PathBuf,
    },
    /// Print the sheet of a manuscript: weights, shares, what a batch and a serving hold
    Sheet {
        /// A file of plain text
        #[arg(value_name = "FILE")]
        file: std::path::PathBuf,
        /// Take another choice: an alternative by its name, as "walnuts", or "without what is optional"; --with may stand
        /// several times, for several lines
        #[arg(long, value_name = "CHOICE")]
        with: Vec<String>,
        /// Answer in JSON (docs/json/README.md)
        #[arg(long)]
        json: bool,
    },
    /// Tell where a figure of a sheet comes from, as "sugar per serving"
    Why {
        /// A file of plain text
        #[arg(value_name = "FILE")]
        file: std::path::PathBuf,
        /// The figure, and of what: a batch, serving, piece, 100 g, component, ingredient or "line 12"
        #[arg(value_name = "FIGURE", required = true, allow_hyphen_values = true, value_parser = line)]
        figure: Vec<String>,
        /// Show the whole walk: each line with what it leans on
        #[arg(long)]
        all: bool,
        /// Answer in JSON (docs/json/README.md)
        #[arg(long)]
        json: bool,
    },
    /// Make a recipe larger or smaller, in measures that a drawer holds
    Scale {
        /// A file of plain text
        #[arg(value_name = "FILE")]
        file: std::path::PathBuf,
        /// What is wanted: "half", "2 1/2 times", "24 cookies", "serves 30", "two 6-inch round pans", "use up 3 eggs"
        #[arg(long, value_name = "TARGET", allow_hyphen_values = true)]
        to: String,
        /// Answer in JSON (docs/json/README.md)
        #[arg(long)]
        json: bool,
    },
    /// Tell all that is known of a food, and from where
    Food {
        /// The food, by any of its names
        #[arg(value_name = "NAME", required = true)]
        name: Vec<String>,
        /// Tell single fatty acids too
        #[arg(long)]
        all: bool,
        /// Answer in JSON (docs/json/README.md)
        #[arg(long)]
        json: bool,
    },
}

impl Arguments {
    /// What was typed; ends the program when it is not understood, or asks for help.
    pub fn typed() -> Arguments {
        Arguments::parse_from(options_first(std::env::args().collect()))
    }
}

/// Pasted lines may begin with a hyphen ("- 1 cup flour"), so that the parser takes whatever stands behind the first
/// line for a line, and so it is with "line -1" in a question; options go before it. What stands behind "--" keeps its place.
fn options_first(typed: Vec<String>) -> Vec<String> {
    if typed.get(1).is_none_or(|command| command != "weigh" && command != "why") {
        return typed;
    }
    let end = typed.iter().position(|word| word == "--").unwrap_or(typed.len());
    let mut sorted = typed;
    // The sort is stable, and false comes before true.
    sorted[2..end].sort_by_key(|word| !is_option(word));
    sorted
}

/// Grams as people write them: `96`, `95.5`, `95,5`, `96g`.
fn grams(text: &str) -> Result<f64, String> {
    let number = text.trim().trim_end_matches(['g', 'G']).trim_end().replace(',', ".").parse::<f64>();
    number.ok().filter(|grams| grams.is_finite() && *grams > 0.0).ok_or_else(|| "write grams, as 96 or 95.5".to_owned())
}

/// A mistyped option ("--jsn") must not be weighed.
fn line(text: &str) -> Result<String, String> {
    if is_option(text) {
        return Err("no such option; see evencrumb --help".to_owned());
    }
    Ok(text.to_owned())
}

/// Whether the word looks like `--json` or `-h`: hyphens and small letters, nothing else.
fn is_option(word: &str) -> bool {
    let rest = word.strip_prefix('-').unwrap_or_default();
    rest.chars().all(|c| c.is_ascii_lowercase() || c == '-') && rest.chars().any(|c| c.is_ascii_lowercase())
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    fn lines(arguments: &[&str]) -> Option<Vec<String>> {
        let all = ["evencrumb", "weigh"].iter().chain(arguments).map(|word| (*word).to_owned()).collect();
        match Arguments::try_parse_from(options_first(all)).ok()?.command {
            Command::Weigh { lines, json } => {
                Some(lines.into_iter().chain(json.then(|| "as JSON".to_owned())).collect())
            }
            _ => None,
        }
    }

    #[test]
    fn ok_the_definition_is_sound() {
        Arguments::command().debug_assert();
    }

    #[test]
    fn ok_lines_that_begin_with_a_hyphen() {
        assert_eq!(lines(&["- 1 cup flour", "--json"]).unwrap(), ["- 1 cup flour", "as JSON"]);
        assert_eq!(lines(&["-1 cup flour"]).unwrap(), ["-1 cup flour"]);
        assert_eq!(lines(&["-"]).unwrap(), ["-"]);
    }

    #[test]
    fn err_a_mistyped_option() {
        assert_eq!(lines(&["--jsn", "1 cup flour"]), None);
        assert_eq!(lines(&["1 cup flour", "--jsn"]), None);
        assert_eq!(lines(&[]), None);
    }
}
