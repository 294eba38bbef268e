//! The checks as a table: on a terminal, and as `docs/checks.md`.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use anyhow::Context;
use comfy_table::{ContentArrangement, Table, presets};

use super::row::{Row, Seen};
use super::{Outcome, Theme};

const HEAD: &str = "# Checks against the outside

Written by `cargo xtask checks`; not edited by hand.
Each line holds a figure of ours against a source that did not make it, or says what was counted.
Nothing here feeds a figure, but for the weighings that calibrate widths; they are counted apart.

How well a source was seen is said beside it: *read in the text* (of the law, standard or table itself), *read in a copy*, *computed* (it follows by arithmetic), *common practice, no source*, *from memory*.
`OFF` would mean that ours lies further away than allowed; a test refuses that.
Where a difference is known, the line says so with the reason (or that there is none yet), and the test refuses it when the difference is gone.
";

/// How wide the table is on a terminal.
const WIDTH: u16 = 180;

const COLUMNS: [&str; 6] = ["what", "source", "expected", "got", "allowed", ""];

/// All checks as one table, with the counts behind it.
pub(super) fn terminal(outcomes: &[Outcome]) -> String {
    let mut out = String::new();
    for outcome in outcomes {
        match outcome {
            Outcome::Skipped(title) => {
                let _ = writeln!(out, "{title}: SKIPPED, left out with --without\n");
            }
            Outcome::Made(theme) => {
                let mut table = Table::new();
                table.load_style(presets::NOTHING).set_content_arrangement(ContentArrangement::Dynamic);
                table.set_width(WIDTH).set_header(COLUMNS);
                for row in &theme.rows {
                    table.add_row(cells(row));
                }
                let _ = writeln!(out, "{}: {}\n{table}\n", theme.title, counts(theme));
            }
        }
    }
    let made = outcomes.iter().filter_map(|outcome| match outcome {
        Outcome::Made(theme) => Some(theme),
        Outcome::Skipped(_) => None,
    });
    let (mut all, mut off, mut parts) = (0, 0, 0);
    for theme in made {
        parts += 1;
        all += theme.rows.len();
        off += theme.rows.iter().filter(|row| !row.is_ok).count();
    }
    let skipped = outcomes.len() - parts;
    let _ = write!(out, "{} ok, {off} OFF, {skipped} of {} parts skipped", all - off, outcomes.len());
    out
}

/// The page. A part that was left out keeps the section that `there`, the page as it is, has for it.
pub(super) fn page(outcomes: &[Outcome], there: &str) -> anyhow::Result<String> {
    let kept = sections(there);
    let mut body = String::new();
    let mut contents = String::new();
    for outcome in outcomes {
        let (title, section) = match outcome {
            Outcome::Made(theme) => (theme.title, section(theme)),
            Outcome::Skipped(title) => {
                let section = kept.get(title).with_context(|| {
                    format!(
                        "docs/checks.md has no section {title} to keep; run `cargo xtask checks` once with everything"
                    )
                })?;
                (*title, (*section).to_owned())
            }
        };
        let counts = section.lines().find(|line| line.contains(CHECKS)).unwrap_or_default();
        let _ = writeln!(contents, "- {title}: {counts}");
        body += &format!("\n## {title}\n{section}");
    }
    Ok(format!("{HEAD}\n{contents}{body}"))
}

/// What stands under each heading of a page.
fn sections(page: &str) -> BTreeMap<&str, &str> {
    let parts = page.split("\n## ").skip(1);
    parts.filter_map(|part| part.split_once('\n')).collect()
}

fn section(theme: &Theme) -> String {
    let mut out = format!("\n{}\n\n{}\n\n", sentences(&theme.about), counts(theme));
    let _ = writeln!(out, "| {} |", COLUMNS.join(" | "));
    let _ = writeln!(out, "|{}", "---|".repeat(COLUMNS.len()));
    for row in &theme.rows {
        let _ = writeln!(out, "| {} |", cells(row).map(|cell| cell.replace('|', "\\|")).join(" | "));
    }
    out
}

/// One sentence a line, as all our pages are.
fn sentences(text: &str) -> String {
    text.replace(". ", ".\n")
}

const CHECKS: &str = " checks";

/// How many, and how well their sources were seen.
fn counts(theme: &Theme) -> String {
    let mut by_seen: BTreeMap<Seen, usize> = BTreeMap::new();
    for row in &theme.rows {
        *by_seen.entry(row.source.seen).or_default() += 1;
    }
    let parts: Vec<String> = by_seen.iter().map(|(seen, count)| format!("{count} {seen}")).collect();
    let off = theme.rows.iter().filter(|row| !row.is_ok).count();
    let off = if off == 0 { "none".to_owned() } else { off.to_string() };
    let short = match theme.rows.iter().filter(|row| row.falls_short).count() {
        0 => String::new(),
        lines => format!("; a claim of ours is NOT met in {lines} of the lines"),
    };
    format!("{}{CHECKS} ({}), {off} off{short}.", theme.rows.len(), parts.join("; "))
}

fn cells(row: &Row) -> [String; 6] {
    [
        row.what.clone(),
        format!("{} [{}]", row.source.title, row.source.seen),
        row.expected.clone(),
        row.got.clone(),
        row.allowed.clone(),
        if row.is_ok { "ok" } else { "OFF" }.to_owned(),
    ]
}
