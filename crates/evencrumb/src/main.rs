//! The program `evencrumb`: weights and figures for recipes written as plain text.
//!
//! It ends with 0 when all is well, with 1 when something in what was written must be mended, and with 2 when the
//! command could not be carried out; then standard error says why.

#![allow(clippy::disallowed_methods, reason = "a face reads what it is given")]

mod arguments;
mod cost;
mod demo;
mod food;
mod input;
mod measures;
mod opened;
mod out;
mod page;
mod pans;
mod say;
mod scale;
mod sheet;
mod trouble;
mod weigh;
mod weighed;
mod why;

use std::process::ExitCode;

use arguments::{Arguments, Command};
use trouble::Trouble;

/// How a command ended, when it could be carried out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Outcome {
    /// Nothing has to be mended.
    Fine,
    /// Something in what was written must be mended.
    ToMend,
}

fn main() -> ExitCode {
    match run() {
        Ok(Outcome::Fine) => ExitCode::SUCCESS,
        Ok(Outcome::ToMend) => ExitCode::from(1),
        Err(trouble) => {
            // Nobody may be listening there either; the exit status still tells.
            let _ = out::complain(&trouble);
            ExitCode::from(2)
        }
    }
}

fn run() -> Result<Outcome, Trouble> {
    input::arguments_are_text()?;
    match Arguments::typed().command {
        Command::Weigh { lines, json } => weigh::run(&lines, json),
        Command::Weighed { line, grams, whose, sure } => weighed::run(&line, &grams, whose.as_deref(), sure),
        Command::Measures { line, json } => measures::run(&line, json),
        Command::Demo { print: _ } => demo::run(),
        Command::New { folder } => demo::new(&folder),
        Command::Sheet { file, with, json } => sheet::run(&file, &with, json),
        Command::Why { file, figure, all, json } => why::run(&file, &figure.join(" "), all, json),
        Command::Scale { file, to, json } => scale::run(&file, &to, json),
        Command::Food { name, all, json } => food::run(&name.join(" "), all, json),
    }
}
