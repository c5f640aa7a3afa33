//! Every sentence that a person reads.
//!
//! Typed codes and data go in, text comes out: the solver knows no language, and
//! neither the page nor the JSON contract writes a sentence of its own. Each language
//! is one module with the same functions; [`english`] is the only one so far. How
//! numbers are written (the decimal mark, the grouping of digits) belongs to the
//! language too and is handed to [`figures`].
//!
//! What this crate does not do: it computes nothing about electricity. A figure that
//! is not in the solver's answer is not in a sentence.
//!
//! Numbers are written through whole numbers, never through the formatting of floats,
//! which alone would add a fifth to what a visitor downloads.
#![forbid(unsafe_code)]
#![deny(missing_docs)]

pub mod english;
pub mod figures;
