//! Resistors between named places, solved by nodal analysis.

use std::collections::BTreeMap;

/// What a wire without length is taken for: nothing is a perfect conductor.
pub(super) const LEAST: f64 = 1e-6;

/// A resistor.
#[derive(Clone, Debug, PartialEq)]
pub struct Link {
    /// One end.
    pub a: String,
    /// The other.
    pub b: String,
    /// Ohms.
    pub ohms: f64,
}

impl Link {
    /// A resistor between two places.
    pub fn new(a: &str, b: &str, ohms: f64) -> Self {
        Self { a: a.to_owned(), b: b.to_owned(), ohms }
    }
}

/// The places that hang on the + probe, numbered from it: only they have a voltage at all.
pub fn numbered<'a>(links: &'a [Link], plus: &'a str) -> BTreeMap<&'a str, usize> {
    let mut number: BTreeMap<&str, usize> = [(plus, 0)].into();
    loop {
        let before = number.len();
        for link in links {
            for (from, to) in [(&link.a, &link.b), (&link.b, &link.a)] {
                if number.contains_key(from.as_str()) {
                    let next = number.len();
                    number.entry(to).or_insert(next);
                }
            }
        }
        if number.len() == before {
            return number;
        }
    }
}

/// What lies between two places, in ohms; nothing where no current can flow.
pub fn between(links: &[Link], plus: &str, minus: &str) -> Option<f64> {
    if plus == minus {
        return Some(0.0);
    }
    let number = numbered(links, plus);
    let ground = *number.get(minus)?;
    // The place of the − probe is taken out; an ampere goes in at the + probe.
    let row = |place: usize| match place.cmp(&ground) {
        std::cmp::Ordering::Less => Some(place),
        std::cmp::Ordering::Equal => None,
        std::cmp::Ordering::Greater => Some(place - 1),
    };
    let unknown = number.len() - 1;
    let mut rows = vec![vec![0.0; unknown + 1]; unknown];
    for link in links {
        let (Some(a), Some(b)) = (number.get(link.a.as_str()), number.get(link.b.as_str())) else {
            continue;
        };
        if a == b {
            continue;
        }
        let siemens = link.ohms.max(LEAST).recip();
        let ends = [row(*a), row(*b)];
        for end in ends.into_iter().flatten() {
            rows[end][end] += siemens;
        }
        if let [Some(a), Some(b)] = ends {
            rows[a][b] -= siemens;
            rows[b][a] -= siemens;
        }
    }
    let fed = row(0)?;
    rows[fed][unknown] = 1.0;
    Some(solved(rows)?[fed])
}

/// Gaussian elimination with the greatest pivot of each column; the last column is the
/// right-hand side.
fn solved(mut rows: Vec<Vec<f64>>) -> Option<Vec<f64>> {
    let many = rows.len();
    for column in 0..many {
        let best = (column..many)
            .max_by(|a, b| rows[*a][column].abs().total_cmp(&rows[*b][column].abs()))?;
        rows.swap(column, best);
        let pivot = rows[column].clone();
        if pivot[column] == 0.0 {
            return None;
        }
        for row in rows.iter_mut().skip(column + 1) {
            let times = row[column] / pivot[column];
            for (value, above) in row.iter_mut().zip(&pivot).skip(column) {
                *value -= times * above;
            }
        }
    }
    let mut volts = vec![0.0; many];
    for row in (0..many).rev() {
        let known: f64 = (row + 1..many).map(|column| rows[row][column] * volts[column]).sum();
        volts[row] = (rows[row][many] - known) / rows[row][row];
    }
    Some(volts)
}
