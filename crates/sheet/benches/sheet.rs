//! How long a recipe takes: `cargo bench -p evencrumb-sheet`.
//!
//! The goals, on two cores: the demo's leading recipe in less than a millisecond; ten thousand manuscripts in less than
//! five seconds and 300 MB.

// A bench reads its texts and tells what it found; the libraries do neither.
#![allow(clippy::disallowed_methods, clippy::print_stdout, missing_docs)]

use std::path::Path;
use std::sync::LazyLock;
use std::sync::atomic::{AtomicUsize, Ordering};

use divan::{Bencher, black_box};
use evencrumb_manuscript::read_text;
use evencrumb_pantry::Pantry;
use evencrumb_pantry::weigh::Kitchen;
use evencrumb_sheet::{Sheet, line, sheet};

fn main() {
    divan::main();
    // What the system says of this process; other systems than Linux have no such file.
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    if let Some(peak) = status.lines().find_map(|line| line.strip_prefix("VmHWM:")) {
        println!("most memory held by this process: {}", peak.trim());
    }
}

fn texts(folder: &str) -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(folder);
    let files = std::fs::read_dir(folder).expect("the bench runs in the repository");
    let mut files: Vec<_> = files.filter_map(|entry| Some(entry.ok()?.path())).collect();
    files.sort();
    let files = files.iter().filter(|file| file.extension().is_some_and(|ending| ending == "txt"));
    files.filter_map(|file| Some(read_text(&std::fs::read(file).ok()?).ok()?.text)).collect()
}

/// The manuscripts of the demo and of the fixtures, as people write them.
static MANUSCRIPTS: LazyLock<Vec<String>> =
    LazyLock::new(|| [texts("demo/recipes"), texts("fixtures/manuscripts")].concat());

const DEMO: &str = include_str!("../../../demo/recipes/roasted-pear-buckwheat-layer-cake.txt");

fn whole(text: &str) -> Sheet {
    let pantry = Pantry::ours();
    sheet(text, &evencrumb_manuscript::read(text, pantry), pantry, Kitchen::default())
}

/// The rows of foods and the columns of the table are opened once a process and are not what is timed here.
fn warm() {
    MANUSCRIPTS.iter().for_each(|text| drop(whole(text)));
}

#[divan::bench]
fn demo_manuscript(bencher: Bencher<'_, '_>) {
    warm();
    bencher.bench(|| whole(black_box(DEMO)));
}

#[divan::bench]
fn demo_manuscript_read_only(bencher: Bencher<'_, '_>) {
    warm();
    bencher.bench(|| evencrumb_manuscript::read(black_box(DEMO), Pantry::ours()));
}

#[divan::bench(args = ["2 1/4 cups all-purpose flour, sifted", "1 cup ground moon dust"])]
fn one_line(bencher: Bencher<'_, '_>, text: &str) {
    warm();
    bencher.bench(|| line::weigh(black_box(text), Pantry::ours(), Kitchen::default()));
}

/// What a table of a whole folder keeps of each manuscript: its grams and its queries.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn ten_thousand_manuscripts_on_two_cores(bencher: Bencher<'_, '_>) {
    const MANY: usize = 10_000;
    warm();
    bencher.bench(|| {
        let next = AtomicUsize::new(0);
        let work = || {
            let numbers = std::iter::repeat_with(|| next.fetch_add(1, Ordering::Relaxed)).take_while(|at| *at < MANY);
            let sheets = numbers.map(|at| (at, whole(&MANUSCRIPTS[at % MANUSCRIPTS.len()])));
            sheets.map(|(at, sheet)| (at, sheet.total.grams.range(), sheet.queries)).collect::<Vec<_>>()
        };
        std::thread::scope(|scope| {
            let other = scope.spawn(work);
            (work(), other.join().expect("no sheet panics"))
        })
    });
}
