//! Networks made again from a dealt shape.

use super::Listing;
use crate::network::canonical::{Form, canonical};
use crate::network::dealing::{Dealing, Dealt};
use crate::network::{Coil, Joint, Network};
use crate::work::Steps;

/// A walk through the dealings of one class.
#[derive(Clone, Debug)]
pub(crate) struct Dealings {
    pub(super) class: usize,
    pub(super) dealing: Dealing,
}

impl Dealings {
    /// Steps to the next dealing whose drivers are joined as asked.
    pub(crate) fn next(&mut self, listing: &Listing, joined: bool, budget: &mut Steps) -> Dealt {
        loop {
            let (dealt, whole) = self.next_of_any(listing, budget);
            if dealt != Dealt::Found || whole == joined {
                return dealt;
            }
        }
    }

    /// Steps to the next dealing, and tells whether its drivers are joined.
    pub(crate) fn next_of_any(&mut self, listing: &Listing, budget: &mut Steps) -> (Dealt, bool) {
        let dealt = self.dealing.next(budget);
        let whole =
            listing.joined_only || (dealt == Dealt::Found && self.dealing.joined_at_driver());
        (dealt, whole)
    }

    /// The network of the dealing it stands at.
    pub(crate) fn network(&self, listing: &Listing) -> Option<Network> {
        let (joint, parts) = listing.shape(self.class)?;
        Some(Hand::new(listing).network(joint, parts, &self.dealing))
    }
}

impl Dealings {
    /// The canonical writing of the dealing it stands at. What all of them have in common
    /// stays in `form`.
    pub(crate) fn canonical(&self, listing: &Listing, form: &mut Option<Form>) -> Option<Network> {
        if let Some(form) = form {
            let written = form.write(&form.words_of(&self.dealing));
            return written.or_else(|| self.network(listing));
        }
        let kinds: Vec<(u32, u32)> = listing.kinds().collect();
        let network = self.network(listing)?;
        if !listing.joined_only {
            *form = Form::of(&network, &kinds);
        }
        // Where finding the one writing would take too much work, the network is its own.
        Some(canonical(&network, &kinds).unwrap_or(network))
    }
}

/// Gives out drivers and coils while a network is written from a dealt shape.
struct Hand<'a> {
    listing: &'a Listing,
    /// The first driver of each kind and the end, and the coils given out of each driver.
    first: Vec<u8>,
    given: [u8; 32],
    node: usize,
}

impl<'a> Hand<'a> {
    fn new(listing: &'a Listing) -> Self {
        let mut first = vec![0_u8];
        let mut next = 0_u8;
        for kind in listing.stock.kinds() {
            next = next.saturating_add(kind.count);
            first.push(next);
        }
        Self { listing, first, given: [0; 32], node: 0 }
    }

    fn network(&mut self, joint: Joint, parts: &[u32], dealing: &Dealing) -> Network {
        let node = self.node;
        self.node = node.saturating_add(1);
        let mut made = Vec::with_capacity(parts.len());
        for group in 0..self.first.len().saturating_sub(1) {
            if dealing.deals(group) {
                for (place, coils) in (0_u8..).zip(dealing.dealt(node, group)) {
                    for _ in 0..coils {
                        made.extend(self.coil(group, place).map(Network::Coil));
                    }
                }
            }
        }
        let listing = self.listing;
        for part in parts {
            match listing.parts.atom(*part) {
                Some(atom) if dealing.deals(atom.group) => {}
                Some(atom) => made.extend(self.driver(atom.group, &atom.network)),
                None => {
                    let parts = listing.parts.children_of(*part);
                    made.push(self.network(joint.other(), parts, dealing));
                }
            }
        }
        Network::joined(joint, made)
    }

    fn coil(&mut self, group: usize, place: u8) -> Option<Coil> {
        let driver = self.first.get(group)?.checked_add(place)?;
        let given = self.given.get_mut(usize::from(driver))?;
        let coil = *given;
        *given = coil.saturating_add(1);
        Some(Coil { driver, coil })
    }

    /// The group's next driver, its coils joined like the form.
    fn driver(&mut self, group: usize, form: &Network) -> Option<Network> {
        let (first, end) = (*self.first.get(group)?, *self.first.get(group.checked_add(1)?)?);
        let free = |driver: &u8| self.given.get(usize::from(*driver)) == Some(&0);
        let driver = (first..end).find(free)?;
        *self.given.get_mut(usize::from(driver))? = 1;
        Some(form.with_coils(&mut |coil| Coil { driver, coil: coil.coil }))
    }
}
