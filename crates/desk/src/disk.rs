//! An author's file from the disk, or why not in plain words.
//!
//! A pipe is never opened, because it would wait for somebody to write into it; a device could go on for ever.

#![allow(clippy::disallowed_methods, reason = "opens the author's files")]

use std::fmt;
use std::fs::{self, Metadata};
use std::io::{self, ErrorKind, Read as _};
use std::path::Path;

use evencrumb_manuscript::LARGEST_TEXT;

/// Why a file could not be read or written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unread {
    /// There is nothing of this name.
    NotThere,
    /// A link to something that is not there.
    LinkToNothing,
    /// Links that lead to each other.
    LinksInACircle,
    /// A folder.
    Folder,
    /// A pipe, a device or a socket.
    NoFile,
    /// Others may, this user may not.
    Forbidden,
    /// Larger than a manuscript may be.
    TooLarge,
    /// Anything else that the system says.
    System(ErrorKind),
}

impl fmt::Display for Unread {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Unread::NotThere => out.write_str("it is not there"),
            Unread::LinkToNothing => out.write_str("it is a link to something that is not there"),
            Unread::LinksInACircle => out.write_str("it is a link that leads back to itself"),
            Unread::Folder => out.write_str("it is a folder, not a file"),
            Unread::NoFile => out.write_str("it is a pipe or a device, not a file"),
            Unread::Forbidden => out.write_str("you may not open it"),
            Unread::TooLarge => write!(out, "it is larger than {LARGEST_TEXT} bytes (1 MB)"),
            Unread::System(kind) => write!(out, "the system says: {kind}"),
        }
    }
}

impl Unread {
    /// How to mend it.
    pub fn mend(self) -> &'static str {
        match self {
            Unread::NotThere => "Look whether the name is right.",
            Unread::LinkToNothing | Unread::LinksInACircle => "Take the link away, or put the file itself there.",
            Unread::Folder => "Name a file in it, or put a file of plain text in its place.",
            Unread::NoFile => "Put a file of plain text in its place, or save what comes out of it as one.",
            Unread::Forbidden => "Look whether you may read it.",
            Unread::TooLarge => "Save it in several files.",
            Unread::System(_) => "Look at the disk that it lies on.",
        }
    }
}

impl From<io::Error> for Unread {
    fn from(error: io::Error) -> Unread {
        match error.kind() {
            ErrorKind::NotFound => Unread::NotThere,
            ErrorKind::PermissionDenied => Unread::Forbidden,
            ErrorKind::IsADirectory => Unread::Folder,
            kind => Unread::System(kind),
        }
    }
}

/// Whether anything of this name lies there, be it a link to nothing.
pub fn lies_there(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok()
}

/// What a plain file is, after its links.
///
/// # Errors
/// Says what else lies there.
pub fn plain_file(path: &Path) -> Result<Metadata, Unread> {
    let found = fs::metadata(path).map_err(|error| {
        let is_link = fs::symlink_metadata(path).is_ok_and(|found| found.is_symlink());
        match Unread::from(error) {
            Unread::NotThere if is_link => Unread::LinkToNothing,
            // The kind of error for too many links has no stable name.
            Unread::System(_) if is_link => Unread::LinksInACircle,
            other => other,
        }
    })?;
    match (found.is_file(), found.is_dir()) {
        (true, _) => Ok(found),
        (_, true) => Err(Unread::Folder),
        _ => Err(Unread::NoFile),
    }
}

/// The bytes of a file, as far as a manuscript may be long and one byte further.
///
/// # Errors
/// Says why it could not be read.
pub fn bytes(path: &Path) -> Result<Vec<u8>, Unread> {
    plain_file(path)?;
    let mut bytes = Vec::new();
    fs::File::open(path)?.take(LARGEST_TEXT as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The bytes of a file of the kitchen folder.
///
/// # Errors
/// As [`bytes`], and [`Unread::TooLarge`].
pub fn whole(path: &Path) -> Result<Vec<u8>, Unread> {
    bytes(path).and_then(|bytes| if bytes.len() > LARGEST_TEXT { Err(Unread::TooLarge) } else { Ok(bytes) })
}

#[cfg(all(test, unix))]
mod tests {
    use std::os::unix::fs::symlink;

    use super::*;

    #[test]
    fn err_what_is_no_file_is_told_and_nothing_waits() {
        let home = tempfile::tempdir().expect("a temporary folder");
        let at = |name: &str| home.path().join(name);
        symlink("nowhere", at("dangling")).expect("a link");
        symlink("b", at("a")).expect("a link");
        symlink("a", at("b")).expect("a link");
        let pipe = std::process::Command::new("mkfifo").arg(at("pipe")).status().expect("mkfifo runs");
        assert!(pipe.success());
        let told = |path: &Path| whole(path).expect_err("no file");
        assert_eq!(told(&at("nothing")), Unread::NotThere);
        assert_eq!(told(&at("dangling")), Unread::LinkToNothing);
        assert_eq!(told(&at("a")), Unread::LinksInACircle);
        assert_eq!(told(home.path()), Unread::Folder);
        assert_eq!(told(&at("pipe")), Unread::NoFile);
        assert_eq!(told(Path::new("/dev/zero")), Unread::NoFile);
        fs::write(at("large"), vec![b'a'; LARGEST_TEXT + 1]).expect("written");
        assert_eq!(told(&at("large")), Unread::TooLarge);
        assert!(lies_there(&at("dangling")) && !lies_there(&at("nothing")));
    }
}
