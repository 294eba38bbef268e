//! What goes out. A reader who leaves early (`| head`) is no trouble.

use std::io::{self, BufWriter, Write};
use std::path::Path;
use std::sync::{Mutex, PoisonError};

use evencrumb_desk::{kitchen, own_foods};
use evencrumb_manuscript::FoodId;
use evencrumb_sheet::line::WeighedLine;
use serde::Serialize;

use crate::trouble::Trouble;
use crate::{Outcome, say};

/// Lets `write` fill standard output with text for people.
pub fn people(
    outcome: &mut Outcome,
    write: impl FnOnce(&mut dyn Write, &mut Outcome) -> io::Result<()>,
) -> Result<(), Trouble> {
    finish(&mut BufWriter::new(anstream::stdout().lock()), outcome, write)
}

/// Lets `write` fill standard output with JSON, whose bytes are left as they are.
pub fn json(
    outcome: &mut Outcome,
    write: impl FnOnce(&mut dyn Write, &mut Outcome) -> io::Result<()>,
) -> Result<(), Trouble> {
    finish(&mut BufWriter::new(io::stdout().lock()), outcome, write)
}

/// Gives one answer, as JSON or laid out for people, and the way the command ends.
pub fn answer(
    answer: &impl Serialize,
    as_json: bool,
    mut outcome: Outcome,
    page: impl FnOnce() -> String,
) -> Result<Outcome, Trouble> {
    if as_json {
        json(&mut outcome, |out, _| {
            serde_json::to_writer_pretty(&mut *out, answer)?;
            writeln!(out)
        })?;
    } else {
        people(&mut outcome, |out, _| out.write_all(page().as_bytes()))?;
    }
    Ok(outcome)
}

fn finish(
    out: &mut dyn Write,
    outcome: &mut Outcome,
    write: impl FnOnce(&mut dyn Write, &mut Outcome) -> io::Result<()>,
) -> Result<(), Trouble> {
    match write(out, outcome).and_then(|()| out.flush()) {
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        Err(error) => Err(Trouble::Output(error)),
        Ok(()) => Ok(()),
    }
}

/// Says on standard error what could not be done and how to mend it.
pub fn complain(trouble: &Trouble) -> io::Result<()> {
    let message = crate::page::plain(&say::in_short(&trouble.to_string()));
    writeln!(anstream::stderr().lock(), "evencrumb: {message}\n  {}", trouble.mend())
}

/// The kitchen of a folder and the foods at hand in it. What is wrong in its files is said on standard error, and the
/// rest works.
pub fn at_hand(folder: &Path) -> (own_foods::Found, kitchen::Found) {
    let kitchen = kitchen::beside(folder);
    let foods = own_foods::beside(&kitchen);
    faults(&kitchen.faults);
    faults(&foods.faults);
    (foods, kitchen)
}

/// Says what is odd in the author's figures of the foods of a line.
pub fn odd(foods: &own_foods::Found, line: &WeighedLine) {
    let used = line.foods.iter().chain(&line.alternatives).filter_map(|one| one.item.food);
    used.for_each(|food| odd_of(foods, food));
}

/// Says what is odd in the author's figures of a food.
pub fn odd_of(foods: &own_foods::Found, food: FoodId) {
    faults(&foods.odd.iter().filter(|odd| odd.0 == food).map(|odd| odd.1.clone()).collect::<Vec<_>>());
}

/// What has been said of the kitchen folder, in that order.
static SAID: Mutex<Vec<String>> = Mutex::new(Vec::new());

/// All that was wrong in the files of the kitchen folder, for an answer that a script reads.
pub fn kitchen_faults() -> Vec<String> {
    SAID.lock().unwrap_or_else(PoisonError::into_inner).clone()
}

/// Says on standard error what is wrong in a file of the kitchen folder, each once however often the file is read.
pub fn faults(faults: &[String]) {
    let mut said = SAID.lock().unwrap_or_else(PoisonError::into_inner);
    for fault in faults {
        if said.contains(fault) {
            continue;
        }
        said.push(fault.clone());
        // Nobody may be listening there; the figures come all the same.
        let _ = writeln!(anstream::stderr().lock(), "evencrumb: {}", crate::page::plain(fault));
    }
}
