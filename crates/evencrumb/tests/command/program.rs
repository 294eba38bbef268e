//! Runs the program and keeps what came out.

use std::io::Write;
use std::process::{Command, Output, Stdio};

/// What came out of a run.
pub struct Ran {
    /// Exit status.
    pub status: i32,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

/// The program, not yet started; its standard input is empty, so that no terminal of the tester's is found.
pub fn program() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_evencrumb"));
    command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

/// Runs the program with arguments.
pub fn run(arguments: &[&str]) -> Ran {
    ran(program().args(arguments).output().expect("the program starts"))
}

/// Runs the program with arguments in a folder.
pub fn run_in(folder: &std::path::Path, arguments: &[&str]) -> Ran {
    ran(program().current_dir(folder).args(arguments).output().expect("the program starts"))
}

/// Runs the program with arguments in the demo's folder, so that its recipes can be named as an author names them.
pub fn run_in_the_demo(arguments: &[&str]) -> Ran {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo");
    ran(program().current_dir(demo).args(arguments).output().expect("the program starts"))
}

/// Runs the program with arguments and bytes on standard input.
pub fn run_with(arguments: &[&str], input: &[u8]) -> Ran {
    let mut child = program().args(arguments).stdin(Stdio::piped()).spawn().expect("the program starts");
    let mut stdin = child.stdin.take().expect("standard input is piped");
    let input = input.to_vec();
    // Written apart, since a program that answers early would block on a full pipe; it may also stop listening.
    let writer = std::thread::spawn(move || {
        let _ = stdin.write_all(&input);
    });
    let output = child.wait_with_output().expect("the program ends");
    writer.join().expect("the writer ends");
    ran(output)
}

fn ran(output: Output) -> Ran {
    Ran {
        status: output.status.code().expect("no signal ended it"),
        out: String::from_utf8(output.stdout).expect("text"),
        err: String::from_utf8(output.stderr).expect("text"),
    }
}
