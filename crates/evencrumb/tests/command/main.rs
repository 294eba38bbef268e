//! The program as people and scripts meet it.

#![allow(clippy::disallowed_methods, reason = "a test lays out files")]

mod docs;
mod ending;
mod folder;
mod own;
mod people;
mod program;
mod queries;
mod scale;
