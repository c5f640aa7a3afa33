//! What comes once the page is up: every room but the list, with what plans, finds faults,
//! keeps rigs and writes files. A first visit does not wait for it.
//!
//! `cargo xtask build` cuts it out of the wasm along the functions of `comes_later!` into a file
//! of its own (cargo feature `split`). A call into a file that is not there would be a trap, so
//! each of them wants a value, [`There`], that is to be had only once it is there. Built without
//! that feature all of it is there from the start.

use std::cell::Cell;

/// How it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Later {
    /// Nobody asked for it yet.
    Waiting,
    /// It is on its way.
    Coming,
    /// It is there.
    There,
    /// It did not come.
    Missing,
}

impl Default for Later {
    fn default() -> Self {
        if there().is_some() { Self::There } else { Self::Waiting }
    }
}

thread_local! {
    /// Whether the file is there. Of one wasm, however many pages it shows.
    static ARRIVED: Cell<bool> = const { Cell::new(!cfg!(feature = "split")) };
}

/// That it is there.
#[derive(Clone, Copy, Debug)]
pub struct There(());

/// The way in, once it is there.
#[must_use]
pub fn there() -> Option<There> {
    ARRIVED.get().then_some(There(()))
}

/// Its file was loaded into this wasm.
pub(crate) fn has_arrived() {
    ARRIVED.set(true);
}

/// It is not there, for what a test does: as on a first visit.
#[cfg(test)]
pub(crate) fn without<T>(does: impl FnOnce() -> T) -> T {
    ARRIVED.set(false);
    let done = does();
    ARRIVED.set(true);
    done
}

/// A function whose body, with all that only it calls, comes later. Its number, of 32
/// hexadecimal digits, is its own in the page: under it the body is cut out and called.
macro_rules! comes_later {
    ($number:literal $(#[$about:meta])* $seen:vis fn $name:ident($($given:ident: $of:ty),* $(,)?) $body:block) => {
        $(#[$about])*
        #[inline(never)]
        #[cfg_attr(
            feature = "split",
            allow(unsafe_code, improper_ctypes, improper_ctypes_definitions)
        )]
        $seen fn $name(_there: $crate::later::There, $($given: $of),*) {
            #[cfg(feature = "split")]
            {
                #[link(wasm_import_module = "__wasm_split_placeholder__")]
                unsafe extern "C" {
                    #[link_name = concat!("__wasm_split_00later00_import_", $number)]
                    safe fn import($($given: $of),*);
                }
                #[unsafe(export_name = concat!("__wasm_split_00later00_export_", $number))]
                extern "C" fn export($($given: $of),*) $body
                import($($given),*);
            }
            #[cfg(not(feature = "split"))]
            $body
        }
    };
}

pub(crate) use comes_later;
