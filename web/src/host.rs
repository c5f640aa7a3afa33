//! What the page does to the browser around it: storage, address, time.
//!
//! Every call can fail (storage is refused in some frames, history is rationed), and
//! no failure may take the page with it.

pub mod address;
pub mod hand;
pub mod kept;
pub mod offline;
pub mod pace;
pub mod screen;
pub mod shelf;
