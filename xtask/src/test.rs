//! Everything that must pass before a change lands: tidiness, form, lints, tests, random texts. Fetches what the outside checks
//! compare with.

use std::process::Command;

use anyhow::{Context, bail};

use crate::checks::outside::{self, Part};

/// The steps in order; the first that fails ends the run.
const STEPS: &[(&str, &[&str])] = &[
    ("the form of the code", &["fmt", "--all", "--check"]),
    ("lints", &["clippy", "--workspace", "--all-targets", "--locked", "--", "-D", "warnings"]),
    ("tests and the examples in the docs", &["test", "--workspace", "--locked"]),
];

/// How long each reader is tried with random texts.
const FUZZ_SECONDS: u64 = 60;

/// Runs every step, without the checks that need what is left out; the random texts only when there is time.
pub fn run(without: &[Part], quick: bool) -> anyhow::Result<()> {
    let left_out = if without.contains(&Part::Npm) { "npm" } else { "" };
    if left_out.is_empty() {
        outside::fetch(true)?;
    }
    println!("== whether the repository is tidy");
    crate::tidy::run()?;
    for (what, arguments) in STEPS {
        println!("== {what}: cargo {}", arguments.join(" "));
        let status = Command::new(env!("CARGO"))
            .args(*arguments)
            .current_dir(crate::repository())
            .env(outside::WITHOUT, left_out)
            .status()
            .context("starting cargo")?;
        if !status.success() {
            bail!("{what} did not pass");
        }
    }
    if !quick {
        println!("== random texts for {FUZZ_SECONDS} s");
        crate::fuzz::run(FUZZ_SECONDS)?;
    }
    if !left_out.is_empty() {
        println!("skipped, not passed: the outside checks that need {left_out}");
    }
    Ok(())
}
