//! What the program could not do.

use std::io;
use std::path::PathBuf;

use evencrumb_desk::disk::Unread;
use evencrumb_desk::own_foods::edit::NotWritten;
use evencrumb_sheet::why::Misunderstood;

/// Why a command could not be carried out.
#[derive(Debug, thiserror::Error)]
pub enum Trouble {
    /// An argument that is no UTF-8.
    #[error("argument {number}, “{shown}”, is not text in UTF-8")]
    ArgumentNotText {
        /// Counted from 1 after the program's name.
        number: usize,
        /// As near as it can be shown.
        shown: String,
    },
    /// "-" beside other lines.
    #[error("“-” stands for standard input and was given beside other lines")]
    DashAmongLines,
    /// Standard input could not be read.
    #[error("standard input could not be read: {}", .0.kind())]
    Input(io::Error),
    /// Standard input is longer than is read.
    #[error("standard input holds more than 1 MB; nothing was weighed")]
    InputTooLong,
    /// Standard input is no UTF-8.
    #[error("line {line} of standard input is not text in UTF-8; nothing was weighed")]
    InputNotText {
        /// Counted from 1.
        line: usize,
    },
    /// A file could not be read.
    #[error("{} could not be read: {why}", file.display())]
    File {
        /// The file that was named.
        file: PathBuf,
        /// What is wrong with it.
        why: Unread,
    },
    /// A folder that could not be laid out.
    #[error("{} was not laid out: {}", folder.display(), why(error))]
    Folder {
        /// The folder that was named.
        folder: PathBuf,
        /// What the system says.
        error: io::Error,
    },
    /// A file that holds no manuscript.
    #[error("{} was not read: {why}", file.display())]
    NoManuscript {
        /// The file that was named.
        file: PathBuf,
        /// What is wrong with it.
        why: String,
    },
    /// A choice that the manuscript doesn't leave.
    #[error("{} leaves no choice “{wanted}”; {}", file.display(), choices(there))]
    NoSuchChoice {
        /// The manuscript.
        file: PathBuf,
        /// What was asked for.
        wanted: String,
        /// The choices there are.
        there: Vec<String>,
    },
    /// A name that several choices of the manuscript share.
    #[error("“{wanted}” can be several choices in {}: {}", file.display(), meant.join("; "))]
    SeveralChoices {
        /// The manuscript.
        file: PathBuf,
        /// What was asked for.
        wanted: String,
        /// The choices that it can be.
        meant: Vec<String>,
    },
    /// Two choices of which only one can be.
    #[error("{}, line {line}: it can't be both “{one}” and “{other}”", file.display())]
    ChosenTwice {
        /// The manuscript.
        file: PathBuf,
        /// The line that both are about, from 1.
        line: usize,
        /// The choice that was asked for first.
        one: String,
        /// The later one.
        other: String,
    },
    /// A question about a sheet that was not understood.
    #[error("{0}")]
    Question(Misunderstood),
    /// A weighing outside a kitchen folder.
    #[error("there is no kitchen.toml here or just above, so there is no foods.toml to write into")]
    NoKitchen,
    /// What was weighed is not understood or cannot be so.
    #[error("“{text}” was not written down: {why}")]
    Weighing {
        /// What was typed.
        text: String,
        /// What is wrong with it.
        why: String,
        /// How to mend it.
        mend: &'static str,
    },
    /// A file of the author's that was left as it is.
    #[error("{} was left as it is: {error}", file.display())]
    NotWritten {
        /// The file.
        file: PathBuf,
        /// Why.
        error: NotWritten,
    },
    /// A target that was not understood, or that the recipe can't be scaled to.
    #[error("{} was not scaled: {}", file.display(), refused.message)]
    NotScaled {
        /// The file that was named.
        file: PathBuf,
        /// What is wrong, and how to mend it.
        refused: evencrumb_sheet::scale::Refused,
    },
    /// The answer could not be written.
    #[error("the answer could not be written: {}", .0.kind())]
    Output(io::Error),
}

fn choices(there: &[String]) -> String {
    if there.is_empty() {
        return "it has no alternatives, and nothing in it is optional".to_owned();
    }
    format!("there are: {}", there.join("; "))
}

fn why(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::AlreadyExists => "something already lies there, and it is left as it is".to_owned(),
        io::ErrorKind::NotFound => "the folder that it should lie in is not there".to_owned(),
        io::ErrorKind::NotADirectory => "what it should lie in is no folder".to_owned(),
        io::ErrorKind::PermissionDenied => "you may not write there".to_owned(),
        // Its number says nothing to anybody.
        kind => format!("the system says: {kind}"),
    }
}

impl Trouble {
    /// How to mend it.
    pub fn mend(&self) -> &str {
        match self {
            Trouble::ArgumentNotText { .. } => "Write it in UTF-8 and ask again.",
            Trouble::DashAmongLines => "Give “-” alone, or the lines alone.",
            Trouble::Input(_) => "Look at what is sent to the program.",
            Trouble::InputTooLong => "Send it in several parts of at most 1 MB.",
            Trouble::InputNotText { .. } => "Save the text as UTF-8 and send it again.",
            Trouble::File { why, .. } => why.mend(),
            Trouble::Folder { .. } => "Name a folder that is not there yet, in one you may write to.",
            Trouble::NoManuscript { .. } => "Name a file of plain text.",
            Trouble::NoSuchChoice { .. } => "Write the choice as the sheet names it.",
            Trouble::SeveralChoices { .. } => "Write the whole name of the one that is meant.",
            Trouble::ChosenTwice { .. } => {
                "Keep one of the two; several choices can stand together when each is of other lines."
            }
            Trouble::Question(misunderstood) => &misunderstood.mend,
            Trouble::NoKitchen => "Go into your kitchen folder, or make one with “evencrumb new”.",
            Trouble::Weighing { mend, .. } => mend,
            Trouble::NotWritten { error, .. } => error.mend(),
            Trouble::NotScaled { refused, .. } => &refused.mend,
            Trouble::Output(_) => "Look at where the answer is sent, as a full disk.",
        }
    }
}
