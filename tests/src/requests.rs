//! Requests as JSON, generated from the solver's table of fields: sound ones, and ones
//! with something wrong in them.

use crate::campaign;
use crate::generate::{any_ohms, ohms};
use coilwright_solver::bounds::{Default, Field, Kind, OPEN, Object};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::{Index, select};
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use serde_json::{Map, Value, json};

/// So many requests, always the same ones but in a campaign.
pub fn requests(count: usize) -> Vec<Value> {
    let rng = match campaign::seed() {
        None => TestRng::deterministic_rng(RngAlgorithm::ChaCha),
        Some(seed) => {
            let mut bytes = [0; 32];
            bytes[..8].copy_from_slice(&seed.to_le_bytes());
            TestRng::from_seed(RngAlgorithm::ChaCha, &bytes)
        }
    };
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    let strategy = request();
    (0..count)
        .map(|_| strategy.new_tree(&mut runner).expect("no case is rejected").current())
        .collect()
}

/// A request: two in three are sound.
pub fn request() -> impl Strategy<Value = Value> {
    let spoilt = (sound(), vec((any::<Index>(), any::<Index>(), spoil()), 1..=3));
    let spoilt = spoilt.prop_map(|(mut request, spoils)| {
        for (place, entry, spoil) in spoils {
            let mut places = Vec::new();
            containers(&request, &mut Vec::new(), &mut places);
            let path = &places[place.index(places.len())];
            spoil.put(at(&mut request, path), entry);
        }
        request
    });
    prop_oneof![2 => sound(), 1 => spoilt]
}

/// A request without anything wrong in it.
fn sound() -> impl Strategy<Value = Value> {
    object(Object::Request).prop_map(mended)
}

/// An object with every required field and some of the others.
fn object(object: Object) -> BoxedStrategy<Value> {
    let fields = object.fields().map(|field| {
        let spec = field.spec();
        let value = value(field).prop_map(Some);
        let value = match spec.default {
            Default::Required => value.boxed(),
            // Left out, null, or given.
            _ => prop_oneof![
                1 => Just(None),
                1 => Just(Some(Value::Null)),
                3 => value,
            ]
            .boxed(),
        };
        value.prop_map(move |value| value.map(|value| (spec.name.to_owned(), value)))
    });
    let fields: Vec<_> = fields.collect();
    let object = fields.prop_map(|fields| fields.into_iter().flatten().collect::<Map<_, _>>());
    object.prop_map(Value::Object).boxed()
}

/// A value within the bounds of a field.
fn value(field: Field) -> BoxedStrategy<Value> {
    match field.spec().kind {
        Kind::Text { most } | Kind::AnyText { most } => {
            let letters = select(vec!['M', 'a', 'r', 'i', 'g', 'o', 'l', 'd', ' ', 'ö', '"', '5']);
            let text = vec(letters, 0..=most.min(12) as usize);
            text.prop_map(|text| json!(text.into_iter().collect::<String>())).boxed()
        }
        Kind::Whole { least, most } => {
            // Mostly few: long lists are no better as proofs.
            prop_oneof![4 => least..=most.min(least + 3), 1 => least..=most]
                .prop_map(|n| json!(n))
                .boxed()
        }
        Kind::OneOfNumbers(numbers) => select(numbers.to_vec()).prop_map(|n| json!(n)).boxed(),
        Kind::OneOfWords(words) => select(words.to_vec()).prop_map(|w| json!(w)).boxed(),
        Kind::Ohms { .. } => {
            let number = any_ohms().prop_map(|text| json!(text.parse::<f64>().unwrap()));
            prop_oneof![
                4 => ohms().prop_map(|text| json!(text)),
                2 => (1_u32..=16).prop_map(|n| json!(n)),
                1 => number,
            ]
            .boxed()
        }
        Kind::Number { least, most } => prop_oneof![
            3 => (2_u32..=40).prop_map(move |n| json!(f64::from(n * 25).clamp(least, most))),
            1 => (0.0..=1.0).prop_map(move |part| json!(least + (most - least) * part)),
        ]
        .boxed(),
        Kind::Reading { .. } => prop_oneof![
            4 => (0_u32..400).prop_map(|tenths| json!(f64::from(tenths) / 10.0)),
            1 => Just(json!(OPEN)),
        ]
        .boxed(),
        Kind::Boolean => any::<bool>().prop_map(|b| json!(b)).boxed(),
        Kind::Object(inner) => object(inner),
        Kind::Objects { of, least, most } => {
            vec(object(of), least as usize..=most.min(least + 2) as usize)
                .prop_map(Value::Array)
                .boxed()
        }
        // As many as the largest rig needs; cut to length afterwards.
        Kind::Numbers { least, most } => vec(0.0..=1.0, 64)
            .prop_map(move |parts| {
                let number = |part: f64| json!(least + (most - least) * part * part);
                parts.into_iter().map(number).collect()
            })
            .boxed(),
        Kind::TwoChannels => Just(json!([2, 1])).boxed(),
        Kind::Different { .. } => Just(json!([1])).boxed(),
    }
}

/// The most coils of a generated rig: few enough to be listed a thousand times over.
fn most_coils(request: &Value) -> u64 {
    let off = |name: &str| request[name] == json!(false);
    match (off("joined_only"), off("even_only")) {
        (true, true) => 6,
        (true, false) => 9,
        (false, true) => 8,
        (false, false) => 16,
    }
}

/// Makes what is sound field by field sound as a whole.
fn mended(mut request: Value) -> Value {
    let mut left = most_coils(&request);
    let mut groups = Vec::new();
    for mut group in request["drivers"].as_array().cloned().unwrap_or_default() {
        let coils = group["coils"].as_u64().unwrap_or(1);
        let most = left / coils;
        let count = group["count"].as_u64().unwrap_or(1).min(most);
        if count == 0 {
            continue;
        }
        left -= count * coils;
        group["count"] = json!(count);
        if let Some(unused) = group["unused_coils"].as_u64() {
            group["unused_coils"] = json!(unused % coils);
        }
        if let Some(Value::Array(list)) = group.get_mut("dc_ohms") {
            list.truncate((count * coils) as usize);
        }
        groups.push(group);
    }
    request["drivers"] = Value::Array(groups);
    if let Some(Value::Object(amplifier)) = request.get_mut("amplifier") {
        let channels = amplifier["channels"].as_array().map_or(0, Vec::len);
        if let Some(Value::Array(bridges)) = amplifier.get_mut("bridges") {
            bridges.truncate(channels / 2);
            for (i, bridge) in bridges.iter_mut().enumerate() {
                bridge["channels"] = json!([2 * i + 2, 2 * i + 1]);
                told_once(bridge);
            }
        }
        if let Some(Value::Array(channels)) = amplifier.get_mut("channels") {
            channels.iter_mut().for_each(told_once);
        }
    }
    if let Some(Value::Object(built)) = request.get_mut("box") {
        mend_box(built);
    }
    request
}

/// Leaves out what cannot be with the rest of a box: a count of cups but for groups,
/// joining at an amplifier that has one pair of terminals, tabs that take several.
fn mend_box(built: &mut Map<String, Value>) {
    let count = if built.get("cups") == Some(&json!("group")) { json!(1) } else { Value::Null };
    built.insert("cup_count".to_owned(), count);
    built.remove("joined_at");
    for of in ["driver_terminals", "cup_terminals", "amplifier_terminals"] {
        if let Some(Value::Object(takes)) = built.get_mut(of) {
            takes.remove("largest_mm2");
            if takes.get("push_on") == Some(&json!(true)) {
                takes.remove("conductors");
            }
        }
    }
}

/// Leaves out rated points whose ohms stood before.
fn told_once(output: &mut Value) {
    if let Some(Value::Array(points)) = output.get_mut("rated") {
        let mut met: Vec<f64> = Vec::new();
        points.retain(|point| {
            let ohms = as_float(&point["ohms"]);
            let new = met.iter().all(|other| (other - ohms).abs() > 1e-9);
            met.push(ohms);
            new
        });
    }
}

fn as_float(ohms: &Value) -> f64 {
    let text = ohms.as_str().map_or_else(|| ohms.to_string(), str::to_owned);
    let (p, q) = text.split_once('/').unwrap_or((&text, "1"));
    p.parse::<f64>().unwrap() / q.parse::<f64>().unwrap()
}

/// Something wrong.
#[derive(Clone, Debug)]
enum Spoil {
    /// This instead of what stood there.
    Instead(Value),
    /// Nothing instead of what stood there.
    Gone,
    /// What stood there, twice.
    Twice,
    /// A field that nobody knows.
    Unknown,
}

fn spoil() -> impl Strategy<Value = Spoil> {
    let junk = vec![
        json!(null),
        json!(true),
        json!("x"),
        json!(""),
        json!("2"),
        json!("1e3"),
        json!("4/0"),
        json!("0.12345"),
        json!("1.4"),
        json!(0),
        json!(-1),
        json!(0.5),
        json!(3),
        json!(0.12345),
        json!(17),
        json!(1e9),
        json!(1e300),
        json!([]),
        json!([1]),
        json!({}),
        json!("\u{7}"),
        json!([1, 1]),
        json!([1, 9]),
        json!(300_001),
        json!("driver"),
        json!(33),
    ];
    prop_oneof![
        6 => select(junk).prop_map(Spoil::Instead),
        // Few fields are of exact ohms, which alone can be too fine.
        2 => select(vec![json!(0.12345), json!("0.12345")]).prop_map(Spoil::Instead),
        1 => Just(Spoil::Gone),
        1 => Just(Spoil::Twice),
        1 => Just(Spoil::Unknown),
    ]
}

impl Spoil {
    /// Spoils one entry of an object or a list.
    fn put(self, container: &mut Value, entry: Index) {
        match container {
            Value::Object(fields) => {
                let names: Vec<String> = fields.keys().cloned().collect();
                let name = (!names.is_empty()).then(|| names[entry.index(names.len())].clone());
                match (self, name) {
                    (Self::Instead(value), Some(name)) => drop(fields.insert(name, value)),
                    (Self::Gone, Some(name)) => drop(fields.remove(&name)),
                    _ => drop(fields.insert("colour".to_owned(), json!("orange"))),
                }
            }
            Value::Array(entries) if !entries.is_empty() => {
                let place = entry.index(entries.len());
                match self {
                    Self::Instead(value) => entries[place] = value,
                    Self::Gone => drop(entries.remove(place)),
                    Self::Twice | Self::Unknown => {
                        let again = entries[place].clone();
                        entries.push(again);
                    }
                }
            }
            other => *other = json!("spoilt"),
        }
    }
}

/// A step down into a request.
#[derive(Clone, Debug)]
enum Inward {
    Field(String),
    Entry(usize),
}

/// Every object and list in a request.
fn containers(value: &Value, here: &mut Vec<Inward>, to: &mut Vec<Vec<Inward>>) {
    let mut visit = |step: Inward, inside: &Value| {
        here.push(step);
        containers(inside, here, to);
        here.pop();
    };
    match value {
        Value::Object(fields) => {
            fields.iter().for_each(|(name, inside)| visit(Inward::Field(name.clone()), inside));
        }
        Value::Array(entries) => {
            entries.iter().enumerate().for_each(|(i, inside)| visit(Inward::Entry(i), inside));
        }
        // The request itself may have been spoilt into anything.
        _ if here.is_empty() => {}
        _ => return,
    }
    to.push(here.clone());
}

fn at<'v>(value: &'v mut Value, path: &[Inward]) -> &'v mut Value {
    path.iter().fold(value, |value, step| match step {
        Inward::Field(name) => &mut value[name.as_str()],
        Inward::Entry(i) => &mut value[*i],
    })
}
