//! The written form of a network and its reader.
//!
//! `+` joins in series, `∥` (or `||`) in parallel; mixed operators are parenthesised,
//! so no rule of precedence has to be remembered. No outer parentheses, none round a
//! single coil.

use super::{Coil, Joint, Network};
use core::fmt;

impl Network {
    /// The network in ASCII without spaces, as keys have it.
    ///
    /// # Example
    /// ```
    /// use coilwright_solver::network::Network;
    /// let network: Network = "(1a + 1b) ∥ 2a".parse().unwrap();
    /// assert_eq!(network.ascii(), "(1a+1b)||2a");
    /// ```
    #[must_use]
    pub fn ascii(&self) -> String {
        self.text("+", "||")
    }

    fn text(&self, plus: &str, beside: &str) -> String {
        // Lists write ten thousands of them: one that is usual needs no more room.
        const USUAL: usize = 120;
        let mut text = String::with_capacity(USUAL);
        self.write(&mut text, plus, beside, false);
        text
    }

    fn write(&self, to: &mut String, plus: &str, beside: &str, inner: bool) {
        match self {
            Self::Coil(coil) => coil.write(to),
            Self::Node(joint, parts) => {
                if inner {
                    to.push('(');
                }
                for (i, part) in parts.iter().enumerate() {
                    if i > 0 {
                        to.push_str(if *joint == Joint::Series { plus } else { beside });
                    }
                    part.write(to, plus, beside, true);
                }
                if inner {
                    to.push(')');
                }
            }
        }
    }
}

impl Coil {
    fn write(self, to: &mut String) {
        let number = u32::from(self.driver).saturating_add(1);
        for (unit, left) in [(100, number / 100), (10, number / 10), (1, number)] {
            if number >= unit {
                to.extend(char::from_digit(left % 10, 10));
            }
        }
        to.push(char::from(b'a'.saturating_add(self.coil)));
    }
}

impl fmt::Display for Network {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text(" + ", " ∥ "))
    }
}

/// Why a written network could not be read, and at which byte.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unreadable {
    /// The byte where reading stopped.
    pub at: usize,
    /// What was wrong there.
    pub why: UnreadableWhy,
}

/// What was wrong with a written network.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum UnreadableWhy {
    /// A coil or an opening parenthesis was expected.
    PartExpected,
    /// `+` and `∥` side by side without parentheses.
    Mixed,
    /// A parenthesis that is not closed.
    NotClosed,
    /// Something after the end.
    Leftover,
    /// Parentheses nested deeper than any network of 32 coils.
    TooDeep,
    /// A driver number outside 1..255, or a coil letter that no driver has.
    NoSuchCoil,
}

impl core::str::FromStr for Network {
    type Err = Unreadable;

    /// Reads a written network: spaces are optional, `||` stands for `∥`, superfluous
    /// parentheses are accepted.
    ///
    /// # Errors
    /// [`Unreadable`] with the byte where reading stopped.
    fn from_str(text: &str) -> Result<Self, Unreadable> {
        let mut reader = Reader { text, rest: text };
        let network = reader.sum(0)?;
        reader.skip_spaces();
        if reader.rest.is_empty() { Ok(network) } else { Err(reader.fail(UnreadableWhy::Leftover)) }
    }
}

const DEEPEST: u32 = 40;

struct Reader<'a> {
    text: &'a str,
    /// What is still to be read of it.
    rest: &'a str,
}

impl Reader<'_> {
    fn fail(&self, why: UnreadableWhy) -> Unreadable {
        Unreadable { at: self.text.len().saturating_sub(self.rest.len()), why }
    }

    fn skip_spaces(&mut self) {
        self.rest = self.rest.trim_start();
    }

    fn take(&mut self, token: &str) -> bool {
        let after = self.rest.strip_prefix(token);
        self.rest = after.unwrap_or(self.rest);
        after.is_some()
    }

    fn operator(&mut self) -> Option<Joint> {
        self.skip_spaces();
        if self.take("+") {
            Some(Joint::Series)
        } else if self.take("∥") || self.take("||") {
            Some(Joint::Parallel)
        } else {
            None
        }
    }

    /// Parts with one operator between them.
    fn sum(&mut self, depth: u32) -> Result<Network, Unreadable> {
        if depth > DEEPEST {
            return Err(self.fail(UnreadableWhy::TooDeep));
        }
        let mut parts = vec![self.part(depth)?];
        let mut joint = None;
        loop {
            let before = self.rest;
            let Some(found) = self.operator() else { break };
            if joint.is_some_and(|joint| joint != found) {
                self.rest = before;
                return Err(self.fail(UnreadableWhy::Mixed));
            }
            joint = Some(found);
            parts.push(self.part(depth)?);
        }
        Ok(Network::joined(joint.unwrap_or(Joint::Series), parts))
    }

    fn part(&mut self, depth: u32) -> Result<Network, Unreadable> {
        self.skip_spaces();
        if self.take("(") {
            let inside = self.sum(depth.saturating_add(1))?;
            self.skip_spaces();
            return if self.take(")") {
                Ok(inside)
            } else {
                Err(self.fail(UnreadableWhy::NotClosed))
            };
        }
        self.coil().map(Network::Coil)
    }

    fn coil(&mut self) -> Result<Coil, Unreadable> {
        let after = self.rest.trim_start_matches(|c: char| c.is_ascii_digit());
        if after.len() == self.rest.len() {
            return Err(self.fail(UnreadableWhy::PartExpected));
        }
        let digit = |n: u8, digit: u8| n.checked_mul(10)?.checked_add(digit.checked_sub(b'0')?);
        let mut digits = self.rest.bytes().take_while(u8::is_ascii_digit);
        let driver = digits.try_fold(0, digit).and_then(|n| n.checked_sub(1));
        let letter = |c: char| ('a'..='d').contains(&c);
        let coil = after.bytes().next().and_then(|letter| letter.checked_sub(b'a'));
        match (driver, coil, after.strip_prefix(letter)) {
            (Some(driver), Some(coil), Some(rest)) => {
                self.rest = rest;
                Ok(Coil { driver, coil })
            }
            _ => Err(self.fail(UnreadableWhy::NoSuchCoil)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn reads(text: &str, canonical: &str) {
        let network: Network = text.parse().unwrap();
        assert_eq!(network.to_string(), canonical, "{text}");
        let again: Network = network.to_string().parse().unwrap();
        assert_eq!(again, network, "{text}: writing and reading again");
        let again: Network = network.ascii().parse().unwrap();
        assert_eq!(again, network, "{text}: ASCII and back");
    }

    #[test]
    fn equal_ways_of_writing_read_alike() {
        reads("1a", "1a");
        reads("((1a))", "1a");
        reads("1a+1b", "1a + 1b");
        reads("(1a||1b)+2a", "(1a ∥ 1b) + 2a");
        reads(" ( 1a ∥ 1b ) + ( 2a ∥ 2b ) ", "(1a ∥ 1b) + (2a ∥ 2b)");
        reads("1a + (1b + 2a)", "1a + 1b + 2a");
    }

    #[test]
    fn what_cannot_be_read_says_where_and_why() {
        use UnreadableWhy::*;
        let cases = [
            ("", 0, PartExpected),
            ("1a + 1b ∥ 2a", 7, Mixed),
            ("(1a + 1b", 8, NotClosed),
            ("1a)", 2, Leftover),
            ("1a 1b", 3, Leftover),
            ("1", 0, NoSuchCoil),
            ("0a", 0, NoSuchCoil),
            ("1e", 0, NoSuchCoil),
            ("256a", 0, NoSuchCoil),
            ("1a + ", 5, PartExpected),
        ];
        for (text, at, why) in cases {
            assert_eq!(text.parse::<Network>(), Err(Unreadable { at, why }), "{text:?}");
        }
        let deep = "(".repeat(1_000);
        assert_eq!(deep.parse::<Network>().map_err(|e| e.why), Err(TooDeep));
    }
}
