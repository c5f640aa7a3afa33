//! A network read from its written form alone, with exact loads and shares.
//!
//! This reader is strict where the solver's is lenient: it takes the canonical form
//! of the contract and nothing else, so that reading is itself a check.

use num_rational::Ratio;
use std::collections::BTreeSet;
use std::fmt;

/// An exact quantity of the oracles. Arithmetic that does not fit stops the proof.
pub type Exact = Ratio<i128>;

/// One coil: driver and coil counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Leaf {
    /// The driver.
    pub driver: u8,
    /// The coil within it.
    pub coil: u8,
}

impl fmt::Display for Leaf {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.driver + 1, char::from(b'a' + self.coil))
    }
}

/// A series/parallel network.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tree {
    /// A coil.
    Leaf(Leaf),
    /// Parts one after the other.
    Series(Vec<Tree>),
    /// Parts side by side.
    Parallel(Vec<Tree>),
}

impl Tree {
    /// The parts of a node; none of a coil.
    pub fn parts(&self) -> &[Self] {
        match self {
            Self::Leaf(_) => &[],
            Self::Series(parts) | Self::Parallel(parts) => parts,
        }
    }

    /// Every coil in the order of writing.
    pub fn leaves(&self) -> Vec<Leaf> {
        match self {
            Self::Leaf(leaf) => vec![*leaf],
            _ => self.parts().iter().flat_map(Self::leaves).collect(),
        }
    }

    /// The same network with its coils renamed and its parts put in order, so that
    /// two networks that differ by the order of parts become equal.
    pub fn renamed(&self, name: &impl Fn(Leaf) -> Leaf) -> Self {
        let inside = |parts: &[Self]| {
            let mut parts: Vec<Self> = parts.iter().map(|part| part.renamed(name)).collect();
            parts.sort();
            parts
        };
        match self {
            Self::Leaf(leaf) => Self::Leaf(name(*leaf)),
            Self::Series(parts) => Self::Series(inside(parts)),
            Self::Parallel(parts) => Self::Parallel(inside(parts)),
        }
    }

    /// The same network with its parts in order.
    pub fn sorted(&self) -> Self {
        self.renamed(&|leaf| leaf)
    }

    /// Series and parallel exchanged.
    pub fn dual(&self) -> Self {
        let inside = |parts: &[Self]| parts.iter().map(Self::dual).collect();
        match self {
            Self::Leaf(leaf) => Self::Leaf(*leaf),
            Self::Series(parts) => Self::Parallel(inside(parts)),
            Self::Parallel(parts) => Self::Series(inside(parts)),
        }
    }

    /// The exact load.
    pub fn load(&self, ohms: &impl Fn(Leaf) -> Exact) -> Exact {
        match self {
            Self::Leaf(leaf) => ohms(*leaf),
            Self::Series(parts) => parts.iter().map(|part| part.load(ohms)).sum(),
            Self::Parallel(parts) => {
                parts.iter().map(|part| part.load(ohms).recip()).sum::<Exact>().recip()
            }
        }
    }

    /// Each coil's exact share of the power: the square of its current over its
    /// conductance, with one ampere through the whole, over the power of the whole.
    pub fn shares(&self, ohms: &impl Fn(Leaf) -> Exact) -> Vec<(Leaf, Exact)> {
        let mut currents = Vec::new();
        self.currents(ohms, Exact::from_integer(1), &mut currents);
        let load = self.load(ohms);
        currents
            .into_iter()
            .map(|(leaf, amperes)| (leaf, amperes * amperes * ohms(leaf) / load))
            .collect()
    }

    fn currents(&self, ohms: &impl Fn(Leaf) -> Exact, amperes: Exact, to: &mut Vec<(Leaf, Exact)>) {
        match self {
            Self::Leaf(leaf) => to.push((*leaf, amperes)),
            Self::Series(parts) => parts.iter().for_each(|part| part.currents(ohms, amperes, to)),
            Self::Parallel(parts) => {
                let volts = amperes * self.load(ohms);
                for part in parts {
                    part.currents(ohms, volts / part.load(ohms), to);
                }
            }
        }
    }

    /// Whether every coil gets the same fraction of its rating.
    pub fn even(&self, ohms: &impl Fn(Leaf) -> Exact, rating: &impl Fn(Leaf) -> Exact) -> bool {
        let mut fractions = self.shares(ohms).into_iter().map(|(leaf, share)| share / rating(leaf));
        let first = fractions.next();
        fractions.all(|fraction| Some(fraction) == first)
    }

    /// Whether the coils of each driver are the union of whole parts of one node.
    pub fn joined(&self) -> bool {
        let drivers: BTreeSet<u8> = self.leaves().iter().map(|leaf| leaf.driver).collect();
        drivers.into_iter().all(|driver| self.holds_together(driver))
    }

    fn holds_together(&self, driver: u8) -> bool {
        let of_driver = |part: &Self| {
            let leaves = part.leaves();
            let own = leaves.iter().filter(|leaf| leaf.driver == driver).count();
            (own, leaves.len())
        };
        let counts: Vec<(usize, usize)> = self.parts().iter().map(of_driver).collect();
        let holders = counts.iter().filter(|(own, _)| *own > 0).count();
        if counts.iter().all(|(own, all)| *own == 0 || own == all) {
            return true;
        }
        // The coils lie inside one part, or they are torn apart.
        holders == 1
            && self.parts().iter().any(|part| of_driver(part).0 > 0 && part.holds_together(driver))
    }

    /// Runs of wire without a box, counted end by end: every coil has two ends, and a
    /// run between two coils in series serves one end of each part beside it.
    pub fn runs(&self) -> usize {
        let saved = match self {
            Self::Series(parts) => parts.len() - 1,
            _ => 0,
        };
        let inside: usize = self.parts().iter().map(Self::runs).sum();
        if let Self::Leaf(_) = self { 2 } else { inside - saved }
    }

    /// The form of keys.
    pub fn ascii(&self) -> String {
        let inner = |part: &Self| match part {
            Self::Leaf(leaf) => leaf.to_string(),
            part => format!("({})", part.ascii()),
        };
        let parts = || self.parts().iter().map(inner).collect::<Vec<_>>();
        match self {
            Self::Leaf(leaf) => leaf.to_string(),
            Self::Series(_) => parts().join("+"),
            Self::Parallel(_) => parts().join("||"),
        }
    }

    /// Reads the ASCII form of keys.
    ///
    /// # Panics
    /// On anything but the canonical form: a superfluous parenthesis, a space, mixed
    /// operators, a series part of a series node.
    pub fn read(text: &str) -> Self {
        let (tree, rest) = read_sum(text, text);
        assert_eq!(rest, "", "{text}: something follows the network");
        tree
    }

    /// Reads the form people see, with spaces and `∥`.
    ///
    /// # Panics
    /// As [`Tree::read`], and where the spaces are not one on each side of an operator.
    pub fn read_spaced(text: &str) -> Self {
        let ascii = text.replace(" + ", "+").replace(" ∥ ", "||");
        Self::read(&ascii)
    }
}

fn read_sum<'a>(mut text: &'a str, whole: &str) -> (Tree, &'a str) {
    let mut parts = Vec::new();
    let mut operator = None;
    loop {
        let (part, rest) = read_part(text, whole);
        parts.push(part);
        let next = ["+", "||"].into_iter().find(|op| rest.starts_with(op));
        let Some(found) = next else {
            text = rest;
            break;
        };
        assert!(operator.is_none_or(|op| op == found), "{whole}: mixed operators");
        operator = Some(found);
        text = &rest[found.len()..];
    }
    let tree = match operator {
        None => {
            let only = parts.remove(0);
            let coil = matches!(only, Tree::Leaf(_));
            assert!(coil, "{whole}: parentheses round the whole");
            only
        }
        Some("+") => {
            let flat = |part: &Tree| !matches!(part, Tree::Series(_));
            assert!(parts.iter().all(flat), "{whole}: a series part in a series node");
            Tree::Series(parts)
        }
        Some(_) => {
            let flat = |part: &Tree| !matches!(part, Tree::Parallel(_));
            assert!(parts.iter().all(flat), "{whole}: a parallel part in a parallel node");
            Tree::Parallel(parts)
        }
    };
    (tree, text)
}

fn read_part<'a>(text: &'a str, whole: &str) -> (Tree, &'a str) {
    if let Some(inside) = text.strip_prefix('(') {
        let (tree, rest) = read_sum(inside, whole);
        assert!(!matches!(tree, Tree::Leaf(_)), "{whole}: parentheses round a coil");
        let rest = rest
            .strip_prefix(')')
            .unwrap_or_else(|| panic!("{whole}: a parenthesis is not closed"));
        return (tree, rest);
    }
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    let number: u8 = text[..digits]
        .parse()
        .unwrap_or_else(|_| panic!("{whole}: a driver's number expected at `{text}`"));
    let letter = text.as_bytes().get(digits).copied().unwrap_or(b' ');
    assert!((b'a'..=b'd').contains(&letter) && number > 0, "{whole}: no coil at `{text}`");
    let leaf = Leaf { driver: number - 1, coil: letter - b'a' };
    (Tree::Leaf(leaf), &text[digits + 1..])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn two(_: Leaf) -> Exact {
        Exact::from_integer(2)
    }

    #[test]
    fn the_strict_reader_takes_the_canonical_form() {
        let tree = Tree::read("(1a+1b)||2a");
        assert_eq!(tree, Tree::read_spaced("(1a + 1b) ∥ 2a"));
        assert_eq!(tree.leaves().len(), 3);
        assert_eq!(tree.load(&two), Exact::new(4, 3));
        assert_eq!(tree.runs(), 5);
    }

    #[test]
    fn the_strict_reader_refuses_everything_else() {
        for text in [
            "",
            "1",
            "a",
            "0a",
            "1e",
            "1a+",
            "(1a)",
            "(1a+1b)",
            "((1a+1b))||2a",
            "1a+1b||2a",
            "1a+(1b+2a)",
            "1a + 1b",
            "(1a||1b",
            "1a)",
            "1a||(1b||2a)",
        ] {
            let read = std::panic::catch_unwind(|| Tree::read(text));
            assert!(read.is_err(), "{text} was read");
        }
    }

    #[test]
    fn joined_means_each_driver_is_whole_parts_of_one_node() {
        for (text, joined) in [
            ("1a+1b", true),
            ("1a+1b+2a+2b", true),
            ("(1a+1b)||(2a+2b)", true),
            ("(1a||2a)+1b+2b", false),
            ("(1a+2a)||(1b+2b)", false),
            ("1a+1b+(2a||2b)", true),
            ("(1a+1b)||(1c+1d)||2a", true),
            ("((1a+1b)||1c||1d)+2a", true),
            ("((1a+2a)||1b)+2b", false),
        ] {
            assert_eq!(Tree::read(text).joined(), joined, "{text}");
        }
    }
}
