//! The domain: voice coils, amplifiers and every way to join them.
#![forbid(unsafe_code)]
#![deny(missing_docs)]
