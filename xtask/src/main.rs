//! The commands of those who work on Evencrumb: `cargo xtask --help`.

// This program is run by hand in the repository: it reads files and prints, which the libraries must not.
#![allow(clippy::print_stdout, clippy::print_stderr, clippy::disallowed_methods)]

mod checks;
mod fuzz;
mod linear;
mod lines;
mod pantry;
mod schema;
mod sr28;
mod test;
mod tidy;

use std::path::{Path, PathBuf};

use clap::{Parser, Subcommand};

/// Work on the repository: pack tables, check rows.
#[derive(Parser)]
#[command(name = "cargo xtask", bin_name = "cargo xtask")]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Run everything that must pass before a change lands.
    Test {
        /// Leave out the checks that need this; they count as skipped, not as passed.
        #[arg(long)]
        without: Vec<checks::outside::Part>,
        /// Leave out the minute of random texts at the end.
        #[arg(long)]
        quick: bool,
    },
    /// Hold our figures against outside sources, print the table and write docs/checks.md.
    Checks {
        /// Leave out the checks that need this; they count as skipped, not as passed.
        #[arg(long)]
        without: Vec<checks::outside::Part>,
    },
    /// Throw random texts at the readers: with cargo-fuzz on the nightly compiler where both are there, else from here.
    Fuzz {
        /// How long each of the two readers is tried; they run side by side.
        #[arg(long, default_value_t = 60)]
        seconds: u64,
    },
    /// Show that reading takes twice as long for twice the text, and no longer than that.
    Linear,
    /// Pack the USDA table SR28 into crates/pantry/data/sr28.bin, with its provenance.
    Sr28 {
        /// The folder that holds FOOD_DES.txt, NUT_DATA.txt, WEIGHT.txt, NUTR_DEF.txt and FD_GROUP.txt.
        folder: PathBuf,
        /// Print the description of every food that is left out, and why.
        #[arg(long)]
        left_out: bool,
    },
    /// Check the rows of crates/pantry/data/foods and count them.
    Pantry {
        /// List every value by the source it leans on, in place of the faults.
        #[arg(long)]
        sources: bool,
    },
    /// Read a corpus of ingredient lines and count what is right, queried and confidently wrong.
    Lines {
        /// The corpus, as fixtures/lines.tsv.
        file: PathBuf,
        /// Print what was read of each line that is not right.
        #[arg(long)]
        show: bool,
    },
    /// Write the JSON Schemas of the program's answers into docs/json/.
    Schema,
    /// Check that the repository says of itself what is so: the table of crates, pages, embedded files.
    Tidy,
}

fn main() -> anyhow::Result<()> {
    match Arguments::parse().command {
        Command::Test { without, quick } => test::run(&without, quick),
        Command::Checks { without } => checks::run(&without),
        Command::Fuzz { seconds } => fuzz::run(seconds),
        Command::Linear => linear::print(),
        Command::Sr28 { folder, left_out } => sr28::pack(&folder, left_out),
        Command::Pantry { sources } => pantry::check(sources),
        Command::Lines { file, show } => lines::print(&file, show),
        Command::Schema => schema::write(),
        Command::Tidy => tidy::run(),
    }
}

/// The repository: the folder above this package.
fn repository() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap_or(Path::new(".")).to_path_buf()
}
