//! Everything that must pass before a change lands: form, lints, tests. Installs nothing yet, for nothing needs it.

use std::process::Command;

use anyhow::{Context, bail};

/// The steps in order; the first that fails ends the run.
const STEPS: &[(&str, &[&str])] = &[
    ("the form of the code", &["fmt", "--all", "--check"]),
    ("lints", &["clippy", "--workspace", "--all-targets", "--locked", "--", "-D", "warnings"]),
    ("tests and the examples in the docs", &["test", "--workspace", "--locked"]),
];

/// Runs every step.
pub fn run() -> anyhow::Result<()> {
    for (what, arguments) in STEPS {
        println!("== {what}: cargo {}", arguments.join(" "));
        let status = Command::new(env!("CARGO"))
            .args(*arguments)
            .current_dir(crate::repository())
            .status()
            .context("starting cargo")?;
        if !status.success() {
            bail!("{what} did not pass");
        }
    }
    Ok(())
}
