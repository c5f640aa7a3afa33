//! Every configuration and every deal of a rig, by trying everything.

use super::*;

/// Every choice of a place for each coil on outlets of these kinds: no outlet is empty,
/// and each driver is whole on one, but for at most one dual-coil driver with its coils
/// on two of one kind.
fn placings(coils: &[Leaf], kinds: &[usize]) -> Vec<Vec<usize>> {
    let mut found = Vec::new();
    place(coils, kinds, &mut Vec::new(), &mut found);
    found
}

fn place(coils: &[Leaf], kinds: &[usize], placed: &mut Vec<usize>, found: &mut Vec<Vec<usize>>) {
    if !drivers_may_hang(&coils[..placed.len()], coils, placed, kinds) {
        return;
    }
    if placed.len() == coils.len() {
        if (0..kinds.len()).all(|outlet| placed.contains(&outlet)) {
            found.push(placed.clone());
        }
        return;
    }
    for outlet in 0..kinds.len() {
        placed.push(outlet);
        place(coils, kinds, placed, found);
        placed.pop();
    }
}

fn drivers_may_hang(met: &[Leaf], all: &[Leaf], placed: &[usize], kinds: &[usize]) -> bool {
    let mut splits = 0;
    let numbers: BTreeSet<u8> = met.iter().map(|leaf| leaf.driver).collect();
    for driver in numbers {
        let own = met.iter().zip(placed).filter(|(leaf, _)| leaf.driver == driver);
        let outlets: Vec<usize> =
            own.map(|(_, outlet)| *outlet).collect::<BTreeSet<_>>().into_iter().collect();
        let dual = all.iter().filter(|leaf| leaf.driver == driver).count() == 2;
        match outlets[..] {
            [_] => {}
            [a, b] if dual && kinds[a] == kinds[b] => splits += 1,
            _ => return false,
        }
    }
    splits <= 1
}

/// Every configuration of a rig on an amplifier.
#[derive(Clone, Debug)]
pub struct Everything {
    class_of: BTreeMap<Form, usize>,
    examples: Vec<Form>,
}

impl Everything {
    /// Tries everything.
    pub fn of(rig: &[Drivers], outlets: &Outlets) -> Self {
        let forms = every_form(rig, outlets);
        let exchanges = neighbour_exchanges(rig);
        let mut class_of = BTreeMap::new();
        let mut examples = Vec::new();
        for form in forms {
            if class_of.contains_key(&form) {
                continue;
            }
            let class = examples.len();
            examples.push(form.clone());
            let mut reached = vec![form];
            while let Some(form) = reached.pop() {
                if class_of.contains_key(&form) {
                    continue;
                }
                reached.extend(exchanges.iter().map(|exchange| form.exchanged(exchange)));
                class_of.insert(form, class);
            }
        }
        Self { class_of, examples }
    }

    /// One of each.
    pub fn examples(&self) -> &[Form] {
        &self.examples
    }

    /// Every form with the number of the configuration it is.
    pub fn forms(&self) -> impl Iterator<Item = (&Form, usize)> {
        self.class_of.iter().map(|(form, class)| (form, *class))
    }

    /// The number of the configuration that a form is.
    ///
    /// # Panics
    /// If it is none.
    pub fn class(&self, form: &Form) -> usize {
        match self.class_of.get(form) {
            Some(class) => *class,
            None => panic!("{form:?} is no configuration"),
        }
    }

    /// The numbers of those that pass the filters.
    pub fn passing(&self, rig: &[Drivers], filters: Filters) -> BTreeSet<usize> {
        let (ohms, rating) = (ohms(rig), ratings(rig));
        let passes = |form: &Form| {
            (!filters.joined || form.joined()) && (!filters.even || form.even(&ohms, &rating))
        };
        (0..).zip(&self.examples).filter_map(|(n, form)| passes(form).then_some(n)).collect()
    }
}

fn every_form(rig: &[Drivers], outlets: &Outlets) -> BTreeSet<Form> {
    let coils = coils(rig);
    let mut known: BTreeMap<Vec<Leaf>, Vec<Tree>> = BTreeMap::new();
    let mut forms = BTreeSet::new();
    for kinds in outlets.kinds() {
        for placed in placings(&coils, &kinds) {
            let mut hung: Vec<Vec<(usize, Tree)>> = vec![Vec::new()];
            for (outlet, kind) in kinds.iter().enumerate() {
                let here = coils.iter().zip(&placed).filter(|(_, at)| **at == outlet);
                let here: Vec<Leaf> = here.map(|(leaf, _)| *leaf).collect();
                let trees = known
                    .entry(here)
                    .or_insert_with_key(|here| told_apart(here).iter().map(Tree::sorted).collect());
                let with = |before: &Vec<(usize, Tree)>| {
                    let before = before.clone();
                    let with = move |tree: &Tree| [&before[..], &[(*kind, tree.clone())]].concat();
                    trees.iter().map(with).collect::<Vec<_>>()
                };
                hung = hung.iter().flat_map(with).collect();
            }
            forms.extend(hung.into_iter().map(Form::ordered));
        }
    }
    forms
}

/// Every deal of a rig's drivers to an amplifier's outlets, by trying every placing.
pub fn every_deal(rig: &[Drivers], outlets: &Outlets) -> BTreeSet<Deal> {
    let coils = coils(rig);
    let mut deals = BTreeSet::new();
    for kinds in outlets.kinds() {
        for placed in placings(&coils, &kinds) {
            // What hangs there does not matter: all in series.
            let tree = |outlet: usize| {
                let here = coils.iter().zip(&placed).filter(|(_, at)| **at == outlet);
                Tree::Series(here.map(|(leaf, _)| Tree::Leaf(*leaf)).collect())
            };
            let hung = kinds.iter().enumerate().map(|(outlet, kind)| (*kind, tree(outlet)));
            deals.insert(Form::ordered(hung.collect()).deal(rig));
        }
    }
    deals
}

/// How many configurations a rig has on an amplifier, without listing any network: of
/// each deal the networks of each portion counted, and for outlets of one kind with
/// equal portions the choices without order.
pub fn counted(rig: &[Drivers], outlets: &Outlets, joined: bool) -> i128 {
    let deals = every_deal(rig, outlets);
    let whole = |deal: &&Deal| !joined || deal.0.iter().all(|portion| portion.half.is_none());
    deals.iter().filter(whole).map(|deal| counted_deal(rig, deal, joined)).sum()
}

fn counted_deal(rig: &[Drivers], deal: &Deal, joined: bool) -> i128 {
    let mut times: BTreeMap<&Portion, i128> = BTreeMap::new();
    for portion in &deal.0 {
        *times.entry(portion).or_default() += 1;
    }
    let choices = |(portion, times): (&Portion, i128)| {
        let mut here: Vec<Drivers> = Vec::new();
        for (group, count) in rig.iter().zip(&portion.whole).filter(|(_, count)| **count > 0) {
            here.push(Drivers { count: *count, ..group.clone() });
        }
        here.extend(portion.half.map(|group| drivers(1, 1, &rig[group].ohms)));
        let networks = if joined { burnside::joined(&here) } else { burnside::all(&here) };
        // Choosing so many of them, repeats allowed, no order.
        (0..times).fold(1, |product, i| product * (networks + i) / (i + 1))
    };
    times.into_iter().map(choices).product()
}
