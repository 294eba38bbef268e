//! Any text as a line; what must hold of it stands in `xtask/src/holds.rs`.
#![no_main]

libfuzzer_sys::fuzz_target!(|text: &str| xtask::holds::line(text));
