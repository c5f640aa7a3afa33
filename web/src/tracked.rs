//! A part of the state that knows how often it was changed.
//!
//! What is drawn from it is drawn anew when that number is another: nobody has to remember to
//! say that something changed, since there is no way to change it that does not count.

use std::ops::{Deref, DerefMut};

/// A value, and how often it was given out to be changed.
///
/// # Example
/// ```
/// use coilwright_web::tracked::Tracked;
/// let mut list = Tracked::new(vec![1]);
/// let before = list.version();
/// assert_eq!(list.len(), 1);
/// assert_eq!(list.version(), before, "looked at");
/// list.push(2);
/// assert_ne!(list.version(), before, "changed");
/// ```
#[derive(Clone, Debug, Default)]
pub struct Tracked<T> {
    value: T,
    version: u32,
}

impl<T> Tracked<T> {
    /// A value that was not changed yet.
    pub const fn new(value: T) -> Self {
        Self { value, version: 0 }
    }

    /// How often it was given out to be changed.
    pub const fn version(&self) -> u32 {
        self.version
    }
}

impl<T> Deref for Tracked<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.value
    }
}

impl<T> DerefMut for Tracked<T> {
    fn deref_mut(&mut self) -> &mut T {
        self.version = self.version.wrapping_add(1);
        &mut self.value
    }
}
