//! Everything that must pass before a change lands: form, lints, tests. Fetches what the outside checks compare with.

use std::process::Command;

use anyhow::{Context, bail};

use crate::checks::outside::{self, Part};

/// The steps in order; the first that fails ends the run.
const STEPS: &[(&str, &[&str])] = &[
    ("the form of the code", &["fmt", "--all", "--check"]),
    ("lints", &["clippy", "--workspace", "--all-targets", "--locked", "--", "-D", "warnings"]),
    ("tests and the examples in the docs", &["test", "--workspace", "--locked"]),
];

/// Runs every step, without the checks that need what is left out.
pub fn run(without: &[Part]) -> anyhow::Result<()> {
    let left_out = if without.contains(&Part::Npm) { "npm" } else { "" };
    if left_out.is_empty() {
        outside::fetch(true)?;
    }
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
    if !left_out.is_empty() {
        println!("skipped, not passed: the outside checks that need {left_out}");
    }
    Ok(())
}
