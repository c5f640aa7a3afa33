//! The chosen configuration, beside the list: it is of the same room.

pub mod view;
