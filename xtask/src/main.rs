//! The commands of those who work on Evencrumb: `cargo xtask --help`.

// This program is run by hand in the repository: it reads files and prints, which the libraries must not.
#![allow(clippy::print_stdout, clippy::print_stderr)]

mod lines;
mod schema;
mod sr28;

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
    /// Pack the USDA table SR28 into crates/pantry/data/sr28.bin, with its provenance.
    Sr28 {
        /// The folder that holds FOOD_DES.txt, NUT_DATA.txt, WEIGHT.txt, NUTR_DEF.txt and FD_GROUP.txt.
        folder: PathBuf,
        /// Print the description of every food that is left out, and why.
        #[arg(long)]
        left_out: bool,
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
}

fn main() -> anyhow::Result<()> {
    match Arguments::parse().command {
        Command::Sr28 { folder, left_out } => sr28::pack(&folder, left_out),
        Command::Lines { file, show } => lines::print(&file, show),
        Command::Schema => schema::write(),
    }
}

/// The repository: the folder above this package.
fn repository() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap_or(Path::new(".")).to_path_buf()
}
