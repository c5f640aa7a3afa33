//! The type declarations.

use super::answer_objects;
use super::fields::{about, is_optional, may_be_unfinished, sentence, type_name};
use crate::answer::{Answer, ClosedBox, Diagnosis, Readings, Shape, Shaped, Wiring, Words};
use coilwright_solver::bounds::{Field, Kind, OPEN, Object};
use core::fmt::Write;

/// The type declarations of the module, `coilwright.d.ts`.
///
/// # Example
/// ```
/// let text = coilwright_module::contract::typescript();
/// assert!(text.contains("export function configurations(request: Request): Answer;"));
/// ```
#[must_use]
pub fn typescript() -> String {
    let mut text = HEAD.to_owned();
    // The list of readings is an argument of its own, not a field of an object.
    for object in Object::ALL.into_iter().filter(|object| *object != Object::Diagnose) {
        comment(&mut text, "", about(object));
        line(&mut text, &format!("export interface {} {{", type_name(object)));
        for field in object.fields() {
            comment(&mut text, "  ", &sentence(field));
            let name = field.spec().name;
            let optional = if is_optional(field) { "?" } else { "" };
            line(&mut text, &format!("  {name}{optional}: {};", taken(field)));
        }
        text.push_str("}\n\n");
    }
    let mut words: Vec<&'static Words> = Vec::new();
    let answers =
        [Answer::SHAPE, Wiring::SHAPE, Readings::SHAPE, Diagnosis::SHAPE, ClosedBox::SHAPE];
    for object in answer_objects(&answers) {
        comment(&mut text, "", object.doc);
        line(&mut text, &format!("export interface {} {{", object.name));
        for (name, doc, shape) in object.fields {
            comment(&mut text, "  ", doc);
            line(&mut text, &format!("  {name}: {};", given(shape, &mut words)));
        }
        text.push_str("}\n\n");
    }
    for word in words {
        comment(&mut text, "", word.doc);
        line(&mut text, &format!("export type {} =", word.name));
        let list: Vec<String> = word.words.iter().map(|w| format!("  | \"{w}\"")).collect();
        text.push_str(&list.join("\n"));
        text.push_str(";\n\n");
    }
    text.push_str(FUNCTIONS);
    text
}

const HEAD: &str = "\
/* Every way to join loudspeaker voice coils to an amplifier: contract version 1.
 * An ES module only: import it, or await import('coilwright') where require is usual.
 * Written by the project from its one table of fields; do not edit. */

";

const FUNCTIONS: &str = "\
/** The same of which nothing is required, at any depth. */
export type Unfinished<T> = T extends readonly [number, number]
  ? T
  : T extends readonly (infer Entry)[]
    ? readonly Unfinished<Entry>[]
    : T extends object
      ? { [Name in keyof T]?: Unfinished<T[Name]> | null }
      : T;

/** Bytes of the module's wasm, or where to fetch it. */
export type ModuleSource =
  | ArrayBuffer
  | ArrayBufferView
  | string
  | { readonly href: string }
  | { arrayBuffer(): Promise<ArrayBuffer> };

/**
 * Loads the module; await it once before anything else. No argument is needed: the wasm
 * is taken from beside this file, in Node as in a browser, a worker or a bundle. Further
 * calls wait for the same load; after one that failed, the next call tries again.
 */
export default function init(
  source?:
    | ModuleSource
    | Promise<ModuleSource>
    | { readonly module_or_path?: ModuleSource | Promise<ModuleSource> | undefined },
): Promise<void>;

/**
 * Every distinct configuration of the rig, judged against the amplifier and ranked;
 * or every problem with the request. It never throws; before the module is loaded it
 * answers with the problem not_started, as the other functions do.
 */
export function configurations(request: Request): Answer;

/** A list that is kept to be read page by page. Both functions can be taken out of it. */
export interface OpenList {
  /**
   * What configurations answers to the request with this from and limit; what is left out
   * is as the request says. It never throws: once the list is closed, the answer is the
   * problem closed.
   */
  page(from?: number | null, limit?: number | null): Answer;
  /** Lets go of the list, if that is not done yet. */
  close(): void;
}
/**
 * Lists the configurations of the rig once, to be read page by page; close the list when
 * done. At most four are open at once: opening another closes the oldest. What is wrong
 * with the request is told by every page. It never throws once the module is loaded.
 */
export function open(request: Request): OpenList;
/**
 * How one configuration of the rig is wired in its box: terminals, runs, steps, parts;
 * or every problem with the request and the key. Any equal way of writing the key of a
 * configuration is taken. It never throws.
 */
export function wiring(request: Request, key: string): Wiring;

/**
 * Every place where a meter can be held to the plan of a configuration, in the order of
 * the work, and what it should show there; or every problem with the request and the
 * key. It never throws.
 */
export function readings(request: Request, key: string): Readings;

/**
 * What may be wrong with the plan of a configuration as it was built, by what a meter
 * showed at its check points, and what to read next: a hint, not a proof; or every
 * problem with the request, the key and the readings. Of several readings at one point
 * the last counts. It never throws.
 */
export function diagnose(
  request: Request,
  key: string,
  readings: readonly Reading[],
): Diagnosis;

/**
 * What may be in a closed box by one reading at its cup: a hint, not a proof; or every
 * problem with what was asked. It never throws.
 */
export function closed_box(asked: ClosedBoxReading): ClosedBox;
";

fn line(text: &mut String, line: &str) {
    text.push_str(line);
    text.push('\n');
}

/// A documentation comment, wrapped at about 90 columns.
fn comment(text: &mut String, indent: &str, doc: &str) {
    const WIDTH: usize = 86;
    // A doc comment keeps the space before its text.
    let doc = doc.trim_start();
    if doc.chars().count() + indent.len() <= WIDTH {
        let _ = writeln!(text, "{indent}/** {doc} */");
        return;
    }
    let _ = writeln!(text, "{indent}/**");
    let mut row = String::new();
    for word in doc.split(' ') {
        if !row.is_empty() && row.chars().count() + word.chars().count() + indent.len() > WIDTH {
            let _ = writeln!(text, "{indent} *{row}");
            row.clear();
        }
        row.push(' ');
        row.push_str(word);
    }
    let _ = writeln!(text, "{indent} *{row}\n{indent} */");
}

/// The type of a field of the request.
fn taken(field: Field) -> String {
    let own = match field.spec().kind {
        Kind::Text { .. } | Kind::AnyText { .. } => "string".to_owned(),
        Kind::Whole { .. } | Kind::Number { .. } => "number".to_owned(),
        Kind::OneOfNumbers(list) => {
            let list: Vec<String> = list.iter().map(u32::to_string).collect();
            list.join(" | ")
        }
        Kind::OneOfWords(list) => {
            let list: Vec<String> = list.iter().map(|word| format!("\"{word}\"")).collect();
            list.join(" | ")
        }
        Kind::Ohms { .. } => "number | string".to_owned(),
        Kind::Reading { .. } => format!("number | \"{OPEN}\""),
        Kind::Boolean => "boolean".to_owned(),
        Kind::Object(object) if may_be_unfinished(field) => {
            format!("Unfinished<{}>", type_name(object))
        }
        Kind::Object(object) => type_name(object).to_owned(),
        Kind::Objects { of, .. } => format!("readonly {}[]", type_name(of)),
        Kind::Numbers { .. } | Kind::Different { .. } => "readonly number[]".to_owned(),
        Kind::TwoChannels => "readonly [number, number]".to_owned(),
    };
    if is_optional(field) { format!("{own} | null") } else { own }
}

/// The type of a value of the answer; the choices of words it uses are noted.
fn given(shape: &Shape, words: &mut Vec<&'static Words>) -> String {
    match shape {
        Shape::Whole | Shape::Number => "number".to_owned(),
        Shape::Boolean => "boolean".to_owned(),
        Shape::Text => "string".to_owned(),
        Shape::Word(choice) => {
            if words.iter().all(|known| known.name != choice.name) {
                words.push(choice);
            }
            choice.name.to_owned()
        }
        Shape::Nullable(inner) => format!("{} | null", given(inner, words)),
        Shape::List(inner @ Shape::Nullable(_)) => format!("({})[]", given(inner, words)),
        Shape::List(inner) => format!("{}[]", given(inner, words)),
        Shape::Object(object) => object.name.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_and_every_code_is_declared() {
        let text = typescript();
        for field in Field::ALL {
            let name = field.spec().name;
            assert!(
                text.contains(&format!("  {name}: ")) || text.contains(&format!("  {name}?: ")),
                "{name}"
            );
        }
        for code in coilwright_solver::problem::Code::ALL {
            assert!(text.contains(&format!("| \"{}\"", code.name())), "{code:?}");
        }
    }

    /// `A | null[]` would be a value or a list of nothing.
    #[test]
    fn a_list_whose_entries_may_be_null_reads_as_one() {
        let text = typescript();
        assert!(text.contains("  agreements: (Agreement | null)[];"));
        assert!(!text.contains("null[]"));
    }

    #[test]
    fn a_driver_group_reads_like_this() {
        let text = typescript();
        let from = text.find("/** Drivers of one kind. */").unwrap();
        let group = &text[from..];
        let to = group.find("\n}\n").unwrap();
        let want = r#"/** Drivers of one kind. */
export interface DriverGroup {
  /**
   * The name of the group: text of at most 60 characters, none of them a control
   * character. Left out or null: none.
   */
  name?: string | null;
  /** The number of drivers in the group: a whole number from 1 to 16. */
  count: number;
  /** The number of voice coils on each driver: 1, 2 or 4. */
  coils: 1 | 2 | 4;
  /**
   * The impedance of one coil: a number from 0.1 to 1000 Ω, or text such as 1.4 or 4/3
   * (text: digits, optionally a point and one to four digits, or two whole numbers of
   * one to five digits joined by a slash; a number has at most four decimals). Of one
   * coil: on a label, dual 4 means 4.
   */
  ohms: number | string;
  /**
   * The rated power: a number from 0.1 to 100,000 W. Continuous (RMS). Peak and max
   * figures do not count. Left out or null: not stated.
   */
  watts?: number | null;
  /** The choice of whose power is rated: “driver” or “coil”. Left out or null: "driver". */
  watts_per?: "driver" | "coil" | null;"#;
        assert!(group[..to].starts_with(want), "{}", &group[..to]);
    }
}
