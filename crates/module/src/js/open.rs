//! Lists that are kept open: `open(request)` with `page(from, limit)` and `close()`.
//!
//! What is handed out is a plain object of two functions that need no `this`, so that a
//! page that is asked for in whatever way is answered. Nothing is ever freed under it: a
//! closed list lets go of what it holds and says that it is closed.

use super::{argument, written};
use crate::opened::Opened;
use crate::value::Value;
use coilwright_solver::bounds::Field;
use core::cell::RefCell;
use js_sys::{Object, Reflect};
use std::rc::{Rc, Weak};
use wasm_bindgen::prelude::*;

/// The most lists that are open at once: opening another closes the oldest, so that those
/// that nobody closes do not fill the memory.
const MOST_OPEN: usize = 4;

type Held = RefCell<Option<Opened>>;

thread_local! {
    /// The lists that are open, the oldest first.
    static OPEN: RefCell<Vec<Weak<Held>>> = const { RefCell::new(Vec::new()) };
}

/// Opens a list.
pub(super) fn open(request: &Value) -> JsValue {
    // Room is made first, so that there are never more.
    make_room();
    let held: Rc<Held> = Rc::new(RefCell::new(Some(Opened::of(request))));
    OPEN.with_borrow_mut(|all| all.push(Rc::downgrade(&held)));
    let of_page = Rc::clone(&held);
    let page = Closure::<dyn Fn(JsValue, JsValue) -> JsValue>::new(move |from, limit| {
        // Both are read before the list is taken: a value can call back.
        let (from, limit) = (argument(&from, Field::From), argument(&limit, Field::Limit));
        let answer = of_page.try_borrow_mut().ok().and_then(|mut held| {
            held.as_mut().map(|list| super::page(list, from.as_ref(), limit.as_ref()))
        });
        answer.unwrap_or_else(|| written(&Opened::closed()))
    });
    let close = Closure::<dyn Fn()>::new(move || drop_list(&held));
    let list = Object::new();
    for (name, function) in [("page", page.into_js_value()), ("close", close.into_js_value())] {
        // A fresh object takes every field.
        let _ = Reflect::set(&list, &JsValue::from_str(name), &function);
    }
    list.into()
}

/// Closes the oldest lists until one more may be opened.
fn make_room() {
    let oldest = OPEN.with_borrow_mut(|all| {
        all.retain(|list| list.upgrade().is_some_and(|held| is_open(&held)));
        let past = (all.len() + 1).saturating_sub(MOST_OPEN);
        all.drain(..past).collect::<Vec<_>>()
    });
    for list in oldest.iter().filter_map(Weak::upgrade) {
        drop_list(&list);
    }
}

fn is_open(held: &Held) -> bool {
    held.try_borrow().map_or(true, |list| list.is_some())
}

fn drop_list(held: &Held) {
    if let Ok(mut held) = held.try_borrow_mut() {
        *held = None;
    }
}
