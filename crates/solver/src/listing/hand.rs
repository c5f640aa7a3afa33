//! Networks made again from a dealt shape.

use super::Listing;
use crate::network::dealing::{Dealing, Dealt};
use crate::network::{Coil, Joint, Network};

/// A walk through the dealings of one class.
#[derive(Clone, Debug)]
pub(crate) struct Dealings {
    pub(super) class: usize,
    pub(super) dealing: Dealing,
}

impl Dealings {
    /// Steps to the next dealing whose drivers are joined as asked.
    pub(crate) fn next(&mut self, listing: &Listing, joined: bool, budget: &mut u64) -> Dealt {
        loop {
            let dealt = self.dealing.next(budget);
            let whole = listing.joined_only || self.dealing.joined_at_driver();
            if dealt != Dealt::Found || whole == joined {
                return dealt;
            }
        }
    }

    /// The network of the dealing it stands at.
    pub(crate) fn network(&self, listing: &Listing) -> Option<Network> {
        let (joint, parts) = listing.shape(self.class)?;
        Some(Hand::new(listing).network(joint, parts, &self.dealing))
    }
}

/// Gives out drivers and coils while a network is written from a dealt shape.
struct Hand<'a> {
    listing: &'a Listing,
    /// The first driver of each group, and the coils given out of each driver.
    first: Vec<u8>,
    given: Vec<Vec<u8>>,
    node: usize,
}

impl<'a> Hand<'a> {
    fn new(listing: &'a Listing) -> Self {
        let mut next = 0_u8;
        let (mut first, mut given) = (Vec::new(), Vec::new());
        for (count, _) in listing.stock.groups() {
            first.push(next);
            next = next.saturating_add(u8::try_from(count).unwrap_or(0));
            given.push(vec![0_u8; usize::try_from(count).unwrap_or(0)]);
        }
        Self { listing, first, given, node: 0 }
    }

    fn network(&mut self, joint: Joint, parts: &[u32], dealing: &Dealing) -> Network {
        let node = self.node;
        self.node = node.saturating_add(1);
        let mut made = Vec::with_capacity(parts.len());
        for group in 0..self.first.len() {
            if dealing.deals(group) {
                let dealt: Vec<u8> = dealing.dealt(node, group).collect();
                for (place, coils) in dealt.into_iter().enumerate() {
                    (0..coils)
                        .for_each(|_| made.extend(self.coil(group, place).map(Network::Coil)));
                }
            }
        }
        let listing = self.listing;
        for part in parts {
            match listing.parts.atom(*part) {
                Some(atom) if dealing.deals(atom.group) => {}
                Some(atom) => made.extend(self.driver(atom.group, &atom.network)),
                None => {
                    made.push(self.network(
                        joint.other(),
                        listing.parts.children_of(*part),
                        dealing,
                    ));
                }
            }
        }
        Network::joined(joint, made)
    }

    fn coil(&mut self, group: usize, place: usize) -> Option<Coil> {
        let given = self.given.get_mut(group)?.get_mut(place)?;
        let coil = *given;
        *given = coil.saturating_add(1);
        let driver = self.first.get(group)?.checked_add(u8::try_from(place).ok()?)?;
        Some(Coil { driver, coil })
    }

    /// The group's next driver, its coils joined like the form.
    fn driver(&mut self, group: usize, form: &Network) -> Option<Network> {
        let place = self.given.get(group)?.iter().position(|given| *given == 0)?;
        let coil = self.coil(group, place)?;
        Some(renumbered(form, coil.driver))
    }
}

fn renumbered(form: &Network, driver: u8) -> Network {
    match form {
        Network::Coil(coil) => Network::Coil(Coil { driver, coil: coil.coil }),
        Network::Node(joint, parts) => {
            Network::Node(*joint, parts.iter().map(|part| renumbered(part, driver)).collect())
        }
    }
}
