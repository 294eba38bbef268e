//! Any text as a manuscript; what must hold of it stands in `xtask/src/holds.rs`.
#![no_main]

libfuzzer_sys::fuzz_target!(|text: &str| xtask::holds::manuscript(text));
