//! Laws of a file of saved rigs, on files that nobody would write by hand.

mod values;

use coilwright_module::contract::{pretty, rigs_file_schema};
use coilwright_module::reader::file;
use coilwright_module::value::Value;
use coilwright_solver::bounds::Object;
use coilwright_solver::problem::Code;
use coilwright_words::english::problems::message;
use proptest::prelude::*;
use values::{anything, distinct, for_object, leads_somewhere};

/// Whether a value is what the schema says, but for the forms of texts.
fn fits(root: &Value, schema: &Value, value: &Value) -> bool {
    let number = |name: &str| match schema.get(name) {
        Some(Value::Number(number)) => Some(*number),
        _ => None,
    };
    let at_most = |name: &str, found: usize| number(name).is_none_or(|most| found as f64 <= most);
    if let Some(Value::Text(name)) = schema.get("$ref") {
        let name = name.trim_start_matches("#/$defs/");
        let defined = root.get("$defs").and_then(|defs| defs.get(name));
        return defined.is_some_and(|schema| fits(root, schema, value));
    }
    if let Some(Value::List(any)) = schema.get("anyOf") {
        return any.iter().any(|one| fits(root, one, value));
    }
    if let Some(Value::List(words)) = schema.get("enum") {
        return words.contains(value);
    }
    let Some(Value::Text(kind)) = schema.get("type") else {
        return false;
    };
    match (kind.as_str(), value) {
        ("null", Value::Null) | ("boolean", Value::Bool(_)) => true,
        ("string", Value::Text(text)) => at_most("maxLength", text.chars().count()),
        ("integer" | "number", Value::Number(found)) => {
            (kind == "number" || found.fract() == 0.0)
                && number("minimum").is_none_or(|least| *found >= least)
                && number("maximum").is_none_or(|most| *found <= most)
        }
        ("array", Value::List(entries)) => {
            let twice = entries.iter().enumerate().any(|(i, entry)| entries[..i].contains(entry));
            at_most("maxItems", entries.len())
                && number("minItems").is_none_or(|least| entries.len() as f64 >= least)
                && !(twice && schema.get("uniqueItems").is_some())
                && schema
                    .get("items")
                    .is_some_and(|items| entries.iter().all(|entry| fits(root, items, entry)))
        }
        ("object", Value::Object(fields)) => {
            let (Some(Value::List(required)), Some(known)) =
                (schema.get("required"), schema.get("properties"))
            else {
                return false;
            };
            required
                .iter()
                .all(|name| matches!(name, Value::Text(name) if value.get(name).is_some()))
                && fields.iter().all(|(name, value)| {
                    known.get(name).is_some_and(|schema| fits(root, schema, value))
                })
        }
        _ => false,
    }
}

/// A file is read, or all that is wrong with it is told; the schema agrees.
fn check(value: &Value) -> Result<bool, TestCaseError> {
    let schema = rigs_file_schema();
    let fitting = fits(&schema, &schema, value);
    match file(value) {
        Ok(rigs) => {
            let Some(Value::List(list)) = value.get("rigs") else {
                return Err(TestCaseError::fail("rigs out of no list"));
            };
            prop_assert_eq!(rigs.len(), list.len());
            prop_assert!(fitting, "the schema alone refuses {}", pretty(value));
            Ok(true)
        }
        Err(problems) => {
            prop_assert!(!problems.is_empty());
            for problem in &problems {
                let path = problem.path.as_str();
                prop_assert!(leads_somewhere(value, path), "{:?} in {}", problem, pretty(value));
                prop_assert!(message(problem).ends_with('.'));
                // What no schema says: the forms of texts, and what an entry of readings is.
                let of_text = matches!(
                    problem.code,
                    Code::NotANumberText | Code::TooManyPlaces | Code::OutOfRange
                );
                let unsaid = of_text || path.contains("readings[");
                prop_assert!(!fitting || unsaid, "the schema alone takes {:?}", problem);
            }
            let mut told: Vec<_> = problems.iter().map(|one| (&one.path, one.code)).collect();
            told.sort_unstable();
            told.dedup();
            prop_assert_eq!(told.len(), problems.len(), "told twice: {:?}", problems);
            Ok(false)
        }
    }
}

/// A file has many fields: with more wrong ones hardly any would be read.
const RARELY: u32 = 3000;

proptest! {
    #![proptest_config(values::often())]

    #[test]
    fn any_value_is_a_file_or_told_what_is_wrong(value in anything().prop_map(distinct)) {
        check(&value)?;
        let rig = Value::object([("request", value.clone())]);
        let one = |rigs| Value::object([("contract_version", Value::Number(1.0)), ("rigs", rigs)]);
        check(&one(Value::List(vec![rig, value.clone()])))?;
        check(&one(value))?;
    }

    #[test]
    fn any_likely_file_is_read_or_told_what_is_wrong(
        value in for_object(Object::File, RARELY).prop_map(distinct)
    ) {
        check(&value)?;
    }
}

/// The likely files are worth their name: some are read, some are not.
#[test]
fn likely_files_are_of_both_kinds() {
    let files = for_object(Object::File, RARELY).prop_map(distinct);
    values::are_of_both_kinds(&files, |file| check(file).expect("a law holds"));
}
