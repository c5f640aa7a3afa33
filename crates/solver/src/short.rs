//! Lists: sorting a few dozen entries, and growing to many.
//!
//! The library's sorts are made for long lists and copied for every type they meet: a
//! dozen copies were a sixth of the solver's wasm. Lists that can grow long use them.

use core::cmp::Ordering;

/// Sorts by insertion; equals keep their order.
///
/// # Example
/// ```
/// let mut list = [3, 1, 2];
/// coilwright_solver::short::insertion_sort(&mut list, |a, b| a.cmp(b));
/// assert_eq!(list, [1, 2, 3]);
/// ```
pub fn insertion_sort<T>(list: &mut [T], compare: impl Fn(&T, &T) -> Ordering) {
    for end in 1..list.len() {
        let Some(mut rest) = list.get_mut(..=end) else { break };
        while let Some((last, before)) = rest.split_last_mut()
            && let Some(other) = before.last_mut()
            && compare(other, last) == Ordering::Greater
        {
            core::mem::swap(other, last);
            rest = before;
        }
    }
}

/// Makes room for one more in a list that can grow long: for an eighth more at a time, since
/// doubling takes three times the memory at the worst moment.
pub(crate) fn room<T>(list: &mut Vec<T>) {
    if list.len() == list.capacity() {
        list.reserve_exact((list.len() >> 3).max(16));
    }
}

/// Lengthens such a list by others.
pub(crate) fn extend<T: Copy>(list: &mut Vec<T>, others: &[T]) {
    if list.capacity().saturating_sub(list.len()) < others.len() {
        list.reserve_exact((list.len() >> 3).max(16).max(others.len()));
    }
    list.extend_from_slice(others);
}

#[cfg(test)]
mod tests {
    #[test]
    fn equals_keep_their_order() {
        let mut list = [(2, 'a'), (1, 'b'), (2, 'c'), (0, 'd'), (1, 'e')];
        super::insertion_sort(&mut list, |a, b| a.0.cmp(&b.0));
        assert_eq!(list, [(0, 'd'), (1, 'b'), (1, 'e'), (2, 'a'), (2, 'c')]);
    }
}
