//! The browser's storage as a shelf.

use crate::host::shelf::{NotKept, Shelf};
use wasm_bindgen::JsValue;
use web_sys::Storage;

impl Shelf for Storage {
    fn read(&self, name: &str) -> Option<String> {
        self.get_item(name).ok().flatten()
    }

    /// A storage that can be had and does not take a text is full: browsers have several
    /// names for that and no other reason.
    fn write(&self, name: &str, text: &str) -> Result<(), NotKept> {
        self.set_item(name, text).map_err(|_| NotKept::Full)
    }

    fn erase(&self, name: &str) {
        // A name that cannot be cleared is written over later.
        let _ = self.remove_item(name);
    }

    fn names(&self) -> Vec<String> {
        let count = self.length().unwrap_or(0);
        (0..count).filter_map(|i| self.key(i).ok().flatten()).collect()
    }
}

/// A storage, where it can be had.
pub(super) fn of(storage: Result<Option<Storage>, JsValue>) -> Result<Box<dyn Shelf>, NotKept> {
    let storage = storage.ok().flatten().ok_or(NotKept::Refused)?;
    Ok(Box::new(storage))
}
