//! The pictures of Coilwright as pure geometry: marks with roles, in whole numbers.
//!
//! One unit is one CSS pixel at a root size of 16 px. A mark has a [`Role`](scene::Role)
//! and no colour; the page's style sheet draws it. Labels come in as arguments: nothing
//! here knows a language, and nothing here knows electricity beyond the tree of a network.
//!
//! No float is formatted, not even by the message of `f64::clamp`: that alone would add
//! 20 KB to the page.
//!
//! # Example
//! ```
//! use coilwright_drawing::circuit::{Hung, circuit};
//! let network = "(1a + 1b) ∥ (2a + 2b)".parse().unwrap();
//! let scene = circuit(&[Hung { network: &network, plus: "+", minus: "−" }], 328);
//! assert!(scene.width <= 328);
//! assert!(scene.svg("circuit", Some("two drivers")).starts_with("<svg"));
//! ```
#![forbid(unsafe_code)]
#![deny(missing_docs)]

pub mod circuit;
pub mod code;
pub mod ladder;
pub mod scene;
pub mod shares;
pub mod wired;
