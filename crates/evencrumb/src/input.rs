//! What comes in: arguments and standard input, as text or not at all.

use std::io::{self, Read};
use std::path::Path;

use evencrumb_desk::disk;

use crate::trouble::Trouble;

/// Bytes of standard input that are read, 1 MB: a cookbook, and some 5 s of work.
const LONGEST_INPUT: u64 = 1_000_000;

/// Refuses arguments that are not UTF-8, in plain words.
pub fn arguments_are_text() -> Result<(), Trouble> {
    let wrong = std::env::args_os().enumerate().skip(1).find(|(_, argument)| argument.to_str().is_none());
    match wrong {
        Some((number, argument)) => {
            Err(Trouble::ArgumentNotText { number, shown: argument.to_string_lossy().into_owned() })
        }
        None => Ok(()),
    }
}

/// The bytes of a file that the user named, as far as a manuscript may be long and one byte further.
pub fn file(path: &Path) -> Result<Vec<u8>, Trouble> {
    disk::bytes(path).map_err(|why| Trouble::File { file: path.to_owned(), why })
}

/// The lines of standard input.
pub fn standard_input() -> Result<Vec<String>, Trouble> {
    let mut bytes = Vec::new();
    io::stdin().lock().take(LONGEST_INPUT + 1).read_to_end(&mut bytes).map_err(Trouble::Input)?;
    if bytes.len() as u64 > LONGEST_INPUT {
        return Err(Trouble::InputTooLong);
    }
    lines(&bytes)
}

/// Lines of bytes, without a byte-order mark.
fn lines(bytes: &[u8]) -> Result<Vec<String>, Trouble> {
    let text = str::from_utf8(bytes).map_err(|error| {
        let before = &bytes[..error.valid_up_to()];
        Trouble::InputNotText { line: before.iter().filter(|byte| **byte == b'\n').count() + 1 }
    })?;
    Ok(text.strip_prefix('\u{feff}').unwrap_or(text).lines().map(str::to_owned).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ok_lines_of_any_system() {
        assert_eq!(lines("\u{feff}1 egg\r\n\r\nsalt".as_bytes()).unwrap(), ["1 egg", "", "salt"]);
    }

    #[test]
    fn err_bytes_that_are_no_text() {
        let error = lines(b"1 egg\n\xff\n").unwrap_err();
        assert_eq!(error.to_string(), "line 2 of standard input is not text in UTF-8; nothing was weighed");
    }
}
