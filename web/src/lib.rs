//! The page. It knows how to show and to remember; it computes nothing about electricity.
//!
//! `question` is what every room is about; `answer`, `aside` and `job` are what rooms publish;
//! `rooms` holds a folder for each; `state` is the sum of them and what changes it; `link` and
//! `file` write it down; `pen` and `parts` are what views are written with; `host` is the
//! browser around the page; `later` is what comes once the page is up; `shell` puts all of it together.

pub mod act;
pub mod answer;
pub mod aside;
pub mod file;
pub mod host;
pub mod job;
pub mod later;
pub mod link;
pub mod parts;
pub mod pen;
pub mod question;
pub mod rooms;
pub mod shell;
pub mod state;
pub mod tracked;

pub(crate) use coilwright_words::english as words;
pub use shell::start;
